/* A turnout along a path: the chain of its parts followed step by step.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>
#include <string.h>

/* A look at every centimetre finds the largest cut-in within a few micrometres on arcs of 5 m and
 * more; the smaller the arc, the sharper the maximum. */
#define LOOK_M		 0.01
#define LOOKS_PER_RADIUS 500.0
#define LOOKS_PER_LENGTH 20.0
#define LEAST_M		 0.001

/* What may be asked for. */
#define STEP_LEAST_M 0.0001

/* An axle so near to a straight is in line: beside the arcs it has been farther off. */
#define IN_LINE_M 1e-6

/* The animal of a two-track sweep is watched as an axle of its own, behind all links. */
#define ANIMAL RT__LINKS_MOST

/* A look at the axle of a part. */
struct look {
	size_t arc;
	double s, cut_in;
};

/* What the sweep keeps while it runs. */
struct run {
	struct rt_sweep *out;
	const struct rt_turnout_parts *turnout;
	const struct rt_sweep_options *options;
	struct rt__line line;
	struct rt__watch watch;
	struct rt__chain chain;
	double lag;			/* from the fore feet back to the lead */
	double quickest;		/* the way in which some link may turn by a radian */
	double reach;			/* from the lead back to the last axle, and a bit */
	size_t leg[RT__LINKS_MOST + 1]; /* that each axle is beside */
	double *cut_in;			/* one an arc and part */
	size_t traced;
	bool nomem, lost;
	struct look look[RT_TURNOUT_PARTS_MOST][2]; /* the last two of each part */
};

/* ---- what is kept of a step ----------------------------------------------------------------- */

static void keep_trace(struct run *r, double s, size_t part, bool stiff, const struct rt_pose *pose)
{
	struct rt_swept_pose *kept = RT_LIST_ADD(&r->out->trace);

	if (kept)
		*kept = (struct rt_swept_pose){s, part, stiff, *pose};
	else
		r->nomem = true;
}

/* How far the ends of an axle reach off its leg; inside is 1 to the left or -1. */
static void keep_reach(struct rt_swept_arc *arc, const struct rt__leg *leg,
		       const struct rt__axle *axle, double left, double inside)
{
	const struct rt_vec at = axle->pose.at, side = rt__left(axle->pose.toward);
	const double out = inside * axle->half_width;

	if (inside * left + axle->half_width > arc->inside_m)
		arc->inside_m = fmax(arc->inside_m,
				     inside * rt__leg_off(leg, rt__go(at, side, out)));
	if (axle->half_width - inside * left > arc->outside_m)
		arc->outside_m = fmax(arc->outside_m,
				      -inside * rt__leg_off(leg, rt__go(at, side, -out)));
}

static void keep_most(struct run *r, size_t arc, size_t part, double cut_in, double s)
{
	double *most = &r->cut_in[arc * r->turnout->n + part];
	struct rt_swept_part *swept = &r->out->parts.at[part];

	if (cut_in <= *most)
		return;
	*most = cut_in;
	if (cut_in > swept->cut_in_m) {
		swept->cut_in_m = cut_in;
		swept->cut_in_at_m = s;
	}
}

/* The top of the parabola through three looks, the middle one the highest. */
static void keep_top(struct run *r, const struct look last[2], const struct look *now, size_t part)
{
	double before = (last[1].cut_in - last[0].cut_in) / (last[1].s - last[0].s);
	double after = (now->cut_in - last[1].cut_in) / (now->s - last[1].s);
	double bend = (after - before) / (now->s - last[0].s);
	double s = (last[0].s + last[1].s) / 2.0 - before / (2.0 * bend);
	double cut_in = last[1].cut_in + (s - last[1].s) * (before + bend * (s - last[0].s));

	if (s > last[0].s && s < now->s && cut_in >= last[1].cut_in)
		keep_most(r, now->arc, part, cut_in, s);
}

/* The largest cut-in lies between looks: this one and the last two of a part tell where. */
static void keep_cut_in(struct run *r, size_t arc, size_t part, double cut_in, double s)
{
	struct look *last = r->look[part];
	const struct look now = {arc, s, cut_in};

	keep_most(r, arc, part, cut_in, s);
	if (cut_in < last[1].cut_in && last[1].cut_in > last[0].cut_in && last[1].arc == arc &&
	    last[0].arc == arc)
		keep_top(r, last, &now, part);
	last[0] = last[1];
	last[1] = now;
}

/* Look at an axle: how far off the path it is (counts: as its part's cut-in), and what is near. */
static inline void keep_axle(struct run *r, struct rt__axle *axle, bool counts, size_t most,
			     double s)
{
	const struct rt__leg *legs = r->line.legs.at;
	size_t *leg = &r->leg[axle->index], arc;
	double left = rt__line_follow(&r->line, leg, most, axle->pose.at), inside;

	axle->leg = *leg;
	if (r->watch.obstacles)
		rt__watch_axle(&r->watch, axle);
	arc = *leg;
	if (legs[arc].arc == RT__NONE) {
		if (fabs(left) < IN_LINE_M)
			return;
		arc = rt__line_arc_beside(&r->line, *leg, axle->pose.at, left);
		if (arc == RT__NONE)
			return;
	}
	inside = legs[arc].curvature_per_m > 0.0 ? 1.0 : -1.0;
	keep_reach(&r->out->arcs.at[legs[arc].arc], &legs[*leg], axle, left, inside);
	if (counts)
		keep_cut_in(r, legs[arc].arc, axle->part, inside * left, s);
}

/* The animal that bends keeps its hind feet to the path. */
static void keep_animal(struct run *r, double s, double h, size_t most, bool trace)
{
	const struct rt_turnout_part *animal = &r->turnout->at[0];
	struct rt__axle axle = {
		.index = ANIMAL, .part = 0, .half_width = animal->width_m / 2.0, .moved = h};
	double hind = s - animal->length_m;
	size_t at = most;

	while (r->line.legs.at[at].s_m > hind)
		at--;
	axle.pose = rt__leg_at(&r->line.legs.at[at], hind - r->line.legs.at[at].s_m);
	keep_axle(r, &axle, false, most, s);
	if (trace)
		keep_trace(r, s, 0, false, &axle.pose);
}

/* After a step of h that ends with the lead on leg `most`. */
static void keep(struct run *r, const struct rt__lead *lead, double lead_s, double h, size_t most)
{
	struct rt__chain *c = &r->chain;
	const double s = lead_s + r->lag, every = r->options->trace_m;
	const bool trace = every > 0.0 && s >= (double)r->traced * every - 1e-9;

	rt__chain_place(c, lead);
	if (r->out->two_track)
		keep_animal(r, s, h, most, trace);
	for (size_t k = 0; k < c->links; k++) {
		const struct rt__link *link = &c->link[k];
		const struct rt__stage *begin = &c->stage[k + 1][0];
		const double swing = fabs(begin->turn) * link->half_width;
		struct rt__axle axle = {
			.index = k,
			.part = link->part,
			.half_width = link->half_width,
			.moved = h * (fabs(begin->roll) + swing),
			.pose = {c->at[k + 1], c->u[k + 1]},
		};

		keep_axle(r, &axle, !link->stiff, most, s);
		if (trace)
			keep_trace(r, s, link->part, link->stiff, &axle.pose);
	}
	r->traced += trace;
}

/* ---- the whole path ------------------------------------------------------------------------- */

/* How far two looks are apart on a leg. */
static double look_on(const struct run *r, const struct rt__leg *leg)
{
	const double asked = r->options->step_m;
	double most = r->quickest / LOOKS_PER_LENGTH;

	if (asked > 0.0)
		return fmin(asked, fmax(LEAST_M, most));
	return fmin(LOOK_M, fmax(LEAST_M, fmin(most, leg->smallest_m / LOOKS_PER_RADIUS)));
}

/* The lead s metres on from the begin of a leg, looking as it does there already. */
static void place(struct rt__lead *lead, const struct rt__leg *leg, double s)
{
	if (leg->curvature_per_m == 0.0)
		lead->pose.at = rt__go(leg->begin.at, leg->begin.toward, s);
	else
		lead->pose.at = rt__go(leg->centre, rt__left(lead->pose.toward),
				       -1.0 / leg->curvature_per_m);
}

static struct rt_vec turn_of(double angle)
{
	return (struct rt_vec){cos(angle), sin(angle)};
}

/* Drive over the leg, as far as the lead comes on it. */
static void drive_leg(struct run *r, size_t index)
{
	const struct rt__leg *leg = &r->line.legs.at[index];
	double length = fmin(leg->length_m, r->line.length_m - r->lag - leg->s_m);
	double steps = fmax(1.0, ceil(length / (RT__LOOKS * look_on(r, leg)) - 1e-9));
	double h = length / steps, between = h / RT__LOOKS;
	const struct rt_vec half = turn_of(leg->curvature_per_m * h / 2.0);
	const struct rt_vec look = turn_of(leg->curvature_per_m * between);
	struct rt__lead lead = {leg->begin, leg->curvature_per_m};

	for (double i = 0.0; i < steps && length > 0.0; i++) {
		/* far along a straight everything comes in line: one look a step is enough */
		size_t by = leg->arc == RT__NONE && i * h > r->reach && !(r->options->step_m > 0.0)
				    ? RT__LOOKS
				    : 1;

		if (!rt__chain_step(&r->chain, &lead, half, h)) {
			r->lost = true;
			return;
		}
		for (size_t j = by; j <= RT__LOOKS; j += by) {
			double s = i * h + (double)j * between;

			rt__chain_look(&r->chain, j, h);
			lead.pose.toward = rt__turned(lead.pose.toward, look);
			place(&lead, leg, s);
			keep(r, &lead, leg->s_m + s, (double)by * between, index);
		}
	}
}

/* The last look, and the last pose of a trace. */
static void keep_end(struct run *r)
{
	const struct rt__leg *leg = r->line.legs.at;
	size_t last = r->line.legs.n - 1;
	double s = fmax(0.0, r->line.length_m - r->lag);
	struct rt__lead lead;

	while (leg[last].s_m > s)
		last--;
	lead.pose = rt__leg_at(&leg[last], s - leg[last].s_m);
	lead.curvature = leg[last].curvature_per_m;
	r->traced = 0;
	if (r->out->trace.n && r->out->trace.at[r->out->trace.n - 1].s_m > s + r->lag - 1e-9)
		r->traced = SIZE_MAX;
	rt__watch_all(&r->watch);
	keep(r, &lead, s, 0.0, last);
}

/* All in line behind the start, then leg by leg.  With a lag the lead is at the start when the
 * fore feet are past it. */
static void drive(struct run *r)
{
	const struct rt__lead lead = {r->line.legs.at[0].end, 0.0};

	for (size_t k = 1; k <= r->chain.links; k++)
		r->chain.u[k] = lead.pose.toward;
	keep(r, &lead, 0.0, 0.0, 0);
	for (size_t i = 1; i < r->line.legs.n && !r->lost; i++)
		drive_leg(r, i);
	if (!r->lost)
		keep_end(r);
}

/* ---- from outside --------------------------------------------------------------------------- */

static enum rt_err check(const struct rt_turnout_parts *turnout, const struct rt_sweep_options *o,
			 struct rt_error *err)
{
	if (turnout->n == 0 || turnout->n > RT_TURNOUT_PARTS_MOST)
		return rt_fail(err, RT_E_USAGE, "a turnout of %zu parts: accepted: 1 to %d",
			       turnout->n, RT_TURNOUT_PARTS_MOST);
	if (!(o->step_m == 0.0 || o->step_m >= STEP_LEAST_M))
		return rt_fail(err, RT_E_USAGE,
			       "step out of range: accepted: 0, or 0.1 mm and more");
	if (!(o->trace_m >= 0.0))
		return rt_fail(err, RT_E_USAGE, "trace out of range: accepted: 0 or more");
	if (!(fabs(o->slope_deg) < 45.0))
		return rt_fail(err, RT_E_USAGE,
			       "slope out of range: accepted: over -45 and under 45 degrees");
	return RT_OK;
}

/* How short a way a link may need to turn by a radian: its length over the speed of its hitch.  A
 * hitch off the axle is faster than the axle, by as much as that turns. */
static double quickest_turn(const struct rt__chain *c)
{
	double speed[RT__LINKS_MOST + 1] = {1.0}, way = INFINITY;

	for (size_t k = 0; k < c->links; k++) {
		const struct rt__link *link = &c->link[k];
		double turn = link->front ? c->link[link->front - 1].per_length : 0.0;

		speed[k + 1] = speed[link->front] * hypot(1.0, link->hitch * turn);
		way = fmin(way, link->length / speed[k + 1]);
	}
	return way;
}

/* Where the lead is on the animal, and the reach of the whole turnout. */
static void set_up(struct run *r)
{
	const struct rt_turnout_part *part = r->turnout->at;

	for (size_t i = 0; i < RT_TURNOUT_PARTS_MOST; i++)
		r->look[i][0].arc = r->look[i][1].arc = RT__NONE;
	r->chain.links = rt__turnout_links(r->chain.link, r->turnout, r->out->two_track);
	r->quickest = quickest_turn(&r->chain);
	r->reach = 1.0;
	for (size_t k = 0; k < r->turnout->n; k++)
		r->reach += part[k].length_m + fabs(part[k].hitch_m);
	if (r->out->two_track)
		r->lag = fmax(0.0, part[0].length_m +
					   (r->turnout->n > 1 ? fmin(0.0, part[1].hitch_m) : 0.0));
}

static enum rt_err driven(const struct run *r, struct rt_error *err)
{
	if (r->nomem)
		return rt_fail_nomem(err);
	if (r->lost)
		return rt_fail(err, RT_E_NUMERIC,
			       "turnout %s cannot be followed: a part is too short for how far off "
			       "the axle the next one hangs",
			       r->turnout->at[0].turnout);
	return RT_OK;
}

enum rt_err rt_sweep_make(struct rt_sweep *out, const struct rt_path *path,
			  const struct rt_turnout_parts *turnout,
			  const struct rt_sweep_options *options, struct rt_error *err)
{
	struct run r = {.out = out, .turnout = turnout, .options = options};
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = check(turnout, options, err);
	if (e)
		return e;
	out->two_track = options->two_track;
	set_up(&r);
	e = rt__line_make(&r.line, path, r.reach, err);
	if (!e)
		e = rt__watch_make(&r.watch, options->kind, &r.line, err);
	if (!e)
		e = rt__sweep_rows(out, &r.cut_in, path, turnout, err);
	if (!e) {
		drive(&r);
		e = driven(&r, err);
	}
	if (!e)
		e = rt__sweep_results(out, &r.line, turnout, options, err);
	if (!e)
		e = rt__watch_results(out, &r.watch, err);
	rt__line_free(&r.line);
	rt__watch_free(&r.watch);
	if (e)
		rt_sweep_free(out);
	return e;
}

void rt_sweep_free(struct rt_sweep *sweep)
{
	RT_LIST_FREE(&sweep->parts);
	RT_LIST_FREE(&sweep->arcs);
	RT_LIST_FREE(&sweep->near);
	RT_LIST_FREE(&sweep->overturning);
	RT_LIST_FREE(&sweep->trace);
	memset(sweep, 0, sizeof *sweep);
}

enum rt_err rt_sweep_turn(struct rt_path *out, double diameter_m, double angle_deg,
			  struct rt_error *err)
{
	static const double straight_m = 40.0;
	const struct rt_pose start = {.toward.y = 1.0};
	enum rt_err e;

	memset(out, 0, sizeof *out);
	if (!(diameter_m > 0.0) || !isfinite(diameter_m) ||
	    !(angle_deg > 0.0 && angle_deg <= 3600.0))
		return rt_fail(err, RT_E_USAGE,
			       "a turn has a diameter over 0 and an angle over 0 "
			       "and up to 3600 degrees");
	e = rt_path_straight(out, &start, straight_m, err);
	if (!e)
		e = rt_path_arc(out, NULL, diameter_m / 2.0, angle_deg / RT__DEGREES, err);
	if (!e)
		e = rt_path_straight(out, NULL, straight_m, err);
	if (e)
		rt_path_free(out);
	return e;
}
