/* The set-out plans: a crew that follows every step to the letter, with exact tapes and with
 * errors; what is held; the reading form; room and things to carry; feet.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper_locale.h"
#include "ring_field.h"
#include "suite.h"

#define POINTS_MOST 128
#define PI	    3.14159265358979323846

/* ---- kinds: the usual ones, and odd ones ---- */

static struct rt_letter letters_20x40[] = {
	{"A", RT_SIDE_A, 10}, {"K", RT_LEFT, 6},    {"E", RT_LEFT, 20},	 {"H", RT_LEFT, 34},
	{"C", RT_SIDE_C, 10}, {"M", RT_RIGHT, 34},  {"B", RT_RIGHT, 20}, {"F", RT_RIGHT, 6},
	{"D", RT_CENTRE, 6},  {"X", RT_CENTRE, 20}, {"G", RT_CENTRE, 34}};
static struct rt_letter letters_odd[] = {{"1", RT_LEFT, 12.5},
					 {"2", RT_LEFT, 61.4},
					 {"3", RT_RIGHT, 40},
					 {"Q", RT_SIDE_A, 7},
					 {"Z", RT_CENTRE, 33.3}};

enum { KINDS = 6 };

static struct rt_ring_kind kind_of(int which)
{
	static const double size[KINDS][2] = {{20, 40}, {40, 80},  {20, 60},
					      {30, 75}, {45, 120}, {7, 13}};
	struct rt_ring_kind kind = {.name = "ring", .discipline = RT_DRIVEN};

	if (which == 1)
		return kind_40x80;
	kind.width_m = size[which][0];
	kind.length_m = size[which][1];
	if (which == 0) {
		kind.letters.at = letters_20x40;
		kind.letters.n = COUNT(letters_20x40);
	}
	if (which == 3 || which == 4) {
		kind.letters.at = letters_odd;
		kind.letters.n = COUNT(letters_odd);
	}
	return kind;
}

/* ---- a crew in the field ---- */

struct crew {
	const struct rt_setout_plan *plan;
	double at[POINTS_MOST][2];
	bool stands[POINTS_MOST];
	uint64_t seed;
	double noise;	   /* times the usual errors; 0: exact */
	double turn, x, y; /* how the ring comes to lie in the field */
};

static double tape_error(struct crew *c, double d)
{
	double parts = fmax(1, ceil(d / c->plan->options.tape_m - 1e-9)), sum = 0;

	for (int i = 0; i < (int)parts; i++)
		sum += c->noise * (0.010 + 0.0002 * d / parts) * normal(&c->seed);
	return sum;
}

static void in_field(const struct crew *c, double x, double y, double out[2])
{
	out[0] = c->x + cos(c->turn) * x - sin(c->turn) * y;
	out[1] = c->y + sin(c->turn) * x + cos(c->turn) * y;
}

static double from_to(const struct crew *c, size_t a, size_t b, double u[2])
{
	double x = c->at[b][0] - c->at[a][0], y = c->at[b][1] - c->at[a][1], d = hypot(x, y);

	ck_assert_msg(c->stands[a] && c->stands[b], "%s or %s does not stand yet",
		      c->plan->point[a].name, c->plan->point[b].name);
	u[0] = x / d;
	u[1] = y / d;
	return d;
}

static void put(struct crew *c, size_t point, double x, double y)
{
	ck_assert_msg(!c->stands[point], "%s is put twice", c->plan->point[point].name);
	c->at[point][0] = x;
	c->at[point][1] = y;
	c->stands[point] = true;
}

static void do_run(struct crew *c, const struct rt_setout_step *s)
{
	double u[2], v[2], along, across = c->noise * 0.010 * normal(&c->seed);

	ck_assert(s->from_m <= c->plan->options.tape_m + 1e-9);
	from_to(c, s->line_from, s->line_to, u);
	ck_assert(c->stands[s->from]);
	v[0] = c->at[s->from][0] - c->at[s->line_from][0];
	v[1] = c->at[s->from][1] - c->at[s->line_from][1];
	along = v[0] * u[0] + v[1] * u[1] + s->from_m + tape_error(c, s->from_m);
	put(c, s->point, c->at[s->line_from][0] + along * u[0] - across * u[1],
	    c->at[s->line_from][1] + along * u[1] + across * u[0]);
}

/* The crossing is found by turning the first tape about its peg until the second one fits. */
static void do_cross(struct crew *c, const struct rt_setout_step *s)
{
	double u[2], base = from_to(c, s->from, s->second, u);
	double a = s->from_m + tape_error(c, s->from_m),
	       b = s->second_m + tape_error(c, s->second_m);
	double low = 0, high = PI, sign = s->hand == RT_LEFT ? 1 : -1, x, y;

	ck_assert(s->from_m <= c->plan->options.tape_m + 1e-9);
	ck_assert(s->second_m <= c->plan->options.tape_m + 1e-9);
	if (s->bent)
		ck_assert(s->from_m + s->second_m <= c->plan->options.tape_m + 1e-9 &&
			  c->plan->options.tapes == 1);
	for (int i = 0; i < 80; i++) {
		double angle = (low + high) / 2;

		*(hypot(a * cos(angle) - base, a * sin(angle)) < b ? &low : &high) = angle;
	}
	x = a * cos(low);
	y = sign * a * sin(low);
	put(c, s->point, c->at[s->from][0] + x * u[0] - y * u[1],
	    c->at[s->from][1] + x * u[1] + y * u[0]);
}

static void slide(struct crew *c, size_t point, const double u[2], double by)
{
	c->at[point][0] += by * u[0];
	c->at[point][1] += by * u[1];
}

static void do_length(struct crew *c, const struct rt_setout_step *s)
{
	double u[2],
		over = from_to(c, s->point, s->other, u) + tape_error(c, s->from_m) - s->from_m;

	slide(c, s->point, u, over / 2);
	slide(c, s->other, u, -over / 2);
}

/* By the words of the step: so much of the difference, towards `point` when its own diagonal is
 * the shorter one. */
static void do_diagonals(struct crew *c, const struct rt_setout_step *s)
{
	double u[2], v[2], a = from_to(c, s->from, s->other, v),
			   b = from_to(c, s->second, s->point, v);
	double by = s->from_m / (2 * s->proof_m);

	a += tape_error(c, s->from_m);
	b += tape_error(c, s->second_m);
	from_to(c, s->other, s->point, u);
	slide(c, s->point, u, by * (a - b));
	slide(c, s->other, u, by * (a - b));
}

static void do_proof(const struct crew *c, const struct rt_setout_step *s)
{
	const struct rt_setout_mark *mark[2] = {&s->proof_from, &s->proof_to};
	double at[2][2];

	if (!mark[0]->peg)
		return;
	for (int i = 0; i < 2; i++) {
		size_t p = 0, q = 0;
		double u[2] = {0, 0};

		for (size_t k = 0; k < c->plan->points; k++) {
			if (strcmp(c->plan->point[k].name, mark[i]->peg) == 0)
				p = k;
			if (mark[i]->towards &&
			    strcmp(c->plan->point[k].name, mark[i]->towards) == 0)
				q = k;
		}
		ck_assert(c->stands[p]);
		if (mark[i]->towards)
			from_to(c, p, q, u);
		at[i][0] = c->at[p][0] + mark[i]->past_m * u[0];
		at[i][1] = c->at[p][1] + mark[i]->past_m * u[1];
	}
	ck_near("proof", hypot(at[0][0] - at[1][0], at[0][1] - at[1][1]), s->proof_m, 1e-6);
}

static void do_step(struct crew *c, const struct rt_setout_step *s)
{
	double at[2], far = 1;

	switch (s->kind) {
	case RT_SETOUT_RUN:
		do_run(c, s);
		break;
	case RT_SETOUT_CROSS:
		do_cross(c, s);
		break;
	case RT_SETOUT_LENGTH:
		do_length(c, s);
		break;
	case RT_SETOUT_DIAGONALS:
		do_diagonals(c, s);
		break;
	case RT_SETOUT_SIGHT: /* the pole stands in its direction, who knows how far off */
		far = 0.9;
		/* fall through */
	case RT_SETOUT_STAND:
	case RT_SETOUT_STAKE:
		in_field(c, c->plan->point[s->point].x_m, far * c->plan->point[s->point].y_m, at);
		if (s->kind == RT_SETOUT_STAKE)
			for (int i = 0; i < 2; i++)
				at[i] += c->noise * 0.020 * normal(&c->seed);
		put(c, s->point, at[0], at[1]);
		break;
	case RT_SETOUT_PROVE:
		break;
	}
	if (c->noise == 0)
		do_proof(c, s);
}

static void work(struct crew *c, const struct rt_setout_plan *plan, uint64_t seed, double noise)
{
	*c = (struct crew){
		.plan = plan, .seed = seed, .noise = noise, .turn = 0.7, .x = 310, .y = -92};
	ck_assert_uint_le(plan->points, POINTS_MOST);
	for (size_t i = 0; i < plan->points; i++)
		if (plan->point[i].held) {
			in_field(c, plan->point[i].x_m, plan->point[i].y_m, c->at[i]);
			c->stands[i] = true;
		}
	for (size_t i = 0; i < plan->steps; i++)
		do_step(c, &plan->step[i]);
}

/* Every peg within a millimetre of its place. */
static void must_be_true(const struct rt_setout_plan *plan)
{
	struct crew c;

	work(&c, plan, 1, 0);
	for (size_t i = 0; i < plan->pegs.n; i++) {
		const struct rt_setout_point *p = &plan->point[i];
		double at[2];

		if (p->held)
			continue;
		in_field(&c, p->x_m, p->y_m, at);
		ck_assert_msg(c.stands[i], "%s was never put", p->name);
		ck_assert_msg(hypot(c.at[i][0] - at[0], c.at[i][1] - at[1]) < 0.001,
			      "%s stands %.4f m off", p->name,
			      hypot(c.at[i][0] - at[0], c.at[i][1] - at[1]));
	}
}

static void plan_for(struct rt_setout_plan *plan, const struct rt_ring_kind *kind, double tape,
		     int tapes, bool receiver)
{
	const struct rt_setout_options o = {
		.tape_m = tape, .tapes = tapes, .receiver = receiver, .bearing_deg = NAN};
	struct rt_error err = {0};

	ck_assert_msg(rt_setout_plan(plan, kind, &o, &err) == RT_OK, "%s", err.text);
}

START_TEST(exact_tapes_make_a_true_ring)
{
	static const double tape[] = {10, 15, 23.7, 30, 50, 100, 200};
	const struct rt_ring_kind kind = kind_of(_i);

	for (size_t t = 0; t < COUNT(tape); t++)
		for (int how = 1; how <= 3; how++) {
			struct rt_setout_plan plan = {0};

			plan_for(&plan, &kind, tape[t], how == 2 ? 2 : 1, how == 3);
			must_be_true(&plan);
			rt_setout_plan_free(&plan);
		}
}
END_TEST

/* The first right angle is the largest that reads well and that the tape and the ring allow. */
START_TEST(first_right_angle)
{
	static const struct {
		int kind;
		double tape;
		int tapes;
		double side, other;
	} rows[] = {{1, 30, 2, 15, 25}, {1, 30, 1, 9, 15},  {1, 50, 2, 30, 50},
		    {1, 50, 1, 15, 25}, {0, 30, 2, 15, 25}, {0, 50, 2, 20, 44.721360},
		    {1, 10, 1, 3, 5},	{2, 30, 2, 15, 25}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		const struct rt_ring_kind kind = kind_of(rows[i].kind);
		struct rt_setout_plan plan = {0};
		size_t k = 0;

		plan_for(&plan, &kind, rows[i].tape, rows[i].tapes, false);
		while (plan.step[k].kind != RT_SETOUT_CROSS)
			k++;
		ck_assert_str_eq(plan.step[k].stage, "first right angle");
		ck_near("across", plan.step[k].from_m, rows[i].side, 1e-6);
		ck_near("slanting", plan.step[k].second_m, rows[i].other, 1e-6);
		rt_setout_plan_free(&plan);
	}
}
END_TEST

/* ---- errors ---- */

/* Root mean square over many crews of how far the worst corner comes to stand off. */
static double corners_by_crews(const struct rt_setout_plan *plan, int crews)
{
	static const char *const name[] = {"AK", "HC", "CM", "FA"};
	double square[4] = {0}, worst = 0;

	for (int n = 0; n < crews; n++) {
		struct crew c;
		double p[8], q[8], off[2];
		struct rt__placement t;

		work(&c, plan, 77 + 13 * (uint64_t)n, 1);
		for (size_t i = 0; i < 4; i++)
			for (size_t k = 0; k < plan->points; k++)
				if (strcmp(plan->point[k].name, name[i]) == 0) {
					p[2 * i] = plan->point[k].peg->x_m;
					p[2 * i + 1] = plan->point[k].peg->y_m;
					q[2 * i] = c.at[k][0];
					q[2 * i + 1] = c.at[k][1];
				}
		t = rt__place(p, q, 4, NULL);
		for (size_t i = 0; i < 4; i++) {
			rt__offset(&t, p, q, i, off);
			square[i] += (off[0] * off[0] + off[1] * off[1]) / crews;
		}
	}
	for (size_t i = 0; i < 4; i++)
		worst = fmax(worst, sqrt(square[i]));
	return worst;
}

START_TEST(promised_error_is_what_crews_get)
{
	static const struct {
		const char *words;
		double tape;
		int tapes;
		bool receiver;
	} rows[] = {{"one tape of 30 m", 30, 1, false},
		    {"two tapes of 50 m", 50, 2, false},
		    {"receiver", 30, 1, true}};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_setout_plan plan = {0};
		double got;

		plan_for(&plan, &kind_40x80, rows[i].tape, rows[i].tapes, rows[i].receiver);
		got = corners_by_crews(&plan, 4000);
		printf("40 x 80 m by %s: worst corner %.1f mm by 4000 crews, promised %.1f mm; "
		       "worst peg %s %.1f mm\n",
		       rows[i].words, 1000 * got, 1000 * plan.corner_se_m, plan.worst_peg,
		       1000 * plan.peg_se_m);
		ck_near(rows[i].words, got, plan.corner_se_m, 0.04 * plan.corner_se_m);
		ck_assert(plan.peg_se_m >= plan.corner_se_m);
		rt_setout_plan_free(&plan);
	}
}
END_TEST

/* ---- what stands already ---- */

static enum rt_err plan_held(struct rt_setout_plan *plan, const struct rt_ring_kind *kind,
			     const struct rt_setout_hold *hold, size_t holds, double tape,
			     struct rt_error *err)
{
	const struct rt_setout_options o = {
		.tape_m = tape, .tapes = 2, .bearing_deg = NAN, .hold = hold, .holds = holds};

	return rt_setout_plan(plan, kind, &o, err);
}

START_TEST(from_points_that_stand)
{
	static const struct rt_setout_hold holds[][2] = {
		{{"AK", NAN, NAN}, {"HC", NAN, NAN}},
		{{"A", NAN, NAN}, {"C", NAN, NAN}},
		{{"FA", NAN, NAN}, {"AK", NAN, NAN}},
		{{"AK", NAN, NAN}, {"CM", NAN, NAN}},
		{{"gate", -25.3, -48}, {"post", 31.2, -47.5}},
		{{"tree", 47, -60}, {"mast", 44, 70}},
		{{"A", 312.40, 87.15}, {"C", 371.02, 141.58}},
	};
	static const double tape[] = {30, 30, 30, 60, 50, 60, 30};

	for (size_t i = 0; i < COUNT(holds); i++) {
		struct rt_setout_plan plan = {0};
		struct rt_error err = {0};

		ck_assert_msg(plan_held(&plan, &kind_40x80, holds[i], 2, tape[i], &err) == RT_OK,
			      "%zu: %s", i, err.text);
		must_be_true(&plan);
		for (size_t k = 0; k < plan.steps; k++)
			if (plan.step[k].kind == RT_SETOUT_CROSS)
				ck_assert(plan.step[k].crossing_deg > 14 &&
					  plan.step[k].crossing_deg < 166);
		ck_assert(plan.step[0].kind == RT_SETOUT_PROVE);
		ck_assert(plan.corner_se_m > 0 && plan.corner_se_m < 0.2);
		rt_setout_plan_free(&plan);
	}
}
END_TEST

/* Two letters that stand 0.09 m too far apart: the ring lies in the middle, each is 45 mm off, and
 * the pegs are told in the frame of the coordinates. */
START_TEST(ring_laid_on_letters)
{
	const struct rt_setout_hold hold[] = {{"A", 500, 200}, {"C", 580.09, 200}};
	struct rt_setout_plan plan = {0};
	double x, y;

	ck_assert_int_eq(plan_held(&plan, &kind_40x80, hold, 2, 30, NULL), RT_OK);
	ck_near("A off", rt_setout_hold_off(&plan, 0), 0.045, 1e-9);
	ck_near("C off", rt_setout_hold_off(&plan, 1), 0.045, 1e-9);
	ck_near("A to C", plan.step[0].proof_m, 80.09, 1e-9);
	rt_setout_frame(&plan, -20, -40, &x, &y); /* left of A, looking along the frame's x axis */
	ck_near("x of AK", x, 500.045, 1e-9);
	ck_near("y of AK", y, 220, 1e-9);
	rt_setout_plan_free(&plan);
}
END_TEST

/* A receiver: AK at 0, 0 by default; with a peg and a bearing, clockwise from the y axis. */
START_TEST(frames_of_a_receiver)
{
	const struct rt_setout_hold hold[] = {{"X", 1000, 2000}};
	struct rt_setout_options o = {
		.tape_m = 30, .tapes = 1, .receiver = true, .bearing_deg = NAN};
	struct rt_setout_plan plan = {0};
	double x, y;

	ck_assert_int_eq(rt_setout_plan(&plan, &kind_40x80, &o, NULL), RT_OK);
	rt_setout_frame(&plan, 20, 40, &x, &y);
	ck_near("x of CM", x, 40, 1e-9);
	ck_near("y of CM", y, 80, 1e-9);
	rt_setout_plan_free(&plan);
	o.hold = hold;
	o.holds = 1;
	o.bearing_deg = 90; /* A to C along x */
	ck_assert_int_eq(rt_setout_plan(&plan, &kind_40x80, &o, NULL), RT_OK);
	rt_setout_frame(&plan, 20, 40, &x, &y);
	ck_near("x of CM", x, 1040, 1e-9);
	ck_near("y of CM", y, 1980, 1e-9);
	must_be_true(&plan);
	rt_setout_plan_free(&plan);
}
END_TEST

/* What a receiver staked is proved by the tape: all four sides and both diagonals, each once. */
START_TEST(a_receiver_is_proved_by_tape)
{
	static const struct {
		double m;
		size_t times;
	} proofs[] = {{80, 2}, {40, 2}, {89.4427191, 2}};
	const struct rt_setout_options o = {
		.tape_m = 100, .tapes = 1, .receiver = true, .bearing_deg = NAN};
	struct rt_setout_plan plan = {0};

	ck_assert_int_eq(rt_setout_plan(&plan, &kind_40x80, &o, NULL), RT_OK);
	for (size_t i = 0; i < COUNT(proofs); i++) {
		size_t times = 0;

		for (size_t k = 0; k < plan.steps; k++)
			times += plan.step[k].kind == RT_SETOUT_PROVE &&
				 fabs(plan.step[k].proof_m - proofs[i].m) < 1e-6;
		ck_assert_uint_eq(times, proofs[i].times);
	}
	rt_setout_plan_free(&plan);
}
END_TEST

START_TEST(holds_that_are_wrong)
{
	static const struct {
		struct rt_setout_hold hold[2];
		size_t n;
		double tape;
		const char *words;
	} rows[] = {
		{{{"A", 0, -40}}, 1, 30, "A alone holds no ring"},
		{{{"A", 0, -40}, {"A", 0, 40}}, 2, 30, "held twice"},
		{{{"A", NAN, NAN}, {"KK", NAN, NAN}}, 2, 30, "KK"},
		{{{"A", 0, -40}, {"C", NAN, NAN}}, 2, 30, "coordinates"},
		{{{"A", 0, -40}, {"gate", 20, -60}}, 2, 30, "hold a second peg"},
		{{{"gate", 20, -60}, {"post", 20.5, -60}}, 2, 30, "less than a metre apart"},
		{{{"gate", 300, -60}, {"post", 330, -60}}, 2, 30, "does not reach"},
		{{{"A", NAN, NAN}, {"C", NAN, NAN}}, 2, 5, "10 to 200 m"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rt_setout_plan plan = {0};
		struct rt_error err = {0};

		ck_assert_int_ne(
			plan_held(&plan, &kind_40x80, rows[i].hold, rows[i].n, rows[i].tape, &err),
			RT_OK);
		ck_has(err.text, rows[i].words);
		rt_setout_plan_free(&plan);
	}
}
END_TEST

/* ---- words ---- */

START_TEST(words_of_steps)
{
	struct rt_setout_plan plan = {0};
	char words[768];
	size_t bent = 0;

	plan_for(&plan, &kind_40x80, 30, 1, false);
	while (!plan.step[bent].bent)
		bent++;
	rt_setout_step_words(&plan, bent, false, words, sizeof words);
	ck_has(words, "24.00 m of the same tape at mark 1; take it at 9.00 m");
	ck_has(words, "on your right when you look from AK to mark 1: mark 2.");
	rt_setout_step_words(&plan, 2, true, words, sizeof words);
	ck_assert_str_eq(words, "Hold the zero at AK, sight to pole: K at 32 ft 9 1/2 in.");
	rt_setout_proof_words(&plan, plan.steps - 1, false, words, sizeof words);
	ck_assert_str_eq(words, "FA to HC: 89.44 m, in parts along the sighted line: 2 times 30.00 "
				"m and 29.44 m.");
	for (size_t i = 0; i < plan.steps; i++) {
		if (plan.step[i].kind == RT_SETOUT_DIAGONALS) {
			rt_setout_step_words(&plan, i, false, words, sizeof words);
			ck_has(words, "by 0.56 of the difference (10 cm: 5.6 cm)");
		}
		rt_setout_proof_words(&plan, i, false, words, sizeof words);
		ck_assert_str_ne(words, "");
	}
	rt_setout_plan_free(&plan);
}
END_TEST

/* A step's row names the peg that is put, and where the zero is held. */
START_TEST(steps_name_their_pegs)
{
	struct rt_setout_plan plan = {0};
	struct rt_report r = {0};
	const struct rt_table *steps = NULL;

	plan_for(&plan, &kind_40x80, 30, 1, false);
	ck_assert_int_eq(rt_setout_plan_report(&r, &plan, false, NULL), RT_OK);
	for (size_t i = 0; i < r.tables; i++)
		if (strcmp(r.table[i]->name, "steps") == 0)
			steps = r.table[i];
	ck_assert_ptr_nonnull(steps);
	ck_assert_str_eq(steps->column[4].name, "peg");
	ck_assert_str_eq(rt_table_cell(steps, 2, 4)->as.text, "K");
	ck_assert_str_eq(steps->column[6].name, "hold");
	ck_assert_str_eq(rt_table_cell(steps, 2, 6)->as.text, "AK");
	rt_report_free(&r);
	rt_setout_plan_free(&plan);
}
END_TEST

/* Numbers have a point where the program's locale has a comma. */
START_TEST(words_in_any_locale)
{
	const struct rt_setout_options receiver = {
		.tape_m = 30, .tapes = 1, .receiver = true, .bearing_deg = NAN};
	struct rt_setout_plan plan[2] = {{0}};
	struct rt_error err = {0};
	struct rt_diagonals d;
	char plain[768], words[768];

	plan_for(&plan[0], &kind_40x80, 30, 1, false);
	ck_assert_int_eq(rt_setout_plan(&plan[1], &kind_40x80, &receiver, NULL), RT_OK);
	for (size_t i = 0; i < plan[0].steps + plan[1].steps; i++) {
		const struct rt_setout_plan *p = &plan[i >= plan[0].steps];
		size_t step = i < plan[0].steps ? i : i - plan[0].steps;

		rt_setout_step_words(p, step, false, plain, sizeof plain);
		paper_locale("de_DE.UTF-8");
		rt_setout_step_words(p, step, false, words, sizeof words);
		paper_locale("C");
		ck_assert_str_eq(words, plain);
	}
	paper_locale("de_DE.UTF-8");
	ck_assert_int_eq(rt_diagonals(&d, &kind_40x80, 8.939, 89.49, &err), RT_E_INPUT);
	paper_locale("C");
	ck_has(err.text, "diagonals of 8.94 and 89.49 m: of");
	ck_has(err.text, "they should be 89.44 m");
	rt_setout_plan_free(&plan[0]);
	rt_setout_plan_free(&plan[1]);
}
END_TEST

START_TEST(sharp_crossing_is_told)
{
	const struct rt_setout_hold hold[] = {{"gate", -3, -62}, {"post", 3, -62}};
	struct rt_setout_plan plan = {0};
	struct rt_error err = {0};
	char words[768] = "";
	bool told = false;

	ck_assert_msg(plan_held(&plan, &kind_40x80, hold, 2, 60, &err) == RT_OK, "%s", err.text);
	for (size_t i = 0; i < plan.steps; i++) {
		const struct rt_setout_step *s = &plan.step[i];
		bool sharp = s->crossing_deg < 30 || s->crossing_deg > 150;

		rt_setout_step_words(&plan, i, false, words, sizeof words);
		ck_assert(sharp == (strstr(words, "Take care: the tapes cross at only") != NULL));
		told |= sharp;
	}
	ck_assert(told);
	rt_setout_plan_free(&plan);
}
END_TEST

START_TEST(feet_to_half_an_inch)
{
	static const struct {
		double m;
		const char *feet;
	} rows[] = {{40, "131 ft 3 in"}, {20, "65 ft 7 1/2 in"},  {25, "82 ft 1/2 in"},
		    {0, "0 ft 0 in"},	 {0.3048, "1 ft 0 in"},	  {0.0127, "0 ft 1/2 in"},
		    {0.3, "1 ft 0 in"},	 {-20, "-65 ft 7 1/2 in"}};

	for (size_t i = 0; i < COUNT(rows); i++)
		ck_assert_str_eq(rt_show_taped(rows[i].m, true).text, rows[i].feet);
	ck_assert_str_eq(rt_show_taped(44.72136, false).text, "44.72 m");
}
END_TEST

/* ---- the form ---- */

START_TEST(form_checks_the_ring)
{
	const struct rt_ring_kind kind = kind_of(_i);
	struct rt_setout_form form = {0};
	struct rt_error err = {0};

	ck_assert_msg(rt_setout_form(&form, &kind, 30, &err) == RT_OK, "%s", err.text);
	printf("form of %.0f x %.0f m: %zu readings, worst peg %s %.1f mm, %zu unchecked\n",
	       kind.width_m, kind.length_m, form.rows, form.worst_peg, 1000 * form.se_m,
	       form.unchecked);
	/* few pegs have too few distances between them to check each other, read all of them */
	if (form.pegs.n > 10)
		ck_assert_uint_eq(form.unchecked, 0);
	else
		ck_assert(form.unchecked <= 2);
	ck_assert(form.se_m < 0.05);
	for (size_t i = 0; i < form.rows; i++) {
		for (size_t k = 0; k < i; k++)
			ck_assert(form.row[k].from != form.row[i].from ||
				  form.row[k].to != form.row[i].to);
		if (form.row[i].nominal_m > 30.001)
			ck_has(form.row[i].note, "parts in line");
	}
	rt_setout_form_free(&form);
}
END_TEST

START_TEST(form_alone_is_a_file)
{
	struct rt_setout_form form = {0};
	struct rt_report alone = {0}, told = {0};

	ck_assert_int_eq(rt_setout_form(&form, &kind_40x80, 30, NULL), RT_OK);
	ck_assert_int_eq(rt_setout_form_report(&alone, &form, true, NULL), RT_OK);
	ck_assert_int_eq(rt_setout_form_report(&told, &form, false, NULL), RT_OK);
	ck_assert_uint_eq(alone.tables, 1);
	ck_assert_uint_eq(alone.notes, 0);
	ck_assert_uint_eq(told.notes, 1);
	ck_assert_str_eq(alone.table[0]->column[2].name, "distance_m");
	ck_assert(rt_table_cell(alone.table[0], 0, 2)->null);
	ck_assert_uint_eq(rt_table_rows(alone.table[0]), form.rows);
	rt_report_free(&told);
	rt_report_free(&alone);
	rt_setout_form_free(&form);
}
END_TEST

/* ---- room and things ---- */

START_TEST(room_round_the_ring)
{
	struct rt_setout_room room;

	rt_setout_room(&room, &kind_40x80, NAN, NAN);
	ck_near("wide", room.width_m, 40 + 2 * (5 + 5), 1e-9);
	ck_near("long", room.length_m, 80 + 15 + 10, 1e-9);
	ck_near("opening", room.opening_m, 5, 1e-9);
	rt_setout_room(&room, &kind_40x80, 6, 8);
	ck_near("wide", room.width_m, 40 + 2 * (8 + 5), 1e-9);
	ck_near("opening", room.opening_m, 6, 1e-9);
	for (size_t i = 0; i < room.needs; i++)
		ck_assert_str_ne(room.need[i].source, "");
}
END_TEST

START_TEST(things_to_carry)
{
	struct rt_setout_thing thing[RT_THINGS_MOST];
	struct rt_setout_plan plan = {0};
	int64_t boards = 0, letters = 0, marks = 0;
	size_t n;

	plan_for(&plan, &kind_40x80, 30, 2, false);
	n = rt_setout_carry(thing, &plan, 5, false);
	for (size_t i = 0; i < n; i++) {
		if (strcmp(thing[i].thing, "boards of 4 m") == 0)
			boards = thing[i].count;
		if (strcmp(thing[i].thing, "pegs for the letters") == 0)
			letters = thing[i].count;
		if (strcmp(thing[i].thing, "pegs for marks") == 0)
			marks = thing[i].count;
	}
	ck_assert_int_eq(boards, 60);
	ck_assert_int_eq(letters, 17);
	ck_assert_int_eq(marks, 4);
	rt_setout_plan_free(&plan);
}
END_TEST

int check_setout(void)
{
	Suite *suite = suite_create("setout");
	TCase *plans = tcase_create("plans"), *rest = tcase_create("form, words, room");

	tcase_set_timeout(plans, 120);
	tcase_add_loop_test(plans, exact_tapes_make_a_true_ring, 0, KINDS);
	tcase_add_test(plans, first_right_angle);
	tcase_add_test(plans, promised_error_is_what_crews_get);
	tcase_add_test(plans, from_points_that_stand);
	tcase_add_test(plans, ring_laid_on_letters);
	tcase_add_test(plans, frames_of_a_receiver);
	tcase_add_test(plans, a_receiver_is_proved_by_tape);
	tcase_add_test(plans, holds_that_are_wrong);
	tcase_add_test(rest, words_of_steps);
	tcase_add_test(rest, steps_name_their_pegs);
	tcase_add_test(rest, words_in_any_locale);
	tcase_add_test(rest, sharp_crossing_is_told);
	tcase_add_test(rest, feet_to_half_an_inch);
	tcase_add_loop_test(rest, form_checks_the_ring, 0, KINDS);
	tcase_add_test(rest, form_alone_is_a_file);
	tcase_add_test(rest, room_round_the_ring);
	tcase_add_test(rest, things_to_carry);
	suite_add_tcase(suite, plans);
	suite_add_tcase(suite, rest);
	return suite_run(suite);
}
