/* sheet results, marking and driver: papers of the show office.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"
#include "times.h"

#include <stdlib.h>
#include <string.h>

#define PAPER_OPTION                                                                               \
	{                                                                                          \
		"paper", "SIZE", "a4 (unless given) or letter", false                              \
	}

/* A paper about a class, and what it is made from. */
struct class_paper {
	struct rt_sheet_options options;
	struct rt_show show;
	struct rt_class_book book;
	struct rt_results results; /* empty for a marking sheet */
	struct rt_sheet sheet;
};

static void class_paper_free(struct class_paper *p)
{
	rt_sheet_free(&p->sheet);
	rt_results_free(&p->results);
	rt_class_book_free(&p->book);
	rt_show_free(&p->show);
}

static enum rt_err class_paper_read(struct cli *c, const struct cli_call *call,
				    struct class_paper *p)
{
	enum rt_err e = cli_sheet_options(c, call, &p->options);

	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_show(c->store, &p->show, &c->err);
	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &p->book, &c->err);
	p->options.show = p->show.title;
	return e;
}

/* ---- sheet results --------------------------------------------------------------------------- */

static enum rt_err sheet_results(struct cli *c, const struct cli_call *call)
{
	struct class_paper p = {0};
	struct rt_posting posting = {0};
	bool posted = false;
	enum rt_err e = class_paper_read(c, call, &p);

	if (!e)
		e = rt_results_make(&p.results, &p.book.marks, &c->err);
	if (!e)
		e = rt_store_posting_latest(c->store, call->arg[0], &posting, &posted, &c->err);
	if (!e)
		e = rt_sheet_results(&p.sheet, &p.results, posted ? &posting : NULL, &p.options,
				     &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &p.sheet);
	rt_posting_free(&posting);
	class_paper_free(&p);
	return e;
}

const struct cli_command cmd_sheet_results = {
	.group = "Papers",
	.name = "sheet results",
	.args = "CLASS --out FILE.pdf|.svg",
	.summary = "The results of a class, to put up.",
	.details =
		"Places by division with the judges' points and places, penalties, how a tie was\n"
		"parted; the others below; when it was posted and until when one may object.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet results 1 --out results-1.pdf",
	.old_option = {CLI_OUT_OPTIONS, PAPER_OPTION},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = sheet_results,
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
static enum rt_err sort_entries(struct cli *c, const char *class_name, struct rt_entries *entries)
{
	struct starter *starter = calloc(entries->n + 1, sizeof *starter);
	int64_t *rank = calloc(entries->n + 1, sizeof *rank);
	const char *by;
	enum rt_err e = starter && rank ? cli_rank_starts(c, class_name, entries, rank, &by)
					: rt_fail_nomem(&c->err);

	for (size_t i = 0; !e && i < entries->n; i++)
		starter[i] = (struct starter){entries->at[i], rank[i]};
	if (!e)
		qsort(starter, entries->n, sizeof *starter, by_rank);
	for (size_t i = 0; !e && i < entries->n; i++)
		entries->at[i] = starter[i].entry;
	free(rank);
	free(starter);
	return e;
}

/* Keep the entry of --number only, where that is given; else those that may start, in the order of
 * starting. */
static enum rt_err choose_entries(struct cli *c, const struct cli_call *call,
				  struct rt_entries *entries)
{
	const char *typed = cli_option(call, "number");
	int64_t number = 0;
	size_t kept = 0;
	enum rt_err e = typed ? cli_whole(c, "--number", typed, 1, 99999, &number) : RT_OK;

	if (!e)
		e = sort_entries(c, call->arg[0], entries);
	for (size_t i = 0; !e && i < entries->n; i++) {
		const struct rt_entry *entry = &entries->at[i];
		bool gone = entry->status == RT_WITHDRAWN || entry->status == RT_DID_NOT_START;

		if (typed ? entry->number == number : !gone)
			entries->at[kept++] = *entry;
	}
	entries->n = kept;
	if (!e && kept == 0)
		e = rt_fail(&c->err, RT_E_NOTFOUND, "class %s has no %s %s", call->arg[0],
			    typed ? "number" : "entry that may start", typed ? typed : "");
	return e;
}

static enum rt_err choose_judge(struct cli *c, const struct cli_call *call,
				const struct rt_class *class_, const char **position)
{
	char words[200];

	*position = cli_option(call, "judge");
	for (size_t i = 0; *position && i < class_->judges.n; i++)
		if (strcmp(class_->judges.at[i].position, *position) == 0)
			return RT_OK;
	if (!*position)
		return RT_OK;
	rt_judges_words(&class_->judges, words, sizeof words);
	return rt_fail(&c->err, RT_E_NOTFOUND, "--judge: no judge at \"%s\" in class %s: %s",
		       *position, class_->name, words);
}

/* The route of the class's test. */
static enum rt_err route_of_test(struct cli *c, const struct cli_call *call, const char *test,
				 struct cli_route *route)
{
	struct cli_call of_test = *call;
	enum rt_err e;

	of_test.arg[0] = test;
	e = cli_route_read(c, &of_test, route);
	return e ? e : cli_route_make(c, route);
}

static enum rt_err make_marking(struct cli *c, const struct cli_call *call, struct class_paper *p)
{
	struct rt_marking of = {.class_ = p->book.marks.class_,
				.test = p->book.marks.test,
				.rule = p->book.marks.rule,
				.items = &p->book.items,
				.show = p->options.show,
				.when = p->options.when};
	struct cli_route route = {0};
	enum rt_err e = choose_judge(c, call, of.class_, &of.position);

	if (!e && !cli_option(call, "blank"))
		e = choose_entries(c, call, &p->book.entries);
	of.entries = cli_option(call, "blank") ? NULL : &p->book.entries;
	if (!e && cli_option(call, "figures")) {
		e = route_of_test(c, call, of.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	if (!e)
		e = rt_sheet_marking(&p->sheet, &of, &p->options, &c->err);
	cli_route_free(&route);
	return e;
}

static enum rt_err sheet_marking(struct cli *c, const struct cli_call *call)
{
	struct class_paper p = {0};
	enum rt_err e = class_paper_read(c, call, &p);

	if (!e)
		e = make_marking(c, call, &p);
	if (!e)
		e = cli_write_sheet(c, call, &p.sheet);
	class_paper_free(&p);
	return e;
}

const struct cli_command cmd_sheet_marking = {
	.group = "Papers",
	.name = "sheet marking",
	.args = "CLASS --out FILE.pdf|.svg",
	.summary = "The marking sheets of a class, one for each entry and judge.",
	.details =
		"The test's words with boxes for marks, coefficients, remarks, errors of course, the\n"
		"sums and a line to sign on. The pile is ordered by judge, then as they start. Entries\n"
		"that withdrew or did not start have none. --figures draws each movement's route\n"
		"beside it.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet marking 1 --judge C --out marking.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       PAPER_OPTION,
		       {"judge", "POSITION", "of one judge only", false},
		       {"number", "N", "of one entry only", false},
		       {"blank", NULL, "a blank sheet for each judge, to write the number on",
			false},
		       {"figures", NULL, "draw each movement beside its words", false},
		       {"level", "LEVEL", "for the figures, where the test tells none", false},
		       {"kind", "KIND", "the ring of the figures, where the test tells none",
			false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = sheet_marking,
};

/* ---- sheet driver ---------------------------------------------------------------------------- */

static enum rt_err result_of(struct cli *c, const struct cli_call *call,
			     const struct rt_results *results, const struct rt_result **out)
{
	int64_t number = 0;
	enum rt_err e = cli_whole(c, "number", call->arg[1], 1, 99999, &number);

	for (size_t i = 0; !e && i < results->n; i++)
		if (results->at[i].entry->number == number)
			*out = &results->at[i];
	if (!e && !*out)
		e = rt_fail(&c->err, RT_E_NOTFOUND, "there is no entry %s in class %s",
			    call->arg[1], call->arg[0]);
	return e;
}

static enum rt_err make_own(struct cli *c, const struct cli_call *call, struct class_paper *p)
{
	struct rt_own_sheet of = {.results = &p->results, .feet = c->feet};
	struct cli_route route = {0};
	enum rt_err e = result_of(c, call, &p->results, &of.result);

	if (!e && !cli_option(call, "no-route")) {
		e = route_of_test(c, call, p->book.marks.test->name, &route);
		of.route = &route.route;
		of.kind = route.kind;
	}
	if (!e)
		e = rt_sheet_own(&p->sheet, &of, &p->options, &c->err);
	cli_route_free(&route);
	return e;
}

static enum rt_err sheet_driver(struct cli *c, const struct cli_call *call)
{
	struct class_paper p = {0};
	enum rt_err e = class_paper_read(c, call, &p);

	if (!e)
		e = rt_results_make(&p.results, &p.book.marks, &c->err);
	if (!e)
		e = make_own(c, call, &p);
	if (!e)
		e = cli_write_sheet(c, call, &p.sheet);
	class_paper_free(&p);
	return e;
}

const struct cli_command cmd_sheet_driver = {
	.group = "Papers",
	.name = "sheet driver",
	.args = "CLASS NUMBER --out FILE.pdf|.svg",
	.summary = "A driver's or rider's own sheet: all marks beside the class, and the route.",
	.details =
		"Every judge's mark of every movement, on a scale beside the lowest, the highest and\n"
		"the mean of the class; the route of the test with its tightest turn drawn thick.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet driver 1 13 --out driver-13.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       PAPER_OPTION,
		       {"no-route", NULL, "leave the drawing out", false},
		       {"level", "LEVEL", "of the route, where the test tells none", false},
		       {"kind", "KIND", "the ring of the route, where the test tells none", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = sheet_driver,
};
