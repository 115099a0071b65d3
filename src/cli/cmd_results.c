/* results: a class scored and placed, beside what was posted of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

static enum rt_err report_changes(struct cli *c, const struct rt_posting *posting,
				  struct rt_results *results)
{
	struct rt_report changes = {0};
	size_t n = 0;
	enum rt_err e = rt_posting_changes(&changes, posting, results, &n, &c->err);

	rt_report_free(&changes);
	results->state = n ? "changed since it was posted" : "posted";
	if (!e)
		rt_results_report(&c->report, results);
	if (!e)
		rt_posting_report(&c->report, posting, c->when);
	if (!e && n)
		e = rt_posting_changes(&c->report, posting, results, &n, &c->err);
	if (e || !n)
		return e;
	rt_report_note(&c->report,
		       "These are not the results that were posted (version %lld): post the class "
		       "again when they are right.",
		       (long long)posting->version);
	c->report.needs_person = true;
	return RT_OK;
}

static enum rt_err results(struct cli *c, const struct cli_call *call)
{
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_posting posting = {0};
	bool posted = false;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &book, &c->err);
	if (!e)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e)
		e = rt_store_posting_latest(c->store, call->arg[0], &posting, &posted, &c->err);
	if (!e && posted)
		e = report_changes(c, &posting, &results);
	else if (!e)
		rt_results_report(&c->report, &results);
	rt_posting_free(&posting);
	rt_results_free(&results);
	rt_class_book_free(&book);
	return e;
}

const struct cli_command cmd_results = {
	.group = "Results",
	.name = "results",
	.args = "CLASS",
	.summary = "Score and place a class.",
	.details =
		"Provisional results (a sheet, a box or the second keying missing) say so. Exit status 1\n"
		"when the two keyings differ somewhere, or when the class was posted and its numbers\n"
		"have changed since. An entry is running while a sheet is not in or has an empty box.\n"
		"Where a rule takes errors in per cent, penalty_points is that and points_off the\n"
		"office's points off every total.",
	.example = "--show spring.show results 1",
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = results,
};
