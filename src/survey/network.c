/* Readings between points as a least-squares problem: the building of it.
 *
 * Coordinates are centred and scaled so that the points lie about 1 from their middle: national
 * coordinates of millions of metres lose no digits, and a turn of the whole weighs as much as a
 * shift.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define SIGMA_BASE_M	 0.010
#define SIGMA_PER_M	 0.0002
#define SIGMA_ANGLE_DEG	 0.05
#define SIGMA_RECEIVER_M 0.020
#define SAME_PLACE	 1e-9 /* against the size of the network */

double rt__sigma_over(const struct rt_reading *r, double line_m)
{
	if (!isnan(r->sigma))
		return r->sigma;
	switch (r->kind) {
	case RT_READ_DISTANCE:
	case RT_READ_OFFSET:
		return rt__tape_sigma(line_m);
	case RT_READ_ANGLE:
		return SIGMA_ANGLE_DEG;
	case RT_READ_X:
	case RT_READ_Y:
		break;
	}
	return SIGMA_RECEIVER_M;
}

double rt_reading_sigma(const struct rt_reading *reading)
{
	return rt__sigma_over(reading, reading->kind == RT_READ_DISTANCE ? reading->value : 0);
}

double rt__tape_sigma(double distance_m)
{
	return SIGMA_BASE_M + SIGMA_PER_M * distance_m;
}

/* ---- points ---- */

static enum rt_err take_points(struct rt__network *net, struct rt_error *err)
{
	net->name = rt_arena_take(&net->room, net->points * sizeof *net->name);
	net->start = rt_arena_take(&net->room, 2 * net->points * sizeof *net->start);
	net->place = rt_arena_take(&net->room, 2 * net->points * sizeof *net->place);
	net->column = rt_arena_take(&net->room, net->points * sizeof *net->column);
	net->edge = rt_arena_take(&net->room, net->edges * sizeof *net->edge);
	net->frame = rt_arena_take(&net->room, net->edges * sizeof *net->frame);
	net->sigma = rt_arena_take(&net->room, net->edges * sizeof *net->sigma);
	if (!net->name || !net->start || !net->place || !net->column || !net->edge || !net->frame ||
	    !net->sigma)
		return rt_fail_nomem(err);
	return RT_OK;
}

static enum rt_err take_unknowns(struct rt__network *net, struct rt_error *err)
{
	size_t most = net->places + 3 * net->frames;

	net->x = rt_arena_take(&net->room, most * sizeof *net->x);
	net->at = rt_arena_take(&net->room, most * sizeof *net->at);
	net->step = rt_arena_take(&net->room, most * sizeof *net->step);
	net->covariance = rt_arena_take(&net->room, most * most * sizeof *net->covariance);
	return net->x && net->at && net->step && net->covariance ? RT_OK : rt_fail_nomem(err);
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

static void set_columns(struct rt__network *net, const struct rt_points *points)
{
	for (size_t i = 0; i < net->points; i++) {
		net->column[i] = points->at[i].fixed ? RT__FIXED : net->places;
		net->places += points->at[i].fixed ? 0 : 2;
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
	if (net->places == 0)
		return rt_fail(err, RT_E_INPUT, "every point is fixed: there is nothing to adjust");
	return RT_OK;
}

/* ---- readings ---- */

static enum rt_err find_point(const struct rt__network *net, const struct rt_reading *r,
			      const char *name, const struct rt_map *index, size_t *out,
			      struct rt_error *err)
{
	if (!name)
		return rt_fail(err, RT_E_INPUT, "reading %s: a point is missing",
			       rt_reading_words(r).text);
	*out = rt_map_get(index, name);
	if (*out != RT_MAP_NONE)
		return RT_OK;
	return rt_fail_unknown(err, name, net->name, net->points, NULL, "reading %s: no point %s",
			       rt_reading_words(r).text, name);
}

static enum rt_err find_points(const struct rt__network *net, struct rt__edge *e,
			       const struct rt_map *index, struct rt_error *err)
{
	const struct rt_reading *r = e->reading;
	bool coordinate = r->kind == RT_READ_X || r->kind == RT_READ_Y;
	enum rt_err rc = RT_OK;

	e->from = e->to = e->at = RT__NONE;
	if (!coordinate)
		rc = find_point(net, r, r->from, index, &e->from, err);
	if (!rc && !coordinate)
		rc = find_point(net, r, r->to, index, &e->to, err);
	if (!rc && r->kind != RT_READ_DISTANCE)
		rc = find_point(net, r, r->at, index, &e->at, err);
	return rc;
}

/* How far apart two points start, 1 where one is not there. */
static double apart(const struct rt__network *net, size_t p, size_t q)
{
	if (p == RT__NONE || q == RT__NONE)
		return 1;
	return hypot(net->start[2 * q] - net->start[2 * p],
		     net->start[2 * q + 1] - net->start[2 * p + 1]);
}

/* Points that this kind of reading needs apart. */
static enum rt_err judge_points(const struct rt__network *net, const struct rt__edge *e,
				struct rt_error *err)
{
	const struct rt_reading *r = e->reading;
	struct rt_shown words = rt_reading_words(r);

	if (e->from != RT__NONE && (e->from == e->to || e->from == e->at || e->to == e->at))
		return rt_fail(err, RT_E_INPUT, "reading %s: from a point to itself", words.text);
	if (apart(net, e->from, e->to) < SAME_PLACE)
		return rt_fail(err, RT_E_INPUT, "%s and %s start in one place: give them two",
			       r->from, r->to);
	if (r->kind == RT_READ_ANGLE &&
	    (apart(net, e->at, e->from) < SAME_PLACE || apart(net, e->at, e->to) < SAME_PLACE))
		return rt_fail(err, RT_E_INPUT,
			       "reading %s: a point of it starts where the angle is", words.text);
	return RT_OK;
}

static enum rt_err judge_values(const struct rt__edge *e, struct rt_error *err)
{
	const struct rt_reading *r = e->reading;
	bool distance = r->kind == RT_READ_DISTANCE;

	if (isfinite(r->value) && (r->value > 0 || !distance) && e->said_sigma > 0 &&
	    isfinite(e->said_sigma))
		return RT_OK;
	return rt_fail(err, RT_E_INPUT, "reading %s: %s", rt_reading_words(r).text,
		       distance ? "distance and sigma must be over 0"
				: "it must be a number, and its sigma over 0");
}

static enum rt_err build_edge(struct rt__network *net, size_t i, const struct rt_reading *r,
			      const struct rt_map *index, struct rt_error *err)
{
	struct rt__edge *e = &net->edge[i];
	double unit = r->kind == RT_READ_ANGLE ? 1 : net->scale, line;
	enum rt_err rc;

	*e = (struct rt__edge){.reading = r, .kind = r->kind, .frame = RT__NONE, .mate = RT__NONE};
	rc = find_points(net, e, index, err);
	if (rc)
		return rc;
	line = r->kind == RT_READ_DISTANCE ? r->value : net->scale * apart(net, e->from, e->to);
	e->said_sigma = rt__sigma_over(r, line);
	e->value = r->value / unit;
	e->sigma = e->said_sigma / unit;
	e->used = true;
	rc = judge_values(e, err);
	return rc ? rc : judge_points(net, e, err);
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
	e = take_points(net, err);
	if (!e)
		e = build_points(net, points, &index, err);
	for (size_t i = 0; !e && i < readings->n; i++)
		e = build_edge(net, i, &readings->at[i], index, err);
	if (!e)
		e = rt__frames_build(net, err);
	if (!e)
		e = take_unknowns(net, err);
	rt_map_free(index);
	return e;
}

void rt__network_free(struct rt__network *net)
{
	rt_arena_free(net->room);
	memset(net, 0, sizeof *net);
}

/* ---- which edges are used ---- */

void rt__edge_use(struct rt__network *net, size_t i, bool used)
{
	size_t mate = net->edge[i].mate;

	net->edge[i].used = used;
	if (mate != RT__NONE)
		net->edge[mate].used = used;
}

bool rt__edge_counts(const struct rt__network *net, const struct rt__edge *e)
{
	return e->used && (e->frame == RT__NONE || net->frame[e->frame].column != RT__NONE);
}

size_t rt__edge_points(const struct rt__network *net, const struct rt__edge *e, size_t out[3])
{
	const size_t all[] = {e->from, e->to, e->at};
	size_t n = 0;

	for (size_t i = 0; i < 3; i++) {
		if (all[i] != RT__NONE)
			out[n++] = all[i];
	}
	for (size_t i = 0; e->frame != RT__NONE && n == 1 && i < net->edges; i++) {
		const struct rt__edge *other = &net->edge[i];

		if (other->frame == e->frame && other->at != e->at && rt__edge_counts(net, other))
			out[n++] = other->at;
	}
	return n;
}

/* ---- unknowns ---- */

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
	for (size_t f = 0; f < net->frames; f++) {
		const struct rt__frame *frame = &net->frame[f];

		if (frame->column == RT__NONE)
			continue;
		x[frame->column] = frame->turn;
		x[frame->column + 1] = frame->shift_x;
		x[frame->column + 2] = frame->shift_y;
	}
}
