/* How the judges agreed, as tables and in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))
#define FEW_ENTRIES	 6 /* an order of fewer says little */

/* ---- names ---- */

static const char *position_of(const struct rt_judging *j, size_t judge)
{
	return j->of->of->class_->judges.at[judge].position;
}

/* ---- judges ---- */

static const struct rt_field panel_columns[] = {
	{"position", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
	{"sheets", "Sheets", RT_INT, RT_NO_UNIT, 0, false},
	{"mean_percent", "Mean %", RT_REAL, RT_PERCENT, 2, false},
	{"spread_percent", "Spread", RT_REAL, RT_PERCENT, 2, false},
	{"above_percent", "Above others", RT_REAL, RT_PERCENT, 2, false},
	{"widest_percent", "Widest", RT_REAL, RT_PERCENT, 2, false},
	{"spearman", "Same order", RT_REAL, RT_NO_UNIT, 2, false},
	{"kendall", "Kendall", RT_REAL, RT_NO_UNIT, 2, true},
};

static const struct rt_field pair_columns[] = {
	{"position", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
	{"other", "Beside", RT_TEXT, RT_NO_UNIT, 0, false},
	{"sheets", "Sheets", RT_INT, RT_NO_UNIT, 0, false},
	{"above_percent", "Above", RT_REAL, RT_PERCENT, 2, false},
	{"widest_percent", "Widest", RT_REAL, RT_PERCENT, 2, false},
	{"spearman", "Same order", RT_REAL, RT_NO_UNIT, 2, false},
	{"kendall", "Kendall", RT_REAL, RT_NO_UNIT, 2, true},
};

static void report_panel(struct rt_report *report, const struct rt_judging *j)
{
	struct rt_table *t = rt_report_table(report, "panel", "Each judge beside the others",
					     panel_columns, COLUMNS(panel_columns));

	for (size_t i = 0; i < j->judges; i++) {
		const struct rt_judge_view *v = &j->judge[i];

		rt_put_text(t, position_of(j, v->judge));
		rt_put_int(t, (int64_t)v->sheets);
		rt_put_real(t, v->mean_percent);
		rt_put_real(t, v->spread_percent);
		rt_put_real(t, v->above_percent);
		rt_put_real(t, v->widest_percent);
		rt_put_real(t, v->spearman);
		rt_put_real(t, v->kendall);
	}
}

static void report_pairs(struct rt_report *report, const struct rt_judging *j)
{
	struct rt_table *t = rt_report_table(report, "pairs", "Two by two", pair_columns,
					     COLUMNS(pair_columns));

	for (size_t i = 0; i < j->pairs; i++) {
		const struct rt_judge_view *v = &j->pair[i];

		rt_put_text(t, position_of(j, v->judge));
		rt_put_text(t, position_of(j, v->other));
		rt_put_int(t, (int64_t)v->sheets);
		rt_put_real(t, v->above_percent);
		rt_put_real(t, v->widest_percent);
		rt_put_real(t, v->spearman);
		rt_put_real(t, v->kendall);
	}
}

/* ---- movements ---- */

static const struct rt_field movement_columns[] = {
	{"item", "Item", RT_TEXT, RT_NO_UNIT, 0, false},
	{"letters", "Letters", RT_TEXT, RT_NO_UNIT, 0, false},
	{"movement", "Movement", RT_TEXT, RT_NO_UNIT, 0, true},
	{"entries", "Entries", RT_INT, RT_NO_UNIT, 0, false},
	{"mean_mark", "Mean mark", RT_REAL, RT_NO_UNIT, 2, false},
	{"mean_gap", "Apart, mean", RT_REAL, RT_NO_UNIT, 2, false},
	{"widest_gap", "Apart, most", RT_DECIMAL, RT_NO_UNIT, 0, false},
};

static void report_movements(struct rt_report *report, const struct rt_judging *j)
{
	struct rt_table *t = rt_report_table(report, "movements", "Movement by movement",
					     movement_columns, COLUMNS(movement_columns));

	for (size_t i = 0; i < j->items; i++) {
		const struct rt_item *item = &j->of->of->items->at[i];

		if (!j->item[i].entries) /* nothing is keyed of it */
			continue;
		rt_put_text(t, item->name);
		rt_put_text(t, item->letters);
		rt_put_text(t, item->movement);
		rt_put_int(t, (int64_t)j->item[i].entries);
		rt_put_real(t, j->item[i].mean_mark);
		rt_put_real(t, j->item[i].mean_gap);
		rt_put_decimal(t, j->item[i].widest_x10, 1);
	}
}

static const struct rt_field mark_columns[] = {
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},
	{"item", "Item", RT_TEXT, RT_NO_UNIT, 0, false},
	{"letters", "Letters", RT_TEXT, RT_NO_UNIT, 0, true},
	{"low", "Lowest at", RT_TEXT, RT_NO_UNIT, 0, false},
	{"low_mark", "Mark", RT_DECIMAL, RT_NO_UNIT, 0, false},
	{"high", "Highest at", RT_TEXT, RT_NO_UNIT, 0, false},
	{"high_mark", "Mark", RT_DECIMAL, RT_NO_UNIT, 0, false},
	{"gap", "Apart", RT_DECIMAL, RT_NO_UNIT, 0, false},
};

static void report_gaps(struct rt_report *report, const struct rt_judging *j)
{
	struct rt_table *t = rt_report_table(report, "marks_apart", "Marks far apart", mark_columns,
					     COLUMNS(mark_columns));

	for (size_t i = 0; i < j->gaps.n; i++) {
		const struct rt_mark_gap *g = &j->gaps.at[i];
		const struct rt_item *item = &j->of->of->items->at[g->item];

		rt_put_int(t, g->result->entry->number);
		rt_put_text(t, g->result->entry->driver);
		rt_put_text(t, item->name);
		rt_put_text(t, item->letters);
		rt_put_text(t, position_of(j, g->low));
		rt_put_decimal(t, g->low_x10, 1);
		rt_put_text(t, position_of(j, g->high));
		rt_put_decimal(t, g->high_x10, 1);
		rt_put_decimal(t, g->high_x10 - g->low_x10, 1);
	}
}

static const struct rt_field sheet_columns[] = {
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},
	{"position", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
	{"percent", "%", RT_REAL, RT_PERCENT, 3, false},
	{"others_percent", "Others", RT_REAL, RT_PERCENT, 3, false},
	{"above_percent", "Above", RT_REAL, RT_PERCENT, 3, false},
};

static void report_sheets(struct rt_report *report, const struct rt_judging *j)
{
	struct rt_table *t = rt_report_table(report, "sheets_apart", "Sheets far from the others",
					     sheet_columns, COLUMNS(sheet_columns));

	for (size_t i = 0; i < j->apart.n; i++) {
		const struct rt_sheet_apart *a = &j->apart.at[i];

		rt_put_int(t, a->result->entry->number);
		rt_put_text(t, a->result->entry->driver);
		rt_put_text(t, position_of(j, a->judge));
		rt_put_real(t, a->percent);
		rt_put_real(t, a->others_percent);
		rt_put_real(t, a->percent - a->others_percent);
	}
}

/* ---- in words ---- */

static const char *order_words(double spearman)
{
	if (spearman >= 0.9)
		return "in much the same order as the others";
	if (spearman >= 0.7)
		return "in a like order";
	return spearman >= 0.4 ? "in a partly different order" : "in a different order";
}

static void tell_judge(struct rt_report *report, const struct rt_judging *j,
		       const struct rt_judge_view *v)
{
	const char *side = v->above_percent < 0 ? "below" : "above";
	char much[32];

	rt_format_real(fabs(v->above_percent), 2, much, sizeof much);
	rt_report_note(report, "%s marks %s per cent %s the others on the mean%s%s.",
		       position_of(j, v->judge), much, side,
		       isnan(v->spearman) ? "" : ", and has the class ",
		       isnan(v->spearman) ? "" : order_words(v->spearman));
}

static void tell_all(struct rt_report *report, const struct rt_judging *j)
{
	size_t most = 0;

	for (size_t i = 0; i < j->judges; i++) {
		if (j->judge[i].sheets)
			tell_judge(report, j, &j->judge[i]);
		most = j->judge[i].sheets > most ? j->judge[i].sheets : most;
	}
	if (most == 0) {
		rt_report_note(report, "No entry has the sheets of two judges: there is nothing to "
				       "compare.");
		return;
	}
	if (most < FEW_ENTRIES)
		rt_report_note(report, "With so few entries an order says little.");
	if (!j->of->complete)
		rt_report_note(report, "The class is not added up: what is in so far.");
	rt_report_note(report, "Judges sit in different places and see different things: "
			       "figures to talk about, no verdict on anybody.");
}

void rt_judging_report(struct rt_report *report, const struct rt_judging *j)
{
	report_panel(report, j);
	report_pairs(report, j);
	report_movements(report, j);
	report_gaps(report, j);
	report_sheets(report, j);
	tell_all(report, j);
}
