-- A database as format 1 wrote it; kept for ever.
PRAGMA application_id = 1096305751;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE attachment (
    id    TEXT PRIMARY KEY NOT NULL,
    build TEXT NOT NULL REFERENCES build (id),
    name  TEXT NOT NULL,
    kind  TEXT NOT NULL,
    size  INTEGER NOT NULL,
    made  TEXT NOT NULL,
    data  BLOB NOT NULL CHECK (length(data) = size)
);
INSERT INTO "attachment" VALUES('att234567abc','wren2345','sheet.bin','application/octet-stream',4,'2024-03-01T10:03:00.000001+00:00',X'0001FEFF');
CREATE TABLE build (
    id      TEXT PRIMARY KEY NOT NULL,
    name    TEXT NOT NULL,
    created TEXT NOT NULL,
    updated TEXT NOT NULL,
    removed TEXT
) WITHOUT ROWID;
INSERT INTO "build" VALUES('pe23kcan','Tin Pelican','2024-03-02T10:00:00.000001+00:00','2024-03-02T10:00:00.000001+00:00','2024-03-03T10:00:00.000001+00:00');
INSERT INTO "build" VALUES('wren2345','Copper Wren','2024-03-01T10:00:00.000001+00:00','2024-03-01T10:02:00.000003+00:00',NULL);
CREATE TABLE result (
    key  TEXT PRIMARY KEY NOT NULL,
    text TEXT NOT NULL,
    size INTEGER NOT NULL,
    used INTEGER NOT NULL
);
INSERT INTO "result" VALUES('key','{"holds": true}',15,1);
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
INSERT INTO "revision" VALUES('wren2345',1,'format = 1
name = "Copper Wren"

[car]
weight = "3650 lb"  # scale

[gearbox]
kind = "manual"

[axle]
ring_gear = "8.5"
','from the template','2024-03-01T10:00:00.000001+00:00',NULL);
INSERT INTO "revision" VALUES('wren2345',2,'format = 1
name = "Copper Wren"

[car]
weight = "3650 ± 40 lb"  # scale

[gearbox]
kind = "manual"

[axle]
ring_gear = "8.5"
','','2024-03-01T10:01:00.000002+00:00',1);
INSERT INTO "revision" VALUES('wren2345',3,'format = 1
name = "Copper Wren"

[car]
weight = "3650 lb"  # scale

[gearbox]
kind = "manual"

[axle]
ring_gear = "8.5"
','back to revision 1','2024-03-01T10:02:00.000003+00:00',2);
INSERT INTO "revision" VALUES('pe23kcan',1,'format = 1
name = "Tin Pelican"
','','2024-03-02T10:00:00.000001+00:00',NULL);
CREATE INDEX attachment_of_build ON attachment (build, made);
CREATE INDEX result_by_use ON result (used);
COMMIT;
