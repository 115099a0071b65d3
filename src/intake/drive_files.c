/* Files of driving: levels, gaits, turnouts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "files.h"

#include <stdio.h>
#include <string.h>

/* ---- gaits ----------------------------------------------------------------------------------- */

static void check_gait(struct rt__load *l, void *data)
{
	const struct rt_gait *row = data;

	rt__doubled(l, l->self, "gait", row->name, row->name, "each gait once");
}

enum rt_err rt_read_gaits(struct rt_gaits *out, const char *path, struct rt_faults *faults,
			  struct rt_error *err)
{
	static const struct rt__file file = {&rt_gait_record, check_gait, NULL};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}

/* ---- levels ---------------------------------------------------------------------------------- */

struct level_load {
	struct rt__names gaits;
	struct rt_map *seen; /* line, by level and discipline */
};

static void check_level(struct rt__load *l, void *data)
{
	struct level_load *self = l->self;
	const struct rt_level *row = data;

	rt__known(l, &self->gaits, "gait", row->gait);
	if (row->name && row->discipline != RT_NO_DISCIPLINE)
		rt__doubled(l, &self->seen, "level",
			    rt__key(l, row->name, rt_discipline_words(row->discipline)), row->name,
			    "each level of a discipline once");
}

enum rt_err rt_read_levels(struct rt_levels *out, const char *path, const struct rt_roster *roster,
			   struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_level_record, check_level, NULL};
	struct level_load self = {.gaits.what = "gait"};
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &self, .list = RT__LIST(out)};
	enum rt_err rc;

	RT__NAMES_FROM(&self.gaits, rt__roster(roster)->gaits);
	rc = rt__load_all(&l, path);
	rt__names_free(&self.gaits);
	rt_map_free(self.seen);
	return rc;
}

void rt__check_level(struct rt__load *l, const struct rt_roster *roster, const char *kind_name,
		     const char *level)
{
	const struct rt_ring_kind *kind = NULL;
	struct rt__names names = {0};
	char what[32] = "level";

	if (!level || !roster->levels)
		return;
	if (kind_name && roster->kinds)
		kind = rt_ring_kind_find(roster->kinds, kind_name);
	for (size_t i = 0; i < roster->levels->n; i++)
		if (!kind || roster->levels->at[i].discipline == kind->discipline)
			rt__names_add(&names, roster->levels->at[i].name);
	if (kind)
		snprintf(what, sizeof what, "%s level", rt_discipline_words(kind->discipline));
	names.what = what;
	rt__known(l, &names, "level", level);
	rt__names_free(&names);
}

/* ---- turnouts -------------------------------------------------------------------------------- */

static void check_turnout_part(struct rt__load *l, void *data)
{
	const struct rt_turnout_part *row = data;

	if (row->turnout && row->part)
		rt__doubled(l, l->self, "part", rt__key(l, row->turnout, row->part), row->part,
			    "each part of a turnout once");
}

enum rt_err rt_read_turnouts(struct rt_turnout_parts *out, const char *path,
			     struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_turnout_part_record, check_turnout_part, NULL};
	struct rt_map *seen = NULL;
	struct rt__load l = {
		.file = &file, .faults = faults, .err = err, .self = &seen, .list = RT__LIST(out)};
	enum rt_err rc = rt__load_all(&l, path);

	rt_map_free(seen);
	return rc;
}
