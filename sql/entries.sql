-- Entries and people: numbers given out, changes with their history, who judges.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: judge_name_insert
INSERT INTO judge_name (class, position, name, scribe, why, who, at)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7);
