/* cli: what the commands of the office share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CLI_OFFICE_H
#define RT_CLI_OFFICE_H

#include "../cli.h"

/* ---- entry_changes.c: entries that are changed --------------------------------------------- */

/* Changes of entries by one command. */
struct cli_entry_changes {
	struct rt_reason reason;
	bool spelling;	 /* driver and horses are the same, written right */
	bool in_classes; /* of one number in several classes, which is not told of the others */
	struct rt_table *table;
	size_t changed; /* entries */
};

/* The table changes: what was changed of which entry. */
extern const struct rt_record cli_entry_changes_table;
/* Change an entry that is there into another: it is kept, told in the table and noted.  RT_E_INPUT:
 * its number is another's, or somebody else is put in the place of one who has started. */
void cli_entry_change(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
		      const struct rt_entry *became);
/* Give an entry another status, and tell it in the table. */
void cli_entry_stands(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
		      enum rt_status status, const char *why);

/* ---- cmd_entry_move.c: entries that go to another class ------------------------------------ */

/* Where an entry went. */
struct cli_moved {
	const char *class_name, *to, *driver;
	int64_t number, to_number;
	const char *marks; /* "go along", "stay"; NULL: it has none */
	bool left;	   /* a withdrawn entry is left behind, which tells of it */
};

extern const struct rt_record cli_moved_table;
/* Move an entry, as cli_entries has it, with all that can go along; number 0: its own, else one
 * that is given out. */
void cli_entry_move(struct cli *c, const struct rt_entry *entry, const struct rt_class *from,
		    const struct rt_class *to, int64_t number, const struct rt_reason *reason,
		    struct cli_moved *moved);
/* Note that the draw and the times of a class are to be made again, as others are in it now. */
void cli_note_anew(struct cli *c, const char *class_name);

/* ---- entry_notes.c ------------------------------------------------------------------------- */

/* An entry by class and number, as a key of a map. */
#define CLI_ENTRY_KEY (RT_NAME_MOST * 4 + 24)
const char *cli_entry_key(const struct rt_entry *e, char out[CLI_ENTRY_KEY]);
/* When entries (by class and number) were added or changed: note what they have in common with
 * others, a horse that goes twice in a class, starts that are too near now, as cli_entries had read
 * them before, and classes that were posted. */
void cli_note_entries(struct cli *c, const struct rt_entries *touched);

#endif
