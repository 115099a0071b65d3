/* drive: levels, gaits and turnouts; the turns of a level by the letters of a ring.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_DRIVE_H
#define RINGTRUE_DRIVE_H

#include <ringtrue/base.h>
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

/* A gait: speed and stride of a horse of 165 cm. */
struct rt_gait {
	const char *name;
	double speed_m_per_s;
	double stride_m;
	const char *source;
};

struct rt_gaits RT_LIST(struct rt_gait);

/* One part of a turnout, front to back (the chain of parts): the hitch stands hitch_m behind
 * the axle of the part in front (negative: in front of it), the axle length_m behind the
 * hitch.  track_m and cog_m are NAN where not given. */
struct rt_turnout_part {
	const char *turnout;
	const char *part;
	double hitch_m, length_m, width_m;
	double track_m, cog_m;
};

struct rt_turnout_parts RT_LIST(struct rt_turnout_part);

/* The level of that name and discipline, or NULL. */
RT_API const struct rt_level *rt_level_find(const struct rt_levels *levels, const char *name,
					    enum rt_discipline discipline);
/* The gait of that name, or NULL. */
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

/* One arc of a figure. */
struct rt_turn {
	int figure;	   /* counted from 1; arcs of one figure follow each other */
	const char *turn;  /* in plain words: "off the centreline at C" */
	enum rt_side hand; /* RT_LEFT or RT_RIGHT */
	struct rt_place begin, finish;
	double begin_x_m, begin_y_m, finish_x_m, finish_y_m, centre_x_m, centre_y_m;
	double angle_deg; /* change of direction, positive to both hands */
	double arc_m;
	double straight_m; /* to the figure's next arc; NAN: the last one, or no room for both */
	double seconds, strides; /* of the arc; strides count the stride of one animal */
	bool fits;
	double largest_m; /* the largest diameter that fits here, rounded down to 0.1 m */
};

struct rt_turn_list RT_LIST(struct rt_turn);

/* The turns of a level in a ring; all strings live in list.text. */
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
	const char *unconfirmed; /* letters whose places no rulebook confirms; NULL: none */
	struct rt_turn_list list;
};

/* What may be chosen; a zeroed struct is the level as it stands. */
struct rt_turn_options {
	double height_cm;  /* of the animal, 40 to 220; 0: not given */
	double diameter_m; /* 0: the level's, scaled by the height */
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

/* Append tables `summary` (ring and level), `pace` (what a quarter turn asks) and `turns`, and
 * notes, to a report (started zeroed).  feet: places in words are told in feet and inches, for a
 * text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_turns_report(struct rt_report *r, const struct rt_turns *turns, bool feet,
				   struct rt_error *err);

/* ---- path: straights and arcs, one after another --------------------------------------------- */

/* Where something stands and which way it looks; (toward_x, toward_y) has length 1. */
struct rt_pose {
	double x_m, y_m;
	double toward_x, toward_y;
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

/* ---- figures: how a movement's way is written ----------------------------------------------- */

/* What a step asks. */
enum rt_step_kind {
	RT_STEP_LETTER,	    /* M, or M/15: go to the letter */
	RT_STEP_HALT,	    /* halt, halt:10: stand */
	RT_STEP_BACK,	    /* back:3: rein back */
	RT_STEP_CIRCLE,	    /* circle:20:left: a full circle that touches the line of travel here */
	RT_STEP_HALF,	    /* half:20:right: half a circle from here */
	RT_STEP_LOOP,	    /* loop:10: off the track at the middle between two letters */
	RT_STEP_SERPENTINE, /* serpentine:3:left, serpentine:4:left:20: from A to C or back */
};

/* One step.  What its kind does not have is 0 or NULL. */
struct rt_step {
	enum rt_step_kind kind;
	const char *letter;
	double diameter_m; /* of a circle, a half circle, the turn at a letter (0: the level's) */
	enum rt_side hand; /* RT_LEFT or RT_RIGHT */
	double seconds;
	double metres;	/* back, or off the track in a loop */
	int loops;	/* of a serpentine */
	double width_m; /* a serpentine keeps within this; 0: the ring's */
};

struct rt_steps RT_LIST(struct rt_step);

#define RT_HALT_SECONDS 5.0 /* of a halt that does not say how long */

/* Read a figure, steps separated by white space, and append them to out.  Letters are not looked
 * up.  RT_E_INPUT: err->text names the step, the position in it (in bytes, from 1) and what is
 * accepted; nothing is then appended.  RT_E_NOMEM. */
RT_API enum rt_err rt_figure_parse(struct rt_steps *out, const char *figure, struct rt_error *err);

/* ---- route: the line driven through a whole test -------------------------------------------- */

/* A movement of a test.  figure and gait are NULL where it has none; file and line tell where it
 * was read (NULL, 0: not from a file). */
struct rt_movement_figure {
	const char *item, *figure, *gait;
	const char *file;
	long line;
};

struct rt_movement_figures RT_LIST(struct rt_movement_figure);

/* What may be chosen; a zeroed struct is the level as it stands, on the boards. */
struct rt_route_options {
	double height_cm; /* of the animal; 0: not given */
	double track_m;	  /* how far the track lies inside the boards, 0 or more */
};

/* A movement on the path.  length_m and seconds count what is driven, reined back included; they
 * are NAN where it has no figure or cannot be driven as asked, seconds also where it has no
 * gait. */
struct rt_route_leg {
	const char *movement, *figure, *gait;
	double from_m, to_m; /* along the path */
	double length_m, seconds;
};

/* A place where the route stands, or reins back and comes forward over the same line again. */
struct rt_route_stop {
	size_t leg;
	double at_m;	 /* along the path */
	double behind_m; /* how far behind that point it stands by now */
	double seconds;	 /* stood; 0 for a rein-back */
	double back_m;	 /* reined back; 0 for a halt */
};

/* An arc of the path. */
struct rt_route_turn {
	size_t leg;	  /* the movement it belongs to, by its middle */
	const char *turn; /* in plain words: "turn at C", "corner CM", "leave M" */
	enum rt_side hand;
	double diameter_m, angle_deg, arc_m;
	double from_m; /* where it begins along the path */
	struct rt_place begin, finish;
	double begin_x_m, begin_y_m, finish_x_m, finish_y_m, centre_x_m, centre_y_m;
};

/* What keeps a route from being driven as asked, and its words; %a is where, %b something
 * beside it, %n what is needed, %h what there is. */
#define RT_ROUTE_PROBLEMS(X)                                                                       \
	X(RT_ROUTE_NO_LETTER, "%b has no letter %a on this track")                                 \
	X(RT_ROUTE_NO_ROOM, "%a: %n needed, %h to %b")                                             \
	X(RT_ROUTE_NO_ROOM_BOTH, "%a and %b: %n needed, %h between them")                          \
	X(RT_ROUTE_REVERSAL, "back the way it came at %a")                                         \
	X(RT_ROUTE_SHARP, "turn at %a: so sharp that its arc stays far from the letter")           \
	X(RT_ROUTE_START_TURNS, "turns at A, where it begins, heading to C")                       \
	X(RT_ROUTE_OVER_HALF, "%a: more than half a circle that no figure asks for")               \
	X(RT_ROUTE_NO_WAY, "%a: no way from arc to arc")                                           \
	X(RT_ROUTE_OUTSIDE, "%a: %n outside the ring")                                             \
	X(RT_ROUTE_TURNS_THERE, "%a at %b, where the route turns")                                 \
	X(RT_ROUTE_IN_ARC, "%a at %b, inside the arc of a turn")                                   \
	X(RT_ROUTE_SERPENTINE_PLACE, "a serpentine that does not begin at A or C")                 \
	X(RT_ROUTE_SERPENTINE_HAND, "serpentine: comes to %a from the wrong hand")                 \
	X(RT_ROUTE_SERPENTINE_WIDE, "serpentine: loops of %n do not fit in %h")                    \
	X(RT_ROUTE_LOOP_PLACE, "a loop that is not between two letters of one long side")
enum rt_route_problem_kind {
#define RT_ENUM(code, words) code,
	RT_ROUTE_PROBLEMS(RT_ENUM)
#undef RT_ENUM
};

struct rt_route_problem {
	size_t leg;
	enum rt_route_problem_kind kind;
	const char *at, *beside; /* NULL where the words have none */
	double needs_m, has_m;
	const char *suggest; /* what to write instead ("C M B"), or the letter meant; NULL: none */
	double largest_m;    /* the largest diameter that fits, rounded down to 0.1 m; NAN: none */
};

struct rt_route_legs RT_LIST(struct rt_route_leg);
struct rt_route_stops RT_LIST(struct rt_route_stop);
struct rt_route_turns RT_LIST(struct rt_route_turn);
struct rt_route_problems RT_LIST(struct rt_route_problem);

/* A test as it is driven.  All strings live in legs.text. */
struct rt_route {
	const char *kind, *level;
	double width_m, length_m; /* of the ring */
	double diameter_m;	  /* of turns without a number of their own */
	double track_m, height_cm;
	struct rt_path path;
	bool whole; /* false: a problem left a gap, and a piece begins elsewhere than the one
		     * before it ended: to look at, not to sweep */
	struct rt_route_legs legs; /* one a movement, in order */
	struct rt_route_stops stops;
	struct rt_route_turns turns;
	struct rt_route_problems problems; /* in the order of the movements */
	double total_m, total_s;	   /* of the legs that have a length, a time */
	bool timed;	    /* every leg with a figure has both, and there is no problem */
	double in_s, out_s; /* from outside to A, and from the end back out by A; NAN: no gait */
	const char *unconfirmed; /* letters whose places no rulebook confirms; NULL: none */
};

/* The way through a whole test, planned as one line, solved, and only then split into movements.
 * It begins at A on the centreline, heading to C.
 *
 * Legs: along the track between points of one side, and round a corner between letters that are
 * neighbours there; straight otherwise.  Where the direction changes by more than 60 degrees an
 * arc touches both lines; by less, an arc leaves the track at the letter or comes back to it at
 * the letter (arc, straight, arc: L. E. Dubins, 1957).  A turn so sharp that its arc would pass
 * the letter by more than its own diameter (over 141 degrees) is a problem.  Arcs have the
 * level's diameter, scaled by the height (rt_level_diameter), but for circles, half circles and
 * letters with a number.
 *
 * A movement runs from the middle of the arc, or the letter, where the last one ended to the same
 * point of its own end: lengths add up to the whole.  A rein-back of m metres counts m, and m
 * again for coming forward over the same line to where it began; what follows starts there.
 *
 * Times are at each movement's gait, for an animal under 165 cm by the square root of its height;
 * a rein-back is at the gait "rein-back".
 *
 * largest_m of a problem: one diameter for all turns of that movement that have no number; for a
 * circle or half circle its own.
 *
 * out is filled from nothing and is yours: rt_route_free.  RT_E_INPUT: a figure that cannot be
 * read, with the place of its movement.  RT_E_NOTFOUND: an unknown gait.  RT_E_USAGE: an option
 * out of range, a level of the other discipline.  RT_E_NOMEM.  Whatever cannot be driven is no
 * error but a problem. */
RT_API enum rt_err rt_route_make(struct rt_route *out, const struct rt_ring_kind *kind,
				 const struct rt_level *level, const struct rt_gaits *gaits,
				 const struct rt_movement_figures *movements,
				 const struct rt_route_options *options, struct rt_error *err);
RT_API void rt_route_free(struct rt_route *route);

/* The words of a problem, with what is suggested. */
RT_API void rt_route_problem_words(const struct rt_route_problem *problem, bool feet, char *out,
				   size_t size);

/* What passes between two starts beside the test and the ways in and out: at most so long after
 * the signal (FEI and KNHS driving rules), and for the judge to write (a setting, no source). */
#define RT_SIGNAL_SECONDS  90.0
#define RT_WRITING_SECONDS 30.0

/* Append tables `legs`, `total`, `problems` and `turns`, and notes, to a report (started zeroed).
 * The interval between starts is the test, the ways in and out, signal_s and writing_s, rounded
 * up to half a minute; null where a movement has no time.  needs_person is set by a problem.
 * feet: words are told in feet and inches, for a text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_route_report(struct rt_report *r, const struct rt_route *route,
				   double signal_s, double writing_s, bool feet,
				   struct rt_error *err);

/* ---- sweep: what follows the fore feet ------------------------------------------------------ */

/* The parts a turnout may have. */
#define RT_TURNOUT_PARTS_MOST 12

/* The parts of the turnout of that name, front to back, strings borrowed from `rows`: free the
 * list with RT_LIST_FREE.  RT_E_NOTFOUND with the nearest name, or all names where none is near;
 * RT_E_INPUT names a part that cannot be: no length (a centimetre at the least), no width, a
 * figure that is no number, more than RT_TURNOUT_PARTS_MOST of them.  RT_E_NOMEM. */
RT_API enum rt_err rt_turnout_named(struct rt_turnout_parts *out,
				    const struct rt_turnout_parts *rows, const char *name,
				    struct rt_error *err);
/* How far inside the boards a turnout's track lies unless it is said: half its overall width and
 * 0.25 m, so that the outer wheel stays inside. */
RT_API double rt_turnout_track(const struct rt_turnout_parts *turnout);

/* How far each part cuts in when it has settled on a full circle of that radius, driven by the
 * fore feet: R_hitch^2 = R_axle^2 + hitch^2, R_axle^2 = R_hitch^2 - length^2 (the sum of squares
 * of SAE and the Western Highway Institute).  One figure a part into cut_in_m; NAN where no such
 * circle is, from there on back.  two_track as in rt_sweep_options. */
RT_API void rt_turnout_steady(double *cut_in_m, const struct rt_turnout_parts *turnout,
			      double radius_m, bool two_track);
/* The same with stiff shafts.  A part that hangs between the fore and the hind feet in front of
 * it is in shafts, which turn a few degrees about the saddle at the most: with them it is one
 * body with the animal, hung at its fore feet and length + hitch + length long, and rolls on its
 * own axle.  NAN for the parts in front of it, and for all where none is in shafts. */
RT_API void rt_turnout_stiff(double *cut_in_m, const struct rt_turnout_parts *turnout,
			     double radius_m);

/* A part along a path.  "Inside" is the side of the turn: on an arc its own; on a straight that
 * of the arcs before and after it.  How far a point is from the path is measured to the path's
 * nearest point beside it, not to another stretch that happens to come by. */
struct rt_swept_part {
	const char *part;
	double cut_in_m;	/* the largest distance of its axle's centre on the inside */
	double cut_in_at_m;	/* how far the fore feet have come then; NAN: no cut-in */
	double steady_cut_in_m; /* rt_turnout_steady and rt_turnout_stiff on the tightest arc */
	double stiff_cut_in_m;	/* either NAN: none, or no arc */
};

struct rt_swept_parts RT_LIST(struct rt_swept_part);

/* What an arc of the path asks. */
struct rt_swept_arc {
	size_t piece; /* of the path */
	double radius_m;
	double turned_deg;	/* left positive */
	const double *cut_in_m; /* one a part, as the shafts give way */
	/* How far the ends of the axles (half the part's width) reach off the path, stiff shafts
	 * included where they reach farther. */
	double inside_m, outside_m;
};

struct rt_swept_arcs RT_LIST(struct rt_swept_arc);

/* How near the end of an axle comes to something. */
struct rt_near {
	const char *what; /* a letter, or "boards at the A end" */
	bool boards;
	double distance_m; /* to boards negative past them */
	const char *part;  /* which comes so near */
	double x_m, y_m;   /* where the end of its axle is then */
};

struct rt_nears RT_LIST(struct rt_near);

/* How near a part with a track and a height of centre of gravity is to tipping over. */
struct rt_overturning {
	const char *part;
	double limit; /* a/g at which it tips: track/(2 cog) - tan(slope); 0 or less: standing */
	double share; /* of it that the pace uses; NAN: no pace, or no limit */
};

struct rt_overturnings RT_LIST(struct rt_overturning);

/* An axle at some distance along. */
struct rt_swept_pose {
	double s_m; /* of the fore feet */
	size_t part;
	bool stiff;	     /* as stiff shafts would have it */
	struct rt_pose axle; /* its middle, looking ahead */
};

struct rt_swept_poses RT_LIST(struct rt_swept_pose);

/* What may be asked; a zeroed struct asks for the sweep alone. */
struct rt_sweep_options {
	bool two_track; /* the first part bends as the path asks: its hind feet keep to the path,
			 * its length behind, and a hitch between its feet lies on the path too */
	double step_m;	/* how far apart the axles are looked at: 0: 1 cm, less at arcs of under 5 m
			 * of radius and for parts under 0.2 m, 4 cm far along straights */
	double trace_m; /* keep the axles' poses every so many metres; 0: none */
	const struct rt_ring_kind *kind; /* boards and letters; NULL: none near */
	const struct rt_level *level;	 /* whose bend is accepted; NULL: none said */
	double speed_m_per_s;		 /* in the tightest arc; 0: none */
	double slope_deg;		 /* the ground falls away from the centre, under 45 */
};

/* A turnout along a path; all strings live in parts.text. */
struct rt_sweep {
	const char *turnout;
	bool two_track, stiff;	    /* stiff: some part is in shafts */
	double length_m;	    /* of the path */
	double radius_m;	    /* the tightest arc; NAN: none */
	double inside_m, outside_m; /* the swept band: the most over all arcs, at least half the
				     * largest width */
	struct rt_swept_parts parts;
	struct rt_swept_arcs arcs;
	struct rt_nears near;		    /* boards, then letters; empty without a ring */
	double entry_left_m, entry_right_m; /* from the middle of the A end to the ends of the axles
					     * that cross it, as seen going in; NAN: nothing does */
	double bend_deg;	  /* asked of the first part on the tightest arc; NAN: no arc */
	double accepted_bend_deg; /* of it by the level (rt_level_bend_deg); NAN: not known */
	double speed_m_per_s, lateral_m_per_s2, lean_deg; /* NAN: no pace, or no arc */
	double slope_deg;
	struct rt_overturnings overturning;
	struct rt_swept_poses trace;
};

/* Drive a turnout (rt_turnout_named) along a path: the fore feet of its first part keep to it,
 * everything else follows, each axle rolling without slipping sideways:
 *
 *	dtheta/ds = (v_hitch . n) / length
 *
 * with hitch and axle of struct rt_turnout_part, n to the left of the part.  All parts stand in
 * line before the start, and the path is driven until the fore feet reach its end.  By classical
 * Runge-Kutta of fourth order in steps of four looks (step_m) that end where pieces end, a cubic
 * between.  Stiff shafts (see rt_turnout_stiff) are followed beside the hinged ones for everything
 * that may be touched.
 *
 * In a ring, the ends of all axles are measured against the boards and letters.  A path that
 * begins at A (on the boards, or on a track up to 3 m inside them) comes in through them: while an
 *axle is on that first straight, the A end and its letters do not count for it; likewise on a last
 *straight that ends there.
 *
 * RT_E_INPUT: an empty path.  RT_E_USAGE: a step under 0.1 mm, a trace that is negative, a slope
 * out of range, no part.  RT_E_NUMERIC: a part so short for what hangs far off its axle that no
 * step follows it.  RT_E_NOMEM.  *out is yours: rt_sweep_free. */
RT_API enum rt_err rt_sweep_make(struct rt_sweep *out, const struct rt_path *path,
				 const struct rt_turnout_parts *turnout,
				 const struct rt_sweep_options *options, struct rt_error *err);
RT_API void rt_sweep_free(struct rt_sweep *sweep);

/* 40 m straight, one arc to the left, 40 m straight; begins at the origin, looking up y.
 * RT_E_USAGE: a diameter not over 0, an angle not over 0 and up to 3600.  RT_E_NOMEM. */
RT_API enum rt_err rt_sweep_turn(struct rt_path *out, double diameter_m, double angle_deg,
				 struct rt_error *err);

/* Append tables `parts`, `band`, `asked` (bend and pace; left out without an arc), `overturning`
 * (where a part has track and cog), `entry` and `near` (in a ring), and notes, to a report.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_sweep_report(struct rt_report *r, const struct rt_sweep *sweep,
				   struct rt_error *err);

/* Append to a report of turns what a turnout adds to it: rt_sweep_report's tables for a quarter
 * turn of their diameter at their pace, and table `swept`, a row an arc in the order of the turn
 * table, each figure driven as a whole (its second arc finds the parts not yet in line again):
 * the part that cuts in the most and how far, and the band.  RT_E_NOMEM. */
RT_API enum rt_err rt_turns_sweep_report(struct rt_report *r, const struct rt_turns *turns,
					 const struct rt_level *level,
					 const struct rt_turnout_parts *turnout,
					 const struct rt_sweep_options *options,
					 struct rt_error *err);

/* ---- the lines of a movement ---------------------------------------------------------------- */

/* Append the pieces of a path from from_m to to_m along it.  RT_E_NOMEM. */
RT_API enum rt_err rt_path_cut(struct rt_path *out, const struct rt_path *path, double from_m,
			       double to_m, struct rt_error *err);

/* Append the line that maps draw for a movement of a route: straight from point to point, with a
 * corner where the tangents of an arc meet, or at the letter where an arc of up to 60 degrees
 * begins or ends at one (a diagonal); circles, half circles and the loops of a serpentine round.
 * Its pieces follow each other and turn where they meet, as those of no other path do.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_route_map_line(struct rt_path *out, const struct rt_route *route, size_t leg,
				     struct rt_error *err);

/* ---- the swept band ------------------------------------------------------------------------- */

/* How far whatever passes beside a point of the path reaches to its left and right. */
struct rt_band_point {
	double s_m; /* along the path */
	double left_m, right_m;
};

struct rt_band RT_LIST(struct rt_band_point);

/* The band that a sweep's turnout sweeps along its path, every step_m of it: the ends of all
 * axles, stiff shafts too, and half the first part's width.  The sweep keeps a trace (trace_m) of
 * half that step or less.  out starts zeroed and is yours: RT_LIST_FREE.  RT_E_USAGE: no step, no
 * trace.  RT_E_NOMEM. */
RT_API enum rt_err rt_sweep_band(struct rt_band *out, const struct rt_sweep *sweep,
				 const struct rt_path *path, const struct rt_turnout_parts *turnout,
				 double step_m, struct rt_error *err);
/* Append an edge of the band (RT_LEFT or RT_RIGHT) between two points of its path, as straights
 * that turn where they meet.  RT_E_NOMEM. */
RT_API enum rt_err rt_band_edge(struct rt_path *out, const struct rt_band *band,
				const struct rt_path *path, enum rt_side side, double from_m,
				double to_m, struct rt_error *err);

/* ---- cones: the true line set out at home --------------------------------------------------- */

#define RT_TAPE_M 50.0 /* a tape, unless another is told */

struct rt_cone_tape {
	const char *letter; /* NULL: no two letters whose tapes reach the cone */
	double distance_m;
};

/* A cone on an arc.  where tells every arc it stands on: "turn at C left, finish; corner HC left,
 * begin".  Two tapes cross at two points, mirrored at the line of their letters; side tells which
 * of them it is: "inside the ring" (the other is outside), "on the side of B", "on the side of the
 * corner CM", "at the letter". */
struct rt_cone {
	int number; /* from 1 */
	const char *where;
	double x_m, y_m;
	struct rt_cone_tape tape[2];
	const char *side; /* NULL: no tapes */
	double error_m;	  /* how far out it may be: see rt_cones_of_turns; NAN: no tapes */
};

struct rt_cone_list RT_LIST(struct rt_cone);

struct rt_cones {
	const char *kind;
	double tape_m;
	struct rt_cone_list list; /* all strings live in list.text */
	struct rt_path arcs;	  /* each arc once; they do not follow each other */
	size_t unreached;	  /* cones without tapes */
	const char *unconfirmed;  /* letters used whose places no rulebook confirms; NULL: none */
};

/* Cones at the begin, the middle and the finish of each arc that fits, half circles and circles
 * every quarter; arcs that are the same, driven either way, once.  Letters are those on the
 * boards, corners only where no two letters will do.  Of all pairs within the tape's reach the
 * one that places the cone best: sqrt(s1^2 + s2^2) / sin(angle between the tapes), with
 * s = 0.010 m + 0.0002 of the distance.
 *
 * *out starts zeroed and is yours: rt_cones_free.  turns and route are of that kind.  RT_E_USAGE:
 * a tape of no length.  RT_E_NOMEM. */
RT_API enum rt_err rt_cones_of_turns(struct rt_cones *out, const struct rt_turns *turns,
				     const struct rt_ring_kind *kind, double tape_m,
				     struct rt_error *err);
RT_API enum rt_err rt_cones_of_route(struct rt_cones *out, const struct rt_route *route,
				     const struct rt_ring_kind *kind, double tape_m,
				     struct rt_error *err);
RT_API void rt_cones_free(struct rt_cones *cones);
/* Append table `cones` to a report.  needs_person is set by a cone without tapes.  RT_E_NOMEM. */
RT_API enum rt_err rt_cones_report(struct rt_report *r, const struct rt_cones *cones,
				   struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
