/* office: what its files share, and the rooms of the office with it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_OFFICE_INTERNAL_H
#define RT_OFFICE_INTERNAL_H

#include <ringtrue/office.h>

/* Limits that keep every product of a score inside 64 bits; scoring/score.c reckons with them.
 * Nine judges of sixty items with coefficient 99 make 534,600 points. */
#define RT__DECIMALS_MOST     9
#define RT__BASE_MOST	      1000
#define RT__PENALTY_MOST_X100 100000

#define RT__APART_JUDGES_LEAST 3 /* of two, each is as far from the other */

/* What a judge's position is made of. */
#define RT__POSITION_LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"

#define RT__POINTS_ADDED (-1) /* rule->judge_decimals: points are added, one percentage */

/* Whether an entry of that status has been in the ring, or will be. */
static inline bool rt__started(enum rt_status status)
{
	return status != RT_WITHDRAWN && status != RT_DID_NOT_START;
}

/* The place of the president in the list. */
size_t rt__president(const struct rt_judges *judges);

#endif
