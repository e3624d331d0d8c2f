-- SPDX-FileCopyrightText: 2026 The Airmuster developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- Schema 1 of the logbook file. Run once, in the transaction that makes the file, which also sets
-- application_id and user_version. Two kinds of tables, never mixed: `records` is shared, merged
-- and exported; `local_...` belongs to this file and never leaves it. A backup is a copy of the file,
-- but of `local_...` it holds only what guards the records: `local_heads` and `local_verifications`.
-- Instants are milliseconds since 1970-01-01T00:00:00Z.

-- One row a record, never updated and never deleted. What stands in the columns from `station` to
-- `kind` is read from `content` and stands there to be searched and sorted by.
CREATE TABLE records (
    arrival INTEGER PRIMARY KEY,     -- 1, 2, 3 ... in the order in which they came into this file
    station TEXT NOT NULL,
    seq INTEGER NOT NULL CHECK (seq >= 1),
    at_ms INTEGER NOT NULL,
    entered_ms INTEGER NOT NULL CHECK (entered_ms >= at_ms),
    device TEXT NOT NULL,
    kind TEXT NOT NULL,
    content TEXT NOT NULL,           -- canonical JSON (RFC 8785)
    hash BLOB NOT NULL CHECK (length(hash) = 32),
                                     -- SHA-256 of the hash before (zeros at first) and content
    arrived_ms INTEGER NOT NULL,
    UNIQUE (station, seq)
) STRICT;

CREATE INDEX records_in_reading_order ON records (at_ms, entered_ms, station, seq);
CREATE INDEX records_by_device ON records (device, at_ms, entered_ms, station, seq);
-- Which `adopt` and which `person` record is the first must be known at every append; these and the
-- strikes before anything is judged.
CREATE INDEX records_that_found ON records (kind, at_ms, entered_ms, station, seq)
    WHERE kind IN ('adopt', 'person', 'strike');

CREATE TRIGGER records_are_never_updated BEFORE UPDATE ON records
BEGIN
    SELECT RAISE(ABORT, 'records are never updated');
END;

CREATE TRIGGER records_are_never_deleted BEFORE DELETE ON records
BEGIN
    SELECT RAISE(ABORT, 'records are never deleted');
END;

-- Also keeps INSERT OR REPLACE, which runs no DELETE trigger, from putting a row in the place of
-- another.
CREATE TRIGGER records_are_only_appended BEFORE INSERT ON records
WHEN NEW.arrival <> 1 + coalesce((SELECT max(arrival) FROM records), 0)
    OR NEW.seq <> 1 + coalesce((SELECT max(seq) FROM records WHERE station = NEW.station), 0)
BEGIN
    SELECT RAISE(ABORT, 'records are only appended');
END;

-- Of each station the last record that this file was given, noted with it, so that a tail cut off
-- is missed; and until when the station was heard.
CREATE TABLE local_heads (
    station TEXT PRIMARY KEY,
    seq INTEGER NOT NULL,
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    entered_ms INTEGER NOT NULL,     -- the latest of its records
    arrived_ms INTEGER NOT NULL
) STRICT;

-- The station whose records this file writes: one row or none.
CREATE TABLE local_station (
    only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
    name TEXT NOT NULL,
    since_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE local_settings (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;

-- Who brought in which file of records, and what was new in it.
CREATE TABLE local_imports (
    number INTEGER PRIMARY KEY,
    file TEXT NOT NULL,
    person TEXT NOT NULL,
    at_ms INTEGER NOT NULL,
    added INTEGER NOT NULL,
    skipped INTEGER NOT NULL
) STRICT;

-- The secrets by which people sign in at this station, as Argon2id hashes in libsodium's own text
-- form: of each person the PIN, and the one code that gives a manager a new PIN. Not in a backup.
CREATE TABLE local_credentials (
    purpose TEXT NOT NULL CHECK (purpose IN ('pin', 'recovery')),
    person TEXT NOT NULL,            -- '' for the recovery code, which is nobody's
    hash TEXT NOT NULL,
    failures INTEGER NOT NULL CHECK (failures >= 0),  -- in a row
    failed_ms INTEGER NOT NULL,      -- the last of them; 0 if there is none
    set_by TEXT NOT NULL,
    set_ms INTEGER NOT NULL,
    PRIMARY KEY (purpose, person)
) STRICT;

-- What a scanner reads from a badge, and whose it is. It names a person and proves nothing.
CREATE TABLE local_badges (
    badge TEXT PRIMARY KEY,
    person TEXT NOT NULL UNIQUE
) STRICT;

-- What verify found: the last that found nothing wrong, and the last that did.
CREATE TABLE local_verifications (
    ok INTEGER PRIMARY KEY CHECK (ok IN (0, 1)),
    number INTEGER NOT NULL,         -- the higher one is the later one
    at_ms INTEGER NOT NULL,
    checked INTEGER NOT NULL,
    heads TEXT NOT NULL,             -- {"station":[seq,"hash"]}
    breaks TEXT NOT NULL             -- [{"station":,"seq":,"reason":,"detail":}]
) STRICT;
