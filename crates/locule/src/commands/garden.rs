//! `locule garden`: where gardens lie, whose weather is theirs, what frost is risked.

use super::reference::{Shape, shape};
use super::stations::place;
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::weather::Garden as Typed;
use house::folder::House;
use house::gardens::{self, Garden};
use record::place::{Elevation, Latitude, Longitude};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, typed: Typed, form: Form) -> Result<Ending, Failure> {
    let place = place(typed.at)?;
    let says =
        typed.weather.is_some() || typed.frost_risk.is_some() || place != record::place::Place::default();
    let gardens = match typed.name {
        None if says => {
            return Err(Failure::Typed {
                message: "which garden lies there is not said".to_owned(),
                help: "name it: locule garden NAME --latitude DEGREES --longitude DEGREES".to_owned(),
            });
        }
        None => gardens::gardens(house)?,
        Some(name) if says => {
            let said = Garden { name, place, weather: typed.weather, frost_risk_in_100: typed.frost_risk };
            vec![gardens::tell(house, said, &act(house, typed.by.as_ref(), None))?]
        }
        Some(name) => vec![gardens::one(house, &name)?],
    };
    answer(&Gardens { gardens: gardens.iter().map(told).collect() }, form)
}

/// Gardens.
#[derive(Debug, Serialize, JsonSchema)]
struct Gardens {
    /// By name.
    gardens: Vec<GardenTold>,
}

/// One garden.
#[derive(Debug, Serialize, JsonSchema)]
struct GardenTold {
    /// Its name.
    name: String,
    /// Degrees north.
    latitude: Option<f64>,
    /// Degrees east.
    longitude: Option<f64>,
    /// Metres above the sea.
    elevation_m: Option<f64>,
    /// The station whose weather is taken for its own.
    weather: Option<String>,
    /// In how many years of 100 a frost after planting is risked.
    frost_risk_in_100: Option<u32>,
}

fn told(garden: &Garden) -> GardenTold {
    let place = &garden.place;
    GardenTold {
        name: garden.name.clone(),
        latitude: place.latitude.map(Latitude::get),
        longitude: place.longitude.map(Longitude::get),
        elevation_m: place.elevation.map(Elevation::get),
        weather: garden.weather.clone(),
        frost_risk_in_100: garden.frost_risk_in_100,
    }
}

impl Answer for Gardens {
    const SHAPE: &'static str = "garden/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.gardens.is_empty() {
            return writeln!(
                to,
                "No garden is known yet; bring a grow-out in, or tell of one: locule garden NAME"
            );
        }
        self.gardens.iter().try_for_each(|garden| garden.tell(to))
    }
}

impl GardenTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let known = [
            self.latitude
                .zip(self.longitude)
                .map(|(north, east)| format!("latitude {north}, longitude {east}")),
            self.elevation_m.map(|metres| format!("{metres:.0} m up")),
            self.weather.as_ref().map(|station| format!("weather of {station}")),
            self.frost_risk_in_100.map(|years| format!("frost risked in {years} years of 100")),
        ];
        let known: Vec<String> = known.into_iter().flatten().collect();
        let known = if known.is_empty() { "nothing told of it yet".to_owned() } else { known.join(", ") };
        writeln!(to, "{}: {known}", self.name)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Gardens>()]
}
