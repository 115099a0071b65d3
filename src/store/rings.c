/* Rings of the show, and the readings they were checked with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <ringtrue/check.h>

#include <math.h>
#include <string.h>

/* What a file of readings may say, and more: a length, a coordinate, degrees. */
#define READING_MOST 1e8
#define SIGMA_LEAST  1e-6
#define FRAMES_MOST  1000000

static const struct rt_field ring_fields[] = {
	{"name", RT_AT(struct rt_ring, name), .type = RT_TEXT},
	{"kind", RT_AT(struct rt_ring, kind), .type = RT_TEXT},
};

static const struct rt_record ring_record = {RT_FIELDS(ring_fields),
					     .size = sizeof(struct rt_ring)};

enum rt_err rt_store_rings(struct rt_store *s, struct rt_rings *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_RING_LIST, RT__NO_CELLS, &ring_record, out, err);
}

/* RT_E_INPUT when a ring has that name, or one that reads the same but for case and accents. */
static enum rt_err refuse_like_name(struct rt_store *s, const char *name, struct rt_error *err)
{
	struct rt_rings rings = {0};
	enum rt_err rc = rt_store_rings(s, &rings, err);

	for (size_t i = 0; i < rings.n && !rc; i++) {
		const char *other = rings.at[i].name;

		if (strcmp(other, name) == 0)
			rc = rt_fail(err, RT_E_INPUT, "there is a ring %s in the show already",
				     name);
		else if (rt_same_name(other, name))
			rc = rt_fail(err, RT_E_INPUT,
				     "there is a ring %s in the show already: %s reads the same",
				     other, name);
	}
	RT_LIST_FREE(&rings);
	return rc;
}

enum rt_err rt_store_ring_add(struct rt_store *s, const struct rt_ring *ring, struct rt_error *err)
{
	bool known;
	enum rt_err rc = rt__ask(s, RT__SQL_RING_KIND_KNOWN, RT__CELLS(rt__text(ring->kind)),
				 &known, err);

	if (!rc && !known)
		rc = rt_fail(err, RT_E_INPUT, "there is no kind of ring %s in the show",
			     ring->kind);
	if (!rc)
		rc = refuse_like_name(s, ring->name, err);
	return rc ? rc : rt__run_row(s, RT__SQL_RING_INSERT, &ring_record, ring, RT__NO_CELLS, err);
}

/* ---- checks ---------------------------------------------------------------------------------- */

#define READING(member) RT_AT(struct rt_reading, member)
#define PEG		.type = RT_NAME, .is = RT_EMPTY

static const struct rt_field reading_fields[] = {
	{"kind", READING(kind), .type = RT_WORD, .words = &rt_words_of_reading_kind},
	{"from_peg", READING(from), PEG},
	{"to_peg", READING(to), PEG},
	{"at_peg", READING(at), PEG},
	{"frame", READING(frame), .type = RT_SMALL, .low = 0, .high = FRAMES_MOST},
	{"value", READING(value), .type = RT_REAL, .low = -READING_MOST, .high = READING_MOST},
	{"sigma", READING(sigma), .type = RT_REAL, .is = RT_EMPTY, .low = SIGMA_LEAST,
	 .high = READING_MOST},
	{"note", READING(note), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_reading blank_reading = {.sigma = NAN, .file = ""}; /* no file any more */

static const struct rt_record reading_record = {
	RT_FIELDS(reading_fields), .size = sizeof blank_reading, .blank = &blank_reading};

static enum rt_err read_fit(const struct rt_field *f, void *member, const char *s,
			    struct rt_arena **text, struct rt_error *err)
{
	enum rt_fit fit;

	return rt_fit_read(s, &fit) ? rt_member_read(f, member, s, text, err)
				    : rt_refuse(err, s, "is no fit", "fewest, all or corners");
}

#define CHECK(member) RT_AT(struct rt_stored_check, member)
#define FALL	      .type = RT_REAL, .is = RT_EMPTY, .low = 0, .high = READING_MOST

static const struct rt_field check_fields[] = {
	{"ring", CHECK(ring), .type = RT_TEXT},
	{"at", CHECK(when), .type = RT_TEXT, .is = RT_EMPTY},
	{"tolerance_m", CHECK(tolerance_m), .type = RT_REAL, .low = SIGMA_LEAST,
	 .high = READING_MOST},
	{"fit", CHECK(fit), .type = RT_TEXT, .read = read_fit},
	{"who", CHECK(who), .type = RT_TEXT, .is = RT_EMPTY},
	{"fall_along_m", CHECK(limits.along_m), FALL},
	{"fall_across_m", CHECK(limits.across_m), FALL},
	{"fall_source", CHECK(limits.source), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_stored_check blank_check = {.limits = {.along_m = NAN, .across_m = NAN}};

static const struct rt_record check_record = {RT_FIELDS(check_fields), .size = sizeof blank_check,
					      .blank = &blank_check};

enum rt_err rt_store_check_put(struct rt_store *s, const struct rt_stored_check *check,
			       struct rt_error *err)
{
	struct rt_stored_check row = *check;
	bool known;
	int64_t id;
	enum rt_err rc = rt__ask(s, RT__SQL_RING_KNOWN, RT__CELLS(rt__text(check->ring)), &known,
				 err);

	if (!rc && !known)
		rc = rt_fail(err, RT_E_NOTFOUND, "there is no ring %s in the show", check->ring);
	if (!check->heights.n)
		row.limits = blank_check.limits;
	if (!rc)
		rc = rt__run_row(s, RT__SQL_RING_CHECK_INSERT, &check_record, &row, RT__NO_CELLS,
				 err);
	id = sqlite3_last_insert_rowid(s->db);
	if (!rc)
		rc = rt__run_list(s, RT__SQL_RING_READING_INSERT, &reading_record,
				  check->readings.at, check->readings.n, rt__int(id), err);
	if (!rc)
		rc = rt__run_list(s, RT__SQL_RING_HEIGHT_INSERT, &rt_height_record,
				  check->heights.at, check->heights.n, rt__int(id), err);
	return rc;
}

/* The check of a row, without its readings and heights; its id. */
static int64_t check_at(struct rt__rows *rows, struct rt_stored_check *out)
{
	rt__read_row(rows, &check_record, out);
	return rt__int_at(rows, 0);
}

/* A check never changes once it is written, so its readings and heights are of the same one. */
static enum rt_err load_taken(struct rt_store *s, int64_t id, struct rt_stored_check *out,
			      struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_RING_READING_LIST, RT__CELLS(rt__int(id)),
				  &reading_record, &out->readings, err);

	return rc ? rc
		  : RT__LOAD(s, RT__SQL_RING_HEIGHT_LIST, RT__CELLS(rt__int(id)), &rt_height_record,
			     &out->heights, err);
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
