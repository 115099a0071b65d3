/* office: a show's own rows: rules, tests, classes, judges, entries and their numbers.
 *
 * Marks are hundredths, coefficients thousandths, points hundred thousandths: whole numbers all.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_OFFICE_H
#define RINGTRUE_OFFICE_H

#include <ringtrue/ring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- rules ------------------------------------------------------------------------------- */

/* percent: points over maximum, highest wins as a rule.
 * penalties: lowest wins as a rule.  Where all judges' points are added (judge_decimals -1) the
 * score is base - multiplier x mean of the judges' totals, the multiplier as printed on the
 * test, else base / maximum exactly; where each judge's percentage is rounded it is base less
 * base / 100 x the mean percentage, and a printed multiplier is not used.
 * points, tenths: as percent, but of the points of one sheet (the mean of the judges' totals), or
 * of ten (8.25). */
#define RT_SCALES(X)                                                                               \
	X(RT_PERCENT_SCALE, "percent")                                                             \
	X(RT_PENALTY_SCALE, "penalties") X(RT_POINT_SCALE, "points") X(RT_TEN_SCALE, "tenths")
enum rt_scale { RT_SCALES(RT_ENUM_CODE) };

#define RT_WINS(X) X(RT_HIGHEST_WINS, "highest") X(RT_LOWEST_WINS, "lowest")
enum rt_wins { RT_WINS(RT_ENUM_CODE) };

/* What errors of course are counted in, and where they and the office's penalties are taken:
 *  points         off every judge's total
 *  percent        errors off every judge's percentage; penalties are points off every total
 *  score          once against the score, after conversion, in full: added to penalties, taken
 *                 off a percentage */
#define RT_TAKEN(X)                                                                                \
	X(RT_TAKEN_POINTS, "points") X(RT_TAKEN_PERCENT, "percent") X(RT_TAKEN_SCORE, "score")
enum rt_taken { RT_TAKEN(RT_ENUM_CODE) };

/* What becomes of the decimals that are too many: rounded, a half away from what is lower, or cut
 * off (towards 0). */
#define RT_ROUNDINGS(X) X(RT_HALF_UP, "half-up") X(RT_CUT, "cut")
enum rt_rounding { RT_ROUNDINGS(RT_ENUM_CODE) };

/* How equal scores are parted, tried in the order of the rule:
 *  general        the sum of the general impression items over all judges, higher first
 *  artistic       the sum of the artistic items over all judges, higher first
 *  item:12        the points of one item over all judges, higher first
 *  median         the median of the judges' percentages (as rounded; of an even number of
 *                 judges the mean of the middle two), higher first
 *  president      the president's percentage (as rounded), higher first
 *  judge:B        the percentage of the judge at B (as rounded), higher first
 *  decision       what an official decided between just these entries (struct rt_decision)
 * A number behind a colon ("median:3", "judge:B:3", "item:12:3") limits it to ties for that place
 * or better. What is still equal after the last stays equal. */
#define RT_TIE_BREAKS(X)                                                                           \
	X(RT_TIE_GENERAL, "general")                                                               \
	X(RT_TIE_ARTISTIC, "artistic")                                                             \
	X(RT_TIE_ITEM, "item")                                                                     \
	X(RT_TIE_MEDIAN, "median")                                                                 \
	X(RT_TIE_PRESIDENT, "president") X(RT_TIE_JUDGE, "judge") X(RT_TIE_DECISION, "decision")
enum rt_tie_break { RT_TIE_BREAKS(RT_ENUM_CODE) };

/* What fills a box whose judge cannot be asked any more, where the office says so of the box
 * (struct rt_box):
 *  refuse         nothing: the box stays empty
 *  mean           the mean of the sheet's other marks, each counted once, as an exact ratio
 *  mean-whole     the same rounded half up to a whole mark */
#define RT_MISSINGS(X)                                                                             \
	X(RT_MISSING_REFUSE, "refuse")                                                             \
	X(RT_MISSING_MEAN, "mean") X(RT_MISSING_MEAN_WHOLE, "mean-whole")
enum rt_missing { RT_MISSINGS(RT_ENUM_CODE) };

/* What something costs: an amount in hundredths, or elimination; not given: nothing is said. */
struct rt_cost {
	bool given, eliminated;
	int64_t amount_x100;
};

/* How many of n costs are given, from the first on. */
RT_API size_t rt_costs_given(const struct rt_cost *cost, size_t n);

#define RT_ERROR_STEPS	   4
#define RT_TIE_STEPS	   4
#define RT_TIE_NAME_MOST   23 /* bytes of a position or an item that a tie-break names */
#define RT_APART_MOST_X100 10000
#define RT_APART_JUDGES	   7 /* apart_judges unless a rule says otherwise */

/* A row of rules.csv (rt_rule_record).  Each cost of an error is added to those before it.
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
	struct rt_cost error[RT_ERROR_STEPS];
	size_t error_steps; /* that are given; an error beyond the last counts as the last */
	struct {
		enum rt_tie_break by;
		int64_t places;			 /* 0: any place */
		char name[RT_TIE_NAME_MOST + 1]; /* the position of a judge, or the item */
	} tie[RT_TIE_STEPS];
	size_t tie_steps;
	const char *source;
	enum rt_rounding rounding; /* of percentages and scores */
	enum rt_missing missing;
	int64_t apart_x100;   /* hundredths of a per cent point; 0: nobody is moved or noted */
	int64_t apart_judges; /* so many sheets at least, for anybody to be moved */
};

struct rt_rules RT_LIST(struct rt_rule);

RT_API extern const struct rt_record rt_rule_record;

RT_ENUM_WORDS(scale);
RT_ENUM_WORDS(wins);
RT_ENUM_WORDS(taken);
RT_ENUM_WORDS(tie_break);
RT_API bool rt_tie_break_read(const char *words, enum rt_tie_break *out);
RT_ENUM_WORDS(missing);
RT_ENUM_WORDS(rounding);
/* Read "general median:3 judge:B item:12" (or an empty string) into rule->tie; false when a step is
 * none of them, or when there are more than RT_TIE_STEPS. */
RT_API bool rt_tie_steps_read(const char *words, struct rt_rule *rule);
/* The same back, into out. */
RT_API void rt_tie_steps_words(const struct rt_rule *rule, char *out, size_t size);
/* Whether a rule can be scored: RT_E_INPUT with the reason in err when decimals are not 0 to 9,
 * the base is not 1 to 1000 for penalties (0 for other scales), an amount is not 0 to 1000, errors in
 * percent meet penalties from added points, or judges apart are to be moved where no judge has a
 * percentage of his own. */
RT_API enum rt_err rt_rule_check(const struct rt_rule *rule, struct rt_error *err);
/* The rule of that name, or NULL. */
RT_API const struct rt_rule *rt_rule_find(const struct rt_rules *rules, const char *name);

/* ---- tests ------------------------------------------------------------------------------- */

/* What a mark that is keyed is: the mark of an item, or a line below the boxes. */
#define RT_MARK_KINDS(X)                                                                           \
	X(RT_MARK_ITEM, "item") X(RT_MARK_ERRORS, "errors") X(RT_MARK_TOTAL, "total")
enum rt_mark_kind { RT_MARK_KINDS(RT_ENUM_CODE) };

/* The word in a marks file's column item: "errors", "total" (no item may be called so); "item"
 * otherwise. */
RT_ENUM_WORDS(mark_kind);
RT_API bool rt_mark_kind_read(const char *words, enum rt_mark_kind *out);

/* What an item is part of.  general: impressions beside the movements.  artistic: the artistic half
 * of a freestyle, movements and general impressions being its technical one. */
#define RT_ITEM_GROUPS(X)                                                                          \
	X(RT_GROUP_MOVEMENT, "movement")                                                           \
	X(RT_GROUP_GENERAL, "general") X(RT_GROUP_ARTISTIC, "artistic")
enum rt_item_group { RT_ITEM_GROUPS(RT_ENUM_CODE) };

#define RT_ITEM_GROUP_COUNT 3

RT_ENUM_WORDS(item_group);

/* An item of a test: a movement, or a mark beside the movements. */
struct rt_item {
	int64_t id; /* its row in a show file; 0: none */
	const char *test;
	const char *name; /* "1", "12", "general-1" */
	const char *letters, *movement;
	const char *figure, *gait; /* NULL: none */
	int64_t coefficient_x1000;
	enum rt_item_group group;
	const char *judges; /* the positions of those who mark it; NULL or empty: all */
	int64_t mark_step_x100; /* 50 (half marks) unless the row says otherwise */
	const char *file;	/* where it was read; NULL from a show file */
	long line;
};

struct rt_items RT_LIST(struct rt_item);

/* Whether the judge at a position marks an item. */
RT_API bool rt_item_marked_at(const struct rt_item *item, const char *position);
/* Add to out the items that the judge at a position marks; their strings stay their owner's.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_items_marked_at(struct rt_items *out, const struct rt_items *items,
				      const char *position, struct rt_error *err);

RT_API extern const struct rt_record rt_item_record;

struct rt_test {
	const char *name, *title;
	const char *kind, *level, *rule; /* NULL: none */
	int64_t multiplier_x1000000;	 /* as printed on the sheet (0.64); 0: none */
	int64_t items, maximum_x100;	 /* of its items, once rt_tests_count has counted them */
	const char *file;
	long line;
};

struct rt_tests RT_LIST(struct rt_test);

RT_API extern const struct rt_record rt_test_record;

/* Count the items of each test, and what they come to with a ten for each. */
RT_API void rt_tests_count(struct rt_tests *tests, const struct rt_items *items);

/* ---- classes, entries -------------------------------------------------------------------- */

struct rt_judge {
	int64_t id;	      /* its row in a show file; 0: none */
	const char *position; /* "C", "B", "E" */
	bool president;
	/* Who judges there at the end of the class, and who writes; NULL: not known. */
	const char *name, *scribe;
};

struct rt_judges RT_LIST(struct rt_judge);

RT_API extern const struct rt_record rt_judge_record;

/* Who gives one sheet of a position whose judge was replaced on the day. */
struct rt_judge_sheet {
	int64_t entry, judge; /* their ids */
	int64_t number;	      /* of the entry */
	const char *name;     /* NULL: not known */
};

/* All sheets of such positions: by judge, then in the order of starting. */
struct rt_judge_sheets RT_LIST(struct rt_judge_sheet);

/* The name of who gives the sheet of an entry, by its id, at the judge's position; NULL: not known.
 * judged NULL: nobody was replaced. */
RT_API const char *rt_sheet_judge(const struct rt_judge_sheets *judged, int64_t entry,
				  const struct rt_judge *judge);
/* Everybody who sits at the judge's position, in a sentence: "Una Alder", or "Una Alder to no. 14,
 * then Bo Birch", into out; "" where nobody is known. */
RT_API void rt_judge_spells(const struct rt_judge_sheets *judged, const struct rt_judge *judge,
			    char *out, size_t size);

/* A class.  level, ring, rule are NULL where the class gives none: then its test's hold.
 * judges.text is unused, the strings belong to the list of classes. */
struct rt_class {
	const char *name, *title, *test;
	const char *level, *ring, *rule, *division;
	const char *level_used, *rule_used;  /* its own, else its test's */
	const char *positions, *judge_names; /* of judges, as a file has them */
	struct rt_judges judges;
	const char *added; /* when it came into the show, kept with its judges*/
	const char *file;
	long line;
};

struct rt_classes RT_LIST(struct rt_class);

RT_API extern const struct rt_record rt_class_record;

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

/* All judges of a class by position, with those who replaced one: "C Una Alder, B Bo Birch", into
 * out. */
RT_API void rt_class_judge_words(const struct rt_judge_sheets *judged,
				 const struct rt_class *class_, char *out, size_t size);

/* The kind of ring that a class is held in: its ring's, else its test's; NULL when neither is
 * known. Either list may be NULL. */
RT_API const char *rt_class_ring_kind(const struct rt_class *class_, const struct rt_rings *rings,
				      const struct rt_tests *tests);

/* Make the judges of a class of its positions and judge_names (NULL: nobody is named), instead of
 * those it has, and write its positions as rt_judges_words has them; strings from *text.
 * RT_E_INPUT as rt_judges_read and rt_judges_name; RT_E_NOMEM. */
RT_API enum rt_err rt_class_read_judges(struct rt_class *class_, struct rt_arena **text,
					struct rt_error *err);
/* The other way round, of judges from a show file. */
RT_API enum rt_err rt_class_tell_judges(struct rt_class *class_, struct rt_arena **text,
					struct rt_error *err);

RT_API void rt_classes_free(struct rt_classes *classes);

/* entered: nothing else is known.  The others are never placed, and listed in this order. */
#define RT_STATUSES(X)                                                                             \
	X(RT_ENTERED, "entered")                                                                   \
	X(RT_RETIRED, "retired")                                                                   \
	X(RT_ELIMINATED, "eliminated")                                                             \
	X(RT_DISQUALIFIED, "disqualified")                                                         \
	X(RT_WITHDRAWN, "withdrawn") X(RT_DID_NOT_START, "did not start")
enum rt_status { RT_STATUSES(RT_ENUM_CODE) };

RT_ENUM_WORDS(status);

struct rt_entry {
	int64_t id; /* its row in a show file; 0: none */
	const char *class_name;
	int64_t number;
	const char *driver;
	const char *horses;			       /* separated by "; " */
	double height_cm;			       /* NAN: not given */
	const char *turnout, *groom, *club, *division; /* NULL: none */
	const char *carriage; /* the one that those who name it share; NULL: not named */
	bool hors_concours;
	enum rt_status status;
	const char *status_why;		   /* NULL: none */
	const char *status_at, *status_by; /* when and by whom; NULL: not told */
	const char *entered_at;		   /* when it came in; NULL: not known */
	bool late;			   /* after entries had closed */
	int64_t changes;		   /* how many changes of it the show file keeps */
	const char *file;
	long line;
	/* Of a row of a file: the fields of its record that it says something of, a bit each: its
	 * columns, but for the empty ones that are RT_USUAL. */
	uint64_t said;
	const char *found; /* where rt_entries_find found it; NULL: it was not searched for */
};

struct rt_entries RT_LIST(struct rt_entry);

RT_API extern const struct rt_record rt_entry_record;

/* The people of an entry, who cannot be elsewhere while it is in the ring (RT_PERSON of its
 * record): who drives, then those who go along.  Returns how many there are. */
#define RT_PEOPLE_MOST 4
RT_API size_t rt_entry_people(const struct rt_entry *entry, const char *name[RT_PEOPLE_MOST]);

#define RT_FOUND_SIZE 1024 /* of what tells where an entry was found */
/* Keep only those entries that hold every one of the n words in a part of a name (what its record
 * marks RT_SOUGHT), accents and case ignored; a word that is a whole number also
 * finds the entries of that number.  White space in a word parts it.  Each is told
 * where it was found: "number", "groom: Per Ask".  RT_E_INPUT when there is no
 * word or one is not UTF-8; RT_E_NOMEM: then the list is to be freed, no more. */
RT_API enum rt_err rt_entries_find(struct rt_entries *entries, const char *const *words, size_t n,
				   struct rt_error *err);

/* In what order entries are listed.  class: as they are; number, and driver (by name, accents
 * and case ignored, then by number), with equal ones as they are; arrival: by id. */
#define RT_ENTRY_ORDERS(X)                                                                         \
	X(RT_ORDER_CLASS, "class")                                                                 \
	X(RT_ORDER_NUMBER, "number") X(RT_ORDER_DRIVER, "driver") X(RT_ORDER_ARRIVAL, "arrival")
enum rt_entry_order { RT_ENTRY_ORDERS(RT_ENUM_CODE) };

RT_ENUM_WORDS(entry_order);
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

#define RT_NUMBER_MOST	 99999
#define RT_STARTERS_MOST 9999 /* of a class */

/* Who has one number over all classes: a turnout (the driver with these horses), a driver, or
 * nobody. */
#define RT_NUMBER_HOLDERS(X)                                                                       \
	X(RT_HOLDER_TURNOUT, "turnout") X(RT_HOLDER_DRIVER, "driver") X(RT_HOLDER_NONE, "nothing")
enum rt_number_holder { RT_NUMBER_HOLDERS(RT_ENUM_CODE) };

RT_ENUM_WORDS(number_holder);
RT_API bool rt_number_holder_read(const char *words, enum rt_number_holder *out);

struct rt_numbering {
	int64_t first, last; /* 1 <= first <= last <= RT_NUMBER_MOST */
	enum rt_number_holder holder;
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
struct rt_reason {
	const char *who, *why, *when; /* NULL: not told */
};

/* A field that was changed, in the words of the data files; NULL: empty. */
struct rt_change {
	const char *field, *was, *became;
	struct rt_reason reason;
};

struct rt_changes RT_LIST(struct rt_change);

/* Append the fields in which two rows of a record differ, in their order; reasons are left empty.
 */
RT_API enum rt_err rt_record_changes(struct rt_changes *out, const struct rt_record *record,
				     const void *was, const void *became, struct rt_error *err);

/* ---- articles: what the rulebook takes for what happens ----------------------------------- */

#define RT_ARTICLE_STEPS 3

/* A row of articles.csv (rt_article_record).  step[N] is what the Nth time costs, in the rule's
 * unit (points or penalties).  A time beyond the last costs the last; an article without any is at
 * an official's discretion. */
struct rt_article {
	const char *applies_to; /* a discipline ("driven", "ridden"), or a rule */
	const char *name;	/* what it is called at the ring: "groom dismounts" */
	const char *what, *source;
	struct rt_cost step[RT_ARTICLE_STEPS];
};

struct rt_articles RT_LIST(struct rt_article);

RT_API extern const struct rt_record rt_article_record;

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

#ifdef __cplusplus
}
#endif
#endif
