//! `locule demo`: the whole job on raw files, from an empty folder to the workbench.

use super::reference::{Shape, shape};
use super::{Failure, advise, bars, call, compare, forecast, lots, photo, print, sales, take, workbench};
use crate::answer::{Answer, Ending, Form, give};
use crate::arguments::print::{FieldPaper, PacketPaper, PaperWord, Print, Printed, SeasonPaper};
use crate::arguments::{Call, Demo};
use crate::columns::columns;
use house::folder::{self, House};
use house::forecast::place;
use house::gardens::{self, Garden};
use house::history::Act;
use house::lots::law::Law;
use house::names::{self, UnknownName};
use house::opened::Given;
use house::quarantine;
use house::settings::Settings;
use house::take::{KeepReading, Request};
use jiff::{Timestamp, ZonedDateTime};
use record::language::{Units, counted, grouped};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The name of the invented house.
const DEMO_NAME: &str = "Crookstile Seed House";
/// Where its packets are sent from: invented.
const DEMO_ADDRESS: &str = "2 Stile Lane, Crookstile, WI 53000";
/// The station whose weather is a buyer's, and stands for that of a garden without a thermometer: one that is known without a
/// file.
const DEMO_WEATHER: &str = "Milwaukee WI";
/// The days of its gardens' thermometers, beside the raw files; each file is called after its garden.
const DEMO_THERMOMETERS: &str = "weather";
/// Its seed book, beside the raw files.
const DEMO_SEED_BOOK: &str = "seed-room.toml";
/// Its sales, beside the raw files.
const DEMO_SALES: &str = "sales";
/// A photograph of fruit beside the card of their plot, beside the raw files.
const DEMO_PHOTOGRAPH: &str = "photos/chapel-oak.jpg";
/// What one of its buyers asks, beside the raw files.
const DEMO_REQUEST: &str = "request-2027.toml";
/// The invented keeper of its notes.
const DEMO_KEEPER: &str = "Wren Adderley";

/// What the job came to.
#[derive(Debug, Serialize, JsonSchema)]
struct Summary {
    /// The house's folder.
    house: String,
    /// What came in.
    taken: take::TakenIn,
    /// Rows that wait in the quarantine, by what to do about them.
    quarantined: BTreeMap<String, u64>,
    /// Names that no variety has.
    unknown_names: u64,
    /// What the photograph beside the raw files said; its fruit are taken before anything is called.
    photographs: Option<photo::Photographs>,
    /// What was called.
    called: call::Called,
    /// What the trials of each season say.
    trials: Vec<compare::Comparison>,
    /// The harvest to expect in one garden; none where no picks came in.
    harvest: Option<forecast::Harvests>,
    /// Lots of seed that were taken from the seed book beside the raw files.
    lots: usize,
    /// Packets of the sales beside the raw files.
    packets_sold: i64,
    /// The answer to the request beside the raw files.
    advice: Option<advise::Advised>,
    /// Files written.
    written: Vec<String>,
}

pub(crate) fn run(typed: &Demo, form: Form) -> Result<Ending, Failure> {
    let house = fresh_house(&typed.folder)?;
    let summary = job(&house, &typed.raw)?;
    give(&summary, form)?;
    if typed.no_serve {
        return Ok(Ending::Done);
    }
    workbench::run(house, typed.port)
}

/// Makes the demo house anew; an older demo house in its place is removed, anything else is left alone.
fn fresh_house(folder: &Path) -> Result<House, Failure> {
    if let Ok(old) = folder::find(Some(folder), folder)
        && old.settings.name == DEMO_NAME
    {
        fs::remove_dir_all(folder)?;
    }
    let settings = Settings {
        name: DEMO_NAME.to_owned(),
        units: Units::US,
        keeper: DEMO_KEEPER.to_owned(),
        postgres: None,
        site: None,
        address: Some(DEMO_ADDRESS.to_owned()),
        law: Law::default(),
        minimum: None,
        sells_to: None,
    };
    let why = Some("the guides that the house was made with".to_owned());
    let act = Act { who: DEMO_KEEPER.to_owned(), at: Timestamp::now(), why };
    Ok(folder::create(folder, &settings, &act)?)
}

fn job(house: &House, raw: &Path) -> Result<Summary, Failure> {
    let request = Request {
        who: DEMO_KEEPER.to_owned(),
        at: Timestamp::now(),
        today: ZonedDateTime::now().date(),
        asked: house::asked::Asked::default(),
        keep_reading: KeepReading::Once,
        why: None,
    };
    let mut taken = take_folders(house, raw, &request)?;
    take_thermometers(house, raw, &request, &mut taken)?;
    let photographs = beside(raw, DEMO_PHOTOGRAPH).map(|file| photo::of_demo(house, &file)).transpose()?;
    let called = call::run(house, &Call { varieties: Vec::new(), guide: None, since: None })?;
    let trials = compare::of_trials(house)?;
    tell_gardens(house)?;
    let harvest = forecast::of_demo(house, DEMO_WEATHER)?;
    let keeper = DEMO_KEEPER.to_owned();
    let lots = beside(raw, DEMO_SEED_BOOK).map(|book| lots::take(house, &book, Some(&keeper))).transpose()?;
    let packets_sold = take_sales(house, raw)?;
    let advice = beside(raw, DEMO_REQUEST).map(|request| advise::of_demo(house, &request)).transpose()?;
    let mut written = Vec::new();
    for (paper, name) in [(PaperWord::Letter, "catalogue-letter.pdf"), (PaperWord::A4, "catalogue-a4.pdf")] {
        let to = Some(house.printed().join(name));
        written.push(
            print::catalogue(
                house,
                &Print {
                    what: Printed::Catalogue,
                    paper,
                    to,
                    field: FieldPaper::default(),
                    packets: PacketPaper::default(),
                    season: SeasonPaper::default(),
                },
            )?
            .file,
        );
    }
    let mut quarantined: BTreeMap<String, u64> = BTreeMap::new();
    for row in quarantine::waiting(house)? {
        *quarantined.entry(row.rejected.remedy).or_default() += 1;
    }
    let unknown_names = names::unknown(house)?.iter().map(|UnknownName { rows, .. }| rows).sum();
    Ok(Summary {
        house: house.folder.display().to_string(),
        taken,
        quarantined,
        unknown_names,
        photographs,
        called,
        trials,
        harvest,
        lots: lots.unwrap_or_default(),
        packets_sold,
        advice,
        written,
    })
}

/// Takes the days of the thermometers that hang in the gardens, where they lie beside the raw files.
fn take_thermometers(
    house: &House,
    raw: &Path,
    request: &Request,
    taken: &mut take::TakenIn,
) -> Result<(), Failure> {
    let Some(folder) = raw.parent().map(|folder| folder.join(DEMO_THERMOMETERS)) else { return Ok(()) };
    if folder.is_dir() {
        let files: Vec<Given> = within(&folder, Path::is_file)?.iter().map(|file| Given::at(file)).collect();
        taken.weather.extend(take::told(&house::take::take(house, &files, request, &bars())?).weather);
    }
    Ok(())
}

/// Tells whose weather the gardens have, so that plots are read by it wherever a buyer's garden lies: that of a garden's own
/// thermometer where one hangs there.
fn tell_gardens(house: &House) -> Result<(), Failure> {
    let act = Act { who: DEMO_KEEPER.to_owned(), at: Timestamp::now(), why: None };
    let stations = place::stations(house)?;
    for garden in gardens::gardens(house)? {
        let own = stations.iter().find(|station| station.starts_with(&garden.name)).cloned();
        let weather = own.unwrap_or_else(|| DEMO_WEATHER.to_owned());
        gardens::tell(house, Garden { weather: Some(weather), ..garden }, &act)?;
    }
    Ok(())
}

/// Takes the files of sales beside the raw files, and tells how many packets they hold.
fn take_sales(house: &House, raw: &Path) -> Result<i64, Failure> {
    let Some(folder) = raw.parent().map(|folder| folder.join(DEMO_SALES)).filter(|folder| folder.is_dir())
    else {
        return Ok(0);
    };
    let keeper = DEMO_KEEPER.to_owned();
    within(&folder, Path::is_file)?.iter().map(|file| sales::of_demo(house, file, &keeper)).sum()
}

/// A file that stands beside the raw files; nothing where it does not.
fn beside(raw: &Path, name: &str) -> Option<PathBuf> {
    raw.parent().map(|folder| folder.join(name)).filter(|file| file.is_file())
}

/// Takes the raw files folder by folder, in the order in which the house came to them.
fn take_folders(house: &House, raw: &Path, request: &Request) -> Result<take::TakenIn, Failure> {
    let mut taken = take::TakenIn { tables: Vec::new(), weather: Vec::new(), unreadable: Vec::new() };
    for folder in within(raw, Path::is_dir)? {
        let files: Vec<Given> = within(&folder, Path::is_file)?.iter().map(|file| Given::at(file)).collect();
        let more = take::told(&house::take::take(house, &files, request, &bars())?);
        taken.tables.extend(more.tables);
        taken.weather.extend(more.weather);
        taken.unreadable.extend(more.unreadable);
    }
    Ok(taken)
}

/// What stands in a folder, by name.
fn within(folder: &Path, is_wanted: fn(&Path) -> bool) -> Result<Vec<PathBuf>, Failure> {
    let entries = fs::read_dir(folder).map_err(|fault| Failure::Typed {
        message: format!("cannot read {}: {fault}", folder.display()),
        help: "run from the project's folder, or name the raw files with --raw".to_owned(),
    })?;
    let mut paths: Vec<PathBuf> = entries.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.retain(|path| is_wanted(path));
    paths.sort();
    Ok(paths)
}

/// Most contested calls and remedies that the summary lists; the rest are counted.
const MOST_TOLD: usize = 8;

impl Answer for Summary {
    const SHAPE: &'static str = "demo/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\nThe demo house is in {}.\n\nWhat came in", self.house)?;
        tell_taken(to, &self.taken)?;
        for own in &self.taken.weather {
            writeln!(to, "  {}", own.briefly())?;
        }
        tell_quarantined(to, &self.quarantined)?;
        if let Some(photographs) = &self.photographs {
            writeln!(to, "\nWhat a photograph said")?;
            photographs.tell_briefly(to)?;
        }
        tell_called(to, &self.called)?;
        writeln!(to, "\nWhich varieties bear more")?;
        self.trials.iter().try_for_each(|trial| trial.tell_briefly(to))?;
        if let Some(harvest) = &self.harvest {
            writeln!(to, "\nWhat harvest to expect in a garden with the weather of {DEMO_WEATHER}")?;
            harvest.tell_earliest(to, MOST_TOLD)?;
        }
        if 0 < self.lots {
            let lots = counted(self.lots as u64, "lot", "lots");
            writeln!(to, "\nThe seed room\n  {lots} of seed: locule lot, locule germination")?;
        }
        if 0 < self.packets_sold {
            writeln!(to, "\nWhat sold, and what the next grow-out should hold")?;
            let packets = counted(self.packets_sold.unsigned_abs(), "packet", "packets");
            writeln!(
                to,
                "  {packets} sold: locule sales, locule next --plots 40, locule increase \"Post Mill\" --packets 200"
            )?;
        }
        if let Some(advice) = &self.advice {
            writeln!(to, "\nWhat one garden and its kitchen ask: locule advise ../{DEMO_REQUEST}")?;
            advice.tell_briefly(to)?;
        }
        writeln!(to, "\nFiles written")?;
        for file in &self.written {
            writeln!(to, "  {file}")?;
        }
        writeln!(to)
    }
}

fn tell_taken(to: &mut dyn Write, taken: &take::TakenIn) -> io::Result<()> {
    let row = |table: &take::TableIn| {
        let added = if table.taken_before { "taken before".to_owned() } else { grouped(table.added) };
        vec![format!("  {}", table.table), table.kind.clone(), added, table.read_as.clone()]
    };
    columns(to, &taken.tables.iter().map(row).collect::<Vec<_>>())?;
    for not_read in &taken.unreadable {
        writeln!(to, "  not taken: {}", not_read.reason)?;
    }
    let sum = |count: fn(&take::TableIn) -> u64| taken.tables.iter().map(count).sum::<u64>();
    writeln!(
        to,
        "  {} added, {} doubted and set aside, {} quarantined",
        counted(sum(|table| table.added), "record", "records"),
        sum(|table| table.doubted),
        sum(|table| table.quarantined)
    )
}

fn tell_quarantined(to: &mut dyn Write, quarantined: &BTreeMap<String, u64>) -> io::Result<()> {
    writeln!(to, "\nWhat waits in the quarantine, and what to do about it")?;
    let mut remedies: Vec<(&String, &u64)> = quarantined.iter().collect();
    remedies.sort_by_key(|(_, rows)| std::cmp::Reverse(**rows));
    for (remedy, rows) in remedies.iter().take(MOST_TOLD) {
        writeln!(to, "  {}: {remedy}", counted(**rows, "row", "rows"))?;
    }
    if let Some(rest) = remedies.len().checked_sub(MOST_TOLD).filter(|rest| 0 < *rest) {
        writeln!(to, "  and {} more kinds: locule quarantine", rest)?;
    }
    Ok(())
}

fn tell_called(to: &mut dyn Write, called: &call::Called) -> io::Result<()> {
    writeln!(to, "\nWhat the varieties are")?;
    let contested: Vec<&call::CalledVariety> = called.contested().collect();
    writeln!(
        to,
        "  {} called, {} with a contested call. What to measure next:",
        counted(called.varieties.len() as u64, "variety", "varieties"),
        contested.len()
    )?;
    for variety in contested.iter().take(MOST_TOLD) {
        call::tell_contested(to, variety)?;
    }
    if let Some(rest) = contested.len().checked_sub(MOST_TOLD).filter(|rest| 0 < *rest) {
        writeln!(to, "  and {rest} more: locule call")?;
    }
    Ok(())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Summary>()]
}
