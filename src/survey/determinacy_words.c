/* What the readings do not fix, in words, and the readings that would.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define PARALLEL       1e-9 /* sine of the angle between readings along one line */
#define SUGGESTED_MOST 3
#define TEXT_MOST      440

/* ---- a point, and the readings that would fix it ---- */

/* What the readings of a point to points that are held say of its place. */
struct tie {
	size_t readings;
	double xx, xy, yy; /* weights */
};

static void tie_add(const struct rt__network *net, struct tie *t, size_t p, size_t q, double sigma)
{
	double x = net->start[2 * q] - net->start[2 * p];
	double y = net->start[2 * q + 1] - net->start[2 * p + 1], d = hypot(x, y);

	if (!(d > 0))
		return;
	t->readings++;
	t->xx += x * x / (d * d * sigma * sigma);
	t->xy += x * y / (d * d * sigma * sigma);
	t->yy += y * y / (d * d * sigma * sigma);
}

/* The weight in the direction known worst. */
static double tie_weakest(const struct tie *t)
{
	return (t->xx + t->yy) / 2 - hypot((t->xx - t->yy) / 2, t->xy);
}

static bool taped(const struct rt__network *net, size_t p, size_t q)
{
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (e->used && e->kind == RT_READ_DISTANCE &&
		    ((e->from == p && e->to == q) || (e->from == q && e->to == p)))
			return true;
	}
	return false;
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

/* Is all held that the reading tells p's place from? */
static bool is_tied(const struct rt__survey *s, const struct rt__edge *e, size_t p)
{
	const size_t point[3] = {e->from, e->to, e->at};
	bool of_p = false, held = true;

	for (size_t i = 0; i < 3; i++) {
		of_p |= point[i] == p;
		held &= point[i] == RT__NONE || point[i] == p || s->held[point[i]];
	}
	if (e->frame != RT__NONE)
		held = held_in_frame(s, e) >= 2;
	return of_p && held && rt__edge_counts(s->net, e);
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
		double pull[2], square = e->sigma * e->sigma;

		if (!is_tied(s, e, p) || !pull_of(s, e, p, pull))
			continue;
		t.readings++;
		t.xx += pull[0] * pull[0] / square;
		t.xy += pull[0] * pull[1] / square;
		t.yy += pull[1] * pull[1] / square;
	}
	return t;
}

static double usual_sigma(const struct rt__network *net, size_t p, size_t q)
{
	double d = hypot(net->start[2 * q] - net->start[2 * p],
			 net->start[2 * q + 1] - net->start[2 * p + 1]);

	return rt__tape_sigma(net->scale * d) / net->scale;
}

/* How much a reading from p to q would help: it makes the weakest direction stronger, or tells
 * the mirror places apart. */
static double help_of(const struct rt__survey *s, size_t p, size_t q, const struct tie *t)
{
	const double *at = s->net->start + 2 * q, *here = s->net->start + 2 * p;
	const double *there = s->mirrored + 2 * p;
	struct tie with = *t;

	if (s->mirror[p])
		return fabs(hypot(at[0] - here[0], at[1] - here[1]) -
			    hypot(at[0] - there[0], at[1] - there[1])) /
		       usual_sigma(s->net, p, q);
	tie_add(s->net, &with, p, q, usual_sigma(s->net, p, q));
	/* the first reading of all leaves its cross direction open: then the nearest peg */
	return t->readings ? tie_weakest(&with) - tie_weakest(t) : with.xx + with.yy;
}

/* The weight that a standard error of RT_SE_FIXED_M has. */
static double enough(const struct rt__network *net)
{
	return (net->scale / RT_SE_FIXED_M) * (net->scale / RT_SE_FIXED_M);
}

/* Choose pegs that p is to be taped from, `least` where there are so many; returns how many. */
static size_t suggest(const struct rt__survey *s, size_t p, size_t least,
		      size_t chosen[SUGGESTED_MOST])
{
	const struct rt__network *net = s->net;
	struct tie t = tie_of(s, p);
	size_t n = 0;

	while (n < SUGGESTED_MOST &&
	       (s->mirror[p] ? n == 0 : n < least || tie_weakest(&t) < enough(net))) {
		double best = enough(net) * PARALLEL;
		size_t from = RT__FIXED;

		for (size_t q = 0; q < net->points; q++) {
			bool again = q == p || !s->held[q] || taped(net, p, q);

			for (size_t k = 0; k < n; k++)
				again |= chosen[k] == q;
			if (!again && help_of(s, p, q, &t) > best) {
				best = help_of(s, p, q, &t);
				from = q;
			}
		}
		if (from == RT__FIXED)
			break;
		chosen[n++] = from;
		tie_add(net, &t, p, from, usual_sigma(net, p, from));
	}
	return n;
}

/* Why p is not fixed, by its readings. */
static const char *reason(const struct rt__survey *s, size_t p)
{
	const struct rt__network *net = s->net;
	size_t readings = 0;
	bool lonely = false;
	double pull[2], first[2] = {0, 0}, across = 0;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double length;

		if (!e->used || (e->from != p && e->to != p && e->at != p))
			continue;
		lonely |= !rt__edge_counts(net, e);
		if (!rt__edge_counts(net, e) || !pull_of(s, e, p, pull))
			continue;
		length = hypot(pull[0], pull[1]);
		if (readings++ == 0) {
			first[0] = pull[0] / length;
			first[1] = pull[1] / length;
		}
		across = fmax(across, fabs(first[0] * pull[1] - first[1] * pull[0]) / length);
	}
	if (readings == 0)
		return lonely ? "alone in its receiver's file" : "no reading";
	if (s->mirror[p])
		return "its readings fit two places less than 1 m apart";
	if (readings == 1)
		return "one reading only";
	return across < PARALLEL ? "its readings run along one line" : "its readings are too weak";
}

/* Where no peg is to be suggested: the readings do once the pegs they go to are held, or every
 * peg that is held lies along their line. */
static const char *advice_without_peg(const struct rt__survey *s, size_t p)
{
	struct tie t = tie_of(s, p);

	return tie_weakest(&t) >= enough(s->net) ? ", held once the others are"
						 : ": tape it from a peg off that line";
}

/* "K (one reading only: tape it from F and A too)"; returns its length. */
static size_t describe(const struct rt__survey *s, size_t p, size_t least, char *out, size_t size)
{
	size_t chosen[SUGGESTED_MOST], n = suggest(s, p, least, chosen), used;

	used = (size_t)snprintf(out, size, "%s (%s", s->net->name[p], reason(s, p));
	for (size_t i = 0; i < n && used < size; i++)
		used += (size_t)snprintf(out + used, size - used, "%s%s",
					 i == 0 ? ": tape it from " : " and ",
					 s->net->name[chosen[i]]);
	if (used < size)
		used += (size_t)snprintf(out + used, size - used, "%s)",
					 n ? " too" : advice_without_peg(s, p));
	return used;
}

/* ---- what is wrong with the whole ---- */

/* Put all points of an edge into the group of one of them; says whether that was news. */
static bool join(const struct rt__network *net, const struct rt__edge *e, size_t *group,
		 size_t number)
{
	size_t point[3], n = rt__edge_points(net, e, point);
	bool of_it = false, grown = false;

	for (size_t i = 0; i < n; i++)
		of_it |= group[point[i]] == number;
	for (size_t i = 0; of_it && i < n; i++) {
		grown |= group[point[i]] != number;
		group[point[i]] = number;
	}
	return grown;
}

/* Number the groups of points that readings join, from 1; 0 for a point without a reading. */
static size_t number_groups(const struct rt__network *net, size_t *group)
{
	size_t groups = 0;

	memset(group, 0, net->points * sizeof *group);
	for (size_t start = 0; start < net->edges; start++) {
		size_t point[3];
		bool grown = true;

		if (!rt__edge_counts(net, &net->edge[start]))
			continue;
		rt__edge_points(net, &net->edge[start], point);
		if (group[point[0]])
			continue;
		group[point[0]] = ++groups;
		while (grown) {
			grown = false;
			for (size_t i = 0; i < net->edges; i++)
				grown |= rt__edge_counts(net, &net->edge[i]) &&
					 join(net, &net->edge[i], group, groups);
		}
	}
	return groups;
}

/* "no reading joins these groups: AK, K and C, H; "; nothing where there is one group, or where
 * fixed points hold each by itself. */
static size_t describe_groups(const struct rt__survey *s, char *out, size_t size)
{
	const struct rt__network *net = s->net;
	size_t groups = number_groups(net, s->set), used;

	if (groups < 2 || net->datums == 0)
		return 0;
	used = (size_t)snprintf(out, size, "no reading joins these groups: ");
	for (size_t g = 1; g <= groups; g++) {
		bool first = true;

		for (size_t p = 0; p < net->points && used < size; p++) {
			if (s->set[p] != g)
				continue;
			used += (size_t)snprintf(out + used, size - used, "%s%.12s",
						 !first	 ? ", "
						 : g > 1 ? " and "
							 : "",
						 net->name[p]);
			first = false;
		}
	}
	if (used < size)
		used += (size_t)snprintf(out + used, size - used, "; ");
	return used < size ? used : 0; /* too many names: the points say it one by one */
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

/* "AK, HC, CM, FA (four sides can lean: tape a diagonal, AK-CM or HC-FA)"; marks them held, as
 * they are once that is taped. */
static size_t describe_leaning(struct rt__survey *s, char *out, size_t size)
{
	const char **name = s->net->name;
	size_t c[4], held = 0;
	int length;

	if (!find_leaning(s, c))
		return 0;
	for (size_t i = 0; i < 4; i++)
		held += s->held[c[i]];
	if (held < 2)
		memset(s->held, 0, s->net->points * sizeof *s->held);
	for (size_t i = 0; i < 4; i++)
		s->held[c[i]] = true;
	length = snprintf(out, size,
			  "%.12s, %.12s, %.12s, %.12s (four sides can lean: tape a diagonal, "
			  "%.12s-%.12s or %.12s-%.12s)",
			  name[c[0]], name[c[1]], name[c[2]], name[c[3]], name[c[0]], name[c[2]],
			  name[c[1]], name[c[3]]);
	return (size_t)length;
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
	size_t groups = describe_groups(s, text, sizeof text / 2);
	size_t used = groups + describe_leaning(s, text + groups, sizeof text - groups), left = 0;
	size_t least = used ? 0 : least_suggested(s);

	text[used] = '\0'; /* what did not fit is not told */
	for (size_t p = 0; p < s->net->points; p++) {
		size_t length;

		if (!is_loose(s, p))
			continue;
		length = describe(s, p, least, one, sizeof one);
		if (left || length >= sizeof one || used + length + 24 > sizeof text) {
			left++;
			continue;
		}
		used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
					 used > groups ? "; " : "", one);
		s->held[p] = true; /* once taped so, it can hold others */
	}
	if (left)
		snprintf(text + used, sizeof text - used, "; and %zu more", left);
	return rt_fail(err, RT_E_NOFIX, "not fixed by the readings: %s", text);
}
