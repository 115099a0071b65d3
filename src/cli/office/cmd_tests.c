/* test import and test list.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

#define MULTIPLIER_SLACK 0.01 /* a printed multiplier may be so far from the exact one */

struct test_import {
	struct rt_tests tests;
	struct rt_items items;
	struct rt_import_count count;
};

/* The sum of a test's coefficients, in thousandths. */
static int64_t coefficients_of(const struct rt_items *items, const char *test)
{
	int64_t sum = 0;

	for (size_t i = 0; i < items->n; i++)
		if (strcmp(items->at[i].test, test) == 0)
			sum += items->at[i].coefficient_x1000;
	return sum;
}

/* A printed multiplier is base / maximum, rounded; one that is far from it was misread: refused
 * before it is kept, or as_printed noted. */
static void check_multiplier(struct cli *c, const struct rt_test *test,
			     const struct rt_items *items, bool as_printed)
{
	const struct rt_rule *rule = test->rule ? rt_rule_find(&cli_rows(c)->rules, test->rule)
						: NULL;
	double base = rule && rule->scale == RT_PENALTY_SCALE ? (double)rule->base : 160;
	double maximum = (double)coefficients_of(items, test->name) / 100;
	double printed = (double)test->multiplier_x1000000 / 1e6;
	char said[24], exact[24], most[24];

	if (!test->multiplier_x1000000 ||
	    fabs(printed * maximum / base - 1) <= MULTIPLIER_SLACK)
		return;
	rt_format_real(printed, 4, said, sizeof said);
	rt_format_real(base / maximum, 4, exact, sizeof exact);
	rt_format_real(maximum, 1, most, sizeof most);
	if (as_printed)
		rt_report_note(&c->report,
			       "Test %s: the multiplier is %s, but %.0f / %s points is %s: see "
			       "whether it and the coefficients are as printed.",
			       test->name, said, base, most, exact);
	else
		rt_fault(&c->faults, test->file, test->line, "multiplier",
			 "test %s: %s does not fit, %.0f / %s points is %s: see whether it and the "
			 "coefficients are as printed; --multiplier-as-printed takes it so",
			 test->name, said, base, most, exact);
}

struct test_files {
	const char *tests, *movements;
	struct cli_import how; /* but for the file */
	bool as_printed;
};

static const struct rt_field import_options[] = {
	{"tests", RT_AT(struct test_files, tests), .head = "TESTS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"movements", RT_AT(struct test_files, movements), .head = "MOVEMENTS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_IMPORT_HOW(struct test_files, how),
	{"multiplier-as-printed", RT_AT(struct test_files, as_printed), .type = RT_BOOL,
	 .help = "take a multiplier that does not fit the coefficients: it is printed so"},
};

static void test_import(struct cli *c, const void *typed)
{
	const struct test_files *o = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *tests = cli_source(c, &o->how, o->tests);
	const struct rt_source *items = cli_source(c, &o->how, o->movements);
	struct test_import in = {0};

	CLI_DO(c, rt_read_tests(&in.tests, tests, roster, &c->faults, &c->err));
	CLI_DO(c, rt_read_items(&in.items, items, &in.tests, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c,
	       rt_store_tests_put(c->store, &in.tests, &in.items, &in.count, &c->faults, &c->err));
	cli_report_import(c, "tests", &in.count);
	for (size_t i = 0; i < in.tests.n; i++)
		check_multiplier(c, &in.tests.at[i], &in.items, o->as_printed);
	RT_LIST_FREE(&in.tests);
	RT_LIST_FREE(&in.items);
}

const struct cli_command cmd_test_import = {
	.name = "test import",
	.summary = "Put tests and their movements into the show.",
	.files = (const struct rt_record *const[]){&rt_test_record, &rt_item_record, NULL},
	.example = "--show spring.show test import tests.csv movements.csv",
	CLI_OPTIONS(struct test_files, import_options),
	.run = test_import,
	.lists = true,
};

/* ---- list -------------------------------------------------------------------------------- */

static void test_list(struct cli *c, const void *typed)
{
	struct rt_tests tests = {0};
	struct rt_items items = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_tests(c->store, &tests, &c->err));
	CLI_DO(c, rt_store_items(c->store, NULL, &items, &c->err));
	if (!c->err.code) {
		rt_tests_count(&tests, &items);
		rt_report_list(&c->report, &rt_test_record, tests.at, tests.n);
		rt_report_list(&c->report, &rt_item_record, items.at, items.n);
	}
	RT_LIST_FREE(&tests);
	RT_LIST_FREE(&items);
}

const struct cli_command cmd_test_list = {
	.name = "test list",
	.summary = "List the tests of the show.",
	.details =
		"In CSV it is a file that `test import` reads; --table movements gives the other.",
	.table = {&rt_test_record, &rt_item_record},
	.example = "--show spring.show test list",
	.run = test_list,
};
