/* Checks of sheet: what is drawn, the two writers, and the turn sheet of every shipped level.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <dirent.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <ringtrue/intake.h>
#include <ringtrue/sheet.h>

#include "paper_locale.h"
#include "sheet/internal.h"
#include "suite.h"
#include "written.h"

#define WHEN	 "2026-05-02 18:00:00"
#define SEATS	 4
#define PAPERS	 2
#define TOUCH_MM 0.01 /* boxes that share an edge do not overlap */

/* ---- shipped rows ---------------------------------------------------------------------------- */

static struct rt_ring_kinds kinds;
static struct rt_gaits gaits;
static struct rt_levels levels;

static void read_rows(void)
{
	const struct rt_roster roster = {.gaits = &gaits};
	const char *folder = getenv("RINGTRUE_DATA");
	struct rt_faults faults = {0};
	char path[4096];

	ck_assert_ptr_nonnull(folder);
	snprintf(path, sizeof path, "%s/rings.csv", folder);
	ck_assert_int_eq(rt_read_ring_kinds(&kinds, RT_FILE(path), &faults, NULL), RT_OK);
	snprintf(path, sizeof path, "%s/gaits.csv", folder);
	ck_assert_int_eq(rt_read_gaits(&gaits, RT_FILE(path), &faults, NULL), RT_OK);
	snprintf(path, sizeof path, "%s/levels.csv", folder);
	ck_assert_int_eq(rt_read_levels(&levels, RT_FILE(path), &roster, &faults, NULL), RT_OK);
	ck_assert_uint_eq(faults.total, 0);
	ck_assert_uint_ge(kinds.n, 4);
	ck_assert_uint_ge(levels.n, 10);
}

static void drop_rows(void)
{
	rt_ring_kinds_free(&kinds);
	RT_LIST_FREE(&gaits);
	RT_LIST_FREE(&levels);
}

/* The turns of a level, and their sheet. */
struct turn_sheet {
	struct rt_turns turns;
	struct rt_sheet sheet;
};

static void make_sheet(struct turn_sheet *out, const struct rt_ring_kind *kind,
		       const struct rt_level *level, const struct rt_turn_options *turn_options,
		       const struct rt_sheet_options *options)
{
	memset(out, 0, sizeof *out);
	ck_assert_int_eq(rt_turns_make(&out->turns, kind, level, &gaits, turn_options, NULL),
			 RT_OK);
	ck_assert_int_eq(rt_sheet_turns(&out->sheet, &out->turns, kind, options, NULL), RT_OK);
}

static void free_sheet(struct turn_sheet *s)
{
	rt_sheet_free(&s->sheet);
	rt_turns_free(&s->turns);
}

static const struct rt_ring_kind *kind_named(const char *name)
{
	const struct rt_ring_kind *kind = rt_ring_kind_find(&kinds, name);

	ck_assert_ptr_nonnull(kind);
	return kind;
}

/* The sheet most tests look at: intermediate in a ring of 40 x 80 m. */
static void make_intermediate(struct turn_sheet *out, enum rt_seat seat)
{
	const struct rt_sheet_options options = {.seat = seat, .when = WHEN};
	const struct rt_level *level = rt_level_find(&levels, "intermediate", RT_DRIVEN);

	ck_assert_ptr_nonnull(level);
	make_sheet(out, kind_named("driven-40x80"), level, &(struct rt_turn_options){0}, &options);
}

/* ---- numbers and words of SVG ---------------------------------------------------------------- */

START_TEST(numbers_have_three_decimals_at_most)
{
	static const struct {
		double v;
		const char *out;
	} row[] = {{0.0, "0"},		 {-0.0001, "0"},
		   {10.0, "10"},	 {100.0, "100"},
		   {1.5, "1.5"},	 {-2.25, "-2.25"},
		   {1.0 / 3.0, "0.333"}, {0.0006, "0.001"},
		   {-7.9996, "-8"},	 {123456.789, "123456.789"}};
	char out[48];

	for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
		rt__svg_number(row[i].v, out);
		ck_assert_str_eq(out, row[i].out);
	}
}
END_TEST

START_TEST(words_are_escaped)
{
	static const struct {
		const char *in, *out;
	} row[] = {
		{"", ""},
		{"Łódź, Þór, Őri & Åby", "Łódź, Þór, Őri &amp; Åby"},
		{"<b a=\"1\" c='2'>", "&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;"},
	};

	for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
		char *s = NULL;
		size_t n = 0;
		FILE *out = open_memstream(&s, &n);

		rt__svg_escape(out, row[i].in);
		fclose(out);
		ck_assert_str_eq(s, row[i].out);
		free(s);
	}
}
END_TEST

/* What no reader takes is replaced, whoever stored it, in what is drawn and what is measured. */
START_TEST(words_are_cleaned)
{
	static const struct rt_lettering plain = {.size_pt = 12.0};
	static const char
		bad[] = "a\tb\r\x1b[1m\xEF\xBF\xBE \xE9\n\xC2\x9B",
		good[] = "a b\xEF\xBF\xBD\xEF\xBF\xBD[1m\xEF\xBF\xBD \xEF\xBF\xBD \xEF\xBF\xBD";
	struct rt_sheet sheet = {0};
	char stray[2001];

	ck_assert_int_eq(rt_sheet_begin(&sheet, RT_A4, bad, bad, NULL), RT_OK);
	ck_assert_str_eq(sheet.title, good);
	ck_assert_str_eq(sheet.when, good);
	rt_sheet_page(&sheet);
	rt_sheet_text(&sheet, "words", bad, 10.0, 10.0, &plain);
	ck_assert_str_eq(sheet.drawn.at[0].words, good);
	ck_assert(rt_sheet_measure(&sheet, bad, &plain).width_mm ==
		  rt_sheet_measure(&sheet, good, &plain).width_mm);
	/* bytes that begin no character are broken into lines like any word */
	memset(stray, 0x80, sizeof stray - 1);
	stray[sizeof stray - 1] = '\0';
	ck_assert(rt__set_lines(&sheet, "words", stray, 10.0, 20.0, 100.0, &plain, false) > 100.0);
	rt_sheet_free(&sheet);
}
END_TEST

START_TEST(words_are_added_whole)
{
	char out[8] = "a";

	rt__add_words(out, sizeof out, "%s", "bcd\xE9\xA6\xAC");
	ck_assert_str_eq(out, "abcd\xE9\xA6\xAC");
	strcpy(out, "a");
	rt__add_words(out, sizeof out, "%s", "bcde\xE9\xA6\xAC");
	ck_assert_str_eq(out, "abcde");
	strcpy(out, "a");
	rt__add_words(out, sizeof out, "%s",
		      "\x80\xFF"
		      "d\x80xyz");
	ck_assert_str_eq(out, "a\x80\xFF"
			      "d\x80xy");
}
END_TEST

/* ---- what is drawn --------------------------------------------------------------------------- */

START_TEST(words_are_measured_as_they_are_set)
{
	struct rt_sheet sheet = {0};
	struct rt_lettering type = {.size_pt = 12.0};
	struct rt_extent plain, twice, large;
	struct rt_area area;

	ck_assert_int_eq(rt_sheet_begin(&sheet, RT_A4, "t", WHEN, NULL), RT_OK);
	plain = rt_sheet_measure(&sheet, "Őri", &type);
	twice = rt_sheet_measure(&sheet, "ŐriŐri", &type);
	type.size_pt = 24.0;
	large = rt_sheet_measure(&sheet, "Őri", &type);
	ck_assert_double_eq_tol(twice.width_mm, 2.0 * plain.width_mm, 0.1);
	ck_assert_double_eq_tol(large.width_mm, 2.0 * plain.width_mm, 0.1);
	/* 24 points are 8.5 mm: letters with an accent are nearly that high */
	ck_assert_double_gt(large.ascent_mm, 6.0);
	ck_assert_double_lt(large.ascent_mm, 8.5);

	/* turned a quarter clockwise, words read downwards: the box is as high as they are long */
	type.turned_deg = 90.0;
	rt_sheet_page(&sheet);
	rt_sheet_text(&sheet, "t", "Őri", 100.0, 50.0, &type);
	area = rt_drawn_area(&sheet.drawn.at[0]);
	ck_assert_double_eq_tol(area.top_mm, 50.0, 1e-9);
	ck_assert_double_eq_tol(area.bottom_mm, 50.0 + large.width_mm, 1e-9);
	ck_assert_double_eq_tol(area.right_mm, 100.0 + large.ascent_mm, 1e-9);
	rt_sheet_free(&sheet);
}
END_TEST

START_TEST(lines_break_at_spaces_and_lose_nothing)
{
	const char *words =
		"An estimate for planning of Łódź, and averylongwordthatfitsnowhere at all.";
	const struct rt_lettering type = {.size_pt = 12.0};
	struct rt_sheet sheet = {0};
	char all[256] = "";
	double height;

	ck_assert_int_eq(rt_sheet_begin(&sheet, RT_A4, "t", WHEN, NULL), RT_OK);
	rt_sheet_page(&sheet);
	height = rt__set_lines(&sheet, "t", words, 10.0, 20.0, 40.0, &type, false);
	ck_assert_uint_eq(sheet.drawn.n, 0);
	ck_assert_double_eq(height,
			    rt__set_lines(&sheet, "t", words, 10.0, 20.0, 40.0, &type, true));
	ck_assert_double_eq_tol(height, (double)sheet.drawn.n * RT__LINE_MM, 1e-9);
	ck_assert_uint_gt(sheet.drawn.n, 3);
	for (size_t i = 0; i < sheet.drawn.n; i++) {
		const struct rt_drawn *d = &sheet.drawn.at[i];

		/* a long word is cut after "wordt" and goes on without a space */
		snprintf(all + strlen(all), sizeof all - strlen(all), "%s%s",
			 i && strncmp(d->words, "hatfits", 7) != 0 ? " " : "", d->words);
		ck_assert_double_le(d->extent.width_mm, 40.0);
	}
	ck_assert_str_eq(all, words);
	rt_sheet_free(&sheet);
}
END_TEST

/* ---- a ring on a page ------------------------------------------------------------------------ */

START_TEST(every_seat_turns_the_ring_and_none_mirrors_it)
{
	/* which point of a ring of 40 x 80 m is nearest to the reader, and which is to their right
	 */
	static const struct {
		enum rt_seat seat;
		double near_x, near_y, right_x, right_y;
	} row[] = {
		{RT_SEAT_A, 0, -40, 20, 0}, /* B is to the right of somebody at A */
		{RT_SEAT_C, 0, 40, -20, 0}, /* E to the right of the judge at C */
		{RT_SEAT_B, 20, 0, 0, 40},  /* C to the right of the judge at B */
		{RT_SEAT_E, -20, 0, 0, -40},
	};

	for (int i = 0; i < SEATS; i++) {
		const struct rt_ring_view view = {row[i].seat, 2.0, 100.0, 150.0};
		double x, y, xx, xy, yx, yy;

		rt_ring_view_point(&view, row[i].near_x, row[i].near_y, &x, &y);
		ck_assert_double_eq_tol(x, 100.0, 1e-9);
		ck_assert_double_gt(y, 150.0);
		rt_ring_view_point(&view, row[i].right_x, row[i].right_y, &x, &y);
		ck_assert_double_gt(x, 100.0);
		ck_assert_double_eq_tol(y, 150.0, 1e-9);
		rt_ring_view_toward(&view, 1.0, 0.0, &xx, &xy);
		rt_ring_view_toward(&view, 0.0, 1.0, &yx, &yy);
		/* y counts downwards on a page: a turned ring has the determinant -1, a mirrored 1
		 */
		ck_assert_double_eq_tol(xx * yy - xy * yx, -1.0, 1e-12);
	}
}
END_TEST

/* A straight of 10 m from X towards C, then a left half circle of 8 m: where it ends, and that it
 * turns against the clock on the page from every seat. */
START_TEST(a_path_is_drawn_where_it_is_driven)
{
	const double r = 4.0;
	const struct rt_piece piece[] = {
		{{{0.0, 0.0}, {0.0, 1.0}}, 10.0, 0.0},
		{{{0.0, 10.0}, {0.0, 1.0}}, RT__PI * r, 1.0 / r},
	};
	const struct rt_pen pen = {.width_mm = 1.0, .stroke = RT_INK_BLACK};

	for (int seat = 0; seat < SEATS; seat++) {
		const struct rt_ring_view view = {(enum rt_seat)seat, 2.0, 100.0, 150.0};
		struct rt_sheet sheet = {0};
		const struct rt_pen_step *step;
		double x, y;

		ck_assert_int_eq(rt_sheet_begin(&sheet, RT_A4, "t", WHEN, NULL), RT_OK);
		rt_sheet_page(&sheet);
		rt_sheet_path(&sheet, "path", &pen, &view, piece, 2);
		ck_assert_uint_eq(sheet.drawn.n, 1);
		ck_assert_uint_eq(sheet.step.n, 3);
		step = sheet.step.at;
		ck_assert_int_eq(step[2].kind, RT_PEN_ARC);
		ck_assert_double_eq_tol(step[2].turned_rad, -RT__PI, 1e-12);
		rt_ring_view_point(&view, -2.0 * r, 10.0, &x, &y);
		ck_assert_double_eq_tol(step[2].x_mm, x, 1e-9);
		ck_assert_double_eq_tol(step[2].y_mm, y, 1e-9);
		rt_sheet_free(&sheet);
	}
}
END_TEST

/* ---- the turn sheet -------------------------------------------------------------------------- */

static bool overlap(const struct rt_area *a, const struct rt_area *b)
{
	return a->left_mm < b->right_mm - TOUCH_MM && b->left_mm < a->right_mm - TOUCH_MM &&
	       a->top_mm < b->bottom_mm - TOUCH_MM && b->top_mm < a->bottom_mm - TOUCH_MM;
}

/* Every word within the page's margins and over no other; nothing smaller than 12 points. */
static void check_words(const struct rt_sheet *sheet)
{
	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *a = &sheet->drawn.at[i];
		struct rt_area area;

		if (!a->words)
			continue;
		ck_assert_double_ge(a->lettering.size_pt, 12.0);
		area = rt_drawn_area(a);
		ck_assert_msg(area.left_mm >= 9.5 && area.right_mm <= sheet->width_mm - 9.5 &&
				      area.top_mm >= 12.0 &&
				      area.bottom_mm <= sheet->height_mm - 9.5,
			      "\"%s\" stands off the page", a->words);
		for (size_t k = 0; k < i; k++) {
			const struct rt_drawn *b = &sheet->drawn.at[k];
			struct rt_area other;

			if (!b->words || b->page != a->page)
				continue;
			other = rt_drawn_area(b);
			ck_assert_msg(!overlap(&area, &other), "\"%s\" and \"%s\" overlap",
				      a->words, b->words);
		}
	}
}

static bool has_words(const struct rt_sheet *sheet, const char *role, const char *words)
{
	for (size_t i = 0; i < sheet->drawn.n; i++)
		if (sheet->drawn.at[i].words && strcmp(sheet->drawn.at[i].role, role) == 0 &&
		    strcmp(sheet->drawn.at[i].words, words) == 0)
			return true;
	return false;
}

/* Each number that stands in the table stands on the drawing. */
static void check_numbers(const struct rt_sheet *sheet)
{
	for (char n = '1'; n <= '4'; n++) {
		const char words[] = {n, '\0'};

		ck_assert_msg(!has_words(sheet, "key", words) || has_words(sheet, "number", words),
			      "no arc is numbered %s", words);
	}
}

/* How far a box is from the middle of a circle. */
static double away(const struct rt_area *box, double x, double y)
{
	return hypot(fmax(0.0, fmax(box->left_mm - x, x - box->right_mm)),
		     fmax(0.0, fmax(box->top_mm - y, y - box->bottom_mm)));
}

/* The circle of every number on the drawing a millimetre at least from every letter. */
static void check_badges(const struct rt_sheet *sheet)
{
	for (size_t i = 1; i < sheet->drawn.n; i++) {
		const struct rt_drawn *number = &sheet->drawn.at[i], *badge = number - 1;
		const struct rt_pen_step *step = &sheet->step.at[badge->first_step];
		struct rt_area area;
		double x, y, radius;

		if (strcmp(number->role, "number") != 0)
			continue;
		ck_assert_str_eq(badge->role, "badge");
		ck_assert_int_eq(step[1].kind, RT_PEN_ARC);
		x = step[1].centre_x_mm;
		y = step[1].centre_y_mm;
		radius = hypot(step->x_mm - x, step->y_mm - y) + badge->pen.width_mm / 2.0;
		for (size_t k = 0; k < sheet->drawn.n; k++) {
			const struct rt_drawn *letter = &sheet->drawn.at[k];

			if (letter->page != number->page || strcmp(letter->role, "letter") != 0)
				continue;
			area = rt_drawn_area(letter);
			ck_assert_msg(away(&area, x, y) >= radius + 1.0 - TOUCH_MM,
				      "number %s stands %.2f mm from letter %s", number->words,
				      away(&area, x, y) - radius, letter->words);
		}
	}
}

/* The box of a straight line, its pen included. */
static struct rt_area line_area(const struct rt_sheet *sheet, const struct rt_drawn *line)
{
	const struct rt_pen_step *s = &sheet->step.at[line->first_step];
	double pen = line->pen.width_mm / 2.0;

	ck_assert_uint_eq(line->steps, 2);
	return (struct rt_area){fmin(s[0].x_mm, s[1].x_mm) - pen, fmin(s[0].y_mm, s[1].y_mm) - pen,
				fmax(s[0].x_mm, s[1].x_mm) + pen, fmax(s[0].y_mm, s[1].y_mm) + pen};
}

/* No distance across a quarter line, and no letter on the line of a distance. */
static void check_distances(const struct rt_sheet *sheet)
{
	size_t quarters = 0;

	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *line = &sheet->drawn.at[i];
		bool quarter = strcmp(line->role, "quarter") == 0;
		const char *words = quarter ? "distance" : "letter";
		struct rt_area area, other;

		if (!quarter && strcmp(line->role, "dimension") != 0)
			continue;
		quarters += quarter;
		area = line_area(sheet, line);
		for (size_t k = 0; k < sheet->drawn.n; k++) {
			const struct rt_drawn *d = &sheet->drawn.at[k];

			if (d->page != line->page || strcmp(d->role, words) != 0)
				continue;
			other = rt_drawn_area(d);
			ck_assert_msg(!overlap(&area, &other), "%s %s stands on a %s line", words,
				      d->words, line->role);
		}
	}
	ck_assert_uint_eq(quarters, 2);
}

START_TEST(every_shipped_kind_and_level_fits_on_one_page)
{
	for (size_t k = 0; k < kinds.n; k++)
		for (size_t l = 0; l < levels.n; l++)
			for (int i = 0; i < SEATS * PAPERS; i++) {
				const struct rt_sheet_options options = {
					.seat = (enum rt_seat)(i % SEATS),
					.paper = i < SEATS ? RT_A4 : RT_LETTER,
					.when = WHEN,
				};
				const struct rt_turn_options as_it_is = {0};
				struct turn_sheet s;

				if (levels.at[l].discipline != kinds.at[k].discipline)
					continue;
				make_sheet(&s, &kinds.at[k], &levels.at[l], &as_it_is, &options);
				ck_assert_int_eq(s.sheet.pages, 1);
				check_words(&s.sheet);
				check_numbers(&s.sheet);
				check_badges(&s.sheet);
				check_distances(&s.sheet);
				ck_assert(has_words(&s.sheet, "page", "page 1 of 1"));
				free_sheet(&s);
			}
}
END_TEST

/* Other animals, diameters, tracks and feet. */
START_TEST(other_turns_fit_on_one_page)
{
	static const struct {
		const char *kind, *level;
		struct rt_turn_options turns;
		bool feet;
	} row[] = {
		{"driven-40x80", "training", {.height_cm = 97.0}, false},
		{"driven-40x80", "advanced", {.track_m = 1.25}, false},
		{"driven-40x100", "training", {.diameter_m = 40.0}, false},
		{"driven-40x80", "intermediate", {.track_m = 0.0}, true},
		{"ridden-20x60", "third", {.diameter_m = 3.3}, false},
		{"ridden-20x40", "second", {.height_cm = 122.0, .track_m = 0.75}, true},
	};

	for (size_t i = 0; i < sizeof row / sizeof *row; i++)
		for (int seat = 0; seat < SEATS; seat++) {
			const struct rt_ring_kind *kind = kind_named(row[i].kind);
			const struct rt_sheet_options options = {
				.seat = (enum rt_seat)seat, .when = WHEN, .feet = row[i].feet};
			struct turn_sheet s;

			make_sheet(&s, kind, rt_level_find(&levels, row[i].level, kind->discipline),
				   &row[i].turns, &options);
			ck_assert_int_eq(s.sheet.pages, 1);
			check_words(&s.sheet);
			check_numbers(&s.sheet);
			check_badges(&s.sheet);
			check_distances(&s.sheet);
			free_sheet(&s);
		}
}
END_TEST

/* A ring with many letters at uneven distances, and turns so large that hardly one fits: each is
 * told by itself, under one heading in each column, and the table is longer than a page. */
START_TEST(a_long_table_goes_on_over_pages)
{
	static const char *const name[] = {
		"K", "V", "Ł", "S", "H", "Å", "N", "T", "U", "Л", "Ø", "П", "Б", "D", "E", "G",
		"F", "P", "B", "R", "M", "Þ", "O", "Q", "Y", "Z", "Г", "Ð", "И", "I", "J", "L",
		"X", "З", "Ч", "Э", "Я", "Ц", "Δ", "Θ", "Λ", "Ξ", "Σ", "Ψ", "Ω", "Є", "Ь", "Ъ"};
	static const double offset[] = {5,  11, 18, 24, 30,  36,  42,  48,  55,	 61,  67,  73,
					80, 86, 92, 98, 104, 110, 117, 123, 129, 135, 141, 147};
	enum { SIDE = sizeof offset / sizeof *offset };
	struct rt_letter letter[2 * SIDE + 2];
	struct rt_ring_kind kind = {
		.name = "odd-74x150", .discipline = RT_DRIVEN, .width_m = 74.0, .length_m = 150.0};
	const struct rt_sheet_options options = {.when = WHEN};
	const struct rt_level *level = rt_level_find(&levels, "advanced", RT_DRIVEN);
	struct turn_sheet s;
	char words[32];

	for (int i = 0; i < 2 * SIDE; i++)
		letter[i] = (struct rt_letter){name[i], i < SIDE ? RT_LEFT : RT_RIGHT,
					       offset[i % SIDE]};
	letter[2 * SIDE] = (struct rt_letter){"A", RT_SIDE_A, 37.0};
	letter[2 * SIDE + 1] = (struct rt_letter){"C", RT_SIDE_C, 37.0};
	kind.letters.at = letter;
	kind.letters.n = 2 * SIDE + 2;
	make_sheet(&s, &kind, level, &(struct rt_turn_options){.diameter_m = 75.0}, &options);
	ck_assert_int_gt(s.sheet.pages, 1);
	check_words(&s.sheet);
	for (int page = 1; page <= s.sheet.pages; page++) {
		snprintf(words, sizeof words, "page %d of %d", page, s.sheet.pages);
		ck_assert(has_words(&s.sheet, "page", words));
	}
	for (int i = 0; i < 2 * SIDE; i++)
		ck_assert(has_words(&s.sheet, "letter", name[i]));
	free_sheet(&s);
}
END_TEST

/* The practice values of driven dressage: at intermediate the turn off the centreline begins a
 * metre past G and leaves 2 m straight; at training nothing is straight. */
START_TEST(the_table_tells_the_turns)
{
	const struct rt_sheet_options options = {.when = WHEN};
	struct turn_sheet s;

	make_intermediate(&s, RT_SEAT_A);
	ck_assert(has_words(&s.sheet, "head", "Diagonal H X F or M X K"));
	ck_assert(has_words(&s.sheet, "between", "then 2 m straight"));
	ck_assert(has_words(&s.sheet, "head", "Does not fit: 18 m"));
	ck_assert(has_words(&s.sheet, "distance", "9 m"));
	ck_assert(!has_words(&s.sheet, "between", "nothing straight here"));
	free_sheet(&s);
	make_sheet(&s, kind_named("driven-40x80"), rt_level_find(&levels, "training", RT_DRIVEN),
		   &(struct rt_turn_options){0}, &options);
	ck_assert(has_words(&s.sheet, "between", "nothing straight here"));
	ck_assert(has_words(&s.sheet, "begin", "G"));
	free_sheet(&s);
}
END_TEST

/* Where nothing fits, that is said once. */
START_TEST(what_does_not_fit_has_one_heading)
{
	const struct rt_sheet_options options = {.when = WHEN};
	size_t heads = 0, lines = 0;
	struct turn_sheet s;

	make_sheet(&s, kind_named("driven-40x80"), rt_level_find(&levels, "advanced", RT_DRIVEN),
		   &(struct rt_turn_options){.diameter_m = 60.0}, &options);
	for (size_t i = 0; i < s.sheet.drawn.n; i++) {
		heads += strcmp(s.sheet.drawn.at[i].role, "head") == 0;
		lines += strcmp(s.sheet.drawn.at[i].role, "unfit") == 0;
	}
	ck_assert_uint_eq(heads, 1);
	ck_assert_uint_gt(lines, 6);
	free_sheet(&s);
}
END_TEST

/* ---- files ----------------------------------------------------------------------------------- */

static char folder[] = "/tmp/check_sheet-XXXXXX";

static const char *in_folder(char path[static 256], const char *name)
{
	snprintf(path, 256, "%s/%s", folder, name);
	return path;
}

/* The bytes of a file; yours. */
static char *bytes(const char *path, size_t *n)
{
	FILE *f = fopen(path, "rb");
	char *s = malloc(1 << 20);

	ck_assert_ptr_nonnull(f);
	ck_assert_ptr_nonnull(s);
	*n = fread(s, 1, (1 << 20) - 1, f);
	s[*n] = '\0';
	fclose(f);
	return s;
}

static size_t files_in_folder(void)
{
	DIR *d = opendir(folder);
	size_t n = 0;

	ck_assert_ptr_nonnull(d);
	while (readdir(d))
		n++;
	closedir(d);
	return n - 2;
}

static void empty_folder(void)
{
	static const char *const name[] = {"a.pdf", "b.pdf", "a.svg", "b.svg"};
	char path[256];

	for (size_t i = 0; i < sizeof name / sizeof *name; i++)
		unlink(in_folder(path, name[i]));
}

/* The second time where numbers have a comma, on a machine that has such a place. */
START_TEST(the_same_sheet_gives_the_same_bytes)
{
	static const char *const name[][2] = {{"a.pdf", "b.pdf"}, {"a.svg", "b.svg"}};

	for (int i = 0; i < 2; i++) {
		char path[256], *first, *second;
		size_t n, m;

		for (int k = 0; k < 2; k++) {
			struct turn_sheet s;

			if (k)
				paper_locale("de_DE.UTF-8");
			make_intermediate(&s, RT_SEAT_C);
			ck_assert_int_eq(write_sheet(&s.sheet, in_folder(path, name[i][k]), NULL),
					 RT_OK);
			free_sheet(&s);
			paper_locale("C");
		}
		first = bytes(in_folder(path, name[i][0]), &n);
		second = bytes(in_folder(path, name[i][1]), &m);
		ck_assert_uint_gt(n, 5000);
		ck_assert_uint_eq(n, m);
		ck_assert_mem_eq(first, second, n);
		free(first);
		free(second);
	}
	ck_assert_uint_eq(files_in_folder(), 4);
	empty_folder();
}
END_TEST

START_TEST(the_file_carries_title_and_date)
{
	struct turn_sheet s;
	char path[256], *file;
	size_t n;

	make_intermediate(&s, RT_SEAT_A);
	ck_assert_int_eq(write_sheet(&s.sheet, in_folder(path, "a.pdf"), NULL), RT_OK);
	file = bytes(path, &n);
	ck_assert_mem_eq(file, "%PDF-", 5);
	ck_assert_ptr_nonnull(memmem(file, n, "20260502180000", 14));
	free(file);
	ck_assert_int_eq(write_sheet(&s.sheet, in_folder(path, "a.SVG"), NULL), RT_OK);
	file = bytes(path, &n);
	ck_assert_ptr_nonnull(strstr(file, "<title>Turns: intermediate, driven-40x80</title>"));
	ck_assert_ptr_nonnull(strstr(file, "<desc>made " WHEN "</desc>"));
	free(file);
	unlink(path);
	free_sheet(&s);
	empty_folder();
}
END_TEST

/* No file where there was none, and the old one whole where there was: no folder, no room. */
START_TEST(a_failure_leaves_things_as_they_were)
{
	static const char *const name[] = {"a.pdf", "a.svg"}, *const old[] = {"%PDF-", "<svg/>"};
	struct rlimit before, little;
	struct rt_error err = {0};
	struct turn_sheet s;
	char path[256], *file;
	size_t n;

	make_intermediate(&s, RT_SEAT_A);
	ck_assert_int_eq(write_sheet(&s.sheet, in_folder(path, "none/a.pdf"), &err), RT_E_IO);
	ck_assert_uint_eq(files_in_folder(), 0);
	signal(SIGXFSZ, SIG_IGN);
	for (int i = 0; i < 4; i++) {
		FILE *f = i < 2 ? NULL : fopen(in_folder(path, name[i % 2]), "w");

		if (f) {
			fputs(old[i % 2], f);
			fclose(f);
		}
		ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
		little = before;
		little.rlim_cur = 2000;
		ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &little), 0);
		ck_assert_int_eq(write_sheet(&s.sheet, in_folder(path, name[i % 2]), &err),
				 RT_E_IO);
		ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
		ck_assert_uint_eq(files_in_folder(), f ? (size_t)i - 1 : 0);
		if (f) {
			file = bytes(path, &n);
			ck_assert_str_eq(file, old[i % 2]);
			free(file);
		}
	}
	free_sheet(&s);
	empty_folder();
}
END_TEST

/* Pages stand one under another in an SVG, each a group of its own. */
START_TEST(pages_of_an_svg_are_stacked)
{
	const struct rt_lettering type = {.size_pt = 12.0};
	struct rt_sheet sheet = {0};
	char path[256], *file;
	size_t n;

	ck_assert_int_eq(rt_sheet_begin(&sheet, RT_LETTER, "Łódź & Þ", WHEN, NULL), RT_OK);
	rt_sheet_page(&sheet);
	rt_sheet_text(&sheet, "t", "one", 20.0, 20.0, &type);
	rt_sheet_page(&sheet);
	rt_sheet_text(&sheet, "t", "two", 20.0, 20.0, &type);
	ck_assert_int_eq(write_sheet(&sheet, in_folder(path, "a.svg"), NULL), RT_OK);
	file = bytes(path, &n);
	ck_assert_ptr_nonnull(strstr(file, "viewBox=\"0 0 215.9 568.8\""));
	ck_assert_ptr_nonnull(strstr(file, "<title>Łódź &amp; Þ</title>"));
	ck_assert_ptr_nonnull(strstr(file, "<g id=\"page-2\" transform=\"translate(0 289.4)\">"));
	free(file);
	rt_sheet_free(&sheet);
	empty_folder();
}
END_TEST

int check_sheet(void)
{
	Suite *suite = suite_create("sheet");
	TCase *drawn = tcase_create("drawn"), *turns = tcase_create("turns");
	TCase *files = tcase_create("files");
	int failed;

	if (!mkdtemp(folder))
		return EXIT_FAILURE;
	tcase_add_test(drawn, numbers_have_three_decimals_at_most);
	tcase_add_test(drawn, words_are_escaped);
	tcase_add_test(drawn, words_are_cleaned);
	tcase_add_test(drawn, words_are_added_whole);
	tcase_add_test(drawn, words_are_measured_as_they_are_set);
	tcase_add_test(drawn, lines_break_at_spaces_and_lose_nothing);
	tcase_add_test(drawn, every_seat_turns_the_ring_and_none_mirrors_it);
	tcase_add_test(drawn, a_path_is_drawn_where_it_is_driven);
	tcase_add_test(turns, every_shipped_kind_and_level_fits_on_one_page);
	tcase_add_test(turns, other_turns_fit_on_one_page);
	tcase_add_test(turns, a_long_table_goes_on_over_pages);
	tcase_add_test(turns, the_table_tells_the_turns);
	tcase_add_test(turns, what_does_not_fit_has_one_heading);
	tcase_add_test(files, the_same_sheet_gives_the_same_bytes);
	tcase_add_test(files, the_file_carries_title_and_date);
	tcase_add_test(files, a_failure_leaves_things_as_they_were);
	tcase_add_test(files, pages_of_an_svg_are_stacked);
	tcase_add_checked_fixture(turns, read_rows, drop_rows);
	tcase_add_checked_fixture(files, read_rows, drop_rows);
	tcase_set_timeout(turns, 120);
	suite_add_tcase(suite, drawn);
	suite_add_tcase(suite, turns);
	suite_add_tcase(suite, files);
	failed = suite_run(suite);
	rmdir(folder);
	return failed;
}
