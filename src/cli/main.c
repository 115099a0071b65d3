/* The command: read the line, run one command, show its report, say what went wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times/times.h"

#include <errno.h>
#include <locale.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum exit_status { EXIT_DONE = 0, EXIT_NEEDS_PERSON = 1, EXIT_INPUT = 2, EXIT_STORAGE = 3 };

/* Every command, a line a group, in the order that help shows. */
/* clang-format off */
const struct cli_command *const cli_commands[] = {
	&cmd_create, &cmd_template, &cmd_show, &cmd_verify, &cmd_backup, &cmd_restore,
	&cmd_ring_kinds, &cmd_ring_add, &cmd_ring_list, &cmd_ring_setout, &cmd_ring_check, &cmd_ring_history,
	&cmd_ring_footing, &cmd_ring_advice, &cmd_adjust,
	&cmd_turns, &cmd_sweep,
	&cmd_test_import, &cmd_test_list, &cmd_test_route,
	&cmd_class_import, &cmd_class_add, &cmd_class_change, &cmd_class_list, &cmd_class_history,
	&cmd_entry_import, &cmd_entry_add, &cmd_entry_change, &cmd_entry_status, &cmd_entry_list,
	&cmd_entry_find, &cmd_entry_history, &cmd_entry_numbers, &cmd_judge_name, &cmd_judge_list,
	&cmd_judge_history,
	&cmd_draw, &cmd_draw_late, &cmd_draw_history,
	&cmd_times_import, &cmd_times_plan, &cmd_times_asked, &cmd_times, &cmd_times_list, &cmd_times_check,
	&cmd_times_move, &cmd_times_late, &cmd_times_history,
	&cmd_mark_import, &cmd_mark_list, &cmd_mark_enter, &cmd_mark_total, &cmd_mark_compare, &cmd_mark_fix,
	&cmd_mark_history, &cmd_mark_sheets, &cmd_mark_received, &cmd_penalty_add,
	&cmd_penalty_articles,
	&cmd_mark_missing, &cmd_judge_away,
	&cmd_results, &cmd_tie_decide, &cmd_post, &cmd_post_history,
	&cmd_judging,
	&cmd_championship_import, &cmd_championship_list, &cmd_championship_results,
	&cmd_team_import, &cmd_team_list, &cmd_team_results,
	&cmd_prize_import, &cmd_prize_list, &cmd_prize_payee, &cmd_prize_money,
	&cmd_sheet_check, &cmd_sheet_certificate,
	&cmd_sheet_turns, &cmd_sheet_setout, &cmd_sheet_route, &cmd_sheet_cones,
	&cmd_sheet_times, &cmd_sheet_results,
	&cmd_sheet_marking, &cmd_sheet_driver, &cmd_sheet_prizes, &cmd_workbook,
	&cmd_ring_kinds_import, &cmd_level_import, &cmd_gait_import, &cmd_rule_import,
	&cmd_turnout_import, &cmd_article_import, &cmd_level_list, &cmd_gait_list, &cmd_rule_list,
	&cmd_turnout_list, &cmd_article_list,
};
/* clang-format on */
const size_t cli_command_count = sizeof cli_commands / sizeof *cli_commands;

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
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
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
