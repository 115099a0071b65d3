/* Checks of sheet: the papers of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ringtrue/sheet.h>

#include "ring_field.h"
#include "sheet/internal.h"
#include "suite.h"

#define WHEN	 "2026-05-09 18:00:00"
#define MARGIN	 9.9
#define SEATS	 4
#define TOUCH_MM 0.01

/* ---- rings and their papers ------------------------------------------------------------------ */

/* A check and a paper of it. */
struct made {
	struct field f;
	struct rt_ring_check check;
	struct rt_footing footing;
	struct rt_check_paper paper;
	struct rt_sheet sheet;
};

static const struct rt_sheet_options plain = {.when = WHEN};

/* Check the ring as its pegs were moved and its readings taken. */
static void made_check(struct made *m)
{
	check_field(&m->check, &m->f, RT_FIT_FEWEST);
	m->paper.check = &m->check;
}

static void made_footing(struct made *m, double across)
{
	static const struct rt_footing_limits limits = {0.5, 0.2, "a rulebook"};
	struct rt_height height[64];
	struct rt_heights heights = {.at = height};

	for (size_t i = 0; i < m->f.pegs.n; i++)
		height[heights.n++] = (struct rt_height){m->f.pegs.at[i].name,
							 across * m->f.pegs.at[i].x_m, NAN, "", 0};
	ck_assert_int_eq(rt_footing_make(&m->footing, &kind_40x80, &heights, &limits, NULL), RT_OK);
	m->paper.footing = &m->footing;
}

static void made_sheet(struct made *m, const struct rt_sheet_options *options)
{
	struct rt_error err = {0};

	rt_sheet_free(&m->sheet);
	ck_assert_msg(rt_sheet_check(&m->sheet, &m->paper, options, &err) == RT_OK, "%s", err.text);
}

static void made_free(struct made *m)
{
	rt_sheet_free(&m->sheet);
	rt_footing_free(&m->footing);
	rt_ring_check_free(&m->check);
	field_close(&m->f);
}

static void made_open(struct made *m)
{
	memset(m, 0, sizeof *m);
	field_open(&m->f, 0.5);
}

/* A true ring; one with a peg half a metre off and one a centimetre; one with wrong readings; one
 * whose readings contradict each other; one where all is off. */
enum ring { TRUE_RING, MOVES, WRONG, DOUBT, ALL_OFF, RINGS };

static void made_ring(struct made *m, enum ring ring)
{
	made_open(m);
	if (ring == MOVES) {
		move_peg(&m->f, "B", 0, -0.53);
		move_peg(&m->f, "M", 0.01, 0);
		move_peg(&m->f, "K", -0.2, 0.11);
	}
	for (size_t i = 0; ring == ALL_OFF && i < m->f.pegs.n; i++)
		move_peg(&m->f, m->f.pegs.at[i].name, 0.5 * sin(3.0 * (double)i),
			 0.5 * cos(5.0 * (double)i));
	if (ring == ALL_OFF)
		tape_all(&m->f);
	else
		tape_crew(&m->f);
	if (ring == WRONG) {
		m->f.reading[16].value += 1;
		m->f.reading[24].value -= 0.4;
	}
	for (size_t i = 0; ring == DOUBT && i < m->f.readings.n; i += 2)
		m->f.reading[i].value += 0.5 * sin((double)i);
	made_check(m);
}

/* ---- what was drawn -------------------------------------------------------------------------- */

static size_t count(const struct rt_sheet *s, const char *role)
{
	size_t n = 0;

	for (size_t i = 0; i < s->drawn.n; i++)
		n += strcmp(s->drawn.at[i].role, role) == 0;
	return n;
}

static bool says(const struct rt_sheet *s, const char *words)
{
	char all[16384] = "";
	size_t used = 0;

	for (size_t i = 0; i < s->drawn.n; i++)
		if (s->drawn.at[i].words)
			used += (size_t)snprintf(all + used, sizeof all - used, "%s ",
						 s->drawn.at[i].words);
	ck_assert_uint_lt(used, sizeof all);
	return strstr(all, words) != NULL;
}

static struct rt_area box_of(const struct rt_sheet *s, const struct rt_drawn *d)
{
	struct rt_area a = {INFINITY, INFINITY, -INFINITY, -INFINITY};

	if (d->words)
		return rt_drawn_area(d);
	for (size_t i = 0; i < d->steps; i++) {
		const struct rt_pen_step *p = &s->step.at[d->first_step + i];
		bool arc = p->kind == RT_PEN_ARC; /* whole circles only are drawn here */
		double x = arc ? p->centre_x_mm : p->x_mm, y = arc ? p->centre_y_mm : p->y_mm;
		double r = arc ? hypot(p->x_mm - x, p->y_mm - y) : 0;

		a.left_mm = fmin(a.left_mm, x - r);
		a.right_mm = fmax(a.right_mm, x + r);
		a.top_mm = fmin(a.top_mm, y - r);
		a.bottom_mm = fmax(a.bottom_mm, y + r);
	}
	return a;
}

static void middle_of(const struct rt_sheet *s, const struct rt_drawn *d, double *x, double *y)
{
	struct rt_area a = box_of(s, d);

	*x = (a.left_mm + a.right_mm) / 2;
	*y = (a.top_mm + a.bottom_mm) / 2;
}

static void all_inside(const struct rt_sheet *s)
{
	for (size_t i = 0; i < s->drawn.n; i++) {
		struct rt_area a = box_of(s, &s->drawn.at[i]);

		ck_assert_msg(a.left_mm > MARGIN && a.right_mm < s->width_mm - MARGIN &&
				      a.top_mm > MARGIN && a.bottom_mm < s->height_mm - MARGIN,
			      "%s %s: %.1f %.1f to %.1f %.1f", s->drawn.at[i].role,
			      s->drawn.at[i].words ? s->drawn.at[i].words : "", a.left_mm, a.top_mm,
			      a.right_mm, a.bottom_mm);
	}
}

static void no_words_over_words(const struct rt_sheet *s)
{
	for (size_t i = 0; i < s->drawn.n; i++) {
		const struct rt_drawn *p = &s->drawn.at[i];
		struct rt_area a, b;

		for (size_t k = 0; p->words && k < i; k++) {
			const struct rt_drawn *q = &s->drawn.at[k];

			if (!q->words || q->page != p->page)
				continue;
			a = rt_drawn_area(p);
			b = rt_drawn_area(q);
			/* descents may reach into the line below; baselines tell lines apart */
			ck_assert_msg(a.left_mm >= b.right_mm - TOUCH_MM ||
					      b.left_mm >= a.right_mm - TOUCH_MM ||
					      fabs(p->y_mm - q->y_mm) > 4.0,
				      "\"%s\" over \"%s\"", p->words, q->words);
		}
	}
}

/* How much larger than the ring offsets are drawn, as the key says. */
static double told_times(const struct rt_sheet *s)
{
	for (size_t i = 0; i < s->drawn.n; i++) {
		const char *at = s->drawn.at[i].words
					 ? strstr(s->drawn.at[i].words, " times larger")
					 : NULL;

		if (!at)
			continue;
		while (at > s->drawn.at[i].words && at[-1] != ' ')
			at--;
		return strtod(at, NULL);
	}
	ck_abort_msg("no word on how much larger");
	return 0;
}

/* ---- the check sheet ------------------------------------------------------------------------- */

START_TEST(every_paper_holds_what_it_says)
{
	struct made m;

	made_ring(&m, (enum ring)(_i % RINGS));
	if (_i / RINGS)
		made_footing(&m, 0.0175);
	m.paper.ring = "Großer Prüfungsplatz an der Äußeren Mühle bei Łódź, der obere von beiden";
	m.paper.measured = "2026-05-08 17:00:00";
	m.paper.who = "Åsa Öberg";
	m.paper.number = 12;
	for (int way = 0; way < 4 * SEATS; way++) {
		const struct rt_sheet_options options = {.when = WHEN,
							 .show = "Frühjahrsfahren Lärchenhof",
							 .paper = way & 1 ? RT_LETTER : RT_A4,
							 .feet = way & 2,
							 .seat = (enum rt_seat)(way / 4)};

		made_sheet(&m, &options);
		all_inside(&m.sheet);
		no_words_over_words(&m.sheet);
		ck_assert_uint_eq(count(&m.sheet, "sign"), 2);
		ck_assert_uint_eq(count(&m.sheet, "letter") + count(&m.sheet, "corner"),
				  m.f.pegs.n);
		ck_assert_uint_eq(count(&m.sheet, "page"), (size_t)m.sheet.pages);
		ck_assert(says(&m.sheet, "Łódź"));
		ck_assert(says(&m.sheet, "2026-05-08 17:00 by Åsa Öberg; check 12"));
		ck_assert(says(&m.sheet, "Lärchenhof"));
		ck_assert(!m.paper.footing || says(&m.sheet, "TOO STEEP"));
	}
	made_free(&m);
}
END_TEST

/* Marks tell verdicts by their shape, arrows stand at the pegs to move, ticks at the moves. */
START_TEST(marks_tell_the_verdicts)
{
	struct made m;
	size_t doubted = 0;

	made_ring(&m, (enum ring)_i);
	made_sheet(&m, &plain);
	/* one more of those that the key shows */
	ck_assert_uint_eq(count(&m.sheet, "peg-move"), m.check.to_move + (m.check.to_move > 0));
	ck_assert_uint_eq(count(&m.sheet, "arrow-head"), m.check.to_move + (m.check.to_move > 0));
	ck_assert_uint_eq(count(&m.sheet, "peg-unsure"), m.check.unsure + (m.check.unsure > 0));
	ck_assert_uint_eq(count(&m.sheet, "peg-good"),
			  m.check.pegs - m.check.to_move - m.check.unsure + 1);
	ck_assert_uint_eq(count(&m.sheet, "peg-unmeasured"),
			  2 * (m.check.unmeasured.n + (m.check.unmeasured.n > 0)));
	ck_assert_uint_eq(count(&m.sheet, "tolerance"), m.check.pegs);
	ck_assert_uint_eq(count(&m.sheet, "ellipse"), m.check.pegs + 1);
	for (size_t i = 0; i < m.check.adjustment.readings; i++)
		doubted += m.check.adjustment.reading[i].suspect ||
			   m.check.adjustment.reading[i].verdict == RT_READING_BLUNDER;
	ck_assert_uint_eq(count(&m.sheet, "reading-doubted"), doubted);
	ck_assert_uint_eq(count(&m.sheet, "reading"), m.check.adjustment.readings - doubted);
	ck_assert((_i == WRONG) == (doubted == 2) || _i == DOUBT);
	if (m.check.verdict != RT_RING_DOUBT)
		ck_assert_uint_eq(count(&m.sheet, "tick"),
				  m.check.to_move + m.check.unsure + doubted);
	for (size_t i = 0; i < m.sheet.drawn.n; i++) {
		const struct rt_drawn *d = &m.sheet.drawn.at[i];

		if (strcmp(d->role, "reading-doubted") == 0)
			ck_assert(d->pen.dash_mm[0] > 0 && d->pen.width_mm > 0.5);
		if (strcmp(d->role, "reading") == 0)
			ck_assert(!(d->pen.dash_mm[0] > 0) && d->pen.width_mm < 0.2);
	}
	made_free(&m);
}
END_TEST

/* Find the drawn shape of that role whose middle is nearest to a point. */
static double nearest(const struct rt_sheet *s, const char *role, double x, double y)
{
	double best = INFINITY, at_x, at_y;

	for (size_t i = 0; i < s->drawn.n; i++) {
		if (strcmp(s->drawn.at[i].role, role) != 0)
			continue;
		middle_of(s, &s->drawn.at[i], &at_x, &at_y);
		best = fmin(best, hypot(at_x - x, at_y - y));
	}
	return best;
}

/* Where X lies on the page and how large a metre of the ring is, from the ring's edge. */
static struct rt_ring_view view_of(const struct rt_sheet *s, enum rt_seat seat)
{
	struct rt_ring_view v = {.seat = seat};

	for (size_t i = 0; i < s->drawn.n; i++) {
		struct rt_area a;

		if (strcmp(s->drawn.at[i].role, "ring") != 0)
			continue;
		a = box_of(s, &s->drawn.at[i]);
		middle_of(s, &s->drawn.at[i], &v.x_mm, &v.y_mm);
		v.mm_per_m = fmax(a.right_mm - a.left_mm, a.bottom_mm - a.top_mm) / 80;
	}
	ck_assert(v.mm_per_m > 0);
	return v;
}

/* Pegs, arrows, circles and ellipses are drawn by the factor that is told, from every seat. */
START_TEST(offsets_are_drawn_to_their_scale)
{
	const struct rt_sheet_options options = {.when = WHEN, .seat = (enum rt_seat)_i};
	struct rt_ring_view v;
	struct made m;
	double times;

	made_ring(&m, MOVES);
	made_sheet(&m, &options);
	v = view_of(&m.sheet, options.seat);
	times = told_times(&m.sheet) * v.mm_per_m;
	for (size_t i = 0; i < m.check.pegs; i++) {
		const struct rt_checked_peg *p = &m.check.peg[i];
		double x, y, dx, dy;

		rt_ring_view_point(&v, p->peg.x_m, p->peg.y_m, &x, &y);
		rt_ring_view_toward(&v, times * p->dx_m, times * p->dy_m, &dx, &dy);
		ck_near(p->peg.name,
			nearest(&m.sheet, p->verdict == RT_PEG_MOVE ? "peg-move" : "peg-good",
				x + dx, y + dy),
			0, 1e-6);
		ck_near(p->peg.name, nearest(&m.sheet, "ellipse", x + dx, y + dy), 0, 0.02);
	}
	made_free(&m);
}
END_TEST

/* Half the length of an ellipse's box, right and down, from its covariance. */
START_TEST(ellipses_and_circles_have_their_size)
{
	struct rt_ring_view v;
	struct made m;
	double times;
	size_t looked = 0;

	made_ring(&m, MOVES);
	made_sheet(&m, &plain);
	v = view_of(&m.sheet, RT_SEAT_A);
	times = told_times(&m.sheet) * v.mm_per_m;
	for (size_t i = 0; i < m.sheet.drawn.n; i++) {
		const struct rt_drawn *d = &m.sheet.drawn.at[i];
		struct rt_area a = box_of(&m.sheet, d);

		if (strcmp(d->role, "tolerance") == 0)
			ck_near("circle", (a.right_mm - a.left_mm) / 2, 0.10 * times, 1e-6);
		if (strcmp(d->role, "ellipse") != 0 || looked >= m.check.pegs)
			continue;
		/* drawn peg by peg, so in the order of the check */
		ck_near("right", (a.right_mm - a.left_mm) / 2,
			2 * times * sqrt(m.check.peg[looked].cov_xx_m2), 0.02);
		ck_near("down", (a.bottom_mm - a.top_mm) / 2,
			2 * times * sqrt(m.check.peg[looked].cov_yy_m2), 0.02);
		looked++;
	}
	ck_assert_uint_eq(looked, m.check.pegs);
	made_free(&m);
}
END_TEST

START_TEST(bars_are_as_long_as_they_say)
{
	struct rt_ring_view v;
	struct made m;
	double length[2] = {0}, told[2] = {0};
	size_t bars = 0, words = 0;

	made_ring(&m, MOVES);
	made_sheet(&m, &plain);
	v = view_of(&m.sheet, RT_SEAT_A);
	for (size_t i = 0; i < m.sheet.drawn.n; i++) {
		const struct rt_drawn *d = &m.sheet.drawn.at[i];
		struct rt_area a = box_of(&m.sheet, d);

		if (strcmp(d->role, "bar") == 0)
			length[bars++ % 2] = a.right_mm - a.left_mm;
		else if (d->words &&
			 (strstr(d->words, " m of a move") || strstr(d->words, " m of the ring")))
			told[words++ % 2] = strtod(d->words, NULL);
	}
	ck_assert_uint_eq(bars, 2);
	ck_assert_uint_eq(words, 2);
	ck_near("move", length[0], told[0] * told_times(&m.sheet) * v.mm_per_m, 1e-6);
	ck_near("ring", length[1], told[1] * v.mm_per_m, 1e-6);
	made_free(&m);
}
END_TEST

START_TEST(the_moves_are_told)
{
	struct made m;
	char move[160];

	made_ring(&m, MOVES);
	made_sheet(&m, &plain);
	ck_assert(says(&m.sheet, "Verdict: move 2 pegs"));
	rt_peg_move_words(checked(&m.check, "B"), false, move, sizeof move);
	ck_assert(says(&m.sheet, "B: 0.5"));
	ck_assert(says(&m.sheet, move));
	ck_assert(!says(&m.sheet, "M: 0"));
	made_free(&m);
	made_ring(&m, WRONG);
	made_sheet(&m, &plain);
	ck_assert(says(&m.sheet, "Readings to take again"));
	ck_assert(says(&m.sheet, "the others say"));
	made_free(&m);
	made_ring(&m, DOUBT);
	made_sheet(&m, &plain);
	ck_assert_int_eq(m.check.verdict, RT_RING_DOUBT);
	ck_assert(says(&m.sheet, "Clear up the readings before any peg is moved."));
	ck_assert(says(&m.sheet, "Readings to take again"));
	ck_assert_uint_eq(count(&m.sheet, "arrow-head"), 0);
	made_free(&m);
}
END_TEST

/* ---- the certificate ------------------------------------------------------------------------- */

START_TEST(a_true_ring_has_its_certificate)
{
	const struct rt_check_paper *p;
	struct made m;
	char name[RT_NAME_MOST * 2 + 1] = "";
	struct rt_error err = {0};

	made_ring(&m, TRUE_RING);
	made_footing(&m, 0.001);
	p = &m.paper;
	for (size_t i = 0; i < RT_NAME_MOST; i++)
		strcat(name, i % 9 == 8 ? " " : "Ü");
	m.paper.ring = name;
	m.paper.who = name;
	m.paper.measured = WHEN;
	m.paper.footing_measured = "2026-05-08 12:00:00";
	for (int way = 0; way < 4; way++) {
		const struct rt_sheet_options options = {.when = WHEN,
							 .show = name,
							 .paper = way & 1 ? RT_LETTER : RT_A4,
							 .feet = way & 2};

		rt_sheet_free(&m.sheet);
		ck_assert_msg(rt_sheet_certificate(&m.sheet, p, &options, &err) == RT_OK, "%s",
			      err.text);
		ck_assert_int_eq(m.sheet.pages, 1);
		all_inside(&m.sheet);
		no_words_over_words(&m.sheet);
		ck_assert_uint_eq(count(&m.sheet, "sign"), 2);
		ck_assert(says(&m.sheet, "Footing, levelled 2026-05-08 12:00"));
		ck_assert(says(&m.sheet, "Check the rulebook in force."));
	}
	made_free(&m);
}
END_TEST

/* The bound is never told smaller than it is, and is that of the worst peg. */
START_TEST(the_bound_is_rounded_up)
{
	struct made m;
	double bound = 0;
	char words[40], tapes[40];
	int cm;

	made_ring(&m, TRUE_RING);
	for (size_t i = 0; i < m.check.pegs; i++)
		bound = fmax(bound, m.check.peg[i].off_m + 2.447747 * m.check.peg[i].se_m);
	cm = (int)ceil(bound * 100);
	snprintf(words, sizeof words, "within 0.%02d m of its place", cm);
	snprintf(tapes, sizeof tapes, "%zu distances by tape", m.check.adjustment.readings);
	ck_assert_int_eq(rt_sheet_certificate(&m.sheet, &m.paper, &plain, NULL), RT_OK);
	ck_assert(says(&m.sheet, words));
	ck_assert(says(&m.sheet, tapes));
	ck_assert(says(&m.sheet, "Not measured, and not certified:"));
	made_free(&m);
}
END_TEST

START_TEST(no_certificate_of_a_ring_that_is_not_true)
{
	struct rt_error err = {0};
	struct made m;

	made_ring(&m, MOVES);
	ck_assert_int_eq(rt_sheet_certificate(&m.sheet, &m.paper, &plain, &err), RT_E_INPUT);
	ck_has(err.text, "move 2 pegs");
	made_free(&m);
	made_ring(&m, DOUBT);
	ck_assert_int_eq(rt_sheet_certificate(&m.sheet, &m.paper, &plain, &err), RT_E_INPUT);
	ck_has(err.text, "readings in doubt");
	made_free(&m);
}
END_TEST

static Suite *suite(void)
{
	Suite *s = suite_create("sheet check");
	TCase *page = tcase_create("page"), *certificate = tcase_create("certificate");

	tcase_set_timeout(page, 120);
	tcase_add_loop_test(page, every_paper_holds_what_it_says, 0, 2 * RINGS);
	tcase_add_loop_test(page, marks_tell_the_verdicts, 0, RINGS);
	tcase_add_loop_test(page, offsets_are_drawn_to_their_scale, 0, SEATS);
	tcase_add_test(page, ellipses_and_circles_have_their_size);
	tcase_add_test(page, bars_are_as_long_as_they_say);
	tcase_add_test(page, the_moves_are_told);
	suite_add_tcase(s, page);
	tcase_set_timeout(certificate, 60);
	tcase_add_test(certificate, a_true_ring_has_its_certificate);
	tcase_add_test(certificate, the_bound_is_rounded_up);
	tcase_add_test(certificate, no_certificate_of_a_ring_that_is_not_true);
	suite_add_tcase(s, certificate);
	return s;
}

int check_sheet_check(void)
{
	return suite_run(suite());
}
