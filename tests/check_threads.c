/* Four threads at once: each checks a ring with a blunder and one whose readings do not fix it,
 * makes the turns of a ring and the results of a class, again and again.  What they make is what
 * one thread alone makes, cell by cell.  Under helgrind it is seen too that none of them touches
 * what another writes: nothing is kept between calls.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#define _POSIX_C_SOURCE 200809L /* open_memstream */
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "drive_rings.h"
#include "office_class.h"
#include "ring_field.h"
#include "suite.h"

#define THREADS 4
#define ROUNDS	3

/* What all read and nobody writes. */
static struct field good, loose;
static struct office_class class_;

static void write_report(FILE *out, const struct rt_report *r)
{
	for (size_t t = 0; t < r->tables; t++) {
		const struct rt_table *table = r->table[t];

		for (size_t i = 0; i < table->cells; i++) {
			const struct rt_field *column = &table->column[i % table->columns];
			const struct rt_value *value = &table->cell[i];
			char words[64];

			if (!value->null && column->type == RT_REAL)
				fprintf(out, "%a;", value->as.real);
			else
				fprintf(out, "%s;",
					rt_value_words(column, value, false, words, sizeof words));
		}
		fprintf(out, "\n");
	}
	for (size_t i = 0; i < r->notes; i++)
		fprintf(out, "%s\n", r->note[i]);
}

static void check_rings(FILE *out)
{
	struct rt_report report = {0};
	struct rt_ring_check check = {0}, none = {0};
	struct rt_error err = {0};

	if (rt_ring_check(&check, &kind_40x80, &good.readings, 0.1, RT_FIT_FEWEST, &err) ||
	    rt_ring_check_report(&report, &check, false, &err))
		fprintf(out, "wrong: %s\n", err.text);
	if (rt_ring_check(&none, &kind_40x80, &loose.readings, 0.1, RT_FIT_ALL, &err) != RT_E_NOFIX)
		fprintf(out, "wrong: fixed, though it is not\n");
	fprintf(out, "%s\n", err.text);
	write_report(out, &report);
	rt_report_free(&report);
	rt_ring_check_free(&check);
	rt_ring_check_free(&none);
}

static void make_turns(FILE *out)
{
	struct rt_report report = {0};
	struct rt_turns turns = {0};
	struct rt_turn_options options = {0};
	struct rt_level level = drive_level(RT_DRIVEN, 20);
	struct rt_error err = {0};

	if (rt_turns_make(&turns, &drive_ring[DRIVEN_40X80], &level, &drive_gaits, &options,
			  &err) ||
	    rt_turns_report(&report, &turns, false, &err))
		fprintf(out, "wrong: %s\n", err.text);
	write_report(out, &report);
	rt_report_free(&report);
	rt_turns_free(&turns);
}

static void make_results(FILE *out)
{
	struct rt_report report = {0};
	struct rt_results results = {0};
	struct rt_error err = {0};

	if (rt_results_make(&results, &class_.marks, &err))
		fprintf(out, "wrong: %s\n", err.text);
	else
		rt_results_report(&report, &results);
	write_report(out, &report);
	rt_report_free(&report);
	rt_results_free(&results);
}

/* All of it, as text; the caller frees it.  NULL: out of memory. */
static void *work(void *unused)
{
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	(void)unused;
	if (!out)
		return NULL;
	for (int i = 0; i < ROUNDS; i++) {
		check_rings(out);
		make_turns(out);
		make_results(out);
	}
	fclose(out);
	return text;
}

static void open_all(void)
{
	field_open(&good, 1);
	move_peg(&good, "K", 0.4, 0);
	tape_around(&good);
	good.reading[10].value += 0.7;
	field_open(&loose, 0);
	tape_list(&loose, RECTANGLE "K-AK ");
	office_open(&class_, "driven-percent", "C B");
	office_items(&class_, 6);
	for (int64_t number = 1; number <= 5; number++)
		office_entry(&class_, number);
	office_sheets(&class_);
	for (size_t entry = 0; entry < 5; entry++)
		for (size_t judge = 0; judge < 2; judge++)
			office_sum(&class_, entry, judge, 300 + 5 * (int)(entry * 2 + judge));
}

START_TEST(threads_make_what_one_makes)
{
	pthread_t thread[THREADS];
	char *alone;

	open_all();
	alone = work(NULL);
	ck_assert_ptr_nonnull(alone);
	ck_assert_ptr_nonnull(strstr(alone, "blunder"));
	ck_assert_ptr_null(strstr(alone, "wrong: "));
	for (int i = 0; i < THREADS; i++)
		ck_assert_int_eq(pthread_create(&thread[i], NULL, work, NULL), 0);
	for (int i = 0; i < THREADS; i++) {
		void *text = NULL;

		ck_assert_int_eq(pthread_join(thread[i], &text), 0);
		ck_assert_ptr_nonnull(text);
		ck_assert_msg(strcmp(alone, text) == 0, "thread %d made something else", i);
		free(text);
	}
	free(alone);
	office_close(&class_);
	field_close(&loose);
	field_close(&good);
}
END_TEST

int check_threads(void)
{
	const TTest *threads[] = {threads_make_what_one_makes};
	Suite *suite = suite_create("threads");

	suite_case(suite, "four", threads, COUNT(threads));
	return suite_run(suite);
}
