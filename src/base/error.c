/* Error codes in words, and filling the caller's struct.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *rt_err_words(enum rt_err code)
{
	switch (code) {
#define RT_CASE(name, value, words)                                                                \
	case name:                                                                                 \
		return words;
		RT_ERRORS(RT_CASE)
#undef RT_CASE
	}
	return "unknown error";
}

enum rt_err rt_fail(struct rt_error *err, enum rt_err code, const char *fmt, ...)
{
	va_list args;

	if (!err)
		return code;
	memset(err, 0, sizeof *err);
	err->code = code;
	va_start(args, fmt);
	vsnprintf(err->text, sizeof err->text, fmt, args);
	va_end(args);
	return code;
}

enum rt_err rt_fail_nomem(struct rt_error *err)
{
	return rt_fail(err, RT_E_NOMEM, "%s", rt_err_words(RT_E_NOMEM));
}
