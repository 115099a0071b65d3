/* The suites.  Each suite is a file that offers one function of those below; the
 * suites of a room, or of a few that stand on one another, are one program, tests/suites_ROOM.c.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUITE_H
#define SUITE_H

#include <check.h>
#include <stddef.h>
#include <stdlib.h>

/* Each runs its suite and returns how the program should end. */
int check_adjust(void);
int check_advice(void);
int check_base(void);
int check_blunder(void);
int check_cones(void);
int check_drive(void);
int check_entries(void);
int check_footing(void);
int check_intake(void);
int check_intake_files(void);
int check_judgement(void);
int check_judging(void);
int check_mixed(void);
int check_office(void);
int check_office_judges(void);
int check_office_keying(void);
int check_office_places(void);
int check_office_sheets(void);
int check_paper(void);
int check_readings(void);
int check_record(void);
int check_report(void);
int check_ring(void);
int check_route(void);
int check_series(void);
int check_setout(void);
int check_sheet(void);
int check_sheet_check(void);
int check_sheet_office(void);
int check_sheet_route(void);
int check_sheet_setout(void);
int check_store(void);
int check_store_file(void);
int check_store_keying(void);
int check_store_log(void);
int check_store_posting(void);
int check_store_schema(void);
int check_sweep(void);
int check_threads(void);
int check_times(void);
int check_workbook(void);
int drive_curves(void);
int office_scores(void);
int ring_networks(void);

/* Add the n tests as a case with that name. */
static inline void suite_case(Suite *suite, const char *name, const TTest *const *tests, size_t n)
{
	TCase *tcase = tcase_create(name);

	for (size_t i = 0; i < n; i++)
		tcase_add_test(tcase, tests[i]);
	suite_add_tcase(suite, tcase);
}

/* Run the suite and free it. */
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
