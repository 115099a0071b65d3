/* What the files of this room share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SETOUT_INTERNAL_H
#define RT_SETOUT_INTERNAL_H

#include <ringtrue/setout.h>

#include "../survey/internal.h"

/* What a crew does well: a peg sighted into a line, a peg set by a receiver (common practice, no
 * source).  The tape's own error is rt_reading_sigma's. */
#define RT__SIGHT_SIGMA_M    0.010
#define RT__RECEIVER_SIGMA_M 0.020

/* ---- setout.c ---- */

/* The boards that a side takes. */
int64_t rt__boards(double length_m);

/* ---- plan_steps.c: points and steps ---- */

/* Where memory is out, plan->nomem is set and the plan goes on: it is asked for once, at the end. */

/* A new point of the plan: a peg, a mark or a pole; the first one when memory is out.  name NULL:
 * "mark 1" ... */
size_t rt__plan_mark(struct rt_setout_plan *plan, const char *name, double x_m, double y_m);
/* The point of that name; RT_NO_POINT: none. */
size_t rt__plan_find(const struct rt_setout_plan *plan, const char *name);
/* Whether a point, or the place of its peg, lies on a side or the centreline: as rt__on_side. */
bool rt__plan_on(const struct rt_setout_plan *plan, size_t point, enum rt_side side);
double rt__plan_distance(const struct rt_setout_plan *plan, size_t a, size_t b);
/* The same, and the direction. */
double rt__plan_toward(const struct rt_setout_plan *plan, size_t from, size_t to, double u[2]);
/* A step for the plan, every place of it but its point empty. */
struct rt_setout_step rt__plan_step(enum rt_setout_kind kind, const char *stage, size_t point);
/* Append a step, whose point stands from then on. */
void rt__plan_put(struct rt_setout_plan *plan, struct rt_setout_step step);
/* A running distance from `from` to a point on the line between two others. */
void rt__plan_run(struct rt_setout_plan *plan, const char *stage, size_t line_from, size_t line_to,
		  size_t from, size_t point);
/* Two distances to a point. */
void rt__plan_cross(struct rt_setout_plan *plan, const char *stage, size_t from, size_t second,
		    size_t point);
void rt__plan_prove(struct rt_setout_plan *plan, const char *stage, const char *from,
		    const char *to);
/* The largest part of a triangle of 3, 4 and 5 parts of at most so many metres, in steps that
 * read well: 5 m, 1 m, half a metre. */
double rt__triangle_part(double most_m);

/* ---- plan_by_tape.c, plan_from_held.c, plan_by_receiver.c: the three sorts of plan ---- */

void rt__plan_crew(struct rt_setout_plan *plan);
enum rt_err rt__plan_hold(struct rt_setout_plan *plan, struct rt_error *err);
void rt__plan_stake(struct rt_setout_plan *plan);

/* ---- plan_frame.c: what is held, and its frame ---- */

/* Judge the holds, find the frame, and put the points that are held. */
enum rt_err rt__plan_frame(struct rt_setout_plan *plan, struct rt_error *err);

/* ---- plan_proofs.c ---- */

/* Give every step that puts a point, and has no proof yet, a distance that checks it. */
void rt__plan_proofs(struct rt_setout_plan *plan);

/* ---- error_propagation.c: what becomes of a ring that is set out by a plan ---- */

#define RT__WALK_ERRORS 2 /* of a step */

/* The standard error of measurement k of a step, 0 where there is none. */
double rt__walk_sigma(const struct rt_setout_plan *plan, size_t step, int k);
/* Do every step as it is told; error (RT__WALK_ERRORS a step; NULL: none) is added to what is
 * measured.  place: 2 a point, in the ring frame, NAN for what does not stand. */
void rt__walk(const struct rt_setout_plan *plan, const double *error, double *place);
/* How far each point then stands from its own place (2 a point), the ring laid on its corners. */
void rt__walk_off(const struct rt_setout_plan *plan, const double *should, const double *place,
		  double *off);
/* Fill corner_se_m, peg_se_m and worst_peg. */
enum rt_err rt__walk_judge(struct rt_setout_plan *plan, struct rt_error *err);

#endif
