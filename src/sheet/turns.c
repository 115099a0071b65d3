/* The turn sheet: the largest drawing that leaves room for its table on one page.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define COLUMN_LEAST_MM 72.0
#define STRIP_LEAST_MM	24.0 /* a place under the drawing lower than that is left empty */
#define GAP_MM		4.0
#define TYPE_MOST_PT	15.0
#define TYPE_STEP_PT	0.5

/* Scales that read well, 1 : n, from the largest drawing to the smallest. */
static const double scales[] = {
	50,  75,  100,	125,  150,  175,  200,	225,  250,  275,  300,	325,
	350, 375, 400,	425,  450,  475,  500,	550,  600,  650,  700,	750,
	800, 900, 1000, 1250, 1500, 2000, 2500, 3000, 4000, 5000, 7500, 10000,
};
enum { SCALES = sizeof scales / sizeof *scales };

/* How a page is parted: the drawing's upper left corner, its caption, the frames of the table. */
struct layout {
	double scale, left, top;
	struct rt_area caption;
	struct rt_area frame[2];
	size_t frames;
};

/* The ring upright: the table to its right, and under it where there is room. */
static bool lay_upright(const struct rt_area *room, double width, double height, struct layout *out)
{
	double bottom = room->top_mm + height + RT__LINE_MM;

	if (bottom > room->bottom_mm ||
	    room->left_mm + width + GAP_MM + COLUMN_LEAST_MM > room->right_mm)
		return false;
	out->left = room->left_mm;
	out->top = room->top_mm;
	out->caption = (struct rt_area){room->left_mm, bottom - RT__LINE_MM, room->left_mm + width,
					bottom};
	out->frame[0] = (struct rt_area){room->left_mm + width + GAP_MM, room->top_mm,
					 room->right_mm, room->bottom_mm};
	out->frames = 1;
	if (width >= COLUMN_LEAST_MM && room->bottom_mm - bottom - GAP_MM >= STRIP_LEAST_MM)
		out->frame[out->frames++] = (struct rt_area){
			room->left_mm, bottom + GAP_MM, room->left_mm + width, room->bottom_mm};
	return true;
}

/* Two columns side by side. */
static void two_columns(const struct rt_area *room, double top, struct rt_area frame[2])
{
	double middle = (room->left_mm + room->right_mm) / 2.0;

	frame[0] = (struct rt_area){room->left_mm, top, middle - GAP_MM / 2.0, room->bottom_mm};
	frame[1] = (struct rt_area){middle + GAP_MM / 2.0, top, room->right_mm, room->bottom_mm};
}

/* The ring on its side: the table under it in two columns. */
static bool lay_level(const struct rt_area *room, double width, double height, struct layout *out)
{
	double bottom = room->top_mm + height + RT__LINE_MM;

	if (room->left_mm + width > room->right_mm || bottom + STRIP_LEAST_MM > room->bottom_mm)
		return false;
	out->left = room->left_mm + (room->right_mm - room->left_mm - width) / 2.0;
	out->top = room->top_mm;
	out->caption = (struct rt_area){room->left_mm, bottom - RT__LINE_MM, room->right_mm,
					bottom};
	two_columns(room, bottom + GAP_MM / 2.0, out->frame);
	out->frames = 2;
	return true;
}

/* Whether the whole table finds room in a layout. */
static bool table_fits(const struct rt__turn_sheet *t, const struct layout *l)
{
	size_t next = 0;

	rt__turn_table(t, l->frame, l->frames, &next, false);
	return next == rt__turn_table_blocks(t);
}

/* The largest scale with which the whole table finds room in type of 12 points, then the largest
 * type that does with it.  Where none does: the largest scale that leaves a column. */
static void lay_out(struct rt__turn_sheet *t, const struct rt_area *room, struct layout *out)
{
	bool upright = rt__is_upright(t->options->seat);
	struct layout l = {0};
	bool fits = false;

	out->frames = 0;
	t->type_pt = RT__BODY_PT;
	for (size_t i = 0; i < SCALES && !fits; i++) {
		double width, height;

		rt__turn_drawing_size(t, 1000.0 / scales[i], &width, &height);
		l.scale = scales[i];
		if (!(upright ? lay_upright(room, width, height, &l)
			      : lay_level(room, width, height, &l)))
			continue;
		fits = table_fits(t, &l);
		if (fits || !out->frames)
			*out = l;
	}
	while (fits && t->type_pt < TYPE_MOST_PT) {
		t->type_pt += TYPE_STEP_PT;
		fits = table_fits(t, out);
		if (!fits)
			t->type_pt -= TYPE_STEP_PT;
	}
}

static void caption(const struct rt__turn_sheet *t, const struct layout *l)
{
	char words[80];

	snprintf(words, sizeof words, "Seen from %s. Scale 1 : %.0f",
		 rt_seat_words(t->options->seat), l->scale);
	rt__set_lines(t->sheet, "caption", words, l->caption.left_mm, l->caption.top_mm,
		      l->caption.right_mm - l->caption.left_mm, &rt__type, true);
}

static void pages(struct rt__turn_sheet *t, const struct rt__furniture *furniture)
{
	struct rt_area room = rt__furniture_room(t->sheet, furniture), frame[2];
	struct layout l;
	size_t next = 0, before = SIZE_MAX;

	lay_out(t, &room, &l);
	rt_sheet_page(t->sheet);
	rt__turn_drawing(t, 1000.0 / l.scale, l.left, l.top);
	caption(t, &l);
	rt__turn_table(t, l.frame, l.frames, &next, true);
	two_columns(&room, room.top_mm, frame);
	while (next < rt__turn_table_blocks(t) && next != before) {
		before = next;
		rt_sheet_page(t->sheet);
		rt__turn_table(t, frame, 2, &next, true);
	}
	rt__furniture_draw(t->sheet, furniture, 1);
}

/* The lines under the title: what the turns are of. */
static void about(const struct rt_turns *turns, bool feet, char size[256], char animal[256])
{
	double quarter = turns->diameter_m * RT__PI / 4.0;
	char inside[128] = "";

	if (turns->track_m > 0.0)
		snprintf(inside, sizeof inside, "; track %s inside the boards",
			 rt_show_length(turns->track_m, 0, 2, feet).text);
	snprintf(size, 256, "Diameter %s, radius %s%s",
		 rt_show_length(turns->diameter_m, 0, 2, feet).text,
		 rt_show_length(turns->diameter_m / 2.0, 0, 2, feet).text, inside);
	snprintf(animal, 256, "%s %s cm, bend %s\302\260; a quarter turn is %s, %s s at %s",
		 turns->height_given ? "Animal of" : "Level's animal,",
		 rt_show_real(turns->height_cm, 1).text, rt_show_real(turns->bend_deg, 1).text,
		 rt_show_length(round(quarter * 10.0) / 10.0, 0, 2, feet).text,
		 rt_show_real(quarter / turns->speed_m_per_s, 1).text, turns->gait);
}

enum rt_err rt_sheet_turns(struct rt_sheet *out, const struct rt_turns *turns,
			   const struct rt_ring_kind *kind, const struct rt_sheet_options *options,
			   struct rt_error *err)
{
	struct rt__groups groups = {0};
	struct rt__turn_sheet t = {out, turns, kind, options, &groups, RT__BODY_PT};
	char title[512], size[256], animal[256];
	struct rt__furniture furniture = {
		.title = title, .line = {options->show, size, animal}, .caution = true};
	enum rt_err rc;

	snprintf(title, sizeof title, "Turns: %s, %s", turns->level, turns->kind);
	rc = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (!rc)
		rc = rt__turn_groups(&groups, turns, kind, err);
	if (!rc) {
		about(turns, options->feet, size, animal);
		pages(&t, &furniture);
		rc = rt_sheet_result(out, err);
	}
	RT_LIST_FREE(&groups);
	return rc;
}
