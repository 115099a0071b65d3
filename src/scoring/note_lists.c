/* How the notes of a class are put together: sentences, and cases named in them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>

void rt__list_case(struct rt__listing *list, const char *fmt, ...)
{
	size_t room = sizeof list->text - list->used;
	char *end = list->text + list->used;
	int comma = list->named ? snprintf(end, room, ", ") : 0, n;
	va_list args;

	list->cases++;
	if (list->named == RT__LISTED_MOST || (size_t)comma >= room) {
		*end = '\0';
		return;
	}
	va_start(args, fmt);
	n = vsnprintf(end + comma, room - (size_t)comma, fmt, args);
	va_end(args);
	if (n < 0 || (size_t)comma + (size_t)n >= room) {
		*end = '\0';
		return;
	}
	list->used += (size_t)comma + (size_t)n;
	list->named++;
}

const char *rt__more(const struct rt__listing *list, char *out, size_t size)
{
	out[0] = '\0';
	if (list->cases > list->named)
		snprintf(out, size, " and %zu more", list->cases - list->named);
	return out;
}

bool rt__note(struct rt_results *r, const char *fmt, ...)
{
	const char **at = RT_LIST_ADD(&r->notes);
	va_list args;
	char text[1000];

	if (!at)
		return false;
	va_start(args, fmt);
	vsnprintf(text, sizeof text, fmt, args);
	va_end(args);
	*at = rt_arena_string(&r->notes.text, text);
	return *at != NULL;
}

bool rt__note_cases(struct rt_results *r, const char *head, const struct rt__listing *list)
{
	char rest[40];

	return rt__note(r, "%s: %s%s.", head, list->text, rt__more(list, rest, sizeof rest));
}
