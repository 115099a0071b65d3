/* A show file and the log beside it: killed, copied, put over another, restored; and a file of an
 * older version brought up to date.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/internal.h"
#include "store_show.h"
#include "suite.h"

#define NAME_SIZE 200

static void copy_file(const char *from, const char *to)
{
	size_t n;
	unsigned char *bytes = file_bytes(from, &n);

	file_write(to, bytes, n);
	free(bytes);
}

static const char *named(const struct place *p, const char *name)
{
	static char out[4][NAME_SIZE];
	static int turn;

	turn = (turn + 1) % 4;
	snprintf(out[turn], NAME_SIZE, "%s/%s", p->folder, name);
	return out[turn];
}

static const char *log_of(const char *path)
{
	static char out[2][NAME_SIZE];
	static int turn;

	turn = !turn;
	snprintf(out[turn], NAME_SIZE, "%s-wal", path);
	return out[turn];
}

static void refused(const char *path, const char *words)
{
	for (int writing = 0; writing <= 1; writing++) {
		struct rt_store *s;
		struct rt_error err;

		ck_assert_int_eq(rt_store_open(&s, path, writing, &err), RT_E_STORE);
		ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);
		ck_assert_ptr_nonnull(strstr(err.text, "restore"));
	}
}

/* A show with one ring, a copy of it, and the show with a second ring, killed. */
static struct place killed_show(void)
{
	struct place p = place_make();
	struct rt_store *s;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(keep_ring(s, "Oak", &why));
	file_write(named(&p, "copy"), "", 0);
	DONE(rt_store_copy(s, named(&p, "copy"), &why));
	rt_store_close(s);
	add_and_die(p.path, "Elm", true);
	ck_assert(file_has_log(p.path));
	return p;
}

START_TEST(after_a_kill_the_file_and_its_log_are_one)
{
	struct place p = killed_show();

	copy_file(p.path, named(&p, "both"));
	copy_file(log_of(p.path), log_of(named(&p, "both")));
	ck_assert_uint_eq(count_rings(named(&p, "both")), 2);
	ck_assert_uint_eq(count_rings(p.path), 2);
	ck_assert(!file_has_log(p.path));
	ck_assert_uint_eq(place_files(&p), 3);
	place_remove(&p);
}
END_TEST

START_TEST(a_copy_without_its_log_is_refused)
{
	struct place p = killed_show();
	const char *alone = named(&p, "alone");
	char *kept;
	struct rt_error err;

	copy_file(p.path, alone);
	refused(alone, "copied while the show was open");
	ck_assert_int_eq(rt_store_restore(named(&p, "new"), alone, false, &kept, &err), RT_E_STORE);
	DONE(rt_store_restore(named(&p, "new"), alone, true, &kept, &why));
	ck_assert_ptr_null(kept);
	ck_assert_uint_eq(count_rings(named(&p, "new")), 1);
	refused(alone, "copied while the show was open");
	place_remove(&p);
}
END_TEST

START_TEST(a_log_of_another_file_is_refused)
{
	struct place p = killed_show();
	struct rt_error err;
	char *kept, log[NAME_SIZE];
	struct stat st;

	copy_file(named(&p, "copy"), p.path);
	refused(p.path, "is the log of another file");
	DONE(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &why));
	ck_assert_uint_eq(count_rings(p.path), 1);
	snprintf(log, sizeof log, "%s-wal", kept);
	ck_assert_int_eq(stat(log, &st), 0); /* nothing is lost, if it is of use to anybody */
	ck_assert_int_gt(st.st_size, 0);
	ck_assert_int_eq(remove(kept), 0);
	ck_assert_int_eq(rt_store_create(kept, &invented_show, &(struct rt_shipped){0}, &err),
			 RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "log of a show that was not closed"));
	free(kept);
	place_remove(&p);
}
END_TEST

START_TEST(an_empty_log_is_no_log)
{
	struct place p = place_make();

	make_show(&p);
	file_write(log_of(p.path), "", 0);
	ck_assert_uint_eq(count_rings(p.path), 0);
	place_remove(&p);
}
END_TEST

START_TEST(a_copy_is_restored_and_the_show_is_kept)
{
	struct place p = killed_show();
	char *kept;

	DONE(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &why));
	ck_assert_uint_eq(count_rings(p.path), 1);
	ck_assert_uint_eq(count_rings(kept), 2); /* what the log held is in it */
	ck_assert_uint_eq(place_files(&p), 3);
	free(kept);
	DONE(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &why));
	ck_assert_ptr_nonnull(strstr(kept, ".before-2"));
	free(kept);
	place_remove(&p);
}
END_TEST

START_TEST(a_show_in_use_is_not_replaced)
{
	struct place p = killed_show();
	size_t files = place_files(&p);
	struct rt_error err;
	int talk[2], status;
	char *kept, byte;
	pid_t child;

	ck_assert_int_eq(pipe(talk), 0);
	child = fork();
	ck_assert_int_ge(child, 0);
	if (child == 0) { /* a desk that has put something, and waits */
		struct rt_store *s;

		close(talk[1]);
		if (rt_store_open(&s, p.path, true, NULL) || keep_ring(s, "Ash", NULL))
			_exit(1);
		_exit(read(talk[0], &byte, 1) == 1);
	}
	close(talk[0]);
	for (int i = 0; i < 200 && count_rings(p.path) < 3; i++)
		usleep(10000);
	ck_assert_uint_eq(count_rings(p.path), 3);
	ck_assert_int_eq(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &err),
			 RT_E_BUSY);
	ck_assert_ptr_null(kept);
	ck_assert_uint_eq(count_rings(p.path), 3);
	close(talk[1]);
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	ck_assert_uint_eq(count_rings(p.path), 3);
	ck_assert_uint_eq(place_files(&p), files - 2); /* its log is folded */
	place_remove(&p);
}
END_TEST

/* A desk that has the file open from before is told, and writes into neither. */
START_TEST(a_desk_of_a_replaced_file_begins_again)
{
	struct place p = killed_show();
	struct rt_store *before, *now;
	struct rt_error err;
	char *kept;

	ck_assert_uint_eq(count_rings(p.path), 2);
	DONE(rt_store_open(&before, p.path, true, &why));
	DONE(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &why));
	DONE(rt_store_open(&now, p.path, true, &why));
	DONE(keep_ring(now, "Ash", &why));
	ck_assert_int_eq(keep_ring(before, "Yew", &err), RT_E_STORE);
	ck_assert_msg(strstr(err.text, "begin again") != NULL, "%s", err.text);
	rt_store_close(before);
	DONE(keep_ring(now, "Yew", &why));
	rt_store_close(now);
	ck_assert_uint_eq(count_rings(p.path), 3);
	ck_assert_uint_eq(count_rings(kept), 2);
	free(kept);
	place_remove(&p);
}
END_TEST

START_TEST(what_is_not_whole_is_not_restored)
{
	struct place p = killed_show();
	struct rt_error err;
	char *kept;
	size_t n;
	unsigned char *before = file_bytes(p.path, &n), *after;

	file_write(named(&p, "csv"), "class,number\n", 13);
	ck_assert_int_eq(rt_store_restore(p.path, named(&p, "csv"), true, &kept, &err),
			 RT_E_FORMAT);
	ck_assert_int_eq(rt_store_restore(named(&p, "csv"), named(&p, "copy"), true, &kept, &err),
			 RT_E_FORMAT);
	ck_assert_int_eq(rt_store_restore(p.path, named(&p, "none"), true, &kept, &err),
			 RT_E_NOTFOUND);
	ck_assert_int_eq(rt_store_restore(p.path, p.path, true, &kept, &err), RT_E_INPUT);
	ck_assert_int_eq(run_outside(named(&p, "copy"), "DROP TRIGGER mark_no_delete"), SQLITE_OK);
	ck_assert_int_eq(rt_store_restore(p.path, named(&p, "copy"), false, &kept, &err),
			 RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "1 fault "));
	after = file_bytes(p.path, &n);
	ck_assert_mem_eq(before, after, n);
	free(before);
	free(after);
	DONE(rt_store_restore(p.path, named(&p, "copy"), true, &kept, &why));
	free(kept);
	place_remove(&p);
}
END_TEST

/* ---- a file of an older version -------------------------------------------------------------- */

static enum rt_err add_column(struct rt_store *s, int64_t version, struct rt_error *err)
{
	char sql[120];

	snprintf(sql, sizeof sql,
		 "ALTER TABLE ring ADD COLUMN new_%d TEXT; PRAGMA user_version = %d", (int)version,
		 (int)version);
	if (sqlite3_exec(s->db, sql, NULL, NULL, NULL) != SQLITE_OK)
		return rt__sqlite_fail(s, sqlite3_extended_errcode(s->db), err);
	return RT_OK;
}

static enum rt_err fail_at_3(struct rt_store *s, int64_t version, struct rt_error *err)
{
	return version == 3 ? rt_fail(err, RT_E_INPUT, "no") : add_column(s, version, err);
}

static int64_t version_of(struct rt_store *s)
{
	int64_t version = 0;

	DONE(rt__get_int(s, RT__SQL_VERSION_GET, RT__NO_CELLS, &version, &why));
	return version;
}

START_TEST(an_older_file_is_brought_up_to_date_whole_or_not_at_all)
{
	static const char new_columns[] = "SELECT new_2, new_3 FROM ring";
	struct place p = killed_show();
	struct rt_store *s;
	struct rt_error err;

	DONE(rt_store_open(&s, p.path, true, &why));
	ck_assert_int_eq(rt__migrate(s, RT__VERSION + 2, fail_at_3, &err), RT_E_INPUT);
	ck_assert_int_eq(version_of(s), RT__VERSION);
	ck_assert_int_eq(sqlite3_exec(s->db, "SELECT new_2 FROM ring", NULL, NULL, NULL),
			 SQLITE_ERROR);
	DONE(rt__migrate(s, RT__VERSION + 2, add_column, &why));
	ck_assert_int_eq(version_of(s), RT__VERSION + 2);
	ck_assert_int_eq(sqlite3_exec(s->db, new_columns, NULL, NULL, NULL), SQLITE_OK);
	/* another program that waited meanwhile finds it done */
	DONE(rt__migrate(s, RT__VERSION + 2, fail_at_3, &why));
	rt_store_close(s);
	ck_assert_int_eq(rt_store_open(&s, p.path, true, &err), RT_E_FORMAT);
	ck_assert_ptr_nonnull(strstr(err.text, "newer ringtrue"));
	place_remove(&p);
}
END_TEST

int check_store_log(void)
{
	Suite *suite = suite_create("store log");
	TCase *log = tcase_create("log");

	suite_add_tcase(suite, log);
	tcase_set_timeout(log, 60);
	tcase_add_test(log, after_a_kill_the_file_and_its_log_are_one);
	tcase_add_test(log, a_copy_without_its_log_is_refused);
	tcase_add_test(log, a_log_of_another_file_is_refused);
	tcase_add_test(log, an_empty_log_is_no_log);
	tcase_add_test(log, a_copy_is_restored_and_the_show_is_kept);
	tcase_add_test(log, a_show_in_use_is_not_replaced);
	tcase_add_test(log, a_desk_of_a_replaced_file_begins_again);
	tcase_add_test(log, what_is_not_whole_is_not_restored);
	tcase_add_test(log, an_older_file_is_brought_up_to_date_whole_or_not_at_all);
	return suite_run(suite);
}
