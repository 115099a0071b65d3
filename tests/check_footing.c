/* The ring room: heights of pegs against the limits, the plane, and checks over time.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ring_field.h"
#include "suite.h"

#define PI 3.14159265358979323846

static const struct rt_footing_limits limits = {0.50, 0.20, "a rulebook"};

/* Heights of named pegs. */
struct level {
	struct rt_height height[64];
	struct rt_heights heights;
	struct rt_pegs pegs;
};

static void level_open(struct level *l)
{
	memset(l, 0, sizeof *l);
	ck_assert_int_eq(rt_ring_pegs(&l->pegs, &kind_40x80, NULL), RT_OK);
	l->heights.at = l->height;
}

static void level_close(struct level *l)
{
	rt_pegs_free(&l->pegs);
}

static struct rt_height *staff(struct level *l, const char *peg, double height_m)
{
	struct rt_height *h = &l->height[l->heights.n++];

	*h = (struct rt_height){peg, height_m, NAN, "heights.csv", (long)l->heights.n + 1};
	return h;
}

/* All pegs on a plane: height at X, rise to the right and ahead. */
static void staff_all(struct level *l, double at_x, double right, double ahead)
{
	for (size_t i = 0; i < l->pegs.n; i++)
		staff(l, l->pegs.at[i].name,
		      at_x + right * l->pegs.at[i].x_m + ahead * l->pegs.at[i].y_m);
}

static struct rt_height *height_of(struct level *l, const char *peg)
{
	for (size_t i = 0; i < l->heights.n; i++)
		if (strcmp(l->height[i].name, peg) == 0)
			return &l->height[i];
	ck_abort_msg("no height of %s", peg);
	return NULL;
}

static void make(struct rt_footing *f, const struct level *l)
{
	struct rt_error err = {0};
	enum rt_err e = rt_footing_make(f, &kind_40x80, &l->heights, &limits, &err);

	ck_assert_msg(e == RT_OK, "%s", err.text);
}

static const struct rt_footing_line *line(const struct rt_footing *f, const char *what)
{
	for (size_t i = 0; i < f->lines; i++)
		if (strcmp(f->line[i].what, what) == 0)
			return &f->line[i];
	ck_abort_msg("no line %s", what);
	return NULL;
}

static const struct rt_footing_peg *peg(const struct rt_footing *f, const char *name)
{
	for (size_t i = 0; i < f->pegs; i++)
		if (strcmp(f->peg[i].peg.name, name) == 0)
			return &f->peg[i];
	ck_abort_msg("no peg %s", name);
	return NULL;
}

static bool notes_say(const struct rt_report *r, const char *part)
{
	for (size_t i = 0; i < r->notes; i++)
		if (strstr(r->note[i], part))
			return true;
	return false;
}

/* How a field of a row is told in text. */
static void ck_told(const struct rt_record *record, const void *row, const char *field,
		    const char *words)
{
	const struct rt_field *f = rt_record_field(record, field);
	char kept[RT_OWN_SIZE], told[64];
	struct rt_value value;

	ck_assert_ptr_nonnull(f);
	value = rt_field_value(record, f, row, kept);
	ck_assert_str_eq(rt_value_words(f, &value, false, told, sizeof told), words);
}

/* ---- falls ---- */

START_TEST(a_plane_falls_alike_on_every_line)
{
	static const struct {
		const char *what, *from, *to;
		double fall_m, length_m, limit_m;
	} row[] = {
		{"left long side", "HC", "AK", 0.32, 80, 0.5},
		{"right long side", "CM", "FA", 0.32, 80, 0.5},
		{"centreline", "C", "A", 0.32, 80, 0.5},
		{"diagonal AK-CM", "CM", "AK", 0.44, 89.442719, 0.5},
		{"diagonal FA-HC", "HC", "FA", 0.20, 89.442719, 0.5},
		{"short side at A", "FA", "AK", 0.12, 40, 0.2},
		{"short side at C", "CM", "HC", 0.12, 40, 0.2},
		{"line E-B", "B", "E", 0.12, 40, 0.2},
		{"line K-F", "F", "K", 0.12, 40, 0.2},
	};
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff_all(&l, 12.5, 0.003, 0.004);
	make(&f, &l);
	ck_assert_uint_eq(f.lines, 12);
	ck_assert_uint_eq(f.unmeasured.n, 0);
	for (size_t i = 0; i < COUNT(row); i++) {
		const struct rt_footing_line *x = line(&f, row[i].what);

		ck_assert_str_eq(x->from.name, row[i].from);
		ck_assert_str_eq(x->to.name, row[i].to);
		ck_near("fall", x->fall_m, row[i].fall_m, 1e-9);
		ck_near("length", x->length_m, row[i].length_m, 1e-6);
		ck_near("limit", x->limit_m, row[i].limit_m, 0);
		ck_assert(x->whole);
		ck_assert_int_eq(x->verdict, RT_FOOTING_GOOD);
	}
	ck_assert_str_eq(f.highest->peg.name, "CM");
	ck_assert_str_eq(f.lowest->peg.name, "AK");
	ck_assert_uint_eq(f.steep + f.unsure, 0);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

/* Too steep, just at the limit, and a hump inside a side whose ends are level. */
START_TEST(limits_are_held_against_the_steepest_pair)
{
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff_all(&l, 0, 0, 0);
	height_of(&l, "B")->height_m = 0.30;
	height_of(&l, "S")->height_m = -0.205;
	make(&f, &l);
	ck_assert_int_eq(line(&f, "line E-B")->verdict, RT_FOOTING_STEEP);
	ck_near("across", line(&f, "line E-B")->fall_m, 0.30, 1e-12);
	ck_assert_str_eq(line(&f, "right long side")->from.name, "B");
	ck_assert_int_eq(line(&f, "right long side")->verdict, RT_FOOTING_GOOD);
	ck_assert_int_eq(line(&f, "line S-R")->verdict, RT_FOOTING_UNSURE);
	ck_assert_uint_eq(f.steep, 1);
	ck_assert_uint_eq(f.unsure, 1);
	/* a level line is told by its ends */
	ck_near("level", line(&f, "centreline")->length_m, 80, 1e-12);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(falls_are_told_by_the_worst)
{
	struct rt_footing f = {0};
	struct rt_report r = {0};
	struct level l;

	level_open(&l);
	staff_all(&l, 0, 0, 0);
	height_of(&l, "B")->height_m = 0.30;
	height_of(&l, "R")->height_m = 0.25;
	height_of(&l, "M")->height_m = 0.203;
	make(&f, &l);
	ck_assert_int_eq(rt_footing_report(&r, &f, false, NULL), RT_OK);
	ck_assert_str_eq(r.note[0], "Too steep: the line E-B falls 0.30 m from B to E; at most "
				    "0.20 m. So it is with 1 more of these lines.");
	ck_has(r.note[1], "Unsure: the line H-M falls 0.20 m from M to H, and the limit of 0.20 m");
	ck_assert(notes_say(&r, "Limits of the fall: 0.50 m along or on a diagonal, 0.20 m across "
				"(a rulebook)."));
	ck_assert(r.needs_person);
	rt_report_free(&r);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(sigma_makes_a_fall_unsure)
{
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff(&l, "AK", 0.0)->sigma_m = 0.06;
	staff(&l, "FA", 0.1)->sigma_m = 0.06;
	make(&f, &l);
	ck_near("se", line(&f, "short side at A")->se_m, 0.06 * sqrt(2), 1e-12);
	ck_assert_int_eq(line(&f, "short side at A")->verdict, RT_FOOTING_UNSURE);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(heights_of_one_peg_are_meaned)
{
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff(&l, "K", 1.0)->sigma_m = 0.01;
	staff(&l, "K", 1.5)->sigma_m = 0.02;
	make(&f, &l);
	ck_assert_uint_eq(peg(&f, "K")->times, 2);
	ck_near("mean", peg(&f, "K")->height_m, 1.1, 1e-12);
	ck_near("sigma", peg(&f, "K")->sigma_m, 1 / sqrt(12500), 1e-12);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(too_few_heights_are_said)
{
	struct rt_footing f = {0};
	struct rt_report r = {0};
	struct level l;

	level_open(&l);
	staff(&l, "K", 0);
	staff(&l, "E", 0.1);
	staff(&l, "H", 0.2);
	make(&f, &l);
	ck_assert_uint_eq(f.lines, 1); /* the left long side, in part */
	ck_assert(!line(&f, "left long side")->whole);
	ck_assert_uint_eq(f.unmeasured.n, 11);
	ck_assert(!f.plane.fitted); /* in one line */
	ck_assert_int_eq(rt_footing_report(&r, &f, false, NULL), RT_OK);
	ck_assert(notes_say(&r, "three pegs not in one line"));
	ck_assert(notes_say(&r, "Too few heights to judge: right long side, centreline, diagonal"));
	ck_assert(notes_say(&r, "Not measured from end to end: left long side."));
	ck_assert(!r.needs_person);
	rt_report_free(&r);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

/* ---- the plane ---- */

START_TEST(the_plane_is_found_again)
{
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff_all(&l, 103.25, -0.002, 0.0035);
	make(&f, &l);
	ck_assert(f.plane.fitted);
	ck_near("at X", f.plane.height_m, 103.25, 1e-9);
	ck_near("right", f.plane.right, -0.002, 1e-12);
	ck_near("ahead", f.plane.ahead, 0.0035, 1e-12);
	ck_near("fall", f.plane.fall, hypot(0.002, 0.0035), 1e-12);
	/* down to the right and towards A: clockwise from ahead */
	ck_near("direction", f.plane.direction_deg, 180 - atan2(0.002, 0.0035) * 180 / PI, 1e-6);
	ck_assert_str_eq(f.plane.towards, "FA");
	ck_near("rms", f.plane.rms_m, 0, 1e-9);
	ck_assert(!f.plane.level);
	for (size_t i = 0; i < f.pegs; i++)
		ck_assert_int_eq(f.peg[i].lies, RT_LIES_EVEN);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(water_runs_to_each_side)
{
	static const struct {
		double right, ahead, degrees;
		const char *towards;
	} row[] = {
		{0, -0.01, 0, "C"}, {-0.01, 0, 90, "B"}, {0, 0.01, 180, "A"}, {0.01, 0, 270, "E"}};

	for (size_t i = 0; i < COUNT(row); i++) {
		struct rt_footing f = {0};
		struct level l;

		level_open(&l);
		staff_all(&l, 0, row[i].right, row[i].ahead);
		make(&f, &l);
		ck_near("direction", f.plane.direction_deg, row[i].degrees, 1e-6);
		ck_assert_str_eq(f.plane.towards, row[i].towards);
		rt_footing_free(&f);
		level_close(&l);
	}
}
END_TEST

START_TEST(numbers_are_told_as_fine_as_they_are)
{
	const struct rt_record *plane = rt_footing_tables[1], *height = rt_footing_tables[2];
	const struct rt_footing_rule rule = {.across_percent = 1.5, .along_percent = 0.25};
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff_all(&l, 12.3456, 0.003, 0.004);
	make(&f, &l);
	ck_told(plane, &f, "fall_percent", "0.50");
	ck_told(plane, &f, "direction_deg", "217");
	ck_told(plane, &f, "height_m", "12.346");
	ck_told(plane, &f, "right_percent", "0.300");
	ck_told(plane, &f, "ahead_percent", "0.400");
	ck_told(plane, &f, "se_right_percent", "0.000");
	ck_told(plane, &f, "se_ahead_percent", "0.000");
	ck_told(height, peg(&f, "K"), "height_m", "12.166");
	ck_told(&rt_height_record, &l.height[0], "height_m", "12.186"); /* A's */
	ck_told(&rt_footing_rule_record, &rule, "along_percent", "0.25");
	ck_told(&rt_footing_rule_record, &rule, "across_percent", "1.50");
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

/* Of pegs on one side of the ring more than on the other: however the plane falls, what is known of
 * it along the fall and across is what is known to the right and ahead; and with residuals twice as
 * large all of it is twice as unsure. */
START_TEST(errors_turn_with_the_fall)
{
	static const char *const at[] = {"K", "E", "H", "A", "F", "X"};
	double variance = 0, covariance = 0;
	struct level l;

	level_open(&l);
	for (size_t i = 0; i < COUNT(at); i++)
		staff(&l, at[i], 0.1 * (double)(i * i % 5));
	for (double times = 1; times < 3; times++) {
		struct rt_footing f = {0};
		const struct rt_footing_plane *p = &f.plane;
		double aside;

		for (size_t i = 0; i < l.heights.n; i++)
			l.height[i].height_m *= times;
		make(&f, &l);
		aside = p->se_direction_deg * PI / 180 * p->fall;
		ck_near("turned", p->se_fall * p->se_fall + aside * aside,
			p->se_right * p->se_right + p->se_ahead * p->se_ahead, 1e-12);
		if (times > 1) {
			ck_near("variance", p->se_fall * p->se_fall, 4 * variance, 1e-12);
			ck_near("covariance", p->covariance, 4 * covariance, 1e-12);
		}
		variance = p->se_fall * p->se_fall;
		covariance = p->covariance;
		ck_assert(fabs(covariance) > 1e-9);
		rt_footing_free(&f);
	}
	level_close(&l);
}
END_TEST

/* Three pegs have one plane: how sure it is follows from the heights' own errors. */
START_TEST(three_pegs_have_one_plane)
{
	struct rt_footing f = {0};
	struct level l;

	level_open(&l);
	staff(&l, "E", 1.0)->sigma_m = 0.01;
	staff(&l, "B", 1.2)->sigma_m = 0.01;
	staff(&l, "C", 1.3)->sigma_m = 0.01;
	make(&f, &l);
	ck_assert(f.plane.fitted);
	ck_assert_uint_eq(f.plane.degrees_of_freedom, 0);
	ck_near("right", f.plane.right, 0.2 / 40, 1e-12);
	ck_near("ahead", f.plane.ahead, 0.2 / 40, 1e-12);
	ck_near("se right", f.plane.se_right, 0.01 * sqrt(2) / 40, 1e-12);
	ck_near("se ahead", f.plane.se_ahead, 0.01 * sqrt(1.5) / 40, 1e-12);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

START_TEST(hollows_and_humps)
{
	struct rt_footing f = {0};
	struct rt_report r = {0};
	struct level l;
	char words[240];

	level_open(&l);
	staff_all(&l, 0, 0, 0);
	height_of(&l, "X")->height_m = -0.10;
	height_of(&l, "M")->height_m = 0.08;
	make(&f, &l);
	ck_assert_int_eq(peg(&f, "X")->lies, RT_LIES_HOLLOW);
	ck_assert_int_eq(peg(&f, "M")->lies, RT_LIES_HUMP);
	ck_assert_int_eq(peg(&f, "E")->lies, RT_LIES_EVEN);
	ck_assert(peg(&f, "X")->off_plane_m < -0.09);
	ck_assert(f.plane.level);
	rt_footing_water_words(&f, words, sizeof words);
	ck_has(words, "No fall that stands out");
	ck_assert_int_eq(rt_footing_report(&r, &f, false, NULL), RT_OK);
	ck_assert(notes_say(&r, "Hollow at X: up to 0.10 m under the plane, at X. Water stays"));
	ck_assert(notes_say(&r, "Hump at M: up to 0.07 m above the plane, at M."));
	rt_report_free(&r);
	rt_footing_free(&f);
	/* the same pegs, levelled badly: nothing can be said of them */
	for (size_t i = 0; i < l.heights.n; i++)
		l.height[i].sigma_m = 0.06;
	make(&f, &l);
	ck_assert_int_eq(peg(&f, "X")->lies, RT_LIES_EVEN);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

/* The standard errors hold what they say: 500 rings with noise of 1 cm. */
START_TEST(standard_errors_hold)
{
	enum { RINGS = 500 };
	double right = 0, ahead = 0;
	uint64_t seed = 20260509;

	for (int ring = 0; ring < RINGS; ring++) {
		struct rt_footing f = {0};
		struct level l;

		level_open(&l);
		staff_all(&l, 0, 0.001, -0.002);
		for (size_t i = 0; i < l.heights.n; i++)
			l.height[i].height_m += 0.01 * normal(&seed);
		make(&f, &l);
		right += pow((f.plane.right - 0.001) / f.plane.se_right, 2) / RINGS;
		ahead += pow((f.plane.ahead + 0.002) / f.plane.se_ahead, 2) / RINGS;
		rt_footing_free(&f);
		level_close(&l);
	}
	/* mean of t^2 with 20 degrees of freedom: 20 / 18, within four of its own deviations */
	ck_near("right", right, 1.11, 0.33);
	ck_near("ahead", ahead, 1.11, 0.33);
}
END_TEST

/* ---- rules and bad input ---- */

START_TEST(rules_become_limits)
{
	struct rt_footing_rule rule[] = {
		{"one", RT_RIDDEN, 0.5, NAN, 0.2, NAN, "a"},
		{"two", RT_DRIVEN, NAN, 0.8, NAN, 1.0, "b"},
	};
	const struct rt_footing_rules rules = {.at = rule, .n = 2};
	const struct rt_footing_rule *found;
	struct rt_footing_limits of;
	struct rt_error err;

	ck_assert_int_eq(rt_footing_rule_named(&found, &rules, NULL, RT_DRIVEN, &err), RT_OK);
	ck_assert_str_eq(found->name, "two");
	of = rt_footing_limits_of(found, &kind_40x80);
	ck_near("along", of.along_m, 0.64, 1e-12);
	ck_near("across", of.across_m, 0.40, 1e-12);
	ck_assert_int_eq(rt_footing_rule_named(&found, &rules, "one", RT_DRIVEN, &err), RT_OK);
	of = rt_footing_limits_of(found, &kind_40x80);
	ck_near("along", of.along_m, 0.5, 0);
	ck_assert_str_eq(of.source, "a");
	ck_assert_int_eq(rt_footing_rule_named(&found, &rules, "tvo", RT_DRIVEN, &err),
			 RT_E_NOTFOUND);
	ck_has(err.text, "did you mean \"two\"");
}
END_TEST

START_TEST(bad_heights_are_refused)
{
	const struct rt_footing_limits flat = {0, 0.2, NULL};
	struct rt_footing f = {0};
	struct rt_error err;
	struct level l;

	level_open(&l);
	ck_assert_int_eq(rt_footing_make(&f, &kind_40x80, &l.heights, &limits, &err), RT_E_INPUT);
	rt_footing_free(&f);
	staff(&l, "K", 0);
	ck_assert_int_eq(rt_footing_make(&f, &kind_40x80, &l.heights, &flat, &err), RT_E_INPUT);
	rt_footing_free(&f);
	staff(&l, "Q", 0);
	ck_assert_int_eq(rt_footing_make(&f, &kind_40x80, &l.heights, &limits, &err),
			 RT_E_NOTFOUND);
	rt_footing_free(&f);
	l.height[1] = (struct rt_height){"F", 3, NAN, "other.csv", 2};
	ck_assert_int_eq(rt_footing_make(&f, &kind_40x80, &l.heights, &limits, &err), RT_E_INPUT);
	ck_has(err.text, "level of its own");
	rt_footing_free(&f);
	l.height[1] = (struct rt_height){"F", NAN, NAN, "heights.csv", 2};
	ck_assert_int_eq(rt_footing_make(&f, &kind_40x80, &l.heights, &limits, &err), RT_E_INPUT);
	rt_footing_free(&f);
	level_close(&l);
}
END_TEST

/* ---- checks over time, and what is said of one ---- */

/* The bound holds at 95 % at least: 1,000 rings, each peg true and found somewhere else. */
START_TEST(the_bound_holds)
{
	enum { RINGS = 1000 };
	size_t inside = 0, pegs = 0;

	for (int ring = 0; ring < RINGS; ring++) {
		struct rt_ring_check c = {0};
		struct field f;

		field_open(&f, 1);
		f.seed += 7919 * (uint64_t)ring;
		tape_crew(&f);
		check_field(&c, &f, RT_FIT_ALL);
		/* the error ellipse of each peg: (d C^-1 d) of the true ring, whose d is all error
		 */
		for (size_t i = 0; i < c.pegs; i++) {
			const struct rt_checked_peg *p = &c.peg[i];

			pegs++;
			inside += p->off_m <= RT_WITHIN_95 * p->se_m;
			ck_near("se", p->se_m * p->se_m,
				(p->cov_xx_m2 + p->cov_yy_m2) / 2 +
					hypot((p->cov_xx_m2 - p->cov_yy_m2) / 2, p->cov_xy_m2),
				1e-12);
		}
		rt_ring_check_free(&c);
		field_close(&f);
	}
	ck_assert_uint_gt(pegs, 10000);
	ck_assert_msg((double)inside / (double)pegs >= 0.95, "%zu of %zu", inside, pegs);
}
END_TEST

START_TEST(a_ring_becomes_true)
{
	struct rt_ring_check check[2] = {{0}, {0}};
	struct rt_past_check past[3] = {{"2026-05-08 16:00", "Ann", 36, 0, &check[0], NULL},
					{"2026-05-08 16:30", NULL, 0, 12, NULL, NULL},
					{"2026-05-08 17:00", "Ann", 36, 0, &check[1], NULL}};
	struct rt_report r = {0};
	struct field f;
	const struct rt_value *cell;
	size_t b = 0;

	field_open(&f, 1);
	move_peg(&f, "B", 0, -0.5);
	tape_crew(&f);
	check_field(&check[0], &f, RT_FIT_FEWEST);
	ck_assert_str_eq(rt_ring_check_worst(&check[0])->peg.name, "B");
	field_close(&f);
	field_open(&f, 1);
	tape_crew(&f);
	check_field(&check[1], &f, RT_FIT_FEWEST);
	ck_assert_int_eq(rt_ring_history_report(&r, &kind_40x80, past, 3, false, NULL), RT_OK);
	ck_assert(!r.needs_person);
	ck_assert_uint_eq(r.tables, 2);
	ck_assert_uint_eq(rt_table_rows(r.table[0]), 3);
	ck_assert_str_eq(rt_table_cell(r.table[0], 0, 4)->as.text, "move 1 peg");
	ck_assert_str_eq(rt_table_cell(r.table[0], 1, 4)->as.text, "heights only");
	ck_assert_str_eq(rt_table_cell(r.table[0], 2, 4)->as.text, "true");
	ck_assert_uint_eq(rt_table_rows(r.table[1]), check[0].pegs);
	while (strcmp(rt_table_cell(r.table[1], b, 0)->as.text, "B") != 0)
		b++;
	cell = rt_table_cell(r.table[1], b, 1);
	ck_assert_msg(strncmp(cell->as.text, "0.5", 3) == 0 && strstr(cell->as.text, ", 0.0"), "%s",
		      cell->as.text);
	ck_near("change", rt_table_cell(r.table[1], b, 4)->as.real, -0.5, 0.1);
	ck_has(r.note[0], "at B, and is 0.0");
	rt_report_free(&r);
	/* the other way round it needs somebody */
	past[2].check = &check[0];
	ck_assert_int_eq(rt_ring_history_report(&r, &kind_40x80, past, 3, false, NULL), RT_OK);
	ck_assert(r.needs_person);
	rt_report_free(&r);
	rt_ring_check_free(&check[0]);
	rt_ring_check_free(&check[1]);
	field_close(&f);
}
END_TEST

/* A long history tells the latest offsets. */
START_TEST(a_long_history_is_cut_at_its_begin)
{
	struct rt_ring_check check = {0};
	struct rt_past_check past[40];
	struct rt_report r = {0};
	struct field f;
	const char *offs;
	size_t commas = 0;

	field_open(&f, 1);
	tape_crew(&f);
	check_field(&check, &f, RT_FIT_FEWEST);
	for (size_t i = 0; i < COUNT(past); i++)
		past[i] = (struct rt_past_check){NULL, NULL, 36, 0, &check, NULL};
	ck_assert_int_eq(rt_ring_history_report(&r, &kind_40x80, past, COUNT(past), true, NULL),
			 RT_OK);
	offs = rt_table_cell(r.table[1], 0, 1)->as.text;
	ck_assert_msg(strncmp(offs, "..., ", 5) == 0, "%s", offs);
	for (const char *at = offs; *at; at++)
		commas += *at == ',';
	ck_assert_uint_eq(commas, 12);
	ck_assert_int_eq(rt_table_cell(r.table[1], 0, 6)->as.whole, 40);
	rt_report_free(&r);
	ck_assert_int_eq(rt_ring_history_report(&r, &kind_40x80, past, 0, false, NULL), RT_OK);
	ck_has(r.note[0], "never checked");
	rt_report_free(&r);
	rt_ring_check_free(&check);
	field_close(&f);
}
END_TEST

static Suite *suite(void)
{
	Suite *s = suite_create("footing");
	TCase *falls = tcase_create("falls"), *plane = tcase_create("plane");
	TCase *input = tcase_create("input"), *past = tcase_create("past");

	tcase_add_test(falls, a_plane_falls_alike_on_every_line);
	tcase_add_test(falls, limits_are_held_against_the_steepest_pair);
	tcase_add_test(falls, falls_are_told_by_the_worst);
	tcase_add_test(falls, sigma_makes_a_fall_unsure);
	tcase_add_test(falls, heights_of_one_peg_are_meaned);
	tcase_add_test(falls, too_few_heights_are_said);
	suite_add_tcase(s, falls);
	tcase_add_test(plane, the_plane_is_found_again);
	tcase_add_test(plane, water_runs_to_each_side);
	tcase_add_test(plane, numbers_are_told_as_fine_as_they_are);
	tcase_add_test(plane, errors_turn_with_the_fall);
	tcase_add_test(plane, three_pegs_have_one_plane);
	tcase_add_test(plane, hollows_and_humps);
	tcase_add_test(plane, standard_errors_hold);
	suite_add_tcase(s, plane);
	tcase_add_test(input, rules_become_limits);
	tcase_add_test(input, bad_heights_are_refused);
	suite_add_tcase(s, input);
	tcase_set_timeout(past, 60);
	tcase_add_test(past, the_bound_holds);
	tcase_add_test(past, a_ring_becomes_true);
	tcase_add_test(past, a_long_history_is_cut_at_its_begin);
	suite_add_tcase(s, past);
	return s;
}

int check_footing(void)
{
	return suite_run(suite());
}
