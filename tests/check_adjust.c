/* The ring room: adjustment of readings, pegs that are not fixed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

/* ---- readings as they would be ---- */

START_TEST(readings_of_each_kind)
{
	/* from A looking to B, C stands on the right; angles run clockwise */
	static const double a[2] = {0, 0}, b[2] = {0, 10}, c[2] = {3, 4};
	static const struct {
		enum rt_reading_kind kind;
		const double *from, *to, *at;
		double value;
	} rows[] = {
		{RT_READ_DISTANCE, a, c, NULL, 5},
		{RT_READ_OFFSET, a, b, c, 3},
		{RT_READ_OFFSET, b, a, c, -3},
		{RT_READ_ANGLE, b, c, a, 36.86989764584402},
		{RT_READ_ANGLE, c, b, a, 360 - 36.86989764584402},
		{RT_READ_X, NULL, NULL, c, 3},
		{RT_READ_Y, NULL, NULL, c, 4},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt__observed o = rt__observe(rows[i].kind, rows[i].from, rows[i].to,
						    rows[i].at);

		ck_near("reading", o.value, rows[i].value, 1e-12);
	}
}
END_TEST

START_TEST(derivatives_are_differences)
{
	static const enum rt_reading_kind kinds[] = {RT_READ_DISTANCE, RT_READ_OFFSET,
						     RT_READ_ANGLE, RT_READ_X, RT_READ_Y};
	const double h = 1e-5;

	for (size_t k = 0; k < COUNT(kinds); k++) {
		double place[6] = {1.5, -2, 30, 7, 12, 25}; /* from, to, at */
		struct rt__observed o = rt__observe(kinds[k], place, place + 2, place + 4);
		const double *by[] = {o.by_from, o.by_to, o.by_at};

		for (size_t i = 0; i < COUNT(place); i++) {
			double was = place[i], more, less;

			place[i] = was + h;
			more = rt__observe(kinds[k], place, place + 2, place + 4).value;
			place[i] = was - h;
			less = rt__observe(kinds[k], place, place + 2, place + 4).value;
			place[i] = was;
			ck_near("derivative", by[i / 2][i % 2], (more - less) / (2 * h), 1e-7);
		}
	}
}
END_TEST

/* An angle to the point that it is read at goes nowhere: it says nothing of that point. */
START_TEST(no_angle_to_the_point_itself)
{
	static const double here[] = {3, 4}, there[] = {3, 14};
	struct rt__observed to = rt__observe(RT_READ_ANGLE, there, here, here);
	struct rt__observed from = rt__observe(RT_READ_ANGLE, here, there, here);

	for (size_t i = 0; i < 2; i++) {
		ck_near("to", to.by_to[i], 0, 0);
		ck_near("from", from.by_from[i], 0, 0);
		ck_near("at", to.by_at[i], -to.by_from[i], 0);
	}
}
END_TEST

/* ---- adjustment ---- */

static void ck_same_readings(const struct rt_adjustment *a, const struct rt_adjustment *b,
			     double within)
{
	ck_assert_uint_eq(a->degrees_of_freedom, b->degrees_of_freedom);
	ck_near("sigma0", a->sigma0, b->sigma0, within);
	for (size_t i = 0; i < a->readings; i++) {
		ck_near("v", a->reading[i].residual_m, b->reading[i].residual_m, within);
		ck_near("r", a->reading[i].redundancy, b->reading[i].redundancy, within);
		ck_near("w", a->reading[i].w, b->reading[i].w, within * 1e3);
		ck_assert_int_eq(a->reading[i].verdict, b->reading[i].verdict);
	}
}

/* Residuals do not depend on where the network lies, how it is turned, or what is held. */
START_TEST(datum_does_not_matter)
{
	static const struct {
		double turn, shift, within;
		bool one_fixed;
	} rows[] = {{2.1, 0, 1e-9, false}, {0.3, 5e6, 1e-7, false}, {0, 0, 1e-9, true}};
	struct rt_adjustment plain = {0};
	struct field f;

	field_open(&f, 1);
	tape_around(&f);
	adjust_pegs(&plain, &f, 0, 0, false);
	ck_assert_uint_eq(plain.degrees_of_freedom, 52 - (2 * AROUND - 3));
	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_adjustment a = {0};

		adjust_pegs(&a, &f, rows[i].turn, rows[i].shift, rows[i].one_fixed);
		ck_same_readings(&a, &plain, rows[i].within);
		rt_adjustment_free(&a);
	}
	rt_adjustment_free(&plain);
	field_close(&f);
}
END_TEST

/* The free network stays where it started: no shift, no turn. */
START_TEST(free_network_keeps_its_place)
{
	struct rt_adjustment a = {0};
	struct field f;
	double x = 0, y = 0, turn = 0;

	field_open(&f, 1);
	tape_around(&f);
	adjust_pegs(&a, &f, 0, 0, false);
	for (size_t i = 0; i < AROUND; i++) {
		double dx = a.point[i].x_m - f.pegs.at[i].x_m;
		double dy = a.point[i].y_m - f.pegs.at[i].y_m;

		x += dx;
		y += dy;
		turn += f.pegs.at[i].x_m * dy - f.pegs.at[i].y_m * dx;
	}
	ck_near("shift x", x, 0, 1e-9);
	ck_near("shift y", y, 0, 1e-9);
	ck_near("turn", turn / (40 * 40 * AROUND), 0, 1e-5);
	rt_adjustment_free(&a);
	field_close(&f);
}
END_TEST

START_TEST(order_and_direction_do_not_matter)
{
	struct rt_ring_check a = {0}, b = {0};
	struct field f;
	size_t n;

	field_open(&f, 1);
	move_peg(&f, "P", 0, -0.5);
	tape_around(&f);
	f.reading[20].value += 1;
	check_field(&a, &f, RT_FIT_FEWEST);
	n = f.readings.n;
	for (size_t i = 0; i < n / 2; i++) {
		struct rt_reading r = f.reading[i];

		f.reading[i] = f.reading[n - 1 - i];
		f.reading[n - 1 - i] = r;
	}
	for (size_t i = 0; i < n; i += 2) {
		const char *from = f.reading[i].from;

		f.reading[i].from = f.reading[i].to;
		f.reading[i].to = from;
	}
	check_field(&b, &f, RT_FIT_FEWEST);
	for (size_t i = 0; i < a.pegs; i++) {
		ck_near("dx", b.peg[i].dx_m, a.peg[i].dx_m, 1e-10);
		ck_near("dy", b.peg[i].dy_m, a.peg[i].dy_m, 1e-10);
		ck_near("se", b.peg[i].se_m, a.peg[i].se_m, 1e-10);
	}
	for (size_t i = 0; i < n; i++)
		ck_assert_int_eq(a.adjustment.reading[i].verdict,
				 b.adjustment.reading[n - 1 - i].verdict);
	rt_ring_check_free(&a);
	rt_ring_check_free(&b);
	field_close(&f);
}
END_TEST

static void free_problem(struct rt__network *net, const struct field *f)
{
	struct rt_point point[AROUND];
	struct rt_points points = {.at = point, .n = AROUND};

	for (size_t i = 0; i < AROUND; i++)
		point[i] = (struct rt_point){f->pegs.at[i].name, f->pegs.at[i].x_m,
					     f->pegs.at[i].y_m, false};
	ck_assert_int_eq(rt__network_build(net, &points, &f->readings, NULL), RT_OK);
}

/* Where the start is near, one linear step says what the whole adjustment does. */
START_TEST(one_step_from_near_is_enough)
{
	struct rt__network net = {0};
	double residual[60], sum;
	struct field f;

	field_open(&f, 1);
	tape_around(&f);
	free_problem(&net, &f);
	ck_assert_int_eq(rt__network_adjust(&net, NULL), RT_OK);
	ck_assert_uint_le(net.edges, COUNT(residual));
	sum = net.sum;
	for (size_t i = 0; i < net.edges; i++)
		residual[i] = rt__edge_residual(&net, &net.edge[i]) / net.edge[i].sigma;
	ck_assert_int_eq(rt__network_adjust_linear(&net, NULL), RT_OK);
	ck_near("sum", net.sum / sum, 1, 0.01);
	for (size_t i = 0; i < net.edges; i++)
		ck_near("residual", rt__edge_residual(&net, &net.edge[i]) / net.edge[i].sigma,
			residual[i], 0.01);
	rt__network_free(&net);
	field_close(&f);
}
END_TEST

/* Whichever pegs are the datum: it takes shifts and turns of them, which no distance between them
 * sees. */
START_TEST(no_distance_sees_the_datum)
{
	enum { N = 2 * AROUND };
	const bool of[AROUND] = {true, true, true, true};
	struct rt__network net = {0};
	double x[N], rows[3 * N];
	struct field f;

	field_open(&f, 0);
	tape_around(&f);
	free_problem(&net, &f);
	ck_assert_uint_eq(rt__network_problem(&net).datums, 3);
	rt__network_start(&net, x);
	rt__network_datum(&net, x, of, rows);
	for (size_t k = 0; k < 3; k++) {
		double length = 0;

		for (size_t i = 0; i < N; i++)
			length += rows[k * N + i] * rows[k * N + i];
		ck_near("length", length, 1, 1e-12);
		for (size_t i = 0; i < net.edges; i++) {
			const struct rt__edge *e = &net.edge[i];
			struct rt__row row = rt__edge_row(&net, e, x);
			double seen = 0;

			for (size_t j = 0; j < row.n; j++)
				seen += row.by[j] * rows[k * N + row.column[j]];
			if (of[e->from] && of[e->to])
				ck_near("seen", seen, 0, 1e-12);
		}
	}
	rt__network_free(&net);
	field_close(&f);
}
END_TEST

/* c = a b, all n x n. */
static void multiply(const double *a, const double *b, size_t n, double *c)
{
	for (size_t i = 0; i < n * n; i++) {
		c[i] = 0;
		for (size_t k = 0; k < n; k++)
			c[i] += a[i / n * n + k] * b[k * n + i % n];
	}
}

/* Of a free network: the covariance C is the pseudo-inverse of the normal matrix M, as R. Penrose
 * (1955) defines it: M C M = M, C M C = C, M C symmetric; and what is left has no part that the
 * unknowns could take away. */
START_TEST(free_network_by_definition)
{
	enum { N = 2 * AROUND, ROWS = 60 };
	static double j[ROWS * N], m[N * N], c[N * N], mc[N * N], back[N * N];
	struct rt__network net = {0};
	struct rt__problem p;
	double x[N], v[ROWS], sum, largest = 0;
	struct field f;

	field_open(&f, 1);
	move_peg(&f, "P", 0.3, -0.5);
	tape_around(&f);
	free_problem(&net, &f);
	p = rt__network_problem(&net);
	ck_assert_uint_le(p.rows, ROWS);
	ck_assert_uint_eq(p.datums, 3);
	rt__network_start(&net, x);
	ck_assert_int_eq(rt__solve(&p, x, &sum, NULL), RT_OK);
	ck_assert_int_eq(rt__covariance(&p, x, c, NULL), RT_OK);
	p.model(p.data, x, v, j);
	memset(m, 0, sizeof m);
	for (size_t r = 0; r < p.rows; r++) {
		double weight = 1 / (p.sigma[r] * p.sigma[r]);

		for (size_t i = 0; i < N * N; i++)
			m[i] += weight * j[r * N + i / N] * j[r * N + i % N];
		sum -= weight * v[r] * v[r];
	}
	ck_near("sum of squares", sum, 0, 1e-9);
	for (size_t i = 0; i < N; i++) {
		double gradient = 0;

		for (size_t r = 0; r < p.rows; r++)
			gradient += j[r * N + i] * v[r] / (p.sigma[r] * p.sigma[r]);
		largest = fmax(largest, m[i * N + i]);
		ck_near("gradient", gradient / largest, 0, 1e-12);
	}
	multiply(m, c, N, mc);
	for (size_t i = 0; i < N * N; i++)
		ck_near("M C symmetric", mc[i], mc[i % N * N + i / N], 1e-9);
	multiply(mc, m, N, back);
	for (size_t i = 0; i < N * N; i++)
		ck_near("M C M", back[i], m[i], 1e-9 * largest);
	multiply(c, mc, N, back);
	for (size_t i = 0; i < N * N; i++)
		ck_near("C M C", back[i], c[i], 1e-9 * c[0]);
	rt__network_free(&net);
	field_close(&f);
}
END_TEST

/* What follows from the definition: redundancy numbers add up to the degrees of freedom, and
 * those of a reading made twice are a half and more. */
START_TEST(redundancy_adds_up)
{
	struct rt_ring_check c = {0};
	struct field f;
	double sum = 0;

	field_open(&f, 1);
	tape_around(&f);
	tape_names(&f, "E", "B");
	tape_names(&f, "B", "E");
	check_field(&c, &f, RT_FIT_ALL);
	for (size_t i = 0; i < c.adjustment.readings; i++)
		sum += c.adjustment.reading[i].redundancy;
	ck_near("sum of r", sum, (double)c.adjustment.degrees_of_freedom, 1e-9);
	ck_assert(c.adjustment.reading[52].redundancy > 0.5);
	ck_near("r twice", c.adjustment.reading[52].redundancy, c.adjustment.reading[53].redundancy,
		1e-5);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Distances do not say left from right: the start does. */
START_TEST(no_mirror_image)
{
	struct rt_ring_check c = {0};
	struct field f;
	double area = 0;

	field_open(&f, 1);
	for (size_t i = 0; i < AROUND; i++)
		move_peg(&f, f.pegs.at[i].name, 3 * uniform(&f.seed), 3 * uniform(&f.seed));
	tape_around(&f);
	check_field(&c, &f, RT_FIT_ALL);
	for (size_t i = 0; i < AROUND; i++) {
		const struct rt_adjusted_point *p = &c.adjustment.point[i];
		const struct rt_adjusted_point *q = &c.adjustment.point[(i + 1) % AROUND];

		area += (p->x_m * q->y_m - q->x_m * p->y_m) / 2;
	}
	ck_assert_msg(area < -2800, "clockwise area %g", area);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

static void aborting_handler(const char *reason, const char *file, int line, int number)
{
	ck_abort_msg("%s:%d: %s (%d)", file, line, reason, number);
}

/* What is asked of GSL never reaches its handler, which belongs to the whole process. */
START_TEST(no_quantile_fails)
{
	gsl_error_handler_t *before = gsl_set_error_handler(aborting_handler);
	const double tail[] = {0.025, 0.975};

	for (size_t i = 0; i < COUNT(tail); i++) {
		double last = 0, gap = 0;

		for (size_t f = 1; f <= 4000; f++) {
			double value = rt__chi_square(tail[i], f);

			ck_assert_msg(value > last, "%zu: %g after %g", f, value, last);
			if (f > 900) /* 0.003 where one formula gives way to another */
				ck_assert_msg(fabs(value - last - gap) < 0.005, "%zu: %g", f,
					      value);
			gap = value - last;
			last = value;
		}
	}
	/* published to the digits here (Abramowitz and Stegun, 1964, table 26.8) */
	ck_assert_double_eq_tol(rt__chi_square(0.975, 10), 20.4831, 1e-4);
	ck_assert_double_eq_tol(rt__chi_square(0.025, 100), 74.2219, 1e-4);
	for (size_t f = 2; f < 100 * 1000 * 1000; f += f < 3000 ? 1 : f / 7) {
		for (double readings = (double)f; readings < 1e9; readings *= 20) {
			double alpha = 1 - pow(0.95, 1 / readings);

			ck_assert(isfinite(rt__tau_critical(alpha, f)));
		}
	}
	gsl_set_error_handler(before);
}
END_TEST

/* ---- input that is none ---- */

START_TEST(bad_input_is_refused)
{
	static const struct {
		const char *from, *to;
		double distance, sigma;
		enum rt_err e;
		const char *says;
	} rows[] = {
		{"P", "P", 5, NAN, RT_E_INPUT, "from a point to itself"},
		{"P", "Q", 0, NAN, RT_E_INPUT, "over 0"},
		{"P", "Q", -5, NAN, RT_E_INPUT, "over 0"},
		{"P", "Q", NAN, NAN, RT_E_INPUT, "over 0"},
		{"P", "Q", INFINITY, NAN, RT_E_INPUT, "over 0"},
		{"P", "Q", 5, 0, RT_E_INPUT, "over 0"},
		{"P", "Q", 5, INFINITY, RT_E_INPUT, "over 0"},
		{"P", "Peg7", 5, NAN, RT_E_NOTFOUND, "no point Peg7: did you mean \"Peg6\"?"},
		{"P", "Twin", 5, NAN, RT_E_INPUT, "start in one place"},
	};
	struct rt_point point[] = {{"P", 0, 0, false},
				   {"Q", 5, 0, false},
				   {"Peg6", 0, 5, false},
				   {"Twin", 0, 0, false}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_reading r = {.from = rows[i].from,
				       .to = rows[i].to,
				       .value = rows[i].distance,
				       .sigma = rows[i].sigma};
		struct rt_points points = {.at = point, .n = COUNT(point)};
		struct rt_readings readings = {.at = &r, .n = 1};
		struct rt_adjustment a = {0};
		struct rt_error err = {0};

		ck_assert_int_eq(rt_adjust(&a, &points, &readings, &err), rows[i].e);
		ck_has(err.text, rows[i].says);
		rt_adjustment_free(&a);
	}
}
END_TEST

START_TEST(bad_points_are_refused)
{
	static const struct {
		struct rt_point p, q;
		size_t readings;
		const char *says;
	} rows[] = {
		{{"P", 0, 0, false}, {"Q", 5, 0, false}, 0, "no readings"},
		{{"P", 0, NAN, false}, {"Q", 5, 0, false}, 1, "no coordinates"},
		{{"P", 0, 0, false}, {"P", 5, 0, false}, 1, "twice"},
		{{"P", 0, 0, true}, {"Q", 5, 0, true}, 1, "nothing to adjust"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_point point[] = {rows[i].p, rows[i].q};
		struct rt_reading r = {.from = "P", .to = "Q", .value = 5, .sigma = NAN};
		struct rt_points points = {.at = point, .n = 2};
		struct rt_readings readings = {.at = &r, .n = rows[i].readings};
		struct rt_adjustment a = {0};
		struct rt_error err = {0};

		ck_assert_int_eq(rt_adjust(&a, &points, &readings, &err), RT_E_INPUT);
		ck_has(err.text, rows[i].says);
		rt_adjustment_free(&a);
	}
}
END_TEST

START_TEST(ring_check_refuses)
{
	struct rt_ring_check c = {0};
	struct rt_error err = {0};
	struct field f;

	field_open(&f, 0);
	tape_names(&f, "K", "E")->to = "Z";
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_NOTFOUND);
	ck_has(err.text, "no peg Z");
	rt_ring_check_free(&c);
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0, RT_FIT_ALL, &err),
			 RT_E_INPUT);
	ck_has(err.text, "tolerance");
	rt_ring_check_free(&c);
	f.readings.n = 0;
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
			 RT_E_INPUT);
	ck_has(err.text, "no readings");
	rt_ring_check_free(&c);
	tape_names(&f, "K", "AK");
	ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_CORNERS, &err),
			 RT_E_INPUT);
	ck_has(err.text, "AK, HC, CM, FA");
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- pegs that are not fixed ---- */

START_TEST(loose_pegs_are_named)
{
	static const struct {
		const char *pairs;
		const char *says[3];
		const char *silent; /* what it must not speak of */
	} rows[] = {
		/* one reading */
		{RECTANGLE "K-FA", {"K (one reading only: tape it from", NULL, NULL}, "HC ("},
		/* along its own side only: nothing says how far out it stands */
		{RECTANGLE "K-AK K-HC",
		 {"K (its readings run along one line: tape it from", NULL, NULL},
		 "FA ("},
		/* two pegs that hold on to each other, and to nothing */
		{RECTANGLE "B-E",
		 {"no reading joins these groups: AK, HC, CM, FA and E, B; ", "E (", "B ("},
		 "AK ("},
		/* two pegs that hang on each other and on one corner each */
		{RECTANGLE "B-E E-AK B-FA",
		 {"FA, AK, E, B (four sides can lean: tape a diagonal, FA-E or AK-B)", NULL, NULL},
		 "one reading"},
		/* a side by itself */
		{"AK-K K-HC AK-HC", {"off that line", NULL, NULL}, NULL},
		/* four sides without a diagonal: nothing holds its shape */
		{"AK-HC HC-CM CM-FA FA-AK",
		 {"AK, HC, CM, FA (four sides can lean: tape a diagonal, AK-CM or HC-FA)", NULL,
		  NULL},
		 "one reading"},
		/* the same with a letter in every side, and more to be said */
		{"AK-HC HC-CM CM-FA FA-AK A-AK A-FA",
		 {"four sides can lean", "A (its readings run along one line: tape it from", NULL},
		 "no reading joins"},
		/* one peg on the line of its readings, though four pegs are taped all round */
		{RECTANGLE "F-AK F-HC B-AK B-HC P-F P-B",
		 {"P (its readings run along one line: tape it from", NULL, NULL},
		 "lean"},
		/* K hangs on pegs that are just held themselves, and on nothing that is loose */
		{"C-H C-L C-M C-V D-C D-L D-V D-X FA-A FA-H FA-L FA-V G-C G-H L-A L-K M-V M-X P-C "
		 "P-FA P-H P-K V-H X-H X-V",
		 {"K (its readings are too weak: tape it from", NULL, NULL},
		 "once the others are"},
		/* three pairs */
		{"A-C AK-FA HC-CM",
		 {"no reading joins these groups: A, C and AK, FA and HC, CM; ", "tape it from",
		  NULL},
		 "lean"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_error err = {0};
		struct field f;

		field_open(&f, 0);
		tape_list(&f, rows[i].pairs);
		ck_assert_int_eq(rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err),
				 RT_E_NOFIX);
		for (size_t k = 0; k < 3 && rows[i].says[k]; k++)
			ck_has(err.text, rows[i].says[k]);
		if (rows[i].silent)
			ck_assert_msg(!strstr(err.text, rows[i].silent), "%s", err.text);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* The first reading that is asked for. */
static bool read_cure(const char *text, char peg[16], char from[16])
{
	const char *diagonal = strstr(text, "tape a diagonal, ");
	const char *groups = strstr(text, "groups: ");

	if (diagonal)
		return sscanf(diagonal, "tape a diagonal, %15[A-Z]-%15[A-Z]", peg, from) == 2;
	text = groups ? strstr(groups, "; ") : strstr(text, ": ");
	return text && sscanf(text + 2, "%15[A-Z] (%*[^:]: tape it from %15[A-Z]", peg, from) == 2;
}

/* The readings that are asked for do fix the peg. */
START_TEST(the_cure_cures)
{
	static const char *const rows[] = {RECTANGLE "K-FA", RECTANGLE "K-AK K-HC", RECTANGLE "V-K",
					   "AK-HC HC-CM CM-FA FA-AK",
					   "AK-HC HC-CM CM-FA FA-AK A-AK A-FA"};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_error err = {0};
		enum rt_err e;
		struct field f;
		int rounds = 0;

		field_open(&f, 0);
		tape_list(&f, rows[i]);
		while ((e = rt_ring_check(&c, &kind_40x80, &f.readings, 0.1, RT_FIT_ALL, &err)) ==
		       RT_E_NOFIX) {
			char peg[16], from[16];

			ck_assert_msg(++rounds < 6, "%s", err.text);
			ck_assert_msg(read_cure(err.text, peg, from), "%s", err.text);
			tape_names(&f, peg, from);
			rt_ring_check_free(&c);
		}
		ck_assert_msg(e == RT_OK, "%s", err.text);
		ck_assert_int_ge(rounds, 1);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* A point 0.4 m beside a line that it is taped from could stand on the other side of it. */
START_TEST(mirror_places_are_told)
{
	static const struct {
		double off;
		double third; /* sigma of a reading from elsewhere; 0: none */
		enum rt_err e;
	} rows[] = {
		{0.4, 0, RT_E_NOFIX}, {0.6, 0, RT_OK}, {0.4, 0.002, RT_OK}, {0.4, 0.3, RT_E_NOFIX}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_point point[] = {{"P", 0, 0, true},
					   {"Q", 4, 0, true},
					   {"R", 2, 5, true},
					   {"N", 2, 0, false}};
		struct rt_reading reading[] = {
			{.from = "P", .to = "N", .value = hypot(2, rows[i].off), .sigma = .002},
			{.from = "Q", .to = "N", .value = hypot(2, rows[i].off), .sigma = .002},
			{.from = "R", .to = "N", .value = 5 - rows[i].off, .sigma = rows[i].third}};
		struct rt_points points = {.at = point, .n = 4};
		struct rt_readings readings = {.at = reading, .n = rows[i].third > 0 ? 3 : 2};
		struct rt_adjustment a = {0};
		struct rt_error err = {0};

		point[3].y_m = rows[i].off;
		ck_assert_int_eq(rt_adjust(&a, &points, &readings, &err), rows[i].e);
		if (rows[i].e)
			ck_has(err.text, "N (its readings fit two places less than 1 m apart");
		rt_adjustment_free(&a);
	}
}
END_TEST

/* Readings that only just reach each other pull a peg onto the line between two others: fixed
 * where it starts, not where it comes to. */
START_TEST(pulled_onto_a_line)
{
	struct rt_point point[] = {
		{"P", 0, 0, true}, {"Q", 79.501, 0, true}, {"N", 9.75, 0.9, false}};
	struct rt_reading reading[] = {{.from = "P", .to = "N", .value = 9.7514, .sigma = .005},
				       {.from = "Q", .to = "N", .value = 69.7452, .sigma = .005}};
	struct rt_points points = {.at = point, .n = 3};
	struct rt_readings readings = {.at = reading, .n = 2};
	struct rt_adjustment a = {0};
	struct rt_error err = {0};

	ck_assert_int_eq(rt_adjust(&a, &points, &readings, &err), RT_E_NOFIX);
	ck_has(err.text, "N (");
	rt_adjustment_free(&a);
}
END_TEST

int check_adjust(void)
{
	const TTest *observed[] = {readings_of_each_kind, derivatives_are_differences,
				   no_angle_to_the_point_itself};
	const TTest *adjustment[] = {datum_does_not_matter,
				     free_network_keeps_its_place,
				     order_and_direction_do_not_matter,
				     one_step_from_near_is_enough,
				     no_distance_sees_the_datum,
				     free_network_by_definition,
				     redundancy_adds_up,
				     no_mirror_image,
				     no_quantile_fails,
				     bad_input_is_refused,
				     bad_points_are_refused,
				     ring_check_refuses};
	const TTest *fixed[] = {loose_pegs_are_named, the_cure_cures, mirror_places_are_told,
				pulled_onto_a_line};
	Suite *suite = suite_create("adjustment");

	suite_case(suite, "readings", observed, COUNT(observed));
	suite_case(suite, "adjustment", adjustment, COUNT(adjustment));
	suite_case(suite, "fixed", fixed, COUNT(fixed));
	return suite_run(suite);
}
