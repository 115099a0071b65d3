/* The number an entry is given.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* ---- who is who ------------------------------------------------------------------------------ */

/* How often a name of that length stands in names, "a; b". */
static size_t count_name(const char *names, const char *name, size_t length)
{
	size_t count = 0, n;

	for (const char *s; (s = rt_name_next(&names, &n));)
		count += n == length && memcmp(s, name, length) == 0;
	return count;
}

/* Whether every name of a stands in b, as often as in a. */
static bool holds(const char *b, const char *a)
{
	const char *rest = a;
	size_t n;

	for (const char *s; (s = rt_name_next(&rest, &n));)
		if (count_name(a, s, n) != count_name(b, s, n))
			return false;
	return true;
}

/* Whether two folded lists of names hold the same, in any order. */
static bool same_names(const char *a, const char *b)
{
	return holds(b, a) && holds(a, b);
}

/* A name folded once, to be compared with many. */
struct who {
	char *driver, *horses; /* horses NULL: any */
};

static void who_free(struct who *who)
{
	free(who->driver);
	free(who->horses);
}

static bool is_who(const struct who *who, const struct rt_entry *e, bool *nomem)
{
	char *driver = rt_fold(e->driver), *horses = NULL;
	bool is = driver && strcmp(driver, who->driver) == 0;

	*nomem = *nomem || !driver;
	if (is && who->horses) {
		horses = rt_fold(e->horses);
		*nomem = *nomem || !horses;
		is = horses && same_names(who->horses, horses);
	}
	free(driver);
	free(horses);
	return is;
}

static enum rt_err who_make(struct who *who, const struct rt_entry *entry, bool horses,
			    struct rt_error *err)
{
	*who = (struct who){.driver = rt_fold(entry->driver)};
	if (horses)
		who->horses = rt_fold(entry->horses);
	if (who->driver && (who->horses || !horses))
		return RT_OK;
	who_free(who);
	return rt_fail_nomem(err);
}

enum rt_err rt_entries_alike(const struct rt_entry *a, const struct rt_entry *b, bool *driver,
			     bool *turnout, struct rt_error *err)
{
	struct who who;
	bool nomem = false;
	enum rt_err e = who_make(&who, a, true, err);

	*driver = *turnout = false;
	if (e)
		return e;
	*turnout = is_who(&who, b, &nomem);
	free(who.horses);
	who.horses = NULL;
	*driver = *turnout || is_who(&who, b, &nomem);
	who_free(&who);
	return nomem ? rt_fail_nomem(err) : RT_OK;
}

/* ---- numbers --------------------------------------------------------------------------------- */

const struct rt_entry *rt_entry_numbered(const struct rt_entries *entries, const char *class_name,
					 int64_t number)
{
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].number == number &&
		    (!class_name || strcmp(entries->at[i].class_name, class_name) == 0))
			return &entries->at[i];
	return NULL;
}

/* The number that whoever enters has already and that is free in the class; 0: none. */
static enum rt_err kept_number(int64_t *out, const struct rt_numbering *rule,
			       const struct rt_entries *entries, const struct rt_entry *entry,
			       struct rt_error *err)
{
	struct who who;
	bool nomem = false;
	enum rt_err e = who_make(&who, entry, rule->holder == RT_HOLDER_TURNOUT, err);

	if (e)
		return e;
	for (size_t i = 0; i < entries->n && !*out; i++) {
		const struct rt_entry *other = &entries->at[i];

		if (is_who(&who, other, &nomem) &&
		    !rt_entry_numbered(entries, entry->class_name, other->number))
			*out = other->number;
	}
	who_free(&who);
	return nomem ? rt_fail_nomem(err) : RT_OK;
}

/* The number behind the highest that is or was in use; at the end of the range the lowest that
 * never was. */
static enum rt_err next_number(int64_t *out, const struct rt_numbering *rule,
			       const struct rt_entries *entries, const struct rt_numbers *given_up,
			       struct rt_error *err)
{
	size_t n = (size_t)(rule->last - rule->first) + 1, highest = 0;
	bool *used = calloc(n, sizeof *used);

	if (!used)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < entries->n + given_up->n; i++) {
		int64_t number = i < entries->n ? entries->at[i].number
						: given_up->at[i - entries->n];
		size_t place = (size_t)(number - rule->first);

		if (number < rule->first || number > rule->last)
			continue;
		used[place] = true;
		highest = place + 1 > highest ? place + 1 : highest;
	}
	if (highest == n)
		for (highest = 0; highest < n && used[highest];)
			highest++;
	free(used);
	*out = rule->first + (int64_t)highest;
	if (highest == n)
		return rt_fail(
			err, RT_E_INPUT,
			"no number is free from %lld to %lld: widen them with `entry numbers`",
			(long long)rule->first, (long long)rule->last);
	return RT_OK;
}

enum rt_err rt_number_give(int64_t *out, const struct rt_numbering *rule,
			   const struct rt_entries *entries, const struct rt_numbers *given_up,
			   const struct rt_entry *entry, bool *kept, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	*out = 0;
	if (rule->holder != RT_HOLDER_NONE)
		e = kept_number(out, rule, entries, entry, err);
	*kept = *out != 0;
	if (!e && !*kept)
		e = next_number(out, rule, entries, given_up, err);
	return e;
}
