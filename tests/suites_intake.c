/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"intake", check_intake},
		{"intake_files", check_intake_files},
		{"readings", check_readings},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
