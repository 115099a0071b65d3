/* Report tables of set-outs: pegs, distances, the plan of a crew, room and things, the reading
 * form. SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "internal.h"

/* ---- set-out ---- */

struct peg_row {
	const struct rt_peg *peg;
	const char *note;
};

#define PEG(member) RT_IN(struct peg_row, peg, struct rt_peg, member)

static const struct rt_field peg_fields[] = {
	{"peg", PEG(name)},
	{"x_m", .head = "x", PEG(x_m), RT_TAPES(2)},
	{"y_m", .head = "y", PEG(y_m), RT_TAPES(2)},
	{"side", PEG(side), RT_WORD_OF(side)},
	{"along_m", .head = "along", PEG(along_m), RT_TAPES(2)},
	{"note", RT_AT(struct peg_row, note)},
};

static const struct rt_record peg_table = RT_TABLE("pegs", "Pegs, clockwise from A", peg_fields,
						   struct peg_row);

static void put_pegs(struct rt_report *r, const struct rt_ring_setout *setout)
{
	struct rt_table *t = rt_report_rows(r, &peg_table);

	for (size_t i = 0; i < setout->pegs.n; i++) {
		const struct rt_peg *p = &setout->pegs.at[i];
		const char *note = p->corner ? "corner" : NULL;

		if (rt_peg_unconfirmed(setout->kind, p))
			note = "check the rulebook in force";
		rt_put_row(t, &(struct peg_row){p, note});
	}
}

/* "AK", "15 m from AK towards FA". */
static const char *mark_words(const struct rt_setout_mark *mark, bool feet, char *out, size_t size)
{
	if (!mark->towards)
		return mark->peg;
	snprintf(out, size, "%s from %s towards %s",
		 feet ? rt_show_taped(mark->past_m, true).text
		      : rt_show_length(mark->past_m, 0, 1, false).text,
		 mark->peg, mark->towards);
	return out;
}

struct check_row {
	const char *from, *to, *what;
	double distance_m;
};

static const struct rt_field check_fields[] = {
	{"from", RT_AT(struct check_row, from)},
	{"to", RT_AT(struct check_row, to)},
	{"distance_m", .head = "distance", RT_AT(struct check_row, distance_m), RT_TAPES(2)},
	{"what", RT_AT(struct check_row, what)},
};

static const struct rt_record check_table = RT_TABLE("checks", "Distances to tape", check_fields,
						     struct check_row);

static void put_checks(struct rt_report *r, const struct rt_ring_setout *setout, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &check_table);

	for (size_t i = 0; i < setout->checks; i++) {
		const struct rt_setout_check *c = &setout->check[i];
		char from[96], to[96];

		rt_put_row(t, &(struct check_row){mark_words(&c->from, feet, from, sizeof from),
						  mark_words(&c->to, feet, to, sizeof to), c->what,
						  c->distance_m});
	}
}

/* Boards of a side, and what a tape of that length is for. */
struct length_row {
	const char *what;
	double length_m;
	int64_t boards;
};

#define LENGTH(member) RT_AT(struct length_row, member)

static const struct rt_field board_fields[] = {
	{"side", LENGTH(what)},
	{"length_m", .head = "length", LENGTH(length_m), RT_TAPES(2)},
	{"boards", .head = "4 m boards", LENGTH(boards), .type = RT_INT},
};

static const struct rt_field tape_fields[] = {
	{"use", .head = "tape for", LENGTH(what)},
	{"length_m", .head = "at least", LENGTH(length_m), RT_TAPES(2)},
};

static const struct rt_record board_table = RT_TABLE("boards", "Boards", board_fields,
						     struct length_row);
static const struct rt_record tape_table = RT_TABLE("tape", "Tape needed", tape_fields,
						    struct length_row);

static void put_lengths(struct rt_report *r, const struct rt_ring_setout *setout)
{
	const struct rt_ring_kind *kind = setout->kind;
	const struct length_row all = {"all", 2 * (kind->width_m + kind->length_m), setout->boards};
	const struct length_row tape[] = {
		{"the diagonals", setout->tape_m, 0},
		{"the long sides in one pull", kind->length_m, 0},
		{"the right angles", setout->check[setout->checks - 1].distance_m, 0}};
	struct rt_table *t = rt_report_rows(r, &board_table);

	for (size_t i = 0; i < 4; i++) {
		const struct rt_setout_side *side = &setout->side[i];

		rt_put_row(t, &(struct length_row){rt_side_words(side->side), side->length_m,
						   side->boards});
	}
	rt_put_row(t, &all);
	rt_report_list(r, &tape_table, tape, 3);
}

static void put_notes(struct rt_report *r, const struct rt_ring_setout *setout, bool feet)
{
	bool unconfirmed = false;

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
	if (setout->kind->discipline == RT_DRIVEN)
		rt_report_note(r, "Leave the opening at A out of the boards: wide enough for the "
				  "widest turnout. Check the rulebook in force.");
	else
		rt_report_note(r,
			       "Leave the opening at A out of the boards: %s at least (%s in some "
			       "rulebooks). Check the rulebook in force.",
			       rt_show_taped(2, feet).text, rt_show_taped(1, feet).text);
}

enum rt_err rt_ring_setout_report(struct rt_report *r, const struct rt_ring_setout *setout,
				  bool feet, struct rt_error *err)
{
	put_pegs(r, setout);
	put_checks(r, setout, feet);
	put_lengths(r, setout);
	put_notes(r, setout, feet);
	return rt_report_result(r, err);
}

/* ---- the plan of a crew ---- */

/* The points of a step. */
enum { PUT, OTHER, HELD, SECOND, LINE_FROM, LINE_TO, POINTS };

struct step_row {
	const struct rt_setout_step *step;
	size_t number;
	const char *words, *name[POINTS], *hand, *proof;
	double x_m, y_m;
};

#define STEP(member)  RT_IN(struct step_row, step, struct rt_setout_step, member)
#define WORDS(member) RT_AT(struct step_row, member)

static const struct rt_field step_fields[] = {
	{"step", WORDS(number), .type = RT_SIZE},
	{"stage", STEP(stage), .wide = true},
	{"do", WORDS(words)},
	{"kind", STEP(kind), RT_WORD_OF(setout_kind), .wide = true},
	{"peg", WORDS(name[PUT]), .wide = true},
	{"other_peg", WORDS(name[OTHER]), .wide = true},
	{"hold", .head = "hold zero at", WORDS(name[HELD]), .wide = true},
	{"distance_m", .head = "read", STEP(from_m), RT_TAPES(2), .wide = true},
	{"second", .head = "and at", WORDS(name[SECOND]), .wide = true},
	{"second_m", .head = "read", STEP(second_m), RT_TAPES(2), .wide = true},
	{"line_from", WORDS(name[LINE_FROM]), .wide = true},
	{"line_to", WORDS(name[LINE_TO]), .wide = true},
	{"hand", WORDS(hand), .wide = true},
	{"crossing_deg", .head = "crossing", STEP(crossing_deg), RT_DEGREES(0), .wide = true},
	{"frame_x_m", .head = "x", WORDS(x_m), RT_METRES(2), .wide = true},
	{"frame_y_m", .head = "y", WORDS(y_m), RT_METRES(2), .wide = true},
	{"proof", WORDS(proof)},
	{"proof_m", .head = "distance", STEP(proof_m), RT_TAPES(2), .wide = true},
};

static const struct rt_record step_table = RT_TABLE("steps", "Steps", step_fields, struct step_row);

static void put_step(struct rt_table *t, const struct rt_setout_plan *plan, size_t i, bool feet)
{
	const struct rt_setout_step *s = &plan->step[i];
	const size_t point[POINTS] = {s->point,	 s->other,     s->from,
				      s->second, s->line_from, s->line_to};
	char words[768], proof[512];
	struct step_row row = {s, i + 1, words, {NULL}, NULL, proof, NAN, NAN};

	for (size_t k = 0; k < POINTS; k++)
		row.name[k] = point[k] == RT_NO_POINT ? NULL : plan->point[point[k]].name;
	if (s->kind == RT_SETOUT_CROSS)
		row.hand = rt_side_words(s->hand);
	rt_setout_step_words(plan, i, feet, words, sizeof words);
	rt_setout_proof_words(plan, i, feet, proof, sizeof proof);
	if (s->point != RT_NO_POINT && s->kind != RT_SETOUT_SIGHT && plan->framed)
		rt_setout_frame(plan, plan->point[s->point].x_m, plan->point[s->point].y_m,
				&row.x_m, &row.y_m);
	rt_put_row(t, &row);
}

struct held_row {
	const struct rt_setout_hold *hold;
	double off_m;
};

#define HOLD(member) RT_IN(struct held_row, hold, struct rt_setout_hold, member)

static const struct rt_field held_fields[] = {
	{"point", .head = "stands", HOLD(name)},
	{"frame_x_m", .head = "x", HOLD(x_m), RT_METRES(2)},
	{"frame_y_m", .head = "y", HOLD(y_m), RT_METRES(2)},
	{"off_m", .head = "off its place", RT_AT(struct held_row, off_m), RT_METRES(3)},
};

static const struct rt_record held_table = RT_TABLE("held", "What stands already", held_fields,
						    struct held_row);

static void put_held(struct rt_report *r, const struct rt_setout_plan *plan)
{
	struct rt_table *t = plan->options.holds ? rt_report_rows(r, &held_table) : NULL;

	for (size_t i = 0; i < plan->options.holds; i++)
		rt_put_row(t,
			   &(struct held_row){&plan->options.hold[i], rt_setout_hold_off(plan, i)});
}

static const char *write_tools(const struct rt_field *f, const void *options, char *out,
			       size_t size)
{
	const struct rt_setout_options *o = options;

	(void)f, (void)out, (void)size;
	return o->receiver ? "receiver" : o->tapes == 1 ? "one tape" : "two tapes";
}

#define PLAN(member) RT_AT(struct rt_setout_plan, member)

static const struct rt_field plan_fields[] = {
	{"tools", .head = "by", PLAN(options), .type = RT_OWN, .write = write_tools},
	{"tape_m", .head = "tape", PLAN(options.tape_m), RT_TAPES(2)},
	{"steps", PLAN(steps), .type = RT_SIZE},
	{"corner_se_m", .head = "corners +-", PLAN(corner_se_m), RT_METRES(3)},
	{"peg_se_m", .head = "worst peg +-", PLAN(peg_se_m), RT_METRES(3)},
	{"worst_peg", .head = "which", PLAN(worst_peg)},
};

static const struct rt_record plan_table = RT_TABLE(
	"plan", "The plan, and how true it makes the ring", plan_fields, struct rt_setout_plan);

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
	struct rt_table *t;

	put_held(r, plan);
	t = rt_report_rows(r, &step_table);
	for (size_t i = 0; i < plan->steps; i++)
		put_step(t, plan, i, feet);
	rt_report_list(r, &plan_table, plan, 1);
	plan_notes(r, plan);
	return rt_report_result(r, err);
}

/* ---- room and things ---- */

static const struct rt_field room_fields[] = {
	{"what", RT_AT(struct rt_setout_need, what)},
	{"by_m", .head = "how much", RT_AT(struct rt_setout_need, by_m), RT_TAPES(2)},
	{"source", .head = "from", RT_AT(struct rt_setout_need, source)},
};

static const char *write_words(const struct rt_field *f, const void *words, char *out, size_t size)
{
	(void)f, (void)out, (void)size;
	return *(const char *)words ? words : NULL;
}

static const struct rt_field carry_fields[] = {
	{"things", .head = "how many", RT_AT(struct rt_setout_thing, count), .type = RT_INT},
	{"thing", .head = "what", RT_AT(struct rt_setout_thing, thing)},
	{"note", RT_AT(struct rt_setout_thing, words), .type = RT_OWN, .write = write_words},
};

static const struct rt_record room_table = RT_TABLE("room", "Room needed outside the boards",
						    room_fields, struct rt_setout_need);
static const struct rt_record carry_table = RT_TABLE("carry", "To carry to the field", carry_fields,
						     struct rt_setout_thing);

enum rt_err rt_setout_room_report(struct rt_report *r, const struct rt_setout_plan *plan,
				  const struct rt_setout_room *room, bool feet,
				  struct rt_error *err)
{
	struct rt_setout_thing thing[RT_THINGS_MOST];
	size_t n = rt_setout_carry(thing, plan, room->opening_m, feet);

	rt_report_list(r, &room_table, room->need, room->needs);
	rt_report_list(r, &carry_table, thing, n);
	return rt_report_result(r, err);
}

/* ---- the reading form ---- */

struct form_row {
	const struct rt_form_row *of;
	double read_m; /* NAN: to be filled in */
};

#define FORM(member) RT_IN(struct form_row, of, struct rt_form_row, member)

static const struct rt_field form_fields[] = {
	{"from", FORM(from)},
	{"to", FORM(to)},
	{"distance_m", .head = "distance", RT_AT(struct form_row, read_m), RT_METRES(2)},
	{"note", FORM(note)},
};

static const struct rt_record form_table = RT_TABLE("form", "Reading form", form_fields,
						    struct form_row);

const struct rt_record *const rt_setout_tables[] = {
	&peg_table,  &check_table, &board_table, &tape_table, &held_table, &step_table,
	&plan_table, &room_table,  &carry_table, &form_table, NULL};

enum rt_err rt_setout_form_report(struct rt_report *r, const struct rt_setout_form *form,
				  bool alone, struct rt_error *err)
{
	struct rt_table *t = rt_report_rows(r, &form_table);

	for (size_t i = 0; i < form->rows; i++)
		rt_put_row(t, &(struct form_row){&form->row[i], NAN});
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
