/* What keeps a solved plan from being driven as asked, and the largest diameters that fit.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HALF_TURN 3.141592653589793
#define NO_TURN	  1e-9

/* Radians: a line that bends by less at a letter, on its way from arc to arc of unequal
 * diameters, is straight enough to stand on. */
#define HARDLY_TURNS 0.1

/* Stations before and after a movement that its turns may crowd. */
#define NEIGHBOURS 2

const char *rt__turn_name(struct rt__plan *p, const struct rt__station *s)
{
	return rt__plan_name(p, "%s %s", s->peg && s->peg->corner ? "corner" : "turn at", s->name);
}

const char *rt__leave_name(struct rt__plan *p, const struct rt__station *s)
{
	if (!s->peg)
		return "loop";
	return rt__plan_name(p, "%s %s", s->figures ? "on from" : "leave", s->leave_name);
}

const char *rt__arrive_name(struct rt__plan *p, const struct rt__station *s)
{
	return s->peg ? rt__plan_name(p, "arrive %s", s->name) : "loop";
}

/* A problem of size: kept, or while a diameter is tried only noted. */
static void tell(struct rt__plan *p, const struct rt_route_problem *problem)
{
	if (p->trial.leg == RT__NONE)
		rt__plan_problem(p, problem);
	else if (p->trial.leg == problem->leg)
		p->trial.failed = true;
}

/* ---- room on a line -------------------------------------------------------------------------- */

/* The way along the track for a straight between two letters, where that was meant. */
static const char *suggest(struct rt__plan *p, const struct rt__station *from, size_t to)
{
	const struct rt__station *b = &p->station.at[to];

	if (to == RT__NONE || !from->peg || !b->peg || from->peg->corner || b->peg->corner)
		return NULL;
	return rt__track_way_words(p->track, from->peg, b->peg, p->text);
}

/* A suggestion for the ways before, between and after two stations. */
static const char *suggest_near(struct rt__plan *p, const struct rt__station *a, size_t b)
{
	const char *words = NULL;

	if (a->before != RT__NONE)
		words = suggest(p, &p->station.at[a->before], (size_t)(a - p->station.at));
	if (!words)
		words = suggest(p, a, b);
	if (!words && p->station.at[b].next != RT__NONE)
		words = suggest(p, &p->station.at[b], p->station.at[b].next);
	return words;
}

/* Two turns that need more of their line than there is.  A turn is told once, on the first line
 * that is too short for it. */
static void tell_no_room(struct rt__plan *p, struct rt__station *a, size_t next)
{
	struct rt__station *b = &p->station.at[next];
	double from_a = rt__tangent(a), from_b = rt__tangent(b);
	double has = a->join.straight_m;
	bool a_alone = !(from_a <= has + RT__EQUAL_M) || from_b <= 0.0;
	bool b_alone = !a_alone && (!(from_b <= has + RT__EQUAL_M) || from_a <= 0.0);
	struct rt__station *blamed = a_alone ? a : b, *other = a_alone ? b : a;
	struct rt_route_problem problem = {
		.leg = blamed->leg,
		.kind = a_alone || b_alone ? RT_ROUTE_NO_ROOM : RT_ROUTE_NO_ROOM_BOTH,
		.needs_m = a_alone   ? from_a
			   : b_alone ? from_b
				     : from_a + from_b,
		.has_m = has,
		.largest_m = NAN,
	};

	a->broken = true;
	if (blamed->blamed)
		return;
	blamed->blamed = true;
	if (p->trial.leg == RT__NONE) {
		problem.at = rt__turn_name(p, a_alone || b_alone ? blamed : a);
		problem.beside = a_alone || b_alone ? other->name : rt__turn_name(p, b);
		problem.suggest = suggest_near(p, a, next);
		p->end.at[problem.leg].broken = true;
	}
	tell(p, &problem);
}

/* Halts on a straight must stand clear of the turns at its ends. */
static void check_halts(struct rt__plan *p, size_t a)
{
	const struct rt__station *s = &p->station.at[a], *b = &p->station.at[s->next];
	struct rt_vec from = s->join.first.finish.at, u = s->join.first.finish.toward;

	for (size_t i = a + 1; i < s->next; i++) {
		const struct rt__station *halt = &p->station.at[i];
		double on = (halt->at.x - from.x) * u.x + (halt->at.y - from.y) * u.y;
		struct rt_route_problem problem = {.kind = RT_ROUTE_IN_ARC,
						   .at = "halt",
						   .beside = halt->name,
						   .largest_m = NAN};

		if (halt->acts == 0 || (on >= rt__tangent(s) - RT__EQUAL_M &&
					on <= s->join.straight_m - rt__tangent(b) + RT__EQUAL_M))
			continue;
		problem.leg = p->act.at[halt->act].leg;
		tell(p, &problem);
	}
}

/* ---- arcs ------------------------------------------------------------------------------------ */

/* How far an arc lies outside the ring; 0 or less: not at all. */
static double outside_m(const struct rt__plan *p, const struct rt__arc *arc)
{
	struct rt_piece piece = {arc->begin, rt__arc_length(arc),
				 copysign(1.0 / arc->radius, arc->turned)};
	const struct rt_path path = {.at = &piece, .n = 1};
	struct rt_path_extent box = rt_path_box(&path);
	double x = fmax(box.x_max_m, -box.x_min_m) - p->kind->width_m / 2.0;
	double y = fmax(box.y_max_m, -box.y_min_m) - p->kind->length_m / 2.0;

	return fmax(x, y);
}

/* An arc that leaves or comes to a station. */
static void check_arc(struct rt__plan *p, size_t leg, const struct rt__arc *arc,
		      const struct rt__station *s, bool leaves)
{
	struct rt_route_problem problem = {.leg = leg, .largest_m = NAN};

	if (!(fabs(arc->turned) > NO_TURN))
		return;
	problem.needs_m = outside_m(p, arc);
	if (fabs(arc->turned) > HALF_TURN + NO_TURN)
		problem.kind = RT_ROUTE_OVER_HALF;
	else if (problem.needs_m > RT__EQUAL_M)
		problem.kind = RT_ROUTE_OUTSIDE;
	else
		return;
	if (p->trial.leg == RT__NONE)
		problem.at = leaves ? rt__leave_name(p, s) : rt__arrive_name(p, s);
	tell(p, &problem);
}

static void check_leg(struct rt__plan *p, size_t i)
{
	struct rt__station *a = &p->station.at[i], *b;
	double turns;

	if (a->way == RT__PASS || a->next == RT__NONE)
		return;
	b = &p->station.at[a->next];
	if (a->broken) {
		const struct rt_route_problem problem = {
			.leg = b->leg,
			.kind = RT_ROUTE_NO_WAY,
			.at = b->name,
			.largest_m = NAN,
		};

		if (p->trial.leg == RT__NONE)
			p->end.at[b->leg].broken = true;
		tell(p, &problem);
		return;
	}
	check_arc(p, a[1].leg, &a->join.first, a, true);
	check_arc(p, b->leg, &a->join.second, b, false);
	turns = rt__tangent(a) + rt__tangent(b);
	if (turns <= a->join.straight_m + RT__EQUAL_M)
		check_halts(p, i);
	else
		tell_no_room(p, a, a->next);
}

static void check_legs(struct rt__plan *p, size_t from, size_t to)
{
	for (size_t i = from; i < to; i++)
		p->station.at[i].blamed = false;
	for (size_t i = from; i < to; i++)
		check_leg(p, i);
}

/* ---- acts ------------------------------------------------------------------------------------ */

/* How far an act driven from this pose lies outside the ring; the pose is moved to its end. */
static double act_outside_m(const struct rt__plan *p, const struct rt__act *act,
			    struct rt_pose *pose)
{
	struct rt__move move;
	double most = 0.0;

	for (size_t k = 0; rt__act_move(p, act, k, &move); k++) {
		struct rt__arc arc = rt__arc_from(pose, &move);

		if (move.radius > 0.0)
			most = fmax(most, outside_m(p, &arc));
		*pose = arc.finish;
	}
	return most;
}

/* The largest circle or half circle that stays in the ring from this pose. */
static double largest_circle(const struct rt__plan *p, struct rt__act act, struct rt_pose pose)
{
	for (int tenths = (int)(act.step.diameter_m * 10.0); tenths > 0; tenths--) {
		struct rt_pose from = pose;

		act.step.diameter_m = tenths / 10.0;
		if (act_outside_m(p, &act, &from) <= RT__EQUAL_M)
			return act.step.diameter_m;
	}
	return NAN;
}

static void check_figures(struct rt__plan *p, const struct rt__station *s)
{
	struct rt_pose pose = s->entry;

	for (size_t a = s->act; a < s->act + s->acts; a++) {
		const struct rt__act *act = &p->act.at[a];
		struct rt_pose from = pose;
		struct rt_route_problem problem = {
			.leg = act->leg, .kind = RT_ROUTE_OUTSIDE, .largest_m = NAN};

		problem.needs_m = act_outside_m(p, act, &pose);
		if (problem.needs_m <= RT__EQUAL_M)
			continue;
		if (act->step.kind == RT_STEP_SERPENTINE) {
			problem.at = "serpentine";
		} else {
			problem.at = rt__plan_name(
				p, "%s at %s",
				act->step.kind == RT_STEP_HALF ? "half circle" : "circle", s->name);
			problem.largest_m = largest_circle(p, *act, from);
		}
		rt__plan_problem(p, &problem);
	}
}

/* A halt at a letter where the route turns. */
static void check_stands(struct rt__plan *p, const struct rt__station *s)
{
	struct rt_route_problem problem = {
		.kind = RT_ROUTE_TURNS_THERE, .beside = s->name, .largest_m = NAN};

	if (s->way != RT__TURN || s->acts == 0 || fabs(s->turn.turned) < HARDLY_TURNS)
		return;
	problem.leg = p->act.at[s->act].leg;
	problem.at = p->act.at[s->act].step.kind == RT_STEP_BACK ? "rein-back" : "halt";
	rt__plan_problem(p, &problem);
}

/* ---- the largest that fits ------------------------------------------------------------------- */

/* The stations that the turns of a movement concern: some before it and after it, neither
 * passed through. */
static void window(const struct rt__plan *p, size_t leg, size_t *from, size_t *to)
{
	const struct rt__station *s = p->station.at;
	size_t first = RT__NONE, last = 0;

	for (size_t i = 0; i < p->station.n; i++)
		if (s[i].leg == leg) {
			first = first == RT__NONE ? i : first;
			last = i;
		}
	*from = first == RT__NONE ? 0 : first;
	*to = last;
	for (int n = NEIGHBOURS; *from > 0 && n > 0;)
		n -= s[--*from].way != RT__PASS;
	for (int n = NEIGHBOURS; *to + 1 < p->station.n && n > 0;)
		n -= s[++*to].way != RT__PASS;
}

/* Whether the movement can be driven with its turns of that diameter. */
static bool try_diameter(struct rt__plan *p, size_t from, size_t to, double diameter_m)
{
	p->trial.diameter_m = diameter_m;
	p->trial.failed = false;
	rt__route_solve(p, from, to);
	check_legs(p, from, to);
	return !p->trial.failed;
}

/* The largest diameter for all turns of a movement that have no number; NAN: none helps. */
static double largest_turns(struct rt__plan *p, size_t leg)
{
	struct rt__station *kept;
	double largest = NAN;
	size_t from, to, size;

	window(p, leg, &from, &to);
	size = (to - from + 1) * sizeof *kept;
	kept = malloc(size);
	if (!kept) {
		p->nomem = true;
		return NAN;
	}
	memcpy(kept, &p->station.at[from], size);
	p->trial.leg = leg;
	for (int tenths = (int)ceil(p->diameter_m * 10.0) - 1; tenths > 0 && isnan(largest);
	     tenths--)
		if (try_diameter(p, from, to, tenths / 10.0))
			largest = tenths / 10.0;
	p->trial.leg = RT__NONE;
	memcpy(&p->station.at[from], kept, size);
	free(kept);
	return largest;
}

static bool of_turns(const struct rt_route_problem *problem)
{
	switch (problem->kind) {
	case RT_ROUTE_NO_ROOM:
	case RT_ROUTE_NO_ROOM_BOTH:
	case RT_ROUTE_OVER_HALF:
	case RT_ROUTE_NO_WAY:
	case RT_ROUTE_OUTSIDE:
	case RT_ROUTE_IN_ARC:
		return true;
	default:
		return false;
	}
}

/* For every problem from `first` on that a smaller diameter may solve. */
static void find_largest(struct rt__plan *p, size_t first)
{
	for (size_t i = first; i < p->problem.n; i++) {
		size_t same = first;

		if (!of_turns(&p->problem.at[i]))
			continue;
		while (p->problem.at[same].leg != p->problem.at[i].leg ||
		       !of_turns(&p->problem.at[same]))
			same++;
		p->problem.at[i].largest_m = same < i ? p->problem.at[same].largest_m
						      : largest_turns(p, p->problem.at[i].leg);
	}
}

void rt__find_problems(struct rt__plan *p)
{
	size_t first = p->problem.n;

	check_legs(p, 0, p->station.n);
	find_largest(p, first);
	for (size_t i = 0; i < p->station.n; i++) {
		check_stands(p, &p->station.at[i]);
		check_figures(p, &p->station.at[i]);
	}
}
