/* The arcs and straights of a planned route.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define HALF_TURN 3.141592653589793

struct rt__arc rt__arc_from(const struct rt_pose *from, const struct rt__move *move)
{
	struct rt_piece piece = {*from, move->straight_m, 0.0};
	struct rt__arc arc = {.begin = *from, .radius = move->radius, .turned = move->turned};
	double side = copysign(move->radius, move->turned);

	if (move->radius > 0.0) {
		piece.length_m = rt__arc_length(&arc);
		piece.curvature_per_m = 1.0 / side;
	}
	arc.finish = rt_piece_at(&piece, piece.length_m);
	arc.centre = rt__go(from->at, rt__left(from->toward), side);
	return arc;
}

/* A serpentine: along the short side, then half circles with straights between them, and along
 * the other short side. */
static bool serpentine_move(const struct rt__plan *p, const struct rt_step *step, size_t index,
			    struct rt__move *out)
{
	size_t last = 2 * (size_t)step->loops;
	double diameter = rt__serpentine_diameter(p, step);
	double across = rt__serpentine_width(p, step) - diameter;
	/* A first loop on the left leads to the left and then curves back to the right. */
	int hand = ((index / 2) % 2 == 0) == (step->hand == RT_LEFT) ? -1 : 1;

	if (index > last)
		return false;
	if (index % 2)
		*out = (struct rt__move){0.0, diameter / 2.0, hand * HALF_TURN};
	else
		*out = (struct rt__move){.straight_m = index == 0 || index == last ? across / 2.0
										   : across};
	return true;
}

bool rt__act_move(const struct rt__plan *p, const struct rt__act *act, size_t index,
		  struct rt__move *out)
{
	const struct rt_step *step = &act->step;
	double turned = step->kind == RT_STEP_HALF ? HALF_TURN : 2.0 * HALF_TURN;

	if (step->kind == RT_STEP_SERPENTINE)
		return serpentine_move(p, step, index, out);
	if ((step->kind != RT_STEP_CIRCLE && step->kind != RT_STEP_HALF) || index > 0)
		return false;
	*out = (struct rt__move){0.0, step->diameter_m / 2.0,
				 step->hand == RT_LEFT ? turned : -turned};
	return true;
}

/* ---- ways ------------------------------------------------------------------------------------ */

/* The way of a station that is come to and left, without a heading that is asked. */
static enum rt__way way_between(struct rt__station *s, struct rt_vec comes, struct rt_vec goes)
{
	double angle = rt__angle_between(comes, goes);

	if (angle < RT__PASS_ANGLE)
		return RT__PASS;
	if (angle > RT__LEAVE_ANGLE)
		return RT__TURN;
	if (s->along)
		return RT__POSE;
	if (!s[1].along)
		return RT__TURN;
	s->toward = goes;
	return RT__FIXED;
}

static enum rt__way way_of(const struct rt__plan *p, size_t i)
{
	struct rt__station *s = &p->station.at[i];
	struct rt_vec comes, goes, track;
	bool comes_here = rt__plan_comes(p, i, &comes), goes_on = rt__plan_goes(p, i, &goes);

	if (s->asked)
		return RT__FIXED;
	if (s->figures)
		return RT__POSE;
	if (comes_here && goes_on)
		return way_between(s, comes, goes);
	if (comes_here && !s->along && rt__track_direction(p->track, s->at, comes, &track) &&
	    rt__angle_between(comes, track) <= RT__LEAVE_ANGLE) {
		s->toward = track;
		return RT__FIXED;
	}
	return RT__POINT;
}

void rt__route_ways(struct rt__plan *p)
{
	for (size_t i = 0; i < p->station.n; i++)
		p->station.at[i].way = way_of(p, i);
}

/* ---- legs ------------------------------------------------------------------------------------ */

static bool has_heading(const struct rt__station *s)
{
	return s->way == RT__POSE || s->way == RT__FIXED;
}

/* The radius of an arc: the station's own number, or that of the movement it is driven in. */
static double radius_of(const struct rt__plan *p, const struct rt__station *s, size_t leg)
{
	if (s->diameter_m > 0.0)
		return s->diameter_m / 2.0;
	return (leg == p->trial.leg ? p->trial.diameter_m : p->diameter_m) / 2.0;
}

/* The next station that is not passed through; RT__NONE: the way ends here. */
static size_t next_of(const struct rt__plan *p, size_t i)
{
	for (i++; i < p->station.n && !p->station.at[i].fresh; i++)
		if (p->station.at[i].way != RT__PASS)
			return i;
	return RT__NONE;
}

/* Where a station is left once its acts are done. */
static void settle_exit(const struct rt__plan *p, struct rt__station *s)
{
	struct rt_pose pose = s->entry;
	struct rt__move move;

	for (size_t a = s->act; a < s->act + s->acts; a++)
		for (size_t k = 0; rt__act_move(p, &p->act.at[a], k, &move); k++)
			pose = rt__arc_from(&pose, &move).finish;
	s->exit = pose;
}

/* Join a station to the next; false where there is no way. */
static bool join_to(const struct rt__plan *p, struct rt__station *a, struct rt__station *b)
{
	struct rt_pose from = has_heading(a) ? a->exit : (struct rt_pose){a->at, {1.0, 0.0}};
	struct rt_pose to = {b->at, {1.0, 0.0}};
	/* The arc out of a station is driven in the movement that goes on from it. */
	double first = has_heading(a) ? radius_of(p, a, a[1].leg) : 0.0;
	double second = b->way == RT__FIXED ? radius_of(p, b, b->leg) : 0.0;

	if (b->way == RT__FIXED)
		to.toward = b->toward;
	if (!rt__join_unequal(&a->join, &from, first, &to, second))
		return false;
	/* A point is left and met whatever the heading. */
	if (first <= 0.0)
		a->join.first.turned = 0.0;
	if (second <= 0.0)
		a->join.second.turned = 0.0;
	return true;
}

/* Whether the way from a to b goes through the stations between them. */
static bool passes(const struct rt__plan *p, size_t a, size_t b)
{
	const struct rt__join *join = &p->station.at[a].join;
	struct rt_vec u = join->first.finish.toward, from = join->first.finish.at;

	for (size_t i = a + 1; i < b; i++) {
		struct rt_vec at = p->station.at[i].at;

		if (fabs((at.x - from.x) * u.y - (at.y - from.y) * u.x) > RT__EQUAL_M)
			return false;
	}
	return true;
}

/* Stand in for a way that cannot be driven: the straight between the points. */
static void join_by_straight(struct rt__station *a, const struct rt__station *b)
{
	struct rt_pose from = {a->leave.at, rt__toward(a->leave.at, b->at)};

	a->broken = true;
	a->join = (struct rt__join){
		.first = {.begin = from, .finish = from},
		.second = {.begin = {b->at, from.toward}, .finish = {b->at, from.toward}},
		.straight_m = rt__distance(a->leave.at, b->at),
	};
}

/* From a to the next station.  Where arcs at the ends would lead it past the stations between,
 * the first or last of those is turned at. */
static void solve_leg(struct rt__plan *p, size_t a)
{
	struct rt__station *s = p->station.at;
	size_t b = next_of(p, a);

	if (b != RT__NONE && join_to(p, &s[a], &s[b]) && !passes(p, a, b)) {
		if (has_heading(&s[a]))
			s[a + 1].way = RT__TURN;
		if (s[b].way == RT__FIXED)
			s[b - 1].way = RT__TURN;
		b = next_of(p, a);
	}
	s[a].next = b;
	s[a].broken = false;
	if (b == RT__NONE)
		return;
	if (!join_to(p, &s[a], &s[b]))
		join_by_straight(&s[a], &s[b]);
	s[b].before = a;
	s[b].entry = (struct rt_pose){s[b].at, s[a].join.first.finish.toward};
	if (s[b].way == RT__FIXED)
		s[b].entry.toward = s[b].toward;
	settle_exit(p, &s[b]);
}

static void solve_turn(const struct rt__plan *p, struct rt__station *s)
{
	struct rt_vec before = p->station.at[s->before].join.first.finish.toward;
	struct rt_vec after = s->join.first.finish.toward;

	s->turn = rt__fillet(rt__go(s->at, before, -1.0), s->at, rt__go(s->at, after, 1.0),
			     radius_of(p, s, s->leg));
}

double rt__tangent(const struct rt__station *s)
{
	return s->way == RT__TURN ? rt__distance(s->turn.begin.at, s->at) : 0.0;
}

void rt__route_solve(struct rt__plan *p, size_t from, size_t to)
{
	struct rt__station *s = p->station.at;

	for (size_t i = from; i <= to; i++) {
		if (s[i].fresh) {
			s[i].entry = (struct rt_pose){s[i].at, s[i].toward};
			settle_exit(p, &s[i]);
		}
		if (s[i].way != RT__PASS && i < to)
			solve_leg(p, i);
	}
	for (size_t i = from + 1; i < to; i++)
		if (s[i].way == RT__TURN)
			solve_turn(p, &s[i]);
}
