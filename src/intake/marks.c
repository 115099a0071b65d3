/* Marks, row by row, checked against the sheets that exist.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "internal.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#define SHEET_LINES  2 /* boxes of a judge beside the items: errors and total */
#define BYTE_BITS    8
#define MARK_DIGITS  2
#define TOTAL_DIGITS 5 /* of the sum that a person wrote */

/* An entry number and its place in the class's list. */
struct numbered {
	int64_t number;
	size_t at;
};

/* What a class's marks are looked up in. */
struct sheet {
	struct rt__names judges, items;
	struct numbered *entry; /* by number */
	size_t entries;
	unsigned char *seen; /* a bit for each box that stands in a row of the file already */
	size_t seen_bytes;   /* of an entry, judge by judge */
};

struct rt_mark_reader {
	struct rt__load load;
	char *path;
	const struct rt_roster_classes *sheets;
	bool unexpected; /* sheets of those who did not start are taken */
	struct rt__names classes;
	struct sheet *sheet;	/* as many as sheets */
	size_t latest;		/* the class of the row before: mostly the same */
	struct rt_mark_row row; /* of the file, what it comes to */
};

/* ---- looking up ------------------------------------------------------------------------------ */

static int by_number(const void *a, const void *b)
{
	const struct numbered *x = a, *y = b;

	return (x->number > y->number) - (x->number < y->number);
}

static bool find_class(struct rt_mark_reader *r, const char *name)
{
	if (r->latest >= r->sheets->n || strcmp(r->sheets->at[r->latest].class_->name, name) != 0) {
		if (!rt__known(&r->load, &r->classes, "class", name))
			return false;
		r->latest = rt_map_get(r->classes.map, name);
	}
	r->row.sheet_class = r->latest;
	return true;
}

/* Whether an entry has sheets; it is a fault when it has none, as its number is wrong then. */
static bool check_started(struct rt_mark_reader *r, const struct rt_entry *entry)
{
	bool started = entry->status != RT_WITHDRAWN && entry->status != RT_DID_NOT_START;

	if (!started && !r->unexpected)
		rt__row_fault(&r->load, "number",
			      "number %" PRId64 " has no sheet, as its status is %s: a number that "
			      "started, or --unexpected",
			      entry->number, rt_status_words(entry->status));
	return started || r->unexpected;
}

static bool find_entry(struct rt_mark_reader *r, const struct sheet *sheet,
		       const struct rt_mark_cells *typed)
{
	struct numbered key = {.number = typed->number};
	const struct numbered *found = NULL;

	if (sheet->entries)
		found = bsearch(&key, sheet->entry, sheet->entries, sizeof key, by_number);
	if (!found) {
		rt__row_fault(&r->load, "number",
			      "no entry has number %" PRId64 " in class %s: a number that is "
			      "entered",
			      typed->number, rt_show(typed->class_name).text);
		return false;
	}
	r->row.entry = found->at;
	return check_started(r, &r->sheets->at[r->row.sheet_class].entries->at[found->at]);
}

static bool find_judge(struct rt_mark_reader *r, const struct sheet *sheet, const char *position)
{
	r->row.judge = rt_map_get(sheet->judges.map, position);
	return rt__known(&r->load, &sheet->judges, "judge", position);
}

/* Which item, errors or total the row is about; false when it is none of them. */
static bool find_item(struct rt_mark_reader *r, const struct sheet *sheet, const char *name)
{
	r->row.kind = RT_MARK_ITEM;
	r->row.item = rt_map_get(sheet->items.map, name);
	if (r->row.item != RT_MAP_NONE)
		return true;
	r->row.item = 0;
	if (strcmp(name, rt_mark_kind_words(RT_MARK_ERRORS)) == 0)
		r->row.kind = RT_MARK_ERRORS;
	else if (strcmp(name, rt_mark_kind_words(RT_MARK_TOTAL)) == 0)
		r->row.kind = RT_MARK_TOTAL;
	else
		return rt__known(&r->load, &sheet->items, "item", name);
	return true;
}

/* A fault when the judge of the row does not mark its item. */
static void see_judge(struct rt_mark_reader *r, const struct rt_mark_cells *typed)
{
	const struct rt_roster_class *of = &r->sheets->at[r->row.sheet_class];
	const struct rt_item *item = &of->items->at[r->row.item];

	if (r->row.kind == RT_MARK_ITEM && !rt_item_marked_at(item, typed->judge))
		rt__row_fault(&r->load, "item",
			      "item %s is not marked by the judge at %s: those at %s do", typed->item,
			      typed->judge, item->judges);
}

/* A fault when the row's box stands in an earlier row too. */
static void see_box(struct rt_mark_reader *r, struct sheet *sheet,
		    const struct rt_mark_cells *typed)
{
	const struct rt_mark_row *row = &r->row;
	size_t items = sheet->items.list.n;
	size_t box = row->judge * (items + SHEET_LINES) + (row->kind == RT_MARK_ITEM ? row->item
							   : row->kind == RT_MARK_ERRORS
								   ? items
								   : items + 1);
	unsigned char *byte = &sheet->seen[row->entry * sheet->seen_bytes + box / BYTE_BITS];
	unsigned char bit = (unsigned char)(1u << box % BYTE_BITS);

	if (*byte & bit)
		rt__row_fault(&r->load, "item",
			      "class %s, number %" PRId64 ", judge %s, item %s stands in an "
			      "earlier row too: each box once",
			      typed->class_name, typed->number, typed->judge, typed->item);
	*byte |= bit;
}

/* ---- values ---------------------------------------------------------------------------------- */

static void tell_mark(struct rt__load *l, const char *mark, int64_t step_x100)
{
	char step[16];
	double v;

	rt_format_short(step_x100, MARK_DIGITS, 0, step, sizeof step);
	if (rt_parse_real(mark, &v))
		rt__row_fault(l, "mark", "mark %.24s is %s: 0 to 10 in steps of %s", mark,
			      v < 0 || v * 100 > RT_MARK_MOST_X100 ? "out of range"
								  : "off its step",
			      step);
	else
		rt__row_fault(l, "mark", "mark %s %s: 0 to 10 in steps of %s", rt_show(mark).text,
			      rt_has_comma(mark) ? "has a decimal comma, not a decimal point"
						 : "is not a number",
			      step);
}

static void read_value(struct rt_mark_reader *r, const char *mark)
{
	struct rt__load *l = &r->load;
	const struct rt_mark_row *row = &r->row;
	enum rt_mark_kind kind = row->kind;
	int64_t most = rt_mark_most(kind), step = 1, v;
	bool number = kind == RT_MARK_ERRORS
			      ? rt_parse_int(mark, &v)
			      : rt_parse_decimal(
				      mark, kind == RT_MARK_ITEM ? MARK_DIGITS : TOTAL_DIGITS, &v);

	if (kind == RT_MARK_ITEM)
		step = r->sheets->at[row->sheet_class].items->at[row->item].mark_step_x100;
	if (number && v >= 0 && v <= most && v % step == 0)
		r->row.value = v;
	else if (kind == RT_MARK_ITEM)
		tell_mark(l, mark, step);
	else if (kind == RT_MARK_ERRORS)
		rt__row_fault(l, "mark",
			      "%s is no number of errors of course: a whole number from 0 to "
			      "%" PRId64,
			      rt_show(mark).text, most);
	else
		rt__row_fault(
			l, "mark",
			"%s is no total: a number from 0 to %" PRId64 " with at most %d decimals",
			rt_show(mark).text, most / rt_power_of_ten(TOTAL_DIGITS), TOTAL_DIGITS);
}

static void check_mark(struct rt__load *l, void *data)
{
	struct rt_mark_reader *r = l->self;
	const struct rt_mark_cells *typed = data;
	struct sheet *sheet;
	bool entry, judge, item;

	r->row = (struct rt_mark_row){.remark = typed->remark, .line = l->line};
	if (!typed->class_name || !find_class(r, typed->class_name))
		return;
	sheet = &r->sheet[r->row.sheet_class];
	entry = typed->number && find_entry(r, sheet, typed);
	judge = typed->judge && find_judge(r, sheet, typed->judge);
	item = typed->item && find_item(r, sheet, typed->item);
	if (item && typed->mark)
		read_value(r, typed->mark);
	if (judge && item)
		see_judge(r, typed);
	if (entry && judge && item)
		see_box(r, sheet, typed);
}

/* ---- the reader ------------------------------------------------------------------------------ */

static enum rt_err fill_sheet(struct sheet *sheet, const struct rt_roster_class *of)
{
	size_t boxes;

	sheet->judges.what = "judge";
	for (size_t i = 0; i < of->class_->judges.n; i++)
		rt__names_add(&sheet->judges, of->class_->judges.at[i].position);
	sheet->items.what = "item";
	sheet->items.where = "errors, total or an item of the test";
	RT__NAMES_FROM(&sheet->items, of->items);
	boxes = sheet->judges.list.n * (sheet->items.list.n + SHEET_LINES);
	sheet->seen_bytes = boxes / BYTE_BITS + 1;
	sheet->entry = calloc(of->entries->n + 1, sizeof *sheet->entry);
	sheet->seen = calloc(of->entries->n + 1, sheet->seen_bytes);
	if (sheet->judges.nomem || sheet->items.nomem || !sheet->entry || !sheet->seen)
		return RT_E_NOMEM;
	for (size_t i = 0; i < of->entries->n; i++)
		sheet->entry[i] = (struct numbered){of->entries->at[i].number, i};
	sheet->entries = of->entries->n;
	qsort(sheet->entry, sheet->entries, sizeof *sheet->entry, by_number);
	return RT_OK;
}

static enum rt_err fill_sheets(struct rt_mark_reader *r)
{
	enum rt_err rc = RT_OK;

	r->classes.what = "class";
	r->sheet = calloc(r->sheets->n + 1, sizeof *r->sheet);
	if (!r->sheet)
		return RT_E_NOMEM;
	for (size_t i = 0; i < r->sheets->n && rc == RT_OK; i++) {
		rt__names_add(&r->classes, r->sheets->at[i].class_->name);
		rc = fill_sheet(&r->sheet[i], &r->sheets->at[i]);
	}
	return r->classes.nomem ? RT_E_NOMEM : rc;
}

enum rt_err rt_mark_reader_open(struct rt_mark_reader **out, const struct rt_source *from,
				const struct rt_roster *roster, struct rt_faults *faults,
				struct rt_error *err)
{
	static const struct rt__file file = {&rt_mark_record, .number = "mark",
					     .check = check_mark};
	static const struct rt_roster_classes no_sheets = {0};
	struct rt_mark_reader *r = calloc(1, sizeof *r);
	struct rt_source kept = *from;
	enum rt_err rc;

	*out = NULL;
	if (!r || !(r->path = strdup(from->path)))
		goto nomem;
	r->sheets = roster && roster->sheets ? roster->sheets : &no_sheets;
	r->unexpected = roster && roster->unexpected;
	if (fill_sheets(r) != RT_OK)
		goto nomem;
	r->load = rt__load_of(&file, (struct rt__list){0}, NULL, faults, err);
	r->load.self = r;
	kept.path = r->path;
	rc = rt__load_open(&r->load, &kept);
	if (rc == RT_OK && r->load.open)
		*out = r;
	else
		rt_mark_reader_close(r);
	return rc;
nomem:
	rt_mark_reader_close(r);
	return rt_fail_nomem(err);
}

enum rt_err rt_mark_reader_next(struct rt_mark_reader *r, struct rt_mark_row *row, bool *got,
				struct rt_faults *faults, struct rt_error *err)
{
	struct rt_mark_cells cells;
	enum rt_err rc;

	r->load.faults = r->load.csv.faults = faults;
	r->load.err = err;
	rc = rt__load_next(&r->load, &cells, got);
	if (rc == RT_OK && *got)
		*row = r->row;
	return rc;
}

void rt_mark_reader_close(struct rt_mark_reader *r)
{
	if (!r)
		return;
	rt__load_close(&r->load);
	for (size_t i = 0; r->sheet && i < r->sheets->n; i++) {
		rt__names_free(&r->sheet[i].judges);
		rt__names_free(&r->sheet[i].items);
		free(r->sheet[i].entry);
		free(r->sheet[i].seen);
	}
	free(r->sheet);
	rt__names_free(&r->classes);
	free(r->path);
	free(r);
}
