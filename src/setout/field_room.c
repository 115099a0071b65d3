/* The room that a ring needs outside its boards, and what the crew carries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "internal.h"

static const char practice[] = "common practice, no source";

static void need(struct rt_setout_room *r, const char *what, double by_m, const char *source)
{
	r->need[r->needs++] = (struct rt_setout_need){what, by_m, source};
}

/* The figures that a rulebook or the trade gives. */
static void usual(struct rt_setout_room *r, bool driven, double opening_m, double lane_m)
{
	bool opening_given = !isnan(opening_m), lane_given = !isnan(lane_m);

	r->opening_m = opening_given ? opening_m : driven ? 5.0 : 2.0;
	r->lane_m = lane_given ? lane_m : driven ? 5.0 : 2.0;
	r->judges_m = driven ? 3.0 : 5.0;
	r->car_m = 5.0;
	r->way_in_m = 15.0;
	need(r, "opening at A, wide", r->opening_m,
	     opening_given ? "as asked for"
	     : driven	   ? "carriages 4 to 6 m, from memory; check the rulebook in force"
			   : "at least 2 m: US Equestrian DR126, FEI texts");
	need(r, "letters outside the boards", 0.5, "FEI Dressage Rules 25th ed., Art. 429");
	need(r, "lane round the ring", r->lane_m, lane_given ? "as asked for" : practice);
	need(r, "judges back from the boards", r->judges_m,
	     driven ? "at least 3 m: KNHS Driving 448" : "3 to 5 m: FEI texts");
	need(r, "a judge's car or stand, deep", r->car_m, practice);
	need(r, "way in before A", r->way_in_m, "10 to 15 m: common practice, no source");
}

void rt_setout_room(struct rt_setout_room *out, const struct rt_ring_kind *kind, double opening_m,
		    double lane_m)
{
	*out = (struct rt_setout_room){0};
	usual(out, kind->discipline == RT_DRIVEN, opening_m, lane_m);
	/* judges sit outside the lane */
	out->side_m = out->c_end_m = fmax(out->judges_m, out->lane_m) + out->car_m;
	out->a_end_m = fmax(out->way_in_m, out->side_m);
	out->width_m = kind->width_m + 2 * out->side_m;
	out->length_m = kind->length_m + out->a_end_m + out->c_end_m;
	need(out, "field in all, wide", out->width_m, "the sum of it");
	need(out, "field in all, long", out->length_m, "the sum of it");
}

/* ---- what to carry ---- */

static struct rt_setout_thing *add(struct rt_setout_thing *out, size_t *n, int64_t count,
				   const char *thing)
{
	out[*n] = (struct rt_setout_thing){.count = count, .thing = thing};
	return &out[(*n)++];
}

size_t rt_setout_carry(struct rt_setout_thing out[RT_THINGS_MOST],
		       const struct rt_setout_plan *plan, double opening_m, bool feet)
{
	const struct rt_setout_options *o = &plan->options;
	int64_t letters = 0, centre = 0, marks = 0, poles = 0;
	double width = plan->kind->width_m, length = plan->kind->length_m;
	struct rt_setout_thing *t;
	size_t n = 0;

	for (size_t i = 0; i < plan->pegs.n; i++) {
		centre += plan->pegs.at[i].side == RT_CENTRE;
		letters += !plan->pegs.at[i].corner && plan->pegs.at[i].side != RT_CENTRE;
	}
	for (size_t i = 0; i < plan->steps; i++)
		poles += plan->step[i].kind == RT_SETOUT_SIGHT;
	for (size_t i = plan->pegs.n; i < plan->points; i++)
		marks += !plan->point[i].held;
	if (o->receiver)
		add(out, &n, 1, "receiver");
	t = add(out, &n, o->tapes, o->tapes == 1 ? "tape" : "tapes");
	snprintf(t->words, sizeof t->words, "%s", rt_show_taped(o->tape_m, feet).text);
	add(out, &n, 4, "pegs for the corners");
	t = add(out, &n, letters + centre, "pegs for the letters");
	if (centre)
		snprintf(t->words, sizeof t->words, "%lld of them on the centreline",
			 (long long)centre);
	if (marks > poles)
		add(out, &n, marks - poles,
		    marks - poles == 1 ? "peg for a mark" : "pegs for marks");
	add(out, &n, 4, "poles or flags to sight by");
	add(out, &n, 1, "mallet");
	t = add(out, &n, 1, "string");
	snprintf(t->words, sizeof t->words, "to lie along the sides: %s, %s; diagonal %s",
		 rt_show_taped(length, feet).text, rt_show_taped(width, feet).text,
		 rt_show_taped(hypot(width, length), feet).text);
	t = add(out, &n, 2 * (rt__boards(length) + rt__boards(width)), "boards of 4 m");
	snprintf(t->words, sizeof t->words, "less those of the opening at A, %s",
		 rt_show_taped(opening_m, feet).text);
	add(out, &n, letters, "letter signs");
	return n;
}
