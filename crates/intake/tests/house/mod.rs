//! An invented house for tests: four varieties, three grow-outs, four plots.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    reason = "each test file uses its own part of the house"
)]

pub mod workbooks;

use intake::entry::Entry;
use intake::file::{Content, open};
use intake::layout::{Answers, Layout};
use intake::recognise::recognise;
use intake::rejection::Rejection;
use intake::roster::Roster;
use intake::take::{Taken, Tally, take};
use jiff::civil::{Date, date};
use record::doubt::DoubtKind;
use record::fruit::FruitSample;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::mass::Grams;
use record::note::Note;
use record::season::Season;
use record::variety::{Claim, ClaimSubject, Variety};
use std::ops::ControlFlow;
use uuid::Uuid;

pub const TODAY: Date = date(2032, 1, 15);

pub fn id<Of>(number: u128) -> Id<Of> {
    Id::from_uuid(Uuid::from_u128(number))
}

fn variety(number: u128, name: &str, aliases: &[&str], class: &str) -> Variety {
    let claims = vec![Claim { about: ClaimSubject::FruitClass, words: class.to_owned() }];
    let aliases = aliases.iter().map(|alias| (*alias).to_owned()).collect();
    Variety { id: id(number), name: name.to_owned(), aliases, claims }
}

fn plot(number: u128, grow_out: u128, label: &str, variety: u128, out: Date) -> Plot {
    Plot {
        id: id(number),
        grow_out: id(grow_out),
        label: label.to_owned(),
        variety: id(variety),
        block: None,
        row: None,
        position: None,
        transplanted: Some(out),
        plant_count: None,
        layout: record::growout::PlotLayout::default(),
    }
}

/// Amber Bell (1, a slicer), Old Pike (2), Nan (3, a currant), Great Lump (4, a beefsteak of 500 g).
pub fn roster() -> Roster {
    let mut roster = Roster::new();
    roster.add_variety(&variety(1, "Amber Bell", &["Ambra", "A. Bell"], "slicer"), None);
    roster.add_variety(&variety(2, "Old Pike", &[], "anything"), None);
    roster.add_variety(&variety(3, "Nan", &["Granny"], "Currant"), None);
    roster.add_variety(&variety(4, "Great Lump", &[], "beefsteak"), Grams::new(500.0));
    for (number, name, year, garden) in
        [(11, "2030 Home", 2030, "Home"), (12, "2031 Home", 2031, "Home"), (13, "2031 Hill", 2031, "Hill")]
    {
        let season = Season::new(year).unwrap();
        let (name, garden) = (name.to_owned(), garden.to_owned());
        roster.add_grow_out(&GrowOut { id: id(number), name, season, garden });
    }
    roster.add_plot(&plot(21, 11, "A1", 1, date(2030, 5, 20)));
    roster.add_plot(&plot(22, 12, "A1", 2, date(2031, 5, 20)));
    roster.add_plot(&plot(23, 12, "B1", 1, date(2031, 5, 20)));
    roster.add_plot(&plot(24, 13, "B1", 4, date(2031, 6, 1)));
    roster.add_lot("30-001", id(31));
    roster
}

/// What a file gave.
pub struct Outcome {
    pub layout: Layout,
    pub entries: Vec<(u64, Entry, Vec<DoubtKind>)>,
    pub fingerprints: Vec<u64>,
    pub rejections: Vec<Rejection>,
    pub tally: Tally,
}

pub fn bytes(content: impl AsRef<[u8]>) -> Content {
    Content::Bytes(content.as_ref().into())
}

/// Opens, recognises and takes the first table of a file.
pub fn taken_with(name: &str, content: impl AsRef<[u8]>, answers: &Answers) -> Outcome {
    let table = open(name, bytes(content)).unwrap().remove(0);
    let layout = recognise(&table, &[], answers).unwrap();
    let mut outcome = Outcome {
        layout,
        entries: Vec::new(),
        fingerprints: Vec::new(),
        rejections: Vec::new(),
        tally: Tally::default(),
    };
    let (entries, fingerprints) = (&mut outcome.entries, &mut outcome.fingerprints);
    let rejections = &mut outcome.rejections;
    let tally = take(&table, &outcome.layout, &roster(), TODAY, &mut |taken| {
        match taken {
            Taken::Entry { row, fingerprint, entry, doubts } => {
                entries.push((row, entry, doubts.iter().map(|doubt| doubt.kind).collect()));
                fingerprints.push(fingerprint);
            }
            Taken::Rejected(rejection) => rejections.push(rejection),
        }
        ControlFlow::Continue(())
    });
    outcome.tally = tally.unwrap();
    outcome
}

pub fn taken(name: &str, content: impl AsRef<[u8]>) -> Outcome {
    taken_with(name, content, &Answers::default())
}

impl Outcome {
    pub fn fruits(&self) -> Vec<&FruitSample> {
        let fruit = |entry: &'_ Entry| matches!(entry, Entry::Note(Note::Fruit(_)));
        self.entries
            .iter()
            .filter(|(_, entry, _)| fruit(entry))
            .filter_map(|(_, entry, _)| match entry {
                Entry::Note(Note::Fruit(sample)) => Some(sample),
                _ => None,
            })
            .collect()
    }

    /// Weights in grams, rounded to a tenth.
    pub fn weights(&self) -> Vec<Option<f64>> {
        self.fruits()
            .iter()
            .map(|fruit| fruit.weight.map(|weight| (weight.get() * 10.0).round() / 10.0))
            .collect()
    }

    pub fn days(&self) -> Vec<Option<Date>> {
        self.fruits().iter().map(|fruit| fruit.sampled_on).collect()
    }

    pub fn notes(&self) -> Vec<&Note> {
        self.entries
            .iter()
            .filter_map(|(_, entry, _)| if let Entry::Note(note) = entry { Some(note) } else { None })
            .collect()
    }

    /// Rejections as `row: column: reason`.
    pub fn reasons(&self) -> Vec<String> {
        let told = |rejection: &Rejection| {
            let column = rejection.column.as_deref().unwrap_or("-");
            format!("{}: {column}: {}", rejection.row, rejection.fault)
        };
        self.rejections.iter().map(told).collect()
    }

    pub fn questions(&self) -> Vec<String> {
        self.layout.questions.iter().map(ToString::to_string).collect()
    }
}
