/* Posted results as tables of a paper: the placed of each division, and the others.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

#define JUDGES_BYTES 2000 /* longer lists of judges are cut */

/* A space that does not end a line. */
#define NO_BREAK "\xC2\xA0"

struct row {
	const struct rt_posted *posted;
	const char *judges, *percent, *state;
};

#define POSTED(member) RT_IN(struct row, posted, struct rt_posted, member)

static const struct rt_field placed_fields[] = {
	{"place", .head = "Place", POSTED(place), .type = RT_SIZE},
	{"number", .head = "No.", POSTED(number), .type = RT_INT},
	{"driver", .head = "Driver or rider", POSTED(driver)},
	{"horses", .head = "Horses", POSTED(horses), .type = RT_NAMES},
	{"club", .head = "Club", POSTED(club)},
	{"judges", .head = "Judges", RT_AT(struct row, judges)},
	{"technical", .head = "Technical", POSTED(technical)},
	{"artistic", .head = "Artistic", POSTED(artistic)},
	{"added", .head = "Penalties", POSTED(added)},
	{"off", .head = "Points off", POSTED(off)},
	{"percent", .head = "%", RT_AT(struct row, percent)},
	{"score", .head = "Score", POSTED(score)},
};

static const struct rt_record placed_table = RT_TABLE("placed", "Placed", placed_fields,
						      struct row);

static const struct rt_field other_fields[] = {
	{"number", .head = "No.", POSTED(number), .type = RT_INT},
	{"driver", .head = "Driver or rider", POSTED(driver)},
	{"horses", .head = "Horses", POSTED(horses), .type = RT_NAMES},
	{"status", .head = "Status", RT_AT(struct row, state)},
	{"added", .head = "Penalties", POSTED(added)},
	{"off", .head = "Points off", POSTED(off)},
	{"score", .head = "Score", POSTED(score)},
};

static const struct rt_record others_table = RT_TABLE("others", "Not placed", other_fields,
						      struct row);

/* "C 172.5 (2) B 180 (1)": points and place by each judge whose sheet is in. */
static void judges_words(const struct rt_posting *posting, const struct rt_posted *posted,
			 char words[JUDGES_BYTES])
{
	bool room = true;

	words[0] = '\0';
	for (size_t i = 0; i < posting->sheets.n && room; i++) {
		const struct rt_posted_sheet *sheet = &posting->sheets.at[i];

		if (sheet->entry != posted->entry)
			continue;
		room = rt_append(words, JUDGES_BYTES, "%s%.16s" NO_BREAK "%s", *words ? " " : "",
				 sheet->position, sheet->points);
		if (sheet->place)
			rt_append(words, JUDGES_BYTES, NO_BREAK "(%zu)", sheet->place);
	}
}

static void put_placed(struct rt_table *t, const struct rt_posting *posting,
		       const struct rt_posted *posted)
{
	char judges[JUDGES_BYTES];
	struct row row = {
		.posted = posted,
		.judges = judges,
		.percent = strcmp(posting->unit, "%") == 0 ? NULL : posted->percent,
	};

	judges_words(posting, posted, judges);
	rt_put_row(t, &row);
}

/* Who was sent out or left has no score to be read, nor what was taken off it. */
static void put_other(struct rt_report *report, struct rt_table *t, const struct rt_posted *posted)
{
	struct rt_posted shown = *posted;
	struct row row = {
		.posted = &shown,
		.state = rt_report_textf(report, "%s%s%s", posted->status, posted->why ? ": " : "",
					 posted->why ? posted->why : ""),
	};
	int status;

	if (rt_word_read(&rt_words_of_status, posted->status, &status) && status != RT_ENTERED)
		shown.score = shown.added = shown.off = NULL;
	rt_put_row(t, &row);
}

static void put_all_placed(struct rt_report *report, const struct rt_posting *posting)
{
	struct rt_table *t = NULL;
	const struct rt_posted *before = NULL;

	for (size_t i = 0; i < posting->places.n; i++) {
		const struct rt_posted *posted = &posting->places.at[i];

		if (!posted->place)
			continue;
		if (!before || !rt_posted_together(before, posted))
			t = rt_report_rows(report, &placed_table);
		if (posted->division)
			rt_table_title(t, posted->division);
		put_placed(t, posting, posted);
		before = posted;
	}
}

void rt_posting_paper(struct rt_report *report, const struct rt_posting *posting)
{
	struct rt_table *others = NULL;

	put_all_placed(report, posting);
	for (size_t i = 0; i < posting->places.n; i++) {
		if (posting->places.at[i].place)
			continue;
		if (!others)
			others = rt_report_rows(report, &others_table);
		put_other(report, others, &posting->places.at[i]);
	}
}
