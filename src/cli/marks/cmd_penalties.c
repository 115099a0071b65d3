/* penalty add, list and undo.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <stdlib.h>

/* ---- penalty add ------------------------------------------------------------------------- */

struct penalty_add {
	const char *class_name, *why, *by, *article;
	int64_t number, errors, points_x100;
	bool eliminated;
};

/* Points, not none, negative ones too. */
static enum rt_err read_points(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	int64_t *points_x100 = member;

	(void)f;
	(void)text;
	if (rt_parse_decimal(s, 2, points_x100) && *points_x100 &&
	    llabs(*points_x100) <= RT_PENALTY_MOST_X100)
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "\"%s\": points up to %d with at most two decimals, negative to take some "
		       "back",
		       s, RT_PENALTY_MOST_X100 / 100);
}

#define PENALTY(member) RT_AT(struct penalty_add, member)

static const struct rt_field penalty_add_options[] = {
	CLI_CLASS(struct penalty_add, class_name),
	CLI_NUMBER(struct penalty_add, number),
	{"errors", PENALTY(errors), .head = "N", .type = RT_INT, .low = 0, .high = 9,
	 .help = "errors of course in all"},
	{"points", PENALTY(points_x100), .head = "P", .type = RT_OWN, .read = read_points,
	 .help = "penalty points"},
	{"eliminated", PENALTY(eliminated), .type = RT_BOOL, .help = "the entry is eliminated"},
	{"article", PENALTY(article), .head = "TEXT", .type = RT_TEXT, .high = CLI_TEXT_MOST,
	 .help = "the article of the rules"},
	CLI_WHY(struct penalty_add, why, 0),
	CLI_BY(struct penalty_add, by, 0),
};

struct penalty_row {
	const char *class_name, *article, *why;
	int64_t number;
	struct rt_exact points, errors;
	bool eliminated;
};

#define KEPT(member) RT_AT(struct penalty_row, member)

static const struct rt_field penalty_fields[] = {
	{"class", KEPT(class_name)},
	{"number", .head = "no.", KEPT(number), .type = RT_INT},
	{"points", KEPT(points), .type = RT_EXACT},
	{"errors", .head = "errors of course", KEPT(errors), .type = RT_EXACT},
	{"eliminated", KEPT(eliminated), .type = RT_BOOL},
	{"article", KEPT(article)},
	{"why", KEPT(why)},
};

static const struct rt_record penalty_table = RT_TABLE("penalty", "Penalty kept", penalty_fields,
						       struct penalty_row);

/* The rule may let errors of course eliminate: then the errors said more than their points.  A
 * class that cannot be added up, as it has no rule, has nothing to tell. */
static void note_eliminated(struct cli *c, const char *class_name, int64_t number)
{
	struct rt_class_book book = {0};
	struct rt_results r = {0};
	struct rt_error err = {.code = RT_OK};
	enum rt_err e = rt_store_class_book(c->store, class_name, &book, &err);

	if (!e)
		e = rt_results_make(&r, &book.marks, &err);
	for (size_t i = 0; i < r.n && !e; i++)
		if (r.at[i].entry->number == number && r.at[i].entry->status == RT_ENTERED &&
		    r.at[i].status == RT_ELIMINATED)
			rt_report_note(&c->report, "Number %" PRId64 " is eliminated: %s.", number,
				       r.at[i].status_why);
	rt_results_free(&r);
	rt_class_book_free(&book);
}

static void penalty_add(struct cli *c, const void *typed)
{
	const struct penalty_add *o = typed;
	bool points = o->points_x100 != 0, errors = o->errors >= 0, eliminated = o->eliminated;
	bool by_article = !points && !errors && !eliminated; /* it says what it costs */
	struct rt_penalty p = {.number = o->number,
			       .points_x100 = o->points_x100,
			       .errors = o->errors,
			       .article = o->article,
			       .why = o->why,
			       .who = o->by,
			       .when = c->when};
	struct penalty_row row;

	if (points + errors + eliminated > 1 || (by_article && !o->article))
		CLI_FAIL(c, RT_E_USAGE,
			 "penalty add wants one of --points P, --errors N, "
			 "--eliminated, or --article NAME that says what it costs");
	cli_store(c, true);
	if (by_article)
		cli_article_cost(c, o->class_name, &p, &eliminated);
	p.eliminated = eliminated;
	if (eliminated)
		CLI_DO(c, rt_store_status_put(c->store, o->class_name, p.number, RT_ELIMINATED,
					      p.why ? p.why : p.article, p.who, p.when, &c->err));
	CLI_DO(c, rt_store_penalty_put(c->store, o->class_name, &p, &c->err));
	row = (struct penalty_row){o->class_name,
				   p.article,
				   p.why,
				   p.number,
				   {p.points_x100 != 0, p.points_x100, 2},
				   {p.errors >= 0, p.errors, 0},
				   eliminated};
	rt_report_list(&c->report, &penalty_table, &row, 1);
	if (p.points_x100 < 0 && !p.article)
		rt_report_note(&c->report, "Points are taken off; how often an article was taken "
					   "stays: penalty undo takes a penalty back whole.");
	if (p.errors >= 0 && !c->err.code)
		note_eliminated(c, o->class_name, p.number);
	cli_note_posted(c, o->class_name);
}

const struct cli_command cmd_penalty_add = {
	.name = "penalty add",
	.args = "CLASS NUMBER (--article NAME | --errors N | --points P | --eliminated)",
	.summary = "Keep errors of course, penalty points or an elimination.",
	.details =
		"--errors says how many errors of course there were in all, as announced; when the\n"
		"sheet shows errors too the larger number counts, never both. --points are added to\n"
		"those kept before, up to 500 together; a negative number takes some off. --article alone\n"
		"takes what it costs the first, second or third time from the table that penalty\n"
		"articles shows; with one of the others it is only kept beside it. penalty undo takes a\n"
		"penalty back.",
	.example = "--show spring.show penalty add 1 14 --article \"groom dismounts\"",
	CLI_OPTIONS(struct penalty_add, penalty_add_options),
	.blank = &(const struct penalty_add){.errors = -1},
	.table = {&penalty_table},
	.run = penalty_add,
};

/* ---- penalty list ------------------------------------------------------------------------ */

struct penalty_list {
	const char *class_name;
	int64_t number; /* 0: every entry */
};

static const struct rt_field list_options[] = {
	CLI_CLASS(struct penalty_list, class_name),
	{"number", RT_AT(struct penalty_list, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .is = RT_ARGUMENT},
};

struct listed {
	const struct rt_penalty *penalty;
	struct rt_exact points, errors;
};

#define LISTED(member) RT_IN(struct listed, penalty, struct rt_penalty, member)

static const struct rt_field listed_fields[] = {
	{"id", .head = "Id", LISTED(id), .type = RT_INT},
	{"number", .head = "No.", LISTED(number), .type = RT_INT},
	{"points", .head = "Points", RT_AT(struct listed, points), .type = RT_EXACT},
	{"errors", .head = "Errors", RT_AT(struct listed, errors), .type = RT_EXACT},
	{"eliminated", .head = "Out", LISTED(eliminated), .type = RT_BOOL},
	{"article", .head = "Article", LISTED(article)},
	{"why", .head = "Why", LISTED(why)},
	{"by", .head = "By", LISTED(who)},
	{"at", .head = "At", LISTED(when)},
	{"undone_by", .head = "Taken back by", LISTED(undoing.who), .wide = true},
	{"undone_at", .head = "Taken back at", LISTED(undoing.when)},
	{"undone_why", .head = "Why taken back", LISTED(undoing.why), .wide = true},
};

static const struct rt_record listed_table = RT_TABLE("penalties", "Penalties", listed_fields,
						      struct listed);

static struct listed listed_of(const struct rt_penalty *p)
{
	return (struct listed){
		p, {p->points_x100 != 0, p->points_x100, 2}, {p->errors >= 0, p->errors, 0}};
}

/* The class is there, and so is an entry of that number where one is given. */
static void check_entry(struct cli *c, const char *class_name, int64_t number)
{
	struct rt_entries entries = {0};
	const struct rt_entry *entry;

	CLI_DO(c, rt_store_entries(c->store, class_name, &entries, &c->err));
	if (number)
		cli_find_entry(c, &entries, class_name, number, &entry);
	RT_LIST_FREE(&entries);
}

static void penalty_list(struct cli *c, const void *typed)
{
	const struct penalty_list *o = typed;
	struct rt_table *t = rt_report_rows(&c->report, &listed_table);
	struct rt_penalties all = {0};

	cli_store(c, false);
	check_entry(c, o->class_name, o->number);
	CLI_DO(c, rt_store_penalties(c->store, o->class_name, &all, &c->err));
	for (size_t i = 0; i < all.n; i++) {
		const struct listed row = listed_of(&all.at[i]);

		if (!o->number || row.penalty->number == o->number)
			rt_put_row(t, &row);
	}
	if (!all.n)
		rt_report_note(&c->report, "There are no penalties.");
	RT_LIST_FREE(&all);
}

const struct cli_command cmd_penalty_list = {
	.name = "penalty list",
	.summary = "Every penalty of a class or an entry, with who, when and why.",
	.details = "Those that were taken back stay in the list, and say so; they do not count.",
	.example = "--show spring.show penalty list 1",
	CLI_OPTIONS(struct penalty_list, list_options),
	.table = {&listed_table},
	.run = penalty_list,
};

/* ---- penalty undo ------------------------------------------------------------------------ */

struct penalty_undo {
	const char *class_name;
	int64_t number, id; /* id 0: the latest that holds */
	struct rt_reason reason;
};

static const struct rt_field undo_options[] = {
	CLI_CLASS(struct penalty_undo, class_name),
	CLI_NUMBER(struct penalty_undo, number),
	{"id", RT_AT(struct penalty_undo, id), .type = RT_INT, .low = 1, .high = INT32_MAX,
	 .is = RT_ARGUMENT},
	CLI_WHY(struct penalty_undo, reason.why, 0),
	CLI_BY(struct penalty_undo, reason.who, 0),
};

static const struct rt_record undone_table = RT_TABLE("penalties", "Penalty taken back",
						      listed_fields, struct listed);

/* The penalty that is meant; NULL after an error. */
static const struct rt_penalty *find_penalty(struct cli *c, const struct penalty_undo *o,
					     const struct rt_penalties *all)
{
	const struct rt_penalty *found = NULL;

	for (size_t i = 0; i < all->n; i++) {
		const struct rt_penalty *p = &all->at[i];

		if (p->number == o->number && (o->id ? p->id == o->id : !p->undone))
			found = p;
	}
	if (!found && o->id)
		CLI_FAIL(c, RT_E_NOTFOUND,
			 "number %" PRId64 " has no penalty %" PRId64 ": `penalty list %s %" PRId64
			 "` shows those it has",
			 o->number, o->id, o->class_name, o->number);
	else if (!found)
		CLI_FAIL(c, RT_E_NOTFOUND, "number %" PRId64 " has no penalty to take back",
			 o->number);
	else if (found->undone)
		CLI_FAIL(c, RT_E_INPUT, "penalty %" PRId64 " was taken back by %s at %s", found->id,
			 found->undoing.who ? found->undoing.who : "somebody",
			 found->undoing.when ? found->undoing.when : "no time known");
	return c->err.code ? NULL : found;
}

static void penalty_undo(struct cli *c, const void *typed)
{
	const struct penalty_undo *o = typed;
	const struct rt_reason said = {o->reason.who, o->reason.why, c->when};
	const struct rt_penalty *found;
	struct rt_penalties all = {0};

	cli_store(c, true);
	check_entry(c, o->class_name, o->number);
	CLI_DO(c, rt_store_penalties(c->store, o->class_name, &all, &c->err));
	found = find_penalty(c, o, &all);
	if (found) {
		struct rt_penalty undone = *found;
		const struct listed row = listed_of(&undone);

		undone.undoing = said;
		CLI_DO(c, rt_store_penalty_undo(c->store, o->class_name, found, &said, &c->err));
		rt_report_list(&c->report, &undone_table, &row, 1);
	}
	RT_LIST_FREE(&all);
	cli_note_posted(c, o->class_name);
}

const struct cli_command cmd_penalty_undo = {
	.name = "penalty undo",
	.summary = "Take a penalty back whole, as if it had never been.",
	.details =
		"ID is that of penalty list; without it the latest that holds. Its points, its errors and\n"
		"its time of an article no more count; who was eliminated by it stands as before. It stays\n"
		"in the file's history.",
	.example = "--show spring.show penalty undo 1 14 --why \"the other groom\" --by Tove",
	CLI_OPTIONS(struct penalty_undo, undo_options),
	.table = {&undone_table},
	.run = penalty_undo,
};
