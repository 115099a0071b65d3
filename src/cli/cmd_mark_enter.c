/* mark enter: one sheet keyed at a terminal, item by item, each mark safe before the next.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <string.h>

#define PROMPT_MOST 1200

/* How a sitting at a sheet ended. */
enum ending { KEYED, PAUSED, OTHER_DESK };

struct sitting {
	struct cli_desk desk;
	struct rt_keying keying;
	struct rt_pass pass;
	int64_t pass_id; /* 0: nothing was kept yet */
	bool unfinished;
	struct cli_terminal terminal;
	/* the mark at hand */
	const struct rt_keying_step *step;
	int64_t seen;
	bool put;
};

/* ---- before the first prompt ------------------------------------------------------------- */

static bool is_out(const struct rt_entry *entry)
{
	return entry->status == RT_WITHDRAWN || entry->status == RT_DID_NOT_START;
}

static bool was_away(const struct cli_desk *d)
{
	size_t judges = d->book.classes.at->judges.n;

	return d->book.marks.lines[d->entry_place * judges + d->judge_place].away;
}

/* Boxes whose judge cannot be asked may stay empty. */
static void mark_missing(struct sitting *s)
{
	const struct cli_desk *d = &s->desk;

	for (size_t i = 0; i < d->book.items.n; i++)
		s->keying.box[i].missing = rt_class_marks_box(&d->book.marks, d->entry_place,
							      d->judge_place, i)
						   ->missing;
}

/* Number 18 typed for 13: a sheet that cannot be. */
static enum rt_err check_entry(struct cli *c, const struct cli_desk *d, bool force)
{
	if (force)
		return RT_OK;
	if (was_away(d))
		return rt_fail(&c->err, RT_E_INPUT,
			       "judge %s was away for number %" PRId64
			       ": there is no sheet; --force keys it all the same",
			       d->judge->position, d->entry->number);
	if (!is_out(d->entry))
		return RT_OK;
	return rt_fail(&c->err, RT_E_INPUT,
		       "number %" PRId64 " has no sheet, as its status is %s: see the number; "
		       "--force keys it all the same",
		       d->entry->number, rt_status_words(d->entry->status));
}

/* Whether every box and the errors of a keying are there. */
static bool is_whole(const struct cli_desk *d, int keying)
{
	int64_t entry = d->entry->id, judge = d->judge->id;

	for (size_t i = 0; i < d->book.items.n; i++)
		if (!rt_mark_latest(&d->versions, entry, judge, RT_MARK_ITEM,
				    d->book.items.at[i].id, keying))
			return false;
	return rt_mark_latest(&d->versions, entry, judge, RT_MARK_ERRORS, 0, keying) != NULL;
}

/* The keying that was asked for, else the first that is not whole. */
static enum rt_err choose_keying(struct cli *c, const struct cli_call *call,
				 const struct cli_desk *d, int *keying)
{
	const char *typed = cli_option(call, "keying");
	int64_t which = is_whole(d, 1) ? 2 : 1;
	enum rt_err e = RT_OK;

	if (typed)
		e = cli_whole(c, "--keying", typed, 1, RT_KEYINGS, &which);
	*keying = (int)which;
	return e;
}

static const char *keying_words(int keying)
{
	return keying == 1 ? "first" : "second";
}

/* Two keyings want two people. */
static enum rt_err check_person(struct cli *c, struct sitting *s, bool force)
{
	const struct cli_desk *d = &s->desk;
	int other = RT_KEYINGS + 1 - s->pass.keying;
	const struct rt_mark_version *v = rt_keyed_by(&d->versions, d->entry->id, d->judge->id,
						      other, s->pass.who);

	if (!v)
		return RT_OK;
	if (!force)
		return rt_fail(&c->err, RT_E_INPUT,
			       "%s keyed the %s keying of this sheet (%s): another person keys the "
			       "%s, or --force",
			       v->who, keying_words(other), v->when ? v->when : "no time known",
			       keying_words(s->pass.keying));
	s->pass.why = "both keyings by one person, forced";
	rt_report_note(&c->report, "Both keyings of this sheet are by %s: forced, and kept so.",
		       s->pass.who);
	return RT_OK;
}

static enum rt_err open_sitting(struct cli *c, const struct cli_call *call, struct sitting *s)
{
	bool force = cli_option(call, "force") != NULL;
	enum rt_err e = CLI_OLD(c, cli_store_open(c, true));

	if (!e)
		e = cli_desk_sheet(c, &s->desk, call, true);
	if (!e)
		e = check_entry(c, &s->desk, force);
	s->pass = (struct rt_pass){1, cli_option(call, "by"), c->when, "mark enter", NULL};
	s->unfinished = cli_option(call, "unfinished") != NULL;
	if (!e)
		e = choose_keying(c, call, &s->desk, &s->pass.keying);
	if (!e)
		e = check_person(c, s, force);
	if (!e)
		e = rt_keying_make(&s->keying, &s->desk.book.items,
				   s->unfinished || s->desk.entry->status != RT_ENTERED, &c->err);
	if (e)
		return e;
	mark_missing(s);
	return rt_keying_resume(&s->keying, &s->desk.versions, s->desk.entry->id, s->desk.judge->id,
				s->pass.keying, &c->err);
}

/* Who kept the latest mark of this keying of the sheet. */
static const struct rt_mark_version *latest_here(const struct sitting *s)
{
	const struct rt_mark_version *latest = NULL;

	for (size_t i = 0; i < s->desk.versions.n; i++) {
		const struct rt_mark_version *v = &s->desk.versions.at[i];

		if (v->judge == s->desk.judge->id && v->keying == s->pass.keying &&
		    (!latest || v->pass >= latest->pass))
			latest = v;
	}
	return latest;
}

static void greet(struct sitting *s)
{
	const struct cli_desk *d = &s->desk;
	const struct rt_mark_version *latest = latest_here(s);
	FILE *out = s->terminal.out;

	fprintf(out, "Class %s, number %" PRId64 ": %s, %s\nJudge %s, %s keying, by %s\n",
		d->book.classes.at->name, d->entry->number, d->entry->driver, d->entry->horses,
		d->judge->position, keying_words(s->pass.keying), s->pass.who);
	if (d->entry->status != RT_ENTERED)
		fprintf(out,
			"This entry is %s: boxes after that stay empty (-, or -- for the rest).\n",
			rt_status_words(d->entry->status));
	if (latest)
		fprintf(out, "%zu of %zu boxes are keyed already, the latest by %s%s%s.\n",
			rt_keying_filled(&s->keying), d->book.items.n,
			latest->who ? latest->who : "somebody", latest->when ? " at " : "",
			latest->when ? latest->when : "");
	fputs("A mark as 65 or 6.5, with a remark behind it if there is one; ? for help.\n\n", out);
}

/* ---- the talk ---------------------------------------------------------------------------- */

static enum rt_err put_mark(struct cli *c, struct sitting *s)
{
	const struct rt_keying_step *step = s->step;
	enum rt_err e = CLI_OLD(c, cli_begin(c));

	if (!e)
		e = rt_store_pass_go_on(c->store, &s->pass, &s->pass_id, &c->err);
	if (!e)
		e = rt_store_mark_put_after(c->store, s->desk.entry->id, s->desk.judge->id,
					    step->item, step->kind, step->value, step->remark,
					    s->seen, &s->put, &c->err);
	return CLI_OLD_END(c, e);
}

/* What became of a mark that was to be kept. */
enum kept { KEPT, TRY_AGAIN, TAKEN };

/* Put one mark; whatever becomes of it, the marks before it are safe. */
static enum rt_err keep_mark(struct cli *c, struct sitting *s, const struct rt_keying_step *step,
			     enum kept *kept)
{
	int64_t pass = s->pass_id;
	enum rt_err e;

	s->step = step;
	s->seen = s->keying.box[step->box].version;
	s->put = false;
	e = put_mark(c, s);
	*kept = s->put ? KEPT : TAKEN;
	if (!e)
		return RT_OK;
	s->pass_id = pass; /* it was undone, if it began here */
	if (e != RT_E_BUSY)
		return e;
	cli_terminal_say(&s->terminal, c->err.text);
	c->err = (struct rt_error){.code = RT_OK};
	*kept = TRY_AGAIN;
	return RT_OK;
}

/* Another desk has been at this box. */
static enum rt_err tell_other_desk(struct cli *c, struct sitting *s)
{
	const struct cli_desk *d = &s->desk;
	const struct rt_keying_step *step = s->step;
	const struct rt_mark_version *v;
	enum rt_err e = cli_desk_again(c, &s->desk);

	if (e)
		return e;
	v = rt_mark_latest(&d->versions, d->entry->id, d->judge->id, step->kind, step->item,
			   s->pass.keying);
	rt_report_note(&c->report,
		       "Another desk is at this keying of the sheet: %s %s was keyed by %s%s%s "
		       "since it was shown here. The last mark typed here was not kept: let one "
		       "desk go on.",
		       step->kind == RT_MARK_ITEM ? "item" : "the line",
		       step->kind == RT_MARK_ITEM ? d->book.items.at[step->box].name
						  : rt_mark_kind_words(step->kind),
		       v && v->who ? v->who : "somebody", v && v->when ? " at " : "",
		       v && v->when ? v->when : "");
	return RT_OK;
}

/* A mark that is to be kept: asked for again when the file was busy.  *other tells that another
 * desk was at the box. */
static enum rt_err take_mark(struct cli *c, struct sitting *s, const struct rt_keying_step *step,
			     bool *other)
{
	enum kept kept;
	enum rt_err e = keep_mark(c, s, step, &kept);

	*other = !e && kept == TAKEN;
	if (e || kept == TRY_AGAIN)
		return e;
	if (kept == TAKEN)
		return tell_other_desk(c, s);
	cli_terminal_say(&s->terminal, step->say);
	return rt_keying_kept(&s->keying, step, s->seen + 1, &c->err);
}

static enum rt_err talk(struct cli *c, struct sitting *s, enum ending *ending)
{
	char prompt[PROMPT_MOST], line[CLI_LINE_MOST];
	struct rt_keying_step step;
	bool other = false;
	enum rt_err e = RT_OK;

	*ending = PAUSED;
	while (!e && *ending == PAUSED) {
		rt_keying_prompt(&s->keying, prompt, sizeof prompt);
		if (!cli_terminal_ask(&s->terminal, prompt, line))
			break;
		rt_keying_take(&s->keying, line, &step);
		if (step.act == RT_KEYING_PAUSE)
			break;
		if (step.act == RT_KEYING_END)
			*ending = KEYED;
		else if (step.act == RT_KEYING_KEEP)
			e = take_mark(c, s, &step, &other);
		else
			cli_terminal_say(&s->terminal, step.say);
		if (other)
			*ending = OTHER_DESK;
	}
	return e;
}

/* ---- behind the last prompt -------------------------------------------------------------- */

/* How a sheet stands in the register after its keying, where that is not told by its marks. */
static enum rt_err note_sheet(struct cli *c, struct sitting *s, bool *queried)
{
	struct cli_desk *d = &s->desk;
	struct rt_sheet_events events = {0};
	struct rt_sheet_event event = {d->entry->id,	  d->judge->id, RT_SHEET_QUERIED,
				       "boxes are empty", s->pass.who,	c->when};
	bool asked = false; /* the sheet is queried now */
	enum rt_err e = rt_store_sheet_events(c->store, d->book.classes.at->name, d->entry->number,
					      &events, &c->err);

	for (size_t i = 0; i < events.n; i++)
		if (events.at[i].judge == d->judge->id)
			asked = events.at[i].state == RT_SHEET_QUERIED;
	RT_LIST_FREE(&events);
	*queried = !rt_keying_whole(&s->keying) && d->entry->status == RT_ENTERED;
	if (e || *queried == asked)
		return e;
	if (asked) { /* it has been keyed whole, so it is back */
		event.state = RT_SHEET_IN;
		event.why = "keyed whole";
	}
	return rt_store_sheet_event_put(c->store, &event, &c->err);
}

/* How many boxes and lines say something else in the other keying. */
static size_t count_differing(const struct sitting *s)
{
	const struct cli_desk *d = &s->desk;
	size_t differing = 0;

	for (size_t box = 0; box < s->keying.boxes; box++) {
		bool item = box < d->book.items.n;
		enum rt_mark_kind kind = item			  ? RT_MARK_ITEM
					 : box == d->book.items.n ? RT_MARK_ERRORS
								  : RT_MARK_TOTAL;
		const struct rt_mark_version *v = rt_mark_latest(
			&d->versions, d->entry->id, d->judge->id, kind,
			item ? d->book.items.at[box].id : 0, RT_KEYINGS + 1 - s->pass.keying);

		differing += v && s->keying.box[box].version &&
			     v->value != s->keying.box[box].value;
	}
	return differing;
}

static void put_line(struct rt_table *t, const struct rt_keyed_box *box, bool points)
{
	if (!box->version)
		rt_put_null(t);
	else if (points)
		cli_put_points(t, box->value);
	else
		rt_put_int(t, box->value);
}

static void report_sitting(struct cli *c, const struct sitting *s, const char *state)
{
	static const struct rt_field columns[] = {
		{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"keying", "Keying", RT_INT, RT_NO_UNIT, 0, false},
		{"keyed", "Keyed", RT_INT, RT_NO_UNIT, 0, false},
		{"boxes", "Boxes", RT_INT, RT_NO_UNIT, 0, false},
		{"points", "Points", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"maximum", "Of", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"errors", "Errors", RT_INT, RT_NO_UNIT, 0, false},
		{"total", "Hand total", RT_DECIMAL, RT_NO_UNIT, 0, false},
		{"state", "State", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "sheet", "Sheet", columns,
					     sizeof columns / sizeof *columns);
	size_t items = s->desk.book.items.n;
	int64_t points, most;

	rt_keying_points(&s->keying, &points, &most);
	rt_put_text(t, s->desk.book.classes.at->name);
	rt_put_int(t, s->desk.entry->number);
	rt_put_text(t, s->desk.judge->position);
	rt_put_int(t, s->pass.keying);
	rt_put_int(t, (int64_t)rt_keying_filled(&s->keying));
	rt_put_int(t, (int64_t)items);
	cli_put_points(t, points);
	cli_put_points(t, cli_desk_maximum(&s->desk));
	put_line(t, &s->keying.box[items], false);
	put_line(t, &s->keying.box[items + 1], true);
	rt_put_text(t, state);
}

/* Whether the hand total on the sheet is another than the sum of its boxes, all filled. */
static bool total_is_off(const struct sitting *s)
{
	size_t items = s->desk.book.items.n;
	const struct rt_keyed_box *total = &s->keying.box[items + 1];
	int64_t points, most;

	rt_keying_points(&s->keying, &points, &most);
	return total->version && rt_keying_filled(&s->keying) == items && total->value != points;
}

static enum rt_err conclude(struct cli *c, struct sitting *s, enum ending ending)
{
	bool queried = false, off = total_is_off(s);
	size_t differing;
	enum rt_err e = RT_OK;

	/* Nobody presses Enter where a file feeds the marks: a whole sheet is a keyed one. */
	if (ending == PAUSED && rt_keying_whole(&s->keying))
		ending = KEYED;
	if (ending == KEYED)
		e = note_sheet(c, s, &queried);
	if (!e)
		e = cli_desk_again(c, &s->desk);
	if (e)
		return e;
	differing = count_differing(s);
	report_sitting(c, s, queried ? "queried" : ending == KEYED ? "keyed" : "paused");
	if (ending == PAUSED)
		rt_report_note(&c->report, "Every mark shown above is kept; the same command goes "
					   "on at the first empty box.");
	if (queried)
		rt_report_note(&c->report, "The sheet has empty boxes: it is queried until they "
					   "are keyed.");
	if (ending == KEYED && differing)
		rt_report_note(&c->report, "%zu %s in the two keyings: see mark compare.",
			       differing,
			       differing == 1 ? "box or line differs" : "boxes or lines differ");
	if (ending == KEYED && off)
		rt_report_note(&c->report, "The hand total is not the sum of the boxes: look at "
					   "the sheet.");
	c->report.needs_person |= ending != KEYED || queried || differing || off;
	return RT_OK;
}

static enum rt_err mark_enter(struct cli *c, const struct cli_call *call)
{
	struct sitting s = {.pass_id = 0};
	enum ending ending = PAUSED;
	enum rt_err e = open_sitting(c, call, &s);

	if (!e) {
		cli_terminal_open(&s.terminal, c->format == CLI_TEXT ? stdout : stderr);
		greet(&s);
		e = talk(c, &s, &ending);
		cli_terminal_close(&s.terminal);
	}
	if (!e)
		e = conclude(c, &s, ending);
	if (!e && s.pass_id)
		e = CLI_OLD(c, cli_note_posted(c, s.desk.book.classes.at->name));
	rt_keying_free(&s.keying);
	cli_desk_free(&s.desk);
	return e;
}

const struct cli_command cmd_mark_enter = {
	.group = "Marks",
	.name = "mark enter",
	.args = "CLASS NUMBER --judge POSITION --by NAME",
	.summary = "Key one sheet at a terminal, box by box.",
	.details =
		"A mark is typed as 65 or 6.5 (7 is 7.0; 10 and 100 are 10), a remark behind it: 65 late\n"
		"at E. Enter keeps what a box says, b goes back a step, p (or the end of input, or a lost\n"
		"connection) pauses: each mark is safe before the next is asked for, and the same command\n"
		"goes on at the first empty box. Errors of course are keyed with the sheet, 0 too; then\n"
		"the hand total, if there is one. The second keying is for another person. Exit status 1\n"
		"when the sheet is paused, has empty boxes, differs from the other keying, or when its\n"
		"hand total is not the sum of its boxes.",
	.example = "--show spring.show mark enter 1 11 --judge C --by \"Tove Hallbäck\"",
	.old_option = {{"judge", "POSITION", "whose sheet", true},
		       {"by", "NAME", "who keys it", true},
		       {"keying", "1|2", "unless given, the first that is not whole", false},
		       {"unfinished", NULL, "the sheet may end with empty boxes: it is queried",
			false},
		       {"force", NULL, "key both keyings, or a sheet of one who did not start",
			false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = mark_enter,
};
