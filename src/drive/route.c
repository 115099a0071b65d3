/* The route of a test: its movements planned, solved, laid as one path and split again.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* From outside to A: 10 to 15 m (common practice). */
#define WAY_IN_M 15.0

/* What a route is made with. */
struct making {
	struct rt_route *out;
	struct rt__plan plan;
	struct rt__track track;
	const struct rt_gaits *gaits;
	const struct rt_movement_figures *movements;
};

/* ---- movements ------------------------------------------------------------------------------- */

static double end_of(const struct rt__plan *p, const struct rt__end *end)
{
	const struct rt__station *s = &p->station.at[end->station];

	return end->acts ? p->act.at[s->act + end->acts - 1].end_m : s->s_m;
}

/* A movement is lost when its own figure is, or a way that it covers. */
static bool lost(const struct rt__plan *p, size_t leg)
{
	size_t from = leg ? p->end.at[leg - 1].station : 0;

	if (p->end.at[leg].broken || !p->end.at[leg].driven)
		return true;
	/* A station passed through lies on the way from the one before it that is not. */
	while (from > 0 && p->station.at[from].way == RT__PASS)
		from--;
	for (size_t i = from; i < p->end.at[leg].station; i++)
		if (p->station.at[i].broken)
			return true;
	return false;
}

static double speed(const struct making *m, const char *gait)
{
	const struct rt_gait *g = gait ? rt_gait_find(m->gaits, gait) : NULL;

	return g ? rt__pace(g, m->out->height_cm).speed_m_per_s : NAN;
}

/* Lengths and times of the legs as the path has them, without what is done standing. */
static void measure_legs(struct making *m)
{
	double from = 0.0;

	for (size_t i = 0; i < m->out->legs.n; i++) {
		struct rt_route_leg *leg = &m->out->legs.at[i];

		leg->from_m = from;
		leg->to_m = from = end_of(&m->plan, &m->plan.end.at[i]);
		leg->length_m = lost(&m->plan, i) ? NAN : leg->to_m - leg->from_m;
		leg->seconds = leg->length_m > 0.0 ? leg->length_m / speed(m, leg->gait)
			       : leg->gait	   ? leg->length_m
						   : NAN;
	}
}

/* The movement that drives on from an act; RT__NONE: none does. */
static size_t drives_on(const struct rt__plan *p, size_t station, size_t act)
{
	const struct rt__station *s = &p->station.at[station];
	struct rt__move move;

	for (size_t a = act + 1; a < s->act + s->acts; a++)
		if (rt__act_move(p, &p->act.at[a], 0, &move))
			return p->act.at[a].leg;
	return station + 1 < p->station.n ? s[1].leg : RT__NONE;
}

static void add_stop(struct making *m, const struct rt__act *act, double behind_m)
{
	struct rt_route_leg *leg = &m->out->legs.at[act->leg];
	struct rt_route_stop *stop = RT_LIST_ADD(&m->out->stops);
	bool back = act->step.kind == RT_STEP_BACK;

	if (!stop) {
		m->plan.nomem = true;
		return;
	}
	*stop = (struct rt_route_stop){
		.leg = act->leg,
		.at_m = act->end_m,
		.behind_m = behind_m,
		.seconds = act->step.seconds,
		.back_m = back ? act->step.metres : 0.0,
	};
	leg->length_m += stop->back_m;
	leg->seconds += back ? stop->back_m / speed(m, "rein-back") : stop->seconds;
}

/* What is done standing at a station: halts, and rein-backs with the way forward again. */
static void measure_stops(struct making *m, size_t station)
{
	const struct rt__station *s = &m->plan.station.at[station];
	double behind = 0.0;

	for (size_t a = s->act; a < s->act + s->acts; a++) {
		const struct rt__act *act = &m->plan.act.at[a];
		struct rt__move move;
		size_t on;

		if (rt__act_move(&m->plan, act, 0, &move)) {
			behind = 0.0;
			continue;
		}
		behind += act->step.kind == RT_STEP_BACK ? act->step.metres : 0.0;
		add_stop(m, act, behind);
		on = drives_on(&m->plan, station, a);
		if (act->step.kind == RT_STEP_BACK && on != RT__NONE) {
			struct rt_route_leg *leg = &m->out->legs.at[on];

			leg->length_m += act->step.metres;
			leg->seconds += act->step.metres / speed(m, leg->gait);
		}
	}
}

static void total(struct making *m)
{
	struct rt_route *out = m->out;
	const struct rt__station *end = &m->plan.station.at[m->plan.station.n - 1];
	double home = hypot(end->exit.at.x, end->exit.at.y + m->track.half_length);
	size_t timed = 0, driven = 0;

	for (size_t i = 0; i < out->legs.n; i++) {
		const struct rt_route_leg *leg = &out->legs.at[i];

		out->total_m += isnan(leg->length_m) ? 0.0 : leg->length_m;
		out->total_s += isnan(leg->seconds) ? 0.0 : leg->seconds;
		driven += m->plan.end.at[i].driven ? 1 : 0;
		timed += isnan(leg->seconds) ? 0 : 1;
	}
	out->timed = driven > 0 && timed == driven && m->plan.problem.n == 0;
	out->in_s = out->out_s = NAN;
	if (out->legs.n == 0)
		return;
	out->in_s = WAY_IN_M / speed(m, out->legs.at[0].gait);
	out->out_s = (home + WAY_IN_M) / speed(m, out->legs.at[out->legs.n - 1].gait);
}

/* The movement of each turn: that which its middle lies in. */
static void place_turns(struct rt_route *out)
{
	size_t leg = 0;

	for (size_t i = 0; i < out->turns.n; i++) {
		struct rt_turn *turn = &out->turns.at[i];
		double middle = turn->from_m + turn->arc_m / 2.0;

		while (leg + 1 < out->legs.n && middle > out->legs.at[leg].to_m + RT__NO_LENGTH)
			leg++;
		turn->leg = leg;
	}
}

/* Problems in the order of the movements; those of one in the order they were found. */
static void sort_problems(struct rt_route_problems *list)
{
	for (size_t i = 1; i < list->n; i++) {
		struct rt_route_problem moved = list->at[i];
		size_t k = i;

		for (; k > 0 && list->at[k - 1].leg > moved.leg; k--)
			list->at[k] = list->at[k - 1];
		list->at[k] = moved;
	}
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* A fault of a movement, told with its place. */
static enum rt_err fault_at(const struct rt_movement_figure *movement, const char *column,
			    struct rt_error *err)
{
	char text[sizeof err->text];
	enum rt_err code = err->code;

	memcpy(text, err->text, sizeof text);
	(void)rt_fail(err, code, "movement %s: %s", movement->item, text);
	if (movement->file) {
		snprintf(err->file, sizeof err->file, "%s", movement->file);
		snprintf(err->column, sizeof err->column, "%s", column);
		err->line = movement->line;
	}
	return code;
}

/* Read a movement's figure and plan it. */
static enum rt_err plan_movement(struct making *m, size_t i, struct rt_error *err)
{
	const struct rt_movement_figure *movement = &m->movements->at[i];
	struct rt_route_leg *leg = RT_LIST_ADD(&m->out->legs);
	struct rt_steps steps = {0};
	enum rt_err e = RT_OK;

	if (!leg)
		return rt_fail_nomem(err);
	*leg = (struct rt_route_leg){
		.movement = movement->item, .figure = movement->figure, .gait = movement->gait};
	if (movement->gait && !rt_gait_find(m->gaits, movement->gait)) {
		(void)rt_fail(err, RT_E_NOTFOUND, "no gait is named %s", movement->gait);
		return fault_at(movement, "gait", err);
	}
	if (movement->figure)
		e = rt_figure_parse(&steps, movement->figure, err);
	if (e == RT_E_INPUT)
		e = fault_at(movement, "figure", err);
	if (!e)
		rt__plan_movement(&m->plan, i, &steps, steps.n > 0);
	RT_LIST_FREE(&steps);
	return e;
}

/* The letters on the way whose places no rulebook confirms. */
static void note_unconfirmed(struct making *m)
{
	for (size_t i = 0; i < m->track.pegs.n; i++)
		for (size_t k = 0; k < m->plan.station.n; k++)
			if (m->plan.station.at[k].peg == &m->track.pegs.at[i])
				rt__add_unconfirmed(m->out->unconfirmed, m->plan.kind,
						    &m->track.pegs.at[i]);
}

/* Plan, solve and lay the movements, which are read. */
static enum rt_err drive(struct making *m, struct rt_error *err)
{
	struct rt_route *out = m->out;
	struct rt__plan *p = &m->plan;

	rt__plan_finish(p);
	if (p->nomem)
		return rt_fail_nomem(err);
	rt__route_ways(p);
	rt__route_solve(p, 0, p->station.n - 1);
	rt__find_problems(p);
	rt__route_layout(out, p);
	if (p->nomem)
		return rt_fail_nomem(err);
	measure_legs(m);
	for (size_t i = 0; i < p->station.n; i++)
		measure_stops(m, i);
	total(m);
	place_turns(out);
	out->problems = p->problem;
	memset(&p->problem, 0, sizeof p->problem);
	sort_problems(&out->problems);
	note_unconfirmed(m);
	return p->nomem ? rt_fail_nomem(err) : RT_OK;
}

enum rt_err rt_route_make(struct rt_route *out, const struct rt_ring_kind *kind,
			  const struct rt_level *level, const struct rt_gaits *gaits,
			  const struct rt_movement_figures *movements,
			  const struct rt_turn_options *options, struct rt_error *err)
{
	struct making m = {.out = out, .gaits = gaits, .movements = movements};
	struct rt_error unread;
	enum rt_err e;

	if (!err)
		err = &unread;
	*out = (struct rt_route){
		.kind = kind->name,
		.level = level->name,
		.width_m = kind->width_m,
		.length_m = kind->length_m,
		.track_m = options->track_m,
		.height_cm = options->height_cm,
	};
	m.plan.text = &out->legs.text;
	m.plan.track = &m.track;
	m.plan.kind = kind;
	e = rt__turn_diameter(&out->diameter_m, kind, level, options, err);
	m.plan.diameter_m = out->diameter_m;
	if (!e)
		e = rt__track_make(&m.track, kind, options->track_m, err);
	if (e)
		goto done;
	rt__plan_start(&m.plan);
	for (size_t i = 0; i < movements->n && !e && !m.plan.nomem; i++)
		e = plan_movement(&m, i, err);
	if (!e)
		e = drive(&m, err);
done:
	rt__plan_free(&m.plan);
	rt__track_free(&m.track);
	if (e)
		rt_route_free(out);
	return e;
}

void rt_route_free(struct rt_route *route)
{
	rt_path_free(&route->path);
	RT_LIST_FREE(&route->legs);
	RT_LIST_FREE(&route->stops);
	RT_LIST_FREE(&route->turns);
	RT_LIST_FREE(&route->problems);
	memset(route, 0, sizeof *route);
}
