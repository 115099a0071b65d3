/* What entry add and entry change share: the fields that are typed, and numbers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- what was typed ---------------------------------------------------------------------- */

static enum rt_err horses_option(struct cli *c, const struct cli_call *call, struct rt_arena **text,
				 const char **horses)
{
	const char *typed = cli_option(call, "horses");
	char *joined;

	if (!typed)
		return RT_OK;
	joined = rt_arena_take(text, 2 * strlen(typed) + 1);
	if (!joined)
		return rt_fail_nomem(&c->err);
	rt_names_join(typed, joined);
	*horses = joined;
	return cli_text(c, "--horses", joined, RT_NAME_MOST, true);
}

static enum rt_err height_option(struct cli *c, const struct cli_call *call, double *cm)
{
	const char *typed = cli_option(call, "height");

	if (!typed)
		return RT_OK;
	*cm = (double)NAN;
	if (!*typed || rt_parse_height(typed, cm))
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE, "--height: \"%s\": " RT_HEIGHT_ACCEPTED, typed);
}

/* A flag, or an option that wants yes or no. */
static enum rt_err yes_option(struct cli *c, const struct cli_call *call, const char *name,
			      bool *yes)
{
	const char *typed = cli_option(call, name);

	if (!typed)
		return RT_OK;
	*yes = strcmp(typed, "no") != 0;
	if (!*yes || strcmp(typed, "yes") == 0 || !*typed)
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE, "--%s: \"%s\": yes or no", name, typed);
}

enum rt_err cli_entry_fields(struct cli *c, const struct cli_call *call, struct rt_arena **text,
			     struct rt_entry *entry)
{
	const struct {
		const char *option;
		bool needed;
		const char **field;
	} name[] = {
		{"driver", true, &entry->driver},    {"rider", true, &entry->driver},
		{"turnout", false, &entry->turnout}, {"groom", false, &entry->groom},
		{"club", false, &entry->club},	     {"division", false, &entry->division},
	};
	const char *number = cli_option(call, "number");
	enum rt_err e = RT_OK;

	if (cli_option(call, "driver") && cli_option(call, "rider"))
		return rt_fail(&c->err, RT_E_USAGE, "--driver or --rider, not both");
	if (number)
		e = cli_whole(c, "--number", number, 1, RT_NUMBER_MOST, &entry->number);
	for (size_t i = 0; i < sizeof name / sizeof *name && !e; i++)
		e = cli_name_option(c, call, name[i].option, name[i].needed, text, name[i].field);
	if (!e)
		e = horses_option(c, call, text, &entry->horses);
	if (!e)
		e = height_option(c, call, &entry->height_cm);
	if (!e)
		e = yes_option(c, call, "hors-concours", &entry->hors_concours);
	return e ? e : yes_option(c, call, "late", &entry->late);
}

/* ---- numbers in other hands ----------------------------------------------------------- */

enum rt_err cli_number_free(struct cli *c, const struct rt_entries *all, const char *class_name,
			    int64_t number)
{
	const struct rt_entry *other = rt_entry_numbered(all, class_name, number);

	if (!other)
		return RT_OK;
	return rt_fail(&c->err, RT_E_INPUT,
		       "number %lld of class %s is %s with %s already: give another number",
		       (long long)number, class_name, other->driver, other->horses);
}

enum rt_err cli_note_numbers(struct cli *c, const struct rt_entries *all,
			     const struct rt_entry *entry)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < all->n && !e; i++) {
		const struct rt_entry *other = &all->at[i];
		bool driver, turnout;

		if (other->id == entry->id)
			continue;
		e = rt_entries_alike(entry, other, &driver, &turnout, &c->err);
		if (!e && (other->number == entry->number ? !driver : turnout))
			rt_report_note(&c->report, "In class %s number %lld is %s with %s.",
				       other->class_name, (long long)other->number, other->driver,
				       other->horses);
	}
	return e;
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

static enum rt_err add_horses(struct cli *c, struct goings *all, const struct rt_entry *entry,
			      size_t place)
{
	const char *names = entry->horses, *name;
	size_t n, at = 0;

	while ((name = rt_name_next(&names, &n))) {
		const char *horse = rt_arena_copy(&all->text, name, n);
		char *folded = horse ? rt_fold(horse) : NULL;
		struct going *g = RT_LIST_ADD(all);

		if (g)
			*g = (struct going){horse,
					    folded ? rt_arena_string(&all->text, folded) : horse,
					    entry, place, at++};
		free(folded);
		if (!g || !g->folded)
			return rt_fail_nomem(&c->err);
	}
	return RT_OK;
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

/* The pairs that are told, of horses in the order of by_horse; entries from place `first` on are
 * new. */
static enum rt_err find_shared(struct cli *c, const struct goings *all, size_t first,
			       struct shareds *out)
{
	for (size_t i = 0; i < all->n; i++) {
		const struct going *one = &all->at[i];

		for (size_t k = i; one->place >= first && k-- > 0;) {
			const struct going *other = &all->at[k];
			struct shared *pair;

			if (compare_horses(one, other) != 0)
				break;
			if (rt_same_name(one->entry->driver, other->entry->driver))
				continue;
			pair = RT_LIST_ADD(out);
			if (!pair)
				return rt_fail_nomem(&c->err);
			*pair = (struct shared){one, other};
		}
	}
	return RT_OK;
}

enum rt_err cli_note_horses(struct cli *c, const struct rt_entries *there,
			    const struct rt_entries *added)
{
	struct goings all = {0};
	struct shareds shared = {0};
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < there->n + added->n && !e; i++)
		e = add_horses(c, &all, i < there->n ? &there->at[i] : &added->at[i - there->n], i);
	if (!e && all.n) {
		qsort(all.at, all.n, sizeof *all.at, by_horse);
		e = find_shared(c, &all, there->n, &shared);
	}
	if (shared.n)
		qsort(shared.at, shared.n, sizeof *shared.at, by_entry);
	for (size_t i = 0; i < shared.n && !e; i++) {
		const struct rt_entry *other = shared.at[i].other->entry;

		rt_report_note(&c->report, "%s goes in class %s with %s, number %lld, too.",
			       shared.at[i].one->horse, other->class_name, other->driver,
			       (long long)other->number);
	}
	RT_LIST_FREE(&shared);
	RT_LIST_FREE(&all);
	return e;
}
