-- Tests, classes and entries.  Each _there statement gives the row with the key of its
-- _insert: its columns are the parameters of the insert after the key, under the names of the
-- data files.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: test_insert
INSERT INTO test (name, title, kind, level, rule, multiplier_x1000000)
VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (name) DO NOTHING;

-- name: test_there
SELECT title, kind, level, rule, multiplier_x1000000 AS multiplier FROM test WHERE name = ?1;

-- name: test_list
SELECT name, title, kind, level, rule, multiplier_x1000000 FROM test ORDER BY id;

-- name: test_get
SELECT name, title, kind, level, rule, multiplier_x1000000 FROM test WHERE name = ?1;

-- name: test_known
SELECT EXISTS (SELECT 1 FROM test WHERE name = ?1);

-- name: item_insert
INSERT INTO item (test, seq, name, letters, movement, figure, gait, coefficient_x1000, general,
	mark_step_x10)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10) ON CONFLICT (test, seq) DO NOTHING;

-- name: item_there
SELECT name AS item, letters, movement, figure, gait, coefficient_x1000 AS coefficient, general,
	mark_step_x10 AS mark_step
FROM item WHERE test = ?1 AND seq = ?2;

-- name: item_count
SELECT count(*) FROM item WHERE test = ?1;

-- name: item_list
SELECT id, test, name, letters, movement, figure, gait, coefficient_x1000, general, mark_step_x10
FROM item WHERE test = ?1 ORDER BY seq;

-- name: class_insert
INSERT INTO class (name, title, test, level, ring, rule, division)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (name) DO NOTHING;

-- name: class_there
SELECT title, test, level, ring, rule, division FROM class WHERE name = ?1;

-- name: class_list
SELECT name, title, test, level, ring, rule, division FROM class ORDER BY id;

-- name: class_get
SELECT name, title, test, level, ring, rule, division FROM class WHERE name = ?1;

-- name: class_known
SELECT EXISTS (SELECT 1 FROM class WHERE name = ?1);

-- name: judge_insert
INSERT INTO judge (class, seq, position, president) VALUES (?1, ?2, ?3, ?4);

-- name: judge_list
SELECT judge.id, judge.position, president, name, scribe
FROM judge LEFT JOIN judge_name ON judge_name.id = (SELECT max(id) FROM judge_name
	WHERE class = judge.class AND position = judge.position)
WHERE judge.class = ?1 ORDER BY seq;

-- name: entry_insert
INSERT INTO entry (class, number, driver, horses, height_cm, turnout, groom, club, division,
	hors_concours, entered, late)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12) ON CONFLICT (class, number) DO NOTHING;

-- name: entry_id
SELECT id FROM entry WHERE class = ?1 AND number = ?2;

-- name: entry_there
SELECT driver, horses, height_cm, turnout, groom, club, division, hors_concours
FROM entry WHERE class = ?1 AND number = ?2;

-- name: entry_list
SELECT entry.id, class, number, driver, horses, height_cm, turnout, groom, club, division,
	hors_concours, coalesce(status, 'entered'), why, who, at, entered, late,
	(SELECT count(*) FROM entry_change WHERE entry_change.entry = entry.id)
FROM entry LEFT JOIN status_change ON status_change.id =
	(SELECT max(id) FROM status_change WHERE entry = entry.id)
WHERE class = ?1 ORDER BY number;

-- name: status_change_insert
INSERT INTO status_change (entry, status, why, who, at)
SELECT id, ?3, ?4, ?5, ?6 FROM entry WHERE class = ?1 AND number = ?2;

-- name: penalty_insert
INSERT INTO penalty (entry, points_x100, errors, article, why, who, at)
SELECT id, ?3, ?4, ?5, ?6, ?7, ?8 FROM entry WHERE class = ?1 AND number = ?2;

-- name: penalty_points
SELECT coalesce(sum(points_x100), 0) FROM penalty JOIN entry ON entry.id = entry
WHERE class = ?1 AND number = ?2;

-- name: penalty_list
SELECT number, points_x100, errors, article, why, who, at
FROM penalty JOIN entry ON entry.id = entry WHERE class = ?1 ORDER BY penalty.id;
