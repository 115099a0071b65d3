/* mark enter: one sheet keyed at a terminal, item by item, each mark safe before the next.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>

#define PROMPT_MOST 1200

/* How a sitting at a sheet ended. */
enum ending { KEYED, PAUSED, OTHER_DESK };

struct mark_enter {
	const char *class_name, *judge, *by;
	int64_t number, keying; /* keying 0: the first that is not whole */
	bool unfinished, same_person, unexpected;
};

static const struct rt_field enter_options[] = {
	CLI_CLASS(struct mark_enter, class_name),
	CLI_NUMBER(struct mark_enter, number),
	CLI_JUDGE(struct mark_enter, judge, RT_REQUIRED),
	CLI_BY(struct mark_enter, by, RT_REQUIRED),
	{"keying", RT_AT(struct mark_enter, keying), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_KEYINGS, .help = "unless given, the first that is not whole"},
	{"unfinished", RT_AT(struct mark_enter, unfinished), .type = RT_BOOL,
	 .help = "the sheet may end with empty boxes: it is queried"},
	CLI_SAME_PERSON(struct mark_enter, same_person),
	{"unexpected", RT_AT(struct mark_enter, unexpected), .type = RT_BOOL,
	 .help = "a sheet of one who did not start, or of a judge who was away"},
};

struct sitting {
	struct cli_desk desk;
	struct rt_keying keying;
	struct rt_pass pass;
	int64_t pass_id; /* 0: nothing was kept yet */
	struct cli_terminal terminal;
};

/* ---- before the first prompt ------------------------------------------------------------- */

/* Number 18 typed for 13: a sheet that cannot be. */
static void check_entry(struct cli *c, const struct cli_desk *d)
{
	const struct rt_entry *entry = d->entry;
	size_t judges = d->book.classes.at->judges.n;

	if (d->book.marks.lines[d->entry_place * judges + d->judge_place].away)
		CLI_FAIL(c, RT_E_INPUT,
			 "judge %s was away for number %" PRId64 ": there is no "
			 "sheet; --unexpected keys it all the same",
			 d->judge->position, entry->number);
	else if (entry->status == RT_WITHDRAWN || entry->status == RT_DID_NOT_START)
		CLI_FAIL(c, RT_E_INPUT,
			 "number %" PRId64 " has no sheet, as its status is %s: see "
			 "the number; --unexpected keys it all the same",
			 entry->number, rt_status_words(entry->status));
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

static const char *keying_words(int keying)
{
	return keying == 1 ? "first" : "second";
}

/* Two keyings want two people. */
static void check_person(struct cli *c, struct sitting *s, bool same_person)
{
	const struct cli_desk *d = &s->desk;
	int other = RT_KEYINGS + 1 - s->pass.keying;
	const struct rt_mark_version *v = rt_keyed_by(&d->versions, d->entry->id, d->judge->id,
						      other, s->pass.who);

	if (!v)
		return;
	if (!same_person)
		CLI_FAIL(c, RT_E_INPUT,
			 "%s keyed the %s keying of this sheet (%s): another person "
			 "keys the %s, or --same-person",
			 v->who, keying_words(other), v->when ? v->when : "no time known",
			 keying_words(s->pass.keying));
	s->pass.why = "both keyings by one person";
	rt_report_note(&c->report, "Both keyings of this sheet are by %s: taken so, and kept.",
		       s->pass.who);
}

static void open_sitting(struct cli *c, const struct mark_enter *o, struct sitting *s)
{
	const struct cli_desk *d = &s->desk;

	cli_store_open(c, true);
	CLI_DO(c, rt_store_begin_reading(c->store, &c->err));
	cli_desk_sheet(c, &s->desk, o->class_name, o->number, o->judge, true);
	cli_end(c);
	if (c->err.code)
		return;
	if (!o->unexpected)
		check_entry(c, d);
	s->pass = (struct rt_pass){(int)o->keying, o->by, c->when, "mark enter", NULL};
	if (!o->keying)
		s->pass.keying = is_whole(d, 1) ? 2 : 1;
	check_person(c, s, o->same_person);
	CLI_DO(c, rt_keying_make(&s->keying, &d->book.items,
				 o->unfinished || d->entry->status != RT_ENTERED, &c->err));
	if (c->err.code)
		return;
	for (size_t i = 0; i < d->book.items.n; i++) /* whose judge cannot be asked */
		s->keying.box[i].missing = rt_class_marks_box(&d->book.marks, d->entry_place,
							      d->judge_place, i)
						   ->missing;
	CLI_DO(c, rt_keying_resume(&s->keying, &d->versions, d->entry->id, d->judge->id,
				   s->pass.keying, &c->err));
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

/* Another desk has been at this box. */
static void tell_other_desk(struct cli *c, struct sitting *s, const struct rt_keying_step *step)
{
	const struct cli_desk *d = &s->desk;
	const struct rt_mark_version *v;

	cli_desk_versions(c, &s->desk);
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
}

/* Keep one mark, or ask for it again when the file was busy; whatever becomes of it, the marks
 * before it are safe.  False when another desk was at the box. */
static bool keep_mark(struct cli *c, struct sitting *s, const struct rt_keying_step *step)
{
	int64_t pass = s->pass_id, seen = s->keying.box[step->box].version;
	bool put = false;

	cli_begin(c);
	CLI_DO(c, rt_store_pass_go_on(c->store, &s->pass, &s->pass_id, &c->err));
	CLI_DO(c,
	       rt_store_mark_put_after(c->store, s->desk.entry->id, s->desk.judge->id, step->item,
				       step->kind, step->value, step->remark, seen, &put, &c->err));
	cli_end(c);
	if (c->err.code)
		s->pass_id = pass; /* it was undone, if it began here */
	if (c->err.code == RT_E_BUSY) {
		cli_terminal_say(&s->terminal, c->err.text);
		c->err = (struct rt_error){.code = RT_OK};
		rt_keying_drop_row(&s->keying);
		return true;
	}
	if (c->err.code)
		return true;
	if (!put) {
		tell_other_desk(c, s, step);
		return false;
	}
	cli_terminal_say(&s->terminal, step->say);
	CLI_DO(c, rt_keying_kept(&s->keying, step, seen + 1, &c->err));
	return true;
}

static enum ending talk(struct cli *c, struct sitting *s)
{
	char prompt[PROMPT_MOST], line[CLI_LINE_MOST];
	struct rt_keying_step step;

	while (!c->err.code) {
		rt_keying_prompt(&s->keying, prompt, sizeof prompt);
		if (!rt_keying_row(&s->keying, line) &&
		    !cli_terminal_ask(&s->terminal, prompt, line))
			break;
		rt_keying_take(&s->keying, line, &step);
		if (step.act == RT_KEYING_PAUSE)
			break;
		if (step.act == RT_KEYING_END)
			return KEYED;
		if (step.act != RT_KEYING_KEEP)
			cli_terminal_say(&s->terminal, step.say);
		else if (!keep_mark(c, s, &step))
			return OTHER_DESK;
	}
	return PAUSED;
}

/* ---- behind the last prompt -------------------------------------------------------------- */

/* Say how a sheet stands in the register after its keying, where its marks do not tell; true when
 * it is queried. */
static bool note_sheet(struct cli *c, struct sitting *s)
{
	struct cli_desk *d = &s->desk;
	struct rt_sheet_events events = {0};
	struct rt_sheet_event event = {d->entry->id,	  d->judge->id, RT_SHEET_QUERIED,
				       "boxes are empty", s->pass.who,	c->when};
	bool asked = false; /* the sheet is queried now */
	bool queried = !rt_keying_whole(&s->keying) && d->entry->status == RT_ENTERED;

	cli_begin(c);
	CLI_DO(c, rt_store_sheet_events(c->store, d->book.classes.at->name, d->entry->number,
					&events, &c->err));
	for (size_t i = 0; i < events.n; i++)
		if (events.at[i].judge == d->judge->id)
			asked = events.at[i].state == RT_SHEET_QUERIED;
	RT_LIST_FREE(&events);
	if (asked) { /* it has been keyed whole, so it is back */
		event.state = RT_SHEET_IN;
		event.why = "keyed whole";
	}
	if (queried != asked)
		CLI_DO(c, rt_store_sheet_event_put(c->store, &event, &c->err));
	return queried;
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

struct sitting_row {
	const char *class_name, *judge, *state;
	int64_t number;
	int keying;
	size_t keyed, boxes;
	struct rt_exact points, maximum, errors, total;
};

#define ROW(member) RT_AT(struct sitting_row, member)

static const struct rt_field sheet_fields[] = {
	{"class", .head = "Class", ROW(class_name)},
	{"number", .head = "No.", ROW(number), .type = RT_INT},
	{"judge", .head = "Judge", ROW(judge)},
	{"keying", .head = "Keying", ROW(keying), .type = RT_SMALL},
	{"keyed", .head = "Keyed", ROW(keyed), .type = RT_SIZE},
	{"boxes", .head = "Boxes", ROW(boxes), .type = RT_SIZE},
	{"points", .head = "Points", ROW(points), .type = RT_EXACT},
	{"maximum", .head = "Of", ROW(maximum), .type = RT_EXACT},
	{"errors", .head = "Errors", ROW(errors), .type = RT_EXACT},
	{"total", .head = "Hand total", ROW(total), .type = RT_EXACT},
	{"state", .head = "State", ROW(state)},
};

static const struct rt_record sheet_table = RT_TABLE("sheet", "Sheet", sheet_fields,
						     struct sitting_row);

static void conclude(struct cli *c, struct sitting *s, enum ending ending)
{
	struct cli_desk *d = &s->desk;
	size_t items = d->book.items.n, filled = rt_keying_filled(&s->keying), differing;
	const struct rt_keyed_box *errors = &s->keying.box[items], *total = errors + 1;
	int64_t points, most;
	bool queried, off;

	/* Nobody presses Enter where a file feeds the marks: a whole sheet is a keyed one. */
	if (ending == PAUSED && rt_keying_whole(&s->keying))
		ending = KEYED;
	queried = ending == KEYED && note_sheet(c, s);
	cli_desk_versions(c, d);
	if (c->err.code)
		return;
	rt_keying_points(&s->keying, &points, &most);
	off = total->version && filled == items && total->value != points;
	differing = count_differing(s);
	rt_report_list(&c->report, &sheet_table,
		       &(struct sitting_row){
			       .class_name = d->book.classes.at->name,
			       .number = d->entry->number,
			       .judge = d->judge->position,
			       .keying = s->pass.keying,
			       .keyed = filled,
			       .boxes = items,
			       .points = rt_exact_short(points, 5, 1),
			       .maximum = rt_exact_short(cli_desk_maximum(d), 5, 1),
			       .errors = {errors->version > 0, errors->value, 0},
			       .total = total->version ? rt_exact_short(total->value, 5, 1)
						       : (struct rt_exact){.there = false},
			       .state = queried		  ? "queried"
					: ending == KEYED ? "keyed"
							  : "paused",
		       },
		       1);
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
}

static void mark_enter(struct cli *c, const void *typed)
{
	struct sitting s = {.pass_id = 0};
	enum ending ending;

	open_sitting(c, typed, &s);
	if (!c->err.code) {
		cli_terminal_open(&s.terminal, c->format == CLI_TEXT ? stdout : stderr);
		greet(&s);
		ending = talk(c, &s);
		cli_terminal_close(&s.terminal);
		conclude(c, &s, ending);
	}
	if (s.pass_id)
		cli_note_posted(c, s.desk.book.classes.at->name);
	rt_keying_free(&s.keying);
	cli_desk_free(&s.desk);
}

const struct cli_command cmd_mark_enter = {
	.name = "mark enter",
	.summary = "Key one sheet at a terminal, box by box.",
	.details =
		"A mark is typed as 65 or 6.5 (7 is 7.0; 10 and 100 are 10), a remark behind it: 65 late\n"
		"at E, or a row of marks as two digits each: 65707560. Enter keeps what a box says, b goes\n"
		"back a step and h to the first box (arrow keys, Home, End and the page keys move at a\n"
		"terminal), p (or the end of input, or a lost connection) pauses: each mark is safe before\n"
		"the next is asked for, and the same command goes on at the first empty box. Behind the\n"
		"boxes the errors of course are keyed, Enter for none; then the hand total as t 143.5, if\n"
		"there is one. The second keying is for another person. Exit status 1 when the sheet is\n"
		"paused, has empty boxes, differs from the other keying, or when its hand total is not the\n"
		"sum of its boxes.",
	.example = "--show spring.show mark enter 1 11 --judge C --by \"Tove Hallbäck\"",
	CLI_OPTIONS(struct mark_enter, enter_options),
	.run = mark_enter,
	.table = {&sheet_table},
};
