/* class import and list; entry import, list and status.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <string.h>

struct office_import {
	struct cli_roster roster;
	struct rt_classes classes;
	struct rt_entries entries;
	struct rt_import_count count;
};

static void office_import_free(struct office_import *in)
{
	cli_roster_free(&in->roster);
	rt_classes_free(&in->classes);
	RT_LIST_FREE(&in->entries);
}

static enum rt_err put_imported_classes(struct cli *c, void *data)
{
	struct office_import *in = data;

	return rt_store_classes_put(c->store, &in->classes, &in->count, &c->faults, &c->err);
}

static const char *kind_of_ring(const struct rt_rings *rings, const char *name)
{
	for (size_t i = 0; name && i < rings->n; i++)
		if (strcmp(rings->at[i].name, name) == 0)
			return rings->at[i].kind;
	return NULL;
}

/* A class may be held in another ring than its test was made for, but somebody should know. */
static void note_other_kinds(struct cli *c, const struct office_import *in)
{
	for (size_t i = 0; i < in->classes.n; i++) {
		const struct rt_class *k = &in->classes.at[i];
		const struct rt_test *test = cli_test_named(&in->roster.tests, k->test);
		const char *kind = kind_of_ring(&in->roster.rings, k->ring);

		if (kind && test && test->kind && strcmp(kind, test->kind) != 0)
			rt_report_note(&c->report,
				       "Class %s: %s is a %s ring, and test %s is made for %s.",
				       k->name, k->ring, kind, test->name, test->kind);
	}
}

static enum rt_err class_import(struct cli *c, const struct cli_call *call)
{
	struct office_import in = {0};
	enum rt_err e = cli_store(c, true);

	if (!e)
		e = cli_roster(c, &in.roster);
	if (!e)
		e = rt_read_classes(&in.classes, call->arg[0], &in.roster.roster, &c->faults,
				    &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = cli_transaction(c, put_imported_classes, &in);
	if (!e)
		cli_report_import(c, "classes", &in.count);
	if (!e)
		note_other_kinds(c, &in);
	office_import_free(&in);
	return e;
}

const struct cli_command cmd_class_import = {
	.group = "Office",
	.name = "class import",
	.args = "FILE.csv",
	.summary = "Put classes into the show.",
	.details =
		"Columns: class,title,test,level,ring,rule,judges[,division]. judges are positions,\n"
		"\"C B E\"; C is the president, or the one with a star (\"B* E\"). level and rule win over\n"
		"the test's; they and ring may be empty.",
	.example = "--show spring.show class import classes.csv",
	.min_args = 1,
	.max_args = 1,
	.run = class_import,
};

static enum rt_err put_imported_entries(struct cli *c, void *data)
{
	struct office_import *in = data;

	return rt_store_entries_put(c->store, &in->entries, &in->count, &c->faults, &c->err);
}

static enum rt_err entry_import(struct cli *c, const struct cli_call *call)
{
	struct office_import in = {0};
	enum rt_err e = cli_store(c, true);

	if (!e)
		e = cli_roster(c, &in.roster);
	if (!e)
		e = rt_read_entries(&in.entries, call->arg[0], &in.roster.roster, &c->faults,
				    &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = cli_transaction(c, put_imported_entries, &in);
	if (!e)
		cli_report_import(c, "entries", &in.count);
	office_import_free(&in);
	return e;
}

const struct cli_command cmd_entry_import = {
	.group = "Office",
	.name = "entry import",
	.args = "FILE.csv",
	.summary = "Put entries into the show.",
	.details =
		"Columns: class,number,driver (or rider),horses,height_cm,turnout,groom,club[,division]\n"
		"[,hors_concours]. Horses are separated by a semicolon.",
	.example = "--show spring.show entry import entries.csv",
	.min_args = 1,
	.max_args = 1,
	.run = entry_import,
};

/* ---- lists ------------------------------------------------------------------------------- */

static enum rt_err class_list(struct cli *c, const struct cli_call *call)
{
	static const struct rt_column columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"title", "title", RT_TEXT, RT_NO_UNIT, 0, false},
		{"test", "test", RT_TEXT, RT_NO_UNIT, 0, false},
		{"level", "level", RT_TEXT, RT_NO_UNIT, 0, false},
		{"ring", "ring", RT_TEXT, RT_NO_UNIT, 0, false},
		{"rule", "rule", RT_TEXT, RT_NO_UNIT, 0, false},
		{"judges", "judges", RT_TEXT, RT_NO_UNIT, 0, false},
		{"division", "division", RT_TEXT, RT_NO_UNIT, 0, true},
	};
	struct rt_classes classes = {0};
	struct rt_tests tests = {0};
	struct rt_table *t;
	enum rt_err e = cli_store(c, false);

	(void)call;
	if (!e)
		e = rt_store_classes(c->store, &classes, &c->err);
	if (!e)
		e = rt_store_tests(c->store, &tests, &c->err);
	t = rt_report_table(&c->report, "classes", "Classes", columns, 8);
	for (size_t i = 0; !e && i < classes.n; i++) {
		const struct rt_class *k = &classes.at[i];
		char judges[128];

		rt_judges_words(&k->judges, judges, sizeof judges);
		rt_put_text(t, k->name);
		rt_put_text(t, k->title);
		rt_put_text(t, k->test);
		rt_put_text(t, cli_level_of(k, &tests));
		rt_put_text(t, k->ring);
		rt_put_text(t, cli_rule_of(k, &tests));
		rt_put_text(t, judges);
		rt_put_text(t, k->division);
	}
	RT_LIST_FREE(&tests);
	rt_classes_free(&classes);
	return e;
}

const struct cli_command cmd_class_list = {
	.group = "Office",
	.name = "class list",
	.args = "",
	.summary = "List the classes of the show.",
	.details = "The level and the rule are the class's, else its test's.",
	.example = "--show spring.show class list",
	.run = class_list,
};

static void put_entry(struct rt_table *t, const struct rt_entry *entry)
{
	rt_put_text(t, entry->class_name);
	rt_put_int(t, entry->number);
	rt_put_text(t, entry->driver);
	rt_put_text(t, entry->horses);
	rt_put_text(t, entry->club);
	rt_put_text(t, rt_status_words(entry->status));
	rt_put_real(t, entry->height_cm);
	rt_put_text(t, entry->turnout);
	rt_put_text(t, entry->groom);
	rt_put_text(t, entry->division);
	rt_put_bool(t, entry->hors_concours);
	rt_put_text(t, entry->status_why);
}

static enum rt_err entry_list(struct cli *c, const struct cli_call *call)
{
	static const struct rt_column columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"driver", "driver", RT_TEXT, RT_NO_UNIT, 0, false},
		{"horses", "horses", RT_TEXT, RT_NO_UNIT, 0, false},
		{"club", "club", RT_TEXT, RT_NO_UNIT, 0, false},
		{"status", "status", RT_TEXT, RT_NO_UNIT, 0, false},
		{"height_cm", "height cm", RT_REAL, RT_NO_UNIT, 1, true},
		{"turnout", "turnout", RT_TEXT, RT_NO_UNIT, 0, true},
		{"groom", "groom", RT_TEXT, RT_NO_UNIT, 0, true},
		{"division", "division", RT_TEXT, RT_NO_UNIT, 0, true},
		{"hors_concours", "hors concours", RT_BOOL, RT_NO_UNIT, 0, true},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, true},
	};
	struct rt_entries entries = {0};
	struct rt_table *t;
	enum rt_err e = cli_store(c, false);

	if (!e)
		e = rt_store_entries(c->store, call->args ? call->arg[0] : NULL, &entries, &c->err);
	t = rt_report_table(&c->report, "entries", "Entries", columns,
			    sizeof columns / sizeof *columns);
	for (size_t i = 0; !e && i < entries.n; i++)
		put_entry(t, &entries.at[i]);
	RT_LIST_FREE(&entries);
	return e;
}

const struct cli_command cmd_entry_list = {
	.group = "Office",
	.name = "entry list",
	.args = "[CLASS]",
	.summary = "List the entries of a class, or of the show.",
	.example = "--show spring.show entry list 3",
	.max_args = 1,
	.run = entry_list,
};

/* ---- status ------------------------------------------------------------------------------ */

static enum rt_err unknown_status(struct cli *c, const char *typed)
{
#define WORDS(code, words) words,
	static const char *const names[] = {RT_STATUSES(WORDS)};
#undef WORDS
	const char *nearest = rt_nearest(typed, names, sizeof names / sizeof *names);

	return rt_fail(&c->err, RT_E_USAGE,
		       "unknown status \"%s\": %s%s%sentered, retired, eliminated, disqualified, "
		       "withdrawn or did-not-start%s",
		       typed, nearest ? "did you mean \"" : "", nearest ? nearest : "",
		       nearest ? "\"? (" : "", nearest ? ")" : "");
}

static enum rt_err entry_status(struct cli *c, const struct cli_call *call)
{
	static const struct rt_column columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"status", "status", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	const char *why = cli_option(call, "why");
	enum rt_status status;
	int64_t number;
	struct rt_table *t;
	enum rt_err e = cli_whole(c, "number", call->arg[1], 1, 99999, &number);

	if (e)
		return e;
	if (!rt_status_read(call->arg[2], &status))
		return unknown_status(c, call->arg[2]);
	e = cli_reasons(c, call);
	if (!e)
		e = cli_store(c, true);
	if (!e)
		e = rt_store_status_put(c->store, call->arg[0], number, status, why,
					cli_option(call, "by"), c->when, &c->err);
	if (e)
		return e;
	t = rt_report_table(&c->report, "status", "Status kept", columns, 4);
	rt_put_text(t, call->arg[0]);
	rt_put_int(t, number);
	rt_put_text(t, rt_status_words(status));
	rt_put_text(t, why);
	return RT_OK;
}

const struct cli_command cmd_entry_status = {
	.group = "Office",
	.name = "entry status",
	.args = "CLASS NUMBER STATUS",
	.summary = "Say that an entry is withdrawn, retired, eliminated, ...",
	.details =
		"STATUS is withdrawn, retired, eliminated, disqualified, did-not-start, or entered to\n"
		"take one of them back. Earlier statuses stay in the file's history.",
	.example = "--show spring.show entry status 3 47 withdrawn --why \"lame at the vet check\"",
	.option = {{"why", "TEXT", "the reason", false}, {"by", "WHO", "who said so", false}},
	.min_args = 3,
	.max_args = 3,
	.run = entry_status,
};
