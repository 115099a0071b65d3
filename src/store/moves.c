/* Entries that go from one class to another.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>

/* The number of a text, as a history has it. */
static const char *number_words(int64_t number, char out[24])
{
	rt_format_decimal(number, 0, out, 24);
	return out;
}

/* What the history of an entry tells of its move. */
static enum rt_err put_history(struct rt_store *s, int64_t entry, const struct rt_entry *was,
			       const char *to, int64_t number, const struct rt_reason *reason,
			       struct rt_error *err)
{
	char before[24], after[24];
	enum rt_err rc = rt__put_entry_change(s, entry, "class", was->class_name, to, reason, err);

	if (!rc && number != was->number)
		rc = rt__put_entry_change(s, entry, "number", number_words(was->number, before),
					  number_words(number, after), reason, err);
	return rc;
}

/* Teams go with the entry, by class and number. */
static enum rt_err take_team(struct rt_store *s, const struct rt_entry *was, const char *to,
			     int64_t number, struct rt_error *err)
{
	return rt__run(s, RT__SQL_TEAM_MEMBER_MOVE,
		       RT__CELLS(rt__text(was->class_name), rt__int(was->number), rt__text(to),
				 rt__int(number)),
		       err);
}

/* Everything that was keyed and said of its sheets, for the judges of its new class. */
static enum rt_err copy_sheets(struct rt_store *s, int64_t from, int64_t entry, const char *to,
			       struct rt_error *err)
{
	static const enum rt__sql copy[] = {
		RT__SQL_ENTRY_COPY_MARKS,	RT__SQL_ENTRY_COPY_SHEET_LINES,
		RT__SQL_ENTRY_COPY_SHEET_EVENTS, RT__SQL_ENTRY_COPY_MISSING,
		RT__SQL_ENTRY_COPY_AWAY,
	};
	enum rt_err rc = rt__run(s, RT__SQL_ENTRY_COPY_PENALTIES,
				 RT__CELLS(rt__int(from), rt__int(entry)), err);

	for (size_t i = 0; i < sizeof copy / sizeof *copy && !rc; i++)
		rc = rt__run(s, copy[i], RT__CELLS(rt__int(from), rt__int(entry), rt__text(to)),
			     err);
	return rc;
}

/* What is left in the old class: an entry that is withdrawn, and tells where it went. */
static enum rt_err leave_word(struct rt_store *s, const struct rt_entry *was, const char *to,
			      int64_t number, const struct rt_reason *reason, struct rt_error *err)
{
	char why[RT_NAME_MOST * 4 + 600];

	snprintf(why, sizeof why, RT_MOVED_TO "%s, number %lld%s%s", to, (long long)number,
		 reason->why ? ": " : "", reason->why ? reason->why : "");
	return rt_store_status_put(s, was->class_name, was->number, RT_WITHDRAWN, why, reason->who,
				   reason->when, err);
}

static enum rt_err copy_entry(struct rt_store *s, const struct rt_entry *was, const char *to,
			      int64_t number, bool sheets, const struct rt_reason *reason,
			      struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_ENTRY_COPY,
				 RT__CELLS(rt__int(was->id), rt__text(to), rt__int(number)), err);
	int64_t entry = sqlite3_last_insert_rowid(s->db);

	if (!rc)
		rc = rt__run(s, RT__SQL_ENTRY_COPY_STATUS,
			     RT__CELLS(rt__int(was->id), rt__int(entry)), err);
	if (!rc && sheets)
		rc = copy_sheets(s, was->id, entry, to, err);
	if (!rc)
		rc = put_history(s, entry, was, to, number, reason, err);
	return rc ? rc : leave_word(s, was, to, number, reason, err);
}

enum rt_err rt_store_entry_move(struct rt_store *s, const struct rt_entry *was, const char *to,
				int64_t number, bool sheets, const struct rt_reason *reason,
				bool *left, struct rt_error *err)
{
	enum rt_err rc = rt__ask(s, RT__SQL_ENTRY_BOUND, RT__CELLS(rt__int(was->id)), left, err);

	if (!rc)
		rc = take_team(s, was, to, number, err);
	if (!rc && *left)
		return copy_entry(s, was, to, number, sheets, reason, err);
	if (!rc)
		rc = rt__run(s, RT__SQL_ENTRY_MOVE,
			     RT__CELLS(rt__int(was->id), rt__text(to), rt__int(number)), err);
	return rc ? rc : put_history(s, was->id, was, to, number, reason, err);
}
