/* Tests of an adjustment, and the search for blunders, one at a time.
 *
 * W. Baarda (1968): with sigma believed, w of a good reading is standard normal.  A. Pope
 * (1976): with sigma taken from the residuals themselves, tau = |w| / sigma0.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <math.h>
#include <string.h>

#include "internal.h"

#define SIGMA_LEVEL 0.05 /* of the test of sigma0, two-sided */
#define TAU_LEVEL   0.05 /* of all readings together */

/* Two readings whose residuals always move together (correlation over SAME_MOVE) cannot be told
 * apart by w at any size of blunder: four sides and two diagonals.  Those over LIKE_MOVE can
 * once w of the larger leads by more than chance, 1.645 standard deviations of the difference,
 * and by more than large blunders bend w: LEAD_PART of it. */
#define SAME_MOVE 0.999
#define LIKE_MOVE 0.9
#define LEAD	  1.645
#define LEAD_PART 0.05

#define REDUNDANCY_NONE 1e-9 /* rounding of a reading that no other checks: 1e-13 */

double rt__tau_critical(double alpha, size_t f)
{
	double t;

	if (f < 2)
		return 1; /* with one degree of freedom every tau is 1 */
	t = gsl_cdf_tdist_Pinv(1 - alpha / 2, (double)(f - 1));
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

/* The sum of squares that so many degrees of freedom stay under with this probability. */
static double sigma_limit(double probability, size_t freedom)
{
	return gsl_cdf_chisq_Pinv(probability, (double)freedom);
}

static void test_sigma(const struct rt__network *net, struct rt__search *s)
{
	s->sigma0 = net->freedom ? sqrt(net->sum / (double)net->freedom) : NAN;
	s->test = RT_SIGMA_UNTESTED;
	if (net->freedom == 0)
		return;
	s->test = RT_SIGMA_PASSED;
	if (net->sum > sigma_limit(1 - SIGMA_LEVEL / 2, net->freedom))
		s->test = RT_SIGMA_FAILED;
	else if (net->sum < sigma_limit(SIGMA_LEVEL / 2, net->freedom))
		s->test = RT_SIGMA_CAUTIOUS;
}

/* |w| over which a reading is a suspect. */
static double critical(const struct rt__network *net, const struct rt__search *s)
{
	double alpha = 1 - pow(1 - TAU_LEVEL, 1 / (double)net->used);

	if (s->test != RT_SIGMA_FAILED)
		return RT_W_CRITICAL;
	return rt__tau_critical(alpha, net->freedom) * s->sigma0;
}

/* The used edge with the largest |w| that is checked at all; net->edges when none is. */
static size_t largest(const struct rt__network *net, const struct rt__tested *t)
{
	size_t at = net->edges;

	for (size_t i = 0; i < net->edges; i++) {
		if (rt__edge_counts(net, &net->edge[i]) && t[i].redundancy >= RT_R_UNCHECKED &&
		    (at == net->edges || fabs(t[i].w) > fabs(t[at].w)))
			at = i;
	}
	return at;
}

/* Can these readings not tell whether the suspect a or b is the wrong one?  One that stands out
 * more than the suspect, but is no suspect as it is hardly checked, is such a b. */
static bool indistinct(const struct rt__network *net, const struct rt__tested *t, size_t a,
		       size_t b)
{
	const struct rt__edge *e = &net->edge[a], *f = &net->edge[b];
	double rest, noise, alike;

	if (t[b].redundancy <= 0)
		return false;
	if (fabs(t[b].w) > fabs(t[a].w))
		return true;
	alike = fabs(rt__edge_covariance(net, e, f)) /
		(e->sigma * f->sigma * sqrt(t[a].redundancy * t[b].redundancy));
	if (alike > SAME_MOVE || alike < LIKE_MOVE)
		return alike > SAME_MOVE;
	rest = (net->sum - t[a].w * t[a].w) / ((double)net->freedom - 1);
	noise = sqrt(fmax(rest, 1) * 2 * (1 - alike));
	return fabs(t[a].w) - fabs(t[b].w) < LEAD * noise + LEAD_PART * fabs(t[a].w);
}

/* Mark all that cannot be told from the suspect; says whether there are any. */
static bool mark_tied(const struct rt__network *net, struct rt__tested *t, size_t suspect)
{
	bool any = false;

	for (size_t i = 0; i < net->edges; i++) {
		if (i == suspect || i == net->edge[suspect].mate ||
		    !rt__edge_counts(net, &net->edge[i]) || !indistinct(net, t, suspect, i))
			continue;
		t[i].suspect = any = true;
	}
	t[suspect].suspect |= any;
	return any;
}

/* With one degree of freedom a failed test blames every reading that is checked at all. */
static void mark_all(const struct rt__network *net, struct rt__tested *t)
{
	for (size_t i = 0; i < net->edges; i++)
		t[i].suspect = rt__edge_counts(net, &net->edge[i]) && t[i].redundancy > 0;
}

/* The weighted sum of squares without edge i, as far as it goes down; infinite when the rest
 * does not fix every point. */
static enum rt_err sum_without(struct rt__network *net, size_t i, double *sum, struct rt_error *err)
{
	struct rt_error why;
	enum rt_err e;

	*sum = INFINITY;
	rt__edge_use(net, i, false);
	e = rt__network_fixed(net, &why);
	if (!e)
		e = rt__network_adjust(net, &why);
	if (!e || e == RT_E_NUMERIC)
		*sum = net->sum;
	rt__edge_use(net, i, true);
	if (e == RT_E_NOFIX || e == RT_E_NUMERIC)
		return RT_OK;
	return e ? rt_fail(err, e, "%s", why.text) : RT_OK;
}

/* Large blunders that look alike to first order may not be alike: along a side of pegs in line a
 * wrong reading shows by its curvature.  So set each of the tied aside in turn; when one leaves
 * a better adjustment than every other by more than chance, *suspect is that one and *told is
 * true. */
static enum rt_err tell_apart(struct rt__network *net, const struct rt__tested *t, size_t *suspect,
			      bool *told, struct rt_error *err)
{
	double best = INFINITY, second = INFINITY, chance, left = (double)net->freedom - 1;
	size_t at = *suspect;

	for (size_t i = 0; i < net->edges; i++) {
		double sum;
		enum rt_err e;

		if (!t[i].suspect)
			continue;
		e = sum_without(net, i, &sum, err);
		if (e)
			return e;
		if (!isfinite(sum))
			return RT_OK; /* what cannot be tried cannot be ruled out */
		if (sum < best) {
			second = best;
			best = sum;
			at = i;
		} else if (sum < second) {
			second = sum;
		}
	}
	chance = RT_W_CRITICAL * RT_W_CRITICAL * fmax(1, best / left);
	*told = second - best > chance && t[at].redundancy >= RT_R_UNCHECKED;
	if (*told)
		*suspect = at;
	return RT_OK;
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
	if (net->used <= rank || net->sum < sigma_limit(1 - SIGMA_LEVEL / 2, net->used - rank))
		return restless(net, err);
	*linear = true;
	return rt__network_adjust_linear(net, err);
}

static enum rt_err test_all(struct rt__network *net, struct rt__search *s, bool *linear,
			    struct rt_error *err)
{
	enum rt_err e = adjust_somehow(net, linear, err);

	if (e)
		return e;
	test_edges(net, s->edge);
	test_sigma(net, s);
	return RT_OK;
}

/* Is edge `suspect` to be set aside?  Else s->end says why not. */
static enum rt_err judge_suspect(struct rt__network *net, struct rt__search *s, size_t suspect,
				 bool *aside, struct rt_error *err)
{
	bool told = true, linear;
	struct rt_error why;
	enum rt_err e = RT_OK;

	*aside = false;
	if (mark_tied(net, s->edge, suspect)) {
		told = false;
		e = tell_apart(net, s->edge, &suspect, &told, err);
		if (!e && !told) { /* the trials have left another adjustment behind */
			s->end = RT_SEARCH_TIED;
			return test_all(net, s, &linear, err);
		}
	}
	if (e)
		return e;
	rt__edge_use(net, suspect, false);
	e = rt__network_fixed(net, &why);
	if (e == RT_E_NOFIX) {
		rt__edge_use(net, suspect, true);
		s->edge[suspect].suspect = true;
		s->end = RT_SEARCH_NEEDED;
		return RT_OK;
	}
	*aside = !e;
	return e ? rt_fail(err, e, "%s", why.text) : RT_OK;
}

static enum rt_err unsettled(const struct rt__network *net, size_t suspect, struct rt_error *err)
{
	char words[120];

	if (suspect == net->edges)
		return rt_fail(err, RT_E_NUMERIC,
			       "the readings contradict each other by many metres");
	rt_reading_words(net->edge[suspect].reading, words, sizeof words);
	return rt_fail(err, RT_E_NUMERIC,
		       "the readings contradict each other by many metres: look at %s first",
		       words);
}

/* Adjust and test: *again when an edge was set aside, so that the rest is to be adjusted again;
 * else s->end says why not. */
static enum rt_err search_round(struct rt__network *net, struct rt__search *s, bool *again,
				struct rt_error *err)
{
	bool linear;
	size_t suspect;
	enum rt_err e = test_all(net, s, &linear, err);

	*again = false;
	if (e)
		return e;
	for (size_t i = 0; i < net->edges; i++)
		s->edge[i].suspect = false;
	s->end = s->test == RT_SIGMA_FAILED ? RT_SEARCH_WORSE : RT_SEARCH_CLEAR;
	if (net->freedom < 2 && s->test == RT_SIGMA_FAILED) {
		mark_all(net, s->edge);
		s->end = RT_SEARCH_TIED;
	}
	suspect = net->freedom < 2 ? net->edges : largest(net, s->edge);
	if (suspect < net->edges && fabs(s->edge[suspect].w) > critical(net, s))
		e = judge_suspect(net, s, suspect, again, err);
	if (!e && !*again && linear)
		return unsettled(net, suspect, err);
	return e;
}

enum rt_err rt__network_search(struct rt__network *net, struct rt__search *out,
			       struct rt_error *err)
{
	gsl_error_handler_t *handler = gsl_set_error_handler_off();
	enum rt_err e = RT_OK;
	bool again = true;

	out->edge = rt_arena_take(&net->room, net->edges * sizeof *out->edge);
	if (!out->edge)
		e = rt_fail_nomem(err);
	while (!e && again)
		e = search_round(net, out, &again, err);
	gsl_set_error_handler(handler);
	return e;
}
