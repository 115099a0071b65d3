/* scoring: the results of a class, how its judges agreed, and what was posted.
 *
 * Everything is exact: points are hundred thousandths; one rounding, half up, happens where the
 * rule says so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SCORING_H
#define RINGTRUE_SCORING_H

#include <ringtrue/keying.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The tables of this header's reports, NULL behind them. */
RT_API extern const struct rt_record *const rt_scoring_tables[];

/* ---- results ----------------------------------------------------------------------------- */

/* A part num/den of one unit more, 0 <= num < den, which only a mean that fills a box makes;
 * without one den is 0 or 1. */
struct rt_part {
	int64_t num, den;
};

/* A sum of points: hundred thousandths, and a part of one more. */
struct rt_sum {
	int64_t x100000;
	struct rt_part part;
};

/* One judge's view of one entry. */
struct rt_judge_result {
	bool away;		/* the judge was away: not expected; the rest is 0 */
	bool in;		/* a box of this sheet is keyed; else the rest is 0 */
	int64_t raw_x100000;	/* sum of marks times coefficients, before anything is taken off */
	int64_t points_x100000; /* less errors and penalties where the rule takes them here */
	struct rt_part part;	/* of a hundred thousandth, to be added to both */
	size_t filled;		/* boxes that the rule filled */
	int64_t maximum_x100000; /* of the boxes of this sheet */
	int64_t percent;	/* of that, in units of 10^-judge_percent_digits */
	int64_t counted; /* what counts for the entry: percent, unless moved as too far apart */
	size_t place;	 /* within the division by this judge, equal ones share; 0: none */
};

/* One entry's result.  judge has as many elements as the class has judges. */
struct rt_result {
	const struct rt_entry *entry;
	const char *division;  /* the entry's, else the class's; NULL: none */
	enum rt_status status; /* the entry's, or eliminated by the number of errors */
	const char *status_why;
	size_t place;	      /* 0: not placed */
	bool scored;	      /* there is a score: at least one sheet is in */
	int64_t score;	      /* in units of 10^-score_decimals of the rule */
	int64_t percent;      /* in units of 10^-percent_decimals */
	int64_t errors;	      /* errors of course that count */
	int64_t error_x100;   /* what they cost, in the rule's unit (points, percent, penalties) */
	int64_t points_x100;  /* the sum of the office's penalties */
	int64_t penalty_x100; /* the two together; where errors are in percent, of two units */
	struct rt_sum group[RT_ITEM_GROUP_COUNT]; /* of all judges, by the group of the items */
	int64_t technical, artistic;		  /* the halves of a freestyle: rt_results.halves */
	int64_t decided;       /* by an official, between equal ones: n the best of n; 0: not */
	const char *parted_by; /* words of the tie-break that gave the place; NULL: none */
	size_t parted_at;      /* which of the rule's that is */
	struct rt_judge_result *judge;
	size_t expected;  /* judges who were not away */
	size_t sheets;	  /* how many of their sheets are in */
	size_t boxes;	  /* on the sheets that are in */
	size_t empty;	  /* those that nobody keyed or filled */
	size_t filled;	  /* boxes that the rule filled */
	size_t differing; /* boxes and lines whose keyings differ */
	size_t single;	  /* boxes and lines with one keying only */
};

/* The results of a class in the order they are read out: by division (none first, then by
 * name), in it the placed ones, equal places by number, scored hors concours, not yet marked,
 * then each status in its order, by number.  single_keying, missing and differ look only at
 * entries that neither left nor were sent out: the others need no marks. */
struct rt_results {
	const struct rt_class_marks *of;
	struct rt_result *at;
	size_t n;
	int64_t maximum_x100000;  /* of one sheet with every item */
	/* The part of the work that each judge judges, by the place of its first judge.  Judges
	 * who mark an item in common are of one part, so there is one as a rule; where technique
	 * and quality are marked by different judges there are two. */
	const size_t *part;
	size_t parts;
	int judge_percent_digits; /* the unit of rt_judge_result.percent */
	bool single_keying;	  /* some box has one keying only */
	bool missing;		  /* a box or sheet is missing */
	bool differ;		  /* keyings differ somewhere */
	/* The test has artistic marks.  Then a result that is scored has two halves, technical (all
	 * other marks) and artistic: what the marks of the sheets that are in come to, in per cent
	 * of their maximum with percent_decimals, before anything is taken off. */
	bool halves;
	bool complete;		 /* added up: every sheet in, no empty box, and both keyings agree,
				  * or the one with another person's hand total */
	const char *state;	 /* in words: "running", "added up"; the caller may say "posted" */
	struct rt_strings notes; /* what a person should look at, in plain sentences */
	struct rt_arena *text;
};

/* Score and place a class.  Pure and exact.
 *
 * A sheet counts once a box of it is keyed; the mean and the percentage are over the sheets
 * that are in, against the whole maximum of each, which is of the items that its judge marks.
 * Where judges mark different parts of the work, each part is the mean of its judges, and the
 * entry's percentage the mean of the parts.  Errors of course that count: the president's
 * line, else the largest of the other sheets; the office's announced number where that is
 * larger.  Points may fall below zero when more is taken off than was earned: nothing is cut
 * off at zero (that would make entries equal that are not), a note says so.
 *
 * RT_E_INPUT when there is no judge or item, an item is marked by no judge of the class, a judge
 * marks no item, the judges judge different parts under a rule that moves judges, or some items
 * only where a multiplier is printed, the maximum is 0 or beyond what is counted exactly
 * (600,000 points over all judges), the printed multiplier is not below 1000, the rule cannot
 * be scored, a mark is beyond ten, or an entry's penalties or errors are beyond 1000;
 * RT_E_NOMEM.  m and its lists must outlive the results. */
RT_API enum rt_err rt_results_make(struct rt_results *out, const struct rt_class_marks *m,
				   struct rt_error *err);
RT_API void rt_results_free(struct rt_results *r);
/* Whether two results are placed together. */
RT_API bool rt_same_division(const struct rt_result *a, const struct rt_result *b);
/* How an entry stands, in words: its status, or of one that is still in the class
 * hors concours; entered, until a sheet is in; running, while a sheet is not in or has an empty
 * box; finished. */
RT_API const char *rt_result_words(const struct rt_result *result);
/* Tables summary, results and judges (a row a sheet that is in), and the notes; sets
 * needs_person when keyings differ.
 *
 * In results, status is rt_result_words; penalty_points is what errors and the office's points
 * cost together, in the rule's unit.  Where the rule takes errors in percent it is the per cent
 * of the errors only, and points_off the points that the office takes off every total; under
 * other rules points_off is null.  technical and artistic are null unless there are halves.
 * parted_by is the rule's own word for the tie-break. */
RT_API void rt_results_report(struct rt_report *report, const struct rt_results *r);

/* ---- how the judges agreed --------------------------------------------------------------- */

/* One judge beside the mean of the others of each sheet (then other is the judge itself), or
 * beside one other; over the entries that both marked, and that neither left nor were sent out.
 * NAN where there is nothing to tell. */
struct rt_judge_view {
	const struct rt_judge *judge, *other;
	size_t sheets;	       /* entries compared */
	double mean_percent;   /* of this judge */
	double spread_percent; /* standard deviation of the same, with n - 1 */
	double above_percent;  /* mean of this judge less the mean of the other view */
	double spearman;       /* rank correlation, equal ones sharing ranks (C. Spearman, 1904) */
	double kendall;	       /* tau-b (M. G. Kendall, 1945) */
	double widest_percent; /* the largest difference on one entry */
};

/* A movement over all entries that two judges or more marked. */
struct rt_item_view {
	const struct rt_item *item;
	size_t entries;
	double mean_mark, mean_gap; /* of all judges; highest less lowest */
	int64_t widest_x100;
};

/* A movement of an entry: the judges with the lowest and the highest mark. */
struct rt_mark_gap {
	const struct rt_entry *entry;
	const struct rt_item *item;
	const struct rt_judge *low, *high;
	int64_t low_x100, high_x100, gap_x100;
	int64_t sum_x100; /* of all marks */
	size_t marks;
};

struct rt_mark_gaps RT_LIST(struct rt_mark_gap);

/* A sheet far from the others of the same entry. */
struct rt_sheet_apart {
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	double percent, others_percent, above_percent;
};

struct rt_sheets_apart RT_LIST(struct rt_sheet_apart);

struct rt_judging {
	const struct rt_results *of;
	int gap_x100;
	double apart_percent;
	struct rt_judge_view *judge; /* each against the others */
	size_t judges;
	struct rt_judge_view *pair; /* each two once */
	size_t pairs;
	struct rt_item_view *item; /* in the order of the sheet */
	size_t items;
	struct rt_mark_gaps gaps;     /* wider than gap_x100, the widest first */
	struct rt_sheets_apart apart; /* apart_percent or more from the mean of the others */
	struct rt_arena *text;
};

/* When no limits are given (office habit, no rule): marks more than 2 apart, and 5 per cent
 * points, the figure that championships have used (from memory). */
#define RT_GAP_X100	 200
#define RT_APART_PERCENT 5.0

/* Compare the judges of a class.  r must outlive it.  RT_E_NOMEM. */
RT_API enum rt_err rt_judging_make(struct rt_judging *out, const struct rt_results *r, int gap_x100,
				   double apart_percent, struct rt_error *err);
RT_API void rt_judging_free(struct rt_judging *j);
/* Tables panel, pairs, movements, marks_apart and sheets_apart, and what they come to in words. */
RT_API void rt_judging_report(struct rt_report *report, const struct rt_judging *j);

/* ---- posting ----------------------------------------------------------------------------- */

/* What is posted of the sheet of one judge, with the decimals that are printed. */
struct rt_posted_sheet {
	int64_t entry; /* whose, by its id */
	const char *position, *points, *percent;
	size_t place; /* by this judge; 0: not placed */
};

struct rt_posted_sheets RT_LIST(struct rt_posted_sheet);

/* What is posted of one entry; numbers with the decimals that are printed. */
struct rt_posted {
	int64_t entry; /* its id */
	int64_t number;
	const char *driver, *horses, *club; /* as they are known now; club NULL: none */
	const char *division;		    /* NULL: none */
	size_t place;			    /* 0: not placed */
	const char *status;		    /* as rt_result_words */
	const char *why;		    /* it stands so; NULL: not said */
	bool starter;			    /* neither away nor hors concours */
	const char *score, *percent;	    /* NULL: none */
	const char *technical, *artistic;   /* the halves of a freestyle, in per cent; NULL: none */
	const char *added; /* what errors and penalties cost, in the rule's unit; NULL: nothing */
	const char *off;   /* points off every total beside them; NULL: none */
	const char *parted_by; /* words of the tie-break that gave the place; NULL: none */
};

struct rt_posted_list RT_LIST(struct rt_posted);

/* Results as they are posted: all that a paper tells of them, in the order they are read out. Times
 * are YYYY-MM-DD HH:MM:SS, so that they compare as text. */
struct rt_posting {
	int64_t id;	 /* its row in a show file */
	int64_t version; /* 1 at first; more: corrected; 0: not posted */
	const char *who;
	const char *at;	   /* objections run from then */
	const char *until; /* to then; afterwards the results are final */
	const char *unit;  /* of the scores: "%", "penalties" */
	struct rt_posted_list places;
	struct rt_posted_sheets sheets; /* by entry, then in the order of the judges */
	struct rt_strings notes;
};

struct rt_postings RT_LIST(struct rt_posting);

/* What would be posted of the results: version 0, by nobody.  It stands alone but for the strings
 * of the class, which must outlive it.  RT_E_NOMEM. */
RT_API enum rt_err rt_posting_make(struct rt_posting *out, const struct rt_results *r,
				   struct rt_error *err);
RT_API void rt_posting_free(struct rt_posting *posting);
/* What is posted of an entry, by its id; NULL: it is not in there. */
RT_API const struct rt_posted *rt_posted_of(const struct rt_posting *posting, int64_t entry);
/* Whether two are placed together. */
RT_API bool rt_posted_together(const struct rt_posted *a, const struct rt_posted *b);
/* How a posting stands at `when`: "provisional until 19:00", "final". */
RT_API void rt_posting_state(const struct rt_posting *posting, const char *when, char *out,
			     size_t size);
/* Table `posting`: {version, by, at, until, state}, one row. */
RT_API void rt_posting_report(struct rt_report *report, const struct rt_posting *posting,
			      const char *when);
/* Tables for a paper: `placed` for each division (its title the division) {place, number, driver,
 * horses, club, judges, technical, artistic, added, off, percent, score}, where percent is null
 * unless scores are in another unit; `others`, who is not placed. */
RT_API void rt_posting_paper(struct rt_report *report, const struct rt_posting *posting);

/* ---- what papers show ---------------------------------------------------------------------- */

/* What differs between a posting and the results now; NULL: it was, or is, not there. */
struct rt_posted_change {
	int64_t number;
	const char *what, *was, *now;
};

struct rt_posted_changes RT_LIST(struct rt_posted_change);

/* The results of a class as papers show them: those of the posting in force, or as they are now. */
struct rt_results_shown {
	const struct rt_results *results;
	const struct rt_posting *posted;  /* the last one; NULL: none */
	struct rt_posting now;		  /* what would be posted */
	struct rt_posted_changes changes; /* from the one to the other */
	bool as_now;			  /* shown although something is posted */
};

/* What papers show of results; as_now: as they are now in any case.  results and posted (NULL:
 * nothing is posted) must outlive it.  RT_E_NOMEM. */
RT_API enum rt_err rt_shown_make(struct rt_results_shown *out, const struct rt_results *results,
				 const struct rt_posting *posted, bool as_now,
				 struct rt_error *err);
RT_API void rt_shown_free(struct rt_results_shown *shown);
/* The posting, or what would be posted. */
RT_API const struct rt_posting *rt_shown_posting(const struct rt_results_shown *shown);
/* What a paper says at its head, where it does not show what is posted and holds; NULL: nothing. */
RT_API const char *rt_shown_band(const struct rt_results_shown *shown, char *out, size_t size);
#define RT_BAND_BYTES 120
/* Note that nothing is posted, or what has changed since, which a person has to see. */
RT_API void rt_shown_note(struct rt_report *report, const struct rt_results_shown *shown);
/* Table `changes`, a row for each; not made where there is none. */
RT_API void rt_shown_changes(struct rt_report *report, const struct rt_results_shown *shown);

#ifdef __cplusplus
}
#endif
#endif
