//! One label: what the law asks, what the evidence backs, and when to sow.

use super::telling::{finding, remedy};
use super::{Filling, Run};
use crate::calendar::{self, Doing};
use crate::claims::{Judge, Standing};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::kept::KeptCall;
use crate::list::{Freshness, Listed};
use crate::lots::LotSeen;
use crate::lots::fault::SeedRoomFault;
use crate::print::{measured, printed_portrait};
use crate::stakes::slug;
use crate::weather::Said;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use jiff::civil::Date;
use publish::packet_labels::{Backing, Code, Fact, PacketLabel, Statement as Printed, Weight};
use publish::pages::{SiteAddress, variety_addresses};
use record::id::Id;
use record::language::{Units, capitalised, mass};
use record::variety::{ClaimSubject, Variety};
use seedroom::label::check::check;
use seedroom::label::guide::Guide;
use seedroom::label::made::{Known, Statement, made, packet};
use seedroom::label::{Item, Says, Tested};
use std::collections::HashMap;

/// What is known of packets of a lot.
pub(super) fn known(house: &House, of: &LotSeen, filling: Filling, run: &Run) -> Known {
    let newest = of.account.tests.last().filter(|test| !test.says_nothing());
    let tested = newest.map(|test| {
        let counted = test.verdict.counted;
        Tested {
            month: test.month(),
            germination: counted.germination(),
            hard: counted.hard(),
            towards_standard: counted.standard_percent(),
        }
    });
    let settings = &house.settings;
    Known {
        shipper: settings.address.as_ref().map(|address| format!("{}, {address}", settings.name)),
        variety: of.variety.clone(),
        lot: of.lot.number.clone(),
        filling,
        tested,
        made: newest.map(|test| (test.test.made, test.verdict.counted.sown)),
        packing: of.account.packing(),
        treatment: of.lot.origin.treatment.clone(),
        packed_for: run.packed_for,
        packed_on: run.today,
        units: settings.units,
    }
}

/// The statements of a label that no guide finds wanting.
///
/// # Errors
/// [`SeedRoomFault::Label`] with all that is missing or too late, and the rule of each.
pub(super) fn lawful(
    known: &Known,
    guides: &[Guide],
    of: &LotSeen,
    today: Date,
) -> Result<Vec<Statement>, SeedRoomFault> {
    let statements = made(known, guides);
    let packet = packet(known, &statements);
    let mut found: Vec<_> = guides.iter().flat_map(|guide| check(&packet, guide, today)).collect();
    found.dedup();
    let apart = of.account.tests.last().is_some_and(|test| test.says_nothing());
    let mut findings: Vec<String> = found.iter().map(finding).collect();
    if apart {
        findings.insert(
            0,
            "the replicates of its newest test lie too far apart to count (7 CFR 201.55)".to_owned(),
        );
    }
    findings.dedup();
    if findings.is_empty() {
        return Ok(statements);
    }
    Err(SeedRoomFault::Label { lot: known.lot.clone(), findings, remedy: remedy(&found) })
}

/// What all labels of a run have in common.
pub(super) struct Common {
    /// What claims are judged by.
    pub(super) judge: Judge,
    /// The units that come first.
    pub(super) units: Units,
    /// Sowing notes.
    pub(super) sowing: Vec<String>,
    /// The web page of each variety, where the house's pages stand on the web.
    pub(super) pages: HashMap<Id<Variety>, String>,
}

/// The web page of each variety of the list, where the house's pages stand on the web.
pub(super) fn pages(house: &House, all: &[Listed]) -> HashMap<Id<Variety>, String> {
    let Some(site) = house.settings.site.as_deref().and_then(SiteAddress::new) else { return HashMap::new() };
    let addresses = variety_addresses(all.iter().map(|listed| listed.variety.name.as_str()));
    let pages = all.iter().zip(addresses);
    pages.map(|(listed, page)| (listed.variety.id, format!("{}{page}", site.as_str()))).collect()
}

/// What the code says: the variety's page with the lot behind it, or where there is none the lot alone.
fn code(of: &LotSeen, common: &Common) -> Code {
    match common.pages.get(&of.lot.variety) {
        Some(page) => Code::Page(format!("{page}#lot-{}", slug(&of.lot.number))),
        None => Code::Lot(of.lot.id.uuid()),
    }
}

/// A label, ready to be set.
pub(super) fn label(
    of: &LotSeen,
    listed: Option<&Listed>,
    statements: &[Statement],
    common: &Common,
) -> PacketLabel {
    let units = common.units;
    let has = |statement: &&Statement, item: Item| statement.says.contains(&Says::Other(item));
    let heading =
        |item| statements.iter().find(|statement| has(statement, item)).map(|one| one.words.clone());
    let below = statements.iter().filter(|one| !has(one, Item::Variety) && !has(one, Item::Kind));
    let told = listed.filter(|listed| listed.freshness == Freshness::Fresh);
    let facts = listed.map(|listed| facts(&common.judge, listed, units));
    PacketLabel {
        variety: heading(Item::Variety).unwrap_or_default(),
        kind: heading(Item::Kind).unwrap_or_default(),
        code: code(of, common),
        lot_number: of.lot.number.clone(),
        portrait: told
            .filter(|listed| crate::print::is_measured(listed))
            .and_then(|listed| printed_portrait(&portrait(&listed.look(), Scale::LIFE_SIZE, units))),
        facts: facts.unwrap_or_default(),
        statements: below.map(stated).collect(),
        sowing: common.sowing.clone(),
    }
}

fn stated(statement: &Statement) -> Printed {
    let bold = [Item::BelowStandard, Item::Treatment].map(Says::Other);
    let is_bold = statement.says.iter().any(|says| bold.contains(says));
    let weight = if is_bold { Weight::Bold } else { Weight::Plain };
    Printed { words: statement.words.clone(), points: statement.points, weight }
}

/// Habit, class, weight and days of a variety, each with what stands behind it.
fn facts(judge: &Judge, listed: &Listed, units: Units) -> Vec<Fact> {
    let claims = judge.beside(listed);
    let said = |about: ClaimSubject| {
        let mut open = claims
            .iter()
            .filter(|beside| beside.claim.about == about && beside.standing == Standing::Unmeasured);
        open.next().map(|beside| beside.claim.words.trim().to_owned())
    };
    let habit = proven(listed, listed.habit.as_ref().map(|habit| &habit.call));
    let class = proven(listed, listed.fruit.as_ref().map(|fruit| &fruit.call));
    let mut facts = Vec::new();
    let backed: Vec<String> = [&habit, &class].into_iter().flatten().cloned().collect();
    if !backed.is_empty() {
        facts.push(Fact { words: capitalised(&backed.join(" ")), backing: Backing::Evidence });
    }
    let measures = measures(listed, units).into_iter();
    facts.extend(measures.map(|words| Fact { words, backing: Backing::Evidence }));
    let open = [(habit, ClaimSubject::Habit, "Habit"), (class, ClaimSubject::FruitClass, "Fruit class")];
    for (_, about, name) in open.into_iter().filter(|(proven, ..)| proven.is_none()) {
        facts.push(Fact { words: unproven(name, said(about)), backing: Backing::Nothing });
    }
    facts
}

/// The verdict of a call that evidence backs and that rests on what stands now.
fn proven(listed: &Listed, call: Option<&KeptCall>) -> Option<String> {
    let call =
        call.filter(|call| call.measured && !call.contested && listed.freshness == Freshness::Fresh)?;
    call.verdict.clone()
}

fn unproven(name: &str, said: Option<String>) -> String {
    match said {
        Some(words) => format!("{name}: said to be {words}; not proven here"),
        None => format!("{name}: not proven yet"),
    }
}

/// Weight and days to the first ripe fruit, where they were measured.
fn measures(listed: &Listed, units: Units) -> Vec<String> {
    let fruit = listed.fruit.as_ref().filter(|_| listed.freshness == Freshness::Fresh);
    let facts = fruit.map(|fruit| measured(&fruit.facts)).unwrap_or_default();
    let weight = facts.weight.map(|weight| format!("Fruit about {}", mass(weight.usual, units)));
    let days =
        facts.days_to_ripe.map(|days| format!("First ripe about {} days from planting out", days.usual));
    [weight, days].into_iter().flatten().collect()
}

/// Sowing notes: by the calendar of a garden where one is named, else what holds anywhere.
pub(super) fn sowing(house: &House, run: &Run) -> Result<Vec<String>, HouseFault> {
    let depth = house.settings.units.either("1/4 in (6 mm)", "6 mm (1/4 in)");
    let Some(place) = &run.sown_at else {
        // Six to eight weeks: several extension leaflets, as in the garden's calendar. The depth: common practice, no source.
        return Ok(vec![format!(
            "Sow indoors 6 to 8 weeks before the last frost, {depth} deep. Plant out when frost is past and nights are mild."
        )]);
    };
    let asked = calendar::Asked {
        place: place.clone(),
        said: Said::default(),
        risk: None,
        out: None,
        cover: None,
        year: Some(run.packed_for),
    };
    let found = calendar::calendar(house, &asked, run.today)?;
    let day = |doing: Doing| {
        let found = found.calendar.days.iter().find(|(_, of)| *of == doing);
        found.map(|(on, _)| on.strftime("%-d %B").to_string())
    };
    let place = match place {
        crate::forecast::Place::Garden(name) => name.clone(),
        crate::forecast::Place::Station(_) => found.weather.name.clone(),
    };
    let told = day(Doing::Sow).zip(day(Doing::PlantOut));
    let told = told
        .map(|(sow, out)| format!("{place}: sow indoors about {sow}, {depth} deep; plant out about {out}."));
    Ok(told.into_iter().collect())
}
