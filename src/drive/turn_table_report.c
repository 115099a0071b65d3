/* The turn table as a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define OF_ALL(member) RT_AT(struct rt_turns, member)

static const struct rt_field summary_fields[] = {
	{"kind", .head = "ring", OF_ALL(kind)},
	{"level", OF_ALL(level)},
	{"diameter_m", .head = "diameter", OF_ALL(diameter_m), RT_METRES(1)},
	{"height_cm", OF_ALL(height_cm), RT_NUMBERS(1)},
	{"height_given", .head = "given", OF_ALL(height_given), .type = RT_BOOL, .wide = true},
	{"track_m", .head = "track in", OF_ALL(track_m), RT_METRES(2)},
	{"bend_deg", .head = "bend", OF_ALL(bend_deg), RT_DEGREES(1)},
	{"cut_in_m", .head = "cut-in", OF_ALL(cut_in_m), RT_METRES(2)},
};

static const struct rt_record summary_table = RT_TABLE("summary", "Ring and level", summary_fields,
						       struct rt_turns);

static const struct rt_field pace_fields[] = {
	{"gait", OF_ALL(gait)},
	{"speed_m_per_s", .head = "m/s", OF_ALL(speed_m_per_s), RT_NUMBERS(2)},
	{"stride_m", .head = "stride", OF_ALL(stride_m), RT_METRES(2)},
	{"arc_m", .head = "quarter turn", OF_ALL(quarter_m), RT_METRES(1)},
	{"seconds", .head = "time", OF_ALL(quarter_seconds), RT_SECONDS(1)},
	{"strides", OF_ALL(quarter_strides), RT_NUMBERS(1)},
	{"lateral_m_per_s2", .head = "sideways m/s2", OF_ALL(lateral_m_per_s2), RT_NUMBERS(2)},
	{"lean_deg", .head = "lean", OF_ALL(lean_deg), RT_DEGREES(1)},
};

static const struct rt_record pace_table = RT_TABLE("pace", "A quarter turn at this pace",
						    pace_fields, struct rt_turns);

struct turn_row {
	const struct rt_turns *turns;
	const struct rt_turn *turn;
	const char *begin, *finish;
};

#define EACH(member) RT_IN(struct turn_row, turns, struct rt_turns, member)
#define TURN(member) RT_IN(struct turn_row, turn, struct rt_turn, member)

static const struct rt_field turn_fields[] = {
	{"turn", TURN(turn)},
	{"hand", TURN(hand), RT_WORD_OF(side)},
	{"diameter_m", .head = "diameter", TURN(diameter_m), RT_METRES(1), .wide = true},
	{"begin", RT_AT(struct turn_row, begin)},
	{"finish", RT_AT(struct turn_row, finish)},
	{"begin_x_m", .head = "begin x", TURN(begin_x_m), RT_METRES(2), .wide = true},
	{"begin_y_m", .head = "begin y", TURN(begin_y_m), RT_METRES(2), .wide = true},
	{"finish_x_m", .head = "finish x", TURN(finish_x_m), RT_METRES(2), .wide = true},
	{"finish_y_m", .head = "finish y", TURN(finish_y_m), RT_METRES(2), .wide = true},
	{"arc_m", .head = "arc", TURN(arc_m), RT_METRES(1), .wide = true},
	{"straight_m", .head = "straight", TURN(straight_m), RT_METRES(1)},
	{"seconds", .head = "time", TURN(seconds), RT_SECONDS(1), .wide = true},
	{"bend_deg", .head = "bend", EACH(bend_deg), RT_DEGREES(1), .wide = true},
	{"fits", TURN(fits), .type = RT_BOOL},
	{"largest_m", .head = "most", TURN(largest_m), RT_METRES(1)},
	{"strides", TURN(strides), RT_NUMBERS(1), .wide = true},
	{"cut_in_m", .head = "cut-in", EACH(cut_in_m), RT_METRES(2), .wide = true},
	{"angle_deg", .head = "angle", TURN(angle_deg), RT_DEGREES(1), .wide = true},
	{"centre_x_m", .head = "centre x", TURN(centre_x_m), RT_METRES(2), .wide = true},
	{"centre_y_m", .head = "centre y", TURN(centre_y_m), RT_METRES(2), .wide = true},
	{"figure_number", .head = "figure", TURN(figure), .type = RT_SMALL, .wide = true},
};

static const struct rt_record turn_table = RT_TABLE("turns", "Turns", turn_fields, struct turn_row);

const struct rt_record *const rt_drive_tables[] = {
	&summary_table,	    &pace_table,	   &turn_table,	     &rt__swept_table,
	&rt__part_table,    &rt__band_table,	   &rt__asked_table, &rt__overturning_table,
	&rt__entry_table,   &rt__near_table,	   &rt__leg_table,   &rt__total_table,
	&rt__problem_table, &rt__route_turn_table, &rt__cone_table,  NULL};

const char *rt__place_words(const struct rt_place *place, bool feet, char out[RT__PLACE_SIZE])
{
	rt_place_words(place, feet, out, RT__PLACE_SIZE);
	return out;
}

void rt__note_unconfirmed(struct rt_report *r, const char *letters)
{
	if (*letters)
		rt_report_note(r, "Check where %s stand against the rulebook in force.", letters);
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
	rt__note_unconfirmed(r, turns->unconfirmed);
	rt_report_note(r, "%s", RT_CAUTION);
}

enum rt_err rt_turns_report(struct rt_report *r, const struct rt_turns *turns, bool feet,
			    struct rt_error *err)
{
	struct rt_table *t;

	rt_report_list(r, &summary_table, turns, 1);
	rt_report_list(r, &pace_table, turns, 1);
	t = rt_report_rows(r, &turn_table);
	for (size_t i = 0; i < turns->list.n; i++) {
		const struct rt_turn *turn = &turns->list.at[i];
		char begin[RT__PLACE_SIZE], finish[RT__PLACE_SIZE];

		rt_put_row(t, &(struct turn_row){turns, turn,
						 rt__place_words(&turn->begin, feet, begin),
						 rt__place_words(&turn->finish, feet, finish)});
	}
	put_notes(r, turns);
	return rt_report_result(r, err);
}
