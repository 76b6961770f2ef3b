-- Sales: what went over the counter or into the post, as files of a shop told it. Of one shop, a day is told by the newest
-- standing record that covers it.

CREATE TABLE sales_record (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    print BIGINT NOT NULL,
    file_name TEXT NOT NULL,
    sha256 BYTES NOT NULL CHECK (length(sha256) = 32),
    shop TEXT NOT NULL CHECK (length(shop) > 0),
    shop_key TEXT NOT NULL CHECK (length(shop_key) > 0),
    first_day BIGINT NOT NULL CHECK (first_day BETWEEN 16000101 AND 99991231),
    last_day BIGINT NOT NULL CHECK (last_day BETWEEN 16000101 AND 99991231),
    left_out BIGINT NOT NULL CHECK (left_out BETWEEN 0 AND 4294967295),
    CHECK (first_day <= last_day)
){strict};
CREATE INDEX sales_record_by_sha256 ON sales_record (sha256);

-- Packets sold, or brought back where there are fewer than none; no buyer and no price is kept.
CREATE TABLE sale (
    record BIGINT NOT NULL REFERENCES sales_record,
    place BIGINT NOT NULL CHECK (place BETWEEN 1 AND 4294967295),
    source_row BIGINT NOT NULL,
    sold_on BIGINT NOT NULL CHECK (sold_on BETWEEN 16000101 AND 99991231),
    variety BIGINT NOT NULL REFERENCES variety,
    packets BIGINT NOT NULL CHECK (packets BETWEEN -2147483647 AND 2147483647 AND packets <> 0),
    PRIMARY KEY (record, place)
){strict};

-- The newest action of a record tells whether it stands; a record without any stands.
CREATE TABLE sales_undoing (
    number BIGINT PRIMARY KEY,
    record BIGINT NOT NULL REFERENCES sales_record,
    action TEXT NOT NULL CHECK (action IN ('withdrawn', 'restored')),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT
){strict};
CREATE INDEX sales_undoing_by_record ON sales_undoing (record, number);

CREATE VIEW standing_sales AS
SELECT number FROM sales_record
WHERE number NOT IN (
    SELECT record FROM sales_undoing
    WHERE action = 'withdrawn' AND number IN (SELECT max(number) FROM sales_undoing GROUP BY record)
);
