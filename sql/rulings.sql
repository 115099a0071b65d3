-- What is said of a class's judges and ties: boxes that nobody can be asked about, judges who were
-- away, decisions between equal entries.  Only the latest row of a box or sheet holds.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: missing_mark_insert
INSERT INTO missing_mark (entry, judge, item, missing, why, who, at)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7);

-- name: missing_mark_list
SELECT said.entry, judge, item FROM missing_mark AS said JOIN entry ON entry.id = said.entry
WHERE class = ?1 AND missing = 1 AND said.id = (SELECT max(id) FROM missing_mark
	WHERE entry = said.entry AND judge = said.judge AND item = said.item);

-- name: judge_away_insert
INSERT INTO judge_away (entry, judge, away, why, who, at) VALUES (?1, ?2, ?3, ?4, ?5, ?6);

-- name: judge_away_list
SELECT said.entry, judge, number FROM judge_away AS said JOIN entry ON entry.id = said.entry
WHERE class = ?1 AND away = 1 AND said.id = (SELECT max(id) FROM judge_away
	WHERE entry = said.entry AND judge = said.judge)
ORDER BY number;

-- name: decision_insert
INSERT INTO decision (class, why, who, at) VALUES (?1, ?2, ?3, ?4);

-- name: decision_place_insert
INSERT INTO decision_place (decision, rank, entry) VALUES (?1, ?2, ?3);

-- name: decision_list
SELECT decision.*, decision.id AS decision, number, rank
FROM decision JOIN decision_place ON decision = decision.id JOIN entry ON entry.id = entry
WHERE decision.class = ?1 ORDER BY decision.id, rank;
