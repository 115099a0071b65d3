/* The classes of a plan: who has starters, the rings each could be in, and its interval.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

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

static void take_movements(struct cli *c, const struct rt_items *items,
			   struct rt_movement_figures *out)
{
	for (size_t i = 0; i < items->n; i++) {
		const struct rt_item *item = &items->at[i];

		if (item->group == RT_GROUP_MOVEMENT)
			CLI_ADD(c, out,
				(struct rt_movement_figure){item->name, item->figure, item->gait,
							    NULL, 0});
	}
}

/* The interval of a class in seconds, from the route of its test with the ways in and out; NAN
 * where the test does not tell. */
static double class_seconds(struct cli *c, const struct rt_class *class_)
{
	const struct rt_shipped *rows = cli_rows(c);
	const char *kind_name = rt_class_ring_kind(class_, cli_rings(c), cli_tests(c));
	const char *level_name = cli_level_of(c, class_);
	const struct rt_turn_options options = {
		.height_cm = least_height(cli_entries(c), class_->name)};
	const struct rt_ring_kind *kind = NULL;
	const struct rt_level *level = NULL;
	struct rt_items items = {0};
	struct rt_movement_figures movements = {0};
	struct rt_route route = {0};
	double seconds = NAN;

	if (!kind_name || !level_name)
		return NAN;
	CLI_DO(c, rt_ring_kind_named(&kind, &rows->kinds, kind_name, &c->err));
	if (kind)
		level = cli_level(c, level_name, kind->discipline);
	CLI_DO(c, rt_store_items(c->store, class_->test, &items, &c->err));
	take_movements(c, &items, &movements);
	if (movements.n)
		CLI_DO(c, rt_route_make(&route, kind, level, &rows->gaits, &movements, &options,
					&c->err));
	if (!c->err.code && movements.n && route.timed)
		seconds = route.total_s + route.in_s + route.out_s;
	rt_route_free(&route);
	RT_LIST_FREE(&movements);
	RT_LIST_FREE(&items);
	return seconds;
}

/* ---- classes ----------------------------------------------------------------------------- */

static const struct rt_plan_row *row_of(const struct cli_times *in, const char *class_name)
{
	for (size_t i = 0; i < in->rows.n; i++)
		if (strcmp(in->rows.at[i].class_name, class_name) == 0)
			return &in->rows.at[i];
	return NULL;
}

/* The rings that a class could be in: those of the kind its test is made for, or all. */
static uint64_t rings_of_kind(struct cli *c, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test(c, class_->test);
	const struct rt_rings *rings = cli_rings(c);
	uint64_t mask = 0;

	for (size_t i = 0; i < rings->n && i < RT_RINGS_MOST; i++)
		if (!test || !test->kind || strcmp(rings->at[i].kind, test->kind) == 0)
			mask |= UINT64_C(1) << i;
	return mask;
}

static uint64_t ring_named(const struct rt_rings *rings, const char *name)
{
	for (size_t i = 0; i < rings->n && i < RT_RINGS_MOST; i++)
		if (strcmp(rings->at[i].name, name) == 0)
			return UINT64_C(1) << i;
	return 0;
}

static void add_class(struct cli *c, const struct cli_times *in, const struct rt_class *class_,
		      const struct cli_times_plan *asked, struct rt_time_classes *out)
{
	static const struct rt_plan_row nothing = {.first_s = -1};
	const struct rt_plan_row *row = row_of(in, class_->name);
	struct rt_time_class *k = RT_LIST_ADD(out);
	const char *ring;
	int64_t interval_s, margin_s = (int64_t)(RT_SIGNAL_SECONDS + RT_WRITING_SECONDS);
	double seconds = 0;

	if (!k) {
		CLI_DO(c, rt_fail_nomem(&c->err));
		return;
	}
	row = row ? row : &nothing;
	margin_s = cli_given(c, &asked->margin_s) ? asked->margin_s : margin_s;
	interval_s = row->interval_s;
	if (!interval_s)
		seconds = class_seconds(c, class_);
	if (isnan(seconds))
		CLI_FAIL(c, RT_E_INPUT,
			 "class %s has no interval: give interval_s in the plan file (the route of "
			 "its test is not timed whole: `test route` says why)",
			 class_->name);
	else if (!interval_s)
		interval_s = rt_interval_of(seconds, margin_s);
	rt_time_class_make(k, row, class_, interval_s, asked->seconds ? RT_STEP_S : RT_MINUTE_S);
	ring = row->ring ? row->ring : class_->ring;
	k->otherwise = rings_of_kind(c, class_);
	k->rings = ring ? ring_named(cli_rings(c), ring) : k->otherwise;
	k->otherwise |= k->rings;
}

static bool has_starters(const struct rt_entries *entries, const char *class_name)
{
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].status == RT_ENTERED &&
		    strcmp(entries->at[i].class_name, class_name) == 0)
			return true;
	return false;
}

void cli_plan_classes(struct cli *c, const struct cli_times *in, const struct cli_stays *stays,
		      const struct cli_times_plan *asked, struct rt_time_classes *out)
{
	const char *only = asked->only;
	const struct rt_classes *classes = cli_classes(c);
	const struct cli_stay *stay;

	for (size_t i = 0; i < classes->n && !c->err.code; i++)
		if ((!only || strcmp(only, classes->at[i].name) == 0) &&
		    !cli_stay_of(stays, classes->at[i].name) &&
		    has_starters(cli_entries(c), classes->at[i].name))
			add_class(c, in, &classes->at[i], asked, out);
	stay = only ? cli_stay_of(stays, only) : stays->at;
	if (!out->n && stay)
		CLI_FAIL(c, RT_E_INPUT,
			 "nothing is left to plan: class %s stays as it is (%s)%s: --again plans "
			 "it anew",
			 stay->class_name, stay->why,
			 only || stays->n == 1 ? "" : ", and so do the others");
	else if (!out->n)
		CLI_FAIL(c, RT_E_INPUT, "there is nobody to plan for");
}
