/* What every page of a sheet has: title, what it is about, the caution, when it was made, its
 * number.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#define SIDE_MM 10.0 /* margins that any printer leaves */
#define CLIP_MM 16.0 /* at the top, under the clip of a clipboard */
#define FOOT_MM 10.0
#define GAP_MM	2.0

#define BAND_PAD_MM 1.5

static const struct rt_lettering title_type = {.size_pt = 18.0};
static const struct rt_pen band_pen = {.width_mm = 1.0, .stroke = RT_INK_BLACK};

const struct rt_lettering rt__type = {.size_pt = RT__BODY_PT};
const struct rt_lettering rt__middle_type = {.size_pt = RT__BODY_PT, .anchor = RT_ANCHOR_MIDDLE};
const struct rt_lettering rt__right_type = {.size_pt = RT__BODY_PT, .anchor = RT_ANCHOR_RIGHT};
const struct rt_lettering rt__head_type = {.size_pt = 14.0};
const struct rt_pen rt__thin = {.width_mm = 0.3, .stroke = RT_INK_BLACK};
const struct rt_pen rt__thick = {.width_mm = 0.6, .stroke = RT_INK_BLACK};
const struct rt_pen rt__black = {.fill = RT_INK_BLACK};
const struct rt_pen rt__white = {.fill = RT_INK_WHITE};

/* A framed line over the title; how high it is with the gap under it. */
static double set_band(struct rt_sheet *sheet, const char *words, double top, bool draw)
{
	double left = SIDE_MM + BAND_PAD_MM, width = sheet->width_mm - 2.0 * left;
	double height = rt__set_lines(sheet, "band", words, left, top + BAND_PAD_MM, width,
				      &rt__head_type, draw) +
			2.0 * BAND_PAD_MM;
	const struct rt_area frame = {SIDE_MM, top, sheet->width_mm - SIDE_MM, top + height};

	if (draw)
		rt_sheet_rectangle(sheet, "band", &band_pen, &frame);
	return height + GAP_MM;
}

static double head(struct rt_sheet *sheet, const struct rt__furniture *f, bool draw)
{
	double width = sheet->width_mm - 2.0 * SIDE_MM, down = CLIP_MM;

	if (f->band)
		down += set_band(sheet, f->band, down, draw);
	down += rt__set_lines(sheet, "title", f->title, SIDE_MM, down, width, &title_type, draw);
	for (int i = 0; i < 3; i++)
		if (f->line[i])
			down += rt__set_lines(sheet, "about", f->line[i], SIDE_MM, down, width,
					      &rt__type, draw);
	down += GAP_MM / 2.0;
	if (draw)
		rt_sheet_segment(sheet, "rule", &rt__thick, SIDE_MM, down,
				 sheet->width_mm - SIDE_MM, down);
	return down + GAP_MM;
}

/* How high the foot is; drawn when page is not 0. */
static double foot(struct rt_sheet *sheet, const struct rt__furniture *f, int page, int pages)
{
	double width = sheet->width_mm - 2.0 * SIDE_MM, height = RT__LINE_MM, top;
	char words[64];

	if (f->caution)
		height += rt__set_lines(sheet, "caution", RT_CAUTION, SIDE_MM, 0.0, width,
					&rt__type, false);
	top = sheet->height_mm - FOOT_MM - height;
	if (!page)
		return height + GAP_MM;
	rt_sheet_segment(sheet, "rule", &rt__thick, SIDE_MM, top - GAP_MM / 2.0,
			 sheet->width_mm - SIDE_MM, top - GAP_MM / 2.0);
	if (f->caution)
		top += rt__set_lines(sheet, "caution", RT_CAUTION, SIDE_MM, top, width, &rt__type,
				     true);
	snprintf(words, sizeof words, "made %.16s", sheet->when);
	rt__set_lines(sheet, "made", words, SIDE_MM, top, width, &rt__type, true);
	snprintf(words, sizeof words, "page %d of %d", page, pages);
	rt__set_lines(sheet, "page", words, sheet->width_mm - SIDE_MM, top, width, &rt__right_type,
		      true);
	return height + GAP_MM;
}

struct rt_area rt__furniture_room(struct rt_sheet *sheet, const struct rt__furniture *f)
{
	return (struct rt_area){
		.left_mm = SIDE_MM,
		.top_mm = head(sheet, f, false),
		.right_mm = sheet->width_mm - SIDE_MM,
		.bottom_mm = sheet->height_mm - FOOT_MM - foot(sheet, f, 0, 0),
	};
}

void rt__furniture_draw(struct rt_sheet *sheet, const struct rt__furniture *f, int first)
{
	for (int page = first; page <= sheet->pages; page++) {
		size_t from = sheet->drawn.n;

		head(sheet, f, true);
		foot(sheet, f, page - first + 1, sheet->pages - first + 1);
		for (size_t i = from; i < sheet->drawn.n; i++)
			sheet->drawn.at[i].page = page;
	}
}
