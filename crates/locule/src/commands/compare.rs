//! `locule compare`: what grow-outs say of one variety beside another.

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::compare::Compare;
use crate::columns::columns;
use house::compare::{self, Asked, Compared, Degrees, Outcome, Trait, Verdict, stability, verdict};
use house::folder::House;
use jiff::ZonedDateTime;
use record::language::{Units, chance, counted};
use record::share::Share;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A comparison of varieties.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Comparison {
    /// The grow-outs.
    grow_outs: Vec<String>,
    /// The trait.
    of: &'static str,
    /// Its unit: `g` for weights, `count` or `percent`.
    unit: &'static str,
    /// The check.
    check: Option<String>,
    /// Varieties from most to least.
    varieties: Vec<Told>,
    /// Average standard error of a difference of two varieties.
    error_of_difference: Option<f64>,
    /// How much of the differences seen is the varieties' own, from 0 to 1.
    repeatability: Option<f64>,
    /// Where plots differ beside their variety.
    variances: Vec<Variance>,
    /// What the ground was taken for, in a sentence.
    ground: String,
    /// How varieties answer to gardens and seasons, where these are three or more.
    stability: Vec<Answering>,
    /// By whose rule degrees of freedom were worked out.
    degrees: &'static str,
    /// Plots with a number.
    plots: usize,
    /// Plots in all.
    of_plots: usize,
    /// What a reader must know.
    notes: Vec<String>,
    /// The file that the table was written into.
    exported: Option<String>,
    #[serde(skip)]
    rows: Vec<Vec<String>>,
}

/// One variety.
#[derive(Debug, Serialize, JsonSchema)]
struct Told {
    /// The variety.
    variety: String,
    /// Plots with a number.
    plots: usize,
    /// Its adjusted mean.
    mean: Option<f64>,
    /// Standard error of the mean.
    standard_error: Option<f64>,
    /// An interval that holds the mean 95 times in 100.
    interval: Option<(f64, f64)>,
    /// Letters: varieties that share one were not told apart.
    letters: String,
    /// Difference from the check.
    difference: Option<f64>,
    /// Interval of the difference, all of them together 95 times in 100.
    difference_interval: Option<(f64, f64)>,
    /// Chance of so clear a difference where nothing differs.
    chance: Option<f64>,
    /// Whether it was told from the check.
    told: bool,
    /// What that means, in a sentence.
    sentence: Option<String>,
}

/// How one variety answers to gardens and seasons.
#[derive(Debug, Serialize, JsonSchema)]
struct Answering {
    /// The variety.
    variety: String,
    /// What it gains where all gain 1.
    slope: f64,
    /// An interval that holds the slope 95 times in 100.
    interval: (f64, f64),
    /// What that means, after the variety's name.
    verdict: &'static str,
}

/// A variance component.
#[derive(Debug, Serialize, JsonSchema)]
struct Variance {
    /// Of what.
    of: String,
    /// In squared units of the trait.
    variance: f64,
}

pub(crate) fn run(house: &House, typed: &Compare) -> Result<Comparison, Failure> {
    let (of, grow_outs) = parted(&typed.what)?;
    let asked = Asked { grow_outs: grow_outs.to_vec(), of: compare::named(of)?, check: typed.check.clone() };
    let compared = compare::compare(house, &asked)?;
    if let Some(file) = &typed.export {
        compare::export_to(&compared, file, ZonedDateTime::now().date())?;
    }
    let exported = typed.export.as_ref().map(|file| file.display().to_string());
    Ok(told(&compared, exported, house.settings.units))
}

/// What the trials of each season say of yield, those of one season together.
pub(crate) fn of_trials(house: &House) -> Result<Vec<Comparison>, Failure> {
    let trials = compare::trials(house, Trait::Yield)?;
    Ok(trials.iter().map(|compared| told(compared, None, house.settings.units)).collect())
}

/// The trait, which is said last, and the grow-outs before it.
fn parted(what: &[String]) -> Result<(&String, &[String]), Failure> {
    what.split_last().ok_or_else(|| Failure::Typed {
        message: "no grow-out and no trait was named".to_owned(),
        help: "name a grow-out and a trait, such as locule compare \"2025 Home Garden\" yield".to_owned(),
    })
}

fn told(compared: &Compared, exported: Option<String>, units: Units) -> Comparison {
    let found = &compared.comparison;
    let check = found.check.as_deref();
    let variances = found.components.iter();
    Comparison {
        grow_outs: compared.grow_outs.iter().map(|grow_out| grow_out.name.clone()).collect(),
        of: found.of.name(),
        unit: unit(found.of),
        check: found.check.clone(),
        varieties: found.outcomes.iter().map(|own| variety(found.of, own, check, units)).collect(),
        error_of_difference: found.error_of_difference,
        repeatability: found.repeatability,
        variances: variances
            .map(|own| Variance { of: own.name.clone(), variance: own.component.variance })
            .collect(),
        ground: record::language::capitalised(&found.ground.told()),
        stability: found.stability.iter().flat_map(|own| &own.varieties).map(answering).collect(),
        degrees: match found.degrees {
            Degrees::KenwardRoger => "Kenward and Roger",
            Degrees::Satterthwaite => "Satterthwaite",
            Degrees::OfCounts => "plots less fixed effects",
        },
        plots: compared.plots.len(),
        of_plots: compared.plots_in_all(),
        notes: found.notes.clone(),
        exported,
        rows: rows(compared, units),
    }
}

fn answering(own: &stability::Answering) -> Answering {
    Answering {
        variety: own.variety.clone(),
        slope: own.slope,
        interval: own.interval,
        verdict: own.verdict.words(),
    }
}

fn unit(of: Trait) -> &'static str {
    match of {
        Trait::Yield | Trait::FruitWeight => "g",
        Trait::FruitCount => "count",
        Trait::Culled | Trait::SolubleSolids => "percent",
    }
}

fn variety(of: Trait, own: &Outcome, check: Option<&str>, units: Units) -> Told {
    let against = own.against.as_ref();
    Told {
        variety: own.variety.clone(),
        plots: own.plots,
        mean: own.mean.map(|mean| mean.estimate),
        standard_error: own.mean.map(|mean| mean.standard_error),
        interval: own.interval,
        letters: own.letters.clone(),
        difference: against.map(|against| against.difference),
        difference_interval: against.map(|against| against.interval),
        chance: against.map(|against| against.chance.get()),
        told: against.is_some_and(|against| against.verdict.is_told()),
        sentence: check.and_then(|check| verdict::sentence(of, own, check, units)),
    }
}

/// The table in words, its heading first.
fn rows(compared: &Compared, units: Units) -> Vec<Vec<String>> {
    let found = &compared.comparison;
    let heading = ["Variety", "Plots", "Mean", "95% interval", "Letters", "Beside the check"];
    let mut rows = vec![heading.map(str::to_owned).to_vec()];
    for own in &found.outcomes {
        let brief = |number: f64| found.of.told_briefly(number, units);
        let interval = own.interval.map(|(low, high)| format!("{} to {}", brief(low), brief(high)));
        rows.push(vec![
            own.variety.clone(),
            own.plots.to_string(),
            own.mean.map_or_else(|| "not comparable".to_owned(), |mean| brief(mean.estimate)),
            interval.unwrap_or_default(),
            own.letters.clone(),
            own.against
                .as_ref()
                .map(|against| beside(&against.verdict, against.difference, &brief))
                .unwrap_or_default(),
        ]);
    }
    rows
}

fn beside(verdict: &Verdict, difference: f64, brief: &impl Fn(f64) -> String) -> String {
    match verdict {
        Verdict::More => format!("{} more", brief(difference)),
        Verdict::Less => format!("{} less", brief(difference.abs())),
        Verdict::NotTold { .. } => "cannot be told apart".to_owned(),
    }
}

impl Comparison {
    /// The grow-outs and the check in a line, and a line for each variety that was told from the check.
    pub(crate) fn tell_briefly(&self, to: &mut dyn Write) -> io::Result<()> {
        let trials = self.grow_outs.join(" and ");
        let Some(check) = &self.check else {
            return writeln!(to, "  {} of {trials}: no check stands in it, see locule compare", self.of);
        };
        writeln!(to, "  {} of {trials}, beside {check}", self.of)?;
        let (told, others): (Vec<&Told>, Vec<&Told>) =
            self.varieties.iter().filter(|own| own.variety != *check).partition(|own| own.told);
        for sentence in told.iter().filter_map(|own| own.sentence.as_ref()) {
            writeln!(to, "    {sentence}")?;
        }
        let others = counted(others.len() as u64, "other", "others");
        writeln!(to, "    {others} cannot be told from it with this evidence")
    }
}

impl Answer for Comparison {
    const SHAPE: &'static str = "compare/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let check = self.check.as_ref().map(|check| format!(", check {check}")).unwrap_or_default();
        writeln!(to, "{} of {}{check}", self.of, self.grow_outs.join(", "))?;
        let plots = counted(self.of_plots as u64, "plot", "plots");
        writeln!(to, "{} of {plots} have a number.", self.plots)?;
        writeln!(to)?;
        columns(to, &self.rows)?;
        writeln!(to)?;
        for sentence in self.varieties.iter().filter_map(|own| own.sentence.as_ref()) {
            writeln!(to, "{sentence}")?;
        }
        if let Some(own) = self.repeatability.and_then(Share::new) {
            writeln!(to, "Of the differences seen, {} parts are the varieties' own.", chance(own))?;
        }
        writeln!(to, "{}.", self.ground)?;
        for Answering { variety, slope, interval: (low, high), verdict } in &self.stability {
            writeln!(to, "{variety} {verdict} (slope {slope:.2}, 95% interval {low:.2} to {high:.2}).")?;
        }
        self.notes.iter().try_for_each(|note| writeln!(to, "note: {note}"))?;
        self.exported.iter().try_for_each(|file| writeln!(to, "Written to {file}"))
    }
}

pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Comparison>()]
}
