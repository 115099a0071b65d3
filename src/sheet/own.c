/* The driver's or rider's own sheet: every mark of every judge against the class, and the route
 * with its tightest turn marked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define WORDS_BYTES (3 * 4 * RT_NAME_MOST) /* two names and more */
#define LETTER_PT   14.0
#define BOARDS_MM   0.8
#define ACROSS_MM   10.0 /* room for letters outside the boards */
#define DOWN_MM	    9.0
#define RING_MOST   0.36 /* of the page's height */
#define STRIP_MM    46.0 /* a scale of marks from 0 to 10 */
#define PAD_MM	    1.0
#define ROW_GAP_MM  1.6
#define MARK_MM	    10.0 /* a judge's column at least */
#define DOT_MM	    1.1

static const struct rt_pen route_pen = {.width_mm = 0.5, .stroke = RT_INK_BLACK};
static const struct rt_pen tight_pen = {.width_mm = 2.0, .stroke = RT_INK_BLACK};
static const struct rt_pen hollow = {.width_mm = 0.4, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};

struct own {
	struct rt_sheet *sheet;
	const struct rt_own_sheet *of;
	struct rt_area room;
	double item, movement, judge, judge_width, strip; /* where columns begin */
	double top;
};

/* ---- the ring -------------------------------------------------------------------------------- */

static const struct rt_turn *tightest(const struct rt_route *route)
{
	const struct rt_turn *best = NULL;

	for (size_t i = 0; i < route->turns.n; i++)
		if (!best || route->turns.at[i].diameter_m < best->diameter_m)
			best = &route->turns.at[i];
	return best;
}

static void tell_turn(struct own *o, const struct rt_turn *turn)
{
	char words[WORDS_BYTES];

	snprintf(words, sizeof words,
		 "The tightest turn, drawn thick: %s, %s across, in movement %s.", turn->turn,
		 rt_show_length(turn->diameter_m, 0, 2, o->of->feet).text,
		 o->of->route->legs.at[turn->leg].movement);
	o->top += rt__set_lines(o->sheet, "about", words, o->room.left_mm, o->top,
				o->room.right_mm - o->room.left_mm, &rt__type, true) +
		  2.0;
}

static void draw_ring(struct own *o)
{
	const struct rt_ring_drawing d = {.letter_pt = LETTER_PT, .boards_mm = BOARDS_MM};
	const struct rt_ring_kind *kind = o->of->kind;
	const struct rt_turn *turn = o->of->route ? tightest(o->of->route) : NULL;
	struct rt_area room = o->room;
	struct rt_ring_view view;
	struct rt_piece piece;

	if (!turn)
		return;
	piece = rt_turn_piece(turn);
	room.top_mm = o->top;
	room.bottom_mm = o->top + RING_MOST * o->sheet->height_mm;
	view = rt__ring_view_in(kind, RT_SEAT_E, &room, ACROSS_MM, DOWN_MM);
	view.y_mm = o->top + DOWN_MM + kind->width_m * view.mm_per_m / 2.0;
	rt_sheet_ring(o->sheet, kind, &view, &d);
	rt_sheet_path(o->sheet, "route", &route_pen, &view, o->of->route->path.at,
		      o->of->route->path.n);
	rt_sheet_path(o->sheet, "tightest", &tight_pen, &view, &piece, 1);
	rt__centre_letters(o->sheet, kind, &view, RT__BODY_PT, &room, INFINITY);
	o->top = 2.0 * view.y_mm - o->top;
	tell_turn(o, turn);
}

/* ---- marks ----------------------------------------------------------------------------------- */

/* What the class has in a box, over all entries that finished and all judges. */
struct spread {
	int low, high; /* hundredths */
	double mean;   /* hundredths */
	size_t n;
};

static void add_mark(struct spread *s, int mark)
{
	if (mark == RT_NO_MARK)
		return;
	s->low = s->n == 0 || mark < s->low ? mark : s->low;
	s->high = s->n == 0 || mark > s->high ? mark : s->high;
	s->mean = (s->mean * (double)s->n + mark) / (double)(s->n + 1);
	s->n++;
}

static struct spread class_spread(const struct own *o, size_t item)
{
	const struct rt_class_marks *m = o->of->results->of;
	struct spread s = {0};

	for (size_t e = 0; e < m->entries->n; e++)
		for (size_t j = 0; j < m->class_->judges.n; j++)
			add_mark(&s, rt_box_mark_x100(rt_class_marks_box(m, e, j, item), NULL));
	return s;
}

static int own_mark(const struct own *o, size_t judge, size_t item)
{
	const struct rt_class_marks *m = o->of->results->of;
	size_t entry = (size_t)(o->of->result->entry - m->entries->at);

	return rt_box_mark_x100(rt_class_marks_box(m, entry, judge, item), NULL);
}

static double strip_x(const struct own *o, double mark_x100)
{
	return o->strip + STRIP_MM * mark_x100 / RT_MARK_MOST_X100;
}

/* The scale: a line from the lowest to the highest of the class with a bar at its mean, and a dot
 * for each own mark. */
static void draw_strip(const struct own *o, size_t item, double middle)
{
	struct spread s = class_spread(o, item);

	rt_sheet_segment(o->sheet, "scale", &rt__thin, o->strip, middle, o->strip + STRIP_MM,
			 middle);
	if (s.n == 0)
		return;
	rt_sheet_segment(o->sheet, "class", &tight_pen, strip_x(o, s.low), middle,
			 strip_x(o, s.high), middle);
	rt_sheet_segment(o->sheet, "mean", &rt__thick, strip_x(o, s.mean), middle - 2.2,
			 strip_x(o, s.mean), middle + 2.2);
	for (size_t j = 0; j < o->of->results->of->class_->judges.n; j++) {
		int mark = own_mark(o, j, item);

		if (mark == RT_NO_MARK)
			continue;
		rt_sheet_circle(o->sheet, "own", &hollow, strip_x(o, mark), middle, DOT_MM);
		rt_sheet_circle(o->sheet, "own", &rt__black, strip_x(o, mark), middle,
				DOT_MM / 2.5);
	}
}

static double set_movement(const struct own *o, size_t item, bool draw)
{
	const struct rt_item *of = &o->of->results->of->items->at[item];
	char words[WORDS_BYTES] = "";

	rt__add_words(words, sizeof words, "%s%s%s", of->letters, *of->letters ? ": " : "",
		      of->movement);
	return rt__set_lines(o->sheet, "movement", words, o->movement, o->top,
			     o->judge - o->movement - 2.0, &rt__type, draw);
}

static void set_row(const struct own *o, size_t item)
{
	const struct rt_class_marks *m = o->of->results->of;
	char words[40];

	rt__set_lines(o->sheet, "item", m->items->at[item].name, o->item, o->top,
		      o->movement - o->item - 1.0, &rt__type, true);
	set_movement(o, item, true);
	for (size_t j = 0; j < m->class_->judges.n; j++) {
		int mark = own_mark(o, j, item);

		if (mark == RT_NO_MARK)
			continue;
		rt_format_short(mark, 2, 1, words, sizeof words);
		rt__set_lines(o->sheet, "mark", words,
			      o->judge + o->judge_width * (double)(j + 1) - 2.0, o->top,
			      o->judge_width, &rt__right_type, true);
	}
	draw_strip(o, item, o->top + RT__LINE_MM / 2.0);
}

static void set_heads(struct own *o)
{
	const struct rt_judges *judges = &o->of->results->of->class_->judges;

	rt__set_lines(o->sheet, "head", "movement", o->item, o->top, 60.0, &rt__type, true);
	for (size_t j = 0; j < judges->n; j++)
		rt__set_lines(o->sheet, "head", judges->at[j].position,
			      o->judge + o->judge_width * (double)(j + 1) - 2.0, o->top,
			      o->judge_width, &rt__right_type, true);
	for (int mark = 0; mark <= 10; mark += 5) {
		char words[16];

		snprintf(words, sizeof words, "%d", mark);
		rt_sheet_text(o->sheet, "head", words, strip_x(o, 100 * mark),
			      o->top + 0.78 * RT__LINE_MM, &rt__middle_type);
	}
	o->top += RT__LINE_MM + 0.8;
	rt_sheet_segment(o->sheet, "rule", &rt__thick, o->room.left_mm, o->top, o->room.right_mm,
			 o->top);
	o->top += 1.2;
}

static void next_page(struct own *o)
{
	rt_sheet_page(o->sheet);
	o->top = o->room.top_mm;
}

static enum rt_err set_rows(struct own *o, struct rt_error *err)
{
	const struct rt_items *items = o->of->results->of->items;

	for (size_t i = 0; i < items->n; i++) {
		double height = fmax(set_movement(o, i, false), RT__LINE_MM) + ROW_GAP_MM;

		if (o->top + height > o->room.bottom_mm) {
			next_page(o);
			set_heads(o);
		}
		if (o->top + height > o->room.bottom_mm)
			return rt_fail(err, RT_E_INPUT, "item %s: its words fill more than a page",
				       items->at[i].name);
		set_row(o, i);
		o->top += height;
		rt_sheet_segment(o->sheet, "rule", &rt__thin, o->room.left_mm,
				 o->top - ROW_GAP_MM / 2.0, o->room.right_mm,
				 o->top - ROW_GAP_MM / 2.0);
	}
	return RT_OK;
}

static void place_columns(struct own *o)
{
	size_t judges = o->of->results->of->class_->judges.n;
	double room = o->room.right_mm - 4.0 - STRIP_MM;

	o->item = o->room.left_mm;
	o->movement = o->item + 12.0;
	o->judge_width = fmax(MARK_MM, fmin(14.0, 60.0 / (double)judges));
	o->strip = room;
	o->judge = o->strip - 4.0 - o->judge_width * (double)judges;
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* "C: 71.875 %, place 2; ..." */
static void judge_words(const struct rt_own_sheet *of, char *out, size_t size)
{
	const struct rt_judges *judges = &of->results->of->class_->judges;

	for (size_t j = 0; j < judges->n; j++) {
		const struct rt_judge_result *sheet = &of->result->judge[j];
		char percent[40];

		if (!sheet->in)
			continue;
		rt_format_decimal(sheet->percent, of->results->judge_percent_digits, percent,
				  sizeof percent);
		rt__add_words(out, size, "%s%s: %s\u00a0%%", *out ? "; " : "",
			      judges->at[j].position, percent);
		if (sheet->place)
			rt__add_words(out, size, ", place %zu", sheet->place);
	}
}

static void score_words(const struct rt_own_sheet *of, char *out, size_t size)
{
	const struct rt_rule *rule = of->results->of->rule;
	char score[40], place[40] = "";

	rt_format_decimal(of->result->score, rule->score_decimals, score, sizeof score);
	if (of->result->place)
		snprintf(place, sizeof place, ", place %zu", of->result->place);
	snprintf(out, size,
		 "%s%s%s%s. Dots: your marks; thick line: the class from lowest to "
		 "highest; bar: its mean.",
		 of->result->scored ? score : rt_result_words(of->result),
		 of->result->scored && rule->scale == RT_PERCENT_SCALE ? "\u00a0%" : "",
		 of->result->scored && rule->scale == RT_PENALTY_SCALE ? " penalties" : "", place);
}

enum rt_err rt_sheet_own(struct rt_sheet *out, const struct rt_own_sheet *of,
			 const struct rt_sheet_options *options, struct rt_error *err)
{
	char title[WORDS_BYTES] = "", class_words[WORDS_BYTES] = "";
	char judges[WORDS_BYTES] = "", score[WORDS_BYTES];
	const struct rt_class *class_ = of->results->of->class_;
	struct rt__furniture furniture = {.title = title, .line = {class_words, score, judges}};
	struct own o = {.sheet = out, .of = of};
	enum rt_err e;

	rt__add_words(title, sizeof title, "Number %lld: %s, %s",
		      (long long)of->result->entry->number, of->result->entry->driver,
		      of->result->entry->horses);
	rt__add_words(class_words, sizeof class_words, "%s%sClass %s: %s",
		      options->show ? options->show : "", options->show ? ". " : "", class_->name,
		      class_->title);
	score_words(of, score, sizeof score);
	judge_words(of, judges, sizeof judges);
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	o.room = rt__furniture_room(out, &furniture);
	place_columns(&o);
	next_page(&o);
	draw_ring(&o);
	set_heads(&o);
	e = set_rows(&o, err);
	rt__furniture_draw(out, &furniture, 1);
	return e ? e : rt_sheet_result(out, err);
}
