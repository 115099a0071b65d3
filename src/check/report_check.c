/* Report tables of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a)  (sizeof(a) / sizeof *(a))
#define MOVE_SIZE 160 /* of a move in words */

static void put_check_summary(struct rt_report *r, const struct rt_ring_check *check)
{
	static const struct rt_field columns[] = {
		RT__SUMMARY_COLUMNS,
		RT__TEXT("kind", "kind", true),
		RT__METRES("tolerance_m", "tolerance", 2, true),
		RT__TEXT("fit", "fit", true),
		RT__NUMBER("p_any_wrong", "p any wrong", 4, true),
		RT__NUMBER("tape_long_percent", "tape reads long (%)", 3, true),
		RT__NUMBER("tape_se_percent", "+-", 3, true),
		RT__YES_NO("tape_corrected", "taken out", true),
		RT__NUMBER("stretch_percent", "all long by (%)", 3, true),
	};
	const struct rt_adjustment *a = &check->adjustment;
	struct rt_table *t = rt_report_table(r, "summary", "Ring check", columns, COUNT(columns));
	char verdict[48];

	rt__put_counts(t, a);
	rt_ring_check_words(check, verdict, sizeof verdict);
	rt_put_text(t, verdict);
	rt_put_text(t, rt_sigma_test_words(a->test));
	rt_put_int(t, (int64_t)a->blunders);
	rt_put_text(t, check->kind->name);
	rt_put_real(t, check->tolerance_m);
	rt_put_text(t, rt_fit_words(check->fit));
	rt_put_real(t, check->p_any_wrong);
	rt_put_real(t, 100 * check->tape);
	rt_put_real(t, 100 * check->tape_se);
	rt_put_bool(t, check->tape_corrected);
	rt_put_real(t, 100 * check->stretch);
}

static void put_pegs(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	static const struct rt_field columns[] = {
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
		RT__PEG_CERTAINTY,
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
		rt__put_certainty(t, p);
	}
}

static void note_rests(struct rt_report *r, const struct rt_checked_peg *p, const char *off)
{
	char words[120];

	rt_reading_words(p->rests_on, words, sizeof words);
	rt_report_note(
		r,
		"%s seems %s off, but that rests on %s alone, which no other reading checks: "
		"measure %s from another peg before moving it.",
		p->peg.name, off, words, p->peg.name);
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
		if (p->rests_on && !rt__in_doubt(&check->adjustment))
			note_rests(r, p, off);
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
		any |= check->peg[i].verdict == RT_PEG_UNSURE && !check->peg[i].retape &&
		       !check->peg[i].rests_on;
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
	char percent[32], error[32];

	rt_format_real(100 * fabs(check->stretch), 2, percent, sizeof percent);
	rt_format_real(100 * check->stretch_se, 2, error, sizeof error);
	if (check->stretch > 0)
		rt_report_note(r,
			       "All distances are %s %% long (+- %s %%): a tape that is too short "
			       "looks just like this. Check the tape before any peg is moved.",
			       percent, error);
	else if (check->stretch < 0)
		rt_report_note(r,
			       "All distances are %s %% short (+- %s %%): a stretched tape looks "
			       "just like this. Check the tape before any peg is moved.",
			       percent, error);
}

static void notes_of_pegs(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	struct rt__told missed = {0};

	if (check->verdict == RT_RING_DOUBT)
		rt_report_note(r, "Clear up the readings before any peg is moved.");
	note_stretch(r, check);
	if (!rt__in_doubt(&check->adjustment)) {
		note_moves(r, check, feet);
		note_unsure(r, check, feet);
	}
	for (size_t i = 0; i < check->unmeasured.n; i++)
		rt__told_add(&missed, check->unmeasured.at[i].name);
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
	rt__put_readings(r, &check->adjustment);
	notes_of_pegs(r, check, feet);
	rt__notes_of_readings(r, &check->adjustment, feet);
	return rt__judgement_report(r, check, feet, err);
}
