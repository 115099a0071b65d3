/* Lists of start times as they are printed: which lines stay.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

#include "../base/enum_words.h"

RT__ENUM_WORDS(start_list, "list", RT_START_LISTS)

static bool same_line(const struct rt_list_line *a, const struct rt_list_line *b)
{
	return a->entry == b->entry && strcmp(a->words, b->words) == 0;
}

bool rt_list_lines_same(const struct rt_list_lines *a, const struct rt_list_lines *b)
{
	bool same = a->n == b->n;

	for (size_t i = 0; i < a->n && same; i++)
		same = same_line(&a->at[i], &b->at[i]);
	return same;
}

bool rt_list_line_stands(const struct rt_list_lines *lines, const struct rt_list_line *line)
{
	bool stands = false;

	for (size_t i = 0; i < lines->n && !stands; i++)
		stands = same_line(&lines->at[i], line);
	return stands;
}

const struct rt_list_line *rt_list_line_of(const struct rt_list_lines *lines, int64_t entry)
{
	for (size_t i = 0; i < lines->n; i++)
		if (lines->at[i].entry == entry)
			return &lines->at[i];
	return NULL;
}

void rt_printed_list_free(struct rt_printed_list *list)
{
	RT_LIST_FREE(&list->lines);
	*list = (struct rt_printed_list){0};
}

void rt_printed_lists_free(struct rt_printed_lists *lists)
{
	for (size_t i = 0; i < lists->n; i++)
		rt_printed_list_free(&lists->at[i]);
	RT_LIST_FREE(lists);
}
