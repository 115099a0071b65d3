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

/* ---- pegs that rest on one reading ---- */

/* The mistake in reading i that brings a peg so far off nearest to its place, of those that the
 * other readings allow: they say that the reading is -v / r too long, give or take sigma / sqrt(r).
 */
static double likely_mistake(const struct rt_adjustment *a, size_t i, double sure,
			     const double shift[2], const double off[2])
{
	const struct rt_adjusted_reading *r = &a->reading[i];
	double square = shift[0] * shift[0] + shift[1] * shift[1];
	double mistake = (off[0] * shift[0] + off[1] * shift[1]) / square;
	double said, error;

	if (!(square > NO_EFFECT * NO_EFFECT))
		return 0;
	if (!(r->redundancy > 0))
		return mistake;
	said = -r->residual_m / r->redundancy;
	error = sure * fmax(1, a->sigma0) * r->sigma_m / sqrt(r->redundancy);
	return fmin(fmax(mistake, said - error), said + error);
}

static bool is_unchecked(const struct rt_adjusted_reading *r)
{
	return r->verdict == RT_READING_UNCHECKED;
}

/* Does a receiver's fix go on with reading i + 1?  Then a mistake is one in both. */
static bool goes_on(const struct rt_adjustment *a, size_t i)
{
	return i + 1 < a->readings &&
	       rt__one_fix(a->reading[i].reading, a->reading[i + 1].reading) &&
	       is_unchecked(&a->reading[i + 1]);
}

static bool is_off(const struct rt_checked_peg *peg, double off_m, double tolerance_m, double sure)
{
	return off_m - tolerance_m > sure * peg->se_m;
}

/* Would a mistake in reading i (and in the next one, where `both`) make peg p good, and no other
 * peg off?  shift: of the offsets by a unit more in each. */
static bool explains(const struct rt_ring_check *check, size_t i, bool both, double sure,
		     const double *shift, size_t p)
{
	size_t n = 2 * check->pegs;
	double off[2] = {check->peg[p].dx_m, check->peg[p].dy_m}, mistake[2] = {0, 0};

	for (size_t k = 0; k < (both ? 2 : 1); k++) {
		const double *by = shift + k * n + 2 * p;

		mistake[k] = likely_mistake(&check->adjustment, i + k, sure, by, off);
		off[0] -= by[0] * mistake[k];
		off[1] -= by[1] * mistake[k];
	}
	for (size_t q = 0; q < check->pegs; q++) {
		const struct rt_checked_peg *peg = &check->peg[q];
		const double *x = shift + 2 * q, *y = x + n;
		double now = hypot(peg->dx_m - x[0] * mistake[0] - y[0] * mistake[1],
				   peg->dy_m - x[1] * mistake[0] - y[1] * mistake[1]);

		if (is_off(peg, now, check->tolerance_m, sure) &&
		    (q == p || !is_off(peg, peg->off_m, check->tolerance_m, sure)))
			return false;
	}
	return true;
}

enum rt_err rt__find_rests(struct rt_ring_check *check, double sure, struct rt_error *err)
{
	const struct rt_adjustment *a = &check->adjustment;
	size_t n = 2 * check->pegs;
	struct rt_arena *room = NULL;
	double *shift = rt_arena_take(&room, 2 * n * sizeof *shift);

	if (!shift) {
		rt_arena_free(room);
		return rt_fail_nomem(err);
	}
	/* without any check all rests on single readings, and that is told of the whole */
	for (size_t i = 0; a->test != RT_SIGMA_UNTESTED && i < a->readings; i++) {
		bool both = goes_on(a, i);

		if (!is_unchecked(&a->reading[i]))
			continue;
		offsets_by(check, a->influence + i * n, shift);
		if (both)
			offsets_by(check, a->influence + (i + 1) * n, shift + n);
		for (size_t p = 0; p < check->pegs; p++) {
			struct rt_checked_peg *peg = &check->peg[p];

			if (!peg->rests_on && is_off(peg, peg->off_m, check->tolerance_m, sure) &&
			    explains(check, i, both, sure, shift, p))
				peg->rests_on = a->reading[i].reading;
		}
	}
	rt_arena_free(room);
	return RT_OK;
}

/* ---- what hides ---- */

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
