/* Report tables of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define MOVE_SIZE 160 /* of a move in words */

static const char *write_verdict(const struct rt_field *f, const void *row, char *out, size_t size)
{
	(void)f;
	rt_ring_check_words(row, out, size);
	return out;
}

#define CHECK(member) RT_AT(struct rt_ring_check, member)

static const struct rt_field summary_fields[] = {
	RT__SUMMARY_FIELDS(offsetof(struct rt_ring_check, adjustment), write_verdict),
	{"kind", RT_IN(struct rt_ring_check, kind, struct rt_ring_kind, name), .wide = true},
	{"tolerance_m", .head = "tolerance", CHECK(tolerance_m), RT_METRES(2), .wide = true},
	{"fit", CHECK(fit), RT_WORD_OF(fit), .wide = true},
	{"p_any_wrong", CHECK(p_any_wrong), RT_NUMBERS(4), .wide = true,
	 .help = "the chance that any verdict of a peg is wrong, at most"},
	{"tape_long_percent", .head = "tape reads long (%)", CHECK(tape), RT_PARTS(3),
	 .wide = true},
	{"tape_se_percent", .head = "+-", CHECK(tape_se), RT_PARTS(3), .wide = true},
	{"tape_corrected", .head = "taken out", CHECK(tape_corrected), .type = RT_BOOL,
	 .wide = true},
	{"stretch_percent", .head = "all long by (%)", CHECK(stretch), RT_PARTS(3), .wide = true,
	 .help = "by how much all distances are long, where that explains the pegs"},
};

static const struct rt_record summary_table = RT_TABLE("summary", "Ring check", summary_fields,
						       struct rt_ring_check);

static const char *write_reading(const struct rt_field *f, const void *reading, char *out,
				 size_t size)
{
	const struct rt_reading *of = *(const struct rt_reading *const *)reading;

	(void)f;
	if (!of)
		return NULL;
	snprintf(out, size, "%s", rt_reading_words(of).text);
	return out;
}

struct peg_row {
	const struct rt_checked_peg *of;
	const char *move; /* NULL: none */
};

#define PEG(member) RT_IN(struct peg_row, of, struct rt_checked_peg, member)

static const struct rt_field peg_fields[] = {
	{"peg", PEG(peg.name)},
	{"dx_m", .head = "dx", PEG(dx_m), RT_METRES(3)},
	{"dy_m", .head = "dy", PEG(dy_m), RT_METRES(3)},
	{"off_m", .head = "off", PEG(off_m), RT_METRES(3)},
	{"se_m", .head = "+-", PEG(se_m), RT_METRES(3)},
	{"verdict", PEG(verdict), RT_WORD_OF(peg_verdict)},
	{"move", RT_AT(struct peg_row, move)},
	{"along_off_m", .head = "along", PEG(along_off_m), RT_METRES(3), .wide = true},
	{"across_off_m", .head = "across", PEG(across_off_m), RT_METRES(3), .wide = true},
	{"in_fit", PEG(in_fit), .type = RT_BOOL, .wide = true},
	{"p_off", PEG(p_off), RT_NUMBERS(4), .wide = true,
	 .help = "the chance that it stands off by more than the tolerance"},
	{"p_wrong", PEG(p_wrong), RT_NUMBERS(4), .wide = true,
	 .help = "the chance that its verdict is wrong"},
	{"hidden_shift_m", .head = "could be shifted", PEG(hidden_shift_m), RT_METRES(3),
	 .wide = true, .help = "how far a mistake that is just not found may have shifted it"},
	{"hidden_by", .head = "by", PEG(hidden_by), .type = RT_OWN, .write = write_reading,
	 .wide = true, .help = "the reading such a mistake would stand in"},
};

static const struct rt_record peg_table = RT_TABLE(
	"pegs", "Pegs: where each stands less where it should", peg_fields, struct peg_row);

const struct rt_record *const rt_check_tables[] = {&summary_table,     &peg_table,
						   &rt__shape_table,   &rt__reliability_table,
						   &rt__history_table, &rt__past_peg_table,
						   &rt__next_table,    &rt__course_table,
						   &rt__walk_table,    &rt__move_table,
						   &rt__letter_table,  &rt__diagonal_table,
						   &rt__slide_table,   NULL};

static void put_pegs(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &peg_table);

	for (size_t i = 0; i < check->pegs; i++) {
		char move[MOVE_SIZE];

		rt_peg_move_words(&check->peg[i], feet, move, sizeof move);
		rt_put_row(t, &(struct peg_row){&check->peg[i], *move ? move : NULL});
	}
}

static void note_moves(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	for (size_t i = 0; i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];
		struct rt_shown_number off = rt_show_length(p->off_m, 2, 2, feet);
		char move[MOVE_SIZE];

		rt_peg_move_words(p, feet, move, sizeof move);
		if (p->verdict == RT_PEG_MOVE)
			rt_report_note(r, "%s is %s off: move it %s.", p->peg.name, off.text, move);
		if (p->rests_on && !rt__in_doubt(&check->adjustment))
			rt_report_note(r,
				       "%s seems %s off, but that rests on %s alone, which no "
				       "other reading checks: measure %s from another peg before "
				       "moving it.",
				       p->peg.name, off.text, rt_reading_words(p->rests_on).text,
				       p->peg.name);
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
	struct rt_shown_number tolerance = rt_show_length(check->tolerance_m, 2, 2, feet);

	for (size_t i = 0; i < check->pegs; i++)
		any |= check->peg[i].verdict == RT_PEG_UNSURE && !check->peg[i].retape &&
		       !check->peg[i].rests_on;
	if (any && check->adjustment.end == RT_SEARCH_WORSE)
		rt_report_note(r,
			       "Unsure: readings as poor as these cannot tell whether the peg is "
			       "within the tolerance of %s. Measure these pegs once more.",
			       tolerance.text);
	else if (any)
		rt_report_note(
			r,
			"Unsure: the tolerance of %s lies within two standard errors of what "
			"was found. Measure these pegs once more.",
			tolerance.text);
}

static void note_stretch(struct rt_report *r, const struct rt_ring_check *check)
{
	struct rt_shown_number percent = rt_show_real(100 * fabs(check->stretch), 2);
	struct rt_shown_number error = rt_show_real(100 * check->stretch_se, 2);

	if (check->stretch > 0)
		rt_report_note(r,
			       "All distances are %s %% long (+- %s %%): a tape that is too short "
			       "looks just like this. Check the tape before any peg is moved.",
			       percent.text, error.text);
	else if (check->stretch < 0)
		rt_report_note(r,
			       "All distances are %s %% short (+- %s %%): a stretched tape looks "
			       "just like this. Check the tape before any peg is moved.",
			       percent.text, error.text);
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
	rt_report_list(r, &summary_table, check, 1);
	put_pegs(r, check, feet);
	rt__put_readings(r, &check->adjustment);
	notes_of_pegs(r, check, feet);
	rt__notes_of_readings(r, &check->adjustment, feet);
	return rt__judgement_report(r, check, feet, err);
}
