/* A solved plan laid out as one path, with a row for each arc.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define NO_TURN 1e-9

/* What is laid, and how far it has come. */
struct laying {
	struct rt_route *out;
	struct rt__plan *plan;
	double end_m;
};

static void add_piece(struct laying *l, const struct rt_pose *begin, double length_m,
		      double curvature_per_m)
{
	if (!(length_m > RT__NO_LENGTH))
		return;
	if (!rt__path_add(&l->out->path, begin, length_m, curvature_per_m))
		l->plan->nomem = true;
	l->end_m += length_m;
}

/* An arc and its row; own is the letter it belongs to, NULL: none. */
static void add_arc(struct laying *l, const struct rt__arc *arc, const char *name,
		    const struct rt_peg *own)
{
	const struct rt_peg *letter = own && own->side != RT_CENTRE && !own->corner ? own : NULL;
	struct rt_turn *turn;

	if (!(fabs(arc->turned) > NO_TURN))
		return;
	turn = RT_LIST_ADD(&l->out->turns);
	if (!turn) {
		l->plan->nomem = true;
		return;
	}
	*turn = rt__turn_of(l->plan->track, arc, name, letter);
	turn->from_m = l->end_m;
	add_piece(l, &arc->begin, turn->arc_m, copysign(1.0 / arc->radius, arc->turned));
}

static const char *act_name(struct laying *l, const struct rt__station *s,
			    const struct rt_step *step, size_t move)
{
	switch (step->kind) {
	case RT_STEP_SERPENTINE:
		return rt__plan_name(l->plan, "serpentine, loop %zu", (move + 1) / 2);
	case RT_STEP_HALF:
		return rt__plan_name(l->plan, "half circle at %s", s->name);
	default:
		return rt__plan_name(l->plan, "circle at %s", s->name);
	}
}

/* The acts of a station, each noting where it ends. */
static void lay_acts(struct laying *l, const struct rt__station *s)
{
	struct rt_pose pose = s->entry;
	struct rt__move move;

	for (size_t a = s->act; a < s->act + s->acts; a++) {
		struct rt__act *act = &l->plan->act.at[a];

		for (size_t k = 0; rt__act_move(l->plan, act, k, &move); k++) {
			struct rt__arc arc = rt__arc_from(&pose, &move);

			if (move.radius > 0.0)
				add_arc(l, &arc, act_name(l, s, &act->step, k), s->peg);
			else
				add_piece(l, &pose, move.straight_m, 0.0);
			pose = arc.finish;
		}
		act->end_m = l->end_m;
	}
}

/* A station that is not passed through: its turn or its acts. */
static void lay_station(struct laying *l, struct rt__station *s)
{
	s->s_m = l->end_m;
	if (s->way == RT__TURN && !s->blamed) {
		add_arc(l, &s->turn, rt__turn_name(l->plan, s), s->peg);
		s->s_m += rt__arc_length(&s->turn) / 2.0;
	}
	for (size_t a = s->act; a < s->act + s->acts; a++)
		l->plan->act.at[a].end_m = s->s_m;
	if (s->way != RT__TURN)
		lay_acts(l, s);
}

/* The way from a station to the next. */
static void lay_leg(struct laying *l, const struct rt__station *a)
{
	const struct rt__station *b = &l->plan->station.at[a->next];
	const struct rt__join *join = &a->join;
	double before = rt__tangent(a);
	struct rt_pose from = join->first.finish;

	if (a->broken) {
		l->out->whole = false;
		return;
	}
	add_arc(l, &join->first, rt__leave_name(l->plan, a), a->peg);
	from.at = rt__go(from.at, from.toward, before);
	add_piece(l, &from, join->straight_m - before - rt__tangent(b), 0.0);
	add_arc(l, &join->second, rt__arrive_name(l->plan, b), b->peg);
}

/* ---- stations that are passed through -------------------------------------------------------- */

/* How far along a piece its point nearest to `at` lies, and how far off that is. */
static double nearest_on(const struct rt_piece *piece, struct rt_vec at, double *off)
{
	struct rt_vec u = piece->begin.toward, from = piece->begin.at;
	double k = piece->curvature_per_m, s;

	if (k == 0.0) {
		s = (at.x - from.x) * u.x + (at.y - from.y) * u.y;
	} else {
		struct rt_vec centre = rt__go(from, rt__left(u), 1.0 / k);

		s = rt__angle_to(rt__from_to(centre, from), rt__from_to(centre, at)) / k;
	}
	s = fmax(0.0, fmin(piece->length_m, s));
	*off = rt__distance(at, rt_piece_at(piece, s).at);
	return s;
}

/* Pieces from `first` up to `end`, the first of which begins at begin_m. */
struct stretch {
	size_t first, end;
	double begin_m;
};

/* Where along the path a stretch of it passes `at` most nearly. */
static double passed_at(const struct laying *l, const struct stretch *stretch, struct rt_vec at)
{
	double best_off = INFINITY, best = stretch->begin_m, s_m = stretch->begin_m;

	for (size_t i = stretch->first; i < stretch->end; i++) {
		const struct rt_piece *piece = &l->out->path.at[i];
		double off, s = nearest_on(piece, at, &off);

		if (off < best_off - RT__NO_LENGTH) {
			best_off = off;
			best = s_m + s;
		}
		s_m += piece->length_m;
	}
	return best;
}

/* The stations between a and the next, which the stretch passes. */
static void settle_passed(struct laying *l, size_t a, const struct stretch *stretch)
{
	struct rt__station *s = l->plan->station.at;

	for (size_t i = a + 1; i < s[a].next; i++) {
		s[i].s_m = passed_at(l, stretch, s[i].at);
		for (size_t k = s[i].act; k < s[i].act + s[i].acts; k++)
			l->plan->act.at[k].end_m = s[i].s_m;
	}
}

void rt__route_layout(struct rt_route *out, struct rt__plan *p)
{
	struct laying l = {out, p, 0.0};
	struct rt__station *s = p->station.at;
	struct stretch stretch = {0};

	out->whole = true;
	for (size_t i = 0; i < p->station.n; i++) {
		const struct stretch here = {.first = out->path.n, .begin_m = l.end_m};

		if (s[i].way == RT__PASS)
			continue;
		if (i > 0 && s[i].fresh)
			out->whole = false;
		lay_station(&l, &s[i]);
		/* The arc of a turn is part of both its ways. */
		stretch.end = s[i].way == RT__TURN ? out->path.n : here.first;
		if (s[i].before != RT__NONE)
			settle_passed(&l, s[i].before, &stretch);
		stretch = s[i].way == RT__TURN
				  ? here
				  : (struct stretch){.first = out->path.n, .begin_m = l.end_m};
		if (s[i].next != RT__NONE)
			lay_leg(&l, &s[i]);
	}
}
