/* The workbook of 100,000 marks, live formulas and all, against a bare libxlsxwriter loop that
 * writes 100,000 numbers.  Prints both and the ratio; asserts nothing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <ringtrue/scoring.h>
#include <ringtrue/paper.h>

#include "../written.h"

#define CLASSES 20
#define ENTRIES 50
#define JUDGES	5
#define ITEMS	20
#define MARKS	((size_t)CLASSES * ENTRIES * JUDGES * ITEMS)
#define RUNS	5

static const struct rt_rule rule = {
	.name = "driven-combined",
	.scale = RT_PENALTY_SCALE,
	.wins = RT_LOWEST_WINS,
	.base = 160,
	.judge_decimals = -1,
	.percent_decimals = 2,
	.score_decimals = 2,
	.taken = RT_TAKEN_SCORE,
	.error = {{500, false}, {1000, false}, {0, true}},
	.error_steps = 3,
	.tie = {{RT_TIE_GENERAL, 0}},
	.tie_steps = 1,
};

static const struct rt_test test = {
	.name = "T1",
	.title = "Bench",
	.multiplier_x1000000 = 640000,
};

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static void must(bool ok, const char *what)
{
	if (ok)
		return;
	fprintf(stderr, "workbook_bench: %s\n", what);
	exit(EXIT_FAILURE);
}

static void make_items(struct rt_items *items)
{
	for (size_t i = 0; i < ITEMS; i++) {
		struct rt_item *item = RT_LIST_ADD(items);
		char name[24];

		must(item != NULL, "memory");
		snprintf(name, sizeof name, "%zu", i + 1);
		item->name = rt_arena_string(&items->text, name);
		item->coefficient_x1000 = i % 4 ? 1000 : 2000;
		item->group = i >= ITEMS - 3 ? RT_GROUP_GENERAL : RT_GROUP_MOVEMENT;
		item->mark_step_x100 = 50;
	}
}

static void make_entries(struct rt_entries *entries)
{
	for (size_t i = 0; i < ENTRIES; i++) {
		struct rt_entry *entry = RT_LIST_ADD(entries);

		must(entry != NULL, "memory");
		entry->number = (int64_t)(i + 1);
		entry->driver = "Åsa Žižková";
		entry->horses = "Blesk; Ráj";
		entry->height_cm = NAN;
		entry->status = RT_ENTERED;
	}
}

static void key(const struct rt_class_marks *m)
{
	for (size_t i = 0; i < ENTRIES; i++)
		for (size_t j = 0; j < JUDGES; j++)
			for (size_t k = 0; k < ITEMS; k++) {
				struct rt_box *box = rt_class_marks_box(m, i, j, k);
				int64_t mark = (int64_t)(400 + (7 * i + 3 * k + 5 * j) % 9 * 50);

				box->keyed_x100[0] = box->keyed_x100[1] = mark;
			}
}

/* The best of some runs, in milliseconds. */
static double time_ours(const char *path, const struct rt_workbook *w)
{
	double best = INFINITY;

	for (int i = 0; i < RUNS; i++) {
		double begun = now_ms();

		must(write_workbook(path, w, NULL) == RT_OK, "the workbook was not written");
		best = fmin(best, now_ms() - begun);
	}
	return best;
}

static void write_bare(const char *path)
{
	lxw_workbook_options options = {.constant_memory = LXW_TRUE};
	lxw_workbook *book = workbook_new_opt(path, &options);

	for (size_t c = 0; c < CLASSES; c++) {
		lxw_worksheet *sheet = workbook_add_worksheet(book, NULL);

		for (lxw_row_t row = 0; row < ENTRIES * JUDGES; row++)
			for (lxw_col_t col = 0; col < ITEMS; col++)
				worksheet_write_number(sheet, row, col,
						       4 + (7 * row + 3 * col) % 9 * 0.5, NULL);
	}
	must(workbook_close(book) == LXW_NO_ERROR, "the bare loop failed");
}

static double time_bare(const char *path)
{
	double best = INFINITY;

	for (int i = 0; i < RUNS; i++) {
		double begun = now_ms();

		write_bare(path);
		best = fmin(best, now_ms() - begun);
	}
	return best;
}

int main(void)
{
	struct rt_items items = {0};
	struct rt_entries entries = {0};
	struct rt_class class_ = {.name = "K1", .title = "Class", .test = "T1"};
	struct rt_arena *text = NULL;
	struct rt_class_marks m = {.class_ = &class_,
				   .test = &test,
				   .rule = &rule,
				   .items = &items,
				   .entries = &entries};
	const struct rt_results *listed[CLASSES];
	struct rt_workbook w = {.title = "Bench",
				.day = "2026-05-09",
				.when = "2026-05-09 18:00:00",
				.results = listed,
				.classes = CLASSES};
	char folder[] = "/tmp/workbook_bench-XXXXXX", path[64];
	struct rt_results results;
	struct rusage used;
	double ours, bare;

	must(mkdtemp(folder) != NULL, "no temporary folder");
	snprintf(path, sizeof path, "%s/book.xlsx", folder);
	make_items(&items);
	make_entries(&entries);
	must(rt_judges_read(&class_.judges, &text, "C B E H M", NULL) == RT_OK &&
		     rt_class_marks_make(&m, NULL) == RT_OK,
	     "memory");
	key(&m);
	must(rt_results_make(&results, &m, NULL) == RT_OK, "no results");
	for (size_t c = 0; c < CLASSES; c++)
		listed[c] = &results;
	ours = time_ours(path, &w);
	getrusage(RUSAGE_SELF, &used);
	bare = time_bare(path);
	printf("workbook: %zu marks %30.2f ms   bare libxlsxwriter %9.2f ms   ratio %.2f   "
	       "(peak memory %.1f MiB)\n",
	       MARKS, ours, bare, ours / bare, (double)used.ru_maxrss / 1024);
	unlink(path);
	rmdir(folder);
	rt_results_free(&results);
	rt_class_marks_free(&m);
	RT_LIST_FREE(&items);
	RT_LIST_FREE(&entries);
	RT_LIST_FREE(&class_.judges);
	rt_arena_free(text);
	return 0;
}
