/* Files of readings: distances, offsets, angles, a receiver's coordinates, heights; the header
 * tells which.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "coordinates.h"

/* ---- fields ---------------------------------------------------------------------------------- */

static enum rt_err read_distance(const struct rt_field *f, void *member, const char *s,
				 struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt_refuse(err, s, v < 0 ? "is less than nothing" : "is no distance",
				 "metres, over 0");
	return rt_member_read(f, member, s, text, err);
}

static enum rt_err read_sigma(const struct rt_field *f, void *member, const char *s,
			      struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt_refuse(err, s,
				 v < 0 ? "is less than nothing"
				       : "would mean that this reading cannot be wrong",
				 "a standard error over 0, or an empty field for the usual one");
	return rt_member_read(f, member, s, text, err);
}

static enum rt_err read_angle(const struct rt_field *f, void *member, const char *s,
			      struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && (v < 0 || v > 360))
		return rt_refuse(err, s, "is out of range",
				 "degrees clockwise, from 0 to 360 (a right angle to the left is "
				 "270)");
	return rt_member_read(f, member, s, text, err);
}

static enum rt_err read_latitude(const struct rt_field *f, void *member, const char *s,
				 struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && fabs(v) > 90 && fabs(v) <= 180)
		return rt_refuse(
			err, s, "is no latitude",
			"degrees from -90 to 90; latitude and longitude seem to be swapped");
	return rt_member_read(f, member, s, text, err);
}

/* ---- columns --------------------------------------------------------------------------------- */

#define READ_FROM                                                                                  \
	{                                                                                          \
		"from", RT_AT(struct rt_reading, from), .type = RT_NAME                            \
	}
#define READ_TO                                                                                    \
	{                                                                                          \
		"to", RT_AT(struct rt_reading, to), .type = RT_NAME                                \
	}
#define READ_AT                                                                                    \
	{                                                                                          \
		"point", RT_AT(struct rt_reading, at), .type = RT_NAME                             \
	}
#define READ_NOTE                                                                                  \
	{                                                                                          \
		"note", RT_AT(struct rt_reading, note), .type = RT_TEXT, .is = RT_OPTIONAL         \
	}
#define SIGMA(row, field)                                                                          \
	{                                                                                          \
		"sigma_m", RT_AT(row, field), .type = RT_REAL, .read = read_sigma,                 \
					      .is = RT_OPTIONAL, .low = 0.0001, .high = 10,        \
					      .measure = "m"                                       \
	}

static const struct rt_field distance_columns[] = {
	READ_FROM,
	READ_TO,
	{"distance_m", RT_AT(struct rt_reading, value), .type = RT_REAL, .read = read_distance,
	 .low = 0.001, .high = 1000000, .measure = "m"},
	SIGMA(struct rt_reading, sigma),
	READ_NOTE,
};

static const struct rt_field offset_columns[] = {
	READ_AT,
	READ_FROM,
	READ_TO,
	{"offset_m", RT_AT(struct rt_reading, value), .type = RT_REAL, .low = -1000, .high = 1000,
	 .measure = "m"},
	SIGMA(struct rt_reading, sigma),
	READ_NOTE,
};

static const struct rt_field angle_columns[] = {
	READ_AT,
	READ_FROM,
	READ_TO,
	{"angle_deg", RT_AT(struct rt_reading, value), .type = RT_REAL, .read = read_angle,
	 .low = 0, .high = 360, .measure = "degrees"},
	{"sigma_deg", RT_AT(struct rt_reading, sigma), .type = RT_REAL, .read = read_sigma,
	 .is = RT_OPTIONAL, .low = 0.0001, .high = 10, .measure = "degrees"},
	READ_NOTE,
};

#define PLACED_POINT                                                                               \
	{                                                                                          \
		"point", RT_AT(struct rt__placed, point), .type = RT_NAME                          \
	}
#define HEIGHT .low = -500, .high = 9000, .measure = "m"

static const struct rt_field metre_columns[] = {
	PLACED_POINT,
	{"x_m", RT_AT(struct rt__placed, x_m), .type = RT_REAL, .low = -1e8, .high = 1e8,
	 .measure = "m"},
	{"y_m", RT_AT(struct rt__placed, y_m), .type = RT_REAL, .low = -1e8, .high = 1e8,
	 .measure = "m"},
	SIGMA(struct rt__placed, sigma),
};

static const struct rt_field degree_columns[] = {
	PLACED_POINT,
	{"lat_deg", RT_AT(struct rt__placed, geo.lat_deg), .type = RT_REAL, .read = read_latitude,
	 .low = -90, .high = 90, .measure = "degrees"},
	{"lon_deg", RT_AT(struct rt__placed, geo.lon_deg), .type = RT_REAL, .low = -180,
	 .high = 180, .measure = "degrees"},
	{"height_m", RT_AT(struct rt__placed, height_m), .type = RT_REAL, .is = RT_OPTIONAL,
	 HEIGHT},
	SIGMA(struct rt__placed, sigma),
};

static const struct rt_field height_columns[] = {
	{"point", RT_AT(struct rt_height, name), .type = RT_NAME},
	{"height_m", RT_AT(struct rt_height, height_m), .type = RT_REAL, HEIGHT},
	SIGMA(struct rt_height, sigma_m),
};

/* ---- rows ------------------------------------------------------------------------------------ */

static void check_name(struct rt__load *l, const char *column, const char *name)
{
	const struct rt__reading_load *self = l->self;

	rt__known(l, &self->pegs, column, name);
}

static void check_two(struct rt__load *l, const char *column, const char *a, const char *b)
{
	const struct rt__reading_load *self = l->self;

	if (a && b && strcmp(a, b) == 0)
		rt__row_fault(l, column, "from %s to itself: two different %ss", rt_show(a).text,
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
	const struct rt__reading_load *self = l->self;

	check_name(l, "point", row->at);
	check_line(l, row);
	if (row->at && ((row->from && strcmp(row->at, row->from) == 0) ||
			(row->to && strcmp(row->at, row->to) == 0)))
		rt__row_fault(l, "point", "%s is an end of the line too: three different %ss",
			      rt_show(row->at).text, self->pegs.what);
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
	struct rt__placed *row = data;

	check_name(l, "point", row->point);
	rt__load_path(l); /* for the readings that are made of the rows */
	row->line = l->line;
}

static void keep_placed(struct rt__load *l, void *data)
{
	struct rt__reading_load *self = l->self;
	struct rt__placed *slot = RT_LIST_ADD(&self->placed);

	if (slot)
		*slot = *(struct rt__placed *)data;
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
static const struct rt__placed blank_placed = {.height_m = NAN, .sigma = NAN};
static const struct rt_height blank_height = {.sigma_m = NAN};

static const struct rt_record distance_record = {
	RT_FIELDS(distance_columns), .size = sizeof blank_reading, .blank = &blank_reading};
static const struct rt_record offset_record = {
	RT_FIELDS(offset_columns), .size = sizeof blank_reading, .blank = &blank_reading};
static const struct rt_record angle_record = {
	RT_FIELDS(angle_columns), .size = sizeof blank_reading, .blank = &blank_reading};
static const struct rt_record metre_record = {RT_FIELDS(metre_columns), .size = sizeof blank_placed,
					      .blank = &blank_placed};
static const struct rt_record degree_record = {RT_FIELDS(degree_columns),
					       .size = sizeof blank_placed, .blank = &blank_placed};
static const struct rt_record height_record = {RT_FIELDS(height_columns),
					       .size = sizeof blank_height, .blank = &blank_height};

static const struct rt__file distance_file = {&distance_record, check_distance, NULL};
static const struct rt__file offset_file = {&offset_record, check_offset, NULL};
static const struct rt__file angle_file = {&angle_record, check_angle, NULL};
static const struct rt__file metre_file = {&metre_record, check_placed, keep_placed};
static const struct rt__file degree_file = {&degree_record, check_placed, keep_placed};
static const struct rt__file height_file = {&height_record, check_height, NULL};

static const struct rt__file *const kinds[] = {&distance_file, &offset_file, &angle_file,
					       &metre_file,    &degree_file, &height_file};

static void chosen(struct rt__load *l)
{
	struct rt__reading_load *self = l->self;

	if (l->file == &height_file)
		l->list = RT__LIST(self->heights);
	self->degrees = l->file == &degree_file;
	if (l->file == &degree_file && !rt__plane_there()) {
		rt__row_fault(l, "lat_deg",
			      "this build of ringtrue reads no latitudes: x_m and y_m in metres, "
			      "or build it with PROJ");
		l->head_bad = true;
	}
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
	struct rt__reading_load self = {.out = out,
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
		rc = rt__take_coordinates(&l, path);
	rt__names_free(&self.pegs);
	RT_LIST_FREE(&self.placed);
	return rc;
}
