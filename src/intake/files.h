/* intake: what the files of one subject share with those of another.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_INTAKE_FILES_H
#define RT_INTAKE_FILES_H

#include <ringtrue/intake.h>

#include "internal.h"

/* The roster, or one without any list where it is NULL. */
const struct rt_roster *rt__roster(const struct rt_roster *roster);

/* Whether the level (NULL, too) exists: in the discipline of the kind of that name, where both
 * are known, otherwise in any.  A fault in column `level` if not. */
void rt__check_level(struct rt__load *l, const struct rt_roster *roster, const char *kind,
		     const char *level);

/* How many of n costs there are: from the first on, without a gap, to an elimination at most;
 * else a fault in the column. */
size_t rt__costs_check(struct rt__load *l, const struct rt_cost *cost, const char *const *columns,
		       size_t n);

#endif
