//! The next grow-out: which varieties it should hold and why, how many plots of each, and what a bed more would bring.
//!
//! [`of`] weighs every variety by its sales, seed, calls and evidence, and makes the best of the ground; [`ground`] says
//! what there is to grow on, [`told`] is the answer's shape, and [`telling`] has the words that every screen tells it in.

pub mod fault;
pub mod flowers;
pub mod ground;
pub mod telling;
pub mod told;
mod weighed;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::layout::file::Wanted;
use crate::layout::file::written::growing;
use crate::lots::{isolation, law};
use crate::{gaps, lots, sales};
use fault::NextFault;
use ground::{Ground, Stand};
use jiff::civil::Date;
use ledger::ledger::Ledger;
use record::season::Season;
use sowing::choice::{Candidate, Must, choose, with_more};
pub use sowing::need::Worths;
use sowing::need::{Plots, ways};
use sowing::selling::Horizon;
pub use sowing::selling::next_crop;
use told::{More, Next, Seen};
use weighed::{Names, Weighed};

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The grow-out's name.
    pub name: Option<String>,
    /// Its season.
    pub season: Season,
    /// What there is to grow on.
    pub ground: Ground,
    /// Varieties that must stand.
    pub must: Vec<String>,
    /// Varieties that customers or the house wish for.
    pub wished: Vec<String>,
    /// Varieties that are left out.
    pub without: Vec<String>,
    /// Varieties whose flowers cross readily, besides those whose class tells.
    pub crossing: Vec<String>,
    /// Most plants that can be raised.
    pub most_plants: Option<u32>,
    /// Varieties that cross readily that can be kept apart or bagged.
    pub apart: u32,
    /// Most plots of one variety.
    pub most_plots: u32,
    /// Fewest plants that seed is saved from.
    pub parents: u32,
    /// Seeds of a packet.
    pub seeds_each: u32,
    /// Years that seed of one crop is sold for.
    pub years: u8,
    /// What is worth how much.
    pub worths: Worths,
}

impl Asked {
    /// A grow-out of a season on some ground, with what is taken where nobody says.
    #[must_use]
    pub fn of(season: Season, ground: Ground) -> Self {
        Self {
            name: None,
            season,
            ground,
            must: Vec::new(),
            wished: Vec::new(),
            without: Vec::new(),
            crossing: Vec::new(),
            most_plants: None,
            apart: APART,
            most_plots: MOST_PLOTS,
            parents: PARENTS,
            seeds_each: SEEDS_EACH,
            years: YEARS,
            worths: Worths::USUAL,
        }
    }
}

/// Varieties kept apart or bagged. A choice of ours.
const APART: u32 = 1;
/// Most plots of one variety. A choice of ours.
const MOST_PLOTS: u32 = 4;
/// Fewest plants that seed is saved from. Source: a seed guide, reprinted (weak): 10 to 20 plants.
const PARENTS: u32 = 10;
/// Seeds of a packet. Common practice, no source: 10 to 50 of an heirloom.
const SEEDS_EACH: u32 = 30;
/// Years that seed of one crop is sold for. Source: extension lists (weak): tomato seed keeps about 4 years cool and dry.
const YEARS: u8 = 3;
/// Gaps of the list that are told. A choice of ours.
const GAPS: usize = 3;

/// Chooses the next grow-out.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`NextFault`] where no sales are known or what must stand
/// does not fit; ground that makes no sense; what the ledger refuses.
pub fn of(house: &House, asked: &Asked, by: law::Asked) -> Result<Next, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let stand = ground::stand(&mut ledger, asked)?;
    let names = Names::found(&mut ledger, asked, &stand)?;
    let expected = sales::expected_in(&mut ledger)?;
    let horizon = horizon(by.today, asked)?;
    let seed_room = lots::all(house, by)?;
    let guide = isolation::guide(house)?;
    let weighed = weighed::all(&mut ledger, asked, &names, &expected, &horizon, (&seed_room.lots, &guide))?;
    let candidates: Vec<Candidate> = weighed.iter().map(|own| candidate(own, asked, &stand)).collect();
    let ground = stand.left(asked);
    let chosen = choose(&candidates, ground)?;
    let more = with_more(&candidates, ground, stand.plots_a_bed)?;
    let seen = Seen { weighed: &weighed, candidates: &candidates, chosen: &chosen, apart: asked.apart };
    let (grown, left_out) = told::rows(&seen);
    let wanted = wanted(&stand, asked, &grown);
    Ok(Next {
        season: asked.season,
        horizon,
        covered: expected.covered,
        levels: expected.demand.levels.clone(),
        profile: expected.demand.profile.clone(),
        stand: stand.told(asked),
        grown,
        left_out,
        wanting_nothing: candidates.iter().filter(|own| own.ways.is_empty()).count(),
        worth: chosen.worth,
        bound: chosen.bound,
        more: More::of(&seen, &more, stand.plots_a_bed),
        gaps: gaps::of(house)?.gaps.into_iter().take(GAPS).map(|gap| gap.kind).collect(),
        minimum: seed_room.by,
        wanted,
    })
}

fn horizon(today: Date, asked: &Asked) -> Result<Horizon, HouseFault> {
    let found = Horizon::of(today, asked.season.year(), asked.years);
    let past = found.filter(|horizon| horizon.soon.first <= horizon.soon.last);
    Ok(past.ok_or(NextFault::SeasonPast(asked.season))?)
}

fn candidate(own: &Weighed, asked: &Asked, stand: &Stand) -> Candidate {
    let plots = Plots { plants: stand.plants_each, fewest_parents: asked.parents, most: asked.most_plots };
    let must = own.must;
    let ways = match must {
        _ if own.is_without => Vec::new(),
        Must::Stand => sowing::need::ways_to_stand(&own.subject, &asked.worths, &plots),
        Must::IfWorthIt => ways(&own.subject, &asked.worths, &plots),
    };
    Candidate { ways, must }
}

/// What is to be laid out, so that what was chosen grows; `None` where only plots were counted.
fn wanted(stand: &Stand, asked: &Asked, grown: &[told::Row]) -> Option<Wanted> {
    let plots: Vec<(String, u32)> = grown.iter().map(|row| (row.variety.clone(), row.plots)).collect();
    let wanted = stand.wanted.as_ref()?;
    let name = asked.name.clone().unwrap_or_else(|| wanted.name.clone());
    Some(growing(wanted, name, asked.season, &plots))
}
