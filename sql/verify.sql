-- Looks at the file as a whole.  Each statement but the first two gives a row for each fault: where
-- it is, and what is wrong.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: verify_integrity
PRAGMA integrity_check(50);

-- name: verify_references
-- Rows that name what is not there.
SELECT "table", 'row ' || coalesce(rowid, '?') || ' names a row of ' || parent || ' that is not there'
FROM pragma_foreign_key_check;

-- name: verify_schema
SELECT name FROM sqlite_schema;

-- name: verify_history_rows
-- Rows of a history are numbered one by one and never taken away.
WITH history (name, n, last) AS (
	SELECT 'status_change', count(*), max(id) FROM status_change
	UNION ALL SELECT 'penalty', count(*), max(id) FROM penalty
	UNION ALL SELECT 'entry_change', count(*), max(id) FROM entry_change
	UNION ALL SELECT 'class_change', count(*), max(id) FROM class_change
	UNION ALL SELECT 'judge_name', count(*), max(id) FROM judge_name
	UNION ALL SELECT 'payee', count(*), max(id) FROM payee
	UNION ALL SELECT 'pass', count(*), max(id) FROM pass
	UNION ALL SELECT 'sheet_event', count(*), max(id) FROM sheet_event
	UNION ALL SELECT 'missing_mark', count(*), max(id) FROM missing_mark
	UNION ALL SELECT 'judge_away', count(*), max(id) FROM judge_away
	UNION ALL SELECT 'decision', count(*), max(id) FROM decision
	UNION ALL SELECT 'posting', count(*), max(id) FROM posting
	UNION ALL SELECT 'ring_check', count(*), max(id) FROM ring_check)
SELECT name, 'has ' || n || ' rows, but the last is row ' || last FROM history WHERE n <> last;

-- name: verify_mark_versions
-- Few marks have a second version, so the one before is looked for only there.
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' item ' || item.name
	|| ' keying ' || keying || ': version ' || (version - 1) || ' is not there'
FROM mark JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge JOIN item ON item.id = item
WHERE version > 1 AND NOT EXISTS (SELECT 1 FROM mark AS before WHERE before.entry = mark.entry
	AND before.judge = mark.judge AND before.item = mark.item AND before.keying = mark.keying
	AND before.version = mark.version - 1);

-- name: verify_line_versions
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' ' || kind
	|| ' keying ' || keying || ': version ' || (version - 1) || ' is not there'
FROM sheet_line JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge
WHERE version > 1 AND NOT EXISTS (SELECT 1 FROM sheet_line AS before
	WHERE before.entry = sheet_line.entry AND before.judge = sheet_line.judge
	AND before.kind = sheet_line.kind AND before.keying = sheet_line.keying
	AND before.version = sheet_line.version - 1);

-- name: verify_mark_steps
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' item '
	|| item.name || ': ' || rtrim(format('%d.%02d', mark_x100 / 100, mark_x100 % 100), '0')
	|| ' is not in the steps of its item'
FROM mark CROSS JOIN item ON item.id = item CROSS JOIN entry ON entry.id = entry
	CROSS JOIN judge ON judge.id = judge
WHERE mark_x100 >= 0 AND mark_x100 % mark_step_x100 <> 0;

-- name: verify_mark_sheets
-- A mark belongs to a judge of the entry's class, an item of its test, and a pass of its keying.
-- Entry by entry, so that its class is looked up once.
SELECT 'class ' || entry.class || ' number ' || number, 'a mark of the judge at ' || position
	|| ', item ' || item.name || ', belongs to another class, test or keying'
FROM entry CROSS JOIN class ON class.name = entry.class CROSS JOIN mark ON mark.entry = entry.id
	CROSS JOIN judge ON judge.id = judge CROSS JOIN item ON item.id = item
	CROSS JOIN pass ON pass.id = pass
WHERE judge.class <> entry.class OR item.test <> class.test OR pass.keying <> mark.keying;

-- name: verify_posting_versions
SELECT 'class ' || class, 'the versions posted are not 1 to ' || count(*)
FROM posting GROUP BY class HAVING min(version) <> 1 OR max(version) <> count(*);

-- name: verify_counts
SELECT (SELECT count(*) FROM class), (SELECT count(*) FROM entry), (SELECT count(*) FROM mark),
	(SELECT count(*) FROM posting);
