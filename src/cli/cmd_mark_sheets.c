/* mark sheets, mark sheet and mark total: where sheets are, and sums written by hand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <string.h>

/* ---- mark sheets, mark sheet ------------------------------------------------------------- */

/* The register of the class, or of the one entry. */
static enum rt_err report_register(struct cli *c, const struct cli_desk *d, bool waiting)
{
	struct rt_sheet_events events = {0};
	int64_t number = d->entry ? d->entry->number : -1;
	enum rt_err e = rt_store_sheet_events(c->store, d->book.classes.at->name, number, &events,
					      &c->err);

	if (!e)
		rt_sheets_report(&c->report, &d->book.marks, &d->versions, &events, number,
				 waiting);
	RT_LIST_FREE(&events);
	return e;
}

static enum rt_err mark_sheets(struct cli *c, const struct cli_call *call)
{
	struct cli_desk d = {.entry = NULL};
	enum rt_err e = cli_desk_class(c, &d, call->arg[0], false);

	if (!e)
		e = report_register(c, &d, cli_option(call, "waiting") != NULL);
	cli_desk_free(&d);
	return e;
}

const struct cli_command cmd_mark_sheets = {
	.group = "Marks",
	.name = "mark sheets",
	.args = "CLASS [--waiting]",
	.summary = "Where every sheet of a class is, and what is waited for.",
	.details =
		"A sheet is expected, in, queried, keyed (every box once), compared (a second keying, or\n"
		"another person's hand total, agrees) or returned. Entries that withdrew or did not start\n"
		"have none; those that retired or were eliminated are not waited for.",
	.example = "--show spring.show mark sheets 1 --waiting",
	.old_option = {{"waiting", NULL, "only the sheets that are waited for", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = mark_sheets,
};

static enum rt_err read_state(struct cli *c, const struct cli_call *call,
			      enum rt_sheet_state *state)
{
	static const char *const names[] = {"in", "queried", "returned"};
	const char *typed = call->arg[2], *nearest;

	if (rt_sheet_state_read(typed, state) &&
	    (*state == RT_SHEET_IN || *state == RT_SHEET_QUERIED || *state == RT_SHEET_RETURNED)) {
		if (*state == RT_SHEET_QUERIED && !cli_option(call, "why"))
			return rt_fail(&c->err, RT_E_USAGE,
				       "a sheet is queried with --why: what the judge is asked");
		return RT_OK;
	}
	nearest = rt_nearest(typed, names, sizeof names / sizeof *names);
	return rt_fail(&c->err, RT_E_USAGE,
		       "\"%.40s\": %s%s%sin, queried or returned; expected, keyed and compared "
		       "follow from the marks",
		       typed, nearest ? "did you mean " : "", nearest ? nearest : "",
		       nearest ? "? A sheet is " : "");
}

/* A sheet goes back to its driver once its marks are in the show. */
static enum rt_err check_returned(struct cli *c, const struct cli_desk *d,
				  enum rt_sheet_state state)
{
	for (size_t i = 0; i < d->versions.n; i++)
		if (d->versions.at[i].judge == d->judge->id &&
		    d->versions.at[i].kind == RT_MARK_ITEM)
			return RT_OK;
	if (state != RT_SHEET_RETURNED)
		return RT_OK;
	return rt_fail(&c->err, RT_E_INPUT,
		       "the sheet of number %" PRId64
		       ", judge %s, was never keyed: mark enter keys it before it is returned",
		       d->entry->number, d->judge->position);
}

static enum rt_err mark_sheet(struct cli *c, const struct cli_call *call)
{
	struct cli_desk d = {.entry = NULL};
	struct rt_sheet_event event = {.when = c->when};
	enum rt_err e = read_state(c, call, &event.state);

	if (!e)
		e = cli_desk_sheet(c, &d, call, true);
	if (!e)
		e = check_returned(c, &d, event.state);
	if (!e) {
		event.entry = d.entry->id;
		event.judge = d.judge->id;
		event.why = cli_option(call, "why");
		event.who = cli_option(call, "by");
		e = rt_store_sheet_event_put(c->store, &event, &c->err);
	}
	if (!e)
		e = report_register(c, &d, false);
	cli_desk_free(&d);
	return e;
}

const struct cli_command cmd_mark_sheet = {
	.group = "Marks",
	.name = "mark sheet",
	.args = "CLASS NUMBER in|queried|returned --judge POSITION",
	.summary = "Say that a sheet came in, is queried with its judge, or was returned.",
	.details =
		"What was said before stays in the file's history. A queried sheet is back when it\n"
		"is said to be in, or is keyed whole.",
	.example = "--show spring.show mark sheet 1 11 in --judge C --by \"Tove Hallbäck\"",
	.old_option = {{"judge", "POSITION", "whose sheet", true},
		       {"by", "NAME", "who says so", false},
		       {"why", "TEXT", "what the judge is asked", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = mark_sheet,
};

/* ---- mark total -------------------------------------------------------------------------- */

struct hand_total {
	struct cli_desk desk;
	struct rt_pass pass;
	int64_t total_x10000, errors; /* errors -1: not said */
};

static const struct rt_mark_version *line_of(const struct cli_desk *d, enum rt_mark_kind kind,
					     int keying)
{
	return rt_mark_latest(&d->versions, d->entry->id, d->judge->id, kind, 0, keying);
}

static enum rt_err read_total(struct cli *c, const struct cli_call *call, struct hand_total *in)
{
	const char *errors = cli_option(call, "errors");
	int64_t most = cli_desk_maximum(&in->desk);

	if (!rt_total_typed(call->arg[2], most, &in->total_x10000))
		return rt_fail(&c->err, RT_E_USAGE,
			       "\"%.40s\" is no total of this sheet: 0 to %" PRId64
			       ", at most four decimals",
			       call->arg[2], most / 10000);
	if (errors && !rt_sheet_errors_typed(errors, &in->errors))
		return rt_fail(&c->err, RT_E_USAGE, "--errors: \"%.40s\": 0 to %d", errors,
			       RT_SHEET_ERRORS_MOST);
	return RT_OK;
}

/* A total is a second check only when it is another person's. */
static enum rt_err check_adder(struct cli *c, const struct hand_total *in, bool force)
{
	const struct cli_desk *d = &in->desk;
	const struct rt_mark_version *v = rt_keyed_by(&d->versions, d->entry->id, d->judge->id, 0,
						      in->pass.who);

	if (!v || force)
		return RT_OK;
	return rt_fail(&c->err, RT_E_INPUT,
		       "%s keyed boxes of this sheet: another person adds it up, or --force, and "
		       "then it is no second check",
		       v->who);
}

/* Where this person's total stands already, else where there is none, else beside the second
 * keying: there it takes the place of what was said before. */
static int keying_of_total(const struct hand_total *in)
{
	int free_one = RT_KEYINGS;

	for (int k = 1; k <= RT_KEYINGS; k++) {
		const struct rt_mark_version *v = line_of(&in->desk, RT_MARK_TOTAL, k);

		if (v && rt_same_name(v->who, in->pass.who))
			return k;
		if (!v)
			free_one = k;
	}
	return free_one;
}

static enum rt_err put_line(struct cli *c, struct hand_total *in, enum rt_mark_kind kind,
			    int64_t value, int keying)
{
	enum rt_mark_put what;
	enum rt_err e;

	in->pass.keying = keying;
	e = rt_store_pass_begin(c->store, &in->pass, &c->err);
	return e ? e
		 : rt_store_mark_put(c->store, in->desk.entry->id, in->desk.judge->id, 0, kind,
				     value, NULL, &what, &c->err);
}

/* The errors go beside those that were keyed once. */
static enum rt_err put_errors(struct cli *c, struct hand_total *in)
{
	bool first = line_of(&in->desk, RT_MARK_ERRORS, 1) != NULL;
	bool second = line_of(&in->desk, RT_MARK_ERRORS, 2) != NULL;

	if (first && second)
		return rt_fail(&c->err, RT_E_INPUT,
			       "--errors: the errors of this sheet are keyed twice already: mark "
			       "fix corrects them");
	return put_line(c, in, RT_MARK_ERRORS, in->errors, first ? 2 : 1);
}

static enum rt_err put_total(struct cli *c, struct hand_total *in)
{
	enum rt_err e = put_line(c, in, RT_MARK_TOTAL, in->total_x10000, keying_of_total(in));

	return e || in->errors < 0 ? e : put_errors(c, in);
}

/* The sum of the boxes; false when one is empty, or its keyings differ. */
static bool sum_of_boxes(const struct cli_desk *d, int64_t *sum_x10000)
{
	*sum_x10000 = 0;
	for (size_t i = 0; i < d->book.items.n; i++) {
		int mark = rt_box_mark_x10(
			rt_class_marks_box(&d->book.marks, d->entry_place, d->judge_place, i),
			NULL);

		if (mark < 0)
			return false;
		*sum_x10000 += mark * d->book.items.at[i].coefficient_x1000;
	}
	return true;
}

static void report_total(struct cli *c, const struct hand_total *in)
{
	static const struct rt_field columns[] = {
		{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"total", "Hand total", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"sum", "Sum of the boxes", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"by", "By", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "total", "Hand total kept", columns,
					     sizeof columns / sizeof *columns);
	int64_t sum;
	bool settled = sum_of_boxes(&in->desk, &sum);

	rt_put_text(t, in->desk.book.classes.at->name);
	rt_put_int(t, in->desk.entry->number);
	rt_put_text(t, in->desk.judge->position);
	cli_put_points(t, in->total_x10000);
	if (settled)
		cli_put_points(t, sum);
	else
		rt_put_null(t);
	rt_put_text(t, in->pass.who);
	if (!settled)
		rt_report_note(&c->report, "The boxes are not all settled yet.");
	else if (sum != in->total_x10000)
		rt_report_note(&c->report, "The hand total is not the sum of the boxes: look at "
					   "the sheet.");
	c->report.needs_person |= settled && sum != in->total_x10000;
}

static enum rt_err mark_total(struct cli *c, const struct cli_call *call)
{
	struct hand_total in = {
		.pass = {1, cli_option(call, "by"), c->when, "mark total", cli_option(call, "why")},
		.errors = -1};
	enum rt_err e = cli_desk_sheet(c, &in.desk, call, true);

	if (!e)
		e = read_total(c, call, &in);
	if (!e)
		e = check_adder(c, &in, cli_option(call, "force") != NULL);
	if (!e)
		e = put_total(c, &in);
	if (!e)
		report_total(c, &in);
	if (!e)
		e = CLI_OLD(c, cli_note_posted(c, in.desk.book.classes.at->name));
	cli_desk_free(&in.desk);
	return e;
}

const struct cli_command cmd_mark_total = {
	.group = "Marks",
	.name = "mark total",
	.args = "CLASS NUMBER TOTAL --judge POSITION --by NAME",
	.summary = "Keep the sum of a sheet that a second person added up by hand.",
	.details =
		"Marks times coefficients, before anything is taken off. Where it is the sum of the\n"
		"boxes and its person keyed none of them, it counts as the second check of the marks;\n"
		"the errors of course want theirs too: --errors. Exit status 1 when it is not the sum.",
	.example = "--show spring.show mark total 1 11 112.5 --judge C --by \"Käthe Rößler\"",
	.old_option = {{"judge", "POSITION", "whose sheet", true},
		       {"by", "NAME", "who added it up", true},
		       {"errors", "N", "the errors of course that the sheet shows", false},
		       {"why", "TEXT", "why it changes, when it does", false},
		       {"force", NULL, "also by a person who keyed boxes of it", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = mark_total,
};
