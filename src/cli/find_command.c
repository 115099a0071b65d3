/* Finding the command that the words of a line name, or may have meant.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

#define NAMES_MAX 256 /* commands, or words to suggest */

/* How many words of words[0..n) the name takes when they begin with it; 0: they do not. */
static int words_taken(const char *name, int n, char **words)
{
	int took = 0;

	for (const char *end; *name; name = *end ? end + 1 : end) {
		size_t length;

		end = strchrnul(name, ' ');
		length = (size_t)(end - name);
		if (took == n || strlen(words[took]) != length ||
		    strncmp(words[took], name, length) != 0)
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

bool cli_begins_with(const char *name, const char *word)
{
	size_t length = strlen(word);

	return strncmp(name, word, length) == 0 && name[length] == ' ';
}

bool cli_is_first_word(const char *word)
{
	for (size_t i = 0; i < cli_command_count; i++)
		if (cli_begins_with(cli_commands[i]->name, word))
			return true;
	return false;
}

void cli_unknown_word(struct cli *c, const char *what, const char *typed, const char *const *words,
		      size_t n, const char *before, const char *otherwise)
{
	const char *nearest = rt_nearest(typed, words, n);

	if (nearest)
		CLI_FAIL(c, RT_E_USAGE, "unknown %s \"%s%s\": did you mean \"%s%s\"?", what, before,
			 typed, before, nearest);
	CLI_FAIL(c, RT_E_USAGE, "unknown %s \"%s%s\": %s", what, before, typed, otherwise);
}

/* Add a name to those that are listed. */
static void list(char *listed, size_t size, const char *between, const char *name)
{
	size_t used = strlen(listed);

	snprintf(listed + used, size - used, "%s%s", used ? between : "", name);
}

/* The word of a command's name that was meant, be it the first or the last. */
static bool has_word(const char *name, const char *word)
{
	const char *last = strrchr(name, ' ');

	return cli_begins_with(name, word) || strcmp(last ? last + 1 : name, word) == 0;
}

/* `teams` and `sheets` are words of commands: list those that have them. */
static void unknown_by_word(struct cli *c, const char *typed)
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
			list(listed, sizeof listed, "\" or \"", cli_commands[i]->name);
	CLI_FAIL(c, RT_E_USAGE, "unknown command \"%s\": %s%s%s", typed,
		 nearest ? "did you mean \"" : "`ringtrue help` lists them", listed,
		 nearest ? "\"?" : "");
}

/* `ring chekc` and `rnig check` are told by the whole name, `ring` alone by its second words. */
void cli_unknown_command(struct cli *c, int n, char **words)
{
	const char *names[NAMES_MAX];
	size_t count = 0;
	char typed[80], listed[200] = "";

	for (size_t i = 0; i < cli_command_count && count < NAMES_MAX; i++) {
		names[count++] = cli_commands[i]->name;
		if (cli_begins_with(cli_commands[i]->name, words[0]))
			list(listed, sizeof listed, ", ", cli_commands[i]->name);
	}
	snprintf(typed, sizeof typed, "%s %s", words[0], n > 1 ? words[1] : "");
	if (n == 1 && *listed)
		CLI_FAIL(c, RT_E_USAGE, "\"%s\" wants a second word: %s", words[0], listed);
	else if (rt_nearest(words[0], names, count))
		cli_unknown_word(c, "command", words[0], names, count, "", "");
	else if (n == 1 || (!*listed && !rt_nearest(typed, names, count)))
		unknown_by_word(c, words[0]);
	else
		cli_unknown_word(c, "command", typed, names, count, "", listed);
}
