/* workbook: the whole show as a spreadsheet.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* Everything a workbook is made of; arrays by the show's classes and rings. */
struct papers {
	struct rt_show show;
	struct rt_shipped rows;
	struct rt_rings rings;
	struct rt_classes classes;
	struct rt_class_book *book;
	struct rt_results *results;
	const struct rt_results **listed; /* the classes that can be scored */
	size_t classes_listed;
	struct rt_report *report; /* of the pages */
	struct rt_workbook_page *page;
	size_t pages, pages_max;
	struct rt_arena *text;
};

static void papers_free(struct papers *p)
{
	for (size_t i = 0; p->results && i < p->classes.n; i++)
		rt_results_free(&p->results[i]);
	for (size_t i = 0; p->book && i < p->classes.n; i++)
		rt_class_book_free(&p->book[i]);
	for (size_t i = 0; p->report && i < p->pages_max; i++)
		rt_report_free(&p->report[i]);
	free(p->book);
	free(p->results);
	free(p->listed);
	free(p->report);
	free(p->page);
	rt_show_free(&p->show);
	rt_shipped_free(&p->rows);
	RT_LIST_FREE(&p->rings);
	rt_classes_free(&p->classes);
	rt_arena_free(p->text);
}

static enum rt_err papers_load(struct cli *c, struct papers *p)
{
	enum rt_err e = rt_store_show(c->store, &p->show, &c->err);

	if (!e)
		e = rt_store_shipped(c->store, &p->rows, &c->err);
	if (!e)
		e = rt_store_rings(c->store, &p->rings, &c->err);
	if (!e)
		e = rt_store_classes(c->store, &p->classes, &c->err);
	return e;
}

static enum rt_err papers_make_room(struct cli *c, struct papers *p)
{
	size_t classes = p->classes.n;

	p->pages_max = classes + p->rings.n;
	p->book = calloc(classes + 1, sizeof *p->book);
	p->results = calloc(classes + 1, sizeof *p->results);
	p->listed = calloc(classes + 1, sizeof *p->listed);
	p->report = calloc(p->pages_max + 1, sizeof *p->report);
	p->page = calloc(p->pages_max + 1, sizeof *p->page);
	if (!p->book || !p->results || !p->listed || !p->report || !p->page)
		return rt_fail_nomem(&c->err);
	return RT_OK;
}

/* Score every class; one without a rule is left out and said. */
static enum rt_err score_classes(struct cli *c, struct papers *p)
{
	for (size_t i = 0; i < p->classes.n; i++) {
		const char *name = p->classes.at[i].name;
		enum rt_err e = rt_store_class_book(c->store, name, &p->book[i], &c->err);

		if (!e)
			e = rt_results_make(&p->results[i], &p->book[i].marks, &c->err);
		if (e == RT_E_INPUT) {
			rt_report_note(&c->report, "Class %s is left out: %s.", name, c->err.text);
			continue;
		}
		if (e)
			return e;
		p->listed[p->classes_listed++] = &p->results[i];
	}
	return RT_OK;
}

/* Name the page that was just made in p->report[p->pages], and count it. */
static enum rt_err page_add(struct cli *c, struct papers *p, const char *name, const char *title)
{
	struct rt_workbook_page *page = &p->page[p->pages];

	page->report = &p->report[p->pages];
	p->pages++;
	page->name = rt_arena_string(&p->text, name);
	page->title = rt_arena_string(&p->text, title);
	return page->name && page->title ? rt_report_result(page->report, &c->err)
					 : rt_fail_nomem(&c->err);
}

static enum rt_err turn_page(struct cli *c, struct papers *p, const struct rt_ring_kind *kind,
			     const struct rt_level *level)
{
	const struct rt_turn_options options = {0};
	struct rt_turns turns = {0};
	char name[96], title[160];
	enum rt_err e;

	snprintf(name, sizeof name, "Turns %s %s", level->name, kind->name);
	snprintf(title, sizeof title, "Turns: %s, %s", level->name, kind->name);
	for (size_t i = 0; i < p->pages; i++)
		if (strcmp(p->page[i].name, name) == 0)
			return RT_OK;
	e = rt_turns_make(&turns, kind, level, &p->rows.gaits, &options, &c->err);
	if (!e)
		e = rt_turns_report(&p->report[p->pages], &turns, false, &c->err);
	if (!e)
		e = page_add(c, p, name, title);
	rt_turns_free(&turns);
	return e;
}

/* One turn reference for each level and kind of ring that a class uses. */
static enum rt_err turn_pages(struct cli *c, struct papers *p)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < p->classes.n; i++) {
		const struct rt_class_book *book = &p->book[i];
		const char *name = rt_class_ring_kind(&p->classes.at[i], &p->rings, &book->tests),
			   *level_name = p->classes.at[i].level;
		const struct rt_ring_kind *kind = NULL;
		const struct rt_level *level = NULL;

		if (!level_name && book->tests.n)
			level_name = book->tests.at[0].level;
		if (name)
			kind = rt_ring_kind_find(&p->rows.kinds, name);
		if (kind && level_name)
			level = rt_level_find(&p->rows.levels, level_name, kind->discipline);
		if (level)
			e = turn_page(c, p, kind, level);
	}
	return e;
}

static enum rt_err check_page(struct cli *c, struct papers *p, const struct rt_ring *ring)
{
	const struct rt_ring_kind *kind = rt_ring_kind_find(&p->rows.kinds, ring->kind);
	struct rt_stored_check stored = {0};
	char name[96], title[160];
	bool found = false;
	enum rt_err e = rt_store_check_latest(c->store, ring->name, &stored, &found, &c->err);

	if (!e && found && kind) {
		snprintf(name, sizeof name, "Ring %s", ring->name);
		snprintf(title, sizeof title, "Ring check: %s (%s), %s", ring->name, ring->kind,
			 stored.when);
		e = cli_check_report(c, &p->report[p->pages], kind, &stored, false);
		if (!e)
			e = page_add(c, p, name, title);
	}
	rt_stored_check_free(&stored);
	return e;
}

static enum rt_err check_pages(struct cli *c, struct papers *p)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < p->rings.n; i++)
		e = check_page(c, p, &p->rings.at[i]);
	return e;
}

/* Programs go by the end of the name. */
static bool is_workbook_name(const char *path)
{
	static const char end[] = ".xlsx";
	size_t n = strlen(path), most = sizeof end - 1;

	return n > most && strcasecmp(path + n - most, end) == 0;
}

struct written_row {
	const char *file;
	size_t classes, pages;
};

static const struct rt_field written_fields[] = {
	{"file", RT_AT(struct written_row, file)},
	{"class_count", .head = "classes", RT_AT(struct written_row, classes), .type = RT_SIZE},
	{"pages", .head = "turn and ring pages", RT_AT(struct written_row, pages), .type = RT_SIZE},
};

static const struct rt_record written_table = RT_TABLE("workbook", "Workbook written",
						       written_fields, struct written_row);

static void report_written(struct cli *c, const struct papers *p, const char *path)
{
	const struct written_row row = {path, p->classes_listed, p->pages};

	rt_report_list(&c->report, &written_table, &row, 1);
	if (!is_workbook_name(path) && strcmp(path, "-") != 0)
		rt_report_note(
			&c->report,
			"Office programs look for a name that ends in .xlsx: this one does not.");
}

static enum rt_err workbook(struct cli *c, const struct cli_call *call)
{
	const char *path = call->arg[0];
	struct rt_outfile *file = NULL;
	struct papers p = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = papers_load(c, &p);
	if (!e)
		e = papers_make_room(c, &p);
	if (!e)
		e = score_classes(c, &p);
	if (!e)
		e = turn_pages(c, &p);
	if (!e)
		e = check_pages(c, &p);
	if (!e) {
		const struct rt_workbook w = {p.show.title,	p.show.day, c->when, p.listed,
					      p.classes_listed, p.page,	    p.pages};

		e = cli_output_open(c, path, RT_FILE_WORKBOOK, &file);
		if (!e)
			e = rt_workbook_write(file, &w, &c->err);
		e = cli_output_end(c, path, file, e);
	}
	if (!e)
		report_written(c, &p, path);
	papers_free(&p);
	return e;
}

const struct cli_command cmd_workbook = {
	.group = "Papers",
	.name = "workbook",
	.args = "FILE.xlsx|-",
	.summary = "Write the show as a spreadsheet with live formulas.",
	.details =
		"Entries, the marks of each class (changing a mark changes the result), results, a turn\n"
		"reference for each level used, and the latest check of each ring. The same show and\n"
		"--date give the same file.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show workbook spring.xlsx",
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&written_table},
	.old_run = workbook,
};
