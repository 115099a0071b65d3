/* The results of a class as papers show them, read from the show.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

void cli_shown_read(struct cli *c, const char *class_name, bool as_now, struct cli_shown *in)
{
	bool posted = false;

	CLI_DO(c, rt_store_class_book(c->store, class_name, &in->book, &c->err));
	CLI_DO(c, rt_results_make(&in->results, &in->book.marks, &c->err));
	CLI_DO(c, rt_store_posting_latest(c->store, class_name, &in->posting, &posted, &c->err));
	CLI_DO(c, rt_shown_make(&in->shown, &in->results, posted ? &in->posting : NULL, as_now,
				&c->err));
}

void cli_shown_note(struct cli *c, const struct cli_shown *in)
{
	if (!c->err.code)
		rt_shown_note(&c->report, &in->shown);
}

void cli_shown_free(struct cli_shown *in)
{
	rt_shown_free(&in->shown);
	rt_posting_free(&in->posting);
	rt_results_free(&in->results);
	rt_class_book_free(&in->book);
}
