/* What the files of this room share with each other and with the rooms above.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_RING_INTERNAL_H
#define RT_RING_INTERNAL_H

#include <ringtrue/ring.h>

#include "../base/enum_words.h"

/* ---- kinds.c ---- */

/* RT_E_NOTFOUND for a name that is no peg's: the nearest name, or all of them. */
enum rt_err rt__no_such_peg(const struct rt_pegs *pegs, const char *name, struct rt_error *err);
/* The next peg from `from` in the direction of y (or of x), sign +1 or -1, on the line through
 * it that is parallel to that axis; NULL when there is none. */
const struct rt_peg *rt__peg_towards(const struct rt_pegs *pegs, const struct rt_peg *from,
				     bool along_y, int sign);

/* ---- columns of a report table; wide: left out of text at 80 columns ---- */

#define RT__TEXT(column, title, is_wide)                                                           \
	{                                                                                          \
		.name = column, .head = title, .type = RT_TEXT, .wide = is_wide                    \
	}
#define RT__COUNT(column, title, is_wide)                                                          \
	{                                                                                          \
		.name = column, .head = title, .type = RT_INT, .wide = is_wide                     \
	}
#define RT__YES_NO(column, title, is_wide)                                                         \
	{                                                                                          \
		.name = column, .head = title, .type = RT_BOOL, .wide = is_wide                    \
	}
#define RT__NUMBER(column, title, places, is_wide)                                                 \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .decimals = places,                \
		.wide = is_wide                                                                    \
	}
#define RT__PERCENT(column, title, places, is_wide)                                                \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .unit = RT_PERCENT,                \
		.decimals = places, .wide = is_wide                                                \
	}
#define RT__METRES(column, title, places, is_wide)                                                 \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .unit = RT_METRE,                  \
		.decimals = places, .wide = is_wide                                                \
	}
#define RT__DEGREES(column, title, places, is_wide)                                                \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .unit = RT_DEGREE,                 \
		.decimals = places, .wide = is_wide                                                \
	}

#define RT__TAPED(column, title, is_wide)                                                          \
	{                                                                                          \
		.name = column, .head = title, .type = RT_REAL, .unit = RT_TAPED, .decimals = 2,   \
		.wide = is_wide                                                                    \
	}

#endif
