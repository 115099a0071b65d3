/* setout: what a crew needs to set a ring out, step by step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SETOUT_H
#define RINGTRUE_SETOUT_H

#include <ringtrue/report.h>
#include <ringtrue/ring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- setting out ---------------------------------------------------------------------------- */

#define RT_BOARD_M 4.0

/* A point of a set-out: a peg, or a point so far from it towards another. */
struct rt_setout_mark {
	const char *peg;
	double past_m;
	const char *towards; /* NULL: the peg itself */
};

/* A distance to tape. */
struct rt_setout_check {
	struct rt_setout_mark from, to;
	double distance_m;
	const char *what;
};

/* A side and the 4 m boards it takes. */
struct rt_setout_side {
	enum rt_side side;
	double length_m;
	int64_t boards;
};

/* What a crew needs to set a ring out.  kind is borrowed. */
struct rt_ring_setout {
	const struct rt_ring_kind *kind;
	struct rt_pegs pegs;
	struct rt_setout_check *check; /* running distances side by side, diagonals, corners */
	size_t checks;
	struct rt_setout_side side[4]; /* left, right, a, c */
	int64_t boards;		       /* in all */
	double tape_m;		       /* the longest distance: a diagonal */
	struct rt_arena *text;
};

/* *out starts zeroed and is yours: rt_ring_setout_free.  The right angle of each corner is
 * checked by a triangle of 3, 4 and 5 parts, 15, 20 and 25 m where the sides allow it, so that a
 * 30 m tape is enough (iFokus Koerning, "Dressyrbanan", 2011). */
RT_API enum rt_err rt_ring_setout(struct rt_ring_setout *out, const struct rt_ring_kind *kind,
				  struct rt_error *err);
RT_API void rt_ring_setout_free(struct rt_ring_setout *setout);

/* ---- the plan of a crew --------------------------------------------------------------------- */

/* What a step does:
 *  stand     a peg that is there already, or the first one, put where it is wanted
 *  sight     a pole far off in the direction of the first side
 *  run       a running distance along a sighted line
 *  cross     two distances from two pegs
 *  length    two corners moved by half of what their side is too long or too short, each
 *  diagonals two corners moved along their side until both diagonals are equal
 *  stake     coordinates, by a receiver
 *  prove     nothing is put; a distance is measured */
#define RT_SETOUT_KINDS(X)                                                                         \
	X(RT_SETOUT_STAND, "stand")                                                                \
	X(RT_SETOUT_SIGHT, "sight")                                                                \
	X(RT_SETOUT_RUN, "run")                                                                    \
	X(RT_SETOUT_CROSS, "cross")                                                                \
	X(RT_SETOUT_LENGTH, "length")                                                              \
	X(RT_SETOUT_DIAGONALS, "diagonals")                                                        \
	X(RT_SETOUT_STAKE, "stake")                                                                \
	X(RT_SETOUT_PROVE, "prove")
enum rt_setout_kind { RT_SETOUT_KINDS(RT_ENUM_CODE) };
RT_ENUM_WORDS(setout_kind);

/* Something that stands already: a peg of the ring, or another point.  Without coordinates (NAN)
 * a peg stands where it should. */
struct rt_setout_hold {
	const char *name;
	double x_m, y_m;
};

#define RT_TAPE_LEAST_M 10.0
#define RT_TAPE_MOST_M	200.0
#define RT_HOLDS_MOST	12

/* What the crew has.  Names are borrowed. */
struct rt_setout_options {
	double tape_m; /* RT_TAPE_LEAST_M to RT_TAPE_MOST_M */
	int tapes;     /* 1 or 2 */
	bool receiver;
	double bearing_deg; /* of the line from A to C in the frame of the receiver, clockwise from
			     * its y axis; NAN: none given */
	const struct rt_setout_hold *hold; /* borrowed */
	size_t holds;
};

/* A point of a plan, in the ring frame: a peg of the ring, a fixed point, or a mark that helps. */
struct rt_setout_point {
	const char *name;
	double x_m, y_m;
	const struct rt_peg *peg; /* NULL: not of the ring */
	bool held;   /* stands before the crew begins: at x_m, y_m, its peg's place or not */
	bool stands; /* some step puts it, or it is held */
};

/* A step.  Points are told by their number in the plan; RT_NO_POINT: none. */
#define RT_NO_POINT SIZE_MAX
struct rt_setout_step {
	enum rt_setout_kind kind;
	const char *stage; /* "base line", "first right angle", ... */
	size_t point;	   /* that is put, or the first of two corners that are moved */
	size_t other;	   /* the second of them */
	size_t from;	   /* where the zero of the tape is held; the far end of a diagonal from
			    * `other` */
	double from_m;
	size_t second; /* cross: where the second tape is held; diagonals: from `point` */
	double second_m;
	size_t line_from, line_to; /* run: the line that is sighted, `from` on it */
	enum rt_side hand;   /* cross: on which hand of somebody at from who looks to second */
	double crossing_deg; /* cross: the angle of the tapes; NAN elsewhere */
	bool bent;	     /* cross: by one tape held at both points and pulled tight */
	struct rt_setout_mark proof_from, proof_to; /* peg NULL: none */
	double proof_m;
};

/* A plan.  kind and the names of the holds are borrowed. */
struct rt_setout_plan {
	const struct rt_ring_kind *kind;
	struct rt_setout_options options;
	struct rt_pegs pegs;
	struct rt_setout_point *point;
	size_t points;
	struct rt_setout_step *step;
	size_t steps;
	/* From the ring frame into that of the coordinates given: turn by (cosine, sine), then
	 * shift.  framed: coordinates of that frame are told. */
	bool framed;
	double cosine, sine, shift_x_m, shift_y_m;
	/* What the set-out is good for with care: the standard error of the worst corner and of the
	 * worst peg, the ring laid on its corners. */
	double corner_se_m, peg_se_m;
	const char *worst_peg;
	struct rt_arena *text;
	size_t point_cap, step_cap;
	bool nomem; /* sticky: a point or step could not be kept */
};

/* Plan the setting out of a ring.  With nothing held: the left side as base line, a right angle
 * at both its ends by the largest triangle of 3, 4 and 5 parts that tape and ring allow (or by
 * the ring's own diagonal where the tape reaches it), the far corners trued by the length of
 * their side and by both diagonals, then the letters by running distances from both ends.  With
 * two or more points held: each peg by a running distance or two tape distances from what
 * stands, in the order in which errors stay least.  With a receiver: the coordinates of each
 * peg, from AK along the left side where no frame is given.
 *
 * Holds with coordinates: when one of them is a peg of the ring, they are of a frame of their
 * own, in which the ring is laid on the pegs held by rotation and shift only; else they are of
 * the ring frame.  *out starts zeroed and is yours: rt_setout_plan_free.  RT_E_INPUT: sizes,
 * tapes or holds that allow no plan, and what would. */
RT_API enum rt_err rt_setout_plan(struct rt_setout_plan *out, const struct rt_ring_kind *kind,
				  const struct rt_setout_options *options, struct rt_error *err);
RT_API void rt_setout_plan_free(struct rt_setout_plan *plan);
/* What to do, and the check that proves it, in words. */
RT_API void rt_setout_step_words(const struct rt_setout_plan *plan, size_t step, bool feet,
				 char *out, size_t size);
RT_API void rt_setout_proof_words(const struct rt_setout_plan *plan, size_t step, bool feet,
				  char *out, size_t size);
/* How far a hold stands from where the ring, laid on all of them, has its peg; NAN for a point
 * that is no peg. */
RT_API double rt_setout_hold_off(const struct rt_setout_plan *plan, size_t hold);
/* A point of the plan in the frame of the coordinates given. */
RT_API void rt_setout_frame(const struct rt_setout_plan *plan, double x_m, double y_m,
			    double *frame_x_m, double *frame_y_m);

/* ---- the reading form ----------------------------------------------------------------------- */

/* A distance to be read: the names are the pegs'. */
struct rt_form_row {
	const char *from, *to;
	double nominal_m;
	const char *note; /* NULL: none */
};

/* kind is borrowed. */
struct rt_setout_form {
	const struct rt_ring_kind *kind;
	struct rt_pegs pegs;
	struct rt_form_row *row;
	size_t rows;
	double se_m; /* the largest standard error of a peg when all are read well */
	const char *worst_peg;
	size_t unchecked; /* readings in which a blunder would not show even so */
	struct rt_arena *text;
	size_t cap;
};

/* The readings that check a ring well, in the order of one walk from A to C with the zero of the
 * tape on the left side, then the centreline and the long distances.  *out starts zeroed and is
 * yours: rt_setout_form_free.  Errors as rt_adjust. */
RT_API enum rt_err rt_setout_form(struct rt_setout_form *out, const struct rt_ring_kind *kind,
				  double tape_m, struct rt_error *err);
RT_API void rt_setout_form_free(struct rt_setout_form *form);

/* ---- room and things to carry --------------------------------------------------------------- */

/* Room round a ring, and where the figure is from. */
struct rt_setout_need {
	const char *what;
	double by_m;
	const char *source;
};

#define RT_NEEDS_MOST 8

struct rt_setout_room {
	struct rt_setout_need need[RT_NEEDS_MOST];
	size_t needs;
	double opening_m, lane_m, judges_m, car_m, way_in_m; /* the same, for a drawing */
	double side_m, a_end_m, c_end_m;		     /* outside the boards */
	double width_m, length_m;			     /* of the field in all */
};

/* opening_m and lane_m in place of the usual figures; NAN: the usual ones. */
RT_API void rt_setout_room(struct rt_setout_room *out, const struct rt_ring_kind *kind,
			   double opening_m, double lane_m);

/* Something to carry to the field. */
struct rt_setout_thing {
	int64_t count;
	const char *thing;
	char words[160]; /* "" or more about it */
};

#define RT_THINGS_MOST 12
/* What the crew of a plan carries; how many rows. */
RT_API size_t rt_setout_carry(struct rt_setout_thing out[RT_THINGS_MOST],
			      const struct rt_setout_plan *plan, double opening_m, bool feet);

/* ---- reports --------------------------------------------------------------------------------- */

/* The tables of this room's reports; NULL after the last. */
RT_API extern const struct rt_record *const rt_setout_tables[];

/* Append the tables of a result to a report (started zeroed); columns as the command's help
 * names them.  The form alone: without notes, so that its CSV is a file of readings.
 * feet: lengths in words and notes are told in feet and inches, for a text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_ring_setout_report(struct rt_report *r, const struct rt_ring_setout *setout,
					 bool feet, struct rt_error *err);
RT_API enum rt_err rt_setout_plan_report(struct rt_report *r, const struct rt_setout_plan *plan,
					 bool feet, struct rt_error *err);
RT_API enum rt_err rt_setout_room_report(struct rt_report *r, const struct rt_setout_plan *plan,
					 const struct rt_setout_room *room, bool feet,
					 struct rt_error *err);
RT_API enum rt_err rt_setout_form_report(struct rt_report *r, const struct rt_setout_form *form,
					 bool alone, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
