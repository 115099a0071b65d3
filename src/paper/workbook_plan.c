/* Where everything stands on a class's sheet of marks, and what its formulas come to.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "workbook_internal.h"

#define TITLE_ROWS 2

lxw_row_t rt__marks_row(const struct rt__marks *m, size_t entry)
{
	return m->first + (lxw_row_t)(entry * m->judges);
}

size_t rt__marks_entry(const struct rt__marks *m, const struct rt_result *result)
{
	return (size_t)(result->entry - m->of->entries->at);
}

static int larger(int a, int b)
{
	return a > b ? a : b;
}

/* Points of a sheet that is filled are whole numbers of a smaller unit: one for each of the marks
 * that the mean is of. */
static void plan_parts(struct rt__marks *m)
{
	int64_t parts = 1, sum_x100, marks;

	for (size_t i = 0; i < m->entries; i++) {
		for (size_t j = 0; j < m->judges; j++) {
			if (!m->result[i]->judge[j].filled)
				continue;
			rt__filling_mean(m->of, rt__marks_entry(m, m->result[i]), j, &sum_x100,
					 &marks);
			parts *= marks / rt__greatest_divisor(parts, marks);
		}
	}
	m->scale *= parts;
}

/* Points need the decimals of the marks and those of the coefficients; what is taken off them is
 * hundredths. */
static void plan_scales(struct rt__marks *m)
{
	const struct rt_rule *rule = m->of->rule;
	int products = 0, amounts = 0;

	for (size_t i = 0; i < m->items; i++) {
		const struct rt_item *item = &m->of->items->at[i];

		products = larger(products, rt_digits_needed(item->coefficient_x1000, 3, 0) +
						    rt_digits_needed(item->mark_step_x100, 2, 1));
	}
	for (size_t i = 0; i < rule->error_steps && rule->taken == RT_TAKEN_POINTS; i++)
		amounts = larger(amounts, rt_digits_needed(rule->error[i].amount_x100, 2, 0));
	for (size_t i = 0; i < m->entries && rule->taken != RT_TAKEN_SCORE; i++)
		amounts = larger(amounts, rt_digits_needed(m->result[i]->points_x100, 2, 0));
	m->point_decimals = larger(products, amounts);
	m->scale = rt_power_of_ten(larger(products, 2));
	plan_parts(m);
	m->multiplier_scale = rt_power_of_ten(
		rt_digits_needed(m->of->test->multiplier_x1000000, 6, 0));
}

/* ---- columns ---- */

size_t rt__marks_tie_judge(const struct rt__marks *m, size_t step)
{
	return rt__tie_judge(&m->of->class_->judges, m->of->rule, m->tie[step]);
}

/* The group of items that a tie-break looks at; RT_ITEM_GROUP_COUNT: none. */
static enum rt_item_group group_of(enum rt_tie_break by)
{
	return by == RT_TIE_GENERAL	? RT_GROUP_GENERAL
	       : by == RT_TIE_ARTISTIC ? RT_GROUP_ARTISTIC
				       : (enum rt_item_group)RT_ITEM_GROUP_COUNT;
}

static bool has_group(const struct rt__marks *m, enum rt_item_group group)
{
	for (size_t i = 0; i < m->items; i++)
		if (m->of->items->at[i].group == group)
			return true;
	return false;
}

/* Whether a tie-break can part anybody in this test: there are marks of the group, the item or
 * the judge it names. */
static bool can_part(const struct rt__marks *m, size_t rule_step)
{
	const struct rt_judges *judges = &m->of->class_->judges;

	switch (m->of->rule->tie[rule_step].by) {
	case RT_TIE_GENERAL:
	case RT_TIE_ARTISTIC:
		return has_group(m, group_of(m->of->rule->tie[rule_step].by));
	case RT_TIE_ITEM:
		return rt__tie_item(m->of->items, m->of->rule, rule_step) < m->items;
	case RT_TIE_JUDGE:
		return rt__tie_judge(judges, m->of->rule, rule_step) < judges->n;
	case RT_TIE_MEDIAN:
	case RT_TIE_PRESIDENT:
	case RT_TIE_DECISION:
		break;
	}
	return true;
}

static bool parts_by_group(const struct rt__marks *m, enum rt_item_group group)
{
	for (size_t i = 0; i < m->tie_steps; i++)
		if (group_of(m->of->rule->tie[m->tie[i]].by) == group)
			return true;
	return false;
}

/* Whether there are judges enough for one to be moved as too far apart. */
static bool may_be_moved(const struct rt__marks *m)
{
	const struct rt_rule *rule = m->of->rule;

	return rule->apart_x100 > 0 && (int64_t)m->judges >= rule->apart_judges;
}

static void plan_columns(struct rt__marks *m)
{
	lxw_col_t col = 0;

	m->number = col++;
	m->driver = col++;
	m->judge = col++;
	m->item = col;
	col = (lxw_col_t)(col + m->items);
	m->sum = col++;
	/* nothing comes off the sheets: the points are the sum */
	m->points = m->of->rule->taken == RT_TAKEN_SCORE ? m->sum : col++;
	m->judge_percent = col++;
	m->apart = may_be_moved(m) ? col++ : RT__NO_COLUMN;
	m->counted = m->apart == RT__NO_COLUMN ? m->judge_percent : col++;
	for (enum rt_item_group g = 0; g < RT_ITEM_GROUP_COUNT; g++)
		m->group[g] = parts_by_group(m, g) ? col++ : RT__NO_COLUMN;
	m->errors = col++;
	m->error_cost = col++;
	m->penalties = col++;
	/* per cent and points make no sum */
	m->together = m->of->rule->taken == RT_TAKEN_PERCENT ? m->error_cost : col++;
	m->percent = col++;
	m->score = col++;
	m->place = col++;
	m->outcome = col++;
	m->division = col++;
	m->hors_concours = col++;
	m->status = col++;
	m->ranked = col++;
	for (size_t i = 0; i < m->tie_steps; i++) {
		m->stage[i] = col++;
		m->worth[i] = col++;
	}
}

/* ---- rows ---- */

static void plan_rows(struct rt__marks *m)
{
	const struct rt_rule *rule = m->of->rule;
	lxw_row_t row;

	m->heads = TITLE_ROWS;
	m->coefficients = m->heads + 1;
	m->first = m->coefficients + 1;
	row = m->last = m->first + (lxw_row_t)(m->entries * m->judges) - (m->entries > 0);
	m->words = row + 2;
	row += 3;
	m->maximum = row++;
	if (rule->scale == RT_PENALTY_SCALE) {
		m->base = row++;
		if (rule->judge_decimals < 0 && m->of->test->multiplier_x1000000 > 0)
			m->multiplier = row++;
	}
	for (size_t i = 0; i < rule->error_steps; i++)
		m->error[i] = row++;
	while (m->eliminating < rule->error_steps && !rule->error[m->eliminating].eliminated)
		m->eliminating++;
	if (m->eliminating++ < rule->error_steps)
		m->eliminated = row++;
	if (m->apart != RT__NO_COLUMN) {
		m->limit = row++;
		m->limit_judges = row++;
	}
	m->figures_end = row;
}

/* ---- workings ---- */

double rt__marks_worth(const struct rt__marks *m, size_t entry, size_t step, int *decimals)
{
	const struct rt_part *part = &m->working[entry].part[step];
	int digits = m->results->judge_percent_digits;
	int64_t worth = m->working[entry].worth[step];

	switch (m->of->rule->tie[m->tie[step]].by) {
	case RT_TIE_GENERAL:
	case RT_TIE_ARTISTIC:
	case RT_TIE_ITEM:
		*decimals = m->point_decimals;
		return rt__points(worth, part);
	case RT_TIE_MEDIAN:
		*decimals = digits + 1;
		return rt__number(worth, digits) / 2;
	case RT_TIE_DECISION:
		*decimals = 0;
		return (double)worth;
	case RT_TIE_PRESIDENT:
	case RT_TIE_JUDGE:
		break;
	}
	*decimals = digits;
	return worth == INT64_MIN ? RT__NO_SHEET : rt__number(worth, digits);
}

static bool is_ranked(const struct rt_result *result)
{
	return result->scored && !result->entry->hors_concours;
}

static bool is_worth_more(const struct rt__working *a, const struct rt__working *b, size_t step)
{
	if (a->worth[step] != b->worth[step])
		return a->worth[step] > b->worth[step];
	return rt__part_compare(&a->part[step], &b->part[step]) > 0;
}

/* Whether b is to stand before a when only the first `steps` of score and tie-breaks count and
 * they are equal before the last of them. */
static bool is_better(const struct rt__marks *m, size_t a, size_t b, size_t steps)
{
	const struct rt__working *w = m->working;
	bool lowest = m->of->rule->wins == RT_LOWEST_WINS;
	int64_t score_a = m->result[a]->score, score_b = m->result[b]->score;

	if (steps == 0)
		return lowest ? score_b < score_a : score_b > score_a;
	return w[a].stage[steps - 1] == w[b].stage[steps - 1] &&
	       is_worth_more(&w[b], &w[a], steps - 1);
}

/* The place of an entry after so many tie-breaks, as the formula of that column has it. */
static size_t place_after(const struct rt__marks *m, size_t entry, size_t steps)
{
	size_t place = steps ? m->working[entry].stage[steps - 1] : 1;
	int64_t limit = steps ? m->of->rule->tie[m->tie[steps - 1]].places : 0;

	if (limit && place > (size_t)limit)
		return place;
	for (size_t i = 0; i < m->entries; i++)
		place += is_ranked(m->result[i]) &&
			 rt_same_division(m->result[i], m->result[entry]) &&
			 is_better(m, entry, i, steps);
	return place;
}

static void work_out(struct rt__marks *m)
{
	for (size_t i = 0; i < m->entries; i++)
		for (size_t step = 0; step < m->tie_steps && is_ranked(m->result[i]); step++)
			m->working[i].worth[step] = rt__tie_worth(
				m->results, m->result[i], m->tie[step], &m->working[i].part[step]);
	for (size_t step = 0; step <= m->tie_steps; step++)
		for (size_t i = 0; i < m->entries; i++)
			if (is_ranked(m->result[i]))
				m->working[i].stage[step] = place_after(m, i, step);
}

/* ---- all ---- */

void rt__marks_plan(struct rt__marks *m)
{
	m->of = m->results->of;
	m->judges = m->of->class_->judges.n;
	m->items = m->of->items->n;
	m->entries = m->of->entries->n;
	m->result = rt__take(m->sheet.book, (m->entries + 1) * sizeof *m->result);
	m->working = rt__take(m->sheet.book, (m->entries + 1) * sizeof *m->working);
	if (!m->result || !m->working)
		return;
	for (size_t i = 0; i < m->results->n; i++)
		m->result[rt__marks_entry(m, &m->results->at[i])] = &m->results->at[i];
	m->alike = true;
	for (size_t j = 0; j < m->judges; j++)
		m->alike &= rt__boxes(m->of, j) == m->items;
	m->president = rt__president(&m->of->class_->judges);
	plan_scales(m);
	for (size_t i = 0; i < m->of->rule->tie_steps; i++)
		if (can_part(m, i))
			m->tie[m->tie_steps++] = i;
	plan_columns(m);
	plan_rows(m);
	work_out(m);
}
