/* Files of tests and of their movements.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <string.h>

const struct rt_roster *rt__roster(const struct rt_roster *roster)
{
	static const struct rt_roster nothing = {0};

	return roster ? roster : &nothing;
}

/* ---- tests ----------------------------------------------------------------------------------- */

struct test_load {
	const struct rt_roster *roster;
	struct rt__names kinds, rules;
	struct rt_map *seen;
};

static void check_test(struct rt__load *l, void *data)
{
	struct test_load *self = l->self;
	struct rt_test *row = data;

	rt__doubled(l, &self->seen, "test", row->name, row->name, "each test once");
	rt__known(l, &self->kinds, "kind", row->kind);
	rt__check_level(l, self->roster, row->kind, row->level);
	rt__known(l, &self->rules, "rule", row->rule);
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_tests(struct rt_tests *out, const char *path, const struct rt_roster *roster,
			  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_test_record, check_test, NULL};
	struct test_load self = {
		.roster = rt__roster(roster), .kinds.what = "kind", .rules.what = "rule"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.kinds, self.roster->kinds);
	RT__NAMES_FROM(&self.rules, self.roster->rules);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.kinds);
	rt__names_free(&self.rules);
	rt_map_free(self.seen);
	return rc;
}

/* ---- movements ------------------------------------------------------------------------------- */

struct item_load {
	struct rt__names tests, gaits;
	struct rt_map *seen;	/* line, by test and item */
	struct rt_map *named;	/* tests that a row names */
	struct rt_map *unknown; /* tests that were told as unknown: once is enough */
	bool refused;		/* the file of tests has faults: an unknown test may stand there */
};

/* The test that the row names; an unknown one is told in its first row only, and not at all where
 * it may be one that was refused. */
static void check_test_of_item(struct rt__load *l, const char *test)
{
	struct item_load *self = l->self;
	bool known = self->tests.any || rt_map_get(self->tests.map, test) != RT_MAP_NONE;

	rt_map_put(&self->named, test, 0, &l->nomem);
	if (!known && !self->refused &&
	    rt_map_put(&self->unknown, test, 0, &l->nomem) == RT_MAP_NONE)
		rt__known(l, &self->tests, "test", test);
	l->row_bad = l->row_bad || !known;
}

/* The figure must be read; whether a ring has its letters is for the route to say. */
static void check_figure(struct rt__load *l, const struct rt_item *row)
{
	struct rt_steps steps = {0};
	struct rt_error err;
	enum rt_err e = row->figure ? rt_figure_parse(&steps, row->figure, &err) : RT_OK;

	if (e == RT_E_INPUT)
		rt__row_fault(l, "figure", "movement %s: %s", row->name ? row->name : "", err.text);
	l->nomem = l->nomem || e == RT_E_NOMEM;
	RT_LIST_FREE(&steps);
}

static void check_item(struct rt__load *l, void *data)
{
	struct item_load *self = l->self;
	struct rt_item *row = data;

	if (row->test)
		check_test_of_item(l, row->test);
	else
		l->row_lost = true; /* whose item it is cannot be told */
	if (row->test && row->name)
		rt__doubled(l, &self->seen, "item", rt__key(l, row->test, row->name), row->name,
			    "each item of a test once");
	rt__known(l, &self->gaits, "gait", row->gait);
	check_figure(l, row);
	row->file = rt__load_path(l);
	row->line = l->line;
}

/* Tests of this import that no row names are a fault of the file of tests. */
static void tell_tests_without_item(const struct rt__load *l, const struct rt_tests *tests)
{
	const struct item_load *self = l->self;

	if (!tests || !l->rows || l->head_bad || l->row_lost)
		return;
	for (size_t i = 0; i < tests->n; i++)
		if (rt_map_get(self->named, tests->at[i].name) == RT_MAP_NONE)
			rt_fault(l->faults, tests->at[i].file, tests->at[i].line, "test",
				 "%s has no item: at least one row in the file of movements",
				 rt_show(tests->at[i].name).text);
}

enum rt_err rt_read_items(struct rt_items *out, const char *path, const struct rt_tests *tests,
			  const struct rt_roster *roster, struct rt_faults *faults,
			  struct rt_error *err)
{
	static const struct rt__file file = {&rt_item_record, check_item, NULL};
	struct item_load self = {
		.tests.what = "test", .gaits.what = "gait", .refused = tests && faults->total};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.tests, rt__roster(roster)->tests);
	RT__NAMES_FROM(&self.tests, tests);
	self.tests.any = !tests && !rt__roster(roster)->tests;
	RT__NAMES_FROM(&self.gaits, rt__roster(roster)->gaits);
	rc = rt__load_all(&l, path);
	if (rc == RT_OK)
		tell_tests_without_item(&l, tests);
	rt__names_free(&self.tests);
	rt__names_free(&self.gaits);
	rt_map_free(self.seen);
	rt_map_free(self.named);
	rt_map_free(self.unknown);
	return rc;
}
