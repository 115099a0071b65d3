/* The ring room: which reading to make next, what to move in which order, letters alone,
 * diagonals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

static double largest_se(const struct rt_ring_check *c)
{
	double largest = 0;

	for (size_t i = 0; i < c->pegs; i++)
		largest = fmax(largest, c->peg[i].se_m);
	return largest;
}

static void advise(struct rt_next_readings *next, const struct rt_ring_check *c, double tape_m)
{
	struct rt_error err = {0};
	enum rt_err e = rt_ring_next(next, c, tape_m, &err);

	ck_assert_msg(e == RT_OK, "%s", err.text);
}

/* ---- next readings ---- */

/* Make each reading that is advised, and adjust again: the errors are as told. */
START_TEST(next_is_what_adjusting_again_gives)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_next_readings next;
	size_t readings, tried = 0;

	field_open(&f, 0);
	tape_crew(&f);
	readings = f.readings.n;
	check_field(&c, &f, RT_FIT_ALL);
	advise(&next, &c, INFINITY);
	ck_near("now", next.largest_se_m, largest_se(&c), 1e-12);
	ck_assert_uint_eq(next.singles, RT_NEXT_MOST);
	for (size_t i = 0; i < next.singles; i++) {
		const struct rt_next *n = &next.single[i];
		struct rt_ring_check then = {0};

		if (n->reading.kind != RT_READ_DISTANCE)
			continue;
		tape_names(&f, n->reading.from, n->reading.to);
		ck_near("value", n->reading.value, f.reading[readings].value, 1e-6);
		check_field(&then, &f, RT_FIT_ALL);
		ck_near(n->reading.from, n->largest_se_m, largest_se(&then), 1e-9);
		ck_near("gain", n->gain_m, next.largest_se_m - n->largest_se_m, 1e-12);
		rt_ring_check_free(&then);
		f.readings.n = readings;
		tried++;
	}
	ck_assert_uint_gt(tried, 4);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Is this pair read already or told, or is the last one told as good? */
static bool told_or_no_better(const struct rt_next_readings *next, const struct rt_ring_check *then,
			      const char *a, const char *b)
{
	const struct rt_adjustment *adj = &then->adjustment;

	for (size_t i = 0; i + 1 < adj->readings; i++) {
		const struct rt_reading *r = adj->reading[i].reading;

		if ((strcmp(r->from, a) == 0 && strcmp(r->to, b) == 0) ||
		    (strcmp(r->from, b) == 0 && strcmp(r->to, a) == 0))
			return true;
	}
	for (size_t i = 0; i < next->singles; i++) {
		const struct rt_reading *r = &next->single[i].reading;

		if ((strcmp(r->from, a) == 0 && strcmp(r->to, b) == 0) ||
		    (strcmp(r->from, b) == 0 && strcmp(r->to, a) == 0))
			return true;
	}
	return largest_se(then) > next->single[next->singles - 1].largest_se_m - 1e-9;
}

/* No pair of pegs helps more than those told. */
START_TEST(next_is_the_best_of_all)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_next_readings next;
	size_t readings;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "AK-K AK-E K-E FA-K FA-E HC-E CM-K K-M FA-M E-M E-B B-M FA-B K-B");
	readings = f.readings.n;
	check_field(&c, &f, RT_FIT_ALL);
	advise(&next, &c, INFINITY);
	for (size_t i = 0; i < c.pegs; i++) {
		for (size_t k = 0; k < i; k++) {
			struct rt_ring_check then = {0};

			tape_names(&f, c.peg[i].peg.name, c.peg[k].peg.name);
			check_field(&then, &f, RT_FIT_ALL);
			ck_assert(told_or_no_better(&next, &then, c.peg[i].peg.name,
						    c.peg[k].peg.name));
			rt_ring_check_free(&then);
			f.readings.n = readings;
		}
	}
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* The course: making all of it leaves what the last step told. */
START_TEST(a_course_is_what_adjusting_again_gives)
{
	struct field f;
	struct rt_ring_check c = {0}, then = {0};
	struct rt_next_readings next;

	field_open(&f, 0);
	tape_crew(&f);
	check_field(&c, &f, RT_FIT_ALL);
	advise(&next, &c, INFINITY);
	ck_assert_uint_eq(next.courses, RT_NEXT_MOST);
	ck_assert_str_eq(next.course[0].reading.from, next.single[0].reading.from);
	for (size_t i = 0; i < next.courses; i++) {
		struct rt_reading *r = &f.reading[f.readings.n++];

		*r = next.course[i].reading;
		ck_assert(i == 0 ||
			  next.course[i].largest_se_m <= next.course[i - 1].largest_se_m + 1e-12);
	}
	check_field(&then, &f, RT_FIT_ALL);
	ck_near("after all", next.course[RT_NEXT_MOST - 1].largest_se_m, largest_se(&then), 1e-6);
	rt_ring_check_free(&then);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(next_keeps_to_the_tape)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_next_readings next;
	struct rt_error err = {0};

	field_open(&f, 0);
	tape_crew(&f);
	check_field(&c, &f, RT_FIT_ALL);
	advise(&next, &c, 30);
	for (size_t i = 0; i < next.singles; i++) {
		const struct rt_reading *r = &next.single[i].reading;

		ck_assert(r->kind != RT_READ_DISTANCE || r->value <= 30);
	}
	ck_assert_int_eq(rt_ring_next(&next, &c, 0, &err), RT_E_INPUT);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A reading that was kept is not advised again; one that was set aside is. */
START_TEST(next_is_not_made_yet)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_next_readings next;
	bool again = false;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "AK-K K-FA K-HC K-CM");
	misread(&f, "K", "HC", 3);
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_uint_eq(c.adjustment.blunders, 1);
	advise(&next, &c, INFINITY);
	ck_assert_uint_eq(next.singles, 2);
	for (size_t i = 0; i < next.singles; i++) {
		const struct rt_reading *r = &next.single[i].reading;

		again |= r->kind == RT_READ_DISTANCE && strcmp(r->from, "K") == 0 &&
			 strcmp(r->to, "HC") == 0;
	}
	ck_assert(again);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- tours ---- */

static double way(const double *at, size_t n, const double start[2], const size_t *order)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++) {
		const double *from = i ? at + 2 * order[i - 1] : start, *to = at + 2 * order[i];

		sum += hypot(to[0] - from[0], to[1] - from[1]);
	}
	return sum;
}

/* The shortest way by trying all orders. */
static double by_trying(const double *at, size_t n, const double start[2], size_t *order, size_t k)
{
	double best = INFINITY;

	if (k == n)
		return way(at, n, start, order);
	for (size_t i = k; i < n; i++) {
		size_t swap = order[k];

		order[k] = order[i];
		order[i] = swap;
		best = fmin(best, by_trying(at, n, start, order, k + 1));
		order[i] = order[k];
		order[k] = swap;
	}
	return best;
}

START_TEST(tours_of_a_few_are_the_shortest)
{
	uint64_t seed = 5;

	for (size_t n = 1; n <= 7; n++) {
		double at[14], start[2] = {0, -40};
		size_t order[7], all[7];

		for (size_t i = 0; i < 2 * n; i++)
			at[i] = 80 * uniform(&seed) - 40;
		for (size_t i = 0; i < n; i++)
			all[i] = i;
		ck_assert_int_eq(rt__tour(at, n, start, order, NULL), RT_OK);
		ck_near("tour", way(at, n, start, order), by_trying(at, n, start, all, 0), 1e-9);
	}
}
END_TEST

/* Round a circle there is nothing shorter than to walk along it. */
START_TEST(tours_of_many_go_round)
{
	enum { MANY = 21 };
	double at[2 * MANY], start[2] = {0, 0}, side;
	size_t order[MANY];
	bool seen[MANY] = {false};

	for (size_t i = 0; i < MANY; i++) {
		size_t place = i * 8 % MANY;

		at[2 * i] = 10 * cos(6.283185307179586 * (double)place / MANY);
		at[2 * i + 1] = 10 * sin(6.283185307179586 * (double)place / MANY);
	}
	side = 20 * sin(3.141592653589793 / MANY);
	ck_assert_int_eq(rt__tour(at, MANY, start, order, NULL), RT_OK);
	for (size_t i = 0; i < MANY; i++)
		seen[order[i]] = true;
	for (size_t i = 0; i < MANY; i++)
		ck_assert(seen[i]);
	ck_near("round", way(at, MANY, start, order), 10 + (MANY - 1) * side, 1e-9);
	ck_assert_int_eq(rt__tour(at, 0, start, order, NULL), RT_OK);
}
END_TEST

/* ---- walks ---- */

START_TEST(a_walk_moves_the_fewest)
{
	struct field f;
	struct rt_ring_walk w = {0};
	double sum = 0;

	field_open(&f, 0);
	move_peg(&f, "M", 0.5, 0);
	move_peg(&f, "P", 0, -0.5);
	move_peg(&f, "H", 0.3, 0.3);
	move_peg(&f, "V", 0, 0.4);
	tape_fifty(&f);
	ck_assert_int_eq(rt_ring_walk(&w, &kind_40x80, &f.readings, 0.10, NULL), RT_OK);
	ck_assert_uint_eq(w.steps, 4);
	ck_assert_uint_eq(w.check.to_move, 4);
	ck_assert_str_eq(w.step[0].peg->peg.name, "P");
	ck_assert_str_eq(w.step[1].peg->peg.name, "V");
	ck_assert_str_eq(w.step[2].peg->peg.name, "H");
	ck_assert_str_eq(w.step[3].peg->peg.name, "M");
	for (size_t i = 0; i < w.steps; i++)
		sum += w.step[i].walk_m;
	ck_near("walked", w.walk_m, sum, 1e-9);
	ck_near("first", w.step[0].walk_m, hypot(20, 24.5), 0.05);
	ck_near("moved", w.move_m, 0.5 + 0.5 + 0.3 * sqrt(2) + 0.4, 0.05);
	rt_ring_walk_free(&w);
	field_close(&f);
}
END_TEST

START_TEST(a_true_ring_needs_no_walk)
{
	struct field f;
	struct rt_ring_walk w = {0};
	struct rt_report r = {0};

	field_open(&f, 0);
	tape_fifty(&f);
	ck_assert_int_eq(rt_ring_walk(&w, &kind_40x80, &f.readings, 0.10, NULL), RT_OK);
	ck_assert_uint_eq(w.steps, 0);
	ck_near("walk", w.walk_m, 0, 0);
	ck_assert_int_eq(rt_ring_walk_report(&r, &w, false, NULL), RT_OK);
	ck_assert(!r.needs_person);
	ck_has(r.note[0], "No peg has to move");
	rt_report_free(&r);
	rt_ring_walk_free(&w);
	field_close(&f);
}
END_TEST

/* What is to be done after the last of several moves is not said of one. */
START_TEST(one_move_needs_no_last)
{
	struct field f;
	struct rt_ring_walk w = {0};
	struct rt_report r = {0};

	field_open(&f, 0);
	move_peg(&f, "B", 0, 0.5);
	tape_fifty(&f);
	ck_assert_int_eq(rt_ring_walk(&w, &kind_40x80, &f.readings, 0.10, NULL), RT_OK);
	ck_assert_uint_eq(w.steps, 1);
	ck_assert_int_eq(rt_ring_walk_report(&r, &w, false, NULL), RT_OK);
	for (size_t i = 0; i < r.notes; i++)
		ck_assert_ptr_null(strstr(r.note[i], "Tape again"));
	rt_report_free(&r);
	rt_ring_walk_free(&w);
	field_close(&f);
}
END_TEST

/* Readings in doubt: nobody walks. */
START_TEST(no_walk_while_in_doubt)
{
	struct field f;
	struct rt_ring_walk w = {0};
	struct rt_report r = {0};

	field_open(&f, 0);
	move_peg(&f, "CM", 1, 0);
	tape_list(&f, RECTANGLE);
	misread(&f, "AK", "CM", 2);
	ck_assert_int_eq(rt_ring_walk(&w, &kind_40x80, &f.readings, 0.10, NULL), RT_OK);
	ck_assert_uint_eq(w.steps, 0);
	ck_assert_int_eq(rt_ring_walk_report(&r, &w, true, NULL), RT_OK);
	ck_assert(r.needs_person);
	ck_has(r.note[0], "Clear up the readings");
	rt_report_free(&r);
	rt_ring_walk_free(&w);
	field_close(&f);
}
END_TEST

/* ---- letters alone ---- */

static void run_along(const double a[2], const double b[2], double metres, double out[2])
{
	for (int i = 0; i < 2; i++)
		out[i] = a[i] + metres * (b[i] - a[i]) / hypot(b[0] - a[0], b[1] - a[1]);
}

/* Where a letter comes to, laid on the corners by rt__place, from the places themselves. */
static void by_places(const struct field *f, const struct rt_peg *peg, double off[2])
{
	static const char *const corner[] = {"AK", "HC", "CM", "FA"};
	double should[10], stands[10], c[4][2], middle[2][2], *p = stands + 8;
	const bool in[5] = {true, true, true, true, false};
	struct rt__placement t;

	for (size_t i = 0; i < 4; i++) {
		size_t k = peg_index(f, corner[i]);

		memcpy(c[i], f->at[k], sizeof c[i]);
		memcpy(stands + 2 * i, f->at[k], sizeof c[i]);
		should[2 * i] = f->pegs.at[k].x_m;
		should[2 * i + 1] = f->pegs.at[k].y_m;
	}
	should[8] = peg->x_m;
	should[9] = peg->y_m;
	switch (peg->side) {
	case RT_LEFT:
		run_along(c[0], c[1], peg->along_m, p);
		break;
	case RT_RIGHT:
		run_along(c[3], c[2], peg->along_m, p);
		break;
	case RT_SIDE_A:
		run_along(c[0], c[3], peg->along_m, p);
		break;
	case RT_SIDE_C:
		run_along(c[1], c[2], peg->along_m, p);
		break;
	case RT_CENTRE:
		run_along(c[0], c[3], 20, middle[0]);
		run_along(c[1], c[2], 20, middle[1]);
		run_along(middle[0], middle[1], peg->along_m, p);
		break;
	}
	t = rt__place(should, stands, 5, in);
	rt__offset(&t, should, stands, 4, off);
}

START_TEST(letters_follow_their_corners)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_letters_only letters = {0};
	size_t off = 0;

	field_open(&f, 0);
	move_peg(&f, "CM", 0.4, 0.5);
	move_peg(&f, "HC", 0.6, -0.4);
	move_peg(&f, "E", 0.2, 0.2);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_int_eq(rt_letters_only(&letters, &c, NULL), RT_OK);
	ck_assert_uint_eq(letters.n, f.pegs.n - 4);
	for (size_t i = 0; i < letters.n; i++) {
		const struct rt_letter_only *l = &letters.at[i];
		double place[2];

		by_places(&f, &l->peg, place);
		ck_near(l->peg.name, l->dx_m, place[0], 0.01);
		ck_near(l->peg.name, l->dy_m, place[1], 0.01);
		ck_near(l->peg.name, l->off_m, hypot(l->dx_m, l->dy_m), 1e-12);
		ck_assert(l->se_m > 0.003 && l->se_m < 0.03);
		ck_assert(isnan(l->now_m) == (l->peg.side == RT_CENTRE));
		off += l->verdict == RT_SHAPE_OFF;
	}
	ck_assert_uint_gt(off, 2);
	rt_letters_only_free(&letters);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(letters_want_their_corners)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_letters_only letters = {0};

	field_open(&f, 0);
	tape_list(&f, "AK-HC AK-FA HC-FA");
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_int_eq(rt_letters_only(&letters, &c, NULL), RT_OK);
	ck_assert_uint_eq(letters.n, 6); /* K V E S H and A */
	rt_letters_only_free(&letters);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Readings across the ring that are ten times as poor leave K, 6 m from AK, as unsure as AK. */
START_TEST(a_letter_is_as_sure_as_its_corner)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_letters_only letters = {0};

	field_open(&f, 0);
	tape_list(&f, RECTANGLE);
	for (size_t i = 0; i < f.readings.n; i++)
		f.reading[i].sigma = i == 0 || i == 2 ? 0.01 : 0.1;
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_int_eq(rt_letters_only(&letters, &c, NULL), RT_OK);
	for (size_t i = 0; i < letters.n; i++) {
		if (strcmp(letters.at[i].peg.name, "K") == 0)
			ck_near("K", letters.at[i].se_m, checked(&c, "AK")->se_m,
				0.2 * checked(&c, "AK")->se_m);
	}
	rt_letters_only_free(&letters);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- diagonals ---- */

/* The diagonals of a parallelogram lead back to its slide. */
START_TEST(diagonals_tell_the_slide)
{
	for (double slide = -2; slide <= 2; slide += 0.25) {
		double h = sqrt(80 * 80 - slide * slide);
		struct rt_diagonals d;

		ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, hypot(40 + slide, h),
					      hypot(40 - slide, h), NULL),
				 RT_OK);
		ck_near("slide", d.slide_m, slide, 1e-9);
		ck_near("out", d.out_m, 80 - h, 1e-9);
		ck_near("should", d.should_m, sqrt(8000), 1e-12);
	}
}
END_TEST

START_TEST(diagonals_in_plain_words)
{
	struct rt_diagonals d;
	struct rt_report r = {0};

	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, 89.39, 89.49, NULL), RT_OK);
	ck_near("slide", d.slide_m, -0.1 * 178.88 / 160, 1e-9);
	ck_near("error", d.se_m, sqrt(2) * 89.44 * 0.027888 / 80, 1e-5);
	ck_assert_int_eq(rt_diagonals_report(&r, &d, false, NULL), RT_OK);
	ck_assert(r.needs_person);
	ck_has(r.note[0], "differ by 0.10 m: slide both far pegs, HC and CM, 0.11 m along the C "
			  "side towards CM, the far peg of the shorter one");
	ck_has(r.note[1], "trapezium");
	rt_report_free(&r);
	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, 89.94, 89.94, NULL), RT_OK);
	memset(&r, 0, sizeof r);
	ck_assert_int_eq(rt_diagonals_report(&r, &d, true, NULL), RT_OK);
	ck_assert(!r.needs_person);
	ck_has(r.note[0], "are equal");
	ck_has(r.note[1], "straight towards the A side");
	rt_report_free(&r);
}
END_TEST

START_TEST(diagonals_of_no_ring)
{
	struct rt_diagonals d;
	struct rt_error err = {0};

	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, 8.939, 89.49, &err), RT_E_INPUT);
	ck_has(err.text, "should be 89.44 m");
	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, NAN, 89.49, &err), RT_E_INPUT);
	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, 89.4, 293.6, &err), RT_E_INPUT);
}
END_TEST

/* ---- reports ---- */

START_TEST(advice_in_words)
{
	struct field f;
	struct rt_ring_walk w = {0};
	struct rt_ring_check corners = {0};
	struct rt_next_readings next;
	struct rt_letters_only letters = {0};
	struct rt_report r = {0};
	char notes[4000] = "";

	field_open(&f, 0);
	move_peg(&f, "CM", 0.6, 0);
	move_peg(&f, "C", 0, 0.5);
	tape_crew(&f);
	ck_assert_int_eq(rt_ring_walk(&w, &kind_40x80, &f.readings, 0.10, NULL), RT_OK);
	advise(&next, &w.check, INFINITY);
	check_field(&corners, &f, RT_FIT_CORNERS);
	ck_assert_int_eq(rt_letters_only(&letters, &corners, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_walk_report(&r, &w, false, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_next_report(&r, &next, false, NULL), RT_OK);
	ck_assert_int_eq(rt_letters_only_report(&r, &letters, NULL), RT_OK);
	ck_assert(r.needs_person);
	for (size_t i = 0; i < r.notes; i++)
		snprintf(notes + strlen(notes), sizeof notes - strlen(notes), "%s\n", r.note[i]);
	ck_has(notes, "Tape again after the last move");
	ck_has(notes, "next reading");
	ck_has(notes, "move the corners first");
	rt_report_free(&r);
	rt_letters_only_free(&letters);
	rt_ring_check_free(&corners);
	rt_ring_walk_free(&w);
	field_close(&f);
}
END_TEST

int check_advice(void)
{
	Suite *s = suite_create("advice");
	TCase *next = tcase_create("next"), *walk = tcase_create("walk");
	TCase *plain = tcase_create("plain");

	tcase_add_test(next, next_is_what_adjusting_again_gives);
	tcase_add_test(next, next_is_the_best_of_all);
	tcase_add_test(next, a_course_is_what_adjusting_again_gives);
	tcase_add_test(next, next_keeps_to_the_tape);
	tcase_add_test(next, next_is_not_made_yet);
	tcase_add_test(walk, tours_of_a_few_are_the_shortest);
	tcase_add_test(walk, tours_of_many_go_round);
	tcase_add_test(walk, a_walk_moves_the_fewest);
	tcase_add_test(walk, a_true_ring_needs_no_walk);
	tcase_add_test(walk, one_move_needs_no_last);
	tcase_add_test(walk, no_walk_while_in_doubt);
	tcase_add_test(plain, letters_follow_their_corners);
	tcase_add_test(plain, letters_want_their_corners);
	tcase_add_test(plain, a_letter_is_as_sure_as_its_corner);
	tcase_add_test(plain, diagonals_tell_the_slide);
	tcase_add_test(plain, diagonals_in_plain_words);
	tcase_add_test(plain, diagonals_of_no_ring);
	tcase_add_test(plain, advice_in_words);
	suite_add_tcase(s, next);
	suite_add_tcase(s, walk);
	suite_add_tcase(s, plain);
	return suite_run(s);
}
