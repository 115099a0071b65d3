/* scoring: what its files share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SCORING_INTERNAL_H
#define RT_SCORING_INTERNAL_H

#include "../keying/internal.h"

#include <ringtrue/scoring.h>

/* More limits of what is counted exactly. */
#define RT__ERRORS_MOST		     1000
#define RT__JUDGES_MOST		     99
#define RT__MULTIPLIER_MOST_X1000000 INT64_C(999999999)
#define RT__POINTS_MOST_X100000	     INT64_C(60000000000) /* all judges' maxima together */
#define RT__PARTS_MOST		     INT64_C(2000000000) /* den of a struct rt_part */

/* Holds every product of a score. */
__extension__ typedef __int128 rt__wide;

/* ---- parts of a unit, which filled boxes make ---- */

/* *units and *part become larger by num / den (num >= 0, den > 0).  False when the parts are too
 * small to be counted exactly. */
bool rt__part_add(int64_t *units, struct rt_part *part, int64_t num, int64_t den);
/* Which of two parts is more: below, above or 0. */
int rt__part_compare(const struct rt_part *a, const struct rt_part *b);
/* The whole units in k times the part, rounded down; *rest (which may be NULL) is what is left. */
rt__wide rt__part_times(const struct rt_part *part, rt__wide k, struct rt_part *rest);
/* (num + k x part) / den, den > 0, rounded half up, or cut off. */
int64_t rt__round_with_part(enum rt_rounding how, rt__wide num, rt__wide k,
			    const struct rt_part *part, rt__wide den);

int64_t rt__greatest_divisor(int64_t a, int64_t b);

/* The boxes of a sheet that nobody keyed: how many, and those to fill with their coefficients (all,
 * and those of each group of items). */
struct rt__gaps {
	size_t empty, boxes;
	int64_t coefficients_x1000, group_x1000[RT_ITEM_GROUP_COUNT];
};

/* The mean of the other marks of a sheet, which fills its boxes: sum / marks, in hundredths,
 * whole where the rule says so; marks is 0 where there is none. */
void rt__filling_mean(const struct rt_class_marks *m, size_t entry, size_t judge, int64_t *sum_x100,
		      int64_t *marks);
/* Fill the boxes of a sheet where the rule does: add to it and to the entry's groups of
 * items. */
enum rt_err rt__fill(const struct rt_class_marks *m, const struct rt__gaps *gaps,
		     struct rt_result *result, size_t judge, struct rt_error *err);
/* Whether the rule filled a box. */
bool rt__is_filled(const struct rt_class_marks *m, const struct rt_result *result, size_t judge,
		   size_t item);
/* RT_E_INPUT: the parts of an entry's points are too small to be counted exactly. */
enum rt_err rt__fail_inexact(const struct rt_result *result, struct rt_error *err);

/* ---- scores ---- */

/* Set `counted` of an entry's judges: their percentages, with those too far apart moved. */
void rt__move_judges(const struct rt_rule *rule, struct rt_result *result, size_t judges,
		     int percent_digits);
/* Whether a judge is too far from the mean of the others: -1 below, 1 above, 0 not. */
int rt__judge_apart(const struct rt_rule *rule, const struct rt_result *result, size_t judges,
		    size_t judge, int percent_digits);
/* The percentage of a judge. */
double rt__judge_percent(const struct rt_results *r, const struct rt_result *result, size_t judge);
/* The judge whom a tie-break looks at, or the number of judges: nobody. */
size_t rt__tie_judge(const struct rt_judges *judges, const struct rt_rule *rule, size_t step);
/* The item that a tie-break looks at, or the number of items: none. */
size_t rt__tie_item(const struct rt_items *items, const struct rt_rule *rule, size_t step);
/* What a tie-break looks at, larger for the better, and a part of one more; INT64_MIN where it is
 * one judge's percentage and an entry has not that sheet. */
int64_t rt__tie_worth(const struct rt_results *r, const struct rt_result *result, size_t step,
		      struct rt_part *part);

/* Find the parts that the judges judge. */
enum rt_err rt__parts_find(struct rt_results *r, struct rt_error *err);
/* Whether a class can be scored; sets the maximum of one sheet. */
enum rt_err rt__class_check(struct rt_results *r, struct rt_error *err);
/* Read the sheets of an entry and work out its score; result->entry and ->judge are set. */
enum rt_err rt__score(const struct rt_results *r, struct rt_result *result, struct rt_error *err);

/* What the sheets and the office say of an entry's errors of course; -1 where nothing. */
struct rt__errors {
	int64_t president;   /* the president's line */
	int64_t least, most; /* of all lines */
	int64_t sheets;	     /* the president's, else the most */
	int64_t announced;   /* the office's latest number */
	int64_t counts;	     /* what counts; 0 where nobody says anything */
};

void rt__errors_of(const struct rt_class_marks *m, size_t entry, struct rt__errors *out);
/* Put errors and penalties, and what they cost, into the result; too many errors eliminate. */
enum rt_err rt__take_errors(const struct rt_class_marks *m, size_t entry, struct rt_result *result,
			    struct rt_error *err);

/* Place everybody, and sort the results into the order they are read out in. */
enum rt_err rt__place_entries(struct rt_results *r, struct rt_error *err);
/* Write the notes. */
enum rt_err rt__notes(struct rt_results *r, struct rt_error *err);
/* Those about boxes that were filled, judges who were away or too far apart, and what an official
 * decided.  False when memory is out. */
bool rt__notes_of_judges(struct rt_results *r);

/* ---- sentences ---- */

/* Cases named one after the other: "14 C, 15 B and 3 more".  Start it zeroed. */
struct rt__listing {
	char text[600];
	size_t named, cases;
};

#define RT__LISTED_MOST 12 /* so many cases are named, the others are counted */

/* Add one case; it is only counted when the list is long enough or has no room for it. */
void rt__list_case(struct rt__listing *list, const char *fmt, ...) RT_PRINTF(2, 3);
/* What follows the named ones: "" or " and 3 more". */
const char *rt__more(const struct rt__listing *list, char *out, size_t size);
/* Add a sentence to the notes; false when memory is out. */
bool rt__note(struct rt_results *r, const char *fmt, ...) RT_PRINTF(2, 3);
/* A note about listed cases: "HEAD: 14 C, 15 B and 3 more." */
bool rt__note_cases(struct rt_results *r, const char *head, const struct rt__listing *list);

/* What is taken off or added in the unit of the rule; points beside per cent are told apart. */
int64_t rt__penalty_in_unit(const struct rt_rule *rule, const struct rt_result *result);

/* Where a judge of the class sits. */
const char *rt__position(const struct rt_results *r, size_t judge);
/* The place of a result's entry in the class's list. */
size_t rt__entry_index(const struct rt_results *r, const struct rt_result *result);

/* ---- rank_correlation.c: NAN for fewer than RT__RANKED_LEAST, or when one side is all equal ----
 */

#define RT__RANKED_LEAST 3

/* Spearman's coefficient; room for 2 n ranks. */
double rt__spearman(const double *x, const double *y, size_t n, double *room);
/* Kendall's tau-b. */
double rt__kendall(const double *x, const double *y, size_t n);

/* ---- tables of reports, for the list of them ---- */

extern const struct rt_record rt__panel_table, rt__pairs_table, rt__movements_table,
	rt__marks_apart_table, rt__sheets_apart_table, rt__changes_table, rt__posting_table;

#endif
