/* The drawing of a ring check: pegs as found, where they belong, how well that is known.
 *
 * Distances between pegs are drawn to one scale, what a peg is off, its error ellipse and the
 * tolerance to one that is larger by a round factor.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define LETTER_PT    14.0
#define AROUND_MM    17.0 /* room outside the ring for arrows and letters */
#define ARROW_MM     15.0 /* the farthest from its place that a peg's ellipse may reach */
#define TOLERANCE_MM 7.0  /* the largest tolerance circle */
#define HEAD_MM	     2.6
#define MARK_MM	     1.2 /* half a mark */
#define GAP_MM	     0.5
#define SURE	     2.0  /* standard errors that an ellipse shows: as the verdict has it */
#define COORD_MM     3.0  /* half the cross of a receiver's reading */
#define KEY_MM	     13.0 /* from a key's left to its words */

static const struct rt_pen edge = {.width_mm = 0.7, .stroke = RT_INK_BLACK};
static const struct rt_pen centre = {
	.width_mm = 0.25, .stroke = RT_INK_BLACK, .dash_mm = {4.0, 1.2, 0.8, 1.2}};
static const struct rt_pen reading = {.width_mm = 0.12, .stroke = RT_INK_BLACK};
static const struct rt_pen doubted = {
	.width_mm = 0.8, .stroke = RT_INK_BLACK, .dash_mm = {2.8, 1.6}};
static const struct rt_pen halo = {.width_mm = 2.0, .stroke = RT_INK_WHITE};
static const struct rt_pen tolerance = {
	.width_mm = 0.35, .stroke = RT_INK_BLACK, .dash_mm = {0.5, 0.9}};
static const struct rt_pen arrow = {.width_mm = 0.8, .stroke = RT_INK_BLACK};
static const struct rt_pen open_mark = {
	.width_mm = 0.6, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};
static const struct rt_pen cross = {.width_mm = 0.5, .stroke = RT_INK_BLACK};
static const struct rt_pen bar = {.width_mm = 1.0, .stroke = RT_INK_BLACK};

struct drawing {
	const struct rt__check_sheet *t;
	const struct rt_ring_check *check;
	struct rt_ring_view view;
	double times; /* how much larger offsets are drawn */
};

/* ---- marks ----------------------------------------------------------------------------------- */

static void diamond(struct rt_sheet *sheet, const char *role, double x, double y)
{
	double r = 1.5 * MARK_MM;

	rt_sheet_shape(sheet, role, &open_mark);
	rt_sheet_move(sheet, x, y - r);
	rt_sheet_line(sheet, x + r, y);
	rt_sheet_line(sheet, x, y + r);
	rt_sheet_line(sheet, x - r, y);
	rt_sheet_close(sheet);
}

static void mark(struct rt_sheet *sheet, enum rt_peg_verdict verdict, double x, double y)
{
	switch (verdict) {
	case RT_PEG_GOOD:
		rt_sheet_circle(sheet, "peg-good", &rt__black, x, y, 0.6 * MARK_MM);
		break;
	case RT_PEG_MOVE:
		rt_sheet_rectangle(
			sheet, "peg-move", &rt__black,
			&(struct rt_area){x - MARK_MM, y - MARK_MM, x + MARK_MM, y + MARK_MM});
		break;
	case RT_PEG_UNSURE:
		diamond(sheet, "peg-unsure", x, y);
		break;
	}
}

static void not_measured(struct rt_sheet *sheet, double x, double y)
{
	rt_sheet_segment(sheet, "peg-unmeasured", &cross, x - MARK_MM, y, x + MARK_MM, y);
	rt_sheet_segment(sheet, "peg-unmeasured", &cross, x, y - MARK_MM, x, y + MARK_MM);
}

/* From x0, y0 to x1, y1; the head ends there.  One too short for a head is a head. */
static void draw_arrow(struct rt_sheet *sheet, double x0, double y0, double x1, double y1)
{
	double length = hypot(x1 - x0, y1 - y0), ux = (x1 - x0) / length, uy = (y1 - y0) / length;
	double neck_x = x1 - HEAD_MM * ux, neck_y = y1 - HEAD_MM * uy;

	if (length > HEAD_MM) {
		rt_sheet_segment(sheet, "halo", &halo, x0, y0, neck_x, neck_y);
		rt_sheet_segment(sheet, "arrow", &arrow, x0, y0, neck_x, neck_y);
	}
	rt_sheet_shape(sheet, "arrow-head", &rt__black);
	rt_sheet_move(sheet, x1, y1);
	rt_sheet_line(sheet, neck_x - 0.45 * HEAD_MM * uy, neck_y + 0.45 * HEAD_MM * ux);
	rt_sheet_line(sheet, neck_x + 0.45 * HEAD_MM * uy, neck_y - 0.45 * HEAD_MM * ux);
	rt_sheet_close(sheet);
}

/* An ellipse by its covariance (square millimetres of the page, times standard errors) as a
 * polygon so fine that a pen cannot show it. */
static void draw_ellipse(struct rt_sheet *sheet, double x, double y, double xx, double xy,
			 double yy)
{
	enum { CORNERS = 48 };
	double half = hypot((xx - yy) / 2.0, xy), middle = (xx + yy) / 2.0;
	double a = sqrt(fmax(0.0, middle + half)), b = sqrt(fmax(0.0, middle - half));
	double turned = 0.5 * atan2(2.0 * xy, xx - yy), c = cos(turned), s = sin(turned);

	rt_sheet_shape(sheet, "ellipse", &rt__thin);
	for (int i = 0; i < CORNERS; i++) {
		double p = a * cos(2.0 * RT__PI * i / CORNERS);
		double q = b * sin(2.0 * RT__PI * i / CORNERS);

		if (i)
			rt_sheet_line(sheet, x + c * p - s * q, y + s * p + c * q);
		else
			rt_sheet_move(sheet, x + c * p - s * q, y + s * p + c * q);
	}
	rt_sheet_close(sheet);
}

/* ---- readings -------------------------------------------------------------------------------- */

static bool is_doubted(const struct rt_adjusted_reading *r)
{
	return r->suspect || r->verdict == RT_READING_BLUNDER;
}

/* Where a peg belongs on the page; false for one that was not measured. */
static bool place_of(const struct drawing *d, const char *name, double at[2])
{
	for (size_t i = 0; name && i < d->check->pegs; i++) {
		const struct rt_peg *p = &d->check->peg[i].peg;

		if (strcmp(p->name, name) != 0)
			continue;
		rt_ring_view_point(&d->view, p->x_m, p->y_m, &at[0], &at[1]);
		return true;
	}
	return false;
}

/* A line of a reading; a doubted one over what else is there, the ring's edge too. */
static void reading_line(const struct drawing *d, bool in_doubt, double x0, double y0, double x1,
			 double y1)
{
	if (in_doubt)
		rt_sheet_segment(d->t->sheet, "halo", &halo, x0, y0, x1, y1);
	rt_sheet_segment(d->t->sheet, in_doubt ? "reading-doubted" : "reading",
			 in_doubt ? &doubted : &reading, x0, y0, x1, y1);
}

static void between(const struct drawing *d, bool in_doubt, const char *from, const char *to)
{
	double a[2], b[2];

	if (place_of(d, from, a) && place_of(d, to, b))
		reading_line(d, in_doubt, a[0], a[1], b[0], b[1]);
}

static void draw_reading(const struct drawing *d, const struct rt_reading *r, bool in_doubt)
{
	double at[2], right = r->kind == RT_READ_X ? COORD_MM : 0.0, down = COORD_MM - right;

	switch (r->kind) {
	case RT_READ_DISTANCE:
	case RT_READ_OFFSET:
		between(d, in_doubt, r->from, r->to);
		break;
	case RT_READ_ANGLE:
		between(d, in_doubt, r->at, r->from);
		between(d, in_doubt, r->at, r->to);
		break;
	case RT_READ_X:
	case RT_READ_Y:
		if (place_of(d, r->at, at))
			reading_line(d, in_doubt, at[0] - right, at[1] - down, at[0] + right,
				     at[1] + down);
		break;
	}
}

static void draw_readings(const struct drawing *d, bool in_doubt)
{
	const struct rt_adjustment *a = &d->check->adjustment;

	for (size_t i = 0; i < a->readings; i++)
		if (is_doubted(&a->reading[i]) == in_doubt)
			draw_reading(d, a->reading[i].reading, in_doubt);
}

static bool any_doubted(const struct drawing *d)
{
	const struct rt_adjustment *a = &d->check->adjustment;

	for (size_t i = 0; i < a->readings; i++)
		if (is_doubted(&a->reading[i]))
			return true;
	return false;
}

/* ---- pegs ------------------------------------------------------------------------------------ */

static void found_at(const struct drawing *d, const struct rt_checked_peg *p, double at[2],
		     double found[2])
{
	double larger = d->times * d->view.mm_per_m;

	rt_ring_view_point(&d->view, p->peg.x_m, p->peg.y_m, &at[0], &at[1]);
	rt_ring_view_toward(&d->view, larger * p->dx_m, larger * p->dy_m, &found[0], &found[1]);
	found[0] += at[0];
	found[1] += at[1];
}

static void draw_peg_ellipse(const struct drawing *d, const struct rt_checked_peg *p,
			     const double found[2])
{
	double larger = SURE * d->times * d->view.mm_per_m, ux, uy, vx, vy, xx, xy, yy;

	/* the page's directions of the ring's x and y */
	rt_ring_view_toward(&d->view, larger, 0.0, &ux, &uy);
	rt_ring_view_toward(&d->view, 0.0, larger, &vx, &vy);
	xx = ux * ux * p->cov_xx_m2 + 2.0 * ux * vx * p->cov_xy_m2 + vx * vx * p->cov_yy_m2;
	xy = ux * uy * p->cov_xx_m2 + (ux * vy + vx * uy) * p->cov_xy_m2 + vx * vy * p->cov_yy_m2;
	yy = uy * uy * p->cov_xx_m2 + 2.0 * uy * vy * p->cov_xy_m2 + vy * vy * p->cov_yy_m2;
	draw_ellipse(d->t->sheet, found[0], found[1], xx, xy, yy);
}

static void draw_pegs(const struct drawing *d)
{
	double circle = d->check->tolerance_m * d->times * d->view.mm_per_m;

	for (size_t i = 0; i < d->check->pegs; i++) {
		const struct rt_checked_peg *p = &d->check->peg[i];
		double at[2], found[2];

		found_at(d, p, at, found);
		rt_sheet_circle(d->t->sheet, "tolerance", &tolerance, at[0], at[1], circle);
		draw_peg_ellipse(d, p, found);
	}
	for (size_t i = 0; i < d->check->pegs; i++) {
		const struct rt_checked_peg *p = &d->check->peg[i];
		double at[2], found[2];

		found_at(d, p, at, found);
		if (p->verdict == RT_PEG_MOVE)
			draw_arrow(d->t->sheet, found[0], found[1], at[0], at[1]);
		mark(d->t->sheet, p->verdict, found[0], found[1]);
	}
	for (size_t i = 0; i < d->check->unmeasured.n; i++) {
		const struct rt_peg *p = &d->check->unmeasured.at[i];
		double x, y;

		rt_ring_view_point(&d->view, p->x_m, p->y_m, &x, &y);
		not_measured(d->t->sheet, x, y);
	}
}

/* The direction on paper in which the outside of the ring lies from a peg; of a letter of the
 * centreline, to its right. */
static double outward(const struct drawing *d, const struct rt_peg *p)
{
	const struct rt_ring_kind *kind = d->check->kind;
	double x, y;

	if (p->side == RT_CENTRE)
		rt_ring_view_toward(&d->view, 1.0, 0.0, &x, &y);
	else if (p->side == RT_LEFT || p->side == RT_RIGHT)
		rt_ring_view_toward(&d->view, p->x_m, p->corner ? p->y_m : 0.0, &x, &y);
	else
		rt_ring_view_toward(&d->view, p->x_m / kind->width_m, p->y_m / kind->length_m, &x,
				    &y);
	return atan2(y, x);
}

/* A name near its peg, in rings about it: straight out first, then to either side of that, where
 * least is in its way. */
static void draw_name(const struct drawing *d, const struct rt_peg *p, const struct rt_area *room)
{
	enum { RINGS = 4 };
	const struct rt_lettering lettering = {.size_pt = p->corner ? RT__BODY_PT : LETTER_PT,
					       .anchor = RT_ANCHOR_MIDDLE};
	struct rt_extent e = rt_sheet_measure(d->t->sheet, p->name, &lettering);
	double circle = d->check->tolerance_m * d->times * d->view.mm_per_m;
	struct rt__spot spot[RINGS * RT__ROUND], at, best;
	struct rt_area behind;

	rt_ring_view_point(&d->view, p->x_m, p->y_m, &at.x_mm, &at.y_mm);
	rt__label_round(&e, &at, outward(d, p), fmax(2.5, circle + 1.0), 0.8, RINGS, spot);
	best = at;
	rt__label_spot(d->t->sheet, &e, GAP_MM, room, spot, RINGS * RT__ROUND, &best);
	behind = rt__label_box(&e, &best, 0.0);
	behind.left_mm -= 0.2;
	behind.right_mm += 0.2;
	rt_sheet_rectangle(d->t->sheet, "halo", &rt__white, &behind);
	rt__label_set(d->t->sheet, p->corner ? "corner" : "letter", p->name, &e, &best, &lettering);
}

static void draw_names(const struct drawing *d, const struct rt_area *room)
{
	for (size_t i = 0; i < d->check->pegs; i++)
		draw_name(d, &d->check->peg[i].peg, room);
	for (size_t i = 0; i < d->check->unmeasured.n; i++)
		draw_name(d, &d->check->unmeasured.at[i], room);
}

/* ---- the key --------------------------------------------------------------------------------- */

/* A row of the key: words beside a mark that was drawn at its middle; where the next one is. */
static double key_words(struct rt_sheet *sheet, const struct rt_area *room, double top,
			const char *words)
{
	return top + rt__set_lines(sheet, "key", words, room->left_mm + KEY_MM, top,
				   room->right_mm - room->left_mm - KEY_MM, &rt__type, true);
}

static double key_marks(const struct drawing *d, const struct rt_area *room, double top)
{
	struct rt_sheet *sheet = d->t->sheet;
	double x = room->left_mm + KEY_MM / 2.0 - 1.0, half = RT__LINE_MM / 2.0;

	mark(sheet, RT_PEG_GOOD, x, top + half);
	top = key_words(sheet, room, top, "where a good peg was found");
	if (d->check->to_move) {
		draw_arrow(sheet, x - 2.0, top + half, x + 5.0, top + half);
		mark(sheet, RT_PEG_MOVE, x - 2.5, top + half);
		top = key_words(sheet, room, top,
				"where a peg to move was found, and the way it is to go");
	}
	if (d->check->unsure) {
		mark(sheet, RT_PEG_UNSURE, x, top + half);
		top = key_words(sheet, room, top, "unsure: measure it once more");
	}
	if (d->check->unmeasured.n) {
		not_measured(sheet, x, top + half);
		top = key_words(sheet, room, top, "not measured");
	}
	return top;
}

static double key_lines(const struct drawing *d, const struct rt_area *room, double top)
{
	struct rt_sheet *sheet = d->t->sheet;
	double left = room->left_mm, x = left + KEY_MM / 2.0 - 1.0, half = RT__LINE_MM / 2.0;
	char words[200];

	snprintf(words, sizeof words, "tolerance of %s round the true place",
		 rt_show_length(d->check->tolerance_m, 2, 2, d->t->options->feet).text);
	rt_sheet_circle(sheet, "key-mark", &tolerance, x, top + half, 2.0);
	top = key_words(sheet, room, top, words);
	draw_ellipse(sheet, x, top + half, 12.0, 0.0, 3.0);
	top = key_words(sheet, room, top, "two standard errors of where it was found");
	rt_sheet_segment(sheet, "key-mark", &reading, left, top + half, left + 11.0, top + half);
	top = key_words(sheet, room, top, "a reading");
	if (!any_doubted(d))
		return top;
	rt_sheet_segment(sheet, "key-mark", &doubted, left, top + half, left + 11.0, top + half);
	return key_words(sheet, room, top, "a reading set aside or in doubt");
}

/* The longest round length, in metres or in feet, whose bar is short enough. */
static double bar_length(double mm_per_m, double most_mm, bool feet)
{
	static const double round_lengths[] = {50.0, 20.0, 10.0, 5.0,  2.0,  1.0,   0.5,
					       0.2,  0.1,  0.05, 0.02, 0.01, 0.005, 0.002};
	size_t i = 0;

	double unit = feet ? 0.3048 : 1.0;

	while (i + 1 < sizeof round_lengths / sizeof *round_lengths &&
	       round_lengths[i] * unit * mm_per_m > most_mm)
		i++;
	return round_lengths[i] * unit;
}

static double draw_bar(const struct drawing *d, const struct rt_area *room, double top,
		       double mm_per_m, const char *of)
{
	double length = bar_length(mm_per_m, 30.0, d->t->options->feet), across = length * mm_per_m;
	double y = top + RT__LINE_MM / 2.0;
	char words[160];

	snprintf(words, sizeof words, "%s %s",
		 rt_show_length(length, 0, 3, d->t->options->feet).text, of);
	rt_sheet_segment(d->t->sheet, "bar", &bar, room->left_mm, y, room->left_mm + across, y);
	return top + rt__set_lines(d->t->sheet, "key", words, room->left_mm + across + 2.0, top,
				   room->right_mm - room->left_mm - across - 2.0, &rt__type, true);
}

static double draw_key(const struct drawing *d, const struct rt_area *room, double top)
{
	char words[160];

	snprintf(words, sizeof words,
		 "Seen from %s. Arrows, circles and ellipses are drawn %.0f times larger than the "
		 "ring:",
		 rt_seat_words(d->t->options->seat), d->times);
	top += rt__set_lines(d->t->sheet, "key", words, room->left_mm, top,
			     room->right_mm - room->left_mm, &rt__type, true);
	top = draw_bar(d, room, top, d->view.mm_per_m * d->times, "of a move");
	top = draw_bar(d, room, top, d->view.mm_per_m, "of the ring");
	top = key_marks(d, room, top + 0.8);
	return key_lines(d, room, top);
}

/* Room that the key takes at most, with its longer rows on two lines. */
static double key_height(const struct drawing *d)
{
	int lines = 10 + 2 * (d->check->to_move > 0) + (d->check->unsure > 0) +
		    (d->check->unmeasured.n > 0) + any_doubted(d);

	return lines * RT__LINE_MM;
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* The largest round factor with which what a peg is off and the tolerance have room. */
static double larger_by(const struct rt_ring_check *check, double mm_per_m)
{
	static const double round_times[] = {500.0, 400.0, 300.0, 200.0, 150.0, 100.0, 80.0, 60.0,
					     50.0,  40.0,  30.0,  25.0,	 20.0,	15.0,  12.0, 10.0,
					     8.0,   6.0,   5.0,	  4.0,	 3.0,	2.0,   1.0};
	double off = 0.0;
	size_t i = 0;

	for (size_t k = 0; k < check->pegs; k++)
		off = fmax(off, check->peg[k].off_m + SURE * check->peg[k].se_m);
	while (i + 1 < sizeof round_times / sizeof *round_times &&
	       (off * mm_per_m * round_times[i] > ARROW_MM ||
		check->tolerance_m * mm_per_m * round_times[i] > TOLERANCE_MM))
		i++;
	return round_times[i];
}

double rt__check_drawing(const struct rt__check_sheet *t, const struct rt_area *room)
{
	const struct rt_ring_kind *kind = t->paper->check->kind;
	struct drawing d = {.t = t, .check = t->paper->check};
	struct rt_area inside = *room;
	double across, down;

	rt__ring_size(kind, t->options->seat, &across, &down);
	inside.bottom_mm -= key_height(&d);
	d.view = rt__ring_view_in(kind, t->options->seat, &inside, AROUND_MM, AROUND_MM);
	inside.bottom_mm = room->top_mm + 2.0 * AROUND_MM + down * d.view.mm_per_m;
	d.view.y_mm = (inside.top_mm + inside.bottom_mm) / 2.0;
	d.times = larger_by(d.check, d.view.mm_per_m);
	draw_readings(&d, false);
	rt__ring_rectangle(t->sheet, "ring", &edge, &d.view, kind, 0.0);
	rt__ring_length(t->sheet, "centreline", &centre, &d.view, kind, 0.0);
	draw_readings(&d, true);
	draw_pegs(&d);
	draw_names(&d, &inside);
	return draw_key(&d, room, inside.bottom_mm);
}
