/* Files of the office: rules and articles, tests and their movements, classes, entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>

/* ---- rules and articles ---------------------------------------------------------------------- */

/* Costs are given from the first on, without a gap, to an elimination at most; else a fault in the
 * column. */
static void check_costs(struct rt__load *l, const struct rt_cost *cost, const char *const *columns,
			size_t n)
{
	size_t given = rt_costs_given(cost, n);
	bool eliminated = false;

	for (size_t i = 0; i < n; i++) {
		if (cost[i].given && (i >= given || eliminated)) {
			rt__row_fault(l, columns[i],
				      "a cost after %s: costs from the first error "
				      "on, to the last that is counted",
				      eliminated ? "elimination" : "an empty field");
			break;
		}
		eliminated |= cost[i].eliminated;
	}
}

static void check_rule(struct rt__load *l, void *data)
{
	static const char *const columns[RT_ERROR_STEPS] = {"error_1", "error_2", "error_3",
							     "error_4"};
	struct rt_rule *row = data;
	struct rt_error err;

	if (l->row_bad)
		return;
	check_costs(l, row->error, columns, RT_ERROR_STEPS);
	row->error_steps = rt_costs_given(row->error, RT_ERROR_STEPS);
	if (!l->row_bad && rt_rule_check(row, &err) != RT_OK)
		rt__row_fault(l, NULL, "%s", err.text);
}

enum rt_err rt_read_rules(struct rt_rules *out, const struct rt_source *from,
			  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_rule_record, .key = {"rule"},
					     .once = "each rule once", .check = check_rule};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}

static void check_article(struct rt__load *l, void *data)
{
	static const char *const columns[RT_ARTICLE_STEPS] = {"amount_1", "amount_2", "amount_3"};
	const struct rt_article *a = data;

	if (rt__fields_sound(l, "amount_1 amount_2 amount_3"))
		check_costs(l, a->step, columns, RT_ARTICLE_STEPS);
}

enum rt_err rt_read_articles(struct rt_articles *out, const struct rt_source *from,
			     const struct rt_roster *roster, struct rt_faults *faults,
			     struct rt_error *err)
{
	static const struct rt__file file = {&rt_article_record,
					     .names = {{"applies_to", RT__RULES}},
					     .key = {"applies_to", "article"},
					     .once = "each article once", .check = check_article};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	l.names[RT__RULES].what = "discipline or rule";
	rt__names_add(&l.names[RT__RULES], rt_discipline_words(RT_RIDDEN));
	rt__names_add(&l.names[RT__RULES], rt_discipline_words(RT_DRIVEN));
	return rt__load_all(&l, from);
}

/* ---- tests ----------------------------------------------------------------------------------- */

/* Whether the level (NULL, too) exists: in the discipline of the kind of that name, where both
 * are known, otherwise in any.  A fault in column `level` if not. */
static void check_level(struct rt__load *l, const char *kind_name, const char *level)
{
	const struct rt_levels *levels = l->roster->levels;
	const struct rt_ring_kind *kind = NULL;
	struct rt__names names = {0};
	char what[32] = "level";

	if (!level || !levels)
		return;
	if (kind_name && l->roster->kinds)
		kind = rt_ring_kind_find(l->roster->kinds, kind_name);
	for (size_t i = 0; i < levels->n; i++)
		if (!kind || levels->at[i].discipline == kind->discipline)
			rt__names_add(&names, levels->at[i].name);
	if (kind)
		snprintf(what, sizeof what, "%s level", rt_discipline_words(kind->discipline));
	names.what = what;
	rt__known(l, &names, "level", level);
	rt__names_free(&names);
}

static void check_test(struct rt__load *l, void *data)
{
	const struct rt_test *row = data;

	check_level(l, row->kind, row->level);
}

enum rt_err rt_read_tests(struct rt_tests *out, const struct rt_source *from,
			  const struct rt_roster *roster, struct rt_faults *faults,
			  struct rt_error *err)
{
	static const struct rt__file file = {&rt_test_record,
					     RT__PLACED(struct rt_test),
					     .names = {{"kind", RT__KINDS}, {"rule", RT__RULES}},
					     .key = {"test"},
					     .once = "each test once",
					     .check = check_test};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

/* ---- movements ------------------------------------------------------------------------------- */

struct item_load {
	struct rt_map *named;	/* tests that a row names */
	struct rt_map *unknown; /* tests that were told as unknown: once is enough */
	bool refused;		/* the file of tests has faults: an unknown test may stand there */
};

/* The test that the row names; an unknown one is told in its first row only, and not at all where
 * it may be one that was refused. */
static void check_test_of_item(struct rt__load *l, const char *test)
{
	struct item_load *self = l->self;
	const struct rt__names *tests = &l->names[RT__TESTS];
	bool known = tests->any || rt_map_get(tests->map, test) != RT_MAP_NONE;

	rt_map_put(&self->named, test, 0, &l->nomem);
	if (!known && !self->refused &&
	    rt_map_put(&self->unknown, test, 0, &l->nomem) == RT_MAP_NONE)
		rt__known(l, tests, "test", test);
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
	const struct rt_item *row = data;

	if (row->test)
		check_test_of_item(l, row->test);
	else
		l->row_lost = true; /* whose item it is cannot be told */
	check_figure(l, row);
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

enum rt_err rt_read_items(struct rt_items *out, const struct rt_source *from,
			  const struct rt_tests *tests, const struct rt_roster *roster,
			  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_item_record,
					     RT__PLACED(struct rt_item),
					     .names = {{"gait", RT__GAITS}},
					     .key = {"test", "item"},
					     .once = "each item of a test once",
					     .check = check_item};
	struct item_load self = {.refused = tests && faults->total};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);
	enum rt_err rc;

	l.self = &self;
	RT__NAMES_FROM(&l.names[RT__TESTS], tests);
	l.names[RT__TESTS].any = !tests && !l.roster->tests;
	rc = rt__load_all(&l, from);
	if (rc == RT_OK)
		tell_tests_without_item(&l, tests);
	rt_map_free(self.named);
	rt_map_free(self.unknown);
	return rc;
}

/* ---- classes --------------------------------------------------------------------------------- */

/* A name for each position. */
static void check_judge_names(struct rt__load *l, const struct rt_class *row)
{
	struct rt_class copy = *row;
	struct rt_arena *text = NULL;
	struct rt_error err;
	enum rt_err rc = row->positions && row->judge_names
				 ? rt_class_read_judges(&copy, &text, &err)
				 : RT_OK;

	if (rc == RT_E_NOMEM)
		l->nomem = true;
	else if (rc)
		rt__row_fault(l, "judge_names", "%s", err.text);
	RT_LIST_FREE(&copy.judges);
	rt_arena_free(text);
}

static void check_class(struct rt__load *l, void *data)
{
	struct rt_class *row = data;

	check_level(l,
		    rt__fields_sound(l, "test ring")
			    ? rt_class_ring_kind(row, l->roster->rings, l->roster->tests)
			    : NULL,
		    row->level);
	check_judge_names(l, row);
}

static void keep_class(struct rt__load *l, void *data)
{
	struct rt_class *kept = rt_list_add(l->list.at, l->list.n, l->list.cap, sizeof *kept);

	if (kept)
		*kept = *(const struct rt_class *)data;
	if (!kept || rt_class_read_judges(kept, l->list.text, NULL) != RT_OK)
		l->nomem = true;
}

enum rt_err rt_read_classes(struct rt_classes *out, const struct rt_source *from,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct rt__file file = {
		&rt_class_record,
		RT__PLACED(struct rt_class),
		.names = {{"test", RT__TESTS}, {"ring", RT__RINGS}, {"rule", RT__RULES}},
		.key = {"class"},
		.once = "each class once",
		.check = check_class,
		.keep = keep_class};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

/* ---- entries --------------------------------------------------------------------------------- */

enum rt_err rt_read_entries(struct rt_entries *out, const struct rt_source *from,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct rt__file file = {
		&rt_entry_record, RT__PLACED(struct rt_entry), RT__SAYING(struct rt_entry),
		.names = {{"class", RT__CLASSES}},
		.key = {"class", "number"}, .once = "each number of a class once"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}
