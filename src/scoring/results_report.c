/* Results as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>

#define JUDGES_WORDS 1000 /* longer lists of judges are cut */

/* A row of any of the tables: what it shows, and what is worked out for it. */
struct row {
	const struct rt_result *result;
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	const struct rt_judge_result *sheet;
	const struct rt_class *class_;
	const char *test, *rule, *judges, *state;
	struct rt_exact maximum, score, percent, technical, artistic, penalties, added, off, points,
		counted;
	size_t in, all;
};

#define RESULT(member) RT_IN(struct row, result, struct rt_result, member)
#define ENTRY(member)  RT_IN(struct row, entry, struct rt_entry, member)
#define SHEET(member)  RT_IN(struct row, sheet, struct rt_judge_result, member)
#define EXACT(member)  RT_AT(struct row, member), .type = RT_EXACT

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

int64_t rt__penalty_in_unit(const struct rt_rule *rule, const struct rt_result *result)
{
	return rule->taken == RT_TAKEN_PERCENT ? result->error_x100 : result->penalty_x100;
}

/* ---- the class ---- */

static const struct rt_field summary_fields[] = {
	{"class", .head = "Class", RT_IN(struct row, class_, struct rt_class, name)},
	{"title", .head = "Title", RT_IN(struct row, class_, struct rt_class, title)},
	{"test", .head = "Test", RT_AT(struct row, test)},
	{"rule", .head = "Rule", RT_AT(struct row, rule)},
	{"judges", .head = "Judges", RT_AT(struct row, judges), .type = RT_LETTERS},
	{"maximum", .head = "Maximum", EXACT(maximum), .wide = true},
	{"state", .head = "State", RT_AT(struct row, state)},
	{"sheets_in", .head = "Sheets in", RT_AT(struct row, in), .type = RT_SIZE, .wide = true},
	{"sheets", .head = "Sheets", RT_AT(struct row, all), .type = RT_SIZE, .wide = true},
};

static const struct rt_record summary_table = RT_TABLE("summary", "Class", summary_fields,
						       struct row);

static void report_class(struct rt_report *report, const struct rt_results *r)
{
	char judges[JUDGES_WORDS];
	struct row row = {
		.class_ = r->of->class_,
		.test = r->of->test->name,
		.rule = r->of->rule->name,
		.judges = judges,
		.maximum = rt_exact_short(r->maximum_x100000, 5, 0),
		.state = r->state,
	};

	for (size_t i = 0; i < r->n; i++) {
		if (r->at[i].status != RT_ENTERED)
			continue;
		row.in += r->at[i].sheets;
		row.all += r->at[i].expected;
	}
	rt_judges_words(&row.class_->judges, judges, sizeof judges);
	rt_report_list(report, &summary_table, &row, 1);
}

/* ---- results ---- */

static const struct rt_field result_fields[] = {
	{"place", .head = "Place", RESULT(place), .type = RT_SIZE, .is = RT_EMPTY},
	{"number", .head = "No.", ENTRY(number), .type = RT_INT},
	{"driver", .head = "Driver", ENTRY(driver)},
	{"horses", .head = "Horses", ENTRY(horses), .type = RT_NAMES},
	{"division", .head = "Division", RESULT(division)},
	{"status", .head = "Status", RT_AT(struct row, state)},
	{"score", .head = "Score", EXACT(score)},
	{"percent", .head = "%", EXACT(percent), .unit = RT_PERCENT},
	{"technical", .head = "Technical", EXACT(technical), .unit = RT_PERCENT},
	{"artistic", .head = "Artistic", EXACT(artistic), .unit = RT_PERCENT},
	{"penalties", .head = "Penalties", EXACT(penalties), .wide = true},
	{"penalty_points", .head = "Pen.", EXACT(added)},
	{"points_off", .head = "Off", EXACT(off), .wide = true},
	{"errors", .head = "Err.", RESULT(errors), .type = RT_INT},
	{"hors_concours", .head = "Hors concours", ENTRY(hors_concours), .type = RT_BOOL,
	 .wide = true},
	{"parted_by", .head = "Tie parted by", RESULT(parted_by), .wide = true},
	{"why", .head = "Why", RESULT(status_why), .wide = true},
};

static const struct rt_record results_table = RT_TABLE("results", "Results", result_fields,
						       struct row);

static void put_result(struct rt_table *t, const struct rt_results *r,
		       const struct rt_result *result, int penalty_digits)
{
	const struct rt_rule *rule = r->of->rule;
	struct row row = {
		.result = result,
		.entry = result->entry,
		.state = rt_result_words(result),
		.added = rt_exact_short(rt__penalty_in_unit(rule, result), 2, penalty_digits),
	};

	if (result->scored) {
		row.score = rt_exact(result->score, rule->score_decimals);
		row.percent = rt_exact(result->percent, rule->percent_decimals);
	}
	if (result->scored && r->halves) {
		row.technical = rt_exact(result->technical, rule->percent_decimals);
		row.artistic = rt_exact(result->artistic, rule->percent_decimals);
	}
	if (rule->scale == RT_PENALTY_SCALE)
		row.penalties = row.score;
	if (rule->taken == RT_TAKEN_PERCENT)
		row.off = rt_exact(result->points_x100, 2);
	rt_put_row(t, &row);
}

/* In text the percentage beside a percentage score says nothing new, nor does a division that
 * nobody has, or a column of points that nobody loses, or halves that there are not. */
static void report_results(struct rt_report *report, const struct rt_results *r)
{
	struct rt_table *t = rt_report_rows(report, &results_table);
	const struct rt_rule *rule = r->of->rule;
	bool divided = false, off = false;
	int digits = 0; /* as many as the penalty that needs most */

	for (size_t i = 0; i < r->n; i++) {
		divided |= r->at[i].division != NULL;
		off |= r->at[i].points_x100 != 0;
		digits = rt_digits_needed(rt__penalty_in_unit(rule, &r->at[i]), 2, digits);
	}
	rt_table_main(t);
	rt_table_show(t, "percent", rule->scale != RT_PERCENT_SCALE);
	rt_table_show(t, "division", divided);
	rt_table_show(t, "technical", r->halves);
	rt_table_show(t, "artistic", r->halves);
	off &= rule->taken == RT_TAKEN_PERCENT;
	rt_table_show(t, "points_off", off);
	rt_table_show(t, "errors", !off); /* there is no room for both */
	for (size_t i = 0; i < r->n; i++)
		put_result(t, r, &r->at[i], digits);
}

/* ---- judges ---- */

static const struct rt_field sheet_fields[] = {
	{"number", .head = "No.", ENTRY(number), .type = RT_INT},
	{"position", .head = "Judge", RT_IN(struct row, judge, struct rt_judge, position)},
	{"points", .head = "Points", EXACT(points)},
	{"percent", .head = "Percent", EXACT(percent), .unit = RT_PERCENT},
	{"place", .head = "Place", SHEET(place), .type = RT_SIZE, .is = RT_EMPTY},
	{"counted", .head = "Counted as", EXACT(counted), .unit = RT_PERCENT, .wide = true},
	{"filled", .head = "Boxes filled", SHEET(filled), .type = RT_SIZE, .wide = true},
};

static const struct rt_record judges_table = RT_TABLE("judges", "Judges", sheet_fields, struct row);

/* The points of a sheet to the nearest ten thousandth, of a half the one above. */
static int64_t shown_points(const struct rt_judge_result *sheet)
{
	return sheet->points_x100000 +
	       (sheet->part.num > 0 && 2 * sheet->part.num >= sheet->part.den);
}

static void put_sheets(struct rt_table *t, const struct rt_results *r,
		       const struct rt_result *result, int digits)
{
	for (size_t j = 0; j < r->of->class_->judges.n; j++) {
		const struct rt_judge_result *sheet = &result->judge[j];
		struct row row = {
			.entry = result->entry,
			.judge = &r->of->class_->judges.at[j],
			.sheet = sheet,
			.points = rt_exact_short(shown_points(sheet), 5, digits),
			.percent = rt_exact(sheet->percent, r->judge_percent_digits),
			.counted = rt_exact(sheet->counted, r->judge_percent_digits),
		};

		if (sheet->in)
			rt_put_row(t, &row);
	}
}

static void report_judges(struct rt_report *report, const struct rt_results *r)
{
	struct rt_table *t = rt_report_rows(report, &judges_table);
	int digits = 1; /* of points: as many as the sheet that needs most */

	for (size_t i = 0; i < r->n; i++)
		for (size_t j = 0; j < r->of->class_->judges.n; j++)
			digits = rt_digits_needed(shown_points(&r->at[i].judge[j]), 5, digits);
	for (size_t i = 0; i < r->n; i++)
		put_sheets(t, r, &r->at[i], digits);
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

const struct rt_record *const rt_scoring_tables[] = {&summary_table,
						     &results_table,
						     &judges_table,
						     &rt__panel_table,
						     &rt__pairs_table,
						     &rt__movements_table,
						     &rt__marks_apart_table,
						     &rt__sheets_apart_table,
						     &rt__changes_table,
						     &rt__posting_table,
						     NULL};
