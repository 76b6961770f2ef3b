-- The seed room: lots of seed, and what is noted of them. Every note is an entry of one lot; an entry that is withdrawn
-- stays, and can be restored. A lot whose founding entry is withdrawn stands no longer, and its number is free again.

CREATE TABLE seed_lot (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    lot_number TEXT NOT NULL CHECK (length(lot_number) > 0),
    lot_key TEXT NOT NULL CHECK (length(lot_key) > 0),
    variety BIGINT NOT NULL REFERENCES variety,
    season BIGINT NOT NULL CHECK (season BETWEEN 1600 AND 9999)
){strict};
CREATE INDEX seed_lot_by_key ON seed_lot (lot_key);

CREATE TABLE lot_entry (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    lot BIGINT NOT NULL REFERENCES seed_lot,
    noun TEXT NOT NULL CHECK (noun IN ('lot', 'origin', 'keeping', 'movement', 'weighing', 'moisture', 'germination',
        'inspection')),
    print BIGINT NOT NULL,
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT
){strict};
CREATE INDEX lot_entry_by_lot ON lot_entry (lot, number);

-- The newest action of an entry tells whether it stands; an entry without any stands.
CREATE TABLE lot_undoing (
    number BIGINT PRIMARY KEY,
    entry BIGINT NOT NULL REFERENCES lot_entry,
    action TEXT NOT NULL CHECK (action IN ('withdrawn', 'restored')),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT
){strict};
CREATE INDEX lot_undoing_by_entry ON lot_undoing (entry, number);

CREATE VIEW standing_lot_entry AS
SELECT number, lot, noun FROM lot_entry
WHERE number NOT IN (
    SELECT entry FROM lot_undoing
    WHERE action = 'withdrawn' AND number IN (SELECT max(number) FROM lot_undoing GROUP BY entry)
);

CREATE VIEW standing_lot AS
SELECT number, uuid, lot_number, lot_key, variety, season FROM seed_lot
WHERE number IN (SELECT lot FROM standing_lot_entry WHERE noun = 'lot');

CREATE TABLE lot_origin (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    harvested_on BIGINT CHECK (harvested_on BETWEEN 16000101 AND 99991231),
    plot BIGINT REFERENCES plot,
    sown_from BIGINT REFERENCES seed_lot,
    parents BIGINT CHECK (parents BETWEEN 0 AND 4294967295),
    isolation_mm DOUBLE PRECISION CHECK (isolation_mm >= 0),
    extraction TEXT,
    drying TEXT,
    treatment TEXT
){strict};

CREATE TABLE lot_keeping (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    since BIGINT NOT NULL CHECK (since BETWEEN 16000101 AND 99991231),
    location TEXT,
    temperature_c DOUBLE PRECISION CHECK (temperature_c BETWEEN -100 AND 100),
    packing TEXT NOT NULL CHECK (packing IN ('open', 'hermetic')),
    vapour_g DOUBLE PRECISION CHECK (vapour_g >= 0)
){strict};

-- Seed taken from one place and put into another, in whole milligrams; packets are of so many milligrams each.
CREATE TABLE lot_movement (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    on_day BIGINT NOT NULL CHECK (on_day BETWEEN 16000101 AND 99991231),
    from_place TEXT NOT NULL CHECK (from_place IN ('origin', 'jar', 'packets', 'file sample', 'sold', 'sown', 'tested', 'lost')),
    from_fill_mg BIGINT CHECK (from_fill_mg > 0),
    to_place TEXT NOT NULL CHECK (to_place IN ('origin', 'jar', 'packets', 'file sample', 'sold', 'sown', 'tested', 'lost')),
    to_fill_mg BIGINT CHECK (to_fill_mg > 0),
    mass_mg BIGINT NOT NULL CHECK (mass_mg > 0),
    CHECK ((from_place = 'packets') = (from_fill_mg IS NOT NULL)),
    CHECK ((to_place = 'packets') = (to_fill_mg IS NOT NULL))
){strict};

CREATE TABLE lot_weighing (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    on_day BIGINT NOT NULL CHECK (on_day BETWEEN 16000101 AND 99991231),
    seeds_each BIGINT NOT NULL CHECK (seeds_each > 0)
){strict};

CREATE TABLE lot_weighing_replicate (
    entry BIGINT NOT NULL REFERENCES lot_weighing,
    place BIGINT NOT NULL,
    mass_mg BIGINT NOT NULL CHECK (mass_mg >= 0),
    PRIMARY KEY (entry, place)
){strict};

CREATE TABLE lot_moisture (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    on_day BIGINT NOT NULL CHECK (on_day BETWEEN 16000101 AND 99991231),
    percent DOUBLE PRECISION NOT NULL CHECK (percent BETWEEN 0 AND 100)
){strict};

CREATE TABLE germination_test (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    begun_on BIGINT NOT NULL CHECK (begun_on BETWEEN 16000101 AND 99991231),
    first_counted_on BIGINT CHECK (first_counted_on BETWEEN 16000101 AND 99991231),
    counted_on BIGINT NOT NULL CHECK (counted_on BETWEEN 16000101 AND 99991231),
    made TEXT NOT NULL CHECK (made IN ('in-house', 'laboratory'))
){strict};

CREATE TABLE germination_replicate (
    entry BIGINT NOT NULL REFERENCES germination_test,
    place BIGINT NOT NULL,
    sown BIGINT NOT NULL CHECK (sown > 0),
    normal BIGINT NOT NULL CHECK (normal >= 0),
    abnormal BIGINT NOT NULL CHECK (abnormal >= 0),
    hard BIGINT NOT NULL CHECK (hard >= 0),
    dead BIGINT NOT NULL CHECK (dead >= 0),
    first_count BIGINT CHECK (first_count BETWEEN 0 AND normal),
    PRIMARY KEY (entry, place),
    CHECK (normal + abnormal + hard + dead = sown)
){strict};

CREATE TABLE lot_inspection (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    on_day BIGINT NOT NULL CHECK (on_day BETWEEN 16000101 AND 99991231),
    plants BIGINT NOT NULL CHECK (plants > 0)
){strict};

CREATE TABLE lot_off_type (
    entry BIGINT NOT NULL REFERENCES lot_inspection,
    place BIGINT NOT NULL,
    kind TEXT NOT NULL CHECK (length(kind) > 0),
    plants BIGINT NOT NULL CHECK (plants > 0),
    PRIMARY KEY (entry, place)
){strict};
