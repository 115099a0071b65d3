/* How a fault of a row is told: the value that is quoted, where it stands, what is accepted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
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

struct rt__shown rt__show(const char *s)
{
	struct rt__shown out;
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

void rt__row_fault(struct rt__load *l, const char *column, const char *fmt, ...)
{
	size_t which = column ? rt__find_column(l->file, column) : RT__NO_COLUMN;
	char text[480];
	va_list args;

	va_start(args, fmt);
	vsnprintf(text, sizeof text, fmt, args);
	va_end(args);
	rt_fault(l->faults, l->csv.path, l->line, column, "%s", text);
	l->row_bad = true;
	if (which != RT__NO_COLUMN)
		l->faulty |= UINT64_C(1) << which;
}

bool rt__fields_sound(const struct rt__load *l, const char *columns)
{
	while (*columns) {
		size_t n = strcspn(columns, " "), which = 0;

		while (strncmp(l->file->column[which].name, columns, n) != 0 ||
		       l->file->column[which].name[n])
			which++;
		if (l->faulty >> which & 1)
			return false;
		columns += n + (columns[n] == ' ');
	}
	return true;
}

bool rt__refuse(struct rt__load *l, const char *s, const char *wrong, const char *accepted)
{
	rt__row_fault(l, l->column_name, "%s%s%s: %s", s ? rt__show(s).text : "", s ? " " : "",
		      wrong, accepted);
	return false;
}
