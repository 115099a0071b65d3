/* sheet times: the lists of start times as papers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

/* The versions of the lists of rings; their names belong to list. */
static const struct rt_times_version *ring_versions(struct cli *c, struct rt_list_versions *list,
						    size_t *n)
{
	struct rt_times_version *out;

	CLI_DO(c, rt_store_list_versions(c->store, list, &c->err));
	out = rt_arena_take(&c->text, (list->n + 1) * sizeof *out);
	if (!out)
		CLI_DO(c, rt_fail_nomem(&c->err));
	for (size_t i = 0; out && i < list->n; i++)
		if (list->at[i].ring)
			out[(*n)++] = (struct rt_times_version){list->at[i].ring, list->at[i].day,
								list->at[i].version};
	return out;
}

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
	struct rt_starts wanted;
	struct rt_list_versions list;
	struct rt_sheet sheet;
};

static void times_paper_free(struct times_paper *p)
{
	rt_sheet_free(&p->sheet);
	RT_LIST_FREE(&p->list);
	RT_LIST_FREE(&p->wanted);
	cli_times_free(&p->in);
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
	struct rt_times_paper of = {.starts = &p.wanted, .list = o->list};
	char about[300];

	cli_times_read(c, false, &p.in);
	cli_narrowing_find(c, &only);
	cli_narrow(c, &p.in.starts, &only, &p.wanted);
	if (!p.wanted.n)
		CLI_FAIL(c, RT_E_NOTFOUND, "nobody of that list has a start time: %s",
			 p.in.starts.n ? "`times` shows them all" : "`times plan` makes them");
	of.version = ring_versions(c, &p.list, &of.versions);
	sheet_options = cli_sheet_options(c, &o->sheet);
	of.first_day = c->show.day;
	about_words(&only, about, sizeof about);
	of.about = *about ? about : NULL;
	CLI_DO(c, rt_sheet_times(&p.sheet, &of, &sheet_options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	times_paper_free(&p);
}

const struct cli_command cmd_sheet_times = {
	.name = "sheet times",
	.summary = "Start lists: by ring, by driver, for gate, announcer and steward.",
	.details =
		"Each ring and day begins a page and tells its version; breaks stand between the\n"
		"starts. The gate's list has boxes for called, in and out; the steward's for before\n"
		"and after; the announcer's has grooms and clubs.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet times --list gate --out gate.pdf",
	CLI_OPTIONS(struct times_asked, options),
	.run = sheet_times,
};
