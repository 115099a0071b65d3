/* The route sheet: a test's movements as small rings with their words, two side by side.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define GUTTER_MM    4.0 /* between the columns, and from a drawing to its words */
#define AFTER_KEY_MM 2.0
#define ROW_MM	     3.0  /* from a row to the rule under it */
#define WORDS_GAP_MM 2.0  /* from the letters of a drawing to its words */
#define SHORT_MM     30.0 /* the most that an upright ring's short side takes */
#define WIDER_MM     9.0  /* and more than that where a band is to be seen */
#define WORDS_MM     27.0 /* for words under a ring on its side */
#define COLUMNS	     2
#define ROWS	     3

static const struct rt_pen rule_pen = {.width_mm = 0.5, .stroke = RT_INK_BLACK};

/* ---- words of a movement --------------------------------------------------------------------- */

/* Words that go down a column. */
struct column {
	const struct rt__route_sheet *t;
	double left, width, down;
	bool draw;
};

static void say(struct column *c, const char *role, const char *words,
		const struct rt_lettering *type)
{
	c->down += rt__set_lines(c->t->sheet, role, words, c->left, c->down, c->width, type,
				 c->draw);
}

/* A space at which no line is broken. */
#define NO_BREAK "\302\240"

/* "155.7 m, 43.1 s"; what is not known is left out. */
static void measure_words(double m, double seconds, bool feet, char *out, size_t size)
{
	char length[128] = "", time[128] = "";

	if (!isnan(m) && feet)
		rt_format_feet(m, length, sizeof length);
	else if (!isnan(m))
		snprintf(length, sizeof length, "%s" NO_BREAK "m", rt_show_real(m, 1).text);
	if (!isnan(seconds))
		snprintf(time, sizeof time, "%s" NO_BREAK "s", rt_show_real(seconds, 1).text);
	snprintf(out, size, "%s%s%s", length, *length && *time ? ", " : "", time);
}

static void say_measure(struct column *c, const struct rt_route_leg *leg)
{
	char measure[80], words[256];

	if (isnan(leg->length_m)) {
		if (!leg->figure)
			say(c, "measure", "no figure is written for it", &rt__type);
		return;
	}
	measure_words(leg->length_m, leg->seconds, c->t->options->feet, measure, sizeof measure);
	snprintf(words, sizeof words, "%s%s%s", measure, leg->gait ? " at " : "",
		 leg->gait ? leg->gait : "");
	say(c, "measure", words, &rt__type);
}

static void say_stops(struct column *c, size_t leg)
{
	const struct rt_route *route = c->t->route;

	for (size_t i = 0; i < route->stops.n; i++) {
		const struct rt_route_stop *stop = &route->stops.at[i];
		char words[128];

		if (stop->leg != leg)
			continue;
		if (stop->back_m > 0.0)
			snprintf(words, sizeof words, "reins back %s",
				 rt_show_length(stop->back_m, 0, 2, c->t->options->feet).text);
		else
			snprintf(words, sizeof words, "stands %s" NO_BREAK "s",
				 rt_show_real(stop->seconds,
					      stop->seconds == floor(stop->seconds) ? 0 : 1)
					 .text);
		say(c, "stop", words, &rt__type);
	}
}

static void say_meetings(struct column *c, size_t leg)
{
	struct rt__meeting meeting;

	for (size_t next = 0; rt__route_meeting(c->t->route, leg, &next, &meeting);) {
		char words[256];

		snprintf(words, sizeof words, "%s, %s: nothing straight here", meeting.first->turn,
			 meeting.second->turn);
		say(c, "meeting", words, &rt__type);
	}
}

static void say_problems(struct column *c, size_t leg)
{
	const struct rt_route *route = c->t->route;

	for (size_t i = 0; i < route->problems.n; i++) {
		const struct rt_route_problem *problem = &route->problems.at[i];
		struct rt_shown_number most = {""};
		char words[400], all[640];

		if (problem->leg != leg)
			continue;
		rt_route_problem_words(problem, c->t->options->feet, words, sizeof words);
		if (!isnan(problem->largest_m))
			most = rt_show_length(problem->largest_m, 0, 2, c->t->options->feet);
		snprintf(all, sizeof all, "Cannot be driven so: %s%s%s", words,
			 *most.text ? "; largest that fits: " : "", most.text);
		say(c, "problem", all, &rt__type);
	}
}

/* All words of a movement into a column from top_mm down; the height they take. */
static double say_movement(const struct rt__route_sheet *t, size_t leg, double left_mm,
			   double top_mm, double width_mm, bool draw)
{
	const struct rt_route_leg *l = &t->route->legs.at[leg];
	const struct rt_movement_words *words = &t->what->words[leg];
	struct column c = {t, left_mm, width_mm, top_mm, draw};
	char head[512];

	snprintf(head, sizeof head, "%s%s%s", l->movement, words->letters ? "  " : "",
		 words->letters ? words->letters : "");
	say(&c, "item", head, &rt__head_type);
	if (words->movement)
		say(&c, "movement", words->movement, &rt__type);
	say_measure(&c, l);
	say_stops(&c, leg);
	say_meetings(&c, leg);
	say_problems(&c, leg);
	return c.down - top_mm;
}

/* ---- cells and rows -------------------------------------------------------------------------- */

/* A movement's part of the page: its drawing, and its words beside or under it. */
struct cell {
	double width, draw_width, draw_height;
};

static struct cell cell_of(const struct rt__route_sheet *t, const struct rt_area *room,
			   size_t columns)
{
	struct cell c;

	c.width = (room->right_mm - room->left_mm - GUTTER_MM * (double)(columns - 1)) /
		  (double)columns;
	rt__route_drawing_size(t, &c.draw_width, &c.draw_height);
	return c;
}

/* The words of a movement in its cell; the height of the whole cell. */
static double cell_words(const struct rt__route_sheet *t, const struct cell *c, size_t leg,
			 double left, double top, bool draw)
{
	double height;

	if (rt__is_upright(t->options->seat)) {
		height = say_movement(t, leg, left + c->draw_width + WORDS_GAP_MM, top,
				      c->width - c->draw_width - WORDS_GAP_MM, draw);
		return fmax(height, c->draw_height);
	}
	return c->draw_height +
	       say_movement(t, leg, left, top + c->draw_height, c->width - 1.0, draw);
}

/* How many movements from `leg` on stand side by side, and how high that row is.  0: the words of
 * one fill more than a page. */
static size_t row_of(const struct rt__route_sheet *t, const struct rt_area *room, size_t leg,
		     double *height)
{
	double most = room->bottom_mm - room->top_mm;

	for (size_t columns = COLUMNS; columns > 0; columns--) {
		struct cell c = cell_of(t, room, columns);

		*height = 0.0;
		for (size_t i = leg; i < leg + columns && i < t->route->legs.n; i++)
			*height = fmax(*height, cell_words(t, &c, i, 0.0, 0.0, false));
		*height += ROW_MM;
		if (*height <= most)
			return columns;
	}
	return 0;
}

static enum rt_err draw_row(const struct rt__route_sheet *t, const struct rt_area *room, size_t leg,
			    size_t columns, double top, struct rt_error *err)
{
	struct cell c = cell_of(t, room, columns);
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < columns && leg + i < t->route->legs.n && !e; i++) {
		double left = room->left_mm + (double)i * (c.width + GUTTER_MM);
		double inset = rt__is_upright(t->options->seat) ? 0.0
								: (c.width - c.draw_width) / 2.0;

		e = rt__route_drawing(t, leg + i, left + inset, top, err);
		cell_words(t, &c, leg + i, left, top, true);
	}
	return e;
}

/* ---- the end --------------------------------------------------------------------------------- */

/* The band of a track that lies too near the boards passes over them. */
static void say_clear(struct column *c)
{
	const struct rt__route_sheet *t = c->t;
	char words[256];

	if (t->route->track_m >= t->what->turnout_track_m)
		return;
	snprintf(
		words, sizeof words,
		"On this track the turnout reaches over the boards: keep %s inside them.",
		rt_show_length(ceil(t->what->turnout_track_m * 10.0) / 10.0, 0, 2, t->options->feet)
			.text);
	say(c, "total", words, &rt__type);
}

/* The sums, and what is to be known of them. */
static double ending(const struct rt__route_sheet *t, const struct rt_area *room, double top,
		     bool draw)
{
	const struct rt_route *route = t->route;
	struct column c = {t, room->left_mm, room->right_mm - room->left_mm, top, draw};
	char measure[80], words[256];
	long seconds = lround(route->total_s);

	measure_words(route->total_m, route->total_s, t->options->feet, measure, sizeof measure);
	snprintf(words, sizeof words, "In all: %s (%ld" NO_BREAK "min %ld" NO_BREAK "s)", measure,
		 seconds / 60, seconds % 60);
	say(&c, "total", words, &rt__head_type);
	if (!route->timed)
		say(&c, "total", "The total is of the movements that have a length and a time.",
		    &rt__type);
	if (route->problems.n)
		say(&c, "total", "This route cannot be driven as it is written: see above.",
		    &rt__type);
	if (t->what->turnout && !t->what->band)
		say(&c, "total", "No swept band: the route is not one line.", &rt__type);
	if (t->what->band)
		say_clear(&c);
	if (*route->unconfirmed) {
		snprintf(words, sizeof words, "Check where %s stand against the rulebook in force.",
			 route->unconfirmed);
		say(&c, "total", words, &rt__type);
	}
	return c.down - top;
}

/* ---- pages ----------------------------------------------------------------------------------- */

static void rule(const struct rt__route_sheet *t, const struct rt_area *room, double y)
{
	rt_sheet_segment(t->sheet, "rule", &rule_pen, room->left_mm, y, room->right_mm, y);
}

/* Go on to a new page where `height` finds no room under `top`; where to go on. */
static double room_for(const struct rt__route_sheet *t, const struct rt_area *room, double top,
		       double height)
{
	if (top + height <= room->bottom_mm)
		return top;
	rt_sheet_page(t->sheet);
	return room->top_mm;
}

/* The largest scale that leaves room for words, and three rows on the first page: two where a
 * band is to be seen beside the line. */
static void set_scale(struct rt__route_sheet *t, const struct rt_area *room)
{
	double column = (room->right_mm - room->left_mm - GUTTER_MM) / COLUMNS, across, down;
	double rows = t->what->band ? ROWS - 1 : ROWS, row;

	row = (room->bottom_mm - room->top_mm - rt__route_key(t, room, false) - AFTER_KEY_MM) /
	      rows;
	t->mm_per_m = 0.0;
	rt__route_drawing_size(t, &across, &down); /* of letters alone */
	row -= ROW_MM + down;
	if (rt__is_upright(t->options->seat))
		t->mm_per_m = fmin(row / t->kind->length_m,
				   (SHORT_MM + (t->what->band ? WIDER_MM : 0.0)) /
					   t->kind->width_m);
	else
		t->mm_per_m = fmin((column - across) / t->kind->length_m,
				   (row - WORDS_MM) / t->kind->width_m);
}

/* The ending beside the last movement where that leaves room, else under it. */
static void end_in(const struct rt__route_sheet *t, const struct rt_area *room,
		   const struct rt_area *beside, double top)
{
	if (ending(t, beside, 0.0, false) <= beside->bottom_mm - beside->top_mm) {
		ending(t, beside, beside->top_mm, true);
		return;
	}
	top = room_for(t, room, top, ending(t, room, 0.0, false));
	ending(t, room, top, true);
}

static enum rt_err pages(struct rt__route_sheet *t, const struct rt__furniture *furniture,
			 struct rt_error *err)
{
	struct rt_area room = rt__furniture_room(t->sheet, furniture);
	struct rt_area free_cell = {0}; /* beside the last movement */
	double top = room.top_mm, height;
	enum rt_err e = RT_OK;

	set_scale(t, &room);
	rt_sheet_page(t->sheet);
	top += rt__route_key(t, &room, true) + AFTER_KEY_MM;
	rule(t, &room, top - AFTER_KEY_MM / 2.0);
	for (size_t leg = 0, columns; leg < t->route->legs.n && !e; leg += columns) {
		columns = row_of(t, &room, leg, &height);
		if (columns == 0)
			return rt_fail(err, RT_E_INPUT,
				       "movement %s: its words fill more than a page",
				       t->route->legs.at[leg].movement);
		top = room_for(t, &room, top, height);
		e = draw_row(t, &room, leg, columns, top, err);
		top += height;
		rule(t, &room, top - ROW_MM / 2.0);
		if (leg + columns > t->route->legs.n)
			free_cell = (struct rt_area){(room.left_mm + room.right_mm + GUTTER_MM) /
							     2.0,
						     top - height, room.right_mm, top - ROW_MM};
	}
	end_in(t, &room, &free_cell, top);
	rt__furniture_draw(t->sheet, furniture, 1);
	return e;
}

/* The lines under the title: what the route is driven in, and with. */
static void about(const struct rt__route_sheet *t, char words[512])
{
	const struct rt_route *route = t->route;
	char inside[128] = "", animal[128] = "";

	if (route->track_m > 0.0)
		snprintf(inside, sizeof inside, "; track %s inside the boards",
			 rt_show_length(route->track_m, 0, 2, t->options->feet).text);
	if (route->height_cm > 0.0)
		snprintf(animal, sizeof animal, "; animal of %s cm",
			 rt_show_real(route->height_cm, 1).text);
	snprintf(words, 512, "%s, %s: turns of %s%s%s%s%s; seen from %s", route->kind, route->level,
		 rt_show_length(route->diameter_m, 0, 2, t->options->feet).text, animal, inside,
		 t->what->turnout ? "; " : "", t->what->turnout ? t->what->turnout : "",
		 rt_seat_words(t->options->seat));
}

enum rt_err rt_sheet_route(struct rt_sheet *out, const struct rt_route *route,
			   const struct rt_ring_kind *kind, const struct rt_route_sheet *what,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	struct rt__route_sheet t = {
		.sheet = out,
		.route = route,
		.kind = kind,
		.what = what,
		.options = options,
	};
	char title[512], line[512];
	struct rt__furniture furniture = {
		.title = title, .line = {options->show, line}, .caution = true};
	enum rt_err e;

	snprintf(title, sizeof title, "Route: %s", what->title);
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	about(&t, line);
	e = pages(&t, &furniture, err);
	return e ? e : rt_sheet_result(out, err);
}
