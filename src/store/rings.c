/* Rings of the show, and the readings they were checked with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

enum rt_err rt_store_ring_add(struct rt_store *s, const struct rt_ring *ring, struct rt_error *err)
{
	int64_t known = 0;
	bool added;
	enum rt_err rc = rt__get_int(s, RT__SQL_RING_KIND_KNOWN, RT__CELLS(rt__text(ring->kind)),
				     &known, NULL, err);

	if (rc)
		return rc;
	if (!known)
		return rt_fail(err, RT_E_INPUT, "there is no kind of ring %s in the show",
			       ring->kind);
	rc = rt__change(s, RT__SQL_RING_INSERT,
			RT__CELLS(rt__text(ring->name), rt__text(ring->kind)), &added, err);
	if (!rc && !added)
		rc = rt_fail(err, RT_E_INPUT, "there is a ring %s in the show already", ring->name);
	return rc;
}

enum rt_err rt_store_rings(struct rt_store *s, struct rt_rings *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_LIST, RT__NO_CELLS, &out->text, err);

	while (rt__next(&rows)) {
		struct rt_ring *r = RT_LIST_ADD(out);

		if (!r) {
			rt__rows_nomem(&rows);
			continue;
		}
		r->name = rt__text_at(&rows, 0);
		r->kind = rt__text_at(&rows, 1);
	}
	return rows.rc;
}

/* ---- checks ---------------------------------------------------------------------------------- */

static enum rt_err put_readings(struct rt_store *s, int64_t check,
				const struct rt_readings *readings, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < readings->n && !rc; i++) {
		const struct rt_reading *r = &readings->at[i];

		rc = rt__run(s, RT__SQL_RING_READING_INSERT,
			     RT__CELLS(rt__int(check), rt__int((int64_t)i + 1), rt__text(r->from),
				       rt__text(r->to), rt__real(r->distance_m),
				       rt__real(r->sigma_m), rt__given(r->note)),
			     err);
	}
	return rc;
}

enum rt_err rt_store_check_put(struct rt_store *s, const struct rt_stored_check *check,
			       struct rt_error *err)
{
	int64_t known = 0;
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	if (rc)
		return rc;
	rc = rt__get_int(s, RT__SQL_RING_KNOWN, RT__CELLS(rt__text(check->ring)), &known, NULL,
			 err);
	if (!rc && !known)
		rc = rt_fail(err, RT_E_NOTFOUND, "there is no ring %s in the show", check->ring);
	if (!rc)
		rc = rt__run(s, RT__SQL_RING_CHECK_INSERT,
			     RT__CELLS(rt__text(check->ring), rt__given(check->when),
				       rt__real(check->tolerance_m), rt__text(check->fit)),
			     err);
	if (!rc)
		rc = put_readings(s, sqlite3_last_insert_rowid(s->db), &check->readings, err);
	return rt__together_end(s, own, rc, err);
}

static enum rt_err load_readings(struct rt_store *s, int64_t check, struct rt_readings *out,
				 struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_READING_LIST,
					     RT__CELLS(rt__int(check)), &out->text, err);

	while (rt__next(&rows)) {
		struct rt_reading *r = RT_LIST_ADD(out);

		if (!r) {
			rt__rows_nomem(&rows);
			continue;
		}
		r->from = rt__text_at(&rows, 0);
		r->to = rt__text_at(&rows, 1);
		r->distance_m = rt__real_at(&rows, 2);
		r->sigma_m = rt__real_at(&rows, 3);
		r->note = rt__text_at(&rows, 4);
		r->file = ""; /* no file any more */
	}
	return rows.rc;
}

enum rt_err rt_store_check_latest(struct rt_store *s, const char *ring, struct rt_stored_check *out,
				  bool *found, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_CHECK_LATEST,
					     RT__CELLS(rt__text(ring)), &out->text, err);
	int64_t id = 0;

	*found = rt__next(&rows);
	if (*found) {
		id = rt__int_at(&rows, 0);
		out->ring = rt__text_at(&rows, 1);
		out->when = rt__text_at(&rows, 2);
		out->tolerance_m = rt__real_at(&rows, 3);
		out->fit = rt__text_at(&rows, 4);
		rt__close_rows(&rows);
	}
	/* A check never changes once it is written, so its readings are of the same one. */
	return *found && !rows.rc ? load_readings(s, id, &out->readings, err) : rows.rc;
}

void rt_stored_check_free(struct rt_stored_check *check)
{
	RT_LIST_FREE(&check->readings);
	rt_arena_free(check->text);
	*check = (struct rt_stored_check){0};
}
