/* office: boxes that nobody can be asked about, judges who were away or too far apart, ties that
 * a judge's mark or a decision parts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof *(table)))

static void make(struct rt_results *r, const struct office_class *c)
{
	struct rt_error err = {.code = RT_OK};

	ck_assert_msg(rt_results_make(r, &c->marks, &err) == RT_OK, "%s", err.text);
}

static void close_both(struct rt_results *r, struct office_class *c)
{
	rt_results_free(r);
	office_close(c);
}

static bool is_noted(const struct rt_results *r, const char *words)
{
	for (size_t i = 0; i < r->notes.n; i++)
		if (strstr(r->notes.at[i], words))
			return true;
	return false;
}

static void key(struct office_class *c, size_t entry, size_t judge, size_t item, int mark_x10)
{
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(c, entry, judge, item, k, 10 * mark_x10);
}

/* ---- missing marks ---- */

/* Marks of three items and an empty fourth with coefficient 2; maximum 50. */
static const struct {
	enum rt_missing missing;
	int mark_x10[3];
	int64_t raw_x100000, part, parts, percent;
	bool complete;
	const char *note;
} missing[] = {
	/* (6 + 7 + 7) / 3 = 6.667; 20 + 13.333 = 33.333 of 50 */
	{RT_MISSING_MEAN,
	 {60, 70, 70},
	 3333333,
	 1,
	 3,
	 66667,
	 true,
	 "as the judge cannot be asked: 1 C item 4 (6.667)."},
	/* 6.5 is rounded half up to 7: 19.5 + 14 */
	{RT_MISSING_MEAN_WHOLE, {60, 65, 70}, 3350000, 0, 1, 67000, true, "(7.0)."},
	{RT_MISSING_MEAN_WHOLE, {60, 65, 65}, 3100000, 0, 1, 62000, true, "to a whole mark"},
	/* (6.5 + 7 + 6) / 3 = 6.5 exactly */
	{RT_MISSING_MEAN, {65, 70, 60}, 3250000, 0, 1, 65000, true, "item 4 (6.5)."},
	{RT_MISSING_REFUSE, {60, 70, 70}, 2000000, 0, 1, 40000, false, "1 C item 4."},
};

/* Of the first sheet, in hundred thousandths. */
static int64_t points_shown(const struct rt_report *report)
{
	const struct rt_table *t = report->table[0];
	const struct rt_value *v;
	size_t at = 0;

	for (size_t i = 0; i < report->tables; i++)
		if (strcmp(report->table[i]->name, "judges") == 0)
			t = report->table[i];
	while (strcmp(t->column[at].name, "points") != 0)
		ck_assert_uint_lt(++at, t->columns);
	v = rt_table_cell(t, 0, at);
	return v->as.whole * rt_power_of_ten(5 - v->digits);
}

START_TEST(a_missing_mark)
{
	struct rt_report report = {0};
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-points", "C");
	office_items(&c, 3);
	office_item(&c, 2000, RT_GROUP_GENERAL);
	office_entry(&c, 1);
	office_sheets(&c);
	for (size_t i = 0; i < 3; i++)
		key(&c, 0, 0, i, missing[_i].mark_x10[i]);
	office_missing(&c, 0, 0, 3);
	c.rule.missing = missing[_i].missing;
	make(&r, &c);
	ck_assert_int_eq(r.at[0].judge[0].raw_x100000, missing[_i].raw_x100000);
	ck_assert_int_eq(r.at[0].judge[0].part.num, missing[_i].part);
	ck_assert_int_eq(r.at[0].score, missing[_i].percent);
	ck_assert_int_eq(r.complete, missing[_i].complete);
	ck_assert_uint_eq(r.at[0].filled, missing[_i].complete);
	rt_results_report(&report, &r);
	ck_assert_int_eq(points_shown(&report), missing[_i].raw_x100000); /* thirds fall away */
	rt_report_free(&report);
	ck_assert_msg(is_noted(&r, missing[_i].note), "%s", r.notes.at[0]);
	rt_results_free(&r);
	key(&c, 0, 0, 3, 80); /* a mark that is keyed after all counts */
	make(&r, &c);
	ck_assert_uint_eq(r.at[0].filled, 0);
	ck_assert_int_eq(r.at[0].judge[0].part.num, 0);
	close_both(&r, &c);
}
END_TEST

/* A mean of 6.66... is more than 6.666 and less than 6.667 however long the sums are: the ratio
 * parts general impressions that are equal to a ten thousandth. */
START_TEST(a_part_parts_a_tie)
{
	struct office_class c;
	const struct rt_part *part;
	struct rt_results r;

	office_open(&c, "ridden-points", "C");
	c.rule.missing = RT_MISSING_MEAN;
	c.rule.score_decimals = 0;
	for (int i = 0; i < 3; i++)
		office_item(&c, 1000, RT_GROUP_MOVEMENT);
	office_item(&c, 1, RT_GROUP_GENERAL); /* a general impression of a thousandth */
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	for (size_t i = 0; i < 3; i++) {
		key(&c, 0, 0, i, i ? 70 : 60);
		key(&c, 1, 0, i, i ? 70 : 60);
	}
	key(&c, 0, 0, 3, 66); /* 660 hundred thousandths against 666 and two thirds */
	office_missing(&c, 1, 0, 3);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].entry->number, 2);
	ck_assert_uint_eq(r.at[1].place, 2);
	ck_assert_str_eq(r.at[0].parted_by, "general");
	ck_assert_int_eq(r.at[0].group[RT_GROUP_GENERAL].x100000, 666);
	part = &r.at[0].group[RT_GROUP_GENERAL].part;
	ck_assert_int_eq(part->num * 3, part->den * 2);
	close_both(&r, &c);
}
END_TEST

/* ---- away ---- */

START_TEST(a_judge_is_away)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C B E");
	office_items(&c, 2);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	for (size_t e = 0; e < 2; e++)
		for (size_t j = 0; j < 3; j++)
			for (size_t i = 0; i < 2; i++)
				key(&c, e, j, i, j == 0 ? 40 : 70);
	office_errors(&c, 1, 0, 0, 2);
	office_errors(&c, 1, 0, 1, 2);
	office_mark(&c, 1, 0, 0, 1, 450); /* keyings differ on a sheet that does not count */
	office_away(&c, 1, 0);
	make(&r, &c);
	ck_assert(r.complete);
	ck_assert_int_eq(r.at[0].entry->number, 2);
	ck_assert_int_eq(r.at[0].score, 70000);
	ck_assert_uint_eq(r.at[0].expected, 2);
	ck_assert_int_eq(r.at[0].errors, 0);
	ck_assert(!r.at[0].judge[0].in && r.at[0].judge[0].away);
	ck_assert_int_eq(r.at[1].score, 60000);
	ck_assert(is_noted(&r, "The judge at C was away and the other judges' sheets alone count, "
			       "for number: 2."));
	rt_results_free(&r);
	office_away(&c, 1, 1);
	office_away(&c, 1, 2); /* nobody is left who could score it */
	make(&r, &c);
	ck_assert(r.missing && !r.complete);
	ck_assert_uint_eq(r.at[1].place, 0);
	close_both(&r, &c);
}
END_TEST

/* ---- too far apart ---- */

static const struct {
	int limit_x100, judges;
	int mark_x10[5];
	int64_t counted[5];
	const char *note;
} apart[] = {
	/* 40 against a mean of 70: to the lowest of the others */
	{500, 5, {40, 68, 70, 71, 71}, {68000, 68000, 70000, 71000, 71000}, "next score, 68.000."},
	{500, 5, {99, 68, 70, 71, 71}, {71000, 68000, 70000, 71000, 71000}, "next score, 71.000."},
	/* both ends: each to the nearest who is not apart */
	{1500, 5, {41, 69, 70, 71, 99}, {69000, 69000, 70000, 71000, 71000}, "and counts"},
	/* exactly the limit is enough */
	{1000, 5, {60, 70, 70, 70, 70}, {70000, 70000, 70000, 70000, 70000}, "10.00 per cent"},
	{1001, 5, {60, 70, 70, 70, 70}, {60000, 70000, 70000, 70000, 70000}, NULL},
	/* too few sheets: only told */
	{500, 7, {40, 68, 70, 71, 71}, {40000, 68000, 70000, 71000, 71000}, "counts as it is"},
	{0, 3, {40, 68, 70, 71, 71}, {40000, 68000, 70000, 71000, 71000}, NULL},
	/* only the farthest, though others are beyond the limit too */
	{50, 5, {50, 60, 70, 80, 91}, {50000, 60000, 70000, 80000, 80000}, "next score, 80.000."},
	{500, 3, {60, 60, 60, 60, 60}, {60000, 60000, 60000, 60000, 60000}, NULL},
};

START_TEST(judges_apart)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-championship", "C B E H M");
	c.rule.apart_x100 = apart[_i].limit_x100;
	c.rule.apart_judges = apart[_i].judges;
	office_items(&c, 1);
	office_entry(&c, 1);
	office_sheets(&c);
	for (size_t j = 0; j < 5; j++)
		key(&c, 0, j, 0, apart[_i].mark_x10[j]);
	make(&r, &c);
	for (size_t j = 0; j < 5; j++)
		ck_assert_int_eq(r.at[0].judge[j].counted, apart[_i].counted[j]);
	if (apart[_i].note)
		ck_assert(is_noted(&r, apart[_i].note));
	else
		ck_assert(!is_noted(&r, "per cent points"));
	close_both(&r, &c);
}
END_TEST

/* ---- ties ---- */

static const struct {
	const char *ties, *by;
	int64_t first;
} ties[] = {
	{"judge:B", "judge", 2},
	{"judge:E", "judge", 1},
	{"judge:Q", NULL, 0},
	{"judge:B:1", "judge", 2},
	{"president", "president", 1},
	{"decision", "decision", 2},
	{"judge:Q decision", "decision", 2},
};

START_TEST(ties_parted)
{
	static const int mark_x10[2][3] = {{70, 60, 65}, {60, 75, 60}};
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C B E");
	ck_assert(rt_tie_steps_read(ties[_i].ties, &c.rule));
	office_items(&c, 1);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	for (size_t e = 0; e < 2; e++)
		for (size_t j = 0; j < 3; j++)
			key(&c, e, j, 0, mark_x10[e][j]);
	office_decide(&c, 1, 1, 1);
	office_decide(&c, 1, 2, 2);
	office_decide(&c, 2, 2, 1); /* the later decision holds */
	office_decide(&c, 2, 1, 2);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].score, r.at[1].score);
	if (!ties[_i].first) {
		ck_assert_uint_eq(r.at[1].place, 1);
	} else {
		ck_assert_int_eq(r.at[0].entry->number, ties[_i].first);
		ck_assert_uint_eq(r.at[1].place, 2);
		ck_assert_str_eq(r.at[0].parted_by, ties[_i].by);
	}
	close_both(&r, &c);
}
END_TEST

/* A decision between two says nothing when a third is equal with them. */
START_TEST(a_decision_between_others)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C");
	office_items(&c, 1);
	for (int64_t n = 1; n <= 3; n++)
		office_entry(&c, n);
	office_sheets(&c);
	for (size_t e = 0; e < 3; e++)
		key(&c, e, 0, 0, 70);
	office_decide(&c, 1, 2, 1);
	office_decide(&c, 1, 1, 2);
	make(&r, &c);
	for (size_t i = 0; i < 3; i++)
		ck_assert_uint_eq(r.at[i].place, 1);
	ck_assert(is_noted(&r, "is of no effect"));
	rt_results_free(&r);
	key(&c, 2, 0, 0, 60);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].entry->number, 2);
	ck_assert_uint_eq(r.at[1].place, 2);
	ck_assert(is_noted(&r, "Number 2 has place 1 of equal ones by decision of The judge: "
			       "the better paces."));
	close_both(&r, &c);
}
END_TEST

/* ---- rules as rows ---- */

static const char *const steps[] = {"judge:B", "judge:B:3 decision", "general median:3",
				    "decision:1", ""};
static const char *const no_steps[] = {
	"judge", "judge:", "judge:B:0", "judge:B-", "decision:B", "judge:ABCDEFGHIJKLMNOPQRSTUVWX", "median:B"};

START_TEST(tie_steps_there_and_back)
{
	struct rt_rule rule = {.name = "r"};
	char words[160];

	for (int i = 0; i < ROWS(steps); i++) {
		ck_assert(rt_tie_steps_read(steps[i], &rule));
		rt_tie_steps_words(&rule, words, sizeof words);
		ck_assert_str_eq(words, steps[i]);
	}
	for (int i = 0; i < ROWS(no_steps); i++)
		ck_assert_msg(!rt_tie_steps_read(no_steps[i], &rule), "%s", no_steps[i]);
}
END_TEST

/* A source that counts 2 and again 2, and eliminates at the third, is a matter of the row. */
START_TEST(errors_of_two_and_two)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-points", "C");
	ck_assert(office_rule_row(&c.rule, &c.text,
				  "own,percent,highest,0,-1,3,3,points,2,2,eliminated,,,,"));
	office_items(&c, 10);
	office_entry(&c, 1);
	office_sheets(&c);
	office_sum(&c, 0, 0, 700);
	office_penalty(&c, 1, 0, 2);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].error_x100, 400);
	ck_assert_int_eq(r.at[0].score, 66000);
	rt_results_free(&r);
	office_penalty(&c, 1, 0, 3);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].status, RT_ELIMINATED);
	close_both(&r, &c);
}
END_TEST

START_TEST(apart_is_refused)
{
	struct rt_rule rule = {.name = "r", .judge_decimals = 3, .apart_judges = 7};
	struct rt_error err;

	rule.apart_x100 = 500;
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_OK);
	rule.judge_decimals = -1;
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_E_INPUT);
	rule.judge_decimals = 3;
	rule.apart_judges = 2;
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_E_INPUT);
	rule.apart_judges = 3;
	rule.apart_x100 = -1;
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_E_INPUT);
	rule.apart_x100 = 10000; /* all there is */
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_OK);
	rule.apart_x100 = 10001;
	ck_assert_int_eq(rt_rule_check(&rule, &err), RT_E_INPUT);
}
END_TEST

int check_office_judges(void)
{
	Suite *suite = suite_create("office: judges");
	TCase *judges = tcase_create("judges");

	tcase_add_loop_test(judges, a_missing_mark, 0, ROWS(missing));
	tcase_add_test(judges, a_part_parts_a_tie);
	tcase_add_test(judges, a_judge_is_away);
	tcase_add_loop_test(judges, judges_apart, 0, ROWS(apart));
	tcase_add_loop_test(judges, ties_parted, 0, ROWS(ties));
	tcase_add_test(judges, a_decision_between_others);
	tcase_add_test(judges, tie_steps_there_and_back);
	tcase_add_test(judges, errors_of_two_and_two);
	tcase_add_test(judges, apart_is_refused);
	suite_add_tcase(suite, judges);
	return suite_run(suite);
}
