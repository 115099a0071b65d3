/* Papers of several classes in one file, with a bookmark for each.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* The classes that are named, or all of the show. */
static void choose_classes(struct cli *c, const struct rt_strings *typed, bool all,
			   struct rt_strings *out)
{
	const struct rt_classes *classes = all ? cli_classes(c) : NULL;

	if (all == (typed->n > 0))
		CLI_FAIL(c, RT_E_USAGE,
			 all ? "--all means every class: name none"
			     : "of which class? Name one or more, or --all");
	for (size_t i = 0; i < typed->n && !c->err.code; i++)
		CLI_ADD(c, out, typed->at[i]);
	for (size_t i = 0; all && !c->err.code && i < classes->n; i++)
		CLI_ADD(c, out, classes->at[i].name);
}

void cli_pile_begin(struct cli *c, const struct cli_sheet *asked, const struct rt_strings *typed,
		    bool all, const char *title, struct cli_pile *pile)
{
	cli_store(c, false);
	pile->asked = asked;
	pile->options = cli_sheet_options(c, asked);
	choose_classes(c, typed, all, &pile->classes);
	pile->many = all || pile->classes.n > 1;
	if (pile->many)
		CLI_DO(c, rt_sheet_begin(&pile->sheet, pile->options.paper, title,
					 pile->options.when, &c->err));
}

bool cli_pile_leaves_out(struct cli *c, struct cli_pile *pile, const char *class_name, bool empty)
{
	if (c->err.code)
		return true;
	if (!empty || !pile->many)
		return false;
	cli_name(&pile->left_out, "%s", class_name);
	return true;
}

void cli_pile_class(struct cli_pile *pile, const struct rt_class *class_)
{
	char words[8 * RT_NAME_MOST];

	snprintf(words, sizeof words, "Class %s: %s", class_->name, class_->title);
	rt_sheet_bookmark(&pile->sheet, words, class_->name, false);
}

void cli_pile_end(struct cli *c, struct cli_pile *pile)
{
	if (!pile->sheet.pages)
		CLI_FAIL(c, RT_E_NOTFOUND, "there is nothing to print");
	cli_write_sheet(c, pile->asked, &pile->sheet);
	if (pile->left_out.n)
		rt_report_note(&c->report, "Left out, as there is nothing to print: class%s %s.",
			       pile->left_out.n == 1 ? "" : "es", pile->left_out.text);
	RT_LIST_FREE(&pile->classes);
}
