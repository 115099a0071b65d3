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
	const char *class_name, *judge;
	int64_t number;
	bool now, blank, figures, no_route;
	struct cli_route_asked route;
	struct cli_sheet sheet;
};

/* What it is made from. */
struct class_paper {
	struct rt_sheet_options options;
	struct cli_shown of; /* its book only for a marking sheet */
	struct rt_sheet sheet;
};

/* ---- sheet results --------------------------------------------------------------------------- */

static const struct rt_field results_options[] = {
	CLI_CLASS(struct class_asked, class_name),
	CLI_NOW(struct class_asked, now),
	CLI_OUT(struct class_asked, sheet),
};

static void sheet_results(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct class_paper p = {.sheet = {0}};

	cli_store(c, false);
	cli_shown_read(c, o->class_name, o->now, &p.of);
	p.options = cli_sheet_options(c, &o->sheet);
	CLI_DO(c, rt_sheet_results(&p.sheet, &p.of.shown, &p.options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	cli_shown_note(c, &p.of);
	cli_shown_free(&p.of);
}

const struct cli_command cmd_sheet_results = {
	.name = "sheet results",
	.summary = "The results of a class, to put up.",
	.details =
		"Places by division with the judges' points and places, penalties, how a tie was\n"
		"parted; the others below; when it was posted and until when one may object. All of it\n"
		"as it was posted: where the results have changed since, a band says so, and the report\n"
		"what differs, exit status 1. A class that is not posted is provisional, in a band.\n" CLI_OUTPUT_STANDARD,
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
static void choose_entries(struct cli *c, const struct class_asked *o, struct rt_entries *entries)
{
	size_t kept = 0;

	sort_entries(c, o->class_name, entries);
	for (size_t i = 0; i < entries->n; i++) {
		const struct rt_entry *entry = &entries->at[i];
		bool gone = entry->status == RT_WITHDRAWN || entry->status == RT_DID_NOT_START;

		if (o->number ? entry->number == o->number : !gone)
			entries->at[kept++] = *entry;
	}
	entries->n = kept;
	if (!kept && o->number)
		CLI_FAIL(c, RT_E_NOTFOUND, "class %s has no number %lld", o->class_name,
			 (long long)o->number);
	else if (!kept)
		CLI_FAIL(c, RT_E_NOTFOUND, "class %s has no entry that may start", o->class_name);
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
	CLI_CLASS(struct class_asked, class_name),
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

static void sheet_marking(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct class_paper p = {.sheet = {0}};
	struct rt_class_book *book = &p.of.book;
	struct cli_route route = {0};
	struct rt_marking of;

	cli_store(c, false);
	CLI_DO(c, rt_store_class_book(c->store, o->class_name, book, &c->err));
	p.options = cli_sheet_options(c, &o->sheet);
	of = (struct rt_marking){.class_ = book->marks.class_,
				 .test = book->marks.test,
				 .rule = book->marks.rule,
				 .items = &book->items,
				 .entries = o->blank ? NULL : &book->entries};
	if (!c->err.code)
		of.position = choose_judge(c, o->judge, of.class_);
	if (!c->err.code && !o->blank)
		choose_entries(c, o, &book->entries);
	if (!c->err.code && o->figures) {
		route_of_test(c, o, of.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	CLI_DO(c, rt_sheet_marking(&p.sheet, &of, &p.options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	cli_route_free(&route);
	cli_shown_free(&p.of);
}

const struct cli_command cmd_sheet_marking = {
	.name = "sheet marking",
	.summary = "The marking sheets of a class, one for each entry and judge.",
	.details =
		"The test's words with boxes for marks, coefficients, remarks, errors of course, the\n"
		"sums and a line to sign on. The pile is ordered by judge, then as they start. Entries\n"
		"that withdrew or did not start have none.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet marking 1 --judge C --out marking.pdf",
	CLI_OPTIONS(struct class_asked, marking_options),
	.run = sheet_marking,
};

/* ---- sheet driver ---------------------------------------------------------------------------- */

static const struct rt_result *result_of(struct cli *c, const struct class_asked *o,
					 const struct rt_results *results)
{
	for (size_t i = 0; i < results->n; i++)
		if (results->at[i].entry->number == o->number)
			return &results->at[i];
	CLI_FAIL(c, RT_E_NOTFOUND, "there is no entry %lld in class %s", (long long)o->number,
		 o->class_name);
	return NULL;
}

static const struct rt_field driver_options[] = {
	CLI_CLASS(struct class_asked, class_name),
	CLI_NUMBER(struct class_asked, number),
	CLI_NOW(struct class_asked, now),
	CLI_OUT(struct class_asked, sheet),
	{"no-route", RT_AT(struct class_asked, no_route), .type = RT_BOOL,
	 .help = "leave the drawing out"},
	CLI_LEVEL(struct class_asked, route.level, 0),
	CLI_KIND(struct class_asked, route.kind, 0),
};

static void sheet_driver(struct cli *c, const void *typed)
{
	const struct class_asked *o = typed;
	struct class_paper p = {.sheet = {0}};
	struct cli_route route = {0};
	struct rt_own_sheet of = {.shown = &p.of.shown, .feet = c->feet};

	cli_store(c, false);
	cli_shown_read(c, o->class_name, o->now, &p.of);
	p.options = cli_sheet_options(c, &o->sheet);
	if (!c->err.code)
		of.result = result_of(c, o, &p.of.results);
	if (!c->err.code && !o->no_route) {
		route_of_test(c, o, p.of.book.marks.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	CLI_DO(c, rt_sheet_own(&p.sheet, &of, &p.options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	cli_shown_note(c, &p.of);
	cli_route_free(&route);
	cli_shown_free(&p.of);
}

const struct cli_command cmd_sheet_driver = {
	.name = "sheet driver",
	.summary = "A driver's or rider's own sheet: all marks beside the class, and the route.",
	.details =
		"Every judge's mark of every movement, on a scale beside the lowest, the highest and\n"
		"the mean of the class; where there is none, why; the route of the test with its\n"
		"tightest turn drawn thick. Place and score are those that are posted, with a band as\n"
		"of `sheet results`.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet driver 1 13 --out driver-13.pdf",
	CLI_OPTIONS(struct class_asked, driver_options),
	.run = sheet_driver,
};
