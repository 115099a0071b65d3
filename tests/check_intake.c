/* Checks of intake: what each file holds when it is good, and every fault by file, line and
 * column when it is not.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <ringtrue/intake.h>

/* ---- files of the test's own folder ---- */

static char folder[] = "/tmp/check_intake-XXXXXX";

struct path {
	char text[128];
};

static struct path in_folder(const char *name)
{
	struct path p;

	snprintf(p.text, sizeof p.text, "%s/%s", folder, name);
	return p;
}

static struct path put_bytes(const char *name, const char *bytes, size_t n)
{
	struct path p = in_folder(name);
	FILE *f = fopen(p.text, "wb");

	ck_assert_ptr_nonnull(f);
	ck_assert_uint_eq(fwrite(bytes, 1, n, f), n);
	ck_assert_int_eq(fclose(f), 0);
	return p;
}

static struct path put(const char *name, const char *text)
{
	return put_bytes(name, text, strlen(text));
}

/* ---- what exists ---- */

#include "intake_good.h"
#include "suite.h"

static struct known {
	struct rt_ring_kinds kinds;
	struct rt_levels levels;
	struct rt_gaits gaits;
	struct rt_rules rules;
	struct rt_rings rings;
	struct rt_points points;
	struct rt_tests tests;
	struct rt_items items, items_of[2];
	struct rt_classes classes;
	struct rt_entries entries, entries_of[2];
	struct rt_roster_classes sheets;
	struct rt_roster roster;
} known;

static enum rt_err read_marks(const char *path, struct rt_faults *faults, size_t *rows,
			      struct rt_error *err)
{
	struct rt_mark_reader *reader;
	struct rt_mark_row row;
	enum rt_err rc = rt_mark_reader_open(&reader, RT_FILE(path), &known.roster, faults, err);
	bool got = reader != NULL;

	while (rc == RT_OK && got) {
		rc = rt_mark_reader_next(reader, &row, &got, faults, err);
		*rows += got;
	}
	rt_mark_reader_close(reader);
	return rc;
}

/* Read a file of that kind into a list that is thrown away; how many rows it had. */
static enum rt_err read_file(enum kind_of_file which, const char *path, struct rt_faults *faults,
			     size_t *rows, struct rt_error *err)
{
	struct rt_ring_kinds kinds = {0};
	struct rt_levels levels = {0};
	struct rt_gaits gaits = {0};
	struct rt_rules rules = {0};
	struct rt_turnout_parts turnouts = {0};
	struct rt_footing_rules footings = {0};
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_points points = {0};
	struct rt_tests tests = {0};
	struct rt_items items = {0};
	struct rt_classes classes = {0};
	struct rt_entries entries = {0};
	struct rt_wishes wishes = {0};
	struct rt_plan_rows plans = {0};
	struct rt_articles articles = {0};
	const struct rt_roster *roster = &known.roster;
	enum rt_err rc = RT_OK;

	*rows = 0;
#define READ(list, call)                                                                           \
	rc = (call);                                                                               \
	*rows = (list).n;                                                                          \
	break
	switch (which) {
	case RINGS:
		READ(kinds, rt_read_ring_kinds(&kinds, RT_FILE(path), faults, err));
	case LEVELS:
		READ(levels, rt_read_levels(&levels, RT_FILE(path), roster, faults, err));
	case GAITS:
		READ(gaits, rt_read_gaits(&gaits, RT_FILE(path), faults, err));
	case RULES:
		READ(rules, rt_read_rules(&rules, RT_FILE(path), faults, err));
	case TURNOUTS:
		READ(turnouts, rt_read_turnouts(&turnouts, RT_FILE(path), faults, err));
	case FOOTINGS:
		READ(footings, rt_read_footing_rules(&footings, RT_FILE(path), faults, err));
	case READINGS:
		READ(readings, rt_read_readings(&readings, &heights, RT_FILE(path),
						&known.kinds.at[0], NULL, faults, err));
	case READINGS_OF_POINTS:
		READ(readings, rt_read_readings(&readings, &heights, RT_FILE(path), NULL,
						&known.points, faults, err));
	case POINTS:
		READ(points, rt_read_points(&points, RT_FILE(path), faults, err));
	case TESTS:
		READ(tests, rt_read_tests(&tests, RT_FILE(path), roster, faults, err));
	case MOVEMENTS:
		READ(items, rt_read_items(&items, RT_FILE(path), NULL, roster, faults, err));
	case CLASSES:
		READ(classes, rt_read_classes(&classes, RT_FILE(path), roster, faults, err));
	case ENTRIES:
		READ(entries, rt_read_entries(&entries, RT_FILE(path), roster, faults, err));
	case WISHES:
		READ(wishes, rt_read_wishes(&wishes, RT_FILE(path), roster, faults, err));
	case PLANS:
		READ(plans, rt_read_plan_rows(&plans, RT_FILE(path), roster, faults, err));
	case ARTICLES:
		READ(articles, rt_read_articles(&articles, RT_FILE(path), roster, faults, err));
	default:
		rc = read_marks(path, faults, rows, err);
	}
#undef READ
	rt_ring_kinds_free(&kinds);
	RT_LIST_FREE(&levels);
	RT_LIST_FREE(&gaits);
	RT_LIST_FREE(&rules);
	RT_LIST_FREE(&turnouts);
	RT_LIST_FREE(&footings);
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
	RT_LIST_FREE(&points);
	RT_LIST_FREE(&tests);
	RT_LIST_FREE(&items);
	rt_classes_free(&classes);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&wishes);
	RT_LIST_FREE(&plans);
	RT_LIST_FREE(&articles);
	return rc;
}

/* The items of one test, the entries of one class: borrowed strings, lists of their own. */
static void fill_sheets(void)
{
	for (size_t c = 0; c < known.classes.n; c++) {
		struct rt_roster_class *sheet = RT_LIST_ADD(&known.sheets);

		for (size_t i = 0; i < known.items.n; i++)
			if (strcmp(known.items.at[i].test, known.classes.at[c].test) == 0)
				*(struct rt_item *)RT_LIST_ADD(
					&known.items_of[c]) = known.items.at[i];
		for (size_t i = 0; i < known.entries.n; i++)
			if (strcmp(known.entries.at[i].class_name, known.classes.at[c].name) == 0)
				*(struct rt_entry *)RT_LIST_ADD(
					&known.entries_of[c]) = known.entries.at[i];
		sheet->class_ = &known.classes.at[c];
		sheet->items = &known.items_of[c];
		sheet->entries = &known.entries_of[c];
	}
	known.roster.sheets = &known.sheets;
	known.roster.unexpected = true;
}

static void set_up(void)
{
	static struct rt_ring ring = {"main", "field"};
	struct rt_roster *roster = &known.roster;
	struct rt_faults faults = {0};
	struct rt_error err;
	struct path path[KINDS_OF_FILE];

	ck_assert_ptr_nonnull(mkdtemp(folder));
	for (size_t i = 0; i < KINDS_OF_FILE; i++) {
		char name[16];

		snprintf(name, sizeof name, "good-%zu", i);
		path[i] = put(name, good[i]);
	}
#define READ(call) ck_assert_int_eq((call), RT_OK)
	READ(rt_read_ring_kinds(&known.kinds, RT_FILE(path[RINGS].text), &faults, &err));
	READ(rt_read_gaits(&known.gaits, RT_FILE(path[GAITS].text), &faults, &err));
	roster->kinds = &known.kinds;
	roster->gaits = &known.gaits;
	READ(rt_read_levels(&known.levels, RT_FILE(path[LEVELS].text), roster, &faults, &err));
	READ(rt_read_rules(&known.rules, RT_FILE(path[RULES].text), &faults, &err));
	READ(rt_read_points(&known.points, RT_FILE(path[POINTS].text), &faults, &err));
	roster->levels = &known.levels;
	roster->rules = &known.rules;
	READ(rt_read_tests(&known.tests, RT_FILE(path[TESTS].text), roster, &faults, &err));
	READ(rt_read_items(&known.items, RT_FILE(path[MOVEMENTS].text), &known.tests, roster,
			   &faults, &err));
	*(struct rt_ring *)RT_LIST_ADD(&known.rings) = ring;
	roster->rings = &known.rings;
	roster->tests = &known.tests;
	READ(rt_read_classes(&known.classes, RT_FILE(path[CLASSES].text), roster, &faults, &err));
	roster->classes = &known.classes;
	READ(rt_read_entries(&known.entries, RT_FILE(path[ENTRIES].text), roster, &faults, &err));
#undef READ
	fill_sheets();
	ck_assert_msg(!faults.total, "%s: %s", faults.total ? faults.at[0].file : "",
		      faults.total ? faults.at[0].text : "");
}

static void tear_down(void)
{
	char command[64];

	rt_ring_kinds_free(&known.kinds);
	RT_LIST_FREE(&known.levels);
	RT_LIST_FREE(&known.gaits);
	RT_LIST_FREE(&known.rules);
	RT_LIST_FREE(&known.rings);
	RT_LIST_FREE(&known.points);
	RT_LIST_FREE(&known.tests);
	RT_LIST_FREE(&known.items);
	rt_classes_free(&known.classes);
	RT_LIST_FREE(&known.entries);
	for (int i = 0; i < 2; i++) {
		RT_LIST_FREE(&known.items_of[i]);
		RT_LIST_FREE(&known.entries_of[i]);
	}
	RT_LIST_FREE(&known.sheets);
	snprintf(command, sizeof command, "rm -r %s", folder);
	ck_assert_int_eq(system(command), 0);
}

/* ---- good files ---- */

START_TEST(rings_are_read)
{
	const struct rt_ring_kind *field = &known.kinds.at[0];

	ck_assert_uint_eq(known.kinds.n, 2);
	ck_assert_str_eq(field->name, "field");
	ck_assert_int_eq(field->discipline, RT_DRIVEN);
	ck_assert_double_eq(field->width_m, 40);
	ck_assert_double_eq(field->length_m, 80);
	ck_assert_uint_eq(field->letters.n, 4);
	ck_assert_str_eq(field->letters.at[1].name, "B");
	ck_assert_int_eq(field->letters.at[1].side, RT_RIGHT);
	ck_assert_int_eq(field->letters.at[3].side, RT_CENTRE);
	ck_assert_double_eq(field->letters.at[3].offset_m, 40);
	ck_assert_uint_eq(known.kinds.at[1].letters.n, 2);
}
END_TEST

START_TEST(readings_and_points_are_read)
{
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_faults faults = {0};
	struct path path = in_folder("good-5");

	ck_assert_int_eq(rt_read_readings(&readings, &heights, RT_FILE(path.text),
					  &known.kinds.at[0], NULL, &faults, NULL),
			 RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_eq(readings.n, 3); /* a distance may be measured twice */
	ck_assert_double_eq(readings.at[0].value, 44.72);
	ck_assert(isnan(readings.at[0].sigma));
	ck_assert_ptr_null(readings.at[0].note);
	ck_assert_double_eq(readings.at[1].sigma, 0.02);
	ck_assert_str_eq(readings.at[1].to, "CM");
	ck_assert_str_eq(readings.at[1].note, "windy");
	ck_assert_str_eq(readings.at[2].file, path.text);
	ck_assert_int_eq(readings.at[2].line, 4);
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
	ck_assert_uint_eq(known.points.n, 2);
	ck_assert(known.points.at[0].fixed);
	ck_assert(!known.points.at[1].fixed);
	ck_assert_double_eq(known.points.at[1].x_m, -10.25);
	ck_assert_double_eq(known.points.at[1].y_m, 5893211.75);
}
END_TEST

START_TEST(levels_gaits_and_turnouts_are_read)
{
	struct rt_turnout_parts parts = {0};
	struct rt_faults faults = {0};

	ck_assert_uint_eq(known.levels.n, 3);
	ck_assert_double_eq_tol(known.levels.at[0].reference_height_cm, 142.24, 1e-9);
	ck_assert_double_eq_tol(known.levels.at[1].reference_height_cm, 142.2, 1e-9);
	ck_assert_double_eq_tol(known.levels.at[2].reference_height_cm, 142.2, 1e-9);
	ck_assert_int_eq(known.levels.at[1].discipline, RT_RIDDEN);
	ck_assert_double_eq(known.levels.at[2].turn_diameter_m, 15);
	ck_assert_str_eq(known.gaits.at[0].source, "own, with a watch");
	ck_assert_double_eq(known.gaits.at[1].speed_m_per_s, 3.6);
	ck_assert_int_eq(rt_read_turnouts(&parts, RT_FILE(in_folder("good-4").text), &faults, NULL),
			 RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_eq(parts.n, 2);
	ck_assert(isnan(parts.at[0].track_m) && isnan(parts.at[0].cog_m));
	ck_assert_double_eq(parts.at[1].hitch_m, -0.95);
	ck_assert_double_eq(parts.at[1].cog_m, 0.9);
	RT_LIST_FREE(&parts);
}
END_TEST

START_TEST(footing_rules_are_read)
{
	struct rt_footing_rules rules = {0};
	struct rt_faults faults = {0};

	ck_assert_int_eq(
		rt_read_footing_rules(&rules, RT_FILE(in_folder("good-13").text), &faults, NULL),
		RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_eq(rules.n, 2);
	ck_assert_str_eq(rules.at[0].name, "flat");
	ck_assert_int_eq(rules.at[0].discipline, RT_RIDDEN);
	ck_assert_double_eq(rules.at[0].along_m, 0.5);
	ck_assert_double_eq(rules.at[0].across_m, 0.2);
	ck_assert(isnan(rules.at[0].along_percent) && isnan(rules.at[0].across_percent));
	ck_assert_str_eq(rules.at[0].source, "a book");
	ck_assert_double_eq(rules.at[1].along_percent, 0.8);
	ck_assert_double_eq(rules.at[1].across_percent, 1.25);
	ck_assert(isnan(rules.at[1].along_m) && isnan(rules.at[1].across_m));
	ck_assert_ptr_null(rules.at[1].source);
	RT_LIST_FREE(&rules);
}
END_TEST

START_TEST(rules_are_read)
{
	const struct rt_rule *combined = &known.rules.at[0], *plain = &known.rules.at[1];

	ck_assert_uint_eq(known.rules.n, 2);
	ck_assert_int_eq(combined->scale, RT_PENALTY_SCALE);
	ck_assert_int_eq(combined->wins, RT_LOWEST_WINS);
	ck_assert_int_eq(combined->base, 160);
	ck_assert_int_eq(combined->judge_decimals, -1);
	ck_assert_int_eq(combined->taken, RT_TAKEN_SCORE);
	ck_assert_uint_eq(combined->error_steps, 3);
	ck_assert_int_eq(combined->error[0].amount_x100, 500);
	ck_assert_int_eq(combined->error[1].amount_x100, 1050);
	ck_assert(combined->error[2].eliminated && !combined->error[1].eliminated);
	ck_assert_uint_eq(combined->tie_steps, 2);
	ck_assert_int_eq(combined->tie[1].by, RT_TIE_MEDIAN);
	ck_assert_int_eq(combined->tie[1].places, 3);
	ck_assert_uint_eq(plain->error_steps, 1);
	ck_assert_uint_eq(plain->tie_steps, 0);
}
END_TEST

START_TEST(tests_and_movements_are_read)
{
	const struct rt_test *first = &known.tests.at[0], *second = &known.tests.at[1];
	const struct rt_item *item = known.items.at;

	ck_assert_uint_eq(known.tests.n, 2);
	ck_assert_int_eq(first->multiplier_x1000000, 640000);
	ck_assert_str_eq(first->kind, "field");
	ck_assert_int_eq(second->multiplier_x1000000, 0);
	ck_assert(!second->kind && !second->level && !second->rule);
	ck_assert_int_eq(second->line, 3);
	ck_assert_uint_eq(known.items.n, 4);
	ck_assert_str_eq(item[0].movement, "Enter, halt");
	ck_assert_str_eq(item[0].figure, "X halt");
	ck_assert_int_eq(item[0].mark_step_x100, 50);
	ck_assert_str_eq(item[1].letters, "");
	ck_assert_ptr_null(item[1].figure);
	ck_assert_ptr_null(item[1].gait);
	ck_assert_int_eq(item[1].coefficient_x1000, 1500);
	ck_assert_int_eq(item[1].mark_step_x100, 100);
	ck_assert(item[2].group == RT_GROUP_GENERAL && item[1].group == RT_GROUP_MOVEMENT);
	ck_assert_int_eq(item[2].mark_step_x100, 10);
}
END_TEST

START_TEST(classes_and_entries_are_read)
{
	const struct rt_class *one = &known.classes.at[0], *two = &known.classes.at[1];
	const struct rt_entry *e = known.entries.at;

	ck_assert_uint_eq(known.classes.n, 2);
	ck_assert_uint_eq(one->judges.n, 2);
	ck_assert(one->judges.at[0].president && !one->judges.at[1].president);
	ck_assert_str_eq(one->division, "single");
	ck_assert(!two->level && !two->ring && !two->rule && !two->division);
	ck_assert_uint_eq(known.entries.n, 3);
	ck_assert_str_eq(e[0].driver, "Åsa Öberg");
	ck_assert_str_eq(e[0].horses, "Ferro; Nelio");
	ck_assert_double_eq_tol(e[0].height_cm, 137.16, 1e-9);
	ck_assert_str_eq(e[0].carriage, "old gig");
	ck_assert(e[0].hors_concours && !e[1].hors_concours && !e[2].hors_concours);
	ck_assert(isnan(e[1].height_cm));
	ck_assert(!e[1].turnout && !e[1].carriage && !e[1].groom && !e[1].club && !e[1].division);
	ck_assert_str_eq(e[2].club, "Norrby");
	ck_assert_int_eq(e[0].status, RT_ENTERED);
	ck_assert_int_eq(e[2].status, RT_WITHDRAWN);
	/* every column is said, but for an empty status */
	ck_assert_uint_eq(e[2].said, (UINT64_C(1) << 13) - 2);
	ck_assert_uint_eq(e[0].said, (UINT64_C(1) << 12) - 2);
	ck_assert_int_eq(e[2].line, 4);
}
END_TEST

START_TEST(marks_are_read)
{
	static const struct rt_mark_row expected[] = {
		{0, 0, 0, 0, RT_MARK_ITEM, 650, "late", 2},
		{0, 0, 1, 1, RT_MARK_ITEM, 700, NULL, 3},
		{1, 0, 0, 0, RT_MARK_ERRORS, 1, NULL, 4},
		{0, 1, 0, 2, RT_MARK_ITEM, 630, NULL, 5},
		{0, 1, 0, 0, RT_MARK_TOTAL, 17325000, NULL, 6},
	};
	struct rt_mark_reader *reader;
	struct rt_faults faults = {0};
	struct rt_mark_row row;
	bool got;

	ck_assert_int_eq(rt_mark_reader_open(&reader, RT_FILE(in_folder("good-12").text),
					     &known.roster, &faults, NULL),
			 RT_OK);
	for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
		const struct rt_mark_row *want = &expected[i];

		ck_assert_int_eq(rt_mark_reader_next(reader, &row, &got, &faults, NULL), RT_OK);
		ck_assert_msg(got, "no row %zu", i);
		ck_assert_uint_eq(row.sheet_class, want->sheet_class);
		ck_assert_uint_eq(row.entry, want->entry);
		ck_assert_uint_eq(row.judge, want->judge);
		ck_assert_uint_eq(row.item, want->item);
		ck_assert_int_eq(row.kind, want->kind);
		ck_assert_int_eq(row.value, want->value);
		ck_assert_pstr_eq(row.remark, want->remark);
		ck_assert_int_eq(row.line, want->line);
	}
	ck_assert_int_eq(rt_mark_reader_next(reader, &row, &got, &faults, NULL), RT_OK);
	ck_assert(!got && !faults.total);
	rt_mark_reader_close(reader);
	rt_mark_reader_close(NULL);
}
END_TEST

/* Number 7 of class 2 is withdrawn. */
START_TEST(one_who_did_not_start_has_no_marks)
{
	struct rt_roster roster = known.roster;
	struct rt_mark_reader *reader;
	struct rt_faults faults = {0};
	struct rt_mark_row row;
	size_t rows = 0;
	bool got = true;

	roster.unexpected = false;
	ck_assert_int_eq(rt_mark_reader_open(&reader, RT_FILE(in_folder("good-12").text), &roster,
					     &faults, NULL),
			 RT_OK);
	for (; got; rows += got)
		ck_assert_int_eq(rt_mark_reader_next(reader, &row, &got, &faults, NULL), RT_OK);
	ck_assert_uint_eq(rows, 4);
	ck_assert_uint_eq(faults.n, 1);
	ck_assert_int_eq(faults.at[0].line, 4);
	ck_assert_str_eq(faults.at[0].text, "number 7 has no sheet, as its status is withdrawn: a "
					    "number that started, or --unexpected");
	rt_mark_reader_close(reader);
	rt_faults_free(&faults);
}
END_TEST

/* ---- the same rows, written otherwise ---- */

#define BYTES(s) s, sizeof(s) - 1

START_TEST(files_may_be_written_in_many_ways)
{
	static const struct {
		const char *what, *bytes;
		size_t n;
	} ways[] = {
		{"as ever", BYTES(POINTS_HEAD "p1,1,2,yes\np2,3,4,no\n")},
		{"no last line end", BYTES(POINTS_HEAD "p1,1,2,yes\np2,3,4,no")},
		{"byte order mark, CRLF",
		 BYTES("\xEF\xBB\xBFpoint,x_m,y_m,fixed\r\np1,1,2,yes\r\np2,3,4,no\r\n")},
		{"CR alone", BYTES("point,x_m,y_m,fixed\rp1,1,2,yes\rp2,3,4,no\r")},
		{"blank lines",
		 BYTES("\n\npoint,x_m,y_m,fixed\n\np1,1,2,yes\n  \n,,,\np2,3,4,no\n\n\r\n")},
		{"another order", BYTES("fixed,y_m,point,x_m\nyes,2,p1,1\nno,4,p2,3\n")},
		{"white space",
		 BYTES(" point ,x_m, y_m,fixed\t\n p1,1 , 2,\"yes \"\np2,3,4,no \n")},
		{"quotes",
		 BYTES("\"point\",\"x_m\",y_m,fixed\n\"p1\",\"1\",2,yes\np2,3,4,\"no\"\n")},
	};

	for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
		struct path path = put_bytes("way", ways[i].bytes, ways[i].n);
		struct rt_points points = {0};
		struct rt_faults faults = {0};

		ck_assert_int_eq(rt_read_points(&points, RT_FILE(path.text), &faults, NULL), RT_OK);
		ck_assert_msg(!faults.total, "%s: %s", ways[i].what,
			      faults.total ? faults.at[0].text : "");
		ck_assert_msg(points.n == 2, "%s: %zu rows", ways[i].what, points.n);
		ck_assert_str_eq(points.at[0].name, "p1");
		ck_assert_double_eq(points.at[0].y_m, 2);
		ck_assert(points.at[0].fixed && !points.at[1].fixed);
		ck_assert_double_eq(points.at[1].x_m, 3);
		RT_LIST_FREE(&points);
	}
}
END_TEST

START_TEST(quoted_fields_hold_anything)
{
	struct path path = put("quoted", READINGS_HEAD
			       "A,B,44.72,,\"he said \"\"wet\"\",\r\nthen, no\"\nA,C,80,,\"\"\n");
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_faults faults = {0};

	ck_assert_int_eq(rt_read_readings(&readings, &heights, RT_FILE(path.text), NULL, NULL,
					  &faults, NULL),
			 RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_str_eq(readings.at[0].note, "he said \"wet\",\nthen, no");
	ck_assert_int_eq(readings.at[0].line, 2);
	ck_assert_int_eq(readings.at[1].line, 4); /* the row before takes two lines */
	ck_assert_ptr_null(readings.at[1].note);
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
}
END_TEST

/* ---- faults, one after another ---- */

#include "intake_faults.h"

static void faults_text(const struct rt_faults *faults, char *out, size_t size)
{
	size_t at = 0;

	*out = '\0';
	for (size_t i = 0; i < faults->n && at < size; i++)
		at += (size_t)snprintf(out + at, size - at, "%ld: %s: %s\n", faults->at[i].line,
				       faults->at[i].column ? faults->at[i].column : "-",
				       faults->at[i].text);
}

START_TEST(faults_are_told_with_their_place)
{
	char text[8192];
	struct path path = put_bytes("faulty", faulty[_i].bytes, faulty[_i].n);
	struct rt_faults faults = {0};
	size_t rows;

	ck_assert_int_eq(read_file(faulty[_i].file, path.text, &faults, &rows, NULL), RT_OK);
	faults_text(&faults, text, sizeof text);
	ck_assert_str_eq(text, faulty[_i].faults);
	ck_assert_str_eq(faults.at[0].file, path.text);
	ck_assert_int_eq(rt_faults_result(&faults, NULL), RT_E_INPUT);
	rt_faults_free(&faults);
}
END_TEST

/* ---- things that are no file of ours ---- */

static void one_fault(enum kind_of_file which, const char *path, const char *text)
{
	struct rt_faults faults = {0};
	size_t rows;

	ck_assert_int_eq(read_file(which, path, &faults, &rows, NULL), RT_OK);
	ck_assert_uint_eq(rows, 0);
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_str_eq(faults.at[0].file, path);
	ck_assert_int_eq(faults.at[0].line, 0);
	ck_assert_ptr_null(faults.at[0].column);
	ck_assert_msg(strstr(faults.at[0].text, text) == faults.at[0].text, "%s",
		      faults.at[0].text);
	rt_faults_free(&faults);
}

/* Root may read all: be nobody for a while.  false where that cannot be. */
static bool give_up_root(void)
{
	return geteuid() != 0 || seteuid(65534) == 0;
}

START_TEST(paths_that_are_no_file)
{
	struct path locked = put("locked", good[_i]);

	one_fault((enum kind_of_file)_i, folder, "this is a folder: ");
	one_fault((enum kind_of_file)_i, in_folder("nowhere").text, "there is no such file: ");
	one_fault((enum kind_of_file)_i, in_folder("locked/x").text, "there is no such file: ");
	one_fault((enum kind_of_file)_i, put("empty", "").text, "the file is empty: ");
	one_fault((enum kind_of_file)_i, put("blank", "\xEF\xBB\xBF\n\n  \n").text,
		  "the file is empty: ");
	one_fault((enum kind_of_file)_i, put_bytes("ole", BYTES("\xD0\xCF\x11\xE0\xA1\n")).text,
		  "this workbook is encrypted, or of an old kind (.xls): ");
	one_fault((enum kind_of_file)_i, put_bytes("book", BYTES("PK\x03\x04\x14\0\0\0")).text,
		  "this workbook is not read: it is damaged");
	ck_assert_int_eq(chmod(locked.text, 0), 0);
	if (give_up_root())
		one_fault((enum kind_of_file)_i, locked.text, "no permission to read it: ");
	ck_assert(getuid() != 0 || seteuid(0) == 0);
}
END_TEST

START_TEST(a_header_alone_is_a_fault)
{
	const char *end = strchr(good[_i], '\n');
	struct path path = put_bytes("header", good[_i], (size_t)(end - good[_i]) + 1);

	one_fault((enum kind_of_file)_i, path.text,
		  "there is only a header row: at least one row below it");
}
END_TEST

START_TEST(reading_that_breaks_off_is_an_error)
{
	struct rt_points points = {0};
	struct rt_faults faults = {0};
	struct rt_error err;

	if (access("/proc/self/mem", R_OK) != 0)
		return;
	/* Its first page cannot be read. */
	ck_assert_int_eq(rt_read_points(&points, RT_FILE("/proc/self/mem"), &faults, &err),
			 RT_E_IO);
	ck_assert_msg(strstr(err.text, "/proc/self/mem"), "%s", err.text);
	ck_assert_uint_eq(faults.total, 0);
}
END_TEST

/* ---- large and long ---- */

static void fill(FILE *f, char c, size_t n)
{
	while (n--)
		putc(c, f);
}

START_TEST(long_lines_and_rows_end_the_reading)
{
	struct path path = in_folder("long");
	struct rt_faults faults = {0};
	FILE *f = fopen(path.text, "w");
	size_t rows;

	fputs(POINTS_HEAD "p1,1,1,yes\np2,", f);
	fill(f, '1', 3000000);
	fputs(",1,yes\n", f);
	fclose(f);
	ck_assert_int_eq(read_file(POINTS, path.text, &faults, &rows, NULL), RT_OK);
	ck_assert_uint_eq(rows, 1);
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_int_eq(faults.at[0].line, 3);
	ck_assert_str_eq(faults.at[0].text, "a line of over 1 MiB: a CSV file, a row a line");
	rt_faults_free(&faults);

	f = fopen(path.text, "w");
	fputs(POINTS_HEAD "p1,1,1,yes\np2,\"1,1,yes\n", f);
	for (int i = 0; i < 200000; i++)
		fputs("p3,1,1,yes\n", f);
	fclose(f);
	ck_assert_int_eq(read_file(POINTS, path.text, &faults, &rows, NULL), RT_OK);
	ck_assert_uint_eq(rows, 1);
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_int_eq(faults.at[0].line, 3);
	ck_assert_str_eq(faults.at[0].column, "x_m");
	ck_assert_msg(strstr(faults.at[0].text, "a row of over 1 MiB begins here"), "%s",
		      faults.at[0].text);
	rt_faults_free(&faults);
}
END_TEST

/* Fields and lines that lie across the edges of whatever buffers there are. */
START_TEST(long_fields_come_through_whole)
{
	for (size_t n = 65500; n < 65560; n++) {
		struct path path = in_folder("edge");
		struct rt_readings readings = {0};
		struct rt_heights heights = {0};
		struct rt_faults faults = {0};
		FILE *f = fopen(path.text, "w");

		fputs("note,from,to,distance_m\r\n", f);
		fill(f, 'p', n);
		fputs(",p1,p2,1\r\nshort,p3,p4,2\r\n", f);
		fclose(f);
		ck_assert_int_eq(rt_read_readings(&readings, &heights, RT_FILE(path.text), NULL,
						  NULL, &faults, NULL),
				 RT_OK);
		ck_assert_uint_eq(faults.total, 0);
		ck_assert_uint_eq(readings.n, 2);
		ck_assert_uint_eq(strlen(readings.at[0].note), n);
		ck_assert_str_eq(readings.at[1].note, "short");
		RT_LIST_FREE(&readings);
		RT_LIST_FREE(&heights);
	}
}
END_TEST

/* A name has at most 200 characters, whatever they take in bytes. */
START_TEST(long_names_are_refused)
{
	for (size_t n = RT_NAME_MOST; n <= RT_NAME_MOST + 1; n++) {
		struct path path = in_folder("long-name");
		struct rt_entries entries = {0};
		struct rt_faults faults = {0};
		FILE *f = fopen(path.text, "w");

		fputs(ENTRIES_HEAD "one,5,", f);
		for (size_t i = 0; i < n; i++)
			fputs("Å", f);
		fputs(",Sol,,,,,,,,\n", f);
		fclose(f);
		ck_assert_int_eq(rt_read_entries(&entries, RT_FILE(path.text), NULL, &faults, NULL),
				 RT_OK);
		ck_assert_uint_eq(faults.total, n > RT_NAME_MOST);
		ck_assert_uint_eq(entries.n, n == RT_NAME_MOST);
		if (faults.total) {
			ck_assert_str_eq(faults.at[0].column, "driver");
			ck_assert_ptr_nonnull(
				strstr(faults.at[0].text, "is too long: at most 200 characters"));
		}
		RT_LIST_FREE(&entries);
		rt_faults_free(&faults);
	}
}
END_TEST

START_TEST(all_faults_are_counted)
{
	struct path path = in_folder("many");
	struct rt_faults faults = {0};
	FILE *f = fopen(path.text, "w");
	size_t rows;

	fputs(READINGS_HEAD, f);
	for (int i = 0; i < 3000; i++)
		fprintf(f, "A,B,%s,,\n", i % 3 ? "wide" : "44.7");
	fclose(f);
	ck_assert_int_eq(read_file(READINGS, path.text, &faults, &rows, NULL), RT_OK);
	ck_assert_uint_eq(rows, 1000);
	ck_assert_uint_eq(faults.total, 2000);
	ck_assert_uint_eq(faults.n, RT_FAULTS_KEPT);
	ck_assert_int_eq(faults.at[2].line, 6);
	rt_faults_free(&faults);
}
END_TEST

/* Every box of a wide and long class, each bit of the reader's own: then one of them again. */
START_TEST(every_box_of_a_class_stands_once)
{
	enum { ENTRIES_N = 40, JUDGES_N = 5, ITEMS_N = 30 };
	static const char *const judges[JUDGES_N] = {"C", "B", "E", "H", "M"};
	struct rt_classes classes = {0};
	struct rt_class *class_ = RT_LIST_ADD(&classes);
	struct rt_items items = {0};
	struct rt_entries entries = {0};
	struct rt_roster_class sheet = {class_, &items, &entries};
	struct rt_roster_classes sheets = {.at = &sheet, .n = 1};
	struct rt_roster kept = known.roster;
	struct rt_faults faults = {0};
	struct path path = in_folder("boxes");
	FILE *f = fopen(path.text, "w");
	static char names[ITEMS_N + 2][16];
	size_t rows;

	class_->name = "1";
	for (int i = 0; i < JUDGES_N; i++)
		((struct rt_judge *)RT_LIST_ADD(&class_->judges))->position = judges[i];
	for (int i = 0; i < ITEMS_N; i++) {
		struct rt_item *item = RT_LIST_ADD(&items);

		snprintf(names[i], sizeof names[i], "%d", i + 1);
		item->name = names[i];
		item->mark_step_x100 = 50;
	}
	strcpy(names[ITEMS_N], "errors");
	strcpy(names[ITEMS_N + 1], "total");
	fputs(MARKS_HEAD, f);
	for (int n = 1; n <= ENTRIES_N; n++) {
		((struct rt_entry *)RT_LIST_ADD(&entries))->number = n;
		for (int j = 0; j < JUDGES_N; j++)
			for (int i = 0; i < ITEMS_N + 2; i++)
				fprintf(f, "1,%d,%s,%s,6,\n", n, judges[j], names[i]);
	}
	fputs("1,40,M,total,6,\n", f);
	fclose(f);
	known.roster.sheets = &sheets;
	ck_assert_int_eq(read_file(MARKS, path.text, &faults, &rows, NULL), RT_OK);
	known.roster = kept;
	ck_assert_uint_eq(rows, ENTRIES_N * JUDGES_N * (ITEMS_N + 2));
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_int_eq(faults.at[0].line, 2 + ENTRIES_N * JUDGES_N * (ITEMS_N + 2));
	ck_assert_str_eq(faults.at[0].column, "item");
	rt_faults_free(&faults);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&items);
	rt_classes_free(&classes);
}
END_TEST

/* ---- between files ---- */

START_TEST(tests_without_movements_are_told_in_their_own_file)
{
	struct path tests_path = put("tests", TESTS_HEAD "T8,Eight,,,,\n"
							 "T9,Nine,,,,0\n"
							 "T7,Seven,,,,\n");
	struct path items_path = put("items", MOVEMENTS_HEAD "T8,1,,Enter,,,1,movement,0.3\n"
							     "T9,1,,Enter,,,1,movement,\n"
							     "T9,2,,Halt,,,1,movement,\n");
	struct rt_tests tests = {0};
	struct rt_items items = {0};
	struct rt_faults faults = {0};
	char text[2048];

	ck_assert_int_eq(rt_read_tests(&tests, RT_FILE(tests_path.text), NULL, &faults, NULL),
			 RT_OK);
	ck_assert_int_eq(
		rt_read_items(&items, RT_FILE(items_path.text), &tests, NULL, &faults, NULL),
		RT_OK);
	faults_text(&faults, text, sizeof text);
	ck_assert_str_eq(text, "3: multiplier: \"0\" is out of range: a number from 0.000001 to "
			       "999.999999 with at most 6 decimals\n"
			       "2: mark_step: \"0.3\" is no step of marks: 0.05, 0.1, 0.2, 0.25, 0.5 or 1\n"
			       "4: test: \"T7\" has no item: at least one row in the file of "
			       "movements\n");
	ck_assert_str_eq(faults.at[0].file, tests_path.text);
	ck_assert_str_eq(faults.at[1].file, items_path.text);
	ck_assert_str_eq(faults.at[2].file, tests_path.text);
	RT_LIST_FREE(&tests);
	RT_LIST_FREE(&items);
	rt_faults_free(&faults);
}
END_TEST

START_TEST(without_a_roster_no_name_is_checked)
{
	static const enum kind_of_file files[] = {LEVELS, TESTS, CLASSES, ENTRIES};
	struct rt_roster kept = known.roster;
	struct rt_faults faults = {0};
	size_t rows;

	memset(&known.roster, 0, sizeof known.roster);
	for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
		char name[16];

		snprintf(name, sizeof name, "good-%d", files[i]);
		ck_assert_int_eq(read_file(files[i], in_folder(name).text, &faults, &rows, NULL),
				 RT_OK);
		ck_assert_uint_eq(faults.total, 0);
		ck_assert_uint_ge(rows, 2);
	}
	/* Marks are always of a sheet; without any, each is unknown. */
	ck_assert_int_eq(read_file(MARKS, in_folder("good-12").text, &faults, &rows, NULL), RT_OK);
	ck_assert_uint_eq(rows, 0);
	ck_assert_uint_eq(faults.total, 5);
	ck_assert_str_eq(faults.at[0].text, "unknown class \"one\": there is none");
	rt_faults_free(&faults);
	known.roster = kept;
}
END_TEST

int check_intake(void)
{
	Suite *suite = suite_create("intake");
	TCase *all = tcase_create("all");

	suite_add_tcase(suite, all);
	tcase_add_unchecked_fixture(all, set_up, tear_down);
	tcase_add_test(all, rings_are_read);
	tcase_add_test(all, readings_and_points_are_read);
	tcase_add_test(all, levels_gaits_and_turnouts_are_read);
	tcase_add_test(all, footing_rules_are_read);
	tcase_add_test(all, rules_are_read);
	tcase_add_test(all, tests_and_movements_are_read);
	tcase_add_test(all, classes_and_entries_are_read);
	tcase_add_test(all, marks_are_read);
	tcase_add_test(all, one_who_did_not_start_has_no_marks);
	tcase_add_test(all, files_may_be_written_in_many_ways);
	tcase_add_test(all, quoted_fields_hold_anything);
	tcase_add_loop_test(all, faults_are_told_with_their_place, 0,
			    (int)(sizeof faulty / sizeof *faulty));
	tcase_add_loop_test(all, paths_that_are_no_file, 0, KINDS_OF_FILE);
	tcase_add_loop_test(all, a_header_alone_is_a_fault, 0, KINDS_OF_FILE);
	tcase_add_test(all, reading_that_breaks_off_is_an_error);
	tcase_add_test(all, long_lines_and_rows_end_the_reading);
	tcase_add_test(all, long_fields_come_through_whole);
	tcase_add_test(all, long_names_are_refused);
	tcase_add_test(all, all_faults_are_counted);
	tcase_add_test(all, every_box_of_a_class_stands_once);
	tcase_add_test(all, tests_without_movements_are_told_in_their_own_file);
	tcase_add_test(all, without_a_roster_no_name_is_checked);
	return suite_run(suite);
}
