/* judging: how the judges of a class agreed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

static enum rt_err judging(struct cli *c, const struct cli_call *call)
{
	double gap = RT_GAP_X10 / 10.0, apart = RT_APART_PERCENT;
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_judging judged = {0};
	enum rt_err e = cli_real_option(c, call, "gap", 0, 10, &gap);

	if (!e)
		e = cli_real_option(c, call, "apart", 0.1, 100, &apart);
	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &book, &c->err);
	if (!e)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e)
		e = rt_judging_make(&judged, &results, (int)(gap * 10 + 0.5), apart, &c->err);
	if (!e)
		rt_judging_report(&c->report, &judged);
	rt_judging_free(&judged);
	rt_results_free(&results);
	rt_class_book_free(&book);
	return e;
}

const struct cli_command cmd_judging = {
	.group = "Results",
	.name = "judging",
	.args = "CLASS",
	.summary = "How the judges of a class agreed.",
	.details =
		"Each judge is held against the mean of the others: how far above, how wide the own\n"
		"marks spread, and whether the class comes in the same order (Spearman's rank\n"
		"correlation: 1 the same order, 0 no likeness, -1 turned round; CSV and JSON have\n"
		"Kendall's tau-b too). Entries that left or were sent out are not compared.",
	.example = "--show spring.show judging 1",
	.old_option = {{"gap", "MARKS", "tell movements whose marks are more than this apart; 2",
			false},
		       {"apart", "PERCENT", "tell sheets this far from the mean of the others; 5",
			false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = judging,
};
