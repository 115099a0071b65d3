/* mark move: a sheet that was keyed under a wrong number.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>

#define WHY_BYTES (4 * (CLI_TEXT_MOST + RT_NAME_MOST) + 60)

struct mark_move {
	const char *class_name, *judge, *by, *why;
	int64_t number, to, keying; /* keying 0: both */
};

static const struct rt_field move_options[] = {
	CLI_CLASS(struct mark_move, class_name),
	CLI_NUMBER(struct mark_move, number),
	CLI_JUDGE(struct mark_move, judge, RT_REQUIRED),
	{"to", RT_AT(struct mark_move, to), .head = "NUMBER", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .is = RT_REQUIRED, .help = "whose sheet it is"},
	{"keying", RT_AT(struct mark_move, keying), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_KEYINGS, .help = "unless given, all that was keyed"},
	CLI_BY(struct mark_move, by, RT_REQUIRED),
	CLI_WHY(struct mark_move, why, RT_REQUIRED),
};

struct moving {
	const struct mark_move *typed;
	struct cli_desk desk; /* of the whole class; its entry is the one moved from */
	const struct rt_entry *to;
	int keying;
	char why[WHY_BYTES]; /* of what the other sheet gets */
	size_t moved, same;
};

/* What a keying of an entry's sheet says where a row of another says something. */
static const struct rt_mark_version *said(const struct moving *m, const struct rt_entry *entry,
					  const struct rt_mark_version *row)
{
	return rt_mark_latest(&m->desk.versions, entry->id, m->desk.judge->id, row->kind, row->item,
			      m->keying);
}

/* Whether the row is what the keying of this entry's sheet says now. */
static bool holds(const struct moving *m, const struct rt_entry *entry,
		  const struct rt_mark_version *row)
{
	return row->entry == entry->id && row->judge == m->desk.judge->id &&
	       row->keying == m->keying && said(m, entry, row) == row;
}

/* Whether the sheet that is moved says anything in this keying. */
static bool is_keyed(const struct moving *m)
{
	for (size_t i = 0; i < m->desk.versions.n; i++)
		if (holds(m, m->desk.entry, &m->desk.versions.at[i]))
			return true;
	return false;
}

/* A sheet that has marks of its own in this keying is not written over. */
static void check_target(struct cli *c, const struct moving *m)
{
	const struct rt_mark_versions *all = &m->desk.versions;

	for (size_t i = 0; i < all->n; i++) {
		const struct rt_mark_version *row = &all->at[i], *from;

		if (!holds(m, m->to, row))
			continue;
		from = said(m, m->desk.entry, row);
		if (!from || from->value != row->value)
			CLI_FAIL(c, RT_E_INPUT,
				 "number %" PRId64 " has other marks in keying %d, by %s: move "
				 "those away first",
				 m->to->number, m->keying, row->who ? row->who : "somebody");
	}
}

/* Give a mark to the other sheet, in the name of who keyed it. */
static void give(struct cli *c, struct moving *m, const struct rt_mark_version *row)
{
	const struct rt_pass pass = {m->keying, row->who, c->when, "mark move", m->why};
	enum rt_mark_put what = RT_MARK_SAME;

	CLI_DO(c, rt_store_pass_begin(c->store, &pass, &c->err));
	CLI_DO(c, rt_store_mark_put(c->store, m->to->id, row->judge, row->item, row->kind,
				    row->value, row->remark, &what, &c->err));
	m->moved += what != RT_MARK_SAME;
	m->same += what == RT_MARK_SAME;
}

/* Empty the box that it was keyed into. */
static void take(struct cli *c, const struct moving *m, const struct rt_mark_version *row)
{
	const struct rt_pass pass = {m->keying, m->typed->by, c->when, "mark move", m->typed->why};
	bool put;

	CLI_DO(c, rt_store_pass_begin(c->store, &pass, &c->err));
	CLI_DO(c, rt_store_mark_put_after(c->store, row->entry, row->judge, row->item, row->kind,
					  RT_NO_MARK, NULL, row->version, &put, &c->err));
}

static void move_keying(struct cli *c, struct moving *m)
{
	const struct rt_mark_versions *all = &m->desk.versions;

	if (is_keyed(m))
		check_target(c, m);
	for (size_t i = 0; i < all->n && !c->err.code; i++) {
		if (!holds(m, m->desk.entry, &all->at[i]))
			continue;
		give(c, m, &all->at[i]);
		take(c, m, &all->at[i]);
	}
}

/* The entry that the sheet is of; it must have sheets. */
static void find_target(struct cli *c, struct moving *m)
{
	const struct rt_class_marks *marks = &m->desk.book.marks;

	cli_desk_entry(c, &m->desk, m->typed->to);
	if (c->err.code)
		return;
	m->to = m->desk.entry;
	if (m->to->status == RT_WITHDRAWN || m->to->status == RT_DID_NOT_START ||
	    marks->lines[m->desk.entry_place * marks->class_->judges.n + m->desk.judge_place].away)
		CLI_FAIL(c, RT_E_INPUT,
			 "number %" PRId64 " has no sheet of judge %s: see the number",
			 m->to->number, m->desk.judge->position);
	if (m->typed->to == m->typed->number)
		CLI_FAIL(c, RT_E_USAGE, "--to: another number than %" PRId64, m->typed->number);
}

#define TYPED(member) RT_IN(struct moving, typed, struct mark_move, member)

static const struct rt_field moved_fields[] = {
	{"class", .head = "Class", TYPED(class_name)},
	{"number", .head = "No.", TYPED(number), .type = RT_INT},
	{"to_number", .head = "To no.", TYPED(to), .type = RT_INT},
	{"judge", .head = "Judge", RT_IN(struct moving, desk.judge, struct rt_judge, position)},
	{"boxes", .head = "Boxes and lines", RT_AT(struct moving, moved), .type = RT_SIZE},
	{"same", .head = "There already", RT_AT(struct moving, same), .type = RT_SIZE},
	{"by", .head = "By", TYPED(by)},
	{"why", .head = "Why", TYPED(why)},
};

static const struct rt_record moved_table = RT_TABLE("moved_sheet", "Sheet moved", moved_fields,
						     struct moving);

static void mark_move(struct cli *c, const void *typed)
{
	const struct mark_move *o = typed;
	struct moving m = {.typed = o};

	snprintf(m.why, sizeof m.why, "keyed as number %" PRId64 ", moved by %s: %s", o->number,
		 o->by, o->why);
	cli_desk_sheet(c, &m.desk, o->class_name, 0, o->judge, true);
	if (!c->err.code)
		find_target(c, &m);
	if (!c->err.code)
		cli_desk_entry(c, &m.desk, o->number);
	for (m.keying = 1; m.keying <= RT_KEYINGS && !c->err.code; m.keying++)
		if (!o->keying || o->keying == m.keying)
			move_keying(c, &m);
	if (!m.moved && !m.same)
		CLI_FAIL(c, RT_E_NOTFOUND, "number %" PRId64 " has no such marks of judge %s",
			 o->number, o->judge);
	rt_report_list(&c->report, &moved_table, &m, 1);
	cli_note_posted(c, o->class_name);
	cli_desk_free(&m.desk);
}

const struct cli_command cmd_mark_move = {
	.name = "mark move",
	.summary = "Give a sheet that was keyed under a wrong number to the right one.",
	.details =
		"Marks, remarks, errors and hand total go over in the names of those who keyed them; the\n"
		"wrong number's boxes are empty from then on, and both histories say why. Nothing is\n"
		"written over: where the right number has other marks in that keying it is refused.",
	.example = "--show spring.show mark move 1 11 --judge C --to 10 --by \"Tove Hallbäck\" "
		   "--why \"read 11 for 10\"",
	CLI_OPTIONS(struct mark_move, move_options),
	.run = mark_move,
	.table = {&moved_table},
};
