/* A talk by lines: prompts out, lines in, and an end that loses nothing.
 *
 * At a terminal the line is edited here, so that keys which move (arrows, Home, End, the page keys)
 * can be lines of their own; a pipe is read as it comes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/select.h>
#include <termios.h>
#include <unistd.h>

static const int stopping[] = {SIGINT, SIGTERM, SIGHUP};
#define STOPPING (sizeof stopping / sizeof *stopping)

static volatile sig_atomic_t stopped;
static sigset_t before;			   /* the signals that were blocked */
static struct sigaction earlier[STOPPING]; /* what was done at each */
static struct termios lines;		   /* how the terminal read before */

static void stop(int number)
{
	(void)number;
	stopped = 1;
}

/* The signals that stop are let in only while a line is waited for (pselect), so that one never
 * falls between a look at `stopped` and the wait, nor into what is being kept. */
/* Let keys come as they are pressed, at a terminal; Ctrl-C stays what it is. */
static void take_keys(struct cli_terminal *t)
{
	struct termios keys;

	t->keys = isatty(STDIN_FILENO) && isatty(fileno(t->out)) &&
		  tcgetattr(STDIN_FILENO, &lines) == 0;
	if (!t->keys)
		return;
	keys = lines;
	keys.c_lflag &= (tcflag_t) ~(ICANON | ECHO);
	keys.c_cc[VMIN] = 1;
	keys.c_cc[VTIME] = 0;
	t->keys = tcsetattr(STDIN_FILENO, TCSANOW, &keys) == 0;
}

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
	take_keys(t);
}

void cli_terminal_close(struct cli_terminal *t)
{
	fputc('\n', t->out); /* the last prompt may stand there without an answer */
	fflush(t->out);
	if (t->keys)
		tcsetattr(STDIN_FILENO, TCSANOW, &lines);
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

/* ---- keys of a terminal ---- */

#define ESCAPE	  '\x1b'
#define ERASE	  '\x7f'
#define END_INPUT '\x04' /* Ctrl-D */
#define KILL_LINE '\x15' /* Ctrl-U */

/* What the keys that move say, by the end of what they send: \e[A, \eOH, \e[5~. */
static const struct {
	const char *sent, *line;
} moving[] = {{"A", "b"},  {"B", "f"},	{"D", "b"},  {"C", "f"},  {"H", "h"},	{"F", "e"},
	      {"1~", "h"}, {"7~", "h"}, {"4~", "e"}, {"8~", "e"}, {"5~", "bb"}, {"6~", "ff"}};

static bool is_empty_line(const struct cli_terminal *t)
{
	return t->used == 0 || t->text[t->used - 1] == '\n';
}

/* Add a character to the line that is typed, and show it. */
static void add_key(struct cli_terminal *t, char key)
{
	if (t->used == sizeof t->text)
		return;
	t->text[t->used++] = key;
	fputc(key, t->out);
}

/* Take the last character back, all its bytes. */
static void erase_key(struct cli_terminal *t)
{
	if (is_empty_line(t))
		return;
	while (--t->used > 0 && (t->text[t->used] & 0xC0) == 0x80)
		;
	fputs("\b \b", t->out);
}

/* A key that moves is a line of its own, where nothing was typed before it. */
static void end_sequence(struct cli_terminal *t)
{
	const char *line = NULL;

	for (size_t i = 0; i < sizeof moving / sizeof *moving; i++)
		if (strcmp(t->sequence, moving[i].sent) == 0)
			line = moving[i].line;
	t->escape = CLI_NO_ESCAPE;
	if (!line || !is_empty_line(t))
		return;
	while (*line)
		add_key(t, *line++);
	add_key(t, '\n');
}

/* A byte of what a key sends behind the escape: [ or O, digits, and a last one. */
static void go_on_sequence(struct cli_terminal *t, char key)
{
	size_t n = strlen(t->sequence);

	if (t->escape == CLI_ESCAPED) {
		t->escape = key == '[' || key == 'O' ? CLI_SEQUENCE : CLI_NO_ESCAPE;
		t->sequence[0] = '\0';
		return;
	}
	if (n + 1 < sizeof t->sequence) {
		t->sequence[n] = key;
		t->sequence[n + 1] = '\0';
	}
	if (key >= '@' && key <= '~')
		end_sequence(t);
}

/* One byte of the keyboard; false when it ends the input. */
static bool take_key(struct cli_terminal *t, char key)
{
	if (t->escape)
		go_on_sequence(t, key);
	else if (key == ESCAPE)
		t->escape = CLI_ESCAPED;
	else if (key == ERASE || key == '\b')
		erase_key(t);
	else if (key == KILL_LINE)
		while (!is_empty_line(t))
			erase_key(t);
	else if (key == END_INPUT)
		return !is_empty_line(t);
	else
		add_key(t, key);
	return true;
}

/* ---- lines ---- */

/* Wait for more input, n bytes at most; less than 1 at its end, or when a signal stopped the talk.
 */
static ssize_t wait_for_input(char *text, size_t n)
{
	fd_set in;
	ssize_t got = -1;

	while (got < 0) {
		FD_ZERO(&in);
		FD_SET(STDIN_FILENO, &in);
		if (pselect(STDIN_FILENO + 1, &in, NULL, NULL, NULL, &before) > 0)
			got = read(STDIN_FILENO, text, n);
		if (stopped || (got < 0 && errno != EINTR && errno != EAGAIN))
			return -1;
	}
	return got;
}

/* Add more input; false when there is no more. */
static bool hear(struct cli_terminal *t)
{
	char keys[CLI_LINE_MOST];
	bool on = true;
	ssize_t got;

	if (!t->keys) {
		got = wait_for_input(t->text + t->used, sizeof t->text - t->used);
		t->used += got > 0 ? (size_t)got : 0;
		return got > 0;
	}
	got = wait_for_input(keys, sizeof t->text - t->used);
	for (ssize_t i = 0; i < got && on; i++)
		on = take_key(t, keys[i]);
	fflush(t->out);
	return on && got > 0;
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
