/* survey: readings between points, and their adjustment by least squares.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SURVEY_H
#define RINGTRUE_SURVEY_H

#include <ringtrue/report.h>
#include <ringtrue/ring.h>

#ifdef __cplusplus
extern "C" {
#endif

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
enum rt_reading_kind { RT_READING_KINDS(RT_ENUM_CODE) };

RT_ENUM_WORDS(reading_kind);

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

/* What a file of each kind holds. */
RT_API extern const struct rt_record rt_distance_record;
RT_API extern const struct rt_record rt_offset_record;
RT_API extern const struct rt_record rt_angle_record;

/* A row of a receiver's file, which becomes two readings: where it says that a peg is, x and y in
 * metres, or latitude and longitude on WGS84. */
struct rt_receiver_fix {
	const char *point;
	double x_m, y_m;
	double lat_deg, lon_deg;
	double height_m; /* NAN: none */
	double sigma;	 /* NAN: none */
	long line;
};

struct rt_receiver_fixes RT_LIST(struct rt_receiver_fix);

RT_API extern const struct rt_record rt_metre_fix_record;
RT_API extern const struct rt_record rt_degree_fix_record;

/* A reading in words: "A-C", "offset of K from A-C", "angle at K from A to C", "x of K". */
RT_API struct rt_shown rt_reading_words(const struct rt_reading *r);

/* A point for `adjust`: where it starts, and whether it is fixed. */
struct rt_point {
	const char *name;
	double x_m, y_m;
	bool fixed;
};

struct rt_points RT_LIST(struct rt_point);

RT_API extern const struct rt_record rt_point_record;

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
enum rt_reading_verdict { RT_READING_VERDICTS(RT_ENUM_CODE) };

/* The chi-square test of sigma0, 5 % two-sided. */
#define RT_SIGMA_TESTS(X)                                                                          \
	X(RT_SIGMA_UNTESTED, "not tested") /* no degree of freedom */                              \
	X(RT_SIGMA_PASSED, "passed")                                                               \
	X(RT_SIGMA_CAUTIOUS, "better than said") /* under the lower limit: no fault */             \
	X(RT_SIGMA_FAILED, "failed")		 /* over the upper limit */
enum rt_sigma_test { RT_SIGMA_TESTS(RT_ENUM_CODE) };

/* How the search for blunders ended. */
#define RT_SEARCH_ENDS(X)                                                                          \
	X(RT_SEARCH_CLEAR, "nothing more is wrong")                                                \
	X(RT_SEARCH_TIED, "something is wrong, and these readings cannot tell which")              \
	X(RT_SEARCH_NEEDED, "a suspect that cannot be set aside: a peg hangs on it")               \
	X(RT_SEARCH_WORSE, "no one reading is to blame: all are worse than their sigma")
enum rt_search_end { RT_SEARCH_ENDS(RT_ENUM_CODE) };

/* No one reading is to blame, yet sigma0 is over this: that is more than careless taping, some
 * readings are wrong, and too many to tell which (common practice, no source). */
#define RT_SIGMA0_GROSS 4.0

RT_ENUM_WORDS(reading_verdict);
RT_ENUM_WORDS(sigma_test);
RT_ENUM_WORDS(search_end);

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
 * unit than metres.  RT_E_NOTFOUND: a reading names an unknown point.  RT_E_NOFIX: names each point that is not fixed (too few readings, a
 * standard error before measuring over RT_SE_FIXED_M, or a mirror place within 1 m that the
 * readings fit as well) and the readings that would fix it.  RT_E_NUMERIC: the readings
 * contradict each other by many metres, and where to look first. */
RT_API enum rt_err rt_adjust(struct rt_adjustment *out, const struct rt_points *points,
			     const struct rt_readings *readings, struct rt_error *err);
RT_API void rt_adjustment_free(struct rt_adjustment *a);

/* The tables of this room's reports; NULL after the last. */
RT_API extern const struct rt_record *const rt_survey_tables[];

/* Append the tables of an adjustment to a report (started zeroed); feet: lengths in words and notes
 * are told in feet and inches, for a text in feet.  needs_person is set when readings are wrong or
 * contradict each other.  RT_E_NOMEM. */
RT_API enum rt_err rt_adjustment_report(struct rt_report *r, const struct rt_adjustment *a,
					bool feet, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
