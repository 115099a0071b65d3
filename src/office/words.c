/* The words of the office's fixed choices, and their readers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/office.h>

#include <string.h>

/* Whether said is the word; where dash is set a dash in it stands for a space too. */
static bool is_word(const char *said, const char *word, bool dash)
{
	for (; *said && *word; said++, word++)
		if (*said != *word && !(dash && *said == '-' && *word == ' '))
			return false;
	return *said == *word;
}

/* The place of what was said in words[0..n), or n. */
static size_t find_word(const char *said, const char *const *words, size_t n, bool dash)
{
	size_t i;

	for (i = 0; i < n && !is_word(said, words[i], dash); i++)
		;
	return i;
}

#define WORD(code, words) words,
#define COUNT(words)	  (sizeof(words) / sizeof *(words))

/* The pair rt_NAME_words and rt_NAME_read from the one list of the enum. */
#define WORDS_AND_READER(name, list, dash)                                                         \
	static const char *const name##_words[] = {list(WORD)};                                    \
                                                                                                   \
	const char *rt_##name##_words(enum rt_##name v)                                            \
	{                                                                                          \
		return name##_words[v];                                                            \
	}                                                                                          \
                                                                                                   \
	bool rt_##name##_read(const char *words, enum rt_##name *out)                              \
	{                                                                                          \
		size_t i = find_word(words, name##_words, COUNT(name##_words), dash);              \
                                                                                                   \
		if (i == COUNT(name##_words))                                                      \
			return false;                                                              \
		*out = (enum rt_##name)i;                                                          \
		return true;                                                                       \
	}

WORDS_AND_READER(scale, RT_SCALES, false)
WORDS_AND_READER(wins, RT_WINS, false)
WORDS_AND_READER(entry_order, RT_ENTRY_ORDERS, false)
WORDS_AND_READER(keep, RT_KEEPS, false)
WORDS_AND_READER(taken, RT_TAKEN, false)
WORDS_AND_READER(tie_break, RT_TIE_BREAKS, false)
WORDS_AND_READER(missing, RT_MISSINGS, false)
WORDS_AND_READER(status, RT_STATUSES, true)
WORDS_AND_READER(mark_kind, RT_MARK_KINDS, false)
WORDS_AND_READER(tally, RT_TALLIES, false)
WORDS_AND_READER(tally_of, RT_TALLY_OFS, false)
WORDS_AND_READER(tally_by, RT_TALLY_BYS, false)
WORDS_AND_READER(tally_ties, RT_TALLY_TIES, false)
WORDS_AND_READER(sheet_state, RT_SHEET_STATES, false)
