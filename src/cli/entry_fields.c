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

enum rt_err cli_note_horses(struct cli *c, const struct rt_entries *all,
			    const struct rt_entry *entry)
{
	struct rt_strings horses = {0};
	enum rt_err e = rt_names_split(&horses, entry->horses, &c->err);

	for (size_t i = 0; i < all->n && !e; i++) {
		const struct rt_entry *other = &all->at[i];

		if (strcmp(other->class_name, entry->class_name) != 0 ||
		    rt_same_name(other->driver, entry->driver))
			continue;
		for (size_t h = 0; h < horses.n; h++)
			if (rt_names_hold(other->horses, horses.at[h]))
				rt_report_note(&c->report,
					       "%s goes in class %s with %s, number %lld, too.",
					       horses.at[h], other->class_name, other->driver,
					       (long long)other->number);
	}
	RT_LIST_FREE(&horses);
	return e;
}
