/* The draw, the plan of start times, its check, and changes on the day.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ringtrue/times.h>

#include "suite.h"

#define H(hours, minutes) (((hours)*60 + (minutes)) * 60)

/* ---- a small show -------------------------------------------------------------------------- */

/* Classes A, B, C ... and what is asked for them. */
static struct rt_classes classes;
static struct rt_time_classes asked;
static struct rt_entries entries;
static struct rt_strings rings;
static struct rt_wishes wishes;
static struct rt_time_settings settings;
static int64_t not_before_s;

static void add_ring(const char *name)
{
	const char **ring = RT_LIST_ADD(&rings);

	*ring = name;
}

static void set_up(void)
{
	rt_time_settings_default(&settings);
	add_ring("North");
	add_ring("South");
}

static void tear_down(void)
{
	rt_classes_free(&classes);
	RT_LIST_FREE(&asked);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&rings);
	RT_LIST_FREE(&wishes);
	not_before_s = 0;
}

/* All classes are added before the first entry: what is asked points at them. */
static struct rt_time_class *add_class(const char *name, uint64_t in, const char *judge)
{
	static struct rt_class kept[8]; /* the list may move */
	struct rt_class *k = &kept[asked.n];
	struct rt_class *listed = RT_LIST_ADD(&classes);
	struct rt_time_class *a = RT_LIST_ADD(&asked);
	const struct rt_plan_row row = {.first_s = -1};

	*listed = (struct rt_class){.name = name};
	ck_assert_int_eq(rt_judges_read(&listed->judges, &classes.text, "C", NULL), RT_OK);
	listed->judges.at[0].name = judge;
	*k = *listed;
	rt_time_class_make(a, &row, k, 480, RT_MINUTE_S);
	a->rings = a->otherwise = in;
	return a;
}

static void add_entry(const char *class_name, int64_t number, const char *driver,
		      const char *horses)
{
	struct rt_entry *e = RT_LIST_ADD(&entries);

	*e = (struct rt_entry){.id = number,
			       .class_name = class_name,
			       .number = number,
			       .driver = driver,
			       .horses = horses,
			       .height_cm = NAN};
}

static struct rt_wish *add_wish(enum rt_wish_about about, const char *name)
{
	struct rt_wish *w = RT_LIST_ADD(&wishes);

	*w = (struct rt_wish){.about = about, .name = name, .not_before_s = -1, .not_after_s = -1};
	return w;
}

static enum rt_err plan(struct rt_times *out, struct rt_error *err)
{
	const struct rt_times_ask ask = {.settings = &settings,
					 .rings = &rings,
					 .classes = &asked,
					 .entries = &entries,
					 .wishes = &wishes,
					 .not_before_s = not_before_s};

	return rt_times_plan(out, &ask, err);
}

static int64_t start_of(const struct rt_starts *starts, int64_t number)
{
	for (size_t i = 0; i < starts->n; i++)
		if (starts->at[i].entry->number == number)
			return starts->at[i].at_s;
	return -1;
}

static size_t clashes_of(const struct rt_starts *starts)
{
	struct rt_clashes clashes = {0};
	size_t n;

	ck_assert_int_eq(rt_times_clashes(&clashes, starts, &classes, &settings, NULL), RT_OK);
	n = clashes.n;
	RT_LIST_FREE(&clashes);
	return n;
}

/* ---- words --------------------------------------------------------------------------------- */

START_TEST(times_of_day)
{
	static const struct {
		const char *words;
		int64_t s;
	} good[] = {{"9:05", H(9, 5)},
		    {"09:05", H(9, 5)},
		    {"09:05:30", H(9, 5) + 30},
		    {"0:00", 0},
		    {"24:00", 86400}};
	static const char *const bad[] = {"",	   "9",	    "9:5",   "9:60",	"24:01",
					  "25:00", "9:05x", "-9:05", "9:05:60", "009:05"};
	char words[16];
	int64_t s;

	for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
		ck_assert(rt_time_read(good[i].words, &s));
		ck_assert_int_eq(s, good[i].s);
	}
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		ck_assert_msg(!rt_time_read(bad[i], &s), "%s", bad[i]);
	rt_time_words(RT_DAY_S + H(9, 5), 2, words, sizeof words);
	ck_assert_str_eq(words, "09:05");
	rt_time_words(RT_DAY_S + H(0, 10), 1, words, sizeof words);
	ck_assert_str_eq(words, "24:10"); /* past midnight of the day that was asked for */
	ck_assert_int_eq(rt_day_of(RT_DAY_S - 1), 1);
	ck_assert_int_eq(rt_day_of(RT_DAY_S), 2);
	ck_assert_int_eq(rt_interval_of(361.2, 120), 482);
}
END_TEST

/* ---- the draw ------------------------------------------------------------------------------ */

static void draw(struct rt_draw *out, const int64_t *place, int64_t seed, int64_t apart)
{
	const struct rt_draw_ask ask = {&entries, place, seed, apart};

	ck_assert_int_eq(rt_draw_make(out, &ask, NULL), RT_OK);
}

static void twelve_drivers(void)
{
	static const char *const drivers[] = {"a", "b", "c", "d", "e", "f",
					      "g", "h", "i", "j", "k", "l"};

	for (int i = 0; i < 12; i++)
		add_entry("A", i + 1, drivers[i], "h");
}

/* Every order of four is as likely as any other: chi-square with 23 degrees of freedom stays under
 * its 0.9999 quantile, 58.6 (by scipy.stats.chi2.ppf). */
START_TEST(draw_is_fair)
{
	enum { DRAWS = 4800 };
	int count[256] = {0};
	double chi2 = 0;
	int orders = 0;

	add_entry("A", 1, "a", "h");
	add_entry("A", 2, "b", "h");
	add_entry("A", 3, "c", "h");
	add_entry("A", 4, "d", "h");
	for (int seed = 1; seed <= DRAWS; seed++) {
		struct rt_draw d;

		draw(&d, NULL, seed, 0);
		count[d.order[0] << 6 | d.order[1] << 4 | d.order[2] << 2 | d.order[3]]++;
		rt_draw_free(&d);
	}
	for (int i = 0; i < 256; i++) {
		orders += count[i] > 0;
		if (count[i])
			chi2 += pow(count[i] - DRAWS / 24.0, 2) / (DRAWS / 24.0);
	}
	ck_assert_int_eq(orders, 24);
	ck_assert_double_lt(chi2, 58.6);
}
END_TEST

START_TEST(draw_keeps_places)
{
	int64_t place[12] = {[2] = 1, [5] = -1, [7] = 4};
	struct rt_draw d;

	twelve_drivers();
	entries.at[9].status = RT_WITHDRAWN;
	for (int seed = 1; seed < 50; seed++) {
		draw(&d, place, seed, 0);
		ck_assert_uint_eq(d.n, 11);
		ck_assert_uint_eq(d.order[0], 2);
		ck_assert_uint_eq(d.order[10], 5);
		ck_assert_uint_eq(d.order[3], 7);
		for (size_t i = 0; i < d.n; i++)
			ck_assert_uint_ne(d.order[i], 9);
		rt_draw_free(&d);
	}
}
END_TEST

START_TEST(draw_refuses)
{
	int64_t place[12] = {[2] = 3, [5] = 3};
	const struct rt_draw_ask ask = {&entries, place, 1, 0};
	struct rt_draw d;
	struct rt_error err;

	twelve_drivers();
	ck_assert_int_eq(rt_draw_make(&d, &ask, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "numbers 3 and 6 cannot both have place 3");
	place[5] = 13;
	ck_assert_int_eq(rt_draw_make(&d, &ask, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "12 are drawn"));
	rt_draw_free(&d);
}
END_TEST

/* Two drivers start three times among twelve: (12 - 2) / 2 places apart, and no more can be. */
START_TEST(draw_keeps_drivers_apart)
{
	struct rt_draw d;

	twelve_drivers();
	entries.at[0].driver = entries.at[4].driver = entries.at[8].driver = "Åsa";
	entries.at[1].driver = entries.at[5].driver = entries.at[9].driver = "Øyvind";
	entries.at[9].driver = "øyvind"; /* the same person */
	for (int seed = 1; seed < 50; seed++) {
		draw(&d, NULL, seed, 0);
		ck_assert_uint_eq(d.spreads.n, 2);
		for (size_t i = 0; i < 2; i++) {
			ck_assert_int_eq(d.spreads.at[i].turnouts, 3);
			ck_assert_int_eq(d.spreads.at[i].apart, 5);
		}
		rt_draw_free(&d);
	}
	draw(&d, NULL, 1, 2);
	ck_assert_int_ge(d.spreads.at[0].apart, 2);
	rt_draw_free(&d);
}
END_TEST

/* Four of one driver among seven start first, third, fifth and last: another who starts twice never
 * takes one of these places. */
START_TEST(draw_leaves_places_for_the_busiest)
{
	static const char *const drivers[] = {"a", "a", "a", "a", "b", "b", "c"};
	struct rt_draw d;

	for (int i = 0; i < 7; i++)
		add_entry("A", i + 1, drivers[i], "h");
	for (int seed = 1; seed < 50; seed++) {
		draw(&d, NULL, seed, 0);
		for (size_t i = 0; i < 7; i += 2)
			ck_assert_uint_lt(d.order[i], 4);
		rt_draw_free(&d);
	}
}
END_TEST

START_TEST(draw_takes_a_late_one)
{
	bool seen[9] = {false};

	ck_assert_int_eq(rt_draw_late(7, 3, true, 99), 4);
	for (int seed = 1; seed < 200; seed++) {
		int64_t place = rt_draw_late(7, 3, false, seed);

		ck_assert_int_ge(place, 4);
		ck_assert_int_le(place, 8);
		seen[place] = true;
	}
	for (int place = 4; place <= 8; place++)
		ck_assert(seen[place]);
}
END_TEST

/* ---- the plan ------------------------------------------------------------------------------ */

/* A class alone, one ring and day: an interval each, a break after so many, none at the end. */
START_TEST(plan_one_class)
{
	struct rt_time_class *a = add_class("A", 1, NULL);
	struct rt_times times;

	rings.n = 1;
	a->break_every = 2;
	a->break_s = 600;
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	add_entry("A", 3, "c", "h3");
	add_entry("A", 4, "d", "h4");
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), H(8, 0));
	ck_assert_int_eq(start_of(&times.starts, 2), H(8, 8));
	ck_assert_int_eq(start_of(&times.starts, 3), H(8, 26));
	ck_assert_int_eq(start_of(&times.starts, 4), H(8, 34));
	ck_assert_int_eq(times.starts.at[1].pause, RT_PAUSE_BREAK);
	ck_assert_int_eq(times.starts.at[3].pause, RT_PAUSE_NONE);
	ck_assert_int_eq(times.quality.last_s, H(8, 42));
	ck_assert_int_eq(times.quality.bound_s, H(8, 42));
	ck_assert_int_eq(times.quality.gap_s, -1);
	ck_assert_uint_eq(times.quality.tried, 1000); /* the fewest */
	rt_times_free(&times);
}
END_TEST

/* On a day under way nothing is planned before now, not even what is asked for earlier; a day that
 * is over is no day for it. */
START_TEST(plan_under_way)
{
	struct rt_time_class *a = add_class("A", 1, NULL);
	struct rt_times times;

	add_entry("A", 1, "a", "h1");
	not_before_s = H(9, 0) + 40;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), H(9, 1));
	ck_assert_int_eq(times.quality.bound_s, H(9, 8) + 40);
	rt_times_free(&times);
	a->first_s = H(8, 30);
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), H(9, 1));
	ck_assert_int_eq(times.wishes.at[0].missed_s, 31 * 60);
	rt_times_free(&times);
	a->first_s = -1;
	settings.days = 2;
	not_before_s = H(17, 55);
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), RT_DAY_S + H(8, 0));
	rt_times_free(&times);
}
END_TEST

/* Intervals, breaks and starts in whole minutes, but where half minutes are asked for. */
START_TEST(plan_in_whole_minutes)
{
	struct rt_plan_row row = {.first_s = -1, .break_every = 1, .break_s = 90};
	struct rt_time_class k;
	struct rt_times times;

	rt_time_class_make(&k, &row, NULL, 482, RT_MINUTE_S);
	ck_assert_int_eq(k.interval_s, 540);
	ck_assert_int_eq(k.break_s, 120);
	rt_time_class_make(&k, &row, NULL, 482, RT_STEP_S);
	ck_assert_int_eq(k.interval_s, 510);
	ck_assert_int_eq(k.break_s, 90);
	row.interval_s = 475; /* as the file says: in seconds */
	rt_time_class_make(&k, &row, NULL, 475, RT_MINUTE_S);
	ck_assert_int_eq(k.interval_s, 480);
	ck_assert_int_eq(k.step_s, RT_STEP_S);

	add_class("A", 1, NULL)->interval_s = 510;
	asked.at[0].step_s = RT_STEP_S;
	add_class("B", 1, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("B", 2, "b", "h2");
	add_wish(RT_WISH_CLASS, "B")->after = "A";
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), H(8, 0));
	ck_assert_int_eq(start_of(&times.starts, 2), H(8, 19)); /* not 8:18:30 */
	rt_times_free(&times);
	wishes.at[0] = (struct rt_wish){RT_WISH_DRIVER, "b", .not_before_s = H(9, 0) + 10,
					.not_after_s = -1};
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 2), H(9, 1));
	rt_times_free(&times);
}
END_TEST

/* A driver in two rings: both classes end as early as they can, one of them backwards. */
START_TEST(plan_keeps_gaps)
{
	struct rt_times times;

	add_class("A", 1, NULL);
	add_class("B", 2, NULL);
	add_entry("A", 1, "Åsa", "h1");
	add_entry("A", 2, "b", "h2");
	add_entry("B", 3, "ÅSA", "h3");
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_uint_eq(clashes_of(&times.starts), 0);
	ck_assert_int_eq(start_of(&times.starts, 3) - start_of(&times.starts, 1), 480 + 1200);
	ck_assert_int_eq(times.quality.last_s, H(8, 36));
	ck_assert_int_eq(times.quality.bound_s, H(8, 36));
	ck_assert_int_eq(times.quality.gap_s, 1200);
	ck_assert_int_eq(times.quality.gap_shared, RT_SHARED_DRIVER);
	ck_assert_uint_eq(times.quality.tried, 150000); /* the most: of so few starts */
	rt_times_free(&times);
}
END_TEST

START_TEST(plan_keeps_judges_in_one_ring)
{
	struct rt_times times;

	add_class("A", 1, "Judge");
	add_class("B", 2, "judge");
	add_entry("A", 1, "a", "h1");
	add_entry("B", 2, "b", "h2");
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(llabs(start_of(&times.starts, 1) - start_of(&times.starts, 2)), 480 + 600);
	ck_assert_uint_eq(clashes_of(&times.starts), 0);
	rt_times_free(&times);
}
END_TEST

/* A carriage that two name keeps its own gap; a kind of turnout does not. */
START_TEST(plan_shares_carriages)
{
	struct rt_times times;

	add_class("A", 1, NULL);
	add_class("B", 2, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("B", 2, "b", "h2");
	entries.at[0].carriage = "the red gig";
	entries.at[1].carriage = "The Red Gig";
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(llabs(start_of(&times.starts, 1) - start_of(&times.starts, 2)),
			 480 + 1200);
	rt_times_free(&times);
	entries.at[0].carriage = entries.at[1].carriage = NULL;
	entries.at[0].turnout = entries.at[1].turnout = "gig";
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 1), start_of(&times.starts, 2));
	rt_times_free(&times);
}
END_TEST

/* Of free order the one who can start does; in drawn order the ring waits. */
START_TEST(plan_free_order)
{
	struct rt_time_class *a = add_class("A", 1, NULL);
	struct rt_times times;

	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "a", "h2");
	add_entry("A", 3, "b", "h3");
	add_entry("A", 4, "c", "h4");
	add_entry("A", 5, "d", "h5");
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_gt(times.quality.waits_s, 0);
	rt_times_free(&times);
	a->free_order = true;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(times.quality.waits_s, 0);
	ck_assert_int_eq(times.quality.last_s, H(8, 40));
	ck_assert_uint_eq(clashes_of(&times.starts), 0);
	rt_times_free(&times);
}
END_TEST

/* A must that stands against another: told, with the one to drop; a soft wish gives way. */
START_TEST(plan_tells_what_to_drop)
{
	struct rt_time_class *a = add_class("A", 1, NULL);
	struct rt_times times;
	struct rt_wish *w;

	a->first_s = H(9, 0);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	w = add_wish(RT_WISH_DRIVER, "B");
	w->not_after_s = H(9, 0);
	w = add_wish(RT_WISH_HORSE, "h1");
	w->not_before_s = H(10, 0);
	w->weight = 3;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_uint_eq(times.wishes.n, 3);
	ck_assert_int_eq(times.wishes.at[0].missed_s, 0); /* begins at 9:00 */
	ck_assert_int_eq(times.wishes.at[1].missed_s, 960);
	ck_assert(times.wishes.at[1].drop);
	ck_assert_int_eq(times.wishes.at[2].missed_s, 3600);
	ck_assert(!times.wishes.at[2].drop);
	ck_assert_int_eq(times.quality.missed, 1);
	ck_assert_int_eq(times.quality.soft_missed, 1);
	rt_times_free(&times);
}
END_TEST

/* Either of two musts could be dropped: the one that is missed is told. */
START_TEST(plan_drops_what_is_missed)
{
	struct rt_times times;

	add_class("A", 1, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	add_wish(RT_WISH_DRIVER, "a")->not_before_s = H(9, 0);
	add_wish(RT_WISH_DRIVER, "b")->not_after_s = H(8, 30);
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(times.wishes.at[0].missed_s, 0);
	ck_assert(!times.wishes.at[0].drop);
	ck_assert_int_gt(times.wishes.at[1].missed_s, 0);
	ck_assert(times.wishes.at[1].drop);
	rt_times_free(&times);
}
END_TEST

/* Two musts want another day than the class has: its day is what to drop. */
START_TEST(plan_drops_the_day)
{
	struct rt_times times;

	settings.days = 2;
	add_class("A", 1, NULL)->day = 1;
	add_entry("A", 1, "a", "h1");
	add_wish(RT_WISH_CLASS, "A")->day = 2;
	add_wish(RT_WISH_DRIVER, "a")->day = 2;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_uint_eq(times.drops, 1);
	ck_assert_uint_eq(times.wishes.n, 3);
	ck_assert(times.wishes.at[2].drop);
	ck_assert_str_eq(times.wishes.at[2].words, "class A has the day that is asked for");
	rt_times_free(&times);
}
END_TEST

/* Who must not start before ten does not, on whichever day. */
START_TEST(plan_keeps_a_time_that_must_be)
{
	for (int64_t day = 1; day <= 2; day++) {
		struct rt_times times;

		tear_down();
		set_up();
		settings.days = 2;
		add_class("A", 1, NULL)->day = day;
		add_entry("A", 1, "a", "h1");
		add_wish(RT_WISH_DRIVER, "a")->not_before_s = H(10, 0);
		ck_assert_int_eq(plan(&times, NULL), RT_OK);
		ck_assert_int_eq(start_of(&times.starts, 1), (day - 1) * RT_DAY_S + H(10, 0));
		ck_assert_int_eq(times.quality.missed, 0);
		rt_times_free(&times);
	}
}
END_TEST

/* A class that is asked for on another day than it must be on: a day weighs as an hour. */
START_TEST(plan_tells_a_wrong_day)
{
	struct rt_times times;

	settings.days = 2;
	add_class("A", 1, NULL)->day = 1;
	add_entry("A", 1, "a", "h1");
	add_wish(RT_WISH_CLASS, "A")->day = 2;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_uint_eq(times.wishes.n, 1);
	ck_assert_int_eq(times.wishes.at[0].missed_s, 3600);
	rt_times_free(&times);
}
END_TEST

/* One of two classes of 15 and 20 minutes in a ring is late by its wish: A second, by 60 s of
 * weight 2, costs 2 x (600 + 60) = 1320; B second, by 721 s of weight 1, costs 600 + 721 = 1321. */
START_TEST(plan_weighs_soft_wishes)
{
	struct rt_times times;
	struct rt_wish *w;

	settings.change_s = 0;
	add_class("A", 1, NULL)->interval_s = 900;
	add_class("B", 1, NULL)->interval_s = 1200;
	add_entry("A", 1, "a", "h1");
	add_entry("B", 2, "b", "h2");
	w = add_wish(RT_WISH_CLASS, "A");
	w->not_after_s = H(8, 0) + 2100 - 60;
	w->weight = 2;
	w = add_wish(RT_WISH_CLASS, "B");
	w->not_after_s = H(8, 0) + 2100 - 721;
	w->weight = 1;
	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	ck_assert_int_eq(start_of(&times.starts, 2), H(8, 0));
	ck_assert_int_eq(start_of(&times.starts, 1), H(8, 20));
	ck_assert_int_eq(times.wishes.at[0].missed_s, 60);
	ck_assert_int_eq(times.wishes.at[1].missed_s, 0);
	rt_times_free(&times);
}
END_TEST

/* The one wish or first start that a plan misses, and who stands in its way. */
static void assert_missed(int64_t missed_s, const char *because)
{
	struct rt_times times;
	size_t missed = 0;

	ck_assert_int_eq(plan(&times, NULL), RT_OK);
	for (size_t i = 0; i < times.wishes.n; i++) {
		if (!times.wishes.at[i].missed_s) {
			ck_assert_ptr_null(times.wishes.at[i].because);
			continue;
		}
		missed++;
		ck_assert_int_eq(times.wishes.at[i].missed_s, missed_s);
		if (because)
			ck_assert_str_eq(times.wishes.at[i].because, because);
		else
			ck_assert_ptr_null(times.wishes.at[i].because);
	}
	ck_assert_uint_eq(missed, 1);
	rt_times_free(&times);
}

START_TEST(plan_names_the_judge)
{
	add_class("A", 1, "Una Alder");
	add_class("B", 2, "una alder");
	asked.at[0].first_s = H(9, 0);
	asked.at[1].first_s = H(9, 10);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	add_entry("B", 3, "c", "h3");
	assert_missed(16 * 60, "judge Una Alder is in class A from 09:00 to 09:16");
}
END_TEST

START_TEST(plan_names_the_horse)
{
	add_class("A", 1, NULL)->first_s = H(8, 0);
	add_class("B", 2, NULL);
	add_entry("A", 1, "a", "Moss");
	add_entry("B", 2, "b", "Fen; Moss");
	add_wish(RT_WISH_CLASS, "B")->not_after_s = H(8, 30);
	assert_missed(26 * 60, "horse Moss is in class A from 08:00 to 08:08");
	wishes.at[0].about = RT_WISH_DRIVER;
	wishes.at[0].name = "b";
	assert_missed(26 * 60, "horse Moss is in class A from 08:00 to 08:08");
}
END_TEST

/* The ring, where that is what lasts longest; nobody, where the class is too long by itself. */
START_TEST(plan_names_the_ring)
{
	add_class("A", 1, NULL)->first_s = H(8, 0);
	add_class("B", 1, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	add_entry("B", 3, "c", "h3");
	add_wish(RT_WISH_CLASS, "B")->not_after_s = H(8, 20);
	assert_missed(14 * 60, "class A is in North until 08:16");
	wishes.at[0].name = "A";
	wishes.at[0].not_after_s = H(8, 10);
	assert_missed(6 * 60, NULL);
}
END_TEST

/* Who starts twice in the drawn order of the class. */
START_TEST(plan_names_who_waits)
{
	add_class("A", 1, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "a", "h2");
	add_wish(RT_WISH_CLASS, "A")->not_after_s = H(8, 20);
	assert_missed(16 * 60, "driver a is in class A from 08:00 to 08:08");
}
END_TEST

/* Musts that nothing can meet: of up to twenty-four all are told to be dropped together, of more
 * none is. */
START_TEST(plan_drops_so_many)
{
	static char driver[25][8];

	rings.n = 1;
	add_class("A", 1, NULL);
	for (size_t n = 1; n <= 25; n++) {
		struct rt_times times;

		snprintf(driver[n - 1], sizeof *driver, "d%zu", n);
		add_entry("A", (int64_t)n, driver[n - 1], "h");
		entries.at[n - 1].horses = driver[n - 1];
		add_wish(RT_WISH_DRIVER, driver[n - 1])->not_after_s = H(7, 0);
		if (n < 24)
			continue;
		ck_assert_int_eq(plan(&times, NULL), RT_OK);
		ck_assert_int_eq(times.quality.missed, (int64_t)n);
		ck_assert_uint_eq(times.drops, n == 24 ? 24 : 0);
		rt_times_free(&times);
	}
}
END_TEST

START_TEST(plan_refuses)
{
	struct rt_time_class *a = add_class("A", 1, NULL), *b;
	struct rt_times times;
	struct rt_error err;

	b = add_class("B", 1, NULL);
	a = &asked.at[0];
	for (int i = 0; i < 10; i++)
		add_entry("A", i + 1, i % 2 ? "a" : "b", "h");
	add_entry("B", 20, "z", "z");
	a->first_s = H(9, 0);
	b->first_s = H(9, 30);
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "classes A and B overlap"));
	b->first_s = H(8, 55); /* until 9:03 */
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "classes B and A overlap"));
	b->first_s = -1;
	a->first_s = H(19, 0);
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "class A is asked for at 19:00, outside the day"));
	a->first_s = H(9, 0);
	b->first_s = H(19, 0);
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "outside the day"));
	b->first_s = -1;
	b->day = 2;
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "on day 2"));
	b->day = 0;
	b->rings = 0;
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "no ring"));
	b->rings = 2;
	settings.open_s = H(20, 0);
	settings.close_s = H(23, 0);
	a->first_s = H(22, 30);
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "over midnight"));
	settings.close_s = H(20, 0);
	a->first_s = -1;
	ck_assert_int_eq(plan(&times, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "the day's hours"));
}
END_TEST

/* A file of a plan: both ends of each range, and one past them. */
START_TEST(plan_rows_keep_inside_their_ranges)
{
	static const struct {
		const char *field, *under, *low, *high, *over;
	} rows[] = {{"day", "0", "1", "30", "31"},
		    {"interval_s", "0", "1", "7200", "7201"},
		    {"break_every", "0", "1", "999", "1000"},
		    {"break_after_s", "0", "1", "86400", "86401"},
		    {"break_s", "0", "1", "14400", "14401"}};

	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		const struct rt_field *f = rt_record_field(&rt_plan_row_record, rows[i].field);
		struct rt_plan_row row;

		ck_assert_int_eq(rt_field_read(f, &row, rows[i].under, NULL, NULL), RT_E_INPUT);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].low, NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].high, NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].over, NULL, NULL), RT_E_INPUT);
	}
}
END_TEST

/* ---- the check ----------------------------------------------------------------------------- */

static struct rt_starts starts;

static void add_start(size_t entry, const char *ring, int64_t at_s)
{
	struct rt_start *s = RT_LIST_ADD(&starts);

	*s = (struct rt_start){.entry = &entries.at[entry],
			       .ring = ring,
			       .at_s = at_s,
			       .slot_s = 480,
			       .version = 1};
}

static const struct rt_value *cell_of(const struct rt_table *t, size_t row, const char *column)
{
	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, column) == 0)
			return rt_table_cell(t, row, i);
	ck_abort_msg("no column %s", column);
	return NULL;
}

/* Every kind of clash, one after the other, and none that is not there. */
START_TEST(check_finds_every_clash)
{
	struct rt_clashes clashes = {0};
	struct rt_report report = {0};

	add_class("A", 1, "Judge");
	add_class("B", 2, "Judge");
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2; h9");
	add_entry("B", 3, "c", "H9");
	add_entry("B", 4, "d", "h4");
	entries.at[3].groom = "a";
	add_start(0, "North", H(8, 0));
	add_start(1, "North", H(8, 8));
	ck_assert_uint_eq(clashes_of(&starts), 0);
	add_start(2, "South", H(9, 0)); /* horse h9: 44 min; judge: 44 min */
	ck_assert_uint_eq(clashes_of(&starts), 0);
	starts.at[2].at_s = H(8, 50); /* horse h9: 34 min */
	ck_assert_uint_eq(clashes_of(&starts), 1);
	starts.at[2].at_s = H(8, 20); /* horse 4 min, judge 4 min */
	ck_assert_int_eq(rt_times_clashes(&clashes, &starts, &classes, &settings, NULL), RT_OK);
	ck_assert_uint_eq(clashes.n, 2);
	ck_assert_int_eq(clashes.at[0].kind, RT_CLASH_SHARED);
	ck_assert_int_eq(clashes.at[0].shared, RT_SHARED_HORSE);
	ck_assert_str_eq(clashes.at[0].who, "h9");
	ck_assert_int_eq(clashes.at[0].gap_s, 240);
	ck_assert_int_eq(clashes.at[0].asked_s, 2400);
	ck_assert_int_eq(clashes.at[1].shared, RT_SHARED_JUDGE);
	rt_clashes_report(&report, &clashes);
	ck_assert_double_eq(cell_of(report.table[0], 0, "gap_min")->as.real, 4);
	rt_report_free(&report);
	RT_LIST_FREE(&clashes);
	starts.at[2].at_s = H(8, 12); /* in two places, the judge too */
	ck_assert_int_eq(rt_times_clashes(&clashes, &starts, &classes, &settings, NULL), RT_OK);
	ck_assert_uint_eq(clashes.n, 2);
	ck_assert_int_eq(clashes.at[0].kind, RT_CLASH_TWO_PLACES);
	ck_assert_int_eq(clashes.at[0].gap_s, -240);
	RT_LIST_FREE(&clashes);
	entries.at[2].status = RT_WITHDRAWN;
	ck_assert_uint_eq(clashes_of(&starts), 0);
	starts.at[2] = starts.at[1]; /* a second time, and so in the ring */
	starts.at[2].at_s = H(8, 40);
	ck_assert_uint_eq(clashes_of(&starts), 1);
	starts.n--;
	starts.at[1].at_s = H(8, 4);
	ck_assert_uint_eq(clashes_of(&starts), 1); /* two in one ring */
	starts.at[1].at_s = H(17, 55);
	ck_assert_uint_eq(clashes_of(&starts), 1); /* outside the day */
	starts.n--;
	add_start(3, "South", H(8, 25)); /* the groom drives in A: 17 min; the judge has 17 */
	ck_assert_uint_eq(clashes_of(&starts), 0);
	starts.at[1].at_s = H(8, 15); /* 7 min, both */
	ck_assert_uint_eq(clashes_of(&starts), 2);
	RT_LIST_FREE(&starts);
}
END_TEST

/* ---- the day ------------------------------------------------------------------------------- */

/* North: A at 8:00, 8:08, break of 10, 8:26; B from 8:50. */
static void a_morning(void)
{
	add_class("A", 1, NULL);
	add_class("B", 1, NULL);
	add_entry("A", 1, "a", "h1");
	add_entry("A", 2, "b", "h2");
	add_entry("A", 3, "c", "h3");
	add_entry("B", 4, "d", "h4");
	add_entry("B", 5, "e", "h5");
	add_start(0, "North", H(8, 0));
	add_start(1, "North", H(8, 8));
	add_start(2, "North", H(8, 26));
	add_start(3, "North", H(8, 50));
	add_start(4, "North", H(8, 58));
	starts.at[1].pause_s = 600;
	starts.at[1].pause = RT_PAUSE_BREAK;
}

static void assert_starts(int64_t one, int64_t two, int64_t three, int64_t four, int64_t five)
{
	const int64_t want[] = {one, two, three, four, five};

	for (int i = 0; i < 5; i++)
		ck_assert_msg(start_of(&starts, i + 1) == want[i], "number %d at %lld", i + 1,
			      (long long)start_of(&starts, i + 1));
}

/* A break is told in minutes, in seconds where it is none of whole ones. */
START_TEST(breaks_are_told)
{
	struct rt_report report = {0};

	a_morning();
	rt_times_report(&report, &starts);
	ck_assert(cell_of(report.table[0], 0, "then")->null);
	ck_assert_str_eq(cell_of(report.table[0], 1, "then")->as.text, "break 10 min");
	rt_report_free(&report);
	starts.at[1].pause_s = 90;
	rt_times_report(&report, &starts);
	ck_assert_str_eq(cell_of(report.table[0], 1, "then")->as.text, "break 90 s");
	rt_report_free(&report);
	RT_LIST_FREE(&starts);
}
END_TEST

/* The time between the classes takes up six of ten minutes (ten stay between), the break none. */
START_TEST(late_ring)
{
	a_morning();
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 5), 600, 600, NULL), RT_OK);
	assert_starts(H(8, 0), H(8, 18), H(8, 36), H(8, 54), H(9, 2));
	ck_assert_int_eq(starts.at[0].version, 1);
	ck_assert_int_eq(starts.at[1].version, 0);
	RT_LIST_FREE(&starts);
}
END_TEST

START_TEST(late_ring_is_taken_up)
{
	struct rt_error err;

	a_morning();
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 20), 240, 600, NULL), RT_OK);
	assert_starts(H(8, 0), H(8, 8), H(8, 30), H(8, 50), H(8, 58));
	ck_assert_int_eq(rt_times_late(&starts, "North", H(9, 0), 240, 600, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "nothing starts in North"));
	starts.at[4].at_s = H(23, 50);
	ck_assert_int_eq(rt_times_late(&starts, "North", H(23, 0), 240, 600, &err), RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "midnight"));
	RT_LIST_FREE(&starts);
}
END_TEST

/* Who withdrew takes no time: the slot takes lateness up. */
START_TEST(late_ring_passes_over_who_left)
{
	a_morning();
	entries.at[2].status = RT_WITHDRAWN;
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 5), 600, 600, NULL), RT_OK);
	assert_starts(H(8, 0), H(8, 18), H(8, 26), H(8, 50), H(8, 58));
	RT_LIST_FREE(&starts);
}
END_TEST

/* The break behind one who withdrew is kept, behind the one before: a delay does not run over it.
 */
START_TEST(late_ring_keeps_the_break_of_who_left)
{
	a_morning();
	entries.at[1].status = RT_WITHDRAWN;
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 0), 600, 600, NULL), RT_OK);
	assert_starts(H(8, 10), H(8, 8), H(8, 28), H(8, 50), H(8, 58));
	for (size_t i = 0; i < starts.n; i++)
		ck_assert_int_eq(starts.at[i].pause_s, starts.at[i].entry->number == 1 ? 600 : 0);
	RT_LIST_FREE(&starts);
	a_morning();
	entries.at[0].status = RT_WITHDRAWN;
	starts.at[0].pause = RT_PAUSE_BREAK;
	starts.at[0].pause_s = 300;
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 0), 600, 600, NULL), RT_OK);
	ck_assert_int_eq(starts.at[0].pause_s, 0); /* nobody starts before it */
	RT_LIST_FREE(&starts);
}
END_TEST

/* Into a free time nobody else moves; onto a start those behind move as far as they must. */
START_TEST(move_one)
{
	struct rt_error err;

	a_morning();
	ck_assert_int_eq(rt_times_move(&starts, &entries.at[0], "North", H(8, 36), 0, 600, NULL),
			 RT_OK);
	assert_starts(H(8, 36), H(8, 8), H(8, 26), H(8, 54), H(9, 2));
	ck_assert_int_eq(rt_times_move(&starts, &entries.at[4], "North", H(8, 8), 0, 600, NULL),
			 RT_OK);
	ck_assert_int_eq(start_of(&starts, 5), H(8, 8));
	ck_assert_int_eq(start_of(&starts, 2), H(8, 16)); /* behind one start, no change-over */
	ck_assert_int_eq(rt_times_move(&starts, &entries.at[4], "North", H(8, 20), 0, 600, &err),
			 RT_E_INPUT);
	ck_assert_ptr_nonnull(strstr(err.text, "inside the start of number 2"));
	RT_LIST_FREE(&starts);
}
END_TEST

/* A late entry without a time takes its class's interval; another ring is as good. */
START_TEST(move_gives_a_first_time)
{
	a_morning();
	add_entry("A", 6, "f", "h6");
	/* the list may have moved */
	for (size_t i = 0; i < starts.n; i++)
		starts.at[i].entry = &entries.at[i];
	starts.at[3].slot_s = starts.at[4].slot_s = 420; /* of the other class */
	ck_assert_int_eq(rt_times_move(&starts, &entries.at[5], "South", H(8, 0), 0, 600, NULL),
			 RT_OK);
	ck_assert_uint_eq(starts.n, 6);
	for (size_t i = 0; i < starts.n; i++)
		ck_assert_int_eq(starts.at[i].slot_s,
				 strcmp(starts.at[i].entry->class_name, "A") == 0 ? 480 : 420);
	ck_assert_int_eq(start_of(&starts, 6), H(8, 0));
	assert_starts(H(8, 0), H(8, 8), H(8, 26), H(8, 50), H(8, 58));
	RT_LIST_FREE(&starts);
}
END_TEST

static const struct rt_start *started(int64_t number)
{
	for (size_t i = 0; i < starts.n; i++)
		if (starts.at[i].entry->number == number)
			return &starts.at[i];
	ck_abort_msg("number %lld has no start", (long long)number);
}

static void assert_break_behind(int64_t number, int64_t pause_s)
{
	for (size_t i = 0; i < starts.n; i++)
		ck_assert_int_eq(starts.at[i].pause_s,
				 starts.at[i].entry->number == number ? pause_s : 0);
	ck_assert_int_eq(started(number)->pause, RT_PAUSE_BREAK);
	ck_assert_int_eq(started(number)->version, 0);
}

static void move(size_t entry, const char *ring, int64_t at_s)
{
	ck_assert_int_eq(rt_times_move(&starts, &entries.at[entry], ring, at_s, 0, 600, NULL),
			 RT_OK);
}

/* Who moves away from before a break leaves the break where it was, as long as it was: the time
 * that is free takes a delay up. */
START_TEST(move_leaves_the_break)
{
	a_morning();
	move(1, "South", H(10, 0));
	assert_break_behind(1, 600);
	assert_starts(H(8, 0), H(10, 0), H(8, 26), H(8, 50), H(8, 58));
	ck_assert_int_eq(rt_times_late(&starts, "North", H(8, 0), 480, 600, NULL), RT_OK);
	assert_starts(H(8, 8), H(10, 0), H(8, 26), H(8, 50), H(8, 58));
	RT_LIST_FREE(&starts);
}
END_TEST

/* To the end of the class, and only a little later: the break stays in its place of the order. */
START_TEST(move_in_the_class_leaves_the_break)
{
	a_morning();
	move(1, "North", H(8, 34));
	assert_break_behind(1, 600);
	assert_starts(H(8, 0), H(8, 34), H(8, 26), H(8, 52), H(9, 0));
	move(0, "North", H(8, 2));
	assert_break_behind(1, 600);
	RT_LIST_FREE(&starts);
	a_morning();
	move(1, "North", H(8, 12));
	assert_break_behind(2, 600);
	assert_starts(H(8, 0), H(8, 12), H(8, 30), H(8, 50), H(8, 58));
	RT_LIST_FREE(&starts);
}
END_TEST

/* A start in front of a break, and one put into it: the break comes behind them. */
START_TEST(move_before_the_break)
{
	a_morning();
	move(4, "North", H(8, 8));
	assert_break_behind(2, 600);
	assert_starts(H(8, 0), H(8, 16), H(8, 34), H(8, 52), H(8, 8));
	move(4, "North", H(8, 24));
	assert_break_behind(5, 600);
	ck_assert_int_eq(start_of(&starts, 3), H(8, 24) + 480 + 600 + 600);
	RT_LIST_FREE(&starts);
}
END_TEST

/* Two breaks that come together are one. */
START_TEST(move_joins_breaks)
{
	a_morning();
	starts.at[0].pause = RT_PAUSE_HARROW;
	starts.at[0].pause_s = 300;
	starts.at[1].at_s += 300;
	starts.at[2].at_s += 300;
	move(1, "South", H(10, 0));
	ck_assert_int_eq(started(1)->pause, RT_PAUSE_BOTH);
	ck_assert_int_eq(started(1)->pause_s, 600);
	RT_LIST_FREE(&starts);
}
END_TEST

START_TEST(printed_lines_are_compared)
{
	struct rt_list_line was[] = {
		{0, "Class A"}, {7, "9:00, 7"}, {8, "9:08, 8"}, {9, "9:16, 9"}};
	struct rt_list_line now[] = {
		{0, "Class A"}, {7, "9:00, 7"}, {9, "9:08, 9"}, {8, "9:16, 9"}};
	const struct rt_list_lines before = {.at = was, .n = 4}, after = {.at = now, .n = 4};
	const struct rt_list_lines fewer = {.at = was, .n = 3};

	ck_assert(rt_list_lines_same(&before, &before));
	ck_assert(!rt_list_lines_same(&before, &after));
	ck_assert(!rt_list_lines_same(&before, &fewer));
	ck_assert(rt_list_line_stands(&before, &now[0]));
	ck_assert(rt_list_line_stands(&before, &now[1]));
	ck_assert(!rt_list_line_stands(&before, &now[2]));
	ck_assert(!rt_list_line_stands(&before, &now[3])); /* the words of another */
	ck_assert_ptr_eq(rt_list_line_of(&after, 8), &now[3]);
	ck_assert_ptr_null(rt_list_line_of(&fewer, 9));
}
END_TEST

/* A driver of two starts, whose groom drives once too; nobody of one start alone. */
START_TEST(shares_are_told)
{
	struct rt_report report = {0};
	const struct rt_table *t;

	a_morning();
	entries.at[3].driver = "A";
	entries.at[3].groom = "c";
	starts.at[4].at_s += RT_DAY_S;
	entries.at[4].carriage = entries.at[2].carriage = "old gig";
	rt_shares_report(&report, &starts);
	ck_assert_uint_eq(report.tables, 1);
	t = report.table[0];
	ck_assert_uint_eq(rt_table_rows(t), 3);
	ck_assert_str_eq(rt_table_cell(t, 0, 0)->as.text, "driver");
	ck_assert_str_eq(rt_table_cell(t, 0, 1)->as.text, "a");
	ck_assert_double_eq(rt_table_cell(t, 0, 3)->as.real, 42);
	ck_assert_str_eq(rt_table_cell(t, 0, 4)->as.text,
			 "class A no. 1 at 08:00; class B no. 4 at 08:50");
	ck_assert_str_eq(rt_table_cell(t, 1, 0)->as.text, "groom");
	ck_assert_double_eq(rt_table_cell(t, 1, 3)->as.real, 16);
	ck_assert_str_eq(rt_table_cell(t, 2, 0)->as.text, "carriage");
	ck_assert_str_eq(rt_table_cell(t, 2, 4)->as.text,
			 "class A no. 3 at 08:26; class B no. 5 at 08:58 on day 2");
	rt_report_free(&report);
	entries.at[3].status = RT_WITHDRAWN;
	entries.at[2].carriage = NULL;
	rt_shares_report(&report, &starts);
	ck_assert_uint_eq(report.tables, 0);
	rt_report_free(&report);
	RT_LIST_FREE(&starts);
}
END_TEST

/* When each class begins, and who judges it: one after another, and where nobody is known. */
START_TEST(classes_are_told)
{
	struct rt_judge_sheet sheet[] = {{1, 7, 1, "Una Alder"}, {2, 7, 2, "Bo Birch"}};
	const struct rt_judge_sheets judged = {.at = sheet, .n = 2};
	struct rt_test test = {.name = "T", .title = "Test one"};
	const struct rt_tests tests = {.at = &test, .n = 1};
	struct rt_report report = {0};
	const struct rt_table *t;

	a_morning();
	classes.at[0].title = "Novices";
	classes.at[0].test = classes.at[1].test = "T";
	classes.at[0].judges.at[0].id = 7;
	rt_times_classes_report(&report, &starts, &classes, &tests, &judged);
	t = report.table[0];
	ck_assert_uint_eq(rt_table_rows(t), 2);
	ck_assert_str_eq(rt_table_cell(t, 0, 4)->as.text, "08:00");
	ck_assert_str_eq(rt_table_cell(t, 0, 7)->as.text, "Novices");
	ck_assert_str_eq(rt_table_cell(t, 0, 8)->as.text, "Test one");
	ck_assert_str_eq(rt_table_cell(t, 0, 9)->as.text, "C Una Alder to no. 1, then Bo Birch");
	ck_assert_str_eq(rt_table_cell(t, 1, 4)->as.text, "08:50");
	ck_assert_str_eq(rt_table_cell(t, 1, 9)->as.text, "C");
	rt_report_free(&report);
	RT_LIST_FREE(&starts);
}
END_TEST

static Suite *times_suite(void)
{
	Suite *s = suite_create("times");
	TCase *t = tcase_create("times");

	tcase_add_checked_fixture(t, set_up, tear_down);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, times_of_day);
	tcase_add_test(t, draw_is_fair);
	tcase_add_test(t, draw_keeps_places);
	tcase_add_test(t, draw_refuses);
	tcase_add_test(t, draw_keeps_drivers_apart);
	tcase_add_test(t, draw_leaves_places_for_the_busiest);
	tcase_add_test(t, draw_takes_a_late_one);
	tcase_add_test(t, plan_one_class);
	tcase_add_test(t, plan_under_way);
	tcase_add_test(t, plan_in_whole_minutes);
	tcase_add_test(t, plan_keeps_gaps);
	tcase_add_test(t, plan_keeps_judges_in_one_ring);
	tcase_add_test(t, plan_shares_carriages);
	tcase_add_test(t, plan_free_order);
	tcase_add_test(t, plan_tells_what_to_drop);
	tcase_add_test(t, plan_drops_what_is_missed);
	tcase_add_test(t, plan_drops_the_day);
	tcase_add_test(t, plan_tells_a_wrong_day);
	tcase_add_test(t, plan_keeps_a_time_that_must_be);
	tcase_add_test(t, plan_weighs_soft_wishes);
	tcase_add_test(t, plan_names_the_judge);
	tcase_add_test(t, plan_names_the_horse);
	tcase_add_test(t, plan_names_the_ring);
	tcase_add_test(t, plan_names_who_waits);
	tcase_add_test(t, plan_drops_so_many);
	tcase_add_test(t, plan_refuses);
	tcase_add_test(t, plan_rows_keep_inside_their_ranges);
	tcase_add_test(t, check_finds_every_clash);
	tcase_add_test(t, late_ring);
	tcase_add_test(t, breaks_are_told);
	tcase_add_test(t, late_ring_is_taken_up);
	tcase_add_test(t, late_ring_passes_over_who_left);
	tcase_add_test(t, late_ring_keeps_the_break_of_who_left);
	tcase_add_test(t, move_one);
	tcase_add_test(t, move_gives_a_first_time);
	tcase_add_test(t, move_leaves_the_break);
	tcase_add_test(t, move_in_the_class_leaves_the_break);
	tcase_add_test(t, move_before_the_break);
	tcase_add_test(t, move_joins_breaks);
	tcase_add_test(t, printed_lines_are_compared);
	tcase_add_test(t, shares_are_told);
	tcase_add_test(t, classes_are_told);
	suite_add_tcase(s, t);
	return s;
}

int check_times(void)
{
	return suite_run(times_suite());
}
