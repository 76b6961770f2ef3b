//! The rows that a note is written as: its own, and those of its parts.

use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::kept::words::Word;
use crate::lots::reading::own_number;
use crate::store::session::Session;
use crate::store::value::{Value, whole};
use record::germination::GerminationTest;
use record::growout::Plot;
use record::id::Id;
use record::length::Millimetres;
use record::lot::{Inspection, LotNote, LotOrigin, SeedWeighing};
use record::mass::Milligrams;
use record::share::Percent;
use record::stock::Place;
use record::temperature::Celsius;

/// The places that hold no packets, with their words.
pub(super) const PLACES: [(Place, &str); 7] = [
    (Place::Origin, "origin"),
    (Place::Jar, "jar"),
    (Place::FileSample, "file sample"),
    (Place::Sold, "sold"),
    (Place::Sown, "sown"),
    (Place::Tested, "tested"),
    (Place::Lost, "lost"),
];

/// A row: its table with its columns after `entry`, and their values.
pub(super) struct RowOf<'a> {
    table: &'static str,
    columns: &'static str,
    values: Vec<Value<'a>>,
}

/// What a note is written as.
pub(super) struct Written<'a> {
    /// The word of its noun.
    pub(super) noun: &'static str,
    /// Its own row, then those of its parts.
    pub(super) rows: Vec<RowOf<'a>>,
}

impl Written<'_> {
    /// The print of all that is written.
    pub(super) fn print(&self) -> i64 {
        self.rows.iter().fold(Print::new(), |print, row| print.add(&row.values)).done()
    }
}

impl RowOf<'_> {
    /// Writes the row as one of an entry.
    pub(super) fn write(&self, session: &mut Session<'_>, entry: i64) -> Result<(), LedgerFault> {
        let places: Vec<String> = (1..=self.values.len() + 1).map(|place| format!("${place}")).collect();
        let sql =
            format!("INSERT INTO {} (entry, {}) VALUES ({})", self.table, self.columns, places.join(", "));
        let values: Vec<Value<'_>> = [entry.into()].into_iter().chain(self.values.iter().copied()).collect();
        session.execute(&sql, &values).map(|_| ())
    }
}

/// Turns a note into rows; plots and lots become the ledger's own numbers.
pub(super) fn written<'a>(session: &mut Session<'_>, note: &'a LotNote) -> Result<Written<'a>, LedgerFault> {
    Ok(match note {
        LotNote::Origin(origin) => of("origin", origin_row(session, origin)?),
        LotNote::Keeping(keeping) => of(
            "keeping",
            RowOf {
                table: "lot_keeping",
                columns: "since, location, temperature_c, packing, vapour_g",
                values: vec![
                    keeping.since.into(),
                    keeping.location.as_deref().into(),
                    keeping.temperature.map(Celsius::get).into(),
                    keeping.packing.word().into(),
                    keeping.vapour_g.into(),
                ],
            },
        ),
        LotNote::Movement(movement) => {
            let ((from, from_fill), (to, to_fill)) = (place(movement.from), place(movement.to));
            let values = vec![
                movement.on.into(),
                from.into(),
                from_fill,
                to.into(),
                to_fill,
                milligrams(movement.mass),
            ];
            let columns = "on_day, from_place, from_fill_mg, to_place, to_fill_mg, mass_mg";
            of("movement", RowOf { table: "lot_movement", columns, values })
        }
        LotNote::Weighing(weighing) => weighing_rows(weighing),
        LotNote::Moisture(reading) => {
            let values = vec![reading.on.into(), Percent::get(reading.moisture).into()];
            of("moisture", RowOf { table: "lot_moisture", columns: "on_day, percent", values })
        }
        LotNote::Germination(test) => test_rows(test),
        LotNote::Inspection(inspection) => inspection_rows(inspection),
    })
}

fn of<'a>(noun: &'static str, row: RowOf<'a>) -> Written<'a> {
    Written { noun, rows: vec![row] }
}

fn origin_row<'a>(session: &mut Session<'_>, origin: &'a LotOrigin) -> Result<RowOf<'a>, LedgerFault> {
    let plot = origin.plot.map(|plot| plot_number(session, plot)).transpose()?;
    let sown_from = origin.sown_from.map(|lot| own_number(session, lot)).transpose()?;
    Ok(RowOf {
        table: "lot_origin",
        columns: "harvested_on, plot, sown_from, parents, isolation_mm, extraction, drying, treatment",
        values: vec![
            origin.harvested_on.into(),
            plot.into(),
            sown_from.into(),
            origin.parents.into(),
            origin.isolation.map(Millimetres::get).into(),
            origin.extraction.as_deref().into(),
            origin.drying.as_deref().into(),
            origin.treatment.as_deref().into(),
        ],
    })
}

fn plot_number(session: &mut Session<'_>, plot: Id<Plot>) -> Result<i64, LedgerFault> {
    let sql = "SELECT number FROM plot WHERE uuid = $1 AND batch IN (SELECT number FROM standing_batch)";
    let number = session.first(sql, &[plot.uuid().as_bytes().as_slice().into()], |row| row.whole(0))?;
    number.ok_or(LedgerFault::NoSuchPlot(plot))
}

fn place<'a>(place: Place) -> (&'static str, Value<'a>) {
    match place {
        Place::Packets(fill) => ("packets", milligrams(fill.each())),
        Place::Origin => ("origin", Value::Nothing),
        Place::Jar => ("jar", Value::Nothing),
        Place::FileSample => ("file sample", Value::Nothing),
        Place::Sold => ("sold", Value::Nothing),
        Place::Sown => ("sown", Value::Nothing),
        Place::Tested => ("tested", Value::Nothing),
        Place::Lost => ("lost", Value::Nothing),
    }
}

fn milligrams<'a>(mass: Milligrams) -> Value<'a> {
    whole(mass.get()).into()
}

fn weighing_rows(weighing: &SeedWeighing) -> Written<'_> {
    let own = RowOf {
        table: "lot_weighing",
        columns: "on_day, seeds_each",
        values: vec![weighing.on.into(), weighing.seeds_each.into()],
    };
    let replicates = (0_i64..).zip(&weighing.masses).map(|(place, mass)| RowOf {
        table: "lot_weighing_replicate",
        columns: "place, mass_mg",
        values: vec![place.into(), milligrams(*mass)],
    });
    Written { noun: "weighing", rows: [own].into_iter().chain(replicates).collect() }
}

fn test_rows(test: &GerminationTest) -> Written<'_> {
    let own = RowOf {
        table: "germination_test",
        columns: "begun_on, first_counted_on, counted_on, made",
        values: vec![
            test.begun_on.into(),
            test.first_counted_on.into(),
            test.counted_on.into(),
            test.made.word().into(),
        ],
    };
    let replicates = (0_i64..).zip(&test.replicates).map(|(place, replicate)| {
        let seedlings = replicate.seedlings();
        RowOf {
            table: "germination_replicate",
            columns: "place, sown, normal, abnormal, hard, dead, first_count",
            values: vec![
                place.into(),
                replicate.sown().into(),
                seedlings.normal.into(),
                seedlings.abnormal.into(),
                seedlings.hard.into(),
                seedlings.dead.into(),
                replicate.first_count().into(),
            ],
        }
    });
    Written { noun: "germination", rows: [own].into_iter().chain(replicates).collect() }
}

fn inspection_rows(inspection: &Inspection) -> Written<'_> {
    let own = RowOf {
        table: "lot_inspection",
        columns: "on_day, plants",
        values: vec![inspection.on.into(), inspection.plants.into()],
    };
    let kinds = (0_i64..).zip(&inspection.off_types).map(|(place, off_type)| RowOf {
        table: "lot_off_type",
        columns: "place, kind, plants",
        values: vec![place.into(), off_type.kind.as_str().into(), off_type.plants.into()],
    });
    Written { noun: "inspection", rows: [own].into_iter().chain(kinds).collect() }
}
