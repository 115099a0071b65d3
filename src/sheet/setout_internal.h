/* What the files of the set-out sheet share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SHEET_SETOUT_INTERNAL_H
#define RT_SHEET_SETOUT_INTERNAL_H

#include "internal.h"

struct rt__setout_pages {
	struct rt_sheet *sheet;
	const struct rt_setout_sheet *what;
	const struct rt_ring_kind *kind;
	const struct rt_sheet_options *options;
	struct rt_area room; /* of a page, between head and foot */
};

/* setout_field.c: words along a line between two points of the ring, lift_mm above it (less than
 * 0: below), their middle at that part of it. */
extern const struct rt_pen rt__setout_heavy, rt__setout_dashed;
void rt__setout_along(const struct rt__setout_pages *p, const struct rt_ring_view *view,
		      const double from[2], const double to[2], double part, double lift_mm,
		      const char *words);

/* The ring with its dimensions, on the page that is open. */
void rt__setout_drawing(const struct rt__setout_pages *p);
/* The field with the room round the ring, into an area of the page that is open. */
void rt__setout_field(const struct rt__setout_pages *p, const struct rt_area *area);

#endif
