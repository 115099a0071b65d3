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

/* Make row k of `rows` orthogonal to those before it over the first `over` of n columns, and as
 * long as 1 there; the length that it had then. */
static double normalise(double *rows, size_t k, size_t n, size_t over)
{
	double square = 0, *row = rows + k * n;

	for (size_t j = 0; j < k; j++) {
		double along = 0;

		for (size_t i = 0; i < over; i++)
			along += row[i] * rows[j * n + i];
		for (size_t i = 0; i < n; i++)
			row[i] -= along * rows[j * n + i];
	}
	for (size_t i = 0; i < over; i++)
		square += row[i] * row[i];
	for (size_t i = 0; i < n; i++)
		row[i] /= square > 0 ? sqrt(square) : 1;
	return sqrt(square);
}

/* Shift x, shift y, turn: three orthonormal motions, first those that are forbidden. */
struct motions {
	double row[3][3];
	size_t forbids, n;
};

/* Add what is new in a motion. */
static void add_motion(struct motions *m, const double motion[3])
{
	if (m->n == 3)
		return;
	memcpy(m->row[m->n], motion, sizeof m->row[0]);
	m->n += normalise(m->row[0], m->n, 3, 3) > NEGLIGIBLE;
}

/* Point p, by x or y, can not move. */
static void hold(struct motions *m, const double at[2], const double middle[2], bool by_x,
		 bool by_y)
{
	const double x[3] = {1, 0, -(at[1] - middle[1])}, y[3] = {0, 1, at[0] - middle[0]};

	if (by_x)
		add_motion(m, x);
	if (by_y)
		add_motion(m, y);
}

/* The motions with the points at x, or at the start where x is NULL. */
static struct motions motions_at(const struct rt__network *net, const double *x,
				 const double middle[2])
{
	static const double all[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
	struct motions m = {0};
	double at[2];

	for (size_t p = 0; p < net->points; p++) {
		if (net->column[p] == RT__FIXED)
			hold(&m, net->start + 2 * p, middle, true, true);
	}
	for (size_t i = 0; i < net->edges && m.n < 3; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (!e->used || e->frame != RT__NONE ||
		    (e->kind != RT_READ_X && e->kind != RT_READ_Y))
			continue;
		memcpy(at, net->start + 2 * e->at, sizeof at);
		if (x)
			rt__network_place(net, x, e->at, at);
		hold(&m, at, middle, e->kind == RT_READ_X, e->kind == RT_READ_Y);
	}
	m.forbids = m.n;
	for (size_t k = 0; k < 3; k++)
		add_motion(&m, all[k]);
	return m;
}

size_t rt__network_datums(const struct rt__network *net)
{
	const double middle[2] = {0, 0};

	return 3 - motions_at(net, NULL, middle).forbids;
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

void rt__network_datum(const struct rt__network *net, const double *x, const bool *of, double *rows)
{
	size_t n = net->unknowns;
	double middle[2];
	struct motions m;

	memset(rows, 0, net->datums * n * sizeof *rows);
	find_middle(net, x, of, middle);
	m = motions_at(net, x, middle);
	for (size_t k = 0; k < net->datums && m.forbids + k < m.n; k++) {
		motion_row(net, x, of, m.row[m.forbids + k], middle, rows + k * n);
		normalise(rows, k, n, net->places);
	}
}
