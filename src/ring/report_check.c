/* Report tables of an adjustment and of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a)  (sizeof(a) / sizeof *(a))
#define MOVE_SIZE 160 /* of a move in words */

/* ---- names in a sentence ---- */

#define NAMES_TOLD 40
#define BEGIN_WITH 3

struct names {
	char text[640];
	size_t n, used;
};

/* Add "from-to" or, with to NULL, "from"; after NAMES_TOLD they are only counted. */
static void names_add(struct names *names, const char *from, const char *to)
{
	size_t room = sizeof names->text - names->used;
	int length;

	if (names->n++ >= NAMES_TOLD || room < 40)
		return;
	length = snprintf(names->text + names->used, room, "%s%.12s%s%.12s",
			  names->used ? ", " : "", from, to ? "-" : "", to ? to : "");
	if (length > 0)
		names->used += (size_t)length;
}

/* ---- readings ---- */

static void put_readings(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_column columns[] = {
		RT__TEXT("from", "from", false),
		RT__TEXT("to", "to", false),
		RT__METRES("distance_m", "reading", 3, false),
		RT__METRES("residual_m", "residual", 3, false),
		RT__NUMBER("w", "w", 1, false),
		RT__TEXT("verdict", "verdict", false),
		RT__METRES("sigma_m", "sigma", 3, true),
		RT__NUMBER("redundancy", "r", 3, true),
		RT__METRES("hidden_m", "could hide", 3, true),
		RT__YES_NO("suspect", "suspect", true),
		RT__TEXT("note", "note", true),
	};
	struct rt_table *t = rt_report_table(r, "readings", "Readings", columns, COUNT(columns));

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];

		rt_put_text(t, x->reading->from);
		rt_put_text(t, x->reading->to);
		rt_put_real(t, x->reading->value);
		rt_put_real(t, x->residual_m);
		rt_put_real(t, x->w);
		rt_put_text(t, rt_reading_verdict_words(x->verdict));
		rt_put_real(t, x->sigma_m);
		rt_put_real(t, x->redundancy);
		rt_put_real(t, x->hidden_m);
		rt_put_bool(t, x->suspect);
		rt_put_text(t, x->reading->note);
	}
}

static void note_blunders(struct rt_report *r, const struct rt_adjustment *a, bool feet)
{
	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];
		char read[32], says[32], off[32];

		if (x->verdict != RT_READING_BLUNDER)
			continue;
		rt_format_length(x->reading->value, 2, 2, feet, read, sizeof read);
		rt_format_length(x->reading->value + x->residual_m, 2, 2, feet, says, sizeof says);
		rt_format_length(fabs(x->residual_m), 2, 2, feet, off, sizeof off);
		rt_report_note(
			r,
			"Reading %s-%s was set aside: it says %s, the others %s, so it is %s "
			"too %s. Tape it again.",
			x->reading->from, x->reading->to, read, says, off,
			x->residual_m > 0 ? "short" : "long");
	}
}

/* The readings that stand out most, to begin with. */
static void note_several(struct rt_report *r, const struct rt_adjustment *a, const char *factor)
{
	struct names names = {0};
	double under = INFINITY;

	while (names.n < BEGIN_WITH) {
		const struct rt_adjusted_reading *worst = NULL;

		for (size_t i = 0; i < a->readings; i++) {
			const struct rt_adjusted_reading *x = &a->reading[i];

			if (x->verdict == RT_READING_GOOD && fabs(x->w) < under &&
			    (!worst || fabs(x->w) > fabs(worst->w)))
				worst = x;
		}
		if (!worst)
			break;
		under = fabs(worst->w);
		names_add(&names, worst->reading->from, worst->reading->to);
	}
	rt_report_note(r,
		       "The readings kept are about %s times worse than their sigma says: several "
		       "are wrong, and hide each other. Tape again, beginning with %s.",
		       factor, names.text);
}

static void note_end(struct rt_report *r, const struct rt_adjustment *a)
{
	struct names names = {0};
	char factor[32];

	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].suspect)
			names_add(&names, a->reading[i].reading->from, a->reading[i].reading->to);
	}
	rt_format_real(a->sigma0, 1, factor, sizeof factor);
	switch (a->end) {
	case RT_SEARCH_CLEAR:
		break;
	case RT_SEARCH_TIED:
		rt_report_note(r,
			       "Something here is wrong, and these readings cannot tell which: %s. "
			       "Measure one more.",
			       names.text);
		break;
	case RT_SEARCH_NEEDED:
		rt_report_note(r,
			       "Reading %s looks wrong, but without it a peg is not fixed. Tape it "
			       "again, or measure one more.",
			       names.text);
		break;
	case RT_SEARCH_WORSE:
		if (rt__in_doubt(a)) {
			note_several(r, a, factor);
			break;
		}
		rt_report_note(r,
			       "No single reading is to blame, but the readings are about %s times "
			       "worse than their sigma says. Tape with more care, or give a larger "
			       "sigma.",
			       factor);
		break;
	}
}

static void note_checks(struct rt_report *r, const struct rt_adjustment *a)
{
	struct names names = {0};

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];

		if (x->verdict == RT_READING_UNCHECKED && !x->suspect)
			names_add(&names, x->reading->from, x->reading->to);
	}
	if (a->test == RT_SIGMA_UNTESTED)
		rt_report_note(r, "No reading checks another: any of them could be wrong and it "
				  "would not show. Measure one more at least.");
	else if (names.n)
		rt_report_note(r,
			       "Unchecked: a mistake in %s would not show, as no other reading "
			       "checks it well.%s",
			       names.text, names.n > NAMES_TOLD ? " Others are marked above." : "");
	if (a->test == RT_SIGMA_CAUTIOUS)
		rt_report_note(r, "The readings agree better than their sigma says; sigma was "
				  "chosen with caution.");
}

/* Exit with "something needs a person" for readings that are wrong or contradict each other. */
static void notes_of_readings(struct rt_report *r, const struct rt_adjustment *a, bool feet)
{
	note_blunders(r, a, feet);
	note_end(r, a);
	note_checks(r, a);
	if (a->blunders || a->end != RT_SEARCH_CLEAR)
		r->needs_person = true;
}

static void put_counts(struct rt_table *t, const struct rt_adjustment *a)
{
	rt_put_int(t, (int64_t)a->readings);
	rt_put_int(t, (int64_t)a->points);
	rt_put_int(t, (int64_t)a->degrees_of_freedom);
	rt_put_real(t, a->sigma0);
}

#define SUMMARY_COLUMNS                                                                            \
	RT__COUNT("readings", "readings", false), RT__COUNT("pegs", "pegs", false),                \
		RT__COUNT("degrees_of_freedom", "redundant", false),                               \
		RT__NUMBER("sigma0", "sigma0", 2, false), RT__TEXT("verdict", "verdict", false),   \
		RT__TEXT("sigma_test", "test of sigma0", true),                                    \
		RT__COUNT("set_aside", "set aside", true)

/* ---- adjust ---- */

static void put_adjust_summary(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_column columns[] = {SUMMARY_COLUMNS};
	struct rt_table *t = rt_report_table(r, "summary", "Adjustment", columns, COUNT(columns));

	put_counts(t, a);
	if (a->end != RT_SEARCH_CLEAR)
		rt_put_text(t, "readings in doubt");
	else if (a->blunders)
		rt_put_textf(t, "%zu blunder%s", a->blunders, a->blunders == 1 ? "" : "s");
	else
		rt_put_text(t, a->test == RT_SIGMA_UNTESTED ? "unchecked" : "good");
	rt_put_text(t, rt_sigma_test_words(a->test));
	rt_put_int(t, (int64_t)a->blunders);
}

static void put_points(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_column columns[] = {
		RT__TEXT("point", "point", false),	RT__METRES("x_m", "x", 3, false),
		RT__METRES("y_m", "y", 3, false),	RT__METRES("se_x_m", "+- x", 3, false),
		RT__METRES("se_y_m", "+- y", 3, false), RT__YES_NO("fixed", "fixed", true),
	};
	struct rt_table *t = rt_report_table(r, "points", "Points", columns, COUNT(columns));

	for (size_t i = 0; i < a->points; i++) {
		const struct rt_adjusted_point *p = &a->point[i];

		rt_put_text(t, p->name);
		rt_put_real(t, p->x_m);
		rt_put_real(t, p->y_m);
		rt_put_real(t, p->se_x_m);
		rt_put_real(t, p->se_y_m);
		rt_put_bool(t, p->fixed);
	}
}

enum rt_err rt_adjustment_report(struct rt_report *r, const struct rt_adjustment *a, bool feet,
				 struct rt_error *err)
{
	put_adjust_summary(r, a);
	put_points(r, a);
	put_readings(r, a);
	notes_of_readings(r, a, feet);
	return rt_report_result(r, err);
}

/* ---- ring check ---- */

static void put_check_summary(struct rt_report *r, const struct rt_ring_check *check)
{
	static const struct rt_column columns[] = {
		SUMMARY_COLUMNS,
		RT__TEXT("kind", "kind", true),
		RT__METRES("tolerance_m", "tolerance", 2, true),
		RT__TEXT("fit", "fit", true),
	};
	const struct rt_adjustment *a = &check->adjustment;
	struct rt_table *t = rt_report_table(r, "summary", "Ring check", columns, COUNT(columns));

	put_counts(t, a);
	if (check->verdict == RT_RING_MOVE)
		rt_put_textf(t, "move %zu peg%s", check->to_move, check->to_move == 1 ? "" : "s");
	else
		rt_put_text(t, rt_ring_verdict_words(check->verdict));
	rt_put_text(t, rt_sigma_test_words(a->test));
	rt_put_int(t, (int64_t)a->blunders);
	rt_put_text(t, check->kind->name);
	rt_put_real(t, check->tolerance_m);
	rt_put_text(t, rt_fit_words(check->fit));
}

static void put_pegs(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	static const struct rt_column columns[] = {
		RT__TEXT("peg", "peg", false),
		RT__METRES("dx_m", "dx", 3, false),
		RT__METRES("dy_m", "dy", 3, false),
		RT__METRES("off_m", "off", 3, false),
		RT__METRES("se_m", "+-", 3, false),
		RT__TEXT("verdict", "verdict", false),
		RT__TEXT("move", "move", false),
		RT__METRES("along_off_m", "along", 3, true),
		RT__METRES("across_off_m", "across", 3, true),
		RT__YES_NO("in_fit", "in fit", true),
	};
	struct rt_table *t = rt_report_table(r, "pegs",
					     "Pegs: where each stands less where it "
					     "should",
					     columns, COUNT(columns));

	for (size_t i = 0; i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];
		char move[MOVE_SIZE];

		rt_peg_move_words(p, feet, move, sizeof move);
		rt_put_text(t, p->peg.name);
		rt_put_real(t, p->dx_m);
		rt_put_real(t, p->dy_m);
		rt_put_real(t, p->off_m);
		rt_put_real(t, p->se_m);
		rt_put_text(t, rt_peg_verdict_words(p->verdict));
		rt_put_text(t, *move ? move : NULL);
		rt_put_real(t, p->along_off_m);
		rt_put_real(t, p->across_off_m);
		rt_put_bool(t, p->in_fit);
	}
}

static void note_moves(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	for (size_t i = 0; i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];
		char off[32], move[MOVE_SIZE];

		rt_format_length(p->off_m, 2, 2, feet, off, sizeof off);
		rt_peg_move_words(p, feet, move, sizeof move);
		if (p->verdict == RT_PEG_MOVE)
			rt_report_note(r, "%s is %s off: move it %s.", p->peg.name, off, move);
		if (p->retape)
			rt_report_note(r,
				       "Most readings set aside touch %s: tape %s again before "
				       "moving it.",
				       p->peg.name, p->peg.name);
	}
}

/* The pegs that are unsure for nothing but their standard error. */
static void note_unsure(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	bool any = false;
	char tolerance[32];

	for (size_t i = 0; i < check->pegs; i++)
		any |= check->peg[i].verdict == RT_PEG_UNSURE && !check->peg[i].retape;
	rt_format_length(check->tolerance_m, 2, 2, feet, tolerance, sizeof tolerance);
	if (any && check->adjustment.end == RT_SEARCH_WORSE)
		rt_report_note(r,
			       "Unsure: readings as poor as these cannot tell whether the peg is "
			       "within the tolerance of %s. Measure these pegs once more.",
			       tolerance);
	else if (any)
		rt_report_note(
			r,
			"Unsure: the tolerance of %s lies within two standard errors of what "
			"was found. Measure these pegs once more.",
			tolerance);
}

static void note_stretch(struct rt_report *r, const struct rt_ring_check *check)
{
	char percent[32];

	rt_format_real(100 * fabs(check->stretch), 1, percent, sizeof percent);
	if (check->stretch > 0)
		rt_report_note(r,
			       "All distances are about %s %% long: a tape that is too short looks "
			       "just like this. Check the tape before any peg is moved.",
			       percent);
	else if (check->stretch < 0)
		rt_report_note(r,
			       "All distances are about %s %% short: a stretched tape looks just "
			       "like this. Check the tape before any peg is moved.",
			       percent);
}

static void notes_of_pegs(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	struct names missed = {0};

	if (check->verdict == RT_RING_DOUBT)
		rt_report_note(r, "Clear up the readings before any peg is moved.");
	note_stretch(r, check);
	if (!rt__in_doubt(&check->adjustment)) {
		note_moves(r, check, feet);
		note_unsure(r, check, feet);
	}
	for (size_t i = 0; i < check->unmeasured.n; i++)
		names_add(&missed, check->unmeasured.at[i].name, NULL);
	if (missed.n)
		rt_report_note(r, "Not measured, so not checked: %s.", missed.text);
	if (check->to_move || check->unsure || check->verdict != RT_RING_TRUE)
		r->needs_person = true;
}

enum rt_err rt_ring_check_report(struct rt_report *r, const struct rt_ring_check *check, bool feet,
				 struct rt_error *err)
{
	put_check_summary(r, check);
	put_pegs(r, check, feet);
	put_readings(r, &check->adjustment);
	notes_of_pegs(r, check, feet);
	notes_of_readings(r, &check->adjustment, feet);
	return rt_report_result(r, err);
}
