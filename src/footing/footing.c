/* The footing of a ring from heights of its pegs: falls against the limits, and the plane.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define ON_LINE_M 0.001
#define SAME_M	  1e-9 /* falls nearer than that are equal: the longer line is told */
#define SURE	  2.0  /* standard errors */

RT__ENUM_WORDS(footing_verdict, "verdict", RT_FOOTING_VERDICTS)
RT__ENUM_WORDS(lies, "lies", RT_LIES)

/* ---- rules ---- */

enum rt_err rt_footing_rule_named(const struct rt_footing_rule **out,
				  const struct rt_footing_rules *rules, const char *name,
				  enum rt_discipline discipline, struct rt_error *err)
{
	const char *names[32] = {NULL};
	size_t n = 0;

	for (size_t i = 0; i < rules->n; i++) {
		const struct rt_footing_rule *rule = &rules->at[i];

		if (name ? strcmp(rule->name, name) == 0 : rule->discipline == discipline) {
			*out = rule;
			return RT_OK;
		}
		if (n < sizeof names / sizeof *names)
			names[n++] = rule->name;
	}
	if (!name)
		return rt_fail(err, RT_E_NOTFOUND, "no footing rule for a %s ring",
			       rt_discipline_words(discipline));
	return rt_fail_unknown(err, name, names, n, NULL, "no footing rule \"%s\"", name);
}

struct rt_footing_limits rt_footing_limits_of(const struct rt_footing_rule *rule,
					      const struct rt_ring_kind *kind)
{
	return (struct rt_footing_limits){
		.along_m = isnan(rule->along_m) ? rule->along_percent * kind->length_m / 100
						: rule->along_m,
		.across_m = isnan(rule->across_m) ? rule->across_percent * kind->width_m / 100
						  : rule->across_m,
		.source = rule->source,
	};
}

/* ---- pegs ---- */

/* The weighted mean of the heights of one peg, into the next place of out; a peg without heights
 * is left out. */
static enum rt_err take_peg(struct rt_footing *out, const struct rt_peg *peg,
			    const struct rt_heights *heights, struct rt_error *err)
{
	struct rt_footing_peg *p = &out->peg[out->pegs];
	double weights = 0, sum = 0;

	*p = (struct rt_footing_peg){.peg = *peg, .off_plane_m = NAN};
	for (size_t i = 0; i < heights->n; i++) {
		const struct rt_height *h = &heights->at[i];
		double sigma = isnan(h->sigma_m) ? RT_HEIGHT_SIGMA_M : h->sigma_m;

		if (strcmp(h->name, peg->name) != 0)
			continue;
		if (!isfinite(h->height_m) || !(sigma > 0) || !isfinite(sigma))
			return rt_fail(err, RT_E_INPUT,
				       "the height of %s is no number, or its sigma not over 0",
				       peg->name);
		p->times++;
		weights += 1 / (sigma * sigma);
		sum += h->height_m / (sigma * sigma);
	}
	if (!p->times)
		return RT_OK;
	p->height_m = sum / weights;
	p->sigma_m = 1 / sqrt(weights);
	out->pegs++;
	return RT_OK;
}

static enum rt_err take_pegs(struct rt_footing *out, const struct rt_pegs *pegs,
			     const struct rt_heights *heights, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < heights->n; i++) {
		const struct rt_height *h = &heights->at[i];

		if (!rt_peg_find(pegs, h->name))
			return rt__no_such_peg(pegs, h->name, err);
		if (strcmp(h->file, heights->at[0].file) != 0)
			return rt_fail(err, RT_E_INPUT,
				       "heights from %s and from %s: each file has a level of its "
				       "own, so give one",
				       heights->at[0].file, h->file);
	}
	out->peg = rt_arena_take(&out->text, pegs->n * sizeof *out->peg);
	if (!out->peg)
		return rt_fail_nomem(err);
	for (size_t i = 0; !e && i < pegs->n; i++)
		e = take_peg(out, &pegs->at[i], heights, err);
	for (size_t i = 0; !e && i < out->pegs; i++) {
		const struct rt_footing_peg *p = &out->peg[i];

		if (!out->highest || p->height_m > out->highest->height_m)
			out->highest = p;
		if (!out->lowest || p->height_m < out->lowest->height_m)
			out->lowest = p;
	}
	return e;
}

/* ---- lines ---- */

/* A line of the ring between two points. */
struct line {
	const char *what;
	double x0, y0, x1, y1;
	double limit_m;
};

/* Where on the line a peg lies, metres from its begin; false where it does not. */
static bool lies_on(const struct line *l, const struct rt_peg *peg, double *along)
{
	double ux = l->x1 - l->x0, uy = l->y1 - l->y0, length = hypot(ux, uy);
	double x = peg->x_m - l->x0, y = peg->y_m - l->y0;

	*along = (x * ux + y * uy) / length;
	return fabs(x * uy - y * ux) / length < ON_LINE_M;
}

/* The pair of pegs of the line that differs most in height, of equal pairs the longest; how many
 * pegs the line has. */
static size_t steepest_pair(const struct rt_footing *f, const struct line *l,
			    const struct rt_footing_peg *pair[2], double *length)
{
	size_t members = 0;
	double fall = -1, at, other;

	for (size_t i = 0; i < f->pegs; i++) {
		if (!lies_on(l, &f->peg[i].peg, &at))
			continue;
		members++;
		for (size_t k = 0; k < i; k++) {
			double drop = fabs(f->peg[i].height_m - f->peg[k].height_m);

			if (!lies_on(l, &f->peg[k].peg, &other) || drop < fall - SAME_M ||
			    (drop < fall + SAME_M && fabs(at - other) <= *length))
				continue;
			fall = drop;
			*length = fabs(at - other);
			pair[f->peg[i].height_m > f->peg[k].height_m ? 0 : 1] = &f->peg[i];
			pair[f->peg[i].height_m > f->peg[k].height_m ? 1 : 0] = &f->peg[k];
		}
	}
	return members;
}

/* Is a height measured at both ends of the line? */
static bool is_whole(const struct rt_footing *f, const struct line *l)
{
	double length = hypot(l->x1 - l->x0, l->y1 - l->y0), at;
	bool begin = false, end = false;

	for (size_t i = 0; i < f->pegs; i++) {
		if (!lies_on(l, &f->peg[i].peg, &at))
			continue;
		begin |= fabs(at) < ON_LINE_M;
		end |= fabs(at - length) < ON_LINE_M;
	}
	return begin && end;
}

static void judge_line(struct rt_footing *f, struct rt_footing_line *line)
{
	double over = line->fall_m - line->limit_m;

	line->verdict = RT_FOOTING_UNSURE;
	if (over > SURE * line->se_m)
		line->verdict = RT_FOOTING_STEEP;
	else if (over < -SURE * line->se_m)
		line->verdict = RT_FOOTING_GOOD;
	f->steep += line->verdict == RT_FOOTING_STEEP;
	f->unsure += line->verdict == RT_FOOTING_UNSURE;
}

static enum rt_err add_line(struct rt_footing *f, const struct line *l, struct rt_error *err)
{
	const struct rt_footing_peg *pair[2] = {NULL, NULL};
	struct rt_footing_line *line = &f->line[f->lines];
	const char **missed;
	double length = 0;

	line->what = l->what;
	if (steepest_pair(f, l, pair, &length) < 2) {
		missed = RT_LIST_ADD(&f->unmeasured);
		if (!missed)
			return rt_fail_nomem(err);
		*missed = l->what;
		return RT_OK;
	}
	line->from = pair[0]->peg;
	line->to = pair[1]->peg;
	line->length_m = length;
	line->fall_m = pair[0]->height_m - pair[1]->height_m;
	line->fall_percent = 100 * line->fall_m / line->length_m;
	line->se_m = hypot(pair[0]->sigma_m, pair[1]->sigma_m);
	line->limit_m = l->limit_m;
	line->across = fabs(l->y1 - l->y0) < ON_LINE_M;
	line->whole = is_whole(f, l);
	judge_line(f, line);
	f->lines++;
	return RT_OK;
}

/* The lines between letters that face each other, from A to C. */
static enum rt_err add_pairs(struct rt_footing *f, const struct rt_pegs *pegs, struct rt_error *err)
{
	double x = f->kind->width_m / 2;
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < pegs->n; i++) {
		const struct rt_peg *left = &pegs->at[i];

		if (left->side != RT_LEFT || left->corner)
			continue;
		for (size_t k = 0; !e && k < pegs->n; k++) {
			const struct rt_peg *right = &pegs->at[k];
			struct line l = {NULL, -x, left->y_m, x, left->y_m, f->limits.across_m};

			if (right->side != RT_RIGHT || right->corner ||
			    fabs(right->y_m - left->y_m) >= ON_LINE_M)
				continue;
			l.what = rt_arena_textf(&f->text, "line %s-%s", left->name, right->name);
			e = l.what ? add_line(f, &l, err) : rt_fail_nomem(err);
		}
	}
	return e;
}

static enum rt_err add_lines(struct rt_footing *f, const struct rt_pegs *pegs, struct rt_error *err)
{
	double x = f->kind->width_m / 2, y = f->kind->length_m / 2;
	double along = f->limits.along_m, across = f->limits.across_m;
	const struct line lines[] = {
		{"left long side", -x, -y, -x, y, along},
		{"right long side", x, -y, x, y, along},
		{"centreline", 0, -y, 0, y, along},
		{"diagonal AK-CM", -x, -y, x, y, along},
		{"diagonal FA-HC", x, -y, -x, y, along},
		{"short side at A", -x, -y, x, -y, across},
	};
	const struct line at_c = {"short side at C", -x, y, x, y, across};
	enum rt_err e = RT_OK;

	f->line = rt_arena_take(&f->text, (7 + pegs->n * pegs->n / 4) * sizeof *f->line);
	if (!f->line)
		return rt_fail_nomem(err);
	for (size_t i = 0; !e && i < sizeof lines / sizeof *lines; i++)
		e = add_line(f, &lines[i], err);
	if (!e)
		e = add_pairs(f, pegs, err);
	return e ? e : add_line(f, &at_c, err);
}

/* ---- the whole ---- */

enum rt_err rt_footing_make(struct rt_footing *out, const struct rt_ring_kind *kind,
			    const struct rt_heights *heights,
			    const struct rt_footing_limits *limits, struct rt_error *err)
{
	struct rt_pegs pegs = {0};
	enum rt_err e;

	if (!heights->n)
		return rt_fail(err, RT_E_INPUT, "no heights");
	if (!(limits->along_m > 0) || !(limits->across_m > 0))
		return rt_fail(err, RT_E_INPUT, "the limits of the fall must be over 0 m");
	out->kind = kind;
	out->limits = *limits;
	e = rt_ring_pegs(&pegs, kind, err);
	if (!e)
		e = take_pegs(out, &pegs, heights, err);
	if (!e)
		e = add_lines(out, &pegs, err);
	if (!e)
		e = rt__footing_plane(out, &pegs, err);
	rt_pegs_free(&pegs);
	return e;
}

void rt_footing_free(struct rt_footing *footing)
{
	RT_LIST_FREE(&footing->unmeasured);
	rt_arena_free(footing->text);
	memset(footing, 0, sizeof *footing);
}
