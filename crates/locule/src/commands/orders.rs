//! `locule order`: an order filled from the lots that may be sold.

use super::lots::asked;
use super::reference::{Shape, shape};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::orders::Order as Typed;
use crate::columns::columns;
use house::folder::House;
use house::lots::orders::{self, Booking, Doing, Order, Taken};
use house::lots::{packets, telling, typed};
use record::language::counted;
use record::mass::Milligrams;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, given: &Typed, form: Form) -> Result<Ending, Failure> {
    let wanted = given.wanted.iter().map(|typed| packets::wanted(typed, 1));
    let of = given.of.as_deref().map(|mass| typed::mass(mass).and_then(typed::fill)).transpose()?;
    let order = Order {
        wanted: wanted.collect::<Result<_, _>>()?,
        of,
        doing: if given.pack { Doing::Pack } else { Doing::Sell },
        booking: if given.dry_run { Booking::OnlyTold } else { Booking::Booked },
    };
    let act = act(house, given.by.as_ref(), given.whose.clone());
    let taken = orders::fill(house, &order, asked(house, given.judged), &act)?;
    let told = Filled {
        packed: given.pack,
        booked: !given.dry_run,
        packets: taken.iter().map(|taken| u64::from(taken.packets)).sum(),
        from: taken.into_iter().map(taken_told).collect(),
    };
    answer(&told, form)
}

fn taken_told(taken: Taken) -> TakenTold {
    TakenTold {
        variety: taken.variety,
        lot: taken.lot,
        packets: taken.packets,
        of_mg: taken.fill.each().get(),
        location: taken.location,
        state: taken.state,
    }
}

/// An order that was filled.
#[derive(Debug, Serialize, JsonSchema)]
struct Filled {
    /// Whether the packets were filled out of the jar and stay in the house; else they were sold off the shelf.
    packed: bool,
    /// Whether it was booked; else it was only told.
    booked: bool,
    /// Packets in all.
    packets: u64,
    /// The lots that they come from.
    from: Vec<TakenTold>,
}

/// Packets of one lot.
#[derive(Debug, Serialize, JsonSchema)]
struct TakenTold {
    /// The variety.
    variety: String,
    /// The lot's number.
    lot: String,
    /// Packets of it.
    packets: u32,
    /// The seed in each, in milligrams.
    of_mg: u64,
    /// Where its jar stands, where somebody said.
    location: Option<String>,
    /// What may be done with it, and until when.
    state: String,
}

impl Answer for Filled {
    const SHAPE: &'static str = "order/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let packets = counted(self.packets, "packet", "packets");
        let done = match (self.booked, self.packed) {
            (false, true) => "would be filled out of the jar; nothing was booked",
            (false, false) => "would be sold; nothing was booked",
            (true, true) => "filled out of the jar",
            (true, false) => "sold",
        };
        writeln!(to, "{packets} {done}.\n")?;
        columns(to, &self.from.iter().map(TakenTold::row).collect::<Vec<_>>())
    }
}

impl TakenTold {
    fn row(&self) -> Vec<String> {
        vec![
            self.lot.clone(),
            self.variety.clone(),
            counted(self.packets.into(), "packet", "packets"),
            format!("of {}", telling::mass(Milligrams::new(self.of_mg))),
            self.location.clone().unwrap_or_default(),
            self.state.clone(),
        ]
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Filled>()]
}
