/* Files of a show: classes and entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "files.h"

#include <math.h>
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

static bool read_judges(struct rt__load *l, const char *s, void *field)
{
	struct rt_judges judges = {0};
	struct rt_arena *text = NULL;
	struct rt_error err;
	enum rt_err rc = rt_judges_read(&judges, &text, s, &err);

	RT_LIST_FREE(&judges);
	rt_arena_free(text);
	if (rc == RT_E_NOMEM)
		l->nomem = true;
	else if (rc != RT_OK)
		rt__row_fault(l, l->column_name, "%s", err.text);
	return rc == RT_OK && rt__cell_name(l, s, field);
}

static const struct rt__column class_columns[] = {
	{RT__COLUMN("class", rt__cell_name, struct class_row, class_.name)},
	{RT__COLUMN("title", rt__cell_name, struct class_row, class_.title)},
	{RT__COLUMN("test", rt__cell_name, struct class_row, class_.test)},
	{RT__COLUMN("level", rt__cell_name, struct class_row, class_.level), .empty = true},
	{RT__COLUMN("ring", rt__cell_name, struct class_row, class_.ring), .empty = true},
	{RT__COLUMN("rule", rt__cell_name, struct class_row, class_.rule), .empty = true},
	{RT__COLUMN("judges", read_judges, struct class_row, judges)},
	{RT__COLUMN("division", rt__cell_name, struct class_row, class_.division),
	 .optional = true},
	{RT__COLUMN("judge_names", rt__cell_text, struct class_row, judge_names), .optional = true},
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
	static const struct rt__file file = {class_columns, RT__COUNT(class_columns),
					     sizeof blank,  &blank,
					     check_class,   keep_class};
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

static bool read_horses(struct rt__load *l, const char *s, void *field)
{
	char *joined = malloc(2 * strlen(s) + 1); /* a space may follow each semicolon */
	bool good;

	if (!joined) {
		l->nomem = true;
		return false;
	}
	rt_names_join(s, joined);
	good = *joined ? rt__cell_name(l, joined, field)
		       : rt__refuse(l, NULL, "no horse", "at least one name, semicolons between");
	free(joined);
	return good;
}

static const struct rt__column entry_columns[] = {
	{RT__COLUMN("class", rt__cell_name, struct rt_entry, class_name)},
	{RT__COLUMN("number", rt__cell_whole, struct rt_entry, number), .low = 1,
	 .high = RT_NUMBER_MOST},
	{RT__COLUMN("driver", rt__cell_name, struct rt_entry, driver), .also = "rider"},
	{RT__COLUMN("horses", read_horses, struct rt_entry, horses)},
	{RT__COLUMN("height_cm", rt__cell_height, struct rt_entry, height_cm), .empty = true},
	{RT__COLUMN("turnout", rt__cell_name, struct rt_entry, turnout), .empty = true},
	{RT__COLUMN("groom", rt__cell_name, struct rt_entry, groom), .empty = true},
	{RT__COLUMN("club", rt__cell_name, struct rt_entry, club), .empty = true},
	{RT__COLUMN("division", rt__cell_name, struct rt_entry, division), .optional = true},
	{RT__COLUMN("hors_concours", rt__cell_yes, struct rt_entry, hors_concours),
	 .optional = true},
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
	static const struct rt_entry blank = {.height_cm = NAN, .status = RT_ENTERED};
	static const struct rt__file file = {
		entry_columns, RT__COUNT(entry_columns), sizeof blank, &blank, check_entry, NULL};
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
