/* What the files of drive share: plane geometry, the track and its letters, places in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_DRIVE_INTERNAL_H
#define RT_DRIVE_INTERNAL_H

#include <ringtrue/route.h>
#include <ringtrue/sweep.h>

/* Lengths within a millimetre of each other are equal: two tangents of 10 m fit on 20 m. */
#define RT__EQUAL_M 0.001

#define RT__DEGREES 57.29577951308232 /* in a radian */

#define RT__GRAVITY_M_PER_S2 9.80665

/* How far an animal's fore and hind feet stand apart, as a share of its height (from memory). */
#define RT__FEET_APART_PER_HEIGHT 0.82

/* ---- geometry.c: points, poses and arcs ------------------------------------------------------ */

/* Part of a circle as it is driven; turned is the change of direction in radians, left
 * positive. */
struct rt__arc {
	struct rt_pose begin, finish;
	struct rt_vec centre;
	double radius, turned;
};

/* Arc, straight, arc. */
struct rt__join {
	struct rt__arc first, second;
	double straight_m;
};

/* The point m metres on from `from`. */
static inline struct rt_vec rt__go(struct rt_vec from, struct rt_vec toward, double m)
{
	return (struct rt_vec){from.x + m * toward.x, from.y + m * toward.y};
}
/* The direction to the left of one. */
static inline struct rt_vec rt__left(struct rt_vec toward)
{
	return (struct rt_vec){-toward.y, toward.x};
}
double rt__distance(struct rt_vec a, struct rt_vec b);
/* The way from one point to another. */
struct rt_vec rt__from_to(struct rt_vec from, struct rt_vec to);
/* The unit vector from one point to another, which must differ. */
struct rt_vec rt__toward(struct rt_vec from, struct rt_vec to);
/* The angle from one direction to another, left positive, and that between them, 0 to pi. */
double rt__angle_to(struct rt_vec a, struct rt_vec b);
double rt__angle_between(struct rt_vec a, struct rt_vec b);
double rt__arc_length(const struct rt__arc *arc);
/* The arc that touches the lines from-at and at-to; they must differ, and the second must not
 * lead straight back. */
struct rt__arc rt__fillet(struct rt_vec from, struct rt_vec at, struct rt_vec to, double radius);
/* From pose to pose by arc, straight, arc of one radius: the shortest of left-left,
 * right-right, left-right and right-left (L. E. Dubins, American Journal of Mathematics 79,
 * 1957).  The arcs may be longer than half circles: whoever asks decides what to think of
 * that. */
struct rt__join rt__join(const struct rt_pose *from, const struct rt_pose *to, double radius);
/* The same with a radius of its own for each arc, 0 where a point is left or met whatever the
 * heading; false where there is no way. */
bool rt__join_unequal(struct rt__join *out, const struct rt_pose *from, double first,
		      const struct rt_pose *to, double second);
double rt__join_length(const struct rt__join *join);

/* ---- path.c ---------------------------------------------------------------------------------- */

/* Append a piece that need not begin where the path ends; false when memory is out. */
bool rt__path_add(struct rt_path *path, const struct rt_pose *begin, double length_m,
		  double curvature_per_m);

/* ---- track.c: the track and its letters ----------------------------------------------------- */

/* The track: a rectangle round X.  Its pegs are the ring's, A, C, corners and the letters of the
 * long sides moved to the points of the track that face them; names are borrowed from the
 * kind. */
struct rt__track {
	double half_width, half_length;
	double quarter; /* the quarter lines run at x = -quarter and quarter */
	struct rt_pegs pegs;
};

/* The track of a kind, inset_m inside its boards.  Letters that face no point of it, past its
 * corners, are left out. */
enum rt_err rt__track_make(struct rt__track *out, const struct rt_ring_kind *kind, double inset_m,
			   struct rt_error *err);
void rt__track_free(struct rt__track *track);
struct rt_vec rt__peg_point(const struct rt_peg *peg);
/* The peg of that side within a millimetre of `at`, or NULL. */
const struct rt_peg *rt__track_peg(const struct rt__track *track, enum rt_side side,
				   struct rt_vec at);
/* Add a letter to those whose places no rulebook confirms, where it is one and not among them. */
void rt__add_unconfirmed(char letters[RT_UNCONFIRMED_SIZE], const struct rt_ring_kind *kind,
			 const struct rt_peg *peg);
/* The name of the corner with x and y below or above 0 (-1 or 1). */
const char *rt__track_corner(const struct rt__track *track, int x, int y);

/* ---- letter_reference.c: a point of a path by the letters ------------------------------------ */

/* Where `pose` is by the letters of the line it lies on.  own is the letter the turn belongs
 * to, or NULL. */
struct rt_place rt__place_by_letters(const struct rt__track *track, const struct rt_pose *pose,
				     const struct rt_peg *own);
/* An arc as turns and routes tell it; name lives with them. */
struct rt_turn rt__turn_of(const struct rt__track *track, const struct rt__arc *arc,
			   const char *name, const struct rt_peg *own);
/* ---- track_ways.c: ways along the track ------------------------------------------------------ */

/* Whether both points lie on one side of the track. */
bool rt__one_side(const struct rt__track *track, struct rt_vec a, struct rt_vec b);
/* The corner between two points of the track that no letter stands between, or NULL. */
const struct rt_peg *rt__corner_between(const struct rt__track *track, struct rt_vec a,
					struct rt_vec b);
/* The direction of the track at a point that is nearest to `travel`; false off the track. */
bool rt__track_direction(const struct rt__track *track, struct rt_vec at, struct rt_vec travel,
			 struct rt_vec *out);
/* What to write for a way along the track between two letters of neighbouring sides ("C M B"),
 * from *text; NULL: they are no such letters, or memory is out. */
const char *rt__track_way_words(const struct rt__track *track, const struct rt_peg *from,
				const struct rt_peg *to, struct rt_arena **text);

/* ---- route_plan.c: a test as stations in order ----------------------------------------------- */

#define RT__NONE SIZE_MAX

/* A step that is done at a station: not a letter, not a loop. */
struct rt__act {
	struct rt_step step;
	size_t leg;
	double end_m; /* where it ends along the path */
};

struct rt__acts RT_LIST(struct rt__act);

/* How the route takes a station. */
enum rt__way {
	RT__PASS,  /* straight through */
	RT__POINT, /* begins or ends there */
	RT__TURN,  /* turns there, by an arc that touches the lines before and after */
	RT__POSE,  /* comes straight to it, and goes on from there by an arc */
	RT__FIXED, /* comes by an arc to the heading `toward`, and goes on from there */
};

/* A point the route comes to.  As planned: headings between the points themselves. */
struct rt__station {
	struct rt_vec at;
	const struct rt_peg *peg; /* NULL: the middle of a loop */
	const char *name;
	size_t leg;	   /* the movement that names it */
	double diameter_m; /* of its own turn; 0: the level's */
	bool fresh;	   /* nothing leads here: the beginning, or a gap */
	bool along;	   /* the way here runs along the track */
	bool asked;	   /* it must be met looking `toward` */
	bool figures;	   /* a circle, half circle or serpentine is among its acts */
	struct rt_vec toward;
	size_t act, acts;
	struct rt_pose leave;	/* after its acts; toward only with figures */
	const char *leave_name; /* what that place is called */

	/* As solved. */
	enum rt__way way;
	struct rt_pose entry, exit;
	struct rt__arc turn;  /* RT__TURN */
	size_t before, next;  /* stations not passed, or RT__NONE */
	struct rt__join join; /* the way to next; radius 0 where it has no arc */
	bool broken;	      /* the way to next cannot be driven */
	bool blamed;	      /* its turn has been told */
	double s_m;	      /* along the path: at, or the middle of the turn */
};

struct rt__stations RT_LIST(struct rt__station);

/* Where a movement ends: at a station, so many of its acts done. */
struct rt__end {
	size_t station, acts;
	bool driven; /* it has a figure */
	bool broken; /* and cannot be driven */
};

struct rt__ends RT_LIST(struct rt__end);

struct rt__plan {
	const struct rt__track *track;
	const struct rt_ring_kind *kind;
	double diameter_m;
	struct rt_arena **text;	     /* names made here live with the route */
	struct rt__stations station; /* the first is A */
	struct rt__acts act;
	struct rt__ends end; /* one a movement */
	struct rt_route_problems problem;
	bool gap; /* the next station is fresh */
	struct {
		bool waits; /* for the letter after it */
		size_t leg;
		double metres;
	} loop;
	struct {
		size_t leg;	   /* turns of this movement without a number are tried at this */
		double diameter_m; /* diameter; RT__NONE: none is */
		bool failed;
	} trial;
	bool nomem;
};

/* Append a problem, or note that there was no memory for it. */
void rt__plan_problem(struct rt__plan *p, const struct rt_route_problem *problem);
/* The planned direction from the station before to this one; false: none leads here. */
bool rt__plan_comes(const struct rt__plan *p, size_t station, struct rt_vec *out);
/* The planned direction to the station after this one; false: the way ends here. */
bool rt__plan_goes(const struct rt__plan *p, size_t station, struct rt_vec *out);
/* A name made for the plan, "" when memory is out. */
const char *rt__plan_name(struct rt__plan *p, const char *fmt, ...) RT_PRINTF(2, 3);

/* ---- route_plan.c, for route_plan_figures.c and route_plan_steps.c --------------------------- */

/* The last station. */
struct rt__station *rt__plan_last(struct rt__plan *p);
/* A station at the end; the last one again when memory is out, so that planning can go on. */
struct rt__station *rt__plan_add(struct rt__plan *p, struct rt_vec at, const struct rt_peg *peg,
				 size_t leg);
/* The last station once more, with nothing that leads to it. */
struct rt__station *rt__plan_begin_again(struct rt__plan *p, size_t leg);
/* The heading at the last station after what has been done there; false: none is known. */
bool rt__plan_heading(const struct rt__plan *p, struct rt_vec *out);
/* A problem without a length, and without a diameter that would help. */
void rt__plan_tell(struct rt__plan *p, enum rt_route_problem_kind kind, size_t leg, const char *at,
		   const char *beside);
/* The movement cannot be driven. */
void rt__plan_lose(struct rt__plan *p, size_t leg);
/* A step done at the last station. */
void rt__plan_act(struct rt__plan *p, size_t leg, const struct rt_step *step);
/* ---- route_plan_figures.c -------------------------------------------------------------------- */

/* A circle or half circle, a serpentine, where it may be driven. */
void rt__plan_circle(struct rt__plan *p, size_t leg, const struct rt_step *step);
void rt__plan_serpentine(struct rt__plan *p, size_t leg, const struct rt_step *step);
/* The width a serpentine keeps within, and the diameter of its half circles. */
double rt__serpentine_width(const struct rt__plan *p, const struct rt_step *step);
double rt__serpentine_diameter(const struct rt__plan *p, const struct rt_step *step);

/* ---- route_plan_steps.c ---------------------------------------------------------------------- */

/* Plan the next movement, number `leg`; call once a movement, in order, steps empty where it has
 * no figure (driven false), then rt__plan_finish.  Starts from rt__plan_start. */
void rt__plan_start(struct rt__plan *p);
void rt__plan_movement(struct rt__plan *p, size_t leg, const struct rt_steps *steps, bool driven);
void rt__plan_finish(struct rt__plan *p);
void rt__plan_free(struct rt__plan *p);

/* ---- route_solve.c: the arcs and straights of a plan ----------------------------------------- */

#define RT__PASS_ANGLE	1e-6		/* radians: a smaller change of direction is none */
#define RT__LEAVE_ANGLE 1.0471975521966 /* 60 degrees, and a rounding */

/* Decide how the route takes each station of a finished plan. */
void rt__route_ways(struct rt__plan *p);
/* Solve the ways from station `from` on, which is not passed through and, when it is not fresh,
 * is solved already, up to `to`, which is not passed through either. */
void rt__route_solve(struct rt__plan *p, size_t from, size_t to);
/* How much of its lines the turn at a station takes; 0 where there is none. */
double rt__tangent(const struct rt__station *s);
/* A piece of a circle, half circle or serpentine: straight, or with a radius an arc, turned in
 * radians, left positive. */
struct rt__move {
	double straight_m, radius, turned;
};
/* The arc, or straight, that a move is from a pose. */
struct rt__arc rt__arc_from(const struct rt_pose *from, const struct rt__move *move);
/* Piece `index` of an act, which is driven from the heading the act is met with; false: it has
 * no more, or stands. */
bool rt__act_move(const struct rt__plan *p, const struct rt__act *act, size_t index,
		  struct rt__move *out);

/* ---- route_problems.c: what keeps a solved plan from being driven ---------------------------- */

/* Append the problems of room of a solved plan, with the largest diameters that fit. */
void rt__find_problems(struct rt__plan *p);
/* Names of arcs: at a turn, out of a station, into one. */
const char *rt__turn_name(struct rt__plan *p, const struct rt__station *s);
const char *rt__leave_name(struct rt__plan *p, const struct rt__station *s);
const char *rt__arrive_name(struct rt__plan *p, const struct rt__station *s);

/* ---- route_layout.c: a solved plan as one path ----------------------------------------------- */

#define RT__NO_LENGTH 1e-9 /* metres: a shorter piece is none */

/* Lay the path and its turns; stations and acts learn where along it they are. */
void rt__route_layout(struct rt_route *out, struct rt__plan *p);

/* ---- turn_table.c ---------------------------------------------------------------------------- */

/* The diameter of turns that is asked for; RT_E_USAGE: options that cannot be. */
enum rt_err rt__turn_diameter(double *out, const struct rt_ring_kind *kind,
			      const struct rt_level *level, const struct rt_turn_options *o,
			      struct rt_error *err);

/* ---- levels.c ------------------------------------------------------------------------------- */

/* Speed and stride of a gait for an animal of that height, 0 where it is not known. */
struct rt__pace {
	double speed_m_per_s, stride_m;
};
struct rt__pace rt__pace(const struct rt_gait *gait, double height_cm);

/* ---- words of reports, and their tables ------------------------------------------------------ */

#define RT__PLACE_SIZE 256
/* The words of a place, in out. */
const char *rt__place_words(const struct rt_place *place, bool feet, char out[RT__PLACE_SIZE]);
/* Letters whose places no rulebook confirms. */
void rt__note_unconfirmed(struct rt_report *r, const char *letters);

extern const struct rt_record rt__leg_table, rt__total_table, rt__problem_table,
	rt__route_turn_table, rt__cone_table, rt__part_table, rt__band_table, rt__asked_table,
	rt__overturning_table, rt__entry_table, rt__near_table, rt__swept_table;

#endif
