-- Results as they were posted.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: posting_insert
-- The times as dates and times of one form, so that they can be compared as text.
INSERT INTO posting (class, version, who, at, until, unit)
SELECT ?1, 1 + coalesce((SELECT max(version) FROM posting WHERE class = ?1), 0), ?2, datetime(?3),
	datetime(?3, format('+%d minutes', ?4)), ?5;

-- name: posted_place_insert
INSERT INTO posted_place (posting, line, entry, division, place, status, why, starter, score, percent,
	technical, artistic, added, off, parted_by)
VALUES (?1, ?2, :entry, :division, :place, :status, :why, :starter, :score, :percent, :technical,
	:artistic, :added, :off, :parted_by);

-- name: posted_judge_insert
INSERT INTO posted_judge (posting, line, entry, position, points, percent, place)
VALUES (?1, ?2, :entry, :position, :points, :percent, :place);

-- name: posted_note_insert
INSERT INTO posted_note (posting, line, note) VALUES (?1, ?2, ?3);

-- name: posting_list
SELECT id, version, who, at, until, unit FROM posting WHERE class = ?1 ORDER BY version;

-- name: posting_latest
SELECT id, version, who, at, until, unit FROM posting WHERE class = ?1
ORDER BY version DESC LIMIT 1;

-- name: posted_place_list
-- The names as they are now: one that was spelled wrong is put right on paper too.
SELECT entry, number, driver, horses, club, posted_place.division AS division, place,
	posted_place.status AS status, why, starter, score, percent, technical, artistic, added, off,
	parted_by
FROM posted_place JOIN entry ON entry.id = entry WHERE posting = ?1 ORDER BY line;

-- name: posted_judge_list
SELECT entry, position, points, percent, place FROM posted_judge WHERE posting = ?1 ORDER BY line;

-- name: posted_note_list
SELECT note FROM posted_note WHERE posting = ?1 ORDER BY line;

-- name: posting_followed
-- Whether anything was recorded of a class from this time on that may change its results.
SELECT CASE WHEN EXISTS (SELECT 1 FROM entry CROSS JOIN mark ON mark.entry = entry.id
		CROSS JOIN pass ON pass.id = pass WHERE class = ?1 AND datetime(pass.at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry CROSS JOIN sheet_line ON sheet_line.entry = entry.id
		CROSS JOIN pass ON pass.id = pass WHERE class = ?1 AND datetime(pass.at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry JOIN penalty ON penalty.entry = entry.id
		WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry JOIN status_change ON status_change.entry = entry.id
		WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry JOIN entry_change ON entry_change.entry = entry.id
		WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry JOIN missing_mark ON missing_mark.entry = entry.id
		WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry JOIN judge_away ON judge_away.entry = entry.id
		WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM entry WHERE class = ?1 AND datetime(entered_at) >= ?2)
	OR EXISTS (SELECT 1 FROM class_change WHERE class = ?1 AND datetime(at) >= ?2)
	OR EXISTS (SELECT 1 FROM decision WHERE class = ?1 AND datetime(at) >= ?2)
	THEN 1 ELSE 0 END;
