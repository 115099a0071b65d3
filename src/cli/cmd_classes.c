/* class add, class change and class history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* ---- names that must exist --------------------------------------------------------------- */

enum rt_err cli_class_named(struct cli *c, const struct rt_classes *classes, const char *name,
			    const struct rt_class **out)
{
	struct rt_strings names = {0};
	const char *nearest;

	for (size_t i = 0; i < classes->n; i++) {
		const char **one = RT_LIST_ADD(&names);

		*out = &classes->at[i];
		if (strcmp((*out)->name, name) == 0) {
			RT_LIST_FREE(&names);
			return RT_OK;
		}
		if (one)
			*one = classes->at[i].name;
	}
	*out = NULL;
	nearest = rt_nearest(name, names.at, names.n);
	(void)rt_fail(&c->err, RT_E_NOTFOUND, "there is no class %s in the show%s%s%s", name,
		      nearest ? ": did you mean \"" : "", nearest ? nearest : "",
		      nearest ? "\"?" : "");
	RT_LIST_FREE(&names);
	return RT_E_NOTFOUND;
}

/* RT_E_NOTFOUND, with the nearest of names or how to list them, unless name is one (or NULL). */
static enum rt_err must_be_known(struct cli *c, const char *what, const char *name,
				 const struct rt_strings *names, const char *where)
{
	const char *nearest;

	for (size_t i = 0; name && i < names->n; i++)
		if (strcmp(names->at[i], name) == 0)
			return RT_OK;
	if (!name)
		return RT_OK;
	nearest = rt_nearest(name, names->at, names->n);
	return rt_fail(&c->err, RT_E_NOTFOUND, "unknown %s \"%s\": %s%s%s", what, name,
		       nearest ? "did you mean \"" : where, nearest ? nearest : "",
		       nearest ? "\"?" : "");
}

/* The same for the `name` of every element of a list. */
#define MUST_BE_KNOWN(c, rc, what, name_, list, where)                                             \
	do {                                                                                       \
		struct rt_strings names_ = {0};                                                    \
                                                                                                   \
		for (size_t i_ = 0; !(rc) && i_ < (list)->n; i_++) {                               \
			const char **one_ = RT_LIST_ADD(&names_);                                  \
                                                                                                   \
			if (one_)                                                                  \
				*one_ = (list)->at[i_].name;                                       \
			else                                                                       \
				(rc) = rt_fail_nomem(&(c)->err);                                   \
		}                                                                                  \
		if (!(rc))                                                                         \
			(rc) = must_be_known((c), what, (name_), &names_, where);                  \
		RT_LIST_FREE(&names_);                                                             \
	} while (0)

/* The level stands in the discipline of the class's ring, else of its test's kind. */
static enum rt_err check_level(struct cli *c, const struct cli_roster *r, const struct rt_class *k)
{
	const char *name = rt_class_ring_kind(k, &r->rings, &r->tests);
	const struct rt_ring_kind *kind = name ? rt_ring_kind_find(&r->rows.kinds, name) : NULL;
	const struct rt_level *level;
	enum rt_err e = RT_OK;

	if (!k->level)
		return RT_OK;
	if (kind)
		return cli_level_named(c, &r->rows.levels, k->level, kind->discipline, &level);
	MUST_BE_KNOWN(c, e, "level", k->level, &r->rows.levels, "none of the show's levels");
	return e;
}

static enum rt_err check_names(struct cli *c, const struct cli_roster *r, const struct rt_class *k)
{
	enum rt_err e = RT_OK;

	MUST_BE_KNOWN(c, e, "test", k->test, &r->tests, "`test list` lists them");
	MUST_BE_KNOWN(c, e, "ring", k->ring, &r->rings,
		      "`ring list` lists them, `ring add` adds one");
	MUST_BE_KNOWN(c, e, "rule", k->rule, &r->rows.rules, "none of the show's rules");
	return e ? e : check_level(c, r, k);
}

/* ---- what was typed ---------------------------------------------------------------------- */

static enum rt_err judges_option(struct cli *c, const struct cli_call *call, struct rt_arena **text,
				 struct rt_class *k)
{
	const char *typed = cli_option(call, "judges"), *names = cli_option(call, "judge-names");
	const char *there = k->judge_names;
	enum rt_err e = typed ? cli_text(c, "--judges", typed, RT_NAME_MOST, true) : RT_OK;

	if (e || !typed)
		return e;
	k->positions = typed;
	k->judge_names = names;
	e = rt_class_read_judges(k, text, &c->err);
	if (!names)
		k->judge_names = there; /* they stay with their positions */
	return e;
}

/* The fields that were typed, over those that the class has; judges that are typed go into an
 * empty list of the caller's. */
static enum rt_err read_fields(struct cli *c, const struct cli_call *call, struct rt_arena **text,
			       struct rt_class *k)
{
	const struct {
		const char *option;
		bool needed;
		const char **field;
	} name[] = {
		{"title", true, &k->title},  {"test", true, &k->test},
		{"level", false, &k->level}, {"ring", false, &k->ring},
		{"rule", false, &k->rule},   {"division", false, &k->division},
	};
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < sizeof name / sizeof *name && !e; i++)
		e = cli_name_option(c, call, name[i].option, name[i].needed, text, name[i].field);
	return e ? e : judges_option(c, call, text, k);
}

static void note_no_rule(struct cli *c, const struct cli_roster *r, const struct rt_class *k)
{
	if (!cli_rule_of(k, &r->tests))
		rt_report_note(&c->report,
			       "Neither class %s nor its test names a rule: its results want one.",
			       k->name);
	cli_note_other_kind(c, r, k);
	cli_note_positions(c, r, k);
}

/* ---- class add --------------------------------------------------------------------------- */

struct class_work {
	const struct cli_call *call;
	struct cli_roster roster; /* before */
	struct rt_class k;	  /* as it is to be */
	struct rt_arena *text;
	struct rt_reason reason;
	struct rt_changes changes;
	bool own_judges, marked;
};

static void class_work_free(struct class_work *w)
{
	if (w->own_judges)
		RT_LIST_FREE(&w->k.judges);
	RT_LIST_FREE(&w->changes);
	cli_roster_free(&w->roster);
	rt_arena_free(w->text);
}

static enum rt_err put_class(struct cli *c, struct class_work *w)
{
	const struct rt_classes one = {.at = &w->k, .n = 1};
	struct rt_import_count count = {0};
	enum rt_err e = CLI_OLD(c, cli_roster(c, &w->roster));

	for (size_t i = 0; i < w->roster.classes.n && !e; i++)
		if (strcmp(w->roster.classes.at[i].name, w->k.name) == 0)
			e = rt_fail(&c->err, RT_E_INPUT,
				    "class %s is in the show already: `class change` changes it",
				    w->k.name);
	if (!e)
		e = check_names(c, &w->roster, &w->k);
	return e ? e : rt_store_classes_put(c->store, &one, &count, &c->faults, &c->err);
}

static void report_class(struct cli *c, const struct class_work *w)
{
	struct rt_class added = w->k;
	struct rt_table *t = rt_report_rows(&c->report, &rt_class_record);

	added.level_used = cli_level_of(&added, &w->roster.tests);
	added.rule_used = cli_rule_of(&added, &w->roster.tests);
	rt_table_title(t, "Class added");
	rt_put_row(t, &added);
	note_no_rule(c, &w->roster, &w->k);
}

static enum rt_err class_add(struct cli *c, const struct cli_call *call)
{
	struct class_work w = {.own_judges = true, .k.added = c->when};
	enum rt_err e = cli_typed_name(c, "the class's name", call->arg[0], true, &w.text,
				       &w.k.name);

	if (!e)
		e = read_fields(c, call, &w.text, &w.k);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_class(c, &w);
	if (!e)
		report_class(c, &w);
	class_work_free(&w);
	return e;
}

const struct cli_command cmd_class_add = {
	.group = "Office",
	.name = "class add",
	.args = "NAME --title T --test TEST --judges \"C B E\"",
	.summary = "Put one class into the show.",
	.details =
		"The judges' positions as in `class import`: C is the president, or the one with a star\n"
		"(\"B* E\"). --level and --rule win over the test's.",
	.example =
		"--show spring.show class add 9 --title \"Open pairs\" --test Larch --judges \"C B\"",
	.old_option = {{"title", "T", "as printed", true},
		       {"test", "TEST", "the test that is driven or ridden", true},
		       {"judges", "\"C B E\"", "where judges sit", true},
		       {"judge-names", "\"A; B\"", "who they are, in that order", false},
		       {"level", "LEVEL", "another than the test's", false},
		       {"ring", "RING", "where it is held", false},
		       {"rule", "RULE", "another than the test's", false},
		       {"division", "D", "of entries that name none", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = class_add,
};

/* ---- class change ------------------------------------------------------------------------ */

/* Who has changed a field before. */
static enum rt_err note_earlier(struct cli *c, const struct class_work *w)
{
	struct rt_changes history = {0};
	char whose[RT_NAME_MOST * 4 + 16];
	enum rt_err e = rt_store_class_history(c->store, w->k.name, &history, &c->err);

	snprintf(whose, sizeof whose, "Class %s", w->k.name);
	for (size_t i = 0; i < w->changes.n && !e; i++)
		cli_note_earlier(c, whose, w->changes.at[i].field, &history, w->reason.who);
	RT_LIST_FREE(&history);
	return e;
}

static enum rt_err put_change(struct cli *c, struct class_work *w)
{
	const struct rt_class *was;
	enum rt_err e = CLI_OLD(c, cli_roster(c, &w->roster));

	if (!e)
		e = cli_class_named(c, &w->roster.classes, w->call->arg[0], &was);
	if (e)
		return e;
	w->k = *was;
	w->own_judges = cli_option(w->call, "judges") != NULL;
	if (w->own_judges)
		w->k.judges = (struct rt_judges){0};
	e = read_fields(c, w->call, &w->text, &w->k);
	if (!e)
		e = check_names(c, &w->roster, &w->k);
	if (!e)
		e = rt_record_changes(&w->changes, &rt_class_record, was, &w->k, &c->err);
	if (!e)
		e = note_earlier(c, w);
	if (!e)
		e = rt_store_class_marked(c->store, w->k.name, &w->marked, &c->err);
	return e ? e
		 : rt_store_class_change(c->store, was, &w->k, &w->changes, &w->reason, &c->err);
}

static void report_change(struct cli *c, const struct class_work *w)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"field", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"became", "became", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "changes", "Changes kept", columns, 4);

	for (size_t i = 0; i < w->changes.n; i++) {
		const struct rt_change *change = &w->changes.at[i];

		rt_put_text(t, w->k.name);
		rt_put_text(t, change->field);
		rt_put_text(t, change->was);
		rt_put_text(t, change->became);
		if (w->marked &&
		    (strcmp(change->field, "rule") == 0 || strcmp(change->field, "judges") == 0))
			rt_report_note(&c->report, "Class %s has marks: look at its results again.",
				       w->k.name);
	}
	if (!w->changes.n)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	note_no_rule(c, &w->roster, &w->k);
}

/* RT_E_USAGE when it was not said what is to be changed. */
static enum rt_err must_change_something(struct cli *c, const struct cli_call *call)
{
	static const char *const fields[] = {"title", "test", "judges",	 "level",
					     "ring",  "rule", "division"};

	for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
		if (cli_option(call, fields[i]))
			return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "class change wants what is to be changed: --title, --test, --judges, "
		       "--level, --ring, --rule or --division");
}

static enum rt_err class_change(struct cli *c, const struct cli_call *call)
{
	struct class_work w = {
		.call = call,
		.reason = {cli_option(call, "by"), cli_option(call, "why"), c->when},
	};
	enum rt_err e = must_change_something(c, call);

	if (!e)
		e = cli_reasons(c, call);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_change(c, &w);
	if (!e)
		report_change(c, &w);
	if (!e && w.changes.n)
		e = CLI_OLD(c, cli_note_posted(c, w.k.name));
	class_work_free(&w);
	return e;
}

const struct cli_command cmd_class_change = {
	.group = "Office",
	.name = "class change",
	.args = "NAME",
	.summary = "Change a class.",
	.details =
		"What was there before stays in its history (`class history`). An option with \"\" empties\n"
		"its field. Once the class has marks its test and its judges' positions stay; another\n"
		"of them may preside. `judge name` says who sits there.",
	.example = "--show spring.show class change 3 --division pairs --why \"as announced\"",
	.old_option = {{"title", "T", "as printed", false},
		       {"test", "TEST", "the test that is driven or ridden", false},
		       {"judges", "\"C B E\"", "where judges sit", false},
		       {"level", "LEVEL", "another than the test's", false},
		       {"ring", "RING", "where it is held", false},
		       {"rule", "RULE", "another than the test's", false},
		       {"division", "D", "of entries that name none", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = class_change,
};

/* ---- class history ----------------------------------------------------------------------- */

static enum rt_err class_history(struct cli *c, const struct cli_call *call)
{
	struct rt_classes classes = {0};
	struct rt_changes changes = {0};
	const struct rt_class *k;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = rt_store_classes(c->store, &classes, &c->err);
	if (!e)
		e = cli_class_named(c, &classes, call->arg[0], &k);
	if (!e)
		e = rt_store_class_history(c->store, k->name, &changes, &c->err);
	if (!e)
		cli_report_changes(c, &changes);
	RT_LIST_FREE(&changes);
	rt_classes_free(&classes);
	return e;
}

const struct cli_command cmd_class_history = {
	.group = "Office",
	.name = "class history",
	.args = "NAME",
	.summary = "What was changed of a class, when, by whom and why.",
	.example = "--show spring.show class history 3",
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = class_history,
};
