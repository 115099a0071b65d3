/* How the judges agreed, as tables and in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define FEW_ENTRIES 6 /* an order of fewer says little */

#define PERCENT(n) .type = RT_REAL, .unit = RT_PERCENT, .decimals = (n)
#define REAL	   .type = RT_REAL, .decimals = 2
#define MARK	   .type = RT_DECIMAL, .decimals = 2

/* ---- judges ---- */

#define VIEW(member)	 RT_AT(struct rt_judge_view, member)
#define POSITION(member) RT_IN(struct rt_judge_view, member, struct rt_judge, position)

static const struct rt_field panel_fields[] = {
	{"position", .head = "Judge", POSITION(judge)},
	{"sheets", .head = "Sheets", VIEW(sheets), .type = RT_SIZE},
	{"mean_percent", .head = "Mean %", VIEW(mean_percent), PERCENT(2)},
	{"spread_percent", .head = "Spread", VIEW(spread_percent), PERCENT(2)},
	{"above_percent", .head = "Above others", VIEW(above_percent), PERCENT(2)},
	{"widest_percent", .head = "Widest", VIEW(widest_percent), PERCENT(2)},
	{"spearman", .head = "Same order", VIEW(spearman), REAL},
	{"kendall", .head = "Kendall", VIEW(kendall), REAL, .wide = true},
};

static const struct rt_field pair_fields[] = {
	{"position", .head = "Judge", POSITION(judge)},
	{"other", .head = "Beside", POSITION(other)},
	{"sheets", .head = "Sheets", VIEW(sheets), .type = RT_SIZE},
	{"above_percent", .head = "Above", VIEW(above_percent), PERCENT(2)},
	{"widest_percent", .head = "Widest", VIEW(widest_percent), PERCENT(2)},
	{"spearman", .head = "Same order", VIEW(spearman), REAL},
	{"kendall", .head = "Kendall", VIEW(kendall), REAL, .wide = true},
};

const struct rt_record rt__panel_table = RT_TABLE("panel", "Each judge beside the others",
						  panel_fields, struct rt_judge_view);
const struct rt_record rt__pairs_table = RT_TABLE("pairs", "Two by two", pair_fields,
						  struct rt_judge_view);

/* ---- movements ---- */

#define VIEW_OF(member)	   RT_AT(struct rt_item_view, member)
#define ITEM(type, member) RT_IN(type, item, struct rt_item, member)
#define GAP(member)	   RT_AT(struct rt_mark_gap, member)
#define APART(member)	   RT_AT(struct rt_sheet_apart, member)

static const struct rt_field movement_fields[] = {
	{"item", .head = "Item", ITEM(struct rt_item_view, name)},
	{"letters", .head = "Letters", ITEM(struct rt_item_view, letters), .type = RT_LETTERS},
	{"movement", .head = "Movement", ITEM(struct rt_item_view, movement), .wide = true},
	{"entries", .head = "Entries", VIEW_OF(entries), .type = RT_SIZE},
	{"mean_mark", .head = "Mean mark", VIEW_OF(mean_mark), REAL},
	{"mean_gap", .head = "Apart, mean", VIEW_OF(mean_gap), REAL},
	{"widest_gap", .head = "Apart, most", VIEW_OF(widest_x100), MARK},
};

const struct rt_record rt__movements_table = RT_TABLE("movements", "Movement by movement",
						      movement_fields, struct rt_item_view);

static const struct rt_field gap_fields[] = {
	{"number", .head = "No.", RT_IN(struct rt_mark_gap, entry, struct rt_entry, number),
	 .type = RT_INT},
	{"driver", .head = "Driver", RT_IN(struct rt_mark_gap, entry, struct rt_entry, driver)},
	{"item", .head = "Item", ITEM(struct rt_mark_gap, name)},
	{"letters", .head = "Letters", ITEM(struct rt_mark_gap, letters), .type = RT_LETTERS,
	 .wide = true},
	{"low", .head = "Lowest at", RT_IN(struct rt_mark_gap, low, struct rt_judge, position)},
	{"low_mark", .head = "Mark", GAP(low_x100), MARK},
	{"high", .head = "Highest at", RT_IN(struct rt_mark_gap, high, struct rt_judge, position)},
	{"high_mark", .head = "Mark", GAP(high_x100), MARK},
	{"gap", .head = "Apart", GAP(gap_x100), MARK},
};

const struct rt_record rt__marks_apart_table = RT_TABLE("marks_apart", "Marks far apart",
							gap_fields, struct rt_mark_gap);

static const struct rt_field sheet_fields[] = {
	{"number", .head = "No.", RT_IN(struct rt_sheet_apart, entry, struct rt_entry, number),
	 .type = RT_INT},
	{"driver", .head = "Driver", RT_IN(struct rt_sheet_apart, entry, struct rt_entry, driver)},
	{"position", .head = "Judge",
	 RT_IN(struct rt_sheet_apart, judge, struct rt_judge, position)},
	{"percent", .head = "%", APART(percent), PERCENT(3)},
	{"others_percent", .head = "Others", APART(others_percent), PERCENT(3)},
	{"above_percent", .head = "Above", APART(above_percent), PERCENT(3)},
};

const struct rt_record rt__sheets_apart_table = RT_TABLE(
	"sheets_apart", "Sheets far from the others", sheet_fields, struct rt_sheet_apart);

/* ---- in words ---- */

static const char *order_words(double spearman)
{
	if (spearman >= 0.9)
		return "in much the same order as the others";
	if (spearman >= 0.7)
		return "in a like order";
	return spearman >= 0.4 ? "in a partly different order" : "in a different order";
}

static void tell_judge(struct rt_report *report, const struct rt_judge_view *v)
{
	const char *side = v->above_percent < 0 ? "below" : "above";
	char much[32];

	rt_format_real(fabs(v->above_percent), 2, much, sizeof much);
	rt_report_note(report, "%s marks %s per cent %s the others on the mean%s%s.",
		       v->judge->position, much, side,
		       isnan(v->spearman) ? "" : ", and has the class ",
		       isnan(v->spearman) ? "" : order_words(v->spearman));
}

static void tell_all(struct rt_report *report, const struct rt_judging *j)
{
	size_t most = 0;

	for (size_t i = 0; i < j->judges; i++) {
		if (j->judge[i].sheets)
			tell_judge(report, &j->judge[i]);
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
	struct rt_table *movements;

	rt_report_list(report, &rt__panel_table, j->judge, j->judges);
	rt_report_list(report, &rt__pairs_table, j->pair, j->pairs);
	movements = rt_report_rows(report, &rt__movements_table);
	for (size_t i = 0; i < j->items; i++)
		if (j->item[i].entries) /* something is keyed of it */
			rt_put_row(movements, &j->item[i]);
	rt_report_list(report, &rt__marks_apart_table, j->gaps.at, j->gaps.n);
	rt_report_list(report, &rt__sheets_apart_table, j->apart.at, j->apart.n);
	tell_all(report, j);
}
