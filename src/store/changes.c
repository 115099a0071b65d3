/* Changes of entries and classes, each field kept in a history; numbers; judges by name.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

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
	bool changed;

	return rt__change(s, RT__SQL_NUMBERING_PUT,
			  RT__CELLS(rt__int(rule->first), rt__int(rule->last),
				    rt__text(rt_number_holder_words(rule->holder))),
			  &changed, err);
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

/* ---- marks ---------------------------------------------------------------------------------- */

enum rt_err rt_store_class_marked(struct rt_store *s, const char *class_name, bool *marked,
				  struct rt_error *err)
{
	int64_t any = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_CLASS_MARKED, RT__CELLS(rt__text(class_name)), &any,
				     NULL, err);

	*marked = any != 0;
	return rc;
}

enum rt_err rt_store_entry_marked(struct rt_store *s, int64_t entry, bool *marked,
				  struct rt_error *err)
{
	int64_t any = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_ENTRY_MARKED, RT__CELLS(rt__int(entry)), &any, NULL,
				     err);

	*marked = any != 0;
	return rc;
}

/* ---- entries -------------------------------------------------------------------------------- */

static struct rt__cell reason_cell(const struct rt_reason *reason, size_t i)
{
	const char *part[] = {reason->why, reason->who, reason->when};

	return rt__given(part[i]);
}

/* Teams and payees are kept by number: they go with the entry. */
static enum rt_err take_along(struct rt_store *s, const struct rt_entry *became,
			      const struct rt_change *change, const struct rt_reason *reason,
			      struct rt_error *err)
{
	int64_t was;
	enum rt_err rc;

	if (strcmp(change->field, "number") != 0 || !rt_parse_int(change->was, &was))
		return RT_OK;
	rc = rt__run(s, RT__SQL_TEAM_MEMBER_RENUMBER,
		     RT__CELLS(rt__text(became->class_name), rt__int(was), rt__int(became->number)),
		     err);
	return rc ? rc
		  : rt__run(s, RT__SQL_PAYEE_RENUMBER,
			    RT__CELLS(rt__int(was), rt__int(became->number), rt__given(reason->who),
				      rt__given(reason->when)),
			    err);
}

enum rt_err rt_store_entry_change(struct rt_store *s, const struct rt_entry *became,
				  const struct rt_changes *changes, const struct rt_reason *reason,
				  struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	if (rc || !changes->n)
		return rc;
	rc = rt__run_row(s, RT__SQL_ENTRY_UPDATE, &rt_entry_record, became, RT__NO_CELLS, err);
	for (size_t i = 0; i < changes->n && !rc; i++) {
		rc = rt__run(s, RT__SQL_ENTRY_CHANGE_INSERT,
			     RT__CELLS(rt__int(became->id), rt__text(changes->at[i].field),
				       rt__given(changes->at[i].was),
				       rt__given(changes->at[i].became), reason_cell(reason, 0),
				       reason_cell(reason, 1), reason_cell(reason, 2)),
			     err);
		if (!rc)
			rc = take_along(s, became, &changes->at[i], reason, err);
	}
	return rc;
}

/* Rows of field, was, became, why, who, at. */
static enum rt_err load_changes(struct rt__rows *rows, struct rt_changes *out)
{
	struct rt_change *change;

	while ((change = RT__NEXT(rows, out))) {
		change->field = rt__name_at(rows, 0);
		change->was = rt__text_at(rows, 1);
		change->became = rt__text_at(rows, 2);
		change->reason = (struct rt_reason){.why = rt__text_at(rows, 3),
						    .who = rt__text_at(rows, 4),
						    .when = rt__text_at(rows, 5)};
	}
	return rows->rc;
}

enum rt_err rt_store_entry_history(struct rt_store *s, int64_t entry, struct rt_changes *out,
				   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_ENTRY_HISTORY, RT__CELLS(rt__int(entry)),
					     &out->text, err);

	return load_changes(&rows, out);
}

enum rt_err rt__latest_change(struct rt_store *s, const char *class_name, int64_t number,
			      struct rt_changes *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_ENTRY_CHANGE_LATEST,
					     RT__CELLS(rt__text(class_name), rt__int(number)),
					     &out->text, err);

	return load_changes(&rows, out);
}

enum rt_err rt_store_number_now(struct rt_store *s, const char *class_name, int64_t number,
				int64_t *now, struct rt_error *err)
{
	char was[24];

	rt_format_decimal(number, 0, was, sizeof was);
	*now = 0;
	return rt__get_int(s, RT__SQL_NUMBER_NOW, RT__CELLS(rt__text(class_name), rt__text(was)),
			   now, NULL, err);
}

/* ---- classes -------------------------------------------------------------------------------- */

static bool same_positions(const struct rt_judges *a, const struct rt_judges *b)
{
	for (size_t i = 0; i < a->n && i < b->n; i++)
		if (strcmp(a->at[i].position, b->at[i].position) != 0)
			return false;
	return a->n == b->n;
}

/* No class has two presidents, not even for a moment: first nobody presides. */
static enum rt_err change_president(struct rt_store *s, const struct rt_class *c,
				    struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (int presides = 0; presides < 2; presides++)
		for (size_t i = 0; i < c->judges.n && !rc; i++)
			if (c->judges.at[i].president == (presides == 1))
				rc = rt__run(s, RT__SQL_JUDGE_PRESIDE,
					     RT__CELLS(rt__text(c->name),
						       rt__text(c->judges.at[i].position),
						       rt__bool(presides == 1)),
					     err);
	return rc;
}

static enum rt_err change_judges(struct rt_store *s, const struct rt_class *was,
				 const struct rt_class *became, struct rt_error *err)
{
	bool marked = false;
	enum rt_err rc;

	if (same_positions(&was->judges, &became->judges))
		return change_president(s, became, err);
	rc = rt_store_class_marked(s, became->name, &marked, err);
	if (!rc && marked)
		rc = rt_fail(err, RT_E_INPUT,
			     "class %s has marks: its judges' positions stay, only the president "
			     "may be another",
			     became->name);
	if (!rc)
		rc = rt__run(s, RT__SQL_JUDGES_CLEAR, RT__CELLS(rt__text(became->name)), err);
	for (size_t i = 0; i < became->judges.n && !rc; i++)
		rc = rt__run_row(s, RT__SQL_JUDGE_INSERT, &rt_judge_record, &became->judges.at[i],
				 RT__CELLS(rt__text(became->name), rt__int((int64_t)i + 1)), err);
	return rc;
}

static enum rt_err change_class(struct rt_store *s, const struct rt_class *became,
				const struct rt_changes *changes, const struct rt_reason *reason,
				struct rt_error *err)
{
	enum rt_err rc = rt__run_row(s, RT__SQL_CLASS_UPDATE, &rt_class_record, became,
				     RT__NO_CELLS, err);

	for (size_t i = 0; i < changes->n && !rc; i++)
		rc = rt__run(s, RT__SQL_CLASS_CHANGE_INSERT,
			     RT__CELLS(rt__text(became->name), rt__text(changes->at[i].field),
				       rt__given(changes->at[i].was),
				       rt__given(changes->at[i].became), reason_cell(reason, 0),
				       reason_cell(reason, 1), reason_cell(reason, 2)),
			     err);
	return rc;
}

static enum rt_err check_test(struct rt_store *s, const struct rt_class *was,
			      const struct rt_class *became, struct rt_error *err)
{
	bool marked = false;
	enum rt_err rc;

	if (strcmp(was->test, became->test) == 0)
		return RT_OK;
	rc = rt_store_class_marked(s, became->name, &marked, err);
	if (!rc && marked)
		rc = rt_fail(err, RT_E_INPUT, "class %s has marks of test %s: its test stays",
			     became->name, was->test);
	return rc;
}

enum rt_err rt_store_class_change(struct rt_store *s, const struct rt_class *was,
				  const struct rt_class *became, const struct rt_changes *changes,
				  const struct rt_reason *reason, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	if (!rc)
		rc = check_test(s, was, became, err);
	if (!rc)
		rc = change_class(s, became, changes, reason, err);
	for (size_t i = 0; i < changes->n && !rc; i++)
		if (strcmp(changes->at[i].field, "judges") == 0)
			rc = change_judges(s, was, became, err);
	return rc;
}

enum rt_err rt_store_class_history(struct rt_store *s, const char *class_name,
				   struct rt_changes *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_CLASS_HISTORY,
					     RT__CELLS(rt__text(class_name)), &out->text, err);

	return load_changes(&rows, out);
}

/* ---- judges by name ------------------------------------------------------------------------- */

enum rt_err rt_store_judge_name_put(struct rt_store *s, const char *class_name,
				    const struct rt_judge *judge, const struct rt_reason *reason,
				    struct rt_error *err)
{
	bool changed;

	return rt__change(s, RT__SQL_JUDGE_NAME_INSERT,
			  RT__CELLS(rt__text(class_name), rt__text(judge->position),
				    rt__given(judge->name), rt__given(judge->scribe),
				    reason_cell(reason, 0), reason_cell(reason, 1),
				    reason_cell(reason, 2)),
			  &changed, err);
}

enum rt_err rt_store_judge_history(struct rt_store *s, const char *class_name,
				   struct rt_judge_names *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_JUDGE_NAME_HISTORY,
					     RT__CELLS(rt__text(class_name)), &out->text, err);
	struct rt_judge_name *name;

	while ((name = RT__NEXT(&rows, out))) {
		name->position = rt__name_at(&rows, 0);
		name->name = rt__text_at(&rows, 1);
		name->scribe = rt__text_at(&rows, 2);
		name->reason = (struct rt_reason){.why = rt__text_at(&rows, 3),
						  .who = rt__text_at(&rows, 4),
						  .when = rt__text_at(&rows, 5)};
	}
	return rows.rc;
}
