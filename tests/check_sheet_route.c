/* Checks of sheet: the route sheet and the practice sheet of every test of the demo show.
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

#include "paper_locale.h"
#include "sheet/internal.h"
#include "suite.h"
#include "written.h"

#define WHEN	  "2026-05-02 18:00:00"
#define SEATS	  4
#define TOUCH_MM  0.02 /* boxes that share an edge do not overlap */
#define TURNOUT	  "horse and four wheels"
#define MOVEMENTS 40

/* ---- shipped rows and the demo's tests ------------------------------------------------------- */

static struct rt_ring_kinds kinds;
static struct rt_gaits gaits;
static struct rt_levels levels;
static struct rt_turnout_parts turnouts;
static struct rt_items items;

static const char *in_data(char path[static 4096], const char *name)
{
	const char *folder = getenv("RINGTRUE_DATA");

	ck_assert_ptr_nonnull(folder);
	snprintf(path, 4096, "%s/%s", folder, name);
	return path;
}

static void read_rows(void)
{
	const struct rt_roster roster = {.gaits = &gaits};
	struct rt_faults faults = {0};
	char path[4096];

	ck_assert_int_eq(
		rt_read_ring_kinds(&kinds, RT_FILE(in_data(path, "rings.csv")), &faults, NULL),
		RT_OK);
	ck_assert_int_eq(rt_read_gaits(&gaits, RT_FILE(in_data(path, "gaits.csv")), &faults, NULL),
			 RT_OK);
	ck_assert_int_eq(rt_read_levels(&levels, RT_FILE(in_data(path, "levels.csv")), &roster,
					&faults, NULL),
			 RT_OK);
	ck_assert_int_eq(
		rt_read_turnouts(&turnouts, RT_FILE(in_data(path, "turnouts.csv")), &faults, NULL),
		RT_OK);
	ck_assert_int_eq(rt_read_items(&items, RT_FILE(in_data(path, "demo/movements.csv")), NULL,
				       &roster, &faults, NULL),
			 RT_OK);
	ck_assert_uint_eq(faults.total, 0);
}

static void drop_rows(void)
{
	rt_ring_kinds_free(&kinds);
	RT_LIST_FREE(&gaits);
	RT_LIST_FREE(&levels);
	RT_LIST_FREE(&turnouts);
	RT_LIST_FREE(&items);
}

static const struct {
	const char *test, *level;
} demo[] = {
	{"Larch", "training"},
	{"Rowan", "preliminary"},
	{"Hornbeam", "intermediate"},
	{"Juniper", "advanced"},
};
#define DEMO ((int)(sizeof demo / sizeof *demo))

/* A test, its route, and its sheet. */
struct made {
	struct rt_movement_figure figure[MOVEMENTS];
	struct rt_movement_words words[MOVEMENTS];
	size_t n;
	struct rt_route route;
	struct rt_band band;
	struct rt_sheet sheet;
};

static void free_made(struct made *m)
{
	rt_sheet_free(&m->sheet);
	RT_LIST_FREE(&m->band);
	rt_route_free(&m->route);
}

static const struct rt_ring_kind *kind_named(const char *name)
{
	const struct rt_ring_kind *kind = rt_ring_kind_find(&kinds, name);

	ck_assert_ptr_nonnull(kind);
	return kind;
}

static void make_route(struct made *m, const char *level_name)
{
	const struct rt_level *level = rt_level_find(&levels, level_name, RT_DRIVEN);
	const struct rt_movement_figures list = {.at = m->figure, .n = m->n};
	const struct rt_turn_options as_it_is = {0};

	ck_assert_ptr_nonnull(level);
	ck_assert_int_eq(rt_route_make(&m->route, kind_named("driven-40x80"), level, &gaits, &list,
				       &as_it_is, NULL),
			 RT_OK);
}

static void take_test(struct made *m, const char *test)
{
	for (size_t i = 0; i < items.n; i++) {
		const struct rt_item *item = &items.at[i];

		if (item->group != RT_GROUP_MOVEMENT || strcmp(item->test, test) != 0)
			continue;
		ck_assert_uint_lt(m->n, MOVEMENTS);
		m->words[m->n] = (struct rt_movement_words){item->letters, item->movement};
		m->figure[m->n++] = (struct rt_movement_figure){item->name, item->figure,
								item->gait, NULL, 0};
	}
	ck_assert_uint_gt(m->n, 10);
}

static void make_band(struct made *m, struct rt_turnout_parts *turnout)
{
	const struct rt_sweep_options options = {.trace_m = 0.25};
	struct rt_sweep sweep = {0};

	ck_assert_int_eq(rt_turnout_named(turnout, &turnouts, TURNOUT, NULL), RT_OK);
	ck_assert_int_eq(rt_sweep_make(&sweep, &m->route.path, turnout, &options, NULL), RT_OK);
	ck_assert_int_eq(rt_sweep_band(&m->band, &sweep, &m->route.path, turnout, 0.5, NULL),
			 RT_OK);
	rt_sweep_free(&sweep);
}

/* The sheet of a test of the demo: plain, or with everything that can be drawn. */
static void make(struct made *m, int test, bool all, const struct rt_sheet_options *options)
{
	struct rt_route_sheet what = {.title = demo[test].test, .words = m->words, .compare = all};
	struct rt_turnout_parts turnout = {0};

	memset(m, 0, sizeof *m);
	take_test(m, demo[test].test);
	make_route(m, demo[test].level);
	if (all) {
		make_band(m, &turnout);
		what.turnout = TURNOUT;
		what.turnout_track_m = rt_turnout_track(&turnout);
		what.band = &m->band;
	}
	ck_assert_int_eq(rt_sheet_route(&m->sheet, &m->route, kind_named("driven-40x80"), &what,
					options, NULL),
			 RT_OK);
	RT_LIST_FREE(&turnout);
}

/* ---- what every sheet keeps to --------------------------------------------------------------- */

/* Every word is of 12 points or more, within the margins, and over nothing else: no word, no
 * line, no mark. */
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
		met = rt__clash(sheet, &area, NULL);
		d->page = page;
		ck_assert_msg(met == 0.0, "\"%s\" (%s) on page %d meets %f", d->words, d->role,
			      page, met);
	}
	sheet->pages = pages;
}

static size_t count(const struct rt_sheet *sheet, const char *role)
{
	size_t n = 0;

	for (size_t i = 0; i < sheet->drawn.n; i++)
		n += strcmp(sheet->drawn.at[i].role, role) == 0;
	return n;
}

/* All words of that role one after another, white space as single spaces. */
static void gather(const struct rt_sheet *sheet, const char *role, char *out, size_t size)
{
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < sheet->drawn.n && n < size; i++)
		if (sheet->drawn.at[i].words && strcmp(sheet->drawn.at[i].role, role) == 0)
			n += (size_t)snprintf(out + n, size - n, "%s ", sheet->drawn.at[i].words);
	ck_assert_uint_lt(n, size);
}

static bool has_words(const struct rt_sheet *sheet, const char *role, const char *words)
{
	for (size_t i = 0; i < sheet->drawn.n; i++)
		if (sheet->drawn.at[i].words && strcmp(sheet->drawn.at[i].role, role) == 0 &&
		    strcmp(sheet->drawn.at[i].words, words) == 0)
			return true;
	return false;
}

/* ---- the route sheet ------------------------------------------------------------------------- */

START_TEST(every_test_is_told_whole)
{
	char told[8192], head[256];

	for (int seat = 0; seat < SEATS; seat++) {
		const struct rt_sheet_options options = {.seat = (enum rt_seat)seat, .when = WHEN};
		struct made m;

		make(&m, _i, false, &options);
		check_words(&m.sheet);
		gather(&m.sheet, "movement", told, sizeof told);
		for (size_t i = 0; i < m.n; i++) {
			ck_assert_msg(strstr(told, m.words[i].movement), "%s: not told",
				      m.words[i].movement);
			snprintf(head, sizeof head, "%s  %s", m.figure[i].item, m.words[i].letters);
			ck_assert(has_words(&m.sheet, "item", head));
		}
		ck_assert_uint_eq(count(&m.sheet, "ring"), m.n);
		ck_assert_uint_eq(count(&m.sheet, "driven"), m.n);
		ck_assert_uint_eq(count(&m.sheet, "before"), m.n - 1);
		ck_assert_uint_ge(count(&m.sheet, "arrow"), m.n);
		ck_assert_uint_eq(count(&m.sheet, "map") + count(&m.sheet, "band"), 0);
		for (int page = 1; page <= m.sheet.pages; page++) {
			snprintf(head, sizeof head, "page %d of %d", page, m.sheet.pages);
			ck_assert(has_words(&m.sheet, "page", head));
		}
		free_made(&m);
	}
}
END_TEST

START_TEST(all_of_it_is_clear_of_words)
{
	for (int seat = 0; seat < SEATS; seat++) {
		const struct rt_sheet_options options = {.seat = (enum rt_seat)seat,
							 .paper = RT_LETTER,
							 .when = WHEN,
							 .show = "Łódź & Þingvellir",
							 .feet = seat == RT_SEAT_C};
		struct made m;

		make(&m, _i, true, &options);
		check_words(&m.sheet);
		ck_assert_uint_eq(count(&m.sheet, "map"), m.n);
		ck_assert_uint_eq(count(&m.sheet, "band"), 2 * m.n);
		free_made(&m);
	}
}
END_TEST

/* Each piece drawn is that of its movement: its begin and its end on the page. */
START_TEST(a_drawing_shows_its_own_piece)
{
	const struct rt_sheet_options options = {.when = WHEN};
	struct rt_ring_view view = {0};
	struct made m;
	size_t leg = 0;

	make(&m, _i, false, &options);
	for (size_t i = 0; i < m.sheet.drawn.n; i++) {
		const struct rt_drawn *d = &m.sheet.drawn.at[i];
		const struct rt_pen_step *step = &m.sheet.step.at[d->first_step];
		struct rt_pose begin, end;
		double x, y;

		if (strcmp(d->role, "ring") == 0) {
			view.mm_per_m = (step[1].x_mm - step[0].x_mm) / 40.0;
			view.x_mm = (step[0].x_mm + step[1].x_mm) / 2.0;
			view.y_mm = (step[1].y_mm + step[2].y_mm) / 2.0;
		}
		if (strcmp(d->role, "driven") != 0)
			continue;
		begin = rt_path_at(&m.route.path, m.route.legs.at[leg].from_m, NULL);
		end = rt_path_at(&m.route.path, m.route.legs.at[leg].to_m, NULL);
		rt_ring_view_point(&view, begin.at.x, begin.at.y, &x, &y);
		ck_assert_double_eq_tol(step[0].x_mm, x, 1e-6);
		ck_assert_double_eq_tol(step[0].y_mm, y, 1e-6);
		rt_ring_view_point(&view, end.at.x, end.at.y, &x, &y);
		ck_assert_double_eq_tol(step[d->steps - 1].x_mm, x, 1e-6);
		ck_assert_double_eq_tol(step[d->steps - 1].y_mm, y, 1e-6);
		leg++;
	}
	ck_assert_uint_eq(leg, m.n);
	free_made(&m);
}
END_TEST

/* Training: a corner of 20 m and the turn at C leave nothing straight.  Advanced: 15 m do. */
START_TEST(nothing_straight_is_told)
{
	const struct rt_sheet_options options = {.when = WHEN};
	char told[2048];
	struct made m;

	make(&m, 0, false, &options);
	gather(&m.sheet, "meeting", told, sizeof told);
	ck_assert_ptr_nonnull(strstr(told, "turn at C, corner HC: nothing straight here"));
	ck_assert_ptr_nonnull(strstr(told, "corner CM, leave M: nothing straight here"));
	ck_assert_uint_ge(count(&m.sheet, "bar"), 5);
	free_made(&m);
	make(&m, 3, false, &options);
	ck_assert_uint_eq(count(&m.sheet, "meeting"), 0);
	ck_assert_uint_eq(count(&m.sheet, "bar"), 0);
	free_made(&m);
}
END_TEST

/* A movement that cannot be driven is told on the sheet; one whose words fill more than a page is
 * no sheet; a movement without a figure has none. */
START_TEST(what_cannot_be_is_told)
{
	const struct rt_sheet_options options = {.when = WHEN};
	struct made m = {.figure = {{"1", "X halt:3 back:3", "trot", NULL, 0},
				    {"2", "C H", "trot", NULL, 0},
				    {"3", "E circle:44:left", "trot", NULL, 0},
				    {"4", NULL, NULL, NULL, 0}},
			 .words = {{NULL, "One"}, {"C", NULL}, {"E", "Three"}, {NULL, "Four"}},
			 .n = 4};
	struct rt_route_sheet what = {
		.title = "Łódź", .words = m.words, .turnout = TURNOUT, .turnout_track_m = 1.0};
	const struct rt_ring_kind *kind = kind_named("driven-40x80");
	struct rt_error err;
	char told[2048], *long_words;

	make_route(&m, "intermediate");
	ck_assert_uint_gt(m.route.problems.n, 0);
	ck_assert_int_eq(rt_sheet_route(&m.sheet, &m.route, kind, &what, &options, NULL), RT_OK);
	check_words(&m.sheet);
	gather(&m.sheet, "problem", told, sizeof told);
	ck_assert_msg(strstr(told, "Cannot be driven so: circle"), "%s", told);
	ck_assert_ptr_nonnull(strstr(told, "largest that fits: 40 m"));
	ck_assert(has_words(&m.sheet, "stop", "stands 3\302\240s"));
	ck_assert(has_words(&m.sheet, "stop", "reins back 3 m"));
	gather(&m.sheet, "measure", told, sizeof told);
	ck_assert_ptr_nonnull(strstr(told, "no figure is written for it"));
	gather(&m.sheet, "total", told, sizeof told);
	ck_assert_ptr_nonnull(strstr(told, "cannot be driven as it is written"));
	ck_assert_uint_eq(count(&m.sheet, "halt"), 3); /* one in the key */
	rt_sheet_free(&m.sheet);

	long_words = calloc(1, 8001);
	ck_assert_ptr_nonnull(long_words);
	for (int i = 0; i < 1000; i++)
		memcpy(long_words + 8 * (size_t)i, "rein on ", 8);
	long_words[1600] = '\0'; /* too long for half a page's width, not for all of it */
	m.words[1].movement = long_words;
	ck_assert_int_eq(rt_sheet_route(&m.sheet, &m.route, kind, &what, &options, &err), RT_OK);
	check_words(&m.sheet);
	rt_sheet_free(&m.sheet);
	long_words[1600] = 'r';
	ck_assert_int_eq(rt_sheet_route(&m.sheet, &m.route, kind, &what, &options, &err),
			 RT_E_INPUT);
	ck_assert_str_eq(err.text, "movement 2: its words fill more than a page");
	free(long_words);
	free_made(&m);
}
END_TEST

/* ---- the practice sheet ---------------------------------------------------------------------- */

/* Every cone has its number on one drawing, and its row. */
static void cones_judged(struct rt_sheet *sheet, const struct rt_cones *cones)
{
	char words[16];

	check_words(sheet);
	ck_assert_uint_eq(count(sheet, "number"), cones->list.n);
	ck_assert_uint_ge(count(sheet, "cone"), cones->list.n);
	for (size_t i = 1; i <= cones->list.n; i++) {
		snprintf(words, sizeof words, "%zu", i);
		ck_assert(has_words(sheet, "number", words) && has_words(sheet, "cell", words));
	}
}

START_TEST(every_cone_of_a_test_is_numbered)
{
	const struct rt_ring_kind *kind = kind_named("driven-40x80");
	const struct rt_sheet_options options = {.when = WHEN, .seat = (enum rt_seat)_i};
	struct rt_cones cones = {0};
	struct rt_sheet sheet = {0};
	struct made m = {0};

	take_test(&m, demo[_i].test);
	make_route(&m, demo[_i].level);
	ck_assert_int_eq(rt_cones_make(&cones, &m.route.turns, kind, RT_TAPE_M, NULL), RT_OK);
	ck_assert_int_eq(rt_sheet_cones(&sheet, &cones, kind, demo[_i].test, &options, NULL),
			 RT_OK);
	cones_judged(&sheet, &cones);
	rt_sheet_free(&sheet);
	rt_cones_free(&cones);
	free_made(&m);
}
END_TEST

START_TEST(every_cone_of_a_level_is_numbered)
{
	for (size_t k = 0; k < kinds.n; k++) {
		const struct rt_level *level = &levels.at[_i];
		const struct rt_sheet_options options = {.when = WHEN,
							 .paper = k % 2 ? RT_LETTER : RT_A4,
							 .seat = (enum rt_seat)(k % 4)};
		const struct rt_turn_options as_it_is = {0};
		struct rt_turns turns = {0};
		struct rt_cones cones = {0};
		struct rt_sheet sheet = {0};

		if (level->discipline != kinds.at[k].discipline)
			continue;
		ck_assert_int_eq(
			rt_turns_make(&turns, &kinds.at[k], level, &gaits, &as_it_is, NULL), RT_OK);
		ck_assert_int_eq(rt_cones_make(&cones, &turns.list, &kinds.at[k], RT_TAPE_M, NULL),
				 RT_OK);
		ck_assert_int_eq(
			rt_sheet_cones(&sheet, &cones, &kinds.at[k], "turns", &options, NULL),
			RT_OK);
		cones_judged(&sheet, &cones);
		rt_sheet_free(&sheet);
		rt_cones_free(&cones);
		rt_turns_free(&turns);
	}
}
END_TEST

/* ---- files ----------------------------------------------------------------------------------- */

static char folder[] = "/tmp/check_sheet_route-XXXXXX";

static char *bytes(const char *path, size_t *n)
{
	FILE *f = fopen(path, "rb");
	char *s = malloc(1 << 22);

	ck_assert_ptr_nonnull(f);
	ck_assert_ptr_nonnull(s);
	*n = fread(s, 1, 1 << 22, f);
	fclose(f);
	return s;
}

/* The second time where numbers have a comma, on a machine that has such a place. */
START_TEST(the_same_route_gives_the_same_bytes)
{
	static const char *const ending[] = {"pdf", "svg"};
	const struct rt_sheet_options options = {.when = WHEN};

	for (int i = 0; i < 2; i++) {
		char path[256], *written[2];
		size_t n[2];

		snprintf(path, sizeof path, "%s/a.%s", folder, ending[i]);
		for (int k = 0; k < 2; k++) {
			struct made m;

			if (k)
				paper_locale("de_DE.UTF-8");
			make(&m, 2, true, &options);
			ck_assert_int_eq(write_sheet(&m.sheet, path, NULL), RT_OK);
			free_made(&m);
			paper_locale("C");
			written[k] = bytes(path, &n[k]);
			unlink(path);
		}
		ck_assert_uint_gt(n[0], 10000);
		ck_assert_uint_eq(n[0], n[1]);
		ck_assert_mem_eq(written[0], written[1], n[0]);
		free(written[0]);
		free(written[1]);
	}
}
END_TEST

int check_sheet_route(void)
{
	Suite *suite = suite_create("sheet_route");
	TCase *route = tcase_create("route"), *cones = tcase_create("cones");
	TCase *files = tcase_create("files");
	int failed;

	if (!mkdtemp(folder))
		return EXIT_FAILURE;
	tcase_add_loop_test(route, every_test_is_told_whole, 0, DEMO);
	tcase_add_loop_test(route, all_of_it_is_clear_of_words, 0, DEMO);
	tcase_add_loop_test(route, a_drawing_shows_its_own_piece, 0, DEMO);
	tcase_add_test(route, nothing_straight_is_told);
	tcase_add_test(route, what_cannot_be_is_told);
	tcase_add_loop_test(cones, every_cone_of_a_test_is_numbered, 0, DEMO);
	tcase_add_loop_test(cones, every_cone_of_a_level_is_numbered, 0, 10);
	tcase_add_test(files, the_same_route_gives_the_same_bytes);
	tcase_add_checked_fixture(route, read_rows, drop_rows);
	tcase_add_checked_fixture(cones, read_rows, drop_rows);
	tcase_add_checked_fixture(files, read_rows, drop_rows);
	tcase_set_timeout(route, 120);
	tcase_set_timeout(cones, 120);
	tcase_set_timeout(files, 120);
	suite_add_tcase(suite, route);
	suite_add_tcase(suite, cones);
	suite_add_tcase(suite, files);
	failed = suite_run(suite);
	rmdir(folder);
	return failed;
}
