/* The checks of one ring, one after another: the ring becoming true.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

struct history_row {
	const struct rt_past_check *past;
	const struct rt_ring_check *check;
	const struct rt_checked_peg *worst;
	size_t number;
	const char *verdict;
	double largest_se_m;
};

#define PAST(member)  RT_IN(struct history_row, past, struct rt_past_check, member)
#define CHECK(member) RT_IN(struct history_row, check, struct rt_ring_check, member)
#define WORST(member) RT_IN(struct history_row, worst, struct rt_checked_peg, member)
#define FOUND(member) RT_AT(struct history_row, member)

static const struct rt_field history_fields[] = {
	{"check", FOUND(number), .type = RT_SIZE},
	{"at", .head = "when", PAST(when)},
	{"by", PAST(who)},
	{"readings", PAST(readings), .type = RT_SIZE},
	{"verdict", FOUND(verdict)},
	{"to_move", CHECK(to_move), .type = RT_SIZE, .wide = true},
	{"unsure", CHECK(unsure), .type = RT_SIZE, .wide = true},
	{"largest_off_m", .head = "largest", WORST(off_m), RT_METRES(3)},
	{"worst_peg", .head = "at", WORST(peg.name)},
	{"sigma0", CHECK(adjustment.sigma0), RT_NUMBERS(2), .wide = true},
	{"largest_se_m", .head = "+-", FOUND(largest_se_m), RT_METRES(3), .wide = true},
	{"heights", PAST(heights), .type = RT_SIZE, .wide = true},
};

const struct rt_record rt__history_table = RT_TABLE("history", "Checks of the ring", history_fields,
						    struct history_row);

static double largest_se(const struct rt_ring_check *check)
{
	double se = 0;

	for (size_t i = 0; i < check->pegs; i++)
		se = fmax(se, check->peg[i].se_m);
	return se;
}

static void put_history(struct rt_report *r, const struct rt_past_check *past, size_t n)
{
	struct rt_table *t = rt_report_rows(r, &rt__history_table);

	for (size_t i = 0; i < n; i++) {
		const struct rt_ring_check *check = past[i].check;
		const struct rt_checked_peg *worst = check ? rt_ring_check_worst(check) : NULL;
		struct history_row row = {&past[i],
					  check,
					  worst,
					  i + 1,
					  past[i].trouble ? past[i].trouble : "heights only",
					  NAN};
		char verdict[48];

		if (check) {
			rt_ring_check_words(check, verdict, sizeof verdict);
			row.verdict = verdict;
			row.largest_se_m = largest_se(check);
		}
		rt_put_row(t, &row);
	}
}

/* ---- one peg over the checks ---- */

static const struct rt_checked_peg *peg_of(const struct rt_past_check *past, const char *name)
{
	return past->check ? rt__checked_peg(past->check, name) : NULL;
}

struct peg_row {
	const char *peg, *offs;
	const struct rt_checked_peg *first, *latest;
	double change_m;
	size_t checks;
};

#define FIRST(member)  RT_IN(struct peg_row, first, struct rt_checked_peg, member)
#define LATEST(member) RT_IN(struct peg_row, latest, struct rt_checked_peg, member)
#define PEG(member)    RT_AT(struct peg_row, member)

static const struct rt_field peg_fields[] = {
	{"peg", PEG(peg)},
	{"offs", .head = "off, check by check", PEG(offs)},
	{"first_off_m", .head = "at first", FIRST(off_m), RT_METRES(3), .wide = true},
	{"latest_off_m", .head = "off now", LATEST(off_m), RT_METRES(3)},
	{"change_m", .head = "change", PEG(change_m), RT_METRES(3)},
	{"verdict", .head = "verdict now", LATEST(verdict), RT_WORD_OF(peg_verdict)},
	{"checks", PEG(checks), .type = RT_SIZE, .wide = true},
};

const struct rt_record rt__past_peg_table = {"peg", "pegs", "Pegs: how far off each stood",
					     RT_FIELDS(peg_fields), .size = sizeof(struct peg_row)};

enum { OFFSETS_TOLD = 12, OFFSETS_SIZE = OFFSETS_TOLD * 24 };

/* The offsets of a peg, "0.53, -, 0.02": a dash where a check did not measure it; the first ones
 * are left out where there are too many. */
static void offsets_words(const struct rt_past_check *past, size_t n, const char *name, bool feet,
			  char text[OFFSETS_SIZE])
{
	size_t told = 0, from = 0;
	const char *before = "";

	*text = '\0';
	for (size_t i = n; i-- > 0 && told < OFFSETS_TOLD; from = i)
		told += past[i].check != NULL;
	if (from)
		before = "..., ";
	for (size_t i = from; i < n; i++) {
		const struct rt_checked_peg *p = peg_of(&past[i], name);
		char off[20] = "-";

		if (!past[i].check)
			continue;
		if (p && feet)
			rt_format_feet(p->off_m, off, sizeof off);
		else if (p)
			rt_format_real(p->off_m, 2, off, sizeof off);
		rt_append(text, OFFSETS_SIZE, "%s%s", before, off);
		before = ", ";
	}
}

static void put_peg(struct rt_table *t, const struct rt_past_check *past, size_t n,
		    const char *name, bool feet)
{
	struct peg_row row = {.peg = name};
	char offs[OFFSETS_SIZE];

	for (size_t i = 0; i < n; i++) {
		const struct rt_checked_peg *p = peg_of(&past[i], name);

		if (!p)
			continue;
		row.checks++;
		row.latest = p;
		row.first = row.first ? row.first : p;
	}
	if (!row.latest)
		return;
	row.change_m = row.latest->off_m - row.first->off_m;
	offsets_words(past, n, name, feet, offs);
	row.offs = offs;
	rt_put_row(t, &row);
}

static enum rt_err put_pegs(struct rt_report *r, const struct rt_ring_kind *kind,
			    const struct rt_past_check *past, size_t n, bool feet,
			    struct rt_error *err)
{
	struct rt_table *t = rt_report_rows(r, &rt__past_peg_table);
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

	r->needs_person = r->needs_person || latest->check->verdict != RT_RING_TRUE;
	was = rt_ring_check_worst(first->check);
	is = rt_ring_check_worst(latest->check);
	if (first == latest || !was || !is)
		return;
	rt_report_note(r, "The largest offset was %s at %s, and is %s at %s now.",
		       rt_show_length(was->off_m, 2, 2, feet).text, was->peg.name,
		       rt_show_length(is->off_m, 2, 2, feet).text, is->peg.name);
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
