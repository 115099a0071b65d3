/* Report tables of a ring's shape, of what could hide in its readings, and how certain it all is.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "internal.h"

#define LEAST_TOLD 0.001 /* a probability */
#define WHAT_SIZE  256	 /* of a part of the shape in words */

/* ---- shape ---- */

struct shape_row {
	const struct rt_shape_row *of;
	const char *what, *measured, *should, *unit;
};

#define SHAPE(member) RT_IN(struct shape_row, of, struct rt_shape_row, member)
#define WORDS(member) RT_AT(struct shape_row, member)

static const struct rt_field shape_fields[] = {
	{"what", WORDS(what)},
	{"measured", WORDS(measured)},
	{"should", .head = "should be", WORDS(should)},
	{"off_m", .head = "off", SHAPE(off_m), RT_METRES(3)},
	{"se_m", .head = "+-", SHAPE(se_m), RT_METRES(3)},
	{"verdict", SHAPE(verdict), RT_WORD_OF(shape_verdict)},
	{"shape", SHAPE(shape), RT_WORD_OF(shape), .wide = true},
	{"from", SHAPE(from), .wide = true},
	{"point", SHAPE(at), .wide = true},
	{"to", SHAPE(to), .wide = true},
	{"unit", WORDS(unit), .wide = true, .help = "of the values: deg or m"},
	{"value", SHAPE(measured), RT_NUMBERS(4), .wide = true},
	{"value_should", .head = "should be", SHAPE(should), RT_NUMBERS(4), .wide = true},
	{"value_off", .head = "off", SHAPE(off), RT_NUMBERS(4), .wide = true},
	{"value_se", .head = "+-", SHAPE(se), RT_NUMBERS(4), .wide = true},
	{"arm_m", .head = "over", SHAPE(arm_m), RT_METRES(2), .wide = true},
	{"allowed_m", .head = "allowed", SHAPE(allowed_m), RT_METRES(3), .wide = true,
	 .help = "what pegs within tolerance could make of it"},
};

const struct rt_record rt__shape_table = RT_TABLE(
	"shape", "Shape: square, true to length, straight", shape_fields, struct shape_row);

/* A value of a row with its unit. */
static struct rt_shown_number value_words(const struct rt_shape_row *row, double value, bool feet)
{
	return row->shape == RT_SHAPE_CORNER ? rt_show_degrees(value)
					     : rt_show_length(value, 3, 3, feet);
}

static void what_words(const struct rt_shape_row *row, bool feet, char *out, size_t size)
{
	switch (row->shape) {
	case RT_SHAPE_CORNER:
		snprintf(out, size, "corner %s, over %s", row->at,
			 rt_show_length(row->arm_m, 0, 2, feet).text);
		break;
	case RT_SHAPE_SIDE:
	case RT_SHAPE_DIAGONAL:
		snprintf(out, size, "%s %s-%s", rt_shape_words(row->shape), row->from, row->to);
		break;
	case RT_SHAPE_BOW:
		snprintf(out, size, "bow of %s-%s, at %s", row->from, row->to, row->at);
		break;
	}
}

static void put_shape(struct rt_report *r, const struct rt_ring_shape *shape, bool feet)
{
	struct rt_table *t = rt_report_rows(r, &rt__shape_table);

	for (size_t i = 0; i < shape->rows; i++) {
		const struct rt_shape_row *row = &shape->row[i];
		char what[WHAT_SIZE];

		what_words(row, feet, what, sizeof what);
		rt_put_row(t, &(struct shape_row){row, what,
						  value_words(row, row->measured, feet).text,
						  value_words(row, row->should, feet).text,
						  row->shape == RT_SHAPE_CORNER ? "deg" : "m"});
	}
}

/* ---- reliability ---- */

struct reliability_row {
	const struct rt_reading *reading;
	const struct rt_adjusted_reading *adjusted;
	const char *peg;
	double shift_m;
};

#define READING(member)                                                                            \
	RT_IN(struct reliability_row, reading, struct rt_reading, member), .wide = true
#define ADJUSTED(member)                                                                           \
	RT_IN(struct reliability_row, adjusted, struct rt_adjusted_reading, member), .wide = true
#define HIDDEN(member) RT_AT(struct reliability_row, member), .wide = true

static const struct rt_field reliability_fields[] = {
	{"from", READING(from)},
	{"to", READING(to)},
	{"point", READING(at)},
	{"kind", READING(kind), RT_WORD_OF(reading_kind)},
	{"redundancy", .head = "r", ADJUSTED(redundancy), RT_NUMBERS(3)},
	{"hidden_m", .head = "could hide", ADJUSTED(hidden_m), RT_NUMBERS(3)},
	{"peg", HIDDEN(peg), .help = "the one that a mistake which is just not found shifts most"},
	{"shift_m", .head = "shift", HIDDEN(shift_m), RT_METRES(3)},
};

const struct rt_record rt__reliability_table = RT_TABLE("reliability",
							"What could hide in each reading",
							reliability_fields, struct reliability_row);

static void put_reliability(struct rt_report *r, const struct rt_ring_check *check)
{
	struct rt_table *t = rt_report_rows(r, &rt__reliability_table);

	for (size_t i = 0; i < check->adjustment.readings; i++) {
		const struct rt_adjusted_reading *x = &check->adjustment.reading[i];
		const struct rt_hidden *h = &check->hidden[i];
		const char *peg = h->shift_m > 0 ? check->peg[h->peg].peg.name : NULL;

		rt_put_row(t, &(struct reliability_row){x->reading, x, peg, h->shift_m});
	}
}

/* Of the readings that are checked, the one that could do most; a mistake in the others is told
 * as such. */
static void note_hidden(struct rt_report *r, const struct rt_ring_check *check, bool feet)
{
	const struct rt_adjustment *a = &check->adjustment;
	const struct rt_adjusted_reading *x;
	const struct rt_hidden *h;
	size_t worst = a->readings;

	for (size_t i = 0; i < a->readings; i++) {
		if (a->reading[i].verdict == RT_READING_GOOD &&
		    isfinite(check->hidden[i].shift_m) &&
		    (worst == a->readings ||
		     check->hidden[i].shift_m > check->hidden[worst].shift_m))
			worst = i;
	}
	if (worst == a->readings)
		return;
	x = &a->reading[worst];
	h = &check->hidden[worst];
	rt_report_note(r,
		       "Of the checked readings %s could do most harm: a mistake of %s in it is "
		       "found 4 times in 5; not found, it shifts %s by %s.",
		       rt_reading_words(x->reading).text,
		       x->reading->kind == RT_READ_ANGLE
			       ? rt_show_degrees(x->hidden_m).text
			       : rt_show_length(x->hidden_m, 2, 2, feet).text,
		       check->peg[h->peg].peg.name, rt_show_length(h->shift_m, 2, 2, feet).text);
}

/* ---- the tape ---- */

static void note_tape(struct rt_report *r, const struct rt_ring_check *check)
{
	struct rt_shown_number percent = rt_show_real(100 * fabs(check->tape), 2);
	struct rt_shown_number error = rt_show_real(100 * check->tape_se, 2);
	const char *way = check->tape > 0 ? "long" : "short";
	bool beyond_chance = fabs(check->tape) > RT_W_CRITICAL * check->tape_se;

	if (isnan(check->tape))
		return;
	if (beyond_chance)
		r->needs_person = true;
	if (check->tape_corrected)
		rt_report_note(r,
			       "Your tape reads %s %% %s (+- %s %%), as the receiver shows, with "
			       "over 99.9 %% certainty. That was taken out of all taped lengths "
			       "before the pegs were judged. Use another tape, or allow for it.",
			       percent.text, way, error.text);
	else if (!beyond_chance)
		rt_report_note(
			r,
			"The tape agrees with the receiver: it reads %s %% %s (+- %s %%), no "
			"more than chance.",
			percent.text, way, error.text);
	else
		rt_report_note(
			r,
			"The tape and the receiver disagree: the tape seems to read %s %% %s "
			"(+- %s %%), but other readings are wrong too. Clear those up first.",
			percent.text, way, error.text);
}

/* ---- certainty ---- */

static void note_certainty(struct rt_report *r, const struct rt_ring_check *check)
{
	if (isnan(check->p_any_wrong) || check->unsure == check->pegs)
		return;
	/* where nothing is checked, a chance says nothing: that is told instead */
	if (check->adjustment.test == RT_SIGMA_UNTESTED)
		return;
	rt_report_note(r,
		       "The chance that any peg called good is off, or one to move is not, is %s "
		       "%s %%, as far as no mistake hides in the readings%s.",
		       check->p_any_wrong < LEAST_TOLD ? "under" : "at most",
		       rt_show_real(100 * fmax(check->p_any_wrong, LEAST_TOLD), 1).text,
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
