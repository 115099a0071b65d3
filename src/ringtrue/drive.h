/* drive: levels, gaits and turnouts; the turns of a level by the letters of a ring.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_DRIVE_H
#define RINGTRUE_DRIVE_H

#include <ringtrue/report.h>
#include <ringtrue/ring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A level: the diameter of its corners and turns for an animal of the reference height, and
 * the gait that turns are timed at.  The same name may stand in both disciplines. */
struct rt_level {
	const char *name;
	enum rt_discipline discipline;
	double turn_diameter_m;
	double reference_height_cm;
	const char *gait;
};

struct rt_levels RT_LIST(struct rt_level);

RT_API extern const struct rt_record rt_level_record;

/* A gait: speed and stride of a horse of 165 cm. */
struct rt_gait {
	const char *name;
	double speed_m_per_s;
	double stride_m;
	const char *source;
};

struct rt_gaits RT_LIST(struct rt_gait);

RT_API extern const struct rt_record rt_gait_record;

/* One part of a turnout, front to back (the chain of parts): the hitch stands hitch_m behind
 * the axle of the part in front (negative: in front of it), the axle length_m behind the
 * hitch.  track_m and cog_m are NAN where not given. */
struct rt_turnout_part {
	const char *turnout;
	const char *part;
	double hitch_m, length_m, width_m;
	double track_m, cog_m;
	int64_t animals; /* that go there; 0: not told, or none */
};

struct rt_turnout_parts RT_LIST(struct rt_turnout_part);

RT_API extern const struct rt_record rt_turnout_part_record;

/* The level of that name and discipline, case and accents ignored, or NULL. */
RT_API const struct rt_level *rt_level_find(const struct rt_levels *levels, const char *name,
					    enum rt_discipline discipline);
/* The gait of that name, likewise, or NULL. */
RT_API const struct rt_gait *rt_gait_find(const struct rt_gaits *gaits, const char *name);

/* The speed of a gait for an animal of that height: as it stands without a height (0) or from
 * 165 cm on, else by the square root of the height (dynamic similarity). */
RT_API double rt_gait_speed(const struct rt_gait *gait, double height_cm);

/* The diameter of a level's corners and turns for an animal of that height (0: the reference
 * animal): the level's own, or for a smaller animal in proportion to its height, rounded to half
 * a metre, so that the bend asked stays the same.  Circles that a test prints are never scaled. */
RT_API double rt_level_diameter(const struct rt_level *level, double height_cm);
/* The bend that a level accepts of an animal whose fore and hind feet stand so far apart: b/r on
 * the circle of its diameter, for a height of b/0.82. */
RT_API double rt_level_bend_deg(const struct rt_level *level, double feet_apart_m);

/* ---- turns: where each begins and ends by the letters --------------------------------------- */

/* A point of a path by the letters: past_m past the reference in the direction of travel
 * (negative: before it).  line: the reference is a quarter line or the centreline, not a letter.
 * in_m is how far inside the track, for a point of a diagonal; past_m is then measured along the
 * track.
 *
 * Which reference: a letter or line that stands just there (within 1 mm); else, on a long side,
 * the letter the turn is named by, as a driver counts a turn at B from B; else the nearest one on
 * the line that is driven, of two as near the turn's own or the one ahead.  Lines across offer
 * their letters, the quarter lines and the centreline; a long side without letters its corners. */
struct rt_place {
	const char *reference;
	bool line;
	double past_m, in_m;
};

/* "G", "1.0 m past G", "quarter line", "1.0 m before the quarter line", or on a diagonal
 * "6.0 m past M, 2.0 m inside".  Lengths to a decimetre, to a centimetre where that would not be
 * true, or in feet and inches. */
RT_API void rt_place_words(const struct rt_place *place, bool feet, char *out, size_t size);

/* One arc: of a figure of the turns of a level, or of a route. */
struct rt_turn {
	const char *turn;  /* in plain words: "off the centreline at C", "corner CM", "leave M" */
	enum rt_side hand; /* RT_LEFT or RT_RIGHT */
	struct rt_place begin, finish;
	double begin_x_m, begin_y_m, finish_x_m, finish_y_m, centre_x_m, centre_y_m;
	double diameter_m;
	double angle_deg; /* change of direction, positive to both hands */
	double arc_m;
	bool fits; /* of a route: true */

	/* Of a figure. */
	int figure;	   /* counted from 1; arcs of one figure follow each other */
	double straight_m; /* to the figure's next arc; NAN: the last one, or no room for both */
	double seconds, strides; /* of the arc; strides count the stride of one animal */
	double largest_m;	 /* the largest diameter that fits here, rounded down to 0.1 m */

	/* Of a route. */
	size_t leg;    /* the movement it belongs to, by its middle */
	double from_m; /* where it begins along the path */
};

struct rt_turn_list RT_LIST(struct rt_turn);

/* Letters whose places no rulebook confirms, "V S"; "": none. */
#define RT_UNCONFIRMED_SIZE 16

/* The turns of a level in a ring.  Names of the kind and of the level are borrowed and must outlive
 * it; those that are made live in list.text. */
struct rt_turns {
	const char *kind, *level, *gait;
	double diameter_m, track_m;
	double height_cm;  /* the animal that the bend is of */
	bool height_given; /* false: the level's reference animal, pace unscaled */
	double speed_m_per_s, stride_m;
	double bend_deg; /* asked of the animal on this circle */
	double cut_in_m; /* of hind feet whose body does not bend; NAN: longer than the radius */
	double lateral_m_per_s2; /* what the pace asks in the turn: v^2/r */
	double lean_deg;	 /* atan(v^2/(g r)) */
	double quarter_m, quarter_seconds, quarter_strides; /* of a quarter turn */
	char unconfirmed[RT_UNCONFIRMED_SIZE];
	struct rt_turn_list list;
};

/* What may be chosen of turns and routes; a zeroed struct is the level as it stands, on the boards.
 */
struct rt_turn_options {
	double height_cm;  /* of the animal, 40 to 220; 0: not given */
	double diameter_m; /* of what has no number of its own; 0: the level's, by the height */
	double track_m;	   /* how far the track lies inside the boards, 0 or more */
};

/* The turns of a level in a ring of that kind, one row an arc:
 *  - off the centreline at A and C to either hand, with the corner that follows;
 *  - onto the centreline at A and C from either hand, with the corner before it;
 *  - each short side with its two corners, on either rein;
 *  - across between every pair of letters that face each other, both ways, from either rein.
 *    The rein is kept (left and left, or right and right); to change it, drive the first arc of
 *    one and the last arc of the other, as both lie on the same line across;
 *  - onto each long diagonal: the arc off the track begins at the outermost letter, the arc onto
 *    it ends at the letter opposite across X (arc, straight, arc; L. E. Dubins, 1957).  Only
 *    where the line meets the track at 60 degrees or less.
 * Only turns whose letters the kind has.  A turn at A or C needs a letter in the middle of that
 * side.  With a track inside the boards, A, C and the letters of the long sides stand for the
 * points of the track that face them; centreline letters and quarter lines stay.
 *
 * A turn touches both its lines: it begins r tan(angle/2) before their meeting point.  It fits
 * when two turns that share a line have room for both, a corner at the end of the line counting
 * as one, driven with the same diameter: d <= half the short side off the centreline, d <= the
 * width across, d <= the way from the corner for a turn across at a letter (a 20 m turn at K,
 * 10 m from the corner, fits coming down the long side and not out of the corner: a driver then
 * takes a smaller turn, or stays on the short side).  An arc of a diagonal is at the letter
 * already, so that r <= the way from the corner.  A row that does not fit shows the arc as asked.
 *
 * Pace: with a height below 165 cm, the gait's speed times sqrt(h/165 cm) and its stride times
 * h/165 cm (dynamic similarity); as it stands otherwise.  Bend is b/r with b = 0.82 of the
 * height (from memory; given, or the reference height).  Cut-in is r - sqrt(r^2 - b^2).
 *
 * RT_E_USAGE: an option out of range, or a level of the other discipline.  RT_E_NOTFOUND: a gait
 * that gaits has not got.  RT_E_NOMEM. */
RT_API enum rt_err rt_turns_make(struct rt_turns *out, const struct rt_ring_kind *kind,
				 const struct rt_level *level, const struct rt_gaits *gaits,
				 const struct rt_turn_options *options, struct rt_error *err);
RT_API void rt_turns_free(struct rt_turns *turns);

/* The tables of the reports of turns, routes, cones and sweeps; NULL after the last. */
RT_API extern const struct rt_record *const rt_drive_tables[];

/* Append tables `summary` (ring and level), `pace` (what a quarter turn asks) and `turns`, and
 * notes, to a report (started zeroed).  feet: places in words are told in feet and inches, for a
 * text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_turns_report(struct rt_report *r, const struct rt_turns *turns, bool feet,
				   struct rt_error *err);

/* ---- path: straights and arcs, one after another --------------------------------------------- */

/* A point, in metres, or a direction, of length 1. */
struct rt_vec {
	double x, y;
};

/* Where something stands and which way it looks. */
struct rt_pose {
	struct rt_vec at, toward;
};

/* One piece of a path, driven from `begin` over length_m (over 0).  A piece of a circle has
 * the curvature 1/radius, to the left positive; a straight has 0. */
struct rt_piece {
	struct rt_pose begin;
	double length_m;
	double curvature_per_m;
};

/* A path: each piece begins where the one before ended, looking the same way.  path.text is
 * unused. */
struct rt_path RT_LIST(struct rt_piece);

/* Where a piece is after s_m metres, which may lie past either end. */
RT_API struct rt_pose rt_piece_at(const struct rt_piece *piece, double s_m);
/* The piece that a turn is, and where the lines meet that it touches at its ends. */
RT_API struct rt_piece rt_turn_piece(const struct rt_turn *turn);
RT_API struct rt_vec rt_turn_corner(const struct rt_turn *turn);

/* An upright rectangle that holds a path. */
struct rt_path_extent {
	double x_min_m, x_max_m, y_min_m, y_max_m;
};

/* The length of all pieces; 0 for an empty path. */
RT_API double rt_path_length(const struct rt_path *path);
/* The pose at s metres from the start, and the curvature there (that of the later piece where
 * two meet; may be NULL).  s before the start or past the end goes on straight.  An empty path
 * stands at the origin, looking towards +x. */
RT_API struct rt_pose rt_path_at(const struct rt_path *path, double s_m, double *curvature_per_m);
/* The exact box of a path: ends of pieces, and the points of arcs that lie farthest out. */
RT_API struct rt_path_extent rt_path_box(const struct rt_path *path);
/* Append a straight, or an arc turned by angle_rad (left positive, up to any number of turns)
 * at radius_m; a piece of no length adds nothing.  The first piece of an empty path begins at
 * *start, later ones where the path ends (start may then be NULL).  RT_E_NOMEM. */
RT_API enum rt_err rt_path_straight(struct rt_path *path, const struct rt_pose *start,
				    double length_m, struct rt_error *err);
RT_API enum rt_err rt_path_arc(struct rt_path *path, const struct rt_pose *start, double radius_m,
			       double angle_rad, struct rt_error *err);
RT_API void rt_path_free(struct rt_path *path);

#ifdef __cplusplus
}
#endif
#endif
