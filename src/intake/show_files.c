/* Files of a show: classes and entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "files.h"

#include <stdlib.h>
#include <string.h>

/* ---- classes --------------------------------------------------------------------------------- */

struct class_row {
	struct rt_class class_;
	const char *judges;	 /* as typed; they are known to read well */
	const char *judge_names; /* likewise, once the row is checked; NULL: none given */
};

struct class_load {
	const struct rt_roster *roster;
	struct rt__names tests, rings, rules;
	struct rt_map *seen;
};

static enum rt_err read_judges(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	struct rt_judges judges = {0};
	struct rt_arena *positions = NULL;
	enum rt_err rc = rt_judges_read(&judges, &positions, s, err);

	RT_LIST_FREE(&judges);
	rt_arena_free(positions);
	return rc ? rc : rt_member_read(f, member, s, text, err);
}

static const struct rt_field class_columns[] = {
	{"class", RT_AT(struct class_row, class_.name), .type = RT_NAME},
	{"title", RT_AT(struct class_row, class_.title), .type = RT_NAME},
	{"test", RT_AT(struct class_row, class_.test), .type = RT_NAME},
	{"level", RT_AT(struct class_row, class_.level), .type = RT_NAME, .is = RT_EMPTY},
	{"ring", RT_AT(struct class_row, class_.ring), .type = RT_NAME, .is = RT_EMPTY},
	{"rule", RT_AT(struct class_row, class_.rule), .type = RT_NAME, .is = RT_EMPTY},
	{"judges", RT_AT(struct class_row, judges), .type = RT_LETTERS, .read = read_judges},
	{"division", RT_AT(struct class_row, class_.division), .type = RT_NAME, .is = RT_OPTIONAL},
	{"judge_names", RT_AT(struct class_row, judge_names), .type = RT_TEXT, .is = RT_OPTIONAL},
};

/* A name for each position. */
static void check_judge_names(struct rt__load *l, const struct class_row *row)
{
	struct rt_judges judges = {0};
	struct rt_arena *text = NULL;
	struct rt_error err;
	enum rt_err rc;

	if (!row->judges || !row->judge_names)
		return;
	rc = rt_judges_read(&judges, &text, row->judges, &err);
	if (!rc)
		rc = rt_judges_name(&judges, &text, row->judge_names, &err);
	if (rc == RT_E_NOMEM)
		l->nomem = true;
	else if (rc != RT_OK)
		rt__row_fault(l, "judge_names", "%s", err.text);
	RT_LIST_FREE(&judges);
	rt_arena_free(text);
}

static void check_class(struct rt__load *l, void *data)
{
	struct class_load *self = l->self;
	struct rt_class *row = &((struct class_row *)data)->class_;

	rt__doubled(l, &self->seen, "class", row->name, row->name, "each class once");
	rt__known(l, &self->tests, "test", row->test);
	rt__known(l, &self->rings, "ring", row->ring);
	rt__known(l, &self->rules, "rule", row->rule);
	rt__check_level(l, self->roster,
			rt__fields_sound(l, "test ring")
				? rt_class_ring_kind(row, self->roster->rings, self->roster->tests)
				: NULL,
			row->level);
	check_judge_names(l, data);
	row->file = rt__load_path(l);
	row->line = l->line;
}

static void keep_class(struct rt__load *l, void *data)
{
	const struct class_row *row = data;
	struct rt_class *kept = rt_list_add(l->list.at, l->list.n, l->list.cap, sizeof *kept);

	if (kept)
		*kept = row->class_;
	if (!kept || rt_judges_read(&kept->judges, l->list.text, row->judges, NULL) != RT_OK ||
	    (row->judge_names &&
	     rt_judges_name(&kept->judges, l->list.text, row->judge_names, NULL) != RT_OK))
		l->nomem = true;
}

enum rt_err rt_read_classes(struct rt_classes *out, const char *path,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct class_row blank = {0};
	static const struct rt_record record = {RT_FIELDS(class_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_class, keep_class};
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
