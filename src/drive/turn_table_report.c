/* The turn table as a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define COLUMNS(array) (sizeof(array) / sizeof *(array))

/* A quarter of a circle, in diameters. */
#define QUARTER 0.7853981633974483

static const struct rt_field summary_columns[] = {
	{"kind", "ring", RT_TEXT, RT_NO_UNIT, 0, false},
	{"level", "level", RT_TEXT, RT_NO_UNIT, 0, false},
	{"diameter_m", "diameter", RT_REAL, RT_METRE, 1, false},
	{"height_cm", "height cm", RT_REAL, RT_NO_UNIT, 1, false},
	{"height_given", "given", RT_BOOL, RT_NO_UNIT, 0, true},
	{"track_m", "track in", RT_REAL, RT_METRE, 2, false},
	{"bend_deg", "bend", RT_REAL, RT_DEGREE, 1, false},
	{"cut_in_m", "cut-in", RT_REAL, RT_METRE, 2, false},
};

static const struct rt_field pace_columns[] = {
	{"gait", "gait", RT_TEXT, RT_NO_UNIT, 0, false},
	{"speed_m_per_s", "m/s", RT_REAL, RT_NO_UNIT, 2, false},
	{"stride_m", "stride", RT_REAL, RT_METRE, 2, false},
	{"arc_m", "quarter turn", RT_REAL, RT_METRE, 1, false},
	{"seconds", "time", RT_REAL, RT_SECOND, 1, false},
	{"strides", "strides", RT_REAL, RT_NO_UNIT, 1, false},
	{"lateral_m_per_s2", "sideways m/s2", RT_REAL, RT_NO_UNIT, 2, false},
	{"lean_deg", "lean", RT_REAL, RT_DEGREE, 1, false},
};

static const struct rt_field turn_columns[] = {
	{"turn", "turn", RT_TEXT, RT_NO_UNIT, 0, false},
	{"hand", "hand", RT_TEXT, RT_NO_UNIT, 0, false},
	{"diameter_m", "diameter", RT_REAL, RT_METRE, 1, true},
	{"begin", "begin", RT_TEXT, RT_NO_UNIT, 0, false},
	{"finish", "finish", RT_TEXT, RT_NO_UNIT, 0, false},
	{"begin_x_m", "begin x", RT_REAL, RT_METRE, 2, true},
	{"begin_y_m", "begin y", RT_REAL, RT_METRE, 2, true},
	{"finish_x_m", "finish x", RT_REAL, RT_METRE, 2, true},
	{"finish_y_m", "finish y", RT_REAL, RT_METRE, 2, true},
	{"arc_m", "arc", RT_REAL, RT_METRE, 1, true},
	{"straight_m", "straight", RT_REAL, RT_METRE, 1, false},
	{"seconds", "time", RT_REAL, RT_SECOND, 1, true},
	{"bend_deg", "bend", RT_REAL, RT_DEGREE, 1, true},
	{"fits", "fits", RT_BOOL, RT_NO_UNIT, 0, false},
	{"largest_m", "most", RT_REAL, RT_METRE, 1, false},
	{"strides", "strides", RT_REAL, RT_NO_UNIT, 1, true},
	{"cut_in_m", "cut-in", RT_REAL, RT_METRE, 2, true},
	{"angle_deg", "angle", RT_REAL, RT_DEGREE, 1, true},
	{"centre_x_m", "centre x", RT_REAL, RT_METRE, 2, true},
	{"centre_y_m", "centre y", RT_REAL, RT_METRE, 2, true},
	{"figure", "figure", RT_INT, RT_NO_UNIT, 0, true},
};

static void put_summary(struct rt_report *r, const struct rt_turns *turns)
{
	struct rt_table *t = rt_report_table(r, "summary", "Ring and level", summary_columns,
					     COLUMNS(summary_columns));

	rt_put_text(t, turns->kind);
	rt_put_text(t, turns->level);
	rt_put_real(t, turns->diameter_m);
	rt_put_real(t, turns->height_cm);
	rt_put_bool(t, turns->height_given);
	rt_put_real(t, turns->track_m);
	rt_put_real(t, turns->bend_deg);
	rt_put_real(t, turns->cut_in_m);
}

static void put_pace(struct rt_report *r, const struct rt_turns *turns)
{
	struct rt_table *t = rt_report_table(r, "pace", "A quarter turn at this pace", pace_columns,
					     COLUMNS(pace_columns));
	double arc_m = turns->diameter_m * QUARTER;

	rt_put_text(t, turns->gait);
	rt_put_real(t, turns->speed_m_per_s);
	rt_put_real(t, turns->stride_m);
	rt_put_real(t, arc_m);
	rt_put_real(t, arc_m / turns->speed_m_per_s);
	rt_put_real(t, arc_m / turns->stride_m);
	rt_put_real(t, turns->lateral_m_per_s2);
	rt_put_real(t, turns->lean_deg);
}

static void put_place(struct rt_table *t, const struct rt_place *place, bool feet)
{
	char words[256];

	rt_place_words(place, feet, words, sizeof words);
	rt_put_text(t, words);
}

static void put_turn(struct rt_table *t, const struct rt_turns *turns, const struct rt_turn *turn,
		     bool feet)
{
	rt_put_text(t, turn->turn);
	rt_put_text(t, rt_side_words(turn->hand));
	rt_put_real(t, turns->diameter_m);
	put_place(t, &turn->begin, feet);
	put_place(t, &turn->finish, feet);
	rt_put_real(t, turn->begin_x_m);
	rt_put_real(t, turn->begin_y_m);
	rt_put_real(t, turn->finish_x_m);
	rt_put_real(t, turn->finish_y_m);
	rt_put_real(t, turn->arc_m);
	rt_put_real(t, turn->straight_m);
	rt_put_real(t, turn->seconds);
	rt_put_real(t, turns->bend_deg);
	rt_put_bool(t, turn->fits);
	rt_put_real(t, turn->largest_m);
	rt_put_real(t, turn->strides);
	rt_put_real(t, turns->cut_in_m);
	rt_put_real(t, turn->angle_deg);
	rt_put_real(t, turn->centre_x_m);
	rt_put_real(t, turn->centre_y_m);
	rt_put_int(t, turn->figure);
}

/* Whether a row of the table does not fit, and whether one is told from inside the track. */
static void look_over(const struct rt_turns *turns, bool *too_large, bool *inside)
{
	*too_large = *inside = false;
	for (size_t i = 0; i < turns->list.n; i++) {
		const struct rt_turn *turn = &turns->list.at[i];

		*too_large = *too_large || !turn->fits;
		*inside = *inside || turn->begin.in_m > 0.0 || turn->finish.in_m > 0.0;
	}
}

static void put_notes(struct rt_report *r, const struct rt_turns *turns)
{
	bool too_large, inside;

	look_over(turns, &too_large, &inside);
	rt_report_note(r, "Past and before are in the direction of travel; straight is to the next "
			  "row's turn.");
	if (inside)
		rt_report_note(r, "On a diagonal, past and before are measured along the track, "
				  "inside is across it.");
	rt_report_note(r, "To turn across on one hand and take the track on the other, drive the "
			  "first turn of one pair and the second of the other.");
	if (too_large)
		rt_report_note(r, "A turn that does not fit is shown as asked; most is the "
				  "largest diameter that leaves room for the turn or corner "
				  "before and after it, driven alike.");
	if (!turns->height_given)
		rt_report_note(r, "Bend and cut-in are of the level's reference animal; the pace "
				  "is that of a horse of 165 cm. Give the height for another.");
	rt_report_note(r, "Bend is asked of the whole animal; cut-in is how far the hind feet of "
			  "one that does not bend run inside the fore feet.");
	if (turns->unconfirmed)
		rt_report_note(r, "Check where %s stand against the rulebook in force.",
			       turns->unconfirmed);
	rt_report_note(r, "%s", RT_CAUTION);
}

enum rt_err rt_turns_report(struct rt_report *r, const struct rt_turns *turns, bool feet,
			    struct rt_error *err)
{
	struct rt_table *t;

	put_summary(r, turns);
	put_pace(r, turns);
	t = rt_report_table(r, "turns", "Turns", turn_columns, COLUMNS(turn_columns));
	for (size_t i = 0; i < turns->list.n; i++)
		put_turn(t, turns, &turns->list.at[i], feet);
	put_notes(r, turns);
	return rt_report_result(r, err);
}
