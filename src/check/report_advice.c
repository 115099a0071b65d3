/* Report tables of advice: next readings, moves in walking order, letters alone, diagonals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a)     (sizeof(a) / sizeof *(a))
#define READING_SIZE 80	   /* of a reading in words */
#define MOVE_SIZE    160   /* of a move in words */
#define TOLD_M	     0.005 /* less is not told: no peg is set so well */
#define GAIN_TOLD_M  0.001 /* less does not show in what is told */
#define SURE	     2.0   /* standard errors */

/* ---- next readings ---- */

static void put_next(struct rt_report *r, const char *name, const char *title,
		     const struct rt_next *next, size_t n)
{
	static const struct rt_field columns[] = {
		RT__COUNT("step", "no", false),
		RT__TEXT("kind", "reading", false),
		RT__TEXT("from", "from", false),
		RT__TEXT("to", "to", false),
		RT__TEXT("at", "of", false),
		RT__METRES("distance_m", "about", 2, false),
		RT__METRES("largest_se_m", "largest +-", 3, false),
		RT__NUMBER("gain_percent", "less by (%)", 1, false),
		RT__METRES("gain_m", "less by", 4, true),
	};
	struct rt_table *t = rt_report_table(r, name, title, columns, COUNT(columns));

	for (size_t i = 0; i < n; i++) {
		rt_put_int(t, (int64_t)i + 1);
		rt_put_text(t, rt_reading_kind_words(next[i].reading.kind));
		rt_put_text(t, next[i].reading.from);
		rt_put_text(t, next[i].reading.to);
		rt_put_text(t, next[i].reading.at);
		rt_put_real(t, next[i].reading.value);
		rt_put_real(t, next[i].largest_se_m);
		rt_put_real(t, 100 * next[i].gain_m / (next[i].largest_se_m + next[i].gain_m));
		rt_put_real(t, next[i].gain_m);
	}
}

static void note_best(struct rt_report *r, const struct rt_next_readings *next, bool feet)
{
	const struct rt_next *best = &next->single[0];
	char words[READING_SIZE], now[32], then[32];

	if (next->singles == 0) {
		rt_report_note(r, "Every reading that this tape allows is made already.");
		return;
	}
	rt_reading_words(&best->reading, words, sizeof words);
	rt_format_length(next->largest_se_m, 3, 3, feet, now, sizeof now);
	rt_format_length(best->largest_se_m, 3, 3, feet, then, sizeof then);
	if (best->gain_m < GAIN_TOLD_M)
		rt_report_note(r,
			       "No one reading makes the peg known worst (%s, +- %s) much better: "
			       "others are as poor. Take the readings in the order of the second "
			       "table.",
			       next->worst, now);
	else
		rt_report_note(r,
			       "Best next reading: %s. The largest standard error, now %s (%s), "
			       "becomes %s.",
			       words, now, next->worst, then);
}

enum rt_err rt_ring_next_report(struct rt_report *r, const struct rt_next_readings *next, bool feet,
				struct rt_error *err)
{
	put_next(r, "next", "Next reading: each by itself, the most helpful first", next->single,
		 next->singles);
	put_next(r, "course", "Next readings: one after another", next->course, next->courses);
	note_best(r, next, feet);
	return rt_report_result(r, err);
}

/* ---- moves ---- */

static void put_moves(struct rt_report *r, const struct rt_ring_walk *walk, bool feet)
{
	static const struct rt_field columns[] = {
		RT__COUNT("step", "step", false),
		RT__TEXT("peg", "peg", false),
		RT__METRES("by_m", "off", 2, false),
		RT__TEXT("where", "move it", false),
		RT__METRES("walk_m", "walk there", 0, false),
	};
	struct rt_table *t = rt_report_table(r, "moves", "Moves, in the order to walk from A",
					     columns, COUNT(columns));

	for (size_t i = 0; i < walk->steps; i++) {
		const struct rt_checked_peg *p = walk->step[i].peg;
		char move[MOVE_SIZE];

		rt_peg_move_words(p, feet, move, sizeof move);
		rt_put_int(t, (int64_t)i + 1);
		rt_put_text(t, p->peg.name);
		rt_put_real(t, p->off_m);
		rt_put_text(t, move);
		rt_put_real(t, walk->step[i].walk_m);
	}
}

static void put_walk(struct rt_report *r, const struct rt_ring_walk *walk)
{
	static const struct rt_field columns[] = {
		RT__TEXT("verdict", "verdict", false),
		RT__COUNT("moves", "moves", false),
		RT__METRES("move_m", "moved by in all", 2, false),
		RT__METRES("walk_m", "walked in all", 0, false),
		RT__TEXT("fit", "layout laid on", false),
	};
	static const char *const laid_on[] = {[RT_FIT_FEWEST] = "most pegs",
					      [RT_FIT_ALL] = "all pegs",
					      [RT_FIT_CORNERS] = "corners"};
	struct rt_table *t = rt_report_table(r, "walk", "The walk", columns, COUNT(columns));

	rt_put_text(t, rt_ring_verdict_words(walk->check.verdict));
	rt_put_int(t, (int64_t)walk->steps);
	rt_put_real(t, walk->move_m);
	rt_put_real(t, walk->walk_m);
	rt_put_text(t, laid_on[walk->check.fit]);
}

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
	put_walk(r, walk);
	put_moves(r, walk, feet);
	notes_of_walk(r, walk);
	if (walk->check.verdict != RT_RING_TRUE)
		r->needs_person = true;
	return rt_report_result(r, err);
}

/* ---- letters alone ---- */

enum rt_err rt_letters_only_report(struct rt_report *r, const struct rt_letters_only *letters,
				   struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("letter", "letter", false),
		RT__METRES("now_off_m", "off now", 3, false),
		RT__METRES("dx_m", "dx", 3, false),
		RT__METRES("dy_m", "dy", 3, false),
		RT__METRES("off_m", "off then", 3, false),
		RT__METRES("se_m", "+-", 3, false),
		RT__TEXT("verdict", "verdict", false),
	};
	struct rt_table *t = rt_report_table(r, "letters_only",
					     "If only the letters are set anew and the corners "
					     "stay",
					     columns, COUNT(columns));
	struct rt__told off = {0};

	for (size_t i = 0; i < letters->n; i++) {
		const struct rt_letter_only *l = &letters->at[i];

		rt_put_text(t, l->peg.name);
		rt_put_real(t, l->now_m);
		rt_put_real(t, l->dx_m);
		rt_put_real(t, l->dy_m);
		rt_put_real(t, l->off_m);
		rt_put_real(t, l->se_m);
		rt_put_text(t, rt_shape_verdict_words(l->verdict));
		if (l->verdict == RT_SHAPE_OFF)
			rt__told_add(&off, l->peg.name);
	}
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

static void put_diagonals(struct rt_report *r, const struct rt_diagonals *d)
{
	static const struct rt_field columns[] = {
		RT__TEXT("diagonal", "diagonal", false),
		RT__METRES("measured_m", "measured", 2, false),
		RT__METRES("should_m", "should be", 2, false),
		RT__METRES("off_m", "off", 2, false),
	};
	struct rt_table *t = rt_report_table(r, "diagonals", "Diagonals", columns, COUNT(columns));

	rt_put_text(t, "AK-CM");
	rt_put_real(t, d->ak_cm_m);
	rt_put_real(t, d->should_m);
	rt_put_real(t, d->ak_cm_m - d->should_m);
	rt_put_text(t, "FA-HC");
	rt_put_real(t, d->fa_hc_m);
	rt_put_real(t, d->should_m);
	rt_put_real(t, d->fa_hc_m - d->should_m);
}

/* The far peg of the shorter diagonal. */
static const char *slide_towards(const struct rt_diagonals *d)
{
	return d->slide_m > 0 ? "HC" : "CM";
}

static void put_slide(struct rt_report *r, const struct rt_diagonals *d)
{
	static const struct rt_field columns[] = {
		RT__TEXT("pegs", "slide", false),
		RT__METRES("by_m", "by", 3, false),
		RT__METRES("se_m", "+-", 3, false),
		RT__TEXT("towards", "towards", false),
		RT__METRES("then_m", "then both read", 2, false),
		RT__METRES("out_m", "too short", 3, true),
		RT__METRES("out_se_m", "+-", 3, true),
	};
	struct rt_table *t = rt_report_table(r, "slide", "Far pegs", columns, COUNT(columns));

	rt_put_text(t, "HC and CM");
	rt_put_real(t, fabs(d->slide_m));
	rt_put_real(t, d->se_m);
	rt_put_text(t, slide_towards(d));
	rt_put_real(t, d->expected_m);
	rt_put_real(t, d->out_m);
	rt_put_real(t, d->out_se_m);
}

static void note_slide(struct rt_report *r, const struct rt_diagonals *d, bool feet)
{
	char differ[32], by[32], se[32];

	rt_format_length(fabs(d->ak_cm_m - d->fa_hc_m), 2, 2, feet, differ, sizeof differ);
	rt_format_length(fabs(d->slide_m), 2, 2, feet, by, sizeof by);
	rt_format_length(d->se_m, 2, 2, feet, se, sizeof se);
	if (fabs(d->slide_m) < TOLD_M) {
		rt_report_note(r, "The diagonals are equal.");
		return;
	}
	rt_report_note(r,
		       "The diagonals differ by %s: slide both far pegs, HC and CM, %s along the C "
		       "side towards %s, the far peg of the shorter one.",
		       differ, by, slide_towards(d));
	if (fabs(d->slide_m) < SURE * d->se_m)
		rt_report_note(r,
			       "Two taped diagonals tell the slide to +- %s only: so small a "
			       "difference may be the taping. Tape both again first.",
			       se);
}

static void note_out(struct rt_report *r, const struct rt_diagonals *d, bool feet)
{
	char expected[32], should[32], by[32];

	if (fabs(d->out_m) < fmax(TOLD_M, SURE * d->out_se_m))
		return;
	rt_format_length(d->expected_m, 2, 2, feet, expected, sizeof expected);
	rt_format_length(d->should_m, 2, 2, feet, should, sizeof should);
	rt_format_length(fabs(d->out_m), 2, 2, feet, by, sizeof by);
	rt_report_note(r,
		       "Then both read %s, not %s: the sides are not all true. If the short sides "
		       "are, move both far pegs %s straight %s the A side.",
		       expected, should, by, d->out_m > 0 ? "away from" : "towards");
}

enum rt_err rt_diagonals_report(struct rt_report *r, const struct rt_diagonals *diagonals,
				bool feet, struct rt_error *err)
{
	put_diagonals(r, diagonals);
	put_slide(r, diagonals);
	note_slide(r, diagonals, feet);
	note_out(r, diagonals, feet);
	rt_report_note(r,
		       "Equal diagonals alone prove nothing: a trapezium has them too. This holds "
		       "for four sides of the right length: tape those as well.");
	if (fabs(diagonals->slide_m) >= TOLD_M)
		r->needs_person = true;
	return rt_report_result(r, err);
}
