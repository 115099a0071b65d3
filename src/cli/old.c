/* What commands of the old way share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

const char *cli_option(const struct cli_call *call, const char *name)
{
	for (size_t k = 0; k < CLI_OLD_OPTIONS && call->command->old_option[k].name; k++)
		if (strcmp(call->command->old_option[k].name, name) == 0)
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

/* What is wrong with a text, or NULL. */
static const char *text_trouble(const char *typed, size_t most, bool needed)
{
	switch (rt_plain_text(typed, strlen(typed))) {
	case RT_PLAIN:
		break;
	case RT_PLAIN_NOT_UTF8:
		return "is not UTF-8";
	case RT_PLAIN_CONTROL:
	case RT_PLAIN_NUL:
		return "holds a control character";
	}
	if (strpbrk(typed, "\n\t"))
		return "holds a line break or a tab";
	if (needed && !typed[strspn(typed, " ")])
		return "is empty";
	return rt_characters(typed) > most ? "is too long" : NULL;
}

enum rt_err cli_text(struct cli *c, const char *what, const char *typed, size_t most, bool needed)
{
	const char *trouble = typed ? text_trouble(typed, most, needed) : NULL;

	if (!trouble)
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "%s %s: plain text on one line, in UTF-8, of at most %zu characters", what,
		       trouble, most);
}

enum rt_err cli_reasons(struct cli *c, const struct cli_call *call)
{
	enum rt_err e = cli_text(c, "--why", cli_option(call, "why"), CLI_TEXT_MOST, false);

	if (!e)
		e = cli_text(c, "--article", cli_option(call, "article"), CLI_TEXT_MOST, false);
	return e ? e : cli_text(c, "--by", cli_option(call, "by"), RT_NAME_MOST, false);
}

enum rt_err cli_typed_name(struct cli *c, const char *what, const char *typed, bool needed,
			   struct rt_arena **text, const char **out)
{
	enum rt_err e = cli_text(c, what, typed, RT_NAME_MOST, needed);
	size_t n;

	if (e)
		return e;
	typed += strspn(typed, " ");
	for (n = strlen(typed); n && typed[n - 1] == ' '; n--)
		;
	*out = n ? rt_arena_copy(text, typed, n) : NULL;
	return n && !*out ? rt_fail_nomem(&c->err) : RT_OK;
}

enum rt_err cli_name_option(struct cli *c, const struct cli_call *call, const char *option,
			    bool needed, struct rt_arena **text, const char **field)
{
	const char *typed = cli_option(call, option);
	char what[40];

	if (!typed)
		return RT_OK;
	snprintf(what, sizeof what, "--%s", option);
	return cli_typed_name(c, what, typed, needed, text, field);
}

void cli_old_field(struct cli *c, size_t k, const char *value)
{
	struct cli_call *call = &c->call;
	const struct rt_field *f = call->field[k];

	if (f->is & RT_ARGUMENT && call->args < CLI_ARGS_MAX)
		call->arg[call->args++] = value;
	else if (f->is & RT_MANY && !(f->is & RT_ARGUMENT) && call->manys < CLI_MANY_MAX)
		call->many[call->manys++] = value;
}

struct cli_sheet cli_old_sheet(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field as = {"as", .type = RT_WORD, .words = &cli_words_of_as};
	static const struct rt_field paper = {"paper", RT_WORD_OF(paper_size)};
	struct cli_sheet sheet = {.out = cli_option(call, "out")};

	if (cli_option(call, "as"))
		CLI_DO(c, rt_field_read(&as, &sheet.as, cli_option(call, "as"), NULL, &c->err));
	if (cli_option(call, "paper"))
		CLI_DO(c, rt_field_read(&paper, &sheet.paper, cli_option(call, "paper"), NULL,
					&c->err));
	return sheet;
}
