/* The live formulas of a class's sheet of marks.  Each repeats, in src/scoring/, what is changed
 * together with it:
 *
 *   half_up, rounded             score.c: round_to; missing_marks.c: cut
 *   rt__formula_sum, _group      score.c: read_box (a box times its coefficient, added up)
 *   rt__formula_filled           missing_marks.c: rt__filling_mean
 *   rt__formula_points           score.c: toll_of, add_sheets (points less what comes off them)
 *   percentage                   score.c: percent_of; _judge_percent: its call in add_sheets
 *   rt__formula_apart, off_by    judge_outliers.c: apart, off_by
 *   rt__formula_counted          judge_outliers.c: next_score
 *   rt__formula_error_cost       penalties.c: cost_of; eliminated: eliminated_by
 *   rt__formula_outcome          results_report.c: rt_result_words
 *   over_parts, under_parts      score.c: join_part
 *   mean_percent                 score.c: score_from_judges, its first half
 *   score_of_percent             score.c: score_from_judges, its second half
 *   score_in_percent, _points    score.c: share_of_best
 *   converted(_as_printed)       score.c: the functions of the same names
 *   score_toll                   score.c: toll_of, against the score
 *   rt__formula_ranked, _place   placing.c: group_of, part; _worth: rt__tie_worth
 *
 * They do the arithmetic of the office in the same whole numbers: points in 1/scale, amounts in
 * hundredths, and one half-up rounding INT((2 num 10^d + den) / (2 den)) where the rule has one.
 * A binary fraction is only ever the nearest to a decimal of few digits, and ROUND(x * scale, 0)
 * gives the whole number back.  Programs take a quotient that is within some 5e-15 of a whole
 * number for it; two different quotients are further apart than that as long as num x 2 x 10^d
 * stays below 1e14, which takes coefficients of three decimals and a multiplier of six to reach.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <inttypes.h>

#include "workbook_internal.h"

#define SAY(m, ...) rt__say((m)->sheet.book, __VA_ARGS__)

/* num / den, whole numbers both, rounded half up to so many decimals. */
static const char *half_up(const struct rt__marks *m, const char *num, const char *den,
			   int decimals)
{
	int64_t unit = rt_power_of_ten(decimals);

	return SAY(m, "INT((2*(%s)*%" PRId64 "+(%s))/(2*(%s)))/%" PRId64, num, unit, den, den,
		   unit);
}

/* The same as the rule has it: rounded half up, or cut off. */
static const char *rounded(const struct rt__marks *m, const char *num, const char *den,
			   int decimals)
{
	int64_t unit = rt_power_of_ten(decimals);

	if (m->of->rule->rounding == RT_HALF_UP)
		return half_up(m, num, den, decimals);
	return SAY(m, "TRUNC(((%s)*%" PRId64 ")/(%s))/%" PRId64, num, unit, den, unit);
}

/* An amount of the sheet as whole hundredths. */
static const char *hundredths(const struct rt__marks *m, lxw_row_t row, lxw_col_t col)
{
	return SAY(m, "ROUND(%s*100,0)", rt__ref(row, col).s);
}

/* x as a whole number of 1/unit. */
static const char *whole(const struct rt__marks *m, const char *x, int64_t unit)
{
	return SAY(m, "ROUND(%s*%" PRId64 ",0)", x, unit);
}

/* x to the nearest 1/unit, which is the decimal that is meant. */
static const char *nearest(const struct rt__marks *m, const char *x, int64_t unit)
{
	return SAY(m, "ROUND(%s*%" PRId64 ",0)/%" PRId64, x, unit, unit);
}

/* The cells of one column over all judges of an entry. */
static struct rt__ref of_entry(const struct rt__marks *m, lxw_row_t row, lxw_col_t col)
{
	struct rt__ref ref;

	lxw_rowcol_to_range(ref.s, row, col, row + (lxw_row_t)m->judges - 1, col);
	return ref;
}

/* One column over the whole sheet. */
static struct rt__ref of_all(const struct rt__marks *m, lxw_col_t col)
{
	return rt__ref_range(m->first, col, m->last, col);
}

/* The marks of one row from one item to another. */
static struct rt__ref marks_of(const struct rt__marks *m, lxw_row_t row, size_t from, size_t to)
{
	struct rt__ref ref;

	lxw_rowcol_to_range(ref.s, row, (lxw_col_t)(m->item + from), row,
			    (lxw_col_t)(m->item + to));
	return ref;
}

/* Marks times coefficients from one item to another; a question mark counts nothing. */
static const char *weighted(const struct rt__marks *m, lxw_row_t row, size_t from, size_t to)
{
	return SAY(m, "SUMPRODUCT(%s,%s)", marks_of(m, row, from, to).s,
		   rt__ref_range(m->coefficients, (lxw_col_t)(m->item + from), m->coefficients,
				 (lxw_col_t)(m->item + to))
			   .s);
}

/* ---- a judge's row ---- */

const char *rt__formula_sum(const struct rt__marks *m, lxw_row_t judge_row)
{
	return SAY(m, "=IF(COUNTA(%s)=0,\"\",%s)", marks_of(m, judge_row, 0, m->items - 1).s,
		   nearest(m, weighted(m, judge_row, 0, m->items - 1), m->scale));
}

const char *rt__formula_points(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row)
{
	bool percent = m->of->rule->taken == RT_TAKEN_PERCENT;
	struct rt__ref sum = rt__ref(judge_row, m->sum);
	/* errors in percent come off the percentage, the office's penalties off the points */
	const char *left = SAY(m, "(%s-%s)", sum.s,
			       rt__ref(row, percent ? m->penalties : m->together).s);

	return SAY(m, "=IF(%s=\"\",\"\",%s)", sum.s, nearest(m, left, m->scale));
}

/* The maximum of a judge's sheet in points of 1/scale. */
static const char *maximum(const struct rt__marks *m, size_t judge)
{
	const char *list = "";

	if (m->alike)
		return whole(m, rt__ref_fixed(m->maximum, 0).s, m->scale);
	for (size_t i = 0; i < m->items; i++)
		if (rt_class_marks_asked(m->of, judge, i))
			list = SAY(m, "%s%s%s", list, *list ? "," : "",
				   rt__ref_fixed(m->coefficients, (lxw_col_t)(m->item + i)).s);
	return whole(m, SAY(m, "SUM(%s)", list), 10 * m->scale);
}

/* 100 x points / most - off; off is NULL for nothing, or whole hundredths. */
static const char *percentage(const struct rt__marks *m, const char *points, const char *most,
			      const char *off, int decimals)
{
	if (!off)
		return rounded(m, SAY(m, "100*%s", points), most, decimals);
	return rounded(m, SAY(m, "%s*10000-%s*%s", points, off, most), SAY(m, "100*%s", most),
		       decimals);
}

const char *rt__formula_judge_percent(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row)
{
	struct rt__ref points = rt__ref(judge_row, m->points);
	const char *off = NULL;

	if (m->of->rule->taken == RT_TAKEN_PERCENT)
		off = hundredths(m, row, m->error_cost);
	return SAY(m, "=IF(%s=\"\",\"\",%s)", points.s,
		   percentage(m, whole(m, points.s, m->scale), maximum(m, judge_row - row), off,
			      m->results->judge_percent_digits));
}

const char *rt__formula_group(const struct rt__marks *m, lxw_row_t judge_row,
			      enum rt_item_group group)
{
	const struct rt_items *items = m->of->items;
	const char *sum = "";
	size_t to;

	/* runs of neighbours, which is one as a rule */
	for (size_t i = 0; i < m->items; i = to + 1) {
		to = i;
		if (items->at[i].group != group)
			continue;
		while (to + 1 < m->items && items->at[to + 1].group == group)
			to++;
		sum = SAY(m, "%s%s%s", sum, *sum ? "+" : "", weighted(m, judge_row, i, to));
	}
	return SAY(m, "=IF(COUNTA(%s)=0,\"\",%s)", marks_of(m, judge_row, 0, m->items - 1).s,
		   nearest(m, SAY(m, "(%s)", sum), m->scale));
}

/* The marks of a row that were given, as ranges with commas between: all but those filled. */
static const char *given_marks(const struct rt__marks *m, size_t entry, size_t judge)
{
	lxw_row_t row = rt__marks_row(m, entry) + (lxw_row_t)judge;
	const char *list = "";
	size_t to;

	for (size_t i = 0; i < m->items; i = to + 1) {
		to = i;
		if (rt__is_filled(m->of, m->result[entry], judge, i))
			continue;
		while (to + 1 < m->items && !rt__is_filled(m->of, m->result[entry], judge, to + 1))
			to++;
		list = SAY(m, "%s%s%s", list, *list ? "," : "", marks_of(m, row, i, to).s);
	}
	return list;
}

const char *rt__formula_filled(const struct rt__marks *m, size_t entry, size_t judge)
{
	const char *given = given_marks(m, entry, judge);
	const char *hundredfold = SAY(m, "ROUND(SUM(%s)*100,0)", given);
	const char *count = SAY(m, "COUNT(%s)", given), *mean;

	if (m->of->rule->missing == RT_MISSING_MEAN_WHOLE)
		mean = half_up(m, hundredfold, SAY(m, "100*%s", count), 0);
	else
		mean = SAY(m, "%s/(100*%s)", hundredfold, count);
	return SAY(m, "=IF(%s=0,\"\",%s)", count, mean);
}

/* ---- judges too far apart ---- */

/* p k - s, as in the office's own reckoning, for a percentage p. */
static const char *off_by(const struct rt__marks *m, const char *percent, struct rt__ref all)
{
	return whole(m, SAY(m, "(%s*COUNT(%s)-SUM(%s))", percent, all.s, all.s),
		     100 * rt_power_of_ten(m->results->judge_percent_digits));
}

const char *rt__formula_apart(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row)
{
	struct rt__ref own = rt__ref(judge_row, m->judge_percent);
	struct rt__ref all = of_entry(m, row, m->judge_percent);
	const char *limit = whole(m,
				  SAY(m, "%s*(COUNT(%s)-1)", rt__ref_fixed(m->limit, 0).s, all.s),
				  100 * rt_power_of_ten(m->results->judge_percent_digits));
	const char *most = SAY(m, "MAX(%s,-%s,%s)", off_by(m, SAY(m, "MAX(%s)", all.s), all),
			       off_by(m, SAY(m, "MIN(%s)", all.s), all), limit);
	const char *off = off_by(m, own.s, all);

	return SAY(m, "=IF(OR(%s=\"\",COUNT(%s)<%s,%s<=0),0,IF(%s=-%s,-1,IF(%s=%s,1,0)))", own.s,
		   all.s, rt__ref_fixed(m->limit_judges, 0).s, limit, off, most, off, most);
}

/* The farthest below are the lowest and the farthest above the highest, so the next score is the
 * lowest, or highest, behind so many. */
const char *rt__formula_counted(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row)
{
	struct rt__ref own = rt__ref(judge_row, m->judge_percent);
	struct rt__ref side = rt__ref(judge_row, m->apart);
	struct rt__ref all = of_entry(m, row, m->judge_percent);
	struct rt__ref sides = of_entry(m, row, m->apart);
	const char *low = SAY(m, "SMALL(%s,1+COUNTIF(%s,-1))", all.s, sides.s);
	const char *high = SAY(m, "LARGE(%s,1+COUNTIF(%s,1))", all.s, sides.s);
	const char *none = SAY(m, "COUNTIF(%s,-1)+COUNTIF(%s,1)>=COUNT(%s)", sides.s, sides.s,
			       all.s);

	return SAY(m, "=IF(OR(%s=\"\",%s=0,%s),%s,IF(%s<0,%s,%s))", own.s, side.s, none, own.s,
		   side.s, low, high);
}

/* ---- an entry's errors and penalties ---- */

const char *rt__formula_error_cost(const struct rt__marks *m, lxw_row_t row)
{
	struct rt__ref errors = rt__ref(row, m->errors);
	size_t steps = m->of->rule->error_steps;
	const char *cost = "=0";

	for (size_t i = 0; i < steps; i++) {
		const char *times = SAY(m, "MAX(%s-%zu,0)", errors.s, i);

		if (i + 1 < steps) /* the last step is for all beyond it too */
			times = SAY(m, "MIN(%s,1)", times);
		cost = SAY(m, "%s%s*%s", i ? SAY(m, "%s+", cost) : "=",
			   rt__ref_fixed(m->error[i], 0).s, times);
	}
	return cost;
}

const char *rt__formula_together(const struct rt__marks *m, lxw_row_t row)
{
	return SAY(m, "=ROUND(%s+%s,2)", rt__ref(row, m->error_cost).s,
		   rt__ref(row, m->penalties).s);
}

/* ---- how an entry stands ---- */

/* Whether so many errors of course eliminate: a condition, or "" where the rule has no such. */
static const char *eliminated(const struct rt__marks *m, lxw_row_t row)
{
	if (!m->eliminated)
		return "";
	return SAY(m, "%s>=%s", rt__ref(row, m->errors).s, rt__ref_fixed(m->eliminated, 0).s);
}

/* Of an entry that neither left nor was sent out. */
static const char *outcome_in_class(const struct rt__marks *m, lxw_row_t row, size_t expected)
{
	struct rt__ref boxes;

	lxw_rowcol_to_range(boxes.s, row, m->item, row + (lxw_row_t)m->judges - 1,
			    (lxw_col_t)(m->item + m->items - 1));
	return SAY(m,
		   "IF(%s=\"yes\",\"hors concours\",IF(COUNT(%s)=0,\"%s\","
		   "IF(COUNTA(%s)<%zu,\"running\",\"finished\")))",
		   rt__ref(row, m->hors_concours).s, of_entry(m, row, m->points).s,
		   rt_status_words(RT_ENTERED), boxes.s, expected);
}

const char *rt__formula_outcome(const struct rt__marks *m, lxw_row_t row, size_t boxes)
{
	struct rt__ref status = rt__ref(row, m->status);
	const char *out = eliminated(m, row), *in = outcome_in_class(m, row, boxes);

	if (*out)
		in = SAY(m, "IF(%s,\"%s\",%s)", out, rt_status_words(RT_ELIMINATED), in);
	return SAY(m, "=IF(%s<>\"%s\",%s,%s)", status.s, rt_status_words(RT_ENTERED), status.s, in);
}

/* ---- an entry's score ---- */

/* Only what neither left nor was sent out and has a sheet is scored. */
static const char *if_scored(const struct rt__marks *m, lxw_row_t row, const char *value)
{
	const char *out = eliminated(m, row);

	return SAY(m, "=IF(OR(%s<>\"%s\",%s%sCOUNT(%s)=0),\"\",%s)", rt__ref(row, m->status).s,
		   rt_status_words(RT_ENTERED), out, *out ? "," : "", of_entry(m, row, m->points).s,
		   value);
}

/* The cells of one column over the judges of a part of the work. */
static const char *of_part(const struct rt__marks *m, lxw_row_t row, lxw_col_t col, size_t part)
{
	const char *list = "";

	if (m->results->parts == 1)
		return SAY(m, "%s", of_entry(m, row, col).s);
	for (size_t j = 0; j < m->judges; j++)
		if (m->results->part[j] == part)
			list = SAY(m, "%s%s%s", list, *list ? "," : "",
				   rt__ref(row + (lxw_row_t)j, col).s);
	return list;
}

/* The points of the sheets of a part that are in, in 1/scale, and what they could be. */
static const char *part_points(const struct rt__marks *m, lxw_row_t row, size_t part)
{
	return whole(m, SAY(m, "SUM(%s)", of_part(m, row, m->points, part)), m->scale);
}

static const char *part_most(const struct rt__marks *m, lxw_row_t row, size_t part)
{
	const char *sum = "";

	if (m->alike)
		return SAY(m, "COUNT(%s)*%s", of_entry(m, row, m->points).s, maximum(m, 0));
	for (size_t j = 0; j < m->judges; j++)
		if (m->results->part[j] == part)
			sum = SAY(m, "%s%sCOUNT(%s)*%s", sum, *sum ? "+" : "",
				  rt__ref(row + (lxw_row_t)j, m->points).s, maximum(m, j));
	return SAY(m, "(%s)", sum);
}

/* The judges' rounded percentages of a part, added up, and how many they are. */
static const char *part_percent(const struct rt__marks *m, lxw_row_t row, size_t part)
{
	return whole(m, SAY(m, "SUM(%s)", of_part(m, row, m->counted, part)),
		     rt_power_of_ten(m->of->rule->judge_decimals));
}

static const char *part_judges(const struct rt__marks *m, lxw_row_t row, size_t part)
{
	return SAY(m, "COUNT(%s)", of_part(m, row, m->counted, part));
}

/* What is found in each part of the work. */
typedef const char *of_each_part(const struct rt__marks *m, lxw_row_t row, size_t part);

/* The least common multiple of what is found in the parts, 1 for nothing. */
static const char *common(const struct rt__marks *m, lxw_row_t row, of_each_part *den)
{
	const char *list = "";

	for (size_t j = 0; j < m->judges; j++)
		if (m->results->part[j] == j)
			list = SAY(m, "%s%sMAX(1,%s)", list, *list ? "," : "", den(m, row, j));
	return SAY(m, "LCM(%s)", list);
}

/* num / den of all parts, each of which counts as much as another: what is above the line. */
static const char *over_parts(const struct rt__marks *m, lxw_row_t row, of_each_part *num,
			      of_each_part *den)
{
	const char *sum = "", *multiple;

	if (m->results->parts == 1)
		return num(m, row, 0);
	multiple = common(m, row, den);
	for (size_t j = 0; j < m->judges; j++)
		if (m->results->part[j] == j)
			sum = SAY(m, "%s%s%s*%s/MAX(1,%s)", sum, *sum ? "+" : "", num(m, row, j),
				  multiple, den(m, row, j));
	return SAY(m, "(%s)", sum);
}

/* The same below the line. */
static const char *under_parts(const struct rt__marks *m, lxw_row_t row, of_each_part *den)
{
	const char *parts = "";

	if (m->results->parts == 1)
		return den(m, row, 0);
	for (size_t j = 0; j < m->judges; j++)
		if (m->results->part[j] == j)
			parts = SAY(m, "%s%s(%s>0)", parts, *parts ? "+" : "", den(m, row, j));
	return SAY(m, "((%s)*%s)", parts, common(m, row, den));
}

/* The points of all sheets that are in, in 1/scale. */
static const char *all_points(const struct rt__marks *m, lxw_row_t row)
{
	return over_parts(m, row, part_points, part_most);
}

/* What they could be. */
static const char *most_points(const struct rt__marks *m, lxw_row_t row)
{
	return under_parts(m, row, part_most);
}

/* The mean of the judges' rounded percentages. */
static const char *mean_percent(const struct rt__marks *m, lxw_row_t row)
{
	return rounded(m, over_parts(m, row, part_percent, part_judges),
		       SAY(m, "%s*%" PRId64, under_parts(m, row, part_judges),
			   rt_power_of_ten(m->of->rule->judge_decimals)),
		       m->of->rule->percent_decimals);
}

const char *rt__formula_percent(const struct rt__marks *m, lxw_row_t row)
{
	const struct rt_rule *rule = m->of->rule;
	const char *off = NULL;

	if (rule->judge_decimals >= 0)
		return if_scored(m, row, mean_percent(m, row));
	if (rule->taken == RT_TAKEN_PERCENT)
		off = hundredths(m, row, m->error_cost);
	return if_scored(m, row,
			 percentage(m, all_points(m, row), most_points(m, row), off,
				    rule->percent_decimals));
}

/* What is added to a score or taken off it, in hundredths. */
static const char *score_toll(const struct rt__marks *m, lxw_row_t row)
{
	return m->of->rule->taken == RT_TAKEN_SCORE ? hundredths(m, row, m->together) : "0";
}

/* The best that a score can be where the highest wins, and the share of one that it counts. */
static const char *best(const struct rt__marks *m)
{
	const char *sum = "";

	if (m->of->rule->scale != RT_POINT_SCALE)
		return m->of->rule->scale == RT_TEN_SCALE ? "10" : "100";
	for (size_t j = 0; j < m->judges; j++)
		sum = SAY(m, "%s%s%s", sum, *sum ? "+" : "", maximum(m, j));
	return SAY(m, "(%s)", m->alike ? maximum(m, 0) : sum);
}

static int64_t best_share(const struct rt__marks *m)
{
	if (m->of->rule->scale != RT_POINT_SCALE)
		return 1;
	return m->scale * (m->alike ? 1 : (int64_t)m->judges);
}

/* From the rounded percentage: it, or base x (100 - it) / 100, and what is added or taken. */
static const char *score_of_percent(const struct rt__marks *m, lxw_row_t row)
{
	const struct rt_rule *rule = m->of->rule;
	int64_t unit = rt_power_of_ten(rule->percent_decimals);
	const char *percent = whole(m, rt__ref(row, m->percent).s, unit), *num;
	int64_t share = best_share(m);

	if (rule->scale != RT_PENALTY_SCALE)
		num = SAY(m, "%s*%s-%s*%" PRId64, percent, best(m), score_toll(m, row),
			  unit * share);
	else
		num = SAY(m, "%s*(%" PRId64 "-%s)+%s*%" PRId64, rt__ref_fixed(m->base, 0).s,
			  100 * unit, percent, score_toll(m, row), unit);
	return rounded(m, num, SAY(m, "%" PRId64, 100 * unit * share), rule->score_decimals);
}

/* base x (maximum - points) / maximum + what is added. */
static const char *converted(const struct rt__marks *m, lxw_row_t row)
{
	const char *most = most_points(m, row);

	return rounded(m,
		       SAY(m, "%s*(%s-%s)*100+%s*%s", rt__ref_fixed(m->base, 0).s, most,
			   all_points(m, row), score_toll(m, row), most),
		       SAY(m, "100*%s", most), m->of->rule->score_decimals);
}

/* base - printed multiplier x mean of the judges' points + what is added; the scale holds the
 * hundred that hundredths need. */
static const char *converted_as_printed(const struct rt__marks *m, lxw_row_t row)
{
	const char *full = SAY(m, "COUNT(%s)*%" PRId64, of_entry(m, row, m->points).s,
			       m->scale * m->multiplier_scale);
	const char *multiplier = whole(m, rt__ref_fixed(m->multiplier, 0).s, m->multiplier_scale);

	return rounded(m,
		       SAY(m, "%s*%s-%s*%s+%s*%s/100", rt__ref_fixed(m->base, 0).s, full,
			   multiplier, all_points(m, row), score_toll(m, row), full),
		       full, m->of->rule->score_decimals);
}

/* The percentage with the decimals of the score, less all that the rule takes off it. */
static const char *score_in_percent(const struct rt__marks *m, lxw_row_t row)
{
	const struct rt_rule *rule = m->of->rule;
	const char *off = NULL;

	if (rule->taken == RT_TAKEN_PERCENT)
		off = hundredths(m, row, m->error_cost);
	else if (rule->taken == RT_TAKEN_SCORE)
		off = hundredths(m, row, m->together);
	return percentage(m, all_points(m, row), most_points(m, row), off, rule->score_decimals);
}

/* The same share of another best. */
static const char *score_in_points(const struct rt__marks *m, lxw_row_t row)
{
	const char *most = most_points(m, row), *off = "0";
	int64_t share = best_share(m);

	if (m->of->rule->taken == RT_TAKEN_PERCENT)
		off = hundredths(m, row, m->error_cost);
	return rounded(m,
		       SAY(m, "%s*(%s*10000-%s*%s)-%s*%s*%" PRId64, best(m), all_points(m, row),
			   off, most, score_toll(m, row), most, 100 * share),
		       SAY(m, "10000*%s*%" PRId64, most, share), m->of->rule->score_decimals);
}

const char *rt__formula_score(const struct rt__marks *m, lxw_row_t row)
{
	const struct rt_rule *rule = m->of->rule;
	const char *score;

	if (rule->judge_decimals >= 0)
		score = score_of_percent(m, row);
	else if (rule->scale == RT_PERCENT_SCALE)
		score = score_in_percent(m, row);
	else if (rule->scale != RT_PENALTY_SCALE)
		score = score_in_points(m, row);
	else
		score = m->multiplier ? converted_as_printed(m, row) : converted(m, row);
	return if_scored(m, row, score);
}

/* ---- an entry's place ---- */

const char *rt__formula_ranked(const struct rt__marks *m, lxw_row_t row)
{
	struct rt__ref score = rt__ref(row, m->score);

	return SAY(m, "=IF(AND(ISNUMBER(%s),%s<>\"yes\"),%s,\"\")", score.s,
		   rt__ref(row, m->hors_concours).s, score.s);
}

/* The points of a group of items, and of one item, over all judges. */
static const char *group_sum(const struct rt__marks *m, lxw_row_t row, enum rt_item_group group)
{
	return nearest(m, SAY(m, "SUM(%s)", of_entry(m, row, m->group[group]).s), m->scale);
}

static const char *item_sum(const struct rt__marks *m, lxw_row_t row, size_t step)
{
	size_t item = rt__tie_item(m->of->items, m->of->rule, m->tie[step]);
	lxw_col_t col = (lxw_col_t)(m->item + item);

	return nearest(m,
		       SAY(m, "(SUM(%s)*%s)", of_entry(m, row, col).s,
			   rt__ref_fixed(m->coefficients, col).s),
		       m->scale);
}

const char *rt__formula_worth(const struct rt__marks *m, lxw_row_t row, size_t step)
{
	int64_t unit = 2 * rt_power_of_ten(m->results->judge_percent_digits);
	struct rt__ref judge = rt__ref(row + (lxw_row_t)rt__marks_tie_judge(m, step),
				       m->judge_percent);
	const char *worth = NULL;

	switch (m->of->rule->tie[m->tie[step]].by) {
	case RT_TIE_GENERAL:
		worth = group_sum(m, row, RT_GROUP_GENERAL);
		break;
	case RT_TIE_ARTISTIC:
		worth = group_sum(m, row, RT_GROUP_ARTISTIC);
		break;
	case RT_TIE_ITEM:
		worth = item_sum(m, row, step);
		break;
	case RT_TIE_MEDIAN:
		worth = nearest(m, SAY(m, "MEDIAN(%s)", of_entry(m, row, m->counted).s), unit);
		break;
	case RT_TIE_PRESIDENT:
	case RT_TIE_JUDGE:
		worth = SAY(m, "IF(%s=\"\",%d,%s)", judge.s, RT__NO_SHEET, judge.s);
		break;
	case RT_TIE_DECISION: /* a figure to type */
		return "";
	}
	return SAY(m, "=IF(%s=\"\",\"\",%s)", rt__ref(row, m->ranked).s, worth);
}

/* How many of one's division, among some, have more than one has (or less). */
static const char *count_better(const struct rt__marks *m, lxw_row_t row, const char *among,
				lxw_col_t col, bool lowest)
{
	return SAY(m, "SUMPRODUCT(%s*EXACT(%s,%s)*(%s%c%s))", among, of_all(m, m->division).s,
		   rt__ref(row, m->division).s, of_all(m, col).s, lowest ? '<' : '>',
		   rt__ref(row, col).s);
}

static const char *place_by_score(const struct rt__marks *m, lxw_row_t row)
{
	const char *among = SAY(m, "ISNUMBER(%s)", of_all(m, m->ranked).s);

	return SAY(m, "=IF(%s=\"\",\"\",1+%s)", rt__ref(row, m->ranked).s,
		   count_better(m, row, among, m->ranked, m->of->rule->wins == RT_LOWEST_WINS));
}

const char *rt__formula_place(const struct rt__marks *m, lxw_row_t row, size_t steps)
{
	struct rt__ref so_far;
	const char *among, *place;
	int64_t limit;

	if (steps == 0)
		return place_by_score(m, row);
	so_far = rt__ref(row, m->stage[steps - 1]);
	among = SAY(m, "(%s=%s)", of_all(m, m->stage[steps - 1]).s, so_far.s);
	place = SAY(m, "%s+%s", so_far.s, count_better(m, row, among, m->worth[steps - 1], false));
	limit = m->of->rule->tie[m->tie[steps - 1]].places;
	if (limit)
		place = SAY(m, "IF(%s>%" PRId64 ",%s,%s)", so_far.s, limit, so_far.s, place);
	return SAY(m, "=IF(%s=\"\",\"\",%s)", so_far.s, place);
}
