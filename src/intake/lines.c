/* A file as physical lines, in bounded memory.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "internal.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FIRST_CAP (64 * 1024)

/* Make room behind what is not yet used, and read into it.  One byte is kept free for the
 * '\n' after a last line that has none. */
static enum rt__line fill(struct rt__lines *l)
{
	ssize_t got;

	if (l->begin > 0 && l->begin < l->end)
		memmove(l->buf, l->buf + l->begin, l->end - l->begin);
	l->end -= l->begin;
	l->begin = 0;
	if (l->end + 1 >= l->cap) {
		size_t cap = l->cap ? l->cap * 2 : FIRST_CAP;
		char *wide;

		if (l->end > RT__ROW_MAX)
			return RT__LINE_LONG;
		wide = realloc(l->buf, cap);
		if (!wide)
			return RT__LINE_NOMEM;
		l->buf = wide;
		l->cap = cap;
	}
	do
		got = read(l->fd, l->buf + l->end, l->cap - l->end - 1);
	while (got < 0 && errno == EINTR);
	if (got < 0)
		return RT__LINE_FAILED;
	l->eof = got == 0;
	l->end += (size_t)got;
	return RT__LINE;
}

/* The line of n bytes at begin, whose end takes up `tail` bytes. */
static enum rt__line take(struct rt__lines *l, size_t n, size_t tail, char **text, size_t *length)
{
	*text = l->buf + l->begin;
	*length = n;
	(*text)[n] = '\n';
	l->begin += n + tail;
	l->line++;
	return RT__LINE;
}

enum rt__line rt__lines_next(struct rt__lines *l, char **text, size_t *n)
{
	size_t i = 0;

	for (;;) {
		size_t have = l->end - l->begin;
		const char *s = have ? l->buf + l->begin : NULL;
		enum rt__line got;

		while (i < have && s[i] != '\n' && s[i] != '\r')
			i++;
		if (i < have && s[i] == '\n')
			return take(l, i, 1, text, n);
		if (i < have && (i + 1 < have || l->eof))
			return take(l, i, i + 1 < have && s[i + 1] == '\n' ? 2 : 1, text, n);
		if (l->eof)
			return have ? take(l, have, 0, text, n) : RT__LINE_END;
		got = fill(l);
		if (got != RT__LINE)
			return got;
	}
}

void rt__lines_close(struct rt__lines *l)
{
	if (l->fd >= 0)
		close(l->fd);
	l->fd = -1;
	free(l->buf);
	l->buf = NULL;
	l->cap = l->begin = l->end = 0;
}
