/* The driver's or rider's own sheet: every mark of every judge against the class, and the route
 * with its tightest turn marked.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define WORDS_BYTES (6 * 4 * RT_NAME_MOST) /* the names of five judges and more */
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

static bool is_away(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	return m->lines[entry * m->class_->judges.n + judge].away;
}

/* The mark that counts of a box. */
static int mark_at(const struct rt_class_marks *m, size_t entry, size_t judge, size_t item)
{
	return is_away(m, entry, judge)
		       ? RT_NO_MARK
		       : rt_box_mark_x100(rt_class_marks_box(m, entry, judge, item), NULL);
}

static struct spread class_spread(const struct own *o, size_t item)
{
	const struct rt_class_marks *m = o->of->shown->results->of;
	struct spread s = {0};

	for (size_t e = 0; e < m->entries->n; e++)
		for (size_t j = 0; j < m->class_->judges.n; j++)
			add_mark(&s, mark_at(m, e, j, item));
	return s;
}

static size_t own_place(const struct own *o)
{
	return (size_t)(o->of->result->entry - o->of->shown->results->of->entries->at);
}

static int own_mark(const struct own *o, size_t judge, size_t item)
{
	return mark_at(o->of->shown->results->of, own_place(o), judge, item);
}

/* Why a box has no mark, in the place of one. */
enum gap { GAP_NONE, GAP_MISSING, GAP_DIFFERS, GAP_AWAY, GAP_OTHERS, GAPS };

static const struct {
	const char *word, *means;
} gap_words[GAPS] = {
	[GAP_NONE] = {"none", "not keyed yet"},
	[GAP_MISSING] = {"lost", "missing on the judge's sheet"},
	[GAP_DIFFERS] = {"open", "keyed twice, not alike, to be settled"},
	[GAP_AWAY] = {"away", "the judge was not there"},
	[GAP_OTHERS] = {"-", "for other judges to mark"},
};

static enum gap gap_of(const struct own *o, size_t judge, size_t item)
{
	const struct rt_class_marks *m = o->of->shown->results->of;
	const struct rt_box *box = rt_class_marks_box(m, own_place(o), judge, item);

	if (!rt_class_marks_asked(m, judge, item))
		return GAP_OTHERS;
	if (is_away(m, own_place(o), judge))
		return GAP_AWAY;
	if (box->keyed_x100[0] >= 0 || box->keyed_x100[1] >= 0)
		return GAP_DIFFERS;
	return box->missing ? GAP_MISSING : GAP_NONE;
}

/* "none: not keyed yet; away: ...", of those that stand on this sheet; "" where all marks do. */
static void gaps_words(const struct own *o, char *out, size_t size)
{
	const struct rt_class_marks *m = o->of->shown->results->of;
	bool there[GAPS] = {false};

	for (size_t j = 0; j < m->class_->judges.n; j++)
		for (size_t i = 0; i < m->items->n; i++)
			if (own_mark(o, j, i) == RT_NO_MARK)
				there[gap_of(o, j, i)] = true;
	for (size_t gap = 0; gap < GAPS; gap++)
		if (there[gap])
			rt__add_words(out, size, "%s%s: %s", *out ? "; " : "", gap_words[gap].word,
				      gap_words[gap].means);
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
	for (size_t j = 0; j < o->of->shown->results->of->class_->judges.n; j++) {
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
	const struct rt_item *of = &o->of->shown->results->of->items->at[item];
	char words[WORDS_BYTES] = "";

	rt__add_words(words, sizeof words, "%s%s%s", of->letters, *of->letters ? ": " : "",
		      of->movement);
	return rt__set_lines(o->sheet, "movement", words, o->movement, o->top,
			     o->judge - o->movement - 2.0, &rt__type, draw);
}

static void set_row(const struct own *o, size_t item)
{
	const struct rt_class_marks *m = o->of->shown->results->of;
	char words[40];

	rt__set_lines(o->sheet, "item", m->items->at[item].name, o->item, o->top,
		      o->movement - o->item - 1.0, &rt__type, true);
	set_movement(o, item, true);
	for (size_t j = 0; j < m->class_->judges.n; j++) {
		int mark = own_mark(o, j, item);

		if (mark == RT_NO_MARK)
			snprintf(words, sizeof words, "%s", gap_words[gap_of(o, j, item)].word);
		else
			rt_format_short(mark, 2, 1, words, sizeof words);
		rt__set_lines(o->sheet, "mark", words,
			      o->judge + o->judge_width * (double)(j + 1) - 2.0, o->top,
			      o->judge_width, &rt__right_type, true);
	}
	draw_strip(o, item, o->top + RT__LINE_MM / 2.0);
}

static void set_heads(struct own *o)
{
	const struct rt_judges *judges = &o->of->shown->results->of->class_->judges;

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
	const struct rt_items *items = o->of->shown->results->of->items;

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
	size_t judges = o->of->shown->results->of->class_->judges.n;
	double room = o->room.right_mm - 4.0 - STRIP_MM;

	o->item = o->room.left_mm;
	o->movement = o->item + 12.0;
	o->judge_width = fmax(MARK_MM, fmin(14.0, 60.0 / (double)judges));
	o->strip = room;
	o->judge = o->strip - 4.0 - o->judge_width * (double)judges;
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* The judge at a position; NULL: nobody sits there any more. */
static const struct rt_judge *judge_at(const struct rt_judges *judges, const char *position)
{
	for (size_t j = 0; j < judges->n; j++)
		if (strcmp(judges->at[j].position, position) == 0)
			return &judges->at[j];
	return NULL;
}

/* "C Una Alder: 71.875 %, place 2; ..." */
static void judge_words(const struct rt_own_sheet *of, const struct rt_posting *posting, char *out,
			size_t size)
{
	const struct rt_class_marks *m = of->shown->results->of;
	int64_t entry = of->result->entry->id;

	for (size_t i = 0; i < posting->sheets.n; i++) {
		const struct rt_posted_sheet *sheet = &posting->sheets.at[i];
		const struct rt_judge *judge = judge_at(&m->class_->judges, sheet->position);
		const char *name = judge ? rt_sheet_judge(m->judged, entry, judge) : NULL;

		if (sheet->entry != entry)
			continue;
		rt__add_words(out, size, "%s%s%s%s: %s\u00a0%%", *out ? "; " : "", sheet->position,
			      name ? " " : "", name ? name : "", sheet->percent);
		if (sheet->place)
			rt__add_words(out, size, ", place %zu", sheet->place);
	}
}

/* "68.125 %, place 3, penalties 5." */
static void score_words(const struct rt_posting *posting, const struct rt_posted *posted, char *out,
			size_t size)
{
	if (!posted) {
		rt__add_words(out, size, "Not among the results that were posted.");
		return;
	}
	if (posted->score)
		rt__add_words(out, size, "%s\u00a0%s", posted->score, posting->unit);
	if (!posted->score || strcmp(posted->status, "finished") != 0)
		rt__add_words(out, size, "%s%s%s%s", posted->score ? ", " : "", posted->status,
			      posted->why ? ": " : "", posted->why ? posted->why : "");
	if (posted->place)
		rt__add_words(out, size, ", place %zu", posted->place);
	if (posted->technical)
		rt__add_words(out, size, ", technical %s\u00a0%%, artistic %s\u00a0%%",
			      posted->technical, posted->artistic);
	if (posted->added)
		rt__add_words(out, size, ", errors and penalties %s", posted->added);
	if (posted->off)
		rt__add_words(out, size, ", points off every total %s", posted->off);
	rt__add_words(out, size, "%s", ".");
}

/* The score, when it was posted, and how to read the sheet. */
static void about_words(const struct own *o, char *out, size_t size)
{
	const struct rt_posting *posting = rt_shown_posting(o->of->shown);
	char gaps[WORDS_BYTES] = "";

	score_words(posting, rt_posted_of(posting, o->of->result->entry->id), out, size);
	if (posting->version)
		rt__add_words(out, size, " Posted %.16s, version %lld.", posting->at,
			      (long long)posting->version);
	rt__add_words(out, size,
		      " Dots: your marks; thick line: the class from lowest to highest; "
		      "bar: its mean.");
	gaps_words(o, gaps, sizeof gaps);
	if (*gaps)
		rt__add_words(out, size, " In the place of a mark, %s.", gaps);
}

enum rt_err rt_sheet_own(struct rt_sheet *out, const struct rt_own_sheet *of,
			 const struct rt_sheet_options *options, struct rt_error *err)
{
	char title[WORDS_BYTES] = "", class_words[WORDS_BYTES] = "";
	char judges[WORDS_BYTES] = "", about[WORDS_BYTES] = "", band[RT_BAND_BYTES];
	const struct rt_class *class_ = of->shown->results->of->class_;
	struct rt__furniture furniture = {.band = rt_shown_band(of->shown, band, sizeof band),
					  .title = title,
					  .line = {class_words, about, judges}};
	struct own o = {.sheet = out, .of = of};
	int first = out->pages + 1;
	enum rt_err e;

	rt__add_words(title, sizeof title, "Number %lld: %s, %s",
		      (long long)of->result->entry->number, of->result->entry->driver,
		      of->result->entry->horses);
	rt__add_words(class_words, sizeof class_words, "%s%sClass %s: %s",
		      options->show ? options->show : "", options->show ? ". " : "", class_->name,
		      class_->title);
	about_words(&o, about, sizeof about);
	judge_words(of, rt_shown_posting(of->shown), judges, sizeof judges);
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	o.room = rt__furniture_room(out, &furniture);
	place_columns(&o);
	next_page(&o);
	draw_ring(&o);
	set_heads(&o);
	e = set_rows(&o, err);
	rt__furniture_draw(out, &furniture, first);
	return e ? e : rt_sheet_result(out, err);
}
