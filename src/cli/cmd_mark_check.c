/* mark compare, mark fix and mark history: keyings side by side, settled, and looked up.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- mark compare, mark history ---------------------------------------------------------- */

static enum rt_err open_some(struct cli *c, const struct cli_call *call, struct cli_desk *d)
{
	if (call->args > 1)
		return cli_desk_entry(c, d, call->arg[0], call->arg[1], false);
	return cli_desk_class(c, d, call->arg[0], false);
}

static enum rt_err mark_compare(struct cli *c, const struct cli_call *call)
{
	struct cli_desk d = {.entry = NULL};
	enum rt_err e = open_some(c, call, &d);

	if (!e)
		rt_compare_report(&c->report, &d.book.marks, &d.versions,
				  d.entry ? d.entry->number : -1);
	cli_desk_free(&d);
	return e;
}

const struct cli_command cmd_mark_compare = {
	.group = "Marks",
	.name = "mark compare",
	.args = "CLASS [NUMBER]",
	.summary = "Where the two keyings differ, and what was keyed once only.",
	.details =
		"Box by box; hand totals that are not the sum of their boxes; sheets whose keyings are\n"
		"by one person. Entries that are out of the class are left out. Exit status 1 when\n"
		"something differs.",
	.example = "--show spring.show mark compare 3",
	.old_min_args = 1,
	.old_max_args = 2,
	.old_run = mark_compare,
};

static enum rt_err mark_history(struct cli *c, const struct cli_call *call)
{
	const char *item = cli_option(call, "item");
	struct cli_desk d = {.entry = NULL};
	const struct rt_item *box;
	enum rt_mark_kind kind;
	enum rt_err e;

	if (cli_option(call, "judge"))
		e = cli_desk_sheet(c, &d, call, false);
	else
		e = cli_desk_entry(c, &d, call->arg[0], call->arg[1], false);
	if (!e && item)
		e = cli_desk_item(c, &d, item, &kind, &box);
	if (!e)
		rt_history_report(&c->report, &d.book.marks, &d.versions,
				  d.judge ? d.judge->position : NULL, item);
	cli_desk_free(&d);
	return e;
}

const struct cli_command cmd_mark_history = {
	.group = "Marks",
	.name = "mark history",
	.args = "CLASS NUMBER [--judge POSITION] [--item ITEM]",
	.summary = "Every version of the marks of an entry, with who, when and why.",
	.details = "Versions are in the order they were kept in, whatever the clock said.",
	.example = "--show spring.show mark history 1 11 --judge C --item 3",
	.old_option = {{"judge", "POSITION", "of one judge's sheet", false},
		       {"item", "ITEM", "of one box; errors or total", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = mark_history,
};

/* ---- mark fix ---------------------------------------------------------------------------- */

#define EMPTY (-1)
#define WAS   60 /* bytes of "6.5/7.0" */

struct fix {
	struct cli_desk desk;
	enum rt_mark_kind kind;
	const struct rt_item *item; /* NULL: a line */
	int64_t value;
	const char *was; /* as typed; NULL: not given */
	struct rt_pass pass;
	char before[WAS], after[WAS];
	size_t changed; /* keyings that were */
};

static bool read_value(const struct fix *f, const char *typed, int64_t *value)
{
	switch (f->kind) {
	case RT_MARK_ITEM:
		return rt_mark_typed(typed, f->item->mark_step_x10, value);
	case RT_MARK_ERRORS:
		return rt_sheet_errors_typed(typed, value);
	case RT_MARK_TOTAL:
		break;
	}
	return rt_total_typed(typed, cli_desk_maximum(&f->desk), value);
}

static void accepted_words(const struct fix *f, char *out, size_t size)
{
	switch (f->kind) {
	case RT_MARK_ITEM:
		rt_mark_accepted(f->item->mark_step_x10, out, size);
		break;
	case RT_MARK_ERRORS:
		snprintf(out, size, "0 to %d", RT_SHEET_ERRORS_MOST);
		break;
	case RT_MARK_TOTAL:
		snprintf(out, size, "0 to %" PRId64, cli_desk_maximum(&f->desk) / 10000);
		break;
	}
}

static enum rt_err read_fix(struct cli *c, const struct cli_call *call, struct fix *f)
{
	char accepted[100];
	enum rt_err e = cli_text(c, "--why", cli_option(call, "why"), CLI_TEXT_MOST, true);

	if (!e)
		e = cli_desk_sheet(c, &f->desk, call, true);
	if (!e)
		e = cli_desk_item(c, &f->desk, cli_option(call, "item"), &f->kind, &f->item);
	if (e || read_value(f, call->arg[2], &f->value))
		return e;
	accepted_words(f, accepted, sizeof accepted);
	return rt_fail(&c->err, RT_E_USAGE, "\"%.40s\": %s", call->arg[2], accepted);
}

static const struct rt_mark_version *said(const struct fix *f, int keying)
{
	return rt_mark_latest(&f->desk.versions, f->desk.entry->id, f->desk.judge->id, f->kind,
			      f->item ? f->item->id : 0, keying);
}

/* What the keyings say: "6.5", or "6.5/7.0" where they differ or one is empty. */
static void format_said(const struct fix *f, char out[WAS])
{
	int digits = f->kind == RT_MARK_ITEM ? 1 : f->kind == RT_MARK_ERRORS ? 0 : 4;
	char one[RT_KEYINGS][24];

	for (int k = 0; k < RT_KEYINGS; k++) {
		const struct rt_mark_version *v = said(f, k + 1);

		snprintf(one[k], sizeof one[k], "-");
		if (v)
			rt_format_decimal(v->value, digits, one[k], sizeof one[k]);
	}
	if (strcmp(one[0], one[1]) == 0)
		snprintf(out, WAS, "%s", one[0]);
	else
		snprintf(out, WAS, "%s/%s", one[0], one[1]);
}

/* One half of what --was says; "-" is an empty box. */
static bool read_was(const struct fix *f, const char *typed, int64_t *value)
{
	*value = EMPTY;
	return strcmp(typed, "-") == 0 || read_value(f, typed, value);
}

/* Whether the keyings still say what was shown: one value for those that have any, or two. */
static bool is_as_shown(const struct fix *f)
{
	const char *slash = strchr(f->was, '/');
	size_t n = slash ? (size_t)(slash - f->was) : strlen(f->was);
	char first[24];
	int64_t shown[RT_KEYINGS];
	bool any = false;

	if (n >= sizeof first)
		return false;
	memcpy(first, f->was, n);
	first[n] = '\0';
	if (!read_was(f, first, &shown[0]) || !read_was(f, slash ? slash + 1 : first, &shown[1]))
		return false;
	for (int k = 0; k < RT_KEYINGS; k++) {
		const struct rt_mark_version *v = said(f, k + 1);

		any |= v != NULL;
		if (!v && !slash)
			continue;
		if ((v ? v->value : EMPTY) != shown[k])
			return false;
	}
	return any || shown[0] == EMPTY;
}

/* The version of the box that came last. */
static const struct rt_mark_version *latest_said(const struct fix *f)
{
	const struct rt_mark_version *one = said(f, 1), *other = said(f, 2);

	if (!one || !other)
		return one ? one : other;
	return other->pass > one->pass ? other : one;
}

/* Tell the desk that sees an older mark what the box says now, and who said so. */
static enum rt_err check_seen(struct cli *c, const struct fix *f)
{
	const struct rt_mark_version *v = latest_said(f);
	bool fixed = v && v->source && strcmp(v->source, RT_SOURCE_FIX) == 0;

	if (f->was ? is_as_shown(f) : !fixed || rt_same_name(v->who, f->pass.who))
		return RT_OK;
	if (!v)
		return rt_fail(&c->err, RT_E_INPUT, "--was %.40s: the box is empty", f->was);
	return rt_fail(&c->err, RT_E_INPUT,
		       "the box says %s now, by %s%s%s%s%s%s: look again; --was %s changes it",
		       f->before, v->who ? v->who : "somebody", v->when ? " at " : "",
		       v->when ? v->when : "", v->why ? " (" : "", v->why ? v->why : "",
		       v->why ? ")" : "", f->before);
}

/* Whether a fix writes to a keying: marks and errors where the sheet has been keyed at all, a
 * total where there is one. */
static bool is_begun(const struct fix *f, int keying)
{
	const struct rt_mark_versions *all = &f->desk.versions;

	if (f->kind == RT_MARK_TOTAL)
		return said(f, keying) != NULL;
	for (size_t i = 0; i < all->n; i++)
		if (all->at[i].judge == f->desk.judge->id && all->at[i].keying == keying &&
		    all->at[i].kind != RT_MARK_TOTAL)
			return true;
	return false;
}

static enum rt_err fix_keying(struct cli *c, struct fix *f, int keying)
{
	const struct rt_mark_version *v = said(f, keying);
	bool put;
	enum rt_err e;

	if (v && v->value == f->value)
		return RT_OK;
	f->pass.keying = keying;
	f->changed++;
	e = rt_store_pass_begin(c->store, &f->pass, &c->err);
	return e ? e
		 : rt_store_mark_put_after(c->store, f->desk.entry->id, f->desk.judge->id,
					   f->item ? f->item->id : 0, f->kind, f->value,
					   v ? v->remark : NULL, v ? v->version : 0, &put, &c->err);
}

static enum rt_err put_fix(struct cli *c, struct fix *f)
{
	bool any = false;
	enum rt_err e;

	format_said(f, f->before);
	e = check_seen(c, f);
	for (int k = 1; k <= RT_KEYINGS && !e; k++) {
		if (!is_begun(f, k))
			continue;
		any = true;
		e = fix_keying(c, f, k);
	}
	if (!e && !any)
		return rt_fail(&c->err, RT_E_INPUT, "%s",
			       f->kind == RT_MARK_TOTAL
				       ? "this sheet has no hand total: mark total keeps one"
				       : "this sheet has not been keyed: mark enter keys it");
	return e ? e : cli_desk_again(c, &f->desk);
}

static void report_fix(struct cli *c, const struct fix *f)
{
	static const struct rt_field columns[] = {
		{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
		{"judge", "Judge", RT_TEXT, RT_NO_UNIT, 0, false},
		{"item", "Item", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "Was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"mark", "Now", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "By", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "Why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "fixed", "Mark fixed", columns,
					     sizeof columns / sizeof *columns);

	rt_put_text(t, f->desk.book.classes.at->name);
	rt_put_int(t, f->desk.entry->number);
	rt_put_text(t, f->desk.judge->position);
	rt_put_text(t, f->item ? f->item->name : rt_mark_kind_words(f->kind));
	rt_put_text(t, f->before);
	rt_put_text(t, f->after);
	rt_put_text(t, f->pass.who);
	rt_put_text(t, f->pass.why);
	if (!f->changed)
		rt_report_note(&c->report, "The box says so already: nothing was written.");
}

static enum rt_err mark_fix(struct cli *c, const struct cli_call *call)
{
	struct fix f = {.was = cli_option(call, "was"),
			.pass = {1, cli_option(call, "by"), c->when, RT_SOURCE_FIX,
				 cli_option(call, "why")}};
	enum rt_err e = read_fix(c, call, &f);

	if (!e)
		e = put_fix(c, &f);
	if (!e) {
		format_said(&f, f.after);
		report_fix(c, &f);
		if (f.changed)
			e = CLI_OLD(c, cli_note_posted(c, f.desk.book.classes.at->name));
	}
	cli_desk_free(&f.desk);
	return e;
}

const struct cli_command cmd_mark_fix = {
	.group = "Marks",
	.name = "mark fix",
	.args = "CLASS NUMBER MARK --judge POSITION --item ITEM --by NAME --why TEXT",
	.summary = "Settle a box whose keyings differ, or correct one.",
	.details =
		"The mark goes into every keying of the sheet that was begun; what was there stays in\n"
		"the file's history. --was says what you were shown: 6.5, or 6.5/7 where the keyings\n"
		"differ; when it is something else by now nothing is written. A box that another\n"
		"person has fixed before wants it.",
	.example = "--show spring.show mark fix 1 11 6.5 --judge C --item 3 --by \"Tove Hallbäck\" "
		   "--why \"read 6 for 6.5\"",
	.old_option = {{"judge", "POSITION", "whose mark", true},
		       {"item", "ITEM", "which box; errors or total", true},
		       {"by", "NAME", "who fixes it", true},
		       {"why", "TEXT", "the reason", true},
		       {"was", "MARK", "what you were shown", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = mark_fix,
};
