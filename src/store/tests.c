/* Tests and the items of their sheets.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>

/* A test of an import: how many items it has so far, and whether the show had it before. */
struct sheet {
	const char *test;
	struct rt__origin from;
	bool there;
	bool differs; /* it has a fault already */
	int64_t items;
};

struct sheets {
	struct sheet *at;
	size_t n, cap;
	struct rt_map *by_test;
};

static void sheets_free(struct sheets *sheets)
{
	free(sheets->at);
	rt_map_free(sheets->by_test);
}

/* The sheet of a test, NULL when memory is out; a new one counts as there. */
static struct sheet *sheet_of(struct sheets *sheets, const char *test)
{
	bool nomem = false;
	size_t i = rt_map_put(&sheets->by_test, test, sheets->n, &nomem);
	struct sheet *sheet;

	if (i != RT_MAP_NONE)
		return &sheets->at[i];
	sheet = nomem ? NULL : RT_LIST_ADD(sheets);
	if (!sheet)
		return NULL;
	sheet->test = test;
	sheet->there = true;
	return sheet;
}

/* ---- put ------------------------------------------------------------------------------------- */

static enum rt_err check_test_names(struct rt__import *in, const struct rt_test *t,
				    const struct rt__origin *from, bool *missing)
{
	enum rt_err rc = rt__import_name(in, RT__SQL_RING_KIND_KNOWN, from, "kind", t->kind,
					 missing);

	if (!rc)
		rc = rt__import_name(in, RT__SQL_LEVEL_KNOWN, from, "level", t->level, missing);
	if (!rc)
		rc = rt__import_name(in, RT__SQL_RULE_KNOWN, from, "rule", t->rule, missing);
	return rc;
}

static enum rt_err put_test(struct rt__import *in, const struct rt_test *t, struct sheets *sheets)
{
	struct sheet *sheet = sheet_of(sheets, t->name);
	enum rt__outcome outcome = RT__DIFFERS;
	bool missing = false;
	enum rt_err rc;

	if (!sheet)
		return rt_fail_nomem(in->err);
	sheet->from = rt__origin(t->file, t->line, "test %s", t->name);
	rc = check_test_names(in, t, &sheet->from, &missing);
	if (!rc && !missing)
		rc = rt__import_row(in, RT__SQL_TEST_INSERT, RT__SQL_TEST_THERE, &sheet->from,
				    &rt_test_record, t, RT__NO_CELLS, &outcome);
	sheet->there = outcome != RT__ADDED;
	sheet->differs = outcome == RT__DIFFERS;
	return rc;
}

static enum rt_err put_item(struct rt__import *in, const struct rt_item *item,
			    struct sheets *sheets)
{
	struct sheet *sheet = sheet_of(sheets, item->test);
	struct rt__origin from = rt__origin(item->file, item->line, "item %s of test %s",
					    item->name, item->test);
	enum rt__outcome outcome;
	bool missing = false;
	enum rt_err rc;

	if (!sheet)
		return rt_fail_nomem(in->err);
	sheet->items++;
	if (sheet->differs)
		return RT_OK;
	rc = rt__import_name(in, RT__SQL_TEST_KNOWN, &from, "test", item->test, &missing);
	if (!rc)
		rc = rt__import_name(in, RT__SQL_GAIT_KNOWN, &from, "gait", item->gait, &missing);
	if (!rc && !missing) {
		const struct rt__cell seq = rt__int(sheet->items);

		rc = sheet->there ? rt__import_compare(in, RT__SQL_ITEM_THERE, &from,
						       &rt_item_record, item, &seq, 1, &outcome)
				  : rt__import_row(in, RT__SQL_ITEM_INSERT, RT__SQL_ITEM_THERE,
						   &from, &rt_item_record, item, &seq, 1, &outcome);
		missing = outcome == RT__DIFFERS;
	}
	sheet->differs = missing;
	return rc;
}

/* A test that was there must have come with all its items. */
static enum rt_err finish_sheet(struct rt__import *in, struct sheet *sheet,
				struct rt_import_count *count)
{
	int64_t items = 0;
	enum rt_err rc;

	if (sheet->differs)
		return RT_OK;
	if (!sheet->there) {
		count->added++;
		return RT_OK;
	}
	rc = rt__get_int(in->s, RT__SQL_ITEM_COUNT, RT__CELLS(rt__text(sheet->test)), &items,
			 in->err);
	if (rc)
		return rc;
	if (items == sheet->items)
		count->same++;
	else
		rt__import_differs(in, &sheet->from, NULL, "%lld item%s there, here %lld",
				   (long long)items, items == 1 ? "" : "s",
				   (long long)sheet->items);
	return RT_OK;
}

enum rt_err rt_store_tests_put(struct rt_store *s, const struct rt_tests *tests,
			       const struct rt_items *items, struct rt_import_count *count,
			       struct rt_faults *faults, struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "the test another name"};
	struct sheets sheets = {0};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < tests->n && !rc; i++)
		rc = put_test(&in, &tests->at[i], &sheets);
	for (size_t i = 0; i < items->n && !rc; i++)
		rc = put_item(&in, &items->at[i], &sheets);
	for (size_t i = 0; i < sheets.n && !rc; i++)
		rc = finish_sheet(&in, &sheets.at[i], count);
	sheets_free(&sheets);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

enum rt_err rt_store_tests(struct rt_store *s, struct rt_tests *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_TEST_LIST, RT__NO_CELLS, &rt_test_record, out, err);
}

enum rt_err rt__load_test(struct rt_store *s, const char *name, struct rt_tests *out,
			  struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_TEST_GET, RT__CELLS(rt__text(name)), &rt_test_record, out, err);
}

static enum rt_err load_items(struct rt_store *s, const char *test, struct rt_items *out,
			      struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_ITEM_LIST, RT__CELLS(rt__text(test)), &rt_item_record, out, err);
}

enum rt_err rt_store_items(struct rt_store *s, const char *test, struct rt_items *out,
			   struct rt_error *err)
{
	struct rt_tests tests = {0};
	enum rt_err rc;

	if (test)
		return load_items(s, test, out, err);
	rc = rt_store_tests(s, &tests, err);
	for (size_t i = 0; i < tests.n && !rc; i++)
		rc = load_items(s, tests.at[i].name, out, err);
	RT_LIST_FREE(&tests);
	return rc;
}
