/* The sheet room: papers of the show office; lists, results, marking sheets.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "office_class.h"
#include "../src/sheet/internal.h"
#include "suite.h"

#define TOUCH_MM 0.05 /* words may stand so near to a line */

static struct rt_error why;
static const struct rt_sheet_options options = {.when = "2026-05-09 18:00",
						.show = "Larkfold Spring Driving Day"};

/* ---- what every paper keeps to --------------------------------------------------------------- */

/* Every word is of 12 points or more, within the margins, and over nothing else. */
static void check_words(struct rt_sheet *sheet)
{
	int pages = sheet->pages;

	for (size_t i = 0; i < sheet->drawn.n; i++) {
		struct rt_drawn *d = &sheet->drawn.at[i];
		struct rt_area area;
		double met;
		int page = d->page;

		if (!d->words)
			continue;
		ck_assert_double_ge(d->lettering.size_pt, 12.0);
		area = rt_drawn_area(d);
		ck_assert_msg(area.left_mm >= 9.5 && area.right_mm <= sheet->width_mm - 9.5 &&
				      area.top_mm >= 12.0 &&
				      area.bottom_mm <= sheet->height_mm - 9.5,
			      "\"%s\" stands off page %d", d->words, page);
		area.left_mm += TOUCH_MM;
		area.top_mm += TOUCH_MM;
		area.right_mm -= TOUCH_MM;
		area.bottom_mm -= TOUCH_MM;
		d->page = 0; /* not in its own way */
		sheet->pages = page;
		met = rt__clash(sheet, &area, d->role) + rt__clash(sheet, &area, "cell") +
		      rt__clash(sheet, &area, "rule");
		d->page = page;
		ck_assert_msg(met == 0.0, "\"%s\" (%s) on page %d meets %f", d->words, d->role,
			      page, met);
	}
	sheet->pages = pages;
}

static size_t count(const struct rt_sheet *sheet, const char *role, int page)
{
	size_t n = 0;

	for (size_t i = 0; i < sheet->drawn.n; i++)
		n += strcmp(sheet->drawn.at[i].role, role) == 0 &&
		     (!page || sheet->drawn.at[i].page == page);
	return n;
}

/* All words of that role one after another. */
static void gather(const struct rt_sheet *sheet, const char *role, char *out, size_t size)
{
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < sheet->drawn.n && n < size; i++)
		if (sheet->drawn.at[i].words && strcmp(sheet->drawn.at[i].role, role) == 0)
			n += (size_t)snprintf(out + n, size - n, "%s ", sheet->drawn.at[i].words);
	ck_assert_uint_lt(n, size);
}

/* ---- lists ----------------------------------------------------------------------------------- */

struct listed {
	size_t number;
	const char *driver, *empty;
};

static const struct rt_field columns[] = {
	{"number", RT_AT(struct listed, number), .type = RT_SIZE},
	{"driver", RT_AT(struct listed, driver)},
	{"empty", RT_AT(struct listed, empty)},
};
static const struct rt_record list = RT_TABLE("list", "Ring one", columns, struct listed);
static const struct rt__list_column list_columns[] = {
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "empty", .head = "Nothing", .if_any = true},
	{.head = "Seen", .box_mm = 12},
};

static void make_list(struct rt_sheet *sheet, struct rt_report *report, size_t rows,
		      const char *driver)
{
	struct rt_table *t = rt_report_rows(report, &list);
	const struct rt__list_view view = {RT__LIST_VIEW("list", list_columns)};
	const struct rt__list_paper paper = {.title = "Start list",
					     .line = {options.show},
					     .report = report,
					     .view = &view,
					     .views = 1,
					     .signature = "Steward:"};

	for (size_t i = 1; i <= rows; i++)
		rt_put_row(t,
			   &(struct listed){i, rt_report_textf(report, "%s %zu", driver, i), NULL});
	ck_assert_int_eq(rt__list(sheet, &paper, &options, &why), RT_OK);
}

START_TEST(a_list_breaks_between_rows)
{
	struct rt_report report = {0};
	struct rt_sheet sheet = {0};
	char words[8000], last[40];

	make_list(&sheet, &report, 90, "Bartholomew Featherstonehaugh-Wyndham of Netherwick");
	check_words(&sheet);
	ck_assert_int_ge(sheet.pages, 3);
	ck_assert_uint_eq(count(&sheet, "box", 0), 90);
	for (int page = 1; page <= sheet.pages; page++) {
		ck_assert_uint_eq(count(&sheet, "head", page), 3);
		ck_assert_uint_eq(count(&sheet, "heading", page), 1);
		ck_assert_uint_ge(count(&sheet, "box", page), 1);
	}
	gather(&sheet, "head", words, sizeof words);
	ck_assert_ptr_null(strstr(words, "Nothing"));
	gather(&sheet, "page", words, sizeof words);
	snprintf(last, sizeof last, "page 1 of %d page 2 of", sheet.pages);
	ck_assert_ptr_nonnull(strstr(words, last));
	rt_sheet_free(&sheet);
	rt_report_free(&report);
}
END_TEST

/* A word wider than its column is cut, and nothing of it is lost. */
START_TEST(a_word_of_any_length)
{
	char driver[400], words[2000], whole[2000];
	struct rt_report report = {0};
	struct rt_sheet sheet = {0};

	memset(driver, 0, sizeof driver);
	for (int i = 0; i < 180; i++)
		strcat(driver, "é");
	make_list(&sheet, &report, 2, driver);
	check_words(&sheet);
	gather(&sheet, "cell", words, sizeof words);
	whole[0] = '\0';
	for (char *s = words, *to = whole; *s; s++)
		if (*s != ' ' && (*s & 0x80)) {
			*to++ = *s;
			*to = '\0';
		}
	ck_assert_uint_eq(strlen(whole), 2 * strlen(driver));
	rt_sheet_free(&sheet);
	rt_report_free(&report);
}
END_TEST

START_TEST(a_list_of_nobody)
{
	struct rt_report report = {0};
	struct rt_sheet sheet = {0};

	make_list(&sheet, &report, 0, "");
	check_words(&sheet);
	ck_assert_int_eq(sheet.pages, 1);
	ck_assert_uint_eq(count(&sheet, "cell", 0), 0);
	rt_sheet_free(&sheet);
	rt_report_free(&report);
}
END_TEST

/* ---- results --------------------------------------------------------------------------------- */

/* A class of sixty by five judges; some are equal, two left. */
static void open_class(struct office_class *c)
{
	office_open(c, "driven-percent", "C B E H M");
	c->class_.title = "Intermediate four-in-hands of ponies, for the Larkfold Challenge Cup";
	for (int i = 0; i < 40; i++) {
		office_item(c, i % 3 ? 1000 : 1500, i > 35 ? RT_GROUP_GENERAL : RT_GROUP_MOVEMENT);
		c->items.at[i].letters = i % 4 ? "K X M" : "A";
		c->items.at[i].movement = "Change the rein in extended trot, then working trot at "
					  "the corner and along the short side";
	}
	for (int64_t number = 1; number <= 60; number++) {
		struct rt_entry *e = office_entry(c, number);

		e->driver = number % 7 ? "Åsa Lindqvärn" : "Maximilian-Ferdinand Graf Öttingen";
		e->horses = "Brisbläsan; Morgenfürst; Épine Noire; Sir Toby of Netherwick";
	}
	c->entries.at[3].status = RT_RETIRED;
	c->entries.at[3].status_why = "lame after the circle at E";
	c->entries.at[4].hors_concours = true;
	office_sheets(c);
	for (size_t e = 0; e < 60; e++)
		for (size_t j = 0; j < 5; j++)
			for (size_t i = 0; i < 40; i++)
				for (int k = 0; k < 2; k++)
					office_mark(c, e, j, i, k, 500 + 50 * (int)(e % 8));
}

/* The results as a second version of half past five. */
static void post(struct rt_posting *out, const struct rt_results *r)
{
	ck_assert_int_eq(rt_posting_make(out, r, &why), RT_OK);
	out->version = 2;
	out->who = "Nia";
	out->at = "2026-05-09 17:30:00";
	out->until = "2026-05-09 18:30:00";
}

START_TEST(sixty_results)
{
	struct office_class c;
	struct rt_results r;
	struct rt_sheet sheet = {0};
	struct rt_results_shown shown;
	struct rt_posting posting;
	char words[80000];

	open_class(&c);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
	post(&posting, &r);
	ck_assert_int_eq(rt_shown_make(&shown, &r, &posting, false, &why), RT_OK);
	ck_assert_int_eq(rt_sheet_results(&sheet, &shown, &options, &why), RT_OK);
	check_words(&sheet);
	ck_assert_uint_eq(count(&sheet, "band", 0), 0);
	gather(&sheet, "about", words, sizeof words);
	ck_assert_ptr_nonnull(strstr(words, "version 2, corrected"));
	ck_assert_ptr_nonnull(strstr(words, "until 2026-05-09 18:30 (provisional until 18:30)"));
	gather(&sheet, "cell", words, sizeof words);
	ck_assert_ptr_nonnull(strstr(words, "hors concours"));
	ck_assert_ptr_nonnull(strstr(words, "retired: lame after the circle"));
	/* the five judges stand in one line under each entry */
	ck_assert_ptr_nonnull(strstr(words, " M\xC2\xA0"
					    "399.5\xC2\xA0(1) "));
	ck_assert_int_le(sheet.pages, 8); /* four horses take three lines */
	gather(&sheet, "heading", words, sizeof words);
	ck_assert_ptr_nonnull(strstr(words, "Placed, continued"));
	ck_assert_ptr_nonnull(strstr(words, "Not placed"));
	rt_sheet_free(&sheet);
	rt_shown_free(&shown);
	rt_posting_free(&posting);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

/* Two papers in one file: the second begins a page of its own, which is its first. */
START_TEST(papers_follow_one_another)
{
	struct office_class c;
	struct rt_results r;
	struct rt_results_shown told;
	struct rt_sheet sheet = {0};
	char words[8000], want[80];
	int pages;

	open_class(&c);
	ck_assert_int_eq(rt_results_make(&r, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_shown_make(&told, &r, NULL, false, &why), RT_OK);
	rt_sheet_bookmark(&sheet, "Class 1: first", "1", false);
	ck_assert_int_eq(rt_sheet_results(&sheet, &told, &options, &why), RT_OK);
	pages = sheet.pages;
	rt_sheet_bookmark(&sheet, "Class 2: second", "2", false);
	ck_assert_int_eq(rt_sheet_results(&sheet, &told, &options, &why), RT_OK);
	check_words(&sheet);
	ck_assert_int_eq(sheet.pages, 2 * pages);
	ck_assert_int_eq(sheet.bookmarks.at[0].page, 1);
	ck_assert_int_eq(sheet.bookmarks.at[1].page, pages + 1);
	ck_assert_str_eq(sheet.bookmarks.at[1].words, "Class 2: second");
	gather(&sheet, "page", words, sizeof words);
	snprintf(want, sizeof want, "page %d of %d page 1 of %d", pages, pages, pages);
	ck_assert_msg(strstr(words, want) != NULL, "%s", words);
	rt_sheet_free(&sheet);
	rt_shown_free(&told);
	rt_results_free(&r);
	office_close(&c);
}
END_TEST

/* What every page says in its band, and the cells. */
static void print(const struct rt_results_shown *shown, char *band, char *cells, size_t size)
{
	struct rt_sheet sheet = {0};

	ck_assert_int_eq(rt_sheet_results(&sheet, shown, &options, &why), RT_OK);
	check_words(&sheet);
	gather(&sheet, "band", band, size);
	gather(&sheet, "cell", cells, size);
	rt_sheet_free(&sheet);
}

/* A penalty after the posting: the paper keeps the places that hold, and says that they changed. */
START_TEST(papers_show_what_is_posted)
{
	struct office_class c;
	struct rt_results before, after;
	struct rt_results_shown shown;
	struct rt_posting posting;
	char band[8000], first[80000], cells[80000];

	open_class(&c);
	ck_assert_int_eq(rt_results_make(&before, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_shown_make(&shown, &before, NULL, false, &why), RT_OK);
	print(&shown, band, first, sizeof first);
	ck_assert_ptr_nonnull(strstr(band, "provisional, not posted"));
	rt_shown_free(&shown);
	post(&posting, &before);

	c.entries.at[7].status = RT_ELIMINATED;
	c.entries.at[7].status_why = "left the ring";
	ck_assert_int_eq(rt_results_make(&after, &c.marks, &why), RT_OK);
	ck_assert_int_eq(rt_shown_make(&shown, &after, &posting, false, &why), RT_OK);
	ck_assert_uint_gt(shown.changes.n, 0);
	print(&shown, band, cells, sizeof cells);
	ck_assert_ptr_nonnull(strstr(band, "changed since version 2"));
	ck_assert_str_eq(cells, first);
	rt_shown_free(&shown);

	ck_assert_int_eq(rt_shown_make(&shown, &after, &posting, true, &why), RT_OK);
	print(&shown, band, cells, sizeof cells);
	ck_assert_ptr_nonnull(strstr(band, "not posted"));
	ck_assert_ptr_nonnull(strstr(cells, "eliminated: left the"));
	rt_shown_free(&shown);

	rt_posting_free(&posting);
	rt_results_free(&before);
	rt_results_free(&after);
	office_close(&c);
}
END_TEST

/* ---- marking sheets -------------------------------------------------------------------------- */

START_TEST(marking_sheets_of_forty_movements)
{
	struct office_class c;
	struct rt_sheet sheet = {0};
	struct rt_marking of;
	size_t pages;

	open_class(&c);
	c.class_.judges.at[1].name = "Margarethe von Hohenstein-Oberwiesenthal";
	c.class_.judges.at[1].scribe = "Tove Hallbäck";
	of = (struct rt_marking){.class_ = &c.class_,
				 .test = &c.test,
				 .rule = &c.rule,
				 .items = &c.items,
				 .entries = &c.entries,
				 .position = "B"};
	c.entries.n = 2;
	ck_assert_int_eq(rt_sheet_marking(&sheet, &of, &options, &why), RT_OK);
	check_words(&sheet);
	ck_assert_uint_eq(count(&sheet, "mark", 0), 80);
	ck_assert_uint_eq(count(&sheet, "signature", 0), 4); /* a line and its words */
	pages = (size_t)sheet.pages;
	ck_assert_uint_eq(pages % 2, 0);
	rt_sheet_free(&sheet);

	of.entries = NULL; /* blank, of each judge */
	of.position = NULL;
	ck_assert_int_eq(rt_sheet_marking(&sheet, &of, &options, &why), RT_OK);
	check_words(&sheet);
	ck_assert_uint_eq(count(&sheet, "mark", 0), 200);
	ck_assert_int_eq(sheet.pages, 5 * (int)pages / 2);
	rt_sheet_free(&sheet);
	office_close(&c);
}
END_TEST

/* Names of 200 characters, each of three bytes, are told whole, and broken between characters. */
START_TEST(names_as_long_as_can_be)
{
	struct office_class c;
	struct rt_sheet sheet = {0};
	struct rt_marking of;
	char name[1 + 3 * (RT_NAME_MOST - 1) + 1] = "x", words[8000];
	size_t euros = 0;

	for (size_t i = 1; i < sizeof name - 1; i += 3)
		memcpy(name + i, "\u20ac", 4);
	open_class(&c);
	c.entries.n = 1;
	c.entries.at[0].driver = c.entries.at[0].horses = name;
	c.class_.judges.at[1].name = c.class_.judges.at[1].scribe = name;
	of = (struct rt_marking){.class_ = &c.class_,
				 .test = &c.test,
				 .rule = &c.rule,
				 .items = &c.items,
				 .entries = &c.entries,
				 .position = "B"};
	c.items.n = 1;
	ck_assert_int_eq(rt_sheet_marking(&sheet, &of, &options, &why), RT_OK);
	check_words(&sheet);
	gather(&sheet, "about", words, sizeof words);
	ck_assert(rt_is_utf8(words, strlen(words)));
	for (const char *at = words; (at = strstr(at, "\u20ac")); at++)
		euros++;
	ck_assert_uint_eq(euros, 4 * (RT_NAME_MOST - 1) * (size_t)sheet.pages);
	rt_sheet_free(&sheet);
	office_close(&c);
}
END_TEST

START_TEST(words_end_behind_a_whole_character)
{
	char words[8] = "ab";

	rt__add_words(words, sizeof words, "%s", "c\u20ac");
	ck_assert_str_eq(words, "abc\u20ac");
	rt__add_words(words, sizeof words, "%s", "\u20ac"); /* one byte of three has room */
	ck_assert_str_eq(words, "abc\u20ac");
	rt__add_words(words, sizeof words, "d");
	ck_assert_str_eq(words, "abc\u20acd");
}
END_TEST

START_TEST(pages_count_within_a_sheet)
{
	struct office_class c;
	struct rt_sheet sheet = {0};
	struct rt_marking of;
	char words[8000];

	open_class(&c);
	c.entries.n = 3;
	of = (struct rt_marking){.class_ = &c.class_,
				 .test = &c.test,
				 .rule = &c.rule,
				 .items = &c.items,
				 .entries = &c.entries,
				 .position = "C"};
	ck_assert_int_eq(rt_sheet_marking(&sheet, &of, &options, &why), RT_OK);
	gather(&sheet, "page", words, sizeof words);
	snprintf(words + strlen(words), 40, "end");
	for (const char *s = words; *s && strcmp(s, "end") != 0;) {
		int page, of_pages;

		ck_assert_int_eq(sscanf(s, "page %d of %d", &page, &of_pages), 2);
		ck_assert_int_eq(of_pages, sheet.pages / 3);
		ck_assert_int_le(page, of_pages);
		s = strstr(s + 1, page == of_pages && !strstr(s + 1, "page") ? "end" : "page");
	}
	rt_sheet_free(&sheet);
	office_close(&c);
}
END_TEST

int check_sheet_office(void)
{
	Suite *suite = suite_create("office papers");
	TCase *papers = tcase_create("papers");

	tcase_set_timeout(papers, 120);
	suite_add_tcase(suite, papers);
	tcase_add_test(papers, a_list_breaks_between_rows);
	tcase_add_test(papers, a_word_of_any_length);
	tcase_add_test(papers, a_list_of_nobody);
	tcase_add_test(papers, sixty_results);
	tcase_add_test(papers, papers_follow_one_another);
	tcase_add_test(papers, papers_show_what_is_posted);
	tcase_add_test(papers, marking_sheets_of_forty_movements);
	tcase_add_test(papers, names_as_long_as_can_be);
	tcase_add_test(papers, words_end_behind_a_whole_character);
	tcase_add_test(papers, pages_count_within_a_sheet);
	return suite_run(suite);
}
