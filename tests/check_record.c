/* Checks of records: fields read, set, valued, compared and explained.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ringtrue/record.h>

#include "suite.h"

/* ---- a kind of row with a field of each type ---- */

struct row {
	const char *text, *name, *names, *letters, *own;
	int64_t whole, decimal;
	int small, word;
	size_t size;
	double real, height, sigma;
	bool truth;
};

static const char *const statuses[] = {"entered", "withdrawn", "did not start"};
static const char *const also[][2] = {{"scratched", "withdrawn"}};
static const struct rt_words status_words = {"status", statuses, 3, also, 1};

/* A field of its own takes one letter. */
static enum rt_err read_letter(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	if (strlen(s) != 1)
		return rt_refuse(err, s, "is no letter", "A to Z");
	(void)f;
	*(const char **)member = text ? rt_arena_string(text, s) : s;
	return RT_OK;
}

static const char *write_letter(const struct rt_field *f, const void *member, char *out,
				size_t size)
{
	const char *letter = *(const char *const *)member;

	(void)f;
	if (letter)
		snprintf(out, size, "<%s>", letter);
	return letter ? out : NULL;
}

static const struct row blank = {
	.real = NAN, .height = NAN, .sigma = NAN, .whole = 5, .small = -1, .decimal = -1};

#define AT(member) RT_AT(struct row, member)

enum {
	TEXT,
	NAME,
	NAMES,
	LETTERS,
	OWN,
	WHOLE,
	DECIMAL,
	SMALL,
	SIZE,
	REAL,
	HEIGHT,
	SIGMA,
	TRUTH,
	WORD
};

static const struct rt_field fields[] = {
	[TEXT] = {"text", AT(text), .type = RT_TEXT, .is = RT_EMPTY},
	[NAME] = {"name", AT(name), .type = RT_NAME, .also = "rider,driver", .is = RT_KEY},
	[NAMES] = {"names", AT(names), .type = RT_NAMES, .measure = "horse"},
	[LETTERS] = {"letters", AT(letters), .type = RT_LETTERS, .is = RT_OPTIONAL},
	[OWN] = {"own", AT(own), .type = RT_OWN, .read = read_letter, .write = write_letter,
		 .is = RT_OPTIONAL, .accepted = "A to Z"},
	[WHOLE] = {"whole", AT(whole), .type = RT_INT, .low = -3, .high = 99999,
		   .is = RT_OPTIONAL | RT_USUAL},
	[DECIMAL] = {"decimal", AT(decimal), .type = RT_DECIMAL, .decimals = 2, .high = 10,
		     .is = RT_EMPTY},
	[SMALL] = {"small_number", AT(small), .type = RT_SMALL, .low = 1, .high = 9,
		   .is = RT_OPTIONAL},
	[SIZE] = {"size", AT(size), .type = RT_SIZE},
	[REAL] = {"real_m", AT(real), RT_METRES(2), .low = -1.5, .high = 80, .measure = "m"},
	[HEIGHT] = {"height", AT(height), .type = RT_HEIGHT},
	[SIGMA] = {"sigma_m", AT(sigma), RT_SIGMA("m")},
	[TRUTH] = {"truth", AT(truth), .type = RT_BOOL},
	[WORD] = {"word", AT(word), .type = RT_WORD, .words = &status_words, .is = RT_OF_SHOW},
};
static const struct rt_record record = {.name = "row",
					.many = "rows",
					RT_FIELDS(fields),
					.size = sizeof(struct row),
					.blank = &blank};

/* ---- reading ---- */

/* What is typed, what it is as text again; wrong: how it is refused. */
static const struct {
	size_t field;
	const char *typed, *said, *wrong;
} readings[] = {
	{TEXT, "any\nlines", "any\nlines", NULL},
	{NAME, "Åsa Lind", "Åsa Lind", NULL},
	{NAME, "Åsa\tLind", NULL, "\"Åsa\\tLind\" holds a line break or a tab: text on one line"},
	{NAMES, "Fen ;Moss;", "Fen; Moss", NULL},
	{NAMES, " ; ", NULL, "no horse: at least one name, semicolons between"},
	{LETTERS, "C B E", "C B E", NULL},
	{OWN, "C", "<C>", NULL},
	{OWN, "CC", NULL, "\"CC\" is no letter: A to Z"},
	{WHOLE, "-3", "-3", NULL},
	{WHOLE, "99999", "99999", NULL},
	{WHOLE, "-4", NULL, "\"-4\" is out of range: a whole number from -3 to 99999"},
	{WHOLE, "100000", NULL, "\"100000\" is out of range: a whole number from -3 to 99999"},
	{WHOLE, "1.5", NULL, "\"1.5\" is not a whole number: a whole number from -3 to 99999"},
	{WHOLE, "x", NULL, "\"x\" is not a number: a whole number from -3 to 99999"},
	{DECIMAL, "7.25", "7.25", NULL},
	{DECIMAL, "0", "0.00", NULL},
	{DECIMAL, "10.00", "10.00", NULL},
	{DECIMAL, "10.01", NULL,
	 "\"10.01\" is out of range: a number from 0 to 10 with at most 2 decimals"},
	{DECIMAL, "7.255", NULL,
	 "\"7.255\" has too many decimals: a number from 0 to 10 with at most 2 decimals"},
	{DECIMAL, "7,25", NULL,
	 "\"7,25\" has a decimal comma, not a decimal point: a number from 0 to 10 with at most 2 "
	 "decimals"},
	{DECIMAL, "1e0", NULL,
	 "\"1e0\" has an exponent: a number from 0 to 10 with at most 2 decimals"},
	{SMALL, "9", "9", NULL},
	{SMALL, "0", NULL, "\"0\" is out of range: a whole number from 1 to 9"},
	{SIZE, "0", "0", NULL},
	{SIZE, "-1", NULL, "\"-1\" is out of range: a whole number"},
	{REAL, "-1.5", "-1.5", NULL},
	{REAL, "80.001", NULL, "\"80.001\" is out of range: a number from -1.5 to 80 m"},
	{REAL, "nan", NULL, "\"nan\" is not a number: a number from -1.5 to 80 m"},
	{HEIGHT, "13.2hh", "137.16", NULL},
	{HEIGHT, "1.32m", "132", NULL},
	{HEIGHT, "tall", NULL, "\"tall\" is not a height: " RT_HEIGHT_ACCEPTED},
	{SIGMA, "0.01", "0.01", NULL},
	{SIGMA, "0", NULL,
	 "\"0\" would mean that this reading cannot be wrong: a standard error over 0, or an empty "
	 "field for the usual one"},
	{SIGMA, "-1", NULL,
	 "\"-1\" is less than nothing: a standard error over 0, or an empty field for the usual one"},
	{SIGMA, "11", NULL, "\"11\" is out of range: a number from 0.0001 to 10 m"},
	{TRUTH, "YES", "yes", NULL},
	{TRUTH, "no", "no", NULL},
	{TRUTH, "ye", NULL, "\"ye\" is neither: yes or no"},
	{WORD, "Did-Not_Start", "did not start", NULL},
	{WORD, "scratched", "withdrawn", NULL},
	{WORD, "withdrwan", NULL,
	 "unknown status \"withdrwan\": did you mean \"withdrawn\"? (entered, withdrawn, did not "
	 "start)"},
	{WORD, "gone", NULL, "unknown status \"gone\": entered, withdrawn, did not start"},
};

START_TEST(fields_are_read)
{
	const struct rt_field *f = &fields[readings[_i].field];
	char own[RT_OWN_SIZE], words[RT_OWN_SIZE], typed[64];
	struct rt_arena *text = NULL;
	struct rt_error err = {0};
	struct rt_value v;
	struct row row;
	enum rt_err rc;

	snprintf(typed, sizeof typed, "%s", readings[_i].typed);
	rt_record_start(&record, &row);
	rc = rt_field_read(f, &row, typed, &text, &err);
	memset(typed, 'x', sizeof typed - 1); /* what is kept is a copy */
	v = rt_field_value(&record, f, &row, own);
	if (readings[_i].wrong) {
		ck_assert_int_eq(rc, RT_E_INPUT);
		ck_assert_str_eq(err.text, readings[_i].wrong);
		ck_assert_int_eq(memcmp(&row, &blank, sizeof row), 0); /* as it was */
	} else {
		ck_assert_int_eq(rc, RT_OK);
		ck_assert(!v.null);
		ck_assert_str_eq(rt_value_text(f, &v, words, sizeof words), readings[_i].said);
	}
	rt_arena_free(text);
}
END_TEST

START_TEST(names_have_a_length)
{
	char longest[RT_NAME_MOST + 2];
	struct rt_error err;
	struct row row = blank;

	memset(longest, 'a', sizeof longest - 1);
	longest[sizeof longest - 1] = '\0';
	ck_assert_int_eq(rt_field_read(&fields[NAME], &row, longest, NULL, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "is too long: at most 200 characters"));
	longest[RT_NAME_MOST] = '\0';
	ck_assert_int_eq(rt_field_read(&fields[NAME], &row, longest, NULL, NULL), RT_OK);
	ck_assert_ptr_eq(row.name, longest); /* without an arena, the text itself */
}
END_TEST

/* ---- values ---- */

/* What is not given is nothing, but for the usual and what must be there. */
START_TEST(a_blank_row_says_nothing)
{
	static const size_t given[] = {WHOLE, SIZE, TRUTH, WORD};
	char own[RT_OWN_SIZE];
	struct row row;

	rt_record_start(&record, &row);
	for (size_t i = 0; i < record.fields; i++) {
		bool there = false;

		for (size_t k = 0; k < sizeof given / sizeof *given; k++)
			there |= given[k] == i;
		ck_assert_msg(rt_field_value(&record, &fields[i], &row, own).null == !there, "%s",
			      fields[i].name);
	}
	row.word = 9;
	ck_assert(rt_field_value(&record, &fields[WORD], &row, own).null);
}
END_TEST

static struct rt_value text_value(const char *s)
{
	return (struct rt_value){.as.text = s};
}

/* A show file is not trusted. */
START_TEST(values_are_set_within_limits)
{
	const struct {
		size_t field;
		struct rt_value value;
		bool good;
	} sets[] = {
		{TEXT, text_value(""), false}, /* nothing is null in a show file */
		{NAME, text_value("Bo"), true},
		{NAME, text_value("B\to"), false},
		{NAME, {.null = true}, false},
		{LETTERS, {.null = true}, true},
		{WORD, {.null = true}, true},
		{WORD, text_value("withdrawn"), true},
		{WORD, text_value("gone"), false},
		{WORD, text_value(""), false},
		{OWN, text_value("K"), true},
		{OWN, text_value(""), false},
		{WHOLE, {.as.whole = 99999}, true},
		{WHOLE, {.as.whole = 100000}, false},
		{SMALL, {.as.whole = 0}, false},
		{SMALL, {.as.whole = INT64_MAX}, false},
		{SIZE, {.as.whole = -1}, false},
		{DECIMAL, {.as.whole = 1000}, true},
		{DECIMAL, {.as.whole = 1001}, false},
		{REAL, {.as.real = 80}, true},
		{REAL, {.as.real = 81}, false},
		{REAL, {.as.real = NAN}, false},
		{HEIGHT, {.as.real = INFINITY}, false},
		{TRUTH, {.as.truth = true}, true},
	};
	struct rt_arena *text = NULL;
	char own[RT_OWN_SIZE];
	bool nomem = false;

	for (size_t i = 0; i < sizeof sets / sizeof *sets; i++) {
		const struct rt_field *f = &fields[sets[i].field];
		struct row row;

		rt_record_start(&record, &row);
		ck_assert_msg(rt_field_set(f, &row, &sets[i].value, &text, &nomem) == sets[i].good,
			      "%s, case %zu", f->name, i);
		if (sets[i].good && !sets[i].value.null && sets[i].field == DECIMAL)
			ck_assert_int_eq(rt_field_value(&record, f, &row, own).as.whole, 1000);
		rt_field_clear(&record, f, &row);
		ck_assert(sets[i].field == OWN || memcmp(&row, &blank, sizeof row) == 0);
	}
	ck_assert(!nomem);
	rt_arena_free(text);
}
END_TEST

START_TEST(rows_are_compared_by_what_they_say)
{
	static const char *const typed[][2] = {
		[TEXT] = {"a", "b"},
		[NAME] = {"a", "A"},
		[NAMES] = {"a; b", "b; a"},
		[LETTERS] = {"C B", "B C"},
		[OWN] = {"A", "B"},
		[WHOLE] = {"1", "2"},
		[DECIMAL] = {"1.5", "1.51"},
		[SMALL] = {"1", "2"},
		[SIZE] = {"1", "2"},
		[REAL] = {"1.5", "1.25"},
		[HEIGHT] = {"132cm", "133cm"},
		[SIGMA] = {"1", "2"},
		[TRUTH] = {"yes", "no"},
		[WORD] = {"entered", "withdrawn"},
	};
	for (size_t i = 0; i < record.fields; i++) {
		const struct rt_field *f = &fields[i];
		struct row a, b, c;
		char copy[32];

		rt_record_start(&record, &a);
		rt_record_start(&record, &b);
		rt_record_start(&record, &c);
		ck_assert(rt_field_same(&record, f, &a, &b)); /* nothing is nothing */
		snprintf(copy, sizeof copy, "%s", typed[i][0]);
		ck_assert_int_eq(rt_field_read(f, &a, typed[i][0], NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &b, typed[i][1], NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &c, copy, NULL, NULL), RT_OK);
		if (i == NAMES) { /* joined in an arena or not, they are the text they are */
			a.names = typed[i][0];
			b.names = typed[i][1];
			c.names = copy;
		}
		ck_assert_msg(!rt_field_same(&record, f, &a, &b), "%s", f->name);
		ck_assert_msg(rt_field_same(&record, f, &a, &c), "%s", f->name);
		rt_record_start(&record, &b);
		if (i != WORD && i != TRUTH)
			ck_assert_msg(!rt_field_same(&record, f, &a, &b), "%s", f->name);
	}
}
END_TEST

START_TEST(exact_numbers_have_the_digits_they_need)
{
	ck_assert_int_eq(rt_exact_short(72500, 3, 0).units, 725);
	ck_assert_int_eq(rt_exact_short(72500, 3, 0).digits, 1);
	ck_assert_int_eq(rt_exact_short(72500, 3, 2).digits, 2);
	ck_assert_int_eq(rt_exact_short(72501, 3, 0).digits, 3);
	ck_assert(rt_exact(1, 0).there);
}
END_TEST

/* ---- what is told of a field ---- */

START_TEST(fields_have_their_names)
{
	char head[64], columns[320];

	ck_assert_ptr_eq(rt_record_field(&record, "name"), &fields[NAME]);
	ck_assert_ptr_eq(rt_record_field(&record, "rider"), &fields[NAME]);
	ck_assert_ptr_eq(rt_record_field(&record, "driver"), &fields[NAME]);
	ck_assert_ptr_null(rt_record_field(&record, "rider,driver"));
	ck_assert_ptr_null(rt_record_field(&record, "ride"));
	ck_assert_ptr_null(rt_record_field(&record, ""));
	ck_assert_str_eq(rt_field_head(&fields[SMALL], head), "small number");
	rt_record_columns(&record, columns, sizeof columns);
	ck_assert_str_eq(columns,
			 "text, name or rider,driver, names, [letters], [own], [whole], "
			 "decimal, [small_number], size, real_m, height, [sigma_m], truth");
	ck_assert(!rt_field_in_file(&fields[WORD]) && rt_field_in_file(&fields[NAME]));
}
END_TEST

START_TEST(fields_say_what_they_accept)
{
	static const char *const accepted[] = {
		[TEXT] = "",
		[NAME] = "",
		[NAMES] = "",
		[LETTERS] = "",
		[OWN] = "A to Z",
		[WHOLE] = "a whole number from -3 to 99999",
		[DECIMAL] = "a number from 0 to 10 with at most 2 decimals",
		[SMALL] = "a whole number from 1 to 9",
		[SIZE] = "a whole number",
		[REAL] = "a number from -1.5 to 80 m",
		[HEIGHT] = RT_HEIGHT_ACCEPTED,
		[SIGMA] = "a number from 0.0001 to 10 m",
		[TRUTH] = "yes or no",
		[WORD] = "entered, withdrawn or did not start",
	};
	char out[320];

	for (size_t i = 0; i < record.fields; i++) {
		rt_field_accepts(&fields[i], out, sizeof out);
		ck_assert_str_eq(out, accepted[i]);
	}
}
END_TEST

START_TEST(names_are_listed_and_meant)
{
	static const char *const names[] = {"Oak ring", "Mill ring", "Åby ring"};
	const char *many[40];
	char out[RT_LISTED_SIZE];

	rt_list_names(names, 0, out);
	ck_assert_str_eq(out, "there is none");
	rt_list_names(names, 3, out);
	ck_assert_str_eq(out, "Oak ring, Mill ring, Åby ring");
	for (size_t i = 0; i < 40; i++)
		many[i] = names[0];
	rt_list_names(many, 40, out);
	ck_assert_str_eq(out + strlen(out) - 5, ", ...");
	ck_assert_str_eq(rt_meant("ABY RING", names, 3), "Åby ring");
	ck_assert_str_eq(rt_meant("Mil ring", names, 3), "Mill ring");
	ck_assert_ptr_null(rt_meant("Elm court", names, 3));
	ck_assert_str_eq(rt_word(&status_words, 2), "did not start");
	ck_assert_str_eq(rt_word(&status_words, 3), "");
	ck_assert_str_eq(rt_word(&status_words, -1), "");
}
END_TEST

int check_record(void)
{
	Suite *suite = suite_create("record");
	TCase *all = tcase_create("all");

	suite_add_tcase(suite, all);
	tcase_add_loop_test(all, fields_are_read, 0, (int)(sizeof readings / sizeof *readings));
	tcase_add_test(all, names_have_a_length);
	tcase_add_test(all, a_blank_row_says_nothing);
	tcase_add_test(all, values_are_set_within_limits);
	tcase_add_test(all, rows_are_compared_by_what_they_say);
	tcase_add_test(all, exact_numbers_have_the_digits_they_need);
	tcase_add_test(all, fields_have_their_names);
	tcase_add_test(all, fields_say_what_they_accept);
	tcase_add_test(all, names_are_listed_and_meant);
	return suite_run(suite);
}
