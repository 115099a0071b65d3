/* A point of a path told by the letters.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>

/* A direction nearer to an axis than this runs along it. */
#define ALONG 1e-9

/* Corners come after any letter of any ring. */
#define CORNER_RANK 1e6

/* The best reference so far; the lowest rank is best. */
struct choice {
	struct rt_place place;
	double rank;
};

static bool on_long_side(const struct rt_peg *letter)
{
	return letter->side == RT_LEFT || letter->side == RT_RIGHT;
}

static bool on_track(const struct rt__track *track, const struct rt_pose *pose)
{
	return fabs(pose->toward.x) < ALONG &&
	       fabs(fabs(pose->at.x) - track->half_width) <= RT__EQUAL_M;
}

/* How far the pose has come past the point `at`, and how far beside it the line runs. */
static void measure(const struct rt_pose *pose, struct rt_vec at, double *past, double *beside)
{
	double x = pose->at.x - at.x, y = pose->at.y - at.y;

	*past = x * pose->toward.x + y * pose->toward.y;
	*beside = fabs(x * pose->toward.y - y * pose->toward.x);
}

/* Exactly there, then the letter a turn on the long side is counted from, then the nearest; of
 * two as near the turn's own, then the one ahead. */
static double rank(double past, bool own, bool counted_from)
{
	if (fabs(past) <= RT__EQUAL_M)
		return -2.0;
	if (counted_from)
		return -1.0;
	return fabs(past) - (own ? RT__EQUAL_M : 0.0) + (past > 0.0 ? RT__EQUAL_M / 2.0 : 0.0);
}

static void offer(struct choice *best, const char *name, bool line, double past, double its_rank)
{
	if (best->place.reference && best->rank <= its_rank)
		return;
	best->place = (struct rt_place){name, line, past, 0.0};
	best->rank = its_rank;
}

/* The letters of the line that is driven; where it has none, its corners. */
static void offer_letters(struct choice *best, const struct rt__track *track,
			  const struct rt_pose *pose, const struct rt_peg *own)
{
	bool counted = own && on_long_side(own) && on_track(track, pose);

	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *letter = &track->pegs.at[i];
		double past, beside;

		measure(pose, rt__peg_point(letter), &past, &beside);
		if (beside > RT__EQUAL_M)
			continue;
		offer(best, letter->name, false, past,
		      letter->corner ? CORNER_RANK + fabs(past)
				     : rank(past, letter == own, counted && letter == own));
	}
}

/* The quarter lines and the centreline, which a line across meets. */
static void offer_lines(struct choice *best, const struct rt__track *track,
			const struct rt_pose *pose)
{
	const struct {
		const char *name;
		double x;
	} lines[] = {
		{"quarter line", -track->quarter},
		{"centreline", 0.0},
		{"quarter line", track->quarter},
	};

	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
		double past = (pose->at.x - lines[i].x) * pose->toward.x;

		offer(best, lines[i].name, true, past, rank(past, false, false));
	}
}

/* A point of a diagonal: along the track from a letter, and in from the track. */
static struct rt_place beside_letter(const struct rt__track *track, const struct rt_pose *pose,
				     const struct rt_peg *own)
{
	return (struct rt_place){
		.reference = own->name,
		.past_m = copysign(1.0, pose->toward.y) * (pose->at.y - own->y_m),
		.in_m = track->half_width - fabs(pose->at.x),
	};
}

/* A point of a line that no letter stands on: from the letter of the nearer long side that is
 * least far along it, or a corner where the side has none. */
static struct rt_place beside_nearest(const struct rt__track *track, const struct rt_pose *pose)
{
	enum rt_side side = pose->at.x < 0.0 ? RT_LEFT : RT_RIGHT;
	const struct rt_peg *nearest = NULL;
	double least = INFINITY;

	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];
		double far = fabs(peg->y_m - pose->at.y) + (peg->corner ? CORNER_RANK : 0.0);

		if (peg->side == side && far < least) {
			nearest = peg;
			least = far;
		}
	}
	return beside_letter(track, pose, nearest);
}

struct rt_place rt__place_by_letters(const struct rt__track *track, const struct rt_pose *pose,
				     const struct rt_peg *own)
{
	bool across = fabs(pose->toward.y) < ALONG, along = fabs(pose->toward.x) < ALONG;
	struct choice best = {0};

	if (!across && !along && own)
		return beside_letter(track, pose, own);
	offer_letters(&best, track, pose, own);
	if (across)
		offer_lines(&best, track, pose);
	return best.place.reference ? best.place : beside_nearest(track, pose);
}

struct rt_turn rt__turn_of(const struct rt__track *track, const struct rt__arc *arc,
			   const char *name, const struct rt_peg *own)
{
	return (struct rt_turn){
		.turn = name,
		.hand = arc->turned > 0.0 ? RT_LEFT : RT_RIGHT,
		.begin = rt__place_by_letters(track, &arc->begin, own),
		.finish = rt__place_by_letters(track, &arc->finish, own),
		.begin_x_m = arc->begin.at.x,
		.begin_y_m = arc->begin.at.y,
		.finish_x_m = arc->finish.at.x,
		.finish_y_m = arc->finish.at.y,
		.centre_x_m = arc->centre.x,
		.centre_y_m = arc->centre.y,
		.diameter_m = 2.0 * arc->radius,
		.angle_deg = fabs(arc->turned) * RT__DEGREES,
		.arc_m = rt__arc_length(arc),
		.fits = true,
	};
}

struct rt_piece rt_turn_piece(const struct rt_turn *turn)
{
	double k = (turn->hand == RT_LEFT ? 2.0 : -2.0) / turn->diameter_m;

	return (struct rt_piece){
		.begin = {{turn->begin_x_m, turn->begin_y_m},
			  {(turn->centre_y_m - turn->begin_y_m) * k,
			   (turn->begin_x_m - turn->centre_x_m) * k}},
		.length_m = turn->arc_m,
		.curvature_per_m = k,
	};
}

struct rt_vec rt_turn_corner(const struct rt_turn *turn)
{
	const struct rt_pose begin = rt_turn_piece(turn).begin;
	double half = turn->angle_deg / RT__DEGREES / 2.0;

	return rt__go(begin.at, begin.toward, turn->diameter_m / 2.0 * tan(half));
}

void rt_place_words(const struct rt_place *place, bool feet, char *out, size_t size)
{
	char past[64] = "", in[64] = "";

	if (fabs(place->past_m) > RT__EQUAL_M)
		snprintf(past, sizeof past, "%s %s %s",
			 rt_show_length(fabs(place->past_m), 1, 2, feet).text,
			 place->past_m > 0.0 ? "past" : "before", place->line ? "the " : "");
	if (fabs(place->in_m) > RT__EQUAL_M)
		snprintf(in, sizeof in, ", %s %s",
			 rt_show_length(fabs(place->in_m), 1, 2, feet).text,
			 place->in_m > 0.0 ? "inside" : "outside");
	snprintf(out, size, "%s%s%s", past, place->reference, in);
}
