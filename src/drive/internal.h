/* What the files of drive share: plane geometry, the track and its letters, places in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_DRIVE_INTERNAL_H
#define RT_DRIVE_INTERNAL_H

#include <ringtrue/drive.h>

/* Lengths within a millimetre of each other are equal: two tangents of 10 m fit on 20 m. */
#define RT__EQUAL_M 0.001

#define RT__DEGREES 57.29577951308232 /* in a radian */

/* ---- plane.c: points, poses and arcs -------------------------------------------------------- */

struct rt__point {
	double x, y;
};

/* Where something stands and which way it looks; toward has length 1. */
struct rt__pose {
	struct rt__point at, toward;
};

/* Part of a circle as it is driven; turned is the change of direction in radians, left
 * positive. */
struct rt__arc {
	struct rt__pose begin, finish;
	struct rt__point centre;
	double radius, turned;
};

/* Arc, straight, arc. */
struct rt__join {
	struct rt__arc first, second;
	double straight_m;
};

/* The point m metres on from `from`. */
struct rt__point rt__go(struct rt__point from, struct rt__point toward, double m);
double rt__distance(struct rt__point a, struct rt__point b);
/* The unit vector from one point to another, which must differ. */
struct rt__point rt__toward(struct rt__point from, struct rt__point to);
double rt__arc_length(const struct rt__arc *arc);
/* The arc that touches the lines from-at and at-to; they must differ, and the second must not
 * lead straight back. */
struct rt__arc rt__fillet(struct rt__point from, struct rt__point at, struct rt__point to,
			  double radius);
/* From pose to pose by arc, straight, arc of one radius: the shortest of left-left,
 * right-right, left-right and right-left (L. E. Dubins, American Journal of Mathematics 79,
 * 1957).  The arcs may be longer than half circles: whoever asks decides what to think of
 * that. */
struct rt__join rt__join(const struct rt__pose *from, const struct rt__pose *to, double radius);
double rt__join_length(const struct rt__join *join);

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
struct rt__point rt__peg_point(const struct rt_peg *peg);
/* The peg of that side within a millimetre of `at`, or NULL. */
const struct rt_peg *rt__track_peg(const struct rt__track *track, enum rt_side side,
				   struct rt__point at);
/* The name of the corner with x and y below or above 0 (-1 or 1). */
const char *rt__track_corner(const struct rt__track *track, int x, int y);

/* ---- place.c: a point of a path by the letters ---------------------------------------------- */

/* Where `pose` is by the letters of the line it lies on.  own is the letter the turn belongs
 * to, or NULL. */
struct rt_place rt__place_by_letters(const struct rt__track *track, const struct rt__pose *pose,
				     const struct rt_peg *own);

/* ---- figures.c: every turn of a ring -------------------------------------------------------- */

/* What rows are made with.  Names that were made live in out->list.text. */
struct rt__making {
	struct rt_turns *out;
	const struct rt__track *track;
	bool nomem; /* sticky: a row or a name could not be kept */
};

/* Append every turn whose letters the track has. */
void rt__figures(struct rt__making *m);

/* ---- levels.c ------------------------------------------------------------------------------- */

/* Speed and stride of a gait for an animal of that height, 0 where it is not known. */
struct rt__pace {
	double speed_m_per_s, stride_m;
};
struct rt__pace rt__pace(const struct rt_gait *gait, double height_cm);

#endif
