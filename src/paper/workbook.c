/* The workbook of a show.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "workbook_internal.h"

/* The sheets in their order. */
struct sheets {
	struct rt__sheet entries, results, judges;
	bool has_judges;
	struct rt__marks *marks; /* a class each */
	struct rt__sheet *page;
};

/* When the book says it was made: seconds of a date and time taken as universal, so that the
 * same words give the same bytes in every time zone. */
static time_t made_at(const char *when)
{
	struct tm tm = {0};
	const char *rest = when ? strptime(when, "%Y-%m-%d", &tm) : NULL;

	if (rest && (*rest == ' ' || *rest == 'T'))
		(void)(strptime(rest + 1, "%H:%M:%S", &tm) || strptime(rest + 1, "%H:%M", &tm));
	return timegm(&tm);
}

static void describe(struct rt__book *book)
{
	const struct rt_workbook *of = book->of;
	char *title = strdup(rt__legible(book, of->title ? of->title : ""));
	lxw_doc_properties about = {.title = title, .created = made_at(of->when)};

	rt__check(book, title ? workbook_set_properties(book->file, &about)
			      : LXW_ERROR_MEMORY_MALLOC_FAILED);
	free(title);
}

/* Add all sheets, as formulas need the names of others. */
static void add_sheets(struct rt__book *book, struct sheets *s)
{
	const struct rt_workbook *of = book->of;

	(void)rt_map_put(&book->names, "history", 0, &(bool){false}); /* the format's own */
	rt__sheet_add(&s->entries, book, NULL, "Entries", NULL);
	for (size_t i = 0; i < of->classes && !book->failed; i++) {
		struct rt__marks *m = &s->marks[i];

		m->results = of->results[i];
		rt__sheet_add(&m->sheet, book, "Class ", m->results->of->class_->name,
			      m->results->of->class_->title);
		rt__marks_plan(m);
	}
	rt__sheet_add(&s->results, book, NULL, "Results", NULL);
	s->has_judges = rt__has_judges(of->results, of->classes);
	if (s->has_judges)
		rt__sheet_add(&s->judges, book, NULL, "Judges", NULL);
	for (size_t i = 0; i < of->pages && !book->failed; i++)
		rt__sheet_add(&s->page[i], book, "Page ", of->page[i].name, of->page[i].title);
}

static void write_sheets(struct rt__book *book, struct sheets *s)
{
	const struct rt_workbook *of = book->of;

	add_sheets(book, s);
	if (book->failed)
		return;
	rt__write_entries(&s->entries, s->marks, of->classes);
	for (size_t i = 0; i < of->classes; i++)
		rt__write_marks(&s->marks[i]);
	rt__write_results(&s->results, s->marks, of->classes);
	if (s->has_judges)
		rt__write_judges(&s->judges, s->marks, of->classes);
	for (size_t i = 0; i < of->pages; i++)
		rt__write_page(&s->page[i], &of->page[i]);
}

static enum rt_err failure(const char *path, lxw_error failed, struct rt_error *err)
{
	if (failed == LXW_ERROR_MEMORY_MALLOC_FAILED)
		return rt_fail_nomem(err);
	return rt_fail(err, RT_E_IO, "%s could not be written: %s", path, lxw_strerror(failed));
}

/* Make the book in a file that is there and can be written. */
static enum rt_err write_book(const char *file, const char *path, const struct rt_workbook *of,
			      struct rt_error *err)
{
	struct rt__book book = {.of = of};
	struct sheets s = {.marks = calloc(of->classes + 1, sizeof *s.marks),
			   .page = calloc(of->pages + 1, sizeof *s.page)};
	lxw_workbook_options options = {.constant_memory = LXW_TRUE};
	lxw_error closed = LXW_NO_ERROR;
	bool whole;

	book.file = s.marks && s.page ? workbook_new_opt(file, &options) : NULL;
	if (!book.file) {
		book.failed = LXW_ERROR_MEMORY_MALLOC_FAILED;
		goto done;
	}
	describe(&book);
	write_sheets(&book, &s);
	closed = workbook_close(book.file); /* which frees it, also when it fails */
done:
	free(s.marks);
	free(s.page);
	rt_map_free(book.names);
	rt__said(&book);
	rt_arena_free(book.text);
	rt__check(&book, closed);
	whole = !book.failed && rt__workbook_is_whole(file, &book.put);
	RT_LIST_FREE(&book.put);
	if (book.failed)
		return failure(path, book.failed, err);
	return whole ? RT_OK
		     : rt_fail(err, RT_E_IO,
			       "%s could not be written whole: is there room in its folder and in "
			       "the temporary one (TMPDIR)?",
			       path);
}

enum rt_err rt_workbook_write(const struct rt_outfile *to, const struct rt_workbook *workbook,
			      struct rt_error *err)
{
	struct rt__locale locale;
	enum rt_err rc = rt__locale_numbers(&locale, err);

	if (rc)
		return rc;
	rc = write_book(rt_outfile_path(to), rt_outfile_name(to), workbook, err);
	rt__locale_leave(&locale);
	return rc;
}
