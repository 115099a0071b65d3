/* Footing rules: how far a ring may fall.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <math.h>

#define FALL	     .is = RT_OPTIONAL, .low = 0.01, .high = 20, .measure = "m"
#define FALL_PERCENT .is = RT_OPTIONAL, .low = 0.01, .high = 20, .measure = "per cent"

static const struct rt_field footing_columns[] = {
	{"footing", RT_AT(struct rt_footing_rule, name), .type = RT_NAME},
	{"discipline", RT_AT(struct rt_footing_rule, discipline), .type = RT_WORD,
	 .words = &rt_words_of_discipline},
	{"along_m", RT_AT(struct rt_footing_rule, along_m), .type = RT_REAL, FALL},
	{"along_percent", RT_AT(struct rt_footing_rule, along_percent), .type = RT_REAL,
	 FALL_PERCENT},
	{"across_m", RT_AT(struct rt_footing_rule, across_m), .type = RT_REAL, FALL},
	{"across_percent", RT_AT(struct rt_footing_rule, across_percent), .type = RT_REAL,
	 FALL_PERCENT},
	{"source", RT_AT(struct rt_footing_rule, source), .type = RT_TEXT, .is = RT_OPTIONAL},
};

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
	static const struct rt_footing_rule blank = {
		.along_m = NAN, .along_percent = NAN, .across_m = NAN, .across_percent = NAN};
	static const struct rt_record record = {RT_FIELDS(footing_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_rule, NULL};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
