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
	UNION ALL SELECT 'pass', count(*), max(id) FROM pass
	UNION ALL SELECT 'sheet_event', count(*), max(id) FROM sheet_event
	UNION ALL SELECT 'missing_mark', count(*), max(id) FROM missing_mark
	UNION ALL SELECT 'judge_away', count(*), max(id) FROM judge_away
	UNION ALL SELECT 'decision', count(*), max(id) FROM decision
	UNION ALL SELECT 'posting', count(*), max(id) FROM posting
	UNION ALL SELECT 'ring_check', count(*), max(id) FROM ring_check)
SELECT name, 'has ' || n || ' rows, but the last is row ' || last FROM history WHERE n <> last;

-- name: verify_mark_versions
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' item ' || item.name
	|| ' keying ' || keying || ': versions are not 1 to ' || count(*)
FROM mark JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge JOIN item ON item.id = item
GROUP BY entry, judge, item, keying HAVING min(version) <> 1 OR max(version) <> count(*);

-- name: verify_line_versions
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' ' || kind
	|| ' keying ' || keying || ': versions are not 1 to ' || count(*)
FROM sheet_line JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge
GROUP BY entry, judge, kind, keying HAVING min(version) <> 1 OR max(version) <> count(*);

-- name: verify_mark_steps
SELECT 'class ' || entry.class || ' number ' || number, 'judge ' || position || ' item '
	|| item.name || ': ' || format('%d.%d', mark_x10 / 10, mark_x10 % 10)
	|| ' is not in the steps of its item'
FROM mark JOIN item ON item.id = item JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge
WHERE mark_x10 % mark_step_x10 <> 0;

-- name: verify_mark_sheets
-- A mark belongs to a judge of the entry's class, an item of its test, and a pass of its keying.
SELECT 'class ' || entry.class || ' number ' || number, 'a mark of the judge at ' || position
	|| ', item ' || item.name || ', belongs to another class, test or keying'
FROM mark JOIN item ON item.id = item JOIN entry ON entry.id = entry JOIN judge ON judge.id = judge
	JOIN pass ON pass.id = pass JOIN class ON class.name = entry.class
WHERE judge.class <> entry.class OR item.test <> class.test OR pass.keying <> mark.keying;

-- name: verify_posting_versions
SELECT 'class ' || class, 'the versions posted are not 1 to ' || count(*)
FROM posting GROUP BY class HAVING min(version) <> 1 OR max(version) <> count(*);

-- name: verify_counts
SELECT (SELECT count(*) FROM class), (SELECT count(*) FROM entry), (SELECT count(*) FROM mark),
	(SELECT count(*) FROM posting);
