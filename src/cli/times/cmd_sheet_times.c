/* sheet times: the lists of start times as papers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdio.h>

static const struct rt_field version_fields[] = {
	{"ring", RT_AT(struct rt_times_list, now.ring), .type = RT_TEXT},
	{"day", RT_AT(struct rt_times_list, now.day), .type = RT_INT},
	{"version", RT_AT(struct rt_times_list, now.version), .type = RT_INT},
	{"lines", RT_AT(struct rt_times_list, now.lines.n), .type = RT_SIZE},
};

static const struct rt_record versions_table = RT_TABLE("versions", "Lists printed", version_fields,
							struct rt_times_list);

static void about_words(const struct cli_narrowing *only, char *out, size_t size)
{
	snprintf(out, size, "%s%.100s%s%.100s", only->class_name ? "Class " : "",
		 only->class_name ? only->class_name : "",
		 only->driver ? (only->class_name ? "; of " : "Of ") : "",
		 only->driver ? only->driver : "");
}

/* What a paper is made from. */
struct times_paper {
	struct cli_times in;
	struct rt_judge_sheets judged;
	struct rt_starts wanted;
	struct rt_times_lists lists;
	struct rt_sheet sheet;
};

static void times_paper_free(struct times_paper *p)
{
	rt_times_lists_free(&p->lists);
	RT_LIST_FREE(&p->wanted);
	RT_LIST_FREE(&p->judged);
	cli_times_free(&p->in);
}

/* Give a list its version: that of the last one printed where it says the same, else the next,
 * which is kept; and the lines of the version before that. */
static void find_version(struct cli *c, struct rt_times_list *list)
{
	struct rt_printed_lists printed = {0};
	struct rt_printed_list *before = NULL;

	list->now.version = 1;
	list->now.when = c->when;
	CLI_DO(c, rt_store_printed_versions(c->store, &list->now, &printed, &c->err));
	if (printed.n && rt_list_lines_same(&printed.at[0].lines, &list->now.lines)) {
		list->now.version = printed.at[0].version;
		before = printed.n > 1 ? &printed.at[1] : NULL;
	} else {
		before = printed.n ? &printed.at[0] : NULL;
		list->now.version = before ? before->version + 1 : 1;
		CLI_DO(c, rt_store_printed_put(c->store, &list->now, &c->err));
	}
	if (before) {
		list->before = before->lines;
		before->lines = (struct rt_list_lines){0};
	}
	rt_printed_lists_free(&printed);
}

struct times_asked {
	enum rt_start_list list;
	struct cli_narrowing only;
	struct cli_sheet sheet;
};

static const struct rt_field options[] = {
	CLI_OUT(struct times_asked, sheet),
	{"list", RT_AT(struct times_asked, list), .head = "WHO", RT_WORD_OF(start_list),
	 .is = RT_USUAL, .help = "whom it is for"},
	CLI_NARROWING(struct times_asked, only.),
};

static void sheet_times(struct cli *c, const void *typed)
{
	const struct times_asked *o = typed;
	struct cli_narrowing only = o->only;
	struct times_paper p = {0};
	struct rt_sheet_options sheet_options;
	struct rt_times_paper of = {.list = o->list};
	char about[300];

	cli_times_read(c, true, &p.in);
	cli_narrowing_find(c, &only);
	of.classes = cli_classes(c);
	of.tests = cli_tests(c);
	cli_judged(c, of.classes, &p.judged);
	of.judged = &p.judged;
	cli_list_made(c, &p.in.starts, &only, &p.wanted, &of, &p.lists);
	if (!p.wanted.n)
		CLI_FAIL(c, RT_E_NOTFOUND, "nobody of that list has a start time: %s",
			 p.in.starts.n ? "`times` shows them all" : "`times plan` makes them");
	for (size_t i = 0; i < p.lists.n && !c->err.code; i++)
		find_version(c, &p.lists.at[i]);
	sheet_options = cli_sheet_options(c, &o->sheet);
	of.first_day = c->show.day;
	about_words(&only, about, sizeof about);
	of.about = *about ? about : NULL;
	CLI_DO(c, rt_sheet_times(&p.sheet, &of, &p.lists, &sheet_options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	rt_report_list(&c->report, &versions_table, p.lists.at, p.lists.n);
	times_paper_free(&p);
}

const struct cli_command cmd_sheet_times = {
	.name = "sheet times",
	.summary = "Start lists: by ring, by driver, for gate, announcer and steward.",
	.details =
		"Each ring and day begins a page and tells its version. A list that says anything else\n"
		"than it did when it was last printed has a new version: what is another has a bar in\n"
		"the margin, and who is no longer there is told. Classes begin with their title, test\n"
		"and judges; breaks stand between the starts. The gate's list has boxes for called, in and out; the steward's for before\n"
		"and after; the announcer's has grooms and clubs.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet times --list gate --out gate.pdf",
	CLI_OPTIONS(struct times_asked, options),
	.table = {&versions_table},
	.run = sheet_times,
};
