/* The practice sheet: the ring with numbered cones on its arcs, and the tapes that place them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LETTER_PT  18.0
#define BOARDS_MM  1.0
#define ACROSS_MM  12.0 /* room for letters outside the boards */
#define DOWN_MM	   11.0
#define DOT_MM	   1.0
#define APART_MM   3.2	/* dots nearer than that go on two drawings */
#define LEADER_MM  0.25 /* half the room of a leader */
#define NUMBER_GAP 0.5
#define AWAY_MM	   0.5 /* from one try for a number to the next */

enum { LEADER_LOOKS = 8 };

struct cone_sheet {
	struct rt_sheet *sheet;
	const struct rt_cones *cones;
	const struct rt_ring_kind *kind;
	const struct rt_sheet_options *options;
	bool *numbered; /* by cone: it has its number on a drawing */
	bool *shown;	/* by cone: its dot is on this drawing */
};

/* ---- drawings -------------------------------------------------------------------------------- */

static struct rt__spot dot_of(const struct cone_sheet *t, const struct rt_ring_view *view, size_t i)
{
	struct rt__spot at;

	rt_ring_view_point(view, t->cones->list.at[i].x_m, t->cones->list.at[i].y_m, &at.x_mm,
			   &at.y_mm);
	return at;
}

/* Whether a number at `at` stands nearer to its own dot than to any other. */
static bool is_own(const struct cone_sheet *t, const struct rt_ring_view *view, size_t own,
		   const struct rt__spot *at)
{
	struct rt__spot dot = dot_of(t, view, own);
	double far = hypot(dot.x_mm - at->x_mm, dot.y_mm - at->y_mm);

	for (size_t i = 0; i < t->cones->list.n; i++) {
		struct rt__spot other = dot_of(t, view, i);

		if (t->shown[i] && i != own &&
		    hypot(other.x_mm - at->x_mm, other.y_mm - at->y_mm) < far * 1.2)
			return false;
	}
	return true;
}

/* Whether a dot stands clear of those that this drawing shows already. */
static bool is_apart(const struct cone_sheet *t, const struct rt_ring_view *view, size_t own)
{
	struct rt__spot dot = dot_of(t, view, own);

	for (size_t i = 0; i < own; i++) {
		struct rt__spot other = dot_of(t, view, i);

		if (t->shown[i] && hypot(other.x_mm - dot.x_mm, other.y_mm - dot.y_mm) < APART_MM)
			return false;
	}
	return true;
}

/* Whether a line from a number to its dot crosses no words and no other dot. */
static bool leads(const struct cone_sheet *t, const struct rt__spot *from,
		  const struct rt__spot *dot)
{
	for (int i = 0; i <= LEADER_LOOKS; i++) {
		double x = from->x_mm - dot->x_mm, y = from->y_mm - dot->y_mm;
		double clear = (DOT_MM + 2.0 * LEADER_MM) / hypot(x, y);
		double part = clear + (1.0 - clear) * i / LEADER_LOOKS;
		double at_x = dot->x_mm + part * x, at_y = dot->y_mm + part * y;

		if (rt__clash(t->sheet,
			      &(struct rt_area){at_x - LEADER_MM, at_y - LEADER_MM,
						at_x + LEADER_MM, at_y + LEADER_MM},
			      NULL) >= RT__WORDS_WEIGH)
			return false;
	}
	return true;
}

/* Draw the line from the box of a number to its dot. */
static void leader(const struct cone_sheet *t, const struct rt__spot *number,
		   const struct rt_extent *e, const struct rt__spot *dot)
{
	double x = dot->x_mm - number->x_mm, y = dot->y_mm - number->y_mm;
	double across = e->width_mm / 2.0 + NUMBER_GAP;
	double down = (e->ascent_mm + e->descent_mm) / 2.0 + NUMBER_GAP;
	double part = fmin(across / fmax(fabs(x), 1e-9), down / fmax(fabs(y), 1e-9));

	if (part < 1.0)
		rt_sheet_segment(t->sheet, "leader", &rt__thin, number->x_mm + part * x,
				 number->y_mm + part * y, dot->x_mm, dot->y_mm);
}

/* Number a cone beside its dot, or farther off with a line that leads to it; false where nothing
 * is clear. */
static bool number(const struct cone_sheet *t, const struct rt_ring_view *view,
		   const struct rt_area *within, size_t i, bool far)
{
	enum { NEAR_RINGS = 7, FAR_RINGS = 14 };
	struct rt__spot dot = dot_of(t, view, i), spot[FAR_RINGS * RT__ROUND], best = {0};
	size_t rings = far ? FAR_RINGS : NEAR_RINGS, spots = 0;
	double away = DOT_MM + NUMBER_GAP + (far ? AWAY_MM * NEAR_RINGS : 0.0);
	struct rt_extent e;
	char words[16];

	snprintf(words, sizeof words, "%d", t->cones->list.at[i].number);
	e = rt_sheet_measure(t->sheet, words, &rt__middle_type);
	rt__label_round(&e, &dot, 0.0, away, AWAY_MM, rings, spot);
	for (size_t k = 0; k < rings * RT__ROUND; k++) {
		spot[spots] = spot[k];
		spots += far ? leads(t, &spot[k], &dot) : is_own(t, view, i, &spot[k]);
	}
	if (rt__label_spot(t->sheet, &e, NUMBER_GAP, within, spot, spots, &best) > 0.0)
		return false;
	if (far)
		leader(t, &best, &e, &dot);
	rt__label_set(t->sheet, "number", words, &e, &best, &rt__middle_type);
	return true;
}

/* Number what this drawing shows, first what has room beside it; how many found a place. */
static size_t numbers(const struct cone_sheet *t, const struct rt_ring_view *view,
		      const struct rt_area *within)
{
	size_t done = 0;

	for (int far = 0; far < 2; far++)
		for (size_t i = 0; i < t->cones->list.n; i++) {
			if (!t->shown[i] || t->numbered[i])
				continue;
			t->numbered[i] = number(t, view, within, i, far);
			done += t->numbered[i];
		}
	return done;
}

static bool all_numbered(const struct cone_sheet *t)
{
	for (size_t i = 0; i < t->cones->list.n; i++)
		if (!t->numbered[i])
			return false;
	return true;
}

static void caption(const struct cone_sheet *t, const struct rt_area *room, bool more)
{
	char words[160];

	snprintf(words, sizeof words, "Seen from %s. Each dot is a cone%s.",
		 rt_seat_words(t->options->seat), more ? "; more of them on the next drawing" : "");
	rt__set_lines(t->sheet, "caption", words, room->left_mm, room->bottom_mm,
		      room->right_mm - room->left_mm, &rt__type, true);
}

/* A page with the ring and the cones that have no number yet; false when none found room. */
static bool drawing(const struct cone_sheet *t, const struct rt_area *page)
{
	const struct rt_ring_drawing d = {.letter_pt = LETTER_PT, .boards_mm = BOARDS_MM};
	struct rt_area room = *page;
	struct rt_ring_view view;
	size_t done;

	room.bottom_mm -= 2.0 * RT__LINE_MM;
	view = rt__ring_view_in(t->kind, t->options->seat, &room, ACROSS_MM, DOWN_MM);
	rt_sheet_page(t->sheet);
	rt_sheet_ring(t->sheet, t->kind, &view, &d);
	for (size_t i = 0; i < t->cones->arcs.n; i++)
		rt_sheet_path(t->sheet, "arc", &rt__thick, &view, &t->cones->arcs.at[i], 1);
	for (size_t i = 0; i < t->cones->list.n; i++) {
		struct rt__spot dot = dot_of(t, &view, i);

		t->shown[i] = !t->numbered[i] && is_apart(t, &view, i);
		if (t->shown[i])
			rt_sheet_circle(t->sheet, "cone", &rt__black, dot.x_mm, dot.y_mm, DOT_MM);
	}
	done = numbers(t, &view, &room);
	caption(t, &room, !all_numbered(t));
	return done > 0;
}

/* ---- the table ------------------------------------------------------------------------------- */

static const struct rt__list_column columns[] = {
	{.name = "cone", .head = "no.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "where", .head = "cone on"},
	{.name = "distance_1_m", .head = "tape from", .most_mm = 30.0, .letter = "letter_1"},
	{.name = "distance_2_m", .head = "and from", .most_mm = 30.0, .letter = "letter_2"},
	{.name = "side", .head = "crossing", .most_mm = 34.0},
};
static const struct rt__list_view view = {RT__LIST_VIEW("cones", columns), .untitled = true};

static enum rt_err table(const struct cone_sheet *t, const struct rt_area *room,
			 struct rt_error *err)
{
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.report = &report, .view = &view, .views = 1};
	enum rt_err e = rt_cones_report(&report, t->cones, err);

	if (!e)
		e = rt__list_pages(t->sheet, room, &paper, t->options->feet, err);
	rt_report_free(&report);
	return e;
}

/* ---- the whole ------------------------------------------------------------------------------- */

enum rt_err rt_sheet_cones(struct rt_sheet *out, const struct rt_cones *cones,
			   const struct rt_ring_kind *kind, const char *title,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	struct cone_sheet t = {.sheet = out, .cones = cones, .kind = kind, .options = options};
	char head[512], how[320];
	struct rt__furniture furniture = {.title = head, .line = {options->show, how}};
	struct rt_area room;
	enum rt_err e;

	snprintf(head, sizeof head, "Cones: %s", title);
	snprintf(how, sizeof how,
		 "A cone stands where the tapes from its two letters cross. They cross twice: take "
		 "the crossing told. Tapes up to %s.",
		 rt_show_length(cones->tape_m, 0, 2, options->feet).text);
	e = rt_sheet_begin(out, options->paper, head, options->when, err);
	if (e)
		return e;
	t.numbered = calloc(2 * cones->list.n + 1, sizeof *t.numbered);
	if (!t.numbered)
		return rt_fail_nomem(err);
	t.shown = t.numbered + cones->list.n;
	room = rt__furniture_room(out, &furniture);
	while (drawing(&t, &room) && !all_numbered(&t))
		;
	e = table(&t, &room, err);
	rt__furniture_draw(out, &furniture, 1);
	free(t.numbered);
	return e ? e : rt_sheet_result(out, err);
}
