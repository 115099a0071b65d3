/* class import and entry import.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* A class may be held in another ring than its test was made for, but somebody should know. */
void cli_note_other_kind(struct cli *c, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test(c, class_->test);
	const char *kind = rt_class_ring_kind(class_, cli_rings(c), NULL);

	if (kind && test && test->kind && strcmp(kind, test->kind) != 0)
		rt_report_note(&c->report, "Class %s: %s is a %s ring, and test %s is made for %s.",
			       class_->name, class_->ring, kind, test->name, test->kind);
}

void cli_note_positions(struct cli *c, const struct rt_class *class_)
{
	const struct rt_ring_kind *kind = cli_kind_of(c, class_);

	for (size_t i = 0; kind && i < class_->judges.n; i++)
		if (!rt_ring_has_letter(kind, class_->judges.at[i].position))
			rt_report_note(&c->report,
				       "Class %s: a judge sits at %s, which is no letter of a %s "
				       "ring.",
				       class_->name, class_->judges.at[i].position, kind->name);
}

struct import {
	const char *file;
	bool late;
};

static const struct rt_field import_options[] = {
	CLI_FILE(struct import, file, "file"),
	/* of entries */
	{"late", RT_AT(struct import, late), .type = RT_BOOL,
	 .help = "those that are added are late entries"},
};

static void class_import(struct cli *c, const void *typed)
{
	const struct import *o = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	struct rt_classes classes = {0};
	struct rt_import_count count = {0};

	CLI_DO(c, rt_read_classes(&classes, o->file, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	for (size_t i = 0; i < classes.n; i++)
		classes.at[i].added = c->when;
	CLI_DO(c, rt_store_classes_put(c->store, &classes, &count, &c->faults, &c->err));
	cli_report_import(c, "classes", &count);
	for (size_t i = 0; i < classes.n && !c->err.code; i++) {
		cli_note_other_kind(c, &classes.at[i]);
		cli_note_positions(c, &classes.at[i]);
	}
	rt_classes_free(&classes);
}

const struct cli_command cmd_class_import = {
	.name = "class import",
	.summary = "Put classes into the show.",
	.details = "level and rule win over the test's.",
	.example = "--show spring.show class import classes.csv",
	.option = import_options,
	.options = 1,
	.size = sizeof(struct import),
	.files = (const struct rt_record *const[]){&rt_class_record, NULL},
	.run = class_import,
};

/* The entries of the file that are new to the show. */
static void find_added(struct cli *c, const struct rt_entries *file, struct rt_entries *added)
{
	const struct rt_entries *before = cli_entries(c);
	struct rt_map *there = NULL;
	bool nomem = false;

	for (size_t i = 0; i < before->n + file->n && !c->err.code; i++) {
		const struct rt_entry *entry = i < before->n ? &before->at[i]
							     : &file->at[i - before->n];
		char key[RT_NAME_MOST * 4 + 24];

		snprintf(key, sizeof key, "%lld %s", (long long)entry->number, entry->class_name);
		if (rt_map_put(&there, key, 0, &nomem) == RT_MAP_NONE && i >= before->n)
			CLI_ADD(c, added, *entry);
		if (nomem)
			CLI_DO(c, rt_fail_nomem(&c->err));
	}
	rt_map_free(there);
}

static void note_posted(struct cli *c, const struct rt_entries *added)
{
	const struct rt_classes *classes = cli_classes(c);
	struct rt_map *touched = NULL;
	bool nomem = false;

	for (size_t i = 0; i < added->n && !nomem; i++)
		rt_map_put(&touched, added->at[i].class_name, i, &nomem);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
	for (size_t i = 0; i < classes->n; i++)
		if (rt_map_get(touched, classes->at[i].name) != RT_MAP_NONE)
			cli_note_posted(c, classes->at[i].name);
	rt_map_free(touched);
}

static void entry_import(struct cli *c, const void *typed)
{
	const struct import *o = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	struct rt_entries entries = {0}, added = {0};
	struct rt_import_count count = {0};

	CLI_DO(c, rt_read_entries(&entries, o->file, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	for (size_t i = 0; i < entries.n; i++) {
		entries.at[i].entered_at = c->when;
		entries.at[i].late = o->late;
	}
	find_added(c, &entries, &added); /* while the show is as it was */
	CLI_DO(c, rt_store_entries_put(c->store, &entries, &count, &c->faults, &c->err));
	cli_report_import(c, "entries", &count);
	cli_note_horses(c, &added);
	note_posted(c, &added);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&added);
}

const struct cli_command cmd_entry_import = {
	.name = "entry import",
	.summary = "Put entries into the show.",
	.details =
		"What is there just so is left alone; what was changed in the show since is told\n"
		"and stays.",
	.example = "--show spring.show entry import entries.csv",
	CLI_OPTIONS(struct import, import_options),
	.files = (const struct rt_record *const[]){&rt_entry_record, NULL},
	.run = entry_import,
	.lists = true,
};
