/* The set-out sheet: pages for the ring crew.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setout_internal.h"

#include <math.h>
#include <string.h>

#define NUMBER_MM  9.0 /* the column of step numbers */
#define BOX_MM	   7.0 /* a box to tick, with its gap */
#define PROOF_MM   68.0
#define GAP_MM	   3.0
#define AFTER_MM   1.6
#define FIELD_MM   120.0 /* how high the drawing of the field is */
#define WORDS_MOST 768

static double set(const struct rt__setout_pages *p, const char *role, const char *words,
		  double left, double top, double width, const struct rt_lettering *how, bool draw)
{
	return rt__set_lines(p->sheet, role, words, left, top, width, how, draw);
}

static void rule(const struct rt__setout_pages *p, const struct rt_pen *pen, double y)
{
	rt_sheet_segment(p->sheet, "rule", pen, p->room.left_mm, y, p->room.right_mm, y);
}

/* ---- room and things ------------------------------------------------------------------------- */

/* The rows of room beside the drawing; where they end. */
static double needs(const struct rt__setout_pages *p, double left)
{
	const struct rt_setout_room *r = p->what->room;
	double top = p->room.top_mm, width = p->room.right_mm - left;
	char words[400];

	top += set(p, "head", "Room needed", left, top, width, &rt__head_type, true) + 1.0;
	for (size_t i = 0; i < r->needs; i++) {
		snprintf(words, sizeof words, "%s: %s = %s (%s)", r->need[i].what,
			 rt_show_taped(r->need[i].by_m, false).text,
			 rt_show_taped(r->need[i].by_m, true).text, r->need[i].source);
		top += set(p, "need", words, left, top, width, &rt__type, true) + AFTER_MM;
	}
	return top;
}

/* What to carry, in two columns from top down. */
static void things(const struct rt__setout_pages *p, double top)
{
	struct rt_setout_thing thing[RT_THINGS_MOST];
	size_t n = rt_setout_carry(thing, p->what->plan, p->what->room->opening_m,
				   p->options->feet);
	double middle = (p->room.left_mm + p->room.right_mm + GAP_MM) / 2.0;
	double width = middle - GAP_MM - p->room.left_mm - BOX_MM, down;

	rule(p, &rt__thick, top);
	top += 1.5;
	top += set(p, "head", "To carry to the field", p->room.left_mm, top, 2.0 * width,
		   &rt__head_type, true) +
	       1.5;
	down = top;
	for (size_t i = 0; i < n; i++) {
		double left = i < (n + 1) / 2 ? p->room.left_mm : middle;
		char words[200];

		if (i == (n + 1) / 2)
			down = top;
		snprintf(words, sizeof words, "%lld %s%s%s", (long long)thing[i].count,
			 thing[i].thing, *thing[i].words ? ": " : "", thing[i].words);
		rt__tick(p->sheet, left + RT__TICK_MM, down + RT__LINE_MM / 2.0);
		down += fmax(set(p, "thing", words, left + BOX_MM, down, width, &rt__type, true),
			     2.0 * RT__TICK_MM) +
			AFTER_MM;
	}
}

static void room_page(const struct rt__setout_pages *p)
{
	double middle = p->room.left_mm + 82.0, end;
	const struct rt_area field = {p->room.left_mm, p->room.top_mm, middle - GAP_MM,
				      p->room.top_mm + FIELD_MM};

	rt_sheet_page(p->sheet);
	rt__setout_field(p, &field);
	set(p, "caption", "Thin: the field. Dashed: the lane. J: a judge's car or stand.",
	    field.left_mm, field.bottom_mm + 1.5, field.right_mm - field.left_mm, &rt__type, true);
	end = needs(p, middle);
	things(p, fmax(end, field.bottom_mm + 3.0 * RT__LINE_MM) + GAP_MM);
}

/* ---- steps ----------------------------------------------------------------------------------- */

/* A step with its boxes; the height it takes. */
static double step(const struct rt__setout_pages *p, size_t i, double top, bool draw)
{
	double proof_left = p->room.right_mm - PROOF_MM + BOX_MM, left = p->room.left_mm + BOX_MM;
	double do_left = left + NUMBER_MM,
	       do_width = p->room.right_mm - PROOF_MM - GAP_MM - do_left;
	char words[WORDS_MOST], number[24];
	double height, proof;

	snprintf(number, sizeof number, "%zu", i + 1);
	set(p, "number", number, left, top, NUMBER_MM, &rt__type, draw);
	rt_setout_step_words(p->what->plan, i, p->options->feet, words, sizeof words);
	height = set(p, "do", words, do_left, top, do_width, &rt__type, draw);
	rt_setout_proof_words(p->what->plan, i, p->options->feet, words, sizeof words);
	proof = set(p, "proof", words, proof_left, top, p->room.right_mm - proof_left, &rt__type,
		    draw);
	if (draw)
		rt__tick(p->sheet, p->room.left_mm + RT__TICK_MM, top + RT__LINE_MM / 2.0);
	if (draw)
		rt__tick(p->sheet, proof_left - BOX_MM + RT__TICK_MM, top + RT__LINE_MM / 2.0);
	return fmax(height, proof) + AFTER_MM;
}

static double steps_page(const struct rt__setout_pages *p)
{
	double top = p->room.top_mm;

	rt_sheet_page(p->sheet);
	set(p, "columns", "do", p->room.left_mm + BOX_MM + NUMBER_MM, top, 50.0, &rt__type, true);
	top += set(p, "columns", "what proves it", p->room.right_mm - PROOF_MM + BOX_MM, top, 50.0,
		   &rt__type, true);
	rule(p, &rt__thick, top + 0.5);
	return top + 1.5;
}

/* The heading of a stage; the height it takes. */
static double stage(const struct rt__setout_pages *p, size_t i, double top, bool draw)
{
	char words[80];

	snprintf(words, sizeof words, "%s", p->what->plan->step[i].stage);
	if (*words >= 'a' && *words <= 'z')
		*words = (char)(*words - 'a' + 'A');
	return set(p, "stage", words, p->room.left_mm, top + 1.0, 150.0, &rt__head_type, draw) +
	       2.0;
}

static enum rt_err steps(const struct rt__setout_pages *p, struct rt_error *err)
{
	const struct rt_setout_plan *plan = p->what->plan;
	double first = steps_page(p), top = first;

	for (size_t i = 0; i < plan->steps; i++) {
		bool begins = i == 0 || strcmp(plan->step[i].stage, plan->step[i - 1].stage) != 0;
		double height = step(p, i, top, false) + (begins ? stage(p, i, top, false) : 0.0);

		if (top + height > p->room.bottom_mm)
			top = steps_page(p);
		if (top + height > p->room.bottom_mm)
			return rt_fail(err, RT_E_INPUT, "step %zu fills more than a page", i + 1);
		if (begins)
			top += stage(p, i, top, true);
		top += step(p, i, top, true);
		rule(p, &rt__thin, top - AFTER_MM / 2.0);
	}
	return RT_OK;
}

/* ---- the reading form ------------------------------------------------------------------------ */

static const struct rt__list_column form_columns[] = {
	{.head = "no.", .anchor = RT_ANCHOR_RIGHT, .counted = true},
	{.name = "from", .head = "from"},
	{.name = "to", .head = "to"},
	{.head = "distance_m", .box_mm = 34.0},
	{.name = "note", .head = "note"},
};
static const struct rt__list_view form_view = {RT__LIST_VIEW("form", form_columns)};

static enum rt_err form(const struct rt__setout_pages *p, struct rt_error *err)
{
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.report = &report,
					     .view = &form_view,
					     .views = 1,
					     .signature = "Measured by, date, tape no.:"};
	enum rt_err e = rt_setout_form_report(&report, p->what->form, true, err);

	rt_report_note(&report,
		       "Zero on the left side, reel on the right: walk once from A to C. Metres, "
		       "two decimals. The rows that were read make the file of readings (from, to, "
		       "distance_m, note); all read with care, every peg is known to %s mm.",
		       rt_show_real(ceil(p->what->form->se_m * 1000.0), 0).text);
	if (!e)
		e = rt__list_pages(p->sheet, &p->room, &paper, false, err);
	rt_report_free(&report);
	return e;
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* What the crew works with and from, and how true the ring will be. */
static void about(const struct rt_setout_plan *plan, bool feet, char out[512])
{
	const struct rt_setout_options *o = &plan->options;

	snprintf(out, 512, "%s%s of %s", o->receiver ? "Receiver, and " : "",
		 o->tapes == 1 ? "one tape" : "two tapes", rt_show_taped(o->tape_m, feet).text);
	if (*out >= 'a' && *out <= 'z')
		*out = (char)(*out - 'a' + 'A');
	for (size_t i = 0; i < o->holds && strlen(out) < 300; i++)
		snprintf(out + strlen(out), 512 - strlen(out), "%s%.60s", i ? ", " : ", from ",
			 o->hold[i].name);
	snprintf(out + strlen(out), 512 - strlen(out),
		 ". Done with care, a corner is true to about %s cm.",
		 rt_show_real(plan->corner_se_m * 100.0, 1).text);
}

static bool any_unconfirmed(const struct rt_setout_plan *plan)
{
	for (size_t i = 0; i < plan->pegs.n; i++)
		if (rt_peg_unconfirmed(plan->kind, &plan->pegs.at[i]))
			return true;
	return false;
}

enum rt_err rt_sheet_setout(struct rt_sheet *out, const struct rt_setout_sheet *what,
			    const struct rt_sheet_options *options, struct rt_error *err)
{
	struct rt__setout_pages p = {
		.sheet = out, .what = what, .kind = what->plan->kind, .options = options};
	char title[512], with[512];
	struct rt__furniture furniture = {.title = title, .line = {options->show, with, NULL}};
	enum rt_err e;

	snprintf(title, sizeof title, "Set-out: %s%s%s", what->ring ? what->ring : "",
		 what->ring ? ", " : "", p.kind->name);
	about(what->plan, options->feet, with);
	if (any_unconfirmed(what->plan))
		furniture.line[2] = "* V P S R: check against the rulebook in force.";
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	p.room = rt__furniture_room(out, &furniture);
	if (!what->form_only) {
		rt_sheet_page(out);
		rt__setout_drawing(&p);
		room_page(&p);
		e = steps(&p, err);
	}
	if (!e)
		e = form(&p, err);
	rt__furniture_draw(out, &furniture, 1);
	return e ? e : rt_sheet_result(out, err);
}
