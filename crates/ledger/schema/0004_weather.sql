-- Weather: the days of stations whose files somebody brought in, what was said of where stations lie, and
-- what is known of gardens. A record is of one station; the newest that stands is the one to go by.

CREATE TABLE weather_record (
    number BIGINT PRIMARY KEY CHECK (number BETWEEN 1 AND 2147483647),
    uuid BYTES NOT NULL UNIQUE CHECK (length(uuid) = 16),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    file_name TEXT NOT NULL,
    sha256 BYTES NOT NULL CHECK (length(sha256) = 32),
    print BIGINT NOT NULL,
    station TEXT NOT NULL CHECK (length(station) > 0),
    station_key TEXT NOT NULL CHECK (length(station_key) > 0),
    name TEXT,
    latitude DOUBLE PRECISION CHECK (latitude BETWEEN -90 AND 90),
    longitude DOUBLE PRECISION CHECK (longitude BETWEEN -180 AND 180),
    elevation_m DOUBLE PRECISION CHECK (elevation_m BETWEEN -500 AND 9000),
    scale TEXT CHECK (scale IN ('celsius', 'fahrenheit', 'tenths')),
    scale_told_by TEXT CHECK (scale_told_by IN ('bringer', 'headings', 'summers')),
    CHECK ((scale IS NULL) = (scale_told_by IS NULL))
){strict};
CREATE INDEX weather_record_by_station ON weather_record (station_key);
CREATE INDEX weather_record_by_sha256 ON weather_record (sha256);

-- Its days as they were read; what cannot be is taken out whenever they are used, never here.
CREATE TABLE weather_day (
    record BIGINT NOT NULL REFERENCES weather_record,
    day BIGINT NOT NULL CHECK (day BETWEEN 16000101 AND 99991231),
    lowest_c DOUBLE PRECISION CHECK (lowest_c BETWEEN -100 AND 100),
    highest_c DOUBLE PRECISION CHECK (highest_c BETWEEN -100 AND 100),
    PRIMARY KEY (record, day),
    CHECK (lowest_c IS NOT NULL OR highest_c IS NOT NULL)
){strict};

-- The newest action of a record tells whether it stands; a record without any stands.
CREATE TABLE weather_undoing (
    number BIGINT PRIMARY KEY,
    record BIGINT NOT NULL REFERENCES weather_record,
    action TEXT NOT NULL CHECK (action IN ('withdrawn', 'restored')),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL,
    why TEXT
){strict};
CREATE INDEX weather_undoing_by_record ON weather_undoing (record, number);

CREATE VIEW standing_weather AS
SELECT number FROM weather_record
WHERE number NOT IN (
    SELECT record FROM weather_undoing
    WHERE action = 'withdrawn' AND number IN (SELECT max(number) FROM weather_undoing GROUP BY record)
);

-- Where a station lies and what it is called, as somebody said; the newest row of a station wins, and
-- goes before what its file says.
CREATE TABLE station_detail (
    number BIGINT PRIMARY KEY,
    print BIGINT NOT NULL,
    station TEXT NOT NULL CHECK (length(station) > 0),
    station_key TEXT NOT NULL CHECK (length(station_key) > 0),
    name TEXT,
    latitude DOUBLE PRECISION CHECK (latitude BETWEEN -90 AND 90),
    longitude DOUBLE PRECISION CHECK (longitude BETWEEN -180 AND 180),
    elevation_m DOUBLE PRECISION CHECK (elevation_m BETWEEN -500 AND 9000),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL
){strict};
CREATE INDEX station_detail_by_station ON station_detail (station_key, number);

-- What is known of a garden; the newest row of a name wins. Its weather is the name of a station.
CREATE TABLE garden_detail (
    number BIGINT PRIMARY KEY,
    print BIGINT NOT NULL,
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL CHECK (length(name_key) > 0),
    latitude DOUBLE PRECISION CHECK (latitude BETWEEN -90 AND 90),
    longitude DOUBLE PRECISION CHECK (longitude BETWEEN -180 AND 180),
    elevation_m DOUBLE PRECISION CHECK (elevation_m BETWEEN -500 AND 9000),
    weather TEXT,
    frost_risk_in_100 BIGINT CHECK (frost_risk_in_100 BETWEEN 1 AND 99),
    who TEXT NOT NULL,
    at_us BIGINT NOT NULL
){strict};
CREATE INDEX garden_detail_by_name ON garden_detail (name_key, number);
