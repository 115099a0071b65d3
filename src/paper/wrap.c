/* Text broken into lines by its width in terminal cells.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "internal.h"

/* A line as it grows, in a buffer that holds the text, a line end and an indent a byte. */
struct lines {
	char *out;
	size_t n;     /* bytes written */
	size_t at;    /* cells used of the current line */
	size_t begin; /* cells that its indent takes */
	size_t width, indent;
};

static void new_line(struct lines *l)
{
	l->out[l->n++] = '\n';
	memset(l->out + l->n, ' ', l->indent);
	l->n += l->indent;
	l->at = l->begin = l->indent;
}

static bool is_space(char c)
{
	return c == ' ' || c == '\t' || c == '\n';
}

/* The bytes of the UTF-8 character at s (1 for a stray byte), and its cells. */
static size_t character(const char *s, size_t left, size_t *cells)
{
	char one[5] = "";
	size_t n = 1;

	while (n < left && n < 4 && ((unsigned char)s[n] & 0xC0) == 0x80)
		n++;
	memcpy(one, s, n);
	*cells = rt_width(one);
	return n;
}

static void put_word(struct lines *l, const char *word, size_t n, size_t cells)
{
	bool first = l->at == l->begin;

	if (!first && l->at + 1 + cells > l->width) {
		new_line(l);
		first = true;
	}
	if (!first) {
		l->out[l->n++] = ' ';
		l->at++;
	}
	memcpy(l->out + l->n, word, n);
	l->n += n;
	l->at += cells;
}

size_t rt__cells(const char *s, size_t n)
{
	size_t sum = 0;

	while (n) {
		size_t cells, took = character(s, n, &cells);

		sum += cells;
		s += took;
		n -= took;
	}
	return sum;
}

size_t rt__widest_word(const char *s)
{
	size_t widest = 0;

	while (*s) {
		size_t n = strcspn(s, " "), cells = rt__cells(s, n);

		widest = cells > widest ? cells : widest;
		s += n + (s[n] == ' ');
	}
	return widest;
}

size_t rt__count_lines(const char *s, size_t width)
{
	size_t n = 1, at = 0;

	while (*s) {
		size_t bytes = strcspn(s, " "), cells = rt__cells(s, bytes);

		if (at > 0 && at + 1 + cells > width) {
			n++;
			at = 0;
		}
		at += cells + (at > 0);
		s += bytes + (s[bytes] == ' ');
	}
	return n;
}

const char *rt__wrap(struct rt_arena **a, const char *s, size_t width, size_t indent)
{
	struct lines l = {.width = width > indent ? width : indent + 1, .indent = indent};
	const char *made;

	s = rt_clean(a, s);
	/* at worst every other byte is a word, on a line of its own */
	l.out = s ? malloc((strlen(s) + 1) * (indent + 2)) : NULL;
	if (!l.out)
		return NULL;
	while (*s) {
		size_t n = 0;

		while (*s && is_space(*s))
			s++;
		while (s[n] && !is_space(s[n]))
			n++;
		if (n)
			put_word(&l, s, n, rt__cells(s, n));
		s += n;
	}
	made = rt_arena_copy(a, l.out, l.n);
	free(l.out);
	return made;
}
