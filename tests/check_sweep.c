/* Checks of the sweep: closed forms, published values, turnouts, boards and letters, its report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <string.h>

#include "drive/sweep_internal.h"
#include "drive_rings.h"
#include "suite.h"

#define ROWS(array) ((int)(sizeof(array) / sizeof *(array)))
#define PI	    3.141592653589793
#define DEGREES	    (180.0 / PI)
/* The largest cut-in is found within a micrometre on arcs of 5 m and more. */
#define SHORT 1e-6

static struct rt_turnout_part gig_parts[] = {
	{"gig", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
	{"gig", "gig", -0.95, 2.55, 1.55, 1.38, 1.0, 0},
};
static const struct rt_turnout_parts gig = {.at = gig_parts, .n = 2},
				     horse = {.at = gig_parts, .n = 1};

/* One link of that length, hung at the fore feet. */
static struct rt_turnout_part link_part[] = {{"link", "link", 0, 1, 0.65, NAN, NAN, 0}};
static const struct rt_turnout_parts one_link = {.at = link_part, .n = 1};

static void must(enum rt_err e, const struct rt_error *err)
{
	ck_assert_msg(e == RT_OK, "%s", err->text);
}

static void drive(struct rt_sweep *out, const struct rt_path *path,
		  const struct rt_turnout_parts *turnout, struct rt_sweep_options options)
{
	struct rt_error err;

	must(rt_sweep_make(out, path, turnout, &options, &err), &err);
}

/* A turn of 40 m, arc, 40 m. */
static void drive_turn(struct rt_sweep *out, const struct rt_turnout_parts *turnout,
		       double diameter, double angle, struct rt_sweep_options options)
{
	struct rt_path path;
	struct rt_error err;

	must(rt_sweep_turn(&path, diameter, angle, &err), &err);
	drive(out, &path, turnout, options);
	rt_path_free(&path);
}

static void add(struct rt_path *path, double straight, double radius, double angle_deg)
{
	const struct rt_pose start = {.toward.x = 1.0};
	struct rt_error err;

	must(rt_path_straight(path, &start, straight, &err), &err);
	if (radius > 0.0)
		must(rt_path_arc(path, &start, radius, angle_deg / DEGREES, &err), &err);
}

/* ---- closed forms and published values ------------------------------------------------------ */

/* Computed independently: eighth-order Runge-Kutta at 1e-12, a turn of 90 degrees. */
static const struct {
	double diameter, horse, gig, steady_horse, steady_gig, stiff;
} turns[] = {
	{20, 0.09154, 0.37616, 0.09154, 0.37828, 0.44503},
	{15, 0.12246, 0.49914, 0.12250, 0.51233, 0.60453},
};

START_TEST(a_gig_cuts_in_as_computed_elsewhere)
{
	struct rt_sweep s;

	drive_turn(&s, &gig, turns[_i].diameter, 90, (struct rt_sweep_options){0});
	ck_assert_double_eq_tol(s.parts.at[0].cut_in_m, turns[_i].horse, 5.1e-6);
	ck_assert_double_eq_tol(s.parts.at[1].cut_in_m, turns[_i].gig, 5.1e-6);
	ck_assert_double_eq_tol(s.parts.at[0].steady_cut_in_m, turns[_i].steady_horse, 5.1e-6);
	ck_assert_double_eq_tol(s.parts.at[1].steady_cut_in_m, turns[_i].steady_gig, 5.1e-6);
	ck_assert(isnan(s.parts.at[0].stiff_cut_in_m));
	ck_assert_double_eq_tol(s.parts.at[1].stiff_cut_in_m, turns[_i].stiff, 5.1e-6);
	ck_assert(s.stiff);
	ck_assert_str_eq(s.parts.at[1].part, "gig");
	ck_assert_str_eq(s.turnout, "gig");
	rt_sweep_free(&s);
}
END_TEST

/* Round and round it settles on the steady circle. */
START_TEST(on_a_full_circle_it_settles)
{
	struct rt_sweep s;

	drive_turn(&s, &gig, turns[_i].diameter, 720, (struct rt_sweep_options){0});
	ck_assert_double_eq_tol(s.parts.at[0].cut_in_m, s.parts.at[0].steady_cut_in_m, 1e-9);
	ck_assert_double_eq_tol(s.parts.at[1].cut_in_m, s.parts.at[1].steady_cut_in_m, 1e-9);
	rt_sweep_free(&s);
}
END_TEST

/* Straight, arc of 90 degrees, straight (derived; aligned at the start); NAN: not given. */
static const struct {
	double radius, length, psi_deg, cut_in_end, largest, largest_at, steady;
} single[] = {
	{10, 2.6, 15.027216250, .341969551, .342058986, 15.898, .343913836},
	{5, 2.5, 28.234108787, .592833479, .605584048, NAN, .669872981},
	{5, 5, 47.489469, NAN, NAN, NAN, 5.0},
};

/* psi and cut-in of one link where the arc ends. */
static void check_arc_end(int i)
{
	const double r = single[i].radius;
	struct rt_path path = {0};
	const struct rt_pose *end;
	struct rt_sweep s;

	add(&path, 10, r, 90);
	drive(&s, &path, &one_link, (struct rt_sweep_options){.trace_m = 1e3});
	ck_assert_uint_eq(s.trace.n, 2);
	end = &s.trace.at[1].axle;
	ck_assert_double_eq_tol(s.trace.at[1].s_m, 10 + r * PI / 2, 1e-9);
	ck_assert_double_eq_tol(90 - atan2(end->toward.y, end->toward.x) * DEGREES,
				single[i].psi_deg, single[i].length < r ? 2e-8 : 6e-7);
	if (!isnan(single[i].cut_in_end))
		ck_assert_double_eq_tol(r - hypot(end->at.x - 10, end->at.y - r),
					single[i].cut_in_end, 1e-9);
	rt_sweep_free(&s);
	rt_path_free(&path);
}

START_TEST(one_link_follows_the_closed_form)
{
	struct rt_sweep s;

	link_part[0].length_m = single[_i].length;
	check_arc_end(_i);
	drive_turn(&s, &one_link, 2 * single[_i].radius, 90, (struct rt_sweep_options){0});
	ck_assert_double_eq_tol(s.parts.at[0].steady_cut_in_m, single[_i].steady, 1e-9);
	if (!isnan(single[_i].largest))
		ck_assert_double_eq_tol(s.parts.at[0].cut_in_m, single[_i].largest, SHORT);
	if (!isnan(single[_i].largest_at))
		ck_assert_double_eq_tol(s.parts.at[0].cut_in_at_m - 40, single[_i].largest_at,
					0.02);
	rt_sweep_free(&s);
}
END_TEST

/* psi of one link s metres along a circle, from psi = 0:
 * (u - u-)/(u - u+) = (u-/u+) exp(-s q/(R L)), u = tan(psi/2), q = sqrt(R^2 - L^2). */
static double circle_psi(double r, double l, double s)
{
	double q = sqrt(r * r - l * l), low = (r - q) / l, high = (r + q) / l;
	double k = low / high * exp(-s * q / (r * l));

	return 2 * atan((low - k * high) / (1 - k));
}

/* Every pose on the circle and, after it, on the straight: tan(psi/2) falls as exp(-s/L) (the
 * tractrix). */
START_TEST(every_pose_follows_the_closed_form)
{
	static const double lengths[] = {0.3, 1.35, 2.6, 6.0};
	const double r = 8, l = lengths[_i], arc = r * 200 / DEGREES;
	struct rt_path path = {0};
	struct rt_sweep s;

	link_part[0].length_m = l;
	add(&path, 5, r, 200);
	add(&path, 100, 0, 0);
	drive(&s, &path, &one_link, (struct rt_sweep_options){.trace_m = 0.5});
	ck_assert_uint_ge(s.trace.n, 120);
	for (size_t i = 0; i < s.trace.n; i++) {
		const struct rt_swept_pose *p = &s.trace.at[i];
		struct rt_pose at = rt_path_at(&path, p->s_m, NULL);
		double psi = atan2(at.toward.y * p->axle.toward.x - at.toward.x * p->axle.toward.y,
				   at.toward.x * p->axle.toward.x + at.toward.y * p->axle.toward.y);
		double on = fmax(0, p->s_m - 5), want = circle_psi(r, l, fmin(on, arc));

		if (on > arc)
			want = 2 * atan(tan(want / 2) * exp(-(on - arc) / l));
		ck_assert_double_eq_tol(psi, want, l < 1 ? 1e-7 : 1e-9);
		ck_assert_double_eq_tol(hypot(at.at.x - p->axle.at.x, at.at.y - p->axle.at.y), l,
					1e-9);
	}
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

START_TEST(three_links_follow_each_other)
{
	static struct rt_turnout_part part[] = {
		{"t", "1", 0, 1.6, 1, NAN, NAN, 0},
		{"t", "2", 0, 2.2, 1, NAN, NAN, 0},
		{"t", "3", 0, 1.3, 1, NAN, NAN, 0},
	};
	static const double largest[] = {.1288142, .3756691, .4625534};
	const struct rt_turnout_parts three = {.at = part, .n = 3};
	struct rt_sweep s;

	drive_turn(&s, &three, 20, 90, (struct rt_sweep_options){0});
	for (int k = 0; k < 3; k++)
		ck_assert_double_eq_tol(s.parts.at[k].cut_in_m, largest[k], SHORT);
	/* sum of squares, from memory of SAE and the Western Highway Institute */
	ck_assert_double_eq_tol(s.parts.at[2].steady_cut_in_m,
				10 - sqrt(100 - 1.6 * 1.6 - 2.2 * 2.2 - 1.3 * 1.3), 1e-12);
	rt_sweep_free(&s);
}
END_TEST

/* Directive 97/27/EC, Annex I 7.6.1.2: sqrt((12.50 - 2.04)^2 - (5.30 + W/2)^2), W = 2.55. */
START_TEST(the_published_formula_of_a_turning_circle)
{
	double cut_in;

	link_part[0].length_m = 5.30 + 2.55 / 2;
	rt_turnout_steady(&cut_in, &one_link, 12.50 - 2.04, false);
	ck_assert_double_eq_tol(12.50 - 2.04 - cut_in, 8.135, 5e-4);
	/* there is no such circle for a longer vehicle, but a turn can be driven */
	link_part[0].length_m = 11;
	rt_turnout_steady(&cut_in, &one_link, 12.50 - 2.04, false);
	ck_assert(isnan(cut_in));
}
END_TEST

/* A part longer than the turn comes across it without being beside the arc: in line with the
 * diagonal at the most. */
START_TEST(a_long_part_cuts_across_a_small_arc)
{
	struct rt_sweep s;

	link_part[0].length_m = 6;
	drive_turn(&s, &one_link, 3, 90, (struct rt_sweep_options){0});
	ck_assert(isnan(s.parts.at[0].steady_cut_in_m));
	/* 1.5 m arc; right-angled corner without any arc: the tractrix comes to within
	 * 6 m / sqrt 2 of both lines at the most */
	ck_assert_double_gt(s.parts.at[0].cut_in_m, 1.5);
	ck_assert_double_lt(s.parts.at[0].cut_in_m, 6 / sqrt(2));
	rt_sweep_free(&s);
}
END_TEST

/* ---- bend, lean and overturning ------------------------------------------------------------- */

/* Derived with g = 9.80665. */
static const struct {
	double speed, radius, lateral, lean_deg;
} leans[] = {
	{3.61, 10, 1.3032, 7.570},
	{3.61, 5, 2.6064, 14.884},
	{4.93, 10, 2.4305, 13.920},
};

START_TEST(lean_follows_the_pace)
{
	struct rt_sweep s;

	drive_turn(&s, &horse, 2 * leans[_i].radius, 90,
		   (struct rt_sweep_options){.speed_m_per_s = leans[_i].speed});
	ck_assert_double_eq_tol(s.lateral_m_per_s2, leans[_i].lateral, 5.1e-5);
	ck_assert_double_eq_tol(s.lean_deg, leans[_i].lean_deg, 5.1e-4);
	ck_assert_double_eq_tol(s.bend_deg, 1.35 / leans[_i].radius * DEGREES, 1e-9);
	ck_assert_uint_eq(s.overturning.n, 0);
	rt_sweep_free(&s);
}
END_TEST

/* t/(2h) - tan(slope); 20.9 degrees is 0.382 g (a published pair). */
START_TEST(overturning_is_told_where_track_and_height_are)
{
	struct rt_sweep s;

	drive_turn(&s, &gig, 20, 90, (struct rt_sweep_options){.speed_m_per_s = 3.61});
	ck_assert_uint_eq(s.overturning.n, 1);
	ck_assert_str_eq(s.overturning.at[0].part, "gig");
	ck_assert_double_eq_tol(s.overturning.at[0].limit, 0.69, 1e-12);
	ck_assert_double_eq_tol(s.overturning.at[0].share, 0.130321 * 10 / 9.80665 / 0.69, 1e-9);
	rt_sweep_free(&s);
	drive_turn(&s, &gig, 20, 90,
		   (struct rt_sweep_options){.speed_m_per_s = 3.61, .slope_deg = 20.9});
	ck_assert_double_eq_tol(s.overturning.at[0].limit, 0.69 - 0.382, 5e-4);
	rt_sweep_free(&s);
	/* it stands no more: no share of nothing */
	drive_turn(&s, &gig, 20, 90,
		   (struct rt_sweep_options){.speed_m_per_s = 3.61, .slope_deg = 40});
	ck_assert_double_lt(s.overturning.at[0].limit, 0);
	ck_assert(isnan(s.overturning.at[0].share));
	rt_sweep_free(&s);
}
END_TEST

START_TEST(a_level_accepts_the_bend_of_its_turns)
{
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	struct rt_sweep s;

	/* of a horse of 165 cm what a turn of 20 m asks */
	drive_turn(&s, &horse, 20, 90, (struct rt_sweep_options){.level = &level});
	ck_assert_double_eq_tol(s.accepted_bend_deg, 1.35 / 10 * DEGREES, 1e-9);
	ck_assert_double_eq_tol(s.accepted_bend_deg, s.bend_deg, 1e-9);
	rt_sweep_free(&s);
	/* of a pony of 12.2 hands, 127 cm, what a turn of 18 m asks */
	ck_assert_double_eq_tol(rt_level_bend_deg(&level, 0.82 * 1.27), 0.82 * 1.27 / 9 * DEGREES,
				1e-9);
}
END_TEST

/* ---- two tracks and stiff shafts ------------------------------------------------------------ */

START_TEST(on_two_tracks_the_hind_feet_keep_to_the_path)
{
	struct rt_sweep s;

	drive_turn(&s, &gig, 20, 720, (struct rt_sweep_options){.two_track = true, .trace_m = 1});
	ck_assert_double_eq(s.parts.at[0].cut_in_m, 0);
	ck_assert_double_eq_tol(s.parts.at[0].steady_cut_in_m, 0, 1e-12);
	/* the saddle lies on the path too */
	ck_assert_double_eq_tol(s.parts.at[1].cut_in_m, 10 - sqrt(100 - 2.55 * 2.55), 1e-9);
	ck_assert_double_eq_tol(s.parts.at[1].steady_cut_in_m, 10 - sqrt(100 - 2.55 * 2.55), 1e-12);
	ck_assert(isnan(s.parts.at[1].stiff_cut_in_m));
	for (size_t i = 0; i < s.trace.n; i++)
		if (s.trace.at[i].part == 0 && s.trace.at[i].s_m > 42 && s.trace.at[i].s_m < 160)
			ck_assert_double_eq_tol(
				hypot(s.trace.at[i].axle.at.x + 10, s.trace.at[i].axle.at.y - 40),
				10, 1e-9);
	rt_sweep_free(&s);
	/* one animal alone */
	drive_turn(&s, &horse, 20, 90, (struct rt_sweep_options){.two_track = true});
	ck_assert_double_eq(s.parts.at[0].cut_in_m, 0);
	ck_assert_double_eq_tol(s.inside_m, 0.325, 1e-9);
	rt_sweep_free(&s);
}
END_TEST

/* What hangs behind the hind feet swings: R_hitch^2 = R^2 + h^2. */
START_TEST(on_two_tracks_a_hitch_behind_swings_out)
{
	static struct rt_turnout_part part[] = {
		{"t", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
		{"t", "sledge", 0.8, 2, 1, NAN, NAN, 0},
	};
	const struct rt_turnout_parts turnout = {.at = part, .n = 2};
	struct rt_sweep s;

	drive_turn(&s, &turnout, 20, 720,
		   (struct rt_sweep_options){.two_track = true, .trace_m = 1});
	for (size_t i = 0; i < s.trace.n; i++)
		if (s.trace.at[i].part == 1 && s.trace.at[i].s_m > 120 && s.trace.at[i].s_m < 160)
			ck_assert_double_eq_tol(
				hypot(s.trace.at[i].axle.at.x + 10, s.trace.at[i].axle.at.y - 40),
				sqrt(100 + 0.64 - 4), 1e-9);
	/* and swings to the inside as the circle ends */
	ck_assert_double_gt(s.parts.at[1].cut_in_m, s.parts.at[1].steady_cut_in_m);
	ck_assert_double_eq_tol(s.parts.at[1].steady_cut_in_m, 10 - sqrt(100 + 0.64 - 4), 1e-12);
	rt_sweep_free(&s);
}
END_TEST

/* Stiff shafts are a vehicle hung at the fore feet; the band takes the worse. */
START_TEST(stiff_shafts_widen_the_band)
{
	static struct rt_turnout_part part[] = {
		{"t", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
		{"t", "gig", -1.35, 2.95, 1.55, NAN, NAN, 0},
	};
	const struct rt_turnout_parts stiff = {.at = part, .n = 2};
	struct rt_sweep hinged, body;

	drive_turn(&hinged, &gig, 20, 90, (struct rt_sweep_options){0});
	drive_turn(&body, &stiff, 20, 90, (struct rt_sweep_options){0});
	ck_assert(!body.stiff);
	/* one link of 2.95 m on an arc of 90 degrees, by DOP853 */
	ck_assert_double_eq_tol(body.parts.at[1].cut_in_m, 0.440116, 1e-6);
	ck_assert_double_eq_tol(body.parts.at[1].steady_cut_in_m, 10 - sqrt(100 - 2.95 * 2.95),
				1e-12);
	ck_assert_double_eq_tol(hinged.inside_m, body.inside_m, 1e-9);
	ck_assert_double_eq_tol(hinged.inside_m, 0.440116 + 0.775, 2e-3);
	ck_assert_double_eq_tol(hinged.outside_m, 0.775, 1e-9);
	rt_sweep_free(&hinged);
	rt_sweep_free(&body);
}
END_TEST

/* Three shafts and poles: between the feet it is in shafts, at or before the fore feet a pole. */
START_TEST(shafts_are_told_from_poles)
{
	static const struct {
		double hitch;
		size_t shafts;
	} rows[] = {{-0.95, 1},	     {-0.01, 1},	{0, RT__NONE},
		    {0.5, RT__NONE}, {-1.35, RT__NONE}, {-1.40, RT__NONE}};
	struct rt_turnout_part part[2] = {gig_parts[0], gig_parts[1]};
	const struct rt_turnout_parts turnout = {.at = part, .n = 2};

	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		part[1].hitch_m = rows[i].hitch;
		ck_assert_uint_eq(rt__turnout_shafts(&turnout), rows[i].shafts);
	}
}
END_TEST

/* ---- paths of many arcs --------------------------------------------------------------------- */

START_TEST(both_hands_cut_in_alike)
{
	struct rt_path path = {0};
	struct rt_sweep s;

	add(&path, 5, 10, 90);
	add(&path, 60, 10, -90);
	add(&path, 60, 5, 45);
	add(&path, 100, 0, 0);
	drive(&s, &path, &gig, (struct rt_sweep_options){0});
	ck_assert_uint_eq(s.arcs.n, 3);
	ck_assert_uint_eq(s.arcs.at[1].piece, 3);
	ck_assert_double_eq_tol(s.arcs.at[1].turned_deg, -90, 1e-9);
	ck_assert_double_eq_tol(s.arcs.at[0].cut_in_m[1], 0.37616, 5.1e-6);
	ck_assert_double_eq_tol(s.arcs.at[0].cut_in_m[1], s.arcs.at[1].cut_in_m[1], SHORT);
	ck_assert_double_eq_tol(s.arcs.at[0].inside_m, s.arcs.at[1].inside_m, 1e-5);
	ck_assert_double_eq(s.arcs.at[2].cut_in_m[1], s.parts.at[1].cut_in_m);
	ck_assert_double_eq_tol(s.radius_m, 5, 1e-12);
	ck_assert_double_gt(s.parts.at[1].cut_in_at_m, 5 + 10 * PI + 120);
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* A path alone asks nothing where it does not turn. */
START_TEST(straight_on_nothing_cuts_in)
{
	struct rt_path path = {0};
	struct rt_sweep s;

	add(&path, 100, 0, 0);
	drive(&s, &path, &gig, (struct rt_sweep_options){.speed_m_per_s = 3});
	ck_assert_double_eq(s.parts.at[1].cut_in_m, 0);
	ck_assert(isnan(s.parts.at[1].cut_in_at_m) && isnan(s.parts.at[1].steady_cut_in_m));
	ck_assert(isnan(s.radius_m) && isnan(s.bend_deg) && isnan(s.lean_deg));
	ck_assert_double_eq(s.inside_m, 0.775);
	ck_assert_double_eq(s.outside_m, 0.775);
	ck_assert_uint_eq(s.arcs.n + s.near.n, 0);
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* Nor on arcs of half a metre, where looks lie nearer. */
static struct rt_turnout_part pony_part[] = {{"pony", "pony", 0, 1, 0.6, NAN, NAN, 0}};
static const struct rt_turnout_parts pony = {.at = pony_part, .n = 1};

static const struct {
	const struct rt_turnout_parts *turnout;
	double diameter, angle;
} fine_turns[] = {{&gig, 15, 120}, {&pony, 1, 20}, {&pony, 3, 90}};

START_TEST(the_step_does_not_matter)
{
	const struct rt_turnout_parts *turnout = fine_turns[_i].turnout;
	struct rt_sweep fine, coarse;

	drive_turn(&fine, turnout, fine_turns[_i].diameter, fine_turns[_i].angle,
		   (struct rt_sweep_options){.step_m = 0.0005});
	drive_turn(&coarse, turnout, fine_turns[_i].diameter, fine_turns[_i].angle,
		   (struct rt_sweep_options){0});
	for (size_t k = 0; k < turnout->n; k++)
		ck_assert_double_eq_tol(fine.parts.at[k].cut_in_m, coarse.parts.at[k].cut_in_m,
					SHORT);
	ck_assert_double_eq_tol(fine.inside_m, coarse.inside_m, SHORT);
	ck_assert_double_eq_tol(fine.outside_m, coarse.outside_m, SHORT);
	rt_sweep_free(&fine);
	rt_sweep_free(&coarse);
}
END_TEST

/* ---- in a ring ------------------------------------------------------------------------------ */

static const struct rt_near *near_to(const struct rt_sweep *s, const char *what)
{
	for (size_t i = 0; i < s->near.n; i++)
		if (strcmp(s->near.at[i].what, what) == 0)
			return &s->near.at[i];
	ck_abort_msg("nothing is near %s", what);
	return NULL;
}

/* In at A, up the centreline, right at C with room, round the corner, down the track. */
static void ring_path(struct rt_path *path, double inset)
{
	const struct rt_pose start = {{0, -40}, {0, 1}};
	struct rt_error err;

	must(rt_path_straight(path, &start, 70 - inset, &err), &err);
	must(rt_path_arc(path, NULL, 10, -PI / 2, &err), &err);
	must(rt_path_arc(path, NULL, 10 - inset, -PI / 2, &err), &err);
	must(rt_path_straight(path, NULL, 50, &err), &err);
}

START_TEST(the_outer_wheel_stays_inside_the_boards)
{
	const double inset = rt_turnout_track(&gig);
	struct rt_path path = {0};
	struct rt_sweep s;

	ck_assert_double_eq_tol(inset, 1.55 / 2 + 0.25, 1e-12);
	ring_path(&path, inset);
	drive(&s, &path, &gig, (struct rt_sweep_options){.kind = &drive_ring[DRIVEN_40X80]});
	ck_assert_double_eq_tol(near_to(&s, "boards on the right")->distance_m, 0.25, 1e-5);
	ck_assert_str_eq(near_to(&s, "boards on the right")->part, "gig");
	ck_assert(near_to(&s, "boards on the right")->boards);
	ck_assert_double_ge(near_to(&s, "boards at the C end")->distance_m, 0.25);
	ck_assert_double_lt(near_to(&s, "boards at the C end")->distance_m, 1.025);
	/* on the way in, at its own width from the middle of A */
	ck_assert_double_eq_tol(s.entry_left_m, 0.775, 1e-9);
	ck_assert_double_eq_tol(s.entry_right_m, 0.775, 1e-9);
	ck_assert_double_eq_tol(near_to(&s, "boards on the left")->distance_m, 20 - 0.775, 1e-3);
	/* the track ends 10 m down from M: a letter is passed at the wheel's way off the boards */
	ck_assert_double_eq_tol(near_to(&s, "B")->distance_m, 0.25, 1e-3);
	ck_assert_double_eq_tol(near_to(&s, "B")->y_m, 0, 0.05);
	ck_assert_double_eq_tol(near_to(&s, "E")->distance_m, 20 - 0.775, 1e-3);
	ck_assert(!near_to(&s, "B")->boards);
	for (size_t i = 0; i < s.near.n; i++)
		ck_assert_str_ne(s.near.at[i].what, "X");
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* Every distance against a look at every pose of a fine trace. */
START_TEST(nothing_comes_nearer_than_told)
{
	const struct rt_ring_kind *kind = &drive_ring[DRIVEN_40X80];
	struct rt_path path = {0};
	struct rt_pegs pegs = {0};
	struct rt_error err;
	struct rt_sweep s;

	ring_path(&path, 1.3);
	drive(&s, &path, &gig, (struct rt_sweep_options){.kind = kind, .trace_m = 0.01});
	must(rt_ring_pegs(&pegs, kind, &err), &err);
	for (size_t i = 0; i < s.near.n; i++) {
		const struct rt_peg *peg = rt_peg_find(&pegs, s.near.at[i].what);
		double nearest = INFINITY;

		if (!peg || peg->side == RT_SIDE_A)
			continue;
		for (size_t k = 0; k < s.trace.n; k++) {
			const struct rt_swept_pose *p = &s.trace.at[k];
			double half = gig.at[p->part].width_m / 2;

			for (int end = -1; end <= 1; end += 2)
				nearest = fmin(nearest,
					       hypot(p->axle.at.x - end * half * p->axle.toward.y -
							     peg->x_m,
						     p->axle.at.y + end * half * p->axle.toward.x -
							     peg->y_m));
		}
		ck_assert_double_eq_tol(s.near.at[i].distance_m, nearest, 1e-3);
	}
	rt_pegs_free(&pegs);
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* Once round beside the boards: settled, the outer end of the axle is
 * sqrt(5^2 - 1.35^2) + 0.325 m from the centre, and is found there within a millimetre wherever the
 * looks fall. */
START_TEST(the_nearest_to_the_boards_lies_between_looks)
{
	const double radius = 5.0, reach = sqrt(5.0 * 5.0 - 1.35 * 1.35) + 0.325;

	for (int i = 0; i < 10; i++) {
		double at = PI + 0.007 * i; /* of the circle, on its far side */
		const struct rt_pose start = {{12.0 + radius * cos(at), radius * sin(at)},
					      {-sin(at), cos(at)}};
		struct rt_path path = {0};
		struct rt_error err;
		struct rt_sweep s;

		must(rt_path_arc(&path, &start, radius, 2.0 * PI, &err), &err);
		drive(&s, &path, &horse,
		      (struct rt_sweep_options){.kind = &drive_ring[DRIVEN_40X80]});
		ck_assert_double_eq_tol(near_to(&s, "boards on the right")->distance_m,
					20.0 - 12.0 - reach, 1e-3);
		rt_sweep_free(&s);
		rt_path_free(&path);
	}
}
END_TEST

/* A path comes in at A from a track of up to 3 m inside the boards; one that begins farther in has
 * stood in the ring, its hind feet 1.35 m behind. */
START_TEST(a_path_comes_in_from_a_track)
{
	const struct rt_pose start = {{0, _i ? -36.9 : -37.1}, {0, 1}};
	struct rt_path path = {0};
	struct rt_error err;
	struct rt_sweep s;

	must(rt_path_straight(&path, &start, 40, &err), &err);
	drive(&s, &path, &horse, (struct rt_sweep_options){.kind = &drive_ring[DRIVEN_40X80]});
	if (_i)
		ck_assert_double_eq_tol(near_to(&s, "boards at the A end")->distance_m, 3.1 - 1.35,
					1e-3);
	for (size_t i = 0; i < s.near.n && !_i; i++)
		ck_assert_str_ne(s.near.at[i].what, "boards at the A end");
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* Out at A: the end that is driven out through does not count, a path that runs into the boards
 * elsewhere does. */
START_TEST(boards_are_left_only_at_a)
{
	const struct rt_pose out = {{0, 20}, {0, -1}}, into = {{0, -20}, {0, 1}};
	struct rt_path path = {0};
	struct rt_error err;
	struct rt_sweep s;

	must(rt_path_straight(&path, &out, 60, &err), &err);
	drive(&s, &path, &gig, (struct rt_sweep_options){.kind = &drive_ring[DRIVEN_40X80]});
	for (size_t i = 0; i < s.near.n; i++)
		ck_assert_str_ne(s.near.at[i].what, "boards at the A end");
	ck_assert(isnan(s.entry_left_m));
	rt_sweep_free(&s);
	rt_path_free(&path);
	must(rt_path_straight(&path, &into, 65, &err), &err);
	drive(&s, &path, &gig, (struct rt_sweep_options){.kind = &drive_ring[DRIVEN_40X80]});
	/* hind feet at 43.65: 3.65 m past them */
	ck_assert_double_eq_tol(near_to(&s, "boards at the C end")->distance_m, -3.65, 1e-9);
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* ---- turnouts ------------------------------------------------------------------------------- */

START_TEST(turnouts_are_found_by_name)
{
	struct rt_turnout_part rows[] = {
		{"gig", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
		{"pair", "pair", 0, 1.3, 1.6, NAN, NAN, 0},
		{"gig", "gig", -0.95, 2.55, 1.55, NAN, NAN, 0},
	};
	const struct rt_turnout_parts all = {.at = rows, .n = 3};
	struct rt_turnout_parts found;
	struct rt_error err;

	must(rt_turnout_named(&found, &all, "gig", &err), &err);
	ck_assert_uint_eq(found.n, 2);
	ck_assert_str_eq(found.at[1].part, "gig");
	RT_LIST_FREE(&found);
	ck_assert_int_eq(rt_turnout_named(&found, &all, "pairs", &err), RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "unknown turnout \"pairs\": did you mean \"pair\"?");
	ck_assert_int_eq(rt_turnout_named(&found, &all, "stagecoach", &err), RT_E_NOTFOUND);
	ck_assert_str_eq(err.text, "unknown turnout \"stagecoach\": gig, pair");
}
END_TEST

static const struct {
	double hitch, length, width, track, cog;
	const char *said;
} bad[] = {
	{0, 0, 1, NAN, NAN, "turnout gig: cart has no length"},
	{0, -1, 1, NAN, NAN, "turnout gig: cart has no length"},
	{0, NAN, 1, NAN, NAN, "turnout gig: cart has no length"},
	{0, INFINITY, 1, NAN, NAN, "turnout gig: cart has no length"},
	{0, 1, 0, NAN, NAN, "turnout gig: cart has no width"},
	{NAN, 1, 1, NAN, NAN, "turnout gig: cart has no hitch"},
	{0, 1, 1, 0, 1, "turnout gig: cart has a track or centre of gravity that is not over 0"},
	{0, 1, 1, 1, -1, "turnout gig: cart has a track or centre of gravity that is not over 0"},
};

START_TEST(a_part_that_cannot_be_is_named)
{
	struct rt_turnout_part rows[] = {
		{"gig", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
		{"gig", "cart", bad[_i].hitch, bad[_i].length, bad[_i].width, bad[_i].track,
		 bad[_i].cog},
	};
	const struct rt_turnout_parts all = {.at = rows, .n = 2};
	struct rt_turnout_parts found;
	struct rt_error err;

	ck_assert_int_eq(rt_turnout_named(&found, &all, "gig", &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, bad[_i].said);
	ck_assert_uint_eq(found.n, 0);
}
END_TEST

START_TEST(a_turnout_has_so_many_parts)
{
	struct rt_turnout_part rows[RT_TURNOUT_PARTS_MOST + 1];
	struct rt_turnout_parts all = {.at = rows, .n = RT_TURNOUT_PARTS_MOST}, found;
	struct rt_error err;
	struct rt_sweep s;

	for (size_t i = 0; i < RT_TURNOUT_PARTS_MOST + 1; i++)
		rows[i] = (struct rt_turnout_part){"train", "part", i ? -0.2 : 0, 1, 1, NAN, NAN};
	must(rt_turnout_named(&found, &all, "train", &err), &err);
	drive_turn(&s, &found, 20, 360, (struct rt_sweep_options){.trace_m = 1});
	ck_assert_uint_eq(s.parts.n, RT_TURNOUT_PARTS_MOST);
	rt_sweep_free(&s);
	RT_LIST_FREE(&found);
	all.n++;
	ck_assert_int_eq(rt_turnout_named(&found, &all, "train", &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "turnout train: 13 parts: accepted: up to 12");
}
END_TEST

START_TEST(what_cannot_be_swept_is_refused)
{
	const struct rt_sweep_options good = {0}, steep = {.slope_deg = 45}, back = {.step_m = -1},
				      no_trace = {.trace_m = NAN}, least = {.step_m = 0.0001},
				      less = {.step_m = 0.00009};
	const struct rt_turnout_parts nothing = {0};
	struct rt_path empty = {0}, path;
	struct rt_error err;
	struct rt_sweep s;

	ck_assert_int_eq(rt_sweep_turn(&path, 0, 90, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_turn(&path, 20, 0, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_turn(&path, INFINITY, 90, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_make(&s, &empty, &gig, &good, &err), RT_E_INPUT);
	must(rt_sweep_turn(&path, 20, 90, &err), &err);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &nothing, &good, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &gig, &steep, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &gig, &back, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &gig, &no_trace, &err), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &gig, &less, &err), RT_E_USAGE);
	must(rt_sweep_make(&s, &path, &gig, &least, &err), &err);
	rt_sweep_free(&s);
	rt_path_free(&path);
}
END_TEST

/* Nonsense of a size that intake lets through: told, never a figure that is none. */
START_TEST(what_no_step_follows_is_told)
{
	struct rt_turnout_part part[] = {
		{"t", "horse", 0, 0.1, 1, NAN, NAN, 0},
		{"t", "2", 20, 0.1, 1, NAN, NAN, 0},
		{"t", "3", 20, 0.1, 1, NAN, NAN, 0},
	};
	const struct rt_turnout_parts turnout = {.at = part, .n = 3};
	const struct rt_sweep_options options = {0};
	struct rt_path path;
	struct rt_error err;
	struct rt_sweep s;

	must(rt_sweep_turn(&path, 20, 90, &err), &err);
	ck_assert_int_eq(rt_sweep_make(&s, &path, &turnout, &options, &err), RT_E_NUMERIC);
	ck_assert_str_eq(err.text, "turnout t cannot be followed: a part is too short for how far "
				   "off the axle the next one hangs");
	ck_assert_uint_eq(s.parts.n, 0);
	rt_path_free(&path);
}
END_TEST

START_TEST(a_centimetre_is_a_length)
{
	struct rt_turnout_part row = {"toy", "toy", 0, 0.01, 1, NAN, NAN, 0};
	const struct rt_turnout_parts all = {.at = &row, .n = 1};
	struct rt_turnout_parts found;
	struct rt_error err;

	must(rt_turnout_named(&found, &all, "toy", &err), &err);
	RT_LIST_FREE(&found);
	row.length_m = 0.0099;
	ck_assert_int_eq(rt_turnout_named(&found, &all, "toy", &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "turnout toy: toy has no length");
}
END_TEST

/* ---- reports -------------------------------------------------------------------------------- */

static const struct rt_table *table(const struct rt_report *r, const char *name)
{
	for (size_t i = 0; i < r->tables; i++)
		if (strcmp(r->table[i]->name, name) == 0)
			return r->table[i];
	return NULL;
}

static bool noted(const struct rt_report *r, const char *start)
{
	for (size_t i = 0; i < r->notes; i++)
		if (strncmp(r->note[i], start, strlen(start)) == 0)
			return true;
	return false;
}

START_TEST(the_report_tells_it_all)
{
	struct rt_report r = {0};
	struct rt_error err;
	struct rt_sweep s;
	const struct rt_table *parts;

	drive_turn(&s, &gig, 20, 90, (struct rt_sweep_options){.speed_m_per_s = 9});
	must(rt_sweep_report(&r, &s, &err), &err);
	parts = table(&r, "parts");
	ck_assert_uint_eq(rt_table_rows(parts), 2);
	ck_assert_str_eq(parts->column[3].name, "stiff_cut_in_m");
	ck_assert(rt_table_cell(parts, 0, 3)->null);
	ck_assert_double_eq(rt_table_cell(parts, 1, 1)->as.real, s.parts.at[1].cut_in_m);
	ck_assert_double_eq(rt_table_cell(parts, 1, 3)->as.real, s.parts.at[1].stiff_cut_in_m);
	ck_assert_ptr_nonnull(table(&r, "asked"));
	ck_assert_ptr_nonnull(table(&r, "overturning"));
	ck_assert_ptr_null(table(&r, "near"));
	/* 8.1 m/s2 is 0.83 g, over the gig's 0.69 */
	ck_assert(noted(&r, "gig is past its overturning limit"));
	ck_assert_str_eq(r.note[r.notes - 1], RT_CAUTION);
	rt_report_free(&r);
	rt_sweep_free(&s);
}
END_TEST

START_TEST(turns_with_a_turnout_have_a_row_an_arc)
{
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options plain = {0}, tight = {.diameter_m = 15};
	const struct rt_sweep_options options = {0};
	struct rt_turns t;
	struct rt_report r = {0};
	struct rt_error err;
	const struct rt_table *swept;

	must(rt_turns_make(&t, &drive_ring[DRIVEN_40X80], &level, &drive_gaits, &plain, &err),
	     &err);
	must(rt_turns_sweep_report(&r, &t, &level, &gig, &options, &err), &err);
	swept = table(&r, "swept");
	ck_assert_uint_eq(rt_table_rows(swept), t.list.n);
	for (size_t i = 0; i < t.list.n; i++) {
		double cut_in = rt_table_cell(swept, i, 3)->as.real;

		ck_assert_str_eq(rt_table_cell(swept, i, 0)->as.text, t.list.at[i].turn);
		/* a quarter turn alone, or more where nothing straight lies between two */
		if (t.list.at[i].angle_deg > 89)
			ck_assert_double_ge(cut_in, 0.3760);
		ck_assert_double_lt(cut_in, 0.3784);
	}
	ck_assert_double_eq_tol(rt_table_cell(table(&r, "parts"), 1, 1)->as.real, 0.37616, 5.1e-6);
	ck_assert(!noted(&r, "The tightest turn asks more bend"));
	rt_report_free(&r);
	rt_turns_free(&t);
	must(rt_turns_make(&t, &drive_ring[DRIVEN_40X80], &level, &drive_gaits, &tight, &err),
	     &err);
	must(rt_turns_sweep_report(&r, &t, &level, &gig, &options, &err), &err);
	ck_assert(noted(&r, "The tightest turn asks more bend"));
	rt_report_free(&r);
	rt_turns_free(&t);
}
END_TEST

/* What cuts in the most through the arcs of a figure, each driven on for 100 m: computed anew. */
static void check_figure(const struct rt_table *swept, const struct rt_turns *t, size_t first,
			 const struct rt_turnout_parts *turnout, double within)
{
	const struct rt_turn *turn = &t->list.at[first];
	struct rt_path path = {0};
	struct rt_sweep s;

	add(&path, 0, t->diameter_m / 2,
	    turn[0].hand == RT_LEFT ? turn[0].angle_deg : -turn[0].angle_deg);
	add(&path, turn[0].straight_m, t->diameter_m / 2,
	    turn[1].hand == RT_LEFT ? turn[1].angle_deg : -turn[1].angle_deg);
	add(&path, 100, 0, 0);
	drive(&s, &path, turnout, (struct rt_sweep_options){0});
	for (size_t i = 0; i < 2; i++) {
		double most = 0;

		for (size_t k = 0; k < turnout->n; k++)
			most = fmax(most, s.arcs.at[i].cut_in_m[k]);
		ck_assert_double_eq_tol(rt_table_cell(swept, first + i, 3)->as.real, most, within);
	}
	rt_sweep_free(&s);
	rt_path_free(&path);
}

/* The last of a long train cuts in the most when its horse has gone on for many metres: of 36 m
 * far along the straight, where looks lie 4 cm apart. */
START_TEST(a_long_train_is_driven_out_of_its_turns)
{
	struct rt_turnout_part part[8] = {{"train", "horse", 0, 1.35, 0.65, NAN, NAN, 0}};
	const struct rt_turnout_parts train = {.at = part, .n = _i ? 8 : 3};
	const struct rt_level level = drive_level(RT_DRIVEN, 15);
	const struct rt_turn_options plain = {0};
	const struct rt_sweep_options options = {0};
	struct rt_report r = {0};
	struct rt_turns t;
	struct rt_error err;

	for (size_t i = 1; i < 8; i++)
		part[i] = (struct rt_turnout_part){"train", "wagon", 0.5, 4.5, 1.6, NAN, NAN, 0};
	must(rt_turns_make(&t, &drive_ring[DRIVEN_40X80], &level, &drive_gaits, &plain, &err),
	     &err);
	must(rt_turns_sweep_report(&r, &t, &level, &train, &options, &err), &err);
	for (size_t i = 0; i + 1 < t.list.n; i++)
		if (t.list.at[i].straight_m >= 0)
			check_figure(table(&r, "swept"), &t, i, &train, _i ? 0.005 : 1e-9);
	rt_report_free(&r);
	rt_turns_free(&t);
}
END_TEST

int check_sweep(void)
{
	Suite *suite = suite_create("sweep");
	TCase *c = tcase_create("sweep");

	tcase_set_timeout(c, 60);
	tcase_add_loop_test(c, a_gig_cuts_in_as_computed_elsewhere, 0, ROWS(turns));
	tcase_add_loop_test(c, on_a_full_circle_it_settles, 0, ROWS(turns));
	tcase_add_loop_test(c, one_link_follows_the_closed_form, 0, ROWS(single));
	tcase_add_loop_test(c, every_pose_follows_the_closed_form, 0, 4);
	tcase_add_test(c, three_links_follow_each_other);
	tcase_add_test(c, the_published_formula_of_a_turning_circle);
	tcase_add_test(c, a_long_part_cuts_across_a_small_arc);
	tcase_add_loop_test(c, lean_follows_the_pace, 0, ROWS(leans));
	tcase_add_test(c, overturning_is_told_where_track_and_height_are);
	tcase_add_test(c, a_level_accepts_the_bend_of_its_turns);
	tcase_add_test(c, on_two_tracks_the_hind_feet_keep_to_the_path);
	tcase_add_test(c, on_two_tracks_a_hitch_behind_swings_out);
	tcase_add_test(c, stiff_shafts_widen_the_band);
	tcase_add_test(c, shafts_are_told_from_poles);
	tcase_add_test(c, both_hands_cut_in_alike);
	tcase_add_test(c, straight_on_nothing_cuts_in);
	tcase_add_loop_test(c, the_step_does_not_matter, 0, ROWS(fine_turns));
	tcase_add_test(c, the_outer_wheel_stays_inside_the_boards);
	tcase_add_test(c, nothing_comes_nearer_than_told);
	tcase_add_test(c, the_nearest_to_the_boards_lies_between_looks);
	tcase_add_loop_test(c, a_path_comes_in_from_a_track, 0, 2);
	tcase_add_test(c, boards_are_left_only_at_a);
	tcase_add_test(c, turnouts_are_found_by_name);
	tcase_add_loop_test(c, a_part_that_cannot_be_is_named, 0, ROWS(bad));
	tcase_add_test(c, a_centimetre_is_a_length);
	tcase_add_test(c, a_turnout_has_so_many_parts);
	tcase_add_test(c, what_cannot_be_swept_is_refused);
	tcase_add_test(c, what_no_step_follows_is_told);
	tcase_add_test(c, the_report_tells_it_all);
	tcase_add_test(c, turns_with_a_turnout_have_a_row_an_arc);
	tcase_add_loop_test(c, a_long_train_is_driven_out_of_its_turns, 0, 2);
	suite_add_tcase(suite, c);
	return suite_run(suite);
}
