/* The file of articles, and what an error or an article costs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

/* ---- costs ----------------------------------------------------------------------------------- */

size_t rt__costs_check(struct rt__load *l, const struct rt_cost *cost, const char *const *columns,
		       size_t n)
{
	size_t given = rt_costs_given(cost, n);
	bool eliminated = false;

	for (size_t i = 0; i < n; i++) {
		if (cost[i].given && (i >= given || eliminated)) {
			rt__row_fault(l, columns[i],
				      "a cost after %s: costs from the first error "
				      "on, to the last that is counted",
				      eliminated ? "elimination" : "an empty field");
			break;
		}
		eliminated |= cost[i].eliminated;
	}
	return given;
}

/* ---- articles -------------------------------------------------------------------------------- */

struct article_self {
	struct rt_map *seen;
	struct rt__names applies_to;
};

static void check_article(struct rt__load *l, void *data)
{
	static const char *const columns[RT_ARTICLE_STEPS] = {"amount_1", "amount_2", "amount_3"};
	struct article_self *self = l->self;
	struct rt_article *a = data;

	rt__known(l, &self->applies_to, "applies_to", a->applies_to);
	if (a->applies_to && a->name)
		rt__doubled(l, &self->seen, "article", rt__key(l, a->applies_to, a->name), a->name,
			    "each article once");
	if (rt__fields_sound(l, "amount_1 amount_2 amount_3"))
		a->steps = rt__costs_check(l, a->step, columns, RT_ARTICLE_STEPS);
}

enum rt_err rt_read_articles(struct rt_articles *out, const char *path,
			     const struct rt_roster *roster, struct rt_faults *faults,
			     struct rt_error *err)
{
	static const struct rt__file file = {&rt_article_record, check_article, NULL};
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
