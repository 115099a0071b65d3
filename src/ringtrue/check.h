/* check: a ring against the readings of it: what stands where it should, how sure that is, what to
 * move and what to measure next.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_CHECK_H
#define RINGTRUE_CHECK_H

#include <ringtrue/report.h>
#include <ringtrue/ring.h>
#include <ringtrue/survey.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- ring check ----------------------------------------------------------------------------- */

/* How the nominal layout is laid on the pegs, by rotation and shift only.  fewest: on the
 * largest set of pegs that its own least-squares placement keeps within tolerance, so that the
 * fewest have to move; all: on every peg; corners: on the corners that were measured. */
#define RT_FITS(X) X(RT_FIT_FEWEST, "fewest") X(RT_FIT_ALL, "all") X(RT_FIT_CORNERS, "corners")
enum rt_fit { RT_FITS(RT_ENUM_CODE) };

RT_ENUM_WORDS(fit);
RT_API bool rt_fit_read(const char *words, enum rt_fit *out);

/* unsure: the tolerance lies within two standard errors of what was found, or, where the readings
 * are worse than their sigma and none of them is to blame, within seven below a peg that is off; or
 * the peg would have to move, but the readings are in doubt, most of those set aside touch
 * it, or one reading that no other checks says so alone. */
#define RT_PEG_VERDICTS(X) X(RT_PEG_GOOD, "good") X(RT_PEG_MOVE, "move") X(RT_PEG_UNSURE, "unsure")
enum rt_peg_verdict { RT_PEG_VERDICTS(RT_ENUM_CODE) };
RT_ENUM_WORDS(peg_verdict);

#define RT_MOVE_LEAST_M 0.01 /* a smaller move is not told */

/* A part of a move: 0.53 m "towards B". */
struct rt_move {
	double by_m;
	const char *where;
};

/* A measured peg against where it should stand, in the ring frame of the fit. */
struct rt_checked_peg {
	struct rt_peg peg;   /* where it should stand */
	double dx_m, dy_m;   /* where it stands less where it should */
	double off_m;	     /* how far that is */
	double along_off_m;  /* along its side, in the sense of its running distance */
	double across_off_m; /* out of the ring; on the centreline: to the right */
	double se_m;	     /* standard error in the direction it is known worst */
	/* covariance of dx_m and dy_m, square metres, scaled as se_m is */
	double cov_xx_m2, cov_xy_m2, cov_yy_m2;
	bool in_fit; /* the layout was laid on it, among others */
	enum rt_peg_verdict verdict;
	bool retape; /* most readings set aside touch it, so that it is not called off */
	/* The unchecked reading that alone says that it is off: the others allow a mistake in it
	 * without which the peg would be good, and no other off; so it is not called off.  NULL:
	 * none. */
	const struct rt_reading *rests_on;
	/* That it really stands further off than the tolerance, and that its verdict is wrong: see
	 * rt_within.  NAN where the readings contradict each other; p_wrong also when unsure. */
	double p_off, p_wrong;
	/* External reliability: how far a mistake that is just not found in one reading may have
	 * shifted it (INFINITY: by anything), and which reading; 0 and NULL for none. */
	double hidden_shift_m;
	const struct rt_reading *hidden_by;
	/* along its side first; none when it is good or the readings are in doubt */
	struct rt_move move[2];
	size_t moves;
};

/* The move in words, "0.53 m towards B and 0.04 m out", "perhaps ..." when unsure, "" when there
 * is none; in feet and inches when `feet`. */
RT_API void rt_peg_move_words(const struct rt_checked_peg *peg, bool feet, char *out, size_t size);

/* The verdict of the whole; the first that holds:
 *  - readings in doubt: something is wrong with the readings, and they cannot tell what (suspects
 *    that are tied or needed; or the readings kept are worse than their sigma, by more than
 *    RT_SIGMA0_GROSS or though one that is surely wrong was set aside); then no peg is called
 *    off;
 *  - unsure: no reading checks another;
 *  - move (in a report "move 2 pegs"): so many pegs stand too far off;
 *  - unsure: a peg is;
 *  - readings in doubt: the pegs are good, but the readings are worse than their sigma;
 *  - true: every measured peg stands within tolerance. */
#define RT_RING_VERDICTS(X)                                                                        \
	X(RT_RING_TRUE, "true")                                                                    \
	X(RT_RING_UNSURE, "unsure")                                                                \
	X(RT_RING_MOVE, "move")                                                                    \
	X(RT_RING_DOUBT, "readings in doubt")
enum rt_ring_verdict { RT_RING_VERDICTS(RT_ENUM_CODE) };
RT_ENUM_WORDS(ring_verdict);

/* What the smallest mistake in a reading that is found 4 times in 5 would do unfound: shift that
 * peg most of all.  A reading that was set aside does nothing: shift_m is NAN. */
struct rt_hidden {
	size_t peg; /* of the check */
	double shift_m;
};

/* kind and readings are borrowed and must outlive the check. */
struct rt_ring_check {
	const struct rt_ring_kind *kind;
	double tolerance_m;
	enum rt_fit fit;
	struct rt_adjustment adjustment; /* its points are the measured pegs, in the order of peg */
	struct rt_checked_peg *peg;
	size_t pegs;
	size_t to_move, unsure;
	struct rt_pegs unmeasured; /* pegs of the kind that no reading names */
	double *offset_row; /* 2 pegs x 2 pegs: dx_m, dy_m of each peg by the adjusted coordinates
			     */
	struct rt_hidden *hidden; /* of each reading of the adjustment */
	/* That one or more of the verdicts good and move are wrong: at most this (the sum of all
	 * p_wrong: C. E. Bonferroni, 1936).  NAN as p_off is. */
	double p_any_wrong;
	/* By what part the tape reads too long (0.004: 0.4 %; less than 0: short) as a receiver's
	 * coordinates show, and the standard error of that; NAN where nothing shows it.  When it is
	 * over RT_W_CRITICAL standard errors, and the readings fit no worse for it, everything here
	 * was computed from taped lengths divided by 1 + tape, and tape_corrected is set: their
	 * residuals are of those. */
	double tape, tape_se;
	bool tape_corrected;
	/* Where tape is NAN: all distances come out longer by this part (0.01: 1 %; less than 0:
	 * shorter), where that alone brings most pegs within tolerance and is over four standard
	 * errors; else 0.  And its standard error. */
	double stretch, stretch_se;
	enum rt_ring_verdict verdict;
	struct rt_arena *text;
};

/* The tolerance when none is given: 0.10 m driven, 0.05 m ridden (common practice, no source). */
RT_API double rt_ring_tolerance(enum rt_discipline discipline);

/* Adjust the readings of a ring, lay the layout of its kind on the pegs, and judge each.
 * Standard errors are scaled by sigma0 where that is over 1.  *out starts zeroed and is yours:
 * rt_ring_check_free.  Errors as rt_adjust; RT_E_INPUT too for a tolerance that is not over 0,
 * or corners asked for with fewer than two of them measured. */
RT_API enum rt_err rt_ring_check(struct rt_ring_check *out, const struct rt_ring_kind *kind,
				 const struct rt_readings *readings, double tolerance_m,
				 enum rt_fit fit, struct rt_error *err);
RT_API void rt_ring_check_free(struct rt_ring_check *check);

/* The peg that stands farthest off; NULL without pegs. */
RT_API const struct rt_checked_peg *rt_ring_check_worst(const struct rt_ring_check *check);
/* The verdict of the whole in words, "true", "move 2 pegs". */
RT_API void rt_ring_check_words(const struct rt_ring_check *check, char *out, size_t size);

/* With 95 % probability at least a peg stands within so many standard errors (in the direction
 * known worst) of where it was found: sqrt(-2 ln 0.05), both coordinates taken as known no better
 * than the worse one (Rayleigh). */
#define RT_WITHIN_95 2.447747
/* How far off the worst peg may stand, with that confidence; 0 without pegs. */
RT_API double rt_ring_check_within(const struct rt_ring_check *check);

/* An earlier check of a ring. */
struct rt_past_check {
	const char *when, *who; /* NULL: not told */
	size_t readings, heights;
	const struct rt_ring_check *check; /* NULL: only heights, or trouble */
	const char *trouble;		   /* why it cannot be computed; NULL: none */
};

/* The probability that what was found `offset` off with such a covariance (xx, xy, yy) really
 * stands within the tolerance: of the normal distribution in two dimensions over that disc, by
 * quadrature, to 1e-9.  Nothing is taken as known of the peg before it was measured. */
RT_API double rt_within(const double offset_m[2], const double covariance_m2[3],
			double tolerance_m);

/* ---- the shape of a ring -------------------------------------------------------------------- */

#define RT_SHAPES(X)                                                                               \
	X(RT_SHAPE_CORNER, "corner")                                                               \
	X(RT_SHAPE_SIDE, "side")                                                                   \
	X(RT_SHAPE_DIAGONAL, "diagonal")                                                           \
	X(RT_SHAPE_BOW, "straight side")
enum rt_shape { RT_SHAPES(RT_ENUM_CODE) };

/* off: no ring whose pegs all stand within tolerance has it.  unsure: that limit lies within two
 * standard errors, or the readings are in doubt. */
#define RT_SHAPE_VERDICTS(X)                                                                       \
	X(RT_SHAPE_GOOD, "good") X(RT_SHAPE_OFF, "off") X(RT_SHAPE_UNSURE, "unsure")
enum rt_shape_verdict { RT_SHAPE_VERDICTS(RT_ENUM_CODE) };
RT_ENUM_WORDS(shape);
RT_ENUM_WORDS(shape_verdict);

/* A corner's angle inside the ring, between the farthest measured pegs of its two sides; the
 * length of a side or diagonal; or the peg of a side that stands farthest from the line through
 * its outermost measured ones. */
struct rt_shape_row {
	enum rt_shape shape;
	const char *from, *at, *to; /* at: the corner, or the peg that bows; else NULL */
	double measured, should;    /* metres; degrees of a corner; a bow: out of the ring */
	double off, se;		    /* in the same unit */
	double off_m, se_m;	    /* the same; of a corner over arm_m */
	double arm_m;		    /* of a corner: the longer arm of its angle; else NAN */
	double allowed_m;	    /* what pegs within tolerance could make of off_m */
	enum rt_shape_verdict verdict;
};

/* Of what was measured: corners, sides, diagonals, bows.  Names are borrowed from the check's
 * kind. */
struct rt_ring_shape {
	struct rt_shape_row *row;
	size_t rows;
	struct rt_arena *text;
};
/* *out starts zeroed and is yours: rt_ring_shape_free.  RT_E_NOMEM. */
RT_API enum rt_err rt_ring_shape(struct rt_ring_shape *out, const struct rt_ring_check *check,
				 struct rt_error *err);
RT_API void rt_ring_shape_free(struct rt_ring_shape *shape);

/* ---- advice --------------------------------------------------------------------------------- */

#define RT_NEXT_MOST 10 /* readings advised */

/* A reading that could be made: its value is what it should show.  Names are borrowed from the
 * check's kind. */
struct rt_next {
	struct rt_reading reading;
	double largest_se_m; /* of any peg of the check, once it is made */
	double gain_m;	     /* how much less that is than before it */
};

/* What to measure next. */
struct rt_next_readings {
	double largest_se_m;		     /* now */
	const char *worst;		     /* the peg that is known so badly */
	struct rt_next single[RT_NEXT_MOST]; /* each by itself, the most helpful first */
	struct rt_next
		course[RT_NEXT_MOST]; /* one after another, each the best after those before */
	size_t singles, courses;
};
/* Rank the distances between measured pegs, up to tape_m (INFINITY: any) long, and the offsets of
 * pegs from the line of their side's corners, that are not among the good readings yet: by the
 * largest standard error that is left, then by the mean square of all.  A reading changes the
 * covariance by a matrix of rank one, so nothing is adjusted again.  RT_E_INPUT: tape_m is not
 * over 0. */
RT_API enum rt_err rt_ring_next(struct rt_next_readings *out, const struct rt_ring_check *check,
				double tape_m, struct rt_error *err);

/* A peg to move, and the way to it from the one before (the first from the middle of side a). */
struct rt_walk_step {
	const struct rt_checked_peg *peg;
	double walk_m;
};

/* The moves that make a ring true with the fewest pegs moved and the least walking. */
struct rt_ring_walk {
	struct rt_ring_check check; /* with the fit that was chosen */
	struct rt_walk_step *step;
	size_t steps;
	double walk_m, move_m; /* in all: walked; pegs moved by */
	struct rt_arena *text;
};
/* Check the ring with every fit that its readings allow, and choose the one that has the fewest
 * pegs to move, then the shortest walk.  The order of up to 12 pegs is the shortest there is (M.
 * Held and R. M. Karp, 1962); of more, one that no reversal and no change of one peg's place
 * shortens.  *out starts zeroed and is yours: rt_ring_walk_free.  Errors as rt_ring_check. */
RT_API enum rt_err rt_ring_walk(struct rt_ring_walk *out, const struct rt_ring_kind *kind,
				const struct rt_readings *readings, double tolerance_m,
				struct rt_error *err);
RT_API void rt_ring_walk_free(struct rt_ring_walk *walk);

/* A letter if the corners stay where they are and it alone is set anew: by its running distance
 * along the line of the two corners; for one of the centreline, on the line between the middles of
 * the short sides that are set so too. */
struct rt_letter_only {
	struct rt_peg peg;
	double now_m;	   /* how far it is off now; NAN where it was not measured */
	double dx_m, dy_m; /* where it would stand less where it should, laid on the corners */
	double off_m, se_m;
	enum rt_shape_verdict verdict;
};
struct rt_letters_only {
	struct rt_letter_only *at;
	size_t n;
	struct rt_arena *text;
};
/* check: made with RT_FIT_CORNERS.  Letters whose corners were not measured are left out.  *out
 * starts zeroed and is yours: rt_letters_only_free.  RT_E_NOMEM. */
RT_API enum rt_err rt_letters_only(struct rt_letters_only *out, const struct rt_ring_check *check,
				   struct rt_error *err);
RT_API void rt_letters_only_free(struct rt_letters_only *letters);

/* What two diagonals tell of a ring whose four sides are as long as they should be: a
 * parallelogram on side a. */
struct rt_diagonals {
	const struct rt_ring_kind *kind;
	double ak_cm_m, fa_hc_m; /* as taped */
	double should_m;
	/* How far both far pegs (HC and CM) stand along side c, to the right as seen from A; slide
	 * them back by this. */
	double slide_m, se_m;
	double expected_m; /* what both diagonals read when that is done */
	/* Then both straight out, away from side a (less than 0: in), so that they read should_m:
	 * if the short sides are true. */
	double out_m, out_se_m;
};
/* RT_E_INPUT: lengths that no such ring has. */
RT_API enum rt_err rt_diagonals(struct rt_diagonals *out, const struct rt_ring_kind *kind,
				double ak_cm_m, double fa_hc_m, struct rt_error *err);

/* ---- reports --------------------------------------------------------------------------------- */

/* The tables of this room's reports; NULL after the last. */
RT_API extern const struct rt_record *const rt_check_tables[];

/* Append the tables of a result to a report (started zeroed); columns as the command's help
 * names them.  needs_person is set when a peg is to move or unsure, a reading is a blunder, or
 * the readings contradict each other.  feet: lengths in words and notes are told in feet and
 * inches, for a text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_ring_check_report(struct rt_report *r, const struct rt_ring_check *check,
					bool feet, struct rt_error *err);
/* The checks of one ring from the first to the latest, and the way each peg went over them. */
RT_API enum rt_err rt_ring_history_report(struct rt_report *r, const struct rt_ring_kind *kind,
					  const struct rt_past_check *past, size_t n, bool feet,
					  struct rt_error *err);

/* What to measure next, what to move in which order, and what moving the letters alone would do.
 * needs_person is set when a peg is to move. */
RT_API enum rt_err rt_ring_next_report(struct rt_report *r, const struct rt_next_readings *next,
				       bool feet, struct rt_error *err);
RT_API enum rt_err rt_ring_walk_report(struct rt_report *r, const struct rt_ring_walk *walk,
				       bool feet, struct rt_error *err);
RT_API enum rt_err rt_letters_only_report(struct rt_report *r,
					  const struct rt_letters_only *letters,
					  struct rt_error *err);
/* needs_person is set when the far pegs are to slide. */
RT_API enum rt_err rt_diagonals_report(struct rt_report *r, const struct rt_diagonals *diagonals,
				       bool feet, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
