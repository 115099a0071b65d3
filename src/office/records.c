/* The records of a show's own rows: what is known of each column, once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what an error of course or an article costs --------------------------------------------- */

#define COST_MOST (RT__PENALTY_MOST_X100 / 100)

static enum rt_err read_cost(const struct rt_field *f, void *member, const char *s,
			     struct rt_arena **text, struct rt_error *err)
{
	bool eliminated = rt_same_name(s, "eliminated");
	int64_t amount = 0;

	(void)f;
	(void)text;
	if (!eliminated &&
	    (!rt_parse_decimal(s, 2, &amount) || amount < 0 || amount > RT__PENALTY_MOST_X100))
		return rt_refuse(err, s, "is no cost of an error",
				 "a number from 0 to 1000 with at most 2 decimals, or eliminated");
	*(struct rt_cost *)member = (struct rt_cost){true, eliminated, amount};
	return RT_OK;
}

static const char *write_cost(const struct rt_field *f, const void *member, char *out, size_t size)
{
	const struct rt_cost *cost = member;

	(void)f;
	if (!cost->given || cost->eliminated)
		return cost->given ? "eliminated" : NULL;
	rt_format_short(cost->amount_x100, 2, 0, out, size);
	return out;
}

#define COST .type = RT_OWN, .read = read_cost, .write = write_cost, .is = RT_EMPTY

/* ---- rules ----------------------------------------------------------------------------------- */

/* The tie-breaks are a list and its length, two members of the rule. */
static enum rt_err read_ties(const struct rt_field *f, void *rule, const char *s,
			     struct rt_arena **text, struct rt_error *err)
{
	(void)f;
	(void)text;
	return rt_tie_steps_read(s, rule)
		       ? RT_OK
		       : rt_refuse(err, s, "is no list of tie-breaks",
				   "up to four of general, artistic, median, president, judge:B, "
				   "item:12 and decision with spaces between, each with :3 behind "
				   "it where only the first three places are parted");
}

static const char *write_ties(const struct rt_field *f, const void *rule, char *out, size_t size)
{
	(void)f;
	rt_tie_steps_words(rule, out, size);
	return out;
}

#define DECIMALS .type = RT_SMALL, .wide = true, .low = 0, .high = RT__DECIMALS_MOST

static const struct rt_field rule_fields[] = {
	{"rule", RT_AT(struct rt_rule, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "its name; classes and tests name it",
	 .example = {"club-percent", "club-penalties"}},
	{"scale", RT_AT(struct rt_rule, scale), .type = RT_WORD, .words = &rt_words_of_scale,
	 .help = "what is ranked: percent; penalties, base less a share of it; points, the mean of "
		 "the judges' totals; tenths, a mark out of ten",
	 .example = {"percent", "penalties"}},
	{"wins", RT_AT(struct rt_rule, wins), .type = RT_WORD, .words = &rt_words_of_wins,
	 .wide = true, .help = "which score is first", .example = {"highest", "lowest"}},
	{"base", RT_AT(struct rt_rule, base), .type = RT_INT, .wide = true, .low = 0,
	 .high = RT__BASE_MOST, .help = "penalties for no point at all (160, 100); else 0",
	 .example = {"0", "160"}},
	{"judge_decimals", .head = "judge", RT_AT(struct rt_rule, judge_decimals), .type = RT_SMALL,
	 .wide = true, .low = RT__POINTS_ADDED, .high = RT__DECIMALS_MOST,
	 .help = "each judge's percentage is rounded so, then the mean is taken; -1: the points of "
		 "all judges are added, and make one percentage",
	 .example = {"3", "-1"}},
	{"percent_decimals", .head = "percent", RT_AT(struct rt_rule, percent_decimals), DECIMALS,
	 .help = "of the percentage of all judges together", .example = {"3", "2"}},
	{"score_decimals", .head = "score", RT_AT(struct rt_rule, score_decimals), DECIMALS,
	 .help = "of the score that is ranked", .example = {"3", "2"}},
	{"taken", .head = "errors off", RT_AT(struct rt_rule, taken), .type = RT_WORD,
	 .words = &rt_words_of_taken, .wide = true,
	 .help = "where errors and penalties come off: points, off every judge's total; percent, "
		 "errors off every judge's percentage and penalties off every total; score, once "
		 "after all else",
	 .example = {"points", "score"}},
	{"error_1", .head = "1st", RT_AT(struct rt_rule, error[0]), COST,
	 .help = "what the first error of course costs: a number, or eliminated",
	 .example = {"2", "5"}},
	{"error_2", .head = "2nd", RT_AT(struct rt_rule, error[1]), COST,
	 .help = "what the second adds to it; empty: the same again", .example = {"4", "10"}},
	{"error_3", .head = "3rd", RT_AT(struct rt_rule, error[2]), COST,
	 .help = "what the third adds; empty: the last again",
	 .example = {"eliminated", "eliminated"}},
	{"error_4", .head = "4th", RT_AT(struct rt_rule, error[3]), .type = RT_OWN,
	 .read = read_cost, .write = write_cost, .is = RT_EMPTY | RT_OPTIONAL,
	 .help = "what the fourth and every further one adds; empty: the last again",
	 .example = {"", ""}},
	{"ties", .offset = 0, .type = RT_OWN, .read = read_ties, .write = write_ties,
	 .is = RT_EMPTY,
	 .help = "what parts equal scores, tried in order: general (impression), artistic (marks), "
		 "median (of the judges), president, judge:B, item:12, decision (of an official); "
		 "median:3 parts the first three places only; what is equal then shares the place",
	 .example = {"general median:3", "general decision"}},
	{"missing", .head = "empty boxes", RT_AT(struct rt_rule, missing), .type = RT_WORD,
	 .words = &rt_words_of_missing, .is = RT_OPTIONAL,
	 .help = "what fills a box whose judge cannot be asked: mean of the sheet's other marks, "
		 "mean-whole (rounded to a whole mark), refuse",
	 .example = {"refuse", "mean"}},
	{"apart", RT_AT(struct rt_rule, apart_x100), .type = RT_DECIMAL, .wide = true,
	 .is = RT_OPTIONAL | RT_USUAL, .low = 0, .high = RT_APART_MOST_X100 / 100, .decimals = 2,
	 .measure = "per cent points", .kept = "apart_x100",
	 .help = "the judge farthest from the mean of the others, by so much or more, counts as "
		 "the next score; 0: never",
	 .example = {"0", "0"}},
	{"apart_judges", .head = "of judges", RT_AT(struct rt_rule, apart_judges), .type = RT_INT,
	 .wide = true, .is = RT_OPTIONAL | RT_USUAL, .low = RT__APART_JUDGES_LEAST, .high = 99,
	 .help = "so many sheets at least for that (7); with fewer it is only told",
	 .example = {"7", "7"}},
	{"rounding", RT_AT(struct rt_rule, rounding), RT_WORD_OF(rounding), .wide = true,
	 .is = RT_OPTIONAL | RT_USUAL,
	 .help = "what becomes of decimals that are too many: half-up (rounded), or cut (off)",
	 .example = {"half-up", "cut"}},
	{"source", RT_AT(struct rt_rule, source), .type = RT_TEXT, .wide = true,
	 .help = "the rulebook, and what is from memory",
	 .example = {"club rules 7", "club rules 8"}},
};

static const struct rt_rule blank_rule = {.apart_judges = RT_APART_JUDGES};

const struct rt_record rt_rule_record = {
	"rule",
	"rules",
	"Rules",
	RT_FIELDS(rule_fields),
	.size = sizeof blank_rule,
	.blank = &blank_rule,
	.help = "How a class is scored: what marks come to, what is taken off, who is before whom.",
};

/* ---- articles -------------------------------------------------------------------------------- */

static const struct rt_field article_fields[] = {
	{"applies_to", .head = "for", RT_AT(struct rt_article, applies_to), .type = RT_NAME,
	 .is = RT_KEY, .help = "driven, ridden, or the one rule it is of",
	 .example = {"driven", "club-penalties"}},
	{"article", RT_AT(struct rt_article, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "what it is called at the ring", .example = {"whip dropped", "late at the gate"}},
	{"what", RT_AT(struct rt_article, what), .type = RT_TEXT, .is = RT_EMPTY,
	 .help = "what has happened, in a sentence",
	 .example = {"The whip is dropped or put down", "Not in the ring in time"}},
	{"amount_1", .head = "1st", RT_AT(struct rt_article, step[0]), COST,
	 .help = "what it costs the first time: a number, or eliminated; empty: an official says",
	 .example = {"5", "3"}},
	{"amount_2", .head = "2nd", RT_AT(struct rt_article, step[1]), COST,
	 .help = "what it costs the second time; empty: as before", .example = {"10", ""}},
	{"amount_3", .head = "3rd", RT_AT(struct rt_article, step[2]), COST,
	 .help = "what it costs the third time and every further one",
	 .example = {"eliminated", ""}},
	{"source", RT_AT(struct rt_article, source), .type = RT_TEXT, .wide = true, .is = RT_EMPTY,
	 .help = "where it stands: the rulebook and its article",
	 .example = {"club rules 21", "club rules 22"}},
};

static const struct rt_article blank_article = {.what = ""};

const struct rt_record rt_article_record = {
	"article",
	"articles",
	"Articles",
	RT_FIELDS(article_fields),
	.size = sizeof blank_article,
	.blank = &blank_article,
	.help = "What the rulebook takes for what happens in the ring.",
};

/* ---- tests ----------------------------------------------------------------------------------- */

static const struct rt_field test_fields[] = {
	{"test", RT_AT(struct rt_test, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "what classes call it", .example = {"T1", "T2"}},
	{"title", RT_AT(struct rt_test, title), .type = RT_NAME, .help = "as printed",
	 .example = {"Club test 1", "Club test 2"}},
	{"kind", .head = "ring", RT_AT(struct rt_test, kind), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "the kind of ring it is made for", .example = {"club-20x40", "club-20x40"}},
	{"level", RT_AT(struct rt_test, level), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "the level it asks", .example = {"club", "club"}},
	{"rule", RT_AT(struct rt_test, rule), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "the rule it is scored by", .example = {"club-percent", "club-penalties"}},
	{"item_count", .head = "items", RT_AT(struct rt_test, items), .type = RT_INT,
	 .is = RT_OF_SHOW, .help = "how many it has"},
	{"maximum", RT_AT(struct rt_test, maximum_x100), .type = RT_DECIMAL, .decimals = 2,
	 .is = RT_OF_SHOW, .help = "the points of a sheet full of tens"},
	{"multiplier", RT_AT(struct rt_test, multiplier_x1000000), .type = RT_DECIMAL, .wide = true,
	 .is = RT_OPTIONAL, .low = 0.000001, .high = 999.999999, .decimals = 6,
	 .kept = "multiplier_x1000000", .help = "from points to penalties, as printed on the sheet",
	 .example = {"", "8"}},
};

const struct rt_record rt_test_record = {
	"test",
	"tests",
	"Tests",
	RT_FIELDS(test_fields),
	.size = sizeof(struct rt_test),
	.help = "A test that is driven or ridden.",
};

/* ---- items of a test ------------------------------------------------------------------------- */

static enum rt_err read_item_name(const struct rt_field *f, void *member, const char *s,
				  struct rt_arena **text, struct rt_error *err)
{
	if (strcmp(s, rt_mark_kind_words(RT_MARK_ERRORS)) == 0 ||
	    strcmp(s, rt_mark_kind_words(RT_MARK_TOTAL)) == 0)
		return rt_refuse(err, s, "is kept for the foot of a marks sheet",
				 "another name for the item");
	return rt_member_read(f, member, s, text, err);
}

/* The judges of an item: positions, none of which presides here. */
static enum rt_err read_item_judges(const struct rt_field *f, void *member, const char *s,
				    struct rt_arena **text, struct rt_error *err)
{
	struct rt_judges judges = {0};
	struct rt_arena *positions = NULL;
	enum rt_err rc = RT_OK;

	if (strchr(s, '*'))
		return rt_refuse(err, s, "names a president", "positions with spaces between");
	rc = rt_judges_read(&judges, &positions, s, err);
	RT_LIST_FREE(&judges);
	rt_arena_free(positions);
	return rc ? rc : rt_member_read(f, member, s, text, err);
}

/* Steps that lead from 0 to 10 in hundredths. */
static enum rt_err read_mark_step(const struct rt_field *f, void *member, const char *s,
				  struct rt_arena **text, struct rt_error *err)
{
	int64_t v;

	(void)f;
	(void)text;
	if (!rt_parse_decimal(s, 2, &v) || v <= 0 || 100 % v != 0 || v % 5 != 0)
		return rt_refuse(err, s, "is no step of marks", "0.05, 0.1, 0.2, 0.25, 0.5 or 1");
	*(int64_t *)member = v;
	return RT_OK;
}

static const struct rt_field item_fields[] = {
	{"id", RT_AT(struct rt_item, id), .type = RT_INT, .is = RT_OF_SHOW | RT_UNSEEN},
	{"test", RT_AT(struct rt_item, test), .wide = true, .type = RT_NAME, .is = RT_KEY,
	 .help = "the test", .example = {"T1", "T2"}},
	{"item", RT_AT(struct rt_item, name), .wide = true, .type = RT_NAME, .read = read_item_name,
	 .is = RT_KEY, .kept = "name", .help = "its number or name, not errors nor total",
	 .example = {"1", "general-1"}},
	{"letters", RT_AT(struct rt_item, letters), .wide = true, .type = RT_LETTERS,
	 .is = RT_EMPTY, .help = "the letters it goes by, as printed", .example = {"A C", ""}},
	{"movement", RT_AT(struct rt_item, movement), .wide = true, .type = RT_TEXT,
	 .help = "what is driven, as printed", .example = {"Enter at trot", "Obedience"}},
	{"figure", RT_AT(struct rt_item, figure), .wide = true, .type = RT_NAME, .is = RT_EMPTY,
	 .help = "its line, for routes and drawings", .example = {"", ""}},
	{"gait", RT_AT(struct rt_item, gait), .wide = true, .type = RT_NAME, .is = RT_EMPTY,
	 .help = "the gait", .example = {"club trot", ""}},
	{"coefficient", RT_AT(struct rt_item, coefficient_x1000), .wide = true, .type = RT_DECIMAL,
	 .low = 0.001, .high = 99.999, .decimals = 3, .kept = "coefficient_x1000",
	 .help = "what its mark is multiplied by", .example = {"1", "2"}},
	{"group", RT_AT(struct rt_item, group), .wide = true, RT_WORD_OF(item_group),
	 .kept = "item_group",
	 .help = "movement, general for a mark of general impression, artistic for a mark of the "
		 "artistic half of a freestyle",
	 .example = {"movement", "general"}},
	{"mark_step", RT_AT(struct rt_item, mark_step_x100), .wide = true, .type = RT_DECIMAL,
	 .decimals = 2, .read = read_mark_step, .is = RT_OPTIONAL | RT_USUAL,
	 .accepted = "0.05, 0.1, 0.2, 0.25, 0.5 or 1", .kept = "mark_step_x100",
	 .help = "the step of its marks, 0.5 unless given", .example = {"0.5", "0.5"}},
	{"judges", RT_AT(struct rt_item, judges), .wide = true, .type = RT_LETTERS,
	 .read = read_item_judges, .is = RT_OPTIONAL,
	 .help = "where the judges sit who mark it (\"C M\"); empty: all of them",
	 .example = {"", ""}},
};

static const struct rt_item blank_item = {.letters = "", .mark_step_x100 = 50};

const struct rt_record rt_item_record = {
	"item",
	"movements",
	"Movements",
	RT_FIELDS(item_fields),
	.size = sizeof blank_item,
	.blank = &blank_item,
	.help = "A movement of a test, or a mark of general impression or of the artistic half.",
};

/* ---- classes --------------------------------------------------------------------------------- */

/* Positions that can be read; which judges they are is for rt_class_judges. */
static enum rt_err read_positions(const struct rt_field *f, void *member, const char *s,
				  struct rt_arena **text, struct rt_error *err)
{
	struct rt_judges judges = {0};
	struct rt_arena *positions = NULL;
	enum rt_err rc = rt_judges_read(&judges, &positions, s, err);

	RT_LIST_FREE(&judges);
	rt_arena_free(positions);
	return rc ? rc : rt_member_read(f, member, s, text, err);
}

static const struct rt_field class_fields[] = {
	{"class", RT_AT(struct rt_class, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "its number or name", .example = {"1", "2"}},
	{"title", RT_AT(struct rt_class, title), .type = RT_NAME, .help = "as printed",
	 .example = {"Singles", "Pairs"}},
	{"test", RT_AT(struct rt_class, test), .type = RT_NAME,
	 .help = "the test that is driven or ridden", .example = {"T1", "T2"}},
	{"level", .head = "own level", RT_AT(struct rt_class, level), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY, .help = "the level; empty: the test's", .example = {"", ""}},
	{"level_used", .head = "level", RT_AT(struct rt_class, level_used), .type = RT_NAME,
	 .is = RT_OF_SHOW, .help = "the level of the class, else of its test"},
	{"ring", RT_AT(struct rt_class, ring), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "the ring of the show it is held in; empty: not settled", .example = {"", ""}},
	{"rule", .head = "own rule", RT_AT(struct rt_class, rule), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY, .help = "the rule it is scored by; empty: the test's",
	 .example = {"", "club-percent"}},
	{"rule_used", .head = "rule", RT_AT(struct rt_class, rule_used), .type = RT_NAME,
	 .is = RT_OF_SHOW, .help = "the rule of the class, else of its test"},
	{"judges", RT_AT(struct rt_class, positions), .type = RT_LETTERS, .read = read_positions,
	 .help = "where judges sit; C is the president, or the one with a star (\"B* E\")",
	 .example = {"C B", "C"}},
	{"division", RT_AT(struct rt_class, division), .type = RT_NAME, .wide = true,
	 .is = RT_OPTIONAL, .help = "the division of entries that name none",
	 .example = {"", "senior"}},
	{"judge_names", RT_AT(struct rt_class, judge_names), .type = RT_NAMES, .wide = true,
	 .read = rt_text_read, .is = RT_OPTIONAL | RT_PERSON,
	 .help = "who the judges are, in that order, semicolons between",
	 .example = {"Ed Elm; Flo Fern", "Flo Fern"}},
};

const struct rt_record rt_class_record = {
	"class",
	"classes",
	"Classes",
	RT_FIELDS(class_fields),
	.size = sizeof(struct rt_class),
	.help = "A class: a test, its judges, and who is placed together.",
};

static const struct rt_field judge_fields[] = {
	{"id", RT_AT(struct rt_judge, id), .type = RT_INT, .is = RT_OF_SHOW | RT_UNSEEN},
	{"position", RT_AT(struct rt_judge, position), .type = RT_NAME, .is = RT_KEY,
	 .help = "where the judge sits"},
	{"president", RT_AT(struct rt_judge, president), .type = RT_BOOL,
	 .help = "whether this judge presides"},
	{"name", RT_AT(struct rt_judge, name), .type = RT_NAME, .is = RT_EMPTY | RT_PERSON,
	 .help = "who judges there"},
	{"scribe", RT_AT(struct rt_judge, scribe), .type = RT_NAME, .is = RT_EMPTY | RT_PERSON,
	 .help = "who writes there"},
};

const struct rt_record rt_judge_record = {
	"judge",
	"judges",
	"Judges",
	RT_FIELDS(judge_fields),
	.size = sizeof(struct rt_judge),
	.help = "A judge of a class.",
};

/* ---- entries --------------------------------------------------------------------------------- */

#define HORSES_MOST 4096 /* bytes; more is no list of horses */

/* Horses as people write them: a comma, a slash, & or + stands between two as a semicolon does.
 * The word "and" does not: it is in many a name. */
static enum rt_err read_horses(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	char horses[HORSES_MOST];

	size_t size = strlen(s) + 1;

	if (size > sizeof horses)
		return rt_refuse(err, s, "is too long", "horses, semicolons between");
	memcpy(horses, s, size);
	for (char *at = horses; (at = strpbrk(at, ",/&+"));)
		*at = ';';
	return rt_member_read(f, member, horses, text, err);
}

static const struct rt_field entry_fields[] = {
	{"id", RT_AT(struct rt_entry, id), .type = RT_INT, .is = RT_OF_SHOW | RT_UNSEEN},
	{"class", RT_AT(struct rt_entry, class_name), .type = RT_NAME, .is = RT_KEY,
	 .help = "the class", .example = {"1", "1"}},
	{"number", .head = "no.", RT_AT(struct rt_entry, number), .type = RT_INT, .is = RT_KEY,
	 .low = 1, .high = RT_NUMBER_MOST, .help = "the number, its own in the class",
	 .example = {"1", "2"}},
	{"driver", RT_AT(struct rt_entry, driver), .type = RT_NAME, .also = "rider",
	 .is = RT_PERSON | RT_SOUGHT, .help = "who drives or rides",
	 .example = {"Ann Ashby", "Bo Birch"}},
	{"horses", RT_AT(struct rt_entry, horses), .type = RT_NAMES, .measure = "horse",
	 .read = read_horses, .is = RT_SOUGHT,
	 .help = "the horses, with ; or a comma, a slash, & or + between",
	 .example = {"Comet", "Daisy; Ember"}},
	{"height_cm", RT_AT(struct rt_entry, height_cm), .type = RT_HEIGHT, .decimals = 1,
	 .wide = true, .is = RT_EMPTY, .help = "how high the horse is; empty: not known",
	 .example = {"148", "13.2hh"}},
	{"turnout", RT_AT(struct rt_entry, turnout), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY | RT_SOUGHT, .help = "what is driven: a turnout of the show, or any words",
	 .example = {"single pony", "pair of ponies"}},
	{"carriage", RT_AT(struct rt_entry, carriage), .type = RT_NAME, .wide = true,
	 .is = RT_OPTIONAL | RT_SOUGHT,
	 .help = "the one carriage, where several entries share it: a name of its own",
	 .example = {"", "the club's gig"}},
	{"groom", RT_AT(struct rt_entry, groom), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY | RT_PERSON | RT_SOUGHT, .help = "the groom",
	 .example = {"Cy Clay", "Di Dale"}},
	{"club", RT_AT(struct rt_entry, club), .type = RT_NAME, .is = RT_EMPTY | RT_SOUGHT,
	 .help = "the club, stable or nation", .example = {"Ash Valley", "Birch Hill"}},
	{"division", RT_AT(struct rt_entry, division), .type = RT_NAME, .wide = true,
	 .is = RT_OPTIONAL, .help = "the division, placed apart by `results --division`",
	 .example = {"senior", "junior"}},
	{"hors_concours", RT_AT(struct rt_entry, hors_concours), .type = RT_BOOL, .wide = true,
	 .is = RT_OPTIONAL, .help = "yes: scored, but never placed", .example = {"no", "no"}},
	{"status", RT_AT(struct rt_entry, status), .type = RT_WORD, .words = &rt_words_of_status,
	 .is = RT_OPTIONAL | RT_USUAL,
	 .help = "how the entry stands (scratched: withdrawn); empty: nothing is said of it",
	 .example = {"", ""}},
	{"status_why", .head = "why", RT_AT(struct rt_entry, status_why), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "why it stands so"},
	{"status_at", RT_AT(struct rt_entry, status_at), .type = RT_TEXT, .wide = true,
	 .is = RT_OF_SHOW, .help = "since when it stands so"},
	{"status_by", .head = "by", RT_AT(struct rt_entry, status_by), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "who said so"},
	{"entered_at", .head = "entered", RT_AT(struct rt_entry, entered_at), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "when the entry came in"},
	{"late", RT_AT(struct rt_entry, late), .type = RT_BOOL, .wide = true, .is = RT_OF_SHOW,
	 .help = "whether it came after entries had closed"},
	{"changes", RT_AT(struct rt_entry, changes), .type = RT_INT, .wide = true, .is = RT_OF_SHOW,
	 .help = "how many changes of it are kept"},
};

static const struct rt_entry blank_entry = {.height_cm = NAN, .status = RT_ENTERED};

const struct rt_record rt_entry_record = {
	"entry",
	"entries",
	"Entries",
	RT_FIELDS(entry_fields),
	.size = sizeof blank_entry,
	.blank = &blank_entry,
	.help = "Who comes with which horses to which class.",
};
