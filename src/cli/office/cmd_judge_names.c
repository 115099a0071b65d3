/* judge name, list and history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* ---- judge name -------------------------------------------------------------------------- */

struct name {
	const char *class_name;
	struct rt_judge judge; /* as it is to be */
	struct rt_reason reason;
	const char *from; /* an entry's number, or a time of day; NULL: of all sheets */
	const char *was;  /* named before */
	struct rt_exact from_number;
};

static const struct rt_field name_options[] = {
	CLI_CLASS(struct name, class_name),
	{"position", RT_AT(struct name, judge.position), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"name", RT_AT(struct name, judge.name), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_EMPTY},
	{"scribe", RT_AT(struct name, judge.scribe), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "who writes for the judge"},
	{"from", RT_AT(struct name, from), .head = "NUMBER|TIME", .type = RT_NAME,
	 .help = "from this entry on, or from who starts at this time or next"},
	CLI_WHY(struct name, reason.why, 0),
	CLI_BY(struct name, reason.who, 0),
};

static const struct rt_field name_fields[] = {
	{"class", RT_AT(struct name, class_name)},
	{"position", .head = "at", RT_AT(struct name, judge.position)},
	{"was", RT_AT(struct name, was)},
	{"name", .head = "judge", RT_AT(struct name, judge.name)},
	{"scribe", RT_AT(struct name, judge.scribe)},
	{"from_number", .head = "from no.", RT_AT(struct name, from_number), .type = RT_EXACT},
};

static const struct rt_record name_table = RT_TABLE("judge", "Judge kept", name_fields,
						    struct name);

static bool same_text(const char *a, const char *b)
{
	return a && b ? strcmp(a, b) == 0 : !a == !b;
}

/* Who is the first of a class to start at a time of day or after it. */
static const struct rt_entry *starter_from(struct cli *c, const struct rt_entries *entries,
					   const char *class_name, int64_t of_day_s)
{
	const struct rt_entry *first = NULL;
	struct rt_starts starts = {0};

	CLI_DO(c, rt_store_times(c->store, entries, &starts, &c->err));
	if (starts.n && rt_day_of(starts.at[0].at_s) != rt_day_of(starts.at[starts.n - 1].at_s))
		CLI_FAIL(c, RT_E_INPUT, "class %s starts on several days: --from NUMBER",
			 class_name);
	for (size_t i = 0; i < starts.n && !first; i++)
		if (starts.at[i].at_s % RT_DAY_S >= of_day_s)
			first = starts.at[i].entry;
	RT_LIST_FREE(&starts);
	if (!first)
		CLI_FAIL(c, RT_E_NOTFOUND, "nobody of class %s starts then or later: `times`",
			 class_name);
	return first;
}

/* The entry that --from says, its id; 0: it is not given. */
static int64_t find_from(struct cli *c, const struct name *o, struct rt_exact *number)
{
	struct rt_entries entries = {0};
	const struct rt_entry *entry = NULL;
	int64_t from, id = 0;

	if (!o->from)
		return 0;
	CLI_DO(c, rt_store_entries(c->store, o->class_name, &entries, &c->err));
	if (rt_parse_int(o->from, &from))
		cli_find_entry(c, &entries, o->class_name, from, &entry);
	else if (rt_time_read(o->from, &from))
		entry = starter_from(c, &entries, o->class_name, from);
	else
		CLI_FAIL(c, RT_E_USAGE,
			 "--from: \"%s\": the number of an entry, or a time of day (11:20)",
			 o->from);
	if (entry && !c->err.code) {
		id = entry->id;
		*number = rt_exact(entry->number, 0);
	}
	RT_LIST_FREE(&entries);
	return id;
}

/* Whether it is said so already: of all sheets, or of the last ones from an entry on. */
static bool is_so(const struct rt_judge_sheets *judged, const struct rt_judge *was,
		  const struct rt_judge *judge, int64_t from)
{
	bool begun = !from;

	if (!same_text(was->scribe, judge->scribe))
		return false;
	for (size_t i = 0; i < judged->n; i++) {
		if (judged->at[i].judge != was->id)
			continue;
		begun |= judged->at[i].entry == from;
		if (begun && !same_text(judged->at[i].name, judge->name))
			return false;
	}
	return same_text(was->name, judge->name);
}

static void note_sits_too(struct cli *c, const struct rt_class *k, const struct rt_judge *was,
			  const struct rt_judge *judge)
{
	for (size_t i = 0; i < k->judges.n; i++) {
		const struct rt_judge *other = &k->judges.at[i];

		if (other != was && other->name && same_text(other->name, judge->name))
			rt_report_note(&c->report, "%s sits at %s in class %s too.", other->name,
				       other->position, k->name);
	}
}

#define SPELLS_BYTES 1000 /* of who sits at a position, one after another */

/* Tell who gives which sheets. */
static void note_spells(struct cli *c, const struct rt_class *k, const struct rt_judge *was)
{
	struct rt_judge_sheets judged = {0};
	struct rt_judge now = {.id = was->id};
	char words[SPELLS_BYTES];

	CLI_DO(c, rt_store_judged(c->store, k->name, &judged, &c->err));
	rt_judge_spells(&judged, &now, words, sizeof words);
	rt_report_note(&c->report, "Sheets at %s, in the order of starting: %s.", was->position,
		       words);
	RT_LIST_FREE(&judged);
}

static void judge_name(struct cli *c, const void *typed)
{
	const struct name *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	struct rt_judge_sheets judged = {0};
	struct name kept = *o;
	struct rt_judge *judge = &kept.judge;
	const struct rt_judge *was = NULL;
	const struct rt_class *k;
	int64_t from;

	cli_store(c, true);
	k = cli_class(c, o->class_name);
	if (!k)
		return;
	for (size_t i = 0; i < k->judges.n; i++)
		if (rt_same_name(k->judges.at[i].position, judge->position))
			was = &k->judges.at[i];
	if (!was) {
		CLI_FAIL(c, RT_E_NOTFOUND, "no judge sits at %s in class %s: %s", judge->position,
			 k->name, k->positions);
		return;
	}
	judge->position = was->position;
	if (!cli_given(c, &o->judge.scribe))
		judge->scribe = was->scribe;
	from = find_from(c, o, &kept.from_number);
	CLI_DO(c, rt_store_judged(c->store, k->name, &judged, &c->err));
	if (is_so(&judged, was, judge, from))
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	else
		CLI_DO(c,
		       rt_store_judge_name_put(c->store, k->name, judge, from, &reason, &c->err));
	RT_LIST_FREE(&judged);
	kept.was = was->name;
	rt_report_list(&c->report, &name_table, &kept, 1);
	if (from)
		note_spells(c, k, was);
	note_sits_too(c, k, was, judge);
}

const struct cli_command cmd_judge_name = {
	.name = "judge name",
	.summary = "Say who judges at a position of a class, and who writes there.",
	.details =
		"Who sat there before stays in the history (`judge history CLASS`). NAME \"\" takes the\n"
		"name away; the scribe stays unless --scribe is given. With --from the judge is replaced:\n"
		"the sheets from that entry on, in the order of starting, are NAME's, those before stay\n"
		"whose they were. Without it all sheets of the class are NAME's.",
	.example = "--show spring.show judge name 3 C \"Una Alder\" --scribe \"Per Ask\"",
	CLI_OPTIONS(struct name, name_options),
	.table = {&name_table},
	.run = judge_name,
	.lists = true,
};

/* ---- judge list and history -------------------------------------------------------------- */

struct judge_row {
	const char *class_name;
	const struct rt_judge *judge;
	char spells[SPELLS_BYTES]; /* who sat there, one after another; "": one judge */
	struct cli_names away;	   /* the numbers for which the judge was away */
};

#define JUDGE(member) RT_IN(struct judge_row, judge, struct rt_judge, member)

static const struct rt_field list_fields[] = {
	{"class", RT_AT(struct judge_row, class_name)},
	{"position", .head = "at", JUDGE(position)},
	{"president", JUDGE(president), .type = RT_BOOL},
	{"name", .head = "judge", JUDGE(name)},
	{"scribe", JUDGE(scribe)},
	{"sheets_by", RT_AT(struct judge_row, spells), .type = RT_CHARS},
	{"away_for", RT_AT(struct judge_row, away.text), .type = RT_CHARS},
};

static const struct rt_record list_table = RT_TABLE("judges", "Judges", list_fields,
						    struct judge_row);

/* Returns how many positions have no name yet. */
static size_t put_judges(struct cli *c, struct rt_table *t, const struct rt_class *k)
{
	struct rt_away_sheets away = {0};
	struct rt_judge_sheets judged = {0};
	size_t unnamed = 0;

	CLI_DO(c, rt_store_away(c->store, k->name, &away, &c->err));
	CLI_DO(c, rt_store_judged(c->store, k->name, &judged, &c->err));
	for (size_t i = 0; i < k->judges.n; i++) {
		struct judge_row row = {.class_name = k->name, .judge = &k->judges.at[i]};
		const struct rt_judge replaced = {.id = row.judge->id};

		rt_judge_spells(&judged, &replaced, row.spells, sizeof row.spells);
		for (size_t a = 0; a < away.n; a++) {
			if (away.at[a].judge == row.judge->id)
				cli_name(&row.away, "%lld", (long long)away.at[a].number);
		}
		rt_put_row(t, &row);
		unnamed += !row.judge->name;
	}
	RT_LIST_FREE(&away);
	RT_LIST_FREE(&judged);
	return unnamed;
}

static void judge_list(struct cli *c, const void *typed)
{
	const struct rt_classes *classes = cli_classes(c);
	const struct rt_class *one = CLI_TYPED(typed) ? cli_class(c, CLI_TYPED(typed)) : NULL;
	struct rt_table *t = rt_report_rows(&c->report, &list_table);
	size_t unnamed = 0;

	for (size_t i = 0; i < classes->n && !c->err.code; i++)
		if (!one || one == &classes->at[i])
			unnamed += put_judges(c, t, &classes->at[i]);
	if (unnamed)
		rt_report_note(&c->report, "%zu position%s no name yet: `judge name` gives it.",
			       unnamed, unnamed == 1 ? " has" : "s have");
}

const struct cli_command cmd_judge_list = {
	.name = "judge list",
	.summary = "List who judges and who writes, position by position.",
	.example = "--show spring.show judge list 3",
	CLI_OPTIONS(const char *, cli_class_if_any),
	.table = {&list_table},
	.run = judge_list,
};

struct named_row {
	const struct rt_judge_name *kept;
	const char *name; /* "nobody" too */
	struct rt_exact from;
};

#define NAMED(member) RT_IN(struct named_row, kept, struct rt_judge_name, member)

static const struct rt_field history_fields[] = {
	{"at", .head = "when", NAMED(reason.when)},
	{"position", .head = "at", NAMED(position)},
	{"name", .head = "judge", RT_AT(struct named_row, name)},
	{"scribe", NAMED(scribe)},
	{"from_number", .head = "from no.", RT_AT(struct named_row, from), .type = RT_EXACT},
	{"why", NAMED(reason.why)},
	{"by", NAMED(reason.who)},
};

static const struct rt_record history_table = RT_TABLE("history", "History", history_fields,
						       struct named_row);

static void judge_history(struct cli *c, const void *typed)
{
	struct rt_table *t = rt_report_rows(&c->report, &history_table);
	struct rt_judge_names names = {0};

	cli_class(c, CLI_TYPED(typed));
	CLI_DO(c, rt_store_judge_history(c->store, CLI_TYPED(typed), &names, &c->err));
	for (size_t i = 0; i < names.n; i++) {
		const struct rt_judge_name *one = &names.at[i];

		rt_put_row(t, &(struct named_row){one,
						  one->name ? one->name : "nobody",
						  {one->from_entry > 0, one->from_number, 0}});
	}
	RT_LIST_FREE(&names);
}

const struct cli_command cmd_judge_history = {
	.name = "judge history",
	.summary = "Who was ever named to judge and to write in a class, when, by whom and why.",
	.example = "--show spring.show judge history 3",
	CLI_OPTIONS(const char *, cli_class_argument),
	.table = {&history_table},
	.run = judge_history,
};
