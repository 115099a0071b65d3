/* footing: the heights of a ring's pegs, and how far it falls.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_FOOTING_H
#define RINGTRUE_FOOTING_H

#include <ringtrue/report.h>
#include <ringtrue/ring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- heights --------------------------------------------------------------------------------- */

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

RT_API extern const struct rt_record rt_height_record;

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

RT_API extern const struct rt_record rt_footing_rule_record;

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
enum rt_footing_verdict { RT_FOOTING_VERDICTS(RT_ENUM_CODE) };
RT_ENUM_WORDS(footing_verdict);

/* A side, the centreline, a diagonal, or the line between letters that face each other: how far
 * its highest measured peg lies above its lowest. */
struct rt_footing_line {
	const char *what;
	struct rt_peg from, to; /* the highest and the lowest; the ends where all are level */
	double length_m, fall_m, fall_percent, se_m;
	double limit_m;
	bool across; /* from side to side; else along or on a diagonal */
	bool whole;  /* both its ends were measured */
	enum rt_footing_verdict verdict;
};

#define RT_LIES(X) X(RT_LIES_EVEN, "even") X(RT_LIES_HUMP, "hump") X(RT_LIES_HOLLOW, "hollow")
enum rt_lies { RT_LIES(RT_ENUM_CODE) };
RT_ENUM_WORDS(lies);

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
/* The tables of this room's reports; NULL after the last. */
RT_API extern const struct rt_record *const rt_footing_tables[];
/* Append the tables of a footing to a report (started zeroed); feet: lengths in words and notes are
 * told in feet and inches, for a text in feet.  needs_person is set when a line is not good.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_footing_report(struct rt_report *r, const struct rt_footing *footing,
				     bool feet, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
