//! Stakes: a label for every plot of a grow-out, or for every plant.

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::layout::kept::grow_out;
use crate::walks::{in_walking_order, varieties};
use jiff::civil::Date;
pub use publish::stakes::LabelSheet;
use publish::stakes::{self, Stake, Stakes};
use record::growout::Plot;
use std::path::{Path, PathBuf};

/// What gets a stake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Each {
    /// Every plot.
    Plot,
    /// Every plant of every plot.
    Plant,
}

/// Stakes that were printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Stakes on it.
    pub stakes: usize,
    /// Sheets of labels that they take.
    pub sheets: usize,
}

/// Prints the stakes of a grow-out to `file`, whole or not at all.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`], [`HouseFault::NoPlots`]; what the ledger or the disk refuses.
pub fn print(
    house: &House,
    name: &str,
    each: Each,
    sheet: &LabelSheet,
    today: Date,
    file: &Path,
) -> Result<Printed, HouseFault> {
    let gathered = gather(house, name, each, today)?;
    let pdf = stakes::stakes(&gathered, sheet)?;
    folder::write(file, &pdf)?;
    let stakes = gathered.stakes.len();
    Ok(Printed {
        file: file.to_owned(),
        bytes: u64::try_from(pdf.len()).unwrap_or(u64::MAX),
        stakes,
        sheets: stakes.div_ceil(sheet.labels().max(1)),
    })
}

/// The file that stakes go to unless another is named.
#[must_use]
pub fn file(house: &House, name: &str) -> PathBuf {
    house.printed().join(format!("stakes-{}.pdf", slug(name)))
}

/// A name as part of a file's name.
pub(crate) fn slug(name: &str) -> String {
    let kept =
        |sign: char| if sign.is_alphanumeric() { sign.to_lowercase().to_string() } else { "-".to_owned() };
    let slug: String = name.chars().map(kept).collect();
    slug.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
}

fn gather(house: &House, name: &str, each: Each, today: Date) -> Result<Stakes, HouseFault> {
    let mut ledger = ledger::ledger::Ledger::open(&house.ledger_location())?;
    let grow_out = grow_out(&mut ledger, name)?;
    let names = varieties(&mut ledger)?;
    let plots = in_walking_order(&mut ledger, &grow_out)?;
    if plots.is_empty() {
        return Err(HouseFault::NoPlots(grow_out.name));
    }
    let of = |plot: &Plot| {
        let variety = names.get(&plot.variety).cloned().unwrap_or_default();
        of_plot(plot, &variety, each)
    };
    Ok(Stakes {
        house: house.settings.name.clone(),
        grow_out: grow_out.name.clone(),
        printed_on: today,
        stakes: plots.iter().flat_map(of).collect(),
        house_fonts: Vec::new(),
    })
}

fn of_plot(plot: &Plot, variety: &str, each: Each) -> Vec<Stake> {
    let stake = |plant: Option<String>| Stake {
        label: plot.label.clone(),
        variety: variety.to_owned(),
        place: place(plot),
        plant,
        plot: plot.id.uuid(),
    };
    match (each, plot.plant_count) {
        (Each::Plant, Some(plants)) if 0 < plants => {
            (1..=plants).map(|plant| stake(Some(format!("plant {plant} of {plants}")))).collect()
        }
        _ => vec![stake(None)],
    }
}

/// Where a plot lies: in two lines, or in one where there is little to say.
fn place(plot: &Plot) -> Vec<String> {
    let told = |what: &str, number: Option<u32>| number.map(|number| format!("{what} {number}"));
    let line = |parts: Vec<Option<String>>| parts.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let groups = line(vec![told("replicate", plot.layout.replicate), told("block", plot.block)]);
    let ground = line(vec![plot.layout.bed.clone(), told("row", plot.row), told("position", plot.position)]);
    let lines: Vec<String> = [groups, ground].into_iter().filter(|line| !line.is_empty()).collect();
    match (plot.layout.replicate, lines.is_empty()) {
        (None, false) => vec![lines.join(", ")],
        _ => lines,
    }
}
