/* sweep: the ground that a turnout takes along a path.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SWEEP_H
#define RINGTRUE_SWEEP_H

#include <ringtrue/drive.h>

#ifdef __cplusplus
extern "C" {
#endif

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
	double slope_deg; /* of the ground, away from the turn's centre */
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
	bool two_track, stiff;	     /* stiff: some part is in shafts */
	double length_m;	     /* of the path */
	double radius_m, diameter_m; /* the tightest arc; NAN: none */
	double inside_m, outside_m;  /* the swept band: the most over all arcs, at least half the
				      * largest width */
	double width_m;		     /* of it */
	struct rt_swept_parts parts;
	struct rt_swept_arcs arcs;
	struct rt_nears near;		    /* boards, then letters; empty without a ring */
	double entry_left_m, entry_right_m; /* from the middle of the A end to the ends of the axles
					     * that cross it, as seen going in; NAN: nothing does */
	double opening_m;	  /* how wide that end is open at the least, about its middle */
	double bend_deg;	  /* asked of the first part on the tightest arc; NAN: no arc */
	double accepted_bend_deg; /* of it by the level (rt_level_bend_deg); NAN: not known */
	double speed_m_per_s, lateral_m_per_s2, lean_deg; /* NAN: no pace, or no arc */
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

#ifdef __cplusplus
}
#endif
#endif
