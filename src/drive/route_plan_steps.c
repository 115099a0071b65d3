/* A test planned: step by step and movement by movement.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HALF_TURN 3.141592653589793

/* Past this change of direction, an arc that touches both lines passes the point where they meet
 * by more than its own diameter: 1 / cos(angle / 2) - 1 > 2. */
#define SHARP 2.4619188346815

/* A turn that is too sharp; where the way along the track was meant, that is suggested. */
static void tell_sharp(struct rt__plan *p, size_t leg, const struct rt__station *s,
		       const struct rt_peg *to)
{
	struct rt_route_problem problem = {
		.leg = leg, .kind = RT_ROUTE_SHARP, .at = s->name, .largest_m = NAN};

	if (s->peg && !s->peg->corner && !to->corner)
		problem.suggest = rt__track_way_words(p->track, s->peg, to, p->text);
	rt__plan_problem(p, &problem);
}

/* After a half circle, a letter behind is a reversal; half a circle more is no way to it. */
static bool half_circle_leads_away(const struct rt__plan *p, const struct rt__station *s,
				   double angle)
{
	return s->acts && p->act.at[p->act.n - 1].step.kind == RT_STEP_HALF &&
	       angle > HALF_TURN / 2.0 + RT__PASS_ANGLE;
}

/* Whether the route may go from the last station to `to`; begins again there when it may not. */
static void check_way_on(struct rt__plan *p, size_t leg, const struct rt_peg *to)
{
	const struct rt__station *s = rt__plan_last(p);
	struct rt_vec here, on = rt__toward(s->leave.at, rt__peg_point(to));
	double angle;

	if (p->gap || !rt__plan_heading(p, &here))
		return;
	angle = rt__angle_between(here, on);
	if (angle > HALF_TURN - RT__PASS_ANGLE || half_circle_leads_away(p, s, angle))
		rt__plan_tell(p, RT_ROUTE_REVERSAL, leg, s->leave_name, NULL);
	else if (s->asked && !s->figures && angle > RT__LEAVE_ANGLE)
		rt__plan_tell(p, p->station.n == 1 ? RT_ROUTE_START_TURNS : RT_ROUTE_TURNS_THERE,
			      leg, "the loop ends", s->name);
	else if (!s->asked && !s->figures && angle > SHARP)
		tell_sharp(p, leg, s, to);
	else
		return;
	rt__plan_lose(p, leg);
	rt__plan_begin_again(p, leg);
}

static void lose_loop(struct rt__plan *p)
{
	rt__plan_tell(p, RT_ROUTE_LOOP_PLACE, p->loop.leg, NULL, NULL);
	rt__plan_lose(p, p->loop.leg);
	p->loop.waits = false;
}

static bool on_long_side(const struct rt_peg *peg)
{
	return peg && !peg->corner && (peg->side == RT_LEFT || peg->side == RT_RIGHT);
}

/* The middle of the loop that waits, on the way to its other letter; false where there cannot
 * be one. */
static bool plan_loop(struct rt__plan *p, const struct rt_peg *to)
{
	struct rt__station *s = rt__plan_last(p);
	struct rt_vec from = s->leave.at, end = rt__peg_point(to), toward, comes, middle;

	if (p->gap || !on_long_side(s->peg) || !on_long_side(to) || s->peg->side != to->side ||
	    rt__distance(from, rt__peg_point(s->peg)) > RT__EQUAL_M ||
	    rt__distance(from, end) <= RT__EQUAL_M) {
		lose_loop(p);
		return false;
	}
	toward = rt__toward(from, end);
	if (rt__plan_heading(p, &comes) && rt__angle_between(comes, toward) > RT__LEAVE_ANGLE) {
		rt__plan_tell(p, RT_ROUTE_TURNS_THERE, p->loop.leg, "the loop begins", s->name);
		rt__plan_lose(p, p->loop.leg);
		p->loop.waits = false;
		return false;
	}
	if (!s->figures) {
		s->asked = true;
		s->toward = toward;
	}
	middle.x = from.x - copysign(p->loop.metres, from.x);
	middle.y = (from.y + end.y) / 2.0;
	s = rt__plan_add(p, middle, NULL, p->loop.leg);
	s->asked = true;
	s->toward = toward;
	return true;
}

/* Movements that ended in the loop before its other letter was known end at its middle. */
static void end_in_loop(struct rt__plan *p, size_t leg)
{
	for (size_t i = p->loop.leg; i < leg; i++) {
		p->end.at[i].station = p->station.n - 1;
		p->end.at[i].acts = 0;
	}
}

static void no_letter(struct rt__plan *p, size_t leg, const char *letter)
{
	const char *names[128];
	size_t n = 0;
	struct rt_route_problem problem = {.leg = leg,
					   .kind = RT_ROUTE_NO_LETTER,
					   .at = rt__plan_name(p, "%s", letter),
					   .beside = p->kind->name,
					   .largest_m = NAN};

	for (size_t i = 0; i < p->track->pegs.n && n < sizeof names / sizeof *names; i++)
		names[n++] = p->track->pegs.at[i].name;
	for (size_t i = 0; i < n && !problem.suggest; i++)
		if (rt_same_name(names[i], letter))
			problem.suggest = names[i];
	if (!problem.suggest)
		problem.suggest = rt_nearest(letter, names, n);
	rt__plan_problem(p, &problem);
	rt__plan_lose(p, leg);
	p->gap = true;
}

static void plan_letter(struct rt__plan *p, size_t leg, const struct rt_step *step)
{
	const struct rt_peg *peg = rt_peg_find(&p->track->pegs, step->letter), *corner = NULL;
	struct rt__station *s = rt__plan_last(p);
	bool loop = false;

	if (!peg) {
		if (p->loop.waits)
			lose_loop(p);
		no_letter(p, leg, step->letter);
		return;
	}
	if (p->loop.waits) {
		loop = plan_loop(p, peg);
		if (loop)
			end_in_loop(p, leg);
		p->loop.waits = false;
	} else if (!p->gap && rt__distance(s->leave.at, rt__peg_point(peg)) <= RT__EQUAL_M) {
		if (step->diameter_m > 0.0)
			s->diameter_m = step->diameter_m;
		return;
	}
	if (!loop && !p->gap)
		corner = rt__corner_between(p->track, s->leave.at, rt__peg_point(peg));
	if (!loop)
		check_way_on(p, leg, corner ? corner : peg);
	if (corner)
		rt__plan_add(p, rt__peg_point(corner), corner, leg);
	s = rt__plan_add(p, rt__peg_point(peg), peg, leg);
	s->diameter_m = step->diameter_m;
	if (loop) {
		s->asked = true;
		s->toward = s[-1].toward;
	}
}

static void plan_step(struct rt__plan *p, size_t leg, const struct rt_step *step)
{
	if (step->kind != RT_STEP_LETTER && p->loop.waits)
		lose_loop(p);
	switch (step->kind) {
	case RT_STEP_LETTER:
		plan_letter(p, leg, step);
		break;
	case RT_STEP_HALT:
	case RT_STEP_BACK:
		if (p->gap)
			rt__plan_lose(p, leg);
		else
			rt__plan_act(p, leg, step);
		break;
	case RT_STEP_CIRCLE:
	case RT_STEP_HALF:
		rt__plan_circle(p, leg, step);
		break;
	case RT_STEP_LOOP:
		p->loop.waits = true;
		p->loop.leg = leg;
		p->loop.metres = step->metres;
		break;
	case RT_STEP_SERPENTINE:
		rt__plan_serpentine(p, leg, step);
		break;
	}
}

void rt__plan_start(struct rt__plan *p)
{
	const struct rt_vec at = {0.0, -p->track->half_length};
	struct rt__station *s;

	p->trial.leg = RT__NONE;
	s = RT_LIST_ADD(&p->station);
	if (!s) {
		p->nomem = true;
		return;
	}
	*s = (struct rt__station){
		.at = at,
		.peg = rt__track_peg(p->track, RT_SIDE_A, at),
		.name = "A",
		.leave_name = "A",
		.fresh = true,
		.asked = true,
		.toward = {0.0, 1.0},
		.leave.at = at,
		.next = RT__NONE,
		.before = RT__NONE,
	};
}

void rt__plan_movement(struct rt__plan *p, size_t leg, const struct rt_steps *steps, bool driven)
{
	struct rt__end *end = p->nomem ? NULL : RT_LIST_ADD(&p->end);

	if (!end) {
		p->nomem = true;
		return;
	}
	end->driven = driven;
	for (size_t i = 0; i < steps->n && !p->nomem; i++)
		plan_step(p, leg, &steps->at[i]);
	if (p->nomem)
		return;
	p->end.at[leg].station = p->station.n - 1;
	p->end.at[leg].acts = rt__plan_last(p)->acts;
}

void rt__plan_finish(struct rt__plan *p)
{
	if (p->loop.waits && !p->nomem)
		lose_loop(p);
}

void rt__plan_free(struct rt__plan *p)
{
	RT_LIST_FREE(&p->station);
	RT_LIST_FREE(&p->act);
	RT_LIST_FREE(&p->end);
	RT_LIST_FREE(&p->problem);
}
