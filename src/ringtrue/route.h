/* route: the line driven through a whole test, and cones for its arcs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_ROUTE_H
#define RINGTRUE_ROUTE_H

#include <ringtrue/drive.h>

#ifdef __cplusplus
extern "C" {
#endif

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
enum rt_route_problem_kind { RT_ROUTE_PROBLEMS(RT_ENUM_CODE) };

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
struct rt_route_problems RT_LIST(struct rt_route_problem);

/* A test as it is driven.  Names of the kind, the level and the movements are borrowed and must
 * outlive it; those that are made live in legs.text. */
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
	struct rt_turn_list turns;
	struct rt_route_problems problems; /* in the order of the movements */
	double total_m, total_s;	   /* of the legs that have a length, a time */
	bool timed;	    /* every leg with a figure has both, and there is no problem */
	double in_s, out_s; /* from outside to A, and from the end back out by A; NAN: no gait */
	char unconfirmed[RT_UNCONFIRMED_SIZE];
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
				 const struct rt_turn_options *options, struct rt_error *err);
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
 * up to a whole minute; null where a movement has no time.  needs_person is set by a problem.
 * feet: words are told in feet and inches, for a text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_route_report(struct rt_report *r, const struct rt_route *route,
				   double signal_s, double writing_s, bool feet,
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

/* ---- cones: the true line set out at home --------------------------------------------------- */

#define RT_TAPE_M 50.0 /* a tape, unless another is told */

struct rt_cone_tape {
	const char *letter; /* NULL: no two letters whose tapes reach the cone */
	double distance_m;  /* NAN then */
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
	double error_m;	  /* how far out it may be: see rt_cones_make; NAN: no tapes */
};

struct rt_cone_list RT_LIST(struct rt_cone);

struct rt_cones {
	const char *kind;
	double tape_m;
	struct rt_cone_list list; /* names of the kind are borrowed; words live in list.text */
	struct rt_path arcs;	  /* each arc once; they do not follow each other */
	size_t unreached;	  /* cones without tapes */
	char unconfirmed[RT_UNCONFIRMED_SIZE]; /* of the letters used */
};

/* Cones at the begin, the middle and the finish of each arc that fits, half circles and circles
 * every quarter; arcs that are the same, driven either way, once.  Letters are those on the
 * boards, corners only where no two letters will do.  Of all pairs within the tape's reach the
 * one that places the cone best: sqrt(s1^2 + s2^2) / sin(angle between the tapes), with
 * s = 0.010 m + 0.0002 of the distance.
 *
 * *out starts zeroed and is yours: rt_cones_free.  turns and route are of that kind.  RT_E_USAGE:
 * a tape of no length.  RT_E_NOMEM. */
RT_API enum rt_err rt_cones_make(struct rt_cones *out, const struct rt_turn_list *turns,
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
