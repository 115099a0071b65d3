/* series: several classes together: championships and teams; and prize money.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SERIES_H
#define RINGTRUE_SERIES_H

#include <ringtrue/scoring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The tables of this header's reports, NULL behind them. */
RT_API extern const struct rt_record *const rt_series_tables[];

/* ---- championships and teams ------------------------------------------------------------- */

#define RT_TALLIES(X) X(RT_TALLY_SUM, "sum") X(RT_TALLY_MEAN, "mean")
enum rt_tally { RT_TALLIES(RT_ENUM_CODE) };

/* What of a class counts: the score that is ranked there, or the percentage after penalties, which
 * is (base - score) / base where penalties are ranked. */
#define RT_TALLY_OFS(X) X(RT_OF_SCORE, "score") X(RT_OF_PERCENT, "percent")
enum rt_tally_of { RT_TALLY_OFS(RT_ENUM_CODE) };

/* Who competes: a driver or rider with whatever horses (the better result of a class counts),
 * or with the same horses throughout. */
#define RT_TALLY_BYS(X) X(RT_BY_DRIVER, "driver") X(RT_BY_TURNOUT, "turnout")
enum rt_tally_by { RT_TALLY_BYS(RT_ENUM_CODE) };

/* What parts equal totals: the best single class, the last class, or nothing. */
#define RT_TALLY_TIES(X)                                                                           \
	X(RT_TALLY_EQUAL, "equal") X(RT_TALLY_BEST, "best") X(RT_TALLY_LAST, "last")
enum rt_tally_ties { RT_TALLY_TIES(RT_ENUM_CODE) };

RT_ENUM_WORDS(tally);
RT_ENUM_WORDS(tally_of);
RT_ENUM_WORDS(tally_by);
RT_ENUM_WORDS(tally_ties);

/* A championship over several classes.  classes: their names, separated by "; ". */
struct rt_championship {
	const char *name, *title, *classes;
	enum rt_tally tally;
	enum rt_tally_of of;
	enum rt_tally_by by;
	enum rt_tally_ties ties;
	int64_t dropped; /* so many of the worst classes do not count, nor need to be driven */
	const char *file;
	long line;
};

struct rt_championships RT_LIST(struct rt_championship);

RT_API extern const struct rt_record rt_championship_record;

/* A member of a team: an entry of a class. */
struct rt_team_member {
	const char *team, *class_name;
	int64_t number;
	const char *file;
	long line;
};

struct rt_team_members RT_LIST(struct rt_team_member);

RT_API extern const struct rt_record rt_team_member_record;

/* Of a value inside: as many as a score has at most. */
#define RT_STANDING_DECIMALS 9

/* One class of a competitor, or one member of a team. */
struct rt_standing_part {
	size_t class_; /* in the order that classes were added */
	int64_t number;
	const char *driver;
	int64_t value; /* in units of 10^-RT_STANDING_DECIMALS */
	bool counts; /* it is among the best that are kept */
};

struct rt_standing_parts RT_LIST(struct rt_standing_part);

/* A competitor of a championship, or a team.  Who has fewer results than are kept is not placed. */
struct rt_standing {
	const char *name;   /* of the driver or the team */
	const char *horses; /* by turnout; else NULL */
	const char *club;   /* NULL: none */
	struct rt_standing_parts part;
	int64_t total; /* of what counts, in the same */
	size_t place;	     /* 0: not placed */
	const char *parted_by;
};

struct rt_standing_list RT_LIST(struct rt_standing);

/* The standing of a championship or of teams, made class by class so that a season needs no more
 * memory than its competitors: start it with rt_standings_of_championship or
 * rt_standings_of_teams, add every class, end it. */
struct rt_standings {
	const struct rt_championship *championship; /* NULL: teams */
	const struct rt_team_members *members;
	enum rt_tally tally;
	enum rt_tally_of of;
	enum rt_tally_ties ties;
	size_t classes; /* added so far */
	size_t kept;	/* results that count */
	enum rt_wins wins;
	int decimals;  /* the most that a value has */
	bool complete; /* every class is added up */
	struct rt_strings class_name;
	struct rt_standing_list list; /* after the end: placed ones first, in order */
	struct rt_map *index;
};

RT_API void rt_standings_of_championship(struct rt_standings *out,
					 const struct rt_championship *championship,
					 size_t classes);
/* The best `kept` members of each team count. */
RT_API void rt_standings_of_teams(struct rt_standings *out, const struct rt_team_members *members,
				  size_t kept, enum rt_tally tally, enum rt_tally_of of);
/* Add a class: of every entry that is placed.  RT_E_INPUT when its scores and those before cannot
 * be added: penalties and per cent. */
RT_API enum rt_err rt_standings_add(struct rt_standings *s, const struct rt_results *results,
				    struct rt_error *err);
/* Choose what counts, and place. */
RT_API enum rt_err rt_standings_end(struct rt_standings *s, struct rt_error *err);
RT_API void rt_standings_free(struct rt_standings *s);
/* Tables standing and parts. */
RT_API void rt_standings_report(struct rt_report *report, const struct rt_standings *s);

/* ---- prize money ------------------------------------------------------------------------- */

/* A row of a scale of prizes: with so many starters or more a place is worth this much. */
struct rt_prize_step {
	const char *scale;
	int64_t starters, place, amount_x100;
	const char *file;
	long line;
};

struct rt_prize_steps RT_LIST(struct rt_prize_step);

#define RT_PLACES_PAID_MOST 999 /* of a class */

RT_API extern const struct rt_record rt_prize_step_record;

/* Who is paid for a number, where it is not the driver or rider. */
struct rt_payee {
	int64_t number;
	const char *name;
};

struct rt_payees RT_LIST(struct rt_payee);

struct rt_prize {
	const struct rt_posted *posted;
	const char *payee;
	int64_t amount_x100;
	bool rosette;
};

struct rt_prize_list RT_LIST(struct rt_prize);

/* Rosettes: one for so many starters, and at least so many (from memory: a setting). */
#define RT_ROSETTE_STARTERS 4
#define RT_ROSETTES_LEAST   5

struct rt_prizes {
	const struct rt_results_shown *of;
	const char *class_name, *scale;
	int64_t starters; /* of all divisions */
	int64_t paid_x100;
	int64_t left_x100; /* cents that equal places cannot share */
	struct rt_prize_list list;
};

/* The prizes of a class, for the places that are shown: starters of each division (those who
 * neither withdrew nor did not start, nor are hors concours) choose the step of the scale, the one
 * with most starters that is not over theirs.  Equal places add up the money of their places and
 * share it (KNHS General Regulations 49.4); cents that do not divide stay with the organiser.
 * shown, steps and payees must outlive it.  RT_E_NOTFOUND when there is no such scale. */
RT_API enum rt_err rt_prizes_make(struct rt_prizes *out, const struct rt_results_shown *shown,
				  const struct rt_prize_steps *steps, const char *scale,
				  const struct rt_payees *payees, int64_t rosette_starters,
				  int64_t rosettes_least, struct rt_error *err);
RT_API void rt_prizes_free(struct rt_prizes *p);
/* Tables prizes and prize_sum; a person has to look where the class is not posted, or has changed
 * since. */
RT_API void rt_prizes_report(struct rt_report *report, const struct rt_prizes *p);

#ifdef __cplusplus
}
#endif
#endif
