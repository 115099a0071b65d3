/* sheet times: the lists of start times as papers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdio.h>
#include <stdlib.h>

/* The versions of the lists of rings; *out is the caller's to free, its names belong to list. */
static enum rt_err ring_versions(struct cli *c, struct rt_list_versions *list,
				 struct rt_times_version **out, size_t *n)
{
	enum rt_err e = rt_store_list_versions(c->store, list, &c->err);

	*out = e ? NULL : calloc(list->n + 1, sizeof **out);
	if (!e && !*out)
		return rt_fail_nomem(&c->err);
	for (size_t i = 0; !e && i < list->n; i++)
		if (list->at[i].ring)
			(*out)[(*n)++] = (struct rt_times_version){
				list->at[i].ring, list->at[i].day, list->at[i].version};
	return e;
}

static void about_words(const struct cli_narrowing *only, char *out, size_t size)
{
	snprintf(out, size, "%s%.100s%s%.100s", only->class_name ? "Class " : "",
		 only->class_name ? only->class_name : "",
		 only->driver ? (only->class_name ? "; of " : "Of ") : "",
		 only->driver ? only->driver : "");
}

static enum rt_err read_list(struct cli *c, const struct cli_call *call, enum rt_start_list *out)
{
	const char *words = cli_option(call, "list");

	*out = RT_START_LIST_RING;
	if (!words || rt_start_list_read(words, out))
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "--list: \"%s\": ring, driver, gate, announcer or steward", words);
}

/* What a paper is made from. */
struct times_paper {
	struct cli_times in;
	struct rt_starts wanted;
	struct rt_list_versions list;
	struct rt_times_version *versions;
	struct rt_show show;
	struct rt_sheet sheet;
};

static void times_paper_free(struct times_paper *p)
{
	rt_sheet_free(&p->sheet);
	rt_show_free(&p->show);
	free(p->versions);
	RT_LIST_FREE(&p->list);
	RT_LIST_FREE(&p->wanted);
	cli_times_free(&p->in);
}

static enum rt_err narrow_down(struct cli *c, const struct cli_call *call, struct times_paper *p,
			       struct cli_narrowing *only)
{
	const char *day = cli_option(call, "day");
	enum rt_err e = CLI_OLD(c, cli_times_read(c, false, &p->in));

	only->ring = cli_option(call, "ring");
	only->class_name = cli_option(call, "class");
	only->driver = cli_option(call, "driver");
	if (!e && day)
		e = cli_whole(c, "--day", day, 1, RT_DAYS_MOST, &only->day);
	if (!e)
		e = CLI_OLD(c, cli_narrowing_find(c, &p->in, only));
	if (!e)
		e = CLI_OLD(c, cli_narrow(c, &p->in.starts, only, &p->wanted));
	if (!e && p->wanted.n == 0)
		e = rt_fail(&c->err, RT_E_NOTFOUND, "nobody of that list has a start time: %s",
			    p->in.starts.n ? "`times` shows them all" : "`times plan` makes them");
	return e;
}

static enum rt_err sheet_times(struct cli *c, const struct cli_call *call)
{
	struct times_paper p = {0};
	struct cli_narrowing only = {0};
	struct rt_sheet_options options;
	struct rt_times_paper of = {.starts = &p.wanted};
	char about[300];
	enum rt_err e = cli_sheet_options(c, call, &options);

	if (!e)
		e = read_list(c, call, &of.list);
	if (!e)
		e = narrow_down(c, call, &p, &only);
	if (!e)
		e = ring_versions(c, &p.list, &p.versions, &of.versions);
	if (!e)
		e = rt_store_show(c->store, &p.show, &c->err);
	options.show = p.show.title;
	of.first_day = p.show.day;
	of.version = p.versions;
	about_words(&only, about, sizeof about);
	of.about = *about ? about : NULL;
	if (!e)
		e = rt_sheet_times(&p.sheet, &of, &options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &p.sheet);
	times_paper_free(&p);
	return e;
}

const struct cli_command cmd_sheet_times = {
	.group = "Papers",
	.name = "sheet times",
	.args = "--out FILE.pdf|.svg",
	.summary = "Start lists: by ring, by driver, for gate, announcer and steward.",
	.details =
		"Each ring and day begins a page and tells its version; breaks stand between the\n"
		"starts. The gate's list has boxes for called, in and out; the steward's for before\n"
		"and after; the announcer's has grooms and clubs.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet times --list gate --out gate.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       {"list", "WHO", "ring (unless given), driver, gate, announcer or steward",
			false},
		       {"ring", "NAME", "only of this ring", false},
		       {"class", "CLASS", "only of this class", false},
		       {"day", "N", "only of this day of the show", false},
		       {"driver", "NAME", "only of a driver or groom, by any part of the name",
			false},
		       {"paper", "SIZE", "a4 (unless given) or letter", false}},
	.old_run = sheet_times,
};
