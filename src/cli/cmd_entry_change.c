/* entry change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* ---- entry change ------------------------------------------------------------------------ */

struct change_work {
	const struct cli_call *call;
	const char *class_name;
	int64_t number;
	struct rt_reason reason;
	struct rt_entries all; /* of the show, before */
	struct rt_arena *text;
	struct rt_table *table;
	bool everywhere;   /* in every class */
	size_t changed;	   /* entries */
	size_t left_alone; /* entries of the same number and driver that could be changed too */
};

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
static enum rt_err check_marks(struct cli *c, const struct change_work *w,
			       const struct rt_entry *was, const struct rt_changes *changes)
{
	bool marked = false;
	enum rt_err e = RT_OK;

	if (has_change(changes, "number"))
		e = rt_store_entry_marked(c->store, was->id, &marked, &c->err);
	if (!e && marked)
		return rt_fail(&c->err, RT_E_INPUT,
			       "entry %lld of class %s has marks: its number stays",
			       (long long)was->number, was->class_name);
	if (!e && other_turnout(changes) && !cli_option(w->call, "spelling"))
		e = rt_store_class_marked(c->store, was->class_name, &marked, &c->err);
	if (!e && marked)
		e = rt_fail(&c->err, RT_E_INPUT,
			    "class %s has marks: no driver or horse is substituted now; "
			    "--spelling writes the name of the same one right",
			    was->class_name);
	return e;
}

static enum rt_err report_changes(struct cli *c, const struct change_work *w,
				  const struct rt_entry *was, const struct rt_changes *changes)
{
	struct rt_changes history = {0};
	char whose[RT_NAME_MOST * 4 + 40];
	enum rt_err e = rt_store_entry_history(c->store, was->id, &history, &c->err);

	snprintf(whose, sizeof whose, "Class %s, number %lld", was->class_name,
		 (long long)was->number);

	for (size_t i = 0; i < changes->n && !e; i++) {
		rt_put_text(w->table, was->class_name);
		rt_put_int(w->table, was->number);
		rt_put_text(w->table, changes->at[i].field);
		rt_put_text(w->table, changes->at[i].was);
		rt_put_text(w->table, changes->at[i].became);
		cli_note_earlier(c, whose, changes->at[i].field, &history, w->reason.who);
	}
	RT_LIST_FREE(&history);
	return e;
}

/* Somebody else may be named for the prize money of the new number. */
static enum rt_err note_payee(struct cli *c, int64_t was, int64_t number)
{
	const char *mine = NULL, *there = NULL;
	struct rt_payees payees = {0};
	enum rt_err e = rt_store_payees(c->store, &payees, &c->err);

	for (size_t i = 0; i < payees.n && !e; i++) {
		mine = payees.at[i].number == was ? payees.at[i].name : mine;
		there = payees.at[i].number == number ? payees.at[i].name : there;
	}
	if (there && !mine)
		rt_report_note(
			&c->report,
			"The prize money of number %lld goes to %s: `prize payee` names another.",
			(long long)number, there);
	RT_LIST_FREE(&payees);
	return e;
}

static enum rt_err change_one(struct cli *c, struct change_work *w, const struct rt_entry *was)
{
	struct rt_changes changes = {0};
	struct rt_entry became = *was;
	enum rt_err e = cli_entry_fields(c, w->call, &w->text, &became);

	if (!e)
		e = rt_record_changes(&changes, &rt_entry_record, was, &became, &c->err);
	if (!e && has_change(&changes, "number"))
		e = cli_number_free(c, &w->all, was->class_name, became.number);
	if (!e)
		e = check_marks(c, w, was, &changes);
	if (!e)
		e = report_changes(c, w, was, &changes);
	if (!e && has_change(&changes, "number"))
		e = note_payee(c, was->number, became.number);
	if (!e)
		e = rt_store_entry_change(c->store, &became, &changes, &w->reason, &c->err);
	if (!e && !w->everywhere && (has_change(&changes, "number") || other_turnout(&changes)))
		e = cli_note_numbers(c, &w->all, &became);
	if (!e && changes.n)
		e = CLI_OLD(c, cli_note_posted(c, was->class_name));
	w->changed += !e && changes.n;
	RT_LIST_FREE(&changes);
	return e;
}

/* RT_E_INPUT when the entry was changed more often than was seen. */
static enum rt_err check_seen(struct cli *c, const struct change_work *w,
			      const struct rt_entry *entry)
{
	const char *typed = cli_option(w->call, "seen");
	int64_t seen;
	enum rt_err e;

	if (!typed)
		return RT_OK;
	e = cli_whole(c, "--seen", typed, 0, INT32_MAX, &seen);
	if (e || seen == entry->changes)
		return e;
	return rt_fail(&c->err, RT_E_INPUT,
		       "entry %lld of class %s was changed meanwhile (%lld changes, %lld seen): "
		       "look at `entry history %s %lld`",
		       (long long)entry->number, entry->class_name, (long long)entry->changes,
		       (long long)seen, entry->class_name, (long long)entry->number);
}

/* The entries of other classes with the same number and driver. */
static enum rt_err change_others(struct cli *c, struct change_work *w, const struct rt_entry *first)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < w->all.n && !e; i++) {
		const struct rt_entry *other = &w->all.at[i];
		bool driver, turnout;

		if (other == first || other->number != first->number)
			continue;
		e = rt_entries_alike(first, other, &driver, &turnout, &c->err);
		if (!e && driver && w->everywhere)
			e = change_one(c, w, other);
		else if (!e && driver)
			w->left_alone++;
	}
	return e;
}

static enum rt_err put_changes(struct cli *c, struct change_work *w)
{
	const struct rt_entry *entry;
	struct rt_entries of_class = {0};
	enum rt_err e = rt_store_entries(c->store, w->class_name, &of_class, &c->err);

	RT_LIST_FREE(&of_class); /* it was to find out whether there is such a class */
	if (!e)
		e = rt_store_entries(c->store, NULL, &w->all, &c->err);
	if (!e)
		e = cli_entry_numbered(c, &w->all, w->class_name, w->number, &entry);
	if (!e)
		e = check_seen(c, w, entry);
	if (!e)
		e = change_one(c, w, entry);
	return e ? e : change_others(c, w, entry);
}

static enum rt_err entry_change(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"field", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"became", "became", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct change_work w = {
		.call = call,
		.class_name = call->arg[0],
		.reason = {cli_option(call, "by"), cli_option(call, "why"), c->when},
		.everywhere = cli_option(call, "all-classes") != NULL,
	};
	enum rt_err e = cli_whole(c, "number", call->arg[1], 1, RT_NUMBER_MOST, &w.number);

	w.table = rt_report_table(&c->report, "changes", "Changes kept", columns, 5);
	if (!e)
		e = cli_reasons(c, call);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_changes(c, &w);
	if (!e && !w.changed)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	if (!e && w.changed && w.left_alone)
		rt_report_note(&c->report,
			       "Number %lld of the same driver is in %zu other class%s, unchanged: "
			       "--all-classes changes it there too.",
			       (long long)w.number, w.left_alone, w.left_alone == 1 ? "" : "es");
	RT_LIST_FREE(&w.all);
	rt_arena_free(w.text);
	return e;
}

const struct cli_command cmd_entry_change = {
	.group = "Office",
	.name = "entry change",
	.args = "CLASS NUMBER",
	.summary = "Change an entry, or put another driver or horse in its place.",
	.details =
		"What was there before stays in its history (`entry history`). An option with \"\" empties\n"
		"its field. Driver and horses can be others until the class has marks, the number until\n"
		"the entry has.",
	.example =
		"--show spring.show entry change 3 47 --groom \"Per Ask\" --why \"groom is ill\"",
	.old_option = {{"number", "N", "another number", false},
		       {"driver", "D", "the driver", false},
		       {"rider", "R", "the rider, where there is no driver", false},
		       {"horses", "\"A; B\"", "the horses, semicolons between", false},
		       {"height", "H", "of the animals: 132cm, 1.32m or 13.2hh", false},
		       {"turnout", "T", "what is driven", false},
		       {"groom", "G", "who is on the carriage too", false},
		       {"club", "C", "whom they drive or ride for", false},
		       {"division", "D", "another than the class's", false},
		       {"hors-concours", "yes|no", "scored, never placed", false},
		       {"late", "yes|no", "came in after entries had closed", false},
		       {"spelling", NULL, "the same driver and horses, written right", false},
		       {"seen", "CHANGES", "refuse if it has other than so many changes", false},
		       {"all-classes", NULL, "in every class with this number and driver", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = entry_change,
};
