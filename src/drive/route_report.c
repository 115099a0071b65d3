/* The route of a test as a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Starts are set to whole minutes. */
#define START_STEP_S 60.0

/* ---- tables ---------------------------------------------------------------------------------- */

#define LEG(member) RT_AT(struct rt_route_leg, member)

static const struct rt_field leg_fields[] = {
	{"movement", LEG(movement)},
	{"figure", LEG(figure)},
	{"gait", LEG(gait)},
	{"length_m", .head = "length", LEG(length_m), RT_METRES(1)},
	{"seconds", .head = "time", LEG(seconds), RT_SECONDS(1)},
	{"from_m", .head = "from", LEG(from_m), RT_METRES(1), .wide = true},
	{"to_m", .head = "to", LEG(to_m), RT_METRES(1), .wide = true},
};

const struct rt_record rt__leg_table = RT_TABLE("legs", "Movements", leg_fields,
						struct rt_route_leg);

struct total_row {
	const struct rt_route *route;
	double signal_s, writing_s, interval_s;
};

#define ROUTE(member) RT_IN(struct total_row, route, struct rt_route, member)
#define TOTAL(member) RT_AT(struct total_row, member)

static const struct rt_field total_fields[] = {
	{"length_m", .head = "length", ROUTE(total_m), RT_METRES(1)},
	{"seconds", .head = "time", ROUTE(total_s), RT_SECONDS(0)},
	{"complete", ROUTE(timed), .type = RT_BOOL},
	{"in_seconds", .head = "way in", ROUTE(in_s), RT_SECONDS(0)},
	{"out_seconds", .head = "way out", ROUTE(out_s), RT_SECONDS(0)},
	{"signal_seconds", .head = "signal", TOTAL(signal_s), RT_SECONDS(0)},
	{"writing_seconds", .head = "judge writes", TOTAL(writing_s), RT_SECONDS(0)},
	{"interval_seconds", .head = "between starts", TOTAL(interval_s), RT_SECONDS(0)},
	{"kind", .head = "ring", ROUTE(kind), .wide = true},
	{"level", ROUTE(level), .wide = true},
	{"diameter_m", .head = "diameter", ROUTE(diameter_m), RT_METRES(1), .wide = true},
	{"track_m", .head = "track in", ROUTE(track_m), RT_METRES(2), .wide = true},
};

const struct rt_record rt__total_table = RT_TABLE("total", "Total", total_fields, struct total_row);

struct problem_row {
	const struct rt_route_leg *leg;
	const char *problem;
	double largest_m;
};

#define OF_LEG(type, member) RT_IN(type, leg, struct rt_route_leg, member)

static const struct rt_field problem_fields[] = {
	{"movement", OF_LEG(struct problem_row, movement)},
	{"figure", OF_LEG(struct problem_row, figure), .wide = true},
	{"problem", RT_AT(struct problem_row, problem)},
	{"largest_m", .head = "largest that fits", RT_AT(struct problem_row, largest_m),
	 RT_METRES(1)},
};

const struct rt_record rt__problem_table = RT_TABLE("problems", "Problems", problem_fields,
						    struct problem_row);

struct turn_row {
	const struct rt_route_leg *leg;
	const struct rt_turn *turn;
	const char *begin, *finish;
};

#define TURN(member) RT_IN(struct turn_row, turn, struct rt_turn, member)

static const struct rt_field turn_fields[] = {
	{"movement", OF_LEG(struct turn_row, movement)},
	{"turn", TURN(turn)},
	{"hand", TURN(hand), RT_WORD_OF(side)},
	{"diameter_m", .head = "diameter", TURN(diameter_m), RT_METRES(1)},
	{"begin", RT_AT(struct turn_row, begin)},
	{"finish", RT_AT(struct turn_row, finish)},
	{"arc_m", .head = "arc", TURN(arc_m), RT_METRES(1), .wide = true},
	{"angle_deg", .head = "angle", TURN(angle_deg), RT_DEGREES(1), .wide = true},
	{"from_m", .head = "from", TURN(from_m), RT_METRES(2), .wide = true},
	{"begin_x_m", .head = "begin x", TURN(begin_x_m), RT_METRES(2), .wide = true},
	{"begin_y_m", .head = "begin y", TURN(begin_y_m), RT_METRES(2), .wide = true},
	{"finish_x_m", .head = "finish x", TURN(finish_x_m), RT_METRES(2), .wide = true},
	{"finish_y_m", .head = "finish y", TURN(finish_y_m), RT_METRES(2), .wide = true},
	{"centre_x_m", .head = "centre x", TURN(centre_x_m), RT_METRES(2), .wide = true},
	{"centre_y_m", .head = "centre y", TURN(centre_y_m), RT_METRES(2), .wide = true},
};

const struct rt_record rt__route_turn_table = RT_TABLE("turns", "Turns, circles and loops",
						       turn_fields, struct turn_row);

/* ---- words ----------------------------------------------------------------------------------- */

/* Text that is put together, cut where it is full. */
struct words {
	char *out;
	size_t size, n;
};

static void say(struct words *w, const char *s)
{
	while (*s && w->n + 1 < w->size)
		w->out[w->n++] = *s++;
	w->out[w->n] = '\0';
}

/* With a second decimal where it tells what is needed from what there is. */
static void say_length(struct words *w, double m, bool feet)
{
	int least = m < 0.1 ? 3 : m < 1.0 ? 2 : 1;

	say(w, rt_show_length(m, least, least < 2 ? 2 : least, feet).text);
}

static const char *form_of(enum rt_route_problem_kind kind)
{
	switch (kind) {
#define RT_CASE(name, words)                                                                       \
	case name:                                                                                 \
		return words;
		RT_ROUTE_PROBLEMS(RT_CASE)
#undef RT_CASE
	}
	return "";
}

void rt_route_problem_words(const struct rt_route_problem *problem, bool feet, char *out,
			    size_t size)
{
	struct words w = {out, size, 0};
	const bool letter = problem->kind == RT_ROUTE_NO_LETTER;

	if (size == 0)
		return;
	*out = '\0';
	for (const char *f = form_of(problem->kind); *f; f++) {
		const char one[2] = {*f, '\0'};

		if (*f != '%') {
			say(&w, one);
			continue;
		}
		f++;
		if (*f == 'a')
			say(&w, problem->at ? problem->at : "");
		else if (*f == 'b')
			say(&w, problem->beside ? problem->beside : "");
		else
			say_length(&w, *f == 'n' ? problem->needs_m : problem->has_m, feet);
	}
	if (problem->suggest) {
		say(&w, letter ? ": did you mean \"" : "; along the track it is \"");
		say(&w, problem->suggest);
		say(&w, letter ? "\"?" : "\"");
	}
}

/* ---- the report ------------------------------------------------------------------------------ */

static void put_total(struct rt_report *r, const struct rt_route *route, double signal_s,
		      double writing_s)
{
	double between = route->total_s + route->in_s + route->out_s + signal_s + writing_s;
	const struct total_row row = {route, signal_s, writing_s,
				      route->timed ? ceil(between / START_STEP_S) * START_STEP_S
						   : NAN};

	rt_report_list(r, &rt__total_table, &row, 1);
}

static void put_problems(struct rt_report *r, const struct rt_route *route, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &rt__problem_table);

	for (size_t i = 0; i < route->problems.n; i++) {
		const struct rt_route_problem *problem = &route->problems.at[i];
		char words[400];

		rt_route_problem_words(problem, feet, words, sizeof words);
		rt_put_row(t, &(struct problem_row){&route->legs.at[problem->leg], words,
						    problem->largest_m});
	}
}

static void put_turns(struct rt_report *r, const struct rt_route *route, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &rt__route_turn_table);

	for (size_t i = 0; i < route->turns.n; i++) {
		const struct rt_turn *turn = &route->turns.at[i];
		char begin[RT__PLACE_SIZE], finish[RT__PLACE_SIZE];

		rt_put_row(t, &(struct turn_row){&route->legs.at[turn->leg], turn,
						 rt__place_words(&turn->begin, feet, begin),
						 rt__place_words(&turn->finish, feet, finish)});
	}
}

static void put_notes(struct rt_report *r, const struct rt_route *route)
{
	rt_report_note(r,
		       "Turns without a number of their own are driven with %s m, level %s in "
		       "%s. A movement's length runs from the middle of the arc, or the letter, "
		       "where the last one ended.",
		       rt_show_real(route->diameter_m, 1).text, route->level, route->kind);
	if (!route->timed)
		rt_report_note(r, "The total is of the movements that have a length and a time; "
				  "without all of them there is no interval between starts.");
	else
		rt_report_note(r, "Between starts: the test, the way in and out, the time allowed "
				  "after the signal and the judge's writing, up to a whole minute.");
	if (route->problems.n)
		rt_report_note(r, "Largest that fits is one diameter for all turns of the movement "
				  "that have no number of their own, or that of the circle.");
	rt__note_unconfirmed(r, route->unconfirmed);
	rt_report_note(r, "%s", RT_CAUTION);
}

enum rt_err rt_route_report(struct rt_report *r, const struct rt_route *route, double signal_s,
			    double writing_s, bool feet, struct rt_error *err)
{
	rt_report_list(r, &rt__leg_table, route->legs.at, route->legs.n);
	put_total(r, route, signal_s, writing_s);
	put_problems(r, route, feet);
	put_turns(r, route, feet);
	put_notes(r, route);
	r->needs_person = r->needs_person || route->problems.n > 0;
	return rt_report_result(r, err);
}
