/* judging: how the judges of a class agreed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct judging {
	const char *class_name;
	double gap, apart;
};

static const struct rt_field judging_options[] = {
	CLI_CLASS(struct judging, class_name),
	{"gap", RT_AT(struct judging, gap), .head = "MARKS", .type = RT_REAL, .low = 0, .high = 10,
	 .is = RT_USUAL, .help = "tell movements whose marks are more than this apart"},
	{"judges-apart", RT_AT(struct judging, apart), .head = "PERCENT", .type = RT_REAL,
	 .low = 0.1, .high = 100, .is = RT_USUAL,
	 .help = "tell sheets this far from the mean of the others"},
};

static void judging(struct cli *c, const void *typed)
{
	const struct judging *o = typed;
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_judging judged = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_class_book(c->store, o->class_name, &book, &c->err));
	CLI_DO(c, rt_results_make(&results, &book.marks, &c->err));
	CLI_DO(c, rt_judging_make(&judged, &results, (int)(o->gap * 100 + 0.5), o->apart, &c->err));
	if (!c->err.code)
		rt_judging_report(&c->report, &judged);
	rt_judging_free(&judged);
	rt_results_free(&results);
	rt_class_book_free(&book);
}

const struct cli_command cmd_judging = {
	.name = "judging",
	.summary = "How the judges of a class agreed.",
	.details =
		"Each judge is held against the mean of the others: how far above, how wide the own\n"
		"marks spread, and whether the class comes in the same order (Spearman's rank\n"
		"correlation: 1 the same order, 0 no likeness, -1 turned round; CSV and JSON have\n"
		"Kendall's tau-b too). Entries that left or were sent out are not compared.",
	.example = "--show spring.show judging 1",
	CLI_OPTIONS(struct judging, judging_options),
	.blank = &(const struct judging){.gap = RT_GAP_X100 / 100.0, .apart = RT_APART_PERCENT},
	.run = judging,
};
