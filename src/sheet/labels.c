/* Words and numbers put where nothing else is drawn.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define SAMPLE_MM 0.5 /* how finely lines are looked at */

static bool meet(const struct rt_area *a, const struct rt_area *b)
{
	return a->left_mm < b->right_mm && b->left_mm < a->right_mm && a->top_mm < b->bottom_mm &&
	       b->top_mm < a->bottom_mm;
}

static bool inside(const struct rt_area *box, double x, double y)
{
	return x > box->left_mm && x < box->right_mm && y > box->top_mm && y < box->bottom_mm;
}

/* The millimetres of a step inside the box. */
static double step_inside(const struct rt_pen_step *from, const struct rt_pen_step *step,
			  const struct rt_area *box)
{
	bool arc = step->kind == RT_PEN_ARC;
	double x = from->x_mm - (arc ? step->centre_x_mm : 0.0);
	double y = from->y_mm - (arc ? step->centre_y_mm : 0.0);
	double length = arc ? hypot(x, y) * fabs(step->turned_rad)
			    : hypot(step->x_mm - x, step->y_mm - y);
	int n = (int)ceil(length / SAMPLE_MM), within = 0;

	for (int i = 0; i <= n; i++) {
		double part = n ? (double)i / n : 0.0;

		if (arc) {
			double c = cos(part * step->turned_rad), s = sin(part * step->turned_rad);

			within += inside(box, step->centre_x_mm + c * x - s * y,
					 step->centre_y_mm + s * x + c * y);
		} else {
			within += inside(box, x + part * (step->x_mm - x),
					 y + part * (step->y_mm - y));
		}
	}
	return within * SAMPLE_MM;
}

/* The box that holds a shape. */
static struct rt_area shape_area(const struct rt_sheet *sheet, const struct rt_drawn *drawn)
{
	struct rt_area area = {INFINITY, INFINITY, -INFINITY, -INFINITY};

	for (size_t i = 0; i < drawn->steps; i++) {
		const struct rt_pen_step *s = &sheet->step.at[drawn->first_step + i];
		double radius = 0.0, x = s->x_mm, y = s->y_mm;

		if (s->kind == RT_PEN_ARC) { /* the whole circle: larger than need be */
			radius = hypot(x - s->centre_x_mm, y - s->centre_y_mm);
			x = s->centre_x_mm;
			y = s->centre_y_mm;
		}
		area.left_mm = fmin(area.left_mm, x - radius);
		area.right_mm = fmax(area.right_mm, x + radius);
		area.top_mm = fmin(area.top_mm, y - radius);
		area.bottom_mm = fmax(area.bottom_mm, y + radius);
	}
	return area;
}

static double shape_clash(const struct rt_sheet *sheet, const struct rt_drawn *drawn,
			  const struct rt_area *box)
{
	struct rt_area area = shape_area(sheet, drawn);
	double met = 0.0;

	if (!(area.left_mm <= box->right_mm && box->left_mm <= area.right_mm &&
	      area.top_mm <= box->bottom_mm && box->top_mm <= area.bottom_mm))
		return 0.0;
	if (drawn->pen.fill != RT_INK_NONE)
		return RT__WORDS_WEIGH;
	for (size_t i = 1; i < drawn->steps; i++) {
		const struct rt_pen_step *step = &sheet->step.at[drawn->first_step + i];

		if (step->kind != RT_PEN_MOVE)
			met += step_inside(step - 1, step, box);
	}
	return met * drawn->pen.width_mm;
}

double rt__clash(const struct rt_sheet *sheet, const struct rt_area *box, const char *role)
{
	double met = 0.0;

	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *drawn = &sheet->drawn.at[i];
		struct rt_area area;

		if (drawn->page != sheet->pages || (role && strcmp(drawn->role, role) != 0))
			continue;
		if (!drawn->words) {
			met += shape_clash(sheet, drawn, box);
			continue;
		}
		area = rt_drawn_area(drawn);
		if (meet(&area, box))
			met += RT__WORDS_WEIGH;
	}
	return met;
}

struct rt_area rt__label_box(const struct rt_extent *e, const struct rt__spot *middle,
			     double gap_mm)
{
	double across = e->width_mm / 2.0 + gap_mm;
	double down = (e->ascent_mm + e->descent_mm) / 2.0 + gap_mm;

	return (struct rt_area){middle->x_mm - across, middle->y_mm - down, middle->x_mm + across,
				middle->y_mm + down};
}

/* The middle of words that stand away_mm from a point, in a direction from x to y. */
static struct rt__spot beside(const struct rt_extent *e, const struct rt__spot *point,
			      double angle_rad, double away_mm)
{
	double down = (e->ascent_mm + e->descent_mm) / 2.0;

	return (struct rt__spot){point->x_mm + cos(angle_rad) * (e->width_mm / 2.0 + away_mm),
				 point->y_mm + sin(angle_rad) * (down + away_mm)};
}

void rt__label_round(const struct rt_extent *e, const struct rt__spot *about, double angle_rad,
		     double away_mm, double step_mm, size_t rings, struct rt__spot *out)
{
	for (size_t k = 0; k < rings * RT__ROUND; k++) {
		int i = (int)(k % RT__ROUND), side = i % 2 ? (i + 1) / 2 : -((i + 1) / 2);

		out[k] = beside(e, about, angle_rad + side * 2.0 * RT__PI / RT__ROUND,
				away_mm + step_mm * (double)(k / RT__ROUND));
	}
}

void rt__label_set(struct rt_sheet *sheet, const char *role, const char *words,
		   const struct rt_extent *e, const struct rt__spot *middle,
		   const struct rt_lettering *lettering)
{
	rt_sheet_text(sheet, role, words, middle->x_mm,
		      middle->y_mm + (e->ascent_mm - e->descent_mm) / 2.0, lettering);
}

double rt__label_spot(const struct rt_sheet *sheet, const struct rt_extent *extent, double gap_mm,
		      const struct rt_area *within, const struct rt__spot *spot, size_t spots,
		      struct rt__spot *out)
{
	double least = INFINITY;

	for (size_t i = 0; i < spots && least > 0.0; i++) {
		struct rt_area box = rt__label_box(extent, &spot[i], gap_mm);
		double met;

		if (box.left_mm < within->left_mm || box.right_mm > within->right_mm ||
		    box.top_mm < within->top_mm || box.bottom_mm > within->bottom_mm)
			continue;
		met = rt__clash(sheet, &box, NULL);
		if (met < least) {
			least = met;
			*out = spot[i];
		}
	}
	return least;
}
