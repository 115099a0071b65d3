/* The search for blunders, one at a time.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

/* Two readings whose residuals mostly move together (correlation over LIKE_MOVE) are not told
 * apart by w, which large blunders bend; the adjustments without the one and without the other
 * are compared. */
#define LIKE_MOVE 0.9

#define BLIND 1e-3 /* redundancy of a reading whose blunder of any size moves a peg instead */

/* Can these readings not tell whether the suspect a or b is the wrong one?  One that stands out
 * more than the suspect, but is no suspect as it is hardly checked, is such a b. */
static bool indistinct(const struct rt__network *net, const struct rt__tested *t, size_t a,
		       size_t b)
{
	const struct rt__edge *e = &net->edge[a], *f = &net->edge[b];
	double alike;

	if (t[b].redundancy <= 0)
		return false;
	if (fabs(t[b].w) > fabs(t[a].w))
		return true;
	alike = fabs(rt__edge_covariance(net, e, f)) /
		(e->sigma * f->sigma * sqrt(t[a].redundancy * t[b].redundancy));
	return alike > LIKE_MOVE;
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

/* Is edge `suspect` to be set aside?  Else s->end says why not. */
static enum rt_err judge_suspect(struct rt__network *net, struct rt__search *s, size_t suspect,
				 bool *aside, struct rt_error *err)
{
	bool told = true;
	struct rt_error why;
	enum rt_err e = RT_OK;

	*aside = false;
	if (mark_tied(net, s->edge, suspect)) {
		told = false;
		e = tell_apart(net, s->edge, &suspect, &told, err);
		if (!e && !told) { /* the trials have left another adjustment behind */
			s->end = RT_SEARCH_TIED;
			return rt__search_adjust(net, s, err);
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
	if (!e)
		s->aside[s->asides++] = suspect;
	return e ? rt_fail(err, e, "%s", why.text) : RT_OK;
}

static enum rt_err unsettled(const struct rt__network *net, size_t suspect, struct rt_error *err)
{
	if (suspect == net->edges)
		return rt_fail(err, RT_E_NUMERIC,
			       "the readings contradict each other by many metres");
	return rt_fail(err, RT_E_NUMERIC,
		       "the readings contradict each other by many metres: look at %s first",
		       rt_reading_words(net->edge[suspect].reading).text);
}

/* Does a reading that is hardly checked stand out?  Then one of those that check it is wrong, or
 * itself, and a peg may be off by as much. */
static void doubt_unchecked(struct rt__network *net, struct rt__search *s)
{
	double limit = rt__search_critical(net, s);

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__tested *t = &s->edge[i];

		if (!rt__edge_counts(net, &net->edge[i]) || t->redundancy < BLIND ||
		    t->redundancy >= RT_R_UNCHECKED || !(fabs(t->w) > limit))
			continue;
		mark_tied(net, s->edge, i);
		s->edge[i].suspect = true;
		s->end = RT_SEARCH_TIED;
	}
}

/* Adjust and test: *again when an edge was set aside, so that the rest is to be adjusted again;
 * else s->end says why not. */
static enum rt_err search_round(struct rt__network *net, struct rt__search *s, bool *again,
				struct rt_error *err)
{
	size_t suspect;
	enum rt_err e = rt__search_adjust(net, s, err);

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
	suspect = net->freedom < 2 ? net->edges : rt__search_largest(net, s->edge);
	if (suspect < net->edges && fabs(s->edge[suspect].w) > rt__search_critical(net, s))
		e = judge_suspect(net, s, suspect, again, err);
	if (!e && !*again && s->end == RT_SEARCH_CLEAR && net->freedom >= 2)
		doubt_unchecked(net, s);
	if (!e && !*again && s->linear)
		return unsettled(net, suspect, err);
	return e;
}

enum rt_err rt__network_search(struct rt__network *net, struct rt__search *out,
			       struct rt_error *err)
{
	enum rt_err e = RT_OK;
	bool again = true;

	out->edge = rt_arena_take(&net->room, net->edges * sizeof *out->edge);
	out->aside = rt_arena_take(&net->room, net->edges * sizeof *out->aside);
	if (!out->edge || !out->aside)
		e = rt_fail_nomem(err);
	while (!e && again)
		e = search_round(net, out, &again, err);
	if (!e)
		e = rt__search_pairs(net, out, err);
	return e;
}
