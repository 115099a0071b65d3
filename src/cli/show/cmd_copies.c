/* verify, backup and restore: the show file looked at as a whole, copied, and brought back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <stdlib.h>

/* ---- verify ------------------------------------------------------------------------------ */

struct verify {
	struct rt_file_faults faults;
	struct rt_file_counts counts;
};

/* What is posted is not what the marks give, and nothing says why. */
static void add_fault(struct cli *c, struct verify *v, const char *class_name, int64_t version)
{
	struct rt_file_fault *fault = RT_LIST_ADD(&v->faults);

	if (fault) {
		fault->check = "posted results";
		fault->where = rt_arena_textf(&v->faults.text, "class %s", class_name);
		fault->what = rt_arena_textf(&v->faults.text,
					     "version %" PRId64
					     " that was posted is not what the marks give now, and "
					     "no change has been recorded since",
					     version);
	}
	if (!fault || !fault->where || !fault->what)
		CLI_DO(c, rt_fail_nomem(&c->err));
}

static void tell_change(struct cli *c, struct verify *v, const char *class_name,
			const struct rt_posting *posting)
{
	bool followed = false;

	CLI_DO(c, rt_store_posting_followed(c->store, class_name, posting, &followed, &c->err));
	if (!followed) {
		add_fault(c, v, class_name, posting->version);
		return;
	}
	rt_report_note(&c->report,
		       "Class %s was corrected since version %" PRId64
		       " was posted: post it again when its results are right.",
		       class_name, posting->version);
	c->report.needs_person = true;
}

/* What was posted, computed again. */
static void verify_class(struct cli *c, struct verify *v, const char *class_name)
{
	struct cli_shown in = {.posting = {0}};

	cli_shown_read(c, class_name, true, &in);
	if (in.shown.changes.n)
		tell_change(c, v, class_name, &in.posting);
	cli_shown_free(&in);
}

struct verified {
	struct rt_file_counts counts;
	size_t faults;
};

static const struct rt_field verified_fields[] = {
	{"class_count", .head = "classes", RT_AT(struct verified, counts.classes), .type = RT_INT},
	{"entries", RT_AT(struct verified, counts.entries), .type = RT_INT},
	{"marks", RT_AT(struct verified, counts.marks), .type = RT_INT},
	{"postings", RT_AT(struct verified, counts.postings), .type = RT_INT},
	{"faults", RT_AT(struct verified, faults), .type = RT_SIZE},
};

static const struct rt_field fault_fields[] = {
	{"looked_at", RT_AT(struct rt_file_fault, check)},
	{"where", RT_AT(struct rt_file_fault, where)},
	{"what", .head = "what is wrong", RT_AT(struct rt_file_fault, what)},
};

static const struct rt_record verified_table = RT_TABLE("verified", "Show file", verified_fields,
							struct verified);
static const struct rt_record fault_table = RT_TABLE("faults", "Faults", fault_fields,
						     struct rt_file_fault);

static void report_verified(struct cli *c, const struct verify *v)
{

	rt_report_list(&c->report, &verified_table,
		       &(const struct verified){v->counts, v->faults.n}, 1);
	rt_report_list(&c->report, &fault_table, v->faults.at, v->faults.n);
	c->report.needs_person |= v->faults.n > 0;
	if (v->faults.n)
		rt_report_note(&c->report, "If these faults cannot be explained, go on with the "
					   "latest copy: `ringtrue restore COPY` puts it in the "
					   "place of this file, which is kept.");
}

static void verify(struct cli *c, const void *typed)
{
	struct verify v = {0};
	bool whole;

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_verify(c->store, &v.faults, &v.counts, &c->err));
	whole = !v.faults.n;
	for (size_t i = 0; whole && i < cli_classes(c)->n && !c->err.code; i++)
		verify_class(c, &v, cli_classes(c)->at[i].name);
	if (!c->err.code)
		report_verified(c, &v);
	/* here a file that is none of ours is one that has become so */
	if (c->err.code == RT_E_FORMAT)
		c->err.code = RT_E_STORE;
	RT_LIST_FREE(&v.faults);
}

const struct cli_command cmd_verify = {
	.name = "verify",
	.summary = "Look at the whole show file, and compute anew what was posted.",
	.details =
		"Looks whether the file is whole, every row names what is there, histories are unbroken,\n"
		"marks belong to their sheets and stand in the steps of their items, and what was posted\n"
		"is still what the marks give; a class that was corrected since is told, to be posted\n"
		"again, and is no fault. Exit status 1 with a row for each fault, 3 when the file\n"
		"cannot be read. It can run while others work on the show.",
	.example = "--show spring.show verify",
	.table = {&verified_table, &fault_table},
	.run = verify,
};

/* ---- backup ------------------------------------------------------------------------------ */

struct backup {
	const char *file, *at;
	bool replace;
};

static const struct rt_field backup_options[] = {
	{"file", RT_AT(struct backup, file), .type = RT_TEXT, .is = RT_ARGUMENT | RT_REQUIRED},
	{"replace", RT_AT(struct backup, replace), .type = RT_BOOL,
	 .help = "write over another show too"},
};

static const struct rt_field backup_fields[] = {
	{"file", RT_AT(struct backup, file), .type = RT_TEXT},
	{"at", RT_AT(struct backup, at), .type = RT_TEXT},
};
static const struct rt_record backup_table = RT_TABLE("backup", "Copy made", backup_fields,
						      struct backup);

static void backup(struct cli *c, const void *typed)
{
	struct backup o = *(const struct backup *)typed;
	const char *replaced;
	struct rt_outfile *file;

	cli_store(c, false);
	file = cli_output_open(c, o.file, RT_FILE_SHOW);
	replaced = file ? rt_outfile_replaces(file) : NULL;
	if (replaced && !o.replace && !rt_store_is_copy(c->store, replaced))
		CLI_FAIL(c, RT_E_INPUT,
			 "%s is a show file, but no copy of this show: choose "
			 "another name, or give --replace",
			 o.file);
	if (file)
		CLI_DO(c, rt_store_copy(c->store, rt_outfile_path(file), &c->err));
	cli_output_end(c, o.file, file);
	o.at = c->when;
	rt_report_list(&c->report, &backup_table, &o, 1);
}

const struct cli_command cmd_backup = {
	.name = "backup",
	.summary = "Copy the show, while others work on it.",
	.details =
		"The copy is the show at one moment; it is written beside FILE and takes its name when it\n"
		"is whole.\n" CLI_OUTPUT_RULE
		"\nOf show files that is a copy of the same show, another only with --replace.",
	.example = "--show spring.show backup spring-copy.show",
	CLI_OPTIONS(struct backup, backup_options),
	.table = {&backup_table},
	.run = backup,
};

/* ---- restore ----------------------------------------------------------------------------- */

struct restore {
	const char *file, *from, *kept;
	bool anyway;
};

static const struct rt_field restore_options[] = {
	{"backup", RT_AT(struct restore, from), .type = RT_TEXT, .is = RT_ARGUMENT | RT_REQUIRED},
	{"anyway", RT_AT(struct restore, anyway), .type = RT_BOOL,
	 .help = "though BACKUP has faults, or was copied without its log"},
};

static const struct rt_field restore_fields[] = {
	{"file", RT_AT(struct restore, file), .type = RT_TEXT},
	{"from", RT_AT(struct restore, from), .type = RT_TEXT},
	{"kept", RT_AT(struct restore, kept), .head = "the show before", .type = RT_TEXT},
};
static const struct rt_record restored_table = RT_TABLE("restored", "Copy put in place",
							restore_fields, struct restore);

static void restore(struct cli *c, const void *typed)
{
	struct restore o = *(const struct restore *)typed;
	char *kept = NULL;

	cli_show_path(c);
	CLI_DO(c, rt_store_restore(c->show_path, o.from, o.anyway, &kept, &c->err));
	o.file = c->show_path;
	o.kept = kept;
	rt_report_list(&c->report, &restored_table, &o, 1);
	free(kept);
}

const struct cli_command cmd_restore = {
	.name = "restore",
	.summary = "Put a copy in the place of the show, which is kept beside it.",
	.details =
		"BACKUP is looked at as verify does, and copied; the show that was there is kept, with\n"
		"all that was put into it, under a name that is told. Nobody may have it open. Never copy\n"
		"over a show file by other means: a program that was killed may have left its log beside\n"
		"it, and the log of one file spoils another.",
	.example = "--show spring.show restore spring-copy.show",
	CLI_OPTIONS(struct restore, restore_options),
	.table = {&restored_table},
	.run = restore,
};
