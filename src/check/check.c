/* A ring judged from readings: adjust, lay the layout on, judge every peg.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define TOLERANCE_DRIVEN_M 0.10
#define TOLERANCE_RIDDEN_M 0.05

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
		if (rt__reading_names(&readings->at[i], peg))
			return true;
	}
	return false;
}

static enum rt_err judge_names(const struct rt_pegs *pegs, const struct rt_readings *readings,
			       struct rt_error *err)
{
	for (size_t i = 0; i < readings->n; i++) {
		const struct rt_reading *r = &readings->at[i];
		const char *name[] = {r->from, r->to, r->at};

		for (size_t k = 0; k < 3; k++) {
			if (name[k] && !rt_peg_find(pegs, name[k]))
				return rt__no_such_peg(pegs, name[k], err);
		}
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
 * Row of the offset's x (or y), as the pegs lie, over the coordinates of all pegs. */
static void offset_row(const struct check_work *w, const struct rt_ring_check *out, size_t peg,
		       bool of_y, double *row)
{
	double c[2], square = 0, lever;
	double count = (double)rt__middle(w->stands, out->pegs, w->in, c);

	for (size_t i = 0; i < out->pegs; i++) {
		double x = w->stands[2 * i] - c[0], y = w->stands[2 * i + 1] - c[1];

		square += w->in[i] ? x * x + y * y : 0;
	}
	lever = of_y ? w->stands[2 * peg] - c[0] : c[1] - w->stands[2 * peg + 1];
	for (size_t i = 0; i < out->pegs; i++) {
		double x = w->stands[2 * i] - c[0], y = w->stands[2 * i + 1] - c[1];

		row[2 * i] = w->in[i] ? lever * y / square - !of_y / count : 0;
		row[2 * i + 1] = w->in[i] ? -lever * x / square - of_y / count : 0;
	}
	row[2 * peg + of_y] += 1;
}

/* The rows of all offsets, turned into the frame of the fit. */
static enum rt_err put_rows(struct rt_ring_check *out, const struct check_work *w,
			    struct rt_error *err)
{
	struct rt__placement t = rt__place(w->should, w->stands, out->pegs, w->in);
	size_t n = 2 * out->pegs;

	out->offset_row = rt_arena_take(&out->text, n * n * sizeof *out->offset_row);
	if (!out->offset_row)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < out->pegs; i++) {
		double *x = out->offset_row + 2 * i * n, *y = x + n;

		offset_row(w, out, i, false, x);
		offset_row(w, out, i, true, y);
		for (size_t k = 0; k < n; k++) {
			double turned = t.cosine * x[k] + t.sine * y[k];

			y[k] = -t.sine * x[k] + t.cosine * y[k];
			x[k] = turned;
		}
	}
	return RT_OK;
}

/* The covariance of the adjusted pegs carried over to the datum of the fit, and from it the
 * standard error of each offset in the direction known worst. */
static void put_errors(struct rt_ring_check *out)
{
	const double *c = out->adjustment.covariance_m2;
	size_t n = 2 * out->pegs;
	double factor = fmax(1, out->adjustment.sigma0); /* 1 where there is none */

	for (size_t i = 0; i < out->pegs; i++) {
		const double *x = out->offset_row + 2 * i * n, *y = x + n;
		struct rt_checked_peg *p = &out->peg[i];

		p->cov_xx_m2 = factor * factor * rt__quadratic(c, x, x, n);
		p->cov_xy_m2 = factor * factor * rt__quadratic(c, x, y, n);
		p->cov_yy_m2 = factor * factor * rt__quadratic(c, y, y, n);
		p->se_m = rt__worst_error(p->cov_xx_m2, p->cov_xy_m2, p->cov_yy_m2);
	}
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
		e = rt__check_tape(out, &w.points, readings, err);
	if (!e)
		e = work_make(&w, out, err);
	if (!e)
		e = choose_fit(out, &w, err);
	if (!e) {
		put_offsets(out, &w);
		e = put_rows(out, &w, err);
	}
	if (!e) {
		put_errors(out);
		e = rt__judge(out, &w.pegs, err);
	}
	if (!e)
		e = rt__find_hidden(out, err);
	if (!e && isnan(out->tape) && !rt__in_doubt(&out->adjustment))
		e = rt__find_stretch(out, w.should, w.stands, err);
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

const struct rt_checked_peg *rt_ring_check_worst(const struct rt_ring_check *check)
{
	const struct rt_checked_peg *worst = NULL;

	for (size_t i = 0; i < check->pegs; i++)
		if (!worst || check->peg[i].off_m > worst->off_m)
			worst = &check->peg[i];
	return worst;
}

void rt_ring_check_words(const struct rt_ring_check *check, char *out, size_t size)
{
	if (check->verdict == RT_RING_MOVE)
		snprintf(out, size, "move %zu peg%s", check->to_move,
			 check->to_move == 1 ? "" : "s");
	else
		snprintf(out, size, "%s", rt_ring_verdict_words(check->verdict));
}

const struct rt_checked_peg *rt__checked_peg(const struct rt_ring_check *check, const char *name)
{
	for (size_t i = 0; i < check->pegs; i++)
		if (strcmp(check->peg[i].peg.name, name) == 0)
			return &check->peg[i];
	return NULL;
}

double rt_ring_check_within(const struct rt_ring_check *check)
{
	double within = 0;

	for (size_t i = 0; i < check->pegs; i++)
		within = fmax(within, check->peg[i].off_m + RT_WITHIN_95 * check->peg[i].se_m);
	return within;
}
