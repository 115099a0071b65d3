/* Figures of a turn table that are alike: mirrored, moved along the ring, or driven the other
 * way.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define EQUAL_M		0.001
#define RIGHT_ANGLE_DEG 90.0
#define EQUAL_DEG	0.01
#define NAMES_MOST	256

/* A point of a figure, and what it is by the letters. */
struct point {
	double x, y;
	const struct rt_place *place; /* NULL: a centre */
};

/* A way to lay one figure on another: mirrored where sx or sy is -1, then moved by dy. */
struct laying {
	double sx, sy, dy;
};

/* A figure while it is grouped. */
struct figure {
	const struct rt_turn *turn; /* two */
	enum rt__figure_type type;
	enum rt__turn_type number[2];
};

/* What is grouped in. */
struct grouping {
	struct rt__groups *out;
	const struct rt_turns *turns;
	const struct rt_ring_kind *kind;
	struct rt_pegs pegs;
};

static bool same(double a, double b)
{
	return fabs(a - b) <= EQUAL_M;
}

/* ---- what a figure is ------------------------------------------------------------------------ */

enum rt__turn_type rt__turn_type_of(const struct rt_turns *turns, const struct rt_ring_kind *kind,
				    const struct rt_turn *turn)
{
	double half_width = kind->width_m / 2.0 - turns->track_m;
	double half_length = kind->length_m / 2.0 - turns->track_m;
	struct rt_vec at = rt_turn_corner(turn);

	if (fabs(turn->angle_deg - RIGHT_ANGLE_DEG) > EQUAL_DEG)
		return RT__DIAGONAL;
	if (!same(fabs(at.y), half_length))
		return RT__ACROSS;
	if (same(at.x, 0.0))
		return RT__CENTRELINE;
	return same(fabs(at.x), half_width) ? RT__CORNER : RT__ACROSS;
}

static struct figure figure_of(const struct grouping *g, const struct rt_turn *turn)
{
	struct figure f = {.turn = turn};

	for (int i = 0; i < 2; i++)
		f.number[i] = rt__turn_type_of(g->turns, g->kind, &turn[i]);
	if (f.number[0] == RT__DIAGONAL)
		f.type = RT__LONG_DIAGONAL;
	else if (f.number[0] == RT__CENTRELINE || f.number[1] == RT__CENTRELINE)
		f.type = RT__OFF_ONTO;
	else
		f.type = f.number[0] == RT__CORNER ? RT__SHORT_SIDE : RT__LINE_ACROSS;
	return f;
}

/* ---- whether two figures are alike ----------------------------------------------------------- */

/* Begin, centre and finish of both arcs in order; the other way round when reversed. */
static void points(const struct figure *f, bool reversed, struct point p[6])
{
	for (int i = 0; i < 2; i++) {
		const struct rt_turn *t = &f->turn[i];
		int first = reversed ? 5 - 3 * i : 3 * i, step = reversed ? -1 : 1;

		p[first] = (struct point){t->begin_x_m, t->begin_y_m, &t->begin};
		p[first + step] = (struct point){t->centre_x_m, t->centre_y_m, NULL};
		p[first + 2 * step] = (struct point){t->finish_x_m, t->finish_y_m, &t->finish};
	}
}

/* Whether a place told by one letter is told by the letter that lies the same way. */
static bool same_reference(const struct grouping *g, const struct rt_place *a,
			   const struct rt_place *b, const struct laying *l)
{
	const struct rt_peg *from, *to;

	if (a->line || b->line)
		return a->line && b->line && strcmp(a->reference, b->reference) == 0;
	from = rt_peg_find(&g->pegs, a->reference);
	to = rt_peg_find(&g->pegs, b->reference);
	return from && to && same(from->x_m * l->sx, to->x_m) &&
	       same(from->y_m * l->sy + l->dy, to->y_m);
}

static bool laid_on(const struct grouping *g, const struct figure *a, const struct figure *b,
		    double sx, double sy, bool reversed)
{
	struct laying l = {sx, sy, 0.0};
	struct point pa[6], pb[6];

	points(a, false, pa);
	points(b, reversed, pb);
	if (a->type == RT__LINE_ACROSS)
		l.dy = pb[0].y - sy * pa[0].y;
	for (int i = 0; i < 6; i++)
		if (!same(pa[i].x * sx, pb[i].x) || !same(pa[i].y * sy + l.dy, pb[i].y) ||
		    (pa[i].place && !same_reference(g, pa[i].place, pb[i].place, &l)))
			return false;
	return true;
}

static bool fits(const struct figure *f)
{
	return f->turn[0].fits && f->turn[1].fits;
}

static bool alike(const struct grouping *g, const struct figure *a, const struct figure *b)
{
	if (a->type != b->type || fits(a) != fits(b) ||
	    (!fits(a) && !same(fmin(a->turn[0].largest_m, a->turn[1].largest_m),
			       fmin(b->turn[0].largest_m, b->turn[1].largest_m))))
		return false;
	for (int i = 0; i < 8; i++)
		if (laid_on(g, a, b, i & 1 ? -1.0 : 1.0, i & 2 ? -1.0 : 1.0, i & 4))
			return true;
	return false;
}

/* ---- names ----------------------------------------------------------------------------------- */

/* The letter that faces a point of the track, or "". */
static const char *letter_at(const struct grouping *g, double x, double y)
{
	for (size_t i = 0; i < g->pegs.n; i++) {
		const struct rt_peg *peg = &g->pegs.at[i];
		bool long_side = peg->side == RT_LEFT || peg->side == RT_RIGHT;

		if (peg->corner || peg->side == RT_CENTRE)
			continue;
		if (long_side ? same(peg->y_m, y) && peg->x_m * x > 0.0
			      : same(peg->x_m, x) && peg->y_m * y > 0.0)
			return peg->name;
	}
	return "";
}

/* What a figure is called by: "C", "E B", "H X F". */
static void figure_name(const struct grouping *g, const struct figure *f, bool turned_round,
			char out[64])
{
	int a = turned_round ? 1 : 0, centre = f->number[0] == RT__CENTRELINE ? 0 : 1;
	const struct rt_turn *first = &f->turn[0], *last = &f->turn[1];
	const char *end[2], *middle = "";
	struct rt_vec at[] = {rt_turn_corner(first), rt_turn_corner(last)};

	if (f->type == RT__OFF_ONTO) {
		snprintf(out, 64, "%s", letter_at(g, at[centre].x, at[centre].y));
		return;
	}
	if (f->type == RT__LONG_DIAGONAL) {
		for (size_t i = 0; i < g->pegs.n; i++)
			if (g->pegs.at[i].side == RT_CENTRE && same(g->pegs.at[i].y_m, 0.0))
				middle = g->pegs.at[i].name;
		at[0] = (struct rt_vec){first->begin_x_m, first->begin_y_m};
		at[1] = (struct rt_vec){last->finish_x_m, last->finish_y_m};
	}
	end[0] = letter_at(g, at[0].x, at[0].y);
	end[1] = letter_at(g, at[1].x, at[1].y);
	snprintf(out, 64, "%.20s %.16s%s%.20s", end[a], middle, *middle ? " " : "", end[1 - a]);
}

/* Whether a list "E B, V P" has a name. */
static bool listed(const char *names, const char *name)
{
	size_t n = strlen(name);

	for (const char *at = names; (at = strstr(at, name)); at += n)
		if ((at == names || at[-1] == ' ') && (at[n] == ',' || !at[n]) &&
		    (at == names || at[-2] == ','))
			return true;
	return false;
}

static enum rt_err add_name(struct grouping *g, struct rt__group *group, const struct figure *f,
			    struct rt_error *err)
{
	char name[64], back[64], names[NAMES_MOST];

	figure_name(g, f, false, name);
	figure_name(g, f, true, back);
	if (f->type == RT__SHORT_SIDE)
		return RT_OK;
	if (group->names && (listed(group->names, name) || listed(group->names, back)))
		return RT_OK;
	snprintf(names, sizeof names, "%s%s%s", group->names ? group->names : "",
		 group->names ? ", " : "", name);
	group->names = rt_arena_string(&g->out->text, names);
	return group->names ? RT_OK : rt_fail_nomem(err);
}

/* ---- grouping -------------------------------------------------------------------------------- */

/* A line across is told where it lies nearest to the middle of the ring. */
static bool better(const struct figure *f, const struct rt__group *group)
{
	return f->type == RT__LINE_ACROSS &&
	       fabs(rt_turn_corner(f->turn).y) < fabs(rt_turn_corner(group->first).y) - EQUAL_M;
}

static enum rt_err add_figure(struct grouping *g, const struct figure *f, struct rt_error *err)
{
	struct rt__group *group = NULL;

	for (size_t i = 0; i < g->out->n && !group; i++) {
		struct figure other = figure_of(g, g->out->at[i].first);

		if (alike(g, &other, f))
			group = &g->out->at[i];
	}
	if (!group) {
		group = RT_LIST_ADD(g->out);
		if (!group)
			return rt_fail_nomem(err);
		*group = (struct rt__group){.type = f->type, .fits = fits(f)};
	}
	if (!group->first || better(f, group)) {
		group->first = f->turn;
		memcpy(group->number, f->number, sizeof group->number);
	}
	group->figures++;
	return add_name(g, group, f, err);
}

/* What fits before what does not, then in the order of the types, then as in the table. */
static int by_type(const void *a, const void *b)
{
	const struct rt__group *ga = a, *gb = b;

	if (ga->fits != gb->fits)
		return ga->fits ? -1 : 1;
	if (ga->type != gb->type)
		return ga->type < gb->type ? -1 : 1;
	return ga->first < gb->first ? -1 : ga->first > gb->first;
}

enum rt_err rt__turn_groups(struct rt__groups *out, const struct rt_turns *turns,
			    const struct rt_ring_kind *kind, struct rt_error *err)
{
	struct grouping g = {.out = out, .turns = turns, .kind = kind};
	enum rt_err rc = rt_ring_pegs(&g.pegs, kind, err);

	for (size_t i = 0; !rc && i + 1 < turns->list.n; i += 2) {
		struct figure f = figure_of(&g, &turns->list.at[i]);

		rc = add_figure(&g, &f, err);
	}
	rt_pegs_free(&g.pegs);
	if (out->n)
		qsort(out->at, out->n, sizeof *out->at, by_type);
	return rc;
}
