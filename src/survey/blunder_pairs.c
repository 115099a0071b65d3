/* Two blunders at once, that hide each other.
 *
 * Set aside one at a time, the reading that stands out most is not always a wrong one: two wrong
 * readings can bend the whole so that a good one does.  So all pairs are tried: to first order the
 * pair S takes u' Q^-1 u off the sum of squares, with u its residuals and Q their covariance, over
 * sigma (F. R. Helmert's conditional tests; J. J. Kok, 1984, for several blunders).  The best few
 * are adjusted without; one that leaves nothing wrong, and less than every other pair by more than
 * chance, is it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define TRIED_MOST    16   /* pairs that are adjusted without */
#define BENT_PART     0.05 /* of the sum of squares that the first order may be off */
#define SAME_MOVE     0.999
#define SINGLES_TRIED 3
#define BLIND	      1e-3 /* redundancy of a reading whose blunder of any size moves a peg instead */

struct pair {
	size_t a, b;
	double left; /* sum of squares without them: to first order, then true */
};

struct pairs {
	struct rt__network *net;
	struct rt__search *s;
	double *u, *q;	/* of the edges that count: residuals, and their covariance, over sigma */
	double sum;	/* with all of them */
	size_t freedom; /* then */
	size_t *edge, n;
	struct rt__row *row; /* of those */
	double *spread;
	bool *checked; /* of all edges, with all used */
	struct pair best[TRIED_MOST];
	size_t found, close; /* of best: how many, and how many are as good as the best */
	struct rt_arena *room;
};

/* ---- the first order ---- */

static enum rt_err pairs_make(struct pairs *w, struct rt_error *err)
{
	size_t n = w->net->edges;

	w->u = rt_arena_take(&w->room, n * sizeof *w->u);
	w->q = rt_arena_take(&w->room, n * n * sizeof *w->q);
	w->edge = rt_arena_take(&w->room, n * sizeof *w->edge);
	w->row = rt_arena_take(&w->room, n * sizeof *w->row);
	w->spread = rt_arena_take(&w->room, (w->net->places + 3 * w->net->frames) * sizeof(double));
	w->checked = rt_arena_take(&w->room, n * sizeof *w->checked);
	return w->u && w->q && w->edge && w->row && w->spread && w->checked ? RT_OK
									    : rt_fail_nomem(err);
}

/* c C, with C the covariance of the unknowns and c an edge's row. */
static void spread(const struct rt__network *net, const struct rt__row *row, double *out)
{
	memset(out, 0, net->unknowns * sizeof *out);
	for (size_t j = 0; j < row->n; j++) {
		const double *c = net->covariance + row->column[j] * net->unknowns;

		for (size_t k = 0; k < net->unknowns; k++)
			out[k] += row->by[j] * c[k];
	}
}

static void measure(struct pairs *w)
{
	const struct rt__network *net = w->net;

	w->n = 0;
	for (size_t i = 0; i < net->edges; i++) {
		w->checked[i] = w->s->edge[i].redundancy >= RT_R_UNCHECKED;
		if (rt__edge_counts(net, &net->edge[i]) && w->s->edge[i].redundancy > BLIND)
			w->edge[w->n++] = i;
	}
	for (size_t i = 0; i < w->n; i++) {
		const struct rt__edge *a = &net->edge[w->edge[i]];

		w->u[i] = w->s->edge[w->edge[i]].residual / a->sigma;
		w->row[i] = rt__edge_row(net, a, net->at);
		spread(net, &w->row[i], w->spread);
		w->q[i * w->n + i] = w->s->edge[w->edge[i]].redundancy;
		for (size_t k = 0; k < i; k++) {
			double sum = 0;

			for (size_t j = 0; j < w->row[k].n; j++)
				sum += w->spread[w->row[k].column[j]] * w->row[k].by[j];
			w->q[i * w->n + k] = -sum / (a->sigma * net->edge[w->edge[k]].sigma);
		}
	}
}

/* Keep it among the best, smallest first. */
static void keep(struct pairs *w, struct pair p)
{
	size_t at = w->found;

	if (at == TRIED_MOST && p.left >= w->best[at - 1].left)
		return;
	if (at < TRIED_MOST)
		w->found++;
	else
		at--;
	for (; at > 0 && w->best[at - 1].left > p.left; at--)
		w->best[at] = w->best[at - 1];
	w->best[at] = p;
}

static void rank_pairs(struct pairs *w)
{
	w->found = 0;
	for (size_t i = 0; i < w->n; i++) {
		for (size_t k = 0; k < i; k++) {
			double aa = w->q[i * w->n + i], bb = w->q[k * w->n + k];
			double ab = w->q[i * w->n + k], ua = w->u[i], ub = w->u[k];
			double det = aa * bb - ab * ab;

			if (w->net->edge[w->edge[i]].mate == w->edge[k] ||
			    ab * ab > SAME_MOVE * SAME_MOVE * aa * bb)
				continue;
			keep(w, (struct pair){
					w->edge[i], w->edge[k],
					w->sum - (bb * ua * ua - 2 * ab * ua * ub + aa * ub * ub) /
							 det});
		}
	}
}

/* ---- adjusted without ---- */

static void use(struct pairs *w, const struct pair *p, bool used)
{
	rt__edge_use(w->net, p->a, used);
	rt__edge_use(w->net, p->b, used);
}

/* Adjust without the pair (or without one edge, twice): left becomes true, infinite where a peg
 * would lose its fix or nothing settles; *clear: nothing is wrong then. */
static enum rt_err try_pair(struct pairs *w, struct pair *p, bool *clear, struct rt_error *err)
{
	struct rt_error why;
	size_t suspect;
	enum rt_err e;

	use(w, p, false);
	e = rt__search_adjust(w->net, w->s, &why);
	p->left = e || w->s->linear || !rt__network_holds(w->net) ? INFINITY : w->net->sum;
	*clear = false;
	if (isfinite(p->left) && w->net->freedom > 0 && w->s->test != RT_SIGMA_FAILED) {
		suspect = rt__search_largest(w->net, w->s->edge);
		*clear = suspect == w->net->edges ||
			 fabs(w->s->edge[suspect].w) <= rt__search_critical(w->net, w->s);
	}
	use(w, p, true);
	if (e && e != RT_E_NOFIX && e != RT_E_NUMERIC)
		return rt_fail(err, e, "%s", why.text);
	return RT_OK;
}

/* What the readings say of pairs. */
enum told { NO_PAIR, ONE_PAIR, SEVERAL_PAIRS, NOT_NEEDED };

/* Would one edge less do?  Then nothing hides, whether it is known which or not. */
static enum rt_err one_will_do(struct pairs *w, bool *will, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	*will = false;
	w->found = 0;
	for (size_t i = 0; i < w->n; i++)
		keep(w, (struct pair){w->edge[i], w->edge[i],
				      w->sum - w->u[i] * w->u[i] / w->q[i * w->n + i]});
	for (size_t i = 0; !e && !*will && i < w->found && i < SINGLES_TRIED; i++) {
		if (w->best[i].left - BENT_PART * w->sum > rt__sigma_limit(w->freedom - 1))
			break;
		e = try_pair(w, &w->best[i], will, err);
	}
	return e;
}

/* A reading that is hardly checked is never to blame. */
static bool is_checked(const struct pairs *w, const struct pair *p)
{
	return w->checked[p->a] && w->checked[p->b];
}

/* Adjust without each of the best; the best of those in *out.  Pairs that leave as little but for
 * chance are marked as suspects, where there are any. */
static enum rt_err compare(struct pairs *w, struct pair *out, enum told *told, struct rt_error *err)
{
	double bent = BENT_PART * w->sum, least = INFINITY, chance;
	double left = (double)w->freedom - 2;
	enum rt_err e = RT_OK;
	size_t tried = 0;

	*told = NO_PAIR;
	for (; !e && tried < w->found; tried++) {
		struct pair *p = &w->best[tried];
		bool clear;

		chance = RT_W_CRITICAL * RT_W_CRITICAL * fmax(1, least / left);
		if (p->left > least + chance + bent)
			break;
		e = try_pair(w, p, &clear, err);
		if (!e && p->left < least) {
			least = p->left;
			*out = *p;
			*told = !clear ? NO_PAIR : is_checked(w, p) ? ONE_PAIR : SEVERAL_PAIRS;
		}
	}
	if (e || *told == NO_PAIR)
		return e;
	chance = RT_W_CRITICAL * RT_W_CRITICAL * fmax(1, least / left);
	w->close = 0;
	for (size_t i = 0; i < tried; i++) {
		if (w->best[i].left <= least + chance)
			w->best[w->close++] = w->best[i];
	}
	if (w->close > 1)
		*told = SEVERAL_PAIRS;
	return RT_OK;
}

/* ---- the search ---- */

/* Use all but the first `asides` that the search set aside. */
static void put_back(struct pairs *w, size_t asides)
{
	for (size_t i = 0; i < w->net->edges; i++)
		w->net->edge[i].used = true;
	for (size_t i = 0; i < asides; i++)
		rt__edge_use(w->net, w->s->aside[i], false);
}

/* Look for a pair behind the first `asides`. */
static enum rt_err look(struct pairs *w, size_t asides, struct pair *out, enum told *told,
			struct rt_error *err)
{
	bool one = false;
	enum rt_err e;

	*told = NO_PAIR;
	put_back(w, asides);
	e = rt__search_adjust(w->net, w->s, err);
	if (e || w->net->freedom < 4)
		return e;
	measure(w);
	w->sum = w->net->sum;
	w->freedom = w->net->freedom;
	e = one_will_do(w, &one, err);
	if (e || one) {
		*told = NOT_NEEDED;
		return e;
	}
	rank_pairs(w);
	return compare(w, out, told, err);
}

/* Take up what was found: the pair is aside, and nothing more is wrong; *taken is false where a
 * peg would lose its fix. */
static enum rt_err take(struct pairs *w, size_t asides, const struct pair *p, bool *taken,
			struct rt_error *err)
{
	struct rt_error why;
	enum rt_err e;

	put_back(w, asides);
	use(w, p, false);
	e = rt__network_fixed(w->net, &why);
	*taken = !e;
	if (e)
		return e == RT_E_NOFIX ? RT_OK : rt_fail(err, e, "%s", why.text);
	w->s->aside[asides] = p->a;
	w->s->aside[asides + 1] = p->b;
	w->s->asides = asides + 2;
	w->s->end = RT_SEARCH_CLEAR;
	for (size_t i = 0; i < w->net->edges; i++)
		w->s->edge[i].suspect = false;
	return rt__search_adjust(w->net, w->s, err);
}

/* Several pairs explain the readings equally well: all of them are put back, and told. */
static enum rt_err doubt(struct pairs *w, size_t asides, struct rt_error *err)
{
	enum rt_err e;

	put_back(w, asides);
	w->s->asides = asides;
	w->s->end = RT_SEARCH_TIED;
	e = rt__search_adjust(w->net, w->s, err);
	for (size_t i = 0; i < w->net->edges; i++)
		w->s->edge[i].suspect = false;
	for (size_t i = 0; !e && i < w->close; i++)
		w->s->edge[w->best[i].a].suspect = w->s->edge[w->best[i].b].suspect = true;
	return e;
}

enum rt_err rt__search_pairs(struct rt__network *net, struct rt__search *s, struct rt_error *err)
{
	struct pairs w = {.net = net, .s = s};
	size_t most = s->asides, asides = 0;
	struct pair pair = {0, 0, 0};
	enum told told = NO_PAIR;
	bool done = false, clear = s->end == RT_SEARCH_CLEAR;
	enum rt_err e;

	if (clear && s->asides < 2)
		return RT_OK;
	e = pairs_make(&w, err);
	if (clear)
		most -= 2;
	for (; !e && told == NO_PAIR && asides <= most; asides++)
		e = look(&w, asides, &pair, &told, err);
	if (!e && told == ONE_PAIR)
		e = take(&w, asides - 1, &pair, &done, err);
	if (!e && told == SEVERAL_PAIRS && (clear || s->end == RT_SEARCH_TIED)) {
		done = true;
		e = doubt(&w, asides - 1, err);
	}
	if (!e && !done) { /* as the search one at a time left it */
		put_back(&w, s->asides);
		e = rt__search_adjust(net, s, err);
	}
	rt_arena_free(w.room);
	return e;
}
