/* The file of articles, and what an error or an article costs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <string.h>

/* ---- costs ----------------------------------------------------------------------------------- */

enum rt_err rt__cell_cost(const struct rt_field *f, void *member, const char *s,
			  struct rt_arena **text, struct rt_error *err)
{
	struct rt__cost *cost = member;
	int64_t amount;

	(void)f;
	(void)text;
	if (strcmp(s, "eliminated") == 0) {
		cost->kind = RT__COST_ELIMINATED;
		return RT_OK;
	}
	if (!rt_parse_decimal(s, 2, &amount) || amount < 0 || amount > 100000)
		return rt_refuse(err, s, "is no cost of an error",
				 "a number from 0 to 1000 with at most 2 decimals, or eliminated");
	cost->kind = RT__COST_AMOUNT;
	cost->amount_x100 = amount;
	return RT_OK;
}

size_t rt__costs_check(struct rt__load *l, const struct rt__cost *cost, const char *const *columns,
		       size_t n)
{
	bool ended = false, eliminated = false;
	size_t steps = 0;

	for (size_t i = 0; i < n; i++) {
		if (cost[i].kind == RT__COST_UNSET) {
			ended = true;
			continue;
		}
		if (ended || eliminated) {
			rt__row_fault(l, columns[i],
				      "a cost after %s: costs from the first error "
				      "on, to the last that is counted",
				      eliminated ? "elimination" : "an empty field");
			break;
		}
		eliminated = cost[i].kind == RT__COST_ELIMINATED;
		steps = i + 1;
	}
	return steps;
}

/* ---- articles -------------------------------------------------------------------------------- */

struct article_row {
	struct rt_article article;
	struct rt__cost cost[RT_ARTICLE_STEPS];
};

static const struct rt_field article_columns[] = {
	{"applies_to", RT_AT(struct article_row, article.applies_to), .type = RT_NAME},
	{"article", RT_AT(struct article_row, article.name), .type = RT_NAME},
	{"what", RT_AT(struct article_row, article.what), .type = RT_TEXT, .is = RT_EMPTY},
	{"amount_1", RT_AT(struct article_row, cost[0]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"amount_2", RT_AT(struct article_row, cost[1]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"amount_3", RT_AT(struct article_row, cost[2]), .type = RT_OWN, .read = rt__cell_cost,
	 .is = RT_EMPTY},
	{"source", RT_AT(struct article_row, article.source), .type = RT_TEXT, .is = RT_EMPTY},
};

struct article_self {
	struct rt_map *seen;
	struct rt__names applies_to;
};

static void check_article(struct rt__load *l, void *data)
{
	static const char *const columns[RT_ARTICLE_STEPS] = {"amount_1", "amount_2", "amount_3"};
	struct article_self *self = l->self;
	struct article_row *row = data;
	struct rt_article *a = &row->article;

	rt__known(l, &self->applies_to, "applies_to", a->applies_to);
	if (a->applies_to && a->name)
		rt__doubled(l, &self->seen, "article", rt__key(l, a->applies_to, a->name), a->name,
			    "each article once");
	if (!rt__fields_sound(l, "amount_1 amount_2 amount_3"))
		return;
	a->steps = rt__costs_check(l, row->cost, columns, RT_ARTICLE_STEPS);
	for (size_t i = 0; i < a->steps; i++) {
		a->step[i].amount_x100 = row->cost[i].amount_x100;
		a->step[i].eliminated = row->cost[i].kind == RT__COST_ELIMINATED;
	}
}

static void keep_article(struct rt__load *l, void *data)
{
	const struct article_row *row = data;
	struct rt_article *a = rt_list_add(l->list.at, l->list.n, l->list.cap, sizeof *a);

	if (a)
		*a = row->article;
	else
		l->nomem = true;
}

enum rt_err rt_read_articles(struct rt_articles *out, const char *path,
			     const struct rt_roster *roster, struct rt_faults *faults,
			     struct rt_error *err)
{
	static const struct article_row blank = {.article.what = ""};
	static const struct rt_record record = {RT_FIELDS(article_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_article, keep_article};
	struct article_self self = {.applies_to = {.what = "discipline or rule"}};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	const struct rt_rules *rules = roster ? roster->rules : NULL;
	enum rt_err rc;

	RT__NAMES_FROM(&self.applies_to, rules);
	rt__names_add(&self.applies_to, rt_discipline_words(RT_RIDDEN));
	rt__names_add(&self.applies_to, rt_discipline_words(RT_DRIVEN));
	rc = rt__load_all(&l, path);
	if (!rc && self.applies_to.nomem)
		rc = rt_fail_nomem(err);
	rt_map_free(self.seen);
	rt__names_free(&self.applies_to);
	return rc;
}
