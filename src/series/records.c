/* The records of championships, teams and scales of prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/series.h>

/* ---- championships --------------------------------------------------------------------------- */

#define AT(member) RT_AT(struct rt_championship, member)

static const struct rt_field championship_fields[] = {
	{"championship", AT(name), .type = RT_NAME, .is = RT_KEY, .kept = "name",
	 .help = "what commands call it", .example = {"club", "pairs"}},
	{"title", AT(title), .type = RT_NAME, .help = "as printed",
	 .example = {"Club championship", "Pairs championship"}},
	{"classes", AT(classes), .type = RT_NAMES, .read = rt_text_read,
	 .help = "its classes, semicolons between", .example = {"1; 2", "2"}},
	{"tally", AT(tally), .type = RT_WORD, .words = &rt_words_of_tally, .also = "count",
	 .is = RT_OPTIONAL, .help = "what the classes come to; sum unless given",
	 .example = {"sum", "mean"}},
	{"of", AT(of), .type = RT_WORD, .words = &rt_words_of_tally_of, .is = RT_OPTIONAL,
	 .kept = "taken_of",
	 .help = "of the score that is ranked, or of the per cent; score unless given",
	 .example = {"percent", "score"}},
	{"competitor", AT(by), .type = RT_WORD, .words = &rt_words_of_tally_by, .also = "by",
	 .is = RT_OPTIONAL,
	 .help = "who competes: a driver, or a driver with the same horses; driver unless given",
	 .example = {"driver", "turnout"}},
	{"ties", AT(ties), .type = RT_WORD, .wide = true, .words = &rt_words_of_tally_ties,
	 .is = RT_OPTIONAL,
	 .help = "what parts equal totals: nothing, the best class, the last one",
	 .example = {"best", "equal"}},
	{"dropped", AT(dropped), .type = RT_INT, .low = 0, .high = 1000,
	 .is = RT_OPTIONAL | RT_USUAL, .help = "so many of the worst classes do not count",
	 .example = {"1", "0"}},
};

const struct rt_record rt_championship_record = {
	"championship",
	"championships",
	"Championships",
	RT_FIELDS(championship_fields),
	.size = sizeof(struct rt_championship),
	.help = "Several classes together.",
};

/* ---- teams ----------------------------------------------------------------------------------- */

static const struct rt_field team_fields[] = {
	{"team", RT_AT(struct rt_team_member, team), .type = RT_NAME, .is = RT_KEY,
	 .help = "the team", .example = {"Ash Valley", "Ash Valley"}},
	{"class", RT_AT(struct rt_team_member, class_name), .type = RT_NAME, .is = RT_KEY,
	 .help = "the class of a member", .example = {"1", "1"}},
	{"number", .head = "no.", RT_AT(struct rt_team_member, number), .type = RT_INT,
	 .is = RT_KEY, .low = 1, .high = RT_NUMBER_MOST, .help = "the member's number there",
	 .example = {"1", "2"}},
};

const struct rt_record rt_team_member_record = {
	"team member",
	"team_members",
	"Teams",
	RT_FIELDS(team_fields),
	.size = sizeof(struct rt_team_member),
	.help = "A member of a team: an entry of a class.",
};

/* ---- prizes ---------------------------------------------------------------------------------- */

static const struct rt_field prize_fields[] = {
	{"scale", RT_AT(struct rt_prize_step, scale), .type = RT_NAME, .is = RT_KEY,
	 .help = "what `prize money` calls it", .example = {"club", "club"}},
	{"starters", .head = "from starters", RT_AT(struct rt_prize_step, starters), .type = RT_INT,
	 .is = RT_KEY, .low = 1, .high = RT_STARTERS_MOST, .help = "with so many starters or more",
	 .example = {"1", "1"}},
	{"place", RT_AT(struct rt_prize_step, place), .type = RT_INT, .is = RT_KEY, .low = 1,
	 .high = RT_PLACES_PAID_MOST, .help = "this place is paid", .example = {"1", "2"}},
	{"amount", RT_AT(struct rt_prize_step, amount_x100), .type = RT_DECIMAL, .low = 0,
	 .high = 1e7, .decimals = 2, .kept = "amount_x100", .help = "so much",
	 .example = {"50", "30"}},
};

const struct rt_record rt_prize_step_record = {
	"prize",
	"scales",
	"Scales of prizes",
	RT_FIELDS(prize_fields),
	.size = sizeof(struct rt_prize_step),
	.help = "What a place of a scale is paid.",
};
