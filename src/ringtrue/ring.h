/* ring: kinds of ring, their letters and the place of every peg.
 *
 * Ring frame: origin X (the ring's centre), y along the long axis from A (-L/2) towards
 * C (+L/2), x to the right of somebody at A who looks to C.  Metres.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_RING_H
#define RINGTRUE_RING_H

#include <ringtrue/report.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- kinds and letters ---------------------------------------------------------------------- */

#define RT_DISCIPLINES(X) X(RT_RIDDEN, "ridden") X(RT_DRIVEN, "driven")
enum rt_discipline { RT_DISCIPLINES(RT_ENUM_CODE) };

/* Sides as somebody at A sees them; `a` and `c` are the short sides. */
#define RT_SIDES(X)                                                                                \
	X(RT_LEFT, "left")                                                                         \
	X(RT_RIGHT, "right") X(RT_SIDE_A, "a") X(RT_SIDE_C, "c") X(RT_CENTRE, "centre")
enum rt_side { RT_SIDES(RT_ENUM_CODE) };

#define RT_NO_DISCIPLINE ((enum rt_discipline) - 1) /* not told */

RT_ENUM_WORDS(discipline);
RT_ENUM_WORDS(side);
RT_API bool rt_side_read(const char *words, enum rt_side *out);

/* A letter as a row of the rings file gives it: offset_m from the A end on the long sides and
 * the centreline, from the left end on sides a and c. */
struct rt_letter {
	const char *name;
	enum rt_side side;
	double offset_m;
};

struct rt_letters RT_LIST(struct rt_letter);

/* A kind of ring; letters.text is unused, the strings belong to the list of kinds. */
struct rt_ring_kind {
	const char *name;
	enum rt_discipline discipline;
	double width_m, length_m;
	struct rt_letters letters;
};

struct rt_ring_kinds RT_LIST(struct rt_ring_kind);

/* A row of the rings file: a letter, and what it says of its kind. */
struct rt_ring_row {
	const char *kind;
	enum rt_discipline discipline;
	double width_m, length_m;
	struct rt_letter letter;
};

RT_API extern const struct rt_record rt_ring_row_record;

RT_API void rt_ring_kinds_free(struct rt_ring_kinds *kinds);
/* The kind of that name, or NULL. */
RT_API const struct rt_ring_kind *rt_ring_kind_find(const struct rt_ring_kinds *kinds,
						    const char *name);

/* ---- what a kind may hold; its pegs -------------------------------------------------------- */

/* The kind of a name as it is typed, case and accents ignored: RT_E_NOTFOUND with the nearest
 * name. */
RT_API enum rt_err rt_ring_kind_named(const struct rt_ring_kind **out,
				      const struct rt_ring_kinds *kinds, const char *name,
				      struct rt_error *err);

/* Has the kind a letter of that name?  Corners are none. */
RT_API bool rt_ring_has_letter(const struct rt_ring_kind *kind, const char *name);

/* What a kind may hold. */
#define RT_RING_LEAST_M	     5.0   /* a short side */
#define RT_RING_MOST_M	     500.0 /* a long side */
#define RT_RING_LETTERS_MOST 60

/* Heights of the ground that are accepted. */
#define RT_HEIGHT_LEAST_M (-500.0)
#define RT_HEIGHT_MOST_M  9000.0

/* Judge the size of a kind: RT_E_INPUT with err->column set to the column at fault (width_m or
 * length_m).  The width is the shorter side. */
RT_API enum rt_err rt_ring_size_check(const struct rt_ring_kind *kind, struct rt_error *err);
/* Judge letter i of a kind against the ring and the letters before it: a name that is empty,
 * doubled or a corner's; an offset that is not inside its side; two letters in one place.
 * RT_E_INPUT with err->column set to the column at fault (peg or offset_m). */
RT_API enum rt_err rt_ring_letter_check(const struct rt_ring_kind *kind, size_t i,
					struct rt_error *err);

/* A peg of a ring in the ring frame.  along_m is its running distance: from the A end on the
 * long sides and the centreline, from the left end on sides a and c.  The corners are named by
 * their neighbours in a standard ring, clockwise from A, in rings of every kind: AK (left, A
 * end), HC (left, C end), CM (right, C end), FA (right, A end); they are told with their long
 * side. */
struct rt_peg {
	const char *name;
	double x_m, y_m;
	enum rt_side side;
	double along_m;
	bool corner;
};

/* pegs.text is unused; the names belong to the kind. */
struct rt_pegs RT_LIST(struct rt_peg);

/* Every peg of the kind: letters and corners clockwise from the middle of side a, then the
 * letters of the centreline from A to C.  *out starts zeroed and is yours: rt_pegs_free. */
RT_API enum rt_err rt_ring_pegs(struct rt_pegs *out, const struct rt_ring_kind *kind,
				struct rt_error *err);
RT_API void rt_pegs_free(struct rt_pegs *pegs);
/* The peg of that name, or NULL. */
RT_API const struct rt_peg *rt_peg_find(const struct rt_pegs *pegs, const char *name);
/* The peg of that name; RT_E_NOTFOUND with the nearest name, or all names where none is near. */
RT_API enum rt_err rt_ring_peg(struct rt_peg *out, const struct rt_ring_kind *kind,
			       const char *name, struct rt_error *err);

/* True for a letter whose place no rulebook that was read confirms: V P S R of a driven ring of
 * 40 x 80 m. */
RT_API bool rt_peg_unconfirmed(const struct rt_ring_kind *kind, const struct rt_peg *peg);

/* A ring of the show: its name and the name of its kind. */
struct rt_ring {
	const char *name;
	const char *kind;
};

struct rt_rings RT_LIST(struct rt_ring);

RT_API extern const struct rt_record rt_ring_record;

/* ---- reports --------------------------------------------------------------------------------- */

/* The tables of this room's reports; NULL after the last. */
RT_API extern const struct rt_record *const rt_ring_tables[];

/* Append a table to a report (started zeroed).  RT_E_NOMEM. */
RT_API enum rt_err rt_ring_kinds_report(struct rt_report *r, const struct rt_ring_kinds *kinds,
					struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
