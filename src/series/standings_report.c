/* Championships and teams as tables.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/series.h>

#include <stdio.h>
#include <string.h>

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))
#define PARTS_WORDS	 400 /* a longer row of results is cut; the table parts has them all */

#define STANDING_COLUMNS(who, no_horses, no_club)                                                  \
	{                                                                                          \
		{"place", "Place", RT_INT, RT_NO_UNIT, 0, false},                                  \
			{"name", who, RT_TEXT, RT_NO_UNIT, 0, false},                              \
			{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, no_horses},                   \
			{"club", "Club", RT_TEXT, RT_NO_UNIT, 0, no_club},                         \
			{"total", "Total", RT_DECIMAL, RT_NO_UNIT, 0, false},                      \
			{"counted", "Counted", RT_INT, RT_NO_UNIT, 0, false},                      \
			{"results", "Results", RT_TEXT, RT_NO_UNIT, 0, false},                     \
			{"parted_by", "Tie parted by", RT_TEXT, RT_NO_UNIT, 0, true},              \
	}

static const struct rt_field standing_columns[][8] = {
	STANDING_COLUMNS("Team", true, true),
	STANDING_COLUMNS("Driver or rider", true, false),
	STANDING_COLUMNS("Driver or rider", false, true),
};

static void put_value(struct rt_table *t, const struct rt_standings *s, int64_t value_x1000)
{
	rt_put_decimal(t, value_x1000 / rt_power_of_ten(3 - s->decimals), s->decimals);
}

/* "68.125, 70.500, (62.000)": what does not count in brackets. */
static void put_results(struct rt_table *t, const struct rt_standings *s,
			const struct rt_standing *standing)
{
	char words[PARTS_WORDS];
	size_t used = 0;

	words[0] = '\0';
	for (size_t i = 0; i < standing->part.n && used < sizeof words - 40; i++) {
		const struct rt_standing_part *part = &standing->part.at[i];
		char value[32];

		rt_format_decimal(part->value_x1000 / rt_power_of_ten(3 - s->decimals), s->decimals,
				  value, sizeof value);
		used += (size_t)snprintf(words + used, sizeof words - used,
					 part->counts ? "%s%s" : "%s(%s)", i ? ", " : "", value);
	}
	rt_put_text(t, words);
}

/* The mean is shown to the decimals of its values, half up; places go by the exact sum. */
static int64_t shown_total(const struct rt_standings *s, const struct rt_standing *standing,
			   size_t counted)
{
	int64_t unit = rt_power_of_ten(3 - s->decimals);

	if (s->tally == RT_TALLY_MEAN && counted > 0)
		return rt_round_half_up(standing->total_x1000, unit * (int64_t)counted) * unit;
	return standing->total_x1000;
}

static void report_standing(struct rt_report *report, const struct rt_standings *s)
{
	size_t which = !s->championship ? 0 : s->championship->by == RT_BY_DRIVER ? 1 : 2;
	struct rt_table *t = rt_report_table(report, "standing", "Standing",
					     standing_columns[which], COLUMNS(standing_columns[0]));

	for (size_t i = 0; i < s->list.n; i++) {
		const struct rt_standing *x = &s->list.at[i];
		size_t counted = x->part.n < s->kept ? x->part.n : s->kept;

		if (x->place)
			rt_put_int(t, (int64_t)x->place);
		else
			rt_put_null(t);
		rt_put_text(t, x->name);
		rt_put_text(t, x->horses);
		rt_put_text(t, x->club);
		put_value(t, s, shown_total(s, x, counted));
		rt_put_int(t, (int64_t)counted);
		put_results(t, s, x);
		rt_put_text(t, x->parted_by);
	}
}

/* In text the results of a competitor stand in its own line; of a team one wants to know whose. */
#define PART_COLUMNS(wide)                                                                         \
	{                                                                                          \
		{"name", "Name", RT_TEXT, RT_NO_UNIT, 0, wide},                                    \
			{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, wide},                          \
			{"number", "No.", RT_INT, RT_NO_UNIT, 0, wide},                            \
			{"driver", "Driver or rider", RT_TEXT, RT_NO_UNIT, 0, wide},               \
			{"result", "Result", RT_DECIMAL, RT_NO_UNIT, 0, wide},                     \
			{"counts", "Counts", RT_BOOL, RT_NO_UNIT, 0, wide},                        \
	}

static const struct rt_field part_columns[][6] = {PART_COLUMNS(false), PART_COLUMNS(true)};

static void report_parts(struct rt_report *report, const struct rt_standings *s)
{
	struct rt_table *t = rt_report_table(report, "parts", "What it is made of",
					     part_columns[s->championship != NULL],
					     COLUMNS(part_columns[0]));

	for (size_t i = 0; i < s->list.n; i++) {
		for (size_t k = 0; k < s->list.at[i].part.n; k++) {
			const struct rt_standing_part *part = &s->list.at[i].part.at[k];

			rt_put_text(t, s->list.at[i].name);
			rt_put_text(t, s->class_name.at[part->class_]);
			rt_put_int(t, part->number);
			rt_put_text(t, part->driver);
			put_value(t, s, part->value_x1000);
			rt_put_bool(t, part->counts);
		}
	}
}

static void tell(struct rt_report *report, const struct rt_standings *s)
{
	size_t unplaced = 0;

	for (size_t i = 0; i < s->list.n; i++)
		unplaced += s->list.at[i].place == 0;
	if (s->kept == 1)
		rt_report_note(report, "The best result counts%s; the %s wins.",
			       s->of == RT_OF_PERCENT ? ", in per cent" : "",
			       rt_wins_words(s->wins));
	else
		rt_report_note(report, "The %s of the best %zu results counts%s; the %s wins.",
			       rt_tally_words(s->tally), s->kept,
			       s->of == RT_OF_PERCENT ? ", in per cent" : "",
			       rt_wins_words(s->wins));
	if (unplaced)
		rt_report_note(report,
			       "Not placed: %zu with fewer than %zu results (a class where one "
			       "was not placed gives none).",
			       unplaced, s->kept);
	if (!s->complete)
		rt_report_note(report, "Provisional: not every class is added up.");
}

void rt_standings_report(struct rt_report *report, const struct rt_standings *s)
{
	report_standing(report, s);
	report_parts(report, s);
	tell(report, s);
}
