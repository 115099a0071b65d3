/* office: words, rules, judges, boxes.  Sheets are in check_office_sheets.c, places and the
 * report in check_office_places.c.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof *(table)))

/* ---- words ---- */

/* The code of a word; -1: it is none. */
static int code_of(const struct rt_words *words, const char *word)
{
	int code;

	return rt_word_read(words, word, &code) ? code : -1;
}

START_TEST(words_read_back)
{
	enum rt_tie_break by;

	for (int i = RT_ENTERED; i <= RT_DID_NOT_START; i++)
		ck_assert_int_eq(code_of(&rt_words_of_status, rt_status_words((enum rt_status)i)),
				 i);
	ck_assert_int_eq(code_of(&rt_words_of_scale, "penalties"), RT_PENALTY_SCALE);
	ck_assert_str_eq(rt_scale_words(RT_PENALTY_SCALE), "penalties");
	ck_assert_int_eq(code_of(&rt_words_of_wins, "lowest"), RT_LOWEST_WINS);
	ck_assert_str_eq(rt_wins_words(RT_LOWEST_WINS), "lowest");
	ck_assert_int_eq(code_of(&rt_words_of_taken, "percent"), RT_TAKEN_PERCENT);
	ck_assert_str_eq(rt_taken_words(RT_TAKEN_PERCENT), "percent");
	ck_assert(rt_tie_break_read("president", &by) && by == RT_TIE_PRESIDENT);
	ck_assert_str_eq(rt_tie_break_words(by), "president");
}
END_TEST

START_TEST(words_refused)
{
	ck_assert_int_eq(code_of(&rt_words_of_scale, "percen"), -1);
	ck_assert_int_eq(code_of(&rt_words_of_scale, "percents"), -1);
	ck_assert_int_eq(code_of(&rt_words_of_scale, ""), -1);
	ck_assert_int_eq(code_of(&rt_words_of_scale, "Percent"), RT_PERCENT_SCALE);
	ck_assert_int_eq(code_of(&rt_words_of_scale, "per-cent"), RT_PERCENT_SCALE);
	ck_assert_int_eq(code_of(&rt_words_of_status, "did-not-start"), RT_DID_NOT_START);
	ck_assert_int_eq(code_of(&rt_words_of_status, "did-not"), -1);
	ck_assert_int_eq(code_of(&rt_words_of_status, "Did_not_start"), RT_DID_NOT_START);
	ck_assert_int_eq(code_of(&rt_words_of_status, "Scratched"), RT_WITHDRAWN);
	ck_assert_int_eq(code_of(&rt_words_of_status, "no-show"), RT_DID_NOT_START);
	ck_assert_int_eq(code_of(&rt_words_of_scale, "pe-cent"), -1);
}
END_TEST

/* ---- rules ---- */

/* Tie-breaks as they are typed, and as they are written back; NULL: refused. */
static const char *const tie_steps[][2] = {
	{"", ""},
	{"general", "general"},
	{"  median:3   president ", "median:3 president"},
	{"general median:12 president general", "general median:12 president general"},
	{"general general general general general", NULL},
	{"median:0", NULL},
	{"median:", NULL},
	{"median:x", NULL},
	{"artistic item:12 item:canter left:3", NULL}, /* a name of two words */
	{"artistic:3 item:12:1 item:a1", "artistic:3 item:12:1 item:a1"},
	{"item", NULL},
	{"item:", NULL},
	{"item:abcdefghijklmnopqrstuvwx", NULL}, /* 24 bytes */
	{"item:abcdefghijklmnopqrstuvw", "item:abcdefghijklmnopqrstuvw"},
	{"collective", "general"},
	{"combined", NULL},
	{"a-word-that-is-longer-than-any-of-them", NULL},
	{"median:000000000000000000000003", "median:3"}, /* 31 characters may be meant */
	{"median:0000000000000000000000003", NULL},	 /* 32 not */
};

START_TEST(ties_read)
{
	struct rt_rule rule = {.tie_steps = 2};
	char back[80], cut[9];
	bool read = rt_tie_steps_read(tie_steps[_i][0], &rule);

	ck_assert_msg(read == (tie_steps[_i][1] != NULL), "%s", tie_steps[_i][0]);
	if (!read)
		return;
	rt_tie_steps_words(&rule, back, sizeof back);
	ck_assert_str_eq(back, tie_steps[_i][1]);
	rt_tie_steps_words(&rule, cut, sizeof cut);
	ck_assert_uint_lt(strlen(cut), sizeof cut);
	ck_assert(strncmp(cut, back, strlen(cut)) == 0);
}
END_TEST

static const char *const shipped[] = {
	"driven-percent", "driven-combined", "ridden-points", "ridden-rounded", "ridden-eventing",
};

START_TEST(shipped_rules_score)
{
	struct rt_arena *text = NULL;
	struct rt_rule rule;

	ck_assert(office_rule_shipped(&rule, &text, shipped[_i]));
	ck_assert_int_eq(rt_rule_check(&rule, NULL), RT_OK);
	ck_assert_str_eq(rule.name, shipped[_i]);
	rt_arena_free(text);
}
END_TEST

/* Rows that cannot be scored. */
static const char *const bad_rules[] = {
	"a,percent,highest,0,10,3,3,points,,,,,",
	"a,percent,highest,0,-2,3,3,points,,,,,",
	"a,percent,highest,0,-1,-1,3,points,,,,,",
	"a,percent,highest,0,-1,3,10,points,,,,,",
	"a,percent,highest,160,-1,3,3,points,,,,,",
	"a,penalties,lowest,0,-1,2,2,score,,,,,",
	"a,penalties,lowest,1001,-1,2,2,score,,,,,",
	"a,percent,highest,0,-1,3,3,points,1000.01,,,,",
	"a,percent,highest,0,-1,3,3,points,5,-1,,,",
	"a,penalties,lowest,160,-1,2,2,percent,2,,,,",
};

START_TEST(rules_refused)
{
	struct rt_arena *text = NULL;
	struct rt_rule rule;
	struct rt_error err;

	ck_assert(office_rule_row(&rule, &text, bad_rules[_i]));
	ck_assert_msg(rt_rule_check(&rule, &err) == RT_E_INPUT, "%s", bad_rules[_i]);
	ck_assert_ptr_nonnull(strstr(err.text, "rule a: "));
	rt_arena_free(text);
}
END_TEST

/* The least and the most of a base, and a column an error of course. */
START_TEST(rules_accepted)
{
	static const char *const rows[] = {
		"a,penalties,lowest,1,-1,2,2,score,1,20,300,1000,,,,,",
		"a,penalties,lowest,1000,-1,2,2,score,1,20,300,1000,,,,,"};

	for (int i = 0; i < ROWS(rows); i++) {
		struct rt_arena *text = NULL;
		struct rt_rule rule;

		ck_assert(office_rule_row(&rule, &text, rows[i]));
		ck_assert_int_eq(rt_rule_check(&rule, NULL), RT_OK);
		ck_assert_uint_eq(rule.error_steps, 4);
		ck_assert_int_eq(rule.error[0].amount_x100, 100);
		ck_assert_int_eq(rule.error[1].amount_x100, 2000);
		ck_assert_int_eq(rule.error[2].amount_x100, 30000);
		ck_assert_int_eq(rule.error[3].amount_x100, 100000);
		rt_arena_free(text);
	}
}
END_TEST

START_TEST(a_coefficient_has_a_range)
{
	const struct rt_field *f = rt_record_field(&rt_item_record, "coefficient");
	struct rt_item item;

	ck_assert_int_eq(rt_field_read(f, &item, "0.001", NULL, NULL), RT_OK);
	ck_assert_int_eq(rt_field_read(f, &item, "99.999", NULL, NULL), RT_OK);
	ck_assert_int_eq(item.coefficient_x1000, 99999);
	ck_assert_int_eq(rt_field_read(f, &item, "0", NULL, NULL), RT_E_INPUT);
	ck_assert_int_eq(rt_field_read(f, &item, "100", NULL, NULL), RT_E_INPUT);
}
END_TEST

START_TEST(rules_found)
{
	struct rt_rule row[] = {{.name = "one"}, {.name = "two"}};
	struct rt_rules rules = {.at = row, .n = 2};

	ck_assert_ptr_eq(rt_rule_find(&rules, "two"), &row[1]);
	ck_assert_ptr_null(rt_rule_find(&rules, "tw"));
}
END_TEST

/* ---- judges ---- */

struct positions {
	const char *typed;
	size_t n;
	const char *president;
	const char *back; /* NULL: refused */
};

static const struct positions positions[] = {
	{"C", 1, "C", "C"},	  {"B  E\tC ", 3, "C", "B E C"}, {"B E", 2, "B", "B* E"},
	{"B E*", 2, "E", "B E*"}, {"B* E", 2, "B", "B* E"},	 {"B* C", 2, "B", "B* C"},
	{"C* B", 2, "C", "C B"},  {"J1 J2*", 2, "J2", "J1 J2*"}, {"", 0, NULL, NULL},
	{"  ", 0, NULL, NULL},	  {"C B C", 0, NULL, NULL},	 {"C* B*", 0, NULL, NULL},
	{"*", 0, NULL, NULL},	  {"C B*E", 0, NULL, NULL},	 {"C,B", 0, NULL, NULL},
	{"C**", 0, NULL, NULL},
};

START_TEST(judges_read)
{
	const struct positions *p = &positions[_i];
	struct rt_judges judges = {.n = 0};
	struct rt_arena *text = NULL;
	struct rt_error err = {.code = RT_OK};
	char back[40];
	enum rt_err e = rt_judges_read(&judges, &text, p->typed, &err);

	ck_assert_msg(e == (p->back ? RT_OK : RT_E_INPUT), "%s", p->typed);
	ck_assert_uint_eq(judges.n, p->n);
	ck_assert(p->back || err.text[0] != '\0');
	for (size_t i = 0; i < judges.n; i++)
		ck_assert_int_eq(judges.at[i].president,
				 strcmp(judges.at[i].position, p->president) == 0);
	if (p->back) {
		rt_judges_words(&judges, back, sizeof back);
		ck_assert_str_eq(back, p->back);
	}
	RT_LIST_FREE(&judges);
	rt_arena_free(text);
}
END_TEST

static const struct {
	const char *typed;
	const char *name[3]; /* of C B E; NULL: not known */
	const char *wrong;   /* NULL: it reads */
} judge_names[] = {
	{"Ann Ash;Bo Bïrch ; Cay  Cedar", {"Ann Ash", "Bo Bïrch", "Cay  Cedar"}, NULL},
	{"Ann Ash; ;", {"Ann Ash", NULL, NULL}, NULL},
	{";;", {NULL, NULL, NULL}, NULL},
	{"Ann Ash; Bo Birch", {0}, "2 names for 3 judges"},
	{"", {0}, "1 name for 3 judges"},
	{"A;B;C;D", {0}, "4 names for 3 judges"},
	{"A;B\nB;C", {0}, "the name of judge B holds a line break"},
};

START_TEST(judges_are_named)
{
	struct rt_judges judges = {.n = 0};
	struct rt_arena *text = NULL;
	struct rt_error err = {.code = RT_OK};
	const char *wrong = judge_names[_i].wrong;
	enum rt_err e;

	ck_assert_int_eq(rt_judges_read(&judges, &text, "C B E", &err), RT_OK);
	e = rt_judges_name(&judges, &text, judge_names[_i].typed, &err);
	ck_assert_int_eq(e, wrong ? RT_E_INPUT : RT_OK);
	ck_assert(!wrong || strncmp(err.text, wrong, strlen(wrong)) == 0);
	for (size_t i = 0; !wrong && i < 3; i++)
		ck_assert_pstr_eq(judges.at[i].name, judge_names[_i].name[i]);
	RT_LIST_FREE(&judges);
	rt_arena_free(text);
}
END_TEST

/* Who presides is said where it is not C, from the start on. */
START_TEST(a_class_tells_its_judges)
{
	struct rt_class class_ = {.positions = "B  E", .judge_names = "Ann Ash; Bo Birch"};
	struct rt_arena *text = NULL;

	ck_assert_int_eq(rt_class_read_judges(&class_, &text, NULL), RT_OK);
	ck_assert_str_eq(class_.positions, "B* E");
	ck_assert_str_eq(class_.judges.at[1].name, "Bo Birch");
	class_.judges.at[0].name = NULL;
	ck_assert_int_eq(rt_class_tell_judges(&class_, &text, NULL), RT_OK);
	ck_assert_str_eq(class_.judge_names, "; Bo Birch");
	RT_LIST_FREE(&class_.judges);
	rt_arena_free(text);
}
END_TEST

START_TEST(a_judge_has_a_name_of_bounded_length)
{
	struct rt_judges judges = {.n = 0};
	struct rt_arena *text = NULL;
	char name[RT_NAME_MOST + 2];

	memset(name, 'a', sizeof name - 1);
	name[RT_NAME_MOST + 1] = '\0';
	ck_assert_int_eq(rt_judges_read(&judges, &text, "C", NULL), RT_OK);
	ck_assert_int_eq(rt_judges_name(&judges, &text, name, NULL), RT_E_INPUT);
	name[RT_NAME_MOST] = '\0';
	ck_assert_int_eq(rt_judges_name(&judges, &text, name, NULL), RT_OK);
	RT_LIST_FREE(&judges);
	rt_arena_free(text);
}
END_TEST

/* ---- boxes ---- */

START_TEST(box_settles)
{
	static const struct {
		int64_t one, two;
		int mark;
		bool differ;
	} box[] = {
		{-1, -1, RT_NO_MARK, false}, {650, -1, 650, false}, {-1, 0, 0, false},
		{625, 625, 625, false},	     {650, 700, -1, true},
	};

	for (int i = 0; i < ROWS(box); i++) {
		struct rt_box b = {{box[i].one, box[i].two}, false};
		bool differ = !box[i].differ;

		ck_assert_int_eq(rt_box_mark_x100(&b, &differ), box[i].mark);
		ck_assert_int_eq(differ, box[i].differ);
		ck_assert_int_eq(rt_box_mark_x100(&b, NULL), box[i].mark);
	}
}
END_TEST

START_TEST(boxes_start_empty_and_apart)
{
	struct office_class c;

	office_open(&c, "driven-percent", "C B");
	office_items(&c, 3);
	office_entry(&c, 1);
	office_entry(&c, 2);
	office_sheets(&c);
	for (size_t i = 0; i < 2 * 2 * 3; i++) {
		struct rt_box *box = rt_class_marks_box(&c.marks, i / 6, i / 3 % 2, i % 3);

		ck_assert_ptr_eq(box, &c.marks.box[i]);
		ck_assert_int_eq(box->keyed_x100[0], RT_NO_MARK);
		ck_assert_int_eq(box->keyed_x100[1], RT_NO_MARK);
	}
	office_close(&c);
}
END_TEST

/* ---- articles, tests, rings of classes ---- */

/* Of lists one more stands behind the end, which is not looked at. */
static struct rt_article articles[] = {
	{.applies_to = "driven",
	 .name = "Whip dropped",
	 .step = {{true, false, 500}, {true, false, 1000}}},
	{.applies_to = "club", .name = "whip dropped", .step = {{true, true, 0}}},
	{.applies_to = "ridden", .name = "Talking"},
	{.applies_to = "driven", .name = "Late"},
};

/* The place of the article in the list; -1: none. */
static int found(const char *rule, const char *discipline, const char *name)
{
	const struct rt_articles list = {.at = articles, .n = 3};
	const struct rt_article *a = rt_article_find(&list, rule, discipline, name);

	return a ? (int)(a - articles) : -1;
}

START_TEST(articles_are_found)
{
	ck_assert_int_eq(found("club", "driven", "WHIP dropped"), 1); /* the rule's own first */
	ck_assert_int_eq(found("other", "driven", "whip dropped"), 0);
	ck_assert_int_eq(found(NULL, NULL, "whip dropped"), 0);
	ck_assert_int_eq(found(NULL, NULL, "talking"), 2);
	ck_assert_int_eq(found(NULL, "driven", "talking"), -1);
	ck_assert_int_eq(found(NULL, "driven", "late"), -1);
	ck_assert_int_eq(found(NULL, "ridden", "whip dropped"), -1);
}
END_TEST

START_TEST(articles_cost)
{
	const struct rt_cost four[] = {
		{true, false, 1}, {true, false, 2}, {true, false, 3}, {true, false, 4}};
	const struct rt_cost gap[] = {{true, false, 1}, {false, false, 0}, {true, false, 3}};
	int64_t amount_x100;
	bool eliminated;

	for (size_t before = 0; before < 4; before++) {
		ck_assert(rt_article_cost(&articles[0], before, &amount_x100, &eliminated));
		ck_assert_int_eq(amount_x100, before ? 1000 : 500); /* the last again */
		ck_assert(!eliminated);
	}
	ck_assert(rt_article_cost(&articles[1], 0, &amount_x100, &eliminated) && eliminated);
	ck_assert(!rt_article_cost(&articles[2], 0, &amount_x100, &eliminated));
	ck_assert_uint_eq(rt_costs_given(four, 3), 3);
	ck_assert_uint_eq(rt_costs_given(gap, 3), 1);
}
END_TEST

START_TEST(items_of_tests_are_counted)
{
	struct rt_test test[] = {{.name = "T1"}, {.name = "T2"}, {.name = "T3", .items = 9}};
	struct rt_item item[] = {{.test = "T1", .coefficient_x1000 = 1000},
				 {.test = "T2", .coefficient_x1000 = 1500},
				 {.test = "T1", .coefficient_x1000 = 2000},
				 {.test = "T1", .coefficient_x1000 = 4000}};
	struct rt_tests tests = {.at = test, .n = 2};
	const struct rt_items items = {.at = item, .n = 3};

	rt_tests_count(&tests, &items);
	ck_assert_int_eq(test[0].items, 2);
	ck_assert_int_eq(test[0].maximum_x100, 3000); /* ten for each: 10 x 1 + 10 x 2 */
	ck_assert_int_eq(test[1].items, 1);
	ck_assert_int_eq(test[1].maximum_x100, 1500);
	ck_assert_int_eq(test[2].items, 9);
}
END_TEST

START_TEST(a_class_has_the_kind_of_its_ring)
{
	struct rt_ring ring[] = {{.name = "North", .kind = "20x60"},
				 {.name = "South", .kind = "20x40"},
				 {.name = "West", .kind = "40x80"}};
	struct rt_test test[] = {{.name = "T1", .kind = "40x100"}, {.name = "T2", .kind = "40x80"}};
	const struct rt_rings rings = {.at = ring, .n = 2};
	const struct rt_tests tests = {.at = test, .n = 1};
	struct rt_class k = {.ring = "North", .test = "T1"};

	ck_assert_str_eq(rt_class_ring_kind(&k, &rings, &tests), "20x60");
	k.ring = "South";
	ck_assert_str_eq(rt_class_ring_kind(&k, &rings, &tests), "20x40");
	ck_assert_str_eq(rt_class_ring_kind(&k, NULL, &tests), "40x100");
	k.ring = "West";
	ck_assert_str_eq(rt_class_ring_kind(&k, &rings, &tests), "40x100");
	k.ring = NULL;
	ck_assert_str_eq(rt_class_ring_kind(&k, &rings, &tests), "40x100");
	ck_assert_ptr_null(rt_class_ring_kind(&k, &rings, NULL));
	k.test = "T2";
	ck_assert_ptr_null(rt_class_ring_kind(&k, &rings, &tests));
	k.test = NULL;
	ck_assert_ptr_null(rt_class_ring_kind(&k, &rings, &tests));
}
END_TEST

START_TEST(an_entry_is_found_by_number)
{
	struct rt_entry entry[] = {{.class_name = "1", .number = 7},
				   {.class_name = "2", .number = 7},
				   {.class_name = "2", .number = 8}};
	const struct rt_entries entries = {.at = entry, .n = 2};

	ck_assert_ptr_eq(rt_entry_numbered(&entries, NULL, 7), &entry[0]);
	ck_assert_ptr_eq(rt_entry_numbered(&entries, "2", 7), &entry[1]);
	ck_assert_ptr_null(rt_entry_numbered(&entries, "3", 7));
	ck_assert_ptr_null(rt_entry_numbered(&entries, NULL, 8)); /* behind the end */
}
END_TEST

int check_office(void)
{
	Suite *suite = suite_create("office");
	TCase *rules = tcase_create("rules"), *boxes = tcase_create("boxes");

	tcase_add_test(rules, words_read_back);
	tcase_add_test(rules, words_refused);
	tcase_add_loop_test(rules, ties_read, 0, ROWS(tie_steps));
	tcase_add_loop_test(rules, shipped_rules_score, 0, ROWS(shipped));
	tcase_add_loop_test(rules, rules_refused, 0, ROWS(bad_rules));
	tcase_add_test(rules, rules_accepted);
	tcase_add_test(rules, a_coefficient_has_a_range);
	tcase_add_test(rules, rules_found);
	tcase_add_loop_test(rules, judges_read, 0, ROWS(positions));
	tcase_add_loop_test(rules, judges_are_named, 0, ROWS(judge_names));
	tcase_add_test(rules, a_class_tells_its_judges);
	tcase_add_test(rules, a_judge_has_a_name_of_bounded_length);
	tcase_add_test(rules, articles_are_found);
	tcase_add_test(rules, articles_cost);
	tcase_add_test(rules, items_of_tests_are_counted);
	tcase_add_test(rules, a_class_has_the_kind_of_its_ring);
	tcase_add_test(rules, an_entry_is_found_by_number);
	tcase_add_test(boxes, box_settles);
	tcase_add_test(boxes, boxes_start_empty_and_apart);
	suite_add_tcase(suite, rules);
	suite_add_tcase(suite, boxes);
	return suite_run(suite);
}
