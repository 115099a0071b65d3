/* What the files of this room share with each other, with the rooms above and with the tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SURVEY_INTERNAL_H
#define RT_SURVEY_INTERNAL_H

#include <ringtrue/survey.h>
#include "../ring/internal.h"

/* ---- words.c ---- */

/* Does it name this peg at all? */
bool rt__reading_names(const struct rt_reading *r, const char *peg);
/* Are they x and y of a place that a receiver told? */
bool rt__one_fix(const struct rt_reading *x, const struct rt_reading *y);

/* ---- observation.c ---- */

/* A reading as it would be, and its derivatives by x and y of its points: metres a metre, or
 * degrees a metre. */
struct rt__observed {
	double value;
	double by_from[2], by_to[2], by_at[2];
};

/* At these places (2 each, x before y; one that the kind has not got may be NULL).  A coordinate
 * is the point's own: what its frame does to it is for the caller. */
struct rt__observed rt__observe(enum rt_reading_kind kind, const double *from, const double *to,
				const double *at);

/* ---- gradient.c ---- */

/* What a reading that hangs on no frame would be between the points as adjusted, and its row over
 * them (2 a point; 0 for a fixed one). */
double rt__gradient(const struct rt_adjustment *a, const struct rt_reading *r, double *row);

/* ---- matrix.c: linear algebra; matrices are row by row, n columns ---- */

/* Reduce a (rows x n, rows at least n) to R over zeroes, and b (NULL: none) by the same
 * reflections (A. S. Householder, 1958).  room: n. */
void rt__qr(double *a, size_t rows, size_t n, double *b, double *room);
/* x becomes the solution of R x = x, or of Rᵀ x = x; R is n x n with nothing below its diagonal
 * that counts, and no zero on it. */
void rt__solve_upper(const double *r, size_t n, double *x);
void rt__solve_upper_transposed(const double *r, size_t n, double *x);

/* ---- least_squares.c: nonlinear least squares ---- */

/* Minimise the sum of (residual / sigma)^2 over the unknowns x.  Matrices are row by row. */
struct rt__problem {
	size_t rows, unknowns;
	const double *sigma; /* of each row; NULL: 1 */
	/* residual[rows] (model less observed) at x, and its derivatives, rows x unknowns;
	 * jacobian may be NULL. */
	void (*model)(const void *data, const double *x, double *residual, double *jacobian);
	/* The directions of x that no residual sees (`datums` of them, a row each) at x.  Each
	 * step stays out of what they are in the first `places` unknowns, where they are
	 * orthonormal.  NULL when datums is 0. */
	size_t datums, places;
	void (*datum)(const void *data, const double *x, double *rows);
	const void *data;
};

/* Gauss-Newton from x, which becomes the solution; a step that makes things worse is halved.
 * *sum is the sum of squares there.  RT_E_NUMERIC when it does not settle (x and *sum are then
 * as far as it came), or when the datum rows leave the unknowns undetermined. */
enum rt_err rt__solve(const struct rt__problem *p, double *x, double *sum, struct rt_error *err);
/* The step that Gauss-Newton takes from x. */
enum rt_err rt__first_step(const struct rt__problem *p, const double *x, double *step,
			   struct rt_error *err);
/* Covariance (unknowns x unknowns) of the unknowns at x, for sigma0 = 1, in the datum of the
 * steps: where places is all unknowns, the pseudo-inverse of the normal matrix.  RT_E_NUMERIC as
 * rt__solve. */
enum rt_err rt__covariance(const struct rt__problem *p, const double *x, double *covariance,
			   struct rt_error *err);

/* ---- network.c: readings between points as such a problem ---- */

#define RT__FIXED SIZE_MAX
#define RT__NONE  SIZE_MAX

/* A reading: lengths scaled as the network is, angles in degrees; coordinates less the middle of
 * their frame. */
struct rt__edge {
	const struct rt_reading *reading;
	enum rt_reading_kind kind;
	size_t from, to, at; /* points, or RT__NONE */
	size_t frame;	     /* of net->frame, or RT__NONE */
	size_t mate;	     /* the other coordinate of the same fix: set aside with it */
	double value, sigma;
	double said_sigma; /* sigma in metres or degrees */
	bool used;	   /* false: set aside */
};

/* What a receiver's coordinates are turned and shifted by: observed = R(turn) place + shift, three
 * unknowns.  A frame with fewer than two points says nothing and has no unknowns: it is closed,
 * and its readings do not count. */
struct rt__frame {
	int number; /* rt_reading's */
	double middle_x, middle_y;
	double turn, shift_x, shift_y; /* the start */
	size_t column;		       /* of turn among the unknowns; RT__NONE: closed */
};

/* Coordinates and distances here are centred and scaled so that the points lie about 1 from
 * their middle. */
struct rt__network {
	size_t points, edges, frames;
	size_t places;	 /* unknowns of points */
	size_t unknowns; /* and those of open frames after them */
	size_t used;	 /* edges that count */
	size_t datums;	 /* directions that the edges do not see: 3 with nothing fixed */
	double middle_x, middle_y, scale;
	const char **name;
	double *start;	/* 2 a point */
	size_t *column; /* of a point's x among the unknowns, or RT__FIXED */
	struct rt__edge *edge;
	struct rt__frame *frame;

	/* after rt__network_adjust, of the used edges */
	double *place;	    /* 2 a point */
	double *at;	    /* the unknowns there */
	double *step;	    /* of the unknowns: 0, or from there, of a linear adjustment */
	double *covariance; /* unknowns x unknowns */
	double sum;	    /* weighted sum of squares */
	size_t freedom;	    /* used edges less rank */

	double *sigma; /* of the used edges in order */
	double *x;     /* the unknowns */
	struct rt_arena *room;
};

/* Build from points and readings, judging both; *net starts zeroed: rt__network_free. */
enum rt_err rt__network_build(struct rt__network *net, const struct rt_points *points,
			      const struct rt_readings *readings, struct rt_error *err);
void rt__network_free(struct rt__network *net);
/* receiver_frames.c: the frames of the edges, each with the turn and shift it starts with. */
enum rt_err rt__frames_build(struct rt__network *net, struct rt_error *err);
/* The sigma of a reading whose distance or string is so long. */
double rt__sigma_over(const struct rt_reading *r, double line_m);
/* The usual sigma of a distance by tape. */
double rt__tape_sigma(double distance_m);
/* Set an edge and its mate aside, or back. */
void rt__edge_use(struct rt__network *net, size_t i, bool used);
/* Is it used, and does its frame say anything? */
bool rt__edge_counts(const struct rt__network *net, const struct rt__edge *e);
/* The points of an edge, three at most; of a coordinate its own and another of its frame. */
size_t rt__edge_points(const struct rt__network *net, const struct rt__edge *e, size_t out[3]);

/* Unknowns of the starting coordinates. */
void rt__network_start(const struct rt__network *net, double *x);
/* Where point p stands for unknowns x. */
void rt__network_place(const struct rt__network *net, const double *x, size_t p, double at[2]);

/* ---- observation_equations.c ---- */

/* An edge as it would be, and its derivatives by the unknowns that it hangs on. */
struct rt__row {
	double value;
	size_t n, column[9];
	double by[9];
};

/* At the unknowns x. */
struct rt__row rt__edge_row(const struct rt__network *net, const struct rt__edge *e,
			    const double *x);
/* What an edge would be with point p at `there`, all else at the start. */
double rt__edge_moved(const struct rt__network *net, const struct rt__edge *e, size_t p,
		      const double there[2]);
/* Difference of two values of an edge, an angle's the short way round. */
double rt__edge_less(const struct rt__edge *e, double a, double b);
/* The used edges as a problem; it borrows net.  Which frames are open, and how many directions
 * are free, is settled here. */
struct rt__problem rt__network_problem(struct rt__network *net);
/* Adjust the used edges from the start.  RT_E_NUMERIC when that does not settle, as with a
 * reading that is wrong by many metres. */
enum rt_err rt__network_adjust(struct rt__network *net, struct rt_error *err);
/* One step from the start, taken as it is: always possible, and exact enough to find the
 * reading that kept rt__network_adjust from settling. */
enum rt_err rt__network_adjust_linear(struct rt__network *net, struct rt_error *err);
/* Adjusted less observed. */
double rt__edge_residual(const struct rt__network *net, const struct rt__edge *e);
/* Covariance as adjusted of two edges that count, or of any with itself. */
double rt__edge_covariance(const struct rt__network *net, const struct rt__edge *a,
			   const struct rt__edge *b);

/* ---- datum.c ---- */

/* How many directions nothing sees: no fixed point, no coordinate in their frame. */
size_t rt__network_datums(const struct rt__network *net);
/* Those directions at x: rows over the unknowns, orthonormal over the points that `of` marks
 * (NULL: all that are not fixed). */
void rt__network_datum(const struct rt__network *net, const double *x, const bool *of,
		       double *rows);

/* ---- determinacy.c: is every peg fixed? ---- */

/* RT_OK when the used edges fix every point before anything is measured, else RT_E_NOFIX and
 * which points, and which readings would fix them. */
enum rt_err rt__network_fixed(struct rt__network *net, struct rt_error *err);

/* Is every point known well enough as adjusted?  That is cheaper, and leaves out mirror places. */
bool rt__network_holds(const struct rt__network *net);

/* What is known of each point. */
struct rt__survey {
	struct rt__network *net;
	struct rt_arena *room;
	double *x;	    /* unknowns at the start */
	double *covariance; /* unknowns x unknowns, at the start */
	double *sigma;
	double *worst; /* standard error of each point, in the direction known worst */
	bool *held;    /* fixed by the readings, or given as fixed */
	bool *mirror;  /* held but for a mirror place; its coordinates in mirrored */
	double *mirrored;
	size_t *set;	   /* of each point the last set it was found in, 0: none yet */
	bool *core, *best; /* while looking for the largest set */
};

/* ---- determinacy_words.c ---- */

/* RT_E_NOFIX: what is not held of a survey, and which readings would fix it. */
enum rt_err rt__tell_unfixed(struct rt__survey *s, struct rt_error *err);

/* ---- statistical_tests.c ---- */

/* Critical value of tau for f degrees of freedom, level alpha two-sided (Pope, 1976). */
double rt__tau_critical(double alpha, size_t f);

/* The value of chi-square with f degrees of freedom (1 or more) that has probability p below it. */
double rt__chi_square(double p, size_t f);

/* The sum of squares over which the chi-square test of sigma0 fails. */
double rt__sigma_limit(size_t freedom);

struct rt__tested {
	double residual, redundancy, w; /* of each edge, as in struct rt_adjusted_reading */
	bool suspect;
};

struct rt__search {
	enum rt_sigma_test test;
	enum rt_search_end end;
	double sigma0;
	bool linear;		 /* the last adjustment did not settle: it is one step */
	struct rt__tested *edge; /* in the network's arena */
	size_t *aside, asides;	 /* edges set aside one after the other, without their mates */
};

/* Adjust, by one step where that does not settle, and test every edge. */
enum rt_err rt__search_adjust(struct rt__network *net, struct rt__search *s, struct rt_error *err);
/* |w| over which a reading is a suspect. */
double rt__search_critical(const struct rt__network *net, const struct rt__search *s);
/* The used edge with the largest |w| that is checked at all; net->edges when none is. */
size_t rt__search_largest(const struct rt__network *net, const struct rt__tested *t);

/* ---- blunder_search.c ---- */

/* Adjust, and set blunders aside one at a time; then look whether two at once explain it better. */
enum rt_err rt__network_search(struct rt__network *net, struct rt__search *out,
			       struct rt_error *err);

/* ---- blunder_pairs.c ---- */

/* After a search one at a time: where that set aside several, or ended in doubt, two blunders may
 * have hidden each other.  Sets that pair aside instead where it alone explains the readings. */
enum rt_err rt__search_pairs(struct rt__network *net, struct rt__search *s, struct rt_error *err);

/* ---- rigid_fit.c: one layout on another ---- */

/* q = R p + shift with R a rotation by (cosine, sine). */
struct rt__placement {
	double cosine, sine, shift_x, shift_y;
	double sum; /* of squares */
};

/* The middle of the points (2 numbers each) that `in` marks (NULL: all); how many those are. */
size_t rt__middle(const double *p, size_t n, const bool *in, double middle[2]);
/* Place p on q (2 a point), over the points that `in` marks (NULL: all), by least squares. */
struct rt__placement rt__place(const double *p, const double *q, size_t n, const bool *in);
/* Offset of point i: where q stands less where p should, turned back into p's frame. */
void rt__offset(const struct rt__placement *t, const double *p, const double *q, size_t i,
		double off[2]);
/* Mark in `in` the largest set whose own placement keeps all of it within tolerance; ties go to
 * the smaller sum of squares.  Returns its size, 0 when not even two points agree. */
enum rt_err rt__fewest(const double *p, const double *q, size_t n, double tolerance, bool *in,
		       size_t *size, struct rt_error *err);

/* ---- adjust.c ---- */

/* The standard error in the direction known worst, of a point with such a covariance. */
double rt__worst_error(double xx, double xy, double yy);
/* a' C b, with C n x n. */
double rt__quadratic(const double *c, const double *a, const double *b, size_t n);

/* Is something wrong with the readings, and they cannot tell what? */
bool rt__in_doubt(const struct rt_adjustment *a);
/* ---- report_readings.c ---- */

/* Names in a sentence, with commas; after forty they are only counted. */
struct rt__told {
	char text[640];
	size_t n;
};
void rt__told_add(struct rt__told *told, const char *name);
/* The table of readings.  A receiver's fix is two rows, x and y. */
void rt__put_readings(struct rt_report *r, const struct rt_adjustment *a);
/* What is to be said of them; needs_person is set where readings are wrong or contradict each
 * other. */
void rt__notes_of_readings(struct rt_report *r, const struct rt_adjustment *a, bool feet);
extern const struct rt_record rt__reading_table;
/* Fields that the summaries of an adjustment and of a ring check share; `in` a row whose adjustment
 * stands there, of whose whole write_verdict is. */
/* clang-format off */
#define RT__OF_ADJUSTMENT(in, member) .offset = (in) + offsetof(struct rt_adjustment, member)
#define RT__SUMMARY_FIELDS(in, write_verdict) \
	{"readings", RT__OF_ADJUSTMENT(in, readings), .type = RT_SIZE}, \
	{"pegs", RT__OF_ADJUSTMENT(in, points), .type = RT_SIZE}, \
	{"degrees_of_freedom", .head = "redundant", RT__OF_ADJUSTMENT(in, degrees_of_freedom), \
	 .type = RT_SIZE}, \
	{"sigma0", RT__OF_ADJUSTMENT(in, sigma0), RT_NUMBERS(2)}, \
	{"verdict", .type = RT_OWN, .write = (write_verdict)}, \
	{"sigma_test", .head = "test of sigma0", RT__OF_ADJUSTMENT(in, test), \
	 RT_WORD_OF(sigma_test), .wide = true}, \
	{"set_aside", RT__OF_ADJUSTMENT(in, blunders), .type = RT_SIZE, .wide = true}
/* clang-format on */

#endif
