/* The ring of the set-out sheet: every running distance in metres and in feet, the diagonals, the
 * first right angle.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setout_internal.h"

#include <math.h>
#include <string.h>

#define LETTER_PT    16.0
#define BOARDS_MM    1.0
#define SIDE_TEXT_MM 35.0 /* "262 ft 5 1/2 in" */
#define LETTER_MM    5.5  /* the column of letters outside the boards, beside the widest */
#define END_MM	     20.0 /* above and below the ring: letter and one line */
#define PAIR_MM	     (2.0 * RT__LINE_MM)
#define TRIANGLE_MM  36.0 /* a shorter leg has no room for its length */
#define CAPTION_MM   (4.0 * RT__LINE_MM)
#define ENDS_MOST    (RT_RING_LETTERS_MOST + 4)

static const struct rt_pen thin = {.width_mm = 0.25, .stroke = RT_INK_BLACK};
/* A running distance, and how far down the page its words begin. */
struct note {
	const struct rt_peg *peg;
	double at_mm, top_mm;
};

/* A length in both units. */
struct taped {
	struct rt_shown_number metres, feet;
};

static struct taped both(double m)
{
	return (struct taped){rt_show_taped(m, false), rt_show_taped(m, true)};
}

/* Words on white, so that no line runs through them. */
static void clear_text(const struct rt__setout_pages *p, const char *role, const char *words,
		       double x, double y, const struct rt_lettering *how)
{
	struct rt_extent e = rt_sheet_measure(p->sheet, words, how);
	double left = how->anchor == RT_ANCHOR_RIGHT ? x - e.width_mm : x;

	rt_sheet_rectangle(p->sheet, "ground", &rt__white,
			   &(struct rt_area){left - 0.4, y - e.ascent_mm, left + e.width_mm + 0.4,
					     y + e.descent_mm});
	rt_sheet_text(p->sheet, role, words, x, y, how);
}

/* Metres over feet, from the left or up to the right. */
static void pair(const struct rt__setout_pages *p, const struct rt_peg *peg, double x, double top,
		 enum rt_anchor anchor)
{
	struct rt_lettering t = rt__type;
	struct taped along = both(peg->along_m);
	char words[128];
	bool check = rt_peg_unconfirmed(p->kind, peg);

	t.anchor = anchor;
	snprintf(words, sizeof words, "%s%s%s%s", peg->corner ? peg->name : "",
		 peg->corner ? " " : "", peg->along_m > 0.0 ? along.metres.text : "zero",
		 check ? " *" : "");
	clear_text(p, "running", words, x, top + 0.78 * RT__LINE_MM, &t);
	if (peg->along_m > 0.0)
		clear_text(p, "feet", along.feet.text, x, top + 1.78 * RT__LINE_MM, &t);
}

/* The column of letters between the boards and the running distances. */
static double letters_width(const struct rt__setout_pages *p)
{
	const struct rt_lettering letter = {.size_pt = LETTER_PT};
	double widest = 0.0;

	for (size_t i = 0; i < p->kind->letters.n; i++)
		widest = fmax(
			widest,
			rt_sheet_measure(p->sheet, p->kind->letters.at[i].name, &letter).width_mm);
	return LETTER_MM + widest;
}

/* ---- long sides ------------------------------------------------------------------------------ */

/* The notes of a side from the top of the page down, each beside its peg, or pushed down to be
 * clear of the one above. */
static size_t side_notes(const struct rt__setout_pages *p, const struct rt_ring_view *view,
			 enum rt_side side, struct note out[ENDS_MOST])
{
	const struct rt_pegs *pegs = &p->what->plan->pegs;
	double x, bottom = p->room.bottom_mm - CAPTION_MM;
	size_t n = 0;

	for (size_t i = 0; i < pegs->n; i++) {
		size_t k = n;
		double y;

		if (pegs->at[i].side != side)
			continue;
		rt_ring_view_point(view, pegs->at[i].x_m, pegs->at[i].y_m, &x, &y);
		for (; k > 0 && out[k - 1].at_mm > y; k--)
			out[k] = out[k - 1];
		out[k] = (struct note){&pegs->at[i], y, y - PAIR_MM / 2.0};
		n++;
	}
	for (size_t i = 1; i < n; i++)
		out[i].top_mm = fmax(out[i].top_mm, out[i - 1].top_mm + PAIR_MM);
	for (size_t i = n; i-- > 0; bottom = out[i].top_mm)
		out[i].top_mm = fmin(out[i].top_mm, bottom - PAIR_MM);
	return n;
}

static void long_side(const struct rt__setout_pages *p, const struct rt_ring_view *view,
		      enum rt_side side)
{
	double out = side == RT_LEFT ? -1.0 : 1.0, edge, y;
	struct note note[ENDS_MOST];
	size_t n = side_notes(p, view, side, note);

	rt_ring_view_point(view, out * p->kind->width_m / 2.0, 0.0, &edge, &y);
	edge += out * (BOARDS_MM + letters_width(p));
	for (size_t i = 0; i < n; i++) {
		double middle = note[i].top_mm + PAIR_MM / 2.0;

		if (fabs(middle - note[i].at_mm) > 1.0)
			rt_sheet_segment(p->sheet, "leader", &thin, edge - out, note[i].at_mm,
					 edge + out * 1.5, middle);
		pair(p, note[i].peg, edge + out * 2.0, note[i].top_mm,
		     side == RT_LEFT ? RT_ANCHOR_RIGHT : RT_ANCHOR_LEFT);
	}
}

/* ---- short sides, centreline ----------------------------------------------------------------- */

/* "From AK: A 20.00 m = 65 ft 7 1/2 in, FA 40.00 m = 131 ft 3 in", in the middle of a line. */
static void short_side(const struct rt__setout_pages *p, const struct rt_ring_view *view,
		       enum rt_side side)
{
	const struct rt_pegs *pegs = &p->what->plan->pegs;
	double x, y, end = side == RT_SIDE_A ? -1.0 : 1.0;
	struct taped along;
	char words[400];

	snprintf(words, sizeof words, "From %s:", end < 0 ? "AK" : "HC");
	for (size_t i = 0; i < pegs->n; i++) {
		/* clockwise: side c from the left, side a from the right */
		const struct rt_peg *peg = &pegs->at[end < 0 ? pegs->n - 1 - i : i];

		if (peg->side != side || peg->corner || strlen(words) > 250)
			continue;
		along = both(peg->along_m);
		snprintf(words + strlen(words), sizeof words - strlen(words), " %s %s = %s,",
			 peg->name, along.metres.text, along.feet.text);
	}
	along = both(p->kind->width_m);
	snprintf(words + strlen(words), sizeof words - strlen(words), " %s %s = %s",
		 end < 0 ? "FA" : "CM", along.metres.text, along.feet.text);
	rt_ring_view_point(view, 0.0, end * p->kind->length_m / 2.0, &x, &y);
	rt_sheet_text(p->sheet, "running", words, x, end < 0 ? y + END_MM - 4.0 : y - END_MM + 7.0,
		      &rt__middle_type);
}

/* The running distance of a letter of the centreline, to the right of its point; feet and inches
 * on two lines where the ring is drawn narrow. */
static void centre_words(const struct rt__setout_pages *p, const struct rt_peg *peg, double x,
			 double top, double width)
{
	struct taped along = both(peg->along_m);
	char *inches;

	if (rt_sheet_measure(p->sheet, along.feet.text, &rt__type).width_mm + 1.0 < width) {
		pair(p, peg, x, top, RT_ANCHOR_LEFT);
		return;
	}
	inches = strstr(along.feet.text, " ft ");
	if (inches)
		inches[3] = '\0';
	clear_text(p, "running", along.metres.text, x, top + 0.78 * RT__LINE_MM, &rt__type);
	clear_text(p, "feet", along.feet.text, x, top + 1.78 * RT__LINE_MM, &rt__type);
	if (inches)
		clear_text(p, "feet", inches + 4, x, top + 2.78 * RT__LINE_MM, &rt__type);
}

static void centre(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	const struct rt_lettering letter = {.size_pt = LETTER_PT, .anchor = RT_ANCHOR_RIGHT};
	const struct rt_pegs *pegs = &p->what->plan->pegs;
	double half = p->kind->width_m * view->mm_per_m / 2.0;

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *peg = &pegs->at[i];
		double x, y;

		if (peg->side != RT_CENTRE)
			continue;
		rt_ring_view_point(view, peg->x_m, peg->y_m, &x, &y);
		rt_sheet_circle(p->sheet, "point", &rt__black, x, y, 0.9);
		clear_text(p, "letter", peg->name, x - 2.5, y + 6.5, &letter);
		centre_words(p, peg, x + 2.0, y + 1.2, half - 2.0);
	}
}

/* ---- diagonals, the first right angle -------------------------------------------------------- */

static void diagonals(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	double x = p->kind->width_m / 2.0, y = p->kind->length_m / 2.0;
	const double corner[4][2] = {{-x, -y}, {x, y}, {x, -y}, {-x, y}};
	struct taped across = both(hypot(p->kind->width_m, p->kind->length_m));

	rt__ring_line(p->sheet, "diagonal", &rt__setout_dashed, view, corner[0], corner[1]);
	rt__ring_line(p->sheet, "diagonal", &rt__setout_dashed, view, corner[2], corner[3]);
	rt__setout_along(p, view, corner[2], corner[3], 0.76, 1.2, across.metres.text);
	rt__setout_along(p, view, corner[2], corner[3], 0.76, -1.2 - 0.7 * RT__LINE_MM,
			 across.feet.text);
}

/* The legs of the plan's first right angle, from AK along the left side and along side a; false
 * where it has none. */
static bool first_angle(const struct rt_setout_plan *plan, double *up_m, double *right_m)
{
	for (size_t i = 0; i < plan->steps; i++) {
		const struct rt_setout_step *s = &plan->step[i];

		if (s->proof_from.towards && strcmp(s->proof_from.peg, "AK") == 0) {
			*up_m = s->proof_from.past_m;
			*right_m = s->proof_to.past_m;
			return true;
		}
		if (s->kind != RT_SETOUT_CROSS || strcmp(s->stage, "first right angle") != 0 ||
		    plan->point[s->point].peg)
			continue;
		*right_m = s->from_m;
		*up_m = sqrt(s->second_m * s->second_m - s->from_m * s->from_m);
		return true;
	}
	return false;
}

/* The corners of that triangle: AK, above it, beside it; false where there is none. */
static bool triangle_corners(const struct rt__setout_pages *p, double corner[3][2])
{
	double up, right;

	if (!first_angle(p->what->plan, &up, &right))
		return false;
	corner[0][0] = corner[1][0] = -p->kind->width_m / 2.0;
	corner[0][1] = corner[2][1] = -p->kind->length_m / 2.0;
	corner[1][1] = corner[0][1] + up;
	corner[2][0] = corner[0][0] + right;
	return true;
}

static void triangle(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	double corner[3][2];

	if (!triangle_corners(p, corner))
		return;
	for (int i = 0; i < 3; i++)
		rt__ring_line(p->sheet, "angle", &rt__setout_heavy, view, corner[i],
			      corner[(i + 1) % 3]);
}

/* A length along a side of the triangle, at the place that meets fewest words. */
static void triangle_length(const struct rt__setout_pages *p, const struct rt_ring_view *view,
			    const double from[2], const double to[2], double lift_mm)
{
	static const double part[] = {0.45, 0.3, 0.6, 0.2, 0.75};
	double least = INFINITY, best = part[0], x, y;
	struct rt_shown_number words = rt_show_taped(hypot(to[0] - from[0], to[1] - from[1]),
						     false);
	struct rt_extent e = rt_sheet_measure(p->sheet, words.text, &rt__type);

	for (size_t i = 0; i < sizeof part / sizeof *part && least > 0.0; i++) {
		double half = e.width_mm / 2.0, met = 0.0;

		rt_ring_view_point(view, from[0] + part[i] * (to[0] - from[0]),
				   from[1] + part[i] * (to[1] - from[1]), &x, &y);
		met = rt__clash(p->sheet, &(struct rt_area){x - half, y - half, x + half, y + half},
				NULL);
		if (met < least) {
			least = met;
			best = part[i];
		}
	}
	rt__setout_along(p, view, from, to, best, lift_mm, words.text);
}

static void triangle_lengths(const struct rt__setout_pages *p, const struct rt_ring_view *view)
{
	double corner[3][2];

	if (!triangle_corners(p, corner) ||
	    (corner[2][0] - corner[0][0]) * view->mm_per_m < TRIANGLE_MM)
		return;
	triangle_length(p, view, corner[0], corner[1], -1.2 - 0.7 * RT__LINE_MM);
	triangle_length(p, view, corner[0], corner[2], 1.4);
	triangle_length(p, view, corner[1], corner[2], 1.4);
}

/* ---- the page -------------------------------------------------------------------------------- */

static void caption(const struct rt__setout_pages *p, double scale)
{
	double up, right, width = p->room.right_mm - p->room.left_mm;
	struct taped diagonal = both(hypot(p->kind->width_m, p->kind->length_m));
	char words[1000], marked[700] = "";

	if (first_angle(p->what->plan, &up, &right)) {
		struct taped a = both(right), b = both(up), c = both(hypot(up, right));

		snprintf(marked, sizeof marked, " Heavy triangle: %s, %s, %s = %s, %s, %s.",
			 a.metres.text, b.metres.text, c.metres.text, a.feet.text, b.feet.text,
			 c.feet.text);
	}
	snprintf(words, sizeof words,
		 "Running distances from the A end; inside edge of the boards. Both diagonals %s = "
		 "%s.%s Scale 1 : %.0f.",
		 diagonal.metres.text, diagonal.feet.text, marked, scale);
	rt__set_lines(p->sheet, "caption", words, p->room.left_mm, p->room.bottom_mm - CAPTION_MM,
		      width, &rt__type, true);
}

void rt__setout_drawing(const struct rt__setout_pages *p)
{
	const struct rt_ring_drawing d = {.letter_pt = LETTER_PT, .boards_mm = BOARDS_MM};
	struct rt_area room = p->room;
	struct rt_ring_view view;

	room.bottom_mm -= CAPTION_MM;
	view = rt__ring_view_in(p->kind, RT_SEAT_A, &room, SIDE_TEXT_MM + letters_width(p), END_MM);
	diagonals(p, &view);
	rt_sheet_ring(p->sheet, p->kind, &view, &d);
	triangle(p, &view);
	centre(p, &view);
	triangle_lengths(p, &view);
	long_side(p, &view, RT_LEFT);
	long_side(p, &view, RT_RIGHT);
	short_side(p, &view, RT_SIDE_A);
	short_side(p, &view, RT_SIDE_C);
	caption(p, 1000.0 / view.mm_per_m);
}
