//! `locule next`: what the next grow-out should hold, and why.

use super::reference::{Shape, shape};
use super::{Failure, lots};
use crate::answer::Answer;
use crate::arguments::sales::Next as Typed;
use crate::columns::columns;
use house::fault::HouseFault;
use house::folder::House;
use house::layout::file;
use house::next::ground::Ground;
use house::next::told::{Lasts, Next, Row};
use house::next::{self, Asked, telling};
use record::language::{Units, counted};
use record::season::Season;
use schemars::JsonSchema;
use serde::Serialize;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// What the next grow-out should hold.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct NextTold {
    /// Its season.
    season: i16,
    /// Plots there are.
    plots: u32,
    /// Plots that checks take.
    of_checks: u32,
    /// Plants of a plot.
    plants_each: u32,
    /// The first day on which its seed is wanted.
    from: String,
    /// The last day before seed of a grow-out a year later would be there.
    to: String,
    /// What to grow, what is worth most first.
    grown: Vec<RowTold>,
    /// What something speaks for and there is no room for, what is worth most first.
    left_out: Vec<RowTold>,
    /// How many are left out in all.
    left_out_count: usize,
    /// Varieties that nothing speaks for.
    wanting_nothing: usize,
    /// What all that is grown is worth, in packets.
    worth: f64,
    /// No choice is worth more than this.
    bound: f64,
    /// How far from other tomatoes seed is saved: each kind once.
    isolations: Vec<String>,
    /// What a bed more would bring.
    more: MoreTold,
    /// Kinds that the list lacks where all round them is filled: habit, fruit class, colour.
    gaps: Vec<[String; 3]>,
    /// How good the choice is, in a sentence.
    proof: String,
    /// The rule that germination was judged by.
    judged_by: String,
    /// The layout file that was written.
    written: Option<String>,
}

/// A variety.
#[derive(Debug, Serialize, JsonSchema)]
struct RowTold {
    /// Its name.
    variety: String,
    /// Its plots; of one that is left out, what it would have best.
    plots: u32,
    /// Plants in them.
    plants: u32,
    /// Plots that it would have best.
    best_plots: u32,
    /// Packets of seed that they are expected to give; nothing where none is saved.
    seed: f64,
    /// What its plots are worth, in packets.
    worth: f64,
    /// What speaks for it, with what that is worth.
    reasons: Vec<ReasonTold>,
    /// Packets expected in a year.
    a_year: f64,
    /// Packets that one year in ten, five in ten and nine in ten stay under while its seed is wanted.
    sells: [u32; 3],
    /// Packets of the seed in the house.
    packets: u32,
    /// Of these, how many of seed that is expected to stay above the minimum.
    lasting: u32,
    /// Its lots, in sentences.
    lots: Vec<String>,
    /// Those of them that are not expected to stay above the minimum.
    failing_lots: Vec<String>,
    /// What would settle its contested calls.
    settles: Vec<String>,
    /// How far its seed must stand from other tomatoes; nothing where none is saved.
    isolation: Option<String>,
    /// Why it is left out.
    left_for: Option<String>,
}

/// A reason.
#[derive(Debug, Serialize, JsonSchema)]
struct ReasonTold {
    /// In a sentence.
    words: String,
    /// What it is worth, in packets.
    packets: f64,
}

/// What more ground would bring.
#[derive(Debug, Serialize, JsonSchema)]
struct MoreTold {
    /// Plots more.
    plots: u32,
    /// What they would be worth, in packets.
    packets: f64,
    /// Varieties that would come in or have more plots.
    brings: Vec<String>,
    /// The same in a sentence.
    words: String,
}

/// Varieties left out that are told where not all are asked for. A choice of the telling.
const TOLD: usize = 12;

pub(crate) fn run(house: &House, typed: Typed) -> Result<NextTold, Failure> {
    let by = lots::asked(house, typed.judged);
    let asked = asked(&typed, by.today)?;
    let found = next::of(house, &asked, by)?;
    let written = match (&typed.write, found.layout()) {
        (None, _) => None,
        (Some(path), Some(text)) => Some(write(path, &text)?),
        (Some(_), None) => {
            return Err(Failure::Typed {
                message: "there are no beds to lay out on".to_owned(),
                help: "name a layout file, or a grow-out that was laid out before with --as, in the place of --plots"
                    .to_owned(),
            });
        }
    };
    let most = if typed.all { usize::MAX } else { TOLD };
    Ok(told(found, house.settings.units, most, written))
}

fn write(path: &Path, text: &str) -> Result<String, Failure> {
    let refused = |fault| HouseFault::File { path: path.to_owned(), fault };
    // Nothing that stands there is lost.
    let mut file = fs::OpenOptions::new().write(true).create_new(true).open(path).map_err(refused)?;
    file.write_all(text.as_bytes()).map_err(refused)?;
    Ok(path.display().to_string())
}

fn asked(typed: &Typed, today: jiff::civil::Date) -> Result<Asked, Failure> {
    let year = typed.season.unwrap_or_else(|| next::next_crop(today));
    let season = Season::new(year).ok_or_else(|| Failure::Typed {
        message: format!("{year} is no season"),
        help: "write the year of its harvest, such as 2031".to_owned(),
    })?;
    let mut asked = Asked::of(season, ground(typed)?);
    asked.must.clone_from(&typed.must);
    asked.wished.clone_from(&typed.wish);
    asked.without.clone_from(&typed.without);
    asked.crossing.clone_from(&typed.crossing);
    asked.most_plants = typed.most_plants;
    asked.apart = typed.apart.unwrap_or(asked.apart);
    asked.most_plots = typed.most_plots.unwrap_or(asked.most_plots);
    asked.parents = typed.parents.unwrap_or(asked.parents);
    asked.seeds_each = typed.seeds.unwrap_or(asked.seeds_each);
    asked.years = typed.years.unwrap_or(asked.years);
    let worths = &mut asked.worths;
    worths.contested = typed.worth_contested.map_or(worths.contested, f64::from);
    worths.thin = typed.worth_thin.map_or(worths.thin, f64::from);
    worths.wished = typed.worth_wish.map_or(worths.wished, f64::from);
    Ok(asked)
}

fn ground(typed: &Typed) -> Result<Ground, Failure> {
    match (&typed.ground, &typed.like, typed.plots) {
        (Some(path), ..) => {
            let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
            let text =
                fs::read_to_string(path).map_err(|fault| HouseFault::File { path: path.clone(), fault })?;
            Ok(Ground::File(Box::new(file::read(&name, &text)?)))
        }
        (None, Some(name), _) => Ok(Ground::As(name.clone())),
        (None, None, Some(plots)) => Ok(Ground::Plots { plots, plants: typed.plants_each }),
        (None, None, None) => Err(Failure::Typed {
            message: "nothing says what there is to grow on".to_owned(),
            help: "name a layout file, a grow-out that was laid out before with --as, or a number of --plots"
                .to_owned(),
        }),
    }
}

fn told(found: Next, units: Units, most: usize, written: Option<String>) -> NextTold {
    let isolations = telling::isolations(&found, units);
    let (proof, more) = (telling::proof(&found), telling::more(&found.more));
    let row = |one: &Row| row(one, units);
    NextTold {
        season: found.season.year(),
        plots: found.stand.plots,
        of_checks: found.stand.of_checks,
        plants_each: found.stand.plants_each,
        from: found.horizon.soon.first.to_string(),
        to: found.horizon.soon.last.to_string(),
        grown: found.grown.iter().map(row).collect(),
        left_out: found.left_out.iter().take(most).map(row).collect(),
        left_out_count: found.left_out.len(),
        wanting_nothing: found.wanting_nothing,
        worth: found.worth,
        bound: found.bound,
        isolations,
        more: MoreTold {
            plots: found.more.plots,
            packets: found.more.packets,
            brings: found.more.brings.into_iter().map(|(name, _)| name).collect(),
            words: more,
        },
        gaps: found.gaps.into_iter().map(|gap| [gap.habit, gap.class, gap.colour]).collect(),
        proof,
        judged_by: found.minimum.rule,
        written,
    }
}

fn row(row: &Row, units: Units) -> RowTold {
    let reason = |reason| ReasonTold { words: telling::reason(reason), packets: reason.packets() };
    let is_for_seed = 0.0 < row.seed;
    RowTold {
        variety: row.variety.clone(),
        plots: row.plots,
        plants: row.plants,
        best_plots: row.best_plots,
        seed: row.seed,
        worth: row.worth,
        reasons: row.reasons.iter().map(reason).collect(),
        a_year: row.a_year,
        sells: [row.soon.0, row.soon.1, row.soon.2],
        packets: row.packets,
        lasting: row.lasting,
        lots: row.lots.iter().map(telling::lot).collect(),
        failing_lots: row.lots.iter().filter(|lot| lot.lasts != Lasts::Yes).map(telling::lot).collect(),
        settles: row.settles.clone(),
        isolation: row.isolation.as_ref().filter(|_| is_for_seed).map(|own| telling::isolation(own, units)),
        left_for: row.left_for.map(|left| telling::left_for(left).to_owned()),
    }
}

impl Answer for NextTold {
    const SHAPE: &'static str = "next/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let taken: u32 = self.grown.iter().map(|row| row.plots).sum();
        let varieties = counted(self.grown.len() as u64, "variety", "varieties");
        let plots = counted(self.plots.into(), "plot", "plots");
        writeln!(
            to,
            "Season {}: {varieties} on {taken} of {plots}, {} plants each.",
            self.season, self.plants_each
        )?;
        if 0 < self.of_checks {
            writeln!(to, "Checks take {} besides.", counted(self.of_checks.into(), "plot", "plots"))?;
        }
        writeln!(to, "Its seed is wanted from {} to {}. {}\n", self.from, self.to, self.proof)?;
        columns(to, &table(&self.grown))?;
        self.grown.iter().try_for_each(|row| row.tell(to))?;
        if !self.isolations.is_empty() {
            writeln!(to, "\nHow far from other tomatoes seed is saved:")?;
            self.isolations.iter().try_for_each(|told| writeln!(to, "  {told}"))?;
        }
        writeln!(to, "\n{}", self.more.words)?;
        self.tell_left_out(to)?;
        let nothing = counted(self.wanting_nothing as u64, "variety has", "varieties have");
        writeln!(
            to,
            "\n{nothing} seed enough, sure calls and evidence enough: nothing speaks for growing them."
        )?;
        for [habit, class, colour] in &self.gaps {
            writeln!(
                to,
                "The list has no {habit} {colour} {class}, and all round it is filled: look for seed of one."
            )?;
        }
        writeln!(to, "Germination was judged by {}.", self.judged_by)?;
        match &self.written {
            Some(file) => writeln!(to, "Written to {file}: lay it out with locule layout {file}."),
            None => Ok(()),
        }
    }
}

/// Plots, plants, seed and worth of each variety.
fn table(rows: &[RowTold]) -> Vec<Vec<String>> {
    let heading =
        ["Variety", "Plots", "Plants", "Sells", "In the house", "Seed", "Worth"].map(str::to_owned).to_vec();
    let one = |row: &RowTold| {
        let [low, _, high] = row.sells;
        let seed = if 0.0 < row.seed { format!("{:.0} packets", row.seed) } else { "notes alone".to_owned() };
        vec![
            row.variety.clone(),
            row.plots.to_string(),
            row.plants.to_string(),
            format!("{low} to {high}"),
            if row.lasting == row.packets {
                row.packets.to_string()
            } else {
                format!("{}, {} of them lasting", row.packets, row.lasting)
            },
            seed,
            format!("{:.0}", row.worth),
        ]
    };
    [heading].into_iter().chain(rows.iter().map(one)).collect()
}

impl RowTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\n{}", self.variety)?;
        for reason in &self.reasons {
            writeln!(to, "  {}", reason.words)?;
        }
        for lot in &self.failing_lots {
            writeln!(to, "  {lot}")?;
        }
        for step in &self.settles {
            writeln!(to, "  settles it: {step}")?;
        }
        if self.plots < self.best_plots {
            writeln!(to, "  {} would be better still", counted(self.best_plots.into(), "plot", "plots"))?;
        }
        Ok(())
    }
}

impl NextTold {
    fn tell_left_out(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.left_out_count == 0 {
            return Ok(());
        }
        writeln!(to, "\nLeft out, what is worth most first:")?;
        let heading = ["Variety", "Plots", "Worth", "Because"].map(str::to_owned).to_vec();
        let one = |row: &RowTold| {
            let because = row.left_for.clone().unwrap_or_default();
            let first = row.reasons.first().map(|reason| reason.words.clone()).unwrap_or_default();
            vec![
                row.variety.clone(),
                row.plots.to_string(),
                format!("{:.0}", row.worth),
                format!("{because} ({first})"),
            ]
        };
        columns(to, &[heading].into_iter().chain(self.left_out.iter().map(one)).collect::<Vec<_>>())?;
        let more = self.left_out_count - self.left_out.len();
        if 0 < more { writeln!(to, "and {more} more; see them with --all") } else { Ok(()) }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<NextTold>()]
}
