/* What becomes of a ring that is set out by a plan: every step done as it is told, with errors of
 * tape, sight and receiver.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

/* A distance of a tape, in parts where it is longer. */
static double tape_sigma(const struct rt_setout_plan *plan, double d)
{
	double parts = fmax(1, ceil(d / plan->options.tape_m - 1e-9));

	return sqrt(parts) * rt__tape_sigma(d / parts);
}

double rt__walk_sigma(const struct rt_setout_plan *plan, size_t step, int k)
{
	const struct rt_setout_step *s = &plan->step[step];

	switch (s->kind) {
	case RT_SETOUT_RUN:
		return k ? RT__SIGHT_SIGMA_M : tape_sigma(plan, s->from_m);
	case RT_SETOUT_CROSS:
	case RT_SETOUT_DIAGONALS:
		return tape_sigma(plan, k ? s->second_m : s->from_m);
	case RT_SETOUT_LENGTH:
		return k ? 0 : tape_sigma(plan, s->from_m);
	case RT_SETOUT_STAKE:
		return RT__RECEIVER_SIGMA_M;
	case RT_SETOUT_STAND:
	case RT_SETOUT_SIGHT:
	case RT_SETOUT_PROVE:
		break;
	}
	return 0;
}

/* From a to b: the direction, and how far. */
static double between(const double *place, size_t a, size_t b, double u[2])
{
	double x = place[2 * b] - place[2 * a], y = place[2 * b + 1] - place[2 * a + 1];
	double d = hypot(x, y);

	u[0] = x / d;
	u[1] = y / d;
	return d;
}

static void run(const struct rt_setout_step *s, const double e[2], double *place)
{
	const double *zero = place + 2 * s->from, *line = place + 2 * s->line_from;
	double u[2], along;

	between(place, s->line_from, s->line_to, u);
	along = (zero[0] - line[0]) * u[0] + (zero[1] - line[1]) * u[1] + s->from_m + e[0];
	place[2 * s->point] = line[0] + along * u[0] - e[1] * u[1];
	place[2 * s->point + 1] = line[1] + along * u[1] + e[1] * u[0];
}

static void cross(const struct rt_setout_step *s, const double e[2], double *place)
{
	double u[2], base = between(place, s->from, s->second, u);
	double a = s->from_m + e[0], b = s->second_m + e[1];
	double along = (a * a - b * b + base * base) / (2 * base);
	double across = sqrt(fmax(0, a * a - along * along));

	if (s->hand == RT_RIGHT)
		across = -across;
	place[2 * s->point] = place[2 * s->from] + along * u[0] - across * u[1];
	place[2 * s->point + 1] = place[2 * s->from + 1] + along * u[1] + across * u[0];
}

static void move(double *place, size_t point, const double u[2], double by)
{
	place[2 * point] += by * u[0];
	place[2 * point + 1] += by * u[1];
}

/* Both corners, point and other, along the side between them. */
static void true_corners(const struct rt_setout_step *s, const double e[2], double *place)
{
	double u[2], v[2], side = between(place, s->point, s->other, u), over;

	if (s->kind == RT_SETOUT_LENGTH) {
		over = side + e[0] - s->from_m;
		move(place, s->point, u, over / 2);
		move(place, s->other, u, -over / 2);
		return;
	}
	over = between(place, s->from, s->other, v) + e[0];
	over -= between(place, s->second, s->point, v) + e[1];
	over *= s->from_m / (2 * s->proof_m);
	move(place, s->point, u, -over);
	move(place, s->other, u, -over);
}

void rt__walk(const struct rt_setout_plan *plan, const double *error, double *place)
{
	static const double exact[RT__WALK_ERRORS];

	for (size_t i = 0; i < plan->points; i++) {
		place[2 * i] = plan->point[i].held ? plan->point[i].x_m : NAN;
		place[2 * i + 1] = plan->point[i].held ? plan->point[i].y_m : NAN;
	}
	for (size_t i = 0; i < plan->steps; i++) {
		const struct rt_setout_step *s = &plan->step[i];
		const double *e = error ? error + RT__WALK_ERRORS * i : exact;

		switch (s->kind) {
		case RT_SETOUT_RUN:
			run(s, e, place);
			break;
		case RT_SETOUT_CROSS:
			cross(s, e, place);
			break;
		case RT_SETOUT_LENGTH:
		case RT_SETOUT_DIAGONALS:
			true_corners(s, e, place);
			break;
		case RT_SETOUT_STAND:
		case RT_SETOUT_SIGHT:
		case RT_SETOUT_STAKE:
			place[2 * s->point] = plan->point[s->point].x_m + e[0];
			place[2 * s->point + 1] = plan->point[s->point].y_m + e[1];
			break;
		case RT_SETOUT_PROVE:
			break;
		}
	}
}

void rt__walk_off(const struct rt_setout_plan *plan, const double *should, const double *place,
		  double *off)
{
	static const char *const name[] = {"AK", "HC", "CM", "FA"};
	double p[8], q[8];
	struct rt__placement t;

	for (size_t i = 0; i < 4; i++) {
		size_t k = rt__plan_find(plan, name[i]);

		for (size_t j = 0; j < 2; j++) {
			p[2 * i + j] = should[2 * k + j];
			q[2 * i + j] = place[2 * k + j];
		}
	}
	t = rt__place(p, q, 4, NULL);
	for (size_t i = 0; i < plan->points; i++)
		rt__offset(&t, should, place, i, off + 2 * i);
}

/* The worst corner and the worst peg by their variance. */
static void tell_worst(struct rt_setout_plan *plan, const double *variance)
{
	for (size_t i = 0; i < plan->pegs.n; i++) {
		double se = sqrt(variance[i]);

		if (plan->pegs.at[i].corner && se > plan->corner_se_m)
			plan->corner_se_m = se;
		if (se <= plan->peg_se_m)
			continue;
		plan->peg_se_m = se;
		plan->worst_peg = plan->pegs.at[i].name;
	}
}

/* One error at a time, each as large as its standard error: they are independent, so squares
 * add. */
enum rt_err rt__walk_judge(struct rt_setout_plan *plan, struct rt_error *err)
{
	size_t errors = RT__WALK_ERRORS * plan->steps, places = 2 * plan->points;
	double *room = rt_arena_take(&plan->text, (errors + 4 * places) * sizeof *room);
	double *should, *place, *off, *variance;

	if (!room)
		return rt_fail_nomem(err);
	should = room + errors;
	place = should + places;
	off = place + places;
	variance = off + places;
	rt__walk(plan, NULL, should);
	for (size_t i = 0; i < errors; i++) {
		room[i] = rt__walk_sigma(plan, i / RT__WALK_ERRORS, (int)(i % RT__WALK_ERRORS));
		if (!(room[i] > 0))
			continue;
		rt__walk(plan, room, place);
		rt__walk_off(plan, should, place, off);
		for (size_t k = 0; k < plan->points; k++)
			variance[k] += off[2 * k] * off[2 * k] + off[2 * k + 1] * off[2 * k + 1];
		room[i] = 0;
	}
	tell_worst(plan, variance);
	return RT_OK;
}
