/* The sweep as a report, and what a turnout adds to a table of turns.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>
#include <string.h>

#define PART(member) RT_AT(struct rt_swept_part, member)

static const struct rt_field part_fields[] = {
	{"part", PART(part)},
	{"cut_in_m", .head = "cut-in", PART(cut_in_m), RT_METRES(3)},
	{"steady_cut_in_m", .head = "steady", PART(steady_cut_in_m), RT_METRES(3)},
	{"stiff_cut_in_m", .head = "stiff shafts", PART(stiff_cut_in_m), RT_METRES(3)},
	{"cut_in_at_m", .head = "fore feet at", PART(cut_in_at_m), RT_METRES(1), .wide = true},
};

const struct rt_record rt__part_table = RT_TABLE("parts", "What follows the fore feet", part_fields,
						 struct rt_swept_part);

#define SWEEP(member) RT_AT(struct rt_sweep, member)

static const struct rt_field band_fields[] = {
	{"turnout", SWEEP(turnout)},
	{"length_m", .head = "path", SWEEP(length_m), RT_METRES(1)},
	{"inside_m", .head = "inside", SWEEP(inside_m), RT_METRES(2)},
	{"outside_m", .head = "outside", SWEEP(outside_m), RT_METRES(2)},
	{"width_m", .head = "width", SWEEP(width_m), RT_METRES(2)},
};

static const struct rt_field asked_fields[] = {
	{"diameter_m", .head = "tightest", SWEEP(diameter_m), RT_METRES(1)},
	{"bend_deg", .head = "bend", SWEEP(bend_deg), RT_DEGREES(1)},
	{"accepted_bend_deg", .head = "accepted", SWEEP(accepted_bend_deg), RT_DEGREES(1)},
	{"speed_m_per_s", .head = "m/s", SWEEP(speed_m_per_s), RT_NUMBERS(2)},
	{"lateral_m_per_s2", .head = "sideways m/s2", SWEEP(lateral_m_per_s2), RT_NUMBERS(2)},
	{"lean_deg", .head = "lean", SWEEP(lean_deg), RT_DEGREES(1)},
};

static const struct rt_field entry_fields[] = {
	{"left_m", .head = "left", SWEEP(entry_left_m), RT_METRES(2)},
	{"right_m", .head = "right", SWEEP(entry_right_m), RT_METRES(2)},
	{"width_m", .head = "opening at least", SWEEP(opening_m), RT_METRES(2)},
};

const struct rt_record rt__band_table = RT_TABLE("band", "Band of the wheels and feet", band_fields,
						 struct rt_sweep);
const struct rt_record rt__asked_table = RT_TABLE("asked", "Asked in the tightest turn",
						  asked_fields, struct rt_sweep);
const struct rt_record rt__entry_table = RT_TABLE("entry", "Way in at A, from its middle",
						  entry_fields, struct rt_sweep);

#define TIPS(member) RT_AT(struct rt_overturning, member)

static const struct rt_field overturning_fields[] = {
	{"part", TIPS(part)},
	{"limit_g", .head = "tips at g", TIPS(limit), RT_NUMBERS(2)},
	{"slope_deg", .head = "slope", TIPS(slope_deg), RT_DEGREES(1)},
	{"share_percent", .head = "used", TIPS(share), RT_PARTS(0)},
};

const struct rt_record rt__overturning_table = RT_TABLE("overturning", "Overturning",
							overturning_fields, struct rt_overturning);

#define NEAR(member) RT_AT(struct rt_near, member)

static const struct rt_field near_fields[] = {
	{"what", NEAR(what)},
	{"distance_m", .head = "nearest", NEAR(distance_m), RT_METRES(2)},
	{"part", NEAR(part)},
	{"x_m", .head = "x", NEAR(x_m), RT_METRES(2), .wide = true},
	{"y_m", .head = "y", NEAR(y_m), RT_METRES(2), .wide = true},
};

const struct rt_record rt__near_table = RT_TABLE("near", "Nearest to boards and letters",
						 near_fields, struct rt_near);

struct swept_row {
	const struct rt_turn *turn;
	const char *part;
	double cut_in_m, inside_m, outside_m;
};

#define TURN(member)  RT_IN(struct swept_row, turn, struct rt_turn, member)
#define SWEPT(member) RT_AT(struct swept_row, member)

static const struct rt_field swept_fields[] = {
	{"turn", TURN(turn)},
	{"hand", TURN(hand), RT_WORD_OF(side)},
	{"part", SWEPT(part)},
	{"cut_in_m", .head = "cut-in", SWEPT(cut_in_m), RT_METRES(2)},
	{"inside_m", .head = "inside", SWEPT(inside_m), RT_METRES(2)},
	{"outside_m", .head = "outside", SWEPT(outside_m), RT_METRES(2)},
	{"figure_number", .head = "figure", TURN(figure), .type = RT_SMALL, .wide = true},
};

const struct rt_record rt__swept_table = RT_TABLE("swept", "Each turn with the turnout",
						  swept_fields, struct swept_row);

static void put_tables(struct rt_report *r, const struct rt_sweep *s)
{
	rt_report_list(r, &rt__part_table, s->parts.at, s->parts.n);
	rt_report_list(r, &rt__band_table, s, 1);
	if (!isnan(s->radius_m))
		rt_report_list(r, &rt__asked_table, s, 1);
	if (s->overturning.n)
		rt_report_list(r, &rt__overturning_table, s->overturning.at, s->overturning.n);
	if (!isnan(s->entry_left_m))
		rt_report_list(r, &rt__entry_table, s, 1);
	if (s->near.n)
		rt_report_list(r, &rt__near_table, s->near.at, s->near.n);
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

enum rt_err rt_sweep_report(struct rt_report *r, const struct rt_sweep *s, struct rt_error *err)
{
	put_tables(r, s);
	put_notes(r, s);
	return rt_report_result(r, err);
}

/* ---- beside a table of turns ---------------------------------------------------------------- */

/* After a figure's last arc the parts come back in line: so far behind the last of them. */
#define RUN_OUT_M 20.0

static double run_out(const struct rt_turnout_parts *turnout)
{
	double m = RUN_OUT_M;

	for (size_t k = 0; k < turnout->n; k++)
		m += turnout->at[k].length_m + fabs(turnout->at[k].hitch_m);
	return m;
}

/* The path of the n arcs of a figure, then straight on. */
static enum rt_err figure_path(struct rt_path *out, const struct rt_turn *turn, size_t n,
			       double run_out_m, struct rt_error *err)
{
	double radius = turn->diameter_m / 2.0;
	const struct rt_pose start = {.toward.y = 1.0};
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < n; i++) {
		double angle = turn[i].angle_deg / RT__DEGREES;

		e = rt_path_arc(out, &start, radius, turn[i].hand == RT_LEFT ? angle : -angle, err);
		if (!e)
			e = rt_path_straight(out, &start,
					     i + 1 < n ? turn[i].straight_m : run_out_m, err);
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
	rt_put_row(t, &(struct swept_row){turn, s->parts.at[most].part, swept->cut_in_m[most],
					  fmax(swept->inside_m, 0.0), fmax(swept->outside_m, 0.0)});
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
	struct rt_table *t = rt_report_rows(r, &rt__swept_table);
	enum rt_err e = RT_OK;

	for (size_t i = 0, n; !e && i < turns->list.n; i += n) {
		struct rt_path path = {0};
		struct rt_sweep sweep = {0};

		n = driven_as_one(turns, i);
		e = figure_path(&path, &turns->list.at[i], n, run_out(turnout), err);
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
