/* office: what counts of the sheets of one entry, and what is said about them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof *(table)))

/* ---- one entry, two judges C (president) and B, ten items of coefficient 1 ---- */

static void open_one(struct office_class *c, const char *rule)
{
	office_open(c, rule, "C B");
	office_items(c, 10);
	office_entry(c, 7);
	office_sheets(c);
	office_sum(c, 0, 0, 600);
	office_sum(c, 0, 1, 700);
	for (size_t j = 0; j < 2; j++)
		for (int k = 0; k < RT_KEYINGS; k++)
			office_errors(c, 0, j, k, 0);
}

static void make(struct rt_results *r, const struct office_class *c)
{
	struct rt_error err = {.code = RT_OK};

	ck_assert_msg(rt_results_make(r, &c->marks, &err) == RT_OK, "%s", err.text);
}

/* Whether one of the notes is this sentence. */
static bool told(const struct rt_results *r, const char *sentence)
{
	for (size_t i = 0; i < r->notes.n; i++)
		if (strcmp(r->notes.at[i], sentence) == 0)
			return true;
	return false;
}

static void close_both(struct rt_results *r, struct office_class *c)
{
	rt_results_free(r);
	office_close(c);
}

START_TEST(added_up)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	make(&r, &c);
	ck_assert(r.complete && !r.missing && !r.single_keying && !r.differ);
	ck_assert_uint_eq(r.notes.n, 0);
	ck_assert_int_eq(r.at[0].score, 65000);
	ck_assert_int_eq(r.at[0].judge[0].raw_x100000, 6000000);
	ck_assert_int_eq(r.at[0].judge[1].percent, 70000);
	close_both(&r, &c);
}
END_TEST

/* Errors of course by C, by B and by the office (-1: not said), and how many count. */
static const struct {
	int64_t c, b, office, counts;
	const char *note;
} errors_said[] = {
	{0, 0, -1, 0, NULL},
	{1, 1, -1, 1, NULL},
	{1, 1, 1, 1, NULL},
	{1, 0, -1, 1,
	 "Number 7: the sheets show from 0 to 1 errors of course; the president's, 1, counts."},
	{0, 2, -1, 0,
	 "Number 7: the sheets show from 0 to 2 errors of course; the president's, 0, counts."},
	{-1, 2, -1, 2,
	 "Number 7: errors of course on the sheet of B, none keyed on the president's: they count "
	 "until it says otherwise."},
	{-1, 0, -1, 0, NULL},
	{-1, -1, 1, 1, NULL},
	{1, 1, 2, 2, "Number 7: errors of course announced 2, on the sheets 1; the larger counts."},
	{0, 0, 1, 1, "Number 7: errors of course announced 1, on the sheets 0; the larger counts."},
	{2, 2, 0, 2, "Number 7: errors of course announced 0, on the sheets 2; the larger counts."},
};

START_TEST(errors_count)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-combined");
	for (int k = 0; k < RT_KEYINGS; k++) {
		office_errors(&c, 0, 0, k, errors_said[_i].c);
		office_errors(&c, 0, 1, k, errors_said[_i].b);
	}
	office_penalty(&c, 7, 0, 2);
	office_penalty(&c, 7, 0, errors_said[_i].office);
	office_penalty(&c, 8, 0, 3);
	if (errors_said[_i].office < 0)
		RT_LIST_FREE(&c.penalties);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].errors, errors_said[_i].counts);
	if (errors_said[_i].note)
		ck_assert(told(&r, errors_said[_i].note));
	else
		ck_assert_uint_eq(r.notes.n, 0);
	close_both(&r, &c);
}
END_TEST

/* What an error and 7.5 points of penalties do under each way of taking them: 65 % before. */
static const struct {
	const char *rule, *taken;
	int64_t score, percent, penalty_x100;
} taken[] = {
	{"driven-percent", "points", 52500, 52500, 1250},  /* 12.5 off each 100 */
	{"driven-percent", "percent", 52500, 52500, 1250}, /* 7.5 points, 5 % */
	{"driven-percent", "score", 52500, 65000, 1250},
	{"driven-combined", "score", 6850, 6500, 1250},	 /* 56 + 12.5 */
	{"driven-combined", "points", 7600, 5250, 1250}, /* 160 x 0.475 */
	{"ridden-rounded", "percent", 55500, 55500, 950},
	{"ridden-eventing", "points", 445, 5550, 950},
	{"ridden-eventing", "percent", 445, 5550, 950},
	{"ridden-eventing", "score", 445, 6500, 950},
};

START_TEST(taken_off)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, taken[_i].rule);
	ck_assert(office_rule_word(&c.rule, "taken", taken[_i].taken));
	for (int k = 0; k < RT_KEYINGS; k++)
		office_errors(&c, 0, 0, k, 1);
	office_penalty(&c, 7, 1000, -1);
	office_penalty(&c, 7, -250, -1);
	office_penalty(&c, 7, 300, 0); /* a row of errors says nothing of points */
	office_penalty(&c, 9, 500, -1);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].points_x100, 750);
	ck_assert_int_eq(r.at[0].penalty_x100, taken[_i].penalty_x100);
	ck_assert_msg(r.at[0].score == taken[_i].score, "%s: %lld", taken[_i].rule,
		      (long long)r.at[0].score);
	ck_assert_int_eq(r.at[0].percent, taken[_i].percent);
	close_both(&r, &c);
}
END_TEST

START_TEST(mixed_units_are_told)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "ridden-rounded");
	for (int k = 0; k < RT_KEYINGS; k++)
		for (size_t j = 0; j < 2; j++)
			office_errors(&c, 0, j, k, 1);
	office_penalty(&c, 7, 750, -1);
	make(&r, &c);
	ck_assert(told(&r,
		       "Number 7: 2.00 % are taken off for errors, and 7.50 points of penalties "
		       "off every total."));
	close_both(&r, &c);
}
END_TEST

START_TEST(below_zero)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_penalty(&c, 7, 7001, -1);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].score, -5010);
	ck_assert_uint_eq(r.at[0].place, 1);
	ck_assert(told(&r, "Number 7: more is taken off than was earned."));
	close_both(&r, &c);
}
END_TEST

/* Penalties that no marks come to: 65 % of 160 is 56 penalties before anything is added. */
static const struct {
	int64_t points_x100, multiplier_x1000000;
	const char *note;
} odd_scores[] = {
	{10400, 0, NULL},
	{10401, 0, "Number 7: a score of 160.01 is more than all marks of 0 would come to."},
	{0, 3000000,
	 "Number 7: a score of -35.00 is below zero: see whether the printed multiplier is "
	 "right."},
};

START_TEST(odd_scores_are_told)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-combined");
	c.test.multiplier_x1000000 = odd_scores[_i].multiplier_x1000000;
	office_penalty(&c, 7, odd_scores[_i].points_x100, -1);
	make(&r, &c);
	if (odd_scores[_i].note)
		ck_assert_str_eq(r.notes.at[0], odd_scores[_i].note);
	else
		ck_assert_uint_eq(r.notes.n, 0);
	close_both(&r, &c);
}
END_TEST

START_TEST(nobody_entered)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	c.entries.n = 0;
	make(&r, &c);
	ck_assert_uint_eq(r.notes.n, 1);
	ck_assert(told(&r, "Nobody is entered in this class yet."));
	ck_assert(!r.complete);
	close_both(&r, &c);
}
END_TEST

START_TEST(errors_eliminate)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_penalty(&c, 7, 0, 3);
	office_mark(&c, 0, 1, 4, 0, 650); /* of no weight any more: differs, and is empty */
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(&c, 0, 1, 5, k, RT_NO_MARK);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].status, RT_ELIMINATED);
	ck_assert_uint_eq(r.at[0].place, 0);
	ck_assert(!r.at[0].scored);
	ck_assert_int_eq(r.at[0].penalty_x100, 1500);
	ck_assert(r.complete);
	ck_assert_uint_eq(r.notes.n, 2);
	ck_assert_str_eq(r.notes.at[0], "Number 7: errors of course announced 3, on the sheets 0; "
					"the larger counts.");
	ck_assert_str_eq(r.notes.at[1], "Number 7 is eliminated: third error of course.");
	close_both(&r, &c);
}
END_TEST

/* ---- what is wanting ---- */

START_TEST(nothing_keyed)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C B");
	office_items(&c, 4);
	office_entry(&c, 3);
	office_entry(&c, 4)->status = RT_WITHDRAWN;
	office_sheets(&c);
	office_errors(&c, 0, 0, 0, 1);
	make(&r, &c);
	ck_assert(r.missing && !r.complete);
	ck_assert(!r.at[0].scored && !r.at[0].judge[0].in);
	ck_assert_int_eq(r.at[0].errors, 1);
	ck_assert(told(&r, "Provisional: no sheet is in yet."));
	close_both(&r, &c);
}
END_TEST

/* A sheet that is not in takes no part; an empty box adds nothing to the whole maximum. */
START_TEST(gaps)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_entry(&c, 8);
	rt_class_marks_free(&c.marks);
	office_sheets(&c);
	office_sum(&c, 0, 0, 600);
	office_sum(&c, 0, 1, 700);
	office_sum(&c, 1, 1, 500);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(&c, 0, 1, 9, k, RT_NO_MARK);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].entry->number, 7);
	ck_assert_int_eq(r.at[0].score, 61500);
	ck_assert_uint_eq(r.at[0].empty, 1);
	ck_assert_int_eq(r.at[1].score, 50000);
	ck_assert_uint_eq(r.at[1].sheets, 1);
	ck_assert_uint_eq(r.at[1].judge[0].place, 0);
	ck_assert_uint_eq(r.notes.n, 2);
	ck_assert_str_eq(r.notes.at[0], "Provisional: 1 of 4 sheets is not in: 8 C.");
	ck_assert_str_eq(r.notes.at[1],
			 "Provisional: 1 box is empty and counts for nothing: 7 B item 10.");
	close_both(&r, &c);
}
END_TEST

START_TEST(keyed_once)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_mark(&c, 0, 1, 9, 1, RT_NO_MARK);
	make(&r, &c);
	ck_assert(r.single_keying && !r.complete && !r.missing);
	ck_assert_int_eq(r.at[0].score, 65000);
	ck_assert_uint_eq(r.notes.n, 1);
	ck_assert_str_eq(r.notes.at[0],
			 "Provisional: only one keying: number 7 in 1 of its boxes.");
	close_both(&r, &c);
}
END_TEST

START_TEST(hand_total_keyed_once_is_enough)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	c.marks.lines[0].total_x100000[0] = 6500000;
	make(&r, &c);
	ck_assert(r.complete && !r.single_keying);
	close_both(&r, &c);
}
END_TEST

/* Where only some are keyed once, they are named. */
START_TEST(some_keyed_once)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_entry(&c, 8);
	rt_class_marks_free(&c.marks);
	office_sheets(&c);
	for (size_t e = 0; e < 2; e++)
		for (size_t j = 0; j < 2; j++)
			office_sum(&c, e, j, 600);
	office_errors(&c, 1, 0, 0, 0);
	make(&r, &c);
	ck_assert_uint_eq(r.notes.n, 2);
	ck_assert_str_eq(r.notes.at[0],
			 "Provisional: only one keying: number 8 in 1 of its boxes.");
	ck_assert_str_eq(r.notes.at[1], "Equal scores of 60.000: numbers 7 and 8 share place 1. An "
					"official may part those who share a place: `tie decide`.");
	close_both(&r, &c);
}
END_TEST

START_TEST(keyings_differ)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	office_mark(&c, 0, 1, 9, 0, 650);
	office_errors(&c, 0, 0, 1, 1);
	office_total(&c, 0, 1, 0, 7000000);
	office_total(&c, 0, 1, 1, 7025000);
	make(&r, &c);
	ck_assert(r.differ && !r.complete && !r.missing && !r.single_keying);
	ck_assert_uint_eq(r.at[0].differing, 3);
	ck_assert_int_eq(r.at[0].score, 61500);
	ck_assert_int_eq(r.at[0].errors, 0);
	ck_assert_uint_eq(r.notes.n, 1);
	ck_assert_str_eq(r.notes.at[0],
			 "Provisional: keyings differ in 3 boxes, which count for nothing until "
			 "settled: 7 C errors (0 and 1), 7 B item 10 (6.5 and 7.0), 7 B total "
			 "(70.0 and 70.25).");
	close_both(&r, &c);
}
END_TEST

/* Long lists are cut at whole cases, and the rest is counted. */
START_TEST(long_lists_are_cut)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	for (size_t i = 0; i < 10; i++) {
		office_mark(&c, 0, 0, i, 0, 550);
		office_mark(&c, 0, 1, i, 0, 550);
	}
	make(&r, &c);
	ck_assert_uint_eq(r.at[0].differing, 20);
	ck_assert_ptr_nonnull(strstr(r.notes.at[0], "7 B item 2 (5.5 and 7.0) and 8 more."));
	close_both(&r, &c);
}
END_TEST

START_TEST(hand_totals)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	for (int k = 0; k < RT_KEYINGS; k++) {
		office_total(&c, 0, 0, k, 5995000);
		office_total(&c, 0, 1, k, 7050000);
	}
	make(&r, &c);
	ck_assert(r.complete);
	ck_assert_uint_eq(r.notes.n, 2);
	ck_assert_str_eq(r.notes.at[0],
			 "Number 7, C: the hand total 59.95 is not the sum of the boxes 60.0.");
	ck_assert_str_eq(r.notes.at[1],
			 "Number 7, B: the hand total 70.5 is not the sum of the boxes 70.0.");
	ck_assert_int_eq(r.at[0].score, 65000);
	close_both(&r, &c);
}
END_TEST

/* A hand total says nothing while a box is not settled. */
START_TEST(hand_totals_wait)
{
	struct office_class c;
	struct rt_results r;

	open_one(&c, "driven-percent");
	for (int k = 0; k < RT_KEYINGS; k++) {
		office_total(&c, 0, 0, k, 6000000);
		office_total(&c, 0, 1, k, 7050000);
		office_mark(&c, 0, 1, 5, k, RT_NO_MARK);
	}
	make(&r, &c);
	ck_assert_uint_eq(r.notes.n, 1);
	ck_assert_ptr_nonnull(strstr(r.notes.at[0], "1 box is empty"));
	close_both(&r, &c);
}
END_TEST

/* ---- limits ---- */

/* Nine judges, sixty items of coefficient 99, the largest base and 1000 points of penalties: every
 * product is exact. */
static const struct {
	const char *rule;
	int64_t multiplier_x1000000;
	int mark_x10;
	int64_t score;
} largest[] = {
	{"driven-percent", 0, 100, 98316},   /* 100 x 58400 / 59400 = 98.31649... */
	{"driven-combined", 0, 100, 100000}, /* 0 and 1000 added */
	{"driven-combined", 0, 0, 200000},   /* the base and 1000 added */
	/* 1000 - 999.999999 x 59400 + 1000 = -59397999.9406 */
	{"driven-combined", 999999999, 100, -5939799994},
	{"ridden-rounded", 0, 100, 98316},
	{"ridden-eventing", 0, 100, 17}, /* 100 - 98.32 = 1.68 */
};

START_TEST(largest_class)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, largest[_i].rule, "C B E H M R S V P");
	for (int i = 0; i < 60; i++)
		office_item(&c, 99000, i >= 56 ? RT_GROUP_GENERAL : RT_GROUP_MOVEMENT);
	c.test.multiplier_x1000000 = largest[_i].multiplier_x1000000;
	if (strcmp(largest[_i].rule, "driven-combined") == 0)
		c.rule.base = 1000;
	office_entry(&c, 7);
	office_penalty(&c, 7, 100000, -1);
	office_sheets(&c);
	for (size_t j = 0; j < 9; j++)
		office_sum(&c, 0, j, 60 * largest[_i].mark_x10);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].score, largest[_i].score);
	close_both(&r, &c);
}
END_TEST

enum fault {
	NO_ITEM,
	NO_WEIGHT,
	HEAVY,
	BELOW,
	JUDGES,
	MULTIPLIER,
	BEYOND_TEN,
	MANY_ERRORS,
	PENALTIES,
	CREDITS,
	RULE,
	FAULTS
};

static void spoil(struct office_class *c, enum fault fault)
{
	switch (fault) {
	case NO_ITEM:
		c->items.n = 0;
		break;
	case NO_WEIGHT:
		for (size_t i = 0; i < c->items.n; i++)
			c->items.at[i].coefficient_x1000 = 0;
		break;
	case HEAVY:
		c->items.at[0].coefficient_x1000 = 40000000;
		break;
	case BELOW:
		c->items.at[0].coefficient_x1000 = -1;
		break;
	case JUDGES:
		c->class_.judges.n = 0;
		break;
	case MULTIPLIER:
		c->test.multiplier_x1000000 = 1000000000;
		break;
	case BEYOND_TEN:
		for (int k = 0; k < RT_KEYINGS; k++)
			office_mark(c, 0, 0, 0, k, 1050);
		break;
	case MANY_ERRORS:
		office_penalty(c, 7, 0, 1001);
		break;
	case PENALTIES:
		office_penalty(c, 7, 100001, -1);
		break;
	case CREDITS: /* each is what may be meant, both together are not */
		office_penalty(c, 7, -100000, -1);
		office_penalty(c, 7, -100000, -1);
		break;
	case RULE:
		c->rule.base = 1;
		break;
	case FAULTS:
		break;
	}
}

START_TEST(classes_refused)
{
	struct office_class c;
	struct rt_results r;
	struct rt_error err = {.code = RT_OK};

	open_one(&c, "driven-percent");
	spoil(&c, (enum fault)_i);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &err), RT_E_INPUT);
	ck_assert_int_eq(err.code, RT_E_INPUT);
	ck_assert_ptr_null(r.at);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

int check_office_sheets(void)
{
	Suite *suite = suite_create("office: sheets");
	TCase *sheets = tcase_create("sheets");

	tcase_add_test(sheets, added_up);
	tcase_add_loop_test(sheets, errors_count, 0, ROWS(errors_said));
	tcase_add_loop_test(sheets, odd_scores_are_told, 0, ROWS(odd_scores));
	tcase_add_test(sheets, nobody_entered);
	tcase_add_loop_test(sheets, taken_off, 0, ROWS(taken));
	tcase_add_test(sheets, mixed_units_are_told);
	tcase_add_test(sheets, below_zero);
	tcase_add_test(sheets, errors_eliminate);
	tcase_add_test(sheets, nothing_keyed);
	tcase_add_test(sheets, gaps);
	tcase_add_test(sheets, keyed_once);
	tcase_add_test(sheets, hand_total_keyed_once_is_enough);
	tcase_add_test(sheets, some_keyed_once);
	tcase_add_test(sheets, keyings_differ);
	tcase_add_test(sheets, long_lists_are_cut);
	tcase_add_test(sheets, hand_totals);
	tcase_add_test(sheets, hand_totals_wait);
	tcase_add_loop_test(sheets, largest_class, 0, ROWS(largest));
	tcase_add_loop_test(sheets, classes_refused, 0, FAULTS);
	suite_add_tcase(suite, sheets);
	return suite_run(suite);
}
