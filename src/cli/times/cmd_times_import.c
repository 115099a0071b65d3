/* times import: what is asked of the start times.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

struct times_import {
	const char *plan, *wishes, *by;
	struct cli_import how; /* but for the file */
};

static const struct rt_field times_import_options[] = {
	{"plan", RT_AT(struct times_import, plan), .head = "PLAN.csv",
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"wishes", RT_AT(struct times_import, wishes), .head = "WISHES.csv", .is = RT_ARGUMENT},
	CLI_BY(struct times_import, by, 0),
	CLI_IMPORT_HOW(struct times_import, how),
};

struct asked {
	struct rt_plan_rows rows, rows_there;
	struct rt_wishes wishes, wishes_there;
};

static void asked_free(struct asked *a)
{
	RT_LIST_FREE(&a->rows);
	RT_LIST_FREE(&a->rows_there);
	RT_LIST_FREE(&a->wishes);
	RT_LIST_FREE(&a->wishes_there);
}

/* Whether two lists of a kind of row say the same. */
static bool same_rows(const struct rt_record *r, const void *a, size_t n, const void *b, size_t m)
{
	bool same = n == m;

	for (size_t i = 0; i < n && same; i++)
		for (size_t k = 0; k < r->fields && same; k++)
			same = rt_field_same(r, &r->field[k], (const char *)a + i * r->size,
					     (const char *)b + i * r->size);
	return same;
}

/* Whether the wish is about somebody or something of the entry. */
static bool is_about(const struct rt_wish *w, const struct rt_entry *e)
{
	const char *person[RT_PEOPLE_MOST];
	size_t people = rt_entry_people(e, person);
	int64_t number;
	bool along = false;

	switch (w->about) {
	case RT_WISH_ENTRY:
		return rt_parse_int(w->name, &number) && number == e->number &&
		       strcmp(w->class_name, e->class_name) == 0;
	case RT_WISH_DRIVER:
		return rt_same_name(w->name, e->driver);
	case RT_WISH_GROOM:
		for (size_t i = 1; i < people; i++)
			along |= rt_same_name(w->name, person[i]);
		return along;
	case RT_WISH_CARRIAGE:
		return e->carriage && rt_same_name(w->name, e->carriage);
	case RT_WISH_HORSE:
		return rt_names_hold(e->horses, w->name);
	case RT_WISH_CLASS:
	case RT_WISH_JUDGE:
		break;
	}
	return false;
}

static bool is_judge(const struct rt_classes *classes, const char *name)
{
	for (size_t i = 0; i < classes->n; i++)
		for (size_t j = 0; j < classes->at[i].judges.n; j++) {
			const struct rt_judge *judge = &classes->at[i].judges.at[j];

			if ((judge->name && rt_same_name(judge->name, name)) ||
			    (judge->scribe && rt_same_name(judge->scribe, name)))
				return true;
		}
	return false;
}

/* A wish about nobody in the show is a slip of the pen. */
static void check_names(struct cli *c, const struct asked *a)
{
	const struct rt_entries *entries = cli_entries(c);

	for (size_t i = 0; i < a->wishes.n; i++) {
		const struct rt_wish *w = &a->wishes.at[i];
		bool found = w->about == RT_WISH_CLASS ||
			     (w->about == RT_WISH_JUDGE && is_judge(cli_classes(c), w->name));

		for (size_t k = 0; k < entries->n && !found; k++)
			found = is_about(w, &entries->at[k]);
		if (!found)
			rt_fault(&c->faults, w->file, w->line, "name",
				 "no %s \"%s\" in the show: the name as it is entered",
				 rt_wish_about_words(w->about), w->name);
	}
}

struct import_row {
	const char *what;
	size_t rows;
	bool kept;
};

static const struct rt_field import_fields[] = {
	{"what", RT_AT(struct import_row, what)},
	{"rows", RT_AT(struct import_row, rows), .type = RT_SIZE},
	{"is_new", .head = "kept", RT_AT(struct import_row, kept), .type = RT_BOOL},
};

static const struct rt_record import_table = RT_TABLE("imported", "Imported", import_fields,
						      struct import_row);

static void read_asked(struct cli *c, const struct times_import *o, struct asked *a)
{
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *plan = cli_source(c, &o->how, o->plan);
	const struct rt_source *wishes = cli_source(c, &o->how, o->wishes);

	CLI_DO(c, rt_read_plan_rows(&a->rows, plan, roster, &c->faults, &c->err));
	if (o->wishes)
		CLI_DO(c, rt_read_wishes(&a->wishes, wishes, roster, &c->faults, &c->err));
	if (!c->err.code)
		check_names(c, a);
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c, rt_store_plan_rows(c->store, &a->rows_there, &c->err));
	CLI_DO(c, rt_store_wishes(c->store, &a->wishes_there, &c->err));
}

static void times_import(struct cli *c, const void *typed)
{
	const struct times_import *o = typed;
	struct rt_times_note note = {.words = o->plan, .who = o->by, .when = c->when};
	struct asked a = {0};
	bool new_rows, new_wishes;

	read_asked(c, o, &a);
	new_rows = !same_rows(&rt_plan_row_record, a.rows.at, a.rows.n, a.rows_there.at,
			      a.rows_there.n);
	new_wishes = o->wishes && !same_rows(&rt_wish_record, a.wishes.at, a.wishes.n,
					     a.wishes_there.at, a.wishes_there.n);
	if (new_rows)
		CLI_DO(c, rt_store_plan_rows_put(c->store, &a.rows, &note, &c->err));
	note.words = o->wishes;
	if (new_wishes)
		CLI_DO(c, rt_store_wishes_put(c->store, &a.wishes, &note, &c->err));
	rt_report_list(&c->report, &import_table,
		       (struct import_row[]){{"plan", a.rows.n, new_rows},
					     {"wishes", a.wishes.n, new_wishes}},
		       o->wishes ? 2 : 1);
	if (!new_rows && !new_wishes)
		rt_report_note(&c->report, "Nothing was changed: the show has it just so already.");
	asked_free(&a);
}

const struct cli_command cmd_times_import = {
	.name = "times import",
	.summary = "Put in what is asked of the start times.",
	.details =
		"Whatever is empty, and every class without a row, the plan decides: the ring among those\n"
		"of the test's kind, the interval by the test's route. A carriage is one that entries\n"
		"name (their column carriage). Each file takes the place of the one before.",
	.example = "--show spring.show times import plan.csv wishes.csv",
	.files = (const struct rt_record *const[]){&rt_plan_row_record, &rt_wish_record, NULL},
	CLI_OPTIONS(struct times_import, times_import_options),
	.table = {&import_table},
	.run = times_import,
};
