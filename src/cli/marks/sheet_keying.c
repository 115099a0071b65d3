/* A sheet keyed at a terminal, item by item, each mark safe before the next.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_keying.h"

#include <inttypes.h>
#include <stdarg.h>

#define PROMPT_MOST 1200

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

bool cli_sheet_whole(const struct cli_desk *d, int64_t entry, int keying)
{
	int64_t judge = d->judge->id;

	for (size_t i = 0; i < d->asked.n; i++)
		if (!rt_mark_latest(&d->versions, entry, judge, RT_MARK_ITEM, d->asked.at[i].id,
				    keying))
			return false;
	return rt_mark_latest(&d->versions, entry, judge, RT_MARK_ERRORS, 0, keying) != NULL;
}

static const char *keying_words(int keying)
{
	return keying == 1 ? "first" : "second";
}

/* Two keyings want two people. */
static void check_person(struct cli *c, struct cli_sheet_keying *s, bool same_person)
{
	const struct cli_desk *d = &s->desk;
	int other = RT_KEYINGS + 1 - s->pass.keying;
	const struct rt_mark_version *v = rt_keyed_by(&d->versions, d->entry->id, d->judge->id,
						      other, s->pass.who);

	if (!v)
		return;
	if (!same_person) {
		CLI_FAIL(c, RT_E_INPUT,
			 "%s keyed the %s keying of this sheet (%s): another person "
			 "keys the %s, or --same-person",
			 v->who, keying_words(other), v->when ? v->when : "no time known",
			 keying_words(s->pass.keying));
		return;
	}
	s->pass.why = "both keyings by one person";
	rt_report_note(&c->report, "Both keyings of this sheet are by %s: taken so, and kept.",
		       s->pass.who);
}

void cli_sheet_keying_open(struct cli *c, const struct cli_enter *o, int64_t number, int64_t keying,
			   struct cli_sheet_keying *s)
{
	const struct cli_desk *d = &s->desk;

	CLI_DO(c, rt_store_begin_reading(c->store, &c->err));
	cli_desk_sheet(c, &s->desk, o->class_name, number, o->judge, true);
	cli_end(c);
	if (c->err.code)
		return;
	if (!o->unexpected)
		check_entry(c, d);
	s->pass = (struct rt_pass){(int)keying, o->by, c->when, "mark enter", NULL};
	if (!keying)
		s->pass.keying = cli_sheet_whole(d, d->entry->id, 1) ? 2 : 1;
	check_person(c, s, o->same_person);
	CLI_DO(c, rt_keying_make(&s->keying, &d->asked,
				 o->unfinished || d->entry->status != RT_ENTERED, &c->err));
	if (c->err.code)
		return;
	for (size_t i = 0, box = 0; i < d->book.items.n; i++) /* whose judge cannot be asked */
		if (rt_class_marks_asked(&d->book.marks, d->judge_place, i))
			s->keying.box[box++].missing = rt_class_marks_box(&d->book.marks,
									  d->entry_place,
									  d->judge_place, i)
							       ->missing;
	CLI_DO(c, rt_keying_resume(&s->keying, &d->versions, d->entry->id, d->judge->id,
				   s->pass.keying, &c->err));
}

/* Who kept the latest mark of this keying of the sheet. */
static const struct rt_mark_version *latest_here(const struct cli_sheet_keying *s)
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

void cli_sheet_keying_greet(struct cli_sheet_keying *s)
{
	const struct cli_desk *d = &s->desk;
	const struct rt_mark_version *latest = latest_here(s);
	FILE *out = s->terminal->out;

	fprintf(out, "Class %s, number %" PRId64 ": %s, %s\nJudge %s, %s keying, by %s\n",
		d->book.classes.at->name, d->entry->number, d->entry->driver, d->entry->horses,
		d->judge->position, keying_words(s->pass.keying), s->pass.who);
	if (d->entry->status != RT_ENTERED)
		fprintf(out,
			"This entry is %s: boxes after that stay empty (-, or -- for the rest).\n",
			rt_status_words(d->entry->status));
	if (latest)
		fprintf(out, "%zu of %zu boxes are keyed already, the latest by %s%s%s.\n",
			rt_keying_filled(&s->keying), d->asked.n,
			latest->who ? latest->who : "somebody", latest->when ? " at " : "",
			latest->when ? latest->when : "");
	if (!s->pile)
		fputs("A mark as 65 or 6.5, with a remark behind it if there is one; ? for "
		      "help.\n",
		      out);
	fputc('\n', out);
}

/* ---- the talk ---------------------------------------------------------------------------- */

/* Another desk has been at this box. */
static void tell_other_desk(struct cli *c, struct cli_sheet_keying *s,
			    const struct rt_keying_step *step)
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
		       step->kind == RT_MARK_ITEM ? d->asked.at[step->box].name
						  : rt_mark_kind_words(step->kind),
		       v && v->who ? v->who : "somebody", v && v->when ? " at " : "",
		       v && v->when ? v->when : "");
}

/* Keep one mark, or ask for it again when the file was busy; whatever becomes of it, the marks
 * before it are safe.  False when another desk was at the box. */
static bool keep_mark(struct cli *c, struct cli_sheet_keying *s, const struct rt_keying_step *step)
{
	const struct rt_keyed_box *box = &s->keying.box[step->box];
	int64_t pass = s->pass_id, seen = box->version ? box->version : box->emptied;
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
		cli_terminal_say(s->terminal, c->err.text);
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
	cli_terminal_say(s->terminal, step->say);
	CLI_DO(c, rt_keying_kept(&s->keying, step, seen + 1, &c->err));
	return true;
}

/* The next mark of a row, or what is typed next; false when the talk is over. */
static bool ask(struct cli_sheet_keying *s, char line[CLI_LINE_MOST])
{
	char prompt[PROMPT_MOST];

	if (rt_keying_row(&s->keying, line))
		return true;
	rt_keying_prompt(&s->keying, prompt, sizeof prompt);
	return cli_terminal_ask(s->terminal, prompt, line);
}

enum cli_ending cli_sheet_keying_talk(struct cli *c, struct cli_sheet_keying *s)
{
	char line[CLI_LINE_MOST];
	struct rt_keying_step step;

	while (!c->err.code) {
		if (s->pile && s->keying.at == s->keying.boxes)
			*line = '\0'; /* no last look */
		else if (!ask(s, line))
			break;
		rt_keying_take(&s->keying, line, &step);
		if (step.act == RT_KEYING_PAUSE)
			break;
		if (step.act == RT_KEYING_END)
			return CLI_KEYED;
		if (step.act != RT_KEYING_KEEP)
			cli_terminal_say(s->terminal, step.say);
		else if (!keep_mark(c, s, &step))
			return CLI_OTHER_DESK;
	}
	return CLI_PAUSED;
}

/* ---- behind the last prompt -------------------------------------------------------------- */

/* Say how a sheet stands in the register after its keying, where its marks do not tell; true when
 * it is queried. */
static bool note_sheet(struct cli *c, struct cli_sheet_keying *s)
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
static size_t count_differing(const struct cli_sheet_keying *s)
{
	const struct cli_desk *d = &s->desk;
	size_t differing = 0;

	for (size_t box = 0; box < s->keying.boxes; box++) {
		bool item = box < d->asked.n;
		enum rt_mark_kind kind = item		     ? RT_MARK_ITEM
					 : box == d->asked.n ? RT_MARK_ERRORS
							     : RT_MARK_TOTAL;
		const struct rt_mark_version *v = rt_mark_latest(
			&d->versions, d->entry->id, d->judge->id, kind,
			item ? d->asked.at[box].id : 0, RT_KEYINGS + 1 - s->pass.keying);

		differing += v && s->keying.box[box].version &&
			     v->value != s->keying.box[box].value;
	}
	return differing;
}

struct row {
	const char *class_name, *judge, *state;
	int64_t number;
	int keying;
	size_t keyed, boxes;
	struct rt_exact points, maximum, errors, total;
};

#define ROW(member) RT_AT(struct row, member)

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

const struct rt_record cli_sheet_keying_table = RT_TABLE("sheet", "Sheet", sheet_fields,
							 struct row);

/* A note on one sheet: of a pile it says which. */
RT_PRINTF(3, 4)
static void note(struct cli *c, const struct cli_sheet_keying *s, const char *fmt, ...)
{
	char words[200];
	va_list args;

	va_start(args, fmt);
	vsnprintf(words, sizeof words, fmt, args);
	va_end(args);
	if (s->pile)
		rt_report_note(&c->report, "Number %" PRId64 ": %s", s->desk.entry->number, words);
	else
		rt_report_note(&c->report, "%s", words);
}

void cli_sheet_keying_conclude(struct cli *c, struct cli_sheet_keying *s, enum cli_ending ending,
			       struct rt_table *t)
{
	struct cli_desk *d = &s->desk;
	size_t items = d->asked.n, filled = rt_keying_filled(&s->keying);
	const struct rt_keyed_box *errors = &s->keying.box[items], *total = errors + 1;
	int64_t points, most;
	bool queried, off;

	/* Nobody presses Enter where a file feeds the marks: a whole sheet is a keyed one. */
	if (ending == CLI_PAUSED && rt_keying_whole(&s->keying))
		ending = CLI_KEYED;
	queried = ending == CLI_KEYED && note_sheet(c, s);
	cli_desk_versions(c, d);
	if (c->err.code)
		return;
	rt_keying_points(&s->keying, &points, &most);
	off = total->version && filled == items && total->value != points;
	s->differing = ending == CLI_KEYED ? count_differing(s) : 0;
	rt_put_row(t, &(struct row){
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
			      .state = queried		     ? "queried"
				       : ending == CLI_KEYED ? "keyed"
							     : "paused",
		      });
	if (ending == CLI_PAUSED)
		note(c, s, "%s",
		     s->pile ? "it is paused; what was keyed is kept."
			     : "Every mark shown above is kept; the same command goes on at the "
			       "first empty box.");
	if (queried)
		note(c, s, "The sheet has empty boxes: it is queried until they are keyed.");
	if (s->differing && !s->pile)
		note(c, s, "%zu %s in the two keyings: see mark compare.", s->differing,
		     s->differing == 1 ? "box or line differs" : "boxes or lines differ");
	if (ending == CLI_KEYED && off)
		note(c, s, "The hand total is not the sum of the boxes: look at the sheet.");
	c->report.needs_person |= ending != CLI_KEYED || queried || off;
}

void cli_sheet_keying_free(struct cli_sheet_keying *s)
{
	rt_keying_free(&s->keying);
	cli_desk_free(&s->desk);
}
