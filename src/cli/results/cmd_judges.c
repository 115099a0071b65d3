/* mark missing, judge away and tie decide: what is said of a class's judges and ties.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"
#include "../times/times.h"

#include <inttypes.h>
#include <string.h>

/* ---- mark missing ------------------------------------------------------------------------ */

struct mark_missing {
	const char *class_name, *judge, *item, *by, *why;
	int64_t number;
	bool undo;
	/* of the report */
	const char *filled_with;
	bool missing;
};

static const struct rt_field missing_options[] = {
	CLI_CLASS(struct mark_missing, class_name),
	CLI_NUMBER(struct mark_missing, number),
	CLI_JUDGE(struct mark_missing, judge, RT_REQUIRED),
	{"item", RT_AT(struct mark_missing, item), .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "the item of the test"},
	CLI_BY(struct mark_missing, by, RT_REQUIRED),
	CLI_WHY(struct mark_missing, why, RT_REQUIRED),
	{"undo", RT_AT(struct mark_missing, undo), .type = RT_BOOL,
	 .help = "it is not missing after all"},
};

/* The item of the class's test, by its place; RT_E_NOTFOUND. */
static size_t find_item(struct cli *c, const struct cli_desk *d, const char *name)
{
	const struct rt_items *items = &d->book.items;
	size_t i = 0;

	while (i < items->n && strcmp(items->at[i].name, name) != 0)
		i++;
	if (i == items->n)
		CLI_FAIL(c, RT_E_NOTFOUND, "test %s has no item %s", d->book.marks.test->name,
			 name);
	else
		cli_desk_marks(c, d, &items->at[i]);
	return i;
}

static void check_missing(struct cli *c, const struct cli_desk *d, size_t item, bool undo)
{
	const struct rt_class_marks *m = &d->book.marks;
	const struct rt_box *box = rt_class_marks_box(m, d->entry_place, d->judge_place, item);

	if (undo && !box->missing)
		CLI_FAIL(c, RT_E_INPUT, "nobody said that this mark is missing");
	if (undo)
		return;
	if (m->rule->missing == RT_MISSING_REFUSE)
		CLI_FAIL(c, RT_E_INPUT,
			 "rule %s fills no empty box (its column missing says "
			 "refuse): ask the judge, or the rulebook",
			 m->rule->name);
	if (box->keyed_x100[0] >= 0 || box->keyed_x100[1] >= 0)
		CLI_FAIL(c, RT_E_INPUT,
			 "number %" PRId64 ", judge %s, item %s has a mark: it is not missing",
			 d->entry->number, d->judge->position, m->items->at[item].name);
}

#define MISSING(member) RT_AT(struct mark_missing, member)

static const struct rt_field missing_fields[] = {
	{"class", MISSING(class_name)},
	{"number", .head = "no.", MISSING(number), .type = RT_INT},
	{"judge", MISSING(judge)},
	{"item", MISSING(item)},
	{"is_missing", .head = "missing", MISSING(missing), .type = RT_BOOL},
	{"filled_with", MISSING(filled_with)},
	{"why", MISSING(why)},
};

static const struct rt_record missing_table = RT_TABLE("missing", "Missing mark", missing_fields,
						       struct mark_missing);

static void mark_missing(struct cli *c, const void *typed)
{
	struct mark_missing o = *(const struct mark_missing *)typed;
	const struct rt_reason said = {o.by, o.why, c->when};
	struct cli_desk d = {.entry = NULL};
	size_t item = 0;

	cli_desk_class(c, &d, o.class_name, true);
	cli_desk_entry(c, &d, o.number);
	cli_desk_judge(c, &d, o.judge);
	if (!c->err.code)
		item = find_item(c, &d, o.item);
	if (!c->err.code)
		check_missing(c, &d, item, o.undo);
	CLI_DO(c, rt_store_missing_put(c->store, d.entry->id, d.judge->id, d.book.items.at[item].id,
				       !o.undo, &said, &c->err));
	if (!c->err.code) {
		o.judge = d.judge->position;
		o.missing = !o.undo;
		o.filled_with = o.undo ? NULL : rt_missing_words(d.book.marks.rule->missing);
		rt_report_list(&c->report, &missing_table, &o, 1);
	}
	cli_note_posted(c, o.class_name);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_missing = {
	.name = "mark missing",
	.summary = "Say that a box stays empty as its judge cannot be asked.",
	.details =
		"Ask the judge first. The rule's column missing says what fills the box: mean, the mean\n"
		"of the sheet's other marks; mean-whole, that rounded to a whole mark; refuse, nothing.\n"
		"The results say which boxes were filled. A mark that is keyed after all counts instead.",
	.example =
		"--show spring.show mark missing 9 7 --judge C --item 3 --by \"Office\" --why \"the judge has left\"",
	CLI_OPTIONS(struct mark_missing, missing_options),
	.run = mark_missing,
	.table = {&missing_table},
};

/* ---- judge away -------------------------------------------------------------------------- */

struct judge_away {
	const char *class_name, *position, *number, *by, *why;
	bool all, undo;
	int64_t from; /* 0: not given */
};

static const struct rt_field away_options[] = {
	CLI_CLASS(struct judge_away, class_name),
	{"position", RT_AT(struct judge_away, position), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"all", RT_AT(struct judge_away, all), .type = RT_BOOL, .help = "for the whole class"},
	{"since", RT_AT(struct judge_away, from), .head = "NUMBER", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "from this start on"},
	{"number", RT_AT(struct judge_away, number), .head = "N,...", .type = RT_TEXT,
	 .high = CLI_TEXT_MOST, .help = "for these entries"},
	CLI_BY(struct judge_away, by, RT_REQUIRED),
	CLI_WHY(struct judge_away, why, RT_REQUIRED),
	{"undo", RT_AT(struct judge_away, undo), .type = RT_BOOL,
	 .help = "the judge was there after all"},
};

/* The entries of --number, as flags by their places in the list. */
static void read_numbers(struct cli *c, struct cli_desk *d, const char *typed, bool *meant)
{
	char word[24];
	int64_t number;

	while (!c->err.code && *(typed += strspn(typed, ", "))) {
		size_t n = strcspn(typed, ", ");

		snprintf(word, sizeof word, "%.*s", (int)(n < sizeof word ? n : sizeof word - 1),
			 typed);
		typed += n;
		number = cli_number(c, "--number", word);
		cli_desk_entry(c, d, number);
		if (!c->err.code)
			meant[d->entry_place] = true;
	}
}

/* This entry, and all that start after it. */
static void read_from(struct cli *c, struct cli_desk *d, int64_t from, bool *meant)
{
	int64_t *rank = cli_array(c, d->book.entries.n, sizeof *rank);
	const char *by = "";

	cli_desk_entry(c, d, from);
	CLI_DO(c, cli_rank_starts(c, d->book.classes.at->name, &d->book.entries, rank, &by));
	for (size_t i = 0; !c->err.code && i < d->book.entries.n; i++)
		meant[i] = rank[i] >= rank[d->entry_place];
	if (!c->err.code)
		rt_report_note(&c->report, "From number %" PRId64 " on in the order of %s.", from,
			       by);
}

static void put_each(struct cli *c, const struct cli_desk *d, const struct judge_away *o,
		     const bool *meant, struct cli_names *names)
{
	const struct rt_class_marks *m = &d->book.marks;
	const struct rt_reason said = {o->by, o->why, c->when};

	for (size_t i = 0; i < m->entries->n; i++) {
		if (!meant[i] ||
		    m->lines[i * m->class_->judges.n + d->judge_place].away == !o->undo)
			continue;
		CLI_DO(c, rt_store_away_put(c->store, m->entries->at[i].id, d->judge->id, !o->undo,
					    &said, &c->err));
		cli_name(names, "%" PRId64, m->entries->at[i].number);
	}
}

/* Say for whom nobody sits there any more, now that this judge is away too. */
static void note_nobody_left(struct cli *c, const struct cli_desk *d, const bool *meant)
{
	const struct rt_class_marks *m = &d->book.marks;
	size_t judges = m->class_->judges.n;
	struct cli_names alone = {0};

	for (size_t i = 0; i < m->entries->n; i++) {
		size_t others = 0;

		for (size_t j = 0; j < judges; j++)
			others += j != d->judge_place && !m->lines[i * judges + j].away;
		if (!meant[i] || others || m->entries->at[i].status != RT_ENTERED)
			continue;
		cli_name(&alone, "%" PRId64, m->entries->at[i].number);
	}
	if (alone.n)
		rt_report_note(&c->report,
			       "No judge is left for number%s %s: without a sheet "
			       "there is no score.",
			       alone.n == 1 ? "" : "s", alone.text);
	c->report.needs_person |= alone.n > 0;
}

struct away_row {
	const struct judge_away *typed;
	const char *judge, *numbers;
	bool away;
	size_t sheets;
};

#define AWAY(member) RT_IN(struct away_row, typed, struct judge_away, member)

static const struct rt_field away_fields[] = {
	{"class", AWAY(class_name)},
	{"judge", RT_AT(struct away_row, judge)},
	{"away", RT_AT(struct away_row, away), .type = RT_BOOL},
	{"sheets", RT_AT(struct away_row, sheets), .type = RT_SIZE},
	{"numbers", RT_AT(struct away_row, numbers)},
	{"why", AWAY(why)},
};

static const struct rt_record away_table = RT_TABLE("away", "Judge away", away_fields,
						    struct away_row);

static void report_away(struct cli *c, const struct cli_desk *d, const struct judge_away *o,
			const struct cli_names *names)
{
	const struct away_row row = {o, d->judge->position, names->n ? names->text : NULL, !o->undo,
				     names->n};

	rt_report_list(&c->report, &away_table, &row, 1);
	if (!names->n)
		rt_report_note(&c->report, "Nothing was kept: it was said of all of them before.");
	else if (!o->undo)
		rt_report_note(&c->report, "These sheets are not expected, and count for nothing: "
					   "the scores are over the judges that are left.");
}

static void put_away(struct cli *c, struct cli_desk *d, const struct judge_away *o)
{
	struct cli_names names = {0};
	bool *meant = cli_array(c, d->book.entries.n, sizeof *meant);

	if (!meant)
		return;
	memset(meant, o->all, d->book.entries.n);
	if (o->number)
		read_numbers(c, d, o->number, meant);
	else if (o->from)
		read_from(c, d, o->from, meant);
	cli_desk_judge(c, d, o->position);
	if (!c->err.code) {
		put_each(c, d, o, meant, &names);
		report_away(c, d, o, &names);
		if (!o->undo)
			note_nobody_left(c, d, meant);
	}
	if (names.n)
		cli_note_posted(c, o->class_name);
}

static void judge_away(struct cli *c, const void *typed)
{
	const struct judge_away *o = typed;
	struct cli_desk d = {.entry = NULL};

	if (o->all + (o->from != 0) + (o->number != NULL) != 1)
		CLI_FAIL(c, RT_E_USAGE,
			 "judge away wants one of --all, --since NUMBER, --number N");
	cli_desk_class(c, &d, o->class_name, true);
	if (!c->err.code)
		put_away(c, &d, o);
	cli_desk_free(&d);
}

const struct cli_command cmd_judge_away = {
	.name = "judge away",
	.args = "CLASS POSITION (--all | --since NUMBER | --number N,...) --by WHO --why TEXT",
	.summary = "Say that a judge was away, for all of a class or for some of it.",
	.details =
		"Those sheets are neither expected nor counted, whatever is keyed of them; the scores\n"
		"are over the judges that are left, and the results say so. --since means this entry and\n"
		"all that start after it: by the start times, else as drawn, else by number. What is\n"
		"taken back stays in the file's history.",
	.example =
		"--show spring.show judge away 3 E --since 44 --by \"Office\" --why \"called away\"",
	CLI_OPTIONS(struct judge_away, away_options),
	.run = judge_away,
	.table = {&away_table},
};

/* ---- tie decide -------------------------------------------------------------------------- */

#define TIED_MOST 64 /* entries that one decision parts */

struct tie_decide {
	const char *class_name, *by, *why;
	struct rt_strings numbers;
};

static const struct rt_field decide_options[] = {
	CLI_CLASS(struct tie_decide, class_name),
	{"number", RT_AT(struct tie_decide, numbers), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	CLI_BY(struct tie_decide, by, RT_REQUIRED),
	CLI_WHY(struct tie_decide, why, RT_REQUIRED),
};

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

static void check_rule(struct cli *c, const struct rt_rule *rule)
{
	for (size_t i = 0; i < rule->tie_steps; i++)
		if (rule->tie[i].by == RT_TIE_DECISION)
			return;
	CLI_FAIL(c, RT_E_INPUT,
		 "rule %s leaves no tie to a decision (its column ties does not say decision)",
		 rule->name);
}

/* An entry of a decision. */
struct decided_row {
	const struct tie_decide *typed;
	size_t rank;
	int64_t number;
	const struct rt_result *result;
};

#define DECIDED(member) RT_IN(struct decided_row, typed, struct tie_decide, member)

static const struct rt_field decided_fields[] = {
	{"rank", RT_AT(struct decided_row, rank), .type = RT_SIZE},
	{"number", .head = "no.", RT_AT(struct decided_row, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"by", .head = "decided by", DECIDED(by)},
	{"why", DECIDED(why)},
};

static const struct rt_record decided_table = RT_TABLE("decided", "Decision kept", decided_fields,
						       struct decided_row);

/* The entries that were typed, in their order. */
static void read_decided(struct cli *c, struct cli_desk *d, const struct tie_decide *o,
			 const struct rt_results *r, struct decided_row *row, int64_t *id)
{
	struct rt_error why = {0};

	for (size_t i = 0; i < o->numbers.n && !c->err.code; i++) {
		row[i] = (struct decided_row){o, .rank = i + 1};
		if (rt_field_read(&decided_fields[1], &row[i], o->numbers.at[i], NULL, &why))
			CLI_FAIL(c, RT_E_USAGE, "number: %s", why.text);
		cli_desk_entry(c, d, row[i].number);
		if (c->err.code)
			return;
		id[i] = d->entry->id;
		row[i].result = result_of(r, row[i].number);
	}
}

/* Those that are named are equal, and with nobody who is not named. */
static void check_equal(struct cli *c, const struct rt_results *r, const struct decided_row *row,
			size_t n)
{
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++)
			if (row[k].number == row[i].number)
				CLI_FAIL(c, RT_E_USAGE, "number %" PRId64 " stands there twice",
					 row[i].number);
		if (!row->result->place)
			CLI_FAIL(c, RT_E_INPUT, "number %" PRId64 " has no place", row->number);
		if (!are_equal(row->result, row[i].result))
			CLI_FAIL(c, RT_E_INPUT,
				 "numbers %" PRId64 " and %" PRId64 " are not "
				 "equal: there is nothing to decide",
				 row->number, row[i].number);
	}
	for (size_t i = 0; i < r->n; i++) {
		size_t k = 0;

		while (k < n && row[k].result != &r->at[i])
			k++;
		if (k == n && are_equal(row->result, &r->at[i]))
			CLI_FAIL(c, RT_E_INPUT,
				 "number %" PRId64 " is equal with them: name all that are",
				 r->at[i].entry->number);
	}
}

static void tie_decide(struct cli *c, const void *typed)
{
	const struct tie_decide *o = typed;
	const struct rt_reason said = {o->by, o->why, c->when};
	struct decided_row row[TIED_MOST];
	int64_t id[TIED_MOST];
	size_t n = o->numbers.n;
	struct cli_desk d = {.entry = NULL};
	struct rt_results r = {0};

	if (n < 2 || n > TIED_MOST)
		CLI_FAIL(c, RT_E_USAGE, "tie decide wants 2 to %d numbers, the best first",
			 TIED_MOST);
	cli_desk_class(c, &d, o->class_name, true);
	if (!c->err.code)
		check_rule(c, d.book.marks.rule);
	CLI_DO(c, rt_results_make(&r, &d.book.marks, &c->err));
	read_decided(c, &d, o, &r, row, id);
	if (!c->err.code)
		check_equal(c, &r, row, n);
	CLI_DO(c, rt_store_decision_put(c->store, o->class_name, id, n, &said, &c->err));
	if (!c->err.code)
		rt_report_list(&c->report, &decided_table, row, n);
	cli_note_posted(c, o->class_name);
	rt_results_free(&r);
	cli_desk_free(&d);
}

const struct cli_command cmd_tie_decide = {
	.name = "tie decide",
	.args = "CLASS NUMBER NUMBER... --by WHO --why TEXT",
	.summary = "Keep what an official decided between equal entries, the best first.",
	.details =
		"Only where the rule's column ties says decision, and between all that are equal. When\n"
		"a change of marks makes others equal, the decision is of no effect, and the results say\n"
		"so.",
	CLI_OPTIONS(struct tie_decide, decide_options),
	.run = tie_decide,
	.table = {&decided_table},
};
