/* Report tables of an adjustment.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

void rt__put_counts(struct rt_table *t, const struct rt_adjustment *a)
{
	rt_put_int(t, (int64_t)a->readings);
	rt_put_int(t, (int64_t)a->points);
	rt_put_int(t, (int64_t)a->degrees_of_freedom);
	rt_put_real(t, a->sigma0);
}

static void put_adjust_summary(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_field columns[] = {RT__SUMMARY_COLUMNS};
	struct rt_table *t = rt_report_table(r, "summary", "Adjustment", columns, COUNT(columns));

	rt__put_counts(t, a);
	if (a->end != RT_SEARCH_CLEAR)
		rt_put_text(t, "readings in doubt");
	else if (a->blunders)
		rt_put_textf(t, "%zu blunder%s", a->blunders, a->blunders == 1 ? "" : "s");
	else
		rt_put_text(t, a->test == RT_SIGMA_UNTESTED ? "unchecked" : "good");
	rt_put_text(t, rt_sigma_test_words(a->test));
	rt_put_int(t, (int64_t)a->blunders);
}

static void put_points(struct rt_report *r, const struct rt_adjustment *a)
{
	static const struct rt_field columns[] = {
		RT__TEXT("point", "point", false),	RT__METRES("x_m", "x", 3, false),
		RT__METRES("y_m", "y", 3, false),	RT__METRES("se_x_m", "+- x", 3, false),
		RT__METRES("se_y_m", "+- y", 3, false), RT__YES_NO("fixed", "fixed", true),
	};
	struct rt_table *t = rt_report_table(r, "points", "Points", columns, COUNT(columns));

	for (size_t i = 0; i < a->points; i++) {
		const struct rt_adjusted_point *p = &a->point[i];

		rt_put_text(t, p->name);
		rt_put_real(t, p->x_m);
		rt_put_real(t, p->y_m);
		rt_put_real(t, p->se_x_m);
		rt_put_real(t, p->se_y_m);
		rt_put_bool(t, p->fixed);
	}
}

enum rt_err rt_adjustment_report(struct rt_report *r, const struct rt_adjustment *a, bool feet,
				 struct rt_error *err)
{
	put_adjust_summary(r, a);
	put_points(r, a);
	rt__put_readings(r, a);
	rt__notes_of_readings(r, a, feet);
	return rt_report_result(r, err);
}
