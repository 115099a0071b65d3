/* sheet results: papers of the show office.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#define OUT_OPTION                                                                                 \
	{                                                                                          \
		"out", "FILE", "where to write it: .pdf or .svg", true                             \
	}
#define PAPER_OPTION                                                                               \
	{                                                                                          \
		"paper", "SIZE", "a4 (unless given) or letter", false                              \
	}

static enum rt_err sheet_results(struct cli *c, const struct cli_call *call)
{
	struct rt_sheet_options options;
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_posting posting = {0};
	struct rt_sheet sheet = {0};
	struct rt_show show = {0};
	bool posted = false;
	enum rt_err e = cli_sheet_options(c, call, &options);

	if (!e)
		e = cli_store(c, false);
	if (!e)
		e = rt_store_show(c->store, &show, &c->err);
	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &book, &c->err);
	if (!e)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e)
		e = rt_store_posting_latest(c->store, call->arg[0], &posting, &posted, &c->err);
	options.show = show.title;
	if (!e)
		e = rt_sheet_results(&sheet, &results, posted ? &posting : NULL, &options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &sheet);
	rt_sheet_free(&sheet);
	rt_posting_free(&posting);
	rt_results_free(&results);
	rt_class_book_free(&book);
	rt_show_free(&show);
	return e;
}

const struct cli_command cmd_sheet_results = {
	.group = "Papers",
	.name = "sheet results",
	.args = "CLASS --out FILE.pdf|.svg",
	.summary = "The results of a class, to put up.",
	.details =
		"Places by division with the judges' points and places, penalties, how a tie was\n"
		"parted; the others below; when it was posted and until when one may object.",
	.example = "--show spring.show sheet results 1 --out results-1.pdf",
	.option = {OUT_OPTION, PAPER_OPTION},
	.min_args = 1,
	.max_args = 1,
	.run = sheet_results,
};
