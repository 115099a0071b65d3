/* Names that must exist, and keys that may stand only once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>

#define NUMBER_SIZE 24

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

void rt__names_of_roster(struct rt__load *l)
{
	static const char *const what[RT__NAMED] = {
		[RT__KINDS] = "kind", [RT__GAITS] = "gait", [RT__RULES] = "rule",
		[RT__RINGS] = "ring", [RT__TESTS] = "test", [RT__CLASSES] = "class"};

	for (size_t i = 0; i < RT__NAMED; i++)
		l->names[i].what = what[i];
	RT__NAMES_FROM(&l->names[RT__KINDS], l->roster->kinds);
	RT__NAMES_FROM(&l->names[RT__GAITS], l->roster->gaits);
	RT__NAMES_FROM(&l->names[RT__RULES], l->roster->rules);
	RT__NAMES_FROM(&l->names[RT__RINGS], l->roster->rings);
	RT__NAMES_FROM(&l->names[RT__TESTS], l->roster->tests);
	RT__NAMES_FROM(&l->names[RT__CLASSES], l->roster->classes);
}

void rt__check_names(struct rt__load *l, const void *row)
{
	const struct rt__file *file = l->file;
	char own[RT_OWN_SIZE];

	for (size_t i = 0; i < RT__COUNT(file->names) && file->names[i].column; i++) {
		const char *column = file->names[i].column;
		const struct rt_field *f = rt_record_field(file->record, column);
		struct rt_value name = rt_field_value(file->record, f, row, own);

		rt__known(l, &l->names[file->names[i].in], column, name.as.text);
	}
}

/* ---- keys ------------------------------------------------------------------------------------ */

void rt__check_once(struct rt__load *l, const char *column, const char *key, const char *shown,
		    const char *once)
{
	size_t first = rt_map_put(&l->seen, key, (size_t)l->line, &l->nomem);

	if (first != RT_MAP_NONE)
		rt__row_fault(l, column, "%s is there already, in line %zu: %s",
			      rt_show(shown).text, first, once);
}

void rt__check_key(struct rt__load *l, const void *row)
{
	const struct rt__file *file = l->file;
	const char *column = NULL, *shown = NULL;
	char key[RT__KEY_SIZE] = "", own[RT_OWN_SIZE], number[NUMBER_SIZE];
	size_t at = 0;

	for (size_t i = 0; i < RT__COUNT(file->key) && file->key[i] && at < sizeof key; i++) {
		const struct rt_field *f = rt_record_field(file->record, file->key[i]);
		struct rt_value v = rt_field_value(file->record, f, row, own);

		if (!rt__fields_sound(l, f->name))
			return;
		column = f->name;
		shown = rt_value_text(f, &v, number, sizeof number);
		/* no name holds a line break */
		at += (size_t)snprintf(key + at, sizeof key - at, "%s\n", shown);
	}
	if (column)
		rt__check_once(l, column, key, shown, file->once);
}
