/* Latitude and longitude as metres on a plane, by PROJ.
 *
 * A tape tells metres on the ground, so the plane is the one square to the plumb line at the
 * middle of the places and at their height ("topocentric" east and north): 500 m over the
 * ellipsoid a ring is 6 mm longer than a map of it.  At r from its middle such a plane errs by
 * r^3 / 6 R^2, as much as an azimuthal equidistant or a transverse Mercator map: 4 thousandths of a
 * millimetre at a kilometre.  But only it has the height in it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "plane.h"

#include <math.h>
#include <stdio.h>

#ifdef HAVE_PROJ
#include <proj.h>
#endif

#include "../survey/internal.h"

bool rt__plane_there(void)
{
#ifdef HAVE_PROJ
	return true;
#else
	return false;
#endif
}

#ifdef HAVE_PROJ

/* Degrees from `from` to `to`, the short way round. */
static double east_of(double from, double to)
{
	return remainder(to - from, 360);
}

static struct rt__geo middle(const struct rt__geo *place, size_t n)
{
	struct rt__geo m = {0, 0};

	for (size_t i = 0; i < n; i++) {
		m.lat_deg += place[i].lat_deg / (double)n;
		m.lon_deg += east_of(place[0].lon_deg, place[i].lon_deg) / (double)n;
	}
	m.lon_deg = remainder(m.lon_deg + place[0].lon_deg, 360);
	return m;
}

static void say_nothing(void *data, int level, const char *words)
{
	(void)data;
	(void)level;
	(void)words;
}

/* Nothing but the formulas: no files, no network, no words on the console. */
static PJ *plane_at(PJ_CONTEXT *ctx, struct rt__geo at, double height_m)
{
	char lat[40], lon[40], height[40], text[400];

	rt_format_real(at.lat_deg, 12, lat, sizeof lat);
	rt_format_real(at.lon_deg, 12, lon, sizeof lon);
	rt_format_real(height_m, 4, height, sizeof height);
	snprintf(text, sizeof text,
		 "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad "
		 "+step +proj=cart +ellps=WGS84 "
		 "+step +proj=topocentric +ellps=WGS84 +lat_0=%s +lon_0=%s +h_0=%s",
		 lat, lon, height);
	proj_log_func(ctx, NULL, say_nothing);
	proj_context_set_enable_network(ctx, 0);
	return proj_create(ctx, text);
}

enum rt_err rt__plane(const struct rt__geo *place, size_t n, double height_m, double *metres,
		      struct rt_error *err)
{
	PJ_CONTEXT *ctx = proj_context_create();
	PJ *plane = ctx ? plane_at(ctx, middle(place, n), height_m) : NULL;
	enum rt_err e = plane ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; !e && i < n; i++) {
		PJ_COORD c = proj_trans(
			plane, PJ_FWD,
			proj_coord(place[i].lon_deg, place[i].lat_deg, height_m, HUGE_VAL));

		metres[2 * i] = c.enu.e;
		metres[2 * i + 1] = c.enu.n;
		if (!isfinite(c.enu.e) || !isfinite(c.enu.n))
			e = rt_fail(err, RT_E_INPUT,
				    "a latitude and longitude that no plane holds");
	}
	proj_destroy(plane);
	proj_context_destroy(ctx);
	return e;
}

#else

enum rt_err rt__plane(const struct rt__geo *place, size_t n, double height_m, double *metres,
		      struct rt_error *err)
{
	(void)place;
	(void)n;
	(void)height_m;
	(void)metres;
	return rt_fail(err, RT_E_INPUT, "this build of ringtrue reads no latitudes");
}

#endif

enum rt_err rt__misfit(const double *places, const double *metres, size_t n, bool swapped,
		       double *rms, struct rt_error *err)
{
	struct rt_arena *room = NULL;
	double *q = rt_arena_take(&room, 2 * n * sizeof *q);

	if (!q)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < 2 * n; i++)
		q[i] = metres[swapped ? i ^ 1 : i];
	*rms = sqrt(rt__place(places, q, n, NULL).sum / (double)n);
	rt_arena_free(room);
	return RT_OK;
}
