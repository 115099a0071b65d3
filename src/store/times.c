/* The draw, what is asked of the times, and start times with their versions.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* Starts that run late go beyond the last day, but not for ever. */
#define LATEST_DAY (10 * RT_DAYS_MOST)

/* ---- draws ----------------------------------------------------------------------------------- */

#define DRAW(member) RT_AT(struct rt_stored_draw, member)

static const struct rt_field draw_fields[] = {
	{"id", DRAW(id), .type = RT_INT},
	{"class", DRAW(class_name), .type = RT_TEXT},
	{"what", DRAW(what), .type = RT_TEXT},
	{"seed", DRAW(seed), .type = RT_INT, .low = 1, .high = RT_SEED_MOST},
	{"apart", DRAW(apart), .type = RT_INT, .low = 0, .high = RT_NUMBER_MOST},
	RT__SAID(struct rt_stored_draw, ),
};

static const struct rt_record draw_record = {RT_FIELDS(draw_fields),
					     .size = sizeof(struct rt_stored_draw)};

static const struct rt_field place_fields[] = {
	{"entry", RT_AT(struct rt_draw_place, entry), .type = RT_INT},
	{"place", RT_AT(struct rt_draw_place, place), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"fixed", RT_AT(struct rt_draw_place, fixed), .type = RT_BOOL},
};

static const struct rt_record place_record = {RT_FIELDS(place_fields),
					      .size = sizeof(struct rt_draw_place)};

enum rt_err rt_store_draw_put(struct rt_store *s, const struct rt_stored_draw *draw,
			      const struct rt_draw_places *places, struct rt_error *err)
{
	enum rt_err rc = rt__run_row(s, RT__SQL_DRAW_INSERT, &draw_record, draw, RT__NO_CELLS, err);
	int64_t id = sqlite3_last_insert_rowid(s->db);

	for (size_t i = 0; i < places->n && !rc; i++)
		rc = rt__run_row(s, RT__SQL_DRAW_PLACE_INSERT, &place_record, &places->at[i],
				 RT__CELLS(rt__int(id)), err);
	return rc;
}

enum rt_err rt_store_draws(struct rt_store *s, const char *class_name, struct rt_stored_draws *out,
			   struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_DRAW_LIST, RT__CELLS(rt__text(class_name)), &draw_record, out,
			err);
}

enum rt_err rt_store_draw_places(struct rt_store *s, const char *class_name,
				 struct rt_draw_places *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_DRAW_PLACE_LIST, RT__CELLS(rt__text(class_name)), &place_record,
			out, err);
}

enum rt_err rt_store_class_timed(struct rt_store *s, const char *class_name, bool *out,
				 struct rt_error *err)
{
	return rt__ask(s, RT__SQL_TIMES_OF_CLASS, RT__CELLS(rt__text(class_name)), out, err);
}

/* ---- plan files and wishes ------------------------------------------------------------------- */

/* A change of the times; or a file, whose path are its words. */
static const struct rt_field note_fields[] = {
	{"id", RT_AT(struct rt_times_note, version), .type = RT_INT},
	{"what", RT_AT(struct rt_times_note, what), .type = RT_TEXT},
	{"words", RT_AT(struct rt_times_note, words), .type = RT_TEXT, .is = RT_EMPTY},
	{"ring", RT_AT(struct rt_times_note, ring), .type = RT_TEXT, .is = RT_EMPTY},
	RT__SAID(struct rt_times_note, ),
};

static const struct rt_record note_record = {RT_FIELDS(note_fields),
					     .size = sizeof(struct rt_times_note)};

static enum rt_err put_file(struct rt_store *s, const char *what, const struct rt_times_note *note,
			    enum rt__sql sql, const struct rt_record *record, const void *rows,
			    size_t n, struct rt_error *err)
{
	enum rt_err rc = rt__run_row(s, RT__SQL_TIMES_FILE_INSERT, &note_record, note,
				     RT__CELLS(rt__text(what)), err);
	struct rt__cell file = rt__int(sqlite3_last_insert_rowid(s->db));

	return rc ? rc : rt__run_list(s, sql, record, rows, n, file, err);
}

enum rt_err rt_store_plan_rows_put(struct rt_store *s, const struct rt_plan_rows *rows,
				   const struct rt_times_note *note, struct rt_error *err)
{
	return put_file(s, "plan", note, RT__SQL_PLAN_ROW_INSERT, &rt_plan_row_record, rows->at,
			rows->n, err);
}

enum rt_err rt_store_plan_rows(struct rt_store *s, struct rt_plan_rows *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_PLAN_ROW_LIST, RT__NO_CELLS, &rt_plan_row_record, out, err);
}

enum rt_err rt_store_wishes_put(struct rt_store *s, const struct rt_wishes *wishes,
				const struct rt_times_note *note, struct rt_error *err)
{
	return put_file(s, "wishes", note, RT__SQL_WISH_INSERT, &rt_wish_record, wishes->at,
			wishes->n, err);
}

enum rt_err rt_store_wishes(struct rt_store *s, struct rt_wishes *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_WISH_LIST, RT__NO_CELLS, &rt_wish_record, out, err);
}

/* ---- start times ----------------------------------------------------------------------------- */

#define SETTING(member) RT_AT(struct rt_time_settings, member), .type = RT_INT
#define OF_DAY		.low = 0, .high = RT_DAY_S
#define GAP(shared)	SETTING(gap_s[RT_SHARED_##shared]), OF_DAY, .is = RT_EMPTY

static const struct rt_field setting_fields[] = {
	{"days", SETTING(days), .low = 1, .high = RT_DAYS_MOST},
	{"open_s", SETTING(open_s), OF_DAY},
	{"close_s", SETTING(close_s), OF_DAY},
	{"gap_driver_s", GAP(DRIVER)},
	{"gap_horse_s", GAP(HORSE)},
	{"gap_groom_s", GAP(GROOM)},
	{"gap_carriage_s", GAP(CARRIAGE)},
	{"gap_judge_s", GAP(JUDGE)},
	{"change_s", SETTING(change_s), OF_DAY},
	{"seed", SETTING(seed), .low = 1, .high = RT_SEED_MOST},
};

static const struct rt_time_settings no_settings = {.gap_s = {-1, -1, -1, -1, -1}};

static const struct rt_record setting_record = {RT_FIELDS(setting_fields),
						.size = sizeof no_settings, .blank = &no_settings};

static const struct rt_field start_fields[] = {
	{"ring", RT_AT(struct rt_start, ring), .type = RT_TEXT},
	{"at_s", RT_AT(struct rt_start, at_s), .type = RT_INT, .low = 0,
	 .high = LATEST_DAY * RT_DAY_S - 1},
	{"slot_s", RT_AT(struct rt_start, slot_s), .type = RT_INT, .low = 1, .high = RT_DAY_S},
	{"pause_s", RT_AT(struct rt_start, pause_s), .type = RT_INT, OF_DAY},
	{"pause", RT_AT(struct rt_start, pause), .type = RT_WORD, .words = &rt_words_of_pause,
	 .is = RT_EMPTY},
	{"version", RT_AT(struct rt_start, version), .type = RT_INT},
	{"place", RT_AT(struct rt_start, place), .type = RT_INT, .low = 0, .high = RT_NUMBER_MOST},
};

static const struct rt_record start_record = {RT_FIELDS(start_fields),
					      .size = sizeof(struct rt_start)};

enum rt_err rt_store_times_put(struct rt_store *s, const struct rt_times_note *note,
			       const struct rt_time_settings *settings, struct rt_starts *starts,
			       const int64_t *gone, size_t gone_n, int64_t *version,
			       struct rt_error *err)
{
	enum rt_err rc = rt__run_row(s, RT__SQL_TIMES_CHANGE_INSERT, &note_record, note,
				     RT__NO_CELLS, err);

	*version = sqlite3_last_insert_rowid(s->db);
	if (!rc && settings)
		rc = rt__run_row(s, RT__SQL_TIMES_SETTING_INSERT, &setting_record, settings,
				 RT__CELLS(rt__int(*version)), err);
	for (size_t i = 0; i < starts->n && !rc; i++) {
		if (starts->at[i].version)
			continue;
		starts->at[i].version = *version;
		rc = rt__run_row(s, RT__SQL_START_TIME_INSERT, &start_record, &starts->at[i],
				 RT__CELLS(rt__int(starts->at[i].entry->id)), err);
	}
	for (size_t i = 0; i < gone_n && !rc; i++)
		rc = rt__run(s, RT__SQL_START_TIME_GONE,
			     RT__CELLS(rt__int(gone[i]), rt__int(*version)), err);
	return rc;
}

enum rt_err rt_store_times_of(struct rt_store *s, int64_t version, const struct rt_entries *entries,
			      struct rt_starts *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_START_TIME_LIST,
					     RT__CELLS(rt__int(version)), &out->text, err);
	size_t entry = 0;

	while (rt__next(&rows)) {
		size_t place = RT__PLACE_BY_ID(struct rt_entry, entries, rt__int_at(&rows, 0),
					       entry);
		struct rt_start *start = NULL;

		if (place < entries->n)
			start = rt__added(&rows, RT_LIST_ADD(out));
		if (!start)
			continue;
		entry = place;
		rt__read_row(&rows, &start_record, start);
		start->entry = &entries->at[entry];
	}
	rt_starts_sort(out);
	return rows.rc;
}

enum rt_err rt_store_times(struct rt_store *s, const struct rt_entries *entries,
			   struct rt_starts *out, struct rt_error *err)
{
	return rt_store_times_of(s, RT_TIMES_NOW, entries, out, err);
}

enum rt_err rt_store_time_settings(struct rt_store *s, int64_t version,
				   struct rt_time_settings *out, bool *found, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TIMES_SETTING_LATEST,
					     RT__CELLS(rt__int(version)), &text, err);

	*found = rt__next(&rows);
	if (*found) {
		rt__read_row(&rows, &setting_record, out);
		if (!rows.rc && out->close_s < out->open_s)
			rt__rows_damaged(&rows);
		rt__close_rows(&rows);
	}
	rt_arena_free(text);
	return rows.rc;
}

enum rt_err rt_store_times_changes(struct rt_store *s, struct rt_times_notes *out,
				   struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_TIMES_CHANGE_LIST, RT__NO_CELLS, &note_record, out, err);
}

static const struct rt_field list_fields[] = {
	{"ring", RT_AT(struct rt_list_version, ring), .type = RT_TEXT},
	{"class", RT_AT(struct rt_list_version, class_name), .type = RT_TEXT},
	{"day", RT_AT(struct rt_list_version, day), .type = RT_INT, .low = 1, .high = LATEST_DAY},
	{"version", RT_AT(struct rt_list_version, version), .type = RT_INT},
};

static const struct rt_record list_record = {RT_FIELDS(list_fields),
					     .size = sizeof(struct rt_list_version)};

enum rt_err rt_store_list_versions(struct rt_store *s, struct rt_list_versions *out,
				   struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_TIMES_LIST_VERSION, RT__NO_CELLS, &list_record, out,
				  err);

	return rc ? rc
		  : RT__LOAD(s, RT__SQL_TIMES_CLASS_VERSION, RT__NO_CELLS, &list_record, out, err);
}

/* ---- lists as they were printed -------------------------------------------------------------- */

#define PRINTED(member) RT_AT(struct rt_printed_list, member)

static const struct rt_field printed_fields[] = {
	{"id", PRINTED(id), .type = RT_INT},
	{"list", PRINTED(list), .type = RT_WORD, .words = &rt_words_of_start_list},
	{"ring", PRINTED(ring), .type = RT_TEXT, .is = RT_EMPTY},
	{"class", PRINTED(class_name), .type = RT_TEXT, .is = RT_EMPTY},
	{"driver", PRINTED(driver), .type = RT_TEXT, .is = RT_EMPTY},
	{"day", PRINTED(day), .type = RT_INT, .low = 1, .high = LATEST_DAY},
	{"version", PRINTED(version), .type = RT_INT, .low = 1, .high = RT__VERSION_MOST},
	{"at", PRINTED(when), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_record printed_record = {RT_FIELDS(printed_fields),
						.size = sizeof(struct rt_printed_list)};

static const struct rt_field line_fields[] = {
	{"entry", RT_AT(struct rt_list_line, entry), .type = RT_INT},
	{"words", RT_AT(struct rt_list_line, words), .type = RT_TEXT},
};

static const struct rt_record line_record = {RT_FIELDS(line_fields),
					     .size = sizeof(struct rt_list_line)};

enum rt_err rt_store_printed_put(struct rt_store *s, const struct rt_printed_list *list,
				 struct rt_error *err)
{
	enum rt_err rc = rt__run_row(s, RT__SQL_PRINTED_LIST_INSERT, &printed_record, list,
				     RT__NO_CELLS, err);
	int64_t id = sqlite3_last_insert_rowid(s->db);

	for (size_t i = 0; i < list->lines.n && !rc; i++)
		rc = rt__run(s, RT__SQL_PRINTED_LINE_INSERT,
			     RT__CELLS(rt__int(id), rt__int((int64_t)i + 1),
				       rt__int_unless(list->lines.at[i].entry, 0),
				       rt__text(list->lines.at[i].words)),
			     err);
	return rc;
}

/* The lists of a statement, then the lines of each. */
static enum rt_err load_printed(struct rt__rows rows, struct rt_printed_lists *out)
{
	struct rt_store *s = rows.s;
	struct rt_error *err = rows.err;
	enum rt_err rc = rt__load_rows(rows, &printed_record, &out->at, &out->n, &out->cap);

	for (size_t i = 0; i < out->n && !rc; i++)
		rc = RT__LOAD(s, RT__SQL_PRINTED_LINE_LIST, RT__CELLS(rt__int(out->at[i].id)),
			      &line_record, &out->at[i].lines, err);
	return rc;
}

enum rt_err rt_store_printed_versions(struct rt_store *s, const struct rt_printed_list *like,
				      struct rt_printed_lists *out, struct rt_error *err)
{
	return load_printed(rt__open_rows_of(s, RT__SQL_PRINTED_LIST_VERSIONS, &printed_record,
					     like, RT__NO_CELLS, &out->text, err),
			    out);
}

enum rt_err rt_store_printed_latest(struct rt_store *s, struct rt_printed_lists *out,
				    struct rt_error *err)
{
	return load_printed(rt__open_rows(s, RT__SQL_PRINTED_LIST_LATEST, RT__NO_CELLS, &out->text,
					  err),
			    out);
}
