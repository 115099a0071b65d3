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

enum rt_err cli_output_open(struct cli *c, const char *path, enum rt_file_kind kind,
			    struct rt_outfile **out)
{
	enum rt_err e;

	hold_signals();
	e = rt_outfile_open(out, path, kind, c->show_path, &c->err);
	if (e)
		sigprocmask(SIG_SETMASK, &before, NULL);
	return e;
}

enum rt_err cli_output_end(struct cli *c, const char *path, struct rt_outfile *file, enum rt_err e)
{
	if (!file)
		return e;
	if (e)
		rt_outfile_discard(file);
	else
		e = rt_outfile_commit(file, &c->err);
	sigprocmask(SIG_SETMASK, &before, NULL);
	c->output_taken = !e && strcmp(path, "-") == 0;
	return e;
}

static bool ends_in(const char *path, const char *ending)
{
	size_t n = strlen(path), e = strlen(ending);

	return n > e && strcasecmp(path + n - e, ending) == 0;
}

enum rt_err cli_sheet_kind(struct cli *c, const struct cli_call *call, enum rt_file_kind *out)
{
	const char *path = cli_option(call, "out"), *as = cli_option(call, "as");
	bool pdf = ends_in(path, ".pdf"), svg = ends_in(path, ".svg");
	bool as_pdf = as && strcasecmp(as, "pdf") == 0, as_svg = as && strcasecmp(as, "svg") == 0;

	if (as && !as_pdf && !as_svg)
		return rt_fail(&c->err, RT_E_USAGE, "--as: \"%s\": pdf or svg", as);
	if ((as_pdf && svg) || (as_svg && pdf))
		return rt_fail(&c->err, RT_E_USAGE, "--as %s, but %s ends otherwise", as, path);
	if (!as && !pdf && !svg && strcmp(path, "-") != 0)
		return rt_fail(&c->err, RT_E_USAGE,
			       "%s: a sheet's name ends in .pdf or .svg, or --as says which it is",
			       path);
	*out = svg || as_svg ? RT_FILE_SVG : RT_FILE_PDF;
	return RT_OK;
}
