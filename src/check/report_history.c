/* The checks of one ring, one after another: the ring becoming true.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

static double largest_se(const struct rt_ring_check *check)
{
	double se = 0;

	for (size_t i = 0; i < check->pegs; i++)
		se = fmax(se, check->peg[i].se_m);
	return se;
}

static void put_result(struct rt_table *t, const struct rt_ring_check *check)
{
	const struct rt_checked_peg *worst = rt_ring_check_worst(check);
	char verdict[48];

	rt_ring_check_words(check, verdict, sizeof verdict);
	rt_put_text(t, verdict);
	rt_put_int(t, (int64_t)check->to_move);
	rt_put_int(t, (int64_t)check->unsure);
	rt_put_real(t, worst ? worst->off_m : NAN);
	rt_put_text(t, worst ? worst->peg.name : NULL);
	rt_put_real(t, check->adjustment.sigma0);
	rt_put_real(t, largest_se(check));
}

static void put_history(struct rt_report *r, const struct rt_past_check *past, size_t n)
{
	static const struct rt_field columns[] = {
		RT__COUNT("check", "check", false),
		RT__TEXT("when", "when", false),
		RT__TEXT("by", "by", false),
		RT__COUNT("readings", "readings", false),
		RT__TEXT("verdict", "verdict", false),
		RT__COUNT("to_move", "to move", true),
		RT__COUNT("unsure", "unsure", true),
		RT__METRES("largest_off_m", "largest", 3, false),
		RT__TEXT("worst_peg", "at", false),
		RT__NUMBER("sigma0", "sigma0", 2, true),
		RT__METRES("largest_se_m", "+-", 3, true),
		RT__COUNT("heights", "heights", true),
	};
	struct rt_table *t = rt_report_table(r, "history", "Checks of the ring", columns,
					     COUNT(columns));

	for (size_t i = 0; i < n; i++) {
		rt_put_int(t, (int64_t)i + 1);
		rt_put_text(t, past[i].when);
		rt_put_text(t, past[i].who);
		rt_put_int(t, (int64_t)past[i].readings);
		if (past[i].check) {
			put_result(t, past[i].check);
		} else {
			rt_put_text(t, past[i].trouble ? past[i].trouble : "heights only");
			for (int k = 0; k < 6; k++)
				rt_put_null(t);
		}
		rt_put_int(t, (int64_t)past[i].heights);
	}
}

/* ---- one peg over the checks ---- */

static const struct rt_checked_peg *peg_of(const struct rt_past_check *past, const char *name)
{
	for (size_t i = 0; past->check && i < past->check->pegs; i++)
		if (strcmp(past->check->peg[i].peg.name, name) == 0)
			return &past->check->peg[i];
	return NULL;
}

/* The offsets of a peg, "0.53, -, 0.02": a dash where a check did not measure it; the first ones
 * are left out where there are too many. */
static void put_offsets(struct rt_table *t, const struct rt_past_check *past, size_t n,
			const char *name, bool feet)
{
	enum { TOLD = 12 };
	char text[TOLD * 24] = "";
	size_t told = 0, from = 0, used = 0;

	for (size_t i = n; i-- > 0 && told < TOLD; from = i)
		told += past[i].check != NULL;
	if (from)
		used = (size_t)snprintf(text, sizeof text, "..., ");
	for (size_t i = from; i < n; i++) {
		const struct rt_checked_peg *p = peg_of(&past[i], name);
		char off[20] = "-";

		if (!past[i].check)
			continue;
		if (p && feet)
			rt_format_feet(p->off_m, off, sizeof off);
		else if (p)
			rt_format_real(p->off_m, 2, off, sizeof off);
		used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
					 used && i > from && text[used - 1] != ' ' ? ", " : "",
					 off);
	}
	rt_put_text(t, text);
}

static void put_peg(struct rt_table *t, const struct rt_past_check *past, size_t n,
		    const char *name, bool feet)
{
	const struct rt_checked_peg *first = NULL, *latest = NULL;
	size_t times = 0;

	for (size_t i = 0; i < n; i++) {
		const struct rt_checked_peg *p = peg_of(&past[i], name);

		if (!p)
			continue;
		times++;
		latest = p;
		first = first ? first : p;
	}
	if (!latest)
		return;
	rt_put_text(t, name);
	put_offsets(t, past, n, name, feet);
	rt_put_real(t, first->off_m);
	rt_put_real(t, latest->off_m);
	rt_put_real(t, latest->off_m - first->off_m);
	rt_put_text(t, rt_peg_verdict_words(latest->verdict));
	rt_put_int(t, (int64_t)times);
}

static enum rt_err put_pegs(struct rt_report *r, const struct rt_ring_kind *kind,
			    const struct rt_past_check *past, size_t n, bool feet,
			    struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("peg", "peg", false),
		RT__TEXT("offs", "off, check by check", false),
		RT__METRES("first_off_m", "at first", 3, true),
		RT__METRES("latest_off_m", "off now", 3, false),
		RT__METRES("change_m", "change", 3, false),
		RT__TEXT("verdict", "verdict now", false),
		RT__COUNT("checks", "checks", true),
	};
	struct rt_table *t = rt_report_table(r, "pegs", "Pegs: how far off each stood", columns,
					     COUNT(columns));
	struct rt_pegs pegs = {0};
	enum rt_err e = rt_ring_pegs(&pegs, kind, err);

	for (size_t i = 0; i < pegs.n; i++)
		put_peg(t, past, n, pegs.at[i].name, feet);
	rt_pegs_free(&pegs);
	return e;
}

static void note_becoming(struct rt_report *r, const struct rt_past_check *first,
			  const struct rt_past_check *latest, bool feet)
{
	const struct rt_checked_peg *was, *is;
	char from[32], to[32];

	r->needs_person = r->needs_person || latest->check->verdict != RT_RING_TRUE;
	was = rt_ring_check_worst(first->check);
	is = rt_ring_check_worst(latest->check);
	if (first == latest || !was || !is)
		return;
	rt_format_length(was->off_m, 2, 2, feet, from, sizeof from);
	rt_format_length(is->off_m, 2, 2, feet, to, sizeof to);
	rt_report_note(r, "The largest offset was %s at %s, and is %s at %s now.", from,
		       was->peg.name, to, is->peg.name);
}

enum rt_err rt_ring_history_report(struct rt_report *r, const struct rt_ring_kind *kind,
				   const struct rt_past_check *past, size_t n, bool feet,
				   struct rt_error *err)
{
	const struct rt_past_check *first = NULL, *latest = NULL;
	enum rt_err e = RT_OK;

	put_history(r, past, n);
	for (size_t i = 0; i < n; i++) {
		if (!past[i].check)
			continue;
		first = first ? first : &past[i];
		latest = &past[i];
	}
	if (latest) {
		e = put_pegs(r, kind, past, n, feet, err);
		note_becoming(r, first, latest, feet);
	}
	if (n)
		rt_report_note(r, "`ring check NAME --again N` shows check N with its readings.");
	else
		rt_report_note(r, "This ring was never checked.");
	return e ? e : rt_report_result(r, err);
}
