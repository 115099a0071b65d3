/* The records of a show's own rows: what is known of each column, once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* ---- entries --------------------------------------------------------------------------------- */

static const struct rt_field entry_fields[] = {
	{"id", RT_AT(struct rt_entry, id), .type = RT_INT, .is = RT_OF_SHOW | RT_UNSEEN},
	{"class", RT_AT(struct rt_entry, class_name), .type = RT_NAME, .is = RT_KEY,
	 .help = "the class", .example = {"1", "1"}},
	{"number", .head = "no.", RT_AT(struct rt_entry, number), .type = RT_INT, .is = RT_KEY,
	 .low = 1, .high = RT_NUMBER_MOST, .help = "the number, its own in the class",
	 .example = {"1", "2"}},
	{"driver", RT_AT(struct rt_entry, driver), .type = RT_NAME, .also = "rider",
	 .is = RT_PERSON | RT_SOUGHT, .help = "who drives or rides",
	 .example = {"Ann Ashby", "Bo Birch"}},
	{"horses", RT_AT(struct rt_entry, horses), .type = RT_NAMES, .measure = "horse",
	 .is = RT_SOUGHT, .help = "the horses, semicolons between",
	 .example = {"Comet", "Daisy; Ember"}},
	{"height_cm", RT_AT(struct rt_entry, height_cm), .type = RT_HEIGHT, .decimals = 1,
	 .wide = true, .is = RT_EMPTY, .help = "how high the horse is; empty: not known",
	 .example = {"148", "13.2hh"}},
	{"turnout", RT_AT(struct rt_entry, turnout), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY | RT_SOUGHT, .help = "what is driven: a turnout of the show, or any words",
	 .example = {"single pony", "pair of ponies"}},
	{"groom", RT_AT(struct rt_entry, groom), .type = RT_NAME, .wide = true,
	 .is = RT_EMPTY | RT_PERSON | RT_SOUGHT, .help = "the groom",
	 .example = {"Cy Clay", "Di Dale"}},
	{"club", RT_AT(struct rt_entry, club), .type = RT_NAME, .is = RT_EMPTY | RT_SOUGHT,
	 .help = "the club, stable or nation", .example = {"Ash Valley", "Birch Hill"}},
	{"division", RT_AT(struct rt_entry, division), .type = RT_NAME, .wide = true,
	 .is = RT_OPTIONAL, .help = "the division, placed apart by `results --division`",
	 .example = {"senior", "junior"}},
	{"hors_concours", RT_AT(struct rt_entry, hors_concours), .type = RT_BOOL, .wide = true,
	 .is = RT_OPTIONAL, .help = "yes: scored, but never placed", .example = {"no", "no"}},
	{"status", RT_AT(struct rt_entry, status), .type = RT_WORD, .words = &rt_words_of_status,
	 .is = RT_OF_SHOW, .help = "how the entry stands (scratched: withdrawn)"},
	{"status_why", .head = "why", RT_AT(struct rt_entry, status_why), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "why it stands so"},
	{"status_at", RT_AT(struct rt_entry, status_at), .type = RT_TEXT, .wide = true,
	 .is = RT_OF_SHOW, .help = "since when it stands so"},
	{"status_by", .head = "by", RT_AT(struct rt_entry, status_by), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "who said so"},
	{"entered_at", .head = "entered", RT_AT(struct rt_entry, entered_at), .type = RT_TEXT,
	 .wide = true, .is = RT_OF_SHOW, .help = "when the entry came in", .kept = "entered"},
	{"late", RT_AT(struct rt_entry, late), .type = RT_BOOL, .wide = true, .is = RT_OF_SHOW,
	 .help = "whether it came after entries had closed"},
	{"changes", RT_AT(struct rt_entry, changes), .type = RT_INT, .wide = true, .is = RT_OF_SHOW,
	 .help = "how many changes of it are kept"},
};

static const struct rt_entry blank_entry = {.height_cm = NAN, .status = RT_ENTERED};

const struct rt_record rt_entry_record = {
	"entry",
	"entries",
	"Entries",
	RT_FIELDS(entry_fields),
	.size = sizeof blank_entry,
	.blank = &blank_entry,
	.help = "Who comes with which horses to which class.",
};
