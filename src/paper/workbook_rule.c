/* Under a class's marks: the figures of its rule in labelled boxes that the formulas read, and
 * how the score comes about in plain sentences.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <string.h>

#include "workbook_internal.h"

static void put_words(struct rt__marks *m, lxw_row_t row, const char *s)
{
	rt__put_loose(&m->sheet, row, 1, s, RT__LOOK_PLAIN);
}

static void put_figure(struct rt__marks *m, lxw_row_t row, double v, int decimals,
		       const char *words)
{
	rt__put_number(&m->sheet, row, 0, v, decimals, RT__LOOK_BOX);
	put_words(m, row, words);
}

/* ---- figures ---- */

static void write_maximum(struct rt__marks *m)
{
	lxw_col_t last = (lxw_col_t)(m->item + m->items - 1);
	const char *formula = rt__say(
		m->sheet.book, "=10*SUM(%s)",
		rt__ref_range(m->coefficients, m->item, m->coefficients, last).s);

	rt__put_formula(&m->sheet, m->maximum, 0, formula,
			(double)m->results->maximum_x100000 / 100000, m->point_decimals,
			RT__LOOK_PLAIN);
	put_words(m, m->maximum,
		  m->alike ? "points at most on one sheet"
			   : "points at most on a sheet with every item");
}

static void write_conversion(struct rt__marks *m)
{
	int decimals = 0;

	if (m->base)
		put_figure(m, m->base, (double)m->of->rule->base, 0,
			   "penalties for no point at all (base)");
	if (!m->multiplier)
		return;
	while (rt_power_of_ten(decimals) < m->multiplier_scale)
		decimals++;
	put_figure(m, m->multiplier, (double)m->of->test->multiplier_x1000000 / 1000000, decimals,
		   "penalties a point, as printed on the test (multiplier)");
}

static const char *unit_of_errors(const struct rt_rule *rule)
{
	switch (rule->taken) {
	case RT_TAKEN_POINTS:
		return "points off every sheet";
	case RT_TAKEN_PERCENT:
		return "per cent off every judge's percentage";
	case RT_TAKEN_SCORE:
		break;
	}
	if (rule->scale == RT_PENALTY_SCALE)
		return "penalties added once to the score";
	return rule->scale == RT_PERCENT_SCALE ? "per cent taken once off the score"
					       : "points taken once off the score";
}

static void write_errors(struct rt__marks *m)
{
	static const char *const which[RT_ERROR_STEPS] = {"first", "second", "third", "fourth"};
	const struct rt_rule *rule = m->of->rule;

	for (size_t i = 0; i < rule->error_steps; i++) {
		const char *more = i + 1 == rule->error_steps ? " and every further one" : "";

		if (rule->error[i].eliminated)
			more = ", which eliminates";
		put_figure(m, m->error[i], (double)rule->error[i].amount_x100 / 100, 2,
			   rt__say(m->sheet.book, "%s for the %s error of course%s",
				   unit_of_errors(rule), which[i], more));
	}
	if (m->eliminated)
		put_figure(m, m->eliminated, (double)m->eliminating, 0,
			   "errors of course eliminate");
}

static void write_apart(struct rt__marks *m)
{
	if (!m->limit)
		return;
	put_figure(m, m->limit, (double)m->of->rule->apart_x100 / 100, 2,
		   "per cent points from the mean of the others: a judge so far off counts as the "
		   "next score");
	put_figure(m, m->limit_judges, (double)m->of->rule->apart_judges, 0,
		   "sheets at least, for a judge to be moved so");
}

/* ---- sentences ---- */

static const char *score_words(const struct rt__marks *m)
{
	const struct rt_rule *rule = m->of->rule;
	struct rt__book *book = m->sheet.book;
	const char *from;

	if (rule->judge_decimals >= 0)
		from = rt__say(book,
			       "the mean of the judges' percentages (each rounded to %d "
			       "decimals, the mean to %d)",
			       rule->judge_decimals, rule->percent_decimals);
	else if (m->multiplier)
		from = "multiplier x mean of the judges' points";
	else
		from = rule->scale == RT_PENALTY_SCALE
			       ? "base x all points together over all that could be had"
			       : "all points together over all that could be had, in per cent";
	return rt__say(book, "Score: %s%s%s, %s to %d decimals; the %s wins.",
		       rule->scale == RT_PENALTY_SCALE ? "base less " : "", from,
		       rule->scale == RT_POINT_SCALE ? ", as points of one sheet"
		       : rule->scale == RT_TEN_SCALE ? ", on a scale of ten"
						     : "",
		       rule->rounding == RT_CUT ? "cut off" : "rounded half up",
		       rule->score_decimals, rt_wins_words(rule->wins));
}

static const char *tie_words(const struct rt__marks *m)
{
	char steps[200];

	rt_tie_steps_words(m->of->rule, steps, sizeof steps);
	if (!*steps)
		return "Equal scores share the place.";
	return rt__say(m->sheet.book,
		       "Equal scores are parted by: %s. What is equal then shares the place.",
		       steps);
}

/* A sentence over the breadth of the printed sheet. */
static void put_sentence(struct rt__marks *m, lxw_row_t row, const char *s)
{
	rt__put_across(&m->sheet, row, 1, m->outcome, s);
}

static lxw_row_t write_sentences(struct rt__marks *m, lxw_row_t row)
{
	put_sentence(m, row++, score_words(m));
	put_sentence(m, row++, tie_words(m));
	put_sentence(m, row++,
		     "What stands in a box may be changed: points, score and place "
		     "follow, on the sheet of results too.");
	if (m->results->differ)
		put_sentence(m, row++,
			     "A question mark stands where the two keyings of a mark "
			     "differ: it counts nothing until it is settled.");
	return row;
}

lxw_row_t rt__write_rule(struct rt__marks *m)
{
	lxw_row_t row = m->figures_end;

	rt__put_loose(&m->sheet, m->words, 1, rt__say(m->sheet.book, "Rule %s", m->of->rule->name),
		      RT__LOOK_STRONG);
	write_maximum(m);
	write_conversion(m);
	write_errors(m);
	write_apart(m);
	row = write_sentences(m, row + 1);
	if (m->results->notes.n > 0)
		rt__put_loose(&m->sheet, ++row, 1, "To look at when this was made",
			      RT__LOOK_STRONG);
	for (size_t i = 0; i < m->results->notes.n; i++)
		put_sentence(m, ++row, m->results->notes.at[i]);
	return row;
}
