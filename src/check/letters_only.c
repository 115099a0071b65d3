/* What becomes of the letters when they alone are set anew and the corners stay.
 *
 * A letter at o of a side of length l, set by its running distance from the corner P on the line
 * to the corner Q, goes along the side with P and across it by (1 - o/l) of P's offset and o/l of
 * Q's.  So its offset is two rows over the offsets of the four corners.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define CORNERS 4
#define WIDE	(2 * CORNERS)

enum corner { AK, HC, CM, FA }; /* as in rt__corner */

/* How an offset's x and y follow from the corners'. */
struct follows {
	double by[2][WIDE];
};

struct corners {
	const struct rt_ring_check *check;
	const struct rt_checked_peg *peg[CORNERS]; /* NULL: not measured */
	double covariance[WIDE][WIDE];
};

static struct follows of_corner(enum corner c)
{
	struct follows f = {0};

	f.by[0][2 * c] = 1;
	f.by[1][2 * c + 1] = 1;
	return f;
}

/* A point at this part of the way from p to q; its running distance counts from p. */
static struct follows on_line(const struct follows *p, const struct follows *q, bool along_y,
			      double part)
{
	struct follows f;

	for (int i = 0; i < WIDE; i++) {
		f.by[along_y][i] = p->by[along_y][i];
		f.by[!along_y][i] = (1 - part) * p->by[!along_y][i] + part * q->by[!along_y][i];
	}
	return f;
}

static struct follows on_side(const struct rt_ring_kind *kind, enum corner from, enum corner to,
			      const struct rt_peg *peg)
{
	bool along_y = peg->side == RT_LEFT || peg->side == RT_RIGHT;
	struct follows p = of_corner(from), q = of_corner(to);

	return on_line(&p, &q, along_y, peg->along_m / (along_y ? kind->length_m : kind->width_m));
}

static struct follows on_centreline(const struct rt_ring_kind *kind, const struct rt_peg *peg)
{
	struct follows ak = of_corner(AK), fa = of_corner(FA), hc = of_corner(HC),
		       cm = of_corner(CM);
	struct follows a = on_line(&ak, &fa, false, 0.5), c = on_line(&hc, &cm, false, 0.5);

	return on_line(&a, &c, true, peg->along_m / kind->length_m);
}

/* The letter's rows; false where a corner it needs was not measured. */
static bool follow(const struct corners *c, const struct rt_peg *peg, struct follows *out)
{
	static const enum corner ends[][2] = {
		[RT_LEFT] = {AK, HC},
		[RT_RIGHT] = {FA, CM},
		[RT_SIDE_A] = {AK, FA},
		[RT_SIDE_C] = {HC, CM},
	};
	const struct rt_ring_kind *kind = c->check->kind;
	const enum corner *end;

	if (peg->side == RT_CENTRE) {
		*out = on_centreline(kind, peg);
		return c->peg[AK] && c->peg[HC] && c->peg[CM] && c->peg[FA];
	}
	end = ends[peg->side];
	*out = on_side(kind, end[0], end[1], peg);
	return c->peg[end[0]] && c->peg[end[1]];
}

static void find_corners(struct corners *c)
{
	const struct rt_ring_check *check = c->check;
	double factor = fmax(1, check->adjustment.sigma0);
	const double *row[WIDE] = {NULL};
	size_t n = 2 * check->pegs;

	for (size_t k = 0; k < CORNERS; k++) {
		const struct rt_checked_peg *peg = rt__checked_peg(check, rt__corner[k]);

		c->peg[k] = peg;
		for (size_t axis = 0; peg && axis < 2; axis++)
			row[2 * k + axis] = check->offset_row +
					    (2 * (size_t)(peg - check->peg) + axis) * n;
	}
	for (size_t i = 0; i < WIDE; i++) {
		for (size_t k = 0; k < WIDE; k++) {
			if (row[i] && row[k])
				c->covariance[i][k] = factor * factor *
						      rt__quadratic(check->adjustment.covariance_m2,
								    row[i], row[k], n);
		}
	}
}

static struct rt_letter_only judge(const struct corners *c, const struct rt_peg *peg,
				   const struct follows *f)
{
	struct rt_letter_only out = {.peg = *peg, .now_m = NAN};
	const double *c8 = c->covariance[0], *x = f->by[0], *y = f->by[1];
	const struct rt_checked_peg *now = rt__checked_peg(c->check, peg->name);
	double d[WIDE] = {0};

	for (size_t i = 0; i < CORNERS; i++) {
		d[2 * i] = c->peg[i] ? c->peg[i]->dx_m : 0;
		d[2 * i + 1] = c->peg[i] ? c->peg[i]->dy_m : 0;
	}
	for (size_t i = 0; i < WIDE; i++) {
		out.dx_m += f->by[0][i] * d[i];
		out.dy_m += f->by[1][i] * d[i];
	}
	out.off_m = hypot(out.dx_m, out.dy_m);
	out.se_m = rt__worst_error(rt__quadratic(c8, x, x, WIDE), rt__quadratic(c8, x, y, WIDE),
				   rt__quadratic(c8, y, y, WIDE));
	out.verdict = rt__shape_verdict(c->check, out.off_m - c->check->tolerance_m, out.se_m);
	if (now)
		out.now_m = now->off_m;
	return out;
}

enum rt_err rt_letters_only(struct rt_letters_only *out, const struct rt_ring_check *check,
			    struct rt_error *err)
{
	struct corners c = {.check = check};
	struct rt_pegs pegs = {0};
	enum rt_err e = rt_ring_pegs(&pegs, check->kind, err);

	if (!e) {
		find_corners(&c);
		out->at = rt_arena_take(&out->text, pegs.n * sizeof *out->at);
		e = out->at ? RT_OK : rt_fail_nomem(err);
	}
	for (size_t i = 0; !e && i < pegs.n; i++) {
		struct follows f;

		if (!pegs.at[i].corner && follow(&c, &pegs.at[i], &f))
			out->at[out->n++] = judge(&c, &pegs.at[i], &f);
	}
	rt_pegs_free(&pegs);
	return e;
}

void rt_letters_only_free(struct rt_letters_only *letters)
{
	rt_arena_free(letters->text);
	memset(letters, 0, sizeof *letters);
}
