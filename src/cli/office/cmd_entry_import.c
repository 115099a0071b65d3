/* entry import: entries of a file that are new, and those that a file changes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

struct import {
	struct cli_import in;
	bool late, update, withdraw_missing;
	struct rt_reason reason;
};

static const struct rt_field import_options[] = {
	CLI_IMPORT(struct import, in),
	{"late", RT_AT(struct import, late), .type = RT_BOOL,
	 .help = "those that are added are late entries"},
	{"update", RT_AT(struct import, update), .type = RT_BOOL,
	 .help = "rows that differ change the entry of their class and number"},
	{"withdraw-missing", RT_AT(struct import, withdraw_missing), .type = RT_BOOL,
	 .help = "with --update: entries that are not in the file are withdrawn"},
	CLI_WHY(struct import, reason.why, 0),
	CLI_BY(struct import, reason.who, 0),
};

/* A file beside the entries that the show had before it. */
struct work {
	const struct import *o;
	struct rt_entries rows;	   /* of the file */
	const struct rt_entry **was; /* of each row; NULL: it is new */
	struct rt_map *there;	   /* the place of each entry of the show */
	struct rt_entries added;
	struct rt_entries touched; /* added, changed or withdrawn: their classes are told */
	struct rt_import_count count;
	struct cli_entry_changes changes;
};

/* Whether a row says something of a field. */
static bool says(const struct rt_entry *row, const struct rt_field *f)
{
	return row->said >> (f - rt_entry_record.field) & 1;
}

static bool says_status(const struct rt_entry *row)
{
	return says(row, rt_record_field(&rt_entry_record, "status"));
}

/* Which rows are of entries that the show has. */
static void find_there(struct cli *c, struct work *w)
{
	const struct rt_entries *before = cli_entries(c);
	bool nomem = false;
	char key[CLI_ENTRY_KEY];

	w->was = cli_array(c, w->rows.n, sizeof(const struct rt_entry *));
	for (size_t i = 0; i < before->n && !c->err.code; i++)
		rt_map_put(&w->there, cli_entry_key(&before->at[i], key), i, &nomem);
	for (size_t i = 0; i < w->rows.n && !c->err.code && !nomem; i++) {
		size_t place = rt_map_get(w->there, cli_entry_key(&w->rows.at[i], key));

		if (place != RT_MAP_NONE)
			w->was[i] = &before->at[place];
		else
			CLI_ADD(c, &w->added, w->rows.at[i]);
	}
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
}

/* Without --update a row that says another status is one that differs. */
static void check_status(struct cli *c, const struct rt_entry *row, const struct rt_entry *was)
{
	if (was && says_status(row) && row->status != was->status)
		rt_fault(&c->faults, row->file, row->line, "status",
			 "entry %lld of class %s is %s in the show: that stays; `entry status` or "
			 "--update says another",
			 (long long)row->number, row->class_name, rt_status_words(was->status));
}

/* ---- what a row changes ------------------------------------------------------------------ */

static void touch(struct cli *c, struct work *w, const struct rt_entry *entry)
{
	CLI_ADD(c, &w->touched, *entry);
}

/* The status that new entries come with. */
static void put_statuses(struct cli *c, const struct work *w)
{
	for (size_t i = 0; i < w->added.n; i++) {
		const struct rt_entry *e = &w->added.at[i];

		if (says_status(e) && e->status != RT_ENTERED)
			CLI_DO(c, rt_store_status_put(c->store, e->class_name, e->number, e->status,
						      w->o->reason.why, w->o->reason.who, c->when,
						      &c->err));
	}
}

static void update_entry(struct cli *c, struct work *w, const struct rt_entry *row,
			 const struct rt_entry *was)
{
	struct rt_entry became = *was;
	size_t changed = w->changes.changed;
	bool stands = says_status(row) && row->status != was->status;

	for (size_t i = 0; i < rt_entry_record.fields; i++) {
		const struct rt_field *f = &rt_entry_record.field[i];

		if (rt_field_in_file(f) && says(row, f) && strcmp(f->name, "status") != 0)
			rt_field_copy(f, &became, row);
	}
	cli_entry_change(c, &w->changes, was, &became);
	if (stands)
		cli_entry_stands(c, &w->changes, was, row->status, w->o->reason.why);
	if (w->changes.changed == changed && !stands) {
		w->count.same++;
		return;
	}
	w->count.changed++;
	touch(c, w, was);
}

/* ---- entries that are not in the file ---------------------------------------------------- */

/* Whether the file has the class at all: one of class 1 alone says nothing of class 2. */
static bool has_class(const struct work *w, const char *class_name)
{
	for (size_t i = 0; i < w->rows.n; i++)
		if (strcmp(w->rows.at[i].class_name, class_name) == 0)
			return true;
	return false;
}

static void withdraw(struct cli *c, struct work *w, const struct rt_entry *entry)
{
	bool marked = false;

	CLI_DO(c, rt_store_entry_marked(c->store, entry->id, &marked, &c->err));
	if (marked) {
		rt_report_note(&c->report,
			       "Number %lld of class %s is not in the file and has marks: it is "
			       "not withdrawn.",
			       (long long)entry->number, entry->class_name);
		return;
	}
	cli_entry_stands(c, &w->changes, entry, RT_WITHDRAWN,
			 w->o->reason.why ? w->o->reason.why : "not in the file any more");
	w->count.changed++;
	touch(c, w, entry);
}

static void look_for_missing(struct cli *c, struct work *w)
{
	const struct rt_entries *before = cli_entries(c);
	bool *found = cli_array(c, before->n, sizeof *found);
	struct cli_names names = {0};

	for (size_t i = 0; i < w->rows.n && !c->err.code; i++)
		if (w->was[i])
			found[w->was[i] - before->at] = true;
	for (size_t i = 0; i < before->n && !c->err.code; i++) {
		const struct rt_entry *e = &before->at[i];

		if (found[i] || e->status != RT_ENTERED || !has_class(w, e->class_name))
			continue;
		if (w->o->withdraw_missing)
			withdraw(c, w, e);
		else
			cli_name(&names, "number %lld of class %s (%s)",
				 (long long)e->number, e->class_name, e->driver);
	}
	if (names.n)
		rt_report_note(&c->report,
			       "Not in the file: %s. --withdraw-missing withdraws them.",
			       names.text);
}

/* ---- the command ------------------------------------------------------------------------- */

static void read_rows(struct cli *c, struct work *w)
{
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *source = cli_source(c, &w->o->in, w->o->in.file);

	CLI_DO(c, rt_read_entries(&w->rows, source, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	for (size_t i = 0; i < w->rows.n; i++) {
		w->rows.at[i].entered_at = c->when;
		w->rows.at[i].late = w->o->late;
	}
}

static void put_rows(struct cli *c, struct work *w)
{
	const struct rt_entries *put = w->o->update ? &w->added : &w->rows;

	CLI_DO(c, rt_store_entries_put(c->store, put, &w->count, &c->faults, &c->err));
	put_statuses(c, w);
	for (size_t i = 0; i < w->added.n; i++)
		touch(c, w, &w->added.at[i]);
	for (size_t i = 0; i < w->rows.n && !c->err.code; i++)
		if (!w->o->update)
			check_status(c, &w->rows.at[i], w->was[i]);
		else if (w->was[i])
			update_entry(c, w, &w->rows.at[i], w->was[i]);
	if (w->o->update)
		look_for_missing(c, w);
}

static void entry_import(struct cli *c, const void *typed)
{
	const struct import *o = typed;
	struct work w = {.o = o, .changes.reason = {o->reason.who, o->reason.why, c->when}};

	if (o->withdraw_missing && !o->update)
		CLI_FAIL(c, RT_E_USAGE, "--withdraw-missing goes with --update");
	read_rows(c, &w);
	find_there(c, &w);
	put_rows(c, &w);
	cli_report_import(c, "entries", &w.count);
	cli_note_entries(c, &w.touched);
	rt_map_free(w.there);
	RT_LIST_FREE(&w.touched);
	RT_LIST_FREE(&w.added);
	RT_LIST_FREE(&w.rows);
}

const struct cli_command cmd_entry_import = {
	.name = "entry import",
	.summary = "Put entries into the show.",
	.details =
		"What is there just so is left alone; what was changed in the show since is told\n"
		"and stays. With --update it is changed as the file has it, field by field with a\n"
		"history, within columns that the file has; entries of its classes that are not in the\n"
		"file are told, and with --withdraw-missing withdrawn.",
	.example = "--show spring.show entry import entries.csv",
	CLI_OPTIONS(struct import, import_options),
	.files = (const struct rt_record *const[]){&rt_entry_record, NULL},
	.table = {&cli_entry_changes_table},
	.run = entry_import,
	.lists = true,
};
