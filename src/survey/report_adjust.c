/* Report tables of an adjustment.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "internal.h"

static const char *write_verdict(const struct rt_field *f, const void *row, char *out, size_t size)
{
	const struct rt_adjustment *a = row;

	(void)f;
	if (a->end != RT_SEARCH_CLEAR)
		return "readings in doubt";
	if (!a->blunders)
		return a->test == RT_SIGMA_UNTESTED ? "unchecked" : "good";
	snprintf(out, size, "%zu blunder%s", a->blunders, a->blunders == 1 ? "" : "s");
	return out;
}

static const struct rt_field summary_fields[] = {RT__SUMMARY_FIELDS(0, write_verdict)};

static const struct rt_record summary_table = RT_TABLE("summary", "Adjustment", summary_fields,
						       struct rt_adjustment);

#define POINT(member) RT_AT(struct rt_adjusted_point, member)

static const struct rt_field point_fields[] = {
	{"point", POINT(name)},
	{"x_m", .head = "x", POINT(x_m), RT_METRES(3)},
	{"y_m", .head = "y", POINT(y_m), RT_METRES(3)},
	{"se_x_m", .head = "+- x", POINT(se_x_m), RT_METRES(3)},
	{"se_y_m", .head = "+- y", POINT(se_y_m), RT_METRES(3)},
	{"fixed", POINT(fixed), .type = RT_BOOL, .wide = true},
};

static const struct rt_record point_table = RT_TABLE("points", "Points", point_fields,
						     struct rt_adjusted_point);

const struct rt_record *const rt_survey_tables[] = {&summary_table, &point_table,
						    &rt__reading_table, NULL};

enum rt_err rt_adjustment_report(struct rt_report *r, const struct rt_adjustment *a, bool feet,
				 struct rt_error *err)
{
	rt_report_list(r, &summary_table, a, 1);
	rt_report_list(r, &point_table, a->point, a->points);
	rt__put_readings(r, a);
	rt__notes_of_readings(r, a, feet);
	return rt_report_result(r, err);
}
