/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"ring", check_ring},
		{"advice", check_advice},
		{"judgement", check_judgement},
		{"footing", check_footing},
		{"setout", check_setout},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
