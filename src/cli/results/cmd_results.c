/* results: a class scored and placed, beside what was posted of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* The results beside those that were posted. */
static void report_changes(struct cli *c, const struct rt_posting *posting,
			   struct rt_results *results)
{
	struct rt_report changes = {0};
	size_t n = 0;

	CLI_DO(c, rt_posting_changes(&changes, posting, results, &n, &c->err));
	rt_report_free(&changes);
	results->state = n ? "changed since it was posted" : "posted";
	rt_results_report(&c->report, results);
	rt_posting_report(&c->report, posting, c->when);
	if (!n)
		return;
	CLI_DO(c, rt_posting_changes(&c->report, posting, results, &n, &c->err));
	rt_report_note(&c->report,
		       "These are not the results that were posted (version %lld): post the class "
		       "again when they are right.",
		       (long long)posting->version);
	c->report.needs_person = true;
}

static void results(struct cli *c, const void *typed)
{
	const char *name = CLI_TYPED(typed);
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_posting posting = {0};
	bool posted = false;

	cli_store(c, false);
	CLI_DO(c, rt_store_class_book(c->store, name, &book, &c->err));
	CLI_DO(c, rt_results_make(&results, &book.marks, &c->err));
	CLI_DO(c, rt_store_posting_latest(c->store, name, &posting, &posted, &c->err));
	if (posted)
		report_changes(c, &posting, &results);
	else if (!c->err.code)
		rt_results_report(&c->report, &results);
	rt_posting_free(&posting);
	rt_results_free(&results);
	rt_class_book_free(&book);
}

const struct cli_command cmd_results = {
	.name = "results",
	.summary = "Score and place a class.",
	.details =
		"Provisional results (a sheet, a box or the second keying missing) say so. Exit status 1\n"
		"when the two keyings differ somewhere, or when the class was posted and its numbers\n"
		"have changed since. An entry is running while a sheet is not in or has an empty box.\n"
		"Where a rule takes errors in per cent, penalty_points is that and points_off the\n"
		"office's points off every total.",
	.example = "--show spring.show results 1",
	CLI_OPTIONS(const char *, cli_class_argument),
	.run = results,
};
