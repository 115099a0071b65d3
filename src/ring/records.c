/* The record of the rows that a kind of ring is made of.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/ring.h>

#define RING_LENGTH .type = RT_REAL, .low = RT_RING_LEAST_M, .high = RT_RING_MOST_M, .measure = "m"

static const struct rt_field fields[] = {
	{"kind", RT_AT(struct rt_ring_row, kind), .type = RT_NAME, .wide = true, .is = RT_KEY,
	 .help = "what tests and rings of the show call it",
	 .example = {"club-20x40", "club-20x40"}},
	{"discipline", RT_AT(struct rt_ring_row, discipline), RT_WORD_OF(discipline), .wide = true,
	 .help = "who goes in it", .example = {"driven", "driven"}},
	{"width_m", RT_AT(struct rt_ring_row, width_m), RING_LENGTH, .unit = RT_METRE,
	 .decimals = 2, .wide = true, .help = "inside, the short sides", .example = {"20", "20"}},
	{"length_m", RT_AT(struct rt_ring_row, length_m), RING_LENGTH, .unit = RT_METRE,
	 .decimals = 2, .wide = true, .help = "inside, the long sides", .example = {"40", "40"}},
	{"peg", RT_AT(struct rt_ring_row, letter.name), .type = RT_NAME, .wide = true, .is = RT_KEY,
	 .help = "a letter; A and C stand in every ring", .example = {"A", "C"}},
	{"side", RT_AT(struct rt_ring_row, letter.side), RT_WORD_OF(side), .wide = true,
	 .help = "where it stands, as somebody at A sees it", .example = {"a", "c"}},
	{"offset_m", RT_AT(struct rt_ring_row, letter.offset_m), RT_METRES(2), .wide = true,
	 .low = 0, .high = RT_RING_MOST_M, .measure = "m",
	 .help = "how far along, from the A end; on sides a and c from the left end",
	 .example = {"10", "10"}},
};

const struct rt_record rt_ring_row_record = {
	"ring kind",
	"letters_of_kinds",
	"Letters",
	RT_FIELDS(fields),
	.size = sizeof(struct rt_ring_row),
	.help = "A kind of ring: a row a letter, with the size in each.",
};
