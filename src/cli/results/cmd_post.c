/* post and post history: results frozen as they are put up, and what was put up before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#define MINUTES	     60 /* for objections to arithmetic: US practice */
#define MINUTES_MOST 10080

/* ---- post -------------------------------------------------------------------------------- */

struct post {
	const char *class_name, *by;
	int64_t minutes;
};

static const struct rt_field post_options[] = {
	CLI_CLASS(struct post, class_name),
	CLI_BY(struct post, by, RT_REQUIRED),
	{"objections", RT_AT(struct post, minutes), .head = "MINUTES", .type = RT_INT, .low = 0,
	 .high = MINUTES_MOST, .is = RT_USUAL, .help = "time for objections"},
};

struct posting {
	const struct post *typed;
	struct cli_shown before;
	struct rt_posting now;
};

/* What hinders is in the notes of the results. */
static void refuse(struct cli *c, const struct posting *p)
{
	rt_results_report(&c->report, &p->before.results);
	rt_report_note(
		&c->report,
		"Nothing was posted: class %s is not added up yet; what is missing stands above.",
		p->typed->class_name);
	c->report.needs_person = true;
}

static void report_posted(struct cli *c, const struct posting *p)
{
	const struct rt_posted_list *places = &p->now.places;
	size_t placed = 0;

	rt_posting_report(&c->report, &p->now, c->when);
	for (size_t i = 0; i < places->n; i++)
		placed += places->at[i].place > 0;
	rt_report_note(&c->report, "Class %s: %zu placed of %zu.", p->typed->class_name, placed,
		       places->n);
	if (p->before.shown.posted)
		rt_report_note(&c->report,
			       "Corrected: version %lld takes the place of version %lld. Print the "
			       "results again, and tell those concerned.",
			       (long long)p->now.version, (long long)p->before.posting.version);
}

static const struct rt_entry *entry_with(const struct rt_entries *entries, int64_t id)
{
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].id == id)
			return &entries->at[i];
	return NULL;
}

/* Name the sheet of a mark, unless nothing is expected of it. */
static void name_sheet(const struct posting *p, const struct rt_mark_version *v,
		       struct cli_names *names)
{
	const struct rt_class_marks *m = &p->before.book.marks;
	const struct rt_judges *judges = &m->class_->judges;
	const struct rt_entry *entry = entry_with(m->entries, v->entry);

	for (size_t j = 0; entry && entry->status == RT_ENTERED && j < judges->n; j++) {
		size_t line = (size_t)(entry - m->entries->at) * judges->n + j;

		if (judges->at[j].id != v->judge || m->lines[line].away)
			continue;
		cli_name(names, "%lld %s", (long long)entry->number, judges->at[j].position);
	}
}

/* A slip that one person made twice is posted with the rest: somebody should know. */
static void note_one_person(struct cli *c, const struct posting *p)
{
	struct rt_mark_versions versions = {0};
	struct cli_names sheets = {0};
	int64_t entry = 0, judge = 0; /* of the sheet that was named last */

	CLI_DO(c, rt_store_mark_versions(c->store, p->typed->class_name, -1, &versions, &c->err));
	for (size_t i = 0; i < versions.n; i++) {
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
}

static void post_class(struct cli *c, struct posting *p)
{
	const struct post *o = p->typed;
	const struct rt_posting *before = p->before.shown.posted;
	bool found;

	rt_shown_changes(&c->report, &p->before.shown);
	if (before && !p->before.shown.changes.n) {
		rt_posting_report(&c->report, before, c->when);
		rt_report_note(&c->report,
			       "Nothing has changed since version %lld was posted: nothing was "
			       "posted anew.",
			       (long long)before->version);
		return;
	}
	CLI_DO(c, rt_store_posting_put(c->store, &p->before.results, o->by, c->when, o->minutes,
				       &c->err));
	CLI_DO(c, rt_store_posting_latest(c->store, o->class_name, &p->now, &found, &c->err));
	if (!c->err.code)
		report_posted(c, p);
	note_one_person(c, p);
}

static void post(struct cli *c, const void *typed)
{
	struct posting p = {.typed = typed};

	cli_store(c, true);
	cli_shown_read(c, p.typed->class_name, true, &p.before);
	if (!c->err.code && p.before.results.complete)
		post_class(c, &p);
	else if (!c->err.code)
		refuse(c, &p);
	rt_posting_free(&p.now);
	cli_shown_free(&p.before);
}

const struct cli_command cmd_post = {
	.name = "post",
	.summary = "Post the results of a class: places are kept as they are put up.",
	.details =
		"A class that is not added up (a sheet, a box or a keying missing, keyings that differ)\n"
		"is not posted: what is missing is told, exit status 1. Objections run from the time of\n"
		"--date; until their time is over the results are provisional, then final. When\n"
		"something has changed since, post again: the next version is kept, and what changed is\n"
		"listed.",
	.example = "--show spring.show post 1 --by \"Office\"",
	CLI_OPTIONS(struct post, post_options),
	.blank = &(const struct post){.minutes = MINUTES},
	.run = post,
};

/* ---- post history ------------------------------------------------------------------------ */

#define POSTED(member) RT_AT(struct rt_posting, member)

static const struct rt_field posting_fields[] = {
	{"version", POSTED(version), .type = RT_INT},
	{"by", .head = "posted by", POSTED(who)},
	{"at", POSTED(at)},
	{"until", .head = "objections until", POSTED(until)},
};

static const struct rt_record postings_table = RT_TABLE("postings", "Posted so far", posting_fields,
							struct rt_posting);

static void post_history(struct cli *c, const void *typed)
{
	struct rt_postings postings = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_postings(c->store, CLI_TYPED(typed), &postings, &c->err));
	rt_report_list(&c->report, &postings_table, postings.at, postings.n);
	if (!postings.n)
		rt_report_note(&c->report, "Class %s was not posted yet.", CLI_TYPED(typed));
	RT_LIST_FREE(&postings);
}

const struct cli_command cmd_post_history = {
	.name = "post history",
	.summary = "List when and by whom the results of a class were posted.",
	.example = "--show spring.show post history 1",
	CLI_OPTIONS(const char *, cli_class_argument),
	.table = {&postings_table},
	.run = post_history,
};
