/* Report tables of the footing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define LINE(member) RT_AT(struct rt_footing_line, member)

static const struct rt_field line_fields[] = {
	{"what", .head = "line", LINE(what)},
	{"from", .head = "highest", LINE(from.name)},
	{"to", .head = "lowest", LINE(to.name)},
	{"length_m", .head = "apart", LINE(length_m), RT_METRES(1)},
	{"fall_m", .head = "fall", LINE(fall_m), RT_METRES(3)},
	{"fall_percent", .head = "fall %", LINE(fall_percent), RT_REALS(RT_PERCENT, 2)},
	{"limit_m", .head = "limit", LINE(limit_m), RT_METRES(2)},
	{"verdict", LINE(verdict), RT_WORD_OF(footing_verdict)},
	{"se_m", .head = "+-", LINE(se_m), RT_METRES(3), .wide = true},
	{"whole", .head = "both ends measured", LINE(whole), .type = RT_BOOL, .wide = true},
};

static const struct rt_record line_table = RT_TABLE(
	"footing", "Footing: how far each line falls, from its highest peg to its lowest",
	line_fields, struct rt_footing_line);

#define PLANE(member)	RT_AT(struct rt_footing, plane.member)
#define PEG_AT(extreme) RT_IN(struct rt_footing, extreme, struct rt_footing_peg, peg.name)

static const struct rt_field plane_fields[] = {
	{"pegs", RT_AT(struct rt_footing, pegs), .type = RT_SIZE},
	{"fall_percent", .head = "fall %", PLANE(fall), RT_PARTS(2)},
	{"se_percent", .head = "+-", PLANE(se_fall), RT_PARTS(2)},
	{"towards", PLANE(towards)},
	{"direction_deg", .head = "direction", PLANE(direction_deg), RT_NUMBERS(0)},
	{"rms_m", .head = "uneven", PLANE(rms_m), RT_METRES(3),
	 .help = "how far the pegs lie off the plane, as a root mean square"},
	{"highest", PEG_AT(highest)},
	{"lowest", PEG_AT(lowest)},
	{"height_m", .head = "height at X", PLANE(height_m), RT_METRES(3), .wide = true},
	{"right_percent", .head = "rise to the right %", PLANE(right), RT_PARTS(3), .wide = true},
	{"ahead_percent", .head = "rise towards C %", PLANE(ahead), RT_PARTS(3), .wide = true},
	{"se_right_percent", .head = "+- to the right", PLANE(se_right), RT_PARTS(3), .wide = true},
	{"se_ahead_percent", .head = "+- towards C", PLANE(se_ahead), RT_PARTS(3), .wide = true},
	{"se_direction_deg", .head = "+- direction", PLANE(se_direction_deg), RT_NUMBERS(0),
	 .wide = true},
	{"degrees_of_freedom", .head = "redundant", PLANE(degrees_of_freedom), .type = RT_SIZE,
	 .wide = true},
};

static const struct rt_record plane_table = RT_TABLE("plane", "The plane nearest to the heights",
						     plane_fields, struct rt_footing);

/* Without a plane nothing lies anywhere. */
static const char *write_lies(const struct rt_field *f, const void *peg, char *out, size_t size)
{
	const struct rt_footing_peg *p = peg;

	(void)f, (void)out, (void)size;
	return isnan(p->off_plane_m) ? NULL : rt_lies_words(p->lies);
}

#define PEG(member) RT_AT(struct rt_footing_peg, member)

static const struct rt_field height_fields[] = {
	{"peg", PEG(peg.name)},
	{"height_m", .head = "height", PEG(height_m), RT_METRES(3)},
	{"off_plane_m", .head = "above plane", PEG(off_plane_m), RT_METRES(3)},
	{"lies", .type = RT_OWN, .write = write_lies},
	{"sigma_m", .head = "+-", PEG(sigma_m), RT_METRES(3), .wide = true},
	{"times", .head = "times read", PEG(times), .type = RT_SIZE, .wide = true},
};

static const struct rt_record height_table = RT_TABLE("heights", "Heights", height_fields,
						      struct rt_footing_peg);

const struct rt_record *const rt_footing_tables[] = {&line_table, &plane_table, &height_table,
						     NULL};

/* ---- notes ---- */

/* The lines of one sort that have that verdict, by the one that falls most. */
static void note_lines(struct rt_report *r, const struct rt_footing *f, bool across,
		       enum rt_footing_verdict verdict, bool feet)
{
	const struct rt_footing_line *worst = NULL;
	struct rt_shown_number fall, limit;
	char others[64] = "";
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
	fall = rt_show_length(worst->fall_m, 2, 2, feet);
	limit = rt_show_length(worst->limit_m, 2, 2, feet);
	if (n > 1)
		snprintf(others, sizeof others, " So it is with %zu more of these lines.", n - 1);
	if (verdict == RT_FOOTING_STEEP)
		rt_report_note(r, "Too steep: the %s falls %s from %s to %s; at most %s.%s",
			       worst->what, fall.text, worst->from.name, worst->to.name, limit.text,
			       others);
	else
		rt_report_note(r,
			       "Unsure: the %s falls %s from %s to %s, and the limit of %s lies "
			       "within two standard errors of that. Level them once more.%s",
			       worst->what, fall.text, worst->from.name, worst->to.name, limit.text,
			       others);
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
	struct rt_shown_number far;

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
	far = rt_show_length(fabs(worst->off_plane_m), 2, 2, feet);
	if (lies == RT_LIES_HUMP)
		rt_report_note(r, "Hump at %s: up to %s above the plane, at %s.", names.text,
			       far.text, worst->peg.name);
	else
		rt_report_note(r,
			       "Hollow at %s: up to %s under the plane, at %s. Water stays there.",
			       names.text, far.text, worst->peg.name);
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
	char water[240];

	rt_report_list(r, &line_table, f->line, f->lines);
	if (f->plane.fitted)
		rt_report_list(r, &plane_table, f, 1);
	rt_report_list(r, &height_table, f->peg, f->pegs);
	note_steep(r, f, feet);
	rt_footing_water_words(f, water, sizeof water);
	rt_report_note(r, "%s", water);
	note_uneven(r, f, RT_LIES_HOLLOW, feet);
	note_uneven(r, f, RT_LIES_HUMP, feet);
	note_missing(r, f);
	rt_report_note(r,
		       "Limits of the fall: %s along or on a diagonal, %s across%s%s%s. Check the "
		       "rulebook in force.",
		       rt_show_length(f->limits.along_m, 2, 2, feet).text,
		       rt_show_length(f->limits.across_m, 2, 2, feet).text,
		       f->limits.source ? " (" : "", f->limits.source ? f->limits.source : "",
		       f->limits.source ? ")" : "");
	if (f->steep || f->unsure)
		r->needs_person = true;
	return rt_report_result(r, err);
}
