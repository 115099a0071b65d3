/* The route of a test as a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COLUMNS(array) (sizeof(array) / sizeof *(array))

/* Starts are set to half minutes. */
#define START_STEP_S 30.0

static const struct rt_field leg_columns[] = {
	{"movement", "movement", RT_TEXT, RT_NO_UNIT, 0, false},
	{"figure", "figure", RT_TEXT, RT_NO_UNIT, 0, false},
	{"gait", "gait", RT_TEXT, RT_NO_UNIT, 0, false},
	{"length_m", "length", RT_REAL, RT_METRE, 1, false},
	{"seconds", "time", RT_REAL, RT_SECOND, 1, false},
	{"from_m", "from", RT_REAL, RT_METRE, 1, true},
	{"to_m", "to", RT_REAL, RT_METRE, 1, true},
};

static const struct rt_field total_columns[] = {
	{"length_m", "length", RT_REAL, RT_METRE, 1, false},
	{"seconds", "time", RT_REAL, RT_SECOND, 0, false},
	{"complete", "complete", RT_BOOL, RT_NO_UNIT, 0, false},
	{"in_seconds", "way in", RT_REAL, RT_SECOND, 0, false},
	{"out_seconds", "way out", RT_REAL, RT_SECOND, 0, false},
	{"signal_seconds", "signal", RT_REAL, RT_SECOND, 0, false},
	{"writing_seconds", "judge writes", RT_REAL, RT_SECOND, 0, false},
	{"interval_seconds", "between starts", RT_REAL, RT_SECOND, 0, false},
	{"kind", "ring", RT_TEXT, RT_NO_UNIT, 0, true},
	{"level", "level", RT_TEXT, RT_NO_UNIT, 0, true},
	{"diameter_m", "diameter", RT_REAL, RT_METRE, 1, true},
	{"track_m", "track in", RT_REAL, RT_METRE, 2, true},
};

static const struct rt_field problem_columns[] = {
	{"movement", "movement", RT_TEXT, RT_NO_UNIT, 0, false},
	{"figure", "figure", RT_TEXT, RT_NO_UNIT, 0, true},
	{"problem", "problem", RT_TEXT, RT_NO_UNIT, 0, false},
	{"largest_m", "largest that fits", RT_REAL, RT_METRE, 1, false},
};

static const struct rt_field turn_columns[] = {
	{"movement", "movement", RT_TEXT, RT_NO_UNIT, 0, false},
	{"turn", "turn", RT_TEXT, RT_NO_UNIT, 0, false},
	{"hand", "hand", RT_TEXT, RT_NO_UNIT, 0, false},
	{"diameter_m", "diameter", RT_REAL, RT_METRE, 1, false},
	{"begin", "begin", RT_TEXT, RT_NO_UNIT, 0, false},
	{"finish", "finish", RT_TEXT, RT_NO_UNIT, 0, false},
	{"arc_m", "arc", RT_REAL, RT_METRE, 1, true},
	{"angle_deg", "angle", RT_REAL, RT_DEGREE, 1, true},
	{"from_m", "from", RT_REAL, RT_METRE, 2, true},
	{"begin_x_m", "begin x", RT_REAL, RT_METRE, 2, true},
	{"begin_y_m", "begin y", RT_REAL, RT_METRE, 2, true},
	{"finish_x_m", "finish x", RT_REAL, RT_METRE, 2, true},
	{"finish_y_m", "finish y", RT_REAL, RT_METRE, 2, true},
	{"centre_x_m", "centre x", RT_REAL, RT_METRE, 2, true},
	{"centre_y_m", "centre y", RT_REAL, RT_METRE, 2, true},
};

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
	char length[48];

	int least = m < 0.1 ? 3 : m < 1.0 ? 2 : 1;

	rt_format_length(m, least, least < 2 ? 2 : least, feet, length, sizeof length);
	say(w, length);
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

/* ---- tables ---------------------------------------------------------------------------------- */

static void put_legs(struct rt_report *r, const struct rt_route *route)
{
	struct rt_table *t = rt_report_table(r, "legs", "Movements", leg_columns,
					     COLUMNS(leg_columns));

	for (size_t i = 0; i < route->legs.n; i++) {
		const struct rt_route_leg *leg = &route->legs.at[i];

		rt_put_text(t, leg->movement);
		rt_put_text(t, leg->figure);
		rt_put_text(t, leg->gait);
		rt_put_real(t, leg->length_m);
		rt_put_real(t, leg->seconds);
		rt_put_real(t, leg->from_m);
		rt_put_real(t, leg->to_m);
	}
}

static void put_total(struct rt_report *r, const struct rt_route *route, double signal_s,
		      double writing_s)
{
	struct rt_table *t = rt_report_table(r, "total", "Total", total_columns,
					     COLUMNS(total_columns));
	double interval = NAN;

	if (route->timed)
		interval = ceil((route->total_s + route->in_s + route->out_s + signal_s +
				 writing_s) /
				START_STEP_S) *
			   START_STEP_S;
	rt_put_real(t, route->total_m);
	rt_put_real(t, route->total_s);
	rt_put_bool(t, route->timed);
	rt_put_real(t, route->in_s);
	rt_put_real(t, route->out_s);
	rt_put_real(t, signal_s);
	rt_put_real(t, writing_s);
	rt_put_real(t, interval);
	rt_put_text(t, route->kind);
	rt_put_text(t, route->level);
	rt_put_real(t, route->diameter_m);
	rt_put_real(t, route->track_m);
}

static void put_problems(struct rt_report *r, const struct rt_route *route, bool feet)
{
	struct rt_table *t = rt_report_table(r, "problems", "Problems", problem_columns,
					     COLUMNS(problem_columns));

	for (size_t i = 0; i < route->problems.n; i++) {
		const struct rt_route_problem *problem = &route->problems.at[i];
		char words[400];

		rt_route_problem_words(problem, feet, words, sizeof words);
		rt_put_text(t, route->legs.at[problem->leg].movement);
		rt_put_text(t, route->legs.at[problem->leg].figure);
		rt_put_text(t, words);
		rt_put_real(t, problem->largest_m);
	}
}

static void put_place(struct rt_table *t, const struct rt_place *place, bool feet)
{
	char words[256];

	rt_place_words(place, feet, words, sizeof words);
	rt_put_text(t, words);
}

static void put_turns(struct rt_report *r, const struct rt_route *route, bool feet)
{
	struct rt_table *t = rt_report_table(r, "turns", "Turns, circles and loops", turn_columns,
					     COLUMNS(turn_columns));

	for (size_t i = 0; i < route->turns.n; i++) {
		const struct rt_route_turn *turn = &route->turns.at[i];

		rt_put_text(t, route->legs.at[turn->leg].movement);
		rt_put_text(t, turn->turn);
		rt_put_text(t, rt_side_words(turn->hand));
		rt_put_real(t, turn->diameter_m);
		put_place(t, &turn->begin, feet);
		put_place(t, &turn->finish, feet);
		rt_put_real(t, turn->arc_m);
		rt_put_real(t, turn->angle_deg);
		rt_put_real(t, turn->from_m);
		rt_put_real(t, turn->begin_x_m);
		rt_put_real(t, turn->begin_y_m);
		rt_put_real(t, turn->finish_x_m);
		rt_put_real(t, turn->finish_y_m);
		rt_put_real(t, turn->centre_x_m);
		rt_put_real(t, turn->centre_y_m);
	}
}

static void put_notes(struct rt_report *r, const struct rt_route *route)
{
	char diameter[32];

	rt_format_real(route->diameter_m, 1, diameter, sizeof diameter);
	rt_report_note(r,
		       "Turns without a number of their own are driven with %s m, level %s in "
		       "%s. A movement's length runs from the middle of the arc, or the letter, "
		       "where the last one ended.",
		       diameter, route->level, route->kind);
	if (!route->timed)
		rt_report_note(r, "The total is of the movements that have a length and a time; "
				  "without all of them there is no interval between starts.");
	else
		rt_report_note(r, "Between starts: the test, the way in and out, the time allowed "
				  "after the signal and the judge's writing, up to half a minute.");
	if (route->problems.n)
		rt_report_note(r, "Largest that fits is one diameter for all turns of the movement "
				  "that have no number of their own, or that of the circle.");
	if (route->unconfirmed)
		rt_report_note(r, "Check where %s stand against the rulebook in force.",
			       route->unconfirmed);
	rt_report_note(r, "%s", RT_CAUTION);
}

enum rt_err rt_route_report(struct rt_report *r, const struct rt_route *route, double signal_s,
			    double writing_s, bool feet, struct rt_error *err)
{
	put_legs(r, route);
	put_total(r, route, signal_s, writing_s);
	put_problems(r, route, feet);
	put_turns(r, route, feet);
	put_notes(r, route);
	r->needs_person = r->needs_person || route->problems.n > 0;
	return rt_report_result(r, err);
}
