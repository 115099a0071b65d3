/* Checks of drive: cones and their tapes, the lines of a movement, the edges of a swept band.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drive/internal.h"
#include "drive_rings.h"
#include "suite.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))
#define PI	     3.14159265358979324
#define MOST	     12

/* ---- what is looked at ----------------------------------------------------------------------- */

static void make_turns(struct rt_turns *out, enum drive_ring ring, double diameter_m,
		       double track_m)
{
	const struct rt_level level = drive_level(drive_ring[ring].discipline, diameter_m);
	const struct rt_turn_options options = {.track_m = track_m};

	ck_assert_int_eq(
		rt_turns_make(out, &drive_ring[ring], &level, &drive_gaits, &options, NULL), RT_OK);
}

/* A route of figures, one a movement. */
static void make_route(struct rt_route *out, enum drive_ring ring, double diameter_m,
		       const char *const *figure, size_t n)
{
	const struct rt_level level = drive_level(drive_ring[ring].discipline, diameter_m);
	const struct rt_turn_options options = {0};
	struct rt_movement_figure row[MOST];
	const struct rt_movement_figures list = {.at = row, .n = n};

	ck_assert_uint_le(n, MOST);
	for (size_t i = 0; i < n; i++)
		row[i] = (struct rt_movement_figure){"m", figure[i], "trot", NULL, 0};
	ck_assert_int_eq(
		rt_route_make(out, &drive_ring[ring], &level, &drive_gaits, &list, &options, NULL),
		RT_OK);
	ck_assert_uint_eq(out->problems.n, 0);
}

/* ---- cones ----------------------------------------------------------------------------------- */

/* Where two tapes cross: to the left (1) or right (-1) of the way from one letter to the other. */
static struct rt_vec crossing(struct rt_vec p, double d, struct rt_vec q, double e, double side)
{
	double between = rt__distance(p, q);
	struct rt_vec along = rt__toward(p, q);
	double a = (between * between + d * d - e * e) / (2.0 * between);
	double h = side * sqrt(fmax(0.0, d * d - a * a));

	return (struct rt_vec){p.x + a * along.x - h * along.y, p.y + a * along.y + h * along.x};
}

static bool in_ring(const struct rt_ring_kind *kind, struct rt_vec at)
{
	return fabs(at.x) <= kind->width_m / 2.0 + 0.0999 &&
	       fabs(at.y) <= kind->length_m / 2.0 + 0.0999;
}

/* Which of the two crossings the words mean, worked out without the cone's own place. */
static struct rt_vec told_crossing(const struct rt_ring_kind *kind, const struct rt_cone *cone)
{
	static const char side[] = "on the side of ", corner[] = "the corner ";
	const char *name = cone->side + strlen(side);
	struct rt_peg p, q, third;
	struct rt_vec both[2];

	ck_assert_int_eq(rt_ring_peg(&p, kind, cone->tape[0].letter, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_peg(&q, kind, cone->tape[1].letter, NULL), RT_OK);
	for (int i = 0; i < 2; i++)
		both[i] = crossing(rt__peg_point(&p), cone->tape[0].distance_m, rt__peg_point(&q),
				   cone->tape[1].distance_m, i ? -1.0 : 1.0);
	if (strcmp(cone->side, "inside the ring") == 0) {
		ck_assert_msg(in_ring(kind, both[0]) != in_ring(kind, both[1]),
			      "cone %d: both crossings are inside", cone->number);
		return both[in_ring(kind, both[1])];
	}
	if (strcmp(cone->side, "at the letter") == 0)
		return both[0];
	ck_assert_mem_eq(cone->side, side, strlen(side));
	if (strncmp(name, corner, strlen(corner)) == 0)
		name += strlen(corner);
	ck_assert_int_eq(rt_ring_peg(&third, kind, name, NULL), RT_OK);
	return both[(q.x_m - p.x_m) * (third.y_m - p.y_m) - (q.y_m - p.y_m) * (third.x_m - p.x_m) <
		    0.0];
}

/* sqrt(s1^2 + s2^2) / sin(angle between the tapes), with s = 10 mm + 0.2 mm a metre. */
static double tapes_error(const struct rt_ring_kind *kind, const struct rt_cone *cone)
{
	struct rt_vec at = {cone->x_m, cone->y_m}, toward[2];
	double s[2];

	for (int k = 0; k < 2; k++) {
		struct rt_peg peg;

		ck_assert_int_eq(rt_ring_peg(&peg, kind, cone->tape[k].letter, NULL), RT_OK);
		toward[k] = rt__toward(at, rt__peg_point(&peg));
		s[k] = 0.010 + 0.0002 * cone->tape[k].distance_m;
	}
	return hypot(s[0], s[1]) / fabs(toward[0].x * toward[1].y - toward[0].y * toward[1].x);
}

/* The least error of all pairs of letters within the tape whose line passes the cone 0.25 m off or
 * more; infinite where there is none. */
static double least_error(const struct rt_ring_kind *kind, double tape_m, struct rt_vec at)
{
	struct rt_pegs pegs = {0};
	double least = INFINITY;

	ck_assert_int_eq(rt_ring_pegs(&pegs, kind, NULL), RT_OK);
	for (size_t i = 0; i < pegs.n; i++)
		for (size_t k = 0; k < i; k++) {
			const struct rt_peg *p = &pegs.at[i], *q = &pegs.at[k];
			double d = hypot(p->x_m - at.x, p->y_m - at.y);
			double e = hypot(q->x_m - at.x, q->y_m - at.y);
			double angle = atan2(p->y_m - at.y, p->x_m - at.x) -
				       atan2(q->y_m - at.y, q->x_m - at.x);
			double beside = fabs(d * e * sin(angle)) /
					hypot(p->x_m - q->x_m, p->y_m - q->y_m);

			if (!p->corner && !q->corner && p->side != RT_CENTRE &&
			    q->side != RT_CENTRE && d <= tape_m && e <= tape_m && beside > 0.25)
				least = fmin(least, hypot(0.010 + 0.0002 * d, 0.010 + 0.0002 * e) /
							    fabs(sin(angle)));
		}
	RT_LIST_FREE(&pegs);
	return least;
}

/* Words of a side are needed only where both crossings are in the ring or hardly outside. */
static void check_side(const struct rt_ring_kind *kind, const struct rt_cone *cone)
{
	struct rt_peg p, q;

	ck_assert_int_eq(rt_ring_peg(&p, kind, cone->tape[0].letter, NULL), RT_OK);
	ck_assert_int_eq(rt_ring_peg(&q, kind, cone->tape[1].letter, NULL), RT_OK);
	for (int i = 0; i < 2 && strcmp(cone->side, "inside the ring") != 0; i++) {
		struct rt_vec at = crossing(rt__peg_point(&p), cone->tape[0].distance_m,
					    rt__peg_point(&q), cone->tape[1].distance_m,
					    i ? -1.0 : 1.0);

		ck_assert_double_le(fabs(at.x), kind->width_m / 2.0 + 0.11);
		ck_assert_double_le(fabs(at.y), kind->length_m / 2.0 + 0.11);
	}
}

static void judge_cones(const struct rt_ring_kind *kind, const struct rt_cones *cones)
{
	for (size_t i = 0; i < cones->list.n; i++) {
		const struct rt_cone *cone = &cones->list.at[i];
		struct rt_vec at = {cone->x_m, cone->y_m}, told;

		ck_assert_int_eq(cone->number, (int)i + 1);
		for (int k = 0; k < 2; k++) {
			struct rt_peg peg;

			ck_assert_int_eq(rt_ring_peg(&peg, kind, cone->tape[k].letter, NULL),
					 RT_OK);
			ck_assert(!peg.corner && peg.side != RT_CENTRE);
			ck_assert_double_le(cone->tape[k].distance_m, cones->tape_m);
			ck_assert_double_eq_tol(rt__distance(at, rt__peg_point(&peg)),
						cone->tape[k].distance_m, 0.005);
		}
		told = told_crossing(kind, cone);
		ck_assert_msg(rt__distance(told, at) < 0.006, "cone %d, %s: %.3f m off",
			      cone->number, cone->where, rt__distance(told, at));
		if (strcmp(cone->side, "at the letter") != 0) {
			ck_assert_double_eq_tol(cone->error_m, tapes_error(kind, cone), 1e-6);
			ck_assert_double_eq_tol(cone->error_m, least_error(kind, cones->tape_m, at),
						1e-6);
			check_side(kind, cone);
		}
		/* well crossed: worse than 3 cm is nowhere needed */
		ck_assert_double_le(cone->error_m, 0.03);
		for (size_t k = 0; k < i; k++)
			ck_assert_double_gt(
				rt__distance(at, (struct rt_vec){cones->list.at[k].x_m,
								 cones->list.at[k].y_m}),
				0.01);
	}
}

static bool has_cone(const struct rt_cones *cones, double x, double y)
{
	for (size_t i = 0; i < cones->list.n; i++)
		if (hypot(cones->list.at[i].x_m - x, cones->list.at[i].y_m - y) <= 0.01)
			return true;
	return false;
}

static const struct {
	enum drive_ring ring;
	double diameter_m, track_m;
} levels[] = {
	{DRIVEN_40X80, 20, 0},	{DRIVEN_40X80, 18, 0},	  {DRIVEN_40X80, 15, 1.25},
	{DRIVEN_40X100, 20, 0}, {DRIVEN_40X100, 15, 0.8}, {RIDDEN_20X40, 10, 0},
	{RIDDEN_20X60, 8, 0.5}, {RIDDEN_20X60, 6, 0},
};

START_TEST(every_turn_has_its_cones)
{
	const struct rt_ring_kind *kind = &drive_ring[levels[_i].ring];
	struct rt_turns turns = {0};
	struct rt_cones cones = {0};
	size_t fitting = 0;

	make_turns(&turns, levels[_i].ring, levels[_i].diameter_m, levels[_i].track_m);
	ck_assert_int_eq(rt_cones_make(&cones, &turns.list, kind, 50.0, NULL), RT_OK);
	ck_assert_uint_eq(cones.unreached, 0);
	judge_cones(kind, &cones);
	for (size_t i = 0; i < turns.list.n; i++) {
		const struct rt_turn *t = &turns.list.at[i];
		double half = t->angle_deg / RT__DEGREES / 2.0 * (t->hand == RT_LEFT ? 1.0 : -1.0);
		double x = t->begin_x_m - t->centre_x_m, y = t->begin_y_m - t->centre_y_m;

		if (!t->fits)
			continue;
		fitting++;
		ck_assert(has_cone(&cones, t->begin_x_m, t->begin_y_m));
		ck_assert(has_cone(&cones, t->finish_x_m, t->finish_y_m));
		ck_assert(has_cone(&cones, t->centre_x_m + cos(half) * x - sin(half) * y,
				   t->centre_y_m + sin(half) * x + cos(half) * y));
	}
	/* arcs of several figures, and of both directions, are there once */
	ck_assert_uint_gt(cones.arcs.n, 0);
	ck_assert_uint_lt(cones.arcs.n, fitting);
	ck_assert_uint_le(cones.list.n, 3 * cones.arcs.n);
	rt_cones_free(&cones);
	rt_turns_free(&turns);
}
END_TEST

/* A circle of 20 m at E begins at the letter; its other cones stand at (-10, 10), X, (-10, -10). */
START_TEST(a_circle_has_four_cones)
{
	static const char *const figure[] = {"X", "C H", "E circle:20:left", "K"};
	const struct rt_ring_kind *kind = &drive_ring[DRIVEN_40X80];
	struct rt_route route = {0};
	struct rt_cones cones = {0};
	size_t circle = 0;

	make_route(&route, DRIVEN_40X80, 18.0, figure, COUNT(figure));
	ck_assert_int_eq(rt_cones_make(&cones, &route.turns, kind, 50.0, NULL), RT_OK);
	judge_cones(kind, &cones);
	ck_assert(has_cone(&cones, -20, 0) && has_cone(&cones, -10, 10) && has_cone(&cones, 0, 0) &&
		  has_cone(&cones, -10, -10));
	for (size_t i = 0; i < cones.list.n; i++)
		circle += strstr(cones.list.at[i].where, "circle") != NULL;
	ck_assert_uint_eq(circle, 4);
	for (size_t i = 0; i < cones.list.n; i++)
		if (hypot(cones.list.at[i].x_m + 20.0, cones.list.at[i].y_m) < 0.01) {
			ck_assert_str_eq(cones.list.at[i].side, "at the letter");
			ck_assert_str_eq(cones.list.at[i].tape[0].letter, "E");
			ck_assert_double_eq(cones.list.at[i].tape[0].distance_m, 0.0);
			ck_assert_str_eq(cones.list.at[i].where,
					 "circle at E left, begin and finish");
		}
	rt_cones_free(&cones);
	rt_route_free(&route);
}
END_TEST

/* ---- arcs by themselves ---------------------------------------------------------------------- */

/* An arc to the left of 10 m radius that begins at its right. */
static struct rt_turn left_arc(double begin_x, double begin_y, double angle_deg)
{
	double turned = angle_deg / RT__DEGREES;

	return (struct rt_turn){.turn = "arc",
				.hand = RT_LEFT,
				.begin_x_m = begin_x,
				.begin_y_m = begin_y,
				.finish_x_m = begin_x - 10.0 + 10.0 * cos(turned),
				.finish_y_m = begin_y + 10.0 * sin(turned),
				.centre_x_m = begin_x - 10.0,
				.centre_y_m = begin_y,
				.diameter_m = 20.0,
				.angle_deg = angle_deg,
				.arc_m = 10.0 * turned,
				.fits = true};
}

static void cones_of_arcs(struct rt_cones *out, struct rt_turn *arc, size_t n)
{
	const struct rt_turn_list list = {.at = arc, .n = n};

	*out = (struct rt_cones){0};
	ck_assert_int_eq(rt_cones_make(out, &list, &drive_ring[DRIVEN_40X80], 50.0, NULL), RT_OK);
	ck_assert_uint_eq(out->unreached, 0);
}

/* Begin, middle and finish; half circles and more every quarter, a circle once where it closes. */
static const struct {
	double angle_deg;
	size_t cones;
} quartered[] = {{60, 3}, {90, 3}, {179, 3}, {180, 5}, {270, 5}, {359, 5}, {360, 4}};

START_TEST(half_circles_have_a_cone_every_quarter)
{
	struct rt_turn arc = left_arc(5.0, 0.0, quartered[_i].angle_deg);
	double quarter = arc.angle_deg / RT__DEGREES / 4.0;
	size_t parts = quartered[_i].cones < 4 ? 2 : 4;
	struct rt_cones cones;

	cones_of_arcs(&cones, &arc, 1);
	ck_assert_uint_eq(cones.list.n, quartered[_i].cones);
	for (size_t i = 0; i < cones.list.n; i++) {
		double turned = (double)(i * (4 / parts)) * quarter;

		ck_assert_double_eq_tol(cones.list.at[i].x_m, -5.0 + 10.0 * cos(turned), 1e-9);
		ck_assert_double_eq_tol(cones.list.at[i].y_m, 10.0 * sin(turned), 1e-9);
	}
	rt_cones_free(&cones);
}
END_TEST

/* Within a centimetre it is one arc; an arc apart from it still shares a cone so near. */
static const struct {
	struct rt_vec moved;
	double angle_deg;
	size_t arcs, cones;
} beside_arcs[] = {
	{{0.008, 0.0}, 90, 1, 3},  {{0.012, 0.0}, 90, 2, 6}, {{0.0, -0.008}, 90, 1, 3},
	{{0.0, -0.012}, 90, 2, 6}, {{0.008, 0.0}, 60, 2, 5}, {{0.012, 0.0}, 60, 2, 6},
};

START_TEST(arcs_and_cones_within_a_centimetre_are_one)
{
	struct rt_turn arc[] = {left_arc(5.0, 0.0, 90),
				left_arc(5.0 + beside_arcs[_i].moved.x, beside_arcs[_i].moved.y,
					 beside_arcs[_i].angle_deg)};
	struct rt_cones cones;

	cones_of_arcs(&cones, arc, 2);
	ck_assert_uint_eq(cones.arcs.n, beside_arcs[_i].arcs);
	ck_assert_uint_eq(cones.list.n, beside_arcs[_i].cones);
	rt_cones_free(&cones);
}
END_TEST

/* Within half a centimetre of B a cone stands at B. */
START_TEST(a_cone_hardly_off_a_letter_stands_at_it)
{
	struct rt_turn arc = left_arc(20.0 - (_i ? 0.006 : 0.004), 0.0, 90);
	struct rt_cones cones;

	cones_of_arcs(&cones, &arc, 1);
	if (_i == 0) {
		ck_assert_str_eq(cones.list.at[0].side, "at the letter");
		ck_assert_str_eq(cones.list.at[0].tape[0].letter, "B");
		ck_assert_double_eq(cones.list.at[0].tape[0].distance_m, 0.0);
		ck_assert_double_eq(cones.list.at[0].error_m, 0.0);
	} else {
		ck_assert_str_ne(cones.list.at[0].side, "at the letter");
		ck_assert_double_gt(cones.list.at[0].tape[0].distance_m, 0.0);
	}
	rt_cones_free(&cones);
}
END_TEST

/* Near B, letters in one line with it are no good; a little farther in they are the best.  The last
 * has its mirror 6 cm outside the boards: a crew cannot tell that from inside. */
static const struct rt_vec narrow[] = {{19.9, 0.1}, {19.8, 0.1}, {19.7, 0.1},
				       {19.5, 0.1}, {19.1, 0.1}, {14.8, 36.05}};

START_TEST(tapes_cross_well_and_where_it_is_told)
{
	struct rt_turn arc = left_arc(narrow[_i].x, narrow[_i].y, 20);
	struct rt_cones cones;

	cones_of_arcs(&cones, &arc, 1);
	judge_cones(&drive_ring[DRIVEN_40X80], &cones);
	rt_cones_free(&cones);
}
END_TEST

START_TEST(a_tape_too_short_is_told)
{
	const struct rt_ring_kind *kind = &drive_ring[DRIVEN_40X80];
	struct rt_turns turns = {0};
	struct rt_cones cones = {0};
	struct rt_report report = {0};
	struct rt_error err;
	size_t without = 0;

	make_turns(&turns, DRIVEN_40X80, 18.0, 0.0);
	ck_assert_int_eq(rt_cones_make(&cones, &turns.list, kind, 0.0, &err), RT_E_USAGE);
	rt_cones_free(&cones);
	ck_assert_int_eq(rt_cones_make(&cones, &turns.list, kind, 15.0, NULL), RT_OK);
	for (size_t i = 0; i < cones.list.n; i++) {
		const struct rt_cone *cone = &cones.list.at[i];

		without += !cone->tape[0].letter;
		ck_assert(!cone->tape[0].letter == !cone->side);
		ck_assert(!cone->tape[0].letter == (isnan(cone->error_m) != 0));
		for (int k = 0; k < 2; k++)
			ck_assert(!cone->tape[k].letter || cone->tape[k].distance_m <= 15.0 ||
				  strcmp(cone->side, "at the letter") == 0);
	}
	ck_assert_uint_gt(without, 0);
	ck_assert_uint_eq(without, cones.unreached);
	ck_assert_int_eq(rt_cones_report(&report, &cones, NULL), RT_OK);
	ck_assert(report.needs_person);
	ck_assert_uint_eq(rt_table_rows(report.table[0]), cones.list.n);
	for (size_t k = 0; k < report.table[0]->columns; k++) {
		const struct rt_field *f = &report.table[0]->column[k];
		const struct rt_value value = {.as.real = 12.3456};
		char words[32];

		if (strncmp(f->name, "distance_", 9) == 0) /* as a tape is read */
			ck_assert_str_eq(rt_value_words(f, &value, false, words, sizeof words),
					 "12.35");
	}
	rt_report_free(&report);
	rt_cones_free(&cones);
	rt_turns_free(&turns);
}
END_TEST

/* ---- the lines of a movement ----------------------------------------------------------------- */

START_TEST(a_cut_is_the_path_between)
{
	static const char *const figure[] = {"X", "C H", "E circle:20:left", "K A", "F X H"};
	struct rt_route route = {0};

	make_route(&route, DRIVEN_40X80, 18.0, figure, COUNT(figure));
	for (size_t leg = 0; leg < route.legs.n; leg++) {
		double from = route.legs.at[leg].from_m, to = route.legs.at[leg].to_m;
		struct rt_path path = {0};

		ck_assert_int_eq(rt_path_cut(&path, &route.path, from, to, NULL), RT_OK);
		ck_assert_double_eq_tol(rt_path_length(&path), to - from, 1e-9);
		for (int i = 0; i <= 10; i++) {
			double s = (to - from) * i / 10.0;
			struct rt_pose cut = rt_path_at(&path, s, NULL);
			struct rt_pose whole = rt_path_at(&route.path, from + s, NULL);

			ck_assert_double_eq_tol(cut.at.x, whole.at.x, 1e-9);
			ck_assert_double_eq_tol(cut.at.y, whole.at.y, 1e-9);
		}
		rt_path_free(&path);
	}
	rt_route_free(&route);
}
END_TEST

/* The corners of the line of maps, by hand, one movement a row: from the letters of a driven ring
 * of 40 x 80 m. */
static const struct {
	size_t leg, points;
	double at[5][2];
} map_rows[] = {
	{0, 2, {{0, -40}, {0, 0}}},
	{1, 4, {{0, 0}, {0, 40}, {-20, 40}, {-20, 30}}},
	{2, 3, {{-20, 30}, {-20, -40}, {0, -40}}},
	{3, 4, {{0, -40}, {20, -40}, {20, -30}, {-20, 30}}},
	{4, 4, {{-20, 30}, {-20, 40}, {20, 40}, {20, 30}}},
};

START_TEST(maps_draw_from_letter_to_letter)
{
	static const char *const figure[] = {"X", "C H", "K A", "F X H", "C M"};
	struct rt_route route = {0};
	struct rt_path path = {0};
	const size_t points = map_rows[_i].points;

	make_route(&route, DRIVEN_40X80, 18.0, figure, COUNT(figure));
	ck_assert_int_eq(rt_route_map_line(&path, &route, map_rows[_i].leg, NULL), RT_OK);
	ck_assert_uint_ge(path.n, points - 1);
	for (size_t i = 0; i < points; i++) {
		struct rt_piece last = path.at[i ? i - 1 : 0];
		const struct rt_path alone = {.at = &last, .n = 1};
		struct rt_pose at = rt_path_at(&alone, i ? last.length_m : 0.0, NULL);

		ck_assert_double_eq(last.curvature_per_m, 0.0);
		ck_assert_double_eq_tol(at.at.x, map_rows[_i].at[i][0], 1e-6);
		ck_assert_double_eq_tol(at.at.y, map_rows[_i].at[i][1], 1e-6);
	}
	rt_path_free(&path);
	rt_route_free(&route);
}
END_TEST

/* A circle stays round, and the corners before it stay corners. */
START_TEST(maps_draw_circles_round)
{
	static const char *const figure[] = {"X", "C H", "E circle:20:left", "K"};
	struct rt_route route = {0};
	struct rt_path path = {0};

	make_route(&route, DRIVEN_40X80, 18.0, figure, COUNT(figure));
	ck_assert_int_eq(rt_route_map_line(&path, &route, 2, NULL), RT_OK);
	ck_assert_uint_eq(path.n, 2);
	ck_assert_double_eq(path.at[0].curvature_per_m, 0.0);
	ck_assert_double_eq_tol(path.at[0].length_m, 30.0, 1e-9);
	ck_assert_double_eq_tol(path.at[1].curvature_per_m, 0.1, 1e-12);
	ck_assert_double_eq_tol(path.at[1].length_m, 20.0 * PI, 1e-6);
	rt_path_free(&path);
	rt_route_free(&route);
}
END_TEST

/* ---- the band -------------------------------------------------------------------------------- */

/* Straight, the band is half the widest part to either side.  Settled on a circle, its inner edge
 * lies at the smallest of all axles' radii less half their width, by the closed form of steady
 * cut-in, to both hands. */
START_TEST(the_band_holds_every_axle)
{
	static struct rt_turnout_part part[] = {
		{"t", "horse", 0, 1.35, 0.65, NAN, NAN, 0},
		{"t", "front", 0.4, 2.45, 1.55, NAN, NAN, 0},
		{"t", "rear", 0, 1.20, 1.60, NAN, NAN, 0},
	};
	const struct rt_turnout_parts turnout = {.at = part, .n = 3};
	const struct rt_sweep_options options = {.trace_m = 0.25};
	const double radius = 9.0, straight = 40.0, turned = _i ? -6.0 * PI : 6.0 * PI;
	const struct rt_pose start = {{0.0, 0.0}, {0.0, 1.0}};
	struct rt_path path = {0};
	struct rt_sweep sweep = {0};
	struct rt_band band = {0};
	struct rt_path edge = {0};
	double steady[3], inside = 0.0, outside = 0.325;

	rt_turnout_steady(steady, &turnout, radius, false);
	for (int i = 0; i < 3; i++) {
		inside = fmax(inside, steady[i] + part[i].width_m / 2.0);
		outside = fmax(outside, part[i].width_m / 2.0 - steady[i]);
	}
	ck_assert_int_eq(rt_path_straight(&path, &start, straight, NULL), RT_OK);
	ck_assert_int_eq(rt_path_arc(&path, NULL, radius, turned, NULL), RT_OK);
	ck_assert_int_eq(rt_sweep_make(&sweep, &path, &turnout, &options, NULL), RT_OK);
	ck_assert_int_eq(rt_sweep_band(&band, &sweep, &path, &turnout, 0.0, NULL), RT_E_USAGE);
	ck_assert_int_eq(rt_sweep_band(&band, &sweep, &path, &turnout, 0.5, NULL), RT_OK);
	ck_assert_double_eq_tol(band.at[20].s_m, 10.0, 1e-9);
	ck_assert_double_eq_tol(band.at[20].left_m, 0.8, 1e-9);
	ck_assert_double_eq_tol(band.at[20].right_m, 0.8, 1e-9);
	for (size_t i = 0; i < band.n; i++) {
		const struct rt_band_point *p = &band.at[i];

		if (p->s_m < straight + 4.0 * PI * radius ||
		    p->s_m > straight + 6.0 * PI * radius - 8.0)
			continue;
		ck_assert_double_eq_tol(_i ? p->right_m : p->left_m, inside, 1e-3);
		ck_assert_double_eq_tol(_i ? p->left_m : p->right_m, outside, 1e-3);
	}
	/* the edge on the straight, from 5 to 30 m */
	ck_assert_int_eq(rt_band_edge(&edge, &band, &path, RT_LEFT, 5.0, 30.0, NULL), RT_OK);
	ck_assert_double_eq_tol(rt_path_length(&edge), 25.0, 1e-6);
	ck_assert_double_eq_tol(edge.at[0].begin.at.x, -0.8, 1e-9);
	ck_assert_double_eq_tol(edge.at[0].begin.at.y, 5.0, 1e-9);
	rt_path_free(&edge);
	RT_LIST_FREE(&band);
	rt_sweep_free(&sweep);
	rt_path_free(&path);
}
END_TEST

int check_cones(void)
{
	Suite *suite = suite_create("cones");
	TCase *cones = tcase_create("cones"), *lines = tcase_create("lines");

	tcase_add_loop_test(cones, every_turn_has_its_cones, 0, (int)COUNT(levels));
	tcase_add_test(cones, a_circle_has_four_cones);
	tcase_add_loop_test(cones, half_circles_have_a_cone_every_quarter, 0,
			    (int)COUNT(quartered));
	tcase_add_loop_test(cones, arcs_and_cones_within_a_centimetre_are_one, 0,
			    (int)COUNT(beside_arcs));
	tcase_add_loop_test(cones, a_cone_hardly_off_a_letter_stands_at_it, 0, 2);
	tcase_add_loop_test(cones, tapes_cross_well_and_where_it_is_told, 0, (int)COUNT(narrow));
	tcase_add_test(cones, a_tape_too_short_is_told);
	tcase_add_test(lines, a_cut_is_the_path_between);
	tcase_add_loop_test(lines, maps_draw_from_letter_to_letter, 0, (int)COUNT(map_rows));
	tcase_add_test(lines, maps_draw_circles_round);
	tcase_add_loop_test(lines, the_band_holds_every_axle, 0, 2);
	suite_add_tcase(suite, cones);
	suite_add_tcase(suite, lines);
	return suite_run(suite);
}
