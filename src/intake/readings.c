/* Files of readings: distances, offsets, angles, a receiver's coordinates, heights; the header
 * tells which.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "coordinates.h"

#include <stdio.h>
#include <string.h>

/* ---- rows ------------------------------------------------------------------------------------ */

/* A line goes from one point to another, and the point that is off it or sees it is a third. */
static void check_reading(struct rt__load *l, void *data)
{
	const char *what = l->names[RT__PEGS].what;
	const struct rt_reading *row = data;

	if (row->from && row->to && strcmp(row->from, row->to) == 0)
		rt__row_fault(l, "to", "from %s to itself: two different %ss",
			      rt_show(row->from).text, what);
	if (row->at && ((row->from && strcmp(row->at, row->from) == 0) ||
			(row->to && strcmp(row->at, row->to) == 0)))
		rt__row_fault(l, "point", "%s is an end of the line too: three different %ss",
			      rt_show(row->at).text, what);
}

static void keep_placed(struct rt__load *l, void *data)
{
	struct rt__reading_load *self = l->self;
	struct rt_receiver_fix *slot = RT_LIST_ADD(&self->placed);

	rt__load_path(l); /* for the readings that are made of the rows */
	if (slot)
		*slot = *(struct rt_receiver_fix *)data;
	else
		l->nomem = true;
}

/* ---- kinds of file --------------------------------------------------------------------------- */

#define LINE                                                                                       \
	{"from", RT__PEGS},                                                                        \
	{                                                                                          \
		"to", RT__PEGS                                                                     \
	}
#define POINT                                                                                      \
	{                                                                                          \
		"point", RT__PEGS                                                                  \
	}

static const struct rt__file distance_file = {&rt_distance_record, RT__PLACED(struct rt_reading),
					      .names = {LINE}, .check = check_reading};
static const struct rt__file offset_file = {&rt_offset_record, RT__PLACED(struct rt_reading),
					    .names = {POINT, LINE}, .check = check_reading};
static const struct rt__file angle_file = {&rt_angle_record, RT__PLACED(struct rt_reading),
					   .names = {POINT, LINE}, .check = check_reading};
static const struct rt__file metre_file = {&rt_metre_fix_record,
					   .line_at = offsetof(struct rt_receiver_fix, line),
					   .names = {POINT}, .keep = keep_placed};
static const struct rt__file degree_file = {&rt_degree_fix_record,
					    .line_at = offsetof(struct rt_receiver_fix, line),
					    .names = {POINT}, .keep = keep_placed};
static const struct rt__file height_file = {&rt_height_record, RT__PLACED(struct rt_height),
					    .names = {POINT}};

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

enum rt_err rt_read_readings(struct rt_readings *out, struct rt_heights *heights,
			     const struct rt_source *from, const struct rt_ring_kind *kind,
			     const struct rt_points *points, struct rt_faults *faults,
			     struct rt_error *err)
{
	struct rt__reading_load self = {
		.out = out, .heights = heights, .kind = kind, .points = kind ? NULL : points};
	struct rt__load l = rt__load_of(NULL, RT__LIST(out), NULL, faults, err);
	struct rt__names *pegs = &l.names[RT__PEGS];
	size_t told = faults->total;
	enum rt_err rc = RT_OK;
	char where[80];

	l.kind = kinds;
	l.kinds = RT__COUNT(kinds);
	l.chosen = chosen;
	l.self = &self;
	pegs->what = kind ? "letter" : "point";
	if (kind) {
		snprintf(where, sizeof where, "a letter or corner of %s", kind->name);
		pegs->where = where;
		rc = names_of_pegs(pegs, kind, err);
	} else {
		RT__NAMES_FROM(pegs, points);
	}
	if (rc == RT_OK)
		rc = rt__load_all(&l, from);
	else
		rt__load_close(&l);
	if (rc == RT_OK && self.placed.n && faults->total == told)
		rc = rt__take_coordinates(&l, from->path);
	RT_LIST_FREE(&self.placed);
	return rc;
}
