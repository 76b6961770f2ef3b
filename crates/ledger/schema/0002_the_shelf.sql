-- The shelf: what the list needs of each variety, made out of its calls. Like stored_call it can be thrown
-- away and made again; it is no evidence. {bytewise} stands for COLLATE "C" on PostgreSQL.

-- Which round of keeping a call last changed in, so that only what changed is shelved again.
ALTER TABLE stored_call ADD COLUMN kept BIGINT NOT NULL DEFAULT 0;
CREATE INDEX stored_call_by_kept ON stored_call (kept);

-- One row: how many rounds of keeping calls there were, what the shelf was made of, and what it comes to.
CREATE TABLE shelf_state (
    one BIGINT PRIMARY KEY CHECK (one = 1),
    call_rounds BIGINT NOT NULL,
    made_by BIGINT,
    made_batch BIGINT NOT NULL,
    made_undoing BIGINT NOT NULL,
    made_guides BIGINT NOT NULL,
    made_rounds BIGINT NOT NULL,
    current_key BIGINT NOT NULL,
    varieties BIGINT NOT NULL,
    old BIGINT NOT NULL,
    not_called BIGINT NOT NULL
){strict};
INSERT INTO shelf_state (one, call_rounds, made_batch, made_undoing, made_guides, made_rounds, current_key,
    varieties, old, not_called) VALUES (1, 0, 0, 0, 0, 0, 0, 0, 0, 0);

-- What the list is filtered and sorted by. Kept narrow, because a wish of several words reads it from end to end.
-- Words of which there are several stand between bars: |salad|sauce|.
CREATE TABLE shelf (
    variety BIGINT PRIMARY KEY REFERENCES variety,
    name_key TEXT{bytewise} NOT NULL,
    names TEXT NOT NULL,
    habit TEXT,
    class TEXT,
    colour TEXT,
    pattern TEXT,
    habit_place BIGINT,
    class_place BIGINT,
    colour_place BIGINT,
    sureness DOUBLE PRECISION,
    contested BIGINT NOT NULL CHECK (contested IN (0, 1)),
    contradicted BIGINT NOT NULL CHECK (contradicted IN (0, 1)),
    unmeasured BIGINT NOT NULL CHECK (unmeasured IN (0, 1)),
    weight_g DOUBLE PRECISION,
    length_mm DOUBLE PRECISION,
    width_mm DOUBLE PRECISION,
    locules DOUBLE PRECISION,
    solids_percent DOUBLE PRECISION,
    days DOUBLE PRECISION,
    height_mm DOUBLE PRECISION,
    newest_season BIGINT,
    seasons TEXT NOT NULL,
    uses TEXT NOT NULL,
    marks TEXT NOT NULL,
    rests_on BIGINT,
    words_print BIGINT NOT NULL
){strict};
CREATE INDEX shelf_by_name ON shelf (name_key, variety);
CREATE INDEX shelf_by_class ON shelf (class, habit);
CREATE INDEX shelf_by_habit ON shelf (habit);
CREATE INDEX shelf_by_colour ON shelf (colour);
CREATE INDEX shelf_by_contested ON shelf (contested) WHERE contested = 1;
CREATE INDEX shelf_by_contradicted ON shelf (contradicted) WHERE contradicted = 1;

-- What a row of the list shows, in the form that the house gives it.
CREATE TABLE shelf_told (
    variety BIGINT PRIMARY KEY REFERENCES variety,
    told TEXT NOT NULL
){strict};

-- The words of its names, which are no slips of the pen.
CREATE TABLE shelf_name_word (
    variety BIGINT NOT NULL REFERENCES variety,
    word TEXT NOT NULL,
    PRIMARY KEY (variety, word)
){strict};
CREATE INDEX shelf_name_word_by_word ON shelf_name_word (word);

-- Every word of names, claims and calls, in small letters without marks. One column is named as SQLite's
-- own row number, so that both servers are written to alike.
{words_of_the_shelf};
