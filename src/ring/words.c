/* The words of every list of this room, from the same lines as its codes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/ring.h>

#include <stdio.h>
#include <string.h>

#include "internal.h"

#define RT_WORDS(code, words) words,
#define COUNT(a)	      (sizeof(a) / sizeof *(a))

static const char *const disciplines[] = {RT_DISCIPLINES(RT_WORDS)};
static const char *const sides[] = {RT_SIDES(RT_WORDS)};
static const char *const fits[] = {RT_FITS(RT_WORDS)};
static const char *const reading_kinds[] = {RT_READING_KINDS(RT_WORDS)};
static const char *const reading_verdicts[] = {RT_READING_VERDICTS(RT_WORDS)};
static const char *const sigma_tests[] = {RT_SIGMA_TESTS(RT_WORDS)};
static const char *const search_ends[] = {RT_SEARCH_ENDS(RT_WORDS)};
static const char *const peg_verdicts[] = {RT_PEG_VERDICTS(RT_WORDS)};
static const char *const ring_verdicts[] = {RT_RING_VERDICTS(RT_WORDS)};
static const char *const footing_verdicts[] = {RT_FOOTING_VERDICTS(RT_WORDS)};
static const char *const lies[] = {RT_LIES(RT_WORDS)};
static const char *const shapes[] = {RT_SHAPES(RT_WORDS)};
static const char *const shape_verdicts[] = {RT_SHAPE_VERDICTS(RT_WORDS)};

static const char *words_of(const char *const *words, size_t n, size_t code)
{
	return code < n ? words[code] : "";
}

/* The code of a word; n where it is none. */
static size_t code_of(const char *const *words, size_t n, const char *word)
{
	size_t i = 0;

	while (i < n && strcmp(words[i], word) != 0)
		i++;
	return i;
}

const char *rt_discipline_words(enum rt_discipline d)
{
	return words_of(disciplines, COUNT(disciplines), (size_t)d);
}

const char *rt_side_words(enum rt_side s)
{
	return words_of(sides, COUNT(sides), (size_t)s);
}

const char *rt_fit_words(enum rt_fit f)
{
	return words_of(fits, COUNT(fits), (size_t)f);
}

const char *rt_reading_kind_words(enum rt_reading_kind k)
{
	return words_of(reading_kinds, COUNT(reading_kinds), (size_t)k);
}

const char *rt_reading_verdict_words(enum rt_reading_verdict v)
{
	return words_of(reading_verdicts, COUNT(reading_verdicts), (size_t)v);
}

const char *rt_sigma_test_words(enum rt_sigma_test t)
{
	return words_of(sigma_tests, COUNT(sigma_tests), (size_t)t);
}

const char *rt_search_end_words(enum rt_search_end e)
{
	return words_of(search_ends, COUNT(search_ends), (size_t)e);
}

const char *rt_peg_verdict_words(enum rt_peg_verdict v)
{
	return words_of(peg_verdicts, COUNT(peg_verdicts), (size_t)v);
}

const char *rt_footing_verdict_words(enum rt_footing_verdict v)
{
	return words_of(footing_verdicts, COUNT(footing_verdicts), (size_t)v);
}

const char *rt_lies_words(enum rt_lies l)
{
	return words_of(lies, COUNT(lies), (size_t)l);
}

const char *rt_shape_words(enum rt_shape s)
{
	return words_of(shapes, COUNT(shapes), (size_t)s);
}

const char *rt_shape_verdict_words(enum rt_shape_verdict v)
{
	return words_of(shape_verdicts, COUNT(shape_verdicts), (size_t)v);
}

const char *rt_ring_verdict_words(enum rt_ring_verdict v)
{
	return words_of(ring_verdicts, COUNT(ring_verdicts), (size_t)v);
}

bool rt_discipline_read(const char *words, enum rt_discipline *out)
{
	size_t code = code_of(disciplines, COUNT(disciplines), words);

	if (code == COUNT(disciplines))
		return false;
	*out = (enum rt_discipline)code;
	return true;
}

bool rt_side_read(const char *words, enum rt_side *out)
{
	size_t code = code_of(sides, COUNT(sides), words);

	if (code == COUNT(sides))
		return false;
	*out = (enum rt_side)code;
	return true;
}

bool rt_fit_read(const char *words, enum rt_fit *out)
{
	size_t code = code_of(fits, COUNT(fits), words);

	if (code == COUNT(fits))
		return false;
	*out = (enum rt_fit)code;
	return true;
}

bool rt_reading_kind_read(const char *words, enum rt_reading_kind *out)
{
	size_t code = code_of(reading_kinds, COUNT(reading_kinds), words);

	if (code == COUNT(reading_kinds))
		return false;
	*out = (enum rt_reading_kind)code;
	return true;
}

void rt_reading_words(const struct rt_reading *r, char *out, size_t size)
{
	const char *from = r->from ? r->from : "?", *to = r->to ? r->to : "?";
	const char *at = r->at ? r->at : "?";

	switch (r->kind) {
	case RT_READ_DISTANCE:
		snprintf(out, size, "%.24s-%.24s", from, to);
		break;
	case RT_READ_OFFSET:
		snprintf(out, size, "offset of %.24s from %.24s-%.24s", at, from, to);
		break;
	case RT_READ_ANGLE:
		snprintf(out, size, "angle at %.24s from %.24s to %.24s", at, from, to);
		break;
	case RT_READ_X:
	case RT_READ_Y:
		snprintf(out, size, "%s of %.24s", r->kind == RT_READ_X ? "x" : "y", at);
		break;
	}
}

bool rt__reading_names(const struct rt_reading *r, const char *peg)
{
	return (r->from && strcmp(r->from, peg) == 0) || (r->to && strcmp(r->to, peg) == 0) ||
	       (r->at && strcmp(r->at, peg) == 0);
}
