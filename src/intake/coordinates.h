/* intake: a receiver's coordinates, between the reading of their file and the readings.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_INTAKE_COORDINATES_H
#define RT_INTAKE_COORDINATES_H

#include "internal.h"
#include "plane.h"

/* A file of readings while it is read. */
struct rt__reading_load {
	struct rt_readings *out;
	struct rt_heights *heights;
	const struct rt_ring_kind *kind;
	const struct rt_points *points;
	bool degrees; /* the placed rows are latitudes and longitudes */
	struct rt_receiver_fixes placed;
};

/* Judge the placed rows of a whole file, whose load is l and whose self is a struct
 * rt__reading_load, and add them to its readings. */
enum rt_err rt__take_coordinates(struct rt__load *l, const char *path);

#endif
