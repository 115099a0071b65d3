/* Words over several lines.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define LONGEST 512 /* bytes of a line; a longer word is cut into pieces of that */

void rt__add_words(char *out, size_t size, const char *format, ...)
{
	size_t used = strlen(out), end = size - 1, last;
	va_list args;
	int wanted;

	va_start(args, format);
	wanted = vsnprintf(out + used, size - used, format, args);
	va_end(args);
	if (wanted < 0) /* nothing of it, then */
		end = used;
	else if ((size_t)wanted < size - used)
		return;
	last = end - (end > used);
	while (last > used && end - last < 4 && ((unsigned char)out[last] & 0xC0) == 0x80)
		last--;
	if (!rt_is_utf8(out + last, end - last))
		end = last;
	out[end] = '\0';
}

/* How many bytes of a word that is wider than a line fit on it: whole characters, one at least. */
static size_t cut_word(struct rt_sheet *sheet, const char *word, size_t bytes, double width_mm,
		       const struct rt_lettering *lettering)
{
	char piece[LONGEST];
	size_t fits = 0;

	for (size_t n = 1; n <= bytes; n++) {
		if (((unsigned char)word[n] & 0xC0) == 0x80)
			continue; /* inside a character */
		memcpy(piece, word, n);
		piece[n] = '\0';
		if (fits && rt_sheet_measure(sheet, piece, lettering).width_mm > width_mm)
			break;
		fits = n;
	}
	return fits;
}

/* How many bytes of words fit on a line: whole words, or a piece of one that is too long. */
static size_t fitting(struct rt_sheet *sheet, const char *words, double width_mm,
		      const struct rt_lettering *lettering)
{
	char line[LONGEST];
	size_t fits = 0;

	for (size_t n = 0; n < LONGEST - 1;) {
		n += strcspn(words + n, " ");
		if (n >= LONGEST)
			break;
		memcpy(line, words, n);
		line[n] = '\0';
		if (rt_sheet_measure(sheet, line, lettering).width_mm > width_mm)
			return fits ? fits : cut_word(sheet, words, n, width_mm, lettering);
		fits = n;
		if (!words[n])
			return n;
		n += strspn(words + n, " ");
	}
	return fits ? fits : cut_word(sheet, words, LONGEST - 1, width_mm, lettering);
}

double rt__set_lines(struct rt_sheet *sheet, const char *role, const char *words, double left_mm,
		     double top_mm, double width_mm, const struct rt_lettering *lettering,
		     bool draw)
{
	double line_mm = RT__LINE_MM * lettering->size_pt / RT__BODY_PT, down = 0.0;
	char line[LONGEST];

	words = rt_clean_line(&sheet->drawn.text, words);
	if (!words)
		sheet->nomem = true;
	while (words && *words) {
		size_t n = fitting(sheet, words, width_mm, lettering);

		memcpy(line, words, n);
		line[n] = '\0';
		if (draw)
			rt_sheet_text(sheet, role, line, left_mm, top_mm + down + 0.78 * line_mm,
				      lettering);
		down += line_mm;
		words += n;
		words += strspn(words, " ");
	}
	return down;
}
