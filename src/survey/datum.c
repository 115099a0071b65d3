/* The directions that the readings of a network do not see: shifts and turns of the whole.
 *
 * All motions of the whole are two shifts and a turn about the middle of the points.  A fixed
 * point, and a coordinate in the frame of the points, each forbid some; what is left over is the
 * datum.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define NEGLIGIBLE 1e-9 /* against 1, the size of the network */

/* Shift x, shift y, turn. */
struct motions {
	double forbidden[3][3]; /* orthonormal */
	size_t forbids;
	double free[3][3]; /* orthonormal too, and to those */
	size_t frees;
};

/* Take out of v what lies along the rows; its length then. */
static double left_of(double v[3], double (*rows)[3], size_t n)
{
	for (size_t i = 0; i < n; i++) {
		double along = v[0] * rows[i][0] + v[1] * rows[i][1] + v[2] * rows[i][2];

		for (size_t k = 0; k < 3; k++)
			v[k] -= along * rows[i][k];
	}
	return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}

static void forbid(struct motions *m, const double motion[3])
{
	double v[3] = {motion[0], motion[1], motion[2]}, length;

	if (m->forbids == 3)
		return;
	length = left_of(v, m->forbidden, m->forbids);
	if (length <= NEGLIGIBLE)
		return;
	for (size_t k = 0; k < 3; k++)
		m->forbidden[m->forbids][k] = v[k] / length;
	m->forbids++;
}

/* What is free: of shift x, shift y and turn, in this order, what is left after the forbidden and
 * those before. */
static void find_free(struct motions *m)
{
	double all[6][3] = {{0}};
	size_t n = m->forbids;

	memcpy(all, m->forbidden, n * sizeof *all);
	while (n < 3) {
		size_t best = 0;
		double most = 0;

		for (size_t k = 0; k < 3; k++) {
			double v[3] = {k == 0, k == 1, k == 2}, length = left_of(v, all, n);

			if (length > most + NEGLIGIBLE) {
				most = length;
				best = k;
			}
		}
		memset(all[n], 0, sizeof all[n]);
		all[n][best] = 1;
		left_of(all[n], all, n);
		for (size_t k = 0; k < 3; k++)
			all[n][k] /= most;
		memcpy(m->free[m->frees++], all[n], sizeof all[n]);
		n++;
	}
}

/* Point p, by x or y, can not move. */
static void hold(struct motions *m, const double at[2], const double middle[2], bool by_x,
		 bool by_y)
{
	const double x[3] = {1, 0, -(at[1] - middle[1])}, y[3] = {0, 1, at[0] - middle[0]};

	if (by_x)
		forbid(m, x);
	if (by_y)
		forbid(m, y);
}

/* The motions with the points at x, or at the start where x is NULL. */
static struct motions motions_at(const struct rt__network *net, const double *x,
				 const double middle[2])
{
	struct motions m = {0};
	double at[2];

	for (size_t p = 0; p < net->points; p++) {
		if (net->column[p] == RT__FIXED)
			hold(&m, net->start + 2 * p, middle, true, true);
	}
	for (size_t i = 0; i < net->edges && m.forbids < 3; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (!e->used || e->frame != RT__NONE ||
		    (e->kind != RT_READ_X && e->kind != RT_READ_Y))
			continue;
		memcpy(at, net->start + 2 * e->at, sizeof at);
		if (x)
			rt__network_place(net, x, e->at, at);
		hold(&m, at, middle, e->kind == RT_READ_X, e->kind == RT_READ_Y);
	}
	find_free(&m);
	return m;
}

size_t rt__network_datums(const struct rt__network *net)
{
	const double middle[2] = {0, 0};

	return motions_at(net, NULL, middle).frees;
}

static void find_middle(const struct rt__network *net, const double *x, const bool *of,
			double middle[2])
{
	double count = 0;

	middle[0] = middle[1] = 0;
	for (size_t p = 0; p < net->points; p++) {
		if (net->column[p] == RT__FIXED || (of && !of[p]))
			continue;
		count++;
		middle[0] += x[net->column[p]];
		middle[1] += x[net->column[p] + 1];
	}
	middle[0] /= count > 0 ? count : 1;
	middle[1] /= count > 0 ? count : 1;
}

/* What a motion does to the unknowns: of the marked points, and of all frames, which keep what
 * they tell.  `middle` is what the motion turns about. */
static void motion_row(const struct rt__network *net, const double *x, const bool *of,
		       const double motion[3], const double middle[2], double *row)
{
	double shift_x = motion[0] + motion[2] * middle[1];
	double shift_y = motion[1] - motion[2] * middle[0];

	for (size_t p = 0; p < net->points; p++) {
		size_t column = net->column[p];

		if (column == RT__FIXED || (of && !of[p]))
			continue;
		row[column] = shift_x - motion[2] * x[column + 1];
		row[column + 1] = shift_y + motion[2] * x[column];
	}
	for (size_t f = 0; f < net->frames; f++) {
		size_t column = net->frame[f].column;
		double c, s;

		if (column == RT__NONE)
			continue;
		c = cos(x[column]);
		s = sin(x[column]);
		row[column] = -motion[2];
		row[column + 1] = -(c * shift_x - s * shift_y);
		row[column + 2] = -(s * shift_x + c * shift_y);
	}
}

/* Make row k of `rows` orthonormal to those before it over the first `places` columns. */
static void normalise(double *rows, size_t k, size_t n, size_t places)
{
	double square = 0, *row = rows + k * n;

	for (size_t j = 0; j < k; j++) {
		double along = 0;

		for (size_t i = 0; i < places; i++)
			along += row[i] * rows[j * n + i];
		for (size_t i = 0; i < n; i++)
			row[i] -= along * rows[j * n + i];
	}
	for (size_t i = 0; i < places; i++)
		square += row[i] * row[i];
	for (size_t i = 0; i < n; i++)
		row[i] /= square > 0 ? sqrt(square) : 1;
}

void rt__network_datum(const struct rt__network *net, const double *x, const bool *of, double *rows)
{
	size_t n = net->unknowns;
	double middle[2];
	struct motions m;

	memset(rows, 0, net->datums * n * sizeof *rows);
	find_middle(net, x, of, middle);
	m = motions_at(net, x, middle);
	for (size_t k = 0; k < net->datums && k < m.frees; k++) {
		motion_row(net, x, of, m.free[k], middle, rows + k * n);
		normalise(rows, k, n, net->places);
	}
}
