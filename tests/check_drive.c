/* Checks of drive: levels and paces, joins, places in words, the turn table and its report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <string.h>

#include "drive/internal.h"
#include "drive_rings.h"
#include "suite.h"

#define ROWS(array)  ((int)(sizeof(array) / sizeof *(array)))
#define PI	     3.141592653589793
#define COUNT(array) (sizeof(array) / sizeof *(array))

/* The turns of a ring at a diameter and track, which must succeed; free them. */
static void make(struct rt_turns *turns, const struct rt_ring_kind *kind, double diameter_m,
		 double track_m)
{
	const struct rt_level level = drive_level(kind->discipline, 20);
	const struct rt_turn_options options = {.diameter_m = diameter_m, .track_m = track_m};
	struct rt_error err;

	ck_assert_msg(rt_turns_make(turns, kind, &level, &drive_gaits, &options, &err) == RT_OK,
		      "%s", err.text);
}

/* ---- levels and paces ----------------------------------------------------------------------- */

START_TEST(levels_are_of_a_discipline)
{
	struct rt_level rows[] = {
		{"training", RT_DRIVEN, 20, 142.2, "trot"},
		{"training", RT_RIDDEN, 10, 142.2, "trot"},
	};
	const struct rt_levels levels = {.at = rows, .n = 2};

	ck_assert_ptr_eq(rt_level_find(&levels, "training", RT_RIDDEN), &rows[1]);
	ck_assert_ptr_eq(rt_level_find(&levels, "training", RT_DRIVEN), &rows[0]);
	ck_assert_ptr_eq(rt_level_find(&levels, "Training", RT_DRIVEN), &rows[0]);
	ck_assert_ptr_null(rt_level_find(&levels, "trainings", RT_DRIVEN));
	ck_assert_ptr_null(rt_gait_find(&drive_gaits, "canter"));
	ck_assert_double_eq(rt_gait_find(&drive_gaits, "walk")->speed_m_per_s, 1.73);
}
END_TEST

/* d_level * min(1, h / 142.2), to half a metre. */
static const struct {
	double level_m, height_cm, diameter_m;
} diameters[] = {
	{20, 0, 20},	{20, 142.2, 20}, {20, 142.24, 20}, {20, 170, 20},
	{20, 127, 18},	{20, 122, 17},	 {18, 127, 16},	   {15, 127, 13.5},
	{10, 110, 7.5}, {13.3, 0, 13.3}, {20, 90, 12.5},
};

START_TEST(smaller_animals_turn_smaller)
{
	struct rt_level level = drive_level(RT_DRIVEN, diameters[_i].level_m);

	ck_assert_double_eq(rt_level_diameter(&level, diameters[_i].height_cm),
			    diameters[_i].diameter_m);
}
END_TEST

/* Speed by the square root of height of 165 cm: 122 cm 0.86, 90 cm 0.74 (dynamic similarity). */
static const struct {
	double height_cm, speed, stride;
} paces[] = {
	{0, 1, 1}, {165, 1, 1}, {175, 1, 1}, {122, 0.86, 0.739}, {90, 0.74, 0.545},
};

START_TEST(smaller_animals_go_slower)
{
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options options = {.height_cm = paces[_i].height_cm, .diameter_m = 20};
	const struct rt_turn *turn;
	struct rt_turns turns;

	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq_tol(turns.speed_m_per_s / 3.61, paces[_i].speed, 0.005);
	ck_assert_double_eq_tol(turns.stride_m / 2.73, paces[_i].stride, 0.0005);
	ck_assert_double_eq_tol(turns.quarter_m, 5 * PI, 1e-12);
	ck_assert_double_eq_tol(turns.quarter_seconds, 5 * PI / turns.speed_m_per_s, 1e-12);
	ck_assert_double_eq_tol(turns.quarter_strides, 5 * PI / turns.stride_m, 1e-12);
	turn = &turns.list.at[0];
	ck_assert_double_eq_tol(turn->seconds, turn->arc_m / turns.speed_m_per_s, 1e-12);
	ck_assert_double_eq_tol(turn->strides, turn->arc_m / turns.stride_m, 1e-12);
	rt_turns_free(&turns);
}
END_TEST

START_TEST(bend_and_cut_in_are_of_the_animal)
{
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	struct rt_turn_options options = {.height_cm = 165, .diameter_m = 15};
	struct rt_turns turns;

	/* b = 1.353: 1.353 / 7.5 rad; 7.5 - sqrt(7.5^2 - 1.353^2) */
	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq_tol(turns.bend_deg, 10.33616, 5e-6);
	ck_assert_double_eq_tol(turns.cut_in_m, 0.12305, 5e-6);
	ck_assert(turns.height_given);
	rt_turns_free(&turns);
	/* a body longer than the radius has no cut-in */
	options.diameter_m = 2;
	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert(isnan(turns.cut_in_m));
	rt_turns_free(&turns);
	/* the reference animal where none is named: a bend of one number a level */
	options = (struct rt_turn_options){0};
	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	ck_assert_double_eq(turns.height_cm, 142.2);
	ck_assert_double_eq_tol(turns.bend_deg, 6.68092, 5e-6);
	ck_assert(!turns.height_given);
	rt_turns_free(&turns);
}
END_TEST

/* ---- joins ---------------------------------------------------------------------------------- */

/* From the origin looking up to a pose, radius 1; lengths worked by hand. */
static const struct {
	double x, y, toward_x, toward_y;
	double first, straight, second; /* arcs as turned, left positive */
} joins[] = {
	{0, 5, 0, 1, 0, 5, 0},		    /* straight on */
	{-2, 0, 0, -1, PI, 0, 0},	    /* half a circle to the left */
	{2, 0, 0, -1, -PI, 0, 0},	    /* and to the right */
	{-4, 0, 0, -1, PI / 2, 2, PI / 2},  /* left, straight, left */
	{4, 0, 0, -1, -PI / 2, 2, -PI / 2}, /* right, straight, right */
	{-2, 2, 0, 1, PI / 2, 0, -PI / 2},  /* left, right at once */
	{4, 2, 0, 1, -PI / 2, 2, PI / 2},   /* right, straight, left */
};

static struct rt_vec swung(double x, double y, double angle)
{
	return (struct rt_vec){x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)};
}

static void check_join(const struct rt__join *join, const struct rt_pose *to)
{
	struct rt_vec on = rt__go(join->first.finish.at, join->first.finish.toward,
				  join->straight_m);

	/* the arcs lie end to end with the straight, in one direction */
	ck_assert_double_eq_tol(rt__distance(on, join->second.begin.at), 0, 1e-9);
	ck_assert_double_eq_tol(rt__distance(join->first.finish.toward, join->second.begin.toward),
				0, 1e-12);
	ck_assert_double_eq_tol(rt__distance(join->first.centre, join->first.finish.at), 1, 1e-9);
	ck_assert_double_eq_tol(rt__distance(join->second.centre, to->at), 1, 1e-9);
	ck_assert_double_eq_tol(rt__distance(join->second.finish.toward, to->toward), 0, 1e-12);
}

/* Swung to every quarter and between, so that no direction lies along an axis alone. */
START_TEST(joins_are_the_shortest)
{
	double asked = fabs(joins[_i].first) + joins[_i].straight + fabs(joins[_i].second);

	for (double angle = 0; angle < 7; angle += 0.1) {
		const struct rt_pose from = {{0, 0}, swung(0, 1, angle)};
		const struct rt_pose to = {swung(joins[_i].x, joins[_i].y, angle),
					   swung(joins[_i].toward_x, joins[_i].toward_y, angle)};
		struct rt__join join = rt__join(&from, &to, 1.0);

		ck_assert_double_eq_tol(rt__join_length(&join), asked, 1e-6);
		ck_assert_double_eq_tol(join.straight_m, joins[_i].straight, 1e-6);
		ck_assert_double_eq_tol(join.first.turned + join.second.turned,
					joins[_i].first + joins[_i].second, 1e-6);
		check_join(&join, &to);
	}
}
END_TEST

START_TEST(a_join_behind_takes_more_than_half_a_circle)
{
	const struct rt_pose from = {{0, 0}, {0, 1}};
	const struct rt_pose to = {{0, -1}, {0, 1}};
	struct rt__join join = rt__join(&from, &to, 10.0);

	/* left round and left on, nearly a whole circle in all: nothing shorter is there */
	ck_assert_double_gt(fabs(join.first.turned) + fabs(join.second.turned), PI);
	ck_assert_double_eq_tol(join.first.turned + join.second.turned, 2 * PI, 1e-9);
}
END_TEST

/* ---- places in words ------------------------------------------------------------------------ */

static const struct {
	struct rt_place place;
	const char *metres, *feet;
} places[] = {
	{{"G", false, 0, 0}, "G", "G"},
	{{"G", false, 0.0009, 0}, "G", "G"},
	{{"G", false, -0.0009, 0}, "G", "G"},
	{{"G", false, 1, 0}, "1.0 m past G", "3 ft 3.4 in past G"},
	{{"E", false, 10, 0}, "10.0 m past E", "32 ft 10 in past E"},
	{{"quarter line", true, 0, 0}, "quarter line", "quarter line"},
	{{"quarter line", true, -1, 0},
	 "1.0 m before the quarter line",
	 "3 ft 3.4 in before the quarter line"},
	{{"centreline", true, 2.5, 0},
	 "2.5 m past the centreline",
	 "8 ft 2.4 in past the centreline"},
	{{"M", false, -1.25, 0}, "1.25 m before M", "4 ft 1.2 in before M"},
	{{"X", false, 20.0 / 3, 0}, "6.67 m past X", "21 ft 10 in past X"},
	{{"X", false, 7.4995, 0}, "7.5 m past X", "24 ft 7 in past X"},
	{{"M", false, 6, 2}, "6.0 m past M, 2.0 m inside", "19 ft 8 in past M, 6 ft 6.7 in inside"},
	{{"M", false, 0, 2}, "M, 2.0 m inside", "M, 6 ft 6.7 in inside"},
};

START_TEST(places_read_as_people_say_them)
{
	char words[80];

	rt_place_words(&places[_i].place, false, words, sizeof words);
	ck_assert_str_eq(words, places[_i].metres);
	rt_place_words(&places[_i].place, true, words, sizeof words);
	ck_assert_str_eq(words, places[_i].feet);
}
END_TEST

/* Begin and finish of a turn by the letters. */
static const struct {
	enum drive_ring ring;
	double diameter_m, track_m;
	const char *turn;
	enum rt_side hand;
	const char *begin, *finish;
} by_letters[] = {
	{DRIVEN_40X80, 20, 0, "onto the centreline at A", RT_LEFT, "quarter line", "D"},
	{DRIVEN_40X80, 15, 0, "onto the centreline at A", RT_LEFT, "2.5 m past the quarter line",
	 "2.5 m before D"},
	{DRIVEN_40X80, 18, 0, "corner AK", RT_RIGHT, "1.0 m past the quarter line",
	 "1.0 m before K"},
	{DRIVEN_40X80, 18, 0, "corner AK", RT_LEFT, "1.0 m past K",
	 "1.0 m before the quarter line"},
	{DRIVEN_40X80, 40, 0, "corner HC", RT_RIGHT, "5.0 m past S", "C"},
	/* a letter that stands just there comes before the turn's own */
	{DRIVEN_40X80, 30, 0, "B to E, leave at B", RT_LEFT, "P", "5.0 m before X"},
	{DRIVEN_40X80, 30, 0, "B to E, arrive at E", RT_LEFT, "5.0 m before the quarter line", "V"},
	/* a line across with a letter in its middle */
	{DRIVEN_40X80, 36, 0, "B to E, leave at B", RT_LEFT, "18.0 m before B", "2.0 m before X"},
	/* as near to a letter as to a line: the turn's own letter */
	{DRIVEN_40X80, 10, 0, "B to E, leave at B", RT_RIGHT, "5.0 m before B", "5.0 m past B"},
	{DRIVEN_40X80, 10, 0, "off the centreline at C", RT_LEFT, "5.0 m before C", "5.0 m past C"},
	/* as near to the letter behind as to the one ahead: the one ahead */
	{DRIVEN_40X80, 30, 0, "corner HC", RT_LEFT, "5.0 m before the quarter line",
	 "5.0 m past H"},
	{DRIVEN_40X80, 12, 0, "diagonal H X F, arrive at F", RT_RIGHT,
	 "3.48 m before F, 1.11 m inside", "F"},
	/* a track inside the boards: letters for the points that face them, lines where they are */
	{DRIVEN_40X80, 18, 1, "off the centreline at C", RT_RIGHT, "G",
	 "1.0 m before the quarter line"},
	{DRIVEN_40X80, 18, 1, "corner CM after C", RT_RIGHT, "quarter line", "M"},
	{DRIVEN_40X80, 20, 1, "B to E, arrive at E", RT_RIGHT, "1.0 m before the quarter line",
	 "10.0 m past E"},
	{RIDDEN_20X60, 10, 0, "off the centreline at C", RT_RIGHT, "1.0 m past G", "quarter line"},
	{RIDDEN_20X40, 10, 0, "corner AK", RT_RIGHT, "quarter line", "1.0 m before K"},
	{DRIVEN_40X100, 20, 0, "E to B, arrive at B", RT_RIGHT, "quarter line", "10.0 m past B"},
};

START_TEST(turns_are_told_by_the_letters)
{
	const struct rt_turn *turn;
	struct rt_turns turns;

	make(&turns, &drive_ring[by_letters[_i].ring], by_letters[_i].diameter_m,
	     by_letters[_i].track_m);
	turn = drive_find(&turns, by_letters[_i].turn, by_letters[_i].hand);
	ck_assert_ptr_nonnull(turn);
	ck_assert_str_eq(drive_words(&turn->begin), by_letters[_i].begin);
	ck_assert_str_eq(drive_words(&turn->finish), by_letters[_i].finish);
	rt_turns_free(&turns);
}
END_TEST

/* ---- what fits ------------------------------------------------------------------------------ */

static const struct {
	enum drive_ring ring;
	double diameter_m, track_m;
	const char *turn;
	enum rt_side hand;
	bool fits;
	double largest_m;
	double straight_m; /* NAN: none */
} room[] = {
	/* two turns on half the short side */
	{DRIVEN_40X80, 20, 0, "off the centreline at C", RT_LEFT, true, 20, 0},
	{DRIVEN_40X80, 20.0009, 0, "off the centreline at C", RT_LEFT, true, 20, 0},
	{DRIVEN_40X80, 20.002, 0, "off the centreline at C", RT_LEFT, false, 20, NAN},
	{DRIVEN_40X80, 20, 0.5, "off the centreline at C", RT_LEFT, false, 19.5, NAN},
	{RIDDEN_20X40, 20, 0, "off the centreline at A", RT_RIGHT, false, 10, NAN},
	{RIDDEN_20X40, 20, 0, "corner AK after A", RT_RIGHT, false, 10, NAN},
	/* two corners on the short side, two turns across */
	{DRIVEN_40X80, 20, 0, "corner HC", RT_RIGHT, true, 40, 20},
	{RIDDEN_20X40, 20, 0, "corner HC", RT_RIGHT, true, 20, 0},
	{RIDDEN_20X40, 20, 0, "B to E, leave at B", RT_LEFT, true, 20, 0},
	{RIDDEN_20X40, 22, 0, "B to E, leave at B", RT_LEFT, false, 20, NAN},
	/* out of the corner and into it, or from the long side */
	{DRIVEN_40X80, 20, 0, "K to F, leave at K", RT_RIGHT, false, 10, 20},
	{DRIVEN_40X80, 20, 0, "K to F, leave at K", RT_LEFT, true, 40, 20},
	{DRIVEN_40X80, 20, 0, "M to H, arrive at H", RT_RIGHT, false, 10, NAN},
	{DRIVEN_40X80, 20, 0, "V to P, leave at V", RT_RIGHT, true, 25, 20},
	{DRIVEN_40X80, 20, 1.25, "K to F, leave at K", RT_RIGHT, false, 8.7, 17.5},
	/* the corner's radius between corner and letter */
	{DRIVEN_40X80, 20, 0, "diagonal K X M, leave at K", RT_RIGHT, true, 20, 60},
	{DRIVEN_40X80, 20, 1, "diagonal K X M, leave at K", RT_RIGHT, false, 18, NAN},
	{RIDDEN_20X40, 10, 0, "diagonal F X H, leave at F", RT_LEFT, true, 12, NAN},
};

START_TEST(what_does_not_fit_is_said)
{
	const struct rt_turn *turn;
	struct rt_turns turns;

	make(&turns, &drive_ring[room[_i].ring], room[_i].diameter_m, room[_i].track_m);
	turn = drive_find(&turns, room[_i].turn, room[_i].hand);
	ck_assert_ptr_nonnull(turn);
	ck_assert_int_eq(turn->fits, room[_i].fits);
	ck_assert_double_eq_tol(turn->largest_m, room[_i].largest_m, 1e-9);
	if (!isnan(room[_i].straight_m))
		ck_assert_double_eq_tol(turn->straight_m, room[_i].straight_m, 0.001);
	else if (strncmp(turn->turn, "diagonal", 8) != 0)
		ck_assert(isnan(turn->straight_m));
	rt_turns_free(&turns);
}
END_TEST

/* The largest diameter told fits when it is asked for, and a decimetre more does not. */
START_TEST(the_largest_fits)
{
	const struct rt_ring_kind *kind = &drive_ring[_i];
	struct rt_turns asked, largest, over;

	make(&asked, kind, 17, 0.7);
	for (size_t i = 0; i < asked.list.n; i++) {
		double most = asked.list.at[i].largest_m;

		make(&largest, kind, most, 0.7);
		make(&over, kind, most + 0.1, 0.7);
		ck_assert(largest.list.at[i].fits);
		ck_assert(!over.list.at[i].fits);
		rt_turns_free(&largest);
		rt_turns_free(&over);
	}
	rt_turns_free(&asked);
}
END_TEST

/* Every row: on the circle, and the next arc of its figure where the straight leads. */
static void check_row(const struct rt_turns *turns, size_t i)
{
	const struct rt_turn *turn = &turns->list.at[i], *next = turn + 1;
	double r = turns->diameter_m / 2;

	ck_assert_double_eq_tol(
		hypot(turn->begin_x_m - turn->centre_x_m, turn->begin_y_m - turn->centre_y_m), r,
		1e-9);
	ck_assert_double_eq_tol(
		hypot(turn->finish_x_m - turn->centre_x_m, turn->finish_y_m - turn->centre_y_m), r,
		1e-9);
	ck_assert_double_eq_tol(turn->arc_m, r * turn->angle_deg * PI / 180, 1e-9);
	ck_assert(turn->hand == RT_LEFT || turn->hand == RT_RIGHT);
	if (isnan(turn->straight_m))
		return;
	ck_assert_uint_lt(i + 1, turns->list.n);
	ck_assert_int_eq(next->figure, turn->figure);
	ck_assert_double_eq_tol(
		hypot(next->begin_x_m - turn->finish_x_m, next->begin_y_m - turn->finish_y_m),
		turn->straight_m, 1e-9);
}

START_TEST(rows_hang_together)
{
	static const struct {
		double diameter_m, track_m;
	} asked[] = {{20, 0}, {18, 1}, {7.3, 0.4}, {33, 0}};
	struct rt_turns turns;

	for (size_t k = 0; k < COUNT(asked); k++) {
		make(&turns, &drive_ring[_i], asked[k].diameter_m, asked[k].track_m);
		for (size_t i = 0; i < turns.list.n; i++)
			check_row(&turns, i);
		rt_turns_free(&turns);
	}
}
END_TEST

/* ---- kinds that a show adds ----------------------------------------------------------------- */

static size_t rows_with(const struct rt_turns *turns, const char *part)
{
	size_t n = 0;

	for (size_t i = 0; i < turns->list.n; i++)
		n += strstr(turns->list.at[i].turn, part) != NULL;
	return n;
}

/* A row an arc: four of each centreline end, eight corners, eight of each pair of letters, eight
 * of the diagonals. */
static const size_t rows_of_ring[DRIVE_RINGS] = {16 + 8 + 3 * 8 + 8, 16 + 8 + 5 * 8 + 8,
						 16 + 8 + 5 * 8 + 8, 16 + 8 + 5 * 8 + 8};

START_TEST(every_turn_of_the_standard_rings)
{
	struct rt_turns turns;

	make(&turns, &drive_ring[_i], 8, 0);
	ck_assert_uint_eq(turns.list.n, rows_of_ring[_i]);
	ck_assert_uint_eq(rows_with(&turns, "V to P"), _i == RIDDEN_20X40 ? 0 : 4);
	ck_assert_uint_eq(rows_with(&turns, "diagonal M X K"), 2);
	if (_i == DRIVEN_40X80)
		ck_assert_str_eq(turns.unconfirmed, "V S R P");
	else
		ck_assert_str_eq(turns.unconfirmed, "");
	rt_turns_free(&turns);
}
END_TEST

START_TEST(only_turns_whose_letters_are_there)
{
	/* no A; W and Q face nothing; only the right side has a letter in its A half */
	struct rt_letter letters[] = {{"C", RT_SIDE_C, 15},  {"W", RT_LEFT, 50},
				      {"E", RT_LEFT, 30},    {"B", RT_RIGHT, 30},
				      {"Q", RT_RIGHT, 10.5}, {"J", RT_SIDE_A, 3}};
	const struct rt_ring_kind kind = {"small", RT_DRIVEN, 30, 60, {.at = letters, .n = 6}};
	struct rt_turns turns;

	make(&turns, &kind, 8, 0);
	ck_assert_uint_eq(rows_with(&turns, "at C"), 4);
	ck_assert_uint_eq(rows_with(&turns, "at A"), 0);
	ck_assert_uint_eq(rows_with(&turns, "leave at"), 4);
	ck_assert_ptr_nonnull(drive_find(&turns, "B to E, leave at B", RT_LEFT));
	ck_assert_uint_eq(rows_with(&turns, "diagonal"), 0);
	rt_turns_free(&turns);
	/* Q is now opposite to W, with no letter at X */
	letters[4].offset_m = 10;
	make(&turns, &kind, 8, 0);
	ck_assert_uint_eq(rows_with(&turns, "diagonal W Q"), 2);
	ck_assert_uint_eq(rows_with(&turns, "diagonal Q W"), 2);
	rt_turns_free(&turns);
	make(&turns, &kind, 26, 0);
	ck_assert_str_eq(drive_words(&drive_find(&turns, "B to E, leave at B", RT_LEFT)->finish),
			 "2.0 m before the centreline");
	rt_turns_free(&turns);
	/* past the corners of its track, a letter has no turn */
	make(&turns, &kind, 8, 10);
	ck_assert_uint_eq(rows_with(&turns, "diagonal"), 0);
	ck_assert_uint_eq(rows_with(&turns, "B to E"), 4);
	rt_turns_free(&turns);
}
END_TEST

START_TEST(a_ring_without_letters_has_corners)
{
	const struct rt_ring_kind kind = {"bare", RT_DRIVEN, 30, 60, {0}};
	struct rt_turns turns;

	make(&turns, &kind, 20, 0);
	ck_assert_uint_eq(turns.list.n, 8);
	ck_assert_str_eq(drive_words(&drive_find(&turns, "corner AK", RT_RIGHT)->finish),
			 "10.0 m past AK");
	ck_assert_str_eq(drive_words(&drive_find(&turns, "corner AK", RT_LEFT)->begin),
			 "10.0 m before AK");
	ck_assert_str_eq(drive_words(&drive_find(&turns, "corner AK", RT_LEFT)->finish),
			 "2.5 m past the quarter line");
	rt_turns_free(&turns);
}
END_TEST

/* A line that meets the track at more than 60 degrees is a turn across, no diagonal. */
START_TEST(steep_lines_are_no_diagonals)
{
	struct rt_letter letters[] = {{"K", RT_LEFT, 12}, {"M", RT_RIGHT, 28}};
	const struct rt_ring_kind kind = {"square", RT_DRIVEN, 40, 40, {.at = letters, .n = 2}};
	struct rt_turns turns;

	make(&turns, &kind, 8, 0);
	ck_assert_uint_eq(rows_with(&turns, "diagonal"), 0);
	rt_turns_free(&turns);
	letters[0].offset_m = 6;
	letters[1].offset_m = 34;
	make(&turns, &kind, 8, 0);
	ck_assert_uint_eq(rows_with(&turns, "diagonal"), 4);
	rt_turns_free(&turns);
}
END_TEST

/* Letters far from the corners: what limits a diagonal is that its arcs turn against each other.
 * With w = 15 and l = 10, r <= (w^2 + l^2) / 2w, d <= 21.667. */
START_TEST(arcs_against_each_other_need_room)
{
	struct rt_letter letters[] = {{"K", RT_LEFT, 20}, {"M", RT_RIGHT, 40}};
	const struct rt_ring_kind kind = {"long", RT_DRIVEN, 30, 60, {.at = letters, .n = 2}};
	const struct rt_turn *leave;
	struct rt_turns turns;

	make(&turns, &kind, 21.666, 0);
	leave = drive_find(&turns, "diagonal K M, leave at K", RT_RIGHT);
	ck_assert_ptr_nonnull(leave);
	ck_assert_double_eq_tol(leave->largest_m, 21.6, 1e-9);
	ck_assert(leave->fits);
	ck_assert_double_eq_tol(leave->straight_m, 0, 0.2);
	rt_turns_free(&turns);
	make(&turns, &kind, 21.7, 0);
	for (size_t i = 0; i < turns.list.n; i++)
		if (strstr(turns.list.at[i].turn, "diagonal"))
			ck_assert(!turns.list.at[i].fits);
	rt_turns_free(&turns);
}
END_TEST

/* ---- what is refused ------------------------------------------------------------------------ */

static const struct {
	struct rt_turn_options options;
	enum rt_discipline discipline;
	const char *gait;
	enum rt_err code;
	const char *says;
} refused[] = {
	{{.height_cm = 39}, RT_DRIVEN, "trot", RT_E_USAGE, "height"},
	{{.height_cm = 221}, RT_DRIVEN, "trot", RT_E_USAGE, "height"},
	{{.height_cm = -1}, RT_DRIVEN, "trot", RT_E_USAGE, "height"},
	{{.height_cm = NAN}, RT_DRIVEN, "trot", RT_E_USAGE, "height"},
	{{.diameter_m = -20}, RT_DRIVEN, "trot", RT_E_USAGE, "diameter"},
	{{.diameter_m = 1001}, RT_DRIVEN, "trot", RT_E_USAGE, "diameter"},
	{{.diameter_m = NAN}, RT_DRIVEN, "trot", RT_E_USAGE, "diameter"},
	{{.track_m = -0.1}, RT_DRIVEN, "trot", RT_E_USAGE, "track"},
	{{.track_m = 20}, RT_DRIVEN, "trot", RT_E_USAGE, "20.0 m"},
	{{.track_m = NAN}, RT_DRIVEN, "trot", RT_E_USAGE, "track"},
	{{.track_m = 0}, RT_RIDDEN, "trot", RT_E_USAGE, "test level is ridden"},
	{{.track_m = 0}, RT_DRIVEN, "passage", RT_E_NOTFOUND, "passage"},
};

START_TEST(options_out_of_range_are_refused)
{
	struct rt_level level = drive_level(refused[_i].discipline, 20);
	struct rt_error err = {0};
	struct rt_turns turns;

	level.gait = refused[_i].gait;
	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &refused[_i].options, &err),
			 refused[_i].code);
	ck_assert_msg(strstr(err.text, refused[_i].says), "%s", err.text);
	ck_assert_uint_eq(turns.list.n, 0);
	rt_turns_free(&turns);
}
END_TEST

START_TEST(a_diameter_that_no_ring_has_is_accepted)
{
	const struct rt_level level = drive_level(RT_DRIVEN, 20);
	const struct rt_turn_options options = {.diameter_m = 1000};
	struct rt_turns turns;

	ck_assert_int_eq(rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits,
				       &options, NULL),
			 RT_OK);
	for (size_t i = 0; i < turns.list.n; i++)
		ck_assert(!turns.list.at[i].fits);
	rt_turns_free(&turns);
}
END_TEST

/* What files may say: both ends of each range, and a hundredth past them; and how the
 * lowest is told in a list. */
static const struct {
	const struct rt_record *record;
	const char *field, *under, *low, *high, *over, *told;
} ranges[] = {
	{&rt_gait_record, "speed_m_per_s", "0.09", "0.1", "20", "20.01", "0.10"},
	{&rt_gait_record, "stride_m", "0.09", "0.1", "10", "10.01", "0.10"},
	{&rt_level_record, "turn_diameter_m", "0.99", "1", "100", "100.01", "1.0"},
	{&rt_turnout_part_record, "hitch_m", "-20.01", "-20", "20", "20.01", "-20.00"},
	{&rt_turnout_part_record, "length_m", "0.09", "0.1", "20", "20.01", "0.10"},
	{&rt_turnout_part_record, "width_m", "0.09", "0.1", "5", "5.01", "0.10"},
	{&rt_turnout_part_record, "track_m", "0.09", "0.1", "5", "5.01", "0.10"},
	{&rt_turnout_part_record, "cog_m", "0.09", "0.1", "5", "5.01", "0.10"},
	{&rt_turnout_part_record, "animals", "0", "1", "20", "21", "1"},
};

START_TEST(rows_keep_inside_their_ranges)
{
	const struct rt_field *f = rt_record_field(ranges[_i].record, ranges[_i].field);
	union {
		struct rt_gait gait;
		struct rt_level level;
		struct rt_turnout_part part;
	} row;
	char kept[RT_OWN_SIZE], words[32];
	struct rt_value value;

	ck_assert_ptr_nonnull(f);
	rt_record_start(ranges[_i].record, &row);
	ck_assert_int_eq(rt_field_read(f, &row, ranges[_i].under, NULL, NULL), RT_E_INPUT);
	ck_assert_int_eq(rt_field_read(f, &row, ranges[_i].low, NULL, NULL), RT_OK);
	value = rt_field_value(ranges[_i].record, f, &row, kept);
	ck_assert_str_eq(rt_value_words(f, &value, false, words, sizeof words), ranges[_i].told);
	ck_assert_int_eq(rt_field_read(f, &row, ranges[_i].high, NULL, NULL), RT_OK);
	ck_assert_int_eq(rt_field_read(f, &row, ranges[_i].over, NULL, NULL), RT_E_INPUT);
}
END_TEST

/* ---- the report ----------------------------------------------------------------------------- */

START_TEST(the_report_has_the_columns_that_are_relied_on)
{
	static const char *const names[] = {"turn",	  "hand",      "diameter_m", "begin",
					    "finish",	  "begin_x_m", "begin_y_m",  "finish_x_m",
					    "finish_y_m", "arc_m",     "straight_m", "seconds",
					    "bend_deg",	  "fits",      "largest_m"};
	struct rt_report report = {0};
	const struct rt_table *table;
	struct rt_turns turns;
	size_t cautions = 0;

	make(&turns, &drive_ring[DRIVEN_40X80], 20, 0);
	ck_assert_int_eq(rt_turns_report(&report, &turns, false, NULL), RT_OK);
	ck_assert(!report.needs_person);
	ck_assert_uint_eq(report.tables, 3);
	ck_assert_str_eq(report.table[0]->name, "summary");
	ck_assert_str_eq(report.table[1]->name, "pace");
	table = report.table[2];
	ck_assert_str_eq(table->name, "turns");
	ck_assert_uint_eq(rt_table_rows(table), turns.list.n);
	ck_assert_uint_eq(table->cells, turns.list.n * table->columns);
	for (size_t i = 0; i < COUNT(names); i++)
		ck_assert_str_eq(table->column[i].name, names[i]);
	ck_assert_str_eq(rt_table_cell(table, 0, 0)->as.text, "off the centreline at C");
	ck_assert_str_eq(rt_table_cell(table, 0, 1)->as.text, "left");
	ck_assert_str_eq(rt_table_cell(table, 0, 3)->as.text, "G");
	ck_assert_double_eq(rt_table_cell(table, 0, 10)->as.real, 0);
	ck_assert(rt_table_cell(table, 1, 10)->null);
	for (size_t i = 0; i < report.notes; i++)
		cautions += strcmp(report.note[i], RT_CAUTION) == 0;
	ck_assert_uint_eq(cautions, 1);
	rt_report_free(&report);
	rt_turns_free(&turns);
}
END_TEST

START_TEST(places_of_a_report_in_feet)
{
	struct rt_report report = {0};
	struct rt_turns turns;

	make(&turns, &drive_ring[DRIVEN_40X80], 18, 0);
	ck_assert_int_eq(rt_turns_report(&report, &turns, true, NULL), RT_OK);
	ck_assert_str_eq(rt_table_cell(report.table[2], 0, 3)->as.text, "3 ft 3.4 in past G");
	rt_report_free(&report);
	rt_turns_free(&turns);
}
END_TEST

static void add_level_tests(TCase *t)
{
	tcase_add_test(t, levels_are_of_a_discipline);
	tcase_add_loop_test(t, smaller_animals_turn_smaller, 0, ROWS(diameters));
	tcase_add_loop_test(t, smaller_animals_go_slower, 0, ROWS(paces));
	tcase_add_test(t, bend_and_cut_in_are_of_the_animal);
	tcase_add_loop_test(t, joins_are_the_shortest, 0, ROWS(joins));
	tcase_add_test(t, a_join_behind_takes_more_than_half_a_circle);
	tcase_add_loop_test(t, places_read_as_people_say_them, 0, ROWS(places));
}

static void add_turn_tests(TCase *t)
{
	tcase_add_loop_test(t, turns_are_told_by_the_letters, 0, ROWS(by_letters));
	tcase_add_loop_test(t, what_does_not_fit_is_said, 0, ROWS(room));
	tcase_add_loop_test(t, the_largest_fits, 0, DRIVE_RINGS);
	tcase_add_loop_test(t, rows_hang_together, 0, DRIVE_RINGS);
	tcase_add_loop_test(t, every_turn_of_the_standard_rings, 0, DRIVE_RINGS);
	tcase_add_test(t, only_turns_whose_letters_are_there);
	tcase_add_test(t, a_ring_without_letters_has_corners);
	tcase_add_test(t, steep_lines_are_no_diagonals);
	tcase_add_test(t, arcs_against_each_other_need_room);
	tcase_add_loop_test(t, options_out_of_range_are_refused, 0, ROWS(refused));
	tcase_add_test(t, a_diameter_that_no_ring_has_is_accepted);
	tcase_add_loop_test(t, rows_keep_inside_their_ranges, 0, ROWS(ranges));
	tcase_add_test(t, the_report_has_the_columns_that_are_relied_on);
	tcase_add_test(t, places_of_a_report_in_feet);
}

int check_drive(void)
{
	Suite *suite = suite_create("drive");
	TCase *levels = tcase_create("levels, joins, words"), *turns = tcase_create("turns");

	suite_add_tcase(suite, levels);
	suite_add_tcase(suite, turns);
	add_level_tests(levels);
	add_turn_tests(turns);
	return suite_run(suite);
}
