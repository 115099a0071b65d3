/* The field of the set-out sheet, with the room round the ring; lines and words that it shares with
 * the drawing of the ring.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setout_internal.h"

#include <math.h>

const struct rt_pen rt__setout_heavy = {.width_mm = 0.9, .stroke = RT_INK_BLACK};
const struct rt_pen rt__setout_dashed = {
	.width_mm = 0.3, .stroke = RT_INK_BLACK, .dash_mm = {4.0, 1.2, 0.8, 1.2}};

/* ---- lines and words ---- */

void rt__setout_along(const struct rt__setout_pages *p, const struct rt_ring_view *view,
		      const double from[2], const double to[2], double part, double lift_mm,
		      const char *words)
{
	struct rt_lettering t = rt__middle_type;
	double x0, y0, x1, y1, angle;

	rt_ring_view_point(view, from[0], from[1], &x0, &y0);
	rt_ring_view_point(view, to[0], to[1], &x1, &y1);
	if (x1 < x0) {
		double x = x0, y = y0;

		x0 = x1, y0 = y1, x1 = x, y1 = y, part = 1.0 - part;
	}
	angle = atan2(y1 - y0, x1 - x0);
	t.turned_deg = angle * 180.0 / RT__PI;
	rt_sheet_text(p->sheet, "length", words, x0 + part * (x1 - x0) + lift_mm * sin(angle),
		      y0 + part * (y1 - y0) - lift_mm * cos(angle), &t);
}

/* ---- the field ------------------------------------------------------------------------------- */

static void frame(const struct rt__setout_pages *p, const struct rt_ring_view *view,
		  const struct rt_pen *pen, const char *role, double side, double a, double c)
{
	double x0, y0, x1, y1;

	rt_ring_view_point(view, -p->kind->width_m / 2.0 - side, p->kind->length_m / 2.0 + c, &x0,
			   &y0);
	rt_ring_view_point(view, p->kind->width_m / 2.0 + side, -p->kind->length_m / 2.0 - a, &x1,
			   &y1);
	rt_sheet_rectangle(p->sheet, role, pen, &(struct rt_area){x0, y0, x1, y1});
}

/* A judge's car or stand outside the lane, its middle there. */
static void judge(const struct rt__setout_pages *p, const struct rt_ring_view *view, double x_m,
		  double y_m)
{
	static const struct rt_pen box = {
		.width_mm = 0.5, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};
	double half = p->what->room->car_m * view->mm_per_m / 2.0, x, y;

	rt_ring_view_point(view, x_m, y_m, &x, &y);
	rt_sheet_rectangle(p->sheet, "judge", &box,
			   &(struct rt_area){x - half, y - half, x + half, y + half});
	rt_sheet_text(p->sheet, "judge", "J", x, y + 1.6, &rt__middle_type);
}

static void way_in(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	static const struct rt_pen gap = {.width_mm = 1.8, .stroke = RT_INK_WHITE};
	const struct rt_setout_room *r = p->what->room;
	double y = -p->kind->length_m / 2.0, out = 0.8 / view->mm_per_m,
	       head = 2.2 / view->mm_per_m;
	const double a[2] = {-r->opening_m / 2.0, y - out / 2.0}, b[2] = {-a[0], a[1]};
	const double foot[2] = {0.0, y - r->way_in_m}, tip[2] = {0.0, y + head};
	const double left[2] = {-head / 2.0, y}, right[2] = {head / 2.0, y};

	rt__ring_line(p->sheet, "opening", &gap, view, a, b);
	rt__ring_line(p->sheet, "way", &rt__setout_heavy, view, foot, tip);
	rt__ring_line(p->sheet, "way", &rt__setout_heavy, view, left, tip);
	rt__ring_line(p->sheet, "way", &rt__setout_heavy, view, right, tip);
}

/* How wide and how long the field is, the way in and its end of the ring. */
static void field_words(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	const struct rt_setout_room *r = p->what->room;
	double x = -p->kind->width_m / 2.0 - r->side_m, y = p->kind->length_m / 2.0 + r->c_end_m;
	const double foot[2] = {x, y - r->length_m}, head[2] = {x, y};
	const double right[2] = {-x, y - r->length_m};

	rt__setout_along(p, view, foot, head, 0.78, -1.0 - 0.7 * RT__LINE_MM,
			 rt_show_taped(r->length_m, false).text);
	rt__setout_along(p, view, foot, right, 0.25, 1.2, rt_show_taped(r->width_m, false).text);
	rt__setout_along(p, view, foot, right, 0.75, 1.2, "way in to A");
}

void rt__setout_field(const struct rt__setout_pages *p, const struct rt_area *area)
{
	static const struct rt_pen boards = {.width_mm = 1.0, .stroke = RT_INK_BLACK};
	static const struct rt_pen field = {.width_mm = 0.4, .stroke = RT_INK_BLACK};
	const struct rt_setout_room *r = p->what->room;
	double away = fmax(r->lane_m, r->judges_m) + r->car_m / 2.0;
	double x = p->kind->width_m / 2.0 + away, y = p->kind->length_m / 2.0 + away;
	struct rt_ring_view view = {
		.seat = RT_SEAT_A,
		.mm_per_m = fmin((area->right_mm - area->left_mm) / r->width_m,
				 (area->bottom_mm - area->top_mm) / r->length_m),
		.x_mm = (area->left_mm + area->right_mm) / 2.0,
	};

	view.y_mm = area->top_mm + (r->c_end_m + p->kind->length_m / 2.0) * view.mm_per_m;
	frame(p, &view, &field, "field", r->side_m, r->a_end_m, r->c_end_m);
	frame(p, &view, &rt__setout_dashed, "lane", r->lane_m, r->lane_m, r->lane_m);
	frame(p, &view, &boards, "boards", 0.5 / view.mm_per_m, 0.5 / view.mm_per_m,
	      0.5 / view.mm_per_m);
	way_in(p, &view);
	field_words(p, &view);
	judge(p, &view, 0.0, y);
	judge(p, &view, x, 0.0);
	judge(p, &view, -x, 0.0);
}
