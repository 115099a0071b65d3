/* mark list and times asked: what files brought in, as files again.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* ---- mark list --------------------------------------------------------------------------- */

struct mark_list {
	const char *class_name;
	int64_t keying;
};

static const struct rt_field mark_list_options[] = {
	CLI_CLASS(struct mark_list, class_name),
	{"keying", RT_AT(struct mark_list, keying), .head = "1|2", .type = RT_INT, .low = 1,
	 .high = RT_KEYINGS, .is = RT_USUAL, .help = "of which keying"},
};

static void mark_list(struct cli *c, const void *typed)
{
	const struct mark_list *o = typed;
	struct cli_desk d = {0};

	cli_desk_sheet(c, &d, o->class_name, 0, NULL, false);
	if (!c->err.code)
		rt_marks_report(&c->report, &d.book.marks, &d.versions, (int)o->keying);
	cli_desk_free(&d);
}

const struct cli_command cmd_mark_list = {
	.name = "mark list",
	.summary = "List the marks of a class that hold in a keying, with the judges' remarks.",
	.details = "In CSV it is a file that `mark import` reads.",
	.example = "--show spring.show mark list 1",
	CLI_OPTIONS(struct mark_list, mark_list_options),
	.blank = &(const struct mark_list){.keying = 1},
	.run = mark_list,
};

/* ---- times asked ------------------------------------------------------------------------- */

static void times_asked(struct cli *c, const void *typed)
{
	struct rt_plan_rows rows = {0};
	struct rt_wishes wishes = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_plan_rows(c->store, &rows, &c->err));
	CLI_DO(c, rt_store_wishes(c->store, &wishes, &c->err));
	if (!c->err.code) {
		rt_report_list(&c->report, &rt_plan_row_record, rows.at, rows.n);
		rt_report_list(&c->report, &rt_wish_record, wishes.at, wishes.n);
	}
	RT_LIST_FREE(&rows);
	RT_LIST_FREE(&wishes);
}

const struct cli_command cmd_times_asked = {
	.name = "times asked",
	.summary = "List what is asked of the start times: the plan rows and the wishes.",
	.details = "In CSV each is a file that `times import` reads: plan_rows, and with\n"
		   "--table wishes the wishes.",
	.example = "--show spring.show times asked",
	.table = {&rt_plan_row_record, &rt_wish_record},
	.run = times_asked,
};
