/* Cones on the arcs of turns and routes, each found by two tapes from letters.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define SAME_M	    0.01 /* cones, and ends of arcs, so near each other are one */
#define AT_LETTER_M 0.005
#define BESIDE_M    0.25 /* a cone nearer to the line of its letters has a mirror too near */
#define OUTSIDE_M   0.1	 /* a crossing so far past the boards is outside the ring */
/* A tape is out by 0.010 m and 0.0002 of its length (as a reading that tells no sigma). */
#define TAPE_M	      0.010
#define TAPE_PER_M    0.0002
#define QUARTERED_DEG 179.9 /* half circles and more have a cone every quarter */

struct laying {
	struct rt_cones *out;
	const struct rt_ring_kind *kind;
	struct rt_pegs pegs;
	double half_width, half_length;
	bool nomem;
};

/* ---- where cones stand ----------------------------------------------------------------------- */

static bool same(struct rt_vec a, struct rt_vec b)
{
	return rt__distance(a, b) <= SAME_M;
}

static struct rt_vec piece_point(const struct rt_piece *piece, double part)
{
	return rt_piece_at(piece, part * piece->length_m).at;
}

/* Whether the arc is there already, driven in either direction. */
static bool is_known(const struct rt_path *arcs, const struct rt_piece *arc)
{
	struct rt_vec begin = piece_point(arc, 0.0), finish = piece_point(arc, 1.0);

	for (size_t i = 0; i < arcs->n; i++) {
		struct rt_vec b = piece_point(&arcs->at[i], 0.0);
		struct rt_vec f = piece_point(&arcs->at[i], 1.0);

		if (same(piece_point(arc, 0.5), piece_point(&arcs->at[i], 0.5)) &&
		    ((same(b, begin) && same(f, finish)) || (same(b, finish) && same(f, begin))))
			return true;
	}
	return false;
}

/* "corner HC left, middle", after what the cone is of already. */
static void add_where(struct laying *l, struct rt_cone *cone, const struct rt_turn *arc,
		      const char *part)
{
	cone->where = rt_arena_textf(&l->out->list.text, "%s%s%s %s, %s",
				     cone->where ? cone->where : "", cone->where ? "; " : "",
				     arc->turn, rt_side_words(arc->hand), part);
	l->nomem = l->nomem || !cone->where;
}

static void add_cone(struct laying *l, const struct rt_turn *arc, struct rt_vec at,
		     const char *words)
{
	struct rt_cone *cone;

	for (size_t i = 0; i < l->out->list.n; i++) {
		cone = &l->out->list.at[i];
		if (same(at, (struct rt_vec){cone->x_m, cone->y_m})) {
			add_where(l, cone, arc, words);
			return;
		}
	}
	cone = RT_LIST_ADD(&l->out->list);
	l->nomem = l->nomem || !cone;
	if (!cone)
		return;
	*cone = (struct rt_cone){.number = (int)l->out->list.n, .x_m = at.x, .y_m = at.y};
	add_where(l, cone, arc, words);
}

static void add_arc(struct laying *l, const struct rt_turn *arc)
{
	bool quartered = arc->angle_deg >= QUARTERED_DEG;
	bool whole = arc->angle_deg >= 2.0 * QUARTERED_DEG;
	const struct rt_piece piece = rt_turn_piece(arc);

	if (l->nomem || is_known(&l->out->arcs, &piece))
		return;
	if (!rt__path_add(&l->out->arcs, &piece.begin, piece.length_m, piece.curvature_per_m)) {
		l->nomem = true;
		return;
	}
	add_cone(l, arc, piece_point(&piece, 0.0), whole ? "begin and finish" : "begin");
	if (quartered)
		add_cone(l, arc, piece_point(&piece, 0.25), "first quarter");
	add_cone(l, arc, piece_point(&piece, 0.5), "middle");
	if (quartered)
		add_cone(l, arc, piece_point(&piece, 0.75), "last quarter");
	if (!whole)
		add_cone(l, arc, piece_point(&piece, 1.0), "finish");
}

/* ---- the two tapes --------------------------------------------------------------------------- */

static bool is_letter(const struct rt_peg *peg)
{
	return !peg->corner && peg->side != RT_CENTRE;
}

/* How far out two tapes may put a cone: their errors over the sine of the angle between them;
 * infinite where they cannot be used. */
static double tapes_error(const struct laying *l, struct rt_vec at, const struct rt_peg *a,
			  const struct rt_peg *b)
{
	struct rt_vec p = rt__peg_point(a), q = rt__peg_point(b);
	double d = rt__distance(p, at), e = rt__distance(q, at);
	double area = fabs((p.x - at.x) * (q.y - at.y) - (p.y - at.y) * (q.x - at.x));

	if (d > l->out->tape_m || e > l->out->tape_m || area <= BESIDE_M * rt__distance(p, q))
		return INFINITY;
	return hypot(TAPE_M + TAPE_PER_M * d, TAPE_M + TAPE_PER_M * e) * d * e / area;
}

/* The letter of the boards, or the corner, that stands farthest to one side of the line of two
 * pegs; NULL: none stands there. */
static const struct rt_peg *far_peg(const struct laying *l, bool corner, struct rt_vec p,
				    struct rt_vec q, double side)
{
	const struct rt_peg *far = NULL;
	double most = 0.0;

	for (size_t i = 0; i < l->pegs.n; i++) {
		struct rt_vec at = rt__peg_point(&l->pegs.at[i]);
		double off = (q.x - p.x) * (at.y - p.y) - (q.y - p.y) * (at.x - p.x);

		if ((corner ? l->pegs.at[i].corner : is_letter(&l->pegs.at[i])) &&
		    off * side > most + RT__EQUAL_M) {
			most = off * side;
			far = &l->pegs.at[i];
		}
	}
	return far;
}

/* On which of the two crossings of the tapes the cone stands. */
static const char *side_words(struct laying *l, struct rt_vec at, const struct rt_peg *a,
			      const struct rt_peg *b)
{
	struct rt_vec p = rt__peg_point(a), q = rt__peg_point(b), along = rt__toward(p, q);
	double off = along.x * (at.y - p.y) - along.y * (at.x - p.x);
	double x = at.x + 2.0 * off * along.y, y = at.y - 2.0 * off * along.x;
	const struct rt_peg *far;

	if (fabs(x) > l->half_width + OUTSIDE_M || fabs(y) > l->half_length + OUTSIDE_M)
		return "inside the ring";
	far = far_peg(l, false, p, q, copysign(1.0, off));
	if (!far) /* across a corner there is no letter */
		far = far_peg(l, true, p, q, copysign(1.0, off));
	return rt_arena_textf(&l->out->list.text, "on the side of %s%s",
			      far && far->corner ? "the corner " : "", far ? far->name : "X");
}

static void set_tapes(struct laying *l, struct rt_cone *cone, const struct rt_peg *a,
		      const struct rt_peg *b)
{
	const struct rt_peg *peg[] = {a, b};
	struct rt_vec at = {cone->x_m, cone->y_m};

	for (int i = 0; i < 2; i++) {
		cone->tape[i].letter = peg[i]->name;
		cone->tape[i].distance_m = rt__distance(rt__peg_point(peg[i]), at);
		rt__add_unconfirmed(l->out->unconfirmed, l->kind, peg[i]);
	}
}

/* The two tapes that place a cone best; false where none of those reach it. */
static bool best_tapes(struct laying *l, struct rt_cone *cone, bool corners)
{
	struct rt_vec at = {cone->x_m, cone->y_m};
	const struct rt_peg *first = NULL, *second = NULL;

	cone->error_m = INFINITY;
	for (size_t i = 0; i < l->pegs.n; i++)
		for (size_t k = i + 1; k < l->pegs.n; k++) {
			const struct rt_peg *a = &l->pegs.at[i], *b = &l->pegs.at[k];
			double error;

			if ((!is_letter(a) && !(corners && a->corner)) ||
			    (!is_letter(b) && !(corners && b->corner)))
				continue;
			error = tapes_error(l, at, a, b);
			if (error < cone->error_m - 1e-9) {
				cone->error_m = error;
				first = a;
				second = b;
			}
		}
	if (!first)
		return false;
	set_tapes(l, cone, first, second);
	cone->side = side_words(l, at, first, second);
	l->nomem = l->nomem || !cone->side;
	return true;
}

/* A cone at a letter needs no tape: told from that letter, and from the nearest other one. */
static bool at_letter(struct laying *l, struct rt_cone *cone)
{
	struct rt_vec at = {cone->x_m, cone->y_m};
	const struct rt_peg *here = NULL, *near = NULL;
	double least = INFINITY;

	for (size_t i = 0; i < l->pegs.n; i++) {
		const struct rt_peg *peg = &l->pegs.at[i];
		double far = rt__distance(rt__peg_point(peg), at);

		if (is_letter(peg) && far <= AT_LETTER_M) {
			here = peg;
		} else if (is_letter(peg) && far < least) {
			least = far;
			near = peg;
		}
	}
	if (!here || !near)
		return false;
	set_tapes(l, cone, here, near);
	cone->tape[0].distance_m = 0.0;
	cone->side = "at the letter";
	cone->error_m = 0.0;
	return true;
}

/* ---- the whole ------------------------------------------------------------------------------- */

static void set_all_tapes(struct laying *l)
{
	for (size_t i = 0; i < l->out->list.n && !l->nomem; i++) {
		struct rt_cone *cone = &l->out->list.at[i];

		if (!at_letter(l, cone) && !best_tapes(l, cone, false) &&
		    !best_tapes(l, cone, true)) {
			cone->error_m = cone->tape[0].distance_m = cone->tape[1].distance_m = NAN;
			l->out->unreached++;
		}
	}
}

enum rt_err rt_cones_make(struct rt_cones *out, const struct rt_turn_list *turns,
			  const struct rt_ring_kind *kind, double tape_m, struct rt_error *err)
{
	struct laying l = {.out = out,
			   .kind = kind,
			   .half_width = kind->width_m / 2.0,
			   .half_length = kind->length_m / 2.0};
	enum rt_err e;

	if (!(tape_m > 0.0))
		return rt_fail(err, RT_E_USAGE, "a tape of no length");
	out->kind = kind->name;
	out->tape_m = tape_m;
	e = rt_ring_pegs(&l.pegs, kind, err);
	for (size_t i = 0; i < turns->n && !e; i++)
		if (turns->at[i].fits)
			add_arc(&l, &turns->at[i]);
	set_all_tapes(&l);
	rt_pegs_free(&l.pegs);
	return l.nomem ? rt_fail_nomem(err) : e;
}

void rt_cones_free(struct rt_cones *cones)
{
	rt_path_free(&cones->arcs);
	RT_LIST_FREE(&cones->list);
	memset(cones, 0, sizeof *cones);
}

/* ---- report ---------------------------------------------------------------------------------- */

#define CONE(member) RT_AT(struct rt_cone, member)

static const struct rt_field fields[] = {
	{"cone", CONE(number), .type = RT_SMALL},
	{"where", CONE(where)},
	{"letter_1", .head = "from", CONE(tape[0].letter)},
	{"distance_1_m", .head = "tape", CONE(tape[0].distance_m), RT_METRES(2)},
	{"letter_2", .head = "from", CONE(tape[1].letter)},
	{"distance_2_m", .head = "tape", CONE(tape[1].distance_m), RT_METRES(2)},
	{"side", .head = "which crossing", CONE(side)},
	{"x_m", .head = "x", CONE(x_m), RT_METRES(2), .wide = true},
	{"y_m", .head = "y", CONE(y_m), RT_METRES(2), .wide = true},
	{"error_m", .head = "out by", CONE(error_m), RT_METRES(3), .wide = true},
};

const struct rt_record rt__cone_table = RT_TABLE("cones", "Cones", fields, struct rt_cone);

enum rt_err rt_cones_report(struct rt_report *r, const struct rt_cones *cones, struct rt_error *err)
{
	rt_report_list(r, &rt__cone_table, cones->list.at, cones->list.n);
	if (cones->unreached)
		rt_report_note(r, "Cones without distances: no two letters whose tapes reach them. "
				  "Take a longer tape.");
	rt__note_unconfirmed(r, cones->unconfirmed);
	r->needs_person = r->needs_person || cones->unreached > 0;
	return rt_report_result(r, err);
}
