/* What a sweep tells: its rows, and what follows from the tightest arc.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>

static enum rt_err add_part(struct rt_sweep *out, const struct rt_turnout_part *of,
			    struct rt_error *err)
{
	struct rt_swept_part *part = RT_LIST_ADD(&out->parts);

	if (!part)
		return rt_fail_nomem(err);
	part->part = rt_arena_string(&out->parts.text, of->part);
	part->cut_in_at_m = part->steady_cut_in_m = part->stiff_cut_in_m = NAN;
	out->inside_m = fmax(out->inside_m, of->width_m / 2.0);
	out->outside_m = out->inside_m; /* in line */
	return part->part ? RT_OK : rt_fail_nomem(err);
}

static enum rt_err add_arc(struct rt_sweep *out, const struct rt_path *path, size_t piece,
			   const double *cut_in, struct rt_error *err)
{
	struct rt_swept_arc *arc = RT_LIST_ADD(&out->arcs);

	if (!arc)
		return rt_fail_nomem(err);
	*arc = (struct rt_swept_arc){
		.piece = piece,
		.radius_m = fabs(1.0 / path->at[piece].curvature_per_m),
		.turned_deg = path->at[piece].length_m * path->at[piece].curvature_per_m *
			      RT__DEGREES,
		.cut_in_m = cut_in,
		.inside_m = out->inside_m,
		.outside_m = out->outside_m,
	};
	return RT_OK;
}

enum rt_err rt__sweep_rows(struct rt_sweep *out, double **cut_in, const struct rt_path *path,
			   const struct rt_turnout_parts *turnout, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	out->turnout = rt_arena_string(&out->parts.text, turnout->at[0].turnout);
	*cut_in = rt_arena_take(&out->parts.text, (path->n + 1) * turnout->n * sizeof **cut_in);
	if (!out->turnout || !*cut_in)
		return rt_fail_nomem(err);
	for (size_t k = 0; !e && k < turnout->n; k++)
		e = add_part(out, &turnout->at[k], err);
	for (size_t i = 0; !e && i < path->n; i++)
		if (path->at[i].curvature_per_m != 0.0)
			e = add_arc(out, path, i, *cut_in + out->arcs.n * turnout->n, err);
	return e;
}

static void tell_settled(struct rt_sweep *out, const struct rt_turnout_parts *turnout)
{
	double steady[RT_TURNOUT_PARTS_MOST], stiff[RT_TURNOUT_PARTS_MOST];

	rt_turnout_steady(steady, turnout, out->radius_m, out->two_track);
	rt_turnout_stiff(stiff, turnout, out->radius_m);
	for (size_t k = 0; k < turnout->n; k++) {
		out->parts.at[k].steady_cut_in_m = steady[k];
		if (!out->two_track)
			out->parts.at[k].stiff_cut_in_m = stiff[k];
	}
}

static void tell_band(struct rt_sweep *out)
{
	for (size_t i = 0; i < out->arcs.n; i++) {
		out->inside_m = fmax(out->inside_m, out->arcs.at[i].inside_m);
		out->outside_m = fmax(out->outside_m, out->arcs.at[i].outside_m);
	}
	out->width_m = out->inside_m + out->outside_m;
}

static enum rt_err tell_overturning(struct rt_sweep *out, const struct rt_turnout_parts *turnout,
				    double slope_deg, struct rt_error *err)
{
	for (size_t k = 0; k < turnout->n; k++) {
		const struct rt_turnout_part *part = &turnout->at[k];
		struct rt_overturning *row;
		double limit = part->track_m / (2.0 * part->cog_m) - tan(slope_deg / RT__DEGREES);

		if (isnan(limit))
			continue;
		row = RT_LIST_ADD(&out->overturning);
		if (!row)
			return rt_fail_nomem(err);
		row->part = out->parts.at[k].part;
		row->slope_deg = slope_deg;
		row->limit = limit;
		row->share = limit > 0.0 ? out->lateral_m_per_s2 / RT__GRAVITY_M_PER_S2 / limit
					 : NAN;
	}
	return RT_OK;
}

/* What the tightest arc asks of animal and vehicle. */
static void tell_asked(struct rt_sweep *out, const struct rt_turnout_parts *turnout,
		       const struct rt_sweep_options *o)
{
	double v = o->speed_m_per_s > 0.0 ? o->speed_m_per_s : NAN;

	out->bend_deg = turnout->at[0].length_m / out->radius_m * RT__DEGREES;
	out->accepted_bend_deg = o->level ? rt_level_bend_deg(o->level, turnout->at[0].length_m)
					  : NAN;
	out->speed_m_per_s = v;
	out->lateral_m_per_s2 = v * v / out->radius_m;
	out->lean_deg = atan(out->lateral_m_per_s2 / RT__GRAVITY_M_PER_S2) * RT__DEGREES;
}

enum rt_err rt__sweep_results(struct rt_sweep *out, const struct rt__line *line,
			      const struct rt_turnout_parts *turnout,
			      const struct rt_sweep_options *options, struct rt_error *err)
{
	out->length_m = line->length_m;
	out->radius_m = line->arcs ? line->tightest_m : NAN;
	out->diameter_m = 2.0 * out->radius_m;
	out->stiff = !out->two_track && rt__turnout_shafts(turnout) != RT__NONE;
	tell_settled(out, turnout);
	tell_band(out);
	tell_asked(out, turnout, options);
	return tell_overturning(out, turnout, options->slope_deg, err);
}
