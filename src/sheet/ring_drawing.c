/* A ring and paths in it on a page: turned to the seat they are seen from, never mirrored.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include "../base/enum_words.h"

#include <math.h>
#include <string.h>

#define JOINED_M 0.001

/* Letters stand clear of the boards; those of the centreline beside their point. */
#define LETTER_GAP_MM  3.4
#define CENTRE_AWAY_MM 1.0
#define CENTRE_STEP_MM 0.5
#define CENTRE_GAP_MM  0.4
#define DOT_MM	       0.7
enum { CENTRE_SPOTS = 80 };

RT__ENUM_WORDS(seat, "seat", RT_SEATS)

/* What the reader at each seat has before them (up the page): from the middle of a side to X.
 * To their right is that direction turned clockwise. */
static const struct {
	double x, y;
} ahead[] = {
	[RT_SEAT_A] = {0.0, 1.0},
	[RT_SEAT_C] = {0.0, -1.0},
	[RT_SEAT_B] = {-1.0, 0.0},
	[RT_SEAT_E] = {1.0, 0.0},
};

void rt_ring_view_toward(const struct rt_ring_view *view, double x, double y, double *x_page,
			 double *y_page)
{
	double up_x = ahead[view->seat].x, up_y = ahead[view->seat].y;

	*x_page = x * up_y - y * up_x;
	*y_page = -(x * up_x + y * up_y);
}

void rt_ring_view_point(const struct rt_ring_view *view, double x_m, double y_m, double *x_mm,
			double *y_mm)
{
	double x, y;

	rt_ring_view_toward(view, x_m, y_m, &x, &y);
	*x_mm = view->x_mm + x * view->mm_per_m;
	*y_mm = view->y_mm + y * view->mm_per_m;
}

bool rt__is_upright(enum rt_seat seat)
{
	return seat == RT_SEAT_A || seat == RT_SEAT_C;
}

void rt__ring_size(const struct rt_ring_kind *kind, enum rt_seat seat, double *across_m,
		   double *down_m)
{
	*across_m = rt__is_upright(seat) ? kind->width_m : kind->length_m;
	*down_m = rt__is_upright(seat) ? kind->length_m : kind->width_m;
}

struct rt_ring_view rt__ring_view_in(const struct rt_ring_kind *kind, enum rt_seat seat,
				     const struct rt_area *room, double beside_mm, double above_mm)
{
	double across, down;

	rt__ring_size(kind, seat, &across, &down);
	return (struct rt_ring_view){
		.seat = seat,
		.mm_per_m = fmin((room->right_mm - room->left_mm - 2.0 * beside_mm) / across,
				 (room->bottom_mm - room->top_mm - 2.0 * above_mm) / down),
		.x_mm = (room->left_mm + room->right_mm) / 2.0,
		.y_mm = (room->top_mm + room->bottom_mm) / 2.0,
	};
}

void rt__ring_line(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		   const struct rt_ring_view *view, const double a[2], const double b[2])
{
	double x0, y0, x1, y1;

	rt_ring_view_point(view, a[0], a[1], &x0, &y0);
	rt_ring_view_point(view, b[0], b[1], &x1, &y1);
	rt_sheet_segment(sheet, role, pen, x0, y0, x1, y1);
}

void rt__ring_length(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		     const struct rt_ring_view *view, const struct rt_ring_kind *kind, double x_m)
{
	double end = kind->length_m / 2.0;

	rt__ring_line(sheet, role, pen, view, (const double[]){x_m, -end},
		      (const double[]){x_m, end});
}

void rt__ring_rectangle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			const struct rt_ring_view *view, const struct rt_ring_kind *kind,
			double larger_mm)
{
	double across, down;

	rt__ring_size(kind, view->seat, &across, &down);
	across = across * view->mm_per_m / 2.0 + larger_mm;
	down = down * view->mm_per_m / 2.0 + larger_mm;
	rt_sheet_rectangle(sheet, role, pen,
			   &(struct rt_area){view->x_mm - across, view->y_mm - down,
					     view->x_mm + across, view->y_mm + down});
}

/* A letter outside its side. */
static void side_letter(struct rt_sheet *sheet, const struct rt_peg *peg,
			const struct rt_ring_view *view, const struct rt_ring_drawing *drawing)
{
	const struct rt_lettering lettering = {.size_pt = drawing->letter_pt,
					       .anchor = RT_ANCHOR_MIDDLE};
	struct rt_extent e = rt_sheet_measure(sheet, peg->name, &lettering);
	bool long_side = peg->side == RT_LEFT || peg->side == RT_RIGHT;
	double x, y, out_x, out_y, away;

	rt_ring_view_point(view, peg->x_m, peg->y_m, &x, &y);
	rt_ring_view_toward(view, long_side ? copysign(1.0, peg->x_m) : 0.0,
			    long_side ? 0.0 : copysign(1.0, peg->y_m), &out_x, &out_y);
	away = drawing->boards_mm + LETTER_GAP_MM +
	       (fabs(out_x) > 0.5 ? e.width_mm : e.ascent_mm) / 2.0;
	rt_sheet_text(sheet, "letter", peg->name, x + out_x * away,
		      y + out_y * away + e.ascent_mm / 2.0, &lettering);
}

/* The letters outside the boards. */
static void letters(struct rt_sheet *sheet, const struct rt_ring_kind *kind,
		    const struct rt_ring_view *view, const struct rt_ring_drawing *drawing)
{
	struct rt_pegs pegs = {0};

	if (rt_ring_pegs(&pegs, kind, NULL))
		sheet->nomem = true;
	for (size_t i = 0; i < pegs.n; i++)
		if (!pegs.at[i].corner && pegs.at[i].side != RT_CENTRE)
			side_letter(sheet, &pegs.at[i], view, drawing);
	rt_pegs_free(&pegs);
}

/* A letter beside its point, where least is in its way; none where that is more than `most`. */
static void centre_letter(struct rt_sheet *sheet, const char *name, const struct rt__spot *point,
			  const struct rt_lettering *type, const struct rt_area *within,
			  double most)
{
	struct rt_extent e = rt_sheet_measure(sheet, name, type);
	struct rt__spot spot[CENTRE_SPOTS], best = *point;

	for (int i = 0; i < CENTRE_SPOTS; i++) {
		double away = CENTRE_AWAY_MM + CENTRE_STEP_MM * (i / 8);
		double right = i & 1 ? -1.0 : 1.0, up = i & 2 ? -1.0 : 1.0;
		bool flat = i & 4;

		spot[i] = (struct rt__spot){
			point->x_mm + right * (e.width_mm / 2.0 + (flat ? 2.0 * away : away)),
			point->y_mm - up * (e.ascent_mm / 2.0 + (flat ? away : 1.5 * away))};
	}
	rt_sheet_circle(sheet, "point", &rt__black, point->x_mm, point->y_mm, DOT_MM);
	if (rt__label_spot(sheet, &e, CENTRE_GAP_MM, within, spot, CENTRE_SPOTS, &best) <= most)
		rt__label_set(sheet, "letter", name, &e, &best, type);
}

void rt__centre_letters(struct rt_sheet *sheet, const struct rt_ring_kind *kind,
			const struct rt_ring_view *view, double size_pt,
			const struct rt_area *within, double most)
{
	const struct rt_lettering type = {.size_pt = size_pt, .anchor = RT_ANCHOR_MIDDLE};

	for (size_t i = 0; i < kind->letters.n; i++) {
		const struct rt_letter *letter = &kind->letters.at[i];
		struct rt__spot point;

		if (letter->side != RT_CENTRE)
			continue;
		rt_ring_view_point(view, 0.0, letter->offset_m - kind->length_m / 2.0, &point.x_mm,
				   &point.y_mm);
		centre_letter(sheet, letter->name, &point, &type, within, most);
	}
}

void rt_sheet_ring(struct rt_sheet *sheet, const struct rt_ring_kind *kind,
		   const struct rt_ring_view *view, const struct rt_ring_drawing *drawing)
{
	const struct rt_pen edge = {.width_mm = 0.2, .stroke = RT_INK_BLACK};
	const struct rt_pen boards = {.width_mm = drawing->boards_mm, .stroke = RT_INK_BLACK};
	const struct rt_pen dashed = {
		.width_mm = 0.3, .stroke = RT_INK_BLACK, .dash_mm = {3.0, 1.5}};
	const struct rt_pen dotted = {
		.width_mm = 0.4, .stroke = RT_INK_BLACK, .dash_mm = {0.6, 1.4}};

	rt__ring_rectangle(sheet, "boards", &boards, view, kind, drawing->boards_mm / 2.0);
	rt__ring_rectangle(sheet, "ring", &edge, view, kind, 0.0);
	rt__ring_length(sheet, "centreline", &dashed, view, kind, 0.0);
	if (drawing->quarter_lines) {
		rt__ring_length(sheet, "quarter", &dotted, view, kind, -kind->width_m / 4.0);
		rt__ring_length(sheet, "quarter", &dotted, view, kind, kind->width_m / 4.0);
	}
	letters(sheet, kind, view, drawing);
}

void rt_sheet_path(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		   const struct rt_ring_view *view, const struct rt_piece *piece, size_t pieces)
{
	struct rt_vec end = {NAN, NAN};
	double x, y;

	rt_sheet_shape(sheet, role, pen);
	for (const struct rt_piece *p = piece; p < piece + pieces; p++) {
		const struct rt_vec *b = &p->begin.at, *toward = &p->begin.toward;

		/* written so that the first one, without an end before it, begins anew */
		if (!(hypot(b->x - end.x, b->y - end.y) < JOINED_M)) {
			rt_ring_view_point(view, b->x, b->y, &x, &y);
			rt_sheet_move(sheet, x, y);
		}
		end = rt_piece_at(p, p->length_m).at;
		if (p->curvature_per_m != 0.0) {
			rt_ring_view_point(view, b->x - toward->y / p->curvature_per_m,
					   b->y + toward->x / p->curvature_per_m, &x, &y);
			rt_sheet_arc(sheet, x, y, -p->length_m * p->curvature_per_m);
		} else {
			rt_ring_view_point(view, end.x, end.y, &x, &y);
			rt_sheet_line(sheet, x, y);
		}
	}
}
