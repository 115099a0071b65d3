/* The certificate of a true ring.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define WORDS_MOST 900
#define GAP_MM	   4.0

/* Type of the name, of what is certified, of the rest; smaller where names are very long. */
struct types {
	struct rt_lettering name, large, body;
};
static const struct types sizes[] = {
	{{.size_pt = 30.0}, {.size_pt = 20.0}, {.size_pt = 14.0}},
	{{.size_pt = 16.0}, {.size_pt = 14.0}, {.size_pt = 12.0}},
};

struct certificate {
	const struct rt_check_paper *paper;
	const struct rt_sheet_options *options;
	const struct types *type;
	bool feet;
	struct rt__flow flow;
};

static void tell(struct certificate *c, const char *role, const char *words,
		 const struct rt_lettering *lettering)
{
	rt__flow_words(&c->flow, role, words, lettering, 0.0);
	c->flow.down_mm += GAP_MM;
}

/* A length rounded up to the centimetre: a bound must not be told smaller than it is. */
static struct rt_shown_number bound(double m, bool feet)
{
	return rt_show_length(feet ? m : ceil(m * 100.0 - 1e-9) / 100.0, 2, 2, feet);
}

/* ---- what it says ---------------------------------------------------------------------------- */

static void within(struct certificate *c)
{
	const struct rt_ring_check *check = c->paper->check;
	const struct rt_checked_peg *worst = rt_ring_check_worst(check);
	char words[WORDS_MOST];

	snprintf(words, sizeof words, "This ring is true: every %s stands within %s of its place.",
		 check->unmeasured.n ? "letter and corner measured" : "letter and corner",
		 bound(rt_ring_check_within(check), c->feet).text);
	tell(c, "within", words, &c->type->large);
	snprintf(words, sizeof words,
		 "That holds for each of them with at least 95 %% confidence. The largest offset "
		 "found is %s, at %s. The tolerance is %s.",
		 rt_show_length(worst->off_m, 2, 2, c->feet).text, worst->peg.name,
		 rt_show_length(check->tolerance_m, 2, 2, c->feet).text);
	tell(c, "confidence", words, &c->type->body);
}

/* How many readings there are of each sort, a receiver's place as one. */
static void with_what(const struct rt_adjustment *a, char *out, size_t size)
{
	static const struct {
		enum rt_reading_kind kind;
		const char *one, *many;
	} sort[] = {
		{RT_READ_DISTANCE, "distance by tape", "distances by tape"},
		{RT_READ_OFFSET, "offset from a string", "offsets from a string"},
		{RT_READ_ANGLE, "angle", "angles"},
		{RT_READ_X, "place by receiver", "places by receiver"},
	};
	size_t used = 0;

	for (size_t k = 0; k < sizeof sort / sizeof *sort; k++) {
		size_t n = 0;

		for (size_t i = 0; i < a->readings; i++)
			n += a->reading[i].reading->kind == sort[k].kind;
		if (n)
			used += (size_t)snprintf(out + used, size - used, "%s%zu %s",
						 used ? ", " : "", n,
						 n == 1 ? sort[k].one : sort[k].many);
	}
}

static void measured(struct certificate *c)
{
	const struct rt_adjustment *a = &c->paper->check->adjustment;
	char when[RT_NAME_MOST * 4 + 40], what[160], words[WORDS_MOST + 400], aside[80] = "";

	rt__measured_words(c->paper->measured, c->paper->who, when, sizeof when);
	with_what(a, what, sizeof what);
	if (a->blunders)
		snprintf(aside, sizeof aside, " %zu reading%s set aside as wrong.", a->blunders,
			 a->blunders == 1 ? " was" : "s were");
	snprintf(words, sizeof words,
		 "Measured %s with %s. %zu of the readings were more than needed, so that they "
		 "check each other.%s",
		 when, what, a->degrees_of_freedom, aside);
	tell(c, "measured", words, &c->type->body);
}

static void missing(struct certificate *c)
{
	char names[WORDS_MOST / 2], words[WORDS_MOST];

	rt__unmeasured_words(c->paper->check, names, sizeof names);
	snprintf(words, sizeof words, "Not measured, and not certified: %s.", names);
	tell(c, "unmeasured", *names ? words : "All letters and corners were measured.",
	     &c->type->body);
}

static void size_words(const struct rt_ring_kind *kind, bool feet, char *out, size_t size)
{
	snprintf(out, size, "%s: a %s ring of %s by %s, letters as in its kind", kind->name,
		 rt_discipline_words(kind->discipline),
		 rt_show_length(kind->width_m, 0, 2, feet).text,
		 rt_show_length(kind->length_m, 0, 2, feet).text);
}

/* ---- the whole ------------------------------------------------------------------------------- */

static enum rt_err refuse(const struct rt_check_paper *paper, struct rt_error *err)
{
	char verdict[80];

	rt_ring_check_words(paper->check, verdict, sizeof verdict);
	return rt_fail(err, RT_E_INPUT, "no certificate of a ring that is not true: %s", verdict);
}

/* All of it, on one page or more. */
static enum rt_err lay(struct certificate *c, struct rt_sheet *out, struct rt_error *err)
{
	const char *name = c->paper->ring ? c->paper->ring : c->paper->check->kind->name;
	char title[RT_NAME_MOST * 4 + 40], what[400];
	struct rt__furniture furniture = {.title = "Certificate of a true ring",
					  .line = {c->options->show, what}};
	enum rt_err e;

	snprintf(title, sizeof title, "Certificate of a true ring: %s", name);
	size_words(c->paper->check->kind, c->feet, what, sizeof what);
	e = rt_sheet_begin(out, c->options->paper, title, c->options->when, err);
	if (e)
		return e;
	c->flow.sheet = out;
	c->flow.frame = c->flow.further = rt__furniture_room(out, &furniture);
	c->flow.down_mm = c->flow.frame.top_mm + GAP_MM;
	rt_sheet_page(out);
	tell(c, "ring-name", name, &c->type->name);
	within(c);
	measured(c);
	missing(c);
	rt__tell_footing(&c->flow, c->paper, c->feet, &c->type->large, &c->type->body);
	c->flow.down_mm += c->paper->footing ? GAP_MM : 0.0;
	tell(c, "rulebook", "Check the rulebook in force.", &c->type->body);
	rt__flow_line(&c->flow, "Official, date and time", &c->type->body);
	rt__flow_line(&c->flow, "For the ring crew", &c->type->body);
	rt__furniture_draw(out, &furniture, 1);
	return rt_sheet_result(out, err);
}

enum rt_err rt_sheet_certificate(struct rt_sheet *out, const struct rt_check_paper *paper,
				 const struct rt_sheet_options *options, struct rt_error *err)
{
	struct certificate c = {.paper = paper, .options = options, .feet = options->feet};
	enum rt_err e;

	if (paper->check->verdict != RT_RING_TRUE)
		return refuse(paper, err);
	for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
		rt_sheet_free(out);
		c.type = &sizes[i];
		e = lay(&c, out, err);
		if (e || out->pages == 1)
			return e;
	}
	return rt_fail(err, RT_E_INPUT, "the certificate fills more than a page");
}
