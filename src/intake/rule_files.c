/* The file of scoring rules.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <string.h>

struct rule_row {
	struct rt_rule rule;
	struct rt__cost cost[RT_ERROR_STEPS];
};

static enum rt_err read_ties(const struct rt_field *f, void *member, const char *s,
			     struct rt_arena **text, struct rt_error *err)
{
	(void)f;
	(void)text;
	return rt_tie_steps_read(s, member)
		       ? RT_OK
		       : rt_refuse(err, s, "is no list of tie-breaks",
				   "up to four of general, median, president, judge:B and decision "
				   "with spaces between, each with :3 behind it where only the "
				   "first three places are parted");
}

static const struct rt_field rule_columns[] = {
	{"rule", RT_AT(struct rule_row, rule.name), .type = RT_NAME},
	{"scale", RT_AT(struct rule_row, rule.scale), .type = RT_WORD, .words = &rt_words_of_scale},
	{"wins", RT_AT(struct rule_row, rule.wins), .type = RT_WORD, .words = &rt_words_of_wins},
	{"base", RT_AT(struct rule_row, rule.base), .type = RT_INT, .low = 0, .high = 1000},
	{"judge_decimals", RT_AT(struct rule_row, rule.judge_decimals), .type = RT_SMALL, .low = -1,
	 .high = 3},
	{"percent_decimals", RT_AT(struct rule_row, rule.percent_decimals), .type = RT_SMALL,
	 .low = 0, .high = 3},
	{"score_decimals", RT_AT(struct rule_row, rule.score_decimals), .type = RT_SMALL, .low = 0,
	 .high = 3},
	{"taken", RT_AT(struct rule_row, rule.taken), .type = RT_WORD, .words = &rt_words_of_taken},
	{"error_1", RT_AT(struct rule_row, cost[0]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"error_2", RT_AT(struct rule_row, cost[1]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"error_3", RT_AT(struct rule_row, cost[2]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"ties", RT_AT(struct rule_row, rule), .type = RT_OWN, .read = read_ties, .is = RT_EMPTY},
	{"source", RT_AT(struct rule_row, rule.source), .type = RT_TEXT},
	{"missing", RT_AT(struct rule_row, rule.missing), .type = RT_WORD,
	 .words = &rt_words_of_missing, .is = RT_OPTIONAL},
	{"apart", RT_AT(struct rule_row, rule.apart_x100), .type = RT_DECIMAL, .is = RT_OPTIONAL,
	 .low = 0, .high = RT_APART_MOST_X100 / 100, .decimals = 2, .measure = "per cent points"},
	{"apart_judges", RT_AT(struct rule_row, rule.apart_judges), .type = RT_INT,
	 .is = RT_OPTIONAL, .low = 3, .high = 99},
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
	static const struct rt_record record = {RT_FIELDS(rule_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_rule, keep_rule};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
