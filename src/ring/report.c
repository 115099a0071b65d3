/* Report tables of kinds, rings and set-outs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

enum rt_err rt_ring_kinds_report(struct rt_report *r, const struct rt_ring_kinds *kinds,
				 struct rt_error *err)
{
	static const struct rt_column columns[] = {
		RT__TEXT("kind", "kind", false),
		RT__TEXT("discipline", "discipline", false),
		RT__METRES("width_m", "width", 0, false),
		RT__METRES("length_m", "length", 0, false),
		RT__TEXT("letters", "letters", false),
	};
	struct rt_table *t = rt_report_table(r, "kinds", "Kinds of ring", columns, COUNT(columns));

	for (size_t i = 0; i < kinds->n; i++) {
		const struct rt_ring_kind *kind = &kinds->at[i];
		char letters[512] = "";
		size_t used = 0;

		for (size_t k = 0; k < kind->letters.n && used < sizeof letters; k++)
			used += (size_t)snprintf(letters + used, sizeof letters - used, "%s%s",
						 k ? " " : "", kind->letters.at[k].name);
		rt_put_text(t, kind->name);
		rt_put_text(t, rt_discipline_words(kind->discipline));
		rt_put_real(t, kind->width_m);
		rt_put_real(t, kind->length_m);
		rt_put_text(t, letters);
	}
	return rt_report_result(r, err);
}

enum rt_err rt_rings_report(struct rt_report *r, const struct rt_rings *rings, struct rt_error *err)
{
	static const struct rt_column columns[] = {
		RT__TEXT("ring", "ring", false),
		RT__TEXT("kind", "kind", false),
	};
	struct rt_table *t = rt_report_table(r, "rings", "Rings of the show", columns,
					     COUNT(columns));

	for (size_t i = 0; i < rings->n; i++) {
		rt_put_text(t, rings->at[i].name);
		rt_put_text(t, rings->at[i].kind);
	}
	return rt_report_result(r, err);
}

/* ---- set-out ---- */

static void put_pegs(struct rt_report *r, const struct rt_ring_setout *setout)
{
	static const struct rt_column columns[] = {
		RT__TEXT("peg", "peg", false),
		RT__METRES("x_m", "x", 2, false),
		RT__METRES("y_m", "y", 2, false),
		RT__TEXT("side", "side", false),
		RT__METRES("along_m", "along", 2, false),
		RT__TEXT("note", "note", false),
	};
	struct rt_table *t = rt_report_table(r, "pegs", "Pegs, clockwise from A", columns,
					     COUNT(columns));

	for (size_t i = 0; i < setout->pegs.n; i++) {
		const struct rt_peg *p = &setout->pegs.at[i];
		const char *note = p->corner ? "corner" : NULL;

		if (rt_peg_unconfirmed(setout->kind, p))
			note = "check the rulebook in force";
		rt_put_text(t, p->name);
		rt_put_real(t, p->x_m);
		rt_put_real(t, p->y_m);
		rt_put_text(t, rt_side_words(p->side));
		rt_put_real(t, p->along_m);
		rt_put_text(t, note);
	}
}

/* "AK", "15 m from AK towards FA". */
static void put_mark(struct rt_table *t, const struct rt_setout_mark *mark, bool feet)
{
	char length[32];

	if (!mark->towards) {
		rt_put_text(t, mark->peg);
		return;
	}
	rt_format_length(mark->past_m, 0, 1, feet, length, sizeof length);
	rt_put_textf(t, "%s from %s towards %s", length, mark->peg, mark->towards);
}

static void put_checks(struct rt_report *r, const struct rt_ring_setout *setout, bool feet)
{
	static const struct rt_column columns[] = {
		RT__TEXT("from", "from", false),
		RT__TEXT("to", "to", false),
		RT__METRES("distance_m", "distance", 2, false),
		RT__TEXT("what", "what", false),
	};
	struct rt_table *t = rt_report_table(r, "checks", "Distances to tape", columns,
					     COUNT(columns));

	for (size_t i = 0; i < setout->checks; i++) {
		const struct rt_setout_check *c = &setout->check[i];

		put_mark(t, &c->from, feet);
		put_mark(t, &c->to, feet);
		rt_put_real(t, c->distance_m);
		rt_put_text(t, c->what);
	}
}

static void put_boards(struct rt_report *r, const struct rt_ring_setout *setout)
{
	static const struct rt_column columns[] = {
		RT__TEXT("side", "side", false),
		RT__METRES("length_m", "length", 0, false),
		RT__COUNT("boards", "4 m boards", false),
	};
	struct rt_table *t = rt_report_table(r, "boards", "Boards", columns, COUNT(columns));

	for (size_t i = 0; i < 4; i++) {
		rt_put_text(t, rt_side_words(setout->side[i].side));
		rt_put_real(t, setout->side[i].length_m);
		rt_put_int(t, setout->side[i].boards);
	}
	rt_put_text(t, "all");
	rt_put_real(t, 2 * (setout->kind->width_m + setout->kind->length_m));
	rt_put_int(t, setout->boards);
}

static void put_tape(struct rt_report *r, const struct rt_ring_setout *setout)
{
	static const struct rt_column columns[] = {
		RT__TEXT("use", "tape for", false),
		RT__METRES("length_m", "at least", 2, false),
	};
	const struct rt_ring_kind *kind = setout->kind;
	struct rt_table *t = rt_report_table(r, "tape", "Tape needed", columns, COUNT(columns));

	rt_put_text(t, "the diagonals");
	rt_put_real(t, setout->tape_m);
	rt_put_text(t, "the long sides in one pull");
	rt_put_real(t, kind->length_m);
	rt_put_text(t, "the right angles");
	rt_put_real(t, setout->check[setout->checks - 1].distance_m);
}

static void put_notes(struct rt_report *r, const struct rt_ring_setout *setout, bool feet)
{
	bool unconfirmed = false;
	char two[32], one[32];

	for (size_t i = 0; i < setout->pegs.n; i++)
		unconfirmed |= rt_peg_unconfirmed(setout->kind, &setout->pegs.at[i]);
	rt_report_note(r, "x is to the right and y towards C, seen from A, from the middle of the "
			  "ring. Measure on the inside edge of the boards.");
	rt_report_note(r, "Tape the running distances in one pull from the zero end, not from peg "
			  "to peg: so errors do not add up.");
	rt_report_note(r, "Equal diagonals alone do not prove a ring: a trapezium has them too. "
			  "Check the right angles as well.");
	if (unconfirmed)
		rt_report_note(r, "V, P, S and R of a driven ring of 40 x 80 m: rulebooks differ "
				  "or do not show them. Check the rulebook in force.");
	rt_format_length(2, 0, 0, feet, two, sizeof two);
	rt_format_length(1, 0, 0, feet, one, sizeof one);
	if (setout->kind->discipline == RT_DRIVEN)
		rt_report_note(r, "Leave the opening at A out of the boards: wide enough for the "
				  "widest turnout. Check the rulebook in force.");
	else
		rt_report_note(r,
			       "Leave the opening at A out of the boards: %s at least (%s in some "
			       "rulebooks). Check the rulebook in force.",
			       two, one);
}

enum rt_err rt_ring_setout_report(struct rt_report *r, const struct rt_ring_setout *setout,
				  bool feet, struct rt_error *err)
{
	put_pegs(r, setout);
	put_checks(r, setout, feet);
	put_boards(r, setout);
	put_tape(r, setout);
	put_notes(r, setout, feet);
	return rt_report_result(r, err);
}
