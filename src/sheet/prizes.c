/* The paper of prize money: who is paid what, with a line to sign for each.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

static const struct rt__list_column columns[] = {
	{.name = "division", .head = "Division", .if_any = true},
	{.name = "place", .head = "Place", .anchor = RT_ANCHOR_RIGHT},
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "payee", .head = "Paid to", .if_any = true, .unless = "driver"},
	{.name = "amount", .head = "Amount", .anchor = RT_ANCHOR_RIGHT},
	{.name = "rosette", .head = "Rosette"},
	{.head = "Received", .box_mm = 34.0},
};

static const struct rt__list_view view = {RT__LIST_VIEW("prizes", columns), .untitled = true};

enum rt_err rt_sheet_prizes(struct rt_sheet *out, const struct rt_prizes *prizes,
			    const struct rt_sheet_options *options, struct rt_error *err)
{
	const struct rt_class *class_ = prizes->of->results->of->class_;
	char title[3 * 4 * RT_NAME_MOST] = "", sum[40], paid[5 * RT_NAME_MOST] = "";
	char band[RT_BAND_BYTES];
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.band = rt_shown_band(prizes->of, band, sizeof band),
					     .title = title,
					     .line = {options->show, paid},
					     .report = &report,
					     .view = &view,
					     .views = 1,
					     .signature = "Paid out by:"};
	enum rt_err e;

	rt__add_words(title, sizeof title, "Prize money: class %s, %s", class_->name,
		      class_->title);
	rt_format_decimal(prizes->paid_x100, 2, sum, sizeof sum);
	rt__add_words(paid, sizeof paid, "Scale %s; %s in all", prizes->scale, sum);
	rt_prizes_report(&report, prizes);
	e = rt__list(out, &paper, options, err);
	rt_report_free(&report);
	return e;
}
