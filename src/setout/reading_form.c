/* The readings that check a ring well, in walking order.
 *
 * The long sides are the rails of a ladder, their letters and corners its rungs: walking once from
 * A to C with the zero on the left side and the reel on the right, each rung, both diagonals to
 * the next one and the two pieces of side between are read.  So every peg is tied to six others,
 * and a blunder in one reading shows in the rest.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/check.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define SAME_M	    0.01
#define LEVELS_MOST (RT_RING_LETTERS_MOST + 4)

/* The pegs at one distance from the A end; NULL where there is none. */
struct level {
	double y_m;
	const struct rt_peg *left, *right;
};

struct ladder {
	struct rt_setout_form *form;
	struct level at[LEVELS_MOST];
	size_t n;
	double tape_m;
	bool nomem; /* sticky: a row could not be kept */
};

/* ---- rows ---- */

static bool is_there(const struct rt_setout_form *form, const struct rt_peg *a,
		     const struct rt_peg *b)
{
	for (size_t i = 0; i < form->rows; i++) {
		const struct rt_form_row *r = &form->row[i];

		if ((r->from == a->name && r->to == b->name) ||
		    (r->from == b->name && r->to == a->name))
			return true;
	}
	return false;
}

/* A reading, once; one that is longer than the tape says in how many parts. */
static void add(struct ladder *l, const struct rt_peg *a, const struct rt_peg *b, const char *what)
{
	struct rt_setout_form *form = l->form;
	struct rt_form_row *r;
	char note[80] = "";
	double d;

	if (!a || !b || a == b || is_there(form, a, b))
		return;
	d = hypot(a->x_m - b->x_m, a->y_m - b->y_m);
	rt_append(note, sizeof note, "%s", what);
	if (d > l->tape_m + 1e-6)
		rt_append(note, sizeof note, "%s%d parts in line", *what ? ", " : "",
			  (int)ceil(d / l->tape_m - 1e-9));
	r = rt_list_add(&form->row, &form->rows, &form->cap, sizeof *form->row);
	if (r)
		*r = (struct rt_form_row){a->name, b->name, d,
					  *note ? rt_arena_string(&form->text, note) : NULL};
	l->nomem |= !r || (*note && !r->note);
}

/* ---- the ladder ---- */

static struct level *level_at(struct ladder *l, double y)
{
	size_t i = 0;

	while (i < l->n && l->at[i].y_m < y - SAME_M)
		i++;
	if (i < l->n && l->at[i].y_m < y + SAME_M)
		return &l->at[i];
	memmove(&l->at[i + 1], &l->at[i], (l->n - i) * sizeof *l->at);
	l->at[i] = (struct level){.y_m = y};
	l->n++;
	return &l->at[i];
}

static void find_levels(struct ladder *l)
{
	const struct rt_pegs *pegs = &l->form->pegs;

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *p = &pegs->at[i];

		if (p->side == RT_LEFT)
			level_at(l, p->y_m)->left = p;
		else if (p->side == RT_RIGHT)
			level_at(l, p->y_m)->right = p;
	}
}

/* The next peg of a side above a level, or NULL. */
static const struct rt_peg *above(const struct ladder *l, size_t i, bool left)
{
	const struct rt_peg *p = NULL;

	while (!p && ++i < l->n)
		p = left ? l->at[i].left : l->at[i].right;
	return p;
}

/* From a level to the next pegs of both sides: the sides' pieces and the diagonals. */
static void walk_ladder(struct ladder *l)
{
	for (size_t i = 0; i < l->n; i++) {
		const struct level *at = &l->at[i];
		const struct rt_peg *left = above(l, i, true), *right = above(l, i, false);

		add(l, at->left, at->right, "");
		add(l, at->left, right, "");
		add(l, left, at->right, "");
		add(l, at->left, left, "along the side");
		add(l, at->right, right, "along the side");
	}
}

/* ---- short sides, centreline, long distances ---- */

/* The letters of a short side: to its corners, and to the long sides' first pegs. */
static void short_side(struct ladder *l, enum rt_side side)
{
	const struct rt_pegs *pegs = &l->form->pegs;
	bool a_end = side == RT_SIDE_A;
	const struct level *end = &l->at[a_end ? 0 : l->n - 1];
	const struct level *next = &l->at[a_end ? 1 : l->n - 2];

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *p = &pegs->at[i];

		if (p->side != side || p->corner)
			continue;
		add(l, end->left, p, "along the side");
		add(l, p, end->right, "along the side");
		add(l, next->left ? next->left : next->right, p, "");
		if (next->left)
			add(l, p, next->right, "");
	}
}

/* The level nearest to y that has both pegs, other than `not`. */
static const struct level *rung_near(const struct ladder *l, double y, const struct level * not )
{
	const struct level *best = NULL;

	for (size_t i = 0; i < l->n; i++)
		if (l->at[i].left && l->at[i].right &&
		    &l->at[i] != not &&(!best || fabs(l->at[i].y_m - y) < fabs(best->y_m - y)))
			best = &l->at[i];
	return best;
}

/* The letters of the centreline: to both sides level with them, and to those of the next rung. */
static void centreline(struct ladder *l)
{
	static const char what[] = "centreline";

	for (size_t i = 0; i < l->form->pegs.n; i++) {
		const struct rt_peg *p = &l->form->pegs.at[i];
		const struct level *near = rung_near(l, p->y_m, NULL);
		const struct level *next = rung_near(l, p->y_m, near);

		if (p->side != RT_CENTRE)
			continue;
		add(l, near->left, p, what);
		add(l, p, near->right, what);
		add(l, next->left, p, what);
		add(l, p, next->right, what);
	}
}

static void long_distances(struct ladder *l)
{
	static const char *const pair[][3] = {{"AK", "HC", "the whole side"},
					      {"HC", "FA", "diagonal"},
					      {"FA", "CM", "the whole side"},
					      {"CM", "AK", "diagonal"}};

	for (size_t i = 0; i < sizeof pair / sizeof *pair; i++)
		add(l, rt_peg_find(&l->form->pegs, pair[i][0]),
		    rt_peg_find(&l->form->pegs, pair[i][1]), pair[i][2]);
}

/* ---- how good it is ---- */

/* What a ring check would say of the form when every reading is right: the worst peg, and which
 * readings (`unchecked`, one a row) nothing checks. */
static enum rt_err judge(struct rt_setout_form *form, bool *unchecked, struct rt_error *err)
{
	struct rt_readings readings = {0};
	struct rt_ring_check check = {0};
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < form->rows; i++) {
		struct rt_reading *r = RT_LIST_ADD(&readings);

		if (!r)
			e = rt_fail_nomem(err);
		else
			*r = (struct rt_reading){.from = form->row[i].from,
						 .to = form->row[i].to,
						 .value = form->row[i].nominal_m,
						 .sigma = NAN};
	}
	if (!e)
		e = rt_ring_check(&check, form->kind, &readings,
				  rt_ring_tolerance(form->kind->discipline), RT_FIT_ALL, err);
	form->se_m = 0;
	form->unchecked = 0;
	for (size_t i = 0; !e && i < check.pegs; i++)
		if (check.peg[i].se_m > form->se_m) {
			form->se_m = check.peg[i].se_m;
			form->worst_peg = check.peg[i].peg.name;
		}
	for (size_t i = 0; !e && i < check.adjustment.readings; i++) {
		unchecked[i] = check.adjustment.reading[i].redundancy < RT_R_UNCHECKED;
		form->unchecked += unchecked[i];
	}
	rt_ring_check_free(&check);
	RT_LIST_FREE(&readings);
	return e;
}

/* One more reading from a peg: to the nearest that it is not read to yet. */
static void one_more(struct ladder *l, const struct rt_peg *from)
{
	const struct rt_pegs *pegs = &l->form->pegs;
	const struct rt_peg *to = NULL;
	double least = INFINITY;

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *p = &pegs->at[i];
		double d = hypot(p->x_m - from->x_m, p->y_m - from->y_m);

		if (p != from && d < least && !is_there(l->form, from, p)) {
			least = d;
			to = p;
		}
	}
	add(l, from, to, "one more check");
}

/* Judge the form; where a reading is left unchecked, as in a ring of odd letters, read more from
 * both its ends, and judge again. */
static enum rt_err complete(struct ladder *l, struct rt_error *err)
{
	struct rt_setout_form *form = l->form;
	size_t before = 0;

	for (;;) {
		size_t rows = form->rows;
		bool *unchecked = rt_arena_take(&form->text, rows * sizeof *unchecked + 1);
		enum rt_err e = unchecked && !l->nomem ? judge(form, unchecked, err)
						       : rt_fail_nomem(err);

		if (e || !form->unchecked || rows == before)
			return e;
		before = rows;
		for (size_t i = 0; i < rows; i++) {
			if (!unchecked[i])
				continue;
			one_more(l, rt_peg_find(&form->pegs, form->row[i].from));
			one_more(l, rt_peg_find(&form->pegs, form->row[i].to));
		}
	}
}

enum rt_err rt_setout_form(struct rt_setout_form *out, const struct rt_ring_kind *kind,
			   double tape_m, struct rt_error *err)
{
	struct ladder l = {.form = out, .tape_m = tape_m};
	enum rt_err e = rt_ring_size_check(kind, err);

	if (e)
		return e;
	out->kind = kind;
	e = rt_ring_pegs(&out->pegs, kind, err);
	if (e)
		return e;
	find_levels(&l);
	short_side(&l, RT_SIDE_A);
	walk_ladder(&l);
	short_side(&l, RT_SIDE_C);
	centreline(&l);
	long_distances(&l);
	return complete(&l, err);
}

void rt_setout_form_free(struct rt_setout_form *form)
{
	rt_list_clear(&form->row, &form->rows, &form->cap, &form->text);
	rt_pegs_free(&form->pegs);
	memset(form, 0, sizeof *form);
}
