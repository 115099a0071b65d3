/* Reading the command line: global options wherever they stand, then a command's own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <assert.h>
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* ---- global options ---------------------------------------------------------------------- */

static const char *const format_words[] = {"text", "csv", "json"};
static const struct rt_words formats = {"format", format_words, 3, NULL, 0};

static enum rt_err read_when(const struct rt_field *f, void *member, const char *s,
			     struct rt_arena **text, struct rt_error *err)
{
	static const char midnight[] = "0000-00-00 00:00:00";
	char *when = member;

	(void)text;
	if (!rt_parse_when(s))
		return rt_refuse(err, s, "is no date", f->accepted);
	snprintf(when, sizeof midnight, "%s%s", s, midnight + strlen(s));
	when[10] = ' ';
	return RT_OK;
}

const struct rt_field cli_globals[] = {
	{"show", RT_AT(struct cli, show_path), .head = "FILE", .type = RT_TEXT,
	 .help = "the show file, or RINGTRUE_SHOW in the environment"},
	{"format", RT_AT(struct cli, format), .head = "F", .type = RT_WORD, .words = &formats,
	 .is = RT_USUAL, .help = "of what is told"},
	{"table", RT_AT(struct cli, table), .head = "NAME", .type = RT_TEXT,
	 .help = "of CSV: this table of the report instead of the main one"},
	{"raw", RT_AT(struct cli, raw), .type = RT_BOOL,
	 .help = "of CSV: a text that a spreadsheet would run (=, +, -, @ first) as it is, without "
		 "an apostrophe before it"},
	{"feet", RT_AT(struct cli, feet), .type = RT_BOOL,
	 .help = "lengths in feet and inches, in text"},
	{"date", RT_AT(struct cli, when), .head = "WHEN", .type = RT_OWN, .read = read_when,
	 .accepted = "YYYY-MM-DD, or \"YYYY-MM-DD HH:MM\"",
	 .help = "the date and time that outputs carry, instead of now"},
	{"help", RT_AT(struct cli, help), .type = RT_BOOL, .help = "what a command does, or -h"},
	{"version", RT_AT(struct cli, version), .type = RT_BOOL, .help = "which this is, or -V"},
};
const size_t cli_global_count = sizeof cli_globals / sizeof *cli_globals;

/* ---- the fields of a command ------------------------------------------------------------- */

const char *cli_option_name(const struct rt_field *f, char out[64])
{
	size_t n = 0;

	for (const char *s = f->name; *s && strcmp(s, "_cm") != 0 && n < 63; s++)
		out[n++] = (char)(*s == '_' ? '-' : *s);
	out[n] = '\0';
	return out;
}

static bool is_of_record(const struct cli_command *command, const struct rt_field *f)
{
	const struct rt_record *r = command ? command->record : NULL;

	return r && f >= r->field && f < r->field + r->fields;
}

/* A column is headed for lists: its name is the better word. */
const char *cli_value_name(const struct cli_command *command, const struct rt_field *f,
			   char out[64])
{
	if (f->head && !is_of_record(command, f))
		return f->head;
	cli_option_name(f, out);
	for (char *s = out; *s; s++)
		*s = (char)toupper((unsigned char)*s);
	return out;
}

/* Whether the first `length` bytes of word are the option's name, or another of its names. */
static bool is_called(const struct rt_field *f, const char *word, size_t length)
{
	char name[64];

	cli_option_name(f, name);
	if (strlen(name) != length || strncmp(word, name, length) != 0) {
		if (!f->also || length >= sizeof name)
			return false;
		memcpy(name, word, length);
		name[length] = '\0';
		return strcmp(name, f->name) != 0 && rt_field_called(f, name);
	}
	return true;
}

bool cli_is_flag(const struct cli_command *command, const struct rt_field *f)
{
	return f->type == RT_BOOL && !(command && command->changes && is_of_record(command, f));
}

static bool is_needed(const struct cli_command *command, const struct rt_field *f)
{
	if (is_of_record(command, f))
		return !command->changes && !(f->is & (RT_EMPTY | RT_OPTIONAL | RT_USUAL));
	return f->is & RT_REQUIRED;
}

size_t cli_fields_of(const struct cli_command *command, const struct rt_field *field[])
{
	const struct rt_record *r = command->record;
	size_t n = 0;

	while (n < command->options) {
		field[n] = &command->option[n];
		n++;
	}
	for (size_t i = 0; r && i < r->fields; i++) {
		bool own = !rt_field_in_file(&r->field[i]) ||
			   (command->left_out && strcmp(command->left_out, r->field[i].name) == 0);
		char name[64];

		cli_option_name(&r->field[i], name);
		for (size_t k = 0; !own && k < command->options; k++)
			own = is_called(&command->option[k], name, strlen(name));
		if (!own)
			field[n++] = &r->field[i];
	}
	return n;
}

void cli_usage(const struct cli_command *command, char *out, size_t size)
{
	const struct rt_field *field[CLI_FIELDS_MAX];
	size_t n = command->args ? 0 : cli_fields_of(command, field), at = 0;

	snprintf(out, size, "%s", command->args ? command->args : "");
	for (size_t k = 0; k < n && at < size; k++) {
		const struct rt_field *f = field[k];
		bool argument = f->is & RT_ARGUMENT, needed = is_needed(command, f);
		char name[64], value[64];

		if (argument || needed)
			at += (size_t)snprintf(
				out + at, size - at, "%s%s%s%s%s%s%s%s", at ? " " : "",
				needed ? "" : "[", argument ? "" : "--",
				argument ? "" : cli_option_name(f, name), argument ? "" : " ",
				cli_value_name(command, f, value), f->is & RT_MANY ? "..." : "",
				needed ? "" : "]");
	}
}

/* ---- a value ------------------------------------------------------------------------------- */

/* What is wrong with a text, or NULL. */
static const char *text_trouble(const char *s, size_t most)
{
	switch (rt_plain_text(s, strlen(s))) {
	case RT_PLAIN:
		break;
	case RT_PLAIN_NOT_UTF8:
		return "is not UTF-8";
	case RT_PLAIN_CONTROL:
	case RT_PLAIN_NUL:
		return "holds a control character";
	}
	if (strpbrk(s, "\n\t"))
		return "holds a line break or a tab";
	if (!s[strspn(s, " ")])
		return "is empty";
	return rt_characters(s) > most ? "is too long" : NULL;
}

/* A text as its field has it: plain, a name without outer spaces.  A path is what it is. */
static const char *clean(struct cli *c, const struct rt_field *f, const char *what, const char *s)
{
	bool path = f->type == RT_TEXT && f->high <= 0;
	size_t most = f->type == RT_TEXT ? (size_t)f->high : RT_NAME_MOST, n;
	const char *trouble = path ? NULL : text_trouble(s, most);

	if (path && !*s)
		CLI_FAIL(c, RT_E_USAGE, "%s: \"\" is no name", what);
	if (trouble)
		CLI_FAIL(c, RT_E_USAGE,
			 "%s %s: plain text on one line, in UTF-8, of at most %zu characters", what,
			 trouble, most);
	if (f->type != RT_NAME && f->type != RT_NAMES && f->type != RT_LETTERS)
		return s;
	s += strspn(s, " ");
	for (n = strlen(s); n && s[n - 1] == ' '; n--)
		;
	s = rt_arena_copy(&c->text, s, n);
	if (!s)
		CLI_DO(c, rt_fail_nomem(&c->err));
	return s;
}

/* Read a value into its member of `into`. */
static void read_value(struct cli *c, const struct rt_field *f, void *into, const char *s)
{
	void *member = (char *)into + f->offset;
	struct rt_error why = {0};
	char name[64], what[80];

	snprintf(what, sizeof what, "%s%s", f->is & RT_ARGUMENT ? "" : "--",
		 cli_option_name(f, name));
	s = clean(c, f, what, s);
	if (c->err.code)
		return;
	if (f->is & RT_MANY) {
		CLI_ADD(c, (struct rt_strings *)member, s);
	} else if (rt_field_read(f, into, s, &c->text, &why)) {
		CLI_FAIL(c, why.code == RT_E_INPUT ? RT_E_USAGE : why.code, "%s: %s", what,
			 why.text);
	}
}

/* Split --name=value: the length of the name, and the value or NULL. */
static size_t split_option(const char *word, const char **value)
{
	const char *equals = strchr(word, '=');

	*value = equals ? equals + 1 : NULL;
	return equals ? (size_t)(equals - word) : strlen(word);
}

/* The value of the option at words[*i], of which `value` stood behind a =; moves *i over it. */
static const char *value_of(struct cli *c, const struct rt_field *f, bool flag, const char *value,
			    int n, char **words, int *i)
{
	char name[64], head[64];

	cli_option_name(f, name);
	if (flag && value)
		CLI_FAIL(c, RT_E_USAGE, "--%s takes no value", name);
	else if (!flag && !value && *i + 1 >= n)
		CLI_FAIL(c, RT_E_USAGE, "--%s wants a value: %s", name,
			 cli_value_name(c->call.command, f, head));
	else if (!flag && !value)
		value = words[++*i];
	return flag ? "" : value;
}

/* ---- reading the line -------------------------------------------------------------------- */

int cli_read_globals(struct cli *c, int n, char **words)
{
	bool given[sizeof cli_globals / sizeof *cli_globals] = {false};
	int kept = 0, i = 0;

	for (; i < n && strcmp(words[i], "--") != 0 && !c->err.code; i++) {
		const char *value, *word = strcmp(words[i], "-h") == 0	 ? "--help"
					   : strcmp(words[i], "-V") == 0 ? "--version"
									 : words[i];
		const struct rt_field *f;
		size_t k = 0, length;
		bool flag;

		if (strncmp(word, "--", 2) != 0) {
			words[kept++] = words[i];
			continue;
		}
		length = split_option(word + 2, &value);
		while (k < cli_global_count && !is_called(&cli_globals[k], word + 2, length))
			k++;
		if (k == cli_global_count) {
			words[kept++] = words[i];
			continue;
		}
		f = &cli_globals[k];
		flag = cli_is_flag(NULL, f);
		value = value_of(c, f, flag, value, n, words, &i);
		if (given[k] && !c->err.code && f->offset != offsetof(struct cli, help))
			CLI_FAIL(c, RT_E_USAGE, "--%s is given twice", f->name);
		given[k] = true;
		if (flag)
			*(bool *)((char *)c + f->offset) = true;
		else if (!c->err.code)
			read_value(c, f, c, value);
	}
	while (i < n)
		words[kept++] = words[i++];
	return kept;
}

/* Keep what was typed of field k. */
static void take(struct cli *c, size_t k, bool flag, const char *value)
{
	struct cli_call *call = &c->call;
	const struct cli_command *command = call->command;
	const struct rt_field *f = call->field[k];
	char name[64];

	cli_option_name(f, name);
	if (call->value[k] && !(f->is & RT_MANY))
		CLI_FAIL(c, RT_E_USAGE, "--%s%s%s is given twice", name, f->also ? " or --" : "",
			 f->also ? f->also : "");
	call->value[k] = value;
	if (flag)
		*(bool *)((char *)call->typed + f->offset) = true;
	else if (*value || !(f->is & RT_EMPTY || (command->changes && is_of_record(command, f))))
		read_value(c, f, call->typed, value);
	else if (!(f->is & (RT_EMPTY | RT_OPTIONAL)) || f->type == RT_OWN)
		CLI_FAIL(c, RT_E_USAGE, "--%s may not be empty", name);
}

/* An option that the command has not got. */
static void unknown_option(struct cli *c, const char *word)
{
	char name[CLI_FIELDS_MAX + 8][64], listed[200] = "";
	const char *names[CLI_FIELDS_MAX + 8];
	size_t n = 0;

	for (size_t k = 0; k < c->call.fields; k++)
		if (!(c->call.field[k]->is & RT_ARGUMENT))
			cli_option_name(c->call.field[k], name[n++]);
	for (size_t k = 0; k < cli_global_count; k++)
		cli_option_name(&cli_globals[k], name[n++]);
	for (size_t k = 0; k < n; k++)
		names[k] = name[k];
	if (word[1] == '-') {
		snprintf(listed, sizeof listed, "`ringtrue %s%shelp` lists them",
			 c->call.command ? c->call.command->name : "",
			 c->call.command ? " --" : "");
		cli_unknown_word(c, "option", word + 2, names, n, "--", listed);
		return;
	}
	for (size_t k = 0; k < n; k++)
		if (names[k][0] == word[1] && strlen(listed) + 80 < sizeof listed)
			snprintf(listed + strlen(listed), sizeof listed - strlen(listed), "%s--%s",
				 *listed ? " or " : "", names[k]);
	CLI_FAIL(c, RT_E_USAGE, "unknown option \"%.20s\": %s%s%s", word,
		 *listed ? "did you mean " : "-h and -V are the only ones of one letter", listed,
		 *listed ? "?" : "");
}

/* Read the option at words[*i], moving *i on over its value. */
static void read_option(struct cli *c, int n, char **words, int *i)
{
	struct cli_call *call = &c->call;
	const char *value, *word = words[*i];
	size_t length = split_option(word + 2, &value), k = 0;
	bool flag;

	while (k < call->fields &&
	       (call->field[k]->is & RT_ARGUMENT || !is_called(call->field[k], word + 2, length)))
		k++;
	if (word[1] != '-' || k == call->fields) {
		unknown_option(c, word);
		return;
	}
	flag = cli_is_flag(call->command, call->field[k]);
	value = value_of(c, call->field[k], flag, value, n, words, i);
	if (!c->err.code)
		take(c, k, flag, value);
}

/* Too few or too many arguments; a word too many may be meant as the next of a longer command. */
static void wrong_number(struct cli *c, const char *which)
{
	const struct cli_command *command = c->call.command;
	char longer[200] = "", usage[300];

	for (size_t i = 0; strcmp(which, "many") == 0 && i < cli_command_count; i++)
		if (cli_begins_with(cli_commands[i]->name, command->name))
			snprintf(longer + strlen(longer), sizeof longer - strlen(longer), "%s%s",
				 *longer ? ", " : "", cli_commands[i]->name);
	cli_usage(command, usage, sizeof usage);
	CLI_FAIL(c, RT_E_USAGE, "too %s arguments: ringtrue %s%s%s%s%s%s", which, command->name,
		 *usage ? " " : "", usage, *longer ? " (there are also " : "", longer,
		 *longer ? ")" : "");
}

static void read_argument(struct cli *c, const char *word)
{
	struct cli_call *call = &c->call;

	for (size_t k = 0; k < call->fields; k++) {
		const struct rt_field *f = call->field[k];

		if (f->is & RT_ARGUMENT && (!call->value[k] || f->is & RT_MANY)) {
			take(c, k, false, word);
			return;
		}
	}
	wrong_number(c, "many");
}

/* What is needed behind an argument that may be given many times are the last words of all. */
static void part_arguments(struct cli *c)
{
	struct cli_call *call = &c->call;
	struct rt_strings *many = NULL;

	for (size_t k = 0; k < call->fields && !c->err.code; k++) {
		const struct rt_field *f = call->field[k];

		if (!(f->is & RT_ARGUMENT))
			continue;
		if (f->is & RT_MANY)
			many = (struct rt_strings *)((char *)call->typed + f->offset);
		else if (many && many->n > 1)
			take(c, k, false, many->at[--many->n]);
	}
}

static void check_needed(struct cli *c)
{
	const struct cli_call *call = &c->call;
	char name[64], head[64];

	for (size_t k = 0; k < call->fields && !c->err.code; k++) {
		const struct rt_field *f = call->field[k];

		if (call->value[k] || !is_needed(call->command, f))
			continue;
		if (f->is & RT_ARGUMENT)
			wrong_number(c, "few");
		else
			CLI_FAIL(c, RT_E_USAGE, "%s wants --%s%s%s %s", call->command->name,
				 cli_option_name(f, name), f->also ? " or --" : "",
				 f->also ? f->also : "", cli_value_name(call->command, f, head));
	}
}

static void start(struct cli *c, const struct cli_command *command)
{
	struct cli_call *call = &c->call;

	call->command = command;
	call->fields = cli_fields_of(command, call->field);
	call->typed = calloc(1, command->size + 1);
	if (!call->typed)
		CLI_DO(c, rt_fail_nomem(&c->err));
	else if (command->blank)
		memcpy(call->typed, command->blank, command->size);
	else if (command->record)
		rt_record_start(command->record, call->typed);
}

/* Something like -o, which neither names standard input nor is a number. */
static bool is_option(const char *word)
{
	return word[0] == '-' && word[1] && !isdigit((unsigned char)word[1]) && word[1] != '.';
}

void cli_read_call(struct cli *c, int n, char **words)
{
	const struct cli_command *command;
	bool options = true;
	int i;

	if (n > 0 && strcmp(words[0], "--") == 0) {
		n--;
		words++;
	}
	command = cli_find_command(n, words, &i);
	if (!command && n > 0 && is_option(words[0]))
		unknown_option(c, words[0]);
	else if (!command)
		cli_unknown_command(c, n, words);
	if (!command)
		return;
	start(c, command);
	for (; i < n && !c->err.code; i++) {
		if (options && strcmp(words[i], "--") == 0)
			options = false;
		else if (options && is_option(words[i]))
			read_option(c, n, words, &i);
		else
			read_argument(c, words[i]);
	}
	part_arguments(c);
	if (!c->err.code)
		check_needed(c);
}

void cli_call_free(struct cli_call *call)
{
	for (size_t k = 0; call->typed && k < call->fields; k++)
		if (call->field[k]->is & RT_MANY)
			RT_LIST_FREE((struct rt_strings *)((char *)call->typed +
							   call->field[k]->offset));
	free(call->typed);
}

bool cli_given(const struct cli *c, const void *member)
{
	const struct cli_call *call = &c->call;
	size_t offset = (size_t)((const char *)member - (const char *)call->typed), k = 0;

	while (k < call->fields && call->field[k]->offset != offset)
		k++;
	assert(k < call->fields); /* the member is no option */
	return call->value[k];
}

bool cli_changes_something(const struct cli *c)
{
	const struct cli_call *call = &c->call;

	for (size_t k = 0; k < call->fields; k++)
		if (call->value[k] && is_of_record(call->command, call->field[k]))
			return true;
	return false;
}

void cli_change(struct cli *c, void *row)
{
	const struct cli_call *call = &c->call;
	const struct rt_record *r = call->command->record;

	for (size_t k = 0; k < call->fields && !c->err.code; k++) {
		const struct rt_field *f = call->field[k];

		if (!call->value[k] || !is_of_record(call->command, f))
			continue;
		if (*call->value[k])
			read_value(c, f, row, call->value[k]);
		else
			rt_field_clear(r, f, row);
	}
}
