/* times import and times plan: what is asked of the times, and the plan.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- import ------------------------------------------------------------------------------ */

struct asked {
	struct cli_roster roster;
	struct rt_entries entries;
	struct rt_plan_rows rows, rows_there;
	struct rt_wishes wishes, wishes_there;
	bool new_rows, new_wishes;
	const char *wishes_path;
};

static void asked_free(struct asked *a)
{
	cli_roster_free(&a->roster);
	RT_LIST_FREE(&a->entries);
	RT_LIST_FREE(&a->rows);
	RT_LIST_FREE(&a->rows_there);
	RT_LIST_FREE(&a->wishes);
	RT_LIST_FREE(&a->wishes_there);
}

static bool same_text(const char *a, const char *b)
{
	return strcmp(a ? a : "", b ? b : "") == 0;
}

static bool same_rows(const struct rt_plan_rows *a, const struct rt_plan_rows *b)
{
	bool same = a->n == b->n;

	for (size_t i = 0; i < a->n && same; i++) {
		const struct rt_plan_row *x = &a->at[i], *y = &b->at[i];

		same = same_text(x->class_name, y->class_name) && same_text(x->ring, y->ring) &&
		       x->day == y->day && x->first_s == y->first_s &&
		       x->interval_s == y->interval_s && x->break_every == y->break_every &&
		       x->break_after_s == y->break_after_s && x->break_s == y->break_s &&
		       x->harrow_every == y->harrow_every && x->harrow_s == y->harrow_s &&
		       x->order == y->order;
	}
	return same;
}

static bool same_wishes(const struct rt_wishes *a, const struct rt_wishes *b)
{
	bool same = a->n == b->n;

	for (size_t i = 0; i < a->n && same; i++) {
		const struct rt_wish *x = &a->at[i], *y = &b->at[i];

		same = x->about == y->about && same_text(x->name, y->name) &&
		       same_text(x->class_name, y->class_name) && x->day == y->day &&
		       x->not_before_s == y->not_before_s && x->not_after_s == y->not_after_s &&
		       same_text(x->after, y->after) && x->weight == y->weight;
	}
	return same;
}

/* Whether the wish is about somebody or something of the entry. */
static bool is_about(const struct rt_wish *w, const struct rt_entry *e)
{
	const char *person[RT_PEOPLE_MOST];
	size_t people = rt_entry_people(e, person);
	int64_t number;
	bool along = false;

	switch (w->about) {
	case RT_WISH_ENTRY:
		return rt_parse_int(w->name, &number) && number == e->number &&
		       same_text(w->class_name, e->class_name);
	case RT_WISH_DRIVER:
		return rt_same_name(w->name, e->driver);
	case RT_WISH_GROOM:
		for (size_t i = 1; i < people; i++)
			along |= rt_same_name(w->name, person[i]);
		return along;
	case RT_WISH_CARRIAGE:
		return e->turnout && strcmp(w->name, e->turnout) == 0;
	case RT_WISH_HORSE:
		return rt_names_hold(e->horses, w->name);
	case RT_WISH_CLASS:
	case RT_WISH_JUDGE:
		break;
	}
	return false;
}

static bool is_judge(const struct rt_classes *classes, const char *name)
{
	for (size_t i = 0; i < classes->n; i++)
		for (size_t j = 0; j < classes->at[i].judges.n; j++) {
			const struct rt_judge *judge = &classes->at[i].judges.at[j];

			if ((judge->name && rt_same_name(judge->name, name)) ||
			    (judge->scribe && rt_same_name(judge->scribe, name)))
				return true;
		}
	return false;
}

/* A wish about nobody in the show is a slip of the pen. */
static void check_names(struct cli *c, const struct asked *a)
{
	for (size_t i = 0; i < a->wishes.n; i++) {
		const struct rt_wish *w = &a->wishes.at[i];
		bool found = w->about == RT_WISH_CLASS ||
			     (w->about == RT_WISH_JUDGE && is_judge(&a->roster.classes, w->name));

		for (size_t k = 0; k < a->entries.n && !found; k++)
			found = is_about(w, &a->entries.at[k]);
		if (!found)
			rt_fault(&c->faults, w->file, w->line, "name",
				 "no %s \"%s\" in the show: the name as it is entered",
				 rt_wish_about_words(w->about), w->name);
	}
}

static void tell_asked(struct cli *c, const struct asked *a)
{
	static const struct rt_field columns[] = {
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"rows", "rows", RT_INT, RT_NO_UNIT, 0, false},
		{"kept", "kept", RT_BOOL, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "imported", "Imported", columns, 3);

	rt_put_text(t, "plan");
	rt_put_int(t, (int64_t)a->rows.n);
	rt_put_bool(t, a->new_rows);
	if (a->wishes_path) {
		rt_put_text(t, "wishes");
		rt_put_int(t, (int64_t)a->wishes.n);
		rt_put_bool(t, a->new_wishes);
	}
	if (!a->new_rows && !a->new_wishes)
		rt_report_note(&c->report, "Nothing was changed: the show has it just so already.");
}

static enum rt_err read_asked(struct cli *c, const struct cli_call *call, struct asked *a)
{
	enum rt_err e = CLI_OLD(c, cli_roster(c, &a->roster));

	if (!e)
		e = rt_store_entries(c->store, NULL, &a->entries, &c->err);
	if (!e)
		e = rt_read_plan_rows(&a->rows, call->arg[0], &a->roster.roster, &c->faults,
				      &c->err);
	if (!e && a->wishes_path)
		e = rt_read_wishes(&a->wishes, a->wishes_path, &a->roster.roster, &c->faults,
				   &c->err);
	if (e)
		return e;
	check_names(c, a);
	e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = rt_store_plan_rows(c->store, &a->rows_there, &c->err);
	return e ? e : rt_store_wishes(c->store, &a->wishes_there, &c->err);
}

static enum rt_err times_import(struct cli *c, const struct cli_call *call)
{
	struct rt_times_note note = {
		.words = call->arg[0], .who = cli_option(call, "by"), .when = c->when};
	struct asked a = {.wishes_path = call->args > 1 ? call->arg[1] : NULL};
	enum rt_err e = cli_reasons(c, call);

	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = read_asked(c, call, &a);
	a.new_rows = !same_rows(&a.rows, &a.rows_there);
	a.new_wishes = a.wishes_path && !same_wishes(&a.wishes, &a.wishes_there);
	if (!e && a.new_rows)
		e = rt_store_plan_rows_put(c->store, &a.rows, &note, &c->err);
	note.words = a.wishes_path;
	if (!e && a.new_wishes)
		e = rt_store_wishes_put(c->store, &a.wishes, &note, &c->err);
	if (!e)
		tell_asked(c, &a);
	asked_free(&a);
	return e;
}

const struct cli_command cmd_times_import = {
	.group = "Times",
	.name = "times import",
	.args = "PLAN.csv [WISHES.csv]",
	.summary = "Put in what is asked of the start times.",
	.details =
		"Whatever is empty, and every class without a row, the plan decides: the ring among those\n"
		"of the test's kind, the interval by the test's route. A carriage's row alone says that\n"
		"there is one, which many share. Each file takes the place of the one before.",
	.example = "--show spring.show times import plan.csv wishes.csv",
	.files = (const struct rt_record *const[]){&rt_plan_row_record, &rt_wish_record, NULL},
	.old_option = {{"by", "WHO", "who asks", false}},
	.old_min_args = 1,
	.old_max_args = 2,
	.old_run = times_import,
};

/* ---- plan -------------------------------------------------------------------------------- */

/* A plan to be made.  Start it zeroed. */
struct planning {
	struct cli_times in;
	struct rt_time_settings settings;
	struct rt_time_classes classes;
	struct rt_strings rings;
	struct rt_starts kept;
	int64_t *place; /* as many as in.entries */
	int64_t margin_s;
	const char *only; /* the one class that is planned anew; NULL: all */
	struct rt_times times;
	int64_t *gone;
	size_t gone_n;
	int64_t version;
};

static void planning_free(struct planning *p)
{
	free(p->gone);
	rt_times_free(&p->times);
	free(p->place);
	RT_LIST_FREE(&p->kept);
	RT_LIST_FREE(&p->rings);
	RT_LIST_FREE(&p->classes);
	cli_times_free(&p->in);
}

/* --gap-WHOM MINUTES, or off. */
static enum rt_err gap_option(struct cli *c, const struct cli_call *call, enum rt_shared as,
			      int64_t *gap_s)
{
	char name[24], what[32];
	const char *typed;
	int64_t minutes;
	enum rt_err e;

	snprintf(name, sizeof name, "gap-%s", rt_shared_words(as));
	snprintf(what, sizeof what, "--%s", name);
	typed = cli_option(call, name);
	if (!typed)
		return RT_OK;
	if (strcmp(typed, "off") == 0) {
		*gap_s = -1;
		return RT_OK;
	}
	e = cli_whole(c, what, typed, 0, 1440, &minutes);
	*gap_s = e ? *gap_s : minutes * 60;
	return e;
}

/* --hours 8:00-18:00 */
static enum rt_err hours_option(struct cli *c, const char *typed, struct rt_time_settings *s)
{
	char open[16];
	size_t n = strcspn(typed, "-");

	if (n < sizeof open && typed[n] == '-') {
		memcpy(open, typed, n);
		open[n] = '\0';
		if (rt_time_read(open, &s->open_s) && rt_time_read(typed + n + 1, &s->close_s)) {
			if (s->open_s < s->close_s)
				return RT_OK;
			return rt_fail(&c->err, RT_E_USAGE,
				       "--hours: \"%s\" runs over midnight: both times are of one "
				       "day, the earlier first",
				       typed);
		}
	}
	return rt_fail(&c->err, RT_E_USAGE, "--hours: \"%s\": from and to, as 8:00-18:00", typed);
}

/* As many days as the plan rows and wishes name, unless it is said. */
static int64_t days_asked(const struct cli_times *in)
{
	int64_t days = in->planned ? in->settings.days : 1;

	for (size_t i = 0; i < in->rows.n; i++)
		days = in->rows.at[i].day > days ? in->rows.at[i].day : days;
	for (size_t i = 0; i < in->wishes.n; i++)
		days = in->wishes.at[i].day > days ? in->wishes.at[i].day : days;
	return days;
}

/* What holds unless it is said now is as it was in the plan before. */
static enum rt_err read_settings(struct cli *c, const struct cli_call *call, struct planning *p)
{
	struct rt_time_settings *s = &p->settings;
	const char *hours = cli_option(call, "hours"), *days = cli_option(call, "days");
	const char *change = cli_option(call, "change"), *seed = cli_option(call, "seed");
	const char *margin = cli_option(call, "margin");
	int64_t minutes;
	enum rt_err e = RT_OK;

	*s = p->in.settings;
	s->days = days_asked(&p->in);
	p->margin_s = (int64_t)(RT_SIGNAL_SECONDS + RT_WRITING_SECONDS);
	if (days)
		e = cli_whole(c, "--days", days, 1, RT_DAYS_MOST, &s->days);
	if (!e && hours)
		e = hours_option(c, hours, s);
	for (int i = 0; i < RT_SHARED_COUNT && !e; i++)
		e = gap_option(c, call, (enum rt_shared)i, &s->gap_s[i]);
	if (!e && change) {
		e = cli_whole(c, "--change", change, 0, 240, &minutes);
		s->change_s = e ? 0 : minutes * 60;
	}
	if (!e && margin)
		e = cli_whole(c, "--margin", margin, 0, 3600, &p->margin_s);
	if (!e && seed)
		e = cli_whole(c, "--seed", seed, 1, RT_SEED_MOST, &s->seed);
	return e;
}

static const struct rt_plan_row *row_of(const struct cli_times *in, const char *class_name)
{
	for (size_t i = 0; i < in->rows.n; i++)
		if (strcmp(in->rows.at[i].class_name, class_name) == 0)
			return &in->rows.at[i];
	return NULL;
}

/* The rings that a class could be in: those of the kind its test is made for, or all. */
static uint64_t rings_of_kind(const struct cli_times *in, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test_named(&in->roster.tests, class_->test);
	const struct rt_rings *rings = &in->roster.rings;
	uint64_t mask = 0;

	for (size_t i = 0; i < rings->n && i < RT_RINGS_MOST; i++)
		if (!test || !test->kind || strcmp(rings->at[i].kind, test->kind) == 0)
			mask |= UINT64_C(1) << i;
	return mask;
}

static uint64_t ring_named(const struct rt_rings *rings, const char *name)
{
	for (size_t i = 0; i < rings->n && i < RT_RINGS_MOST; i++)
		if (strcmp(rings->at[i].name, name) == 0)
			return UINT64_C(1) << i;
	return 0;
}

/* A class that gives no interval and whose test does not tell one. */
static enum rt_err no_interval(struct cli *c, const char *class_name)
{
	return rt_fail(&c->err, RT_E_INPUT,
		       "class %s has no interval: give interval_s in the plan file (the route of "
		       "its test is not timed whole: `test route` says why)",
		       class_name);
}

static enum rt_err add_class(struct cli *c, struct planning *p, const struct rt_class *class_)
{
	static const struct rt_plan_row nothing = {.first_s = -1};
	const struct rt_plan_row *row = row_of(&p->in, class_->name);
	struct rt_time_class *k = RT_LIST_ADD(&p->classes);
	const char *ring;
	int64_t interval_s;
	double seconds = NAN;
	enum rt_err e = RT_OK;

	if (!k)
		return rt_fail_nomem(&c->err);
	row = row ? row : &nothing;
	interval_s = row->interval_s;
	if (!interval_s)
		e = cli_class_seconds(c, &p->in, class_, &seconds);
	if (!e && !interval_s && isnan(seconds))
		return no_interval(c, class_->name);
	if (!e && !interval_s)
		interval_s = rt_interval_of(seconds, p->margin_s);
	rt_time_class_make(k, row, class_, interval_s);
	ring = row->ring ? row->ring : class_->ring;
	k->otherwise = rings_of_kind(&p->in, class_);
	k->rings = ring ? ring_named(&p->in.roster.rings, ring) : k->otherwise;
	k->otherwise |= k->rings;
	return e;
}

static bool has_starters(const struct cli_times *in, const char *class_name)
{
	for (size_t i = 0; i < in->entries.n; i++)
		if (in->entries.at[i].status == RT_ENTERED &&
		    strcmp(in->entries.at[i].class_name, class_name) == 0)
			return true;
	return false;
}

static bool is_planned(const struct planning *p, const char *class_name)
{
	return !p->only || strcmp(p->only, class_name) == 0;
}

static enum rt_err find_classes(struct cli *c, const struct cli_call *call, struct planning *p)
{
	const struct rt_classes *classes = &p->in.roster.classes;
	const struct rt_class *only;
	enum rt_err e = RT_OK;

	if (call->args) {
		e = cli_class_named(c, classes, call->arg[0], &only);
		p->only = e ? NULL : only->name;
	}
	for (size_t i = 0; i < classes->n && !e; i++)
		if (is_planned(p, classes->at[i].name) && has_starters(&p->in, classes->at[i].name))
			e = add_class(c, p, &classes->at[i]);
	if (!e && !p->classes.n)
		e = rt_fail(&c->err, RT_E_INPUT, "there is nobody to plan for");
	for (size_t i = 0; i < p->in.roster.rings.n && !e; i++) {
		const char **ring = RT_LIST_ADD(&p->rings);

		if (!ring)
			return rt_fail_nomem(&c->err);
		*ring = p->in.roster.rings.at[i].name;
	}
	return e;
}

/* Places drawn, by entry. */
static enum rt_err find_places(struct cli *c, struct planning *p)
{
	const struct rt_entries *entries = &p->in.entries;
	enum rt_err e = RT_OK;

	p->place = calloc(entries->n + 1, sizeof *p->place);
	if (!p->place)
		return rt_fail_nomem(&c->err);
	for (size_t k = 0; k < p->classes.n && !e; k++) {
		struct rt_draw_places places = {0};

		e = rt_store_draw_places(c->store, p->classes.at[k].class_->name, &places, &c->err);
		for (size_t i = 0; i < places.n && !e; i++)
			for (size_t j = 0; j < entries->n; j++)
				if (entries->at[j].id == places.at[i].entry)
					p->place[j] = places.at[i].place;
		RT_LIST_FREE(&places);
	}
	return e;
}

/* Starts of classes that are not planned now stay. */
static enum rt_err find_kept(struct cli *c, struct planning *p)
{
	for (size_t i = 0; i < p->in.starts.n; i++) {
		const struct rt_start *s = &p->in.starts.at[i];
		struct rt_start *kept;

		if (is_planned(p, s->entry->class_name))
			continue;
		kept = RT_LIST_ADD(&p->kept);
		if (!kept)
			return rt_fail_nomem(&c->err);
		*kept = *s;
		if (rt_day_of(s->at_s) > p->settings.days)
			p->settings.days = rt_day_of(s->at_s);
	}
	return RT_OK;
}

/* A start that is just as it was keeps its version, and so its lists theirs. */
static void keep_versions(struct planning *p)
{
	for (size_t i = 0; i < p->times.starts.n; i++) {
		struct rt_start *now = &p->times.starts.at[i];

		for (size_t k = 0; k < p->in.starts.n; k++) {
			const struct rt_start *was = &p->in.starts.at[k];

			if (was->entry == now->entry && was->at_s == now->at_s &&
			    was->slot_s == now->slot_s && was->pause_s == now->pause_s &&
			    was->pause == now->pause && strcmp(was->ring, now->ring) == 0)
				now->version = was->version;
		}
	}
}

/* Entries of the planned classes that had a start and have none now. */
static enum rt_err find_gone(struct cli *c, struct planning *p)
{
	p->gone = calloc(p->in.starts.n + 1, sizeof *p->gone);
	if (!p->gone)
		return rt_fail_nomem(&c->err);
	for (size_t i = 0; i < p->in.starts.n; i++) {
		const struct rt_entry *entry = p->in.starts.at[i].entry;
		size_t k = 0;

		while (k < p->times.starts.n && p->times.starts.at[k].entry != entry)
			k++;
		if (k == p->times.starts.n && is_planned(p, entry->class_name))
			p->gone[p->gone_n++] = entry->id;
	}
	return RT_OK;
}

static enum rt_err make_plan(struct cli *c, struct planning *p)
{
	const struct rt_times_ask ask = {.settings = &p->settings,
					 .rings = &p->rings,
					 .classes = &p->classes,
					 .entries = &p->in.entries,
					 .place = p->place,
					 .wishes = &p->in.wishes,
					 .carriages = &p->in.carriages,
					 .kept = &p->kept,
					 .kept_classes = &p->in.roster.classes};

	return rt_times_plan(&p->times, &ask, &c->err);
}

/* All starts, those that stay with those of the plan. */
static enum rt_err all_starts(struct cli *c, const struct planning *p, struct rt_starts *out)
{
	for (size_t i = 0; i < p->kept.n + p->times.starts.n; i++) {
		struct rt_start *s = RT_LIST_ADD(out);

		if (!s)
			return rt_fail_nomem(&c->err);
		*s = i < p->kept.n ? p->kept.at[i] : p->times.starts.at[i - p->kept.n];
	}
	rt_starts_sort(out);
	return RT_OK;
}

static enum rt_err keep_plan(struct cli *c, const struct cli_call *call, struct planning *p)
{
	char words[RT_NAME_MOST * 4 + 60];
	const struct rt_times_note note = {.what = "plan",
					   .words = words,
					   .why = cli_option(call, "why"),
					   .who = cli_option(call, "by"),
					   .when = c->when};

	if (p->only)
		snprintf(words, sizeof words, "Class %s planned anew", p->only);
	else
		snprintf(words, sizeof words, "%zu starts planned", p->times.starts.n);
	return rt_store_times_put(c->store, &note, &p->settings, &p->times.starts, p->gone,
				  p->gone_n, &p->version, &c->err);
}

static enum rt_err report_plan(struct cli *c, const struct cli_call *call, struct planning *p)
{
	struct rt_starts all = {0};
	struct rt_clashes clashes = {0};
	enum rt_err e = all_starts(c, p, &all);

	p->in.settings = p->settings;
	if (!e)
		e = cli_clashes(c, &p->in, &all, &clashes);
	if (!e) {
		rt_plan_report(&c->report, &p->times, &p->settings);
		rt_clashes_report(&c->report, &clashes);
		if (cli_option(call, "try"))
			rt_report_note(&c->report, "Only tried: nothing was kept.");
		else
			rt_report_note(&c->report,
				       "Kept as version %lld of the times: `times` shows them.",
				       (long long)p->version);
	}
	RT_LIST_FREE(&clashes);
	RT_LIST_FREE(&all);
	return e;
}

static enum rt_err times_plan(struct cli *c, const struct cli_call *call)
{
	struct planning p = {0};
	bool trying = cli_option(call, "try") != NULL;
	enum rt_err e = cli_reasons(c, call);

	if (!e)
		e = cli_times_read(c, !trying, &p.in);
	if (!e)
		e = read_settings(c, call, &p);
	if (!e)
		e = find_classes(c, call, &p);
	if (!e)
		e = find_places(c, &p);
	if (!e)
		e = find_kept(c, &p);
	if (!e)
		e = make_plan(c, &p);
	if (!e)
		e = find_gone(c, &p);
	if (!e && !trying) {
		keep_versions(&p);
		e = keep_plan(c, call, &p);
	}
	if (!e)
		e = report_plan(c, call, &p);
	planning_free(&p);
	return e;
}

const struct cli_command cmd_times_plan = {
	.group = "Times",
	.name = "times plan",
	.args = "[CLASS]",
	.summary = "Plan the start times of all classes, or of one anew.",
	.details =
		"Nobody and nothing is in two places, and each has the gap asked for: what cannot be\n"
		"met so is told, with the wish to drop. A gap is from the end of one start's interval\n"
		"to the next start. Drawn order is kept. Defaults, common practice without a source:\n"
		"8:00-18:00, gaps 20 min (driver), 40 (horse), 10 (groom), 20 (carriage), 10 (judge),\n"
		"change 10 min; later they are those of the plan before. The interval is the test's\n"
		"route with the ways in and out and --margin, to the next half minute. A turnout that\n"
		"is no row of the show's turnouts is one carriage, which all who name it share.",
	.example = "--show spring.show times plan --hours 8:00-18:00",
	.old_option = {{"days", "N", "days of the show", false},
		       {"hours", "FROM-TO", "first start and last finish of a day", false},
		       {"gap-driver", "MIN", "minutes between two starts, or off", false},
		       {"gap-horse", "MIN", "the same of a horse", false},
		       {"gap-groom", "MIN", "the same of a groom", false},
		       {"gap-carriage", "MIN", "the same of a carriage", false},
		       {"gap-judge", "MIN", "the same of a judge, between two rings", false},
		       {"change", "MIN", "between two classes in a ring", false},
		       {"margin", "S", "seconds beside the test and its ways (default 120)", false},
		       {"seed", "N", "of the search: another seed, another plan", false},
		       {"try", NULL, "show the plan and keep nothing", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who plans", false}},
	.old_max_args = 1,
	.old_run = times_plan,
};
