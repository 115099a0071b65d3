/* Times of day and wishes in words, and the settings that hold unless said otherwise.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include "../base/enum_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* One or two digits below `below`; NULL when they are not there. */
static const char *read_two(const char *s, int64_t below, bool both, int64_t *out)
{
	int digits = 0;

	for (*out = 0; digits < 2 && *s >= '0' && *s <= '9'; s++, digits++)
		*out = *out * 10 + (*s - '0');
	return digits > (both ? 1 : 0) && *out < below ? s : NULL;
}

/* " AM" or "pm" behind an hour of twelve. */
static bool read_half(const char *s, int64_t *hours)
{
	bool afternoon;

	s += *s == ' ';
	afternoon = *s == 'p' || *s == 'P';
	if (*hours < 1 || *hours > 12 || !(afternoon || *s == 'a' || *s == 'A') ||
	    !(s[1] == 'm' || s[1] == 'M') || s[2])
		return false;
	*hours = *hours % 12 + (afternoon ? 12 : 0);
	return true;
}

bool rt_time_read(const char *words, int64_t *of_day_s)
{
	int64_t hours, minutes, seconds = 0;
	const char *s = read_two(words, 25, false, &hours);

	s = s && (*s == ':' || *s == '.') ? read_two(s + 1, 60, true, &minutes) : NULL;
	if (s && *s == ':')
		s = read_two(s + 1, 60, true, &seconds);
	if (!s || (*s && !read_half(s, &hours)))
		return false;
	*of_day_s = (hours * 60 + minutes) * 60 + seconds;
	return *of_day_s <= RT_DAY_S;
}

int64_t rt_day_of(int64_t at_s)
{
	return at_s / RT_DAY_S + 1;
}

void rt_time_words(int64_t at_s, int64_t day, char *out, size_t size)
{
	long long of_day = at_s - (day - 1) * RT_DAY_S;
	long long hours = of_day / 3600, minutes = of_day / 60 % 60, seconds = of_day % 60;

	if (seconds)
		snprintf(out, size, "%02lld:%02lld:%02lld", hours, minutes, seconds);
	else
		snprintf(out, size, "%02lld:%02lld", hours, minutes);
}

/* ---- fixed choices ---- */

RT__ENUM_WORDS(order, "order", RT_ORDERS)
RT__ENUM_WORDS(wish_about, "about", RT_WISH_ABOUT)
RT__ENUM_WORDS(pause, "pause", RT_PAUSES)
RT__ENUM_WORDS(shared, "shared", RT_SHARED)
RT__ENUM_WORDS(clash_kind, "clash", RT_CLASHES)

/* ---- wishes ---- */

static void add_time(char *out, size_t size, const char *lead, int64_t of_day_s)
{
	char words[16];

	rt_time_words(of_day_s, 1, words, sizeof words);
	rt_append(out, size, "%s%s", lead, words);
}

void rt_wish_words(const struct rt_wish *wish, char *out, size_t size)
{
	snprintf(out, size, "%s %s", rt_wish_about_words(wish->about), wish->name);
	if (wish->class_name)
		rt_append(out, size, " in class %s", wish->class_name);
	if (wish->not_before_s >= 0)
		add_time(out, size, " not before ", wish->not_before_s);
	if (wish->not_after_s >= 0)
		add_time(out, size, " over by ", wish->not_after_s);
	if (wish->after)
		rt_append(out, size, " after class %s", wish->after);
	if (wish->day)
		rt_append(out, size, " on day %lld", (long long)wish->day);
}

/* ---- settings and classes ---- */

void rt_time_settings_default(struct rt_time_settings *out)
{
	*out = (struct rt_time_settings){
		.days = 1,
		.open_s = 8 * 3600,
		.close_s = 18 * 3600,
		.gap_s = {[RT_SHARED_DRIVER] = 1200,
			  [RT_SHARED_HORSE] = 2400,
			  [RT_SHARED_GROOM] = 600,
			  [RT_SHARED_CARRIAGE] = 1200,
			  [RT_SHARED_JUDGE] = 600},
		.change_s = 600,
		.seed = 1,
	};
}

int64_t rt__step_up(int64_t s, int64_t step_s)
{
	return (s + step_s - 1) / step_s * step_s;
}

int64_t rt_interval_of(double route_s, int64_t margin_s)
{
	return (int64_t)ceil(route_s) + margin_s;
}

void rt_time_class_make(struct rt_time_class *out, const struct rt_plan_row *row,
			const struct rt_class *class_, int64_t interval_s, int64_t step_s)
{
	if (row->interval_s % RT_MINUTE_S)
		step_s = RT_STEP_S;
	*out = (struct rt_time_class){.class_ = class_,
				      .day = row->day,
				      .first_s = row->first_s,
				      .interval_s = rt__step_up(interval_s, step_s),
				      .break_every = row->break_every,
				      .break_s = rt__step_up(row->break_s, step_s),
				      .harrow_every = row->harrow_every,
				      .harrow_s = rt__step_up(row->harrow_s, step_s),
				      .step_s = step_s,
				      .free_order = row->order == RT_ORDER_FREE};
	if (row->break_after_s && out->interval_s) {
		int64_t every = (row->break_after_s + out->interval_s - 1) / out->interval_s;

		if (!out->break_every || every < out->break_every)
			out->break_every = every;
	}
	if (!out->break_s)
		out->break_every = 0;
	if (!out->harrow_s)
		out->harrow_every = 0;
}
