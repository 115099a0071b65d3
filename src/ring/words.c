/* Words of the fixed choices.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

RT__ENUM_WORDS(discipline, "discipline", RT_DISCIPLINES)
RT__ENUM_WORDS(side, "side", RT_SIDES)
RT__ENUM_READER(side)
