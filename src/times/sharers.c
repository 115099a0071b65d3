/* Who and what two starts have in common: people, horses, carriages.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* Names are kept apart by kind; who drives, goes along or judges is somebody. */
static char kind_letter(enum rt_shared as)
{
	switch (as) {
	case RT_SHARED_HORSE:
		return 'h';
	case RT_SHARED_CARRIAGE:
		return 'c';
	case RT_SHARED_DRIVER:
	case RT_SHARED_GROOM:
	case RT_SHARED_JUDGE:
		break;
	}
	return 'p';
}

/* Kind and folded name as one key, yours; NULL when memory is out. */
static char *make_key(struct rt__sharers *sharers, enum rt_shared as, const char *name)
{
	char *folded = rt_fold(name), *key = NULL;

	if (folded) {
		size_t n = strlen(folded);

		key = malloc(n + 2);
		if (key) {
			key[0] = kind_letter(as);
			memcpy(key + 1, folded, n + 1);
		}
	}
	free(folded);
	sharers->nomem |= !key;
	return key;
}

size_t rt__sharer(struct rt__sharers *sharers, enum rt_shared as, const char *name)
{
	char *key = make_key(sharers, as, name);
	size_t there = RT_MAP_NONE, next = sharers->names.n;

	if (key)
		there = rt_map_put(&sharers->map, key, next, &sharers->nomem);
	free(key);
	if (sharers->nomem || there != RT_MAP_NONE)
		return sharers->nomem ? RT_MAP_NONE : there;
	if (RT_LIST_ADD(&sharers->names)) {
		const char *kept = rt_arena_string(&sharers->names.text, name);

		sharers->names.at[next] = kept ? kept : "";
		sharers->nomem = !kept;
	} else {
		sharers->nomem = true;
	}
	return sharers->nomem ? RT_MAP_NONE : next;
}

size_t rt__sharer_find(struct rt__sharers *sharers, enum rt_shared as, const char *name)
{
	char *key = make_key(sharers, as, name);
	size_t found = key ? rt_map_get(sharers->map, key) : RT_MAP_NONE;

	free(key);
	return found;
}

/* Who drives and is named as going along too is there once, as the driver. */
static void add_use(struct rt__uses *out, size_t from, struct rt__sharers *sharers,
		    enum rt_shared as, const char *name)
{
	size_t sharer = rt__sharer(sharers, as, name);
	struct rt__use *use;

	for (size_t i = from; i < out->n; i++)
		if (out->at[i].sharer == sharer)
			return;
	use = sharers->nomem ? NULL : RT_LIST_ADD(out);
	if (use)
		*use = (struct rt__use){sharer, as};
	else
		sharers->nomem = true;
}

void rt__uses_of_entry(struct rt__uses *out, struct rt__sharers *sharers,
		       const struct rt_entry *entry)
{
	const char *person[RT_PEOPLE_MOST];
	size_t from = out->n, people = rt_entry_people(entry, person);
	struct rt_strings horses = {0};

	add_use(out, from, sharers, RT_SHARED_DRIVER, person[0]);
	sharers->nomem |= rt_names_split(&horses, entry->horses, NULL) != RT_OK;
	for (size_t i = 0; i < horses.n && !sharers->nomem; i++)
		add_use(out, from, sharers, RT_SHARED_HORSE, horses.at[i]);
	RT_LIST_FREE(&horses);
	for (size_t i = 1; i < people; i++)
		add_use(out, from, sharers, RT_SHARED_GROOM, person[i]);
	if (entry->carriage)
		add_use(out, from, sharers, RT_SHARED_CARRIAGE, entry->carriage);
}

void rt__uses_of_class(struct rt__uses *out, struct rt__sharers *sharers,
		       const struct rt_class *class_)
{
	size_t from = out->n;

	for (size_t i = 0; i < class_->judges.n; i++) {
		const struct rt_judge *judge = &class_->judges.at[i];

		if (judge->name)
			add_use(out, from, sharers, RT_SHARED_JUDGE, judge->name);
		if (judge->scribe)
			add_use(out, from, sharers, RT_SHARED_JUDGE, judge->scribe);
	}
}

void rt__sharers_free(struct rt__sharers *sharers)
{
	bool nomem = sharers->nomem;

	rt_map_free(sharers->map);
	RT_LIST_FREE(&sharers->names);
	*sharers = (struct rt__sharers){.nomem = nomem};
}

enum rt_shared rt__shared_of(enum rt_shared a, enum rt_shared b)
{
	if (a == RT_SHARED_JUDGE || b == RT_SHARED_JUDGE)
		return RT_SHARED_JUDGE;
	return a == RT_SHARED_GROOM || b == RT_SHARED_GROOM ? RT_SHARED_GROOM : a;
}

int64_t rt__gap(const struct rt_time_settings *settings, enum rt_shared a, enum rt_shared b)
{
	return settings->gap_s[rt__shared_of(a, b)];
}
