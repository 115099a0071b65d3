/* Words of enums: the place of one.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "enum_words.h"

static bool is_word(const char *typed, const char *word)
{
	for (; *typed && *word; typed++, word++)
		if (*typed != *word && !(*typed == '-' && *word == ' '))
			return false;
	return *typed == *word;
}

size_t rt__word_find(const char *word, const char *const *words, size_t n)
{
	size_t i = 0;

	while (i < n && !is_word(word, words[i]))
		i++;
	return i;
}
