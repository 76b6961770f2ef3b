//! What the pages say: the list's calls and facts, and the guide's words for every class and habit.

use crate::claims::Judge;
use crate::compare::statements::{self, Statements};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::Guides;
use crate::kept::KeptCall;
use crate::list::Listed;
use crate::pages::{search, stand_ins};
use crate::print::{is_measured, titles, told_entry};
use identity::guide::fruit::{Band, FruitClass, FruitGuide, Way};
use identity::habit::Habit;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::pages::{Kind, SiteAddress, WebEntry, WebList};
use rayon::prelude::{IndexedParallelIterator, IntoParallelRefIterator, ParallelIterator};
use record::language::Units;
use record::season::Season;
use record::share::Share;

/// Share from which a shape mark is told. A choice of the pages: the fruit more likely carries it than not.
const MARK_TOLD_FROM: f64 = 0.5;

/// Share from which lying between classes is told beside them. A choice of the pages, as for other verdicts.
const BETWEEN_TOLD_FROM: f64 = 0.1;

/// Everything that the pages say.
pub(super) fn web_list(
    house: &House,
    ledger: &mut Ledger,
    all: &[Listed],
    guides: &Guides,
    today: Date,
) -> Result<WebList, HouseFault> {
    let seasons: Vec<Season> = ledger.grow_outs()?.into_iter().map(|grow_out| grow_out.season).collect();
    let units = house.settings.units;
    let habits: Vec<String> = Habit::ALL.iter().map(Habit::to_string).collect();
    let judge = Judge::of(guides);
    let stand_ins = stand_ins::of(all, guides)?;
    let trials = statements::of_yield(ledger, units)?;
    Ok(WebList {
        house: house.settings.name.clone(),
        made_on: today,
        units,
        seasons: seasons.iter().min().copied().zip(seasons.iter().max().copied()),
        guides: titles(guides),
        site: house.settings.site.as_deref().and_then(SiteAddress::new),
        classes: guides.fruit.classes.iter().map(|class| kind(&guides.fruit, class)).collect(),
        entries: all
            .par_iter()
            .zip(stand_ins)
            .map(|(listed, stand_ins)| WebEntry {
                stand_ins,
                ..entry(listed, (&guides.fruit, &judge), &trials, &habits, units)
            })
            .collect(),
        search: search::words(guides),
        habits: Habit::ALL.into_iter().map(|habit| habit_kind(guides, habit)).collect(),
    })
}

fn kind(guide: &FruitGuide, class: &FruitClass) -> Kind {
    let words = &class.words;
    Kind {
        name: class.name.to_string(),
        what: words.what.clone(),
        good_for: words.good_for.clone(),
        mistaken_for: words.mistaken_for.clone(),
        flesh: words.flesh.clone(),
        limits: class.ways.iter().map(|way| limits(guide, way)).collect(),
    }
}

fn habit_kind(guides: &Guides, habit: Habit) -> Kind {
    let words = guides.habit.told.of(habit);
    Kind {
        name: habit.to_string(),
        what: words.what.clone(),
        good_for: words.good_for.clone(),
        mistaken_for: words.mistaken_for.clone(),
        ..Kind::default()
    }
}

/// One way into a class: `weight from 1 oz to under 3 oz, length over width from 1.25`.
fn limits(guide: &FruitGuide, way: &Way) -> String {
    let band = |band: &Band| {
        let (from, below) = guide.borders_of(band);
        let range = match (from, below) {
            (Some(from), Some(below)) => format!("from {} to under {}", from.written, below.written),
            (Some(from), None) => format!("from {}", from.written),
            (None, Some(below)) => format!("under {}", below.written),
            (None, None) => "of any size".to_owned(),
        };
        format!("{} {range}", band.measure.words())
    };
    way.bands.iter().map(band).collect::<Vec<_>>().join(", ")
}

fn entry(
    listed: &Listed,
    (guide, judge): (&FruitGuide, &Judge),
    trials: &Statements,
    habits: &[String],
    units: Units,
) -> WebEntry {
    let fruit = listed.fruit.as_ref();
    let habit = listed.habit.as_ref().map(|habit| &habit.call).filter(|call| call.measured);
    let mut told = told_entry(listed, judge, trials, units);
    if let Some(call) = fruit.map(|fruit| &fruit.call).filter(|call| call.measured) {
        told.fruit_class.verdicts.extend(between(call));
        told.fruit_class.rule = rule(call);
    }
    told.habit.rule = habit.and_then(rule);
    told.colour.rule = listed
        .colour
        .as_ref()
        .filter(|colour| colour.exterior.measured)
        .and_then(|colour| rule(&colour.exterior));
    let class = fruit.filter(|fruit| fruit.call.measured).and_then(|fruit| fruit.call.verdict.as_deref());
    WebEntry {
        told,
        look: is_measured(listed).then(|| listed.look()),
        class: class.and_then(|class| guide.class_names().position(|name| name.as_str() == class)),
        habit: habit
            .and_then(|call| call.verdict.as_deref())
            .and_then(|verdict| habits.iter().position(|name| name == verdict)),
        uses: judge.uses(listed).into_iter().map(|purpose| purpose.name().to_owned()).collect(),
        marks: marks(listed),
        pattern: listed.colour.as_ref().map(|colour| &colour.pattern).and_then(|call| call.verdict.clone()),
        stand_ins: Vec::new(),
    }
}

/// Lying between classes is a verdict too.
fn between(call: &KeptCall) -> Option<(String, Share)> {
    let share = Share::new(call.between).filter(|share| BETWEEN_TOLD_FROM <= share.get())?;
    Some(("between classes".to_owned(), share))
}

fn rule(call: &KeptCall) -> Option<String> {
    let rule = call.rule.trim();
    (!rule.is_empty()).then(|| if rule.ends_with('.') { rule.to_owned() } else { format!("{rule}.") })
}

fn marks(listed: &Listed) -> Vec<(String, Share)> {
    let marks = listed.fruit.iter().flat_map(|fruit| &fruit.marks);
    let carried = marks.filter_map(|mark| {
        let share = mark.share.filter(|share| MARK_TOLD_FROM <= *share)?;
        Some((mark.mark.clone(), Share::new(share)?))
    });
    carried.collect()
}
