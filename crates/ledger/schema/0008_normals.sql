-- Climate normals of a station: a weather record that holds no days but the file's own text, and what it tells.
ALTER TABLE weather_record ADD COLUMN normals TEXT CHECK (normals IN ('freezes', 'months', 'days'));
ALTER TABLE weather_record ADD COLUMN body TEXT CHECK ((normals IS NULL) = (body IS NULL));
