//! Every variety with all that speaks for growing it: its sales, its seed, its calls.

use super::Asked;
use super::flowers::Isolation;
use super::ground::Stand;
use crate::fault::HouseFault;
use crate::increase::{crop_of, fruit_of_plots, packets_a_plant};
use crate::list::{self, Listed};
use crate::lots::{LotSeen, LotState};
use crate::names;
use crate::sales::Expected;
use ledger::ledger::Ledger;
use record::id::Id;
use record::variety::Variety;
use seedroom::trueness::isolation::IsolationGuide;
use sowing::choice::Must;
use sowing::need::{Flowers, KindHeld, Reason, Subject, Wished, reasons};
use sowing::selling::Horizon;
use sowing::stock::{Held, Lasts, Standing, packets};
use std::collections::HashMap;

/// A variety, weighed.
pub(super) struct Weighed {
    pub(super) name: String,
    pub(super) subject: Subject,
    pub(super) reasons: Vec<Reason>,
    pub(super) must: Must,
    pub(super) is_without: bool,
    pub(super) lots: Vec<LotWeighed>,
    /// What its flowers want.
    pub(super) isolation: Option<Isolation>,
    /// Packets that it is expected to sell in a year.
    pub(super) a_year: f64,
    pub(super) was_sold: bool,
    /// What would settle its contested calls, the first of each.
    pub(super) settles: Vec<String>,
}

/// A lot with seed in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct LotWeighed {
    pub(super) number: String,
    pub(super) packets: u32,
    pub(super) lasts: Lasts,
}

/// The varieties that were named.
pub(super) struct Names {
    must: Vec<Id<Variety>>,
    wished: Vec<Id<Variety>>,
    without: Vec<Id<Variety>>,
    crossing: Vec<Id<Variety>>,
    checks: Vec<Id<Variety>>,
}

impl Names {
    pub(super) fn found(ledger: &mut Ledger, asked: &Asked, stand: &Stand) -> Result<Self, HouseFault> {
        let mut found = |names: &[String]| -> Result<Vec<Id<Variety>>, HouseFault> {
            names.iter().map(|name| Ok(names::find(ledger, name)?.id)).collect()
        };
        let must: Vec<String> = asked.must.iter().chain(stand.named()).cloned().collect();
        Ok(Self {
            must: found(&must)?,
            wished: found(&asked.wished)?,
            without: found(&asked.without)?,
            crossing: found(&asked.crossing)?,
            checks: found(stand.checks())?,
        })
    }
}

/// Weighs every variety.
pub(super) fn all(
    ledger: &mut Ledger,
    asked: &Asked,
    names: &Names,
    expected: &Expected,
    horizon: &Horizon,
    (lots, guide): (&[LotSeen], &IsolationGuide),
) -> Result<Vec<Weighed>, HouseFault> {
    let listed = list::everyone(ledger)?;
    let fruit = fruit_of_plots(ledger)?;
    let kinds = kinds(&listed);
    let mut by_variety: HashMap<Id<Variety>, Vec<&LotSeen>> = HashMap::new();
    for seen in lots {
        by_variety.entry(seen.lot.variety).or_default().push(seen);
    }
    let one = |listed: &Listed| {
        let id = listed.variety.id;
        let own = by_variety.get(&id).map(Vec::as_slice).unwrap_or_default();
        let weighed: Vec<LotWeighed> =
            own.iter().filter_map(|seen| lot(seen, asked.seeds_each, horizon)).collect();
        let class = class(listed);
        let plots = fruit.get(&id).map(Vec::as_slice).unwrap_or_default();
        let crop = crop_of(class, own, plots);
        let isolation = if names.crossing.contains(&id) {
            Isolation::crossing(guide)
        } else {
            Isolation::by(guide, &listed.variety.name, class)
        };
        let place = expected.place(id);
        let ahead = |days, years| expected.demand.outlook(place, days, years);
        let subject = Subject {
            before: ahead(horizon.before, BEFORE),
            soon: ahead(horizon.soon, SOON),
            late: ahead(horizon.late, LATE),
            packets: weighed.iter().map(|lot| lot.packets).sum(),
            lasting: weighed.iter().filter(|lot| lot.lasts == Lasts::Yes).map(|lot| lot.packets).sum(),
            packets_a_plant: crop.and_then(|(crop, _)| packets_a_plant(&crop, asked.seeds_each)),
            contested: contested(listed).map(|call| call.probability).collect(),
            fruits: rests_on(listed, |used| used.fruits),
            seasons: rests_on(listed, |used| used.seasons),
            wished: if names.wished.contains(&id) { Wished::Yes } else { Wished::No },
            kind: if kind(listed).is_some_and(|kind| kinds.get(&kind) == Some(&1)) {
                KindHeld::Alone
            } else {
                KindHeld::WithOthers
            },
            flowers: isolation.as_ref().map_or(Flowers::Closed, |isolation| isolation.flowers),
        };
        Weighed {
            name: listed.variety.name.clone(),
            reasons: reasons(&subject, &asked.worths),
            subject,
            must: if names.must.contains(&id) { Must::Stand } else { Must::IfWorthIt },
            is_without: names.without.contains(&id) || names.checks.contains(&id),
            lots: weighed,
            isolation,
            a_year: expected.demand.a_year(place),
            was_sold: expected.demand.was_sold(place),
            settles: contested(listed).filter_map(|call| Some(call.settle.first()?.words.clone())).collect(),
        }
    };
    Ok(listed.iter().map(one).collect())
}

/// Changes of the house's level, in years, that lie between the last sales and those of the horizon. A choice of ours.
const BEFORE: f64 = 0.5;
const SOON: f64 = 1.0;
const LATE: f64 = 2.0;

fn contested(listed: &Listed) -> impl Iterator<Item = &crate::kept::KeptCall> {
    listed.calls().map(|(_, call)| call).filter(|call| call.contested && call.measured)
}

fn class(listed: &Listed) -> Option<&str> {
    listed.fruit.as_ref().and_then(|fruit| fruit.call.verdict.as_deref())
}

/// The most that any call rests on.
fn rests_on(listed: &Listed, of: fn(&crate::kept::KeptUsed) -> u64) -> u64 {
    listed.calls().map(|(_, call)| of(&call.used)).max().unwrap_or(0)
}

/// Habit, fruit class and colour of a variety of which all three are called and none is contested.
fn kind(listed: &Listed) -> Option<Vec<&str>> {
    let verdicts: Vec<&str> = listed
        .calls()
        .filter(|(_, call)| call.measured && !call.contested)
        .filter_map(|(_, call)| call.verdict.as_deref())
        .collect();
    (verdicts.len() == 3).then_some(verdicts)
}

fn kinds(listed: &[Listed]) -> HashMap<Vec<&str>, usize> {
    let mut kinds = HashMap::new();
    for kind in listed.iter().filter_map(kind) {
        *kinds.entry(kind).or_insert(0) += 1;
    }
    kinds
}

/// What a lot holds; `None` of an empty one.
fn lot(seen: &LotSeen, seeds_each: u32, horizon: &Horizon) -> Option<LotWeighed> {
    let account = &seen.account;
    if account.state == LotState::Gone {
        return None;
    }
    let held = Held { mass: account.all_held(), thousand: account.seed_weight.map(|weight| weight.thousand) };
    let standing = match account.state {
        LotState::Below { .. } | LotState::UnderHouse { .. } => Standing::Under,
        _ => Standing::Above(account.ageing.map(|ageing| ageing.about)),
    };
    let lasts = Lasts::until(horizon.soon.last, standing);
    Some(LotWeighed { number: seen.lot.number.clone(), packets: packets(held, seeds_each), lasts })
}
