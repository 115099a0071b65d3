/* base: the words of an enum and their reader, from the list that makes the enum.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_BASE_ENUM_WORDS_H
#define RT_BASE_ENUM_WORDS_H

#include <ringtrue/record.h>

#define RT__WORD(code, words) words,

/* RT_ENUM_WORDS(name) of an enum whose values count from 0 in the order of list; what, also, alsos:
 * as in struct rt_words. */
#define RT__ENUM_WORDS_OF(name, what, list, also, alsos)                                           \
	static const char *const name##_words[] = {list(RT__WORD)};                                \
	const struct rt_words rt_words_of_##name = {                                               \
		what, name##_words, sizeof name##_words / sizeof *name##_words, also, alsos};      \
                                                                                                   \
	const char *rt_##name##_words(enum rt_##name code)                                         \
	{                                                                                          \
		return rt_word(&rt_words_of_##name, (int)code);                                    \
	}
#define RT__ENUM_WORDS(name, what, list) RT__ENUM_WORDS_OF(name, what, list, NULL, 0)
/* The same with words that mean one of them: {"scratched", "withdrawn"}. */
#define RT__ENUM_WORDS_ALSO(name, what, list, ...)                                                 \
	static const char *const name##_also[][2] = {__VA_ARGS__};                                 \
	RT__ENUM_WORDS_OF(name, what, list, name##_also, sizeof name##_also / sizeof *name##_also)

/* rt_NAME_read. */
#define RT__ENUM_READER(name)                                                                      \
	bool rt_##name##_read(const char *words, enum rt_##name *out)                              \
	{                                                                                          \
		int code;                                                                          \
		bool found = rt_word_read(&rt_words_of_##name, words, &code);                      \
                                                                                                   \
		if (found)                                                                         \
			*out = (enum rt_##name)code;                                               \
		return found;                                                                      \
	}

#endif
