/* What a reading would be between the points as adjusted, made or not, and how it hangs on them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

static size_t point_of(const struct rt_adjustment *a, const char *name)
{
	size_t i = 0;

	while (i < a->points && (!name || strcmp(a->point[i].name, name) != 0))
		i++;
	return i;
}

static void add_part(double *row, const struct rt_adjustment *a, const char *name,
		     const double by[2])
{
	size_t i = point_of(a, name);

	if (i == a->points || a->point[i].fixed)
		return;
	row[2 * i] += by[0];
	row[2 * i + 1] += by[1];
}

static void place_of(const struct rt_adjustment *a, const char *name, double at[2])
{
	size_t i = point_of(a, name);

	at[0] = i < a->points ? a->point[i].x_m : 0;
	at[1] = i < a->points ? a->point[i].y_m : 0;
}

double rt__gradient(const struct rt_adjustment *a, const struct rt_reading *r, double *row)
{
	double from[2], to[2], at[2];
	struct rt__observed o;

	memset(row, 0, 2 * a->points * sizeof *row);
	place_of(a, r->from, from);
	place_of(a, r->to, to);
	place_of(a, r->at, at);
	o = rt__observe(r->kind, from, to, at);
	add_part(row, a, r->from, o.by_from);
	add_part(row, a, r->to, o.by_to);
	add_part(row, a, r->at, o.by_at);
	return o.value;
}
