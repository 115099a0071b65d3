/* Entries: found by any part of a name, put into an order, compared with what they were.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- finding --------------------------------------------------------------------------------- */

/* The text of a field that is looked into; NULL: none, or another field. */
static const char *sought_text(size_t field, const struct rt_entry *e)
{
	const struct rt_field *f = &rt_entry_record.field[field];

	return f->is & RT_SOUGHT ? rt_field_value(&rt_entry_record, f, e, NULL).as.text : NULL;
}

/* What can be found of an entry, folded, in one string; yours.  NULL when memory is out. */
static char *findable(const struct rt_entry *e)
{
	size_t size = 1, fields = rt_entry_record.fields;
	char *all, *to, *folded;

	for (size_t i = 0; i < fields; i++)
		size += sought_text(i, e) ? strlen(sought_text(i, e)) + 1 : 0;
	all = to = malloc(size);
	if (!all)
		return NULL;
	*to = '\0';
	for (size_t i = 0; i < fields; i++)
		if (sought_text(i, e))
			to = stpcpy(stpcpy(to, sought_text(i, e)), "\n");
	folded = rt_fold(all);
	free(all);
	return folded;
}

static bool matches(const char *found_in, int64_t number, const struct rt_strings *words)
{
	for (size_t i = 0; i < words->n; i++) {
		int64_t typed;

		if (rt_parse_int(words->at[i], &typed) && typed == number)
			continue;
		if (!strstr(found_in, words->at[i]))
			return false;
	}
	return true;
}

/* Whether a word is in the text of a field. */
static bool in_field(size_t field, const struct rt_entry *e, const char *word, bool *nomem)
{
	const char *text = sought_text(field, e);
	char *folded = text ? rt_fold(text) : NULL;
	bool is = folded && strstr(folded, word);

	*nomem = *nomem || (text && !folded);
	free(folded);
	return is;
}

/* Tell where the words were found: "driver: Gwen Ashby; horses: Castor; Pollux", "number". */
static enum rt_err tell_found(struct rt_entry *e, const struct rt_strings *words,
			      struct rt_arena **text, struct rt_error *err)
{
	const struct rt_record *r = &rt_entry_record;
	char found[RT_FOUND_SIZE] = "";
	bool nomem = false;

	for (size_t i = 0; i < words->n; i++) {
		int64_t typed;

		if (rt_parse_int(words->at[i], &typed) && typed == e->number)
			rt_append(found, sizeof found, "%snumber", *found ? "; " : "");
	}
	for (size_t k = 0; k < r->fields; k++)
		for (size_t i = 0; i < words->n; i++)
			if (in_field(k, e, words->at[i], &nomem)) {
				rt_append(found, sizeof found, "%s%s: %s", *found ? "; " : "",
					  r->field[k].name, sought_text(k, e));
				break;
			}
	e->found = rt_arena_string(text, found);
	return nomem || !e->found ? rt_fail_nomem(err) : RT_OK;
}

/* The words that were typed, folded, one by one; white space parts them. */
static enum rt_err fold_words(struct rt_strings *out, const char *const *typed, size_t n,
			      struct rt_error *err)
{
	for (size_t i = 0; i < n; i++) {
		char *folded = rt_is_utf8(typed[i], strlen(typed[i])) ? rt_fold(typed[i]) : NULL;
		bool nomem = !folded && rt_is_utf8(typed[i], strlen(typed[i]));

		for (const char *s = folded; s && *s && !nomem;) {
			size_t length = strcspn(s, " ");
			const char **word = RT_LIST_ADD(out);

			nomem = !word || !(*word = rt_arena_copy(&out->text, s, length));
			s += length + (s[length] == ' ');
		}
		free(folded);
		if (nomem)
			return rt_fail_nomem(err);
		if (!folded)
			return rt_fail(err, RT_E_INPUT, "what is to be found is not UTF-8");
	}
	if (!out->n)
		return rt_fail(err, RT_E_INPUT, "what is to be found is empty: a part of a name");
	return RT_OK;
}

enum rt_err rt_entries_find(struct rt_entries *entries, const char *const *words, size_t n,
			    struct rt_error *err)
{
	struct rt_strings folded = {0};
	enum rt_err e = fold_words(&folded, words, n, err);
	size_t kept = 0;

	for (size_t i = 0; i < entries->n && !e; i++) {
		char *found_in = findable(&entries->at[i]);

		if (!found_in) {
			e = rt_fail_nomem(err);
		} else if (matches(found_in, entries->at[i].number, &folded)) {
			entries->at[kept] = entries->at[i];
			e = tell_found(&entries->at[kept++], &folded, &entries->text, err);
		}
		free(found_in);
	}
	if (!e)
		entries->n = kept;
	RT_LIST_FREE(&folded);
	return e;
}

size_t rt_entry_people(const struct rt_entry *entry, const char *name[RT_PEOPLE_MOST])
{
	const struct rt_record *r = &rt_entry_record;
	size_t n = 0;

	for (size_t i = 0; i < r->fields && n < RT_PEOPLE_MOST; i++) {
		if (r->field[i].is & RT_PERSON)
			name[n] = rt_field_value(r, &r->field[i], entry, NULL).as.text;
		n += (r->field[i].is & RT_PERSON) && name[n];
	}
	return n;
}

/* ---- order ----------------------------------------------------------------------------------- */

struct sort_key {
	const struct rt_entry *entry; /* in the list as it was; its place there parts equal ones */
	char *driver;		      /* folded; NULL: the number alone counts */
	int64_t number;		      /* or the id */
};

static int compare_keys(const void *left, const void *right)
{
	const struct sort_key *a = left, *b = right;
	int order = a->driver ? strcmp(a->driver, b->driver) : 0;

	if (!order)
		order = (a->number > b->number) - (a->number < b->number);
	return order ? order : (a->entry > b->entry) - (a->entry < b->entry);
}

enum rt_err rt_entries_sort(struct rt_entries *entries, enum rt_entry_order order,
			    struct rt_error *err)
{
	struct sort_key *key = calloc(entries->n + 1, sizeof *key);
	struct rt_entry *sorted = calloc(entries->n + 1, sizeof *sorted);
	enum rt_err e = key && sorted ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; i < entries->n && !e; i++) {
		const struct rt_entry *entry = &entries->at[i];

		key[i].entry = entry;
		key[i].number = order == RT_ORDER_ARRIVAL ? entry->id : entry->number;
		if (order == RT_ORDER_DRIVER && !(key[i].driver = rt_fold(entry->driver)))
			e = rt_fail_nomem(err);
	}
	if (!e && order != RT_ORDER_CLASS && entries->n) {
		qsort(key, entries->n, sizeof *key, compare_keys);
		for (size_t i = 0; i < entries->n; i++)
			sorted[i] = *key[i].entry;
		memcpy(entries->at, sorted, entries->n * sizeof *sorted);
	}
	for (size_t i = 0; key && i < entries->n; i++)
		free(key[i].driver);
	free(key);
	free(sorted);
	return e;
}

/* ---- what has changed ------------------------------------------------------------------------ */

static bool same(const char *a, const char *b)
{
	return a && b ? strcmp(a, b) == 0 : !a == !b;
}

static enum rt_err note_change(struct rt_changes *out, const char *field, const char *was,
			       const char *became, struct rt_error *err)
{
	struct rt_change *change;

	if (was && !*was)
		was = NULL;
	if (became && !*became)
		became = NULL;
	if (same(was, became))
		return RT_OK;
	change = RT_LIST_ADD(out);
	if (!change)
		return rt_fail_nomem(err);
	change->field = field;
	change->was = rt_arena_string(&out->text, was);
	change->became = rt_arena_string(&out->text, became);
	if (!change->was != !was || !change->became != !became)
		return rt_fail_nomem(err);
	return RT_OK;
}

enum rt_err rt_record_changes(struct rt_changes *out, const struct rt_record *r, const void *was,
			      const void *became, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < r->fields && !e; i++) {
		const struct rt_field *f = &r->field[i];
		char own[2][RT_OWN_SIZE], words[2][64];
		struct rt_value a = rt_field_value(r, f, was, own[0]);
		struct rt_value b = rt_field_value(r, f, became, own[1]);

		e = note_change(out, f->name, rt_value_text(f, &a, words[0], sizeof *words),
				rt_value_text(f, &b, words[1], sizeof *words), err);
	}
	return e;
}
