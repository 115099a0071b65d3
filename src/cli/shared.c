/* What command files share: the show file, the shipped rows, the roster of names.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* What is wrong with a text, or NULL. */
static const char *text_trouble(const char *typed, size_t most, bool needed)
{
	switch (rt_plain_text(typed, strlen(typed))) {
	case RT_PLAIN:
		break;
	case RT_PLAIN_NOT_UTF8:
		return "is not UTF-8";
	case RT_PLAIN_CONTROL:
	case RT_PLAIN_NUL:
		return "holds a control character";
	}
	if (strpbrk(typed, "\n\t"))
		return "holds a line break or a tab";
	if (needed && !typed[strspn(typed, " ")])
		return "is empty";
	return rt_characters(typed) > most ? "is too long" : NULL;
}

enum rt_err cli_text(struct cli *c, const char *what, const char *typed, size_t most, bool needed)
{
	const char *trouble = typed ? text_trouble(typed, most, needed) : NULL;

	if (!trouble)
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "%s %s: plain text on one line, in UTF-8, of at most %zu characters", what,
		       trouble, most);
}

enum rt_err cli_reasons(struct cli *c, const struct cli_call *call)
{
	enum rt_err e = cli_text(c, "--why", cli_option(call, "why"), CLI_TEXT_MOST, false);

	if (!e)
		e = cli_text(c, "--article", cli_option(call, "article"), CLI_TEXT_MOST, false);
	return e ? e : cli_text(c, "--by", cli_option(call, "by"), RT_NAME_MOST, false);
}

enum rt_err cli_typed_name(struct cli *c, const char *what, const char *typed, bool needed,
			   struct rt_arena **text, const char **out)
{
	enum rt_err e = cli_text(c, what, typed, RT_NAME_MOST, needed);
	size_t n;

	if (e)
		return e;
	typed += strspn(typed, " ");
	for (n = strlen(typed); n && typed[n - 1] == ' '; n--)
		;
	*out = n ? rt_arena_copy(text, typed, n) : NULL;
	return n && !*out ? rt_fail_nomem(&c->err) : RT_OK;
}

enum rt_err cli_name_option(struct cli *c, const struct cli_call *call, const char *option,
			    bool needed, struct rt_arena **text, const char **field)
{
	const char *typed = cli_option(call, option);
	char what[40];

	if (!typed)
		return RT_OK;
	snprintf(what, sizeof what, "--%s", option);
	return cli_typed_name(c, what, typed, needed, text, field);
}

void cli_name(struct cli_names *names, const char *name)
{
	size_t used = strlen(names->text), room = sizeof names->text - used;
	const char *comma = used ? ", " : "";

	names->n++;
	if (names->cut)
		return;
	names->cut = strlen(name) + sizeof ", , ..." > room;
	snprintf(names->text + used, room, "%s%s", comma, names->cut ? "..." : name);
}

enum rt_err cli_show_path(struct cli *c)
{
	if (c->show_path)
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "which show? Give --show FILE before the command, or set RINGTRUE_SHOW");
}

enum rt_err cli_store_open(struct cli *c, bool writing)
{
	enum rt_err e = cli_show_path(c);

	if (e || c->store)
		return e;
	return rt_store_open(&c->store, c->show_path, writing, &c->err);
}

enum rt_err cli_begin(struct cli *c)
{
	enum rt_err e = rt_store_begin(c->store, &c->err);

	c->writing = !e;
	return e;
}

enum rt_err cli_store(struct cli *c, bool writing)
{
	enum rt_err e;

	if (c->store)
		return RT_OK;
	e = cli_store_open(c, writing);
	if (e)
		return e;
	return writing ? cli_begin(c) : rt_store_begin_reading(c->store, &c->err);
}

enum rt_err cli_end(struct cli *c, enum rt_err e)
{
	if (!e && c->writing)
		e = rt_store_commit(c->store, &c->err);
	else if (c->store)
		rt_store_rollback(c->store);
	c->writing = false;
	return e;
}

/* Where the shipped rows lie: the folder that was asked for, or the installed one. */
static const char *data_folder(void)
{
	const char *asked = getenv("RINGTRUE_DATA");

	return asked && *asked ? asked : RT_DATA_FOLDER;
}

/* The path of a shipped file, written into path. */
static const char *data_file(char path[static 4096], const char *name)
{
	snprintf(path, 4096, "%s/%s", data_folder(), name);
	return path;
}

enum rt_err cli_data_rows(struct cli *c, struct rt_shipped *out)
{
	const struct rt_roster roster = {.gaits = &out->gaits};
	struct rt_faults *faults = &c->faults;
	char path[4096];
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = rt_read_ring_kinds(&out->kinds, data_file(path, "rings.csv"), faults, &c->err);
	if (!e)
		e = rt_read_gaits(&out->gaits, data_file(path, "gaits.csv"), faults, &c->err);
	if (!e)
		e = rt_read_levels(&out->levels, data_file(path, "levels.csv"), &roster, faults,
				   &c->err);
	if (!e)
		e = rt_read_rules(&out->rules, data_file(path, "rules.csv"), faults, &c->err);
	if (!e)
		e = rt_read_articles(&out->articles, data_file(path, "articles.csv"),
				     &(const struct rt_roster){.rules = &out->rules}, faults,
				     &c->err);
	if (!e)
		e = rt_read_turnouts(&out->turnouts, data_file(path, "turnouts.csv"), faults,
				     &c->err);
	return e ? e : rt_faults_result(faults, &c->err);
}

enum rt_err cli_footing_rules(struct cli *c, const char *file, struct rt_footing_rules *out)
{
	char path[4096];
	enum rt_err e = rt_read_footing_rules(out, file ? file : data_file(path, "footing.csv"),
					      &c->faults, &c->err);

	return e ? e : rt_faults_result(&c->faults, &c->err);
}

enum rt_err cli_rows(struct cli *c, struct rt_shipped *out)
{
	enum rt_err e;

	if (!c->show_path)
		return cli_data_rows(c, out);
	memset(out, 0, sizeof *out);
	e = cli_store(c, false);
	return e ? e : rt_store_shipped(c->store, out, &c->err);
}

void cli_report_import(struct cli *c, const char *what, const struct rt_import_count *count)
{
	static const struct rt_field columns[] = {
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"added", "added", RT_INT, RT_NO_UNIT, 0, false},
		{"same", "there already", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "imported", "Imported", columns, 3);

	rt_put_text(t, what);
	rt_put_int(t, (int64_t)count->added);
	rt_put_int(t, (int64_t)count->same);
	if (!count->added)
		rt_report_note(&c->report, "Nothing was added: all of it is in the show already.");
}

enum rt_err cli_roster(struct cli *c, struct cli_roster *out)
{
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = rt_store_shipped(c->store, &out->rows, &c->err);
	if (!e)
		e = rt_store_rings(c->store, &out->rings, &c->err);
	if (!e)
		e = rt_store_tests(c->store, &out->tests, &c->err);
	if (!e)
		e = rt_store_classes(c->store, &out->classes, &c->err);
	out->roster = (struct rt_roster){
		.kinds = &out->rows.kinds,
		.levels = &out->rows.levels,
		.gaits = &out->rows.gaits,
		.rules = &out->rows.rules,
		.rings = &out->rings,
		.tests = &out->tests,
		.classes = &out->classes,
	};
	return e;
}

enum rt_err cli_note_posted(struct cli *c, const char *class_name)
{
	struct rt_posting latest = {0};
	bool found;
	enum rt_err e = rt_store_posting_latest(c->store, class_name, &latest, &found, &c->err);

	if (!e && found)
		rt_report_note(&c->report,
			       "Class %s was posted: look at its results, and post it again.",
			       class_name);
	rt_posting_free(&latest);
	return e;
}

const struct rt_test *cli_test_named(const struct rt_tests *tests, const char *name)
{
	for (size_t i = 0; i < tests->n; i++)
		if (strcmp(tests->at[i].name, name) == 0)
			return &tests->at[i];
	return NULL;
}

const char *cli_level_of(const struct rt_class *class_, const struct rt_tests *tests)
{
	const struct rt_test *test = cli_test_named(tests, class_->test);

	return class_->level || !test ? class_->level : test->level;
}

const char *cli_rule_of(const struct rt_class *class_, const struct rt_tests *tests)
{
	const struct rt_test *test = cli_test_named(tests, class_->test);

	return class_->rule || !test ? class_->rule : test->rule;
}

void cli_roster_free(struct cli_roster *r)
{
	rt_shipped_free(&r->rows);
	RT_LIST_FREE(&r->rings);
	RT_LIST_FREE(&r->tests);
	rt_classes_free(&r->classes);
}
