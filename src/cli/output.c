/* A file that a command writes: where it goes, and that nothing of it is left behind when the
 * command is stopped.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <signal.h>
#include <string.h>
#include <strings.h>

static sigset_t before; /* the signals that were blocked */

/* Signals that stop a program wait from the making of the temporary file to its end, which is not
 * far: libraries have files of their own by then, which nobody else could remove.  SIGPIPE too, as
 * standard output is written from such a file. */
static void hold_signals(void)
{
	static const int stopping[] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGPIPE};
	sigset_t held;

	sigemptyset(&held);
	for (size_t i = 0; i < sizeof stopping / sizeof *stopping; i++)
		sigaddset(&held, stopping[i]);
	sigprocmask(SIG_BLOCK, &held, &before);
}

struct rt_outfile *cli_output_open(struct cli *c, const char *path, enum rt_file_kind kind)
{
	struct rt_outfile *out = NULL;

	if (c->err.code)
		return NULL;
	hold_signals();
	CLI_DO(c, rt_outfile_open(&out, path, kind, c->show_path, &c->err));
	if (c->err.code)
		sigprocmask(SIG_SETMASK, &before, NULL);
	return out;
}

void cli_output_end(struct cli *c, const char *path, struct rt_outfile *file)
{
	if (!file)
		return;
	if (c->err.code)
		rt_outfile_discard(file);
	else
		CLI_DO(c, rt_outfile_commit(file, &c->err));
	sigprocmask(SIG_SETMASK, &before, NULL);
	c->output_taken = !c->err.code && strcmp(path, "-") == 0;
}

/* ---- sheets ------------------------------------------------------------------------------ */

static const char *const as_words[] = {"auto", "pdf", "svg"};
const struct rt_words cli_words_of_as = {"kind of file", as_words, 3, NULL, 0};
static const char *const up_words[] = {"C", "A"};
const struct rt_words cli_words_of_up = {"letter", up_words, 2, NULL, 0};

static bool ends_in(const char *path, const char *ending)
{
	size_t n = strlen(path), e = strlen(ending);

	return n > e && strcasecmp(path + n - e, ending) == 0;
}

/* What a sheet is written as, by --as and the name of --out. */
static enum rt_file_kind kind_of(struct cli *c, const struct cli_sheet *o)
{
	bool pdf = ends_in(o->out, ".pdf"), svg = ends_in(o->out, ".svg");

	if ((o->as == CLI_AS_PDF && svg) || (o->as == CLI_AS_SVG && pdf))
		CLI_FAIL(c, RT_E_USAGE, "--as %s, but %s ends otherwise", as_words[o->as], o->out);
	if (o->as == CLI_AS_NAMED && !pdf && !svg && strcmp(o->out, "-") != 0)
		CLI_FAIL(c, RT_E_USAGE,
			 "%s: a sheet's name ends in .pdf or .svg, or --as says which it is",
			 o->out);
	return svg || o->as == CLI_AS_SVG ? RT_FILE_SVG : RT_FILE_PDF;
}

struct rt_sheet_options cli_sheet_options(struct cli *c, const struct cli_sheet *o)
{
	struct rt_sheet_options options = {o->paper, o->seat, c->when, NULL, c->feet};

	if ((o->seat != RT_SEAT_A || o->up != CLI_UP_C) && cli_given(c, &o->seat) &&
	    cli_given(c, &o->up))
		CLI_FAIL(c, RT_E_USAGE, "--seen-from says which way up already: leave --up out");
	if (o->up == CLI_UP_A)
		options.seat = RT_SEAT_C;
	if (!c->err.code && c->store && !c->show.title)
		CLI_DO(c, rt_store_show(c->store, &c->show, &c->err));
	options.show = c->show.title;
	return options;
}

struct sheet_row {
	const char *file;
	int pages;
};

static const struct rt_field written_fields[] = {
	{"file", RT_AT(struct sheet_row, file)},
	{"pages", RT_AT(struct sheet_row, pages), .type = RT_SMALL},
};

const struct rt_record cli_sheet_table = RT_TABLE("sheet", "Sheet written", written_fields,
						  struct sheet_row);

void cli_write_sheet(struct cli *c, const struct cli_sheet *o, struct rt_sheet *sheet)
{
	enum rt_file_kind kind = kind_of(c, o);
	struct rt_outfile *file = cli_output_open(c, o->out, kind);

	CLI_DO(c, rt_sheet_write(sheet, file, kind, &c->err));
	cli_output_end(c, o->out, file);
	rt_report_list(&c->report, &cli_sheet_table,
		       &(const struct sheet_row){o->out, sheet->pages}, 1);
	rt_sheet_free(sheet);
}
