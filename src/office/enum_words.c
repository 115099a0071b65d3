/* The words of the fixed choices in rules and entries, and their readers.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "../base/enum_words.h"

#include <ringtrue/office.h>

RT__ENUM_WORDS_ALSO(scale, "scale", RT_SCALES, {"per cent", "percent"}, {"%", "percent"},
		    {"percentage", "percent"}, {"penalty", "penalties"}, {"point", "points"},
		    {"ten", "tenths"}, {"of ten", "tenths"})
RT__ENUM_WORDS_ALSO(wins, "word", RT_WINS, {"high", "highest"}, {"low", "lowest"},
		    {"most", "highest"}, {"fewest", "lowest"})
RT__ENUM_WORDS_ALSO(entry_order, "order", RT_ENTRY_ORDERS, {"rider", "driver"},
		    {"entered", "arrival"})
RT__ENUM_WORDS_ALSO(number_holder, "word", RT_NUMBER_HOLDERS, {"rider", "driver"},
		    {"none", "nothing"}, {"nobody", "nothing"})
RT__ENUM_READER(number_holder)
RT__ENUM_WORDS_ALSO(taken, "word", RT_TAKEN, {"per cent", "percent"}, {"total", "points"})
RT__ENUM_WORDS_ALSO(tie_break, "tie-break", RT_TIE_BREAKS, {"collective", "general"},
		    {"collectives", "general"}, {"c", "president"})
RT__ENUM_READER(tie_break)
RT__ENUM_WORDS_ALSO(rounding, "word", RT_ROUNDINGS, {"round", "half-up"}, {"cut off", "cut"})
RT__ENUM_WORDS_ALSO(missing, "word", RT_MISSINGS, {"average", "mean"}, {"empty", "refuse"})
RT__ENUM_WORDS_ALSO(status, "status", RT_STATUSES, {"scratched", "withdrawn"},
		    {"scratch", "withdrawn"}, {"withdrew", "withdrawn"}, {"wd", "withdrawn"},
		    {"dns", "did not start"}, {"no show", "did not start"},
		    {"not started", "did not start"}, {"ret", "retired"}, {"el", "eliminated"},
		    {"elim", "eliminated"}, {"dq", "disqualified"}, {"dsq", "disqualified"})
RT__ENUM_WORDS_ALSO(item_group, "group", RT_ITEM_GROUPS, {"technical", "movement"},
		    {"collective", "general"}, {"quality", "artistic"})
RT__ENUM_WORDS(mark_kind, "line", RT_MARK_KINDS)
RT__ENUM_READER(mark_kind)
