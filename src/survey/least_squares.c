/* Nonlinear least squares by Gauss-Newton: steps by QR with datum rows.
 *
 * The design matrix is never squared: at a step the rows J / sigma stand over the datum rows,
 * and one QR of the whole gives the step.  Where the datum rows span just what J does not see,
 * that is the step of minimum norm over the first `places` unknowns; where those are all, the
 * same as the pseudo-inverse gives.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define STEPS_MOST     60
#define HALVINGS_MOST  40
#define STEP_SMALL     1e-12 /* against 1 + |x|: rounding of a well set problem is under 1e-14 */
#define STEP_CHORD     1e-3  /* steps by old factors then shrink a thousandfold each */
#define SINGULAR_SMALL 1e-10 /* against the largest: exact collinearity gives 1e-16 */

struct work {
	size_t rows; /* of the stack, padded to the unknowns at least */
	double *residual, *jacobian, *datum;
	double *stack, *rhs; /* rows x unknowns, rows */
	double *step, *trial;
	double *room;  /* of QR: a number an unknown */
	double weight; /* of the datum rows */
	struct rt_arena *arena;
};

static double *take(struct work *w, size_t n)
{
	return rt_arena_take(&w->arena, n * sizeof(double));
}

static enum rt_err work_make(struct work *w, const struct rt__problem *p, struct rt_error *err)
{
	size_t n = p->unknowns, rows = p->rows + p->datums;

	w->rows = rows > n ? rows : n;
	w->residual = take(w, p->rows);
	w->jacobian = take(w, p->rows * n);
	w->datum = take(w, p->datums * n);
	w->stack = take(w, w->rows * n);
	w->rhs = take(w, w->rows);
	w->step = take(w, n);
	w->trial = take(w, n);
	w->room = take(w, n);
	if (!w->residual || !w->jacobian || !w->datum || !w->stack || !w->rhs || !w->step ||
	    !w->trial || !w->room)
		return rt_fail_nomem(err);
	return RT_OK;
}

static double sigma_of(const struct rt__problem *p, size_t row)
{
	return p->sigma ? p->sigma[row] : 1;
}

static double weighted_sum(const struct rt__problem *p, const double *residual)
{
	double sum = 0;

	for (size_t i = 0; i < p->rows; i++) {
		double v = residual[i] / sigma_of(p, i);

		sum += v * v;
	}
	return sum;
}

static double sum_at(const struct rt__problem *p, struct work *w, const double *x)
{
	p->model(p->data, x, w->residual, NULL);
	return weighted_sum(p, w->residual);
}

/* Put the datum rows under the design matrix, as heavy as its columns are on average so that
 * the whole is well conditioned. */
static void stack_datum(const struct rt__problem *p, struct work *w, const double *x)
{
	size_t n = p->unknowns;
	double square = 0;

	for (size_t i = 0; i < p->rows * n; i++)
		square += w->stack[i] * w->stack[i];
	w->weight = square > 0 ? sqrt(square / (double)n) : 1;
	p->datum(p->data, x, w->datum);
	for (size_t i = 0; i < p->datums * n; i++)
		w->stack[p->rows * n + i] = i % n < p->places ? w->datum[i] * w->weight : 0;
}

/* The linear problem at x: stack and right-hand side; the weighted sum of squares there. */
static double linearise(const struct rt__problem *p, struct work *w, const double *x)
{
	size_t n = p->unknowns;

	p->model(p->data, x, w->residual, w->jacobian);
	memset(w->stack, 0, w->rows * n * sizeof *w->stack);
	memset(w->rhs, 0, w->rows * sizeof *w->rhs);
	for (size_t i = 0; i < p->rows; i++) {
		double sigma = sigma_of(p, i);

		w->rhs[i] = -w->residual[i] / sigma;
		for (size_t k = 0; k < n; k++)
			w->stack[i * n + k] = w->jacobian[i * n + k] / sigma;
	}
	if (p->datums)
		stack_datum(p, w, x);
	return weighted_sum(p, w->residual);
}

/* QR of the stack in place, and of the right-hand side; fails where a column hangs on those before
 * it. */
static enum rt_err factor(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	size_t n = p->unknowns;
	double largest = 0;

	rt__qr(w->stack, w->rows, n, w->rhs, w->room);
	for (size_t i = 0; i < n; i++)
		largest = fmax(largest, fabs(w->stack[i * n + i]));
	for (size_t i = 0; i < n; i++) {
		if (!(fabs(w->stack[i * n + i]) > SINGULAR_SMALL * largest))
			return rt_fail(err, RT_E_NUMERIC,
				       "the readings do not determine the unknowns");
	}
	return RT_OK;
}

/* The step of the linear problem. */
static enum rt_err find_step(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	enum rt_err e = factor(p, w, err);

	if (e)
		return e;
	memcpy(w->step, w->rhs, p->unknowns * sizeof *w->step);
	rt__solve_upper(w->stack, p->unknowns, w->step);
	return RT_OK;
}

/* Go along the step, halving it while it makes things worse. */
static bool advance(const struct rt__problem *p, struct work *w, double *x, double sum)
{
	double part = 1, slack = sum * 1e-9 + 1e-18 * (double)p->rows;

	for (int halvings = 0; halvings < HALVINGS_MOST; halvings++, part /= 2) {
		for (size_t i = 0; i < p->unknowns; i++)
			w->trial[i] = x[i] + part * w->step[i];
		if (sum_at(p, w, w->trial) <= sum + slack) {
			memcpy(x, w->trial, p->unknowns * sizeof *x);
			return true;
		}
	}
	return false;
}

/* The largest part of the step, against 1 + |x|. */
static double step_size(const struct rt__problem *p, const double *x, const double *step)
{
	double most = 0;

	for (size_t i = 0; i < p->unknowns; i++) {
		double part = fabs(step[i]) / (1 + fabs(x[i]));

		if (!(part <= most))
			most = part;
	}
	return most;
}

/* Take out of the step what the datum of the factors sees. */
static void stay_in_datum(const struct rt__problem *p, struct work *w)
{
	size_t n = p->unknowns;

	for (size_t k = 0; k < p->datums; k++) {
		double along = 0;

		for (size_t i = 0; i < p->places; i++)
			along += w->datum[k * n + i] * w->step[i];
		for (size_t i = 0; i < n; i++)
			w->step[i] -= along * w->datum[k * n + i];
	}
}

/* The step from x by factors R made a small step before: RᵀR step = -Jᵀ residual, with J as it is
 * at x, so that the steps end where it is 0. */
static void chord_step(const struct rt__problem *p, struct work *w, const double *x, double *sum)
{
	size_t n = p->unknowns;

	p->model(p->data, x, w->residual, w->jacobian);
	*sum = weighted_sum(p, w->residual);
	memset(w->step, 0, n * sizeof *w->step);
	for (size_t i = 0; i < p->rows; i++) {
		double weighted = w->residual[i] / (sigma_of(p, i) * sigma_of(p, i));

		for (size_t k = 0; k < n; k++)
			w->step[k] -= w->jacobian[i * n + k] * weighted;
	}
	rt__solve_upper_transposed(w->stack, n, w->step);
	rt__solve_upper(w->stack, n, w->step);
	stay_in_datum(p, w);
}

/* Factors are made anew until the steps are small, and again where old ones do not halve a step. */
static enum rt_err iterate(const struct rt__problem *p, struct work *w, double *x, double *sum,
			   struct rt_error *err)
{
	double size = INFINITY;
	bool old = false; /* are the factors? */

	for (int steps = 0; steps < STEPS_MOST; steps++) {
		double before = size;

		if (old) {
			chord_step(p, w, x, sum);
		} else {
			*sum = linearise(p, w, x);
			if (isfinite(*sum)) {
				enum rt_err e = find_step(p, w, err);

				if (e)
					return e;
			}
		}
		if (!isfinite(*sum))
			break;
		size = step_size(p, x, w->step);
		if (size <= STEP_SMALL) {
			for (size_t i = 0; i < p->unknowns; i++)
				x[i] += w->step[i];
			*sum = sum_at(p, w, x);
			return RT_OK;
		}
		if (old && !(size < before / 2)) {
			old = false;
			continue;
		}
		if (!advance(p, w, x, *sum))
			break;
		old = size < STEP_CHORD;
	}
	return rt_fail(err, RT_E_NUMERIC, "the adjustment does not settle");
}

enum rt_err rt__solve(const struct rt__problem *p, double *x, double *sum, struct rt_error *err)
{
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e)
		e = iterate(p, &w, x, sum, err);
	rt_arena_free(w.arena);
	return e;
}

enum rt_err rt__first_step(const struct rt__problem *p, const double *x, double *step,
			   struct rt_error *err)
{
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e) {
		linearise(p, &w, x);
		e = find_step(p, &w, err);
	}
	if (!e)
		memcpy(step, w.step, p->unknowns * sizeof *step);
	rt_arena_free(w.arena);
	return e;
}

/* (RᵀR)^-1 less what the datum rows put in.  With M = JᵀJ, N what J does not see and D its first
 * part, so that D Nᵀ = 1: (M + w²DᵀD) Nᵀ = w²Dᵀ, and (M + w²DᵀD)^-1 - NᵀN / w² is the inverse of M
 * that D makes nothing of. */
static void put_covariance(const struct rt__problem *p, const struct work *w, double *covariance)
{
	size_t n = p->unknowns;

	memset(covariance, 0, n * n * sizeof *covariance);
	for (size_t i = 0; i < n; i++) {
		double *row = covariance + i * n;

		row[i] = 1;
		rt__solve_upper_transposed(w->stack, n, row);
		rt__solve_upper(w->stack, n, row);
		for (size_t d = 0; d < p->datums; d++) {
			const double *datum = w->datum + d * n;

			for (size_t k = 0; k < n; k++)
				row[k] -= datum[i] * datum[k] / (w->weight * w->weight);
		}
	}
}

enum rt_err rt__covariance(const struct rt__problem *p, const double *x, double *covariance,
			   struct rt_error *err)
{
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e) {
		linearise(p, &w, x);
		e = factor(p, &w, err);
	}
	if (!e)
		put_covariance(p, &w, covariance);
	rt_arena_free(w.arena);
	return e;
}
