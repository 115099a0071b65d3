/* What the files of this room share with each other and with the tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CHECK_INTERNAL_H
#define RT_CHECK_INTERNAL_H

#include <ringtrue/check.h>
#include "../survey/internal.h"

/* ---- peg_verdicts.c: verdicts and moves ---- */

/* The verdict and move of each peg, whose offset and standard error are there, and of the
 * whole; pegs are all of the kind. */
enum rt_err rt__judge(struct rt_ring_check *check, const struct rt_pegs *pegs,
		      struct rt_error *err);

/* ---- check.c ---- */

/* The measured peg of that name; NULL: none. */
const struct rt_checked_peg *rt__checked_peg(const struct rt_ring_check *check, const char *name);

/* ---- shape.c ---- */

/* The verdict on what is `over` its limit by so much, with such a standard error. */
enum rt_shape_verdict rt__shape_verdict(const struct rt_ring_check *check, double over, double se);

/* ---- reliability.c ---- */

/* How the offsets of a check vary with the adjusted coordinates, for sigma0 = 1: covariance of
 * each offset with each coordinate, 2 pegs x 2 pegs.  NULL: out of memory. */
double *rt__carried(struct rt_arena **room, const struct rt_ring_check *check);

/* Fill rests_on of the pegs that are off by more than `sure` standard errors over the tolerance. */
enum rt_err rt__find_rests(struct rt_ring_check *check, double sure, struct rt_error *err);

/* Fill check->hidden and what hides in each peg. */
enum rt_err rt__find_hidden(struct rt_ring_check *check, struct rt_error *err);

/* ---- tape_scale.c ---- */

/* Find check->tape; where that is beyond chance, adjust what was taped anew without it. */
enum rt_err rt__check_tape(struct rt_ring_check *check, const struct rt_points *points,
			   const struct rt_readings *readings, struct rt_error *err);

/* ---- scale_error.c ---- */

/* Find check->stretch; where each measured peg should stand, and where it does (2 a peg). */
enum rt_err rt__find_stretch(struct rt_ring_check *check, const double *should,
			     const double *stands, struct rt_error *err);

/* ---- shortest_walk.c ---- */

#define RT__TOUR_EXACT 12 /* places: up to so many the tour is the shortest there is */

/* The order of a short walk from start to n places (2 each), each once, with no way back. */
enum rt_err rt__tour(const double *at, size_t n, const double start[2], size_t *order,
		     struct rt_error *err);

/* ---- report_certainty.c ---- */

/* The tables and notes of shape, reliability and certainty. */
enum rt_err rt__judgement_report(struct rt_report *r, const struct rt_ring_check *check, bool feet,
				 struct rt_error *err);

/* ---- tables of report_certainty.c, report_history.c and report_advice.c ---- */

extern const struct rt_record rt__shape_table, rt__reliability_table, rt__history_table,
	rt__past_peg_table, rt__next_table, rt__course_table, rt__move_table, rt__walk_table,
	rt__letter_table, rt__diagonal_table, rt__slide_table;

#endif
