/* post and post history: results frozen as they are put up, and what was put up before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#define MINUTES	     60 /* for objections to arithmetic: US practice */
#define MINUTES_MOST 10080

/* ---- post -------------------------------------------------------------------------------- */

struct post {
	const char *class_name, *who;
	int64_t minutes;
	struct rt_class_book book;
	struct rt_results results;
	struct rt_posting before, now;
	bool corrected; /* something was posted before */
	size_t changes;
};

/* What hinders is in the notes of the results. */
static void refuse(struct cli *c, const struct post *p)
{
	rt_results_report(&c->report, &p->results);
	rt_report_note(
		&c->report,
		"Nothing was posted: class %s is not added up yet; what is missing stands above.",
		p->class_name);
	c->report.needs_person = true;
}

static enum rt_err look_for_changes(struct cli *c, struct post *p)
{
	enum rt_err e = rt_store_posting_latest(c->store, p->class_name, &p->before, &p->corrected,
						&c->err);

	if (e || !p->corrected)
		return e;
	return rt_posting_changes(&c->report, &p->before, &p->results, &p->changes, &c->err);
}

static void report_posted(struct cli *c, const struct post *p)
{
	size_t placed = 0;

	rt_posting_report(&c->report, &p->now, c->when);
	for (size_t i = 0; i < p->results.n; i++)
		placed += p->results.at[i].place > 0;
	rt_report_note(&c->report, "Class %s: %zu placed of %zu.", p->class_name, placed,
		       p->results.n);
	if (p->corrected)
		rt_report_note(&c->report,
			       "Corrected: version %lld takes the place of version %lld. Print the "
			       "results again, and tell those concerned.",
			       (long long)p->now.version, (long long)p->before.version);
}

static const struct rt_entry *entry_with(const struct rt_entries *entries, int64_t id)
{
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].id == id)
			return &entries->at[i];
	return NULL;
}

/* Name the sheet of a mark, unless nothing is expected of it. */
static void name_sheet(const struct post *p, const struct rt_mark_version *v,
		       struct cli_names *names)
{
	const struct rt_class_marks *m = &p->book.marks;
	const struct rt_judges *judges = &m->class_->judges;
	const struct rt_entry *entry = entry_with(m->entries, v->entry);
	char sheet[RT_NAME_MOST * 4 + 24];

	for (size_t j = 0; entry && entry->status == RT_ENTERED && j < judges->n; j++) {
		size_t line = (size_t)(entry - m->entries->at) * judges->n + j;

		if (judges->at[j].id != v->judge || m->lines[line].away)
			continue;
		snprintf(sheet, sizeof sheet, "%lld %s", (long long)entry->number,
			 judges->at[j].position);
		cli_name(names, sheet);
	}
}

/* A slip that one person made twice is posted with the rest: somebody should know. */
static enum rt_err note_one_person(struct cli *c, const struct post *p)
{
	struct rt_mark_versions versions = {0};
	struct cli_names sheets = {0};
	int64_t entry = 0, judge = 0; /* of the sheet that was named last */
	enum rt_err e = rt_store_mark_versions(c->store, p->class_name, -1, &versions, &c->err);

	for (size_t i = 0; i < versions.n && !e; i++) {
		const struct rt_mark_version *v = &versions.at[i];

		if ((v->entry == entry && v->judge == judge) ||
		    !rt_keyed_by(&versions, v->entry, v->judge, 1, v->who) ||
		    !rt_keyed_by(&versions, v->entry, v->judge, 2, v->who))
			continue;
		entry = v->entry;
		judge = v->judge;
		name_sheet(p, v, &sheets);
	}
	if (sheets.n)
		rt_report_note(&c->report, "Both keyings are by one person, of %zu sheet%s: %s.",
			       sheets.n, sheets.n == 1 ? "" : "s", sheets.text);
	RT_LIST_FREE(&versions);
	return e;
}

static enum rt_err put_posting(struct cli *c, struct post *p)
{
	bool found;
	enum rt_err e = rt_store_posting_put(c->store, &p->results, p->who, c->when, p->minutes,
					     &c->err);

	if (!e)
		e = rt_store_posting_latest(c->store, p->class_name, &p->now, &found, &c->err);
	if (!e)
		report_posted(c, p);
	return e ? e : note_one_person(c, p);
}

static enum rt_err post_class(struct cli *c, struct post *p)
{
	enum rt_err e = rt_store_class_book(c->store, p->class_name, &p->book, &c->err);

	if (!e)
		e = rt_results_make(&p->results, &p->book.marks, &c->err);
	if (e)
		return e;
	if (!p->results.complete) {
		refuse(c, p);
		return RT_OK;
	}
	e = look_for_changes(c, p);
	if (e)
		return e;
	if (!p->corrected || p->changes)
		return put_posting(c, p);
	rt_posting_report(&c->report, &p->before, c->when);
	rt_report_note(
		&c->report,
		"Nothing has changed since version %lld was posted: nothing was posted anew.",
		(long long)p->before.version);
	return RT_OK;
}

static enum rt_err post(struct cli *c, const struct cli_call *call)
{
	const char *minutes = cli_option(call, "objections");
	struct post p = {
		.class_name = call->arg[0], .who = cli_option(call, "by"), .minutes = MINUTES};
	enum rt_err e = cli_text(c, "--by", p.who, RT_NAME_MOST, true);

	if (!e && minutes)
		e = cli_whole(c, "--objections", minutes, 0, MINUTES_MOST, &p.minutes);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = post_class(c, &p);
	rt_posting_free(&p.before);
	rt_posting_free(&p.now);
	rt_results_free(&p.results);
	rt_class_book_free(&p.book);
	return e;
}

const struct cli_command cmd_post = {
	.group = "Results",
	.name = "post",
	.args = "CLASS --by NAME [--objections MINUTES]",
	.summary = "Post the results of a class: places are kept as they are put up.",
	.details =
		"A class that is not added up (a sheet, a box or a keying missing, keyings that differ)\n"
		"is not posted: what is missing is told, exit status 1. Objections run from the time of\n"
		"--date; until their time is over the results are provisional, then final. When\n"
		"something has changed since, post again: the next version is kept, and what changed is\n"
		"listed.",
	.example = "--show spring.show post 1 --by \"Office\"",
	.old_option = {{"by", "NAME", "who posts them", true},
		       {"objections", "MINUTES", "time for objections; 60 unless given", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = post,
};

/* ---- post history ------------------------------------------------------------------------ */

static enum rt_err post_history(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"version", "version", RT_INT, RT_NO_UNIT, 0, false},
		{"by", "posted by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"at", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"until", "objections until", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_postings postings = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));
	struct rt_table *t;

	if (!e)
		e = rt_store_postings(c->store, call->arg[0], &postings, &c->err);
	if (!e) {
		t = rt_report_table(&c->report, "postings", "Posted so far", columns, 4);
		for (size_t i = 0; i < postings.n; i++) {
			rt_put_int(t, postings.at[i].version);
			rt_put_text(t, postings.at[i].who);
			rt_put_text(t, postings.at[i].at);
			rt_put_text(t, postings.at[i].until);
		}
		if (!postings.n)
			rt_report_note(&c->report, "Class %s was not posted yet.", call->arg[0]);
	}
	RT_LIST_FREE(&postings);
	return e;
}

const struct cli_command cmd_post_history = {
	.group = "Results",
	.name = "post history",
	.args = "CLASS",
	.summary = "List when and by whom the results of a class were posted.",
	.example = "--show spring.show post history 1",
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = post_history,
};
