/* The records of readings of every kind, and of points.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* ---- readers --------------------------------------------------------------------------------- */

static enum rt_err read_distance(const struct rt_field *f, void *member, const char *s,
				 struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt_refuse(err, s, v < 0 ? "is less than nothing" : "is no distance",
				 "metres, over 0");
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

/* ---- readings between pegs ------------------------------------------------------------------- */

#define SIGMA_HELP    .help = "how sure it is, a standard error; empty: as usual"
#define READING(name) RT_AT(struct rt_reading, name)
#define NAME	      .type = RT_NAME
#define NOTE                                                                                       \
	{                                                                                          \
		"note", READING(note), .type = RT_TEXT, .is = RT_OPTIONAL, .help = "any words",    \
				       .example = {                                                \
					       "",                                                 \
					       "windy"                                             \
				       }                                                           \
	}

static const struct rt_field distance_fields[] = {
	{"from", READING(from), NAME, .help = "the peg at the tape's zero", .example = {"A", "AK"}},
	{"to", READING(to), NAME, .help = "the peg that is read at", .example = {"C", "HC"}},
	{"distance_m", READING(value), .type = RT_REAL, .read = read_distance, .low = 0.001,
	 .high = 1000000, .measure = "m", .help = "what the tape says",
	 .example = {"40.02", "40.01"}},
	{"sigma_m", READING(sigma), RT_SIGMA("m"), SIGMA_HELP, .example = {"", "0.02"}},
	NOTE,
};

#define OF_PEG                                                                                     \
	{                                                                                          \
		"point", READING(at), NAME, .help = "the peg it is of", .example = { "C", "A" }    \
	}

static const struct rt_field offset_fields[] = {
	OF_PEG,
	{"from", READING(from), NAME, .help = "where the string begins", .example = {"HC", "FA"}},
	{"to", READING(to), NAME, .help = "where the string ends", .example = {"CM", "AK"}},
	{"offset_m", READING(value), .type = RT_REAL, .low = -1000, .high = 1000, .measure = "m",
	 .help = "how far the peg is off the string, to the right of who looks along it",
	 .example = {"0.01", "-0.02"}},
	{"sigma_m", READING(sigma), RT_SIGMA("m"), SIGMA_HELP, .example = {"", "0.02"}},
	NOTE,
};

static const struct rt_field angle_fields[] = {
	{"point", READING(at), NAME, .help = "the peg where it was measured",
	 .example = {"AK", "HC"}},
	{"from", READING(from), NAME, .help = "where 0 degrees is", .example = {"HC", "CM"}},
	{"to", READING(to), NAME, .help = "what is looked at", .example = {"FA", "AK"}},
	{"angle_deg", READING(value), .type = RT_REAL, .read = read_angle, .low = 0, .high = 360,
	 .measure = "degrees", .help = "clockwise from the one to the other",
	 .example = {"90.02", "89.98"}},
	{"sigma_deg", READING(sigma), RT_SIGMA("degrees"), SIGMA_HELP, .example = {"", "0.1"}},
	NOTE,
};

#define READINGS(fields_, kind_)                                                                   \
	.many = "readings", .title = "Readings", RT_FIELDS(fields_),                               \
	.size = sizeof(struct rt_reading), .blank = &(const struct rt_reading)                     \
	{                                                                                          \
		.kind = (kind_), .sigma = NAN                                                      \
	}

const struct rt_record rt_distance_record = {"distance",
					     READINGS(distance_fields, RT_READ_DISTANCE),
					     .help = "A distance by tape between two pegs."};
const struct rt_record rt_offset_record = {"offset", READINGS(offset_fields, RT_READ_OFFSET),
					   .help = "How far a peg is off a string."};
const struct rt_record rt_angle_record = {"angle", READINGS(angle_fields, RT_READ_ANGLE),
					  .help = "An angle between two pegs, seen from a third."};

/* ---- a receiver's fixes ---------------------------------------------------------------------- */

#define FIX(name)  RT_AT(struct rt_receiver_fix, name)
#define COORDINATE .type = RT_REAL, .low = -1e8, .high = 1e8, .measure = "m"

static const struct rt_field metre_fields[] = {
	{"point", FIX(point), NAME, .help = "the peg", .example = {"A", "C"}},
	{"x_m", FIX(x_m), COORDINATE, .help = "how far east", .example = {"512.31", "512.30"}},
	{"y_m", FIX(y_m), COORDINATE, .help = "how far north", .example = {"208.02", "248.01"}},
	{"sigma_m", FIX(sigma), RT_SIGMA("m"), SIGMA_HELP, .example = {"", "0.01"}},
};

static const struct rt_field degree_fields[] = {
	{"point", FIX(point), NAME, .help = "the peg", .example = {"A", "C"}},
	{"lat_deg", FIX(lat_deg), .type = RT_REAL, .read = read_latitude, .low = -90, .high = 90,
	 .measure = "degrees", .help = "the latitude on WGS84",
	 .example = {"52.1000000", "52.1003595"}},
	{"lon_deg", FIX(lon_deg), .type = RT_REAL, .low = -180, .high = 180, .measure = "degrees",
	 .help = "the longitude", .example = {"5.3000000", "5.3000000"}},
	{"height_m", FIX(height_m), .type = RT_REAL, .is = RT_OPTIONAL, .low = RT_HEIGHT_LEAST_M,
	 .high = RT_HEIGHT_MOST_M, .measure = "m", .help = "the height, if it was kept",
	 .example = {"42.10", "42.18"}},
	{"sigma_m", FIX(sigma), RT_SIGMA("m"), SIGMA_HELP, .example = {"", "0.02"}},
};

static const struct rt_receiver_fix blank_fix = {.height_m = NAN, .sigma = NAN};

#define FIXES(fields_)                                                                             \
	.many = "fixes", .title = "Fixes", RT_FIELDS(fields_), .size = sizeof blank_fix,           \
	.blank = &blank_fix

const struct rt_record rt_metre_fix_record = {"coordinate", FIXES(metre_fields),
					      .help = "Where a receiver says a peg is, in metres."};
const struct rt_record rt_degree_fix_record = {
	"latitude", FIXES(degree_fields),
	.help = "Where a receiver says a peg is, in latitude and longitude."};

/* ---- points ---------------------------------------------------------------------------------- */

static const struct rt_field point_fields[] = {
	{"point", RT_AT(struct rt_point, name), NAME, .is = RT_KEY, .help = "what readings call it",
	 .example = {"p1", "p2"}},
	{"x_m", RT_AT(struct rt_point, x_m), COORDINATE, .help = "about how far east",
	 .example = {"0", "30"}},
	{"y_m", RT_AT(struct rt_point, y_m), COORDINATE, .help = "about how far north",
	 .example = {"0", "40"}},
	{"fixed", RT_AT(struct rt_point, fixed), .type = RT_BOOL,
	 .help = "yes: it is known and stays; with none the readings fix all",
	 .example = {"yes", "no"}},
};

const struct rt_record rt_point_record = {
	"point",
	"points",
	"Points",
	RT_FIELDS(point_fields),
	.size = sizeof(struct rt_point),
	.help = "A point for `adjust`, and where it is about.",
};
