/* Start lists as they would be printed now, and those printed before that no longer hold.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

void cli_list_made(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		   struct rt_starts *wanted, struct rt_times_paper *of, struct rt_times_lists *out)
{
	cli_narrow(c, all, only, wanted);
	of->starts = wanted;
	CLI_DO(c, rt_times_lists_make(out, of, &c->err));
	for (size_t i = 0; i < out->n; i++) {
		struct rt_printed_list *now = &out->at[i].now;

		now->class_name = only->class_name;
		now->driver = only->driver;
		now->ring = now->ring ? now->ring : only->ring;
	}
}

/* ---- lists that no longer hold ----------------------------------------------------------- */

/* The show as lists have it, read after what the command changed. */
struct listed_show {
	struct rt_classes classes;
	struct rt_judge_sheets judged;
	struct rt_tests tests;
	struct rt_entries entries;
	struct rt_starts starts;
};

static void listed_show_read(struct cli *c, struct listed_show *show)
{
	CLI_DO(c, rt_store_classes(c->store, &show->classes, &c->err));
	cli_judged(c, &show->classes, &show->judged);
	CLI_DO(c, rt_store_tests(c->store, &show->tests, &c->err));
	CLI_DO(c, rt_store_entries(c->store, NULL, &show->entries, &c->err));
	CLI_DO(c, rt_store_times(c->store, &show->entries, &show->starts, &c->err));
}

static void listed_show_free(struct listed_show *show)
{
	RT_LIST_FREE(&show->starts);
	RT_LIST_FREE(&show->entries);
	RT_LIST_FREE(&show->tests);
	RT_LIST_FREE(&show->judged);
	rt_classes_free(&show->classes);
}

/* Whether a list would be printed now as it was. */
static bool holds(struct cli *c, const struct listed_show *show,
		  const struct rt_printed_list *printed)
{
	const struct cli_narrowing only = {printed->ring, printed->class_name, printed->driver,
					   printed->day};
	struct rt_starts wanted = {0};
	struct rt_times_paper of = {.list = printed->list,
				    .classes = &show->classes,
				    .tests = &show->tests,
				    .judged = &show->judged};
	struct rt_times_lists lists = {0};
	bool same;

	cli_list_made(c, &show->starts, &only, &wanted, &of, &lists);
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

void cli_report_stale(struct cli *c)
{
	struct rt_printed_lists printed = {0};
	struct listed_show show = {0};
	struct rt_table *t = NULL;

	CLI_DO(c, rt_store_printed_latest(c->store, &printed, &c->err));
	if (printed.n)
		listed_show_read(c, &show);
	for (size_t i = 0; i < printed.n && !c->err.code; i++) {
		if (holds(c, &show, &printed.at[i]))
			continue;
		if (!t)
			t = rt_report_rows(&c->report, &cli_stale_table);
		rt_put_row(t, &printed.at[i]);
	}
	listed_show_free(&show);
	rt_printed_lists_free(&printed);
}
