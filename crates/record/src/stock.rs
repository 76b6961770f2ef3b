//! Stock: where seed of a lot can be, and one movement of it from place to place.

use crate::id::Id;
use crate::lot::Lot;
use crate::mass::Milligrams;
use jiff::civil::Date;

/// Where seed of a lot is, has come from, or has gone to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Outside: the harvest or purchase that it came from.
    Origin,
    /// In the house, loose in its jar.
    Jar,
    /// In the house, in packets of so much each.
    Packets(Fill),
    /// In the house, kept as the lot's file sample.
    FileSample,
    /// Outside: sold or given away.
    Sold,
    /// Outside: sown to grow plants.
    Sown,
    /// Outside: used up in tests.
    Tested,
    /// Outside: spilled, spoiled or thrown away.
    Lost,
}

impl Place {
    /// Whether what is there is the house's, and so can be counted and cannot be less than nothing.
    #[must_use]
    pub fn is_held(self) -> bool {
        matches!(self, Self::Jar | Self::Packets(_) | Self::FileSample)
    }
}

/// The seed in one packet; above nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fill(Milligrams);

impl Fill {
    /// Takes more than nothing.
    #[must_use]
    pub fn new(each: Milligrams) -> Option<Self> {
        (Milligrams::NONE < each).then_some(Self(each))
    }

    /// The seed in one packet.
    #[must_use]
    pub fn each(self) -> Milligrams {
        self.0
    }

    /// The seed in so many; `None` beyond all counting.
    #[must_use]
    pub fn of(self, packets: u32) -> Option<Milligrams> {
        self.0.times(packets)
    }

    /// How many whole packets a mass fills; what is left over fills none.
    #[must_use]
    pub fn whole_packets(self, mass: Milligrams) -> u32 {
        let packets = mass.get().checked_div(self.0.get()).unwrap_or(0);
        u32::try_from(packets).unwrap_or(u32::MAX)
    }

    /// How many packets a mass makes; `None` where it is not whole packets.
    #[must_use]
    pub fn packets(self, mass: Milligrams) -> Option<u64> {
        (mass.get().checked_rem(self.0.get())? == 0).then(|| mass.get() / self.0.get())
    }
}

/// Seed of one lot taken from one place and put into another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Movement {
    /// The lot.
    pub lot: Id<Lot>,
    /// The day.
    pub on: Date,
    /// Where it was taken from.
    pub from: Place,
    /// Where it was put.
    pub to: Place,
    /// How much.
    pub mass: Milligrams,
}

impl Movement {
    /// The movement that undoes this one, on the same day.
    #[must_use]
    pub fn undone(self) -> Self {
        Self { from: self.to, to: self.from, ..self }
    }
}
