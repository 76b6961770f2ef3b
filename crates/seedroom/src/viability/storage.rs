//! What warmth and moisture do to keeping: `log10 sigma = KE - CW log10 moisture - CH t - CQ t^2`.
//!
//! For tomato no published `KE` and `CW` were to be had, so [`Constants`] are taken from a relative only where somebody asks;
//! what the house uses is [`Temperature::carried`], as `CH` and `CQ` are much the same for all crops. Start there.

use record::days::Days;
use record::share::Percent;
use record::temperature::Celsius;

/// The two constants of temperature, the same for all crops as far as is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Temperature {
    /// `CH`, a degree Celsius.
    pub ch: f64,
    /// `CQ`, a squared degree Celsius.
    pub cq: f64,
}

/// The universal constants. Source: Ellis and Roberts 1980, Annals of Botany 45:13-30, as restated in teaching pages.
pub const UNIVERSAL: Temperature = Temperature { ch: 0.0329, cq: 0.000_478 };

/// A later common estimate over twelve crops. Source: Ellis and Hong 2007, Seed Science and Technology 35:432-444, abstract.
pub const TWELVE_CROPS: Temperature = Temperature { ch: 0.0322, cq: 0.000_454 };

/// Temperatures that the equation is meant for, in degrees Celsius. Source: as [`UNIVERSAL`]: about -20 to 90.
pub const MEANT_FOR_C: (f64, f64) = (-20.0, 90.0);

/// Moisture that it is meant for, in per cent of fresh weight. Source: as [`UNIVERSAL`]: about 5 to 25.
pub const MEANT_FOR_PERCENT: (f64, f64) = (5.0, 25.0);

impl Temperature {
    /// How many times as long seed of one moisture keeps at `at` as at `than`.
    ///
    /// `None` where a temperature lies outside what the equation is meant for.
    #[must_use]
    pub fn keeps_longer(self, at: Celsius, than: Celsius) -> Option<f64> {
        let meant = |t: Celsius| (MEANT_FOR_C.0..=MEANT_FOR_C.1).contains(&t.get());
        (meant(at) && meant(than)).then(|| 10_f64.powf(self.fall(than) - self.fall(at)))
    }

    /// Days at one temperature that age seed as much as spells at others did; `None` as [`Temperature::keeps_longer`].
    ///
    /// # Shape
    /// `spells`: how long and how warm, in any order.
    ///
    /// # Examples
    /// 100 days at 5 C age seed as 21 days at 20 C do.
    #[must_use]
    pub fn carried(self, spells: &[(Days, Celsius)], to: Celsius) -> Option<Days> {
        let aged = |(days, at): &(Days, Celsius)| Some(days.get() * self.keeps_longer(to, *at)?);
        spells.iter().map(aged).sum::<Option<f64>>().and_then(Days::new)
    }

    fn fall(self, t: Celsius) -> f64 {
        self.ch * t.get() + self.cq * t.get() * t.get()
    }
}

/// All constants of one crop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constants {
    /// `KE`.
    pub ke: f64,
    /// `CW`, for the logarithm of moisture.
    pub cw: f64,
    /// `CH` and `CQ`.
    pub temperature: Temperature,
}

/// Potato, the nearest relative with constants that were read; its standard errors are 0.397 (`KE`) and 0.347 (`CW`).
/// Source: Ellis and Hong 2007, abstract.
pub const POTATO: Constants = Constants { ke: 8.037, cw: 5.152, temperature: TWELVE_CROPS };

impl Constants {
    /// Sigma in days at a moisture (per cent of fresh weight) and temperature; `None` outside what the equation is meant for.
    #[must_use]
    pub fn sigma_days(self, moisture: Percent, t: Celsius) -> Option<f64> {
        let meant = (MEANT_FOR_C.0..=MEANT_FOR_C.1).contains(&t.get())
            && (MEANT_FOR_PERCENT.0..=MEANT_FOR_PERCENT.1).contains(&moisture.get());
        meant.then(|| 10_f64.powf(self.ke - self.cw * moisture.get().log10() - self.temperature.fall(t)))
    }
}

/// Degrees Fahrenheit and per cent of relative humidity that together are too much for seed in the open.
/// Source: Harrington 1972, as told in University of Washington course notes EHUF473 (second-hand).
const WARM_AND_DAMP: f64 = 100.0;

/// The sum of degrees Fahrenheit and per cent of relative humidity, where it is over 100 and so too much.
#[must_use]
pub fn too_warm_and_damp(t: Celsius, humidity: Percent) -> Option<f64> {
    let sum = t.to_fahrenheit() + humidity.get();
    (WARM_AND_DAMP < sum).then_some(sum)
}
