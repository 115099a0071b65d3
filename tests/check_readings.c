/* Checks of intake: files of readings of every kind.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <ringtrue/intake.h>

#include "intake/plane.h"
#include "suite.h"

static struct rt_letter letters[] = {
	{"A", RT_SIDE_A, 20}, {"B", RT_RIGHT, 40}, {"C", RT_SIDE_C, 20}, {"E", RT_LEFT, 40}};
static const struct rt_ring_kind kind = {.name = "field",
					 .discipline = RT_DRIVEN,
					 .width_m = 40,
					 .length_m = 80,
					 .letters = {.at = letters, .n = 4}};
static struct rt_point point[] = {{"P", 0, 0, false}, {"Q", 40, 0, false}, {"R", 0, 80, false}};
static const struct rt_points points = {.at = point, .n = 3};

/* What came of files. */
struct read {
	struct rt_readings readings;
	struct rt_heights heights;
	struct rt_faults faults;
};

static void read_text(struct read *r, const char *text, bool of_points)
{
	char path[] = "/tmp/check_readings-XXXXXX";
	int fd = mkstemp(path);
	size_t n = strlen(text);
	struct rt_error err = {0};
	enum rt_err e;

	ck_assert_int_ge(fd, 0);
	ck_assert_int_eq(write(fd, text, n), (ssize_t)n);
	close(fd);
	e = rt_read_readings(&r->readings, &r->heights, RT_FILE(path), of_points ? NULL : &kind,
			     of_points ? &points : NULL, &r->faults, &err);
	ck_assert_msg(e == RT_OK, "%s", err.text);
	unlink(path);
}

static void read_free(struct read *r)
{
	RT_LIST_FREE(&r->readings);
	RT_LIST_FREE(&r->heights);
	rt_faults_free(&r->faults);
}

static void ck_good(const struct read *r)
{
	ck_assert_msg(r->faults.total == 0, "%s", r->faults.total ? r->faults.at[0].text : "");
}

START_TEST(every_kind_is_read)
{
	struct read r = {0};

	read_text(&r, "from,to,distance_m,note\nA,C,80.02,calm\n", false);
	read_text(&r, "point,from,to,offset_m,sigma_m\nB,FA,CM,-0.03,0.005\n", false);
	read_text(&r, "angle_deg,point,from,to\n270,AK,FA,HC\n", false);
	read_text(&r, "point,x_m,y_m,sigma_m\nA,500000.25,6500000.5,0.01\nB,500020,6500040,\n",
		  false);
	read_text(&r, "point,x_m,y_m\nA,1,2\nB,21,42\n", false);
	read_text(&r, "point,height_m,sigma_m\nA,12.345,0.002\nC,12.5,\n", false);
	ck_good(&r);
	ck_assert_uint_eq(r.readings.n, 3 + 4 + 4);
	ck_assert_int_eq(r.readings.at[0].kind, RT_READ_DISTANCE);
	ck_assert_str_eq(r.readings.at[0].note, "calm");
	ck_assert_ptr_null(r.readings.at[0].at);
	ck_assert_int_eq(r.readings.at[1].kind, RT_READ_OFFSET);
	ck_assert_str_eq(r.readings.at[1].at, "B");
	ck_assert_double_eq(r.readings.at[1].value, -0.03);
	ck_assert_double_eq(r.readings.at[1].sigma, 0.005);
	ck_assert_int_eq(r.readings.at[2].kind, RT_READ_ANGLE);
	ck_assert_str_eq(r.readings.at[2].from, "FA");
	ck_assert(isnan(r.readings.at[2].sigma));
	ck_assert_int_eq(r.readings.at[3].kind, RT_READ_X);
	ck_assert_int_eq(r.readings.at[4].kind, RT_READ_Y);
	ck_assert_double_eq(r.readings.at[4].value, 6500000.5);
	ck_assert_double_eq(r.readings.at[4].sigma, 0.01);
	ck_assert_ptr_null(r.readings.at[4].from);
	ck_assert_int_eq(r.readings.at[4].frame, 1);
	ck_assert_int_eq(r.readings.at[10].frame, 2);
	ck_assert_int_eq(r.readings.at[10].line, 3);
	ck_assert_uint_eq(r.heights.n, 2);
	ck_assert_double_eq(r.heights.at[0].height_m, 12.345);
	ck_assert(isnan(r.heights.at[1].sigma_m));
	read_free(&r);
}
END_TEST

/* For points that are given, coordinates in metres are in their frame. */
START_TEST(metres_are_in_the_frame_of_points)
{
	struct read r = {0};

	read_text(&r, "point,x_m,y_m\nP,0.01,0\nQ,39.99,0.02\n", true);
	ck_good(&r);
	ck_assert_uint_eq(r.readings.n, 4);
	ck_assert_int_eq(r.readings.at[3].frame, 0);
	read_free(&r);
}
END_TEST

/* A ring of 40 x 80 m, turned by half a radian, 500 m up at 59.1 N 17.6 E; its degrees by the
 * formulas of EPSG Guidance Note 7-2 in another program. */
static const char *const degrees = "point,lat_deg,lon_deg,height_m\n"
				   "AK,59.0995988368,17.6000283592,500\n"
				   "HC,59.1002290246,17.5993591525,500\n"
				   "CM,59.1004011631,17.5999716401,500\n"
				   "FA,59.0997709723,17.6006408389,500\n";

#ifdef HAVE_PROJ

static double gap(const struct read *r, size_t i, size_t k)
{
	return hypot(r->readings.at[2 * k].value - r->readings.at[2 * i].value,
		     r->readings.at[2 * k + 1].value - r->readings.at[2 * i + 1].value);
}

START_TEST(degrees_become_metres_on_the_ground)
{
	struct read r = {0};

	read_text(&r, degrees, false);
	ck_good(&r);
	ck_assert_uint_eq(r.readings.n, 8);
	ck_assert_double_eq_tol(gap(&r, 0, 1), 80, 2e-5);
	ck_assert_double_eq_tol(gap(&r, 1, 2), 40, 2e-5);
	ck_assert_double_eq_tol(gap(&r, 0, 2), sqrt(8000), 2e-5);
	ck_assert_int_eq(r.readings.at[7].frame, 1);
	ck_assert_uint_eq(r.heights.n, 4);
	ck_assert_double_eq(r.heights.at[2].height_m, 500);
	ck_assert_str_eq(r.heights.at[3].name, "FA");
	read_free(&r);
}
END_TEST

/* Flinders Peak and Buninyong: 54,972.271 m apart on the ellipsoid (GDA Technical Manual, worked
 * example of the geodesic; from memory).  On the plane it is shorter by s^3 / 24 R^2. */
START_TEST(published_distance)
{
	static const struct rt__geo place[] = {
		{-(37 + 57 / 60.0 + 3.72030 / 3600), 144 + 25 / 60.0 + 29.52440 / 3600},
		{-(37 + 39 / 60.0 + 10.15610 / 3600), 143 + 55 / 60.0 + 35.38390 / 3600}};
	double metres[4], s = 54972.271, earth = 6371000;

	ck_assert_int_eq(rt__plane(place, 2, 0, metres, NULL), RT_OK);
	ck_assert_double_eq_tol(hypot(metres[2] - metres[0], metres[3] - metres[1]),
				s - s * s * s / (24 * earth * earth), 2e-3);
}
END_TEST

/* Either side of the date line. */
START_TEST(date_line)
{
	static const struct rt__geo place[] = {{-16.8, 179.9999}, {-16.8, -179.9999}};
	double metres[4];

	ck_assert_int_eq(rt__plane(place, 2, 0, metres, NULL), RT_OK);
	ck_assert_double_eq_tol(metres[2] - metres[0], 21.32, 0.05);
}
END_TEST

#else

START_TEST(no_degrees_in_this_build)
{
	struct read r = {0};

	read_text(&r, degrees, false);
	ck_assert_uint_eq(r.faults.total, 1);
	ck_assert(strstr(r.faults.at[0].text, "this build of ringtrue reads no latitudes"));
	read_free(&r);
}
END_TEST

#endif

static const struct {
	const char *text, *fault; /* a part of the first fault */
	bool of_points, degrees;
} faulty[] = {
	{"length,breadth\n1,2\n", "the header row is none that is known: from, to, distance_m", 0,
	 0},
	{"from|to|distance_m\nA|C|80.0\n", "none that is known: from, to", 0, 0},
	{"point,from,to\nA,B,C\n", "none that is known", 0, 0},
	{"point,x_m\nA,1\n", "missing column", 0, 0},
	{"from,to,distance_m\nA,C,0\n", "\"0\" is no distance: metres, over 0", 0, 0},
	{"from,to,distance_m\nA,C,-3\n", "\"-3\" is less than nothing", 0, 0},
	{"from,to,distance_m,sigma_m\nA,C,80,0\n", "would mean that this reading cannot be wrong",
	 0, 0},
	{"from,to,distance_m\nA,Z,80\n", "unknown letter \"Z\"", 0, 0},
	{"point,from,to,offset_m\nA,A,C,0.1\n", "three different letters", 0, 0},
	{"point,from,to,angle_deg\nAK,FA,HC,-90\n", "degrees clockwise, from 0 to 360", 0, 0},
	{"point,height_m\nZ,1\n", "unknown letter \"Z\"", 0, 0},
	{"point,x_m,y_m\nA,0,0\nB,20,40\nC,4000,80\n",
	 "\"C\" is 4.0 km from the other points of this file: at most 2 km", 0, 0},
	{"point,x_m,y_m\nA,0,0\nB,40,20\nE,40,-20\nC,80,0\n", "x_m and y_m seem to be swapped", 0,
	 0},
	{"point,lat_deg,lon_deg\nA,117.6,59.1\n", "latitude and longitude seem to be swapped", 0,
	 1},
	{"point,lon_deg,lat_deg\nAK,59.0995988368,17.6000283592\n"
	 "HC,59.1002290246,17.5993591525\n"
	 "CM,59.1004011631,17.5999716401\n"
	 "FA,59.0997709723,17.6006408389\n",
	 "lat_deg and lon_deg seem to be swapped", 0, 1},
	{"point,lat_deg,lon_deg\nP,59,17\nQ,59.0001,17\nR,59.1,17\n",
	 "\"R\" is 11.1 km from the other points of this file", 1, 1},
};

START_TEST(faults_are_told)
{
	struct read r = {0};

#ifndef HAVE_PROJ
	if (faulty[_i].degrees)
		return;
#endif
	read_text(&r, faulty[_i].text, faulty[_i].of_points);
	ck_assert_uint_gt(r.faults.total, 0);
	ck_assert_msg(strstr(r.faults.at[0].text, faulty[_i].fault) != NULL, "%s",
		      r.faults.at[0].text);
	ck_assert_uint_eq(r.readings.n, 0);
	read_free(&r);
}
END_TEST

int check_readings(void)
{
	Suite *suite = suite_create("readings");
	TCase *all = tcase_create("all");

	tcase_add_test(all, every_kind_is_read);
	tcase_add_test(all, metres_are_in_the_frame_of_points);
#ifdef HAVE_PROJ
	tcase_add_test(all, degrees_become_metres_on_the_ground);
	tcase_add_test(all, published_distance);
	tcase_add_test(all, date_line);
#else
	tcase_add_test(all, no_degrees_in_this_build);
#endif
	tcase_add_loop_test(all, faults_are_told, 0, (int)(sizeof faulty / sizeof *faulty));
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
