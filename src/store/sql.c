/* Every statement of the show file: prepared once, bound, run; what SQLite says, in plain words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

const struct rt__sql_text rt__sql_text[RT__SQL_COUNT] = {
#define RT_SQL(name, group, text) [RT__SQL_##name] = {#name, group, text},
#include "store/sql_text.h"
#undef RT_SQL
};

/* ---- errors ---------------------------------------------------------------------------------- */

enum rt_err rt__damaged(const struct rt_store *s, struct rt_error *err)
{
	return rt_fail(
		err, RT_E_STORE,
		"%s is damaged: `ringtrue restore COPY` puts the latest copy in its place, and "
		"keeps this file",
		s->path);
}

enum rt_err rt__sqlite_fail(const struct rt_store *s, int sqlite_code, struct rt_error *err)
{
	switch (sqlite_code & 0xff) {
	case SQLITE_NOMEM:
		return rt_fail_nomem(err);
	case SQLITE_BUSY:
	case SQLITE_LOCKED:
		return rt_fail(err, RT_E_BUSY,
			       "the show file is busy: another program is writing; try again");
	case SQLITE_FULL:
		return rt_fail(err, RT_E_STORE,
			       "there is no room left for %s: make room, then try again; nothing "
			       "was changed",
			       s->path);
	case SQLITE_IOERR:
		return rt_fail(err, RT_E_STORE,
			       "reading or writing %s failed: see that its disk or stick is in "
			       "and not full, then try again; nothing was changed",
			       s->path);
	case SQLITE_CORRUPT:
		return rt__damaged(s, err);
	case SQLITE_NOTADB:
		return rt_fail(err, RT_E_FORMAT, "%s is not a show file", s->path);
	case SQLITE_READONLY:
		if (sqlite_code == SQLITE_READONLY_DBMOVED)
			return rt_fail(err, RT_E_STORE,
				       "%s was moved away or replaced while this program had it "
				       "open: begin again; nothing was changed",
				       s->path);
		/* fall through */
	case SQLITE_CANTOPEN:
	case SQLITE_PERM:
		return rt_fail(err, RT_E_STORE,
			       "%s or its folder cannot be written: copy it, with its log %s-wal "
			       "if there is one, to a folder that can",
			       s->path, s->path);
	case SQLITE_CONSTRAINT:
		return rt_fail(err, RT_E_INPUT, "the show file refuses this: %s",
			       sqlite3_errmsg(s->db));
	default:
		return rt_fail(err, RT_E_STORE, "the show file %s failed: %s", s->path,
			       sqlite3_errmsg(s->db));
	}
}

/* ---- parameters ------------------------------------------------------------------------------ */

struct rt__cell rt__text(const char *s)
{
	return (struct rt__cell){.null = !s, .text = s};
}

struct rt__cell rt__given(const char *s)
{
	return rt__text(s && *s ? s : NULL);
}

struct rt__cell rt__int(int64_t v)
{
	return (struct rt__cell){.whole = v};
}

struct rt__cell rt__int_unless(int64_t v, int64_t none)
{
	return (struct rt__cell){.null = v == none, .whole = v};
}

static int bind(sqlite3_stmt *q, int parameter, const struct rt__cell *cell)
{
	if (cell->null)
		return sqlite3_bind_null(q, parameter);
	if (cell->text)
		return sqlite3_bind_text(q, parameter, cell->text, -1, SQLITE_STATIC);
	return sqlite3_bind_int64(q, parameter, cell->whole);
}

static int bind_field(sqlite3_stmt *q, int parameter, const struct rt_record *record,
		      const struct rt_field *f, const void *row)
{
	char own[RT_OWN_SIZE];
	struct rt_value v = rt_field_value(record, f, row, own);
	bool none = v.null;

	switch (rt_type_shown(f->type)) {
	case RT_INT:
	case RT_DECIMAL:
		return none ? sqlite3_bind_null(q, parameter)
			    : sqlite3_bind_int64(q, parameter, v.as.whole);
	case RT_REAL:
		return none ? sqlite3_bind_null(q, parameter)
			    : sqlite3_bind_double(q, parameter, v.as.real);
	case RT_BOOL:
		return sqlite3_bind_int64(q, parameter, v.as.truth);
	default:
		break;
	}
	none |= !none && !*v.as.text && f->is & (RT_EMPTY | RT_OPTIONAL | RT_OF_SHOW);
	return sqlite3_bind_text(q, parameter, none ? NULL : v.as.text, -1,
				 f->type == RT_OWN ? SQLITE_TRANSIENT : SQLITE_STATIC);
}

void rt__statement_free(struct rt__statement *st)
{
	sqlite3_finalize(st->q);
	free(st->parameter);
}

/* The field that the show file calls so, or NULL. */
static const struct rt_field *kept_field(const struct rt_record *record, const char *name)
{
	for (size_t i = 0; i < record->fields; i++) {
		const struct rt_field *f = &record->field[i];

		if (strcmp(f->kept ? f->kept : f->name, name) == 0)
			return f;
	}
	return NULL;
}

/* Look the names of a statement up in the record; once, as it is always used with the same. */
static int look_up(struct rt__statement *st, const struct rt_record *record)
{
	size_t parameters = (size_t)sqlite3_bind_parameter_count(st->q);
	size_t columns = (size_t)sqlite3_column_count(st->q);

	assert(!st->record || st->record == record);
	if (st->record)
		return SQLITE_OK;
	st->parameter = calloc(parameters + columns + 1, sizeof *st->parameter);
	if (!st->parameter)
		return SQLITE_NOMEM;
	st->column = st->parameter + parameters;
	st->record = record;
	for (size_t i = 0; i < parameters; i++) {
		const char *name = sqlite3_bind_parameter_name(st->q, (int)i + 1);

		st->parameter[i] = name && *name == ':' ? kept_field(record, name + 1) : NULL;
	}
	for (size_t i = 0; i < columns; i++)
		st->column[i] = kept_field(record, sqlite3_column_name(st->q, (int)i));
	return SQLITE_OK;
}

/* The statement, made on its first use, with its parameters: n cells, then fields of the row. */
static int bound(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
		 const struct rt_record *record, const void *row)
{
	struct rt__statement *st = &s->stmt[sql];
	size_t parameters;
	int code = SQLITE_OK;

	if (!st->q)
		code = sqlite3_prepare_v3(s->db, rt__sql_text[sql].text, -1,
					  SQLITE_PREPARE_PERSISTENT, &st->q, NULL);
	if (code == SQLITE_OK && record)
		code = look_up(st, record);
	if (code != SQLITE_OK)
		return code;
	parameters = (size_t)sqlite3_bind_parameter_count(st->q);
	assert(record ? n <= parameters : n == parameters);
	for (size_t i = 0; i < parameters && code == SQLITE_OK; i++) {
		assert(!record || (i < n) == !st->parameter[i]);
		code = i < n ? bind(st->q, (int)i + 1, &cell[i])
			     : bind_field(st->q, (int)i + 1, record, st->parameter[i], row);
	}
	return code;
}

/* What writes a row is part of a transaction, so that all of a change is kept or nothing.  Without
 * parameters are the statements that make a file, and those that begin and end a transaction. */
static enum rt_err check_writing(const struct rt_store *s, sqlite3_stmt *q, struct rt_error *err)
{
	if (sqlite3_stmt_readonly(q) || !sqlite3_bind_parameter_count(q))
		return RT_OK;
	if (!s->writing)
		return rt_fail(err, RT_E_USAGE, "%s was opened for reading only", s->path);
	return rt__need_transaction(s, err);
}

enum rt_err rt__run_row(struct rt_store *s, enum rt__sql sql, const struct rt_record *record,
			const void *row, const struct rt__cell *cell, size_t n,
			struct rt_error *err)
{
	int code = bound(s, sql, cell, n, record, row);
	sqlite3_stmt *q = s->stmt[sql].q;
	enum rt_err rc = code == SQLITE_OK ? check_writing(s, q, err) : RT_OK;

	if (rc)
		return rc;
	if (code == SQLITE_OK)
		do
			code = sqlite3_step(q);
		while (code == SQLITE_ROW);
	if (code != SQLITE_DONE)
		rc = rt__sqlite_fail(s, code, err);
	sqlite3_reset(q);
	return rc;
}

enum rt_err rt__run(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
		    struct rt_error *err)
{
	return rt__run_row(s, sql, NULL, NULL, cell, n, err);
}

enum rt_err rt__run_list(struct rt_store *s, enum rt__sql sql, const struct rt_record *record,
			 const void *rows, size_t n, struct rt__cell whose, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < n && !rc; i++)
		rc = rt__run_row(s, sql, record, (const char *)rows + i * record->size,
				 RT__CELLS(whose, rt__int((int64_t)i + 1)), err);
	return rc;
}

enum rt_err rt__run_group(struct rt_store *s, const char *group, struct rt_error *err)
{
	enum rt_err rc = RT_OK;
	bool any = false;

	for (int i = 0; i < RT__SQL_COUNT && !rc; i++) {
		if (strcmp(rt__sql_text[i].group, group) != 0)
			continue;
		any = true;
		rc = rt__run(s, (enum rt__sql)i, RT__NO_CELLS, err);
	}
	if (!any)
		return rt_fail(err, RT_E_FORMAT,
			       "%s is of a version that this program does not know", s->path);
	return rc;
}

/* ---- rows ------------------------------------------------------------------------------------ */

struct rt__rows rt__open_rows_of(struct rt_store *s, enum rt__sql sql,
				 const struct rt_record *record, const void *row,
				 const struct rt__cell *cell, size_t n, struct rt_arena **text,
				 struct rt_error *err)
{
	struct rt__rows r = {.s = s, .text = text, .err = err};
	int code = bound(s, sql, cell, n, record, row);

	if (code != SQLITE_OK)
		r.rc = rt__sqlite_fail(s, code, err);
	r.statement = &s->stmt[sql];
	r.q = r.statement->q;
	return r;
}

struct rt__rows rt__open_rows(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell,
			      size_t n, struct rt_arena **text, struct rt_error *err)
{
	return rt__open_rows_of(s, sql, NULL, NULL, cell, n, text, err);
}

bool rt__next(struct rt__rows *r)
{
	int code = r->rc ? SQLITE_DONE : sqlite3_step(r->q);

	if (code == SQLITE_ROW)
		return true;
	if (code != SQLITE_DONE)
		r->rc = rt__sqlite_fail(r->s, code, r->err);
	rt__close_rows(r);
	return false;
}

void rt__close_rows(struct rt__rows *r)
{
	sqlite3_reset(r->q);
}

void rt__rows_nomem(struct rt__rows *r)
{
	r->rc = rt_fail_nomem(r->err);
}

void rt__rows_damaged(struct rt__rows *r)
{
	r->rc = rt__damaged(r->s, r->err);
}

void *rt__added(struct rt__rows *r, void *place)
{
	if (!place) {
		rt__rows_nomem(r);
		rt__close_rows(r);
	}
	return place;
}

static bool is_null(struct rt__rows *r, int column)
{
	return sqlite3_column_type(r->q, column) == SQLITE_NULL;
}

/* Whether the value is of a type; if not, the rows are damaged. */
static bool is_type(struct rt__rows *r, int column, int type)
{
	if (sqlite3_column_type(r->q, column) == type)
		return true;
	rt__rows_damaged(r);
	return false;
}

const char *rt__words_at(struct rt__rows *r, int column)
{
	const char *words;

	if (!is_type(r, column, SQLITE_TEXT))
		return "";
	words = (const char *)sqlite3_column_text(r->q, column);
	if (!words)
		rt__rows_nomem(r);
	else if (rt_plain_text(words, (size_t)sqlite3_column_bytes(r->q, column)) == RT_PLAIN)
		return words;
	else
		rt__rows_damaged(r);
	return "";
}

static const char *copy_at(struct rt__rows *r, int column)
{
	const char *copy = rt_arena_string(r->text, rt__words_at(r, column));

	if (!copy)
		rt__rows_nomem(r);
	return copy ? copy : "";
}

const char *rt__text_at(struct rt__rows *r, int column)
{
	return is_null(r, column) ? NULL : copy_at(r, column);
}

const char *rt__name_at(struct rt__rows *r, int column)
{
	const char *name = copy_at(r, column);

	if (!*name && !r->rc)
		rt__rows_damaged(r);
	return name;
}

static void read_field(struct rt__rows *r, int column, const struct rt_field *f, void *row)
{
	struct rt_value v = {.null = is_null(r, column)};
	bool nomem = false;

	if (!v.null)
		switch (rt_type_shown(f->type)) {
		case RT_INT:
		case RT_DECIMAL:
			v.as.whole = rt__int_at(r, column);
			break;
		case RT_REAL:
			if (is_type(r, column, SQLITE_FLOAT))
				v.as.real = sqlite3_column_double(r->q, column);
			break;
		case RT_BOOL:
			v.as.truth = rt__int_in(r, column, 0, 1) != 0;
			break;
		default:
			v.as.text = rt__words_at(r, column);
		}
	if (r->rc || rt_field_set(f, row, &v, r->text, &nomem))
		return;
	if (nomem)
		rt__rows_nomem(r);
	else
		rt__rows_damaged(r);
}

void rt__read_row(struct rt__rows *r, const struct rt_record *record, void *row)
{
	int columns = sqlite3_column_count(r->q);

	rt_record_start(record, row);
	if (look_up(r->statement, record) != SQLITE_OK)
		rt__rows_nomem(r);
	for (int i = 0; i < columns && !r->rc; i++)
		if (r->statement->column[i])
			read_field(r, i, r->statement->column[i], row);
}

enum rt_err rt__load_rows(struct rt__rows rows, const struct rt_record *record, void *at_field,
			  size_t *n, size_t *cap)
{
	while (rt__next(&rows)) {
		void *row = rt__added(&rows, rt_list_add(at_field, n, cap, record->size));

		if (row)
			rt__read_row(&rows, record, row);
	}
	return rows.rc;
}

int64_t rt__int_at(struct rt__rows *r, int column)
{
	return is_type(r, column, SQLITE_INTEGER) ? sqlite3_column_int64(r->q, column) : 0;
}

int64_t rt__int_in(struct rt__rows *r, int column, int64_t least, int64_t most)
{
	int64_t v = rt__int_at(r, column);

	if (v >= least && v <= most)
		return v;
	rt__rows_damaged(r);
	return least;
}

enum rt_err rt__get_int(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
			int64_t *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, sql, cell, n, NULL, err);

	if (rt__next(&rows)) {
		*out = rt__int_at(&rows, 0);
		rt__close_rows(&rows);
	}
	return rows.rc;
}

enum rt_err rt__ask(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
		    bool *yes, struct rt_error *err)
{
	int64_t number = 0;
	enum rt_err rc = rt__get_int(s, sql, cell, n, &number, err);

	*yes = number != 0;
	return rc;
}

enum rt_err rt__load_names(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell,
			   size_t n, struct rt_strings *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, sql, cell, n, &out->text, err);
	const char **name;

	while ((name = RT__NEXT(&rows, out)))
		*name = rt__name_at(&rows, 0);
	return rows.rc;
}

size_t rt__place_by_id(const void *at, size_t n, size_t size, size_t id_at, int64_t id, size_t last)
{
	for (size_t k = 0; k < n; k++) {
		size_t i = last + k < n ? last + k : last + k - n;
		const char *element = (const char *)at + i * size;

		if (*(const int64_t *)(const void *)(element + id_at) == id)
			return i;
	}
	return n;
}
