/* class remove, merge and split: classes that go, come together or come apart.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

/* ---- classes that go --------------------------------------------------------------------- */

/* A class whose entries went elsewhere, or that was a mistake. */
static void remove_class(struct cli *c, const char *name, const char *became,
			 const struct rt_reason *reason)
{
	CLI_DO(c, rt_store_class_remove(c->store, name, became, reason, &c->err));
}

struct remove {
	const char *class_name;
	struct rt_reason reason;
};

static const struct rt_field remove_options[] = {
	CLI_CLASS(struct remove, class_name),
	CLI_WHY(struct remove, reason.why, 0),
	CLI_BY(struct remove, reason.who, 0),
};

struct removed_row {
	const char *class_name, *became;
};

static const struct rt_field removed_fields[] = {
	{"class", RT_AT(struct removed_row, class_name)},
	{"became", RT_AT(struct removed_row, became)},
};

static const struct rt_record removed_table = RT_TABLE("removed", "Classes removed", removed_fields,
						       struct removed_row);

static void class_remove(struct cli *c, const void *typed)
{
	const struct remove *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	const struct rt_entries *entries;
	bool marked = false;
	size_t left = 0;

	cli_store(c, true);
	cli_class(c, o->class_name);
	entries = cli_entries(c);
	CLI_DO(c, rt_store_class_marked(c->store, o->class_name, &marked, &c->err));
	if (marked)
		CLI_FAIL(c, RT_E_INPUT, "class %s has marks: it stays", o->class_name);
	for (size_t i = 0; i < entries->n; i++)
		left += strcmp(entries->at[i].class_name, o->class_name) == 0 &&
			entries->at[i].status != RT_WITHDRAWN;
	if (left)
		CLI_FAIL(c, RT_E_INPUT,
			 "class %s has %zu entr%s that %s not withdrawn: `class merge` or "
			 "`entry move` puts them into another, `entry status` withdraws them",
			 o->class_name, left, left == 1 ? "y" : "ies", left == 1 ? "is" : "are");
	remove_class(c, o->class_name, "removed", &reason);
	rt_report_list(&c->report, &removed_table,
		       &(struct removed_row){o->class_name, "removed"}, 1);
}

const struct cli_command cmd_class_remove = {
	.name = "class remove",
	.summary = "Take a class out of the show.",
	.details =
		"Only a class without marks whose entries are all withdrawn or moved. Its history stays\n"
		"(`class history`), and its name is not given again.",
	CLI_OPTIONS(struct remove, remove_options),
	.table = {&removed_table},
	.run = class_remove,
	.lists = true,
};

/* ---- entries that go along --------------------------------------------------------------- */

/* Entries on their way between classes. */
struct going {
	const struct rt_reason *reason;
	struct rt_table *table;	   /* of who went where */
	struct rt_entries touched; /* as they are in their new classes */
};

/* Whether an entry is only what was left of one that was moved before. */
static bool is_left(const struct rt_entry *e)
{
	return e->status == RT_WITHDRAWN && e->status_why &&
	       strncmp(e->status_why, RT_MOVED_TO, strlen(RT_MOVED_TO)) == 0;
}

static void go(struct cli *c, struct going *g, const struct rt_entry *entry,
	       const struct rt_class *from, const struct rt_class *to)
{
	struct rt_entry there = *entry;
	struct cli_moved moved = {0};

	cli_entry_move(c, entry, from, to, 0, g->reason, &moved);
	if (c->err.code)
		return;
	if (!g->table)
		g->table = rt_report_rows(&c->report, &cli_moved_table);
	rt_put_row(g->table, &moved);
	there.class_name = to->name;
	there.number = moved.to_number;
	CLI_ADD(c, &g->touched, there);
}

static void end_going(struct cli *c, struct going *g)
{
	cli_note_entries(c, &g->touched);
	RT_LIST_FREE(&g->touched);
}

/* Its draw and its times were of a class that is no more. */
static void note_drawn(struct cli *c, const char *name)
{
	struct rt_draw_places places = {0};
	bool timed = false;

	CLI_DO(c, rt_store_draw_places(c->store, name, &places, &c->err));
	CLI_DO(c, rt_store_class_timed(c->store, name, &timed, &c->err));
	if (places.n || timed)
		rt_report_note(&c->report,
			       "Class %s had %s: its entries are to be drawn and planned anew.", name,
			       timed ? "start times" : "a draw");
	RT_LIST_FREE(&places);
}

/* ---- class merge ------------------------------------------------------------------------- */

struct merge {
	struct rt_strings classes;
	const char *into;
	struct rt_reason reason;
};

static const struct rt_field merge_options[] = {
	{"class", RT_AT(struct merge, classes), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	{"into", RT_AT(struct merge, into), .head = "CLASS", .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "the class that they go into"},
	CLI_WHY(struct merge, reason.why, 0),
	CLI_BY(struct merge, reason.who, 0),
};

/* Marks are of a test: they could not go along into a class with another. */
static void check_merge(struct cli *c, const struct rt_class *from, const struct rt_class *into)
{
	bool marked = false;

	CLI_DO(c, rt_store_class_marked(c->store, from->name, &marked, &c->err));
	if (marked && strcmp(from->test, into->test) != 0)
		CLI_FAIL(c, RT_E_INPUT,
			 "class %s has marks of test %s, and class %s has test %s: they cannot be "
			 "merged",
			 from->name, from->test, into->name, into->test);
}

static void merge_one(struct cli *c, struct going *g, const char *name, const struct rt_class *into)
{
	const struct rt_entries *entries = cli_entries(c);
	const struct rt_class *from = cli_class(c, name);
	char became[RT_NAME_MOST * 4 + 24];

	if (!from || !into || from == into)
		return;
	check_merge(c, from, into);
	for (size_t i = 0; i < entries->n && !c->err.code; i++)
		if (strcmp(entries->at[i].class_name, name) == 0 && !is_left(&entries->at[i]))
			go(c, g, &entries->at[i], from, into);
	snprintf(became, sizeof became, "merged into %s", into->name);
	note_drawn(c, name);
	remove_class(c, name, became, g->reason);
}

static void class_merge(struct cli *c, const void *typed)
{
	const struct merge *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	struct going g = {.reason = &reason};
	const struct rt_class *into;

	cli_store(c, true);
	into = cli_class(c, o->into);
	for (size_t i = 0; i < o->classes.n && !c->err.code; i++)
		merge_one(c, &g, o->classes.at[i], into);
	if (!c->err.code)
		cli_note_anew(c, o->into);
	end_going(c, &g);
}

const struct cli_command cmd_class_merge = {
	.name = "class merge",
	.summary = "Put the entries of classes together into one.",
	.details =
		"Every entry goes as with `entry move`, and the class that it leaves is removed with its\n"
		"history. Marks go along where the test is the same; where it is not a class with marks\n"
		"is refused.",
	CLI_OPTIONS(struct merge, merge_options),
	.table = {&cli_moved_table},
	.run = class_merge,
	.lists = true,
};

/* ---- class split ------------------------------------------------------------------------- */

#define PARTS_MOST 26 /* as many as there are letters for their names */

struct split {
	const char *class_name, *names;
	const char *by, *who; /* by: "division", or who says so */
	int64_t into;
	const char *why;
};

static const struct rt_field split_options[] = {
	CLI_CLASS(struct split, class_name),
	{"into", RT_AT(struct split, into), .head = "N", .type = RT_INT, .low = 2,
	 .high = PARTS_MOST, .help = "so many classes, by number, as equal as can be"},
	{"by", RT_AT(struct split, by), .head = "division|WHO", .type = RT_NAME,
	 .help = "division: a class for each division of its entries; else who says so"},
	{"who", RT_AT(struct split, who), .type = RT_NAME,
	 .help = "who says so, where it is by division: kept with it"},
	{"names", RT_AT(struct split, names), .head = "\"NAME; ...\"", .type = RT_NAMES,
	 .help = "what they are called, in order; unless given the name with a, b ..."},
	CLI_WHY(struct split, why, 0),
};

/* What a class comes apart into. */
struct parts {
	struct rt_class part[PARTS_MOST];
	const char *division[PARTS_MOST]; /* by division: whose part it is */
	size_t n;
	struct rt_strings names; /* that were typed for them */
};

static const char *division_of(const struct rt_entry *e, const struct rt_class *of)
{
	return e->division ? e->division : of->division;
}

/* The part of a division, a new one where it is the first of it. */
static size_t part_of(struct cli *c, struct parts *p, const struct rt_entry *e,
		      const struct rt_class *of)
{
	const char *division = division_of(e, of);
	size_t i = 0;

	if (!division) {
		CLI_FAIL(c, RT_E_INPUT, "number %lld of class %s has no division",
			 (long long)e->number, of->name);
		return 0;
	}
	while (i < p->n && !rt_same_name(p->division[i], division))
		i++;
	if (i == PARTS_MOST) {
		CLI_FAIL(c, RT_E_INPUT, "class %s has more than %d divisions", of->name, PARTS_MOST);
		return 0;
	}
	if (i == p->n)
		p->division[p->n++] = division;
	return i;
}

/* Which part each of n entries goes into, from 0. */
static void deal(struct cli *c, struct parts *p, const struct split *o, const struct rt_class *of,
		 const struct rt_entry *const *entry, size_t n, size_t *part)
{
	bool by_division = !o->into;

	if (!by_division)
		p->n = (size_t)o->into;
	for (size_t i = 0; i < n && !c->err.code; i++)
		part[i] = by_division ? part_of(c, p, entry[i], of) : i * p->n / n;
	if (!c->err.code && by_division && p->n < 2)
		CLI_FAIL(c, RT_E_INPUT, "the entries of class %s are all of one division", of->name);
	if (!c->err.code && n < p->n)
		CLI_FAIL(c, RT_E_INPUT, "class %s has too few entries for %zu classes: %zu",
			 of->name, p->n, n);
}

/* The names of parts: those that were typed, else the class's with a letter. */
static void name_parts(struct cli *c, struct parts *p, const struct split *o,
		       const struct rt_class *of)
{
	if (o->names)
		CLI_DO(c, rt_names_split(&p->names, o->names, &c->err));
	if (o->names && !c->err.code && p->names.n != p->n)
		CLI_FAIL(c, RT_E_USAGE, "--names has %zu name%s for %zu classes", p->names.n,
			 p->names.n == 1 ? "" : "s", p->n);
	for (size_t i = 0; i < p->n && !c->err.code; i++) {
		struct rt_class *part = &p->part[i];
		char letter[] = {(char)('a' + i), '\0'};

		*part = *of;
		part->added = c->when;
		part->name = o->names ? p->names.at[i]
				      : rt_report_textf(&c->report, "%s%s", of->name, letter);
		part->title = rt_report_textf(&c->report, "%s, %s", of->title,
					      p->division[i] ? p->division[i] : part->name);
		part->division = p->division[i] ? p->division[i] : of->division;
		for (size_t k = 0; k < cli_classes(c)->n; k++)
			if (strcmp(cli_classes(c)->at[k].name, part->name) == 0)
				CLI_FAIL(c, RT_E_INPUT,
					 "class %s is in the show already: give other --names",
					 part->name);
	}
}

/* The entries of a class that go along, by number. */
static const struct rt_entry **entries_of(struct cli *c, const char *class_name, size_t *n)
{
	const struct rt_entries *all = cli_entries(c);
	const struct rt_entry **out = cli_array(c, all->n, sizeof(const struct rt_entry *));

	for (size_t i = 0; i < all->n && !c->err.code; i++)
		if (strcmp(all->at[i].class_name, class_name) == 0 && !is_left(&all->at[i]))
			out[(*n)++] = &all->at[i];
	return out;
}

static void split_into_parts(struct cli *c, const struct split *o, const struct rt_class *of,
			     struct going *g)
{
	struct parts p = {.n = 0};
	struct rt_import_count count = {0};
	size_t n = 0;
	const struct rt_entry **entry = entries_of(c, of->name, &n);
	size_t *part = cli_array(c, n, sizeof *part);

	deal(c, &p, o, of, entry, n, part);
	name_parts(c, &p, o, of);
	CLI_DO(c, rt_store_classes_put(c->store, &(struct rt_classes){.at = p.part, .n = p.n},
				       &count, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	if (!c->err.code)
		rt_table_title(rt_report_list(&c->report, &rt_class_record, p.part, p.n),
			       "Classes added");
	for (size_t i = 0; i < n && !c->err.code; i++)
		go(c, g, entry[i], of, &p.part[part[i]]);
	for (size_t i = 0; i < p.n && !c->err.code; i++)
		cli_note_anew(c, p.part[i].name);
	RT_LIST_FREE(&p.names);
}

static void class_split(struct cli *c, const void *typed)
{
	const struct split *o = typed;
	bool by_division = o->by && rt_same_name(o->by, "division");
	const struct rt_reason reason = {by_division ? o->who : o->by, o->why, c->when};
	struct going g = {.reason = &reason};
	const struct rt_class *of;

	if (by_division == (o->into != 0))
		CLI_FAIL(c, RT_E_USAGE, "class split wants --by division, or --into N");
	cli_store(c, true);
	of = cli_class(c, o->class_name);
	if (of)
		split_into_parts(c, o, of, &g);
	if (of && !c->err.code)
		note_drawn(c, of->name);
	remove_class(c, o->class_name, "split", &reason);
	end_going(c, &g);
}

const struct cli_command cmd_class_split = {
	.name = "class split",
	.summary = "Make several classes of one.",
	.details =
		"By division, or into so many by number. The new ones are as the class was, with their\n"
		"own draw and times to be made; every entry goes as with `entry move`, with its marks.\n"
		"The class itself is removed with its history.",
	CLI_OPTIONS(struct split, split_options),
	.table = {&cli_moved_table},
	.run = class_split,
	.lists = true,
};
