/* The articles of a rulebook: found by name, and what they cost each time.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

size_t rt_costs_given(const struct rt_cost *cost, size_t n)
{
	size_t given = 0;

	while (given < n && cost[given].given)
		given++;
	return given;
}

bool rt_article_applies(const struct rt_article *article, const char *rule, const char *discipline)
{
	const char *to = article->applies_to;

	if (rule && strcmp(to, rule) == 0)
		return true;
	if (discipline)
		return strcmp(to, discipline) == 0;
	return strcmp(to, "ridden") == 0 || strcmp(to, "driven") == 0;
}

const struct rt_article *rt_article_find(const struct rt_articles *articles, const char *rule,
					 const char *discipline, const char *name)
{
	const struct rt_article *found = NULL;

	for (size_t i = 0; i < articles->n; i++) {
		const struct rt_article *a = &articles->at[i];

		if (!rt_article_applies(a, rule, discipline) || !rt_same_name(a->name, name))
			continue;
		if (rule && strcmp(a->applies_to, rule) == 0)
			return a;
		if (!found)
			found = a;
	}
	return found;
}

bool rt_article_cost(const struct rt_article *article, size_t before, int64_t *amount_x100,
		     bool *eliminated)
{
	size_t steps = rt_costs_given(article->step, RT_ARTICLE_STEPS);
	size_t step = before < steps ? before : steps - 1;

	if (steps == 0)
		return false;
	*amount_x100 = article->step[step].amount_x100;
	*eliminated = article->step[step].eliminated;
	return true;
}
