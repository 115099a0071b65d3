/* What was changed of entries and classes, and who judged when: rows that are only ever added.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* ---- a field that was changed ---------------------------------------------------------------- */

static const struct rt_field change_fields[] = {
	{"field", RT_AT(struct rt_change, field), .type = RT_TEXT},
	{"was", RT_AT(struct rt_change, was), .type = RT_TEXT, .is = RT_EMPTY},
	{"became", RT_AT(struct rt_change, became), .type = RT_TEXT, .is = RT_EMPTY},
	RT__SAID(struct rt_change, reason.),
};

static const struct rt_record change_record = {RT_FIELDS(change_fields),
					       .size = sizeof(struct rt_change)};

/* whose: the entry's id, the class's name. */
static enum rt_err put_change(struct rt_store *s, enum rt__sql sql, struct rt__cell whose,
			      const struct rt_change *change, const struct rt_reason *reason,
			      struct rt_error *err)
{
	struct rt_change row = *change;

	row.reason = *reason;
	return rt__run_row(s, sql, &change_record, &row, &whose, 1, err);
}

/* ---- entries --------------------------------------------------------------------------------- */

enum rt_err rt__put_entry_change(struct rt_store *s, int64_t entry, const char *field,
				 const char *was, const char *became,
				 const struct rt_reason *reason, struct rt_error *err)
{
	const struct rt_change change = {.field = field, .was = was, .became = became};

	return put_change(s, RT__SQL_ENTRY_CHANGE_INSERT, rt__int(entry), &change, reason, err);
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
	enum rt_err rc;

	if (!changes->n)
		return RT_OK;
	rc = rt__run_row(s, RT__SQL_ENTRY_UPDATE, &rt_entry_record, became, RT__NO_CELLS, err);
	for (size_t i = 0; i < changes->n && !rc; i++) {
		rc = put_change(s, RT__SQL_ENTRY_CHANGE_INSERT, rt__int(became->id),
				&changes->at[i], reason, err);
		if (!rc)
			rc = take_along(s, became, &changes->at[i], reason, err);
	}
	return rc;
}

enum rt_err rt_store_entry_history(struct rt_store *s, int64_t entry, struct rt_changes *out,
				   struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_ENTRY_HISTORY, RT__CELLS(rt__int(entry)), &change_record, out,
			err);
}

enum rt_err rt__latest_change(struct rt_store *s, const char *class_name, int64_t number,
			      struct rt_changes *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_ENTRY_CHANGE_LATEST,
			RT__CELLS(rt__text(class_name), rt__int(number)), &change_record, out, err);
}

/* ---- classes --------------------------------------------------------------------------------- */

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
						       rt__int(presides == 1)),
					     err);
	return rc;
}

static enum rt_err change_judges(struct rt_store *s, const struct rt_class *was,
				 const struct rt_class *became, struct rt_error *err)
{
	bool marked = false;
	enum rt_err rc;

	if (rt__same_positions(&was->judges, &became->judges))
		return change_president(s, became, err);
	rc = rt_store_class_marked(s, became->name, &marked, err);
	if (!rc && marked)
		rc = rt_fail(err, RT_E_INPUT,
			     "class %s has marks: its judges' positions stay, only the president "
			     "may be another",
			     became->name);
	if (!rc)
		rc = rt__run(s, RT__SQL_JUDGES_CLEAR, RT__CELLS(rt__text(became->name)), err);
	return rc ? rc
		  : rt__run_list(s, RT__SQL_JUDGE_INSERT, &rt_judge_record, became->judges.at,
				 became->judges.n, rt__text(became->name), err);
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
	enum rt_err rc = check_test(s, was, became, err);

	if (!rc)
		rc = rt__run_row(s, RT__SQL_CLASS_UPDATE, &rt_class_record, became, RT__NO_CELLS,
				 err);
	for (size_t i = 0; i < changes->n && !rc; i++) {
		rc = put_change(s, RT__SQL_CLASS_CHANGE_INSERT, rt__text(became->name),
				&changes->at[i], reason, err);
		if (!rc && strcmp(changes->at[i].field, "judges") == 0)
			rc = change_judges(s, was, became, err);
	}
	return rc;
}

enum rt_err rt_store_class_remove(struct rt_store *s, const char *name, const char *became,
				  const struct rt_reason *reason, struct rt_error *err)
{
	const struct rt_change change = {.field = "class", .was = name, .became = became};
	enum rt_err rc = rt__run(s, RT__SQL_CLASS_REMOVE,
				 RT__CELLS(rt__text(name), rt__text(reason->when)), err);

	return rc ? rc
		  : put_change(s, RT__SQL_CLASS_CHANGE_INSERT, rt__text(name), &change, reason, err);
}

enum rt_err rt_store_class_history(struct rt_store *s, const char *class_name,
				   struct rt_changes *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_CLASS_HISTORY, RT__CELLS(rt__text(class_name)), &change_record,
			out, err);
}

/* ---- judges by name -------------------------------------------------------------------------- */

static const struct rt_field judge_name_fields[] = {
	{"position", RT_AT(struct rt_judge_name, position), .type = RT_NAME},
	{"name", RT_AT(struct rt_judge_name, name), .type = RT_NAME, .is = RT_EMPTY},
	{"scribe", RT_AT(struct rt_judge_name, scribe), .type = RT_NAME, .is = RT_EMPTY},
	{"from_entry", RT_AT(struct rt_judge_name, from_entry), .type = RT_INT, .is = RT_EMPTY},
	{"from_number", RT_AT(struct rt_judge_name, from_number), .type = RT_INT, .is = RT_EMPTY},
	RT__SAID(struct rt_judge_name, reason.),
};

static const struct rt_record judge_name_record = {RT_FIELDS(judge_name_fields),
						   .size = sizeof(struct rt_judge_name)};

enum rt_err rt_store_judge_name_put(struct rt_store *s, const char *class_name,
				    const struct rt_judge *judge, int64_t from_entry,
				    const struct rt_reason *reason, struct rt_error *err)
{
	const struct rt_judge_name row = {.position = judge->position,
					  .name = judge->name,
					  .scribe = judge->scribe,
					  .from_entry = from_entry,
					  .reason = *reason};

	return rt__run_row(s, RT__SQL_JUDGE_NAME_INSERT, &judge_name_record, &row,
			   RT__CELLS(rt__text(class_name)), err);
}

enum rt_err rt_store_judge_history(struct rt_store *s, const char *class_name,
				   struct rt_judge_names *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_JUDGE_NAME_HISTORY, RT__CELLS(rt__text(class_name)),
			&judge_name_record, out, err);
}

static const struct rt_field judge_sheet_fields[] = {
	{"entry", RT_AT(struct rt_judge_sheet, entry), .type = RT_INT},
	{"judge", RT_AT(struct rt_judge_sheet, judge), .type = RT_INT},
	{"number", RT_AT(struct rt_judge_sheet, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"name", RT_AT(struct rt_judge_sheet, name), .type = RT_NAME, .is = RT_EMPTY},
};

static const struct rt_record judge_sheet_record = {RT_FIELDS(judge_sheet_fields),
						    .size = sizeof(struct rt_judge_sheet)};

enum rt_err rt_store_judged(struct rt_store *s, const char *class_name, struct rt_judge_sheets *out,
			    struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_JUDGED_LIST, RT__CELLS(rt__text(class_name)),
			&judge_sheet_record, out, err);
}
