/* The score of one entry, exactly.
 *
 * Points are hundred thousandths.  M, the maximum of all sheets that are in, is at most 6e10 such
 * units, and so is what a score of points is out of; what is taken off is at most 1e5 hundredths,
 * decimals at most 9: the largest product below, 6e10 x 1e5 x M x 1e9 = 4e35 (a percentage turned
 * into points), is why those of the roundings are rt__wide.  What is kept is inside an int64_t.  Points below zero reach no further than what is taken off: 99 sheets x 1e8.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>

size_t rt__entry_index(const struct rt_results *r, const struct rt_result *result)
{
	return (size_t)(result->entry - r->of->entries->at);
}

/* num / den with so many decimals, in units of the last. */
static int64_t round_to(const struct rt_rule *rule, rt__wide num, rt__wide den, int decimals)
{
	const struct rt_part none = {0, 0};

	return rt__round_with_part(rule->rounding, num * rt_power_of_ten(decimals), 0, &none, den);
}

/* 100 x points / maximum - off, in units of 10^-decimals. */
static int64_t percent_of(const struct rt_rule *rule, const struct rt_sum *points,
			  int64_t maximum_x100000, int64_t off_x100, int decimals)
{
	rt__wide unit = rt_power_of_ten(decimals);

	return rt__round_with_part(rule->rounding,
				   (points->x100000 * 10000 - off_x100 * maximum_x100000) * unit,
				   10000 * unit, &points->part, maximum_x100000 * 100);
}

/* ---- whether there is something to score ---- */

static enum rt_err add_up_maximum(const struct rt_class_marks *m, int64_t *maximum_x100000,
				  struct rt_error *err)
{
	int64_t maximum = 0;

	for (size_t i = 0; i < m->items->n; i++) {
		const struct rt_item *item = &m->items->at[i];
		int64_t most = RT__POINTS_MOST_X100000 - maximum;

		if (item->coefficient_x1000 < 0 ||
		    item->coefficient_x1000 > most / RT_MARK_MOST_X100)
			return rt_fail(err, RT_E_INPUT,
				       "test %s, item %s: the coefficient is below 0 or too large",
				       m->test->name, item->name);
		maximum += item->coefficient_x1000 * RT_MARK_MOST_X100;
	}
	if (maximum == 0)
		return rt_fail(err, RT_E_INPUT, "test %s has no item that counts", m->test->name);
	*maximum_x100000 = maximum;
	return RT_OK;
}

/* Whether every item is somebody's, every judge has an item, and the rule can score what they
 * make together. */
static enum rt_err check_boxes(const struct rt_results *r, struct rt_error *err)
{
	const struct rt_class_marks *m = r->of;
	bool all = true;

	for (size_t i = 0; i < m->items->n; i++) {
		size_t judges = 0;

		for (size_t j = 0; j < m->class_->judges.n; j++)
			judges += rt_class_marks_asked(m, j, i);
		if (!judges)
			return rt_fail(err, RT_E_INPUT,
				       "test %s, item %s is marked at %s, where class %s has no judge",
				       m->test->name, m->items->at[i].name, m->items->at[i].judges,
				       m->class_->name);
		all &= judges == m->class_->judges.n;
	}
	for (size_t j = 0; j < m->class_->judges.n; j++)
		if (!rt__boxes(m, j))
			return rt_fail(err, RT_E_INPUT,
				       "class %s: the judge at %s marks no item of test %s",
				       m->class_->name, rt__position(r, j), m->test->name);
	if (!all && m->test->multiplier_x1000000)
		return rt_fail(err, RT_E_INPUT,
			       "test %s: the printed multiplier is for sheets with every item, and "
			       "some are marked by some judges only",
			       m->test->name);
	if (r->parts > 1 && m->rule->apart_x100)
		return rt_fail(err, RT_E_INPUT,
			       "class %s: rule %s moves judges who are too far apart, but not all of "
			       "them judge the same",
			       m->class_->name, m->rule->name);
	return RT_OK;
}

enum rt_err rt__class_check(struct rt_results *r, struct rt_error *err)
{
	const struct rt_class_marks *m = r->of;
	int64_t judges = (int64_t)m->class_->judges.n;
	enum rt_err e;

	if (judges < 1 || judges > RT__JUDGES_MOST)
		return rt_fail(err, RT_E_INPUT, "class %s has %" PRId64 " judges: 1 to %d",
			       m->class_->name, judges, RT__JUDGES_MOST);
	e = add_up_maximum(m, &r->maximum_x100000, err);
	if (!e)
		e = check_boxes(r, err);
	if (e)
		return e;
	if (r->maximum_x100000 > RT__POINTS_MOST_X100000 / judges)
		return rt_fail(err, RT_E_INPUT,
			       "test %s: more than %" PRId64 " points over all judges",
			       m->test->name, RT__POINTS_MOST_X100000 / 100000);
	if (m->test->multiplier_x1000000 < 0 ||
	    m->test->multiplier_x1000000 > RT__MULTIPLIER_MOST_X1000000)
		return rt_fail(err, RT_E_INPUT, "test %s: the multiplier is not 0 to below 1000",
			       m->test->name);
	return rt_rule_check(m->rule, err);
}

/* ---- sheets ---- */

/* Count how a box or line was keyed. */
static void count_keyed(struct rt_result *result, enum rt__keyed keyed)
{
	result->differing += keyed == RT__DIFFERING;
	result->single += keyed == RT__SINGLE;
}

/* Read one box: its mark goes into the sheet, or it is counted as one to fill or as empty. */
static enum rt_err read_box(const struct rt_class_marks *m, struct rt_result *result, size_t entry,
			    size_t j, size_t i, struct rt__gaps *gaps, struct rt_error *err)
{
	const struct rt_box *box = rt_class_marks_box(m, entry, j, i);
	const struct rt_item *item = &m->items->at[i];
	int64_t mark;
	enum rt__keyed keyed = rt__settle(box->keyed_x100, &mark);

	if (!rt_class_marks_asked(m, j, i))
		return RT_OK;
	result->judge[j].maximum_x100000 += item->coefficient_x1000 * RT_MARK_MOST_X100;
	count_keyed(result, keyed);
	if (mark > RT_MARK_MOST_X100)
		return rt_fail(err, RT_E_INPUT, "number %" PRId64 ", %s, item %s: a mark beyond 10",
			       result->entry->number, m->class_->judges.at[j].position, item->name);
	gaps->empty += keyed == RT__EMPTY;
	if (keyed == RT__EMPTY && box->missing) {
		gaps->boxes++;
		gaps->coefficients_x1000 += item->coefficient_x1000;
		gaps->group_x1000[item->group] += item->coefficient_x1000;
	}
	if (mark < 0)
		return RT_OK;
	result->judge[j].raw_x100000 += mark * item->coefficient_x1000;
	result->group[item->group].x100000 += mark * item->coefficient_x1000;
	return RT_OK;
}

static enum rt_err read_boxes(const struct rt_class_marks *m, struct rt_result *result,
			      size_t entry, size_t j, struct rt_error *err)
{
	struct rt_judge_result *sheet = &result->judge[j];
	struct rt__gaps gaps = {0};
	size_t boxes = rt__boxes(m, j);
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < m->items->n && !e; i++)
		e = read_box(m, result, entry, j, i, &gaps, err);
	if (!e)
		e = rt__fill(m, &gaps, result, j, err);
	sheet->in = gaps.empty < boxes;
	if (sheet->in) {
		result->boxes += boxes;
		result->empty += gaps.empty - sheet->filled;
	}
	result->sheets += sheet->in;
	return e;
}

static void read_lines(const struct rt_class_marks *m, struct rt_result *result, size_t entry,
		       size_t j)
{
	const struct rt_sheet_lines *lines = rt__lines(m, entry, j);
	int64_t value;

	count_keyed(result, rt__settle(lines->errors, &value));
	/* The hand total is a check beside the boxes: keyed once is enough. */
	if (rt__settle(lines->total_x100000, &value) == RT__DIFFERING)
		result->differing++;
}

/* ---- what is taken off, and where ---- */

/* What the rule takes off each sheet's points, off each percentage, and against the score. */
struct toll {
	int64_t points_x100, percent_x100, score_x100;
};

static struct toll toll_of(const struct rt_rule *rule, const struct rt_result *result)
{
	struct toll toll = {0, 0, 0};

	switch (rule->taken) {
	case RT_TAKEN_POINTS:
		toll.points_x100 = result->penalty_x100;
		break;
	case RT_TAKEN_PERCENT:
		toll.percent_x100 = result->error_x100;
		toll.points_x100 = result->points_x100;
		break;
	case RT_TAKEN_SCORE:
		toll.score_x100 = result->penalty_x100;
		break;
	}
	return toll;
}

/* ---- what can be had ---- */

/* What a judge's marks in groups of items from `from` to before `to` can come to. */
static int64_t most_of(const struct rt_class_marks *m, size_t judge, enum rt_item_group from,
		       enum rt_item_group to)
{
	int64_t most = 0;

	for (size_t i = 0; i < m->items->n; i++) {
		const struct rt_item *item = &m->items->at[i];

		if (item->group >= from && item->group < to && rt_class_marks_asked(m, judge, i))
			most += item->coefficient_x1000 * RT_MARK_MOST_X100;
	}
	return most;
}

/* ---- scores ---- */

/* The sheets that are in, added up: of a part, or of all parts with such weights that each part
 * counts as much as another. */
struct sum {
	struct rt_sum points;
	int64_t maximum_x100000;
	int64_t judge_percent; /* of the judges, in their unit */
	int64_t judges;	       /* of whom that is the sum */
	int64_t sheets;
};

/* The least number that both divide; 0: it is beyond what is counted. */
static int64_t common_multiple(int64_t a, int64_t b)
{
	int64_t times = b / rt__greatest_divisor(a, b);

	return a > RT__POINTS_MOST_X100000 / times ? 0 : a * times;
}

/* Add the points of one sum, so many times, to another. */
static bool add_points(struct rt_sum *sum, const struct rt_sum *points, int64_t times)
{
	struct rt_part rest;
	int64_t more = (int64_t)rt__part_times(&points->part, times, &rest);

	sum->x100000 += points->x100000 * times + more;
	return rt__part_add(&sum->x100000, &sum->part, rest.num, rest.den);
}

/* The sheets of one part of the work. */
static bool add_part(const struct rt_results *r, const struct rt_result *result, size_t part,
		     struct sum *sum)
{
	bool exact = true;

	*sum = (struct sum){.sheets = 0};
	for (size_t j = 0; j < r->of->class_->judges.n; j++) {
		const struct rt_judge_result *sheet = &result->judge[j];
		struct rt_sum points = {sheet->points_x100000, sheet->part};

		if (!sheet->in || r->part[j] != part)
			continue;
		exact &= add_points(&sum->points, &points, 1);
		sum->maximum_x100000 += sheet->maximum_x100000;
		sum->judge_percent += sheet->counted;
		sum->sheets++;
	}
	sum->judges = sum->sheets;
	return exact;
}

/* Add one part to the others: what either side is a fraction of becomes the same. */
static bool join_part(struct sum *all, const struct sum *part, int64_t parts)
{
	struct sum joined = {.sheets = all->sheets + part->sheets};
	int64_t most, heads, maximum, judges;
	bool exact;

	if (!parts) {
		*all = *part;
		return true;
	}
	most = all->maximum_x100000 / parts;
	heads = all->judges / parts;
	maximum = common_multiple(most, part->maximum_x100000);
	judges = common_multiple(heads, part->sheets);
	if (!maximum || maximum > RT__POINTS_MOST_X100000 / (parts + 1))
		return false;
	exact = add_points(&joined.points, &all->points, maximum / most) &&
		add_points(&joined.points, &part->points, maximum / part->maximum_x100000);
	joined.maximum_x100000 = maximum * (parts + 1);
	joined.judge_percent = all->judge_percent * (judges / heads) +
			       part->judge_percent * (judges / part->sheets);
	joined.judges = judges * (parts + 1);
	*all = joined;
	return exact;
}

/* All parts of which a sheet is in. */
static bool add_parts(const struct rt_results *r, const struct rt_result *result, struct sum *all)
{
	int64_t parts = 0;
	bool exact = true;

	for (size_t j = 0; j < r->of->class_->judges.n && exact; j++) {
		struct sum part;

		if (r->part[j] != j)
			continue;
		exact = add_part(r, result, j, &part);
		if (exact && part.sheets)
			exact = join_part(all, &part, parts++);
	}
	return exact;
}

static bool add_sheets(const struct rt_results *r, struct rt_result *result,
		       const struct toll *toll, struct sum *sum)
{
	size_t judges = r->of->class_->judges.n;

	for (size_t j = 0; j < judges; j++) {
		struct rt_judge_result *sheet = &result->judge[j];
		struct rt_sum points;

		if (!sheet->in)
			continue;
		sheet->points_x100000 = sheet->raw_x100000 - toll->points_x100 * 1000;
		points = (struct rt_sum){sheet->points_x100000, sheet->part};
		sheet->percent = percent_of(r->of->rule, &points, sheet->maximum_x100000,
					    toll->percent_x100, r->judge_percent_digits);
	}
	rt__move_judges(r->of->rule, result, judges, r->judge_percent_digits);
	return add_parts(r, result, sum);
}

/* The best that a score can be, num / den hundred thousandths, where the highest wins. */
struct best {
	int64_t num, den;
};

static struct best best_of(const struct rt_results *r)
{
	const struct rt_class_marks *m = r->of;
	struct best best = {0, (int64_t)m->class_->judges.n};

	if (m->rule->scale != RT_POINT_SCALE)
		return (struct best){m->rule->scale == RT_TEN_SCALE ? 1000000 : 10000000, 1};
	for (size_t j = 0; j < m->class_->judges.n; j++)
		best.num += most_of(m, j, RT_GROUP_MOVEMENT, RT_ITEM_GROUP_COUNT);
	return best;
}

/* Each judge's percentage was rounded: their mean, then the score from it. */
static void score_from_judges(const struct rt_results *r, const struct sum *sum,
			      const struct toll *toll, struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;
	int64_t unit = rt_power_of_ten(rule->percent_decimals), whole = 100 * unit;
	const struct best best = best_of(r);
	rt__wide off = toll->score_x100 * (rt__wide)unit, num, den = whole;

	result->percent = round_to(rule, sum->judge_percent,
				   sum->judges * (rt__wide)rt_power_of_ten(rule->judge_decimals),
				   rule->percent_decimals);
	if (rule->scale == RT_PENALTY_SCALE) {
		num = rule->base * (rt__wide)(whole - result->percent) + off;
	} else {
		num = (rt__wide)best.num * result->percent - off * best.den * 100000;
		den *= (rt__wide)best.den * 100000;
	}
	result->score = round_to(rule, num, den, rule->score_decimals);
}

/* best x (points / maximum - what is taken off the percentage) - what is taken off the score. */
static int64_t share_of_best(const struct rt_results *r, const struct sum *sum,
			     const struct toll *toll)
{
	const struct rt_rule *rule = r->of->rule;
	const struct best best = best_of(r);
	rt__wide unit = rt_power_of_ten(rule->score_decimals);
	rt__wide den = (rt__wide)best.den * sum->maximum_x100000 * 1000000000;
	rt__wide share = sum->points.x100000 * 10000 - toll->percent_x100 * sum->maximum_x100000;

	return rt__round_with_part(rule->rounding,
				   (best.num * share - toll->score_x100 * (den / 100)) * unit,
				   best.num * 10000 * unit, &sum->points.part, den);
}

/* base - base x points / maximum + what is added. */
static int64_t converted(const struct rt_rule *rule, const struct sum *sum, int64_t added_x100)
{
	int64_t lost = sum->maximum_x100000 - sum->points.x100000;
	rt__wide unit = rt_power_of_ten(rule->score_decimals);

	return rt__round_with_part(
		rule->rounding, (rule->base * lost * 100 + added_x100 * sum->maximum_x100000) * unit,
		-rule->base * 100 * unit, &sum->points.part, sum->maximum_x100000 * 100);
}

/* base - printed multiplier x mean of totals + what is added: a fraction with the divisor
 * 10^11 x sheets, which already holds the decimals asked for. */
static int64_t converted_as_printed(const struct rt_rule *rule, int64_t multiplier_x1000000,
				    const struct sum *sum, int64_t added_x100)
{
	rt__wide full = (rt__wide)sum->sheets * rt_power_of_ten(11);
	rt__wide num = rule->base * full - (rt__wide)multiplier_x1000000 * sum->points.x100000 +
		       added_x100 * (full / 100);

	return rt__round_with_part(rule->rounding, num, -multiplier_x1000000, &sum->points.part,
				   full / rt_power_of_ten(rule->score_decimals));
}

/* All points are added: one percentage, one conversion. */
static void score_from_points(const struct rt_results *r, const struct sum *sum,
			      const struct toll *toll, struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;
	int64_t printed = r->of->test->multiplier_x1000000;

	result->percent = percent_of(rule, &sum->points, sum->maximum_x100000, toll->percent_x100,
				     rule->percent_decimals);
	if (rule->scale != RT_PENALTY_SCALE)
		result->score = share_of_best(r, sum, toll);
	else if (printed > 0)
		result->score = converted_as_printed(rule, printed, sum, toll->score_x100);
	else
		result->score = converted(rule, sum, toll->score_x100);
}

/* ---- halves ---- */

/* The marks of groups of items from `from` to before `to`, in per cent of their maximum. */
static bool half_of(const struct rt_results *r, const struct rt_result *result,
		    enum rt_item_group from, enum rt_item_group to, int64_t *percent)
{
	struct rt_sum points = {0, {0, 0}};
	int64_t maximum = 0;
	bool exact = true;

	for (enum rt_item_group g = from; g < to; g++) {
		points.x100000 += result->group[g].x100000;
		exact &= rt__part_add(&points.x100000, &points.part, result->group[g].part.num,
				      result->group[g].part.den ? result->group[g].part.den : 1);
	}
	for (size_t j = 0; j < r->of->class_->judges.n; j++)
		maximum += result->judge[j].in ? most_of(r->of, j, from, to) : 0;
	*percent = maximum ? percent_of(r->of->rule, &points, maximum, 0,
					r->of->rule->percent_decimals)
			   : 0;
	return exact;
}

static bool take_halves(const struct rt_results *r, struct rt_result *result)
{
	return half_of(r, result, RT_GROUP_MOVEMENT, RT_GROUP_ARTISTIC, &result->technical) &&
	       half_of(r, result, RT_GROUP_ARTISTIC, RT_ITEM_GROUP_COUNT, &result->artistic);
}

/* Read all that is expected of an entry's sheets. */
static enum rt_err read_sheets(const struct rt_class_marks *m, struct rt_result *result,
			       size_t entry, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	for (size_t j = 0; j < m->class_->judges.n && !e; j++) {
		result->judge[j].away = rt__lines(m, entry, j)->away;
		if (result->judge[j].away)
			continue;
		result->expected++;
		e = read_boxes(m, result, entry, j, err);
		read_lines(m, result, entry, j);
	}
	return e;
}

enum rt_err rt__score(const struct rt_results *r, struct rt_result *result, struct rt_error *err)
{
	const struct rt_class_marks *m = r->of;
	size_t entry = rt__entry_index(r, result);
	struct sum sum = {0};
	struct toll toll;
	enum rt_err e = read_sheets(m, result, entry, err);

	if (!e)
		e = rt__take_errors(m, entry, result, err);
	if (e)
		return e;
	toll = toll_of(m->rule, result);
	if (!add_sheets(r, result, &toll, &sum))
		return rt__fail_inexact(result, err);
	result->scored = result->status == RT_ENTERED && sum.sheets > 0;
	if (!result->scored)
		return RT_OK;
	if (r->halves && !take_halves(r, result))
		return rt__fail_inexact(result, err);
	if (m->rule->judge_decimals == RT__POINTS_ADDED)
		score_from_points(r, &sum, &toll, result);
	else
		score_from_judges(r, &sum, &toll, result);
	return RT_OK;
}
