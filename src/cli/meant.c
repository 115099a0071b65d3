/* The ring that a command is about: a ring of the show by name, or a kind; and its readings.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

bool cli_text_in_feet(const struct cli *c)
{
	return c->feet && c->format == CLI_TEXT;
}

void cli_meant_free(struct cli_meant *m)
{
	rt_shipped_free(&m->rows);
	RT_LIST_FREE(&m->rings);
}

static enum rt_err ring_named(struct cli *c, const struct rt_rings *rings, const char *name,
			      const char **kind)
{
	const char *names[64], *nearest;
	size_t n = 0;

	for (size_t i = 0; i < rings->n; i++) {
		if (strcmp(rings->at[i].name, name) == 0) {
			*kind = rings->at[i].kind;
			return RT_OK;
		}
		if (n < sizeof names / sizeof *names)
			names[n++] = rings->at[i].name;
	}
	nearest = rt_nearest(name, names, n);
	return rt_fail(&c->err, RT_E_NOTFOUND, "no ring \"%s\" in this show: %s%s%s", name,
		       nearest ? "did you mean \"" : "`ring list` lists them, `ring add` adds one",
		       nearest ? nearest : "", nearest ? "\"?" : "");
}

enum rt_err cli_meant_find(struct cli *c, const struct cli_call *call, const char *name,
			   bool writing, struct cli_meant *m)
{
	const char *kind = cli_option(call, "kind");
	enum rt_err e = RT_OK;

	if ((name != NULL) == (kind != NULL))
		return rt_fail(&c->err, RT_E_USAGE,
			       "%s wants a ring of the show, or --kind KIND: one of them",
			       call->command->name);
	if (name)
		e = CLI_OLD(c, cli_store(c, writing));
	if (!e)
		e = CLI_OLD(c, cli_rows(c, &m->rows));
	if (!e && name)
		e = rt_store_rings(c->store, &m->rings, &c->err);
	if (!e && name)
		e = ring_named(c, &m->rings, name, &kind);
	if (!e)
		e = rt_ring_kind_named(&m->kind, &m->rows.kinds, kind, &c->err);
	m->name = name;
	return e;
}

enum rt_err cli_read_readings(struct cli *c, const struct cli_call *call, int first,
			      const struct rt_ring_kind *kind, const struct rt_points *points,
			      struct rt_readings *readings, struct rt_heights *heights)
{
	enum rt_err e = RT_OK;

	for (int i = first; !e && i < call->args; i++)
		e = rt_read_readings(readings, heights, call->arg[i], kind, points, &c->faults,
				     &c->err);
	return e ? e : rt_faults_result(&c->faults, &c->err);
}
