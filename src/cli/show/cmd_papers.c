/* workbook: the whole show as a spreadsheet.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>
#include <strings.h>

/* Everything a workbook is made of; arrays by the show's classes and rings. */
struct papers {
	const struct rt_classes *classes;
	struct rt_class_book *book;
	struct rt_results *results;
	const struct rt_results **listed; /* the classes that can be scored */
	size_t classes_listed;
	struct rt_report *report; /* of the pages */
	struct rt_workbook_page *page;
	size_t pages, pages_max;
};

static void papers_free(struct papers *p)
{
	for (size_t i = 0; p->results && i < p->classes->n; i++)
		rt_results_free(&p->results[i]);
	for (size_t i = 0; p->book && i < p->classes->n; i++)
		rt_class_book_free(&p->book[i]);
	for (size_t i = 0; p->report && i < p->pages_max; i++)
		rt_report_free(&p->report[i]);
}

static void papers_load(struct cli *c, struct papers *p)
{
	size_t classes;

	CLI_DO(c, rt_store_show(c->store, &c->show, &c->err));
	p->classes = cli_classes(c);
	classes = p->classes->n;
	p->pages_max = classes + cli_rings(c)->n;
	p->book = cli_array(c, classes, sizeof *p->book);
	p->results = cli_array(c, classes, sizeof *p->results);
	p->listed = cli_array(c, classes, sizeof *p->listed);
	p->report = cli_array(c, p->pages_max, sizeof *p->report);
	p->page = cli_array(c, p->pages_max, sizeof *p->page);
}

/* Score every class; one without a rule is left out and said. */
static void score_classes(struct cli *c, struct papers *p)
{
	for (size_t i = 0; i < p->classes->n && !c->err.code; i++) {
		const char *name = p->classes->at[i].name;
		struct rt_error why = {0};
		enum rt_err e = rt_store_class_book(c->store, name, &p->book[i], &why);

		if (!e)
			e = rt_results_make(&p->results[i], &p->book[i].marks, &why);
		if (!e)
			p->listed[p->classes_listed++] = &p->results[i];
		else if (e == RT_E_INPUT)
			rt_report_note(&c->report, "Class %s is left out: %s.", name, why.text);
		else
			c->err = why;
	}
}

/* Name the page that was just made in p->report[p->pages], and count it. */
static void page_add(struct cli *c, struct papers *p, const char *name, const char *title)
{
	struct rt_workbook_page *page = &p->page[p->pages];

	if (c->err.code)
		return;
	page->report = &p->report[p->pages];
	p->pages++;
	page->name = rt_arena_string(&c->text, name);
	page->title = rt_arena_string(&c->text, title);
	CLI_DO(c, page->name && page->title ? rt_report_result(page->report, &c->err)
					    : rt_fail_nomem(&c->err));
}

static void turn_page(struct cli *c, struct papers *p, const struct rt_ring_kind *kind,
		      const struct rt_level *level)
{
	const struct rt_gaits *gaits = &cli_rows(c)->gaits;
	const struct rt_turn_options options = {0};
	struct rt_turns turns = {0};
	char name[96], title[160];

	snprintf(name, sizeof name, "Turns %s %s", level->name, kind->name);
	snprintf(title, sizeof title, "Turns: %s, %s", level->name, kind->name);
	for (size_t i = 0; i < p->pages; i++)
		if (strcmp(p->page[i].name, name) == 0)
			return;
	CLI_DO(c, rt_turns_make(&turns, kind, level, gaits, &options, &c->err));
	CLI_DO(c, rt_turns_report(&p->report[p->pages], &turns, false, &c->err));
	page_add(c, p, name, title);
	rt_turns_free(&turns);
}

/* One turn reference for each level and kind of ring that a class uses. */
static void turn_pages(struct cli *c, struct papers *p)
{
	for (size_t i = 0; i < p->classes->n && !c->err.code; i++) {
		const struct rt_class *class_ = &p->classes->at[i];
		const struct rt_ring_kind *kind = cli_kind_of(c, class_);
		const struct rt_level *level = NULL;

		if (kind && class_->level_used)
			level = rt_level_find(&cli_rows(c)->levels, class_->level_used,
					      kind->discipline);
		if (level)
			turn_page(c, p, kind, level);
	}
}

static void check_page(struct cli *c, struct papers *p, const struct rt_ring *ring)
{
	const struct rt_ring_kind *kind = rt_ring_kind_find(&cli_rows(c)->kinds, ring->kind);
	struct rt_stored_check stored = {0};
	char name[96], title[160];
	bool found = false;

	CLI_DO(c, rt_store_check_latest(c->store, ring->name, &stored, &found, &c->err));
	if (found && kind) {
		snprintf(name, sizeof name, "Ring %s", ring->name);
		snprintf(title, sizeof title, "Ring check: %s (%s), %s", ring->name, ring->kind,
			 stored.when);
		cli_check_report(c, &p->report[p->pages], kind, &stored, false);
		page_add(c, p, name, title);
	}
	rt_stored_check_free(&stored);
}

/* Programs go by the end of the name. */
static bool is_workbook_name(const char *path)
{
	static const char end[] = ".xlsx";
	size_t n = strlen(path), most = sizeof end - 1;

	return n > most && strcasecmp(path + n - most, end) == 0;
}

struct workbook {
	const char *file;
	size_t classes, pages;
};

static const struct rt_field workbook_options[] = {
	{"file", RT_AT(struct workbook, file), .head = "FILE.xlsx|-", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED},
};

static const struct rt_field written_fields[] = {
	{"file", RT_AT(struct workbook, file), .type = RT_TEXT},
	{"class_count", .head = "classes", RT_AT(struct workbook, classes), .type = RT_SIZE},
	{"pages", RT_AT(struct workbook, pages), .head = "turn and ring pages", .type = RT_SIZE},
};
static const struct rt_record written_table = RT_TABLE("workbook", "Workbook written",
						       written_fields, struct workbook);

static void workbook(struct cli *c, const void *typed)
{
	const struct workbook *o = typed;
	struct rt_outfile *file;
	struct papers p = {0};

	cli_store(c, false);
	papers_load(c, &p);
	if (!c->err.code)
		score_classes(c, &p);
	turn_pages(c, &p);
	for (size_t i = 0; i < cli_rings(c)->n && !c->err.code; i++)
		check_page(c, &p, &cli_rings(c)->at[i]);
	file = cli_output_open(c, o->file, RT_FILE_WORKBOOK);
	if (file) {
		const struct rt_workbook w = {c->show.title,	c->show.day, c->when, p.listed,
					      p.classes_listed, p.page,	     p.pages};

		CLI_DO(c, rt_workbook_write(file, &w, &c->err));
		cli_output_end(c, o->file, file);
	}
	rt_report_list(&c->report, &written_table,
		       &(const struct workbook){o->file, p.classes_listed, p.pages}, 1);
	if (!is_workbook_name(o->file) && strcmp(o->file, "-") != 0)
		rt_report_note(
			&c->report,
			"Office programs look for a name that ends in .xlsx: this one does not.");
	papers_free(&p);
}

const struct cli_command cmd_workbook = {
	.name = "workbook",
	.summary = "Write the show as a spreadsheet with live formulas.",
	.details =
		"Entries, the marks of each class (changing a mark changes the result), results, a turn\n"
		"reference for each level used, and the latest check of each ring. The same show and\n"
		"--date give the same file.\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show workbook spring.xlsx",
	CLI_OPTIONS(struct workbook, workbook_options),
	.table = {&written_table},
	.run = workbook,
};
