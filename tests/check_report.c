/* Checks of the report: rows put whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ringtrue/report.h>

#include "suite.h"

/* ---- a kind of row with a field of each type ---- */

struct person {
	const char *name;
	int64_t born;
};

struct row {
	const char *text, *name, *names, *letters;
	char chars[8];
	int64_t whole, decimal;
	int small, word;
	size_t size;
	double real, part, height;
	bool truth;
	struct rt_exact exact;
	const struct person *person;
	int secret;
};

static const char *const colours[] = {"bay", "grey"};
static const struct rt_words colour_words = {"colour", colours, 2, NULL, 0};

static const char *write_twice(const struct rt_field *f, const void *member, char *out, size_t size)
{
	int n = *(const int *)member;

	(void)f;
	if (n < 0)
		return NULL;
	snprintf(out, size, "%d and %d", n, n);
	return out;
}

#define AT(member) RT_AT(struct row, member)

static const struct rt_field fields[] = {
	{"text", AT(text), .type = RT_TEXT},
	{"name", AT(name), .type = RT_NAME, .head = "Who"},
	{"names", AT(names), .type = RT_NAMES},
	{"letters", AT(letters), .type = RT_LETTERS},
	{"chars", AT(chars), .type = RT_CHARS},
	{"secret", AT(secret), .type = RT_SMALL, .is = RT_UNSEEN},
	{"whole", AT(whole), .type = RT_INT, .is = RT_EMPTY},
	{"decimal", AT(decimal), .type = RT_DECIMAL, .decimals = 2},
	{"small_number", AT(small), .type = RT_SMALL},
	{"size", AT(size), .type = RT_SIZE},
	{"real", AT(real), RT_METRES(1)},
	{"part", AT(part), RT_PARTS(1)},
	{"height", AT(height), .type = RT_HEIGHT},
	{"truth", AT(truth), .type = RT_BOOL},
	{"exact", AT(exact), .type = RT_EXACT},
	{"word", AT(word), .type = RT_WORD, .words = &colour_words},
	{"own", AT(small), .type = RT_OWN, .write = write_twice},
	{"person", RT_IN(struct row, person, struct person, name), .type = RT_NAME},
	{"born", RT_IN(struct row, person, struct person, born), .type = RT_INT},
};
static const struct rt_record record = RT_TABLE("rows", "Rows", fields, struct row);

/* What the cell says as CSV has it; "-" for nothing. */
static const char *cell(const struct rt_table *t, size_t row, const char *name)
{
	static char words[RT_OWN_SIZE];

	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, name) == 0) {
			const struct rt_value *v = rt_table_cell(t, row, i);

			return v->null ? "-" : rt_value_text(&t->column[i], v, words, sizeof words);
		}
	ck_abort_msg("no column %s", name);
}

START_TEST(rows_are_put_whole)
{
	static const struct person ann = {"Ann", 1990};
	char passing[] = "passing";
	const struct row full = {
		.text = passing,
		.name = "Bo",
		.names = "Fen; Moss",
		.letters = "C B",
		.chars = "cut",
		.whole = -7,
		.decimal = 6250,
		.small = 3,
		.size = 9,
		.real = 0.5,
		.part = 0.25,
		.height = 132,
		.truth = true,
		.word = 1,
		.exact = {true, 725, 1},
		.person = &ann,
	};
	const struct row empty = {
		.small = -1, .word = 9, .real = NAN, .part = INFINITY, .height = NAN};
	static const char *const wanted[][3] = {
		{"text", "passing", "-"},     {"name", "Bo", "-"},
		{"names", "Fen; Moss", "-"},  {"letters", "C B", "-"},
		{"chars", "cut", "-"},	      {"whole", "-7", "-"},
		{"decimal", "62.50", "0.00"}, {"small_number", "3", "-1"},
		{"size", "9", "0"},	      {"real", "0.5", "-"},
		{"part", "25", "-"},	      {"height", "132", "-"},
		{"truth", "yes", "no"},	      {"exact", "72.5", "-"},
		{"word", "grey", "-"},	      {"own", "3 and 3", "-"},
		{"person", "Ann", "-"},	      {"born", "1990", "-"},
	};
	struct rt_report r = {0};
	struct rt_table *t = rt_report_rows(&r, &record);

	rt_put_row(t, &full);
	memset(passing, 'x', sizeof passing - 1); /* texts were copied */
	rt_put_row(t, &empty);
	ck_assert_int_eq(rt_report_result(&r, NULL), RT_OK);
	ck_assert_uint_eq(rt_table_rows(t), 2);
	ck_assert_str_eq(t->name, "rows");
	ck_assert_str_eq(t->title, "Rows");
	ck_assert_uint_eq(t->columns, sizeof wanted / sizeof *wanted); /* all but the secret */
	for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
		ck_assert_str_eq(t->column[i].name, wanted[i][0]);
		ck_assert_str_eq(cell(t, 0, wanted[i][0]), wanted[i][1]);
		ck_assert_str_eq(cell(t, 1, wanted[i][0]), wanted[i][2]);
	}
	ck_assert_str_eq(t->column[1].head, "Who");
	ck_assert_str_eq(t->column[7].head, "small number");
	rt_report_free(&r);
}
END_TEST

START_TEST(a_list_is_a_table)
{
	const struct row rows[] = {{.text = "one"}, {.text = "two"}, {.text = "three"}};
	struct rt_report r = {0};
	struct rt_table *t = rt_report_list(&r, &record, rows, 3), *none;

	none = rt_report_list(&r, &record, NULL, 0);
	ck_assert_int_eq(rt_report_result(&r, NULL), RT_OK);
	ck_assert_uint_eq(rt_table_rows(t), 3);
	ck_assert_str_eq(cell(t, 2, "text"), "three");
	ck_assert_uint_eq(rt_table_rows(none), 0);
	rt_report_free(&r);
}
END_TEST

/* Of this table only: the record stays. */
START_TEST(columns_are_shown_as_the_case_is)
{
	struct rt_report r = {0};
	struct rt_table *t = rt_report_rows(&r, &record), *other = rt_report_rows(&r, &record);

	rt_table_show(t, "name", false);
	rt_table_head(t, "name", "Driver");
	rt_table_title(t, "Drivers");
	rt_table_main(other);
	ck_assert(t->column[1].wide && !other->column[1].wide && !fields[1].wide);
	ck_assert_str_eq(t->column[1].head, "Driver");
	ck_assert_str_eq(other->column[1].head, "Who");
	ck_assert_str_eq(t->title, "Drivers");
	ck_assert_str_eq(other->title, "Rows");
	rt_table_show(t, "name", true);
	ck_assert(!t->column[1].wide);
	ck_assert_ptr_eq(rt_report_main(&r), other);
	ck_assert_ptr_eq(rt_report_named(&r, "rows"), t);
	ck_assert_ptr_null(rt_report_named(&r, "row"));
	rt_report_free(&r);
}
END_TEST

/* Without memory all is swallowed, and told at the end. */
START_TEST(what_is_lost_is_told)
{
	const struct row row = {.text = "one"};
	struct rt_report r = {0};
	struct rt_table *t = rt_report_rows(&r, &record);

	r.nomem = true;
	rt_put_row(t, &row);
	ck_assert_uint_eq(rt_table_rows(t), 0);
	ck_assert_int_eq(rt_report_result(&r, NULL), RT_E_NOMEM);
	rt_report_free(&r);
}
END_TEST

int check_report(void)
{
	Suite *suite = suite_create("report");
	TCase *all = tcase_create("all");

	suite_add_tcase(suite, all);
	tcase_add_test(all, rows_are_put_whole);
	tcase_add_test(all, a_list_is_a_table);
	tcase_add_test(all, columns_are_shown_as_the_case_is);
	tcase_add_test(all, what_is_lost_is_told);
	return suite_run(suite);
}
