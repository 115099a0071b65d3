/* ringtrue: a true ring, true turns, true scores.
 *
 * Conventions, the same in every room:
 *  - A function that can fail returns enum rt_err: RT_OK (0) or a negative code.  Its last
 *    argument is the caller's struct rt_error, filled on failure; NULL is accepted there.
 *  - A `struct rt_T *out` is the caller's: release what it holds with rt_T_free, which takes
 *    an empty or half-built object too.  A returned `const T *` belongs to its parent.
 *  - Lists are plain arrays: `at`, with `n` elements; their strings live in the list's `text`.
 *  - Units stand in the names: _m metres, _s seconds, _deg degrees, _cm centimetres; a mark is
 *    a whole number of hundredths (_x100), a coefficient of thousandths (_x1000).
 *  - Nothing prints, exits, or keeps state of its own between calls.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_H
#define RINGTRUE_H

#include <ringtrue/base.h>
#include <ringtrue/check.h>
#include <ringtrue/drive.h>
#include <ringtrue/footing.h>
#include <ringtrue/intake.h>
#include <ringtrue/keying.h>
#include <ringtrue/office.h>
#include <ringtrue/paper.h>
#include <ringtrue/record.h>
#include <ringtrue/report.h>
#include <ringtrue/ring.h>
#include <ringtrue/route.h>
#include <ringtrue/scoring.h>
#include <ringtrue/series.h>
#include <ringtrue/setout.h>
#include <ringtrue/sheet.h>
#include <ringtrue/store.h>
#include <ringtrue/survey.h>
#include <ringtrue/sweep.h>
#include <ringtrue/times.h>

#endif
