-- Tests, classes and entries.  Each _there statement gives the row with the key of its _insert.
-- Parameters and columns that are called as a field is in the show file are that field's.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: test_insert
INSERT INTO test (name, title, kind, level, rule, multiplier_x1000000)
VALUES (:name, :title, :kind, :level, :rule, :multiplier_x1000000) ON CONFLICT (name) DO NOTHING;

-- name: test_there
SELECT * FROM test WHERE name = :name;

-- name: test_list
SELECT * FROM test ORDER BY id;

-- name: test_get
SELECT * FROM test WHERE name = ?1;

-- name: test_known
SELECT EXISTS (SELECT 1 FROM test WHERE name = ?1);

-- name: item_insert
INSERT INTO item (seq, test, name, letters, movement, figure, gait, coefficient_x1000, item_group,
	mark_step_x100, judges)
VALUES (?1, :test, :name, :letters, :movement, :figure, :gait, :coefficient_x1000, :item_group,
	:mark_step_x100, :judges) ON CONFLICT (test, seq) DO NOTHING;

-- name: item_there
SELECT * FROM item WHERE seq = ?1 AND test = :test;

-- name: item_count
SELECT count(*) FROM item WHERE test = ?1;

-- name: item_list
SELECT * FROM item WHERE test = ?1 ORDER BY seq;

-- name: class_insert
INSERT INTO class (name, title, test, level, ring, rule, division)
VALUES (:name, :title, :test, :level, :ring, :rule, :division) ON CONFLICT (name) DO NOTHING;

-- name: class_there
SELECT * FROM class WHERE name = :name;

-- name: class_list
SELECT class.*, coalesce(class.level, test.level) AS level_used,
	coalesce(class.rule, test.rule) AS rule_used
FROM class LEFT JOIN test ON test.name = class.test WHERE removed_at IS NULL ORDER BY class.id;

-- name: class_get
SELECT class.*, coalesce(class.level, test.level) AS level_used,
	coalesce(class.rule, test.rule) AS rule_used
FROM class LEFT JOIN test ON test.name = class.test WHERE class.name = ?1 AND removed_at IS NULL;

-- name: class_names
SELECT name FROM class WHERE removed_at IS NULL ORDER BY id;

-- name: class_known
SELECT EXISTS (SELECT 1 FROM class WHERE name = ?1 AND removed_at IS NULL);

-- name: class_removed
SELECT EXISTS (SELECT 1 FROM class WHERE name = ?1 AND removed_at IS NOT NULL);

-- name: class_remove
UPDATE class SET removed_at = ?2 WHERE name = ?1;

-- name: judge_insert
INSERT INTO judge (class, seq, position, president) VALUES (?1, ?2, :position, :president);

-- name: judge_list
SELECT judge.*, name, scribe
FROM judge LEFT JOIN judge_name ON judge_name.id = (SELECT max(id) FROM judge_name
	WHERE class = judge.class AND position = judge.position)
WHERE judge.class = ?1 ORDER BY seq;

-- name: entry_insert
INSERT INTO entry (class, number, driver, horses, height_cm, turnout, carriage, groom, club,
	division, hors_concours, entered_at, late)
VALUES (:class, :number, :driver, :horses, :height_cm, :turnout, :carriage, :groom, :club,
	:division, :hors_concours, :entered_at, :late) ON CONFLICT (class, number) DO NOTHING;

-- name: entry_update
UPDATE entry SET number = :number, driver = :driver, horses = :horses, height_cm = :height_cm,
	turnout = :turnout, carriage = :carriage, groom = :groom, club = :club,
	division = :division, hors_concours = :hors_concours, late = :late
WHERE id = :id;

-- name: entry_there
SELECT * FROM entry WHERE class = :class AND number = :number;

-- name: entry_list
SELECT entry.*, coalesce(status, 'entered') AS status, why AS status_why, who AS status_by,
	at AS status_at,
	(SELECT count(*) FROM entry_change WHERE entry_change.entry = entry.id) AS changes
FROM entry LEFT JOIN status_change ON status_change.id =
	(SELECT max(id) FROM status_change WHERE entry = entry.id)
WHERE class = ?1 ORDER BY number;

-- name: status_change_insert
INSERT INTO status_change (entry, status, why, who, at)
SELECT id, ?3, ?4, ?5, ?6 FROM entry WHERE class = ?1 AND number = ?2;

-- name: status_before_elimination
-- An entry that an elimination put out stands as before, unless another one holds.
INSERT INTO status_change (entry, status, why, who, at)
SELECT id, coalesce((SELECT status FROM status_change
		WHERE entry = id AND status <> 'eliminated' ORDER BY status_change.id DESC LIMIT 1),
	'entered'), ?3, ?4, ?5
FROM entry WHERE class = ?1 AND number = ?2
	AND (SELECT status FROM status_change WHERE entry = entry.id
		ORDER BY status_change.id DESC LIMIT 1) = 'eliminated'
	AND NOT EXISTS (SELECT 1 FROM penalty WHERE entry = entry.id AND eliminated = 1
		AND NOT EXISTS (SELECT 1 FROM penalty AS undo WHERE undo.undoes = penalty.id));

-- name: penalty_insert
WITH whose AS (SELECT id FROM entry WHERE class = ?1 AND number = :number)
INSERT INTO penalty (entry, points_x100, errors, eliminated, article, why, who, at)
SELECT id, :points_x100, :errors, :eliminated, :article, :why, :who, :at FROM whose;

-- name: penalty_undo
INSERT INTO penalty (entry, points_x100, eliminated, undoes, why, who, at)
SELECT entry, 0, 0, id, ?2, ?3, ?4 FROM penalty WHERE id = ?1;

-- name: penalty_points
-- Of those that hold.
SELECT coalesce(sum(points_x100), 0) FROM penalty JOIN entry ON entry.id = entry
WHERE class = ?1 AND number = ?2
	AND NOT EXISTS (SELECT 1 FROM penalty AS undo WHERE undo.undoes = penalty.id);

-- name: penalty_list
-- Those that hold; with ?2 those that were taken back, too.
SELECT penalty.*, number, undo.id AS undone, undo.who AS undone_by, undo.why AS undone_why,
	undo.at AS undone_at
FROM penalty JOIN entry ON entry.id = penalty.entry
LEFT JOIN penalty AS undo ON undo.undoes = penalty.id
WHERE class = ?1 AND penalty.undoes IS NULL AND (?2 OR undo.id IS NULL) ORDER BY penalty.id;
