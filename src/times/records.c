/* The records of what is asked of times: places of a draw, plans, wishes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <inttypes.h>
#include <stdio.h>

#include "internal.h"

/* ---- times of day, weights ------------------------------------------------------------------- */

static enum rt_err read_time(const struct rt_field *f, void *member, const char *s,
			     struct rt_arena **text, struct rt_error *err)
{
	(void)f;
	(void)text;
	return rt_time_read(s, member) ? RT_OK
				       : rt_refuse(err, s, "is no time of day",
						   "a time of day as 09:05 or 09:05:30, to 24:00");
}

static const char *write_time(const struct rt_field *f, const void *member, char *out, size_t size)
{
	int64_t of_day_s = *(const int64_t *)member;

	(void)f;
	if (of_day_s < 0)
		return NULL;
	rt_time_words(of_day_s, 1, out, size);
	return out;
}

#define TIME .type = RT_OWN, .read = read_time, .write = write_time, .is = RT_OPTIONAL

/* "must", or 1 to 9. */
static enum rt_err read_weight(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	int64_t v = 0;

	(void)f;
	(void)text;
	if (!rt_same_name(s, "must") && (!rt_parse_int(s, &v) || v < 1 || v > RT_WISH_WEIGHT_MOST))
		return rt_refuse(err, s, "is no weight", "must, or a whole number from 1 to 9");
	*(int64_t *)member = v;
	return RT_OK;
}

static const char *write_weight(const struct rt_field *f, const void *member, char *out,
				size_t size)
{
	int64_t weight = *(const int64_t *)member;

	(void)f;
	if (!weight)
		return "must";
	snprintf(out, size, "%" PRId64, weight);
	return out;
}

/* ---- places of a draw ------------------------------------------------------------------------ */

static const struct rt_field fix_fields[] = {
	{"number", .head = "no.", RT_AT(struct rt_draw_fix, number), .type = RT_INT, .is = RT_KEY,
	 .low = 1, .high = RT_NUMBER_MOST, .help = "an entry of the class", .example = {"1", "2"}},
	{"place", RT_AT(struct rt_draw_fix, place), .type = RT_INT, .low = 1,
	 .high = RT_STARTERS_MOST, .help = "where it starts, counted from 1",
	 .example = {"2", "1"}},
};

const struct rt_record rt_draw_fix_record = {
	"fixed place",
	"fixed",
	"Fixed places",
	RT_FIELDS(fix_fields),
	.size = sizeof(struct rt_draw_fix),
	.help = "A place of a draw that is kept for an entry.",
};

/* ---- plan rows ------------------------------------------------------------------------------- */

#define SECONDS(most)                                                                              \
	.type = RT_INT, .low = 1, .high = (most), .measure = "s", .is = RT_OPTIONAL,               \
	.unit = RT_SECOND, .wide = true
#define STARTS .type = RT_INT, .low = 1, .high = 999, .is = RT_OPTIONAL, .wide = true

static const struct rt_field plan_fields[] = {
	{"class", RT_AT(struct rt_plan_row, class_name), .type = RT_NAME, .is = RT_KEY,
	 .help = "the class", .example = {"1", "2"}},
	{"ring", RT_AT(struct rt_plan_row, ring), .type = RT_NAME, .is = RT_OPTIONAL,
	 .help = "the ring; empty: the class's, else any that suits its test", .example = {"", ""}},
	{"day", RT_AT(struct rt_plan_row, day), .type = RT_INT, .low = 1, .high = RT_DAYS_MOST,
	 .is = RT_OPTIONAL, .help = "the day of the show; empty: any", .example = {"1", "1"}},
	{"first", RT_AT(struct rt_plan_row, first_s), TIME,
	 .help = "when it begins; empty: when it suits", .example = {"09:00", ""}},
	{"interval_s", RT_AT(struct rt_plan_row, interval_s), SECONDS(7200),
	 .help = "from start to start; empty: from the test's length", .example = {"480", "480"}},
	{"break_every", RT_AT(struct rt_plan_row, break_every), STARTS,
	 .help = "the judges' break after so many starts", .example = {"12", ""}},
	{"break_after_s", RT_AT(struct rt_plan_row, break_after_s), SECONDS(86400),
	 .help = "or after so much judging", .example = {"", ""}},
	{"break_s", RT_AT(struct rt_plan_row, break_s), SECONDS(14400),
	 .help = "how long the break is", .example = {"900", ""}},
	{"harrow_every", RT_AT(struct rt_plan_row, harrow_every), STARTS,
	 .help = "the ring is harrowed after so many starts", .example = {"", "20"}},
	{"harrow_s", RT_AT(struct rt_plan_row, harrow_s), SECONDS(14400),
	 .help = "how long that takes", .example = {"", "600"}},
	{"order", RT_AT(struct rt_plan_row, order), .type = RT_WORD, .words = &rt_words_of_order,
	 .kept = "start_order", .is = RT_OPTIONAL,
	 .help = "the order that was drawn, or free: what suits", .example = {"drawn", "free"}},
};

static const struct rt_plan_row blank_plan_row = {.first_s = -1, .file = ""};

const struct rt_record rt_plan_row_record = {
	"plan row",
	"plan_rows",
	"Asked of classes",
	RT_FIELDS(plan_fields),
	.size = sizeof blank_plan_row,
	.blank = &blank_plan_row,
	.help = "What is asked of the start times of a class.",
};

/* ---- wishes ---------------------------------------------------------------------------------- */

static const struct rt_field wish_fields[] = {
	{"about", RT_AT(struct rt_wish, about), .type = RT_WORD, .words = &rt_words_of_wish_about,
	 .help = "whom it is about", .example = {"driver", "class"}},
	{"name", RT_AT(struct rt_wish, name), .type = RT_NAME,
	 .help = "the name; of an entry its number", .example = {"Ann Ashby", "2"}},
	{"class", RT_AT(struct rt_wish, class_name), .type = RT_NAME, .is = RT_OPTIONAL,
	 .help = "in this class only; an entry needs it", .example = {"1", ""}},
	{"day", RT_AT(struct rt_wish, day), .type = RT_INT, .low = 1, .high = RT_DAYS_MOST,
	 .is = RT_OPTIONAL, .help = "on this day; with a time: the time holds for this day",
	 .example = {"1", ""}},
	{"not_before", RT_AT(struct rt_wish, not_before_s), TIME,
	 .help = "no start before this time of day", .example = {"10:00", ""}},
	{"over_by", RT_AT(struct rt_wish, not_after_s), TIME,
	 .help = "all is over by this time of day", .example = {"", ""}},
	{"after", RT_AT(struct rt_wish, after), .type = RT_NAME, .is = RT_OPTIONAL,
	 .help = "of a class: the class that is over first", .example = {"", "1"}},
	{"weight", RT_AT(struct rt_wish, weight), .type = RT_OWN, .read = read_weight,
	 .write = write_weight, .is = RT_OPTIONAL | RT_USUAL,
	 .help = "must, or 1 to 9: how much it is wished; must unless given",
	 .example = {"5", "must"}},
};

static const struct rt_wish blank_wish = {.not_before_s = -1, .not_after_s = -1, .file = ""};

const struct rt_record rt_wish_record = {
	"wish",
	"wishes",
	"Wishes",
	RT_FIELDS(wish_fields),
	.size = sizeof blank_wish,
	.blank = &blank_wish,
	.help = "A wish about start times. A carriage is one that entries name as theirs.",
};
