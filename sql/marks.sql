-- Marks and the lines below the boxes of a sheet.  The statements on mark and on sheet_line
-- are alike, parameter by parameter: the third is the item, or the kind of line.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: pass_insert
INSERT INTO pass (keying, who, at, source, why) VALUES (?1, ?2, ?3, ?4, ?5);

-- name: mark_insert
INSERT INTO mark (entry, judge, item, keying, version, mark_x100, pass, remark)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
ON CONFLICT (entry, judge, item, keying, version) DO NOTHING;

-- name: mark_latest
SELECT version, mark_x100 FROM mark
WHERE entry = ?1 AND judge = ?2 AND item = ?3 AND keying = ?4
ORDER BY version DESC LIMIT 1;

-- name: mark_list
-- In the table's own order, so that a later version of a box comes after the earlier ones.
SELECT judge, item, keying, mark_x100 FROM mark WHERE entry = ?1
ORDER BY judge, item, keying, version;

-- name: sheets_keyed
-- How many sheets of a class have a mark in a keying.
SELECT count(*) FROM entry JOIN judge ON judge.class = entry.class
WHERE entry.class = ?1 AND EXISTS (SELECT 1 FROM mark
	WHERE mark.entry = entry.id AND mark.judge = judge.id AND mark.keying = ?2
	AND mark_x100 >= 0 AND NOT EXISTS (SELECT 1 FROM mark AS later
		WHERE later.entry = mark.entry AND later.judge = mark.judge
		AND later.item = mark.item AND later.keying = mark.keying
		AND later.version > mark.version));

-- name: sheet_line_insert
INSERT INTO sheet_line (entry, judge, kind, keying, version, value, pass, remark)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
ON CONFLICT (entry, judge, kind, keying, version) DO NOTHING;

-- name: sheet_line_latest
SELECT version, value FROM sheet_line
WHERE entry = ?1 AND judge = ?2 AND kind = ?3 AND keying = ?4
ORDER BY version DESC LIMIT 1;

-- name: sheet_line_list
SELECT judge, kind, keying, value FROM sheet_line WHERE entry = ?1
ORDER BY judge, kind, keying, version;
