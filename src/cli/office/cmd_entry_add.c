/* entry add and entry numbers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

/* ---- entry add --------------------------------------------------------------------------- */

static const struct rt_field add_options[] = {
	CLI_CLASS(struct rt_entry, class_name),
	{"number", RT_AT(struct rt_entry, number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the number, where it is not given out"},
	{"late", RT_AT(struct rt_entry, late), .type = RT_BOOL,
	 .help = "it came in after entries had closed"},
};

/* What the show has when an entry comes in. */
struct there {
	const struct rt_entries *all;
	struct rt_numbers given_up;
	struct rt_numbering rule;
};

/* RT_E_INPUT when the turnout is in the class already. */
static void must_be_new(struct cli *c, const struct rt_entry *entry)
{
	const struct rt_entries *all = cli_entries(c);

	for (size_t i = 0; i < all->n && !c->err.code; i++) {
		const struct rt_entry *other = &all->at[i];
		bool driver, turnout = false;

		if (strcmp(other->class_name, entry->class_name) != 0)
			continue;
		CLI_DO(c, rt_entries_alike(entry, other, &driver, &turnout, &c->err));
		if (turnout)
			CLI_FAIL(c, RT_E_INPUT,
				 "%s with %s is in class %s already, with number "
				 "%lld: for another start give it a --number",
				 other->driver, other->horses, other->class_name,
				 (long long)other->number);
	}
}

static void entry_add(struct cli *c, const void *typed)
{
	struct rt_entry entry = *(const struct rt_entry *)typed;
	const struct rt_entries one = {.at = &entry, .n = 1};
	struct rt_import_count count = {0};
	struct there there = {0};
	bool kept = false, marked = false;

	entry.entered_at = c->when;
	cli_store(c, true);
	cli_class(c, entry.class_name);
	there.all = cli_entries(c);
	CLI_DO(c, rt_store_numbering(c->store, &there.rule, &c->err));
	CLI_DO(c, rt_store_numbers_given_up(c->store, &there.given_up, &c->err));
	if (entry.number) {
		cli_number_free(c, entry.class_name, entry.number);
	} else {
		must_be_new(c, &entry);
		CLI_DO(c, rt_number_give(&entry.number, &there.rule, there.all, &there.given_up,
					 &entry, &kept, &c->err));
	}
	CLI_DO(c, rt_store_class_marked(c->store, entry.class_name, &marked, &c->err));
	CLI_DO(c, rt_store_entries_put(c->store, &one, &count, &c->faults, &c->err));

	cli_report_entries(c, &one, CLI_ENTRY_ARRIVAL);
	if (kept)
		rt_report_note(&c->report, "Number %lld is the one that this %s has in the show.",
			       (long long)entry.number, rt_number_holder_words(there.rule.holder));
	if (marked)
		rt_report_note(&c->report, "Class %s has marks already.", entry.class_name);
	cli_note_numbers(c, &entry);
	cli_note_entries(c, &one);
	RT_LIST_FREE(&there.given_up);
}

const struct cli_command cmd_entry_add = {
	.name = "entry add",
	.summary = "Put one entry into a class.",
	.details =
		"Without --number the number is given out: a turnout (the driver with these horses) that\n"
		"is in the show has its number in every class; anybody else gets the number behind the\n"
		"highest in use. A number that was given up is not given out again. `entry numbers`\n"
		"sets from where to where, and who keeps a number.",
	.example =
		"--show spring.show entry add 3 --driver \"Ann Ashby\" --horses \"Fen; Moss\" --late",
	CLI_OPTIONS(struct rt_entry, add_options),
	.record = &rt_entry_record,
	.left_out = "status",
	.run = entry_add,
};

/* ---- entry numbers ----------------------------------------------------------------------- */

static const struct rt_field numbers_options[] = {
	{"lowest", RT_AT(struct rt_numbering, first), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the lowest number that is given out"},
	{"highest", RT_AT(struct rt_numbering, last), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "the highest"},
	{"keep", RT_AT(struct rt_numbering, holder), .head = "WHO", RT_WORD_OF(number_holder),
	 .help = "who has one number in all classes"},
};

struct numbers_row {
	struct rt_numbering rule;
	size_t entries;
	int64_t next;
};

static const struct rt_field numbers_fields[] = {
	{"first_number", .head = "from", RT_AT(struct numbers_row, rule.first), .type = RT_INT},
	{"last_number", .head = "to", RT_AT(struct numbers_row, rule.last), .type = RT_INT},
	{"keep", .head = "has one number", RT_AT(struct numbers_row, rule.holder),
	 RT_WORD_OF(number_holder)},
	{"entries", RT_AT(struct numbers_row, entries), .type = RT_SIZE},
	{"next", .head = "next number", RT_AT(struct numbers_row, next), .type = RT_INT,
	 .is = RT_EMPTY},
};

static const struct rt_record numbers_table = RT_TABLE("numbers", "Numbers", numbers_fields,
						       struct numbers_row);

static void entry_numbers(struct cli *c, const void *typed)
{
	const struct rt_numbering *o = typed;
	bool first = cli_given(c, &o->first), last = cli_given(c, &o->last),
	     keep = cli_given(c, &o->holder), kept;
	const struct rt_entry nobody = {.driver = "", .horses = ""};
	struct there there = {0};
	struct numbers_row row = {0};
	struct rt_error none_left = {0};

	cli_store(c, first || last || keep);
	CLI_DO(c, rt_store_numbering(c->store, &row.rule, &c->err));
	row.rule = (struct rt_numbering){first ? o->first : row.rule.first,
					 last ? o->last : row.rule.last,
					 keep ? o->holder : row.rule.holder};
	if (row.rule.last < row.rule.first)
		CLI_FAIL(c, RT_E_USAGE, "from %lld to %lld there is no number",
			 (long long)row.rule.first, (long long)row.rule.last);
	if (c->writing)
		CLI_DO(c, rt_store_numbering_put(c->store, &row.rule, &c->err));
	there.all = cli_entries(c);
	CLI_DO(c, rt_store_numbers_given_up(c->store, &there.given_up, &c->err));
	if (!c->err.code) {
		/* What somebody new would be given. */
		const struct rt_numbering anybody = {row.rule.first, row.rule.last, RT_HOLDER_NONE};
		enum rt_err rc = rt_number_give(&row.next, &anybody, there.all, &there.given_up,
						&nobody, &kept, &none_left);

		if (rc == RT_E_INPUT)
			row.next = 0;
		else if (rc)
			c->err = none_left;
	}
	row.entries = there.all->n;
	rt_report_list(&c->report, &numbers_table, &row, 1);
	if (!row.next)
		rt_report_note(&c->report, "No number is left from %lld to %lld.",
			       (long long)row.rule.first, (long long)row.rule.last);
	RT_LIST_FREE(&there.given_up);
}

const struct cli_command cmd_entry_numbers = {
	.name = "entry numbers",
	.summary = "Show or set how numbers are given out.",
	.details =
		"--keep turnout: the same driver with the same horses has one number in all classes;\n"
		"driver: a driver has one number in all classes, and another for a second turnout in\n"
		"the same class; nothing: each entry has a number of its own. Unless set: from 1 to\n"
		"99999, turnout.",
	.example = "--show spring.show entry numbers --lowest 101 --highest 399",
	CLI_OPTIONS(struct rt_numbering, numbers_options),
	.table = {&numbers_table},
	.run = entry_numbers,
};
