//! `locule lot new`, `weigh`, `move` and their like: what is written in the seed room's books.

use super::{Failure, act};
use crate::arguments::lots::{LotEntry, NewLot, Noting, Origin, Said, TellOrigin, TurnEntry};
use house::folder::House;
use house::lots::EntryNumber;
use house::lots::typed;
use house::lots::writing::{self, Founding, Turn};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use record::lot::{
    ITSELF, Inspection, LotKeeping, LotNote, LotOrigin, MoistureReading, Packing, SeedWeighing,
};
use record::mass::Milligrams;
use record::season::Season;
use record::stock::{Movement, Place};

/// Writes what was typed in the books, and tells the lot's number.
pub(super) fn write(house: &House, action: LotEntry) -> Result<String, Failure> {
    match action {
        LotEntry::New(new) => found(house, *new),
        LotEntry::Origin(told) => tell_origin(house, *told),
        LotEntry::Withdraw(entry) => turn(house, &entry, Turn::Withdrawn),
        LotEntry::Restore(entry) => turn(house, &entry, Turn::Restored),
        LotEntry::Note(noting) => {
            let (number, said, note) = note(noting)?;
            writing::note(house, &number, note, &act(house, said.by.as_ref(), None))?;
            Ok(number)
        }
    }
}

/// What is noted, with the number of its lot.
fn note(noting: Noting) -> Result<(String, Said, LotNote), Failure> {
    Ok(match noting {
        Noting::Weigh { number, masses, seeds, said } => {
            let masses = masses.iter().map(|mass| typed::mass(mass)).collect::<Result<_, _>>()?;
            let weighing = SeedWeighing { on: day(&said), seeds_each: seeds.max(1), masses };
            (number, said, LotNote::Weighing(weighing))
        }
        Noting::Moisture { number, percent, said } => {
            let reading = MoistureReading { on: day(&said), moisture: typed::percent(&percent)? };
            (number, said, LotNote::Moisture(reading))
        }
        Noting::Keep { number, at, location, hermetic, vapour, said } => {
            let keeping = LotKeeping {
                since: day(&said),
                location,
                temperature: at.as_deref().map(typed::warmth).transpose()?,
                packing: if hermetic { Packing::Hermetic } else { Packing::Open },
                vapour_g: vapour.as_deref().map(typed::vapour).transpose()?,
            };
            (number, said, LotNote::Keeping(keeping))
        }
        Noting::Move { number, amount, from, to, said } => {
            let (from, to) = (typed::place(&from)?, typed::place(&to)?);
            let moved = moved(&said, from, to, typed::amount(&amount, from, to)?);
            (number, said, moved)
        }
        Noting::Pack { number, packets, of, said } => {
            let fill = typed::fill(typed::mass(&of)?)?;
            let mass = typed::packets(packets, fill)?;
            let packed = moved(&said, Place::Jar, Place::Packets(fill), mass);
            (number, said, packed)
        }
        Noting::Inspect { number, plants, off_types, said } => {
            let off_types = off_types.iter().map(|kind| typed::off_type(kind)).collect::<Result<_, _>>()?;
            let inspection = Inspection { on: day(&said), plants, off_types };
            (number, said, LotNote::Inspection(inspection))
        }
    })
}

fn day(said: &Said) -> Date {
    said.on.unwrap_or_else(|| ZonedDateTime::now().date())
}

fn moved(said: &Said, from: Place, to: Place, mass: Milligrams) -> LotNote {
    LotNote::Movement(Movement { lot: ITSELF, on: day(said), from, to, mass })
}

fn origin(typed: &Origin) -> Result<LotOrigin, Failure> {
    Ok(LotOrigin {
        harvested_on: typed.harvested,
        plot: None,
        sown_from: None,
        parents: typed.parents,
        isolation: typed.isolation.as_deref().map(typed::distance).transpose()?,
        extraction: typed.extraction.clone(),
        drying: typed.drying.clone(),
        treatment: typed.treatment.clone(),
    })
}

fn found(house: &House, new: NewLot) -> Result<String, Failure> {
    let season = Season::new(new.season).ok_or_else(|| Failure::Typed {
        message: format!("{} is no season", new.season),
        help: "write the year of its harvest, such as 2031".to_owned(),
    })?;
    let came_in = match &new.weight {
        None => Vec::new(),
        Some(weight) => vec![moved(&new.said, Place::Origin, Place::Jar, typed::mass(weight)?)],
    };
    let founding = Founding {
        number: new.number.clone(),
        variety: new.variety,
        season,
        origin: origin(&new.origin)?,
        plot: new.origin.grow_out.clone().zip(new.origin.plot.clone()),
        sown_from: new.origin.sown_from.clone(),
        notes: came_in,
    };
    writing::found(house, founding, &act(house, new.said.by.as_ref(), None))?;
    Ok(new.number)
}

fn tell_origin(house: &House, told: TellOrigin) -> Result<String, Failure> {
    let said = origin(&told.origin)?;
    let plot = told.origin.grow_out.zip(told.origin.plot);
    let act = act(house, told.by.as_ref(), None);
    writing::tell_origin(house, &told.number, said, plot, told.origin.sown_from, &act)?;
    Ok(told.number)
}

fn turn(house: &House, typed: &TurnEntry, turn: Turn) -> Result<String, Failure> {
    let act = act(house, typed.by.as_ref(), typed.why.clone());
    Ok(writing::turn(house, EntryNumber(typed.entry), turn, &act)?)
}
