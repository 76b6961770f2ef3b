fruit_sample BIGINT GENERATED ALWAYS AS (CASE WHEN noun = 'fruit sample' THEN record END) STORED
        REFERENCES fruit_sample,
    pick BIGINT GENERATED ALWAYS AS (CASE WHEN noun = 'pick' THEN record END) STORED REFERENCES pick,
    height_reading BIGINT GENERATED ALWAYS AS (CASE WHEN noun = 'height reading' THEN record END) STORED
        REFERENCES height_reading,
    stage_note BIGINT GENERATED ALWAYS AS (CASE WHEN noun = 'stage note' THEN record END) STORED
        REFERENCES stage_note,
    colour_reading BIGINT GENERATED ALWAYS AS (CASE WHEN noun = 'colour reading' THEN record END) STORED
        REFERENCES colour_reading
