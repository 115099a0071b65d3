/* A sheet as a list of what is drawn, in millimetres.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include "../base/enum_words.h"

#include <math.h>
#include <string.h>

RT__ENUM_WORDS(paper_size, "paper", RT_PAPER_SIZES)

/* Words as they are drawn, for as long as the sheet; NULL when memory is out. */
static const char *kept_words(struct rt_sheet *sheet, const char *words)
{
	const char *clean = rt_clean_line(&sheet->drawn.text, words);

	return clean == words ? rt_arena_string(&sheet->drawn.text, words) : clean;
}

enum rt_err rt_sheet_begin(struct rt_sheet *out, enum rt_paper_size paper, const char *title,
			   const char *when, struct rt_error *err)
{
	static const struct {
		double width_mm, height_mm;
	} size[] = {[RT_A4] = {210.0, 297.0}, [RT_LETTER] = {215.9, 279.4}};

	if (out->typesetter)
		return RT_OK;
	out->width_mm = size[paper].width_mm;
	out->height_mm = size[paper].height_mm;
	out->title = kept_words(out, title);
	out->when = kept_words(out, when);
	out->typesetter = rt__typesetter_new();
	return out->title && out->when && out->typesetter ? RT_OK : rt_fail_nomem(err);
}

void rt_sheet_free(struct rt_sheet *sheet)
{
	if (!sheet)
		return;
	rt__typesetter_free(sheet->typesetter);
	RT_LIST_FREE(&sheet->bookmarks);
	RT_LIST_FREE(&sheet->drawn);
	RT_LIST_FREE(&sheet->step);
	memset(sheet, 0, sizeof *sheet);
}

void rt_sheet_page(struct rt_sheet *sheet)
{
	sheet->pages++;
}

void rt_sheet_bookmark(struct rt_sheet *sheet, const char *words, const char *label, bool under)
{
	struct rt_bookmark *mark = RT_LIST_ADD(&sheet->bookmarks);

	if (mark)
		*mark = (struct rt_bookmark){sheet->pages + 1, kept_words(sheet, words),
					     kept_words(sheet, label), under};
	sheet->nomem |= !mark || !mark->words || !mark->label;
}

static struct rt_drawn *draw(struct rt_sheet *sheet, const char *role)
{
	struct rt_drawn *drawn = RT_LIST_ADD(&sheet->drawn);

	if (!drawn) {
		sheet->nomem = true;
		return NULL;
	}
	drawn->page = sheet->pages;
	drawn->role = role;
	drawn->first_step = sheet->step.n;
	return drawn;
}

void rt_sheet_shape(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen)
{
	struct rt_drawn *drawn = draw(sheet, role);

	if (drawn)
		drawn->pen = *pen;
}

/* One more step of the last shape.  After memory was out, the list may end in something else:
 * then nothing counts any more. */
static void step(struct rt_sheet *sheet, const struct rt_pen_step *made)
{
	struct rt_pen_step *kept = sheet->nomem ? NULL : RT_LIST_ADD(&sheet->step);

	if (!kept) {
		sheet->nomem = true;
		return;
	}
	*kept = *made;
	sheet->drawn.at[sheet->drawn.n - 1].steps++;
}

void rt_sheet_move(struct rt_sheet *sheet, double x_mm, double y_mm)
{
	step(sheet, &(struct rt_pen_step){.kind = RT_PEN_MOVE, .x_mm = x_mm, .y_mm = y_mm});
}

void rt_sheet_line(struct rt_sheet *sheet, double x_mm, double y_mm)
{
	step(sheet, &(struct rt_pen_step){.kind = RT_PEN_LINE, .x_mm = x_mm, .y_mm = y_mm});
}

void rt_sheet_arc(struct rt_sheet *sheet, double centre_x_mm, double centre_y_mm, double turned_rad)
{
	double c = cos(turned_rad), s = sin(turned_rad), x, y;

	if (sheet->nomem)
		return;
	x = sheet->step.at[sheet->step.n - 1].x_mm - centre_x_mm;
	y = sheet->step.at[sheet->step.n - 1].y_mm - centre_y_mm;
	step(sheet, &(struct rt_pen_step){
			    .kind = RT_PEN_ARC,
			    .x_mm = centre_x_mm + c * x - s * y,
			    .y_mm = centre_y_mm + s * x + c * y,
			    .centre_x_mm = centre_x_mm,
			    .centre_y_mm = centre_y_mm,
			    .turned_rad = turned_rad,
		    });
}

void rt_sheet_close(struct rt_sheet *sheet)
{
	const struct rt_drawn *drawn;
	const struct rt_pen_step *first;

	if (sheet->nomem)
		return;
	drawn = &sheet->drawn.at[sheet->drawn.n - 1];
	first = &sheet->step.at[drawn->first_step];
	step(sheet,
	     &(struct rt_pen_step){.kind = RT_PEN_CLOSE, .x_mm = first->x_mm, .y_mm = first->y_mm});
}

void rt_sheet_segment(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		      double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
	rt_sheet_shape(sheet, role, pen);
	rt_sheet_move(sheet, x0_mm, y0_mm);
	rt_sheet_line(sheet, x1_mm, y1_mm);
}

void rt_sheet_rectangle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			const struct rt_area *area)
{
	rt_sheet_shape(sheet, role, pen);
	rt_sheet_move(sheet, area->left_mm, area->top_mm);
	rt_sheet_line(sheet, area->right_mm, area->top_mm);
	rt_sheet_line(sheet, area->right_mm, area->bottom_mm);
	rt_sheet_line(sheet, area->left_mm, area->bottom_mm);
	rt_sheet_close(sheet);
}

void rt_sheet_circle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		     double x_mm, double y_mm, double radius_mm)
{
	rt_sheet_shape(sheet, role, pen);
	rt_sheet_move(sheet, x_mm + radius_mm, y_mm);
	rt_sheet_arc(sheet, x_mm, y_mm, 2.0 * RT__PI);
	rt_sheet_close(sheet);
}

void rt_sheet_text(struct rt_sheet *sheet, const char *role, const char *words, double x_mm,
		   double y_mm, const struct rt_lettering *lettering)
{
	struct rt_drawn *drawn = draw(sheet, role);

	if (!drawn)
		return;
	drawn->words = kept_words(sheet, words);
	if (!drawn->words) {
		sheet->nomem = true;
		sheet->drawn.n--;
		return;
	}
	drawn->x_mm = x_mm;
	drawn->y_mm = y_mm;
	drawn->lettering = *lettering;
	if (!drawn->lettering.ink)
		drawn->lettering.ink = RT_INK_BLACK;
	drawn->extent = rt__typeset_measure(sheet->typesetter, drawn->words, lettering);
}

struct rt_extent rt_sheet_measure(struct rt_sheet *sheet, const char *words,
				  const struct rt_lettering *lettering)
{
	const char *clean = rt_clean_line(&sheet->drawn.text, words);

	if (clean)
		return rt__typeset_measure(sheet->typesetter, clean, lettering);
	sheet->nomem = true;
	return (struct rt_extent){0};
}

struct rt_area rt_drawn_area(const struct rt_drawn *drawn)
{
	const struct rt_extent *e = &drawn->extent;
	double left = drawn->lettering.anchor == RT_ANCHOR_LEFT	    ? 0.0
		      : drawn->lettering.anchor == RT_ANCHOR_MIDDLE ? -e->width_mm / 2.0
								    : -e->width_mm;
	double turned = drawn->lettering.turned_deg * RT__PI / 180.0;
	double c = cos(turned), s = sin(turned);
	struct rt_area area = {INFINITY, INFINITY, -INFINITY, -INFINITY};

	for (int i = 0; i < 4; i++) {
		double x = left + (i & 1 ? e->width_mm : 0.0);
		double y = i & 2 ? e->descent_mm : -e->ascent_mm;
		double across = drawn->x_mm + c * x - s * y, down = drawn->y_mm + s * x + c * y;

		area.left_mm = fmin(area.left_mm, across);
		area.right_mm = fmax(area.right_mm, across);
		area.top_mm = fmin(area.top_mm, down);
		area.bottom_mm = fmax(area.bottom_mm, down);
	}
	return area;
}

enum rt_err rt_sheet_result(const struct rt_sheet *sheet, struct rt_error *err)
{
	return sheet->nomem ? rt_fail_nomem(err) : RT_OK;
}
