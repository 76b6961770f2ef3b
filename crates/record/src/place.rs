//! Places on the earth: where a garden or a weather station lies.

/// Degrees north of the equator; south of it they are negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Latitude(f64);

impl Latitude {
    /// Takes -90 to 90.
    #[must_use]
    pub fn new(degrees: f64) -> Option<Self> {
        (-90.0..=90.0).contains(&degrees).then_some(Self(degrees))
    }

    /// The number of degrees.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// Degrees east of Greenwich; west of it they are negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Longitude(f64);

impl Longitude {
    /// Takes -180 to 180.
    #[must_use]
    pub fn new(degrees: f64) -> Option<Self> {
        (-180.0..=180.0).contains(&degrees).then_some(Self(degrees))
    }

    /// The number of degrees.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// Metres above the sea.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Elevation(f64);

/// No dry land lies lower or higher than this, in metres; common practice, no source.
const LAND: std::ops::RangeInclusive<f64> = -500.0..=9000.0;

impl Elevation {
    /// Takes what dry land has, -500 m to 9000 m.
    #[must_use]
    pub fn new(metres: f64) -> Option<Self> {
        LAND.contains(&metres).then_some(Self(metres))
    }

    /// The number of metres.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// Where something lies, as far as it is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// How far north.
    pub latitude: Option<Latitude>,
    /// How far east.
    pub longitude: Option<Longitude>,
    /// How far above the sea.
    pub elevation: Option<Elevation>,
}

impl Place {
    /// This place, with what it does not know taken from another.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self {
            latitude: self.latitude.or(other.latitude),
            longitude: self.longitude.or(other.longitude),
            elevation: self.elevation.or(other.elevation),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_on_no_globe_is_no_place() {
        for degrees in [f64::NAN, f64::INFINITY, -90.5, 90.5] {
            assert_eq!(Latitude::new(degrees), None);
        }
        assert_eq!((Longitude::new(180.5), Longitude::new(-180.0).is_some()), (None, true));
        assert_eq!((Elevation::new(-999.9), Elevation::new(f64::NAN)), (None, None));
    }
}
