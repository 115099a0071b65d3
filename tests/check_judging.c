/* The office room: how the judges agreed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "../src/scoring/internal.h"
#include "suite.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

static struct rt_error why;

static void near_(double got, double want)
{
	ck_assert_double_eq_tol(got, want, 5e-7);
}

/* ---- rank correlation ---- */

/* Values by hand: with no ties 1 - 6 sum d^2 / (n (n^2 - 1)), and pairs counted. */
START_TEST(orders_are_compared)
{
	static const double up[] = {1, 2, 3, 4, 5}, swapped[] = {2, 1, 4, 3, 5},
			    down[] = {9, 7, 5, 3, 1}, tied[] = {1, 2, 2, 3, 3};
	double room[10];

	near_(rt__spearman(up, up, 5, room), 1);
	near_(rt__spearman(up, down, 5, room), -1);
	near_(rt__spearman(up, swapped, 5, room), 1 - 6 * 4.0 / (5 * 24));
	near_(rt__kendall(up, up, 5), 1);
	near_(rt__kendall(up, down, 5), -1);
	near_(rt__kendall(up, swapped, 5), (8.0 - 2) / 10);
	/* two pairs tied on one side: 8 of 10 pairs told apart there */
	near_(rt__kendall(up, tied, 5), 8 / sqrt(10.0 * 8));
}
END_TEST

START_TEST(an_order_needs_three_that_differ)
{
	static const double two[] = {1, 2}, same[] = {4, 4, 4}, up[] = {1, 2, 3};
	double room[6];

	ck_assert(isnan(rt__spearman(two, two, 2, room)));
	ck_assert(isnan(rt__kendall(two, two, 2)));
	ck_assert(isnan(rt__spearman(up, same, 3, room)));
	ck_assert(isnan(rt__kendall(same, up, 3)));
}
END_TEST

/* ---- a class ---- */

/* Three judges, two items of ten, four entries; E has number 3 high, B marks item 1 of number
 * 4 low, and number 5 was retired. */
static void open_panel(struct office_class *c)
{
	static const int mark[4][3][2] = {{{60, 60}, {60, 60}, {60, 60}},
					  {{70, 70}, {70, 70}, {70, 70}},
					  {{65, 65}, {65, 65}, {80, 80}},
					  {{80, 80}, {50, 80}, {80, 80}}};

	office_open(c, "driven-percent", "C B E");
	office_items(c, 2);
	for (int64_t number = 1; number <= 5; number++)
		office_entry(c, number);
	c->entries.at[4].status = RT_RETIRED;
	office_sheets(c);
	for (size_t e = 0; e < 4; e++)
		for (size_t j = 0; j < 3; j++)
			for (size_t i = 0; i < 2; i++)
				office_mark(c, e, j, i, 0, 10 * mark[e][j][i]);
	office_mark(c, 4, 0, 0, 0, 0);
	office_mark(c, 4, 1, 0, 0, 1000);
}

START_TEST(each_beside_the_others)
{
	struct office_class c;
	struct rt_results r;
	struct rt_judging j;

	open_panel(&c);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_judging_make(&j, &r, 100, 5, &why), RT_OK);
	ck_assert_uint_eq(j.judges, 3);
	ck_assert_uint_eq(j.pairs, 3);
	for (size_t i = 0; i < 3; i++)
		ck_assert_uint_eq(j.judge[i].sheets, 4); /* not the one that retired */
	/* C: 60 70 65 80; the others 60 70 72.5 72.5 */
	near_(j.judge[0].mean_percent, 68.75);
	near_(j.judge[0].spread_percent,
	      sqrt((8.75 * 8.75 + 1.25 * 1.25 + 3.75 * 3.75 + 11.25 * 11.25) / 3));
	near_(j.judge[0].above_percent, 0);
	near_(j.judge[0].widest_percent, 7.5);
	/* B 60 70 65 65; E 60 70 80 80: of the pairs apart on both sides 3 agree, 2 do not */
	ck_assert_str_eq(j.pair[2].judge->position, "B");
	ck_assert_str_eq(j.pair[2].other->position, "E");
	near_(j.pair[2].kendall, (3.0 - 2) / sqrt(5.0 * 5));
	rt_judging_free(&j);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

START_TEST(what_lies_apart_is_told)
{
	struct office_class c;
	struct rt_results r;
	struct rt_judging j;

	open_panel(&c);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_judging_make(&j, &r, 150, 7.5, &why), RT_OK);
	/* 3.0 on item 1 of number 4; 1.5 is not more than 1.5 */
	ck_assert_uint_eq(j.gaps.n, 1);
	ck_assert_int_eq(j.gaps.at[0].entry->number, 4);
	ck_assert_ptr_eq(j.gaps.at[0].item, c.items.at);
	ck_assert_str_eq(j.gaps.at[0].low->position, "B");
	ck_assert_int_eq(j.gaps.at[0].gap_x100, 300);
	near_(j.item[0].mean_gap, (1.5 + 3.0) / 4);
	ck_assert_int_eq(j.item[1].widest_x100, 150);
	/* number 3: C and B 65 against 72.5, E 80 against 65; number 4: B 65 against 80, C and E
	 * 80 against 72.5 */
	ck_assert_uint_eq(j.apart.n, 6);
	rt_judging_free(&j);
	ck_assert_int_eq(rt_judging_make(&j, &r, 1000, 7.6, &why), RT_OK);
	ck_assert_uint_eq(j.gaps.n, 0);
	ck_assert_uint_eq(j.apart.n, 2);
	rt_judging_free(&j);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

START_TEST(one_judge_alone)
{
	struct office_class c;
	struct rt_results r;
	struct rt_judging j;
	struct rt_report report = {0};

	office_open(&c, "driven-percent", "C");
	office_items(&c, 2);
	office_entry(&c, 1);
	office_sheets(&c);
	office_mark(&c, 0, 0, 0, 0, 700);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_judging_make(&j, &r, 150, 5, &why), RT_OK);
	ck_assert_uint_eq(j.judge[0].sheets, 0);
	rt_judging_report(&report, &j);
	ck_assert_int_eq(rt_report_result(&report, &why), RT_OK);
	ck_assert_ptr_nonnull(strstr(report.note[0], "nothing to compare"));
	rt_report_free(&report);
	rt_judging_free(&j);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

/* An order of fewer than six entries says little, and that is told. */
START_TEST(few_entries)
{
	for (int64_t n = 5; n <= 6; n++) {
		struct office_class c;
		struct rt_results r;
		struct rt_judging j;
		struct rt_report report = {0};
		bool told = false;

		office_open(&c, "driven-percent", "C B");
		office_items(&c, 1);
		for (int64_t number = 1; number <= n; number++)
			office_entry(&c, number);
		office_sheets(&c);
		for (size_t e = 0; e < (size_t)n; e++)
			for (size_t k = 0; k < 2; k++)
				office_mark(&c, e, k, 0, 0, (int)(500 + 50 * e));
		ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
		ck_assert_int_eq(rt_judging_make(&j, &r, 150, 5, &why), RT_OK);
		rt_judging_report(&report, &j);
		for (size_t i = 0; i < report.notes; i++)
			told |= strcmp(report.note[i],
				       "With so few entries an order says little.") == 0;
		ck_assert_int_eq(told, n == 5);
		rt_report_free(&report);
		rt_judging_free(&j);
		rt_results_free(&r);
		office_close(&c);
	}
}
END_TEST

int check_judging(void)
{
	Suite *suite = suite_create("judging");
	TCase *judging = tcase_create("judging");

	suite_add_tcase(suite, judging);
	tcase_add_test(judging, orders_are_compared);
	tcase_add_test(judging, an_order_needs_three_that_differ);
	tcase_add_test(judging, each_beside_the_others);
	tcase_add_test(judging, what_lies_apart_is_told);
	tcase_add_test(judging, one_judge_alone);
	tcase_add_test(judging, few_entries);
	return suite_run(suite);
}
