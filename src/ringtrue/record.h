/* record: one constant a kind of row.
 *
 * A field tells all that is known of a column: what it is called, how it is held in its row's
 * struct, what is accepted, how it is headed and explained.  From the fields of a record come the
 * reader of its CSV file and its template, the parameters and columns of its statements in the
 * show file, its table in a report, the options of a command, and what help says of them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_RECORD_H
#define RINGTRUE_RECORD_H

#include <ringtrue/base.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- words ------------------------------------------------------------------------------- */

/* The words of an enum, in the order of its codes, which count from 0.  also: other words that
 * are understood, in pairs: the word, and the one that it means. */
struct rt_words {
	const char *what; /* "status": of the fault of a word that is none of them */
	const char *const *word;
	size_t words;
	const char *const (*also)[2];
	size_t alsos;
};

/* Reads a word, its case ignored, a dash or underscore for a space too; false when it is none
 * (*out is left alone). */
RT_API bool rt_word_read(const struct rt_words *words, const char *s, int *out);
/* The word of a code; "" for a code that is none. */
RT_API const char *rt_word(const struct rt_words *words, int code);
/* The words in a sentence: "a, b or c". */
RT_API void rt_words_list(const struct rt_words *words, char *out, size_t size);

/* The word of words[0..n) that was meant: the same but for case and accents, or the nearest;
 * NULL: none is near. */
RT_API const char *rt_meant(const char *word, const char *const *words, size_t n);

/* Names in a row, as "a, b, c", cut with dots after about 200 bytes; "there is none". */
#define RT_LISTED_SIZE 224
RT_API void rt_list_names(const char *const *names, size_t n, char out[RT_LISTED_SIZE]);

/* RT_E_NOTFOUND for a name that is none of names[0..n): what fmt says, then `: did you mean
 * "NAME"?`, or where none is near `: OTHERWISE` (NULL: the names there are). */
RT_API enum rt_err rt_fail_unknown(struct rt_error *err, const char *name, const char *const *names,
				   size_t n, const char *otherwise, const char *fmt, ...)
	RT_PRINTF(6, 7);

/* ---- fields ------------------------------------------------------------------------------ */

/* What a field is, and how the struct holds it.  Numbers that are not given are as in the
 * record's blank row. */
enum rt_type {
	RT_TEXT,    /* const char *: plain text; NULL: none */
	RT_INT,	    /* int64_t */
	RT_REAL,    /* double; NaN: none */
	RT_DECIMAL, /* int64_t: units of 10^-decimals */
	RT_BOOL,    /* bool: yes or no */
	RT_NAME,    /* const char *: on one line, of at most RT_NAME_MOST characters */
	RT_NAMES,   /* const char *: names joined with "; " */
	RT_LETTERS, /* const char *: letters with a space between */
	RT_SMALL,   /* int */
	RT_SIZE,    /* size_t */
	RT_HEIGHT,  /* double: of an animal in cm, typed in hands too; NaN: none */
	RT_CHARS,   /* char[]: a text for a report; "": none */
	RT_EXACT,   /* struct rt_exact: an RT_DECIMAL whose decimals the row says */
	RT_WORD,    /* an enum, by its words; a code that is none: nothing */
	RT_OWN	    /* as its own functions read and write it, text to everybody else */
};

/* units of 10^-digits, where there is a number. */
struct rt_exact {
	bool there;
	int64_t units;
	int digits;
};

RT_API struct rt_exact rt_exact(int64_t units, int digits);
/* The same with the fewest digits, from least on, that tell it whole. */
RT_API struct rt_exact rt_exact_short(int64_t units, int digits, int least);

/* RT_TAPED: metres too, of a length to be set out: in feet to half an inch.  RT_PART: a part of 1,
 * which a report tells in per cent. */
enum rt_unit { RT_NO_UNIT, RT_METRE, RT_TAPED, RT_SECOND, RT_DEGREE, RT_PERCENT, RT_PART };

/* Whether and where a field is to be had. */
enum {
	RT_KEY = 1,	 /* with the other keys it names the row */
	RT_EMPTY = 2,	 /* may be empty in a file */
	RT_OPTIONAL = 4, /* its column may be missing in a file, too */
	RT_USUAL = 8,	 /* what is not given is the blank row's value; else it is none */
	RT_OF_SHOW = 16, /* what the show adds: no file is asked for it, and one that has it is read
			  * without it */
	RT_UNSEEN = 32,	 /* in no report */
	RT_PERSON = 64,	 /* somebody, who cannot be in two places at once */
	RT_SOUGHT = 128, /* looked into when entries are searched by a word */
	RT_REQUIRED = 256, /* of a command: must be given */
	RT_ARGUMENT = 512, /* of a command: without its name, in the order of the fields */
	RT_MANY = 1024	   /* of a command: may be given many times: struct rt_strings; of the
			    * arguments behind it each is one word, the last ones of the line */
};

struct rt_field {
	const char *name; /* of the column in CSV, in JSON and in the show file */
	const char *head; /* over the column in text; NULL: the name, spaces for underscores */
	enum rt_type type;
	enum rt_unit unit;
	int decimals; /* of an RT_REAL, in text; of an RT_DECIMAL: how many units have; else 0 */
	/* left out of text at 80 columns, as is a table of such columns only; CSV and JSON always
	 * have it */
	bool wide;
	size_t offset;	      /* in the row's struct */
	size_t through;	      /* not 0: in the struct that a pointer there, RT_IN, points to */
	unsigned is;	      /* RT_KEY and its like */
	const char *also;     /* other names of the column, commas between; NULL: none */
	const char *help;     /* a line: what it says */
	double low, high;     /* of a number, both accepted; both 0: any */
	const char *accepted; /* what is accepted, in words, unless that is told by the rest */
	const char
		*measure; /* the unit of a number in words ("m", "per cent points"); NULL: none */
	const struct rt_words *words;
	const char *kept;	/* its name in the show file where that is another */
	const char *example[2]; /* in the rows of a template; NULL: empty */
	/* read: as rt_member_read and instead of it; of an RT_OWN always there.  write: of an
	 * RT_OWN, its text, in out where it must be made; NULL: none. */
	enum rt_err (*read)(const struct rt_field *f, void *member, const char *s,
			    struct rt_arena **text, struct rt_error *err);
	const char *(*write)(const struct rt_field *f, const void *member, char *out, size_t size);
};

/* The member of a struct that a field is: `RT_AT(struct rt_entry, driver), .type = RT_NAME`. */
#define RT_AT(type_, member_) .offset = offsetof(type_, member_)
/* A field that is a word of an enum: `RT_WORD_OF(side)`. */
#define RT_WORD_OF(enum_) .type = RT_WORD, .words = &rt_words_of_##enum_
/* Fields that are real numbers, with so many decimals in text: `RT_METRES(2)`. */
#define RT_REALS(unit_, places) .type = RT_REAL, .unit = (unit_), .decimals = (places)
#define RT_NUMBERS(places)	RT_REALS(RT_NO_UNIT, places)
#define RT_METRES(places)	RT_REALS(RT_METRE, places)
#define RT_TAPES(places)	RT_REALS(RT_TAPED, places)
#define RT_SECONDS(places)	RT_REALS(RT_SECOND, places)
#define RT_DEGREES(places)	RT_REALS(RT_DEGREE, places)
#define RT_PARTS(places)	RT_REALS(RT_PART, places)

/* The same where the row only points to the struct, for reports: `RT_IN(struct rt_result, entry,
 * struct rt_entry, driver)`.  Nothing where the pointer is NULL. */
#define RT_IN(type_, pointer_, pointed_, member_)                                                  \
	.through = offsetof(type_, pointer_) + 1, RT_AT(pointed_, member_)

/* A kind of row. */
struct rt_record {
	const char *name;  /* one of them: "entry" */
	const char *many;  /* the key of its table in JSON: "entries" */
	const char *title; /* over its table in text; NULL: none */
	const struct rt_field *field;
	size_t fields;
	size_t size;	   /* of the struct */
	const void *blank; /* the row of which nothing is known; NULL: all zero */
	const char *help;  /* what a row is, and what concerns several columns; NULL: nothing */
};

#define RT_FIELDS(array) .field = (array), .fields = sizeof(array) / sizeof *(array)
/* A table of a report: its key, its title, its fields and the struct of its rows. */
#define RT_TABLE(many_, title_, array, type_)                                                      \
	{                                                                                          \
		.many = (many_), .title = (title_), RT_FIELDS(array), .size = sizeof(type_)        \
	}

/* What a value of the type is to those who print it: RT_TEXT, RT_INT, RT_REAL, RT_DECIMAL or
 * RT_BOOL. */
RT_API enum rt_type rt_type_shown(enum rt_type type);
/* The head of a field, in out where it is made of the name. */
RT_API const char *rt_field_head(const struct rt_field *f, char out[64]);
/* Whether name is the field's, or another of its names. */
RT_API bool rt_field_called(const struct rt_field *f, const char *name);
/* The same of a heading in a file: in capitals or not, with spaces or dashes for underscores. */
RT_API bool rt_field_headed(const struct rt_field *f, const char *heading);
/* What a field accepts: "a whole number from 1 to 99999", "yes or no"; "" for any text. */
RT_API void rt_field_accepts(const struct rt_field *f, char *out, size_t size);

/* A value apart from its struct. */
struct rt_value {
	bool null;
	union {
		const char *text;
		int64_t whole; /* RT_INT; RT_DECIMAL: units of 10^-digits */
		double real;
		bool truth;
	} as;
	int digits; /* of an RT_DECIMAL */
};

/* The text of a value that its field writes itself is made in such a room. */
#define RT_OWN_SIZE 512

/* Read a text (not empty) into its field of row; strings from *text, or s itself where text is
 * NULL.  RT_E_INPUT: err says `"TEXT" is wrong: what is accepted`, and the row is as it was. */
RT_API enum rt_err rt_field_read(const struct rt_field *f, void *row, const char *s,
				 struct rt_arena **text, struct rt_error *err);
/* The same as the type has it, into the member of a row: for those who read a field themselves. */
RT_API enum rt_err rt_member_read(const struct rt_field *f, void *member, const char *s,
				  struct rt_arena **text, struct rt_error *err);
/* The same of any text, as it stands, whatever the field's type: of a list whose names go by their
 * places, or of any length. */
RT_API enum rt_err rt_text_read(const struct rt_field *f, void *member, const char *s,
				struct rt_arena **text, struct rt_error *err);
/* The same of a standard error, which is over 0: RT_SIGMA("m"). */
RT_API enum rt_err rt_sigma_read(const struct rt_field *f, void *member, const char *s,
				 struct rt_arena **text, struct rt_error *err);
#define RT_SIGMA(unit_)                                                                            \
	.type = RT_REAL, .read = rt_sigma_read, .is = RT_OPTIONAL, .low = 0.0001, .high = 10,      \
	.measure = (unit_)
/* RT_E_INPUT with that text; wrong: "is not a number". */
RT_API enum rt_err rt_refuse(struct rt_error *err, const char *s, const char *wrong,
			     const char *accepted);
/* "6,5" where "6.5" would be a number: a common slip worth its own words. */
RT_API bool rt_has_comma(const char *s);
/* The value of a field in row, text as the struct or `out` holds it. */
RT_API struct rt_value rt_field_value(const struct rt_record *r, const struct rt_field *f,
				      const void *row, char out[RT_OWN_SIZE]);
/* The other way round, into a row that was started as the blank one, of what comes from a show
 * file and is not trusted: false when the field does not accept the value; strings from *text.
 * *nomem is set when memory is out. */
RT_API bool rt_field_set(const struct rt_field *f, void *row, const struct rt_value *value,
			 struct rt_arena **text, bool *nomem);
/* Empty a field of row: as the record's blank one; one of type RT_OWN is left as it is. */
RT_API void rt_field_clear(const struct rt_record *r, const struct rt_field *f, void *row);
/* Give a row what another has in a field; texts are shared.  One of type RT_OWN is left alone. */
RT_API void rt_field_copy(const struct rt_field *f, void *row, const void *from);
/* A value as a file has it, with all its digits; "" for none. */
RT_API const char *rt_value_text(const struct rt_field *f, const struct rt_value *value, char *out,
				 size_t size);
/* Whether the field says the same in two rows. */
RT_API bool rt_field_same(const struct rt_record *r, const struct rt_field *f, const void *a,
			  const void *b);

/* ---- records ----------------------------------------------------------------------------- */

/* Start a row: as the record's blank one. */
RT_API void rt_record_start(const struct rt_record *r, void *row);
/* The field of that name or one of its other names, NULL: none. */
RT_API const struct rt_field *rt_record_field(const struct rt_record *r, const char *name);
/* The columns of its file in a line: "class,number,driver (or rider),horses[,division]". */
RT_API void rt_record_columns(const struct rt_record *r, char *out, size_t size);
/* Whether a file has the field. */
RT_API bool rt_field_in_file(const struct rt_field *f);

#ifdef __cplusplus
}
#endif
#endif
