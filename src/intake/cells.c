/* One field as a number, a name, yes or no.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define AS_WORDS(number) #number
#define WORDS_OF(number) AS_WORDS(number)
#define NAME_MOST_WORDS	 WORDS_OF(RT_NAME_MOST)

/* ---- text ------------------------------------------------------------------------------------ */

/* A string that holds as long as the rows: a copy in the list's text, or s itself where rows
 * are not kept.  NULL when memory is out, which l notes. */
static const char *keep_string(struct rt__load *l, const char *s)
{
	const char *kept = l->list.at ? rt_arena_string(l->list.text, s) : s;

	if (!kept)
		l->nomem = true;
	return kept;
}

bool rt__cell_text(struct rt__load *l, const char *s, void *field)
{
	return (*(const char **)field = keep_string(l, s)) != NULL;
}

bool rt__cell_name(struct rt__load *l, const char *s, void *field)
{
	if (strpbrk(s, "\n\t"))
		return rt__refuse(l, s, "holds a line break or a tab", "text on one line");
	if (rt_characters(s) > RT_NAME_MOST)
		return rt__refuse(l, s, "is too long", "at most " NAME_MOST_WORDS " characters");
	return rt__cell_text(l, s, field);
}

bool rt__cell_yes(struct rt__load *l, const char *s, void *field)
{
	bool *yes = field;

	*yes = strcmp(s, "yes") == 0;
	return *yes || strcmp(s, "no") == 0 || rt__refuse(l, s, "is neither", "yes or no");
}

/* ---- numbers --------------------------------------------------------------------------------- */

bool rt__has_comma(const char *s)
{
	char copy[32];
	char *comma;
	double v;

	if (strlen(s) >= sizeof copy)
		return false;
	strcpy(copy, s);
	comma = strchr(copy, ',');
	if (!comma)
		return false;
	*comma = '.';
	return rt_parse_real(copy, &v);
}

/* v with as many decimals as it needs, six at the most. */
static void format_short(double v, char *out, size_t size)
{
	size_t n;

	rt_format_real(v, 6, out, size);
	for (n = strlen(out); n && out[n - 1] == '0'; n--)
		;
	if (n && out[n - 1] == '.')
		n--;
	out[n] = '\0';
}

/* Refuse a number, with what its column accepts. */
static bool refuse_number(struct rt__load *l, const char *s, const char *kind, const char *wrong)
{
	const struct rt__column *c = l->column;
	char low[32], high[32], accepted[160], decimals[40] = "";

	format_short(c->low, low, sizeof low);
	format_short(c->high, high, sizeof high);
	if (c->digits)
		snprintf(decimals, sizeof decimals, " with at most %d decimals", c->digits);
	snprintf(accepted, sizeof accepted, "%s from %s to %s%s%s%s", kind, low, high,
		 c->unit ? " " : "", c->unit ? c->unit : "", decimals);
	return rt__refuse(l, s, wrong, accepted);
}

/* What is wrong with text that is no number, or no exact one; decimals says what is then wrong
 * with those it has. */
static const char *number_trouble(const char *s, const char *decimals)
{
	double v;

	if (!rt_parse_real(s, &v))
		return rt__has_comma(s) ? "has a decimal comma, not a decimal point"
					: "is not a number";
	if (strpbrk(s, "eE"))
		return "has an exponent";
	return strchr(s, '.') ? decimals : "is out of range";
}

bool rt__cell_real(struct rt__load *l, const char *s, void *field)
{
	double v;

	if (!rt_parse_real(s, &v))
		return refuse_number(l, s, "a number", number_trouble(s, NULL));
	if (v < l->column->low || v > l->column->high)
		return refuse_number(l, s, "a number", "is out of range");
	*(double *)field = v;
	return true;
}

bool rt__cell_whole(struct rt__load *l, const char *s, void *field)
{
	int64_t v;

	if (!rt_parse_int(s, &v))
		return refuse_number(l, s, "a whole number",
				     number_trouble(s, "is not a whole number"));
	if ((double)v < l->column->low || (double)v > l->column->high)
		return refuse_number(l, s, "a whole number", "is out of range");
	*(int64_t *)field = v;
	return true;
}

bool rt__cell_small(struct rt__load *l, const char *s, void *field)
{
	int64_t v = 0;

	if (!rt__cell_whole(l, s, &v))
		return false;
	*(int *)field = (int)v;
	return true;
}

bool rt__cell_decimal(struct rt__load *l, const char *s, void *field)
{
	const struct rt__column *c = l->column;
	int64_t v;
	double real;

	if (!rt_parse_decimal(s, c->digits, &v))
		return refuse_number(l, s, "a number", number_trouble(s, "has too many decimals"));
	rt_parse_real(s, &real);
	if (real < c->low || real > c->high)
		return refuse_number(l, s, "a number", "is out of range");
	*(int64_t *)field = v;
	return true;
}

bool rt__cell_height(struct rt__load *l, const char *s, void *field)
{
	return rt_parse_height(s, field) || rt__refuse(l, s, "is not a height", RT_HEIGHT_ACCEPTED);
}
