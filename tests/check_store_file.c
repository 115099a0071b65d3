/* Checks of the show file as a file: made whole or not at all, told from others, readable where
 * nothing can be written, shared, safe from a full disk and a killed program.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "store_show.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/internal.h"
#include "suite.h"

/* ---- helpers --------------------------------------------------------------------------------- */

static int number_outside(const char *path, const char *sql)
{
	sqlite3 *db;
	sqlite3_stmt *q;
	int number;

	ck_assert_int_eq(sqlite3_open_v2(path, &db, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
	ck_assert_int_eq(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
	ck_assert_int_eq(sqlite3_step(q), SQLITE_ROW);
	number = sqlite3_column_int(q, 0);
	sqlite3_finalize(q);
	sqlite3_close(db);
	return number;
}

/* ---- statements and schema ------------------------------------------------------------------- */

START_TEST(every_statement_can_be_prepared)
{
	struct place p = place_make();
	struct rt_store *s;
	sqlite3 *empty;
	int schema = 0;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	ck_assert_int_eq(sqlite3_open(":memory:", &empty), SQLITE_OK);
	for (int i = 0; i < RT__SQL_COUNT; i++) {
		const struct rt__sql_text *sql = &rt__sql_text[i];
		bool of_schema = strcmp(sql->group, "schema") == 0;
		const char *tail;
		sqlite3_stmt *q;
		int code;

		if (strncmp(sql->group, "migrate-", 8) == 0)
			continue; /* they need a file of an older version */
		code = sqlite3_prepare_v2(of_schema ? empty : s->db, sql->text, -1, &q, &tail);

		ck_assert_msg(code == SQLITE_OK, "%s: %s", sql->name,
			      sqlite3_errmsg(of_schema ? empty : s->db));
		ck_assert_msg(strspn(tail, " \t\n") == strlen(tail), "%s is two statements",
			      sql->name);
		ck_assert_uint_le(strlen(sql->text), 4095);
		if (of_schema) {
			ck_assert_int_eq(sqlite3_step(q), SQLITE_DONE);
			schema++;
		}
		sqlite3_finalize(q);
	}
	ck_assert_int_gt(schema, 20);
	sqlite3_close(empty);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(tables_are_strict_and_columns_explained)
{
	static const char sql[] =
		"SELECT name, strict, (length(sql) - length(replace(sql, '-- ', ''))) / 3, ncol "
		"FROM pragma_table_list AS list JOIN sqlite_schema USING (name) "
		"WHERE list.schema = 'main' AND name NOT LIKE 'sqlite_%'";
	struct place p = place_make();
	sqlite3 *db;
	sqlite3_stmt *q;
	int tables = 0;

	make_show(&p);
	ck_assert_int_eq(sqlite3_open(p.path, &db), SQLITE_OK);
	ck_assert_int_eq(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
	for (; sqlite3_step(q) == SQLITE_ROW; tables++) {
		const char *name = (const char *)sqlite3_column_text(q, 0);

		ck_assert_msg(sqlite3_column_int(q, 1) == 1, "%s is not STRICT", name);
		ck_assert_msg(sqlite3_column_int(q, 2) >= sqlite3_column_int(q, 3),
			      "%s has a column without a comment", name);
	}
	ck_assert_int_ge(tables, 25);
	sqlite3_finalize(q);
	sqlite3_close(db);
	ck_assert_int_eq(number_outside(p.path, "PRAGMA application_id"), RT__APPLICATION_ID);
	ck_assert_int_eq(number_outside(p.path, "PRAGMA user_version"), RT__VERSION);
	place_remove(&p);
}
END_TEST

START_TEST(connections_are_guarded)
{
	static const struct {
		const char *pragma;
		int value;
	} set[] = {{"PRAGMA foreign_keys", 1},
		   {"PRAGMA synchronous", 2},
		   {"PRAGMA cache_size", -8192},
		   {"PRAGMA trusted_schema", 0}};
	struct place p = place_make();
	struct rt_store *s;
	int on = 0;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(rt_store_begin(s, &why));
	for (size_t i = 0; i < sizeof set / sizeof *set; i++) {
		sqlite3_stmt *q;

		ck_assert_int_eq(sqlite3_prepare_v2(s->db, set[i].pragma, -1, &q, NULL), SQLITE_OK);
		ck_assert_int_eq(sqlite3_step(q), SQLITE_ROW);
		ck_assert_msg(sqlite3_column_int(q, 0) == set[i].value, "%s", set[i].pragma);
		sqlite3_finalize(q);
	}
	ck_assert_int_eq(sqlite3_db_config(s->db, SQLITE_DBCONFIG_DEFENSIVE, -1, &on), SQLITE_OK);
	ck_assert_int_eq(on, 1);
	/* With double quotes as strings switched off this names a column that is not there. */
	ck_assert_int_eq(sqlite3_exec(s->db, "SELECT \"words\"", NULL, NULL, NULL), SQLITE_ERROR);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- making ---------------------------------------------------------------------------------- */

START_TEST(a_new_file_stands_alone)
{
	struct place p = place_make();
	struct rt_show show = {0};
	struct rt_store *s;
	struct stat st;
	mode_t mask = umask(0027);

	make_show(&p);
	umask(mask);
	ck_assert_uint_eq(place_files(&p), 1);
	ck_assert(!file_has_log(p.path));
	ck_assert_int_eq(stat(p.path, &st), 0);
	ck_assert_int_eq(st.st_mode & 0777, 0640);
	ck_assert_uint_eq(st.st_nlink, 1);
	DONE(rt_store_open(&s, p.path, false, &why));
	DONE(rt_store_show(s, &show, &why));
	ck_assert_str_eq(show.title, invented_show.title);
	ck_assert_str_eq(show.day, invented_show.day);
	ck_assert_str_eq(show.created, invented_show.created);
	rt_show_free(&show);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(nothing_is_overwritten)
{
	const struct rt_shipped shipped = invented_shipped();
	struct place p = place_make();
	struct rt_error err;
	size_t n;
	unsigned char *bytes;

	file_write(p.path, "mine", 4);
	ck_assert_int_eq(rt_store_create(p.path, &invented_show, &shipped, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "is there already: choose another name"));
	bytes = file_bytes(p.path, &n);
	ck_assert_uint_eq(n, 4);
	ck_assert_mem_eq(bytes, "mine", 4);
	free(bytes);
	ck_assert_int_eq(remove(p.path), 0);
	ck_assert_int_eq(symlink("nowhere", p.path), 0);
	ck_assert_int_eq(rt_store_create(p.path, &invented_show, &shipped, &err), RT_E_INPUT);
	ck_assert_uint_eq(place_files(&p), 1);
	place_remove(&p);
}
END_TEST

START_TEST(a_failed_making_leaves_nothing)
{
	const struct rt_shipped shipped = invented_shipped();
	struct rt_shipped still = shipped;
	const struct rt_show no_day = {.title = "X", .day = "2026-02-30", .created = "now"};
	struct place p = place_make();
	struct rlimit old, low;
	struct rt_error err;
	char deep[200];
	struct rt_gait standing = shipped.gaits.at[0];

	ck_assert_int_eq(rt_store_create(p.path, &no_day, &shipped, &err), RT_E_INPUT);
	standing.speed_m_per_s = 0.0;
	still.gaits.at = &standing;
	still.gaits.n = 1;
	ck_assert_int_eq(rt_store_create(p.path, &invented_show, &still, &err), RT_E_INPUT);
	snprintf(deep, sizeof deep, "%s/no/show.ring", p.folder);
	ck_assert_int_eq(rt_store_create(deep, &invented_show, &shipped, &err), RT_E_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "cannot be made"));

	/* A disk that takes no more than 20,000 bytes of the file. */
	signal(SIGXFSZ, SIG_IGN);
	ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &old), 0);
	low = old;
	low.rlim_cur = 20000;
	ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &low), 0);
	ck_assert_int_eq(rt_store_create(p.path, &invented_show, &shipped, &err), RT_E_STORE);
	ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &old), 0);
	signal(SIGXFSZ, SIG_DFL);
	ck_assert_uint_eq(place_files(&p), 0);
	place_remove(&p);
}
END_TEST

START_TEST(odd_names_are_only_names)
{
	static const char *const names[] = {"a b?c#d%20e.ring", "file:x?mode=memory",
					    ":memory:", "'; --", "Hällevik å.ring"};
	const struct rt_shipped shipped = invented_shipped();
	struct place p = place_make();
	char here[1024];

	ck_assert_ptr_nonnull(getcwd(here, sizeof here));
	ck_assert_int_eq(chdir(p.folder), 0);
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		struct rt_store *s;

		DONE(rt_store_create(names[i], &invented_show, &shipped, &why));
		ck_assert_uint_eq(place_files(&p), i + 1);
		DONE(rt_store_open(&s, names[i], true, &why));
		DONE(keep_ring(s, "Oak", &why));
		rt_store_close(s);
		ck_assert_uint_eq(count_rings(names[i]), 1);
		ck_assert_uint_eq(place_files(&p), i + 1);
	}
	ck_assert_int_eq(chdir(here), 0);
	place_remove(&p);
}
END_TEST

/* ---- what is no show file -------------------------------------------------------------------- */

/* Both ways of opening fail so, and the file stays as it is. */
static void refused(const struct place *p, enum rt_err code, const char *words)
{
	size_t files = place_files(p), n, n_after;
	unsigned char *before = file_bytes(p->path, &n), *after;

	for (int writing = 0; writing <= 1; writing++) {
		struct rt_store *s = (struct rt_store *)&files;
		struct rt_error err;

		ck_assert_int_eq(rt_store_open(&s, p->path, writing, &err), code);
		ck_assert_ptr_null(s);
		ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);
		ck_assert_ptr_nonnull(strstr(err.text, p->path));
		after = file_bytes(p->path, &n_after);
		ck_assert_uint_eq(n, n_after);
		ck_assert_mem_eq(before, after, n);
		free(after);
		ck_assert_uint_eq(place_files(p), files);
	}
	free(before);
	ck_assert_int_eq(remove(p->path), 0);
}

START_TEST(other_files_are_refused_untouched)
{
	static const char csv[] = "class,number\n1,7\n";
	static const char *const sql[] = {
		"CREATE TABLE t (a); INSERT INTO t VALUES (1)",
		"PRAGMA application_id = 252006674; CREATE TABLE show (a)",
		"PRAGMA journal_mode = WAL; CREATE TABLE t (a)",
	};
	struct place p = place_make();

	file_write(p.path, "", 0);
	refused(&p, RT_E_FORMAT, "is not a show file");
	file_write(p.path, csv, strlen(csv));
	refused(&p, RT_E_FORMAT, "is not a show file");
	for (size_t i = 0; i < sizeof sql / sizeof *sql; i++) {
		ck_assert_int_eq(run_outside(p.path, sql[i]), SQLITE_OK);
		refused(&p, RT_E_FORMAT, "is not a show file");
	}
	make_show(&p);
	ck_assert_int_eq(run_outside(p.path, "PRAGMA user_version = 7"), SQLITE_OK);
	refused(&p, RT_E_FORMAT, "was made by a newer ringtrue (version 7; this one knows 1)");
	place_remove(&p);
}
END_TEST

START_TEST(a_newer_version_in_the_log_is_seen)
{
	struct place p = place_make();
	struct rt_store *s, *newer;
	struct rt_error err;

	make_show(&p);
	DONE(rt_store_open(&newer, p.path, true, &why));
	DONE(rt_store_begin(newer, &why));
	ck_assert_int_eq(sqlite3_exec(newer->db, "PRAGMA user_version = 3", NULL, NULL, NULL),
			 SQLITE_OK);
	DONE(rt_store_commit(newer, &why));
	ck_assert_int_eq(rt_store_open(&s, p.path, false, &err), RT_E_FORMAT);
	ck_assert_int_eq(rt_store_open(&s, p.path, true, &err), RT_E_FORMAT);
	ck_assert_ptr_nonnull(strstr(err.text, "(version 3; this one knows 1)"));
	rt_store_close(newer);
	place_remove(&p);
}
END_TEST

START_TEST(an_older_version_is_never_misread)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;

	make_show(&p);
	ck_assert_int_eq(run_outside(p.path, "PRAGMA user_version = 0"), SQLITE_OK);
	ck_assert_int_eq(rt_store_open(&s, p.path, false, &err), RT_E_FORMAT);
	ck_assert_ptr_nonnull(strstr(err.text, "was made by an older ringtrue (version 0)"));
	/* There never was a version 0, so nothing leads on from it. */
	ck_assert_int_eq(rt_store_open(&s, p.path, true, &err), RT_E_FORMAT);
	ck_assert_ptr_nonnull(strstr(err.text, "does not know"));
	ck_assert(!file_has_log(p.path));
	ck_assert_int_eq(number_outside(p.path, "PRAGMA user_version"), 0);
	place_remove(&p);
}
END_TEST

START_TEST(what_is_no_file_is_refused)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;

	for (int writing = 0; writing <= 1; writing++) {
		ck_assert_int_eq(rt_store_open(&s, p.path, writing, &err), RT_E_NOTFOUND);
		ck_assert_uint_eq(place_files(&p), 0);
		ck_assert_int_eq(rt_store_open(&s, p.folder, writing, &err), RT_E_FORMAT);
		ck_assert_ptr_nonnull(strstr(err.text, "is a folder"));
	}
	ck_assert_int_eq(mkfifo(p.path, 0600), 0);
	ck_assert_int_eq(rt_store_open(&s, p.path, false, &err), RT_E_FORMAT);
	place_remove(&p);
}
END_TEST

START_TEST(damage_is_told)
{
	struct place p = place_make();
	struct rt_shipped shipped = {0};
	struct rt_store *s;
	struct rt_error err;
	size_t n;
	unsigned char *bytes;

	make_show(&p);
	bytes = file_bytes(p.path, &n);
	ck_assert_uint_gt(n, 8192);
	memset(bytes + 4096, 0x5a, n - 4096);
	file_write(p.path, bytes, n);
	free(bytes);
	DONE(rt_store_open(&s, p.path, false, &why));
	ck_assert_int_eq(rt_store_shipped(s, &shipped, &err), RT_E_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "is damaged"));
	rt_shipped_free(&shipped);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- reading and writing --------------------------------------------------------------------- */

START_TEST(reading_leaves_no_trace)
{
	struct place p = place_make();
	struct rt_shipped shipped = {0};
	struct rt_store *s;
	struct rt_error err;
	size_t n, n_after;
	unsigned char *before, *after;

	make_show(&p);
	before = file_bytes(p.path, &n);
	DONE(rt_store_open(&s, p.path, false, &why));
	DONE(rt_store_shipped(s, &shipped, &why));
	rt_shipped_free(&shipped);
	ck_assert_uint_eq(place_files(&p), 1);
	ck_assert_int_eq(rt_store_begin(s, &err), RT_E_USAGE);
	ck_assert_int_eq(add_ring(s, "Oak", &err), RT_E_USAGE);
	ck_assert_ptr_nonnull(strstr(err.text, "was opened for reading only"));
	rt_store_close(s);
	ck_assert_uint_eq(place_files(&p), 1);
	after = file_bytes(p.path, &n_after);
	ck_assert_uint_eq(n, n_after);
	ck_assert_mem_eq(before, after, n);
	free(before);
	free(after);
	place_remove(&p);
}
END_TEST

/* A handle that may write but does not: no log, not a byte changed, nobody kept waiting. */
START_TEST(opened_for_writing_the_file_stays_until_something_is_written)
{
	struct place p = place_make();
	struct rt_shipped shipped = {0};
	struct rt_store *s, *other;
	size_t n, n_after;
	unsigned char *before, *after;

	make_show(&p);
	before = file_bytes(p.path, &n);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(rt_store_shipped(s, &shipped, &why));
	rt_shipped_free(&shipped);
	ck_assert_uint_eq(place_files(&p), 1);
	rt_store_close(s);
	after = file_bytes(p.path, &n_after);
	ck_assert_uint_eq(n, n_after);
	ck_assert_mem_eq(before, after, n);
	free(before);
	free(after);
	/* Another takes the log up, lays it down, and this handle goes on from there. */
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(rt_store_open(&other, p.path, true, &why));
	DONE(keep_ring(other, "Oak", &why));
	ck_assert(file_has_log(p.path));
	rt_store_close(other);
	ck_assert(!file_has_log(p.path));
	DONE(rt_store_begin(s, &why));
	ck_assert(file_has_log(p.path));
	DONE(add_ring(s, "Elm", &why));
	DONE(rt_store_commit(s, &why));
	rt_store_close(s);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 1);
	ck_assert_uint_eq(count_rings(p.path), 2);
	place_remove(&p);
}
END_TEST

/* The log stands in the folder, so it is the first transaction that fails: with the reason, and
 * the next one goes well once the folder can be written. */
START_TEST(a_folder_that_cannot_be_written_is_told)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;
	size_t n, n_after;
	unsigned char *before, *after;
	bool root = geteuid() == 0;

	make_show(&p);
	before = file_bytes(p.path, &n);
	ck_assert_int_eq(chmod(p.path, 0666), 0);
	ck_assert_int_eq(chmod(p.folder, 0555), 0);
	if (root)
		ck_assert_int_eq(seteuid(65534), 0);
	DONE(rt_store_open(&s, p.path, true, &why));
	ck_assert_int_eq(rt_store_begin(s, &err), RT_E_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "or its folder cannot be written"));
	ck_assert_int_eq(keep_ring(s, "Oak", &err), RT_E_STORE);
	if (root)
		ck_assert_int_eq(seteuid(0), 0);
	ck_assert_int_eq(chmod(p.folder, 0755), 0);
	after = file_bytes(p.path, &n_after);
	ck_assert_uint_eq(n, n_after);
	ck_assert_mem_eq(before, after, n);
	free(before);
	free(after);
	DONE(keep_ring(s, "Oak", &why));
	rt_store_close(s);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(count_rings(p.path), 1);
	place_remove(&p);
}
END_TEST

/* Permission bits do not hold for root: it steps aside for this. */
START_TEST(a_file_is_readable_where_nothing_can_be_written)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;
	bool root = geteuid() == 0;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(keep_ring(s, "Oak", &why));
	rt_store_close(s);
	ck_assert_int_eq(chmod(p.path, 0444), 0);
	ck_assert_int_eq(chmod(p.folder, 0555), 0);
	if (root)
		ck_assert_int_eq(seteuid(65534), 0);
	ck_assert_uint_eq(count_rings(p.path), 1);
	ck_assert_int_eq(rt_store_open(&s, p.path, true, &err), RT_E_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "cannot be written"));
	if (root)
		ck_assert_int_eq(seteuid(0), 0);
	ck_assert_int_eq(chmod(p.folder, 0755), 0);
	ck_assert_uint_eq(place_files(&p), 1);
	place_remove(&p);
}
END_TEST

START_TEST(the_last_to_close_folds_the_log_back)
{
	struct place p = place_make();
	struct rt_rings rings = {0};
	struct rt_store *writer, *reader;

	make_show(&p);
	DONE(rt_store_open(&writer, p.path, true, &why));
	DONE(keep_ring(writer, "Oak", &why));
	ck_assert(file_has_log(p.path));
	DONE(rt_store_open(&reader, p.path, false, &why));
	DONE(rt_store_rings(reader, &rings, &why));
	ck_assert_uint_eq(rings.n, 1);
	RT_LIST_FREE(&rings);
	rt_store_close(writer);
	ck_assert(file_has_log(p.path));
	rt_store_close(reader);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 1);
	rt_store_close(NULL);
	place_remove(&p);
}
END_TEST

START_TEST(transactions_are_whole)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	ck_assert_int_eq(rt_store_commit(s, &err), RT_E_USAGE);
	ck_assert_int_eq(add_ring(s, "Oak", &err), RT_E_USAGE);
	DONE(rt_store_begin(s, &why));
	ck_assert_int_eq(rt_store_begin(s, &err), RT_E_USAGE);
	DONE(add_ring(s, "Oak", &why));
	rt_store_rollback(s);
	rt_store_rollback(s);
	ck_assert_uint_eq(count_rings(p.path), 0);
	DONE(rt_store_begin(s, &why));
	DONE(add_ring(s, "Oak", &why));
	ck_assert_uint_eq(count_rings(p.path), 0);
	DONE(rt_store_commit(s, &why));
	ck_assert_uint_eq(count_rings(p.path), 1);
	/* A commit that fails: a reference that is looked at late leads nowhere. */
	DONE(rt_store_begin(s, &why));
	ck_assert_int_eq(sqlite3_exec(s->db,
				      "PRAGMA defer_foreign_keys = ON;"
				      "INSERT INTO ring (name, kind) VALUES ('Ash', 'none')",
				      NULL, NULL, NULL),
			 SQLITE_OK);
	ck_assert_int_eq(rt_store_commit(s, &err), RT_E_INPUT);
	DONE(rt_store_begin(s, &why));
	DONE(add_ring(s, "Elm", &why));
	rt_store_close(s);
	ck_assert_uint_eq(count_rings(p.path), 1);
	place_remove(&p);
}
END_TEST

START_TEST(a_second_writer_is_told_to_wait)
{
	struct place p = place_make();
	struct rt_store *first, *second;
	struct rt_error err;

	make_show(&p);
	DONE(rt_store_open(&first, p.path, true, &why));
	DONE(rt_store_open(&second, p.path, true, &why));
	DONE(rt_store_begin(first, &why));
	ck_assert_int_eq(sqlite3_busy_timeout(second->db, 20), SQLITE_OK);
	ck_assert_int_eq(rt_store_begin(second, &err), RT_E_BUSY);
	ck_assert_str_eq(err.text, "the show file is busy: another program is writing; try again");
	ck_assert_int_eq(keep_ring(second, "Elm", &err), RT_E_BUSY);
	DONE(rt_store_commit(first, &why));
	DONE(rt_store_begin(second, &why));
	rt_store_close(second);
	rt_store_close(first);
	place_remove(&p);
}
END_TEST

START_TEST(a_full_disk_changes_nothing)
{
	struct place p = place_make();
	struct rt_store *s;
	struct rt_error err;
	enum rt_err rc = RT_OK;
	char name[600];

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(keep_ring(s, "Oak", &why));
	ck_assert_int_eq(sqlite3_exec(s->db, "PRAGMA max_page_count = 1", NULL, NULL, NULL),
			 SQLITE_OK); /* it is set to the pages there are */
	DONE(rt_store_begin(s, &why));
	for (int i = 0; i < 1000 && !rc; i++) {
		snprintf(name, sizeof name, "%d%0500d", i, i);
		rc = add_ring(s, name, &err);
	}
	ck_assert_int_eq(rc, RT_E_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "no room left"));
	rt_store_rollback(s);
	ck_assert_int_eq(sqlite3_exec(s->db, "PRAGMA max_page_count = 100000", NULL, NULL, NULL),
			 SQLITE_OK);
	DONE(keep_ring(s, "Elm", &why));
	rt_store_close(s);
	ck_assert_uint_eq(count_rings(p.path), 2);
	place_remove(&p);
}
END_TEST

START_TEST(a_killed_program_leaves_the_file_whole)
{
	struct place p = place_make();

	make_show(&p);
	add_and_die(p.path, "Elm", false);
	ck_assert_uint_eq(count_rings(p.path), 0);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 1);
	add_and_die(p.path, "Elm", true);
	ck_assert_uint_eq(count_rings(p.path), 1);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 1);
	place_remove(&p);
}
END_TEST

START_TEST(several_programs_share_a_file)
{
	enum { PROGRAMS = 6, TIMES = 6 };
	struct place p = place_make();
	pid_t child[PROGRAMS];

	make_show(&p);
	for (int i = 0; i < PROGRAMS; i++) {
		child[i] = fork();
		ck_assert_int_ge(child[i], 0);
		if (child[i] > 0)
			continue;
		for (int j = 0; j < TIMES; j++) {
			struct rt_store *s;
			char name[32];

			snprintf(name, sizeof name, "%d.%d", i, j);
			if (rt_store_open(&s, p.path, true, NULL) || keep_ring(s, name, NULL))
				_exit(1);
			rt_store_close(s);
			count_rings(p.path);
		}
		_exit(0);
	}
	for (int i = 0; i < PROGRAMS; i++) {
		int status;

		ck_assert_int_eq(waitpid(child[i], &status, 0), child[i]);
		ck_assert(WIFEXITED(status) && WEXITSTATUS(status) == 0);
	}
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 1);
	ck_assert_uint_eq(count_rings(p.path), PROGRAMS * TIMES);
	place_remove(&p);
}
END_TEST

/* A script may hold the folder's lock around a command: that must not stop it. */
START_TEST(somebody_elses_lock_is_no_hindrance)
{
	struct place p = place_make();
	int folder = open(p.folder, O_RDONLY | O_DIRECTORY);
	struct rt_store *s;

	make_show(&p);
	ck_assert_int_ge(folder, 0);
	ck_assert_int_eq(flock(folder, LOCK_EX), 0);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(keep_ring(s, "Oak", &why));
	rt_store_close(s);
	ck_assert(!file_has_log(p.path));
	close(folder);
	ck_assert_uint_eq(count_rings(p.path), 1);
	place_remove(&p);
}
END_TEST

int check_store_file(void)
{
	Suite *suite = suite_create("store file");
	TCase *file = tcase_create("file");

	suite_add_tcase(suite, file);
	tcase_set_timeout(file, 60);
	tcase_add_test(file, every_statement_can_be_prepared);
	tcase_add_test(file, tables_are_strict_and_columns_explained);
	tcase_add_test(file, connections_are_guarded);
	tcase_add_test(file, a_new_file_stands_alone);
	tcase_add_test(file, nothing_is_overwritten);
	tcase_add_test(file, a_failed_making_leaves_nothing);
	tcase_add_test(file, odd_names_are_only_names);
	tcase_add_test(file, other_files_are_refused_untouched);
	tcase_add_test(file, a_newer_version_in_the_log_is_seen);
	tcase_add_test(file, an_older_version_is_never_misread);
	tcase_add_test(file, what_is_no_file_is_refused);
	tcase_add_test(file, damage_is_told);
	tcase_add_test(file, reading_leaves_no_trace);
	tcase_add_test(file, opened_for_writing_the_file_stays_until_something_is_written);
	tcase_add_test(file, a_folder_that_cannot_be_written_is_told);
	tcase_add_test(file, a_file_is_readable_where_nothing_can_be_written);
	tcase_add_test(file, the_last_to_close_folds_the_log_back);
	tcase_add_test(file, transactions_are_whole);
	tcase_add_test(file, a_second_writer_is_told_to_wait);
	tcase_add_test(file, a_full_disk_changes_nothing);
	tcase_add_test(file, a_killed_program_leaves_the_file_whole);
	tcase_add_test(file, several_programs_share_a_file);
	tcase_add_test(file, somebody_elses_lock_is_no_hindrance);
	return suite_run(suite);
}
