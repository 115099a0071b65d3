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
	const char *was; /* named before */
};

static const struct rt_field name_options[] = {
	CLI_CLASS(struct name, class_name),
	{"position", RT_AT(struct name, judge.position), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"name", RT_AT(struct name, judge.name), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_EMPTY},
	{"scribe", RT_AT(struct name, judge.scribe), .type = RT_NAME, .is = RT_EMPTY,
	 .help = "who writes for the judge"},
	CLI_WHY(struct name, reason.why, 0),
	CLI_BY(struct name, reason.who, 0),
};

static const struct rt_field name_fields[] = {
	{"class", RT_AT(struct name, class_name)},
	{"position", .head = "at", RT_AT(struct name, judge.position)},
	{"was", RT_AT(struct name, was)},
	{"name", .head = "judge", RT_AT(struct name, judge.name)},
	{"scribe", RT_AT(struct name, judge.scribe)},
};

static const struct rt_record name_table = RT_TABLE("judge", "Judge kept", name_fields,
						    struct name);

static bool same_text(const char *a, const char *b)
{
	return a && b ? strcmp(a, b) == 0 : !a == !b;
}

static void judge_name(struct cli *c, const void *typed)
{
	const struct name *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	struct name kept = *o;
	struct rt_judge *judge = &kept.judge;
	const struct rt_judge *was = NULL;
	const struct rt_class *k;

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
	if (same_text(was->name, judge->name) && same_text(was->scribe, judge->scribe))
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	else
		CLI_DO(c, rt_store_judge_name_put(c->store, k->name, judge, &reason, &c->err));
	kept.was = was->name;
	rt_report_list(&c->report, &name_table, &kept, 1);
	for (size_t i = 0; i < k->judges.n; i++) {
		const struct rt_judge *other = &k->judges.at[i];

		if (other != was && other->name && same_text(other->name, judge->name))
			rt_report_note(&c->report, "%s sits at %s in class %s too.", other->name,
				       other->position, k->name);
	}
}

const struct cli_command cmd_judge_name = {
	.name = "judge name",
	.summary = "Say who judges at a position of a class, and who writes there.",
	.details =
		"Who sat there before stays in the history (`judge history CLASS`). NAME \"\" takes the\n"
		"name away; the scribe stays unless --scribe is given.",
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
	struct cli_names away; /* the numbers for which the judge was away */
};

#define JUDGE(member) RT_IN(struct judge_row, judge, struct rt_judge, member)

static const struct rt_field list_fields[] = {
	{"class", RT_AT(struct judge_row, class_name)},
	{"position", .head = "at", JUDGE(position)},
	{"president", JUDGE(president), .type = RT_BOOL},
	{"name", .head = "judge", JUDGE(name)},
	{"scribe", JUDGE(scribe)},
	{"away_for", RT_AT(struct judge_row, away.text), .type = RT_CHARS},
};

static const struct rt_record list_table = RT_TABLE("judges", "Judges", list_fields,
						    struct judge_row);

/* Returns how many positions have no name yet. */
static size_t put_judges(struct cli *c, struct rt_table *t, const struct rt_class *k)
{
	struct rt_away_sheets away = {0};
	size_t unnamed = 0;

	CLI_DO(c, rt_store_away(c->store, k->name, &away, &c->err));
	for (size_t i = 0; i < k->judges.n; i++) {
		struct judge_row row = {k->name, &k->judges.at[i], {{0}, 0, false}};

		for (size_t a = 0; a < away.n; a++) {
			if (away.at[a].judge == row.judge->id)
				cli_name(&row.away, "%lld", (long long)away.at[a].number);
		}
		rt_put_row(t, &row);
		unnamed += !row.judge->name;
	}
	RT_LIST_FREE(&away);
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

static const struct rt_field history_fields[] = {
	{"at", .head = "when", RT_AT(struct rt_judge_name, reason.when)},
	{"position", .head = "at", RT_AT(struct rt_judge_name, position)},
	{"name", .head = "judge", RT_AT(struct rt_judge_name, name)},
	{"scribe", RT_AT(struct rt_judge_name, scribe)},
	{"why", RT_AT(struct rt_judge_name, reason.why)},
	{"by", RT_AT(struct rt_judge_name, reason.who)},
};

static const struct rt_record history_table = RT_TABLE("history", "History", history_fields,
						       struct rt_judge_name);

static void judge_history(struct cli *c, const void *typed)
{
	struct rt_judge_names names = {0};

	cli_class(c, CLI_TYPED(typed));
	CLI_DO(c, rt_store_judge_history(c->store, CLI_TYPED(typed), &names, &c->err));
	for (size_t i = 0; i < names.n; i++)
		if (!names.at[i].name)
			names.at[i].name = "nobody";
	rt_report_list(&c->report, &history_table, names.at, names.n);
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
