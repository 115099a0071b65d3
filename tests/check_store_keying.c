/* Checks of marks put one by one: versions, passes that go on, what was said of sheets.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "store_show.h"

#include <stdlib.h>
#include <string.h>

#include "store/internal.h"
#include "suite.h"

/* Class 1 of the invented show: its first entry, its first judge, its first items. */
struct sheet {
	struct rt_class_book book;
	int64_t entry, judge, item[2];
};

static void load_sheet(struct rt_store *s, struct sheet *sheet)
{
	memset(sheet, 0, sizeof *sheet);
	DONE(book_of_class(s, "1", &sheet->book, &why));
	sheet->entry = sheet->book.entries.at[0].id;
	sheet->judge = sheet->book.classes.at->judges.at[0].id;
	sheet->item[0] = sheet->book.items.at[0].id;
	sheet->item[1] = sheet->book.items.at[1].id;
}

/* Put one mark in a transaction of its own, after the version that was seen. */
static bool put(struct rt_store *s, const struct sheet *sheet, size_t item, int64_t value,
		int64_t seen, const struct rt_pass *pass, int64_t *id)
{
	bool done;

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_go_on(s, pass, id, &why));
	DONE(rt_store_mark_put_after(s, sheet->entry, sheet->judge, sheet->item[item], RT_MARK_ITEM,
				     value, NULL, seen, &done, &why));
	DONE(rt_store_commit(s, &why));
	return done;
}

START_TEST(marks_one_by_one)
{
	static const struct rt_pass ann = {1, "Ann", "2026-09-12 12:00", "mark enter", NULL};
	static const struct rt_pass bob = {1, "Bob", "2026-09-12 09:00", "mark fix", "misread"};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_mark_versions v = {0};
	int64_t ann_pass = 0, bob_pass = 0;
	struct sheet sheet;

	load_sheet(s, &sheet);
	ck_assert(put(s, &sheet, 0, 65, 0, &ann, &ann_pass));
	ck_assert(put(s, &sheet, 1, 70, 0, &ann, &ann_pass));
	/* Another desk fixes the first box, though its clock is behind. */
	ck_assert(put(s, &sheet, 0, 60, 1, &bob, &bob_pass));
	ck_assert_int_gt(bob_pass, ann_pass);
	/* The first desk has seen version 1 only: nothing is written over. */
	ck_assert(!put(s, &sheet, 0, 75, 1, &ann, &ann_pass));
	ck_assert(!put(s, &sheet, 0, 75, 0, &ann, &ann_pass));
	DONE(rt_store_mark_versions(s, "1", sheet.book.entries.at[0].number, &v, &why));
	ck_assert_uint_eq(v.n, 3);
	ck_assert_int_eq(v.at[0].value, 65);
	ck_assert_int_eq(v.at[0].pass, ann_pass);
	ck_assert_int_eq(v.at[1].value, 60);
	ck_assert_int_eq(v.at[1].version, 2);
	ck_assert_str_eq(v.at[1].why, "misread");
	ck_assert_str_eq(v.at[1].when, "2026-09-12 09:00");
	ck_assert_int_eq(v.at[2].pass, ann_pass);
	RT_LIST_FREE(&v);
	rt_class_book_free(&sheet.book);
	load_sheet(s, &sheet);
	ck_assert_int_eq(rt_class_marks_box(&sheet.book.marks, 0, 0, 0)->keyed_x100[0], 60);
	rt_class_book_free(&sheet.book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(a_pass_that_is_undone_begins_again)
{
	static const struct rt_pass pass = {2, "Ann", NULL, "mark enter", NULL};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct sheet sheet;
	int64_t id = 0;
	bool done;

	load_sheet(s, &sheet);
	ck_assert_int_eq(rt_store_mark_put_after(s, sheet.entry, sheet.judge, sheet.item[0],
						 RT_MARK_ITEM, 50, NULL, 0, &done, NULL),
			 RT_E_USAGE);
	ck_assert_int_eq(rt_store_pass_go_on(s, &pass, &id, NULL), RT_E_USAGE);
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_go_on(s, &pass, &id, &why));
	rt_store_rollback(s);
	id = 0;
	ck_assert(put(s, &sheet, 0, 50, 0, &pass, &id));
	ck_assert_int_gt(id, 0);
	rt_class_book_free(&sheet.book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(lines_come_last_on_their_sheet)
{
	static const struct rt_pass pass = {1, "Ann", NULL, NULL, NULL};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_mark_versions v = {0};
	struct sheet sheet;
	int64_t id = 0;
	bool done;

	load_sheet(s, &sheet);
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_go_on(s, &pass, &id, &why));
	for (int kind = RT_MARK_TOTAL; kind >= RT_MARK_ITEM; kind--)
		DONE(rt_store_mark_put_after(s, sheet.entry, sheet.judge,
					     kind == RT_MARK_ITEM ? sheet.item[1] : 0,
					     (enum rt_mark_kind)kind, 9, "said", 0, &done, &why));
	DONE(rt_store_commit(s, &why));
	DONE(rt_store_mark_versions(s, "1", -1, &v, &why));
	ck_assert_uint_eq(v.n, 3);
	ck_assert_int_eq(v.at[0].kind, RT_MARK_ITEM);
	ck_assert_int_eq(v.at[1].kind, RT_MARK_ERRORS);
	ck_assert_int_eq(v.at[2].kind, RT_MARK_TOTAL);
	ck_assert_str_eq(v.at[2].remark, "said");
	ck_assert_ptr_null(v.at[2].when);
	RT_LIST_FREE(&v);
	DONE(rt_store_mark_versions(s, "1", 4711, &v, &why));
	DONE(rt_store_mark_versions(s, "no class", -1, &v, &why));
	ck_assert_uint_eq(v.n, 0);
	rt_class_book_free(&sheet.book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(a_book_knows_whose_total_it_is)
{
	static const struct rt_pass ann = {1, "Ann", NULL, NULL, NULL};
	static const struct rt_pass bob = {2, "Bob", NULL, NULL, NULL};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct sheet sheet;
	int64_t ann_pass = 0, bob_pass = 0;
	bool done;

	load_sheet(s, &sheet);
	put(s, &sheet, 0, 65, 0, &ann, &ann_pass);
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_go_on(s, &bob, &bob_pass, &why));
	DONE(rt_store_mark_put_after(s, sheet.entry, sheet.judge, 0, RT_MARK_TOTAL, 65000, NULL, 0,
				     &done, &why));
	DONE(rt_store_pass_go_on(s, &ann, &ann_pass, &why));
	DONE(rt_store_mark_put_after(s, sheet.entry, sheet.judge, 0, RT_MARK_TOTAL, 65000, NULL, 0,
				     &done, &why));
	DONE(rt_store_commit(s, &why));
	rt_class_book_free(&sheet.book);
	load_sheet(s, &sheet);
	ck_assert(!sheet.book.marks.lines[0].total_by_other[0]);
	ck_assert(sheet.book.marks.lines[0].total_by_other[1]);
	rt_class_book_free(&sheet.book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(what_is_said_of_sheets)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_sheet_events events = {0};
	struct rt_sheet_event event = {.who = "Tom", .when = "2026-09-12 10:00"};
	struct sheet sheet;

	load_sheet(s, &sheet);
	event.entry = sheet.entry;
	event.judge = sheet.judge;
	event.state = RT_SHEET_IN;
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_sheet_event_put(s, &event, &why));
	event.state = RT_SHEET_QUERIED;
	event.why = "item 3 is empty";
	DONE(rt_store_sheet_event_put(s, &event, &why));
	event.state = RT_SHEET_KEYED; /* it follows from the marks */
	ck_assert_int_eq(rt_store_sheet_event_put(s, &event, NULL), RT_E_INPUT);
	DONE(rt_store_sheet_events(s, "1", -1, &events, &why));
	ck_assert_uint_eq(events.n, 2);
	ck_assert_int_eq(events.at[1].state, RT_SHEET_QUERIED);
	ck_assert_str_eq(events.at[1].why, "item 3 is empty");
	ck_assert_str_eq(events.at[0].who, "Tom");
	RT_LIST_FREE(&events);
	DONE(rt_store_sheet_events(s, "2", -1, &events, &why));
	ck_assert_uint_eq(events.n, 0);
	ck_assert_int_ne(run_outside(p.path, "UPDATE sheet_event SET who = 'Eve'"), SQLITE_OK);
	ck_assert_int_ne(run_outside(p.path, "DELETE FROM sheet_event"), SQLITE_OK);
	rt_class_book_free(&sheet.book);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

int check_store_keying(void)
{
	Suite *s = suite_create("store: keying");
	TCase *keying = tcase_create("keying");

	tcase_add_test(keying, marks_one_by_one);
	tcase_add_test(keying, a_pass_that_is_undone_begins_again);
	tcase_add_test(keying, lines_come_last_on_their_sheet);
	tcase_add_test(keying, a_book_knows_whose_total_it_is);
	tcase_add_test(keying, what_is_said_of_sheets);
	suite_add_tcase(s, keying);
	return suite_run(s);
}
