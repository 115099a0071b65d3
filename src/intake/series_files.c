/* Files of championships, teams and scales of prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- championships --------------------------------------------------------------------------- */

static bool read_tally(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_TALLIES(RT__WORD)};

	return rt__is_word(l, "way to count", s, rt_tally_read(s, field), words, RT__COUNT(words));
}

static bool read_of(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_TALLY_OFS(RT__WORD)};

	return rt__is_word(l, "result", s, rt_tally_of_read(s, field), words, RT__COUNT(words));
}

static bool read_by(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_TALLY_BYS(RT__WORD)};

	return rt__is_word(l, "competitor", s, rt_tally_by_read(s, field), words, RT__COUNT(words));
}

static bool read_ties(struct rt__load *l, const char *s, void *field)
{
	static const char *const words[] = {RT_TALLY_TIES(RT__WORD)};

	return rt__is_word(l, "tie-break", s, rt_tally_ties_read(s, field), words,
			   RT__COUNT(words));
}

#define CHAMPIONSHIP struct rt_championship

static const struct rt__column championship_columns[] = {
	{RT__COLUMN("championship", rt__cell_name, CHAMPIONSHIP, name)},
	{RT__COLUMN("title", rt__cell_name, CHAMPIONSHIP, title)},
	{RT__COLUMN("classes", rt__cell_text, CHAMPIONSHIP, classes)},
	{RT__COLUMN("count", read_tally, CHAMPIONSHIP, tally), .optional = true},
	{RT__COLUMN("of", read_of, CHAMPIONSHIP, of), .optional = true},
	{RT__COLUMN("by", read_by, CHAMPIONSHIP, by), .optional = true},
	{RT__COLUMN("ties", read_ties, CHAMPIONSHIP, ties), .optional = true},
	{RT__COLUMN("dropped", rt__cell_whole, CHAMPIONSHIP, dropped), .low = 0, .high = 1000,
	 .optional = true},
};

struct series_load {
	struct rt__names classes;
	struct rt_map *seen;
};

/* Every class of the list is known and stands once, and one is left that counts. */
static void check_list(struct rt__load *l, const struct rt_championship *row)
{
	const struct series_load *self = l->self;
	struct rt_strings names = {0};
	struct rt_map *seen = NULL;

	if (rt_names_split(&names, row->classes, NULL) != RT_OK)
		l->nomem = true;
	for (size_t i = 0; i < names.n; i++) {
		rt__known(l, &self->classes, "classes", names.at[i]);
		if (rt_map_put(&seen, names.at[i], i, &l->nomem) != RT_MAP_NONE)
			rt__row_fault(l, "classes", "class %s is there twice: each class once",
				      rt_show(names.at[i]).text);
	}
	if (names.n <= (size_t)row->dropped)
		rt__row_fault(l, row->dropped ? "dropped" : "classes",
			      "%zu classes, %" PRId64 " dropped: one at least must count", names.n,
			      row->dropped);
	rt_map_free(seen);
	RT_LIST_FREE(&names);
}

static void check_championship(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_championship *row = data;

	rt__doubled(l, &self->seen, "championship", row->name, row->name, "each championship once");
	if (row->classes)
		check_list(l, row);
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_championships(struct rt_championships *out, const char *path,
				  const struct rt_roster *roster, struct rt_faults *faults,
				  struct rt_error *err)
{
	static const struct rt_championship blank = {0};
	static const struct rt__file file = {championship_columns, RT__COUNT(championship_columns),
					     sizeof blank,	   &blank,
					     check_championship,   NULL};
	struct series_load self = {.classes.what = "class"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.classes, rt__roster(roster)->classes);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.classes);
	rt_map_free(self.seen);
	return rc;
}

/* ---- teams ----------------------------------------------------------------------------------- */

static const struct rt__column team_columns[] = {
	{RT__COLUMN("team", rt__cell_name, struct rt_team_member, team)},
	{RT__COLUMN("class", rt__cell_name, struct rt_team_member, class_name)},
	{RT__COLUMN("number", rt__cell_whole, struct rt_team_member, number), .low = 1,
	 .high = 99999},
};

static void check_member(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_team_member *row = data;

	rt__known(l, &self->classes, "class", row->class_name);
	rt__doubled_number(l, &self->seen, row->class_name, row->number, "an entry is in one team");
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_team_members(struct rt_team_members *out, const char *path,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	static const struct rt_team_member blank = {0};
	static const struct rt__file file = {
		team_columns, RT__COUNT(team_columns), sizeof blank, &blank, check_member, NULL};
	struct series_load self = {.classes.what = "class"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.classes, rt__roster(roster)->classes);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.classes);
	rt_map_free(self.seen);
	return rc;
}

/* ---- scales of prizes ------------------------------------------------------------------------ */

static const struct rt__column prize_columns[] = {
	{RT__COLUMN("scale", rt__cell_name, struct rt_prize_step, scale)},
	{RT__COLUMN("starters", rt__cell_whole, struct rt_prize_step, starters), .low = 1,
	 .high = 9999},
	{RT__COLUMN("place", rt__cell_whole, struct rt_prize_step, place), .low = 1, .high = 999},
	{RT__COLUMN("amount", rt__cell_decimal, struct rt_prize_step, amount_x100), .low = 0,
	 .high = 1e7, .digits = 2},
};

static void check_prize(struct rt__load *l, void *data)
{
	struct series_load *self = l->self;
	struct rt_prize_step *row = data;
	char step[60];

	snprintf(step, sizeof step, "place %" PRId64 " from %" PRId64 " starters", row->place,
		 row->starters);
	if (row->scale && row->place && row->starters)
		rt__doubled(l, &self->seen, "place", rt__key(l, step, row->scale), step,
			    "each place of a step once");
	row->file = rt__load_path(l);
	row->line = l->line;
}

enum rt_err rt_read_prize_steps(struct rt_prize_steps *out, const char *path,
				struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt_prize_step blank = {0};
	static const struct rt__file file = {
		prize_columns, RT__COUNT(prize_columns), sizeof blank, &blank, check_prize, NULL};
	struct series_load self = {0};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(self.seen);
	return rc;
}
