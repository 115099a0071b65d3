/* What a typed mark, number of errors or total means.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define DIGITS	   "0123456789"
#define TYPED_MOST 24 /* characters of a number that can be meant */

/* The same with a decimal point for a comma, as some keyboards have it; false when it is no
 * number of digits. */
static bool with_point(const char *typed, char out[TYPED_MOST])
{
	size_t n = strlen(typed);
	char *comma;

	if (n == 0 || n >= TYPED_MOST || strspn(typed, DIGITS ".,") != n)
		return false;
	memcpy(out, typed, n + 1);
	comma = strchr(out, ',');
	if (comma)
		*comma = '.';
	return true;
}

/* Digits only: 65 is 6.5, but 10 and 100 are ten. */
static bool read_digits(const char *digits, int64_t *mark_x10)
{
	size_t n = strlen(digits);

	if ((n > 2 && strcmp(digits, "100") != 0) || !rt_parse_int(digits, mark_x10))
		return false;
	if (n == 1 || strcmp(digits, "10") == 0)
		*mark_x10 *= 10;
	return true;
}

bool rt_mark_typed(const char *typed, int64_t step_x10, int64_t *mark_x10)
{
	char number[TYPED_MOST];
	int64_t v;

	if (!with_point(typed, number))
		return false;
	if (strchr(number, '.') ? !rt_parse_decimal(number, 1, &v) : !read_digits(number, &v))
		return false;
	if (v < 0 || v > RT_MARK_MOST_X10 || v % step_x10 != 0)
		return false;
	*mark_x10 = v;
	return true;
}

void rt_mark_accepted(int64_t step_x10, char *out, size_t size)
{
	char step[24];

	rt_format_short(step_x10, 1, 0, step, sizeof step);
	snprintf(out, size, "0 to 10 in steps of %s%s", step,
		 step_x10 % 10 ? ", typed as 65 or 6.5" : "");
}

bool rt_sheet_errors_typed(const char *typed, int64_t *errors)
{
	int64_t v;

	if (strspn(typed, DIGITS) != strlen(typed) || !rt_parse_int(typed, &v) ||
	    v > RT_SHEET_ERRORS_MOST)
		return false;
	*errors = v;
	return true;
}

bool rt_total_typed(const char *typed, int64_t most_x10000, int64_t *total_x10000)
{
	char number[TYPED_MOST];
	int64_t v;

	if (!with_point(typed, number) || !rt_parse_decimal(number, 4, &v) || v < 0 ||
	    v > most_x10000)
		return false;
	*total_x10000 = v;
	return true;
}

int64_t rt_mark_most(enum rt_mark_kind kind)
{
	static const int64_t most[] = {[RT_MARK_ITEM] = RT_MARK_MOST_X10,
				       [RT_MARK_ERRORS] = RT_SHEET_ERRORS_MOST,
				       [RT_MARK_TOTAL] = RT_TOTAL_MOST_X10000};

	return most[kind];
}
