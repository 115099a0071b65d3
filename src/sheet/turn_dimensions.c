/* Where turns begin and finish, measured from the letters on the drawing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define EQUAL_M	    0.001
#define OUTSIDE_MM  3.0 /* from the ring's edge to the dimension line */
#define INSIDE_MM   2.6 /* from a line inside the ring */
#define CLEAR_MM    1.6 /* from the dimension line to its words */
#define CLEAR_IN_MM 0.8 /* the same inside the ring */
#define END_MM	    1.3 /* half the stroke at each end of the line */
#define GAP_MM	    1.2
#define PAPER_MM    0.5 /* white round words that stand on a line */
#define SPOT_MM	    0.5 /* from one place for words to the next */
enum { STEPS = 24, SPOTS = 1 + 4 * STEPS };

static const struct rt_pen thin = {.width_mm = 0.35, .stroke = RT_INK_BLACK};

/* ---- which distances ------------------------------------------------------------------------- */

/* A point where an arc begins or finishes, and the line it lies on. */
struct end {
	double x, y;
	enum rt__turn_type number;
	bool along;	       /* the line runs along the ring, else across it */
	const char *reference; /* the letter that the table tells; NULL: a line, or a corner */
	double half_width, half_length; /* of the track */
};

static bool on_track(const struct end *e)
{
	return e->along ? fabs(fabs(e->x) - e->half_width) <= EQUAL_M
			: fabs(fabs(e->y) - e->half_length) <= EQUAL_M;
}

/* The letter's place on the end's line, in the direction of that line; false when it is on
 * another.  Letters of the boards face the points of the track. */
static bool on_line(const struct end *e, const struct rt_peg *peg, double *at)
{
	bool long_side = peg->side == RT_LEFT || peg->side == RT_RIGHT;
	double x = long_side ? copysign(e->half_width, peg->x_m) : peg->x_m;
	double y = long_side || peg->side == RT_CENTRE ? peg->y_m
						       : copysign(e->half_length, peg->y_m);

	if (peg->corner || fabs(e->along ? x - e->x : y - e->y) > EQUAL_M)
		return false;
	*at = e->along ? y : x;
	return true;
}

/* The letter that an end is measured from: the table's, else the nearest one on its line; false
 * when there is none. */
static bool nearest(const struct rt_pegs *pegs, const struct end *e, double *at)
{
	double here = e->along ? e->y : e->x, letter, best = INFINITY;

	for (size_t i = 0; i < pegs->n; i++) {
		if (!on_line(e, &pegs->at[i], &letter))
			continue;
		if (e->reference && strcmp(pegs->at[i].name, e->reference) == 0) {
			*at = letter;
			return true;
		}
		if (fabs(letter - here) < best) {
			best = fabs(letter - here);
			*at = letter;
		}
	}
	return isfinite(best);
}

/* A point of a diagonal is measured along the long side beside it, and in from there. */
static bool measure_diagonal(const struct rt__turn_sheet *t, const struct rt_pegs *pegs,
			     struct end *e, struct rt__dimension *d)
{
	double x = e->x, at;

	if (on_track(e)) /* at its letter */
		return false;
	e->x = copysign(e->half_width, x);
	e->along = true;
	if (!nearest(pegs, e, &at))
		return false;
	*d = (struct rt__dimension){.from_x = e->x,
				    .from_y = at,
				    .to_x = e->x,
				    .to_y = e->y,
				    .end_x = x,
				    .end_y = e->y,
				    .out_x = copysign(1.0, x),
				    .outside = true};
	snprintf(d->words, sizeof d->words, "%s",
		 rt_show_length(fabs(e->y - at), 0, 2, t->options->feet).text);
	return true;
}

static bool measure(const struct rt__turn_sheet *t, const struct rt_pegs *pegs, struct end *e,
		    struct rt__dimension *d)
{
	double here = e->along ? e->y : e->x, at;

	if (e->number == RT__DIAGONAL)
		return measure_diagonal(t, pegs, e, d);
	if (!nearest(pegs, e, &at) || fabs(at - here) <= EQUAL_M)
		return false;
	*d = (struct rt__dimension){
		.from_x = e->along ? e->x : at,
		.from_y = e->along ? at : e->y,
		.to_x = e->x,
		.to_y = e->y,
		.end_x = e->x,
		.end_y = e->y,
		.out_x = e->along ? copysign(1.0, e->x) : 0.0,
		.out_y = e->along ? 0.0 : copysign(1.0, e->y),
		.outside = on_track(e),
	};
	snprintf(d->words, sizeof d->words, "%s",
		 rt_show_length(fabs(at - here), 0, 2, t->options->feet).text);
	return true;
}

/* Both ends of an arc: the line it leaves, and the one it comes to. */
static void arc_ends(const struct rt__turn_sheet *t, const struct rt_turn *turn,
		     enum rt__turn_type number, struct end out[2])
{
	struct rt_piece piece = rt_turn_piece(turn);
	bool along = fabs(piece.begin.toward.y) > 0.5;

	out[0] = (struct end){
		.x = turn->begin_x_m,
		.y = turn->begin_y_m,
		.number = number,
		.along = along,
		.reference = turn->begin.line ? NULL : turn->begin.reference,
		.half_width = t->kind->width_m / 2.0 - t->turns->track_m,
		.half_length = t->kind->length_m / 2.0 - t->turns->track_m,
	};
	out[1] = out[0];
	out[1].x = turn->finish_x_m;
	out[1].y = turn->finish_y_m;
	out[1].reference = turn->finish.line ? NULL : turn->finish.reference;
	out[1].along = number == RT__DIAGONAL || !along;
}

/* Whether one of that sort is there: as long, on a line of that direction, of a turn of that
 * number; or the same distance. */
static bool is_shown(const struct rt__dimension *shown, size_t n, const struct rt__dimension *d)
{
	double m = hypot(d->to_x - d->from_x, d->to_y - d->from_y);

	for (size_t i = 0; i < n; i++) {
		const struct rt__dimension *s = &shown[i];
		double length = hypot(s->to_x - s->from_x, s->to_y - s->from_y);

		if (hypot(s->to_x - d->to_x, s->to_y - d->to_y) <= EQUAL_M ||
		    (s->number == d->number && fabs(m - length) <= EQUAL_M &&
		     (fabs(s->out_x) > 0.5) == (fabs(d->out_x) > 0.5)))
			return true;
	}
	return false;
}

/* Whether a turn that fits begins or finishes there. */
static bool turns_at(const struct rt_turns *turns, double x, double y)
{
	for (size_t i = 0; i < turns->list.n; i++) {
		const struct rt_turn *turn = &turns->list.at[i];

		if (turn->fits && (hypot(turn->begin_x_m - x, turn->begin_y_m - y) <= EQUAL_M ||
				   hypot(turn->finish_x_m - x, turn->finish_y_m - y) <= EQUAL_M))
			return true;
	}
	return false;
}

/* Of two distances to one hand of a letter on the centreline, the second is told on the other
 * hand where it is the same there: each has its own line. */
static void part_hands(const struct rt_turns *turns, const struct rt__dimension *shown, size_t n,
		       struct rt__dimension *d)
{
	if (fabs(d->out_y) < 0.5 || fabs(d->from_x) > EQUAL_M ||
	    !turns_at(turns, -d->to_x, d->to_y))
		return;
	for (size_t i = 0; i < n; i++) {
		if (hypot(shown[i].from_x - d->from_x, shown[i].from_y - d->from_y) > EQUAL_M ||
		    fabs(shown[i].out_y) < 0.5 || shown[i].to_x * d->to_x < 0.0)
			continue;
		d->to_x = -d->to_x;
		d->end_x = -d->end_x;
		return;
	}
}

size_t rt__turn_dimensions(const struct rt__turn_sheet *t,
			   struct rt__dimension out[static RT__DIMENSIONS_MOST])
{
	struct rt_pegs pegs = {0};
	size_t n = 0;

	if (rt_ring_pegs(&pegs, t->kind, NULL))
		t->sheet->nomem = true;
	for (size_t i = 0; i < t->groups->n * 4 && n < RT__DIMENSIONS_MOST; i++) {
		const struct rt__group *group = &t->groups->at[i / 4];
		size_t arc = (i / 2) % 2;
		struct end e[2];

		arc_ends(t, &group->first[arc], group->number[arc], e);
		if (!group->fits || !measure(t, &pegs, &e[i % 2], &out[n]))
			continue;
		out[n].number = group->number[arc];
		if (is_shown(out, n, &out[n]))
			continue;
		part_hands(t->turns, out, n, &out[n]);
		n++;
	}
	rt_pegs_free(&pegs);
	return n;
}

/* ---- drawing them ---------------------------------------------------------------------------- */

/* A dimension on the page. */
struct placed {
	double x0, y0, x1, y1; /* its line */
	double out_x, out_y;   /* from what is measured to the line, and on to the words */
	double along_x, along_y;
	double length;
};

static struct placed place(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
			   const struct rt__dimension *d, double side)
{
	double offset = d->outside ? OUTSIDE_MM + t->turns->track_m * view->mm_per_m : INSIDE_MM;
	struct placed p;

	rt_ring_view_point(view, d->from_x, d->from_y, &p.x0, &p.y0);
	rt_ring_view_point(view, d->to_x, d->to_y, &p.x1, &p.y1);
	rt_ring_view_toward(view, d->out_x * side, d->out_y * side, &p.out_x, &p.out_y);
	p.length = hypot(p.x1 - p.x0, p.y1 - p.y0);
	p.along_x = (p.x1 - p.x0) / p.length;
	p.along_y = (p.y1 - p.y0) / p.length;
	p.x0 += p.out_x * offset;
	p.y0 += p.out_y * offset;
	p.x1 += p.out_x * offset;
	p.y1 += p.out_y * offset;
	return p;
}

static void draw_line(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		      const struct rt__dimension *d, const struct placed *p)
{
	struct rt_sheet *sheet = t->sheet;
	double x, y;
	double stroke_x = p->out_x * END_MM, stroke_y = p->out_y * END_MM;

	rt_sheet_segment(sheet, "dimension", &thin, p->x0, p->y0, p->x1, p->y1);
	rt_sheet_segment(sheet, "dimension", &thin, p->x0 - stroke_x, p->y0 - stroke_y,
			 p->x0 + stroke_x, p->y0 + stroke_y);
	rt_sheet_segment(sheet, "dimension", &thin, p->x1 - stroke_x, p->y1 - stroke_y,
			 p->x1 + stroke_x, p->y1 + stroke_y);
	rt_ring_view_point(view, d->end_x, d->end_y, &x, &y);
	if (d->outside)
		rt_sheet_segment(sheet, "dimension", &thin, x, y, p->x1, p->y1);
}

/* How far along the line its words may have their middle: over its middle, moved on over the line
 * to either end, beyond the point, then before the letter, farther and farther. */
static double along(const struct placed *p, double half, int k)
{
	double step = SPOT_MM * ((k - 1) % STEPS), room = fmax(0.0, p->length / 2.0 - half);

	switch (k ? (k - 1) / STEPS : 0) {
	case 0:
		return p->length / 2.0 + (k ? fmin(room, step) : 0.0);
	case 1:
		return p->length / 2.0 - fmin(room, step);
	case 2:
		return p->length + half + step;
	default:
		return -half - step;
	}
}

/* Whether words there would lie across a quarter line. */
static bool on_quarter(const struct rt_sheet *sheet, const struct rt__spot *at,
		       const struct rt_extent *e)
{
	const struct rt_area box = rt__label_box(e, at, PAPER_MM);

	return rt__clash(sheet, &box, "quarter") > 0.0;
}

/* Places for its words beside its line, off the quarter lines; how many.  Before the letter only
 * outside the boards. */
static size_t spots(const struct rt_sheet *sheet, const struct placed *p, const struct rt_extent *e,
		    bool outside, struct rt__spot spot[static SPOTS])
{
	bool level = fabs(p->out_y) > 0.5; /* the line lies level, words above or below it */
	double half_out = (level ? e->ascent_mm + e->descent_mm : e->width_mm) / 2.0;
	double half_along = (level ? e->width_mm : e->ascent_mm + e->descent_mm) / 2.0;
	double away = half_out + (outside ? CLEAR_MM : CLEAR_IN_MM);
	int most = outside ? SPOTS : SPOTS - STEPS;
	size_t n = 0;

	for (int k = 0; k < most; k++) {
		double at = along(p, half_along, k);

		spot[n] = (struct rt__spot){p->x0 + p->along_x * at + p->out_x * away,
					    p->y0 + p->along_y * at + p->out_y * away};
		n += !on_quarter(sheet, &spot[n], e);
	}
	return n;
}

/* Whether its line, with the strokes at its ends, would touch a letter. */
static bool on_letter(const struct rt_sheet *sheet, const struct placed *p)
{
	double wide = END_MM + PAPER_MM;
	const struct rt_area box = {fmin(p->x0, p->x1) - wide, fmin(p->y0, p->y1) - wide,
				    fmax(p->x0, p->x1) + wide, fmax(p->y0, p->y1) + wide};

	return rt__clash(sheet, &box, "letter") > 0.0;
}

/* Inside the ring words may have to stand on a line: not through them. */
static void clear(struct rt_sheet *sheet, const struct rt__spot *at, const struct rt_extent *e)
{
	const struct rt_area words = rt__label_box(e, at, 0.0),
			     paper = rt__label_box(e, at, PAPER_MM);

	if (rt__clash(sheet, &words, NULL) > 0.0)
		rt_sheet_rectangle(sheet, "paper", &rt__white, &paper);
}

static void draw(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
		 const struct rt__dimension *d, const struct rt_area *within)
{
	struct rt_extent e = rt_sheet_measure(t->sheet, d->words, &rt__middle_type);
	struct rt__spot spot[2 * SPOTS], best = {0};
	struct placed p = place(t, view, d, 1.0), other = place(t, view, d, -1.0);
	double met;
	size_t n = 0;

	if (d->outside || !on_letter(t->sheet, &p))
		n = spots(t->sheet, &p, &e, d->outside, spot);
	if (!d->outside && !on_letter(t->sheet, &other))
		n += spots(t->sheet, &other, &e, false, spot + n);
	met = rt__label_spot(t->sheet, &e, GAP_MM, within, spot, n, &best);
	if (!d->outside && met > 0.0)
		met = rt__label_spot(t->sheet, &e, PAPER_MM, within, spot, n, &best);
	if (met >= RT__WORDS_WEIGH)
		return;
	/* the line on the side where the words found room */
	if ((best.x_mm - p.x0) * p.out_x + (best.y_mm - p.y0) * p.out_y < 0.0)
		p = other;
	draw_line(t, view, d, &p);
	if (!d->outside)
		clear(t->sheet, &best, &e);
	rt__label_set(t->sheet, "distance", d->words, &e, &best, &rt__middle_type);
}

void rt__turn_dimensions_draw(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
			      const struct rt_area *within)
{
	struct rt__dimension d[RT__DIMENSIONS_MOST];
	size_t n = rt__turn_dimensions(t, d);

	for (size_t i = 0; i < n; i++)
		draw(t, view, &d[i], within);
}
