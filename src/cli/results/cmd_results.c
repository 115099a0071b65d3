/* results: a class scored and placed, beside what was posted of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* The results beside those that were posted. */
static void report_posted(struct cli *c, struct cli_shown *in)
{
	in->results.state = in->shown.changes.n ? "changed since it was posted" : "posted";
	rt_results_report(&c->report, &in->results);
	rt_posting_report(&c->report, &in->posting, c->when);
	if (!in->shown.changes.n)
		return;
	rt_shown_changes(&c->report, &in->shown);
	rt_report_note(&c->report,
		       "These are not the results that were posted (version %lld): post the class "
		       "again when they are right.",
		       (long long)in->posting.version);
	c->report.needs_person = true;
}

static void results(struct cli *c, const void *typed)
{
	struct cli_shown in = {.posting = {0}};

	cli_store(c, false);
	cli_shown_read(c, CLI_TYPED(typed), true, &in);
	if (in.shown.posted)
		report_posted(c, &in);
	else if (!c->err.code)
		rt_results_report(&c->report, &in.results);
	cli_shown_free(&in);
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
