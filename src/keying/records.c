/* The record of a marks file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/keying.h>

static const struct rt_field fields[] = {
	{"class", RT_AT(struct rt_mark_cells, class_name), .type = RT_NAME, .is = RT_KEY,
	 .help = "the class", .example = {"1", "1"}},
	{"number", .head = "no.", RT_AT(struct rt_mark_cells, number), .type = RT_INT, .is = RT_KEY,
	 .low = 1, .high = RT_NUMBER_MOST, .help = "the entry", .example = {"1", "2"}},
	{"judge", RT_AT(struct rt_mark_cells, judge), .type = RT_NAME, .is = RT_KEY,
	 .help = "whose sheet: where the judge sits", .example = {"C", "C"}},
	{"item", RT_AT(struct rt_mark_cells, item), .type = RT_NAME, .is = RT_KEY,
	 .help = "an item of the test; errors: how many the sheet shows; total: the sum on it",
	 .example = {"1", "1"}},
	{"mark", RT_AT(struct rt_mark_cells, mark), .type = RT_NAME,
	 .help = "0 to 10 in the item's steps; a number of errors; points",
	 .example = {"6.5", "7"}},
	{"remark", RT_AT(struct rt_mark_cells, remark), .type = RT_TEXT, .is = RT_OPTIONAL,
	 .help = "what the judge wrote", .example = {"good bend", ""}},
};

const struct rt_record rt_mark_record = {
	"mark",
	"marks",
	"Marks",
	RT_FIELDS(fields),
	.size = sizeof(struct rt_mark_cells),
	.help = "A mark on a judge's sheet, or a line below the boxes.",
};
