/* Report tables of a ring's shape, of what could hide in its readings, and how certain it all is.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "internal.h"

#define COUNT(a)     (sizeof(a) / sizeof *(a))
#define LEAST_TOLD   0.001 /* a probability */
#define READING_SIZE 80	   /* of a reading in words */

void rt__put_certainty(struct rt_table *t, const struct rt_checked_peg *p)
{
	char by[READING_SIZE];

	rt_put_real(t, p->p_off);
	rt_put_real(t, p->p_wrong);
	rt_put_real(t, p->hidden_shift_m);
	if (p->hidden_by)
		rt_reading_words(p->hidden_by, by, sizeof by);
	rt_put_text(t, p->hidden_by ? by : NULL);
}

/* ---- shape ---- */

/* A value of a row with its unit. */
static void put_value(struct rt_table *t, const struct rt_shape_row *row, double value, bool feet)
{
	char text[32];

	if (row->shape == RT_SHAPE_CORNER) {
		rt_format_real(value, 2, text, sizeof text);
		rt_put_textf(t, "%s deg", text);
		return;
	}
	rt_format_length(value, 3, 3, feet, text, sizeof text);
	rt_put_text(t, text);
}

static void put_what(struct rt_table *t, const struct rt_shape_row *row, bool feet)
{
	char arm[32];

	switch (row->shape) {
	case RT_SHAPE_CORNER:
		rt_format_length(row->arm_m, 0, 2, feet, arm, sizeof arm);
		rt_put_textf(t, "corner %s, over %s", row->at, arm);
		break;
	case RT_SHAPE_SIDE:
	case RT_SHAPE_DIAGONAL:
		rt_put_textf(t, "%s %s-%s", rt_shape_words(row->shape), row->from, row->to);
		break;
	case RT_SHAPE_BOW:
		rt_put_textf(t, "bow of %s-%s, at %s", row->from, row->to, row->at);
		break;
	}
}

static void put_shape(struct rt_report *r, const struct rt_ring_shape *shape, bool feet)
{
	static const struct rt_field columns[] = {
		RT__TEXT("what", "what", false),
		RT__TEXT("measured", "measured", false),
		RT__TEXT("should", "should be", false),
		RT__METRES("off_m", "off", 3, false),
		RT__METRES("se_m", "+-", 3, false),
		RT__TEXT("verdict", "verdict", false),
		RT__TEXT("shape", "shape", true),
		RT__TEXT("from", "from", true),
		RT__TEXT("at", "at", true),
		RT__TEXT("to", "to", true),
		RT__TEXT("unit", "unit", true),
		RT__NUMBER("value", "value", 4, true),
		RT__NUMBER("value_should", "should be", 4, true),
		RT__NUMBER("value_off", "off", 4, true),
		RT__NUMBER("value_se", "+-", 4, true),
		RT__METRES("arm_m", "over", 2, true),
		RT__METRES("allowed_m", "allowed", 3, true),
	};
	struct rt_table *t = rt_report_table(r, "shape", "Shape: square, true to length, straight",
					     columns, COUNT(columns));

	for (size_t i = 0; i < shape->rows; i++) {
		const struct rt_shape_row *row = &shape->row[i];

		put_what(t, row, feet);
		put_value(t, row, row->measured, feet);
		put_value(t, row, row->should, feet);
		rt_put_real(t, row->off_m);
		rt_put_real(t, row->se_m);
		rt_put_text(t, rt_shape_verdict_words(row->verdict));
		rt_put_text(t, rt_shape_words(row->shape));
		rt_put_text(t, row->from);
		rt_put_text(t, row->at);
		rt_put_text(t, row->to);
		rt_put_text(t, row->shape == RT_SHAPE_CORNER ? "deg" : "m");
		rt_put_real(t, row->measured);
		rt_put_real(t, row->should);
		rt_put_real(t, row->off);
		rt_put_real(t, row->se);
		rt_put_real(t, row->arm_m);
		rt_put_real(t, row->allowed_m);
	}
}

/* ---- reliability ---- */

static void put_reliability(struct rt_report *r, const struct rt_ring_check *check)
{
	static const struct rt_field columns[] = {
		RT__TEXT("from", "from", true),
		RT__TEXT("to", "to", true),
		RT__TEXT("at", "at", true),
		RT__TEXT("kind", "kind", true),
		RT__NUMBER("redundancy", "r", 3, true),
		RT__NUMBER("hidden_m", "could hide", 3, true),
		RT__TEXT("peg", "peg", true),
		RT__METRES("shift_m", "shift", 3, true),
	};
	struct rt_table *t = rt_report_table(r, "reliability", "What could hide in each reading",
					     columns, COUNT(columns));

	for (size_t i = 0; i < check->adjustment.readings; i++) {
		const struct rt_adjusted_reading *x = &check->adjustment.reading[i];
		const struct rt_hidden *h = &check->hidden[i];

		rt_put_text(t, x->reading->from);
		rt_put_text(t, x->reading->to);
		rt_put_text(t, x->reading->at);
		rt_put_text(t, rt_reading_kind_words(x->reading->kind));
		rt_put_real(t, x->redundancy);
		rt_put_real(t, x->hidden_m);
		rt_put_text(t, h->shift_m > 0 ? check->peg[h->peg].peg.name : NULL);
		rt_put_real(t, h->shift_m);
	}
}

/* Of the readings that are checked, the one that could do most; a mistake in the others is told
 * as such. */
static void note_hidden(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	const struct rt_adjustment *a = &check->adjustment;
	size_t worst = a->readings;
	char words[READING_SIZE], mistake[32], shift[32];

	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].verdict == RT_READING_GOOD &&
		    isfinite(check->hidden[i].shift_m) &&
		    (worst == a->readings ||
		     check->hidden[i].shift_m > check->hidden[worst].shift_m))
			worst = i;
	}
	if (worst == a->readings)
		return;
	rt_reading_words(a->reading[worst].reading, words, sizeof words);
	if (a->reading[worst].reading->kind == RT_READ_ANGLE)
		snprintf(mistake, sizeof mistake, "%.2f deg", a->reading[worst].hidden_m);
	else
		rt_format_length(a->reading[worst].hidden_m, 2, 2, feet, mistake, sizeof mistake);
	rt_format_length(check->hidden[worst].shift_m, 2, 2, feet, shift, sizeof shift);
	rt_report_note(r,
		       "Of the checked readings %s could do most harm: a mistake of %s in it is "
		       "found 4 times in 5; not found, it shifts %s by %s.",
		       words, mistake, check->peg[check->hidden[worst].peg].peg.name, shift);
}

/* ---- the tape ---- */

static void note_tape(struct rt_report *r, const struct rt_ring_check *check)
{
	char percent[32], error[32];
	const char *way = check->tape > 0 ? "long" : "short";

	if (isnan(check->tape))
		return;
	rt_format_real(100 * fabs(check->tape), 2, percent, sizeof percent);
	rt_format_real(100 * check->tape_se, 2, error, sizeof error);
	if (fabs(check->tape) > RT_W_CRITICAL * check->tape_se)
		r->needs_person = true;
	if (check->tape_corrected)
		rt_report_note(r,
			       "Your tape reads %s %% %s (+- %s %%), as the receiver shows, with "
			       "over 99.9 %% certainty. That was taken out of all taped lengths "
			       "before the pegs were judged. Use another tape, or allow for it.",
			       percent, way, error);
	else if (fabs(check->tape) <= RT_W_CRITICAL * check->tape_se)
		rt_report_note(
			r,
			"The tape agrees with the receiver: it reads %s %% %s (+- %s %%), no "
			"more than chance.",
			percent, way, error);
	else
		rt_report_note(
			r,
			"The tape and the receiver disagree: the tape seems to read %s %% %s "
			"(+- %s %%), but other readings are wrong too. Clear those up first.",
			percent, way, error);
}

/* ---- certainty ---- */

static void note_certainty(struct rt_report *r, const struct rt_ring_check *check)
{
	char percent[32];

	if (isnan(check->p_any_wrong) || check->unsure == check->pegs)
		return;
	/* where nothing is checked, a chance says nothing: that is told instead */
	if (check->adjustment.test == RT_SIGMA_UNTESTED)
		return;
	rt_format_real(100 * fmax(check->p_any_wrong, LEAST_TOLD), 1, percent, sizeof percent);
	rt_report_note(r,
		       "The chance that any peg called good is off, or one to move is not, is %s "
		       "%s %%, as far as no mistake hides in the readings%s.",
		       check->p_any_wrong < LEAST_TOLD ? "under" : "at most", percent,
		       check->stretch != 0 ? " and the tape is right" : "");
}

enum rt_err rt__judgement_report(struct rt_report *r, const struct rt_ring_check *check, bool feet,
				 struct rt_error *err)
{
	struct rt_ring_shape shape = {0};
	enum rt_err e = rt_ring_shape(&shape, check, err);

	if (!e) {
		put_shape(r, &shape, feet);
		put_reliability(r, check);
		note_tape(r, check);
		note_hidden(r, check, feet);
		note_certainty(r, check);
		e = rt_report_result(r, err);
	}
	rt_ring_shape_free(&shape);
	return e;
}
