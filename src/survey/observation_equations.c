/* Readings between points as a least-squares problem: what each would be, and the adjustment.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

/* ---- unknowns ---- */

/* A frame says something once it has two points. */
static bool says_something(const struct rt__network *net, size_t f)
{
	size_t first = RT__NONE;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (e->frame != f || !e->used || e->mate == RT__NONE)
			continue;
		if (first != RT__NONE && e->at != first)
			return true;
		first = e->at;
	}
	return false;
}

static void number_frames(struct rt__network *net)
{
	net->unknowns = net->places;
	for (size_t f = 0; f < net->frames; f++) {
		bool open = says_something(net, f);

		net->frame[f].column = open ? net->unknowns : RT__NONE;
		net->unknowns += open ? 3 : 0;
	}
}

/* ---- rows ---- */

static void add_pair(struct rt__row *row, size_t column, double by_x, double by_y)
{
	if (column == RT__FIXED)
		return;
	row->column[row->n] = column;
	row->by[row->n++] = by_x;
	row->column[row->n] = column + 1;
	row->by[row->n++] = by_y;
}

/* A coordinate as its receiver has it. */
static struct rt__row framed_row(const struct rt__network *net, const struct rt__edge *e,
				 const double *x, const double at[2])
{
	size_t column = net->frame[e->frame].column;
	double c = cos(x[column]), s = sin(x[column]);
	bool is_y = e->kind == RT_READ_Y;
	struct rt__row row = {.value = (is_y ? s * at[0] + c * at[1] : c * at[0] - s * at[1]) +
				       x[column + 1 + is_y]};

	add_pair(&row, net->column[e->at], is_y ? s : c, is_y ? c : -s);
	row.column[row.n] = column;
	row.by[row.n++] = is_y ? c * at[0] - s * at[1] : -s * at[0] - c * at[1];
	row.column[row.n] = column + 1 + is_y;
	row.by[row.n++] = 1;
	return row;
}

struct rt__row rt__edge_row(const struct rt__network *net, const struct rt__edge *e,
			    const double *x)
{
	const size_t point[3] = {e->from, e->to, e->at};
	double place[3][2] = {{0}};
	struct rt__observed o;
	struct rt__row row = {0};

	for (size_t i = 0; i < 3; i++) {
		if (point[i] != RT__NONE)
			rt__network_place(net, x, point[i], place[i]);
	}
	if (e->frame != RT__NONE)
		return framed_row(net, e, x, place[2]);
	o = rt__observe(e->kind, place[0], place[1], place[2]);
	row.value = o.value;
	if (e->from != RT__NONE)
		add_pair(&row, net->column[e->from], o.by_from[0], o.by_from[1]);
	if (e->to != RT__NONE)
		add_pair(&row, net->column[e->to], o.by_to[0], o.by_to[1]);
	if (e->at != RT__NONE)
		add_pair(&row, net->column[e->at], o.by_at[0], o.by_at[1]);
	return row;
}

double rt__edge_moved(const struct rt__network *net, const struct rt__edge *e, size_t p,
		      const double there[2])
{
	const double *at[3] = {NULL, NULL, NULL};
	const size_t point[3] = {e->from, e->to, e->at};
	double turned[2];

	for (size_t i = 0; i < 3; i++) {
		if (point[i] != RT__NONE)
			at[i] = point[i] == p ? there : net->start + 2 * point[i];
	}
	if (e->frame != RT__NONE) {
		const struct rt__frame *f = &net->frame[e->frame];

		turned[0] = cos(f->turn) * at[2][0] - sin(f->turn) * at[2][1] + f->shift_x;
		turned[1] = sin(f->turn) * at[2][0] + cos(f->turn) * at[2][1] + f->shift_y;
		at[2] = turned;
	}
	return rt__observe(e->kind, at[0], at[1], at[2]).value;
}

double rt__edge_less(const struct rt__edge *e, double a, double b)
{
	double less = a - b;

	return e->kind == RT_READ_ANGLE ? less - 360 * round(less / 360) : less;
}

/* ---- the problem ---- */

static void model(const void *data, const double *x, double *residual, double *jacobian)
{
	const struct rt__network *net = data;
	size_t at = 0;

	if (jacobian)
		memset(jacobian, 0, net->used * net->unknowns * sizeof *jacobian);
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		struct rt__row row;

		if (!rt__edge_counts(net, e))
			continue;
		row = rt__edge_row(net, e, x);
		residual[at] = rt__edge_less(e, row.value, e->value);
		for (size_t k = 0; jacobian && k < row.n; k++)
			jacobian[at * net->unknowns + row.column[k]] = row.by[k];
		at++;
	}
}

static void whole_datum(const void *data, const double *x, double *rows)
{
	rt__network_datum(data, x, NULL, rows);
}

struct rt__problem rt__network_problem(struct rt__network *net)
{
	net->used = 0;
	number_frames(net);
	net->datums = rt__network_datums(net);
	for (size_t i = 0; i < net->edges; i++) {
		if (rt__edge_counts(net, &net->edge[i]))
			net->sigma[net->used++] = net->edge[i].sigma;
	}
	return (struct rt__problem){
		.rows = net->used,
		.unknowns = net->unknowns,
		.sigma = net->sigma,
		.model = model,
		.datums = net->datums,
		.places = net->places,
		.datum = whole_datum,
		.data = net,
	};
}

/* ---- adjusting ---- */

static enum rt_err put_result(struct rt__network *net, const struct rt__problem *p,
			      struct rt_error *err)
{
	enum rt_err e = rt__covariance(p, net->x, net->covariance, err);

	if (e)
		return e;
	net->freedom = net->used - (net->unknowns - net->datums);
	memcpy(net->at, net->x, net->unknowns * sizeof *net->at);
	for (size_t i = 0; i < net->points; i++)
		rt__network_place(net, net->x, i, net->place + 2 * i);
	return RT_OK;
}

enum rt_err rt__network_adjust(struct rt__network *net, struct rt_error *err)
{
	struct rt__problem p = rt__network_problem(net);
	enum rt_err e;

	memset(net->step, 0, net->unknowns * sizeof *net->step);
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
		e = rt__first_step(&p, net->x, net->step, err);
	if (e)
		return e;
	net->sum = 0;
	for (size_t i = 0; i < net->edges; i++) {
		double v = rt__edge_residual(net, &net->edge[i]) / net->edge[i].sigma;

		net->sum += rt__edge_counts(net, &net->edge[i]) ? v * v : 0;
	}
	return RT_OK;
}

/* Of a closed frame: as if it went through its point. */
static bool says_nothing(const struct rt__network *net, const struct rt__edge *e)
{
	return e->frame != RT__NONE && net->frame[e->frame].column == RT__NONE;
}

double rt__edge_residual(const struct rt__network *net, const struct rt__edge *e)
{
	struct rt__row row;
	double residual;

	if (says_nothing(net, e))
		return 0;
	row = rt__edge_row(net, e, net->at);
	residual = rt__edge_less(e, row.value, e->value);
	for (size_t i = 0; i < row.n; i++)
		residual += row.by[i] * net->step[row.column[i]];
	return residual;
}

double rt__edge_covariance(const struct rt__network *net, const struct rt__edge *a,
			   const struct rt__edge *b)
{
	struct rt__row u, v;
	double sum = 0;

	if (says_nothing(net, a))
		return a->sigma * a->sigma;
	u = rt__edge_row(net, a, net->at);
	v = a == b ? u : rt__edge_row(net, b, net->at);
	for (size_t i = 0; i < u.n; i++) {
		const double *c = net->covariance + u.column[i] * net->unknowns;
		double row = 0;

		for (size_t k = 0; k < v.n; k++)
			row += c[v.column[k]] * v.by[k];
		sum += u.by[i] * row;
	}
	return sum;
}
