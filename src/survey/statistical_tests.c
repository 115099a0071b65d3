/* Tests of an adjustment: what stands out, and by how much.
 *
 * W. Baarda (1968): with sigma believed, w of a good reading is standard normal.  A. Pope
 * (1976): with sigma taken from the residuals themselves, tau = |w| / sigma0.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

#include "internal.h"

#define SIGMA_LEVEL 0.05 /* of the test of sigma0, two-sided */
#define TAU_LEVEL   0.05 /* of all readings together */

/* GSL's inverses call its handler, which ends the process, where they give up: that of chi-square
 * first at 2,320 degrees of freedom; that of t nowhere up to 200,000, where t is normal anyway. */
#define CHI_SQUARE_MOST 1000
#define T_MOST		100000

#define REDUNDANCY_NONE 1e-9 /* rounding of a reading that no other checks: 1e-13 */

double rt__tau_critical(double alpha, size_t f)
{
	double t;

	if (f < 2)
		return 1; /* with one degree of freedom every tau is 1 */
	t = gsl_cdf_tdist_Pinv(1 - alpha / 2, fmin((double)(f - 1), T_MOST));
	return t * sqrt((double)f) / sqrt((double)(f - 1) + t * t);
}

/* Residual, redundancy and w of every edge; of one that was set aside as if it alone were put
 * back: then the variance of what the others say of it comes on top of its own. */
static void test_edges(const struct rt__network *net, struct rt__tested *out)
{
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double own = e->sigma * e->sigma, known = rt__edge_covariance(net, e, e);
		struct rt__tested *t = &out[i];

		t->residual = rt__edge_residual(net, e);
		t->redundancy = e->used ? 1 - known / own : own / (own + known);
		t->redundancy = fmin(fmax(t->redundancy, 0), 1);
		if (t->redundancy < REDUNDANCY_NONE)
			t->redundancy = 0;
		t->w = 0;
		if (t->redundancy > 0 && e->used)
			t->w = t->residual / (e->sigma * sqrt(t->redundancy));
		else if (t->redundancy > 0)
			t->w = t->residual / sqrt(own + known);
	}
}

/* E. B. Wilson and M. M. Hilferty (1931) for many degrees of freedom: by a millionth at most. */
double rt__chi_square(double p, size_t f)
{
	double h = 2 / (9 * (double)f);

	if (f <= CHI_SQUARE_MOST)
		return gsl_cdf_chisq_Pinv(p, (double)f);
	return (double)f * pow(1 - h + gsl_cdf_ugaussian_Pinv(p) * sqrt(h), 3);
}

double rt__sigma_limit(size_t freedom)
{
	return rt__chi_square(1 - SIGMA_LEVEL / 2, freedom);
}

static void test_sigma(const struct rt__network *net, struct rt__search *s)
{
	s->sigma0 = net->freedom ? sqrt(net->sum / (double)net->freedom) : NAN;
	s->test = RT_SIGMA_UNTESTED;
	if (net->freedom == 0)
		return;
	s->test = RT_SIGMA_PASSED;
	if (net->sum > rt__sigma_limit(net->freedom))
		s->test = RT_SIGMA_FAILED;
	else if (net->sum < rt__chi_square(SIGMA_LEVEL / 2, net->freedom))
		s->test = RT_SIGMA_CAUTIOUS;
}

/* |w| over which a reading is a suspect. */
double rt__search_critical(const struct rt__network *net, const struct rt__search *s)
{
	double alpha = 1 - pow(1 - TAU_LEVEL, 1 / (double)net->used);

	if (s->test != RT_SIGMA_FAILED)
		return RT_W_CRITICAL;
	return rt__tau_critical(alpha, net->freedom) * s->sigma0;
}

/* The used edge with the largest |w| that is checked at all; net->edges when none is. */
size_t rt__search_largest(const struct rt__network *net, const struct rt__tested *t)
{
	size_t at = net->edges;

	for (size_t i = 0; i < net->edges; i++) {
		if (rt__edge_counts(net, &net->edge[i]) && t[i].redundancy >= RT_R_UNCHECKED &&
		    (at == net->edges || fabs(t[i].w) > fabs(t[at].w)))
			at = i;
	}
	return at;
}

/* The readings fit where the adjustment came to, but it does not come to rest: there, other than
 * at the start, a peg is not fixed.  Readings that only just reach each other pull a peg onto
 * the line between two others. */
static enum rt_err restless(struct rt__network *net, struct rt_error *err)
{
	enum rt_err e;

	for (size_t i = 0; i < net->points; i++)
		rt__network_place(net, net->x, i, net->place + 2 * i);
	memcpy(net->start, net->place, 2 * net->points * sizeof *net->start);
	for (size_t f = 0; f < net->frames; f++) {
		struct rt__frame *frame = &net->frame[f];

		if (frame->column == RT__NONE)
			continue;
		frame->turn = net->x[frame->column];
		frame->shift_x = net->x[frame->column + 1];
		frame->shift_y = net->x[frame->column + 2];
	}
	e = rt__network_fixed(net, err);
	return e ? e : rt_fail(err, RT_E_NUMERIC, "the adjustment does not settle");
}

/* Adjust; where that does not settle and the readings do not fit, one of them is wrong by many
 * metres, and a linear adjustment will show which. */
static enum rt_err adjust_somehow(struct rt__network *net, bool *linear, struct rt_error *err)
{
	enum rt_err e = rt__network_adjust(net, err);
	size_t rank = net->unknowns - net->datums;

	*linear = false;
	if (e != RT_E_NUMERIC)
		return e;
	if (net->used <= rank || net->sum < rt__sigma_limit(net->used - rank))
		return restless(net, err);
	*linear = true;
	return rt__network_adjust_linear(net, err);
}

enum rt_err rt__search_adjust(struct rt__network *net, struct rt__search *s, struct rt_error *err)
{
	enum rt_err e = adjust_somehow(net, &s->linear, err);

	if (e)
		return e;
	test_edges(net, s->edge);
	test_sigma(net, s);
	return RT_OK;
}
