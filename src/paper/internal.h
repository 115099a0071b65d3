/* What the files of paper share among themselves.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_PAPER_INTERNAL_H
#define RT_PAPER_INTERNAL_H

#include <locale.h>
#include <stdio.h>

#include <ringtrue/paper.h>

/* The locale of this thread while a library that works by locale is at work. */
struct rt__locale {
	locale_t made, before; /* made is 0 when nothing had to be changed */
};

/* A point in numbers, whatever the program has set.  Ended by rt__locale_leave. */
enum rt_err rt__locale_numbers(struct rt__locale *l, struct rt_error *err);
/* UTF-8 in text: the program's locale where that has it, else C.UTF-8, or C on a system that
 * has not got that either.  Ended by rt__locale_leave. */
enum rt_err rt__locale_text(struct rt__locale *l, struct rt_error *err);
void rt__locale_leave(struct rt__locale *l);

/* RT_OK when all that was written to out has gone out, else RT_E_IO. */
enum rt_err rt__stream_result(FILE *out, struct rt_error *err);

/* s as lines of at most `width` cells, parted by '\n': broken at spaces, never in a word;
 * lines after the first begin with `indent` spaces.  Tabs and line ends count as a space; other
 * text is cleaned first, as by rt_clean.  From the arena; NULL when memory is
 * out. */
const char *rt__wrap(struct rt_arena **a, const char *s, size_t width, size_t indent);

/* How many lines rt__wrap makes of s, whose words are parted by single spaces, without an
 * indent; width is at least 1. */
size_t rt__count_lines(const char *s, size_t width);

/* How many terminal cells the n bytes at s take. */
size_t rt__cells(const char *s, size_t n);

/* The cells of the widest of the words of s, which spaces part. */
size_t rt__widest_word(const char *s);

/* The unit to stand beside a column's head ("m", "ft", "s", "deg", "%"), or NULL for none. */
const char *rt__unit_beside(const struct rt_field *c, bool feet);

#endif
