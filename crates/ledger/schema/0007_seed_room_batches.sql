-- Tables of the seed room that were taken in: lots, weighings of their seed, germination tests. The batch itself says 'by
-- hand', as the first form knows no more kinds; what it holds is told here. The books keep the entries; here stands which
-- batch and which row of its table each came from.

CREATE TABLE seed_room_batch (
    batch BIGINT PRIMARY KEY REFERENCES batch,
    kind TEXT NOT NULL CHECK (kind IN ('lots', 'seed weighings', 'germination tests'))
){strict};

CREATE TABLE lot_entry_taken (
    entry BIGINT PRIMARY KEY REFERENCES lot_entry,
    batch BIGINT NOT NULL REFERENCES batch,
    source_row BIGINT NOT NULL CHECK (source_row >= 0)
){strict};
CREATE INDEX lot_entry_taken_by_batch ON lot_entry_taken (batch);
