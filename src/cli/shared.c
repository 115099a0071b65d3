/* What command files share: the show file, the shipped rows, the roster of names.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdlib.h>
#include <string.h>

enum rt_err cli_store(struct cli *c, bool writing)
{
	if (c->store)
		return RT_OK;
	if (!c->show_path)
		return rt_fail(
			&c->err, RT_E_USAGE,
			"which show? Give --show FILE before the command, or set RINGTRUE_SHOW");
	return rt_store_open(&c->store, c->show_path, writing, &c->err);
}

enum rt_err cli_transaction(struct cli *c, enum rt_err (*work)(struct cli *c, void *data),
			    void *data)
{
	enum rt_err e = rt_store_begin(c->store, &c->err);

	if (e)
		return e;
	e = work(c, data);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (e) {
		rt_store_rollback(c->store);
		return e;
	}
	return rt_store_commit(c->store, &c->err);
}

/* The path of a shipped file, written into path. */
static const char *data_file(char path[static 4096], const char *name)
{
	const char *folder = getenv("RINGTRUE_DATA");

	if (!folder || !*folder)
		folder = RT_DATA_FOLDER;
	snprintf(path, 4096, "%s/%s", folder, name);
	return path;
}

enum rt_err cli_data_rows(struct cli *c, struct rt_shipped *out)
{
	const struct rt_roster roster = {.gaits = &out->gaits};
	struct rt_faults *faults = &c->faults;
	char path[4096];
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = rt_read_ring_kinds(&out->kinds, data_file(path, "rings.csv"), faults, &c->err);
	if (!e)
		e = rt_read_gaits(&out->gaits, data_file(path, "gaits.csv"), faults, &c->err);
	if (!e)
		e = rt_read_levels(&out->levels, data_file(path, "levels.csv"), &roster, faults,
				   &c->err);
	if (!e)
		e = rt_read_rules(&out->rules, data_file(path, "rules.csv"), faults, &c->err);
	if (!e)
		e = rt_read_turnouts(&out->turnouts, data_file(path, "turnouts.csv"), faults,
				     &c->err);
	return e ? e : rt_faults_result(faults, &c->err);
}

enum rt_err cli_rows(struct cli *c, struct rt_shipped *out)
{
	enum rt_err e;

	if (!c->show_path)
		return cli_data_rows(c, out);
	memset(out, 0, sizeof *out);
	e = cli_store(c, false);
	return e ? e : rt_store_shipped(c->store, out, &c->err);
}

void cli_report_import(struct cli *c, const char *what, const struct rt_import_count *count)
{
	static const struct rt_column columns[] = {
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"added", "added", RT_INT, RT_NO_UNIT, 0, false},
		{"same", "there already", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "imported", "Imported", columns, 3);

	rt_put_text(t, what);
	rt_put_int(t, (int64_t)count->added);
	rt_put_int(t, (int64_t)count->same);
	if (!count->added)
		rt_report_note(&c->report, "Nothing was added: all of it is in the show already.");
}

enum rt_err cli_roster(struct cli *c, struct cli_roster *out)
{
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = rt_store_shipped(c->store, &out->rows, &c->err);
	if (!e)
		e = rt_store_rings(c->store, &out->rings, &c->err);
	if (!e)
		e = rt_store_tests(c->store, &out->tests, &c->err);
	if (!e)
		e = rt_store_classes(c->store, &out->classes, &c->err);
	out->roster = (struct rt_roster){
		.kinds = &out->rows.kinds,
		.levels = &out->rows.levels,
		.gaits = &out->rows.gaits,
		.rules = &out->rows.rules,
		.rings = &out->rings,
		.tests = &out->tests,
		.classes = &out->classes,
	};
	return e;
}

void cli_roster_free(struct cli_roster *r)
{
	rt_shipped_free(&r->rows);
	RT_LIST_FREE(&r->rings);
	RT_LIST_FREE(&r->tests);
	rt_classes_free(&r->classes);
}
