/* What text, CSV and JSON have in common: locale, numbers, the end of a stream.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <errno.h>
#include <langinfo.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

enum rt_err rt__locale_numbers(struct rt__locale *l, struct rt_error *err)
{
	l->made = newlocale(LC_ALL_MASK, "C", (locale_t)0);
	if (!l->made)
		return rt_fail_nomem(err);
	l->before = uselocale(l->made);
	return RT_OK;
}

enum rt_err rt__locale_text(struct rt__locale *l, struct rt_error *err)
{
	l->made = (locale_t)0;
	if (strcmp(nl_langinfo(CODESET), "UTF-8") == 0)
		return RT_OK;
	l->made = newlocale(LC_ALL_MASK, "C.UTF-8", (locale_t)0);
	if (!l->made)
		return rt__locale_numbers(l, err);
	l->before = uselocale(l->made);
	return RT_OK;
}

void rt__locale_leave(struct rt__locale *l)
{
	if (!l->made)
		return;
	uselocale(l->before);
	freelocale(l->made);
}

enum rt_err rt__stream_result(FILE *out, struct rt_error *err)
{
	errno = 0;
	if (fflush(out) == 0 && !ferror(out))
		return RT_OK;
	return rt_fail(err, RT_E_IO, "the output could not be written: %s",
		       errno ? strerror(errno) : "an earlier write failed");
}

void rt_paper_words(FILE *out, const char *s)
{
	while (*s) {
		size_t n;
		const char *c = rt_clean_next(&s, &n);

		fwrite(c, 1, n, out);
	}
}

const char *rt__unit_beside(const struct rt_field *c, bool feet)
{
	const char *head = c->head ? c->head : c->name;

	switch (c->unit) {
	case RT_METRE:
	case RT_TAPED:
		return feet && rt_type_shown(c->type) == RT_REAL ? "ft" : "m";
	case RT_SECOND:
		return "s";
	case RT_DEGREE:
		return "deg";
	case RT_PERCENT:
	case RT_PART:
		return strchr(head, '%') || strstr(head, "ercent") ? NULL : "%";
	case RT_NO_UNIT:
		break;
	}
	return NULL;
}
