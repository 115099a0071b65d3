/* The check sheet: a ring as it was found, and what to do.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define DRAWING_MM 112.0 /* how wide the drawing of an upright ring is */
#define GUTTER_MM  5.0
#define WORDS_MOST 640
#define SIGN_MM	   46.0 /* of the two lines to write on */
#define BEGIN_WITH 3

/* ---- words that both papers use -------------------------------------------------------------- */

/* Names with commas between; what does not fit is told by dots. */
static void add_name(char *out, size_t size, const char *name)
{
	size_t used = strlen(out);

	if (used + strlen(name) + sizeof ", , ..." <= size)
		snprintf(out + used, size - used, "%s%s", used ? ", " : "", name);
	else if (used < 3 || strcmp(out + used - 3, "...") != 0)
		snprintf(out + used, size - used, ", ...");
}

void rt__unmeasured_words(const struct rt_ring_check *check, char *out, size_t size)
{
	*out = '\0';
	for (size_t i = 0; i < check->unmeasured.n; i++)
		add_name(out, size, check->unmeasured.at[i].name);
}

void rt__measured_words(const char *measured, const char *who, char *out, size_t size)
{
	snprintf(out, size, "%.16s%s%s%s", measured ? measured : "", measured && who ? " " : "",
		 who ? "by " : "", who ? who : "");
}

/* The line of that sort that falls most; NULL where there is none. */
static const struct rt_footing_line *steepest(const struct rt_footing *f, bool across)
{
	const struct rt_footing_line *worst = NULL;

	for (size_t i = 0; i < f->lines; i++)
		if (f->line[i].across == across && (!worst || f->line[i].fall_m > worst->fall_m))
			worst = &f->line[i];
	return worst;
}

static void line_words(const struct rt_footing_line *l, bool feet, char *out, size_t size)
{
	static const char *const verdict[] = {
		[RT_FOOTING_GOOD] = "within the limit of",
		[RT_FOOTING_STEEP] = "TOO STEEP, at most",
		[RT_FOOTING_UNSURE] = "too near to tell to the limit of",
	};

	snprintf(out, size, "The %s falls %s from %s to %s: %s %s.", l->what,
		 rt_show_length(l->fall_m, 2, 2, feet).text, l->from.name, l->to.name,
		 verdict[l->verdict], rt_show_length(l->limit_m, 2, 2, feet).text);
}

void rt__tell_footing(struct rt__flow *f, const struct rt_check_paper *paper, bool feet,
		      const struct rt_lettering *head, const struct rt_lettering *body)
{
	const char *when = paper->footing_measured;
	char words[WORDS_MOST];

	if (!paper->footing)
		return;
	snprintf(words, sizeof words, "Footing%s%.16s", when ? ", levelled " : "",
		 when ? when : "");
	rt__flow_words(f, "head", words, head, 12.0);
	for (int across = 0; across < 2; across++) {
		const struct rt_footing_line *line = steepest(paper->footing, across);

		if (!line)
			continue;
		line_words(line, feet, words, sizeof words);
		rt__flow_words(f, "footing", words, body, 0.0);
	}
	rt_footing_water_words(paper->footing, words, sizeof words);
	rt__flow_words(f, "footing", words, body, 0.0);
}

/* ---- what to do ------------------------------------------------------------------------------ */

/* The pegs of a verdict under a heading, each with what is to be done. */
static void pegs(const struct rt__check_sheet *t, struct rt__flow *f, enum rt_peg_verdict verdict,
		 const char *role, const char *head)
{
	const struct rt_ring_check *check = t->paper->check;
	bool feet = t->options->feet;
	char what[160], words[WORDS_MOST];

	rt__flow_words(f, "head", head, &rt__head_type, 12.0);
	for (size_t i = 0; i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];

		if (p->verdict != verdict)
			continue;
		rt_peg_move_words(p, feet, what, sizeof what);
		if (verdict == RT_PEG_UNSURE)
			snprintf(what, sizeof what, "found %s off",
				 rt_show_length(p->off_m, 2, 2, feet).text);
		snprintf(words, sizeof words, "%s: %s", p->peg.name, what);
		rt__flow_tick(f, role, words, &rt__type);
	}
	f->down_mm += 2.0;
}

static void value_words(const struct rt_reading *r, double value, bool feet, char *out, size_t size)
{
	if (r->kind == RT_READ_ANGLE)
		snprintf(out, size, "%s degrees", rt_show_real(value, 2).text);
	else
		snprintf(out, size, "%s", rt_show_length(value, 2, 2, feet).text);
}

static void again(const struct rt__check_sheet *t, struct rt__flow *f,
		  const struct rt_adjusted_reading *x, bool *begun)
{
	char read[48], says[48], words[WORDS_MOST];
	bool feet = t->options->feet;

	if (!*begun)
		rt__flow_words(f, "head", "Readings to take again", &rt__head_type, 12.0);
	*begun = true;
	value_words(x->reading, x->reading->value, feet, read, sizeof read);
	value_words(x->reading, x->reading->value + x->residual_m, feet, says, sizeof says);
	snprintf(words, sizeof words, "%s: read %s, the others say %s",
		 rt_reading_words(x->reading).text, read, says);
	rt__flow_tick(f, "doubted", words, &rt__type);
}

/* The readings that are set aside or in doubt; where all are, those that stand out most. */
static void doubted(const struct rt__check_sheet *t, struct rt__flow *f)
{
	const struct rt_adjustment *a = &t->paper->check->adjustment;
	const struct rt_adjusted_reading *worst;
	double under = INFINITY;
	bool begun = false;

	for (size_t i = 0; i < a->readings; i++)
		if (a->reading[i].suspect || a->reading[i].verdict == RT_READING_BLUNDER)
			again(t, f, &a->reading[i], &begun);
	for (int told = 0; a->end == RT_SEARCH_WORSE && told < BEGIN_WITH; told++) {
		worst = NULL;
		for (size_t i = 0; i < a->readings; i++) {
			const struct rt_adjusted_reading *x = &a->reading[i];

			if (x->verdict == RT_READING_GOOD && !x->suspect && fabs(x->w) < under &&
			    (!worst || fabs(x->w) > fabs(worst->w)))
				worst = x;
		}
		if (!worst)
			break;
		under = fabs(worst->w);
		again(t, f, worst, &begun);
	}
	f->down_mm += begun ? 2.0 : 0.0;
}

static void verdict(const struct rt__check_sheet *t, struct rt__flow *f)
{
	static const char *const what[] = {
		[RT_RING_TRUE] = "Every peg measured stands within the tolerance.",
		[RT_RING_UNSURE] = "The readings cannot tell yet: measure more.",
		[RT_RING_MOVE] = "The others stand within the tolerance.",
		[RT_RING_DOUBT] = "Clear up the readings before any peg is moved.",
	};
	const struct rt_ring_check *check = t->paper->check;
	char words[80], head[96];

	rt_ring_check_words(check, words, sizeof words);
	snprintf(head, sizeof head, "Verdict: %s", words);
	rt__flow_words(f, "verdict", head, &rt__head_type, 6.0);
	rt__flow_words(f, "verdict-words",
		       check->verdict == RT_RING_MOVE && check->unsure
			       ? "The others stand within the tolerance, or are unsure."
			       : what[check->verdict],
		       &rt__type, 0.0);
	f->down_mm += 2.0;
}

static void rest(const struct rt__check_sheet *t, struct rt__flow *f)
{
	char words[WORDS_MOST], line[WORDS_MOST + 40];

	rt__unmeasured_words(t->paper->check, words, sizeof words);
	if (*words) {
		snprintf(line, sizeof line, "Not measured: %s.", words);
		rt__flow_words(f, "unmeasured", line, &rt__type, 0.0);
		f->down_mm += 2.0;
	}
	rt__tell_footing(f, t->paper, t->options->feet, &rt__head_type, &rt__type);
	rt__flow_need(f, SIGN_MM);
	rt__flow_line(f, "Official", &rt__type);
	rt__flow_line(f, "Date and time", &rt__type);
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* "driven-40x80; 36 readings, measured 2026-05-09 18:00 by Ann; check 2". */
static void how_words(const struct rt__check_sheet *t, char *out, size_t size)
{
	const struct rt_check_paper *p = t->paper;
	const char *kind = p->check->kind->name;
	char measured[280], number[40] = "";

	rt__measured_words(p->measured, p->who, measured, sizeof measured);
	if (p->number)
		snprintf(number, sizeof number, "; check %lld", (long long)p->number);
	snprintf(out, size, "%s; %zu readings%s%s%s; laid on %s", p->ring ? kind : "As found",
		 p->check->adjustment.readings, *measured ? ", measured " : "", measured, number,
		 p->check->fit == RT_FIT_FEWEST ? "most pegs, so that fewest move"
		 : p->check->fit == RT_FIT_ALL	? "all pegs"
						: "the corners");
}

enum rt_err rt_sheet_check(struct rt_sheet *out, const struct rt_check_paper *paper,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	struct rt__check_sheet t = {.sheet = out, .paper = paper, .options = options};
	char title[RT_NAME_MOST * 4 + 40], how[480];
	struct rt__furniture furniture = {.title = title, .line = {options->show, how}};
	struct rt__flow flow = {.sheet = out};
	struct rt_area left;
	enum rt_err e;

	snprintf(title, sizeof title, "Ring check: %s",
		 paper->ring ? paper->ring : paper->check->kind->name);
	how_words(&t, how, sizeof how);
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	flow.frame = flow.further = left = rt__furniture_room(out, &furniture);
	rt_sheet_page(out);
	if (rt__is_upright(options->seat)) {
		left.right_mm = left.left_mm + DRAWING_MM;
		flow.frame.left_mm = left.right_mm + GUTTER_MM;
		rt__check_drawing(&t, &left);
	} else {
		flow.frame.top_mm = rt__check_drawing(&t, &left) + GUTTER_MM;
	}
	flow.down_mm = flow.frame.top_mm;
	verdict(&t, &flow);
	if (paper->check->to_move)
		pegs(&t, &flow, RT_PEG_MOVE, "move", "Move, and tick");
	if (paper->check->unsure && paper->check->verdict != RT_RING_DOUBT)
		pegs(&t, &flow, RT_PEG_UNSURE, "unsure", "Unsure: measure once more");
	doubted(&t, &flow);
	rest(&t, &flow);
	rt__furniture_draw(out, &furniture, 1);
	return rt_sheet_result(out, err);
}
