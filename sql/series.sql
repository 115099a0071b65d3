-- Championships, teams, prize money.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: championship_insert
INSERT INTO championship (name, title, classes, tally, taken_of, competitor, ties, dropped)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (name) DO NOTHING;

-- name: championship_there
SELECT title, classes, tally, taken_of, competitor, ties, dropped
FROM championship WHERE name = ?1;

-- name: championship_list
SELECT name, title, classes, tally, taken_of, competitor, ties, dropped
FROM championship ORDER BY id;

-- name: team_member_insert
INSERT INTO team_member (class, number, team)
VALUES (?1, ?2, ?3) ON CONFLICT (class, number) DO NOTHING;

-- name: team_member_there
SELECT team FROM team_member WHERE class = ?1 AND number = ?2;

-- name: team_member_list
SELECT team, class, number FROM team_member ORDER BY id;

-- name: entry_known
SELECT EXISTS (SELECT 1 FROM entry WHERE class = ?1 AND number = ?2);

-- name: prize_step_insert
INSERT INTO prize_step (scale, starters, place, amount_x100)
VALUES (?1, ?2, ?3, ?4) ON CONFLICT (scale, starters, place) DO NOTHING;

-- name: prize_step_there
SELECT amount_x100 FROM prize_step WHERE scale = ?1 AND starters = ?2 AND place = ?3;

-- name: prize_step_list
SELECT scale, starters, place, amount_x100 FROM prize_step ORDER BY scale, starters, place;

-- name: payee_insert
INSERT INTO payee (number, name, who, at) SELECT ?1, ?2, ?3, ?4
WHERE EXISTS (SELECT 1 FROM entry WHERE number = ?1);

-- name: payee_list
SELECT number, name FROM payee AS p WHERE id = (SELECT max(id) FROM payee WHERE number = p.number)
ORDER BY number;
