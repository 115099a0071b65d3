/* Files of a show: classes and entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "files.h"

#include <stdlib.h>
#include <string.h>

/* ---- classes --------------------------------------------------------------------------------- */

struct class_load {
	const struct rt_roster *roster;
	struct rt__names tests, rings, rules;
	struct rt_map *seen;
};

/* A name for each position. */
static void check_judge_names(struct rt__load *l, const struct rt_class *row)
{
	struct rt_class copy = *row;
	struct rt_arena *text = NULL;
	struct rt_error err;
	enum rt_err rc = row->positions && row->judge_names
				 ? rt_class_read_judges(&copy, &text, &err)
				 : RT_OK;

	if (rc == RT_E_NOMEM)
		l->nomem = true;
	else if (rc)
		rt__row_fault(l, "judge_names", "%s", err.text);
	RT_LIST_FREE(&copy.judges);
	rt_arena_free(text);
}

static void check_class(struct rt__load *l, void *data)
{
	struct class_load *self = l->self;
	struct rt_class *row = data;

	rt__doubled(l, &self->seen, "class", row->name, row->name, "each class once");
	rt__known(l, &self->tests, "test", row->test);
	rt__known(l, &self->rings, "ring", row->ring);
	rt__known(l, &self->rules, "rule", row->rule);
	rt__check_level(l, self->roster,
			rt__fields_sound(l, "test ring")
				? rt_class_ring_kind(row, self->roster->rings, self->roster->tests)
				: NULL,
			row->level);
	check_judge_names(l, row);
	row->file = rt__load_path(l);
	row->line = l->line;
}

static void keep_class(struct rt__load *l, void *data)
{
	struct rt_class *kept = rt_list_add(l->list.at, l->list.n, l->list.cap, sizeof *kept);

	if (kept)
		*kept = *(const struct rt_class *)data;
	if (!kept || rt_class_read_judges(kept, l->list.text, NULL) != RT_OK)
		l->nomem = true;
}

enum rt_err rt_read_classes(struct rt_classes *out, const char *path,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct rt__file file = {&rt_class_record, check_class, keep_class};
	struct class_load self = {.roster = rt__roster(roster),
				  .tests.what = "test",
				  .rings.what = "ring",
				  .rules.what = "rule"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.tests, self.roster->tests);
	RT__NAMES_FROM(&self.rings, self.roster->rings);
	RT__NAMES_FROM(&self.rules, self.roster->rules);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.tests);
	rt__names_free(&self.rings);
	rt__names_free(&self.rules);
	rt_map_free(self.seen);
	return rc;
}

/* ---- entries --------------------------------------------------------------------------------- */

struct entry_load {
	struct rt__names classes;
	struct rt_map *seen; /* line, by number and class */
};

static void check_entry(struct rt__load *l, void *data)
{
	struct entry_load *self = l->self;
	struct rt_entry *row = data;

	rt__known(l, &self->classes, "class", row->class_name);
	rt__doubled_number(l, &self->seen, row->class_name, row->number,
			   "each number of a class once");
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_entries(struct rt_entries *out, const char *path,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct rt__file file = {&rt_entry_record, check_entry, NULL};
	struct entry_load self = {.classes.what = "class"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.classes, rt__roster(roster)->classes);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.classes);
	rt_map_free(self.seen);
	return rc;
}
