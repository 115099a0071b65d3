/* A figure as it is written, read into steps.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* Far more than any ring or test has room for. */
#define LENGTH_MOST_M 1000.0
#define SECONDS_MOST  3600.0
#define LOOPS_MOST    100

#define LENGTH_ACCEPTED "metres, over 0 up to 1000"

/* How a step of more than a letter is written: the word, then fields after colons, each told by
 * a letter of `fields`.  Fields from `needed` on may be left out. */
struct form {
	const char *word;
	enum rt_step_kind kind;
	const char *fields;
	size_t needed;
	const char *accepted;
};

static const struct form forms[] = {
	{"halt", RT_STEP_HALT, "s", 0, "halt or halt:SECONDS"},
	{"back", RT_STEP_BACK, "m", 1, "back:METRES"},
	{"circle", RT_STEP_CIRCLE, "dh", 2, "circle:DIAMETER:left or circle:DIAMETER:right"},
	{"half", RT_STEP_HALF, "dh", 2, "half:DIAMETER:left or half:DIAMETER:right"},
	{"loop", RT_STEP_LOOP, "m", 1, "loop:METRES"},
	{"serpentine", RT_STEP_SERPENTINE, "nhw", 2,
	 "serpentine:LOOPS:left or serpentine:LOOPS:right, then :WIDTH where it keeps within one"},
};
#define FORMS (sizeof forms / sizeof *forms)

/* The step that is read, for what is told about it; text is taken apart while it is read. */
struct reading {
	size_t number;	   /* of the step in its figure, from 1 */
	const char *whole; /* the step as written */
	char *text;
	struct rt_error *err;
};

static enum rt_err refuse(const struct reading *r, const char *at, const char *wrong,
			  const char *accepted)
{
	return rt_fail(r->err, RT_E_INPUT, "step %zu \"%.60s\", position %zu: %s: accepted: %s",
		       r->number, r->whole, (size_t)(at - r->text) + 1, wrong, accepted);
}

static bool read_between(const char *s, double most, double *out)
{
	return rt_parse_real(s, out) && *out > 0.0 && *out <= most;
}

/* The field s, told by its letter in a form. */
static enum rt_err read_field(const struct reading *r, char field, const char *s,
			      struct rt_step *step)
{
	int64_t loops;

	switch (field) {
	case 's':
		if (!read_between(s, SECONDS_MOST, &step->seconds))
			return refuse(r, s, "no time", "seconds, over 0 up to 3600");
		return RT_OK;
	case 'm':
		if (!read_between(s, LENGTH_MOST_M, &step->metres))
			return refuse(r, s, "no length", LENGTH_ACCEPTED);
		return RT_OK;
	case 'd':
		if (!read_between(s, LENGTH_MOST_M, &step->diameter_m))
			return refuse(r, s, "no diameter", LENGTH_ACCEPTED);
		return RT_OK;
	case 'w':
		if (!read_between(s, LENGTH_MOST_M, &step->width_m))
			return refuse(r, s, "no width", LENGTH_ACCEPTED);
		return RT_OK;
	case 'n':
		if (!rt_parse_int(s, &loops) || loops < 1 || loops > LOOPS_MOST)
			return refuse(r, s, "no number of loops", "1 to 100");
		step->loops = (int)loops;
		return RT_OK;
	default:
		if (!rt_side_read(s, &step->hand) ||
		    (step->hand != RT_LEFT && step->hand != RT_RIGHT))
			return refuse(r, s, "no hand", "left or right");
		return RT_OK;
	}
}

/* The fields after the word, the first of which begins at s; NULL: none. */
static enum rt_err read_fields(const struct reading *r, const struct form *form, char *s,
			       struct rt_step *step)
{
	size_t n = 0;

	for (; s && form->fields[n]; n++) {
		char *next = strchr(s, ':');
		enum rt_err e;

		if (next)
			*next++ = '\0';
		e = read_field(r, form->fields[n], s, step);
		if (e)
			return e;
		s = next;
	}
	if (s)
		return refuse(r, s, "more than this step takes", form->accepted);
	if (n < form->needed)
		return refuse(r, r->text + strlen(r->whole), "something is missing",
			      form->accepted);
	return RT_OK;
}

static const struct form *form_of(const char *word)
{
	for (size_t i = 0; i < FORMS; i++)
		if (strcmp(forms[i].word, word) == 0)
			return &forms[i];
	return NULL;
}

/* The form whose word was meant; NULL: none is near. */
static const struct form *form_meant(const char *word)
{
	const char *words[FORMS], *nearest;

	for (size_t i = 0; i < FORMS; i++)
		words[i] = forms[i].word;
	nearest = rt_nearest(word, words, FORMS);
	return nearest ? form_of(nearest) : NULL;
}

#define STEPS_ACCEPTED "halt, back, circle, half, loop, serpentine or a letter"

/* Whether a ring may have a letter of that name: a capital or a single letter begins it. */
static bool could_be_letter(const char *s)
{
	bool single = !s[1] || s[1] == '/';

	if (*s >= '0' && *s <= '9')
		return false;
	return single || !(*s >= 'a' && *s <= 'z');
}

/* A letter, with the diameter of its turn. */
static enum rt_err read_letter(const struct reading *r, struct rt_step *step)
{
	const struct form *meant = form_meant(r->text);
	char *slash = strchr(r->text, '/');

	if (meant)
		return refuse(r, r->text, "an unknown word", meant->accepted);
	if (slash == r->text)
		return refuse(r, r->text, "no letter",
			      "a letter before the diameter of its turn: M/15");
	if (!could_be_letter(r->text))
		return refuse(r, r->text, "an unknown word", STEPS_ACCEPTED);
	step->kind = RT_STEP_LETTER;
	if (!slash)
		return RT_OK;
	if (!read_between(slash + 1, LENGTH_MOST_M, &step->diameter_m))
		return refuse(r, slash + 1, "no diameter", LENGTH_ACCEPTED);
	*slash = '\0';
	return RT_OK;
}

static enum rt_err read_step(const struct reading *r, struct rt_step *step)
{
	char *colon = strchr(r->text, ':');
	const struct form *form;

	if (colon)
		*colon = '\0';
	form = form_of(r->text);
	if (form) {
		step->kind = form->kind;
		if (form->kind == RT_STEP_HALT)
			step->seconds = RT_HALT_SECONDS;
		return read_fields(r, form, colon ? colon + 1 : NULL, step);
	}
	if (!colon)
		return read_letter(r, step);
	form = form_meant(r->text);
	return refuse(r, r->text, "an unknown word", form ? form->accepted : STEPS_ACCEPTED);
}

/* The step of n bytes at s, appended. */
static enum rt_err add_step(struct rt_steps *out, size_t number, const char *s, size_t n,
			    struct rt_error *err)
{
	struct reading r = {.number = number, .err = err};
	struct rt_step step = {0}, *kept;
	enum rt_err e;

	r.whole = rt_arena_copy(&out->text, s, n);
	r.text = rt_arena_take(&out->text, n + 1);
	if (!r.whole || !r.text)
		return rt_fail_nomem(err);
	memcpy(r.text, s, n);
	e = read_step(&r, &step);
	if (e)
		return e;
	if (step.kind == RT_STEP_LETTER)
		step.letter = r.text;
	kept = RT_LIST_ADD(out);
	if (!kept)
		return rt_fail_nomem(err);
	*kept = step;
	return RT_OK;
}

enum rt_err rt_figure_parse(struct rt_steps *out, const char *figure, struct rt_error *err)
{
	static const char white[] = " \t\r\n";
	const size_t before = out->n;
	size_t number = 0;

	for (const char *s = figure + strspn(figure, white); *s; s += strspn(s, white)) {
		size_t n = strcspn(s, white);
		enum rt_err e = add_step(out, ++number, s, n, err);

		if (e) {
			out->n = before;
			return e;
		}
		s += n;
	}
	return RT_OK;
}
