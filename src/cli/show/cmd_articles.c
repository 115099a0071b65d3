/* rule list and penalty articles: a show's rules as rows, with what each column means, and what its
 * articles cost.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <string.h>

/* ---- rule list --------------------------------------------------------------------------- */

struct column_row {
	const char *column, *meaning;
};

static const struct rt_field column_fields[] = {
	{"column", RT_AT(struct column_row, column)},
	{"meaning", .head = "what it means", RT_AT(struct column_row, meaning)},
};

static const struct rt_record column_table = RT_TABLE("columns", "The columns of a rule",
						      column_fields, struct column_row);

static void rule_list(struct cli *c, const void *typed)
{
	const struct rt_rules *rules = &cli_rows(c)->rules;
	struct rt_table *t;

	(void)typed;
	if (!c->err.code) {
		rt_report_list(&c->report, &rt_rule_record, rules->at, rules->n);
		t = rt_report_rows(&c->report, &column_table);
		for (size_t i = 0; i < rt_rule_record.fields; i++)
			rt_put_row(t, &(struct column_row){rt_rule_record.field[i].name,
							   rt_rule_record.field[i].help});
		rt_report_note(&c->report,
			       "Check the rulebook in force. A show has rules of its own "
			       "by rule import.");
	}
}

const struct cli_command cmd_rule_list = {
	.name = "rule list",
	.summary = "List the rules of scoring, and what their columns mean.",
	.details = "Of the show where one is given, else those that come with the program.",
	.example = "rule list",
	.table = {&rt_rule_record, &column_table},
	.run = rule_list,
};

/* ---- penalty articles -------------------------------------------------------------------- */

/* The rule of a class, and the discipline of its test's ring; NULL where that is not known. */
struct class_rules {
	struct rt_class_book book;
	const char *rule, *discipline;
};

static void load_class_rules(struct cli *c, const char *class_name, struct class_rules *out)
{
	const struct rt_ring_kind *kind = NULL;
	const char *kind_name;

	cli_store(c, false);
	CLI_DO(c, rt_store_class_book(c->store, class_name, &out->book, &c->err));
	if (c->err.code)
		return;
	out->rule = out->book.marks.rule->name;
	kind_name = out->book.marks.test->kind;
	if (kind_name)
		kind = rt_ring_kind_find(&cli_rows(c)->kinds, kind_name);
	if (kind)
		out->discipline = rt_discipline_words(kind->discipline);
}

static void penalty_articles(struct cli *c, const void *typed)
{
	const char *class_name = CLI_TYPED(typed);
	struct rt_table *t = rt_report_rows(&c->report, &rt_article_record);
	const struct rt_articles *all = &cli_rows(c)->articles;
	struct class_rules of = {0};

	if (class_name)
		load_class_rules(c, class_name, &of);
	for (size_t i = 0; i < all->n && !c->err.code; i++)
		if (!class_name || rt_article_applies(&all->at[i], of.rule, of.discipline))
			rt_put_row(t, &all->at[i]);
	rt_report_note(&c->report, "%s",
		       rt_table_rows(t) ? "Amounts are points, added or taken off as the rule of "
					  "the class says. Check the rulebook in force."
					: "There are no articles: article import brings them in.");
	rt_class_book_free(&of.book);
}

const struct cli_command cmd_penalty_articles = {
	.name = "penalty articles",
	.summary = "List what the rulebook takes for what happens, for penalty add --article.",
	.details = "With a class, only what applies to its rule and its discipline.",
	.example = "--show spring.show penalty articles 1",
	CLI_OPTIONS(const char *, cli_class_if_any),
	.run = penalty_articles,
};

/* ---- penalty add --article --------------------------------------------------------------- */

/* How many times an article was taken of an entry, less those that were taken back. */
static size_t times_before(const struct rt_penalties *penalties, int64_t number, const char *name)
{
	int64_t times = 0;

	for (size_t i = 0; i < penalties->n; i++) {
		const struct rt_penalty *p = &penalties->at[i];

		if (p->number == number && p->errors < 0 && p->article &&
		    strcmp(p->article, name) == 0)
			times += p->points_x100 < 0 ? -1 : 1;
	}
	return times > 0 ? (size_t)times : 0;
}

/* There is none of that name: say which is nearest. */
static void no_article(struct cli *c, const struct class_rules *of, const char *name)
{
	const struct rt_articles *all = &cli_rows(c)->articles;
	struct rt_strings names = {0};

	for (size_t i = 0; i < all->n; i++)
		if (rt_article_applies(&all->at[i], of->rule, of->discipline))
			CLI_ADD(c, &names, all->at[i].name);
	CLI_DO(c, rt_fail_unknown(&c->err, name, names.at, names.n,
				  "penalty articles lists them, or give --points P or --eliminated",
				  "there is no article \"%s\" for this class", name));
	RT_LIST_FREE(&names);
}

void cli_article_cost(struct cli *c, const char *class_name, struct rt_penalty *p, bool *eliminated)
{
	struct class_rules of = {0};
	const struct rt_article *a = NULL;
	size_t before;

	load_class_rules(c, class_name, &of);
	if (!c->err.code) {
		a = rt_article_find(&cli_rows(c)->articles, of.rule, of.discipline, p->article);
		if (!a)
			no_article(c, &of, p->article);
	}
	if (a) {
		before = times_before(&of.book.penalties, p->number, a->name);
		p->article = rt_arena_string(&c->report.text, a->name);
		if (!p->article)
			CLI_DO(c, rt_fail_nomem(&c->err));
		else if (!rt_article_cost(a, before, &p->points_x100, eliminated))
			CLI_FAIL(c, RT_E_INPUT,
				 "\"%s\" is left to an official: give --points P or --eliminated",
				 a->name);
		else
			rt_report_note(&c->report, "%s: time %zu of number %" PRId64 "%s.", a->name,
				       before + 1, p->number,
				       *eliminated	     ? ", which eliminates"
				       : p->points_x100 == 0 ? ", which costs nothing more"
							     : "");
	}
	rt_class_book_free(&of.book);
}
