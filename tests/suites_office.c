/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"office", check_office},
		{"office_judges", check_office_judges},
		{"office_keying", check_office_keying},
		{"office_places", check_office_places},
		{"office_sheets", check_office_sheets},
		{"series", check_series},
		{"judging", check_judging},
		{"office_scores", office_scores},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
