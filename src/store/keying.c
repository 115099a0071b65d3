/* What a desk does with sheets: marks put one by one, every version of them, where sheets are.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* ---- versions -------------------------------------------------------------------------------- */

#define VERSION(member) RT_AT(struct rt_mark_version, member)

static const struct rt_field version_fields[] = {
	{"entry", VERSION(entry), .type = RT_INT},
	{"judge", VERSION(judge), .type = RT_INT},
	{"item", VERSION(item), .type = RT_INT},
	{"kind", VERSION(kind), .type = RT_WORD, .words = &rt_words_of_mark_kind},
	{"keying", VERSION(keying), .type = RT_SMALL, .low = 1, .high = RT_KEYINGS},
	{"version", VERSION(version), .type = RT_INT, .low = 1, .high = RT__VERSION_MOST},
	{"value", VERSION(value), .type = RT_INT, .low = RT_NO_MARK,
	 .high = RT_TOTAL_MOST_X100000},
	{"remark", VERSION(remark), .type = RT_TEXT, .is = RT_EMPTY},
	{"pass", VERSION(pass), .type = RT_INT},
	{"source", VERSION(source), .type = RT_TEXT, .is = RT_EMPTY},
	RT__SAID(struct rt_mark_version, ),
};

static const struct rt_record version_record = {RT_FIELDS(version_fields),
						.size = sizeof(struct rt_mark_version)};

enum rt_err rt_store_mark_versions(struct rt_store *s, const char *class_name, int64_t number,
				   struct rt_mark_versions *out, struct rt_error *err)
{
	size_t before = out->n;
	enum rt_err rc = RT__LOAD(s, RT__SQL_MARK_VERSIONS,
				  RT__CELLS(rt__text(class_name), rt__int_unless(number, -1)),
				  &version_record, out, err);

	for (size_t i = before; i < out->n && !rc; i++)
		if (out->at[i].value > rt_mark_most(out->at[i].kind))
			rc = rt__damaged(s, err);
	return rc;
}

enum rt_err rt_store_sheet_people(struct rt_store *s, int64_t entry, int64_t judge, int keying,
				  struct rt_strings *out, struct rt_error *err)
{
	return rt__load_names(
		s, RT__SQL_SHEET_PEOPLE,
		RT__CELLS(rt__int(entry), rt__int(judge), rt__int(keying), rt__text(RT_SOURCE_FIX)),
		out, err);
}

/* ---- one mark after another ------------------------------------------------------------------ */

enum rt_err rt_store_pass_go_on(struct rt_store *s, const struct rt_pass *pass, int64_t *id,
				struct rt_error *err)
{
	enum rt_err rc = *id ? rt__need_transaction(s, err) : rt_store_pass_begin(s, pass, err);

	if (rc)
		return rc;
	if (*id) {
		s->pass = *id;
		s->keying = pass->keying;
	}
	*id = s->pass;
	return RT_OK;
}

/* ---- where sheets are ------------------------------------------------------------------------ */

static const struct rt_field event_fields[] = {
	{"entry", RT_AT(struct rt_sheet_event, entry), .type = RT_INT},
	{"judge", RT_AT(struct rt_sheet_event, judge), .type = RT_INT},
	{"state", RT_AT(struct rt_sheet_event, state), .type = RT_WORD,
	 .words = &rt_words_of_sheet_state},
	RT__SAID(struct rt_sheet_event, ),
};

static const struct rt_record event_record = {RT_FIELDS(event_fields),
					      .size = sizeof(struct rt_sheet_event)};

enum rt_err rt_store_sheet_event_put(struct rt_store *s, const struct rt_sheet_event *event,
				     struct rt_error *err)
{
	return rt__run_row(s, RT__SQL_SHEET_EVENT_INSERT, &event_record, event, RT__NO_CELLS, err);
}

enum rt_err rt_store_sheet_events(struct rt_store *s, const char *class_name, int64_t number,
				  struct rt_sheet_events *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_SHEET_EVENT_LIST,
			RT__CELLS(rt__text(class_name), rt__int_unless(number, -1)), &event_record,
			out, err);
}
