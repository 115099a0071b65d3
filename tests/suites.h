/* What every program of suites runs.  It wants POSIX, so config.h comes before it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUITES_H
#define SUITES_H

#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct named_suite {
	const char *name;
	int (*run)(void);
};

/* Run the suites that the command line names, all n of them when it names none; what main returns. */
static inline int suites_run(const struct named_suite *suites, size_t n, int argc, char **argv)
{
	char *top = realpath(getenv("srcdir") ? getenv("srcdir") : ".", NULL);
	int named = 0, status = EXIT_SUCCESS;

	if (top)
		setenv("srcdir", top, 1); /* some tests leave this folder */
	free(top);
	for (size_t i = 0; i < n; i++) {
		int wanted = argc == 1;

		for (int k = 1; k < argc; k++)
			wanted |= !strcmp(argv[k], suites[i].name);
		named += wanted;
		if (wanted && suites[i].run())
			status = EXIT_FAILURE;
	}
	if (argc > 1 && named != argc - 1) {
		fputs("a suite of that name is not in this program\n", stderr);
		return EXIT_FAILURE;
	}
	return status;
}

#endif
