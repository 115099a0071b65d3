/* A sheet as PDF, by cairo and pango.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#include <cairo-pdf.h>
#include <cairo.h>

#define PT(mm) ((mm) / RT__MM_PER_PT)

static cairo_status_t to_stream(void *out, const unsigned char *bytes, unsigned n)
{
	return fwrite(bytes, 1, n, out) == n ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

static void set_ink(cairo_t *cr, enum rt_ink ink)
{
	double grey = ink == RT_INK_WHITE ? 1.0 : ink == RT_INK_GREY ? 0x88 / 255.0 : 0.0;

	cairo_set_source_rgb(cr, grey, grey, grey);
}

static void trace_arc(cairo_t *cr, const struct rt_pen_step *from, const struct rt_pen_step *step)
{
	double x = from->x_mm - step->centre_x_mm, y = from->y_mm - step->centre_y_mm;
	double begin = atan2(y, x), finish = begin + step->turned_rad;

	if (step->turned_rad > 0.0)
		cairo_arc(cr, PT(step->centre_x_mm), PT(step->centre_y_mm), PT(hypot(x, y)), begin,
			  finish);
	else
		cairo_arc_negative(cr, PT(step->centre_x_mm), PT(step->centre_y_mm),
				   PT(hypot(x, y)), begin, finish);
}

static void trace(cairo_t *cr, const struct rt_pen_step *step)
{
	switch (step->kind) {
	case RT_PEN_MOVE:
		cairo_move_to(cr, PT(step->x_mm), PT(step->y_mm));
		break;
	case RT_PEN_LINE:
		cairo_line_to(cr, PT(step->x_mm), PT(step->y_mm));
		break;
	case RT_PEN_ARC:
		trace_arc(cr, step - 1, step);
		break;
	case RT_PEN_CLOSE:
		cairo_close_path(cr);
		break;
	}
}

static void draw_shape(cairo_t *cr, const struct rt_sheet *sheet, const struct rt_drawn *drawn)
{
	const struct rt_pen *pen = &drawn->pen;
	double dash[4];
	int dashes = 0;

	cairo_new_path(cr);
	for (size_t i = 0; i < drawn->steps; i++)
		trace(cr, &sheet->step.at[drawn->first_step + i]);
	if (pen->fill != RT_INK_NONE) {
		set_ink(cr, pen->fill);
		cairo_fill_preserve(cr);
	}
	if (pen->stroke == RT_INK_NONE)
		return;
	for (; dashes < 4 && pen->dash_mm[dashes] > 0.0; dashes++)
		dash[dashes] = PT(pen->dash_mm[dashes]);
	cairo_set_dash(cr, dash, dashes, 0.0);
	cairo_set_line_width(cr, PT(pen->width_mm));
	set_ink(cr, pen->stroke);
	cairo_stroke(cr);
}

static void draw_text(cairo_t *cr, const struct rt_sheet *sheet, const struct rt_drawn *drawn)
{
	const struct rt_lettering *l = &drawn->lettering;
	double width = drawn->extent.width_mm;

	cairo_save(cr);
	cairo_translate(cr, PT(drawn->x_mm), PT(drawn->y_mm));
	cairo_rotate(cr, l->turned_deg * RT__PI / 180.0);
	cairo_move_to(cr,
		      l->anchor == RT_ANCHOR_LEFT     ? 0.0
		      : l->anchor == RT_ANCHOR_MIDDLE ? PT(-width / 2.0)
						      : PT(-width),
		      0.0);
	set_ink(cr, l->ink);
	rt__typeset_show(sheet->typesetter, cr, drawn->words, l);
	cairo_restore(cr);
}

/* Put a page's bookmarks into the outline, from *next on, which moves past them; *parent is the
 * last one that is under none. */
static void add_bookmarks(cairo_surface_t *surface, const struct rt_sheet *sheet, int page,
			  size_t *next, int *parent)
{
	char link[32];

	snprintf(link, sizeof link, "page=%d", page);
	for (; *next < sheet->bookmarks.n && sheet->bookmarks.at[*next].page == page; ++*next) {
		const struct rt_bookmark *mark = &sheet->bookmarks.at[*next];
		int made = cairo_pdf_surface_add_outline(
			surface, mark->under ? *parent : CAIRO_PDF_OUTLINE_ROOT, mark->words, link,
			0);

		if (!mark->under)
			*parent = made;
	}
}

/* "2-1": a page counted from its bookmark on. */
static void label_page(cairo_surface_t *surface, const struct rt_bookmark *mark, int page)
{
	char label[400];

	snprintf(label, sizeof label, "%s-%d", mark->label, page - mark->page + 1);
	cairo_pdf_surface_set_page_label(surface, label);
}

static void draw_page(cairo_t *cr, const struct rt_sheet *sheet, int page)
{
	for (size_t i = 0; i < sheet->drawn.n; i++) {
		const struct rt_drawn *drawn = &sheet->drawn.at[i];

		if (drawn->page != page)
			continue;
		if (drawn->words)
			draw_text(cr, sheet, drawn);
		else
			draw_shape(cr, sheet, drawn);
	}
	cairo_show_page(cr);
}

/* When it was made is the caller's, in the form cairo reads: YYYY-MM-DDTHH:MM:SS. */
static void set_metadata(cairo_surface_t *surface, const struct rt_sheet *sheet)
{
	char when[32];

	snprintf(when, sizeof when, "%s", sheet->when);
	if (strlen(when) > 10)
		when[10] = 'T';
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, sheet->title);
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "ringtrue");
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, when);
}

static void draw_pages(cairo_surface_t *surface, cairo_t *cr, const struct rt_sheet *sheet)
{
	size_t next = 0;
	int parent = CAIRO_PDF_OUTLINE_ROOT;

	for (int page = 1; page <= sheet->pages; page++) {
		if (sheet->bookmarks.n > 1)
			add_bookmarks(surface, sheet, page, &next, &parent);
		if (next)
			label_page(surface, &sheet->bookmarks.at[next - 1], page);
		draw_page(cr, sheet, page);
	}
}

enum rt_err rt__pdf_write(const struct rt_sheet *sheet, FILE *out, struct rt_error *err)
{
	cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
		to_stream, out, PT(sheet->width_mm), PT(sheet->height_mm));
	cairo_t *cr = cairo_create(surface);
	cairo_status_t drawn, written;

	set_metadata(surface, sheet);
	draw_pages(surface, cr, sheet);
	drawn = cairo_status(cr);
	cairo_destroy(cr);
	cairo_surface_finish(surface);
	written = cairo_surface_status(surface);
	cairo_surface_destroy(surface);
	if (drawn == CAIRO_STATUS_SUCCESS)
		drawn = written;
	if (drawn == CAIRO_STATUS_NO_MEMORY)
		return rt_fail_nomem(err);
	if (drawn != CAIRO_STATUS_SUCCESS)
		return rt_fail(err, RT_E_IO, "the PDF could not be written: %s",
			       cairo_status_to_string(drawn));
	return RT_OK;
}
