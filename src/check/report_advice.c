/* Report tables of advice: next readings, moves in walking order, letters alone, diagonals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define MOVE_SIZE   160	  /* of a move in words */
#define TOLD_M	    0.005 /* less is not told: no peg is set so well */
#define GAIN_TOLD_M 0.001 /* less does not show in what is told */
#define SURE	    2.0	  /* standard errors */

/* ---- next readings ---- */

struct next_row {
	size_t step;
	const struct rt_next *of;
	double gain_percent;
};

#define NEXT(member) RT_IN(struct next_row, of, struct rt_next, member)
#define STEP(member) RT_AT(struct next_row, member)

static const struct rt_field next_fields[] = {
	{"step", .head = "no", STEP(step), .type = RT_SIZE},
	{"kind", .head = "reading", NEXT(reading.kind), RT_WORD_OF(reading_kind)},
	{"from", NEXT(reading.from)},
	{"to", NEXT(reading.to)},
	{"point", .head = "of", NEXT(reading.at)},
	{"distance_m", .head = "about", NEXT(reading.value), RT_METRES(2)},
	{"largest_se_m", .head = "largest +-", NEXT(largest_se_m), RT_METRES(3)},
	{"gain_percent", .head = "less by (%)", STEP(gain_percent), RT_NUMBERS(1)},
	{"gain_m", .head = "less by", NEXT(gain_m), RT_METRES(4), .wide = true},
};

const struct rt_record rt__next_table = RT_TABLE(
	"next", "Next reading: each by itself, the most helpful first", next_fields,
	struct next_row);
const struct rt_record rt__course_table = RT_TABLE("course", "Next readings: one after another",
						   next_fields, struct next_row);

static void put_next(struct rt_report *r, const struct rt_record *table, const struct rt_next *next,
		     size_t n)
{
	struct rt_table *t = rt_report_rows(r, table);

	for (size_t i = 0; i < n; i++) {
		double before = next[i].largest_se_m + next[i].gain_m;

		rt_put_row(t, &(struct next_row){i + 1, &next[i], 100 * next[i].gain_m / before});
	}
}

static void note_best(struct rt_report *r, const struct rt_next_readings *next, bool feet)
{
	const struct rt_next *best = &next->single[0];
	struct rt_shown_number now = rt_show_length(next->largest_se_m, 3, 3, feet);

	if (next->singles == 0)
		rt_report_note(r, "Every reading that this tape allows is made already.");
	else if (best->gain_m < GAIN_TOLD_M)
		rt_report_note(r,
			       "No one reading makes the peg known worst (%s, +- %s) much better: "
			       "others are as poor. Take the readings in the order of the second "
			       "table.",
			       next->worst, now.text);
	else
		rt_report_note(r,
			       "Best next reading: %s. The largest standard error, now %s (%s), "
			       "becomes %s.",
			       rt_reading_words(&best->reading).text, now.text, next->worst,
			       rt_show_length(best->largest_se_m, 3, 3, feet).text);
}

enum rt_err rt_ring_next_report(struct rt_report *r, const struct rt_next_readings *next, bool feet,
				struct rt_error *err)
{
	put_next(r, &rt__next_table, next->single, next->singles);
	put_next(r, &rt__course_table, next->course, next->courses);
	note_best(r, next, feet);
	return rt_report_result(r, err);
}

/* ---- moves ---- */

struct move_row {
	size_t step;
	const struct rt_checked_peg *of;
	const char *move;
	double walk_m;
};

#define MOVE(member)  RT_AT(struct move_row, member)
#define MOVED(member) RT_IN(struct move_row, of, struct rt_checked_peg, member)

static const struct rt_field move_fields[] = {
	{"step", MOVE(step), .type = RT_SIZE},
	{"peg", MOVED(peg.name)},
	{"by_m", .head = "off", MOVED(off_m), RT_METRES(2)},
	{"where", .head = "move it", MOVE(move)},
	{"walk_m", .head = "walk there", MOVE(walk_m), RT_METRES(0)},
};

const struct rt_record rt__move_table = RT_TABLE("moves", "Moves, in the order to walk from A",
						 move_fields, struct move_row);

static void put_moves(struct rt_report *r, const struct rt_ring_walk *walk, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &rt__move_table);

	for (size_t i = 0; i < walk->steps; i++) {
		const struct rt_checked_peg *p = walk->step[i].peg;
		char move[MOVE_SIZE];

		rt_peg_move_words(p, feet, move, sizeof move);
		rt_put_row(t, &(struct move_row){i + 1, p, move, walk->step[i].walk_m});
	}
}

static const char *const laid_on_words[] = {
	[RT_FIT_FEWEST] = "most pegs", [RT_FIT_ALL] = "all pegs", [RT_FIT_CORNERS] = "corners"};
static const struct rt_words laid_on = {"fit", laid_on_words,
					sizeof laid_on_words / sizeof *laid_on_words, NULL, 0};

#define WALK(member) RT_AT(struct rt_ring_walk, member)

static const struct rt_field walk_fields[] = {
	{"verdict", WALK(check.verdict), RT_WORD_OF(ring_verdict)},
	{"moves", WALK(steps), .type = RT_SIZE},
	{"move_m", .head = "moved by in all", WALK(move_m), RT_METRES(2)},
	{"walk_m", .head = "walked in all", WALK(walk_m), RT_METRES(0)},
	{"fit", .head = "layout laid on", WALK(check.fit), .type = RT_WORD, .words = &laid_on},
};

const struct rt_record rt__walk_table = RT_TABLE("walk", "The walk", walk_fields,
						 struct rt_ring_walk);

static void notes_of_walk(struct rt_report *r, const struct rt_ring_walk *walk)
{
	const struct rt_ring_check *check = &walk->check;
	struct rt__told unsure = {0};

	for (size_t i = 0; i < check->pegs; i++) {
		if (check->peg[i].verdict == RT_PEG_UNSURE)
			rt__told_add(&unsure, check->peg[i].peg.name);
	}
	if (check->verdict == RT_RING_DOUBT)
		rt_report_note(r, "Clear up the readings before any peg is moved: `ring check` "
				  "tells what is wrong with them.");
	else if (check->stretch != 0)
		rt_report_note(r, "All distances are out by one part: check the tape before any "
				  "peg is moved. `ring check` tells by how much.");
	else if (walk->steps > 1)
		rt_report_note(r, "Tape again after the last move: `ring check` proves the ring.");
	else if (walk->steps == 0 && !unsure.n)
		rt_report_note(r, "No peg has to move.");
	if (unsure.n)
		rt_report_note(r, "Unsure, so not moved: %s. Make the next readings first.",
			       unsure.text);
}

enum rt_err rt_ring_walk_report(struct rt_report *r, const struct rt_ring_walk *walk, bool feet,
				struct rt_error *err)
{
	rt_report_list(r, &rt__walk_table, walk, 1);
	put_moves(r, walk, feet);
	notes_of_walk(r, walk);
	if (walk->check.verdict != RT_RING_TRUE)
		r->needs_person = true;
	return rt_report_result(r, err);
}

/* ---- letters alone ---- */

#define LETTER(member) RT_AT(struct rt_letter_only, member)

static const struct rt_field letter_fields[] = {
	{"letter", LETTER(peg.name)},
	{"now_off_m", .head = "off now", LETTER(now_m), RT_METRES(3)},
	{"dx_m", .head = "dx", LETTER(dx_m), RT_METRES(3)},
	{"dy_m", .head = "dy", LETTER(dy_m), RT_METRES(3)},
	{"off_m", .head = "off then", LETTER(off_m), RT_METRES(3)},
	{"se_m", .head = "+-", LETTER(se_m), RT_METRES(3)},
	{"verdict", LETTER(verdict), RT_WORD_OF(shape_verdict)},
};

const struct rt_record rt__letter_table = RT_TABLE(
	"letters_only", "If only the letters are set anew and the corners stay", letter_fields,
	struct rt_letter_only);

enum rt_err rt_letters_only_report(struct rt_report *r, const struct rt_letters_only *letters,
				   struct rt_error *err)
{
	struct rt__told off = {0};

	rt_report_list(r, &rt__letter_table, letters->at, letters->n);
	for (size_t i = 0; i < letters->n; i++)
		if (letters->at[i].verdict == RT_SHAPE_OFF)
			rt__told_add(&off, letters->at[i].peg.name);
	if (off.n)
		rt_report_note(
			r,
			"Setting only the letters anew, by running distances along the sides "
			"as the corners stand, leaves %s off: move the corners first.",
			off.text);
	else if (letters->n)
		rt_report_note(r, "Setting only the letters anew, by running distances along the "
				  "sides as the corners stand, leaves none of them surely off.");
	return rt_report_result(r, err);
}

/* ---- diagonals ---- */

struct diagonal_row {
	const char *diagonal;
	double measured_m, should_m, off_m;
};

#define DIAGONAL(member) RT_AT(struct diagonal_row, member)

static const struct rt_field diagonal_fields[] = {
	{"diagonal", DIAGONAL(diagonal)},
	{"measured_m", .head = "measured", DIAGONAL(measured_m), RT_METRES(2)},
	{"should_m", .head = "should be", DIAGONAL(should_m), RT_METRES(2)},
	{"off_m", .head = "off", DIAGONAL(off_m), RT_METRES(2)},
};

const struct rt_record rt__diagonal_table = RT_TABLE("diagonals", "Diagonals", diagonal_fields,
						     struct diagonal_row);

struct slide_row {
	const struct rt_diagonals *of;
	const char *far_pegs, *towards;
	double by_m;
};

#define SLIDE(member) RT_AT(struct slide_row, member)
#define FOUND(member) RT_IN(struct slide_row, of, struct rt_diagonals, member)

static const struct rt_field slide_fields[] = {
	{"far_pegs", .head = "slide", SLIDE(far_pegs)},
	{"by_m", .head = "by", SLIDE(by_m), RT_METRES(3)},
	{"se_m", .head = "+-", FOUND(se_m), RT_METRES(3)},
	{"towards", SLIDE(towards)},
	{"then_m", .head = "then both read", FOUND(expected_m), RT_METRES(2)},
	{"out_m", .head = "too short", FOUND(out_m), RT_METRES(3), .wide = true},
	{"out_se_m", .head = "+-", FOUND(out_se_m), RT_METRES(3), .wide = true},
};

const struct rt_record rt__slide_table = RT_TABLE("slide", "Far pegs", slide_fields,
						  struct slide_row);

/* The far peg of the shorter diagonal. */
static const char *slide_towards(const struct rt_diagonals *d)
{
	return d->slide_m > 0 ? "HC" : "CM";
}

static void put_diagonals(struct rt_report *r, const struct rt_diagonals *d)
{
	const struct diagonal_row diagonals[] = {
		{"AK-CM", d->ak_cm_m, d->should_m, d->ak_cm_m - d->should_m},
		{"FA-HC", d->fa_hc_m, d->should_m, d->fa_hc_m - d->should_m}};
	const struct slide_row slide = {d, "HC and CM", slide_towards(d), fabs(d->slide_m)};

	rt_report_list(r, &rt__diagonal_table, diagonals, 2);
	rt_report_list(r, &rt__slide_table, &slide, 1);
}

static void note_slide(struct rt_report *r, const struct rt_diagonals *d, bool feet)
{
	if (fabs(d->slide_m) < TOLD_M) {
		rt_report_note(r, "The diagonals are equal.");
		return;
	}
	rt_report_note(r,
		       "The diagonals differ by %s: slide both far pegs, HC and CM, %s along the C "
		       "side towards %s, the far peg of the shorter one.",
		       rt_show_length(fabs(d->ak_cm_m - d->fa_hc_m), 2, 2, feet).text,
		       rt_show_length(fabs(d->slide_m), 2, 2, feet).text, slide_towards(d));
	if (fabs(d->slide_m) < SURE * d->se_m)
		rt_report_note(r,
			       "Two taped diagonals tell the slide to +- %s only: so small a "
			       "difference may be the taping. Tape both again first.",
			       rt_show_length(d->se_m, 2, 2, feet).text);
}

static void note_out(struct rt_report *r, const struct rt_diagonals *d, bool feet)
{
	if (fabs(d->out_m) < fmax(TOLD_M, SURE * d->out_se_m))
		return;
	rt_report_note(r,
		       "Then both read %s, not %s: the sides are not all true. If the short sides "
		       "are, move both far pegs %s straight %s the A side.",
		       rt_show_length(d->expected_m, 2, 2, feet).text,
		       rt_show_length(d->should_m, 2, 2, feet).text,
		       rt_show_length(fabs(d->out_m), 2, 2, feet).text,
		       d->out_m > 0 ? "away from" : "towards");
}

enum rt_err rt_diagonals_report(struct rt_report *r, const struct rt_diagonals *diagonals,
				bool feet, struct rt_error *err)
{
	put_diagonals(r, diagonals);
	note_slide(r, diagonals, feet);
	note_out(r, diagonals, feet);
	rt_report_note(r,
		       "Equal diagonals alone prove nothing: a trapezium has them too. This holds "
		       "for four sides of the right length: tape those as well.");
	if (fabs(diagonals->slide_m) >= TOLD_M)
		r->needs_person = true;
	return rt_report_result(r, err);
}
