//! What a form says of a photograph: fruit left out, how stems lie, the card's line, and what the fruit are filed under.

use crate::fields::Fields;
use crate::trouble::Trouble;
use house::photo::changes::{self, Change};
use house::photo::filed::Filing;
use house::photo::{PlotSaid, Said, Told};
use record::length::Millimetres;

/// What a form says.
#[derive(Clone, Debug, Default)]
pub(super) struct Asked {
    /// Of the fruit.
    pub(super) said: Said,
    /// Of where they grew.
    pub(super) filing: Filing,
    /// The line as it was typed.
    pub(super) line: String,
}

/// Least and most that a printer makes of a line of 70 mm: half and twice. Beyond it something else was measured.
const LINES: (f64, f64) = (35.0, 140.0);
/// Most fruit whose stems are looked for in a form; a photograph holds far fewer.
const MOST_FRUIT: u32 = 500;

/// The field that says how a fruit's stem lies.
pub(super) fn stem_field(number: u32) -> String {
    format!("stem-{number}")
}

/// The field that says how many locules a cut face has.
pub(super) fn locules_field(number: u32) -> String {
    format!("locules-{number}")
}

/// Reads what a form says.
///
/// # Errors
/// A line, plant, day or count of locules that is none.
pub(super) fn read(sent: &Fields) -> Result<Asked, Trouble> {
    let stem = |number: u32| {
        let told = match sent.get(&stem_field(number))? {
            "drawn" => Some(Told::AsDrawn),
            "across" => Some(Told::Across),
            "up" => Some(Told::Standing),
            "cut" => Some(Told::Cut),
            _ => None,
        };
        told.map(|told| (number, told))
    };
    let locules = |number: u32| {
        let typed = sent.get(&locules_field(number))?;
        let count = typed.parse().ok().filter(|count| 0 < *count);
        Some(count.map(|count| (number, count)).ok_or_else(|| no("count of locules", typed)))
    };
    let line = sent.get("line").map(line).transpose()?;
    let label = sent.get("plot").map(str::to_owned);
    let grow_out = sent.get("grow-out").map(str::to_owned);
    let plant = sent.get("plant").map(|typed| typed.parse().map_err(|_| no("plant", typed))).transpose()?;
    let day = sent.get("day").map(|typed| typed.parse().map_err(|_| no("day", typed))).transpose()?;
    Ok(Asked {
        said: Said {
            line,
            left_out: sent.every("leave").filter_map(|number| number.parse().ok()).collect(),
            stems: (1..=MOST_FRUIT).filter_map(stem).collect(),
            changes: sent
                .every("change")
                .filter(|words| !words.trim().is_empty())
                .map(change)
                .chain(new_change(sent))
                .collect::<Result<_, _>>()?,
            locules: (1..=MOST_FRUIT).filter_map(locules).collect::<Result<_, _>>()?,
        },
        filing: Filing { plot: label.map(|label| PlotSaid { grow_out, label }), plant, day },
        line: sent.get("line").unwrap_or_default().to_owned(),
    })
}

fn change(words: &str) -> Result<Change, Trouble> {
    changes::read(words).map_err(|fault| Trouble::user(fault.to_string(), fault.help()))
}

/// The change that the fields beside the picture ask for, where their button was pressed.
fn new_change(sent: &Fields) -> Option<Result<Change, Trouble>> {
    let words = match sent.get("do")? {
        "cut" => format!("cut {}", sent.get("part").unwrap_or_default()),
        "join" => {
            format!("join {} {}", sent.get("part").unwrap_or_default(), sent.get("with").unwrap_or_default())
        }
        _ => return None,
    };
    Some(change(&words))
}

fn line(typed: &str) -> Result<Millimetres, Trouble> {
    let number = typed.strip_suffix("mm").unwrap_or(typed).trim();
    let length = number.parse().ok().filter(|length| (LINES.0..=LINES.1).contains(length));
    length.and_then(Millimetres::new).ok_or_else(|| {
        let message = format!("{typed:?} is no length of the card's line");
        Trouble::user(message, "hold a rule to it and write millimetres, such as 68.5")
    })
}

fn no(what: &str, typed: &str) -> Trouble {
    let help = match what {
        "day" => "write year, month and day, such as 2031-08-14",
        "plant" => "write the plant's number within its plot",
        _ => "count the seed chambers in the picture and write a number, such as 6",
    };
    Trouble::user(format!("{typed:?} is no {what}"), help)
}
