/* times plan: the start times of all classes, or of one anew.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

/* A plan to be made.  Start it zeroed. */
struct planning {
	struct cli_times in;
	struct rt_time_settings settings;
	struct cli_stays stays;
	struct rt_time_classes classes;
	struct rt_strings rings;
	struct rt_starts kept;
	int64_t *place;	  /* as many as entries */
	const char *only; /* the one class that is planned anew; NULL: all */
	struct rt_times times;
	int64_t *gone;
	size_t gone_n;
	int64_t version;
};

static void planning_free(struct planning *p)
{
	rt_times_free(&p->times);
	RT_LIST_FREE(&p->kept);
	RT_LIST_FREE(&p->rings);
	RT_LIST_FREE(&p->classes);
	RT_LIST_FREE(&p->stays);
	cli_times_free(&p->in);
}

static bool is_planned(const struct planning *p, const char *class_name)
{
	return (!p->only || strcmp(p->only, class_name) == 0) &&
	       !cli_stay_of(&p->stays, class_name);
}

static void find_rings(struct cli *c, struct planning *p)
{
	const struct rt_rings *rings = cli_rings(c);

	for (size_t i = 0; i < rings->n; i++)
		CLI_ADD(c, &p->rings, rings->at[i].name);
}

/* Places drawn, by entry. */
static void find_places(struct cli *c, struct planning *p)
{
	const struct rt_entries *entries = cli_entries(c);

	p->place = cli_array(c, entries->n, sizeof *p->place);
	for (size_t k = 0; k < p->classes.n && !c->err.code; k++) {
		struct rt_draw_places places = {0};

		CLI_DO(c, rt_store_draw_places(c->store, p->classes.at[k].class_->name, &places,
					       &c->err));
		for (size_t i = 0; i < places.n; i++)
			for (size_t j = 0; j < entries->n; j++)
				if (entries->at[j].id == places.at[i].entry)
					p->place[j] = places.at[i].place;
		RT_LIST_FREE(&places);
	}
}

/* Starts of classes that are not planned now stay. */
static void find_kept(struct cli *c, struct planning *p)
{
	for (size_t i = 0; i < p->in.starts.n && !c->err.code; i++) {
		const struct rt_start *s = &p->in.starts.at[i];

		if (is_planned(p, s->entry->class_name))
			continue;
		CLI_ADD(c, &p->kept, *s);
		if (rt_day_of(s->at_s) > p->settings.days)
			p->settings.days = rt_day_of(s->at_s);
	}
}

/* A start that is just as it was keeps its version, and so its lists theirs. */
static void keep_versions(struct planning *p)
{
	for (size_t i = 0; i < p->times.starts.n; i++) {
		struct rt_start *now = &p->times.starts.at[i];

		for (size_t k = 0; k < p->in.starts.n; k++) {
			const struct rt_start *was = &p->in.starts.at[k];

			if (was->entry == now->entry && was->at_s == now->at_s &&
			    was->slot_s == now->slot_s && was->pause_s == now->pause_s &&
			    was->pause == now->pause && strcmp(was->ring, now->ring) == 0)
				now->version = was->version;
		}
	}
}

/* Entries of the planned classes that had a start and have none now. */
static void find_gone(struct cli *c, struct planning *p)
{
	p->gone = cli_array(c, p->in.starts.n, sizeof *p->gone);
	for (size_t i = 0; p->gone && i < p->in.starts.n; i++) {
		const struct rt_entry *entry = p->in.starts.at[i].entry;

		if (is_planned(p, entry->class_name) && !cli_start_of(&p->times.starts, entry))
			p->gone[p->gone_n++] = entry->id;
	}
}

static void make_plan(struct cli *c, struct planning *p)
{
	const struct rt_times_ask ask = {.settings = &p->settings,
					 .rings = &p->rings,
					 .classes = &p->classes,
					 .entries = cli_entries(c),
					 .place = p->place,
					 .wishes = &p->in.wishes,
					 .not_before_s = p->stays.under_way_s,
					 .kept = &p->kept,
					 .kept_classes = cli_classes(c)};

	CLI_DO(c, rt_times_plan(&p->times, &ask, &c->err));
}

/* All starts, those that stay with those of the plan. */
static void all_starts(struct cli *c, const struct planning *p, struct rt_starts *out)
{
	for (size_t i = 0; i < p->kept.n; i++)
		CLI_ADD(c, out, p->kept.at[i]);
	for (size_t i = 0; i < p->times.starts.n; i++)
		CLI_ADD(c, out, p->times.starts.at[i]);
	rt_starts_sort(out);
}

static void keep_plan(struct cli *c, const struct cli_times_plan *o, struct planning *p)
{
	char words[RT_NAME_MOST * 4 + 60];
	const struct rt_times_note note = {
		.what = "plan", .words = words, .why = o->why, .who = o->by, .when = c->when};

	keep_versions(p);
	if (p->only)
		snprintf(words, sizeof words, "Class %s planned anew", p->only);
	else
		snprintf(words, sizeof words, "%zu starts planned", p->times.starts.n);
	CLI_DO(c, rt_store_times_put(c->store, &note, &p->settings, &p->times.starts, p->gone,
				     p->gone_n, &p->version, &c->err));
}

/* Why classes stay, and who is without a time in them. */
static void note_stays(struct cli *c, const struct planning *p, const struct rt_starts *all)
{
	for (size_t i = 0; i < p->stays.n; i++)
		if (!p->only || strcmp(p->only, p->stays.at[i].class_name) == 0)
			rt_report_note(&c->report,
				       "Class %s stays as it is (%s): --again plans it anew.",
				       p->stays.at[i].class_name, p->stays.at[i].why);
	if (p->stays.n)
		cli_note_untimed(c, all, NULL);
}

static void report_plan(struct cli *c, struct planning *p, bool trying)
{
	struct rt_starts all = {0};
	struct rt_clashes clashes = {0};

	all_starts(c, p, &all);
	p->in.settings = p->settings;
	cli_clashes(c, &p->in, &all, &clashes);
	rt_plan_report(&c->report, &p->times, &p->settings);
	rt_clashes_report(&c->report, &clashes);
	rt_shares_report(&c->report, &all);
	note_stays(c, p, &all);
	if (trying)
		rt_report_note(&c->report, "Only tried: nothing was kept.");
	else
		rt_report_note(&c->report, "Kept as version %lld of the times: `times` shows them.",
			       (long long)p->version);
	RT_LIST_FREE(&clashes);
	RT_LIST_FREE(&all);
}

static void times_plan(struct cli *c, const void *typed)
{
	const struct cli_times_plan *o = typed;
	struct planning p = {.only = o->only};

	cli_times_read(c, !o->trying, &p.in);
	cli_plan_settings(c, o, &p.in, &p.settings);
	if (o->only)
		cli_class(c, o->only);
	if (!o->again)
		cli_plan_stays(c, &p.in, &p.stays);
	cli_plan_classes(c, &p.in, &p.stays, o, &p.classes);
	find_rings(c, &p);
	find_places(c, &p);
	find_kept(c, &p);
	make_plan(c, &p);
	find_gone(c, &p);
	if (!o->trying && !c->err.code)
		keep_plan(c, o, &p);
	if (!c->err.code)
		report_plan(c, &p, o->trying);
	planning_free(&p);
}

const struct cli_command cmd_times_plan = {
	.name = "times plan",
	.summary = "Plan the start times of all classes, or of one anew.",
	.details =
		"Nobody and nothing is in two places, and each has the gap asked for: what cannot be\n"
		"met so is told, with the wish to drop. A gap is from the end of one start's interval\n"
		"to the next start. Drawn order is kept. Defaults, common practice without a source:\n"
		"8:00-18:00, gaps 20 min (driver), 40 (horse), 10 (groom), 20 (carriage), 10 (judge),\n"
		"change 10 min; later they are those of the plan before. The interval is the test's\n"
		"route with the ways in and out and --margin, to the next minute; starts are\n"
		"at whole minutes, but for --seconds and an interval that the plan file gives in\n"
		"seconds. A carriage\n"
		"that several entries name is one, which they share; a turnout is a kind. A class stays\n"
		"as it is when anybody of it has started by --date or has marks, or stands where\n"
		"`times late` put it, and nothing is planned before then: --again plans it anew.",
	.example = "--show spring.show times plan --hours 8:00-18:00",
	CLI_OPTIONS(struct cli_times_plan, cli_times_plan_options),
	.run = times_plan,
	.lists = true,
};
