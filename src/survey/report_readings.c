/* Report table of readings, and what is said of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a)     (sizeof(a) / sizeof *(a))
#define NAMES_TOLD   40
#define BEGIN_WITH   3
#define READING_MOST 120 /* of a reading in words */

/* ---- names in a sentence ---- */

void rt__told_add(struct rt__told *told, const char *name)
{
	size_t room = sizeof told->text - told->used;
	int length;

	if (told->n++ >= NAMES_TOLD || room < 100)
		return;
	length = snprintf(told->text + told->used, room, "%s%.96s", told->used ? ", " : "", name);
	if (length > 0)
		told->used += (size_t)length;
}

static bool is_coordinate(const struct rt_reading *r)
{
	return r->kind == RT_READ_X || r->kind == RT_READ_Y;
}

/* A reading in a list; the two of a fix once. */
static void tell_reading(struct rt__told *told, const struct rt_adjustment *a, size_t i)
{
	const struct rt_reading *r = a->reading[i].reading;
	const struct rt_reading *before = i ? a->reading[i - 1].reading : NULL;
	char words[READING_MOST];

	if (!is_coordinate(r)) {
		rt_reading_words(r, words, sizeof words);
		rt__told_add(told, words);
		return;
	}
	snprintf(words, sizeof words, "%.24s by receiver", r->at);
	if (r->kind == RT_READ_Y && before && before->kind == RT_READ_X &&
	    strcmp(before->at, r->at) == 0 && told->used >= strlen(words) &&
	    strcmp(told->text + told->used - strlen(words), words) == 0)
		return;
	rt__told_add(told, words);
}

/* ---- the table ---- */

/* of_points: not all are distances; angles: there are some.  What they do not need is wide. */
#define COLUMNS(of_points, angles)                                                                 \
	{                                                                                          \
		RT__TEXT("kind", "kind", !(of_points)), RT__TEXT("point", "point", !(of_points)),  \
			RT__TEXT("from", "from", false), RT__TEXT("to", "to", false),              \
			RT__METRES("distance_m", "reading", 3, of_points),                         \
			RT__METRES("value_m", "reading", 3, !(of_points)),                         \
			RT__DEGREES("value_deg", "angle", 2, !(angles)),                           \
			RT__METRES("residual_m", "residual", 3, false),                            \
			RT__DEGREES("residual_deg", "residual", 2, !(angles)),                     \
			RT__NUMBER("w", "w", 1, false), RT__TEXT("verdict", "verdict", false),     \
			RT__METRES("sigma_m", "sigma", 3, true),                                   \
			RT__DEGREES("sigma_deg", "sigma", 3, true),                                \
			RT__NUMBER("redundancy", "r", 3, true),                                    \
			RT__METRES("hidden_m", "could hide", 3, true),                             \
			RT__DEGREES("hidden_deg", "could hide", 3, true),                          \
			RT__YES_NO("suspect", "suspect", true), RT__TEXT("note", "note", true)     \
	}

static struct rt_table *readings_table(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_field distances[] = COLUMNS(false, false);
	static const struct rt_field points[] = COLUMNS(true, false);
	static const struct rt_field angles[] = COLUMNS(true, true);
	const struct rt_field *columns = distances;

	for (size_t i = 0; i < a->readings && columns != angles; i++) {
		enum rt_reading_kind kind = a->reading[i].reading->kind;

		if (kind == RT_READ_ANGLE)
			columns = angles;
		else if (kind != RT_READ_DISTANCE)
			columns = points;
	}
	return rt_report_table(r, "readings", "Readings", columns, COUNT(distances));
}

void rt__put_readings(struct rt_report *r, const struct rt_adjustment *a)
{
	struct rt_table *t = readings_table(r, a);

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];
		enum rt_reading_kind kind = x->reading->kind;
		bool angle = kind == RT_READ_ANGLE;

		rt_put_text(t, rt_reading_kind_words(kind));
		rt_put_text(t, x->reading->at);
		rt_put_text(t, x->reading->from);
		rt_put_text(t, x->reading->to);
		rt_put_real(t, kind == RT_READ_DISTANCE ? x->reading->value : NAN);
		rt_put_real(t, angle ? NAN : x->reading->value);
		rt_put_real(t, angle ? x->reading->value : NAN);
		rt_put_real(t, angle ? NAN : x->residual_m);
		rt_put_real(t, angle ? x->residual_m : NAN);
		rt_put_real(t, x->w);
		rt_put_text(t, rt_reading_verdict_words(x->verdict));
		rt_put_real(t, angle ? NAN : x->sigma_m);
		rt_put_real(t, angle ? x->sigma_m : NAN);
		rt_put_real(t, x->redundancy);
		rt_put_real(t, angle ? NAN : x->hidden_m);
		rt_put_real(t, angle ? x->hidden_m : NAN);
		rt_put_bool(t, x->suspect);
		rt_put_text(t, x->reading->note);
	}
}

/* ---- what is said ---- */

static void note_distance(struct rt_report *r, const struct rt_adjusted_reading *x, bool feet)
{
	char read[32], says[32], off[32];

	rt_format_length(x->reading->value, 2, 2, feet, read, sizeof read);
	rt_format_length(x->reading->value + x->residual_m, 2, 2, feet, says, sizeof says);
	rt_format_length(fabs(x->residual_m), 2, 2, feet, off, sizeof off);
	rt_report_note(r,
		       "Reading %s-%s was set aside: it says %s, the others %s, so it is %s "
		       "too %s. Tape it again.",
		       x->reading->from, x->reading->to, read, says, off,
		       x->residual_m > 0 ? "short" : "long");
}

static void note_of_line(struct rt_report *r, const struct rt_adjusted_reading *x, bool feet)
{
	double is = x->reading->value, should = x->reading->value + x->residual_m;
	char words[READING_MOST], read[32], says[32];

	if (x->reading->kind == RT_READ_ANGLE) {
		rt_format_real(is, 2, read, sizeof read);
		rt_format_real(should < 0 ? should + 360 : should, 2, says, sizeof says);
	} else {
		rt_format_length(is, 2, 2, feet, read, sizeof read);
		rt_format_length(should, 2, 2, feet, says, sizeof says);
	}
	rt_reading_words(x->reading, words, sizeof words);
	rt_report_note(r, "The %s was set aside: it says %s, the others %s%s. Measure it again.",
		       words, read, says, x->reading->kind == RT_READ_ANGLE ? " degrees" : "");
}

/* A fix is told once, at its x; one coordinate alone by itself. */
static void note_fix(struct rt_report *r, const struct rt_adjustment *a, size_t i, bool feet)
{
	const struct rt_adjusted_reading *x = &a->reading[i], *next = x + 1;
	bool pair = x->reading->kind == RT_READ_X && i + 1 < a->readings &&
		    next->reading->kind == RT_READ_Y && next->verdict == RT_READING_BLUNDER &&
		    strcmp(next->reading->at, x->reading->at) == 0;
	char off[32];

	if (x->reading->kind == RT_READ_Y && i && (x - 1)->reading->kind == RT_READ_X &&
	    (x - 1)->verdict == RT_READING_BLUNDER &&
	    strcmp((x - 1)->reading->at, x->reading->at) == 0)
		return;
	rt_format_length(hypot(x->residual_m, pair ? next->residual_m : 0), 2, 2, feet, off,
			 sizeof off);
	rt_report_note(r,
		       "The receiver's place of %s was set aside: the others put %s %s away from "
		       "it. Take it again.",
		       x->reading->at, x->reading->at, off);
}

static void note_blunders(struct rt_report *r, const struct rt_adjustment *a, bool feet)
{
	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];

		if (x->verdict != RT_READING_BLUNDER)
			continue;
		if (is_coordinate(x->reading))
			note_fix(r, a, i, feet);
		else if (x->reading->kind == RT_READ_DISTANCE)
			note_distance(r, x, feet);
		else
			note_of_line(r, x, feet);
	}
}

static void note_units(struct rt_report *r, const struct rt_adjustment *a)
{
	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];
		char words[READING_MOST], value[32];

		if (!x->unit)
			continue;
		rt_reading_words(x->reading, words, sizeof words);
		rt_format_real(x->reading->value, 2, value, sizeof value);
		rt_report_note(r, "Reading %s, %s, would fit in %s: was it written down in metres?",
			       words, value, x->unit);
	}
}

/* The readings that stand out most, to begin with. */
static void note_several(struct rt_report *r, const struct rt_adjustment *a, const char *factor)
{
	struct rt__told names = {0};
	double under = INFINITY;

	while (names.n < BEGIN_WITH) {
		size_t worst = a->readings;

		for (size_t i = 0; i < a->readings; i++) {
			const struct rt_adjusted_reading *x = &a->reading[i];

			if (x->verdict == RT_READING_GOOD && fabs(x->w) < under &&
			    (worst == a->readings || fabs(x->w) > fabs(a->reading[worst].w)))
				worst = i;
		}
		if (worst == a->readings)
			break;
		under = fabs(a->reading[worst].w);
		tell_reading(&names, a, worst);
	}
	rt_report_note(r,
		       "The readings kept are about %s times worse than their sigma says: several "
		       "are wrong, and hide each other. Tape again, beginning with %s.",
		       factor, names.text);
}

static void note_end(struct rt_report *r, const struct rt_adjustment *a)
{
	struct rt__told names = {0};
	char factor[32];

	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].suspect)
			tell_reading(&names, a, i);
	}
	rt_format_real(a->sigma0, 1, factor, sizeof factor);
	switch (a->end) {
	case RT_SEARCH_CLEAR:
		break;
	case RT_SEARCH_TIED:
		rt_report_note(r,
			       "Something here is wrong, and these readings cannot tell which: %s. "
			       "Measure one more.",
			       names.text);
		break;
	case RT_SEARCH_NEEDED:
		rt_report_note(r,
			       "Reading %s looks wrong, but without it a peg is not fixed. Tape it "
			       "again, or measure one more.",
			       names.text);
		break;
	case RT_SEARCH_WORSE:
		if (rt__in_doubt(a)) {
			note_several(r, a, factor);
			break;
		}
		rt_report_note(r,
			       "No single reading is to blame, but the readings are about %s times "
			       "worse than their sigma says. Tape with more care, or give a larger "
			       "sigma.",
			       factor);
		break;
	}
}

static void note_checks(struct rt_report *r, const struct rt_adjustment *a)
{
	struct rt__told names = {0};

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];

		if (x->verdict == RT_READING_UNCHECKED && !x->suspect)
			tell_reading(&names, a, i);
	}
	if (a->test == RT_SIGMA_UNTESTED)
		rt_report_note(r, "No reading checks another: any of them could be wrong and it "
				  "would not show. Measure one more at least.");
	else if (names.n)
		rt_report_note(r,
			       "Unchecked: a mistake in %s would not show, as no other reading "
			       "checks it well.%s",
			       names.text, names.n > NAMES_TOLD ? " Others are marked above." : "");
	if (a->test == RT_SIGMA_CAUTIOUS)
		rt_report_note(r, "The readings agree better than their sigma says; sigma was "
				  "chosen with caution.");
}

void rt__notes_of_readings(struct rt_report *r, const struct rt_adjustment *a, bool feet)
{
	note_blunders(r, a, feet);
	note_units(r, a);
	note_end(r, a);
	note_checks(r, a);
	if (a->blunders || a->end != RT_SEARCH_CLEAR)
		r->needs_person = true;
}
