/* cli: one run of the command, the table entry of a command, and what command files share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CLI_H
#define RT_CLI_H

#include <math.h>
#include <stdio.h>

#include <ringtrue.h>

/* How a command is written:
 *
 *	struct ring_add {				what is typed for it
 *		const char *name, *kind;
 *	};
 *	static const struct rt_field ring_add_options[] = {
 *		{"name", RT_AT(struct ring_add, name), .type = RT_NAME,
 *		 .is = RT_ARGUMENT | RT_REQUIRED},
 *		CLI_KIND(struct ring_add, kind, RT_REQUIRED),
 *	};
 *	static void ring_add(struct cli *c, const void *typed)
 *	{
 *		const struct ring_add *o = typed;	read, inside its limits
 *
 *		cli_store(c, true);			functions of cli do nothing after an error,
 *		CLI_DO(c, rt_store_ring_add(c->store, ..., &c->err));	and others by CLI_DO
 *	}
 *	const struct cli_command cmd_ring_add = {
 *		..., CLI_OPTIONS(struct ring_add, ring_add_options), .run = ring_add,
 *	};
 */

/* ---- the table of commands --------------------------------------------------------------- */

struct cli;

#define CLI_FIELDS_MAX 64 /* arguments and options of a command */

#define CLI_TABLES_MOST 3 /* that one command makes itself */

/* A command, whole: help and parsing are made from it. */
struct cli_command {
	const char *name;    /* one to three words, with a space between */
	const char *args;    /* what follows the name in help; NULL: as the fields tell */
	const char *summary; /* a sentence */
	/* More for its own help, NULL: none.  Lines are joined and broken anew. */
	const char *details;
	const char *example; /* a line that works on the demo show, after "ringtrue "; NULL: none */
	/* What its files hold, NULL at the end, whose columns its help tells; NULL: it reads none.
	 */
	const struct rt_record *const *files;

	/* Arguments (RT_ARGUMENT, in their order) and options, each a member of the struct that run
	 * is given.  name: of an option, with dashes; head: of its value in help, its name in
	 * capitals where NULL.  A RT_BOOL is a flag.  A RT_TEXT without limits is taken as it was
	 * typed (a path), one with them is plain text of at most `high` characters. */
	const struct rt_field *option;
	size_t options;
	/* A kind of row, at the start of that struct, whose columns are options too, except those
	 * named as a field above; NULL: none.  changes: the row is one that is there, so that yes
	 * or no is said of a RT_BOOL, and "" empties what may be empty. */
	const struct rt_record *record;
	bool changes;
	const char *left_out; /* a column of it that is no option; NULL: none */
	size_t size;	      /* of that struct */
	const void *blank;    /* before anything is read; NULL: all zero */
	void (*run)(struct cli *c, const void *typed);
	/* Start lists show what it changes: those that were printed and no longer hold are told. */
	bool lists;
	/* The tables that it makes itself, besides those of the rooms that it calls. */
	const struct rt_record *table[CLI_TABLES_MOST];
};

#define CLI_OPTIONS(type_, array)                                                                  \
	.option = (array), .options = sizeof(array) / sizeof *(array), .size = sizeof(type_)

/* What was typed for a command. */
struct cli_call {
	const struct cli_command *command;
	const struct rt_field *field[CLI_FIELDS_MAX]; /* of the command and its record */
	const char *value[CLI_FIELDS_MAX];	      /* of each, the last one; NULL: not given */
	size_t fields;
	void *typed; /* what the fields fill */
};

enum cli_format { CLI_TEXT, CLI_CSV, CLI_JSON };

/* One run: global options, what a command reports, and what went wrong. */
struct cli {
	const char *show_path; /* NULL: none given */
	enum cli_format format;
	const char *table; /* of CSV; NULL: the main one */
	bool raw;	   /* CSV without the apostrophes that keep a spreadsheet from running it */
	bool feet;
	bool help, version;
	char when[24]; /* YYYY-MM-DD HH:MM:SS that outputs carry */
	struct cli_call call;
	struct rt_arena *text; /* strings that live as long as the run */
	struct rt_report report;
	struct rt_faults faults;
	struct rt_error err; /* sticky: once its code is set, nothing more is done */
	struct rt_show show; /* its title is read for sheets; NULL: not yet */
	/* What cli_rows and its like have read so far. */
	struct rt_shipped rows;
	struct rt_rings rings;
	struct rt_tests tests;
	struct rt_classes classes;
	struct rt_entries entries;
	struct rt_roster roster;
	bool rows_read, rings_read, tests_read, classes_read, entries_read;
	struct rt_store *store; /* open between cli_store and the end */
	bool writing;		/* what was changed since cli_begin is not kept yet */
	bool trying;		/* nor will it be: the command only tells what it would do */
	bool output_taken; /* a file went to standard output: the report goes to standard error */
};

/* Call what returns an enum rt_err and tells why in c->err, unless something failed before.  A
 * call whose failure is expected and handled is given an rt_error of its own instead.  Nothing
 * that may fail itself (cli_rows) stands among the arguments: the call would write over it. */
#define CLI_DO(c, call) ((void)((c)->err.code || ((c)->err.code = (call))))
/* rt_fail, unless something failed before: the first failure is the one that is told. */
#define CLI_FAIL(c, code, ...) CLI_DO(c, rt_fail(&(c)->err, code, __VA_ARGS__))
/* Append an element to a list: `CLI_ADD(c, &names, name)`. */
#define CLI_ADD(c, list, ...)                                                                      \
	(RT_LIST_ADD(list) ? (void)((list)->at[(list)->n - 1] = (__VA_ARGS__))                     \
			   : CLI_DO(c, rt_fail_nomem(&(c)->err)))

/* Every command, a group after another, in the order that help shows. */
/* clang-format off */
#define CLI_COMMANDS(FIRST, NEXT)								   \
	FIRST("Show", create) NEXT(template) NEXT(show) NEXT(verify) NEXT(backup) NEXT(restore)	   \
	FIRST("Ring", ring_kinds) NEXT(ring_add) NEXT(ring_list) NEXT(ring_setout)		   \
		NEXT(ring_check) NEXT(ring_history) NEXT(ring_footing) NEXT(ring_advice)	   \
		NEXT(adjust)									   \
	FIRST("Turns", turns) NEXT(sweep)							   \
	FIRST("Tests", test_import) NEXT(test_list) NEXT(test_route)				   \
	FIRST("Office", class_import) NEXT(class_add) NEXT(class_change) NEXT(class_merge)	   \
		NEXT(class_split) NEXT(class_remove) NEXT(class_list)	   \
		NEXT(class_history) NEXT(entry_import) NEXT(entry_add) NEXT(entry_change) NEXT(entry_move)	   \
		NEXT(entry_status) NEXT(entry_list) NEXT(entry_find) NEXT(entry_history)	   \
		NEXT(entry_numbers) NEXT(judge_name) NEXT(judge_list) NEXT(judge_history)	   \
		NEXT(judge_away)							   \
	FIRST("Times", draw) NEXT(draw_late) NEXT(draw_history) NEXT(times_import)		   \
		NEXT(times_plan) NEXT(times_asked) NEXT(times) NEXT(times_list)			   \
		NEXT(times_check) NEXT(times_move) NEXT(times_late) NEXT(times_back)		   \
		NEXT(times_undo) NEXT(times_history)						   \
	FIRST("Marks", mark_import) NEXT(mark_list) NEXT(mark_enter) NEXT(mark_total)		   \
		NEXT(mark_compare) NEXT(mark_fix) NEXT(mark_history) NEXT(mark_sheets)		   \
		NEXT(mark_received) NEXT(mark_missing) NEXT(mark_move) NEXT(penalty_add) NEXT(penalty_list)	   \
		NEXT(penalty_undo) NEXT(penalty_articles)						   \
	FIRST("Results", results) NEXT(tie_decide) NEXT(post) NEXT(post_history) NEXT(judging)	   \
		NEXT(championship_import) NEXT(championship_list) NEXT(championship_results)	   \
		NEXT(team_import) NEXT(team_list) NEXT(team_results) NEXT(prize_import)		   \
		NEXT(prize_list) NEXT(prize_payee) NEXT(prize_money)				   \
	FIRST("Papers", sheet_check) NEXT(sheet_certificate) NEXT(sheet_turns)			   \
		NEXT(sheet_setout) NEXT(sheet_route) NEXT(sheet_cones) NEXT(sheet_times)	   \
		NEXT(sheet_results) NEXT(sheet_marking) NEXT(sheet_driver) NEXT(sheet_prizes)	   \
		NEXT(workbook)									   \
	FIRST("Rows", ring_kinds_import) NEXT(level_import) NEXT(gait_import) NEXT(rule_import)	   \
		NEXT(turnout_import) NEXT(article_import) NEXT(level_list) NEXT(gait_list)	   \
		NEXT(rule_list) NEXT(turnout_list) NEXT(article_list)
#define CLI_DECLARE_FIRST(group, name) CLI_DECLARE(name)
#define CLI_DECLARE(name) extern const struct cli_command cmd_##name;
CLI_COMMANDS(CLI_DECLARE_FIRST, CLI_DECLARE)
/* clang-format on */

/* An array of n, zeroed, that lives as long as the run; NULL after an error only. */
void *cli_array(struct cli *c, size_t n, size_t size);

extern const struct cli_command *const cli_commands[];
extern const size_t cli_command_count;

/* A group of commands, from its first on. */
struct cli_group {
	const char *name;
	const struct cli_command *first;
};
extern const struct cli_group cli_groups[];
extern const size_t cli_group_count;

/* ---- options that several commands have --------------------------------------------------- */

#define CLI_TEXT_MOST 500 /* characters of a reason, an article */

/* What an option of a length is. */
#define CLI_METRES(least, most)                                                                    \
	.head = "M", .type = RT_REAL, .low = (least), .high = (most), .measure = "m"
/* is: 0 or RT_REQUIRED */
#define CLI_BY(of_, member, is_)                                                                   \
	{                                                                                          \
		"by", RT_AT(of_, member), .head = "WHO", .type = RT_NAME, .is = (is_),             \
					  .help = "who does or says so: kept with it"              \
	}
#define CLI_SAME_PERSON(of_, member)                                                               \
	{                                                                                          \
		"same-person", RT_AT(of_, member),                                                 \
			.type = RT_BOOL,                                                           \
			.help = "take both keyings by one person, and keep that it is so"          \
	}
#define CLI_WHY(of_, member, is_)                                                                  \
	{                                                                                          \
		"why", RT_AT(of_, member), .head = "TEXT", .type = RT_TEXT, .high = CLI_TEXT_MOST, \
					   .is = (is_), .help = "the reason: kept with it"         \
	}
#define CLI_CLASS(of_, member)                                                                     \
	{                                                                                          \
		"class", RT_AT(of_, member), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED      \
	}
#define CLI_NUMBER(of_, member)                                                                    \
	{                                                                                          \
		"number", RT_AT(of_, member), .type = RT_INT, .low = 1, .high = RT_NUMBER_MOST,    \
					      .is = RT_ARGUMENT | RT_REQUIRED                      \
	}
#define CLI_JUDGE(of_, member, is_)                                                                \
	{                                                                                          \
		"judge", RT_AT(of_, member), .head = "POSITION", .type = RT_NAME, .is = (is_),     \
					     .help = "the judge who sits there"                    \
	}
#define CLI_SEED(of_, member)                                                                      \
	{                                                                                          \
		"seed", RT_AT(of_, member), .head = "N", .type = RT_INT, .low = 1,                 \
					    .high = 999999999,                                     \
					    .help = "the same seed gives the same again"           \
	}
#define CLI_KIND(of_, member, is_)                                                                 \
	{                                                                                          \
		"kind", RT_AT(of_, member), .type = RT_NAME, .is = (is_),                          \
					    .help = "a kind of ring: `ring kinds` lists them"      \
	}
/* A file to be imported, and how.  Its options are CLI_IMPORT, CLI_IMPORT_HOW where the command
 * takes its files otherwise. */
struct cli_import {
	const char *file;
	const char *columns, *sheet;
	bool try; /* do all of it, and keep nothing */
};
#define CLI_IMPORT(of_, member) CLI_FILE(of_, member.file, "file"), CLI_IMPORT_HOW(of_, member)
#define CLI_IMPORT_HOW(of_, member)                                                                \
	{"columns",                                                                                \
	 RT_AT(of_, member.columns),                                                               \
	 .head = "THEIRS=OURS;...",                                                                \
	 .type = RT_TEXT,                                                                          \
	 .high = 4000,                                                                             \
	 .help = "what columns are called in the file, and what they are here; the show keeps "    \
		 "it for the next file of that kind"},                                             \
		{"sheet", RT_AT(of_, member.sheet), .head = "NAME", .type = RT_NAME,               \
		 .help = "a sheet of a workbook, instead of its first"},                           \
	{                                                                                          \
		"try", RT_AT(of_, member.try),                                                     \
			.type = RT_BOOL, .help = "tell all that it would do, and keep nothing"     \
	}
#define CLI_FILE(of_, member, name_)                                                               \
	{                                                                                          \
		name_, RT_AT(of_, member), .head = "FILE.csv", .type = RT_TEXT,                    \
					   .is = RT_ARGUMENT | RT_REQUIRED                         \
	}

/* Of a command that is given a class, or one or none, and nothing else: typed is a pointer to
 * it. */
extern const struct rt_field cli_class_argument[1], cli_class_if_any[1];
/* Of a command that imports one file, and nothing else: typed is a struct cli_import. */
extern const struct rt_field cli_import_options[4];
#define CLI_TYPED(typed) (*(const char *const *)(typed))

/* ---- output.c: files that commands write --------------------------------------------------- */

/* The rule of rt_outfile_open, in the help of every command that writes a file. */
#define CLI_OUTPUT_RULE                                                                            \
	"An older file of the same kind is replaced (through a link too), anything else refused."
#define CLI_OUTPUT_STANDARD                                                                        \
	CLI_OUTPUT_RULE "\n- is standard output; the report then goes to standard error."

/* rt_outfile_open, beside the show of this run; NULL after an error.  A signal that stops the
 * command has its effect at cli_output_end only, when nothing unfinished is left. */
struct rt_outfile *cli_output_open(struct cli *c, const char *path, enum rt_file_kind kind);
/* Commit the file to path, or discard it when something failed.  NULL is accepted. */
void cli_output_end(struct cli *c, const char *path, struct rt_outfile *file);

/* What is typed of a sheet: where it goes, and how it is drawn. */
enum cli_as { CLI_AS_NAMED, CLI_AS_PDF, CLI_AS_SVG };
enum cli_up { CLI_UP_C, CLI_UP_A };
struct cli_sheet {
	const char *out;
	enum cli_as as;
	enum rt_paper_size paper;
	enum rt_seat seat;
	enum cli_up up;
};
extern const struct rt_words cli_words_of_as, cli_words_of_up;

/* Its options, of a member of the command's struct; CLI_VIEW: of drawings of a ring. */
#define CLI_OUT(type_, member)                                                                     \
	{"out",                                                                                    \
	 RT_AT(type_, member.out),                                                                 \
	 .head = "FILE",                                                                           \
	 .type = RT_TEXT,                                                                          \
	 .is = RT_REQUIRED,                                                                        \
	 .help = "the file: .pdf, .svg, or - for standard output"},                                \
		{"as",                                                                             \
		 RT_AT(type_, member.as),                                                          \
		 .head = "KIND",                                                                   \
		 .type = RT_WORD,                                                                  \
		 .words = &cli_words_of_as,                                                        \
		 .is = RT_USUAL,                                                                   \
		 .help = "what it is, where its name does not tell"},                              \
	{                                                                                          \
		"paper", RT_AT(type_, member.paper), .head = "SIZE", RT_WORD_OF(paper_size),       \
						     .is = RT_USUAL, .help = "the size of a page"  \
	}
#define CLI_VIEW(type_, member)                                                                    \
	{"seen-from",	 RT_AT(type_, member.seat),                                                \
	 .head = "SEAT", RT_WORD_OF(seat),                                                         \
	 .is = RT_USUAL, .help = "drawn as it is seen from there"},                                \
	{                                                                                          \
		"up", RT_AT(type_, member.up), .head = "LETTER", .type = RT_WORD,                  \
					       .words = &cli_words_of_up, .is = RT_USUAL,          \
					       .help = "the letter at the top"                     \
	}

/* The options of a sheet, with the show's title where one is open. */
struct rt_sheet_options cli_sheet_options(struct cli *c, const struct cli_sheet *o);
/* Write a sheet to its file, tell it, and free it. */
void cli_write_sheet(struct cli *c, const struct cli_sheet *o, struct rt_sheet *sheet);

/* ---- command_line.c: reading what was typed ---------------------------------------------- */

/* Take the global options out of words[0..n), wherever they stand before a --; returns how many
 * words are left. */
int cli_read_globals(struct cli *c, int n, char **words);
/* Find the command at words[0..n) and read its arguments and options into c->call. */
void cli_read_call(struct cli *c, int n, char **words);
void cli_call_free(struct cli_call *call);
/* Whether the option or argument that is this member of the struct that run was given was typed. */
bool cli_given(const struct cli *c, const void *member);
/* Whether anything of the command's record was typed. */
bool cli_changes_something(const struct cli *c);
/* Put what was typed of the command's record into a row that is there. */
void cli_change(struct cli *c, void *row);
/* The global options, one after another. */
extern const struct rt_field cli_globals[];
extern const size_t cli_global_count;
/* The fields of a command, the options of its record behind its own; returns how many. */
size_t cli_fields_of(const struct cli_command *command, const struct rt_field *field[]);
/* Whether an option of the command (NULL: of all) takes no value. */
bool cli_is_flag(const struct cli_command *command, const struct rt_field *f);
/* What help calls its value. */
const char *cli_value_name(const struct cli_command *command, const struct rt_field *f,
			   char out[64]);
/* An option as it is typed, without the dashes before it: "height" of the column height_cm. */
const char *cli_option_name(const struct rt_field *f, char out[64]);

/* ---- find_command.c ----------------------------------------------------------------------- */

/* The command that words[0..n) begin with, and how many words its name takes; NULL: none. */
const struct cli_command *cli_find_command(int n, char **words, int *took);
/* Whether the name of a command begins with this word, and has more. */
bool cli_begins_with(const char *name, const char *word);
bool cli_is_first_word(const char *word);
/* What may have been meant by words[0..n), which are no command. */
void cli_unknown_command(struct cli *c, int n, char **words);
/* The same of a word among others; before: what stands before it ("--"); otherwise: what is said
 * when none is near. */
void cli_unknown_word(struct cli *c, const char *what, const char *typed, const char *const *words,
		      size_t n, const char *before, const char *otherwise);

/* ---- help.c --------------------------------------------------------------------------------- */

/* The columns of the terminal, 80 where there is none. */
int cli_columns(void);
/* A page of 24 lines: every command in a word or two. */
void cli_print_page(FILE *out);
/* Help on what words[0..n) begin with: a command, or all commands with that first word; on
 * everything where there are none. */
void cli_help_on(struct cli *c, int n, char **words);
/* The names of all tables, into the report. */
void cli_help_json(struct cli *c);
/* The arguments of a command and the options that it needs, as they are typed. */
void cli_usage(const struct cli_command *command, char *out, size_t size);

/* Put a term at the left, what it is at the right. */
void cli_put_term(FILE *out, const char *term, int at, const char *text);

/* ---- columns.c: the files that are read --------------------------------------------------- */

/* A kind of file, as commands call it. */
struct cli_file {
	const char *name; /* "entries" */
	const struct rt_record *record;
	const char *taken_by; /* the command that reads it */
};
extern const struct cli_file cli_files[];
extern const size_t cli_file_count;

/* Points, then every kind of readings, for struct cli_command; the second: without the points. */
extern const struct rt_record *const cli_adjust_files[];
#define CLI_READINGS (&cli_adjust_files[1])

/* What the columns of files are, for the help of a command. */
void cli_print_columns(FILE *out, const struct rt_record *const *files);

/* ---- shared.c: the show file and the shipped rows ---------------------------------------- */

/* After a change to a class: note that what was posted of it may be so no more. */
void cli_note_posted(struct cli *c, const char *class_name);

/* Names in a sentence, commas between; what does not fit is told by dots.  Start it zeroed. */
struct cli_names {
	char text[300];
	size_t n;
	bool cut;
};
void cli_name(struct cli_names *names, const char *fmt, ...) RT_PRINTF(2, 3);
/* The number of an entry that is typed as a word; RT_E_USAGE, with `what` it was typed for. */
int64_t cli_number(struct cli *c, const char *what, const char *word);

/* Open the show of --show, once, and begin the one transaction of the command: all that it reads
 * is of one moment, and while it is writing nobody else is.  Nothing ends it but main.c, when the
 * command is done: what was written is kept when it returned RT_OK, noted no fault and its report
 * is out, and undone otherwise.  So a command reads, checks, puts and reports, in any order. */
void cli_store(struct cli *c, bool writing);

/* RT_E_USAGE when nobody said which show. */
void cli_show_path(struct cli *c);

/* For a talk at a terminal, which must not hold the show while somebody thinks: open the show
 * with no transaction, then keep each thing that was said in one of its own. */
void cli_store_open(struct cli *c, bool writing);
/* Begin to write; the show is open for that. */
void cli_begin(struct cli *c);
/* End what was begun, if anything was: kept when nothing failed, undone otherwise. */
void cli_end(struct cli *c);

/* What the show has, of all classes, as it was when a run first asked for it; it lives as long as
 * the run, and is empty after an error.  They open the show for reading: who writes opens it
 * before. cli_rows: the shipped rows, without a show those of the data folder. */
const struct rt_shipped *cli_rows(struct cli *c);
const struct rt_rings *cli_rings(struct cli *c);
const struct rt_tests *cli_tests(struct cli *c);
const struct rt_classes *cli_classes(struct cli *c);
const struct rt_entries *cli_entries(struct cli *c);
/* All of that but the entries, for those who read files; writing: as of cli_store. */
const struct rt_roster *cli_roster(struct cli *c, bool writing);
void cli_show_free(struct cli *c);

/* rt_fail_unknown of a name that none of n rows has in the column of the record's own name. */
void cli_unknown(struct cli *c, const struct rt_record *r, const void *rows, size_t n,
		 const char *name, const char *otherwise, const char *fmt, ...) RT_PRINTF(7, 8);

/* The shipped rows of the data folder. */
void cli_data_rows(struct cli *c, struct rt_shipped *out);
/* A file that is read as it is, what was found out about it told as notes. */
#define CLI_SOURCE(c, path_) (&(const struct rt_source){.path = (path_), .notes = &(c)->report})
/* The file at path, one of those that the command imports, to be read as it was typed; with --try
 * nothing that this run writes is kept. */
const struct rt_source *cli_source(struct cli *c, const struct cli_import *how, const char *path);
/* A table of one row that tells what an import did. */
void cli_report_import(struct cli *c, const char *what, const struct rt_import_count *count);
/* The test of that name; NULL: there is none. */
const struct rt_test *cli_test(struct cli *c, const char *name);
/* The kind of a class's ring, else that its test is made for; NULL: neither is said. */
const struct rt_ring_kind *cli_kind_of(struct cli *c, const struct rt_class *class_);
/* What holds for a class: its own level and rule, else its test's; NULL: neither has one. */
const char *cli_level_of(struct cli *c, const struct rt_class *class_);
const char *cli_rule_of(struct cli *c, const struct rt_class *class_);

/* The footing rules of a file; file NULL: of the data folder. */
void cli_footing_rules(struct cli *c, const char *file, struct rt_footing_rules *out);

/* ---- rings.c: the ring that a command is about, and its checks ----------------------------- */

/* Words follow --feet only where numbers do: in text. */
bool cli_text_in_feet(const struct cli *c);

/* The ring of the show that is called so, but for case and accents; NULL: none. */
const struct rt_ring *cli_ring_called(struct cli *c, const char *name);

struct cli_ring {
	const char *name;		 /* as the show has it; NULL: a kind only */
	const struct rt_ring_kind *kind; /* NULL after an error */
};
/* The ring of the show of that name, or a kind; exactly one of them is given. */
struct cli_ring cli_ring_find(struct cli *c, const char *name, const char *kind, bool writing);

/* The usual sigmas are those of rt_reading_sigma. */
#define CLI_READING_FILES                                                                             \
	"Files of readings, as many as there are; the columns tell the kind of each. Usual sigma:\n"  \
	"tape 10 mm + 0.2 mm a metre; offset 10 mm + 0.2 mm a metre of string; angle 0.05 degrees;\n" \
	"receiver 20 mm each way (common practice, no source).\n"

/* Every file of readings from the first on. */
void cli_read_readings(struct cli *c, const struct rt_strings *files, size_t first,
		       const struct rt_ring_kind *kind, const struct rt_points *points,
		       struct rt_readings *readings, struct rt_heights *heights);

/* A check computed from what was taken.  Start it zeroed; free with cli_check_free. */
struct cli_check {
	struct rt_ring_check pegs;
	struct rt_footing footing;
	bool has_pegs, has_footing; /* whether there were readings, heights */
};
/* stored must outlive it. */
enum rt_err cli_check_make(struct cli_check *out, const struct rt_ring_kind *kind,
			   const struct rt_stored_check *stored, struct rt_error *err);
void cli_check_free(struct cli_check *check);
/* Run a check that is kept and append its tables; feet: lengths in words. */
void cli_check_report(struct cli *c, struct rt_report *report, const struct rt_ring_kind *kind,
		      const struct rt_stored_check *check, bool feet);

/* How a check is made, as it is typed. */
struct cli_check_asked {
	double tolerance_m; /* NAN: the usual */
	enum rt_fit fit;
	const char *by;
	const char *footing, *footings;
	double along_m, across_m; /* NAN: as the rule says */
};
#define CLI_CHECK_ASKED                                                                            \
	{                                                                                          \
		.tolerance_m = NAN, .along_m = NAN, .across_m = NAN                                \
	}
#define CLI_TOLERANCE(type_, member)                                                               \
	{                                                                                          \
		"tolerance", RT_AT(type_, member), CLI_METRES(0.005, 5),                           \
			.help = "how far a peg may be off; usual: 0.10 driven, 0.05 ridden"        \
	}
#define CLI_FIT(type_, member)                                                                     \
	{                                                                                          \
		"fit", RT_AT(type_, member),                                                       \
			.head = "HOW", RT_WORD_OF(fit), .is = RT_USUAL,                            \
			.help = "by the fewest moves, by all pegs alike, or by the corners"        \
	}
#define CLI_FOOTING(type_, member)                                                                 \
	{"footing", RT_AT(type_, member.footing), .head = "RULE", .type = RT_NAME,                 \
	 .help = "whose limits of the fall: knhs, us-equestrian or driven"},                       \
		{"footings", RT_AT(type_, member.footings), .head = "FILE.csv", .type = RT_TEXT,   \
		 .help = "footing rules of your own instead of the shipped"},                      \
		{"along", RT_AT(type_, member.along_m), CLI_METRES(0.01, 20),                      \
		 .help = "how far it may fall along or on a diagonal, instead"},                   \
	{                                                                                          \
		"across", RT_AT(type_, member.across_m), CLI_METRES(0.01, 20),                     \
			.help = "how far it may fall across, instead"                              \
	}
/* A check to be made of that kind, as it is asked for. */
void cli_check_begin(struct cli *c, const struct cli_check_asked *asked,
		     const struct rt_ring_kind *kind, struct rt_stored_check *check);
/* RT_E_USAGE when any of it is given where a kept check is told. */
void cli_check_not_asked(struct cli *c, const struct cli_check_asked *asked);
/* The place of the check of a ring that --check asks for, counted from 1. */
size_t cli_check_numbered(struct cli *c, const struct rt_stored_checks *checks, int64_t number);
#define CLI_CHECK_NUMBER(type_, member)                                                            \
	{                                                                                          \
		"check", RT_AT(type_, member),                                                     \
			.head = "N", .type = RT_INT, .low = 1, .high = 1000000,                    \
			.help = "check N of the ring, counted from the first"                      \
	}

/* ---- routes.c: turns, and a test as a route ---------------------------------------------------
 */

#define CLI_LEVEL(type_, member, is_)                                                              \
	{                                                                                          \
		"level", RT_AT(type_, member),                                                     \
			.type = RT_NAME, .is = (is_),                                              \
			.help = "a level; the ring kind says ridden or driven"                     \
	}
#define CLI_HEIGHT(type_, member)                                                                  \
	{                                                                                          \
		"height", RT_AT(type_, member), .head = "H", .type = RT_HEIGHT,                    \
						.help = "how high the animal is"                   \
	}
#define CLI_DIAMETER(type_, member)                                                                \
	{                                                                                          \
		"diameter", RT_AT(type_, member), CLI_METRES(1, 100),                              \
			.help = "a diameter instead of the level's"                                \
	}
#define CLI_TRACK(type_, member)                                                                           \
	{                                                                                                  \
		"track", RT_AT(type_, member), CLI_METRES(0, 10),                                          \
			.help = "how far the track lies inside the boards; usual: 0, with a turnout half " \
				"its width and 0.25 m"                                                     \
	}
#define CLI_TURNOUT(type_, member, is_)                                                            \
	{                                                                                          \
		"turnout", RT_AT(type_, member),                                                   \
			.head = "NAME", .type = RT_NAME, .is = (is_),                              \
			.help = "the turnout that goes there: how far it cuts in"                  \
	}
#define CLI_TURNOUTS(type_, member)                                                                \
	{                                                                                          \
		"turnouts", RT_AT(type_, member),                                                  \
			.head = "FILE.csv", .type = RT_TEXT,                                       \
			.help = "turnouts of your own instead of the shipped"                      \
	}

/* The level of that name; NULL and RT_E_NOTFOUND with the nearest or all names. */
const struct rt_level *cli_level(struct cli *c, const char *name, enum rt_discipline discipline);
/* The parts of a turnout, of the file where one is given (its rows then take the place of those
 * of the run): RT_LIST_FREE them. */
void cli_turnout(struct cli *c, const char *name, const char *file, struct rt_turnout_parts *out);

/* The turns that are asked for, and their level; turns is started zeroed. */
struct cli_turns_asked {
	const char *kind, *level;
	struct rt_turn_options options;
};
void cli_turns_make(struct cli *c, const struct cli_turns_asked *asked,
		    const struct rt_ring_kind *kind, const struct rt_level **level,
		    struct rt_turns *turns);

/* A route as it is asked for. */
struct cli_route_asked {
	const char *test; /* of the show, or a file of movements */
	const char *kind, *level, *only_test;
	const char *turnout, *turnouts;
	struct rt_turn_options options;
};
#define CLI_ONLY_TEST(type_, member)                                                               \
	{                                                                                          \
		"test", RT_AT(type_, member), .head = "NAME", .type = RT_NAME,                     \
					      .help = "which test, where the file holds several"   \
	}

/* A test of the show or of a file, and its route.  Start it zeroed; free with cli_route_free. */
struct cli_route {
	struct rt_items items; /* of the file or the show */
	const char *test;      /* whose items */
	const char *title;     /* of the test; NULL: a file's */
	const struct rt_ring_kind *kind;
	const struct rt_level *level;
	struct rt_turn_options options;
	struct rt_turnout_parts turnout;      /* empty: none */
	struct rt_movement_figures movements; /* the movements of the test */
	struct rt_route route;
};
void cli_route_make(struct cli *c, const struct cli_route_asked *asked, struct cli_route *in);
void cli_route_free(struct cli_route *in);

/* ---- desk.c: one class, and one sheet of it, at a desk ------------------------------------ */

/* Start it zeroed; free with cli_desk_free. */
struct cli_desk {
	struct rt_class_book book;
	struct rt_mark_versions versions; /* of the class, or of the one entry */
	struct rt_items asked;		  /* the items that the one judge marks */
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	size_t entry_place, judge_place; /* in their lists */
};
/* Open the show and the class. */
void cli_desk_class(struct cli *c, struct cli_desk *d, const char *class_name, bool writing);
/* Its entry of that number, its judge at that position, or RT_E_NOTFOUND. */
void cli_desk_entry(struct cli *c, struct cli_desk *d, int64_t number);
void cli_desk_judge(struct cli *c, struct cli_desk *d, const char *position);
/* Read the versions, or read them anew. */
void cli_desk_versions(struct cli *c, struct cli_desk *d);
/* All of that; number 0 and position NULL: of every entry, of every judge. */
void cli_desk_sheet(struct cli *c, struct cli_desk *d, const char *class_name, int64_t number,
		    const char *position, bool writing);
/* The item of that name: its kind, and its place where it is a box. */
void cli_desk_item(struct cli *c, const struct cli_desk *d, const char *name,
		   enum rt_mark_kind *kind, const struct rt_item **item);
/* Settle or correct what a keying says, over the version that was seen (0: it is empty). */
void cli_desk_fix(struct cli *c, const struct rt_mark_version *seen, int keying, int64_t value,
		  const char *by, const char *why);
/* RT_E_INPUT where the judge does not mark the item. */
void cli_desk_marks(struct cli *c, const struct cli_desk *d, const struct rt_item *item);
void cli_desk_free(struct cli_desk *d);
/* The most points of the one judge's sheet, in hundred thousandths. */
int64_t cli_desk_maximum(const struct cli_desk *d);

/* ---- results/posted_results.c: the results of a class, and what is posted of them -------------------- */

/* Start it zeroed; free with cli_shown_free. */
struct cli_shown {
	struct rt_class_book book;
	struct rt_results results;
	struct rt_posting posting;
	struct rt_results_shown shown;
};
/* The class of the show that is open; as_now: shown as it is now, whatever is posted. */
void cli_shown_read(struct cli *c, const char *class_name, bool as_now, struct cli_shown *in);
/* Tell with a paper what rt_shown_note does. */
void cli_shown_note(struct cli *c, const struct cli_shown *in);
void cli_shown_free(struct cli_shown *in);
#define CLI_NOW(type_, member)                                                                     \
	{                                                                                          \
		"now", RT_AT(type_, member), .type = RT_BOOL,                                      \
					     .help = "as it is now, instead of what is posted"     \
	}

/* ---- results/several_classes.c: papers of several classes in one file ----------------------- */

/* Start it zeroed.  Between begin and end each class puts its pages on the sheet. */
struct cli_pile {
	const struct cli_sheet *asked;
	struct rt_sheet_options options;
	struct rt_strings classes; /* their names */
	bool many;		   /* several are asked for: one without anything is left out */
	struct rt_sheet sheet;
	struct cli_names left_out;
};
#define CLI_CLASSES(type_, member, all_)                                                           \
	{"class", RT_AT(type_, member), .type = RT_NAME, .is = RT_ARGUMENT | RT_MANY},             \
	{                                                                                          \
		"all", RT_AT(type_, all_), .type = RT_BOOL, .help = "of every class of the show"   \
	}
#define CLI_PILE                                                                                     \
	"Several classes make one file: in a PDF each has a bookmark, and its name in the numbers\n" \
	"of the pages. Of several, one without anything to print is left out, and named.\n"
/* Open the show; title: of a file of several. */
void cli_pile_begin(struct cli *c, const struct cli_sheet *asked, const struct rt_strings *typed,
		    bool all, const char *title, struct cli_pile *pile);
/* Whether a class puts nothing on the sheet: one of several that is empty, or after an error. */
bool cli_pile_leaves_out(struct cli *c, struct cli_pile *pile, const char *class_name, bool empty);
/* What follows is of that class. */
void cli_pile_class(struct cli_pile *pile, const struct rt_class *class_);
/* Write the file. */
void cli_pile_end(struct cli *c, struct cli_pile *pile);

/* ---- terminal.c: a talk by lines ---------------------------------------------------------- */

#define CLI_LINE_MOST 4096

/* Lines in from standard input, prompts out; over a terminal, a pipe or a far connection alike.
 * Between open and close an interrupt, a hang-up or a lost output ends the talk as the end of
 * input does, and never in the middle of what is being kept. */
enum cli_escape { CLI_NO_ESCAPE, CLI_ESCAPED, CLI_SEQUENCE };
struct cli_terminal {
	FILE *out;
	char text[CLI_LINE_MOST];
	size_t used;
	bool ended;
	/* At a terminal keys come one by one: those that move are the lines b, f, h, e, bb and ff.
	 */
	bool keys;
	enum cli_escape escape; /* how far a key that sends several bytes has come */
	char sequence[8];
};
void cli_terminal_open(struct cli_terminal *t, FILE *out);
/* Write what is said, and a line end. */
void cli_terminal_say(struct cli_terminal *t, const char *text);
/* Write the prompt and wait for a line (without its end, in line, as far as it goes there); false
 * when the talk is over.  The start of a line that never ended is dropped: it may be half a mark.
 */
bool cli_terminal_ask(struct cli_terminal *t, const char *prompt, char line[CLI_LINE_MOST]);
void cli_terminal_close(struct cli_terminal *t);

/* ---- shared between command files -------------------------------------------------------- */

/* cmd_entries.c: the entry of that number in a class of the list into *out, or RT_E_NOTFOUND, which
 * tells of the number that it has now. */
void cli_find_entry(struct cli *c, const struct rt_entries *entries, const char *class_name,
		    int64_t number, const struct rt_entry **out);
/* cmd_entries.c: the table entries.  Text at 80 columns shows the club, why and since when an
 * entry stands as it does, or when it came in; and who is hors concours, where anybody is. */
enum cli_entry_columns { CLI_ENTRY_CLUB, CLI_ENTRY_WHY, CLI_ENTRY_ARRIVAL };
void cli_report_entries(struct cli *c, const struct rt_entries *entries,
			enum cli_entry_columns shown);
/* cmd_entries.c: the table history, of struct rt_change. */
extern const struct rt_record cli_history_table;
/* cmd_classes.c: the class of that name; NULL and RT_E_NOTFOUND with the nearest name. */
const struct rt_class *cli_class(struct cli *c, const char *name);
/* entry_notes.c: RT_E_INPUT when another entry of the class has the number. */
void cli_number_free(struct cli *c, const char *class_name, int64_t number);
/* entry_notes.c: note where an entry's number is in other hands, or its turnout has another. */
void cli_note_numbers(struct cli *c, const struct rt_entry *entry);
/* cmd_entries.c: note who has changed a field of `whose` before, unless it was the same person. */
void cli_note_earlier(struct cli *c, const char *whose, const char *field,
		      const struct rt_changes *history, const char *who);
/* cmd_office.c: note that a class is held in another kind of ring than its test is made for. */
void cli_note_other_kind(struct cli *c, const struct rt_class *class_);
/* cmd_office.c: note judges who sit where the class's ring has no letter. */
void cli_note_positions(struct cli *c, const struct rt_class *class_);
/* cmd_articles.c: what the article of a penalty costs this time, into its points or *eliminated;
 * its name as the table has it.  RT_E_NOTFOUND, or RT_E_INPUT when it is left to an official. */
void cli_article_cost(struct cli *c, const char *class_name, struct rt_penalty *p,
		      bool *eliminated);
extern const struct rt_record cli_sheet_table;
/* times/lists.c: tell the start lists that were printed and would be printed otherwise now; no
 * table where all hold. */
extern const struct rt_record cli_stale_table;
void cli_report_stale(struct cli *c);
/* shared.c: the tables that several commands make; NULL after the last. */
extern const struct rt_record *const cli_shared_tables[];

#endif
