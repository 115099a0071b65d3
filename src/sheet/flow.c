/* Words down a frame and on to the next page.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#define TICK_ROOM_MM 6.5 /* from the box's left to the words */
#define WRITE_MM     15.0

static const struct rt_pen line_pen = {.width_mm = 0.4, .stroke = RT_INK_BLACK};

void rt__tick(struct rt_sheet *sheet, double x_mm, double y_mm)
{
	rt_sheet_rectangle(sheet, "tick", &rt__thick,
			   &(struct rt_area){x_mm - RT__TICK_MM, y_mm - RT__TICK_MM,
					     x_mm + RT__TICK_MM, y_mm + RT__TICK_MM});
}

void rt__flow_need(struct rt__flow *f, double height_mm)
{
	if (f->down_mm + height_mm <= f->frame.bottom_mm)
		return;
	rt_sheet_page(f->sheet);
	f->frame = f->further;
	f->down_mm = f->frame.top_mm;
}

/* Set words from so far inside the frame. */
static void set(struct rt__flow *f, const char *role, const char *words,
		const struct rt_lettering *lettering, double inside_mm)
{
	double left = f->frame.left_mm + inside_mm;

	f->down_mm += rt__set_lines(f->sheet, role, words, left, f->down_mm,
				    f->frame.right_mm - left, lettering, true);
}

static double height(struct rt__flow *f, const char *words, const struct rt_lettering *lettering,
		     double inside_mm)
{
	return rt__set_lines(f->sheet, "", words, 0.0, 0.0,
			     f->frame.right_mm - f->frame.left_mm - inside_mm, lettering, false);
}

void rt__flow_words(struct rt__flow *f, const char *role, const char *words,
		    const struct rt_lettering *lettering, double keep_mm)
{
	rt__flow_need(f, height(f, words, lettering, 0.0) + keep_mm);
	set(f, role, words, lettering, 0.0);
}

void rt__flow_tick(struct rt__flow *f, const char *role, const char *words,
		   const struct rt_lettering *lettering)
{
	rt__flow_need(f, height(f, words, lettering, TICK_ROOM_MM));
	rt__tick(f->sheet, f->frame.left_mm + 0.5 + RT__TICK_MM, f->down_mm + 0.5 + RT__TICK_MM);
	set(f, role, words, lettering, TICK_ROOM_MM);
	f->down_mm += 1.0;
}

void rt__flow_line(struct rt__flow *f, const char *what, const struct rt_lettering *lettering)
{
	rt__flow_need(f, WRITE_MM + height(f, what, lettering, 0.0));
	f->down_mm += WRITE_MM;
	rt_sheet_segment(f->sheet, "sign", &line_pen, f->frame.left_mm, f->down_mm,
			 f->frame.right_mm, f->down_mm);
	f->down_mm += 0.6;
	set(f, "sign-words", what, lettering, 0.0);
}
