-- The file itself: how it is opened, transactions, what the show says of itself.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: version_get
PRAGMA user_version;

-- name: synchronous_full
PRAGMA synchronous = FULL;

-- name: cache_size
-- 8 MiB: the pages that an import of a big show writes.
PRAGMA cache_size = -8192;

-- name: journal_size_limit
-- A log that is folded into the file is left empty.
PRAGMA journal_size_limit = 0;

-- name: journal_wal
PRAGMA journal_mode = WAL;

-- name: journal_delete
PRAGMA journal_mode = DELETE;

-- name: begin_reading
BEGIN;

-- name: begin_writing
BEGIN IMMEDIATE;

-- name: begin_alone
BEGIN EXCLUSIVE;

-- name: commit
COMMIT;

-- name: rollback
ROLLBACK;

-- name: show_insert
INSERT INTO show (id, title, day, created) VALUES (1, ?1, ?2, ?3);

-- name: show_get
SELECT title, day, created FROM show;

-- name: heading_get
SELECT columns FROM heading WHERE file = ?1;

-- name: heading_put
INSERT INTO heading (file, columns) VALUES (?1, ?2)
ON CONFLICT (file) DO UPDATE SET columns = excluded.columns;
