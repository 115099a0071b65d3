/* The judge farthest from the mean of the others, moved to the next score where that is too far.
 *
 * With p a judge's percentage, s the sum of all k, the judge is off by p - (s - p) / (k - 1), and
 * so by p k - s in units of 1 / (k - 1): the farthest below have the lowest percentage, the
 * farthest above the highest.  Others are not looked at, as one who is far off draws the mean of
 * the others away from each of them too.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* The judges who have a percentage, and their sum. */
struct panel {
	int64_t sum, judges;
	int64_t unit;	  /* of a per cent */
	int64_t farthest; /* off, in units of 1 / (judges - 1) */
};

static int64_t off_by(const struct panel *panel, int64_t percent)
{
	return percent * panel->judges - panel->sum;
}

static struct panel panel_of(const struct rt_result *result, size_t judges, int percent_digits)
{
	struct panel panel = {0, 0, rt_power_of_ten(percent_digits), 0};

	for (size_t j = 0; j < judges; j++) {
		panel.sum += result->judge[j].in ? result->judge[j].percent : 0;
		panel.judges += result->judge[j].in;
	}
	for (size_t j = 0; j < judges; j++) {
		int64_t off = off_by(&panel, result->judge[j].percent);

		if (result->judge[j].in && (off < 0 ? -off : off) > panel.farthest)
			panel.farthest = off < 0 ? -off : off;
	}
	return panel;
}

/* -1 too low, 1 too high, 0 neither. */
static int apart(const struct rt_rule *rule, const struct panel *panel, int64_t percent)
{
	int64_t off = off_by(panel, percent);
	int64_t limit = rule->apart_x100 * panel->unit * (panel->judges - 1);

	if (!rule->apart_x100 || panel->judges < RT__APART_JUDGES_LEAST ||
	    panel->farthest * 100 < limit)
		return 0;
	return (off == panel->farthest) - (off == -panel->farthest);
}

int rt__judge_apart(const struct rt_rule *rule, const struct rt_result *result, size_t judges,
		    size_t judge, int percent_digits)
{
	const struct panel panel = panel_of(result, judges, percent_digits);

	return result->judge[judge].in ? apart(rule, &panel, result->judge[judge].percent) : 0;
}

/* The percentage of the nearest judge who is not apart; percent itself where there is none. */
static int64_t next_score(const struct rt_rule *rule, const struct panel *panel,
			  const struct rt_result *result, size_t judges, int64_t percent, int side)
{
	int64_t next = percent;

	for (size_t j = 0; j < judges; j++) {
		int64_t other = result->judge[j].percent;

		if (!result->judge[j].in || apart(rule, panel, other) != 0)
			continue;
		if (next == percent || (side < 0 ? other < next : other > next))
			next = other;
	}
	return next;
}

void rt__move_judges(const struct rt_rule *rule, struct rt_result *result, size_t judges,
		     int percent_digits)
{
	const struct panel panel = panel_of(result, judges, percent_digits);

	for (size_t j = 0; j < judges; j++) {
		struct rt_judge_result *sheet = &result->judge[j];
		int side = sheet->in ? apart(rule, &panel, sheet->percent) : 0;

		sheet->counted = sheet->percent;
		if (side && panel.judges >= rule->apart_judges)
			sheet->counted = next_score(rule, &panel, result, judges, sheet->percent,
						    side);
	}
}
