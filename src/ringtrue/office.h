/* office: tests, rules, classes and entries; scoring and placing.
 *
 * Everything is exact: marks are tenths, coefficients thousandths, so points are ten
 * thousandths; one rounding, half up, happens where the rule says so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_OFFICE_H
#define RINGTRUE_OFFICE_H

#include <ringtrue/base.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- rules ------------------------------------------------------------------------------- */

/* percent: points over maximum, highest wins as a rule.
 * penalties: lowest wins as a rule.  Where all judges' points are added (judge_decimals -1) the
 * score is base - multiplier x mean of the judges' totals, the multiplier as printed on the
 * test, else base / maximum exactly; where each judge's percentage is rounded it is base less
 * base / 100 x the mean percentage, and a printed multiplier is not used. */
#define RT_SCALES(X) X(RT_PERCENT_SCALE, "percent") X(RT_PENALTY_SCALE, "penalties")
enum rt_scale {
#define RT_ENUM(code, words) code,
	RT_SCALES(RT_ENUM)
#undef RT_ENUM
};

#define RT_WINS(X) X(RT_HIGHEST_WINS, "highest") X(RT_LOWEST_WINS, "lowest")
enum rt_wins {
#define RT_ENUM(code, words) code,
	RT_WINS(RT_ENUM)
#undef RT_ENUM
};

/* What errors of course are counted in, and where they and the office's penalties are taken:
 *  points         off every judge's total
 *  percent        errors off every judge's percentage; penalties are points off every total
 *  score          once against the score, after conversion, in full: added to penalties, taken
 *                 off a percentage */
#define RT_TAKEN(X)                                                                                \
	X(RT_TAKEN_POINTS, "points") X(RT_TAKEN_PERCENT, "percent") X(RT_TAKEN_SCORE, "score")
enum rt_taken {
#define RT_ENUM(code, words) code,
	RT_TAKEN(RT_ENUM)
#undef RT_ENUM
};

/* How equal scores are parted, tried in the order of the rule:
 *  general        the sum of the general impression items over all judges, higher first
 *  median         the median of the judges' percentages (as rounded; of an even number of
 *                 judges the mean of the middle two), higher first
 *  president      the president's percentage (as rounded), higher first
 *  judge:B        the percentage of the judge at B (as rounded), higher first
 *  decision       what an official decided between just these entries (struct rt_decision)
 * A number behind a colon ("median:3", "judge:B:3") limits it to ties for that place or better.
 * What is still equal after the last stays equal. */
#define RT_TIE_BREAKS(X)                                                                           \
	X(RT_TIE_GENERAL, "general")                                                               \
	X(RT_TIE_MEDIAN, "median")                                                                 \
	X(RT_TIE_PRESIDENT, "president") X(RT_TIE_JUDGE, "judge") X(RT_TIE_DECISION, "decision")
enum rt_tie_break {
#define RT_ENUM(code, words) code,
	RT_TIE_BREAKS(RT_ENUM)
#undef RT_ENUM
};

/* What fills a box whose judge cannot be asked any more, where the office says so of the box
 * (struct rt_box):
 *  refuse         nothing: the box stays empty
 *  mean           the mean of the sheet's other marks, each counted once, as an exact ratio
 *  mean-whole     the same rounded half up to a whole mark */
#define RT_MISSINGS(X)                                                                             \
	X(RT_MISSING_REFUSE, "refuse")                                                             \
	X(RT_MISSING_MEAN, "mean") X(RT_MISSING_MEAN_WHOLE, "mean-whole")
enum rt_missing {
#define RT_ENUM(code, words) code,
	RT_MISSINGS(RT_ENUM)
#undef RT_ENUM
};

#define RT_ERROR_STEPS	   3
#define RT_TIE_STEPS	   4
#define RT_TIE_JUDGE_MOST  11 /* letters of a position that a tie-break names */
#define RT_APART_MOST_X100 10000
#define RT_APART_JUDGES	   7 /* apart_judges unless a rule says otherwise */

/* A row of rules.csv, whose columns are rule, scale, wins, base, judge_decimals,
 * percent_decimals, score_decimals, taken, error_1, error_2, error_3, ties, source, and, which
 * may be left out, missing, apart, apart_judges.  Amounts of errors are hundredths, each added
 * to those before it; in the file a number, the word `eliminated`, or empty where the steps have
 * ended.
 *
 * The judge whose percentage is farthest from the mean of the other judges (both, where two are as
 * far) is moved to the next score, that of the nearest judge, when it is `apart` per cent points
 * or more (as told by dressage-news.com, 1 August 2014, of championships with seven judges).
 * That is done where at least apart_judges sheets are in; with fewer it is only noted. */
struct rt_rule {
	const char *name;
	enum rt_scale scale;
	enum rt_wins wins;
	int64_t base;	      /* penalties: the base, 160 or 100; percent: 0 */
	int judge_decimals;   /* each judge's percentage is rounded so before the mean; -1: points
			       * of all judges are added, one percentage */
	int percent_decimals; /* of the percentage of all judges together */
	int score_decimals;   /* of the score that is ranked */
	enum rt_taken taken;
	struct {
		int64_t amount_x100;
		bool eliminated;
	} error[RT_ERROR_STEPS];
	size_t error_steps; /* an error beyond the last counts as the last */
	struct {
		enum rt_tie_break by;
		int64_t places;			   /* 0: any place */
		char judge[RT_TIE_JUDGE_MOST + 1]; /* of RT_TIE_JUDGE: the position */
	} tie[RT_TIE_STEPS];
	size_t tie_steps;
	const char *source;
	enum rt_missing missing;
	int64_t apart_x100;   /* hundredths of a per cent point; 0: nobody is moved or noted */
	int64_t apart_judges; /* so many sheets at least, for anybody to be moved */
};

struct rt_rules RT_LIST(struct rt_rule);

RT_API const char *rt_scale_words(enum rt_scale v);
RT_API bool rt_scale_read(const char *words, enum rt_scale *out);
RT_API const char *rt_wins_words(enum rt_wins v);
RT_API bool rt_wins_read(const char *words, enum rt_wins *out);
RT_API const char *rt_taken_words(enum rt_taken v);
RT_API bool rt_taken_read(const char *words, enum rt_taken *out);
RT_API const char *rt_tie_break_words(enum rt_tie_break v);
RT_API bool rt_tie_break_read(const char *words, enum rt_tie_break *out);
RT_API const char *rt_missing_words(enum rt_missing v);
RT_API bool rt_missing_read(const char *words, enum rt_missing *out);
/* Read "general median:3 judge:B" (or an empty string) into rule->tie; false when a step is
 * none of them, or when there are more than RT_TIE_STEPS. */
RT_API bool rt_tie_steps_read(const char *words, struct rt_rule *rule);
/* The same back, into out. */
RT_API void rt_tie_steps_words(const struct rt_rule *rule, char *out, size_t size);
/* Whether a rule can be scored: RT_E_INPUT with the reason in err when decimals are not 0 to 3,
 * the base is not 1 to 1000 for penalties (0 for percent), an amount is not 0 to 1000, errors in
 * percent meet penalties from added points, or judges apart are to be moved where no judge has a
 * percentage of his own. */
RT_API enum rt_err rt_rule_check(const struct rt_rule *rule, struct rt_error *err);
/* The rule of that name, or NULL. */
RT_API const struct rt_rule *rt_rule_find(const struct rt_rules *rules, const char *name);

/* ---- tests ------------------------------------------------------------------------------- */

/* An item of a test: a movement, or a mark of general impression. */
struct rt_item {
	int64_t id; /* its row in a show file; 0: none */
	const char *test;
	const char *name; /* "1", "12", "general-1" */
	const char *letters, *movement;
	const char *figure, *gait; /* NULL: none */
	int64_t coefficient_x1000;
	bool general;
	int mark_step_x10; /* 5 (half marks) unless the row says otherwise */
	const char *file;  /* where it was read; NULL from a show file */
	long line;
};

struct rt_items RT_LIST(struct rt_item);

struct rt_test {
	const char *name, *title;
	const char *kind, *level, *rule; /* NULL: none */
	int64_t multiplier_x1000000;	 /* as printed on the sheet (0.64); 0: none */
	const char *file;
	long line;
};

struct rt_tests RT_LIST(struct rt_test);

/* ---- classes, entries -------------------------------------------------------------------- */

struct rt_judge {
	int64_t id;	      /* its row in a show file; 0: none */
	const char *position; /* "C", "B", "E" */
	bool president;
	const char *name, *scribe; /* who judges there, and who writes; NULL: not known */
};

struct rt_judges RT_LIST(struct rt_judge);

/* A class.  level, ring, rule are NULL where the class gives none: then its test's hold.
 * judges.text is unused, the strings belong to the list of classes. */
struct rt_class {
	const char *name, *title, *test;
	const char *level, *ring, *rule, *division;
	struct rt_judges judges;
	const char *added; /* when it came into the show, kept with its judges*/
	const char *file;
	long line;
};

struct rt_classes RT_LIST(struct rt_class);

/* Read positions ("C B E", "B* E": letters and digits, separated by spaces) and append them to
 * judges, strings from *text: the one with a star is the president, else C, else the first.
 * RT_E_INPUT (with the reason in err) when empty, doubled, or with two stars; RT_E_NOMEM.  On
 * failure judges is empty. */
RT_API enum rt_err rt_judges_read(struct rt_judges *judges, struct rt_arena **text,
				  const char *words, struct rt_error *err);
/* Give judges their names, one for each position in its order ("Ann Ash; ; Bo Birch"; nothing
 * between semicolons: not known), strings from *text.  RT_E_INPUT (with the reason in err) when
 * there are more or fewer than judges, or one is longer than RT_NAME_MOST or not on one line;
 * RT_E_NOMEM. */
RT_API enum rt_err rt_judges_name(struct rt_judges *judges, struct rt_arena **text,
				  const char *words, struct rt_error *err);
/* Room for the words of the positions of a class. */
#define RT_JUDGES_WORDS 256
/* The positions back ("C B E", "B* E": a star unless C presides), into out. */
RT_API void rt_judges_words(const struct rt_judges *judges, char *out, size_t size);

RT_API void rt_classes_free(struct rt_classes *classes);

/* entered: nothing else is known.  The others are never placed, and listed in this order. */
#define RT_STATUSES(X)                                                                             \
	X(RT_ENTERED, "entered")                                                                   \
	X(RT_RETIRED, "retired")                                                                   \
	X(RT_ELIMINATED, "eliminated")                                                             \
	X(RT_DISQUALIFIED, "disqualified")                                                         \
	X(RT_WITHDRAWN, "withdrawn") X(RT_DID_NOT_START, "did not start")
enum rt_status {
#define RT_ENUM(code, words) code,
	RT_STATUSES(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_status_words(enum rt_status s);
/* Reads the words; a dash stands for a space too ("did-not-start"). */
RT_API bool rt_status_read(const char *words, enum rt_status *out);

struct rt_entry {
	int64_t id; /* its row in a show file; 0: none */
	const char *class_name;
	int64_t number;
	const char *driver;
	const char *horses;			       /* separated by "; " */
	double height_cm;			       /* NAN: not given */
	const char *turnout, *groom, *club, *division; /* NULL: none */
	bool hors_concours;
	enum rt_status status;
	const char *status_why;		     /* NULL: none */
	const char *status_when, *status_by; /* when and by whom; NULL: not told */
	const char *entered;		     /* when it came in; NULL: not known */
	bool late;			     /* after entries had closed */
	int64_t changes;		     /* how many changes of it the show file keeps */
	const char *file;
	long line;
};

struct rt_entries RT_LIST(struct rt_entry);

/* The names between semicolons in typed, joined with "; ", empty ones left out ("Ferro ;Nelio;"
 * is "Ferro; Nelio").  joined has room for twice the bytes of typed and one more. */
RT_API void rt_names_join(const char *typed, char *joined);

/* Keep only those entries that hold every one of the n words in a part of a name (driver,
 * horse, groom, club, turnout), accents and case ignored; a word that is a whole number also
 * finds the entries of that number.  White space in a word parts it.  RT_E_INPUT when there is no
 * word or one is not UTF-8; RT_E_NOMEM: then the list is to be freed, no more. */
RT_API enum rt_err rt_entries_find(struct rt_entries *entries, const char *const *words, size_t n,
				   struct rt_error *err);

/* In what order entries are listed.  class: as they are; number, and driver (by name, accents
 * and case ignored, then by number), with equal ones as they are; arrival: by id. */
#define RT_ENTRY_ORDERS(X)                                                                         \
	X(RT_ORDER_CLASS, "class")                                                                 \
	X(RT_ORDER_NUMBER, "number") X(RT_ORDER_DRIVER, "driver") X(RT_ORDER_ARRIVAL, "arrival")
enum rt_entry_order {
#define RT_ENUM(code, words) code,
	RT_ENTRY_ORDERS(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_entry_order_words(enum rt_entry_order v);
RT_API bool rt_entry_order_read(const char *words, enum rt_entry_order *out);
RT_API enum rt_err rt_entries_sort(struct rt_entries *entries, enum rt_entry_order order,
				   struct rt_error *err);

/* The first entry of that number in a class (NULL: in any), or NULL. */
RT_API const struct rt_entry *rt_entry_numbered(const struct rt_entries *entries,
						const char *class_name, int64_t number);
/* Whether two entries have the same driver, and whether they are the same turnout: that driver
 * with the same horses in any order; accents and case ignored. */
RT_API enum rt_err rt_entries_alike(const struct rt_entry *a, const struct rt_entry *b,
				    bool *driver, bool *turnout, struct rt_error *err);

/* ---- numbers that are given out ---------------------------------------------------------- */

#define RT_NUMBER_MOST 99999

/* Who has one number over all classes: a turnout (the driver with these horses), a driver, or
 * nobody. */
#define RT_KEEPS(X)                                                                                \
	X(RT_KEEP_TURNOUT, "turnout") X(RT_KEEP_DRIVER, "driver") X(RT_KEEP_NOTHING, "nothing")
enum rt_keep {
#define RT_ENUM(code, words) code,
	RT_KEEPS(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_keep_words(enum rt_keep v);
RT_API bool rt_keep_read(const char *words, enum rt_keep *out);

struct rt_numbering {
	int64_t first, last; /* 1 <= first <= last <= RT_NUMBER_MOST */
	enum rt_keep keep;
};

struct rt_numbers RT_LIST(int64_t);

/* The number for an entry that comes in: the one that its turnout or driver has in the show
 * (*kept), unless that is taken in its class; else the one behind the highest from first to
 * last that any entry has or had (given_up); at the end of the range the lowest that is free.
 * RT_E_INPUT when none is. */
RT_API enum rt_err rt_number_give(int64_t *out, const struct rt_numbering *rule,
				  const struct rt_entries *entries,
				  const struct rt_numbers *given_up, const struct rt_entry *entry,
				  bool *kept, struct rt_error *err);

/* ---- changes ----------------------------------------------------------------------------- */

/* Who says or changes something, why and when. */
struct rt_said {
	const char *who, *why, *when; /* NULL: not told */
};

/* A field that was changed, in the words of the data files; NULL: empty. */
struct rt_change {
	const char *field, *was, *became;
	struct rt_said reason;
};

struct rt_changes RT_LIST(struct rt_change);

/* Append the fields in which two states differ, in the order of the data files' columns;
 * reasons are left empty. */
RT_API enum rt_err rt_entry_changes(struct rt_changes *out, const struct rt_entry *was,
				    const struct rt_entry *became, struct rt_error *err);
RT_API enum rt_err rt_class_changes(struct rt_changes *out, const struct rt_class *was,
				    const struct rt_class *became, struct rt_error *err);

/* ---- marks ------------------------------------------------------------------------------- */

#define RT_KEYINGS 2
#define RT_NO_MARK (-1)

/* What a mark that is keyed is: the mark of an item, or a line below the boxes. */
#define RT_MARK_KINDS(X)                                                                           \
	X(RT_MARK_ITEM, "item") X(RT_MARK_ERRORS, "errors") X(RT_MARK_TOTAL, "total")
enum rt_mark_kind {
#define RT_ENUM(code, words) code,
	RT_MARK_KINDS(RT_ENUM)
#undef RT_ENUM
};

/* The word in a marks file's column item: "errors", "total" (no item may be called so); "item"
 * otherwise. */
RT_API const char *rt_mark_kind_words(enum rt_mark_kind v);
RT_API bool rt_mark_kind_read(const char *words, enum rt_mark_kind *out);

/* One box of a sheet: what each keying says, in tenths, or RT_NO_MARK. */
struct rt_box {
	int16_t keyed_x10[RT_KEYINGS];
	/* The office says that the judge left it empty and cannot be asked: filled as the rule
	 * says while nobody keys a mark. */
	bool missing;
};

/* The mark that is `ten` out of ten; a box holds 0 to this. */
#define RT_MARK_MOST_X10 100

/* The lines below the boxes of a sheet, by keying: how many errors of course it shows, and
 * the sum a person wrote on it (ten thousandths); -1 where not keyed. */
struct rt_sheet_lines {
	int64_t errors[RT_KEYINGS];
	int64_t total_x10000[RT_KEYINGS]; /* one keying is enough */
	bool away; /* the judge was away: nothing of this sheet is expected or counts */
	/* It is known that who said this total keyed no box of the sheet: rt_totals_by_others. */
	bool total_by_other[RT_KEYINGS];
};

#define RT_PENALTY_MOST_X100 50000 /* of an entry together, in a show file */

/* ---- articles: what the rulebook takes for what happens ---- */

#define RT_ARTICLE_STEPS 3

/* A row of articles.csv, whose columns are applies_to, article, what, amount_1, amount_2,
 * amount_3, source.  amount_N is what the Nth time costs, in the rule's unit (points or
 * penalties); in the file a number, the word `eliminated`, or empty.  A time beyond the last
 * amount costs the last one; an article without any is at an official's discretion. */
struct rt_article {
	const char *applies_to; /* a discipline ("driven", "ridden"), or a rule */
	const char *name;	/* what it is called at the ring: "groom dismounts" */
	const char *what, *source;
	struct {
		int64_t amount_x100;
		bool eliminated;
	} step[RT_ARTICLE_STEPS];
	size_t steps;
};

struct rt_articles RT_LIST(struct rt_article);

/* The article of that name for a rule, else for a discipline (NULL: any); NULL: none.  Case and
 * accents do not count. */
RT_API const struct rt_article *rt_article_find(const struct rt_articles *articles,
						const char *rule, const char *discipline,
						const char *name);
/* Whether an article is one for this rule or discipline (NULL: any). */
RT_API bool rt_article_applies(const struct rt_article *article, const char *rule,
			       const char *discipline);
/* What it costs after so many times before: false when that is at an official's discretion. */
RT_API bool rt_article_cost(const struct rt_article *article, size_t before, int64_t *amount_x100,
			    bool *eliminated);

/* What the office adds to an entry: points (hundredths; negative takes an earlier one back),
 * or the number of errors of course as announced (the latest row counts; -1: no such). */
struct rt_penalty {
	int64_t number;
	int64_t points_x100;
	int64_t errors;				/* -1: not a row about errors */
	const char *article, *why, *who, *when; /* NULL: none */
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
/* The mark that counts in a box, in tenths: what both keyings say, or the one there is;
 * RT_NO_MARK when empty or when the keyings differ (*differ, which may be NULL, tells). */
RT_API int rt_box_mark_x10(const struct rt_box *box, bool *differ);

/* ---- marks as they were keyed ------------------------------------------------------------ */

/* One version of a box or of a line, and who keyed it.  A later version stands behind the
 * earlier ones, whatever the clock said. */
struct rt_mark_version {
	int64_t entry, judge, item; /* their ids; item is 0 of a line */
	enum rt_mark_kind kind;
	int keying;	    /* 1 or 2 */
	int64_t version;    /* from 1 */
	int64_t value;	    /* tenths; errors of course; ten thousandths of a total */
	const char *remark; /* NULL: none */
	int64_t pass;	    /* rises with every pass that was begun */
	const char *who, *when, *source, *why; /* of its pass; NULL: none */
};

/* By entry and judge, in these in sheet order, keying, version. */
struct rt_mark_versions RT_LIST(struct rt_mark_version);

/* The source of a pass that settles or corrects a mark: who did that has not keyed the sheet. */
#define RT_SOURCE_FIX "mark fix"

/* Whether two names are of one person: both are given, and alike but for case, accents and
 * spaces. */
RT_API bool rt_same_person(const char *a, const char *b);
/* The latest version of a box or line in a keying, or NULL when it is empty there. */
RT_API const struct rt_mark_version *rt_mark_latest(const struct rt_mark_versions *versions,
						    int64_t entry, int64_t judge,
						    enum rt_mark_kind kind, int64_t item,
						    int keying);
/* A row by `who`, among those that keyed boxes of the sheet in this keying (0: in any) and not
 * only fixed them; NULL: there is none. */
RT_API const struct rt_mark_version *rt_keyed_by(const struct rt_mark_versions *versions,
						 int64_t entry, int64_t judge, int keying,
						 const char *who);
/* Set total_by_other of every sheet, from all versions of the class (or of some entries: the
 * others are left alone). */
RT_API void rt_totals_by_others(struct rt_class_marks *m, const struct rt_mark_versions *versions);

/* ---- keying a sheet ---------------------------------------------------------------------- */

/* A mark as it is typed: 6.5 or 6,5; without a point 65 is 6.5, 7 is 7.0, 10 is 10.0 and so is
 * 100.  false when it is none of 0 to 10 in the item's steps. */
RT_API bool rt_mark_typed(const char *typed, int step_x10, int64_t *mark_x10);
/* What rt_mark_typed accepts, in words. */
RT_API void rt_mark_accepted(int step_x10, char *out, size_t size);
/* The errors of course on a sheet as typed: a whole number, 0 to 9. */
#define RT_SHEET_ERRORS_MOST 9
RT_API bool rt_sheet_errors_typed(const char *typed, int64_t *errors);
/* A hand total as typed, 0 to most, with at most four decimals. */
RT_API bool rt_total_typed(const char *typed, int64_t most_x10000, int64_t *total_x10000);

/* What one box says in the keying that is under way; version 0: it is empty. */
struct rt_keyed_box {
	int64_t value, version;
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
	size_t at;    /* the box that is asked for; boxes: the last look */
	size_t front; /* as far as it was keyed: where it goes on after a correction */
	size_t boxes;
	struct rt_arena *text;
};

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
/* What a typed line (without its end) means.  Moves back, or over a box; to RT_KEYING_KEEP it
 * stays until rt_keying_kept. */
RT_API void rt_keying_take(struct rt_keying *k, char *line, struct rt_keying_step *out);
/* The mark of the step is safe as this version: go on to the next box.  RT_E_NOMEM. */
RT_API enum rt_err rt_keying_kept(struct rt_keying *k, const struct rt_keying_step *step,
				  int64_t version, struct rt_error *err);
/* How many boxes of items are keyed. */
RT_API size_t rt_keying_filled(const struct rt_keying *k);
/* Whether every box that must be is keyed, and the line of errors. */
RT_API bool rt_keying_whole(const struct rt_keying *k);
/* The points of the boxes that are keyed, and the most those boxes could have. */
RT_API void rt_keying_points(const struct rt_keying *k, int64_t *points_x10000,
			     int64_t *most_x10000);

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
enum rt_sheet_state {
#define RT_ENUM(code, words) code,
	RT_SHEET_STATES(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_sheet_state_words(enum rt_sheet_state v);
RT_API bool rt_sheet_state_read(const char *words, enum rt_sheet_state *out);

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

/* Tables differences {number, judge, item, first, second, first_by, second_by}, totals {number,
 * judge, total, sum, off, by} (hand totals that are not the sum of the boxes), once {number,
 * judge, boxes, of, items, keying, by} and same_person {number, judge, who}, and notes; of all
 * entries that are still in the class, or of the one with this number (negative: all).  Sets
 * needs_person when keyings differ or a total is not its sum.  Where one keying and the hand
 * total of another person agree, no box counts as keyed once. */
RT_API void rt_compare_report(struct rt_report *report, const struct rt_class_marks *m,
			      const struct rt_mark_versions *versions, int64_t number);

/* The table history {number, judge, item, keying, version, mark, remark, by, at, why, source},
 * in sheet order, of these versions: of one judge (NULL: all), and of one item's name, errors
 * or total (NULL: all). */
RT_API void rt_history_report(struct rt_report *report, const struct rt_class_marks *m,
			      const struct rt_mark_versions *versions, const char *position,
			      const char *item);

/* ---- results ----------------------------------------------------------------------------- */

/* A part num/den of one unit more, 0 <= num < den, which only a mean that fills a box makes;
 * without one den is 0 or 1. */
struct rt_part {
	int64_t num, den;
};

/* One judge's view of one entry. */
struct rt_judge_result {
	bool away;	       /* the judge was away: not expected; the rest is 0 */
	bool in;	       /* a box of this sheet is keyed; else the rest is 0 */
	int64_t raw_x10000;    /* sum of marks times coefficients, before anything is taken off */
	int64_t points_x10000; /* less errors and penalties where the rule takes them here */
	struct rt_part part;   /* of a ten thousandth, to be added to both */
	size_t filled;	       /* boxes that the rule filled */
	int64_t percent;       /* of the maximum, in units of 10^-judge_percent_digits */
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
	int64_t general_x10000;	     /* the general impression of all judges */
	struct rt_part general_part; /* of a ten thousandth more */
	int64_t decided;       /* by an official, between equal ones: n the best of n; 0: not */
	const char *parted_by; /* words of the tie-break that gave the place; NULL: none */
	struct rt_judge_result *judge;
	size_t expected;  /* judges who were not away */
	size_t sheets;	  /* how many of their sheets are in */
	size_t empty;	  /* boxes that nobody keyed or filled, on the sheets that are in */
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
	int64_t maximum_x10000;	  /* of one sheet */
	int judge_percent_digits; /* the unit of rt_judge_result.percent */
	bool single_keying;	  /* some box has one keying only */
	bool missing;		  /* a box or sheet is missing */
	bool differ;		  /* keyings differ somewhere */
	bool complete;		  /* added up: every sheet in, no empty box, and both keyings agree,
				   * or the one with another person's hand total */
	const char *state;	  /* in words: "running", "added up"; the caller may say "posted" */
	struct rt_strings notes;  /* what a person should look at, in plain sentences */
	struct rt_arena *text;
};

/* Score and place a class.  Pure and exact.
 *
 * A sheet counts once a box of it is keyed; the mean and the percentage are over the sheets
 * that are in, against the whole maximum of each.  Errors of course that count: the president's
 * line, else the largest of the other sheets; the office's announced number where that is
 * larger.  Points may fall below zero when more is taken off than was earned: nothing is cut
 * off at zero (that would make entries equal that are not), a note says so.
 *
 * RT_E_INPUT when there is no judge or item, the maximum is 0 or beyond what is counted exactly
 * (600,000 points over all judges), the printed multiplier is not below 1000, the rule cannot
 * be scored, a mark is beyond ten, or an entry's penalties or errors are beyond 1000;
 * RT_E_NOMEM.  m and its lists must outlive the results. */
RT_API enum rt_err rt_results_make(struct rt_results *out, const struct rt_class_marks *m,
				   struct rt_error *err);
RT_API void rt_results_free(struct rt_results *r);
/* How an entry stands, in words: its status, or of one that is still in the class
 * hors concours; entered, until a sheet is in; running, while a sheet is not in or has an empty
 * box; finished. */
RT_API const char *rt_result_words(const struct rt_result *result);
/* Tables class_summary, results and judges (a row a sheet that is in), and the notes; sets
 * needs_person when keyings differ.
 *
 * In results, status is rt_result_words; penalty_points is what errors and the office's points
 * cost together, in the rule's unit.  Where the rule takes errors in percent it is the per cent
 * of the errors only, and points_off the points that the office takes off every total; under
 * other rules points_off is null.  parted_by is the rule's own word for the tie-break. */
RT_API void rt_results_report(struct rt_report *report, const struct rt_results *r);

/* ---- how the judges agreed --------------------------------------------------------------- */

/* One judge beside the mean of the others of each sheet (then other is the judge itself), or
 * beside one other; over the entries that both marked, and that neither left nor were sent out.
 * NAN where there is nothing to tell. */
struct rt_judge_view {
	size_t judge, other;   /* places in the class's list */
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
	size_t entries;
	double mean_mark, mean_gap; /* of all judges; highest less lowest */
	int widest_x10;
};

/* A movement of an entry: the judges with the lowest and the highest mark. */
struct rt_mark_gap {
	const struct rt_result *result;
	size_t item, low, high;
	int low_x10, high_x10;
	int64_t sum_x10; /* of all marks */
	size_t marks;
};

struct rt_mark_gaps RT_LIST(struct rt_mark_gap);

/* A sheet far from the others of the same entry. */
struct rt_sheet_apart {
	const struct rt_result *result;
	size_t judge;
	double percent, others_percent;
};

struct rt_sheets_apart RT_LIST(struct rt_sheet_apart);

struct rt_judging {
	const struct rt_results *of;
	int gap_x10;
	double apart_percent;
	struct rt_judge_view *judge; /* each against the others */
	size_t judges;
	struct rt_judge_view *pair; /* each two once */
	size_t pairs;
	struct rt_item_view *item; /* in the order of the sheet */
	size_t items;
	struct rt_mark_gaps gaps;     /* wider than gap_x10, the widest first */
	struct rt_sheets_apart apart; /* apart_percent or more from the mean of the others */
	struct rt_arena *text;
};

/* When no limits are given (office habit, no rule): marks more than 2 apart, and 5 per cent
 * points, the figure that championships have used (from memory). */
#define RT_GAP_X10	 20
#define RT_APART_PERCENT 5.0

/* Compare the judges of a class.  r must outlive it.  RT_E_NOMEM. */
RT_API enum rt_err rt_judging_make(struct rt_judging *out, const struct rt_results *r, int gap_x10,
				   double apart_percent, struct rt_error *err);
RT_API void rt_judging_free(struct rt_judging *j);
/* Tables panel, pairs, movements, marks_apart and sheets_apart, and what they come to in words. */
RT_API void rt_judging_report(struct rt_report *report, const struct rt_judging *j);

/* Tables for a paper: `placed` for each division (its title the division) {place, number, driver,
 * horses, club, judges, added, percent, score}, where percent is null unless penalties are ranked;
 * `others`, who is not placed. */
RT_API void rt_results_paper(struct rt_report *report, const struct rt_results *r);

/* ---- championships and teams ------------------------------------------------------------- */

#define RT_TALLIES(X) X(RT_TALLY_SUM, "sum") X(RT_TALLY_MEAN, "mean")
enum rt_tally {
#define RT_ENUM(code, words) code,
	RT_TALLIES(RT_ENUM)
#undef RT_ENUM
};

/* What of a class counts: the score that is ranked there, or the percentage. */
#define RT_TALLY_OFS(X) X(RT_OF_SCORE, "score") X(RT_OF_PERCENT, "percent")
enum rt_tally_of {
#define RT_ENUM(code, words) code,
	RT_TALLY_OFS(RT_ENUM)
#undef RT_ENUM
};

/* Who competes: a driver or rider with whatever horses (the better result of a class counts),
 * or with the same horses throughout. */
#define RT_TALLY_BYS(X) X(RT_BY_DRIVER, "driver") X(RT_BY_TURNOUT, "turnout")
enum rt_tally_by {
#define RT_ENUM(code, words) code,
	RT_TALLY_BYS(RT_ENUM)
#undef RT_ENUM
};

/* What parts equal totals: the best single class, the last class, or nothing. */
#define RT_TALLY_TIES(X)                                                                           \
	X(RT_TALLY_EQUAL, "equal") X(RT_TALLY_BEST, "best") X(RT_TALLY_LAST, "last")
enum rt_tally_ties {
#define RT_ENUM(code, words) code,
	RT_TALLY_TIES(RT_ENUM)
#undef RT_ENUM
};

RT_API const char *rt_tally_words(enum rt_tally v);
RT_API bool rt_tally_read(const char *words, enum rt_tally *out);
RT_API const char *rt_tally_of_words(enum rt_tally_of v);
RT_API bool rt_tally_of_read(const char *words, enum rt_tally_of *out);
RT_API const char *rt_tally_by_words(enum rt_tally_by v);
RT_API bool rt_tally_by_read(const char *words, enum rt_tally_by *out);
RT_API const char *rt_tally_ties_words(enum rt_tally_ties v);
RT_API bool rt_tally_ties_read(const char *words, enum rt_tally_ties *out);

/* A championship over several classes.  classes: their names, separated by "; ". */
struct rt_championship {
	const char *name, *title, *classes;
	enum rt_tally tally;
	enum rt_tally_of of;
	enum rt_tally_by by;
	enum rt_tally_ties ties;
	int64_t dropped; /* so many of the worst classes do not count, nor need to be driven */
	const char *file;
	long line;
};

struct rt_championships RT_LIST(struct rt_championship);

/* A member of a team: an entry of a class. */
struct rt_team_member {
	const char *team, *class_name;
	int64_t number;
	const char *file;
	long line;
};

struct rt_team_members RT_LIST(struct rt_team_member);

/* The names of a list "1; 2a", appended to out; its arena keeps them.  RT_E_NOMEM. */
RT_API enum rt_err rt_class_names(struct rt_strings *out, const char *classes,
				  struct rt_error *err);

/* One class of a competitor, or one member of a team. */
struct rt_standing_part {
	size_t class_; /* in the order that classes were added */
	int64_t number;
	const char *driver;
	int64_t value_x1000;
	bool counts; /* it is among the best that are kept */
};

struct rt_standing_parts RT_LIST(struct rt_standing_part);

/* A competitor of a championship, or a team.  Who has fewer results than are kept is not placed. */
struct rt_standing {
	const char *name;   /* of the driver or the team */
	const char *horses; /* by turnout; else NULL */
	const char *club;   /* NULL: none */
	struct rt_standing_parts part;
	int64_t total_x1000; /* of what counts */
	size_t place;	     /* 0: not placed */
	const char *parted_by;
};

struct rt_standing_list RT_LIST(struct rt_standing);

/* The standing of a championship or of teams, made class by class so that a season needs no more
 * memory than its competitors: start it with rt_standings_of_championship or
 * rt_standings_of_teams, add every class, end it. */
struct rt_standings {
	const struct rt_championship *championship; /* NULL: teams */
	const struct rt_team_members *members;
	enum rt_tally tally;
	enum rt_tally_of of;
	enum rt_tally_ties ties;
	size_t classes; /* added so far */
	size_t kept;	/* results that count */
	enum rt_wins wins;
	int decimals;  /* the most that a value has */
	bool complete; /* every class is added up */
	struct rt_strings class_name;
	struct rt_standing_list list; /* after the end: placed ones first, in order */
	struct rt_map *index;
};

RT_API void rt_standings_of_championship(struct rt_standings *out,
					 const struct rt_championship *championship,
					 size_t classes);
/* The best `kept` members of each team count. */
RT_API void rt_standings_of_teams(struct rt_standings *out, const struct rt_team_members *members,
				  size_t kept, enum rt_tally_of of);
/* Add a class: of every entry that is placed.  RT_E_INPUT when its scores and those before cannot
 * be added: penalties and per cent. */
RT_API enum rt_err rt_standings_add(struct rt_standings *s, const struct rt_results *results,
				    struct rt_error *err);
/* Choose what counts, and place. */
RT_API enum rt_err rt_standings_end(struct rt_standings *s, struct rt_error *err);
RT_API void rt_standings_free(struct rt_standings *s);
/* Tables standing and parts. */
RT_API void rt_standings_report(struct rt_report *report, const struct rt_standings *s);

/* ---- prize money ------------------------------------------------------------------------- */

/* A row of a scale of prizes: with so many starters or more a place is worth this much. */
struct rt_prize_step {
	const char *scale;
	int64_t starters, place, amount_x100;
	const char *file;
	long line;
};

struct rt_prize_steps RT_LIST(struct rt_prize_step);

/* Who is paid for a number, where it is not the driver or rider. */
struct rt_payee {
	int64_t number;
	const char *name;
};

struct rt_payees RT_LIST(struct rt_payee);

struct rt_prize {
	const struct rt_result *result;
	const char *payee;
	int64_t amount_x100;
	bool rosette;
};

struct rt_prize_list RT_LIST(struct rt_prize);

/* Rosettes: one for so many starters, and at least so many (from memory: a setting). */
#define RT_ROSETTE_STARTERS 4
#define RT_ROSETTES_LEAST   5

struct rt_prizes {
	const struct rt_results *of;
	const char *scale;
	int64_t paid_x100;
	int64_t left_x100; /* cents that equal places cannot share */
	struct rt_prize_list list;
};

/* The prizes of a class: starters of each division (those who neither withdrew nor did not start,
 * nor are hors concours) choose the step of the scale, the one with most starters that is not over
 * theirs.  Equal places add up the money of their places and share it (KNHS General Regulations
 * 49.4); cents that do not divide stay with the organiser.  results, steps and payees must
 * outlive it.  RT_E_NOTFOUND when there is no such scale. */
RT_API enum rt_err rt_prizes_make(struct rt_prizes *out, const struct rt_results *results,
				  const struct rt_prize_steps *steps, const char *scale,
				  const struct rt_payees *payees, int64_t rosette_starters,
				  int64_t rosettes_least, struct rt_error *err);
RT_API void rt_prizes_free(struct rt_prizes *p);
/* Tables prizes and prize_sum. */
RT_API void rt_prizes_report(struct rt_report *report, const struct rt_prizes *p);

/* ---- posting ----------------------------------------------------------------------------- */

/* What was posted of one entry; numbers with the decimals that were printed. */
struct rt_posted {
	int64_t number;
	size_t place;		     /* 0: not placed */
	const char *status;	     /* as rt_result_words */
	const char *score, *percent; /* NULL: none */
};

/* Results as they were posted.  Times are YYYY-MM-DD HH:MM:SS, so that they compare as text. */
struct rt_posting {
	int64_t id;	 /* its row in a show file */
	int64_t version; /* 1 at first; more: corrected */
	const char *who;
	const char *at;				 /* objections run from then */
	const char *until;			 /* to then; afterwards the results are final */
	struct RT_LIST(struct rt_posted) places; /* by number */
};

struct rt_postings RT_LIST(struct rt_posting);

RT_API void rt_posting_free(struct rt_posting *posting);
/* What would be posted of a result now: strings from *text. RT_E_NOMEM. */
RT_API enum rt_err rt_posted_make(struct rt_posted *out, const struct rt_results *r,
				  const struct rt_result *result, struct rt_arena **text,
				  struct rt_error *err);
/* What differs between what was posted and the results now, as rows {number, what, was, now} of a
 * table `changes`, which is made when there is a row; their number in *changes. */
RT_API enum rt_err rt_posting_changes(struct rt_report *report, const struct rt_posting *posting,
				      const struct rt_results *r, size_t *changes,
				      struct rt_error *err);
/* How a posting stands at `when`: "provisional until 19:00", "final". */
RT_API void rt_posting_state(const struct rt_posting *posting, const char *when, char *out,
			     size_t size);
/* Table `posting`: {version, by, at, until, state}, one row. */
RT_API void rt_posting_report(struct rt_report *report, const struct rt_posting *posting,
			      const char *when);

#ifdef __cplusplus
}
#endif
#endif
