/* Turnouts: finding and judging one, what it does on a full circle, its links for the sweep.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The outer wheel's way inside the boards. */
#define WHEEL_INSIDE_M 0.25

/* A part shorter than this has no length. */
#define LENGTH_LEAST_M 0.01

static bool new_name(const struct rt_turnout_parts *rows, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (strcmp(rows->at[k].turnout, rows->at[i].turnout) == 0)
			return false;
	return true;
}

static enum rt_err unknown(const struct rt_turnout_parts *rows, const char *name,
			   struct rt_error *err)
{
	struct rt_strings names = {0};
	const char **added;
	enum rt_err e;

	for (size_t i = 0; i < rows->n; i++) {
		added = new_name(rows, i) ? RT_LIST_ADD(&names) : NULL;
		if (added)
			*added = rows->at[i].turnout;
	}
	e = rt_fail_unknown(err, name, names.at, names.n, NULL, "unknown turnout \"%s\"", name);
	RT_LIST_FREE(&names);
	return e;
}

static enum rt_err check_part(const struct rt_turnout_part *part, struct rt_error *err)
{
	const char *wrong = NULL;

	if (!(part->length_m >= LENGTH_LEAST_M) || !isfinite(part->length_m))
		wrong = "has no length";
	else if (!(part->width_m > 0.0) || !isfinite(part->width_m))
		wrong = "has no width";
	else if (!isfinite(part->hitch_m))
		wrong = "has no hitch";
	else if ((!isnan(part->track_m) && !(part->track_m > 0.0)) ||
		 (!isnan(part->cog_m) && !(part->cog_m > 0.0)))
		wrong = "has a track or centre of gravity that is not over 0";
	return wrong ? rt_fail(err, RT_E_INPUT, "turnout %s: %s %s", part->turnout, part->part,
			       wrong)
		     : RT_OK;
}

enum rt_err rt_turnout_named(struct rt_turnout_parts *out, const struct rt_turnout_parts *rows,
			     const char *name, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	memset(out, 0, sizeof *out);
	for (size_t i = 0; !e && i < rows->n; i++) {
		struct rt_turnout_part *part;

		if (strcmp(rows->at[i].turnout, name) != 0)
			continue;
		e = check_part(&rows->at[i], err);
		part = e ? NULL : RT_LIST_ADD(out);
		if (part)
			*part = rows->at[i];
		else if (!e)
			e = rt_fail_nomem(err);
	}
	if (!e && out->n == 0)
		e = unknown(rows, name, err);
	if (!e && out->n > RT_TURNOUT_PARTS_MOST)
		e = rt_fail(err, RT_E_INPUT, "turnout %s: %zu parts: accepted: up to %d", name,
			    out->n, RT_TURNOUT_PARTS_MOST);
	if (e)
		RT_LIST_FREE(out);
	return e;
}

double rt_turnout_track(const struct rt_turnout_parts *turnout)
{
	double width = 0.0;

	for (size_t i = 0; i < turnout->n; i++)
		width = fmax(width, turnout->at[i].width_m);
	return width / 2.0 + WHEEL_INSIDE_M;
}

/* ---- on a full circle ----------------------------------------------------------------------- */

void rt_turnout_steady(double *cut_in_m, const struct rt_turnout_parts *turnout, double radius_m,
		       bool two_track)
{
	double square = radius_m * radius_m; /* of an axle's radius; negative or NAN: none */

	for (size_t k = 0; k < turnout->n; k++) {
		double hitch = turnout->at[k].hitch_m, length = turnout->at[k].length_m;

		if (two_track && k == 1)
			hitch = fmax(hitch, 0.0); /* between the feet it is on the circle itself */
		if (!(two_track && k == 0))
			square += hitch * hitch - length * length;
		if (!(square >= 0.0))
			square = NAN;
		cut_in_m[k] = radius_m - sqrt(square);
	}
}

size_t rt__turnout_shafts(const struct rt_turnout_parts *turnout)
{
	for (size_t k = 1; k < turnout->n; k++) {
		double feet = turnout->at[k - 1].length_m;

		if (turnout->at[k].hitch_m < 0.0 && turnout->at[k].hitch_m > -feet)
			return k;
	}
	return RT__NONE;
}

void rt__turnout_stiffen(struct rt_turnout_part *part, const struct rt_turnout_parts *turnout,
			 size_t shafts)
{
	memcpy(part, turnout->at, turnout->n * sizeof *part);
	part[shafts].length_m += part[shafts - 1].length_m + part[shafts].hitch_m;
	part[shafts].hitch_m = -part[shafts - 1].length_m; /* at the fore feet */
}

void rt_turnout_stiff(double *cut_in_m, const struct rt_turnout_parts *turnout, double radius_m)
{
	struct rt_turnout_part part[RT_TURNOUT_PARTS_MOST];
	const struct rt_turnout_parts stiff = {.at = part, .n = turnout->n};
	size_t shafts = rt__turnout_shafts(turnout);

	if (shafts != RT__NONE) {
		rt__turnout_stiffen(part, turnout, shafts);
		rt_turnout_steady(cut_in_m, &stiff, radius_m, false);
	}
	for (size_t k = 0; k < turnout->n && k < shafts; k++)
		cut_in_m[k] = NAN;
}

/* ---- links ---------------------------------------------------------------------------------- */

static struct rt__link link_of(const struct rt_turnout_part *part, size_t k, size_t front)
{
	return (struct rt__link){
		.front = front,
		.hitch = part->hitch_m,
		.length = part->length_m,
		.half_width = part->width_m / 2.0,
		.per_length = 1.0 / part->length_m,
		.part = k,
	};
}

size_t rt__turnout_links(struct rt__link link[static RT__LINKS_MOST],
			 const struct rt_turnout_parts *turnout, bool two_track)
{
	struct rt_turnout_part stiff[RT_TURNOUT_PARTS_MOST];
	size_t shafts = two_track ? RT__NONE : rt__turnout_shafts(turnout);
	size_t n = 0;

	for (size_t k = two_track ? 1 : 0; k < turnout->n; k++, n++)
		link[n] = link_of(&turnout->at[k], k, n);
	if (two_track && n)
		link[0].hitch = fmax(0.0, link[0].hitch);
	if (shafts == RT__NONE)
		return n;
	rt__turnout_stiffen(stiff, turnout, shafts);
	for (size_t k = shafts; k < turnout->n; k++, n++) {
		link[n] = link_of(&stiff[k], k, k == shafts ? shafts : n);
		link[n].stiff = true;
	}
	return n;
}
