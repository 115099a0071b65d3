/* cli: a sheet that is keyed at a terminal, alone or in a pile.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CLI_SHEET_KEYING_H
#define RT_CLI_SHEET_KEYING_H

#include "../cli.h"

/* What is typed for mark enter. */
struct cli_enter {
	const char *class_name, *judge, *by;
	int64_t number; /* 0: a pile */
	int64_t keying; /* 0: the first that is not whole */
	bool unfinished, same_person, unexpected;
};

/* How the keying of a sheet ended. */
enum cli_ending { CLI_KEYED, CLI_PAUSED, CLI_OTHER_DESK };

/* Start it zeroed but for the terminal; free with cli_sheet_keying_free. */
struct cli_sheet_keying {
	struct cli_terminal *terminal;
	bool pile; /* one sheet of several: it has no last look */
	struct cli_desk desk;
	struct rt_keying keying;
	struct rt_pass pass;
	int64_t pass_id;  /* 0: nothing was kept yet */
	size_t differing; /* boxes and lines that the other keying says otherwise, in the end */
};

/* The table of sheets that were keyed. */
extern const struct rt_record cli_sheet_keying_table;

/* Take a sheet up in a keying (0: the first that is not whole), unless it cannot be or is another
 * person's; the show is open, and nothing is under way. */
void cli_sheet_keying_open(struct cli *c, const struct cli_enter *o, int64_t number, int64_t keying,
			   struct cli_sheet_keying *s);
/* Say what sheet this is. */
void cli_sheet_keying_greet(struct cli_sheet_keying *s);
/* Key it, as far as it goes; each mark is kept before the next is asked for. */
enum cli_ending cli_sheet_keying_talk(struct cli *c, struct cli_sheet_keying *s);
/* Its row, and what is to be said of it. */
void cli_sheet_keying_conclude(struct cli *c, struct cli_sheet_keying *s, enum cli_ending ending,
			       struct rt_table *t);
void cli_sheet_keying_free(struct cli_sheet_keying *s);
/* Whether every box and the errors of a keying of the sheet of an entry, by its id, are there. */
bool cli_sheet_whole(const struct cli_desk *d, int64_t entry, int keying);

extern const struct rt_record cli_settled_table;
/* Key sheets one after another by their numbers, then settle what their keyings say differently. */
void cli_pile(struct cli *c, const struct cli_enter *o);

#endif
