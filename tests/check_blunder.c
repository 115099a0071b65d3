/* The ring room: the search for blunders.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

START_TEST(wrong_reading_and_moved_peg_are_told_apart)
{
	static const double wrong[] = {1, -1, 10, -3, 0.4};

	for (size_t i = 0; i < COUNT(wrong); i++) {
		struct rt_ring_check c = {0};
		struct field f;
		size_t bad = 24; /* M-E */

		field_open(&f, 1);
		move_peg(&f, "B", 0, -0.5);
		tape_crew(&f);
		ck_assert_str_eq(f.reading[bad].from, "M");
		ck_assert_str_eq(f.reading[bad].to, "E");
		f.reading[bad].value += wrong[i];
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert_uint_eq(c.adjustment.blunders, 1);
		ck_assert_int_eq(c.adjustment.reading[bad].verdict, RT_READING_BLUNDER);
		ck_near("residual", c.adjustment.reading[bad].residual_m, -wrong[i], 0.12);
		ck_assert(fabs(c.adjustment.reading[bad].w) > RT_W_CRITICAL);
		ck_assert_int_eq(c.adjustment.end, RT_SEARCH_CLEAR);
		ck_assert_int_eq(checked(&c, "B")->verdict, RT_PEG_MOVE);
		ck_near("B", checked(&c, "B")->dy_m, -0.5, 0.08);
		ck_assert_uint_eq(c.to_move, 1);
		ck_assert_int_eq(c.verdict, RT_RING_MOVE);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

START_TEST(several_blunders_one_by_one)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 1);
	tape_all(&f);
	f.reading[10].value += 0.5;
	f.reading[40].value -= 1;
	f.reading[80].value += 10;
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.adjustment.blunders, 3);
	ck_assert_int_eq(c.adjustment.reading[10].verdict, RT_READING_BLUNDER);
	ck_assert_int_eq(c.adjustment.reading[40].verdict, RT_READING_BLUNDER);
	ck_assert_int_eq(c.adjustment.reading[80].verdict, RT_READING_BLUNDER);
	ck_assert_uint_eq(c.adjustment.degrees_of_freedom, f.readings.n - 3 - (2 * f.pegs.n - 3));
	ck_assert_int_eq(c.verdict, RT_RING_TRUE);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* w of a reading that was set aside is what it would be if it were put back alone. */
START_TEST(set_aside_is_judged_as_if_put_back)
{
	struct rt_adjustment with = {0}, without = {0};
	struct field f;

	field_open(&f, 0);
	tape_around(&f);
	f.reading[48].value += 0.04; /* under the limit: it stays */
	adjust_pegs(&with, &f, 0, 0, false);
	ck_assert_uint_eq(with.blunders, 0);
	f.reading[48].value += 0.20;
	adjust_pegs(&without, &f, 0, 0, false);
	ck_assert_uint_eq(without.blunders, 1);
	ck_near("r", without.reading[48].redundancy, with.reading[48].redundancy, 1e-3);
	ck_near("w", without.reading[48].w / 6, with.reading[48].w, 2e-2);
	ck_near("residual", without.reading[48].residual_m, -0.24, 1e-6);
	rt_adjustment_free(&with);
	rt_adjustment_free(&without);
	field_close(&f);
}
END_TEST

START_TEST(rectangle_cannot_tell_which)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE);
	f.reading[4].value += 0.5;
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_uint_eq(c.adjustment.degrees_of_freedom, 1);
	ck_assert_uint_eq(c.adjustment.blunders, 0);
	ck_assert_int_eq(c.adjustment.end, RT_SEARCH_TIED);
	ck_assert_int_eq(c.verdict, RT_RING_DOUBT);
	for (size_t i = 0; i < 6; i++) {
		const struct rt_adjusted_reading *x = &c.adjustment.reading[i];

		ck_assert(x->suspect == (x->redundancy >= RT_R_UNCHECKED));
		ck_assert_int_eq(x->verdict, x->redundancy < RT_R_UNCHECKED ? RT_READING_UNCHECKED
									    : RT_READING_GOOD);
	}
	ck_assert_int_eq(c.adjustment.reading[4].verdict, RT_READING_GOOD);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_assert(r.needs_person);
	ck_has(r.note[0], "Clear up the readings before any peg is moved");
	ck_has(r.note[2], "cannot tell which: AK-HC, CM-FA, AK-CM, FA-HC");
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A peg held by two readings and one more: the three share the blame for a small blunder. */
START_TEST(tied_within_a_larger_network)
{
	struct rt_ring_check c = {0};
	struct field f;
	size_t tied = 0;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "A-AK A-FA A-HC A-CM C-HC C-CM C-AK C-FA A-C X-AK X-HC X-FA");
	f.reading[f.readings.n - 1].value += 0.2;
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_uint_gt(c.adjustment.degrees_of_freedom, 2);
	ck_assert_int_eq(c.adjustment.end, RT_SEARCH_TIED);
	ck_assert_uint_eq(c.adjustment.blunders, 0);
	for (size_t i = 0; i < c.adjustment.readings; i++) {
		bool of_x = strcmp(c.adjustment.reading[i].reading->from, "X") == 0;

		ck_assert(c.adjustment.reading[i].suspect ==
			  (of_x && c.adjustment.reading[i].redundancy >= RT_R_UNCHECKED));
		tied += of_x;
	}
	ck_assert_uint_eq(tied, 3);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Of two readings of one distance that differ by a metre, with nothing else to say which. */
START_TEST(read_twice_and_different)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "A-AK A-FA A-HC A-CM E-AK E-FA E-FA");
	f.reading[f.readings.n - 1].value += 0.3;
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_int_eq(c.adjustment.end, RT_SEARCH_TIED);
	ck_assert(c.adjustment.reading[f.readings.n - 1].suspect);
	ck_assert(c.adjustment.reading[f.readings.n - 2].suspect);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Without the suspect a peg would hang in the air: it stays, and is named. */
START_TEST(needed_readings_stay)
{
	struct rt_point point[] = {{"1", 0, 0, true},	 {"2", 30, 0, true}, {"3", 60, 0, true},
				   {"4", 10, 0, true},	 {"5", 45, 0, true}, {"6", 20, 300, true},
				   {"P", 20, 1.2, false}};
	struct rt_reading reading[6];
	struct rt_points points = {.at = point, .n = COUNT(point)};
	struct rt_readings readings = {.at = reading, .n = COUNT(reading)};
	struct rt_adjustment a = {0};
	struct rt_error err = {0};
	struct rt_report r = {0};
	enum rt_err e;

	for (size_t i = 0; i < 6; i++) {
		double d = hypot(point[i].x_m - 20, point[i].y_m - 1.2);

		reading[i] = (struct rt_reading){.from = point[i].name,
						 .to = "P",
						 .value = d,
						 .sigma = i == 5 ? 0.24 : 0.08};
	}
	reading[5].value -= 3;
	e = rt_adjust(&a, &points, &readings, &err);
	ck_assert_msg(e == RT_OK, "%s", err.text);
	ck_assert_uint_eq(a.blunders, 0);
	ck_assert_int_eq(a.end, RT_SEARCH_NEEDED);
	ck_assert(a.reading[5].suspect);
	ck_assert(a.reading[5].redundancy >= RT_R_UNCHECKED);
	ck_assert_int_eq(a.reading[5].verdict, RT_READING_GOOD);
	ck_assert_int_eq(rt_adjustment_report(&r, &a, false, NULL), RT_OK);
	ck_has(r.note[0], "Reading 6-P looks wrong, but without it a peg is not fixed");
	ck_assert(r.needs_person);
	rt_report_free(&r);
	rt_adjustment_free(&a);
}
END_TEST

START_TEST(careless_and_careful_taping)
{
	static const struct {
		double noise;
		enum rt_sigma_test test;
		enum rt_search_end end;
		enum rt_ring_verdict verdict;
	} rows[] = {{0.2, RT_SIGMA_CAUTIOUS, RT_SEARCH_CLEAR, RT_RING_TRUE},
		    {1, RT_SIGMA_PASSED, RT_SEARCH_CLEAR, RT_RING_TRUE},
		    {1.8, RT_SIGMA_FAILED, RT_SEARCH_WORSE, RT_RING_DOUBT}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_report r = {0};
		struct field f;

		field_open(&f, rows[i].noise);
		tape_all(&f);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert_int_eq(c.adjustment.test, rows[i].test);
		ck_assert_int_eq(c.adjustment.end, rows[i].end);
		ck_assert_uint_eq(c.adjustment.blunders, 0);
		ck_assert_int_eq(c.verdict, rows[i].verdict);
		ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
		ck_assert(r.needs_person == (rows[i].verdict != RT_RING_TRUE));
		rt_report_free(&r);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* Wrong readings that the search cannot tell from the others: the ring is true, and no peg may be
 * called off. */
START_TEST(no_move_while_readings_are_in_doubt)
{
	static const struct {
		struct {
			const char *from, *to;
			double by;
		} wrong[4];
		enum rt_search_end end;
		const char *note; /* the last but those on unchecked readings */
	} rows[] = {
		{{{"E", "B", -1.72}, {"V", "B", -1.47}, {"C", "M", -1.07}, {"FA", "HC", 1.39}},
		 RT_SEARCH_WORSE,
		 "several are wrong, and hide each other."},
		/* two readings of V agree with each other by chance, against the good ones */
		{{{"K", "V", 1.287}, {"S", "R", -1.267}, {"V", "B", -0.915}},
		 RT_SEARCH_TIED,
		 "cannot tell which: "},
		{{{"M", "CM", 0.468}, {"A", "V", -1.86}}, RT_SEARCH_TIED, "cannot tell which: "},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_report r = {0};
		struct field f;
		double most = 0;
		bool said = false;

		field_open(&f, 0.5);
		tape_fifty(&f);
		for (size_t k = 0; k < 4 && rows[i].wrong[k].from; k++)
			misread(&f, rows[i].wrong[k].from, rows[i].wrong[k].to,
				rows[i].wrong[k].by);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert_int_eq(c.adjustment.end, rows[i].end);
		ck_assert_int_eq(c.adjustment.test, RT_SIGMA_FAILED);
		ck_assert_int_eq(c.verdict, RT_RING_DOUBT);
		ck_assert_uint_eq(c.to_move, 0);
		for (size_t k = 0; k < c.pegs; k++) {
			ck_assert_uint_eq(c.peg[k].moves, 0);
			most = fmax(most, c.peg[k].off_m - 2 * c.peg[k].se_m);
		}
		ck_assert(most > c.tolerance_m); /* by its standard error alone it would move */
		ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
		ck_assert(r.needs_person);
		ck_has(r.note[0], "Clear up the readings before any peg is moved");
		for (size_t k = 1; k < r.notes; k++) {
			said |= strstr(r.note[k], rows[i].note) != NULL;
			ck_assert(!strstr(r.note[k], "move it"));
		}
		ck_assert(said);
		rt_report_free(&r);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* Readings that are all worse than their sigma still tell a peg half a metre off. */
START_TEST(careless_taping_tells_a_large_move)
{
	static const double noise[] = {2, 2.5, 3};

	for (size_t i = 0; i < COUNT(noise); i++) {
		struct rt_ring_check c = {0};
		struct field f;

		field_open(&f, noise[i]);
		move_peg(&f, "P", 0, -0.5);
		tape_fifty(&f);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert_int_eq(c.adjustment.end, RT_SEARCH_WORSE);
		ck_assert_int_eq(checked(&c, "P")->verdict, RT_PEG_MOVE);
		ck_assert_uint_eq(c.to_move, 1);
		ck_assert_int_eq(c.verdict, RT_RING_MOVE);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* Set aside one at a time, a good reading would go first, and the rest be too poor. */
START_TEST(blunders_that_hide_each_other)
{
	static const struct {
		struct {
			const char *from, *to;
			double by;
		} wrong[3];
	} rows[] = {{{{"E", "S", -0.5}, {"R", "H", -0.4}, {"C", "S", 0.4}}},
		    {{{"S", "M", 0.5}, {"R", "H", 0.5}}},
		    {{{"K", "P", 0.4}, {"F", "V", 0.4}}}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct field f;
		size_t wrong = 0;

		field_open(&f, 0.5);
		tape_fifty(&f);
		for (; wrong < 3 && rows[i].wrong[wrong].from; wrong++)
			misread(&f, rows[i].wrong[wrong].from, rows[i].wrong[wrong].to,
				rows[i].wrong[wrong].by);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert_int_eq(c.adjustment.end, RT_SEARCH_CLEAR);
		ck_assert_uint_eq(c.adjustment.blunders, wrong);
		for (size_t k = 0; k < f.readings.n; k++) {
			bool bad = false;

			for (size_t j = 0; j < wrong; j++)
				bad |= strcmp(f.reading[k].from, rows[i].wrong[j].from) == 0 &&
				       strcmp(f.reading[k].to, rows[i].wrong[j].to) == 0;
			ck_assert(bad == (c.adjustment.reading[k].verdict == RT_READING_BLUNDER));
		}
		ck_assert_int_eq(c.verdict, RT_RING_TRUE);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* A peg that is off, and two of its readings wrong besides: as likely that they are right. */
START_TEST(most_set_aside_touch_one_peg)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 0.5);
	move_peg(&f, "V", 0.5, 0);
	tape_fifty(&f);
	misread(&f, "K", "V", 1.287);
	misread(&f, "V", "B", -0.915);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_int_eq(c.adjustment.end, RT_SEARCH_CLEAR);
	ck_assert_uint_eq(c.adjustment.blunders, 2);
	ck_assert(checked(&c, "V")->off_m > 0.4);
	ck_assert(checked(&c, "V")->retape);
	ck_assert_int_eq(checked(&c, "V")->verdict, RT_PEG_UNSURE);
	ck_assert_int_eq(c.verdict, RT_RING_UNSURE);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_has(r.note[0], "Most readings set aside touch V: tape V again before moving it");
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(just_enough_readings)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 1);
	tape_list(&f, "AK-HC HC-CM CM-FA FA-AK AK-CM");
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_uint_eq(c.adjustment.degrees_of_freedom, 0);
	ck_assert(isnan(c.adjustment.sigma0));
	ck_assert_int_eq(c.adjustment.test, RT_SIGMA_UNTESTED);
	for (size_t i = 0; i < 5; i++) {
		ck_assert_int_eq(c.adjustment.reading[i].verdict, RT_READING_UNCHECKED);
		ck_assert(isnan(c.adjustment.reading[i].hidden_m));
		ck_near("v", c.adjustment.reading[i].residual_m, 0, 1e-9);
	}
	ck_assert_int_eq(c.verdict, RT_RING_UNSURE);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* No solution near: two readings are out by many metres, so that nothing can be said but where
 * to look. */
START_TEST(contradictions_are_told)
{
	struct rt_ring_check c = {0};
	struct rt_error err = {0};
	struct field f;

	field_open(&f, 1);
	tape_list(&f, RECTANGLE "E-AK E-HC E-FA E-CM");
	f.reading[6].value += 300; /* E-AK */
	f.reading[8].value += 200; /* E-FA */
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_NUMERIC);
	ck_has(err.text, "contradict each other by many metres: look at");
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

int check_blunder(void)
{
	const TTest *blunders[] = {wrong_reading_and_moved_peg_are_told_apart,
				   several_blunders_one_by_one,
				   set_aside_is_judged_as_if_put_back,
				   rectangle_cannot_tell_which,
				   tied_within_a_larger_network,
				   read_twice_and_different,
				   needed_readings_stay,
				   careless_and_careful_taping,
				   no_move_while_readings_are_in_doubt,
				   careless_taping_tells_a_large_move,
				   most_set_aside_touch_one_peg,
				   blunders_that_hide_each_other,
				   just_enough_readings,
				   contradictions_are_told};
	Suite *suite = suite_create("blunders");

	suite_case(suite, "blunders", blunders, COUNT(blunders));
	return suite_run(suite);
}
