/* Files of start times: what is asked of classes, and wishes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* ---- places of a draw ------------------------------------------------------------------------ */

enum rt_err rt_read_draw_fixes(struct rt_draw_fixes *out, const struct rt_source *from,
			       struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_draw_fix_record};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}

/* ---- plan files ------------------------------------------------------------------------------ */

static void check_plan_row(struct rt__load *l, void *data)
{
	const struct rt_plan_row *row = data;

	if (!rt__fields_sound(l, "break_every break_after_s break_s"))
		;
	else if ((row->break_every || row->break_after_s) && !row->break_s)
		rt__row_fault(l, "break_s", "a break without its length: so many seconds");
	else if (row->break_s && !row->break_every && !row->break_after_s)
		rt__row_fault(l, "break_s",
			      "a break without its place: break_every or break_after_s");
	if (!row->harrow_every != !row->harrow_s && rt__fields_sound(l, "harrow_every harrow_s"))
		rt__row_fault(l, row->harrow_s ? "harrow_every" : "harrow_s",
			      "harrowing wants both harrow_every and harrow_s");
}

enum rt_err rt_read_plan_rows(struct rt_plan_rows *out, const struct rt_source *from,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	static const struct rt__file file = {&rt_plan_row_record,
					     RT__PLACED(struct rt_plan_row),
					     .names = {{"class", RT__CLASSES}, {"ring", RT__RINGS}},
					     .key = {"class"},
					     .once = "each class once",
					     .check = check_plan_row};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}

/* ---- wishes ---------------------------------------------------------------------------------- */

/* What a wish asks must hang together; the class of a wish about a class is its name. */
static void check_asked(struct rt__load *l, const struct rt_wish *w)
{
	bool times = w->not_before_s >= 0 || w->not_after_s >= 0;
	int64_t number;

	if (!times && !w->day && !w->after &&
	    rt__fields_sound(l, "about day not_before over_by after"))
		rt__row_fault(l, NULL, "asks nothing: day, not_before, over_by or after");
	if (w->not_before_s >= 0 && w->not_after_s >= 0 && w->not_before_s >= w->not_after_s)
		rt__row_fault(l, "over_by", "is no later than not_before");
	if (w->after && w->about != RT_WISH_CLASS)
		rt__row_fault(l, "after", "is for wishes about a class");
	else if (w->after && w->name && strcmp(w->after, w->name) == 0 &&
		 rt__fields_sound(l, "about"))
		rt__row_fault(l, "after", "a class cannot be after itself");
	if (w->about == RT_WISH_ENTRY && !w->class_name && rt__fields_sound(l, "class"))
		rt__row_fault(l, "class", "an entry is told by its class and number");
	if (w->about == RT_WISH_ENTRY && w->name && !rt_parse_int(w->name, &number))
		rt__row_fault(l, "name", "an entry's name is its number");
}

static void check_wish(struct rt__load *l, void *data)
{
	const struct rt_wish *w = data;

	if (w->about == RT_WISH_CLASS && rt__fields_sound(l, "about"))
		rt__known(l, &l->names[RT__CLASSES], "name", w->name);
	check_asked(l, w);
}

enum rt_err rt_read_wishes(struct rt_wishes *out, const struct rt_source *from,
			   const struct rt_roster *roster, struct rt_faults *faults,
			   struct rt_error *err)
{
	static const struct rt__file file = {
		&rt_wish_record, RT__PLACED(struct rt_wish),
		.names = {{"class", RT__CLASSES}, {"after", RT__CLASSES}}, .check = check_wish};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), roster, faults, err);

	return rt__load_all(&l, from);
}
