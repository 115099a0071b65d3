/* What entry import, add and change say of entries: numbers in other hands, horses that are shared.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <stdlib.h>
#include <string.h>

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

/* ---- a horse of two drivers -------------------------------------------------------------- */

/* A horse in an entry. */
struct going {
	const char *horse, *folded;
	const struct rt_entry *entry;
	size_t place, at; /* of the entry among all, of the horse in the entry */
};

struct goings RT_LIST(struct going);

/* The same horse in two entries: in `one`, which is new, and in `other` before it. */
struct shared {
	const struct going *one, *other;
};

struct shareds RT_LIST(struct shared);

static void add_horses(struct cli *c, struct goings *all, const struct rt_entry *entry,
		       size_t place)
{
	const char *names = entry->horses, *name;
	size_t n, at = 0;

	while ((name = rt_name_next(&names, &n))) {
		const char *horse = rt_arena_copy(&all->text, name, n);
		char *folded = horse ? rt_fold(horse) : NULL;
		const char *kept = rt_arena_string(&all->text, folded ? folded : horse);

		free(folded);
		CLI_DO(c, kept ? RT_OK : rt_fail_nomem(&c->err));
		CLI_ADD(c, all, (struct going){horse, kept, entry, place, at++});
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

void cli_note_horses(struct cli *c, const struct rt_entries *added)
{
	const struct rt_entries *there = cli_entries(c);
	struct goings all = {0};
	struct shareds shared = {0};

	for (size_t i = 0; i < there->n + added->n && !c->err.code; i++)
		add_horses(c, &all, i < there->n ? &there->at[i] : &added->at[i - there->n], i);
	if (all.n && !c->err.code)
		qsort(all.at, all.n, sizeof *all.at, by_horse);
	for (size_t i = 0; i < all.n && !c->err.code; i++) {
		const struct going *one = &all.at[i];

		for (size_t k = i; one->place >= there->n && k-- > 0;) {
			const struct going *other = &all.at[k];

			if (compare_horses(one, other) != 0)
				break;
			if (!rt_same_name(one->entry->driver, other->entry->driver))
				CLI_ADD(c, &shared, (struct shared){one, other});
		}
	}
	if (shared.n)
		qsort(shared.at, shared.n, sizeof *shared.at, by_entry);
	for (size_t i = 0; i < shared.n; i++) {
		const struct rt_entry *other = shared.at[i].other->entry;

		rt_report_note(&c->report, "%s goes in class %s with %s, number %lld, too.",
			       shared.at[i].one->horse, other->class_name, other->driver,
			       (long long)other->number);
	}
	RT_LIST_FREE(&shared);
	RT_LIST_FREE(&all);
}
