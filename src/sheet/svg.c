/* A sheet as SVG: real words with the width that pango measured, true arcs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define PAGE_GAP_MM 10.0

void rt__svg_number(double v, char out[static 48])
{
	char *end;

	rt_format_real(v, 3, out, 48);
	end = out + strlen(out);
	while (end[-1] == '0')
		end--;
	if (end[-1] == '.')
		end--;
	*end = '\0';
}

void rt__svg_escape(FILE *out, const char *words)
{
	for (; *words; words++) {
		char c = *words;

		if (c == '&')
			fputs("&amp;", out);
		else if (c == '<')
			fputs("&lt;", out);
		else if (c == '>')
			fputs("&gt;", out);
		else if (c == '"')
			fputs("&quot;", out);
		else if (c == '\'')
			fputs("&#39;", out);
		else
			fputc(c, out);
	}
}

static void attribute(FILE *out, const char *name, double v)
{
	char number[48];

	rt__svg_number(v, number);
	fprintf(out, " %s=\"%s\"", name, number);
}

/* A command of a path's data with its numbers. */
static void command(FILE *out, char letter, const double *number, size_t n)
{
	char text[48];

	fputc(letter, out);
	for (size_t i = 0; i < n; i++) {
		rt__svg_number(number[i], text);
		fprintf(out, "%s%s", i ? " " : "", text);
	}
}

/* An arc ends somewhere else than it began, so a long one is told in two. */
static void arc(FILE *out, const struct rt_pen_step *from, const struct rt_pen_step *step)
{
	double x = from->x_mm - step->centre_x_mm, y = from->y_mm - step->centre_y_mm;
	double radius = hypot(x, y), half = step->turned_rad / 2.0;
	double sweep = step->turned_rad > 0.0 ? 1.0 : 0.0;

	if (fabs(step->turned_rad) > RT__PI * 0.99)
		command(out, 'A',
			(const double[]){radius, radius, 0.0, 0.0, sweep,
					 step->centre_x_mm + cos(half) * x - sin(half) * y,
					 step->centre_y_mm + sin(half) * x + cos(half) * y},
			7);
	command(out, 'A', (const double[]){radius, radius, 0.0, 0.0, sweep, step->x_mm, step->y_mm},
		7);
}

static const char *ink(enum rt_ink i)
{
	static const char *const name[] = {"none", "#000", "#888", "#fff"};

	return name[i];
}

static void write_pen(FILE *out, const struct rt_pen *pen)
{
	char number[48];

	fprintf(out, " fill=\"%s\"", ink(pen->fill));
	if (pen->stroke == RT_INK_NONE)
		return;
	fprintf(out, " stroke=\"%s\"", ink(pen->stroke));
	attribute(out, "stroke-width", pen->width_mm);
	for (int i = 0; i < 4 && pen->dash_mm[i] > 0.0; i++) {
		rt__svg_number(pen->dash_mm[i], number);
		fprintf(out, "%s%s", i ? " " : " stroke-dasharray=\"", number);
	}
	if (pen->dash_mm[0] > 0.0)
		fputc('"', out);
}

static void write_shape(FILE *out, const struct rt_sheet *sheet, const struct rt_drawn *drawn)
{
	fprintf(out, "<path class=\"%s\"", drawn->role);
	write_pen(out, &drawn->pen);
	fputs(" d=\"", out);
	for (size_t i = 0; i < drawn->steps; i++) {
		const struct rt_pen_step *step = &sheet->step.at[drawn->first_step + i];

		switch (step->kind) {
		case RT_PEN_MOVE:
			command(out, 'M', (const double[]){step->x_mm, step->y_mm}, 2);
			break;
		case RT_PEN_LINE:
			command(out, 'L', (const double[]){step->x_mm, step->y_mm}, 2);
			break;
		case RT_PEN_ARC:
			arc(out, step - 1, step);
			break;
		case RT_PEN_CLOSE:
			fputc('Z', out);
			break;
		}
	}
	fputs("\"/>\n", out);
}

static void write_text(FILE *out, const struct rt_drawn *drawn)
{
	static const char *const anchor[] = {"start", "middle", "end"};
	const struct rt_lettering *l = &drawn->lettering;
	char x[48], y[48], turned[48];

	fprintf(out, "<text class=\"%s\"", drawn->role);
	attribute(out, "x", drawn->x_mm);
	attribute(out, "y", drawn->y_mm);
	attribute(out, "font-size", l->size_pt * RT__MM_PER_PT);
	fputs(" font-weight=\"bold\"", out);
	if (l->anchor != RT_ANCHOR_LEFT)
		fprintf(out, " text-anchor=\"%s\"", anchor[l->anchor]);
	if (l->turned_deg != 0.0) {
		rt__svg_number(drawn->x_mm, x);
		rt__svg_number(drawn->y_mm, y);
		rt__svg_number(l->turned_deg, turned);
		fprintf(out, " transform=\"rotate(%s %s %s)\"", turned, x, y);
	}
	fprintf(out, " fill=\"%s\"", ink(l->ink));
	attribute(out, "textLength", drawn->extent.width_mm);
	fputs(" lengthAdjust=\"spacingAndGlyphs\">", out);
	rt__svg_escape(out, drawn->words);
	fputs("</text>\n", out);
}

static void write_page(const struct rt_sheet *sheet, int page, FILE *out)
{
	char down[48];

	rt__svg_number((page - 1) * (sheet->height_mm + PAGE_GAP_MM), down);
	fprintf(out, "<g id=\"page-%d\" transform=\"translate(0 %s)\">\n", page, down);
	fputs("<rect class=\"paper\"", out);
	attribute(out, "width", sheet->width_mm);
	attribute(out, "height", sheet->height_mm);
	fputs(" fill=\"#fff\"/>\n", out);
	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *drawn = &sheet->drawn.at[i];

		if (drawn->page != page)
			continue;
		if (drawn->words)
			write_text(out, drawn);
		else
			write_shape(out, sheet, drawn);
	}
	fputs("</g>\n", out);
}

void rt__svg_write(const struct rt_sheet *sheet, FILE *out)
{
	double height = sheet->pages * (sheet->height_mm + PAGE_GAP_MM) - PAGE_GAP_MM;
	char w[48], h[48];

	rt__svg_number(sheet->width_mm, w);
	rt__svg_number(height, h);
	fputs("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", out);
	fprintf(out,
		"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" "
		"viewBox=\"0 0 %s %s\" font-family=\"" RT__FONT "\" stroke-linecap=\"butt\" "
		"stroke-linejoin=\"miter\">\n<title>",
		w, h, w, h);
	rt__svg_escape(out, sheet->title);
	fputs("</title>\n<desc>made ", out);
	rt__svg_escape(out, sheet->when);
	fputs("</desc>\n", out);
	for (int page = 1; page <= sheet->pages; page++)
		write_page(sheet, page, out);
	fputs("</svg>\n", out);
}
