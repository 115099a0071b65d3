/* Checks of drive: figures read, paths, the route of a test, its problems and its report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drive/internal.h"
#include "drive_rings.h"
#include "suite.h"

#define ROWS(array)    ((int)(sizeof(array) / sizeof *(array)))
#define COUNT(array)   (sizeof(array) / sizeof *(array))
#define PI	       3.14159265358979324
#define MOVEMENTS_MOST 12

static struct rt_gait gait_rows[] = {
	{"walk", 1.73, 1.87, "test"},
	{"trot", 3.61, 2.73, "test"},
	{"rein-back", 0.6, 0.8, "test"},
};
static const struct rt_gaits gaits = {.at = gait_rows, .n = COUNT(gait_rows)};

/* The movements of a test, all at the trot: figures separated by " | ". */
struct movements {
	char text[400], item[MOVEMENTS_MOST][12];
	struct rt_movement_figure row[MOVEMENTS_MOST];
	struct rt_movement_figures list;
};

static void split(struct movements *m, const char *figures)
{
	char *at = m->text;

	snprintf(m->text, sizeof m->text, "%s", figures);
	m->list = (struct rt_movement_figures){.at = m->row};
	while (at) {
		char *bar = strstr(at, " | ");
		size_t i = m->list.n++;

		ck_assert_uint_lt(i, MOVEMENTS_MOST);
		if (bar)
			*bar = '\0';
		snprintf(m->item[i], sizeof m->item[i], "%zu", i + 1);
		m->row[i] = (struct rt_movement_figure){m->item[i], at, "trot", NULL, 0};
		at = bar ? bar + 3 : NULL;
	}
}

static void make_at(struct rt_route *route, enum drive_ring ring, double diameter_m,
		    const char *figures, const struct rt_turn_options *options)
{
	const struct rt_level level = drive_level(drive_ring[ring].discipline, diameter_m);
	static struct movements m; /* the route borrows its texts */
	struct rt_error err = {0};

	split(&m, figures);
	ck_assert_msg(rt_route_make(route, &drive_ring[ring], &level, &gaits, &m.list, options,
				    &err) == RT_OK,
		      "%s: %s", figures, err.text);
}

static void make(struct rt_route *route, enum drive_ring ring, double diameter_m,
		 const char *figures)
{
	const struct rt_turn_options options = {0};

	make_at(route, ring, diameter_m, figures, &options);
}

/* ---- figures --------------------------------------------------------------------------------- */

static const struct {
	const char *text;
	struct rt_step step;
} read_steps[] = {
	{"M", {.kind = RT_STEP_LETTER, .letter = "M"}},
	{"CM/15", {.kind = RT_STEP_LETTER, .letter = "CM", .diameter_m = 15}},
	{"halt", {.kind = RT_STEP_HALT, .seconds = 5}},
	{"halt:10", {.kind = RT_STEP_HALT, .seconds = 10}},
	{"halt:3600", {.kind = RT_STEP_HALT, .seconds = 3600}},
	{"back:3.5", {.kind = RT_STEP_BACK, .metres = 3.5}},
	{"circle:1000:left", {.kind = RT_STEP_CIRCLE, .diameter_m = 1000, .hand = RT_LEFT}},
	{"circle:20:left", {.kind = RT_STEP_CIRCLE, .diameter_m = 20, .hand = RT_LEFT}},
	{"half:10:right", {.kind = RT_STEP_HALF, .diameter_m = 10, .hand = RT_RIGHT}},
	{"loop:5", {.kind = RT_STEP_LOOP, .metres = 5}},
	{"serpentine:3:left", {.kind = RT_STEP_SERPENTINE, .loops = 3, .hand = RT_LEFT}},
	{"serpentine:4:right:20",
	 {.kind = RT_STEP_SERPENTINE, .loops = 4, .hand = RT_RIGHT, .width_m = 20}},
};

START_TEST(steps_are_read)
{
	const struct rt_step *want = &read_steps[_i].step, *got;
	char figure[64];
	struct rt_steps steps = {0};
	struct rt_error err;

	snprintf(figure, sizeof figure, "  X\t%s  A ", read_steps[_i].text);
	ck_assert_msg(rt_figure_parse(&steps, figure, &err) == RT_OK, "%s", err.text);
	ck_assert_uint_eq(steps.n, 3);
	got = &steps.at[1];
	ck_assert_int_eq(got->kind, want->kind);
	ck_assert_pstr_eq(got->letter, want->letter);
	ck_assert_double_eq(got->diameter_m, want->diameter_m);
	ck_assert_double_eq(got->seconds, want->seconds);
	ck_assert_double_eq(got->metres, want->metres);
	ck_assert_double_eq(got->width_m, want->width_m);
	ck_assert_int_eq(got->loops, want->loops);
	ck_assert_int_eq(got->hand, want->hand);
	ck_assert_str_eq(steps.at[2].letter, "A");
	RT_LIST_FREE(&steps);
}
END_TEST

static const struct {
	const char *figure, *told;
} unreadable[] = {
	{"X foo", "step 2 \"foo\", position 1: an unknown word: accepted: halt, back"},
	{"12", "position 1: an unknown word"},
	{"X hlat", "step 2 \"hlat\", position 1: an unknown word: accepted: halt or halt:SECONDS"},
	{"circle", "step 1 \"circle\", position 7: something is missing: accepted: "
		   "circle:DIAMETER:left or circle:DIAMETER:right"},
	{"circle:20", "step 1 \"circle:20\", position 10: something is missing"},
	{"circle:20:up", "position 11: no hand: accepted: left or right"},
	{"circle:20:centre", "position 11: no hand: accepted: left or right"},
	{"circle:0:left", "position 8: no diameter: accepted: metres, over 0 up to 1000"},
	{"circle:nan:left", "position 8: no diameter"},
	{"circle:20:left:3", "position 16: more than this step takes"},
	{"half:1001:left", "position 6: no diameter"},
	{"halt:", "position 6: no time: accepted: seconds, over 0 up to 3600"},
	{"halt:3601", "position 6: no time"},
	{"serpentine:101:left", "position 12: no number of loops"},
	{"back:-1", "position 6: no length"},
	{"back", "position 5: something is missing: accepted: back:METRES"},
	{"loop:5,5", "position 6: no length"},
	{"serpentine:0:left", "position 12: no number of loops: accepted: 1 to 100"},
	{"serpentine:2.5:left", "position 12: no number of loops"},
	{"serpentine:3:left:0", "position 19: no width"},
	{"A X M/", "step 3 \"M/\", position 3: no diameter"},
	{"M/15/2", "position 3: no diameter"},
	{"/15", "position 1: no letter"},
	{"C:3", "position 1: an unknown word: accepted: halt, back, circle, half, loop, serpentine "
		"or a letter"},
	{"spiral:3:left", "position 1: an unknown word"},
	{"serpentin:3:left", "position 1: an unknown word: accepted: serpentine:LOOPS:left"},
};

START_TEST(what_cannot_be_read_is_told_with_its_place)
{
	struct rt_steps steps = {0};
	struct rt_error err = {0};

	ck_assert_int_eq(rt_figure_parse(&steps, "A X", &err), RT_OK);
	ck_assert_int_eq(rt_figure_parse(&steps, unreadable[_i].figure, &err), RT_E_INPUT);
	ck_assert_msg(strstr(err.text, unreadable[_i].told) != NULL, "%s: %s",
		      unreadable[_i].figure, err.text);
	ck_assert_uint_eq(steps.n, 2); /* as before */
	RT_LIST_FREE(&steps);
}
END_TEST

START_TEST(a_fault_names_its_movement_and_line)
{
	struct rt_movement_figure rows[] = {{"1", "X", "trot", "m.csv", 2},
					    {"2a", "C half:20", "trot", "m.csv", 3}};
	const struct rt_movement_figures list = {.at = rows, .n = 2};
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options options = {0};
	struct rt_route route;
	struct rt_error err;

	ck_assert_int_eq(rt_route_make(&route, &drive_ring[DRIVEN_40X80], &level, &gaits, &list,
				       &options, &err),
			 RT_E_INPUT);
	ck_assert_str_eq(err.file, "m.csv");
	ck_assert_int_eq(err.line, 3);
	ck_assert_str_eq(err.column, "figure");
	ck_assert_ptr_nonnull(strstr(err.text, "movement 2a: step 2 \"half:20\", position 8"));
	rows[1].figure = "C";
	rows[1].gait = "gallop";
	ck_assert_int_eq(rt_route_make(&route, &drive_ring[DRIVEN_40X80], &level, &gaits, &list,
				       &options, &err),
			 RT_E_NOTFOUND);
	ck_assert_str_eq(err.column, "gait");
	ck_assert_int_eq(rt_route_make(&route, &drive_ring[RIDDEN_20X40], &level, &gaits, &list,
				       &options, NULL),
			 RT_E_USAGE);
}
END_TEST

/* ---- paths ----------------------------------------------------------------------------------- */

START_TEST(a_path_knows_every_point_of_it)
{
	const struct rt_pose start = {{1, 2}, {0, 1}};
	struct rt_path path = {0};
	struct rt_path_extent box;
	struct rt_pose at;
	double curvature;

	ck_assert_int_eq(rt_path_straight(&path, &start, 10, NULL), RT_OK);
	ck_assert_int_eq(rt_path_straight(&path, NULL, 0, NULL), RT_OK); /* adds nothing */
	ck_assert_int_eq(rt_path_arc(&path, NULL, 5, -PI / 2, NULL), RT_OK);
	ck_assert_int_eq(rt_path_arc(&path, NULL, 2, PI, NULL), RT_OK);
	ck_assert_uint_eq(path.n, 3);
	ck_assert_double_eq_tol(rt_path_length(&path), 10 + 2.5 * PI + 2 * PI, 1e-12);
	at = rt_path_at(&path, 4, &curvature);
	ck_assert_double_eq_tol(at.at.y, 6, 1e-12);
	ck_assert_double_eq(curvature, 0);
	at = rt_path_at(&path, 10, &curvature); /* of the later piece */
	ck_assert_double_eq(curvature, -0.2);
	at = rt_path_at(&path, 10 + 2.5 * PI, &curvature);
	ck_assert_double_eq_tol(at.at.x, 6, 1e-12);
	ck_assert_double_eq_tol(at.at.y, 17, 1e-12);
	ck_assert_double_eq_tol(at.toward.x, 1, 1e-12);
	ck_assert_double_eq(curvature, 0.5);
	at = rt_path_at(&path, rt_path_length(&path) + 3, NULL);
	ck_assert_double_eq_tol(at.at.x, 3, 1e-12);
	ck_assert_double_eq_tol(at.at.y, 21, 1e-12);
	at = rt_path_at(&path, -2, NULL);
	ck_assert_double_eq(at.at.y, 0);
	box = rt_path_box(&path);
	ck_assert_double_eq_tol(box.x_min_m, 1, 1e-12);
	ck_assert_double_eq_tol(box.x_max_m, 8, 1e-12); /* the half circle's bulge */
	ck_assert_double_eq_tol(box.y_min_m, 2, 1e-12);
	ck_assert_double_eq_tol(box.y_max_m, 21, 1e-12);
	rt_path_free(&path);
}
END_TEST

/* The box of arcs of any beginning and angle against their points. */
START_TEST(a_box_holds_its_arcs_and_no_more)
{
	for (int begin = 0; begin < 360; begin += 7) {
		for (int turned = -725; turned < 725; turned += 31) {
			const struct rt_pose start = {
				{3, -4}, {cos(begin / RT__DEGREES), sin(begin / RT__DEGREES)}};
			struct rt_path path = {0};
			struct rt_path_extent box;
			double x_max = -INFINITY, y_min = INFINITY;

			ck_assert_int_eq(rt_path_arc(&path, &start, 10, turned / RT__DEGREES, NULL),
					 RT_OK);
			box = rt_path_box(&path);
			for (int i = 0; i <= 1000; i++) {
				struct rt_pose at = rt_path_at(
					&path, path.at[0].length_m * i / 1000.0, NULL);

				x_max = fmax(x_max, at.at.x);
				y_min = fmin(y_min, at.at.y);
			}
			ck_assert_double_le(x_max, box.x_max_m + 1e-9);
			ck_assert_double_ge(y_min, box.y_min_m - 1e-9);
			ck_assert_double_eq_tol(x_max, box.x_max_m, 1e-3);
			ck_assert_double_eq_tol(y_min, box.y_min_m, 1e-3);
			rt_path_free(&path);
		}
	}
}
END_TEST

START_TEST(an_empty_path_stands_at_the_origin)
{
	const struct rt_path path = {0};
	double curvature = 1;
	struct rt_pose at = rt_path_at(&path, 3, &curvature);

	ck_assert_double_eq(at.at.x, 3);
	ck_assert_double_eq(at.toward.x, 1);
	ck_assert_double_eq(curvature, 0);
	ck_assert_double_eq(rt_path_length(&path), 0);
}
END_TEST

/* ---- lengths --------------------------------------------------------------------------------- */

#define QUARTER(d) (PI * (d) / 4)
/* M X K: 60 m and two arcs of asin(3/5); a loop: sqrt(600) m and arcs of asin(2/sqrt(10)) less
 * atan(1/3) */
#define DIAGONAL  72.8700221759
#define HALF_LOOP 31.7542703999
#define TO_M	  "X C M" /* from A: 70 m, two quarters of 20 m and nothing between, to M */

/* Worked by hand unless a source is named. */
static const struct {
	enum drive_ring ring;
	double diameter_m;
	const char *figures;
	size_t movement; /* from 1 */
	double length_m;
} lengths[] = {
	{DRIVEN_40X80, 20, "X | C M", 1, 40},
	{DRIVEN_40X80, 20, "X | C M", 2, 30 + 2 * QUARTER(20)},
	{DRIVEN_40X80, 18, "X | C M", 2, 31 + 2 * QUARTER(18) + 2 + 1},
	/* a movement ends in the middle of its arc */
	{DRIVEN_40X80, 20, "X | C | M", 2, 30 + QUARTER(20) / 2},
	{DRIVEN_40X80, 20, "X | C | M", 3, 1.5 * QUARTER(20)},
	/* M X K: a 3-4-5 triangle, arcs of 36.870 degrees, 60 m straight through X */
	{DRIVEN_40X80, 20, TO_M " | X K | A", 2, DIAGONAL},
	{DRIVEN_40X80, 20, TO_M " | X | K | A", 2, DIAGONAL / 2},
	{DRIVEN_40X80, 20, TO_M " | K | A", 2, DIAGONAL},
	/* the end of a test: on the track, and not turned out on to it */
	{DRIVEN_40X80, 20, TO_M " | X K", 2, DIAGONAL},
	{DRIVEN_40X80, 20, "X | C", 2, 40},
	/* serpentines: pi L / 2 + n W - L */
	{DRIVEN_40X80, 20, "X C H K A | serpentine:3:right | H", 2, 165.6637061},
	{DRIVEN_40X80, 20, "X C H K A | serpentine:4:right | M", 2, 40 * PI + 160 - 80},
	{RIDDEN_20X60, 10, "X C M F A | serpentine:3:left | M", 2, 30 * PI},
	{RIDDEN_20X60, 10, "X C M F A | serpentine:4:left | H", 2, 30 * PI + 80 - 60},
	{RIDDEN_20X60, 10, "X C M F A | serpentine:4:left:16 | H", 2, 30 * PI + 64 - 60},
	{DRIVEN_40X80, 20, "X C H | E circle:40:left | K", 2, 30 + 40 * PI},
	/* the start again, and letters again, are no steps */
	{DRIVEN_40X80, 20, "A X X | X C H | H", 1, 40},
	{DRIVEN_40X80, 20, "A X X | X C H | H", 3, 0},
	/* across from B to E, both turns a right angle */
	{DRIVEN_40X80, 20, TO_M " B | E | K", 2, 20 + QUARTER(20)},
	/* a corner with a number of its own */
	{DRIVEN_40X80, 20, "X C CM/15 M | B", 1, 70 + QUARTER(20) + 2.5 + QUARTER(15) + 2.5},
	/* a rein-back counts, and the way forward again in the movement that drives on */
	{DRIVEN_40X80, 20, "X halt back:3 | C H", 1, 43},
	{DRIVEN_40X80, 20, "X halt back:3 | C H", 2, 3 + 30 + 2 * QUARTER(20)},
	{DRIVEN_40X80, 20, "X C | back:3", 2, 3},
	/* half a circle of 10 m from K ends at D */
	{RIDDEN_20X60, 10, "X C H E K | half:10:left | E", 2, 5 * PI},
	/* a shallow loop of 10 m from M to F: centres 10 m and 30 m apart, arcs of 20.797 degrees
	 */
	{DRIVEN_40X80, 20, TO_M " | loop:10 | F", 2, HALF_LOOP},
	{DRIVEN_40X80, 20, TO_M " | loop:10 F", 2, 2 * HALF_LOOP},
};

START_TEST(movements_are_as_long_as_by_hand)
{
	struct rt_route route;
	double sum = 0;

	make(&route, lengths[_i].ring, lengths[_i].diameter_m, lengths[_i].figures);
	ck_assert_uint_eq(route.problems.n, 0);
	ck_assert_double_eq_tol(route.legs.at[lengths[_i].movement - 1].length_m,
				lengths[_i].length_m, 1e-6);
	for (size_t i = 0; i < route.legs.n; i++)
		sum += route.legs.at[i].length_m;
	ck_assert_double_eq_tol(sum, route.total_m, 1e-9);
	rt_route_free(&route);
}
END_TEST

/* A 20 m circle in 20x60 at C crosses the centreline 2 m past I; at E or B 2 m inside I and L. */
static const struct {
	const char *figures;
	double x_m, y_m;
} circles[] = {
	{"X C H E K A F B M C circle:20:left", 0, 20},
	{"X C M F A K E H C circle:20:right", 0, 20},
	{"X C H E circle:20:left", 0, 0},
	{"X C M B circle:20:right", 0, 0},
	{"X C M circle:8:right", 6, 24},
};

START_TEST(circles_touch_the_line_of_travel)
{
	struct rt_route route;
	const struct rt_turn *turn;

	make(&route, RIDDEN_20X60, 10, circles[_i].figures);
	ck_assert_uint_eq(route.problems.n, 0);
	turn = &route.turns.at[route.turns.n - 1];
	ck_assert_double_eq_tol(turn->angle_deg, 360, 1e-9);
	ck_assert_double_eq_tol(turn->centre_x_m, circles[_i].x_m, 1e-9);
	ck_assert_double_eq_tol(turn->centre_y_m, circles[_i].y_m, 1e-9);
	ck_assert_double_eq_tol(turn->begin_x_m, turn->finish_x_m, 1e-9);
	rt_route_free(&route);
}
END_TEST

/* Half a circle of 10 m from K ends at D; the line on to E is 26.0 m long at 22.6 degrees.  It is
 * driven with arcs at both ends, whose centres lie 24 m apart on one line along the ring: between
 * them sqrt(24^2 - 10^2) m straight (Dubins 1957). */
START_TEST(from_a_half_circle_back_to_the_track)
{
	struct rt_route route;

	make(&route, RIDDEN_20X60, 10, "X C H E K half:10:left | E | H");
	ck_assert_double_eq_tol(rt_path_length(&route.path), route.total_m, 1e-9);
	for (size_t i = 0; i < route.turns.n; i++) {
		const struct rt_turn *turn = &route.turns.at[i];

		if (strcmp(turn->turn, "arrive E") != 0)
			continue;
		ck_assert_double_eq_tol(turn->from_m - turn[-1].from_m - turn[-1].arc_m,
					sqrt(24 * 24 - 100), 1e-9);
		ck_assert_double_eq_tol(hypot(turn[-1].begin_x_m - turn->finish_x_m,
					      turn[-1].begin_y_m - turn->finish_y_m),
					26.0, 1e-9);
		ck_assert_double_eq_tol(turn->angle_deg, turn[-1].angle_deg, 1e-9);
	}
	rt_route_free(&route);
}
END_TEST

/* ---- paths of routes ------------------------------------------------------------------------- */

static const struct {
	enum drive_ring ring;
	double diameter_m, track_m;
	const char *figures;
} whole[] = {
	{DRIVEN_40X80, 20, 0,
	 "X halt:10 | C M | B circle:20:right | F A K E | B | M C | H X F | A X halt"},
	{DRIVEN_40X80, 15, 0, TO_M " B | E/12 | K A | F X H | C M | loop:8 F | A X halt back:2 G"},
	{DRIVEN_40X100, 18, 0.75, "X C H | E half:20:left | H C | M X/30 K | A D X G halt"},
	{DRIVEN_40X80, 20, 0, "X C H | E X halt:5 B | M C"}, /* clear of the turns by 10 m */
	{RIDDEN_20X40, 8, 0, "X C M B | X circle:8:left E | H C M | X K | A D X"},
	{RIDDEN_20X60, 10, 0, "X C M | R K | A F | P S | H C M F A | serpentine:5:left | M"},
	{DRIVEN_40X80, 18, 1, "X I C H | S circle:15:left E | K A F | X H/15 | C M"},
	{DRIVEN_40X80, 20, 0, TO_M " F A K | X G | C H"},
};

static void check_joins(const struct rt_route *route)
{
	for (size_t i = 1; i < route->path.n; i++) {
		const struct rt_piece *before = &route->path.at[i - 1], *piece = &route->path.at[i];
		const struct rt_path one = {.at = (struct rt_piece *)before, .n = 1};
		struct rt_pose end = rt_path_at(&one, before->length_m, NULL);

		ck_assert_double_eq_tol(end.at.x, piece->begin.at.x, 1e-9);
		ck_assert_double_eq_tol(end.at.y, piece->begin.at.y, 1e-9);
		ck_assert_double_eq_tol(end.toward.x, piece->begin.toward.x, 1e-9);
		ck_assert_double_eq_tol(end.toward.y, piece->begin.toward.y, 1e-9);
	}
}

START_TEST(a_route_is_one_smooth_path_inside_the_ring)
{
	const struct rt_turn_options options = {.track_m = whole[_i].track_m};
	const struct rt_ring_kind *kind = &drive_ring[whole[_i].ring];
	struct rt_route route;
	struct rt_path_extent box;
	double at = 0;

	make_at(&route, whole[_i].ring, whole[_i].diameter_m, whole[_i].figures, &options);
	ck_assert_msg(route.problems.n == 0, "%s", route.problems.n ? whole[_i].figures : "");
	ck_assert(route.whole && route.timed);
	check_joins(&route);
	box = rt_path_box(&route.path);
	ck_assert_double_le(box.x_max_m, kind->width_m / 2 - options.track_m + 1e-9);
	ck_assert_double_ge(box.x_min_m, -kind->width_m / 2 + options.track_m - 1e-9);
	ck_assert_double_le(box.y_max_m, kind->length_m / 2 - options.track_m + 1e-9);
	ck_assert_double_ge(box.y_min_m, -kind->length_m / 2 + options.track_m - 1e-9);
	for (size_t i = 0; i < route.legs.n; i++) {
		ck_assert_double_eq_tol(route.legs.at[i].from_m, at, 1e-9);
		ck_assert_double_ge(route.legs.at[i].to_m, at);
		at = route.legs.at[i].to_m;
	}
	ck_assert_double_eq_tol(at, rt_path_length(&route.path), 1e-9);
	rt_route_free(&route);
}
END_TEST

/* ---- where turns begin and end --------------------------------------------------------------- */

static const struct {
	double diameter_m;
	const char *figures, *turn, *begin, *finish;
	double angle_deg;
} turns[] = {
	/* common practice in driven dressage, as in the turn table */
	{20, TO_M, "turn at C", "G", "quarter line", 90},
	{18, TO_M, "turn at C", "1.0 m past G", "1.0 m before the quarter line", 90},
	{20, TO_M " B E K", "turn at B", "10.0 m before B", "quarter line", 90},
	{20, TO_M " X K A", "leave M", "M", "6.0 m past M, 2.0 m inside", 36.8698976},
	{20, TO_M " X K A", "arrive K", "6.0 m before K, 2.0 m inside", "K", 36.8698976},
	{20, TO_M " F A K X G", "turn at X", "3.33 m before X", "3.33 m past X", 36.8698976},
	{20, "X C H E circle:20:left K", "circle at E", "E", "E", 360},
	{20, "X C H K A serpentine:3:right H", "serpentine, loop 1",
	 "3.33 m before the quarter line", "3.33 m past the quarter line", 180},
	{20, TO_M " loop:10 F", "loop", "3.55 m before B, 9.35 m inside", "B, 10.0 m inside",
	 20.797},
};

START_TEST(turns_are_told_by_the_letters)
{
	struct rt_route route;
	bool found = false;

	make(&route, DRIVEN_40X80, turns[_i].diameter_m, turns[_i].figures);
	for (size_t i = 0; i < route.turns.n && !found; i++) {
		const struct rt_turn *turn = &route.turns.at[i];

		if (strcmp(turn->turn, turns[_i].turn) != 0)
			continue;
		found = true;
		ck_assert_str_eq(drive_words(&turn->begin), turns[_i].begin);
		ck_assert_str_eq(drive_words(&turn->finish), turns[_i].finish);
		ck_assert_double_eq_tol(turn->angle_deg, turns[_i].angle_deg, 0.05);
	}
	ck_assert_msg(found, "no %s in %s", turns[_i].turn, turns[_i].figures);
	rt_route_free(&route);
}
END_TEST

/* ---- problems -------------------------------------------------------------------------------- */

static const struct {
	enum drive_ring ring;
	double diameter_m;
	const char *figures;
	enum rt_route_problem_kind kind;
	size_t movement;  /* from 1 */
	double largest_m; /* NAN: none */
	const char *words;
} problems[] = {
	{DRIVEN_40X80, 20, "X | Q", RT_ROUTE_NO_LETTER, 2, NAN, "has no letter Q on this track"},
	{DRIVEN_40X80, 20, "X | c", RT_ROUTE_NO_LETTER, 2, NAN, "did you mean \"C\"?"},
	{RIDDEN_20X40, 10, "X C M | R", RT_ROUTE_NO_LETTER, 2, NAN, "ridden-20x40 has no letter R"},
	{DRIVEN_40X80, 20, "X C | B", RT_ROUTE_SHARP, 2, NAN, "\"C M B\""},
	{RIDDEN_20X60, 10, "X C | E | K", RT_ROUTE_SHARP, 2, NAN, "\"C H E\""},
	{DRIVEN_40X80, 20, "X | A", RT_ROUTE_REVERSAL, 2, NAN, "at X"},
	{DRIVEN_40X80, 20, TO_M " | C", RT_ROUTE_REVERSAL, 2, NAN, "at M"},
	{DRIVEN_40X80, 20, TO_M " B circle:20:right | M", RT_ROUTE_REVERSAL, 2, NAN, "at B"},
	{DRIVEN_40X80, 20, "K", RT_ROUTE_START_TURNS, 1, NAN, "turns at A"},
	{DRIVEN_40X80, 24, TO_M, RT_ROUTE_NO_ROOM_BOTH, 1, 20,
	 "24.0 m needed, 20.0 m between them"},
	{RIDDEN_20X60, 14, "X C M circle:8:right B", RT_ROUTE_NO_ROOM_BOTH, 1, 10,
	 "turn at C and corner CM"},
	{RIDDEN_20X60, 10, "X C CM/12 M circle:8:right | B", RT_ROUTE_NO_ROOM_BOTH, 1, 8, NULL},
	{RIDDEN_20X60, 10, "X C/4 CM/14 M circle:8:right | B", RT_ROUTE_NO_ROOM, 1, NAN,
	 "corner CM: 7.0 m needed, 6.0 m to M"},
	{RIDDEN_20X60, 14, "X C/4 CM M circle:8:right | B", RT_ROUTE_NO_ROOM, 1, 12,
	 "corner CM: 7.0 m needed, 6.0 m to M"},
	{DRIVEN_40X80, 42, "X C H E B F", RT_ROUTE_NO_ROOM_BOTH, 1, 20, NULL},
	{DRIVEN_40X80, 20, "X C H | E circle:45:left", RT_ROUTE_OUTSIDE, 2, 40,
	 "circle at E: 5.0 m outside"},
	{DRIVEN_40X80, 20, "X C H | E circle:20:right", RT_ROUTE_OUTSIDE, 2, NAN,
	 "circle at E: 20.0 m outside"},
	{DRIVEN_40X80, 20, "X C H | E circle:40.7:left", RT_ROUTE_OUTSIDE, 2, 40,
	 "circle at E: 0.70 m outside"},
	{DRIVEN_40X80, 20, "X half:50:left", RT_ROUTE_OUTSIDE, 1, 20, "half circle at X"},
	{DRIVEN_40X80, 20, "X C H K A serpentine:4:right:50", RT_ROUTE_OUTSIDE, 1, NAN,
	 "serpentine: 5.0 m"},
	{DRIVEN_40X80, 20, TO_M " | R loop:10 P | F", RT_ROUTE_OVER_HALF, 2, 16.2, NULL},
	{DRIVEN_40X80, 20, "X E | circle:20:left K", RT_ROUTE_TURNS_THERE, 2, NAN,
	 "circle at E, where"},
	{DRIVEN_40X80, 20, "X C H E | halt | B", RT_ROUTE_TURNS_THERE, 2, NAN, "halt at E, where"},
	{DRIVEN_40X80, 20, "X C H E | back:2 B", RT_ROUTE_TURNS_THERE, 2, NAN, "rein-back at E"},
	{DRIVEN_40X80, 20, "X C CM | circle:5:right M", RT_ROUTE_TURNS_THERE, 2, NAN, "at CM"},
	{RIDDEN_20X60, 20, "X C M halt R", RT_ROUTE_IN_ARC, 1, 10, "halt at M, inside the arc"},
	{DRIVEN_40X80, 20, "X serpentine:2:left", RT_ROUTE_SERPENTINE_PLACE, 1, NAN, NULL},
	{DRIVEN_40X80, 20, "X C H K A | serpentine:3:left", RT_ROUTE_SERPENTINE_HAND, 2, NAN,
	 "to A from the wrong hand"},
	{DRIVEN_40X80, 20, "X C | serpentine:3:left", RT_ROUTE_TURNS_THERE, 2, NAN,
	 "serpentine at C"},
	{DRIVEN_40X80, 20, "X C H K A serpentine:1:right", RT_ROUTE_SERPENTINE_WIDE, 1, NAN,
	 "loops of 80.0 m do not fit in 40.0 m"},
	{DRIVEN_40X80, 20, TO_M " | loop:10 A", RT_ROUTE_LOOP_PLACE, 2, NAN, NULL},
	{DRIVEN_40X80, 20, "X | loop:10 C", RT_ROUTE_LOOP_PLACE, 2, NAN, NULL},
	{DRIVEN_40X80, 20, TO_M " | loop:10", RT_ROUTE_LOOP_PLACE, 2, NAN, NULL},
	{DRIVEN_40X80, 20, TO_M " | loop:10 halt F", RT_ROUTE_LOOP_PLACE, 2, NAN, NULL},
	{DRIVEN_40X80, 20, TO_M " | loop:10 F | K", RT_ROUTE_TURNS_THERE, 3, NAN,
	 "the loop ends at F"},
	{DRIVEN_40X80, 20, "X E | loop:10 K", RT_ROUTE_TURNS_THERE, 2, NAN, "the loop begins at E"},
	/* the figures of all movements are looked at after all turns */
	{DRIVEN_40X80, 24, "X circle:45:left C | M", RT_ROUTE_NO_ROOM_BOTH, 2, 16,
	 "24.0 m needed, 20.0 m between them"},
};

START_TEST(what_cannot_be_driven_is_told)
{
	struct rt_route route;
	bool found = false;
	char words[400] = "";

	make(&route, problems[_i].ring, problems[_i].diameter_m, problems[_i].figures);
	for (size_t i = 0; i < route.problems.n && !found; i++) {
		const struct rt_route_problem *p = &route.problems.at[i];

		rt_route_problem_words(p, false, words, sizeof words);
		if (p->kind != problems[_i].kind || p->leg != problems[_i].movement - 1)
			continue;
		found = true;
		if (problems[_i].words)
			ck_assert_msg(strstr(words, problems[_i].words) != NULL, "%s", words);
		if (isnan(problems[_i].largest_m))
			ck_assert_double_nan(p->largest_m);
		else
			ck_assert_double_eq(p->largest_m, problems[_i].largest_m);
	}
	for (size_t i = 1; i < route.problems.n; i++)
		ck_assert_uint_ge(route.problems.at[i].leg, route.problems.at[i - 1].leg);
	ck_assert_msg(found, "%s: %zu problems, the last: %s", problems[_i].figures,
		      route.problems.n, words);
	rt_route_free(&route);
}
END_TEST

/* At X the way from K bends: it leaves K on a circle of 3 m about (-7, -24), so that it comes to X
 * at atan2(24, 7) - asin(3/25), and goes on to the corner, or to R, where a circle about (7, 12)
 * meets the track.  About 6 degrees are straight enough to halt on. */
static const struct {
	const char *figures;
	double bends_deg;
} stands[] = {
	{TO_M " F A K | X halt | CM C", 4.71736},
	{TO_M " F A K | X halt | R M", 19.57506},
};

START_TEST(a_halt_stands_on_a_line_that_hardly_bends)
{
	struct rt_route route;
	size_t told = 0;
	bool bends = false;

	make(&route, RIDDEN_20X60, 6, stands[_i].figures);
	for (size_t i = 0; i < route.turns.n; i++)
		if (strcmp(route.turns.at[i].turn, "turn at X") == 0) {
			bends = true;
			ck_assert_double_eq_tol(route.turns.at[i].angle_deg, stands[_i].bends_deg,
						0.001);
		}
	ck_assert(bends);
	for (size_t i = 0; i < route.problems.n; i++)
		told += route.problems.at[i].kind == RT_ROUTE_TURNS_THERE &&
			route.problems.at[i].leg == 1;
	ck_assert_uint_eq(told, stands[_i].bends_deg > 6);
	rt_route_free(&route);
}
END_TEST

/* Made with the turns of one movement of that diameter: how many problems. */
static size_t problems_at(double diameter_m, const char *figure, double *largest_m)
{
	struct rt_route route;
	size_t n;

	make(&route, RIDDEN_20X60, diameter_m, figure);
	n = route.problems.n;
	if (largest_m)
		*largest_m = route.problems.at[0].largest_m;
	rt_route_free(&route);
	return n;
}

static const char *const crowded[] = {
	"X C M B E K",
	"X C H X F A K",
	"X C M loop:8 F A",
	"X C M halt R",
	"X C M B half:10:right M C",
};

START_TEST(the_largest_that_fits_fits)
{
	double largest;

	ck_assert_uint_gt(problems_at(36, crowded[_i], &largest), 0);
	ck_assert_double_gt(largest, 0);
	ck_assert_uint_eq(problems_at(largest, crowded[_i], NULL), 0);
	ck_assert_uint_gt(problems_at(largest + 0.1, crowded[_i], NULL), 0);
}
END_TEST

START_TEST(a_movement_with_a_problem_has_no_length)
{
	struct rt_route route;

	make(&route, DRIVEN_40X80, 20, "X | Q | C H | B E");
	ck_assert_double_eq(route.legs.at[0].length_m, 40);
	ck_assert_double_nan(route.legs.at[1].length_m);
	ck_assert_double_nan(route.legs.at[1].seconds);
	ck_assert(!route.whole && !route.timed);
	ck_assert_double_gt(route.legs.at[2].length_m, 0);
	rt_route_free(&route);
	/* A circle that leaves the ring can still be measured. */
	make(&route, DRIVEN_40X80, 20, "X C H | E circle:45:left | K");
	ck_assert_double_eq_tol(route.legs.at[1].length_m, 30 + 45 * PI, 1e-9);
	ck_assert(route.whole && !route.timed);
	rt_route_free(&route);
}
END_TEST

/* ---- times ----------------------------------------------------------------------------------- */

START_TEST(times_are_at_each_gait)
{
	struct rt_movement_figure rows[] = {
		{"1", "X halt:10", "trot", NULL, 0}, {"2", "halt back:3 halt:2", "trot", NULL, 0},
		{"3", "C", "walk", NULL, 0},	     {"4", "H", NULL, NULL, 0},
		{"5", NULL, "trot", NULL, 0},
	};
	struct rt_movement_figures list = {.at = rows, .n = 3};
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	struct rt_turn_options options = {0};
	struct rt_route route;

	ck_assert_int_eq(rt_route_make(&route, &drive_ring[DRIVEN_40X80], &level, &gaits, &list,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq_tol(route.legs.at[0].seconds, 40 / 3.61 + 10, 1e-9);
	ck_assert_double_eq_tol(route.legs.at[1].seconds, 5 + 3 / 0.6 + 2, 1e-9);
	ck_assert_double_eq_tol(route.legs.at[2].seconds, 43 / 1.73, 1e-9);
	ck_assert(route.timed);
	ck_assert_double_eq_tol(route.total_s, 40 / 3.61 + 10 + 12 + 43 / 1.73, 1e-9);
	ck_assert_double_eq_tol(route.in_s, 15 / 3.61, 1e-9);
	ck_assert_double_eq_tol(route.out_s, (80 + 15) / 1.73, 1e-9);
	ck_assert_uint_eq(route.stops.n, 4);
	ck_assert_double_eq(route.stops.at[3].at_m, 40);
	ck_assert_double_eq(route.stops.at[3].behind_m, 3);
	ck_assert_double_eq(route.stops.at[2].back_m, 3);
	rt_route_free(&route);
	list.n = 5;
	ck_assert_int_eq(rt_route_make(&route, &drive_ring[DRIVEN_40X80], &level, &gaits, &list,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_gt(route.legs.at[3].length_m, 0);
	ck_assert_double_nan(route.legs.at[3].seconds);
	ck_assert_double_nan(route.legs.at[4].length_m);
	ck_assert(!route.timed);
	rt_route_free(&route);
	/* A small animal: turns in proportion, speed by the square root of 165 cm. */
	options.height_cm = 90;
	list.n = 1;
	ck_assert_int_eq(rt_route_make(&route, &drive_ring[DRIVEN_40X80], &level, &gaits, &list,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq(route.diameter_m, 12.5);
	ck_assert_double_eq_tol(route.legs.at[0].seconds, 10 + 40 / (3.61 * sqrt(90 / 165.0)),
				1e-9);
	rt_route_free(&route);
}
END_TEST

/* ---- report ---------------------------------------------------------------------------------- */

static const char *text_at(const struct rt_report *r, size_t table, size_t row, size_t column)
{
	return rt_table_cell(r->table[table], row, column)->as.text;
}

START_TEST(the_report_has_the_columns_that_are_relied_on)
{
	static const struct {
		size_t table;
		const char *name, *column[4];
	} relied[] = {
		{0, "legs", {"movement", "figure", NULL, "length_m"}},
		{1, "total", {"length_m", "seconds", NULL, NULL}},
		{2, "problems", {"movement", "figure", "problem", "largest_m"}},
		{3, "turns", {"movement", "turn", "hand", "diameter_m"}},
	};
	struct rt_report report = {0};
	struct rt_route route;

	make(&route, DRIVEN_40X80, 20, "X halt:10 | C H");
	ck_assert_int_eq(rt_route_report(&report, &route, 90, 30, false, NULL), RT_OK);
	ck_assert(!report.needs_person);
	for (size_t i = 0; i < COUNT(relied); i++) {
		const struct rt_table *t = report.table[relied[i].table];

		ck_assert_str_eq(t->name, relied[i].name);
		for (size_t k = 0; k < 4; k++)
			if (relied[i].column[k])
				ck_assert_str_eq(t->column[k].name, relied[i].column[k]);
	}
	ck_assert_str_eq(report.table[0]->column[4].name, "seconds");
	for (size_t k = 0; k < report.table[3]->columns; k++) {
		const struct rt_field *f = &report.table[3]->column[k];
		const struct rt_value value = {.as.real = 12.3456};
		char words[32];

		/* a place on the ground to the centimetre */
		if (strcmp(f->name, "from_m") == 0 || strstr(f->name, "_x_m") ||
		    strstr(f->name, "_y_m"))
			ck_assert_str_eq(rt_value_words(f, &value, false, words, sizeof words),
					 "12.35");
	}
	ck_assert_uint_eq(rt_table_rows(report.table[1]), 1);
	ck_assert_uint_eq(rt_table_rows(report.table[2]), 0);
	/* 21.1 and 17.0 s, 4.2 in, 22.6 out, 120 beside: up to a whole minute */
	ck_assert_double_eq(rt_table_cell(report.table[1], 0, 7)->as.real, 240);
	rt_report_free(&report);
	rt_route_free(&route);
}
END_TEST

START_TEST(a_problem_needs_a_person_and_feet_are_told)
{
	struct rt_report report = {0};
	struct rt_route route;

	make(&route, DRIVEN_40X80, 24, TO_M);
	ck_assert_int_eq(rt_route_report(&report, &route, 90, 30, true, NULL), RT_OK);
	ck_assert(report.needs_person);
	ck_assert_uint_eq(rt_table_rows(report.table[1]), 1);
	ck_assert(rt_table_cell(report.table[1], 0, 7)->null);
	ck_assert_str_eq(text_at(&report, 2, 0, 2),
			 "turn at C and corner CM: 78 ft 9 in needed, 65 ft 7 in between them");
	ck_assert_double_eq(rt_table_cell(report.table[2], 0, 3)->as.real, 20);
	rt_report_free(&report);
	rt_route_free(&route);
}
END_TEST

START_TEST(letters_no_rulebook_confirms_are_named)
{
	struct rt_route route;

	make(&route, DRIVEN_40X80, 20, TO_M " R | B P");
	ck_assert_str_eq(route.unconfirmed, "R P");
	rt_route_free(&route);
	make(&route, DRIVEN_40X80, 20, TO_M);
	ck_assert_str_eq(route.unconfirmed, "");
	rt_route_free(&route);
}
END_TEST

static void add_figure_tests(TCase *t)
{
	tcase_add_loop_test(t, steps_are_read, 0, ROWS(read_steps));
	tcase_add_loop_test(t, what_cannot_be_read_is_told_with_its_place, 0, ROWS(unreadable));
	tcase_add_test(t, a_fault_names_its_movement_and_line);
	tcase_add_test(t, a_path_knows_every_point_of_it);
	tcase_add_test(t, a_box_holds_its_arcs_and_no_more);
	tcase_add_test(t, an_empty_path_stands_at_the_origin);
}

static void add_route_tests(TCase *t)
{
	tcase_add_loop_test(t, movements_are_as_long_as_by_hand, 0, ROWS(lengths));
	tcase_add_test(t, from_a_half_circle_back_to_the_track);
	tcase_add_loop_test(t, circles_touch_the_line_of_travel, 0, ROWS(circles));
	tcase_add_loop_test(t, a_route_is_one_smooth_path_inside_the_ring, 0, ROWS(whole));
	tcase_add_loop_test(t, turns_are_told_by_the_letters, 0, ROWS(turns));
	tcase_add_loop_test(t, what_cannot_be_driven_is_told, 0, ROWS(problems));
	tcase_add_loop_test(t, a_halt_stands_on_a_line_that_hardly_bends, 0, ROWS(stands));
	tcase_add_loop_test(t, the_largest_that_fits_fits, 0, ROWS(crowded));
	tcase_add_test(t, a_movement_with_a_problem_has_no_length);
	tcase_add_test(t, times_are_at_each_gait);
	tcase_add_test(t, the_report_has_the_columns_that_are_relied_on);
	tcase_add_test(t, a_problem_needs_a_person_and_feet_are_told);
	tcase_add_test(t, letters_no_rulebook_confirms_are_named);
}

int check_route(void)
{
	Suite *suite = suite_create("route");
	TCase *figures = tcase_create("figures and paths"), *routes = tcase_create("routes");

	suite_add_tcase(suite, figures);
	suite_add_tcase(suite, routes);
	add_figure_tests(figures);
	add_route_tests(routes);
	return suite_run(suite);
}
