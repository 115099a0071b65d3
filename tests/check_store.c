/* Checks of the store: what is put comes back, differences are told, histories only grow.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "store_show.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/internal.h"
#include "suite.h"

/* The end of the fault of a row that is there and differs. */
#define STAYS(give) ": what is in the show stays; give " give ", or make the show file anew"
#define OTHER_TEST  "the test another name"
#define OTHER_CLASS "the class another name, change it with `class change`"
#define OTHER_ENTRY "the entry another number, change it with `entry change`"

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* Two texts, each of which may be NULL. */
static void same_text(const char *a, const char *b)
{
	ck_assert_msg((!a && !b) || (a && b && strcmp(a, b) == 0), "\"%s\" and \"%s\"",
		      a ? a : "(null)", b ? b : "(null)");
}

static void same_real(double a, double b)
{
	ck_assert_msg((isnan(a) && isnan(b)) || a == b, "%.17g and %.17g", a, b);
}

/* ---- shipped rows ---------------------------------------------------------------------------- */

static void same_kinds(const struct rt_ring_kinds *a, const struct rt_ring_kinds *b)
{
	ck_assert_uint_eq(a->n, b->n);
	for (size_t i = 0; i < a->n; i++) {
		const struct rt_ring_kind *p = &a->at[i], *q = &b->at[i];

		same_text(p->name, q->name);
		ck_assert_int_eq(p->discipline, q->discipline);
		same_real(p->width_m, q->width_m);
		same_real(p->length_m, q->length_m);
		ck_assert_uint_eq(p->letters.n, q->letters.n);
		for (size_t j = 0; j < p->letters.n; j++) {
			same_text(p->letters.at[j].name, q->letters.at[j].name);
			ck_assert_int_eq(p->letters.at[j].side, q->letters.at[j].side);
			same_real(p->letters.at[j].offset_m, q->letters.at[j].offset_m);
		}
	}
}

static void same_rules(const struct rt_rules *a, const struct rt_rules *b)
{
	ck_assert_uint_eq(a->n, b->n);
	for (size_t i = 0; i < a->n; i++) {
		const struct rt_rule *p = &a->at[i], *q = &b->at[i];

		same_text(p->name, q->name);
		same_text(p->source, q->source);
		ck_assert_int_eq(p->scale, q->scale);
		ck_assert_int_eq(p->wins, q->wins);
		ck_assert_int_eq(p->base, q->base);
		ck_assert_int_eq(p->judge_decimals, q->judge_decimals);
		ck_assert_int_eq(p->percent_decimals, q->percent_decimals);
		ck_assert_int_eq(p->score_decimals, q->score_decimals);
		ck_assert_int_eq(p->taken, q->taken);
		ck_assert_uint_eq(p->error_steps, q->error_steps);
		for (size_t j = 0; j < p->error_steps; j++) {
			ck_assert_int_eq(p->error[j].amount_x100, q->error[j].amount_x100);
			ck_assert_int_eq(p->error[j].eliminated, q->error[j].eliminated);
		}
		ck_assert_uint_eq(p->tie_steps, q->tie_steps);
		for (size_t j = 0; j < p->tie_steps; j++) {
			ck_assert_int_eq(p->tie[j].by, q->tie[j].by);
			ck_assert_int_eq(p->tie[j].places, q->tie[j].places);
		}
	}
}

static void same_levels(const struct rt_levels *a, const struct rt_levels *b)
{
	ck_assert_uint_eq(a->n, b->n);
	for (size_t i = 0; i < a->n; i++) {
		same_text(a->at[i].name, b->at[i].name);
		same_text(a->at[i].gait, b->at[i].gait);
		ck_assert_int_eq(a->at[i].discipline, b->at[i].discipline);
		same_real(a->at[i].turn_diameter_m, b->at[i].turn_diameter_m);
		same_real(a->at[i].reference_height_cm, b->at[i].reference_height_cm);
	}
}

static void same_gaits(const struct rt_gaits *a, const struct rt_gaits *b)
{
	ck_assert_uint_eq(a->n, b->n);
	for (size_t i = 0; i < a->n; i++) {
		same_text(a->at[i].name, b->at[i].name);
		same_text(a->at[i].source, b->at[i].source);
		same_real(a->at[i].speed_m_per_s, b->at[i].speed_m_per_s);
		same_real(a->at[i].stride_m, b->at[i].stride_m);
	}
}

static void same_turnouts(const struct rt_turnout_parts *a, const struct rt_turnout_parts *b)
{
	ck_assert_uint_eq(a->n, b->n);
	for (size_t i = 0; i < a->n; i++) {
		same_text(a->at[i].turnout, b->at[i].turnout);
		same_text(a->at[i].part, b->at[i].part);
		same_real(a->at[i].hitch_m, b->at[i].hitch_m);
		same_real(a->at[i].length_m, b->at[i].length_m);
		same_real(a->at[i].width_m, b->at[i].width_m);
		same_real(a->at[i].track_m, b->at[i].track_m);
		same_real(a->at[i].cog_m, b->at[i].cog_m);
		ck_assert_int_eq(a->at[i].animals, b->at[i].animals);
	}
}

START_TEST(shipped_rows_come_back)
{
	const struct rt_shipped put = invented_shipped();
	struct place p = place_make();
	struct rt_shipped got = {0};
	struct rt_store *s;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, false, &why));
	DONE(rt_store_shipped(s, &got, &why));
	same_kinds(&put.kinds, &got.kinds);
	same_levels(&put.levels, &got.levels);
	same_gaits(&put.gaits, &got.gaits);
	same_rules(&put.rules, &got.rules);
	same_turnouts(&put.turnouts, &got.turnouts);
	rt_shipped_free(&got);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* A show changes its own rows: of the same name they are replaced whole, others stay. */
START_TEST(rows_of_the_same_name_are_replaced)
{
	struct place p = place_make();
	struct rt_shipped put = invented_shipped(), got = {0};
	struct rt_shipped changed = {.kinds = put.kinds,
				     .gaits = put.gaits,
				     .levels = put.levels,
				     .rules = put.rules,
				     .turnouts = put.turnouts};
	struct rt_ring_kind kinds[2] = {put.kinds.at[0], put.kinds.at[1]};
	struct rt_rule rules[2] = {put.rules.at[0], put.rules.at[1]};
	struct rt_store *s;

	make_show(&p);
	kinds[0].letters.n--;
	kinds[0].length_m = 81.5;
	changed.kinds.at = kinds;
	rules[0].error_steps = 1;
	rules[0].error[1] = rules[0].error[2] = (struct rt_cost){0};
	rules[0].source = "another rulebook";
	changed.rules.at = rules;
	changed.turnouts.at = (struct rt_turnout_part[]){{"gig", "horse", 0, 1.5, 0.7, NAN, NAN, 0}};
	changed.turnouts.n = 1;
	DONE(rt_store_open(&s, p.path, true, &why));
	for (int again = 0; again < 2; again++) {
		DONE(rt_store_begin(s, &why));
		DONE(rt_store_rows_put(s, &changed, &why));
		DONE(rt_store_commit(s, &why));
	}
	DONE(rt_store_shipped(s, &got, &why));
	same_kinds(&changed.kinds, &got.kinds);
	same_levels(&put.levels, &got.levels);
	same_gaits(&put.gaits, &got.gaits);
	same_rules(&changed.rules, &got.rules);
	same_turnouts(&changed.turnouts, &got.turnouts);
	rt_shipped_free(&got);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* The checks of the schema must let every word of the lists in. */
START_TEST(every_word_is_let_in)
{
	struct place p = place_make();
	struct rt_shipped put = invented_shipped(), got = {0};
	struct rt_letter letters[RT_SIDE_A + 3];
	struct rt_ring_kind kind = {"odd", RT_RIDDEN, 10, 20, {0}};
	struct rt_rule rules[2] = {put.rules.at[0], put.rules.at[1]};
	struct rt_store *s;

	for (size_t i = 0; i < COUNT(letters); i++)
		letters[i] = (struct rt_letter){(const char *[]){"A", "B", "C", "D", "E"}[i],
						(enum rt_side)i, (double)i};
	kind.letters.at = letters;
	kind.letters.n = COUNT(letters);
	put.kinds.at = (struct rt_ring_kind[]){put.kinds.at[0], kind};
	rules[0].taken = RT_TAKEN_PERCENT;
	rules[1].tie[0].by = RT_TIE_PRESIDENT;
	rules[1].tie_steps = 1;
	put.rules.at = rules;
	DONE(rt_store_create(p.path, &invented_show, &put, &why));
	DONE(rt_store_open(&s, p.path, false, &why));
	DONE(rt_store_shipped(s, &got, &why));
	same_kinds(&put.kinds, &got.kinds);
	same_rules(&put.rules, &got.rules);
	rt_shipped_free(&got);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- rings and their checks ------------------------------------------------------------------ */

START_TEST(rings_have_names_and_kinds)
{
	const struct rt_ring oak = {"Oak", "driven-40x80"}, elm = {"Elm", "paddock"},
			     odd = {"Ash", "round"}, like = {" ÖAK", "paddock"};
	struct place p = place_make();
	struct rt_rings rings = {0};
	struct rt_store *s;
	struct rt_error err;

	make_show(&p);
	DONE(rt_store_open(&s, p.path, true, &why));
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_ring_add(s, &oak, &why));
	DONE(rt_store_ring_add(s, &elm, &why));
	ck_assert_int_eq(rt_store_ring_add(s, &oak, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "there is a ring Oak in the show already");
	ck_assert_int_eq(rt_store_ring_add(s, &like, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "there is a ring Oak in the show already:  ÖAK reads the same");
	ck_assert_int_eq(rt_store_ring_add(s, &odd, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "there is no kind of ring round in the show");
	DONE(rt_store_rings(s, &rings, &why));
	ck_assert_uint_eq(rings.n, 2);
	ck_assert_str_eq(rings.at[0].name, "Oak");
	ck_assert_str_eq(rings.at[1].kind, "paddock");
	RT_LIST_FREE(&rings);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(the_latest_check_of_a_ring_comes_back)
{
	struct rt_reading readings[] = {
		{.from = "A", .to = "C", .value = 80.02, .sigma = NAN},
		{.from = "AK", .to = "CM", .value = 89.443, .sigma = 0.02, .note = "windy"},
		{.from = "AK",
		 .to = "HC",
		 .value = -0.03,
		 .sigma = NAN,
		 .kind = RT_READ_OFFSET,
		 .at = "E"},
		{.from = "K",
		 .to = "FA",
		 .value = 90.02,
		 .sigma = 0.05,
		 .kind = RT_READ_ANGLE,
		 .at = "AK"},
		{.value = 512.25, .sigma = 0.015, .kind = RT_READ_X, .at = "M", .frame = 2},
		{.value = -80.5, .sigma = 0.015, .kind = RT_READ_Y, .at = "M", .frame = 2},
	};
	const size_t count = sizeof readings / sizeof *readings;
	struct rt_stored_check check = {.ring = "Oak",
					.when = "2026-09-11 18:00:00",
					.tolerance_m = 0.1,
					.fit = "all",
					.readings = {.at = readings, .n = 1}};
	struct rt_stored_check got = {0};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_error err;
	bool found;

	DONE(rt_store_check_latest(s, "Oak", &got, &found, &why));
	ck_assert(!found);
	KEEP(s, rt_store_check_put(s, &check, &why));
	check.fit = "fewest";
	check.readings.n = count;
	KEEP(s, rt_store_check_put(s, &check, &why));
	DONE(rt_store_check_latest(s, "Oak", &got, &found, &why));
	ck_assert(found);
	same_text(got.ring, "Oak");
	same_text(got.when, check.when);
	same_text(got.fit, "fewest");
	same_real(got.tolerance_m, 0.1);
	ck_assert_uint_eq(got.readings.n, count);
	for (size_t i = 0; i < count; i++) {
		ck_assert_int_eq(got.readings.at[i].kind, readings[i].kind);
		ck_assert_int_eq(got.readings.at[i].frame, readings[i].frame);
		same_text(got.readings.at[i].at, readings[i].at);
		same_text(got.readings.at[i].from, readings[i].from);
		same_text(got.readings.at[i].to, readings[i].to);
		same_text(got.readings.at[i].note, readings[i].note);
		same_real(got.readings.at[i].value, readings[i].value);
		same_real(got.readings.at[i].sigma, readings[i].sigma);
	}
	rt_stored_check_free(&got);
	check.ring = "Elm";
	ck_assert_int_eq(rt_store_check_put(s, &check, &err), RT_E_NOTFOUND);
	check.ring = "Oak";
	check.fit = "corners";
	readings[1].value = -1;
	DONE(rt_store_begin(s, &why));
	ck_assert_int_eq(rt_store_check_put(s, &check, &err), RT_E_INPUT);
	rt_store_rollback(s);
	DONE(rt_store_check_latest(s, "Oak", &got, &found, &why));
	same_text(got.fit, "fewest");
	rt_stored_check_free(&got);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* Heights, whose limits and who come back, of the first check as of the latest; a check of heights
 * only is not the latest check of the pegs. */
START_TEST(all_checks_come_back)
{
	struct rt_reading reading = {.from = "A", .to = "C", .value = 80.02, .sigma = NAN};
	struct rt_height heights[] = {{"K", 103.25, NAN, "a.csv", 2},
				      {"E", -0.5, 0.003, "a.csv", 3}};
	struct rt_stored_check check = {.ring = "Oak",
					.when = "2026-09-11 17:00:00",
					.tolerance_m = 0.1,
					.fit = "all",
					.who = "Ann Öberg",
					.readings = {.at = &reading, .n = 1},
					.limits = {7, 8, "not kept without heights"}};
	struct rt_stored_checks got = {0};
	struct rt_stored_check latest = {0};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_error err;
	bool found;

	DONE(rt_store_checks(s, "Oak", &got, &why));
	ck_assert_uint_eq(got.n, 0);
	KEEP(s, rt_store_check_put(s, &check, &why));
	check.who = "";
	check.readings.n = 0;
	check.heights.at = heights;
	check.heights.n = 2;
	check.limits = (struct rt_footing_limits){0.5, 0.2, "the rulebook"};
	KEEP(s, rt_store_check_put(s, &check, &why));
	DONE(rt_store_checks(s, "Oak", &got, &why));
	ck_assert_uint_eq(got.n, 2);
	same_text(got.at[0].who, "Ann Öberg");
	ck_assert_uint_eq(got.at[0].readings.n, 1);
	ck_assert_uint_eq(got.at[0].heights.n, 0);
	same_real(got.at[0].limits.along_m, NAN);
	same_text(got.at[0].limits.source, NULL);
	same_text(got.at[1].who, NULL);
	ck_assert_uint_eq(got.at[1].readings.n, 0);
	ck_assert_uint_eq(got.at[1].heights.n, 2);
	for (size_t i = 0; i < 2; i++) {
		same_text(got.at[1].heights.at[i].name, heights[i].name);
		same_text(got.at[1].heights.at[i].file, "");
		same_real(got.at[1].heights.at[i].height_m, heights[i].height_m);
		same_real(got.at[1].heights.at[i].sigma_m, heights[i].sigma_m);
	}
	same_real(got.at[1].limits.along_m, 0.5);
	same_real(got.at[1].limits.across_m, 0.2);
	same_text(got.at[1].limits.source, "the rulebook");
	rt_stored_checks_free(&got);
	DONE(rt_store_check_latest(s, "Oak", &latest, &found, &why));
	ck_assert(found);
	same_text(latest.who, "Ann Öberg");
	rt_stored_check_free(&latest);
	heights[1].sigma_m = -1;
	DONE(rt_store_begin(s, &why));
	ck_assert_int_eq(rt_store_check_put(s, &check, &err), RT_E_INPUT);
	rt_store_rollback(s);
	DONE(rt_store_checks(s, "Oak", &got, &why));
	ck_assert_uint_eq(got.n, 2);
	rt_stored_checks_free(&got);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- tests, classes, entries ----------------------------------------------------------------- */

START_TEST(tests_and_items_come_back)
{
	static const size_t of_t1[] = {0, 1, 3};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_tests tests = {0};
	struct rt_items items = {0};

	DONE(rt_store_tests(s, &tests, &why));
	ck_assert_uint_eq(tests.n, invented_tests.n);
	for (size_t i = 0; i < tests.n; i++) {
		const struct rt_test *a = &tests.at[i], *b = &invented_tests.at[i];

		same_text(a->name, b->name);
		same_text(a->title, b->title);
		same_text(a->kind, b->kind);
		same_text(a->level, b->level);
		same_text(a->rule, b->rule);
		ck_assert_int_eq(a->multiplier_x1000000, b->multiplier_x1000000);
	}
	DONE(rt_store_items(s, "T1", &items, &why));
	ck_assert_uint_eq(items.n, COUNT(of_t1));
	for (size_t i = 0; i < items.n; i++) {
		const struct rt_item *a = &items.at[i], *b = &invented_items.at[of_t1[i]];

		ck_assert_int_gt(a->id, 0);
		same_text(a->test, "T1");
		same_text(a->name, b->name);
		same_text(a->letters, b->letters);
		same_text(a->movement, b->movement);
		same_text(a->figure, b->figure);
		same_text(a->gait, b->gait);
		ck_assert_int_eq(a->coefficient_x1000, b->coefficient_x1000);
		ck_assert_int_eq(a->group, b->group);
		ck_assert_int_eq(a->mark_step_x100, b->mark_step_x100);
	}
	RT_LIST_FREE(&items);
	DONE(rt_store_items(s, NULL, &items, &why));
	ck_assert_uint_eq(items.n, 4);
	same_text(items.at[3].test, "T2");
	same_text(items.at[3].judges, "C B");
	RT_LIST_FREE(&items);
	RT_LIST_FREE(&tests);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(classes_and_entries_come_back)
{
	static const size_t order[] = {0, 3, 1, 2}; /* class by class, by number */
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes put = invented_classes(), classes = {0};
	struct rt_entries entries = {0};

	DONE(rt_store_classes(s, &classes, &why));
	ck_assert_uint_eq(classes.n, put.n);
	for (size_t i = 0; i < classes.n; i++) {
		const struct rt_class *a = &classes.at[i], *b = &put.at[i];
		char words_a[40], words_b[40];

		same_text(a->name, b->name);
		same_text(a->title, b->title);
		same_text(a->test, b->test);
		same_text(a->level, b->level);
		same_text(a->ring, b->ring);
		same_text(a->rule, b->rule);
		same_text(a->division, b->division);
		rt_judges_words(&a->judges, words_a, sizeof words_a);
		rt_judges_words(&b->judges, words_b, sizeof words_b);
		same_text(words_a, words_b);
		ck_assert_int_gt(a->judges.at[1].id, a->judges.at[0].id);
		for (size_t k = 0; k < a->judges.n; k++)
			same_text(a->judges.at[k].name, b->judges.at[k].name);
	}
	DONE(rt_store_entries(s, NULL, &entries, &why));
	ck_assert_uint_eq(entries.n, COUNT(order));
	for (size_t i = 0; i < entries.n; i++) {
		const struct rt_entry *a = &entries.at[i], *b = &invented_entries.at[order[i]];

		ck_assert_int_gt(a->id, 0);
		same_text(a->class_name, b->class_name);
		ck_assert_int_eq(a->number, b->number);
		same_text(a->driver, b->driver);
		same_text(a->horses, b->horses);
		same_real(a->height_cm, b->height_cm);
		same_text(a->turnout, b->turnout);
		same_text(a->carriage, b->carriage);
		same_text(a->groom, b->groom);
		same_text(a->club, b->club);
		same_text(a->division, b->division);
		ck_assert_int_eq(a->hors_concours, b->hors_concours);
		ck_assert_int_eq(a->status, RT_ENTERED);
		ck_assert_ptr_null(a->status_why);
	}
	RT_LIST_FREE(&entries);
	DONE(rt_store_entries(s, "2", &entries, &why));
	ck_assert_uint_eq(entries.n, 1);
	RT_LIST_FREE(&entries);
	rt_classes_free(&classes);
	rt_classes_free(&put);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(the_same_import_again_adds_nothing)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes classes = invented_classes();
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	struct rt_error err;

	ck_assert_int_eq(
		rt_store_tests_put(s, &invented_tests, &invented_items, &count, &faults, &err),
		RT_E_USAGE); /* no transaction */
	ck_assert_int_eq(rt_store_classes_put(s, &classes, &count, &faults, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_store_entries_put(s, &invented_entries, &count, &faults, &err),
			 RT_E_USAGE);
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_tests_put(s, &invented_tests, &invented_items, &count, &faults, &why));
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	DONE(rt_store_entries_put(s, &invented_entries, &count, &faults, &why));
	DONE(rt_store_commit(s, &why));
	ck_assert_uint_eq(count.added, 0);
	ck_assert_uint_eq(count.same, 8);
	ck_assert_uint_eq(faults.total, 0);
	rt_classes_free(&classes);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* One fault, with this place and text. */
static void one_fault(struct rt_faults *faults, const char *file, long line, const char *column,
		      const char *text)
{
	ck_assert_uint_eq(faults->total, 1);
	same_text(faults->at[0].text, text);
	same_text(faults->at[0].file, file);
	ck_assert_int_eq(faults->at[0].line, line);
	same_text(faults->at[0].column, column);
	rt_faults_free(faults);
}

START_TEST(other_tests_of_the_same_name_are_faults)
{
	struct rt_test test = invented_tests.at[0];
	struct rt_item item[4] = {invented_items.at[0], invented_items.at[1], invented_items.at[3],
				  invented_items.at[3]};
	const struct rt_tests tests = {.at = &test, .n = 1};
	struct rt_items items = {.at = item, .n = 3};
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);

	DONE(rt_store_begin(s, &why));
	test.multiplier_x1000000 = 667000;
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "tests.csv", 2, "multiplier",
		  "test T1 is in the show already and differs, multiplier there is 0.640000" STAYS(
			  OTHER_TEST));
	test = invented_tests.at[0];
	item[1].coefficient_x1000 = 2000;
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "movements.csv", 3, "coefficient",
		  "item 2 of test T1 is in the show already and differs, coefficient there is "
		  "1.500" STAYS(OTHER_TEST));
	item[1] = invented_items.at[1];
	items.n = 2;
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "tests.csv", 2, NULL,
		  "test T1 is in the show already and differs, 3 items there, here 2" STAYS(
			  OTHER_TEST));
	items.n = 4;
	item[3].name = "general-2";
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "movements.csv", 5, NULL,
		  "item general-2 of test T1 is in the show already and differs, not there" STAYS(
			  OTHER_TEST));
	items.n = 3;
	test.name = "T3";
	test.kind = "round";
	for (size_t i = 0; i < 3; i++)
		item[i].test = "T3";
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "tests.csv", 2, "kind",
		  "there is no kind round in the show: add it first");
	test.kind = NULL;
	item[2].gait = "gallop";
	DONE(rt_store_tests_put(s, &tests, &items, &count, &faults, &why));
	one_fault(&faults, "movements.csv", 5, "gait",
		  "there is no gait gallop in the show: add it first");
	ck_assert_uint_eq(count.added + count.same, 0);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(other_classes_of_the_same_name_are_faults)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes classes = invented_classes();
	struct rt_class *c = &classes.at[0];
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	struct rt_judge *judge = &c->judges.at[0];

	classes.n = 1;
	DONE(rt_store_begin(s, &why));
	c->rule = "driven-combined";
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	one_fault(&faults, "classes.csv", 2, "rule",
		  "class 1 is in the show already and differs, rule there is empty" STAYS(
			  OTHER_CLASS));
	c->rule = "unheard-of";
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	one_fault(&faults, "classes.csv", 2, "rule",
		  "there is no rule unheard-of in the show: add it first");
	c->rule = NULL;
	judge->position = "H";
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	one_fault(&faults, "classes.csv", 2, "judges",
		  "class 1 is in the show already and differs, judges there is \"C B\"" STAYS(
			  OTHER_CLASS));
	judge->position = "C";
	judge->name = "Per Ask";
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	one_fault(&faults, "classes.csv", 2, "judge_names",
		  "class 1 is in the show already and differs, judge C there is Una Älv" STAYS(
			  OTHER_CLASS));
	judge->name = NULL; /* a file that names nobody says nothing of names */
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_eq(count.same, 1);
	count.same = 0;
	c->judges.n = 1;
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_uint_eq(count.added + count.same, 0);
	rt_faults_free(&faults);
	classes.n = 2;
	rt_classes_free(&classes);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(other_entries_of_the_same_number_are_faults)
{
	static const struct {
		size_t offset;
		const char *text, *column, *said;
	} change[] = {
		{offsetof(struct rt_entry, driver), "Bo Ek", "driver", "\"Åsa Björk\""},
		{offsetof(struct rt_entry, horses), "Flinga", "horses", "\"Flinga; Frost\""},
		{offsetof(struct rt_entry, turnout), "", "turnout", "\"gig\""},
		{offsetof(struct rt_entry, carriage), "gig", "carriage", "\"the club's gig\""},
		{offsetof(struct rt_entry, groom), NULL, "groom", "\"Bo Ek\""},
		{offsetof(struct rt_entry, club), "Bo Ek", "club", "\"Lövåsens RK\""},
		{offsetof(struct rt_entry, division), "pony", "division", "\"pair\""},
	};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry entry;
	const struct rt_entries entries = {.at = &entry, .n = 1};
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	char text[240];

	DONE(rt_store_begin(s, &why));
	for (size_t i = 0; i < COUNT(change); i++) {
		entry = invented_entries.at[0];
		memcpy((char *)&entry + change[i].offset, &change[i].text, sizeof(const char *));
		DONE(rt_store_entries_put(s, &entries, &count, &faults, &why));
		snprintf(
			text, sizeof text,
			"entry 7 of class 1 is in the show already and differs, %s there is %s" STAYS(
				OTHER_ENTRY),
			change[i].column, change[i].said);
		one_fault(&faults, "entries.csv", 2, change[i].column, text);
	}
	entry = invented_entries.at[0];
	entry.height_cm = 140;
	entry.file = NULL;
	DONE(rt_store_entries_put(s, &entries, &count, &faults, &why));
	one_fault(&faults, "", 2, "height_cm",
		  "entry 7 of class 1 is in the show already and differs, height_cm there is "
		  "132.08" STAYS(OTHER_ENTRY));
	entry = invented_entries.at[0];
	entry.hors_concours = true;
	DONE(rt_store_entries_put(s, &entries, &count, &faults, &why));
	one_fault(&faults, "entries.csv", 2, "hors_concours",
		  "entry 7 of class 1 is in the show already and differs, hors_concours there is "
		  "no" STAYS(OTHER_ENTRY));
	entry.class_name = "9";
	DONE(rt_store_entries_put(s, &entries, &count, &faults, &why));
	one_fault(&faults, "entries.csv", 2, "class",
		  "there is no class 9 in the show: add it first");
	ck_assert_uint_eq(count.added + count.same, 0);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(the_latest_status_holds_and_all_stay)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entries entries = {0};
	struct rt_error err;

	DONE(rt_store_begin(s, &why));
#define PUT_AND_LOOK(code, words)                                                                  \
	DONE(rt_store_status_put(s, "1", 9, code, "why " words, "Kim", "2026-09-12 10:00", &why)); \
	DONE(rt_store_entries(s, "1", &entries, &why));                                            \
	ck_assert_int_eq(entries.at[0].status, RT_ENTERED);                                        \
	ck_assert_int_eq(entries.at[1].status, code);                                              \
	same_text(entries.at[1].status_why, "why " words);                                         \
	RT_LIST_FREE(&entries);
	RT_STATUSES(PUT_AND_LOOK)
#undef PUT_AND_LOOK
	DONE(rt_store_status_put(s, "1", 9, RT_ENTERED, "", NULL, NULL, &why));
	DONE(rt_store_entries(s, "1", &entries, &why));
	ck_assert_ptr_null(entries.at[1].status_why);
	RT_LIST_FREE(&entries);
	DONE(rt_store_commit(s, &why));
	ck_assert_int_eq(run_outside(p.path, "SELECT CASE count(*) WHEN 7 THEN 1 ELSE abs(-"
					     "9223372036854775808) END FROM status_change"),
			 SQLITE_OK);
	DONE(rt_store_begin(s, &why));
	ck_assert_int_eq(rt_store_status_put(s, "1", 8, RT_RETIRED, NULL, NULL, NULL, &err),
			 RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "there is no entry 8 in class 1");
	ck_assert_int_eq(rt_store_entries(s, "77", &entries, &err), RT_E_NOTFOUND);
	ck_assert_int_eq(rt_store_status_put(s, "11", 9, RT_RETIRED, NULL, NULL, NULL, &err),
			 RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "there is no class 11 in the show: 1, 2");
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- marks ----------------------------------------------------------------------------------- */

/* Ids of class 1, taken from the show. */
struct sheet {
	struct rt_store *s;
	int64_t entry[3], judge[2], item[3];
};

static struct sheet sheet_open(const struct place *p)
{
	struct sheet sheet = {.s = open_filled_show(p)};
	struct rt_classes classes = {0};
	struct rt_entries entries = {0};
	struct rt_items items = {0};

	DONE(rt_store_classes(sheet.s, &classes, &why));
	DONE(rt_store_entries(sheet.s, "1", &entries, &why));
	DONE(rt_store_items(sheet.s, "T1", &items, &why));
	for (size_t i = 0; i < 3; i++) {
		sheet.entry[i] = entries.at[i].id;
		sheet.item[i] = items.at[i].id;
	}
	sheet.judge[0] = classes.at[0].judges.at[0].id;
	sheet.judge[1] = classes.at[0].judges.at[1].id;
	rt_classes_free(&classes);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&items);
	return sheet;
}

static void pass(struct rt_store *s, int keying)
{
	const struct rt_pass one = {
		.keying = keying, .who = "Kim", .when = "2026-09-12 11:00", .source = "marks.csv"};

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_begin(s, &one, &why));
}

/* Put a value into item 1 (or a line) of the first entry and judge, and check what became of
 * it. */
static void put(const struct sheet *sheet, enum rt_mark_kind kind, int64_t value,
		enum rt_mark_put expected)
{
	enum rt_mark_put what;

	DONE(rt_store_mark_put(sheet->s, sheet->entry[0], sheet->judge[0],
			       kind == RT_MARK_ITEM ? sheet->item[0] : 0, kind, value, "neat",
			       &what, &why));
	ck_assert_int_eq(what, expected);
}

/* What the book says there. */
static int64_t says(const struct sheet *sheet, enum rt_mark_kind kind, int keying)
{
	struct rt_class_book book = {0};
	int64_t value;

	DONE(book_of_class(sheet->s, "1", &book, &why));
	value = kind == RT_MARK_ITEM	 ? book.marks.box[0].keyed_x100[keying - 1]
		: kind == RT_MARK_ERRORS ? book.marks.lines[0].errors[keying - 1]
					 : book.marks.lines[0].total_x100000[keying - 1];
	rt_class_book_free(&book);
	return value;
}

START_TEST(marks_are_new_same_or_changed)
{
	static const enum rt_mark_kind kinds[] = {RT_MARK_ITEM, RT_MARK_ERRORS, RT_MARK_TOTAL};
	struct place p = place_make();
	struct sheet sheet = sheet_open(&p);

	for (size_t i = 0; i < COUNT(kinds); i++) {
		enum rt_mark_kind kind = kinds[i];

		ck_assert_int_eq(says(&sheet, kind, 1), -1);
		pass(sheet.s, 1);
		put(&sheet, kind, 5, RT_MARK_NEW);
		DONE(rt_store_commit(sheet.s, &why));
		pass(sheet.s, 2); /* the other keying is another box */
		put(&sheet, kind, 7, RT_MARK_NEW);
		DONE(rt_store_commit(sheet.s, &why));
		ck_assert_int_eq(says(&sheet, kind, 1), 5);
		pass(sheet.s, 1);
		put(&sheet, kind, 5, RT_MARK_SAME);
		DONE(rt_store_commit(sheet.s, &why));
		ck_assert_int_eq(says(&sheet, kind, 1), 5);
		pass(sheet.s, 1);
		put(&sheet, kind, 0, RT_MARK_CHANGED);
		put(&sheet, kind, 3, RT_MARK_CHANGED); /* twice in a pass: the later counts */
		ck_assert_int_eq(says(&sheet, kind, 1), 3);
		rt_store_rollback(sheet.s);
		ck_assert_int_eq(says(&sheet, kind, 1), 5);
		pass(sheet.s, 1);
		put(&sheet, kind, 0, RT_MARK_CHANGED);
		DONE(rt_store_commit(sheet.s, &why));
		ck_assert_int_eq(says(&sheet, kind, 1), 0);
		pass(sheet.s, 1);
		put(&sheet, kind, 5, RT_MARK_CHANGED); /* back to what it was: a third row */
		DONE(rt_store_commit(sheet.s, &why));
		ck_assert_int_eq(says(&sheet, kind, 1), 5);
		ck_assert_int_eq(says(&sheet, kind, 2), 7);
	}
	rt_store_close(sheet.s);
	ck_assert_int_eq(run_outside(p.path, "CREATE TEMPORARY TABLE t (n CHECK (n = 4)); INSERT "
					     "INTO t SELECT count(*) FROM mark WHERE remark = "
					     "'neat'; INSERT INTO t SELECT count(*) / 2 FROM "
					     "sheet_line WHERE remark = 'neat'"),
			 SQLITE_OK);
	place_remove(&p);
}
END_TEST

START_TEST(marks_out_of_bounds_are_errors)
{
	struct place p = place_make();
	struct sheet sheet = sheet_open(&p);
	const struct {
		int64_t entry, judge, item;
		enum rt_mark_kind kind;
		int64_t value;
	} bad[] = {
		{sheet.entry[0], sheet.judge[0], sheet.item[0], RT_MARK_ITEM, 1001},
		{sheet.entry[0], sheet.judge[0], sheet.item[0], RT_MARK_ITEM, -1},
		{999, sheet.judge[0], sheet.item[0], RT_MARK_ITEM, 50},
		{sheet.entry[0], 999, sheet.item[0], RT_MARK_ITEM, 50},
		{sheet.entry[0], sheet.judge[0], 999, RT_MARK_ITEM, 50},
		{sheet.entry[0], sheet.judge[0], 0, RT_MARK_ERRORS, 10},
		{sheet.entry[0], sheet.judge[0], 0, RT_MARK_TOTAL, -5},
		{sheet.entry[0], 999, 0, RT_MARK_TOTAL, 5},
	};
	enum rt_mark_put what;
	struct rt_error err;

	ck_assert_int_eq(rt_store_mark_put(sheet.s, sheet.entry[0], sheet.judge[0], sheet.item[0],
					   RT_MARK_ITEM, 50, NULL, &what, &err),
			 RT_E_USAGE);
	ck_assert_int_eq(rt_store_pass_begin(sheet.s, &(struct rt_pass){.keying = 1}, &err),
			 RT_E_USAGE);
	pass(sheet.s, 1);
	for (size_t i = 0; i < COUNT(bad); i++) {
		ck_assert_int_eq(rt_store_mark_put(sheet.s, bad[i].entry, bad[i].judge, bad[i].item,
						   bad[i].kind, bad[i].value, NULL, &what, &err),
				 RT_E_INPUT);
		ck_assert_ptr_nonnull(strstr(err.text, "the show file refuses this: "));
	}
	DONE(rt_store_commit(sheet.s, &why));
	/* A pass ends with its transaction. */
	ck_assert_int_eq(rt_store_mark_put(sheet.s, sheet.entry[0], sheet.judge[0], sheet.item[0],
					   RT_MARK_ITEM, 50, NULL, &what, &err),
			 RT_E_USAGE);
	DONE(rt_store_begin(sheet.s, &why));
	ck_assert_int_eq(rt_store_mark_put(sheet.s, sheet.entry[0], sheet.judge[0], sheet.item[0],
					   RT_MARK_ITEM, 50, NULL, &what, &err),
			 RT_E_USAGE);
	ck_assert_int_eq(rt_store_pass_begin(sheet.s, &(struct rt_pass){.keying = 3}, &err),
			 RT_E_INPUT);
	rt_store_close(sheet.s);
	place_remove(&p);
}
END_TEST

START_TEST(histories_only_grow)
{
	static const char *const table[] = {"status_change", "penalty",	   "pass",
					    "mark",	     "sheet_line", "ring_check",
					    "ring_reading",  "ring_height"};
	struct rt_height height = {"K", 1, NAN, "", 0};
	struct rt_reading reading = {.from = "A", .to = "C", .value = 80.02, .sigma = NAN};
	const struct rt_stored_check check = {.ring = "Oak",
					      .tolerance_m = 0.1,
					      .fit = "all",
					      .readings = {.at = &reading, .n = 1},
					      .heights = {.at = &height, .n = 1},
					      .limits = {0.5, 0.2, NULL}};
	const struct rt_penalty penalty = {.number = 7, .points_x100 = 500, .errors = -1};
	struct place p = place_make();
	struct sheet sheet = sheet_open(&p);

	pass(sheet.s, 1);
	put(&sheet, RT_MARK_ITEM, 65, RT_MARK_NEW);
	put(&sheet, RT_MARK_ERRORS, 1, RT_MARK_NEW);
	DONE(rt_store_status_put(sheet.s, "1", 7, RT_RETIRED, NULL, NULL, NULL, &why));
	DONE(rt_store_penalty_put(sheet.s, "1", &penalty, &why));
	DONE(rt_store_check_put(sheet.s, &check, &why));
	DONE(rt_store_commit(sheet.s, &why));
	rt_store_close(sheet.s);
	for (size_t i = 0; i < COUNT(table); i++) {
		char sql[120];

		snprintf(sql, sizeof sql, "DELETE FROM %s", table[i]);
		ck_assert_int_eq(run_outside(p.path, sql), SQLITE_CONSTRAINT);
		snprintf(sql, sizeof sql, "UPDATE %s SET %s", table[i],
			 strncmp(table[i], "ring", 4) == 0 ? "tolerance_m = 1" : "who = 'x'");
		if (strcmp(table[i], "mark") == 0 || strcmp(table[i], "sheet_line") == 0)
			snprintf(sql, sizeof sql, "UPDATE %s SET version = 2", table[i]);
		if (strcmp(table[i], "ring_reading") == 0)
			snprintf(sql, sizeof sql, "UPDATE ring_reading SET value = 80");
		if (strcmp(table[i], "ring_height") == 0)
			snprintf(sql, sizeof sql, "UPDATE ring_height SET height_m = 80");
		ck_assert_int_eq(run_outside(p.path, sql), SQLITE_CONSTRAINT);
	}
	place_remove(&p);
}
END_TEST

/* Points are taken back as far as there are any, and end somewhere. */
START_TEST(penalty_points_have_bounds)
{
	static const struct {
		int64_t points_x100;
		const char *why;
	} put[] = {
		{-1, "there are only 0 points to take back from this entry"},
		{550, NULL},
		{-551, "there are only 5.50 points to take back from this entry"},
		{-50, NULL},
		{-501, "there are only 5 points to take back from this entry"},
		{49500, NULL},
		{1, "this entry has 500 penalty points already: at most 500 together"},
		{-50000, NULL},
		{-1, "there are only 0 points to take back from this entry"},
	};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_error err;

	for (size_t i = 0; i < COUNT(put); i++) {
		const struct rt_penalty penalty = {
			.number = 7, .points_x100 = put[i].points_x100, .errors = -1};

		DONE(rt_store_begin(s, &why));
		ck_assert_int_eq(rt_store_penalty_put(s, "1", &penalty, &err),
				 put[i].why ? RT_E_INPUT : RT_OK);
		if (!put[i].why) {
			DONE(rt_store_commit(s, &why));
			continue;
		}
		ck_assert_str_eq(err.text, put[i].why);
		rt_store_rollback(s);
	}
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(sheets_are_counted_by_keying)
{
	struct place p = place_make();
	struct sheet sheet = sheet_open(&p);
	size_t keyed[RT_KEYINGS];

	DONE(rt_store_sheets_keyed(sheet.s, "1", keyed, &why));
	ck_assert(keyed[0] == 0 && keyed[1] == 0);
	pass(sheet.s, 1);
	for (size_t i = 0; i < 3; i++) {
		enum rt_mark_put what;

		DONE(rt_store_mark_put(sheet.s, sheet.entry[i], sheet.judge[0], sheet.item[i],
				       RT_MARK_ITEM, 60, NULL, &what, &why));
	}
	put(&sheet, RT_MARK_ITEM, 65, RT_MARK_CHANGED);
	DONE(rt_store_commit(sheet.s, &why));
	pass(sheet.s, 2);
	put(&sheet, RT_MARK_ITEM, 65, RT_MARK_NEW);
	DONE(rt_store_commit(sheet.s, &why));
	DONE(rt_store_sheets_keyed(sheet.s, "1", keyed, &why));
	ck_assert_uint_eq(keyed[0], 3);
	ck_assert_uint_eq(keyed[1], 1);
	DONE(rt_store_sheets_keyed(sheet.s, "2", keyed, &why));
	ck_assert(keyed[0] == 0 && keyed[1] == 0);
	rt_store_close(sheet.s);
	place_remove(&p);
}
END_TEST

/* ---- the book of a class --------------------------------------------------------------------- */

START_TEST(a_book_holds_all_of_a_class)
{
	const struct rt_penalty penalties[] = {
		{.number = 9,
		 .points_x100 = 500,
		 .errors = -1,
		 .article = "943",
		 .why = "whip put down",
		 .who = "Kim",
		 .when = "2026-09-12 10:05"},
		{.number = 12, .errors = 2},
		{.number = 9, .points_x100 = -500, .errors = -1, .why = "taken off", .who = "Kim"},
	};
	struct place p = place_make();
	struct sheet sheet = sheet_open(&p);
	struct rt_class_book book = {0};
	const struct rt_class_marks *m = &book.marks;
	enum rt_mark_put what;

	pass(sheet.s, 2);
	for (size_t i = 0; i < 2 * 3; i++)
		DONE(rt_store_mark_put(sheet.s, sheet.entry[1], sheet.judge[i / 3],
				       sheet.item[i % 3], RT_MARK_ITEM, (int64_t)(10 + i), NULL,
				       &what, &why));
	DONE(rt_store_mark_put(sheet.s, sheet.entry[1], sheet.judge[1], 0, RT_MARK_TOTAL, 1234567,
			       NULL, &what, &why));
	for (size_t i = 0; i < COUNT(penalties); i++)
		DONE(rt_store_penalty_put(sheet.s, "1", &penalties[i], &why));
	DONE(rt_store_status_put(sheet.s, "1", 12, RT_ELIMINATED, "out", NULL, NULL, &why));
	/* The book sees what its own transaction has put. */
	DONE(book_of_class(sheet.s, "1", &book, &why));
	ck_assert_str_eq(m->class_->name, "1");
	ck_assert_str_eq(m->test->name, "T1");
	ck_assert_str_eq(m->rule->name, "driven-percent");
	ck_assert_uint_eq(m->items->n, 3);
	ck_assert_uint_eq(m->entries->n, 3);
	ck_assert_int_eq(m->entries->at[2].status, RT_ELIMINATED);
	for (size_t i = 0; i < 2 * 3; i++) {
		const struct rt_box *box = rt_class_marks_box(m, 1, i / 3, i % 3);

		ck_assert_int_eq(box->keyed_x100[0], RT_NO_MARK);
		ck_assert_int_eq(box->keyed_x100[1], (int)(10 + i));
		ck_assert_int_eq(rt_class_marks_box(m, 0, i / 3, i % 3)->keyed_x100[1], RT_NO_MARK);
	}
	ck_assert_int_eq(m->lines[1 * 2 + 1].total_x100000[1], 1234567);
	ck_assert_int_eq(m->lines[1 * 2 + 1].total_x100000[0], -1);
	ck_assert_int_eq(m->lines[1 * 2 + 0].total_x100000[1], -1);
	ck_assert_uint_eq(m->penalties->n, COUNT(penalties));
	for (size_t i = 0; i < COUNT(penalties); i++) {
		const struct rt_penalty *a = &m->penalties->at[i], *b = &penalties[i];

		ck_assert_int_eq(a->number, b->number);
		ck_assert_int_eq(a->points_x100, b->points_x100);
		ck_assert_int_eq(a->errors, b->errors);
		same_text(a->article, b->article);
		same_text(a->why, b->why);
		same_text(a->who, b->who);
		same_text(a->when, b->when);
	}
	rt_class_book_free(&book);
	rt_class_book_free(&book);
	rt_store_close(sheet.s);
	place_remove(&p);
}
END_TEST

START_TEST(a_book_needs_a_class_and_a_rule)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_class_book book = {0};
	struct rt_error err;

	ck_assert_int_eq(book_of_class(s, "3x7", &book, &err), RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "there is no class 3x7 in the show: 1, 2");
	ck_assert_int_eq(rt_store_class_book(s, "1", &book, &err), RT_E_USAGE); /* no transaction */
	ck_assert_int_eq(book_of_class(s, "1a", &book, &err), RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "there is no class 1a in the show: 1, 2");
	ck_assert_int_eq(book_of_class(s, "2", &book, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "neither class 2 nor its test T2 names a rule: the column rule "
				   "of either says how the class is scored");
	rt_class_book_free(&book);
	ck_assert_int_eq(run_outside(p.path, "UPDATE class SET rule = 'driven-combined'"),
			 SQLITE_OK);
	DONE(book_of_class(s, "1", &book, &why));
	ck_assert_str_eq(book.marks.rule->name, "driven-combined"); /* before the test's */
	rt_class_book_free(&book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST
START_TEST(printed_lists_keep_their_versions)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_list_line line[] = {{0, "Class 1"}, {1, "09:00, 7"}};
	struct rt_printed_list list = {.list = RT_START_LIST_GATE, .ring = "Oak", .day = 2,
				       .lines = {.at = line, .n = 2}};
	struct rt_printed_list other = list;
	struct rt_printed_lists found = {0}, latest = {0};

	other.driver = "ash";
	other.version = 1;
	DONE(rt_store_begin(s, &why));
	for (list.version = 1; list.version <= 3; list.version++)
		DONE(rt_store_printed_put(s, &list, &why));
	DONE(rt_store_printed_put(s, &other, &why));
	DONE(rt_store_commit(s, &why));

	DONE(rt_store_printed_versions(s, &list, &found, &why));
	ck_assert_uint_eq(found.n, 2);
	ck_assert_int_eq(found.at[0].version, 3);
	ck_assert_int_eq(found.at[1].version, 2);
	ck_assert(rt_list_lines_same(&found.at[0].lines, &list.lines));
	DONE(rt_store_printed_latest(s, &latest, &why));
	ck_assert_uint_eq(latest.n, 2);
	ck_assert_int_eq(latest.at[0].version + latest.at[1].version, 4);
	rt_printed_lists_free(&latest);
	rt_printed_lists_free(&found);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

int check_store(void)
{
	Suite *suite = suite_create("store");
	TCase *rows = tcase_create("rows");

	suite_add_tcase(suite, rows);
	tcase_set_timeout(rows, 60);
	tcase_add_test(rows, shipped_rows_come_back);
	tcase_add_test(rows, rows_of_the_same_name_are_replaced);
	tcase_add_test(rows, every_word_is_let_in);
	tcase_add_test(rows, rings_have_names_and_kinds);
	tcase_add_test(rows, the_latest_check_of_a_ring_comes_back);
	tcase_add_test(rows, all_checks_come_back);
	tcase_add_test(rows, tests_and_items_come_back);
	tcase_add_test(rows, classes_and_entries_come_back);
	tcase_add_test(rows, the_same_import_again_adds_nothing);
	tcase_add_test(rows, other_tests_of_the_same_name_are_faults);
	tcase_add_test(rows, other_classes_of_the_same_name_are_faults);
	tcase_add_test(rows, other_entries_of_the_same_number_are_faults);
	tcase_add_test(rows, the_latest_status_holds_and_all_stay);
	tcase_add_test(rows, marks_are_new_same_or_changed);
	tcase_add_test(rows, marks_out_of_bounds_are_errors);
	tcase_add_test(rows, histories_only_grow);
	tcase_add_test(rows, penalty_points_have_bounds);
	tcase_add_test(rows, sheets_are_counted_by_keying);
	tcase_add_test(rows, a_book_holds_all_of_a_class);
	tcase_add_test(rows, a_book_needs_a_class_and_a_rule);
	tcase_add_test(rows, printed_lists_keep_their_versions);
	return suite_run(suite);
}
