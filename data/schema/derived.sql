-- SPDX-FileCopyrightText: 2026 The Airmuster developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- The third kind of tables: `derived_...` holds what can be made again from `records`, so that an
-- answer need not read all of them. It has a revision of its own and belongs to no schema: a file
-- may be without it, whatever writes records makes it, and one of another revision is thrown away
-- and made again. It never leaves the file and is in no backup.

CREATE TABLE derived_revision (
    only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
    revision INTEGER NOT NULL
) STRICT;

-- The state at a place in the reading order, as bytes that the rules engine writes and reads.
CREATE TABLE derived_snapshots (
    number INTEGER PRIMARY KEY,
    at_ms INTEGER NOT NULL,          -- the place: that of the last record in it
    entered_ms INTEGER NOT NULL,
    station TEXT NOT NULL,
    seq INTEGER NOT NULL,
    arrival INTEGER NOT NULL,        -- records that arrived later are not in it
    heads TEXT NOT NULL,             -- of each station then: {"station":[seq,"hash"]}
    strikes TEXT NOT NULL,           -- up to the place, of records behind it: ["station/seq"]
    engine INTEGER NOT NULL,         -- the revision of the rules engine
    rulebooks BLOB NOT NULL CHECK (length(rulebooks) = 32),
    made_by BLOB NOT NULL CHECK (length(made_by) = 32),  -- names the key of whoever kept it
    hash BLOB NOT NULL CHECK (length(hash) = 32),  -- of all this and of `bytes`, by that key
    bytes BLOB NOT NULL
) STRICT;
