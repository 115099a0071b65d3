/* A movement's piece of the route in a small ring, and the key to its lines and marks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define EQUAL_M	      0.001
#define LETTER_PT     12.0
#define BOARDS_MM     0.5
#define ACROSS_MM     9.0 /* room for letters outside the boards */
#define DOWN_MM	      8.0
#define LINE_MM	      1.3
#define ARROW_MM      3.8 /* length of an arrowhead */
#define ARROW_HALF_MM 1.7
#define ARROW_FAR_MM  24.0 /* from one arrowhead to the next */
#define START_MM      1.2  /* radius of the ring where a movement begins */
#define HALT_MM	      1.7  /* half a square */
#define BAR_MM	      2.4  /* half a bar */
#define OUTSIDE_M     0.3  /* a line so far past the boards is still drawn */

/* Thinner where a band is drawn, so that its edges show beside it. */
static const struct rt_pen banded_pen = {.width_mm = 0.8, .stroke = RT_INK_BLACK};
static const struct rt_pen driven_pen = {.width_mm = LINE_MM, .stroke = RT_INK_BLACK};
static const struct rt_pen before_pen = {
	.width_mm = 0.8, .stroke = RT_INK_GREY, .dash_mm = {1.6, 1.2}};
static const struct rt_pen map_pen = {
	.width_mm = 0.35, .stroke = RT_INK_BLACK, .dash_mm = {2.4, 0.8, 0.5, 0.8}};
static const struct rt_pen open_pen = {
	.width_mm = 0.6, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};
static const struct rt_pen bar_pen = {.width_mm = 0.9, .stroke = RT_INK_BLACK};
static const struct rt_pen halt_pen = {
	.width_mm = 0.5, .stroke = RT_INK_WHITE, .fill = RT_INK_BLACK};

/* ---- where arcs meet ------------------------------------------------------------------------- */

bool rt__route_meeting(const struct rt_route *route, size_t leg, size_t *next,
		       struct rt__meeting *out)
{
	const struct rt_route_leg *l = &route->legs.at[leg];
	bool last = leg + 1 == route->legs.n;

	for (; *next + 1 < route->turns.n; ++*next) {
		const struct rt_turn *a = &route->turns.at[*next], *b = a + 1;
		double s = a->from_m + a->arc_m;

		if (fabs(b->from_m - s) > EQUAL_M ||
		    hypot(b->begin_x_m - a->finish_x_m, b->begin_y_m - a->finish_y_m) > EQUAL_M)
			continue;
		if (a->hand == b->hand && strcmp(a->turn, b->turn) == 0)
			continue; /* of one figure */
		if (s < l->from_m - EQUAL_M || (!last && s >= l->to_m - EQUAL_M))
			continue;
		*out = (struct rt__meeting){a, b, s};
		++*next;
		return true;
	}
	return false;
}

/* ---- marks ----------------------------------------------------------------------------------- */

/* A point of the path on the page, and the way it is driven there. */
struct spot {
	double x, y, toward_x, toward_y;
};

static struct spot spot_at(const struct rt__route_sheet *t, const struct rt_ring_view *view,
			   double s_m)
{
	struct rt_pose pose = rt_path_at(&t->route->path, s_m, NULL);
	struct spot out;

	rt_ring_view_point(view, pose.at.x, pose.at.y, &out.x, &out.y);
	rt_ring_view_toward(view, pose.toward.x, pose.toward.y, &out.toward_x, &out.toward_y);
	return out;
}

/* A head whose tip is at a point. */
static void arrowhead(struct rt_sheet *sheet, const struct spot *tip)
{
	double back_x = tip->x - ARROW_MM * tip->toward_x;
	double back_y = tip->y - ARROW_MM * tip->toward_y;

	rt_sheet_shape(sheet, "arrow", &rt__black);
	rt_sheet_move(sheet, tip->x, tip->y);
	rt_sheet_line(sheet, back_x - ARROW_HALF_MM * tip->toward_y,
		      back_y + ARROW_HALF_MM * tip->toward_x);
	rt_sheet_line(sheet, back_x + ARROW_HALF_MM * tip->toward_y,
		      back_y - ARROW_HALF_MM * tip->toward_x);
	rt_sheet_close(sheet);
}

/* Across the line. */
static void bar(struct rt_sheet *sheet, const struct spot *at)
{
	rt_sheet_segment(sheet, "bar", &bar_pen, at->x - BAR_MM * at->toward_y,
			 at->y + BAR_MM * at->toward_x, at->x + BAR_MM * at->toward_y,
			 at->y - BAR_MM * at->toward_x);
}

static void halt(struct rt_sheet *sheet, double x, double y)
{
	rt_sheet_rectangle(sheet, "halt", &halt_pen,
			   &(struct rt_area){x - HALT_MM, y - HALT_MM, x + HALT_MM, y + HALT_MM});
}

/* Whether the movement stands at its end. */
static bool ends_halted(const struct rt_route *route, size_t leg)
{
	for (size_t i = 0; i < route->stops.n; i++)
		if (route->stops.at[i].leg == leg &&
		    fabs(route->stops.at[i].at_m - route->legs.at[leg].to_m) <= EQUAL_M)
			return true;
	return false;
}

/* Heads at the end and evenly before it; none on a line shorter than one. */
static void arrowheads(const struct rt__route_sheet *t, const struct rt_ring_view *view, size_t leg)
{
	const struct rt_route_leg *l = &t->route->legs.at[leg];
	double clear = ends_halted(t->route, leg) ? HALT_MM + 0.6 : 0.0;
	double end = l->to_m - clear / view->mm_per_m;
	double length = (end - l->from_m) * view->mm_per_m;
	int heads = (int)fmax(1.0, floor(length / ARROW_FAR_MM));

	if (length < ARROW_MM)
		return;
	for (int i = 1; i <= heads; i++) {
		struct spot tip = spot_at(t, view, l->from_m + (end - l->from_m) * i / heads);

		if (i == heads) /* as the line comes to its end, not as it goes on from there */
			tip = spot_at(t, view, end - EQUAL_M);
		arrowhead(t->sheet, &tip);
	}
}

/* Bars, begin and arrowheads where the line is `shown`, and halts. */
static void marks(const struct rt__route_sheet *t, const struct rt_ring_view *view, size_t leg,
		  bool shown)
{
	const struct rt_route *route = t->route;
	struct spot start = spot_at(t, view, route->legs.at[leg].from_m);
	struct rt__meeting meeting;

	for (size_t next = 0; shown && rt__route_meeting(route, leg, &next, &meeting);) {
		struct spot at = spot_at(t, view, meeting.s_m);

		bar(t->sheet, &at);
	}
	if (shown) {
		rt_sheet_circle(t->sheet, "start", &open_pen, start.x, start.y, START_MM);
		arrowheads(t, view, leg);
	}
	for (size_t i = 0; i < route->stops.n; i++) {
		const struct rt_route_stop *stop = &route->stops.at[i];
		struct spot at;

		if (stop->leg != leg)
			continue;
		at = spot_at(t, view, stop->at_m - EQUAL_M);
		halt(t->sheet, at.x - stop->behind_m * view->mm_per_m * at.toward_x,
		     at.y - stop->behind_m * view->mm_per_m * at.toward_y);
	}
}

/* ---- lines ----------------------------------------------------------------------------------- */

/* Whether a piece keeps to the ring: one that cannot be driven may lead far out, over letters. */
static bool keeps_inside(const struct rt__route_sheet *t, const struct rt_path *path)
{
	struct rt_path_extent box = rt_path_box(path);
	double x = t->kind->width_m / 2.0 + OUTSIDE_M, y = t->kind->length_m / 2.0 + OUTSIDE_M;

	return box.x_min_m >= -x && box.x_max_m <= x && box.y_min_m >= -y && box.y_max_m <= y;
}

/* The piece of the route that a movement drives; *shown: there is one to see. */
static enum rt_err draw_leg(const struct rt__route_sheet *t, const struct rt_ring_view *view,
			    size_t leg, const char *role, const struct rt_pen *pen, bool *shown,
			    struct rt_error *err)
{
	const struct rt_route_leg *l = &t->route->legs.at[leg];
	struct rt_path path = {0};
	enum rt_err e = rt_path_cut(&path, &t->route->path, l->from_m, l->to_m, err);

	*shown = path.n && keeps_inside(t, &path);
	if (!e && *shown)
		rt_sheet_path(t->sheet, role, pen, view, path.at, path.n);
	rt_path_free(&path);
	return e;
}

static enum rt_err draw_map(const struct rt__route_sheet *t, const struct rt_ring_view *view,
			    size_t leg, struct rt_error *err)
{
	struct rt_path path = {0};
	enum rt_err e = rt_route_map_line(&path, t->route, leg, err);

	if (!e && path.n && keeps_inside(t, &path))
		rt_sheet_path(t->sheet, "map", &map_pen, view, path.at, path.n);
	rt_path_free(&path);
	return e;
}

static enum rt_err draw_band(const struct rt__route_sheet *t, const struct rt_ring_view *view,
			     size_t leg, struct rt_error *err)
{
	static const enum rt_side sides[] = {RT_LEFT, RT_RIGHT};
	const struct rt_route_leg *l = &t->route->legs.at[leg];
	enum rt_err e = RT_OK;

	for (int i = 0; i < 2 && !e; i++) {
		struct rt_path path = {0};

		e = rt_band_edge(&path, t->what->band, &t->route->path, sides[i], l->from_m,
				 l->to_m, err);
		if (!e && path.n)
			rt_sheet_path(t->sheet, "band", &rt__thin, view, path.at, path.n);
		rt_path_free(&path);
	}
	return e;
}

/* ---- the drawing ----------------------------------------------------------------------------- */

void rt__route_drawing_size(const struct rt__route_sheet *t, double *width_mm, double *height_mm)
{
	double across, down;

	rt__ring_size(t->kind, t->options->seat, &across, &down);
	*width_mm = across * t->mm_per_m + 2.0 * ACROSS_MM;
	*height_mm = down * t->mm_per_m + 2.0 * DOWN_MM;
}

enum rt_err rt__route_drawing(const struct rt__route_sheet *t, size_t leg, double left_mm,
			      double top_mm, struct rt_error *err)
{
	const struct rt_ring_drawing drawing = {.letter_pt = LETTER_PT, .boards_mm = BOARDS_MM};
	double width, height;
	struct rt_area within;
	struct rt_ring_view view;
	enum rt_err e = RT_OK;
	bool shown = false;

	rt__route_drawing_size(t, &width, &height);
	within = (struct rt_area){left_mm, top_mm, left_mm + width, top_mm + height};
	view = (struct rt_ring_view){t->options->seat, t->mm_per_m, left_mm + width / 2.0,
				     top_mm + height / 2.0};
	rt_sheet_ring(t->sheet, t->kind, &view, &drawing);
	if (leg > 0)
		e = draw_leg(t, &view, leg - 1, "before", &before_pen, &shown, err);
	if (!e && t->what->compare)
		e = draw_map(t, &view, leg, err);
	if (!e && t->what->band)
		e = draw_band(t, &view, leg, err);
	if (!e)
		e = draw_leg(t, &view, leg, "driven", t->what->band ? &banded_pen : &driven_pen,
			     &shown, err);
	if (e)
		return e;
	marks(t, &view, leg, shown);
	rt__centre_letters(t->sheet, t->kind, &view, LETTER_PT, &within, 0.0);
	return RT_OK;
}

/* ---- the key --------------------------------------------------------------------------------- */

#define SAMPLE_MM   12.0
#define KEY_LINE_MM 6.2
#define KEY_GAP_MM  5.0

/* What is on the line of a sample. */
enum mark { NOTHING, BEGIN_AND_END, HALT, BAR, OTHER_EDGE };

/* A sample, its left end at x. */
static void sample(struct rt_sheet *sheet, const struct rt_pen *pen, enum mark mark, double x,
		   double y)
{
	const struct spot middle = {x + SAMPLE_MM / 2.0, y, 1.0, 0.0};
	const struct spot tip = {x + SAMPLE_MM, y, 1.0, 0.0};
	double apart = mark == OTHER_EDGE ? 1.2 : 0.0;

	rt_sheet_segment(sheet, "sample", pen, x, y - apart, tip.x, y - apart);
	switch (mark) {
	case NOTHING:
		break;
	case BEGIN_AND_END:
		rt_sheet_circle(sheet, "sample", &open_pen, x + START_MM, y, START_MM);
		arrowhead(sheet, &tip);
		break;
	case HALT:
		halt(sheet, tip.x - HALT_MM, y);
		break;
	case BAR:
		bar(sheet, &middle);
		break;
	case OTHER_EDGE:
		rt_sheet_segment(sheet, "sample", pen, x, y + apart, tip.x, y + apart);
		break;
	}
}

static bool any_meeting(const struct rt_route *route)
{
	struct rt__meeting meeting;

	for (size_t leg = 0; leg < route->legs.n; leg++) {
		size_t next = 0;

		if (rt__route_meeting(route, leg, &next, &meeting))
			return true;
	}
	return false;
}

double rt__route_key(const struct rt__route_sheet *t, const struct rt_area *room, bool draw)
{
	const struct rt_pen *driven = t->what->band ? &banded_pen : &driven_pen;
	const struct {
		bool wanted;
		const struct rt_pen *pen;
		enum mark mark;
		const char *words;
	} key[] = {
		{true, driven, BEGIN_AND_END, "the movement"},
		{t->route->legs.n > 1, &before_pen, NOTHING, "the one before it"},
		{t->route->stops.n > 0, driven, HALT, "stands"},
		{any_meeting(t->route), driven, BAR, "nothing straight here"},
		{t->what->compare, &map_pen, NOTHING, "right-angled, as maps draw it"},
		{t->what->band != NULL, &rt__thin, OTHER_EDGE, "edges of the ground swept"},
	};
	double x = room->left_mm, y = room->top_mm + KEY_LINE_MM / 2.0;

	for (size_t i = 0; i < sizeof key / sizeof *key; i++) {
		struct rt_extent e = rt_sheet_measure(t->sheet, key[i].words, &rt__type);
		double width = SAMPLE_MM + 2.0 + e.width_mm;

		if (!key[i].wanted)
			continue;
		if (x > room->left_mm && x + width > room->right_mm) {
			x = room->left_mm;
			y += KEY_LINE_MM;
		}
		if (draw) {
			sample(t->sheet, key[i].pen, key[i].mark, x, y);
			rt_sheet_text(t->sheet, "key", key[i].words, x + SAMPLE_MM + 2.0, y + 1.6,
				      &rt__type);
		}
		x += width + KEY_GAP_MM;
	}
	return y + KEY_LINE_MM / 2.0 - room->top_mm;
}
