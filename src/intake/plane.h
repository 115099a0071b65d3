/* intake: degrees as metres, and which way round coordinates were written.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_INTAKE_PLANE_H
#define RT_INTAKE_PLANE_H

#include <ringtrue/report.h>

/* A place on WGS84. */
struct rt__geo {
	double lat_deg, lon_deg;
};

/* Can this build turn degrees into metres? */
bool rt__plane_there(void);
/* Metres east and north (2 a place) on the plane square to the plumb line at the middle of the
 * places, height_m over the ellipsoid there.  RT_E_NOMEM, or RT_E_INPUT for places that no plane
 * holds. */
enum rt_err rt__plane(const struct rt__geo *place, size_t n, double height_m, double *metres,
		      struct rt_error *err);

/* How far pairs of coordinates are off places of the same points, root mean square, with the best
 * shift and turn between them; as they are, or with the two of each swapped. */
enum rt_err rt__misfit(const double *places, const double *metres, size_t n, bool swapped,
		       double *rms, struct rt_error *err);

#endif
