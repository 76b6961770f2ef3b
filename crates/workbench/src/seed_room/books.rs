//! What the forms of the seed room send, written in the books.

use super::{asked, lot_address};
use crate::desk::{Desk, act};
use crate::fields::{Fields, Sent};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, State};
use axum::response::Redirect;
use house::fault::HouseFault;
use house::folder::House;
use house::lots::fault::SeedRoomFault;
use house::lots::typed::{self, Counts};
use house::lots::writing::{self, Founding, Turn};
use house::lots::{self, EntryNumber};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use record::germination::{GerminationTest, Made};
use record::lot::{
    ITSELF, Inspection, LotKeeping, LotNote, LotOrigin, MoistureReading, Packing, SeedWeighing,
};
use record::mass::Milligrams;
use record::season::Season;
use record::stock::{Movement, Place};

/// Founds a lot.
pub(crate) async fn found(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let number = sent.get("number").unwrap_or_default().to_owned();
    let address = lot_address(&number);
    let story = move |house: &House| {
        let founding = founding(number, &sent)?;
        writing::found(house, founding, &act(house, None))
    };
    desk.ask(story).await?;
    Ok(Redirect::to(&format!("{address}?did=founded")))
}

fn founding(number: String, sent: &Fields) -> Result<Founding, SeedRoomFault> {
    let year = sent.get("season").unwrap_or_default();
    let season = year.parse().ok().and_then(Season::new);
    let season =
        season.ok_or_else(|| not_read(year, "no season", "write the year of the harvest, such as 2031"))?;
    let came_in = sent.get("weight").map(typed::mass).transpose()?;
    let on = day(sent, "on")?;
    Ok(Founding {
        number,
        variety: sent.get("variety").unwrap_or_default().to_owned(),
        season,
        origin: LotOrigin {
            harvested_on: day_or_none(sent, "harvested")?,
            parents: sent.get("parents").map(count).transpose()?,
            isolation: sent.get("isolation").map(typed::distance).transpose()?,
            extraction: sent.get("extraction").map(str::to_owned),
            drying: sent.get("drying").map(str::to_owned),
            treatment: sent.get("treatment").map(str::to_owned),
            ..LotOrigin::default()
        },
        plot: sent
            .get("grow-out")
            .zip(sent.get("plot"))
            .map(|(out, label)| (out.to_owned(), label.to_owned())),
        sown_from: sent.get("sown-from").map(str::to_owned),
        notes: came_in.map(|mass| moved(on, Place::Origin, Place::Jar, mass)).into_iter().collect(),
    })
}

/// Writes a note of a lot down, or withdraws or restores an entry.
pub(crate) async fn write(
    State(desk): State<Desk>,
    Path(number): Path<String>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let address = lot_address(&number);
    let story = move |house: &House| -> Result<bool, HouseFault> {
        let act = act(house, None);
        let turn = match sent.get("do") {
            Some("withdraw") => Some(Turn::Withdrawn),
            Some("restore") => Some(Turn::Restored),
            _ => None,
        };
        match turn {
            Some(turn) => {
                let entry = EntryNumber(count(sent.get("entry").unwrap_or_default())?);
                writing::turn(house, entry, turn, &act)?;
            }
            None => {
                writing::note(house, &number, note(&sent)?, &act)?;
            }
        }
        // Without its founding entry there is no such lot any more.
        Ok(lots::one(house, &number, asked(house)).is_ok())
    };
    let (_, stands) = desk.ask(story).await?;
    let address = if stands { format!("{address}?did=written") } else { "/seed-room".to_owned() };
    Ok(Redirect::to(&address))
}

fn note(sent: &Fields) -> Result<LotNote, SeedRoomFault> {
    let said = |name: &str| sent.get(name).unwrap_or_default();
    Ok(match said("do") {
        "test" => LotNote::Germination(test(sent)?),
        "move" => {
            let (from, to) = (typed::place(said("from"))?, typed::place(said("to"))?);
            moved(day(sent, "on")?, from, to, typed::amount(said("amount"), from, to)?)
        }
        "pack" => {
            let fill = typed::fill(typed::mass(said("of"))?)?;
            let mass = typed::packets(count(said("packets"))?, fill)?;
            moved(day(sent, "on")?, Place::Jar, Place::Packets(fill), mass)
        }
        "weigh" => LotNote::Weighing(SeedWeighing {
            on: day(sent, "on")?,
            seeds_each: above_none(said("seeds"))?,
            masses: parts(said("masses"), ",;").map(typed::mass).collect::<Result<_, _>>()?,
        }),
        "moisture" => LotNote::Moisture(MoistureReading {
            on: day(sent, "on")?,
            moisture: typed::percent(said("percent"))?,
        }),
        "keep" => LotNote::Keeping(LotKeeping {
            since: day(sent, "on")?,
            location: sent.get("location").map(str::to_owned),
            temperature: sent.get("at").map(typed::warmth).transpose()?,
            packing: if sent.get("hermetic").is_some() { Packing::Hermetic } else { Packing::Open },
            vapour_g: sent.get("vapour").map(typed::vapour).transpose()?,
        }),
        "inspect" => LotNote::Inspection(Inspection {
            on: day(sent, "on")?,
            plants: above_none(said("plants"))?,
            off_types: parts(said("off-types"), ",;").map(typed::off_type).collect::<Result<_, _>>()?,
        }),
        other => {
            return Err(not_read(
                other,
                "nothing that can be noted of a lot",
                "use the forms of the lot's page",
            ));
        }
    })
}

fn test(sent: &Fields) -> Result<GerminationTest, SeedRoomFault> {
    let counts =
        |name: &str| parts(sent.get(name).unwrap_or_default(), ",; ").map(count).collect::<Result<_, _>>();
    let counts = Counts {
        seeds_each: above_none(sent.get("seeds").unwrap_or_default())?,
        normal: counts("normal")?,
        abnormal: counts("abnormal")?,
        hard: counts("hard")?,
        first: Vec::new(),
    };
    typed::in_order(GerminationTest {
        begun_on: day(sent, "begun")?,
        first_counted_on: None,
        counted_on: day(sent, "counted")?,
        made: if sent.get("laboratory").is_some() { Made::Laboratory } else { Made::InHouse },
        replicates: typed::replicates(&counts)?,
    })
}

fn moved(on: Date, from: Place, to: Place, mass: Milligrams) -> LotNote {
    LotNote::Movement(Movement { lot: ITSELF, on, from, to, mass })
}

/// The parts of a field that holds several.
fn parts<'f>(field: &'f str, between: &'static str) -> impl Iterator<Item = &'f str> {
    field.split(|letter| between.contains(letter)).map(str::trim).filter(|part| !part.is_empty())
}

fn not_read(value: &str, reason: &str, remedy: &str) -> SeedRoomFault {
    SeedRoomFault::NotRead { value: value.to_owned(), reason: reason.to_owned(), remedy: remedy.to_owned() }
}

fn count(text: &str) -> Result<u32, SeedRoomFault> {
    text.parse().map_err(|_| not_read(text, "no whole number", "write a whole number, such as 100"))
}

fn above_none(text: &str) -> Result<u32, SeedRoomFault> {
    let none = || not_read(text, "nothing to count", "write a whole number above 0");
    count(text).and_then(|count| Some(count).filter(|count| 0 < *count).ok_or_else(none))
}

/// A day of a form; today where it names none.
fn day(sent: &Fields, name: &str) -> Result<Date, SeedRoomFault> {
    Ok(day_or_none(sent, name)?.unwrap_or_else(|| ZonedDateTime::now().date()))
}

fn day_or_none(sent: &Fields, name: &str) -> Result<Option<Date>, SeedRoomFault> {
    let fault = |text: &str| not_read(text, "no day", "write a day as 2031-08-30");
    sent.get(name).map(|text| text.parse().map_err(|_| fault(text))).transpose()
}
