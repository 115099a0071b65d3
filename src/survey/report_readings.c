/* Report table of readings, and what is said of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define NAMES_TOLD 40
#define BEGIN_WITH 3

/* ---- names in a sentence ---- */

void rt__told_add(struct rt__told *told, const char *name)
{
	if (told->n++ < NAMES_TOLD)
		rt_append(told->text, sizeof told->text, "%s%s", *told->text ? ", " : "", name);
}

static bool is_coordinate(const struct rt_reading *r)
{
	return r->kind == RT_READ_X || r->kind == RT_READ_Y;
}

/* Is reading i the y of a fix, whose x is the one before? */
static bool ends_fix(const struct rt_adjustment *a, size_t i)
{
	return i > 0 && rt__one_fix(a->reading[i - 1].reading, a->reading[i].reading);
}

/* A reading in a list; the two of a fix once. */
static void tell_reading(struct rt__told *told, const struct rt_adjustment *a, size_t i)
{
	const struct rt_reading *r = a->reading[i].reading;
	size_t told_already = strlen(told->text);
	char words[60];

	if (!is_coordinate(r)) {
		rt__told_add(told, rt_reading_words(r).text);
		return;
	}
	snprintf(words, sizeof words, "%.24s by receiver", r->at);
	if (!ends_fix(a, i) || told_already < strlen(words) ||
	    strcmp(told->text + told_already - strlen(words), words) != 0)
		rt__told_add(told, words);
}

/* ---- the table ---- */

/* Figures that are metres, of an angle degrees. */
enum { VALUE, RESIDUAL, SIGMA, HIDDEN, FIGURES };

struct reading_row {
	const struct rt_reading *reading;
	const struct rt_adjusted_reading *adjusted;
	double distance_m, m[FIGURES], deg[FIGURES];
};

#define READ(member)	 RT_IN(struct reading_row, reading, struct rt_reading, member)
#define ADJUSTED(member) RT_IN(struct reading_row, adjusted, struct rt_adjusted_reading, member)
#define FIGURE(member)	 RT_AT(struct reading_row, member)

/* As a survey of distances needs them; rt__put_readings shows others. */
static const struct rt_field fields[] = {
	{"kind", READ(kind), RT_WORD_OF(reading_kind), .wide = true},
	{"point", READ(at), .wide = true},
	{"from", READ(from)},
	{"to", READ(to)},
	{"distance_m", .head = "reading", FIGURE(distance_m), RT_METRES(3)},
	{"value_m", .head = "reading", FIGURE(m[VALUE]), RT_METRES(3), .wide = true},
	{"value_deg", .head = "angle", FIGURE(deg[VALUE]), RT_DEGREES(2), .wide = true},
	{"residual_m", .head = "residual", FIGURE(m[RESIDUAL]), RT_METRES(3),
	 .help = "adjusted less read"},
	{"residual_deg", .head = "residual", FIGURE(deg[RESIDUAL]), RT_DEGREES(2), .wide = true},
	{"w", ADJUSTED(w), RT_NUMBERS(1),
	 .help = "residual in standard errors of it: over 3.29 is suspect"},
	{"verdict", ADJUSTED(verdict), RT_WORD_OF(reading_verdict)},
	{"sigma_m", .head = "sigma", FIGURE(m[SIGMA]), RT_METRES(3), .wide = true},
	{"sigma_deg", .head = "sigma", FIGURE(deg[SIGMA]), RT_DEGREES(3), .wide = true},
	{"redundancy", .head = "r", ADJUSTED(redundancy), RT_NUMBERS(3), .wide = true,
	 .help = "how well other readings check it: 0 not at all, 1 wholly"},
	{"hidden_m", .head = "could hide", FIGURE(m[HIDDEN]), RT_METRES(3), .wide = true,
	 .help = "the smallest mistake in it that is found 4 times in 5"},
	{"hidden_deg", .head = "could hide", FIGURE(deg[HIDDEN]), RT_DEGREES(3), .wide = true},
	{"suspect", ADJUSTED(suspect), .type = RT_BOOL, .wide = true,
	 .help = "something is wrong with it, or with others like it"},
	{"note", READ(note), .wide = true},
};

const struct rt_record rt__reading_table = RT_TABLE("readings", "Readings", fields,
						    struct reading_row);

void rt__put_readings(struct rt_report *r, const struct rt_adjustment *a)
{
	struct rt_table *t = rt_report_rows(r, &rt__reading_table);
	bool distances = true, angles = false;

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_adjusted_reading *x = &a->reading[i];
		const double figure[FIGURES] = {x->reading->value, x->residual_m, x->sigma_m,
						x->hidden_m};
		bool distance = x->reading->kind == RT_READ_DISTANCE;
		bool angle = x->reading->kind == RT_READ_ANGLE;
		struct reading_row row = {.reading = x->reading, .adjusted = x};

		row.distance_m = distance ? x->reading->value : NAN;
		for (int k = 0; k < FIGURES; k++) {
			row.m[k] = angle ? NAN : figure[k];
			row.deg[k] = angle ? figure[k] : NAN;
		}
		rt_put_row(t, &row);
		distances &= distance;
		angles |= angle;
	}
	rt_table_show(t, "kind", !distances);
	rt_table_show(t, "point", !distances);
	rt_table_show(t, "distance_m", distances);
	rt_table_show(t, "value_m", !distances);
	rt_table_show(t, "value_deg", angles);
	rt_table_show(t, "residual_deg", angles);
}

/* ---- what is said ---- */

static void note_distance(struct rt_report *r, const struct rt_adjusted_reading *x, bool feet)
{
	rt_report_note(r,
		       "Reading %s-%s was set aside: it says %s, the others %s, so it is %s "
		       "too %s. Tape it again.",
		       x->reading->from, x->reading->to,
		       rt_show_length(x->reading->value, 2, 2, feet).text,
		       rt_show_length(x->reading->value + x->residual_m, 2, 2, feet).text,
		       rt_show_length(fabs(x->residual_m), 2, 2, feet).text,
		       x->residual_m > 0 ? "short" : "long");
}

static void note_of_line(struct rt_report *r, const struct rt_adjusted_reading *x, bool feet)
{
	double is = x->reading->value, should = x->reading->value + x->residual_m;
	bool angle = x->reading->kind == RT_READ_ANGLE;
	struct rt_shown_number read = rt_show_length(is, 2, 2, feet);
	struct rt_shown_number says = rt_show_length(should, 2, 2, feet);

	if (angle) {
		read = rt_show_real(is, 2);
		says = rt_show_real(should < 0 ? should + 360 : should, 2);
	}
	rt_report_note(r, "The %s was set aside: it says %s, the others %s%s. Measure it again.",
		       rt_reading_words(x->reading).text, read.text, says.text,
		       angle ? " degrees" : "");
}

/* A fix is told once, at its x; one coordinate alone by itself. */
static void note_fix(struct rt_report *r, const struct rt_adjustment *a, size_t i, bool feet)
{
	const struct rt_adjusted_reading *x = &a->reading[i];
	bool pair = i + 1 < a->readings && ends_fix(a, i + 1);

	if (ends_fix(a, i))
		return;
	rt_report_note(
		r,
		"The receiver's place of %s was set aside: the others put %s %s away from "
		"it. Take it again.",
		x->reading->at, x->reading->at,
		rt_show_length(hypot(x->residual_m, pair ? x[1].residual_m : 0), 2, 2, feet).text);
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

		if (x->unit)
			rt_report_note(r,
				       "Reading %s, %s, would fit in %s: was it written down in "
				       "metres?",
				       rt_reading_words(x->reading).text,
				       rt_show_real(x->reading->value, 2).text, x->unit);
	}
}

/* The readings that stand out most, to begin with. */
static void note_several(struct rt_report *r, const struct rt_adjustment *a)
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
		       rt_show_real(a->sigma0, 1).text, names.text);
}

static void note_end(struct rt_report *r, const struct rt_adjustment *a)
{
	struct rt__told names = {0};

	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].suspect)
			tell_reading(&names, a, i);
	}
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
			note_several(r, a);
			break;
		}
		rt_report_note(r,
			       "No single reading is to blame, but the readings are about %s times "
			       "worse than their sigma says. Tape with more care, or give a larger "
			       "sigma.",
			       rt_show_real(a->sigma0, 1).text);
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
