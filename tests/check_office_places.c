/* office: places, ties, the order of reading out, what must not change them, and the report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof *(table)))
#define ITEMS	    10

static void make(struct rt_results *r, const struct office_class *c)
{
	struct rt_error err = {.code = RT_OK};

	ck_assert_msg(rt_results_make(r, &c->marks, &err) == RT_OK, "%s", err.text);
	ck_assert_uint_eq(r->n, c->entries.n);
}

static void close_both(struct rt_results *r, struct office_class *c)
{
	rt_results_free(r);
	office_close(c);
}

static const struct rt_result *of_number(const struct rt_results *r, int64_t number)
{
	for (size_t i = 0; i < r->n; i++)
		if (r->at[i].entry->number == number)
			return &r->at[i];
	ck_abort_msg("number %d is not in the results", (int)number);
}

/* ---- a field: how an entry stands, the sum of its one sheet, and where it must come ---- */

struct starter {
	int64_t number;
	const char *division;
	enum rt_status status;
	bool hors_concours;
	int sum_x10; /* -1: no sheet in */
	size_t place;
};

/* In the order in which they must be read out. */
static const struct starter field[] = {
	{5, NULL, RT_ENTERED, false, 700, 1},	   {9, NULL, RT_ENTERED, false, 690, 2},
	{12, NULL, RT_ENTERED, false, 690, 2},	   {2, NULL, RT_ENTERED, false, 650, 4},
	{4, NULL, RT_ENTERED, true, 800, 0},	   {3, NULL, RT_ENTERED, true, 600, 0},
	{6, NULL, RT_ENTERED, false, -1, 0},	   {20, NULL, RT_ENTERED, true, -1, 0},
	{8, NULL, RT_RETIRED, false, 300, 0},	   {1, NULL, RT_ELIMINATED, false, 900, 0},
	{10, NULL, RT_ELIMINATED, true, 950, 0},   {7, NULL, RT_DISQUALIFIED, false, 900, 0},
	{11, NULL, RT_WITHDRAWN, false, -1, 0},	   {13, NULL, RT_DID_NOT_START, false, -1, 0},
	{31, "pairs", RT_ENTERED, false, 690, 1},  {30, "pairs", RT_ENTERED, false, 680, 2},
	{32, "pairs", RT_WITHDRAWN, false, -1, 0}, {41, "ponies", RT_ENTERED, false, 500, 1},
	{40, "ponies", RT_ENTERED, true, 990, 0},
};

/* The field with its entries in a shuffled order: step is coprime to its length. */
static void open_field(struct office_class *c, const char *rule, size_t step)
{
	office_open(c, rule, "C");
	office_items(c, ITEMS);
	for (size_t i = 0; i < (size_t)ROWS(field); i++) {
		const struct starter *s = &field[i * step % (size_t)ROWS(field)];
		struct rt_entry *entry = office_entry(c, s->number);

		entry->division = s->division;
		entry->status = s->status;
		entry->hors_concours = s->hors_concours;
	}
	office_sheets(c);
	for (size_t i = 0; i < (size_t)ROWS(field); i++) {
		int sum_x10 = field[i * step % (size_t)ROWS(field)].sum_x10;

		if (sum_x10 >= 0)
			office_sum(c, i, 0, sum_x10);
	}
}

/* Each row is a rule and a shuffle. */
static const struct {
	const char *rule;
	size_t step;
} orders[] = {
	{"driven-percent", 1},	{"driven-percent", 7},	{"driven-combined", 1},
	{"driven-combined", 5}, {"ridden-rounded", 13}, {"ridden-eventing", 18},
	{"ridden-points", 2},
};

START_TEST(order_and_places)
{
	struct office_class c;
	struct rt_results r;

	open_field(&c, orders[_i].rule, orders[_i].step);
	make(&r, &c);
	for (size_t i = 0; i < r.n; i++) {
		const struct starter *s = &field[i];
		bool scored = s->status == RT_ENTERED && s->sum_x10 >= 0;

		ck_assert_int_eq(r.at[i].entry->number, s->number);
		ck_assert_uint_eq(r.at[i].place, s->place);
		ck_assert_uint_eq(r.at[i].judge[0].place, s->place);
		ck_assert(r.at[i].scored == scored);
		ck_assert_pstr_eq(r.at[i].division, s->division);
	}
	close_both(&r, &c);
}
END_TEST

/* An entry without a division stands in the class's; an empty name is none. */
START_TEST(division_of_the_class)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C");
	office_items(&c, ITEMS);
	c.class_.division = "pairs";
	office_entry(&c, 1);
	office_entry(&c, 2)->division = "pairs";
	office_entry(&c, 3)->division = "";
	office_sheets(&c);
	for (size_t i = 0; i < 3; i++)
		office_sum(&c, i, 0, 500 + 10 * (int)i);
	make(&r, &c);
	for (size_t i = 0; i < 3; i++) {
		ck_assert_int_eq(r.at[i].entry->number, 3 - (int64_t)i);
		ck_assert_uint_eq(r.at[i].place, i + 1);
		ck_assert_str_eq(r.at[i].division, "pairs");
	}
	close_both(&r, &c);
}
END_TEST

/* ---- ties: three judges C (president), B and E, items of which the last is general ---- */

#define TIED 4

/* Marks in tenths of the plain item and the general one, a judge each, and what must come. */
struct tie {
	const char *what, *rule, *steps;
	size_t n;
	struct {
		int plain[3], general[3];
		size_t place;
		const char *by;
	} entry[TIED];
};

static const struct tie ties[] = {
	{"nothing parts",
	 "driven-percent",
	 "general",
	 2,
	 {{{60, 60, 60}, {60, 60, 60}, 1, NULL}, {{60, 60, 60}, {60, 60, 60}, 1, NULL}}},
	{"general impression",
	 "driven-percent",
	 "general",
	 2,
	 {{{70, 60, 60}, {60, 60, 60}, 2, "general"}, {{60, 60, 60}, {70, 60, 60}, 1, "general"}}},
	{"general impression under penalties",
	 "driven-combined",
	 "general",
	 2,
	 {{{70, 60, 60}, {60, 60, 60}, 2, "general"}, {{60, 60, 60}, {70, 60, 60}, 1, "general"}}},
	{"no step, no parting",
	 "driven-percent",
	 "",
	 2,
	 {{{70, 60, 60}, {60, 60, 60}, 1, NULL}, {{60, 60, 60}, {70, 60, 60}, 1, NULL}}},
	{"the median",
	 "driven-percent",
	 "median",
	 2,
	 {{{60, 60, 60}, {80, 60, 60}, 2, "median"}, {{60, 60, 60}, {60, 70, 70}, 1, "median"}}},
	{"the president",
	 "driven-percent",
	 "president",
	 2,
	 {{{60, 70, 60}, {60, 60, 60}, 2, "president"},
	  {{70, 60, 60}, {60, 60, 60}, 1, "president"}}},
	{"one stands out, two stay equal",
	 "driven-percent",
	 "general",
	 3,
	 {{{70, 60, 60}, {60, 60, 60}, 2, "general"},
	  {{60, 60, 60}, {70, 60, 60}, 1, "general"},
	  {{60, 70, 60}, {60, 60, 60}, 2, "general"}}},
	{"then the next step",
	 "driven-percent",
	 "general president",
	 3,
	 {{{70, 60, 60}, {60, 60, 60}, 2, "president"},
	  {{60, 60, 60}, {70, 60, 60}, 1, "general"},
	  {{60, 70, 60}, {60, 60, 60}, 3, "president"}}},
	{"a limit that holds",
	 "driven-percent",
	 "president:1",
	 2,
	 {{{60, 70, 60}, {60, 60, 60}, 2, "president"},
	  {{70, 60, 60}, {60, 60, 60}, 1, "president"}}},
	{"a limit that does not",
	 "driven-percent",
	 "president:1",
	 3,
	 {{{60, 70, 60}, {60, 60, 60}, 2, NULL},
	  {{70, 60, 60}, {60, 60, 60}, 2, NULL},
	  {{90, 90, 90}, {60, 60, 60}, 1, NULL}}},
	{"a limit in the middle of three",
	 "driven-percent",
	 "general:1 president:1",
	 3,
	 {{{70, 60, 60}, {60, 60, 60}, 2, "general"},
	  {{60, 60, 60}, {70, 60, 60}, 1, "general"},
	  {{60, 70, 60}, {60, 60, 60}, 2, "general"}}},
	{"past a step that is limited",
	 "driven-percent",
	 "general:1 president",
	 3,
	 {{{60, 70, 60}, {60, 60, 60}, 3, "president"},
	  {{70, 60, 60}, {60, 60, 60}, 2, "president"},
	  {{90, 90, 90}, {60, 60, 60}, 1, NULL}}},
	{"two pairs of equal ones",
	 "driven-percent",
	 "",
	 4,
	 {{{80, 80, 80}, {60, 60, 60}, 1, NULL},
	  {{70, 70, 70}, {60, 60, 60}, 3, NULL},
	  {{80, 80, 80}, {60, 60, 60}, 1, NULL},
	  {{70, 70, 70}, {60, 60, 60}, 3, NULL}}},
};

static void open_tie(struct office_class *c, const struct tie *tie)
{
	office_open(c, tie->rule, "C B E");
	ck_assert(rt_tie_steps_read(tie->steps, &c->rule));
	office_item(c, 1000, RT_GROUP_MOVEMENT);
	office_item(c, 1000, RT_GROUP_GENERAL);
	for (size_t i = 0; i < tie->n; i++)
		office_entry(c, (int64_t)i + 1);
	office_sheets(c);
	for (size_t i = 0; i < tie->n; i++) {
		for (size_t j = 0; j < 3; j++) {
			office_mark(c, i, j, 0, 0, 10 * tie->entry[i].plain[j]);
			office_mark(c, i, j, 1, 0, 10 * tie->entry[i].general[j]);
		}
	}
}

START_TEST(ties_part)
{
	const struct tie *tie = &ties[_i];
	struct office_class c;
	struct rt_results r;

	open_tie(&c, tie);
	make(&r, &c);
	for (size_t i = 0; i < tie->n; i++) {
		const struct rt_result *result = of_number(&r, (int64_t)i + 1);

		ck_assert_msg(result->place == tie->entry[i].place, "%s: number %zu place %zu",
			      tie->what, i + 1, result->place);
		ck_assert_pstr_eq(result->parted_by, tie->entry[i].by);
	}
	close_both(&r, &c);
}
END_TEST

/* Two judges: the median is the mean of both, so it parts nothing that the score does not; a
 * president whose sheet is not in comes behind. */
/* A freestyle: equal scores are parted by the artistic marks, not by general impressions; by one
 * item; the halves are what the marks come to before errors are taken off. */
static const struct {
	const char *steps, *by, *told;
	size_t first; /* who is first */
} freestyle_ties[] = {
	{"general", NULL, "numbers 1 and 2 share place 1", 1},
	{"artistic", "artistic", "number 2 has place 1 by the artistic marks", 2},
	{"general artistic", "artistic", "number 2 has place 1 by the artistic marks", 2},
	{"item:2", NULL, "numbers 1 and 2 share place 1", 1},
	{"item:9", NULL, "numbers 1 and 2 share place 1", 1},
	{"item:1", "item", "number 1 has place 1 by item 1", 1},
	{"item:2 item:3", "item", "number 2 has place 1 by item 3", 2},
	{"judge:B judge:E", "judge", "number 1 has place 1 by the mark of the judge at E", 1},
};

START_TEST(freestyle)
{
	/* by entry: the marks of C, B and E for a movement, an impression and an artistic mark */
	static const int marks[2][3][3] = {{{70, 60, 60}, {60, 60, 60}, {70, 60, 60}},
					   {{60, 60, 80}, {60, 60, 60}, {60, 60, 60}}};
	struct office_class c;
	struct rt_results r;
	char told[160];

	office_open(&c, "driven-percent", "C B E");
	ck_assert(rt_tie_steps_read(freestyle_ties[_i].steps, &c.rule));
	for (int g = 0; g < RT_ITEM_GROUP_COUNT; g++)
		office_item(&c, 1000, (enum rt_item_group)g);
	for (size_t i = 0; i < 2; i++)
		office_entry(&c, (int64_t)i + 1);
	office_sheets(&c);
	for (size_t i = 0; i < 2 * 3 * 3; i++)
		office_mark(&c, i / 9, i / 3 % 3, i % 3, 0, 10 * marks[i / 9][i / 3 % 3][i % 3]);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].entry->number, (int64_t)freestyle_ties[_i].first);
	ck_assert_pstr_eq(r.at[0].parted_by, freestyle_ties[_i].by);
	snprintf(told, sizeof told, "Equal scores of 62.222: %s", freestyle_ties[_i].told);
	ck_assert_msg(strncmp(r.notes.at[r.notes.n - 1], told, strlen(told)) == 0, "%s",
		      r.notes.at[r.notes.n - 1]);
	ck_assert(r.halves);
	ck_assert_int_eq(of_number(&r, 1)->technical, 63333);
	ck_assert_int_eq(of_number(&r, 1)->artistic, 60000);
	ck_assert_int_eq(of_number(&r, 2)->technical, 60000);
	ck_assert_int_eq(of_number(&r, 2)->artistic, 66667);
	close_both(&r, &c);
}
END_TEST

/* ---- items of some judges only: technique at C and M, quality at E ---- */

static const struct {
	const char *rule;
	int64_t coefficient_x1000; /* of quality */
	int64_t percent, score;
} split[] = {
	{"ridden-rounded", 1000, 68375, 68375},	 {"ridden-points", 1000, 68375, 68375},
	{"ridden-points", 3000, 68375, 68375},	 {"driven-combined", 1000, 6838, 5060},
	{"ridden-eventing", 7000, 6838, 316},
};

/* C 65 %, M 62.5 %, E 73 %: the mean of 63.75 and 73, not of three judges. */
static void open_split(struct office_class *c, const char *rule, int64_t coefficient_x1000)
{
	office_open(c, rule, "C M E");
	office_items(c, 2);
	office_item(c, coefficient_x1000, RT_GROUP_ARTISTIC);
	c->items.at[0].judges = c->items.at[1].judges = "C M";
	c->items.at[2].judges = "E";
	c->items.at[2].mark_step_x100 = 10;
	office_entry(c, 1);
	office_sheets(c);
	for (int k = 0; k < RT_KEYINGS; k++) {
		for (size_t j = 0; j < 3; j++)
			office_errors(c, 0, j, k, 0);
		office_mark(c, 0, 0, 0, k, 700);
		office_mark(c, 0, 0, 1, k, 600);
		office_mark(c, 0, 1, 0, k, 600);
		office_mark(c, 0, 1, 1, k, 650);
	}
}

START_TEST(split_panel)
{
	struct office_class c;
	struct rt_results r;

	open_split(&c, split[_i].rule, split[_i].coefficient_x1000);
	make(&r, &c);
	ck_assert_uint_eq(r.parts, 2);
	ck_assert_uint_eq(r.at[0].sheets, 2); /* technique alone so far */
	ck_assert_uint_eq(r.at[0].empty, 0);
	ck_assert_str_eq(r.notes.at[0], "Provisional: 1 of 3 sheets is not in: 1 E.");
	ck_assert_int_eq(r.at[0].technical / 10, r.of->rule->percent_decimals == 3 ? 6375 : 637);
	rt_results_free(&r);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(&c, 0, 2, 2, k, 730);
	make(&r, &c);
	ck_assert(r.complete);
	ck_assert_int_eq(r.at[0].percent, split[_i].percent);
	ck_assert_int_eq(r.at[0].score, split[_i].score);
	ck_assert_uint_eq(r.at[0].boxes, 5);
	close_both(&r, &c);
}
END_TEST

/* General impressions that C alone marks: one part, each judge against a maximum of his own. */
START_TEST(items_of_the_president)
{
	struct office_class c;
	struct rt_results r;

	for (int rounded = 0; rounded < 2; rounded++) {
		office_open(&c, rounded ? "ridden-rounded" : "ridden-points", "C B");
		office_items(&c, 1);
		office_item(&c, 1000, RT_GROUP_GENERAL);
		c.items.at[1].judges = "C";
		office_entry(&c, 1);
		office_sheets(&c);
		office_mark(&c, 0, 0, 0, 0, 700);
		office_mark(&c, 0, 0, 1, 0, 800);
		office_mark(&c, 0, 1, 0, 0, 600);
		make(&r, &c);
		ck_assert_uint_eq(r.parts, 1);
		ck_assert_int_eq(r.at[0].judge[0].percent, 75000);
		ck_assert_int_eq(r.at[0].judge[1].percent, 60000);
		ck_assert_int_eq(r.at[0].percent, rounded ? 67500 : 70000);
		ck_assert(!r.missing);
		close_both(&r, &c);
	}
}
END_TEST

/* ---- other scales, other decimals: 6.5, 7 and 8.25 of two judges each ---- */

static const struct {
	const char *rule, *scale, *rounding;
	int judge_decimals, score_decimals;
	int64_t errors, percent, score;
} scales[] = {
	/* the mean of 21.75 and 20.5 points of 30: 70.41666...% */
	{"ridden-points", "points", "half-up", -1, 3, 0, 70417, 21125},
	{"ridden-points", "points", "half-up", -1, 1, 0, 70417, 211},
	{"ridden-points", "points", "half-up", -1, 2, 1, 63750, 1913}, /* 2 points off each */
	{"ridden-points", "points", "cut", -1, 2, 1, 63750, 1912},
	{"ridden-points", "tenths", "half-up", -1, 3, 0, 70417, 7042},
	{"ridden-points", "tenths", "cut", -1, 3, 0, 70416, 7041},
	{"ridden-points", "percent", "half-up", -1, 9, 0, 70417, INT64_C(70416666667)},
	{"ridden-points", "percent", "cut", -1, 9, 0, 70416, INT64_C(70416666666)},
	{"ridden-rounded", "tenths", "half-up", 3, 4, 0, 70417, 70417}, /* 72.5 and 68.333 */
	{"ridden-rounded", "points", "half-up", 0, 3, 0, 70500, 21150}, /* 73 and 68 */
	{"ridden-rounded", "points", "cut", 0, 3, 0, 70000, 21000},	 /* 72 and 68 */
};

START_TEST(scale_and_decimals)
{
	static const int marks[2][3] = {{650, 700, 825}, {650, 700, 700}};
	struct office_class c;
	struct rt_results r;

	office_open(&c, scales[_i].rule, "C B");
	ck_assert(office_rule_word(&c.rule, "scale", scales[_i].scale));
	ck_assert(office_rule_word(&c.rule, "rounding", scales[_i].rounding));
	c.rule.judge_decimals = scales[_i].judge_decimals;
	c.rule.score_decimals = scales[_i].score_decimals;
	office_items(&c, 3);
	office_entry(&c, 1);
	office_sheets(&c);
	for (size_t i = 0; i < 6; i++)
		office_mark(&c, 0, i / 3, i % 3, 0, marks[i / 3][i % 3]);
	office_errors(&c, 0, 0, 0, scales[_i].errors);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].percent, scales[_i].percent);
	ck_assert_int_eq(r.at[0].score, scales[_i].score);
	close_both(&r, &c);
}
END_TEST

/* More is taken off than was earned: what is cut off is cut towards 0. */
START_TEST(cut_below_zero)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-points", "C");
	c.rule.rounding = RT_CUT;
	office_items(&c, 3);
	office_entry(&c, 1);
	office_sheets(&c);
	for (size_t i = 0; i < 3; i++)
		office_mark(&c, 0, 0, i, 0, 0);
	office_errors(&c, 0, 0, 0, 1);
	make(&r, &c);
	ck_assert_int_eq(r.at[0].score, -6666);
	close_both(&r, &c);
}
END_TEST

/* A tie that an official may part says by what; one that he may not, or that is parted, does not. */
static const struct {
	const char *steps;
	bool decided, told;
} left_tied[] = {{"decision", false, true}, {"general decision:1", false, true}, {"general", false, false},
		 {"decision", true, false}};

START_TEST(tie_left_to_an_official)
{
	static const char told[] = "An official may part those who share a place: `tie decide`.";
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-points", "C");
	ck_assert(rt_tie_steps_read(left_tied[_i].steps, &c.rule));
	office_items(&c, 1);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	for (size_t i = 0; i < 2; i++) {
		office_mark(&c, i, 0, 0, 0, 700);
		if (left_tied[_i].decided)
			office_decide(&c, 1, (int64_t)i + 1, (int64_t)i + 1);
	}
	make(&r, &c);
	ck_assert_int_eq(strstr(r.notes.at[r.notes.n - 1], told) != NULL, left_tied[_i].told);
	close_both(&r, &c);
}
END_TEST

/* What no class can be scored by. */
static const struct {
	const char *judges[2], *fault;
	int64_t multiplier_x1000000, apart_x100;
} not_split[] = {
	{{"C M", "H"}, "test T1, item 2 is marked at H, where class K1 has no judge", 0, 0},
	{{"C", "C M"}, "class K1: the judge at E marks no item of test T1", 0, 0},
	{{"C M", "E"},
	 "test T1: the printed multiplier is for sheets with every item, and some are marked by "
	 "some judges only",
	 640000,
	 0},
	{{"C M", "E"},
	 "class K1: rule ridden-rounded moves judges who are too far apart, but not all of them "
	 "judge the same",
	 0,
	 600},
};

START_TEST(split_that_cannot_be)
{
	struct office_class c;
	struct rt_results r;
	struct rt_error err;

	office_open(&c, "ridden-rounded", "C M E");
	office_items(&c, 2);
	for (int i = 0; i < 2; i++)
		c.items.at[i].judges = not_split[_i].judges[i];
	c.test.multiplier_x1000000 = not_split[_i].multiplier_x1000000;
	c.rule.apart_x100 = not_split[_i].apart_x100;
	office_entry(&c, 1);
	office_sheets(&c);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, not_split[_i].fault);
	office_close(&c);
}
END_TEST

/* What is taken off does not change the halves; without artistic marks there are none. */
START_TEST(halves_before_errors)
{
	struct office_class c;
	struct rt_results r;

	for (int artistic = 0; artistic < 2; artistic++) {
		office_open(&c, "driven-percent", "C");
		office_item(&c, 1000, RT_GROUP_MOVEMENT);
		office_item(&c, 3000, artistic ? RT_GROUP_ARTISTIC : RT_GROUP_GENERAL);
		office_entry(&c, 1);
		office_sheets(&c);
		office_mark(&c, 0, 0, 0, 0, 650);
		office_mark(&c, 0, 0, 1, 0, 825);
		office_errors(&c, 0, 0, 0, 1);
		make(&r, &c);
		ck_assert_int_eq(r.at[0].percent, 65625); /* 31.25 less 5 of 40 */
		ck_assert_int_eq(r.halves, artistic);
		ck_assert_int_eq(r.at[0].technical, artistic ? 65000 : 0);
		ck_assert_int_eq(r.at[0].artistic, artistic ? 82500 : 0);
		close_both(&r, &c);
	}
}
END_TEST

START_TEST(ties_with_sheets_missing)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "driven-percent", "C B E");
	ck_assert(rt_tie_steps_read("median president", &c.rule));
	office_items(&c, 2);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	office_sum(&c, 0, 1, 110);
	office_sum(&c, 0, 2, 130);
	office_sum(&c, 1, 0, 120);
	office_sum(&c, 1, 1, 120);
	make(&r, &c);
	ck_assert_uint_eq(of_number(&r, 2)->place, 1);
	ck_assert_uint_eq(of_number(&r, 1)->place, 2);
	ck_assert_str_eq(of_number(&r, 1)->parted_by, "president");
	close_both(&r, &c);
}
END_TEST

START_TEST(ties_are_told)
{
	struct office_class c;
	struct rt_results r;

	open_tie(&c, &ties[7]);
	make(&r, &c);
	ck_assert_str_eq(
		r.notes.at[r.notes.n - 1],
		"Equal scores of 61.667: number 2 has place 1 by general impression, then "
		"number 1 has place 2 by the president's mark, then number 3 has place 3.");
	close_both(&r, &c);
}
END_TEST

/* ---- what must not change places ---- */

static unsigned next_random(unsigned *state)
{
	*state = *state * 1103515245U + 12345U;
	return *state >> 16 & 0x7fff;
}

/* A class of marks from a seed, entries 1 to n; coarse marks, so that ties are common. */
static void open_random(struct office_class *c, const char *rule, const char *judges, unsigned seed,
			size_t entries)
{
	office_open(c, rule, judges);
	for (int i = 0; i < 6; i++)
		office_item(c, 1000 * (1 + i % 2), i > 3 ? RT_GROUP_GENERAL : RT_GROUP_MOVEMENT);
	for (size_t i = 0; i < entries; i++)
		office_entry(c, (int64_t)i + 1)->division = i % 3 ? NULL : "ponies";
	office_sheets(c);
	for (size_t i = 0; i < entries * c->class_.judges.n * 6; i++)
		for (int k = 0; k < RT_KEYINGS; k++)
			c->marks.box[i].keyed_x100[k] = 600;
	for (size_t i = 0; i < entries * c->class_.judges.n * 6; i++)
		if (next_random(&seed) % 3 == 0)
			c->marks.box[i].keyed_x100[0] = c->marks.box[i].keyed_x100[1] = 650;
	for (size_t i = 0; i < entries; i++)
		office_errors(c, i, 0, 0, next_random(&seed) % 8 == 0);
}

static void assert_same(const struct rt_result *a, const struct rt_result *b)
{
	ck_assert_uint_eq(a->place, b->place);
	ck_assert_int_eq(a->score, b->score);
	ck_assert_int_eq(a->percent, b->percent);
	ck_assert_pstr_eq(a->parted_by, b->parted_by);
}

static const char *const rules[] = {"driven-percent", "driven-combined", "ridden-rounded",
				    "ridden-eventing"};

#define ENTRIES 12
#define SEEDS	25
#define RUNS	(SEEDS * ROWS(rules))

/* Turn the entries and their sheets round. */
static void reverse(struct office_class *c)
{
	size_t boxes = c->class_.judges.n * c->items.n, judges = c->class_.judges.n;

	for (size_t i = 0, k = c->entries.n - 1; i < k; i++, k--) {
		struct rt_entry entry = c->entries.at[i];

		c->entries.at[i] = c->entries.at[k];
		c->entries.at[k] = entry;
		for (size_t b = 0; b < boxes; b++) {
			struct rt_box box = c->marks.box[i * boxes + b];

			c->marks.box[i * boxes + b] = c->marks.box[k * boxes + b];
			c->marks.box[k * boxes + b] = box;
		}
		for (size_t j = 0; j < judges; j++) {
			struct rt_sheet_lines lines = c->marks.lines[i * judges + j];

			c->marks.lines[i * judges + j] = c->marks.lines[k * judges + j];
			c->marks.lines[k * judges + j] = lines;
		}
	}
}

START_TEST(order_of_entries)
{
	struct office_class a, b;
	struct rt_results ra, rb;
	unsigned seed = (unsigned)(_i / ROWS(rules));

	open_random(&a, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	open_random(&b, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	reverse(&b);
	make(&ra, &a);
	make(&rb, &b);
	for (size_t i = 0; i < ENTRIES; i++) {
		ck_assert_int_eq(ra.at[i].entry->number, rb.at[i].entry->number);
		assert_same(&ra.at[i], &rb.at[i]);
	}
	ck_assert_uint_eq(ra.notes.n, rb.notes.n);
	for (size_t i = 0; i < ra.notes.n; i++)
		ck_assert_str_eq(ra.notes.at[i], rb.notes.at[i]);
	close_both(&ra, &a);
	close_both(&rb, &b);
}
END_TEST

START_TEST(hors_concours_takes_no_place)
{
	struct office_class a, b;
	struct rt_results ra, rb;
	unsigned seed = (unsigned)(_i / ROWS(rules));

	open_random(&a, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	open_random(&b, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	office_entry(&b, 99)->hors_concours = true;
	/* The same sheets, and those of number 99 behind them: all 6.5. */
	rt_class_marks_free(&b.marks);
	office_sheets(&b);
	memcpy(b.marks.box, a.marks.box, (size_t)ENTRIES * 3 * 6 * sizeof *a.marks.box);
	memcpy(b.marks.lines, a.marks.lines, (size_t)ENTRIES * 3 * sizeof *a.marks.lines);
	for (size_t j = 0; j < 3; j++)
		office_sum(&b, ENTRIES, j, 6 * 65);
	make(&ra, &a);
	make(&rb, &b);
	for (int64_t number = 1; number <= ENTRIES; number++) {
		assert_same(of_number(&ra, number), of_number(&rb, number));
		for (size_t j = 0; j < 3; j++)
			ck_assert_uint_eq(of_number(&ra, number)->judge[j].place,
					  of_number(&rb, number)->judge[j].place);
	}
	ck_assert(of_number(&rb, 99)->scored);
	ck_assert_uint_eq(of_number(&rb, 99)->place, 0);
	close_both(&ra, &a);
	close_both(&rb, &b);
}
END_TEST

/* Sheets of the judges that do not preside change hands. */
START_TEST(order_of_judges)
{
	struct office_class a, b;
	struct rt_results ra, rb;
	unsigned seed = (unsigned)(_i / ROWS(rules));

	open_random(&a, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	open_random(&b, rules[_i % ROWS(rules)], "C B E", seed, ENTRIES);
	for (size_t e = 0; e < ENTRIES; e++) {
		for (size_t i = 0; i < b.items.n; i++) {
			struct rt_box box = *rt_class_marks_box(&b.marks, e, 1, i);

			*rt_class_marks_box(&b.marks, e, 1, i) = *rt_class_marks_box(&b.marks, e, 2,
										     i);
			*rt_class_marks_box(&b.marks, e, 2, i) = box;
		}
	}
	make(&ra, &a);
	make(&rb, &b);
	for (size_t i = 0; i < ENTRIES; i++) {
		ck_assert_int_eq(ra.at[i].entry->number, rb.at[i].entry->number);
		assert_same(&ra.at[i], &rb.at[i]);
		ck_assert_int_eq(ra.at[i].judge[1].percent, rb.at[i].judge[2].percent);
		ck_assert_uint_eq(ra.at[i].judge[1].place, rb.at[i].judge[2].place);
	}
	close_both(&ra, &a);
	close_both(&rb, &b);
}
END_TEST

/* ---- the report ---- */

static const struct rt_table *table_of(const struct rt_report *report, const char *name)
{
	for (size_t i = 0; i < report->tables; i++)
		if (strcmp(report->table[i]->name, name) == 0)
			return report->table[i];
	ck_abort_msg("no table %s", name);
}

/* A cell as CSV would have it; "null" where there is none. */
static const char *cell(const struct rt_table *t, size_t row, const char *column)
{
	static char text[80];
	size_t i = 0;
	const struct rt_value *v;

	while (i < t->columns && strcmp(t->column[i].name, column) != 0)
		i++;
	ck_assert_msg(i < t->columns, "no column %s", column);
	v = rt_table_cell(t, row, i);
	if (v->null)
		return "null";
	switch (rt_type_shown(t->column[i].type)) {
	case RT_TEXT:
		return v->as.text;
	case RT_BOOL:
		return v->as.truth ? "yes" : "no";
	default:
		rt_format_decimal(v->as.whole, v->digits, text, sizeof text);
		return text;
	}
}

static bool is_wide(const struct rt_table *t, const char *column)
{
	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, column) == 0)
			return t->column[i].wide;
	ck_abort_msg("no column %s", column);
}

/* Rows of the field under driven-combined: C gives 1 error to the first of them. */
static const struct {
	size_t row;
	const char *column, *text;
} cells[] = {
	{0, "place", "1"},
	{0, "number", "9"},
	{0, "driver", "Driver"},
	{0, "horses", "Horse"},
	{0, "status", "finished"},
	{0, "score", "49.60"},
	{0, "percent", "69.00"},
	{0, "penalties", "49.60"},
	{0, "penalty_points", "0"},
	{0, "points_off", "null"},
	{0, "errors", "0"},
	{0, "division", "null"},
	{0, "hors_concours", "no"},
	{0, "why", "null"},
	{0, "parted_by", "null"},
	{2, "number", "5"},
	{2, "score", "53.00"},
	{2, "penalty_points", "5"},
	{2, "errors", "1"},
	{4, "place", "null"},
	{4, "status", "hors concours"},
	{4, "score", "32.00"},
	{4, "hors_concours", "yes"},
	{6, "status", "entered"},
	{6, "score", "null"},
	{7, "status", "hors concours"},
	{9, "status", "eliminated"},
	{9, "score", "null"},
	{9, "percent", "null"},
	{9, "penalties", "null"},
	{13, "status", "did not start"},
	{14, "division", "pairs"},
};

START_TEST(report_of_results)
{
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {.tables = 0};
	const struct rt_table *t;

	open_field(&c, "driven-combined", 1);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_errors(&c, 0, 0, k, 1);
	make(&r, &c);
	rt_results_report(&report, &r);
	ck_assert_int_eq(rt_report_result(&report, NULL), RT_OK);
	t = table_of(&report, "results");
	ck_assert_uint_eq(rt_table_rows(t), (size_t)ROWS(field));
	for (int i = 0; i < ROWS(cells); i++)
		ck_assert_msg(strcmp(cell(t, cells[i].row, cells[i].column), cells[i].text) == 0,
			      "row %zu %s: %s", cells[i].row, cells[i].column,
			      cell(t, cells[i].row, cells[i].column));
	ck_assert(!is_wide(t, "percent") && !is_wide(t, "division") && is_wide(t, "penalties"));
	ck_assert(!report.needs_person);
	ck_assert_uint_eq(report.notes, r.notes.n);
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

START_TEST(report_of_class_and_judges)
{
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {.tables = 0};
	const struct rt_table *t;

	open_tie(&c, &ties[5]);
	office_mark(&c, 1, 1, 0, 1, 550);
	make(&r, &c);
	rt_results_report(&report, &r);
	t = table_of(&report, "summary");
	ck_assert_str_eq(cell(t, 0, "class"), "K1");
	ck_assert_str_eq(cell(t, 0, "judges"), "C B E");
	ck_assert_str_eq(cell(t, 0, "maximum"), "20");
	ck_assert_str_eq(cell(t, 0, "state"), "running");
	ck_assert_str_eq(cell(t, 0, "sheets_in"), "6");
	t = table_of(&report, "judges");
	ck_assert_uint_eq(rt_table_rows(t), 6);
	ck_assert_str_eq(cell(t, 1, "number"), "1");
	ck_assert_str_eq(cell(t, 1, "position"), "B");
	ck_assert_str_eq(cell(t, 1, "points"), "13.0");
	ck_assert_str_eq(cell(t, 1, "percent"), "65.000");
	ck_assert_str_eq(cell(t, 1, "place"), "1");
	t = table_of(&report, "results");
	ck_assert(is_wide(t, "percent") && is_wide(t, "division"));
	ck_assert_str_eq(cell(t, 0, "penalties"), "null");
	ck_assert(report.needs_person);
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

/* Errors in per cent and penalties in points are told apart. */
START_TEST(report_of_two_units)
{
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {.tables = 0};
	const struct rt_table *t;

	open_field(&c, "ridden-rounded", 1);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_errors(&c, 0, 0, k, 1);
	office_penalty(&c, c.entries.at[0].number, 750, -1);
	make(&r, &c);
	rt_results_report(&report, &r);
	t = table_of(&report, "results");
	for (size_t i = 0; i < r.n; i++)
		if (r.at[i].entry == &c.entries.at[0]) {
			ck_assert_str_eq(cell(t, i, "penalty_points"), "2");
			ck_assert_str_eq(cell(t, i, "points_off"), "7.50");
		}
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

/* An entry is finished when every box of every sheet is filled, not before. */
START_TEST(report_of_entries_under_way)
{
	struct office_class c;
	struct rt_results r;

	open_tie(&c, &ties[5]);
	office_sum(&c, 0, 0, 120);
	make(&r, &c);
	ck_assert_str_eq(rt_result_words(of_number(&r, 1)), "finished");
	rt_results_free(&r);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_mark(&c, 0, 0, 0, k, RT_NO_MARK);
	make(&r, &c);
	ck_assert_str_eq(rt_result_words(of_number(&r, 1)), "running");
	rt_results_free(&r);
	for (size_t i = 0; i < c.items.n; i++)
		for (int k = 0; k < RT_KEYINGS; k++)
			office_mark(&c, 0, 0, i, k, RT_NO_MARK);
	make(&r, &c);
	ck_assert_str_eq(rt_result_words(of_number(&r, 1)), "running");
	ck_assert_uint_gt(of_number(&r, 1)->place, 0);
	close_both(&r, &c);
}
END_TEST

/* The list on the wall: a table for the placed of each division, one for all others. */
START_TEST(paper_of_results)
{
	static const size_t placed[] = {4, 2, 1};
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {.tables = 0};
	struct rt_posting posting;
	struct rt_error why = {0};
	const char *judges;

	open_field(&c, "driven-combined", 1);
	make(&r, &c);
	ck_assert_int_eq(rt_posting_make(&posting, &r, &why), RT_OK);
	rt_posting_paper(&report, &posting);
	ck_assert_uint_eq(report.tables, 4);
	for (size_t i = 0; i < 3; i++) {
		ck_assert_str_eq(report.table[i]->name, "placed");
		ck_assert_uint_eq(rt_table_rows(report.table[i]), placed[i]);
		ck_assert_str_eq(cell(report.table[i], 0, "place"), "1");
	}
	ck_assert_str_eq(report.table[1]->title, "pairs");
	judges = cell(report.table[0], 0, "judges");
	ck_assert_msg(strncmp(judges, "C\xC2\xA0", 3) == 0, "%s", judges);
	ck_assert_ptr_eq(strchr(judges, ' '), NULL); /* of one judge */
	ck_assert_str_eq(report.table[3]->name, "others");
	ck_assert_uint_eq(rt_table_rows(report.table[3]), (size_t)ROWS(field) - 7);
	rt_posting_free(&posting);
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

/* The halves of a freestyle are told in the report and in what is posted; of another test none. */
START_TEST(halves_are_told)
{
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {0};
	struct rt_posting posting;
	struct rt_error why = {0};

	office_open(&c, "driven-percent", "C");
	office_item(&c, 1000, RT_GROUP_MOVEMENT);
	office_item(&c, 3000, _i ? RT_GROUP_ARTISTIC : RT_GROUP_GENERAL);
	office_entry(&c, 1);
	office_sheets(&c);
	office_mark(&c, 0, 0, 0, 0, 650);
	office_mark(&c, 0, 0, 1, 0, 825);
	make(&r, &c);
	ck_assert_int_eq(rt_posting_make(&posting, &r, &why), RT_OK);
	ck_assert_pstr_eq(posting.places.at[0].technical, _i ? "65.000" : NULL);
	ck_assert_pstr_eq(posting.places.at[0].artistic, _i ? "82.500" : NULL);
	rt_posting_free(&posting);
	rt_results_report(&report, &r);
	ck_assert_str_eq(cell(rt_report_named(&report, "results"), 0, "technical"),
			 _i ? "65.000" : "null");
	ck_assert_str_eq(cell(rt_report_named(&report, "results"), 0, "artistic"),
			 _i ? "82.500" : "null");
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

/* What errors take off in per cent comes off the place by each judge too. */
START_TEST(errors_lower_the_place_by_a_judge)
{
	struct office_class c;
	struct rt_results r;

	office_open(&c, "ridden-rounded", "C");
	office_items(&c, ITEMS);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	office_sum(&c, 0, 0, 660);
	office_sum(&c, 1, 0, 650);
	make(&r, &c);
	ck_assert_uint_eq(of_number(&r, 1)->judge[0].place, 1);
	rt_results_free(&r);
	for (int k = 0; k < RT_KEYINGS; k++)
		office_errors(&c, 0, 0, k, 1); /* 2 per cent */
	make(&r, &c);
	ck_assert_uint_eq(of_number(&r, 1)->judge[0].place, 2);
	ck_assert_uint_eq(of_number(&r, 2)->judge[0].place, 1);
	close_both(&r, &c);
}
END_TEST

/* Penalties of half and quarter points need their decimals, in all rows. */
START_TEST(report_of_small_penalties)
{
	struct office_class c;
	struct rt_results r;
	struct rt_report report = {.tables = 0};
	const struct rt_table *t;

	open_tie(&c, &ties[0]);
	c.class_.division = "pairs";
	office_penalty(&c, 1, 25, -1);
	office_penalty(&c, 2, 550, -1);
	make(&r, &c);
	rt_results_report(&report, &r);
	t = table_of(&report, "results");
	ck_assert_str_eq(cell(t, 0, "penalty_points"), "0.25");
	ck_assert_str_eq(cell(t, 1, "penalty_points"), "5.50");
	ck_assert(is_wide(t, "percent") && !is_wide(t, "division"));
	rt_report_free(&report);
	close_both(&r, &c);
}
END_TEST

int check_office_places(void)
{
	Suite *suite = suite_create("office: places");
	TCase *places = tcase_create("places"), *report = tcase_create("report");

	tcase_add_loop_test(places, order_and_places, 0, ROWS(orders));
	tcase_add_test(places, division_of_the_class);
	tcase_add_loop_test(places, ties_part, 0, ROWS(ties));
	tcase_add_loop_test(places, freestyle, 0, ROWS(freestyle_ties));
	tcase_add_test(places, halves_before_errors);
	tcase_add_loop_test(places, split_panel, 0, ROWS(split));
	tcase_add_test(places, items_of_the_president);
	tcase_add_loop_test(places, scale_and_decimals, 0, ROWS(scales));
	tcase_add_test(places, cut_below_zero);
	tcase_add_loop_test(places, tie_left_to_an_official, 0, ROWS(left_tied));
	tcase_add_loop_test(places, split_that_cannot_be, 0, ROWS(not_split));
	tcase_add_test(places, ties_with_sheets_missing);
	tcase_add_test(places, ties_are_told);
	tcase_add_loop_test(places, order_of_entries, 0, RUNS);
	tcase_add_loop_test(places, hors_concours_takes_no_place, 0, RUNS);
	tcase_add_loop_test(places, order_of_judges, 0, RUNS);
	tcase_add_test(report, report_of_results);
	tcase_add_test(report, report_of_class_and_judges);
	tcase_add_loop_test(report, halves_are_told, 0, 2);
	tcase_add_test(report, paper_of_results);
	tcase_add_test(report, errors_lower_the_place_by_a_judge);
	tcase_add_test(report, report_of_small_penalties);
	tcase_add_test(report, report_of_two_units);
	tcase_add_test(report, report_of_entries_under_way);
	suite_add_tcase(suite, places);
	suite_add_tcase(suite, report);
	return suite_run(suite);
}
