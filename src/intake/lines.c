/* A file as physical lines, in bounded memory.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "internal.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FIRST_CAP (64 * 1024)
#define LETTER	  5 /* bytes of a letter in UTF-8, and the '\n' */

static ssize_t read_bytes(struct rt__lines *l, char *to, size_t room)
{
	ssize_t got;

	do
		got = read(l->fd, to, room);
	while (got < 0 && errno == EINTR);
	return got;
}

/* Which UTF-16 the first bytes are, with a mark or without; NULL: it is something else. */
static const char *utf_16(const char *s, size_t n, size_t *mark)
{
	*mark = n >= 2 && (memcmp(s, "\xFF\xFE", 2) == 0 || memcmp(s, "\xFE\xFF", 2) == 0) ? 2 : 0;
	if (*mark)
		return *s == '\xFF' ? "UTF-16LE" : "UTF-16BE";
	if (n < 4 || !s[0] == !s[1] || !s[0] != !s[2] || !s[1] != !s[3])
		return NULL;
	return s[0] ? "UTF-16LE" : "UTF-16BE";
}

/* Look at the first bytes; false: errno tells why not. */
static bool start(struct rt__lines *l)
{
	const char *kind;
	ssize_t got = 1;
	size_t mark;

	l->started = true;
	while (l->raw_n < 4 && got > 0) {
		got = read_bytes(l, l->raw + l->raw_n, sizeof l->raw - l->raw_n);
		l->raw_n += got > 0 ? (size_t)got : 0;
	}
	kind = utf_16(l->raw, l->raw_n, &mark);
	if (got < 0 || !kind)
		return got >= 0;
	l->text = iconv_open("UTF-8", kind);
	l->wide = l->text != (iconv_t)-1;
	l->raw_n -= mark;
	memmove(l->raw, l->raw + mark, l->raw_n);
	return l->wide;
}

/* Make what was read of UTF-16 into UTF-8; how many bytes that is, -1 where it is none. */
static ssize_t from_utf_16(struct rt__lines *l, char *to, size_t room)
{
	char *in = l->raw, *out = to;
	size_t left = l->raw_n, out_left = room;
	size_t failed = iconv(l->text, &in, &left, &out, &out_left);

	if (failed == (size_t)-1 && errno == EILSEQ)
		return -1;
	memmove(l->raw, in, left);
	l->raw_n = left;
	return out - to;
}

/* Text of the file, as read() has it. */
static ssize_t read_text(struct rt__lines *l, char *to, size_t room)
{
	ssize_t got, made;

	if (!l->started && !start(l))
		return -1;
	if (!l->wide && l->raw_n) {
		size_t n = l->raw_n;

		memcpy(to, l->raw, n); /* the first block: there is room */
		l->raw_n = 0;
		return (ssize_t)n;
	}
	if (!l->wide)
		return read_bytes(l, to, room);
	for (;;) {
		made = from_utf_16(l, to, room);
		if (made)
			return made;
		got = read_bytes(l, l->raw + l->raw_n, sizeof l->raw - l->raw_n);
		if (got == 0 && l->raw_n) {
			errno = EILSEQ;
			return -1;
		}
		if (got <= 0)
			return got;
		l->raw_n += (size_t)got;
	}
}

/* Make room behind what is not yet used, and read into it.  One byte is kept free for the
 * '\n' after a last line that has none. */
static enum rt__line fill(struct rt__lines *l)
{
	ssize_t got;

	if (l->begin > 0 && l->begin < l->end)
		memmove(l->buf, l->buf + l->begin, l->end - l->begin);
	l->end -= l->begin;
	l->begin = 0;
	if (l->end + LETTER >= l->cap) {
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
	got = read_text(l, l->buf + l->end, l->cap - l->end - 1);
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
	if (l->wide)
		iconv_close(l->text);
	l->wide = false;
	free(l->buf);
	l->buf = NULL;
	l->cap = l->begin = l->end = 0;
}
