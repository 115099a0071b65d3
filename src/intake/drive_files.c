/* Files of driving: gaits, levels, turnouts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

enum rt_err rt_read_gaits(struct rt_gaits *out, const struct rt_source *from,
			  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_gait_record, .key = {"gait"},
					     .once = "each gait once"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}

enum rt_err rt_read_levels(struct rt_levels *out, const struct rt_source *from,
			   const struct rt_roster *roster, struct rt_faults *faults,
			   struct rt_error *err)
{
	static const struct rt__file file = {&rt_level_record, .names = {{"gait", RT__GAITS}},
					     .key = {"discipline", "level"},
					     .once = "each level of a discipline once"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

enum rt_err rt_read_turnouts(struct rt_turnout_parts *out, const struct rt_source *from,
			     struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_turnout_part_record, .key = {"turnout", "part"},
					     .once = "each part of a turnout once"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}
