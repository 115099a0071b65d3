/* Names: folded for search and order, measured in terminal cells, and the nearest right word.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

/* Letters that no decomposition takes apart, as they are typed where a keyboard has none of
 * them (our own choice, common practice); each is two bytes of UTF-8, small after case folding. */
static const struct {
	char letter[3], typed[3];
} plain_letter[] = {
	{"\xC3\xA6", "ae"}, {"\xC3\xB0", "d"}, {"\xC3\xB8", "o"}, {"\xC3\xBE", "th"},
	{"\xC4\x91", "d"},  {"\xC4\xA7", "h"}, {"\xC4\xB1", "i"}, {"\xC5\x82", "l"},
	{"\xC5\x93", "oe"}, {"\xC5\xA7", "t"},
};

#define PLAIN_LETTERS (sizeof plain_letter / sizeof *plain_letter)

static void use_plain_letters(char *s)
{
	char *to = s;

	while (*s) {
		const char *typed = NULL;

		for (size_t i = 0; (unsigned char)*s >= 0x80 && i < PLAIN_LETTERS; i++)
			if (s[0] == plain_letter[i].letter[0] && s[1] == plain_letter[i].letter[1])
				typed = plain_letter[i].typed;
		if (!typed) {
			*to++ = *s++;
			continue;
		}
		while (*typed)
			*to++ = *typed++;
		s += 2;
	}
	*to = '\0';
}

/* One space for each run of white space, none at the ends. */
static void squeeze_spaces(char *s)
{
	char *to = s;

	for (const char *from = s; *from; from++) {
		bool space = *from == ' ' || (*from >= '\t' && *from <= '\r');

		if (!space)
			*to++ = *from;
		else if (to > s && to[-1] != ' ')
			*to++ = ' ';
	}
	if (to > s && to[-1] == ' ')
		to--;
	*to = '\0';
}

/* Put what n bytes that are no ASCII fold to behind the used bytes of *out, with room for `more`
 * bytes behind them. */
static bool fold_run(char **out, size_t *used, const char *s, size_t n, size_t more)
{
	const utf8proc_option_t options = UTF8PROC_STABLE | UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE |
					  UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK | UTF8PROC_IGNORE;
	utf8proc_uint8_t *folded = NULL;
	utf8proc_ssize_t length = utf8proc_map((const utf8proc_uint8_t *)s, (utf8proc_ssize_t)n,
					       &folded, options);
	bool whole = length != UTF8PROC_ERROR_INVALIDUTF8;
	char *grown;

	if (!whole) /* such bytes stay what they are */
		length = (utf8proc_ssize_t)n;
	grown = length < 0 ? NULL : realloc(*out, *used + (size_t)length + more);
	if (grown) {
		memcpy(grown + *used, whole ? (const char *)folded : s, (size_t)length);
		*out = grown;
		*used += (size_t)length;
	}
	free(folded);
	return grown != NULL;
}

/* Run by run, ASCII and other: marks are dropped and everything else folds letter by letter, so
 * that runs do not depend on each other, and ASCII, most of what there is, is quick. */
char *rt_fold(const char *s)
{
	size_t left = strlen(s), used = 0;
	char *out = malloc(left + 1);

	while (out && left) {
		size_t n = 0;

		for (; left && (unsigned char)*s < 0x80; s++, left--)
			out[used++] = *s >= 'A' && *s <= 'Z' ? (char)(*s - 'A' + 'a') : *s;
		while (n < left && (unsigned char)s[n] >= 0x80)
			n++;
		left -= n;
		if (n && !fold_run(&out, &used, s, n, left + 1)) {
			free(out);
			return NULL;
		}
		s += n;
	}
	if (!out)
		return NULL;
	out[used] = '\0';
	use_plain_letters(out);
	squeeze_spaces(out);
	return out;
}

size_t rt_characters(const char *s)
{
	size_t n = 0;

	for (; *s; s++)
		n += ((unsigned char)*s & 0xC0) != 0x80; /* all but the bytes that continue one */
	return n;
}

bool rt_is_formula(const char *s)
{
	s += strspn(s, "'");
	return *s && strchr("=+-@\t\r", *s);
}

size_t rt_width(const char *s)
{
	size_t cells = 0;

	while (*s) {
		utf8proc_int32_t point;
		utf8proc_ssize_t took = utf8proc_iterate((const utf8proc_uint8_t *)s, -1, &point);

		if (took <= 0) {
			cells++; /* a stray byte shows as one cell */
			s++;
			continue;
		}
		cells += (size_t)utf8proc_charwidth(point);
		s += took;
	}
	return cells;
}

#define WORD_MAX 48 /* longer words are never a slip of the finger for one of ours */

static size_t least(size_t a, size_t b)
{
	return a < b ? a : b;
}

/* Optimal string alignment distance, by bytes, over three rolling rows. */
static size_t distance(const char *a, size_t na, const char *b, size_t nb)
{
	size_t rows[3][WORD_MAX + 1];
	size_t *before = rows[0], *above = rows[1], *row = rows[2];

	for (size_t j = 0; j <= nb; j++)
		above[j] = j;
	for (size_t i = 1; i <= na; i++) {
		size_t *spare = before;

		row[0] = i;
		for (size_t j = 1; j <= nb; j++) {
			size_t cost = a[i - 1] != b[j - 1];

			row[j] = least(least(above[j] + 1, row[j - 1] + 1), above[j - 1] + cost);
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
				row[j] = least(row[j], before[j - 2] + 1);
		}
		before = above;
		above = row;
		row = spare;
	}
	return above[nb];
}

const char *rt_nearest(const char *word, const char *const *words, size_t n)
{
	const char *best = NULL;
	size_t length = strlen(word), best_distance = SIZE_MAX;

	if (length > WORD_MAX)
		return NULL;
	for (size_t i = 0; i < n; i++) {
		size_t other = strlen(words[i]), longer = other > length ? other : length, d;

		if (other > WORD_MAX)
			continue;
		d = distance(word, length, words[i], other);
		if (d < best_distance && d < longer && d <= (longer < 6 ? 1 : longer / 3)) {
			best_distance = d;
			best = words[i];
		}
	}
	return best;
}
