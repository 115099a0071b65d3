/* Files of readings: distances, offsets, angles, a receiver's coordinates, heights; the header
 * tells which.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <stdio.h>
#include <string.h>

#include "coordinates.h"

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
	struct rt_receiver_fix *row = data;

	check_name(l, "point", row->point);
	rt__load_path(l); /* for the readings that are made of the rows */
	row->line = l->line;
}

static void keep_placed(struct rt__load *l, void *data)
{
	struct rt__reading_load *self = l->self;
	struct rt_receiver_fix *slot = RT_LIST_ADD(&self->placed);

	if (slot)
		*slot = *(struct rt_receiver_fix *)data;
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

static const struct rt__file distance_file = {&rt_distance_record, check_distance, NULL};
static const struct rt__file offset_file = {&rt_offset_record, check_offset, NULL};
static const struct rt__file angle_file = {&rt_angle_record, check_angle, NULL};
static const struct rt__file metre_file = {&rt_metre_fix_record, check_placed, keep_placed};
static const struct rt__file degree_file = {&rt_degree_fix_record, check_placed, keep_placed};
static const struct rt__file height_file = {&rt_height_record, check_height, NULL};

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
