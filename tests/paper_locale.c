/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "paper_locale.h"

#include <check.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

/* LOCPATH, where it is set, holds locales made for the tests; it is used for this call only, as the
 * GNU library's newlocale loses some bytes at each call while it is set, which a leak checker
 * tells. */
void paper_locale(const char *name)
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
