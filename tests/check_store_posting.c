/* Checks of the show file: what is posted, what is said of judges and ties, the file looked at as a
 * whole, and copied while another program writes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "store_show.h"
#include "suite.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static const struct rt_reason said = {"Office", "so it was", "2026-09-12 10:05:00"};

/* A filled show, and the ids that its class 1 gives. */
struct show {
	struct place place;
	struct rt_store *s;
	struct rt_class_book book;
};

static struct show show_open(void)
{
	struct show show = {.place = place_make()};

	show.s = open_filled_show(&show.place);
	return show;
}

/* Load class 1 anew. */
static const struct rt_class_marks *book_of(struct show *show)
{
	rt_class_book_free(&show->book);
	DONE(book_of_class(show->s, "1", &show->book, &why));
	return &show->book.marks;
}

static void show_close(struct show *show)
{
	rt_class_book_free(&show->book);
	rt_store_close(show->s);
	place_remove(&show->place);
}

/* ---- judges and ties ------------------------------------------------------------------------- */

static void say_missing(struct show *show, bool missing)
{
	const struct rt_class_marks *m = book_of(show);

	DONE(rt_store_begin(show->s, &why));
	DONE(rt_store_missing_put(show->s, m->entries->at[1].id, m->class_->judges.at[0].id,
				  m->items->at[2].id, missing, &said, &why));
	DONE(rt_store_away_put(show->s, m->entries->at[2].id, m->class_->judges.at[1].id, missing,
			       &said, &why));
	DONE(rt_store_commit(show->s, &why));
}

START_TEST(what_is_said_comes_back)
{
	struct show show = show_open();
	const struct rt_class_marks *m;

	for (int round = 0; round < 3; round++) {
		bool missing = round != 1;

		say_missing(&show, missing);
		m = book_of(&show);
		ck_assert_int_eq(rt_class_marks_box(m, 1, 0, 2)->missing, missing);
		ck_assert_int_eq(m->lines[2 * 2 + 1].away, missing);
		ck_assert(!rt_class_marks_box(m, 0, 0, 2)->missing && !m->lines[2 * 2].away);
	}
	ck_assert_int_ne(run_outside(show.place.path, "DELETE FROM missing_mark"), 0);
	ck_assert_int_ne(run_outside(show.place.path, "UPDATE judge_away SET away = 0"), 0);
	show_close(&show);
}
END_TEST

START_TEST(decisions_come_back)
{
	struct show show = show_open();
	const struct rt_class_marks *m = book_of(&show);
	const int64_t entry[] = {m->entries->at[2].id, m->entries->at[0].id};
	const int64_t twice[] = {entry[0], entry[0]};

	ck_assert_int_eq(rt_store_decision_put(show.s, "1", entry, 2, &said, &why), RT_E_USAGE);
	DONE(rt_store_begin(show.s, &why));
	DONE(rt_store_decision_put(show.s, "1", entry, 2, &said, &why));
	ck_assert_int_eq(rt_store_decision_put(show.s, "1", twice, 2, &said, &why), RT_E_INPUT);
	rt_store_rollback(show.s);
	ck_assert_uint_eq(book_of(&show)->decisions->n, 0);
	DONE(rt_store_begin(show.s, &why));
	DONE(rt_store_decision_put(show.s, "1", entry, 2, &said, &why));
	DONE(rt_store_commit(show.s, &why));
	m = book_of(&show);
	ck_assert_uint_eq(m->decisions->n, 2);
	ck_assert_int_eq(m->decisions->at[0].number, m->entries->at[2].number);
	ck_assert_int_eq(m->decisions->at[0].rank, 1);
	ck_assert_str_eq(m->decisions->at[1].who, "Office");
	show_close(&show);
}
END_TEST

/* ---- posting --------------------------------------------------------------------------------- */

static void post(struct show *show, const char *when, int64_t minutes)
{
	struct rt_results r;

	DONE(rt_results_make(&r, book_of(show), &why));
	DONE(rt_store_begin(show->s, &why));
	DONE(rt_store_posting_put(show->s, &r, "Kim", when, minutes, &why));
	DONE(rt_store_commit(show->s, &why));
	rt_results_free(&r);
}

START_TEST(postings_are_versions)
{
	struct show show = show_open();
	struct rt_posting latest = {0};
	struct rt_postings all = {0};
	char state[80];
	bool found;

	DONE(rt_store_posting_latest(show.s, "1", &latest, &found, &why));
	ck_assert(!found);
	post(&show, "2026-09-12 17:00:00", 60);
	post(&show, "2026-09-12 23:45:00", 30); /* over midnight */
	DONE(rt_store_postings(show.s, "1", &all, &why));
	ck_assert_uint_eq(all.n, 2);
	ck_assert_str_eq(all.at[0].until, "2026-09-12 18:00:00");
	ck_assert_int_eq(all.at[1].version, 2);
	DONE(rt_store_posting_latest(show.s, "1", &latest, &found, &why));
	ck_assert(found);
	ck_assert_str_eq(latest.until, "2026-09-13 00:15:00");
	ck_assert_uint_eq(latest.places.n, 3);
	ck_assert_int_lt(latest.places.at[0].number, latest.places.at[1].number);
	ck_assert_str_eq(latest.places.at[0].status, "entered");
	ck_assert_ptr_null(latest.places.at[0].score);
	rt_posting_state(&latest, "2026-09-12 23:50:00", state, sizeof state);
	ck_assert_str_eq(state, "provisional until 2026-09-13 00:15");
	rt_posting_state(&latest, "2026-09-13 00:14:59", state, sizeof state);
	ck_assert_str_eq(state, "provisional until 00:15");
	rt_posting_state(&latest, "2026-09-13 00:15:00", state, sizeof state);
	ck_assert_str_eq(state, "final");
	ck_assert_int_eq(rt_store_postings(show.s, "77", &all, &why), RT_E_NOTFOUND);
	ck_assert_int_ne(run_outside(show.place.path, "UPDATE posted_place SET place = 1"), 0);
	rt_posting_free(&latest);
	RT_LIST_FREE(&all);
	show_close(&show);
}
END_TEST

/* What comes back is what the results of the class say. */
START_TEST(a_posting_comes_back_whole)
{
	struct show show = show_open();
	const struct rt_class_marks *m = book_of(&show);
	struct rt_results_shown shown;
	struct rt_posting latest = {0};
	const struct rt_posted *posted;
	struct rt_results r;
	bool found;

	KEEP(show.s, rt_store_status_put(show.s, "1", m->entries->at[0].number, RT_ELIMINATED,
					 said.why, said.who, said.when, &why));
	post(&show, "2026-09-12 17:00:00", 60);
	DONE(rt_store_posting_latest(show.s, "1", &latest, &found, &why));
	DONE(rt_results_make(&r, book_of(&show), &why));
	DONE(rt_shown_make(&shown, &r, &latest, false, &why));
	ck_assert_uint_eq(shown.changes.n, 0);
	ck_assert_str_eq(latest.unit, "%");
	ck_assert_uint_gt(latest.notes.n, 0);
	ck_assert_uint_eq(latest.notes.n, shown.now.notes.n);
	for (size_t i = 0; i < latest.notes.n; i++)
		ck_assert_str_eq(latest.notes.at[i], shown.now.notes.at[i]);
	posted = rt_posted_of(&latest, m->entries->at[0].id);
	ck_assert_str_eq(posted->status, "eliminated");
	ck_assert_str_eq(posted->why, "so it was");
	ck_assert(posted->starter);
	ck_assert_str_eq(posted->driver, m->entries->at[0].driver);
	ck_assert_int_ne(run_outside(show.place.path, "DELETE FROM posted_note"), 0);
	rt_shown_free(&shown);
	rt_results_free(&r);
	rt_posting_free(&latest);
	show_close(&show);
}
END_TEST

/* ---- the file as a whole --------------------------------------------------------------------- */

/* How many faults a look at the file finds; the first one's words where there is one. */
static size_t faults_of(struct rt_store *s, char words[300])
{
	struct rt_file_faults faults = {0};
	struct rt_file_counts counts = {0};
	size_t n;

	DONE(rt_store_verify(s, &faults, &counts, &why));
	n = faults.n;
	if (n)
		snprintf(words, 300, "%s: %s: %s", faults.at[0].check,
			 faults.at[0].where ? faults.at[0].where : "", faults.at[0].what);
	RT_LIST_FREE(&faults);
	return n;
}

static const struct {
	const char *sql, *words;
} broken[] = {
	{"DROP INDEX penalty_entry", "penalty_entry: is not there"},
	{"PRAGMA foreign_keys = OFF; UPDATE entry SET class = 'gone' WHERE number = 9",
	 "names a row of class that is not there"},
	{"INSERT INTO pass (id, keying) VALUES (5, 1)", "has 1 rows, but the last is row 5"},
	{"INSERT INTO pass (id, keying) VALUES (1, 1);"
	 "INSERT INTO mark SELECT 1, 1, 1, 1, 2, 60, 1, NULL",
	 "version 1 is not there"},
	{"INSERT INTO pass (id, keying) VALUES (1, 1);"
	 "INSERT INTO mark SELECT 1, 1, 1, 2, 1, 60, 1, NULL",
	 "belongs to another class, test or keying"},
	{"INSERT INTO pass (id, keying) VALUES (1, 1);"
	 "INSERT INTO mark SELECT 1, 1, 1, 1, 1, 61, 1, NULL",
	 "0.61 is not in the steps of its item"},
	{"PRAGMA ignore_check_constraints = ON; INSERT INTO pass (id, keying) VALUES (1, 7)",
	 "CHECK constraint failed in pass"},
	{"INSERT INTO posting (class, version, who, at, until, unit)"
	 " VALUES ('1', 2, 'Kim', '2026-09-12 10:00:00', '2026-09-12 10:00:00', '%')",
	 "versions posted are not 1 to 1"},
};

START_TEST(faults_are_found)
{
	struct show show = show_open();
	char words[300] = "";

	ck_assert_uint_eq(faults_of(show.s, words), 0);
	ck_assert_int_eq(run_outside(show.place.path, broken[_i].sql), 0);
	ck_assert_uint_ge(faults_of(show.s, words), 1);
	ck_assert_msg(strstr(words, broken[_i].words) != NULL, "%s", words);
	show_close(&show);
}
END_TEST

/* ---- copies ---------------------------------------------------------------------------------- */

static size_t rings_in(const char *path)
{
	struct rt_store *s;
	char words[300];

	DONE(rt_store_open(&s, path, false, &why));
	ck_assert_uint_eq(faults_of(s, words), 0);
	rt_store_close(s);
	return count_rings(path);
}

#define COPIES 20

/* In a child: two rings in each transaction, until it is told to stop. */
static void add_rings(const char *path, int stop)
{
	struct rt_store *s;
	char name[40], byte;

	if (rt_store_open(&s, path, true, NULL))
		_exit(1);
	for (int i = 0; read(stop, &byte, 1) < 0; i++) {
		if (rt_store_begin(s, NULL))
			_exit(2);
		for (int k = 0; k < 2; k++) {
			snprintf(name, sizeof name, "Ring %d %d", i, k);
			if (add_ring(s, name, NULL))
				_exit(3);
		}
		if (rt_store_commit(s, NULL))
			_exit(4);
	}
	rt_store_close(s);
	_exit(0);
}

START_TEST(copies_are_whole_while_another_writes)
{
	struct place p = place_make();
	size_t last = 0, now;
	struct rt_store *s;
	char copy[200];
	int stop[2], status;
	pid_t child;

	make_show(&p);
	snprintf(copy, sizeof copy, "%s/copy.show", p.folder);
	ck_assert_int_eq(pipe(stop), 0);
	ck_assert_int_eq(fcntl(stop[0], F_SETFL, O_NONBLOCK), 0);
	child = fork();
	ck_assert_int_ge(child, 0);
	if (child == 0) {
		close(stop[1]);
		add_rings(p.path, stop[0]);
	}
	for (int i = 0; i < COPIES; i++) {
		DONE(rt_store_open(&s, p.path, false, &why));
		file_write(copy, "", 0);
		DONE(rt_store_copy(s, copy, &why));
		rt_store_close(s);
		ck_assert(!file_has_log(copy));
		now = rings_in(copy);
		ck_assert_uint_eq(now % 2, 0); /* never half a transaction */
		ck_assert_uint_ge(now, last);
		last = now;
	}
	close(stop[1]);
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	ck_assert_int_eq(status, 0);
	ck_assert_uint_ge(rings_in(p.path), last);
	ck_assert_uint_eq(place_files(&p), 2);
	place_remove(&p);
}
END_TEST

START_TEST(a_copy_is_known_as_one)
{
	struct show show = show_open();
	struct place elsewhere = place_make();
	char other[200];

	snprintf(other, sizeof other, "%s/other", show.place.folder);
	ck_assert(!rt_store_is_copy(show.s, other));
	file_write(other, "a letter", 8);
	ck_assert(!rt_store_is_copy(show.s, other));
	file_write(other, "", 0);
	DONE(rt_store_copy(show.s, other, &why));
	ck_assert(rt_store_is_copy(show.s, other));
	ck_assert_uint_eq(rings_in(other), 1);
	DONE(rt_store_create(elsewhere.path,
			     &(struct rt_show){.title = "Another",
					       .day = "2026-05-09",
					       .created = "2026-05-09 08:00:00"},
			     &(struct rt_shipped){0}, &why));
	ck_assert(!rt_store_is_copy(show.s, elsewhere.path));
	ck_assert_int_eq(rt_store_copy(show.s, "nowhere/at/all", &why), RT_E_STORE);
	place_remove(&elsewhere);
	show_close(&show);
}
END_TEST

int check_store_posting(void)
{
	Suite *suite = suite_create("store: posting");
	TCase *posting = tcase_create("posting");

	tcase_set_timeout(posting, 60);
	tcase_add_test(posting, what_is_said_comes_back);
	tcase_add_test(posting, decisions_come_back);
	tcase_add_test(posting, postings_are_versions);
	tcase_add_test(posting, a_posting_comes_back_whole);
	tcase_add_loop_test(posting, faults_are_found, 0, (int)(sizeof broken / sizeof *broken));
	tcase_add_test(posting, copies_are_whole_while_another_writes);
	tcase_add_test(posting, a_copy_is_known_as_one);
	suite_add_tcase(suite, posting);
	return suite_run(suite);
}
