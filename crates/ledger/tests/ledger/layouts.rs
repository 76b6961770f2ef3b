//! How grow-outs were laid out: kept, read back, moved, undone, and brought up from the form before.

use crate::ground::{act, add_varieties, new_file, on_both, season, source};
use ledger::batch::BatchKind;
use ledger::layouts::{KeptBed, KeptPlanting, KeptStretch, LaidOut};
use ledger::ledger::Ledger;
use ledger::undo::Resting;
use ledger::writer::{NewGrowOut, NewPlot};
use record::growout::{PlotLayout, PlotRole};
use record::length::Millimetres;
use tempfile::TempDir;

fn mm(length: f64) -> Millimetres {
    Millimetres::new(length).unwrap()
}

fn laid_out() -> LaidOut {
    let bed = |name: &str, unusable: Vec<KeptStretch>| KeptBed {
        name: name.to_owned(),
        length: mm(12_192.0),
        width: mm(1219.2),
        path_after: mm(600.0),
        unusable,
    };
    let tap = KeptStretch { from: mm(3000.0), to: mm(3500.5), why: "tap".to_owned() };
    LaidOut {
        kind: "incomplete blocks".to_owned(),
        seed: "2031 Home".to_owned(),
        variety_ratio: 0.75,
        planting: KeptPlanting {
            plants_per_plot: 6,
            between_plants: mm(457.2),
            between_rows: mm(609.6),
            rows_per_plot: 1,
            guards_at_ends: 1,
            guard_rows: 0,
        },
        beds: vec![bed("North", vec![tap]), bed("South", Vec::new())],
    }
}

fn placing(bed: &str, from: f64) -> PlotLayout {
    PlotLayout {
        replicate: Some(2),
        bed: Some(bed.to_owned()),
        role: Some(PlotRole::Check),
        from: Some(mm(from)),
        to: Some(mm(from + 2743.2)),
    }
}

#[test]
fn a_layout_is_read_back_as_it_was_kept_and_undone_as_one() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let by_hand = ledger::batch::Source {
            file_name: None,
            sha256: None,
            reading: None,
            headings: Vec::new(),
            ..source(BatchKind::GrowOut, "", 4)
        };
        let mut writer = ledger.begin_mending(&by_hand).unwrap();
        let home = NewGrowOut { name: "2031 Home".to_owned(), season: season(), garden: "Home".to_owned() };
        let grow_out = writer.add_grow_out(1, &home).unwrap().id;
        writer.add_laid_out(grow_out, &laid_out()).unwrap();
        let plot = NewPlot {
            grow_out,
            label: "201".to_owned(),
            variety,
            block: Some(4),
            row: Some(1),
            position: Some(1),
            transplanted: None,
            plant_count: Some(6),
            layout: placing("North", 457.2),
        };
        writer.add_plot(1, &plot).unwrap();
        let batch = writer.commit().unwrap().batch;
        let kept = ledger.layouts().unwrap();
        assert_eq!((kept[0].grow_out, kept[0].batch, &kept[0].laid_out), (grow_out, batch, &laid_out()));
        assert_eq!(ledger.plots().unwrap()[0].layout, placing("North", 457.2));

        // A move is a newer detail; undone, the older one counts again.
        let mut writer = ledger.begin_mending(&by_hand).unwrap();
        let moved = NewPlot { block: Some(5), layout: placing("South", 0.0), plant_count: None, ..plot };
        writer.add_plot(1, &moved).unwrap();
        let second = writer.commit().unwrap().batch;
        let stands = ledger.plots().unwrap()[0].clone();
        assert_eq!(
            (stands.block, stands.plant_count, stands.layout),
            (Some(5), Some(6), placing("South", 0.0))
        );
        ledger.undo(second, &act(9), Resting::Refuse).unwrap();
        assert_eq!(ledger.plots().unwrap()[0].layout, placing("North", 457.2));

        ledger.undo(batch, &act(10), Resting::Refuse).unwrap();
        assert_eq!((ledger.layouts().unwrap().len(), ledger.plots().unwrap().len()), (0, 0));
        ledger.restore(batch, &act(11)).unwrap();
        assert_eq!(ledger.layouts().unwrap().len(), 1);
        assert!(ledger.verify().unwrap().is_sound());
    });
}

/// A ledger of the form before gains the new columns, and its plots are there still.
#[test]
fn a_ledger_of_the_form_before_is_brought_up() {
    let folder = TempDir::new().unwrap();
    let location = new_file(&folder);
    let ids = add_varieties(&mut Ledger::open(&location).unwrap(), &["Amber Lantern", "Brindle"]);
    crate::ground::add_plots(&mut Ledger::open(&location).unwrap(), &ids);
    let file = rusqlite::Connection::open(folder.path().join("ledger.db")).unwrap();
    file.execute_batch(crate::WITHOUT_SALES).unwrap();
    file.execute_batch(crate::WITHOUT_THE_SEED_ROOM).unwrap();
    file.execute_batch(
        "DROP VIEW standing_weather; DROP TABLE weather_undoing; DROP TABLE weather_day; DROP TABLE weather_record;
         DROP TABLE station_detail; DROP TABLE garden_detail;
         DROP TABLE bed_stretch; DROP TABLE bed; DROP TABLE laid_out;
         ALTER TABLE plot_detail DROP COLUMN replicate; ALTER TABLE plot_detail DROP COLUMN bed;
         ALTER TABLE plot_detail DROP COLUMN role; ALTER TABLE plot_detail DROP COLUMN from_mm;
         ALTER TABLE plot_detail DROP COLUMN to_mm; DELETE FROM form WHERE number >= 3;",
    )
    .unwrap();
    drop(file);
    let mut ledger = Ledger::open(&location).unwrap();
    let plots = ledger.plots().unwrap();
    assert_eq!(plots.len(), 2);
    assert!(plots.iter().all(|plot| plot.layout == PlotLayout::default() && plot.block == Some(1)));
    assert_eq!(ledger.layouts().unwrap(), []);
    assert!(ledger.verify().unwrap().is_sound());
}

/// The ground that a grow-out was laid out on is a fact like any other.
#[test]
fn the_ground_cannot_be_changed_by_hand() {
    let folder = TempDir::new().unwrap();
    new_file(&folder);
    let file = rusqlite::Connection::open(folder.path().join("ledger.db")).unwrap();
    for table in ["laid_out", "bed", "bed_stretch"] {
        for act in ["update", "delete"] {
            let sql = "SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?1 AND lower(name) = ?2";
            let name = format!("{table}_no_{act}");
            let found: i64 = file.query_row(sql, [table, &name], |row| row.get(0)).unwrap();
            assert_eq!(found, 1, "{name}");
        }
    }
}
