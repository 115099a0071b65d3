/* Championships and teams as tables.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define PARTS_WORDS 400 /* a longer row of results is cut; the table parts has them all */

/* A row of either table. */
struct row {
	const struct rt_standing *standing;
	const struct rt_standing_part *part;
	const char *class_name;
	struct rt_exact value;
	size_t counted;
	char results[PARTS_WORDS];
};

#define STANDING(member) RT_IN(struct row, standing, struct rt_standing, member)
#define PART(member)	 RT_IN(struct row, part, struct rt_standing_part, member)

static const struct rt_field standing_fields[] = {
	{"place", .head = "Place", STANDING(place), .type = RT_SIZE, .is = RT_EMPTY},
	{"name", .head = "Driver or rider", STANDING(name)},
	{"horses", .head = "Horses", STANDING(horses), .type = RT_NAMES},
	{"club", .head = "Club", STANDING(club)},
	{"total", .head = "Total", RT_AT(struct row, value), .type = RT_EXACT},
	{"counted", .head = "Counted", RT_AT(struct row, counted), .type = RT_SIZE},
	{"results", .head = "Results", RT_AT(struct row, results), .type = RT_CHARS},
	{"parted_by", .head = "Tie parted by", STANDING(parted_by), .wide = true},
};

static const struct rt_record standing_table = RT_TABLE("standing", "Standing", standing_fields,
							struct row);

/* In text the results of a competitor stand in its own line; of a team one wants to know whose. */
static const struct rt_field part_fields[] = {
	{"name", .head = "Name", STANDING(name)},
	{"class", .head = "Class", RT_AT(struct row, class_name)},
	{"number", .head = "No.", PART(number), .type = RT_INT},
	{"driver", .head = "Driver or rider", PART(driver)},
	{"result", .head = "Result", RT_AT(struct row, value), .type = RT_EXACT},
	{"counts", .head = "Counts", PART(counts), .type = RT_BOOL},
};

static const struct rt_record parts_table = RT_TABLE("parts", "What it is made of", part_fields,
						     struct row);

const struct rt_record *const rt_series_tables[] = {&standing_table, &parts_table,
						    &rt__prizes_table, &rt__prize_sum_table, NULL};

static struct rt_exact value_of(const struct rt_standings *s, int64_t value)
{
	return rt_exact(value / rt_power_of_ten(RT_STANDING_DECIMALS - s->decimals), s->decimals);
}

/* "68.125, 70.500, (62.000)": what does not count in brackets. */
static void results_words(char words[PARTS_WORDS], const struct rt_standings *s,
			  const struct rt_standing *standing)
{
	bool room = true;

	words[0] = '\0';
	for (size_t i = 0; i < standing->part.n && room; i++) {
		const struct rt_standing_part *part = &standing->part.at[i];
		struct rt_exact exact = value_of(s, part->value);
		char value[32];

		rt_format_decimal(exact.units, exact.digits, value, sizeof value);
		room = rt_append(words, PARTS_WORDS, part->counts ? "%s%s" : "%s(%s)",
				 i ? ", " : "", value);
	}
}

/* The mean is shown to the decimals of its values, half up; places go by the exact sum. */
static int64_t shown_total(const struct rt_standings *s, const struct rt_standing *standing,
			   size_t counted)
{
	int64_t unit = rt_power_of_ten(RT_STANDING_DECIMALS - s->decimals);

	if (s->tally == RT_TALLY_MEAN && counted > 0)
		return rt_round_half_up(standing->total, unit * (int64_t)counted) * unit;
	return standing->total;
}

static void report_standing(struct rt_report *report, const struct rt_standings *s)
{
	struct rt_table *t = rt_report_rows(report, &standing_table);
	const struct rt_championship *of = s->championship;

	if (!of)
		rt_table_head(t, "name", "Team");
	rt_table_show(t, "horses", of && of->by == RT_BY_TURNOUT);
	rt_table_show(t, "club", of && of->by == RT_BY_DRIVER);
	for (size_t i = 0; i < s->list.n; i++) {
		const struct rt_standing *x = &s->list.at[i];
		struct row row = {
			.standing = x,
			.counted = x->part.n < s->kept ? x->part.n : s->kept,
		};

		row.value = value_of(s, shown_total(s, x, row.counted));
		results_words(row.results, s, x);
		rt_put_row(t, &row);
	}
}

static void report_parts(struct rt_report *report, const struct rt_standings *s)
{
	struct rt_table *t = rt_report_rows(report, &parts_table);

	for (size_t i = 0; s->championship && i < parts_table.fields; i++)
		rt_table_show(t, part_fields[i].name, false);
	for (size_t i = 0; i < s->list.n; i++) {
		struct row row = {.standing = &s->list.at[i]};

		for (size_t k = 0; k < row.standing->part.n; k++) {
			row.part = &row.standing->part.at[k];
			row.class_name = s->class_name.at[row.part->class_];
			row.value = value_of(s, row.part->value);
			rt_put_row(t, &row);
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
			       s->of == RT_OF_PERCENT ? ", in per cent after penalties" : "",
			       rt_wins_words(s->wins));
	else
		rt_report_note(report, "The %s of the best %zu results counts%s; the %s wins.",
			       rt_tally_words(s->tally), s->kept,
			       s->of == RT_OF_PERCENT ? ", in per cent after penalties" : "",
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
