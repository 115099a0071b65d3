/* What the commands of the draw and the times share: the show as start times see it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>

/* ---- names ------------------------------------------------------------------------------- */

enum rt_err cli_ring_named(struct cli *c, const struct rt_rings *rings, const char *name,
			   const char **out)
{
	struct cli_names names = {0};

	for (size_t i = 0; i < rings->n; i++) {
		if (rt_same_name(rings->at[i].name, name)) {
			*out = rings->at[i].name;
			return RT_OK;
		}
		cli_name(&names, rings->at[i].name);
	}
	return rt_fail(&c->err, RT_E_NOTFOUND, "there is no ring %s in the show: %s", name,
		       names.n ? names.text : "it has none yet");
}

enum rt_err cli_entry_typed(struct cli *c, const struct rt_entries *entries,
			    const struct rt_classes *classes, const char *class_name,
			    const char *number, const struct rt_entry **out)
{
	const struct rt_class *class_;
	int64_t n = 0;
	enum rt_err e = cli_class_named(c, classes, class_name, &class_);

	if (!e)
		e = cli_whole(c, "number", number, 1, 99999, &n);
	return e ? e : cli_entry_numbered(c, entries, class_name, n, out);
}

/* ---- times and seeds --------------------------------------------------------------------- */

enum rt_err cli_time_typed(struct cli *c, const char *what, const char *typed, int64_t *out)
{
	if (!typed || rt_time_read(typed, out))
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE, "%s: \"%s\": a time of day as 09:05 or 09:05:30", what,
		       typed);
}

enum rt_err cli_seed(struct cli *c, const struct cli_call *call, int64_t *out)
{
	const char *typed = cli_option(call, "seed");
	uint64_t any = 0;

	if (typed)
		return cli_whole(c, "--seed", typed, 1, RT_SEED_MOST, out);
	if (getrandom(&any, sizeof any, 0) != sizeof any)
		return rt_fail(&c->err, RT_E_IO, "the system gave no random number: give --seed");
	*out = (int64_t)(any % (uint64_t)RT_SEED_MOST) + 1;
	return RT_OK;
}

/* ---- the show ---------------------------------------------------------------------------- */

static bool is_in(const struct rt_strings *names, const char *name)
{
	for (size_t i = 0; i < names->n; i++)
		if (strcmp(names->at[i], name) == 0)
			return true;
	return false;
}

/* A turnout that is a row of the show's turnouts is a sort, of which there are many, unless a
 * wish says that there is one. */
static bool is_one_carriage(const struct cli_times *in, const char *turnout)
{
	const struct rt_turnout_parts *parts = &in->roster.rows.turnouts;
	bool sort = false;

	for (size_t i = 0; i < in->wishes.n; i++)
		if (in->wishes.at[i].about == RT_WISH_CARRIAGE &&
		    strcmp(in->wishes.at[i].name, turnout) == 0)
			return true;
	for (size_t i = 0; i < parts->n && !sort; i++)
		sort = strcmp(parts->at[i].turnout, turnout) == 0;
	return !sort;
}

static enum rt_err find_carriages(struct cli *c, struct cli_times *in)
{
	for (size_t i = 0; i < in->entries.n; i++) {
		const char *turnout = in->entries.at[i].turnout, **one;

		if (!turnout || is_in(&in->carriages, turnout) || !is_one_carriage(in, turnout))
			continue;
		one = RT_LIST_ADD(&in->carriages);
		if (!one)
			return rt_fail_nomem(&c->err);
		*one = turnout;
	}
	return RT_OK;
}

enum rt_err cli_times_read(struct cli *c, bool writing, struct cli_times *in)
{
	enum rt_err e = CLI_OLD(c, cli_store(c, writing));

	rt_time_settings_default(&in->settings);
	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in->roster));
	if (!e)
		e = rt_store_entries(c->store, NULL, &in->entries, &c->err);
	if (!e)
		e = rt_store_plan_rows(c->store, &in->rows, &c->err);
	if (!e)
		e = rt_store_wishes(c->store, &in->wishes, &c->err);
	if (!e)
		e = rt_store_time_settings(c->store, &in->settings, &in->planned, &c->err);
	if (!e)
		e = rt_store_times(c->store, &in->entries, &in->starts, &c->err);
	return e ? e : find_carriages(c, in);
}

void cli_times_free(struct cli_times *in)
{
	RT_LIST_FREE(&in->starts);
	RT_LIST_FREE(&in->carriages);
	RT_LIST_FREE(&in->wishes);
	RT_LIST_FREE(&in->rows);
	RT_LIST_FREE(&in->entries);
	cli_roster_free(&in->roster);
}

enum rt_err cli_clashes(struct cli *c, const struct cli_times *in, const struct rt_starts *starts,
			struct rt_clashes *out)
{
	return rt_times_clashes(out, starts, &in->roster.classes, &in->settings, &in->carriages,
				&c->err);
}

/* ---- how long a test takes --------------------------------------------------------------- */

/* The smallest height of the class's animals, which are the slowest; 0: none is known. */
static double least_height(const struct rt_entries *entries, const char *class_name)
{
	double least = 0;

	for (size_t i = 0; i < entries->n; i++) {
		const struct rt_entry *e = &entries->at[i];

		if (strcmp(e->class_name, class_name) == 0 && !isnan(e->height_cm) &&
		    (least == 0 || e->height_cm < least))
			least = e->height_cm;
	}
	return least;
}

static enum rt_err take_movements(struct cli *c, const struct rt_items *items,
				  struct rt_movement_figures *out)
{
	for (size_t i = 0; i < items->n; i++) {
		const struct rt_item *item = &items->at[i];
		struct rt_movement_figure *m = item->general ? NULL : RT_LIST_ADD(out);

		if (item->general)
			continue;
		if (!m)
			return rt_fail_nomem(&c->err);
		*m = (struct rt_movement_figure){item->name, item->figure, item->gait, NULL, 0};
	}
	return RT_OK;
}

static enum rt_err route_seconds(struct cli *c, const struct cli_times *in,
				 const struct rt_class *class_, const struct rt_ring_kind *kind,
				 const struct rt_level *level, double *out)
{
	const struct rt_route_options options = {
		.height_cm = least_height(&in->entries, class_->name)};
	struct rt_items items = {0};
	struct rt_movement_figures movements = {0};
	struct rt_route route = {0};
	enum rt_err e = rt_store_items(c->store, class_->test, &items, &c->err);

	if (!e)
		e = take_movements(c, &items, &movements);
	if (!e && movements.n)
		e = rt_route_make(&route, kind, level, &in->roster.rows.gaits, &movements, &options,
				  &c->err);
	if (!e && movements.n && route.timed)
		*out = route.total_s + route.in_s + route.out_s;
	rt_route_free(&route);
	RT_LIST_FREE(&movements);
	RT_LIST_FREE(&items);
	return e;
}

enum rt_err cli_class_seconds(struct cli *c, const struct cli_times *in,
			      const struct rt_class *class_, double *out)
{
	const char *kind_name = rt_class_ring_kind(class_, &in->roster.rings, &in->roster.tests);
	const char *level_name = cli_level_of(class_, &in->roster.tests);
	const struct rt_ring_kind *kind = NULL;
	const struct rt_level *level = NULL;
	enum rt_err e;

	*out = NAN;
	if (!kind_name || !level_name)
		return RT_OK;
	e = rt_ring_kind_named(&kind, &in->roster.rows.kinds, kind_name, &c->err);
	if (!e)
		e = cli_level_named(c, &in->roster.rows.levels, level_name, kind->discipline,
				    &level);
	return e ? e : route_seconds(c, in, class_, kind, level, out);
}

/* ---- narrowing --------------------------------------------------------------------------- */

enum rt_err cli_read_narrowing(struct cli *c, const struct cli_call *call,
			       const struct cli_times *in, struct cli_narrowing *out)
{
	const char *ring = cli_option(call, "ring"), *day = cli_option(call, "day");
	const char *class_name = cli_option(call, "class");
	const struct rt_class *class_;
	enum rt_err e = RT_OK;

	out->driver = cli_option(call, "driver");
	if (ring)
		e = cli_ring_named(c, &in->roster.rings, ring, &out->ring);
	if (!e && day)
		e = cli_whole(c, "--day", day, 1, RT_DAYS_MOST, &out->day);
	if (!e && class_name) {
		e = cli_class_named(c, &in->roster.classes, class_name, &class_);
		out->class_name = e ? NULL : class_->name;
	}
	return e;
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

enum rt_err cli_narrow(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		       struct rt_starts *out)
{
	for (size_t i = 0; i < all->n; i++) {
		struct rt_start *s = is_wanted(&all->at[i], only) ? RT_LIST_ADD(out) : NULL;

		if (s)
			*s = all->at[i];
		else if (is_wanted(&all->at[i], only))
			return rt_fail_nomem(&c->err);
	}
	return RT_OK;
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
