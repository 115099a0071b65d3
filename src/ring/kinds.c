/* Kinds of ring: finding them, what they may hold, and the place of every peg.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/ring.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

#define SAME_PLACE_M 1e-6 /* two letters nearer than this are in one place */

/* ---- the list of kinds ---- */

void rt_ring_kinds_free(struct rt_ring_kinds *kinds)
{
	for (size_t i = 0; i < kinds->n; i++)
		RT_LIST_FREE(&kinds->at[i].letters);
	RT_LIST_FREE(kinds);
}

const struct rt_ring_kind *rt_ring_kind_find(const struct rt_ring_kinds *kinds, const char *name)
{
	for (size_t i = 0; i < kinds->n; i++) {
		if (strcmp(kinds->at[i].name, name) == 0)
			return &kinds->at[i];
	}
	return NULL;
}

enum rt_err rt_ring_kind_named(const struct rt_ring_kind **out, const struct rt_ring_kinds *kinds,
			       const char *name, struct rt_error *err)
{
	const char **names;
	enum rt_err e;

	*out = rt_ring_kind_find(kinds, name);
	for (size_t i = 0; !*out && i < kinds->n; i++)
		if (rt_same_name(kinds->at[i].name, name))
			*out = &kinds->at[i];
	if (*out)
		return RT_OK;
	names = calloc(kinds->n + 1, sizeof *names);
	if (!names)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < kinds->n; i++)
		names[i] = kinds->at[i].name;
	e = rt_fail_unknown(err, name, names, kinds->n, NULL, "no kind of ring %s", name);
	free(names);
	return e;
}

bool rt_ring_has_letter(const struct rt_ring_kind *kind, const char *name)
{
	for (size_t i = 0; i < kind->letters.n; i++) {
		if (strcmp(kind->letters.at[i].name, name) == 0)
			return true;
	}
	return false;
}

/* ---- what a kind may hold ---- */

static const struct corner {
	const char *name;
	enum rt_side side;
	int x, y; /* signs */
} corners[] = {
	{"AK", RT_LEFT, -1, -1},
	{"HC", RT_LEFT, -1, 1},
	{"CM", RT_RIGHT, 1, 1},
	{"FA", RT_RIGHT, 1, -1},
};

#define CORNERS (sizeof corners / sizeof *corners)

const char *const rt__corner[4] = {"AK", "HC", "CM", "FA"};

static enum rt_err kind_fault(struct rt_error *err, const char *column, enum rt_err e)
{
	if (err)
		snprintf(err->column, sizeof err->column, "%s", column);
	return e;
}

enum rt_err rt_ring_size_check(const struct rt_ring_kind *kind, struct rt_error *err)
{
	if (!(kind->width_m >= RT_RING_LEAST_M && kind->width_m <= RT_RING_MOST_M))
		return kind_fault(err, "width_m",
				  rt_fail(err, RT_E_INPUT,
					  "no width of a ring: from 5 to 500 m are accepted"));
	if (!(kind->length_m >= kind->width_m && kind->length_m <= RT_RING_MOST_M))
		return kind_fault(err, "length_m",
				  rt_fail(err, RT_E_INPUT,
					  "no length of a ring: from its width to 500 m are "
					  "accepted"));
	return RT_OK;
}

static double side_length(const struct rt_ring_kind *kind, enum rt_side side)
{
	return side == RT_SIDE_A || side == RT_SIDE_C ? kind->width_m : kind->length_m;
}

static enum rt_err letter_name_check(const struct rt_ring_kind *kind, size_t i,
				     struct rt_error *err)
{
	const char *name = kind->letters.at[i].name;

	if (!*name)
		return rt_fail(err, RT_E_INPUT, "a letter without a name");
	if (i >= RT_RING_LETTERS_MOST)
		return rt_fail(err, RT_E_INPUT, "too many letters: up to %d are accepted",
			       RT_RING_LETTERS_MOST);
	for (size_t k = 0; k < CORNERS; k++) {
		if (strcmp(name, corners[k].name) == 0)
			return rt_fail(err, RT_E_INPUT,
				       "%s is the name of a corner: corners are there already",
				       name);
	}
	for (size_t k = 0; k < i; k++) {
		if (strcmp(name, kind->letters.at[k].name) == 0)
			return rt_fail(err, RT_E_INPUT, "%s is there twice: a letter stands once",
				       name);
	}
	return RT_OK;
}

static enum rt_err letter_place_check(const struct rt_ring_kind *kind, size_t i,
				      struct rt_error *err)
{
	const struct rt_letter *l = &kind->letters.at[i];
	double length = side_length(kind, l->side);

	if (!(l->offset_m > SAME_PLACE_M && l->offset_m < length - SAME_PLACE_M))
		return rt_fail(err, RT_E_INPUT, "%s is not inside its side: over 0, under %s m",
			       l->name, rt_show_real(length, 2).text);
	for (size_t k = 0; k < i; k++) {
		const struct rt_letter *other = &kind->letters.at[k];

		if (other->side == l->side && fabs(other->offset_m - l->offset_m) < SAME_PLACE_M)
			return rt_fail(err, RT_E_INPUT, "%s stands where %s does", l->name,
				       other->name);
	}
	return RT_OK;
}

enum rt_err rt_ring_letter_check(const struct rt_ring_kind *kind, size_t i, struct rt_error *err)
{
	enum rt_err e = letter_name_check(kind, i, err);

	if (e)
		return kind_fault(err, "peg", e);
	e = letter_place_check(kind, i, err);
	return e ? kind_fault(err, "offset_m", e) : RT_OK;
}

/* ---- pegs ---- */

static struct rt_peg letter_peg(const struct rt_ring_kind *kind, const struct rt_letter *l)
{
	double x = kind->width_m / 2, y = kind->length_m / 2;
	struct rt_peg peg = {.name = l->name, .side = l->side, .along_m = l->offset_m};

	switch (l->side) {
	case RT_LEFT:
	case RT_RIGHT:
		peg.x_m = l->side == RT_LEFT ? -x : x;
		peg.y_m = l->offset_m - y;
		break;
	case RT_SIDE_A:
	case RT_SIDE_C:
		peg.x_m = l->offset_m - x;
		peg.y_m = l->side == RT_SIDE_A ? -y : y;
		break;
	case RT_CENTRE:
		peg.y_m = l->offset_m - y;
		break;
	}
	return peg;
}

static struct rt_peg corner_peg(const struct rt_ring_kind *kind, const struct corner *c)
{
	return (struct rt_peg){
		.name = c->name,
		.x_m = c->x * kind->width_m / 2,
		.y_m = c->y * kind->length_m / 2,
		.side = c->side,
		.along_m = c->y < 0 ? 0 : kind->length_m,
		.corner = true,
	};
}

/* Running distance clockwise round the ring from the middle of side a; the centreline after
 * that, from A to C. */
static double walk(const struct rt_peg *p, double width, double length)
{
	switch (p->side) {
	case RT_SIDE_A:
		return p->x_m <= 0 ? -p->x_m : 2 * (width + length) - p->x_m;
	case RT_LEFT:
		return width / 2 + p->along_m;
	case RT_SIDE_C:
		return width / 2 + length + p->along_m;
	case RT_RIGHT:
		return width / 2 + length + width + (length - p->along_m);
	case RT_CENTRE:
		break;
	}
	return 2 * (width + length) + p->along_m;
}

static void sort_pegs(struct rt_pegs *pegs, double width, double length)
{
	for (size_t i = 1; i < pegs->n; i++) {
		struct rt_peg p = pegs->at[i];
		double at = walk(&p, width, length);
		size_t k = i;

		for (; k > 0 && walk(&pegs->at[k - 1], width, length) > at; k--)
			pegs->at[k] = pegs->at[k - 1];
		pegs->at[k] = p;
	}
}

enum rt_err rt_ring_pegs(struct rt_pegs *out, const struct rt_ring_kind *kind, struct rt_error *err)
{
	for (size_t i = 0; i < kind->letters.n + CORNERS; i++) {
		struct rt_peg *peg = RT_LIST_ADD(out);

		if (!peg)
			return rt_fail_nomem(err);
		*peg = i < CORNERS ? corner_peg(kind, &corners[i])
				   : letter_peg(kind, &kind->letters.at[i - CORNERS]);
	}
	sort_pegs(out, kind->width_m, kind->length_m);
	return RT_OK;
}

void rt_pegs_free(struct rt_pegs *pegs)
{
	RT_LIST_FREE(pegs);
}

const struct rt_peg *rt_peg_find(const struct rt_pegs *pegs, const char *name)
{
	for (size_t i = 0; i < pegs->n; i++) {
		if (strcmp(pegs->at[i].name, name) == 0)
			return &pegs->at[i];
	}
	return NULL;
}

enum rt_err rt__no_such_peg(const struct rt_pegs *pegs, const char *name, struct rt_error *err)
{
	const char **names = calloc(pegs->n + 1, sizeof *names);
	enum rt_err e;

	if (!names)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < pegs->n; i++)
		names[i] = pegs->at[i].name;
	e = rt_fail_unknown(err, name, names, pegs->n, NULL, "no peg %s", name);
	free(names);
	return e;
}

enum rt_err rt_ring_peg(struct rt_peg *out, const struct rt_ring_kind *kind, const char *name,
			struct rt_error *err)
{
	struct rt_pegs pegs = {0};
	const struct rt_peg *peg;
	enum rt_err e = rt_ring_pegs(&pegs, kind, err);

	if (!e) {
		peg = rt_peg_find(&pegs, name);
		if (peg)
			*out = *peg;
		else
			e = rt__no_such_peg(&pegs, name, err);
	}
	rt_pegs_free(&pegs);
	return e;
}

const struct rt_peg *rt__peg_towards(const struct rt_pegs *pegs, const struct rt_peg *from,
				     bool along_y, int sign)
{
	const struct rt_peg *nearest = NULL;
	double best = INFINITY;

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *p = &pegs->at[i];
		double ahead = along_y ? p->y_m - from->y_m : p->x_m - from->x_m;
		double aside = along_y ? p->x_m - from->x_m : p->y_m - from->y_m;

		ahead *= sign;
		if (fabs(aside) < SAME_PLACE_M && ahead > SAME_PLACE_M && ahead < best) {
			best = ahead;
			nearest = p;
		}
	}
	return nearest;
}

bool rt__on_side(const struct rt_ring_kind *kind, double x_m, double y_m, enum rt_side side)
{
	double x = kind->width_m / 2, y = kind->length_m / 2;

	switch (side) {
	case RT_LEFT:
		return fabs(x_m + x) < SAME_PLACE_M;
	case RT_RIGHT:
		return fabs(x_m - x) < SAME_PLACE_M;
	case RT_SIDE_A:
		return fabs(y_m + y) < SAME_PLACE_M;
	case RT_SIDE_C:
		return fabs(y_m - y) < SAME_PLACE_M;
	case RT_CENTRE:
		return fabs(x_m) < SAME_PLACE_M;
	}
	return false;
}

bool rt_peg_unconfirmed(const struct rt_ring_kind *kind, const struct rt_peg *peg)
{
	return kind->discipline == RT_DRIVEN && kind->width_m == 40 && kind->length_m == 80 &&
	       (peg->side == RT_LEFT || peg->side == RT_RIGHT) && strlen(peg->name) == 1 &&
	       strchr("VPSR", *peg->name);
}
