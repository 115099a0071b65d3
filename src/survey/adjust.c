/* Adjustment of readings between points: from the lists to the result.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define FITS_PART   0.03 /* how well a distance in its own unit must fit the layout */
#define FITS_M	    0.05
#define MISFIT_PART 0.25 /* and how badly it must as metres */

#define NO_CHANCE 5.0 /* |w| / sigma0 that no reading has by chance */

/* The unit in which a distance that does not fit the layout would fit it ("feet"); NULL: none. */
static const char *unit_that_fits(double distance_m, double layout_m)
{
	static const struct {
		const char *name;
		double metres;
	} unit[] = {{"feet", 0.3048}, {"centimetres", 0.01}, {"inches", 0.0254}};

	if (fabs(distance_m - layout_m) <= MISFIT_PART * layout_m)
		return NULL;
	for (size_t i = 0; i < sizeof unit / sizeof *unit; i++) {
		if (fabs(distance_m * unit[i].metres - layout_m) <= FITS_PART * layout_m + FITS_M)
			return unit[i].name;
	}
	return NULL;
}

static enum rt_err take_room(struct rt_adjustment *out, const struct rt__network *net,
			     struct rt_error *err)
{
	size_t n = 2 * net->points, frames = net->frames ? net->frames : 1;

	out->points = net->points;
	out->readings = net->edges;
	out->point = rt_arena_take(&out->text, out->points * sizeof *out->point);
	out->reading = rt_arena_take(&out->text, out->readings * sizeof *out->reading);
	out->covariance_m2 = rt_arena_take(&out->text, n * n * sizeof *out->covariance_m2);
	out->influence = rt_arena_take(&out->text, out->readings * n * sizeof *out->influence);
	out->frame = rt_arena_take(&out->text, frames * sizeof *out->frame);
	if (!out->point || !out->reading || !out->covariance_m2 || !out->influence || !out->frame)
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

/* The unit that the reading must have been told in to fit where its points start, if not metres. */
static const char *other_unit(const struct rt__network *net, const struct rt__edge *e)
{
	const double *p, *q;

	if (e->kind != RT_READ_DISTANCE)
		return NULL;
	p = net->start + 2 * e->from;
	q = net->start + 2 * e->to;
	return unit_that_fits(e->reading->value, net->scale * hypot(q[0] - p[0], q[1] - p[1]));
}

static void put_readings(struct rt_adjustment *out, const struct rt__network *net,
			 const struct rt__search *search)
{
	double least = names_checked(net, search) ? RT_R_UNCHECKED : 0.0;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__tested *t = &search->edge[i];
		const struct rt__edge *e = &net->edge[i];
		double unit = e->kind == RT_READ_ANGLE ? 1 : net->scale;

		out->reading[i] = (struct rt_adjusted_reading){
			.reading = e->reading,
			.sigma_m = e->said_sigma,
			.residual_m = t->residual * unit,
			.redundancy = t->redundancy,
			.w = t->w,
			.hidden_m = t->redundancy > 0
					    ? RT_W_HIDDEN * e->said_sigma / sqrt(t->redundancy)
					    : NAN,
			.verdict = verdict_of(e, t),
			.suspect = t->suspect && t->redundancy >= least,
			.unit = other_unit(net, e),
		};
		out->blunders += !e->used;
	}
}

/* C Aᵀ / sigma²: what a unit more in a reading does to the coordinates. */
static void put_influence(struct rt_adjustment *out, const struct rt__network *net)
{
	size_t n = 2 * net->points;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double unit = e->kind == RT_READ_ANGLE ? net->scale : 1;
		struct rt__row row;

		if (!rt__edge_counts(net, e))
			continue;
		row = rt__edge_row(net, e, net->at);
		for (size_t k = 0; k < n; k++) {
			size_t p = net->column[k / 2];
			double sum = 0;

			for (size_t j = 0; p != RT__FIXED && j < row.n; j++)
				sum += net->covariance[(p + k % 2) * net->unknowns +
						       row.column[j]] *
				       row.by[j];
			out->influence[i * n + k] = unit * sum / (e->sigma * e->sigma);
		}
	}
}

/* observed less the frame's middle = R (place less the network's middle) + shift, all scaled. */
static void put_frames(struct rt_adjustment *out, const struct rt__network *net)
{
	out->frames = net->frames;
	for (size_t i = 0; i < net->frames; i++) {
		const struct rt__frame *f = &net->frame[i];
		struct rt_adjusted_frame *to = &out->frame[i];
		double turn = f->turn, x = f->shift_x, y = f->shift_y;

		if (f->column != RT__NONE) {
			turn = net->at[f->column];
			x = net->at[f->column + 1];
			y = net->at[f->column + 2];
		}
		*to = (struct rt_adjusted_frame){f->number, cos(turn), sin(turn), 0, 0};
		to->shift_x_m = f->middle_x + net->scale * x -
				(to->cosine * net->middle_x - to->sine * net->middle_y);
		to->shift_y_m = f->middle_y + net->scale * y -
				(to->sine * net->middle_x + to->cosine * net->middle_y);
	}
}

/* ---- units ---- */

/* RT_E_INPUT where most distances fit the layout in another unit. */
static enum rt_err judge_units(const struct rt__network *net, struct rt_error *err)
{
	size_t distances = 0, other = 0;
	const char *unit = NULL;

	for (size_t i = 0; i < net->edges; i++) {
		const char *one = other_unit(net, &net->edge[i]);

		distances += net->edge[i].kind == RT_READ_DISTANCE;
		other += one != NULL;
		unit = one ? one : unit;
	}
	if (other < 2 || 2 * other <= distances)
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "%zu of %zu distances fit the layout in %s, not in metres: give metres%s",
		       other, distances, unit,
		       strcmp(unit, "feet") == 0 ? " (1 foot is 0.3048 m)" : "");
}

/* A reading that is likely told in another unit, where the adjustment failed: it is said too. */
static enum rt_err blame_units(const struct rt__network *net, enum rt_err e, struct rt_error *err)
{
	char why[sizeof err->text];
	size_t i = 0;

	while (i < net->edges && !other_unit(net, &net->edge[i]))
		i++;
	if (e != RT_E_NUMERIC || i == net->edges || !err)
		return e;
	memcpy(why, err->text, sizeof why);
	return rt_fail(err, e, "reading %s looks like %s, not metres (%.300s)",
		       rt_reading_words(net->edge[i].reading).text, other_unit(net, &net->edge[i]),
		       why);
}

enum rt_err rt_adjust(struct rt_adjustment *out, const struct rt_points *points,
		      const struct rt_readings *readings, struct rt_error *err)
{
	struct rt__network net = {0};
	struct rt__search search = {0};
	enum rt_err e = rt__network_build(&net, points, readings, err);

	if (!e)
		e = judge_units(&net, err);
	if (!e)
		e = rt__network_fixed(&net, err);
	if (!e)
		e = blame_units(&net, rt__network_search(&net, &search, err), err);
	if (!e)
		e = take_room(out, &net, err);
	if (!e) {
		out->degrees_of_freedom = net.freedom;
		out->sigma0 = search.sigma0;
		out->test = search.test;
		out->end = search.end;
		put_points(out, &net);
		put_fixed(out, points);
		put_readings(out, &net, &search);
		put_influence(out, &net);
		put_frames(out, &net);
	}
	rt__network_free(&net);
	return e;
}

void rt_adjustment_free(struct rt_adjustment *a)
{
	rt_arena_free(a->text);
	memset(a, 0, sizeof *a);
}

double rt__worst_error(double xx, double xy, double yy)
{
	return sqrt(fmax((xx + yy) / 2 + hypot((xx - yy) / 2, xy), 0));
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

/* Was a reading set aside that is wrong beyond chance?  One that is just over the limit may be no
 * worse than others that are all poor. */
static bool surely_wrong(const struct rt_adjustment *a)
{
	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].verdict == RT_READING_BLUNDER &&
		    fabs(a->reading[i].w) > NO_CHANCE * a->sigma0)
			return true;
	}
	return false;
}

bool rt__in_doubt(const struct rt_adjustment *a)
{
	if (a->end == RT_SEARCH_WORSE)
		return a->sigma0 > RT_SIGMA0_GROSS || surely_wrong(a);
	return a->end != RT_SEARCH_CLEAR;
}
