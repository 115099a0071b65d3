/* results: a class scored and placed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

static enum rt_err results(struct cli *c, const struct cli_call *call)
{
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	enum rt_err e = cli_store(c, false);

	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &book, &c->err);
	if (!e)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e)
		rt_results_report(&c->report, &results);
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
		"when the two keyings differ somewhere. An entry is running while a sheet is not in or\n"
		"has an empty box. Where a rule takes errors in per cent, penalty_points is that and\n"
		"points_off the office's points off every total.",
	.example = "--show spring.show results 1",
	.min_args = 1,
	.max_args = 1,
	.run = results,
};
