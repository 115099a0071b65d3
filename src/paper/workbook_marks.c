/* A class's sheet of marks: entries by judges by items, with live formulas.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <string.h>

#include "workbook_internal.h"

#define MARK_CELLS 4   /* the width of a box for a mark */
#define UNSETTLED  "?" /* in the box of a mark whose keyings differ */

/* ---- heads ---- */

static void write_title(struct rt__marks *m)
{
	const struct rt_class *class_ = m->of->class_;
	struct rt__book *book = m->sheet.book;
	char judges[512];

	rt__put_loose(&m->sheet, 0, 0, rt__say(book, "%s: %s", class_->name, class_->title),
		      RT__LOOK_TITLE);
	rt_judges_words(&class_->judges, judges, sizeof judges);
	rt__put_loose(&m->sheet, 1, 0,
		      rt__say(book, "Test %s, %s. Judges %s, president %s. Rule %s. %s.",
			      m->of->test->name, m->of->test->title, judges,
			      class_->judges.at[m->president].position, m->of->rule->name,
			      m->results->complete ? "Added up"
						   : "Provisional: not all is keyed and agreed"),
		      RT__LOOK_PLAIN);
}

/* Over words, over numbers, and over boxes. */
static void head(struct rt__marks *m, lxw_col_t col, const char *s)
{
	rt__put_head(&m->sheet, m->heads, col, s, RT__LOOK_HEAD);
}

static void head_over(struct rt__marks *m, lxw_col_t col, const char *s)
{
	rt__put_head(&m->sheet, m->heads, col, s, RT__LOOK_HEAD_OVER);
}

static void head_box(struct rt__marks *m, lxw_col_t col, const char *s)
{
	rt__put_head(&m->sheet, m->heads, col, s, RT__LOOK_HEAD_BOX);
}

/* Heads of items are turned when a name is wider than a box. */
static void write_item_heads(struct rt__marks *m)
{
	const struct rt_items *items = m->of->items;
	bool turned = false;

	for (size_t i = 0; i < m->items; i++)
		turned |= rt_width(items->at[i].name) > MARK_CELLS;
	for (size_t i = 0; i < m->items; i++) {
		lxw_col_t col = (lxw_col_t)(m->item + i);

		rt__sheet_widen(&m->sheet, col, MARK_CELLS);
		if (turned)
			rt__put_turned(&m->sheet, m->heads, col, items->at[i].name);
		else
			head_box(m, col, items->at[i].name);
	}
}

static const char *taken_head(const struct rt_rule *rule)
{
	switch (rule->taken) {
	case RT_TAKEN_POINTS:
		return "Points for errors";
	case RT_TAKEN_PERCENT:
		return "Percent for errors";
	case RT_TAKEN_SCORE:
		break;
	}
	return "Penalties for errors";
}

static const char *tie_head(struct rt__marks *m, size_t step)
{
	const struct rt_judges *judges = &m->of->class_->judges;

	switch (m->of->rule->tie[m->tie[step]].by) {
	case RT_TIE_GENERAL:
		return "Tie: general impression";
	case RT_TIE_ARTISTIC:
		return "Tie: artistic marks";
	case RT_TIE_ITEM:
		return rt__say(m->sheet.book, "Tie: item %s", m->of->rule->tie[m->tie[step]].name);
	case RT_TIE_MEDIAN:
		return "Tie: median of judges";
	case RT_TIE_DECISION:
		return "Tie: decided, the highest first";
	case RT_TIE_PRESIDENT:
	case RT_TIE_JUDGE:
		break;
	}
	return rt__say(m->sheet.book, "Tie: percent at %s",
		       judges->at[rt__marks_tie_judge(m, step)].position);
}

static void write_working_heads(struct rt__marks *m)
{
	head_over(m, m->ranked, "Score to place");
	for (size_t i = 0; i < m->tie_steps; i++) {
		head_over(m, m->stage[i], i == 0 ? "Place by score" : "Place so far");
		head_over(m, m->worth[i], tie_head(m, i));
	}
}

static void write_heads(struct rt__marks *m)
{
	static const char *const group_heads[RT_ITEM_GROUP_COUNT] = {
		[RT_GROUP_GENERAL] = "General impression", [RT_GROUP_ARTISTIC] = "Artistic marks"};
	const struct rt_rule *rule = m->of->rule;

	write_item_heads(m);
	head_over(m, m->number, "No.");
	head(m, m->driver, "Driver");
	head(m, m->judge, "Judge");
	if (m->sum != m->points)
		head_over(m, m->sum, "Sum");
	head_over(m, m->points, "Points");
	head_over(m, m->judge_percent, "Percent at judge");
	if (m->apart != RT__NO_COLUMN) {
		head_over(m, m->apart, "Too far below (-1) or above (1)");
		head_over(m, m->counted, "Percent that counts");
	}
	for (size_t g = 0; g < RT_ITEM_GROUP_COUNT; g++)
		if (m->group[g] != RT__NO_COLUMN)
			head_over(m, m->group[g], group_heads[g]);
	head_box(m, m->errors, "Errors of course");
	head_over(m, m->error_cost, taken_head(rule));
	head_box(m, m->penalties,
		 rule->taken == RT_TAKEN_SCORE ? "Other penalties" : "Other points off");
	if (m->together != m->error_cost)
		head_over(m, m->together, "Both");
	head_over(m, m->percent, "Percent");
	head_over(m, m->score, rule->scale == RT_PENALTY_SCALE ? "Score in penalties" : "Score");
	head_over(m, m->place, "Place");
	head(m, m->outcome, "Outcome");
	head(m, m->division, "Division");
	head(m, m->hors_concours, "Hors concours");
	head(m, m->status, "Status");
	write_working_heads(m);
}

static void write_coefficients(struct rt__marks *m)
{
	rt__put_loose(&m->sheet, m->coefficients, m->driver, "Coefficient", RT__LOOK_PLAIN);
	for (size_t i = 0; i < m->items; i++) {
		int64_t units = m->of->items->at[i].coefficient_x1000;
		int decimals = units % 1000 == 0 ? 0 : units % 100 == 0 ? 1 : 3;

		rt__put_number(&m->sheet, m->coefficients, (lxw_col_t)(m->item + i),
			       (double)units / 1000, decimals, RT__LOOK_BOX);
	}
}

/* ---- a judge's row ---- */

/* The mean that fills boxes of a sheet. */
static double filling_mark(const struct rt__marks *m, size_t entry, size_t judge)
{
	int64_t sum_x100, marks;

	rt__filling_mean(m->of, entry, judge, &sum_x100, &marks);
	return (double)sum_x100 / (double)(100 * marks);
}

/* A judge who was away has no marks on the sheet, whatever was keyed. */
static void write_boxes(struct rt__marks *m, lxw_row_t row, size_t entry, size_t judge)
{
	bool away = m->result[entry]->judge[judge].away;

	for (size_t i = 0; i < m->items; i++) {
		lxw_col_t col = (lxw_col_t)(m->item + i);
		bool differ;
		int mark = rt_box_mark_x100(rt_class_marks_box(m->of, entry, judge, i), &differ);

		if (!rt_class_marks_asked(m->of, judge, i))
			continue;
		if (away)
			rt__put_loose(&m->sheet, row, col, NULL, RT__LOOK_BOX);
		else if (mark >= 0)
			rt__put_number(&m->sheet, row, col, mark / 100.0,
				       rt_digits_needed(mark, 2, 1), RT__LOOK_BOX);
		else if (rt__is_filled(m->of, m->result[entry], judge, i))
			rt__put_formula(&m->sheet, row, col, rt__formula_filled(m, entry, judge),
					filling_mark(m, entry, judge), 1, RT__LOOK_BOX);
		else
			rt__put_loose(&m->sheet, row, col, differ ? UNSETTLED : NULL, RT__LOOK_BOX);
	}
}

/* What a group of items comes to on one sheet in points. */
static double group_points(const struct rt__marks *m, size_t entry, size_t judge,
			   enum rt_item_group group)
{
	double filled = 0;
	int64_t sum = 0;

	for (size_t i = 0; i < m->items; i++) {
		const struct rt_item *item = &m->of->items->at[i];
		int mark = rt_box_mark_x100(rt_class_marks_box(m->of, entry, judge, i), NULL);

		if (item->group != group || !rt_class_marks_asked(m->of, judge, i))
			continue;
		if (mark > 0)
			sum += mark * item->coefficient_x1000;
		else if (rt__is_filled(m->of, m->result[entry], judge, i))
			filled += filling_mark(m, entry, judge) * (double)item->coefficient_x1000;
	}
	return (double)sum / 100000 + filled / 1000;
}

static void write_moved(struct rt__marks *m, lxw_row_t first, lxw_row_t row,
			const struct rt_judge_result *sheet)
{
	int decimals = m->results->judge_percent_digits;
	int64_t moved = sheet->counted - sheet->percent;

	rt__put_formula(&m->sheet, row, m->apart, rt__formula_apart(m, first, row),
			(double)((moved < 0) - (moved > 0)), 0, RT__LOOK_PLAIN);
	rt__put_formula_if(&m->sheet, row, m->counted, rt__formula_counted(m, first, row),
			   sheet->in, rt__number(sheet->counted, decimals), decimals,
			   RT__LOOK_PLAIN);
}

static void write_sheet_figures(struct rt__marks *m, size_t entry, size_t judge)
{
	const struct rt_judge_result *sheet = &m->result[entry]->judge[judge];
	lxw_row_t first = rt__marks_row(m, entry), row = first + (lxw_row_t)judge;
	int decimals = m->results->judge_percent_digits;

	rt__put_formula_if(&m->sheet, row, m->sum, rt__formula_sum(m, row), sheet->in,
			   rt__points(sheet->raw_x100000, &sheet->part), m->point_decimals,
			   RT__LOOK_PLAIN);
	if (m->points != m->sum)
		rt__put_formula_if(&m->sheet, row, m->points, rt__formula_points(m, first, row),
				   sheet->in, rt__points(sheet->points_x100000, &sheet->part),
				   m->point_decimals, RT__LOOK_PLAIN);
	rt__put_formula_if(&m->sheet, row, m->judge_percent,
			   rt__formula_judge_percent(m, first, row), sheet->in,
			   rt__number(sheet->percent, decimals), decimals, RT__LOOK_PLAIN);
	if (m->apart != RT__NO_COLUMN)
		write_moved(m, first, row, sheet);
	for (enum rt_item_group g = 0; g < RT_ITEM_GROUP_COUNT; g++)
		if (m->group[g] != RT__NO_COLUMN)
			rt__put_formula_if(&m->sheet, row, m->group[g],
					   rt__formula_group(m, row, g), sheet->in,
					   group_points(m, entry, judge, g), m->point_decimals,
					   RT__LOOK_PLAIN);
}

/* ---- what belongs to an entry as a whole ---- */

static void write_penalties(struct rt__marks *m, lxw_row_t row, const struct rt_result *result)
{
	rt__put_number(&m->sheet, row, m->errors, (double)result->errors, 0, RT__LOOK_BOX);
	rt__put_formula(&m->sheet, row, m->error_cost, rt__formula_error_cost(m, row),
			rt__number(result->error_x100, 2), 2, RT__LOOK_PLAIN);
	rt__put_number(&m->sheet, row, m->penalties, rt__number(result->points_x100, 2), 2,
		       RT__LOOK_BOX);
	if (m->together != m->error_cost)
		rt__put_formula(&m->sheet, row, m->together, rt__formula_together(m, row),
				rt__number(result->penalty_x100, 2), 2, RT__LOOK_PLAIN);
}

static void write_score(struct rt__marks *m, lxw_row_t row, const struct rt_result *result)
{
	int percent = m->of->rule->percent_decimals, score = m->of->rule->score_decimals;

	rt__put_formula_if(&m->sheet, row, m->percent, rt__formula_percent(m, row), result->scored,
			   rt__number(result->percent, percent), percent, RT__LOOK_PLAIN);
	rt__put_formula_if(&m->sheet, row, m->score, rt__formula_score(m, row), result->scored,
			   rt__number(result->score, score), score, RT__LOOK_STRONG);
	rt__put_formula_if(&m->sheet, row, m->place, rt__formula_place(m, row, m->tie_steps),
			   result->place > 0, (double)result->place, 0, RT__LOOK_STRONG);
}

/* The boxes of the sheets that are expected. */
static size_t expected_boxes(const struct rt__marks *m, const struct rt_result *result)
{
	size_t boxes = 0;

	for (size_t j = 0; j < m->judges; j++)
		boxes += result->judge[j].away ? 0 : rt__boxes(m->of, j);
	return boxes;
}

static void write_standing(struct rt__marks *m, lxw_row_t row, const struct rt_result *result)
{
	rt__put(&m->sheet, row, m->division, result->division, RT__LOOK_BOX_TEXT);
	rt__put(&m->sheet, row, m->hors_concours, result->entry->hors_concours ? "yes" : NULL,
		RT__LOOK_BOX_TEXT);
	rt__put(&m->sheet, row, m->status, rt_status_words(result->entry->status),
		RT__LOOK_BOX_TEXT);
	rt__put_formula_text(&m->sheet, row, m->outcome,
			     rt__formula_outcome(m, row, expected_boxes(m, result)), rt_result_words(result),
			     RT__TEXT_LOOK, RT__LOOK_PLAIN);
}

static void write_workings(struct rt__marks *m, lxw_row_t row, size_t entry)
{
	const struct rt_result *result = m->result[entry];
	const struct rt__working *working = &m->working[entry];
	bool ranked = working->stage[0] > 0;
	int decimals = m->of->rule->score_decimals;

	rt__put_formula_if(&m->sheet, row, m->ranked, rt__formula_ranked(m, row), ranked,
			   rt__number(result->score, decimals), decimals, RT__LOOK_PLAIN);
	for (size_t i = 0; i < m->tie_steps; i++) {
		double worth = rt__marks_worth(m, entry, i, &decimals);
		const char *formula = rt__formula_worth(m, row, i);

		rt__put_formula_if(&m->sheet, row, m->stage[i], rt__formula_place(m, row, i),
				   ranked, (double)working->stage[i], 0, RT__LOOK_PLAIN);
		if (*formula)
			rt__put_formula_if(&m->sheet, row, m->worth[i], formula, ranked, worth,
					   decimals, RT__LOOK_PLAIN);
		else
			rt__put_number(&m->sheet, row, m->worth[i], worth, decimals, RT__LOOK_BOX);
	}
}

static void write_entry(struct rt__marks *m, size_t entry)
{
	const struct rt_result *result = m->result[entry];
	lxw_row_t first = rt__marks_row(m, entry);

	for (size_t j = 0; j < m->judges; j++) {
		lxw_row_t row = first + (lxw_row_t)j;

		rt__put_number(&m->sheet, row, m->number, (double)result->entry->number, 0,
			       j == 0 ? RT__LOOK_STRONG : RT__LOOK_PLAIN);
		if (j == 0)
			rt__put(&m->sheet, row, m->driver, result->entry->driver, RT__LOOK_PLAIN);
		rt__put(&m->sheet, row, m->judge,
			rt__say(m->sheet.book, "%s%s", m->of->class_->judges.at[j].position,
				result->judge[j].away ? " away" : ""),
			RT__LOOK_PLAIN);
		write_boxes(m, row, entry, j);
		write_sheet_figures(m, entry, j);
		if (j > 0)
			continue;
		write_penalties(m, row, result);
		write_score(m, row, result);
		write_standing(m, row, result);
		write_workings(m, row, entry);
	}
	rt__said(m->sheet.book);
}

/* ---- what may be typed ---- */

static void allow_marks(struct rt__marks *m)
{
	char title[] = "Not a mark", message[] = "A mark is a number from 0 to 10.";
	lxw_data_validation v = {
		.validate = LXW_VALIDATION_TYPE_DECIMAL,
		.criteria = LXW_VALIDATION_CRITERIA_BETWEEN,
		.minimum_number = 0,
		.maximum_number = 10,
		.error_title = title,
		.error_message = message,
	};

	rt__check(m->sheet.book,
		  worksheet_data_validation_range(m->sheet.at, m->first, m->item, m->last,
						  (lxw_col_t)(m->item + m->items - 1), &v));
}

static void allow_words(struct rt__marks *m, lxw_col_t col, char **words)
{
	char title[] = "Not one of the words", message[] = "Take one of the words in the list.";
	lxw_data_validation v = {
		.validate = LXW_VALIDATION_TYPE_LIST,
		.value_list = words,
		.error_title = title,
		.error_message = message,
	};

	rt__check(m->sheet.book,
		  worksheet_data_validation_range(m->sheet.at, m->first, col, m->last, col, &v));
}

static void allow(struct rt__marks *m)
{
	char word[RT_DID_NOT_START + 1][32], *status[RT_DID_NOT_START + 2] = {NULL};
	char yes_word[] = "yes", *yes[] = {yes_word, NULL};

	if (m->entries == 0)
		return;
	for (int s = 0; s <= RT_DID_NOT_START; s++) {
		snprintf(word[s], sizeof word[s], "%s", rt_status_words((enum rt_status)s));
		status[s] = word[s];
	}
	allow_marks(m);
	allow_words(m, m->status, status);
	allow_words(m, m->hors_concours, yes);
}

/* ---- all ---- */

void rt__write_marks(struct rt__marks *m)
{
	lxw_row_t last;

	write_title(m);
	write_heads(m);
	write_coefficients(m);
	for (size_t i = 0; i < m->entries; i++)
		write_entry(m, i);
	last = rt__write_rule(m);
	allow(m);
	rt__sheet_freeze(&m->sheet, m->first, m->item);
	rt__sheet_repeat(&m->sheet, 0, m->coefficients);
	/* what the place is worked out from is for the screen */
	rt__check(m->sheet.book, worksheet_print_area(m->sheet.at, 0, 0, last, m->outcome));
	rt__sheet_end(&m->sheet);
}
