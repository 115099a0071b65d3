/* sheet results, marking and driver: papers of the show office.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"
#include "../times/times.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* What is typed for a paper about a class. */
struct class_asked {
	struct rt_strings classes;
	const char *class_name; /* of driver's sheets; NULL: all */
	struct rt_strings numbers;
	const char *judge;
	int64_t number;
	bool all, now, blank, figures, no_route;
	struct cli_route_asked route;
	struct cli_sheet sheet;
};

/* ---- sheet results --------------------------------------------------------------------------- */

static const struct rt_field results_options[] = {
	CLI_CLASSES(struct class_asked, classes, all),
	CLI_NOW(struct class_asked, now),
	CLI_OUT(struct class_asked, sheet),
};

static void print_results(struct cli *c, const struct class_asked *o, struct cli_pile *pile,
			  const char *class_name)
{
	struct cli_shown of = {.posting = {0}};

	cli_shown_read(c, class_name, o->now, &of);
	if (!cli_pile_leaves_out(c, pile, class_name, of.results.n == 0)) {
		cli_pile_class(pile, of.book.marks.class_);
		CLI_DO(c, rt_sheet_results(&pile->sheet, &of.shown, &pile->options, &c->err));
		cli_shown_note(c, &of);
	}
	cli_shown_free(&of);
}

static void sheet_results(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct cli_pile pile = {.many = false};

	cli_pile_begin(c, &o->sheet, &o->classes, o->all, "Results", &pile);
	for (size_t i = 0; i < pile.classes.n; i++)
		print_results(c, o, &pile, pile.classes.at[i]);
	cli_pile_end(c, &pile);
}

const struct cli_command cmd_sheet_results = {
	.name = "sheet results",
	.summary = "The results of a class, to put up.",
	.details =
		"Places by division with the judges' points and places, penalties, how a tie was\n"
		"parted; the others below; when it was posted and until when one may object. All of it\n"
		"as it was posted: where the results have changed since, a band says so, and the report\n"
		"what differs, exit status 1. A class that is not posted is provisional, in a band.\n" CLI_PILE
			CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet results 1 --out results-1.pdf",
	CLI_OPTIONS(struct class_asked, results_options),
	.run = sheet_results,
};

/* ---- sheet marking --------------------------------------------------------------------------- */

/* An entry and when it starts. */
struct starter {
	struct rt_entry entry;
	int64_t rank;
};

static int by_rank(const void *left, const void *right)
{
	const struct starter *a = left, *b = right;

	if (a->rank != b->rank)
		return a->rank < b->rank ? -1 : 1;
	return (a->entry.number > b->entry.number) - (a->entry.number < b->entry.number);
}

/* The pile lies as the judge will need it. */
static void sort_entries(struct cli *c, const char *class_name, struct rt_entries *entries)
{
	struct starter *starter = cli_array(c, entries->n, sizeof *starter);
	int64_t *rank = cli_array(c, entries->n, sizeof *rank);
	const char *by;

	CLI_DO(c, cli_rank_starts(c, class_name, entries, rank, &by));
	if (c->err.code)
		return;
	for (size_t i = 0; i < entries->n; i++)
		starter[i] = (struct starter){entries->at[i], rank[i]};
	qsort(starter, entries->n, sizeof *starter, by_rank);
	for (size_t i = 0; i < entries->n; i++)
		entries->at[i] = starter[i].entry;
}

/* Keep the entry of --number only, where that is given; else those that may start, in the order of
 * starting. */
static void choose_entries(struct cli *c, int64_t number, const char *class_name,
			   struct rt_entries *entries)
{
	size_t kept = 0;

	sort_entries(c, class_name, entries);
	for (size_t i = 0; i < entries->n; i++) {
		const struct rt_entry *entry = &entries->at[i];
		bool gone = entry->status == RT_WITHDRAWN || entry->status == RT_DID_NOT_START;

		if (number ? entry->number == number : !gone)
			entries->at[kept++] = *entry;
	}
	entries->n = kept;
}

/* A class of one paper has something to print. */
static void need_entries(struct cli *c, int64_t number, const char *class_name,
			 const struct rt_entries *entries)
{
	if (!entries->n && number)
		CLI_FAIL(c, RT_E_NOTFOUND, "class %s has no number %lld", class_name,
			 (long long)number);
	else if (!entries->n)
		CLI_FAIL(c, RT_E_NOTFOUND, "class %s has no entry that may start", class_name);
}

static const char *choose_judge(struct cli *c, const char *position, const struct rt_class *class_)
{
	char words[200];

	for (size_t i = 0; position && i < class_->judges.n; i++)
		if (strcasecmp(class_->judges.at[i].position, position) == 0)
			return class_->judges.at[i].position;
	if (position) {
		rt_judges_words(&class_->judges, words, sizeof words);
		CLI_FAIL(c, RT_E_NOTFOUND, "--judge: no judge at \"%s\" in class %s: %s", position,
			 class_->name, words);
	}
	return NULL;
}

/* The route of the class's test. */
static void route_of_test(struct cli *c, const struct class_asked *o, const char *test,
			  struct cli_route *route)
{
	struct cli_route_asked asked = o->route;

	asked.test = test;
	cli_route_make(c, &asked, route);
}

static const struct rt_field marking_options[] = {
	CLI_CLASSES(struct class_asked, classes, all),
	CLI_OUT(struct class_asked, sheet),
	CLI_JUDGE(struct class_asked, judge, 0),
	{"number", RT_AT(struct class_asked, number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "of one entry only"},
	{"blank", RT_AT(struct class_asked, blank), .type = RT_BOOL,
	 .help = "a blank sheet for each judge, to write the number on"},
	{"figures", RT_AT(struct class_asked, figures), .type = RT_BOOL,
	 .help = "draw each movement beside its words"},
	CLI_LEVEL(struct class_asked, route.level, 0),
	CLI_KIND(struct class_asked, route.kind, 0),
};

/* The marking sheets of a class whose entries are chosen. */
static void set_marking(struct cli *c, const struct class_asked *o, struct cli_pile *pile,
			const struct rt_class_book *book)
{
	const struct rt_class_marks *m = &book->marks;
	struct cli_route route = {0};
	struct rt_marking of = {.class_ = m->class_,
				.test = m->test,
				.rule = m->rule,
				.items = &book->items,
				.entries = o->blank ? NULL : &book->entries,
				.judged = m->judged,
				.position = choose_judge(c, o->judge, m->class_)};

	if (!c->err.code && o->figures) {
		route_of_test(c, o, of.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	cli_pile_class(pile, of.class_);
	CLI_DO(c, rt_sheet_marking(&pile->sheet, &of, &pile->options, &c->err));
	cli_route_free(&route);
}

static void print_marking(struct cli *c, const struct class_asked *o, struct cli_pile *pile,
			  const char *class_name)
{
	struct rt_class_book book = {.entries = {0}};

	CLI_DO(c, rt_store_class_book(c->store, class_name, &book, &c->err));
	if (!c->err.code && !o->blank)
		choose_entries(c, o->number, class_name, &book.entries);
	if (!pile->many && !o->blank && !c->err.code)
		need_entries(c, o->number, class_name, &book.entries);
	if (!cli_pile_leaves_out(c, pile, class_name, !o->blank && !book.entries.n))
		set_marking(c, o, pile, &book);
	rt_class_book_free(&book);
}

static void sheet_marking(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct cli_pile pile = {.many = false};

	cli_pile_begin(c, &o->sheet, &o->classes, o->all, "Marking sheets", &pile);
	for (size_t i = 0; i < pile.classes.n; i++)
		print_marking(c, o, &pile, pile.classes.at[i]);
	cli_pile_end(c, &pile);
}

const struct cli_command cmd_sheet_marking = {
	.name = "sheet marking",
	.summary = "The marking sheets of a class, one for each entry and judge.",
	.details =
		"The test's words with boxes for marks, coefficients, remarks, errors of course, the\n"
		"sums and a line to sign on. The pile is ordered by judge, then as they start. Entries\n"
		"that withdrew or did not start have none.\n" CLI_PILE CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet marking 1 --judge C --out marking.pdf",
	CLI_OPTIONS(struct class_asked, marking_options),
	.run = sheet_marking,
};

/* ---- sheet driver ---------------------------------------------------------------------------- */

static const struct rt_result *result_of(const struct rt_results *results, int64_t number)
{
	for (size_t i = 0; i < results->n; i++)
		if (results->at[i].entry->number == number)
			return &results->at[i];
	return NULL;
}

/* The results of the numbers that are typed; without any, of all with a sheet that is in.  How
 * many. */
static size_t choose_results(struct cli *c, const struct class_asked *o,
			     const struct rt_results *results, const struct rt_result **out)
{
	size_t n = 0;

	for (size_t i = 0; i < results->n && !o->numbers.n; i++)
		if (results->at[i].scored)
			out[n++] = &results->at[i];
	for (size_t i = 0; i < o->numbers.n && !c->err.code; i++) {
		int64_t number = cli_number(c, "number", o->numbers.at[i]);

		out[n] = result_of(results, number);
		if (!out[n++])
			CLI_FAIL(c, RT_E_NOTFOUND, "there is no entry %lld in class %s",
				 (long long)number, results->of->class_->name);
	}
	return c->err.code ? 0 : n;
}

static const struct rt_field driver_options[] = {
	{"class", RT_AT(struct class_asked, class_name), .type = RT_NAME, .is = RT_ARGUMENT},
	{"number", RT_AT(struct class_asked, numbers), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_MANY},
	{"all", RT_AT(struct class_asked, all), .type = RT_BOOL,
	 .help = "of everybody with a sheet that is in, in the class or in all"},
	CLI_NOW(struct class_asked, now),
	CLI_OUT(struct class_asked, sheet),
	{"no-route", RT_AT(struct class_asked, no_route), .type = RT_BOOL,
	 .help = "leave the drawing out"},
	CLI_LEVEL(struct class_asked, route.level, 0),
	CLI_KIND(struct class_asked, route.kind, 0),
};

/* The own sheets of a class, one after another. */
static void set_own(struct cli *c, const struct class_asked *o, struct cli_pile *pile,
		    const struct cli_shown *in, const struct rt_result *const *result, size_t n)
{
	const struct rt_class *class_ = in->book.marks.class_;
	struct rt_own_sheet of = {.shown = &in->shown, .feet = c->feet};
	struct cli_route route = {0};
	char words[4 * RT_NAME_MOST + 40], label[4 * RT_NAME_MOST + 40];

	if (!o->no_route) {
		route_of_test(c, o, in->book.marks.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	cli_pile_class(pile, class_);
	for (size_t i = 0; i < n && !c->err.code; i++) {
		const struct rt_entry *entry = result[i]->entry;

		snprintf(words, sizeof words, "%lld %s", (long long)entry->number, entry->driver);
		snprintf(label, sizeof label, "%s-%lld", class_->name, (long long)entry->number);
		rt_sheet_bookmark(&pile->sheet, words, label, true);
		of.result = result[i];
		CLI_DO(c, rt_sheet_own(&pile->sheet, &of, &pile->options, &c->err));
	}
	cli_route_free(&route);
}

static void print_own(struct cli *c, const struct class_asked *o, struct cli_pile *pile,
		      const char *class_name)
{
	struct cli_shown in = {.posting = {0}};
	const struct rt_result **result;
	size_t n = 0;

	cli_shown_read(c, class_name, o->now, &in);
	result = cli_array(c, in.results.n + o->numbers.n + 1, sizeof *result);
	if (result)
		n = choose_results(c, o, &in.results, result);
	if (!cli_pile_leaves_out(c, pile, class_name, n == 0) && n) {
		set_own(c, o, pile, &in, result, n);
		cli_shown_note(c, &in);
	}
	cli_shown_free(&in);
}

static void sheet_driver(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct rt_strings one = {.at = (const char **)&o->class_name, .n = o->class_name != NULL};
	struct cli_pile pile = {.many = false};

	if (o->all ? o->numbers.n > 0 : !o->numbers.n)
		CLI_FAIL(c, RT_E_USAGE,
			 o->all ? "--all means everybody: give no number"
				: "of which number? Give one or more, or --all");
	cli_pile_begin(c, &o->sheet, &one, !o->class_name, "Drivers' and riders' sheets", &pile);
	for (size_t i = 0; i < pile.classes.n; i++)
		print_own(c, o, &pile, pile.classes.at[i]);
	cli_pile_end(c, &pile);
}

const struct cli_command cmd_sheet_driver = {
	.name = "sheet driver",
	.summary = "A driver's or rider's own sheet: all marks beside the class, and the route.",
	.details =
		"Every judge's mark of every movement, on a scale beside the lowest, the highest and\n"
		"the mean of the class; where there is none, why; the route of the test with its\n"
		"tightest turn drawn thick. Place and score are those that are posted, with a band as\n"
		"of `sheet results`. Of several, a PDF has a bookmark for each.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet driver 1 13 --out driver-13.pdf",
	CLI_OPTIONS(struct class_asked, driver_options),
	.run = sheet_driver,
};
