/* What the files of this room share with each other and with the rooms above.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_RING_INTERNAL_H
#define RT_RING_INTERNAL_H

#include <ringtrue/ring.h>

#include "../base/enum_words.h"

/* ---- kinds.c ---- */

/* The corners' names, clockwise from A: AK, HC, CM, FA. */
extern const char *const rt__corner[4];
/* Whether a place is on a side, corners included, or on the centreline, its ends included. */
bool rt__on_side(const struct rt_ring_kind *kind, double x_m, double y_m, enum rt_side side);

/* RT_E_NOTFOUND for a name that is no peg's: the nearest name, or all of them. */
enum rt_err rt__no_such_peg(const struct rt_pegs *pegs, const char *name, struct rt_error *err);
/* The next peg from `from` in the direction of y (or of x), sign +1 or -1, on the line through
 * it that is parallel to that axis; NULL when there is none. */
const struct rt_peg *rt__peg_towards(const struct rt_pegs *pegs, const struct rt_peg *from,
				     bool along_y, int sign);

#endif
