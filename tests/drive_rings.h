/* Standard rings, levels and gaits in a few lines, for the tests of drive.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef DRIVE_RINGS_H
#define DRIVE_RINGS_H

#include <ringtrue/route.h>
#include <ringtrue/sweep.h>

/* The rings as people know them. */
enum drive_ring { RIDDEN_20X40, RIDDEN_20X60, DRIVEN_40X80, DRIVEN_40X100, DRIVE_RINGS };
extern const struct rt_ring_kind drive_ring[DRIVE_RINGS];

/* walk 1.73, trot 3.61 with strides of 2.73 m, extended trot 4.93. */
extern const struct rt_gaits drive_gaits;

/* A level of that discipline and diameter, timed at the trot, for an animal of 142.2 cm. */
struct rt_level drive_level(enum rt_discipline discipline, double diameter_m);

/* The first row of that turn and hand, or NULL. */
const struct rt_turn *drive_find(const struct rt_turns *turns, const char *turn, enum rt_side hand);

/* A place in words, in one buffer: good until the next call. */
const char *drive_words(const struct rt_place *place);

#endif
