/* Results as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#define JUDGES_WORDS 1000 /* longer lists of judges are cut */

/* ---- the class ---- */

static const struct rt_field class_columns[] = {
	{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
	{"title", "Title", RT_TEXT, RT_NO_UNIT, 0, false},
	{"test", "Test", RT_TEXT, RT_NO_UNIT, 0, false},
	{"rule", "Rule", RT_TEXT, RT_NO_UNIT, 0, false},
	{"judges", "Judges", RT_TEXT, RT_NO_UNIT, 0, false},
	{"maximum", "Maximum", RT_DECIMAL, RT_NO_UNIT, 0, true},
	{"state", "State", RT_TEXT, RT_NO_UNIT, 0, false},
	{"sheets_in", "Sheets in", RT_INT, RT_NO_UNIT, 0, true},
	{"sheets", "Sheets", RT_INT, RT_NO_UNIT, 0, true},
};

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))

static void put_points(struct rt_table *t, int64_t points_x10000, int digits)
{
	rt_put_decimal(t, points_x10000 / rt_power_of_ten(4 - digits), digits);
}

static void report_class(struct rt_report *report, const struct rt_results *r)
{
	const struct rt_class *class_ = r->of->class_;
	struct rt_table *t = rt_report_table(report, "class_summary", "Class", class_columns,
					     COLUMNS(class_columns));
	char judges[JUDGES_WORDS];
	int64_t in = 0, all = 0;

	for (size_t i = 0; i < r->n; i++) {
		if (r->at[i].status != RT_ENTERED)
			continue;
		in += (int64_t)r->at[i].sheets;
		all += (int64_t)r->at[i].expected;
	}
	rt_judges_words(&class_->judges, judges, sizeof judges);
	rt_put_text(t, class_->name);
	rt_put_text(t, class_->title);
	rt_put_text(t, r->of->test->name);
	rt_put_text(t, r->of->rule->name);
	rt_put_text(t, judges);
	put_points(t, r->maximum_x10000, rt_digits_needed(r->maximum_x10000, 4, 0));
	rt_put_text(t, r->state);
	rt_put_int(t, in);
	rt_put_int(t, all);
}

/* ---- results ---- */

/* In text the percentage beside a percentage score says nothing new, nor do penalties beside a
 * penalty score, nor a division that nobody has. */
#define RESULT_COLUMNS(no_percent, no_division)                                                    \
	{                                                                                          \
		{"place", "Place", RT_INT, RT_NO_UNIT, 0, false},                                  \
			{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},                           \
			{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},                       \
			{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, false},                       \
			{"division", "Division", RT_TEXT, RT_NO_UNIT, 0, no_division},             \
			{"status", "Status", RT_TEXT, RT_NO_UNIT, 0, false},                       \
			{"score", "Score", RT_DECIMAL, RT_NO_UNIT, 0, false},                      \
			{"percent", "%", RT_DECIMAL, RT_PERCENT, 0, no_percent},                   \
			{"penalties", "Penalties", RT_DECIMAL, RT_NO_UNIT, 0, true},               \
			{"penalty_points", "Pen.", RT_DECIMAL, RT_NO_UNIT, 0, false},              \
			{"points_off", "Points off", RT_DECIMAL, RT_NO_UNIT, 0, true},             \
			{"errors", "Err.", RT_INT, RT_NO_UNIT, 0, false},                          \
			{"hors_concours", "Hors concours", RT_BOOL, RT_NO_UNIT, 0, true},          \
			{"parted_by", "Tie parted by", RT_TEXT, RT_NO_UNIT, 0, true},              \
			{"why", "Why", RT_TEXT, RT_NO_UNIT, 0, true},                              \
	}

static const struct rt_field result_columns[][2][15] = {
	{RESULT_COLUMNS(false, false), RESULT_COLUMNS(false, true)},
	{RESULT_COLUMNS(true, false), RESULT_COLUMNS(true, true)},
};

const char *rt_result_words(const struct rt_result *result)
{
	if (result->status != RT_ENTERED)
		return rt_status_words(result->status);
	if (result->entry->hors_concours)
		return "hors concours";
	if (!result->scored)
		return rt_status_words(RT_ENTERED);
	return result->sheets < result->expected || result->empty ? "running" : "finished";
}

static void put_if(struct rt_table *t, bool there, int64_t units, int digits)
{
	if (there)
		rt_put_decimal(t, units, digits);
	else
		rt_put_null(t);
}

/* What is taken off or added in the unit of the rule; points beside per cent are told apart. */
static int64_t penalty_in_unit(const struct rt_rule *rule, const struct rt_result *result)
{
	return rule->taken == RT_TAKEN_PERCENT ? result->error_x100 : result->penalty_x100;
}

static void put_result(struct rt_table *t, const struct rt_results *r,
		       const struct rt_result *result, int penalty_digits)
{
	const struct rt_rule *rule = r->of->rule;
	bool penalties = result->scored && rule->scale == RT_PENALTY_SCALE;

	if (result->place)
		rt_put_int(t, (int64_t)result->place);
	else
		rt_put_null(t);
	rt_put_int(t, result->entry->number);
	rt_put_text(t, result->entry->driver);
	rt_put_text(t, result->entry->horses);
	rt_put_text(t, result->division);
	rt_put_text(t, rt_result_words(result));
	put_if(t, result->scored, result->score, rule->score_decimals);
	put_if(t, result->scored, result->percent, rule->percent_decimals);
	put_if(t, penalties, result->score, rule->score_decimals);
	rt_put_decimal(t, penalty_in_unit(rule, result) / rt_power_of_ten(2 - penalty_digits),
		       penalty_digits);
	put_if(t, rule->taken == RT_TAKEN_PERCENT, result->points_x100, 2);
	rt_put_int(t, result->errors);
	rt_put_bool(t, result->entry->hors_concours);
	rt_put_text(t, result->parted_by);
	rt_put_text(t, result->status_why);
}

static void report_results(struct rt_report *report, const struct rt_results *r)
{
	bool percent = r->of->rule->scale == RT_PERCENT_SCALE, divided = false;
	int digits = 0; /* as many as the penalty that needs most */
	struct rt_table *t;

	for (size_t i = 0; i < r->n; i++) {
		divided |= r->at[i].division != NULL;
		digits = rt_digits_needed(penalty_in_unit(r->of->rule, &r->at[i]), 2, digits);
	}
	t = rt_report_table(report, "results", "Results", result_columns[percent][!divided],
			    COLUMNS(result_columns[0][0]));
	rt_table_main(t);
	for (size_t i = 0; i < r->n; i++)
		put_result(t, r, &r->at[i], digits);
}

/* ---- judges ---- */

static const struct rt_field judge_columns[] = {
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"position", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
	{"points", "Points", RT_DECIMAL, RT_NO_UNIT, 0, false},
	{"percent", "Percent", RT_DECIMAL, RT_PERCENT, 0, false},
	{"place", "Place", RT_INT, RT_NO_UNIT, 0, false},
	{"counted", "Counted as", RT_DECIMAL, RT_PERCENT, 0, true},
	{"filled", "Boxes filled", RT_INT, RT_NO_UNIT, 0, true},
};

/* The points of a sheet to the nearest ten thousandth, of a half the one above. */
static int64_t shown_points(const struct rt_judge_result *sheet)
{
	return sheet->points_x10000 +
	       (sheet->part.num > 0 && 2 * sheet->part.num >= sheet->part.den);
}

static void put_sheet(struct rt_table *t, const struct rt_results *r,
		      const struct rt_result *result, size_t j, int digits)
{
	const struct rt_judge_result *sheet = &result->judge[j];

	rt_put_int(t, result->entry->number);
	rt_put_text(t, r->of->class_->judges.at[j].position);
	put_points(t, shown_points(sheet), digits);
	rt_put_decimal(t, sheet->percent, r->judge_percent_digits);
	if (sheet->place)
		rt_put_int(t, (int64_t)sheet->place);
	else
		rt_put_null(t);
	rt_put_decimal(t, sheet->counted, r->judge_percent_digits);
	rt_put_int(t, (int64_t)sheet->filled);
}

static void report_judges(struct rt_report *report, const struct rt_results *r)
{
	size_t judges = r->of->class_->judges.n;
	struct rt_table *t = rt_report_table(report, "judges", "Judges", judge_columns,
					     COLUMNS(judge_columns));
	int digits = 1; /* of points: as many as the sheet that needs most */

	for (size_t i = 0; i < r->n; i++)
		for (size_t j = 0; j < judges; j++)
			digits = rt_digits_needed(shown_points(&r->at[i].judge[j]), 4, digits);
	for (size_t i = 0; i < r->n; i++)
		for (size_t j = 0; j < judges; j++)
			if (r->at[i].judge[j].in)
				put_sheet(t, r, &r->at[i], j, digits);
}

void rt_results_report(struct rt_report *report, const struct rt_results *r)
{
	report_class(report, r);
	report_results(report, r);
	report_judges(report, r);
	for (size_t i = 0; i < r->notes.n; i++)
		rt_report_note(report, "%s", r->notes.at[i]);
	report->needs_person |= r->differ;
}
