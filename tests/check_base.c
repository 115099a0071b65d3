/* Checks of base: errors, faults, lists, maps, numbers, units, names and the report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

#include <ringtrue/report.h>

#include "suite.h"

START_TEST(errors_have_words_and_places)
{
	struct rt_error err;
	struct rt_faults faults = {0};

	ck_assert_int_eq(rt_fail(&err, RT_E_INPUT, "%s: %d", "wrong", 7), RT_E_INPUT);
	ck_assert_str_eq(err.text, "wrong: 7");
	ck_assert_str_eq(rt_err_words(RT_E_BUSY), "busy");
	ck_assert_int_eq(rt_fail(NULL, RT_E_IO, "x"), RT_E_IO);
	ck_assert_int_eq(rt_faults_result(&faults, &err), RT_OK);
	for (int i = 0; i < 60; i++)
		rt_fault(&faults, "a.csv", i + 2, i ? NULL : "mark", "fault %d", i);
	ck_assert_uint_eq(faults.n, RT_FAULTS_KEPT);
	ck_assert_uint_eq(faults.total, 60);
	ck_assert_int_eq(rt_faults_result(&faults, &err), RT_E_INPUT);
	ck_assert_str_eq(err.file, "a.csv");
	ck_assert_int_eq(err.line, 2);
	ck_assert_str_eq(err.column, "mark");
	rt_faults_free(&faults);
	ck_assert_uint_eq(faults.total, 0);
}
END_TEST

START_TEST(arena_aligns_and_keeps)
{
	struct rt_arena *a = NULL;
	const char *first = rt_arena_string(&a, "Ämne");
	char *big = rt_arena_take(&a, 100000);

	for (int i = 0; i < 5000; i++) {
		double *d = rt_arena_take(&a, sizeof *d + (size_t)(i % 3));

		ck_assert_ptr_nonnull(d);
		ck_assert_uint_eq((uintptr_t)d % _Alignof(max_align_t), 0);
		ck_assert_double_eq(*d, 0.0);
	}
	ck_assert_int_eq(big[99999], 0);
	ck_assert_str_eq(first, "Ämne");
	ck_assert_ptr_null(rt_arena_string(&a, NULL));
	ck_assert_ptr_null(rt_arena_take(&a, SIZE_MAX - 3));
	rt_arena_free(a);
	rt_arena_free(NULL);
}
END_TEST

/* Of every length, where one that took a byte less would be written over by the next. */
START_TEST(strings_lie_side_by_side)
{
	struct rt_arena *a = NULL;
	const char *kept[64];
	char text[64];

	memset(text, 'x', sizeof text);
	for (size_t n = 0; n < 64; n++)
		kept[n] = rt_arena_copy(&a, text, n);
	for (size_t n = 0; n < 64; n++)
		ck_assert_uint_eq(strlen(kept[n]), n);
	rt_arena_free(a);
}
END_TEST

START_TEST(words_are_typed_in_any_case)
{
	static const char *const word[] = {"started", "did not start", "did"};
	static const char *const also[][2] = {{"scratched", "did"}};
	const struct rt_words words = {"status", word, 3, also, 1};
	static const struct {
		const char *typed;
		int code; /* -1: none */
	} row[] = {{"started", 0}, {"did not start", 1}, {"did-not-start", 1},
		   {"DID", 2},	   {"scratched", 2},	 {"did_not_start", 1},
		   {"start", -1},  {"startedd", -1},	 {"did not sta", -1},
		   {"", -1}};

	for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
		int code = -1;

		ck_assert(rt_word_read(&words, row[i].typed, &code) == (row[i].code >= 0));
		ck_assert_int_eq(code, row[i].code);
	}
}
END_TEST

START_TEST(lists_grow_zeroed)
{
	struct rt_strings list = {0};

	for (size_t i = 0; i < 100; i++) {
		const char **at = RT_LIST_ADD(&list);

		ck_assert_ptr_nonnull(at);
		ck_assert_ptr_null(*at);
		*at = rt_arena_string(&list.text, "x");
		ck_assert_uint_eq(list.n, i + 1);
	}
	RT_LIST_FREE(&list);
	ck_assert_ptr_null(list.at);
	ck_assert_uint_eq(list.n, 0);
}
END_TEST

START_TEST(maps_keep_the_first)
{
	struct rt_map *m = NULL;
	bool nomem = false;
	char key[16];

	ck_assert_uint_eq(rt_map_get(m, "A"), RT_MAP_NONE);
	for (size_t i = 0; i < 1000; i++) {
		snprintf(key, sizeof key, "key %zu", i);
		ck_assert_uint_eq(rt_map_put(&m, key, i, &nomem), RT_MAP_NONE);
	}
	ck_assert_uint_eq(rt_map_put(&m, "key 7", 9, &nomem), 7);
	ck_assert_uint_eq(rt_map_get(m, "key 7"), 7);
	ck_assert_uint_eq(rt_map_get(m, "key 999"), 999);
	ck_assert_uint_eq(rt_map_get(m, "key 1000"), RT_MAP_NONE);
	ck_assert(!nomem);
	rt_map_free(m);
}
END_TEST

START_TEST(reals_are_read_whole_or_not)
{
	static const struct {
		const char *text;
		double value;
	} good[] = {{"0", 0},
		    {"-0.5", -0.5},
		    {"40.", 40},
		    {".25", 0.25},
		    {"1e3", 1000},
		    {"89.443", 89.443},
		    {"+7", 7},
		    {"1.5E-2", 0.015},
		    {"0.1", 0.1},
		    {"1414.24", 1414.24},
		    {"5e-324", 0},
		    {"0.30000000000000004", 0.3},
		    {"3.14159265358979323846264", 3.141592653589793}};
	static const char *const bad[] = {"",	  " 1",	   "1 ",  "1,5", "abc",
					  "0x10", "nan",   "inf", "1e",	 "1e999",
					  "--1",  "1.2.3", ".",	  "-",	 "99999999999999999999"};
	double v;

	for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
		ck_assert_msg(rt_parse_real(good[i].text, &v), "%s", good[i].text);
		ck_assert_msg(fabs(v - good[i].value) <= 1e-15 * fabs(v) + 1e-300, "%s",
			      good[i].text);
	}
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		ck_assert_msg(!rt_parse_real(bad[i], &v), "%s", bad[i]);
}
END_TEST

START_TEST(decimals_are_exact)
{
	int64_t v;

	ck_assert(rt_parse_decimal("6.5", 1, &v) && v == 65);
	ck_assert(rt_parse_decimal("6.50", 1, &v) && v == 65);
	ck_assert(rt_parse_decimal("7", 1, &v) && v == 70);
	ck_assert(rt_parse_decimal("-2.25", 2, &v) && v == -225);
	ck_assert(rt_parse_decimal("0.667", 6, &v) && v == 667000);
	ck_assert(!rt_parse_decimal("6.55", 1, &v));
	ck_assert(!rt_parse_decimal("6,5", 1, &v));
	ck_assert(!rt_parse_decimal("1e2", 1, &v));
	ck_assert(!rt_parse_decimal("9223372036854775807", 1, &v));
	ck_assert(rt_parse_int("42", &v) && v == 42);
	ck_assert(!rt_parse_int("42.0", &v));
	ck_assert(!rt_parse_int("", &v));
}
END_TEST

START_TEST(half_goes_up)
{
	static const int64_t row[][3] = {{5, 2, 3},
					 {-5, 2, -2},
					 {7, 3, 2},
					 {-7, 3, -2},
					 {-8, 3, -3},
					 {4, 2, 2},
					 {0, 9, 0},
					 {1, 2, 1},
					 {-1, 2, 0},
					 {41605, 10, 4161},
					 {INT64_MAX, 2, INT64_MAX / 2 + 1}};

	for (size_t i = 0; i < sizeof row / sizeof *row; i++)
		ck_assert_int_eq(rt_round_half_up(row[i][0], row[i][1]), row[i][2]);
}
END_TEST

START_TEST(heights_in_three_units)
{
	static const struct {
		const char *text;
		double cm;
	} good[] = {{"132cm", 132},	{"1.32m", 132},	    {"132", 132},	{"13hh", 132.08},
		    {"13.2hh", 137.16}, {"14.0hh", 142.24}, {"12.3hh", 129.54}, {"76 cm", 76},
		    {"40", 40},		{"2.2m", 220}};
	static const char *const bad[] = {"",
					  "39.9",
					  "220.1",
					  "13.4hh",
					  "13.12hh",
					  "tall",
					  "-132cm",
					  "10cm",
					  "2.5m",
					  "hh",
					  "132 inches",
					  "4611686018427387917hh",
					  "9223372036854775807hh"};
	double cm;

	for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
		ck_assert_msg(rt_parse_height(good[i].text, &cm), "%s", good[i].text);
		ck_assert_double_eq_tol(cm, good[i].cm, 1e-9);
	}
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		ck_assert_msg(!rt_parse_height(bad[i], &cm), "%s", bad[i]);
}
END_TEST

START_TEST(numbers_are_written_plainly)
{
	char out[64];

	rt_format_feet(40.0, out, sizeof out);
	ck_assert_str_eq(out, "131 ft 3 in");
	rt_format_feet(-0.5, out, sizeof out);
	ck_assert_str_eq(out, "-1 ft 7.7 in");
	rt_format_feet(0.087, out, sizeof out);
	ck_assert_str_eq(out, "0 ft 3.4 in");
	rt_format_feet(3.046, out, sizeof out);
	ck_assert_str_eq(out, "9 ft 11.9 in");
	rt_format_feet(3.0475, out, sizeof out);
	ck_assert_str_eq(out, "10 ft 0 in");
	rt_format_feet(-0.001, out, sizeof out);
	ck_assert_str_eq(out, "0 ft 0.0 in");
	ck_assert_str_eq(rt_show_length(1.5, 0, 2, false).text, "1.5 m");
	ck_assert_str_eq(rt_show_length(5.35, 0, 2, false).text, "5.35 m");
	ck_assert_str_eq(rt_show_length(9.9995, 0, 2, false).text, "10 m");
	ck_assert_str_eq(rt_show_length(2.0, 1, 2, false).text, "2.0 m");
	ck_assert_str_eq(rt_show_length(40.0, 0, 2, true).text, "131 ft 3 in");
	rt_format_real(-0.001, 2, out, sizeof out);
	ck_assert_str_eq(out, "0.00");
	rt_format_real(89.4427191, 3, out, sizeof out);
	ck_assert_str_eq(out, "89.443");
	rt_format_decimal(4160, 2, out, sizeof out);
	ck_assert_str_eq(out, "41.60");
	rt_format_decimal(-5, 2, out, sizeof out);
	ck_assert_str_eq(out, "-0.05");
	rt_format_decimal(70, 0, out, sizeof out);
	ck_assert_str_eq(out, "70");
	rt_format_decimal(INT64_MIN, 18, out, sizeof out);
	ck_assert_str_eq(out, "-9.223372036854775808");
}
END_TEST

START_TEST(days_exist)
{
	static const char *const good[] = {"2024-02-29", "2000-02-29", "2026-01-31", "0001-01-01",
					   "9999-12-31"};
	static const char *const bad[] = {"2023-02-29",	 "1900-02-29",
					  "2100-02-29",	 "2024-02-30",
					  "2026-04-31",	 "2026-00-10",
					  "2023-13-01",	 "2026-05-00",
					  "0000-01-01",	 "2023-1-01",
					  "2023-01-1",	 "2023/01/01",
					  "2023-01-01 ", ""};
	static const struct {
		const char *day;
		int64_t days;
		const char *after;
	} row[] = {{"2024-02-28", 2, "2024-03-01"},	{"2026-12-30", 33, "2027-02-01"},
		   {"2026-05-09", 0, "2026-05-09"},	{"2026-05-09", 1, "2026-05-10"},
		   {"2100-02-28", 1, "2100-03-01"},	{"2000-02-28", 1, "2000-02-29"},
		   {"1900-01-01", 365, "1901-01-01"},	{"2000-01-01", 366, "2001-01-01"},
		   {"1999-12-31", 36525, "2099-12-31"}, {"May", 1, ""}};
	static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	char after[RT_DAY_SIZE];

	for (size_t i = 0; i < sizeof good / sizeof *good; i++)
		ck_assert_msg(rt_parse_day(good[i]), "%s", good[i]);
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		ck_assert_msg(!rt_parse_day(bad[i]), "%s", bad[i]);
	for (int month = 1; month <= 12; month++)
		for (int day = 28; day <= 32; day++) {
			snprintf(after, sizeof after, "2026-%02d-%02d", month, day);
			ck_assert_msg(rt_parse_day(after) == (day <= lengths[month - 1]), "%s",
				      after);
		}
	for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
		rt_day_after(row[i].day, row[i].days, after);
		ck_assert_str_eq(after, row[i].after);
	}
}
END_TEST

START_TEST(days_have_numbers_and_names)
{
	/* ISO 8601 tells that 1 January 2000 was a Saturday */
	ck_assert_str_eq(rt_weekday("2000-01-01"), "Saturday");
	ck_assert_str_eq(rt_weekday("2000-03-01 08:30"), "Wednesday");
	ck_assert_str_eq(rt_weekday("1900-03-01"), "Thursday");
	ck_assert_str_eq(rt_weekday("9.5.2026"), "");
	ck_assert_int_eq(rt_day_number("2026-03-01") - rt_day_number("2026-02-28"), 1);
	ck_assert_int_eq(rt_day_number("2028-03-01") - rt_day_number("2028-02-28"), 2);
	ck_assert_int_eq(rt_day_number("2026-13-01"), 0);
}
END_TEST

START_TEST(times_of_day_are_read)
{
	ck_assert(rt_parse_when("2026-05-09"));
	ck_assert(rt_parse_when("2026-05-09 08:30"));
	ck_assert(rt_parse_when("2026-05-09T08:30:59"));
	ck_assert(rt_parse_when("2026-05-09 00:00:00"));
	ck_assert(rt_parse_when("2026-05-09 23:59:59"));
	ck_assert(!rt_parse_when("2026-05-09 24:30"));
	ck_assert(!rt_parse_when("2026-05-09 08:60"));
	ck_assert(!rt_parse_when("2026-05-09 08:30:60"));
	ck_assert(!rt_parse_when("2026-05-09 08-30"));
	ck_assert(!rt_parse_when("2026-05-09 08:30:6"));
	ck_assert(!rt_parse_when("2026-05-09 0x:30"));
	ck_assert(!rt_parse_when("2026-05-09 08:3x"));
	ck_assert(!rt_parse_when("2026-05-09 08:30:5x"));
	ck_assert(!rt_parse_when("soon"));
}
END_TEST

/* A name folds run by run as it does in one go: letters of many scripts, marks, and those that
 * become many, in random order; the one go is by the library, then our letters and spaces. */
START_TEST(names_fold_as_a_whole)
{
	static const char *const piece[] = {
		"a", "Z", " ",	"é",  "E\xcc\x81", "\xcc\x81", "ς", "Σ", "İ", "ﬃ", "½",
		"ß", "ﷺ", "한", "が", "\xc2\xad",  "Å",	       "9", "-", "Я", "ά", "\xcd\x85"};
	const utf8proc_option_t options = UTF8PROC_NULLTERM | UTF8PROC_STABLE | UTF8PROC_COMPAT |
					  UTF8PROC_DECOMPOSE | UTF8PROC_CASEFOLD |
					  UTF8PROC_STRIPMARK | UTF8PROC_IGNORE;
	uint32_t seed = 2026;

	for (int round = 0; round < 2000; round++) {
		char name[200] = "";
		utf8proc_uint8_t *whole = NULL;
		char *folded, *again;

		for (int i = 0; i < 12; i++) {
			seed = seed * 1664525 + 1013904223;
			strcat(name, piece[(seed >> 16) % (sizeof piece / sizeof *piece)]);
		}
		ck_assert_int_ge(utf8proc_map((const utf8proc_uint8_t *)name, 0, &whole, options),
				 0);
		folded = rt_fold(name);
		again = rt_fold((const char *)whole); /* folded already: spaces only */
		ck_assert_str_eq(folded, again);
		free(whole);
		free(folded);
		free(again);
	}
}
END_TEST

START_TEST(names_fold_and_measure)
{
	char *folded = rt_fold("  Åsa   ÖSTERLÖV-Straße ");

	ck_assert_str_eq(folded, "asa osterlov-strasse");
	free(folded);
	folded = rt_fold("\xff\xfe A");
	ck_assert_str_eq(folded, "\xff\xfe a");
	free(folded);
	folded = rt_fold("Åsa\xc3 Ash");
	ck_assert_str_eq(folded, "asa\xc3 ash");
	free(folded);
	folded = rt_fold("Łucja KJÆRSGÅRD, Ðórr Þ\tŒuf đħŧı");
	ck_assert_str_eq(folded, "lucja kjaersgard, dorr th oeuf dhti");
	free(folded);
	ck_assert(rt_is_utf8("Åsa", 4));
	ck_assert(!rt_is_utf8("\xc5", 1));
	ck_assert(!rt_is_utf8("\xed\xa0\x80", 3)); /* a surrogate */
	ck_assert_uint_eq(rt_width("Åsa"), 3);
	ck_assert_uint_eq(rt_width("A\xcc\x8a"), 1); /* combining ring */
	ck_assert_uint_eq(rt_width("馬"), 2);
	ck_assert_uint_eq(rt_width("a\nb"), 2); /* a line end takes no cell */
	ck_assert_uint_eq(rt_width("a\xff z"), 4);
}
END_TEST

START_TEST(lists_hold_whole_names)
{
	ck_assert(rt_names_hold("Fen; Åsa Moss", "asa moss"));
	ck_assert(rt_names_hold("Fen; Åsa Moss", "FEN"));
	ck_assert(!rt_names_hold("Fen; Åsa Moss", "Asa"));
	ck_assert(!rt_names_hold("Fen; Åsa Moss", "Fez"));
	ck_assert(!rt_names_hold("", "Fen"));
}
END_TEST

/* The bytes as they begin and, of an archive, what its directory lists. */
#define BYTES(text) text, sizeof text - 1
static const struct {
	const char *first;
	size_t n;
	const char *directory;
	enum rt_file_kind kind;
} files[] = {
	{BYTES(""), "", RT_FILE_EMPTY},
	{BYTES("a"), "", RT_FILE_TEXT},
	{BYTES("%PDF-1.7"), "", RT_FILE_PDF},
	{BYTES("<svg>"), "", RT_FILE_SVG},
	{BYTES("\xEF\xBB\xBF<svg>"), "", RT_FILE_SVG},
	{BYTES("<?xml?><svg>"), "", RT_FILE_SVG},
	{BYTES("<?xml?><html>"), "", RT_FILE_TEXT},
	{BYTES("SQLite format 3"), "", RT_FILE_DATABASE},
	{BYTES("rider;<svg>"), "", RT_FILE_TEXT},
	{"Åsa", 1, "", RT_FILE_OTHER}, /* half a letter alone */
	{BYTES("PK\3\4 26 bytes of the header...xl/"), "xl/workbook.xml", RT_FILE_WORKBOOK},
	{BYTES("PK\3\4 26 bytes of the header...xl/"), "xl/styles.xml", RT_FILE_ARCHIVE},
	{BYTES("PK\3\4 26 bytes of the header...xm/"), "xl/workbook.xml", RT_FILE_ARCHIVE},
	/* cut within the name */
	{"PK\3\4 26 bytes of the header...xl/", 32, "xl/workbook.xml", RT_FILE_ARCHIVE},
};

START_TEST(files_are_told_by_their_bytes)
{
	ck_assert_str_eq(rt_file_kind_words(rt_file_kind(files[_i].first, files[_i].n,
							 files[_i].directory,
							 strlen(files[_i].directory))),
			 rt_file_kind_words(files[_i].kind));
}
END_TEST

static const struct {
	const char *bytes;
	size_t n;
	enum rt_plain plain;
} plain[] = {
	{"Åsa\tÖberg\n", 12, RT_PLAIN},
	{"", 0, RT_PLAIN},
	{" ~", 2, RT_PLAIN},
	{"\x1f", 1, RT_PLAIN_CONTROL},
	{"a\0b", 3, RT_PLAIN_NUL},
	{"a\x1b[2J", 5, RT_PLAIN_CONTROL},
	{"a\x7f", 2, RT_PLAIN_CONTROL},
	{"\xc2\x9b", 2, RT_PLAIN_CONTROL},
	{"\r", 1, RT_PLAIN_CONTROL},
	{"a\xEF\xBF\xBE", 4, RT_PLAIN_CONTROL}, /* U+FFFE */
	{"\xEF\xBF\xBF", 3, RT_PLAIN_CONTROL},
	{"\xEF\xBF\xBD", 3, RT_PLAIN},
	{"\xEF\xB7\x8F", 3, RT_PLAIN}, /* U+FDCF */
	{"\xEF\xB7\x90", 3, RT_PLAIN_CONTROL},
	{"\xEF\xB7\xAF", 3, RT_PLAIN_CONTROL},
	{"\xEF\xB7\xB0", 3, RT_PLAIN},
	{"\xF0\x9F\xBF\xBD", 4, RT_PLAIN}, /* U+1FFFD */
	{"\xF0\x9F\xBF\xBE", 4, RT_PLAIN_CONTROL},
	{"\xF4\x8F\xBF\xBF", 4, RT_PLAIN_CONTROL}, /* U+10FFFF */
	{"\xc2\xa0", 2, RT_PLAIN},
	{"sch\xf6n", 5, RT_PLAIN_NOT_UTF8},
	{"\xe9\xa6\xac", 2, RT_PLAIN_NOT_UTF8},
};

START_TEST(plain_text_is_told)
{
	ck_assert_int_eq(rt_plain_text(plain[_i].bytes, plain[_i].n), plain[_i].plain);
	ck_assert_uint_eq(rt_characters("Åsa 馬"), 5);
	ck_assert_uint_eq(rt_characters(""), 0);
}
END_TEST

START_TEST(what_commands_a_terminal_is_shown_in_digits)
{
	ck_assert_str_eq(rt_show("Åsa\x1b[2J\x7f\n").text, "\"Åsa\\x1B[2J\\x7F\\n\"");
	ck_assert_str_eq(rt_show("sch\xf6n").text, "\"sch\\xF6n\"");
}
END_TEST

START_TEST(the_nearest_word_is_meant)
{
	static const char *const words[] = {"results", "ring", "turns", "show", "A"};
	const size_t n = sizeof words / sizeof *words;

	ck_assert_str_eq(rt_nearest("resluts", words, n), "results");
	ck_assert_str_eq(rt_nearest("turn", words, n), "turns");
	ck_assert_str_eq(rt_nearest("irng", words, n), "ring"); /* two letters swapped: one slip */
	ck_assert_str_eq(rt_nearest("rnig", words, n), "ring");
	ck_assert_str_eq(rt_nearest("rign", words, n), "ring");
	ck_assert_ptr_null(rt_nearest("workbook", words, n));
	ck_assert_ptr_null(rt_nearest("Q", words, n));
	ck_assert_ptr_null(rt_nearest("", words, 0));
}
END_TEST

struct peg {
	const char *name;
	double off_m;
	struct rt_exact score;
};

static const struct rt_field columns[] = {
	{"name", RT_AT(struct peg, name)},
	{"off_m", .head = "off", RT_AT(struct peg, off_m), RT_METRES(2)},
	{"score", RT_AT(struct peg, score), .type = RT_EXACT, .unit = RT_PERCENT, .wide = true},
};

static const struct rt_record pegs = RT_TABLE("pegs", "Pegs", columns, struct peg);

START_TEST(reports_hold_tables_and_notes)
{
	struct rt_report r = {0};
	struct rt_table *t = rt_report_rows(&r, &pegs);

	rt_put_row(t, &(struct peg){rt_report_textf(&r, "%c%d", 'K', 1), NAN, rt_exact(4160, 2)});
	rt_put_row(t, &(struct peg){.off_m = 0.5});
	rt_report_note(&r, "%d pegs", 2);
	rt_report_note(&r, "2 pegs");
	ck_assert_uint_eq(r.notes, 1);
	ck_assert_uint_eq(rt_table_rows(t), 2);
	ck_assert_str_eq(rt_table_cell(t, 0, 0)->as.text, "K1");
	ck_assert(rt_table_cell(t, 0, 1)->null);
	ck_assert_int_eq(rt_table_cell(t, 0, 2)->digits, 2);
	ck_assert(rt_table_cell(t, 1, 0)->null && rt_table_cell(t, 1, 2)->null);
	ck_assert_double_eq(rt_table_cell(t, 1, 1)->as.real, 0.5);
	ck_assert_str_eq(r.note[0], "2 pegs");
	ck_assert_int_eq(rt_report_result(&r, NULL), RT_OK);
	rt_report_free(&r);
	ck_assert_uint_eq(r.tables, 0);
}
END_TEST

int check_base(void)
{
	Suite *suite = suite_create("base");
	TCase *all = tcase_create("all");

	suite_add_tcase(suite, all);
	tcase_add_test(all, errors_have_words_and_places);
	tcase_add_test(all, arena_aligns_and_keeps);
	tcase_add_test(all, strings_lie_side_by_side);
	tcase_add_test(all, words_are_typed_in_any_case);
	tcase_add_test(all, lists_grow_zeroed);
	tcase_add_test(all, maps_keep_the_first);
	tcase_add_test(all, reals_are_read_whole_or_not);
	tcase_add_test(all, decimals_are_exact);
	tcase_add_test(all, half_goes_up);
	tcase_add_test(all, heights_in_three_units);
	tcase_add_test(all, numbers_are_written_plainly);
	tcase_add_test(all, days_exist);
	tcase_add_test(all, days_have_numbers_and_names);
	tcase_add_test(all, times_of_day_are_read);
	tcase_add_test(all, names_fold_as_a_whole);
	tcase_add_test(all, names_fold_and_measure);
	tcase_add_test(all, lists_hold_whole_names);
	tcase_add_loop_test(all, files_are_told_by_their_bytes, 0,
			    (int)(sizeof files / sizeof *files));
	tcase_add_test(all, what_commands_a_terminal_is_shown_in_digits);
	tcase_add_loop_test(all, plain_text_is_told, 0, (int)(sizeof plain / sizeof *plain));
	tcase_add_test(all, the_nearest_word_is_meant);
	tcase_add_test(all, reports_hold_tables_and_notes);
	return suite_run(suite);
}
