//! Advice for one garden and one kitchen: which varieties, how many plants, when, and what is put up on which days.
//!
//! Start at [`advise`]. [`request`] is what is asked, `ground` what the answer stands on (weather, varieties, what they
//! would bear), [`wishes`] what is wished for in kilograms and weeks, [`planned`] the plan, [`kitchen`] what the fruit becomes,
//! [`sketch`] where plants stand, [`for_seed`] how far apart those that seed is saved of would,
//! [`telling`] the words of it all, and [`paper`] the sheet and the days to take away.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::place::Climates;
use advice::planner::plan::{Outcome, plan_watched};
use fault::AdviseFault;
use jiff::civil::Date;
use kitchen::Sheet;
use planned::{Planned, Standing};
use request::{Request, RowCover};
use wishes::Wished;

pub mod fault;
pub mod for_seed;
mod ground;
pub mod kitchen;
pub mod paper;
pub mod planned;
pub mod request;
pub mod sketch;
pub mod telling;
pub mod wishes;

pub use advice::planner::watch::{Ended, Unwatched, Watch};
pub use advice::preserving::guide::Caution;
pub use ground::SAMPLED;

/// An answer to a request.
#[derive(Clone, Debug)]
pub struct Advice {
    /// The garden's weather.
    pub weather: Climates,
    /// The weather of the house's own plots, where it is another.
    pub homes: Vec<Climates>,
    /// The days on which sets of plants go out, of a common year.
    pub outs: Vec<Date>,
    /// What young plants are covered with.
    pub cover: Option<RowCover>,
    /// Years of weather that the sampled years were taken from.
    pub weather_years: usize,
    /// Plots for whose season a middling one stands in, of all.
    pub stood_in: (usize, usize),
    /// Varieties that there were to choose from.
    pub varieties: usize,
    /// In how many years of ten all must be had.
    pub years_in_ten: u32,
    /// What was wished for.
    pub wishes: Vec<Wished>,
    /// What came of it.
    pub found: Found,
    /// What each thing that is put up takes.
    pub sheets: Vec<Sheet>,
    /// What has to be said beside every jar; nothing where nothing is put up.
    pub cautions: Vec<Caution>,
}

/// What came of a request.
#[derive(Clone, Debug)]
pub enum Found {
    /// A plan.
    Planned(Box<Planned>),
    /// No plan, and the demands that stand in the way.
    Impossible(Vec<Standing>),
    /// No plan was found in as many steps as may be taken, nor that there is none; what seems to stand in the way.
    NotFound(Vec<Standing>),
    /// The search was stopped before it came to anything.
    Stopped,
}

/// Plans a garden for its wishes, or says what stands in the way. Whoever watches sees it go on, and may stop it.
///
/// # Errors
/// [`AdviseFault`] where the request cannot be answered; a place's fault; [`HouseFault::NoSuchVariety`]; what the ledger
/// refuses.
pub fn advise(
    house: &House,
    request: &Request,
    today: Date,
    watch: &dyn Watch,
) -> Result<Advice, HouseFault> {
    let ground = ground::of(house, request)?;
    let (wished, asked) = wishes::of(request, &ground)?;
    let outcome = plan_watched(&ground.supply, &asked, watch).map_err(AdviseFault::from)?;
    let found = match outcome {
        Outcome::Planned(plan) => Found::Planned(Box::new(planned::of(
            house,
            &ground,
            &request.garden,
            (&wished, &asked),
            plan,
            today,
        )?)),
        Outcome::Impossible(conflict) => {
            Found::Impossible(planned::standing(&conflict, &wished, &ground.said.wanted))
        }
        Outcome::Stopped => Found::Stopped,
        Outcome::NotFound(conflict) => {
            Found::NotFound(planned::standing(&conflict, &wished, &ground.said.wanted))
        }
    };
    let guide = kitchen::guide()?;
    let sheets: Vec<Sheet> =
        wished.iter().filter_map(|wish| kitchen::sheet(&guide, wish, request.kitchen)).collect();
    Ok(Advice {
        homes: ground.homes,
        outs: ground.outs,
        cover: request.garden.cover,
        weather_years: ground.weather_years,
        stood_in: ground.stood_in,
        varieties: ground.candidates.len(),
        years_in_ten: request.years_in_ten,
        cautions: if sheets.is_empty() { Vec::new() } else { guide.cautions },
        weather: ground.weather,
        wishes: wished,
        found,
        sheets,
    })
}
