/* class import and list; entry import.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdio.h>
#include <string.h>

struct office_import {
	struct cli_roster roster;
	struct rt_classes classes;
	struct rt_entries entries;
	struct rt_entries before; /* those of the show */
	struct rt_entries added;  /* those of the file that are new to it */
	struct rt_import_count count;
};

static void office_import_free(struct office_import *in)
{
	cli_roster_free(&in->roster);
	rt_classes_free(&in->classes);
	RT_LIST_FREE(&in->entries);
	RT_LIST_FREE(&in->before);
	RT_LIST_FREE(&in->added);
}

/* A class may be held in another ring than its test was made for, but somebody should know. */
void cli_note_other_kind(struct cli *c, const struct cli_roster *r, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test_named(&r->tests, class_->test);
	const char *kind = rt_class_ring_kind(class_, &r->rings, NULL);

	if (kind && test && test->kind && strcmp(kind, test->kind) != 0)
		rt_report_note(&c->report, "Class %s: %s is a %s ring, and test %s is made for %s.",
			       class_->name, class_->ring, kind, test->name, test->kind);
}

void cli_note_positions(struct cli *c, const struct cli_roster *r, const struct rt_class *class_)
{
	const char *name = rt_class_ring_kind(class_, &r->rings, &r->tests);
	const struct rt_ring_kind *kind = name ? rt_ring_kind_find(&r->rows.kinds, name) : NULL;

	for (size_t i = 0; kind && i < class_->judges.n; i++)
		if (!rt_ring_has_letter(kind, class_->judges.at[i].position))
			rt_report_note(&c->report,
				       "Class %s: a judge sits at %s, which is no letter of a %s "
				       "ring.",
				       class_->name, class_->judges.at[i].position, name);
}

static enum rt_err class_import(struct cli *c, const struct cli_call *call)
{
	struct office_import in = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in.roster));
	if (!e)
		e = rt_read_classes(&in.classes, call->arg[0], &in.roster.roster, &c->faults,
				    &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	for (size_t i = 0; i < in.classes.n; i++)
		in.classes.at[i].added = c->when;
	if (!e)
		e = rt_store_classes_put(c->store, &in.classes, &in.count, &c->faults, &c->err);
	if (!e)
		cli_report_import(c, "classes", &in.count);
	for (size_t i = 0; i < in.classes.n && !e; i++) {
		cli_note_other_kind(c, &in.roster, &in.classes.at[i]);
		cli_note_positions(c, &in.roster, &in.classes.at[i]);
	}
	office_import_free(&in);
	return e;
}

const struct cli_command cmd_class_import = {
	.group = "Office",
	.name = "class import",
	.args = "FILE.csv",
	.summary = "Put classes into the show.",
	.details = "level and rule win over the test's.",
	.example = "--show spring.show class import classes.csv",
	.files = (const struct rt_record *const[]){&rt_class_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = class_import,
};

/* The entries of the file that are new to the show. */
static enum rt_err find_added(struct cli *c, struct office_import *in)
{
	const struct rt_entries *lists[] = {&in->before, &in->entries};
	struct rt_map *there = NULL;
	bool nomem = false;

	for (size_t k = 0; k < 2; k++)
		for (size_t i = 0; i < lists[k]->n && !nomem; i++) {
			const struct rt_entry *entry = &lists[k]->at[i];
			char key[RT_NAME_MOST * 4 + 24];
			struct rt_entry *one;

			snprintf(key, sizeof key, "%lld %s", (long long)entry->number,
				 entry->class_name);
			if (rt_map_put(&there, key, 0, &nomem) != RT_MAP_NONE || k == 0)
				continue;
			one = RT_LIST_ADD(&in->added);
			if (one)
				*one = *entry;
			nomem |= !one;
		}
	rt_map_free(there);
	return nomem ? rt_fail_nomem(&c->err) : RT_OK;
}

static enum rt_err note_posted(struct cli *c, const struct office_import *in)
{
	struct rt_map *classes = NULL;
	bool nomem = false;
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < in->added.n && !nomem; i++)
		rt_map_put(&classes, in->added.at[i].class_name, i, &nomem);
	for (size_t i = 0; i < in->roster.classes.n && !e; i++)
		if (rt_map_get(classes, in->roster.classes.at[i].name) != RT_MAP_NONE)
			e = CLI_OLD(c, cli_note_posted(c, in->roster.classes.at[i].name));
	rt_map_free(classes);
	return nomem ? rt_fail_nomem(&c->err) : e;
}

static enum rt_err entry_import(struct cli *c, const struct cli_call *call)
{
	struct office_import in = {0};
	bool late = cli_option(call, "late") != NULL;
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in.roster));
	if (!e)
		e = rt_read_entries(&in.entries, call->arg[0], &in.roster.roster, &c->faults,
				    &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	for (size_t i = 0; i < in.entries.n; i++) {
		in.entries.at[i].entered_at = c->when;
		in.entries.at[i].late = late;
	}
	if (!e)
		e = rt_store_entries(c->store, NULL, &in.before, &c->err);
	if (!e)
		e = rt_store_entries_put(c->store, &in.entries, &in.count, &c->faults, &c->err);
	if (!e)
		cli_report_import(c, "entries", &in.count);
	if (!e)
		e = find_added(c, &in);
	if (!e)
		e = CLI_OLD(c, cli_note_horses(c, &in.before, &in.added));
	if (!e)
		e = note_posted(c, &in);
	office_import_free(&in);
	return e;
}

const struct cli_command cmd_entry_import = {
	.group = "Office",
	.name = "entry import",
	.args = "FILE.csv",
	.summary = "Put entries into the show.",
	.details =
		"What is there just so is left alone; what was changed in the show since is told and\n"
		"stays.",
	.example = "--show spring.show entry import entries.csv",
	.old_option = {{"late", NULL, "those that are added are late entries", false}},
	.files = (const struct rt_record *const[]){&rt_entry_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = entry_import,
};

/* ---- lists ------------------------------------------------------------------------------- */

static void class_list(struct cli *c, const void *typed)
{
	struct rt_classes classes = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_classes(c->store, &classes, &c->err));
	if (!c->err.code)
		rt_report_list(&c->report, &rt_class_record, classes.at, classes.n);
	rt_classes_free(&classes);
}

const struct cli_command cmd_class_list = {
	.group = "Office",
	.name = "class list",
	.summary = "List the classes of the show.",
	.details =
		"The level and the rule are the class's, else its test's. In CSV it is a file that\n"
		"`class import` reads: level and rule are then the class's own.",
	.example = "--show spring.show class list",
	.run = class_list,
	.table = {&rt_class_record},
};
