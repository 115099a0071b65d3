/* The records of heights and of footing rules.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/footing.h>

#include <math.h>

static const struct rt_field height_fields[] = {
	{"point", RT_AT(struct rt_height, name), .type = RT_NAME, .is = RT_KEY,
	 .help = "a letter or corner", .example = {"A", "C"}},
	{"height_m", RT_AT(struct rt_height, height_m), RT_METRES(3), .low = RT_HEIGHT_LEAST_M,
	 .high = RT_HEIGHT_MOST_M, .measure = "m", .help = "over any level that all rows share",
	 .example = {"1.02", "1.10"}},
	{"sigma_m", RT_AT(struct rt_height, sigma_m), RT_SIGMA("m"),
	 .help = "how sure it is, a standard error; empty: as usual", .example = {"", "0.01"}},
};

static const struct rt_height blank_height = {.sigma_m = NAN, .file = ""};

const struct rt_record rt_height_record = {
	"height",
	"heights",
	"Heights",
	RT_FIELDS(height_fields),
	.size = sizeof blank_height,
	.blank = &blank_height,
	.help = "How high a peg stands, by a level and staff or a receiver.",
};

#define FALL(measured)                                                                             \
	.type = RT_REAL, .is = RT_OPTIONAL, .low = 0.01, .high = 20, .measure = measured

static const struct rt_field rule_fields[] = {
	{"footing", RT_AT(struct rt_footing_rule, name), .type = RT_NAME, .is = RT_KEY,
	 .help = "what `--rule` calls it", .example = {"club", "club driven"}},
	{"discipline", RT_AT(struct rt_footing_rule, discipline), RT_WORD_OF(discipline),
	 .help = "whose rings it is for", .example = {"ridden", "driven"}},
	{"along_m", RT_AT(struct rt_footing_rule, along_m), FALL("m"), .unit = RT_METRE,
	 .decimals = 2, .help = "how far a ring may fall along its length, or a diagonal",
	 .example = {"0.5", ""}},
	{"along_percent", RT_AT(struct rt_footing_rule, along_percent), FALL("per cent"),
	 .unit = RT_PERCENT, .decimals = 2, .help = "the same in per cent of its length",
	 .example = {"", "1"}},
	{"across_m", RT_AT(struct rt_footing_rule, across_m), FALL("m"), .unit = RT_METRE,
	 .decimals = 2, .help = "how far it may fall across", .example = {"0.2", ""}},
	{"across_percent", RT_AT(struct rt_footing_rule, across_percent), FALL("per cent"),
	 .unit = RT_PERCENT, .decimals = 2, .help = "the same in per cent of its width",
	 .example = {"", "1"}},
	{"source", RT_AT(struct rt_footing_rule, source), .type = RT_TEXT, .is = RT_OPTIONAL,
	 .help = "where it stands", .example = {"club rules 3", "club rules 3"}},
};

static const struct rt_footing_rule blank_rule = {
	.along_m = NAN, .along_percent = NAN, .across_m = NAN, .across_percent = NAN};

const struct rt_record rt_footing_rule_record = {
	"footing rule",
	"footing_rules",
	"Footing rules",
	RT_FIELDS(rule_fields),
	.size = sizeof blank_rule,
	.blank = &blank_rule,
	.help = "How far a ring may fall: along and across, each in metres or in per cent.",
};
