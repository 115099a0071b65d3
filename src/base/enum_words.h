/* base: the words of an enum and their reader, from the list that makes the enum.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_BASE_ENUM_WORDS_H
#define RT_BASE_ENUM_WORDS_H

#include <ringtrue/record.h>

#define RT__WORD(code, words) words,

/* rt_words_of_NAME and rt_NAME_words of an enum rt_TYPE whose values count from 0 in the order of
 * LIST; what: as faults call it; also, alsos: as in struct rt_words. */
#define RT__ENUM_WORDS_ALSO(name, type, what, list, also, alsos)                                   \
	static const char *const name##_words[] = {list(RT__WORD)};                                \
	const struct rt_words rt_words_of_##name = {                                               \
		what, name##_words, sizeof name##_words / sizeof *name##_words, also, alsos};      \
                                                                                                   \
	const char *rt_##name##_words(enum rt_##type v)                                            \
	{                                                                                          \
		return rt_word(&rt_words_of_##name, (int)v);                                       \
	}
#define RT__ENUM_WORDS(name, type, what, list) RT__ENUM_WORDS_ALSO(name, type, what, list, NULL, 0)

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

/* The words and their reader; the words too that mean one of them: {"scratched", "withdrawn"}. */
#define RT__ENUM_WORDS_AND_READER(name, what, list)                                                \
	RT__ENUM_WORDS(name, name, what, list)                                                     \
	RT__ENUM_READER(name)
#define RT__ENUM_WORDS_AND_READER_ALSO(name, what, list, ...)                                      \
	static const char *const name##_also[][2] = {__VA_ARGS__};                                 \
	RT__ENUM_WORDS_ALSO(name, name, what, list, name##_also,                                   \
			    sizeof name##_also / sizeof *name##_also)                              \
	RT__ENUM_READER(name)

#endif
