/* Distances between points as a least-squares problem.
 *
 * Coordinates are centred and scaled so that the points lie about 1 from their middle: national
 * coordinates of millions of metres lose no digits, and a turn of the whole weighs as much as a
 * shift.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define SIGMA_BASE_M 0.010
#define SIGMA_PER_M  0.0002
#define SAME_PLACE   1e-9 /* against the size of the network */

double rt_reading_sigma(const struct rt_reading *reading)
{
	if (isnan(reading->sigma))
		return SIGMA_BASE_M + SIGMA_PER_M * reading->value;
	return reading->sigma;
}

/* ---- building ---- */

static enum rt_err take_room(struct rt__network *net, struct rt_error *err)
{
	size_t unknowns = 2 * net->points;

	net->name = rt_arena_take(&net->room, net->points * sizeof *net->name);
	net->start = rt_arena_take(&net->room, unknowns * sizeof *net->start);
	net->place = rt_arena_take(&net->room, unknowns * sizeof *net->place);
	net->shift = rt_arena_take(&net->room, unknowns * sizeof *net->shift);
	net->x = rt_arena_take(&net->room, unknowns * sizeof *net->x);
	net->column = rt_arena_take(&net->room, net->points * sizeof *net->column);
	net->covariance = rt_arena_take(&net->room, unknowns * unknowns * sizeof *net->covariance);
	net->edge = rt_arena_take(&net->room, net->edges * sizeof *net->edge);
	net->sigma = rt_arena_take(&net->room, net->edges * sizeof *net->sigma);
	if (!net->name || !net->start || !net->place || !net->shift || !net->x || !net->column ||
	    !net->covariance || !net->edge || !net->sigma)
		return rt_fail_nomem(err);
	return RT_OK;
}

/* The middle of the points and their root mean square distance from it. */
static void set_scale(struct rt__network *net, const struct rt_points *points)
{
	double n = (double)points->n, square = 0;

	for (size_t i = 0; i < points->n; i++) {
		net->middle_x += points->at[i].x_m / n;
		net->middle_y += points->at[i].y_m / n;
	}
	for (size_t i = 0; i < points->n; i++) {
		double x = points->at[i].x_m - net->middle_x;
		double y = points->at[i].y_m - net->middle_y;

		square += (x * x + y * y) / n;
	}
	net->scale = square > 0 ? sqrt(square) : 1;
}

/* Number the unknowns, and count the directions that stay free: a shift and a turn; with one
 * place fixed only a turn about it. */
static void set_columns(struct rt__network *net, const struct rt_points *points)
{
	net->datums = 3;
	for (size_t i = 0; i < net->points; i++) {
		double x = net->start[2 * i], y = net->start[2 * i + 1];

		net->column[i] = points->at[i].fixed ? RT__FIXED : net->unknowns;
		if (!points->at[i].fixed) {
			net->unknowns += 2;
		} else if (net->datums == 3) {
			net->fixed_x = x;
			net->fixed_y = y;
			net->datums = 1;
		} else if (hypot(x - net->fixed_x, y - net->fixed_y) > SAME_PLACE) {
			net->datums = 0;
		}
	}
}

static enum rt_err build_points(struct rt__network *net, const struct rt_points *points,
				struct rt_map **index, struct rt_error *err)
{
	bool nomem = false;

	set_scale(net, points);
	for (size_t i = 0; i < points->n; i++) {
		const struct rt_point *p = &points->at[i];

		if (!isfinite(p->x_m) || !isfinite(p->y_m))
			return rt_fail(err, RT_E_INPUT, "%s: no coordinates", p->name);
		if (rt_map_put(index, p->name, i, &nomem) != RT_MAP_NONE)
			return rt_fail(err, RT_E_INPUT, "%s is there twice: a point stands once",
				       p->name);
		if (nomem)
			return rt_fail_nomem(err);
		net->name[i] = p->name;
		net->start[2 * i] = (p->x_m - net->middle_x) / net->scale;
		net->start[2 * i + 1] = (p->y_m - net->middle_y) / net->scale;
	}
	set_columns(net, points);
	if (net->unknowns == 0)
		return rt_fail(err, RT_E_INPUT, "every point is fixed: there is nothing to adjust");
	return RT_OK;
}

/* RT_E_NOTFOUND with the nearest name of a point. */
static enum rt_err no_such_point(const struct rt__network *net, const struct rt_reading *r,
				 const char *name, struct rt_error *err)
{
	const char *nearest = rt_nearest(name, net->name, net->points);

	return rt_fail(err, RT_E_NOTFOUND, "reading %s to %s: no point %s%s%s", r->from, r->to,
		       name, nearest ? ": the nearest is " : "", nearest ? nearest : "");
}

static enum rt_err build_edge(struct rt__network *net, size_t i, const struct rt_reading *r,
			      const struct rt_map *index, struct rt_error *err)
{
	struct rt__edge *e = &net->edge[i];
	double sigma = rt_reading_sigma(r), u[2];

	e->from = rt_map_get(index, r->from);
	e->to = rt_map_get(index, r->to);
	if (e->from == RT_MAP_NONE || e->to == RT_MAP_NONE)
		return no_such_point(net, r, e->from == RT_MAP_NONE ? r->from : r->to, err);
	if (e->from == e->to)
		return rt_fail(err, RT_E_INPUT, "reading %s to %s: from a point to itself", r->from,
			       r->to);
	if (!(r->value > 0) || !isfinite(r->value) || !(sigma > 0) || !isfinite(sigma))
		return rt_fail(err, RT_E_INPUT,
			       "reading %s to %s: distance and sigma must be over 0", r->from,
			       r->to);
	e->distance = r->value / net->scale;
	e->sigma = sigma / net->scale;
	e->used = true;
	if (rt__edge_direction(e, net->start, u) < SAME_PLACE)
		return rt_fail(err, RT_E_INPUT, "%s and %s start in one place: give them two",
			       r->from, r->to);
	return RT_OK;
}

enum rt_err rt__network_build(struct rt__network *net, const struct rt_points *points,
			      const struct rt_readings *readings, struct rt_error *err)
{
	struct rt_map *index = NULL;
	enum rt_err e;

	if (readings->n == 0)
		return rt_fail(err, RT_E_INPUT, "no readings: at least one is needed");
	net->points = points->n;
	net->edges = readings->n;
	e = take_room(net, err);
	if (!e)
		e = build_points(net, points, &index, err);
	for (size_t i = 0; !e && i < readings->n; i++)
		e = build_edge(net, i, &readings->at[i], index, err);
	net->used = net->edges;
	rt_map_free(index);
	return e;
}

void rt__network_free(struct rt__network *net)
{
	rt_arena_free(net->room);
	memset(net, 0, sizeof *net);
}

/* ---- the model ---- */

void rt__network_place(const struct rt__network *net, const double *x, size_t p, double at[2])
{
	const double *from = net->column[p] == RT__FIXED ? net->start + 2 * p : x + net->column[p];

	at[0] = from[0];
	at[1] = from[1];
}

void rt__network_start(const struct rt__network *net, double *x)
{
	for (size_t p = 0; p < net->points; p++) {
		if (net->column[p] != RT__FIXED)
			memcpy(x + net->column[p], net->start + 2 * p, 2 * sizeof *x);
	}
}

/* Unit vector from a to b, and the distance; points that fall together get a direction of some
 * kind, so that the next step parts them. */
static double direction(const double *a, const double *b, double u[2])
{
	double x = b[0] - a[0], y = b[1] - a[1], d = hypot(x, y);

	u[0] = d > 0 ? x / d : 1;
	u[1] = d > 0 ? y / d : 0;
	return d;
}

double rt__edge_direction(const struct rt__edge *e, const double *place, double u[2])
{
	return direction(place + 2 * e->from, place + 2 * e->to, u);
}

static void put_gradient(double *row, size_t column, double x, double y)
{
	if (column == RT__FIXED)
		return;
	row[column] += x;
	row[column + 1] += y;
}

static void model(const void *data, const double *x, double *residual, double *jacobian)
{
	const struct rt__network *net = data;
	size_t row = 0;

	if (jacobian)
		memset(jacobian, 0, net->used * net->unknowns * sizeof *jacobian);
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double a[2], b[2], u[2];

		if (!e->used)
			continue;
		rt__network_place(net, x, e->from, a);
		rt__network_place(net, x, e->to, b);
		residual[row] = direction(a, b, u) - e->distance;
		if (jacobian) {
			double *at = jacobian + row * net->unknowns;

			put_gradient(at, net->column[e->from], -u[0], -u[1]);
			put_gradient(at, net->column[e->to], u[0], u[1]);
		}
		row++;
	}
}

/* The turn about (cx, cy), as a row of length 1. */
static void turn_row(const struct rt__network *net, const double *x, const bool *of, double cx,
		     double cy, double *row)
{
	double square = 0;

	for (size_t p = 0; p < net->points; p++) {
		size_t column = net->column[p];

		if (column == RT__FIXED || (of && !of[p]))
			continue;
		row[column] = -(x[column + 1] - cy);
		row[column + 1] = x[column] - cx;
		square += row[column] * row[column] + row[column + 1] * row[column + 1];
	}
	for (size_t i = 0; i < net->unknowns; i++)
		row[i] /= square > 0 ? sqrt(square) : 1;
}

void rt__network_datum(const struct rt__network *net, const double *x, const bool *of, double *rows)
{
	size_t n = net->unknowns, count = 0;
	double cx = 0, cy = 0;

	memset(rows, 0, net->datums * n * sizeof *rows);
	if (net->datums == 1)
		turn_row(net, x, of, net->fixed_x, net->fixed_y, rows);
	if (net->datums != 3)
		return;
	for (size_t p = 0; p < net->points; p++) {
		if (of && !of[p])
			continue;
		count++;
		cx += x[net->column[p]];
		cy += x[net->column[p] + 1];
	}
	for (size_t p = 0; p < net->points; p++) {
		if (of && !of[p])
			continue;
		rows[net->column[p]] = 1 / sqrt((double)count);
		rows[n + net->column[p] + 1] = 1 / sqrt((double)count);
	}
	turn_row(net, x, of, cx / (double)count, cy / (double)count, rows + 2 * n);
}

static void whole_datum(const void *data, const double *x, double *rows)
{
	rt__network_datum(data, x, NULL, rows);
}

struct rt__problem rt__network_problem(struct rt__network *net)
{
	size_t row = 0;

	for (size_t i = 0; i < net->edges; i++) {
		if (net->edge[i].used)
			net->sigma[row++] = net->edge[i].sigma;
	}
	net->used = row;
	return (struct rt__problem){
		.rows = row,
		.unknowns = net->unknowns,
		.sigma = net->sigma,
		.model = model,
		.datums = net->datums,
		.datum = whole_datum,
		.data = net,
	};
}

/* ---- adjusting ---- */

static enum rt_err put_result(struct rt__network *net, const struct rt__problem *p,
			      struct rt_error *err)
{
	size_t rank;
	enum rt_err e = rt__covariance(p, net->x, net->covariance, &rank, err);

	if (e)
		return e;
	net->freedom = net->used - rank;
	for (size_t i = 0; i < net->points; i++)
		rt__network_place(net, net->x, i, net->place + 2 * i);
	return RT_OK;
}

enum rt_err rt__network_adjust(struct rt__network *net, struct rt_error *err)
{
	struct rt__problem p = rt__network_problem(net);
	enum rt_err e;

	memset(net->shift, 0, 2 * net->points * sizeof *net->shift);
	rt__network_start(net, net->x);
	e = rt__solve(&p, net->x, &net->sum, err);
	return e ? e : put_result(net, &p, err);
}

enum rt_err rt__network_adjust_linear(struct rt__network *net, struct rt_error *err)
{
	struct rt__problem p = rt__network_problem(net);
	enum rt_err e;

	rt__network_start(net, net->x);
	e = put_result(net, &p, err);
	if (!e)
		e = rt__first_step(&p, net->x, net->x, err);
	if (e)
		return e;
	for (size_t i = 0; i < net->points; i++) {
		if (net->column[i] != RT__FIXED)
			memcpy(net->shift + 2 * i, net->x + net->column[i], 2 * sizeof *net->x);
	}
	net->sum = 0;
	for (size_t i = 0; i < net->edges; i++) {
		double v = rt__edge_residual(net, &net->edge[i]) / net->edge[i].sigma;

		net->sum += net->edge[i].used ? v * v : 0;
	}
	return RT_OK;
}

double rt__edge_residual(const struct rt__network *net, const struct rt__edge *e)
{
	const double *from = net->shift + 2 * e->from, *to = net->shift + 2 * e->to;
	double u[2], length = rt__edge_direction(e, net->place, u);

	return length - e->distance + u[0] * (to[0] - from[0]) + u[1] * (to[1] - from[1]);
}

/* Covariance of u·(point p) with v·(point q). */
static double point_covariance(const struct rt__network *net, size_t p, const double u[2], size_t q,
			       const double v[2])
{
	size_t i = net->column[p], k = net->column[q], n = net->unknowns;
	const double *c = net->covariance;

	if (i == RT__FIXED || k == RT__FIXED)
		return 0;
	return u[0] * (c[i * n + k] * v[0] + c[i * n + k + 1] * v[1]) +
	       u[1] * (c[(i + 1) * n + k] * v[0] + c[(i + 1) * n + k + 1] * v[1]);
}

double rt__edge_covariance(const struct rt__network *net, const struct rt__edge *a,
			   const struct rt__edge *b)
{
	double u[2], v[2];

	rt__edge_direction(a, net->place, u);
	rt__edge_direction(b, net->place, v);
	return point_covariance(net, a->to, u, b->to, v) -
	       point_covariance(net, a->to, u, b->from, v) -
	       point_covariance(net, a->from, u, b->to, v) +
	       point_covariance(net, a->from, u, b->from, v);
}
