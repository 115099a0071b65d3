/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"drive", check_drive},
		{"route", check_route},
		{"cones", check_cones},
		{"sweep", check_sweep},
		{"drive_curves", drive_curves},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
