/* Reading the command line by the table of commands, and the help made from the same table.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#define NAME_WIDTH 20  /* of the longest, championship results */
#define NAMES_MAX  256 /* commands, or words to suggest */

/* ---- finding what was meant -------------------------------------------------------------- */

static enum rt_err unknown_word(struct cli *c, const char *what, const char *typed,
				const char *const *words, size_t n, const char *before,
				const char *otherwise)
{
	const char *nearest = rt_nearest(typed, words, n);

	if (nearest)
		return rt_fail(&c->err, RT_E_USAGE, "unknown %s \"%s%s\": did you mean \"%s%s\"?",
			       what, before, typed, before, nearest);
	return rt_fail(&c->err, RT_E_USAGE, "unknown %s \"%s%s\": %s", what, before, typed,
		       otherwise);
}

/* The first `length` bytes of word are the name. */
static bool option_is(const char *word, size_t length, const char *name)
{
	return strlen(name) == length && strncmp(word, name, length) == 0;
}

/* How many words of words[0..n) the name takes when they begin with it; 0: they do not. */
static int words_taken(const char *name, int n, char **words)
{
	int took = 0;

	for (const char *end; *name; name = *end ? end + 1 : end) {
		end = strchrnul(name, ' ');
		if (took == n || !option_is(name, (size_t)(end - name), words[took]))
			return 0;
		took++;
	}
	return took;
}

const struct cli_command *cli_find_command(int n, char **words, int *took)
{
	const struct cli_command *found = NULL;

	*took = 0;
	for (size_t i = 0; i < cli_command_count; i++) {
		int taken = words_taken(cli_commands[i]->name, n, words);

		if (taken > *took) {
			*took = taken;
			found = cli_commands[i];
		}
	}
	return found;
}

/* Whether the name of a command begins with this word, and has more. */
static bool begins_with(const char *name, const char *word)
{
	size_t length = strlen(word);

	return strncmp(name, word, length) == 0 && name[length] == ' ';
}

static bool is_first_word(const char *word)
{
	for (size_t i = 0; i < cli_command_count; i++)
		if (begins_with(cli_commands[i]->name, word))
			return true;
	return false;
}

static bool is_help(const char *word)
{
	return strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0;
}

/* The word of a command's name that was meant, be it the first or the last. */
static bool has_word(const char *name, const char *word)
{
	const char *last = strrchr(name, ' ');

	return begins_with(name, word) || strcmp(last ? last + 1 : name, word) == 0;
}

/* `teams` and `sheets` are words of commands: list those that have them. */
static enum rt_err unknown_by_word(struct cli *c, const char *typed, const char *otherwise)
{
	char first[NAMES_MAX][24], listed[200] = "";
	const char *names[2 * NAMES_MAX], *nearest;
	size_t n = 0;

	for (size_t i = 0; i < cli_command_count && i < NAMES_MAX; i++) {
		const char *name = cli_commands[i]->name, *last = strrchr(name, ' ');

		snprintf(first[i], sizeof first[i], "%.*s", (int)strcspn(name, " "), name);
		names[n++] = first[i];
		names[n++] = last ? last + 1 : name;
	}
	nearest = rt_nearest(typed, names, n);
	for (size_t i = 0; nearest && i < cli_command_count; i++)
		if (has_word(cli_commands[i]->name, nearest))
			snprintf(listed + strlen(listed), sizeof listed - strlen(listed), "%s%s",
				 *listed ? "\" or \"" : "", cli_commands[i]->name);
	return rt_fail(&c->err, RT_E_USAGE, "unknown command \"%s\": %s%s%s", typed,
		       nearest ? "did you mean \"" : otherwise, listed, nearest ? "\"?" : "");
}

/* `ring chekc` and `rnig check` are told by the whole name, `ring` alone by its second words. */
static enum rt_err unknown_command(struct cli *c, int n, char **words)
{
	const char *names[NAMES_MAX];
	size_t count = 0;
	char typed[80], listed[200] = "";

	for (size_t i = 0; i < cli_command_count && count < NAMES_MAX; i++) {
		const char *name = cli_commands[i]->name;

		names[count++] = name;
		if (begins_with(name, words[0]))
			snprintf(listed + strlen(listed), sizeof listed - strlen(listed), "%s%s",
				 *listed ? ", " : "", name);
	}
	if (n == 1 && *listed)
		return rt_fail(&c->err, RT_E_USAGE, "\"%s\" wants a second word: %s", words[0],
			       listed);
	snprintf(typed, sizeof typed, "%s %s", words[0], n > 1 ? words[1] : "");
	if (rt_nearest(words[0], names, count))
		return unknown_word(c, "command", words[0], names, count, "", "");
	if (n == 1 || (!*listed && !rt_nearest(typed, names, count)))
		return unknown_by_word(c, words[0], "`ringtrue help` lists them");
	return unknown_word(c, "command", typed, names, count, "", listed);
}

/* ---- global options ---------------------------------------------------------------------- */

static enum rt_err read_format(struct cli *c, const char *typed)
{
	static const char *const names[] = {"text", "csv", "json"};

	for (int i = 0; i < 3; i++)
		if (strcmp(typed, names[i]) == 0) {
			c->format = (enum cli_format)i;
			return RT_OK;
		}
	return unknown_word(c, "format", typed, names, 3, "", "text, csv or json");
}

static enum rt_err read_when(struct cli *c, const char *typed)
{
	static const char midnight[] = "0000-00-00 00:00:00";

	if (!rt_parse_when(typed))
		return rt_fail(&c->err, RT_E_USAGE,
			       "--date: \"%s\": YYYY-MM-DD, or \"YYYY-MM-DD HH:MM\"", typed);
	memcpy(c->when, midnight, sizeof midnight);
	memcpy(c->when, typed, strlen(typed));
	c->when[10] = ' ';
	return RT_OK;
}

static enum rt_err read_global(struct cli *c, const char *name, const char *value)
{
	if (strcmp(name, "show") == 0) {
		c->show_path = value;
		return RT_OK;
	}
	if (strcmp(name, "table") == 0) {
		c->table = value;
		return RT_OK;
	}
	return strcmp(name, "format") == 0 ? read_format(c, value) : read_when(c, value);
}

/* Split --name=value: the length of the name, and the value or NULL. */
static size_t split_option(const char *word, const char **value)
{
	const char *equals = strchr(word, '=');

	*value = equals ? equals + 1 : NULL;
	return equals ? (size_t)(equals - word) : strlen(word);
}

enum rt_err cli_read_globals(struct cli *c, int argc, char **argv, int *next, bool *help,
			     bool *version)
{
	static const char *const names[] = {"show", "format", "date", "table",
					    "feet", "raw",    "help", "version"};
	static const size_t with_value = 4, count = sizeof names / sizeof *names;
	int i = 1;

	for (; i < argc && (strncmp(argv[i], "--", 2) == 0 || is_help(argv[i])); i++) {
		const char *value, *word = is_help(argv[i]) ? "help" : argv[i] + 2;
		size_t length = split_option(word, &value), k = 0;
		enum rt_err e;

		if (!*word) { /* -- alone: the command begins behind it */
			i++;
			break;
		}
		while (k < count && !option_is(word, length, names[k]))
			k++;
		if (k == count)
			return unknown_word(c, "option", word, names, count, "--",
					    "options of a command stand after it");
		if (k >= with_value) {
			c->feet = c->feet || k == 4;
			c->raw = c->raw || k == 5;
			*help = *help || k == 6;
			*version = *version || k == 7;
			continue;
		}
		if (!value && i + 1 == argc)
			return rt_fail(&c->err, RT_E_USAGE, "--%s wants a value", names[k]);
		e = read_global(c, names[k], value ? value : argv[++i]);
		if (e)
			return e;
	}
	*next = i;
	return RT_OK;
}

/* ---- a command's own arguments and options ----------------------------------------------- */

static enum rt_err unknown_option(struct cli *c, const struct cli_command *command,
				  const char *word)
{
	static const char *const globals[] = {"show", "format", "date", "table", "raw", "feet"};
	const char *names[CLI_OPTIONS_MAX];
	size_t n = 0;

	for (size_t i = 0; i < sizeof globals / sizeof *globals; i++)
		if (strcmp(word, globals[i]) == 0)
			return rt_fail(&c->err, RT_E_USAGE,
				       "--%s stands before the command: ringtrue --%s ... %s", word,
				       word, command->name);
	while (n < CLI_OPTIONS_MAX && command->option[n].name) {
		names[n] = command->option[n].name;
		n++;
	}
	return unknown_word(c, "option", word, names, n, "--",
			    n ? "see the command's --help" : "this command has none");
}

/* Read the option at words[*i], moving *i on over its value. */
static enum rt_err read_option(struct cli *c, struct cli_call *call, int n, char **words, int *i)
{
	const struct cli_command *command = call->command;
	const char *value, *word = words[*i] + 2;
	size_t length = split_option(word, &value), k = 0;
	bool many;

	while (k < CLI_OPTIONS_MAX && command->option[k].name &&
	       !option_is(word, length, command->option[k].name))
		k++;
	if (k == CLI_OPTIONS_MAX || !command->option[k].name)
		return unknown_option(c, command, word);
	if (!command->option[k].value) {
		if (value)
			return rt_fail(&c->err, RT_E_USAGE, "--%s takes no value",
				       command->option[k].name);
		value = "";
	} else if (!value) {
		if (*i + 1 == n)
			return rt_fail(&c->err, RT_E_USAGE, "--%s wants a value: %s",
				       command->option[k].name, command->option[k].value);
		value = words[++*i];
	}
	many = command->many && strcmp(command->many, command->option[k].name) == 0;
	if (many && call->manys == CLI_MANY_MAX)
		return rt_fail(&c->err, RT_E_USAGE, "--%s is given more than %d times",
			       command->option[k].name, CLI_MANY_MAX);
	if (many)
		call->many[call->manys++] = value;
	else if (call->value[k])
		return rt_fail(&c->err, RT_E_USAGE, "--%s is given twice", command->option[k].name);
	call->value[k] = value;
	return RT_OK;
}

/* Too few or too many; a word too many may be meant as the next of a longer command. */
static enum rt_err wrong_number(struct cli *c, const struct cli_call *call)
{
	const struct cli_command *command = call->command;
	bool few = call->args < command->min_args;
	char longer[200] = "";

	for (size_t i = 0; !few && i < cli_command_count; i++)
		if (begins_with(cli_commands[i]->name, command->name))
			snprintf(longer + strlen(longer), sizeof longer - strlen(longer), "%s%s",
				 *longer ? ", " : "", cli_commands[i]->name);
	return rt_fail(&c->err, RT_E_USAGE, "too %s arguments: ringtrue %s%s%s%s%s%s",
		       few ? "few" : "many", command->name, *command->args ? " " : "",
		       command->args, *longer ? " (there are also " : "", longer,
		       *longer ? ")" : "");
}

static enum rt_err check_call(struct cli *c, const struct cli_call *call)
{
	const struct cli_command *command = call->command;

	if (call->args < command->min_args || call->args > command->max_args)
		return wrong_number(c, call);
	for (size_t k = 0; k < CLI_OPTIONS_MAX && command->option[k].name; k++)
		if (command->option[k].required && !call->value[k])
			return rt_fail(&c->err, RT_E_USAGE, "%s wants --%s %s", command->name,
				       command->option[k].name, command->option[k].value);
	return RT_OK;
}

enum rt_err cli_read_call(struct cli *c, int n, char **words, struct cli_call *call, bool *help)
{
	int i = 0;
	bool options = true;

	call->command = cli_find_command(n, words, &i);
	for (int k = 1; !call->command && k < n && !*help && is_first_word(words[0]); k++)
		*help = is_help(words[k]);
	if (!call->command)
		return *help ? RT_OK : unknown_command(c, n, words);
	for (; i < n; i++) {
		enum rt_err e = RT_OK;

		if (options && strcmp(words[i], "--") == 0)
			options = false;
		else if (options && is_help(words[i]))
			*help = true;
		else if (options && strncmp(words[i], "--", 2) == 0)
			e = read_option(c, call, n, words, &i);
		else if (call->args < CLI_ARGS_MAX)
			call->arg[call->args++] = words[i];
		else
			call->args = CLI_ARGS_MAX + 1;
		if (e)
			return e;
		if (call->args > CLI_ARGS_MAX)
			break;
	}
	return *help ? RT_OK : check_call(c, call);
}

const char *cli_option(const struct cli_call *call, const char *name)
{
	for (size_t k = 0; k < CLI_OPTIONS_MAX && call->command->option[k].name; k++)
		if (strcmp(call->command->option[k].name, name) == 0)
			return call->value[k];
	return NULL;
}

enum rt_err cli_real_option(struct cli *c, const struct cli_call *call, const char *name,
			    double low, double high, double *out)
{
	const char *typed = cli_option(call, name);
	char from[32], to[32];
	double v;

	if (!typed)
		return RT_OK;
	if (rt_parse_real(typed, &v) && v >= low && v <= high) {
		*out = v;
		return RT_OK;
	}
	rt_format_real(low, 2, from, sizeof from);
	rt_format_real(high, 2, to, sizeof to);
	return rt_fail(&c->err, RT_E_USAGE, "--%s: \"%s\": a number from %s to %s", name, typed,
		       from, to);
}

enum rt_err cli_whole(struct cli *c, const char *what, const char *typed, int64_t low, int64_t high,
		      int64_t *out)
{
	if (rt_parse_int(typed, out) && *out >= low && *out <= high)
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE, "%s: \"%s\": a whole number from %lld to %lld", what,
		       typed, (long long)low, (long long)high);
}

/* ---- help -------------------------------------------------------------------------------- */

static const char usage[] =
	"Usage: ringtrue [--show FILE] [--format text|csv|json] [--feet] [--date WHEN]\n"
	"                COMMAND [ARGUMENTS]\n\n"
	"  --show FILE    the show file (or RINGTRUE_SHOW)\n"
	"  --format F     text, csv or json\n"
	"  --table NAME   of CSV: this table of the report instead of the main one\n"
	"  --raw          of CSV: a text that a spreadsheet would run (=, +, -, @ first) as it\n"
	"                 is, without an apostrophe before it\n"
	"  --feet         lengths in feet and inches (text only)\n"
	"  --date WHEN    the date and time that outputs carry (default: now)\n";

void cli_print_help(FILE *out)
{
	const char *group = "";

	fputs(usage, out);
	for (size_t i = 0; i < cli_command_count; i++) {
		const struct cli_command *command = cli_commands[i];

		if (strcmp(group, command->group) != 0)
			fprintf(out, "\n%s\n", command->group);
		group = command->group;
		fprintf(out, "  %-*s %s\n", NAME_WIDTH, command->name, command->summary);
	}
	fputs("\n`ringtrue COMMAND --help` tells more.\n"
	      "Exit status: 0 done; 1 done, and something needs a person; 2 bad usage or input;\n"
	      "3 storage or output failed.\n",
	      out);
}

static void print_command_help(FILE *out, const struct cli_command *command)
{
	fprintf(out, "ringtrue %s %s\n\n%s\n", command->name, command->args, command->summary);
	if (command->details)
		fprintf(out, "\n%s\n", command->details);
	for (size_t k = 0; k < CLI_OPTIONS_MAX && command->option[k].name; k++) {
		const struct cli_option *o = &command->option[k];
		int gap = 22 - (int)strlen(o->name) - (o->value ? (int)strlen(o->value) + 1 : 0);

		fprintf(out, "%s  --%s%s%s%*s%s%s\n", k ? "" : "\n", o->name, o->value ? " " : "",
			o->value ? o->value : "", gap > 1 ? gap : 1, "", o->help,
			o->required ? " (needed)" : "");
	}
	if (command->example)
		fprintf(out, "\nExample: ringtrue %s\n", command->example);
}

/* The commands that share a first word. */
static void print_first_word_help(FILE *out, const char *word)
{
	fprintf(out, "The commands of %s:\n\n", word);
	for (size_t i = 0; i < cli_command_count; i++)
		if (begins_with(cli_commands[i]->name, word))
			fprintf(out, "  %-*s %s\n", NAME_WIDTH, cli_commands[i]->name,
				cli_commands[i]->summary);
	fprintf(out, "\n`ringtrue COMMAND --help` tells more.\n");
}

enum rt_err cli_help_on(struct cli *c, int n, char **words)
{
	int took;
	const struct cli_command *command = cli_find_command(n, words, &took);

	if (command)
		print_command_help(stdout, command);
	else if (is_first_word(words[0]))
		print_first_word_help(stdout, words[0]);
	else
		return unknown_command(c, n, words);
	return RT_OK;
}
