//! What the words of a request's file mean.

use super::raw::{Classes, File, FreshFile, GardenFile, KitchenFile, PutUpFile};
use super::{ADay, Amount, Garden, Jar, Kitchen, Purpose, PutUp, Request, Solids, Wish};
use crate::forecast::{Place, Risk};
use crate::typed_file::{FileFault, Text};
use advice::burner::{Burner, Kilowatts, Kind};
use advice::preserving::altitude::Feet;
use advice::preserving::{Gauge, Way};
use advice::space::{Bed, Litres, Spacing};
use record::share::Share;
use ripening::row_cover::RowCover;
use std::ops::RangeInclusive;
use toml::Spanned;

type Read<T> = Result<T, Box<FileFault>>;

/// Between plants of a row and between rows, where nothing is said. Common practice, no source.
const USUAL_SPACING: (&str, &str) = ("2 ft", "4 ft");
/// Sets of plants. A choice of ours: later ones have no season left.
const WAVES: RangeInclusive<u32> = 1..=4;
/// Weeks that picked fruit keeps. A choice of ours.
const KEEPS: RangeInclusive<u32> = 0..=3;
/// Kitchen days of one wish, and canner loads of one day. A choice of ours.
const DAYS: RangeInclusive<u32> = 1..=20;
/// Jars of one wish. A choice of ours: a household's, not a factory's.
const JARS: RangeInclusive<u32> = 1..=1000;
/// Years of ten in which a wish must be met, where nothing is said. A choice of ours.
const USUAL_YEARS: u32 = 8;

pub(super) fn read(text: &Text<'_>) -> Read<Request> {
    let file: File =
        text.parsed("see docs/advice.md for a whole file, or docs/json/request-file-1.json for its shape")?;
    let put_up = file.put_up.iter().map(|wish| put_up(text, wish));
    let wishes =
        put_up.chain(file.fresh.iter().map(|wish| fresh(text, wish))).collect::<Read<Vec<Wish>>>()?;
    if wishes.is_empty() {
        let fault = "nothing is wished for".to_owned();
        let help = "add a [[put-up]] or a [[fresh]] table: docs/advice.md has a whole file";
        return Err(Box::new(text.fault(&file.garden.span(), fault, help)));
    }
    let years_in_ten = within(text, file.years_in_ten.as_ref(), &(1..=10))?.unwrap_or(USUAL_YEARS);
    Ok(Request {
        garden: garden(text, &file.garden)?,
        kitchen: file.kitchen.as_ref().map(|file| kitchen(text, file)).transpose()?.unwrap_or_default(),
        only: file.only.filter(|words| !words.trim().is_empty()),
        wanted: file.wanted,
        barred: file.barred,
        favourites: file.favourites,
        for_seed: file.for_seed,
        most_varieties: within(text, file.most_varieties.as_ref(), &(1..=1000))?,
        years_in_ten,
        sure: Share::new(f64::from(years_in_ten) / 10.0).unwrap_or(Share::ALL),
        wishes,
    })
}

/// A whole number within bounds, where one is written.
fn within(
    text: &Text<'_>,
    written: Option<&Spanned<u32>>,
    bounds: &RangeInclusive<u32>,
) -> Read<Option<u32>> {
    let Some(written) = written else { return Ok(None) };
    let number = *written.get_ref();
    if bounds.contains(&number) {
        return Ok(Some(number));
    }
    let help = format!("write a number from {} to {}", bounds.start(), bounds.end());
    Err(Box::new(text.fault(&written.span(), format!("{number} cannot be asked for"), &help)))
}

/// One of a few words.
fn word<T: Copy>(text: &Text<'_>, written: &Spanned<String>, known: &[(&str, T)]) -> Read<T> {
    let wanted = written.get_ref().trim().to_lowercase();
    let found = known.iter().find(|(name, _)| *name == wanted).map(|(_, meant)| *meant);
    found.ok_or_else(|| {
        let names: Vec<&str> = known.iter().map(|(name, _)| *name).collect();
        let fault = format!("{:?} is not known", written.get_ref());
        Box::new(text.fault(&written.span(), fault, &format!("write one of: {}", names.join(", "))))
    })
}

fn garden(text: &Text<'_>, spanned: &Spanned<GardenFile>) -> Read<Garden> {
    let file = spanned.get_ref();
    let place = match (&file.name, &file.weather) {
        (Some(name), None) => Place::Garden(name.clone()),
        (None, Some(station)) => Place::Station(station.into()),
        _ => {
            let fault = "either name or weather says whose weather the garden has".to_owned();
            let help = "write name = \"a garden of the house\", or weather = \"a station\"";
            return Err(Box::new(text.fault(&spanned.span(), fault, help)));
        }
    };
    let covers = RowCover::ALL.map(|cover| (cover.name(), cover));
    let spaced = |written: Option<&Spanned<String>>, usual: &str| match written {
        Some(written) => text.length(written),
        None => text.length(&Spanned::new(0..0, usual.to_owned())),
    };
    let bed = |bed: &super::raw::BedFile| {
        Ok(Bed { length: text.length(&bed.length)?, width: text.length(&bed.width)? })
    };
    Ok(Garden {
        place,
        risk: file.frost_risk.as_ref().map(|written| risk(text, written)).transpose()?,
        out: file.plants_out.as_ref().map(|day| text.month_and_day(day)).transpose()?,
        waves: within(text, file.waves.as_ref(), &WAVES)?.unwrap_or(1),
        beds: file.bed.iter().map(bed).collect::<Read<_>>()?,
        spacing: Spacing {
            plants: spaced(file.between_plants.as_ref(), USUAL_SPACING.0)?,
            rows: spaced(file.between_rows.as_ref(), USUAL_SPACING.1)?,
        },
        containers: file.containers,
        container_volume: volume(text, file.container_volume.as_ref())?,
        cover: file.row_cover.as_ref().map(|written| word(text, written, &covers)).transpose()?,
        stake_height: file.stake_height.as_ref().map(|written| text.length(written)).transpose()?,
    })
}

fn volume(text: &Text<'_>, written: Option<&Spanned<String>>) -> Read<Litres> {
    let Some(written) = written else {
        return Ok(Litres::USUAL);
    };
    let words = written.get_ref().trim().to_lowercase();
    let number = |unit: &str| words.strip_suffix(unit)?.trim().parse::<f64>().ok();
    let gallons = ["gallons", "gallon", "gal"].into_iter().find_map(number).and_then(Litres::of_gallons);
    let litres =
        || ["litres", "liters", "litre", "liter", "l"].into_iter().find_map(number).and_then(Litres::new);
    gallons.or_else(litres).ok_or_else(|| {
        let fault = format!("{:?} is no volume", written.get_ref());
        Box::new(text.fault(&written.span(), fault, "write a number with gal or l, such as \"5 gal\""))
    })
}

fn risk(text: &Text<'_>, written: &Spanned<u32>) -> Read<Risk> {
    match written.get_ref() {
        1 => Ok(Risk::OneInTen),
        5 => Ok(Risk::FiveInTen),
        9 => Ok(Risk::NineInTen),
        years => {
            let fault = format!("{years} years in ten cannot be asked for");
            Err(Box::new(text.fault(&written.span(), fault, "write 1, 5 or 9")))
        }
    }
}

fn kitchen(text: &Text<'_>, file: &KitchenFile) -> Read<Kitchen> {
    let feet = |written: &Spanned<String>| {
        let length = text.length(written)?;
        let fault = || text.fault(&written.span(), "no altitude".to_owned(), "write it in ft or m");
        Feet::from_metres(length.get() / MILLIMETRES_IN_METRE).ok_or_else(|| Box::new(fault()))
    };
    let power = |written: &Spanned<f64>| {
        let fault = || format!("{} kilowatts is no power", written.get_ref());
        let power = Kilowatts::new(*written.get_ref());
        power.ok_or_else(|| {
            Box::new(text.fault(&written.span(), fault(), "write a number above 0, such as 2.5"))
        })
    };
    let kind = file.burner.as_ref().map(|written| word(text, written, &BURNERS)).transpose()?;
    let power = file.kilowatts.as_ref().map(power).transpose()?;
    Ok(Kitchen {
        altitude: file.altitude.as_ref().map(feet).transpose()?,
        canner: file.canner.as_ref().map(|written| word(text, written, &CANNERS)).transpose()?,
        burner: kind.zip(power).map(|(kind, power)| Burner::of(kind, power)),
    })
}

/// Millimetres in a metre.
const MILLIMETRES_IN_METRE: f64 = 1000.0;

/// Burners by their words.
const BURNERS: [(&str, Kind); 3] =
    [("induction", Kind::Induction), ("electric", Kind::Electric), ("gas", Kind::Gas)];

/// Canners by their words.
const CANNERS: [(&str, Way); 4] = [
    ("boiling water", Way::BoilingWater),
    ("steam", Way::Steam),
    ("pressure by dial", Way::Pressure(Gauge::Dial)),
    ("pressure by weight", Way::Pressure(Gauge::Weighted)),
];

/// The words for canners, the first for the one that is taken where none is said.
pub fn canners() -> impl Iterator<Item = &'static str> {
    CANNERS.into_iter().map(|(word, _)| word)
}

fn put_up(text: &Text<'_>, spanned: &Spanned<PutUpFile>) -> Read<Wish> {
    let file = spanned.get_ref();
    let put_up = word(text, &file.what, &PutUp::ALL.map(|put_up| (put_up.name(), put_up)))?;
    let jars = Jar::ALL.map(|jar| (jar.name(), jar));
    let jar = file.jar.as_ref().map(|written| word(text, written, &jars)).transpose()?;
    let fault = |fault: &str, help: &str| Box::new(text.fault(&spanned.span(), fault.to_owned(), help));
    let amount = match (file.jars, &file.fruit) {
        (Some(jars), None) if JARS.contains(&jars) => Amount::Jars(jar.unwrap_or(Jar::Quart), jars),
        (Some(_), None) => return Err(fault("so many jars cannot be asked for", "write 1 to 1000")),
        (None, Some(fruit)) => Amount::Fruit(text.mass(fruit)?),
        _ => {
            return Err(fault("either jars or fruit says how much", "write jars = 14, or fruit = \"50 lb\""));
        }
    };
    let a_day = match (&file.loads_a_day, &file.fruit_a_day) {
        (Some(loads), None) => ADay::Loads(within(text, Some(loads), &DAYS)?.unwrap_or(1)),
        (None, Some(fruit)) => ADay::Fruit(text.mass(fruit)?),
        (None, None) => ADay::All,
        _ => {
            let both = "both loads-a-day and fruit-a-day say what a day takes";
            return Err(fault(both, "leave one of them out"));
        }
    };
    if matches!(a_day, ADay::Loads(_)) && put_up.process().is_none() {
        let help = "write fruit-a-day = \"20 lb\" in its place";
        return Err(fault(&format!("{} goes into no canner, so it has no loads", put_up.name()), help));
    }
    let days = within(text, file.days.as_ref(), &DAYS)?.unwrap_or(1);
    let keeps = within(text, file.keeps_weeks.as_ref(), &KEEPS)?.unwrap_or(0);
    let sides = [("high", Solids::High), ("low", Solids::Low)];
    let solids = file.solids.as_ref().map(|written| word(text, written, &sides)).transpose()?;
    let purpose = Purpose::PutUp { put_up, amount, days, a_day, keeps, solids };
    wish(text, &file.class, (file.from.as_ref(), file.to.as_ref()), purpose)
}

fn fresh(text: &Text<'_>, spanned: &Spanned<FreshFile>) -> Read<Wish> {
    let file = spanned.get_ref();
    let purpose = Purpose::Fresh(text.mass(&file.a_week)?);
    wish(text, &file.class, (file.from.as_ref(), file.to.as_ref()), purpose)
}

fn wish(
    text: &Text<'_>,
    written: &Spanned<Classes>,
    (from, to): (Option<&Spanned<String>>, Option<&Spanned<String>>),
    purpose: Purpose,
) -> Read<Wish> {
    let classes = match written.get_ref() {
        Classes::One(class) => std::slice::from_ref(class),
        Classes::Several(classes) => classes.as_slice(),
    };
    if classes.is_empty() {
        let fault = "no fruit class is named".to_owned();
        return Err(Box::new(text.fault(&written.span(), fault, "write class = \"paste\", or several")));
    }
    Ok(Wish {
        classes: classes.iter().map(|class| class.trim().to_lowercase()).collect(),
        from: from.map(|day| text.month_and_day(day)).transpose()?,
        to: to.map(|day| text.month_and_day(day)).transpose()?,
        purpose,
        said_at: text.line(&written.span()),
    })
}
