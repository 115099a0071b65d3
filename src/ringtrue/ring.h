/* ring: kinds of ring and their letters, setting out, adjustment of tape readings, fit and
 * verdict.
 *
 * Ring frame: origin X (the ring's centre), y along the long axis from A (-L/2) towards
 * C (+L/2), x to the right of somebody at A who looks to C.  Metres.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_RING_H
#define RINGTRUE_RING_H

#include <ringtrue/base.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- kinds and letters ---------------------------------------------------------------------- */

#define RT_DISCIPLINES(X) X(RT_RIDDEN, "ridden") X(RT_DRIVEN, "driven")
enum rt_discipline {
#define RT_ENUM(code, words) code,
	RT_DISCIPLINES(RT_ENUM)
#undef RT_ENUM
};

/* Sides as somebody at A sees them; `a` and `c` are the short sides. */
#define RT_SIDES(X)                                                                                \
	X(RT_LEFT, "left")                                                                         \
	X(RT_RIGHT, "right") X(RT_SIDE_A, "a") X(RT_SIDE_C, "c") X(RT_CENTRE, "centre")
enum rt_side {
#define RT_ENUM(code, words) code,
	RT_SIDES(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_discipline_words(enum rt_discipline d);
RT_API const char *rt_side_words(enum rt_side s);
RT_API bool rt_discipline_read(const char *words, enum rt_discipline *out);
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

RT_API void rt_ring_kinds_free(struct rt_ring_kinds *kinds);
/* The kind of that name, or NULL. */
RT_API const struct rt_ring_kind *rt_ring_kind_find(const struct rt_ring_kinds *kinds,
						    const char *name);

/* ---- readings and points: what the files hold ----------------------------------------------- */

/* What a reading tells:
 *  distance     from `from` to `to`, metres
 *  offset       of `at` from the line through `from` and `to`, metres, to the right of somebody
 *               at `from` who looks to `to`
 *  angle        at `at`, from `from` clockwise to `to`, degrees (0 to 360)
 *  x, y         a coordinate of `at` as a receiver gives it, metres */
#define RT_READING_KINDS(X)                                                                        \
	X(RT_READ_DISTANCE, "distance")                                                            \
	X(RT_READ_OFFSET, "offset")                                                                \
	X(RT_READ_ANGLE, "angle")                                                                  \
	X(RT_READ_X, "x") X(RT_READ_Y, "y")
enum rt_reading_kind {
#define RT_ENUM(code, words) code,
	RT_READING_KINDS(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_reading_kind_words(enum rt_reading_kind k);
RT_API bool rt_reading_kind_read(const char *words, enum rt_reading_kind *out);

/* A reading between pegs.  value and sigma are metres, degrees for an angle; sigma is NAN where
 * the row gives none: then rt_reading_sigma has it.  file and line say where it was read.  A
 * receiver's place of a peg is two readings, x and y, of the same file, line and frame. */
struct rt_reading {
	const char *from, *to; /* NULL for a coordinate */
	double value;
	double sigma;
	const char *note; /* NULL: none */
	const char *file;
	long line;
	enum rt_reading_kind kind;
	const char *at; /* NULL for a distance */
	/* Coordinates of one frame (1, 2, ...) share an unknown position and direction of their
	 * own; those of frame 0 are in the frame of the points. */
	int frame;
};

struct rt_readings RT_LIST(struct rt_reading);

/* A reading in words: "A-C", "offset of K from A-C", "angle at K from A to C", "x of K". */
RT_API void rt_reading_words(const struct rt_reading *r, char *out, size_t size);

/* The height of a peg over any level that all heights of a file share, by a level and staff or a
 * receiver; sigma_m is NAN where the row gives none. */
struct rt_height {
	const char *name;
	double height_m;
	double sigma_m;
	const char *file;
	long line;
};

struct rt_heights RT_LIST(struct rt_height);

/* A point for `adjust`: where it starts, and whether it is fixed. */
struct rt_point {
	const char *name;
	double x_m, y_m;
	bool fixed;
};

struct rt_points RT_LIST(struct rt_point);

/* A ring of the show: its name and the name of its kind. */
struct rt_ring {
	const char *name;
	const char *kind;
};

struct rt_rings RT_LIST(struct rt_ring);

/* ---- more on kinds and their pegs ----------------------------------------------------------- */

/* rt_ring_kind_find that says what is wrong: RT_E_NOTFOUND with the nearest name. */
RT_API enum rt_err rt_ring_kind_named(const struct rt_ring_kind **out,
				      const struct rt_ring_kinds *kinds, const char *name,
				      struct rt_error *err);

/* What a kind may hold. */
#define RT_RING_LEAST_M	     5.0   /* a short side */
#define RT_RING_MOST_M	     500.0 /* a long side */
#define RT_RING_LETTERS_MOST 60

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

/* ---- adjustment of readings ----------------------------------------------------------------- */

/* Statistics of testing for blunders (W. Baarda, 1968): level 0.1 %, power 80 %. */
#define RT_W_CRITICAL  3.290527 /* |w| over this is a suspect while sigma is believed */
#define RT_W_HIDDEN    4.132148 /* delta0: w of the smallest blunder that is found 4 times in 5 */
#define RT_R_UNCHECKED 0.1	/* a redundancy number under this leaves a reading unchecked */
#define RT_SE_FIXED_M  0.25	/* a peg known worse than this before measuring is not fixed */

/* What becomes of a reading.  blunder: it disagrees with the rest and was set aside.
 * unchecked: a blunder in it would not show (redundancy number under 0.1). */
#define RT_READING_VERDICTS(X)                                                                     \
	X(RT_READING_GOOD, "good")                                                                 \
	X(RT_READING_BLUNDER, "blunder")                                                           \
	X(RT_READING_UNCHECKED, "unchecked")
enum rt_reading_verdict {
#define RT_ENUM(code, words) code,
	RT_READING_VERDICTS(RT_ENUM)
#undef RT_ENUM
};

/* The chi-square test of sigma0, 5 % two-sided. */
#define RT_SIGMA_TESTS(X)                                                                          \
	X(RT_SIGMA_UNTESTED, "not tested") /* no degree of freedom */                              \
	X(RT_SIGMA_PASSED, "passed")                                                               \
	X(RT_SIGMA_CAUTIOUS, "better than said") /* under the lower limit: no fault */             \
	X(RT_SIGMA_FAILED, "failed")		 /* over the upper limit */
enum rt_sigma_test {
#define RT_ENUM(code, words) code,
	RT_SIGMA_TESTS(RT_ENUM)
#undef RT_ENUM
};

/* How the search for blunders ended. */
#define RT_SEARCH_ENDS(X)                                                                          \
	X(RT_SEARCH_CLEAR, "nothing more is wrong")                                                \
	X(RT_SEARCH_TIED, "something is wrong, and these readings cannot tell which")              \
	X(RT_SEARCH_NEEDED, "a suspect that cannot be set aside: a peg hangs on it")               \
	X(RT_SEARCH_WORSE, "no one reading is to blame: all are worse than their sigma")
enum rt_search_end {
#define RT_ENUM(code, words) code,
	RT_SEARCH_ENDS(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_reading_verdict_words(enum rt_reading_verdict v);
RT_API const char *rt_sigma_test_words(enum rt_sigma_test t);
RT_API const char *rt_search_end_words(enum rt_search_end e);

/* The sigma of a reading: its own; where it gives none, 0.010 m + 0.0002 of a distance, 0.010 m of
 * an offset (0.0002 of its string on top of that when adjusted), 0.05 degrees of an angle (a prism
 * or a 3-4-5 triangle), 0.020 m of a receiver's coordinate (with corrections).  Common practice,
 * no source. */
RT_API double rt_reading_sigma(const struct rt_reading *reading);

/* A point as adjusted; standard errors scaled by sigma0 (by 1 where there is no degree of
 * freedom), 0 for a fixed point. */
struct rt_adjusted_point {
	const char *name;
	double x_m, y_m;
	double se_x_m, se_y_m;
	bool fixed;
};

/* A reading as adjusted; of an angle sigma_m, residual_m and hidden_m are degrees.  For one that
 * was set aside, residual, redundancy and w are what they would be if it alone were put back.  A
 * receiver's fix is set aside as a whole, x with y. */
struct rt_adjusted_reading {
	const struct rt_reading *reading;
	double sigma_m;
	double residual_m; /* adjusted less observed */
	double redundancy; /* 0 to 1 */
	double w;	   /* residual / (sigma sqrt(redundancy)); 0 where redundancy is 0 */
	double hidden_m;   /* the smallest blunder found 4 times in 5; NAN: none is ever found */
	enum rt_reading_verdict verdict;
	bool suspect; /* the search ended with this one, or with this one among others */
	/* The unit in which a distance would fit where its points start, "feet", though it does not
	 * as metres; NULL: none. */
	const char *unit;
};

/* A frame of coordinates as adjusted: observed = R place + shift, R by (cosine, sine). */
struct rt_adjusted_frame {
	int number;
	double cosine, sine, shift_x_m, shift_y_m;
};

/* An adjustment.  Points and readings in the order given; their names and the readings are
 * borrowed from the caller's lists. */
struct rt_adjustment {
	struct rt_adjusted_point *point;
	size_t points;
	struct rt_adjusted_reading *reading;
	size_t readings;
	size_t blunders;	   /* readings set aside */
	size_t degrees_of_freedom; /* readings kept, less the rank */
	double sigma0;		   /* NAN without a degree of freedom */
	enum rt_sigma_test test;
	enum rt_search_end end;
	double *covariance_m2; /* 2 points x 2 points, x before y, for sigma0 = 1; 0 where fixed */
	/* readings x 2 points: metres that each coordinate moves for a metre (an angle: a degree)
	 * more in the reading; 0 where it was set aside */
	double *influence;
	struct rt_adjusted_frame *frame;
	size_t frames;
	struct rt_arena *text;
};

/* Adjust readings between points by least squares, and search them for blunders.  Coordinates of a
 * frame are true to each other, and the frame's turn and shift are unknowns.  With no point fixed
 * and no coordinate in the frame of the points the datum is free: of all adjustments the one
 * nearest to the starting coordinates (minimum norm of each step).
 *
 * Gauss-Newton from the starting coordinates; redundancy numbers and w after Baarda (1968),
 * tau after Pope (1976).  While the chi-square test of sigma0 passes, the largest |w| over
 * RT_W_CRITICAL is a suspect; when it fails, the largest |w| / sigma0 over tau's critical value
 * at 5 % overall is.  A suspect is set aside and the rest adjusted again, until there is none,
 * or it cannot be told from another, or a point would lose its fix.  Readings whose w move
 * together are told apart only when one, set aside, leaves a better adjustment than every other
 * by more than chance.
 *
 * *out starts zeroed and is yours: rt_adjustment_free.  RT_E_INPUT: no readings, a reading that
 * is none (no distance, from one point to itself), coordinates that are no numbers, points that
 * start in one place though a reading joins them, every point fixed, most distances in another
 * unit than metres.  RT_E_NOTFOUND: a reading
 * names an unknown point.  RT_E_NOFIX: names each point that is not fixed (too few readings, a
 * standard error before measuring over RT_SE_FIXED_M, or a mirror place within 1 m that the
 * readings fit as well) and the readings that would fix it.  RT_E_NUMERIC: the readings
 * contradict each other by many metres, and where to look first. */
RT_API enum rt_err rt_adjust(struct rt_adjustment *out, const struct rt_points *points,
			     const struct rt_readings *readings, struct rt_error *err);
RT_API void rt_adjustment_free(struct rt_adjustment *a);

/* ---- ring check ----------------------------------------------------------------------------- */

/* How the nominal layout is laid on the pegs, by rotation and shift only.  fewest: on the
 * largest set of pegs that its own least-squares placement keeps within tolerance, so that the
 * fewest have to move; all: on every peg; corners: on the corners that were measured. */
#define RT_FITS(X) X(RT_FIT_FEWEST, "fewest") X(RT_FIT_ALL, "all") X(RT_FIT_CORNERS, "corners")
enum rt_fit {
#define RT_ENUM(code, words) code,
	RT_FITS(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_fit_words(enum rt_fit f);
RT_API bool rt_fit_read(const char *words, enum rt_fit *out);

/* unsure: the tolerance lies within two standard errors of what was found, or, where the readings
 * are worse than their sigma and none of them is to blame, within seven below a peg that is off; or
 * the peg would have to move, but the readings are in doubt, most of those set aside touch
 * it, or one reading that no other checks says so alone. */
#define RT_PEG_VERDICTS(X) X(RT_PEG_GOOD, "good") X(RT_PEG_MOVE, "move") X(RT_PEG_UNSURE, "unsure")
enum rt_peg_verdict {
#define RT_ENUM(code, words) code,
	RT_PEG_VERDICTS(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_peg_verdict_words(enum rt_peg_verdict v);

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

/* No one reading is to blame, yet sigma0 is over this: that is more than careless taping, some
 * readings are wrong, and too many to tell which (common practice, no source). */
#define RT_SIGMA0_GROSS 4.0

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
enum rt_ring_verdict {
#define RT_ENUM(code, words) code,
	RT_RING_VERDICTS(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_ring_verdict_words(enum rt_ring_verdict v);

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

/* ---- footing -------------------------------------------------------------------------------- */

/* A row of the footing rules: how far a ring may fall along its length or a diagonal, and across,
 * at most.  Metres, or per cent of the ring's length and width; NAN: not given.  Each direction
 * has one of the two. */
struct rt_footing_rule {
	const char *name;
	enum rt_discipline discipline;
	double along_m, along_percent;
	double across_m, across_percent;
	const char *source;
};

struct rt_footing_rules RT_LIST(struct rt_footing_rule);

/* The limits of one ring, metres. */
struct rt_footing_limits {
	double along_m, across_m;
	const char *source; /* whose limits they are; NULL: not told */
};

/* The rule of that name; name NULL: the first one of the discipline.  RT_E_NOTFOUND. */
RT_API enum rt_err rt_footing_rule_named(const struct rt_footing_rule **out,
					 const struct rt_footing_rules *rules, const char *name,
					 enum rt_discipline discipline, struct rt_error *err);
/* What a rule asks of a kind of ring; source is borrowed from the rule. */
RT_API struct rt_footing_limits rt_footing_limits_of(const struct rt_footing_rule *rule,
						     const struct rt_ring_kind *kind);

#define RT_HEIGHT_SIGMA_M 0.005 /* of a height that gives none: a builder's level (practice) */
#define RT_UNEVEN_M	  0.03	/* a peg farther from the plane is a hump or a hollow (practice) */

/* unsure: the limit lies within two standard errors of the fall. */
#define RT_FOOTING_VERDICTS(X)                                                                     \
	X(RT_FOOTING_GOOD, "good")                                                                 \
	X(RT_FOOTING_STEEP, "too steep")                                                           \
	X(RT_FOOTING_UNSURE, "unsure")
enum rt_footing_verdict {
#define RT_ENUM(code, words) code,
	RT_FOOTING_VERDICTS(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_footing_verdict_words(enum rt_footing_verdict v);

/* A side, the centreline, a diagonal, or the line between letters that face each other: how far
 * its highest measured peg lies above its lowest. */
struct rt_footing_line {
	const char *what;
	struct rt_peg from, to; /* the highest and the lowest; the ends where all are level */
	double length_m, fall_m, se_m;
	double limit_m;
	bool across; /* from side to side; else along or on a diagonal */
	bool whole;  /* both its ends were measured */
	enum rt_footing_verdict verdict;
};

#define RT_LIES(X) X(RT_LIES_EVEN, "even") X(RT_LIES_HUMP, "hump") X(RT_LIES_HOLLOW, "hollow")
enum rt_lies {
#define RT_ENUM(code, words) code,
	RT_LIES(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_lies_words(enum rt_lies l);

/* A peg whose height was measured; several heights of one peg count as their weighted mean. */
struct rt_footing_peg {
	struct rt_peg peg;
	size_t times;
	double height_m, sigma_m;
	double off_plane_m; /* above it; NAN without a plane */
	enum rt_lies lies;  /* over RT_UNEVEN_M and two standard errors off the plane */
};

/* The plane nearest to the heights (least squares, weights 1 / sigma^2): height_m at X, rise to
 * the right of somebody at A and rise ahead, metres a metre. */
struct rt_footing_plane {
	bool fitted; /* three pegs not in one line at least */
	size_t degrees_of_freedom;
	double height_m, right, ahead;
	double fall;	      /* of the steepest way down, metres a metre */
	double direction_deg; /* of that way, clockwise from A towards C, 0 to 360 */
	const char *towards;  /* the peg of the ring's edge that lies nearest to that way from X */
	double se_right, se_ahead, se_fall, se_direction_deg;
	double covariance; /* of right and ahead */
	double rms_m;	   /* of what the pegs lie off it */
	bool level;	   /* the fall is under two standard errors of it */
};

/* kind and the names of heights are borrowed and must outlive the footing. */
struct rt_footing {
	const struct rt_ring_kind *kind;
	struct rt_footing_limits limits;
	struct rt_footing_line *line;
	size_t lines;
	struct rt_footing_peg *peg; /* in the order of rt_ring_pegs */
	size_t pegs;
	const struct rt_footing_peg *highest, *lowest;
	struct rt_footing_plane plane;
	size_t steep, unsure;	      /* lines of that verdict */
	struct rt_strings unmeasured; /* lines with fewer than two pegs measured */
	struct rt_arena *text;
};

/* Judge the footing of a ring from heights of its pegs.  Standard errors of the plane are scaled
 * by how far the pegs lie off it where there is a degree of freedom.  *out starts zeroed and is
 * yours: rt_footing_free.  RT_E_INPUT: no heights, heights of two files, a height that is no
 * number, limits not over 0.  RT_E_NOTFOUND: a name that is no peg of the kind. */
RT_API enum rt_err rt_footing_make(struct rt_footing *out, const struct rt_ring_kind *kind,
				   const struct rt_heights *heights,
				   const struct rt_footing_limits *limits, struct rt_error *err);
RT_API void rt_footing_free(struct rt_footing *footing);
/* Where water runs, in a sentence. */
RT_API void rt_footing_water_words(const struct rt_footing *footing, char *out, size_t size);
/* The probability that what was found `offset` off with such a covariance (xx, xy, yy) really
 * stands within the tolerance: of the normal distribution in two dimensions over that disc, by
 * quadrature, to 1e-9.  Nothing is taken as known of the peg before it was measured. */
RT_API double rt_within(const double offset_m[2], const double covariance_m2[3],
			double tolerance_m);

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
/* True for a letter whose place no rulebook that was read confirms: V P S R of a driven ring of
 * 40 x 80 m. */
RT_API bool rt_peg_unconfirmed(const struct rt_ring_kind *kind, const struct rt_peg *peg);

/* ---- the shape of a ring -------------------------------------------------------------------- */

#define RT_SHAPES(X)                                                                               \
	X(RT_SHAPE_CORNER, "corner")                                                               \
	X(RT_SHAPE_SIDE, "side")                                                                   \
	X(RT_SHAPE_DIAGONAL, "diagonal")                                                           \
	X(RT_SHAPE_BOW, "straight side")
enum rt_shape {
#define RT_ENUM(code, words) code,
	RT_SHAPES(RT_ENUM)
#undef RT_ENUM
};

/* off: no ring whose pegs all stand within tolerance has it.  unsure: that limit lies within two
 * standard errors, or the readings are in doubt. */
#define RT_SHAPE_VERDICTS(X)                                                                       \
	X(RT_SHAPE_GOOD, "good") X(RT_SHAPE_OFF, "off") X(RT_SHAPE_UNSURE, "unsure")
enum rt_shape_verdict {
#define RT_ENUM(code, words) code,
	RT_SHAPE_VERDICTS(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_shape_words(enum rt_shape s);
RT_API const char *rt_shape_verdict_words(enum rt_shape_verdict v);

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
enum rt_setout_kind {
#define RT_ENUM(code, words) code,
	RT_SETOUT_KINDS(RT_ENUM)
#undef RT_ENUM
};
RT_API const char *rt_setout_kind_words(enum rt_setout_kind k);

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

/* ---- reports -------------------------------------------------------------------------------- */

/* Append the tables of a result to a report (started zeroed); columns as the command's help
 * names them.  The form alone: without notes, so that its CSV is a file of readings.
 * needs_person is set when a peg is to move or unsure, a reading is a blunder, or
 * the readings contradict each other.  feet: lengths in words and notes are told in feet and
 * inches, for a text in feet.  RT_E_NOMEM. */
RT_API enum rt_err rt_ring_kinds_report(struct rt_report *r, const struct rt_ring_kinds *kinds,
					struct rt_error *err);
RT_API enum rt_err rt_rings_report(struct rt_report *r, const struct rt_rings *rings,
				   struct rt_error *err);
RT_API enum rt_err rt_ring_setout_report(struct rt_report *r, const struct rt_ring_setout *setout,
					 bool feet, struct rt_error *err);
RT_API enum rt_err rt_setout_plan_report(struct rt_report *r, const struct rt_setout_plan *plan,
					 bool feet, struct rt_error *err);
RT_API enum rt_err rt_setout_room_report(struct rt_report *r, const struct rt_setout_plan *plan,
					 const struct rt_setout_room *room, bool feet,
					 struct rt_error *err);
RT_API enum rt_err rt_setout_form_report(struct rt_report *r, const struct rt_setout_form *form,
					 bool alone, struct rt_error *err);
RT_API enum rt_err rt_ring_check_report(struct rt_report *r, const struct rt_ring_check *check,
					bool feet, struct rt_error *err);
/* The checks of one ring from the first to the latest, and the way each peg went over them. */
RT_API enum rt_err rt_ring_history_report(struct rt_report *r, const struct rt_ring_kind *kind,
					  const struct rt_past_check *past, size_t n, bool feet,
					  struct rt_error *err);
RT_API enum rt_err rt_footing_report(struct rt_report *r, const struct rt_footing *footing,
				     bool feet, struct rt_error *err);
RT_API enum rt_err rt_adjustment_report(struct rt_report *r, const struct rt_adjustment *a,
					bool feet, struct rt_error *err);

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
