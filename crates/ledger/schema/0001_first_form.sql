-- The ledger, first form. One text for both servers: BYTES stands for BYTEA on PostgreSQL, and on
-- SQLite BIGINT, DOUBLE PRECISION and BYTES stand for INTEGER, REAL and BLOB, and {strict} for STRICT.
--
-- Days are whole numbers such as 20310714. Moments are microseconds since 1970 began, UTC.
-- A note's id is its batch's number times 2^32 and its place in the batch: one batch lies together,
-- new notes always go to the end, and the UUID of a note is that of its batch with its place at the end.
-- Tables of notes spell out `= .. OR = ..`: SQLite builds a small tree for `IN (..)` at every row, which was
-- measured to take two thirds of the time of taking.
-- Rows are added and never changed, but for those of the tables after the line "what may change".

CREATE TABLE form (
    number BIGINT PRIMARY KEY
){strict};

-- Who brought what, when and from where.
CREATE TABLE batch (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('varieties', 'grow-out', 'fruit samples', 'picks', 'heights',
                                       'stages', 'colours', 'by hand')),
    file_name TEXT,
    sheet TEXT,
    sha256 BYTES CHECK (length(sha256) = 32),
    reading TEXT,
    why TEXT
){strict};
CREATE INDEX batch_by_sha256 ON batch (sha256);
CREATE INDEX batch_by_file_name ON batch (file_name);

-- The cells of its heading row.
CREATE TABLE heading (
    batch BIGINT NOT NULL REFERENCES batch,
    place BIGINT NOT NULL,
    words TEXT NOT NULL,
    PRIMARY KEY (batch, place)
){strict};

-- What it added, counted when it was committed.
CREATE TABLE batch_summary (
    batch BIGINT PRIMARY KEY REFERENCES batch,
    varieties BIGINT NOT NULL,
    aliases BIGINT NOT NULL,
    claims BIGINT NOT NULL,
    grow_outs BIGINT NOT NULL,
    plots BIGINT NOT NULL,
    plants BIGINT NOT NULL,
    fruit_samples BIGINT NOT NULL,
    picks BIGINT NOT NULL,
    heights BIGINT NOT NULL,
    stages BIGINT NOT NULL,
    colours BIGINT NOT NULL,
    doubted BIGINT NOT NULL,
    confirmed BIGINT NOT NULL,
    withdrawn BIGINT NOT NULL,
    corrected BIGINT NOT NULL,
    already_there BIGINT NOT NULL,
    gone BIGINT NOT NULL,
    quarantined BIGINT NOT NULL
){strict};

-- A batch uses what another brought, so the other cannot be undone alone.
CREATE TABLE resting (
    batch BIGINT NOT NULL REFERENCES batch,
    rests_on BIGINT NOT NULL REFERENCES batch,
    PRIMARY KEY (batch, rests_on),
    CHECK (rests_on < batch)
){strict};
CREATE INDEX resting_by_rests_on ON resting (rests_on);

-- The newest action of a batch tells whether it stands; a batch without any stands.
CREATE TABLE undoing (
    number BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    action TEXT NOT NULL CHECK (action IN ('undone', 'restored')),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT
){strict};
CREATE INDEX undoing_by_batch ON undoing (batch, number);

CREATE VIEW standing_batch AS
SELECT number FROM batch
WHERE number NOT IN (
    SELECT batch FROM undoing
    WHERE action = 'undone' AND number IN (SELECT max(number) FROM undoing GROUP BY batch)
);

CREATE TABLE variety (
    number BIGINT PRIMARY KEY,
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL CHECK (length(name_key) > 0)
){strict};
CREATE INDEX variety_by_name_key ON variety (name_key);

CREATE TABLE alias (
    variety BIGINT NOT NULL REFERENCES variety,
    alias_key TEXT NOT NULL CHECK (length(alias_key) > 0),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    alias TEXT NOT NULL,
    PRIMARY KEY (alias_key, variety, batch)
){strict};

-- Every name that means a variety, its own and its aliases.
CREATE VIEW standing_name AS
SELECT name_key, number AS variety, name AS written, name AS holder FROM variety
WHERE batch IN (SELECT number FROM standing_batch)
UNION ALL
SELECT alias_key, variety, alias, name FROM alias JOIN variety ON variety.number = alias.variety
WHERE alias.batch IN (SELECT number FROM standing_batch);

CREATE TABLE claim (
    variety BIGINT NOT NULL REFERENCES variety,
    about TEXT NOT NULL CHECK (about IN ('habit', 'fruit class', 'colour', 'fruit weight',
                                         'days to maturity', 'purpose', 'other')),
    words TEXT NOT NULL,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    PRIMARY KEY (variety, about, words, batch)
){strict};

CREATE TABLE grow_out (
    number BIGINT PRIMARY KEY,
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL,
    season BIGINT NOT NULL CHECK (season BETWEEN 1900 AND 2199),
    garden TEXT NOT NULL
){strict};

CREATE TABLE plot (
    number BIGINT PRIMARY KEY,
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    grow_out BIGINT NOT NULL REFERENCES grow_out,
    label TEXT NOT NULL CHECK (length(label) > 0),
    label_key TEXT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety
){strict};

-- What is known of a plot; the newest row of a standing batch wins.
CREATE TABLE plot_detail (
    number BIGINT PRIMARY KEY,
    plot BIGINT NOT NULL REFERENCES plot,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    block BIGINT CHECK (block >= 0),
    bed_row BIGINT CHECK (bed_row >= 0),
    position BIGINT CHECK (position >= 0),
    transplanted BIGINT CHECK (transplanted BETWEEN 19000101 AND 99991231),
    plant_count BIGINT CHECK (plant_count >= 0)
){strict};

-- What is known of a plant; the newest row of a standing batch wins.
CREATE TABLE plant_detail (
    number BIGINT PRIMARY KEY,
    plot BIGINT NOT NULL REFERENCES plot,
    plant BIGINT NOT NULL CHECK (plant >= 0),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    transplanted BIGINT CHECK (transplanted BETWEEN 19000101 AND 99991231),
    lost BIGINT CHECK (lost BETWEEN 19000101 AND 99991231)
){strict};

CREATE TABLE fruit_sample (
    id BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL,
    plot BIGINT REFERENCES plot,
    plant BIGINT,
    sampled_on BIGINT,
    fruit_count BIGINT NOT NULL,
    weight_g DOUBLE PRECISION,
    length_mm DOUBLE PRECISION,
    width_mm DOUBLE PRECISION,
    neck_mm DOUBLE PRECISION,
    locules BIGINT,
    soluble_solids_percent DOUBLE PRECISION,
    dry_matter_percent DOUBLE PRECISION,
    lobes BIGINT,
    cracking TEXT CHECK (cracking = 'absent' OR cracking = 'slight' OR cracking = 'moderate' OR cracking = 'severe'),
    catfacing TEXT CHECK (catfacing = 'absent' OR catfacing = 'slight' OR catfacing = 'moderate'
        OR catfacing = 'severe'),
    exterior TEXT CHECK (exterior = 'red' OR exterior = 'pink' OR exterior = 'orange' OR exterior = 'yellow'
        OR exterior = 'white' OR exterior = 'green' OR exterior = 'brown' OR exterior = 'black'
        OR exterior = 'bicolour'),
    flesh TEXT CHECK (flesh = 'red' OR flesh = 'pink' OR flesh = 'orange' OR flesh = 'yellow' OR flesh = 'white'
        OR flesh = 'green' OR flesh = 'brown' OR flesh = 'black' OR flesh = 'bicolour'),
    skin TEXT CHECK (skin = 'clear' OR skin = 'yellow'),
    CHECK (id / 4294967296 = batch AND season BETWEEN 1900 AND 2199 AND fruit_count > 0),
    CHECK (sampled_on BETWEEN 19000101 AND 99991231),
    CHECK (weight_g >= 0 AND length_mm >= 0 AND width_mm >= 0 AND neck_mm >= 0),
    CHECK (soluble_solids_percent BETWEEN 0 AND 100 AND dry_matter_percent BETWEEN 0 AND 100)
){strict};

CREATE TABLE pick (
    id BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL,
    plot BIGINT REFERENCES plot,
    plant BIGINT,
    picked_on BIGINT NOT NULL,
    fruit_count BIGINT,
    weight_g DOUBLE PRECISION,
    CHECK (id / 4294967296 = batch AND season BETWEEN 1900 AND 2199),
    CHECK (picked_on BETWEEN 19000101 AND 99991231 AND fruit_count >= 0 AND weight_g >= 0)
){strict};

CREATE TABLE cull (
    pick BIGINT NOT NULL REFERENCES pick,
    place BIGINT NOT NULL,
    cause TEXT NOT NULL CHECK (cause = 'cracked' OR cause = 'catfaced' OR cause = 'blossom-end rot' OR cause = 'rotten'
        OR cause = 'sunscald' OR cause = 'eaten' OR cause = 'undersized' OR cause = 'other'),
    fruit_count BIGINT CHECK (fruit_count >= 0),
    weight_g DOUBLE PRECISION CHECK (weight_g >= 0),
    PRIMARY KEY (pick, place)
){strict};

CREATE TABLE height_reading (
    id BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL,
    plot BIGINT REFERENCES plot,
    plant BIGINT,
    read_on BIGINT NOT NULL,
    height_mm DOUBLE PRECISION NOT NULL,
    CHECK (id / 4294967296 = batch AND season BETWEEN 1900 AND 2199),
    CHECK (read_on BETWEEN 19000101 AND 99991231 AND height_mm >= 0)
){strict};

CREATE TABLE stage_note (
    id BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL,
    plot BIGINT REFERENCES plot,
    plant BIGINT,
    noted_on BIGINT,
    seen TEXT NOT NULL CHECK (seen = 'first flower' OR seen = 'first ripe' OR seen = 'stem ended' OR seen = 'stem growing'
        OR seen = 'leaves between trusses' OR seen = 'plant count' OR seen = 'off-type'
        OR seen = 'dwarf leaves'),
    trusses BIGINT CHECK (trusses >= 0),
    leaves DOUBLE PRECISION CHECK (leaves BETWEEN 0 AND 20),
    plants BIGINT CHECK (plants >= 0),
    words TEXT,
    CHECK (id / 4294967296 = batch AND season BETWEEN 1900 AND 2199),
    CHECK (noted_on BETWEEN 19000101 AND 99991231),
    CHECK (trusses IS NULL OR seen = 'stem ended' OR seen = 'stem growing'),
    CHECK (seen <> 'stem growing' OR trusses IS NOT NULL),
    CHECK ((leaves IS NOT NULL) = (seen = 'leaves between trusses')),
    CHECK ((plants IS NOT NULL) = (seen = 'plant count' OR seen = 'off-type')),
    CHECK ((words IS NOT NULL) = (seen = 'off-type'))
){strict};

CREATE TABLE colour_reading (
    id BIGINT PRIMARY KEY,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL,
    plot BIGINT REFERENCES plot,
    plant BIGINT,
    read_on BIGINT,
    part TEXT NOT NULL CHECK (part = 'exterior' OR part = 'flesh' OR part = 'gel'),
    word TEXT CHECK (word = 'red' OR word = 'pink' OR word = 'orange' OR word = 'yellow' OR word = 'white'
        OR word = 'green' OR word = 'brown' OR word = 'black' OR word = 'bicolour'),
    lightness DOUBLE PRECISION CHECK (lightness BETWEEN 0 AND 100),
    a DOUBLE PRECISION CHECK (a BETWEEN -150 AND 150),
    b DOUBLE PRECISION CHECK (b BETWEEN -150 AND 150),
    pattern TEXT CHECK (pattern = 'plain' OR pattern = 'striped' OR pattern = 'marbled'
        OR pattern = 'dark-shouldered'),
    skin TEXT CHECK (skin = 'clear' OR skin = 'yellow'),
    CHECK (id / 4294967296 = batch AND season BETWEEN 1900 AND 2199),
    CHECK (read_on BETWEEN 19000101 AND 99991231),
    CHECK ((word IS NULL) = (lightness IS NOT NULL)),
    CHECK ((lightness IS NULL) = (a IS NULL) AND (a IS NULL) = (b IS NULL))
){strict};

-- Which batches touch the evidence of which variety: notes of theirs, or things done to notes. The
-- standing ones among them are what an evidence stamp is made of. The first and the last note of the
-- variety in the batch stand for an index: rows of one variety lie near each other in every file that a
-- person keeps, and an index of its own was measured to cost a sixth of the time of taking.
CREATE TABLE touched (
    variety BIGINT NOT NULL REFERENCES variety,
    batch BIGINT NOT NULL REFERENCES batch,
    fruit_samples BIGINT NOT NULL,
    picks BIGINT NOT NULL,
    heights BIGINT NOT NULL,
    stages BIGINT NOT NULL,
    colours BIGINT NOT NULL,
    first_note BIGINT,
    last_note BIGINT,
    PRIMARY KEY (variety, batch),
    CHECK (first_note <= last_note AND first_note / 4294967296 = batch AND last_note / 4294967296 = batch)
){strict};

-- Things said of single notes. Each names its note once, as noun and id; the five columns made from
-- these hold the reference to the noun's own table.
CREATE TABLE doubt (
    record BIGINT NOT NULL,
    noun TEXT NOT NULL CHECK (noun = 'fruit sample' OR noun = 'pick' OR noun = 'height reading' OR noun = 'stage note'
        OR noun = 'colour reading'),
    place BIGINT NOT NULL,
    kind TEXT NOT NULL CHECK (kind = 'beyond limit' OR kind = 'weight against size' OR kind = 'swapped columns'
        OR kind = 'before transplanting' OR kind = 'unlike its variety' OR kind = 'in the future'),
    words TEXT NOT NULL,
    {of_one_noun},
    PRIMARY KEY (record, place)
){strict};

CREATE TABLE confirmation (
    record BIGINT NOT NULL,
    noun TEXT NOT NULL CHECK (noun IN ('fruit sample', 'pick', 'height reading', 'stage note',
                                       'colour reading')),
    batch BIGINT NOT NULL REFERENCES batch,
    {of_one_noun},
    PRIMARY KEY (record, batch)
){strict};

CREATE TABLE withdrawal (
    record BIGINT NOT NULL,
    noun TEXT NOT NULL CHECK (noun IN ('fruit sample', 'pick', 'height reading', 'stage note',
                                       'colour reading')),
    batch BIGINT NOT NULL REFERENCES batch,
    {of_one_noun},
    PRIMARY KEY (record, batch)
){strict};

CREATE TABLE correction (
    record BIGINT NOT NULL,
    noun TEXT NOT NULL CHECK (noun IN ('fruit sample', 'pick', 'height reading', 'stage note',
                                       'colour reading')),
    batch BIGINT NOT NULL REFERENCES batch,
    replacement BIGINT NOT NULL UNIQUE CHECK (replacement / 4294967296 = batch),
    {of_one_noun},
    PRIMARY KEY (record, batch)
){strict};

-- Notes that no longer count because somebody withdrew or replaced them.
CREATE VIEW ended_record AS
SELECT record FROM withdrawal WHERE batch IN (SELECT number FROM standing_batch)
UNION ALL
SELECT record FROM correction WHERE batch IN (SELECT number FROM standing_batch);

-- Notes that do not count until somebody has looked at them.
CREATE VIEW doubted_record AS
SELECT record, noun FROM doubt
WHERE place = 0 AND record NOT IN (
    SELECT record FROM confirmation WHERE batch IN (SELECT number FROM standing_batch)
);

-- Rows that could not be taken, with their cells in one line: tabs between, and \t \n \r \\ written out.
CREATE TABLE quarantine (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL,
    print BIGINT NOT NULL,
    column_heading TEXT,
    value TEXT NOT NULL,
    reason TEXT NOT NULL,
    remedy TEXT NOT NULL,
    cells TEXT NOT NULL
){strict};
CREATE INDEX quarantine_by_batch ON quarantine (batch);

CREATE TABLE quarantine_solved (
    quarantine BIGINT NOT NULL REFERENCES quarantine,
    batch BIGINT NOT NULL REFERENCES batch,
    PRIMARY KEY (quarantine, batch)
){strict};

CREATE TABLE guide_version (
    guide TEXT NOT NULL,
    version BIGINT NOT NULL CHECK (version > 0),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT,
    body TEXT NOT NULL,
    PRIMARY KEY (guide, version)
){strict};

-- what may change: preferences, and what can be worked out again.

CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
){strict};

CREATE TABLE mapping (
    name TEXT PRIMARY KEY,
    kind TEXT NOT NULL,
    headings TEXT NOT NULL,
    body TEXT NOT NULL
){strict};

CREATE TABLE stored_call (
    variety BIGINT NOT NULL REFERENCES variety,
    subject TEXT NOT NULL CHECK (subject IN ('habit', 'fruit class', 'colour')),
    verdict TEXT,
    probability DOUBLE PRECISION NOT NULL CHECK (probability BETWEEN 0 AND 1),
    contested BIGINT NOT NULL CHECK (contested IN (0, 1)),
    evidence BIGINT NOT NULL,
    guide BIGINT NOT NULL,
    detail TEXT NOT NULL,
    PRIMARY KEY (variety, subject)
){strict};
