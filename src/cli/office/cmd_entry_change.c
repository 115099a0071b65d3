/* entry change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

enum answer { NO, YES };
static const char *const answer_words[] = {"no", "yes"};
static const struct rt_words answers = {"answer", answer_words, 2, NULL, 0};

struct change {
	struct rt_entry entry; /* what is typed of it */
	const char *class_name;
	int64_t number;
	enum answer late;
	bool spelling, all_classes;
	int64_t seen;
	struct rt_reason reason;
};

static const struct rt_field change_options[] = {
	CLI_CLASS(struct change, class_name),
	CLI_NUMBER(struct change, number),
	{"number", RT_AT(struct change, entry.number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "another number"},
	{"late", RT_AT(struct change, late), .head = "yes|no", .type = RT_WORD, .words = &answers,
	 .help = "came in after entries had closed"},
	{"spelling", RT_AT(struct change, spelling), .type = RT_BOOL,
	 .help = "the same driver and horses, written right"},
	{"seen", RT_AT(struct change, seen), .head = "CHANGES", .type = RT_INT,
	 .help = "refuse if it has other than so many changes"},
	{"all-classes", RT_AT(struct change, all_classes), .type = RT_BOOL,
	 .help = "in every class with this number and driver"},
	CLI_WHY(struct change, reason.why, 0),
	CLI_BY(struct change, reason.who, 0),
};

struct change_row {
	const struct rt_entry *entry;
	const struct rt_change *change;
};

#define ENTRY(member)  RT_IN(struct change_row, entry, struct rt_entry, member)
#define CHANGE(member) RT_IN(struct change_row, change, struct rt_change, member)

static const struct rt_field changes_fields[] = {
	{"class", ENTRY(class_name)},
	{"number", .head = "no.", ENTRY(number), .type = RT_INT},
	{"field", .head = "what", CHANGE(field)},
	{"was", CHANGE(was)},
	{"became", CHANGE(became)},
};

static const struct rt_record changes_table = RT_TABLE("changes", "Changes kept", changes_fields,
						       struct change_row);

struct change_work {
	const struct change *o;
	struct rt_table *table;
	size_t changed; /* entries */
};

static bool has_change(const struct rt_changes *changes, const char *field)
{
	for (size_t i = 0; i < changes->n; i++)
		if (strcmp(changes->at[i].field, field) == 0)
			return true;
	return false;
}

/* What marks forbid: a number is on the sheets, and another driver or horse was not judged. */
static void check_marks(struct cli *c, const struct rt_entry *was, bool number, bool turnout)
{
	bool marked = false;

	if (number)
		CLI_DO(c, rt_store_entry_marked(c->store, was->id, &marked, &c->err));
	if (marked)
		CLI_FAIL(c, RT_E_INPUT, "entry %lld of class %s has marks: its number stays",
			 (long long)was->number, was->class_name);
	marked = false;
	if (turnout)
		CLI_DO(c, rt_store_class_marked(c->store, was->class_name, &marked, &c->err));
	if (marked)
		CLI_FAIL(c, RT_E_INPUT,
			 "class %s has marks: no driver or horse is substituted "
			 "now; --spelling writes the name of the same one right",
			 was->class_name);
}

/* Somebody else may be named for the prize money of the new number. */
static void note_payee(struct cli *c, int64_t was, int64_t number)
{
	const char *mine = NULL, *there = NULL;
	struct rt_payees payees = {0};

	CLI_DO(c, rt_store_payees(c->store, &payees, &c->err));
	for (size_t i = 0; i < payees.n; i++) {
		mine = payees.at[i].number == was ? payees.at[i].name : mine;
		there = payees.at[i].number == number ? payees.at[i].name : there;
	}
	if (there && !mine)
		rt_report_note(
			&c->report,
			"The prize money of number %lld goes to %s: `prize payee` names another.",
			(long long)number, there);
	RT_LIST_FREE(&payees);
}

static void change_one(struct cli *c, struct change_work *w, const struct rt_entry *was)
{
	struct rt_changes changes = {0}, history = {0};
	struct rt_entry became = *was;
	char whose[RT_NAME_MOST * 4 + 40];
	bool number, turnout;

	cli_change(c, &became);
	if (cli_given(c, &w->o->entry.number))
		became.number = w->o->entry.number;
	if (cli_given(c, &w->o->late))
		became.late = w->o->late == YES;
	CLI_DO(c, rt_record_changes(&changes, &rt_entry_record, was, &became, &c->err));
	number = has_change(&changes, "number");
	turnout = has_change(&changes, "driver") || has_change(&changes, "horses");
	if (number)
		cli_number_free(c, was->class_name, became.number);
	check_marks(c, was, number, turnout && !w->o->spelling);
	CLI_DO(c, rt_store_entry_history(c->store, was->id, &history, &c->err));
	snprintf(whose, sizeof whose, "Class %s, number %lld", was->class_name,
		 (long long)was->number);
	for (size_t i = 0; i < changes.n; i++) {
		rt_put_row(w->table, &(struct change_row){was, &changes.at[i]});
		cli_note_earlier(c, whose, changes.at[i].field, &history, w->o->reason.who);
	}
	if (number)
		note_payee(c, was->number, became.number);
	CLI_DO(c,
	       rt_store_entry_change(
		       c->store, &became, &changes,
		       &(struct rt_reason){w->o->reason.who, w->o->reason.why, c->when}, &c->err));
	if (!w->o->all_classes && (number || turnout))
		cli_note_numbers(c, &became);
	if (changes.n)
		cli_note_posted(c, was->class_name);
	w->changed += changes.n != 0;
	RT_LIST_FREE(&history);
	RT_LIST_FREE(&changes);
}

static void entry_change(struct cli *c, const void *typed)
{
	const struct change *o = typed;
	struct change_work w = {.o = o};
	const struct rt_entries *all;
	const struct rt_entry *first = NULL;
	size_t left_alone = 0; /* entries of the same number and driver in other classes */

	w.table = rt_report_rows(&c->report, &changes_table);
	cli_store(c, true);
	cli_class(c, o->class_name);
	all = cli_entries(c);
	cli_find_entry(c, all, o->class_name, o->number, &first);
	if (first && cli_given(c, &o->seen) && o->seen != first->changes)
		CLI_FAIL(c, RT_E_INPUT,
			 "entry %lld of class %s was changed meanwhile (%lld "
			 "changes, %lld seen): look at `entry history %s %lld`",
			 (long long)first->number, first->class_name, (long long)first->changes,
			 (long long)o->seen, first->class_name, (long long)first->number);
	if (!c->err.code)
		change_one(c, &w, first);
	for (size_t i = 0; i < all->n && !c->err.code; i++) {
		const struct rt_entry *other = &all->at[i];
		bool driver = false, turnout;

		if (other == first || other->number != first->number)
			continue;
		CLI_DO(c, rt_entries_alike(first, other, &driver, &turnout, &c->err));
		if (driver && o->all_classes)
			change_one(c, &w, other);
		else
			left_alone += driver;
	}
	if (!w.changed)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	else if (left_alone)
		rt_report_note(&c->report,
			       "Number %lld of the same driver is in %zu other class%s, unchanged: "
			       "--all-classes changes it there too.",
			       (long long)o->number, left_alone, left_alone == 1 ? "" : "es");
}

const struct cli_command cmd_entry_change = {
	.name = "entry change",
	.summary = "Change an entry, or put another driver or horse in its place.",
	.details =
		"What was there before stays in its history (`entry history`). An option with \"\" empties\n"
		"its field. Driver and horses can be others until the class has marks, the number until\n"
		"the entry has.",
	.example =
		"--show spring.show entry change 3 47 --groom \"Per Ask\" --why \"groom is ill\"",
	CLI_OPTIONS(struct change, change_options),
	.record = &rt_entry_record,
	.changes = true,
	.table = {&changes_table},
	.run = entry_change,
	.lists = true,
};
