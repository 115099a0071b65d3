/* Files of readings: distances, offsets, angles, a receiver's coordinates, heights; the header
 * tells which.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "plane.h"

#define FAR_M	     2000.0 /* from the other points of the file: no ring is so large */
#define SWAPPED_M    1.0    /* off the nominal places, before a swap is thought of */
#define SWAPPED_PART 0.2    /* and so much less is left of that once swapped */

/* A receiver's row: metres x and y, or latitude and longitude. */
struct placed {
	const char *point;
	double x_m, y_m;
	struct rt__geo geo;
	double height_m; /* NAN: none */
	double sigma;
	long line;
};

struct placed_rows RT_LIST(struct placed);

struct reading_load {
	struct rt_readings *out;
	struct rt_heights *heights;
	const struct rt_ring_kind *kind;
	const struct rt_points *points;
	struct rt__names pegs;
	struct placed_rows placed;
};

/* ---- fields ---------------------------------------------------------------------------------- */

static bool read_distance(struct rt__load *l, const char *s, void *field)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt__refuse(l, s, v < 0 ? "is less than nothing" : "is no distance",
				  "metres, over 0");
	return rt__cell_real(l, s, field);
}

static bool read_sigma(struct rt__load *l, const char *s, void *field)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt__refuse(l, s,
				  v < 0 ? "is less than nothing"
					: "would mean that this reading cannot be wrong",
				  "a standard error over 0, or an empty field for the usual one");
	return rt__cell_real(l, s, field);
}

static bool read_angle(struct rt__load *l, const char *s, void *field)
{
	double v;

	if (rt_parse_real(s, &v) && (v < 0 || v > 360))
		return rt__refuse(l, s, "is out of range",
				  "degrees clockwise, from 0 to 360 (a right angle to the left is "
				  "270)");
	return rt__cell_real(l, s, field);
}

static bool read_latitude(struct rt__load *l, const char *s, void *field)
{
	double v;

	if (rt_parse_real(s, &v) && fabs(v) > 90 && fabs(v) <= 180)
		return rt__refuse(
			l, s, "is no latitude",
			"degrees from -90 to 90; latitude and longitude seem to be swapped");
	return rt__cell_real(l, s, field);
}

/* ---- columns --------------------------------------------------------------------------------- */

#define READ_FROM                                                                                  \
	{                                                                                          \
		RT__COLUMN("from", rt__cell_name, struct rt_reading, from)                         \
	}
#define READ_TO                                                                                    \
	{                                                                                          \
		RT__COLUMN("to", rt__cell_name, struct rt_reading, to)                             \
	}
#define READ_AT                                                                                    \
	{                                                                                          \
		RT__COLUMN("point", rt__cell_name, struct rt_reading, at)                          \
	}
#define READ_NOTE                                                                                  \
	{                                                                                          \
		RT__COLUMN("note", rt__cell_text, struct rt_reading, note), .optional = true       \
	}
#define SIGMA(type, field)                                                                         \
	{                                                                                          \
		RT__COLUMN("sigma_m", read_sigma, type, field), .optional = true, .low = 0.0001,   \
								.high = 10, .unit = "m"            \
	}

static const struct rt__column distance_columns[] = {
	READ_FROM,
	READ_TO,
	{RT__COLUMN("distance_m", read_distance, struct rt_reading, value), .low = 0.001,
	 .high = 1000000, .unit = "m"},
	SIGMA(struct rt_reading, sigma),
	READ_NOTE,
};

static const struct rt__column offset_columns[] = {
	READ_AT,
	READ_FROM,
	READ_TO,
	{RT__COLUMN("offset_m", rt__cell_real, struct rt_reading, value), .low = -1000,
	 .high = 1000, .unit = "m"},
	SIGMA(struct rt_reading, sigma),
	READ_NOTE,
};

static const struct rt__column angle_columns[] = {
	READ_AT,
	READ_FROM,
	READ_TO,
	{RT__COLUMN("angle_deg", read_angle, struct rt_reading, value), .low = 0, .high = 360,
	 .unit = "degrees"},
	{RT__COLUMN("sigma_deg", read_sigma, struct rt_reading, sigma), .optional = true,
	 .low = 0.0001, .high = 10, .unit = "degrees"},
	READ_NOTE,
};

#define PLACED_POINT                                                                               \
	{                                                                                          \
		RT__COLUMN("point", rt__cell_name, struct placed, point)                           \
	}
#define HEIGHT .low = -500, .high = 9000, .unit = "m"

static const struct rt__column metre_columns[] = {
	PLACED_POINT,
	{RT__COLUMN("x_m", rt__cell_real, struct placed, x_m), .low = -1e8, .high = 1e8,
	 .unit = "m"},
	{RT__COLUMN("y_m", rt__cell_real, struct placed, y_m), .low = -1e8, .high = 1e8,
	 .unit = "m"},
	SIGMA(struct placed, sigma),
};

static const struct rt__column degree_columns[] = {
	PLACED_POINT,
	{RT__COLUMN("lat_deg", read_latitude, struct placed, geo.lat_deg), .low = -90, .high = 90,
	 .unit = "degrees"},
	{RT__COLUMN("lon_deg", rt__cell_real, struct placed, geo.lon_deg), .low = -180, .high = 180,
	 .unit = "degrees"},
	{RT__COLUMN("height_m", rt__cell_real, struct placed, height_m), .optional = true, HEIGHT},
	SIGMA(struct placed, sigma),
};

static const struct rt__column height_columns[] = {
	{RT__COLUMN("point", rt__cell_name, struct rt_height, name)},
	{RT__COLUMN("height_m", rt__cell_real, struct rt_height, height_m), HEIGHT},
	SIGMA(struct rt_height, sigma_m),
};

/* ---- rows ------------------------------------------------------------------------------------ */

static void check_name(struct rt__load *l, const char *column, const char *name)
{
	const struct reading_load *self = l->self;

	rt__known(l, &self->pegs, column, name);
}

static void check_two(struct rt__load *l, const char *column, const char *a, const char *b)
{
	const struct reading_load *self = l->self;

	if (a && b && strcmp(a, b) == 0)
		rt__row_fault(l, column, "from %s to itself: two different %ss", rt__show(a).text,
			      self->pegs.what);
}

static void check_line(struct rt__load *l, struct rt_reading *row)
{
	check_name(l, "from", row->from);
	check_name(l, "to", row->to);
	check_two(l, "to", row->from, row->to);
	row->file = rt__load_path(l);
	row->line = l->line;
}

static void check_distance(struct rt__load *l, void *data)
{
	check_line(l, data);
}

static void check_of_point(struct rt__load *l, struct rt_reading *row)
{
	const struct reading_load *self = l->self;

	check_name(l, "point", row->at);
	check_line(l, row);
	if (row->at && ((row->from && strcmp(row->at, row->from) == 0) ||
			(row->to && strcmp(row->at, row->to) == 0)))
		rt__row_fault(l, "point", "%s is an end of the line too: three different %ss",
			      rt__show(row->at).text, self->pegs.what);
}

static void check_offset(struct rt__load *l, void *data)
{
	struct rt_reading *row = data;

	row->kind = RT_READ_OFFSET;
	check_of_point(l, row);
}

static void check_angle(struct rt__load *l, void *data)
{
	struct rt_reading *row = data;

	row->kind = RT_READ_ANGLE;
	check_of_point(l, row);
}

static void check_placed(struct rt__load *l, void *data)
{
	struct placed *row = data;

	check_name(l, "point", row->point);
	rt__load_path(l); /* for the readings that are made of the rows */
	row->line = l->line;
}

static void keep_placed(struct rt__load *l, void *data)
{
	struct reading_load *self = l->self;
	struct placed *slot = RT_LIST_ADD(&self->placed);

	if (slot)
		*slot = *(struct placed *)data;
	else
		l->nomem = true;
}

static void check_height(struct rt__load *l, void *data)
{
	struct rt_height *row = data;

	check_name(l, "point", row->name);
	row->file = rt__load_path(l);
	row->line = l->line;
}

/* ---- kinds of file --------------------------------------------------------------------------- */

static const struct rt_reading blank_reading = {.sigma = NAN};
static const struct placed blank_placed = {.height_m = NAN, .sigma = NAN};
static const struct rt_height blank_height = {.sigma_m = NAN};

#define READINGS(columns, check)                                                                   \
	{                                                                                          \
		columns, RT__COUNT(columns), sizeof blank_reading, &blank_reading, check, NULL     \
	}
#define PLACED(columns)                                                                            \
	{                                                                                          \
		columns, RT__COUNT(columns), sizeof blank_placed, &blank_placed, check_placed,     \
			keep_placed                                                                \
	}

static const struct rt__file distance_file = READINGS(distance_columns, check_distance);
static const struct rt__file offset_file = READINGS(offset_columns, check_offset);
static const struct rt__file angle_file = READINGS(angle_columns, check_angle);
static const struct rt__file metre_file = PLACED(metre_columns);
static const struct rt__file degree_file = PLACED(degree_columns);
static const struct rt__file height_file = {height_columns,	 RT__COUNT(height_columns),
					    sizeof blank_height, &blank_height,
					    check_height,	 NULL};

static const struct rt__file *const kinds[] = {&distance_file, &offset_file, &angle_file,
					       &metre_file,    &degree_file, &height_file};

static void chosen(struct rt__load *l)
{
	struct reading_load *self = l->self;

	if (l->file == &height_file)
		l->list = RT__LIST(self->heights);
	if (l->file == &degree_file && !rt__plane_there()) {
		rt__row_fault(l, "lat_deg",
			      "this build of ringtrue reads no latitudes: x_m and y_m in metres, "
			      "or build it with PROJ");
		l->head_bad = true;
	}
}

/* ---- coordinates ----------------------------------------------------------------------------- */

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
	const struct reading_load *self = l->self;
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
			 rt__show(self->placed.at[i].point).text, km);
	}
}

/* Where the points of the rows are meant to be, 2 a row. */
static enum rt_err nominal_places(const struct reading_load *self, double *places,
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
static enum rt_err seem_swapped(const struct reading_load *self, const double *places,
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
	struct reading_load *self = l->self;
	double sum = 0, n = 0;

	for (size_t i = 0; i < self->placed.n; i++) {
		const struct placed *row = &self->placed.at[i];
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
static enum rt_err as_metres(const struct reading_load *self, double height_m, bool swapped,
			     double *metres, bool *can, struct rt_error *err)
{
	size_t n = self->placed.n;
	struct rt__geo *geo = calloc(n, sizeof *geo);
	enum rt_err rc = geo ? RT_OK : rt_fail_nomem(err);

	*can = true;
	for (size_t i = 0; rc == RT_OK && i < n; i++) {
		geo[i] = self->placed.at[i].geo;
		if (swapped)
			geo[i] = (struct rt__geo){geo[i].lon_deg, geo[i].lat_deg};
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
	struct reading_load *self = l->self;
	bool own_frame = self->kind || l->file == &degree_file;
	int frame = own_frame ? next_frame(self->out) : 0;

	for (size_t i = 0; i < 2 * self->placed.n; i++) {
		const struct placed *row = &self->placed.at[i / 2];
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
	struct reading_load *self = l->self;
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
	if (rc == RT_OK && l->file == &metre_file) {
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

/* Judge the coordinates of a whole file, and add them to the readings. */
static enum rt_err take_coordinates(struct rt__load *l, const char *path)
{
	struct reading_load *self = l->self;
	struct measures m = {0};
	bool swapped = false, metres = l->file == &metre_file;
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

/* ---- the file -------------------------------------------------------------------------------- */

/* The letters and corners of the kind. */
static enum rt_err names_of_pegs(struct rt__names *names, const struct rt_ring_kind *kind,
				 struct rt_error *err)
{
	struct rt_pegs pegs = {0};
	enum rt_err rc = rt_ring_pegs(&pegs, kind, err);

	for (size_t i = 0; rc == RT_OK && i < pegs.n; i++)
		rt__names_add(names, pegs.at[i].name);
	rt_pegs_free(&pegs);
	return rc;
}

enum rt_err rt_read_readings(struct rt_readings *out, struct rt_heights *heights, const char *path,
			     const struct rt_ring_kind *kind, const struct rt_points *points,
			     struct rt_faults *faults, struct rt_error *err)
{
	struct reading_load self = {.out = out,
				    .heights = heights,
				    .kind = kind,
				    .points = kind ? NULL : points,
				    .pegs = {.what = kind ? "letter" : "point"}};
	struct rt__load l = {.file = &distance_file,
			     .kind = kinds,
			     .kinds = RT__COUNT(kinds),
			     .chosen = chosen,
			     .faults = faults,
			     .err = err,
			     .self = &self,
			     .list = RT__LIST(out)};
	size_t told = faults->total;
	enum rt_err rc = RT_OK;
	char where[80];

	if (kind) {
		snprintf(where, sizeof where, "a letter or corner of %s", kind->name);
		self.pegs.where = where;
		rc = names_of_pegs(&self.pegs, kind, err);
	} else {
		RT__NAMES_FROM(&self.pegs, points);
	}
	if (rc == RT_OK)
		rc = rt__load_all(&l, path);
	if (rc == RT_OK && self.placed.n && faults->total == told)
		rc = take_coordinates(&l, path);
	rt__names_free(&self.pegs);
	RT_LIST_FREE(&self.placed);
	return rc;
}
