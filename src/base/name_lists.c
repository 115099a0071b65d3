/* Names compared, and lists of names with semicolons between.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdlib.h>
#include <string.h>

bool rt_same_name(const char *a, const char *b)
{
	char *one, *other;
	bool same;

	if (!a || !b)
		return false;
	one = rt_fold(a);
	other = rt_fold(b);
	/* Where a name cannot be folded it is compared as it is. */
	same = strcmp(one && other ? one : a, one && other ? other : b) == 0;
	free(one);
	free(other);
	return same;
}

const char *rt_name_next(const char **names, size_t *n)
{
	const char *s = *names + strspn(*names, "; ");

	*n = strcspn(s, ";");
	*names = s + *n;
	while (*n && s[*n - 1] == ' ')
		--*n;
	return *n ? s : NULL;
}

void rt_names_join(const char *typed, char *joined)
{
	char *to = joined;
	size_t n;

	for (const char *s; (s = rt_name_next(&typed, &n)); to += n) {
		if (to > joined) {
			*to++ = ';';
			*to++ = ' ';
		}
		memcpy(to, s, n);
	}
	*to = '\0';
}

enum rt_err rt_names_split(struct rt_strings *out, const char *names, struct rt_error *err)
{
	size_t n;

	for (const char *s; (s = rt_name_next(&names, &n));) {
		const char **name = RT_LIST_ADD(out);

		if (!name || !(*name = rt_arena_copy(&out->text, s, n)))
			return rt_fail_nomem(err);
	}
	return RT_OK;
}

bool rt_names_hold(const char *names, const char *name)
{
	char *list = rt_fold(names), *one = rt_fold(name);
	const char *rest = list, *s;
	bool holds = false;
	size_t n;

	while (list && one && !holds && (s = rt_name_next(&rest, &n)))
		holds = strlen(one) == n && memcmp(s, one, n) == 0;
	free(list);
	free(one);
	return holds;
}
