//! The words that screens and papers tell advice in, so that all of them say the same.

use super::for_seed::{ForSeed, Reach};
use super::planned::{Alternative, KitchenDay, Line, Planned, Room, Seed, Without};
use super::request::RowCover;
use super::request::{Amount, Purpose};
use super::wishes::Wished;
use super::{Advice, Ended, SAMPLED};
use crate::forecast::place::Source;
use crate::lots::telling::known_by;
use advice::planner::conflict::{Change, Way};
use advice::planner::request::Demand;
use advice::preserving::acid::QuarterTeaspoons;
use jiff::civil::Date;
use record::language::{self, Units, counted, distance};
use record::mass::Grams;
use ripening::row_cover;

/// What every plan says of itself.
pub const NOTICE: &str = "Worked out of past plots and past or drawn weather: a chance, not a promise. Nothing is added for \
    what animals and disease take.";

/// Where a preserver has to look.
pub const DEFERS: &str = "Preserving can kill: use a tested recipe, the published guide for your altitude, and ask your local \
    extension office.";

/// A day of any year.
#[must_use]
pub fn day(day: Date) -> String {
    day.strftime("%-d %b").to_string()
}

/// So many kilograms in the house's units; a dash for what is not worth a walk to the bed.
#[must_use]
pub fn kilograms(kilograms: f64, units: Units) -> String {
    let grams = Grams::of_kilograms(kilograms).filter(|_| NOTHING <= kilograms);
    grams.map_or_else(|| "-".to_owned(), |grams| language::mass_briefly(grams, units))
}

/// Kilograms below which nothing is told. Common practice, no source.
const NOTHING: f64 = 0.02;

/// So much bed in the house's units.
#[must_use]
pub fn area(square_metres: f64, units: Units) -> String {
    let (metric, us) =
        (format!("{square_metres:.1} m2"), format!("{:.0} sq ft", square_metres * SQUARE_FEET));
    format!("{} of bed", units.either(us, metric))
}

/// Square feet in a square metre: a foot is 0.3048 m. Source: NIST SP 811 (2008), Appendix B.8.
const SQUARE_FEET: f64 = 1.0 / (0.3048 * 0.3048);

/// What a plan takes for granted, a line each.
#[must_use]
pub fn assumed(found: &Advice) -> Vec<String> {
    let mut lines = vec![
        format!(
            "{} of the classes wished for have picks of their own or are wanted.",
            counted(found.varieties as u64, "variety", "varieties")
        ),
        format!(
            "{SAMPLED} sampled years: {} of weather, a crop drawn anew for each.",
            counted(found.weather_years as u64, "year", "years")
        ),
    ];
    if matches!(found.weather.source, Source::Drawn { .. }) {
        lines.push(format!(
            "The years of {} are drawn from its climate, none of them measured; a station's own file tells more.",
            found.weather.name
        ));
    }
    if !found.homes.is_empty() {
        let names: Vec<&str> = found.homes.iter().map(|home| home.name.as_str()).collect();
        lines.push(format!("The house's own plots stood in the weather of {}.", names.join(" and ")));
    }
    if 0 < found.stood_in.0 {
        lines.push(format!(
            "Nobody has the weather of {} of {} plots that the crops were read from: a middling season stands in.",
            found.stood_in.0, found.stood_in.1
        ));
    }
    lines.extend(found.cover.map(covered));
    lines.push("Plants are tended as the house's plots were; one in a container is taken to bear as much as one in a bed, and may bear less.".to_owned());
    lines.push(
        "Fruit is used in the week in which it ripens, but for what the request says keeps for a kitchen day. Names of products hold for red varieties.".to_owned(),
    );
    lines
}

/// What a row cover is taken to do.
fn covered(cover: RowCover) -> String {
    format!(
        "A {} row cover lies over the plants for their first {} weeks: it makes their nights {:.1} °C ({:.0} °F) warmer, by growers' \
         word, unverified. What it does by day is not counted: lift it on hot days, for heat under it costs flowers.",
        cover.name(),
        row_cover::WEEKS,
        cover.warms_by(),
        cover.warms_by() * 1.8
    )
}

/// A wish: what for, how much fruit, and when.
#[must_use]
pub fn wish(wished: &Wished, units: Units) -> String {
    let mass = |grams: Grams| language::mass_briefly(grams, units);
    match &wished.wish.purpose {
        Purpose::Fresh(_) => format!("{} a week of {} to eat", mass(wished.fruit), wished.classes),
        Purpose::PutUp { put_up, amount, days, .. } => {
            let days = counted(u64::from(*days), "kitchen day", "kitchen days");
            let fruit = mass(wished.fruit);
            match amount {
                Amount::Jars(jar, jars) => {
                    let jars = counted(u64::from(*jars), jar.name(), &format!("{}s", jar.name()));
                    format!("{jars} of {} from {} ({fruit} of fruit), {days}", put_up.name(), wished.classes)
                }
                Amount::Fruit(_) => {
                    format!("{fruit} of {} to put up as {}, {days}", wished.classes, put_up.name())
                }
            }
        }
    }
}

/// A wish with its first and last week.
#[must_use]
pub fn wish_with_days(wished: &Wished, units: Units) -> String {
    let [from, to] = wished.days.map(day);
    format!("{}, {from} to {to}", wish(wished, units))
}

/// How many plants, how much room, and how near that is to the fewest.
#[must_use]
pub fn size(planned: &Planned, units: Units) -> String {
    let mut said = vec![counted(u64::from(planned.total), "plant", "plants")];
    if 0.0 < planned.bed_m2 {
        said.push(area(planned.bed_m2, units));
    }
    if 0 < planned.containers {
        said.push(counted(u64::from(planned.containers), "container", "containers"));
    }
    let near = match planned.at_least {
        whole if whole == planned.total => "no plan has fewer plants".to_owned(),
        0 => "whether a plan has fewer plants is not shown".to_owned(),
        least => {
            format!("no plan has fewer than {least} plants, and whether one has fewer than this is not shown")
        }
    };
    let ended = match planned.ended {
        Ended::Whole => "",
        Ended::Stopped => "; the search was stopped, and a whole one may find fewer",
    };
    format!("{}; {near}{ended}", said.join(", "))
}

/// A kitchen day.
#[must_use]
pub fn kitchen_day(found: KitchenDay, units: Units) -> String {
    let [early, usual, late] = found.week_of.map(day);
    let [poor, _, good] = found.kilograms.map(|own| kilograms(own, units));
    format!(
        "week of {usual} ({early} in an early year, {late} in a late one), {poor} to {good}, in {} of {SAMPLED} years",
        found.years
    )
}

/// Seed of a variety that is planted.
#[must_use]
pub fn seed(seed: &Seed) -> String {
    match seed {
        Seed::NotKept => "-".to_owned(),
        Seed::Held { packets, .. } if 0 < *packets => counted(*packets, "packet", "packets"),
        Seed::Held { .. } => "to pack".to_owned(),
        Seed::SoldOut { instead: Some((other, _)) } => format!("none; like it: {other}"),
        Seed::SoldOut { instead: None } => "none".to_owned(),
    }
}

/// What a plan without a variety comes to.
#[must_use]
pub fn without(without: Without) -> String {
    match without {
        Without::Takes(plants) => counted(u64::from(plants), "plant", "plants"),
        Without::Impossible => "there is none".to_owned(),
        Without::Unsettled => "none was found".to_owned(),
        Without::NotTried => "not tried".to_owned(),
    }
}

/// What a plan comes to with another variety in the place of one.
#[must_use]
pub fn alternative(other: &Alternative) -> String {
    format!(
        "{} in the place of {}: {} in all",
        other.variety,
        other.instead_of,
        counted(u64::from(other.total), "plant", "plants")
    )
}

/// How many plants, and whether they stand in pots.
#[must_use]
pub fn plants(line: &Line) -> String {
    match line.room {
        Room::Bed(_) => line.plants.to_string(),
        Room::Container => format!("{} in pots", line.plants),
    }
}

/// A wish that stands in the way, without its weight.
pub(crate) fn wish_briefly(wished: &Wished) -> String {
    match &wished.wish.purpose {
        Purpose::Fresh(_) => format!("{} to eat every week", wished.classes),
        Purpose::PutUp { put_up, .. } => format!("{} put up as {}", wished.classes, put_up.name()),
    }
}

/// How a variety that seed is saved of would stand among the others.
#[must_use]
pub fn for_seed(own: &ForSeed, units: Units) -> String {
    let name = &own.variety;
    let flower = &own.apart.flower;
    let (away, (low, high)) = (distance(flower.away, units), flower.crosses_percent);
    let known = known_by(own.apart.known_by);
    let from = own.others.join(", ");
    match own.apart.reach {
        Reach::Alone => {
            format!("{name} stands alone in the plan; other gardens' tomatoes want {away} too ({known})")
        }
        Reach::WithinABed => format!(
            "{name} wants {away} from {from} ({known}): the longest bed has room for that, with it at one end and them at the other"
        ),
        Reach::BeyondTheBeds => format!(
            "{name} wants {away} from {from} ({known}), and no bed is so long: plant it elsewhere or bag trusses before they open; \
             else {low} to {high} in 100 seeds may have crossed"
        ),
    }
}

/// A demand that stands in the way.
#[must_use]
pub fn demand(demand: Demand, wished: &[Wished], wanted: &[String]) -> String {
    match demand {
        Demand::Wish(place) => wished.get(place).map_or_else(String::new, wish_briefly),
        Demand::Wanted(place) => {
            format!("a plant of {}", wanted.get(place).map_or("the wanted variety", String::as_str))
        }
        Demand::Bed => "no more bed than there is".to_owned(),
        Demand::Containers => "no more containers than there are".to_owned(),
        Demand::MostVarieties => "no more varieties".to_owned(),
        Demand::Sure => "as many years in ten".to_owned(),
    }
}

/// That there is no plan.
pub const NO_PLAN: &str = "No planting does all of that.";
/// That no plan was found.
pub const NONE_FOUND: &str =
    "No planting was found that does all of that, nor was it shown that there is none.";

/// That a search was stopped before it came to anything.
pub const STOPPED: &str = "The search was stopped before a planting was found; give it longer.";

/// What would free a request.
#[must_use]
pub fn way(way: Way) -> String {
    match way {
        Way::Least(found) => change(found),
        Way::Enough(found @ (Change::Kilograms(_) | Change::Years(_))) => {
            format!("{}, perhaps more", change(found))
        }
        Way::Enough(found) => format!("{}, perhaps with less", change(found)),
        Way::NotAlone => "no change of this alone frees the request".to_owned(),
        Way::Unsettled => "how much would free it was not found in as many steps as may be taken".to_owned(),
    }
}

fn change(change: Change) -> String {
    match change {
        Change::Kilograms(kilograms) => {
            let grams = Grams::of_kilograms(kilograms);
            let mass = grams.map_or_else(String::new, |grams| language::mass(grams, Units::US));
            format!("with {mass} in its place")
        }
        Change::Bed(square_metres) => format!("with {square_metres:.1} m2 of bed in all"),
        Change::Containers(containers) => {
            format!("with {} in all", counted(u64::from(containers), "container", "containers"))
        }
        Change::Varieties(varieties) => {
            format!("with {}", counted(u64::from(varieties), "variety", "varieties"))
        }
        Change::Years(years) => format!("it can be had in {years} of {} sampled years", SAMPLED),
        Change::DoWithout => "do without it".to_owned(),
    }
}

/// An amount by the spoon, as kitchens have them.
#[must_use]
pub fn spoons(amount: QuarterTeaspoons) -> String {
    let (tablespoons, teaspoons) = (amount.tablespoons(), amount.teaspoons());
    if 1.0 <= tablespoons {
        format!("{tablespoons} Tbsp")
    } else if teaspoons < 1.0 {
        let quarters = if teaspoons < 0.5 {
            "1/4"
        } else if teaspoons < 0.75 {
            "1/2"
        } else {
            "3/4"
        };
        format!("{quarters} tsp")
    } else {
        format!("{teaspoons} tsp")
    }
}
