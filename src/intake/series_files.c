/* Files of championships, teams and scales of prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- championships --------------------------------------------------------------------------- */

struct series_load {
	struct rt__names classes;
	struct rt_map *seen;
};

/* Every class of the list is known and stands once, and one is left that counts. */
static void check_list(struct rt__load *l, const struct rt_championship *row)
{
	const struct series_load *self = l->self;
	struct rt_strings names = {0};
	struct rt_map *seen = NULL;

	if (rt_names_split(&names, row->classes, NULL) != RT_OK)
		l->nomem = true;
	for (size_t i = 0; i < names.n; i++) {
		rt__known(l, &self->classes, "classes", names.at[i]);
		if (rt_map_put(&seen, names.at[i], i, &l->nomem) != RT_MAP_NONE)
			rt__row_fault(l, "classes", "class %s is there twice: each class once",
				      rt_show(names.at[i]).text);
	}
	if (names.n <= (size_t)row->dropped)
		rt__row_fault(l, row->dropped ? "dropped" : "classes",
			      "%zu classes, %" PRId64 " dropped: one at least must count", names.n,
			      row->dropped);
	rt_map_free(seen);
	RT_LIST_FREE(&names);
}

static void check_championship(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_championship *row = data;

	rt__doubled(l, &self->seen, "championship", row->name, row->name, "each championship once");
	if (row->classes)
		check_list(l, row);
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_championships(struct rt_championships *out, const char *path,
				  const struct rt_roster *roster, struct rt_faults *faults,
				  struct rt_error *err)
{
	static const struct rt__file file = {&rt_championship_record, check_championship, NULL};
	struct series_load self = {.classes.what = "class"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.classes, rt__roster(roster)->classes);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.classes);
	rt_map_free(self.seen);
	return rc;
}

/* ---- teams ----------------------------------------------------------------------------------- */

static void check_member(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_team_member *row = data;

	rt__known(l, &self->classes, "class", row->class_name);
	rt__doubled_number(l, &self->seen, row->class_name, row->number, "an entry is in one team");
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_team_members(struct rt_team_members *out, const char *path,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	static const struct rt__file file = {&rt_team_member_record, check_member, NULL};
	struct series_load self = {.classes.what = "class"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.classes, rt__roster(roster)->classes);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.classes);
	rt_map_free(self.seen);
	return rc;
}

/* ---- scales of prizes ------------------------------------------------------------------------ */

static void check_prize(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_prize_step *row = data;
	char step[60];

	snprintf(step, sizeof step, "place %" PRId64 " from %" PRId64 " starters", row->place,
		 row->starters);
	if (row->scale && row->place && row->starters)
		rt__doubled(l, &self->seen, "place", rt__key(l, step, row->scale), step,
			    "each place of a step once");
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_prize_steps(struct rt_prize_steps *out, const char *path,
				struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_prize_step_record, check_prize, NULL};
	struct series_load self = {0};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(self.seen);
	return rc;
}
