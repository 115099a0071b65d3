/* The track inside the boards, and the points of it that face the letters.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Move a peg to the track; false when it faces no point of it. */
static bool move_in(struct rt_peg *peg, double half_width, double half_length)
{
	if (peg->side == RT_CENTRE)
		return true;
	if (!peg->corner) {
		bool along = peg->side == RT_LEFT || peg->side == RT_RIGHT;

		if (along ? fabs(peg->y_m) >= half_length : fabs(peg->x_m) >= half_width)
			return false;
	}
	peg->x_m = fmax(-half_width, fmin(half_width, peg->x_m));
	peg->y_m = fmax(-half_length, fmin(half_length, peg->y_m));
	return true;
}

enum rt_err rt__track_make(struct rt__track *out, const struct rt_ring_kind *kind, double inset_m,
			   struct rt_error *err)
{
	enum rt_err e = rt_ring_pegs(&out->pegs, kind, err);
	size_t kept = 0;

	if (e)
		return e;
	out->half_width = kind->width_m / 2.0 - inset_m;
	out->half_length = kind->length_m / 2.0 - inset_m;
	out->quarter = kind->width_m / 4.0;
	for (size_t i = 0; i < out->pegs.n; i++) {
		struct rt_peg peg = out->pegs.at[i];

		if (move_in(&peg, out->half_width, out->half_length))
			out->pegs.at[kept++] = peg;
	}
	out->pegs.n = kept;
	return RT_OK;
}

void rt__track_free(struct rt__track *track)
{
	rt_pegs_free(&track->pegs);
}

struct rt_vec rt__peg_point(const struct rt_peg *peg)
{
	return (struct rt_vec){peg->x_m, peg->y_m};
}

const struct rt_peg *rt__track_peg(const struct rt__track *track, enum rt_side side,
				   struct rt_vec at)
{
	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];

		if (peg->side == side && rt__distance(rt__peg_point(peg), at) <= RT__EQUAL_M)
			return peg;
	}
	return NULL;
}

void rt__add_unconfirmed(char letters[RT_UNCONFIRMED_SIZE], const struct rt_ring_kind *kind,
			 const struct rt_peg *peg)
{
	size_t n = strlen(letters);

	if (rt_peg_unconfirmed(kind, peg) && !strstr(letters, peg->name))
		snprintf(letters + n, RT_UNCONFIRMED_SIZE - n, "%s%s", n ? " " : "", peg->name);
}

const char *rt__track_corner(const struct rt__track *track, int x, int y)
{
	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];

		if (peg->corner && peg->x_m * x > 0.0 && peg->y_m * y > 0.0)
			return peg->name;
	}
	return NULL;
}
