//! Bringing a store to the newest form, step by step.

use crate::fault::LedgerFault;
use crate::store::{Store, postgres, sqlite};

/// One step from a form of the schema to the next.
struct Step {
    to: u32,
    sql: &'static str,
    /// Tables that it makes whose rows are added and never changed; both servers are told to refuse anything else.
    added_only: &'static [&'static str],
}

/// Every step, oldest first. A step that has been released is never edited.
const STEPS: &[Step] = &[
    Step { to: 1, sql: include_str!("../../schema/0001_first_form.sql"), added_only: FIRST_ADDED_ONLY },
    Step { to: 2, sql: include_str!("../../schema/0002_the_shelf.sql"), added_only: &[] },
    Step {
        to: 3,
        sql: include_str!("../../schema/0003_layouts.sql"),
        added_only: &["laid_out", "bed", "bed_stretch"],
    },
    Step {
        to: 4,
        sql: include_str!("../../schema/0004_weather.sql"),
        added_only: &["weather_record", "weather_day", "weather_undoing", "station_detail", "garden_detail"],
    },
    Step {
        to: 5,
        sql: include_str!("../../schema/0005_the_seed_room.sql"),
        added_only: SEED_ROOM_ADDED_ONLY,
    },
    Step {
        to: 6,
        sql: include_str!("../../schema/0006_sales.sql"),
        added_only: &["sales_record", "sale", "sales_undoing"],
    },
    Step {
        to: 7,
        sql: include_str!("../../schema/0007_seed_room_batches.sql"),
        added_only: &["seed_room_batch", "lot_entry_taken"],
    },
    Step { to: 8, sql: include_str!("../../schema/0008_normals.sql"), added_only: &[] },
];

/// The five references of a table that speaks of single notes.
const OF_ONE_NOUN: &str = include_str!("../../schema/of_one_noun.sql");

/// Tables of the first form whose rows are added and never changed.
const FIRST_ADDED_ONLY: &[&str] = &[
    "batch",
    "heading",
    "batch_summary",
    "resting",
    "undoing",
    "variety",
    "alias",
    "claim",
    "grow_out",
    "plot",
    "plot_detail",
    "plant_detail",
    "fruit_sample",
    "pick",
    "cull",
    "height_reading",
    "stage_note",
    "colour_reading",
    "touched",
    "doubt",
    "confirmation",
    "withdrawal",
    "correction",
    "quarantine",
    "quarantine_solved",
    "guide_version",
];

/// Tables of the fifth form whose rows are added and never changed.
const SEED_ROOM_ADDED_ONLY: &[&str] = &[
    "seed_lot",
    "lot_entry",
    "lot_undoing",
    "lot_origin",
    "lot_keeping",
    "lot_movement",
    "lot_weighing",
    "lot_weighing_replicate",
    "lot_moisture",
    "germination_test",
    "germination_replicate",
    "lot_inspection",
    "lot_off_type",
];

/// The newest form known here.
pub(crate) fn newest() -> u32 {
    STEPS.iter().map(|step| step.to).max().unwrap_or(0)
}

/// Takes every step that the store has not taken, all in one transaction.
pub(crate) fn bring_up_to_date(store: &mut Store, from: u32) -> Result<(), LedgerFault> {
    store.script("BEGIN")?;
    let taken = STEPS.iter().filter(|step| from < step.to).try_for_each(|step| take(store, step));
    match taken {
        Ok(()) => store.script("COMMIT"),
        Err(fault) => {
            // The first fault is the one to tell.
            let _ = store.script("ROLLBACK");
            Err(fault)
        }
    }
}

fn take(store: &mut Store, step: &Step) -> Result<(), LedgerFault> {
    let sql = step.sql.replace("{of_one_noun}", OF_ONE_NOUN.trim_end());
    let sql = match store {
        Store::File(_) => sqlite::ddl(&sql),
        Store::Server(_) => postgres::ddl(&sql),
    };
    store.script(&sql)?;
    if step.to == 1 {
        make_refusal(store)?;
    }
    guard(store, step.added_only)?;
    store.execute("INSERT INTO form (number) VALUES ($1)", &[step.to.into()]).map(|_| ())
}

/// What a server does instead of changing what is only ever added; in a file every trigger says it itself.
fn make_refusal(store: &mut Store) -> Result<(), LedgerFault> {
    match store {
        Store::File(_) => Ok(()),
        Store::Server(_) => store.script(
            "CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS \
             'BEGIN RAISE EXCEPTION ''% is only ever added to'', TG_TABLE_NAME; END';",
        ),
    }
}

/// Lets the server itself refuse to change or delete what is only ever added.
fn guard(store: &mut Store, tables: &[&str]) -> Result<(), LedgerFault> {
    let mut script = String::new();
    for table in tables {
        match store {
            Store::File(_) => {
                for act in ["UPDATE", "DELETE"] {
                    script.push_str(&format!(
                        "CREATE TRIGGER {table}_no_{act} BEFORE {act} ON {table} \
                         BEGIN SELECT RAISE(ABORT, '{table} is only ever added to'); END;"
                    ));
                }
            }
            Store::Server(_) => script.push_str(&format!(
                "CREATE TRIGGER {table}_only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} \
                 FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();"
            )),
        }
    }
    store.script(&script)
}
