/* The file of scoring rules.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <string.h>

static void check_rule(struct rt__load *l, void *data)
{
	static const char *const columns[RT_ERROR_STEPS] = {"error_1", "error_2", "error_3"};
	struct rt_rule *row = data;
	struct rt_error err;

	rt__doubled(l, l->self, "rule", row->name, row->name, "each rule once");
	if (l->row_bad)
		return;
	row->error_steps = rt__costs_check(l, row->error, columns, RT_ERROR_STEPS);
	if (!l->row_bad && rt_rule_check(row, &err) != RT_OK)
		rt__row_fault(l, NULL, "%s", err.text);
}

enum rt_err rt_read_rules(struct rt_rules *out, const char *path, struct rt_faults *faults,
			  struct rt_error *err)
{
	static const struct rt__file file = {&rt_rule_record, check_rule, NULL};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
