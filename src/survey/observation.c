/* What a reading would be at given places, and how it changes with them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define DEGREES 57.29577951308232 /* in a radian */

/* Points that fall together get a direction of some kind, so that the next step parts them. */
static double towards(const double *a, const double *b, double u[2])
{
	double x = b[0] - a[0], y = b[1] - a[1], d = hypot(x, y);

	u[0] = d > 0 ? x / d : 1;
	u[1] = d > 0 ? y / d : 0;
	return d;
}

static void distance(const double *from, const double *to, struct rt__observed *out)
{
	double u[2];

	out->value = towards(from, to, u);
	for (int i = 0; i < 2; i++) {
		out->by_from[i] = -u[i];
		out->by_to[i] = u[i];
	}
}

/* The line moves with its ends, each by its share at the foot of the offset. */
static void offset(const double *from, const double *to, const double *at, struct rt__observed *out)
{
	double u[2], length = towards(from, to, u);
	double x = at[0] - from[0], y = at[1] - from[1];
	double right[2] = {u[1], -u[0]};
	double share = length > 0 ? (x * u[0] + y * u[1]) / length : 0;

	out->value = x * right[0] + y * right[1];
	for (int i = 0; i < 2; i++) {
		out->by_at[i] = right[i];
		out->by_from[i] = -(1 - share) * right[i];
		out->by_to[i] = -share * right[i];
	}
}

/* Bearings run clockwise from the y axis; a point turns by 1 / r across the line of sight. */
static void angle(const double *from, const double *to, const double *at, struct rt__observed *out)
{
	double u[2], v[2], r = towards(at, from, u), s = towards(at, to, v);
	double turn = (atan2(v[0], v[1]) - atan2(u[0], u[1])) * DEGREES;

	out->value = turn < 0 ? turn + 360 : turn;
	r = r > 0 ? DEGREES / r : 0;
	s = s > 0 ? DEGREES / s : 0;
	out->by_from[0] = -u[1] * r;
	out->by_from[1] = u[0] * r;
	out->by_to[0] = v[1] * s;
	out->by_to[1] = -v[0] * s;
	for (int i = 0; i < 2; i++)
		out->by_at[i] = -out->by_from[i] - out->by_to[i];
}

struct rt__observed rt__observe(enum rt_reading_kind kind, const double *from, const double *to,
				const double *at)
{
	struct rt__observed out = {0};

	switch (kind) {
	case RT_READ_DISTANCE:
		distance(from, to, &out);
		break;
	case RT_READ_OFFSET:
		offset(from, to, at, &out);
		break;
	case RT_READ_ANGLE:
		angle(from, to, at, &out);
		break;
	case RT_READ_X:
	case RT_READ_Y:
		out.value = at[kind == RT_READ_Y];
		out.by_at[kind == RT_READ_Y] = 1;
		break;
	}
	return out;
}
