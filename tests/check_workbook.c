/* Checks of the workbook: its sheets' names, the same bytes each time, text that no reader takes,
 * and what becomes of it when it cannot be written.  What its formulas come to is compared by
 * tests/outside/workbook_check.py.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>
#include <unzip.h>

#include <ringtrue/paper.h>

#include "../src/paper/workbook_internal.h"
#include "office_class.h"
#include "paper_locale.h"
#include "suite.h"
#include "written.h"

/* ---- a show ---- */

#define CLASSES 3

struct show {
	struct office_class class_[CLASSES];
	struct rt_results results[CLASSES];
	const struct rt_results *listed[CLASSES];
	struct rt_report turns;
	struct rt_workbook_page page;
	struct rt_workbook workbook;
};

static void make_class(struct office_class *c, const char *rule, size_t entries)
{
	office_open(c, rule, "C B E");
	for (size_t i = 0; i < 12; i++)
		office_item(c, i % 3 ? 1000 : 1500, i > 9 ? RT_GROUP_GENERAL : RT_GROUP_MOVEMENT);
	for (size_t i = 0; i < entries; i++) {
		struct rt_entry *entry = office_entry(c, (int64_t)(i + 1));

		entry->driver = i % 2 ? "=1+1" : "Åsa Žižková";
		entry->division = i % 3 ? "pony" : NULL;
		entry->hors_concours = i == 4;
		entry->status = i == 5 ? RT_WITHDRAWN : RT_ENTERED;
	}
	office_penalty(c, 1, 500, -1);
	office_penalty(c, 2, 0, 3);
	office_sheets(c);
	for (size_t i = 0; i < entries; i++)
		for (size_t j = 0; j < 3; j++)
			for (size_t k = 0; k < 12; k++)
				office_mark(c, i, j, k, 0, (int)(10 + (i + 2 * j + 3 * k) % 9) * 50);
}

struct turn {
	const char *turn;
	double diameter_m;
	bool fits;
};

static const struct rt_field turn_columns[] = {
	{"turn", .head = "Turn", RT_AT(struct turn, turn)},
	{"diameter_m", .head = "Diameter", RT_AT(struct turn, diameter_m), RT_METRES(1)},
	{"fits", .head = "Fits", RT_AT(struct turn, fits), .type = RT_BOOL},
};

static const struct rt_record turns = RT_TABLE("turns", "Turns", turn_columns, struct turn);

static void make_turns(struct rt_report *r)
{
	rt_put_row(rt_report_rows(r, &turns),
		   &(struct turn){"off the centreline at C", 20.5, true});
	rt_report_note(r, "%s", RT_CAUTION);
}

static void make_show(struct show *s, size_t entries)
{
	static const char *const rules[CLASSES] = {"driven-combined", "ridden-rounded",
						   "driven-percent"};

	memset(s, 0, sizeof *s);
	for (size_t i = 0; i < CLASSES; i++) {
		make_class(&s->class_[i], rules[i], entries);
		ck_assert_int_eq(rt_results_make(&s->results[i], &s->class_[i].marks, NULL), RT_OK);
		s->listed[i] = &s->results[i];
	}
	make_turns(&s->turns);
	s->page = (struct rt_workbook_page){"Turns", "Turns & more", &s->turns};
	s->workbook = (struct rt_workbook){
		.title = "Larkfold & Mill: spring",
		.day = "2026-05-09",
		.when = "2026-05-09 18:00:00",
		.results = s->listed,
		.classes = CLASSES,
		.page = &s->page,
		.pages = 1,
	};
}

static void drop_show(struct show *s)
{
	for (size_t i = 0; i < CLASSES; i++) {
		rt_results_free(&s->results[i]);
		office_close(&s->class_[i]);
	}
	rt_report_free(&s->turns);
}

static char folder[] = "check_workbook-XXXXXX";

static void in_folder(void)
{
	strcpy(folder + strlen(folder) - 6, "XXXXXX");
	ck_assert_ptr_nonnull(mkdtemp(folder));
	ck_assert_int_eq(chdir(folder), 0);
}

static void out_of_folder(void)
{
	ck_assert_int_eq(chdir(".."), 0);
	ck_assert_int_eq(rmdir(folder), 0); /* so nothing was left in it */
}

static char *read_file(const char *path, size_t *n)
{
	FILE *f = fopen(path, "rb");
	char *s;

	ck_assert_ptr_nonnull(f);
	ck_assert_int_eq(fseek(f, 0, SEEK_END), 0);
	*n = (size_t)ftell(f);
	rewind(f);
	s = malloc(*n + 1);
	ck_assert_uint_eq(fread(s, 1, *n, f), *n);
	fclose(f);
	return s;
}

static void expect_same(const char *left, const char *right, bool same)
{
	size_t nl, nr;
	char *l = read_file(left, &nl), *r = read_file(right, &nr);

	ck_assert(same == (nl == nr && memcmp(l, r, nl) == 0));
	free(l);
	free(r);
}

/* ---- bytes ---- */

START_TEST(the_same_show_is_the_same_bytes)
{
	struct show s;

	make_show(&s, 8);
	ck_assert_int_eq(write_workbook("one.xlsx", &s.workbook, NULL), RT_OK);
	ck_assert_int_eq(write_workbook("two.xlsx", &s.workbook, NULL), RT_OK);
	expect_same("one.xlsx", "two.xlsx", true);
	setenv("TZ", "Pacific/Auckland", 1);
	ck_assert_int_eq(write_workbook("two.xlsx", &s.workbook, NULL), RT_OK);
	unsetenv("TZ");
	expect_same("one.xlsx", "two.xlsx", true);
	paper_locale("de_DE.UTF-8");
	ck_assert_int_eq(write_workbook("two.xlsx", &s.workbook, NULL), RT_OK);
	paper_locale("C");
	expect_same("one.xlsx", "two.xlsx", true);
	s.workbook.when = "2026-05-09T18:00:01";
	ck_assert_int_eq(write_workbook("two.xlsx", &s.workbook, NULL), RT_OK);
	expect_same("one.xlsx", "two.xlsx", false);
	unlink("one.xlsx");
	unlink("two.xlsx");
	drop_show(&s);
}
END_TEST

START_TEST(a_show_of_nothing_is_a_workbook)
{
	struct rt_workbook empty = {.title = "Empty", .day = "2026-05-09", .when = "2026-05-09"};
	struct show s;

	ck_assert_int_eq(write_workbook("empty.xlsx", &empty, NULL), RT_OK);
	make_show(&s, 0);
	s.workbook.title = s.workbook.day = s.workbook.when = NULL;
	ck_assert_int_eq(write_workbook("empty.xlsx", &s.workbook, NULL), RT_OK);
	drop_show(&s);
	unlink("empty.xlsx");
}
END_TEST

/* ---- text that no reader takes ---- */

/* XML 1.0, section 2.2: the characters it may have. */
static void expect_xml_characters(const char *s, size_t n)
{
	ck_assert(rt_is_utf8(s, n));
	for (size_t i = 0; i < n; i++) {
		ck_assert((unsigned char)s[i] >= ' ' || strchr("\t\n\r", s[i]));
		ck_assert(i + 2 >= n || memcmp(s + i, "\xEF\xBF\xBE", 3) != 0);
	}
}

static void expect_readable(const char *path)
{
	unzFile archive = unzOpen64(path);
	char *text = malloc(1024 * 1024);
	size_t parts = 0;

	ck_assert_ptr_nonnull(archive);
	for (int rc = unzGoToFirstFile(archive); rc == UNZ_OK; rc = unzGoToNextFile(archive)) {
		int n;

		ck_assert_int_eq(unzOpenCurrentFile(archive), UNZ_OK);
		n = unzReadCurrentFile(archive, text, 1024 * 1024);
		ck_assert_int_gt(n, 0);
		expect_xml_characters(text, (size_t)n);
		ck_assert_int_eq(unzCloseCurrentFile(archive), UNZ_OK);
		parts++;
	}
	ck_assert_uint_gt(parts, 10);
	unzClose(archive);
	free(text);
}

#define BAD_TEXT "caf\xe9 \x1b[31m\x01 \xC2\x9B \xEF\xBF\xBE \xF0\x9F"

START_TEST(bad_text_is_readable)
{
	struct show s;
	char *most = malloc(100001);

	memset(most, 'x', 100000);
	most[100000] = '\0';
	make_show(&s, 3);
	for (size_t i = 0; i < CLASSES; i++) {
		s.class_[i].class_.title = BAD_TEXT;
		s.class_[i].class_.name = BAD_TEXT;
		s.class_[i].test.title = BAD_TEXT;
		s.class_[i].entries.at[0].driver = BAD_TEXT;
		s.class_[i].entries.at[0].horses = most;
		s.class_[i].entries.at[0].groom = BAD_TEXT;
		s.results[i].at[0].division = BAD_TEXT;
		s.results[i].at[1].division = most;
	}
	rt_report_note(&s.turns, "%s", BAD_TEXT);
	rt_put_row(s.turns.table[0], &(struct turn){.turn = most, .diameter_m = NAN});
	s.workbook.title = s.workbook.day = s.workbook.when = BAD_TEXT;
	s.page.name = s.page.title = BAD_TEXT;
	ck_assert_int_eq(write_workbook("bad.xlsx", &s.workbook, NULL), RT_OK);
	expect_readable("bad.xlsx");
	unlink("bad.xlsx");
	free(most);
	drop_show(&s);
}
END_TEST

/* ---- when it fails ---- */

/* Write it while no file may grow beyond so many bytes, as on a disk that fills up; what
 * libxlsxwriter says of that on standard error is not ours. */
static enum rt_err write_limited(const struct rt_workbook *w, const char *path, size_t most,
				 struct rt_error *err)
{
	struct rlimit before, limit;
	void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
	int said = dup(STDERR_FILENO), quiet = open("/dev/null", O_WRONLY);
	enum rt_err rc;

	dup2(quiet, STDERR_FILENO);
	getrlimit(RLIMIT_FSIZE, &before);
	limit = before;
	limit.rlim_cur = most;
	setrlimit(RLIMIT_FSIZE, &limit);
	rc = write_workbook(path, w, err);
	setrlimit(RLIMIT_FSIZE, &before);
	signal(SIGXFSZ, handler);
	dup2(said, STDERR_FILENO);
	close(said);
	close(quiet);
	return rc;
}

START_TEST(a_full_disk_leaves_the_old_file)
{
	size_t refused = 0, made = 0;
	struct show s;

	make_show(&s, 60);
	ck_assert_int_eq(write_workbook("old.xlsx", &s.workbook, NULL), RT_OK);
	ck_assert_int_eq(write_workbook("copy.xlsx", &s.workbook, NULL), RT_OK);
	s.workbook.when = "2026-05-10 09:00:00";
	ck_assert_int_eq(write_workbook("new.xlsx", &s.workbook, NULL), RT_OK);
	/* from where the book does not fit, over where it does but a sheet does not before it is
	 * packed, to where all of it fits */
	for (size_t most = 1000; most < 4000000; most += most / 16) {
		struct rt_error err = {0};
		enum rt_err rc = write_limited(&s.workbook, "old.xlsx", most, &err);

		if (rc == RT_OK) {
			made++;
			expect_same("old.xlsx", "new.xlsx", true);
			ck_assert_int_eq(rename("copy.xlsx", "old.xlsx"), 0);
			ck_assert_int_eq(link("old.xlsx", "copy.xlsx"), 0);
		} else {
			refused++;
			ck_assert_int_eq(rc, RT_E_IO);
			ck_assert_ptr_nonnull(strstr(err.text, "old.xlsx"));
			expect_same("old.xlsx", "copy.xlsx", true);
		}
	}
	ck_assert_uint_gt(refused, 20);
	ck_assert_uint_gt(made, 5);
	unlink("old.xlsx");
	unlink("copy.xlsx");
	unlink("new.xlsx");
	drop_show(&s);
}
END_TEST

START_TEST(a_missing_folder_is_told)
{
	struct rt_error err = {0};
	struct show s;

	make_show(&s, 2);
	ck_assert_int_eq(write_workbook("not/there.xlsx", &s.workbook, &err), RT_E_IO);
	ck_assert_ptr_nonnull(strstr(err.text, "not/there.xlsx"));
	drop_show(&s);
}
END_TEST

START_TEST(a_part_that_is_cut_off_is_seen)
{
	const struct rt__tallies none = {0};
	struct show s;
	size_t n;
	char *bytes;
	FILE *f;

	make_show(&s, 8);
	ck_assert_int_eq(write_workbook("book.xlsx", &s.workbook, NULL), RT_OK);
	bytes = read_file("book.xlsx", &n);
	bytes[n / 3] = (char)~bytes[n / 3];
	f = fopen("book.xlsx", "wb");
	ck_assert_uint_eq(fwrite(bytes, 1, n, f), n);
	fclose(f);
	ck_assert(!rt__workbook_is_whole("book.xlsx", &none));
	ck_assert_int_eq(truncate("book.xlsx", (off_t)(n / 2)), 0);
	ck_assert(!rt__workbook_is_whole("book.xlsx", &none));
	ck_assert(!rt__workbook_is_whole("not there", &none));
	unlink("book.xlsx");
	free(bytes);
	drop_show(&s);
}
END_TEST

/* ---- names of sheets ---- */

START_TEST(sheets_have_names_the_format_allows)
{
	static const struct {
		const char *prefix, *wish, *name, *quoted;
	} names[] = {
		{NULL, "Entries", "Entries", "'Entries'!"},
		{"Class ", "P1", "Class P1", "'Class P1'!"},
		{"Class ", "1", "Class 1", "'Class 1'!"},
		{"Class ", "p1", "Class p1 2", "'Class p1 2'!"},
		{"Class ", "P1", "Class P1 3", "'Class P1 3'!"},
		{"Class ", "Pony pairs", "Pony pairs", "'Pony pairs'!"},
		{"Class ", "a/b\\c*d?e[f]:g", "a-b-c-d-e-f--g", "'a-b-c-d-e-f--g'!"},
		{NULL, "'it's'", "-it's-", "'-it''s-'!"},
		{NULL, "", "Sheet", "'Sheet'!"},
		{NULL, NULL, "Sheet 2", "'Sheet 2'!"},
		{NULL, "Tab\there", "Tab-here", "'Tab-here'!"},
		{NULL, "caf\xe9 \x1b", "caf\xEF\xBF\xBD \xEF\xBF\xBD",
		 "'caf\xEF\xBF\xBD \xEF\xBF\xBD'!"},
		{NULL, "Överförda ponnyekipage, ungdomsklass", "Överförda ponnyekipage, ungdoms",
		 "'Överförda ponnyekipage, ungdoms'!"},
		{NULL, "Överförda ponnyekipage, ungdomsklass", "Överförda ponnyekipage, ungdo 2",
		 "'Överförda ponnyekipage, ungdo 2'!"},
		{NULL, "🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴", "🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴", "'🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴'!"},
	};
	struct rt_workbook of = {.title = "Names"};
	struct rt__book book = {.of = &of, .file = workbook_new("names.xlsx")};

	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		struct rt__sheet sheet;

		rt__sheet_add(&sheet, &book, names[i].prefix, names[i].wish, NULL);
		ck_assert_str_eq(sheet.name, names[i].name);
		ck_assert_str_eq(sheet.quoted, names[i].quoted);
		ck_assert_int_eq(book.failed, LXW_NO_ERROR);
	}
	ck_assert_int_eq(workbook_close(book.file), LXW_NO_ERROR);
	RT_LIST_FREE(&book.put);
	rt_map_free(book.names);
	rt_arena_free(book.text);
	rt__said(&book);
	unlink("names.xlsx");
}
END_TEST

int check_workbook(void)
{
	Suite *s = suite_create("workbook");
	TCase *t = tcase_create("workbook");

	tcase_add_checked_fixture(t, in_folder, out_of_folder);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, the_same_show_is_the_same_bytes);
	tcase_add_test(t, a_show_of_nothing_is_a_workbook);
	tcase_add_test(t, bad_text_is_readable);
	tcase_add_test(t, a_full_disk_leaves_the_old_file);
	tcase_add_test(t, a_missing_folder_is_told);
	tcase_add_test(t, a_part_that_is_cut_off_is_seen);
	tcase_add_test(t, sheets_have_names_the_format_allows);
	suite_add_tcase(s, t);
	return suite_run(s);
}
