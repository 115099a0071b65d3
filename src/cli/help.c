/* Help, made from the table of commands and set to the terminal's width.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#define NARROWEST  40 /* a narrower terminal breaks our lines itself */
#define NAME_WIDTH 22 /* of the longest, championship results, and what parts it from the rest */
#define TEXT_AT	   24 /* where what an option does begins */

int cli_columns(void)
{
	const char *asked = getenv("COLUMNS");
	struct winsize size;
	int64_t columns = 80;

	if (!asked || !rt_parse_int(asked, &columns))
		columns = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col ? size.ws_col
										      : 80;
	return columns < NARROWEST ? NARROWEST : columns > 1000 ? 1000 : (int)columns;
}

/* ---- setting text -------------------------------------------------------------------------- */

/* Text being set: in which column the last line stands. */
struct setting {
	FILE *out;
	int at, indent, width;
};

/* Put s[0..n) word by word, each on the next line where it does not fit into this one. */
static void put_words(struct setting *t, const char *s, size_t n)
{
	const char *end = s + n;

	while (s < end) {
		int length = 0;

		while (s < end && isspace((unsigned char)*s))
			s++;
		while (s + length < end && !isspace((unsigned char)s[length]))
			length++;
		if (!length)
			break;
		if (t->at > t->indent && t->at + 1 + length > t->width) {
			fprintf(t->out, "\n%*s", t->indent, "");
			t->at = t->indent;
		} else if (t->at > t->indent) {
			fputc(' ', t->out);
			t->at++;
		}
		fwrite(s, 1, (size_t)length, t->out);
		t->at += length;
		s += length;
	}
}

static void end_line(struct setting *t)
{
	fputc('\n', t->out);
	t->at = t->indent = 0;
}

/* A paragraph; its lines are broken anew. */
static void put_text(struct setting *t, const char *s)
{
	put_words(t, s, strlen(s));
	end_line(t);
}

void cli_put_term(FILE *out, const char *term, int at, const char *text)
{
	struct setting t = {out, at, at, cli_columns()};
	int length = (int)strlen(term);

	fprintf(out, "%s%*s", term, length + 1 < at ? at - length : 0, "");
	if (length + 1 >= at)
		fprintf(out, "\n%*s", at, "");
	put_words(&t, text, strlen(text));
	end_line(&t);
}

/* ---- options ------------------------------------------------------------------------------- */

static void add_fact(char *out, size_t size, const char *before, const char *fact)
{
	size_t used = strlen(out);

	snprintf(out + used, size - used, "%s%s%s", used ? "; " : "", before, fact);
}

/* What is accepted of a field, what is taken where it is not given, and how often it is. */
static void tell_facts(const struct cli_command *command, const struct rt_field *f, char *out,
		       size_t size)
{
	const struct rt_record blank = {.blank = command ? command->blank : NULL};
	static const char zero[sizeof(struct cli)];
	const void *row = blank.blank ? blank.blank : zero;
	char accepted[320], own[RT_OWN_SIZE], value[RT_OWN_SIZE];
	struct rt_value usual;

	*out = '\0';
	if (f->is & RT_REQUIRED && !(f->is & RT_ARGUMENT))
		add_fact(out, size, "needed", "");
	if (f->also && !(f->is & RT_ARGUMENT))
		add_fact(out, size, "or --", f->also);
	rt_field_accepts(f, accepted, sizeof accepted);
	if (strncmp(accepted, "a whole number from ", 20) == 0)
		add_fact(out, size, "", accepted + 20);
	else if (strncmp(accepted, "a number from ", 14) == 0)
		add_fact(out, size, "", accepted + 14);
	else if (*accepted && strncmp(accepted, "a ", 2) != 0 && !(f->type == RT_BOOL))
		add_fact(out, size, "", accepted);
	if (f->is & RT_MANY)
		add_fact(out, size, "as often as there is one", "");
	if (!(f->is & RT_USUAL))
		return;
	usual = rt_field_value(&blank, f, row, own);
	if (!usual.null)
		add_fact(out, size, "usual: ", rt_value_text(f, &usual, value, sizeof value));
}

static void put_option(FILE *out, const struct cli_command *command, const struct rt_field *f)
{
	char name[64], head[64], term[160], facts[400], text[900];
	const char *value = cli_is_flag(command, f) ? ""
			    : f->type == RT_BOOL    ? "yes|no"
						    : cli_value_name(command, f, head);

	if (f->is & RT_ARGUMENT)
		snprintf(term, sizeof term, "  %s", value);
	else
		snprintf(term, sizeof term, "  --%s%s%s", cli_option_name(f, name),
			 *value ? " " : "", value);
	tell_facts(command, f, facts, sizeof facts);
	snprintf(text, sizeof text, "%s%s%s%s", f->help ? f->help : "", *facts ? " (" : "", facts,
		 *facts ? ")" : "");
	if (*text)
		cli_put_term(out, term, TEXT_AT, text);
}

/* ---- pages --------------------------------------------------------------------------------- */

static void print_command(FILE *out, const struct cli_command *command)
{
	const struct rt_field *field[CLI_FIELDS_MAX];
	size_t n = cli_fields_of(command, field);
	struct setting t = {out, 9, 9, cli_columns()};
	char usage[300];
	bool any = false;

	cli_usage(command, usage, sizeof usage);
	fputs("ringtrue ", out);
	put_words(&t, command->name, strlen(command->name));
	put_words(&t, usage, strlen(usage));
	end_line(&t);
	end_line(&t);
	put_text(&t, command->summary);
	if (command->details) {
		end_line(&t);
		put_text(&t, command->details);
	}
	for (size_t k = 0; k < n; k++) {
		if (field[k]->is & RT_ARGUMENT && !field[k]->help)
			continue;
		if (!any)
			end_line(&t);
		any = true;
		put_option(out, command, field[k]);
	}
	if (command->files)
		cli_print_columns(out, command->files);
	if (command->example)
		fprintf(out, "\nExample: ringtrue %s\n", command->example);
}

static void put_command(FILE *out, const struct cli_command *command)
{
	char term[80];

	snprintf(term, sizeof term, "  %s", command->name);
	cli_put_term(out, term, NAME_WIDTH + 2, command->summary);
}

/* The group that command i begins; NULL: none. */
static const char *group_at(size_t i)
{
	for (size_t k = 0; k < cli_group_count; k++)
		if (cli_groups[k].first == cli_commands[i])
			return cli_groups[k].name;
	return NULL;
}

static const char usage_line[] = "Usage: ringtrue COMMAND [ARGUMENTS] [OPTIONS]";

static void print_all(FILE *out)
{
	struct setting t = {out, 0, 0, cli_columns()};

	fprintf(out, "%s\n\nOptions of all commands, anywhere on the line:\n", usage_line);
	for (size_t k = 0; k < cli_global_count; k++)
		put_option(out, NULL, &cli_globals[k]);
	for (size_t i = 0; i < cli_command_count; i++) {
		if (group_at(i))
			fprintf(out, "\n%s\n", group_at(i));
		put_command(out, cli_commands[i]);
	}
	end_line(&t);
	put_text(
		&t,
		"`ringtrue COMMAND --help` tells more.  -- before a word that begins with a dash "
		"says that it is no option; - in the place of a file is standard input, or standard output.");
	end_line(&t);
	put_text(&t, "Exit status: 0 done; 1 done, and something needs a person; 2 bad usage or "
		     "input; 3 storage or output failed.");
}

void cli_print_page(FILE *out)
{
	fprintf(out, "%s\n\n", usage_line);
	for (size_t i = 0; i < cli_command_count;) {
		const char *group = group_at(i);
		char text[1200] = "";
		size_t at = 0;

		do {
			const char *name = cli_commands[i]->name;
			size_t first = strcspn(name, " ");
			bool same = i && strncmp(cli_commands[i - 1]->name, name, first) == 0 &&
				    name[first] && cli_commands[i - 1]->name[first] == ' ' && at;

			at += (size_t)snprintf(text + at, sizeof text - at, "%s%s",
					       !at    ? ""
					       : same ? " | "
						      : ", ",
					       same ? name + first + 1 : name);
			i++;
		} while (i < cli_command_count && !group_at(i));
		cli_put_term(out, group, 9, text);
	}
	fprintf(out, "\n`ringtrue help` tells what each does, `ringtrue COMMAND --help` how.\n");
}

void cli_help_on(struct cli *c, int n, char **words)
{
	const struct cli_command *command;
	int took;

	if (n > 0 && (strcmp(words[0], "help") == 0 || strcmp(words[0], "--") == 0)) {
		n--;
		words++;
		if (n > 0 && strcmp(words[0], "help") == 0) {
			puts("ringtrue help [COMMAND|json]\n\n"
			     "What a command does, how it is typed, and an example; all commands of a "
			     "word\n"
			     "(`ringtrue help ring`); or all there are.  json: every table and name in JSON "
			     "and CSV.");
			return;
		}
	}
	if (n == 0) {
		print_all(stdout);
		return;
	}
	command = cli_find_command(n, words, &took);
	if (command) {
		print_command(stdout, command);
	} else if (n == 1 && cli_is_first_word(words[0])) {
		printf("The commands of %s:\n\n", words[0]);
		for (size_t i = 0; i < cli_command_count; i++)
			if (cli_begins_with(cli_commands[i]->name, words[0]))
				put_command(stdout, cli_commands[i]);
		printf("\n`ringtrue COMMAND --help` tells more.\n");
	} else {
		cli_unknown_command(c, n, words);
	}
}
