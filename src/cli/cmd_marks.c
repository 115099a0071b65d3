/* mark import and penalty add.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* ---- mark import ------------------------------------------------------------------------- */

/* What marks of a show are checked against. */
struct sheets {
	struct rt_classes classes;
	struct rt_items *items;	    /* by class */
	struct rt_entries *entries; /* by class */
	struct rt_roster_classes list;
	bool *touched; /* by class: whether a mark was put */
};

static void sheets_free(struct sheets *s)
{
	for (size_t i = 0; s->items && i < s->classes.n; i++)
		RT_LIST_FREE(&s->items[i]);
	for (size_t i = 0; s->entries && i < s->classes.n; i++)
		RT_LIST_FREE(&s->entries[i]);
	free(s->items);
	free(s->entries);
	free(s->touched);
	RT_LIST_FREE(&s->list);
	rt_classes_free(&s->classes);
}

static enum rt_err sheets_load(struct cli *c, struct sheets *s)
{
	enum rt_err e = rt_store_classes(c->store, &s->classes, &c->err);
	size_t n = s->classes.n;

	if (e || !n)
		return e;
	s->items = calloc(n, sizeof *s->items);
	s->entries = calloc(n, sizeof *s->entries);
	s->touched = calloc(n, sizeof *s->touched);
	if (!s->items || !s->entries || !s->touched)
		return rt_fail_nomem(&c->err);
	for (size_t i = 0; !e && i < n; i++) {
		const struct rt_class *class_ = &s->classes.at[i];
		struct rt_roster_class *row = RT_LIST_ADD(&s->list);

		if (!row)
			return rt_fail_nomem(&c->err);
		*row = (struct rt_roster_class){class_, &s->items[i], &s->entries[i]};
		e = rt_store_items(c->store, class_->test, &s->items[i], &c->err);
		if (!e)
			e = rt_store_entries(c->store, class_->name, &s->entries[i], &c->err);
	}
	return e;
}

/* How many marks came to what end. */
struct mark_count {
	size_t added, same, changed;
};

struct mark_import {
	const char *path;
	struct rt_pass pass;
	struct sheets sheets;
	struct mark_count count;
	bool force;
	const struct rt_entry *entry; /* whose sheet was looked at last */
	const struct rt_judge *judge;
	char own[4 * RT_NAME_MOST + 60]; /* a sheet whose other keying is by the same person */
};

/* Two keyings want two people: look who keyed this sheet before, until one is found. */
static enum rt_err look_who_keyed(struct cli *c, struct mark_import *in,
				  const struct rt_class *class_, const struct rt_entry *entry,
				  const struct rt_judge *judge)
{
	struct rt_strings people = {0};
	enum rt_err e;

	if (!in->pass.who || *in->own || (in->entry == entry && in->judge == judge))
		return RT_OK;
	in->entry = entry;
	in->judge = judge;
	e = rt_store_sheet_people(c->store, entry->id, judge->id, RT_KEYINGS + 1 - in->pass.keying,
				  &people, &c->err);
	for (size_t i = 0; i < people.n; i++)
		if (rt_same_name(people.at[i], in->pass.who))
			snprintf(in->own, sizeof in->own, "class %s, number %" PRId64 ", judge %s",
				 class_->name, entry->number, judge->position);
	RT_LIST_FREE(&people);
	return e;
}

static enum rt_err put_mark(struct cli *c, struct mark_import *in, const struct rt_mark_row *row)
{
	const struct rt_roster_class *sheet = &in->sheets.list.at[row->sheet_class];
	const struct rt_entry *entry = &sheet->entries->at[row->entry];
	const struct rt_judge *judge = &sheet->class_->judges.at[row->judge];
	int64_t item = row->kind == RT_MARK_ITEM ? sheet->items->at[row->item].id : 0;
	enum rt_mark_put what;
	enum rt_err e = rt_store_mark_put(c->store, entry->id, judge->id, item, row->kind,
					  row->value, row->remark, &what, &c->err);

	if (e)
		return e;
	in->count.added += what == RT_MARK_NEW;
	in->count.same += what == RT_MARK_SAME;
	in->count.changed += what == RT_MARK_CHANGED;
	in->sheets.touched[row->sheet_class] |= what != RT_MARK_SAME;
	return look_who_keyed(c, in, sheet->class_, entry, judge);
}

/* Read the whole file, and call `each` (NULL: none) on every row without a fault. */
static enum rt_err read_marks(struct cli *c, struct mark_import *in,
			      enum rt_err (*each)(struct cli *c, struct mark_import *in,
						  const struct rt_mark_row *row))
{
	const struct rt_roster roster = {.sheets = &in->sheets.list};
	struct rt_mark_reader *reader;
	struct rt_mark_row row;
	enum rt_err e = rt_mark_reader_open(&reader, in->path, &roster, &c->faults, &c->err);
	bool got = reader != NULL;

	while (!e && got) {
		e = rt_mark_reader_next(reader, &row, &got, &c->faults, &c->err);
		if (!e && got && each)
			e = each(c, in, &row);
	}
	rt_mark_reader_close(reader);
	return e;
}

/* Read the file for its faults, so that one with any leaves the show untouched.  A pipe can be
 * read only once: then the transaction alone undoes what was put. */
static enum rt_err prove_marks(struct cli *c, struct mark_import *in)
{
	struct stat st;
	enum rt_err e;

	if (stat(in->path, &st) == 0 && S_ISFIFO(st.st_mode))
		return RT_OK;
	e = read_marks(c, in, NULL);
	return e ? e : rt_faults_result(&c->faults, &c->err);
}

static enum rt_err put_marks(struct cli *c, struct mark_import *in)
{
	enum rt_err e = rt_store_pass_begin(c->store, &in->pass, &c->err);

	if (!e)
		e = read_marks(c, in, put_mark);
	if (!e && *in->own && !in->force)
		e = rt_fail(
			&c->err, RT_E_INPUT,
			"%s keyed the %s keying of sheets in this file (the first: %s): another "
			"person keys the %s, or --force",
			in->pass.who, in->pass.keying == 1 ? "second" : "first", in->own,
			in->pass.keying == 1 ? "first" : "second");
	return e;
}

static void report_marks(struct cli *c, const struct mark_import *in)
{
	static const struct rt_field columns[] = {
		{"keying", "keying", RT_INT, RT_NO_UNIT, 0, false},
		{"added", "added", RT_INT, RT_NO_UNIT, 0, false},
		{"same", "there already", RT_INT, RT_NO_UNIT, 0, false},
		{"changed", "changed", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "imported", "Marks imported", columns, 4);

	rt_put_int(t, in->pass.keying);
	rt_put_int(t, (int64_t)in->count.added);
	rt_put_int(t, (int64_t)in->count.same);
	rt_put_int(t, (int64_t)in->count.changed);
	if (in->count.changed)
		rt_report_note(&c->report,
			       "%zu box%s said something else before in this keying: the new mark "
			       "counts, the old one stays in the file's history.",
			       in->count.changed, in->count.changed == 1 ? "" : "es");
	if (*in->own)
		rt_report_note(&c->report,
			       "Both keyings of some sheets are by %s (the first: %s): forced, and "
			       "kept so.",
			       in->pass.who, in->own);
}

/* A path may hold any bytes; one that is no plain text is not kept. */
static const char *kept_path(const char *path)
{
	return rt_plain_text(path, strlen(path)) == RT_PLAIN ? path : NULL;
}

static enum rt_err mark_import(struct cli *c, const struct cli_call *call)
{
	const char *keying = cli_option(call, "keying");
	struct mark_import in = {.path = call->arg[0]};
	int64_t which = 1;
	enum rt_err e = RT_OK;

	if (keying)
		e = cli_whole(c, "--keying", keying, 1, RT_KEYINGS, &which);
	in.pass = (struct rt_pass){(int)which, cli_option(call, "by"), c->when, kept_path(in.path),
				   cli_option(call, "why")};
	in.force = cli_option(call, "force") != NULL;
	if (!e)
		e = cli_reasons(c, call);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = sheets_load(c, &in.sheets);
	/* Read twice rather than kept: memory does not grow with the file. */
	if (!e)
		e = prove_marks(c, &in);
	if (!e)
		e = put_marks(c, &in);
	if (!e)
		report_marks(c, &in);
	for (size_t i = 0; !e && i < in.sheets.classes.n; i++)
		if (in.sheets.touched[i])
			e = CLI_OLD(c, cli_note_posted(c, in.sheets.classes.at[i].name));
	sheets_free(&in.sheets);
	return e;
}

const struct cli_command cmd_mark_import = {
	.group = "Marks",
	.name = "mark import",
	.args = "FILE.csv [--keying 1|2]",
	.summary = "Put marks into the show, as the first or the second keying.",
	.details =
		"A total is the sum a person wrote on the sheet: compared, never used. All of the file is\n"
		"taken, or nothing. The second keying is for another person than the first.",
	.example = "--show spring.show mark import marks-keying1.csv --keying 1",
	.old_option = {{"keying", "1|2", "which keying this is; 1 unless given", false},
		       {"by", "WHO", "who keyed it", false},
		       {"why", "TEXT", "why marks change, when they do", false},
		       {"force", NULL, "both keyings by one person", false}},
	.files = (const struct rt_record *const[]){&rt_mark_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = mark_import,
};

/* ---- penalty add ------------------------------------------------------------------------- */

static enum rt_err read_penalty(struct cli *c, const struct cli_call *call, struct rt_penalty *p)
{
	const char *points = cli_option(call, "points"), *errors = cli_option(call, "errors");
	bool eliminated = cli_option(call, "eliminated") != NULL;

	*p = (struct rt_penalty){.errors = -1,
				 .article = cli_option(call, "article"),
				 .why = cli_option(call, "why"),
				 .who = cli_option(call, "by"),
				 .when = c->when};
	if ((points != NULL) + (errors != NULL) + eliminated != 1 &&
	    (points || errors || eliminated || !p->article))
		return rt_fail(&c->err, RT_E_USAGE,
			       "penalty add wants one of --points P, --errors N, --eliminated, or "
			       "--article NAME that says what it costs");
	if (points && (!rt_parse_decimal(points, 2, &p->points_x100) || p->points_x100 == 0 ||
		       llabs(p->points_x100) > RT_PENALTY_MOST_X100))
		return rt_fail(
			&c->err, RT_E_USAGE,
			"--points: \"%s\": points up to %d with at most two decimals, negative "
			"to take some back",
			points, RT_PENALTY_MOST_X100 / 100);
	if (errors && cli_whole(c, "--errors", errors, 0, 9, &p->errors))
		return c->err.code;
	return cli_reasons(c, call);
}

static void report_penalty(struct cli *c, const char *class_name, const struct rt_penalty *p,
			   bool eliminated)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"points", "points", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"errors", "errors of course", RT_INT, RT_NO_UNIT, 0, false},
		{"eliminated", "eliminated", RT_BOOL, RT_NO_UNIT, 0, false},
		{"article", "article", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "penalty", "Penalty kept", columns, 7);

	rt_put_text(t, class_name);
	rt_put_int(t, p->number);
	if (p->points_x100)
		rt_put_decimal(t, p->points_x100, 2);
	else
		rt_put_null(t);
	if (p->errors >= 0)
		rt_put_int(t, p->errors);
	else
		rt_put_null(t);
	rt_put_bool(t, eliminated);
	rt_put_text(t, p->article);
	rt_put_text(t, p->why);
}

struct penalty_add {
	const char *class_name;
	struct rt_penalty penalty;
	bool eliminated, by_article; /* the article says what it costs */
};

static enum rt_err put_penalty(struct cli *c, struct penalty_add *in)
{
	struct rt_penalty *p = &in->penalty;
	enum rt_err e = RT_OK;

	if (in->by_article)
		e = cli_article_cost(c, in->class_name, p, &in->eliminated);
	if (!e && in->eliminated)
		return rt_store_status_put(c->store, in->class_name, p->number, RT_ELIMINATED,
					   p->why ? p->why : p->article, p->who, p->when, &c->err);
	return e ? e : rt_store_penalty_put(c->store, in->class_name, p, &c->err);
}

/* The rule may let errors of course eliminate: then the errors said more than their points.  A
 * class that cannot be added up, as it has no rule, has nothing to tell. */
static void note_eliminated(struct cli *c, const char *class_name, int64_t number)
{
	struct rt_class_book book = {0};
	struct rt_results r = {0};
	struct rt_error err = {.code = RT_OK};
	enum rt_err e = rt_store_class_book(c->store, class_name, &book, &err);

	if (!e)
		e = rt_results_make(&r, &book.marks, &err);
	for (size_t i = 0; i < r.n && !e; i++)
		if (r.at[i].entry->number == number && r.at[i].entry->status == RT_ENTERED &&
		    r.at[i].status == RT_ELIMINATED)
			rt_report_note(&c->report, "Number %" PRId64 " is eliminated: %s.", number,
				       r.at[i].status_why);
	rt_results_free(&r);
	rt_class_book_free(&book);
}

static enum rt_err penalty_add(struct cli *c, const struct cli_call *call)
{
	struct penalty_add in = {.class_name = call->arg[0],
				 .eliminated = cli_option(call, "eliminated") != NULL};
	enum rt_err e = read_penalty(c, call, &in.penalty);

	in.by_article = !in.eliminated && !cli_option(call, "points") &&
			!cli_option(call, "errors");
	if (!e)
		e = cli_whole(c, "number", call->arg[1], 1, 99999, &in.penalty.number);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_penalty(c, &in);
	if (!e)
		report_penalty(c, in.class_name, &in.penalty, in.eliminated);
	if (!e && in.penalty.errors >= 0)
		note_eliminated(c, in.class_name, in.penalty.number);
	if (!e)
		e = CLI_OLD(c, cli_note_posted(c, in.class_name));
	return e;
}

const struct cli_command cmd_penalty_add = {
	.group = "Marks",
	.name = "penalty add",
	.args = "CLASS NUMBER (--article NAME | --errors N | --points P | --eliminated)",
	.summary = "Keep errors of course, penalty points or an elimination.",
	.details =
		"--errors says how many errors of course there were in all, as announced; when the\n"
		"sheet shows errors too the larger number counts, never both. --points are added to\n"
		"those kept before, up to 500 together; a negative number takes some back. --article alone\n"
		"takes what it costs the first, second or third time from the table that penalty\n"
		"articles shows; with one of the others it is only kept beside it.",
	.example = "--show spring.show penalty add 1 14 --article \"groom dismounts\"",
	.old_option = {{"errors", "N", "errors of course in all", false},
		       {"points", "P", "penalty points", false},
		       {"eliminated", NULL, "the entry is eliminated", false},
		       {"article", "TEXT", "the article of the rules", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = penalty_add,
};
