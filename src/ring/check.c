/* A ring judged from tape readings: adjust, lay the layout on, judge every peg.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define TOLERANCE_DRIVEN_M 0.10
#define TOLERANCE_RIDDEN_M 0.05
#define MOVE_LEAST_M	   0.02 /* a smaller part of a move is left unsaid: a peg's width */

double rt_ring_tolerance(enum rt_discipline discipline)
{
	return discipline == RT_DRIVEN ? TOLERANCE_DRIVEN_M : TOLERANCE_RIDDEN_M;
}

/* ---- adjusting what was measured ---- */

struct check_work {
	struct rt_pegs pegs; /* all of the kind */
	struct rt_points points;
	double *should, *stands; /* 2 a measured peg */
	bool *in;		 /* the fit */
	struct rt_arena *room;
};

static void work_free(struct check_work *w)
{
	rt_pegs_free(&w->pegs);
	RT_LIST_FREE(&w->points);
	rt_arena_free(w->room);
}

static bool is_read(const struct rt_readings *readings, const char *peg)
{
	for (size_t i = 0; i < readings->n; i++) {
		if (strcmp(readings->at[i].from, peg) == 0 || strcmp(readings->at[i].to, peg) == 0)
			return true;
	}
	return false;
}

static enum rt_err judge_names(const struct rt_pegs *pegs, const struct rt_readings *readings,
			       struct rt_error *err)
{
	for (size_t i = 0; i < readings->n; i++) {
		const struct rt_reading *r = &readings->at[i];

		if (!rt_peg_find(pegs, r->from))
			return rt__no_such_peg(pegs, r->from, err);
		if (!rt_peg_find(pegs, r->to))
			return rt__no_such_peg(pegs, r->to, err);
	}
	return RT_OK;
}

/* Part the pegs of the kind into those that readings name and the others. */
static enum rt_err sort_out(struct rt_ring_check *out, struct check_work *w,
			    const struct rt_readings *readings, struct rt_error *err)
{
	out->peg = rt_arena_take(&out->text, w->pegs.n * sizeof *out->peg);
	if (!out->peg)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < w->pegs.n; i++) {
		const struct rt_peg *peg = &w->pegs.at[i];
		struct rt_peg *missed;
		struct rt_point *point;

		if (!is_read(readings, peg->name)) {
			missed = RT_LIST_ADD(&out->unmeasured);
			if (!missed)
				return rt_fail_nomem(err);
			*missed = *peg;
			continue;
		}
		point = RT_LIST_ADD(&w->points);
		if (!point)
			return rt_fail_nomem(err);
		*point = (struct rt_point){.name = peg->name, .x_m = peg->x_m, .y_m = peg->y_m};
		out->peg[out->pegs++].peg = *peg;
	}
	return RT_OK;
}

static enum rt_err work_make(struct check_work *w, const struct rt_ring_check *out,
			     struct rt_error *err)
{
	w->should = rt_arena_take(&w->room, 2 * out->pegs * sizeof *w->should);
	w->stands = rt_arena_take(&w->room, 2 * out->pegs * sizeof *w->stands);
	w->in = rt_arena_take(&w->room, out->pegs * sizeof *w->in);
	if (!w->should || !w->stands || !w->in)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < out->pegs; i++) {
		w->should[2 * i] = out->peg[i].peg.x_m;
		w->should[2 * i + 1] = out->peg[i].peg.y_m;
		w->stands[2 * i] = out->adjustment.point[i].x_m;
		w->stands[2 * i + 1] = out->adjustment.point[i].y_m;
	}
	return RT_OK;
}

/* ---- the fit ---- */

static enum rt_err choose_fit(const struct rt_ring_check *out, struct check_work *w,
			      struct rt_error *err)
{
	size_t chosen = 0;
	enum rt_err e = RT_OK;

	if (out->fit == RT_FIT_FEWEST)
		e = rt__fewest(w->should, w->stands, out->pegs, out->tolerance_m, w->in, &chosen,
			       err);
	for (size_t i = 0; out->fit == RT_FIT_CORNERS && i < out->pegs; i++) {
		w->in[i] = out->peg[i].peg.corner;
		chosen += w->in[i];
	}
	if (out->fit == RT_FIT_CORNERS && chosen < 2)
		return rt_fail(err, RT_E_INPUT,
			       "fit corners needs readings to two of AK, HC, CM, FA at least");
	/* not even two pegs agree: then there is nothing better than all of them */
	for (size_t i = 0; chosen < 2 && i < out->pegs; i++)
		w->in[i] = true;
	return e;
}

/* What moves when the fit does: the layout's shift and turn, as the pegs of the fit give them.
 * Row of the offset's x (or y) over the coordinates of all pegs. */
static void offset_row(const struct check_work *w, const struct rt_ring_check *out, size_t peg,
		       bool of_y, double *row)
{
	double count = 0, cx = 0, cy = 0, square = 0, lever;

	for (size_t i = 0; i < out->pegs; i++) {
		count += w->in[i];
		cx += w->in[i] ? w->stands[2 * i] : 0;
		cy += w->in[i] ? w->stands[2 * i + 1] : 0;
	}
	cx /= count;
	cy /= count;
	for (size_t i = 0; i < out->pegs; i++) {
		double x = w->stands[2 * i] - cx, y = w->stands[2 * i + 1] - cy;

		square += w->in[i] ? x * x + y * y : 0;
	}
	lever = of_y ? w->stands[2 * peg] - cx : cy - w->stands[2 * peg + 1];
	for (size_t i = 0; i < out->pegs; i++) {
		double x = w->stands[2 * i] - cx, y = w->stands[2 * i + 1] - cy;

		row[2 * i] = w->in[i] ? lever * y / square - !of_y / count : 0;
		row[2 * i + 1] = w->in[i] ? -lever * x / square - of_y / count : 0;
	}
	row[2 * peg + of_y] += 1;
}

static double quadratic(const double *c, const double *a, const double *b, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++) {
		double row = 0;

		for (size_t k = 0; k < n; k++)
			row += c[i * n + k] * b[k];
		sum += a[i] * row;
	}
	return sum;
}

/* Standard error of each offset in the direction known worst: the covariance of the adjusted
 * pegs carried over to the datum of the fit. */
static enum rt_err put_errors(struct rt_ring_check *out, struct check_work *w, struct rt_error *err)
{
	const double *c = out->adjustment.covariance_m2;
	size_t n = 2 * out->pegs;
	double *x = rt_arena_take(&w->room, n * sizeof *x);
	double *y = rt_arena_take(&w->room, n * sizeof *y);
	double factor = fmax(1, out->adjustment.sigma0); /* 1 where there is none */

	if (!x || !y)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < out->pegs; i++) {
		double xx, xy, yy;

		offset_row(w, out, i, false, x);
		offset_row(w, out, i, true, y);
		xx = quadratic(c, x, x, n);
		xy = quadratic(c, x, y, n);
		yy = quadratic(c, y, y, n);
		out->peg[i].se_m = factor * sqrt(fmax((xx + yy) / 2 + hypot((xx - yy) / 2, xy), 0));
	}
	return RT_OK;
}

static void put_offsets(struct rt_ring_check *out, const struct check_work *w)
{
	struct rt__placement t = rt__place(w->should, w->stands, out->pegs, w->in);

	for (size_t i = 0; i < out->pegs; i++) {
		struct rt_checked_peg *p = &out->peg[i];
		bool across_y = p->peg.side == RT_SIDE_A || p->peg.side == RT_SIDE_C;
		bool turned = p->peg.side == RT_LEFT || p->peg.side == RT_SIDE_A;
		double off[2];

		rt__offset(&t, w->should, w->stands, i, off);
		p->dx_m = off[0];
		p->dy_m = off[1];
		p->off_m = hypot(off[0], off[1]);
		p->along_off_m = across_y ? off[0] : off[1];
		p->across_off_m = (across_y ? off[1] : off[0]) * (turned ? -1 : 1);
		p->in_fit = w->in[i];
	}
}

/* ---- verdict and move ---- */

static enum rt_peg_verdict verdict_of(const struct rt_checked_peg *p, double tolerance)
{
	if (fabs(p->off_m - tolerance) <= 2 * p->se_m)
		return RT_PEG_UNSURE;
	return p->off_m > tolerance ? RT_PEG_MOVE : RT_PEG_GOOD;
}

/* Where to move by `by` along an axis, in words: towards a peg on that line, or away from one;
 * across a side in or out. */
static void put_direction(const struct rt_pegs *pegs, const struct rt_peg *peg, bool along_y,
			  double by, char *out, size_t size)
{
	bool across_y = peg->side == RT_SIDE_A || peg->side == RT_SIDE_C;
	bool middle = peg->corner || peg->side == RT_CENTRE;
	double side = along_y ? peg->y_m : peg->x_m;
	const struct rt_peg *ahead, *behind;
	int sign = by > 0 ? 1 : -1;

	if (!middle && along_y == across_y) {
		snprintf(out, size, "%s", by * side > 0 ? "out" : "in");
		return;
	}
	ahead = rt__peg_towards(pegs, peg, along_y, sign);
	behind = rt__peg_towards(pegs, peg, along_y, -sign);
	if (ahead)
		snprintf(out, size, "towards %s", ahead->name);
	else if (behind)
		snprintf(out, size, "away from %s", behind->name);
	else if (along_y)
		snprintf(out, size, "towards the %s end", by > 0 ? "C" : "A");
	else
		snprintf(out, size, "to the %s, seen from A", by > 0 ? "right" : "left");
}

/* "0.53 m towards B and 0.04 m out": along the side first. */
static const char *move_of(struct rt_ring_check *out, const struct rt_pegs *pegs,
			   const struct rt_checked_peg *p)
{
	bool first_y = p->peg.side != RT_SIDE_A && p->peg.side != RT_SIDE_C;
	double by[2] = {-p->dx_m, -p->dy_m};
	double larger = fmax(fabs(by[0]), fabs(by[1]));
	char text[200] = "";
	size_t used = 0, parts = 0;

	if (p->verdict == RT_PEG_UNSURE)
		used = (size_t)snprintf(text, sizeof text, "perhaps ");
	for (int part = 0; part < 2; part++) {
		bool along_y = (part == 0) == first_y;
		double much = by[along_y];
		char length[32], where[80];

		if (fabs(much) < fmin(MOVE_LEAST_M, larger))
			continue;
		rt_format_real(fabs(much), 2, length, sizeof length);
		put_direction(pegs, &p->peg, along_y, much, where, sizeof where);
		used += (size_t)snprintf(text + used, sizeof text - used, "%s%s m %s",
					 parts++ ? " and " : "", length, where);
	}
	return rt_arena_string(&out->text, text);
}

static enum rt_ring_verdict whole_verdict(const struct rt_ring_check *out)
{
	enum rt_search_end end = out->adjustment.end;

	if (end == RT_SEARCH_TIED || end == RT_SEARCH_NEEDED)
		return RT_RING_DOUBT;
	if (out->adjustment.test == RT_SIGMA_UNTESTED)
		return RT_RING_UNSURE;
	if (out->to_move)
		return RT_RING_MOVE;
	if (out->unsure)
		return RT_RING_UNSURE;
	return end == RT_SEARCH_WORSE ? RT_RING_DOUBT : RT_RING_TRUE;
}

static enum rt_err judge(struct rt_ring_check *out, const struct rt_pegs *pegs,
			 struct rt_error *err)
{
	for (size_t i = 0; i < out->pegs; i++) {
		struct rt_checked_peg *p = &out->peg[i];

		p->verdict = verdict_of(p, out->tolerance_m);
		out->to_move += p->verdict == RT_PEG_MOVE;
		out->unsure += p->verdict == RT_PEG_UNSURE;
		if (p->verdict == RT_PEG_GOOD)
			continue;
		p->move = move_of(out, pegs, p);
		if (!p->move)
			return rt_fail_nomem(err);
	}
	out->verdict = whole_verdict(out);
	return RT_OK;
}

enum rt_err rt_ring_check(struct rt_ring_check *out, const struct rt_ring_kind *kind,
			  const struct rt_readings *readings, double tolerance_m, enum rt_fit fit,
			  struct rt_error *err)
{
	struct check_work w = {0};
	enum rt_err e;

	if (!(tolerance_m > 0) || !isfinite(tolerance_m))
		return rt_fail(err, RT_E_INPUT, "the tolerance must be over 0 m");
	out->kind = kind;
	out->tolerance_m = tolerance_m;
	out->fit = fit;
	e = rt_ring_pegs(&w.pegs, kind, err);
	if (!e)
		e = judge_names(&w.pegs, readings, err);
	if (!e)
		e = sort_out(out, &w, readings, err);
	if (!e)
		e = rt_adjust(&out->adjustment, &w.points, readings, err);
	if (!e)
		e = work_make(&w, out, err);
	if (!e)
		e = choose_fit(out, &w, err);
	if (!e) {
		put_offsets(out, &w);
		e = put_errors(out, &w, err);
	}
	if (!e)
		e = judge(out, &w.pegs, err);
	work_free(&w);
	return e;
}

void rt_ring_check_free(struct rt_ring_check *check)
{
	rt_adjustment_free(&check->adjustment);
	rt_pegs_free(&check->unmeasured);
	rt_arena_free(check->text);
	memset(check, 0, sizeof *check);
}
