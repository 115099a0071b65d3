/* Rings of the show, and the readings they were checked with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <ringtrue/check.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a file of readings may say, and more: a length, a coordinate, degrees. */
#define READING_MOST 1e8
#define SIGMA_LEAST  1e-6
#define FRAMES_MOST  1000000

/* A ring of the name that is folded so, or NULL; *nomem is set when memory is out. */
static const struct rt_ring *ring_like(const struct rt_rings *rings, const char *folded,
				       bool *nomem)
{
	for (size_t i = 0; i < rings->n; i++) {
		char *other = rt_fold(rings->at[i].name);
		bool same = other && strcmp(folded, other) == 0;

		*nomem = *nomem || !other;
		free(other);
		if (same)
			return &rings->at[i];
	}
	return NULL;
}

/* RT_E_INPUT when a ring has that name, or one that reads the same but for case and accents. */
static enum rt_err refuse_like_name(struct rt_store *s, const char *name, struct rt_error *err)
{
	struct rt_rings rings = {0};
	const struct rt_ring *like = NULL;
	char *folded = rt_fold(name);
	bool nomem = !folded;
	enum rt_err rc = rt_store_rings(s, &rings, err);

	if (!rc && folded)
		like = ring_like(&rings, folded, &nomem);
	if (!rc && nomem)
		rc = rt_fail_nomem(err);
	else if (like && strcmp(like->name, name) == 0)
		rc = rt_fail(err, RT_E_INPUT, "there is a ring %s in the show already", name);
	else if (like)
		rc = rt_fail(err, RT_E_INPUT,
			     "there is a ring %s in the show already: %s reads the same",
			     like->name, name);
	free(folded);
	RT_LIST_FREE(&rings);
	return rc;
}

static enum rt_err add_ring(struct rt_store *s, const struct rt_ring *ring, struct rt_error *err)
{
	int64_t known = 0;
	bool added;
	enum rt_err rc = rt__get_int(s, RT__SQL_RING_KIND_KNOWN, RT__CELLS(rt__text(ring->kind)),
				     &known, NULL, err);

	if (!rc && !known)
		rc = rt_fail(err, RT_E_INPUT, "there is no kind of ring %s in the show",
			     ring->kind);
	if (!rc)
		rc = refuse_like_name(s, ring->name, err);
	if (!rc)
		rc = rt__change(s, RT__SQL_RING_INSERT,
				RT__CELLS(rt__text(ring->name), rt__text(ring->kind)), &added, err);
	return rc;
}

enum rt_err rt_store_ring_add(struct rt_store *s, const struct rt_ring *ring, struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	return rc ? rc : rt__together_end(s, own, add_ring(s, ring, err), err);
}

enum rt_err rt_store_rings(struct rt_store *s, struct rt_rings *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_LIST, RT__NO_CELLS, &out->text, err);
	struct rt_ring *r;

	while ((r = RT__NEXT(&rows, out))) {
		r->name = rt__name_at(&rows, 0);
		r->kind = rt__name_at(&rows, 1);
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
			     RT__CELLS(rt__int(check), rt__int((int64_t)i + 1),
				       rt__text(rt_reading_kind_words(r->kind)), rt__given(r->from),
				       rt__given(r->to), rt__given(r->at), rt__int(r->frame),
				       rt__real(r->value), rt__real(r->sigma), rt__given(r->note)),
			     err);
	}
	return rc;
}

static enum rt_err put_heights(struct rt_store *s, int64_t check, const struct rt_heights *heights,
			       struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < heights->n && !rc; i++)
		rc = rt__run_row(s, RT__SQL_RING_HEIGHT_INSERT, &rt_height_record, &heights->at[i],
				 RT__CELLS(rt__int(check), rt__int((int64_t)i + 1)), err);
	return rc;
}

static enum rt_err put_check(struct rt_store *s, const struct rt_stored_check *check,
			     struct rt_error *err)
{
	const struct rt_footing_limits none = {.along_m = NAN, .across_m = NAN};
	const struct rt_footing_limits *limits = check->heights.n ? &check->limits : &none;
	int64_t known = 0, id;
	enum rt_err rc = rt__get_int(s, RT__SQL_RING_KNOWN, RT__CELLS(rt__text(check->ring)),
				     &known, NULL, err);

	if (!rc && !known)
		rc = rt_fail(err, RT_E_NOTFOUND, "there is no ring %s in the show", check->ring);
	if (!rc)
		rc = rt__run(s, RT__SQL_RING_CHECK_INSERT,
			     RT__CELLS(rt__text(check->ring), rt__given(check->when),
				       rt__real(check->tolerance_m), rt__text(check->fit),
				       rt__given(check->who), rt__real(limits->along_m),
				       rt__real(limits->across_m), rt__given(limits->source)),
			     err);
	if (rc)
		return rc;
	id = sqlite3_last_insert_rowid(s->db);
	rc = put_readings(s, id, &check->readings, err);
	return rc ? rc : put_heights(s, id, &check->heights, err);
}

enum rt_err rt_store_check_put(struct rt_store *s, const struct rt_stored_check *check,
			       struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	return rc ? rc : rt__together_end(s, own, put_check(s, check, err), err);
}

static enum rt_err load_readings(struct rt_store *s, int64_t check, struct rt_readings *out,
				 struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_READING_LIST,
					     RT__CELLS(rt__int(check)), &out->text, err);
	struct rt_reading *r;

	while ((r = RT__NEXT(&rows, out))) {
		if (!rt_reading_kind_read(rt__words_at(&rows, 0), &r->kind))
			rt__rows_damaged(&rows);
		r->from = rt__text_at(&rows, 1);
		r->to = rt__text_at(&rows, 2);
		r->at = rt__text_at(&rows, 3);
		r->frame = (int)rt__int_in(&rows, 4, 0, FRAMES_MOST);
		r->value = rt__real_in(&rows, 5, -READING_MOST, READING_MOST);
		r->sigma = rt__real_in_or_none(&rows, 6, SIGMA_LEAST, READING_MOST);
		r->note = rt__text_at(&rows, 7);
		r->file = ""; /* no file any more */
	}
	return rows.rc;
}

static enum rt_err load_heights(struct rt_store *s, int64_t check, struct rt_heights *out,
				struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_RING_HEIGHT_LIST, RT__CELLS(rt__int(check)),
				  &rt_height_record, out, err);

	for (size_t i = 0; i < out->n; i++)
		out->at[i].file = "";
	return rc;
}

/* The check of a row, without its readings and heights; its id. */
static int64_t check_at(struct rt__rows *rows, struct rt_stored_check *out)
{
	enum rt_fit fit;

	out->ring = rt__name_at(rows, 1);
	out->when = rt__text_at(rows, 2);
	out->tolerance_m = rt__real_in(rows, 3, SIGMA_LEAST, READING_MOST);
	out->fit = rt__name_at(rows, 4);
	if (!rt_fit_read(out->fit, &fit))
		rt__rows_damaged(rows);
	out->who = rt__text_at(rows, 5);
	out->limits.along_m = rt__real_in_or_none(rows, 6, 0, READING_MOST);
	out->limits.across_m = rt__real_in_or_none(rows, 7, 0, READING_MOST);
	out->limits.source = rt__text_at(rows, 8);
	return rt__int_at(rows, 0);
}

/* A check never changes once it is written, so its readings and heights are of the same one. */
static enum rt_err load_taken(struct rt_store *s, int64_t id, struct rt_stored_check *out,
			      struct rt_error *err)
{
	enum rt_err rc = load_readings(s, id, &out->readings, err);

	return rc ? rc : load_heights(s, id, &out->heights, err);
}

enum rt_err rt_store_check_latest(struct rt_store *s, const char *ring, struct rt_stored_check *out,
				  bool *found, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_CHECK_LATEST,
					     RT__CELLS(rt__text(ring)), &out->text, err);
	int64_t id = 0;

	*found = rt__next(&rows);
	if (*found) {
		id = check_at(&rows, out);
		rt__close_rows(&rows);
	}
	return *found && !rows.rc ? load_taken(s, id, out, err) : rows.rc;
}

enum rt_err rt_store_checks(struct rt_store *s, const char *ring, struct rt_stored_checks *out,
			    struct rt_error *err)
{
	struct RT_LIST(int64_t) ids = {0};
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_CHECK_LIST, RT__CELLS(rt__text(ring)),
					     &out->text, err);
	enum rt_err rc;

	while (rt__next(&rows)) {
		int64_t *id = RT_LIST_ADD(&ids);
		struct rt_stored_check *check = id ? RT_LIST_ADD(out) : NULL;

		if (check)
			*id = check_at(&rows, check);
		else
			rt__rows_nomem(&rows);
	}
	rc = rows.rc;
	for (size_t i = 0; !rc && i < ids.n; i++)
		rc = load_taken(s, ids.at[i], &out->at[i], err);
	RT_LIST_FREE(&ids);
	return rc;
}

void rt_stored_checks_free(struct rt_stored_checks *checks)
{
	for (size_t i = 0; i < checks->n; i++)
		rt_stored_check_free(&checks->at[i]);
	RT_LIST_FREE(checks);
}

void rt_stored_check_free(struct rt_stored_check *check)
{
	RT_LIST_FREE(&check->readings);
	RT_LIST_FREE(&check->heights);
	rt_arena_free(check->text);
	*check = (struct rt_stored_check){0};
}
