//! Taking tables in: all or nothing, nothing twice, and what is new only.

use crate::ground::{
    about, act, add_plots, add_varieties, day, doubt, fruit, is_sound, moment, new_variety, on_both, season,
    source, take, weights,
};
use ledger::batch::{BatchKind, BatchNumber, Sha256};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::undo::Resting;
use ledger::writer::{NewGrowOut, NewPlot, Standing};
use record::growout::{Plant, PlantNumber};
use record::id::Id;
use record::note::Note;
use record::season::Season;

#[test]
fn a_writer_that_is_dropped_leaves_nothing() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let mut writer = ledger.begin_batch(&source(BatchKind::Varieties, "v.csv", 1)).unwrap();
        let id = writer.add_variety(2, &new_variety("Amber Lantern", &["Lantern"])).unwrap().id;
        writer.add_note(3, &Note::Fruit(fruit(id, 12.0)), &[doubt()]).unwrap();
        drop(writer);
        assert_eq!((ledger.varieties().unwrap(), ledger.history().unwrap()), (vec![], vec![]));
        is_sound(&mut ledger);
    });
}

#[test]
fn a_summary_tells_what_came_in_and_the_history_remembers_it() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
        add_plots(&mut ledger, &ids);
        let mut writer = ledger.begin_batch(&source(BatchKind::FruitSamples, "f.csv", 9)).unwrap();
        assert_eq!(writer.batch(), BatchNumber(3));
        for grams in [10.0, 11.0, 900.0] {
            let doubts = if grams > 100.0 { vec![doubt(), doubt()] } else { vec![] };
            writer.add_note(2, &Note::Fruit(fruit(ids[0], grams)), &doubts).unwrap();
        }
        let summary = writer.commit().unwrap();
        assert_eq!((summary.added.fruit_samples, summary.added.doubted, summary.added.notes()), (3, 1, 3));

        let history = ledger.history().unwrap();
        let added: Vec<_> = history.iter().map(|batch| batch.added).collect();
        assert_eq!((added[0].varieties, added[1].grow_outs, added[1].plots), (2, 1, 2));
        let last = history.last().unwrap();
        assert_eq!((last.number, last.added, last.source.at), (BatchNumber(3), summary.added, moment(9)));
        assert_eq!(last.source.file_name.as_deref(), Some("f.csv"));
        assert_eq!(last.source.reading.as_deref(), Some("columns = 2"));
        assert_eq!(ledger.headings(BatchNumber(3)).unwrap(), ["variety", "wt (g)"]);
        assert_eq!(ledger.batch(BatchNumber(3)).unwrap(), *last);
        assert!(matches!(ledger.batch(BatchNumber(4)), Err(LedgerFault::NoSuchBatch(BatchNumber(4)))));
        is_sound(&mut ledger);
    });
}

#[test]
fn the_same_file_is_known_again_by_its_content_and_sheet() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let mut from = source(BatchKind::FruitSamples, "f.xlsx", 7);
        from.sheet = Some("August".to_owned());
        let batch = take(&mut ledger, &from, variety, &[10.0]).batch;
        let known = ledger.already_taken(Sha256([7; 32]), Some("August")).unwrap();
        assert_eq!(known.map(|known| known.number), Some(batch));
        assert_eq!(ledger.already_taken(Sha256([7; 32]), Some("July")).unwrap(), None);
        assert_eq!(ledger.already_taken(Sha256([7; 32]), None).unwrap(), None);
        assert_eq!(ledger.already_taken(Sha256([8; 32]), Some("August")).unwrap(), None);
    });
}

/// Two people who take one file at one time bring its rows in once: whoever waits for the pen looks again.
#[test]
fn whoever_waited_while_another_took_the_file_takes_nothing() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let from = source(BatchKind::FruitSamples, "f.csv", 7);
        let mut writer = ledger.begin_batch(&from).unwrap();
        let waits = std::thread::spawn({
            let (location, from) = (location.clone(), from.clone());
            move || Ledger::open(&location).unwrap().begin_batch(&from).map(drop)
        });
        writer.add_note(2, &Note::Fruit(fruit(variety, 10.0)), &[]).unwrap();
        let batch = writer.commit().unwrap().batch;
        assert!(matches!(waits.join().unwrap(), Err(LedgerFault::TakenAlready(by)) if by == batch));
        ledger.undo(batch, &act(8), Resting::Refuse).unwrap();
        assert!(ledger.begin_batch(&from).is_ok(), "an undone batch is out of the way");
        is_sound(&mut ledger);
    });
}

/// Two fruits of one weight stay two; a later version adds its third, and tells of the row that it lost.
#[test]
fn a_later_version_of_a_file_adds_only_what_is_new() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let version = |content| source(BatchKind::FruitSamples, "f.csv", content);
        let first = take(&mut ledger, &version(3), variety, &[10.0, 10.0, 11.0]);
        assert_eq!((first.added.fruit_samples, first.already_there, first.gone), (3, 0, 0));
        let second = take(&mut ledger, &version(4), variety, &[12.0, 10.0, 10.0, 10.0]);
        assert_eq!((second.added.fruit_samples, second.already_there, second.gone), (2, 2, 1));
        let third = take(&mut ledger, &version(5), variety, &[12.0, 10.0, 10.0, 10.0, 11.0]);
        assert_eq!((third.added.fruit_samples, third.already_there, third.gone), (0, 5, 0));
        assert_eq!(weights(&mut ledger, variety), (vec![10.0, 10.0, 11.0, 12.0, 10.0], 0));
        is_sound(&mut ledger);
    });
}

#[test]
fn rows_of_different_files_sheets_and_kinds_are_never_merged() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let mut sheet = source(BatchKind::FruitSamples, "f.csv", 5);
        sheet.sheet = Some("July".to_owned());
        let sources = [
            source(BatchKind::FruitSamples, "f.csv", 3),
            source(BatchKind::FruitSamples, "g.csv", 4),
            sheet,
            source(BatchKind::Picks, "f.csv", 6),
        ];
        for from in &sources {
            assert_eq!(take(&mut ledger, from, variety, &[10.0]).added.fruit_samples, 1);
        }
        assert_eq!(weights(&mut ledger, variety).0.len(), sources.len());
    });
}

#[test]
fn unknown_varieties_and_plots_are_refused_and_the_writer_goes_on() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let stranger = Id::from_uuid(uuid::Uuid::from_u128(5));
        let mut writer = ledger.begin_batch(&source(BatchKind::FruitSamples, "f.csv", 3)).unwrap();
        let fault = writer.add_note(2, &Note::Fruit(fruit(stranger, 1.0)), &[]).unwrap_err();
        assert!(matches!(fault, LedgerFault::NoSuchVariety(id) if id == stranger), "{fault:?}");
        let mut nowhere = fruit(variety, 2.0);
        nowhere.subject.plot = Some(Id::from_uuid(uuid::Uuid::from_u128(6)));
        assert!(matches!(writer.add_note(3, &Note::Fruit(nowhere), &[]), Err(LedgerFault::NoSuchPlot(_))));
        writer.add_note(4, &Note::Fruit(fruit(variety, 3.0)), &[]).unwrap();
        writer.commit().unwrap();
        assert_eq!(weights(&mut ledger, variety).0, [3.0]);
    });
}

#[test]
fn plots_and_plants_take_the_newest_details_and_keep_the_old_where_a_row_is_silent() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
        let plot = add_plots(&mut ledger, &ids[..1])[0];
        let grow_out = ledger.grow_outs().unwrap()[0].clone();
        assert_eq!((grow_out.season, grow_out.garden.as_str()), (season(), "Home"));

        let mut writer = ledger.begin_batch(&source(BatchKind::GrowOut, "plots.csv", 6)).unwrap();
        let home =
            NewGrowOut { name: " 2031  home ".to_owned(), season: season(), garden: "HOME".to_owned() };
        assert_eq!(writer.add_grow_out(1, &home).unwrap().standing, Standing::AlreadyThere);
        let away = NewGrowOut { season: Season::new(2032).unwrap(), ..home };
        assert!(matches!(writer.add_grow_out(1, &away), Err(LedgerFault::GrowOutClash { season: 2031, .. })));
        let again = NewPlot {
            grow_out: grow_out.id,
            label: "1".to_owned(),
            variety: ids[0],
            block: None,
            row: None,
            position: Some(4),
            transplanted: Some(day(5, 20)),
            plant_count: Some(6),
            layout: record::growout::PlotLayout::default(),
        };
        let placed = writer.add_plot(2, &again).unwrap();
        assert_eq!((placed.id, placed.standing), (plot, Standing::Extended));
        assert_eq!(writer.add_plot(3, &again).unwrap().standing, Standing::AlreadyThere);
        let other = NewPlot { variety: ids[1], ..again };
        let fault = writer.add_plot(4, &other).unwrap_err().to_string();
        assert_eq!(
            fault,
            "plot \"1\" of \"2031 Home\" is already planted with \"Amber Lantern\", not \"Brindle\""
        );
        let plant = Plant { plot, number: PlantNumber(2), transplanted: Some(day(5, 22)), lost: None };
        assert_eq!(writer.add_plant(5, &plant).unwrap(), Standing::Added);
        let lost = Plant { lost: Some(day(7, 1)), transplanted: None, ..plant.clone() };
        assert_eq!(writer.add_plant(6, &lost).unwrap(), Standing::Extended);
        assert_eq!(writer.add_plant(7, &lost).unwrap(), Standing::AlreadyThere);
        writer.commit().unwrap();

        let plots = ledger.plots().unwrap();
        assert_eq!((plots[0].block, plots[0].position, plots[0].plant_count), (Some(1), Some(4), Some(6)));
        assert_eq!(plots[0].transplanted, Some(day(5, 20)));
        assert_eq!(ledger.plants().unwrap(), [Plant { lost: Some(day(7, 1)), ..plant }]);
        is_sound(&mut ledger);
    });
}

#[test]
fn a_note_may_name_its_plot_and_plant() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern"]);
        let plot = add_plots(&mut ledger, &ids)[0];
        let mut there = fruit(ids[0], 10.0);
        there.subject.plot = Some(plot);
        there.subject.plant = Some(PlantNumber(3));
        let mut writer = ledger.begin_batch(&source(BatchKind::FruitSamples, "f.csv", 6)).unwrap();
        writer.add_note(9, &Note::Fruit(there.clone()), &[]).unwrap();
        let batch = writer.commit().unwrap().batch;
        let read = ledger.records_in(batch).unwrap();
        assert_eq!((&read[0].note, read[0].from.row), (&Note::Fruit(there), 9));
        assert_ne!(about(ids[0]).plot, Some(plot));
    });
}
