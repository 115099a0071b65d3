/* Words measured and set by pango, at one point a unit, without the hinting of any screen.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>

#include <pango/pangocairo.h>

struct rt_typesetter {
	PangoContext *context;
	PangoLayout *layout;
	PangoFontDescription *font;
};

void rt__typesetter_free(struct rt_typesetter *t)
{
	if (!t)
		return;
	pango_font_description_free(t->font);
	if (t->layout)
		g_object_unref(t->layout);
	if (t->context)
		g_object_unref(t->context);
	free(t);
}

struct rt_typesetter *rt__typesetter_new(void)
{
	struct rt_typesetter *t = calloc(1, sizeof *t);
	cairo_font_options_t *options;

	if (!t)
		return NULL;
	/* pango's own font map of this thread: fonts are looked for once, not for every sheet */
	t->context = pango_font_map_create_context(pango_cairo_font_map_get_default());
	pango_cairo_context_set_resolution(t->context, 72.0);
	options = cairo_font_options_create();
	cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
	cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
	cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
	pango_cairo_context_set_font_options(t->context, options);
	cairo_font_options_destroy(options);
	pango_context_set_round_glyph_positions(t->context, FALSE);
	pango_context_set_language(t->context, pango_language_from_string("en"));
	t->layout = pango_layout_new(t->context);
	pango_layout_set_single_paragraph_mode(t->layout, TRUE);
	t->font = pango_font_description_from_string(RT__FONT);
	pango_font_description_set_weight(t->font, PANGO_WEIGHT_BOLD);
	return t;
}

static PangoLayoutLine *set(struct rt_typesetter *t, const char *words,
			    const struct rt_lettering *lettering)
{
	pango_font_description_set_size(t->font, (gint)(lettering->size_pt * PANGO_SCALE));
	pango_layout_set_font_description(t->layout, t->font);
	pango_layout_set_text(t->layout, words, -1);
	return pango_layout_get_line_readonly(t->layout, 0);
}

struct rt_extent rt__typeset_measure(struct rt_typesetter *t, const char *words,
				     const struct rt_lettering *lettering)
{
	const double mm = RT__MM_PER_PT / PANGO_SCALE;
	PangoRectangle ink, logical;

	pango_layout_line_get_extents(set(t, words, lettering), &ink, &logical);
	return (struct rt_extent){
		.width_mm = logical.width * mm,
		.ascent_mm = -ink.y * mm,
		.descent_mm = (ink.y + ink.height) * mm,
	};
}

void rt__typeset_show(struct rt_typesetter *t, void *cairo, const char *words,
		      const struct rt_lettering *lettering)
{
	pango_cairo_show_layout_line(cairo, set(t, words, lettering));
}
