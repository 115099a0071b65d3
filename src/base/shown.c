/* Text as a message quotes it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdio.h>
#include <string.h>

#define SHOWN_BYTES 60 /* of a value that is quoted in a message; the rest is cut */

/* Bytes of the well-formed character at s, 0 where there is none. */
static size_t character(const char *s)
{
	unsigned char lead = (unsigned char)*s;
	size_t n = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;

	return memchr(s, '\0', n) || !rt_is_utf8(s, n) ? 0 : n;
}

static bool is_control(const char *s)
{
	unsigned char byte = (unsigned char)*s;

	return byte < 0x20 || byte == 0x7F || (byte == 0xC2 && (unsigned char)s[1] < 0xA0);
}

struct rt_shown rt_show(const char *s)
{
	struct rt_shown out;
	size_t at = 0;

	out.text[at++] = '"';
	while (*s && at < SHOWN_BYTES) {
		size_t n = character(s);

		if (n && !is_control(s)) {
			memcpy(out.text + at, s, n);
			at += n;
			s += n;
		} else if (*s == '\n' || *s == '\t') {
			memcpy(out.text + at, *s++ == '\n' ? "\\n" : "\\t", 2);
			at += 2;
		} else {
			snprintf(out.text + at, 5, "\\x%02X", (unsigned)(unsigned char)*s++);
			at += 4;
		}
	}
	snprintf(out.text + at, sizeof out.text - at, "%s\"", *s ? "..." : "");
	return out;
}
