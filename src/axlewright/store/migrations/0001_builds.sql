-- Builds, their revisions, what is attached to them, and results that can be worked out again.

PRAGMA application_id = 0x41584C57;

CREATE TABLE build (
    id      TEXT PRIMARY KEY NOT NULL,
    name    TEXT NOT NULL,
    created TEXT NOT NULL,
    updated TEXT NOT NULL,
    removed TEXT
) WITHOUT ROWID;

CREATE TABLE revision (
    build  TEXT NOT NULL REFERENCES build (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    text   TEXT NOT NULL,
    note   TEXT NOT NULL,
    made   TEXT NOT NULL,
    parent INTEGER CHECK (parent < number),
    PRIMARY KEY (build, number),
    FOREIGN KEY (build, parent) REFERENCES revision (build, number)
);

CREATE TABLE attachment (
    id    TEXT PRIMARY KEY NOT NULL,
    build TEXT NOT NULL REFERENCES build (id),
    name  TEXT NOT NULL,
    kind  TEXT NOT NULL,
    size  INTEGER NOT NULL,
    made  TEXT NOT NULL,
    data  BLOB NOT NULL CHECK (length(data) = size)
);

CREATE INDEX attachment_of_build ON attachment (build, made);

CREATE TABLE result (
    key  TEXT PRIMARY KEY NOT NULL,
    text TEXT NOT NULL,
    size INTEGER NOT NULL,
    used INTEGER NOT NULL
);

CREATE INDEX result_by_use ON result (used);
