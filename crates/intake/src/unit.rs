//! Units as growers write them, and measures with their units.

/// A unit of mass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MassUnit {
    /// Grams.
    Gram,
    /// Kilograms.
    Kilogram,
    /// Avoirdupois ounces.
    Ounce,
    /// Avoirdupois pounds.
    Pound,
}

/// A unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Feet.
    Foot,
}

/// A unit that a column or a cell names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Of mass.
    Mass(MassUnit),
    /// Of length.
    Length(LengthUnit),
}

impl Unit {
    /// Every unit that is understood.
    pub const ALL: [Self; 9] = [
        Self::Mass(MassUnit::Gram),
        Self::Mass(MassUnit::Kilogram),
        Self::Mass(MassUnit::Ounce),
        Self::Mass(MassUnit::Pound),
        Self::Length(LengthUnit::Millimetre),
        Self::Length(LengthUnit::Centimetre),
        Self::Length(LengthUnit::Metre),
        Self::Length(LengthUnit::Inch),
        Self::Length(LengthUnit::Foot),
    ];

    /// Its symbol: `g`, `kg`, `oz`, `lb`, `mm`, `cm`, `m`, `in`, `ft`.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Mass(MassUnit::Gram) => "g",
            Self::Mass(MassUnit::Kilogram) => "kg",
            Self::Mass(MassUnit::Ounce) => "oz",
            Self::Mass(MassUnit::Pound) => "lb",
            Self::Length(LengthUnit::Millimetre) => "mm",
            Self::Length(LengthUnit::Centimetre) => "cm",
            Self::Length(LengthUnit::Metre) => "m",
            Self::Length(LengthUnit::Inch) => "in",
            Self::Length(LengthUnit::Foot) => "ft",
        }
    }

    /// The unit of this symbol.
    #[must_use]
    pub fn of_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }
}
