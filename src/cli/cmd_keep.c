/* verify, backup and restore: the show file looked at as a whole, copied, and brought back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <stdlib.h>

/* ---- verify ------------------------------------------------------------------------------ */

struct verify {
	struct rt_file_faults faults;
	struct rt_file_counts counts;
	struct rt_classes classes;
};

static enum rt_err add_fault(struct cli *c, struct verify *v, const char *check,
			     const char *class_name, int64_t version)
{
	struct rt_file_fault *fault = RT_LIST_ADD(&v->faults);
	char where[RT_NAME_MOST * 4 + 64];

	if (!fault)
		return rt_fail_nomem(&c->err);
	snprintf(where, sizeof where, "class %s", class_name);
	fault->check = check;
	fault->where = rt_arena_string(&v->faults.text, where);
	snprintf(where, sizeof where,
		 "version %" PRId64 " that was posted is not what the marks give now", version);
	fault->what = rt_arena_string(&v->faults.text, where);
	return fault->where && fault->what ? RT_OK : rt_fail_nomem(&c->err);
}

/* What was posted, computed again. */
static enum rt_err verify_class(struct cli *c, struct verify *v, const char *class_name)
{
	struct rt_posting posting = {0};
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	struct rt_report changes = {0};
	bool found = false;
	size_t n = 0;
	enum rt_err e = rt_store_posting_latest(c->store, class_name, &posting, &found, &c->err);

	if (!e && found)
		e = rt_store_class_book(c->store, class_name, &book, &c->err);
	if (!e && found)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e && found)
		e = rt_posting_changes(&changes, &posting, &results, &n, &c->err);
	if (!e && n)
		e = add_fault(c, v, "posted results", class_name, posting.version);
	rt_report_free(&changes);
	rt_results_free(&results);
	rt_class_book_free(&book);
	rt_posting_free(&posting);
	return e;
}

#define SEEN(member) RT_AT(struct verify, member)

static const struct rt_field verified_fields[] = {
	{"class_count", .head = "classes", SEEN(counts.classes), .type = RT_INT},
	{"entries", SEEN(counts.entries), .type = RT_INT},
	{"marks", SEEN(counts.marks), .type = RT_INT},
	{"postings", SEEN(counts.postings), .type = RT_INT},
	{"faults", SEEN(faults.n), .type = RT_SIZE},
};

static const struct rt_field fault_fields[] = {
	{"looked_at", RT_AT(struct rt_file_fault, check)},
	{"where", RT_AT(struct rt_file_fault, where)},
	{"what", .head = "what is wrong", RT_AT(struct rt_file_fault, what)},
};

static const struct rt_record verified_table = RT_TABLE("verified", "Show file", verified_fields,
							struct verify);
static const struct rt_record fault_table = RT_TABLE("faults", "Faults", fault_fields,
						     struct rt_file_fault);

static void report_verified(struct cli *c, const struct verify *v)
{
	rt_report_list(&c->report, &verified_table, v, 1);
	rt_report_list(&c->report, &fault_table, v->faults.at, v->faults.n);
	c->report.needs_person |= v->faults.n > 0;
	if (v->faults.n)
		rt_report_note(&c->report, "If these faults cannot be explained, go on with the "
					   "latest copy: `ringtrue restore COPY` puts it in the "
					   "place of this file, which is kept.");
}

static enum rt_err verify(struct cli *c, const struct cli_call *call)
{
	struct verify v = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_verify(c->store, &v.faults, &v.counts, &c->err);
	if (!e && !v.faults.n)
		e = rt_store_classes(c->store, &v.classes, &c->err);
	for (size_t i = 0; !e && i < v.classes.n; i++)
		e = verify_class(c, &v, v.classes.at[i].name);
	if (!e)
		report_verified(c, &v);
	/* here a file that is none of ours is one that has become so */
	if (e == RT_E_FORMAT)
		e = c->err.code = RT_E_STORE;
	RT_LIST_FREE(&v.faults);
	rt_classes_free(&v.classes);
	return e;
}

const struct cli_command cmd_verify = {
	.group = "Show",
	.name = "verify",
	.args = "",
	.summary = "Look at the whole show file, and compute anew what was posted.",
	.details =
		"Looks whether the file is whole, every row names what is there, histories are unbroken,\n"
		"marks belong to their sheets and stand in the steps of their items, and what was posted\n"
		"is still what the marks give. Exit status 1 with a row for each fault, 3 when the file\n"
		"cannot be read. It can run while others work on the show.",
	.example = "--show spring.show verify",
	.table = {&verified_table, &fault_table},
	.old_run = verify,
};

/* ---- backup ------------------------------------------------------------------------------ */

struct copy_row {
	const char *file, *at, *from, *kept;
};

static const struct rt_field backup_fields[] = {
	{"file", RT_AT(struct copy_row, file)},
	{"at", RT_AT(struct copy_row, at)},
};

static const struct rt_field restored_fields[] = {
	{"file", RT_AT(struct copy_row, file)},
	{"from", RT_AT(struct copy_row, from)},
	{"kept", .head = "the show before", RT_AT(struct copy_row, kept)},
};

static const struct rt_record backup_table = RT_TABLE("backup", "Copy made", backup_fields,
						      struct copy_row);
static const struct rt_record restored_table = RT_TABLE("restored", "Copy put in place",
							restored_fields, struct copy_row);

static enum rt_err backup(struct cli *c, const struct cli_call *call)
{
	const char *path = call->arg[0], *replaced = NULL;
	struct rt_outfile *file = NULL;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = cli_output_open(c, path, RT_FILE_SHOW, &file);
	if (!e)
		replaced = rt_outfile_replaces(file);
	if (replaced && !cli_option(call, "replace") && !rt_store_is_copy(c->store, replaced))
		e = rt_fail(&c->err, RT_E_INPUT,
			    "%s is a show file, but no copy of this show: choose another name, or "
			    "give --replace",
			    path);
	if (!e)
		e = rt_store_copy(c->store, rt_outfile_path(file), &c->err);
	e = cli_output_end(c, path, file, e);
	if (e)
		return e;
	rt_report_list(&c->report, &backup_table, &(struct copy_row){.file = path, .at = c->when},
		       1);
	return RT_OK;
}

const struct cli_command cmd_backup = {
	.group = "Show",
	.name = "backup",
	.args = "FILE [--replace]",
	.summary = "Copy the show, while others work on it.",
	.details =
		"The copy is the show at one moment; it is written beside FILE and takes its name when it\n"
		"is whole.\n" CLI_OUTPUT_RULE
		"\nOf show files that is a copy of the same show, another only with --replace.",
	.example = "--show spring.show backup spring-copy.show",
	.old_option = {{"replace", NULL, "write over another show too", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&backup_table},
	.old_run = backup,
};

/* ---- restore ----------------------------------------------------------------------------- */

static enum rt_err restore(struct cli *c, const struct cli_call *call)
{
	char *kept = NULL;
	enum rt_err e = CLI_OLD(c, cli_show_path(c));

	if (!e)
		e = rt_store_restore(c->show_path, call->arg[0], cli_option(call, "anyway") != NULL,
				     &kept, &c->err);
	if (!e) {
		const struct copy_row row = {
			.file = c->show_path, .from = call->arg[0], .kept = kept};

		rt_report_list(&c->report, &restored_table, &row, 1);
	}
	free(kept);
	return e;
}

const struct cli_command cmd_restore = {
	.group = "Show",
	.name = "restore",
	.args = "BACKUP [--anyway]",
	.summary = "Put a copy in the place of the show, which is kept beside it.",
	.details =
		"BACKUP is looked at as verify does, and copied; the show that was there is kept, with\n"
		"all that was put into it, under a name that is told. Nobody may have it open. Never copy\n"
		"over a show file by other means: a program that was killed may have left its log beside\n"
		"it, and the log of one file spoils another.",
	.example = "--show spring.show restore spring-copy.show",
	.old_option = {{"anyway", NULL, "though BACKUP has faults, or was copied without its log",
			false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&restored_table},
	.old_run = restore,
};
