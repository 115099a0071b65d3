/* What the readings do not fix, in words, and the readings that would.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define PARALLEL       1e-9 /* sine of the angle between readings along one line */
#define SUGGESTED_MOST 3
#define TEXT_MOST      440
#define MORE_ROOM      20 /* of "; and 12 more" */

/* ---- how well a point is tied ---- */

/* What the readings of a point to points that are held say of its place. */
struct tie {
	double xx, xy, yy; /* weights */
};

/* A reading that changes by so much with x and y of the point. */
static void tie_add(struct tie *t, const double pull[2], double sigma)
{
	t->xx += pull[0] * pull[0] / (sigma * sigma);
	t->xy += pull[0] * pull[1] / (sigma * sigma);
	t->yy += pull[1] * pull[1] / (sigma * sigma);
}

/* Of a distance by tape, both as the network is scaled. */
static double usual_sigma(const struct rt__network *net, double d)
{
	return rt__tape_sigma(net->scale * d) / net->scale;
}

/* A distance by tape from q to p. */
static void tie_tape(struct tie *t, const struct rt__network *net, size_t p, size_t q)
{
	const double *at = net->start + 2 * q, *here = net->start + 2 * p;
	double x = at[0] - here[0], y = at[1] - here[1], d = hypot(x, y);

	if (d > 0)
		tie_add(t, (double[]){x / d, y / d}, usual_sigma(net, d));
}

/* The weight in the direction known worst. */
static double tie_weakest(const struct tie *t)
{
	return (t->xx + t->yy) / 2 - hypot((t->xx - t->yy) / 2, t->xy);
}

/* Is no direction weaker than another, as where there is no reading? */
static bool is_even(const struct tie *t)
{
	return hypot((t->xx - t->yy) / 2, t->xy) <= PARALLEL * (t->xx + t->yy);
}

/* The weight that a standard error of RT_SE_FIXED_M has. */
static double enough(const struct rt__network *net)
{
	return (net->scale / RT_SE_FIXED_M) * (net->scale / RT_SE_FIXED_M);
}

/* How many other points of the frame are held. */
static size_t held_in_frame(const struct rt__survey *s, const struct rt__edge *e)
{
	const struct rt__network *net = s->net;
	size_t held = 0;

	for (size_t q = 0; q < net->points; q++) {
		bool there = false;

		for (size_t i = 0; i < net->edges && !there; i++) {
			const struct rt__edge *f = &net->edge[i];

			there = f->frame == e->frame && f->at == q && rt__edge_counts(net, f);
		}
		held += there && q != e->at && s->held[q];
	}
	return held;
}

static bool touches(const struct rt__edge *e, size_t p)
{
	return e->from == p || e->to == p || e->at == p;
}

/* Is all held that the reading tells p's place from? */
static bool is_tied(const struct rt__survey *s, const struct rt__edge *e, size_t p)
{
	const size_t point[3] = {e->from, e->to, e->at};

	if (!touches(e, p) || !rt__edge_counts(s->net, e))
		return false;
	if (e->frame != RT__NONE)
		return held_in_frame(s, e) >= 2;
	for (size_t i = 0; i < 3; i++) {
		if (point[i] != RT__NONE && point[i] != p && !s->held[point[i]])
			return false;
	}
	return true;
}

/* How a reading changes with p: towards x and y; false where it does not. */
static bool pull_of(const struct rt__survey *s, const struct rt__edge *e, size_t p, double pull[2])
{
	struct rt__row row = rt__edge_row(s->net, e, s->x);

	pull[0] = pull[1] = 0;
	for (size_t i = 0; i < row.n; i++) {
		size_t axis = row.column[i] - s->net->column[p];

		if (s->net->column[p] != RT__FIXED && axis < 2)
			pull[axis] = row.by[i];
	}
	return hypot(pull[0], pull[1]) > 0;
}

static struct tie tie_of(const struct rt__survey *s, size_t p)
{
	struct tie t = {0};

	for (size_t i = 0; i < s->net->edges; i++) {
		const struct rt__edge *e = &s->net->edge[i];
		double pull[2];

		if (is_tied(s, e, p) && pull_of(s, e, p, pull))
			tie_add(&t, pull, e->sigma);
	}
	return t;
}

/* ---- the pegs it should be taped from ---- */

static bool taped(const struct rt__network *net, size_t p, size_t q)
{
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (e->used && e->kind == RT_READ_DISTANCE && touches(e, p) && touches(e, q))
			return true;
	}
	return false;
}

/* How much a distance from q to p would help: it makes the weakest direction stronger, or tells the
 * mirror places apart. */
static double help_of(const struct rt__survey *s, size_t p, size_t q, const struct tie *t)
{
	const double *at = s->net->start + 2 * q, *here = s->net->start + 2 * p;
	const double *there = s->mirrored + 2 * p;
	double d = hypot(at[0] - here[0], at[1] - here[1]);
	struct tie with = *t;

	if (s->mirror[p])
		return fabs(d - hypot(at[0] - there[0], at[1] - there[1])) / usual_sigma(s->net, d);
	tie_tape(&with, s->net, p, q);
	/* where all are as weak one reading leaves its cross direction so: then the nearest peg */
	return is_even(t) ? with.xx + with.yy : tie_weakest(&with) - tie_weakest(t);
}

/* The peg that helps p most, of those that are held and not taped to it, nor chosen already;
 * RT__NONE: none helps. */
static size_t best_help(const struct rt__survey *s, size_t p, const struct tie *t,
			const size_t *chosen, size_t n)
{
	double most = enough(s->net) * PARALLEL;
	size_t best = RT__NONE;

	for (size_t q = 0; q < s->net->points; q++) {
		bool again = q == p || !s->held[q] || taped(s->net, p, q);

		for (size_t k = 0; k < n; k++)
			again |= chosen[k] == q;
		if (!again && help_of(s, p, q, t) > most) {
			most = help_of(s, p, q, t);
			best = q;
		}
	}
	return best;
}

/* Choose pegs that p is to be taped from, until it is held well; returns how many.  One tells
 * mirror places apart; else there are `least` of them, where so many help. */
static size_t suggest(const struct rt__survey *s, size_t p, size_t least,
		      size_t chosen[SUGGESTED_MOST])
{
	size_t n = 0, from, most = s->mirror[p] ? 1 : SUGGESTED_MOST;
	struct tie t = tie_of(s, p);

	while (n < most && (s->mirror[p] || n < least || tie_weakest(&t) < enough(s->net))) {
		from = best_help(s, p, &t, chosen, n);
		if (from == RT__NONE)
			break;
		chosen[n++] = from;
		tie_tape(&t, s->net, p, from);
	}
	return n;
}

/* ---- a point in words ---- */

/* The readings of a point, whatever they go to. */
struct readings {
	size_t n;
	bool alone;    /* there is one that says nothing: of a frame of this point only */
	double across; /* sine of the largest angle between the first and another */
};

static struct readings readings_of(const struct rt__survey *s, size_t p)
{
	struct readings r = {0};
	double pull[2], first[2] = {0, 0};

	for (size_t i = 0; i < s->net->edges; i++) {
		const struct rt__edge *e = &s->net->edge[i];
		double length;

		if (!e->used || !touches(e, p))
			continue;
		if (!rt__edge_counts(s->net, e)) {
			r.alone = true;
		} else if (pull_of(s, e, p, pull)) {
			length = hypot(pull[0], pull[1]);
			pull[0] /= length;
			pull[1] /= length;
			if (r.n++ == 0)
				memcpy(first, pull, sizeof first);
			r.across = fmax(r.across, fabs(first[0] * pull[1] - first[1] * pull[0]));
		}
	}
	return r;
}

/* Why p is not fixed. */
static const char *reason(const struct rt__survey *s, size_t p)
{
	struct readings r = readings_of(s, p);

	if (r.n == 0)
		return r.alone ? "alone in its receiver's file" : "no reading";
	if (s->mirror[p])
		return "its readings fit two places less than 1 m apart";
	if (r.n == 1)
		return "one reading only";
	return r.across < PARALLEL ? "its readings run along one line"
				   : "its readings are too weak";
}

/* Where no peg is to be suggested: the readings do once the pegs they go to are held, or every
 * peg that is held lies along their line. */
static const char *advice_without_peg(const struct rt__survey *s, size_t p)
{
	struct tie t = tie_of(s, p);

	return tie_weakest(&t) >= enough(s->net) ? ", held once the others are"
						 : ": tape it from a peg off that line";
}

/* "K (one reading only: tape it from F and A too)"; false when there is no room for it. */
static bool describe(const struct rt__survey *s, size_t p, size_t least, char *out, size_t size)
{
	size_t chosen[SUGGESTED_MOST], n = suggest(s, p, least, chosen);
	bool fits = rt_append(out, size, "%s (%s", s->net->name[p], reason(s, p));

	for (size_t i = 0; i < n; i++)
		fits &= rt_append(out, size, "%s%s", i == 0 ? ": tape it from " : " and ",
				  s->net->name[chosen[i]]);
	return rt_append(out, size, "%s)", n ? " too" : advice_without_peg(s, p)) && fits;
}

/* ---- what is wrong with the whole ---- */

/* Give points that readings join the same number, from 1 on; 0 is a point without a reading. */
static void number_groups(const struct rt__network *net, size_t *group)
{
	bool changed = true;

	memset(group, 0, net->points * sizeof *group);
	while (changed) {
		changed = false;
		for (size_t i = 0; i < net->edges; i++) {
			size_t point[3], n = rt__edge_points(net, &net->edge[i], point);
			size_t number = SIZE_MAX;

			if (!rt__edge_counts(net, &net->edge[i]))
				continue;
			for (size_t k = 0; k < n; k++) {
				size_t *own = &group[point[k]];

				*own = *own ? *own : point[k] + 1;
				number = *own < number ? *own : number;
			}
			for (size_t k = 0; k < n; k++) {
				changed |= group[point[k]] != number;
				group[point[k]] = number;
			}
		}
	}
}

/* "no reading joins these groups: AK, K and C, H"; nothing where there is one group, where fixed
 * points hold each by itself, or where there is no room: then the points say it one by one. */
static void tell_groups(const struct rt__survey *s, char *out, size_t size)
{
	const struct rt__network *net = s->net;
	bool fits = net->datums > 0;
	size_t groups = 0;

	number_groups(net, s->set);
	for (size_t g = 1; g <= net->points; g++) {
		const char *before = groups ? " and " : "no reading joins these groups: ";
		bool any = false;

		for (size_t p = 0; p < net->points; p++) {
			if (s->set[p] != g)
				continue;
			fits &= rt_append(out, size, "%s%.12s", any ? ", " : before, net->name[p]);
			any = true;
		}
		groups += any;
	}
	if (groups < 2 || !fits)
		*out = '\0';
}

/* Are a-b-c-d four sides taped all round, with neither diagonal, that enclose something? */
static bool leans(const struct rt__network *net, const size_t corner[4])
{
	const double *a = net->start + 2 * corner[0], *b = net->start + 2 * corner[1];
	const double *c = net->start + 2 * corner[2], *d = net->start + 2 * corner[3];

	for (size_t i = 0; i < 4; i++) {
		if (!taped(net, corner[i], corner[(i + 1) % 4]))
			return false;
	}
	return !taped(net, corner[0], corner[2]) && !taped(net, corner[1], corner[3]) &&
	       fabs((c[0] - a[0]) * (d[1] - b[1]) - (c[1] - a[1]) * (d[0] - b[0])) > PARALLEL;
}

/* Do these four sides want a diagonal?  Where one side is held the diagonal holds the other two
 * corners; where nothing is held but the ends of a reading it holds all four.  One corner that is
 * not held, or two that face each other, want more than that: each is told by itself. */
static bool wants_diagonal(const struct rt__survey *s, const size_t corner[4])
{
	size_t held = 0, sides = 0, all = 0;

	for (size_t i = 0; i < 4; i++) {
		held += s->held[corner[i]];
		sides += s->held[corner[i]] && s->held[corner[(i + 1) % 4]];
	}
	for (size_t p = 0; p < s->net->points; p++)
		all += s->held[p];
	return ((held == 2 && sides == 1) || (held < 4 && all <= 2 && s->net->datums == 3)) &&
	       leans(s->net, corner);
}

static bool find_leaning(const struct rt__survey *s, size_t corner[4])
{
	const struct rt__network *net = s->net;

	for (size_t i = 0; i < net->edges; i++) {
		for (size_t k = 0; k < net->edges; k++) {
			if (net->edge[i].kind != RT_READ_DISTANCE ||
			    net->edge[k].kind != RT_READ_DISTANCE)
				continue;
			corner[0] = net->edge[i].from;
			corner[1] = net->edge[i].to;
			for (int way = 0; way < 2; way++) {
				corner[2] = way ? net->edge[k].to : net->edge[k].from;
				corner[3] = way ? net->edge[k].from : net->edge[k].to;
				if (wants_diagonal(s, corner))
					return true;
			}
		}
	}
	return false;
}

/* "AK, HC, CM, FA (four sides can lean: tape a diagonal, AK-CM or HC-FA)", after what is told
 * already; marks them held, as they are once that is taped. */
static void tell_leaning(struct rt__survey *s, char *out, size_t size)
{
	const char **name = s->net->name;
	size_t c[4], held = 0;

	if (!find_leaning(s, c))
		return;
	for (size_t i = 0; i < 4; i++)
		held += s->held[c[i]];
	if (held < 2)
		memset(s->held, 0, s->net->points * sizeof *s->held);
	for (size_t i = 0; i < 4; i++)
		s->held[c[i]] = true;
	rt_append(out, size,
		  "%s%.12s, %.12s, %.12s, %.12s (four sides can lean: tape a diagonal, %.12s-%.12s "
		  "or %.12s-%.12s)",
		  *out ? "; " : "", name[c[0]], name[c[1]], name[c[2]], name[c[3]], name[c[0]],
		  name[c[2]], name[c[1]], name[c[3]]);
}

static bool is_loose(const struct rt__survey *s, size_t p)
{
	return !s->held[p] || s->mirror[p];
}

/* Where no loose point wants a reading, as those it goes to would hold it well enough, yet they
 * are weak themselves: then each is to have one. */
static size_t least_suggested(const struct rt__survey *s)
{
	size_t chosen[SUGGESTED_MOST];

	for (size_t p = 0; p < s->net->points; p++) {
		if (is_loose(s, p) && suggest(s, p, 0, chosen))
			return 0;
	}
	return 1;
}

enum rt_err rt__tell_unfixed(struct rt__survey *s, struct rt_error *err)
{
	char text[TEXT_MOST] = "", one[160];
	size_t least, left = 0;

	tell_groups(s, text, sizeof text / 2);
	tell_leaning(s, text, sizeof text);
	least = *text ? 0 : least_suggested(s);
	for (size_t p = 0; p < s->net->points; p++) {
		if (!is_loose(s, p))
			continue;
		*one = '\0';
		if (left || !describe(s, p, least, one, sizeof one) ||
		    !rt_append(text, sizeof text - MORE_ROOM, "%s%s", *text ? "; " : "", one))
			left++;
		else
			s->held[p] = true; /* once taped so, it can hold others */
	}
	if (left)
		rt_append(text, sizeof text, "; and %zu more", left);
	return rt_fail(err, RT_E_NOFIX, "not fixed by the readings: %s", text);
}
