-- Entries and people: numbers given out, changes with their history, who judges.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: numbering_get
SELECT first, last, keep FROM numbering;

-- name: numbering_put
INSERT INTO numbering (id, first, last, keep) VALUES (1, ?1, ?2, ?3)
ON CONFLICT (id) DO UPDATE SET first = excluded.first, last = excluded.last, keep = excluded.keep;

-- name: numbers_given_up
SELECT CAST(was AS INTEGER) FROM entry_change WHERE field = 'number' AND was IS NOT NULL
ORDER BY id;

-- name: number_now
-- What became of a number that an entry of the class had before; the latest such entry.
SELECT number FROM entry_change JOIN entry ON entry.id = entry
WHERE field = 'number' AND was = ?2 AND class = ?1 ORDER BY entry_change.id DESC LIMIT 1;

-- name: class_marked
SELECT EXISTS (SELECT 1 FROM entry WHERE class = ?1 AND (
	EXISTS (SELECT 1 FROM mark WHERE mark.entry = entry.id)
	OR EXISTS (SELECT 1 FROM sheet_line WHERE sheet_line.entry = entry.id)));

-- name: entry_marked
SELECT EXISTS (SELECT 1 FROM mark WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM sheet_line WHERE entry = ?1);

-- name: entry_change_insert
INSERT INTO entry_change (entry, field, was, became, why, who, at)
VALUES (?1, :field, :was, :became, :why, :who, :at);

-- name: entry_change_latest
SELECT field, was, became, why, who, at FROM entry_change JOIN entry ON entry.id = entry
WHERE class = ?1 AND number = ?2 ORDER BY entry_change.id DESC LIMIT 1;

-- name: entry_history
-- How an entry came in, what was changed of it, and how it stood; by time, and in the order it
-- was kept where the times are the same.
SELECT field, was, became, why, who, at FROM (
	SELECT 'entered' AS field, NULL AS was, CASE coalesce((SELECT was FROM entry_change
		WHERE entry = ?1 AND field = 'late' ORDER BY id LIMIT 1),
		CASE late WHEN 1 THEN 'yes' END) WHEN 'yes' THEN 'late' ELSE 'in time' END AS became,
		NULL AS why, NULL AS who, entered_at AS at, 1 AS part, 0 AS seq
	FROM entry WHERE id = ?1
	UNION ALL
	SELECT field, was, became, why, who, at, 2, id FROM entry_change WHERE entry = ?1
	UNION ALL
	SELECT 'status', coalesce((SELECT status FROM status_change AS before
		WHERE before.entry = ?1 AND before.id < status_change.id
		ORDER BY before.id DESC LIMIT 1), 'entered'), status, why, who, at, 2, id
	FROM status_change WHERE entry = ?1)
ORDER BY part, at, seq;

-- name: entry_bound
-- Whether anything in the show is said of an entry that goes by its class.
SELECT EXISTS (SELECT 1 FROM draw_place WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM start_time WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM printed_line WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM penalty WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM mark WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM sheet_line WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM sheet_event WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM missing_mark WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM judge_away WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM decision_place WHERE entry = ?1)
	OR EXISTS (SELECT 1 FROM judge_name WHERE from_entry = ?1)
	OR EXISTS (SELECT 1 FROM posted_place WHERE entry = ?1);

-- name: entry_move
UPDATE entry SET class = ?2, number = ?3 WHERE id = ?1;

-- name: entry_copy
INSERT INTO entry (class, number, driver, horses, height_cm, turnout, carriage, groom, club,
	division, hors_concours, entered_at, late)
SELECT ?2, ?3, driver, horses, height_cm, turnout, carriage, groom, club, division, hors_concours,
	entered_at, late
FROM entry WHERE id = ?1;

-- name: entry_copy_status
-- How it stood last, if anything was said.
INSERT INTO status_change (entry, status, why, who, at)
SELECT ?2, status, why, who, at FROM status_change WHERE entry = ?1 ORDER BY id DESC LIMIT 1;

-- name: entry_copy_marks
-- From the judges of one class to those who sit at the same positions in the other.
INSERT INTO mark (entry, judge, item, keying, version, mark_x100, pass, remark)
SELECT ?2, there.id, item, keying, mark.version, mark_x100, pass, remark
FROM mark JOIN judge AS here ON here.id = mark.judge
JOIN judge AS there ON there.class = ?3 AND there.position = here.position
WHERE mark.entry = ?1;

-- name: entry_copy_sheet_lines
INSERT INTO sheet_line (entry, judge, kind, keying, version, value, pass, remark)
SELECT ?2, there.id, kind, keying, version, value, pass, remark
FROM sheet_line JOIN judge AS here ON here.id = sheet_line.judge
JOIN judge AS there ON there.class = ?3 AND there.position = here.position
WHERE sheet_line.entry = ?1;

-- name: entry_copy_sheet_events
INSERT INTO sheet_event (entry, judge, state, why, who, at)
SELECT ?2, there.id, state, why, who, at
FROM sheet_event JOIN judge AS here ON here.id = sheet_event.judge
JOIN judge AS there ON there.class = ?3 AND there.position = here.position
WHERE sheet_event.entry = ?1 ORDER BY sheet_event.id;

-- name: entry_copy_missing
INSERT INTO missing_mark (entry, judge, item, missing, why, who, at)
SELECT ?2, there.id, item, missing, why, who, at
FROM missing_mark JOIN judge AS here ON here.id = missing_mark.judge
JOIN judge AS there ON there.class = ?3 AND there.position = here.position
WHERE missing_mark.entry = ?1 ORDER BY missing_mark.id;

-- name: entry_copy_away
INSERT INTO judge_away (entry, judge, away, why, who, at)
SELECT ?2, there.id, away, why, who, at
FROM judge_away JOIN judge AS here ON here.id = judge_away.judge
JOIN judge AS there ON there.class = ?3 AND there.position = here.position
WHERE judge_away.entry = ?1 ORDER BY judge_away.id;

-- name: entry_copy_penalties
-- Those that hold: what was taken back stays where it was.
INSERT INTO penalty (entry, points_x100, errors, eliminated, article, why, who, at)
SELECT ?2, points_x100, errors, eliminated, article, why, who, at FROM penalty
WHERE entry = ?1 AND undoes IS NULL
	AND NOT EXISTS (SELECT 1 FROM penalty AS undo WHERE undo.undoes = penalty.id)
ORDER BY id;

-- name: team_member_move
UPDATE team_member SET class = ?3, number = ?4 WHERE class = ?1 AND number = ?2;

-- name: class_update
UPDATE class SET title = :title, test = :test, level = :level, ring = :ring, rule = :rule,
	division = :division
WHERE name = :name;

-- name: class_change_insert
INSERT INTO class_change (class, field, was, became, why, who, at)
VALUES (?1, :field, :was, :became, :why, :who, :at);

-- name: class_history
SELECT field, was, became, why, who, at FROM class_change WHERE class = ?1 ORDER BY id;

-- name: judges_clear
DELETE FROM judge WHERE class = ?1;

-- name: judge_preside
UPDATE judge SET president = ?3 WHERE class = ?1 AND position = ?2;

-- name: judge_name_insert
INSERT INTO judge_name (class, position, name, scribe, from_entry, why, who, at)
VALUES (?1, :position, :name, :scribe, :from_entry, :why, :who, :at);

-- name: judge_name_history
SELECT position, name, scribe, from_entry, number AS from_number, why, who, at
FROM judge_name LEFT JOIN entry ON entry.id = from_entry
WHERE judge_name.class = ?1 ORDER BY judge_name.id;

-- name: judged_list
-- Who gives each sheet of the positions whose judge was replaced, in the order of starting: by the
-- start times, else as drawn, else by number.  One who withdrew keeps the last time there was.
WITH starting AS (
	SELECT entry.id AS entry, number, row_number() OVER (
		ORDER BY at_s IS NULL, at_s, place IS NULL, place, number) AS seq
	FROM entry LEFT JOIN start_time ON start_time.entry = entry.id AND version =
		(SELECT max(version) FROM start_time WHERE entry = entry.id AND at_s IS NOT NULL)
	LEFT JOIN draw_place ON draw_place.entry = entry.id
		AND draw = (SELECT max(id) FROM draw WHERE class = ?1)
	WHERE entry.class = ?1)
SELECT starting.entry, number, judge.id AS judge, (
	SELECT name FROM judge_name WHERE class = ?1 AND position = judge.position
		AND (from_entry IS NULL OR (SELECT seq FROM starting WHERE entry = from_entry)
			<= starting.seq)
	ORDER BY id DESC LIMIT 1) AS name
FROM judge JOIN starting WHERE judge.class = ?1 AND EXISTS (SELECT 1 FROM judge_name
	WHERE class = ?1 AND position = judge.position AND from_entry IS NOT NULL)
ORDER BY judge.seq, starting.seq;

-- name: team_member_renumber
UPDATE team_member SET number = ?3 WHERE class = ?1 AND number = ?2;

-- name: payee_renumber
-- Who is paid for the old number is paid for the new one too.
INSERT INTO payee (number, name, who, at)
SELECT ?2, name, ?3, ?4 FROM payee WHERE number = ?1 ORDER BY id DESC LIMIT 1;
