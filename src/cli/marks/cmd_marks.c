/* mark import and penalty add.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* ---- mark import ------------------------------------------------------------------------- */

/* What marks of a show are checked against. */
struct sheets {
	const struct rt_classes *classes;
	struct rt_items *items;	    /* by class */
	struct rt_entries *entries; /* by class */
	struct rt_roster_classes list;
	bool *touched; /* by class: whether a mark was put */
};

static void sheets_free(struct sheets *s)
{
	for (size_t i = 0; s->items && i < s->classes->n; i++)
		RT_LIST_FREE(&s->items[i]);
	for (size_t i = 0; s->entries && i < s->classes->n; i++)
		RT_LIST_FREE(&s->entries[i]);
	RT_LIST_FREE(&s->list);
}

static void sheets_load(struct cli *c, struct sheets *s)
{
	size_t n;

	s->classes = cli_classes(c);
	n = s->classes->n;
	s->items = cli_array(c, n, sizeof *s->items);
	s->entries = cli_array(c, n, sizeof *s->entries);
	s->touched = cli_array(c, n, sizeof *s->touched);
	for (size_t i = 0; i < n && !c->err.code; i++) {
		const struct rt_class *class_ = &s->classes->at[i];

		CLI_ADD(c, &s->list,
			(struct rt_roster_class){class_, &s->items[i], &s->entries[i]});
		CLI_DO(c, rt_store_items(c->store, class_->test, &s->items[i], &c->err));
		CLI_DO(c, rt_store_entries(c->store, class_->name, &s->entries[i], &c->err));
	}
}

struct mark_import {
	struct cli_import in;
	const char *why, *by;
	int keying;
	bool same_person, unexpected;
};

static const struct rt_field mark_import_options[] = {
	CLI_IMPORT(struct mark_import, in),
	{"keying", RT_AT(struct mark_import, keying), .head = "1|2", .type = RT_SMALL, .low = 1,
	 .high = RT_KEYINGS, .is = RT_USUAL, .help = "which keying this is"},
	CLI_BY(struct mark_import, by, 0),
	CLI_WHY(struct mark_import, why, 0),
	CLI_SAME_PERSON(struct mark_import, same_person),
	{"unexpected", RT_AT(struct mark_import, unexpected), .type = RT_BOOL,
	 .help = "marks of one who withdrew or did not start, too"},
};

/* The import, and how many marks came to what end. */
struct importing {
	const struct rt_source *source;
	struct rt_pass pass;
	struct sheets sheets;
	bool unexpected;
	size_t added, same, changed;
	char other[4 * RT_NAME_MOST + 80]; /* the first box that said something else */
	const struct rt_entry *entry; /* whose sheet was looked at last */
	const struct rt_judge *judge;
	char own[4 * RT_NAME_MOST + 60]; /* a sheet whose other keying is by the same person */
};

static const struct rt_field import_fields[] = {
	{"keying", RT_AT(struct importing, pass.keying), .type = RT_SMALL},
	{"added", RT_AT(struct importing, added), .type = RT_SIZE},
	{"same", .head = "there already", RT_AT(struct importing, same), .type = RT_SIZE},
	{"changed", RT_AT(struct importing, changed), .type = RT_SIZE},
};

static const struct rt_record import_table = RT_TABLE("imported", "Marks imported", import_fields,
						      struct importing);

/* Two keyings want two people: look who keyed this sheet before, until one is found. */
static void look_who_keyed(struct cli *c, struct importing *in, const struct rt_class *class_,
			   const struct rt_entry *entry, const struct rt_judge *judge)
{
	struct rt_strings people = {0};

	if (!in->pass.who || *in->own || (in->entry == entry && in->judge == judge))
		return;
	in->entry = entry;
	in->judge = judge;
	CLI_DO(c, rt_store_sheet_people(c->store, entry->id, judge->id,
					RT_KEYINGS + 1 - in->pass.keying, &people, &c->err));
	for (size_t i = 0; i < people.n; i++)
		if (rt_same_name(people.at[i], in->pass.who))
			snprintf(in->own, sizeof in->own, "class %s, number %" PRId64 ", judge %s",
				 class_->name, entry->number, judge->position);
	RT_LIST_FREE(&people);
}

static void put_mark(struct cli *c, struct importing *in, const struct rt_mark_row *row)
{
	const struct rt_roster_class *sheet = &in->sheets.list.at[row->sheet_class];
	const struct rt_entry *entry = &sheet->entries->at[row->entry];
	const struct rt_judge *judge = &sheet->class_->judges.at[row->judge];
	int64_t item = row->kind == RT_MARK_ITEM ? sheet->items->at[row->item].id : 0;
	enum rt_mark_put what = RT_MARK_SAME;

	CLI_DO(c, rt_store_mark_put(c->store, entry->id, judge->id, item, row->kind, row->value,
				    row->remark, &what, &c->err));
	in->added += what == RT_MARK_NEW;
	in->same += what == RT_MARK_SAME;
	if (what == RT_MARK_CHANGED && !in->changed++)
		snprintf(in->other, sizeof in->other,
			 "line %ld: class %s, number %" PRId64 ", judge %s, %s %s", row->line,
			 sheet->class_->name, entry->number, judge->position,
			 row->kind == RT_MARK_ITEM ? "item" : "its",
			 row->kind == RT_MARK_ITEM ? sheet->items->at[row->item].name
						   : rt_mark_kind_words(row->kind));
	in->sheets.touched[row->sheet_class] |= what != RT_MARK_SAME;
	look_who_keyed(c, in, sheet->class_, entry, judge);
}

/* Read the whole file, and call `each` (NULL: none) on every row without a fault. */
static void read_marks(struct cli *c, struct importing *in,
		       void (*each)(struct cli *c, struct importing *in,
				    const struct rt_mark_row *row))
{
	const struct rt_roster roster = {.sheets = &in->sheets.list,
					 .unexpected = in->unexpected};
	struct rt_source source = *in->source;
	struct rt_mark_reader *reader = NULL;
	struct rt_mark_row row;
	bool got;

	if (!each) /* it is told when the rows are kept */
		source.notes = NULL;
	CLI_DO(c, rt_mark_reader_open(&reader, &source, &roster, &c->faults, &c->err));
	got = reader != NULL;
	while (got && !c->err.code) {
		CLI_DO(c, rt_mark_reader_next(reader, &row, &got, &c->faults, &c->err));
		if (!c->err.code && got && each)
			each(c, in, &row);
	}
	rt_mark_reader_close(reader);
}

/* Read the file for its faults, so that one with any leaves the show untouched.  A pipe can be
 * read only once: then the transaction alone undoes what was put. */
static void prove_marks(struct cli *c, struct importing *in)
{
	struct stat st;

	if (stat(in->source->path, &st) == 0 && S_ISFIFO(st.st_mode))
		return;
	read_marks(c, in, NULL);
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
}

static void report_marks(struct cli *c, const struct importing *in)
{
	rt_report_list(&c->report, &import_table, in, 1);
	if (in->changed)
		rt_report_note(&c->report,
			       "%zu box%s said something else before in this keying: the new mark "
			       "counts, the old one stays in the file's history.",
			       in->changed, in->changed == 1 ? "" : "es");
	if (*in->own)
		rt_report_note(
			&c->report,
			"Both keyings of some sheets are by %s (the first: %s): taken so, and "
			"kept so.",
			in->pass.who, in->own);
}

/* A path may hold any bytes; one that is no plain text is not kept. */
static const char *kept_path(const char *path)
{
	return rt_plain_text(path, strlen(path)) == RT_PLAIN ? path : NULL;
}

static void mark_import(struct cli *c, const void *typed)
{
	const struct mark_import *o = typed;
	struct importing in = {
		.source = cli_source(c, &o->in, o->in.file),
		.unexpected = o->unexpected,
		.pass = {o->keying, o->by, c->when, kept_path(o->in.file), o->why},
	};

	cli_store(c, true);
	if (!c->err.code)
		sheets_load(c, &in.sheets);
	/* Read twice rather than kept: memory does not grow with the file. */
	if (!c->err.code)
		prove_marks(c, &in);
	CLI_DO(c, rt_store_pass_begin(c->store, &in.pass, &c->err));
	if (!c->err.code)
		read_marks(c, &in, put_mark);
	if (*in.own && !o->same_person)
		CLI_FAIL(c, RT_E_INPUT,
			 "%s keyed the %s keying of sheets in this file (the first: "
			 "%s): another person keys the %s, or --same-person",
			 o->by, o->keying == 1 ? "second" : "first", in.own,
			 o->keying == 1 ? "first" : "second");
	if (in.changed && (!o->why || !o->by))
		CLI_FAIL(c, RT_E_INPUT,
			 "%zu box%s something else in this keying (the first: %s): --by and --why "
			 "say who changes them and why; mark compare if it is the other keying",
			 in.changed, in.changed == 1 ? " says" : "es say", in.other);
	report_marks(c, &in);
	for (size_t i = 0; i < cli_classes(c)->n && !c->err.code; i++)
		if (in.sheets.touched[i])
			cli_note_posted(c, cli_classes(c)->at[i].name);
	sheets_free(&in.sheets);
}

const struct cli_command cmd_mark_import = {
	.name = "mark import",
	.summary = "Put marks into the show, as the first or the second keying.",
	.details =
		"A total is the sum a person wrote on the sheet: compared, never used. All of the file is\n"
		"taken, or nothing. The second keying is for another person than the first. A box that\n"
		"says something else in the keying is changed with --by and --why only. One who withdrew\n"
		"or did not start has no marks.",
	.example = "--show spring.show mark import marks-keying1.csv --keying 1",
	.files = (const struct rt_record *const[]){&rt_mark_record, NULL},
	CLI_OPTIONS(struct mark_import, mark_import_options),
	.blank = &(const struct mark_import){.keying = 1},
	.table = {&import_table},
	.run = mark_import,
};
