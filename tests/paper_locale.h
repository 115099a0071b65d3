/* A locale for the tests of paper.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef PAPER_LOCALE_H
#define PAPER_LOCALE_H

#include <check.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

/* Set the program's locale, without which the test fails: make check makes it.  LOCPATH, where it
 * is set, holds locales made for the tests; it is used for this call only, as the GNU library's
 * newlocale loses some bytes at each call while it is set, which a leak checker tells. */
static inline void paper_locale(const char *name)
{
	static char path[1024];
	const char *set = getenv("LOCPATH");

	if (set)
		snprintf(path, sizeof path, "%s", set);
	if (path[0])
		setenv("LOCPATH", path, 1);
	ck_assert_msg(setlocale(LC_ALL, name) != NULL, "there is no locale %s", name);
	unsetenv("LOCPATH");
}

#endif
