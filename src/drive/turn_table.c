/* The turn table of a level in a ring: what it is made for, every turn, and whether it fits.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

/* Far more than any ring has room for. */
#define DIAMETER_MOST_M 1000.0

#define TAN_60	    1.7320508075688772
#define QUARTER_ARC 0.7853981633974483 /* of a circle, in diameters */

/* The two arcs that every figure here has. */
enum { ARCS = 2 };

/* ---- what is asked --------------------------------------------------------------------------- */

enum rt_err rt__turn_diameter(double *out, const struct rt_ring_kind *kind,
			      const struct rt_level *level, const struct rt_turn_options *o,
			      struct rt_error *err)
{
	double most = fmin(kind->width_m, kind->length_m) / 2.0;
	char number[32];

	if (level->discipline != kind->discipline)
		return rt_fail(err, RT_E_USAGE, "level %s is %s, and %s is a %s ring", level->name,
			       rt_discipline_words(level->discipline), kind->name,
			       rt_discipline_words(kind->discipline));
	if (o->height_cm != 0.0 &&
	    !(o->height_cm >= RT_ANIMAL_LEAST_CM && o->height_cm <= RT_ANIMAL_MOST_CM))
		return rt_fail(err, RT_E_USAGE, "height out of range: accepted: %s",
			       RT_HEIGHT_ACCEPTED);
	if (o->diameter_m != 0.0 && !(o->diameter_m > 0.0 && o->diameter_m <= DIAMETER_MOST_M))
		return rt_fail(err, RT_E_USAGE,
			       "diameter out of range: accepted: over 0, up to 1000 m");
	rt_format_real(most, 1, number, sizeof number);
	if (!(o->track_m >= 0.0 && o->track_m < most))
		return rt_fail(err, RT_E_USAGE,
			       "track out of range: accepted: 0 up to less than half the ring's "
			       "width, %s m",
			       number);
	*out = o->diameter_m > 0.0 ? o->diameter_m : rt_level_diameter(level, o->height_cm);
	return RT_OK;
}

static enum rt_err settle(struct rt_turns *out, const struct rt_level *level,
			  const struct rt_gaits *gaits, const struct rt_turn_options *o,
			  struct rt_error *err)
{
	const struct rt_gait *gait = rt_gait_find(gaits, level->gait);
	struct rt__pace pace;
	double b, r = out->diameter_m / 2.0;

	if (!gait)
		return rt_fail(err, RT_E_NOTFOUND, "level %s: no gait is named %s", level->name,
			       level->gait);
	pace = rt__pace(gait, o->height_cm);
	out->height_given = o->height_cm > 0.0;
	out->height_cm = out->height_given ? o->height_cm : level->reference_height_cm;
	out->track_m = o->track_m;
	out->speed_m_per_s = pace.speed_m_per_s;
	out->stride_m = pace.stride_m;
	b = RT__FEET_APART_PER_HEIGHT * out->height_cm / 100.0;
	out->bend_deg = b / r * RT__DEGREES;
	out->cut_in_m = b <= r ? r - sqrt(r * r - b * b) : NAN;
	out->lateral_m_per_s2 = pace.speed_m_per_s * pace.speed_m_per_s / r;
	out->lean_deg = atan(out->lateral_m_per_s2 / RT__GRAVITY_M_PER_S2) * RT__DEGREES;
	out->quarter_m = out->diameter_m * QUARTER_ARC;
	out->quarter_seconds = out->quarter_m / pace.speed_m_per_s;
	out->quarter_strides = out->quarter_m / pace.stride_m;
	return RT_OK;
}

/* ---- figures --------------------------------------------------------------------------------- */

/* What rows are made with.  Names that were made live in out->list.text. */
struct making {
	struct rt_turns *out;
	struct rt__track track;
	bool nomem; /* sticky: a row or a name could not be kept */
};

/* An arc of a figure before it becomes a row. */
struct arc_row {
	const char *turn;
	const struct rt_peg *own; /* the letter it is named by; NULL: a corner */
	struct rt__arc arc;
	double straight_m; /* to the next arc; NAN: none */
	double limit_m;	   /* the largest diameter there is room for */
};

static void add_row(struct making *m, int figure, const struct arc_row *row)
{
	const struct rt_turns *out = m->out;
	struct rt_turn *turn = RT_LIST_ADD(&m->out->list);

	m->nomem = m->nomem || !turn || !row->turn;
	if (!turn)
		return;
	*turn = rt__turn_of(&m->track, &row->arc, row->turn, row->own);
	turn->figure = figure;
	turn->straight_m = row->straight_m;
	turn->seconds = turn->arc_m / out->speed_m_per_s;
	turn->strides = turn->arc_m / out->stride_m;
	turn->fits = out->diameter_m <= row->limit_m + RT__EQUAL_M;
	turn->largest_m = floor((row->limit_m + RT__EQUAL_M) * 10.0) / 10.0;
}

static void add_figure(struct making *m, const struct arc_row row[ARCS])
{
	struct rt_turn_list *list = &m->out->list;
	int figure = list->n ? list->at[list->n - 1].figure + 1 : 1;

	for (int i = 0; i < ARCS; i++)
		add_row(m, figure, &row[i]);
}

/* A figure of two right-angled turns, at p[1] and p[2], on the way from p[0] to p[3], which are
 * turns too (corners, or the other end of the centreline).  A right angle takes the radius from
 * both its lines, so two that share a line fit when the diameter is no longer than the line. */
static void add_right_angles(struct making *m, const struct rt_vec p[ARCS + 2],
			     const char *const turn[ARCS], const struct rt_peg *const own[ARCS])
{
	double radius = m->out->diameter_m / 2.0;
	double between = rt__distance(p[1], p[2]) - m->out->diameter_m;
	struct arc_row row[ARCS];

	for (int i = 0; i < ARCS; i++)
		row[i] = (struct arc_row){
			.turn = turn[i],
			.own = own[i],
			.arc = rt__fillet(p[i], p[i + 1], p[i + 2], radius),
			.straight_m = NAN,
			.limit_m = fmin(rt__distance(p[i], p[i + 1]),
					rt__distance(p[i + 1], p[i + 2])),
		};
	if (between >= -RT__EQUAL_M)
		row[0].straight_m = fmax(between, 0.0);
	add_figure(m, row);
}

/* Off the centreline at the letter of the end y (-1: A, 1: C) towards the long side x (-1: left,
 * 1: right), and onto it from there. */
static void add_centreline(struct making *m, const struct rt_peg *letter, int x, int y)
{
	double w = x * m->track.half_width, l = y * m->track.half_length;
	const char *corner = rt__track_corner(&m->track, x, y);
	struct rt_arena **text = &m->out->list.text;
	const struct rt_vec off[] = {{0.0, -l}, {0.0, l}, {w, l}, {w, -l}};
	const struct rt_vec onto[] = {{w, -l}, {w, l}, {0.0, l}, {0.0, -l}};

	add_right_angles(
		m, off,
		(const char *[]){rt_arena_textf(text, "off the centreline at %s", letter->name),
				 rt_arena_textf(text, "corner %s after %s", corner, letter->name)},
		(const struct rt_peg *[]){letter, NULL});
	add_right_angles(
		m, onto,
		(const char *[]){rt_arena_textf(text, "corner %s before %s", corner, letter->name),
				 rt_arena_textf(text, "onto the centreline at %s", letter->name)},
		(const struct rt_peg *[]){NULL, letter});
}

/* Both corners of the short side y, coming from the long side x. */
static void add_corners(struct making *m, int x, int y)
{
	double w = x * m->track.half_width, l = y * m->track.half_length;
	struct rt_arena **text = &m->out->list.text;
	const struct rt_vec round[] = {{w, -l}, {w, l}, {-w, l}, {-w, -l}};

	add_right_angles(
		m, round,
		(const char *[]){
			rt_arena_textf(text, "corner %s", rt__track_corner(&m->track, x, y)),
			rt_arena_textf(text, "corner %s", rt__track_corner(&m->track, -x, y))},
		(const struct rt_peg *[]){NULL, NULL});
}

/* Across from one letter to the one facing it, on the rein that leads to the end y on the first
 * side, and on that rein on. */
static void add_across(struct making *m, const struct rt_peg *from, const struct rt_peg *to, int y)
{
	double l = y * m->track.half_length;
	struct rt_arena **text = &m->out->list.text;
	const struct rt_vec across[] = {
		{from->x_m, -l}, rt__peg_point(from), rt__peg_point(to), {to->x_m, -l}};

	add_right_angles(m, across,
			 (const char *[]){rt_arena_textf(text, "%s to %s, leave at %s", from->name,
							 to->name, from->name),
					  rt_arena_textf(text, "%s to %s, arrive at %s", from->name,
							 to->name, to->name)},
			 (const struct rt_peg *[]){from, to});
}

/* The letter of the long side x nearest to the end y, on that half of the side; or NULL. */
static const struct rt_peg *outermost(const struct rt__track *track, int x, int y)
{
	const struct rt_peg *best = NULL;

	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];

		if (!peg->corner && peg->side == (x < 0 ? RT_LEFT : RT_RIGHT) &&
		    peg->y_m * y > RT__EQUAL_M && (!best || peg->y_m * y > best->y_m * y))
			best = peg;
	}
	return best;
}

/* The largest diameter of a diagonal's arcs.  They begin and end at the letters, so that the
 * radius of a corner has to fit between corner and letter.  And they turn against each other:
 * with the letters 2w across and 2l along from each other, their centres lie
 * sqrt((2w - 2r)^2 + (2l)^2) apart, which must be 2r at least: r <= (w^2 + l^2) / (2w). */
static double diagonal_limit(const struct rt__track *track, double l)
{
	double w = track->half_width;

	return fmin(2.0 * (track->half_length - l), (w * w + l * l) / w);
}

/* The long diagonal from the outermost letter of the long side x at the end y. */
static void add_diagonal(struct making *m, int x, int y)
{
	const struct rt_peg *from = outermost(&m->track, x, y), *to, *middle;
	const struct rt_vec down = {0.0, -y};
	struct rt_arena **text = &m->out->list.text;
	const char *by, *space;
	struct rt_pose leave, arrive;
	struct rt__join join;
	double limit;

	if (!from || 2.0 * m->track.half_width > TAN_60 * 2.0 * fabs(from->y_m))
		return;
	to = rt__track_peg(&m->track, x < 0 ? RT_RIGHT : RT_LEFT,
			   (struct rt_vec){-from->x_m, -from->y_m});
	if (!to)
		return;
	middle = rt__track_peg(&m->track, RT_CENTRE, (struct rt_vec){0.0, 0.0});
	by = middle ? middle->name : "";
	space = middle ? " " : "";
	leave = (struct rt_pose){rt__peg_point(from), down};
	arrive = (struct rt_pose){rt__peg_point(to), down};
	join = rt__join(&leave, &arrive, m->out->diameter_m / 2.0);
	limit = diagonal_limit(&m->track, fabs(from->y_m));
	add_figure(m, (const struct arc_row[ARCS]){
			      {rt_arena_textf(text, "diagonal %s%s%s %s, leave at %s", from->name,
					      space, by, to->name, from->name),
			       from, join.first, join.straight_m, limit},
			      {rt_arena_textf(text, "diagonal %s%s%s %s, arrive at %s", from->name,
					      space, by, to->name, to->name),
			       to, join.second, NAN, limit},
		      });
}

/* Both ways between letters that face each other, on either rein. */
static void add_all_across(struct making *m)
{
	for (size_t i = 0; i < m->track.pegs.n; i++) {
		const struct rt_peg *left = &m->track.pegs.at[i], *right;

		if (left->corner || left->side != RT_LEFT)
			continue;
		right = rt__track_peg(&m->track, RT_RIGHT,
				      (struct rt_vec){m->track.half_width, left->y_m});
		if (!right)
			continue;
		add_across(m, left, right, -1);
		add_across(m, left, right, 1);
		add_across(m, right, left, 1);
		add_across(m, right, left, -1);
	}
}

/* Every turn whose letters the track has. */
static void add_figures(struct making *m)
{
	/* Both ends, each with both long sides. */
	static const struct {
		int x, y;
	} corner[] = {{-1, 1}, {1, 1}, {-1, -1}, {1, -1}};

	for (int i = 0; i < 4; i++) {
		const struct rt_peg *letter = rt__track_peg(
			&m->track, corner[i].y < 0 ? RT_SIDE_A : RT_SIDE_C,
			(struct rt_vec){0.0, corner[i].y * m->track.half_length});

		if (letter)
			add_centreline(m, letter, corner[i].x, corner[i].y);
	}
	for (int i = 0; i < 4; i++)
		add_corners(m, corner[i].x, corner[i].y);
	add_all_across(m);
	for (int i = 0; i < 4; i++)
		add_diagonal(m, corner[i].x, corner[i].y);
}

/* ---- the whole ------------------------------------------------------------------------------- */

enum rt_err rt_turns_make(struct rt_turns *out, const struct rt_ring_kind *kind,
			  const struct rt_level *level, const struct rt_gaits *gaits,
			  const struct rt_turn_options *options, struct rt_error *err)
{
	struct making making = {.out = out};
	enum rt_err e;

	*out = (struct rt_turns){.kind = kind->name, .level = level->name, .gait = level->gait};
	e = rt__turn_diameter(&out->diameter_m, kind, level, options, err);
	if (!e)
		e = settle(out, level, gaits, options, err);
	if (!e)
		e = rt__track_make(&making.track, kind, options->track_m, err);
	if (!e)
		add_figures(&making);
	if (making.nomem)
		e = rt_fail_nomem(err);
	for (size_t i = 0; i < making.track.pegs.n; i++)
		rt__add_unconfirmed(out->unconfirmed, kind, &making.track.pegs.at[i]);
	rt__track_free(&making.track);
	if (e)
		rt_turns_free(out);
	return e;
}

void rt_turns_free(struct rt_turns *turns)
{
	RT_LIST_FREE(&turns->list);
	memset(turns, 0, sizeof *turns);
}
