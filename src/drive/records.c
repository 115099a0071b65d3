/* The records of levels, gaits and turnouts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/drive.h>

#include <math.h>

/* ---- gaits ----------------------------------------------------------------------------------- */

static const struct rt_field gait_fields[] = {
	{"gait", RT_AT(struct rt_gait, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "what levels and movements call it", .example = {"club trot", "club walk"}},
	{"speed_m_per_s", .head = "m/s", RT_AT(struct rt_gait, speed_m_per_s), .type = RT_REAL,
	 .decimals = 2, .low = 0.1, .high = 20, .measure = "m/s",
	 .help = "the speed of a horse of 165 cm", .example = {"3.2", "1.7"}},
	{"stride_m", .head = "stride", RT_AT(struct rt_gait, stride_m), RT_METRES(2), .low = 0.1,
	 .high = 10, .measure = "m", .help = "the stride of the same horse",
	 .example = {"2.6", "1.85"}},
	{"source", RT_AT(struct rt_gait, source), .type = RT_TEXT, .wide = true,
	 .help = "who measured it", .example = {"our own stopwatch", "our own stopwatch"}},
};

const struct rt_record rt_gait_record = {
	"gait",
	"gaits",
	"Gaits",
	RT_FIELDS(gait_fields),
	.size = sizeof(struct rt_gait),
	.help = "How fast an animal goes.",
};

/* ---- levels ---------------------------------------------------------------------------------- */

static const struct rt_field level_fields[] = {
	{"level", RT_AT(struct rt_level, name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "what tests and classes call it", .example = {"club", "club two"}},
	{"discipline", RT_AT(struct rt_level, discipline), RT_WORD_OF(discipline), .is = RT_KEY,
	 .help = "whose level it is", .example = {"driven", "driven"}},
	{"turn_diameter_m", .head = "diameter", RT_AT(struct rt_level, turn_diameter_m),
	 RT_METRES(1), .low = 1, .high = 100, .measure = "m",
	 .help = "how wide its corners and turns are", .example = {"20", "15"}},
	{"reference_height_cm", RT_AT(struct rt_level, reference_height_cm), .type = RT_HEIGHT,
	 .decimals = 1, .help = "the animal that this diameter is for",
	 .example = {"142.2", "14hh"}},
	{"gait", RT_AT(struct rt_level, gait), .type = RT_NAME,
	 .help = "the gait its turns are timed at", .example = {"club trot", "club trot"}},
};

static const struct rt_level blank_level = {.discipline = RT_NO_DISCIPLINE};

const struct rt_record rt_level_record = {
	"level",
	"levels",
	"Levels",
	RT_FIELDS(level_fields),
	.size = sizeof blank_level,
	.blank = &blank_level,
	.help = "How wide the turns of a level are, and at which gait.",
};

/* ---- turnouts -------------------------------------------------------------------------------- */

#define PART_WIDTH RT_METRES(2), .low = 0.1, .high = 5, .measure = "m"

static const struct rt_field turnout_fields[] = {
	{"turnout", RT_AT(struct rt_turnout_part, turnout), .type = RT_NAME, .is = RT_KEY,
	 .help = "what entries call it", .example = {"pony and cart", "pony and cart"}},
	{"part", RT_AT(struct rt_turnout_part, part), .type = RT_NAME, .is = RT_KEY,
	 .help = "a part of it, from front to back", .example = {"pony", "cart"}},
	{"hitch_m", .head = "hitch", RT_AT(struct rt_turnout_part, hitch_m), RT_METRES(2),
	 .low = -20, .high = 20, .measure = "m",
	 .help = "how far its hitch is behind the axle of the part in front; less than 0: before",
	 .example = {"0", "-0.8"}},
	{"length_m", .head = "length", RT_AT(struct rt_turnout_part, length_m), RT_METRES(2),
	 .low = 0.1, .high = 20, .measure = "m",
	 .help = "from its hitch to its axle; of an animal from fore to hind feet",
	 .example = {"1.1", "2.1"}},
	{"width_m", .head = "width", RT_AT(struct rt_turnout_part, width_m), PART_WIDTH,
	 .help = "how wide it is", .example = {"0.5", "1.4"}},
	{"track_m", .head = "track", RT_AT(struct rt_turnout_part, track_m), PART_WIDTH,
	 .is = RT_OPTIONAL, .help = "from wheel to wheel", .example = {"", "1.3"}},
	{"cog_m", .head = "centre of gravity", RT_AT(struct rt_turnout_part, cog_m), PART_WIDTH,
	 .is = RT_OPTIONAL, .help = "how high its centre of gravity is", .example = {"", "0.8"}},
	{"animals", RT_AT(struct rt_turnout_part, animals), .type = RT_INT, .wide = true,
	 .is = RT_OPTIONAL, .low = 1, .high = 20,
	 .help = "how many animals go there: an entry names as many horses as its turnout has",
	 .example = {"1", ""}},
};

static const struct rt_turnout_part blank_turnout_part = {.track_m = NAN, .cog_m = NAN};

const struct rt_record rt_turnout_part_record = {
	"turnout",
	"turnout_parts",
	"Turnouts",
	RT_FIELDS(turnout_fields),
	.size = sizeof blank_turnout_part,
	.blank = &blank_turnout_part,
	.help = "What is driven: a row a part, from front to back.",
};
