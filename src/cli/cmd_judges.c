/* mark missing, judge away and tie decide: what is said of a class's judges and ties.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"
#include "times.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

/* ---- what they share --------------------------------------------------------------------- */

/* A class, what is said of it, and by whom. */
struct saying {
	const struct cli_call *call;
	struct rt_class_book book;
	struct rt_reason said;
	bool undo;
};

static enum rt_err saying_read(struct cli *c, const struct cli_call *call, struct saying *s)
{
	enum rt_err e;

	s->call = call;
	s->said = (struct rt_reason){cli_option(call, "by"), cli_option(call, "why"), c->when};
	s->undo = cli_option(call, "undo") != NULL;
	e = cli_text(c, "--by", s->said.who, RT_NAME_MOST, true);
	if (!e)
		e = cli_text(c, "--why", s->said.why, CLI_TEXT_MOST, true);
	return e ? e : CLI_OLD(c, cli_store(c, true));
}

static enum rt_err saying_load(struct cli *c, struct saying *s)
{
	return rt_store_class_book(c->store, s->call->arg[0], &s->book, &c->err);
}

static enum rt_err entry_of(struct cli *c, const struct saying *s, const char *typed, size_t *out)
{
	const struct rt_entries *entries = &s->book.entries;
	int64_t number = 0;
	enum rt_err e = cli_whole(c, "number", typed, 1, 99999, &number);

	for (*out = 0; !e && *out < entries->n; ++*out)
		if (entries->at[*out].number == number)
			return RT_OK;
	return e ? e
		 : rt_fail(&c->err, RT_E_NOTFOUND, "there is no entry %" PRId64 " in class %s",
			   number, s->call->arg[0]);
}

static enum rt_err judge_of(struct cli *c, const struct saying *s, const char *position,
			    size_t *out)
{
	const struct rt_judges *judges = &s->book.marks.class_->judges;
	char words[300];

	for (*out = 0; *out < judges->n; ++*out)
		if (strcmp(judges->at[*out].position, position) == 0)
			return RT_OK;
	rt_judges_words(judges, words, sizeof words);
	return rt_fail(&c->err, RT_E_NOTFOUND, "there is no judge at %s in class %s: %s", position,
		       s->call->arg[0], words);
}

static enum rt_err item_of(struct cli *c, const struct saying *s, const char *name, size_t *out)
{
	const struct rt_items *items = &s->book.items;

	for (*out = 0; *out < items->n; ++*out)
		if (strcmp(items->at[*out].name, name) == 0)
			return RT_OK;
	return rt_fail(&c->err, RT_E_NOTFOUND, "test %s has no item %s", s->book.marks.test->name,
		       name);
}

#define SAID_BY                                                                                    \
	{"by", "NAME", "who says so", true},                                                       \
	{                                                                                          \
		"why", "TEXT", "why", true                                                         \
	}

/* ---- mark missing ------------------------------------------------------------------------ */

static enum rt_err may_be_missing(struct cli *c, const struct saying *s, size_t entry, size_t judge,
				  size_t item)
{
	const struct rt_class_marks *m = &s->book.marks;
	const struct rt_box *box = rt_class_marks_box(m, entry, judge, item);

	if (s->undo && !box->missing)
		return rt_fail(&c->err, RT_E_INPUT, "nobody said that this mark is missing");
	if (s->undo)
		return RT_OK;
	if (m->rule->missing == RT_MISSING_REFUSE)
		return rt_fail(
			&c->err, RT_E_INPUT,
			"rule %s fills no empty box (its column missing says refuse): ask the "
			"judge, or the rulebook",
			m->rule->name);
	if (box->keyed_x10[0] >= 0 || box->keyed_x10[1] >= 0)
		return rt_fail(&c->err, RT_E_INPUT,
			       "number %" PRId64
			       ", judge %s, item %s has a mark: it is not missing",
			       m->entries->at[entry].number, cli_option(s->call, "judge"),
			       m->items->at[item].name);
	return RT_OK;
}

static void report_missing(struct cli *c, const struct saying *s, size_t entry, size_t item)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"item", "item", RT_TEXT, RT_NO_UNIT, 0, false},
		{"missing", "missing", RT_BOOL, RT_NO_UNIT, 0, false},
		{"filled_with", "filled with", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "missing", "Missing mark", columns,
					     sizeof columns / sizeof *columns);

	rt_put_text(t, s->call->arg[0]);
	rt_put_int(t, s->book.entries.at[entry].number);
	rt_put_text(t, cli_option(s->call, "judge"));
	rt_put_text(t, s->book.items.at[item].name);
	rt_put_bool(t, !s->undo);
	rt_put_text(t, s->undo ? NULL : rt_missing_words(s->book.marks.rule->missing));
	rt_put_text(t, s->said.why);
}

static enum rt_err put_missing(struct cli *c, struct saying *s)
{
	size_t entry, judge = 0, item = 0;
	enum rt_err e = saying_load(c, s);

	if (!e)
		e = entry_of(c, s, s->call->arg[1], &entry);
	if (!e)
		e = judge_of(c, s, cli_option(s->call, "judge"), &judge);
	if (!e)
		e = item_of(c, s, cli_option(s->call, "item"), &item);
	if (!e)
		e = may_be_missing(c, s, entry, judge, item);
	if (!e)
		e = rt_store_missing_put(c->store, s->book.entries.at[entry].id,
					 s->book.marks.class_->judges.at[judge].id,
					 s->book.items.at[item].id, !s->undo, &s->said, &c->err);
	if (!e)
		report_missing(c, s, entry, item);
	return e ? e : CLI_OLD(c, cli_note_posted(c, s->call->arg[0]));
}

static enum rt_err mark_missing(struct cli *c, const struct cli_call *call)
{
	struct saying s = {0};
	enum rt_err e = saying_read(c, call, &s);

	if (!e)
		e = put_missing(c, &s);
	rt_class_book_free(&s.book);
	return e;
}

const struct cli_command cmd_mark_missing = {
	.group = "Marks",
	.name = "mark missing",
	.args = "CLASS NUMBER --judge P --item I --by NAME --why TEXT",
	.summary = "Say that a box stays empty as its judge cannot be asked.",
	.details =
		"Ask the judge first. The rule's column missing says what fills the box: mean, the mean\n"
		"of the sheet's other marks; mean-whole, that rounded to a whole mark; refuse, nothing.\n"
		"The results say which boxes were filled. A mark that is keyed after all counts instead;\n"
		"--undo takes the word back.",
	.example =
		"--show spring.show mark missing 9 7 --judge C --item 3 --by \"Office\" --why \"the judge has left\"",
	.old_option = {{"judge", "P", "the judge's position", true},
		       {"item", "I", "the item of the test", true},
		       SAID_BY,
		       {"undo", NULL, "it is not missing after all", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = mark_missing,
};

/* ---- judge away -------------------------------------------------------------------------- */

/* The entries that are meant, as flags by their places in the list. */
static enum rt_err read_numbers(struct cli *c, const struct saying *s, const char *typed,
				bool *meant)
{
	char *list = strdup(typed), *rest = NULL;
	enum rt_err e = list ? RT_OK : rt_fail_nomem(&c->err);
	size_t entry;

	for (char *word = list ? strtok_r(list, ", ", &rest) : NULL; word && !e;
	     word = strtok_r(NULL, ", ", &rest)) {
		e = entry_of(c, s, word, &entry);
		if (!e)
			meant[entry] = true;
	}
	free(list);
	return e;
}

/* This entry, and all that start after it. */
static enum rt_err read_from(struct cli *c, const struct saying *s, const char *from, bool *meant)
{
	int64_t *rank = calloc(s->book.entries.n + 1, sizeof *rank);
	size_t first = 0;
	const char *by;
	enum rt_err e = rank ? entry_of(c, s, from, &first) : rt_fail_nomem(&c->err);

	if (!e)
		e = cli_rank_starts(c, s->call->arg[0], &s->book.entries, rank, &by);
	for (size_t i = 0; !e && i < s->book.entries.n; i++)
		meant[i] = rank[i] >= rank[first];
	if (!e)
		rt_report_note(&c->report, "From number %s on in the order of %s.", from, by);
	free(rank);
	return e;
}

static enum rt_err read_meant(struct cli *c, const struct saying *s, bool *meant)
{
	const char *from = cli_option(s->call, "from"), *number = cli_option(s->call, "number");

	if (number)
		return read_numbers(c, s, number, meant);
	if (from)
		return read_from(c, s, from, meant);
	for (size_t i = 0; i < s->book.entries.n; i++)
		meant[i] = true;
	return RT_OK;
}

static enum rt_err put_each(struct cli *c, const struct saying *s, const bool *meant,
			    struct cli_names *names)
{
	const struct rt_class_marks *m = &s->book.marks;
	char number[24];
	size_t judge;
	enum rt_err e = judge_of(c, s, s->call->arg[1], &judge);

	for (size_t i = 0; !e && i < m->entries->n; i++) {
		if (!meant[i] || m->lines[i * m->class_->judges.n + judge].away == !s->undo)
			continue;
		e = rt_store_away_put(c->store, m->entries->at[i].id,
				      m->class_->judges.at[judge].id, !s->undo, &s->said, &c->err);
		snprintf(number, sizeof number, "%" PRId64, m->entries->at[i].number);
		cli_name(names, number);
	}
	return e;
}

static void report_away(struct cli *c, const struct saying *s, const struct cli_names *names)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"judge", "judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"away", "away", RT_BOOL, RT_NO_UNIT, 0, false},
		{"sheets", "sheets", RT_INT, RT_NO_UNIT, 0, false},
		{"numbers", "numbers", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "away", "Judge away", columns,
					     sizeof columns / sizeof *columns);

	rt_put_text(t, s->call->arg[0]);
	rt_put_text(t, s->call->arg[1]);
	rt_put_bool(t, !s->undo);
	rt_put_int(t, (int64_t)names->n);
	rt_put_text(t, names->n ? names->text : NULL);
	rt_put_text(t, s->said.why);
	if (!names->n)
		rt_report_note(&c->report, "Nothing was kept: it was said of all of them before.");
	else if (!s->undo)
		rt_report_note(&c->report, "These sheets are not expected, and count for nothing: "
					   "the scores are over the judges that are left.");
}

/* Say for whom nobody sits there any more, now that the judge at this position is away too. */
static void note_nobody_left(struct cli *c, const struct saying *s, const bool *meant)
{
	const struct rt_class_marks *m = &s->book.marks;
	size_t judges = m->class_->judges.n;
	struct cli_names alone = {0};
	char number[24];

	for (size_t i = 0; i < m->entries->n && !s->undo; i++) {
		size_t others = 0;

		for (size_t j = 0; j < judges; j++)
			others += strcmp(m->class_->judges.at[j].position, s->call->arg[1]) != 0 &&
				  !m->lines[i * judges + j].away;
		if (!meant[i] || others || m->entries->at[i].status != RT_ENTERED)
			continue;
		snprintf(number, sizeof number, "%" PRId64, m->entries->at[i].number);
		cli_name(&alone, number);
	}
	if (alone.n)
		rt_report_note(&c->report,
			       "No judge is left for number%s %s: without a sheet "
			       "there is no score.",
			       alone.n == 1 ? "" : "s", alone.text);
	c->report.needs_person |= alone.n > 0;
}

static enum rt_err put_away(struct cli *c, struct saying *s)
{
	struct cli_names names = {0};
	bool *meant = NULL;
	enum rt_err e = saying_load(c, s);

	if (e)
		return e;
	meant = calloc(s->book.entries.n + 1, sizeof *meant);
	if (!meant)
		return rt_fail_nomem(&c->err);
	e = read_meant(c, s, meant);
	if (!e)
		e = put_each(c, s, meant, &names);
	if (!e)
		report_away(c, s, &names);
	if (!e)
		note_nobody_left(c, s, meant);
	if (!e && names.n)
		e = CLI_OLD(c, cli_note_posted(c, s->call->arg[0]));
	free(meant);
	return e;
}

static enum rt_err judge_away(struct cli *c, const struct cli_call *call)
{
	struct saying s = {0};
	int ways = (cli_option(call, "all") != NULL) + (cli_option(call, "from") != NULL) +
		   (cli_option(call, "number") != NULL);
	enum rt_err e;

	if (ways != 1)
		return rt_fail(&c->err, RT_E_USAGE,
			       "judge away wants one of --all, --from NUMBER, --number N");
	e = saying_read(c, call, &s);
	if (!e)
		e = put_away(c, &s);
	rt_class_book_free(&s.book);
	return e;
}

const struct cli_command cmd_judge_away = {
	.group = "Marks",
	.name = "judge away",
	.args = "CLASS POSITION (--all | --from NUMBER | --number N,...) --by NAME --why TEXT",
	.summary = "Say that a judge was away, for all of a class or for some of it.",
	.details =
		"Those sheets are neither expected nor counted, whatever is keyed of them; the scores\n"
		"are over the judges that are left, and the results say so. --from means this entry and\n"
		"all that start after it: by the start times, else as drawn, else by number. --undo\n"
		"takes the word back; both are kept.",
	.example =
		"--show spring.show judge away 3 E --from 44 --by \"Office\" --why \"called away\"",
	.old_option = {{"all", NULL, "for the whole class", false},
		       {"from", "NUMBER", "from this start on", false},
		       {"number", "N,...", "for these entries", false},
		       SAID_BY,
		       {"undo", NULL, "the judge was there after all", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = judge_away,
};

/* ---- tie decide -------------------------------------------------------------------------- */

static const struct rt_result *result_of(const struct rt_results *r, int64_t number)
{
	for (size_t i = 0; i < r->n; i++)
		if (r->at[i].entry->number == number)
			return &r->at[i];
	return NULL;
}

/* Whether two are equal but for an earlier decision. */
static bool are_equal(const struct rt_result *a, const struct rt_result *b)
{
	const char *decision = rt_tie_break_words(RT_TIE_DECISION);
	bool decided = a->parted_by && b->parted_by && strcmp(a->parted_by, decision) == 0 &&
		       strcmp(b->parted_by, decision) == 0;

	return a->place && b->place && a->score == b->score && rt_same_division(a, b) &&
	       (a->place == b->place || decided);
}

static bool is_typed(const struct saying *s, int64_t number)
{
	int64_t typed;

	for (int i = 1; i < s->call->args; i++)
		if (rt_parse_int(s->call->arg[i], &typed) && typed == number)
			return true;
	return false;
}

static enum rt_err check_rule(struct cli *c, const struct rt_rule *rule)
{
	for (size_t i = 0; i < rule->tie_steps; i++)
		if (rule->tie[i].by == RT_TIE_DECISION)
			return RT_OK;
	return rt_fail(
		&c->err, RT_E_INPUT,
		"rule %s leaves no tie to a decision (its column ties does not say decision)",
		rule->name);
}

/* Those that are named are equal, and with nobody who is not named. */
static enum rt_err check_equal(struct cli *c, const struct saying *s, const struct rt_results *r,
			       int64_t *entry)
{
	const struct rt_result *first = NULL, *result;
	size_t place;

	for (int i = 1; i < s->call->args; i++) {
		if (entry_of(c, s, s->call->arg[i], &place))
			return c->err.code;
		entry[i - 1] = s->book.entries.at[place].id;
		result = result_of(r, s->book.entries.at[place].number);
		for (int k = 0; k < i - 1; k++)
			if (entry[k] == entry[i - 1])
				return rt_fail(&c->err, RT_E_USAGE, "number %s stands there twice",
					       s->call->arg[i]);
		if (!first)
			first = result;
		if (!first->place)
			return rt_fail(&c->err, RT_E_INPUT, "number %s has no place",
				       s->call->arg[1]);
		if (!are_equal(first, result))
			return rt_fail(
				&c->err, RT_E_INPUT,
				"numbers %s and %s are not equal: there is nothing to decide",
				s->call->arg[1], s->call->arg[i]);
	}
	for (size_t i = 0; i < r->n; i++)
		if (are_equal(first, &r->at[i]) && !is_typed(s, r->at[i].entry->number))
			return rt_fail(&c->err, RT_E_INPUT,
				       "number %" PRId64 " is equal with them: name all that are",
				       r->at[i].entry->number);
	return RT_OK;
}

static void report_decided(struct cli *c, const struct saying *s)
{
	static const struct rt_field columns[] = {
		{"rank", "rank", RT_INT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "decided by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "decided", "Decision kept", columns, 4);

	for (int i = 1; i < s->call->args; i++) {
		rt_put_int(t, i);
		rt_put_text(t, s->call->arg[i]);
		rt_put_text(t, s->said.who);
		rt_put_text(t, s->said.why);
	}
}

static enum rt_err put_decision(struct cli *c, struct saying *s)
{
	struct rt_results r = {0};
	int64_t entry[CLI_ARGS_MAX];
	enum rt_err e = saying_load(c, s);

	if (!e)
		e = check_rule(c, s->book.marks.rule);
	if (!e)
		e = rt_results_make(&r, &s->book.marks, &c->err);
	if (!e)
		e = check_equal(c, s, &r, entry);
	if (!e)
		e = rt_store_decision_put(c->store, s->call->arg[0], entry,
					  (size_t)s->call->args - 1, &s->said, &c->err);
	if (!e)
		report_decided(c, s);
	rt_results_free(&r);
	return e ? e : CLI_OLD(c, cli_note_posted(c, s->call->arg[0]));
}

static enum rt_err tie_decide(struct cli *c, const struct cli_call *call)
{
	struct saying s = {0};
	enum rt_err e = saying_read(c, call, &s);

	if (!e)
		e = put_decision(c, &s);
	rt_class_book_free(&s.book);
	return e;
}

const struct cli_command cmd_tie_decide = {
	.group = "Results",
	.name = "tie decide",
	.args = "CLASS NUMBER NUMBER... --by NAME --why TEXT",
	.summary = "Keep what an official decided between equal entries, the best first.",
	.details =
		"Only where the rule's column ties says decision, and between all that are equal. When\n"
		"a change of marks makes others equal, the decision is of no effect, and the results say\n"
		"so.",
	.old_option = {SAID_BY},
	.old_min_args = 3,
	.old_max_args = CLI_ARGS_MAX,
	.old_run = tie_decide,
};
