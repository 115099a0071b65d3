/* The ring of the turn sheet: every turn that fits as an arc, ticked and numbered.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define ARC		"arc" /* the role of an arc */
#define EQUAL_MM	0.05
#define LETTER_PT	20.0
#define BOARDS_MM	1.4
#define TICK_MM		4.4
#define NUMBER_MM	3.1 /* radius of the circle round a number */
#define IN_THE_WAY_MM2	5.0 /* lines that a number may stand on */
#define ROUND		0.86
#define NUMBER_AWAY_MM	4.6 /* from the arc to the middle of its number */
#define AWAY_STEP_MM	2.5
#define OFF_LETTERS_MM	1.3  /* from the circle to a letter, half the pen included */
#define LETTERS_MM	11.5 /* room for letters outside the boards, across the page */
#define LETTERS_DOWN_MM 10.5
#define WORDS_OUT_MM	6.0 /* room for a distance outside the boards, besides its words */

enum { AWAYS = 5 }; /* steps away from the arc, inside and outside */

static const struct rt_pen arc_pen = {.width_mm = 1.1, .stroke = RT_INK_BLACK};
static const struct rt_pen straight_pen = {.width_mm = 0.5, .stroke = RT_INK_BLACK};
static const struct rt_pen tick_pen = {.width_mm = 0.7, .stroke = RT_INK_BLACK};
static const struct rt_pen number_pen = {
	.width_mm = 0.4, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};

/* ---- room ------------------------------------------------------------------------------------ */

/* The margins a drawing needs: letters all round, and the words of distances. */
static struct rt_area margins(const struct rt__turn_sheet *t)
{
	const struct rt_ring_view view = {.seat = t->options->seat, .mm_per_m = 1.0};
	struct rt_area m = {LETTERS_MM, LETTERS_DOWN_MM, LETTERS_MM, LETTERS_DOWN_MM};
	struct rt__dimension d[RT__DIMENSIONS_MOST];
	size_t n = rt__turn_dimensions(t, d);

	for (size_t i = 0; i < n; i++) {
		struct rt_extent e = rt_sheet_measure(t->sheet, d[i].words, &rt__type);
		double x, y;

		rt_ring_view_toward(&view, d[i].out_x, d[i].out_y, &x, &y);
		if (d[i].outside && x < -0.5)
			m.left_mm = fmax(m.left_mm, e.width_mm + WORDS_OUT_MM);
		if (d[i].outside && x > 0.5)
			m.right_mm = fmax(m.right_mm, e.width_mm + WORDS_OUT_MM);
	}
	return m;
}

void rt__turn_drawing_size(const struct rt__turn_sheet *t, double mm_per_m, double *width_mm,
			   double *height_mm)
{
	struct rt_area m = margins(t);
	double across, down;

	rt__ring_size(t->kind, t->options->seat, &across, &down);
	*width_mm = across * mm_per_m + m.left_mm + m.right_mm;
	*height_mm = down * mm_per_m + m.top_mm + m.bottom_mm;
}

/* ---- arcs ------------------------------------------------------------------------------------ */

/* Whether an arc is drawn already, in either direction: corners belong to several figures. */
static bool is_drawn(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		     const struct rt_turn *turn)
{
	double begin_x, begin_y, end_x, end_y;

	rt_ring_view_point(view, turn->begin_x_m, turn->begin_y_m, &begin_x, &begin_y);
	rt_ring_view_point(view, turn->finish_x_m, turn->finish_y_m, &end_x, &end_y);
	for (size_t i = 0; i < t->sheet->drawn.n; i++) {
		const struct rt_drawn *d = &t->sheet->drawn.at[i];
		const struct rt_pen_step *s = &t->sheet->step.at[d->first_step];

		if (strcmp(d->role, ARC) != 0)
			continue;
		if (hypot(s[0].x_mm - begin_x, s[0].y_mm - begin_y) +
				    hypot(s[1].x_mm - end_x, s[1].y_mm - end_y) <
			    EQUAL_MM ||
		    hypot(s[1].x_mm - begin_x, s[1].y_mm - begin_y) +
				    hypot(s[0].x_mm - end_x, s[0].y_mm - end_y) <
			    EQUAL_MM)
			return true;
	}
	return false;
}

/* A stroke across the line where an arc begins or finishes. */
static void tick(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		 const struct rt_turn *turn, double x_m, double y_m)
{
	double radius = t->turns->diameter_m / 2.0, x, y, out_x, out_y;

	rt_ring_view_point(view, x_m, y_m, &x, &y);
	rt_ring_view_toward(view, (x_m - turn->centre_x_m) / radius,
			    (y_m - turn->centre_y_m) / radius, &out_x, &out_y);
	rt_sheet_segment(t->sheet, "tick", &tick_pen, x - out_x * TICK_MM / 2.0,
			 y - out_y * TICK_MM / 2.0, x + out_x * TICK_MM / 2.0,
			 y + out_y * TICK_MM / 2.0);
}

/* False when it is drawn already, or memory was out. */
static bool arc(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		const struct rt_turn *turn)
{
	struct rt_piece piece = rt_turn_piece(turn);

	if (t->sheet->nomem || is_drawn(t, view, turn))
		return false;
	rt_sheet_path(t->sheet, ARC, &arc_pen, view, &piece, 1);
	tick(t, view, turn, turn->begin_x_m, turn->begin_y_m);
	tick(t, view, turn, turn->finish_x_m, turn->finish_y_m);
	return !t->sheet->nomem;
}

static void straight(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		     const struct rt_turn *turn)
{
	const double from[] = {turn[0].finish_x_m, turn[0].finish_y_m};
	const double to[] = {turn[1].begin_x_m, turn[1].begin_y_m};

	if (hypot(to[0] - from[0], to[1] - from[1]) * view->mm_per_m > EQUAL_MM)
		rt__ring_line(t->sheet, "straight", &straight_pen, view, from, to);
}

/* ---- numbers --------------------------------------------------------------------------------- */

/* The point at a part of an arc, moved towards its centre. */
static struct rt__spot beside(const struct rt_pen_step *from, const struct rt_pen_step *step,
			      double part, double inwards_mm)
{
	double x = from->x_mm - step->centre_x_mm, y = from->y_mm - step->centre_y_mm;
	double radius = hypot(x, y), scale = (radius - inwards_mm) / radius;
	double c = cos(part * step->turned_rad), s = sin(part * step->turned_rad);

	return (struct rt__spot){step->centre_x_mm + scale * (c * x - s * y),
				 step->centre_y_mm + scale * (s * x + c * y)};
}

/* A number that stands away from its arc is led to it. */
static void leader(struct rt_sheet *sheet, const struct rt__spot *number,
		   const struct rt__spot *arc_point)
{
	double x = arc_point->x_mm - number->x_mm, y = arc_point->y_mm - number->y_mm;
	double away = hypot(x, y);

	if (away > NUMBER_AWAY_MM + 0.1)
		rt_sheet_segment(sheet, "leader", &number_pen, number->x_mm + x * NUMBER_MM / away,
				 number->y_mm + y * NUMBER_MM / away, arc_point->x_mm,
				 arc_point->y_mm);
}

/* Whether a number there stands clear of every letter. */
static bool off_letters(const struct rt_sheet *sheet, const struct rt__spot *spot)
{
	double half = NUMBER_MM + OFF_LETTERS_MM;
	const struct rt_area box = {spot->x_mm - half, spot->y_mm - half, spot->x_mm + half,
				    spot->y_mm + half};

	return rt__clash(sheet, &box, "letter") == 0.0;
}

/* Number the arc whose steps begin at `first`: beside its middle or an end, inside or outside,
 * clear of the letters, where the least is in the way.  False when what is in the way is more than
 * `most`. */
static bool number(const struct rt__turn_sheet *t, const struct rt_area *within, size_t first,
		   enum rt__turn_type which, double most)
{
	static const double part[] = {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9};
	enum { PARTS = sizeof part / sizeof *part, SPOTS = PARTS * 2 * AWAYS };
	/* a box inside the circle: its corners are not in the way of anything */
	const struct rt_extent room = {2.0 * ROUND * NUMBER_MM, ROUND * NUMBER_MM,
				       ROUND * NUMBER_MM};
	const char words[] = {(char)('0' + which), '\0'};
	struct rt_extent e = rt_sheet_measure(t->sheet, words, &rt__middle_type);
	struct rt_pen_step step[2];
	struct rt__spot spot[SPOTS], on[SPOTS], best = {0};
	size_t n = 0;

	memcpy(step, &t->sheet->step.at[first], sizeof step);
	for (int i = 0; i < SPOTS; i++) {
		double inwards = NUMBER_AWAY_MM + AWAY_STEP_MM * (i / PARTS / 2);

		spot[n] = beside(&step[0], &step[1], part[i % PARTS],
				 i / PARTS % 2 ? -inwards : inwards);
		on[n] = beside(&step[0], &step[1], part[i % PARTS], 0.0);
		n += off_letters(t->sheet, &spot[n]);
	}
	if (rt__label_spot(t->sheet, &room, 0.4, within, spot, n, &best) > most)
		return false;
	for (size_t i = 0; i < n; i++)
		if (spot[i].x_mm == best.x_mm && spot[i].y_mm == best.y_mm)
			leader(t->sheet, &best, &on[i]);
	rt_sheet_circle(t->sheet, "badge", &number_pen, best.x_mm, best.y_mm, NUMBER_MM);
	rt__label_set(t->sheet, "number", words, &e, &best, &rt__middle_type);
	return true;
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* The arcs and straights of every figure that fits; what each arc is, in the order of the shapes
 * of that role. */
static size_t figures(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		      enum rt__turn_type *which)
{
	const struct rt_turn_list *list = &t->turns->list;
	size_t n = 0;

	for (size_t i = 0; i + 1 < list->n; i += 2) {
		if (!list->at[i].fits || !list->at[i + 1].fits)
			continue;
		straight(t, view, &list->at[i]);
		for (size_t k = i; k < i + 2; k++)
			if (arc(t, view, &list->at[k]))
				which[n++] = rt__turn_type_of(t->turns, t->kind, &list->at[k]);
	}
	return n;
}

/* Number the arcs where there is room; of each number one at least. */
static void numbers(const struct rt__turn_sheet *t, const struct rt_area *within,
		    const enum rt__turn_type *which, size_t arcs)
{
	bool seen[RT__DIAGONAL + 1] = {false};
	size_t drawn = t->sheet->drawn.n;

	for (int pass = 0; pass < 2; pass++) {
		size_t n = 0;

		for (size_t i = 0; i < drawn && n < arcs; i++) {
			const struct rt_drawn *d = &t->sheet->drawn.at[i];

			if (strcmp(d->role, ARC) != 0)
				continue;
			if (pass == 0 || !seen[which[n]])
				seen[which[n]] |= number(t, within, d->first_step, which[n],
							 pass ? RT__WORDS_WEIGH : IN_THE_WAY_MM2);
			n++;
		}
	}
}

void rt__turn_drawing(const struct rt__turn_sheet *t, double mm_per_m, double left_mm,
		      double top_mm)
{
	const struct rt_ring_drawing ring = {
		.letter_pt = LETTER_PT, .boards_mm = BOARDS_MM, .quarter_lines = true};
	enum rt__turn_type *which = calloc(t->turns->list.n + 1, sizeof *which);
	struct rt_area m = margins(t), within = {left_mm, top_mm, left_mm, top_mm};
	struct rt_ring_view view = {.seat = t->options->seat, .mm_per_m = mm_per_m};
	double width, height;
	size_t arcs;

	if (!which) {
		t->sheet->nomem = true;
		return;
	}
	rt__turn_drawing_size(t, mm_per_m, &width, &height);
	within.right_mm += width;
	within.bottom_mm += height;
	view.x_mm = (within.left_mm + m.left_mm + within.right_mm - m.right_mm) / 2.0;
	view.y_mm = (within.top_mm + m.top_mm + within.bottom_mm - m.bottom_mm) / 2.0;
	rt_sheet_ring(t->sheet, t->kind, &view, &ring);
	arcs = figures(t, &view, which);
	rt__centre_letters(t->sheet, t->kind, &view, RT__BODY_PT, &within, INFINITY);
	rt__turn_dimensions_draw(t, &view, &within);
	numbers(t, &within, which, arcs);
	free(which);
}
