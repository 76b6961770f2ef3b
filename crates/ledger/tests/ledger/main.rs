//! The ledger on both its servers: every test here runs on a SQLite file, and again on the PostgreSQL
//! that `LOCULE_POSTGRES` names.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test breaks off where it cannot go on")]
#![expect(clippy::print_stdout, reason = "a test says what it left out")]

mod evidence;
mod ground;
mod keeping;
mod killing;
mod layouts;
mod lots;
mod naming;
mod opening;
mod properties;
mod quarantine;
mod rounds;
mod sales;
mod saying;
mod shelf;
mod taking;
mod undoing;
mod weather;

/// Takes a ledger back to the form without sales.
pub(crate) const WITHOUT_SALES: &str =
    "DROP VIEW standing_sales; DROP TABLE sales_undoing; DROP TABLE sale; DROP TABLE sales_record;";

/// Takes out what forms after the sales brought.
pub(crate) const WITHOUT_WHAT_CAME_AFTER_SALES: &str =
    "DROP TABLE lot_entry_taken; DROP TABLE seed_room_batch;
    ALTER TABLE weather_record DROP COLUMN body; ALTER TABLE weather_record DROP COLUMN normals;";

/// Takes the tables of the fifth form away again.
pub(crate) const WITHOUT_THE_SEED_ROOM: &str = "DROP VIEW standing_lot; DROP VIEW standing_lot_entry;
    DROP TABLE lot_entry_taken; DROP TABLE seed_room_batch;
    DROP TABLE lot_off_type; DROP TABLE lot_inspection; DROP TABLE germination_replicate; DROP TABLE germination_test;
    DROP TABLE lot_moisture; DROP TABLE lot_weighing_replicate; DROP TABLE lot_weighing; DROP TABLE lot_movement;
    DROP TABLE lot_keeping; DROP TABLE lot_origin; DROP TABLE lot_undoing; DROP TABLE lot_entry; DROP TABLE seed_lot;";
