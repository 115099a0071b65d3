/* A locale for the tests of paper.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef PAPER_LOCALE_H
#define PAPER_LOCALE_H

/* Set the program's locale, without which the test fails: make check makes it. */
void paper_locale(const char *name);

#endif
