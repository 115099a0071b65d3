/* What a plan of the start times keeps to: the options of times plan, else the plan before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

/* Minutes as seconds, or off: -1. */
static enum rt_err read_gap(const struct rt_field *f, void *member, const char *s,
			    struct rt_arena **text, struct rt_error *err)
{
	int64_t minutes;

	(void)f;
	(void)text;
	if (strcmp(s, "off") == 0)
		*(int64_t *)member = -1;
	else if (!rt_parse_int(s, &minutes) || minutes < 0 || minutes > 1440)
		return rt_refuse(err, s, "is no gap", "whole minutes from 0 to 1440, or off");
	else
		*(int64_t *)member = minutes * 60;
	return RT_OK;
}

#define GAP(as)                                                                                    \
	RT_AT(struct cli_times_plan, gap_s[as]), .head = "MIN", .type = RT_OWN, .read = read_gap
#define PLAN(member) RT_AT(struct cli_times_plan, member)

const struct rt_field cli_times_plan_options[] = {
	{"class", PLAN(only), .type = RT_NAME, .is = RT_ARGUMENT},
	{"days", PLAN(days), .head = "N", .type = RT_INT, .low = 1, .high = RT_DAYS_MOST,
	 .help = "days of the show"},
	{"hours", PLAN(hours), .head = "FROM-TO", .type = RT_NAME,
	 .help = "first start and last finish of a day"},
	{"gap-driver", GAP(RT_SHARED_DRIVER), .help = "minutes between two starts, or off"},
	{"gap-horse", GAP(RT_SHARED_HORSE), .help = "the same of a horse"},
	{"gap-groom", GAP(RT_SHARED_GROOM), .help = "the same of a groom"},
	{"gap-carriage", GAP(RT_SHARED_CARRIAGE), .help = "the same of a carriage"},
	{"gap-judge", GAP(RT_SHARED_JUDGE), .help = "the same of a judge, between two rings"},
	{"change", PLAN(change_min), .head = "MIN", .type = RT_INT, .low = 0, .high = 240,
	 .help = "between two classes in a ring"},
	{"margin", PLAN(margin_s), .head = "S", .type = RT_INT, .low = 0, .high = 3600,
	 .help = "seconds beside the test and its ways (default 120)"},
	{"seconds", PLAN(seconds), .type = RT_BOOL, .help = "starts at half minutes too"},
	{"seed", PLAN(seed), .head = "N", .type = RT_INT, .low = 1, .high = RT_SEED_MOST,
	 .help = "of the search: another seed, another plan"},
	{"again", PLAN(again), .type = RT_BOOL,
	 .help = "classes that have begun, and delays that were said, too"},
	{"try", PLAN(trying), .type = RT_BOOL, .help = "show the plan and keep nothing"},
	CLI_WHY(struct cli_times_plan, why, 0),
	CLI_BY(struct cli_times_plan, by, 0),
};

/* --hours 8:00-18:00 */
static void hours_option(struct cli *c, const char *typed, struct rt_time_settings *s)
{
	char open[16] = "";
	size_t n = strcspn(typed, "-");

	if (n < sizeof open)
		memcpy(open, typed, n);
	if (typed[n] != '-' || !rt_time_read(open, &s->open_s) ||
	    !rt_time_read(typed + n + 1, &s->close_s))
		CLI_FAIL(c, RT_E_USAGE, "--hours: \"%s\": from and to, as 8:00-18:00", typed);
	else if (s->open_s >= s->close_s)
		CLI_FAIL(c, RT_E_USAGE,
			 "--hours: \"%s\" runs over midnight: both times are of one "
			 "day, the earlier first",
			 typed);
}

/* As many days as the plan rows and wishes name, unless it is said. */
static int64_t days_asked(const struct cli_times *in)
{
	int64_t days = in->planned ? in->settings.days : 1;

	for (size_t i = 0; i < in->rows.n; i++)
		days = in->rows.at[i].day > days ? in->rows.at[i].day : days;
	for (size_t i = 0; i < in->wishes.n; i++)
		days = in->wishes.at[i].day > days ? in->wishes.at[i].day : days;
	return days;
}

void cli_plan_settings(struct cli *c, const struct cli_times_plan *o, const struct cli_times *in,
		       struct rt_time_settings *s)
{
	*s = in->settings;
	s->days = o->days ? o->days : days_asked(in);
	if (o->hours)
		hours_option(c, o->hours, s);
	for (int i = 0; i < RT_SHARED_COUNT; i++)
		if (cli_given(c, &o->gap_s[i]))
			s->gap_s[i] = o->gap_s[i];
	if (cli_given(c, &o->change_min))
		s->change_s = o->change_min * 60;
	if (o->seed)
		s->seed = o->seed;
}
