/* The command: read the line, run one command, show its report, say what went wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <errno.h>
#include <locale.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum exit_status { EXIT_DONE = 0, EXIT_NEEDS_PERSON = 1, EXIT_INPUT = 2, EXIT_STORAGE = 3 };

/* ---- the table of commands -------------------------------------------------------------- */

#define ADDRESS(name)		      &cmd_##name,
#define ADDRESS_OF_FIRST(group, name) &cmd_##name,
#define GROUP(group, name)	      {group, &cmd_##name},
#define NO_GROUP(name)
const struct cli_command *const cli_commands[] = {CLI_COMMANDS(ADDRESS_OF_FIRST, ADDRESS)};
const size_t cli_command_count = sizeof cli_commands / sizeof *cli_commands;
const struct cli_group cli_groups[] = {CLI_COMMANDS(GROUP, NO_GROUP)};
const size_t cli_group_count = sizeof cli_groups / sizeof *cli_groups;

static enum exit_status exit_status(enum rt_err e)
{
	switch (e) {
	case RT_OK:
		return EXIT_DONE;
	case RT_E_NOMEM:
	case RT_E_IO:
	case RT_E_BUSY:
	case RT_E_STORE:
		return EXIT_STORAGE;
	case RT_E_USAGE:
	case RT_E_INPUT:
	case RT_E_NOTFOUND:
	case RT_E_NOFIX:
	case RT_E_NUMERIC:
	case RT_E_FORMAT:
		return EXIT_INPUT;
	}
	return EXIT_STORAGE;
}

/* FILE:LINE: column: text, of what there is. */
static void print_fault(const char *file, long line, const char *column, const char *text)
{
	fputs("ringtrue: ", stderr);
	if (file && *file)
		rt_paper_words(stderr, file);
	if (file && *file && line > 0)
		fprintf(stderr, ":%ld", line);
	if (file && *file)
		fputs(": ", stderr);
	if (column && *column) {
		rt_paper_words(stderr, column);
		fputs(": ", stderr);
	}
	rt_paper_words(stderr, text);
	fputc('\n', stderr);
}

static void print_failure(const struct cli *c)
{
	const struct rt_faults *f = &c->faults;

	if (!*c->err.text) /* told already */
		return;
	if (c->format == CLI_JSON && !rt_paper_json_error(stderr, &c->err, f, NULL))
		return;
	if (c->err.code != RT_E_INPUT || !f->total) {
		print_fault(c->err.file, c->err.line, c->err.column, c->err.text);
		return;
	}
	for (size_t i = 0; i < f->n; i++)
		print_fault(f->at[i].file, f->at[i].line, f->at[i].column, f->at[i].text);
	if (f->total > f->n)
		fprintf(stderr, "ringtrue: and %zu more\n", f->total - f->n);
}

static void flush_output(struct cli *c)
{
	if (fflush(stdout) != 0 || ferror(stdout))
		CLI_FAIL(c, RT_E_IO, "the output could not be written: %s", strerror(errno));
}

/* What a file of CSV has no room for is told to who sits there. */
static void name_other_tables(const struct cli *c)
{
	char names[RT_LISTED_SIZE];

	rt_paper_csv_others(&c->report, c->table, names);
	if (*names && isatty(STDERR_FILENO))
		fprintf(stderr, "ringtrue: --table gives the others: %s\n", names);
}

static void print_report(struct cli *c)
{
	FILE *out = c->output_taken ? stderr : stdout;

	CLI_DO(c, rt_report_result(&c->report, &c->err));
	switch (c->format) {
	case CLI_TEXT:
		CLI_DO(c,
		       rt_paper_text(out, &c->report, (unsigned)cli_columns(), c->feet, &c->err));
		break;
	case CLI_CSV:
		if (!c->err.code)
			name_other_tables(c);
		CLI_DO(c, rt_paper_csv(out, &c->report, c->table, c->raw, &c->err));
		break;
	case CLI_JSON:
		CLI_DO(c, rt_paper_json(out, &c->report, &c->err));
		break;
	}
}

static void set_now(struct cli *c)
{
	time_t now = time(NULL);
	struct tm local;

	localtime_r(&now, &local);
	strftime(c->when, sizeof c->when, "%Y-%m-%d %H:%M:%S", &local);
}

/* Accents need a UTF-8 locale; numbers must never follow the locale, so only LC_CTYPE is set. */
static void set_characters(void)
{
	const char *set = setlocale(LC_CTYPE, "");

	if (!set || MB_CUR_MAX < 4)
		setlocale(LC_CTYPE, "C.UTF-8");
}

/* Run the command and show its report.  What it wrote is kept only when that is out, so that who is
 * told of a failure can give the same command again. */
static void run_command(struct cli *c)
{
	const struct cli_command *command = c->call.command;
	struct rt_error why;
	bool writing;

	command->run(c, c->call.typed);
	if (command->lists)
		cli_report_stale(c);
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	if (c->trying)
		rt_report_note(&c->report, "Nothing was kept: this tells what would be done.");
	writing = c->writing;
	if (c->err.code || !writing) { /* nobody waits until what was read is looked at */
		cli_end(c);
		if (!c->err.code)
			print_report(c);
		return;
	}
	signal(SIGPIPE, SIG_IGN); /* that nobody reads the report is told too */
	print_report(c);
	flush_output(c);
	cli_end(c);
	why = c->err;
	if (why.code)
		c->err.code = rt_fail(&c->err, why.code, "nothing was kept: %s", why.text);
}

static void obey(struct cli *c, int n, char **words)
{
	if (c->version) {
		puts(PACKAGE_STRING);
	} else if (n == 2 && strcmp(words[0], "help") == 0 && strcmp(words[1], "json") == 0) {
		cli_help_json(c);
		print_report(c);
	} else if (c->help || (n > 0 && strcmp(words[0], "help") == 0)) {
		cli_help_on(c, n, words);
	} else if (n == 0) {
		cli_print_page(stderr);
		c->err.code = RT_E_USAGE;
	} else {
		cli_read_call(c, n, words);
		if ((c->table || c->raw) && c->format != CLI_CSV)
			CLI_FAIL(c, RT_E_USAGE, "--%s goes with --format csv",
				 c->table ? "table" : "raw");
		if (!c->err.code)
			run_command(c);
	}
}

int main(int argc, char **argv)
{
	struct cli c = {.show_path = getenv("RINGTRUE_SHOW")};
	int status, n;

	/* Beyond a limit on the size of files a write is to fail, and to be told, not to kill. */
	signal(SIGXFSZ, SIG_IGN);
	set_characters();
	set_now(&c);
	if (c.show_path && !*c.show_path)
		c.show_path = NULL;
	n = cli_read_globals(&c, argc - 1, argv + 1);
	if (!c.err.code)
		obey(&c, n, argv + 1);
	flush_output(&c);
	status = (int)exit_status(c.err.code);
	if (c.err.code)
		print_failure(&c);
	else if (c.report.needs_person)
		status = EXIT_NEEDS_PERSON;
	rt_store_close(c.store);
	cli_show_free(&c);
	cli_call_free(&c.call);
	rt_faults_free(&c.faults);
	rt_report_free(&c.report);
	rt_arena_free(c.text);
	return status;
}
