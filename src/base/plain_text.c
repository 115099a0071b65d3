/* Plain text: put together, what is refused at intake, replaced on paper, made visible in messages.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <utf8proc.h>

#define SHOWN_BYTES 60 /* of a value that is quoted in a message; the rest is cut */

static const char replacement[] = "\xEF\xBF\xBD"; /* U+FFFD */

#define REPLACEMENT_BYTES (sizeof replacement - 1)

bool rt_append(char *out, size_t size, const char *fmt, ...)
{
	size_t used = strlen(out);
	va_list args;
	int n;

	va_start(args, fmt);
	n = vsnprintf(out + used, size - used, fmt, args);
	va_end(args);
	if (n >= 0 && (size_t)n < size - used)
		return true;
	out[used] = '\0';
	return false;
}

/* Neither a control character, which commands a terminal, nor one of the code points that are no
 * characters and that XML refuses (U+FDD0 to U+FDEF, the last two of each plane). */
static bool is_plain(utf8proc_int32_t c)
{
	return c == '\n' || c == '\t' ||
	       (c >= ' ' && !(c >= 0x7F && c <= 0x9F) && !(c >= 0xFDD0 && c <= 0xFDEF) &&
		(c & 0xFFFE) != 0xFFFE);
}

/* The bytes of the well-formed character at s, of n bytes at most (-1: s is a string); 0 where
 * there is none. */
static size_t character(const char *s, utf8proc_ssize_t n, utf8proc_int32_t *point)
{
	utf8proc_ssize_t took = utf8proc_iterate((const utf8proc_uint8_t *)s, n, point);

	return took > 0 ? (size_t)took : 0;
}

/* The bytes of the plain character at the beginning of a string; 0 where there is none. */
static size_t plain_character(const char *s)
{
	utf8proc_int32_t point;
	size_t n = character(s, -1, &point);

	return n && is_plain(point) ? n : 0;
}

bool rt_is_utf8(const char *s, size_t n)
{
	utf8proc_int32_t point;
	size_t took;

	for (; n; s += took, n -= took)
		if (!(took = character(s, (utf8proc_ssize_t)n, &point)))
			return false;
	return true;
}

enum rt_plain rt_plain_text(const char *s, size_t n)
{
	enum rt_plain found = RT_PLAIN;

	while (n) {
		utf8proc_int32_t point = (unsigned char)*s;
		size_t took = point < 0x80 ? 1 : character(s, (utf8proc_ssize_t)n, &point);

		if (!point)
			return RT_PLAIN_NUL;
		if (!took)
			return RT_PLAIN_NOT_UTF8;
		if (!is_plain(point))
			found = RT_PLAIN_CONTROL;
		s += took;
		n -= took;
	}
	return found;
}

struct rt_shown rt_show(const char *s)
{
	struct rt_shown out;
	size_t at = 0;

	out.text[at++] = '"';
	while (*s && at < SHOWN_BYTES) {
		size_t n = plain_character(s);

		if (*s == '\n' || *s == '\t') {
			memcpy(out.text + at, *s++ == '\n' ? "\\n" : "\\t", 2);
			at += 2;
		} else if (n) {
			memcpy(out.text + at, s, n);
			at += n;
			s += n;
		} else {
			snprintf(out.text + at, 5, "\\x%02X", (unsigned)(unsigned char)*s++);
			at += 4;
		}
	}
	snprintf(out.text + at, sizeof out.text - at, "%s\"", *s ? "..." : "");
	return out;
}

const char *rt_clean_next(const char **s, size_t *n)
{
	const char *from = *s;
	utf8proc_int32_t point;
	size_t took = character(from, -1, &point);
	bool good = took && is_plain(point);

	*s += took ? took : 1;
	*n = good ? took : REPLACEMENT_BYTES;
	return good ? from : replacement;
}

/* The same, tabs and line ends as spaces. */
static const char *next_in_line(const char **s, size_t *n)
{
	const char *c = rt_clean_next(s, n);

	return *c == '\n' || *c == '\t' ? " " : c;
}

static const char *clean(struct rt_arena **a, const char *s,
			 const char *(*next)(const char **s, size_t *n))
{
	const char *rest = s, *from = s, *c = s;
	char *made, *to;
	size_t n;

	while (*rest && c == from) {
		from = rest;
		c = next(&rest, &n);
	}
	if (c == from)
		return s;
	/* at worst every byte is replaced */
	made = to = rt_arena_take(a, strlen(s) * REPLACEMENT_BYTES + 1);
	while (made && *s) {
		c = next(&s, &n);
		memcpy(to, c, n);
		to += n;
	}
	return made; /* the arena's bytes are 0, so it ends */
}

const char *rt_clean(struct rt_arena **a, const char *s)
{
	return clean(a, s, rt_clean_next);
}

const char *rt_clean_line(struct rt_arena **a, const char *s)
{
	return clean(a, s, next_in_line);
}
