-- What a desk does with sheets: every version of a mark with who keyed it, and where sheets are.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: mark_versions
-- Of a class, or of one entry where ?2 is given; lines below the boxes come last on their sheet.
SELECT entry, judge, item, kind, keying, version, value, remark, pass, who, at, source, why
FROM (
	SELECT entry, judge, item, item.seq AS seq, 'item' AS kind, keying, version,
		mark_x100 AS value, remark, pass
	FROM mark JOIN item ON item.id = mark.item
	WHERE entry IN (SELECT id FROM entry WHERE class = ?1 AND (?2 IS NULL OR number = ?2))
	UNION ALL
	SELECT entry, judge, 0, 1000000000, kind, keying, version, value, remark, pass
	FROM sheet_line
	WHERE entry IN (SELECT id FROM entry WHERE class = ?1 AND (?2 IS NULL OR number = ?2))
) AS said JOIN (SELECT id, who, at, source, why FROM pass) AS pass ON pass.id = said.pass
ORDER BY entry, judge, seq, kind, said.keying, version;

-- name: sheet_people
-- Who keyed boxes of a sheet in one keying, but for what was emptied since.
SELECT DISTINCT pass.who FROM mark JOIN pass ON pass.id = mark.pass
WHERE entry = ?1 AND judge = ?2 AND mark.keying = ?3 AND pass.who IS NOT NULL
	AND pass.source IS NOT ?4 AND NOT EXISTS (SELECT 1 FROM mark AS later
		WHERE later.entry = mark.entry AND later.judge = mark.judge
		AND later.item = mark.item AND later.keying = mark.keying
		AND later.version >= mark.version AND later.mark_x100 < 0);

-- name: sheet_event_insert
INSERT INTO sheet_event (entry, judge, state, why, who, at)
VALUES (:entry, :judge, :state, :why, :who, :at);

-- name: sheet_event_list
SELECT entry, judge, state, why, who, at
FROM sheet_event
WHERE entry IN (SELECT id FROM entry WHERE class = ?1 AND (?2 IS NULL OR number = ?2))
ORDER BY id;
