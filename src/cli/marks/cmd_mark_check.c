/* mark compare, mark fix and mark history: keyings side by side, settled, and looked up.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <string.h>

/* ---- mark compare, mark history ---------------------------------------------------------- */

struct mark_compare {
	const char *class_name;
	int64_t number; /* 0: every entry */
};

static const struct rt_field compare_options[] = {
	CLI_CLASS(struct mark_compare, class_name),
	{"number", RT_AT(struct mark_compare, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .is = RT_ARGUMENT},
};

static void mark_compare(struct cli *c, const void *typed)
{
	const struct mark_compare *o = typed;
	struct cli_desk d = {.entry = NULL};

	cli_desk_sheet(c, &d, o->class_name, o->number, NULL, false);
	if (!c->err.code)
		rt_compare_report(&c->report, &d.book.marks, &d.versions,
				  d.entry ? d.entry->number : -1);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_compare = {
	.name = "mark compare",
	.summary = "Where the two keyings differ, and what was keyed once only.",
	.details =
		"Box by box; hand totals that are not the sum of their boxes; sheets whose keyings are\n"
		"by one person. Entries that are out of the class are left out. Exit status 1 when\n"
		"something differs.",
	.example = "--show spring.show mark compare 3",
	CLI_OPTIONS(struct mark_compare, compare_options),
	.run = mark_compare,
};

struct mark_history {
	const char *class_name, *judge, *item;
	int64_t number;
};

static const struct rt_field history_options[] = {
	CLI_CLASS(struct mark_history, class_name),
	CLI_NUMBER(struct mark_history, number),
	CLI_JUDGE(struct mark_history, judge, 0),
	{"item", RT_AT(struct mark_history, item), .type = RT_NAME,
	 .help = "of one box; errors or total"},
};

static void mark_history(struct cli *c, const void *typed)
{
	const struct mark_history *o = typed;
	struct cli_desk d = {.entry = NULL};
	const struct rt_item *box;
	enum rt_mark_kind kind;

	cli_desk_sheet(c, &d, o->class_name, o->number, o->judge, false);
	if (o->item)
		cli_desk_item(c, &d, o->item, &kind, &box);
	if (!c->err.code)
		rt_history_report(&c->report, &d.book.marks, &d.versions,
				  d.judge ? d.judge->position : NULL, o->item);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_history = {
	.name = "mark history",
	.summary = "Every version of the marks of an entry, with who, when and why.",
	.details = "Versions are in the order they were kept in, whatever the clock said.",
	.example = "--show spring.show mark history 1 11 --judge C --item 3",
	CLI_OPTIONS(struct mark_history, history_options),
	.run = mark_history,
};

/* ---- mark fix ---------------------------------------------------------------------------- */

#define EMPTY (-1)
#define WAS   60 /* bytes of "6.5/7.0" */

struct mark_fix {
	const char *class_name, *mark, *judge, *item, *by, *why, *was;
	int64_t number;
};

static const struct rt_field fix_options[] = {
	CLI_CLASS(struct mark_fix, class_name),
	CLI_NUMBER(struct mark_fix, number),
	{"mark", RT_AT(struct mark_fix, mark), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_JUDGE(struct mark_fix, judge, RT_REQUIRED),
	{"item", RT_AT(struct mark_fix, item), .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "which box; errors or total"},
	CLI_BY(struct mark_fix, by, RT_REQUIRED),
	CLI_WHY(struct mark_fix, why, RT_REQUIRED),
	{"was", RT_AT(struct mark_fix, was), .head = "MARK", .type = RT_NAME,
	 .help = "what you were shown"},
};

struct fix {
	const struct mark_fix *typed;
	struct cli_desk desk;
	enum rt_mark_kind kind;
	const struct rt_item *item; /* NULL: a line */
	int64_t value;
	const char *name; /* of the item or line */
	char before[WAS], after[WAS];
	size_t changed; /* keyings that were */
};

static bool read_value(const struct fix *f, const char *typed, int64_t *value)
{
	switch (f->kind) {
	case RT_MARK_ITEM:
		return rt_mark_typed(typed, f->item->mark_step_x100, value);
	case RT_MARK_ERRORS:
		return rt_sheet_errors_typed(typed, value);
	case RT_MARK_TOTAL:
		break;
	}
	return rt_total_typed(typed, cli_desk_maximum(&f->desk), value);
}

static void refuse_value(struct cli *c, const struct fix *f)
{
	int64_t most = f->kind == RT_MARK_ERRORS ? RT_SHEET_ERRORS_MOST
						 : cli_desk_maximum(&f->desk) / 100000;
	char accepted[100];

	if (f->kind == RT_MARK_ITEM)
		rt_mark_accepted(f->item->mark_step_x100, accepted, sizeof accepted);
	else
		snprintf(accepted, sizeof accepted, "0 to %" PRId64, most);
	CLI_FAIL(c, RT_E_USAGE, "\"%.40s\": %s", f->typed->mark, accepted);
}

static const struct rt_mark_version *said(const struct fix *f, int keying)
{
	return rt_mark_latest(&f->desk.versions, f->desk.entry->id, f->desk.judge->id, f->kind,
			      f->item ? f->item->id : 0, keying);
}

/* What the keyings say: "6.5", or "6.5/7.0" where they differ or one is empty. */
static void format_said(const struct fix *f, char out[WAS])
{
	int digits = f->kind == RT_MARK_ITEM ? 2 : f->kind == RT_MARK_ERRORS ? 0 : 5;
	char one[RT_KEYINGS][24];

	for (int k = 0; k < RT_KEYINGS; k++) {
		const struct rt_mark_version *v = said(f, k + 1);

		snprintf(one[k], sizeof one[k], "-");
		if (v)
			rt_format_short(v->value, digits, digits > 0, one[k], sizeof one[k]);
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
	const char *was = f->typed->was, *slash = strchr(was, '/');
	size_t n = slash ? (size_t)(slash - was) : strlen(was);
	char first[24];
	int64_t shown[RT_KEYINGS];
	bool any = false;

	if (n >= sizeof first)
		return false;
	memcpy(first, was, n);
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
static void check_seen(struct cli *c, const struct fix *f)
{
	const struct rt_mark_version *v = latest_said(f);
	bool fixed = v && v->source && strcmp(v->source, RT_SOURCE_FIX) == 0;
	const char *was = f->typed->was;

	if (was ? is_as_shown(f) : !fixed || rt_same_name(v->who, f->typed->by))
		return;
	if (!v)
		CLI_FAIL(c, RT_E_INPUT, "--was %.40s: the box is empty", was);
	else
		CLI_FAIL(c, RT_E_INPUT,
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
	for (size_t i = 0; i < all->n; i++) {
		const struct rt_mark_version *v = &all->at[i];

		if (v->judge == f->desk.judge->id && v->keying == keying &&
		    v->kind != RT_MARK_TOTAL &&
		    rt_mark_latest(all, v->entry, v->judge, v->kind, v->item, keying))
			return true;
	}
	return false;
}

static void fix_keying(struct cli *c, struct fix *f, int keying)
{
	const struct rt_mark_version *v = said(f, keying);
	const struct rt_mark_version empty = {.entry = f->desk.entry->id,
					      .judge = f->desk.judge->id,
					      .item = f->item ? f->item->id : 0,
					      .kind = f->kind,
					      .version = rt_mark_seen(
						      &f->desk.versions, f->desk.entry->id,
						      f->desk.judge->id, f->kind,
						      f->item ? f->item->id : 0, keying)};

	if (v && v->value == f->value)
		return;
	f->changed++;
	cli_desk_fix(c, v ? v : &empty, keying, f->value, f->typed->by, f->typed->why);
}

static void put_fix(struct cli *c, struct fix *f)
{
	bool any = false;

	format_said(f, f->before);
	check_seen(c, f);
	for (int k = 1; k <= RT_KEYINGS; k++) {
		if (!is_begun(f, k))
			continue;
		any = true;
		fix_keying(c, f, k);
	}
	if (!any)
		CLI_FAIL(c, RT_E_INPUT, "%s",
			 f->kind == RT_MARK_TOTAL
				 ? "this sheet has no hand total: mark total keeps one"
				 : "this sheet has not been keyed: mark enter keys it");
	cli_desk_versions(c, &f->desk);
}

#define TYPED(member) RT_IN(struct fix, typed, struct mark_fix, member)

static const struct rt_field fixed_fields[] = {
	{"class", .head = "Class", TYPED(class_name)},
	{"number", .head = "No.", TYPED(number), .type = RT_INT},
	{"judge", .head = "Judge", RT_IN(struct fix, desk.judge, struct rt_judge, position)},
	{"item", .head = "Item", RT_AT(struct fix, name)},
	{"was", .head = "Was", RT_AT(struct fix, before), .type = RT_CHARS},
	{"became", .head = "Now", RT_AT(struct fix, after), .type = RT_CHARS},
	{"by", .head = "By", TYPED(by)},
	{"why", .head = "Why", TYPED(why)},
};

static const struct rt_record fixed_table = RT_TABLE("fixed", "Mark fixed", fixed_fields,
						     struct fix);

static void report_fix(struct cli *c, struct fix *f)
{
	format_said(f, f->after);
	f->name = f->item ? f->item->name : rt_mark_kind_words(f->kind);
	rt_report_list(&c->report, &fixed_table, f, 1);
	if (!f->changed)
		rt_report_note(&c->report, "The box says so already: nothing was written.");
}

static void mark_fix(struct cli *c, const void *typed)
{
	const struct mark_fix *o = typed;
	struct fix f = {.typed = o};

	cli_desk_sheet(c, &f.desk, o->class_name, o->number, o->judge, true);
	cli_desk_item(c, &f.desk, o->item, &f.kind, &f.item);
	if (!c->err.code && !read_value(&f, o->mark, &f.value))
		refuse_value(c, &f);
	if (!c->err.code)
		put_fix(c, &f);
	if (!c->err.code)
		report_fix(c, &f);
	if (f.changed)
		cli_note_posted(c, o->class_name);
	cli_desk_free(&f.desk);
}

const struct cli_command cmd_mark_fix = {
	.name = "mark fix",
	.summary = "Settle a box whose keyings differ, or correct one.",
	.details =
		"The mark goes into every keying of the sheet that was begun; what was there stays in\n"
		"the file's history. --was says what you were shown: 6.5, or 6.5/7 where the keyings\n"
		"differ; when it is something else by now nothing is written. A box that another\n"
		"person has fixed before wants it.",
	.example = "--show spring.show mark fix 1 11 6.5 --judge C --item 3 --by \"Tove Hallbäck\" "
		   "--why \"read 6 for 6.5\"",
	CLI_OPTIONS(struct mark_fix, fix_options),
	.run = mark_fix,
	.table = {&fixed_table},
};
