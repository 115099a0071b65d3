/* entry change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

struct entry_change {
	struct rt_entry entry; /* what is typed of it */
	const char *class_name, *why, *by;
	int64_t number, seen;
	int late;
	bool spelling, everywhere;
};

#define CHANGE(member) RT_AT(struct entry_change, member)

static const char *const no_or_yes_words[] = {"no", "yes"};
static const struct rt_words no_or_yes = {"answer", no_or_yes_words, 2, NULL, 0};

static const struct rt_field entry_change_options[] = {
	CLI_CLASS(struct entry_change, class_name),
	CLI_NUMBER(struct entry_change, number),
	{"number", CHANGE(entry.number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "another number"},
	{"late", CHANGE(late), .type = RT_WORD, .words = &no_or_yes,
	 .help = "came in after entries had closed"},
	{"spelling", CHANGE(spelling), .type = RT_BOOL,
	 .help = "the same driver and horses, written right"},
	{"seen", CHANGE(seen), .head = "CHANGES", .type = RT_INT, .low = 0, .high = INT32_MAX,
	 .help = "refuse if it has other than so many changes"},
	{"all-classes", CHANGE(everywhere), .type = RT_BOOL,
	 .help = "in every class with this number and driver"},
	CLI_WHY(struct entry_change, why, 0),
	CLI_BY(struct entry_change, by, 0),
};

struct change_work {
	const struct entry_change *typed;
	struct rt_reason reason;
	struct rt_entries all; /* of the show, before */
	struct rt_table *table;
	size_t changed;	   /* entries */
	size_t left_alone; /* entries of the same number and driver that could be changed too */
};

struct change_row {
	const struct rt_entry *entry;
	const struct rt_change *change;
};

static const struct rt_field change_fields[] = {
	{"class", RT_IN(struct change_row, entry, struct rt_entry, class_name)},
	{"number", .head = "no.", RT_IN(struct change_row, entry, struct rt_entry, number),
	 .type = RT_INT},
	{"field", .head = "what", RT_IN(struct change_row, change, struct rt_change, field)},
	{"was", RT_IN(struct change_row, change, struct rt_change, was)},
	{"became", RT_IN(struct change_row, change, struct rt_change, became)},
};

static const struct rt_record changes_table = RT_TABLE("changes", "Changes kept", change_fields,
						       struct change_row);

static bool has_change(const struct rt_changes *changes, const char *field)
{
	for (size_t i = 0; i < changes->n; i++)
		if (strcmp(changes->at[i].field, field) == 0)
			return true;
	return false;
}

static bool other_turnout(const struct rt_changes *changes)
{
	return has_change(changes, "driver") || has_change(changes, "horses");
}

/* What marks forbid: a number is on the sheets, and another driver or horse was not judged. */
static void check_marks(struct cli *c, const struct change_work *w, const struct rt_entry *was,
			const struct rt_changes *changes)
{
	bool marked = false;

	if (has_change(changes, "number"))
		CLI_DO(c, rt_store_entry_marked(c->store, was->id, &marked, &c->err));
	if (marked)
		CLI_DO(c, rt_fail(&c->err, RT_E_INPUT,
				  "entry %lld of class %s has marks: its number stays",
				  (long long)was->number, was->class_name));
	if (other_turnout(changes) && !w->typed->spelling)
		CLI_DO(c, rt_store_class_marked(c->store, was->class_name, &marked, &c->err));
	if (marked)
		CLI_DO(c, rt_fail(&c->err, RT_E_INPUT,
				  "class %s has marks: no driver or horse is substituted now; "
				  "--spelling writes the name of the same one right",
				  was->class_name));
}

static void report_changes(struct cli *c, const struct change_work *w, const struct rt_entry *was,
			   const struct rt_changes *changes)
{
	struct rt_changes history = {0};
	char whose[RT_NAME_MOST * 4 + 40];

	snprintf(whose, sizeof whose, "Class %s, number %lld", was->class_name,
		 (long long)was->number);
	CLI_DO(c, rt_store_entry_history(c->store, was->id, &history, &c->err));
	for (size_t i = 0; i < changes->n; i++) {
		rt_put_row(w->table, &(struct change_row){was, &changes->at[i]});
		cli_note_earlier(c, whose, changes->at[i].field, &history, w->reason.who);
	}
	RT_LIST_FREE(&history);
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
	const struct entry_change *o = w->typed;
	struct rt_changes changes = {0};
	struct rt_entry became = *was;
	bool number;

	cli_change(c, &became);
	if (o->entry.number)
		became.number = o->entry.number;
	if (cli_given(c, &o->late))
		became.late = o->late;
	CLI_DO(c, rt_record_changes(&changes, &rt_entry_record, was, &became, &c->err));
	number = has_change(&changes, "number");
	if (number)
		cli_number_free(c, &w->all, was->class_name, became.number);
	check_marks(c, w, was, &changes);
	report_changes(c, w, was, &changes);
	if (number)
		note_payee(c, was->number, became.number);
	CLI_DO(c, rt_store_entry_change(c->store, &became, &changes, &w->reason, &c->err));
	if (!o->everywhere && (number || other_turnout(&changes)))
		cli_note_numbers(c, &w->all, &became);
	if (changes.n)
		cli_note_posted(c, was->class_name);
	w->changed += changes.n > 0;
	RT_LIST_FREE(&changes);
}

/* The entries of other classes with the same number and driver. */
static void change_others(struct cli *c, struct change_work *w, const struct rt_entry *first)
{
	for (size_t i = 0; i < w->all.n && !c->err.code; i++) {
		const struct rt_entry *other = &w->all.at[i];
		bool driver = false, turnout;

		if (other == first || other->number != first->number)
			continue;
		CLI_DO(c, rt_entries_alike(first, other, &driver, &turnout, &c->err));
		if (driver && w->typed->everywhere)
			change_one(c, w, other);
		else if (driver)
			w->left_alone++;
	}
}

static void put_changes(struct cli *c, struct change_work *w)
{
	const struct entry_change *o = w->typed;
	const struct rt_entry *entry = NULL;
	struct rt_entries of_class = {0};

	cli_store(c, true);
	/* to find out whether there is such a class */
	CLI_DO(c, rt_store_entries(c->store, o->class_name, &of_class, &c->err));
	RT_LIST_FREE(&of_class);
	CLI_DO(c, rt_store_entries(c->store, NULL, &w->all, &c->err));
	CLI_DO(c, cli_entry_numbered(c, &w->all, o->class_name, o->number, &entry));
	if (c->err.code)
		return;
	if (cli_given(c, &o->seen) && o->seen != entry->changes)
		CLI_DO(c, rt_fail(&c->err, RT_E_INPUT,
				  "entry %lld of class %s was changed meanwhile (%lld changes, "
				  "%lld seen): look at `entry history %s %lld`",
				  (long long)entry->number, entry->class_name,
				  (long long)entry->changes, (long long)o->seen, entry->class_name,
				  (long long)entry->number));
	change_one(c, w, entry);
	change_others(c, w, entry);
}

static void entry_change(struct cli *c, const void *typed)
{
	const struct entry_change *o = typed;
	struct change_work w = {.typed = o, .reason = {o->by, o->why, c->when}};

	w.table = rt_report_rows(&c->report, &changes_table);
	put_changes(c, &w);
	if (!w.changed)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	else if (w.left_alone)
		rt_report_note(&c->report,
			       "Number %lld of the same driver is in %zu other class%s, unchanged: "
			       "--all-classes changes it there too.",
			       (long long)o->number, w.left_alone, w.left_alone == 1 ? "" : "es");
	RT_LIST_FREE(&w.all);
}

const struct cli_command cmd_entry_change = {
	.group = "Office",
	.name = "entry change",
	.summary = "Change an entry, or put another driver or horse in its place.",
	.details =
		"What was there before stays in its history (`entry history`). An option with \"\" empties\n"
		"its field. Driver and horses can be others until the class has marks, the number until\n"
		"the entry has.",
	.example =
		"--show spring.show entry change 3 47 --groom \"Per Ask\" --why \"groom is ill\"",
	CLI_OPTIONS(struct entry_change, entry_change_options),
	.record = &rt_entry_record,
	.changes = true,
	.run = entry_change,
};
