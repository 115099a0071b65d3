/* Words of the fixed choices.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

RT__ENUM_WORDS(fit, "fit", RT_FITS)
RT__ENUM_READER(fit)
RT__ENUM_WORDS(peg_verdict, "verdict", RT_PEG_VERDICTS)
RT__ENUM_WORDS(ring_verdict, "verdict", RT_RING_VERDICTS)
RT__ENUM_WORDS(shape, "shape", RT_SHAPES)
RT__ENUM_WORDS(shape_verdict, "verdict", RT_SHAPE_VERDICTS)
