/* times (office): the draw, start times over rings and days, and what changes on the day.
 *
 * Times are whole seconds since the midnight that the show's first day begins with, so a day of
 * the show is at / RT_DAY_S + 1.  Nothing here looks at a clock.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_TIMES_H
#define RINGTRUE_TIMES_H

#include <ringtrue/office.h>

#ifdef __cplusplus
extern "C" {
#endif

#define RT_DAY_S      INT64_C(86400)
#define RT_DAYS_MOST  30 /* of a show */
#define RT_STEP_S     30 /* every interval, wait and start of a plan is a multiple of it */
#define RT_MINUTE_S   60 /* of this, unless seconds are asked for */
#define RT_RINGS_MOST 64 /* that one plan may use */
#define RT_SEED_MOST  INT64_C(999999999) /* a seed is 1 to this: nine digits can be read out */

/* ---- words ------------------------------------------------------------------------------- */

/* "9:05", "09:05" or "09:05:30", to 24:00, as seconds of the day. */
RT_API bool rt_time_read(const char *words, int64_t *of_day_s);
/* The time of day of a time, "09:05", or "09:05:30" where there are seconds; 24:00 and more for
 * what runs over midnight of its day (day 1 and up: the day whose midnight counts). */
RT_API void rt_time_words(int64_t at_s, int64_t day, char *out, size_t size);
RT_API int64_t rt_day_of(int64_t at_s);

/* ---- the draw ---------------------------------------------------------------------------- */

/* What a draw is made from.  Entries that are not RT_ENTERED are not drawn. */
struct rt_draw_ask {
	const struct rt_entries *entries; /* of one class */
	const int64_t *place; /* as many as entries: the place from 1 that is kept for it; negative:
			       * from the end, -1 the last; 0: drawn.  NULL: all are drawn */
	int64_t seed;	      /* 1 to RT_SEED_MOST */
	int64_t apart;	      /* so many places between two starts of one driver are enough; 0: as
			       * many as can be had */
};

/* A driver with several turnouts in the class. */
struct rt_draw_spread {
	const char *driver;
	int64_t turnouts, apart; /* apart: the fewest places from one start to the next */
};

struct rt_draw_spreads RT_LIST(struct rt_draw_spread);

struct rt_draw {
	size_t *order; /* order[i] is the place in entries of the one that starts as number i + 1 */
	size_t n;
	struct rt_draw_spreads spreads; /* drivers borrowed from the entries */
};

/* A place that is kept, by number. */
struct rt_draw_fix {
	int64_t number, place;
};

struct rt_draw_fixes RT_LIST(struct rt_draw_fix);

RT_API extern const struct rt_record rt_draw_fix_record;

/* Draw.  Going from the first place to the last, the one that starts there is drawn from those
 * that may stand there, each as likely as the other (Fisher and Yates' shuffle where nothing is
 * fixed and every driver starts once); one may stand there when its driver's starts stay far
 * enough apart and the rest can still be placed.  How far apart: the most that all drivers with
 * several turnouts can have alike, then each in turn as much more as it can; (n - m) / (k - 1)
 * places where nothing is fixed, n start, and m drivers start k times, the most.
 * The generator is splitmix64 (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom
 * number generators", OOPSLA 2014), begun with the seed; a number below n is the remainder of one
 * of its numbers by n, where numbers from the last whole multiple of n below 2^64 on are passed
 * over.  RT_E_INPUT: two fixed at one place, a place beyond the last. */
RT_API enum rt_err rt_draw_make(struct rt_draw *out, const struct rt_draw_ask *ask,
				struct rt_error *err);
RT_API void rt_draw_free(struct rt_draw *draw);

/* Where a late entry comes in an order of n starts, of which the first `driven` are over: its
 * place from 1; those from that place on start one later, and no two change places.  At the front
 * it is the next to go; otherwise any place from there to the end is as likely as any other. */
RT_API int64_t rt_draw_late(size_t n, size_t driven, bool front, int64_t seed);

/* ---- what is asked of the times ---------------------------------------------------------- */

/* Who starts when: the order that was drawn, or whatever suits. */
#define RT_ORDERS(X) X(RT_ORDER_DRAWN, "drawn") X(RT_ORDER_FREE, "free")
enum rt_order { RT_ORDERS(RT_ENUM_CODE) };

/* A row of a plan file: what is asked of a class. */
struct rt_plan_row {
	const char *class_name;
	const char *ring;      /* NULL: the class's, else any of the kind of its test */
	int64_t day;	       /* 0: any */
	int64_t first_s;       /* the first start, of the day; -1: whenever it suits */
	int64_t interval_s;    /* 0: from the test's route */
	int64_t break_every;   /* the judges' break after so many starts; 0: none */
	int64_t break_after_s; /* or after so much judging; 0: none */
	int64_t break_s;
	int64_t harrow_every, harrow_s; /* the ring is harrowed after so many starts; 0: never */
	enum rt_order order;
	const char *file;
	long line;
};

struct rt_plan_rows RT_LIST(struct rt_plan_row);

RT_API extern const struct rt_record rt_plan_row_record;

/* Whom a wish is about. */
#define RT_WISH_ABOUT(X)                                                                           \
	X(RT_WISH_CLASS, "class")                                                                  \
	X(RT_WISH_ENTRY, "entry")                                                                  \
	X(RT_WISH_DRIVER, "driver")                                                                \
	X(RT_WISH_HORSE, "horse")                                                                  \
	X(RT_WISH_GROOM, "groom") X(RT_WISH_CARRIAGE, "carriage") X(RT_WISH_JUDGE, "judge")
enum rt_wish_about { RT_WISH_ABOUT(RT_ENUM_CODE) };

#define RT_WISH_WEIGHT_MOST 9

/* A wish: not to start before a time, to have finished by a time, on a day, or all of that; of a
 * class also to begin after another has ended.  With a time and a day it says something of that
 * day only; with a day alone, that everything is to be on it.  A carriage is one that entries name;
 * a turnout is a kind, of which there are many. */
struct rt_wish {
	enum rt_wish_about about;
	const char *name;	/* of the class, driver, horse ...; of an entry its number */
	const char *class_name; /* looks at this class only; NULL: at all.  Needed for an entry */
	int64_t day;		/* 0: any */
	int64_t not_before_s, not_after_s; /* of the day; -1: none */
	const char *after; /* of a class: the class that is over first; NULL: none */
	int64_t weight;	   /* 0: it must be met; else 1 to RT_WISH_WEIGHT_MOST */
	const char *file;
	long line;
};

struct rt_wishes RT_LIST(struct rt_wish);

RT_API extern const struct rt_record rt_wish_record;

RT_ENUM_WORDS(order);
RT_ENUM_WORDS(wish_about);
/* A wish as a sentence: "driver Åsa Lind not before 10:00 on day 1". */
RT_API void rt_wish_words(const struct rt_wish *wish, char *out, size_t size);

/* What two starts may have in common, and so how long the gap from the end of the one's interval
 * to the beginning of the other is at least.  Names are compared without case and accents.  A
 * driver who is a groom elsewhere, or a judge, is one person.  Judges and scribes are taken by
 * their class from its first start to its last end. */
#define RT_SHARED(X)                                                                               \
	X(RT_SHARED_DRIVER, "driver")                                                              \
	X(RT_SHARED_HORSE, "horse")                                                                \
	X(RT_SHARED_GROOM, "groom") X(RT_SHARED_CARRIAGE, "carriage") X(RT_SHARED_JUDGE, "judge")
enum rt_shared { RT_SHARED(RT_ENUM_CODE) };
#define RT_SHARED_COUNT 5

RT_ENUM_WORDS(shared);

/* What holds for a whole plan. */
struct rt_time_settings {
	int64_t days;			/* of the show */
	int64_t open_s, close_s;	/* the first start and the last end, of every day */
	int64_t gap_s[RT_SHARED_COUNT]; /* -1: what is shared so is not looked at */
	int64_t change_s;		/* from the end of a class to the next in its ring */
	int64_t seed;
};

/* One day, 08:00 to 18:00; gaps 20 min for a driver, 40 for a horse, 10 for a groom and for a
 * judge, 20 for a carriage; 10 min between classes; seed 1.  Common practice, no source. */
RT_API void rt_time_settings_default(struct rt_time_settings *out);

/* What is between two starts when it is more than nothing. */
#define RT_PAUSES(X)                                                                               \
	X(RT_PAUSE_NONE, "")                                                                       \
	X(RT_PAUSE_BREAK, "break")                                                                 \
	X(RT_PAUSE_HARROW, "harrow") X(RT_PAUSE_BOTH, "break and harrow")
enum rt_pause { RT_PAUSES(RT_ENUM_CODE) };
RT_ENUM_WORDS(pause);

/* A start: entry and ring are borrowed. */
struct rt_start {
	const struct rt_entry *entry;
	const char *ring;
	int64_t at_s;	 /* since the show's first midnight */
	int64_t slot_s;	 /* the interval: the ring is its own so long */
	int64_t pause_s; /* behind it, before the class goes on */
	enum rt_pause pause;
	int64_t place;	 /* drawn for it, from 1; 0: not drawn */
	int64_t version; /* of the times, that it was last changed in; 0: not kept yet */
};

/* In order of time, ring, number. */
struct rt_starts RT_LIST(struct rt_start);

RT_API void rt_starts_sort(struct rt_starts *starts);

/* A class to be planned, everything known: what rt_time_class_make makes of its plan row. */
struct rt_time_class {
	const struct rt_class *class_;
	uint64_t rings;	    /* bit i: it may be in rings->at[i] */
	uint64_t otherwise; /* the rings it could be in if nobody had asked for one */
	int64_t day;	    /* 0: any */
	int64_t first_s;    /* -1: any */
	int64_t interval_s;
	int64_t break_every, break_s; /* 0: none */
	int64_t harrow_every, harrow_s;
	int64_t step_s; /* its interval, waits and starts are multiples: RT_MINUTE_S or RT_STEP_S */
	bool free_order;
};

struct rt_time_classes RT_LIST(struct rt_time_class);

/* Everything that a plan is made from. */
struct rt_times_ask {
	const struct rt_time_settings *settings;
	const struct rt_strings *rings;
	const struct rt_time_classes *classes;
	const struct rt_entries *entries; /* of those classes, and of those of kept */
	const int64_t *place;		  /* as many as entries: the place drawn, 0: none */
	const struct rt_wishes *wishes;
	int64_t not_before_s; /* since the show's first midnight: the day is under way; 0: all of it
			       * is to come */
	const struct rt_starts *kept; /* of other classes, which stay as they are; may be NULL */
	const struct rt_classes *kept_classes; /* those other classes, for their judges; or NULL */
};

/* The interval of a class from the seconds of its test with the ways in and out, and what passes
 * beside: margin_s, for the time after the signal and the judge's writing; not rounded yet. */
RT_API int64_t rt_interval_of(double route_s, int64_t margin_s);
/* In steps of step_s; of RT_STEP_S where the row's interval is no whole minutes.  interval_s and
 * breaks are rounded up; a break after so much judging becomes one after so many starts. */
RT_API void rt_time_class_make(struct rt_time_class *out, const struct rt_plan_row *row,
			       const struct rt_class *class_, int64_t interval_s, int64_t step_s);

/* ---- a plan ------------------------------------------------------------------------------ */

/* What became of a wish, or of what the plan file asks of a class. */
struct rt_wish_told {
	const struct rt_wish *wish;	    /* NULL: of a plan row */
	const struct rt_time_class *class_; /* of a plan row */
	const char *words;
	int64_t missed_s;    /* by so much; 0: met */
	const char *because; /* who or what stands in the way; NULL: nothing alone */
	bool drop;	     /* without those that have it set, all else that must be can be met */
};

struct rt_wish_tolds RT_LIST(struct rt_wish_told);

/* How good a plan is. */
struct rt_time_quality {
	int64_t last_s;	     /* the latest end of any day, of the day */
	int64_t bound_s;     /* no plan that keeps to the gaps can end its longest day earlier */
	int64_t gap_s;	     /* the smallest of all gaps; -1: nobody starts twice */
	const char *gap_who; /* whose */
	enum rt_shared gap_shared;
	int64_t waits_s; /* that rings stand idle within classes, breaks not counted */
	int64_t over_s;	 /* that classes run past the day's end, together */
	int64_t missed;	 /* musts that are missed */
	int64_t soft_missed;
	size_t tried; /* plans looked at */
};

struct rt_times {
	struct rt_starts starts; /* of the classes that were planned */
	struct rt_wish_tolds wishes;
	struct rt_time_quality quality;
	size_t drops; /* so many of wishes have drop set */
};

/* Plan.  A class is a block in one ring on one day, its starts in order, one interval after the
 * other with the pauses between; a start waits when somebody or something of it is not free yet.
 * Classes are put one after the other where they fit, in an order, ring and day that a search
 * betters: musts and day's end first, then wishes by weight, then the end of the longest day, then
 * the ends of the rings and the waits.  The same ask gives the same plan.  No plan made here has
 * anybody in two places; what cannot be met is missed and told.
 * out starts zeroed, is yours: rt_times_free; what it points to is the ask's.  RT_E_INPUT with the
 * reason: settings that cannot be, two classes whose rings, days and times are given and that
 * overlap, a class that cannot end before midnight or has nothing to be planned by. */
RT_API enum rt_err rt_times_plan(struct rt_times *out, const struct rt_times_ask *ask,
				 struct rt_error *err);
RT_API void rt_times_free(struct rt_times *times);

/* ---- the check --------------------------------------------------------------------------- */

/* What is wrong with a list of starts. */
#define RT_CLASHES(X)                                                                              \
	X(RT_CLASH_RING, "two in one ring")                                                        \
	X(RT_CLASH_SHARED, "gap too short")                                                        \
	X(RT_CLASH_TWO_PLACES, "in two places")                                                    \
	X(RT_CLASH_HOURS, "outside the day")                                                       \
	X(RT_CLASH_TWICE, "starts twice")
enum rt_clash_kind { RT_CLASHES(RT_ENUM_CODE) };
RT_ENUM_WORDS(clash_kind);

struct rt_clash {
	enum rt_clash_kind kind;
	const struct rt_start *a, *b; /* in order of time; b NULL: a alone */
	enum rt_shared shared;	      /* of RT_CLASH_SHARED and RT_CLASH_TWO_PLACES */
	const char *who;	      /* the driver, horse ..., the ring; NULL: none */
	int64_t gap_s;		      /* that there is; negative: they overlap by so much */
	int64_t asked_s;
};

struct rt_clashes RT_LIST(struct rt_clash);

/* Look at every pair of starts, and at every pair of classes for their judges (whose gap is asked
 * for between rings, not within one).  Nothing is known of how a plan was made.  Entries that left
 * (not RT_ENTERED) are passed over.  A pair of classes with a judge in common clashes by two of
 * their starts that show it.  starts must be sorted, and stay where they are. */
RT_API enum rt_err rt_times_clashes(struct rt_clashes *out, const struct rt_starts *starts,
				    const struct rt_classes *classes,
				    const struct rt_time_settings *settings, struct rt_error *err);
/* The clashes of after that before did not have, or had with more room (by kind, entries and what
 * is shared). */
RT_API enum rt_err rt_clashes_new(struct rt_clashes *out, const struct rt_clashes *before,
				  const struct rt_clashes *after, struct rt_error *err);

/* ---- on the day -------------------------------------------------------------------------- */

/* Give entry the time at_s, in ring, for slot_s (0: as long as before, or as the others of its
 * class); it may have had none.  The start that has that time now, and those behind it in the
 * ring, move only as far as they must; nobody starts earlier than before.  A break stays behind the
 * start that it followed; when that one leaves its place in the order, behind the one before it, as
 * long as it was.  Who is put into a break has it behind.  RT_E_INPUT: the time lies inside another
 * start (which is told), or something would run over midnight; starts is then of no more use.  What
 * is changed has version 0. */
RT_API enum rt_err rt_times_move(struct rt_starts *starts, const struct rt_entry *entry,
				 const char *ring, int64_t at_s, int64_t slot_s, int64_t change_s,
				 struct rt_error *err);
/* The ring is late: the first start there at or after from_s moves by late_s, those behind it on
 * that day only as far as they must: waits and the time between classes beyond change_s take
 * lateness up, breaks and harrowing do not.  RT_E_INPUT: nothing starts there then, midnight. */
RT_API enum rt_err rt_times_late(struct rt_starts *starts, const char *ring, int64_t from_s,
				 int64_t late_s, int64_t change_s, struct rt_error *err);

/* ---- lists as they are printed ----------------------------------------------------------- */

/* Who a list is for: its word. */
#define RT_START_LISTS(X)                                                                          \
	X(RT_START_LIST_RING, "ring")                                                              \
	X(RT_START_LIST_DRIVER, "driver")                                                          \
	X(RT_START_LIST_GATE, "gate")                                                              \
	X(RT_START_LIST_ANNOUNCER, "announcer") X(RT_START_LIST_STEWARD, "steward")
enum rt_start_list { RT_START_LISTS(RT_ENUM_CODE) };
RT_ENUM_WORDS(start_list);

/* A line of a list, as it is printed. */
struct rt_list_line {
	int64_t entry;	   /* whose start, by id; 0: a break, the beginning of a class */
	const char *words; /* all that it says */
};

struct rt_list_lines RT_LIST(struct rt_list_line);

/* A list of one day that was printed.  Any line that is another gives it a new version. */
struct rt_printed_list {
	enum rt_start_list list;
	const char *ring;		 /* NULL: of all */
	const char *class_name, *driver; /* what it was narrowed to; NULL: nothing */
	int64_t day;
	int64_t version; /* from 1; 0: it was not printed yet */
	int64_t id;	 /* its row in a show file; 0: none */
	const char *when;
	struct rt_list_lines lines;
};

struct rt_printed_lists RT_LIST(struct rt_printed_list);

RT_API void rt_printed_list_free(struct rt_printed_list *list);
RT_API void rt_printed_lists_free(struct rt_printed_lists *lists);
RT_API bool rt_list_lines_same(const struct rt_list_lines *a, const struct rt_list_lines *b);
/* Whether a line stands in a list word for word. */
RT_API bool rt_list_line_stands(const struct rt_list_lines *lines, const struct rt_list_line *line);
/* The line of an entry; NULL: none. */
RT_API const struct rt_list_line *rt_list_line_of(const struct rt_list_lines *lines, int64_t entry);

/* ---- reports ----------------------------------------------------------------------------- */

/* The tables below, NULL behind them. */
RT_API extern const struct rt_record *const rt_times_tables[];

/* Table `times`: a row a start. */
RT_API void rt_times_report(struct rt_report *report, const struct rt_starts *starts);
/* Table `classes`: when each class begins in its ring, with its title, its test and its judges by
 * position.  judged: of those who were replaced; NULL: nobody was. */
RT_API void rt_times_classes_report(struct rt_report *report, const struct rt_starts *starts,
				    const struct rt_classes *classes, const struct rt_tests *tests,
				    const struct rt_judge_sheets *judged);
/* Table `collisions`, a row a clash, and that a person is needed when there is one. */
RT_API void rt_clashes_report(struct rt_report *report, const struct rt_clashes *clashes);
/* Tables `plan` (how good it is), `rings` (what each ring does a day) and `wishes`. */
RT_API void rt_plan_report(struct rt_report *report, const struct rt_times *times,
			   const struct rt_time_settings *settings);
/* Table `shares`: people, horses and carriages that start more than once, with their starts, where
 * there are any.  starts must be sorted. */
RT_API void rt_shares_report(struct rt_report *report, const struct rt_starts *starts);
/* Table `draw`: the order, and `spread`; of several classes one behind the other. */
RT_API void rt_draw_report(struct rt_report *report, const struct rt_draw *draw,
			   const struct rt_entries *entries);

#ifdef __cplusplus
}
#endif
#endif
