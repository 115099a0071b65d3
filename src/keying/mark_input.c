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

/* Digits only: 65 is 6.5 and 625 is 6.25, but 10 and 100 are ten. */
static bool read_digits(const char *digits, int64_t *mark_x100)
{
	size_t n = strlen(digits);

	if (n > 3 || !rt_parse_int(digits, mark_x100))
		return false;
	if (strcmp(digits, "10") == 0 || strcmp(digits, "100") == 0)
		*mark_x100 = RT_MARK_MOST_X100;
	else
		*mark_x100 *= rt_power_of_ten(3 - (int)n);
	return true;
}

bool rt_mark_typed(const char *typed, int64_t step_x100, int64_t *mark_x100)
{
	char number[TYPED_MOST];
	int64_t v;

	if (!with_point(typed, number))
		return false;
	if (strchr(number, '.') ? !rt_parse_decimal(number, 2, &v) : !read_digits(number, &v))
		return false;
	if (v < 0 || v > RT_MARK_MOST_X100 || v % step_x100 != 0)
		return false;
	*mark_x100 = v;
	return true;
}

void rt_mark_accepted(int64_t step_x100, char *out, size_t size)
{
	char step[24];

	rt_format_short(step_x100, 2, 0, step, sizeof step);
	snprintf(out, size, "0 to 10 in steps of %s%s", step,
		 step_x100 % 10   ? ", typed as 625 or 6.25"
		 : step_x100 % 100 ? ", typed as 65 or 6.5"
				   : "");
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

bool rt_total_typed(const char *typed, int64_t most_x100000, int64_t *total_x100000)
{
	char number[TYPED_MOST];
	int64_t v;

	if (!with_point(typed, number) || !rt_parse_decimal(number, 5, &v) || v < 0 ||
	    v > most_x100000)
		return false;
	*total_x100000 = v;
	return true;
}

int64_t rt_mark_most(enum rt_mark_kind kind)
{
	static const int64_t most[] = {[RT_MARK_ITEM] = RT_MARK_MOST_X100,
				       [RT_MARK_ERRORS] = RT_SHEET_ERRORS_MOST,
				       [RT_MARK_TOTAL] = RT_TOTAL_MOST_X100000};

	return most[kind];
}
