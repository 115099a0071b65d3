/* Points, poses and arcs in the plane, and the two ways to join straight lines by them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* Directions are unit vectors and not angles: lines along the axes then stay exact, and a
 * quarter line at 10 m is 10 and not 9.999999999999998. */

#define TWO_PI 6.283185307179586

/* An arc turned by less than this back over its start is no arc, and not a full circle. */
#define NO_TURN 1e-9

static double dot(struct rt_vec a, struct rt_vec b)
{
	return a.x * b.x + a.y * b.y;
}

static double cross(struct rt_vec a, struct rt_vec b)
{
	return a.x * b.y - a.y * b.x;
}

double rt__distance(struct rt_vec a, struct rt_vec b)
{
	return hypot(b.x - a.x, b.y - a.y);
}

struct rt_vec rt__from_to(struct rt_vec from, struct rt_vec to)
{
	return (struct rt_vec){to.x - from.x, to.y - from.y};
}

struct rt_vec rt__toward(struct rt_vec from, struct rt_vec to)
{
	double m = rt__distance(from, to);

	return (struct rt_vec){(to.x - from.x) / m, (to.y - from.y) / m};
}

double rt__angle_to(struct rt_vec a, struct rt_vec b)
{
	return atan2(cross(a, b), dot(a, b));
}

double rt__angle_between(struct rt_vec a, struct rt_vec b)
{
	return fabs(rt__angle_to(a, b));
}

/* tan(angle / 2) of the change of direction: sine over one plus cosine. */
static double half_tangent(struct rt_vec before, struct rt_vec after)
{
	return fabs(cross(before, after)) / (1.0 + dot(before, after));
}

struct rt__arc rt__fillet(struct rt_vec from, struct rt_vec at, struct rt_vec to, double radius)
{
	struct rt_vec before = rt__toward(from, at), after = rt__toward(at, to);
	double tangent = radius * half_tangent(before, after);
	struct rt__arc arc;

	arc.radius = radius;
	arc.turned = rt__angle_to(before, after);
	arc.begin = (struct rt_pose){rt__go(at, before, -tangent), before};
	arc.finish = (struct rt_pose){rt__go(at, after, tangent), after};
	arc.centre = rt__go(arc.begin.at, rt__left(before), copysign(radius, arc.turned));
	return arc;
}

/* The change of direction from `before` to `after`, all of it to one hand (1 left, -1 right):
 * 0 up to a full circle. */
static double turned_to(int hand, struct rt_vec before, struct rt_vec after)
{
	double angle = hand * rt__angle_to(before, after);

	if (angle < -NO_TURN)
		angle += TWO_PI;
	return fmax(angle, 0.0);
}

static struct rt_vec centre_beside(const struct rt_pose *pose, int hand, double radius)
{
	return rt__go(pose->at, rt__left(pose->toward), hand * radius);
}

/* Arc, straight, arc with the hands given; false where the circles lie too near for a line
 * between them, or one inside the other. */
static bool join_with(const struct rt_pose *from, double r1, int first, const struct rt_pose *to,
		      double r2, int second, struct rt__join *out)
{
	struct rt_vec c1 = centre_beside(from, first, r1);
	struct rt_vec c2 = centre_beside(to, second, r2);
	double apart = rt__distance(c1, c2), beside = first * r1 - second * r2, lean = 0.0;
	struct rt_vec toward = from->toward;

	/* The straight leans against the line of centres by asin(lean), 0 for one hand and
	 * radius.  Circles that touch may seem to overlap by a rounding. */
	if (apart + RT__EQUAL_M < fabs(beside))
		return false;
	if (apart > 0.0) {
		struct rt_vec line = rt__toward(c1, c2);

		lean = fmax(-1.0, fmin(1.0, beside / apart));
		toward = rt__go((struct rt_vec){0.0, 0.0}, line, sqrt(1.0 - lean * lean));
		toward = rt__go(toward, rt__left(line), lean);
	}
	out->straight_m = apart * sqrt(1.0 - lean * lean);
	out->first = (struct rt__arc){
		.begin = *from,
		.finish = {rt__go(c1, rt__left(toward), -first * r1), toward},
		.centre = c1,
		.radius = r1,
		.turned = first * turned_to(first, from->toward, toward),
	};
	out->second = (struct rt__arc){
		.begin = {rt__go(c2, rt__left(toward), -second * r2), toward},
		.finish = *to,
		.centre = c2,
		.radius = r2,
		.turned = second * turned_to(second, toward, to->toward),
	};
	return true;
}

double rt__arc_length(const struct rt__arc *arc)
{
	return arc->radius * fabs(arc->turned);
}

double rt__join_length(const struct rt__join *join)
{
	return rt__arc_length(&join->first) + join->straight_m + rt__arc_length(&join->second);
}

bool rt__join_unequal(struct rt__join *out, const struct rt_pose *from, double first,
		      const struct rt_pose *to, double second)
{
	struct rt__join tried;
	bool found = false;

	for (int hands = 0; hands < 4; hands++) {
		if (!join_with(from, first, hands & 1 ? -1 : 1, to, second, hands & 2 ? -1 : 1,
			       &tried))
			continue;
		if (!found || rt__join_length(&tried) < rt__join_length(out))
			*out = tried;
		found = true;
	}
	return found;
}

struct rt__join rt__join(const struct rt_pose *from, const struct rt_pose *to, double radius)
{
	struct rt__join best = {0};

	rt__join_unequal(&best, from, radius, to, radius); /* left and left is always there */
	return best;
}
