/* One layout on another: rotation and shift by least squares, and the largest set that agrees.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

size_t rt__middle(const double *p, size_t n, const bool *in, double middle[2])
{
	size_t count = 0;

	middle[0] = middle[1] = 0;
	for (size_t i = 0; i < n; i++) {
		if (in && !in[i])
			continue;
		count++;
		middle[0] += p[2 * i];
		middle[1] += p[2 * i + 1];
	}
	middle[0] /= count ? (double)count : 1;
	middle[1] /= count ? (double)count : 1;
	return count;
}

/* The rotation is the angle of the complex sum S = Σ (q - q̄) conj(p - p̄); no decomposition is
 * needed in the plane, and a reflection cannot come out. */
struct rt__placement rt__place(const double *p, const double *q, size_t n, const bool *in)
{
	struct rt__placement t = {.cosine = 1};
	double a[2], b[2], re = 0, im = 0, size;

	if (rt__middle(p, n, in, a) == 0)
		return t;
	rt__middle(q, n, in, b);
	for (size_t i = 0; i < n; i++) {
		double px = p[2 * i] - a[0], py = p[2 * i + 1] - a[1];
		double qx = q[2 * i] - b[0], qy = q[2 * i + 1] - b[1];

		if (in && !in[i])
			continue;
		re += qx * px + qy * py;
		im += qy * px - qx * py;
	}
	size = hypot(re, im);
	if (size > 0) {
		t.cosine = re / size;
		t.sine = im / size;
	}
	t.shift_x = b[0] - (t.cosine * a[0] - t.sine * a[1]);
	t.shift_y = b[1] - (t.sine * a[0] + t.cosine * a[1]);
	for (size_t i = 0; i < n; i++) {
		double off[2];

		if (in && !in[i])
			continue;
		rt__offset(&t, p, q, i, off);
		t.sum += off[0] * off[0] + off[1] * off[1];
	}
	return t;
}

void rt__offset(const struct rt__placement *t, const double *p, const double *q, size_t i,
		double off[2])
{
	double x = q[2 * i] - t->shift_x, y = q[2 * i + 1] - t->shift_y;

	off[0] = t->cosine * x + t->sine * y - p[2 * i];
	off[1] = -t->sine * x + t->cosine * y - p[2 * i + 1];
}

/* ---- the largest set ----
 *
 * Exact search: sets of n, n - 1, n - 2 ... points are tried until a size has one that its own
 * placement keeps within tolerance.  Points are decided one by one, those with most conflicts
 * first, and a branch is cut by two bounds that hold for every set it could lead to:
 *  - a pair whose distance differs by more than twice the tolerance fits no placement together;
 *  - the least sum of squares of a part is at most that of the whole, which is at most its size
 *    times the tolerance squared.
 * A ring has few pegs off, so this is a few hundred sets.  Should a hopeless layout need more
 * than NODES_MOST, sets grown from every pair are the answer instead (see grow_from_pairs). */

#define NODES_MOST 2000000
#define SLACK	   1e-9 /* against the tolerance, for rounding */

/* Sums over the kept points, about the middle of all: enough for the sum of squares. */
struct sums {
	double n, px, py, qx, qy, pp, qq, re, im;
};

struct hunt {
	const double *p, *q; /* moved to their middles */
	size_t n, *order;
	bool *conflict; /* n x n */
	double tolerance;
	bool *kept, *best;
	size_t size; /* being tried */
	double best_sum;
	bool found;
	size_t nodes;
};

static struct sums with_point(const struct hunt *h, struct sums s, size_t i)
{
	double px = h->p[2 * i], py = h->p[2 * i + 1], qx = h->q[2 * i], qy = h->q[2 * i + 1];

	s.n++;
	s.px += px;
	s.py += py;
	s.qx += qx;
	s.qy += qy;
	s.pp += px * px + py * py;
	s.qq += qx * qx + qy * qy;
	s.re += qx * px + qy * py;
	s.im += qy * px - qx * py;
	return s;
}

/* The least sum of squares of the points summed. */
static double least_sum(const struct sums *s)
{
	double re = s->re - (s->qx * s->px + s->qy * s->py) / s->n;
	double im = s->im - (s->qy * s->px - s->qx * s->py) / s->n;
	double pp = s->pp - (s->px * s->px + s->py * s->py) / s->n;
	double qq = s->qq - (s->qx * s->qx + s->qy * s->qy) / s->n;

	return pp + qq - 2 * hypot(re, im);
}

/* Does the set's own placement keep all of it within tolerance?  *sum is its sum of squares. */
static bool agrees(const struct hunt *h, const bool *in, double *sum)
{
	struct rt__placement t = rt__place(h->p, h->q, h->n, in);
	double off[2];

	*sum = t.sum;
	for (size_t i = 0; i < h->n; i++) {
		if (!in[i])
			continue;
		rt__offset(&t, h->p, h->q, i, off);
		if (!(hypot(off[0], off[1]) <= h->tolerance * (1 + SLACK)))
			return false;
	}
	return true;
}

static void keep_better(struct hunt *h, const bool *in, double sum)
{
	if (h->found && !(sum < h->best_sum * (1 - SLACK)))
		return;
	h->found = true;
	h->best_sum = sum;
	memcpy(h->best, in, h->n * sizeof *in);
}

static bool may_join(const struct hunt *h, size_t i)
{
	for (size_t k = 0; k < h->n; k++) {
		if (h->kept[k] && h->conflict[i * h->n + k])
			return false;
	}
	return true;
}

/* Decide the points from order[at] on; `out` more may be left out. */
static void decide(struct hunt *h, size_t at, size_t out, struct sums sums)
{
	double most = (double)h->size * h->tolerance * h->tolerance * (1 + SLACK) + SLACK * SLACK;
	double sum;
	size_t i;

	if (++h->nodes > NODES_MOST)
		return;
	if (at == h->n) {
		if (agrees(h, h->kept, &sum))
			keep_better(h, h->kept, sum);
		return;
	}
	i = h->order[at];
	if (may_join(h, i)) {
		struct sums with = with_point(h, sums, i);

		h->kept[i] = true;
		if (least_sum(&with) <= most + SLACK * (with.pp + with.qq) * 1e-3)
			decide(h, at + 1, out, with);
		h->kept[i] = false;
	}
	if (out)
		decide(h, at + 1, out - 1, sums);
}

/* Take the kept points for the answer when they agree and are more, or as many and nearer. */
static void consider(struct hunt *h)
{
	size_t count = 0;
	double sum;

	for (size_t i = 0; i < h->n; i++)
		count += h->kept[i];
	if (count < 2 || count < h->size || !agrees(h, h->kept, &sum))
		return;
	h->found = h->found && count == h->size;
	h->size = count;
	keep_better(h, h->kept, sum);
}

/* When the exact search gives up: start from the placement of a pair, take all within
 * tolerance, place again on those, and so on while the set changes. */
static void grow(struct hunt *h, size_t a, size_t b)
{
	bool changed = true;

	memset(h->kept, 0, h->n * sizeof *h->kept);
	h->kept[a] = h->kept[b] = true;
	for (size_t rounds = 0; rounds < h->n && changed; rounds++) {
		struct rt__placement t = rt__place(h->p, h->q, h->n, h->kept);
		double off[2];

		consider(h);
		changed = false;
		for (size_t i = 0; i < h->n; i++) {
			bool in;

			rt__offset(&t, h->p, h->q, i, off);
			in = hypot(off[0], off[1]) <= h->tolerance;
			changed |= in != h->kept[i];
			h->kept[i] = in;
		}
	}
}

static void grow_from_pairs(struct hunt *h)
{
	h->found = false;
	h->size = 0;
	for (size_t a = 0; a < h->n; a++) {
		for (size_t b = 0; b < a; b++) {
			if (!h->conflict[a * h->n + b])
				grow(h, a, b);
		}
	}
}

static void search_sets(struct hunt *h)
{
	const struct sums none = {0};

	for (size_t out = 0; out + 2 <= h->n && !h->found; out++) {
		h->size = h->n - out;
		decide(h, 0, out, none);
		if (h->nodes > NODES_MOST) {
			grow_from_pairs(h);
			return;
		}
	}
}

/* ---- setting the search up ---- */

static double gap(const double *p, size_t a, size_t b)
{
	return hypot(p[2 * a] - p[2 * b], p[2 * a + 1] - p[2 * b + 1]);
}

static size_t conflicts(const struct hunt *h, size_t i)
{
	size_t count = 0;

	for (size_t k = 0; k < h->n; k++)
		count += h->conflict[i * h->n + k];
	return count;
}

static void find_conflicts(struct hunt *h)
{
	for (size_t a = 0; a < h->n; a++) {
		for (size_t b = 0; b < h->n; b++)
			h->conflict[a * h->n + b] = fabs(gap(h->p, a, b) - gap(h->q, a, b)) >
						    2 * h->tolerance * (1 + SLACK);
	}
	for (size_t i = 0; i < h->n; i++) {
		size_t k = i;

		for (; k > 0 && conflicts(h, h->order[k - 1]) < conflicts(h, i); k--)
			h->order[k] = h->order[k - 1];
		h->order[k] = i;
	}
}

/* A copy about its own middle, so that the sums lose no digits. */
static const double *centred(struct rt_arena **room, const double *p, size_t n)
{
	double *c = rt_arena_take(room, 2 * n * sizeof *c), middle[2];

	rt__middle(p, n, NULL, middle);
	for (size_t i = 0; c && i < 2 * n; i++)
		c[i] = p[i] - middle[i % 2];
	return c;
}

enum rt_err rt__fewest(const double *p, const double *q, size_t n, double tolerance, bool *in,
		       size_t *size, struct rt_error *err)
{
	struct rt_arena *room = NULL;
	struct hunt h = {.n = n, .tolerance = tolerance};
	enum rt_err e = RT_OK;

	h.p = centred(&room, p, n);
	h.q = centred(&room, q, n);
	h.order = rt_arena_take(&room, n * sizeof *h.order);
	h.conflict = rt_arena_take(&room, n * n * sizeof *h.conflict);
	h.kept = rt_arena_take(&room, n * sizeof *h.kept);
	h.best = rt_arena_take(&room, n * sizeof *h.best);
	if (!h.p || !h.q || !h.order || !h.conflict || !h.kept || !h.best) {
		e = rt_fail_nomem(err);
	} else {
		find_conflicts(&h);
		search_sets(&h);
		memcpy(in, h.best, n * sizeof *in);
		*size = h.found ? h.size : 0;
	}
	rt_arena_free(room);
	return e;
}
