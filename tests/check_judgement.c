/* The ring room: how certain a verdict is, what could hide in the readings, the shape of a ring.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

#define RADIANS 0.017453292519943295

/* ---- how certain ---- */

/* A circular spread is the noncentral chi-square distribution of two degrees of freedom (SciPy's
 * ncx2; derived). */
START_TEST(within_a_disc_of_a_round_spread)
{
	static const struct {
		double off, se, tolerance, p;
	} rows[] = {{0.10, 0.02, 0.1, 0.45990161322628165},
		    {0.05, 0.03, 0.1, 0.9268119324077425},
		    {0.17, 0.02, 0.1, 0.00017436438684290467},
		    {0.10, 1e-4, 0.1, 0.49980052883486153},
		    {0.02, 0.50, 0.1, 0.019785649723371386}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		double square = rows[i].se * rows[i].se;
		const double covariance[3] = {square, 0, square};

		for (double turn = 0; turn < 6; turn += 0.7) {
			const double off[2] = {rows[i].off * cos(turn), rows[i].off * sin(turn)};

			ck_near("round", rt_within(off, covariance, rows[i].tolerance), rows[i].p,
				1e-10);
		}
	}
}
END_TEST

/* On a line it is the normal distribution in one dimension; a thin spread comes near to it. */
START_TEST(within_a_disc_of_a_thin_spread)
{
	const double se = 0.03, off[2] = {0.06, 0.08}, tolerance = 0.11;
	double half = sqrt(tolerance * tolerance - 0.08 * 0.08);
	double p = (erfc((-half - 0.06) / se / sqrt(2)) - erfc((half - 0.06) / se / sqrt(2))) / 2;
	const double line[3] = {se * se, 0, 0}, thin[3] = {se * se, 0, 1e-12};

	ck_near("line", rt_within(off, line, tolerance), p, 1e-12);
	ck_near("thin", rt_within(off, thin, tolerance), p, 1e-6);
}
END_TEST

START_TEST(within_a_disc_at_its_limits)
{
	const double none[3] = {0, 0, 0}, some[3] = {1e-4, 5e-5, 2e-4};
	const double inside[2] = {0.03, 0.04}, far[2] = {3, 4}, here[2] = {0, 0};

	ck_near("no error, inside", rt_within(inside, none, 0.06), 1, 0);
	ck_near("no error, on the edge", rt_within(inside, none, 0.05), 1, 0);
	ck_near("no error, outside", rt_within(inside, none, 0.04), 0, 0);
	ck_near("far out", rt_within(far, some, 0.1), 0, 0);
	ck_near("well inside", rt_within(here, some, 1), 1, 0);
}
END_TEST

/* A spread that is turned, against the sum over a fine grid. */
START_TEST(within_a_disc_of_a_turned_spread)
{
	const double off[2] = {0.07, -0.03}, c[3] = {9e-4, 5e-4, 4e-4}, tolerance = 0.08;
	double step = 2.5e-4, sum = 0, det = c[0] * c[2] - c[1] * c[1];

	for (double x = -tolerance; x < tolerance; x += step) {
		for (double y = -tolerance; y < tolerance; y += step) {
			double u = x + step / 2, v = y + step / 2;
			double dx = u - off[0], dy = v - off[1];

			if (hypot(u, v) < tolerance)
				sum += exp(-(c[2] * dx * dx - 2 * c[1] * dx * dy + c[0] * dy * dy) /
					   (2 * det));
		}
	}
	sum *= step * step / (2 * acos(-1) * sqrt(det));
	ck_near("turned", rt_within(off, c, tolerance), sum, 1e-4);
}
END_TEST

START_TEST(verdicts_tell_how_likely_they_are_wrong)
{
	struct field f;
	struct rt_ring_check c = {0};
	double sum = 0;

	field_open(&f, 0);
	move_peg(&f, "P", 0, -0.5);
	move_peg(&f, "E", -0.09, 0);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_int_eq(checked(&c, "P")->verdict, RT_PEG_MOVE);
	ck_assert_int_eq(checked(&c, "E")->verdict, RT_PEG_UNSURE);
	ck_near("P", checked(&c, "P")->p_off, 1, 1e-9);
	ck_assert(isnan(checked(&c, "E")->p_wrong));
	ck_assert(checked(&c, "E")->p_off > 0.1 && checked(&c, "E")->p_off < 0.5);
	for (size_t i = 0; i < c.pegs; i++) {
		const struct rt_checked_peg *p = &c.peg[i];

		if (p->verdict == RT_PEG_UNSURE)
			continue;
		ck_assert(p->p_wrong >= 0 && p->p_wrong < 0.05);
		sum += p->p_wrong;
	}
	ck_near("any", c.p_any_wrong, sum, 1e-15);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Where the readings contradict each other nothing is said. */
START_TEST(doubt_has_no_probability)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 0);
	tape_list(&f, RECTANGLE);
	misread(&f, "AK", "CM", 1);
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_int_eq(c.verdict, RT_RING_DOUBT);
	ck_assert(isnan(c.p_any_wrong));
	for (size_t i = 0; i < c.pegs; i++)
		ck_assert(isnan(c.peg[i].p_off) && isnan(c.peg[i].p_wrong));
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- what could hide ---- */

static void receive(struct field *f, double noise);

/* Of a tape alone, and of a tape with a receiver: a third of a hidden mistake put into a reading
 * shifts the pegs by a third of what was told. */
START_TEST(a_hidden_mistake_shifts_as_told)
{
	static const double part = 1.0 / 3;
	struct field f;
	struct rt_ring_check true_ring = {0};

	field_open(&f, 0);
	tape_fifty(&f);
	if (_i)
		receive(&f, 0);
	check_field(&true_ring, &f, RT_FIT_ALL);
	for (size_t i = 0; i < f.readings.n; i += 7) {
		const struct rt_hidden *h = &true_ring.hidden[i];
		double by = part * true_ring.adjustment.reading[i].hidden_m;
		struct rt_ring_check c = {0};

		f.reading[i].value += by;
		check_field(&c, &f, RT_FIT_ALL);
		ck_assert_uint_eq(c.adjustment.blunders, 0);
		ck_near("shift", c.peg[h->peg].off_m, part * h->shift_m, 0.02 * h->shift_m);
		for (size_t p = 0; p < c.pegs; p++)
			ck_assert(c.peg[p].off_m <= part * h->shift_m * 1.02);
		f.reading[i].value -= by;
		rt_ring_check_free(&c);
	}
	rt_ring_check_free(&true_ring);
	field_close(&f);
}
END_TEST

START_TEST(each_peg_names_what_could_shift_it)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 0);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_ALL);
	for (size_t p = 0; p < c.pegs; p++) {
		bool is_there = false;

		ck_assert(c.peg[p].hidden_shift_m > 0 && isfinite(c.peg[p].hidden_shift_m));
		for (size_t i = 0; i < c.adjustment.readings; i++) {
			ck_assert(c.hidden[i].peg != p ||
				  c.hidden[i].shift_m <= c.peg[p].hidden_shift_m);
			is_there |= c.adjustment.reading[i].reading == c.peg[p].hidden_by;
		}
		ck_assert(is_there);
	}
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* A peg that hangs on two readings alone: a mistake in them would never show. */
START_TEST(an_unchecked_reading_hides_anything)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 0);
	tape_list(&f, RECTANGLE "AK-B B-CM");
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert(isinf(checked(&c, "B")->hidden_shift_m));
	ck_assert(isfinite(checked(&c, "AK")->hidden_shift_m));
	ck_assert_str_eq(checked(&c, "B")->hidden_by->from, "AK");
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Only FA-K tells how far K stands out.  When that is wrong, K is not called off; nor when K is off
 * indeed.  Two more from other pegs settle it. */
START_TEST(a_peg_that_rests_on_one_reading_is_not_called_off)
{
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	char notes[4000] = "";
	struct field f;

	for (int really = 0; really < 2; really++) {
		field_open(&f, 0.5);
		move_peg(&f, "K", really ? 0.7 : 0, 0);
		tape_list(&f, RECTANGLE "AK-K K-HC FA-K");
		misread(&f, "FA", "K", really ? 0 : -0.7);
		check_field(&c, &f, RT_FIT_CORNERS);
		ck_assert(checked(&c, "K")->off_m > 0.5);
		ck_assert_int_eq(checked(&c, "K")->verdict, RT_PEG_UNSURE);
		ck_assert_str_eq(checked(&c, "K")->rests_on->from, "FA");
		ck_assert_int_eq(c.verdict, RT_RING_UNSURE);
		ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
		rt_ring_check_free(&c);
		tape_list(&f, "CM-K A-K A-AK A-FA A-CM A-HC");
		check_field(&c, &f, RT_FIT_CORNERS);
		ck_assert_int_eq(checked(&c, "K")->verdict, really ? RT_PEG_MOVE : RT_PEG_GOOD);
		ck_assert_ptr_null(checked(&c, "K")->rests_on);
		ck_assert_uint_eq(c.adjustment.blunders, really ? 0 : 1);
		rt_ring_check_free(&c);
		field_close(&f);
	}
	for (size_t i = 0; i < r.notes; i++)
		snprintf(notes + strlen(notes), sizeof notes - strlen(notes), "%s\n", r.note[i]);
	ck_has(notes, "but that rests on FA-K alone, which no other reading checks: measure K from "
		      "another peg before moving it.");
	rt_report_free(&r);
}
END_TEST

/* The same along the ring: only HC-A tells where A stands there. */
START_TEST(a_peg_that_rests_on_one_reading_lengthwise)
{
	struct rt_ring_check c = {0};
	struct field f;

	field_open(&f, 0.5);
	tape_list(&f, RECTANGLE "AK-A A-FA HC-A");
	misread(&f, "HC", "A", -0.7);
	check_field(&c, &f, RT_FIT_CORNERS);
	ck_assert(fabs(checked(&c, "A")->dy_m) > 0.5);
	ck_assert_int_eq(checked(&c, "A")->verdict, RT_PEG_UNSURE);
	ck_assert_str_eq(checked(&c, "A")->rests_on->from, "HC");
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(a_reading_set_aside_hides_nothing)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 0);
	tape_fifty(&f);
	misread(&f, "V", "B", 1);
	check_field(&c, &f, RT_FIT_FEWEST);
	for (size_t i = 0; i < c.adjustment.readings; i++) {
		bool aside = c.adjustment.reading[i].verdict == RT_READING_BLUNDER;

		ck_assert(isnan(c.hidden[i].shift_m) == aside);
	}
	ck_assert_uint_eq(c.adjustment.blunders, 1);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- shape ---- */

static const struct rt_shape_row *shape_row(const struct rt_ring_shape *s, enum rt_shape shape,
					    const char *from_or_at)
{
	for (size_t i = 0; i < s->rows; i++) {
		const char *name = shape == RT_SHAPE_CORNER ? s->row[i].at : s->row[i].from;

		if (s->row[i].shape == shape && strcmp(name, from_or_at) == 0)
			return &s->row[i];
	}
	ck_abort_msg("no row of %s", from_or_at);
	return NULL;
}

/* Side c slid by 0.6 m: the angles and lengths of that parallelogram. */
START_TEST(a_ring_out_of_square_is_told)
{
	static const char *const far_pegs[] = {"HC", "C", "CM"};
	const double slide = 0.6, turn = atan2(slide, 80) / RADIANS;
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_ring_shape s = {0};

	field_open(&f, 0);
	for (size_t i = 0; i < COUNT(far_pegs); i++)
		move_peg(&f, far_pegs[i], slide, 0);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_int_eq(rt_ring_shape(&s, &c, NULL), RT_OK);
	ck_near("AK", shape_row(&s, RT_SHAPE_CORNER, "AK")->measured, 90 - turn, 1e-6);
	ck_near("FA", shape_row(&s, RT_SHAPE_CORNER, "FA")->measured, 90 + turn, 1e-6);
	ck_near("HC", shape_row(&s, RT_SHAPE_CORNER, "HC")->measured, 90 + turn, 1e-6);
	ck_near("over", shape_row(&s, RT_SHAPE_CORNER, "FA")->off_m, turn * RADIANS * 80, 1e-6);
	ck_assert_int_eq(shape_row(&s, RT_SHAPE_CORNER, "AK")->verdict, RT_SHAPE_UNSURE);
	ck_near("side", shape_row(&s, RT_SHAPE_SIDE, "AK")->measured, hypot(80, slide), 1e-6);
	ck_near("AK-CM", shape_row(&s, RT_SHAPE_DIAGONAL, "AK")->measured, hypot(80, 40 + slide),
		1e-6);
	ck_near("FA-HC", shape_row(&s, RT_SHAPE_DIAGONAL, "FA")->measured, hypot(80, 40 - slide),
		1e-6);
	ck_assert_int_eq(shape_row(&s, RT_SHAPE_DIAGONAL, "FA")->verdict, RT_SHAPE_OFF);
	ck_assert_int_eq(shape_row(&s, RT_SHAPE_SIDE, "HC")->verdict, RT_SHAPE_GOOD);
	rt_ring_shape_free(&s);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(a_bow_is_told_out_of_the_ring)
{
	static const struct {
		const char *peg, *side;
		double dx, dy;
	} rows[] = {{"E", "AK", -0.4, 0},
		    {"B", "CM", 0.4, 0},
		    {"C", "HC", 0, 0.4},
		    {"A", "FA", 0, -0.4}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct field f;
		struct rt_ring_check c = {0};
		struct rt_ring_shape s = {0};
		const struct rt_shape_row *bow;

		field_open(&f, 0);
		move_peg(&f, rows[i].peg, rows[i].dx, rows[i].dy);
		tape_fifty(&f);
		check_field(&c, &f, RT_FIT_ALL);
		ck_assert_int_eq(rt_ring_shape(&s, &c, NULL), RT_OK);
		bow = shape_row(&s, RT_SHAPE_BOW, rows[i].side);
		ck_assert_str_eq(bow->at, rows[i].peg);
		ck_near(rows[i].peg, bow->measured, 0.4, 1e-6);
		ck_assert_int_eq(bow->verdict, RT_SHAPE_OFF);
		rt_ring_shape_free(&s);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* Pegs that are all within tolerance never make a shape that is called off, whatever they do. */
START_TEST(good_pegs_make_no_shape_off)
{
	for (uint64_t seed = 1; seed < 60; seed++) {
		struct field f;
		struct rt_ring_check c = {0};
		struct rt_ring_shape s = {0};
		uint64_t random = seed;

		field_open(&f, 0);
		for (size_t i = 0; i < AROUND; i++) {
			double turn = 6.2831853 * uniform(&random);

			f.at[i][0] += 0.099 * cos(turn);
			f.at[i][1] += 0.099 * sin(turn);
		}
		tape_fifty(&f);
		for (size_t i = 0; i < f.readings.n; i++)
			f.reading[i].sigma = 1e-4;
		check_field(&c, &f, RT_FIT_ALL);
		ck_assert_int_eq(rt_ring_shape(&s, &c, NULL), RT_OK);
		for (size_t i = 0; c.to_move == 0 && i < s.rows; i++)
			ck_assert_int_ne(s.row[i].verdict, RT_SHAPE_OFF);
		rt_ring_shape_free(&s);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* Only what was measured: with three corners there is one angle between whole sides, and two
 * sides. */
START_TEST(shape_of_a_few_pegs)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_ring_shape s = {0};
	size_t of[4] = {0};

	field_open(&f, 0);
	tape_list(&f, "AK-HC AK-FA HC-FA");
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_int_eq(rt_ring_shape(&s, &c, NULL), RT_OK);
	for (size_t i = 0; i < s.rows; i++)
		of[s.row[i].shape]++;
	ck_assert_uint_eq(of[RT_SHAPE_CORNER], 1);
	ck_assert_uint_eq(of[RT_SHAPE_SIDE], 2);
	ck_assert_uint_eq(of[RT_SHAPE_DIAGONAL], 1);
	ck_assert_uint_eq(of[RT_SHAPE_BOW], 0);
	rt_ring_shape_free(&s);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* The standard error of a diagonal that was taped alone is that of the tape. */
START_TEST(errors_of_the_shape)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_ring_shape s = {0};
	const struct rt_shape_row *row;

	field_open(&f, 0);
	tape_list(&f, "AK-HC AK-FA HC-FA");
	check_field(&c, &f, RT_FIT_ALL);
	ck_assert_int_eq(rt_ring_shape(&s, &c, NULL), RT_OK);
	row = shape_row(&s, RT_SHAPE_SIDE, "AK");
	ck_near("80 m", row->se_m, 0.010 + 0.0002 * 80, 1e-9);
	row = shape_row(&s, RT_SHAPE_CORNER, "AK");
	ck_near("over 80 m", row->se_m, row->se * RADIANS * 80, 1e-12);
	/* d^2 = a^2 + b^2 - 2 a b cos: at a right angle a b times its error is d times d's, less
	 * what the sides bring */
	ck_near("angle", row->se * RADIANS * 40 * 80,
		sqrt(pow(hypot(40, 80) * (0.010 + 0.0002 * hypot(40, 80)), 2) + pow(40 * 0.018, 2) +
		     pow(80 * 0.026, 2)),
		1e-6);
	rt_ring_shape_free(&s);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- the tape ---- */

START_TEST(a_stretch_has_its_error)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 1);
	tape_fifty(&f);
	for (size_t i = 0; i < f.readings.n; i++)
		f.reading[i].value *= 1.004;
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert(c.stretch_se > 5e-5 && c.stretch_se < 5e-4);
	ck_near("stretch", c.stretch, 0.004, 3 * c.stretch_se);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* Coordinates of the pegs round the ring as a receiver gives them, turned and shifted. */
static void receive(struct field *f, double noise)
{
	for (size_t i = 0; i < AROUND; i++) {
		const double x = f->at[i][0], y = f->at[i][1];
		const double at[2] = {300 + cos(0.7) * x - sin(0.7) * y,
				      500 + sin(0.7) * x + cos(0.7) * y};

		for (int k = 0; k < 2; k++) {
			struct rt_reading *r = &f->reading[f->readings.n++];

			*r = (struct rt_reading){.kind = k ? RT_READ_Y : RT_READ_X,
						 .at = f->pegs.at[i].name,
						 .sigma = NAN,
						 .file = "receiver",
						 .line = (long)i + 2,
						 .frame = 1};
			r->value = at[k] + noise * 0.02 * normal(&f->seed);
		}
	}
}

static void stretch_tape(struct field *f, double part)
{
	for (size_t i = 0; i < f->readings.n; i++) {
		if (f->reading[i].kind == RT_READ_DISTANCE)
			f->reading[i].value *= 1 + part;
	}
}

/* A tape that reads long or short is found, told with its error, and taken out, however wrong. */
START_TEST(a_receiver_proves_the_tape)
{
	static const double parts[] = {0.004, -0.002, 0.01, 0.0015};

	for (size_t i = 0; i < COUNT(parts); i++) {
		struct field f;
		struct rt_ring_check c = {0};
		struct rt_report r = {0};
		bool told = false;

		field_open(&f, 1);
		move_peg(&f, "P", 0, -0.5);
		tape_fifty(&f);
		stretch_tape(&f, parts[i]);
		receive(&f, 1);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert(c.tape_corrected);
		ck_near("tape", c.tape, parts[i], 3 * c.tape_se);
		ck_assert(c.tape_se > 5e-5 && c.tape_se < 3e-4);
		ck_assert_int_eq(c.verdict, RT_RING_MOVE);
		ck_assert_uint_eq(c.to_move, 1);
		ck_assert_uint_eq(c.adjustment.blunders, 0);
		ck_assert_ptr_eq(c.adjustment.reading[0].reading, &f.reading[0]);
		ck_assert(c.stretch == 0);
		ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
		for (size_t k = 0; k < r.notes; k++)
			told |= strstr(r.note[k], "Your tape reads") &&
				strstr(r.note[k], parts[i] > 0 ? "% long" : "% short");
		ck_assert(told);
		rt_report_free(&r);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* A blunder among the readings neither hides the tape's error nor becomes one. */
START_TEST(a_blunder_is_no_tape)
{
	static const double parts[] = {0, 0.004};

	for (size_t i = 0; i < COUNT(parts); i++) {
		struct field f;
		struct rt_ring_check c = {0};

		field_open(&f, 1);
		tape_fifty(&f);
		misread(&f, "V", "B", 3);
		stretch_tape(&f, parts[i]);
		receive(&f, 1);
		check_field(&c, &f, RT_FIT_FEWEST);
		ck_assert(c.tape_corrected == (parts[i] > 0));
		ck_near("tape", c.tape, parts[i], 3 * c.tape_se);
		ck_assert_uint_eq(c.adjustment.blunders, 1);
		ck_assert_int_eq(c.verdict, RT_RING_TRUE);
		rt_ring_check_free(&c);
		field_close(&f);
	}
}
END_TEST

/* A ring that is laid too large: the tape is proven right, so the pegs are called off. */
START_TEST(a_large_ring_is_no_tape)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	bool told = false;

	field_open(&f, 1);
	for (size_t i = 0; i < f.pegs.n; i++) {
		f.at[i][0] *= 1.01;
		f.at[i][1] *= 1.01;
	}
	tape_fifty(&f);
	receive(&f, 1);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert(!c.tape_corrected);
	ck_near("tape", c.tape, 0, 3.2 * c.tape_se);
	ck_assert(c.stretch == 0);
	ck_assert_uint_gt(c.to_move, 5);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	for (size_t i = 0; i < r.notes; i++)
		told |= strstr(r.note[i], "The tape agrees with the receiver") != NULL;
	ck_assert(told);
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

START_TEST(a_tape_alone_shows_no_tape)
{
	struct field f;
	struct rt_ring_check c = {0};

	field_open(&f, 1);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert(isnan(c.tape) && !c.tape_corrected);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

/* ---- reports ---- */

static bool table_has(const struct rt_report *r, const char *name, size_t rows)
{
	for (size_t i = 0; i < r->tables; i++) {
		if (strcmp(r->table[i]->name, name) == 0)
			return rt_table_rows(r->table[i]) == rows;
	}
	return false;
}

START_TEST(reports_hold_the_judgement)
{
	struct field f;
	struct rt_ring_check c = {0};
	struct rt_report r = {0};
	char notes[4000] = "";

	field_open(&f, 0);
	tape_fifty(&f);
	check_field(&c, &f, RT_FIT_FEWEST);
	ck_assert_int_eq(rt_ring_check_report(&r, &c, false, NULL), RT_OK);
	ck_assert(table_has(&r, "shape", 14));
	ck_assert(table_has(&r, "reliability", f.readings.n));
	for (size_t i = 0; i < r.notes; i++)
		snprintf(notes + strlen(notes), sizeof notes - strlen(notes), "%s\n", r.note[i]);
	ck_has(notes, "could do most harm");
	ck_has(notes, "is under 0.1 %");
	rt_report_free(&r);
	rt_ring_check_free(&c);
	field_close(&f);
}
END_TEST

int check_judgement(void)
{
	Suite *s = suite_create("judgement");
	TCase *certain = tcase_create("certain"), *hidden = tcase_create("hidden");
	TCase *shape = tcase_create("shape");

	tcase_add_test(certain, within_a_disc_of_a_round_spread);
	tcase_add_test(certain, within_a_disc_of_a_thin_spread);
	tcase_add_test(certain, within_a_disc_at_its_limits);
	tcase_add_test(certain, within_a_disc_of_a_turned_spread);
	tcase_add_test(certain, verdicts_tell_how_likely_they_are_wrong);
	tcase_add_test(certain, doubt_has_no_probability);
	tcase_add_loop_test(hidden, a_hidden_mistake_shifts_as_told, 0, 2);
	tcase_add_test(hidden, each_peg_names_what_could_shift_it);
	tcase_add_test(hidden, an_unchecked_reading_hides_anything);
	tcase_add_test(hidden, a_peg_that_rests_on_one_reading_is_not_called_off);
	tcase_add_test(hidden, a_peg_that_rests_on_one_reading_lengthwise);
	tcase_add_test(hidden, a_reading_set_aside_hides_nothing);
	tcase_add_test(shape, a_ring_out_of_square_is_told);
	tcase_add_test(shape, a_bow_is_told_out_of_the_ring);
	tcase_add_test(shape, good_pegs_make_no_shape_off);
	tcase_add_test(shape, shape_of_a_few_pegs);
	tcase_add_test(shape, errors_of_the_shape);
	tcase_add_test(shape, a_stretch_has_its_error);
	tcase_add_test(shape, a_receiver_proves_the_tape);
	tcase_add_test(shape, a_blunder_is_no_tape);
	tcase_add_test(shape, a_large_ring_is_no_tape);
	tcase_add_test(shape, a_tape_alone_shows_no_tape);
	tcase_add_test(shape, reports_hold_the_judgement);
	suite_add_tcase(s, certain);
	suite_add_tcase(s, hidden);
	suite_add_tcase(s, shape);
	return suite_run(s);
}
