/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"sheet", check_sheet},
		{"sheet_check", check_sheet_check},
		{"sheet_office", check_sheet_office},
		{"sheet_route", check_sheet_route},
		{"sheet_setout", check_sheet_setout},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
