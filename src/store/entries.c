/* Entries and their numbers, how they stand, and what the office adds to them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>

#define ADVICE_SIZE 400
#define OTHER_ENTRY "the entry another number, change it with `entry change`"

/* ---- numbers that are given out ------------------------------------------------------------- */

enum rt_err rt_store_numbering(struct rt_store *s, struct rt_numbering *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_NUMBERING_GET, RT__NO_CELLS, NULL, err);

	*out = (struct rt_numbering){1, RT_NUMBER_MOST, RT_HOLDER_TURNOUT};
	if (rt__next(&rows)) {
		out->first = rt__int_in(&rows, 0, 1, RT_NUMBER_MOST);
		out->last = rt__int_in(&rows, 1, out->first, RT_NUMBER_MOST);
		if (!rt_number_holder_read(rt__words_at(&rows, 2), &out->holder))
			rt__rows_damaged(&rows);
		rt__close_rows(&rows);
	}
	return rows.rc;
}

enum rt_err rt_store_numbering_put(struct rt_store *s, const struct rt_numbering *rule,
				   struct rt_error *err)
{
	return rt__run(s, RT__SQL_NUMBERING_PUT,
		       RT__CELLS(rt__int(rule->first), rt__int(rule->last),
				 rt__text(rt_number_holder_words(rule->holder))),
		       err);
}

enum rt_err rt_store_numbers_given_up(struct rt_store *s, struct rt_numbers *out,
				      struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_NUMBERS_GIVEN_UP, RT__NO_CELLS, NULL, err);
	int64_t *number;

	while ((number = RT__NEXT(&rows, out)))
		*number = rt__int_at(&rows, 0);
	return rows.rc;
}

enum rt_err rt_store_number_now(struct rt_store *s, const char *class_name, int64_t number,
				int64_t *now, struct rt_error *err)
{
	char was[24];

	rt_format_decimal(number, 0, was, sizeof was);
	*now = 0;
	return rt__get_int(s, RT__SQL_NUMBER_NOW, RT__CELLS(rt__text(class_name), rt__text(was)),
			   now, err);
}

/* ---- put ------------------------------------------------------------------------------------- */

/* A number that an entry of the class had once would bring that entry in a second time. */
static enum rt_err check_number(struct rt__import *in, const struct rt__origin *from,
				const struct rt_entry *e, bool *moved)
{
	int64_t now = 0;
	bool there = false;
	enum rt_err rc = rt_store_number_now(in->s, e->class_name, e->number, &now, in->err);

	if (!rc && now)
		rc = rt__ask(in->s, RT__SQL_ENTRY_KNOWN,
			     RT__CELLS(rt__text(e->class_name), rt__int(e->number)), &there,
			     in->err);
	*moved = !rc && now && !there;
	if (*moved)
		rt__import_fault(in, from, "number",
				 "%s was given another number in the show, %lld: change the row, "
				 "or use `entry add` for somebody else",
				 from->what, (long long)now);
	return rc;
}

/* What can be done about an entry that differs: it may have been changed in the show. */
static enum rt_err advise(struct rt__import *in, const struct rt_entry *e, char out[ADVICE_SIZE])
{
	struct rt_changes changes = {0};
	enum rt_err rc = rt__latest_change(in->s, e->class_name, e->number, &changes, in->err);

	in->rename = OTHER_ENTRY;
	if (!rc && changes.n) {
		const struct rt_change *c = changes.at;

		snprintf(out, ADVICE_SIZE,
			 "the row the change that was made there (%s%s%s%s%s), change the entry "
			 "with `entry change`",
			 c->field, c->reason.when ? ", " : "", c->reason.when ? c->reason.when : "",
			 c->reason.who ? ", by " : "", c->reason.who ? c->reason.who : "");
		in->rename = out;
	}
	RT_LIST_FREE(&changes);
	return rc;
}

static enum rt_err put_entry(struct rt__import *in, const struct rt_entry *e,
			     struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(e->file, e->line, "entry %lld of class %s",
					    (long long)e->number, e->class_name);
	enum rt__outcome outcome = RT__DIFFERS;
	bool missing = false;
	char advice[ADVICE_SIZE];
	enum rt_err rc = rt__import_name(in, RT__SQL_CLASS_KNOWN, &from, "class", e->class_name,
					 &missing);

	if (rc || missing)
		return rc;
	rc = check_number(in, &from, e, &missing);
	if (!rc && !missing)
		rc = rt__run_row(in->s, RT__SQL_ENTRY_INSERT, &rt_entry_record, e, RT__NO_CELLS,
				 in->err);
	if (rc || missing)
		return rc;
	if (sqlite3_changes(in->s->db) > 0) {
		count->added++;
		return RT_OK;
	}
	rc = advise(in, e, advice);
	if (!rc)
		rc = rt__import_compare(in, RT__SQL_ENTRY_THERE, &from, &rt_entry_record, e,
					RT__NO_CELLS, &outcome);
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_entries_put(struct rt_store *s, const struct rt_entries *entries,
				 struct rt_import_count *count, struct rt_faults *faults,
				 struct rt_error *err)
{
	struct rt__import in = {s, faults, err, OTHER_ENTRY};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < entries->n && !rc; i++)
		rc = put_entry(&in, &entries->at[i], count);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

static enum rt_err load_entries(struct rt_store *s, const char *class_name, struct rt_entries *out,
				struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_ENTRY_LIST, RT__CELLS(rt__text(class_name)), &rt_entry_record,
			out, err);
}

enum rt_err rt_store_entries(struct rt_store *s, const char *class_name, struct rt_entries *out,
			     struct rt_error *err)
{
	struct rt_classes classes = {0};
	enum rt_err rc;

	if (class_name) {
		size_t before = out->n;

		rc = load_entries(s, class_name, out, err);
		return rc || out->n > before ? rc : rt__need_class(s, class_name, err);
	}
	rc = rt_store_classes(s, &classes, err);
	for (size_t i = 0; i < classes.n && !rc; i++)
		rc = load_entries(s, classes.at[i].name, out, err);
	rt_classes_free(&classes);
	return rc;
}

/* ---- status and penalties -------------------------------------------------------------------- */

static enum rt_err no_entry(struct rt_store *s, const char *class_name, int64_t number,
			    struct rt_error *err)
{
	enum rt_err rc = rt__need_class(s, class_name, err);

	if (rc)
		return rc;
	return rt_fail(err, RT_E_NOTFOUND, "there is no entry %lld in class %s", (long long)number,
		       class_name);
}

enum rt_err rt_store_status_put(struct rt_store *s, const char *class_name, int64_t number,
				enum rt_status status, const char *why, const char *who,
				const char *when, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_STATUS_CHANGE_INSERT,
				 RT__CELLS(rt__text(class_name), rt__int(number),
					   rt__text(rt_status_words(status)), rt__given(why),
					   rt__given(who), rt__given(when)),
				 err);

	return rc || sqlite3_changes(s->db) ? rc : no_entry(s, class_name, number, err);
}

/* Points are taken back only as far as there are any, and end somewhere. */
static enum rt_err check_points(int64_t there_x100, int64_t points_x100, struct rt_error *err)
{
	char points[24];

	if (there_x100 % 100)
		rt_format_decimal(there_x100, 2, points, sizeof points);
	else
		rt_format_decimal(there_x100 / 100, 0, points, sizeof points);
	if (there_x100 + points_x100 < 0)
		return rt_fail(err, RT_E_INPUT,
			       "there are only %s points to take back from this entry", points);
	if (there_x100 + points_x100 <= RT_PENALTY_MOST_X100)
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "this entry has %s penalty points already: at most %d together", points,
		       RT_PENALTY_MOST_X100 / 100);
}

static const struct rt_field penalty_fields[] = {
	{"id", RT_AT(struct rt_penalty, id), .type = RT_INT, .is = RT_USUAL},
	{"number", RT_AT(struct rt_penalty, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"points_x100", RT_AT(struct rt_penalty, points_x100), .type = RT_INT,
	 .low = -RT_PENALTY_MOST_X100, .high = RT_PENALTY_MOST_X100},
	{"errors", RT_AT(struct rt_penalty, errors), .type = RT_INT, .is = RT_EMPTY, .low = 0,
	 .high = RT_SHEET_ERRORS_MOST},
	{"eliminated", RT_AT(struct rt_penalty, eliminated), .type = RT_BOOL},
	{"article", RT_AT(struct rt_penalty, article), .type = RT_TEXT, .is = RT_EMPTY},
	RT__SAID(struct rt_penalty, ),
	{"undone", RT_AT(struct rt_penalty, undone), .type = RT_INT, .is = RT_EMPTY},
	{"undone_by", RT_AT(struct rt_penalty, undoing.who), .type = RT_TEXT, .is = RT_EMPTY},
	{"undone_why", RT_AT(struct rt_penalty, undoing.why), .type = RT_TEXT, .is = RT_EMPTY},
	{"undone_at", RT_AT(struct rt_penalty, undoing.when), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_penalty no_penalty = {.errors = -1};

static const struct rt_record penalty_record = {RT_FIELDS(penalty_fields),
						.size = sizeof no_penalty, .blank = &no_penalty};

enum rt_err rt_store_penalty_put(struct rt_store *s, const char *class_name,
				 const struct rt_penalty *p, struct rt_error *err)
{
	int64_t there_x100 = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_PENALTY_POINTS,
				     RT__CELLS(rt__text(class_name), rt__int(p->number)),
				     &there_x100, err);

	if (!rc)
		rc = rt__run_row(s, RT__SQL_PENALTY_INSERT, &penalty_record, p,
				 RT__CELLS(rt__text(class_name)), err);
	if (!rc && sqlite3_changes(s->db) == 0)
		return no_entry(s, class_name, p->number, err);
	return rc ? rc : check_points(there_x100, p->points_x100, err);
}

enum rt_err rt_store_penalty_undo(struct rt_store *s, const char *class_name,
				  const struct rt_penalty *p, const struct rt_reason *said,
				  struct rt_error *err)
{
	int64_t left_x100 = 0;
	enum rt_err rc = rt__run(s, RT__SQL_PENALTY_UNDO,
				 RT__CELLS(rt__int(p->id), RT__SAID_CELLS(said)), err);

	if (!rc)
		rc = rt__get_int(s, RT__SQL_PENALTY_POINTS,
				 RT__CELLS(rt__text(class_name), rt__int(p->number)), &left_x100,
				 err);
	if (!rc)
		rc = check_points(left_x100 + p->points_x100, -p->points_x100, err);
	if (!rc && p->eliminated)
		rc = rt__run(s, RT__SQL_STATUS_BEFORE_ELIMINATION,
			     RT__CELLS(rt__text(class_name), rt__int(p->number),
				       RT__SAID_CELLS(said)),
			     err);
	return rc;
}

static enum rt_err load_penalties(struct rt_store *s, const char *class_name, bool undone,
				  struct rt_penalties *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_PENALTY_LIST,
			RT__CELLS(rt__text(class_name), rt__int(undone)), &penalty_record, out,
			err);
}

enum rt_err rt__load_penalties(struct rt_store *s, const char *class_name, struct rt_penalties *out,
			       struct rt_error *err)
{
	return load_penalties(s, class_name, false, out, err);
}

enum rt_err rt_store_penalties(struct rt_store *s, const char *class_name, struct rt_penalties *out,
			       struct rt_error *err)
{
	return load_penalties(s, class_name, true, out, err);
}
