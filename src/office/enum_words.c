/* The words of the fixed choices in rules and entries, and their readers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "../base/enum_words.h"

#include <ringtrue/office.h>

RT__ENUM_WORDS_AND_READER(scale, "scale", RT_SCALES)
RT__ENUM_WORDS_AND_READER(wins, "word", RT_WINS)
RT__ENUM_WORDS_AND_READER(entry_order, "order", RT_ENTRY_ORDERS)
RT__ENUM_WORDS_AND_READER(number_holder, "word", RT_NUMBER_HOLDERS)
RT__ENUM_WORDS_AND_READER(taken, "word", RT_TAKEN)
RT__ENUM_WORDS_AND_READER(tie_break, "tie-break", RT_TIE_BREAKS)
RT__ENUM_WORDS_AND_READER(missing, "word", RT_MISSINGS)
RT__ENUM_WORDS_AND_READER(status, "status", RT_STATUSES)
