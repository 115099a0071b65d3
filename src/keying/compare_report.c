/* The two keyings side by side, and the history of marks, as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))
#define ITEMS_WORDS	 400 /* bytes of the names of boxes keyed once; more are counted */

/* What is being compared, and the four tables. */
struct comparison {
	const struct rt_class_marks *m;
	const struct rt_mark_versions *versions;
	struct rt_table *differences, *totals, *once, *same;
	size_t entry, judge; /* the sheet at hand */
};

/* ---- names and values ---- */

static int64_t entry_id(const struct comparison *c)
{
	return c->m->entries->at[c->entry].id;
}

static int64_t judge_id(const struct comparison *c)
{
	return c->m->class_->judges.at[c->judge].id;
}

static void put_sheet(struct rt_table *t, const struct comparison *c)
{
	rt_put_int(t, c->m->entries->at[c->entry].number);
	rt_put_text(t, c->m->class_->judges.at[c->judge].position);
}

static void put_points(struct rt_table *t, int64_t points_x10000)
{
	int digits = rt_digits_needed(points_x10000, 4, 1);

	rt_put_decimal(t, points_x10000 / rt_power_of_ten(4 - digits), digits);
}

static void put_value(struct rt_table *t, enum rt_mark_kind kind, int64_t value)
{
	switch (kind) {
	case RT_MARK_ITEM:
		rt_put_decimal(t, value, 1);
		break;
	case RT_MARK_ERRORS:
		rt_put_decimal(t, value, 0);
		break;
	case RT_MARK_TOTAL:
		put_points(t, value);
		break;
	}
}

static const char *keyer(const struct comparison *c, enum rt_mark_kind kind, int64_t item,
			 int keying)
{
	const struct rt_mark_version *v = rt_mark_latest(c->versions, entry_id(c), judge_id(c),
							 kind, item, keying);

	return v ? v->who : NULL;
}

/* ---- one sheet ---- */

static void compare_value(const struct comparison *c, enum rt_mark_kind kind, size_t item,
			  const int64_t keyed[RT_KEYINGS])
{
	bool box = kind == RT_MARK_ITEM;
	int64_t value, id = box ? c->m->items->at[item].id : 0;
	struct rt_table *t = c->differences;

	if (rt__settle(keyed, &value) != RT__DIFFERING)
		return;
	put_sheet(t, c);
	rt_put_text(t, box ? c->m->items->at[item].name : rt_mark_kind_words(kind));
	put_value(t, kind, keyed[0]);
	put_value(t, kind, keyed[1]);
	rt_put_text(t, keyer(c, kind, id, 1));
	rt_put_text(t, keyer(c, kind, id, 2));
}

static void compare_boxes(const struct comparison *c)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);

	for (size_t i = 0; i < c->m->items->n; i++) {
		const struct rt_box *box = rt_class_marks_box(c->m, c->entry, c->judge, i);
		const int64_t keyed[RT_KEYINGS] = {box->keyed_x10[0], box->keyed_x10[1]};

		compare_value(c, RT_MARK_ITEM, i, keyed);
	}
	compare_value(c, RT_MARK_ERRORS, 0, lines->errors);
	compare_value(c, RT_MARK_TOTAL, 0, lines->total_x10000);
}

static void compare_total(const struct comparison *c)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);
	int64_t total, sum;
	int keying = lines->total_x10000[0] >= 0 ? 1 : 2;

	rt__settle(lines->total_x10000, &total);
	if (total < 0 || !rt__sheet_sum(c->m, c->entry, c->judge, &sum) || total == sum)
		return;
	put_sheet(c->totals, c);
	put_points(c->totals, total);
	put_points(c->totals, sum);
	put_points(c->totals, total - sum);
	rt_put_text(c->totals, keyer(c, RT_MARK_TOTAL, 0, keying));
}

/* Add a name to a list of names; one that has no room is left out. */
static void add_name(char *names, const char *name)
{
	size_t used = strlen(names);

	if (used + strlen(name) + sizeof ", " < ITEMS_WORDS)
		snprintf(names + used, ITEMS_WORDS - used, "%s%s", used ? ", " : "", name);
}

/* The boxes and the errors that one keying has alone. */
static void find_once(const struct comparison *c, int keying)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);
	bool checked = rt__total_checks(c->m, c->entry, c->judge);
	char names[ITEMS_WORDS] = "";
	size_t once = 0, items = c->m->items->n;
	const char *by = NULL;

	for (size_t i = 0; i < items && !checked; i++) {
		const struct rt_box *box = rt_class_marks_box(c->m, c->entry, c->judge, i);

		if (box->keyed_x10[keying] < 0 || box->keyed_x10[!keying] >= 0)
			continue;
		once++;
		add_name(names, c->m->items->at[i].name);
		by = keyer(c, RT_MARK_ITEM, c->m->items->at[i].id, keying + 1);
	}
	if (once == items)
		snprintf(names, sizeof names, "all");
	if (lines->errors[keying] >= 0 && lines->errors[!keying] < 0) {
		once++;
		add_name(names, rt_mark_kind_words(RT_MARK_ERRORS));
		by = keyer(c, RT_MARK_ERRORS, 0, keying + 1);
	}
	if (!once)
		return;
	put_sheet(c->once, c);
	rt_put_int(c->once, (int64_t)once);
	rt_put_int(c->once, (int64_t)items + 1);
	rt_put_text(c->once, names);
	rt_put_int(c->once, keying + 1);
	rt_put_text(c->once, by);
}

/* Everybody who keyed boxes of both keyings of a sheet, once. */
static void find_same_person(const struct comparison *c)
{
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(c->versions, entry_id(c), judge_id(c),
							   &n);

	for (size_t i = 0; i < n; i++) {
		const struct rt_mark_version *first = rt_keyed_by(c->versions, entry_id(c),
								  judge_id(c), 1, row[i].who);

		if (first != &row[i] ||
		    !rt_keyed_by(c->versions, entry_id(c), judge_id(c), 2, first->who))
			continue;
		put_sheet(c->same, c);
		rt_put_text(c->same, first->who);
	}
}

/* ---- the report ---- */

static void note_counts(struct rt_report *report, const struct comparison *c)
{
	size_t differ = rt_table_rows(c->differences), totals = rt_table_rows(c->totals);

	if (differ)
		rt_report_note(report,
			       "%zu box%s to be settled: look at the sheet, then mark fix. Until "
			       "then %s for nothing.",
			       differ, differ == 1 ? " is" : "es are",
			       differ == 1 ? "it counts" : "they count");
	if (totals)
		rt_report_note(report, "%zu hand total%s not the sum of the boxes.", totals,
			       totals == 1 ? " is" : "s are");
	if (!differ && !totals)
		rt_report_note(report, "Nothing differs.");
	if (rt_table_rows(c->same))
		rt_report_note(report, "A second keying by the person of the first finds no slip "
				       "of reading: let another person key or add up the sheet.");
	report->needs_person |= differ || totals;
}

static void make_tables(struct comparison *c, struct rt_report *report)
{
	static const struct rt_field differences[] = {
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"item", "Item", RT_TEXT, RT_NO_UNIT, 0, false},
		{"first", "First", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"second", "Second", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"first_by", "First by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"second_by", "Second by", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	static const struct rt_field totals[] = {
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"total", "Hand total", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"sum", "Sum of the boxes", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"off", "Off by", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"by", "By", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	static const struct rt_field once[] = {
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"boxes", "Boxes", RT_INT, RT_NO_UNIT, 0, false},
		{"of", "Of", RT_INT, RT_NO_UNIT, 0, false},
		{"items", "Items", RT_TEXT, RT_NO_UNIT, 0, false},
		{"keying", "Keying", RT_INT, RT_NO_UNIT, 0, false},
		{"by", "By", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	static const struct rt_field same[] = {
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"who", "Who", RT_TEXT, RT_NO_UNIT, 0, false},
	};

	c->differences = rt_report_table(report, "differences", "Keyings that differ", differences,
					 COLUMNS(differences));
	c->totals = rt_report_table(report, "totals", "Hand totals that are not the sum", totals,
				    COLUMNS(totals));
	c->once = rt_report_table(report, "once", "Keyed once only", once, COLUMNS(once));
	c->same = rt_report_table(report, "same_person", "Both keyings by one person", same,
				  COLUMNS(same));
}

void rt_compare_report(struct rt_report *report, const struct rt_class_marks *m,
		       const struct rt_mark_versions *versions, int64_t number)
{
	struct comparison c = {.m = m, .versions = versions};

	make_tables(&c, report);
	for (c.entry = 0; c.entry < m->entries->n; c.entry++) {
		const struct rt_entry *entry = &m->entries->at[c.entry];

		if (entry->status != RT_ENTERED || (number >= 0 && entry->number != number))
			continue;
		for (c.judge = 0; c.judge < m->class_->judges.n; c.judge++) {
			if (rt__lines(m, c.entry, c.judge)->away)
				continue;
			compare_boxes(&c);
			compare_total(&c);
			for (int k = 0; k < RT_KEYINGS; k++)
				find_once(&c, k);
			find_same_person(&c);
		}
	}
	note_counts(report, &c);
}

/* ---- history ---- */

static const char *item_name(const struct rt_class_marks *m, const struct rt_mark_version *v)
{
	for (size_t i = 0; v->kind == RT_MARK_ITEM && i < m->items->n; i++)
		if (m->items->at[i].id == v->item)
			return m->items->at[i].name;
	return rt_mark_kind_words(v->kind);
}

static void put_version(struct rt_table *t, int64_t number, const char *position, const char *item,
			const struct rt_mark_version *v)
{
	rt_put_int(t, number);
	rt_put_text(t, position);
	rt_put_text(t, item);
	rt_put_int(t, v->keying);
	rt_put_int(t, v->version);
	put_value(t, v->kind, v->value);
	rt_put_text(t, v->remark);
	rt_put_text(t, v->who);
	rt_put_text(t, v->when);
	rt_put_text(t, v->why);
	rt_put_text(t, v->source);
}

void rt_history_report(struct rt_report *report, const struct rt_class_marks *m,
		       const struct rt_mark_versions *versions, const char *position,
		       const char *item)
{
	static const struct rt_field columns[] = {
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"item", "Item", RT_TEXT, RT_NO_UNIT, 0, false},
		{"keying", "Keying", RT_INT, RT_NO_UNIT, 0, false},
		{"version", "Version", RT_INT, RT_NO_UNIT, 0, false},
		{"mark", "Mark", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"remark", "Remark", RT_TEXT, RT_NO_UNIT, 0, true},
		{"by", "By", RT_TEXT, RT_NO_UNIT, 0, false},
		{"at", "At", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "Why", RT_TEXT, RT_NO_UNIT, 0, false},
		{"source", "Source", RT_TEXT, RT_NO_UNIT, 0, true},
	};
	struct rt_table *t = rt_report_table(report, "history", "Marks as they were kept", columns,
					     COLUMNS(columns));
	const struct rt_judges *judges = &m->class_->judges;

	for (size_t e = 0; e < m->entries->n; e++)
		for (size_t j = 0; j < judges->n; j++) {
			size_t n;
			const struct rt_mark_version *row = rt__sheet_rows(
				versions, m->entries->at[e].id, judges->at[j].id, &n);

			if (position && strcmp(position, judges->at[j].position) != 0)
				continue;
			for (size_t i = 0; i < n; i++) {
				const char *name = item_name(m, &row[i]);

				if (!item || strcmp(item, name) == 0)
					put_version(t, m->entries->at[e].number,
						    judges->at[j].position, name, &row[i]);
			}
		}
}
