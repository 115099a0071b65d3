/* The plane nearest to the heights of a ring's pegs: which way it falls, humps and hollows.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define SURE	2.0 /* standard errors */
#define DEGREES (180.0 / 3.14159265358979323846)
#define LEVEL	1e-12 /* metres a metre: less is rounding */

/* Unknowns: height at X, rise from X to the right long side, rise from X to the C end; so all are
 * heights of one size. */
static void model(const void *data, const double *x, double *residual, double *jacobian)
{
	const struct rt_footing *f = data;

	for (size_t i = 0; i < f->pegs; i++) {
		const struct rt_footing_peg *p = &f->peg[i];
		double right = p->peg.x_m / (f->kind->width_m / 2);
		double ahead = p->peg.y_m / (f->kind->length_m / 2);

		residual[i] = x[0] + right * x[1] + ahead * x[2] - p->height_m;
		if (!jacobian)
			continue;
		jacobian[3 * i] = 1;
		jacobian[3 * i + 1] = right;
		jacobian[3 * i + 2] = ahead;
	}
}

/* The peg of the ring's edge that lies nearest to a direction from X. */
static const char *edge_towards(const struct rt_pegs *pegs, double right, double ahead)
{
	const char *name = NULL;
	double best = -INFINITY;

	for (size_t i = 0; i < pegs->n; i++) {
		const struct rt_peg *p = &pegs->at[i];
		double along = (p->x_m * right + p->y_m * ahead) / hypot(p->x_m, p->y_m);

		if (p->side == RT_CENTRE || !(along > best))
			continue;
		best = along;
		name = p->name;
	}
	return name;
}

/* Which way it falls, and how well that is known; covariance of the unknowns is 3 x 3. */
static void put_fall(struct rt_footing *f, const struct rt_pegs *pegs, const double *covariance,
		     double factor)
{
	struct rt_footing_plane *p = &f->plane;
	double half_w = f->kind->width_m / 2, half_l = f->kind->length_m / 2;
	double rr = covariance[4] * factor * factor / (half_w * half_w);
	double ra = covariance[5] * factor * factor / (half_w * half_l);
	double aa = covariance[8] * factor * factor / (half_l * half_l);
	double r, a;

	p->se_right = sqrt(rr);
	p->se_ahead = sqrt(aa);
	p->covariance = ra;
	p->fall = hypot(p->right, p->ahead);
	if (p->fall < LEVEL) {
		p->level = true;
		p->se_fall = fmax(p->se_right, p->se_ahead);
		p->direction_deg = p->se_direction_deg = NAN;
		return;
	}
	r = p->right / p->fall;
	a = p->ahead / p->fall;
	p->se_fall = sqrt(fmax(0, r * r * rr + 2 * r * a * ra + a * a * aa));
	p->se_direction_deg = DEGREES * sqrt(fmax(0, a * a * rr - 2 * r * a * ra + r * r * aa)) /
			      p->fall;
	p->level = p->fall < SURE * p->se_fall;
	p->direction_deg = fmod(DEGREES * atan2(-r, -a) + 360, 360);
	p->towards = edge_towards(pegs, -r, -a);
}

/* What each peg lies off the plane. */
static void put_off(struct rt_footing *f, const double *residual)
{
	double sum = 0;

	for (size_t i = 0; i < f->pegs; i++) {
		struct rt_footing_peg *p = &f->peg[i];
		double far;

		p->off_plane_m = -residual[i];
		sum += residual[i] * residual[i];
		far = fabs(p->off_plane_m);
		if (far > RT_UNEVEN_M && far > SURE * p->sigma_m)
			p->lies = p->off_plane_m > 0 ? RT_LIES_HUMP : RT_LIES_HOLLOW;
	}
	f->plane.rms_m = sqrt(sum / (double)f->pegs);
}

enum rt_err rt__footing_plane(struct rt_footing *f, const struct rt_pegs *pegs,
			      struct rt_error *err)
{
	struct rt_arena *room = NULL;
	double *sigma = rt_arena_take(&room, f->pegs * sizeof *sigma);
	double *residual = rt_arena_take(&room, f->pegs * sizeof *residual);
	struct rt__problem problem = {
		.rows = f->pegs, .unknowns = 3, .sigma = sigma, .model = model, .data = f};
	double x[3] = {0}, covariance[9], sum;
	enum rt_err e = sigma && residual ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; !e && i < f->pegs; i++)
		sigma[i] = f->peg[i].sigma_m;
	if (!e)
		e = rt__covariance(&problem, x, covariance, err);
	if (!e)
		e = rt__solve(&problem, x, &sum, err);
	if (!e) {
		f->plane.fitted = true;
		f->plane.degrees_of_freedom = f->pegs - 3;
		f->plane.height_m = x[0];
		f->plane.right = x[1] / (f->kind->width_m / 2);
		f->plane.ahead = x[2] / (f->kind->length_m / 2);
		put_fall(f, pegs, covariance, f->pegs > 3 ? sqrt(sum / (double)(f->pegs - 3)) : 1);
		model(f, x, residual, NULL);
		put_off(f, residual);
	}
	rt_arena_free(room);
	/* pegs in one line lie on many planes */
	return e == RT_E_NUMERIC ? RT_OK : e;
}

void rt_footing_water_words(const struct rt_footing *footing, char *out, size_t size)
{
	const struct rt_footing_plane *p = &footing->plane;

	if (!p->fitted)
		snprintf(out, size,
			 "Where water runs is not known: that takes the heights of "
			 "three pegs not in one line.");
	else if (p->level)
		snprintf(out, size,
			 "No fall that stands out: as a whole the ring is level as far as these "
			 "heights tell, and water has no way it runs.");
	else
		snprintf(out, size,
			 "Water runs towards %s: as a whole the ring falls %s %% (+- %s) that way.",
			 p->towards, rt_show_real(100 * p->fall, 2).text,
			 rt_show_real(100 * p->se_fall, 2).text);
}
