/* What every program of tests ends with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUITE_H
#define SUITE_H

#include <check.h>
#include <stddef.h>
#include <stdlib.h>

/* Add the n tests as a case with that name. */
static inline void suite_case(Suite *suite, const char *name, const TTest *const *tests, size_t n)
{
	TCase *tcase = tcase_create(name);

	for (size_t i = 0; i < n; i++)
		tcase_add_test(tcase, tests[i]);
	suite_add_tcase(suite, tcase);
}

/* Run the suite and free it; what main returns. */
static inline int suite_run(Suite *suite)
{
	SRunner *runner = srunner_create(suite);
	int failed;

	srunner_run_all(runner, CK_ENV);
	failed = srunner_ntests_failed(runner);
	srunner_free(runner);
	return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}

#endif
