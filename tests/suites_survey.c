/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"adjust", check_adjust},
		{"blunder", check_blunder},
		{"mixed", check_mixed},
		{"ring_networks", ring_networks},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
