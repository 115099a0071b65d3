/* office: what a typed mark means, a sheet keyed line by line, who keyed what, the register.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof *(table)))

/* ---- typed numbers ---- */

static const struct {
	const char *typed;
	int step_x100;
	int mark_x100; /* -1: refused */
} marks_typed[] = {
	{"65", 50, 650},
	{"6.5", 50, 650},
	{"6,5", 50, 650},
	{"7", 50, 700},
	{"7.0", 50, 700},
	{"10", 50, 1000},
	{"100", 50, 1000},
	{"10.0", 50, 1000},
	{"0", 50, 0},
	{"00", 50, 0},
	{"05", 50, 50},
	{"0.5", 50, 50},
	{"1", 50, 100},
	{"15", 50, 150},
	{"1.0", 50, 100},
	{"95", 50, 950},
	{"66", 50, -1},
	{"6.25", 25, 625},
	{"6,25", 25, 625},
	{"625", 25, 625},
	{"025", 25, 25},
	{"10", 25, 1000},
	{"975", 25, 975},
	{"105", 5, 105},
	{"625", 50, -1},
	{"62", 25, -1},
	{"6.255", 5, -1},
	{"6250", 25, -1},
	{"66", 10, 660},
	{"65", 100, -1},
	{"6", 100, 600},
	{"60", 100, 600},
	{"10.5", 50, -1},
	{"105", 50, -1},
	{"11", 50, -1},
	{"101", 10, -1},
	{"1000", 50, -1},
	{"", 50, -1},
	{"-5", 50, -1},
	{"+6", 50, -1},
	{"6.55", 10, -1},
	{"six", 50, -1},
	{"6..5", 50, -1},
	{"6,5,", 50, -1},
	{"0x6", 50, -1},
	{"1e0", 50, -1},
	{"065", 50, -1},
	{".", 50, -1},
	{"nan", 50, -1},
	{"99", 10, 990},
	{"6.", 70, -1},
	{"9999999999999999999999999", 50, -1},
	{"000000000000000000006.5", 50, 650},  /* 23 characters may be meant */
	{"0000000000000000000006.5", 50, -1}, /* 24 not */
};

START_TEST(a_typed_mark)
{
	int64_t mark = -1;
	bool read = rt_mark_typed(marks_typed[_i].typed, marks_typed[_i].step_x100, &mark);

	ck_assert_msg(read == (marks_typed[_i].mark_x100 >= 0) && mark == marks_typed[_i].mark_x100,
		      "\"%s\" in steps of %d is %d", marks_typed[_i].typed,
		      marks_typed[_i].step_x100, (int)mark);
}
END_TEST

/* Every mark can be typed as it is written, and without its point. */
START_TEST(every_mark_can_be_typed)
{
	for (int step = 5; step <= 1000; step += 5) {
		for (int mark = 0; mark <= 1000; mark += step) {
			char typed[24];
			int64_t v = -1;

			rt_format_short(mark, 2, 1, typed, sizeof typed);
			ck_assert(rt_mark_typed(typed, step, &v) && v == mark);
			if (mark == 100)
				snprintf(typed, sizeof typed, "1");
			else
				snprintf(typed, sizeof typed, mark % 10 ? "%03d" : "%02d",
					 mark % 10 ? mark : mark / 10);
			ck_assert(rt_mark_typed(typed, step, &v) && v == mark);
		}
	}
}
END_TEST

START_TEST(what_is_accepted)
{
	char words[100];

	rt_mark_accepted(25, words, sizeof words);
	ck_assert_str_eq(words, "0 to 10 in steps of 0.25, typed as 625 or 6.25");
	rt_mark_accepted(50, words, sizeof words);
	ck_assert_str_eq(words, "0 to 10 in steps of 0.5, typed as 65 or 6.5");
	rt_mark_accepted(100, words, sizeof words);
	ck_assert_str_eq(words, "0 to 10 in steps of 1");
}
END_TEST

START_TEST(typed_errors_and_totals)
{
	int64_t v;

	ck_assert(rt_sheet_errors_typed("0", &v) && v == 0);
	ck_assert(rt_sheet_errors_typed("9", &v) && v == 9);
	ck_assert(!rt_sheet_errors_typed("10", &v) && !rt_sheet_errors_typed("-1", &v));
	ck_assert(!rt_sheet_errors_typed("", &v) && !rt_sheet_errors_typed("1.0", &v));
	ck_assert(rt_total_typed("112.5", 18000000, &v) && v == 11250000);
	ck_assert(rt_total_typed("112,5", 18000000, &v) && v == 11250000);
	ck_assert(rt_total_typed("180", 18000000, &v) && v == 18000000);
	ck_assert(rt_total_typed("0", 18000000, &v) && v == 0);
	ck_assert(!rt_total_typed("180.1", 18000000, &v) && !rt_total_typed("1.000001", 18000000, &v));
	ck_assert(!rt_total_typed("", 18000000, &v) && !rt_total_typed("-1", 18000000, &v));
}
END_TEST

START_TEST(one_person)
{
	ck_assert(rt_same_name("Åsa Ek", "asa  EK"));
	ck_assert(!rt_same_name("Åsa Ek", "Åsa Eck"));
	ck_assert(!rt_same_name(NULL, "Ann") && !rt_same_name("Ann", NULL));
	ck_assert(!rt_same_name(NULL, NULL));
}
END_TEST

/* ---- a sheet keyed line by line ---- */

struct desk {
	struct office_class c;
	struct rt_keying k;
	int64_t version;
	char said[600];
};

/* Four items, the third of whole marks with coefficient 2, under judge C. */
static void sit_down(struct desk *d, bool gaps)
{
	memset(d, 0, sizeof *d);
	office_open(&d->c, "driven-percent", "C B");
	office_item(&d->c, 1000, RT_GROUP_MOVEMENT);
	office_item(&d->c, 1000, RT_GROUP_MOVEMENT);
	office_item(&d->c, 2000, RT_GROUP_MOVEMENT);
	office_item(&d->c, 1500, RT_GROUP_GENERAL);
	for (size_t i = 0; i < d->c.items.n; i++)
		d->c.items.at[i].id = (int64_t)i + 101;
	d->c.items.at[2].mark_step_x100 = 100;
	d->c.items.at[1].letters = "X C";
	d->c.items.at[1].movement = "Straight on";
	ck_assert_int_eq(rt_keying_make(&d->k, &d->c.items, gaps, NULL), RT_OK);
}

static void stand_up(struct desk *d)
{
	rt_keying_free(&d->k);
	office_close(&d->c);
}

/* Type a line; a mark is kept at once. */
static enum rt_keying_act type(struct desk *d, const char *typed)
{
	struct rt_keying_step step;
	char line[1000];

	snprintf(line, sizeof line, "%s", typed);
	rt_keying_take(&d->k, line, &step);
	snprintf(d->said, sizeof d->said, "%s", step.say);
	if (step.act == RT_KEYING_KEEP)
		ck_assert_int_eq(rt_keying_kept(&d->k, &step, ++d->version, NULL), RT_OK);
	return step.act;
}

static void asks(const struct desk *d, const char *prompt)
{
	char text[1200];

	rt_keying_prompt(&d->k, text, sizeof text);
	ck_assert_str_eq(text, prompt);
}

START_TEST(a_sheet_from_the_first_box_to_the_last)
{
	struct desk d;

	sit_down(&d, false);
	asks(&d, "1  , coefficient 1\n    0.0 of 0.0 so far; mark: ");
	ck_assert_int_eq(type(&d, "65"), RT_KEYING_KEEP);
	asks(&d, "2  X C  Straight on, coefficient 1\n    6.5 of 10.0 so far; mark: ");
	ck_assert_int_eq(type(&d, " 7 "), RT_KEYING_KEEP);
	ck_assert_int_eq(type(&d, "8"), RT_KEYING_KEEP);
	asks(&d, "4  , coefficient 1.5\n    29.5 of 40.0 so far; mark: ");
	ck_assert_int_eq(type(&d, "6.5"), RT_KEYING_KEEP);
	asks(&d, "Errors of course on this sheet, Enter when there are none\n"
		 "    39.25 of 55.0; errors: ");
	ck_assert(!rt_keying_whole(&d.k));
	ck_assert_int_eq(type(&d, ""), RT_KEYING_KEEP);
	ck_assert_int_eq(d.k.box[4].value, 0);
	ck_assert(rt_keying_whole(&d.k));
	asks(&d, "Hand total on this sheet as t 143.5, Enter when there is none\n    total: ");
	ck_assert_int_eq(type(&d, "39.25"), RT_KEYING_ASK); /* a mark too many */
	ck_assert_str_eq(d.said, "\"39.25\" without a t: a hand total is typed as t 143.5; Enter "
				 "when there is none.");
	ck_assert_int_eq(type(&d, "t 39.25"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.said, "");
	asks(&d, "4 of 4 boxes keyed, 39.25 of 55.0; errors of course 0; hand total 39.25\n"
		 "    Enter to finish, b to go back: ");
	ck_assert_int_eq(type(&d, "7"), RT_KEYING_ASK);
	ck_assert_int_eq(type(&d, ""), RT_KEYING_END);
	stand_up(&d);
}
END_TEST

START_TEST(a_total_that_is_not_the_sum_is_said)
{
	struct desk d;

	sit_down(&d, false);
	for (size_t i = 0; i < d.c.items.n; i++)
		type(&d, "6");
	ck_assert_int_eq(type(&d, "7"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.said, "7 errors of course: look again; b goes back.");
	type(&d, "b");
	ck_assert_int_eq(type(&d, "3"), RT_KEYING_KEEP); /* it eliminates */
	ck_assert_str_eq(d.said, "3 errors of course: look again; b goes back.");
	type(&d, "b");
	ck_assert_int_eq(type(&d, "2"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.said, "");
	ck_assert_int_eq(type(&d, "t34"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.said, "The boxes add up to 33.0: look at both again; b goes back.");
	type(&d, "b");
	ck_assert_int_eq(type(&d, "t 100"), RT_KEYING_ASK);
	ck_assert_str_eq(d.said, "\"100\" is no total: 0 to 55.0; ? for help.");
	stand_up(&d);
}
END_TEST

START_TEST(what_cannot_be_read_is_said_with_what_can)
{
	struct desk d;

	sit_down(&d, false);
	type(&d, "66");
	ck_assert_str_eq(d.said, "\"66\" is no mark: 0 to 10 in steps of 0.5, typed as 65 or 6.5; "
				 "? for help.");
	type(&d, "6 5");
	ck_assert_str_eq(d.said, "One mark at a time; a remark behind it begins with a letter.");
	type(&d, "6 a\tb");
	ck_assert_str_eq(d.said, "The remark is not plain text in UTF-8: type the mark again.");
	type(&d, "6 \xff");
	ck_assert_str_eq(d.said, "The remark is not plain text in UTF-8: type the mark again.");
	type(&d, "");
	ck_assert_str_eq(d.said, "This box is empty: type what the sheet says; ? for help.");
	type(&d, "-");
	ck_assert_str_eq(d.said, "No box of this sheet may stay empty; --unfinished allows it.");
	type(&d, "b");
	ck_assert_str_eq(d.said, "This is the first box.");
	type(&d, "?");
	ck_assert_ptr_nonnull(strstr(d.said, "p pauses"));
	ck_assert_uint_eq(d.k.at, 0);
	ck_assert_int_eq(d.version, 0);
	type(&d, "6");
	type(&d, "6");
	type(&d, "65");
	ck_assert_str_eq(d.said, "\"65\" is no mark: 0 to 10 in steps of 1; ? for help.");
	type(&d, "6");
	type(&d, "6");
	type(&d, "x");
	ck_assert_str_eq(d.said, "\"x\" is no number of errors: 0 to 9; ? for help.");
	stand_up(&d);
}
END_TEST

START_TEST(remarks)
{
	struct desk d;
	char longest[600] = "6 ";

	sit_down(&d, false);
	ck_assert_int_eq(type(&d, "65  late at E"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.k.box[0].remark, "late at E");
	type(&d, "b");
	ck_assert_int_eq(type(&d, "65"), RT_KEYING_ASK); /* as it was: nothing to keep */
	type(&d, "b");
	ck_assert_int_eq(type(&d, "6"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.k.box[0].remark, "late at E"); /* it stays with the box */
	type(&d, "b");
	ck_assert_int_eq(type(&d, "6 häst"), RT_KEYING_KEEP);
	ck_assert_str_eq(d.k.box[0].remark, "häst");
	memset(longest + 2, 'x', 500);
	ck_assert_int_eq(type(&d, longest), RT_KEYING_KEEP);
	type(&d, "b");
	memset(longest + 2, 'y', 501);
	ck_assert_int_eq(type(&d, longest), RT_KEYING_ASK);
	ck_assert_str_eq(d.said, "The remark is too long: at most 500 characters.");
	stand_up(&d);
}
END_TEST

/* A mark goes into the box that is asked for, and the next one behind it. */
START_TEST(a_step_back)
{
	struct desk d;

	sit_down(&d, false);
	type(&d, "6");
	type(&d, "7");
	type(&d, "8");
	type(&d, "b");
	type(&d, "b");
	type(&d, "b");
	asks(&d, "1  , coefficient 1\n    29.0 of 40.0 so far; mark [6.0]: ");
	ck_assert_int_eq(type(&d, "5"), RT_KEYING_KEEP);
	ck_assert_uint_eq(d.k.at, 1);
	ck_assert_int_eq(type(&d, "65"), RT_KEYING_KEEP);
	ck_assert_uint_eq(d.k.at, 2);
	ck_assert_int_eq(d.k.box[1].value, 650);
	ck_assert_int_eq(type(&d, ""), RT_KEYING_ASK); /* Enter keeps */
	ck_assert_uint_eq(d.k.at, 3);
	ck_assert_int_eq(d.version, 5);
	ck_assert_int_eq(type(&d, "p"), RT_KEYING_PAUSE);
	stand_up(&d);
}
END_TEST

static const struct {
	const char *typed;
	size_t from, to; /* of four items, the last one empty */
	const char *said;
} moves[] = {
	{"h", 3, 0, ""},
	{"e", 0, 3, ""},
	{"f", 0, 1, ""},
	{"ff", 0, 3, ""},
	{"f", 3, 3, "This box is empty: type what the sheet says."},
	{"bb", 2, 0, ""},
	{"bb", 0, 0, "This is the first box."},
	{"f", 6, 6, "This is the end of the sheet."},
	{"f", 5, 6, ""},
	{"h", 6, 0, ""},
};

START_TEST(ways_on_a_sheet)
{
	struct desk d;

	sit_down(&d, false);
	type(&d, "6");
	type(&d, "7");
	type(&d, "8");
	d.k.at = moves[_i].from;
	ck_assert_int_eq(type(&d, moves[_i].typed), RT_KEYING_ASK);
	ck_assert_uint_eq(d.k.at, moves[_i].to);
	ck_assert_str_eq(d.said, moves[_i].said);
	ck_assert_int_eq(d.version, 3);
	stand_up(&d);
}
END_TEST

/* Type a row to its end; how many marks were kept. */
static int64_t type_row(struct desk *d, const char *row)
{
	char pair[RT_KEYING_PAIR];
	int64_t before = d->version;

	type(d, row);
	while (rt_keying_row(&d->k, pair))
		type(d, pair);
	return d->version - before;
}

START_TEST(a_row_of_marks)
{
	struct desk d;

	sit_down(&d, false);
	ck_assert_int_eq(type_row(&d, "6570"), 2);
	ck_assert_int_eq(d.k.box[0].value, 650);
	ck_assert_int_eq(d.k.box[1].value, 700);
	ck_assert_int_eq(type_row(&d, "60105"), 0);
	ck_assert_str_eq(d.said, "A row of marks has two digits for each: 65707560; this one is "
				 "odd.");
	ck_assert_int_eq(type_row(&d, "6065"), 2); /* the third has whole marks */
	d.k.at = 0;
	ck_assert_int_eq(type_row(&d, "656566"), 0);
	ck_assert_str_eq(d.said, "\"66\" is no mark of item 3: 0 to 10 in steps of 1; nothing of "
				 "the row was taken.");
	ck_assert_int_eq(type_row(&d, "6565606565"), 0);
	ck_assert_str_eq(d.said, "5 marks, but 4 boxes are left: nothing of the row was taken.");
	ck_assert_int_eq(type_row(&d, "10050010"), 4);
	ck_assert_int_eq(d.k.box[0].value, 1000);
	ck_assert_int_eq(d.k.box[1].value, 50);
	ck_assert_uint_eq(d.k.at, 4);
	d.k.at = 0;
	type(&d, "6065");
	rt_keying_drop_row(&d.k);
	ck_assert(!rt_keying_row(&d.k, (char[RT_KEYING_PAIR]){0}));
	ck_assert_uint_eq(d.k.at, 1);
	stand_up(&d);
}
END_TEST

START_TEST(empty_boxes)
{
	struct desk d;

	sit_down(&d, true);
	type(&d, "6");
	ck_assert_int_eq(type(&d, "-"), RT_KEYING_ASK);
	ck_assert_uint_eq(d.k.at, 2);
	type(&d, "b");
	type(&d, "b");
	type(&d, "-");
	ck_assert_str_eq(d.said,
			 "A box that is keyed stays keyed: Enter keeps it, or type another mark.");
	type(&d, "");
	type(&d, "--");
	ck_assert_uint_eq(d.k.at, 4); /* the errors of course */
	type(&d, "0");
	type(&d, "");
	ck_assert_int_eq(type(&d, ""), RT_KEYING_END);
	ck_assert_uint_eq(rt_keying_filled(&d.k), 1);
	/* The same sheet, where none may stay empty. */
	d.k.gaps = false;
	ck_assert_int_eq(type(&d, ""), RT_KEYING_ASK);
	ck_assert_str_eq(d.said, "3 boxes are empty: 2, 3, 4. Ask the judge: pause (p), or end it "
				 "so with --unfinished.");
	ck_assert_uint_eq(d.k.at, 1);
	stand_up(&d);
}
END_TEST

/* Eight are named, the others are counted: ten items and the errors of course. */
START_TEST(many_empty_boxes)
{
	struct desk d = {.version = 0};

	office_open(&d.c, "driven-percent", "C");
	office_items(&d.c, 10);
	ck_assert_int_eq(rt_keying_make(&d.k, &d.c.items, true, NULL), RT_OK);
	type(&d, "--");
	type(&d, "-");
	type(&d, "");
	d.k.gaps = false;
	ck_assert_int_eq(type(&d, ""), RT_KEYING_ASK);
	ck_assert_str_eq(d.said, "11 boxes are empty: 1, 2, 3, 4, 5, 6, 7, 8 and 3 more. Ask the "
				 "judge: pause (p), or end it so with --unfinished.");
	stand_up(&d);
}
END_TEST

/* A box whose judge cannot be asked is no reason to stop. */
START_TEST(a_missing_box)
{
	struct desk d;

	sit_down(&d, false);
	d.k.box[1].missing = true;
	type(&d, "6");
	asks(&d, "2  X C  Straight on, coefficient 1\n"
		 "    6.0 of 10.0 so far; mark [missing, Enter leaves it so]: ");
	ck_assert_int_eq(type(&d, ""), RT_KEYING_ASK);
	ck_assert_uint_eq(d.k.at, 2);
	type(&d, "b");
	ck_assert_int_eq(type(&d, "--"), RT_KEYING_ASK); /* this box, not the rest */
	ck_assert_uint_eq(d.k.at, 2);
	type(&d, "7");
	type(&d, "7");
	ck_assert(!rt_keying_whole(&d.k));
	type(&d, "0");
	ck_assert(rt_keying_whole(&d.k));
	ck_assert_uint_eq(rt_keying_filled(&d.k), 3);
	type(&d, "");
	ck_assert_int_eq(type(&d, ""), RT_KEYING_END);
	stand_up(&d);
}
END_TEST

/* ---- versions ---- */

static void add_version(struct rt_mark_versions *v, int64_t judge, enum rt_mark_kind kind,
			int64_t item, int keying, int64_t version, int64_t value, int64_t pass,
			const char *who)
{
	struct rt_mark_version *row = RT_LIST_ADD(v);

	ck_assert_ptr_nonnull(row);
	*row = (struct rt_mark_version){.entry = 7,
					.judge = judge,
					.item = item,
					.kind = kind,
					.keying = keying,
					.version = version,
					.value = value,
					.pass = pass,
					.who = who,
					.when = "2026-05-09 10:00"};
}

START_TEST(a_sheet_is_resumed)
{
	struct rt_mark_versions v = {0};
	struct desk d;

	sit_down(&d, false);
	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 1, 600, 1, "Ann");
	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 2, 650, 2, "Bob");
	add_version(&v, 1, RT_MARK_ITEM, 102, 2, 1, 700, 3, "Cay"); /* another keying */
	add_version(&v, 1, RT_MARK_ITEM, 103, 1, 1, 800, 1, "Ann");
	add_version(&v, 2, RT_MARK_ITEM, 102, 1, 1, 800, 1, "Ann"); /* another sheet */
	ck_assert_int_eq(rt_keying_resume(&d.k, &v, 7, 1, 1, NULL), RT_OK);
	asks(&d, "2  X C  Straight on, coefficient 1\n    22.5 of 30.0 so far; mark: ");
	ck_assert_int_eq(d.k.box[0].version, 2);
	RT_LIST_FREE(&v);
	stand_up(&d);
}
END_TEST

START_TEST(who_keyed_a_sheet)
{
	struct rt_mark_versions v = {0};

	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 1, 600, 1, "Ann");
	add_version(&v, 1, RT_MARK_ITEM, 101, 2, 1, 600, 2, NULL);
	add_version(&v, 1, RT_MARK_ITEM, 102, 1, 1, 600, 3, "Bob");
	v.at[2].source = RT_SOURCE_FIX;
	add_version(&v, 1, RT_MARK_TOTAL, 0, 2, 1, 60, 4, "Cay");
	add_version(&v, 2, RT_MARK_ITEM, 101, 1, 1, 600, 5, "Dan");
	ck_assert_ptr_eq(rt_keyed_by(&v, 7, 1, 0, "ANN"), &v.at[0]);
	ck_assert_ptr_eq(rt_keyed_by(&v, 7, 1, 1, "Ann"), &v.at[0]);
	ck_assert_ptr_null(rt_keyed_by(&v, 7, 1, 2, "Ann"));
	ck_assert_ptr_null(rt_keyed_by(&v, 7, 1, 0, "Bob")); /* a fix is no keying */
	ck_assert_ptr_null(rt_keyed_by(&v, 7, 1, 0, "Cay")); /* nor is a sum */
	ck_assert_ptr_null(rt_keyed_by(&v, 7, 1, 0, "Dan"));
	ck_assert_ptr_null(rt_keyed_by(&v, 7, 1, 0, NULL));
	ck_assert_ptr_eq(rt_keyed_by(&v, 7, 2, 0, "Dan"), &v.at[4]);
	ck_assert_ptr_null(rt_keyed_by(&v, 8, 1, 0, "Ann"));
	RT_LIST_FREE(&v);
}
END_TEST

/* ---- one keying and a hand total ---- */

/* Entry 7 under judge C alone: four items of 1.0 keyed once by Ann, and a total by `who`. */
static void open_totalled(struct desk *d, struct rt_mark_versions *v, int64_t total_x100000,
			  const char *keyer, const char *adder)
{
	memset(d, 0, sizeof *d);
	memset(v, 0, sizeof *v);
	office_open(&d->c, "driven-percent", "C");
	office_items(&d->c, 4);
	d->c.class_.judges.at[0].id = 1;
	office_entry(&d->c, 7)->id = 7;
	office_sheets(&d->c);
	for (size_t i = 0; i < 4; i++) {
		d->c.items.at[i].id = (int64_t)i + 101;
		office_mark(&d->c, 0, 0, i, 0, 600);
		add_version(v, 1, RT_MARK_ITEM, (int64_t)i + 101, 1, 1, 600, 1, keyer);
	}
	office_total(&d->c, 0, 0, 1, total_x100000);
	add_version(v, 1, RT_MARK_TOTAL, 0, 2, 1, total_x100000, 2, adder);
	rt_totals_by_others(&d->c.marks, v);
}

static const struct {
	int64_t total_x100000;
	const char *keyer, *adder;
	bool complete;
} totals[] = {
	{2400000, "Ann", "Bob", true}, {2400000, "Ann", "ann", false}, {2400000, "Ann", NULL, false},
	{2400000, NULL, "Bob", false}, {2450000, "Ann", "Bob", false}, {-1, "Ann", "Bob", false},
};

START_TEST(a_hand_total_is_the_second_check)
{
	struct rt_mark_versions v;
	struct rt_results r;
	struct desk d;

	open_totalled(&d, &v, totals[_i].total_x100000, totals[_i].keyer, totals[_i].adder);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert_int_eq(r.complete, totals[_i].complete);
	ck_assert_int_eq(r.single_keying, !totals[_i].complete);
	ck_assert_uint_eq(r.at[0].single, totals[_i].complete ? 0 : 4);
	if (totals[_i].complete) {
		ck_assert_uint_eq(r.notes.n, 1);
		ck_assert_str_eq(r.notes.at[0], "Keyed once, with the hand total of another person "
						"as the second check: 7 C.");
	}
	rt_results_free(&r);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

/* Errors of course keyed once are not in the sum: they want a second look of their own. */
START_TEST(errors_want_their_own_check)
{
	struct rt_mark_versions v;
	struct rt_results r;
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Bob");
	office_errors(&d.c, 0, 0, 0, 1);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert(!r.complete);
	ck_assert_uint_eq(r.at[0].single, 1);
	rt_results_free(&r);
	office_errors(&d.c, 0, 0, 1, 1);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert(r.complete);
	rt_results_free(&r);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

START_TEST(an_empty_or_differing_box_is_not_summed)
{
	struct rt_mark_versions v;
	struct rt_results r;
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Bob");
	office_mark(&d.c, 0, 0, 2, 1, 650);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert(!r.complete && r.single_keying);
	rt_results_free(&r);
	office_mark(&d.c, 0, 0, 2, 1, RT_NO_MARK);
	office_mark(&d.c, 0, 0, 2, 0, RT_NO_MARK);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert(!r.complete && r.single_keying);
	rt_results_free(&r);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

/* ---- the register and the comparison ---- */

static const char *text_at(const struct rt_table *t, size_t row, const char *column)
{
	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, column) == 0) {
			const struct rt_value *v = rt_table_cell(t, row, i);

			return v->null ? "(null)" : v->as.text;
		}
	ck_abort_msg("no column %s", column);
}

/* What the register says of the one sheet after these events. */
static void registered(const struct desk *d, const struct rt_mark_versions *v,
		       const struct rt_sheet_events *events, const char *state, const char *wants)
{
	struct rt_report report = {0};

	rt_sheets_report(&report, &d->c.marks, v, events, -1, false);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 1);
	ck_assert_str_eq(text_at(report.table[0], 0, "state"), state);
	ck_assert_str_eq(text_at(report.table[0], 0, "waiting_for"), wants);
	rt_report_free(&report);
}

static void say_event(struct rt_sheet_events *events, enum rt_sheet_state state, const char *why)
{
	struct rt_sheet_event *event = RT_LIST_ADD(events);

	ck_assert_ptr_nonnull(event);
	*event = (struct rt_sheet_event){7, 1, state, why, "Tom", "2026-05-09 11:00"};
}

START_TEST(where_a_sheet_is)
{
	struct rt_sheet_events events = {0};
	struct rt_mark_versions v, none = {0};
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Ann");
	registered(&d, &v, &events, "keyed", "the second keying, or another person's hand total");
	for (size_t i = 0; i < 4; i++)
		office_mark(&d.c, 0, 0, i, 0, RT_NO_MARK);
	/* Who added it up had it. */
	registered(&d, &none, &events, "in", "the first keying");
	office_total(&d.c, 0, 0, 1, RT_NO_MARK);
	registered(&d, &none, &events, "expected", "the sheet");
	office_total(&d.c, 0, 0, 1, 2400000);
	say_event(&events, RT_SHEET_IN, NULL);
	registered(&d, &none, &events, "in", "the first keying");
	office_mark(&d.c, 0, 0, 0, 0, 600);
	registered(&d, &v, &events, "in", "the first keying: 1 of 4 boxes");
	say_event(&events, RT_SHEET_QUERIED, "item 3 is empty");
	registered(&d, &v, &events, "queried", "the judge's answer: item 3 is empty");
	say_event(&events, RT_SHEET_IN, NULL);
	for (size_t i = 0; i < 4; i++)
		office_mark(&d.c, 0, 0, i, 0, 600);
	office_mark(&d.c, 0, 0, 0, 1, 600);
	registered(&d, &v, &events, "keyed", "the second keying: 1 of 4 boxes");
	office_mark(&d.c, 0, 0, 0, 1, 650);
	registered(&d, &v, &events, "keyed", "1 difference between the keyings");
	for (size_t i = 0; i < 4; i++)
		office_mark(&d.c, 0, 0, i, 1, 600);
	registered(&d, &v, &events, "compared", "(null)");
	office_total(&d.c, 0, 0, 0, 2300000);
	registered(&d, &v, &events, "keyed", "1 difference between the keyings");
	office_total(&d.c, 0, 0, 0, 2400000);
	office_errors(&d.c, 0, 0, 0, 0);
	registered(&d, &v, &events, "keyed", "the second keying: 4 of 5 boxes");
	office_errors(&d.c, 0, 0, 1, 0);
	say_event(&events, RT_SHEET_RETURNED, NULL);
	registered(&d, &v, &events, "returned", "(null)");
	RT_LIST_FREE(&events);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

START_TEST(a_total_makes_a_sheet_compared)
{
	struct rt_sheet_events events = {0};
	struct rt_mark_versions v;
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Bob");
	registered(&d, &v, &events, "compared", "(null)");
	office_errors(&d.c, 0, 0, 0, 1);
	registered(&d, &v, &events, "keyed", "the errors of course a second time");
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

START_TEST(who_left_is_not_waited_for)
{
	static const enum rt_status out[] = {RT_RETIRED, RT_ELIMINATED, RT_DISQUALIFIED};
	struct rt_sheet_events events = {0};
	struct rt_mark_versions v;
	struct rt_report report = {0};
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Ann");
	for (size_t i = 0; i < sizeof out / sizeof *out; i++) {
		d.c.entries.at[0].status = out[i];
		registered(&d, &v, &events, "keyed", "(null)");
	}
	d.c.entries.at[0].status = RT_WITHDRAWN;
	rt_sheets_report(&report, &d.c.marks, &v, &events, -1, false);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 0);
	ck_assert_str_eq(report.note[0], "No sheet is waited for.");
	rt_report_free(&report);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

START_TEST(missing_boxes_and_judges_who_were_away)
{
	struct rt_sheet_events events = {0};
	struct rt_mark_versions v;
	struct rt_report report = {0};
	struct rt_results r;
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Bob");
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(&d.c, 0, 0, 1, k, RT_NO_MARK);
	registered(&d, &v, &events, "in", "the first keying: 3 of 4 boxes");
	rt_class_marks_box(&d.c.marks, 0, 0, 1)->missing = true;
	registered(&d, &v, &events, "keyed", "the second keying, or another person's hand total");
	office_mark(&d.c, 0, 0, 1, 0, 600);
	d.c.marks.lines[0].away = true;
	rt_sheets_report(&report, &d.c.marks, &v, &events, -1, false);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 0);
	rt_report_free(&report);
	ck_assert_int_eq(rt_results_make(&r, &d.c.marks, NULL), RT_OK);
	ck_assert_uint_eq(r.at[0].single, 0);
	rt_results_free(&r);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

enum { DIFFERENCES, TOTALS, ONCE, SAME_PERSON };

static void compare(struct rt_report *report, const struct desk *d,
		    const struct rt_mark_versions *v)
{
	rt_report_free(report);
	*report = (struct rt_report){0};
	rt_compare_report(report, &d->c.marks, v, -1);
}

START_TEST(keyings_side_by_side)
{
	struct rt_report report = {0};
	struct rt_mark_versions v;
	struct desk d;

	open_totalled(&d, &v, 2400000, "Ann", "Bob");
	compare(&report, &d, &v);
	ck_assert(!report.needs_person);
	ck_assert_uint_eq(rt_table_rows(report.table[ONCE]), 0); /* the total checks it */
	office_total(&d.c, 0, 0, 1, 2500000);
	compare(&report, &d, &v);
	ck_assert(report.needs_person);
	ck_assert_uint_eq(rt_table_rows(report.table[TOTALS]), 1);
	ck_assert_str_eq(text_at(report.table[TOTALS], 0, "by"), "Bob");
	ck_assert_uint_eq(rt_table_rows(report.table[ONCE]), 1);
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "items"), "all");
	office_total(&d.c, 0, 0, 1, RT_NO_MARK);
	office_mark(&d.c, 0, 0, 0, 1, 600);
	office_mark(&d.c, 0, 0, 1, 1, 650);
	compare(&report, &d, &v);
	ck_assert(report.needs_person);
	ck_assert_uint_eq(rt_table_rows(report.table[DIFFERENCES]), 1);
	ck_assert_str_eq(text_at(report.table[DIFFERENCES], 0, "item"), "2");
	ck_assert_str_eq(text_at(report.table[DIFFERENCES], 0, "first_by"), "Ann");
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "items"), "3, 4");
	d.c.entries.at[0].status = RT_RETIRED;
	compare(&report, &d, &v);
	ck_assert(!report.needs_person);
	rt_report_free(&report);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

/* The names of the boxes keyed once have 399 bytes: two of 199 and 198 with what stands between
 * them, and not a byte more. */
START_TEST(long_names_of_boxes_keyed_once)
{
	struct rt_mark_versions none = {0};
	struct rt_report report = {0};
	char first[200], second[200], both[404];
	struct desk d = {.version = 0};

	memset(first, 'a', 199);
	memset(second, 'b', 199);
	first[199] = second[198] = second[199] = '\0';
	office_open(&d.c, "driven-percent", "C");
	office_items(&d.c, 3);
	office_entry(&d.c, 7);
	office_sheets(&d.c);
	office_mark(&d.c, 0, 0, 0, 0, 600);
	office_mark(&d.c, 0, 0, 1, 0, 600);
	d.c.items.at[0].name = first;
	d.c.items.at[1].name = second;
	snprintf(both, sizeof both, "%s, %s", first, second);
	compare(&report, &d, &none);
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "items"), both);
	second[198] = 'b';
	compare(&report, &d, &none);
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "items"), first);
	rt_report_free(&report);
	office_close(&d.c);
}
END_TEST

/* Errors of course keyed once are a box of the sheet like another, by whom they were keyed. */
START_TEST(errors_keyed_once)
{
	struct rt_report report = {0};
	struct rt_mark_versions v;
	struct desk d;

	open_totalled(&d, &v, -1, "Ann", NULL);
	for (size_t i = 0; i < 4; i++)
		office_mark(&d.c, 0, 0, i, 1, i == 2 ? 650 : 600);
	office_errors(&d.c, 0, 0, 0, 1);
	add_version(&v, 1, RT_MARK_ERRORS, 0, 1, 1, 1, 1, "Cay");
	add_version(&v, 1, RT_MARK_ERRORS, 0, 2, 1, 1, 1, "Dan");
	compare(&report, &d, &v);
	ck_assert_uint_eq(rt_table_rows(report.table[ONCE]), 1);
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "items"), "errors");
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "by"), "Cay");
	ck_assert_int_eq(rt_table_cell(report.table[ONCE], 0, 2)->as.whole, 1);
	ck_assert_int_eq(rt_table_cell(report.table[ONCE], 0, 3)->as.whole, 5);
	ck_assert_str_eq(report.note[0], "1 box is to be settled: look at the sheet, then mark "
					 "fix. Until then it counts for nothing.");
	office_mark(&d.c, 0, 0, 3, 1, 650);
	compare(&report, &d, &v);
	ck_assert_str_eq(report.note[0], "2 boxes are to be settled: look at the sheet, then mark "
					 "fix. Until then they count for nothing.");
	rt_report_free(&report);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

/* Two entries under two judges: every sheet is waited for, every version told under its names. */
START_TEST(all_sheets_are_listed)
{
	struct rt_sheet_events none = {0};
	struct rt_mark_versions v = {0};
	struct rt_report report = {0};
	const struct rt_table *t;
	struct desk d;

	sit_down(&d, false);
	d.c.class_.judges.at[0].id = 1;
	d.c.class_.judges.at[1].id = 2;
	office_entry(&d.c, 7)->id = 7;
	office_entry(&d.c, 9)->id = 9;
	office_sheets(&d.c);
	rt_sheets_report(&report, &d.c.marks, &v, &none, -1, true);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 4);
	ck_assert_str_eq(report.note[0], "4 of 4 sheets are waited for: 4 expected.");
	rt_report_free(&report);
	rt_sheets_report(&report, &d.c.marks, &v, &none, 9, true);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 2);
	rt_report_free(&report);

	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 1, 600, 1, "Ann");
	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 2, 650, 2, "Bob");
	add_version(&v, 1, RT_MARK_ITEM, 104, 1, 1, 700, 1, "Ann");
	add_version(&v, 1, RT_MARK_ERRORS, 0, 1, 1, 0, 1, "Ann");
	add_version(&v, 2, RT_MARK_ITEM, 102, 2, 1, 725, 3, "Ann");
	rt_history_report(&report, &d.c.marks, &v, NULL, NULL);
	t = report.table[0];
	ck_assert_uint_eq(rt_table_rows(t), 5);
	ck_assert_str_eq(text_at(t, 0, "item"), "1");
	ck_assert_str_eq(text_at(t, 2, "item"), "4");
	ck_assert_str_eq(text_at(t, 3, "item"), "errors");
	ck_assert_str_eq(text_at(t, 4, "judge"), "B");
	rt_history_report(&report, &d.c.marks, &v, "C", "1");
	ck_assert_uint_eq(rt_table_rows(report.table[1]), 2);
	/* what holds of the first keying: the later version of a box */
	rt_marks_report(&report, &d.c.marks, &v, 1);
	t = report.table[2];
	ck_assert_uint_eq(rt_table_rows(t), 3);
	ck_assert_str_eq(text_at(t, 0, "item"), "1");
	ck_assert_int_eq(rt_table_cell(t, 0, 4)->as.whole, 65);
	ck_assert_str_eq(text_at(t, 1, "item"), "4");
	ck_assert_str_eq(text_at(t, 2, "item"), "errors");
	/* a box of B that is keyed once is none of the sheet of C */
	for (size_t i = 0; i < 4; i++)
		for (int k = 0; k < RT_KEYINGS; k++)
			office_mark(&d.c, 0, 0, i, k, 600);
	office_mark(&d.c, 0, 1, 0, 0, 600);
	rt_report_free(&report);
	compare(&report, &d, &v);
	ck_assert_uint_eq(rt_table_rows(report.table[ONCE]), 1);
	ck_assert_str_eq(text_at(report.table[ONCE], 0, "judge"), "B");
	ck_assert_int_eq(rt_table_cell(report.table[ONCE], 0, 2)->as.whole, 1);
	rt_report_free(&report);
	RT_LIST_FREE(&v);
	stand_up(&d);
}
END_TEST

/* All noughts add up to nothing, which somebody else can find out too. */
START_TEST(a_total_of_nothing_is_one)
{
	struct rt_mark_versions v;
	struct desk d;

	open_totalled(&d, &v, 0, "Ann", "Bob");
	ck_assert(d.c.marks.lines[0].total_by_other[1]);
	ck_assert(!d.c.marks.lines[0].total_by_other[0]);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

START_TEST(both_keyings_by_one_person)
{
	struct rt_report report = {0};
	struct rt_mark_versions v = {0};
	struct desk d;

	open_totalled(&d, &v, -1, "Ann", NULL);
	RT_LIST_FREE(&v);
	add_version(&v, 1, RT_MARK_ITEM, 101, 1, 1, 600, 1, "Ann");
	add_version(&v, 1, RT_MARK_ITEM, 101, 2, 1, 600, 2, "Bob");
	add_version(&v, 1, RT_MARK_ITEM, 102, 1, 1, 600, 1, "Ann");
	add_version(&v, 1, RT_MARK_ITEM, 102, 2, 1, 600, 3, "ann");
	compare(&report, &d, &v);
	ck_assert_uint_eq(rt_table_rows(report.table[SAME_PERSON]), 1);
	ck_assert_str_eq(text_at(report.table[SAME_PERSON], 0, "by"), "Ann");
	rt_report_free(&report);
	RT_LIST_FREE(&v);
	office_close(&d.c);
}
END_TEST

int check_office_keying(void)
{
	Suite *s = suite_create("office: keying");
	TCase *typed = tcase_create("typed");
	TCase *sheet = tcase_create("sheet");
	TCase *checks = tcase_create("checks");

	tcase_add_loop_test(typed, a_typed_mark, 0, ROWS(marks_typed));
	tcase_add_test(typed, every_mark_can_be_typed);
	tcase_add_test(typed, what_is_accepted);
	tcase_add_test(typed, typed_errors_and_totals);
	tcase_add_test(typed, one_person);
	tcase_add_test(sheet, a_sheet_from_the_first_box_to_the_last);
	tcase_add_test(sheet, a_total_that_is_not_the_sum_is_said);
	tcase_add_test(sheet, what_cannot_be_read_is_said_with_what_can);
	tcase_add_test(sheet, remarks);
	tcase_add_test(sheet, a_step_back);
	tcase_add_loop_test(sheet, ways_on_a_sheet, 0, ROWS(moves));
	tcase_add_test(sheet, a_row_of_marks);
	tcase_add_test(sheet, empty_boxes);
	tcase_add_test(sheet, many_empty_boxes);
	tcase_add_test(sheet, a_missing_box);
	tcase_add_test(sheet, a_sheet_is_resumed);
	tcase_add_test(checks, who_keyed_a_sheet);
	tcase_add_loop_test(checks, a_hand_total_is_the_second_check, 0, ROWS(totals));
	tcase_add_test(checks, errors_want_their_own_check);
	tcase_add_test(checks, an_empty_or_differing_box_is_not_summed);
	tcase_add_test(checks, where_a_sheet_is);
	tcase_add_test(checks, a_total_makes_a_sheet_compared);
	tcase_add_test(checks, who_left_is_not_waited_for);
	tcase_add_test(checks, missing_boxes_and_judges_who_were_away);
	tcase_add_test(checks, keyings_side_by_side);
	tcase_add_test(checks, long_names_of_boxes_keyed_once);
	tcase_add_test(checks, errors_keyed_once);
	tcase_add_test(checks, all_sheets_are_listed);
	tcase_add_test(checks, a_total_of_nothing_is_one);
	tcase_add_test(checks, both_keyings_by_one_person);
	suite_add_tcase(s, typed);
	suite_add_tcase(s, sheet);
	suite_add_tcase(s, checks);
	return suite_run(s);
}
