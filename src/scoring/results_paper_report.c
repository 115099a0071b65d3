/* Results as the tables of a paper that is put up: the placed of each division, and the others.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))
#define JUDGES_BYTES	 2000

/* A space that does not end a line. */
#define NO_BREAK "\xC2\xA0"

static const struct rt_field placed_columns[] = {
	{"place", "Place", RT_INT, RT_NO_UNIT, 0, false},
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"driver", "Driver or rider", RT_TEXT, RT_NO_UNIT, 0, false},
	{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, false},
	{"club", "Club", RT_TEXT, RT_NO_UNIT, 0, false},
	{"judges", "Judges", RT_TEXT, RT_NO_UNIT, 0, false},
	{"added", "Penalties", RT_DECIMAL, RT_NO_UNIT, 0, false},
	{"percent", "%", RT_DECIMAL, RT_PERCENT, 0, false},
	{"score", "Score", RT_DECIMAL, RT_NO_UNIT, 0, false},
};

static const struct rt_field other_columns[] = {
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"driver", "Driver or rider", RT_TEXT, RT_NO_UNIT, 0, false},
	{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, false},
	{"status", "Status", RT_TEXT, RT_NO_UNIT, 0, false},
	{"score", "Score", RT_DECIMAL, RT_NO_UNIT, 0, false},
};

/* "C 172.5 (2) B 180 (1)": points and place by each judge whose sheet is in. */
static void put_judges(struct rt_table *t, const struct rt_results *r,
		       const struct rt_result *result)
{
	char words[JUDGES_BYTES], points[32];
	size_t used = 0;

	words[0] = '\0';
	for (size_t j = 0; j < r->of->class_->judges.n && used < sizeof words - 100; j++) {
		const struct rt_judge_result *sheet = &result->judge[j];
		int digits = rt_digits_needed(sheet->points_x10000, 4, 1);

		if (!sheet->in)
			continue;
		rt_format_decimal(sheet->points_x10000 / rt_power_of_ten(4 - digits), digits,
				  points, sizeof points);
		used += (size_t)snprintf(words + used, sizeof words - used, "%s%.16s" NO_BREAK "%s",
					 used ? " " : "", r->of->class_->judges.at[j].position,
					 points);
		if (sheet->place)
			used += (size_t)snprintf(words + used, sizeof words - used,
						 NO_BREAK "(%zu)", sheet->place);
	}
	rt_put_text(t, words);
}

static void put_decimal_if(struct rt_table *t, bool there, int64_t units, int digits)
{
	if (there)
		rt_put_decimal(t, units, digits);
	else
		rt_put_null(t);
}

static void put_placed(struct rt_table *t, const struct rt_results *r,
		       const struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;
	bool apart = rule->taken == RT_TAKEN_PERCENT;
	int64_t added = apart ? result->error_x100 : result->penalty_x100;
	int digits = rt_digits_needed(added, 2, 0);

	rt_put_int(t, (int64_t)result->place);
	rt_put_int(t, result->entry->number);
	rt_put_text(t, result->entry->driver);
	rt_put_text(t, result->entry->horses);
	rt_put_text(t, result->entry->club);
	put_judges(t, r, result);
	put_decimal_if(t, added != 0, added / rt_power_of_ten(2 - digits), digits);
	put_decimal_if(t, rule->scale == RT_PENALTY_SCALE, result->percent, rule->percent_decimals);
	rt_put_decimal(t, result->score, rule->score_decimals);
}

static void put_other(struct rt_table *t, const struct rt_results *r,
		      const struct rt_result *result)
{
	rt_put_int(t, result->entry->number);
	rt_put_text(t, result->entry->driver);
	rt_put_text(t, result->entry->horses);
	if (result->status_why && *result->status_why)
		rt_put_textf(t, "%s: %s", rt_result_words(result), result->status_why);
	else
		rt_put_text(t, rt_result_words(result));
	put_decimal_if(t, result->scored && result->status == RT_ENTERED, result->score,
		       r->of->rule->score_decimals);
}

void rt_results_paper(struct rt_report *report, const struct rt_results *r)
{
	struct rt_table *t = NULL;

	for (size_t i = 0; i < r->n; i++) {
		if (!r->at[i].place)
			continue;
		if (!t || !rt_same_division(&r->at[i], &r->at[i - 1]))
			t = rt_report_table(report, "placed",
					    r->at[i].division ? r->at[i].division : "Placed",
					    placed_columns, COLUMNS(placed_columns));
		put_placed(t, r, &r->at[i]);
	}
	t = NULL;
	for (size_t i = 0; i < r->n; i++) {
		if (r->at[i].place)
			continue;
		if (!t)
			t = rt_report_table(report, "others", "Not placed", other_columns,
					    COLUMNS(other_columns));
		put_other(t, r, &r->at[i]);
	}
}
