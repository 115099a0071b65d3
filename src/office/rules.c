/* Rules: found by name, their tie-breaks read, and whether they can be scored.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#define WORD_MOST 32 /* no step of a tie-break is longer */

const struct rt_rule *rt_rule_find(const struct rt_rules *rules, const char *name)
{
	for (size_t i = 0; i < rules->n; i++)
		if (strcmp(rules->at[i].name, name) == 0)
			return &rules->at[i];
	return NULL;
}

/* ---- tie-breaks ---- */

/* Cut the word at its first colon; what follows it, or NULL. */
static char *cut_at_colon(char *word)
{
	char *colon = word ? strchr(word, ':') : NULL;

	if (!colon)
		return NULL;
	*colon = '\0';
	return colon + 1;
}

static bool is_position(const char *s)
{
	size_t n = strlen(s);

	return n > 0 && strspn(s, RT__POSITION_LETTERS) == n;
}

/* Whether a tie-break names somebody or something behind a colon. */
static bool has_name(enum rt_tie_break by)
{
	return by == RT_TIE_JUDGE || by == RT_TIE_ITEM;
}

static bool is_tie_name(enum rt_tie_break by, const char *s)
{
	return s && *s && strlen(s) <= RT_TIE_NAME_MOST && (by != RT_TIE_JUDGE || is_position(s));
}

/* Read "median", "median:3", "judge:B", "judge:B:3" or "item:12" into the next step of rule. */
static bool read_tie_step(char *word, struct rt_rule *rule)
{
	char *rest = cut_at_colon(word), *name = NULL;
	enum rt_tie_break by;
	int64_t places = 0;

	if (rule->tie_steps == RT_TIE_STEPS || !rt_tie_break_read(word, &by))
		return false;
	if (has_name(by)) {
		name = rest;
		rest = cut_at_colon(name);
		if (!is_tie_name(by, name))
			return false;
	}
	if (rest && (!rt_parse_int(rest, &places) || places < 1))
		return false;
	rule->tie[rule->tie_steps].by = by;
	rule->tie[rule->tie_steps].places = places;
	snprintf(rule->tie[rule->tie_steps].name, sizeof rule->tie->name, "%s", name ? name : "");
	rule->tie_steps++;
	return true;
}

bool rt_tie_steps_read(const char *words, struct rt_rule *rule)
{
	rule->tie_steps = 0;
	for (words += strspn(words, " "); *words; words += strspn(words, " ")) {
		size_t n = strcspn(words, " ");
		char word[WORD_MOST];

		if (n >= sizeof word)
			return false;
		memcpy(word, words, n);
		word[n] = '\0';
		if (!read_tie_step(word, rule))
			return false;
		words += n;
	}
	return true;
}

void rt_tie_steps_words(const struct rt_rule *rule, char *out, size_t size)
{
	bool room = true;

	*out = '\0';
	for (size_t i = 0; i < rule->tie_steps && room; i++) {
		const char *name = has_name(rule->tie[i].by) ? rule->tie[i].name : "";
		char places[24] = "";

		if (rule->tie[i].places)
			snprintf(places, sizeof places, ":%" PRId64, rule->tie[i].places);
		room = rt_append(out, size, "%s%s%s%s%s", i ? " " : "",
				 rt_tie_break_words(rule->tie[i].by), *name ? ":" : "", name,
				 places);
	}
}

/* ---- what can be scored ---- */

static bool decimals_fit(int decimals, int least)
{
	return decimals >= least && decimals <= RT__DECIMALS_MOST;
}

static bool base_fits(const struct rt_rule *rule)
{
	if (rule->scale != RT_PENALTY_SCALE)
		return rule->base == 0;
	return rule->base >= 1 && rule->base <= RT__BASE_MOST;
}

static bool errors_fit(const struct rt_rule *rule)
{
	for (size_t i = 0; i < rule->error_steps; i++)
		if (rule->error[i].amount_x100 < 0 ||
		    rule->error[i].amount_x100 > RT__PENALTY_MOST_X100)
			return false;
	return rule->error_steps <= RT_ERROR_STEPS;
}

/* Whether the rule's limit for judges apart can be used. */
static enum rt_err check_apart(const struct rt_rule *rule, struct rt_error *err)
{
	if (rule->apart_x100 < 0 || rule->apart_x100 > RT_APART_MOST_X100)
		return rt_fail(err, RT_E_INPUT, "rule %s: apart is 0 to %d per cent points",
			       rule->name, RT_APART_MOST_X100 / 100);
	if (rule->apart_x100 && rule->judge_decimals == RT__POINTS_ADDED)
		return rt_fail(err, RT_E_INPUT,
			       "rule %s: apart needs judge_decimals, as added points have no "
			       "percentage of each judge",
			       rule->name);
	if (rule->apart_x100 && rule->apart_judges < RT__APART_JUDGES_LEAST)
		return rt_fail(err, RT_E_INPUT, "rule %s: apart_judges is %d or more", rule->name,
			       RT__APART_JUDGES_LEAST);
	return RT_OK;
}

enum rt_err rt_rule_check(const struct rt_rule *rule, struct rt_error *err)
{
	if (!decimals_fit(rule->judge_decimals, RT__POINTS_ADDED) ||
	    !decimals_fit(rule->percent_decimals, 0) || !decimals_fit(rule->score_decimals, 0))
		return rt_fail(err, RT_E_INPUT,
			       "rule %s: decimals are 0 to %d (judge_decimals also -1)", rule->name,
			       RT__DECIMALS_MOST);
	if (!base_fits(rule))
		return rt_fail(err, RT_E_INPUT,
			       "rule %s: base is 1 to %d for penalties, else 0", rule->name,
			       RT__BASE_MOST);
	if (!errors_fit(rule))
		return rt_fail(err, RT_E_INPUT, "rule %s: an error costs 0 to %d", rule->name,
			       RT__PENALTY_MOST_X100 / 100);
	if (rule->tie_steps > RT_TIE_STEPS)
		return rt_fail(err, RT_E_INPUT, "rule %s: at most %d tie-breaks", rule->name,
			       RT_TIE_STEPS);
	if (rule->taken == RT_TAKEN_PERCENT && rule->scale == RT_PENALTY_SCALE &&
	    rule->judge_decimals == RT__POINTS_ADDED)
		return rt_fail(err, RT_E_INPUT,
			       "rule %s: errors in percent need judge_decimals, as penalties from "
			       "added points have no percentage",
			       rule->name);
	return check_apart(rule, err);
}
