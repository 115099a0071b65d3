/* What the commands of the draw and the times share: the show as start times see it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdlib.h>
#include <string.h>
#include <sys/random.h>

/* ---- names ------------------------------------------------------------------------------- */

void cli_ring_named(struct cli *c, const char *name, const char **out)
{
	const struct rt_rings *rings = cli_rings(c);
	const struct rt_ring *ring = cli_ring_called(c, name);
	struct cli_names names = {0};

	if (ring) {
		*out = ring->name;
		return;
	}
	for (size_t i = 0; i < rings->n; i++)
		cli_name(&names, "%s", rings->at[i].name);
	CLI_FAIL(c, RT_E_NOTFOUND, "there is no ring %s in the show: %s", name,
		 names.n ? names.text : "it has none yet");
}

/* ---- times and seeds --------------------------------------------------------------------- */

enum rt_err cli_read_time(const struct rt_field *f, void *member, const char *s,
			  struct rt_arena **text, struct rt_error *err)
{
	(void)f;
	(void)text;
	return rt_time_read(s, member) ? RT_OK
				       : rt_refuse(err, s, "is no time of day",
						   "a time of day as 09:05 or 09:05:30");
}

void cli_seed(struct cli *c, int64_t *seed)
{
	uint64_t any = 0;

	if (*seed)
		return;
	if (getrandom(&any, sizeof any, 0) != sizeof any)
		CLI_FAIL(c, RT_E_IO, "the system gave no random number: give --seed");
	*seed = (int64_t)(any % (uint64_t)RT_SEED_MOST) + 1;
}

/* ---- the show ---------------------------------------------------------------------------- */

void cli_times_read(struct cli *c, bool writing, struct cli_times *in)
{
	const struct rt_entries *entries;

	rt_time_settings_default(&in->settings);
	cli_store(c, writing);
	entries = cli_entries(c);
	CLI_DO(c, rt_store_plan_rows(c->store, &in->rows, &c->err));
	CLI_DO(c, rt_store_wishes(c->store, &in->wishes, &c->err));
	CLI_DO(c, rt_store_time_settings(c->store, RT_TIMES_NOW, &in->settings, &in->planned,
					 &c->err));
	CLI_DO(c, rt_store_times(c->store, entries, &in->starts, &c->err));
}

void cli_times_free(struct cli_times *in)
{
	RT_LIST_FREE(&in->starts);
	RT_LIST_FREE(&in->wishes);
	RT_LIST_FREE(&in->rows);
}

void cli_clashes(struct cli *c, const struct cli_times *in, const struct rt_starts *starts,
		 struct rt_clashes *out)
{
	const struct rt_classes *classes = cli_classes(c);

	CLI_DO(c, rt_times_clashes(out, starts, classes, &in->settings, &c->err));
}

const struct rt_start *cli_start_of(const struct rt_starts *starts, const struct rt_entry *entry)
{
	for (size_t i = 0; i < starts->n; i++)
		if (starts->at[i].entry == entry)
			return &starts->at[i];
	return NULL;
}

struct cli_now cli_show_now(struct cli *c, const struct cli_times *in)
{
	struct cli_now now = {.days = in->settings.days};
	struct rt_show show = {0};
	int64_t of_day_s = 0;

	CLI_DO(c, rt_store_show(c->store, &show, &c->err));
	for (size_t i = 0; i < in->starts.n; i++)
		if (rt_day_of(in->starts.at[i].at_s) > now.days)
			now.days = rt_day_of(in->starts.at[i].at_s);
	if (!c->err.code) {
		snprintf(now.first_day, sizeof now.first_day, "%s", show.day);
		now.day = rt_day_number(c->when) - rt_day_number(show.day) + 1;
		rt_time_read(c->when + 11, &of_day_s);
	}
	if (now.day < 1 || now.day > now.days)
		now.day = 0;
	now.at_s = (now.day - 1) * RT_DAY_S + of_day_s;
	rt_show_free(&show);
	return now;
}

void cli_judged(struct cli *c, const struct rt_classes *classes, struct rt_judge_sheets *out)
{
	for (size_t i = 0; i < classes->n; i++)
		CLI_DO(c, rt_store_judged(c->store, classes->at[i].name, out, &c->err));
}

void cli_note_untimed(struct cli *c, const struct rt_starts *starts, const char *class_name)
{
	const struct rt_classes *classes = cli_classes(c);
	const struct rt_entries *entries = cli_entries(c);

	for (size_t k = 0; k < classes->n; k++) {
		const char *name = classes->at[k].name;
		struct cli_names numbers = {0};
		bool timed = false;

		for (size_t i = 0; i < starts->n; i++)
			timed |= strcmp(starts->at[i].entry->class_name, name) == 0;
		if (class_name && strcmp(class_name, name) != 0)
			continue;
		for (size_t i = 0; i < entries->n && timed; i++) {
			const struct rt_entry *e = &entries->at[i];

			if (e->status == RT_ENTERED && strcmp(e->class_name, name) == 0 &&
			    !cli_start_of(starts, e))
				cli_name(&numbers, "%lld", (long long)e->number);
		}
		if (numbers.n)
			rt_report_note(&c->report, "Class %s: no start time yet for %s.", name,
				       numbers.text);
	}
}

/* ---- narrowing --------------------------------------------------------------------------- */

const struct rt_field cli_narrowing_options[] = {CLI_NARROWING(struct cli_narrowing, )};

void cli_narrowing_find(struct cli *c, struct cli_narrowing *only)
{
	if (only->ring)
		cli_ring_named(c, only->ring, &only->ring);
	if (only->class_name)
		cli_class(c, only->class_name);
}

/* Whether the name of one of its people holds the part, but for case and accents. */
static bool has_person(const struct rt_entry *entry, const char *part)
{
	const char *person[RT_PEOPLE_MOST];
	size_t people = rt_entry_people(entry, person);
	char *wanted = rt_fold(part);
	bool found = false;

	for (size_t i = 0; i < people && wanted; i++) {
		char *folded = rt_fold(person[i]);

		found |= folded && strstr(folded, wanted);
		free(folded);
	}
	free(wanted);
	return found;
}

static bool is_wanted(const struct rt_start *s, const struct cli_narrowing *only)
{
	return (!only->ring || strcmp(s->ring, only->ring) == 0) &&
	       (!only->class_name || strcmp(s->entry->class_name, only->class_name) == 0) &&
	       (!only->day || rt_day_of(s->at_s) == only->day) &&
	       (!only->driver || has_person(s->entry, only->driver));
}

void cli_narrow(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		struct rt_starts *out)
{
	for (size_t i = 0; i < all->n; i++)
		if (is_wanted(&all->at[i], only))
			CLI_ADD(c, out, all->at[i]);
}

struct list_row {
	const char *list;
	int64_t day, version;
};

static const struct rt_field list_fields[] = {
	{"list", RT_AT(struct list_row, list)},
	{"day", RT_AT(struct list_row, day), .type = RT_INT, .is = RT_EMPTY},
	{"version", RT_AT(struct list_row, version), .type = RT_INT},
};

const struct rt_record cli_lists_table = RT_TABLE("lists", NULL, list_fields, struct list_row);

void cli_report_lists(struct cli *c, const char *title, const struct cli_narrowing *only,
		      int64_t version)
{
	struct rt_list_versions versions = {0};
	struct rt_table *t = rt_report_rows(&c->report, &cli_lists_table);

	rt_table_title(t, title);
	CLI_DO(c, rt_store_list_versions(c->store, &versions, &c->err));
	for (size_t i = 0; i < versions.n; i++) {
		const struct rt_list_version *v = &versions.at[i];
		struct list_row row = {v->ring, v->day, v->version};

		if ((version && v->version != version) ||
		    (v->ring && only->ring && strcmp(v->ring, only->ring) != 0) ||
		    (v->day && only->day && v->day != only->day) ||
		    (v->class_name && only->class_name &&
		     strcmp(v->class_name, only->class_name) != 0))
			continue;
		if (!v->ring)
			row.list = rt_report_textf(&c->report, "class %s", v->class_name);
		rt_put_row(t, &row);
	}
	RT_LIST_FREE(&versions);
}

/* ---- the order of starting ----------------------------------------------------------------- */

static size_t index_of(const struct rt_entries *entries, int64_t id)
{
	size_t i = 0;

	while (i < entries->n && entries->at[i].id != id)
		i++;
	return i;
}

enum rt_err cli_rank_starts(struct cli *c, const char *class_name, const struct rt_entries *entries,
			    int64_t *rank, const char **by)
{
	struct rt_draw_places places = {0};
	struct rt_starts starts = {0};
	enum rt_err e = rt_store_times(c->store, entries, &starts, &c->err);

	if (!e && !starts.n)
		e = rt_store_draw_places(c->store, class_name, &places, &c->err);
	*by = starts.n ? "start times" : places.n ? "the draw" : "numbers";
	for (size_t i = 0; i < entries->n; i++)
		rank[i] = starts.n || places.n ? INT64_MAX : (int64_t)i;
	for (size_t i = 0; i < starts.n; i++)
		rank[index_of(entries, starts.at[i].entry->id)] = (int64_t)i;
	for (size_t i = 0; i < places.n; i++)
		rank[index_of(entries, places.at[i].entry)] = places.at[i].place;
	RT_LIST_FREE(&starts);
	RT_LIST_FREE(&places);
	return e;
}
