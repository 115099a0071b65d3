/* Turns against published worked examples of circular curves, and against the practice of driven
 * dressage.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>

#include "drive/internal.h"
#include "../drive_rings.h"
#include "../suite.h"

#define PI 3.141592653589793

/* What surveyors call the parts of a curve, measured on the arc itself. */
struct curve {
	double tangent, length, chord, external, middle;
};

static struct curve measured(double radius, double deflection)
{
	const struct rt_vec from = {-3.0 * radius, 0.0}, at = {0.0, 0.0};
	struct rt_vec to = {cos(deflection), sin(deflection)};
	struct rt__arc arc = rt__fillet(from, at, to, radius);
	struct rt_vec top = rt__go(arc.centre, rt__toward(arc.centre, at), radius);
	struct rt_vec half = {(arc.begin.at.x + arc.finish.at.x) / 2.0,
				 (arc.begin.at.y + arc.finish.at.y) / 2.0};

	return (struct curve){
		.tangent = rt__distance(arc.begin.at, at),
		.length = rt__arc_length(&arc),
		.chord = rt__distance(arc.begin.at, arc.finish.at),
		.external = rt__distance(top, at),
		.middle = rt__distance(top, half),
	};
}

/* NAN: not published. */
static const struct {
	const char *source;
	double radius, deflection_deg;
	struct curve c;
	double tolerance;
} curves[] = {
	{"MSTE 34 Surveying, Horizontal Curves, solutions",
	 249.17,
	 29.0 + 20.0 / 60.0,
	 {65.2136, NAN, 126.1773, NAN, 8.119},
	 5e-4},
	{"the same curve, derived by an independent program",
	 249.17,
	 29.0 + 20.0 / 60.0,
	 {NAN, 127.56588, NAN, 8.39262, NAN},
	 5e-6},
	/* chord 30 and middle ordinate 9 give R = C^2/8M + M/2 = 17.0 */
	{"US Army MP1007 p. 3-15", 17.0, 2.0 * 61.92751306414704, {NAN, NAN, 30.0, NAN, 9.0}, 1e-9},
	{"FHWA 2015 (feet)", 41.0, 90.0, {NAN, 64.4, NAN, NAN, NAN}, 0.05},
};

static void near(const char *source, double got, double published, double tolerance)
{
	if (isnan(published))
		return;
	ck_assert_msg(fabs(got - published) <= tolerance, "%s: %.9f, published %.9f", source, got,
		      published);
}

START_TEST(published_curves)
{
	struct curve got = measured(curves[_i].radius, curves[_i].deflection_deg * PI / 180.0);
	const char *source = curves[_i].source;
	double tolerance = curves[_i].tolerance;

	near(source, got.tangent, curves[_i].c.tangent, tolerance);
	near(source, got.length, curves[_i].c.length, tolerance);
	near(source, got.chord, curves[_i].c.chord, tolerance);
	near(source, got.external, curves[_i].c.external, tolerance);
	near(source, got.middle, curves[_i].c.middle, tolerance);
}
END_TEST

/* Common practice in driven dressage, no published source: a ring 40 m wide, G 10 m from C. */
static const struct {
	double diameter_m, height_cm;
	double driven_m; /* the diameter that practice gives */
	const char *begin, *reach, *from, *finish;
	double straight_m;
} practice[] = {
	{20, 0, 20, "G", "quarter line", "quarter line", "M", 0},
	{20, 142.24, 20, "G", "quarter line", "quarter line", "M", 0},
	{18, 0, 18, "1.0 m past G", "1.0 m before the quarter line", "1.0 m past the quarter line",
	 "1.0 m before M", 2},
	/* 12.5 hands at training level: 17.9, so 18 */
	{20, 12.5 * 10.16, 18, "1.0 m past G", "1.0 m before the quarter line",
	 "1.0 m past the quarter line", "1.0 m before M", 2},
	{15, 0, 15, "2.5 m past G", "2.5 m before the quarter line", "2.5 m past the quarter line",
	 "2.5 m before M", 5},
};

START_TEST(off_the_centreline_as_practised)
{
	struct rt_level level = drive_level(RT_DRIVEN, practice[_i].diameter_m);
	struct rt_turn_options options = {.height_cm = practice[_i].height_cm};
	const struct rt_turn *off, *corner;
	struct rt_turns turns;

	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq(turns.diameter_m, practice[_i].driven_m);
	off = drive_find(&turns, "off the centreline at C", RT_RIGHT);
	corner = drive_find(&turns, "corner CM after C", RT_RIGHT);
	ck_assert_ptr_eq(corner, off + 1);
	ck_assert_str_eq(drive_words(&off->begin), practice[_i].begin);
	ck_assert_str_eq(drive_words(&off->finish), practice[_i].reach);
	ck_assert_double_eq(off->straight_m, practice[_i].straight_m);
	ck_assert_str_eq(drive_words(&corner->begin), practice[_i].from);
	ck_assert_str_eq(drive_words(&corner->finish), practice[_i].finish);
	ck_assert(off->fits && corner->fits);
	rt_turns_free(&turns);
}
END_TEST

START_TEST(b_to_e_as_practised)
{
	struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options options = {0};
	struct rt_turns turns;

	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	for (enum rt_side hand = RT_LEFT; hand <= RT_RIGHT; hand++) {
		const struct rt_turn *leave = drive_find(&turns, "B to E, leave at B", hand);
		const struct rt_turn *arrive = drive_find(&turns, "B to E, arrive at E", hand);

		ck_assert_str_eq(drive_words(&leave->begin), "10.0 m before B");
		ck_assert_str_eq(drive_words(&leave->finish), "quarter line");
		ck_assert_double_eq(leave->straight_m, 20.0);
		ck_assert_str_eq(drive_words(&arrive->begin), "quarter line");
		ck_assert_str_eq(drive_words(&arrive->finish), "10.0 m past E");
	}
	rt_turns_free(&turns);
}
END_TEST

/* Worked by hand: the 3-4-5 triangle of a diagonal with 20 m arcs in a 40 x 80 ring. */
START_TEST(diagonal_by_hand)
{
	struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options options = {0};
	const struct rt_turn *leave, *arrive;
	struct rt_turns turns;

	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	leave = drive_find(&turns, "diagonal M X K, leave at M", RT_RIGHT);
	arrive = drive_find(&turns, "diagonal M X K, arrive at K", RT_LEFT);
	ck_assert_ptr_eq(arrive, leave + 1);
	ck_assert_double_eq_tol(leave->angle_deg, 36.870, 5e-4);
	ck_assert_double_eq_tol(arrive->angle_deg, 36.870, 5e-4);
	ck_assert_double_eq_tol(leave->straight_m, 60.0, 1e-9);
	ck_assert_double_eq_tol(leave->arc_m + leave->straight_m + arrive->arc_m, 72.870, 5e-4);
	ck_assert_str_eq(drive_words(&leave->begin), "M");
	ck_assert_str_eq(drive_words(&leave->finish), "6.0 m past M, 2.0 m inside");
	ck_assert_str_eq(drive_words(&arrive->begin), "6.0 m before K, 2.0 m inside");
	ck_assert_str_eq(drive_words(&arrive->finish), "K");
	/* the straight passes X halfway */
	ck_assert_double_eq_tol(leave->finish_x_m, -arrive->begin_x_m, 1e-9);
	ck_assert_double_eq_tol(leave->finish_y_m, -arrive->begin_y_m, 1e-9);
	rt_turns_free(&turns);
}
END_TEST

/* Derived with g = 9.80665; that a horse leans by atan(v^2/(g r)): Pfau, AJVR 2012. */
static const struct {
	const char *gait;
	double radius_m, lateral_m_per_s2, lean_deg;
} leans[] = {
	{"trot", 10, 1.3032, 7.570},
	{"trot", 5, 2.6064, 14.884},
	{"extended trot", 10, 2.4305, 13.920},
};

START_TEST(lean_in_a_turn)
{
	struct rt_level level = drive_level(RT_DRIVEN, 2.0 * leans[_i].radius_m);
	const struct rt_turn_options options = {0};
	struct rt_turns turns;

	level.gait = leans[_i].gait;
	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq_tol(turns.lateral_m_per_s2, leans[_i].lateral_m_per_s2, 5e-5);
	ck_assert_double_eq_tol(turns.lean_deg, leans[_i].lean_deg, 5e-4);
	rt_turns_free(&turns);
}
END_TEST

#define ROWS(array) ((int)(sizeof(array) / sizeof *(array)))

int drive_curves(void)
{
	Suite *suite = suite_create("drive, outside");
	TCase *all = tcase_create("all");

	suite_add_tcase(suite, all);
	tcase_add_loop_test(all, published_curves, 0, ROWS(curves));
	tcase_add_loop_test(all, off_the_centreline_as_practised, 0, ROWS(practice));
	tcase_add_test(all, b_to_e_as_practised);
	tcase_add_test(all, diagonal_by_hand);
	tcase_add_loop_test(all, lean_in_a_turn, 0, ROWS(leans));
	return suite_run(suite);
}
