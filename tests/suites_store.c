/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suites.h"

int main(int argc, char **argv)
{
	static const struct named_suite suites[] = {
		{"store", check_store},
		{"entries", check_entries},
		{"store_file", check_store_file},
		{"store_keying", check_store_keying},
		{"store_log", check_store_log},
		{"store_posting", check_store_posting},
		{"store_schema", check_store_schema},
	};

	return suites_run(suites, sizeof suites / sizeof *suites, argc, argv);
}
