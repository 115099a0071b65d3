/* Checks of sheet: the set-out sheet of every shipped ring, in metres and in feet, on both papers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <ringtrue/intake.h>
#include <ringtrue/sheet.h>

#include "sheet/internal.h"
#include "suite.h"
#include "written.h"

#define WHEN	 "2026-05-01 07:30:00"
#define TOUCH_MM 0.02 /* boxes that share an edge do not overlap */
#define KINDS	 6    /* four shipped, two of our own */

/* ---- rings ----------------------------------------------------------------------------------- */

static struct rt_ring_kinds kinds;
static struct rt_letter crowd[RT_RING_LETTERS_MOST];
static char crowd_name[RT_RING_LETTERS_MOST][16];

static void read_kinds(void)
{
	const char *folder = getenv("RINGTRUE_DATA");
	struct rt_faults faults = {0};
	char path[4096];

	ck_assert_ptr_nonnull(folder);
	snprintf(path, sizeof path, "%s/rings.csv", folder);
	ck_assert_int_eq(rt_read_ring_kinds(&kinds, RT_FILE(path), &faults, NULL), RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_eq(kinds.n, 4);
}

static void drop_kinds(void)
{
	rt_ring_kinds_free(&kinds);
}

/* The shipped kinds; then a bare one; then one with twelve letters crowded on each long side. */
static struct rt_ring_kind ring(int which)
{
	struct rt_ring_kind kind = {.name = "small ring of the village, without letters",
				    .discipline = RT_RIDDEN,
				    .width_m = 15,
				    .length_m = 31.5};

	if (which < 4)
		return kinds.at[which];
	for (size_t i = 0; which == 5 && i < 24; i++) {
		snprintf(crowd_name[i], sizeof crowd_name[i], "L%zu", i + 1);
		crowd[i] = (struct rt_letter){crowd_name[i], i < 12 ? RT_LEFT : RT_RIGHT,
					      1.2 + 1.2 * (double)(i % 12)};
		kind.letters.at = crowd;
		kind.letters.n = i + 1;
	}
	return kind;
}

struct made {
	struct rt_ring_kind kind;
	struct rt_setout_plan plan;
	struct rt_setout_form form;
	struct rt_setout_room room;
	struct rt_sheet sheet;
};

static void make(struct made *m, int which, bool feet, enum rt_paper_size paper, bool form_only)
{
	const struct rt_setout_options o = {
		.tape_m = feet ? 50 : 30, .tapes = feet ? 2 : 1, .bearing_deg = NAN};
	const struct rt_sheet_options options = {.paper = paper,
						 .when = WHEN,
						 .show = "Frühjahrsfahren Oberaltheim-Mühlbach",
						 .feet = feet};
	struct rt_error err = {0};
	struct rt_setout_sheet what = {.ring = "Mühlwiese hinter dem Gemeindehaus",
				       .form_only = form_only};

	*m = (struct made){.kind = ring(which)};
	what.plan = &m->plan;
	what.form = &m->form;
	what.room = &m->room;
	ck_assert_int_eq(rt_setout_plan(&m->plan, &m->kind, &o, &err), RT_OK);
	ck_assert_int_eq(rt_setout_form(&m->form, &m->kind, o.tape_m, &err), RT_OK);
	rt_setout_room(&m->room, &m->kind, NAN, NAN);
	ck_assert_msg(rt_sheet_setout(&m->sheet, &what, &options, &err) == RT_OK, "%s", err.text);
}

static void drop(struct made *m)
{
	rt_sheet_free(&m->sheet);
	rt_setout_form_free(&m->form);
	rt_setout_plan_free(&m->plan);
}

/* ---- what every page keeps to ---------------------------------------------------------------- */

static bool overlap(const struct rt_area *a, const struct rt_area *b)
{
	return a->left_mm < b->right_mm - TOUCH_MM && b->left_mm < a->right_mm - TOUCH_MM &&
	       a->top_mm < b->bottom_mm - TOUCH_MM && b->top_mm < a->bottom_mm - TOUCH_MM;
}

/* Words in type of 12 points or more, on the page, over no other words.  Two that are turned
 * alike stand one under the other: their boxes say nothing. */
static void check_words(const struct rt_sheet *sheet)
{
	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *a = &sheet->drawn.at[i];
		struct rt_area area, other;

		if (!a->words)
			continue;
		ck_assert_double_ge(a->lettering.size_pt, 12.0);
		area = rt_drawn_area(a);
		ck_assert_msg(area.left_mm >= 9.5 && area.right_mm <= sheet->width_mm - 9.5 &&
				      area.top_mm >= 12.0 &&
				      area.bottom_mm <= sheet->height_mm - 9.5,
			      "\"%s\" stands off page %d", a->words, a->page);
		for (size_t k = 0; k < i; k++) {
			const struct rt_drawn *b = &sheet->drawn.at[k];

			if (!b->words || b->page != a->page ||
			    (a->lettering.turned_deg != 0 && b->lettering.turned_deg != 0))
				continue;
			other = rt_drawn_area(b);
			ck_assert_msg(!overlap(&area, &other), "page %d: \"%s\" over \"%s\"",
				      a->page, a->words, b->words);
		}
	}
}

static size_t count(const struct rt_sheet *sheet, const char *role)
{
	size_t n = 0;

	for (size_t i = 0; i < sheet->drawn.n; i++)
		n += strcmp(sheet->drawn.at[i].role, role) == 0;
	return n;
}

static bool has(const struct rt_sheet *sheet, const char *role, const char *words)
{
	for (size_t i = 0; i < sheet->drawn.n; i++)
		if (sheet->drawn.at[i].words && strcmp(sheet->drawn.at[i].role, role) == 0 &&
		    strcmp(sheet->drawn.at[i].words, words) == 0)
			return true;
	return false;
}

START_TEST(every_ring_on_every_paper)
{
	for (int feet = 0; feet < 2; feet++)
		for (int paper = RT_A4; paper <= RT_LETTER; paper++) {
			struct rt_setout_thing thing[RT_THINGS_MOST];
			struct made m;
			size_t things;

			make(&m, _i, feet, (enum rt_paper_size)paper, false);
			check_words(&m.sheet);
			things = rt_setout_carry(thing, &m.plan, m.room.opening_m, feet);
			ck_assert_uint_eq(count(&m.sheet, "tick"), 2 * m.plan.steps + things);
			ck_assert_uint_eq(count(&m.sheet, "box"), m.form.rows);
			ck_assert_uint_eq(count(&m.sheet, "judge"),
					  6); /* three boxes, three words */
			ck_assert_uint_eq(count(&m.sheet, "page"), (size_t)m.sheet.pages);
			drop(&m);
		}
}
END_TEST

START_TEST(drawing_of_40x80)
{
	struct made m;

	make(&m, 2, false, RT_A4, false);
	ck_assert_str_eq(m.kind.name, "driven-40x80");
	ck_assert(has(&m.sheet, "running", "10.00 m"));
	ck_assert(has(&m.sheet, "feet", "32 ft 9 1/2 in"));
	ck_assert(has(&m.sheet, "running", "HC 80.00 m"));
	ck_assert(has(&m.sheet, "running", "25.00 m *")); /* V and P: check the rulebook */
	ck_assert(has(&m.sheet, "length", "89.44 m"));
	ck_assert(has(&m.sheet, "length", "293 ft 5 1/2 in"));
	ck_assert(has(&m.sheet, "running",
		      "From AK: A 20.00 m = 65 ft 7 1/2 in, FA 40.00 m = 131 ft 3 in"));
	ck_assert(has(&m.sheet, "about", "* V P S R: check against the rulebook in force."));
	ck_assert(has(&m.sheet, "length", "105.00 m"));
	ck_assert_uint_eq(count(&m.sheet, "angle"), 3);
	ck_assert_uint_eq(count(&m.sheet, "diagonal"), 2);
	drop(&m);
}
END_TEST

/* Steps and proofs follow --feet; the form stays in metres, as the file does. */
START_TEST(steps_in_feet)
{
	struct made m;

	make(&m, 0, true, RT_LETTER, false);
	ck_assert(has(&m.sheet, "do", "Same pull: E at 65 ft 7 1/2 in."));
	ck_assert(has(&m.sheet, "proof", "K to E: 45 ft 11 in."));
	ck_assert(has(&m.sheet, "head", "distance_m"));
	drop(&m);
}
END_TEST

START_TEST(form_only)
{
	struct made m;

	make(&m, 1, false, RT_A4, true);
	check_words(&m.sheet);
	ck_assert_uint_eq(count(&m.sheet, "tick"), 0);
	ck_assert_uint_eq(count(&m.sheet, "box"), m.form.rows);
	ck_assert_int_eq(m.sheet.drawn.at[0].page, 1);
	drop(&m);
}
END_TEST

/* Both writers take it, and write the same bytes for the same sheet. */
START_TEST(written_twice_alike)
{
	static const char *const ending[] = {"pdf", "svg"};
	char path[64], bytes[2][4096];
	struct made m;

	make(&m, 2, false, RT_A4, false);
	for (int k = 0; k < 2; k++) {
		size_t n[2] = {0};

		snprintf(path, sizeof path, "setout-%d.%s", (int)getpid(), ending[k]);
		for (int i = 0; i < 2; i++) {
			FILE *in;

			ck_assert_int_eq(write_sheet(&m.sheet, path, NULL), RT_OK);
			in = fopen(path, "rb");
			ck_assert_ptr_nonnull(in);
			n[i] = fread(bytes[i], 1, sizeof bytes[i], in);
			fclose(in);
		}
		remove(path);
		ck_assert_uint_eq(n[0], sizeof bytes[0]);
		ck_assert_mem_eq(bytes[0], bytes[1], n[0]);
	}
	drop(&m);
}
END_TEST

int check_sheet_setout(void)
{
	Suite *suite = suite_create("sheet setout");
	TCase *pages = tcase_create("pages");

	tcase_set_timeout(pages, 120);
	tcase_add_checked_fixture(pages, read_kinds, drop_kinds);
	tcase_add_loop_test(pages, every_ring_on_every_paper, 0, KINDS);
	tcase_add_test(pages, drawing_of_40x80);
	tcase_add_test(pages, steps_in_feet);
	tcase_add_test(pages, form_only);
	tcase_add_test(pages, written_twice_alike);
	suite_add_tcase(suite, pages);
	return suite_run(suite);
}
