/* The office room: championships, teams, prize money.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "suite.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

static struct rt_error why;

/* A class of one judge with an entry a driver, whose percentages are sum_x10 / 10 over ten items
 * of ten: tenths of a per cent; 0 leaves the entry out. */
struct field {
	struct office_class c;
	struct rt_results r;
	struct rt_results_shown shown; /* from prizes_of to prizes_done */
	char name[12];
};

static void open_field(struct field *f, int number, const char *rule, const char *const *driver,
		       const int *sum_x10, size_t n)
{
	office_open(&f->c, rule, "C");
	snprintf(f->name, sizeof f->name, "%d", number);
	f->c.class_.name = f->name;
	office_items(&f->c, 10);
	for (size_t i = 0; i < n; i++)
		if (sum_x10[i])
			office_entry(&f->c, (int64_t)i + 1)->driver = driver[i];
	office_sheets(&f->c);
	for (size_t i = 0, e = 0; i < n; i++) {
		if (!sum_x10[i])
			continue;
		office_sum(&f->c, e++, 0, sum_x10[i]);
	}
	ck_assert_int_eq(rt_results_make(&f->r, &f->c.marks, &why), RT_OK);
}

static void close_field(struct field *f)
{
	rt_results_free(&f->r);
	office_close(&f->c);
}

static const char *const drivers[] = {"Ada", "Bea", "Cid", "Dan"};

/* Three classes, per cent; a zero: not entered. */
static const int sums[3][4] = {{700, 600, 650, 0}, {600, 700, 650, 800}, {650, 655, 650, 0}};

static void open_three(struct field f[3])
{
	for (int i = 0; i < 3; i++)
		open_field(&f[i], i + 1, "driven-percent", drivers, sums[i], 4);
}

static void standings(struct rt_standings *s, struct field f[3],
		      const struct rt_championship *championship)
{
	rt_standings_of_championship(s, championship, 3);
	for (int i = 0; i < 3; i++)
		ck_assert_int_eq(rt_standings_add(s, &f[i].r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(s, &why), RT_OK);
}

static void ck_standing(const struct rt_standing *s, const char *name, size_t place, int64_t total)
{
	ck_assert_str_eq(s->name, name);
	ck_assert_uint_eq(s->place, place);
	ck_assert_int_eq(s->total, total * 1000000);
}

/* A cell of the table in the row, as text has it. */
static void ck_told(const struct rt_table *t, size_t row, const char *column, const char *words)
{
	char told[32];
	size_t at = 0;

	while (strcmp(t->column[at].name, column) != 0)
		ck_assert_uint_lt(++at, t->columns);
	ck_assert_str_eq(rt_value_words(&t->column[at], rt_table_cell(t, row, at), false, told,
					sizeof told),
			 words);
}

/* ---- championships ---- */

START_TEST(all_classes_count)
{
	const struct rt_championship cup = {.name = "cup", .classes = "1; 2; 3"};
	struct rt_standings s;
	struct field f[3];

	open_three(f);
	standings(&s, f, &cup);
	ck_assert_uint_eq(s.list.n, 4);
	ck_standing(&s.list.at[0], "Bea", 1, 195500);
	ck_standing(&s.list.at[1], "Ada", 2, 195000);
	ck_standing(&s.list.at[2], "Cid", 2, 195000);
	ck_standing(&s.list.at[3], "Dan", 0, 80000);
	ck_assert_ptr_null(s.list.at[1].parted_by);
	rt_standings_free(&s);
	for (int i = 0; i < 3; i++)
		close_field(&f[i]);
}
END_TEST

START_TEST(a_standing_tells_what_it_is_made_of)
{
	const struct rt_championship cup = {.name = "cup", .classes = "1; 2; 3"};
	struct rt_report report = {0};
	struct rt_standings s;
	struct field f[3];

	open_three(f);
	standings(&s, f, &cup);
	rt_standings_report(&report, &s);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), 4);
	ck_told(report.table[0], 0, "results", "60.000, 70.000, 65.500");
	ck_assert_uint_eq(rt_table_rows(report.table[1]), 3 + 3 + 3 + 1);
	for (size_t i = 0; i < report.table[1]->columns; i++)
		ck_assert(report.table[1]->column[i].wide); /* text has them in one line */
	ck_told(report.table[1], 2, "class", "3");
	ck_told(report.table[1], 2, "result", "65.500");
	ck_assert_uint_eq(report.notes, 2);
	ck_assert_str_eq(report.note[0], "The sum of the best 3 results counts; the highest wins.");
	ck_assert_str_eq(report.note[1], "Not placed: 1 with fewer than 3 results (a class where "
					 "one was not placed gives none).");
	rt_report_free(&report);
	rt_standings_free(&s);
	for (int i = 0; i < 3; i++)
		close_field(&f[i]);
}
END_TEST

/* However many are to be dropped, the best result stays. */
START_TEST(one_result_counts_at_least)
{
	struct rt_championship cup = {.name = "cup", .classes = "1; 2; 3"};
	static const size_t kept[] = {3, 2, 1, 1, 1};
	const struct rt_field *dropped = rt_record_field(&rt_championship_record, "dropped");

	for (size_t i = 0; i < COUNT(kept); i++) {
		struct rt_standings s;

		cup.dropped = (int64_t)i;
		rt_standings_of_championship(&s, &cup, 3);
		ck_assert_uint_eq(s.kept, kept[i]);
		rt_standings_free(&s);
	}
	ck_assert_int_eq(rt_field_read(dropped, &cup, "1000", NULL, NULL), RT_OK);
	ck_assert_int_eq(rt_field_read(dropped, &cup, "1001", NULL, NULL), RT_E_INPUT);
	ck_assert_int_eq(rt_field_read(dropped, &cup, "-1", NULL, NULL), RT_E_INPUT);
}
END_TEST

START_TEST(the_worst_is_dropped)
{
	const struct rt_championship cup = {
		.name = "cup", .classes = "1; 2; 3", .dropped = 1, .tally = RT_TALLY_MEAN};
	struct rt_standings s;
	struct field f[3];
	size_t counting = 0;

	open_three(f);
	standings(&s, f, &cup);
	ck_standing(&s.list.at[0], "Bea", 1, 135500);
	ck_standing(&s.list.at[1], "Ada", 2, 135000);
	ck_standing(&s.list.at[2], "Cid", 3, 130000);
	ck_assert(!s.list.at[1].part.at[1].counts); /* 60 per cent */
	for (size_t i = 0; i < 3; i++)
		counting += s.list.at[2].part.at[i].counts; /* three that are equal */
	ck_assert_uint_eq(counting, 2);
	rt_standings_free(&s);
	for (int i = 0; i < 3; i++)
		close_field(&f[i]);
}
END_TEST

START_TEST(equal_totals_are_parted)
{
	static const struct {
		enum rt_tally_ties ties;
		const char *second;
	} rows[] = {{RT_TALLY_BEST, "Ada"}, {RT_TALLY_LAST, NULL}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		const struct rt_championship cup = {
			.name = "cup", .classes = "1; 2; 3", .ties = rows[i].ties};
		struct rt_standings s;
		struct field f[3];

		open_three(f);
		standings(&s, f, &cup);
		if (rows[i].second) {
			ck_standing(&s.list.at[1], rows[i].second, 2, 195000);
			ck_assert_uint_eq(s.list.at[2].place, 3);
			ck_assert_str_eq(s.list.at[1].parted_by, "best");
		} else { /* 65 each in the last class: still equal */
			ck_assert_uint_eq(s.list.at[1].place, 2);
			ck_assert_uint_eq(s.list.at[2].place, 2);
			ck_assert_ptr_null(s.list.at[2].parted_by);
		}
		rt_standings_free(&s);
		for (int k = 0; k < 3; k++)
			close_field(&f[k]);
	}
}
END_TEST

/* 195 twice, under a rule where the highest wins: the higher of the two best, though its worst is
 * higher too. */
START_TEST(the_best_class_parts)
{
	static const int of_two[3][4] = {{690, 700, 0, 0}, {660, 620, 0, 0}, {600, 630, 0, 0}};
	const struct rt_championship cup = {
		.name = "cup", .classes = "1; 2; 3", .ties = RT_TALLY_BEST};
	struct rt_standings s;
	struct field f[3];

	for (int i = 0; i < 3; i++)
		open_field(&f[i], i + 1, "driven-percent", drivers, of_two[i], 4);
	standings(&s, f, &cup);
	ck_standing(&s.list.at[0], "Bea", 1, 195000);
	ck_standing(&s.list.at[1], "Ada", 2, 195000);
	rt_standings_free(&s);
	for (int i = 0; i < 3; i++)
		close_field(&f[i]);
}
END_TEST

/* A driver with two turnouts has the better one; a name is the same without accents. */
START_TEST(one_driver_two_turnouts)
{
	static const char *const names[] = {"Åsa Lind", "ASA LIND", "Bo"};
	static const int sum[] = {600, 700, 650};
	struct rt_championship cup = {.name = "cup", .classes = "1"};
	struct rt_standings s;
	struct field f;

	open_field(&f, 1, "driven-percent", names, sum, 3);
	rt_standings_of_championship(&s, &cup, 1);
	ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_assert_uint_eq(s.list.n, 2);
	ck_assert_int_eq(s.list.at[0].total, INT64_C(70000000000));
	ck_assert_int_eq(s.list.at[0].part.at[0].number, 2);
	rt_standings_free(&s);

	cup.by = RT_BY_TURNOUT;
	f.c.entries.at[0].horses = "Tuva";
	f.c.entries.at[1].horses = "Tyra"; /* told apart by their last letters */
	rt_standings_of_championship(&s, &cup, 1);
	ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_assert_uint_eq(s.list.n, 3);
	rt_standings_free(&s);
	close_field(&f);
}
END_TEST

/* Of equal results the first is told, and turnouts of one driver stand by their horses. */
START_TEST(equal_turnouts_of_one_driver)
{
	static const char *const names[] = {"Bo", "Bo"};
	static const int sum[] = {650, 650};
	struct rt_championship cup = {.name = "cup", .classes = "1"};
	struct rt_standings s;
	struct field f;

	open_field(&f, 1, "driven-combined", names, sum, 2);
	f.c.entries.at[0].horses = "Tyra";
	f.c.entries.at[1].horses = "Tuva";
	for (int by_turnout = 0; by_turnout < 2; by_turnout++) {
		cup.by = by_turnout ? RT_BY_TURNOUT : RT_BY_DRIVER;
		rt_standings_of_championship(&s, &cup, 1);
		ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
		ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
		ck_assert_uint_eq(s.list.n, by_turnout ? 2 : 1);
		ck_assert_int_eq(s.list.at[0].part.at[0].number,
				 by_turnout ? 2 : f.r.at[0].entry->number);
		rt_standings_free(&s);
	}
	close_field(&f);
}
END_TEST

START_TEST(two_kinds_of_score_do_not_add)
{
	static const int sum[] = {600};
	struct rt_championship cup = {.name = "cup", .classes = "1; 2"};
	struct rt_standings s;
	struct field f[2];

	open_field(&f[0], 1, "driven-percent", drivers, sum, 1);
	open_field(&f[1], 2, "driven-combined", drivers, sum, 1);
	rt_standings_of_championship(&s, &cup, 2);
	ck_assert_int_eq(rt_standings_add(&s, &f[0].r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_add(&s, &f[1].r, &why), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(why.text, "count the percentages"));
	rt_standings_free(&s);

	cup.of = RT_OF_PERCENT; /* 60 per cent under both rules */
	rt_standings_of_championship(&s, &cup, 2);
	for (int i = 0; i < 2; i++)
		ck_assert_int_eq(rt_standings_add(&s, &f[i].r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_standing(&s.list.at[0], "Ada", 1, 120000);
	rt_standings_free(&s);

	/* penalties alone: 160 - 1.6 x 60 = 64 each time, the lowest wins */
	cup.of = RT_OF_SCORE;
	rt_standings_of_championship(&s, &cup, 1);
	ck_assert_int_eq(rt_standings_add(&s, &f[1].r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_standing(&s.list.at[0], "Ada", 1, 64000);
	rt_standings_free(&s);
	for (int i = 0; i < 2; i++)
		close_field(&f[i]);
}
END_TEST

/* 75 per cent with 105 penalties is 15 of 160, however well it was driven. */
START_TEST(penalties_count_in_per_cent)
{
	static const int sum[] = {750, 600};
	const struct rt_championship cup = {.name = "cup", .classes = "1", .of = RT_OF_PERCENT};
	struct rt_report report = {0};
	struct rt_standings s;
	struct field f;

	open_field(&f, 1, "driven-combined", drivers, sum, 2);
	office_penalty(&f.c, 1, 10500, -1);
	rt_results_free(&f.r);
	ck_assert_int_eq(rt_results_make(&f.r, &f.c.marks, &why), RT_OK);
	rt_standings_of_championship(&s, &cup, 1);
	ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_standing(&s.list.at[0], "Bea", 1, 60000);
	ck_standing(&s.list.at[1], "Ada", 2, 9380); /* 9.375, half up to two decimals */
	rt_standings_free(&s);

	f.c.rule.percent_decimals = 3; /* whatever a score in penalties has */
	rt_standings_of_championship(&s, &cup, 1);
	ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	rt_standings_report(&report, &s);
	ck_told(report.table[0], 1, "total", "9.375");
	ck_assert_uint_eq(report.notes, 1); /* nobody is left out, nothing provisional */
	rt_report_free(&report);
	rt_standings_free(&s);
	close_field(&f);
}
END_TEST

/* ---- teams ---- */

/* A team of the Olympic Games of 2008, as published: 72.250, 70.083, 76.417 are 72.917. */
START_TEST(a_team_may_have_the_mean)
{
	static const int sum[] = {700, 700, 700};
	static const int64_t published[] = {72250, 70083, 76417};
	struct rt_team_member member[] = {
		{.team = "Elm", .class_name = "1", .number = 1},
		{.team = "Elm", .class_name = "1", .number = 2},
		{.team = "Elm", .class_name = "1", .number = 3},
	};
	const struct rt_team_members members = {.at = member, .n = COUNT(member)};
	struct rt_report report = {0};
	struct rt_standings s;
	struct field f;

	open_field(&f, 1, "ridden-rounded", drivers, sum, 3);
	for (size_t i = 0; i < 3; i++)
		f.r.at[i].score = published[i];
	rt_standings_of_teams(&s, &members, 3, RT_TALLY_MEAN, RT_OF_SCORE);
	ck_assert_int_eq(rt_standings_add(&s, &f.r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	rt_standings_report(&report, &s);
	ck_told(report.table[0], 0, "total", "72.917");
	rt_report_free(&report);
	rt_standings_free(&s);
	close_field(&f);
}
END_TEST

START_TEST(the_best_members_count)
{
	struct rt_team_member member[] = {
		{.team = "Elm", .class_name = "1", .number = 1},
		{.team = "Elm", .class_name = "1", .number = 2},
		{.team = "Elm", .class_name = "2", .number = 4},
		{.team = "Oak", .class_name = "2", .number = 2},
		{.team = "Oak", .class_name = "1", .number = 3},
		{.team = "Ash", .class_name = "3", .number = 3},
	};
	const struct rt_team_members members = {.at = member, .n = COUNT(member)};
	struct rt_standings s;
	struct field f[3];

	open_three(f);
	rt_standings_of_teams(&s, &members, 2, RT_TALLY_SUM, RT_OF_SCORE);
	for (int i = 0; i < 3; i++)
		ck_assert_int_eq(rt_standings_add(&s, &f[i].r, &why), RT_OK);
	ck_assert_int_eq(rt_standings_end(&s, &why), RT_OK);
	ck_assert_uint_eq(s.list.n, 3);
	ck_standing(&s.list.at[0], "Elm", 1, 150000);
	ck_standing(&s.list.at[1], "Oak", 2, 135000);
	ck_standing(&s.list.at[2], "Ash", 0, 65000);
	rt_standings_free(&s);
	for (int i = 0; i < 3; i++)
		close_field(&f[i]);
}
END_TEST

/* ---- prize money ---- */

static const struct rt_prize_step steps_[] = {
	{.scale = "n", .starters = 2, .place = 1, .amount_x100 = 4000},
	{.scale = "n", .starters = 4, .place = 1, .amount_x100 = 10000},
	{.scale = "n", .starters = 4, .place = 2, .amount_x100 = 5000},
	{.scale = "n", .starters = 4, .place = 3, .amount_x100 = 2501},
};

/* The prizes of a field, by what is posted of it. */
static enum rt_err prizes_of(struct rt_prizes *p, struct field *f, const struct rt_posting *posted,
			     const char *scale, const struct rt_payees *payees, int64_t least)
{
	static const struct rt_prize_steps steps = {.at = (struct rt_prize_step *)steps_,
						    .n = COUNT(steps_)};

	ck_assert_int_eq(rt_shown_make(&f->shown, &f->r, posted, false, &why), RT_OK);
	return rt_prizes_make(p, &f->shown, &steps, scale, payees, 4, least, &why);
}

static void prizes_done(struct rt_prizes *p, struct field *f)
{
	rt_prizes_free(p);
	rt_shown_free(&f->shown);
}

START_TEST(equal_places_share_to_the_cent)
{
	static const int sum[] = {700, 650, 650, 600};
	struct rt_payee payee = {.number = 2, .name = "The stables"};
	const struct rt_payees payees = {.at = &payee, .n = 1};
	struct rt_prizes p;
	struct field f;

	open_field(&f, 1, "ridden-points", drivers, sum, 4);
	ck_assert_int_eq(prizes_of(&p, &f, NULL, "n", &payees, 1), RT_OK);
	ck_assert_int_eq(p.starters, 4);
	ck_assert_uint_eq(p.list.n, 3);
	ck_assert_int_eq(p.list.at[0].amount_x100, 10000);
	ck_assert(p.list.at[0].rosette);
	ck_assert_int_eq(p.list.at[1].amount_x100, 3750);
	ck_assert_int_eq(p.list.at[2].amount_x100, 3750);
	ck_assert(!p.list.at[1].rosette);
	ck_assert_str_eq(p.list.at[1].payee, "The stables");
	ck_assert_str_eq(p.list.at[2].payee, "Cid");
	ck_assert_int_eq(p.paid_x100, 17500);
	ck_assert_int_eq(p.left_x100, 1);
	prizes_done(&p, &f);
	ck_assert_int_eq(prizes_of(&p, &f, NULL, "m", &payees, 1), RT_E_NOTFOUND);
	prizes_done(&p, &f);
	close_field(&f);
}
END_TEST

START_TEST(starters_choose_the_step)
{
	static const int sum[] = {700, 650, 640, 600};
	const struct rt_payees nobody = {0};
	struct rt_prizes p;
	struct field f;

	/* three started: one withdrew, and one hors concours is no starter */
	open_field(&f, 1, "ridden-points", drivers, sum, 4);
	rt_results_free(&f.r);
	f.c.entries.at[3].status = RT_WITHDRAWN;
	f.c.entries.at[0].hors_concours = true;
	ck_assert_int_eq(rt_results_make(&f.r, &f.c.marks, &why), RT_OK);
	ck_assert_int_eq(prizes_of(&p, &f, NULL, "n", &nobody, 0), RT_OK);
	ck_assert_int_eq(p.starters, 2);
	ck_assert_uint_eq(p.list.n, 1);
	ck_assert_int_eq(p.list.at[0].posted->number, 2);
	ck_assert_int_eq(p.list.at[0].amount_x100, 4000);
	prizes_done(&p, &f);
	/* one starter: no step, but the rosette */
	rt_results_free(&f.r);
	f.c.entries.at[2].status = RT_DID_NOT_START;
	ck_assert_int_eq(rt_results_make(&f.r, &f.c.marks, &why), RT_OK);
	ck_assert_int_eq(prizes_of(&p, &f, NULL, "n", &nobody, 0), RT_OK);
	ck_assert_uint_eq(p.list.n, 1);
	ck_assert_int_eq(p.list.at[0].amount_x100, 0);
	ck_assert(p.list.at[0].rosette);
	prizes_done(&p, &f);
	close_field(&f);
}
END_TEST

/* Money goes by what is posted, and who was sent out after that is told. */
START_TEST(money_follows_the_posting)
{
	static const int sum[] = {700, 650, 640, 600};
	const struct rt_payees nobody = {0};
	struct rt_report report = {0};
	struct rt_posting posting;
	struct rt_prizes p;
	struct field f;

	open_field(&f, 1, "ridden-points", drivers, sum, 4);
	ck_assert_int_eq(rt_posting_make(&posting, &f.r, &why), RT_OK);
	posting.version = 1;
	posting.at = posting.until = "2026-05-09 18:00:00";
	rt_results_free(&f.r);
	f.c.entries.at[0].status = RT_ELIMINATED;
	ck_assert_int_eq(rt_results_make(&f.r, &f.c.marks, &why), RT_OK);
	ck_assert_int_eq(prizes_of(&p, &f, &posting, "n", &nobody, 0), RT_OK);
	ck_assert_int_eq(p.list.at[0].posted->number, 1);
	ck_assert_int_eq(p.list.at[0].amount_x100, 10000);
	rt_prizes_report(&report, &p);
	ck_assert(report.needs_person);
	ck_assert_ptr_nonnull(strstr(report.note[0], "version 1"));
	ck_assert_ptr_nonnull(strstr(report.note[1], "number 1 (place 1, now none"));
	rt_report_free(&report);
	prizes_done(&p, &f);
	rt_posting_free(&posting);
	close_field(&f);
}
END_TEST

START_TEST(class_names_are_parted)
{
	struct rt_strings names = {0};

	ck_assert_int_eq(rt_names_split(&names, " 1; 2a ;;Novice pairs", &why), RT_OK);
	ck_assert_uint_eq(names.n, 3);
	ck_assert_str_eq(names.at[0], "1");
	ck_assert_str_eq(names.at[1], "2a");
	ck_assert_str_eq(names.at[2], "Novice pairs");
	RT_LIST_FREE(&names);
}
END_TEST

int check_series(void)
{
	Suite *suite = suite_create("series");
	TCase *series = tcase_create("series");

	suite_add_tcase(suite, series);
	tcase_add_test(series, all_classes_count);
	tcase_add_test(series, a_standing_tells_what_it_is_made_of);
	tcase_add_test(series, one_result_counts_at_least);
	tcase_add_test(series, the_worst_is_dropped);
	tcase_add_test(series, equal_totals_are_parted);
	tcase_add_test(series, the_best_class_parts);
	tcase_add_test(series, one_driver_two_turnouts);
	tcase_add_test(series, equal_turnouts_of_one_driver);
	tcase_add_test(series, two_kinds_of_score_do_not_add);
	tcase_add_test(series, penalties_count_in_per_cent);
	tcase_add_test(series, the_best_members_count);
	tcase_add_test(series, a_team_may_have_the_mean);
	tcase_add_test(series, equal_places_share_to_the_cent);
	tcase_add_test(series, starters_choose_the_step);
	tcase_add_test(series, money_follows_the_posting);
	tcase_add_test(series, class_names_are_parted);
	return suite_run(suite);
}
