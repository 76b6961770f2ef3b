//! What a kitchen makes of the fruit, and what has to be said beside it: process as printed, acid, headspace.

use super::request::{Amount, Jar, Kitchen, Purpose, PutUp};
use super::wishes::Wished;
use crate::fault::HouseFault;
pub use advice::kitchen::Sums;
use advice::kitchen::{Asked, sums};
use advice::preserving::acid::{Acid, acid};
use advice::preserving::guide::{self, PreservingGuide};
use advice::preserving::process::{Answer, Question, answers};
use advice::preserving::{Product, Way};
use advice::solids::Strength;
use advice::standard::{Fruit, Name};
use record::language::{self, Units, counted};

/// What one thing that is put up takes.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// As what.
    pub put_up: PutUp,
    /// The jars, where it is measured in jars.
    pub jars: Option<(Jar, u32)>,
    /// The sums.
    pub sums: Sums,
    /// How jars are processed, an answer a line; nothing for what goes into no canner.
    pub process: Vec<String>,
    /// Acid for every jar, a line each; one of them will do.
    pub acid: Vec<String>,
    /// Room to leave at the top of the jar, in inches as printed.
    pub headspace_in: Option<f64>,
}

/// The guide of preserving.
///
/// # Errors
/// The guide's fault.
pub(crate) fn guide() -> Result<PreservingGuide, HouseFault> {
    Ok(guide::read("guides/preserving.toml", guide::SHIPPED)?)
}

/// Works out what a wish takes in the kitchen; nothing for what is eaten.
pub(super) fn sheet(guide: &PreservingGuide, wished: &Wished, kitchen: Kitchen) -> Option<Sheet> {
    let Purpose::PutUp { put_up, amount, .. } = wished.wish.purpose else { return None };
    let jars = match amount {
        Amount::Jars(jar, jars) => Some((jar, jars)),
        Amount::Fruit(_) => None,
    };
    let sums = sums(&Asked {
        put_up,
        fruit: wished.fruit,
        jars,
        composition: wished.composition?,
        colour: Fruit::Red,
        burner: kitchen.burner,
    });
    let jarred = put_up.process().zip(jars);
    let headspace = |product| guide.products.iter().find(|row| row.product == product)?.headspace.as_ref();
    Some(Sheet {
        put_up,
        jars,
        sums,
        process: jarred.map_or_else(Vec::new, |(product, (jar, _))| process(guide, product, jar, kitchen)),
        acid: jarred.map_or_else(Vec::new, |(product, (jar, jars))| acids(guide, product, jar, jars)),
        headspace_in: put_up
            .process()
            .and_then(headspace)
            .filter(|(_, cited)| cited.may_be_told())
            .map(|(inches, _)| *inches),
    })
}

/// The printed process in words, or why there is none to tell.
fn process(guide: &PreservingGuide, product: Product, jar: Jar, kitchen: Kitchen) -> Vec<String> {
    let Some(altitude) = kitchen.altitude else {
        return vec![
            "Say how high the kitchen lies: a process time goes by the altitude. See the published guide."
                .to_owned(),
        ];
    };
    let way = kitchen.canner.unwrap_or(Way::BoilingWater);
    let question = Question { product, jar, way, altitude };
    answers(guide, question).into_iter().map(|answer| told(&answer, way)).collect()
}

fn told(answer: &Answer<'_>, way: Way) -> String {
    let canner = match way {
        Way::BoilingWater => "boiling-water canner",
        Way::Steam => "atmospheric steam canner",
        Way::Pressure(_) => "pressure canner",
    };
    match answer {
        Answer::Process(process) => {
            let pressure = process.pressure.map_or_else(String::new, |pressure| {
                format!(" at {} lb on a {} gauge", pressure.pounds, pressure.gauge.name())
            });
            let source = &process.cited.source.title;
            format!("{canner}: {} minutes{pressure}. Source: {source}.", process.minutes)
        }
        Answer::SeeThePublishedGuide(_) => {
            format!(
                "{canner}: see the published guide; the figure was not read there by us, and none is given."
            )
        }
        Answer::Refused(refusal) => format!("{canner}: no process: {refusal}. See the published guide."),
    }
}

fn acids(guide: &PreservingGuide, product: Product, jar: Jar, jars: u32) -> Vec<String> {
    match acid(guide, product, jar, jars) {
        Acid::InTheRecipe => {
            vec!["The tested recipe holds its acid: follow it to the letter, and change no share.".to_owned()]
        }
        Acid::PerJar(doses) => doses
            .iter()
            .map(|dose| {
                let note = if dose.note.is_empty() { String::new() } else { format!(" ({})", dose.note) };
                format!(
                    "{} of {} in every {}{note}",
                    super::telling::spoons(dose.each),
                    dose.name,
                    jar.name()
                )
            })
            .collect(),
    }
}

impl Sheet {
    /// What it is, in words.
    #[must_use]
    pub fn title(&self) -> String {
        let name = self.put_up.name();
        self.jars.map_or_else(
            || name.to_owned(),
            |(jar, jars)| {
                format!("{name}, {}", counted(u64::from(jars), jar.name(), &format!("{}s", jar.name())))
            },
        )
    }

    /// The sums in words, a line each.
    #[must_use]
    pub fn told(&self, units: Units) -> Vec<String> {
        let sums = &self.sums;
        let mass = |grams| language::mass_briefly(grams, units);
        let masses = |low, high| {
            let (low, high) = language::masses_briefly((low, high), units);
            if low == high { low } else { format!("{low} to {high}") }
        };
        let mut lines = Vec::new();
        if let Some(loads) = sums.loads {
            lines.push(format!("{} at the canner", counted(u64::from(loads), "load", "loads")));
        }
        if let Some(boiled) = sums.boiled {
            lines.push(format!(
                "boils down to {}; {} of water leaves as steam",
                masses(boiled.low.product, boiled.high.product),
                masses(boiled.low.water, boiled.high.water)
            ));
        }
        if let Some(soluble) = sums.soluble {
            let name = sums.name.map_or("", |name| match name {
                Name::Puree(_) => ", which the standard calls puree (21 CFR 155.191)",
                Name::Paste(_) => ", which the standard calls paste (21 CFR 155.191)",
            });
            lines.push(format!("ends at {:.1} % soluble solids{name}", soluble.percent()));
        }
        if let Some(hours) = sums.hours {
            lines.push(format!("{:.1} to {:.1} hours at the stove", hours.low.get(), hours.high.get()));
        }
        if let Some(fills) = sums.fills {
            let jar = self.jars.map_or(Jar::Pint, |(jar, _)| jar);
            lines.push(format!("fills {} to {} {}s", fills.low, fills.high, jar.name()));
        }
        if let Some(dried) = sums.dried {
            lines.push(format!("leaves about {} when dry", mass(dried)));
        }
        if let Some(inches) = self.headspace_in {
            lines.push(format!("leave {inches} in of headspace"));
        }
        lines
    }
}
