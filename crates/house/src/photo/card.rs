//! Printing the scale card, for any fruit or for those of one plot.

use super::plots::{self, PlotSaid};
use crate::fault::HouseFault;
use crate::folder::{self, House};
use jiff::civil::Date;
use ledger::ledger::Ledger;
use photo::card::{Card, HOUSE_CARD, HOUSE_LINE};
use photo::code::{Code, VERSION, written};
use photo::colour::Lab;
pub use publish::scale_card::Paper;
use publish::scale_card::{self, Area, ScaleCard};
use std::path::{Path, PathBuf};

/// A card that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// The plot that it says, where it says one.
    pub plot: Option<String>,
}

/// How the card is used. Where a rule has no source it is common practice.
const ADVICE: [&str; 6] = [
    "Print it at its true size: choose 100 % or \"actual size\", not \"fit to page\". Hold a rule to the line of 70 mm; if it is longer or shorter, say so with --line, or beside the photograph in the workbench.",
    "Cut along the thin line, glue it on stiff board, and keep it flat and clean.",
    "Lay it on a plain sheet of another colour than the fruit, with nothing on it. Lay 10 to 40 fruit round it, on their sides, none touching another, the nearest a finger's breadth away.",
    "Stand so that light comes from all round: no lamp, no sun, and not your own shadow.",
    "Photograph from straight above and from as far as you can reach, with all four corners and all fruit in the picture; do not zoom.",
    "Sizes are most sure near the card.",
];

/// Prints the card to `file`, whole or not at all.
///
/// # Errors
/// [`super::fault::PhotoFault::NoSuchPlot`] and its neighbours; what the ledger or the disk refuses.
pub fn print(
    house: &House,
    plot: Option<&PlotSaid>,
    paper: Paper,
    today: Date,
    file: &Path,
) -> Result<Printed, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (mut head, mut tag, mut label) = (vec!["Scale card".to_owned()], 0, None);
    if let Some(plot) = plot {
        let (plot, grow_out) = plots::said(&mut ledger, plot)?;
        tag = plots::tag(&grow_out, &plot);
        head.push(format!("{}, plot {}: {}", grow_out.name, plot.label, ledger.variety(plot.variety)?.name));
        label = Some(plot.label);
    } else {
        head.push("for fruit of any plot".to_owned());
    }
    head.push("this way up or any other; nothing on the card, please".to_owned());
    let card = ScaleCard {
        house: house.settings.name.clone(),
        printed_on: today,
        size: HOUSE_CARD.size,
        areas: areas(&HOUSE_CARD, Code { version: VERSION, tag }),
        line: HOUSE_LINE,
        head,
        advice: ADVICE.map(str::to_owned).to_vec(),
        house_fonts: Vec::new(),
    };
    let pdf = scale_card::scale_card(&card, paper)?;
    folder::write(file, &pdf)?;
    let bytes = u64::try_from(pdf.len()).unwrap_or(u64::MAX);
    Ok(Printed { file: file.to_owned(), bytes, plot: label })
}

/// The file that a card goes to unless another is named.
#[must_use]
pub fn file(house: &House, plot: Option<&PlotSaid>) -> PathBuf {
    let name = plot.map_or_else(
        || "scale-card.pdf".to_owned(),
        |plot| format!("scale-card-{}.pdf", crate::stakes::slug(&plot.label)),
    );
    house.printed().join(name)
}

/// Everything that is printed on a card: markers, patches and strip.
fn areas(card: &Card, code: Code) -> Vec<Area> {
    let area = |place, colour: &str| Area { place, colour: colour.to_owned() };
    let squares = card.squares().map(|(place, dark)| area(place, if dark { "#000000" } else { "#ffffff" }));
    let patches = card.patches.iter().map(|(place, lab)| area(*place, &hex(*lab)));
    let modules = card.strip.into_iter().flat_map(|strip| {
        let dark = strip.corners().zip(written(code)).filter(|(_, dark)| *dark);
        dark.map(move |([u, v], _)| [u, v, strip.module, strip.module])
    });
    squares.chain(patches).chain(modules.map(|place| area(place, "#000000"))).collect()
}

fn hex(colour: Lab) -> String {
    let [red, green, blue] = colour.to_srgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}
