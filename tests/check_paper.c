/* Checks of paper: a report as text, CSV and JSON; files that take their name when whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <fcntl.h>
#include <float.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <ringtrue/paper.h>

#include "paper_locale.h"
#include "suite.h"

/* ---- a report, and what becomes of it ---- */

/* A row of any of the tables here. */
struct row {
	const char *a, *b, *c;
	int64_t whole;
	double real, other;
	struct rt_exact exact, none;
	bool truth;
};

#define AT(member) RT_AT(struct row, member)

static const struct rt_field peg_columns[] = {
	{"peg", .head = "Peg", AT(a)},
	{"off_m", .head = "Off", AT(real), RT_METRES(2)},
	{"count", .head = "Readings", AT(whole), .type = RT_INT},
	{"score", .head = "Score", AT(exact), .type = RT_EXACT, .unit = RT_PERCENT},
	{"percent", .head = "Percent", AT(none), .type = RT_EXACT, .unit = RT_PERCENT},
	{"good", .head = "Good", AT(truth), .type = RT_BOOL},
	{"inner", .head = "Inner", AT(other), RT_DEGREES(1), .wide = true},
};

static const struct rt_record pegs = RT_TABLE("pegs", "Pegs of the Åby ring", peg_columns,
					      struct row);

static void make_pegs(struct rt_report *r)
{
	const struct row rows[] = {
		{.a = "Å", .real = 0.528, .whole = 4, .exact = rt_exact(4160, 2), .other = 0.1},
		{.a = "馬場", .real = 1.0 / 3, .whole = 4, .exact = rt_exact(-5, 2), .other = 0.1},
	};

	rt_report_list(r, &pegs, rows, 2);
	rt_report_note(r, "%s", RT_CAUTION);
	rt_report_note(r, "Move Å.");
}

enum kind { TEXT, FEET, CSV, JSON };

/* The report in a string of the caller's. */
static char *paper(const struct rt_report *r, enum kind kind, unsigned columns)
{
	char *s = NULL;
	size_t n = 0;
	FILE *out = open_memstream(&s, &n);
	enum rt_err rc;

	ck_assert_ptr_nonnull(out);
	if (kind == CSV)
		rc = rt_paper_csv(out, r, NULL, false, NULL);
	else if (kind == JSON)
		rc = rt_paper_json(out, r, NULL);
	else
		rc = rt_paper_text(out, r, columns, kind == FEET, NULL);
	fclose(out);
	ck_assert_int_eq(rc, RT_OK);
	return s;
}

static void expect(const struct rt_report *r, enum kind kind, const char *expected)
{
	char *s = paper(r, kind, 0);

	ck_assert_str_eq(s, expected);
	free(s);
}

#define PEGS_TEXT                                                                                  \
	"Pegs of the Åby ring\n"                                                                  \
	"Peg   Off (m)  Readings  Score (%)  Percent  Good\n"                                      \
	"----  -------  --------  ---------  -------  ----\n"                                      \
	"Å        0.53         4      41.60           no\n"                                       \
	"馬場     0.33         4      -0.05           no\n"                                      \
	"\n"                                                                                       \
	"An estimate for planning. Footing, slope, harness and the animal decide; local\n"         \
	"  rules and the officials on the ground come first.\n"                                    \
	"Move Å.\n"

#define PEGS_CSV                                                                                   \
	"peg,off_m,count,score,percent,good,inner\n"                                               \
	"Å,0.528,4,41.60,,no,0.1\n"                                                               \
	"馬場,0.3333333333333333,4,-0.05,,no,0.1\n"

#define PEGS_JSON                                                                                  \
	"{\n\"format\": \"ringtrue/1\",\n"                                                         \
	"\"pegs\": [\n"                                                                            \
	"{\"peg\": \"Å\", \"off_m\": 0.528, \"count\": 4, \"score\": 41.60, "                     \
	"\"percent\": null, \"good\": false, \"inner\": 0.1},\n"                                   \
	"{\"peg\": \"馬場\", \"off_m\": 0.3333333333333333, \"count\": 4, \"score\": -0.05, "    \
	"\"percent\": null, \"good\": false, \"inner\": 0.1}\n"                                    \
	"],\n"                                                                                     \
	"\"notes\": [\n"                                                                           \
	"\"An estimate for planning. Footing, slope, harness and the animal decide; local "        \
	"rules and the officials on the ground come first.\",\n"                                   \
	"\"Move Å.\"\n"                                                                           \
	"]\n"                                                                                      \
	"}\n"

static void expect_pegs(const struct rt_report *r)
{
	expect(r, TEXT, PEGS_TEXT);
	expect(r, CSV, PEGS_CSV);
	expect(r, JSON, PEGS_JSON);
}

/* The same in C, where libsmartcols by itself would write accents as codes, and where numbers
 * have a comma and a dot between thousands. */
START_TEST(every_paper_in_every_locale)
{
	static const char *const locales[] = {"C", "C.UTF-8", "de_DE.UTF-8"};
	struct rt_report r = {0};

	make_pegs(&r);
	for (size_t i = 0; i < sizeof locales / sizeof *locales; i++) {
		paper_locale(locales[i]);
		expect_pegs(&r);
	}
	paper_locale("C");
	rt_report_free(&r);
}
END_TEST

START_TEST(feet_only_where_there_were_metres)
{
	static const struct rt_field columns[] = {
		{"length_m", .head = "Length", AT(real), RT_METRES(3)},
		{"time_s", .head = "Time", AT(other), RT_SECONDS(1)},
	};
	static const struct rt_record legs = RT_TABLE("legs", NULL, columns, struct row);
	const struct row rows[] = {{.real = 40, .other = 11.08}, {.real = 0.53, .other = NAN}};
	struct rt_report r = {0};

	rt_report_list(&r, &legs, rows, 2);
	expect(&r, FEET,
	       "Length (ft)  Time (s)\n"
	       "-----------  --------\n"
	       "131 ft 3 in      11.1\n"
	       "1 ft 8.9 in\n");
	expect(&r, TEXT,
	       "Length (m)  Time (s)\n"
	       "----------  --------\n"
	       "    40.000      11.1\n"
	       "     0.530\n");
	rt_report_free(&r);
}
END_TEST

START_TEST(an_empty_table_says_none)
{
	static const struct rt_record problems = RT_TABLE("problems", "Problems", peg_columns,
							  struct row);
	struct rt_report r = {0};

	rt_report_rows(&r, &problems);
	rt_report_note(&r, "All fits.");
	expect(&r, TEXT, "Problems\n(none)\n\nAll fits.\n");
	expect(&r, JSON,
	       "{\n\"format\": \"ringtrue/1\",\n\"problems\": [\n],\n\"notes\": [\n\"All fits.\"\n]\n}\n");
	expect(&r, CSV, "peg,off_m,count,score,percent,good,inner\n");
	rt_report_free(&r);
}
END_TEST

/* ---- text that has to be broken ---- */

static const struct rt_field entry_columns[] = {
	{"place", .head = "Place", AT(whole), .type = RT_INT},
	{"driver", .head = "Driver or rider", AT(a)},
	{"horses", .head = "Horses", AT(b)},
	{"score", .head = "Score to be ranked", AT(exact), .type = RT_EXACT},
};

static const struct rt_record entries = RT_TABLE("results", "Results", entry_columns, struct row);

#define LONG_NAME "Maximiliane Ågot von Donaudampfschifffahrtsgesellschaft-Überwald"

static void make_entries(struct rt_report *r)
{
	const struct row rows[] = {
		{.whole = 1,
		 .a = LONG_NAME,
		 .b = "Blesk; Ráj; Sněhurka; Великан; 白い馬",
		 .exact = rt_exact(123456789, 2)},
		{.whole = 1000000, .a = "Bo\tB.\r\n\x1b[31mred", .b = "", .exact = rt_exact(5, 2)},
	};

	rt_report_list(r, &entries, rows, 2);
}

/* No line is too wide, ends in a space, or carries a control character. */
static void check_lines(const char *s, size_t columns)
{
	while (*s) {
		size_t n = strcspn(s, "\n");
		char *line = strndup(s, n);

		ck_assert_uint_le(rt_width(line), columns);
		ck_assert(n == 0 || line[n - 1] != ' ');
		ck_assert_ptr_null(strchr(line, '\x1b'));
		ck_assert_ptr_null(strchr(line, '\t'));
		ck_assert_ptr_null(strchr(line, '\r'));
		free(line);
		s += n + 1;
	}
}

START_TEST(lines_keep_within_the_width)
{
	static const unsigned widths[] = {120, 80, 60, 50};
	struct rt_report r = {0};

	make_entries(&r);
	for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
		char *s = paper(&r, TEXT, widths[i]);

		check_lines(s, widths[i]);
		ck_assert_ptr_nonnull(strstr(s, "1234567.89"));
		ck_assert_ptr_nonnull(strstr(s, "1000000"));
		ck_assert_ptr_nonnull(strstr(s, "Maximiliane"));
		ck_assert_ptr_nonnull(strstr(s, "Sněhurka"));
		free(s);
	}
	rt_report_free(&r);
}
END_TEST

/* A word is whole however narrow the paper is, and goes beyond where it must. */
START_TEST(no_word_is_broken)
{
	static const char *const words[] = {
		"Maximiliane", "Ågot",	   "Donaudampfschifffahrtsgesellschaft-Überwald",
		"Sněhurka;",   "Великан;", "1234567.89",
		"1000000",     "ranked",
	};
	struct rt_report r = {0};

	make_entries(&r);
	for (unsigned width = 1; width < 120; width++) {
		char *s = paper(&r, TEXT, width);

		for (size_t i = 0; i < sizeof words / sizeof *words; i++)
			ck_assert_msg(strstr(s, words[i]) != NULL, "%s at %u", words[i], width);
		free(s);
	}
	rt_report_free(&r);
}
END_TEST

/* The last columns stand on further lines, a line of empty cells nowhere. */
START_TEST(columns_without_room_fall_to_a_further_line)
{
	static const struct rt_field columns[] = {
		{"start", .head = "Start", AT(a)},
		{"no", .head = "No.", AT(whole), .type = RT_INT},
		{"driver", .head = "Driver", AT(b)},
		{"horse", .head = "Horse", AT(c)},
		{"score", .head = "Score", AT(exact), .type = RT_EXACT},
	};
	static const struct rt_record starts = RT_TABLE("t", NULL, columns, struct row);
	const struct row rows[] = {
		{"09:05:30", "Bo Birch", "Seren Wen", .whole = 7, .exact = rt_exact(7250, 2)},
		{"09:14", "Ann", .whole = 12},
	};
	struct rt_report r = {0};
	char *s;

	rt_report_list(&r, &starts, rows, 2);
	s = paper(&r, TEXT, 22);
	ck_assert_str_eq(s, "Start    No. Driver\n"
			    "    Horse      Score\n"
			    "-------- --- --------\n"
			    "    ---------  -----\n"
			    "09:05:30   7 Bo Birch\n"
			    "    Seren Wen  72.50\n"
			    "09:14     12 Ann\n");
	free(s);
	rt_report_free(&r);
}
END_TEST

START_TEST(heads_give_way_first)
{
	static const struct rt_field columns[] = {
		{"turn", .head = "Turn", AT(a)},
		{"straight_m", .head = "Straight", AT(real), RT_METRES(1)},
	};
	static const struct rt_record turns = RT_TABLE("t", NULL, columns, struct row);
	struct rt_report r = {0};
	char *s;

	rt_put_row(rt_report_rows(&r, &turns), &(struct row){"off the centreline", .real = 20});
	s = paper(&r, TEXT, 28);
	ck_assert_str_eq(s, "                    Straight\n"
			    "Turn                     (m)\n"
			    "------------------  --------\n"
			    "off the centreline      20.0\n");
	free(s);
	rt_report_free(&r);
}
END_TEST

START_TEST(gaps_give_way_before_words_do)
{
	static const struct rt_field columns[] = {
		{"a", .head = "First", AT(a)},
		{"b", .head = "Second", AT(b)},
	};
	static const struct rt_record two = RT_TABLE("t", NULL, columns, struct row);
	struct rt_report r = {0};
	char *s;

	rt_put_row(rt_report_rows(&r, &two), &(struct row){"one two", "three four"});
	s = paper(&r, TEXT, 18);
	ck_assert_str_eq(s, "First   Second\n------- ----------\none two three four\n");
	free(s);
	s = paper(&r, TEXT, 17);
	ck_assert_str_eq(s, "First   Second\n------- ---------\none two three\n        four\n");
	free(s);
	rt_report_free(&r);
}
END_TEST

/* To break the one long cell costs a line, to break the other column three. */
START_TEST(words_give_way_where_few_lines_come_of_it)
{
	static const struct rt_field columns[] = {
		{"a", .head = "A", AT(a)},
		{"b", .head = "B", AT(b)},
	};
	static const struct rt_record two = RT_TABLE("t", NULL, columns, struct row);
	static const struct row rows[] = {
		{"off the line", "one"},
		{"off the line", "two"},
		{"left", "three or four"},
		{"off the line", "five"},
	};
	struct rt_report r = {0};
	char *s;

	rt_report_list(&r, &two, rows, sizeof rows / sizeof *rows);
	s = paper(&r, TEXT, 22);
	ck_assert_str_eq(s, "A            B\n"
			    "------------ ---------\n"
			    "off the line one\n"
			    "off the line two\n"
			    "left         three or\n"
			    "             four\n"
			    "off the line five\n");
	free(s);
	rt_report_free(&r);
}
END_TEST

/* ---- numbers and strings, exactly ---- */

static const double reals[] = {
	0,
	0.1,
	1.0 / 3,
	2.0 / 3,
	1e-7,
	1e22,
	123456789.125,
	5e-324,
	DBL_MAX,
	DBL_EPSILON,
	0.1 + 0.2,
	4.35,
	-63.24555320336759,
	9007199254740993.0,
};

#define REALS (sizeof reals / sizeof *reals)

static const struct rt_field value_columns[] = {
	{"real", .head = "Real", AT(real), RT_NUMBERS(2)},
	{"text", .head = "Text", AT(a)},
};

static const struct rt_record values = RT_TABLE("values", NULL, value_columns, struct row);

#define AWKWARD "a,\"b\"\n\tc\\ Å 白"

static void make_values(struct rt_report *r)
{
	struct rt_table *t = rt_report_rows(r, &values);

	for (size_t i = 0; i < REALS; i++)
		rt_put_row(t, &(struct row){AWKWARD, .real = reals[i]});
}

START_TEST(json_reads_back_to_the_same)
{
	struct rt_report r = {0};
	json_t *all, *rows;
	char *s;

	make_values(&r);
	s = paper(&r, JSON, 0);
	all = json_loads(s, 0, NULL);
	ck_assert_ptr_nonnull(all);
	rows = json_object_get(all, "values");
	ck_assert_uint_eq(json_array_size(rows), REALS);
	for (size_t i = 0; i < REALS; i++) {
		json_t *row = json_array_get(rows, i);

		ck_assert(json_number_value(json_object_get(row, "real")) == reals[i]);
		ck_assert_str_eq(json_string_value(json_object_get(row, "text")), AWKWARD);
	}
	ck_assert_uint_eq(json_array_size(json_object_get(all, "notes")), 0);
	json_decref(all);
	free(s);
	rt_report_free(&r);
}
END_TEST

START_TEST(csv_quotes_what_must_be_quoted)
{
	static const struct rt_field one[] = {
		{"note", .head = "Note", AT(a)},
	};
	static const struct rt_record notes = RT_TABLE("notes", NULL, one, struct row);
	static const struct row rows[] = {{"plain; = it's"}, {"a,b"}, {"say \"x\""}, {"two\nlines"},
					  {"cr\r"},	     {""},    {NULL}};
	struct rt_report r = {0};

	rt_report_list(&r, &notes, rows, sizeof rows / sizeof *rows);
	expect(&r, CSV,
	       "note\nplain; = it's\n\"a,b\"\n\"say \"\"x\"\"\"\n\"two\nlines\"\n"
	       "\"cr\xEF\xBF\xBD\"\n\"\"\n\"\"\n");
	rt_report_free(&r);
}
END_TEST

START_TEST(reals_have_the_fewest_digits)
{
	struct rt_report r = {0};
	char *s, *at;

	make_values(&r);
	s = paper(&r, CSV, 0);
	ck_assert_ptr_nonnull(strstr(s, "\n0.1,"));
	ck_assert_ptr_nonnull(strstr(s, "\n0.30000000000000004,"));
	ck_assert_ptr_nonnull(strstr(s, "\n4.35,"));
	ck_assert_ptr_nonnull(strstr(s, "\n123456789.125,"));
	at = strstr(s, "\n-63.24");
	ck_assert_ptr_nonnull(at);
	ck_assert(strtod(at, NULL) == -63.24555320336759);
	free(s);
	rt_report_free(&r);
}
END_TEST

/* What rt_paper_csv writes of one table, in a string of the caller's; NULL: what it refuses. */
static char *csv_of(const struct rt_report *r, const char *table, bool raw, struct rt_error *err)
{
	char *s = NULL;
	size_t n = 0;
	FILE *out = open_memstream(&s, &n);
	enum rt_err rc = rt_paper_csv(out, r, table, raw, err);

	fclose(out);
	if (!rc)
		return s;
	ck_assert_uint_eq(n, 0);
	free(s);
	return NULL;
}

static void expect_csv(const struct rt_report *r, const char *table, bool raw, const char *wanted)
{
	char *s = csv_of(r, table, raw, NULL);

	ck_assert_ptr_nonnull(s);
	ck_assert_str_eq(s, wanted);
	free(s);
}

static const struct rt_field one_text[] = {{"text", AT(a)}};

/* A report of two tables with a text each, and a note. */
static void make_two(struct rt_report *r)
{
	static const struct rt_record first = RT_TABLE("first", NULL, one_text, struct row);
	static const struct rt_record second = RT_TABLE("second", NULL, one_text, struct row);

	rt_put_row(rt_report_rows(r, &first), &(struct row){"one"});
	rt_put_row(rt_report_rows(r, &second), &(struct row){"two"});
	rt_report_note(r, "=said");
}

START_TEST(csv_is_one_table)
{
	struct rt_report r = {0};
	struct rt_error err;
	char others[RT_LISTED_SIZE];

	ck_assert_ptr_null(csv_of(&r, "third", false, &err));
	ck_assert_str_eq(err.text, "no table \"third\": there is none");
	expect_csv(&r, NULL, false, "note\n");
	make_two(&r);
	expect_csv(&r, NULL, false, "text\none\n");
	rt_table_main(r.table[1]);
	expect_csv(&r, NULL, false, "text\ntwo\n");
	expect_csv(&r, "first", false, "text\none\n");
	expect_csv(&r, RT_CSV_NOTES, false, "note\n'=said\n");
	ck_assert_ptr_null(csv_of(&r, "third", false, &err));
	ck_assert_int_eq(err.code, RT_E_USAGE);
	ck_assert_str_eq(err.text, "no table \"third\": first, second, notes");
	rt_paper_csv_others(&r, NULL, others);
	ck_assert_str_eq(others, "first, notes");
	rt_paper_csv_others(&r, "first", others);
	ck_assert_str_eq(others, "second, notes");
	rt_paper_csv_others(&r, RT_CSV_NOTES, others);
	ck_assert_str_eq(others, "first, second");
	rt_report_free(&r);
}
END_TEST

START_TEST(csv_of_notes_alone)
{
	struct rt_report r = {0};
	char others[RT_LISTED_SIZE];

	rt_report_note(&r, "all is well");
	expect_csv(&r, NULL, false, "note\nall is well\n");
	rt_paper_csv_others(&r, NULL, others);
	ck_assert_str_eq(others, "");
	rt_report_free(&r);
}
END_TEST

/* A text that a spreadsheet would run; one that is a number is none, nor is a number. */
START_TEST(csv_does_not_run)
{
	static const char *const texts[][2] = {
		{"=1+1", "'=1+1"}, {"+cmd", "'+cmd"}, {"-cmd", "'-cmd"},  {"@SUM(1)", "'@SUM(1)"},
		{"\t=1", "'\t=1"}, {"'=1", "''=1"},   {"''-x", "'''-x"},  {"-", "'-"},
		{"a=1", "a=1"},	   {" =1", " =1"},    {"'tis", "'tis"},	  {"'", "'"},
		{"-5", "-5"},	   {"+5", "+5"},      {"-0.25", "-0.25"}, {"'-5", "''-5"},
	};
	static const struct rt_field number[] = {{"v", AT(real), RT_NUMBERS(1)}};
	static const struct rt_record all = RT_TABLE("texts", NULL, one_text, struct row);
	static const struct rt_record numbers = RT_TABLE("numbers", NULL, number, struct row);
	struct rt_report r = {0};
	struct rt_table *t = rt_report_rows(&r, &all);
	char wanted[512] = "text\n", raw[512] = "text\n";

	for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
		rt_put_row(t, &(struct row){texts[i][0]});
		snprintf(raw + strlen(raw), sizeof raw - strlen(raw), "%s\n", texts[i][0]);
		snprintf(wanted + strlen(wanted), sizeof wanted - strlen(wanted), "%s\n",
			 texts[i][1]);
	}
	rt_put_row(rt_report_rows(&r, &numbers), &(struct row){.real = -1.5});
	expect_csv(&r, NULL, false, wanted);
	expect_csv(&r, NULL, true, raw);
	expect_csv(&r, "numbers", false, "v\n-1.5\n");
	rt_report_free(&r);
}
END_TEST

START_TEST(json_lists_are_arrays)
{
	static const struct rt_field lists[] = {
		{"horses", AT(a), .type = RT_NAMES},
		{"judges", AT(b), .type = RT_LETTERS},
	};
	static const struct rt_record listed = RT_TABLE("rows", NULL, lists, struct row);
	static const struct row rows[] = {
		{"Moss; \"Fen\"; Tern b", "C B E"}, {"Moss", ""}, {NULL, NULL}};
	struct rt_report r = {0};
	char *s;

	rt_report_list(&r, &listed, rows, 3);
	s = paper(&r, JSON, 0);
	ck_assert_str_eq(s, "{\n\"format\": \"ringtrue/1\",\n\"rows\": [\n"
			    "{\"horses\": [\"Moss\", \"\\\"Fen\\\"\", \"Tern b\"], "
			    "\"judges\": [\"C\", \"B\", \"E\"]},\n"
			    "{\"horses\": [\"Moss\"], \"judges\": []},\n"
			    "{\"horses\": [], \"judges\": []}\n],\n\"notes\": [\n]\n}\n");
	free(s);
	expect_csv(&r, NULL, false,
		   "horses,judges\n\"Moss; \"\"Fen\"\"; Tern b\",C B E\nMoss,\n,\n");
	rt_report_free(&r);
}
END_TEST

/* ---- text that no reader takes ---- */

#define FFFD "\xEF\xBF\xBD"

/* Bytes that are not UTF-8 (a stray one, one cut short, a surrogate, the two ends of what there
 * is), commands to a terminal in one and two bytes, and what is good beside them. */
#define BAD_TEXT                                                                                   \
	"caf\xe9 \xC3 \xED\xA0\x80 \xF4\x90\x80\x80 \x1b[31m \xC2\x9B"                             \
	"31m \x7f \xEF\xBF\xBF \xC3\x85\t!"

static void make_bad(struct rt_report *r)
{
	static const struct rt_field one[] = {
		{"text", .head = "Text", AT(a)},
	};
	static const struct rt_record bad = RT_TABLE("bad", "B\xe9", one, struct row);

	rt_put_row(rt_report_rows(r, &bad), &(struct row){BAD_TEXT});
	rt_report_note(r, "\x1b]0;title\x07 end\xff");
}

START_TEST(bad_text_is_replaced)
{
	static const char shown[] = "caf" FFFD " " FFFD " " FFFD FFFD FFFD " " FFFD FFFD FFFD FFFD
				    " " FFFD "[31m " FFFD "31m " FFFD " " FFFD " \xC3\x85";
	struct rt_report r = {0};
	char *s, wanted[512];
	json_t *all;

	make_bad(&r);
	snprintf(wanted, sizeof wanted,
		 "B" FFFD "\nText\n%s\n%s !\n\n" FFFD "]0;title" FFFD " end" FFFD "\n",
		 "----------------------------------", shown);
	expect(&r, TEXT, wanted);
	snprintf(wanted, sizeof wanted, "text\n%s\t!\n", shown);
	expect(&r, CSV, wanted);
	s = paper(&r, JSON, 0);
	all = json_loads(s, 0, NULL);
	snprintf(wanted, sizeof wanted, "%s\t!", shown);
	ck_assert_str_eq(json_string_value(json_object_get(
				 json_array_get(json_object_get(all, "bad"), 0), "text")),
			 wanted);
	json_decref(all);
	free(s);
	rt_report_free(&r);
}
END_TEST

/* ---- streams that fail ---- */

START_TEST(a_full_disk_is_told)
{
	FILE *out = fopen("/dev/full", "w");
	struct rt_report r = {0};
	struct rt_error err;

	if (!out)
		return; /* a system without it */
	make_pegs(&r);
	ck_assert_int_eq(rt_paper_text(out, &r, 0, false, &err), RT_E_IO);
	ck_assert_int_eq(rt_paper_csv(out, &r, NULL, false, &err), RT_E_IO);
	ck_assert_int_eq(rt_paper_json(out, &r, &err), RT_E_IO);
	fclose(out);
	rt_report_free(&r);
}
END_TEST

START_TEST(a_report_that_lost_something_is_not_shown)
{
	struct rt_report r = {.nomem = true};
	FILE *out = fopen("/dev/null", "w");

	ck_assert_int_eq(rt_paper_text(out, &r, 0, false, NULL), RT_E_NOMEM);
	ck_assert_int_eq(rt_paper_csv(out, &r, NULL, false, NULL), RT_E_NOMEM);
	ck_assert_int_eq(rt_paper_json(out, &r, NULL), RT_E_NOMEM);
	fclose(out);
}
END_TEST

/* ---- files ---- */

static char folder[] = "check_paper-XXXXXX";

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

static void write_file(const char *path, const char *text, mode_t mode)
{
	FILE *f = fopen(path, "w");

	ck_assert_ptr_nonnull(f);
	fputs(text, f);
	ck_assert_int_eq(fchmod(fileno(f), mode), 0);
	fclose(f);
}

static void expect_file(const char *path, const char *text, mode_t mode)
{
	char read[64] = "";
	struct stat st;
	FILE *f = fopen(path, "r");

	ck_assert_ptr_nonnull(f);
	read[fread(read, 1, sizeof read - 1, f)] = '\0';
	ck_assert_str_eq(read, text);
	ck_assert_int_eq(fstat(fileno(f), &st), 0);
	ck_assert_uint_eq(st.st_mode & 07777, mode);
	fclose(f);
}

/* Write text through an outfile and commit it, or drop it. */
static void put_file(const char *path, const char *text, bool commit)
{
	struct rt_outfile *f;
	FILE *out;

	ck_assert_int_eq(rt_outfile_open(&f, path, RT_FILE_PDF, NULL, NULL), RT_OK);
	out = fopen(rt_outfile_path(f), "w");
	ck_assert_ptr_nonnull(out);
	fputs(text, out);
	fclose(out);
	if (commit)
		ck_assert_int_eq(rt_outfile_commit(f, NULL), RT_OK);
	else
		rt_outfile_discard(f);
}

START_TEST(a_new_file_has_the_mask_s_bits)
{
	mode_t mask = umask(027);

	put_file("new", "one", true);
	expect_file("new", "one", 0640);
	umask(mask);
	unlink("new");
}
END_TEST

START_TEST(an_old_file_keeps_its_bits)
{
	write_file("old", "%PDF-old", 0604);
	put_file("./old", "new", true);
	expect_file("old", "new", 0604);
	unlink("old");
}
END_TEST

START_TEST(dropped_the_old_file_is_whole)
{
	write_file("old", "%PDF-old", 0644);
	put_file("old", "new", false);
	expect_file("old", "%PDF-old", 0644);
	rt_outfile_discard(NULL);
	unlink("old");
}
END_TEST

START_TEST(a_link_stays_a_link)
{
	struct stat st;

	ck_assert_int_eq(mkdir("elsewhere", 0755), 0);
	write_file("elsewhere/old", "%PDF-old", 0600);
	ck_assert_int_eq(symlink("elsewhere/old", "link"), 0);
	put_file("link", "new", true);
	expect_file("elsewhere/old", "new", 0600);
	ck_assert_int_eq(lstat("link", &st), 0);
	ck_assert(S_ISLNK(st.st_mode));
	unlink("link");
	unlink("elsewhere/old");
	rmdir("elsewhere");
}
END_TEST

START_TEST(leftovers_are_passed_over)
{
	char left[64];

	snprintf(left, sizeof left, ".ringtrue-%ld-0", (long)getpid());
	write_file(left, "left", 0600);
	put_file("new", "one", true);
	expect_file(left, "left", 0600);
	unlink(left);
	unlink("new");
}
END_TEST

START_TEST(what_cannot_be_written_is_told_by_name)
{
	static const struct {
		const char *path;
		enum rt_err code;
	} bad[] = {{".", RT_E_INPUT},	     {"missing/file", RT_E_IO}, {"/dev/null", RT_E_INPUT},
		   {"file/inside", RT_E_IO}, {"", RT_E_INPUT},		{"link", RT_E_INPUT}};
	struct rt_outfile *f;

	write_file("file", "", 0644);
	ck_assert_int_eq(symlink("nothing", "link"), 0);
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
		struct rt_error err = {0};

		ck_assert_int_eq(rt_outfile_open(&f, bad[i].path, RT_FILE_PDF, NULL, &err),
				 bad[i].code);
		ck_assert_ptr_null(f);
		ck_assert_ptr_nonnull(strstr(err.text, bad[i].path));
	}
	unlink("link");
	ck_assert_int_eq(chmod("file", 0444), 0);
	if (geteuid() != 0) /* to whom nothing is read-only */
		ck_assert_int_eq(rt_outfile_open(&f, "file", RT_FILE_PDF, NULL, NULL), RT_E_IO);
	unlink("file");
}
END_TEST

/* Bytes in a file, which may hold zeros. */
static void put_bytes(const char *path, const char *bytes, size_t n)
{
	FILE *f = fopen(path, "w");

	ck_assert_ptr_nonnull(f);
	ck_assert_uint_eq(fwrite(bytes, 1, n, f), n);
	fclose(f);
}

/* Whether an output of that kind may take the place of the file. */
static bool may_replace(const char *path, enum rt_file_kind kind, const char *show)
{
	struct rt_outfile *f;
	struct rt_error err = {0};
	enum rt_err rc = rt_outfile_open(&f, path, kind, show, &err);

	ck_assert(rc == RT_OK || rc == RT_E_INPUT);
	rt_outfile_discard(f);
	return rc == RT_OK;
}

START_TEST(its_own_kind_only_is_replaced)
{
	static const char workbook[] = "PK\3\4"
				       "..........................xl/styles.xml"
				       "PK\1\2......xl/workbook.xml",
			  packed[] = "PK\3\4"
				     "..........................book.xlsx"
				     "PK\1\2......xl/workbook.xml",
			  document[] = "PK\3\4"
				       "..........................[Content_Types].xml"
				       "PK\1\2......word/document.xml";
	char show[100] = "SQLite format 3", database[100] = "SQLite format 3";
	const struct {
		const char *bytes;
		size_t n;
		enum rt_file_kind kind;
	} file[] = {
		{"", 0, RT_FILE_EMPTY},
		{"%PDF-1.5\n", 9, RT_FILE_PDF},
		{"<svg/>", 6, RT_FILE_SVG},
		{"\xEF\xBB\xBF<?xml version=\"1.0\"?>\n<svg/>", 31, RT_FILE_SVG},
		{"<?xml version=\"1.0\"?>\n<html/>", 29, RT_FILE_TEXT},
		{workbook, sizeof workbook, RT_FILE_WORKBOOK},
		{packed, sizeof packed, RT_FILE_ARCHIVE},
		{document, sizeof document, RT_FILE_ARCHIVE},
		{show, sizeof show, RT_FILE_SHOW},
		{database, sizeof database, RT_FILE_DATABASE},
		{"SQLite format 3", 15, RT_FILE_DATABASE},
		{"driver,horse\nGr\xC3\xA9,Fen", 21, RT_FILE_TEXT},
		{"caf\xC3", 4, RT_FILE_TEXT}, /* read to the half of a letter */
		{"\x7F"
		 "ELF\2\1\1",
		 7, RT_FILE_OTHER},
	};
	static const enum rt_file_kind output[] = {RT_FILE_PDF, RT_FILE_SVG, RT_FILE_WORKBOOK,
						   RT_FILE_SHOW};

	memcpy(show + 68, "RTsh", 4);
	for (size_t i = 0; i < sizeof file / sizeof *file; i++) {
		put_bytes("file", file[i].bytes, file[i].n);
		ck_assert_int_eq(rt_file_kind(file[i].bytes, file[i].n, file[i].bytes, file[i].n),
				 file[i].kind);
		for (size_t k = 0; k < 4; k++)
			ck_assert(may_replace("file", output[k], NULL) ==
				  (file[i].kind == RT_FILE_EMPTY || file[i].kind == output[k]));
	}
	unlink("file");
}
END_TEST

START_TEST(the_open_show_is_never_replaced)
{
	char show[100] = "SQLite format 3";

	memcpy(show + 68, "RTsh", 4);
	ck_assert_int_eq(mkdir("shows", 0755), 0);
	put_bytes("shows/a", show, sizeof show);
	put_bytes("b", show, sizeof show);
	put_bytes("shows/a-shm", "", 0);
	ck_assert_int_eq(symlink("shows/a", "soft"), 0);
	ck_assert_int_eq(link("shows/a", "hard"), 0);
	ck_assert_int_eq(link("shows/a-shm", "hard-shm"), 0);
	ck_assert(may_replace("b", RT_FILE_SHOW, "soft"));
	ck_assert(!may_replace("soft", RT_FILE_SHOW, "shows/a"));
	ck_assert(!may_replace("hard", RT_FILE_SHOW, "soft"));
	ck_assert(!may_replace("hard-shm", RT_FILE_PDF, "soft"));
	ck_assert(!may_replace("shows/../shows/a-wal", RT_FILE_PDF, "soft")); /* not there yet */
	ck_assert(may_replace("a-wal", RT_FILE_PDF, "soft"));
	/* nor another show that is in use */
	put_bytes("b-wal", "", 0);
	ck_assert(!may_replace("b", RT_FILE_SHOW, "soft"));
	unlink("b-wal");
	unlink("b");
	unlink("hard");
	unlink("hard-shm");
	unlink("soft");
	unlink("shows/a-shm");
	unlink("shows/a");
	rmdir("shows");
}
END_TEST

int check_paper(void)
{
	Suite *s = suite_create("paper");
	TCase *t = tcase_create("reports"), *files = tcase_create("files");

	tcase_add_test(t, every_paper_in_every_locale);
	tcase_add_test(t, feet_only_where_there_were_metres);
	tcase_add_test(t, an_empty_table_says_none);
	tcase_add_test(t, lines_keep_within_the_width);
	tcase_add_test(t, no_word_is_broken);
	tcase_add_test(t, columns_without_room_fall_to_a_further_line);
	tcase_add_test(t, heads_give_way_first);
	tcase_add_test(t, gaps_give_way_before_words_do);
	tcase_add_test(t, words_give_way_where_few_lines_come_of_it);
	tcase_add_test(t, json_reads_back_to_the_same);
	tcase_add_test(t, csv_quotes_what_must_be_quoted);
	tcase_add_test(t, json_lists_are_arrays);
	tcase_add_test(t, csv_is_one_table);
	tcase_add_test(t, csv_of_notes_alone);
	tcase_add_test(t, csv_does_not_run);
	tcase_add_test(t, reals_have_the_fewest_digits);
	tcase_add_test(t, bad_text_is_replaced);
	tcase_add_test(t, a_full_disk_is_told);
	tcase_add_test(t, a_report_that_lost_something_is_not_shown);
	suite_add_tcase(s, t);
	tcase_add_checked_fixture(files, in_folder, out_of_folder);
	tcase_add_test(files, a_new_file_has_the_mask_s_bits);
	tcase_add_test(files, an_old_file_keeps_its_bits);
	tcase_add_test(files, dropped_the_old_file_is_whole);
	tcase_add_test(files, a_link_stays_a_link);
	tcase_add_test(files, leftovers_are_passed_over);
	tcase_add_test(files, what_cannot_be_written_is_told_by_name);
	tcase_add_test(files, its_own_kind_only_is_replaced);
	tcase_add_test(files, the_open_show_is_never_replaced);
	suite_add_tcase(s, files);
	return suite_run(s);
}
