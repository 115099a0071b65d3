/* Footing rules: how far a ring may fall.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <math.h>

static void check_one_of(struct rt__load *l, const char *column, double metres, double percent)
{
	if (isnan(metres) == isnan(percent))
		rt__row_fault(l, column, "%s: one of the two, in metres or in per cent",
			      isnan(metres) ? "no limit is given" : "two limits are given");
}

static void check_rule(struct rt__load *l, void *data)
{
	const struct rt_footing_rule *row = data;

	if (l->row_bad)
		return;
	check_one_of(l, "along_m", row->along_m, row->along_percent);
	check_one_of(l, "across_m", row->across_m, row->across_percent);
	rt__doubled(l, l->self, "footing", row->name, row->name, "each rule once");
}

enum rt_err rt_read_footing_rules(struct rt_footing_rules *out, const char *path,
				  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_footing_rule_record, check_rule, NULL};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
