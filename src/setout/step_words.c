/* The steps of a plan in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define SHARP_DEG 30.0 /* a crossing sharper than that is told */
#define SAME_M	  1e-6

struct words {
	const struct rt_setout_plan *plan;
	const struct rt_setout_step *step;
	bool feet;
	char *out;
	size_t size;
};

RT_PRINTF(2, 3)
static void say(struct words *w, const char *fmt, ...)
{
	size_t used = strlen(w->out);
	va_list args;

	va_start(args, fmt);
	vsnprintf(w->out + used, w->size - used, fmt, args);
	va_end(args);
}

static struct rt_shown_number taped(const struct words *w, double m)
{
	return rt_show_taped(m, w->feet);
}

static const char *name(const struct words *w, size_t point)
{
	return w->plan->point[point].name;
}

/* ", in parts along the sighted line: 2 times 30.00 m and 29.44 m", of a distance longer than the
 * tape. */
static void say_parts(struct words *w, double m)
{
	double tape = w->plan->options.tape_m;
	int whole = (int)floor(m / tape + 1e-9);
	double rest = m - whole * tape;

	if (m <= tape + SAME_M)
		return;
	say(w, ", in parts along the sighted line: ");
	if (whole > 1)
		say(w, "%d times ", whole);
	say(w, "%s", taped(w, tape).text);
	if (rest > SAME_M)
		say(w, " and %s", taped(w, rest).text);
}

/* ---- what to do ---- */

static void run_words(struct words *w)
{
	const struct rt_setout_step *s = w->step, *before = s - 1;
	double on = rt__plan_distance(w->plan, s->line_from, s->point) -
		    rt__plan_distance(w->plan, s->line_from, s->line_to);
	bool same = s > w->plan->step && before->kind == RT_SETOUT_RUN && before->from == s->from &&
		    before->line_from == s->line_from && before->line_to == s->line_to;

	const char *sight = on > SAME_M ? "through" : "to";

	if (same)
		say(w, "Same pull: ");
	else if (s->from == s->line_from)
		say(w, "Hold the zero at %s, sight %s %s: ", name(w, s->from), sight,
		    name(w, s->line_to));
	else
		say(w, "Hold the zero at %s, in the line from %s %s %s: ", name(w, s->from),
		    name(w, s->line_from), sight, name(w, s->line_to));
	say(w, "%s at %s.", name(w, s->point), taped(w, s->from_m).text);
}

static void cross_words(struct words *w)
{
	const struct rt_setout_step *s = w->step;
	const char *from = name(w, s->from), *second = name(w, s->second);
	struct rt_shown_number first_m = taped(w, s->from_m), second_m = taped(w, s->second_m);

	if (s->bent)
		say(w,
		    "Hold the zero at %s and %s of the same tape at %s; take it at %s and pull "
		    "both parts tight",
		    from, taped(w, s->from_m + s->second_m).text, second, first_m.text);
	else if (w->plan->options.tapes == 1)
		say(w, "Zero at %s: mark an arc of %s on the ground. Zero at %s: where %s meets it",
		    from, first_m.text, second, second_m.text);
	else
		say(w,
		    "Zero of one tape at %s, of the other at %s: where %s of the first and %s of "
		    "the other cross",
		    from, second, first_m.text, second_m.text);
	say(w, ", on your %s when you look from %s to %s: %s.", rt_side_words(s->hand), from,
	    second, name(w, s->point));
	if (s->crossing_deg < SHARP_DEG || s->crossing_deg > 180 - SHARP_DEG)
		say(w, " Take care: the tapes cross at only %.0f degrees.",
		    fmin(s->crossing_deg, 180 - s->crossing_deg));
}

static void length_words(struct words *w)
{
	const char *a = name(w, w->step->point), *b = name(w, w->step->other);

	say(w, "Tape %s to %s; it should be %s", a, b, taped(w, w->step->from_m).text);
	say_parts(w, w->step->from_m);
	say(w, ". Move both along their line, each by half of what is over or missing.");
}

static void diagonal_words(struct words *w)
{
	const struct rt_setout_step *s = w->step;
	const char *a = name(w, s->point), *b = name(w, s->other);
	double part = s->from_m / (2 * s->proof_m);

	say(w,
	    "Tape both diagonals, %s to %s and %s to %s. Slide %s and %s by %s of the "
	    "difference",
	    name(w, s->from), b, name(w, s->second), a, a, b, rt_show_real(part, 2).text);
	if (!w->feet)
		say(w, " (10 cm: %s cm)", rt_show_real(10 * part, 1).text);
	say(w,
	    ", both the same way along their line: towards %s when %s to %s is the longer one, "
	    "else towards %s.",
	    a, name(w, s->from), b, b);
}

static void stake_words(struct words *w)
{
	const struct rt_setout_point *p = &w->plan->point[w->step->point];
	double x, y;

	rt_setout_frame(w->plan, p->x_m, p->y_m, &x, &y);
	say(w, "Stake %s at x %s m, y %s m.", p->name, rt_show_real(x, 2).text,
	    rt_show_real(y, 2).text);
}

void rt_setout_step_words(const struct rt_setout_plan *plan, size_t step, bool feet, char *out,
			  size_t size)
{
	struct words w = {plan, &plan->step[step], feet, out, size};

	*out = '\0';
	switch (w.step->kind) {
	case RT_SETOUT_STAND:
		say(&w, "Put peg %s where that corner of the ring is to stand.",
		    name(&w, w.step->point));
		break;
	case RT_SETOUT_SIGHT:
		say(&w,
		    "Put a pole in the direction of the left side, some paces beyond its far "
		    "end. Stand at %s and sight to it.",
		    name(&w, w.step->from));
		break;
	case RT_SETOUT_RUN:
		run_words(&w);
		break;
	case RT_SETOUT_CROSS:
		cross_words(&w);
		break;
	case RT_SETOUT_LENGTH:
		length_words(&w);
		break;
	case RT_SETOUT_DIAGONALS:
		diagonal_words(&w);
		break;
	case RT_SETOUT_STAKE:
		stake_words(&w);
		break;
	case RT_SETOUT_PROVE:
		say(&w, "Tape %s to %s.", w.step->proof_from.peg, w.step->proof_to.peg);
		break;
	}
}

/* ---- what proves it ---- */

static void say_mark(struct words *w, const struct rt_setout_mark *mark)
{
	if (mark->towards)
		say(w, "%s from %s towards %s", taped(w, mark->past_m).text, mark->peg,
		    mark->towards);
	else
		say(w, "%s", mark->peg);
}

/* The distance between two marks. */
static void distance_words(struct words *w)
{
	const struct rt_setout_step *s = w->step;

	if (!s->proof_from.peg) {
		say(w, "Later steps prove it.");
		return;
	}
	say_mark(w, &s->proof_from);
	say(w, " to ");
	say_mark(w, &s->proof_to);
	say(w, ": %s", taped(w, s->proof_m).text);
	if (s->kind != RT_SETOUT_LENGTH)
		say_parts(w, s->proof_m);
	say(w, ".");
}

void rt_setout_proof_words(const struct rt_setout_plan *plan, size_t step, bool feet, char *out,
			   size_t size)
{
	const struct rt_setout_step *s = &plan->step[step];
	struct words w = {plan, s, feet, out, size};

	*out = '\0';
	switch (s->kind) {
	case RT_SETOUT_STAND:
		say(&w, "Pace out %s and %s: the ring and the room round it must fit.",
		    taped(&w, plan->kind->length_m).text, taped(&w, plan->kind->width_m).text);
		break;
	case RT_SETOUT_SIGHT:
		say(&w, "Seen from the pole, every peg to come hides the others.");
		break;
	case RT_SETOUT_DIAGONALS:
		say(&w, "Both diagonals alike: %s", taped(&w, s->from_m).text);
		say_parts(&w, s->from_m);
		say(&w, "; %s to %s still %s.", s->proof_from.peg, s->proof_to.peg,
		    taped(&w, s->proof_m).text);
		break;
	default:
		distance_words(&w);
	}
}
