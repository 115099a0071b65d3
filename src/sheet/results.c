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
	{.name = "technical", .head = "Tech.", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "artistic", .head = "Art.", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "added", .head = "Pen.", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "off", .head = "Points off", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "percent", .head = "%", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "score", .head = "Score", .anchor = RT_ANCHOR_RIGHT},
};

static const struct rt__list_column other_columns[] = {
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "status", .head = "Status"},
	{.name = "added", .head = "Pen.", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "off", .head = "Points off", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
	{.name = "score", .head = "Score", .anchor = RT_ANCHOR_RIGHT, .if_any = true},
};

static const struct rt__list_view views[] = {{RT__LIST_VIEW("placed", placed_columns)},
					     {RT__LIST_VIEW("others", other_columns)}};

/* "Judges: C Anna Berg (president), E Una Alder to no. 14, then Per Ek"; positions only where no
 * name is known. */
static void judges_words(const struct rt_class_marks *m, char *out, size_t size)
{
	char names[WORDS_BYTES];

	rt__add_words(out, size, "Judges:");
	for (size_t i = 0; i < m->class_->judges.n; i++) {
		const struct rt_judge *judge = &m->class_->judges.at[i];

		rt_judge_spells(m->judged, judge, names, sizeof names);
		rt__add_words(out, size, "%s %s%s%s%s", i ? "," : "", judge->position,
			      *names ? " " : "", names, judge->president ? " (president)" : "");
	}
}

/* What was posted when, and until when one may object. */
static void posting_words(const struct rt_results_shown *shown, const char *when, char *out,
			  size_t size)
{
	const struct rt_posting *posted = rt_shown_posting(shown);
	char state[100];

	if (!posted->version) {
		snprintf(out, size, "%s",
			 shown->results->complete ? "Added up, not posted." : "Not added up yet.");
		return;
	}
	rt_posting_state(posted, when, state, sizeof state);
	snprintf(out, size,
		 "Posted %.16s, version %lld%s. Objections to the arithmetic until %.16s (%s).",
		 posted->at, (long long)posted->version, posted->version > 1 ? ", corrected" : "",
		 posted->until, state);
}

enum rt_err rt_sheet_results(struct rt_sheet *out, const struct rt_results_shown *shown,
			     const struct rt_sheet_options *options, struct rt_error *err)
{
	const struct rt_class_marks *m = shown->results->of;
	const struct rt_posting *posting = rt_shown_posting(shown);
	char title[WORDS_BYTES] = "", judges[WORDS_BYTES] = "", posted[WORDS_BYTES];
	char band[RT_BAND_BYTES];
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.band = rt_shown_band(shown, band, sizeof band),
					     .title = title,
					     .line = {options->show, judges, posted},
					     .report = &report,
					     .view = views,
					     .views = sizeof views / sizeof *views,
					     .signature = "For the judges and the office:"};
	enum rt_err e;

	rt__add_words(title, sizeof title, "Results: class %s, %s", m->class_->name,
		      m->class_->title);
	judges_words(m, judges, sizeof judges);
	posting_words(shown, options->when, posted, sizeof posted);
	rt_posting_paper(&report, posting);
	for (size_t i = 0; i < posting->notes.n; i++)
		rt_report_note(&report, "%s", posting->notes.at[i]);
	e = rt__list(out, &paper, options, err);
	rt_report_free(&report);
	return e;
}
