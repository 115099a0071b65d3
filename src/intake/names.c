/* Names that must exist, and keys that may stand only once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- names ----------------------------------------------------------------------------------- */

void rt__names_add(struct rt__names *names, const char *name)
{
	const char **slot;

	if (rt_map_put(&names->map, name, names->list.n, &names->nomem) != RT_MAP_NONE)
		return;
	slot = RT_LIST_ADD(&names->list);
	if (slot)
		*slot = name;
	else
		names->nomem = true;
}

void rt__names_free(struct rt__names *names)
{
	rt_map_free(names->map);
	names->map = NULL;
	RT_LIST_FREE(&names->list);
}

/* The fault of a word that is none of words; where says which words those are. */
static void tell_unknown(struct rt__load *l, const char *column, const char *what,
			 const char *where, const char *word, const char *const *words, size_t n)
{
	const char *meant = rt_meant(word, words, n);
	char listed[RT_LISTED_SIZE];

	rt_list_names(words, n, listed);
	rt__row_fault(l, column, "unknown %s %s: %s%s%s%s%s%s%s", what, rt_show(word).text,
		      meant ? "did you mean " : "", meant ? rt_show(meant).text : "",
		      meant ? "? (" : "", where ? where : "", where ? ": " : "", listed,
		      meant ? ")" : "");
}

bool rt__known(struct rt__load *l, const struct rt__names *names, const char *column,
	       const char *name)
{
	if (names->nomem)
		l->nomem = true;
	if (!name || names->any || rt_map_get(names->map, name) != RT_MAP_NONE)
		return true;
	tell_unknown(l, column, names->what, names->where, name, names->list.at, names->list.n);
	return false;
}

/* ---- keys ------------------------------------------------------------------------------------ */

const char *rt__key(struct rt__load *l, const char *a, const char *b)
{
	size_t na = strlen(a), nb = strlen(b), need = na + nb + 2;

	if (need > l->key_cap) {
		char *wide = realloc(l->key, 2 * need);

		if (!wide) {
			l->nomem = true;
			return NULL;
		}
		l->key = wide;
		l->key_cap = 2 * need;
	}
	memcpy(l->key, a, na);
	l->key[na] = '\n'; /* no name holds one */
	memcpy(l->key + na + 1, b, nb + 1);
	return l->key;
}

bool rt__doubled(struct rt__load *l, struct rt_map **seen, const char *column, const char *key,
		 const char *name, const char *rule)
{
	size_t first;

	if (!key)
		return false;
	first = rt_map_put(seen, key, (size_t)l->line, &l->nomem);
	if (first == RT_MAP_NONE)
		return false;
	rt__row_fault(l, column, "%s is there already, in line %zu: %s", rt_show(name).text, first,
		      rule);
	return true;
}

bool rt__doubled_number(struct rt__load *l, struct rt_map **seen, const char *class_name,
			int64_t number, const char *rule)
{
	char words[24];

	if (!class_name || !number)
		return false;
	snprintf(words, sizeof words, "%" PRId64, number);
	return rt__doubled(l, seen, "number", rt__key(l, words, class_name), words, rule);
}
