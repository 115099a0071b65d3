/* How the notes of a class are put together: sentences, and cases named in them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>

void rt__list_case(struct rt__listing *list, const char *fmt, ...)
{
	char one[sizeof list->text];
	va_list args;

	va_start(args, fmt);
	vsnprintf(one, sizeof one, fmt, args);
	va_end(args);
	list->cases++;
	if (list->named < RT__LISTED_MOST)
		list->named += rt_append(list->text, sizeof list->text, "%s%s",
					 list->named ? ", " : "", one);
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

const char *rt__position(const struct rt_results *r, size_t judge)
{
	return r->of->class_->judges.at[judge].position;
}
