/* Files of championships, teams and scales of prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- championships --------------------------------------------------------------------------- */

#define CHAMPIONSHIP struct rt_championship

static const struct rt_field championship_columns[] = {
	{"championship", RT_AT(CHAMPIONSHIP, name), .type = RT_NAME},
	{"title", RT_AT(CHAMPIONSHIP, title), .type = RT_NAME},
	{"classes", RT_AT(CHAMPIONSHIP, classes), .type = RT_TEXT},
	{"count", RT_AT(CHAMPIONSHIP, tally), .type = RT_WORD, .words = &rt_words_of_tally,
	 .is = RT_OPTIONAL},
	{"of", RT_AT(CHAMPIONSHIP, of), .type = RT_WORD, .words = &rt_words_of_tally_of,
	 .is = RT_OPTIONAL},
	{"by", RT_AT(CHAMPIONSHIP, by), .type = RT_WORD, .words = &rt_words_of_tally_by,
	 .is = RT_OPTIONAL},
	{"ties", RT_AT(CHAMPIONSHIP, ties), .type = RT_WORD, .words = &rt_words_of_tally_ties,
	 .is = RT_OPTIONAL},
	{"dropped", RT_AT(CHAMPIONSHIP, dropped), .type = RT_INT, .low = 0, .high = 1000,
	 .is = RT_OPTIONAL},
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
	static const struct rt_record record = {RT_FIELDS(championship_columns),
						.size = sizeof blank, .blank = &blank};
	static const struct rt__file file = {&record, check_championship, NULL};
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

static const struct rt_field team_columns[] = {
	{"team", RT_AT(struct rt_team_member, team), .type = RT_NAME},
	{"class", RT_AT(struct rt_team_member, class_name), .type = RT_NAME},
	{"number", RT_AT(struct rt_team_member, number), .type = RT_INT, .low = 1, .high = 99999},
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
	static const struct rt_record record = {RT_FIELDS(team_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_member, NULL};
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

static const struct rt_field prize_columns[] = {
	{"scale", RT_AT(struct rt_prize_step, scale), .type = RT_NAME},
	{"starters", RT_AT(struct rt_prize_step, starters), .type = RT_INT, .low = 1, .high = 9999},
	{"place", RT_AT(struct rt_prize_step, place), .type = RT_INT, .low = 1, .high = 999},
	{"amount", RT_AT(struct rt_prize_step, amount_x100), .type = RT_DECIMAL, .low = 0,
	 .high = 1e7, .decimals = 2},
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
	static const struct rt_record record = {RT_FIELDS(prize_columns), .size = sizeof blank,
						.blank = &blank};
	static const struct rt__file file = {&record, check_prize, NULL};
	struct series_load self = {0};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(self.seen);
	return rc;
}
