/* office: every allocation fails once; nothing leaks, and it is said.  Linked so that the
 * library's calls of malloc, calloc and realloc come here.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <stdlib.h>

#include "office_class.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *old, size_t size);

static long left = -1; /* so many allocations succeed before one fails; -1: all */

static int fails(void)
{
	return left >= 0 && left-- == 0;
}

void *__wrap_malloc(size_t size)
{
	return fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t n, size_t size)
{
	return fails() ? NULL : __real_calloc(n, size);
}

void *__wrap_realloc(void *old, size_t size)
{
	return fails() ? NULL : __real_realloc(old, size);
}

/* A class with gaps, keyings that differ, errors and a tie, so that every note is made. */
static void open_class(struct office_class *c)
{
	office_open(c, "driven-percent", "C B");
	office_items(c, 10);
	for (int i = 0; i < 20; i++)
		office_entry(c, i + 1);
	office_sheets(c);
	for (size_t i = 0; i < 18; i++)
		for (size_t j = 0; j < 2; j++)
			office_sum(c, i, j, 600);
	office_mark(c, 2, 0, 3, 1, 100);
	office_mark(c, 3, 0, 3, 1, RT_NO_MARK);
	office_errors(c, 4, 0, 0, 3);
	office_total(c, 5, 0, 0, 1);
}

/* Find, sort, number and compare two entries. */
static enum rt_err entries_of_it(struct rt_error *err)
{
	static const char *const words[] = {"åsa frost"};
	static const struct rt_numbering rule = {1, 9, RT_HOLDER_TURNOUT};
	struct rt_entry at[] = {
		{.class_name = "1", .number = 7, .driver = "Åsa", .horses = "Frost; Flinga"},
		{.class_name = "2", .number = 8, .driver = "Bo", .horses = "Frost"},
	};
	const struct rt_entry asa = {.class_name = "3", .driver = "ÅSA", .horses = "Flinga; Frost"};
	const struct rt_class open = {.name = "1", .title = "Open"};
	struct rt_entries list = {.at = at, .n = 2};
	const struct rt_numbers given_up = {0};
	struct rt_changes changes = {0};
	bool kept, driver, turnout;
	int64_t number;
	enum rt_err e = rt_entries_sort(&list, RT_ORDER_DRIVER, err);

	if (!e)
		e = rt_number_give(&number, &rule, &list, &given_up, &asa, &kept, err);
	if (!e)
		e = rt_entries_alike(&at[0], &at[1], &driver, &turnout, err);
	if (!e)
		e = rt_entries_find(&list, words, 1, err);
	if (!e)
		e = rt_record_changes(&changes, &rt_entry_record, &at[0], &at[1], err);
	if (!e)
		e = rt_record_changes(&changes, &rt_class_record, &open,
				      &(struct rt_class){.name = "1"}, err);
	RT_LIST_FREE(&changes);
	rt_arena_free(list.text); /* its rows are the test's own */
	return e;
}

static enum rt_err all_of_it(const struct office_class *c, const char **what)
{
	struct rt_report report = {.tables = 0};
	struct rt_judges judges = {.n = 0};
	struct rt_arena *text = NULL;
	struct rt_class_marks marks = c->marks;
	struct rt_results r;
	struct rt_error err;
	enum rt_err e;

	*what = "judges";
	e = rt_judges_read(&judges, &text, "C B E", &err);
	RT_LIST_FREE(&judges);
	rt_arena_free(text);
	if (e)
		return e;
	*what = "entries";
	e = entries_of_it(&err);
	if (e)
		return e;
	*what = "sheets";
	e = rt_class_marks_make(&marks, &err);
	if (e)
		return e;
	rt_class_marks_free(&marks);
	*what = "results";
	e = rt_results_make(&r, &c->marks, &err);
	if (e)
		return e;
	*what = "report";
	rt_results_report(&report, &r);
	e = rt_report_result(&report, &err);
	rt_report_free(&report);
	rt_results_free(&r);
	return e;
}

int main(void)
{
	struct office_class c;
	enum rt_err e = RT_E_NOMEM;
	const char *what = "";
	long n;

	open_class(&c);
	for (n = 0; e == RT_E_NOMEM && n < 100000; n++) {
		left = n;
		e = all_of_it(&c, &what);
		if (left >= 0 && e == RT_E_NOMEM)
			break; /* memory that did not fail */
		if (left < 0 && e != RT_E_NOMEM)
			break; /* a failure that nobody told */
	}
	office_close(&c);
	printf("%ld allocations failed in turn; last in %s\n", n - 1, what);
	return e == RT_OK && left >= 0 && n > 20 ? EXIT_SUCCESS : EXIT_FAILURE;
}
