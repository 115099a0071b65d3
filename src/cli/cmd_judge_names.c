/* judge name and judge list.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

static const char *or_nobody(const char *name)
{
	return name ? name : "nobody";
}

/* ---- judge name -------------------------------------------------------------------------- */

struct name_work {
	const char *class_name;
	struct rt_judge judge; /* as it is to be */
	bool scribe;	       /* --scribe was given */
	struct rt_reason reason;
	struct rt_classes classes; /* as they were */
	const struct rt_class *class_;
	const struct rt_judge *was;
};

static enum rt_err find_position(struct cli *c, struct name_work *w)
{
	char positions[RT_JUDGES_WORDS];

	for (size_t i = 0; i < w->class_->judges.n; i++)
		if (strcmp(w->class_->judges.at[i].position, w->judge.position) == 0)
			w->was = &w->class_->judges.at[i];
	if (w->was)
		return RT_OK;
	rt_judges_words(&w->class_->judges, positions, sizeof positions);
	return rt_fail(&c->err, RT_E_NOTFOUND, "no judge sits at %s in class %s: %s",
		       w->judge.position, w->class_name, positions);
}

static bool same_name(const char *a, const char *b)
{
	return a && b ? strcmp(a, b) == 0 : !a == !b;
}

static enum rt_err put_name(struct cli *c, struct name_work *w)
{
	enum rt_err e = rt_store_classes(c->store, &w->classes, &c->err);

	if (!e)
		e = cli_class_named(c, &w->classes, w->class_name, &w->class_);
	if (!e)
		e = find_position(c, w);
	if (e)
		return e;
	if (!w->scribe)
		w->judge.scribe = w->was->scribe;
	if (same_name(w->was->name, w->judge.name) && same_name(w->was->scribe, w->judge.scribe))
		return RT_OK;
	return rt_store_judge_name_put(c->store, w->class_name, &w->judge, &w->reason, &c->err);
}

static void report_name(struct cli *c, const struct name_work *w)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"position", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"judge", "judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"scribe", "scribe", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "judge", "Judge kept", columns, 5);

	rt_put_text(t, w->class_name);
	rt_put_text(t, w->judge.position);
	rt_put_text(t, w->was->name);
	rt_put_text(t, w->judge.name);
	rt_put_text(t, w->judge.scribe);
	if (same_name(w->was->name, w->judge.name) && same_name(w->was->scribe, w->judge.scribe))
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	for (size_t i = 0; i < w->class_->judges.n; i++) {
		const struct rt_judge *other = &w->class_->judges.at[i];

		if (other != w->was && other->name && same_name(other->name, w->judge.name))
			rt_report_note(&c->report, "%s sits at %s in class %s too.", other->name,
				       other->position, w->class_name);
	}
}

static enum rt_err judge_name(struct cli *c, const struct cli_call *call)
{
	struct name_work w = {
		.class_name = call->arg[0],
		.judge.position = call->arg[1],
		.scribe = cli_option(call, "scribe") != NULL,
		.reason = {cli_option(call, "by"), cli_option(call, "why"), c->when},
	};
	struct rt_arena *text = NULL;
	enum rt_err e = cli_reasons(c, call);

	if (!e)
		e = cli_typed_name(c, "the name", call->arg[2], false, &text, &w.judge.name);
	if (!e)
		e = cli_name_option(c, call, "scribe", false, &text, &w.judge.scribe);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_name(c, &w);
	if (!e)
		report_name(c, &w);
	rt_classes_free(&w.classes);
	rt_arena_free(text);
	return e;
}

const struct cli_command cmd_judge_name = {
	.group = "Office",
	.name = "judge name",
	.args = "CLASS POSITION NAME",
	.summary = "Say who judges at a position of a class, and who writes there.",
	.details =
		"Who sat there before stays in the history (`judge list CLASS --history`). NAME \"\"\n"
		"takes the name away; the scribe stays unless --scribe is given.",
	.example = "--show spring.show judge name 3 C \"Una Alder\" --scribe \"Per Ask\"",
	.old_option = {{"scribe", "NAME", "who writes for the judge", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = judge_name,
};

/* ---- judge list -------------------------------------------------------------------------- */

/* The numbers for which the judge was away. */
static void put_away(struct rt_table *t, const struct rt_away_sheets *away, int64_t judge)
{
	struct cli_names numbers = {0};
	char number[24];

	for (size_t i = 0; i < away->n; i++) {
		if (away->at[i].judge != judge)
			continue;
		snprintf(number, sizeof number, "%lld", (long long)away->at[i].number);
		cli_name(&numbers, number);
	}
	rt_put_text(t, numbers.n ? numbers.text : NULL);
}

static enum rt_err report_judges(struct cli *c, const struct rt_class *classes, size_t n)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"position", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"president", "president", RT_BOOL, RT_NO_UNIT, 0, false},
		{"judge", "judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"scribe", "scribe", RT_TEXT, RT_NO_UNIT, 0, false},
		{"away_for", "away for", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "judges", "Judges", columns, 6);
	struct rt_away_sheets away = {0};
	size_t unnamed = 0;
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < n && !e; i++) {
		away.n = 0;
		e = rt_store_away(c->store, classes[i].name, &away, &c->err);
		for (size_t k = 0; k < classes[i].judges.n; k++) {
			const struct rt_judge *judge = &classes[i].judges.at[k];

			rt_put_text(t, classes[i].name);
			rt_put_text(t, judge->position);
			rt_put_bool(t, judge->president);
			rt_put_text(t, judge->name);
			rt_put_text(t, judge->scribe);
			put_away(t, &away, judge->id);
			unnamed += !judge->name;
		}
	}
	if (unnamed)
		rt_report_note(&c->report, "%zu position%s no name yet: `judge name` gives it.",
			       unnamed, unnamed == 1 ? " has" : "s have");
	RT_LIST_FREE(&away);
	return e;
}

static enum rt_err report_history(struct cli *c, const char *class_name)
{
	static const struct rt_field columns[] = {
		{"at", "when", RT_TEXT, RT_NO_UNIT, 0, false},
		{"position", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"judge", "judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"scribe", "scribe", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "by", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_judge_names names = {0};
	struct rt_table *t = rt_report_table(&c->report, "history", "History", columns, 6);
	enum rt_err e = rt_store_judge_history(c->store, class_name, &names, &c->err);

	for (size_t i = 0; i < names.n && !e; i++) {
		rt_put_text(t, names.at[i].reason.when);
		rt_put_text(t, names.at[i].position);
		rt_put_text(t, or_nobody(names.at[i].name));
		rt_put_text(t, names.at[i].scribe);
		rt_put_text(t, names.at[i].reason.why);
		rt_put_text(t, names.at[i].reason.who);
	}
	RT_LIST_FREE(&names);
	return e;
}

static enum rt_err judge_list(struct cli *c, const struct cli_call *call)
{
	struct rt_classes classes = {0};
	const struct rt_class *one = NULL;
	enum rt_err e = RT_OK;

	if (cli_option(call, "history") && !call->args)
		e = rt_fail(&c->err, RT_E_USAGE, "--history is of one class: judge list CLASS");
	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_classes(c->store, &classes, &c->err);
	if (!e && call->args)
		e = cli_class_named(c, &classes, call->arg[0], &one);
	if (!e && one)
		e = report_judges(c, one, 1);
	else if (!e)
		e = report_judges(c, classes.at, classes.n);
	if (!e && cli_option(call, "history"))
		e = report_history(c, one->name);
	rt_classes_free(&classes);
	return e;
}

const struct cli_command cmd_judge_list = {
	.group = "Office",
	.name = "judge list",
	.args = "[CLASS]",
	.summary = "List who judges and who writes, position by position.",
	.example = "--show spring.show judge list 3",
	.old_option = {{"history", NULL, "all that were ever named in the class", false}},
	.old_max_args = 1,
	.old_run = judge_list,
};
