/* class add, change, list and history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* ---- names that must exist --------------------------------------------------------------- */

const struct rt_class *cli_class(struct cli *c, const char *name)
{
	const struct rt_classes *classes = cli_classes(c);

	for (size_t i = 0; i < classes->n; i++)
		if (strcmp(classes->at[i].name, name) == 0)
			return &classes->at[i];
	cli_unknown(c, &rt_class_record, classes->at, classes->n, name, NULL,
		    "there is no class %s in the show", name);
	return NULL;
}

/* Whether name (NULL: none) is that of one of n rows, whose column of the record's own name it is;
 * otherwise: where they are to be found. */
static void must_be_known(struct cli *c, const struct rt_record *r, const void *rows, size_t n,
			  const char *name, const char *otherwise)
{
	const char *key = (const char *)rows + rt_record_field(r, r->name)->offset;
	bool known = !name || c->err.code;

	for (size_t i = 0; i < n && !known; i++)
		known = strcmp(*(const char *const *)(key + i * r->size), name) == 0;
	if (known)
		return;
	cli_unknown(c, r, rows, n, name, otherwise, "unknown %s \"%s\"", r->name, name);
	if (c->err.code == RT_E_NOTFOUND)
		c->err.code = RT_E_USAGE;
}

/* The ring's name is then as the show has it. */
static void check_names(struct cli *c, struct rt_class *k)
{
	const struct rt_roster *r = cli_roster(c, true);
	const struct rt_ring *ring = k->ring ? cli_ring_called(c, k->ring) : NULL;
	const struct rt_ring_kind *kind;

	if (ring)
		k->ring = ring->name;
	must_be_known(c, &rt_test_record, r->tests->at, r->tests->n, k->test,
		      "`test list` lists them");
	must_be_known(c, &rt_ring_record, r->rings->at, r->rings->n, k->ring,
		      "`ring list` lists them, `ring add` adds one");
	must_be_known(c, &rt_rule_record, r->rules->at, r->rules->n, k->rule,
		      "`rule list` lists them");
	/* The level stands in the discipline of the class's ring, else of its test's kind. */
	kind = cli_kind_of(c, k);
	if (k->level && kind)
		cli_level(c, k->level, kind->discipline);
	else
		must_be_known(c, &rt_level_record, r->levels->at, r->levels->n, k->level,
			      "none of the show's levels");
}

static void note_class(struct cli *c, const struct rt_class *k)
{
	if (!cli_rule_of(c, k))
		rt_report_note(&c->report,
			       "Neither class %s nor its test names a rule: its results want one.",
			       k->name);
	cli_note_other_kind(c, k);
	cli_note_positions(c, k);
}

/* ---- class add --------------------------------------------------------------------------- */

static const struct rt_field add_options[] = {CLI_CLASS(struct rt_class, name)};

static void class_add(struct cli *c, const void *typed)
{
	struct rt_class k = *(const struct rt_class *)typed;
	const struct rt_classes one = {.at = &k, .n = 1};
	const struct rt_classes *there;
	struct rt_import_count count = {0};

	k.added = c->when;
	CLI_DO(c, rt_class_read_judges(&k, &c->text, &c->err));
	cli_store(c, true);
	there = cli_classes(c);
	for (size_t i = 0; i < there->n; i++)
		if (strcmp(there->at[i].name, k.name) == 0)
			CLI_FAIL(c, RT_E_INPUT,
				 "class %s is in the show already: `class change` changes it",
				 k.name);
	check_names(c, &k);
	CLI_DO(c, rt_store_classes_put(c->store, &one, &count, &c->faults, &c->err));
	if (!c->err.code) {
		k.level_used = cli_level_of(c, &k);
		k.rule_used = cli_rule_of(c, &k);
		rt_table_title(rt_report_list(&c->report, &rt_class_record, &k, 1), "Class added");
		note_class(c, &k);
	}
	RT_LIST_FREE(&k.judges);
}

const struct cli_command cmd_class_add = {
	.name = "class add",
	.summary = "Put one class into the show.",
	.details = "--level and --rule win over the test's.",
	.example =
		"--show spring.show class add 9 --title \"Open pairs\" --test Larch --judges \"C B\"",
	CLI_OPTIONS(struct rt_class, add_options),
	.record = &rt_class_record,
	.run = class_add,
};

/* ---- class change ------------------------------------------------------------------------ */

struct change {
	struct rt_class k; /* what is typed of it */
	const char *name;
	struct rt_reason reason;
};

static const struct rt_field change_options[] = {
	CLI_CLASS(struct change, name),
	CLI_WHY(struct change, reason.why, 0),
	CLI_BY(struct change, reason.who, 0),
};

struct change_row {
	const char *class_name;
	const struct rt_change *change;
};

#define CHANGE(member) RT_IN(struct change_row, change, struct rt_change, member)

static const struct rt_field changes_fields[] = {
	{"class", RT_AT(struct change_row, class_name)},
	{"field", .head = "what", CHANGE(field)},
	{"was", CHANGE(was)},
	{"became", CHANGE(became)},
};

static const struct rt_record changes_table = RT_TABLE("changes", "Changes kept", changes_fields,
						       struct change_row);

/* The class with what was typed over what it has. */
static void change_fields(struct cli *c, const struct change *o, struct rt_class *k)
{
	const char *names = k->judge_names;

	cli_change(c, k);
	if (!o->k.positions)
		return;
	k->judge_names = NULL;
	CLI_DO(c, rt_class_read_judges(k, &c->text, &c->err));
	k->judge_names = names; /* they stay with their positions */
}

/* What was changed, and who has changed the same before. */
static void report_changes(struct cli *c, const struct change *o, const struct rt_changes *changes)
{
	struct rt_table *t = rt_report_rows(&c->report, &changes_table);
	struct rt_changes history = {0};
	char whose[RT_NAME_MOST * 4 + 16];
	bool marked = false;

	CLI_DO(c, rt_store_class_history(c->store, o->name, &history, &c->err));
	CLI_DO(c, rt_store_class_marked(c->store, o->name, &marked, &c->err));
	snprintf(whose, sizeof whose, "Class %s", o->name);
	for (size_t i = 0; i < changes->n; i++) {
		const char *field = changes->at[i].field;

		rt_put_row(t, &(struct change_row){o->name, &changes->at[i]});
		cli_note_earlier(c, whose, field, &history, o->reason.who);
		if (marked && (strcmp(field, "rule") == 0 || strcmp(field, "judges") == 0))
			rt_report_note(&c->report, "Class %s has marks: look at its results again.",
				       o->name);
	}
	if (!changes->n)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	RT_LIST_FREE(&history);
}

static void class_change(struct cli *c, const void *typed)
{
	const struct change *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	struct rt_changes changes = {0};
	const struct rt_class *was;
	struct rt_class k = {0};

	if (!cli_changes_something(c))
		CLI_FAIL(c, RT_E_USAGE,
			 "class change wants what is to be changed: --title, "
			 "--test, --judges, --level, --ring, --rule or --division");
	cli_store(c, true);
	was = cli_class(c, o->name);
	if (was) {
		k = *was;
		change_fields(c, o, &k);
		check_names(c, &k);
	}
	CLI_DO(c, rt_record_changes(&changes, &rt_class_record, was, &k, &c->err));
	report_changes(c, o, &changes);
	CLI_DO(c, rt_store_class_change(c->store, was, &k, &changes, &reason, &c->err));
	if (!c->err.code)
		note_class(c, &k);
	if (changes.n)
		cli_note_posted(c, o->name);
	if (was && k.judges.at != was->judges.at)
		RT_LIST_FREE(&k.judges);
	RT_LIST_FREE(&changes);
}

const struct cli_command cmd_class_change = {
	.name = "class change",
	.summary = "Change a class.",
	.details =
		"What was there before stays in its history (`class history`). An option with \"\" empties\n"
		"its field. Once the class has marks its test and its judges' positions stay; another\n"
		"of them may preside. `judge name` says who sits there.",
	.example = "--show spring.show class change 3 --division pairs --why \"as announced\"",
	CLI_OPTIONS(struct change, change_options),
	.record = &rt_class_record,
	.left_out = "judge_names",
	.changes = true,
	.table = {&changes_table},
	.run = class_change,
	.lists = true,
};

/* ---- class list and history -------------------------------------------------------------- */

static void class_list(struct cli *c, const void *typed)
{
	const struct rt_classes *classes = cli_classes(c);

	(void)typed;
	rt_report_list(&c->report, &rt_class_record, classes->at, classes->n);
}

const struct cli_command cmd_class_list = {
	.name = "class list",
	.summary = "List the classes of the show.",
	.details =
		"The level and the rule are the class's, else its test's. In CSV it is a file that\n"
		"`class import` reads: level and rule are then the class's own.",
	.example = "--show spring.show class list",
	.table = {&rt_class_record},
	.run = class_list,
};

static void class_history(struct cli *c, const void *typed)
{
	struct rt_changes changes = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_class_history(c->store, CLI_TYPED(typed), &changes, &c->err));
	if (!changes.n) /* one that was removed has a history */
		cli_class(c, CLI_TYPED(typed));
	rt_report_list(&c->report, &cli_history_table, changes.at, changes.n);
	RT_LIST_FREE(&changes);
}

const struct cli_command cmd_class_history = {
	.name = "class history",
	.summary = "What was changed of a class, when, by whom and why.",
	.example = "--show spring.show class history 3",
	CLI_OPTIONS(const char *, cli_class_argument),
	.table = {&cli_history_table},
	.run = class_history,
};
