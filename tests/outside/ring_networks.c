/* The ring room against published worked examples.
 *
 * Networks 1 to 4: W. Benning, Statistik in Geodaesie, Geoinformation und Bauwesen (2011), and
 * G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS (1997), with further digits as listed
 * by F. Krumm, Geodetic Network Adjustment Examples (Stuttgart, 2020).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../suite.h"

#include "check/internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

static void ck_near(const char *what, double got, double expected, double within)
{
	ck_assert_msg(fabs(got - expected) <= within, "%s: %.13g, not %.13g +- %g", what, got,
		      expected, within);
}

/* ---- a network as a table ---- */

struct side {
	const char *from, *to;
	double distance_m;
};

static void adjust(struct rt_adjustment *out, struct rt_point *point, size_t points,
		   const struct side *side, size_t sides, double sigma_m)
{
	struct rt_points list = {.at = point, .n = points};
	struct rt_reading *reading = calloc(sides, sizeof *reading);
	struct rt_readings readings = {.at = reading, .n = sides};
	struct rt_error err = {0};
	enum rt_err e;

	ck_assert_ptr_nonnull(reading);
	for (size_t i = 0; i < sides; i++) {
		reading[i].from = side[i].from;
		reading[i].to = side[i].to;
		reading[i].value = side[i].distance_m;
		reading[i].sigma = sigma_m;
	}
	e = rt_adjust(out, &list, &readings, &err);
	for (size_t i = 0; !e && i < sides; i++)
		out->reading[i].reading = NULL; /* the list goes */
	free(reading);
	ck_assert_msg(e == RT_OK, "%s", err.text);
}

/* Sigma0 in millimetres, for readings of one sigma. */
static double sigma0_mm(const struct rt_adjustment *a, double sigma_m)
{
	return a->sigma0 * sigma_m * 1000;
}

/* ---- Benning, example 8-2: a square ---- */

START_TEST(benning_8_2)
{
	struct rt_point point[] = {{"1", 0, 1000, true},
				   {"2", 1000, 1000, true},
				   {"3", 0, 0, false},
				   {"4", 1000, 0, false}};
	static const struct side side[] = {{"1", "3", 1000.02},
					   {"1", "4", 1414.20},
					   {"2", "3", 1414.24},
					   {"2", "4", 999.98},
					   {"3", "4", 1000.00}};
	static const double v_mm[] = {2.6013, -3.6788, -3.6789, 2.6014, 2.6013};
	static const double r_sevenths[] = {1, 2, 2, 1, 1};
	struct rt_adjustment a = {0};

	adjust(&a, point, COUNT(point), side, COUNT(side), 0.01);
	ck_near("x3", a.point[2].x_m, -0.0095845047, 0.6e-10);
	ck_near("y3", a.point[2].y_m, -0.0226012125, 0.6e-10);
	ck_near("x4", a.point[3].x_m, 999.9930159990, 0.6e-10);
	ck_near("y4", a.point[3].y_m, 0.0173986619, 0.6e-10);
	ck_near("s0 mm", sigma0_mm(&a, 0.01), 6.8824153, 0.6e-7);
	ck_assert_uint_eq(a.degrees_of_freedom, 1);
	for (size_t i = 0; i < COUNT(side); i++) {
		ck_near("v mm", a.reading[i].residual_m * 1000, v_mm[i], 0.6e-4);
		ck_near("r", a.reading[i].redundancy, r_sevenths[i] / 7, 2e-5);
		/* with one degree of freedom every tau is 1 */
		ck_near("tau", fabs(a.reading[i].w) / a.sigma0, 1, 1e-4);
	}
	rt_adjustment_free(&a);
}
END_TEST

/* ---- Benning, example 8-8: a point beside a base line, weak in one direction ---- */

START_TEST(benning_8_8)
{
	struct rt_point point[] = {{"1", 3000, 2000, true}, {"2", 1000, 2000, true},
				   {"3", 3000, 2100, true}, {"4", 1000, 2100, true},
				   {"5", 2000, 1000, true}, {"6", 2000, 2000, false}};
	static const struct side side[] = {{"6", "1", 1000},
					   {"6", "2", 1000},
					   {"6", "3", 1005},
					   {"6", "4", 1005},
					   {"6", "5", 1000}};
	static const double r[] = {.749, .749, .742, .742, .019};
	struct rt_adjustment a = {0};
	double largest = 0;

	adjust(&a, point, COUNT(point), side, COUNT(side), 0.02);
	ck_near("x6", a.point[5].x_m, 2000.0000, 0.6e-4);
	ck_near("y6", a.point[5].y_m, 1999.9976, 0.6e-4);
	ck_near("se x6 cm", a.point[5].se_x_m * 100, 0.504, 0.6e-3);
	ck_near("se y6 cm", a.point[5].se_y_m * 100, 0.996, 0.6e-3);
	ck_assert_uint_eq(a.degrees_of_freedom, 3);
	for (size_t i = 0; i < COUNT(side); i++) {
		ck_near("r", a.reading[i].redundancy, r[i], 0.6e-3);
		largest = fmax(largest, fabs(a.reading[i].w) / a.sigma0);
	}
	ck_near("largest tau", largest, 1.732, 0.6e-3);
	ck_near("tau of 6-5", fabs(a.reading[4].w) / a.sigma0, largest, 1e-9);
	ck_assert_int_eq(a.reading[4].verdict, RT_READING_UNCHECKED);
	rt_adjustment_free(&a);
}
END_TEST

/* ---- Strang and Borre, example 10.1: one point from three ---- */

START_TEST(strang_borre_10_1)
{
	struct rt_point point[] = {{"1", 170.71, 270.71, true},
				   {"2", 100, 100, true},
				   {"3", 241.42, 100, true},
				   {"P", 170.71, 170.71, false}};
	static const struct side side[] = {
		{"1", "P", 100.01}, {"2", "P", 100.02}, {"3", "P", 100.03}};
	struct rt_adjustment a = {0};

	adjust(&a, point, COUNT(point), side, COUNT(side), 0.01);
	ck_near("x", a.point[3].x_m, 170.7029, 0.6e-4);
	ck_near("y", a.point[3].y_m, 170.7234, 0.6e-4);
	ck_near("se x", a.point[3].se_x_m, .03303, 0.6e-5);
	ck_near("se y", a.point[3].se_y_m, .02335, 0.6e-5);
	rt_adjustment_free(&a);
}
END_TEST

/* ---- Strang and Borre, example 12.4: the same as a free network ---- */

START_TEST(strang_borre_12_4)
{
	struct rt_point point[] = {{"P", 170.71, 170.71, false},
				   {"1", 170.71, 270.71, false},
				   {"2", 100, 100, false},
				   {"3", 241.42, 100, false}};
	static const struct side side[] = {{"1", "P", 100.01}, {"2", "P", 100.02},
					   {"3", "P", 100.03}, {"1", "2", 184.785},
					   {"2", "3", 141.44}, {"1", "3", 184.805}};
	static const double expected[][4] = {/* m, m, cm, cm */
					     {170.7123, 170.7185, 1.079, .682},
					     {170.7032, 270.7213, .810, .551},
					     {99.9912, 99.9971, .641, .705},
					     {241.4333, 99.9830, .640, .705}};
	struct rt_adjustment a = {0};

	adjust(&a, point, COUNT(point), side, COUNT(side), 0.01);
	for (size_t i = 0; i < COUNT(point); i++) {
		ck_near("x", a.point[i].x_m, expected[i][0], 0.6e-4);
		ck_near("y", a.point[i].y_m, expected[i][1], 0.6e-4);
		ck_near("se x cm", a.point[i].se_x_m * 100, expected[i][2], 0.6e-3);
		ck_near("se y cm", a.point[i].se_y_m * 100, expected[i][3], 0.6e-3);
	}
	ck_near("s0 mm", sigma0_mm(&a, 0.01), 11.763625, 0.6e-6);
	ck_assert_uint_eq(a.degrees_of_freedom, 1);
	rt_adjustment_free(&a);
}
END_TEST

/* ---- a rectangle, four sides and two diagonals (derived) ---- */

static void rectangle(struct rt_adjustment *a, double width, double length, double wrong,
		      double sigma_m)
{
	struct rt_point point[] = {{"A", 0, 0, false},
				   {"B", width, 0, false},
				   {"C", width, length, false},
				   {"D", 0, length, false}};
	double d = hypot(width, length);
	const struct side side[] = {{"A", "B", width},	{"B", "C", length}, {"C", "D", width},
				    {"D", "A", length}, {"A", "C", d},	    {"B", "D", d + wrong}};

	adjust(a, point, COUNT(point), side, COUNT(side), sigma_m);
}

START_TEST(rectangle_redundancy)
{
	static const double sizes[][2] = {{20, 40}, {20, 60}, {40, 80}, {40, 100}};

	for (size_t i = 0; i < COUNT(sizes); i++) {
		double w = sizes[i][0], l = sizes[i][1], dd = w * w + l * l;
		const double r[] = {w * w / (4 * dd),
				    l * l / (4 * dd),
				    w * w / (4 * dd),
				    l * l / (4 * dd),
				    .25,
				    .25};
		struct rt_adjustment a = {0};

		rectangle(&a, w, l, 0, 0.01);
		for (size_t k = 0; k < 6; k++)
			ck_near("r", a.reading[k].redundancy, r[k], 1e-9);
		rt_adjustment_free(&a);
	}
}
END_TEST

START_TEST(rectangle_blunder)
{
	static const double v_mm[] = {7.9088, 23.7265, 7.9088, 23.7265, -25.0296, -24.9901};
	struct rt_adjustment a = {0};

	rectangle(&a, 20, 60, 0.100, 0.01);
	for (size_t i = 0; i < 6; i++) {
		/* seen, but it cannot be placed */
		ck_near("|v| mm", fabs(a.reading[i].residual_m * 1000), fabs(v_mm[i]), 0.1);
		ck_near("sign", copysign(1, a.reading[i].residual_m), copysign(1, v_mm[i]), 0);
		ck_near("w", fabs(a.reading[i].w) / a.sigma0, 1, 2e-3);
		ck_assert_int_ne(a.reading[i].verdict, RT_READING_BLUNDER);
	}
	ck_near("side", a.reading[0].residual_m * 1000, 7.9088, 0.6e-4);
	ck_near("long side", a.reading[1].residual_m * 1000, 23.7265, 0.6e-4);
	ck_near("diagonals", -(a.reading[4].residual_m + a.reading[5].residual_m) * 1000,
		25.0296 + 24.9901, 1.2e-4);
	ck_assert_int_eq(a.end, RT_SEARCH_TIED);
	rt_adjustment_free(&a);
}
END_TEST

START_TEST(rectangle_hidden)
{
	struct rt_adjustment a = {0};

	rectangle(&a, 40, 80, 0, 0.01);
	ck_near("short", a.reading[0].hidden_m / 0.01, 18.48, 0.6e-2);
	ck_near("long", a.reading[1].hidden_m / 0.01, 9.24, 0.6e-2);
	ck_near("diagonal", a.reading[4].hidden_m / 0.01, 8.26, 0.6e-2);
	rt_adjustment_free(&a);
}
END_TEST

/* ---- A. Pope, The statistics of residuals and the detection of outliers (1976) ---- */

START_TEST(tau)
{
	static const size_t f[] = {2, 3, 5, 10, 20, 100};
	static const double five[] = {1.4099, 1.6454, 1.8143, 1.9039, 1.9358, 1.9557};
	static const double tenth[] = {1.4142, 1.7303, 2.1781, 2.6786, 2.9749, 3.2263};

	for (size_t i = 0; i < COUNT(f); i++) {
		ck_near("tau .05", rt__tau_critical(0.05, f[i]), five[i], 0.6e-4);
		ck_near("tau .001", rt__tau_critical(0.001, f[i]), tenth[i], 0.6e-4);
	}
	/* W. Baarda, A testing procedure for use in geodetic networks (1968); from memory */
	ck_near("w", RT_W_CRITICAL, 3.29053, 0.6e-5);
	ck_near("delta0", RT_W_HIDDEN, 4.13215, 0.6e-5);
}
END_TEST

/* ---- NIST Statistical Reference Datasets, nonlinear regression: DanWood ---- */

static const double danwood[][2] = {{2.138, 1.309}, {3.421, 1.471}, {3.597, 1.490},
				    {4.340, 1.565}, {4.882, 1.611}, {5.660, 1.680}};

static void danwood_model(const void *data, const double *b, double *residual, double *jacobian)
{
	(void)data;
	for (size_t i = 0; i < COUNT(danwood); i++) {
		double power = pow(danwood[i][1], b[1]);

		residual[i] = b[0] * power - danwood[i][0];
		if (!jacobian)
			continue;
		jacobian[2 * i] = power;
		jacobian[2 * i + 1] = b[0] * power * log(danwood[i][1]);
	}
}

START_TEST(nist_danwood)
{
	static const double starts[][2] = {{1, 5}, {.7, 4}};

	for (size_t i = 0; i < COUNT(starts); i++) {
		struct rt__problem p = {
			.rows = COUNT(danwood), .unknowns = 2, .model = danwood_model};
		double b[2] = {starts[i][0], starts[i][1]}, sum, c[4], s2;
		struct rt_error err = {0};

		ck_assert_msg(rt__solve(&p, b, &sum, &err) == RT_OK, "%s", err.text);
		ck_assert_int_eq(rt__covariance(&p, b, c, &err), RT_OK);
		s2 = sum / 4;
		ck_near("b1", b[0], .76886226176, 0.6e-11);
		ck_near("b2", b[1], 3.8604055871, 0.6e-10);
		ck_near("sum", sum, .0043173084083, 0.6e-13);
		ck_near("sd b1", sqrt(s2 * c[0]), .018281973860, 0.6e-12);
		ck_near("sd b2", sqrt(s2 * c[3]), .051726610913, 0.6e-12);
	}
}
END_TEST

/* ---- fit of one layout on another ---- */

/* S. Umeyama, Least-squares estimation of transformation parameters between two point patterns
 * (1991): the points; the rigid values are derived. */
START_TEST(umeyama_points)
{
	static const double p[] = {0, 0, 1, 0, 0, 2}, q[] = {0, 0, -1, 0, 0, 2};
	struct rt__placement t = rt__place(p, q, 3, NULL);

	ck_near("angle", atan2(t.sine, t.cosine) * 180 / M_PI, -33.690068, 0.6e-6);
	ck_near("shift x", t.shift_x, -.9804836, 0.6e-7);
	ck_near("shift y", t.shift_y, .2968665, 0.6e-7);
	ck_near("sum", t.sum, 1.8592650, 0.6e-7);
}
END_TEST

/* The points of SciPy's Procrustes test; the rigid values are derived. */
START_TEST(procrustes_points)
{
	static const double p[] = {2, 4, 2, 3, 2, 2, 3, 2.5}, q[] = {1, 3, 1, 2, 1, 1, 2, 1};
	struct rt__placement t = rt__place(p, q, 4, NULL);

	ck_near("angle", atan2(t.sine, t.cosine) * 180 / M_PI, -6.8427734, 0.6e-7);
	ck_near("shift x", t.shift_x, -1.3265154, 0.6e-7);
	ck_near("shift y", t.shift_y, -.8364442, 0.6e-7);
	ck_near("sum", t.sum, .1426608, 0.6e-7);
}
END_TEST

int ring_networks(void)
{
	Suite *suite = suite_create("ring against published examples");
	TCase *networks = tcase_create("networks"), *solver = tcase_create("least squares");
	TCase *fit = tcase_create("fit");

	tcase_add_test(networks, benning_8_2);
	tcase_add_test(networks, benning_8_8);
	tcase_add_test(networks, strang_borre_10_1);
	tcase_add_test(networks, strang_borre_12_4);
	tcase_add_test(networks, rectangle_redundancy);
	tcase_add_test(networks, rectangle_blunder);
	tcase_add_test(networks, rectangle_hidden);
	tcase_add_test(networks, tau);
	tcase_add_test(solver, nist_danwood);
	tcase_add_test(fit, umeyama_points);
	tcase_add_test(fit, procrustes_points);
	suite_add_tcase(suite, networks);
	suite_add_tcase(suite, solver);
	suite_add_tcase(suite, fit);
	return suite_run(suite);
}
