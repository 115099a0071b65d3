/* The verdict on every peg and on the whole, and the moves by the letters.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define SURE	      2.0 /* standard errors */
#define SURE_IN_WORSE 7.0
#define PART_LEAST_M  0.02 /* a smaller part of a larger move is left unsaid: a peg's width */

/* ---- verdicts ---- */

/* Where all readings are worse than their sigma, standard errors scaled by sigma0 hold only if all
 * are equally bad.  A few wrong ones among good ones bend a peg by up to six of them (400 rings
 * simulated with four mistakes of 0.1 to 0.6 m); a peg half a metre off stands out by more than
 * eight in readings three times as bad as their sigma. */
static double sure_over(const struct rt_adjustment *a)
{
	return a->end == RT_SEARCH_WORSE ? SURE_IN_WORSE : SURE;
}

/* Do two readings set aside, and more than half of all, touch this peg?  Then it is as likely
 * that the kept readings of it are the wrong ones. */
static bool mostly_set_aside(const struct rt_adjustment *a, const char *peg)
{
	size_t touching = 0;

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];

		touching += x->verdict == RT_READING_BLUNDER && rt__reading_names(x->reading, peg);
	}
	return touching >= 2 && 2 * touching > a->blunders;
}

static void put_verdict(struct rt_checked_peg *p, const struct rt_ring_check *check)
{
	const struct rt_adjustment *a = &check->adjustment;
	double over = p->off_m - check->tolerance_m;

	p->verdict = RT_PEG_UNSURE;
	if (over > sure_over(a) * p->se_m)
		p->verdict = RT_PEG_MOVE;
	else if (over < -SURE * p->se_m)
		p->verdict = RT_PEG_GOOD;
	p->retape = over > 0 && mostly_set_aside(a, p->peg.name);
	if (p->verdict == RT_PEG_MOVE && (p->retape || p->rests_on || rt__in_doubt(a)))
		p->verdict = RT_PEG_UNSURE;
}

/* Probabilities hold while the readings err as their sigma says; where they contradict each other
 * nothing can be said. */
static void put_probability(struct rt_ring_check *check, struct rt_checked_peg *p)
{
	const double off[2] = {p->dx_m, p->dy_m};
	const double covariance[3] = {p->cov_xx_m2, p->cov_xy_m2, p->cov_yy_m2};

	p->p_off = p->p_wrong = NAN;
	if (check->adjustment.end != RT_SEARCH_CLEAR)
		return;
	p->p_off = 1 - rt_within(off, covariance, check->tolerance_m);
	if (p->verdict == RT_PEG_UNSURE)
		return;
	p->p_wrong = p->verdict == RT_PEG_GOOD ? p->p_off : 1 - p->p_off;
	check->p_any_wrong = fmin(1, check->p_any_wrong + p->p_wrong);
}

static enum rt_ring_verdict whole_verdict(const struct rt_ring_check *check)
{
	const struct rt_adjustment *a = &check->adjustment;

	if (rt__in_doubt(a))
		return RT_RING_DOUBT;
	if (a->test == RT_SIGMA_UNTESTED)
		return RT_RING_UNSURE;
	if (check->to_move)
		return RT_RING_MOVE;
	if (check->unsure)
		return RT_RING_UNSURE;
	return a->end == RT_SEARCH_WORSE ? RT_RING_DOUBT : RT_RING_TRUE;
}

/* ---- moves ---- */

/* Where to move by `by` along an axis, in words: towards a peg on that line, or away from one;
 * across a side in or out.  NULL: out of memory. */
static const char *direction(struct rt_ring_check *check, const struct rt_pegs *pegs,
			     const struct rt_peg *peg, bool along_y, double by)
{
	bool across_y = peg->side == RT_SIDE_A || peg->side == RT_SIDE_C;
	bool middle = peg->corner || peg->side == RT_CENTRE;
	double side = along_y ? peg->y_m : peg->x_m;
	const struct rt_peg *ahead, *behind;
	int sign = by > 0 ? 1 : -1;

	if (!middle && along_y == across_y)
		return by * side > 0 ? "out" : "in";
	ahead = rt__peg_towards(pegs, peg, along_y, sign);
	behind = rt__peg_towards(pegs, peg, along_y, -sign);
	if (ahead)
		return rt_arena_textf(&check->text, "towards %s", ahead->name);
	if (behind)
		return rt_arena_textf(&check->text, "away from %s", behind->name);
	if (along_y)
		return by > 0 ? "towards the C end" : "towards the A end";
	return by > 0 ? "to the right, seen from A" : "to the left, seen from A";
}

/* Along the side first. */
static enum rt_err put_moves(struct rt_ring_check *check, const struct rt_pegs *pegs,
			     struct rt_checked_peg *p, struct rt_error *err)
{
	bool first_y = p->peg.side != RT_SIDE_A && p->peg.side != RT_SIDE_C;
	double by[2] = {-p->dx_m, -p->dy_m};
	double larger = fmax(fabs(by[0]), fabs(by[1]));

	for (int part = 0; part < 2; part++) {
		bool along_y = (part == 0) == first_y;
		double much = fabs(by[along_y]);
		struct rt_move *move = &p->move[p->moves];

		if (much < RT_MOVE_LEAST_M || much < fmin(PART_LEAST_M, larger))
			continue;
		move->by_m = much;
		move->where = direction(check, pegs, &p->peg, along_y, by[along_y]);
		if (!move->where)
			return rt_fail_nomem(err);
		p->moves++;
	}
	return RT_OK;
}

void rt_peg_move_words(const struct rt_checked_peg *peg, bool feet, char *out, size_t size)
{
	snprintf(out, size, "%s", peg->moves && peg->verdict == RT_PEG_UNSURE ? "perhaps " : "");
	for (size_t i = 0; i < peg->moves; i++)
		rt_append(out, size, "%s%s %s", i ? " and " : "",
			  rt_show_length(peg->move[i].by_m, 2, 2, feet).text, peg->move[i].where);
}

enum rt_err rt__judge(struct rt_ring_check *check, const struct rt_pegs *pegs, struct rt_error *err)
{
	enum rt_err e = rt__find_rests(check, sure_over(&check->adjustment), err);

	check->p_any_wrong = check->adjustment.end == RT_SEARCH_CLEAR ? 0 : NAN;
	for (size_t i = 0; !e && i < check->pegs; i++) {
		struct rt_checked_peg *p = &check->peg[i];

		put_verdict(p, check);
		put_probability(check, p);
		check->to_move += p->verdict == RT_PEG_MOVE;
		check->unsure += p->verdict == RT_PEG_UNSURE;
		if (p->verdict != RT_PEG_GOOD && !rt__in_doubt(&check->adjustment))
			e = put_moves(check, pegs, p, err);
	}
	check->verdict = whole_verdict(check);
	return e;
}
