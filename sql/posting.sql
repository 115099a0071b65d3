-- Results as they were posted.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: posting_insert
-- The times as dates and times of one form, so that they can be compared as text.
INSERT INTO posting (class, version, who, at, until)
SELECT ?1, 1 + coalesce((SELECT max(version) FROM posting WHERE class = ?1), 0), ?2, datetime(?3),
	datetime(?3, format('+%d minutes', ?4));

-- name: posted_place_insert
INSERT INTO posted_place (posting, entry, place, status, score, percent)
VALUES (?1, ?2, :place, :status, :score, :percent);

-- name: posting_list
SELECT id, version, who, at, until FROM posting WHERE class = ?1 ORDER BY version;

-- name: posting_latest
SELECT id, version, who, at, until FROM posting WHERE class = ?1 ORDER BY version DESC LIMIT 1;

-- name: posted_place_list
SELECT number, place, status, score, percent
FROM posted_place JOIN entry ON entry.id = entry WHERE posting = ?1 ORDER BY number;
