/* draw, draw late and draw history: the order of starting in a class.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdlib.h>
#include <string.h>

/* A draw to be made.  Start it zeroed. */
struct drawing {
	struct rt_classes classes;
	struct rt_entries entries;
	struct rt_draw_fixes fixes;
	int64_t *place; /* as many as entries */
	struct rt_draw draw;
	struct rt_draw_places places;
	struct rt_stored_draw stored;
};

static void drawing_free(struct drawing *d)
{
	RT_LIST_FREE(&d->places);
	rt_draw_free(&d->draw);
	free(d->place);
	RT_LIST_FREE(&d->fixes);
	RT_LIST_FREE(&d->entries);
	rt_classes_free(&d->classes);
}

/* ---- places that are kept ---------------------------------------------------------------- */

static enum rt_err keep_place(struct cli *c, struct drawing *d, int64_t number, int64_t place)
{
	for (size_t i = 0; i < d->entries.n; i++) {
		if (d->entries.at[i].number != number)
			continue;
		if (d->entries.at[i].status != RT_ENTERED)
			return rt_fail(&c->err, RT_E_INPUT, "number %lld is not drawn: %s",
				       (long long)number, rt_status_words(d->entries.at[i].status));
		if (d->place[i])
			return rt_fail(&c->err, RT_E_INPUT, "number %lld is given two places",
				       (long long)number);
		d->place[i] = place;
		return RT_OK;
	}
	return rt_fail(&c->err, RT_E_NOTFOUND, "there is no entry %lld in class %s",
		       (long long)number, d->stored.class_name);
}

/* A whole number that ends at `end` or the end of the text; *s is moved behind it. */
static bool read_number(const char **s, char end, int64_t *out)
{
	char copy[16];
	size_t n = strcspn(*s, end == '=' ? "=" : ",");

	if (n >= sizeof copy || (end == '=' && (*s)[n] != '='))
		return false;
	memcpy(copy, *s, n);
	copy[n] = '\0';
	*s += n + ((*s)[n] ? 1 : 0);
	return rt_parse_int(copy, out) && *out >= 1;
}

/* --fix 12=3,15=1 */
static enum rt_err fix_typed(struct cli *c, struct drawing *d, const char *typed)
{
	enum rt_err e = RT_OK;

	for (const char *s = typed; s && *s && !e;) {
		int64_t number, place;

		if (!read_number(&s, '=', &number) || !read_number(&s, ',', &place))
			return rt_fail(&c->err, RT_E_USAGE,
				       "--fix: \"%s\": NUMBER=PLACE, commas between: 12=3,15=1",
				       typed);
		e = keep_place(c, d, number, place);
	}
	return e;
}

/* --first 12,15 and --last 9,4: in that order at the beginning, or at the end. */
static enum rt_err edge_typed(struct cli *c, struct drawing *d, const char *option,
			      const char *typed, bool last)
{
	int64_t count = 0, i = 0;
	enum rt_err e = RT_OK;

	for (const char *s = typed; s && *s; count++)
		s += strcspn(s, ",") + (strchr(s, ',') ? 1 : 0);
	for (const char *s = typed; s && *s && !e; i++) {
		int64_t number;

		if (!read_number(&s, ',', &number))
			return rt_fail(&c->err, RT_E_USAGE,
				       "--%s: \"%s\": numbers with commas between", option, typed);
		e = keep_place(c, d, number, last ? i - count : i + 1);
	}
	return e;
}

static enum rt_err keep_places(struct cli *c, const struct cli_call *call, struct drawing *d)
{
	const char *file = cli_option(call, "fixed");
	enum rt_err e = RT_OK;

	if (file) {
		e = rt_read_draw_fixes(&d->fixes, file, &c->faults, &c->err);
		if (!e)
			e = rt_faults_result(&c->faults, &c->err);
	}
	for (size_t i = 0; i < d->fixes.n && !e; i++)
		e = keep_place(c, d, d->fixes.at[i].number, d->fixes.at[i].place);
	if (!e)
		e = fix_typed(c, d, cli_option(call, "fix"));
	if (!e)
		e = edge_typed(c, d, "first", cli_option(call, "first"), false);
	return e ? e : edge_typed(c, d, "last", cli_option(call, "last"), true);
}

/* ---- draw -------------------------------------------------------------------------------- */

static enum rt_err read_class(struct cli *c, const char *name, struct drawing *d)
{
	const struct rt_class *class_;
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = rt_store_classes(c->store, &d->classes, &c->err);
	if (!e)
		e = cli_class_named(c, &d->classes, name, &class_);
	if (e)
		return e;
	d->stored.class_name = class_->name;
	d->stored.when = c->when;
	e = rt_store_entries(c->store, name, &d->entries, &c->err);
	d->place = calloc(d->entries.n + 1, sizeof *d->place);
	return e || d->place ? e : rt_fail_nomem(&c->err);
}

/* Once start times are out, a new draw has to be meant. */
static enum rt_err may_draw(struct cli *c, const struct cli_call *call, const struct drawing *d)
{
	bool timed = false;
	enum rt_err e = rt_store_class_timed(c->store, d->stored.class_name, &timed, &c->err);

	if (e || !timed || cli_option(call, "again"))
		return e;
	return rt_fail(&c->err, RT_E_USAGE,
		       "class %s has start times: --again draws it anew (the draw before stays in "
		       "the history, the times stay until they are planned again)",
		       d->stored.class_name);
}

static enum rt_err take_places(struct cli *c, struct drawing *d)
{
	for (size_t i = 0; i < d->draw.n; i++) {
		struct rt_draw_place *p = RT_LIST_ADD(&d->places);
		size_t entry = d->draw.order[i];

		if (!p)
			return rt_fail_nomem(&c->err);
		*p = (struct rt_draw_place){d->entries.at[entry].id, (int64_t)i + 1,
					    d->place[entry] != 0};
	}
	return RT_OK;
}

static void tell_draw(struct cli *c, const struct drawing *d)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"seed", "seed", RT_INT, RT_NO_UNIT, 0, false},
		{"drawn", "drawn", RT_INT, RT_NO_UNIT, 0, false},
		{"not_drawn", "not drawn", RT_INT, RT_NO_UNIT, 0, false},
		{"at", "at", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "drawn", "Drawn", columns, 5);

	rt_put_text(t, d->stored.class_name);
	rt_put_int(t, d->stored.seed);
	rt_put_int(t, (int64_t)d->draw.n);
	rt_put_int(t, (int64_t)(d->entries.n - d->draw.n));
	rt_put_text(t, d->stored.when);
	rt_draw_report(&c->report, &d->draw, &d->entries);
	rt_report_note(&c->report,
		       "The same entries and the same places kept give the same draw "
		       "with --seed %lld.",
		       (long long)d->stored.seed);
}

static enum rt_err draw(struct cli *c, const struct cli_call *call)
{
	struct drawing d = {.stored.what = RT_DRAWN,
			    .stored.who = cli_option(call, "by"),
			    .stored.why = cli_option(call, "why")};
	const char *apart = cli_option(call, "apart");
	enum rt_err e = cli_reasons(c, call);

	if (!e && apart)
		e = cli_whole(c, "--apart", apart, 1, 999, &d.stored.apart);
	if (!e)
		e = cli_seed(c, call, &d.stored.seed);
	if (!e)
		e = read_class(c, call->arg[0], &d);
	if (!e)
		e = may_draw(c, call, &d);
	if (!e)
		e = keep_places(c, call, &d);
	if (!e)
		e = rt_draw_make(
			&d.draw,
			&(struct rt_draw_ask){&d.entries, d.place, d.stored.seed, d.stored.apart},
			&c->err);
	if (!e && !d.draw.n)
		e = rt_fail(&c->err, RT_E_INPUT, "class %s has nobody to draw", call->arg[0]);
	if (!e)
		e = take_places(c, &d);
	if (!e)
		e = rt_store_draw_put(c->store, &d.stored, &d.places, &c->err);
	if (!e)
		tell_draw(c, &d);
	drawing_free(&d);
	return e;
}

const struct cli_command cmd_draw = {
	.group = "Times",
	.name = "draw",
	.args = "CLASS",
	.summary = "Draw the order of starting of a class.",
	.details =
		"Random by a seed that is told and kept; the same seed gives the same order on every\n"
		"machine. Entries that are withdrawn are not drawn. A driver with several turnouts\n"
		"starts them as far apart as can be, or --apart places where that is enough.\n"
		"--fixed FILE.csv has the columns number,place. Earlier draws stay in the history.",
	.example = "--show spring.show draw 3 --seed 2026",
	.old_option = {{"seed", "N", "1 to 999999999 (default: a random one)", false},
		       {"fix", "NUMBER=PLACE,...", "places that are kept", false},
		       {"first", "NUMBERS", "who starts first, with commas between", false},
		       {"last", "NUMBERS", "who starts last, with commas between", false},
		       {"fixed", "FILE.csv", "places that are kept: number,place", false},
		       {"apart", "PLACES", "enough between two starts of one driver", false},
		       {"again", NULL, "draw anew though start times are out", false},
		       {"why", "TEXT", "the reason of a new draw", false},
		       {"by", "WHO", "who draws", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = draw,
};

/* ---- late entries ------------------------------------------------------------------------ */

/* Those that were drawn and may still start, in their order; how many of the first are over:
 * they have marks, or left after they had started. */
static enum rt_err still_drawn(struct cli *c, struct drawing *d, size_t *driven)
{
	enum rt_err e = RT_OK;

	*driven = 0;
	for (size_t i = 0; i < d->places.n && !e; i++) {
		bool marked = false;

		for (size_t k = 0; k < d->entries.n; k++)
			if (d->entries.at[k].id == d->places.at[i].entry)
				marked = d->entries.at[k].status == RT_RETIRED ||
					 d->entries.at[k].status == RT_ELIMINATED;
		if (!marked)
			e = rt_store_entry_marked(c->store, d->places.at[i].entry, &marked,
						  &c->err);
		if (marked)
			*driven = i + 1;
	}
	return e;
}

static enum rt_err insert_place(struct cli *c, struct drawing *d, int64_t entry, int64_t place)
{
	struct rt_draw_places *p = &d->places;

	if (!RT_LIST_ADD(p))
		return rt_fail_nomem(&c->err);
	for (size_t i = p->n; i-- > (size_t)place;) {
		p->at[i] = p->at[i - 1];
		p->at[i].place = (int64_t)i + 1;
	}
	p->at[place - 1] = (struct rt_draw_place){entry, place, false};
	return RT_OK;
}

static void tell_late(struct cli *c, const struct drawing *d, const struct rt_entry *entry,
		      int64_t place)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"driver", "driver", RT_TEXT, RT_NO_UNIT, 0, false},
		{"place", "place", RT_INT, RT_NO_UNIT, 0, false},
		{"of", "of", RT_INT, RT_NO_UNIT, 0, false},
		{"how", "how", RT_TEXT, RT_NO_UNIT, 0, false},
		{"seed", "seed", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "late", "Late entry", columns, 7);

	rt_put_text(t, entry->class_name);
	rt_put_int(t, entry->number);
	rt_put_text(t, entry->driver);
	rt_put_int(t, place);
	rt_put_int(t, (int64_t)d->places.n);
	rt_put_text(t, d->stored.what);
	rt_put_int(t, d->stored.seed);
}

static enum rt_err add_late(struct cli *c, struct drawing *d, const struct rt_entry *entry,
			    bool front)
{
	size_t driven;
	bool timed = false;
	int64_t place = 0;
	enum rt_err e = rt_store_draw_places(c->store, entry->class_name, &d->places, &c->err);

	for (size_t i = 0; i < d->places.n && !e; i++)
		if (d->places.at[i].entry == entry->id)
			e = rt_fail(&c->err, RT_E_INPUT, "number %lld has place %lld already",
				    (long long)entry->number, (long long)d->places.at[i].place);
	if (!e && !d->places.n)
		e = rt_fail(&c->err, RT_E_INPUT, "class %s is not drawn yet: `draw %s` draws all",
			    entry->class_name, entry->class_name);
	if (!e && entry->status != RT_ENTERED)
		e = rt_fail(&c->err, RT_E_INPUT, "number %lld is %s", (long long)entry->number,
			    rt_status_words(entry->status));
	if (!e)
		e = still_drawn(c, d, &driven);
	if (!e) {
		place = rt_draw_late(d->places.n, driven, front, d->stored.seed);
		e = insert_place(c, d, entry->id, place);
	}
	if (!e)
		e = rt_store_draw_put(c->store, &d->stored, &d->places, &c->err);
	if (!e)
		e = rt_store_class_timed(c->store, entry->class_name, &timed, &c->err);
	if (e)
		return e;
	tell_late(c, d, entry, place);
	if (timed)
		rt_report_note(&c->report,
			       "No start time has changed: `times move %s %lld HH:MM` gives one.",
			       entry->class_name, (long long)entry->number);
	return RT_OK;
}

static enum rt_err draw_late(struct cli *c, const struct cli_call *call)
{
	bool front = cli_option(call, "front") != NULL;
	struct drawing d = {.stored.what = front ? RT_DRAWN_FRONT : RT_DRAWN_BETWEEN,
			    .stored.who = cli_option(call, "by"),
			    .stored.why = cli_option(call, "why")};
	const struct rt_entry *entry;
	enum rt_err e = cli_reasons(c, call);

	if (!e)
		e = cli_seed(c, call, &d.stored.seed);
	if (!e)
		e = read_class(c, call->arg[0], &d);
	if (!e)
		e = cli_entry_typed(c, &d.entries, &d.classes, call->arg[0], call->arg[1], &entry);
	if (!e)
		e = add_late(c, &d, entry, front);
	drawing_free(&d);
	return e;
}

const struct cli_command cmd_draw_late = {
	.group = "Times",
	.name = "draw late",
	.args = "CLASS NUMBER",
	.summary = "Give a late entry a place in the order of starting.",
	.details =
		"It comes in among those that have not started (no mark of theirs is keyed): with\n"
		"--front it is the next to go, else any place to the end is as likely as any other.\n"
		"The others keep their order, and start times do not change.",
	.example = "--show spring.show draw late 3 8 --seed 7 --why \"paid on the day\"",
	.old_option = {{"front", NULL, "before all who have not started", false},
		       {"seed", "N", "1 to 999999999 (default: a random one)", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who draws", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = draw_late,
};

/* ---- history ----------------------------------------------------------------------------- */

static enum rt_err draw_history(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"draw", "draw", RT_INT, RT_NO_UNIT, 0, true},
		{"at", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"how", "how", RT_TEXT, RT_NO_UNIT, 0, false},
		{"seed", "seed", RT_INT, RT_NO_UNIT, 0, false},
		{"apart", "apart", RT_INT, RT_NO_UNIT, 0, true},
		{"by", "by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_classes classes = {0};
	struct rt_stored_draws draws = {0};
	const struct rt_class *class_;
	struct rt_table *t;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = rt_store_classes(c->store, &classes, &c->err);
	if (!e)
		e = cli_class_named(c, &classes, call->arg[0], &class_);
	if (!e)
		e = rt_store_draws(c->store, call->arg[0], &draws, &c->err);
	t = rt_report_table(&c->report, "draws", "Draws, the latest last", columns, 7);
	for (size_t i = 0; i < draws.n && !e; i++) {
		const struct rt_stored_draw *d = &draws.at[i];

		rt_put_int(t, d->id);
		rt_put_text(t, d->when);
		rt_put_text(t, d->what);
		rt_put_int(t, d->seed);
		rt_put_int(t, d->apart);
		rt_put_text(t, d->who);
		rt_put_text(t, d->why);
	}
	RT_LIST_FREE(&draws);
	rt_classes_free(&classes);
	return e;
}

const struct cli_command cmd_draw_history = {
	.group = "Times",
	.name = "draw history",
	.args = "CLASS",
	.summary = "List the draws of a class with their seeds.",
	.example = "--show spring.show draw history 3",
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = draw_history,
};
