/* Words of the fixed choices.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

RT__ENUM_WORDS_AND_READER(discipline, "discipline", RT_DISCIPLINES)
RT__ENUM_WORDS_AND_READER(side, "side", RT_SIDES)
