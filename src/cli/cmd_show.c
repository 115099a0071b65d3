/* create and show: the show file as a whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

struct create {
	const char *file, *title, *day;
};

static enum rt_err read_day(const struct rt_field *f, void *member, const char *s,
			    struct rt_arena **text, struct rt_error *err)
{
	(void)text;
	if (!rt_parse_day(s))
		return rt_refuse(err, s, "is no day", f->accepted);
	*(const char **)member = s;
	return RT_OK;
}

static const struct rt_field create_options[] = {
	{"file", RT_AT(struct create, file), .type = RT_TEXT, .is = RT_ARGUMENT | RT_REQUIRED},
	{"title", RT_AT(struct create, title), .head = "T", .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "the show's title"},
	{"day", RT_AT(struct create, day), .head = "YYYY-MM-DD", .type = RT_TEXT, .read = read_day,
	 .accepted = "a day that exists, YYYY-MM-DD",
	 .help = "the show's day, or its first one; the day of --date unless given"},
};

static void create(struct cli *c, const void *typed)
{
	static const struct rt_field fields[] = {
		{"file", RT_AT(struct create, file), .type = RT_TEXT},
		{"title", RT_AT(struct create, title), .type = RT_TEXT},
		{"date", RT_AT(struct create, day), .type = RT_TEXT},
	};
	static const struct rt_record created = {
		"created",
		"created",
		"Show file made",
		RT_FIELDS(fields),
		.size = sizeof(struct create),
	};
	struct create o = *(const struct create *)typed;
	char today[sizeof c->when];
	struct rt_shipped rows = {0};

	snprintf(today, sizeof today, "%.10s", c->when);
	o.day = o.day ? o.day : today;
	cli_data_rows(c, &rows);
	CLI_DO(c, rt_store_create(o.file,
				  &(const struct rt_show){
					  .title = o.title, .day = o.day, .created = c->when},
				  &rows, &c->err));
	rt_shipped_free(&rows);
	rt_report_list(&c->report, &created, &o, 1);
}

const struct cli_command cmd_create = {
	.group = "Show",
	.name = "create",
	.summary = "Make a new show file.",
	.details =
		"The shipped ring kinds, levels, gaits, rules and turnouts are copied into it. A file\n"
		"that is there already is never touched.",
	.example = "create spring.show --title \"Spring driving day\" --day 2026-05-09",
	CLI_OPTIONS(struct create, create_options),
	.run = create,
};

/* ---- show -------------------------------------------------------------------------------- */

static void put_show(struct cli *c, const struct rt_show *show, const struct rt_rings *rings,
		     const struct rt_tests *tests)
{
	static const struct rt_field columns[] = {
		{"title", "title", RT_TEXT, RT_NO_UNIT, 0, false},
		{"date", "date", RT_TEXT, RT_NO_UNIT, 0, false},
		{"rings", "rings", RT_INT, RT_NO_UNIT, 0, false},
		{"tests", "tests", RT_INT, RT_NO_UNIT, 0, false},
		{"created", "made", RT_TEXT, RT_NO_UNIT, 0, true},
	};
	struct rt_table *t = rt_report_table(&c->report, "show", "Show", columns, 5);

	rt_put_text(t, show->title);
	rt_put_text(t, show->day);
	rt_put_int(t, (int64_t)rings->n);
	rt_put_int(t, (int64_t)tests->n);
	rt_put_text(t, show->created);
}

/* What is keyed of a class so far. */
struct class_count {
	int64_t entries, out;
	size_t keyed[RT_KEYINGS];
};

static enum rt_err count_class(struct cli *c, const char *name, struct class_count *count)
{
	struct rt_entries entries = {0};
	enum rt_err e = rt_store_entries(c->store, name, &entries, &c->err);

	count->entries = (int64_t)entries.n;
	for (size_t k = 0; !e && k < entries.n; k++)
		count->out += entries.at[k].status == RT_WITHDRAWN ||
			      entries.at[k].status == RT_DID_NOT_START;
	RT_LIST_FREE(&entries);
	return e ? e : rt_store_sheets_keyed(c->store, name, count->keyed, &c->err);
}

static enum rt_err put_classes(struct cli *c, const struct rt_classes *classes,
			       const struct rt_tests *tests)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"title", "title", RT_TEXT, RT_NO_UNIT, 0, false},
		{"test", "test", RT_TEXT, RT_NO_UNIT, 0, false},
		{"level", "level", RT_TEXT, RT_NO_UNIT, 0, true},
		{"rule", "rule", RT_TEXT, RT_NO_UNIT, 0, true},
		{"entries", "entries", RT_INT, RT_NO_UNIT, 0, false},
		{"not_starting", "not starting", RT_INT, RT_NO_UNIT, 0, false},
		{"judges", "judges", RT_TEXT, RT_NO_UNIT, 0, false},
		{"sheets_keyed_1", "keying 1 sheets", RT_INT, RT_NO_UNIT, 0, false},
		{"sheets_keyed_2", "keying 2 sheets", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "classes", "Classes", columns,
					     sizeof columns / sizeof *columns);

	for (size_t i = 0; i < classes->n; i++) {
		const struct rt_class *class_ = &classes->at[i];
		struct class_count count = {0};
		char judges[128];
		enum rt_err e = count_class(c, class_->name, &count);

		if (e)
			return e;
		rt_judges_words(&class_->judges, judges, sizeof judges);
		rt_put_text(t, class_->name);
		rt_put_text(t, class_->title);
		rt_put_text(t, class_->test);
		rt_put_text(t, cli_level_of(class_, tests));
		rt_put_text(t, cli_rule_of(class_, tests));
		rt_put_int(t, count.entries);
		rt_put_int(t, count.out);
		rt_put_text(t, judges);
		rt_put_int(t, (int64_t)count.keyed[0]);
		rt_put_int(t, (int64_t)count.keyed[1]);
	}
	return RT_OK;
}

static enum rt_err show(struct cli *c, const struct cli_call *call)
{
	struct rt_show head = {0};
	struct rt_rings rings = {0};
	struct rt_tests tests = {0};
	struct rt_classes classes = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_show(c->store, &head, &c->err);
	if (!e)
		e = rt_store_rings(c->store, &rings, &c->err);
	if (!e)
		e = rt_store_tests(c->store, &tests, &c->err);
	if (!e)
		e = rt_store_classes(c->store, &classes, &c->err);
	if (!e) {
		put_show(c, &head, &rings, &tests);
		e = put_classes(c, &classes, &tests);
	}
	rt_show_free(&head);
	RT_LIST_FREE(&rings);
	RT_LIST_FREE(&tests);
	rt_classes_free(&classes);
	return e;
}

const struct cli_command cmd_show = {
	.group = "Show",
	.name = "show",
	.args = "",
	.summary = "Tell what is in the show file.",
	.example = "--show spring.show show",
	.old_run = show,
};
