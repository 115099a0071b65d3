/* The file of scoring rules.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <string.h>

struct rule_row {
	struct rt_rule rule;
	struct rt__cost cost[RT_ERROR_STEPS];
};

static bool read_scale(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_SCALES(RT__WORD)};

	return rt__is_word(l, "scale", s, rt_scale_read(s, field), words, RT__COUNT(words));
}

static bool read_wins(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_WINS(RT__WORD)};

	return rt__is_word(l, "word", s, rt_wins_read(s, field), words, RT__COUNT(words));
}

static bool read_taken(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_TAKEN(RT__WORD)};

	return rt__is_word(l, "word", s, rt_taken_read(s, field), words, RT__COUNT(words));
}

static bool read_missing(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_MISSINGS(RT__WORD)};

	return rt__is_word(l, "word", s, rt_missing_read(s, field), words, RT__COUNT(words));
}

static bool read_ties(struct rt__load *l, const char *s, void *field)
{
	return rt_tie_steps_read(s, field) ||
	       rt__refuse(l, s, "is no list of tie-breaks",
			  "up to four of general, median, president, judge:B and decision with "
			  "spaces between, each with :3 behind it where only the first three "
			  "places are parted");
}

static const struct rt__column rule_columns[] = {
	{RT__COLUMN("rule", rt__cell_name, struct rule_row, rule.name)},
	{RT__COLUMN("scale", read_scale, struct rule_row, rule.scale)},
	{RT__COLUMN("wins", read_wins, struct rule_row, rule.wins)},
	{RT__COLUMN("base", rt__cell_whole, struct rule_row, rule.base), .low = 0, .high = 1000},
	{RT__COLUMN("judge_decimals", rt__cell_small, struct rule_row, rule.judge_decimals),
	 .low = -1, .high = 3},
	{RT__COLUMN("percent_decimals", rt__cell_small, struct rule_row, rule.percent_decimals),
	 .low = 0, .high = 3},
	{RT__COLUMN("score_decimals", rt__cell_small, struct rule_row, rule.score_decimals),
	 .low = 0, .high = 3},
	{RT__COLUMN("taken", read_taken, struct rule_row, rule.taken)},
	{RT__COLUMN("error_1", rt__cell_cost, struct rule_row, cost[0]), .empty = true},
	{RT__COLUMN("error_2", rt__cell_cost, struct rule_row, cost[1]), .empty = true},
	{RT__COLUMN("error_3", rt__cell_cost, struct rule_row, cost[2]), .empty = true},
	{RT__COLUMN("ties", read_ties, struct rule_row, rule), .empty = true},
	{RT__COLUMN("source", rt__cell_text, struct rule_row, rule.source)},
	{RT__COLUMN("missing", read_missing, struct rule_row, rule.missing), .optional = true},
	{RT__COLUMN("apart", rt__cell_decimal, struct rule_row, rule.apart_x100), .optional = true,
	 .low = 0, .high = RT_APART_MOST_X100 / 100, .digits = 2, .unit = "per cent points"},
	{RT__COLUMN("apart_judges", rt__cell_whole, struct rule_row, rule.apart_judges),
	 .optional = true, .low = 3, .high = 99},
};

static void check_costs(struct rt__load *l, struct rule_row *row)
{
	static const char *const columns[RT_ERROR_STEPS] = {"error_1", "error_2", "error_3"};

	row->rule.error_steps = rt__costs_check(l, row->cost, columns, RT_ERROR_STEPS);
	for (size_t i = 0; i < row->rule.error_steps; i++) {
		row->rule.error[i].amount_x100 = row->cost[i].amount_x100;
		row->rule.error[i].eliminated = row->cost[i].kind == RT__COST_ELIMINATED;
	}
}

static void check_rule(struct rt__load *l, void *data)
{
	struct rule_row *row = data;
	struct rt_error err;

	rt__doubled(l, l->self, "rule", row->rule.name, row->rule.name, "each rule once");
	if (l->row_bad)
		return;
	check_costs(l, row);
	if (!l->row_bad && rt_rule_check(&row->rule, &err) != RT_OK)
		rt__row_fault(l, NULL, "%s", err.text);
}

static void keep_rule(struct rt__load *l, void *data)
{
	const struct rule_row *row = data;
	struct rt_rule *rule = rt_list_add(l->list.at, l->list.n, l->list.cap, sizeof row->rule);

	if (rule)
		*rule = row->rule;
	else
		l->nomem = true;
}

enum rt_err rt_read_rules(struct rt_rules *out, const char *path, struct rt_faults *faults,
			  struct rt_error *err)
{
	static const struct rule_row blank = {.rule.apart_judges = RT_APART_JUDGES};
	static const struct rt__file file = {
		rule_columns, RT__COUNT(rule_columns), sizeof blank, &blank, check_rule, keep_rule};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
