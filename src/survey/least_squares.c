/* Nonlinear least squares by Gauss-Newton: steps by QR with datum rows, or by singular values.
 *
 * The design matrix is never squared: at a step the rows J / sigma stand over the datum rows,
 * and one QR of the whole gives the step.  Where the datum rows span just what J does not see,
 * that is the step of minimum norm over the first `places` unknowns; where those are all, the
 * same as the pseudo-inverse gives.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
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
	double *tau;	      /* QR */
	double *v, *s, *room; /* SVD */
	double weight;	      /* of the datum rows */
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
	w->tau = take(w, n);
	w->v = take(w, n * n);
	w->s = take(w, n);
	w->room = take(w, n);
	if (!w->residual || !w->jacobian || !w->datum || !w->stack || !w->rhs || !w->step ||
	    !w->trial || !w->tau || !w->v || !w->s || !w->room)
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
	if (p->datums && p->way == RT__QR)
		stack_datum(p, w, x);
	return weighted_sum(p, w->residual);
}

static enum rt_err numeric(struct rt_error *err, int status)
{
	if (status == GSL_ENOMEM)
		return rt_fail_nomem(err);
	return rt_fail(err, RT_E_NUMERIC, "the readings do not determine the unknowns");
}

/* QR of the stack in place; fails where a column hangs on those before it. */
static enum rt_err factor(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view a = gsl_matrix_view_array(w->stack, w->rows, n);
	gsl_vector_view tau = gsl_vector_view_array(w->tau, n);
	double largest = 0;
	int status = gsl_linalg_QR_decomp(&a.matrix, &tau.vector);

	if (status)
		return numeric(err, status);
	for (size_t i = 0; i < n; i++)
		largest = fmax(largest, fabs(w->stack[i * n + i]));
	for (size_t i = 0; i < n; i++) {
		if (!(fabs(w->stack[i * n + i]) > SINGULAR_SMALL * largest))
			return numeric(err, GSL_ESING);
	}
	return RT_OK;
}

static enum rt_err step_qr(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view a = gsl_matrix_view_array(w->stack, w->rows, n);
	gsl_matrix_view r = gsl_matrix_submatrix(&a.matrix, 0, 0, n, n);
	gsl_vector_view tau = gsl_vector_view_array(w->tau, n);
	gsl_vector_view b = gsl_vector_view_array(w->rhs, w->rows);
	gsl_vector_view top = gsl_vector_subvector(&b.vector, 0, n);
	enum rt_err e = factor(p, w, err);
	int status;

	if (e)
		return e;
	status = gsl_linalg_QR_QTvec(&a.matrix, &tau.vector, &b.vector);
	if (!status)
		status = gsl_blas_dtrsv(CblasUpper, CblasNoTrans, CblasNonUnit, &r.matrix,
					&top.vector);
	if (status)
		return numeric(err, status);
	memcpy(w->step, w->rhs, n * sizeof *w->step);
	return RT_OK;
}

/* Singular values of the stack, which becomes U; returns the rank in *rank. */
static enum rt_err decompose(const struct rt__problem *p, struct work *w, size_t *rank,
			     struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view a = gsl_matrix_view_array(w->stack, w->rows, n);
	gsl_matrix_view v = gsl_matrix_view_array(w->v, n, n);
	gsl_vector_view s = gsl_vector_view_array(w->s, n);
	gsl_vector_view room = gsl_vector_view_array(w->room, n);
	int status = gsl_linalg_SV_decomp(&a.matrix, &v.matrix, &s.vector, &room.vector);

	if (status)
		return numeric(err, status);
	*rank = 0;
	while (*rank < n && w->s[*rank] > SINGULAR_SMALL * w->s[0])
		++*rank;
	return RT_OK;
}

static enum rt_err step_svd(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	size_t n = p->unknowns, rank;
	enum rt_err e = decompose(p, w, &rank, err);

	if (e)
		return e;
	memset(w->step, 0, n * sizeof *w->step);
	for (size_t k = 0; k < rank; k++) {
		double along = 0;

		for (size_t i = 0; i < w->rows; i++)
			along += w->stack[i * n + k] * w->rhs[i];
		for (size_t i = 0; i < n; i++)
			w->step[i] += w->v[i * n + k] * along / w->s[k];
	}
	return RT_OK;
}

static enum rt_err step_at(const struct rt__problem *p, struct work *w, struct rt_error *err)
{
	return p->way == RT__QR ? step_qr(p, w, err) : step_svd(p, w, err);
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
static enum rt_err chord_step(const struct rt__problem *p, struct work *w, const double *x,
			      double *sum, struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view r = gsl_matrix_view_array(w->stack, n, n);
	gsl_vector_view step = gsl_vector_view_array(w->step, n);
	int status;

	p->model(p->data, x, w->residual, w->jacobian);
	*sum = weighted_sum(p, w->residual);
	memset(w->step, 0, n * sizeof *w->step);
	for (size_t i = 0; i < p->rows; i++) {
		double weighted = w->residual[i] / (sigma_of(p, i) * sigma_of(p, i));

		for (size_t k = 0; k < n; k++)
			w->step[k] -= w->jacobian[i * n + k] * weighted;
	}
	status = gsl_blas_dtrsv(CblasUpper, CblasTrans, CblasNonUnit, &r.matrix, &step.vector);
	if (!status)
		status = gsl_blas_dtrsv(CblasUpper, CblasNoTrans, CblasNonUnit, &r.matrix,
					&step.vector);
	stay_in_datum(p, w);
	return status ? numeric(err, status) : RT_OK;
}

/* Factors are made anew until the steps are small, and again where old ones do not halve a step. */
static enum rt_err iterate(const struct rt__problem *p, struct work *w, double *x, double *sum,
			   struct rt_error *err)
{
	double size = INFINITY, before;
	bool old = false;

	for (int steps = 0; steps < STEPS_MOST; steps++) {
		enum rt_err e;

		before = size;
		if (!old)
			*sum = linearise(p, w, x);
		e = old		     ? chord_step(p, w, x, sum, err)
		    : isfinite(*sum) ? step_at(p, w, err)
				     : RT_OK;
		if (e)
			return e;
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
		old = p->way == RT__QR && size < STEP_CHORD;
	}
	return rt_fail(err, RT_E_NUMERIC, "the adjustment does not settle");
}

enum rt_err rt__solve(const struct rt__problem *p, double *x, double *sum, struct rt_error *err)
{
	gsl_error_handler_t *handler = gsl_set_error_handler_off();
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e)
		e = iterate(p, &w, x, sum, err);
	rt_arena_free(w.arena);
	gsl_set_error_handler(handler);
	return e;
}

enum rt_err rt__first_step(const struct rt__problem *p, const double *x, double *step,
			   struct rt_error *err)
{
	gsl_error_handler_t *handler = gsl_set_error_handler_off();
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e) {
		linearise(p, &w, x);
		e = step_at(p, &w, err);
	}
	if (!e)
		memcpy(step, w.step, p->unknowns * sizeof *step);
	rt_arena_free(w.arena);
	gsl_set_error_handler(handler);
	return e;
}

/* (RᵀR)^-1 less what the datum rows put in.  With M = JᵀJ, N what J does not see and D its first
 * part, so that D Nᵀ = 1: (M + w²DᵀD) Nᵀ = w²Dᵀ, and (M + w²DᵀD)^-1 - NᵀN / w² is the inverse of M
 * that D makes nothing of. */
static enum rt_err covariance_qr(const struct rt__problem *p, struct work *w, double *covariance,
				 size_t *rank, struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view a = gsl_matrix_view_array(w->stack, w->rows, n);
	gsl_matrix_view r = gsl_matrix_submatrix(&a.matrix, 0, 0, n, n);
	gsl_matrix_view d = gsl_matrix_view_array(w->datum, p->datums ? p->datums : 1, n);
	gsl_matrix_view c = gsl_matrix_view_array(covariance, n, n);
	enum rt_err e = factor(p, w, err);
	int status;

	if (e)
		return e;
	*rank = n - p->datums;
	gsl_matrix_set_identity(&c.matrix);
	status = gsl_blas_dtrsm(CblasLeft, CblasUpper, CblasTrans, CblasNonUnit, 1, &r.matrix,
				&c.matrix);
	if (!status)
		status = gsl_blas_dtrsm(CblasLeft, CblasUpper, CblasNoTrans, CblasNonUnit, 1,
					&r.matrix, &c.matrix);
	if (!status && p->datums)
		status = gsl_blas_dgemm(CblasTrans, CblasNoTrans, -1 / (w->weight * w->weight),
					&d.matrix, &d.matrix, 1, &c.matrix);
	return status ? numeric(err, status) : RT_OK;
}

/* V S^-2 Vᵀ over the singular values that count. */
static enum rt_err covariance_svd(const struct rt__problem *p, struct work *w, double *covariance,
				  size_t *rank, struct rt_error *err)
{
	size_t n = p->unknowns;
	gsl_matrix_view v = gsl_matrix_view_array(w->v, n, n);
	gsl_matrix_view c = gsl_matrix_view_array(covariance, n, n);
	enum rt_err e = decompose(p, w, rank, err);
	int status;

	if (e)
		return e;
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < n; k++)
			w->v[i * n + k] *= k < *rank ? 1 / w->s[k] : 0;
	}
	status = gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1, &v.matrix, &v.matrix, 0, &c.matrix);
	return status ? numeric(err, status) : RT_OK;
}

enum rt_err rt__covariance(const struct rt__problem *p, const double *x, double *covariance,
			   size_t *rank, struct rt_error *err)
{
	gsl_error_handler_t *handler = gsl_set_error_handler_off();
	struct work w = {0};
	enum rt_err e = work_make(&w, p, err);

	if (!e) {
		linearise(p, &w, x);
		e = p->way == RT__QR ? covariance_qr(p, &w, covariance, rank, err)
				     : covariance_svd(p, &w, covariance, rank, err);
	}
	rt_arena_free(w.arena);
	gsl_set_error_handler(handler);
	return e;
}
