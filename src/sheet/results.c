/* The paper of results that is put up.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#define WORDS_BYTES (6 * 4 * RT_NAME_MOST) /* the names of five judges and more */

static const struct rt__list_column placed_columns[] = {
	{.name = "place", .head = "Place", .anchor = RT_ANCHOR_RIGHT},
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "judges", .head = "Judges: points (place)", .below = true},
	{.name = "added", .head = "Pen.", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "percent", .head = "%", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "score", .head = "Score", .anchor = RT_ANCHOR_RIGHT},
};

static const struct rt__list_column other_columns[] = {
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "status", .head = "Status"},
	{.name = "score", .head = "Score", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
};

static const struct rt__list_view views[] = {{RT__LIST_VIEW("placed", placed_columns)},
					     {RT__LIST_VIEW("others", other_columns)}};

/* "Judges: C Anna Berg, B Per Ek"; positions only where no name is known. */
static void judges_words(const struct rt_judges *judges, char *out, size_t size)
{
	rt__add_words(out, size, "Judges:");
	for (size_t i = 0; i < judges->n; i++)
		rt__add_words(out, size, "%s %s%s%s%s", i ? "," : "", judges->at[i].position,
			      judges->at[i].name ? " " : "",
			      judges->at[i].name ? judges->at[i].name : "",
			      judges->at[i].president ? " (president)" : "");
}

/* What was posted when, and until when one may object. */
static void posting_words(const struct rt_results *r, const struct rt_posting *posting,
			  const char *when, char *out, size_t size)
{
	char state[100];

	if (!posting) {
		snprintf(out, size, "%s",
			 r->complete ? "Provisional: added up, not posted yet."
				     : "Provisional: not added up yet.");
		return;
	}
	rt_posting_state(posting, when, state, sizeof state);
	snprintf(out, size,
		 "Posted %.16s, version %lld%s. Objections to the arithmetic until %.16s (%s).",
		 posting->at, (long long)posting->version,
		 posting->version > 1 ? ", corrected" : "", posting->until, state);
}

enum rt_err rt_sheet_results(struct rt_sheet *out, const struct rt_results *r,
			     const struct rt_posting *posting,
			     const struct rt_sheet_options *options, struct rt_error *err)
{
	const struct rt_class *class_ = r->of->class_;
	char title[WORDS_BYTES] = "", judges[WORDS_BYTES] = "", posted[WORDS_BYTES];
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.title = title,
					     .line = {options->show, judges, posted},
					     .report = &report,
					     .view = views,
					     .views = sizeof views / sizeof *views,
					     .signature = "For the judges and the office:"};
	enum rt_err e;

	rt__add_words(title, sizeof title, "Results: class %s, %s", class_->name, class_->title);
	judges_words(&class_->judges, judges, sizeof judges);
	posting_words(r, posting, options->when, posted, sizeof posted);
	rt_results_paper(&report, r);
	for (size_t i = 0; i < r->notes.n; i++)
		rt_report_note(&report, "%s", r->notes.at[i]);
	e = rt__list(out, &paper, options, err);
	rt_report_free(&report);
	return e;
}
