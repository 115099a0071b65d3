/* What entry import, add and change say of entries: numbers in other hands, horses that are shared.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include "../times/times.h"

#include <stdlib.h>
#include <string.h>

const char *cli_entry_key(const struct rt_entry *e, char out[CLI_ENTRY_KEY])
{
	snprintf(out, CLI_ENTRY_KEY, "%lld %s", (long long)e->number, e->class_name);
	return out;
}

/* ---- numbers in other hands ----------------------------------------------------------- */

void cli_number_free(struct cli *c, const char *class_name, int64_t number)
{
	const struct rt_entry *other = rt_entry_numbered(cli_entries(c), class_name, number);

	if (other)
		CLI_FAIL(c, RT_E_INPUT,
			 "number %lld of class %s is %s with %s already: give another number",
			 (long long)number, class_name, other->driver, other->horses);
}

void cli_note_numbers(struct cli *c, const struct rt_entry *entry)
{
	const struct rt_entries *all = cli_entries(c);

	for (size_t i = 0; i < all->n && !c->err.code; i++) {
		const struct rt_entry *other = &all->at[i];
		bool driver = false, turnout = false;

		if (other->id == entry->id)
			continue;
		CLI_DO(c, rt_entries_alike(entry, other, &driver, &turnout, &c->err));
		if (other->number == entry->number ? !driver : turnout)
			rt_report_note(&c->report, "In class %s number %lld is %s with %s.",
				       other->class_name, (long long)other->number, other->driver,
				       other->horses);
	}
}

/* ---- a horse that goes twice in a class -------------------------------------------------- */

/* A horse in an entry. */
struct going {
	const char *horse, *folded;
	const struct rt_entry *entry;
	size_t place, at; /* of the entry among all, of the horse in the entry */
	bool touched;	  /* the entry is one that was added or changed */
};

struct goings RT_LIST(struct going);

/* The same horse in two entries: in `one`, which was touched, and in `other`. */
struct shared {
	const struct going *one, *other;
};

struct shareds RT_LIST(struct shared);

static void add_horses(struct cli *c, struct goings *all, const struct rt_entry *entry,
		       size_t place, bool touched)
{
	const char *names = entry->horses, *name;
	size_t n, at = 0;

	while ((name = rt_name_next(&names, &n))) {
		const char *horse = rt_arena_copy(&all->text, name, n);
		char *folded = horse ? rt_fold(horse) : NULL;
		const char *kept = rt_arena_string(&all->text, folded ? folded : horse);

		free(folded);
		CLI_DO(c, kept ? RT_OK : rt_fail_nomem(&c->err));
		CLI_ADD(c, all, (struct going){horse, kept, entry, place, at++, touched});
	}
}

static int compare_horses(const struct going *a, const struct going *b)
{
	int differ = strcmp(a->entry->class_name, b->entry->class_name);

	return differ ? differ : strcmp(a->folded, b->folded);
}

static int by_horse(const void *a, const void *b)
{
	const struct going *x = a, *y = b;
	int differ = compare_horses(x, y);

	return differ ? differ : (x->place > y->place) - (x->place < y->place);
}

static int by_entry(const void *a, const void *b)
{
	const struct shared *x = a, *y = b;
	const size_t left[] = {x->one->place, x->other->place, x->one->at};
	const size_t right[] = {y->one->place, y->other->place, y->one->at};

	for (size_t i = 0; i < 3; i++)
		if (left[i] != right[i])
			return left[i] < right[i] ? -1 : 1;
	return 0;
}

/* Whether an entry is one of the list, by class and number. */
static bool is_of(const struct rt_map *touched, const struct rt_entry *entry)
{
	char key[CLI_ENTRY_KEY];

	return rt_map_get(touched, cli_entry_key(entry, key)) != RT_MAP_NONE;
}

/* The pairs of the same horse in a class, of which one is touched; of two that are, the later is
 * told. */
static void find_shared(struct cli *c, const struct goings *all, struct shareds *out)
{
	for (size_t i = 0; i < all->n; i++)
		for (size_t k = i + 1; k < all->n && !c->err.code; k++) {
			const struct going *first = &all->at[i], *later = &all->at[k];

			if (compare_horses(first, later) != 0)
				break;
			if (later->touched)
				CLI_ADD(c, out, (struct shared){later, first});
			else if (first->touched)
				CLI_ADD(c, out, (struct shared){first, later});
		}
}

static void tell_shared(struct cli *c, struct shareds *shared)
{
	if (shared->n)
		qsort(shared->at, shared->n, sizeof *shared->at, by_entry);
	for (size_t i = 0; i < shared->n; i++) {
		const struct rt_entry *other = shared->at[i].other->entry;

		rt_report_note(&c->report, "%s goes in class %s with %s, number %lld, too.",
			       shared->at[i].one->horse, other->class_name, other->driver,
			       (long long)other->number);
	}
}

static void note_horses(struct cli *c, const struct rt_entries *entries,
			const struct rt_map *touched)
{
	struct goings all = {0};
	struct shareds shared = {0};

	for (size_t i = 0; i < entries->n && !c->err.code; i++)
		if (entries->at[i].status != RT_WITHDRAWN)
			add_horses(c, &all, &entries->at[i], i, is_of(touched, &entries->at[i]));
	if (all.n && !c->err.code)
		qsort(all.at, all.n, sizeof *all.at, by_horse);
	find_shared(c, &all, &shared);
	tell_shared(c, &shared);
	RT_LIST_FREE(&shared);
	RT_LIST_FREE(&all);
}

/* ---- as many horses as the turnout has --------------------------------------------------- */

/* The animals of a turnout; 0: it is none of the show's, or its rows do not tell. */
static int64_t animals_of(struct cli *c, const char *turnout)
{
	const struct rt_turnout_parts *parts = &cli_rows(c)->turnouts;
	int64_t animals = 0;

	for (size_t i = 0; i < parts->n; i++)
		if (rt_same_name(parts->at[i].turnout, turnout))
			animals += parts->at[i].animals;
	return animals;
}

static void note_animals(struct cli *c, const struct rt_entry *entry)
{
	int64_t animals = entry->turnout ? animals_of(c, entry->turnout) : 0, horses = 0;
	const char *names = entry->horses;
	size_t n;

	while (rt_name_next(&names, &n))
		horses++;
	if (animals && horses != animals)
		rt_report_note(&c->report,
			       "Number %lld of class %s: %lld horse%s named, and %s has %lld.",
			       (long long)entry->number, entry->class_name, (long long)horses,
			       horses == 1 ? " is" : "s are", entry->turnout, (long long)animals);
}

/* ---- what follows from it ---------------------------------------------------------------- */

static void note_posted(struct cli *c, const struct rt_entries *touched)
{
	const struct rt_classes *classes = cli_classes(c);
	struct rt_map *names = NULL;
	bool nomem = false;

	for (size_t i = 0; i < touched->n && !nomem; i++)
		rt_map_put(&names, touched->at[i].class_name, i, &nomem);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
	for (size_t i = 0; i < classes->n; i++)
		if (rt_map_get(names, classes->at[i].name) != RT_MAP_NONE)
			cli_note_posted(c, classes->at[i].name);
	rt_map_free(names);
}

/* ---- starts that are too near ------------------------------------------------------------ */

/* The horse or person that two entries have in common, and what it is; NULL: none. */
static const char *in_common(struct cli *c, const struct rt_entry *a, const struct rt_entry *b,
			     enum rt_shared *what)
{
	const char *mine[RT_PEOPLE_MOST], *theirs[RT_PEOPLE_MOST], *horses = a->horses, *horse;
	size_t n, k = rt_entry_people(a, mine), m = rt_entry_people(b, theirs);

	*what = RT_SHARED_HORSE;
	while ((horse = rt_name_next(&horses, &n))) {
		const char *name = rt_arena_copy(&c->text, horse, n);

		if (name && rt_names_hold(b->horses, name))
			return name;
	}
	*what = RT_SHARED_DRIVER;
	for (size_t i = 0; i < k; i++)
		for (size_t j = 0; j < m; j++)
			if (rt_same_name(mine[i], theirs[j]))
				return mine[i];
	return NULL;
}

/* From the first start of a class on a day to its last end; false: it has none then. */
static bool class_goes(const struct rt_starts *starts, const char *class_name, int64_t day,
		       int64_t *from, int64_t *to)
{
	bool goes = false;

	for (size_t i = 0; i < starts->n; i++) {
		const struct rt_start *s = &starts->at[i];

		if (rt_day_of(s->at_s) != day || strcmp(s->entry->class_name, class_name) != 0)
			continue;
		*from = goes ? *from : s->at_s;
		*to = s->at_s + s->slot_s;
		goes = true;
	}
	return goes;
}

/* An entry without a start yet beside a start of another class. */
static void note_near(struct cli *c, const struct rt_starts *starts,
		      const struct rt_time_settings *settings, const struct rt_entry *entry,
		      const struct rt_start *other)
{
	int64_t day = rt_day_of(other->at_s), from = 0, to = 0;
	enum rt_shared what;
	const char *who;
	char at[16], begins[16], ends[16];

	if (strcmp(other->entry->class_name, entry->class_name) == 0 ||
	    other->entry->status != RT_ENTERED ||
	    !class_goes(starts, entry->class_name, day, &from, &to))
		return;
	who = in_common(c, entry, other->entry, &what);
	if (!who || settings->gap_s[what] < 0 || other->at_s >= to + settings->gap_s[what] ||
	    other->at_s + other->slot_s + settings->gap_s[what] <= from)
		return;
	rt_time_words(other->at_s, day, at, sizeof at);
	rt_time_words(from, day, begins, sizeof begins);
	rt_time_words(to, day, ends, sizeof ends);
	rt_report_note(&c->report,
		       "%s starts in class %s with number %lld at %s on day %lld, and class %s "
		       "goes from %s to %s.",
		       who, other->entry->class_name, (long long)other->entry->number, at,
		       (long long)day, entry->class_name, begins, ends);
}

static void note_all_near(struct cli *c, const struct rt_entries *entries,
			  const struct rt_starts *starts, const struct rt_time_settings *settings,
			  const struct rt_map *touched)
{
	for (size_t i = 0; i < entries->n; i++) {
		const struct rt_entry *e = &entries->at[i];

		if (e->status != RT_ENTERED || !is_of(touched, e) || cli_start_of(starts, e))
			continue;
		for (size_t k = 0; k < starts->n; k++)
			note_near(c, starts, settings, e, &starts->at[k]);
	}
}

/* The collisions that were not there before: was has the starts of the entries as they were. */
static void report_new_clashes(struct cli *c, const struct cli_times *was,
			       const struct rt_starts *starts)
{
	struct rt_clashes before = {0}, after = {0}, fresh = {0};

	cli_clashes(c, was, &was->starts, &before);
	cli_clashes(c, was, starts, &after);
	CLI_DO(c, rt_clashes_new(&fresh, &before, &after, &c->err));
	if (fresh.n)
		rt_clashes_report(&c->report, &fresh);
	RT_LIST_FREE(&fresh);
	RT_LIST_FREE(&after);
	RT_LIST_FREE(&before);
}

static void tell_collisions(struct cli *c, const struct rt_entries *entries,
			    const struct rt_map *touched)
{
	struct cli_times was = {0};
	struct rt_starts starts = {0};

	cli_times_read(c, true, &was);
	if (was.starts.n) {
		CLI_DO(c, rt_store_times(c->store, entries, &starts, &c->err));
		report_new_clashes(c, &was, &starts);
		note_all_near(c, entries, &starts, &was.settings, touched);
	}
	RT_LIST_FREE(&starts);
	cli_times_free(&was);
}

void cli_note_entries(struct cli *c, const struct rt_entries *touched)
{
	struct rt_entries now = {0};
	struct rt_map *keys = NULL;
	bool nomem = false;
	char key[CLI_ENTRY_KEY];

	for (size_t i = 0; i < touched->n && !nomem; i++)
		rt_map_put(&keys, cli_entry_key(&touched->at[i], key), i, &nomem);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
	CLI_DO(c, rt_store_entries(c->store, NULL, &now, &c->err));
	for (size_t i = 0; i < now.n; i++)
		if (is_of(keys, &now.at[i]))
			note_animals(c, &now.at[i]);
	note_horses(c, &now, keys);
	tell_collisions(c, &now, keys);
	note_posted(c, touched);
	rt_map_free(keys);
	RT_LIST_FREE(&now);
}
