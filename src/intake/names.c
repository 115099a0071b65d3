/* Names that must exist, and keys that may stand only once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LISTED_BYTES  200 /* of the names that a message lists; then it ends in "..." */
#define SHORTEST_SLIP 3	  /* a shorter word is near to too many others */

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

const char *rt__meant(const char *word, const char *const *words, size_t n)
{
	const char *meant = NULL;
	char *folded = rt_fold(word);

	for (size_t i = 0; folded && i < n && !meant; i++) {
		char *other = rt_fold(words[i]);

		if (other && strcmp(folded, other) == 0)
			meant = words[i];
		free(other);
	}
	free(folded);
	if (!meant && strlen(word) >= SHORTEST_SLIP)
		meant = rt_nearest(word, words, n);
	return meant;
}

/* The words with commas between, cut after LISTED_BYTES. */
static void list_words(const char *const *words, size_t n, char *out, size_t size)
{
	size_t at = 0;

	snprintf(out, size, "%s", n ? "" : "there is none");
	for (size_t i = 0; i < n; i++) {
		const char *comma = i ? ", " : "";

		if (at + strlen(words[i]) > LISTED_BYTES) {
			snprintf(out + at, size - at, "%s...", comma);
			return;
		}
		at += (size_t)snprintf(out + at, size - at, "%s%s", comma, words[i]);
	}
}

/* The fault of a word that is none of words; where says which words those are. */
static void tell_unknown(struct rt__load *l, const char *column, const char *what,
			 const char *where, const char *word, const char *const *words, size_t n)
{
	const char *meant = rt__meant(word, words, n);
	char listed[LISTED_BYTES + 16];

	list_words(words, n, listed, sizeof listed);
	rt__row_fault(l, column, "unknown %s %s: %s%s%s%s%s%s%s", what, rt__show(word).text,
		      meant ? "did you mean " : "", meant ? rt__show(meant).text : "",
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

bool rt__is_word(struct rt__load *l, const char *what, const char *s, bool found,
		 const char *const *words, size_t n)
{
	if (!found)
		tell_unknown(l, l->column_name, what, NULL, s, words, n);
	return found;
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
	rt__row_fault(l, column, "%s is there already, in line %zu: %s", rt__show(name).text, first,
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
