/* Adjustment of distances between points: from the lists to the result.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

static enum rt_err take_room(struct rt_adjustment *out, const struct rt__network *net,
			     struct rt_error *err)
{
	size_t n = 2 * net->points;

	out->points = net->points;
	out->readings = net->edges;
	out->point = rt_arena_take(&out->text, out->points * sizeof *out->point);
	out->reading = rt_arena_take(&out->text, out->readings * sizeof *out->reading);
	out->covariance_m2 = rt_arena_take(&out->text, n * n * sizeof *out->covariance_m2);
	if (!out->point || !out->reading || !out->covariance_m2)
		return rt_fail_nomem(err);
	return RT_OK;
}

static void put_covariance(struct rt_adjustment *out, const struct rt__network *net)
{
	size_t n = 2 * net->points;
	double square = net->scale * net->scale;

	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < n; k++) {
			size_t p = net->column[i / 2], q = net->column[k / 2];

			if (p == RT__FIXED || q == RT__FIXED)
				continue;
			out->covariance_m2[i * n + k] =
				square * net->covariance[(p + i % 2) * net->unknowns + q + k % 2];
		}
	}
}

static void put_points(struct rt_adjustment *out, const struct rt__network *net)
{
	size_t n = 2 * net->points;
	double factor = isnan(out->sigma0) ? 1 : out->sigma0;

	put_covariance(out, net);
	for (size_t i = 0; i < net->points; i++) {
		double xx = out->covariance_m2[2 * i * n + 2 * i];
		double yy = out->covariance_m2[(2 * i + 1) * n + 2 * i + 1];

		out->point[i] = (struct rt_adjusted_point){
			.name = net->name[i],
			.x_m = net->middle_x + net->scale * net->place[2 * i],
			.y_m = net->middle_y + net->scale * net->place[2 * i + 1],
			.se_x_m = factor * sqrt(fmax(xx, 0)),
			.se_y_m = factor * sqrt(fmax(yy, 0)),
			.fixed = net->column[i] == RT__FIXED,
		};
	}
}

/* A fixed point stands where it was given, to the last digit. */
static void put_fixed(struct rt_adjustment *out, const struct rt_points *points)
{
	for (size_t i = 0; i < points->n; i++) {
		if (!points->at[i].fixed)
			continue;
		out->point[i].x_m = points->at[i].x_m;
		out->point[i].y_m = points->at[i].y_m;
	}
}

static enum rt_reading_verdict verdict_of(const struct rt__edge *e, const struct rt__tested *t)
{
	if (!e->used)
		return RT_READING_BLUNDER;
	if (t->redundancy < RT_R_UNCHECKED)
		return RT_READING_UNCHECKED;
	return RT_READING_GOOD;
}

/* A reading that is hardly checked is never a suspect, unless there is no other to name. */
static bool names_checked(const struct rt__network *net, const struct rt__search *search)
{
	for (size_t i = 0; i < net->edges; i++)
		if (search->edge[i].suspect && search->edge[i].redundancy >= RT_R_UNCHECKED)
			return true;
	return false;
}

static void put_readings(struct rt_adjustment *out, const struct rt__network *net,
			 const struct rt__search *search, const struct rt_readings *readings)
{
	double least = names_checked(net, search) ? RT_R_UNCHECKED : 0.0;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__tested *t = &search->edge[i];
		double sigma = rt_reading_sigma(&readings->at[i]);

		out->reading[i] = (struct rt_adjusted_reading){
			.reading = &readings->at[i],
			.sigma_m = sigma,
			.residual_m = t->residual * net->scale,
			.redundancy = t->redundancy,
			.w = t->w,
			.hidden_m = t->redundancy > 0 ? RT_W_HIDDEN * sigma / sqrt(t->redundancy)
						      : NAN,
			.verdict = verdict_of(&net->edge[i], t),
			.suspect = t->suspect && t->redundancy >= least,
		};
		out->blunders += !net->edge[i].used;
	}
}

enum rt_err rt_adjust(struct rt_adjustment *out, const struct rt_points *points,
		      const struct rt_readings *readings, struct rt_error *err)
{
	struct rt__network net = {0};
	struct rt__search search = {0};
	enum rt_err e = rt__network_build(&net, points, readings, err);

	if (!e)
		e = rt__network_fixed(&net, err);
	if (!e)
		e = rt__network_search(&net, &search, err);
	if (!e)
		e = take_room(out, &net, err);
	if (!e) {
		out->degrees_of_freedom = net.freedom;
		out->sigma0 = search.sigma0;
		out->test = search.test;
		out->end = search.end;
		put_points(out, &net);
		put_fixed(out, points);
		put_readings(out, &net, &search, readings);
	}
	rt__network_free(&net);
	return e;
}

void rt_adjustment_free(struct rt_adjustment *a)
{
	rt_arena_free(a->text);
	memset(a, 0, sizeof *a);
}

double rt__quadratic(const double *c, const double *a, const double *b, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++) {
		double row = 0;

		for (size_t k = 0; k < n; k++)
			row += c[i * n + k] * b[k];
		sum += a[i] * row;
	}
	return sum;
}
