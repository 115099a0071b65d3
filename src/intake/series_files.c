/* Files of championships, teams and scales of prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>

/* ---- championships --------------------------------------------------------------------------- */

/* Every class of the list is known and stands once, and one is left that counts. */
static void check_championship(struct rt__load *l, void *data)
{
	const struct rt_championship *row = data;
	struct rt_strings names = {0};
	struct rt_map *seen = NULL;

	if (!row->classes)
		return;
	if (rt_names_split(&names, row->classes, NULL) != RT_OK)
		l->nomem = true;
	for (size_t i = 0; i < names.n; i++) {
		rt__known(l, &l->names[RT__CLASSES], "classes", names.at[i]);
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

enum rt_err rt_read_championships(struct rt_championships *out, const struct rt_source *from,
				  const struct rt_roster *roster, struct rt_faults *faults,
				  struct rt_error *err)
{
	static const struct rt__file file = {
		&rt_championship_record, RT__PLACED(struct rt_championship),
		.key = {"championship"}, .once = "each championship once",
		.check = check_championship};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

/* ---- teams ----------------------------------------------------------------------------------- */

enum rt_err rt_read_team_members(struct rt_team_members *out, const struct rt_source *from,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	static const struct rt__file file = {
		&rt_team_member_record, RT__PLACED(struct rt_team_member),
		.names = {{"class", RT__CLASSES}}, .key = {"class", "number"},
		.once = "an entry is in one team"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

/* ---- scales of prizes ------------------------------------------------------------------------ */

/* A place by itself says little: the fault tells its step too. */
static void check_step(struct rt__load *l, void *data)
{
	const struct rt_prize_step *row = data;
	char step[60], key[RT__KEY_SIZE];

	if (!rt__fields_sound(l, "scale starters place"))
		return;
	snprintf(step, sizeof step, "place %" PRId64 " from %" PRId64 " starters", row->place,
		 row->starters);
	snprintf(key, sizeof key, "%s\n%s", step, row->scale);
	rt__check_once(l, "place", key, step, "each place of a step once");
}

enum rt_err rt_read_prize_steps(struct rt_prize_steps *out, const struct rt_source *from,
				struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_prize_step_record,
					     RT__PLACED(struct rt_prize_step), .check = check_step};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}
