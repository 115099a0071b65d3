/* Classes that a plan leaves as they are: they have begun, or their delay was said.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

const struct cli_stay *cli_stay_of(const struct cli_stays *stays, const char *class_name)
{
	for (size_t i = 0; i < stays->n; i++)
		if (strcmp(stays->at[i].class_name, class_name) == 0)
			return &stays->at[i];
	return NULL;
}

static void add_stay(struct cli *c, struct cli_stays *stays, const struct rt_start *s, bool begun,
		     const char *why)
{
	if (!cli_stay_of(stays, s->entry->class_name))
		CLI_ADD(c, stays, (struct cli_stay){s->entry->class_name, why, begun});
}

/* Who has started by now, or has a mark. */
static void find_begun(struct cli *c, const struct rt_starts *starts, const struct cli_now *now,
		       struct cli_stays *stays)
{
	for (size_t i = 0; i < starts->n && !c->err.code; i++) {
		const struct rt_start *s = &starts->at[i];
		long long number = (long long)s->entry->number;
		bool marked = false;
		char at[16];

		rt_time_words(s->at_s, rt_day_of(s->at_s), at, sizeof at);
		CLI_DO(c, rt_store_entry_marked(c->store, s->entry->id, &marked, &c->err));
		if (marked)
			add_stay(c, stays, s, true,
				 rt_report_textf(&c->report, "number %lld has marks", number));
		else if (now->day && s->at_s <= now->at_s)
			add_stay(c, stays, s, true,
				 rt_report_textf(&c->report, "number %lld started at %s", number,
						 at));
	}
}

/* Starts that stand where a delay put them. */
static void find_delayed(struct cli *c, const struct rt_starts *starts,
			 const struct rt_times_note *late, struct cli_stays *stays)
{
	struct rt_starts then = {0};

	CLI_DO(c, rt_store_times_of(c->store, late->version, cli_entries(c), &then, &c->err));
	for (size_t i = 0; i < starts->n && !c->err.code; i++) {
		const struct rt_start *now = &starts->at[i];
		const struct rt_start *moved = cli_start_of(&then, now->entry);

		if (moved && moved->version == late->version && moved->at_s == now->at_s &&
		    strcmp(moved->ring, now->ring) == 0)
			add_stay(c, stays, now, false,
				 rt_report_textf(&c->report, "%s", late->words));
	}
	RT_LIST_FREE(&then);
}

void cli_plan_stays(struct cli *c, const struct cli_times *in, struct cli_stays *stays)
{
	struct rt_times_notes notes = {0};
	struct cli_now now = cli_show_now(c, in);

	find_begun(c, &in->starts, &now, stays);
	CLI_DO(c, rt_store_times_changes(c->store, &notes, &c->err));
	for (size_t i = 0; i < notes.n; i++)
		if (notes.at[i].ring)
			find_delayed(c, &in->starts, &notes.at[i], stays);
	for (size_t i = 0; i < stays->n && now.day; i++)
		if (stays->at[i].begun)
			stays->under_way_s = now.at_s;
	RT_LIST_FREE(&notes);
}
