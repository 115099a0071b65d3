/* What a mistake that is not found does to the pegs.
 *
 * Internal reliability is the smallest mistake of a reading that the test of its w finds four
 * times in five; external reliability is what that mistake, unfound, does to the coordinates:
 * Q A' P e times it (W. Baarda, A testing procedure for use in geodetic networks, 1968).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define NO_EFFECT 1e-9 /* rounding: metres a metre of a reading that does nothing to a peg */

double *rt__carried(struct rt_arena **room, const struct rt_ring_check *check)
{
	size_t n = 2 * check->pegs;
	const double *c = check->adjustment.covariance_m2;
	double *out = rt_arena_take(room, n * n * sizeof *out);

	for (size_t i = 0; out && i < n; i++) {
		for (size_t j = 0; j < n; j++) {
			double row = check->offset_row[i * n + j];

			for (size_t k = 0; row != 0 && k < n; k++)
				out[i * n + k] += row * c[j * n + k];
		}
	}
	return out;
}

/* How much each offset moves (2 numbers a peg) when a reading moves the coordinates so. */
static void offsets_by(const struct rt_ring_check *check, const double *influence, double *shift)
{
	size_t n = 2 * check->pegs;

	for (size_t i = 0; i < n; i++) {
		shift[i] = 0;
		for (size_t k = 0; k < n; k++)
			shift[i] += check->offset_row[i * n + k] * influence[k];
	}
}

/* What reading i hides, from the shift of the offsets by a unit more in it. */
static void put_hidden(struct rt_ring_check *check, size_t i, const double *shift)
{
	const struct rt_adjusted_reading *r = &check->adjustment.reading[i];
	double mistake = isnan(r->hidden_m) ? INFINITY : r->hidden_m;
	struct rt_hidden *worst = &check->hidden[i];

	worst->shift_m = 0;
	for (size_t p = 0; p < check->pegs; p++) {
		double much = hypot(shift[2 * p], shift[2 * p + 1]);

		if (much < NO_EFFECT)
			continue;
		much *= mistake;
		if (much > worst->shift_m)
			*worst = (struct rt_hidden){.peg = p, .shift_m = much};
		if (much > check->peg[p].hidden_shift_m) {
			check->peg[p].hidden_shift_m = much;
			check->peg[p].hidden_by = r->reading;
		}
	}
}

enum rt_err rt__find_hidden(struct rt_ring_check *check, struct rt_error *err)
{
	const struct rt_adjustment *a = &check->adjustment;
	size_t n = 2 * check->pegs;
	struct rt_arena *room = NULL;
	double *shift = rt_arena_take(&room, n * sizeof *shift);

	check->hidden = rt_arena_take(&check->text, a->readings * sizeof *check->hidden);
	if (!shift || !check->hidden) {
		rt_arena_free(room);
		return rt_fail_nomem(err);
	}
	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].verdict == RT_READING_BLUNDER) {
			check->hidden[i].shift_m = NAN;
			continue;
		}
		offsets_by(check, a->influence + i * n, shift);
		put_hidden(check, i, shift);
	}
	rt_arena_free(room);
	return RT_OK;
}
