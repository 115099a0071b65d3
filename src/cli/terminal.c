/* A talk by lines: prompts out, lines in, and an end that loses nothing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/select.h>
#include <unistd.h>

static const int stopping[] = {SIGINT, SIGTERM, SIGHUP};
#define STOPPING (sizeof stopping / sizeof *stopping)

static volatile sig_atomic_t stopped;
static sigset_t before;			   /* the signals that were blocked */
static struct sigaction earlier[STOPPING]; /* what was done at each */

static void stop(int number)
{
	(void)number;
	stopped = 1;
}

/* The signals that stop are let in only while a line is waited for (pselect), so that one never
 * falls between a look at `stopped` and the wait, nor into what is being kept. */
void cli_terminal_open(struct cli_terminal *t, FILE *out)
{
	struct sigaction action = {.sa_handler = stop};
	struct sigaction ignore = {.sa_handler = SIG_IGN};
	sigset_t block;

	*t = (struct cli_terminal){.out = out};
	stopped = 0;
	sigemptyset(&block);
	for (size_t i = 0; i < STOPPING; i++)
		sigaddset(&block, stopping[i]);
	sigprocmask(SIG_BLOCK, &block, &before);
	for (size_t i = 0; i < STOPPING; i++) {
		sigaction(stopping[i], &action, &earlier[i]);
		/* What the caller wanted ignored (nohup) stays so. */
		if (earlier[i].sa_handler == SIG_IGN)
			sigaction(stopping[i], &earlier[i], NULL);
	}
	sigaction(SIGPIPE, &ignore, NULL); /* for good: a lost output is found by its writes */
}

void cli_terminal_close(struct cli_terminal *t)
{
	fputc('\n', t->out); /* the last prompt may stand there without an answer */
	fflush(t->out);
	sigprocmask(SIG_SETMASK, &before, NULL);
	for (size_t i = 0; i < STOPPING; i++)
		sigaction(stopping[i], &earlier[i], NULL);
}

void cli_terminal_say(struct cli_terminal *t, const char *text)
{
	if (!*text)
		return;
	rt_paper_words(t->out, text);
	fputc('\n', t->out);
}

/* Wait for more input and add it; false at its end, or when a signal stopped the talk. */
static bool hear(struct cli_terminal *t)
{
	fd_set in;
	ssize_t got = -1;

	while (got < 0) {
		FD_ZERO(&in);
		FD_SET(STDIN_FILENO, &in);
		if (pselect(STDIN_FILENO + 1, &in, NULL, NULL, NULL, &before) > 0)
			got = read(STDIN_FILENO, t->text + t->used, sizeof t->text - t->used);
		if (stopped || (got < 0 && errno != EINTR && errno != EAGAIN))
			return false;
	}
	t->used += (size_t)got;
	return got > 0;
}

/* A NUL would hide what follows it: no mark has one. */
static void show_nuls(char *s, size_t n)
{
	char *nul;

	while ((nul = memchr(s, '\0', n)))
		*nul = '\1';
}

bool cli_terminal_ask(struct cli_terminal *t, const char *prompt, char line[CLI_LINE_MOST])
{
	size_t n = 0; /* of the line, as far as it is kept */
	char *end;

	rt_paper_words(t->out, prompt);
	if (fflush(t->out) != 0)
		t->ended = true;
	while (!t->ended && !(end = memchr(t->text, '\n', t->used))) {
		if (t->used ==
		    sizeof t->text) { /* far too long: its start is enough to refuse it */
			n = sizeof t->text - 1;
			memcpy(line, t->text, n);
			t->used = 0;
		}
		t->ended = !hear(t);
	}
	if (t->ended)
		return false;
	if (n == 0) {
		n = (size_t)(end - t->text);
		memcpy(line, t->text, n);
	}
	line[n] = '\0';
	show_nuls(line, n);
	t->used -= (size_t)(end + 1 - t->text);
	memmove(t->text, end + 1, t->used);
	return true;
}
