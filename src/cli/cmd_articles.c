/* rule list and penalty articles: a show's rules as rows, with what each column means, and what its
 * articles cost.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

/* ---- rule list --------------------------------------------------------------------------- */

static const struct rt_field rule_columns[] = {
	{"rule", "rule", RT_TEXT, RT_NO_UNIT, 0, false},
	{"scale", "scale", RT_TEXT, RT_NO_UNIT, 0, false},
	{"wins", "wins", RT_TEXT, RT_NO_UNIT, 0, true},
	{"base", "base", RT_INT, RT_NO_UNIT, 0, true},
	{"judge_decimals", "judge", RT_INT, RT_NO_UNIT, 0, true},
	{"percent_decimals", "percent", RT_INT, RT_NO_UNIT, 0, true},
	{"score_decimals", "score", RT_INT, RT_NO_UNIT, 0, true},
	{"taken", "errors off", RT_TEXT, RT_NO_UNIT, 0, true},
	{"error_1", "1st", RT_TEXT, RT_NO_UNIT, 0, false},
	{"error_2", "2nd", RT_TEXT, RT_NO_UNIT, 0, false},
	{"error_3", "3rd", RT_TEXT, RT_NO_UNIT, 0, false},
	{"ties", "ties", RT_TEXT, RT_NO_UNIT, 0, false},
	{"missing", "empty boxes", RT_TEXT, RT_NO_UNIT, 0, false},
	{"apart", "apart", RT_DECIMAL, RT_NO_UNIT, 0, true},
	{"apart_judges", "of judges", RT_INT, RT_NO_UNIT, 0, true},
	{"source", "source", RT_TEXT, RT_NO_UNIT, 0, true},
};

/* An amount without needless zeros, or the word; the caller says when there is none. */
static void put_amount(struct rt_table *t, bool there, int64_t amount_x100, bool eliminated)
{
	char amount[24];
	int digits = amount_x100 % 100 == 0 ? 0 : amount_x100 % 10 == 0 ? 1 : 2;

	for (int d = digits; d < 2; d++)
		amount_x100 /= 10;
	rt_format_decimal(amount_x100, digits, amount, sizeof amount);
	rt_put_text(t, !there ? NULL : eliminated ? "eliminated" : amount);
}

static void put_rule(struct rt_table *t, const struct rt_rule *r)
{
	char ties[160];

	rt_tie_steps_words(r, ties, sizeof ties);
	rt_put_text(t, r->name);
	rt_put_text(t, rt_scale_words(r->scale));
	rt_put_text(t, rt_wins_words(r->wins));
	rt_put_int(t, r->base);
	rt_put_int(t, r->judge_decimals);
	rt_put_int(t, r->percent_decimals);
	rt_put_int(t, r->score_decimals);
	rt_put_text(t, rt_taken_words(r->taken));
	for (size_t i = 0; i < RT_ERROR_STEPS; i++)
		put_amount(t, i < r->error_steps, r->error[i].amount_x100, r->error[i].eliminated);
	rt_put_text(t, ties);
	rt_put_text(t, rt_missing_words(r->missing));
	rt_put_decimal(t, r->apart_x100, 2);
	rt_put_int(t, r->apart_judges);
	rt_put_text(t, r->source);
}

/* What a person who writes a row of rules.csv needs to know. */
static const struct {
	const char *column, *meaning;
} explained[] = {
	{"rule", "its name; classes and tests name it"},
	{"scale", "percent: a percentage is ranked; penalties: base less a share of it"},
	{"wins", "highest or lowest: which score is first"},
	{"base", "penalties for no point at all (160, 100); 0 under percent"},
	{"judge_decimals", "each judge's percentage is rounded so, then the mean is taken; -1: the "
			   "points of all judges are added, and make one percentage"},
	{"percent_decimals", "of the percentage of all judges together"},
	{"score_decimals", "of the score that is ranked"},
	{"taken", "where errors and penalties come off: points, off every judge's total; percent, "
		  "errors off every judge's percentage and penalties off every total; score, once "
		  "after all else"},
	{"error_1, error_2, error_3",
	 "what each error of course costs, added to those before it; a "
	 "number or eliminated; an error beyond the last costs the "
	 "last again"},
	{"ties", "what parts equal scores, tried in order: general (impression), median (of the "
		 "judges), president, judge:B, decision (of an official); median:3 parts the first "
		 "three places only; what is equal then shares the place"},
	{"missing",
	 "what fills a box whose judge cannot be asked: mean of the sheet's other marks, "
	 "mean-whole (rounded to a whole mark), refuse"},
	{"apart", "the judge farthest from the mean of the others, by so many per cent points or "
		  "more, counts as the next score; 0: never"},
	{"apart_judges", "so many sheets at least for that (7); with fewer it is only told"},
	{"source", "the rulebook, and what is from memory"},
};

static enum rt_err rule_list(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"column", "column", RT_TEXT, RT_NO_UNIT, 0, false},
		{"meaning", "what it means", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_shipped rows = {0};
	struct rt_table *t;
	enum rt_err e = CLI_OLD(c, cli_rows(c, &rows));

	(void)call;
	if (!e) {
		t = rt_report_table(&c->report, "rules", "Rules", rule_columns,
				    sizeof rule_columns / sizeof *rule_columns);
		for (size_t i = 0; i < rows.rules.n; i++)
			put_rule(t, &rows.rules.at[i]);
		t = rt_report_table(&c->report, "columns", "The columns of a rule", columns, 2);
		for (size_t i = 0; i < sizeof explained / sizeof *explained; i++) {
			rt_put_text(t, explained[i].column);
			rt_put_text(t, explained[i].meaning);
		}
		rt_report_note(&c->report,
			       "Check the rulebook in force. A show has rules of its own "
			       "by rule import.");
	}
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_rule_list = {
	.group = "Rows",
	.name = "rule list",
	.args = "",
	.summary = "List the rules of scoring, and what their columns mean.",
	.details = "Of the show where one is given, else those that come with the program.",
	.example = "rule list",
	.old_run = rule_list,
};

/* ---- penalty articles -------------------------------------------------------------------- */

/* The rule of a class, and the discipline of its test's ring; NULL where that is not known. */
struct class_rules {
	struct rt_shipped rows;
	struct rt_class_book book;
	const char *rule, *discipline;
};

static enum rt_err load_class_rules(struct cli *c, const char *class_name, struct class_rules *out)
{
	const struct rt_ring_kind *kind = NULL;
	const char *kind_name;
	enum rt_err e = rt_store_class_book(c->store, class_name, &out->book, &c->err);

	if (!e)
		e = rt_store_shipped(c->store, &out->rows, &c->err);
	if (e)
		return e;
	out->rule = out->book.marks.rule->name;
	kind_name = out->book.marks.test->kind;
	if (kind_name)
		kind = rt_ring_kind_find(&out->rows.kinds, kind_name);
	if (kind)
		out->discipline = rt_discipline_words(kind->discipline);
	return RT_OK;
}

static void free_class_rules(struct class_rules *r)
{
	rt_class_book_free(&r->book);
	rt_shipped_free(&r->rows);
}

static void put_article(struct rt_table *t, const struct rt_article *a)
{
	rt_put_text(t, a->applies_to);
	rt_put_text(t, a->name);
	rt_put_text(t, a->what);
	for (size_t i = 0; i < RT_ARTICLE_STEPS; i++)
		put_amount(t, i < a->steps, a->step[i].amount_x100, a->step[i].eliminated);
	rt_put_text(t, a->source);
}

static enum rt_err penalty_articles(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"applies_to", "for", RT_TEXT, RT_NO_UNIT, 0, false},
		{"article", "article", RT_TEXT, RT_NO_UNIT, 0, false},
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"amount_1", "1st", RT_TEXT, RT_NO_UNIT, 0, false},
		{"amount_2", "2nd", RT_TEXT, RT_NO_UNIT, 0, false},
		{"amount_3", "3rd", RT_TEXT, RT_NO_UNIT, 0, false},
		{"source", "source", RT_TEXT, RT_NO_UNIT, 0, true},
	};
	struct class_rules of = {0};
	struct rt_table *t;
	enum rt_err e;

	if (call->args) {
		e = CLI_OLD(c, cli_store(c, false));
		if (!e)
			e = load_class_rules(c, call->arg[0], &of);
	} else {
		e = CLI_OLD(c, cli_rows(c, &of.rows));
	}
	t = rt_report_table(&c->report, "articles", "Articles", columns, 7);
	for (size_t i = 0; !e && i < of.rows.articles.n; i++)
		if (!call->args ||
		    rt_article_applies(&of.rows.articles.at[i], of.rule, of.discipline))
			put_article(t, &of.rows.articles.at[i]);
	if (!e && rt_table_rows(t))
		rt_report_note(&c->report,
			       "Amounts are points, added or taken off as the rule of the "
			       "class says. Check the rulebook in force.");
	else if (!e)
		rt_report_note(&c->report, "There are no articles: article import brings them in.");
	free_class_rules(&of);
	return e;
}

const struct cli_command cmd_penalty_articles = {
	.group = "Marks",
	.name = "penalty articles",
	.args = "[CLASS]",
	.summary = "List what the rulebook takes for what happens, for penalty add --article.",
	.details = "With a class, only what applies to its rule and its discipline.",
	.example = "--show spring.show penalty articles 1",
	.old_max_args = 1,
	.old_run = penalty_articles,
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
static enum rt_err no_article(struct cli *c, const struct class_rules *of, const char *name)
{
	struct rt_strings names = {0};
	const char *nearest = NULL;

	for (size_t i = 0; i < of->rows.articles.n; i++) {
		const struct rt_article *a = &of->rows.articles.at[i];
		const char **at = rt_article_applies(a, of->rule, of->discipline)
					  ? RT_LIST_ADD(&names)
					  : NULL;

		if (at)
			*at = a->name;
	}
	nearest = rt_nearest(name, names.at, names.n);
	RT_LIST_FREE(&names);
	if (nearest)
		return rt_fail(&c->err, RT_E_NOTFOUND,
			       "there is no article \"%s\" for this class: did you mean \"%s\"?",
			       name, nearest);
	return rt_fail(&c->err, RT_E_NOTFOUND,
		       "there is no article \"%s\" for this class: penalty articles lists them, or "
		       "give --points P or --eliminated",
		       name);
}

enum rt_err cli_article_cost(struct cli *c, const char *class_name, struct rt_penalty *p,
			     bool *eliminated)
{
	struct class_rules of = {0};
	const struct rt_article *a = NULL;
	size_t before = 0;
	enum rt_err e = load_class_rules(c, class_name, &of);

	if (!e) {
		a = rt_article_find(&of.rows.articles, of.rule, of.discipline, p->article);
		e = a ? RT_OK : no_article(c, &of, p->article);
	}
	if (!e) {
		p->article = rt_arena_string(&c->report.text, a->name);
		e = p->article ? RT_OK : rt_fail_nomem(&c->err);
	}
	if (!e) {
		before = times_before(&of.book.penalties, p->number, p->article);
		if (!rt_article_cost(a, before, &p->points_x100, eliminated))
			e = rt_fail(
				&c->err, RT_E_INPUT,
				"\"%s\" is left to an official: give --points P or --eliminated",
				a->name);
	}
	if (!e)
		rt_report_note(&c->report, "%s: time %zu of number %" PRId64 "%s.", p->article,
			       before + 1, p->number,
			       *eliminated	     ? ", which eliminates"
			       : p->points_x100 == 0 ? ", which costs nothing more"
						     : "");
	free_class_rules(&of);
	return e;
}
