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

/* Half the side of a box to tick, and drawing one with its middle there. */
#define RT__TICK_MM 2.0
void rt__setout_tick(const struct rt__setout_pages *p, double x_mm, double y_mm);

/* The ring with its dimensions, on the page that is open. */
void rt__setout_drawing(const struct rt__setout_pages *p);
/* The field with the room round the ring, into an area of the page that is open. */
void rt__setout_field(const struct rt__setout_pages *p, const struct rt_area *area);

#endif
