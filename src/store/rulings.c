/* What is said of the judges of a class and of its ties: boxes that nobody can be asked about,
 * judges who were away, decisions between equal entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* ---- put ------------------------------------------------------------------------------------- */

enum rt_err rt_store_missing_put(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
				 bool missing, const struct rt_reason *said, struct rt_error *err)
{
	return rt__run(s, RT__SQL_MISSING_MARK_INSERT,
		       RT__CELLS(rt__int(entry), rt__int(judge), rt__int(item), rt__int(missing),
				 RT__SAID_CELLS(said)),
		       err);
}

enum rt_err rt_store_away_put(struct rt_store *s, int64_t entry, int64_t judge, bool away,
			      const struct rt_reason *said, struct rt_error *err)
{
	return rt__run(
		s, RT__SQL_JUDGE_AWAY_INSERT,
		RT__CELLS(rt__int(entry), rt__int(judge), rt__int(away), RT__SAID_CELLS(said)),
		err);
}

enum rt_err rt_store_decision_put(struct rt_store *s, const char *class_name, const int64_t *entry,
				  size_t n, const struct rt_reason *said, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_DECISION_INSERT,
				 RT__CELLS(rt__text(class_name), RT__SAID_CELLS(said)), err);
	int64_t decision = sqlite3_last_insert_rowid(s->db);

	for (size_t i = 0; i < n && !rc; i++)
		rc = rt__run(
			s, RT__SQL_DECISION_PLACE_INSERT,
			RT__CELLS(rt__int(decision), rt__int((int64_t)i + 1), rt__int(entry[i])),
			err);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

static const struct rt_field decision_fields[] = {
	{"decision", RT_AT(struct rt_decision, decision), .type = RT_INT},
	{"number", RT_AT(struct rt_decision, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"rank", RT_AT(struct rt_decision, rank), .type = RT_INT, .low = 1, .high = RT_NUMBER_MOST},
	RT__SAID(struct rt_decision, ),
};

static const struct rt_record decision_record = {RT_FIELDS(decision_fields),
						 .size = sizeof(struct rt_decision)};

enum rt_err rt__load_decisions(struct rt_store *s, const char *class_name, struct rt_decisions *out,
			       struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_DECISION_LIST, RT__CELLS(rt__text(class_name)), &decision_record,
			out, err);
}

enum rt_err rt_store_away(struct rt_store *s, const char *class_name, struct rt_away_sheets *out,
			  struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_JUDGE_AWAY_LIST,
					     RT__CELLS(rt__text(class_name)), NULL, err);
	struct rt_away_sheet *away;

	while ((away = RT__NEXT(&rows, out)))
		*away = (struct rt_away_sheet){rt__int_at(&rows, 1), rt__int_at(&rows, 2)};
	return rows.rc;
}
