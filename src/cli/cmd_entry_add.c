/* entry add and entry numbers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* ---- entry add --------------------------------------------------------------------------- */

struct add_work {
	struct rt_entry entry;
	struct rt_entries all;	  /* of the show, before */
	struct rt_entries placed; /* the one that was put, as the show has it */
	struct rt_numbers given_up;
	struct rt_numbering rule;
	bool kept, marked;
};

/* RT_E_INPUT when the turnout is in the class already. */
static void must_be_new(struct cli *c, const struct add_work *w)
{
	for (size_t i = 0; i < w->all.n && !c->err.code; i++) {
		const struct rt_entry *other = &w->all.at[i];
		bool driver, turnout = false;

		if (strcmp(other->class_name, w->entry.class_name) != 0)
			continue;
		CLI_DO(c, rt_entries_alike(&w->entry, other, &driver, &turnout, &c->err));
		if (turnout)
			CLI_DO(c, rt_fail(&c->err, RT_E_INPUT,
					  "%s with %s is in class %s already, with number %lld: "
					  "for another start give it a --number",
					  other->driver, other->horses, other->class_name,
					  (long long)other->number));
	}
}

/* Give the entry its number, unless it was typed. */
static void give_number(struct cli *c, struct add_work *w)
{
	if (w->entry.number) {
		cli_number_free(c, &w->all, w->entry.class_name, w->entry.number);
		return;
	}
	must_be_new(c, w);
	CLI_DO(c, rt_store_numbering(c->store, &w->rule, &c->err));
	CLI_DO(c, rt_store_numbers_given_up(c->store, &w->given_up, &c->err));
	CLI_DO(c, rt_number_give(&w->entry.number, &w->rule, &w->all, &w->given_up, &w->entry,
				 &w->kept, &c->err));
}

static const struct rt_field entry_add_options[] = {
	CLI_CLASS(struct rt_entry, class_name),
	{"number", RT_AT(struct rt_entry, number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the number, where it is not given out"},
	{"late", RT_AT(struct rt_entry, late), .type = RT_BOOL,
	 .help = "came in after entries had closed"},
};

static void entry_add(struct cli *c, const void *typed)
{
	struct add_work w = {.entry = *(const struct rt_entry *)typed};
	const struct rt_entries one = {.at = &w.entry, .n = 1};
	struct rt_import_count count = {0};

	w.entry.entered_at = c->when;
	cli_store(c, true);
	/* to find out whether there is such a class */
	CLI_DO(c, rt_store_entries(c->store, w.entry.class_name, &w.placed, &c->err));
	CLI_DO(c, rt_store_entries(c->store, NULL, &w.all, &c->err));
	if (!c->err.code)
		give_number(c, &w);
	CLI_DO(c, rt_store_class_marked(c->store, w.entry.class_name, &w.marked, &c->err));
	CLI_DO(c, rt_store_entries_put(c->store, &one, &count, &c->faults, &c->err));
	cli_report_entries(c, &one, CLI_ENTRY_ARRIVAL);
	if (w.kept)
		rt_report_note(&c->report, "Number %lld is the one that this %s has in the show.",
			       (long long)w.entry.number, rt_number_holder_words(w.rule.holder));
	if (w.marked)
		rt_report_note(&c->report, "Class %s has marks already.", w.entry.class_name);
	cli_note_numbers(c, &w.all, &w.entry);
	cli_note_horses(c, &w.all, &one);
	cli_note_posted(c, w.entry.class_name);
	RT_LIST_FREE(&w.all);
	RT_LIST_FREE(&w.placed);
	RT_LIST_FREE(&w.given_up);
}

const struct cli_command cmd_entry_add = {
	.group = "Office",
	.name = "entry add",
	.args = "CLASS --driver D --horses \"A; B\"",
	.summary = "Put one entry into a class.",
	.details =
		"Without --number the number is given out: a turnout (the driver with these horses) that\n"
		"is in the show has its number in every class; anybody else gets the number behind the\n"
		"highest in use. A number that was given up is not given out again. `entry numbers`\n"
		"sets from where to where, and who keeps a number.",
	.example =
		"--show spring.show entry add 3 --driver \"Ann Ashby\" --horses \"Fen; Moss\" --late",
	CLI_OPTIONS(struct rt_entry, entry_add_options),
	.record = &rt_entry_record,
	.run = entry_add,
};

/* ---- entry numbers ----------------------------------------------------------------------- */

static const struct rt_field numbering_options[] = {
	{"first", RT_AT(struct rt_numbering, first), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the lowest number that is given out"},
	{"last", RT_AT(struct rt_numbering, last), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the highest"},
	{"keep", RT_AT(struct rt_numbering, holder), .head = "WHO", .type = RT_WORD,
	 .words = &rt_words_of_number_holder, .help = "who has one number"},
};

struct numbers_row {
	struct rt_numbering rule;
	size_t entries;
	int64_t next; /* 0: none is left */
};

static const struct rt_field numbers_fields[] = {
	{"first", .head = "from", RT_AT(struct numbers_row, rule.first), .type = RT_INT},
	{"last", .head = "to", RT_AT(struct numbers_row, rule.last), .type = RT_INT},
	{"keep", .head = "has one number", RT_AT(struct numbers_row, rule.holder), .type = RT_WORD,
	 .words = &rt_words_of_number_holder},
	{"entries", RT_AT(struct numbers_row, entries), .type = RT_SIZE},
	{"next", .head = "next number", RT_AT(struct numbers_row, next), .type = RT_INT,
	 .is = RT_EMPTY},
};

static const struct rt_record numbers_table = RT_TABLE("numbers", "Numbers", numbers_fields,
						       struct numbers_row);

/* The number that somebody new would be given. */
static void find_next(struct cli *c, struct numbers_row *row)
{
	const struct rt_numbering anybody = {row->rule.first, row->rule.last, RT_HOLDER_NONE};
	const struct rt_entry nobody = {.driver = "", .horses = ""};
	struct rt_entries all = {0};
	struct rt_numbers given_up = {0};
	struct rt_error none_left = {0};
	bool kept;

	CLI_DO(c, rt_store_entries(c->store, NULL, &all, &c->err));
	CLI_DO(c, rt_store_numbers_given_up(c->store, &given_up, &c->err));
	if (!c->err.code &&
	    rt_number_give(&row->next, &anybody, &all, &given_up, &nobody, &kept, &none_left)) {
		row->next = 0;
		if (none_left.code != RT_E_INPUT)
			c->err = none_left;
	}
	row->entries = all.n;
	RT_LIST_FREE(&given_up);
	RT_LIST_FREE(&all);
}

static void entry_numbers(struct cli *c, const void *typed)
{
	const struct rt_numbering *o = typed;
	bool keep = cli_given(c, &o->holder), sets = o->first || o->last || keep;
	struct numbers_row row = {.entries = 0};

	cli_store(c, sets);
	CLI_DO(c, rt_store_numbering(c->store, &row.rule, &c->err));
	row.rule.first = o->first ? o->first : row.rule.first;
	row.rule.last = o->last ? o->last : row.rule.last;
	row.rule.holder = keep ? o->holder : row.rule.holder;
	if (row.rule.last < row.rule.first)
		CLI_DO(c, rt_fail(&c->err, RT_E_USAGE, "from %lld to %lld there is no number",
				  (long long)row.rule.first, (long long)row.rule.last));
	if (sets)
		CLI_DO(c, rt_store_numbering_put(c->store, &row.rule, &c->err));
	find_next(c, &row);
	rt_report_list(&c->report, &numbers_table, &row, 1);
	if (!row.next)
		rt_report_note(&c->report, "No number is left from %lld to %lld.",
			       (long long)row.rule.first, (long long)row.rule.last);
}

const struct cli_command cmd_entry_numbers = {
	.group = "Office",
	.name = "entry numbers",
	.summary = "Show or set how numbers are given out.",
	.details =
		"--keep turnout: the same driver with the same horses has one number in all classes;\n"
		"driver: a driver has one number in all classes, and another for a second turnout in\n"
		"the same class; nothing: each entry has a number of its own. Unless set: from 1 to\n"
		"99999, turnout.",
	.example = "--show spring.show entry numbers --first 101 --last 399",
	CLI_OPTIONS(struct rt_numbering, numbering_options),
	.run = entry_numbers,
};
