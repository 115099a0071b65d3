/* Standard rings, levels and gaits in a few lines, for the tests of drive.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "drive_rings.h"

#include <string.h>

#define ENDS(w)                                                                                    \
	{"A", RT_SIDE_A, (w) / 2.0},                                                               \
	{                                                                                          \
		"C", RT_SIDE_C, (w) / 2.0                                                          \
	}
#define LINE(left, right, centre, m)                                                               \
	{left, RT_LEFT, m}, {right, RT_RIGHT, m},                                                  \
	{                                                                                          \
		centre, RT_CENTRE, m                                                               \
	}
#define COUNT(array) (sizeof(array) / sizeof *(array))

static struct rt_letter ridden_short[] = {ENDS(20), LINE("K", "F", "D", 6), LINE("E", "B", "X", 20),
					  LINE("H", "M", "G", 34)};
static struct rt_letter ridden_long[] = {ENDS(20),
					 LINE("K", "F", "D", 6),
					 LINE("V", "P", "L", 18),
					 LINE("E", "B", "X", 30),
					 LINE("S", "R", "I", 42),
					 LINE("H", "M", "G", 54)};
static struct rt_letter driven_short[] = {ENDS(40),
					  LINE("K", "F", "D", 10),
					  LINE("V", "P", "L", 25),
					  LINE("E", "B", "X", 40),
					  LINE("S", "R", "I", 55),
					  LINE("H", "M", "G", 70)};
static struct rt_letter driven_long[] = {ENDS(40),
					 LINE("K", "F", "D", 10),
					 LINE("V", "P", "L", 30),
					 LINE("E", "B", "X", 50),
					 LINE("S", "R", "I", 70),
					 LINE("H", "M", "G", 90)};

#define LETTERS(array)                                                                             \
	{                                                                                          \
		.at = array, .n = COUNT(array)                                                     \
	}

const struct rt_ring_kind drive_ring[DRIVE_RINGS] = {
	[RIDDEN_20X40] = {"ridden-20x40", RT_RIDDEN, 20, 40, LETTERS(ridden_short)},
	[RIDDEN_20X60] = {"ridden-20x60", RT_RIDDEN, 20, 60, LETTERS(ridden_long)},
	[DRIVEN_40X80] = {"driven-40x80", RT_DRIVEN, 40, 80, LETTERS(driven_short)},
	[DRIVEN_40X100] = {"driven-40x100", RT_DRIVEN, 40, 100, LETTERS(driven_long)},
};

static struct rt_gait gaits[] = {
	{"walk", 1.73, 1.87, "test"},
	{"trot", 3.61, 2.73, "test"},
	{"extended trot", 4.93, 3.55, "test"},
};
const struct rt_gaits drive_gaits = {.at = gaits, .n = COUNT(gaits)};

struct rt_level drive_level(enum rt_discipline discipline, double diameter_m)
{
	return (struct rt_level){"test level", discipline, diameter_m, 142.2, "trot"};
}

const struct rt_turn *drive_find(const struct rt_turns *turns, const char *turn, enum rt_side hand)
{
	for (size_t i = 0; i < turns->list.n; i++)
		if (turns->list.at[i].hand == hand && strcmp(turns->list.at[i].turn, turn) == 0)
			return &turns->list.at[i];
	return NULL;
}

const char *drive_words(const struct rt_place *place)
{
	static char words[160];

	rt_place_words(place, false, words, sizeof words);
	return words;
}
