/* What a desk does with sheets: marks put one by one, every version of them, where sheets are.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* ---- versions -------------------------------------------------------------------------------- */

static void read_version(struct rt__rows *rows, struct rt_mark_version *v)
{
	v->entry = rt__int_at(rows, 0);
	v->judge = rt__int_at(rows, 1);
	v->item = rt__int_at(rows, 2);
	v->kind = rt__mark_kind_at(rows, 3);
	v->keying = (int)rt__int_in(rows, 4, 1, RT_KEYINGS);
	v->version = rt__int_in(rows, 5, 1, RT__VERSION_MOST);
	v->value = rt__mark_at(rows, 6, v->kind);
	v->remark = rt__text_at(rows, 7);
	v->pass = rt__int_at(rows, 8);
	v->who = rt__text_at(rows, 9);
	v->when = rt__text_at(rows, 10);
	v->source = rt__text_at(rows, 11);
	v->why = rt__text_at(rows, 12);
}

enum rt_err rt_store_mark_versions(struct rt_store *s, const char *class_name, int64_t number,
				   struct rt_mark_versions *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_MARK_VERSIONS,
		RT__CELLS(rt__text(class_name), rt__int_unless(number, -1)), &out->text, err);
	struct rt_mark_version *v;

	while ((v = RT__NEXT(&rows, out)))
		read_version(&rows, v);
	return rows.rc;
}

enum rt_err rt_store_sheet_people(struct rt_store *s, int64_t entry, int64_t judge, int keying,
				  struct rt_strings *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_SHEET_PEOPLE,
		RT__CELLS(rt__int(entry), rt__int(judge), rt__int(keying), rt__text(RT_SOURCE_FIX)),
		&out->text, err);
	const char **who;

	while ((who = RT__NEXT(&rows, out)))
		*who = rt__name_at(&rows, 0);
	return rows.rc;
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

enum rt_err rt_store_sheet_event_put(struct rt_store *s, const struct rt_sheet_event *event,
				     struct rt_error *err)
{
	bool added;

	return rt__change(s, RT__SQL_SHEET_EVENT_INSERT,
			  RT__CELLS(rt__int(event->entry), rt__int(event->judge),
				    rt__text(rt_sheet_state_words(event->state)),
				    rt__given(event->why), rt__given(event->who),
				    rt__given(event->when)),
			  &added, err);
}

static void read_event(struct rt__rows *rows, struct rt_sheet_event *event)
{
	event->entry = rt__int_at(rows, 0);
	event->judge = rt__int_at(rows, 1);
	if (!rt_sheet_state_read(rt__words_at(rows, 2), &event->state))
		rt__rows_damaged(rows);
	event->why = rt__text_at(rows, 3);
	event->who = rt__text_at(rows, 4);
	event->when = rt__text_at(rows, 5);
}

enum rt_err rt_store_sheet_events(struct rt_store *s, const char *class_name, int64_t number,
				  struct rt_sheet_events *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_SHEET_EVENT_LIST,
		RT__CELLS(rt__text(class_name), rt__int_unless(number, -1)), &out->text, err);
	struct rt_sheet_event *event;

	while ((event = RT__NEXT(&rows, out)))
		read_event(&rows, event);
	return rows.rc;
}
