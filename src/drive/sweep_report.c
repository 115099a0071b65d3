/* The sweep as a report, and what a turnout adds to a table of turns.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"
#include "sweep_internal.h"

#include <math.h>
#include <string.h>

#define COLUMNS(array) (sizeof(array) / sizeof *(array))

static const struct rt_field part_columns[] = {
	{"part", "part", RT_TEXT, RT_NO_UNIT, 0, false},
	{"cut_in_m", "cut-in", RT_REAL, RT_METRE, 3, false},
	{"steady_cut_in_m", "steady", RT_REAL, RT_METRE, 3, false},
	{"stiff_cut_in_m", "stiff shafts", RT_REAL, RT_METRE, 3, false},
	{"cut_in_at_m", "fore feet at", RT_REAL, RT_METRE, 1, true},
};

static const struct rt_field band_columns[] = {
	{"turnout", "turnout", RT_TEXT, RT_NO_UNIT, 0, false},
	{"length_m", "path", RT_REAL, RT_METRE, 1, false},
	{"inside_m", "inside", RT_REAL, RT_METRE, 2, false},
	{"outside_m", "outside", RT_REAL, RT_METRE, 2, false},
	{"width_m", "width", RT_REAL, RT_METRE, 2, false},
};

static const struct rt_field asked_columns[] = {
	{"diameter_m", "tightest", RT_REAL, RT_METRE, 1, false},
	{"bend_deg", "bend", RT_REAL, RT_DEGREE, 1, false},
	{"accepted_bend_deg", "accepted", RT_REAL, RT_DEGREE, 1, false},
	{"speed_m_per_s", "m/s", RT_REAL, RT_NO_UNIT, 2, false},
	{"lateral_m_per_s2", "sideways m/s2", RT_REAL, RT_NO_UNIT, 2, false},
	{"lean_deg", "lean", RT_REAL, RT_DEGREE, 1, false},
};

static const struct rt_field overturning_columns[] = {
	{"part", "part", RT_TEXT, RT_NO_UNIT, 0, false},
	{"limit_g", "tips at g", RT_REAL, RT_NO_UNIT, 2, false},
	{"slope_deg", "slope", RT_REAL, RT_DEGREE, 1, false},
	{"share_percent", "used", RT_REAL, RT_PERCENT, 0, false},
};

static const struct rt_field entry_columns[] = {
	{"left_m", "left", RT_REAL, RT_METRE, 2, false},
	{"right_m", "right", RT_REAL, RT_METRE, 2, false},
	{"width_m", "opening at least", RT_REAL, RT_METRE, 2, false},
};

static const struct rt_field near_columns[] = {
	{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
	{"distance_m", "nearest", RT_REAL, RT_METRE, 2, false},
	{"part", "part", RT_TEXT, RT_NO_UNIT, 0, false},
	{"x_m", "x", RT_REAL, RT_METRE, 2, true},
	{"y_m", "y", RT_REAL, RT_METRE, 2, true},
};

static const struct rt_field swept_columns[] = {
	{"turn", "turn", RT_TEXT, RT_NO_UNIT, 0, false},
	{"hand", "hand", RT_TEXT, RT_NO_UNIT, 0, false},
	{"part", "part", RT_TEXT, RT_NO_UNIT, 0, false},
	{"cut_in_m", "cut-in", RT_REAL, RT_METRE, 2, false},
	{"inside_m", "inside", RT_REAL, RT_METRE, 2, false},
	{"outside_m", "outside", RT_REAL, RT_METRE, 2, false},
	{"figure", "figure", RT_INT, RT_NO_UNIT, 0, true},
};

static void put_parts(struct rt_report *r, const struct rt_sweep *s)
{
	struct rt_table *t = rt_report_table(r, "parts", "What follows the fore feet", part_columns,
					     COLUMNS(part_columns));

	for (size_t i = 0; i < s->parts.n; i++) {
		const struct rt_swept_part *part = &s->parts.at[i];

		rt_put_text(t, part->part);
		rt_put_real(t, part->cut_in_m);
		rt_put_real(t, part->steady_cut_in_m);
		rt_put_real(t, part->stiff_cut_in_m);
		rt_put_real(t, part->cut_in_at_m);
	}
}

static void put_band(struct rt_report *r, const struct rt_sweep *s)
{
	struct rt_table *t = rt_report_table(r, "band", "Band of the wheels and feet", band_columns,
					     COLUMNS(band_columns));

	rt_put_text(t, s->turnout);
	rt_put_real(t, s->length_m);
	rt_put_real(t, s->inside_m);
	rt_put_real(t, s->outside_m);
	rt_put_real(t, s->inside_m + s->outside_m);
}

static void put_asked(struct rt_report *r, const struct rt_sweep *s)
{
	struct rt_table *t;

	if (isnan(s->radius_m))
		return;
	t = rt_report_table(r, "asked", "Asked in the tightest turn", asked_columns,
			    COLUMNS(asked_columns));
	rt_put_real(t, 2.0 * s->radius_m);
	rt_put_real(t, s->bend_deg);
	rt_put_real(t, s->accepted_bend_deg);
	rt_put_real(t, s->speed_m_per_s);
	rt_put_real(t, s->lateral_m_per_s2);
	rt_put_real(t, s->lean_deg);
}

static void put_overturning(struct rt_report *r, const struct rt_sweep *s)
{
	struct rt_table *t;

	if (s->overturning.n == 0)
		return;
	t = rt_report_table(r, "overturning", "Overturning", overturning_columns,
			    COLUMNS(overturning_columns));
	for (size_t i = 0; i < s->overturning.n; i++) {
		rt_put_text(t, s->overturning.at[i].part);
		rt_put_real(t, s->overturning.at[i].limit);
		rt_put_real(t, s->slope_deg);
		rt_put_real(t, 100.0 * s->overturning.at[i].share);
	}
}

static void put_near(struct rt_report *r, const struct rt_sweep *s)
{
	struct rt_table *t;

	if (!isnan(s->entry_left_m)) {
		t = rt_report_table(r, "entry", "Way in at A, from its middle", entry_columns,
				    COLUMNS(entry_columns));
		rt_put_real(t, s->entry_left_m);
		rt_put_real(t, s->entry_right_m);
		rt_put_real(t, 2.0 * fmax(s->entry_left_m, s->entry_right_m));
	}
	if (s->near.n == 0)
		return;
	t = rt_report_table(r, "near", "Nearest to boards and letters", near_columns,
			    COLUMNS(near_columns));
	for (size_t i = 0; i < s->near.n; i++) {
		const struct rt_near *near = &s->near.at[i];

		rt_put_text(t, near->what);
		rt_put_real(t, near->distance_m);
		rt_put_text(t, near->part);
		rt_put_real(t, near->x_m);
		rt_put_real(t, near->y_m);
	}
}

static void note_vehicle(struct rt_report *r, const struct rt_sweep *s)
{
	if (s->two_track)
		rt_report_note(r,
			       "On two tracks: %s bends as the path asks, its hind feet on the "
			       "path.",
			       s->parts.at[0].part);
	for (size_t i = 0; i < s->parts.n; i++)
		if (!isnan(s->radius_m) && isnan(s->parts.at[i].steady_cut_in_m)) {
			rt_report_note(r,
				       "%s cannot settle on so tight a circle: kept in it, it "
				       "would jackknife.",
				       s->parts.at[i].part);
			break;
		}
	if (s->stiff)
		rt_report_note(r, "Shafts turn a few degrees about the saddle at the most: stiff "
				  "shafts is the steady cut-in with animal and shafts as one body. "
				  "Use the worse; the band and all distances do.");
	for (size_t i = 0; i < s->overturning.n; i++)
		if (s->overturning.at[i].share >= 1.0 || s->overturning.at[i].limit <= 0.0)
			rt_report_note(r, "%s is past its overturning limit at this pace.",
				       s->overturning.at[i].part);
	if (s->overturning.n)
		rt_report_note(r,
			       "The overturning limit is of level, rigid ground, less the slope "
			       "away from the turn's centre: track / (2 x height of the centre of "
			       "gravity) - tan(slope).");
}

static void put_notes(struct rt_report *r, const struct rt_sweep *s)
{
	rt_report_note(r, "Cut-in is how far an axle's centre (hind feet, wheels) runs inside the "
			  "path of the fore feet; steady is where it settles on a full circle.");
	rt_report_note(r, "Band and distances are of the ends of the axles, half of each part's "
			  "width: bodies, heads and poles reach farther.");
	if (s->bend_deg > s->accepted_bend_deg * (1.0 + 1e-9))
		rt_report_note(r, "The tightest turn asks more bend of the animal than the level's "
				  "own turns do.");
	note_vehicle(r, s);
	for (size_t i = 0; i < r->notes; i++)
		if (strcmp(r->note[i], RT_CAUTION) == 0)
			return; /* the turns have said it */
	rt_report_note(r, "%s", RT_CAUTION);
}

static void put_tables(struct rt_report *r, const struct rt_sweep *s)
{
	put_parts(r, s);
	put_band(r, s);
	put_asked(r, s);
	put_overturning(r, s);
	put_near(r, s);
}

enum rt_err rt_sweep_report(struct rt_report *r, const struct rt_sweep *s, struct rt_error *err)
{
	put_tables(r, s);
	put_notes(r, s);
	return rt_report_result(r, err);
}

/* ---- beside a table of turns ---------------------------------------------------------------- */

/* After a figure's last arc the parts come back in line. */
#define RUN_OUT_M 20.0

/* The path of the n arcs of a figure, then straight on. */
static enum rt_err figure_path(struct rt_path *out, const struct rt_turn *turn, size_t n,
			       double radius, struct rt_error *err)
{
	const struct rt_pose start = {.toward_y = 1.0};
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < n; i++) {
		double angle = turn[i].angle_deg / RT__DEGREES;

		e = rt_path_arc(out, &start, radius, turn[i].hand == RT_LEFT ? angle : -angle, err);
		if (!e)
			e = rt_path_straight(out, &start,
					     i + 1 < n ? turn[i].straight_m : RUN_OUT_M, err);
	}
	return e;
}

static void put_swept(struct rt_table *t, const struct rt_sweep *s, const struct rt_turn *turn,
		      size_t arc)
{
	const struct rt_swept_arc *swept = &s->arcs.at[arc];
	size_t most = 0;

	for (size_t k = 1; k < s->parts.n; k++)
		if (swept->cut_in_m[k] > swept->cut_in_m[most])
			most = k;
	rt_put_text(t, turn->turn);
	rt_put_text(t, rt_side_words(turn->hand));
	rt_put_text(t, s->parts.at[most].part);
	rt_put_real(t, swept->cut_in_m[most]);
	rt_put_real(t, fmax(swept->inside_m, 0.0));
	rt_put_real(t, fmax(swept->outside_m, 0.0));
	rt_put_int(t, turn->figure);
}

/* The arcs from turn on that are driven as one: of the same figure, with room between them. */
static size_t driven_as_one(const struct rt_turns *turns, size_t i)
{
	size_t n = 1;

	while (i + n < turns->list.n && turns->list.at[i + n].figure == turns->list.at[i].figure &&
	       turns->list.at[i + n - 1].straight_m >= 0.0)
		n++;
	return n;
}

static enum rt_err put_figures(struct rt_report *r, const struct rt_turns *turns,
			       const struct rt_turnout_parts *turnout, bool two_track,
			       struct rt_error *err)
{
	const struct rt_sweep_options options = {.two_track = two_track};
	struct rt_table *t = rt_report_table(r, "swept", "Each turn with the turnout",
					     swept_columns, COLUMNS(swept_columns));
	enum rt_err e = RT_OK;

	for (size_t i = 0, n; !e && i < turns->list.n; i += n) {
		struct rt_path path = {0};
		struct rt_sweep sweep = {0};

		n = driven_as_one(turns, i);
		e = figure_path(&path, &turns->list.at[i], n, turns->diameter_m / 2.0, err);
		if (!e)
			e = rt_sweep_make(&sweep, &path, turnout, &options, err);
		for (size_t k = 0; !e && k < n; k++)
			put_swept(t, &sweep, &turns->list.at[i + k], k);
		rt_sweep_free(&sweep);
		rt_path_free(&path);
	}
	return e;
}

enum rt_err rt_turns_sweep_report(struct rt_report *r, const struct rt_turns *turns,
				  const struct rt_level *level,
				  const struct rt_turnout_parts *turnout,
				  const struct rt_sweep_options *options, struct rt_error *err)
{
	struct rt_sweep_options o = *options;
	struct rt_sweep sweep = {0};
	struct rt_path path = {0};
	enum rt_err e = rt_sweep_turn(&path, turns->diameter_m, 90.0, err);

	o.level = level;
	o.kind = NULL; /* this turn stands in no ring */
	if (!(o.speed_m_per_s > 0.0))
		o.speed_m_per_s = turns->speed_m_per_s;
	if (!e)
		e = rt_sweep_make(&sweep, &path, turnout, &o, err);
	if (!e) {
		put_tables(r, &sweep);
		e = put_figures(r, turns, turnout, o.two_track, err);
	}
	if (!e) {
		put_notes(r, &sweep);
		e = rt_report_result(r, err);
	}
	rt_sweep_free(&sweep);
	rt_path_free(&path);
	return e;
}
