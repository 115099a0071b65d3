/* base: errors, faults, lists, units and names.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_BASE_H
#define RINGTRUE_BASE_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define RT_API		     __attribute__((visibility("default")))
#define RT_PRINTF(fmt, args) __attribute__((format(printf, fmt, args)))
#else
#define RT_API
#define RT_PRINTF(fmt, args)
#endif
/* clang takes this on a type: every function that returns such an enum is told where its result is
 * left; (void) says that it is meant. */
#if defined(__clang__)
#define RT_MUST_USE __attribute__((warn_unused_result))
#else
#define RT_MUST_USE
#endif

/* An enum is made from the list of its codes and their words: enum rt_x { LIST(RT_ENUM_CODE) }. */
#define RT_ENUM_CODE(code, words) code,
/* And its words (struct rt_words of record.h), with the word of a code: "" for one that is none. */
#define RT_ENUM_WORDS(name)                                                                        \
	RT_API extern const struct rt_words rt_words_of_##name;                                    \
	RT_API const char *rt_##name##_words(enum rt_##name code)

/* ---- errors ------------------------------------------------------------------------------ */

/* Code, value and plain words of every error: one list. */
#define RT_ERRORS(X)                                                                               \
	X(RT_OK, 0, "done")                                                                        \
	X(RT_E_USAGE, -1, "bad usage")                                                             \
	X(RT_E_INPUT, -2, "bad input")                                                             \
	X(RT_E_NOTFOUND, -3, "not found")                                                          \
	X(RT_E_NOFIX, -4, "a peg is not fixed by the readings")                                    \
	X(RT_E_NUMERIC, -5, "the computation did not succeed")                                     \
	X(RT_E_NOMEM, -6, "out of memory")                                                         \
	X(RT_E_IO, -7, "reading or writing failed")                                                \
	X(RT_E_BUSY, -8, "busy")                                                                   \
	X(RT_E_STORE, -9, "the show file failed")                                                  \
	X(RT_E_FORMAT, -10, "not a show file, or of another version")

enum RT_MUST_USE rt_err {
#define RT_ENUM(code, value, words) code = value,
	RT_ERRORS(RT_ENUM)
#undef RT_ENUM
};

/* What went wrong, in the caller's own struct.  file, line and column are empty or 0 where
 * they do not apply.  Longer texts are cut. */
struct rt_error {
	enum rt_err code;
	char text[480];
	char file[256];
	long line;
	char column[64];
};

/* The plain words of a code; never NULL. */
RT_API const char *rt_err_words(enum rt_err code);

/* Fill err (NULL is accepted) with code and a printf text, without a place; returns code, so
 * that a function can end with `return rt_fail(err, ...)`. */
RT_API enum rt_err rt_fail(struct rt_error *err, enum rt_err code, const char *fmt, ...)
	RT_PRINTF(3, 4);

/* rt_fail for lack of memory. */
RT_API enum rt_err rt_fail_nomem(struct rt_error *err);

/* ---- arena: many small strings, freed at once -------------------------------------------- */

struct rt_arena;

/* Bytes from the arena *a, which is made at the first call where it is NULL; aligned for any
 * type, zeroed.  NULL when memory is out. */
RT_API void *rt_arena_take(struct rt_arena **a, size_t size);
/* A copy of the n bytes at s, ended by NUL.  NULL when memory is out. */
RT_API const char *rt_arena_copy(struct rt_arena **a, const char *s, size_t n);
/* A copy of the string s; NULL stays NULL. */
RT_API const char *rt_arena_string(struct rt_arena **a, const char *s);
/* A printf text; NULL when memory is out. */
RT_API const char *rt_arena_textf(struct rt_arena **a, const char *fmt, ...) RT_PRINTF(2, 3);
RT_API const char *rt_arena_vtextf(struct rt_arena **a, const char *fmt, va_list args)
	RT_PRINTF(2, 0);
/* Release everything that came from it; NULL is accepted. */
RT_API void rt_arena_free(struct rt_arena *a);

/* ---- lists ------------------------------------------------------------------------------- */

/* A growable array of `type`, whose strings live in `text`.  Start it zeroed. */
#define RT_LIST(type)                                                                              \
	{                                                                                          \
		type *at;                                                                          \
		size_t n, cap;                                                                     \
		struct rt_arena *text;                                                             \
	}

/* Make room for one more element and return it zeroed and counted, or NULL when memory is
 * out (the list stays as it was).  Used through RT_LIST_ADD. */
RT_API void *rt_list_add(void *at_field, size_t *n, size_t *cap, size_t size);
#define RT_LIST_ADD(list) rt_list_add(&(list)->at, &(list)->n, &(list)->cap, sizeof *(list)->at)

/* Release the array and its strings, leaving an empty list. */
RT_API void rt_list_clear(void *at_field, size_t *n, size_t *cap, struct rt_arena **text);
#define RT_LIST_FREE(list) rt_list_clear(&(list)->at, &(list)->n, &(list)->cap, &(list)->text)

struct rt_strings RT_LIST(const char *);

/* ---- map: from a name to a number -------------------------------------------------------- */

struct rt_map; /* keys are copied; made at the first rt_map_put where *m is NULL */

#define RT_MAP_NONE SIZE_MAX
/* Put key -> value (below RT_MAP_NONE).  Returns the value that was there before, or
 * RT_MAP_NONE; the older value stays when there was one.  *nomem is set when memory is out. */
RT_API size_t rt_map_put(struct rt_map **m, const char *key, size_t value, bool *nomem);
/* The value of key, or RT_MAP_NONE; m may be NULL. */
RT_API size_t rt_map_get(const struct rt_map *m, const char *key);
RT_API void rt_map_free(struct rt_map *m);

/* ---- faults of bad input ----------------------------------------------------------------- */

#define RT_FAULTS_KEPT 50 /* so many are listed; the others are counted */

struct rt_fault {
	const char *file;
	long line;	    /* 0: the file as a whole */
	const char *column; /* NULL: the row as a whole */
	const char *text;   /* "what is wrong: what is accepted" */
};

/* All faults of an import.  Start it zeroed; n is how many are kept, total how many there
 * were. */
struct rt_faults {
	struct rt_fault *at;
	size_t n, cap;
	struct rt_arena *text;
	size_t total;
	bool nomem; /* a fault could not be kept: treat as RT_E_NOMEM */
};

/* Note a fault; column may be NULL. */
RT_API void rt_fault(struct rt_faults *f, const char *file, long line, const char *column,
		     const char *fmt, ...) RT_PRINTF(5, 6);
RT_API void rt_faults_free(struct rt_faults *f);
/* RT_OK when there are none; else RT_E_INPUT, and err is the first one with its place. */
RT_API enum rt_err rt_faults_result(const struct rt_faults *f, struct rt_error *err);

/* ---- numbers and units ------------------------------------------------------------------- */

/* Read all of s as a finite decimal number with a point, whatever the locale.  false if s is
 * anything else (empty, trailing text, hex, "nan"). */
RT_API bool rt_parse_real(const char *s, double *out);
/* Read all of s as a whole decimal number. */
RT_API bool rt_parse_int(const char *s, int64_t *out);
/* Read s exactly as units of 10^-digits ("6.5" with digits 1 is 65).  false when s is no
 * plain decimal number or has more decimals than that ("6.55" with digits 1). */
RT_API bool rt_parse_decimal(const char *s, int digits, int64_t *out);
/* An animal's height in centimetres: 132cm, 1.32m, 13hh or 13.2hh (13 hands 2 inches; the
 * inches 0 to 3 after the point).  A hand is 4 inches, an inch 2.54 cm exactly.  A plain
 * number is centimetres.  Accepted: 40 cm to 220 cm. */
RT_API bool rt_parse_height(const char *s, double *cm);
#define RT_ANIMAL_LEAST_CM 40.0
#define RT_ANIMAL_MOST_CM  220.0
#define RT_HEIGHT_ACCEPTED                                                                         \
	"132cm, 1.32m, 13hh or 13.2hh (13 hands 2 inches; 0 to 3 inches), from 40 to 220 cm"
/* A length in metres as feet and inches: to the nearest inch, "131 ft 3 in"; under 10 ft to a
 * tenth of an inch, "0 ft 3.4 in". */
RT_API void rt_format_feet(double m, char *out, size_t size);
/* What a sentence shows: `rt_show(name).text`. */
struct rt_shown {
	char text[100];
};
/* Text in quotes, cut when long, control characters and stray bytes made visible. */
RT_API struct rt_shown rt_show(const char *s);
/* The same of a number. */
struct rt_shown_number {
	char text[40];
};
/* A length with its unit, "1.5 m": with the fewest decimals from least to most that are true to a
 * millimetre, or in feet and inches. */
RT_API struct rt_shown_number rt_show_length(double m, int least, int most, bool feet);
/* A length to be set out, as a tape shows it: "131 ft 3 in", "65 ft 7 1/2 in", to the nearest half
 * inch; or in metres to two decimals, "40.00 m". */
RT_API struct rt_shown_number rt_show_taped(double m, bool feet);
/* An angle: "89.98 deg". */
RT_API struct rt_shown_number rt_show_degrees(double deg);
/* v as rt_format_real has it. */
RT_API struct rt_shown_number rt_show_real(double v, int decimals);
/* v with so many decimals (0 to 17), point always '.', no "-0.00". */
RT_API void rt_format_real(double v, int decimals, char *out, size_t size);
/* v with the fewest digits that read back as v (at most 17), point always '.'. */
RT_API void rt_format_shortest(double v, char *out, size_t size);
/* units of 10^-digits (digits 0 to 18), exact: 4160 with digits 2 is "41.60". */
RT_API void rt_format_decimal(int64_t units, int digits, char *out, size_t size);
/* The same without needless zeros, but `least` decimals: 41600 with digits 4 is "4.16". */
RT_API void rt_format_short(int64_t units, int digits, int least, char *out, size_t size);
/* num/den, den > 0, rounded half up (towards plus infinity at the half). */
RT_API int64_t rt_round_half_up(int64_t num, int64_t den);
/* 10^n, n 0 to 18. */
RT_API int64_t rt_power_of_ten(int n);
/* The fewest decimals, from least on, that show units of 10^-digits exactly: 41600 with digits 4
 * needs 2. */
RT_API int rt_digits_needed(int64_t units, int digits, int least);
/* YYYY-MM-DD, a day that exists. */
RT_API bool rt_parse_day(const char *s);
/* The day so many days after a day, as YYYY-MM-DD; "" for no day. */
#define RT_DAY_SIZE 40
RT_API void rt_day_after(const char *day, int64_t days, char out[RT_DAY_SIZE]);
/* The number of a day, counted from some day long ago; what stands behind YYYY-MM-DD is passed
 * over; 0 for no day. */
RT_API int64_t rt_day_number(const char *day);
/* "Saturday"; "" for no day. */
RT_API const char *rt_weekday(const char *day);
/* YYYY-MM-DD, or with a time "YYYY-MM-DD HH:MM[:SS]" or with T between. */
RT_API bool rt_parse_when(const char *s);

/* Append to the text in out, which has room for size bytes; out is left as it is, and false is
 * told, where there is no room for all of it. */
RT_API bool rt_append(char *out, size_t size, const char *fmt, ...) RT_PRINTF(3, 4);

/* ---- names ------------------------------------------------------------------------------- */

/* A name folded for search and order: case and accents dropped, white space runs as one space
 * (Unicode NFKD with case folding and marks stripped, by utf8proc; letters that it leaves whole as
 * they are typed without them: o-slash as o, ae, oe, l-stroke as l, d-stroke and eth as d, thorn as
 * th, h-stroke as h, t-stroke as t, dotless i as i); bytes that are not UTF-8 stay what they are.
 * Yours, free() it; NULL when memory is out. */
RT_API char *rt_fold(const char *s);
/* Whether two names are of one person, horse or thing: both are given, and alike but for case,
 * accents and spaces. */
RT_API bool rt_same_name(const char *a, const char *b);
/* The next name of a list "Ferro; Nelio", n bytes without the spaces round it, empty ones passed
 * over; *names moves behind it.  NULL when there are no more. */
RT_API const char *rt_name_next(const char **names, size_t *n);
/* The names of a list typed anyhow, joined with "; " ("Ferro ;Nelio;" is "Ferro; Nelio").  joined
 * has room for twice the bytes of typed and one more. */
RT_API void rt_names_join(const char *typed, char *joined);
/* The names of a list appended to out, whose arena keeps them.  RT_E_NOMEM. */
RT_API enum rt_err rt_names_split(struct rt_strings *out, const char *names, struct rt_error *err);
/* Whether one of the names of a list is this one, as rt_same_name has it. */
RT_API bool rt_names_hold(const char *names, const char *name);
/* true when s is well-formed UTF-8. */
RT_API bool rt_is_utf8(const char *s, size_t n);
/* How many characters (code points) well-formed UTF-8 has. */
RT_API size_t rt_characters(const char *s);
/* What hinders n bytes from being plain text.  Line breaks and tabs are plain; other characters
 * below U+0020, U+007F to U+009F, and the code points that are no characters (U+FDD0 to U+FDEF,
 * U+FFFE and U+FFFF of each plane) are controls. */
enum rt_plain { RT_PLAIN, RT_PLAIN_NUL, RT_PLAIN_CONTROL, RT_PLAIN_NOT_UTF8 };
RT_API enum rt_plain rt_plain_text(const char *s, size_t n);
/* The text that may be shown of one that may be anything: U+FFFD stands for each byte that is not
 * UTF-8 and each control.  s itself where there is nothing to replace, else a copy from the arena;
 * NULL when memory is out. */
RT_API const char *rt_clean(struct rt_arena **a, const char *s);
/* The same on one line: a space stands for each tab and line break. */
RT_API const char *rt_clean_line(struct rt_arena **a, const char *s);
/* As rt_clean character by character: the n bytes to show for the next of s, which moves on; not
 * at the end of s. */
RT_API const char *rt_clean_next(const char **s, size_t *n);
/* Whether a spreadsheet would run a text of a CSV file as a formula: behind any apostrophes that
 * it begins with stands `=`, `+`, `-`, `@`, a tab or a carriage return.  Such a text is written
 * with one more apostrophe before it, and read without its first. */
RT_API bool rt_is_formula(const char *s);
/* A name (of a ring, driver, horse, club; a title) has at most so many characters. */
#define RT_NAME_MOST 200
/* How many terminal cells s takes (East Asian wide 2, combining 0). */
RT_API size_t rt_width(const char *s);
/* The word of words[0..n) nearest to `word` by edit distance (insert, delete, replace, swap of
 * neighbours: the optimal string alignment distance), or NULL when none is near enough to be
 * meant: further than a third of the longer word (1 in a short one), or nothing in common. */
RT_API const char *rt_nearest(const char *word, const char *const *words, size_t n);

/* ---- kinds of file ----------------------------------------------------------------------- */

/* Each kind of file that is told from others, and the words that say it. */
#define RT_FILE_KINDS(X)                                                                           \
	X(RT_FILE_EMPTY, "an empty file")                                                          \
	X(RT_FILE_PDF, "a PDF")                                                                    \
	X(RT_FILE_SVG, "an SVG drawing")                                                           \
	X(RT_FILE_WORKBOOK, "a workbook")                                                          \
	X(RT_FILE_SHOW, "a show file")                                                             \
	X(RT_FILE_DATABASE, "another program's database")                                          \
	X(RT_FILE_ARCHIVE, "an archive or another office document")                                \
	X(RT_FILE_TEXT, "a text or CSV file")                                                      \
	X(RT_FILE_OTHER, "a file of another kind")

enum rt_file_kind { RT_FILE_KINDS(RT_ENUM_CODE) };

#define RT_SHOW_FILE_ID 0x52547368 /* RTsh: the application id in a show file's header */

/* The kind of a file by its first n bytes and its last m: the more there are the surer, 4096 and
 * 65536 tell any. */
RT_API enum rt_file_kind rt_file_kind(const void *first, size_t n, const void *last, size_t m);
/* "a PDF"; never NULL. */
RT_ENUM_WORDS(file_kind);

/* The words under every estimate that touches safety. */
#define RT_CAUTION                                                                                 \
	"An estimate for planning. Footing, slope, harness and the animal decide; local rules "    \
	"and the officials on the ground come first."

#ifdef __cplusplus
}
#endif
#endif
