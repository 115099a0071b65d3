/* A pile of sheets of one judge: keyed one after another by their numbers, and settled where the
 * two keyings differ.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../times/times.h"
#include "sheet_keying.h"

#include <inttypes.h>
#include <string.h>

#define PROMPT_MOST 800
#define VALUE_MOST  24

struct numbers RT_LIST(int64_t);

struct pile {
	const struct cli_enter *typed;
	struct cli_terminal terminal;
	struct cli_desk desk; /* the class as it was when a number was asked for */
	struct rt_table *sheets, *settled;
	struct numbers differing; /* whose keyings differ */
	int64_t last;		  /* the number that was keyed last; 0: none yet */
	int keying;		  /* its keying */
	const struct rt_entry *next;
	bool kept;   /* any mark was */
	size_t left; /* differences that nobody settled */
};

/* ---- the next number --------------------------------------------------------------------- */

/* Whether the sheet of an entry is still to be keyed in this keying. */
static bool is_waited_for(const struct pile *p, size_t entry, int keying)
{
	const struct rt_class_marks *m = &p->desk.book.marks;
	const struct rt_entry *e = &m->entries->at[entry];

	return e->status != RT_WITHDRAWN && e->status != RT_DID_NOT_START &&
	       !m->lines[entry * m->class_->judges.n + p->desk.judge_place].away &&
	       !cli_sheet_whole(&p->desk, e->id, keying);
}

/* The entry that is waited for and comes first behind a rank (-1: of all); NULL: none. */
static const struct rt_entry *first_behind(const struct pile *p, const int64_t *rank, int64_t after,
					   int keying)
{
	const struct rt_entries *entries = &p->desk.book.entries;
	size_t first = entries->n;

	for (size_t i = 0; i < entries->n; i++)
		if (rank[i] > after && (first == entries->n || rank[i] < rank[first]) &&
		    is_waited_for(p, i, keying))
			first = i;
	return first < entries->n ? &entries->at[first] : NULL;
}

static void find_next(struct cli *c, struct pile *p)
{
	const struct rt_entries *entries = &p->desk.book.entries;
	int keying = p->typed->keying ? (int)p->typed->keying : p->keying ? p->keying : 1;
	int64_t *rank = cli_array(c, entries->n, sizeof *rank), after = -1;
	const char *by;

	p->next = NULL;
	CLI_DO(c, cli_rank_starts(c, p->typed->class_name, entries, rank, &by));
	if (c->err.code)
		return;
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].number == p->last)
			after = rank[i];
	p->next = first_behind(p, rank, after, keying);
	if (!p->next)
		p->next = first_behind(p, rank, -1, keying);
	if (!p->next && !p->last && !p->typed->keying)
		p->next = first_behind(p, rank, -1, 2);
}

/* Read the class as it is now. */
static void read_class(struct cli *c, struct pile *p)
{
	cli_desk_free(&p->desk);
	p->desk = (struct cli_desk){.entry = NULL};
	CLI_DO(c, rt_store_begin_reading(c->store, &c->err));
	cli_desk_sheet(c, &p->desk, p->typed->class_name, 0, p->typed->judge, true);
	if (!c->err.code)
		find_next(c, p);
	cli_end(c);
}

/* What is typed, without the spaces around it. */
static bool ask(struct pile *p, const char *prompt, char line[CLI_LINE_MOST])
{
	char *s;

	if (!cli_terminal_ask(&p->terminal, prompt, line))
		return false;
	s = line + strspn(line, " \t\r");
	memmove(line, s, strlen(s) + 1);
	for (size_t n = strlen(line); n && strchr(" \t\r", line[n - 1]); n--)
		line[n - 1] = '\0';
	return true;
}

/* The number of the next sheet, 0 at the end of the pile; *back (NULL: it cannot be): the one
 * before is taken up again. */
static int64_t ask_number(struct cli *c, struct pile *p, bool *back)
{
	char prompt[PROMPT_MOST] = "\nNumber (", line[CLI_LINE_MOST];
	int64_t number;

	read_class(c, p);
	if (c->err.code)
		return 0;
	if (p->next)
		rt_append(prompt, sizeof prompt, "n: %" PRId64 ", %.200s; ", p->next->number,
			  p->next->driver);
	if (back)
		rt_append(prompt, sizeof prompt, "b: back to %" PRId64 "; ", p->last);
	rt_append(prompt, sizeof prompt, "Enter ends the pile): ");
	while (ask(p, prompt, line) && *line) {
		if (back && strcmp(line, "b") == 0) {
			*back = true;
			return p->last;
		}
		if (p->next && strcmp(line, "n") == 0)
			return p->next->number;
		if (rt_parse_int(line, &number) && number >= 1 && number <= RT_NUMBER_MOST)
			return number;
		fprintf(p->terminal.out, "\"%.40s\" is no number of an entry.\n", line);
	}
	return 0;
}

/* ---- one sheet --------------------------------------------------------------------------- */

/* Take a sheet up; false when it cannot be keyed, which is said and ends nothing. */
static bool open_sheet(struct cli *c, struct pile *p, int64_t number, struct cli_sheet_keying *s)
{
	cli_sheet_keying_open(c, p->typed, number, p->typed->keying, s);
	if (c->err.code == RT_E_INPUT || c->err.code == RT_E_NOTFOUND || c->err.code == RT_E_BUSY) {
		cli_terminal_say(&p->terminal, c->err.text);
		c->err = (struct rt_error){.code = RT_OK};
		return false;
	}
	if (c->err.code)
		return false;
	if (rt_keying_whole(&s->keying))
		s->keying.at = 0; /* it is keyed anew */
	return true;
}

/* Key a sheet until another number is given, which is returned; only then it is concluded. */
static int64_t talk(struct cli *c, struct pile *p, struct cli_sheet_keying *s,
		    enum cli_ending *ending)
{
	bool back = true;
	int64_t next = 0;

	while (back && !c->err.code) {
		*ending = cli_sheet_keying_talk(c, s);
		p->last = s->desk.entry->number;
		p->keying = s->pass.keying;
		back = false;
		next = ask_number(c, p, *ending == CLI_OTHER_DESK ? NULL : &back);
		if (!back)
			break;
		if (*ending == CLI_KEYED)
			s->keying.at = s->keying.boxes - 1;
		fprintf(p->terminal.out, "Number %" PRId64 " again\n", p->last);
	}
	return next;
}

/* Whether a number is in the list already. */
static bool is_listed(const struct numbers *numbers, int64_t number)
{
	for (size_t i = 0; i < numbers->n; i++)
		if (numbers->at[i] == number)
			return true;
	return false;
}

/* Key the sheet of a number; the next one. */
static int64_t key_sheet(struct cli *c, struct pile *p, int64_t number)
{
	struct cli_sheet_keying s = {.terminal = &p->terminal, .pile = true};
	enum cli_ending ending = CLI_PAUSED;
	int64_t next;

	if (open_sheet(c, p, number, &s)) {
		cli_sheet_keying_greet(&s);
		next = talk(c, p, &s, &ending);
		cli_sheet_keying_conclude(c, &s, ending, p->sheets);
		cli_end(c);
		p->kept |= s.pass_id != 0;
		if (s.differing && !is_listed(&p->differing, number))
			CLI_ADD(c, &p->differing, number);
	} else {
		next = ask_number(c, p, NULL);
	}
	cli_sheet_keying_free(&s);
	return next;
}

/* ---- what the two keyings say differently ------------------------------------------------ */

/* A box or line of a sheet that they say differently, and what becomes of it. */
struct difference {
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	enum rt_mark_kind kind;
	const struct rt_item *item; /* NULL: a line */
	const char *name;
	const struct rt_mark_version *said[RT_KEYINGS];
	int64_t value;
	const char *why;
	struct rt_exact shown[RT_KEYINGS + 1];
};

static const struct rt_field settled_fields[] = {
	{"number", .head = "No.", RT_IN(struct difference, entry, struct rt_entry, number),
	 .type = RT_INT},
	{"judge", .head = "Judge", RT_IN(struct difference, judge, struct rt_judge, position)},
	{"item", .head = "Item", RT_AT(struct difference, name)},
	{"first_mark", .head = "First", RT_AT(struct difference, shown[0]), .type = RT_EXACT},
	{"second_mark", .head = "Second", RT_AT(struct difference, shown[1]), .type = RT_EXACT},
	{"settled", .head = "Settled", RT_AT(struct difference, shown[2]), .type = RT_EXACT},
	{"why", .head = "Why", RT_AT(struct difference, why)},
};

const struct rt_record cli_settled_table = RT_TABLE("settled", "Keyings settled", settled_fields,
						    struct difference);

/* As a person writes it. */
static struct rt_exact exact_of(enum rt_mark_kind kind, int64_t value)
{
	if (kind == RT_MARK_ERRORS)
		return rt_exact(value, 0);
	return rt_exact_short(value, kind == RT_MARK_ITEM ? 2 : 5, 1);
}

static bool find_difference(const struct pile *p, const struct rt_entry *entry, size_t box,
			    struct difference *out)
{
	const struct rt_items *items = &p->desk.book.items;

	*out = (struct difference){.entry = entry,
				   .judge = p->desk.judge,
				   .kind = box < items->n    ? RT_MARK_ITEM
					   : box == items->n ? RT_MARK_ERRORS
							     : RT_MARK_TOTAL,
				   .item = box < items->n ? &items->at[box] : NULL};
	out->name = out->item ? out->item->name : rt_mark_kind_words(out->kind);
	for (int k = 0; k < RT_KEYINGS; k++) {
		out->said[k] = rt_mark_latest(&p->desk.versions, entry->id, p->desk.judge->id,
					      out->kind, out->item ? out->item->id : 0, k + 1);
		if (out->said[k])
			out->shown[k] = exact_of(out->kind, out->said[k]->value);
	}
	return out->said[0] && out->said[1] && out->said[0]->value != out->said[1]->value;
}

static bool read_value(const struct pile *p, const struct difference *d, const char *typed,
		       int64_t *value)
{
	switch (d->kind) {
	case RT_MARK_ITEM:
		return rt_mark_typed(typed, d->item->mark_step_x100, value);
	case RT_MARK_ERRORS:
		return rt_sheet_errors_typed(typed, value);
	case RT_MARK_TOTAL:
		break;
	}
	return rt_total_typed(typed, cli_desk_maximum(&p->desk), value);
}

/* Which is right; false when it is left open, or the talk is over. */
static bool ask_right(struct pile *p, struct difference *d)
{
	char prompt[PROMPT_MOST], line[CLI_LINE_MOST], one[RT_KEYINGS][VALUE_MOST];

	for (int k = 0; k < RT_KEYINGS; k++)
		rt_format_decimal(d->shown[k].units, d->shown[k].digits, one[k], VALUE_MOST);
	snprintf(prompt, sizeof prompt,
		 "\nNumber %" PRId64 ", %s%s%s%.300s: first %s by %.100s, second %s by %.100s\n"
		 "    1 or 2 for the one that is right, else %s; s skips: ",
		 d->entry->number, d->item ? "item " : "", d->name, d->item ? "  " : "",
		 d->item ? d->item->movement : "", one[0],
		 d->said[0]->who ? d->said[0]->who : "somebody", one[1],
		 d->said[1]->who ? d->said[1]->who : "somebody",
		 d->item ? "the mark (1.0, 2.0)" : "what the sheet says");
	while (ask(p, prompt, line)) {
		bool first = strcmp(line, "1") == 0, second = strcmp(line, "2") == 0;

		if (strcmp(line, "s") == 0)
			return false;
		d->why = first	  ? "the first keying is right"
			 : second ? "the second keying is right"
				  : "both keyings were wrong";
		if (first || second)
			d->value = d->said[second]->value;
		if (first || second || read_value(p, d, line, &d->value))
			return true;
		fprintf(p->terminal.out, "\"%.40s\": 1, 2, s, or what the sheet says.\n", line);
	}
	return false;
}

/* Put what is right into the keyings that say something else. */
static void settle(struct cli *c, struct pile *p, struct difference *d)
{
	cli_begin(c);
	for (int k = 0; k < RT_KEYINGS; k++)
		if (d->said[k]->value != d->value)
			cli_desk_fix(c, d->said[k], k + 1, d->value, p->typed->by, d->why);
	cli_end(c);
	if (c->err.code)
		return;
	p->kept = true;
	d->shown[RT_KEYINGS] = exact_of(d->kind, d->value);
	rt_put_row(p->settled, d);
}

static void settle_sheet(struct cli *c, struct pile *p, int64_t number)
{
	struct difference d;

	cli_desk_entry(c, &p->desk, number);
	for (size_t box = 0; box < p->desk.book.items.n + 2 && !c->err.code; box++) {
		if (!find_difference(p, p->desk.entry, box, &d))
			continue;
		if (ask_right(p, &d))
			settle(c, p, &d);
		else
			p->left++;
	}
}

/* ---- the pile ---------------------------------------------------------------------------- */

static void greet(const struct pile *p)
{
	const struct rt_judge *judge = p->desk.judge;

	fprintf(p->terminal.out,
		"Class %s, judge %s%s%s: a pile of sheets, by %s\n"
		"A mark as 65 or 6.5, or a row of them as 65707560; ? for help.\n",
		p->desk.book.classes.at->name, judge->position, judge->name ? " " : "",
		judge->name ? judge->name : "", p->typed->by);
}

void cli_pile(struct cli *c, const struct cli_enter *o)
{
	struct pile p = {.typed = o};
	int64_t number;

	read_class(c, &p);
	if (!c->err.code) {
		p.sheets = rt_report_rows(&c->report, &cli_sheet_keying_table);
		p.settled = rt_report_rows(&c->report, &cli_settled_table);
		cli_terminal_open(&p.terminal, c->format == CLI_TEXT ? stdout : stderr);
		greet(&p);
		for (number = ask_number(c, &p, NULL); number && !c->err.code;)
			number = key_sheet(c, &p, number);
		for (size_t i = 0; i < p.differing.n && !c->err.code; i++)
			settle_sheet(c, &p, p.differing.at[i]);
		cli_terminal_close(&p.terminal);
	}
	if (p.left)
		rt_report_note(&c->report,
			       "%zu box%s or line%s of the two keyings differ%s: mark compare "
			       "shows them, mark fix settles them.",
			       p.left, p.left == 1 ? "" : "es", p.left == 1 ? "" : "s",
			       p.left == 1 ? "s" : "");
	c->report.needs_person |= p.left > 0;
	if (p.kept)
		cli_note_posted(c, o->class_name);
	RT_LIST_FREE(&p.differing);
	cli_desk_free(&p.desk);
}
