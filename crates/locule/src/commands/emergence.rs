//! `locule emergence`: days from sowing to emergence, by the warmth of the soil.

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::emergence::Emergence;
use crate::columns::columns;
use house::emergence::{self, Emerging};
use house::folder::House;
use record::language::{self, Units};
use record::temperature::Celsius;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// Days to emergence.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Emerges {
    /// One row a temperature.
    soil: Vec<SoilTold>,
    #[serde(skip)]
    units: Units,
}

/// Days to emergence in soil of one temperature.
#[derive(Debug, Serialize, JsonSchema)]
struct SoilTold {
    /// Degrees Celsius.
    celsius: f64,
    /// Degrees Fahrenheit.
    fahrenheit: f64,
    /// Days from sowing; none where nothing emerges.
    days: Option<f64>,
    #[serde(skip)]
    told: Celsius,
}

pub(crate) fn run(house: Option<&House>, typed: &Emergence) -> Result<Emerges, Failure> {
    let soil = typed.soil.iter().map(|text| temperature(text)).collect::<Result<Vec<_>, _>>()?;
    let units = house.map(|house| house.settings.units).unwrap_or_default();
    let rows = emergence::emergence(&soil).into_iter().map(|Emerging { soil, days }| SoilTold {
        celsius: soil.get(),
        fahrenheit: soil.to_fahrenheit(),
        days,
        told: soil,
    });
    Ok(Emerges { soil: rows.collect(), units })
}

/// A temperature with its scale.
fn temperature(text: &str) -> Result<Celsius, Failure> {
    Celsius::written(text).ok_or_else(|| Failure::Typed {
        message: format!("{text:?} is no temperature with its scale"),
        help: "write a number and C or F, such as 15C or 68F".to_owned(),
    })
}

impl Answer for Emerges {
    const SHAPE: &'static str = "emergence/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let heading = ["Soil", "Days to emergence"].map(str::to_owned).to_vec();
        let rows = self.soil.iter().map(|row| {
            let days = row.days.map_or_else(|| "none emerge".to_owned(), |days| format!("{days:.0}"));
            vec![language::temperature(row.told, self.units), days]
        });
        columns(to, &std::iter::once(heading).chain(rows).collect::<Vec<_>>())?;
        writeln!(to, "\nTomato, seed 13 mm (half an inch) deep: {}.", emergence::SOURCE)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Emerges>()]
}
