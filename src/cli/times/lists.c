/* Start lists as they would be printed now, and those printed before that no longer hold.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

void cli_list_made(struct cli *c, const struct cli_times *in, enum rt_start_list list,
		   const struct cli_narrowing *only, struct rt_starts *wanted,
		   struct rt_times_paper *of, struct rt_times_lists *out)
{
	cli_narrow(c, &in->starts, only, wanted);
	*of = (struct rt_times_paper){
		.list = list, .starts = wanted, .classes = cli_classes(c), .tests = cli_tests(c)};
	CLI_DO(c, rt_times_lists_make(out, of, &c->err));
	for (size_t i = 0; i < out->n; i++) {
		struct rt_printed_list *now = &out->at[i].now;

		now->class_name = only->class_name;
		now->driver = only->driver;
		now->ring = now->ring ? now->ring : only->ring;
	}
}

/* ---- lists that no longer hold ----------------------------------------------------------- */

/* Whether a list would be printed now as it was. */
static bool holds(struct cli *c, const struct cli_times *in, const struct rt_printed_list *printed)
{
	const struct cli_narrowing only = {printed->ring, printed->class_name, printed->driver,
					   printed->day};
	struct rt_starts wanted = {0};
	struct rt_times_paper of;
	struct rt_times_lists lists = {0};
	bool same;

	cli_list_made(c, in, printed->list, &only, &wanted, &of, &lists);
	same = lists.n == 1 && rt_list_lines_same(&lists.at[0].now.lines, &printed->lines);
	rt_times_lists_free(&lists);
	RT_LIST_FREE(&wanted);
	return same;
}

#define PRINTED(member) RT_AT(struct rt_printed_list, member)

static const struct rt_field stale_fields[] = {
	{"list", PRINTED(list), .type = RT_WORD, .words = &rt_words_of_start_list},
	{"ring", PRINTED(ring)},
	{"day", PRINTED(day), .type = RT_INT},
	{"class", PRINTED(class_name)},
	{"driver", PRINTED(driver)},
	{"version", PRINTED(version), .type = RT_INT},
	{"printed", PRINTED(when)},
};

const struct rt_record cli_stale_table = RT_TABLE("print_again",
						  "Printed lists that no longer "
						  "hold: print them again",
						  stale_fields, struct rt_printed_list);

void cli_report_stale(struct cli *c, const struct cli_times *in)
{
	struct rt_printed_lists printed = {0};
	struct rt_table *t = NULL;

	CLI_DO(c, rt_store_printed_latest(c->store, &printed, &c->err));
	for (size_t i = 0; i < printed.n && !c->err.code; i++) {
		if (holds(c, in, &printed.at[i]))
			continue;
		if (!t)
			t = rt_report_rows(&c->report, &cli_stale_table);
		rt_put_row(t, &printed.at[i]);
	}
	rt_printed_lists_free(&printed);
}
