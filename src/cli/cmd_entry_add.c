/* entry add and entry numbers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
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

static void add_work_free(struct add_work *w)
{
	RT_LIST_FREE(&w->all);
	RT_LIST_FREE(&w->placed);
	RT_LIST_FREE(&w->given_up);
}

/* RT_E_INPUT when the turnout is in the class already. */
static enum rt_err must_be_new(struct cli *c, const struct add_work *w)
{
	for (size_t i = 0; i < w->all.n; i++) {
		const struct rt_entry *other = &w->all.at[i];
		bool driver, turnout;

		if (strcmp(other->class_name, w->entry.class_name) != 0)
			continue;
		if (rt_entries_alike(&w->entry, other, &driver, &turnout, &c->err))
			return c->err.code;
		if (turnout)
			return rt_fail(&c->err, RT_E_INPUT,
				       "%s with %s is in class %s already, with number %lld: for "
				       "another start give it a --number",
				       other->driver, other->horses, other->class_name,
				       (long long)other->number);
	}
	return RT_OK;
}

/* Give the entry its number, unless it was typed. */
static enum rt_err give_number(struct cli *c, struct add_work *w)
{
	enum rt_err e;

	if (w->entry.number)
		return cli_number_free(c, &w->all, w->entry.class_name, w->entry.number);
	e = must_be_new(c, w);
	if (!e)
		e = rt_store_numbering(c->store, &w->rule, &c->err);
	if (!e)
		e = rt_store_numbers_given_up(c->store, &w->given_up, &c->err);
	return e ? e
		 : rt_number_give(&w->entry.number, &w->rule, &w->all, &w->given_up, &w->entry,
				  &w->kept, &c->err);
}

static enum rt_err put_added(struct cli *c, struct add_work *w)
{
	const struct rt_entries one = {.at = &w->entry, .n = 1};
	struct rt_import_count count = {0};
	enum rt_err e = rt_store_entries(c->store, w->entry.class_name, &w->placed, &c->err);

	RT_LIST_FREE(&w->placed); /* it was to find out whether there is such a class */
	if (!e)
		e = rt_store_entries(c->store, NULL, &w->all, &c->err);
	if (!e)
		e = give_number(c, w);
	if (!e)
		e = rt_store_class_marked(c->store, w->entry.class_name, &w->marked, &c->err);
	if (!e)
		e = rt_store_entries_put(c->store, &one, &count, &c->faults, &c->err);
	return e;
}

static enum rt_err report_added(struct cli *c, struct add_work *w)
{
	const struct rt_entries one = {.at = &w->entry, .n = 1};

	cli_report_entries(c, &one, CLI_ENTRY_ARRIVAL);
	if (w->kept)
		rt_report_note(&c->report, "Number %lld is the one that this %s has in the show.",
			       (long long)w->entry.number, rt_number_holder_words(w->rule.holder));
	if (w->marked)
		rt_report_note(&c->report, "Class %s has marks already.", w->entry.class_name);
	if (cli_note_numbers(c, &w->all, &w->entry) || cli_note_horses(c, &w->all, &one))
		return c->err.code;
	return CLI_OLD(c, cli_note_posted(c, w->entry.class_name));
}

static enum rt_err entry_add(struct cli *c, const struct cli_call *call)
{
	struct add_work w = {.entry = {.class_name = call->arg[0],
				       .height_cm = (double)NAN,
				       .entered_at = c->when}};
	struct rt_arena *text = NULL;
	enum rt_err e = cli_entry_fields(c, call, &text, &w.entry);

	if (!e && !w.entry.driver)
		e = rt_fail(&c->err, RT_E_USAGE, "entry add wants --driver D, or --rider R");
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_added(c, &w);
	if (!e)
		e = report_added(c, &w);
	add_work_free(&w);
	rt_arena_free(text);
	return e;
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
	.old_option = {{"driver", "D", "the driver", false},
		       {"rider", "R", "the rider, where there is no driver", false},
		       {"horses", "\"A; B\"", "the horses, semicolons between", true},
		       {"number", "N", "the number, where it is not given out", false},
		       {"height", "H", "of the animals: 132cm, 1.32m or 13.2hh", false},
		       {"turnout", "T", "what is driven", false},
		       {"groom", "G", "who is on the carriage too", false},
		       {"club", "C", "whom they drive or ride for", false},
		       {"division", "D", "another than the class's", false},
		       {"hors-concours", NULL, "scored, never placed", false},
		       {"late", NULL, "came in after entries had closed", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = entry_add,
};

/* ---- entry numbers ----------------------------------------------------------------------- */

static enum rt_err read_numbering(struct cli *c, const struct cli_call *call,
				  struct rt_numbering *rule)
{
	const char *first = cli_option(call, "first"), *last = cli_option(call, "last");
	const char *keep = cli_option(call, "keep");
	enum rt_err e = RT_OK;

	if (first)
		e = cli_whole(c, "--first", first, 1, RT_NUMBER_MOST, &rule->first);
	if (!e && last)
		e = cli_whole(c, "--last", last, 1, RT_NUMBER_MOST, &rule->last);
	if (!e && rule->last < rule->first)
		e = rt_fail(&c->err, RT_E_USAGE, "from %lld to %lld there is no number",
			    (long long)rule->first, (long long)rule->last);
	if (!e && keep && !rt_number_holder_read(keep, &rule->holder))
		e = rt_fail(&c->err, RT_E_USAGE, "--keep: \"%s\": turnout, driver or nothing",
			    keep);
	return e;
}

/* The number that somebody new would be given; past the last when none is left. */
static enum rt_err next_number(struct cli *c, const struct rt_numbering *rule, size_t *entries,
			       int64_t *next)
{
	const struct rt_numbering anybody = {rule->first, rule->last, RT_HOLDER_NONE};
	const struct rt_entry nobody = {.driver = "", .horses = ""};
	struct rt_entries all = {0};
	struct rt_numbers given_up = {0};
	bool kept;
	enum rt_err e = rt_store_entries(c->store, NULL, &all, &c->err);

	if (!e)
		e = rt_store_numbers_given_up(c->store, &given_up, &c->err);
	if (!e)
		e = rt_number_give(next, &anybody, &all, &given_up, &nobody, &kept, &c->err);
	*entries = all.n;
	RT_LIST_FREE(&given_up);
	RT_LIST_FREE(&all);
	return e == RT_E_INPUT ? RT_OK : e;
}

static enum rt_err entry_numbers(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"first", "from", RT_INT, RT_NO_UNIT, 0, false},
		{"last", "to", RT_INT, RT_NO_UNIT, 0, false},
		{"keep", "has one number", RT_TEXT, RT_NO_UNIT, 0, false},
		{"entries", "entries", RT_INT, RT_NO_UNIT, 0, false},
		{"next", "next number", RT_INT, RT_NO_UNIT, 0, false},
	};
	bool sets = cli_option(call, "first") || cli_option(call, "last") ||
		    cli_option(call, "keep");
	struct rt_numbering rule = {0};
	struct rt_table *t = rt_report_table(&c->report, "numbers", "Numbers", columns, 5);
	size_t entries = 0;
	int64_t next = 0;
	enum rt_err e = CLI_OLD(c, cli_store(c, sets));

	if (!e)
		e = rt_store_numbering(c->store, &rule, &c->err);
	if (!e && sets)
		e = read_numbering(c, call, &rule);
	if (!e && sets)
		e = rt_store_numbering_put(c->store, &rule, &c->err);
	if (!e)
		e = next_number(c, &rule, &entries, &next);
	if (e)
		return e;
	rt_put_int(t, rule.first);
	rt_put_int(t, rule.last);
	rt_put_text(t, rt_number_holder_words(rule.holder));
	rt_put_int(t, (int64_t)entries);
	if (next <= rule.last) {
		rt_put_int(t, next);
		return RT_OK;
	}
	rt_put_null(t);
	rt_report_note(&c->report, "No number is left from %lld to %lld.", (long long)rule.first,
		       (long long)rule.last);
	return RT_OK;
}

const struct cli_command cmd_entry_numbers = {
	.group = "Office",
	.name = "entry numbers",
	.args = "",
	.summary = "Show or set how numbers are given out.",
	.details =
		"--keep turnout: the same driver with the same horses has one number in all classes;\n"
		"driver: a driver has one number in all classes, and another for a second turnout in\n"
		"the same class; nothing: each entry has a number of its own. Unless set: from 1 to\n"
		"99999, turnout.",
	.example = "--show spring.show entry numbers --first 101 --last 399",
	.old_option = {{"first", "N", "the lowest number that is given out", false},
		       {"last", "N", "the highest", false},
		       {"keep", "WHO", "turnout, driver or nothing", false}},
	.old_run = entry_numbers,
};
