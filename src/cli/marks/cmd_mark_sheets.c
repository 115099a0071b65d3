/* mark sheets, mark received and mark total: where sheets are, and sums written by hand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>

/* ---- mark sheets ------------------------------------------------------------------------- */

/* The register of the class, or of the one entry. */
static void report_register(struct cli *c, const struct cli_desk *d, bool waiting)
{
	struct rt_sheet_events events = {0};
	int64_t number = d->entry ? d->entry->number : -1;

	CLI_DO(c,
	       rt_store_sheet_events(c->store, d->book.classes.at->name, number, &events, &c->err));
	if (!c->err.code)
		rt_sheets_report(&c->report, &d->book.marks, &d->versions, &events, number,
				 waiting);
	RT_LIST_FREE(&events);
}

struct mark_sheets {
	const char *class_name;
	bool waiting;
};

static const struct rt_field sheets_options[] = {
	CLI_CLASS(struct mark_sheets, class_name),
	{"waiting", RT_AT(struct mark_sheets, waiting), .type = RT_BOOL,
	 .help = "only the sheets that are waited for"},
};

static void mark_sheets(struct cli *c, const void *typed)
{
	const struct mark_sheets *o = typed;
	struct cli_desk d = {.entry = NULL};

	cli_desk_sheet(c, &d, o->class_name, 0, NULL, false);
	report_register(c, &d, o->waiting);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_sheets = {
	.name = "mark sheets",
	.summary = "Where every sheet of a class is, and what is waited for.",
	.details =
		"A sheet is expected, in, queried, keyed (every box once), compared (a second keying, or\n"
		"another person's hand total, agrees) or returned. Entries that withdrew or did not start\n"
		"have none; those that retired or were eliminated are not waited for.",
	.example = "--show spring.show mark sheets 1 --waiting",
	CLI_OPTIONS(struct mark_sheets, sheets_options),
	.run = mark_sheets,
};

/* ---- mark received ----------------------------------------------------------------------- */

/* What is said of a sheet; its other states follow from the marks. */
static const enum rt_sheet_state states[] = {RT_SHEET_IN, RT_SHEET_QUERIED, RT_SHEET_RETURNED};
static const char *const state_word[] = {"in", "queried", "returned"};
static const char *const state_also[][2] = {{"received", "in"}};
static const struct rt_words state_words = {"state", state_word, 3, state_also, 1};

struct mark_received {
	const char *class_name;
	int64_t number;
	int state; /* of states */
	const char *judge, *by, *why;
};

static const struct rt_field received_options[] = {
	CLI_CLASS(struct mark_received, class_name),
	CLI_NUMBER(struct mark_received, number),
	{"state", RT_AT(struct mark_received, state), .head = "STATE", .type = RT_WORD,
	 .words = &state_words, .is = RT_ARGUMENT | RT_USUAL, .help = "how it stands now"},
	CLI_JUDGE(struct mark_received, judge, RT_REQUIRED),
	CLI_BY(struct mark_received, by, 0),
	CLI_WHY(struct mark_received, why, 0),
};

static bool was_keyed(const struct cli_desk *d)
{
	for (size_t i = 0; i < d->versions.n; i++)
		if (d->versions.at[i].judge == d->judge->id &&
		    d->versions.at[i].kind == RT_MARK_ITEM)
			return true;
	return false;
}

static void mark_received(struct cli *c, const void *typed)
{
	const struct mark_received *o = typed;
	struct rt_sheet_event event = {
		.state = states[o->state], .why = o->why, .who = o->by, .when = c->when};
	struct cli_desk d = {.entry = NULL};

	if (event.state == RT_SHEET_QUERIED && !o->why)
		CLI_FAIL(c, RT_E_USAGE, "a sheet is queried with --why: what the judge is asked");
	cli_desk_sheet(c, &d, o->class_name, o->number, o->judge, true);
	/* A sheet goes back to its driver once its marks are in the show. */
	if (!c->err.code && event.state == RT_SHEET_RETURNED && !was_keyed(&d))
		CLI_FAIL(c, RT_E_INPUT,
			 "the sheet of number %" PRId64 ", judge %s, was never "
			 "keyed: mark enter keys it before it is returned",
			 o->number, d.judge->position);
	if (!c->err.code) {
		event.entry = d.entry->id;
		event.judge = d.judge->id;
	}
	CLI_DO(c, rt_store_sheet_event_put(c->store, &event, &c->err));
	report_register(c, &d, false);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_received = {
	.name = "mark received",
	.summary = "Say that a sheet came in, is queried with its judge, or was returned.",
	.details =
		"What was said before stays in the file's history. A queried sheet is back when it is\n"
		"said to be in, or is keyed whole; --why says what its judge is asked. Expected, keyed\n"
		"and compared are not said: they follow from the marks.",
	.example = "--show spring.show mark received 1 11 --judge C --by \"Tove Hallbäck\"",
	CLI_OPTIONS(struct mark_received, received_options),
	.run = mark_received,
};

/* ---- mark total -------------------------------------------------------------------------- */

struct mark_total {
	const char *class_name, *total, *judge, *by, *why;
	int64_t number, errors; /* errors -1: not said */
	bool same_person;
	struct rt_exact kept, sum; /* of the report */
};

static const struct rt_field total_options[] = {
	CLI_CLASS(struct mark_total, class_name),
	CLI_NUMBER(struct mark_total, number),
	{"total", RT_AT(struct mark_total, total), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_JUDGE(struct mark_total, judge, RT_REQUIRED),
	CLI_BY(struct mark_total, by, RT_REQUIRED),
	{"errors", RT_AT(struct mark_total, errors), .head = "N", .type = RT_INT, .low = 0,
	 .high = RT_SHEET_ERRORS_MOST, .help = "the errors of course that the sheet shows"},
	CLI_WHY(struct mark_total, why, 0),
	CLI_SAME_PERSON(struct mark_total, same_person),
};

static const struct rt_mark_version *line_of(const struct cli_desk *d, enum rt_mark_kind kind,
					     int keying)
{
	return rt_mark_latest(&d->versions, d->entry->id, d->judge->id, kind, 0, keying);
}

/* Where this person's total stands already, else where there is none, else beside the second
 * keying: there it takes the place of what was said before. */
static int keying_of_total(const struct cli_desk *d, const char *who)
{
	int free_one = RT_KEYINGS;

	for (int k = 1; k <= RT_KEYINGS; k++) {
		const struct rt_mark_version *v = line_of(d, RT_MARK_TOTAL, k);

		if (v && rt_same_name(v->who, who))
			return k;
		if (!v)
			free_one = k;
	}
	return free_one;
}

static void put_line(struct cli *c, const struct cli_desk *d, struct rt_pass pass, int keying,
		     enum rt_mark_kind kind, int64_t value)
{
	enum rt_mark_put what;

	pass.keying = keying;
	CLI_DO(c, rt_store_pass_begin(c->store, &pass, &c->err));
	CLI_DO(c, rt_store_mark_put(c->store, d->entry->id, d->judge->id, 0, kind, value, NULL,
				    &what, &c->err));
}

static void put_total(struct cli *c, const struct cli_desk *d, const struct mark_total *o,
		      int64_t total_x100000)
{
	const struct rt_pass pass = {1, o->by, c->when, "mark total", o->why};
	const struct rt_mark_version *keyed = rt_keyed_by(&d->versions, d->entry->id, d->judge->id,
							  0, o->by);
	bool first = line_of(d, RT_MARK_ERRORS, 1), second = line_of(d, RT_MARK_ERRORS, 2);

	/* A total is a second check only when it is another person's. */
	if (keyed && !o->same_person)
		CLI_FAIL(c, RT_E_INPUT,
			 "%s keyed boxes of this sheet: another person adds it up, "
			 "or --same-person, and then it is no second check",
			 keyed->who);
	put_line(c, d, pass, keying_of_total(d, o->by), RT_MARK_TOTAL, total_x100000);
	if (o->errors < 0)
		return;
	if (first && second)
		CLI_FAIL(c, RT_E_INPUT,
			 "--errors: the errors of this sheet are keyed twice "
			 "already: mark fix corrects them");
	put_line(c, d, pass, first ? 2 : 1, RT_MARK_ERRORS, o->errors); /* beside those there */
}

/* The sum of the boxes; false when one is empty, or its keyings differ. */
static bool sum_of_boxes(const struct cli_desk *d, int64_t *sum_x100000)
{
	*sum_x100000 = 0;
	for (size_t i = 0; i < d->book.items.n; i++) {
		int mark = rt_box_mark_x100(
			rt_class_marks_box(&d->book.marks, d->entry_place, d->judge_place, i),
			NULL);

		if (!rt_class_marks_asked(&d->book.marks, d->judge_place, i))
			continue;
		if (mark < 0)
			return false;
		*sum_x100000 += mark * d->book.items.at[i].coefficient_x1000;
	}
	return true;
}

#define TOTAL(member) RT_AT(struct mark_total, member)

static const struct rt_field total_fields[] = {
	{"class", .head = "Class", TOTAL(class_name)},
	{"number", .head = "No.", TOTAL(number), .type = RT_INT},
	{"judge", .head = "Judge", TOTAL(judge)},
	{"total", .head = "Hand total", TOTAL(kept), .type = RT_EXACT},
	{"sum", .head = "Sum of the boxes", TOTAL(sum), .type = RT_EXACT},
	{"by", .head = "By", TOTAL(by)},
};

static const struct rt_record total_table = RT_TABLE("total", "Hand total kept", total_fields,
						     struct mark_total);

static void report_total(struct cli *c, const struct cli_desk *d, struct mark_total row,
			 int64_t total_x100000)
{
	int64_t sum;
	bool settled = sum_of_boxes(d, &sum);

	row.judge = d->judge->position;
	row.kept = rt_exact_short(total_x100000, 5, 1);
	if (settled)
		row.sum = rt_exact_short(sum, 5, 1);
	rt_report_list(&c->report, &total_table, &row, 1);
	if (!settled)
		rt_report_note(&c->report, "The boxes are not all settled yet.");
	else if (sum != total_x100000)
		rt_report_note(&c->report, "The hand total is not the sum of the boxes: look at "
					   "the sheet.");
	c->report.needs_person |= settled && sum != total_x100000;
}

static void mark_total(struct cli *c, const void *typed)
{
	const struct mark_total *o = typed;
	struct cli_desk d = {.entry = NULL};
	int64_t most, total_x100000 = 0;

	cli_desk_sheet(c, &d, o->class_name, o->number, o->judge, true);
	most = cli_desk_maximum(&d);
	if (!rt_total_typed(o->total, most, &total_x100000))
		CLI_FAIL(c, RT_E_USAGE,
			 "\"%.40s\" is no total of this sheet: 0 to %" PRId64 ", at "
			 "most four decimals",
			 o->total, most / 100000);
	if (!c->err.code)
		put_total(c, &d, o, total_x100000);
	if (!c->err.code)
		report_total(c, &d, *o, total_x100000);
	cli_note_posted(c, o->class_name);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_total = {
	.name = "mark total",
	.summary = "Keep the sum of a sheet that a second person added up by hand.",
	.details =
		"Marks times coefficients, before anything is taken off. Where it is the sum of the\n"
		"boxes and its person keyed none of them, it counts as the second check of the marks;\n"
		"the errors of course want theirs too: --errors. Exit status 1 when it is not the sum.",
	.example = "--show spring.show mark total 1 11 112.5 --judge C --by \"Käthe Rößler\"",
	CLI_OPTIONS(struct mark_total, total_options),
	.blank = &(const struct mark_total){.errors = -1},
	.run = mark_total,
	.table = {&total_table},
};
