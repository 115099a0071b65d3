/* The chain of a turnout's links over one step: how each follows what is in front of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

struct rt_vec rt__turned(struct rt_vec v, struct rt_vec by)
{
	return (struct rt_vec){v.x * by.x - v.y * by.y, v.y * by.x + v.x * by.y};
}

/* u turns towards n at (v_hitch . n) / length.  The velocity of the hitch is known in the frame
 * of the link in front of it: (roll, -hitch turn), here turned into the link's own. */
static inline void move(struct rt__stage *own, const struct rt__stage *front, double hitch,
			double per_length)
{
	const double along = front->u.x * own->u.x + front->u.y * own->u.y;
	const double across = front->u.x * own->u.y - front->u.y * own->u.x;
	const double swing = hitch * front->turn;

	own->roll = front->roll * along - swing * across;
	own->turn = -(front->roll * across + swing * along) * per_length;
}

/* Take one link over a step of h from where it looks at its first stage: what it follows is known
 * at every stage. */
static struct rt_vec step_link(struct rt__stage own[RT__STAGES],
			       const struct rt__stage front[RT__STAGES], double hitch,
			       double per_length, double h)
{
	static const double on[RT__STAGES] = {0.0, 0.5, 0.5, 1.0};
	static const double weight[RT__STAGES] = {1.0 / 6.0, 2.0 / 6.0, 2.0 / 6.0, 1.0 / 6.0};
	const struct rt_vec begin = own[0].u;
	struct rt_vec rate = {0.0, 0.0}, sum = {0.0, 0.0}, end;
	double shorten;

	for (size_t i = 0; i < RT__STAGES; i++) {
		own[i].u.x = begin.x + on[i] * h * rate.x;
		own[i].u.y = begin.y + on[i] * h * rate.y;
		move(&own[i], &front[i], hitch, per_length);
		rate.x = -own[i].turn * own[i].u.y;
		rate.y = own[i].turn * own[i].u.x;
		sum.x += weight[i] * rate.x;
		sum.y += weight[i] * rate.y;
	}
	end.x = begin.x + h * sum.x;
	end.y = begin.y + h * sum.y;
	shorten = 1.5 - 0.5 * (end.x * end.x + end.y * end.y); /* to length 1: 1/sqrt, near 1 */
	return (struct rt_vec){end.x * shorten, end.y * shorten};
}

/* A step that was too long for a link leaves it longer or shorter than 1. */
static bool is_unit(struct rt_vec u)
{
	return fabs(u.x * u.x + u.y * u.y - 1.0) < 1e-3;
}

bool rt__chain_step(struct rt__chain *c, const struct rt__lead *lead, struct rt_vec half, double h)
{
	const struct rt_vec middle = rt__turned(lead->pose.toward, half),
			    end = rt__turned(middle, half);
	bool kept = true;

	c->stage[0][0] = (struct rt__stage){lead->pose.toward, 1.0, lead->curvature};
	c->stage[0][1] = c->stage[0][2] = (struct rt__stage){middle, 1.0, lead->curvature};
	c->stage[0][3] = (struct rt__stage){end, 1.0, lead->curvature};
	for (size_t k = 0; k < c->links; k++) {
		const struct rt__link *link = &c->link[k];

		c->stage[k + 1][0].u = c->u[k + 1];
		c->end[k + 1] = step_link(c->stage[k + 1], c->stage[link->front], link->hitch,
					  link->per_length, h);
		kept = kept && is_unit(c->end[k + 1]);
	}
	return kept;
}

/* The cubic through the two ends of the step and their rates (Hermite). */
void rt__chain_look(struct rt__chain *c, size_t j, double h)
{
	/* of begin, its rate, end, its rate */
	static const double weight[RT__LOOKS][4] = {
		{0.84375, 0.140625, 0.15625, -0.046875},
		{0.5, 0.125, 0.5, -0.125},
		{0.15625, 0.046875, 0.84375, -0.140625},
		{0.0, 0.0, 1.0, 0.0},
	};
	const double *w = weight[j - 1];

	for (size_t k = 1; k <= c->links; k++) {
		const struct rt__stage *b = &c->stage[k][0], *e = &c->stage[k][RT__STAGES - 1];
		const double bt = w[1] * h * b->turn, et = w[3] * h * e->turn;

		c->u[k].x = w[0] * b->u.x - bt * b->u.y + w[2] * c->end[k].x - et * e->u.y;
		c->u[k].y = w[0] * b->u.y + bt * b->u.x + w[2] * c->end[k].y + et * e->u.x;
	}
}

void rt__chain_place(struct rt__chain *c, const struct rt__lead *lead)
{
	c->at[0] = lead->pose.at;
	c->u[0] = lead->pose.toward;
	for (size_t k = 0; k < c->links; k++) {
		const struct rt__link *link = &c->link[k];
		const struct rt_vec hitch = rt__go(c->at[link->front], c->u[link->front],
						   -link->hitch);

		c->at[k + 1] = rt__go(hitch, c->u[k + 1], -link->length);
	}
}
