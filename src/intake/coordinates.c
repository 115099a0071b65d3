/* A receiver's coordinates: judged as a whole file, and made readings.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "coordinates.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define FAR_M	     2000.0 /* from the other points of the file: no ring is so large */
#define SWAPPED_M    1.0    /* off the nominal places, before a swap is thought of */
#define SWAPPED_PART 0.2    /* and so much less is left of that once swapped */

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* The middle one of metres[axis], metres[axis + 2] ...; order is room for n. */
static double median(const double *metres, size_t n, size_t axis, double *order)
{
	for (size_t i = 0; i < n; i++)
		order[i] = metres[2 * i + axis];
	qsort(order, n, sizeof *order, by_size);
	return order[n / 2];
}

/* Tell of points so far from the middle of the file that something else must be meant. */
static void tell_far(const struct rt__load *l, const char *path, const double *metres,
		     double *order)
{
	const struct rt__reading_load *self = l->self;
	size_t n = self->placed.n;
	double x = median(metres, n, 0, order), y = median(metres, n, 1, order);

	for (size_t i = 0; i < n; i++) {
		double away = hypot(metres[2 * i] - x, metres[2 * i + 1] - y);
		char km[32];

		if (away <= FAR_M)
			continue;
		rt_format_real(away / 1000, 1, km, sizeof km);
		rt_fault(l->faults, path, self->placed.at[i].line, NULL,
			 "%s is %s km from the other points of this file: at most 2 km",
			 rt_show(self->placed.at[i].point).text, km);
	}
}

/* Where the points of the rows are meant to be, 2 a row. */
static enum rt_err nominal_places(const struct rt__reading_load *self, double *places,
				  struct rt_error *err)
{
	struct rt_pegs pegs = {0};
	enum rt_err rc = self->kind ? rt_ring_pegs(&pegs, self->kind, err) : RT_OK;

	for (size_t i = 0; rc == RT_OK && i < self->placed.n; i++) {
		const char *name = self->placed.at[i].point;
		const struct rt_peg *peg = rt_peg_find(&pegs, name);

		if (peg) {
			places[2 * i] = peg->x_m;
			places[2 * i + 1] = peg->y_m;
		}
		for (size_t k = 0; self->points && k < self->points->n; k++) {
			if (strcmp(self->points->at[k].name, name) == 0) {
				places[2 * i] = self->points->at[k].x_m;
				places[2 * i + 1] = self->points->at[k].y_m;
			}
		}
	}
	rt_pegs_free(&pegs);
	return rc;
}

/* Do the points lie as they are meant to only when the two columns are swapped?  Latitudes are
 * turned into metres both ways. */
static enum rt_err seem_swapped(const struct rt__reading_load *self, const double *places,
				const double *metres, const double *other, bool *swapped,
				struct rt_error *err)
{
	double as_is, turned;
	enum rt_err rc = rt__misfit(places, metres, self->placed.n, false, &as_is, err);

	if (rc == RT_OK)
		rc = rt__misfit(places, other ? other : metres, self->placed.n, !other, &turned,
				err);
	*swapped = rc == RT_OK && as_is > SWAPPED_M && turned < SWAPPED_PART * as_is;
	return rc;
}

/* The mean height of the rows, and the heights kept; 0 where there are none. */
static double keep_heights(struct rt__load *l)
{
	struct rt__reading_load *self = l->self;
	double sum = 0, n = 0;

	for (size_t i = 0; i < self->placed.n; i++) {
		const struct rt_receiver_fix *row = &self->placed.at[i];
		struct rt_height *height = isnan(row->height_m) ? NULL : RT_LIST_ADD(self->heights);

		if (isnan(row->height_m))
			continue;
		sum += row->height_m;
		n++;
		if (!height) {
			l->nomem = true;
			return 0;
		}
		*height = (struct rt_height){
			.name = rt_arena_string(&self->heights->text, row->point),
			.height_m = row->height_m,
			.sigma_m = NAN, /* a receiver's sigma_m is that of its place */
			.file = rt_arena_string(&self->heights->text, l->kept_path),
			.line = row->line,
		};
		l->nomem |= !height->name || !height->file;
	}
	return n > 0 ? sum / n : 0;
}

/* Degrees as metres; `swapped`: as if latitude and longitude were the other way round, false where
 * that cannot be. */
static enum rt_err as_metres(const struct rt__reading_load *self, double height_m, bool swapped,
			     double *metres, bool *can, struct rt_error *err)
{
	size_t n = self->placed.n;
	struct rt__geo *geo = calloc(n, sizeof *geo);
	enum rt_err rc = geo ? RT_OK : rt_fail_nomem(err);

	*can = true;
	for (size_t i = 0; rc == RT_OK && i < n; i++) {
		const struct rt_receiver_fix *row = &self->placed.at[i];

		geo[i] = swapped ? (struct rt__geo){row->lon_deg, row->lat_deg}
				 : (struct rt__geo){row->lat_deg, row->lon_deg};
		*can &= fabs(geo[i].lat_deg) <= 90;
	}
	if (rc == RT_OK && *can)
		rc = rt__plane(geo, n, height_m, metres, err);
	free(geo);
	return rc;
}

static int next_frame(const struct rt_readings *out)
{
	int frame = 0;

	for (size_t i = 0; i < out->n; i++)
		frame = out->at[i].frame > frame ? out->at[i].frame : frame;
	return frame + 1;
}

static enum rt_err add_coordinates(struct rt__load *l, const double *metres)
{
	struct rt__reading_load *self = l->self;
	bool own_frame = self->kind || self->degrees;
	int frame = own_frame ? next_frame(self->out) : 0;

	for (size_t i = 0; i < 2 * self->placed.n; i++) {
		const struct rt_receiver_fix *row = &self->placed.at[i / 2];
		struct rt_reading *r = RT_LIST_ADD(self->out);

		if (!r)
			return rt_fail_nomem(l->err);
		*r = (struct rt_reading){
			.kind = i % 2 ? RT_READ_Y : RT_READ_X,
			.at = row->point,
			.value = metres[i],
			.sigma = row->sigma,
			.file = l->kept_path,
			.line = row->line,
			.frame = frame,
		};
	}
	return RT_OK;
}

/* The rows' metres, what they would be with the columns swapped (degrees only), where they are
 * meant to be, and room to sort. */
struct measures {
	double *metres, *other, *places, *order;
	struct rt_arena *room;
};

static enum rt_err measures_make(struct rt__load *l, struct measures *m)
{
	struct rt__reading_load *self = l->self;
	size_t n = self->placed.n;
	bool can = false;
	double height;
	enum rt_err rc;

	m->metres = rt_arena_take(&m->room, 2 * n * sizeof(double));
	m->other = rt_arena_take(&m->room, 2 * n * sizeof(double));
	m->places = rt_arena_take(&m->room, 2 * n * sizeof(double));
	m->order = rt_arena_take(&m->room, n * sizeof(double));
	if (!m->metres || !m->other || !m->places || !m->order)
		return rt_fail_nomem(l->err);
	rc = nominal_places(self, m->places, l->err);
	if (rc == RT_OK && !self->degrees) {
		for (size_t i = 0; i < n; i++) {
			m->metres[2 * i] = self->placed.at[i].x_m;
			m->metres[2 * i + 1] = self->placed.at[i].y_m;
		}
		m->other = NULL;
		return RT_OK;
	}
	height = keep_heights(l);
	if (rc == RT_OK)
		rc = as_metres(self, height, false, m->metres, &can, l->err);
	if (rc == RT_OK)
		rc = as_metres(self, height, true, m->other, &can, l->err);
	if (!can)
		m->other = m->metres; /* no better than as it is */
	return rc;
}

enum rt_err rt__take_coordinates(struct rt__load *l, const char *path)
{
	struct rt__reading_load *self = l->self;
	struct measures m = {0};
	bool swapped = false, metres = !self->degrees;
	size_t told = l->faults->total;
	enum rt_err rc = measures_make(l, &m);

	if (rc == RT_OK && (self->kind || self->points))
		rc = seem_swapped(self, m.places, m.metres, m.other, &swapped, l->err);
	if (swapped)
		rt_fault(l->faults, path, 0, NULL,
			 "%s seem to be swapped: the points lie as they should only the other way "
			 "round",
			 metres ? "x_m and y_m" : "lat_deg and lon_deg");
	if (rc == RT_OK && !swapped && (self->kind || !metres))
		tell_far(l, path, m.metres, m.order);
	if (rc == RT_OK && l->faults->total == told)
		rc = add_coordinates(l, m.metres);
	rt_arena_free(m.room);
	return rc == RT_OK && l->nomem ? rt_fail_nomem(l->err) : rc;
}
