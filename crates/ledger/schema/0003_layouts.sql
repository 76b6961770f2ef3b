-- Layouts: which replicate, bed and stretch of it a plot has and what it is there for, and the ground that a grow-out
-- was laid out on. Grow-outs of several gardens that were laid out as one came in one batch.

ALTER TABLE plot_detail ADD COLUMN replicate BIGINT CHECK (replicate >= 0);
ALTER TABLE plot_detail ADD COLUMN bed TEXT;
ALTER TABLE plot_detail ADD COLUMN role TEXT CHECK (role IN ('candidate', 'check', 'guard'));
ALTER TABLE plot_detail ADD COLUMN from_mm DOUBLE PRECISION CHECK (from_mm >= 0);
ALTER TABLE plot_detail ADD COLUMN to_mm DOUBLE PRECISION CHECK (to_mm >= 0);

-- How a grow-out was laid out. Lengths in millimetres.
CREATE TABLE laid_out (
    number BIGINT PRIMARY KEY,
    grow_out BIGINT NOT NULL REFERENCES grow_out,
    batch BIGINT NOT NULL REFERENCES batch,
    kind TEXT NOT NULL,
    seed TEXT NOT NULL,
    variety_ratio DOUBLE PRECISION NOT NULL,
    plants_per_plot BIGINT NOT NULL CHECK (plants_per_plot >= 1),
    between_plants_mm DOUBLE PRECISION NOT NULL CHECK (between_plants_mm > 0),
    between_rows_mm DOUBLE PRECISION NOT NULL CHECK (between_rows_mm > 0),
    rows_per_plot BIGINT NOT NULL CHECK (rows_per_plot >= 1),
    guards_at_ends BIGINT NOT NULL CHECK (guards_at_ends >= 0),
    guard_rows BIGINT NOT NULL CHECK (guard_rows >= 0)
){strict};
CREATE INDEX laid_out_by_grow_out ON laid_out (grow_out);

-- Its beds, in the order in which they lie.
CREATE TABLE bed (
    number BIGINT PRIMARY KEY,
    laid_out BIGINT NOT NULL REFERENCES laid_out,
    name TEXT NOT NULL CHECK (length(name) > 0),
    length_mm DOUBLE PRECISION NOT NULL CHECK (length_mm >= 0),
    width_mm DOUBLE PRECISION NOT NULL CHECK (width_mm >= 0),
    path_after_mm DOUBLE PRECISION NOT NULL CHECK (path_after_mm >= 0)
){strict};
CREATE INDEX bed_by_laid_out ON bed (laid_out);

-- Parts of beds that are no use, and why.
CREATE TABLE bed_stretch (
    number BIGINT PRIMARY KEY,
    bed BIGINT NOT NULL REFERENCES bed,
    from_mm DOUBLE PRECISION NOT NULL CHECK (from_mm >= 0),
    to_mm DOUBLE PRECISION NOT NULL CHECK (to_mm >= from_mm),
    why TEXT NOT NULL
){strict};
CREATE INDEX bed_stretch_by_bed ON bed_stretch (bed);
