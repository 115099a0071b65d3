/* Text that every reader takes: what is stored may be anything, what is written may not.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <string.h>
#include <utf8proc.h>

#include "internal.h"

static const char replacement[] = "\xEF\xBF\xBD"; /* U+FFFD */

#define REPLACEMENT_BYTES (sizeof replacement - 1)

/* Control characters of both sets, but for tab and line ends, and the two that XML 1.0 (section
 * 2.2) refuses beside them.  They would be commands to a terminal. */
static bool is_control(utf8proc_int32_t c)
{
	if (c == '\t' || c == '\n' || c == '\r')
		return false;
	return c < ' ' || (c >= 0x7F && c <= 0x9F) || c == 0xFFFE || c == 0xFFFF;
}

const char *rt__clean_next(const char **s, enum rt__clean clean, size_t *n)
{
	const char *from = *s;
	utf8proc_int32_t c;
	utf8proc_ssize_t took = utf8proc_iterate((const utf8proc_uint8_t *)from, -1, &c);
	bool good = took > 0 && !(clean == RT__CLEAN_CONTROLS && is_control(c));

	*s += took > 0 ? took : 1;
	*n = good ? (size_t)took : REPLACEMENT_BYTES;
	return good ? from : replacement;
}

/* Whether s may be written as it is. */
static bool is_clean(const char *s, enum rt__clean clean)
{
	size_t n;

	while (*s)
		if (rt__clean_next(&s, clean, &n) == replacement)
			return false;
	return true;
}

const char *rt__clean(struct rt_arena **a, const char *s, enum rt__clean clean)
{
	char *made, *to;

	if (is_clean(s, clean))
		return s;
	/* at worst every byte is replaced */
	made = to = rt_arena_take(a, strlen(s) * REPLACEMENT_BYTES + 1);
	while (made && *s) {
		size_t n;
		const char *c = rt__clean_next(&s, clean, &n);

		memcpy(to, c, n);
		to += n;
	}
	return made; /* the arena's bytes are 0, so it ends */
}
