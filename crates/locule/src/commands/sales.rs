//! `locule sales`: files of sales, and what is expected to sell.

use super::reference::{Shape, shape};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::sales::{DatesWord, Sales as Typed, SalesAction, TakeSales, TurnSales};
use crate::columns::columns;
use house::asked::DateOrder;
use house::folder::House;
use house::list;
use house::opened::Given;
use house::sales::{
    self, Expected, Intent, SalesGiven, SalesInfo, SalesNumber, SalesOutcome, SalesState, SalesTaken,
    SaysOfSales, Turn,
};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

/// A file of sales, and what became of it.
#[derive(Debug, Serialize, JsonSchema)]
struct Taken {
    /// The file.
    file: String,
    /// Whose sales it tells.
    shop: String,
    /// Its number; nothing where it was only looked at.
    number: Option<u32>,
    /// Whether this very file was taken before, so that nothing was added.
    taken_before: bool,
    /// The first day that it covers.
    first: String,
    /// The last day that it covers.
    last: String,
    /// Headings, with what each was read as.
    columns: Vec<[String; 2]>,
    /// Rows that are sales.
    rows: usize,
    /// Packets, less those that came back.
    packets: i64,
    /// Varieties sold.
    varieties: usize,
    /// Rows of orders that were cancelled, or of no packet.
    void: u32,
    /// Rows that could not be read.
    faults: Vec<FaultTold>,
    /// What is no variety of the house, most rows first.
    others: Vec<OtherTold>,
}

/// A row that could not be read.
#[derive(Debug, Serialize, JsonSchema)]
struct FaultTold {
    /// The row.
    row: u64,
    /// The heading of its column.
    column: Option<String>,
    /// The cell.
    value: String,
    /// What is wrong with it.
    fault: String,
    /// What to do.
    remedy: String,
}

/// Something sold that is no variety of the house.
#[derive(Debug, Serialize, JsonSchema)]
struct OtherTold {
    /// What the file calls it.
    item: String,
    /// Its rows.
    rows: u32,
    /// Its packets.
    packets: i64,
    /// The nearest name of the house.
    nearest: Option<String>,
}

/// Files of sales, and what is expected to sell.
#[derive(Debug, Serialize, JsonSchema)]
struct Known {
    /// Files, oldest first.
    files: Vec<FileTold>,
    /// What is expected; nothing where too little is known.
    expected: Option<ExpectedTold>,
}

/// A file of sales.
#[derive(Debug, Serialize, JsonSchema)]
struct FileTold {
    /// Its number.
    number: u32,
    /// Its name.
    file: String,
    /// Whose sales it tells.
    shop: String,
    /// The first day that it covers.
    first: String,
    /// The last day that it covers.
    last: String,
    /// Rows kept.
    rows: u64,
    /// Rows left out.
    left_out: u32,
    /// Packets, less those that came back.
    packets: i64,
    /// Whether it was withdrawn.
    withdrawn: bool,
}

/// What is expected to sell.
#[derive(Debug, Serialize, JsonSchema)]
struct ExpectedTold {
    /// Selling years, from July to June, the oldest first.
    years: Vec<YearTold>,
    /// By how much a year's level changes, as the standard deviation of its logarithm.
    level_spread: f64,
    /// Parts of a year's sales by month.
    months: Vec<MonthTold>,
    /// Varieties, those that sell most first.
    varieties: Vec<VarietyTold>,
}

/// A selling year.
#[derive(Debug, Serialize, JsonSchema)]
struct YearTold {
    /// The year in which it begins.
    begins: i16,
    /// Packets that the files hold of it.
    packets: u64,
    /// The part of it that they cover, from 0 to 1.
    covered: f64,
    /// How good it was beside the last whole year.
    level: f64,
}

/// A month's part of a year's sales.
#[derive(Debug, Serialize, JsonSchema)]
struct MonthTold {
    /// The month, 1 to 12.
    month: i8,
    /// Its part, from 0 to 1.
    share: f64,
    /// Ends that hold its part, 80 in 100.
    between: [f64; 2],
}

/// What a variety sold and is expected to sell.
#[derive(Debug, Serialize, JsonSchema)]
struct VarietyTold {
    /// The variety.
    variety: String,
    /// Packets sold so far, less those that came back.
    sold: i64,
    /// Packets expected in a year like the last whole one.
    a_year: f64,
    /// Packets that one year in ten, five in ten and nine in ten stay under.
    next_year: [u32; 3],
}

pub(crate) fn run(house: &House, typed: Typed, form: Form) -> Result<Ending, Failure> {
    match typed.action {
        None => {}
        Some(SalesAction::Take(take)) => return answer(&taken(house, &take)?, form),
        Some(SalesAction::Withdraw(one)) => turn(house, &one, Turn::Withdrawn)?,
        Some(SalesAction::Restore(one)) => turn(house, &one, Turn::Restored)?,
    }
    answer(&known(house)?, form)
}

fn turn(house: &House, typed: &TurnSales, turn: Turn) -> Result<(), Failure> {
    let act = act(house, typed.by.as_ref(), typed.why.clone());
    Ok(sales::turn(house, SalesNumber(typed.number), turn, &act)?)
}

fn taken(house: &House, typed: &TakeSales) -> Result<Taken, Failure> {
    let dates = typed.dates.map(|word| match word {
        DatesWord::DayFirst => DateOrder::DayFirst,
        DatesWord::MonthFirst => DateOrder::MonthFirst,
    });
    let (day, item, quantity) = (typed.day.clone(), typed.item.clone(), typed.quantity.clone());
    let given = SalesGiven {
        file: Given::at(&typed.file),
        shop: typed.shop.clone(),
        says: SaysOfSales { day, item, quantity, dates },
        covers: (typed.from, typed.to),
    };
    let intent = if typed.dry_run { Intent::Look } else { Intent::Keep };
    Ok(told(sales::take(house, &given, intent, &act(house, typed.by.as_ref(), None))?))
}

/// Takes one of the demo's files in, and tells how many packets it holds.
pub(super) fn of_demo(house: &House, file: &Path, keeper: &String) -> Result<i64, Failure> {
    let stem = file.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let shop = stem.split('-').next().map(str::to_owned);
    let given =
        SalesGiven { file: Given::at(file), shop, says: SaysOfSales::default(), covers: (None, None) };
    Ok(sales::take(house, &given, Intent::Keep, &act(house, Some(keeper), None))?.packets)
}

fn told(taken: SalesTaken) -> Taken {
    let (number, taken_before) = match taken.outcome {
        SalesOutcome::Kept(number) => (Some(number.0), false),
        SalesOutcome::TakenBefore(number) => (Some(number.0), true),
        SalesOutcome::Looked => (None, false),
    };
    let fault = |fault: &sales::SaleFault| FaultTold {
        row: fault.row,
        column: fault.column.clone(),
        value: fault.value.clone(),
        fault: fault.fault.to_string(),
        remedy: fault.remedy.clone(),
    };
    let other = |other: &sales::OtherItem| OtherTold {
        item: other.item.clone(),
        rows: other.rows,
        packets: other.packets,
        nearest: other.suggestion.as_ref().map(|near| near.nearest.clone()),
    };
    Taken {
        number,
        taken_before,
        first: taken.days.0.to_string(),
        last: taken.days.1.to_string(),
        columns: taken
            .read
            .columns
            .iter()
            .map(|(heading, reads)| [heading.clone(), (*reads).to_owned()])
            .collect(),
        rows: taken.read.sales.len(),
        packets: taken.packets,
        varieties: taken.varieties,
        void: taken.read.void,
        faults: taken.read.faults.iter().map(fault).collect(),
        others: taken.read.others.iter().map(other).collect(),
        file: taken.file,
        shop: taken.shop,
    }
}

fn known(house: &House) -> Result<Known, Failure> {
    let files: Vec<FileTold> = sales::records(house)?.into_iter().map(file).collect();
    let standing = files.iter().any(|file| !file.withdrawn);
    let expected = if standing { Some(expected(house, &sales::expected(house)?)?) } else { None };
    Ok(Known { files, expected })
}

fn file(info: SalesInfo) -> FileTold {
    FileTold {
        number: info.number.0,
        file: info.file.name,
        shop: info.file.shop,
        first: info.file.first.to_string(),
        last: info.file.last.to_string(),
        rows: info.rows,
        left_out: info.file.left_out,
        packets: info.packets,
        withdrawn: info.state != SalesState::Standing,
    }
}

fn expected(house: &House, found: &Expected) -> Result<ExpectedTold, Failure> {
    let known = list::names(house)?;
    let year = |year: &sales::Level| YearTold {
        begins: year.year,
        packets: year.packets,
        covered: year.covered,
        level: year.level,
    };
    let month = |part: &sales::MonthPart| MonthTold {
        month: part.month,
        share: part.share,
        between: [part.between.0.get(), part.between.1.get()],
    };
    let mut varieties = Vec::new();
    for one in found.a_year_of_each() {
        let name = known.iter().find(|own| own.id == one.variety).map(|own| own.name.clone());
        let Some(variety) = name else { continue };
        varieties.push(VarietyTold { variety, sold: one.sold, a_year: one.a_year, next_year: one.next_year });
    }
    varieties.sort_by(|one, other| other.a_year.total_cmp(&one.a_year));
    Ok(ExpectedTold {
        years: found.demand.levels.iter().map(year).collect(),
        level_spread: found.demand.level_spread,
        months: found.demand.profile.months.iter().map(month).collect(),
        varieties,
    })
}

/// Rows at fault, and things that are no variety, that are told. A choice of the telling: `--json` has all.
const TOLD: usize = 12;

impl Answer for Taken {
    const SHAPE: &'static str = "sales-taken/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let Self { file, shop, first, last, .. } = self;
        let packets =
            format!("{} packets of {}", self.packets, counted(self.varieties as u64, "variety", "varieties"));
        match (self.number, self.taken_before) {
            (Some(number), true) => {
                writeln!(
                    to,
                    "{file}: this very file was taken before, as number {number}; nothing was added."
                )?;
            }
            (Some(number), false) => writeln!(to, "{file}: taken as number {number}, sales of {shop}.")?,
            (None, _) => writeln!(to, "{file}: sales of {shop}, not kept yet.")?,
        }
        writeln!(to, "{}: {packets}, from {first} to {last}.", counted(self.rows as u64, "row", "rows"))?;
        let columns: Vec<String> =
            self.columns.iter().map(|[heading, reads]| format!("{heading:?} as {reads}")).collect();
        writeln!(to, "Read: {}.", columns.join(", "))?;
        if 0 < self.void {
            writeln!(
                to,
                "{} of no packet, or of an order that was cancelled.",
                counted(self.void.into(), "row", "rows")
            )?;
        }
        self.tell_faults(to)?;
        self.tell_others(to)
    }
}

impl Taken {
    fn tell_faults(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.faults.is_empty() {
            return Ok(());
        }
        writeln!(
            to,
            "\n{} could not be read and were left out:",
            counted(self.faults.len() as u64, "row", "rows")
        )?;
        for fault in self.faults.iter().take(TOLD) {
            let column =
                fault.column.as_deref().map(|column| format!(", column {column:?}")).unwrap_or_default();
            writeln!(to, "  row {}{column}: {}", fault.row, fault.fault)?;
            writeln!(to, "    help: {}", fault.remedy)?;
        }
        left_out(to, self.faults.len())
    }

    fn tell_others(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.others.is_empty() {
            return Ok(());
        }
        writeln!(to, "\nNo variety of this house, and left out:")?;
        for other in self.others.iter().take(TOLD) {
            let rows = counted(other.rows.into(), "row", "rows");
            let near = other.nearest.as_deref().map(|near| format!("; nearest: {near}")).unwrap_or_default();
            writeln!(to, "  {:?}: {rows}{near}", other.item)?;
        }
        left_out(to, self.others.len())?;
        writeln!(
            to,
            "  If one is a variety, say so with locule names accept NAME VARIETY, and take the file again."
        )
    }
}

fn left_out(to: &mut dyn Write, all: usize) -> io::Result<()> {
    if TOLD < all { writeln!(to, "  and {} more; --json tells all", all - TOLD) } else { Ok(()) }
}

impl Answer for Known {
    const SHAPE: &'static str = "sales/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.files.is_empty() {
            return writeln!(to, "No sales are known. Take a file of them with locule sales take FILE.");
        }
        let mut rows = vec![
            ["Number", "File", "Of", "From", "To", "Packets", "Rows left out", ""]
                .map(str::to_owned)
                .to_vec(),
        ];
        for file in &self.files {
            let FileTold { number, first, last, packets, left_out, .. } = file;
            let state = if file.withdrawn { "withdrawn" } else { "" };
            rows.push(vec![
                number.to_string(),
                file.file.clone(),
                file.shop.clone(),
                first.clone(),
                last.clone(),
                packets.to_string(),
                left_out.to_string(),
                state.to_owned(),
            ]);
        }
        columns(to, &rows)?;
        self.expected.as_ref().map_or(Ok(()), |expected| expected.tell(to))
    }
}

impl ExpectedTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\nSelling years, from July to June:")?;
        let heading = ["Year", "Packets", "Covered", "Level"].map(str::to_owned).to_vec();
        let year = |year: &YearTold| {
            let name = format!("{}/{:02}", year.begins, (year.begins + 1) % 100);
            vec![
                name,
                year.packets.to_string(),
                format!("{:.0} in 100", 100.0 * year.covered),
                format!("{:.2}", year.level),
            ]
        };
        columns(to, &[heading].into_iter().chain(self.years.iter().map(year)).collect::<Vec<_>>())?;
        writeln!(
            to,
            "\nPackets expected in a year like the last whole one; 8 years in 10 lie between the ends:"
        )?;
        let heading = ["Variety", "Sold so far", "Expected", "Between"].map(str::to_owned).to_vec();
        let variety = |one: &VarietyTold| {
            let [low, _, high] = one.next_year;
            vec![
                one.variety.clone(),
                one.sold.to_string(),
                format!("{:.0}", one.a_year),
                format!("{low} to {high}"),
            ]
        };
        columns(to, &[heading].into_iter().chain(self.varieties.iter().map(variety)).collect::<Vec<_>>())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Known>(), shape::<Taken>()]
}
