//! The demo house's raw files against the list of slips that were made in them on purpose: every slip is
//! found, and next to nothing else is.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use intake::entry::Entry;
use intake::file::{Content, open};
use intake::kind::Kind;
use intake::layout::Answers;
use intake::recognise::recognise;
use intake::roster::Roster;
use intake::take::{Taken, take};
use jiff::civil::date;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::variety::Variety;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// File, sheet and row.
type Place = (String, String, u64);

/// What the files taught the house so far.
#[derive(Default)]
struct Learnt {
    varieties: Vec<Variety>,
    grow_outs: BTreeMap<String, GrowOut>,
    plots: Vec<Plot>,
}

#[derive(Default)]
struct Met {
    rejected: BTreeMap<Place, Option<String>>,
    doubted: BTreeSet<Place>,
    entries: u64,
}

fn raw_files(root: &Path) -> Vec<PathBuf> {
    let list = |folder: &Path| {
        let mut paths: Vec<PathBuf> =
            std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        paths
    };
    list(root).iter().flat_map(|folder| list(folder)).collect()
}

impl Learnt {
    fn roster(&self) -> Roster {
        let mut roster = Roster::new();
        self.varieties.iter().for_each(|variety| roster.add_variety(variety, None));
        self.grow_outs.values().for_each(|grow_out| roster.add_grow_out(grow_out));
        self.plots.iter().for_each(|plot| roster.add_plot(plot));
        roster
    }

    fn name_of(&self, id: Id<Variety>) -> String {
        self.varieties.iter().find(|variety| variety.id == id).unwrap().name.clone()
    }

    fn new_id<Of>(&self) -> Id<Of> {
        let number = self.varieties.len() + self.grow_outs.len() + self.plots.len() + 1;
        Id::from_uuid(Uuid::from_u128(number as u128))
    }

    fn learn(&mut self, entry: Entry) {
        match entry {
            Entry::Variety(new) => {
                match self.varieties.iter_mut().find(|variety| Some(variety.id) == new.known) {
                    Some(known) => known.aliases.extend(new.aliases),
                    None => {
                        let id = self.new_id();
                        self.varieties.push(Variety {
                            id,
                            name: new.name,
                            aliases: new.aliases,
                            claims: new.claims,
                        });
                    }
                }
            }
            Entry::Plot(new) if new.known.is_none() => {
                let id = self.new_id();
                let grow_out =
                    GrowOut { id, name: new.grow_out.clone(), season: new.season, garden: new.garden };
                let grow_out = self.grow_outs.entry(new.grow_out).or_insert(grow_out).id;
                let (id, label, variety) = (self.new_id(), new.label, new.variety);
                let (block, row, position) = (new.block, new.row, new.position);
                let (transplanted, plant_count) = (new.transplanted, new.plant_count);
                self.plots.push(Plot {
                    id,
                    grow_out,
                    label,
                    variety,
                    block,
                    row,
                    position,
                    transplanted,
                    plant_count,
                    layout: new.layout,
                });
            }
            _ => {}
        }
    }
}

fn take_file(path: &Path, learnt: &mut Learnt, met: &mut Met) {
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    let answers = Answers::default();
    for table in open(&name, Content::Path(path.to_owned())).unwrap() {
        let layout = recognise(&table, &[], &answers).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        let place = |row: u64| (name.clone(), table.sheet().unwrap_or_default().to_owned(), row);
        let roster = learnt.roster();
        let mut given = Vec::new();
        take(&table, &layout, &roster, date(2026, 11, 20), &mut |taken| {
            given.push(taken);
            ControlFlow::Continue(())
        })
        .unwrap();
        for taken in given {
            match taken {
                Taken::Rejected(rejection) => {
                    let offered = rejection.suggestion.map(|near| learnt.name_of(near.variety));
                    met.rejected.insert(place(rejection.row), offered);
                }
                Taken::Entry { row, entry, doubts, .. } => {
                    met.entries += 1;
                    if !doubts.is_empty() {
                        met.doubted.insert(place(row));
                    }
                    if matches!(layout.kind, Kind::Varieties | Kind::GrowOut) {
                        learnt.learn(entry);
                    }
                }
            }
        }
    }
}

/// The places of slips that should come to `expected`, with their reasons and truths.
fn slips(root: &Path, expected: &str) -> BTreeMap<Place, (String, String)> {
    let mut reader = csv::Reader::from_path(root.join("faults.csv")).unwrap();
    let records = reader.records().map(Result::unwrap).filter(|record| &record[5] == expected);
    // A slip in all rows of a file is told apart.
    let rows = records.filter_map(|record| {
        let file = record[0].rsplit('/').next().unwrap().to_owned();
        let place = (file, record[1].to_owned(), record[2].parse().ok()?);
        Some((place, (record[6].to_owned(), record[7].to_owned())))
    });
    rows.collect()
}

/// Sound rows that may be flagged among the demo's 40,000: flat or furrowed fruit that no ellipsoid fits.
const MOST_NEEDLESS_DOUBTS: usize = 20;

/// The one file in which every date reads both ways, so that every row must wait.
const UNDECIDABLE: &str = "fruit-2025-open-day.csv";

#[test]
fn the_slips_of_the_demo_house_are_found() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-house");
    if !root.join("faults.csv").exists() {
        println!("left out: the demo house's raw files");
        return;
    }
    let (mut learnt, mut met) = (Learnt::default(), Met::default());
    for path in raw_files(&root.join("raw")) {
        take_file(&path, &mut learnt, &mut met);
    }
    let (wrong, odd) = (slips(&root, "quarantined"), slips(&root, "doubted"));
    let passed: Vec<_> = wrong.keys().filter(|place| !met.rejected.contains_key(*place)).collect();
    let needless: Vec<_> =
        met.rejected.keys().filter(|place| !wrong.contains_key(*place) && place.0 != UNDECIDABLE).collect();
    let unseen: Vec<_> = odd.keys().filter(|place| !met.doubted.contains(*place)).collect();
    let needless_doubts = met.doubted.iter().filter(|place| !odd.contains_key(*place)).count();
    let names: Vec<_> =
        wrong.iter().filter(|(place, slip)| slip.0 == "unknown variety" && place.0 != UNDECIDABLE).collect();
    let offered = names.iter().filter(|(place, slip)| met.rejected[*place].as_ref() == Some(&slip.1)).count();
    println!(
        "{} entries; {} slips quarantined, {} doubted and {needless_doubts} needlessly; {offered} of {} names offered rightly",
        met.entries,
        wrong.len(),
        odd.len(),
        names.len()
    );
    assert_eq!((passed, needless, unseen), (vec![], vec![], vec![]));
    assert!(needless_doubts <= MOST_NEEDLESS_DOUBTS, "{needless_doubts} sound rows are flagged");
    assert_eq!(offered, names.len());
}
