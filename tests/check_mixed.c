/* The ring room: readings of every kind in one adjustment.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

#define RADIAN 57.29577951308232

static struct rt_reading *add(struct field *f, enum rt_reading_kind kind, const char *at,
			      const char *from, const char *to, double value)
{
	struct rt_reading *r = &f->reading[f->readings.n++];

	ck_assert_uint_le(f->readings.n, COUNT(f->reading));
	*r = (struct rt_reading){.kind = kind,
				 .at = at,
				 .from = from,
				 .to = to,
				 .value = value,
				 .sigma = NAN,
				 .line = (long)f->readings.n};
	return r;
}

/* A receiver's fix of a peg, whose frame is turned by `turn` and far away. */
static void fix(struct field *f, const char *name, int frame, double turn, double dx, double dy)
{
	const double *at = f->at[peg_index(f, name)];
	double x = at[0] + dx, y = at[1] + dy;
	struct rt_reading *of_x = add(f, RT_READ_X, name, NULL, NULL,
				      674000 + x * cos(turn) - y * sin(turn));
	struct rt_reading *of_y = add(f, RT_READ_Y, name, NULL, NULL,
				      6580000 + x * sin(turn) + y * cos(turn));

	of_x->frame = of_y->frame = frame;
	of_y->line = of_x->line;
}

static const char *const around[AROUND] = {"A", "AK", "K", "V", "E", "S", "H", "HC",
					   "C", "CM", "M", "R", "B", "P", "F", "FA"};

static void fix_around(struct field *f, int frame, double turn)
{
	for (size_t i = 0; i < AROUND; i++)
		fix(f, around[i], frame, turn, 0, 0);
}

/* How many notes say so. */
static size_t notes_with(const struct rt_report *r, const char *part)
{
	size_t n = 0;

	for (size_t i = 0; i < r->notes; i++)
		n += strstr(r->note[i], part) != NULL;
	return n;
}

/* A receiver alone proves a ring, however it is turned; with a second one its fixes are checked. */
START_TEST(receiver_alone)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0);
	move_peg(&f, "B", 0, 0.5);
	fix_around(&f, 1, 2.2);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.adjustment.degrees_of_freedom, 0);
	ck_near("B", checked(&c, "B")->dy_m, 0.5, 1e-6);
	ck_near("K", checked(&c, "K")->off_m, 0, 1e-6);
	rt_ring_check_free(&c);
	fix_around(&f, 2, -1);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.adjustment.degrees_of_freedom, 2 * AROUND - 3);
	ck_assert_int_eq(checked(&c, "B")->verdict, RT_PEG_MOVE);
	ck_assert_uint_eq(c.to_move, 1);
	ck_assert_uint_eq(c.adjustment.frames, 2);
	ck_near("turn", c.adjustment.frame[0].cosine, cos(2.2), 0.2);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A frame starts from its fixes without those that stray, so that three of them a street away do
 * not turn it. */
START_TEST(strays_do_not_turn_a_frame)
{
	for (size_t first = 0; first < 6; first++) {
		struct rt__network net = {0};
		struct rt_point point[AROUND];
		struct rt_points points = {.at = point, .n = AROUND};
		struct field f;

		field_open(&f, 0);
		for (size_t i = 0; i < AROUND; i++) {
			const double *at = f.at[peg_index(&f, around[i])];

			point[i] = (struct rt_point){.name = around[i], .x_m = at[0], .y_m = at[1]};
			fix(&f, around[i], 1, 0.7, 0.01 * (double)(i % 3),
			    i % 6 == first ? 60 : 0);
		}
		ck_assert_int_eq(rt__network_build(&net, &points, &f.readings, NULL), RT_OK);
		ck_near("turn", net.frame[0].turn, 0.7, 0.01);
		rt__network_free(&net);
		field_close(&f);
	}
}
END_TEST

/* Both coordinates of a wrong fix go; in words it is one. */
START_TEST(fix_is_set_aside_whole)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 0.5);
	tape_fifty(&f);
	for (size_t i = 0; i < AROUND; i++)
		fix(&f, around[i], 1, 0.7, i == 4 ? 0.6 : 0, i == 4 ? -0.05 : 0);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.adjustment.blunders, 2);
	ck_assert_int_eq(c.adjustment.reading[50 + 8].verdict, RT_READING_BLUNDER);
	ck_assert_int_eq(c.adjustment.reading[50 + 9].verdict, RT_READING_BLUNDER);
	ck_assert_int_eq(c.verdict, RT_RING_TRUE);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_assert_uint_eq(
		notes_with(&r, "The receiver's place of E was set aside: the others put E 0.6"), 1);
	ck_assert_uint_eq(notes_with(&r, "receiver's place"), 1);
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Offsets and angles hold what tapes along a side do not. */
START_TEST(offsets_and_angles_hold)
{
	struct rt_ring_check c = {0};
	struct rt_error err = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "AK-K K-HC");
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_NOFIX);
	rt_ring_check_free(&c);
	add(&f, RT_READ_OFFSET, "K", "AK", "HC", 0.3);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_near("K", checked(&c, "K")->dx_m, 0.3, 0.01);
	rt_ring_check_free(&c);
	add(&f, RT_READ_ANGLE, "AK", "HC", "FA", 90);
	add(&f, RT_READ_ANGLE, "FA", "AK", "CM", 90);
	add(&f, RT_READ_ANGLE, "CM", "FA", "HC", 91);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_uint_eq(c.adjustment.blunders, 1);
	ck_assert_int_eq(c.adjustment.reading[f.readings.n - 1].verdict, RT_READING_BLUNDER);
	ck_near("degrees", c.adjustment.reading[f.readings.n - 1].residual_m, -1, 0.05);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_assert_uint_eq(notes_with(&r, "The angle at CM from FA to HC was set aside: it says "
					 "91.00, the others 90.0"),
			  1);
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* An angle of nothing and one of a full turn are the same. */
START_TEST(angles_go_round)
{
	struct rt_point point[] = {{"P", 0, 0, true}, {"Q", 0, 50, true}, {"R", 0.02, 40, false}};
	struct rt_reading reading[] = {{.kind = RT_READ_ANGLE,
					.at = "P",
					.from = "Q",
					.to = "R",
					.value = 359.98,
					.sigma = 0.05},
				       {.from = "P", .to = "R", .value = 40, .sigma = 0.01}};
	struct rt_points points = {.at = point, .n = 3};
	struct rt_readings readings = {.at = reading, .n = 2};
	struct rt_adjustment a = {0};

	ck_assert_int_eq(rt_adjust(&a, &points, &readings, NULL), RT_OK);
	ck_near("x", a.point[2].x_m, -40 * sin(0.02 / RADIAN), 1e-9);
	ck_near("y", a.point[2].y_m, 40 * cos(0.02 / RADIAN), 1e-9);
	rt_adjustment_free(&a);
}
END_TEST

/* A coordinate in the frame of the points holds the whole as a fixed point does, but gives way. */
START_TEST(coordinates_of_the_points_frame)
{
	struct rt_point point[] = {{"P", 0, 0, false}, {"Q", 50, 0, false}, {"R", 20, 30, false}};
	struct rt_reading reading[] = {
		{.from = "P", .to = "Q", .value = 50.02, .sigma = 0.01},
		{.from = "P", .to = "R", .value = hypot(20, 30), .sigma = 0.01},
		{.from = "Q", .to = "R", .value = hypot(30, 30), .sigma = 0.01},
		{.kind = RT_READ_X, .at = "P", .value = 1, .sigma = 0.02},
		{.kind = RT_READ_Y, .at = "P", .value = 2, .sigma = 0.02},
		{.kind = RT_READ_X, .at = "Q", .value = 51, .sigma = 0.02},
		{.kind = RT_READ_Y, .at = "Q", .value = 2, .sigma = 0.02}};
	struct rt_points points = {.at = point, .n = 3};
	struct rt_readings readings = {.at = reading, .n = COUNT(reading)};
	struct rt_adjustment a = {0};

	ck_assert_int_eq(rt_adjust(&a, &points, &readings, NULL), RT_OK);
	ck_assert_uint_eq(a.degrees_of_freedom, 1);
	ck_near("length", a.point[1].x_m - a.point[0].x_m, 50 + 0.02 * 8 / 9, 1e-6);
	ck_near("P", a.point[0].x_m, 1 - 0.02 * 4 / 9, 1e-6);
	ck_near("y", a.point[1].y_m, 2, 1e-6);
	rt_adjustment_free(&a);
}
END_TEST

/* Influence and rows say what the adjustment does: one metre more in a reading. */
/* A fix is one: a peg that the receiver alone tells of is not called off by it, whichever way it is
 * wrong; a second fix settles it. */
START_TEST(a_peg_that_rests_on_one_fix_is_not_called_off)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0.3);
	tape_fifty(&f);
	fix_around(&f, 1, 0.4);
	move_peg(&f, "X", 0.4, 0.5);
	fix(&f, "X", 1, 0.4, 0, 0);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_near("X", checked(&c, "X")->off_m, hypot(0.4, 0.5), 0.02);
	ck_assert_int_eq(checked(&c, "X")->verdict, RT_PEG_UNSURE);
	ck_assert_str_eq(checked(&c, "X")->rests_on->at, "X");
	rt_ring_check_free(&c);
	fix(&f, "X", 1, 0.4, 0.01, 0);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert_int_eq(checked(&c, "X")->verdict, RT_PEG_MOVE);
	ck_assert_ptr_null(checked(&c, "X")->rests_on);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(influence_is_what_happens)
{
	struct rt_ring_check before = {0}, after = {0};
	struct field f;
	size_t n;

	field_open(&f, 0.3);
	tape_fifty(&f);
	fix_around(&f, 1, 0.4);
	add(&f, RT_READ_OFFSET, "B", "FA", "CM", 0.004);
	add(&f, RT_READ_ANGLE, "AK", "HC", "FA", 90.01);
	for (size_t i = 0; i < f.readings.n; i += 7) {
		double row[2 * AROUND], moved = 0, read = 0, step = 1e-4;
		const struct rt_adjustment *a = &before.adjustment;

		check_field(&before, &f, RT_FIT_ALL);
		f.reading[i].value += step;
		check_field(&after, &f, RT_FIT_ALL);
		f.reading[i].value -= step;
		n = 2 * a->points;
		for (size_t k = 0; k < n; k++) {
			double by = k % 2 ? after.adjustment.point[k / 2].y_m - a->point[k / 2].y_m
					  : after.adjustment.point[k / 2].x_m - a->point[k / 2].x_m;

			ck_near("influence", a->influence[i * n + k], by / step, 1e-4);
			moved = fmax(moved, fabs(by / step));
		}
		ck_assert(moved > 0.01);
		if (f.reading[i].kind != RT_READ_X && f.reading[i].kind != RT_READ_Y) {
			rt__gradient(a, &f.reading[i], row);
			for (size_t k = 0; k < n; k++)
				read += row[k] * a->influence[i * n + k];
			ck_near("redundancy", 1 - read, a->reading[i].redundancy, 1e-6);
		}
		rt_ring_check_free(&before);
		rt_ring_check_free(&after);
	}
	field_close(&f);
}
END_TEST

START_TEST(feet_are_recognised)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct rt_error err = {0};
	struct field f;

	field_open(&f, 0.5);
	tape_fifty(&f);
	f.reading[19].value /= 0.3048; /* E-B, 131 ft */
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.adjustment.blunders, 1);
	ck_assert_str_eq(c.adjustment.reading[19].unit, "feet");
	ck_assert_ptr_null(c.adjustment.reading[18].unit);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_assert_uint_eq(notes_with(&r, "Reading E-B, 131.2"), 1);
	ck_assert_uint_eq(notes_with(&r, "would fit in feet: was it written down in metres?"), 1);
	rt_report_free(&r);
	rt_ring_check_free(&c);
	for (size_t i = 0; i < f.readings.n; i++)
		f.reading[i].value /= i == 19 ? 1 : 0.3048;
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_INPUT);
	ck_has(err.text, "50 of 50 distances fit the layout in feet, not in metres: give metres");
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A peg that a receiver alone has, in a file of its own, is not fixed; with two others it is. */
START_TEST(lonely_fix_holds_nothing)
{
	struct rt_ring_check c = {0};
	struct rt_error err = {0};
	struct field f;

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "A-AK A-FA A-HC A-CM");
	fix(&f, "B", 1, 0.3, 0, 0);
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_NOFIX);
	ck_has(err.text, "B (alone in its receiver's file: tape it from");
	rt_ring_check_free(&c);
	fix(&f, "AK", 1, 0.3, 0, 0);
	fix(&f, "CM", 1, 0.3, 0, 0);
	check_field(&c, &f, RT_FIT_ALL);
	ck_near("B", checked(&c, "B")->off_m, 0, 1e-4);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Fixes as of a telephone leave B loose, though their file is tied to two pegs that are held, and
 * no direction is weaker than another: it is to be taped from two. */
START_TEST(poor_fixes_want_tapes)
{
	static const struct {
		const char *taped, *says;
	} rows[] = {{"", "B (its readings are too weak: tape it from F and E too)"},
		    {"B-F", "B (its readings are too weak: tape it from E too)"},
		    {"B-E", "B (its readings are too weak: tape it from CM too)"},
		    {"B-F B-E", NULL}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_error err = {0};
		struct field f;

		field_open(&f, 0);
		tape_list(&f, RECTANGLE "A-AK A-FA A-HC A-CM E-AK E-HC E-FA E-CM "
					"F-AK F-HC F-FA F-CM");
		fix(&f, "B", 1, 0.3, 0, 0);
		f.reading[f.readings.n - 2].sigma = f.reading[f.readings.n - 1].sigma = 1;
		fix(&f, "AK", 1, 0.3, 0, 0);
		fix(&f, "CM", 1, 0.3, 0, 0);
		tape_list(&f, rows[i].taped);
		ck_assert_int_eq(
			rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			rows[i].says ? RT_E_NOFIX : RT_OK);
		if (rows[i].says)
			ck_has(err.text, rows[i].says);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

int check_mixed(void)
{
	const TTest *tests[] = {receiver_alone,
				strays_do_not_turn_a_frame,
				fix_is_set_aside_whole,
				offsets_and_angles_hold,
				angles_go_round,
				coordinates_of_the_points_frame,
				a_peg_that_rests_on_one_fix_is_not_called_off,
				influence_is_what_happens,
				feet_are_recognised,
				lonely_fix_holds_nothing,
				poor_fixes_want_tapes};
	Suite *suite = suite_create("mixed readings");
	TCase *tcase = tcase_create("all");

	for (size_t i = 0; i < COUNT(tests); i++)
		tcase_add_test(tcase, tests[i]);
	tcase_set_timeout(tcase, 60);
	suite_add_tcase(suite, tcase);
	return suite_run(suite);
}
