/* What a person should look at in a class, in plain sentences.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- what is wanting ---- */

static bool note_no_entry(struct rt_results *r)
{
	return r->n || rt__note(r, "Nobody is entered in this class yet.");
}

static bool note_missing_sheets(struct rt_results *r)
{
	struct rt__listing list = {.cases = 0};
	size_t judges = r->of->class_->judges.n, all = 0, of_others = 0;
	char head[100];

	for (size_t i = 0; i < r->n; i++) {
		const struct rt_result *result = &r->at[i];

		if (result->status != RT_ENTERED) {
			of_others += result->sheets;
			continue;
		}
		all += result->expected;
		for (size_t j = 0; j < judges; j++)
			if (!result->judge[j].in && !result->judge[j].away)
				rt__list_case(&list, "%" PRId64 " %s", result->entry->number,
					      rt__position(r, j));
	}
	if (!list.cases)
		return true;
	if (list.cases == all)
		return rt__note(r, "Provisional: no sheet%s is in yet.",
				of_others ? " of an entry that can be placed" : "");
	snprintf(head, sizeof head, "Provisional: %zu of %zu sheets %s not in", list.cases, all,
		 list.cases == 1 ? "is" : "are");
	return rt__note_cases(r, head, &list);
}

static void list_empty_boxes(const struct rt_results *r, const struct rt_result *result,
			     struct rt__listing *list)
{
	const struct rt_class_marks *m = r->of;
	size_t entry = rt__entry_index(r, result);

	for (size_t j = 0; j < m->class_->judges.n; j++) {
		for (size_t i = 0; result->judge[j].in && i < m->items->n; i++) {
			const struct rt_box *box = rt_class_marks_box(m, entry, j, i);
			int64_t mark;

			if (rt_class_marks_asked(m, j, i) &&
			    rt__settle(box->keyed_x100, &mark) == RT__EMPTY &&
			    !rt__is_filled(m, result, j, i))
				rt__list_case(list, "%" PRId64 " %s item %s", result->entry->number,
					      rt__position(r, j), m->items->at[i].name);
		}
	}
}

static bool note_empty_boxes(struct rt_results *r)
{
	struct rt__listing list = {.cases = 0};
	char head[100];

	for (size_t i = 0; i < r->n; i++)
		if (r->at[i].status == RT_ENTERED && r->at[i].empty)
			list_empty_boxes(r, &r->at[i], &list);
	if (!list.cases)
		return true;
	snprintf(head, sizeof head, "Provisional: %zu %s empty and %s for nothing", list.cases,
		 list.cases == 1 ? "box is" : "boxes are", list.cases == 1 ? "counts" : "count");
	return rt__note_cases(r, head, &list);
}

static bool note_single_keying(struct rt_results *r)
{
	struct rt__listing list = {.cases = 0};
	size_t marked = 0, wholly = 0;

	for (size_t i = 0; i < r->n; i++) {
		const struct rt_result *at = &r->at[i];

		if (at->status != RT_ENTERED)
			continue;
		marked += at->sheets > 0;
		wholly += at->sheets > 0 && at->single >= at->boxes;
		if (at->single >= at->boxes && at->single)
			rt__list_case(&list, "number %" PRId64, at->entry->number);
		else if (at->single)
			rt__list_case(&list, "number %" PRId64 " in %zu of its boxes",
				      at->entry->number, at->single);
	}
	if (!list.cases)
		return true;
	if (wholly >= marked)
		return rt__note(r, "Provisional: only one keying.");
	return rt__note_cases(r, "Provisional: only one keying", &list);
}

/* Sheets that the hand total of another person checks. */
static bool note_checked_by_total(struct rt_results *r)
{
	struct rt__listing list = {.cases = 0};

	for (size_t i = 0; i < r->n; i++) {
		size_t entry = rt__entry_index(r, &r->at[i]);

		if (r->at[i].status != RT_ENTERED)
			continue;
		for (size_t j = 0; j < r->of->class_->judges.n; j++)
			if (rt__boxes_keyed_once(r->of, entry, j) &&
			    rt__total_checks(r->of, entry, j))
				rt__list_case(&list, "%" PRId64 " %s", r->at[i].entry->number,
					      rt__position(r, j));
	}
	return !list.cases || rt__note_cases(r,
					     "Keyed once, with the hand total of another person "
					     "as the second check",
					     &list);
}

/* ---- keyings that differ ---- */

static void list_differing_lines(const struct rt_results *r, const struct rt_result *result,
				 size_t j, struct rt__listing *list)
{
	const struct rt_sheet_lines *lines = rt__lines(r->of, rt__entry_index(r, result), j);
	int64_t number = result->entry->number, value;
	char one[24], other[24];

	if (rt__settle(lines->errors, &value) == RT__DIFFERING)
		rt__list_case(list, "%" PRId64 " %s errors (%" PRId64 " and %" PRId64 ")", number,
			      rt__position(r, j), lines->errors[0], lines->errors[1]);
	if (rt__settle(lines->total_x100000, &value) == RT__DIFFERING) {
		rt__format_points(lines->total_x100000[0], one, sizeof one);
		rt__format_points(lines->total_x100000[1], other, sizeof other);
		rt__list_case(list, "%" PRId64 " %s total (%s and %s)", number, rt__position(r, j),
			      one, other);
	}
}

static void list_differing_boxes(const struct rt_results *r, const struct rt_result *result,
				 size_t j, struct rt__listing *list)
{
	size_t entry = rt__entry_index(r, result);
	char one[24], other[24];

	for (size_t i = 0; i < r->of->items->n; i++) {
		const struct rt_box *box = rt_class_marks_box(r->of, entry, j, i);
		int64_t mark;

		if (rt__settle(box->keyed_x100, &mark) != RT__DIFFERING)
			continue;
		rt_format_short(box->keyed_x100[0], 2, 1, one, sizeof one);
		rt_format_short(box->keyed_x100[1], 2, 1, other, sizeof other);
		rt__list_case(list, "%" PRId64 " %s item %s (%s and %s)", result->entry->number,
			      rt__position(r, j), r->of->items->at[i].name, one, other);
	}
}

static bool note_differing(struct rt_results *r)
{
	struct rt__listing list = {.cases = 0};
	char head[120];

	for (size_t i = 0; i < r->n; i++) {
		if (r->at[i].status != RT_ENTERED || !r->at[i].differing)
			continue;
		for (size_t j = 0; j < r->of->class_->judges.n; j++) {
			if (r->at[i].judge[j].away)
				continue;
			list_differing_boxes(r, &r->at[i], j, &list);
			list_differing_lines(r, &r->at[i], j, &list);
		}
	}
	if (!list.cases)
		return true;
	snprintf(head, sizeof head,
		 "Provisional: keyings differ in %zu %s for nothing until settled", list.cases,
		 list.cases == 1 ? "box, which counts" : "boxes, which count");
	return rt__note_cases(r, head, &list);
}

/* ---- one entry ---- */

/* Errors that other judges keyed while the president's line is empty. */
static bool note_errors_of_others(struct rt_results *r, const struct rt_result *result,
				  const struct rt__errors *errors)
{
	const struct rt_judges *judges = &r->of->class_->judges;
	size_t entry = rt__entry_index(r, result);
	struct rt__listing list = {.cases = 0};
	char rest[40];
	int64_t said;

	if (errors->most <= 0 || result->judge[rt__president(judges)].away ||
	    rt__settle(rt__lines(r->of, entry, rt__president(judges))->errors, &said) != RT__EMPTY)
		return true;
	for (size_t j = 0; j < judges->n; j++) {
		rt__settle(rt__lines(r->of, entry, j)->errors, &said);
		if (said > 0 && !result->judge[j].away)
			rt__list_case(&list, "%s", rt__position(r, j));
	}
	return rt__note(r,
			"Number %" PRId64
			": errors of course on the sheet%s of %s%s, none keyed on the "
			"president's: they count until it says otherwise.",
			result->entry->number, list.cases == 1 ? "" : "s", list.text,
			rt__more(&list, rest, sizeof rest));
}

static bool note_errors(struct rt_results *r, const struct rt_result *result)
{
	int64_t number = result->entry->number;
	struct rt__errors errors;
	bool ok;

	rt__errors_of(r->of, rt__entry_index(r, result), &errors);
	ok = note_errors_of_others(r, result, &errors);
	if (ok && errors.least != errors.most)
		ok = rt__note(r,
			      "Number %" PRId64 ": the sheets show from %" PRId64 " to %" PRId64
			      " errors of course; %s, %" PRId64 ", counts.",
			      number, errors.least, errors.most,
			      errors.president >= 0 ? "the president's" : "the largest",
			      errors.sheets);
	if (ok && errors.announced >= 0 && errors.sheets >= 0 && errors.announced != errors.sheets)
		ok = rt__note(r,
			      "Number %" PRId64 ": errors of course announced %" PRId64
			      ", on the sheets %" PRId64 "; the larger counts.",
			      number, errors.announced, errors.sheets);
	if (ok && result->status != result->entry->status)
		ok = rt__note(r, "Number %" PRId64 " is eliminated: %s.", number,
			      result->status_why);
	return ok;
}

static bool is_settled(const struct rt_results *r, size_t entry, size_t j)
{
	for (size_t i = 0; i < r->of->items->n; i++)
		if (rt_class_marks_asked(r->of, j, i) &&
		    rt_box_mark_x100(rt_class_marks_box(r->of, entry, j, i), NULL) < 0)
			return false;
	return true;
}

/* Sums written by hand, against the boxes of sheets on which every box is settled. */
static bool note_hand_totals(struct rt_results *r, const struct rt_result *result)
{
	size_t entry = rt__entry_index(r, result);
	char hand[24], boxes[24];

	for (size_t j = 0; j < r->of->class_->judges.n; j++) {
		int64_t raw = result->judge[j].raw_x100000, total;

		rt__settle(rt__lines(r->of, entry, j)->total_x100000, &total);
		if (total < 0 || total == raw || result->judge[j].away || !is_settled(r, entry, j))
			continue;
		rt__format_points(total, hand, sizeof hand);
		rt__format_points(raw, boxes, sizeof boxes);
		if (!rt__note(r,
			      "Number %" PRId64
			      ", %s: the hand total %s is not the sum of the boxes %s.",
			      result->entry->number, rt__position(r, j), hand, boxes))
			return false;
	}
	return true;
}

/* A score that no sheet can come to by its marks alone. */
static bool note_odd_score(struct rt_results *r, const struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;
	int64_t number = result->entry->number;
	bool penalties = rule->scale == RT_PENALTY_SCALE;
	int64_t most = rule->base * rt_power_of_ten(rule->score_decimals);
	char score[24];

	if (!result->scored)
		return true;
	if (result->percent < 0 || (!penalties && result->score < 0))
		return rt__note(r, "Number %" PRId64 ": more is taken off than was earned.",
				number);
	if (!penalties || (result->score >= 0 && result->score <= most))
		return true;
	rt_format_decimal(result->score, rule->score_decimals, score, sizeof score);
	return rt__note(r, "Number %" PRId64 ": a score of %s is %s.", number, score,
			result->score < 0
				? "below zero: see whether the printed multiplier is right"
				: "more than all marks of 0 would come to");
}

static bool note_two_units(struct rt_results *r, const struct rt_result *result)
{
	char percent[24], points[24];

	if (r->of->rule->taken != RT_TAKEN_PERCENT || !result->error_x100 || !result->points_x100)
		return true;
	rt_format_decimal(result->error_x100, 2, percent, sizeof percent);
	rt_format_decimal(result->points_x100, 2, points, sizeof points);
	return rt__note(
		r,
		"Number %" PRId64
		": %s %% are taken off for errors, and %s points of penalties off every total.",
		result->entry->number, percent, points);
}

static bool note_entry(struct rt_results *r, const struct rt_result *result)
{
	if (result->entry->status != RT_ENTERED)
		return true;
	return note_errors(r, result) && note_hand_totals(r, result) && note_odd_score(r, result) &&
	       note_two_units(r, result);
}

/* ---- ties ---- */

/* "number 5", "numbers 1, 3 and 8", of very many "numbers 1, 2, 3 and 4 more". */
static void name_numbers(const struct rt_result *at, size_t n, char *out, size_t size)
{
	struct rt__listing list = {.cases = 0};
	bool all = n <= RT__LISTED_MOST;
	char rest[40];

	for (size_t i = 0; i + all < n; i++)
		rt__list_case(&list, "%" PRId64, at[i].entry->number);
	if (!all)
		snprintf(out, size, "numbers %s%s", list.text, rt__more(&list, rest, sizeof rest));
	else
		snprintf(out, size, "number%s %s%s%" PRId64, n == 1 ? "" : "s", list.text,
			 n == 1 ? "" : " and ", at[n - 1].entry->number);
}

/* What parted an entry from its equals in the words of a sentence, in out. */
static const char *parting(const struct rt_results *r, const struct rt_result *result, char *out,
			   size_t size)
{
	static const char *const words[] = {
		[RT_TIE_GENERAL] = " by general impression",
		[RT_TIE_ARTISTIC] = " by the artistic marks",
		[RT_TIE_ITEM] = " by item ",
		[RT_TIE_MEDIAN] = " by the higher median of the judges",
		[RT_TIE_PRESIDENT] = " by the president's mark",
		[RT_TIE_JUDGE] = " by the mark of the judge at ",
		[RT_TIE_DECISION] = " by decision",
	};
	const struct rt_rule *rule = r->of->rule;

	snprintf(out, size, "%s%s", words[rule->tie[result->parted_at].by],
		 rule->tie[result->parted_at].name);
	return result->parted_by ? out : "";
}

/* Whether the rule leaves it to an official to part some who share a place. */
static bool may_decide(const struct rt_results *r, const struct rt_result *tied, size_t n)
{
	const struct rt_rule *rule = r->of->rule;

	for (size_t i = 1; i < n; i++)
		for (size_t step = 0; step < rule->tie_steps; step++)
			if (rule->tie[step].by == RT_TIE_DECISION &&
			    tied[i].place == tied[i - 1].place &&
			    (!rule->tie[step].places ||
			     tied[i].place <= (size_t)rule->tie[step].places))
				return true;
	return false;
}

/* One run of equal scores: who got which place, and by what; the last are placed by the others. */
static bool note_tie(struct rt_results *r, const struct rt_result *tied, size_t n)
{
	struct rt__listing list = {.cases = 0};
	char score[24], rest[40], numbers[700], by[80];
	size_t run;

	for (size_t i = 0; i < n; i += run) {
		for (run = 1; i + run < n && tied[i + run].place == tied[i].place; run++)
			;
		name_numbers(&tied[i], run, numbers, sizeof numbers);
		rt__list_case(&list, "%s%s %s place %zu%s", i ? "then " : "", numbers,
			      run > 1 ? "share" : "has", tied[i].place,
			      i + run < n ? parting(r, &tied[i], by, sizeof by) : "");
	}
	rt_format_decimal(tied->score, r->of->rule->score_decimals, score, sizeof score);
	return rt__note(r, "Equal scores of %s: %s%s.%s", score, list.text,
			rt__more(&list, rest, sizeof rest),
			may_decide(r, tied, n) ? " An official may part those who share a place: "
						 "`tie decide`."
					       : "");
}

static bool note_ties(struct rt_results *r)
{
	size_t run;

	for (size_t i = 0; i < r->n; i += run) {
		run = 1;
		if (!r->at[i].place)
			continue;
		while (i + run < r->n && r->at[i + run].place &&
		       r->at[i + run].score == r->at[i].score &&
		       rt_same_division(&r->at[i], &r->at[i + run]))
			run++;
		if (run > 1 && !note_tie(r, &r->at[i], run))
			return false;
	}
	return true;
}

enum rt_err rt__notes(struct rt_results *r, struct rt_error *err)
{
	bool ok = note_no_entry(r) && note_missing_sheets(r) && note_empty_boxes(r) &&
		  note_single_keying(r) && note_checked_by_total(r) && note_differing(r);

	for (size_t i = 0; ok && i < r->n; i++)
		ok = note_entry(r, &r->at[i]);
	return ok && rt__notes_of_judges(r) && note_ties(r) ? RT_OK : rt_fail_nomem(err);
}
