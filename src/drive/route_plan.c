/* A test planned: stations in order, and what cannot be done where it is asked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

const char *rt__plan_name(struct rt__plan *p, const char *fmt, ...)
{
	const char *name;
	va_list args;

	va_start(args, fmt);
	name = rt_arena_vtextf(p->text, fmt, args);
	va_end(args);
	p->nomem = p->nomem || !name;
	return name ? name : "";
}

void rt__plan_problem(struct rt__plan *p, const struct rt_route_problem *problem)
{
	struct rt_route_problem *kept = RT_LIST_ADD(&p->problem);

	if (kept)
		*kept = *problem;
	else
		p->nomem = true;
}

void rt__plan_tell(struct rt__plan *p, enum rt_route_problem_kind kind, size_t leg, const char *at,
		   const char *beside)
{
	const struct rt_route_problem problem = {
		.leg = leg, .kind = kind, .at = at, .beside = beside, .largest_m = NAN};

	rt__plan_problem(p, &problem);
}

bool rt__plan_comes(const struct rt__plan *p, size_t station, struct rt_vec *out)
{
	const struct rt__station *s = &p->station.at[station];

	if (s->fresh)
		return false;
	*out = rt__toward(s[-1].leave.at, s->at);
	return true;
}

bool rt__plan_goes(const struct rt__plan *p, size_t station, struct rt_vec *out)
{
	const struct rt__station *s = &p->station.at[station];

	if (station + 1 >= p->station.n || s[1].fresh)
		return false;
	*out = rt__toward(s->leave.at, s[1].at);
	return true;
}

bool rt__plan_heading(const struct rt__plan *p, struct rt_vec *out)
{
	const struct rt__station *s = &p->station.at[p->station.n - 1];

	if (s->figures)
		*out = s->leave.toward;
	else if (s->asked)
		*out = s->toward;
	else
		return rt__plan_comes(p, p->station.n - 1, out);
	return true;
}

struct rt__station *rt__plan_last(struct rt__plan *p)
{
	return &p->station.at[p->station.n - 1];
}

struct rt__station *rt__plan_add(struct rt__plan *p, struct rt_vec at, const struct rt_peg *peg,
				 size_t leg)
{
	struct rt__station *s = RT_LIST_ADD(&p->station);

	if (!s) {
		p->nomem = true;
		return rt__plan_last(p);
	}
	*s = (struct rt__station){
		.at = at,
		.peg = peg,
		.name = peg ? peg->name : "the middle of the loop",
		.leg = leg,
		.fresh = p->gap || p->station.n == 1,
		.act = p->act.n,
		.leave.at = at,
		.next = RT__NONE,
		.before = RT__NONE,
	};
	s->leave_name = s->name;
	s->along = !s->fresh && rt__one_side(p->track, s[-1].leave.at, at);
	p->gap = false;
	return s;
}

struct rt__station *rt__plan_begin_again(struct rt__plan *p, size_t leg)
{
	const struct rt__station old = *rt__plan_last(p);

	p->gap = true;
	return rt__plan_add(p, old.leave.at, old.peg, leg);
}

void rt__plan_lose(struct rt__plan *p, size_t leg)
{
	p->end.at[leg].broken = true;
}

void rt__plan_act(struct rt__plan *p, size_t leg, const struct rt_step *step)
{
	struct rt__act *act = RT_LIST_ADD(&p->act);

	if (!act) {
		p->nomem = true;
		return;
	}
	*act = (struct rt__act){.step = *step, .leg = leg};
	rt__plan_last(p)->acts++;
}
