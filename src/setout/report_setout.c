/* Report tables of set-outs: pegs, distances, the plan of a crew, room and things, the reading
 * form. SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

/* ---- set-out ---- */

static void put_pegs(struct rt_report *r, const struct rt_ring_setout *setout)
{
	static const struct rt_field columns[] = {
		RT__TEXT("peg", "peg", false),	      RT__TAPED("x_m", "x", false),
		RT__TAPED("y_m", "y", false),	      RT__TEXT("side", "side", false),
		RT__TAPED("along_m", "along", false), RT__TEXT("note", "note", false),
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
	if (feet)
		rt_format_taped(mark->past_m, true, length, sizeof length);
	else
		rt_format_length(mark->past_m, 0, 1, false, length, sizeof length);
	rt_put_textf(t, "%s from %s towards %s", length, mark->peg, mark->towards);
}

static void put_checks(struct rt_report *r, const struct rt_ring_setout *setout, bool feet)
{
	static const struct rt_field columns[] = {
		RT__TEXT("from", "from", false),
		RT__TEXT("to", "to", false),
		RT__TAPED("distance_m", "distance", false),
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
	static const struct rt_field columns[] = {
		RT__TEXT("side", "side", false),
		RT__TAPED("length_m", "length", false),
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
	static const struct rt_field columns[] = {
		RT__TEXT("use", "tape for", false),
		RT__TAPED("length_m", "at least", false),
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
	rt_report_note(
		r, "Tape running distances in one pull as far as the tape reaches, not from peg "
		   "to peg: so errors do not add up.");
	rt_report_note(r, "Equal diagonals alone do not prove a ring: a trapezium has them too. "
			  "Check the right angles as well.");
	if (unconfirmed)
		rt_report_note(r, "V, P, S and R of a driven ring of 40 x 80 m: rulebooks differ "
				  "or do not show them. Check the rulebook in force.");
	rt_format_taped(2, feet, two, sizeof two);
	rt_format_taped(1, feet, one, sizeof one);
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

/* ---- the plan of a crew ---- */

static void put_name(struct rt_table *t, const struct rt_setout_plan *plan, size_t point)
{
	rt_put_text(t, point == RT_NO_POINT ? NULL : plan->point[point].name);
}

static void put_proof(struct rt_table *t, const struct rt_setout_plan *plan, size_t step, bool feet)
{
	char words[512];

	rt_setout_proof_words(plan, step, feet, words, sizeof words);
	rt_put_text(t, words);
	rt_put_real(t, plan->step[step].proof_m);
}

static void put_step(struct rt_table *t, const struct rt_setout_plan *plan, size_t i, bool feet)
{
	const struct rt_setout_step *s = &plan->step[i];
	double x = NAN, y = NAN;
	char words[768];

	rt_put_int(t, (int64_t)i + 1);
	rt_put_text(t, s->stage);
	rt_setout_step_words(plan, i, feet, words, sizeof words);
	rt_put_text(t, words);
	rt_put_text(t, rt_setout_kind_words(s->kind));
	put_name(t, plan, s->point);
	put_name(t, plan, s->other);
	put_name(t, plan, s->from);
	rt_put_real(t, s->from_m);
	put_name(t, plan, s->second);
	rt_put_real(t, s->second_m);
	put_name(t, plan, s->line_from);
	put_name(t, plan, s->line_to);
	rt_put_text(t, s->kind == RT_SETOUT_CROSS ? rt_side_words(s->hand) : NULL);
	rt_put_real(t, s->crossing_deg);
	if (s->point != RT_NO_POINT && s->kind != RT_SETOUT_SIGHT && plan->framed)
		rt_setout_frame(plan, plan->point[s->point].x_m, plan->point[s->point].y_m, &x, &y);
	rt_put_real(t, x);
	rt_put_real(t, y);
	put_proof(t, plan, i, feet);
}

static void put_steps(struct rt_report *r, const struct rt_setout_plan *plan, bool feet)
{
	static const struct rt_field columns[] = {
		RT__COUNT("step", "step", false),
		RT__TEXT("stage", "stage", true),
		RT__TEXT("do", "do", false),
		RT__TEXT("kind", "kind", true),
		RT__TEXT("peg", "peg", true),
		RT__TEXT("other_peg", "other peg", true),
		RT__TEXT("hold", "hold zero at", true),
		RT__TAPED("distance_m", "read", true),
		RT__TEXT("second", "and at", true),
		RT__TAPED("second_m", "read", true),
		RT__TEXT("line_from", "line from", true),
		RT__TEXT("line_to", "line to", true),
		RT__TEXT("hand", "hand", true),
		{.name = "crossing_deg",
		 .head = "crossing",
		 .type = RT_REAL,
		 .unit = RT_DEGREE,
		 .wide = true},
		RT__METRES("frame_x_m", "x", 2, true),
		RT__METRES("frame_y_m", "y", 2, true),
		RT__TEXT("proof", "proof", false),
		RT__TAPED("proof_m", "distance", true),
	};
	struct rt_table *t = rt_report_table(r, "steps", "Steps", columns, COUNT(columns));

	for (size_t i = 0; i < plan->steps; i++)
		put_step(t, plan, i, feet);
}

static void put_holds(struct rt_report *r, const struct rt_setout_plan *plan)
{
	static const struct rt_field columns[] = {
		RT__TEXT("point", "stands", false),
		RT__METRES("frame_x_m", "x", 2, false),
		RT__METRES("frame_y_m", "y", 2, false),
		RT__METRES("off_m", "off its place", 3, false),
	};
	struct rt_table *t;

	if (!plan->options.holds)
		return;
	t = rt_report_table(r, "held", "What stands already", columns, COUNT(columns));
	for (size_t i = 0; i < plan->options.holds; i++) {
		rt_put_text(t, plan->options.hold[i].name);
		rt_put_real(t, plan->options.hold[i].x_m);
		rt_put_real(t, plan->options.hold[i].y_m);
		rt_put_real(t, rt_setout_hold_off(plan, i));
	}
}

static void put_plan(struct rt_report *r, const struct rt_setout_plan *plan)
{
	static const struct rt_field columns[] = {
		RT__TEXT("by", "by", false),
		RT__TAPED("tape_m", "tape", false),
		RT__COUNT("steps", "steps", false),
		RT__METRES("corner_se_m", "corners +-", 3, false),
		RT__METRES("peg_se_m", "worst peg +-", 3, false),
		RT__TEXT("worst_peg", "which", false),
	};
	struct rt_table *t = rt_report_table(r, "plan", "The plan, and how true it makes the ring",
					     columns, COUNT(columns));

	rt_put_text(t, plan->options.receiver	  ? "receiver"
		       : plan->options.tapes == 1 ? "one tape"
						  : "two tapes");
	rt_put_real(t, plan->options.tape_m);
	rt_put_int(t, (int64_t)plan->steps);
	rt_put_real(t, plan->corner_se_m);
	rt_put_real(t, plan->peg_se_m);
	rt_put_text(t, plan->worst_peg);
}

static void plan_notes(struct rt_report *r, const struct rt_setout_plan *plan)
{
	const struct rt_setout_options *o = &plan->options;

	rt_report_note(r, "+- is one standard error of taping with care (1 cm and 0.2 mm a metre, "
			  "1 cm of sight; a receiver 2 cm), the ring laid on its corners.");
	if (o->receiver)
		rt_report_note(r, "Coordinates to stake are in the frame of %s.",
			       o->holds ? "what is held"
					: "peg AK at 0, 0: x to the right, y along the left side");
	else if (plan->framed)
		rt_report_note(r, "The ring is laid on the pegs that are held, by turn and shift "
				  "only.");
}

enum rt_err rt_setout_plan_report(struct rt_report *r, const struct rt_setout_plan *plan, bool feet,
				  struct rt_error *err)
{
	put_holds(r, plan);
	put_steps(r, plan, feet);
	put_plan(r, plan);
	plan_notes(r, plan);
	return rt_report_result(r, err);
}

/* ---- room and things ---- */

enum rt_err rt_setout_room_report(struct rt_report *r, const struct rt_setout_plan *plan,
				  const struct rt_setout_room *room, bool feet,
				  struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("what", "what", false),
		RT__TAPED("by_m", "how much", false),
		RT__TEXT("source", "from", false),
	};
	static const struct rt_field things[] = {
		RT__COUNT("count", "how many", false),
		RT__TEXT("thing", "what", false),
		RT__TEXT("note", "note", false),
	};
	struct rt_table *t = rt_report_table(r, "room", "Room needed outside the boards", columns,
					     COUNT(columns));
	struct rt_setout_thing thing[RT_THINGS_MOST];
	size_t n = rt_setout_carry(thing, plan, room->opening_m, feet);

	for (size_t i = 0; i < room->needs; i++) {
		rt_put_text(t, room->need[i].what);
		rt_put_real(t, room->need[i].by_m);
		rt_put_text(t, room->need[i].source);
	}
	t = rt_report_table(r, "carry", "To carry to the field", things, COUNT(things));
	for (size_t i = 0; i < n; i++) {
		rt_put_int(t, thing[i].count);
		rt_put_text(t, thing[i].thing);
		rt_put_text(t, *thing[i].words ? thing[i].words : NULL);
	}
	return rt_report_result(r, err);
}

/* ---- the reading form ---- */

enum rt_err rt_setout_form_report(struct rt_report *r, const struct rt_setout_form *form,
				  bool alone, struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("from", "from", false),
		RT__TEXT("to", "to", false),
		RT__METRES("distance_m", "distance", 2, false),
		RT__TEXT("note", "note", false),
	};
	struct rt_table *t = rt_report_table(r, "form", "Reading form", columns, COUNT(columns));

	for (size_t i = 0; i < form->rows; i++) {
		rt_put_text(t, form->row[i].from);
		rt_put_text(t, form->row[i].to);
		rt_put_null(t);
		rt_put_text(t, form->row[i].note);
	}
	if (!alone)
		rt_report_note(
			r,
			"Filled in, without the rows that were not read, this is the file of "
			"readings. With all of it read with care every peg is known to %.0f mm or "
			"better (%s the least; one "
			"standard error); %zu readings stay unchecked.",
			ceil(form->se_m * 1000), form->worst_peg, form->unchecked);
	return rt_report_result(r, err);
}
