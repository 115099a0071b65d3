/* Words of readings and of the fixed choices.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "internal.h"

RT__ENUM_WORDS(reading_kind, "kind", RT_READING_KINDS)
RT__ENUM_WORDS(reading_verdict, "verdict", RT_READING_VERDICTS)
RT__ENUM_WORDS(sigma_test, "test", RT_SIGMA_TESTS)
RT__ENUM_WORDS(search_end, "end", RT_SEARCH_ENDS)

struct rt_shown rt_reading_words(const struct rt_reading *r)
{
	const char *from = r->from ? r->from : "?", *to = r->to ? r->to : "?";
	const char *at = r->at ? r->at : "?";
	struct rt_shown out = {""};

	switch (r->kind) {
	case RT_READ_DISTANCE:
		snprintf(out.text, sizeof out.text, "%.24s-%.24s", from, to);
		break;
	case RT_READ_OFFSET:
		snprintf(out.text, sizeof out.text, "offset of %.24s from %.24s-%.24s", at, from,
			 to);
		break;
	case RT_READ_ANGLE:
		snprintf(out.text, sizeof out.text, "angle at %.24s from %.24s to %.24s", at, from,
			 to);
		break;
	case RT_READ_X:
	case RT_READ_Y:
		snprintf(out.text, sizeof out.text, "%s of %.24s", r->kind == RT_READ_X ? "x" : "y",
			 at);
		break;
	}
	return out;
}

bool rt__reading_names(const struct rt_reading *r, const char *peg)
{
	return (r->from && strcmp(r->from, peg) == 0) || (r->to && strcmp(r->to, peg) == 0) ||
	       (r->at && strcmp(r->at, peg) == 0);
}

bool rt__one_fix(const struct rt_reading *x, const struct rt_reading *y)
{
	return x->kind == RT_READ_X && y->kind == RT_READ_Y && x->frame == y->frame &&
	       x->line == y->line && strcmp(x->at, y->at) == 0;
}
