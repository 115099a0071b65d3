/* The two keyings side by side, and the history of marks, as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define ITEMS_WORDS 400 /* bytes of the names of boxes keyed once; more are counted */

/* What is being compared, and the four tables. */
struct comparison {
	const struct rt_class_marks *m;
	const struct rt_mark_versions *versions;
	struct rt_table *differences, *totals, *once, *same;
	size_t entry, judge; /* the sheet at hand */
};

/* A row of any of the tables. */
struct row {
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	const struct rt_mark_version *version;
	const char *item, *by, *second_by;
	struct rt_exact first, second, off;
	size_t boxes, of;
	int keying;
};

#define SHEET                                                                                      \
	{"number", .head = "No.", RT_IN(struct row, entry, struct rt_entry, number),               \
	 .type = RT_INT},                                                                          \
	{                                                                                          \
		"judge", .head = "Judge", RT_IN(struct row, judge, struct rt_judge, position)      \
	}
#define EXACT(member)	RT_AT(struct row, member), .type = RT_EXACT
#define VERSION(member) RT_IN(struct row, version, struct rt_mark_version, member)

static const struct rt_field difference_fields[] = {
	SHEET,
	{"item", .head = "Item", RT_AT(struct row, item)},
	{"first_mark", .head = "First", EXACT(first)},
	{"second_mark", .head = "Second", EXACT(second)},
	{"first_by", .head = "First by", RT_AT(struct row, by)},
	{"second_by", .head = "Second by", RT_AT(struct row, second_by)},
};

static const struct rt_field total_fields[] = {
	SHEET,
	{"total", .head = "Hand total", EXACT(first)},
	{"sum", .head = "Sum of the boxes", EXACT(second)},
	{"off", .head = "Off by", EXACT(off)},
	{"by", .head = "By", RT_AT(struct row, by)},
};

static const struct rt_field once_fields[] = {
	SHEET,
	{"boxes", .head = "Boxes", RT_AT(struct row, boxes), .type = RT_SIZE},
	{"of_boxes", .head = "Of", RT_AT(struct row, of), .type = RT_SIZE},
	{"items", .head = "Items", RT_AT(struct row, item)},
	{"keying", .head = "Keying", RT_AT(struct row, keying), .type = RT_SMALL},
	{"by", .head = "By", RT_AT(struct row, by)},
};

static const struct rt_field same_fields[] = {
	SHEET,
	{"by", .head = "Who", RT_AT(struct row, by)},
};

static const struct rt_field history_fields[] = {
	SHEET,
	{"item", .head = "Item", RT_AT(struct row, item)},
	{"keying", .head = "Keying", VERSION(keying), .type = RT_SMALL},
	{"version", .head = "Version", VERSION(version), .type = RT_INT},
	{"mark", .head = "Mark", EXACT(first)},
	{"remark", .head = "Remark", VERSION(remark), .wide = true},
	{"by", .head = "By", VERSION(who)},
	{"at", .head = "At", VERSION(when)},
	{"why", .head = "Why", VERSION(why)},
	{"source", .head = "Source", VERSION(source), .wide = true},
};

static const struct rt_record differences_table = RT_TABLE("differences", "Keyings that differ",
							   difference_fields, struct row);
static const struct rt_record totals_table = RT_TABLE("totals", "Hand totals that are not the sum",
						      total_fields, struct row);
static const struct rt_record once_table = RT_TABLE("once", "Keyed once only", once_fields,
						    struct row);
static const struct rt_record same_table = RT_TABLE("same_person", "Both keyings by one person",
						    same_fields, struct row);
static const struct rt_record history_table = RT_TABLE("history", "Marks as they were kept",
						       history_fields, struct row);

const struct rt_record *const rt_keying_tables[] = {
	&differences_table, &totals_table,     &once_table,	 &same_table,
	&history_table,	    &rt__sheets_table, &rt__marks_table, NULL};

/* ---- names and values ---- */

static int64_t entry_id(const struct comparison *c)
{
	return c->m->entries->at[c->entry].id;
}

static int64_t judge_id(const struct comparison *c)
{
	return c->m->class_->judges.at[c->judge].id;
}

static struct row sheet_row(const struct comparison *c)
{
	return (struct row){.entry = &c->m->entries->at[c->entry],
			    .judge = &c->m->class_->judges.at[c->judge]};
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
	struct row row = sheet_row(c);

	if (rt__settle(keyed, &value) != RT__DIFFERING)
		return;
	row.item = box ? c->m->items->at[item].name : rt_mark_kind_words(kind);
	row.first = rt__mark_exact(kind, keyed[0]);
	row.second = rt__mark_exact(kind, keyed[1]);
	row.by = keyer(c, kind, id, 1);
	row.second_by = keyer(c, kind, id, 2);
	rt_put_row(c->differences, &row);
}

static void compare_boxes(const struct comparison *c)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);

	for (size_t i = 0; i < c->m->items->n; i++)
		compare_value(c, RT_MARK_ITEM, i,
			      rt_class_marks_box(c->m, c->entry, c->judge, i)->keyed_x100);
	compare_value(c, RT_MARK_ERRORS, 0, lines->errors);
	compare_value(c, RT_MARK_TOTAL, 0, lines->total_x100000);
}

static void compare_total(const struct comparison *c)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);
	int64_t total, sum;
	int keying = lines->total_x100000[0] >= 0 ? 1 : 2;
	struct row row = sheet_row(c);

	rt__settle(lines->total_x100000, &total);
	if (total < 0 || !rt__sheet_sum(c->m, c->entry, c->judge, &sum) || total == sum)
		return;
	row.first = rt__mark_exact(RT_MARK_TOTAL, total);
	row.second = rt__mark_exact(RT_MARK_TOTAL, sum);
	row.off = rt__mark_exact(RT_MARK_TOTAL, total - sum);
	row.by = keyer(c, RT_MARK_TOTAL, 0, keying);
	rt_put_row(c->totals, &row);
}

/* The boxes and the errors that one keying has alone. */
static void find_once(const struct comparison *c, int keying)
{
	const struct rt_sheet_lines *lines = rt__lines(c->m, c->entry, c->judge);
	bool checked = rt__total_checks(c->m, c->entry, c->judge);
	char names[ITEMS_WORDS] = "";
	size_t boxes = rt__boxes(c->m, c->judge);
	struct row row = sheet_row(c);

	for (size_t i = 0; i < c->m->items->n && !checked; i++) {
		const struct rt_box *box = rt_class_marks_box(c->m, c->entry, c->judge, i);

		if (box->keyed_x100[keying] < 0 || box->keyed_x100[!keying] >= 0)
			continue;
		row.boxes++;
		rt_append(names, sizeof names, "%s%s", *names ? ", " : "", c->m->items->at[i].name);
		row.by = keyer(c, RT_MARK_ITEM, c->m->items->at[i].id, keying + 1);
	}
	if (row.boxes == boxes)
		snprintf(names, sizeof names, "all");
	if (lines->errors[keying] >= 0 && lines->errors[!keying] < 0) {
		row.boxes++;
		rt_append(names, sizeof names, "%s%s", *names ? ", " : "",
			  rt_mark_kind_words(RT_MARK_ERRORS));
		row.by = keyer(c, RT_MARK_ERRORS, 0, keying + 1);
	}
	row.of = boxes + 1;
	row.item = names;
	row.keying = keying + 1;
	if (row.boxes)
		rt_put_row(c->once, &row);
}

/* Everybody who keyed boxes of both keyings of a sheet, once. */
static void find_same_person(const struct comparison *c)
{
	struct row same = sheet_row(c);
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(c->versions, entry_id(c), judge_id(c),
							   &n);

	for (size_t i = 0; i < n; i++) {
		const struct rt_mark_version *first = rt_keyed_by(c->versions, entry_id(c),
								  judge_id(c), 1, row[i].who);

		if (first != &row[i] ||
		    !rt_keyed_by(c->versions, entry_id(c), judge_id(c), 2, first->who))
			continue;
		same.by = first->who;
		rt_put_row(c->same, &same);
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

void rt_compare_report(struct rt_report *report, const struct rt_class_marks *m,
		       const struct rt_mark_versions *versions, int64_t number)
{
	struct comparison c = {.m = m, .versions = versions};

	c.differences = rt_report_rows(report, &differences_table);
	c.totals = rt_report_rows(report, &totals_table);
	c.once = rt_report_rows(report, &once_table);
	c.same = rt_report_rows(report, &same_table);
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

void rt_history_report(struct rt_report *report, const struct rt_class_marks *m,
		       const struct rt_mark_versions *versions, const char *position,
		       const char *item)
{
	struct rt_table *t = rt_report_rows(report, &history_table);
	struct comparison c = {.m = m, .versions = versions};

	for (c.entry = 0; c.entry < m->entries->n; c.entry++)
		for (c.judge = 0; c.judge < m->class_->judges.n; c.judge++) {
			struct row row = sheet_row(&c);
			size_t n;

			row.version = rt__sheet_rows(versions, entry_id(&c), judge_id(&c), &n);
			if (position && strcmp(position, row.judge->position) != 0)
				continue;
			for (; n; n--, row.version++) {
				row.item = item_name(m, row.version);
				row.first = rt__mark_exact(row.version->kind, row.version->value);
				if (!item || strcmp(item, row.item) == 0)
					rt_put_row(t, &row);
			}
		}
}
