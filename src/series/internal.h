/* series: what its files share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SERIES_INTERNAL_H
#define RT_SERIES_INTERNAL_H

#include <ringtrue/series.h>

/* For the list of tables. */
extern const struct rt_record rt__prizes_table, rt__prize_sum_table;

#endif
