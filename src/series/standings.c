/* Championships and teams: the best of several results, added up and placed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "../office/internal.h"

#include <ringtrue/series.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../base/enum_words.h"

RT__ENUM_WORDS(tally, "way to count", RT_TALLIES)
RT__ENUM_WORDS(tally_of, "result", RT_TALLY_OFS)
RT__ENUM_WORDS(tally_by, "competitor", RT_TALLY_BYS)
RT__ENUM_WORDS(tally_ties, "tie-break", RT_TALLY_TIES)

_Static_assert(RT_STANDING_DECIMALS == RT__DECIMALS_MOST, "no rule has more");

__extension__ typedef __int128 wide;

/* ---- start ----------------------------------------------------------------------------------- */

void rt_standings_of_championship(struct rt_standings *out,
				  const struct rt_championship *championship, size_t classes)
{
	size_t dropped = (size_t)championship->dropped;

	memset(out, 0, sizeof *out);
	out->championship = championship;
	out->tally = championship->tally;
	out->of = championship->of;
	out->ties = championship->ties;
	out->kept = classes > dropped ? classes - dropped : 1;
	out->complete = true;
}

void rt_standings_of_teams(struct rt_standings *out, const struct rt_team_members *members,
			   size_t kept, enum rt_tally tally, enum rt_tally_of of)
{
	memset(out, 0, sizeof *out);
	out->members = members;
	out->tally = tally;
	out->of = of;
	out->kept = kept;
	out->complete = true;
}

void rt_standings_free(struct rt_standings *s)
{
	for (size_t i = 0; i < s->list.n; i++)
		RT_LIST_FREE(&s->list.at[i].part);
	RT_LIST_FREE(&s->list);
	RT_LIST_FREE(&s->class_name);
	rt_map_free(s->index);
	memset(s, 0, sizeof *s);
}

/* ---- add a class ----------------------------------------------------------------------------- */

/* What of the class counts, and which way it is won. */
static enum rt_err agree(struct rt_standings *s, const struct rt_results *r, struct rt_error *err)
{
	const struct rt_rule *rule = r->of->rule;
	enum rt_wins wins = s->of == RT_OF_PERCENT ? RT_HIGHEST_WINS : rule->wins;
	bool of_percent = s->of == RT_OF_PERCENT && rule->scale != RT_PERCENT_SCALE;
	int decimals = of_percent ? rule->percent_decimals : rule->score_decimals;

	if (s->classes > 0 && wins != s->wins)
		return rt_fail(err, RT_E_INPUT,
			       "class %s: the %s score wins there, the %s in class %s: count the "
			       "percentages instead (teams: --of percent; a championship: percent "
			       "in its column of)",
			       r->of->class_->name, rt_wins_words(wins), rt_wins_words(s->wins),
			       s->class_name.at[0]);
	s->wins = wins;
	if (decimals > s->decimals)
		s->decimals = decimals;
	return RT_OK;
}

/* The standing under this key, made where there is none. */
static struct rt_standing *standing_at(struct rt_standings *s, const char *key, const char *name)
{
	bool nomem = false;
	size_t at = rt_map_put(&s->index, key, s->list.n, &nomem);
	struct rt_standing *standing;

	if (nomem || at != RT_MAP_NONE)
		return nomem ? NULL : &s->list.at[at];
	standing = RT_LIST_ADD(&s->list);
	if (standing)
		standing->name = rt_arena_string(&s->list.text, name);
	return standing && standing->name ? standing : NULL;
}

/* Names that differ in case and accents only are one person's. */
static char *person_key(const struct rt_standings *s, const struct rt_entry *entry)
{
	char *driver = rt_fold(entry->driver), *horses = NULL, *key = NULL;
	size_t room;

	if (s->championship->by != RT_BY_TURNOUT || !driver)
		return driver;
	horses = rt_fold(entry->horses);
	room = horses ? strlen(driver) + strlen(horses) + 2 : 0;
	key = horses ? malloc(room) : NULL;
	if (key)
		snprintf(key, room, "%s\n%s", driver, horses);
	free(driver);
	free(horses);
	return key;
}

static struct rt_standing *person(struct rt_standings *s, const struct rt_entry *entry)
{
	char *key = person_key(s, entry);
	struct rt_standing *p = key ? standing_at(s, key, entry->driver) : NULL;

	free(key);
	if (!p || p->part.n)
		return p;
	if (s->championship->by == RT_BY_TURNOUT) {
		p->horses = rt_arena_string(&s->list.text, entry->horses);
		if (!p->horses)
			return NULL;
	}
	p->club = rt_arena_string(&s->list.text, entry->club);
	return p;
}

static bool better(const struct rt_standings *s, int64_t a, int64_t b)
{
	return s->wins == RT_HIGHEST_WINS ? a > b : a < b;
}

/* The per cent that is left of the base after penalties, with the decimals of the rule. */
static int64_t percent_of_base(const struct rt_rule *rule, int64_t score)
{
	wide base = (wide)rule->base * rt_power_of_ten(rule->score_decimals);
	wide twice = 2 * (base - score) * 100 * rt_power_of_ten(rule->percent_decimals) + base;
	wide percent = twice / (2 * base) - (twice % (2 * base) < 0);

	return (int64_t)percent * rt_power_of_ten(RT_STANDING_DECIMALS - rule->percent_decimals);
}

/* What counts is after penalties, whatever they are taken off. */
static int64_t value_of(const struct rt_standings *s, const struct rt_results *r,
			const struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;

	if (s->of == RT_OF_PERCENT && rule->scale == RT_PENALTY_SCALE)
		return percent_of_base(rule, result->score);
	if (s->of == RT_OF_PERCENT && rule->scale != RT_PERCENT_SCALE)
		return result->percent * rt_power_of_ten(RT_STANDING_DECIMALS - rule->percent_decimals);
	return result->score * rt_power_of_ten(RT_STANDING_DECIMALS - rule->score_decimals);
}

/* A driver with two turnouts in a class has the better result there. */
static enum rt_err put_part(struct rt_standings *s, struct rt_standing *standing,
			    const struct rt_result *result, int64_t value, bool one_a_class,
			    struct rt_error *err)
{
	struct rt_standing_parts *parts = &standing->part;
	struct rt_standing_part *part = parts->n ? &parts->at[parts->n - 1] : NULL;

	if (!one_a_class || !part || part->class_ != s->classes)
		part = RT_LIST_ADD(parts);
	else if (!better(s, value, part->value))
		return RT_OK;
	if (!part)
		return rt_fail_nomem(err);
	part->class_ = s->classes;
	part->number = result->entry->number;
	part->value = value;
	part->driver = rt_arena_string(&s->list.text, result->entry->driver);
	return part->driver ? RT_OK : rt_fail_nomem(err);
}

static enum rt_err add_person(struct rt_standings *s, const struct rt_results *r,
			      const struct rt_result *result, struct rt_error *err)
{
	struct rt_standing *p = person(s, result->entry);

	return p ? put_part(s, p, result, value_of(s, r, result), true, err) : rt_fail_nomem(err);
}

static enum rt_err add_member(struct rt_standings *s, const struct rt_results *r,
			      const struct rt_result *result, struct rt_error *err)
{
	for (size_t i = 0; i < s->members->n; i++) {
		const struct rt_team_member *m = &s->members->at[i];
		struct rt_standing *team;
		enum rt_err e;

		if (m->number != result->entry->number ||
		    strcmp(m->class_name, r->of->class_->name) != 0)
			continue;
		team = standing_at(s, m->team, m->team);
		e = team ? put_part(s, team, result, value_of(s, r, result), false, err)
			 : rt_fail_nomem(err);
		if (e)
			return e;
	}
	return RT_OK;
}

enum rt_err rt_standings_add(struct rt_standings *s, const struct rt_results *r,
			     struct rt_error *err)
{
	const char **name;
	enum rt_err e = agree(s, r, err);

	name = e ? NULL : RT_LIST_ADD(&s->class_name);
	if (name)
		*name = rt_arena_string(&s->class_name.text, r->of->class_->name);
	if (!e && (!name || !*name))
		return rt_fail_nomem(err);
	for (size_t i = 0; i < r->n && !e; i++) {
		if (r->at[i].place == 0)
			continue;
		e = s->championship ? add_person(s, r, &r->at[i], err)
				    : add_member(s, r, &r->at[i], err);
	}
	s->complete &= r->complete;
	s->classes++;
	return e;
}

/* ---- choose and place ------------------------------------------------------------------------ */

static int by_value(const void *a, const void *b)
{
	const struct rt_standing_part *x = *(const struct rt_standing_part *const *)a;
	const struct rt_standing_part *y = *(const struct rt_standing_part *const *)b;

	if (x->value != y->value)
		return x->value < y->value ? -1 : 1;
	return x->class_ != y->class_ ? (x->class_ < y->class_ ? -1 : 1)
				      : (x->number > y->number) - (x->number < y->number);
}

/* Mark the best parts, and add them up. */
static enum rt_err choose(const struct rt_standings *s, struct rt_standing *standing,
			  struct rt_error *err)
{
	size_t n = standing->part.n, keep = n < s->kept ? n : s->kept;
	struct rt_standing_part **order = calloc(n + 1, sizeof(void *));

	if (!order)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < n; i++)
		order[i] = &standing->part.at[i];
	qsort(order, n, sizeof(void *), by_value);
	for (size_t i = 0; i < keep; i++) {
		struct rt_standing_part *part = order[s->wins == RT_HIGHEST_WINS ? n - 1 - i : i];

		part->counts = true;
		standing->total += part->value;
	}
	free(order);
	return RT_OK;
}

/* What parts equal totals; larger is better. */
static int64_t tie_worth(const struct rt_standings *s, const struct rt_standing *standing)
{
	int64_t sign = s->wins == RT_HIGHEST_WINS ? 1 : -1, worth = INT64_MIN;

	for (size_t i = 0; i < standing->part.n && s->ties != RT_TALLY_EQUAL; i++) {
		const struct rt_standing_part *part = &standing->part.at[i];

		if (s->ties == RT_TALLY_LAST && part->class_ + 1 != s->classes)
			continue;
		if (sign * part->value > worth)
			worth = sign * part->value;
	}
	return worth;
}

struct rank {
	struct rt_standing standing;
	bool placed;
	int64_t worth, tie; /* larger is better */
	char *name;	    /* folded */
};

static int by_worth(const void *a, const void *b)
{
	const struct rank *x = a, *y = b;
	int by_name;

	if (x->placed != y->placed)
		return x->placed ? -1 : 1;
	if (!x->placed && x->standing.part.n != y->standing.part.n)
		return x->standing.part.n > y->standing.part.n ? -1 : 1;
	if (x->worth != y->worth)
		return x->worth > y->worth ? -1 : 1;
	if (x->tie != y->tie)
		return x->tie > y->tie ? -1 : 1;
	by_name = strcmp(x->name, y->name);
	if (by_name || !x->standing.horses)
		return by_name;
	return strcmp(x->standing.horses, y->standing.horses);
}

/* Places in order; equal totals that the tie-break tells apart say so. */
static void put_places(const struct rt_standings *s, struct rank *rank, size_t n)
{
	for (size_t i = 0; i < n && rank[i].placed; i++) {
		bool level = i > 0 && rank[i].worth == rank[i - 1].worth;
		bool equal = level && rank[i].tie == rank[i - 1].tie;

		rank[i].standing.place = equal ? rank[i - 1].standing.place : i + 1;
		if (level && !equal)
			rank[i].standing.parted_by = rank[i - 1].standing.parted_by =
				rt_tally_ties_words(s->ties);
	}
}

static enum rt_err make_ranks(const struct rt_standings *s, struct rank *rank, struct rt_error *err)
{
	int64_t sign = s->wins == RT_HIGHEST_WINS ? 1 : -1;

	for (size_t i = 0; i < s->list.n; i++) {
		enum rt_err e = choose(s, &s->list.at[i], err);

		if (e)
			return e;
		rank[i].standing = s->list.at[i];
		rank[i].placed = s->list.at[i].part.n >= s->kept;
		rank[i].worth = sign * s->list.at[i].total;
		rank[i].tie = tie_worth(s, &s->list.at[i]);
		rank[i].name = rt_fold(s->list.at[i].name);
		if (!rank[i].name)
			return rt_fail_nomem(err);
	}
	return RT_OK;
}

enum rt_err rt_standings_end(struct rt_standings *s, struct rt_error *err)
{
	struct rank *rank = calloc(s->list.n + 1, sizeof *rank);
	enum rt_err e = rank ? make_ranks(s, rank, err) : rt_fail_nomem(err);

	if (!e) {
		qsort(rank, s->list.n, sizeof *rank, by_worth);
		put_places(s, rank, s->list.n);
		for (size_t i = 0; i < s->list.n; i++)
			s->list.at[i] = rank[i].standing;
	}
	for (size_t i = 0; rank && i < s->list.n; i++)
		free(rank[i].name);
	free(rank);
	return e;
}
