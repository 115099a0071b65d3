/* The judges of a class by their positions.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#define SPACES " \t"

static bool has_position(const struct rt_judges *judges, const char *position)
{
	for (size_t i = 0; i < judges->n; i++)
		if (strcmp(judges->at[i].position, position) == 0)
			return true;
	return false;
}

/* Add the position of n letters at s; a star behind it makes the president. */
static enum rt_err add_judge(struct rt_judges *judges, struct rt_arena **text, const char *s,
			     size_t n, bool star, struct rt_error *err)
{
	const char *position = rt_arena_copy(text, s, n);
	struct rt_judge *judge;

	if (!position)
		return rt_fail_nomem(err);
	if (has_position(judges, position))
		return rt_fail(err, RT_E_INPUT, "judge %s stands there twice: each position once",
			       position);
	judge = RT_LIST_ADD(judges);
	if (!judge)
		return rt_fail_nomem(err);
	judge->position = position;
	judge->president = star;
	return RT_OK;
}

static enum rt_err read_positions(struct rt_judges *judges, struct rt_arena **text, const char *s,
				  struct rt_error *err)
{
	size_t stars = 0;

	for (s += strspn(s, SPACES); *s; s += strspn(s, SPACES)) {
		size_t whole = strcspn(s, SPACES), n = strspn(s, RT__POSITION_LETTERS);
		bool star = n > 0 && s[n] == '*';
		enum rt_err e;

		if (n == 0 || n + star != whole)
			return rt_fail(err, RT_E_INPUT,
				       "\"%.*s\" is no judge's position: letters and digits, with "
				       "a star for the president",
				       (int)(whole < 80 ? whole : 80), s);
		stars += star;
		if (stars > 1)
			return rt_fail(err, RT_E_INPUT, "two presidents: only one has a star");
		e = add_judge(judges, text, s, n, star, err);
		if (e)
			return e;
		s += whole;
	}
	if (judges->n == 0)
		return rt_fail(err, RT_E_INPUT, "no judge: positions such as C B E");
	return RT_OK;
}

size_t rt__president(const struct rt_judges *judges)
{
	size_t unsaid = 0; /* where no star says so: C, else the first */

	for (size_t i = judges->n; i-- > 0;) {
		if (judges->at[i].president)
			return i;
		if (strcmp(judges->at[i].position, "C") == 0)
			unsaid = i;
	}
	return unsaid;
}

enum rt_err rt_judges_read(struct rt_judges *judges, struct rt_arena **text, const char *words,
			   struct rt_error *err)
{
	enum rt_err e = read_positions(judges, text, words, err);

	if (e) {
		RT_LIST_FREE(judges);
		return e;
	}
	judges->at[rt__president(judges)].president = true;
	return RT_OK;
}

/* ---- names ----------------------------------------------------------------------------------- */

static enum rt_err name_judge(struct rt_judge *judge, struct rt_arena **text, const char *s,
			      size_t n, struct rt_error *err)
{
	const char *name;

	for (; n && *s == ' '; n--)
		s++;
	while (n && s[n - 1] == ' ')
		n--;
	judge->name = NULL;
	if (!n)
		return RT_OK;
	name = rt_arena_copy(text, s, n);
	if (!name)
		return rt_fail_nomem(err);
	if (strpbrk(name, "\n\t"))
		return rt_fail(err, RT_E_INPUT,
			       "the name of judge %s holds a line break or a tab: text on one line",
			       judge->position);
	if (rt_characters(name) > RT_NAME_MOST)
		return rt_fail(err, RT_E_INPUT,
			       "the name of judge %s is too long: at most %d characters",
			       judge->position, RT_NAME_MOST);
	judge->name = name;
	return RT_OK;
}

enum rt_err rt_judges_name(struct rt_judges *judges, struct rt_arena **text, const char *words,
			   struct rt_error *err)
{
	size_t names = 1;

	for (const char *s = words; *s; s++)
		names += *s == ';';
	if (names != judges->n)
		return rt_fail(
			err, RT_E_INPUT,
			"%zu name%s for %zu judge%s: one for each, semicolons between, nothing "
			"there where it is not known",
			names, names == 1 ? "" : "s", judges->n, judges->n == 1 ? "" : "s");
	for (size_t i = 0; i < judges->n; i++) {
		size_t n = strcspn(words, ";");
		enum rt_err e = name_judge(&judges->at[i], text, words, n, err);

		if (e)
			return e;
		words += n + (words[n] == ';');
	}
	return RT_OK;
}

void rt_judges_words(const struct rt_judges *judges, char *out, size_t size)
{
	size_t president = rt__president(judges);
	bool star = judges->n && strcmp(judges->at[president].position, "C") != 0, room = true;

	*out = '\0';
	for (size_t i = 0; i < judges->n && room; i++)
		room = rt_append(out, size, "%s%s%s", i ? " " : "", judges->at[i].position,
				 star && i == president ? "*" : "");
}

/* ---- judges who are replaced ------------------------------------------------------------------
 */

const char *rt_sheet_judge(const struct rt_judge_sheets *judged, int64_t entry,
			   const struct rt_judge *judge)
{
	for (size_t i = 0; judged && i < judged->n; i++)
		if (judged->at[i].judge == judge->id && judged->at[i].entry == entry)
			return judged->at[i].name;
	return judge->name;
}

/* Whether the same judge, or nobody who is known, gives both sheets. */
static bool same_hand(const struct rt_judge_sheet *a, const struct rt_judge_sheet *b)
{
	return a->judge == b->judge && !a->name == !b->name &&
	       (!a->name || strcmp(a->name, b->name) == 0);
}

void rt_judge_spells(const struct rt_judge_sheets *judged, const struct rt_judge *judge, char *out,
		     size_t size)
{
	bool any = false;

	*out = '\0';
	for (size_t i = 0; judged && i < judged->n; i++) {
		const struct rt_judge_sheet *sheet = &judged->at[i];
		bool last = i + 1 == judged->n || sheet[1].judge != judge->id;

		if (sheet->judge != judge->id || (!last && same_hand(sheet, sheet + 1)))
			continue;
		rt_append(out, size, "%s%s", any ? ", then " : "",
			  sheet->name ? sheet->name : "nobody known");
		if (!last)
			rt_append(out, size, " to no. %" PRId64, sheet->number);
		any = true;
	}
	if (!any && judge->name)
		rt_append(out, size, "%s", judge->name);
}

void rt_class_judge_words(const struct rt_judge_sheets *judged, const struct rt_class *class_,
			  char *out, size_t size)
{
	*out = '\0';
	for (size_t i = 0; i < class_->judges.n; i++) {
		const struct rt_judge *judge = &class_->judges.at[i];
		size_t used;

		rt_append(out, size, "%s%s ", i ? ", " : "", judge->position);
		used = strlen(out);
		rt_judge_spells(judged, judge, out + used, size - used);
		if (!out[used])
			out[used - 1] = '\0';
	}
}

/* ---- of a class ------------------------------------------------------------------------------ */

enum rt_err rt_class_read_judges(struct rt_class *class_, struct rt_arena **text,
				 struct rt_error *err)
{
	char words[RT_JUDGES_WORDS];
	enum rt_err e;

	class_->judges = (struct rt_judges){0};
	e = rt_judges_read(&class_->judges, text, class_->positions, err);
	if (!e && class_->judge_names)
		e = rt_judges_name(&class_->judges, text, class_->judge_names, err);
	if (!e) {
		rt_judges_words(&class_->judges, words, sizeof words);
		class_->positions = rt_arena_string(text, words);
		if (!class_->positions)
			e = rt_fail_nomem(err);
	}
	if (e)
		RT_LIST_FREE(&class_->judges);
	return e;
}

enum rt_err rt_class_tell_judges(struct rt_class *class_, struct rt_arena **text,
				 struct rt_error *err)
{
	const struct rt_judges *judges = &class_->judges;
	char words[RT_JUDGES_WORDS], *names, *to;
	size_t size = 1, named = 0;

	rt_judges_words(judges, words, sizeof words);
	class_->positions = rt_arena_string(text, words);
	class_->judge_names = NULL;
	for (size_t i = 0; i < judges->n; i++) {
		named += judges->at[i].name != NULL;
		size += (judges->at[i].name ? strlen(judges->at[i].name) : 0) + 2;
	}
	if (class_->positions && !named)
		return RT_OK;
	names = to = rt_arena_take(text, size);
	if (!class_->positions || !names)
		return rt_fail_nomem(err);
	*to = '\0';
	for (size_t i = 0; i < judges->n; i++)
		to = stpcpy(stpcpy(to, i ? "; " : ""),
			    judges->at[i].name ? judges->at[i].name : "");
	class_->judge_names = names;
	return RT_OK;
}

/* ---- items of some judges only ---- */

bool rt_item_marked_at(const struct rt_item *item, const char *position)
{
	const char *at = item->judges;
	size_t n, word;

	if (!at || !*at)
		return true;
	n = strlen(position);
	for (at += strspn(at, " "); *at; at += word + strspn(at + word, " ")) {
		word = strcspn(at, " ");
		if (word == n && strncmp(at, position, n) == 0)
			return true;
	}
	return false;
}

enum rt_err rt_items_marked_at(struct rt_items *out, const struct rt_items *items,
			       const char *position, struct rt_error *err)
{
	for (size_t i = 0; i < items->n; i++) {
		struct rt_item *item;

		if (!rt_item_marked_at(&items->at[i], position))
			continue;
		item = RT_LIST_ADD(out);
		if (!item)
			return rt_fail_nomem(err);
		*item = items->at[i];
	}
	return RT_OK;
}
