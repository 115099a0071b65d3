/* The ring room: kinds and pegs, fit, verdicts and moves, setting out, reports.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

/* ---- kinds ---- */

START_TEST(words_read_back)
{
	int d;
	enum rt_side s;
	enum rt_fit fit;

	ck_assert(rt_word_read(&rt_words_of_discipline, "driven", &d) && d == RT_DRIVEN);
	ck_assert_str_eq(rt_discipline_words(RT_RIDDEN), "ridden");
	ck_assert(rt_word_read(&rt_words_of_discipline, "Driven", &d) && d == RT_DRIVEN);
	ck_assert(!rt_word_read(&rt_words_of_discipline, "drive", &d));
	for (enum rt_side i = RT_LEFT; i <= RT_CENTRE; i++)
		ck_assert(rt_side_read(rt_side_words(i), &s) && s == i);
	ck_assert(!rt_side_read("", &s));
	for (enum rt_fit i = RT_FIT_FEWEST; i <= RT_FIT_CORNERS; i++)
		ck_assert(rt_fit_read(rt_fit_words(i), &fit) && fit == i);
	ck_assert(!rt_fit_read("most", &fit));
	ck_assert_str_eq(rt_reading_verdict_words(RT_READING_UNCHECKED), "unchecked");
	ck_assert_str_eq(rt_peg_verdict_words(RT_PEG_UNSURE), "unsure");
	ck_assert_str_eq(rt_ring_verdict_words(RT_RING_DOUBT), "readings in doubt");
	ck_assert_str_eq(rt_sigma_test_words(RT_SIGMA_FAILED), "failed");
	ck_assert_str_ne(rt_search_end_words(RT_SEARCH_TIED), "");
}
END_TEST

START_TEST(pegs_clockwise_from_a)
{
	static const char *const order = "A AK K V E S H HC C CM M R B P F FA D L X I G";
	struct rt_pegs pegs = {0};
	char names[128] = "";
	size_t used = 0;

	ck_assert_int_eq(rt_ring_pegs(&pegs, &kind_40x80, NULL), RT_OK);
	for (size_t i = 0; i < pegs.n; i++)
		used += (size_t)snprintf(names + used, sizeof names - used, "%s%s", i ? " " : "",
					 pegs.at[i].name);
	ck_assert_str_eq(names, order);
	rt_pegs_free(&pegs);
}
END_TEST

START_TEST(pegs_stand_where_they_should)
{
	static const struct {
		const char *name;
		double x, y, along;
		enum rt_side side;
		bool corner;
	} rows[] = {
		{"A", 0, -40, 20, RT_SIDE_A, false}, {"C", 0, 40, 20, RT_SIDE_C, false},
		{"K", -20, -30, 10, RT_LEFT, false}, {"F", 20, -30, 10, RT_RIGHT, false},
		{"M", 20, 30, 70, RT_RIGHT, false},  {"X", 0, 0, 40, RT_CENTRE, false},
		{"G", 0, 30, 70, RT_CENTRE, false},  {"AK", -20, -40, 0, RT_LEFT, true},
		{"HC", -20, 40, 80, RT_LEFT, true},  {"CM", 20, 40, 80, RT_RIGHT, true},
		{"FA", 20, -40, 0, RT_RIGHT, true},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_peg p;

		ck_assert_int_eq(rt_ring_peg(&p, &kind_40x80, rows[i].name, NULL), RT_OK);
		ck_near(rows[i].name, p.x_m, rows[i].x, 0);
		ck_near(rows[i].name, p.y_m, rows[i].y, 0);
		ck_near(rows[i].name, p.along_m, rows[i].along, 0);
		ck_assert_int_eq(p.side, rows[i].side);
		ck_assert(p.corner == rows[i].corner);
	}
}
END_TEST

/* On the short sides too, a metre from them. */
START_TEST(letters_near_corners_come_after_them)
{
	struct rt_letter letter[] = {{"R", RT_SIDE_C, 9}, {"L", RT_SIDE_C, 1}, {"N", RT_SIDE_A, 9},
				     {"J", RT_SIDE_A, 1}, {"A", RT_SIDE_A, 5}};
	static const char *const order[] = {"A", "J", "AK", "HC", "L", "R", "CM", "FA", "N"};
	const struct rt_ring_kind kind = {
		.width_m = 10, .length_m = 40, .letters = {.at = letter, .n = COUNT(letter)}};
	struct rt_pegs pegs = {0};

	ck_assert_int_eq(rt_ring_pegs(&pegs, &kind, NULL), RT_OK);
	ck_assert_uint_eq(pegs.n, COUNT(order));
	for (size_t i = 0; i < pegs.n; i++)
		ck_assert_str_eq(pegs.at[i].name, order[i]);
	rt_pegs_free(&pegs);
}
END_TEST

START_TEST(letters_of_a_kind_are_known)
{
	struct rt_ring_kind kind = kind_40x80;

	for (size_t i = 0; i < kind.letters.n; i++)
		ck_assert(rt_ring_has_letter(&kind, kind.letters.at[i].name));
	ck_assert(!rt_ring_has_letter(&kind, "AK"));
	ck_assert(!rt_ring_has_letter(&kind, "Q"));
	kind.letters.n--;
	ck_assert(!rt_ring_has_letter(&kind, kind.letters.at[kind.letters.n].name));
}
END_TEST

START_TEST(unknown_names_are_helped)
{
	struct rt_ring_kind list[2] = {kind_40x80, kind_40x80};
	struct rt_ring_kinds kinds = {.at = list, .n = 2};
	const struct rt_ring_kind *kind;
	struct rt_error err = {0};
	struct rt_peg p;

	list[1].name = "ridden-20x60";
	ck_assert_ptr_eq(rt_ring_kind_find(&kinds, "ridden-20x60"), &list[1]);
	ck_assert_ptr_null(rt_ring_kind_find(&kinds, "ridden"));
	ck_assert_int_eq(rt_ring_kind_named(&kind, &kinds, "driven-40x80", &err), RT_OK);
	ck_assert_ptr_eq(kind, &list[0]);
	ck_assert_int_eq(rt_ring_kind_named(&kind, &kinds, "drivn-40x80", &err), RT_E_NOTFOUND);
	ck_has(err.text, "did you mean \"driven-40x80\"?");
	ck_assert_int_eq(rt_ring_kind_named(&kind, &kinds, "square", &err), RT_E_NOTFOUND);
	ck_has(err.text, "driven-40x80, ridden-20x60");
	ck_assert_int_eq(rt_ring_peg(&p, &kind_40x80, "KA", &err), RT_E_NOTFOUND);
	ck_has(err.text, "no peg KA: A, AK");
	ck_assert_int_eq(rt_ring_peg(&p, &kind_40x80, "Q", &err), RT_E_NOTFOUND);
	ck_has(err.text, "A, AK, K, V, E");
}
END_TEST

START_TEST(kinds_are_judged)
{
	static const struct {
		double width, length;
		const char *column; /* NULL: accepted */
	} sizes[] = {{20, 40, NULL},	   {40, 40, NULL},	 {4, 40, "width_m"},
		     {NAN, 40, "width_m"}, {40, 20, "length_m"}, {40, INFINITY, "length_m"}};

	for (size_t i = 0; i < COUNT(sizes); i++) {
		struct rt_ring_kind kind = {.width_m = sizes[i].width, .length_m = sizes[i].length};
		struct rt_error err = {0};
		enum rt_err e = rt_ring_size_check(&kind, &err);

		ck_assert_int_eq(e, sizes[i].column ? RT_E_INPUT : RT_OK);
		if (sizes[i].column)
			ck_assert_str_eq(err.column, sizes[i].column);
	}
}
END_TEST

START_TEST(letters_are_judged)
{
	static const struct {
		struct rt_letter letter;
		const char *column, *says; /* NULL: accepted */
	} rows[] = {
		{{"K", RT_LEFT, 6}, NULL, NULL},
		{{"", RT_LEFT, 6}, "peg", "without a name"},
		{{"HC", RT_LEFT, 6}, "peg", "corner"},
		{{"E", RT_RIGHT, 6}, "peg", "twice"},
		{{"K", RT_LEFT, 0}, "offset_m", "inside its side"},
		{{"K", RT_LEFT, 40}, "offset_m", "under 40.00 m"},
		{{"K", RT_LEFT, 1e-6}, "offset_m", "inside its side"}, /* in the corner */
		{{"K", RT_LEFT, 40 - 1e-6}, "offset_m", "inside its side"},
		{{"K", RT_LEFT, 0.01}, NULL, NULL},
		{{"K", RT_LEFT, 39.99}, NULL, NULL},
		{{"S", RT_RIGHT, 6}, "peg", "twice"},
		{{"K", RT_LEFT, 30}, "offset_m", "stands where S does"},
		{{"K", RT_SIDE_A, 20}, "offset_m", "under 20.00 m"},
		{{"K", RT_CENTRE, NAN}, "offset_m", "inside its side"},
		{{"K", RT_LEFT, 20}, "offset_m", "stands where E does"},
		{{"K", RT_RIGHT, 20}, NULL, NULL},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_letter letter[] = {
			{"E", RT_LEFT, 20}, {"S", RT_LEFT, 30}, rows[i].letter};
		struct rt_ring_kind kind = {
			.width_m = 20, .length_m = 40, .letters = {.at = letter, .n = 3}};
		struct rt_error err = {0};

		ck_assert_int_eq(rt_ring_letter_check(&kind, 0, &err), RT_OK);
		ck_assert_int_eq(rt_ring_letter_check(&kind, 1, &err), RT_OK);
		ck_assert_int_eq(rt_ring_letter_check(&kind, 2, &err),
				 rows[i].column ? RT_E_INPUT : RT_OK);
		if (!rows[i].column)
			continue;
		ck_assert_str_eq(err.column, rows[i].column);
		ck_has(err.text, rows[i].says);
	}
}
END_TEST

/* Of a file of kinds: both ends of each range, and a hundredth past them. */
START_TEST(sizes_and_places_keep_inside_their_ranges)
{
	static const struct {
		const char *field, *under, *low, *high, *over;
	} rows[] = {{"width_m", "4.99", "5", "500", "500.01"},
		    {"length_m", "4.99", "5", "500", "500.01"},
		    {"offset_m", "-0.01", "0", "500", "500.01"}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		const struct rt_field *f = rt_record_field(&rt_ring_row_record, rows[i].field);
		struct rt_ring_row row;

		ck_assert_int_eq(rt_field_read(f, &row, rows[i].under, NULL, NULL), RT_E_INPUT);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].low, NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].high, NULL, NULL), RT_OK);
		ck_assert_int_eq(rt_field_read(f, &row, rows[i].over, NULL, NULL), RT_E_INPUT);
	}
}
END_TEST

/* ---- fit ---- */

static bool own_placement_keeps(const double *p, const double *q, size_t n, const bool *in,
				double tolerance, double *sum)
{
	struct rt__placement t = rt__place(p, q, n, in);
	double off[2];

	*sum = t.sum;
	for (size_t i = 0; i < n; i++) {
		rt__offset(&t, p, q, i, off);
		if (in[i] && hypot(off[0], off[1]) > tolerance)
			return false;
	}
	return true;
}

/* Every subset tried. */
static size_t fewest_by_force(const double *p, const double *q, size_t n, double tolerance,
			      double *best)
{
	size_t most = 0;

	for (unsigned set = 1; set < 1u << n; set++) {
		bool in[16] = {0};
		size_t count = 0;
		double sum;

		for (size_t i = 0; i < n; i++) {
			in[i] = set >> i & 1;
			count += in[i];
		}
		if (count < 2 || count < most || !own_placement_keeps(p, q, n, in, tolerance, &sum))
			continue;
		if (count > most || sum < *best)
			*best = sum;
		most = count;
	}
	return most;
}

START_TEST(fewest_is_exact)
{
	enum { N = 9 };
	uint64_t seed = 11;

	for (int round = 0; round < 60; round++) {
		double p[2 * N], q[2 * N], tolerance = 0.1, spread = 0.05 + 0.004 * round, best = 0,
					   sum;
		bool in[N];
		size_t size, most, count = 0;

		for (size_t i = 0; i < 2 * N; i++) {
			p[i] = 40 * uniform(&seed);
			q[i] = p[i] + spread * normal(&seed);
		}
		most = fewest_by_force(p, q, N, tolerance, &best);
		ck_assert_int_eq(rt__fewest(p, q, N, tolerance, in, &size, NULL), RT_OK);
		for (size_t i = 0; i < N; i++)
			count += in[i];
		ck_assert_uint_eq(size, most);
		ck_assert_uint_eq(count, most);
		ck_assert(own_placement_keeps(p, q, N, in, tolerance * (1 + 1e-8), &sum));
		ck_near("sum", sum, best, 1e-9);
	}
}
END_TEST

/* A layout with nothing right about it: the exact search gives up, the answer still agrees. */
START_TEST(fewest_in_a_hopeless_layout)
{
	enum { N = 60 };
	double p[2 * N], q[2 * N], sum;
	uint64_t seed = 5;
	bool in[N];
	size_t size, count = 0;

	for (size_t i = 0; i < 2 * N; i++) {
		p[i] = 80 * uniform(&seed);
		q[i] = p[i] + 0.11 * normal(&seed);
	}
	ck_assert_int_eq(rt__fewest(p, q, N, 0.1, in, &size, NULL), RT_OK);
	ck_assert_uint_ge(size, 15);
	for (size_t i = 0; i < N; i++)
		count += in[i];
	ck_assert_uint_eq(count, size);
	ck_assert(own_placement_keeps(p, q, N, in, 0.1 * (1 + 1e-8), &sum));
}
END_TEST

START_TEST(fewest_where_none_agree)
{
	static const double p[] = {0, 0, 10, 0, 0, 20}, q[] = {0, 0, 15, 0, 0, 50};
	bool in[3];
	size_t size;

	ck_assert_int_eq(rt__fewest(p, q, 3, 0.1, in, &size, NULL), RT_OK);
	ck_assert_uint_eq(size, 0);
}
END_TEST

/* The three fits differ in whom they trust. */
START_TEST(fits_differ)
{
	static const struct {
		enum rt_fit fit;
		double corner, peg; /* offsets of AK and E, m, at least */
		double corner_most, peg_most;
	} rows[] = {{RT_FIT_FEWEST, 0.39, 0, 0.41, 1e-6},
		    {RT_FIT_ALL, 0.30, 1e-3, 0.39, 0.06},
		    {RT_FIT_CORNERS, 0.15, 0.05, 0.35, 0.2}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct field f;

		field_open(&f, 0);
		move_peg(&f, "AK", -0.4, 0);
		tape_all(&f);
		check_field(&c, &f, rows[i].fit);
		ck_assert(checked(&c, "AK")->off_m >= rows[i].corner);
		ck_assert(checked(&c, "AK")->off_m <= rows[i].corner_most);
		ck_assert(checked(&c, "E")->off_m >= rows[i].peg);
		ck_assert(checked(&c, "E")->off_m <= rows[i].peg_most);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* With every peg in the fit its datum is the adjustment's own: so are the standard errors. */
START_TEST(errors_follow_the_fit)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0.5);
	tape_around(&f);
	check_field(&c, &f, RT_FIT_ALL);
	for (size_t i = 0; i < c.pegs; i++) {
		const double *v = c.adjustment.covariance_m2 + (2 * i) * (2 * c.pegs) + 2 * i;
		double xx = v[0], xy = v[1], yy = v[2 * c.pegs + 1];

		ck_near("se", c.peg[i].se_m, sqrt((xx + yy) / 2 + hypot((xx - yy) / 2, xy)), 1e-9);
	}
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- verdict and move ---- */

START_TEST(moves_in_words)
{
	static const struct {
		const char *peg;
		double dx, dy; /* where it stands less where it should */
		const char *move;
	} rows[] = {
		{"P", 0, -0.53, "0.53 m towards B"},
		{"P", -0.04, -0.53, "0.53 m towards B and 0.04 m out"},
		{"P", 0.30, 0.20, "0.20 m towards F and 0.30 m in"},
		{"E", -0.30, 0, "0.30 m in"},
		{"H", 0, -0.40, "0.40 m towards HC"},
		{"A", 0.25, 0, "0.25 m towards AK"},
		{"A", 0, -0.25, "0.25 m in"},
		{"C", -0.20, -0.20, "0.20 m towards CM and 0.20 m out"},
		{"AK", 0, 0.30, "0.30 m away from K"},
		{"AK", 0.15, -0.30, "0.30 m towards K and 0.15 m away from A"},
		{"CM", 0.20, 0, "0.20 m towards C"},
		{"X", 0.20, 0, "0.20 m towards E"},
		{"X", 0, 0.20, "0.20 m towards L"},
		{"G", 0, -0.50, "0.50 m towards C"},
		{"B", 0.01, 0.30, "0.30 m towards P"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		const struct rt_checked_peg *p;
		char move[160];
		struct field f;

		field_open(&f, 0);
		move_peg(&f, rows[i].peg, rows[i].dx, rows[i].dy);
		tape_all(&f);
		check_field(&c, &f, RT_FIT_FEWEST);
		p = checked(&c, rows[i].peg);
		ck_near(rows[i].peg, p->dx_m, rows[i].dx, 1e-9);
		ck_near(rows[i].peg, p->dy_m, rows[i].dy, 1e-9);
		ck_near(rows[i].peg, p->off_m, hypot(rows[i].dx, rows[i].dy), 1e-9);
		ck_near(rows[i].peg, hypot(p->along_off_m, p->across_off_m), p->off_m, 1e-12);
		ck_assert_int_eq(p->verdict, RT_PEG_MOVE);
		rt_peg_move_words(p, false, move, sizeof move);
		ck_assert_str_eq(move, rows[i].move);
		ck_assert(!p->in_fit);
		ck_assert_uint_eq(c.to_move, 1);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

START_TEST(near_the_tolerance_is_unsure)
{
	static const struct {
		double dy;
		enum rt_peg_verdict verdict;
	} rows[] = {{0.02, RT_PEG_GOOD},
		    {0.096, RT_PEG_UNSURE},
		    {0.104, RT_PEG_UNSURE},
		    {0.20, RT_PEG_MOVE}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		const struct rt_checked_peg *p;
		char move[160];
		struct field f;

		field_open(&f, 0);
		move_peg(&f, "B", 0, rows[i].dy);
		tape_all(&f);
		check_field(&c, &f, RT_FIT_FEWEST);
		p = checked(&c, "B");
		ck_assert_msg(p->verdict == rows[i].verdict, "%g: %s", rows[i].dy,
			      rt_peg_verdict_words(p->verdict));
		rt_peg_move_words(p, false, move, sizeof move);
		ck_assert((p->moves == 0) == (p->verdict == RT_PEG_GOOD));
		ck_assert((*move == '\0') == (p->moves == 0));
		if (p->verdict == RT_PEG_UNSURE) {
			ck_has(move, "perhaps 0.");
			ck_assert_int_eq(c.verdict, RT_RING_UNSURE);
		}
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

START_TEST(unmeasured_pegs_are_said)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;
	bool said = false;

	field_open(&f, 0.5);
	tape_crew(&f);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.pegs, 12);
	ck_assert_uint_eq(c.unmeasured.n, 9);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	for (size_t i = 0; i < r.notes; i++)
		said |= strcmp(r.note[i],
			       "Not measured, so not checked: V, S, R, P, D, L, X, I, G.") == 0;
	ck_assert(said);
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A move of less than a centimetre is none, though the peg may be unsure. */
START_TEST(no_move_under_a_centimetre)
{
	struct rt_ring_check c = {0};
	struct field f;
	size_t none = 0;

	field_open(&f, 0);
	tape_fifty(&f);
	for (size_t i = 0; i < f.readings.n; i++)
		f.reading[i].sigma = 0.1; /* so poor that every peg is unsure */
	check_field(&c, &f, RT_FIT_FEWEST);
	for (size_t i = 0; i < c.pegs; i++) {
		ck_assert_int_eq(c.peg[i].verdict, RT_PEG_UNSURE);
		none += c.peg[i].moves == 0;
	}
	ck_assert_uint_eq(none, c.pegs);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(moves_in_feet)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;
	char move[160];

	field_open(&f, 0);
	move_peg(&f, "P", -0.04, -0.53);
	tape_fifty(&f);
	misread(&f, "C", "S", 1);
	check_field(&c, &f, RT_FIT_FEWEST);
	rt_peg_move_words(checked(&c, "P"), true, move, sizeof move);
	ck_assert_str_eq(move, "1 ft 8.9 in towards B and 0 ft 1.6 in out");
	ck_assert_int_eq(rt_ring_check_report(&r, &c, true, NULL), RT_OK);
	ck_has(r.note[0], "P is 1 ft 8.9 in off: move it 1 ft 8.9 in towards B and");
	ck_has(r.note[2], "C-S was set aside: it says 108 ft 4 in, the others 105 ft 0 in, so it "
			  "is 3 ft 3.4 in too long.");
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Distances that are all wrong by one part, with a peg off or without; and a ring with as many
 * pegs off, but not so. */
START_TEST(stretched_tapes)
{
	static const struct {
		double longer;
		const char *off; /* a peg half a metre off; NULL: none */
		const char *note;
	} rows[] = {
		{0.010, NULL,
		 "All distances are 0.99 % long (+- 0.01 %): a tape that is too short"},
		{-0.005, NULL, "All distances are 0.51 % short (+- 0.01 %): a stretched tape"},
		{0.008, "B", "All distances are 0.79 % long"},
		{0.001, NULL, NULL}, /* within tolerance everywhere */
		{0, "B", NULL},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_check c = {0};
		struct rt_report r = {0};
		struct field f;

		field_open(&f, 0.7);
		if (rows[i].off)
			move_peg(&f, rows[i].off, 0, 0.5);
		tape_fifty(&f);
		for (size_t k = 0; k < f.readings.n; k++)
			f.reading[k].value *= 1 + rows[i].longer;
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert((c.stretch != 0) == (rows[i].note != NULL));
		ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
		if (rows[i].note) {
			ck_near("stretch", c.stretch, rows[i].longer, 1e-3);
			ck_has(r.note[0], rows[i].note);
		}
		rt_report_free(&r);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

START_TEST(moved_pegs_are_no_stretch)
{
	static const char *const pegs[] = {"AK", "CM", "E", "M", "P"};
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0.7);
	for (size_t i = 0; i < COUNT(pegs); i++)
		move_peg(&f, pegs[i], i % 2 ? 0.3 : -0.2, i % 3 ? 0.2 : 0.4);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_uint_eq(c.to_move, COUNT(pegs));
	ck_near("stretch", c.stretch, 0, 0);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(tolerances)
{
	ck_near("driven", rt_ring_tolerance(RT_DRIVEN), 0.10, 0);
	ck_near("ridden", rt_ring_tolerance(RT_RIDDEN), 0.05, 0);
}
END_TEST

/* ---- setting out ---- */

static const struct rt_table *table_of(const struct rt_report *r, const char *name)
{
	for (size_t i = 0; i < r->tables; i++) {
		if (strcmp(r->table[i]->name, name) == 0)
			return r->table[i];
	}
	ck_abort_msg("no table %s", name);
	return NULL;
}

/* The row of the report's distances from and to the points told so. */
static size_t setout_row(const struct rt_table *t, const char *from, const char *to)
{
	for (size_t i = 0; i < rt_table_rows(t); i++) {
		if (strcmp(rt_table_cell(t, i, 0)->as.text, from) == 0 &&
		    strcmp(rt_table_cell(t, i, 1)->as.text, to) == 0)
			return i;
	}
	ck_abort_msg("no distance %s to %s", from, to);
	return 0;
}

START_TEST(setout_of_40x80)
{
	static const struct {
		const char *from, *to;
		double distance;
		const char *what;
	} rows[] = {
		{"AK", "K", 10, "along the left side"},
		{"AK", "HC", 80, "along the left side"},
		{"FA", "P", 25, "along the right side"},
		{"AK", "A", 20, "along the A side"},
		{"AK", "FA", 40, "along the A side"},
		{"HC", "CM", 40, "along the C side"},
		{"A", "X", 40, "along the centreline"},
		{"AK", "CM", 89.442719, "diagonal"},
		{"FA", "HC", 89.442719, "diagonal"},
		/* K stands at 10 m, so that "20 m from AK to K" would mislead */
		{"15 m from AK towards FA", "20 m from AK towards HC", 25, "right angle at AK"},
		{"15 m from CM towards HC", "20 m from CM towards FA", 25, "right angle at CM"},
	};
	struct rt_ring_setout s = {0};
	const struct rt_table *t;
	struct rt_report r = {0};

	ck_assert_int_eq(rt_ring_setout(&s, &kind_40x80, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_setout_report(&r, &s, false, NULL), RT_OK);
	t = table_of(&r, "checks");
	for (size_t i = 0; i < COUNT(rows); i++) {
		size_t row = setout_row(t, rows[i].from, rows[i].to);

		ck_near(rows[i].to, rt_table_cell(t, row, 2)->as.real, rows[i].distance, 1e-6);
		ck_assert_str_eq(rt_table_cell(t, row, 3)->as.text, rows[i].what);
	}
	ck_assert_uint_eq(s.checks, 6 + 6 + 2 + 2 + 5 + 2 + 4);
	ck_near("tape", s.tape_m, 89.442719, 1e-6);
	ck_assert_int_eq(s.side[0].boards, 20);
	ck_assert_int_eq(s.side[2].boards, 10);
	ck_assert_int_eq(s.boards, 60);
	rt_report_free(&r);
	rt_ring_setout_free(&s);
}
END_TEST

START_TEST(setout_in_feet)
{
	struct rt_ring_setout s = {0};
	const struct rt_table *t;
	struct rt_report r = {0};

	ck_assert_int_eq(rt_ring_setout(&s, &kind_40x80, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_setout_report(&r, &s, true, NULL), RT_OK);
	t = table_of(&r, "checks");
	ck_near("triangle",
		rt_table_cell(t,
			      setout_row(t, "49 ft 2 1/2 in from FA towards AK",
					 "65 ft 7 1/2 in from FA towards CM"),
			      2)
			->as.real,
		25, 1e-9);
	rt_report_free(&r);
	rt_ring_setout_free(&s);
}
END_TEST

/* Diagonals and boards as published sheets have them. */
START_TEST(setout_sizes)
{
	static const struct {
		double width, length, diagonal, angle;
		int64_t boards;
	} rows[] = {{20, 40, 44.721, 25, 30},	{20, 60, 63.246, 25, 40}, {40, 80, 89.443, 25, 60},
		    {40, 100, 107.703, 25, 70}, {10, 18, 20.591, 15, 16}, {7, 13, 14.765, 10, 12}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_ring_kind kind = {
			.name = "bare", .width_m = rows[i].width, .length_m = rows[i].length};
		struct rt_ring_setout s = {0};

		ck_assert_int_eq(rt_ring_setout(&s, &kind, NULL), RT_OK);
		ck_near("diagonal", s.tape_m, rows[i].diagonal, 0.6e-3);
		ck_near("angle", s.check[s.checks - 1].distance_m, rows[i].angle, 1e-9);
		ck_assert_int_eq(s.boards, rows[i].boards);
		rt_ring_setout_free(&s);
	}
}
END_TEST

START_TEST(unconfirmed_letters)
{
	struct rt_ring_kind other = kind_40x80;
	struct rt_peg p;

	ck_assert_int_eq(rt_ring_peg(&p, &kind_40x80, "V", NULL), RT_OK);
	ck_assert(rt_peg_unconfirmed(&kind_40x80, &p));
	other.length_m = 100;
	ck_assert(!rt_peg_unconfirmed(&other, &p));
	ck_assert_int_eq(rt_ring_peg(&p, &kind_40x80, "K", NULL), RT_OK);
	ck_assert(!rt_peg_unconfirmed(&kind_40x80, &p));
}
END_TEST

/* ---- reports ---- */

static void ck_columns(const struct rt_report *r, const char *name, const char *columns)
{
	const struct rt_table *t = table_of(r, name);
	char all[256] = "";
	size_t used = 0;

	for (size_t i = 0; i < t->columns; i++)
		used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", i ? " " : "",
					 t->column[i].name);
	ck_assert_msg(strncmp(all, columns, strlen(columns)) == 0, "%s: %s", name, all);
	ck_assert_uint_eq(t->cells % t->columns, 0);
}

START_TEST(report_of_kinds_and_setout)
{
	struct rt_ring_kind list[1] = {kind_40x80};
	struct rt_ring_kinds kinds = {.at = list, .n = 1};
	struct rt_ring ring = {"main", "driven-40x80"};
	struct rt_rings rings = {.at = &ring, .n = 1};
	struct rt_ring_setout s = {0};
	struct rt_report r = {0};

	ck_assert_int_eq(rt_ring_kinds_report(&r, &kinds, NULL), RT_OK);
	ck_columns(&r, "kinds", "kind discipline width_m length_m letters");
	ck_assert_str_eq(rt_table_cell(table_of(&r, "kinds"), 0, 4)->as.text,
			 "A K V E S H F P B R M C D L X I G");
	ck_assert_uint_eq(rt_table_rows(table_of(&r, "letters_of_kinds")), 17);
	rt_report_list(&r, &rt_ring_record, rings.at, rings.n);
	ck_assert_int_eq(rt_report_result(&r, NULL), RT_OK);
	ck_columns(&r, "rings", "ring kind");
	ck_assert_int_eq(rt_ring_setout(&s, &kind_40x80, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_setout_report(&r, &s, false, NULL), RT_OK);
	ck_columns(&r, "pegs", "peg x_m y_m side along_m");
	ck_columns(&r, "checks", "from to distance_m what");
	ck_assert_uint_eq(rt_table_rows(table_of(&r, "pegs")), 21);
	ck_assert_uint_eq(rt_table_rows(table_of(&r, "boards")), 5);
	ck_assert(!r.needs_person);
	rt_ring_setout_free(&s);
	rt_report_free(&r);
}
END_TEST

START_TEST(report_of_a_check)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 1);
	move_peg(&f, "B", 0, -0.5);
	tape_crew(&f);
	f.reading[24].value += 1;
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_columns(&r, "summary", "readings pegs degrees_of_freedom sigma0 verdict");
	ck_columns(&r, "pegs", "peg dx_m dy_m off_m se_m verdict move");
	ck_columns(&r, "readings", "kind point from to distance_m");
	ck_assert_str_eq(rt_table_cell(table_of(&r, "summary"), 0, 4)->as.text, "move 1 peg");
	ck_assert_uint_eq(rt_table_rows(table_of(&r, "readings")), f.readings.n);
	ck_assert_uint_eq(rt_table_rows(table_of(&r, "pegs")), 12);
	ck_assert(r.needs_person);
	ck_has(r.note[0], "B is 0.");
	ck_has(r.note[0], "m off: move it 0.");
	ck_has(r.note[0], "towards R");
	ck_has(r.note[2], "Reading M-E was set aside: it says");
	ck_has(r.note[2], "too long");
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(report_of_an_adjustment)
{
	struct rt_adjustment a = {0};
	struct rt_report r = {0};
	struct field f;

	field_open(&f, 1);
	tape_around(&f);
	adjust_pegs(&a, &f, 0, 0, false);
	ck_assert_int_eq(rt_adjustment_report(&r, &a, false, NULL), RT_OK);
	ck_columns(&r, "summary", "readings pegs degrees_of_freedom sigma0 verdict");
	ck_columns(&r, "points", "point x_m y_m se_x_m se_y_m");
	ck_columns(&r, "readings", "kind point from to distance_m");
	ck_assert_str_eq(rt_table_cell(table_of(&r, "summary"), 0, 4)->as.text, "good");
	ck_assert(!r.needs_person);
	rt_report_free(&r);
	rt_adjustment_free(&a);
	field_close(&f);
}
END_TEST

int check_ring(void)
{
	const TTest *kinds[] = {
		words_read_back,
		pegs_clockwise_from_a,
		pegs_stand_where_they_should,
		letters_near_corners_come_after_them,
		letters_of_a_kind_are_known,
		unknown_names_are_helped,
		kinds_are_judged,
		letters_are_judged,
		sizes_and_places_keep_inside_their_ranges};
	const TTest *fit[] = {fewest_is_exact, fewest_in_a_hopeless_layout, fewest_where_none_agree,
			      fits_differ, errors_follow_the_fit};
	const TTest *verdicts[] = {moves_in_words,
				   moves_in_feet,
				   no_move_under_a_centimetre,
				   stretched_tapes,
				   moved_pegs_are_no_stretch,
				   near_the_tolerance_is_unsure,
				   unmeasured_pegs_are_said,
				   tolerances};
	const TTest *setout[] = {setout_of_40x80, setout_in_feet, setout_sizes,
				 unconfirmed_letters};
	const TTest *reports[] = {report_of_kinds_and_setout, report_of_a_check,
				  report_of_an_adjustment};
	Suite *suite = suite_create("ring");

	suite_case(suite, "kinds", kinds, COUNT(kinds));
	suite_case(suite, "fit", fit, COUNT(fit));
	suite_case(suite, "verdicts", verdicts, COUNT(verdicts));
	suite_case(suite, "setout", setout, COUNT(setout));
	suite_case(suite, "reports", reports, COUNT(reports));
	return suite_run(suite);
}
