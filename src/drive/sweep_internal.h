/* What the files of the sweep share: the links of a turnout, the legs of a path, what is near.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_DRIVE_SWEEP_INTERNAL_H
#define RT_DRIVE_SWEEP_INTERNAL_H

#include "internal.h"

#include <math.h>

/* ---- turnout.c: the links of a turnout ------------------------------------------------------ */

/* Every part, and the parts from the shafts on once more with stiff shafts. */
#define RT__LINKS_MOST (2 * RT_TURNOUT_PARTS_MOST)

/* A link hangs hitch behind the axle of the link in front of it: front is 0 for the lead, the point
 * of the animal that keeps to the path, and k + 1 for link k, which comes before it. */
struct rt__link {
	size_t front;
	double hitch, length, half_width, per_length;
	size_t part;
	bool stiff;
};

/* The part that is in shafts, or RT__NONE. */
size_t rt__turnout_shafts(const struct rt_turnout_parts *turnout);
/* The turnout with the part `shafts` as stiff shafts would have it. */
void rt__turnout_stiffen(struct rt_turnout_part *part, const struct rt_turnout_parts *turnout,
			 size_t shafts);
/* The links that follow by rolling; how many.  The lead are the fore feet, or with an animal that
 * bends on two tracks the point of it that the next part hangs at, or its hind feet where that
 * hangs behind them. */
size_t rt__turnout_links(struct rt__link link[static RT__LINKS_MOST],
			 const struct rt_turnout_parts *turnout, bool two_track);

/* ---- sweep_chain.c: the links over one step ------------------------------------------------- */

/* A link at one stage of a step: where it looks, how far its axle rolls and how much it turns, a
 * metre of the lead. */
struct rt__stage {
	struct rt_vec u;
	double roll, turn;
};

#define RT__STAGES 4 /* of classical Runge-Kutta: begin, middle, middle, end */
#define RT__LOOKS  4 /* a step: steps may be longer than what lies between two looks */

/* The links.  At 0 of the arrays is the lead, at k + 1 link k. */
struct rt__chain {
	struct rt__link link[RT__LINKS_MOST];
	size_t links;
	struct rt__stage stage[RT__LINKS_MOST + 1][RT__STAGES];
	struct rt_vec end[RT__LINKS_MOST + 1]; /* where each looks at the end of the step */
	struct rt_vec u[RT__LINKS_MOST + 1];   /* and at this look */
	struct rt_vec at[RT__LINKS_MOST + 1];  /* where its axle is */
};

/* The lead: the point of the animal that keeps to the path. */
struct rt__lead {
	struct rt_pose pose;
	double curvature;
};

/* v turned by the angle of the unit vector `by`. */
struct rt_vec rt__turned(struct rt_vec v, struct rt_vec by);
/* Take all links over a step of h, by classical Runge-Kutta of fourth order, in which the lead
 * turns by `half` twice.  false: some link turns too quickly for such a step. */
bool rt__chain_step(struct rt__chain *c, const struct rt__lead *lead, struct rt_vec half, double h);
/* Turn the links to where they look at look j, 1 to RT__LOOKS, of the step of h just taken; as good
 * as the step. */
void rt__chain_look(struct rt__chain *c, size_t j, double h);
/* Where all axles are, with the lead there. */
void rt__chain_place(struct rt__chain *c, const struct rt__lead *lead);

/* ---- sweep_path.c: the path in legs that turn by a right angle at the most ------------------ */

struct rt__leg {
	struct rt_pose begin, end;
	double s_m, length_m;
	double curvature_per_m; /* left positive */
	double radius_m;	/* infinite: straight */
	struct rt_vec centre;	/* of an arc */
	size_t piece;
	size_t arc;	      /* which of the arcs, or RT__NONE: a straight */
	size_t before, after; /* the legs of arcs next to it, or RT__NONE */
	double middle_m;      /* of a straight: from its begin to halfway between those */
	double smallest_m;    /* the smallest radius of all these */
};

struct rt__legs RT_LIST(struct rt__leg);

/* A path in legs.  The first leg is straight and leads up to the start (s_m under 0). */
struct rt__line {
	struct rt__legs legs;
	double length_m;
	double tightest_m; /* the smallest radius, or infinite */
	size_t arcs;	   /* pieces that are arcs */
};

enum rt_err rt__line_make(struct rt__line *out, const struct rt_path *path, double lead_m,
			  struct rt_error *err);
void rt__line_free(struct rt__line *line);
/* The pose on a leg s metres from its begin. */
struct rt_pose rt__leg_at(const struct rt__leg *leg, double s);
/* The arc that a point on a straight is inside or outside of, as its leg: the nearer one, but the
 * other when only that turns to its side.  RT__NONE: no arc.  `left`: how far off it is. */
size_t rt__line_arc_beside(const struct rt__line *line, size_t leg, struct rt_vec at, double left);
/* The leg after *leg, up to `most`, that a point `off` from its own is beside and nearer to: a
 * part that cuts across a whole small arc comes beside the straight after it without ever being
 * beside the arc.  Moves *leg there and returns how far off that is, or `off`. */
double rt__line_cut_across(const struct rt__line *line, size_t *leg, size_t most, struct rt_vec at,
			   double off);

/* The next two are asked at every step for every part. */

/* How far ahead of a pose a point is, along its direction. */
static inline double rt__ahead(const struct rt_pose *pose, struct rt_vec at)
{
	return pose->toward.x * (at.x - pose->at.x) + pose->toward.y * (at.y - pose->at.y);
}

/* How far a point is to the left of a leg. */
static inline double rt__leg_off(const struct rt__leg *leg, struct rt_vec at)
{
	const struct rt_pose *b = &leg->begin;
	double x = at.x - leg->centre.x, y = at.y - leg->centre.y, off;

	if (leg->curvature_per_m == 0.0)
		return b->toward.x * (at.y - b->at.y) - b->toward.y * (at.x - b->at.x);
	off = leg->radius_m - sqrt(x * x + y * y);
	return leg->curvature_per_m > 0.0 ? off : -off;
}

/* The leg that a point is beside now: *leg was, `most` is the leg the lead is on.  Returns how
 * far it is to the left. */
static inline double rt__line_follow(const struct rt__line *line, size_t *leg, size_t most,
				     struct rt_vec at)
{
	double off;

	while (*leg < most && rt__ahead(&line->legs.at[*leg].end, at) > 0.0)
		++*leg;
	off = rt__leg_off(&line->legs.at[*leg], at);
	if (fabs(off) > 0.9 * line->tightest_m)
		off = rt__line_cut_across(line, leg, most, at, off);
	return off;
}

/* ---- sweep_clearance.c: boards and letters --------------------------------------------------- */

struct rt__obstacle {
	enum rt_side side;
	const struct rt_peg *peg; /* NULL: the boards of that side */
	struct rt_near near;	  /* but for its part */
	size_t part;
};

/* An axle that is watched: how far its ends have come at the most, and how far they must have
 * come to be looked at again. */
struct rt__watched {
	double travelled, next;
	bool outside; /* it has not come in at A yet */
	double y[2];  /* of its ends at the last look, while outside */
};

struct rt__watch {
	double half_width, half_length;
	struct rt_pegs pegs;
	struct rt__obstacle *obstacle;
	size_t obstacles;
	struct rt__watched axle[RT__LINKS_MOST + 1];
	double *due;		     /* when each axle is to be looked at for each obstacle */
	size_t entry_legs, exit_leg; /* legs before and from which the A end is open */
	double entry_left, entry_right;
};

/* An axle at a look. */
struct rt__axle {
	size_t index; /* of the axle */
	size_t part;
	size_t leg;
	struct rt_pose pose;
	double half_width;
	double moved; /* since the last look: its ends, at the most */
};

/* Start watching; a NULL kind has nothing near. */
enum rt_err rt__watch_make(struct rt__watch *out, const struct rt_ring_kind *kind,
			   const struct rt__line *line, struct rt_error *err);
/* Look at everything at the next axles, however near it was before: at the end of the path. */
void rt__watch_all(struct rt__watch *watch);
void rt__watch_look(struct rt__watch *watch, const struct rt__axle *axle);
/* An axle has moved on: look where something may have come nearer. */
static inline void rt__watch_axle(struct rt__watch *watch, const struct rt__axle *axle)
{
	struct rt__watched *watched = &watch->axle[axle->index];

	watched->travelled += axle->moved;
	if (watched->travelled >= watched->next || watched->outside)
		rt__watch_look(watch, axle);
}
enum rt_err rt__watch_results(struct rt_sweep *out, const struct rt__watch *watch,
			      struct rt_error *err);
void rt__watch_free(struct rt__watch *watch);

/* ---- sweep_results.c: what a sweep tells ----------------------------------------------------- */

/* The rows of parts and arcs before anything is driven; *cut_in is where those of the arcs stand,
 * one after another, and lives with out. */
enum rt_err rt__sweep_rows(struct rt_sweep *out, double **cut_in, const struct rt_path *path,
			   const struct rt_turnout_parts *turnout, struct rt_error *err);
/* What follows once all is driven. */
enum rt_err rt__sweep_results(struct rt_sweep *out, const struct rt__line *line,
			      const struct rt_turnout_parts *turnout,
			      const struct rt_sweep_options *options, struct rt_error *err);

#endif
