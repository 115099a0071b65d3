/* The show file opened and closed, and its transactions.
 *
 * To take the log up (log.c) changes the file's header, so a program that opens the file for
 * writing and then begins no transaction leaves it as it is, byte for byte.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The first bytes of every SQLite file (the file format page of its documentation, section
 * "The Database Header"). */
#define HEADER_MAGIC	      "SQLite format 3"
#define HEADER_USER_VERSION   60
#define HEADER_APPLICATION_ID 68

int rt__open_folder(const char *path)
{
	const char *slash = strrchr(path, '/');
	char *folder = slash ? strndup(path, (size_t)(slash - path) + 1) : strdup(".");
	int fd = folder ? open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC) : -1;

	free(folder);
	return fd;
}

/* ---- handles --------------------------------------------------------------------------------- */

/* SQLite reads names such as ":memory:" and "file:..." in its own way, but not behind "./". */
static char *plain_path(const char *path)
{
	size_t size = strlen(path) + 3;
	char *plain = malloc(size);

	if (plain)
		snprintf(plain, size, "%s%s", *path == '/' ? "" : "./", path);
	return plain;
}

static int configure(sqlite3 *db)
{
	static const struct {
		int option, value;
	} setting[] = {
		{SQLITE_DBCONFIG_ENABLE_FKEY, 1},    {SQLITE_DBCONFIG_DEFENSIVE, 1},
		{SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0}, {SQLITE_DBCONFIG_DQS_DDL, 0},
		{SQLITE_DBCONFIG_DQS_DML, 0},
	};
	int code = sqlite3_extended_result_codes(db, 1), log_stays = 1;

	for (size_t i = 0; i < sizeof setting / sizeof *setting && code == SQLITE_OK; i++)
		code = sqlite3_db_config(db, setting[i].option, setting[i].value, NULL);
	if (code == SQLITE_OK) /* log.c removes it */
		code = sqlite3_file_control(db, "main", SQLITE_FCNTL_PERSIST_WAL, &log_stays);
	return code == SQLITE_OK ? sqlite3_busy_timeout(db, RT__BUSY_MS) : code;
}

enum rt_err rt__handle_open(struct rt_store **out, const char *opened, const char *path,
			    bool writing, struct rt_error *err)
{
	struct rt_store *s = calloc(1, sizeof *s);
	char *plain = plain_path(opened);
	enum rt_err rc = RT_OK;
	int code;

	*out = s;
	if (s)
		s->path = strdup(path);
	if (!s || !plain || !s->path) {
		rc = rt_fail_nomem(err);
		goto done;
	}
	s->writing = writing;
	code = sqlite3_open_v2(plain, &s->db,
			       SQLITE_OPEN_NOMUTEX | /* a handle belongs to one thread */
				       (writing ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY),
			       NULL);
	if (code == SQLITE_OK)
		code = configure(s->db);
	if (code != SQLITE_OK)
		rc = rt__sqlite_fail(s, code, err);
done:
	free(plain);
	if (rc) {
		rt__handle_close(s);
		*out = NULL;
	}
	return rc;
}

void rt__handle_close(struct rt_store *s)
{
	if (!s)
		return;
	for (int i = 0; i < RT__SQL_COUNT; i++)
		rt__statement_free(&s->stmt[i]);
	sqlite3_close(s->db);
	free(s->path);
	free(s);
}

/* ---- is it ours, and can we read it? --------------------------------------------------------- */

/* The header, read without a lock and without a change to anything; through SQLite, because a
 * second descriptor of ours that closes would drop the locks of this process. */
bool rt__read_header(const struct rt_store *s, unsigned char header[RT__HEADER_SIZE])
{
	sqlite3_file *file = NULL;

	if (sqlite3_file_control(s->db, "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK ||
	    !file || !file->pMethods)
		return false;
	return file->pMethods->xRead(file, header, RT__HEADER_SIZE, 0) == SQLITE_OK;
}

static uint32_t header_number(const unsigned char *at)
{
	return (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
}

static enum rt_err check_version(const struct rt_store *s, int64_t version, struct rt_error *err)
{
	if (version > RT__VERSION)
		return rt_fail(err, RT_E_FORMAT,
			       "%s was made by a newer ringtrue (version %lld; this one knows %d)",
			       s->path, (long long)version, RT__VERSION);
	if (version < RT__VERSION && !s->writing)
		return rt_fail(err, RT_E_FORMAT,
			       "%s was made by an older ringtrue (version %lld): any command that "
			       "changes it brings it up to date",
			       s->path, (long long)version);
	return RT_OK;
}

enum rt_err rt__check_header(const struct rt_store *s, struct rt_error *err)
{
	unsigned char header[RT__HEADER_SIZE];

	if (!rt__read_header(s, header) || memcmp(header, HEADER_MAGIC, sizeof HEADER_MAGIC) != 0 ||
	    header_number(header + HEADER_APPLICATION_ID) != RT__APPLICATION_ID)
		return rt_fail(err, RT_E_FORMAT, "%s is not a show file", s->path);
	return check_version(s, header_number(header + HEADER_USER_VERSION), err);
}

static enum rt_err check_there(const char *path, struct rt_error *err)
{
	struct stat st;

	if (stat(path, &st) != 0) {
		if (errno == ENOENT || errno == ENOTDIR)
			return rt_fail(err, RT_E_NOTFOUND, "there is no show file %s", path);
		return rt_fail(err, RT_E_STORE, "%s cannot be opened: %s", path, strerror(errno));
	}
	if (S_ISDIR(st.st_mode))
		return rt_fail(err, RT_E_FORMAT, "%s is a folder, not a show file", path);
	if (!S_ISREG(st.st_mode))
		return rt_fail(err, RT_E_FORMAT, "%s is not a show file", path);
	return RT_OK;
}

static enum rt_err run_step(struct rt_store *s, int64_t version, struct rt_error *err)
{
	char group[32];

	snprintf(group, sizeof group, "migrate-%lld", (long long)version);
	return rt__run_group(s, group, err);
}

enum rt_err rt__migrate(struct rt_store *s, int64_t to, rt__step *step, struct rt_error *err)
{
	int64_t version = to;
	enum rt_err rc = rt_store_begin(s, err);

	if (rc)
		return rc;
	/* another program may have done it while this one waited */
	rc = rt__get_int(s, RT__SQL_VERSION_GET, RT__NO_CELLS, &version, err);
	while (version < to && !rc)
		rc = step(s, ++version, err);
	if (!rc)
		return rt_store_commit(s, err);
	rt_store_rollback(s);
	return rc;
}

/* ---- open and close -------------------------------------------------------------------------- */

enum rt_err rt_store_open(struct rt_store **out, const char *path, bool writing,
			  struct rt_error *err)
{
	struct rt_store *s = NULL;
	int64_t version = 0;
	enum rt_err rc = check_there(path, err);

	*out = NULL;
	if (!rc)
		rc = rt__handle_open(&s, path, path, writing, err);
	if (rc)
		return rc;
	rc = rt__check_header(s, err);
	if (!rc)
		rc = rt__log_check(s, err);
	if (rc) {
		rt__handle_close(s);
		return rc;
	}
	s->log_due = writing;
	if (writing && sqlite3_db_readonly(s->db, "main") != 0)
		rc = rt__sqlite_fail(s, SQLITE_READONLY, err);
	/* Once more, where the log is read too: a newer program may be at work. */
	if (!rc)
		rc = rt__get_int(s, RT__SQL_VERSION_GET, RT__NO_CELLS, &version, err);
	if (!rc)
		rc = check_version(s, version, err);
	if (!rc && version < RT__VERSION)
		rc = rt__migrate(s, RT__VERSION, run_step, err);
	if (rc) {
		rt_store_close(s);
		return rc;
	}
	*out = s;
	return RT_OK;
}

void rt_store_close(struct rt_store *s)
{
	const char *name;
	char *path;
	int lock;

	if (!s)
		return;
	name = sqlite3_db_filename(s->db, "main"); /* absolute */
	path = name ? strdup(name) : NULL;
	lock = path ? rt__lock_folder(path) : -1;
	rt__handle_close(s);
	if (path)
		(void)rt__fold(path, path, NULL);
	rt__unlock_folder(lock);
	free(path);
}

/* ---- transactions ---------------------------------------------------------------------------- */

static bool under_way(const struct rt_store *s)
{
	return !sqlite3_get_autocommit(s->db);
}

enum rt_err rt__need_transaction(const struct rt_store *s, struct rt_error *err)
{
	return under_way(s) ? RT_OK : rt_fail(err, RT_E_USAGE, "begin a transaction before this");
}

/* Whether another file has taken the name of this one, whose log is then the other's. */
static bool was_moved(const struct rt_store *s)
{
	int moved = 0;

	return sqlite3_file_control(s->db, "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK &&
	       moved;
}

enum rt_err rt_store_begin(struct rt_store *s, struct rt_error *err)
{
	enum rt_err rc;

	if (!s->writing)
		return rt_fail(err, RT_E_USAGE, "%s was opened for reading only", s->path);
	if (under_way(s))
		return rt_fail(err, RT_E_USAGE, "a transaction is under way already");
	s->pass = 0;
	rc = s->log_due ? rt__log_take_up(s, err) : RT_OK;
	if (rc)
		return rc;
	s->log_due = false;
	rc = rt__run(s, RT__SQL_BEGIN_WRITING, RT__NO_CELLS, err);
	if (!rc && was_moved(s)) {
		rt_store_rollback(s);
		rc = rt__sqlite_fail(s, SQLITE_READONLY_DBMOVED, err);
	}
	return rc;
}

enum rt_err rt_store_begin_reading(struct rt_store *s, struct rt_error *err)
{
	return rt__run(s, RT__SQL_BEGIN_READING, RT__NO_CELLS, err);
}

enum rt_err rt_store_commit(struct rt_store *s, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	if (rc)
		return rc;
	rc = rt__run(s, RT__SQL_COMMIT, RT__NO_CELLS, err);
	if (rc)
		rt_store_rollback(s);
	s->pass = 0;
	return rc;
}

void rt_store_rollback(struct rt_store *s)
{
	if (under_way(s))
		(void)rt__run(s, RT__SQL_ROLLBACK, RT__NO_CELLS, NULL);
	s->pass = 0;
}

/* ---- the show -------------------------------------------------------------------------------- */

enum rt_err rt_store_show(struct rt_store *s, struct rt_show *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_SHOW_GET, RT__NO_CELLS, &out->text, err);

	if (rt__next(&rows)) {
		out->title = rt__name_at(&rows, 0);
		out->day = rt__name_at(&rows, 1);
		if (!rt_parse_day(out->day))
			rt__rows_damaged(&rows);
		out->created = rt__name_at(&rows, 2);
		rt__close_rows(&rows);
	} else if (!rows.rc) {
		rt__rows_damaged(&rows);
	}
	return rows.rc;
}

enum rt_err rt_store_headings(struct rt_store *s, const char *file, const char **columns,
			      struct rt_arena **text, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_HEADING_GET, RT__CELLS(rt__text(file)),
					     text, err);

	*columns = NULL;
	if (rt__next(&rows)) {
		*columns = rt__text_at(&rows, 0);
		rt__close_rows(&rows);
	}
	return rows.rc;
}

enum rt_err rt_store_headings_put(struct rt_store *s, const char *file, const char *columns,
				  struct rt_error *err)
{
	return rt__run(s, RT__SQL_HEADING_PUT, RT__CELLS(rt__text(file), rt__text(columns)), err);
}

void rt_show_free(struct rt_show *show)
{
	rt_arena_free(show->text);
	*show = (struct rt_show){0};
}
