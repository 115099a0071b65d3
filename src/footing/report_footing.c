/* Report tables of the footing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

static void put_lines(struct rt_report *r, const struct rt_footing *f)
{
	static const struct rt_field columns[] = {
		RT__TEXT("what", "line", false),
		RT__TEXT("from", "highest", false),
		RT__TEXT("to", "lowest", false),
		RT__METRES("length_m", "apart", 1, false),
		RT__METRES("fall_m", "fall", 3, false),
		RT__PERCENT("fall_percent", "fall %", 2, false),
		RT__METRES("limit_m", "limit", 2, false),
		RT__TEXT("verdict", "verdict", false),
		RT__METRES("se_m", "+-", 3, true),
		RT__YES_NO("whole", "both ends measured", true),
	};
	struct rt_table *t = rt_report_table(
		r, "footing",
		"Footing: how far each line falls, from its highest peg to its "
		"lowest",
		columns, COUNT(columns));

	for (size_t i = 0; i < f->lines; i++) {
		const struct rt_footing_line *l = &f->line[i];

		rt_put_text(t, l->what);
		rt_put_text(t, l->from.name);
		rt_put_text(t, l->to.name);
		rt_put_real(t, l->length_m);
		rt_put_real(t, l->fall_m);
		rt_put_real(t, 100 * l->fall_m / l->length_m);
		rt_put_real(t, l->limit_m);
		rt_put_text(t, rt_footing_verdict_words(l->verdict));
		rt_put_real(t, l->se_m);
		rt_put_bool(t, l->whole);
	}
}

static void put_plane(struct rt_report *r, const struct rt_footing *f)
{
	static const struct rt_field columns[] = {
		RT__COUNT("pegs", "pegs", false),
		RT__PERCENT("fall_percent", "fall %", 2, false),
		RT__PERCENT("se_percent", "+-", 2, false),
		RT__TEXT("towards", "towards", false),
		RT__NUMBER("direction_deg", "direction", 0, false),
		RT__METRES("rms_m", "uneven", 3, false),
		RT__TEXT("highest", "highest", false),
		RT__TEXT("lowest", "lowest", false),
		RT__METRES("height_m", "height at X", 3, true),
		RT__PERCENT("right_percent", "rise to the right %", 3, true),
		RT__PERCENT("ahead_percent", "rise towards C %", 3, true),
		RT__PERCENT("se_right_percent", "+- to the right", 3, true),
		RT__PERCENT("se_ahead_percent", "+- towards C", 3, true),
		RT__NUMBER("se_direction_deg", "+- direction", 0, true),
		RT__COUNT("degrees_of_freedom", "redundant", true),
	};
	const struct rt_footing_plane *p = &f->plane;
	struct rt_table *t;

	if (!p->fitted)
		return;
	t = rt_report_table(r, "plane", "The plane nearest to the heights", columns,
			    COUNT(columns));
	rt_put_int(t, (int64_t)f->pegs);
	rt_put_real(t, 100 * p->fall);
	rt_put_real(t, 100 * p->se_fall);
	rt_put_text(t, p->towards);
	rt_put_real(t, p->direction_deg);
	rt_put_real(t, p->rms_m);
	rt_put_text(t, f->highest->peg.name);
	rt_put_text(t, f->lowest->peg.name);
	rt_put_real(t, p->height_m);
	rt_put_real(t, 100 * p->right);
	rt_put_real(t, 100 * p->ahead);
	rt_put_real(t, 100 * p->se_right);
	rt_put_real(t, 100 * p->se_ahead);
	rt_put_real(t, p->se_direction_deg);
	rt_put_int(t, (int64_t)p->degrees_of_freedom);
}

static void put_heights(struct rt_report *r, const struct rt_footing *f)
{
	static const struct rt_field columns[] = {
		RT__TEXT("peg", "peg", false),
		RT__METRES("height_m", "height", 3, false),
		RT__METRES("off_plane_m", "above plane", 3, false),
		RT__TEXT("lies", "lies", false),
		RT__METRES("sigma_m", "+-", 3, true),
		RT__COUNT("times", "times read", true),
	};
	struct rt_table *t = rt_report_table(r, "heights", "Heights", columns, COUNT(columns));

	for (size_t i = 0; i < f->pegs; i++) {
		const struct rt_footing_peg *p = &f->peg[i];

		rt_put_text(t, p->peg.name);
		rt_put_real(t, p->height_m);
		rt_put_real(t, p->off_plane_m);
		rt_put_text(t, f->plane.fitted ? rt_lies_words(p->lies) : NULL);
		rt_put_real(t, p->sigma_m);
		rt_put_int(t, (int64_t)p->times);
	}
}

/* ---- notes ---- */

/* The lines of one sort that have that verdict, by the one that falls most. */
static void note_lines(struct rt_report *r, const struct rt_footing *f, bool across,
		       enum rt_footing_verdict verdict, bool feet)
{
	const struct rt_footing_line *worst = NULL;
	char fall[32], limit[32], others[64] = "";
	size_t n = 0;

	for (size_t i = 0; i < f->lines; i++) {
		const struct rt_footing_line *l = &f->line[i];

		if (l->across != across || l->verdict != verdict)
			continue;
		n++;
		if (!worst || l->fall_m > worst->fall_m)
			worst = l;
	}
	if (!worst)
		return;
	rt_format_length(worst->fall_m, 2, 2, feet, fall, sizeof fall);
	rt_format_length(worst->limit_m, 2, 2, feet, limit, sizeof limit);
	if (n > 1)
		snprintf(others, sizeof others, " So it is with %zu more of these lines.", n - 1);
	if (verdict == RT_FOOTING_STEEP)
		rt_report_note(r, "Too steep: the %s falls %s from %s to %s; at most %s.%s",
			       worst->what, fall, worst->from.name, worst->to.name, limit, others);
	else
		rt_report_note(r,
			       "Unsure: the %s falls %s from %s to %s, and the limit of %s lies "
			       "within two standard errors of that. Level them once more.%s",
			       worst->what, fall, worst->from.name, worst->to.name, limit, others);
}

static void note_steep(struct rt_report *r, const struct rt_footing *f, bool feet)
{
	for (int across = 0; across < 2; across++) {
		note_lines(r, f, across, RT_FOOTING_STEEP, feet);
		note_lines(r, f, across, RT_FOOTING_UNSURE, feet);
	}
}

/* Pegs that lie off the plane one way, and the worst of them. */
static void note_uneven(struct rt_report *r, const struct rt_footing *f, enum rt_lies lies,
			bool feet)
{
	const struct rt_footing_peg *worst = NULL;
	struct rt__told names = {0};
	char far[32];

	for (size_t i = 0; i < f->pegs; i++) {
		const struct rt_footing_peg *p = &f->peg[i];

		if (p->lies != lies)
			continue;
		rt__told_add(&names, p->peg.name);
		if (!worst || fabs(p->off_plane_m) > fabs(worst->off_plane_m))
			worst = p;
	}
	if (!worst)
		return;
	rt_format_length(fabs(worst->off_plane_m), 2, 2, feet, far, sizeof far);
	if (lies == RT_LIES_HUMP)
		rt_report_note(r, "Hump at %s: up to %s above the plane, at %s.", names.text, far,
			       worst->peg.name);
	else
		rt_report_note(r,
			       "Hollow at %s: up to %s under the plane, at %s. Water stays there.",
			       names.text, far, worst->peg.name);
}

static void note_missing(struct rt_report *r, const struct rt_footing *f)
{
	struct rt__told missed = {0}, part = {0};

	for (size_t i = 0; i < f->unmeasured.n; i++)
		rt__told_add(&missed, f->unmeasured.at[i]);
	for (size_t i = 0; i < f->lines; i++)
		if (!f->line[i].whole)
			rt__told_add(&part, f->line[i].what);
	if (missed.n)
		rt_report_note(r, "Too few heights to judge: %s.", missed.text);
	if (part.n)
		rt_report_note(r, "Not measured from end to end: %s.", part.text);
}

enum rt_err rt_footing_report(struct rt_report *r, const struct rt_footing *f, bool feet,
			      struct rt_error *err)
{
	char along[32], across[32], water[240];

	put_lines(r, f);
	put_plane(r, f);
	put_heights(r, f);
	note_steep(r, f, feet);
	rt_footing_water_words(f, water, sizeof water);
	rt_report_note(r, "%s", water);
	note_uneven(r, f, RT_LIES_HOLLOW, feet);
	note_uneven(r, f, RT_LIES_HUMP, feet);
	note_missing(r, f);
	rt_format_length(f->limits.along_m, 2, 2, feet, along, sizeof along);
	rt_format_length(f->limits.across_m, 2, 2, feet, across, sizeof across);
	rt_report_note(r,
		       "Limits of the fall: %s along or on a diagonal, %s across%s%s%s. Check the "
		       "rulebook in force.",
		       along, across, f->limits.source ? " (" : "",
		       f->limits.source ? f->limits.source : "", f->limits.source ? ")" : "");
	if (f->steep || f->unsure)
		r->needs_person = true;
	return rt_report_result(r, err);
}
