//! Three seasons in two gardens: when plants went out, how warm it was, when frost came.
//!
//! Start at [`GROW_OUTS`].

use jiff::civil::{Date, date};

/// A garden.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Garden {
    /// Behind the house; its keeper writes ounces and inches.
    Home,
    /// A neighbour's; its keeper writes grams, centimetres and decimal commas.
    FarField,
}

impl Garden {
    /// Its name in the notes.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Home => "Home Garden",
            Self::FarField => "Far Field",
        }
    }

    /// The letter on its stakes.
    #[must_use]
    pub fn letter(self) -> char {
        match self {
            Self::Home => 'H',
            Self::FarField => 'F',
        }
    }
}

/// One season in one garden.
#[derive(Clone, Copy, Debug)]
pub struct GrowOut {
    /// The year of harvest.
    pub year: i16,
    /// Where.
    pub garden: Garden,
    /// The day most plants went out.
    pub transplanted: Date,
    /// The first killing frost.
    pub frost: Date,
    /// How much faster than in a middling year at home everything went.
    pub warmth: f64,
    /// How much heavier than in a middling year fruit grew, on the log scale.
    pub heavier: f64,
    /// Share of the varieties that were planted.
    pub planted: f64,
}

impl GrowOut {
    /// The name its keepers use, such as `2026 Home Garden`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", self.year, self.garden.name())
    }

    /// The day so many days after transplanting.
    #[must_use]
    pub fn day(&self, days_out: f64) -> Date {
        self.transplanted.saturating_add(jiff::Span::new().days(days_out.round() as i64))
    }
}

/// The six grow-outs. Far Field plants later, and in 2025 its frost came early, so that many a
/// semi-determinate there never had time to end.
pub const GROW_OUTS: [GrowOut; 6] = [
    GrowOut {
        year: 2024,
        garden: Garden::Home,
        transplanted: date(2024, 5, 16),
        frost: date(2024, 10, 9),
        warmth: 1.02,
        heavier: 0.04,
        planted: 0.78,
    },
    GrowOut {
        year: 2024,
        garden: Garden::FarField,
        transplanted: date(2024, 5, 29),
        frost: date(2024, 9, 27),
        warmth: 0.95,
        heavier: -0.06,
        planted: 0.5,
    },
    GrowOut {
        year: 2025,
        garden: Garden::Home,
        transplanted: date(2025, 5, 19),
        frost: date(2025, 10, 13),
        warmth: 0.97,
        heavier: -0.1,
        planted: 0.8,
    },
    GrowOut {
        year: 2025,
        garden: Garden::FarField,
        transplanted: date(2025, 6, 4),
        frost: date(2025, 9, 1),
        warmth: 0.92,
        heavier: -0.14,
        planted: 0.55,
    },
    GrowOut {
        year: 2026,
        garden: Garden::Home,
        transplanted: date(2026, 5, 12),
        frost: date(2026, 10, 6),
        warmth: 1.05,
        heavier: 0.1,
        planted: 0.82,
    },
    GrowOut {
        year: 2026,
        garden: Garden::FarField,
        transplanted: date(2026, 5, 27),
        frost: date(2026, 9, 30),
        warmth: 1.0,
        heavier: 0.05,
        planted: 0.55,
    },
];
