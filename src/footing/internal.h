/* What the files of this room share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_FOOTING_INTERNAL_H
#define RT_FOOTING_INTERNAL_H

#include <ringtrue/footing.h>
#include "../survey/internal.h"

/* ---- plane.c ---- */

/* Fit the plane to the heights of f->peg, where they tell one; pegs are all of the kind. */
enum rt_err rt__footing_plane(struct rt_footing *f, const struct rt_pegs *pegs,
			      struct rt_error *err);

#endif
