/* Planning of circles, half circles and serpentines, where the route may drive them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define HALF_TURN 3.141592653589793

/* Make ready for a figure that touches the line of travel at the last station, *toward its
 * heading; false (and told, for `what`) where the route turns or no line leads. */
static bool meet_line(struct rt__plan *p, size_t leg, const char *what, struct rt_vec *toward)
{
	struct rt__station *s = rt__plan_last(p);
	struct rt_vec comes, track;

	if (p->gap || !rt__plan_heading(p, &comes)) {
		rt__plan_lose(p, leg);
		return false;
	}
	*toward = comes;
	if (s->figures || s->asked)
		return true;
	if ((s->peg && s->peg->corner) ||
	    (!s->along && rt__track_direction(p->track, s->at, comes, &track) &&
	     rt__angle_between(comes, track) > RT__LEAVE_ANGLE)) {
		rt__plan_tell(p, RT_ROUTE_TURNS_THERE, leg, what, s->name);
		rt__plan_lose(p, leg);
		return false;
	}
	if (!s->along && rt__track_direction(p->track, s->at, comes, &track)) {
		s->asked = true;
		s->toward = *toward = track;
	}
	return true;
}

void rt__plan_circle(struct rt__plan *p, size_t leg, const struct rt_step *step)
{
	bool half = step->kind == RT_STEP_HALF;
	struct rt_vec toward;
	struct rt__station *s;

	if (!meet_line(p, leg, half ? "half circle" : "circle", &toward))
		return;
	rt__plan_act(p, leg, step);
	s = rt__plan_last(p);
	s->figures = true;
	s->leave.toward = toward;
	if (half) {
		s->leave.at = rt__go(s->leave.at, rt__left(toward),
				     step->hand == RT_LEFT ? step->diameter_m : -step->diameter_m);
		s->leave.toward = (struct rt_vec){-toward.x, -toward.y};
		s->leave_name = rt__plan_name(p, "the half circle at %s", s->name);
	}
}

double rt__serpentine_width(const struct rt__plan *p, const struct rt_step *step)
{
	return step->width_m > 0.0 ? step->width_m : 2.0 * p->track->half_width;
}

double rt__serpentine_diameter(const struct rt__plan *p, const struct rt_step *step)
{
	return 2.0 * p->track->half_length / step->loops;
}

/* Whether the serpentine's first line, looking `first`, follows from the way to the last
 * station; else it is told, and the serpentine begins by itself. */
static void meet_serpentine(struct rt__plan *p, size_t leg, struct rt_vec first)
{
	struct rt__station *s = rt__plan_last(p);
	struct rt_vec comes;
	bool known = !p->gap && rt__plan_heading(p, &comes);
	double angle = known ? rt__angle_between(comes, first) : 0.0;

	if (angle > RT__LEAVE_ANGLE) {
		if (angle > HALF_TURN - RT__LEAVE_ANGLE)
			rt__plan_tell(p, RT_ROUTE_SERPENTINE_HAND, leg, s->name, NULL);
		else
			rt__plan_tell(p, RT_ROUTE_TURNS_THERE, leg, "serpentine", s->name);
	}
	if (!known || angle > RT__LEAVE_ANGLE)
		s = rt__plan_begin_again(p, leg);
	if (!s->figures) {
		s->asked = true;
		s->toward = first;
	}
}

void rt__plan_serpentine(struct rt__plan *p, size_t leg, const struct rt_step *step)
{
	struct rt__station *s = rt__plan_last(p);
	double end = copysign(1.0, s->leave.at.y), width = rt__serpentine_width(p, step);
	struct rt_vec first = {(step->hand == RT_LEFT) == (end > 0.0) ? 1.0 : -1.0, 0.0};
	const struct rt_peg *other;
	struct rt_route_problem wide = {
		.leg = leg, .kind = RT_ROUTE_SERPENTINE_WIDE, .has_m = width, .largest_m = NAN};

	wide.needs_m = rt__serpentine_diameter(p, step);
	if (p->gap || fabs(s->leave.at.x) > RT__EQUAL_M ||
	    fabs(fabs(s->leave.at.y) - p->track->half_length) > RT__EQUAL_M)
		rt__plan_tell(p, RT_ROUTE_SERPENTINE_PLACE, leg, NULL, NULL);
	else if (wide.needs_m > width + RT__EQUAL_M)
		rt__plan_problem(p, &wide);
	else {
		meet_serpentine(p, leg, first);
		rt__plan_act(p, leg, step);
		s = rt__plan_last(p);
		s->figures = true;
		s->leave.at = (struct rt_vec){0.0, -end * p->track->half_length};
		s->leave.toward = (struct rt_vec){step->loops % 2 ? -first.x : first.x, 0.0};
		other = rt__track_peg(p->track, end > 0.0 ? RT_SIDE_A : RT_SIDE_C, s->leave.at);
		s->leave_name = other ? other->name : "the end of the serpentine";
		return;
	}
	rt__plan_lose(p, leg);
	p->gap = true;
}
