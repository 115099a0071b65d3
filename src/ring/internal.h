/* What the files of this room share with each other and with the tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_RING_INTERNAL_H
#define RT_RING_INTERNAL_H

#include <ringtrue/ring.h>

/* ---- kinds.c ---- */

/* RT_E_NOTFOUND for a name that is no peg's: the nearest name, or all of them. */
enum rt_err rt__no_such_peg(const struct rt_pegs *pegs, const char *name, struct rt_error *err);
/* The next peg from `from` in the direction of y (or of x), sign +1 or -1, on the line through
 * it that is parallel to that axis; NULL when there is none. */
const struct rt_peg *rt__peg_towards(const struct rt_pegs *pegs, const struct rt_peg *from,
				     bool along_y, int sign);

/* ---- observe.c ---- */

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

/* ---- solve.c: nonlinear least squares ---- */

enum rt__way {
	RT__QR, /* datum rows under the design matrix, then QR */
	RT__SVD /* pseudo-inverse by singular values: needs no datum rows, ten times slower */
};

/* Minimise the sum of (residual / sigma)^2 over the unknowns x.  Matrices are row by row. */
struct rt__problem {
	size_t rows, unknowns;
	const double *sigma; /* of each row; NULL: 1 */
	/* residual[rows] (model less observed) at x, and its derivatives, rows x unknowns;
	 * jacobian may be NULL. */
	void (*model)(const void *data, const double *x, double *residual, double *jacobian);
	/* The directions of x that no residual sees (`datums` of them, orthonormal, a row each)
	 * at x, so that each step stays out of them.  NULL when datums is 0. */
	size_t datums;
	void (*datum)(const void *data, const double *x, double *rows);
	const void *data;
	enum rt__way way;
};

/* Gauss-Newton from x, which becomes the solution; a step that makes things worse is halved.
 * *sum is the sum of squares there.  RT_E_NUMERIC when it does not settle (x and *sum are then
 * as far as it came), or when the datum rows leave the unknowns undetermined (RT__QR only). */
enum rt_err rt__solve(const struct rt__problem *p, double *x, double *sum, struct rt_error *err);
/* The step that Gauss-Newton takes from x. */
enum rt_err rt__first_step(const struct rt__problem *p, const double *x, double *step,
			   struct rt_error *err);
/* Covariance (unknowns x unknowns) of the unknowns at x, for sigma0 = 1: the pseudo-inverse of
 * the normal matrix.  *rank: of the design matrix, counted by singular values with RT__SVD. */
enum rt_err rt__covariance(const struct rt__problem *p, const double *x, double *covariance,
			   size_t *rank, struct rt_error *err);

/* ---- network.c: distances between points as such a problem ---- */

#define RT__FIXED SIZE_MAX

struct rt__edge {
	size_t from, to; /* points */
	double distance, sigma;
	bool used; /* false: set aside */
};

/* Coordinates and distances here are centred and scaled so that the points lie about 1 from
 * their middle. */
struct rt__network {
	size_t points, edges, unknowns, used;
	size_t datums; /* 3; 1 with one place fixed, 0 with more */
	double middle_x, middle_y, scale;
	const char **name;
	double *start;	/* 2 a point */
	size_t *column; /* of a point's x among the unknowns, or RT__FIXED */
	struct rt__edge *edge;
	double fixed_x, fixed_y; /* where the first fixed point stands, if there is one */

	/* after rt__network_adjust, of the used edges */
	double *place;	    /* 2 a point */
	double *shift;	    /* 2 a point: 0, or the step from place of a linear adjustment */
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
/* The used edges as a problem; it borrows net. */
struct rt__problem rt__network_problem(struct rt__network *net);
/* Unknowns of the starting coordinates. */
void rt__network_start(const struct rt__network *net, double *x);
/* Where point p stands for unknowns x. */
void rt__network_place(const struct rt__network *net, const double *x, size_t p, double at[2]);
/* The directions that distances do not see: rows over the points that `of` marks (NULL: all
 * that are not fixed), orthonormal. */
void rt__network_datum(const struct rt__network *net, const double *x, const bool *of,
		       double *rows);
/* Adjust the used edges from the start.  RT_E_NUMERIC when that does not settle, as with a
 * reading that is wrong by many metres. */
enum rt_err rt__network_adjust(struct rt__network *net, struct rt_error *err);
/* One step from the start, taken as it is: always possible, and exact enough to find the
 * reading that kept rt__network_adjust from settling. */
enum rt_err rt__network_adjust_linear(struct rt__network *net, struct rt_error *err);
/* Adjusted less observed. */
double rt__edge_residual(const struct rt__network *net, const struct rt__edge *e);
/* Unit vector from the edge's `from` to its `to` at places (2 a point), and the distance. */
double rt__edge_direction(const struct rt__edge *e, const double *place, double u[2]);
/* Covariance of the adjusted lengths of two edges. */
double rt__edge_covariance(const struct rt__network *net, const struct rt__edge *a,
			   const struct rt__edge *b);

/* ---- fixed.c: is every peg fixed? ---- */

/* RT_OK when the used edges fix every point before anything is measured, else RT_E_NOFIX and
 * which points, and which readings would fix them. */
enum rt_err rt__network_fixed(struct rt__network *net, struct rt_error *err);

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

/* ---- fixed_words.c ---- */

/* RT_E_NOFIX: what is not held of a survey, and which readings would fix it. */
enum rt_err rt__tell_unfixed(struct rt__survey *s, struct rt_error *err);

/* ---- blunder.c: tests and search ---- */

/* Critical value of tau for f degrees of freedom, level alpha two-sided (Pope, 1976). */
double rt__tau_critical(double alpha, size_t f);

struct rt__tested {
	double residual, redundancy, w; /* of each edge, as in struct rt_adjusted_reading */
	bool suspect;
};

struct rt__search {
	enum rt_sigma_test test;
	enum rt_search_end end;
	double sigma0;
	struct rt__tested *edge; /* in the network's arena */
};

/* Adjust, and set blunders aside one at a time. */
enum rt_err rt__network_search(struct rt__network *net, struct rt__search *out,
			       struct rt_error *err);

/* ---- fit.c: one layout on another ---- */

/* q = R p + shift with R a rotation by (cosine, sine). */
struct rt__placement {
	double cosine, sine, shift_x, shift_y;
	double sum; /* of squares */
};

/* Place p on q (2 a point), over the points that `in` marks (NULL: all), by least squares. */
struct rt__placement rt__place(const double *p, const double *q, size_t n, const bool *in);
/* Offset of point i: where q stands less where p should, turned back into p's frame. */
void rt__offset(const struct rt__placement *t, const double *p, const double *q, size_t i,
		double off[2]);
/* Mark in `in` the largest set whose own placement keeps all of it within tolerance; ties go to
 * the smaller sum of squares.  Returns its size, 0 when not even two points agree. */
enum rt_err rt__fewest(const double *p, const double *q, size_t n, double tolerance, bool *in,
		       size_t *size, struct rt_error *err);

/* ---- check.c ---- */

/* a' C b, with C n x n. */
double rt__quadratic(const double *c, const double *a, const double *b, size_t n);

/* ---- judge.c: verdicts and moves ---- */

/* Is something wrong with the readings, and they cannot tell what? */
bool rt__in_doubt(const struct rt_adjustment *a);
/* The verdict and move of each peg, whose offset and standard error are there, and of the
 * whole; pegs are all of the kind. */
enum rt_err rt__judge(struct rt_ring_check *check, const struct rt_pegs *pegs,
		      struct rt_error *err);

/* ---- stretch.c ---- */

/* Find check->stretch; where each measured peg should stand, and where it does (2 a peg). */
enum rt_err rt__find_stretch(struct rt_ring_check *check, const double *should,
			     const double *stands, struct rt_error *err);

/* ---- words.c ---- */

/* ---- report.c, report_check.c: columns of a table; wide: left out of text at 80 columns ---- */

#define RT__TEXT(column, title, is_wide)                                                           \
	{                                                                                          \
		.name = column, .head = title, .type = RT_TEXT, .wide = is_wide                    \
	}
#define RT__COUNT(column, title, is_wide)                                                          \
	{                                                                                          \
		.name = column, .head = title, .type = RT_INT, .wide = is_wide                     \
	}
#define RT__YES_NO(column, title, is_wide)                                                         \
	{                                                                                          \
		.name = column, .head = title, .type = RT_BOOL, .wide = is_wide                    \
	}
#define RT__NUMBER(column, title, places, is_wide)                                                 \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .decimals = places,                \
		.wide = is_wide                                                                    \
	}
#define RT__METRES(column, title, places, is_wide)                                                 \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .unit = RT_METRE,                  \
		.decimals = places, .wide = is_wide                                                \
	}

#endif
