/* keying: the marks of a class as they are keyed, and what they are checked by.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_KEYING_H
#define RINGTRUE_KEYING_H

#include <ringtrue/office.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The tables of this header's reports, NULL behind them. */
RT_API extern const struct rt_record *const rt_keying_tables[];

/* ---- marks ------------------------------------------------------------------------------- */

#define RT_KEYINGS 2
#define RT_NO_MARK (-1)

/* A row of a marks file, as it is written there. */
struct rt_mark_cells {
	const char *class_name;
	int64_t number;
	const char *judge, *item, *mark, *remark;
};

RT_API extern const struct rt_record rt_mark_record;

/* One box of a sheet: what each keying says, in hundredths, or RT_NO_MARK. */
struct rt_box {
	int64_t keyed_x100[RT_KEYINGS];
	/* The office says that the judge left it empty and cannot be asked: filled as the rule
	 * says while nobody keys a mark. */
	bool missing;
};

/* The mark that is `ten` out of ten; a box holds 0 to this. */
#define RT_MARK_MOST_X100 1000

/* The lines below the boxes of a sheet, by keying: how many errors of course it shows, and
 * the sum a person wrote on it (hundred thousandths); -1 where not keyed. */
struct rt_sheet_lines {
	int64_t errors[RT_KEYINGS];
	int64_t total_x100000[RT_KEYINGS]; /* one keying is enough */
	bool away; /* the judge was away: nothing of this sheet is expected or counts */
	/* It is known that who said this total keyed no box of the sheet: rt_totals_by_others. */
	bool total_by_other[RT_KEYINGS];
};

#define RT_PENALTY_MOST_X100 50000 /* of an entry together, in a show file */

/* What the office adds to an entry: points (hundredths; negative takes some off again), or the
 * number of errors of course as announced (the latest row counts; -1: no such), or that it is
 * eliminated, which its status says too. */
struct rt_penalty {
	int64_t id; /* its row in a show file */
	int64_t number;
	int64_t points_x100;
	int64_t errors; /* -1: not a row about errors */
	bool eliminated;
	const char *article, *why, *who, *when; /* NULL: none */
	int64_t undone; /* the row that takes it back; 0: it holds.  Scored are those that hold */
	struct rt_reason undoing;
};

struct rt_penalties RT_LIST(struct rt_penalty);

/* One entry's place in what an official decided between equal ones; entries with the same
 * `decision` were decided together, rank 1 the best.  Of several decisions on the same entries
 * the one with the largest number counts. */
struct rt_decision {
	int64_t decision;
	int64_t number;
	int64_t rank;
	const char *who, *why, *when; /* NULL: none */
};

struct rt_decisions RT_LIST(struct rt_decision);

/* All that is scored in a class; the lists belong to somebody else, the two arrays to this.
 * box is entries x judges x items, lines is entries x judges, in the lists' order. */
struct rt_class_marks {
	const struct rt_class *class_;
	const struct rt_test *test;
	const struct rt_rule *rule;
	const struct rt_items *items; /* of this test only, in sheet order */
	const struct rt_entries *entries;
	const struct rt_penalties *penalties;
	const struct rt_decisions *decisions; /* NULL: none */
	const struct rt_judge_sheets *judged; /* NULL: no judge was replaced */
	struct rt_box *box;
	struct rt_sheet_lines *lines;
};

/* Make the arrays for the lists that are set, every box empty; frees nothing of an earlier
 * state. */
RT_API enum rt_err rt_class_marks_make(struct rt_class_marks *m, struct rt_error *err);
/* Release the two arrays; the lists stay their owner's. */
RT_API void rt_class_marks_free(struct rt_class_marks *m);
/* The box of an entry, judge and item by their places in the lists; never NULL. */
RT_API struct rt_box *rt_class_marks_box(const struct rt_class_marks *m, size_t entry, size_t judge,
					 size_t item);
/* Whether a judge of the class marks an item: else the box is no box of the sheet. */
RT_API bool rt_class_marks_asked(const struct rt_class_marks *m, size_t judge, size_t item);
/* The mark that counts in a box, in hundredths: what both keyings say, or the one there is;
 * RT_NO_MARK when empty or when the keyings differ (*differ, which may be NULL, tells). */
RT_API int rt_box_mark_x100(const struct rt_box *box, bool *differ);

/* ---- marks as they were keyed ------------------------------------------------------------ */

/* One version of a box or of a line, and who keyed it.  A later version stands behind the
 * earlier ones, whatever the clock said. */
struct rt_mark_version {
	int64_t entry, judge, item; /* their ids; item is 0 of a line */
	enum rt_mark_kind kind;
	int keying;	    /* 1 or 2 */
	int64_t version;    /* from 1 */
	int64_t value; /* hundredths; errors of course; hundred thousandths of a total; RT_NO_MARK: it
			* was emptied, as the sheet is another number's */
	const char *remark; /* NULL: none */
	int64_t pass;	    /* rises with every pass that was begun */
	const char *who, *when, *source, *why; /* of its pass; NULL: none */
};

/* By entry and judge, in these in sheet order, keying, version. */
struct rt_mark_versions RT_LIST(struct rt_mark_version);

/* The source of a pass that settles or corrects a mark: who did that has not keyed the sheet. */
#define RT_SOURCE_FIX "mark fix"

/* The latest version of a box or line in a keying, or NULL when it is empty there. */
RT_API const struct rt_mark_version *rt_mark_latest(const struct rt_mark_versions *versions,
						    int64_t entry, int64_t judge,
						    enum rt_mark_kind kind, int64_t item,
						    int keying);
/* The number of the latest version of a box or line, one that emptied it too; 0: none was ever. */
RT_API int64_t rt_mark_seen(const struct rt_mark_versions *versions, int64_t entry, int64_t judge,
			    enum rt_mark_kind kind, int64_t item, int keying);
/* A row by `who`, among those that keyed boxes of the sheet in this keying (0: in any) and not
 * only fixed them; NULL: there is none. */
RT_API const struct rt_mark_version *rt_keyed_by(const struct rt_mark_versions *versions,
						 int64_t entry, int64_t judge, int keying,
						 const char *who);
/* Set total_by_other of every sheet, from all versions of the class (or of some entries: the
 * others are left alone). */
RT_API void rt_totals_by_others(struct rt_class_marks *m, const struct rt_mark_versions *versions);

/* ---- keying a sheet ---------------------------------------------------------------------- */

/* A mark as it is typed: 6.5 or 6,5; without a point 65 is 6.5, 625 is 6.25, 7 is 7.0, 10 is 10.0
 * and so is 100.  false when it is none of 0 to 10 in the item's steps. */
RT_API bool rt_mark_typed(const char *typed, int64_t step_x100, int64_t *mark_x100);
/* What rt_mark_typed accepts, in words. */
RT_API void rt_mark_accepted(int64_t step_x100, char *out, size_t size);
/* The errors of course on a sheet as typed: a whole number, 0 to 9. */
#define RT_SHEET_ERRORS_MOST 9
RT_API bool rt_sheet_errors_typed(const char *typed, int64_t *errors);
/* A hand total as typed, 0 to most, with at most four decimals. */
RT_API bool rt_total_typed(const char *typed, int64_t most_x100000, int64_t *total_x100000);
#define RT_TOTAL_MOST_X100000 INT64_C(100000000000) /* of any sheet: a million points */
/* The most that a row of a mark, of errors or of a total may say. */
RT_API int64_t rt_mark_most(enum rt_mark_kind kind);

/* What one box says in the keying that is under way; version 0: it is empty. */
struct rt_keyed_box {
	int64_t value, version;
	int64_t emptied; /* the version that emptied it; 0: it was not */
	const char *remark; /* NULL: none */
	bool missing;	    /* the judge cannot be asked: it may stay empty */
};

/* A sheet that is being keyed: a box an item, the errors of course, the hand total (which may
 * stay empty), and a last look before the end.  Its owner asks with rt_keying_prompt, gives
 * each typed line to rt_keying_take, and after a mark is safe says so with rt_keying_kept. */
struct rt_keying {
	const struct rt_items *items;
	bool gaps; /* the sheet may end with empty boxes */
	struct rt_keyed_box *box;
	size_t at;	 /* the box that is asked for; boxes: the last look */
	size_t boxes;
	const char *row; /* what is left of a row of marks; NULL or "": nothing */
	struct rt_arena *text;
};

#define RT_KEYING_PAGE 5 /* boxes that bb and ff go at once */
#define RT_KEYING_PAIR 3 /* bytes of a mark of a row, two digits */

/* What a typed line comes to. */
enum rt_keying_act {
	RT_KEYING_ASK,	 /* nothing to keep: say what is said, ask again */
	RT_KEYING_KEEP,	 /* keep the mark, then rt_keying_kept */
	RT_KEYING_PAUSE, /* stop here */
	RT_KEYING_END	 /* the sheet is keyed */
};

struct rt_keying_step {
	enum rt_keying_act act;
	size_t box;		/* of RT_KEYING_KEEP */
	enum rt_mark_kind kind; /* of that box */
	int64_t item;		/* its item's id; 0 of a line */
	int64_t value;
	const char *remark; /* inside the typed line; NULL: none */
	char say[600];	    /* "" when there is nothing to say */
};

/* An empty sheet of these items, which must outlive it. */
RT_API enum rt_err rt_keying_make(struct rt_keying *k, const struct rt_items *items, bool gaps,
				  struct rt_error *err);
/* Fill in what this keying of the sheet says already, and go to the first empty box; say before
 * which boxes are missing.  RT_E_NOMEM. */
RT_API enum rt_err rt_keying_resume(struct rt_keying *k, const struct rt_mark_versions *versions,
				    int64_t entry, int64_t judge, int keying, struct rt_error *err);
RT_API void rt_keying_free(struct rt_keying *k);
/* Two lines for the box that is asked for: what it is, and the points so far. */
RT_API void rt_keying_prompt(const struct rt_keying *k, char *out, size_t size);
/* What a typed line (without its end) means.  Moves on the sheet; to RT_KEYING_KEEP it stays until
 * rt_keying_kept.  Of a row of marks it takes the first, or says why none can be taken. */
RT_API void rt_keying_take(struct rt_keying *k, char *line, struct rt_keying_step *out);
/* The next mark of a row that was typed, the line for rt_keying_take; false when there is none. */
RT_API bool rt_keying_row(struct rt_keying *k, char pair[RT_KEYING_PAIR]);
/* The rest of a row is not wanted any more: a mark of it could not be kept. */
RT_API void rt_keying_drop_row(struct rt_keying *k);
/* The mark of the step is safe as this version: go on to the next box.  RT_E_NOMEM. */
RT_API enum rt_err rt_keying_kept(struct rt_keying *k, const struct rt_keying_step *step,
				  int64_t version, struct rt_error *err);
/* How many boxes of items are keyed. */
RT_API size_t rt_keying_filled(const struct rt_keying *k);
/* Whether every box that must be is keyed, and the line of errors. */
RT_API bool rt_keying_whole(const struct rt_keying *k);
/* The points of the boxes that are keyed, and the most those boxes could have. */
RT_API void rt_keying_points(const struct rt_keying *k, int64_t *points_x100000,
			     int64_t *most_x100000);

/* ---- the register of sheets -------------------------------------------------------------- */

/* Where a sheet is.  expected: nothing is known of it; keyed: every box has been keyed, once;
 * compared: a second keying, or the hand total of another person, agrees.  in, queried and
 * returned are said by a person; keyed and compared follow from the marks. */
#define RT_SHEET_STATES(X)                                                                         \
	X(RT_SHEET_EXPECTED, "expected")                                                           \
	X(RT_SHEET_IN, "in")                                                                       \
	X(RT_SHEET_QUERIED, "queried")                                                             \
	X(RT_SHEET_KEYED, "keyed")                                                                 \
	X(RT_SHEET_COMPARED, "compared") X(RT_SHEET_RETURNED, "returned")
enum rt_sheet_state { RT_SHEET_STATES(RT_ENUM_CODE) };

RT_ENUM_WORDS(sheet_state);

/* What a person said of a sheet; the latest counts. */
struct rt_sheet_event {
	int64_t entry, judge;	      /* their ids */
	enum rt_sheet_state state;    /* in, queried or returned */
	const char *why, *who, *when; /* NULL: none */
};

struct rt_sheet_events RT_LIST(struct rt_sheet_event);

/* The table sheets {number, driver, judge, state, since, by, waiting_for}: a row for every
 * sheet that is expected, or only for those that are waited for, of all entries or of the one with
 * this number (negative: all); and a note that counts.  waiting_for is null when nothing is wanted
 * any more.  An entry that withdrew or did not start has no sheets, nor has a judge who was away;
 * one that retired, was eliminated or disqualified is not waited for. */
RT_API void rt_sheets_report(struct rt_report *report, const struct rt_class_marks *m,
			     const struct rt_mark_versions *versions,
			     const struct rt_sheet_events *events, int64_t number, bool waiting);

/* ---- the two keyings side by side --------------------------------------------------------- */

/* Tables differences {number, judge, item, first_mark, second_mark, first_by, second_by}, totals
 * {number, judge, total, sum, off, by} (hand totals that are not the sum of the boxes), once
 * {number, judge, boxes, of_boxes, items, keying, by} and same_person {number, judge, by}, and
 * notes; of all entries that are still in the class, or of the one with this number (negative:
 * all).  Sets needs_person when keyings differ or a total is not its sum.  Where one keying and the
 * hand total of another person agree, no box counts as keyed once. */
RT_API void rt_compare_report(struct rt_report *report, const struct rt_class_marks *m,
			      const struct rt_mark_versions *versions, int64_t number);

/* The table history {number, judge, item, keying, version, mark, remark, by, at, why, source},
 * in sheet order, of these versions: of one judge (NULL: all), and of one item's name, errors
 * or total (NULL: all). */
RT_API void rt_history_report(struct rt_report *report, const struct rt_class_marks *m,
			      const struct rt_mark_versions *versions, const char *position,
			      const char *item);

/* The table marks (rt_mark_record) of what holds in a keying, a file that rt_mark_reader reads. */
RT_API void rt_marks_report(struct rt_report *report, const struct rt_class_marks *m,
			    const struct rt_mark_versions *versions, int keying);

#ifdef __cplusplus
}
#endif
#endif
