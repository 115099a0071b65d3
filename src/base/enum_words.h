/* base: the words of an enum and their reader, from the list that makes the enum.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_BASE_ENUM_WORDS_H
#define RT_BASE_ENUM_WORDS_H

#include <ringtrue/base.h>

/* The place of a word in words[0..n), a dash in it standing for a space too; n: it is none. */
size_t rt__word_find(const char *word, const char *const *words, size_t n);

#define RT__WORD(code, words) words,

/* rt_NAME_words of an enum rt_TYPE whose values count from 0 in the order of LIST. */
#define RT__ENUM_WORDS(name, type, list)                                                           \
	static const char *const name##_words[] = {list(RT__WORD)};                                \
                                                                                                   \
	const char *rt_##name##_words(enum rt_##type v)                                            \
	{                                                                                          \
		return name##_words[v];                                                            \
	}

/* The same and rt_NAME_read. */
#define RT__ENUM_WORDS_AND_READER(name, list)                                                      \
	RT__ENUM_WORDS(name, name, list)                                                           \
                                                                                                   \
	bool rt_##name##_read(const char *words, enum rt_##name *out)                              \
	{                                                                                          \
		size_t n = sizeof name##_words / sizeof *name##_words;                             \
		size_t i = rt__word_find(words, name##_words, n);                                  \
                                                                                                   \
		if (i < n)                                                                         \
			*out = (enum rt_##name)i;                                                  \
		return i < n;                                                                      \
	}

#endif
