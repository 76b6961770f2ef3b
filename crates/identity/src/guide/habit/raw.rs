//! The habit guide as its text holds it, and the checks that make it a guide.

use super::{
    FinalHeight, HabitGuide, HabitWords, HeightCurve, Leaves, LogNormal, Mistakes, Normal, PerStature,
    PerStem, Ripening, Told, Trusses, Trust,
};
use crate::guide::reading::{GuideFault, Text, parse};
use crate::guide::uses;
use crate::guide::value::{ABOVE_ZERO, RawValue, Value, make_a_whole};
use serde::Deserialize;
use std::ops::RangeInclusive;
use toml::Spanned;

/// Trusses, leaves and readings stay within these.
const TRUSSES: RangeInclusive<f64> = 1.0..=40.0;
const LEAVES: RangeInclusive<f64> = 0.0..=20.0;
/// The end of the stem is weighed from 1 to 16.5 trusses; a mean needs room on both sides.
const MEAN_TRUSSES: RangeInclusive<f64> = 1.0..=14.0;
/// Narrower than this a bell slips between the points at which it is weighed.
const SPREAD: RangeInclusive<f64> = 0.05..=10.0;
const TRUSS_SPREAD: RangeInclusive<f64> = 0.3..=10.0;
/// An exponent above 1 would take a line for more than it says.
const TRUST: RangeInclusive<f64> = 0.0..=1.0;
/// AICc of the curve that levels off has no value below six readings.
const READINGS: RangeInclusive<f64> = 6.0..=100.0;
/// A tenth and nine tenths of the fruit need a few days to be told apart.
const PICK_DAYS: RangeInclusive<f64> = 4.0..=100.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawGuide {
    title: String,
    version: String,
    stature: RawPerStature<RawValue>,
    stem: RawPerStature<RawPerStem<RawValue>>,
    mistakes: RawMistakes,
    trust: RawTrust,
    trusses: RawTrusses,
    leaves: RawLeaves,
    height_curve: RawHeightCurve,
    ripening: RawRipening,
    final_height: RawFinalHeight,
    dwarf_leaves: RawPerStature<RawValue>,
    #[serde(default)]
    told: RawTold,
}

/// Guides written before pages told habits have none of it.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case", default)]
struct RawTold {
    micro_dwarf: RawHabitWords,
    dwarf: RawHabitWords,
    determinate: RawHabitWords,
    semi_determinate: RawHabitWords,
    indeterminate: RawHabitWords,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case", default)]
struct RawHabitWords {
    what: String,
    good_for: String,
    mistaken_for: String,
    uses: Vec<Spanned<String>>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawPerStem<T> {
    determinate: T,
    semi_determinate: T,
    indeterminate: T,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawPerStature<T> {
    tall: T,
    dwarf: T,
    micro_dwarf: T,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawMistakes {
    off_type_rate: RawValue,
    stray_plot_rate: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawTrust {
    leaves: RawValue,
    height_curve: RawValue,
    ripening: RawValue,
    final_height: RawValue,
    silence: RawValue,
    repeat: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawTrusses {
    determinate: RawNormal,
    semi_determinate: RawNormal,
    plant_sd: RawValue,
    plot_sd: RawValue,
    indeterminate_ended_rate: RawValue,
    season_reach: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawLeaves {
    mean: RawPerStem<RawNormal>,
    fall: RawPerStem<RawValue>,
    plant_sd: RawValue,
    fall_sd: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawHeightCurve {
    levels_off: RawPerStem<RawValue>,
    reading_error_mm: RawValue,
    least_readings: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawRipening {
    days: RawPerStem<RawLogNormal>,
    least_pick_days: RawValue,
    still_bearing_from: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawFinalHeight {
    tall: RawPerStem<RawLogNormal>,
    dwarf: RawLogNormal,
    micro_dwarf: RawLogNormal,
    done_growing_if_unwatched: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawNormal {
    mean: RawValue,
    sd: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawLogNormal {
    median: RawValue,
    log_sd: RawValue,
}

/// Parses and checks a habit guide.
///
/// # Errors
/// [`GuideFault`] at the first value that cannot be meant.
pub(super) fn checked(text: Text<'_>) -> Result<HabitGuide, GuideFault> {
    let raw: RawGuide = parse(&text)?;
    let share = |key: &str, raw: &RawValue| raw.share(key, text);
    whole_priors(&raw, text)?;
    Ok(HabitGuide {
        stature: per_stature("stature", &raw.stature, share)?,
        stem: per_stature("stem", &raw.stem, |key, stem| per_stem(key, stem, share))?,
        mistakes: raw.mistakes.checked(text)?,
        trust: raw.trust.checked(text)?,
        trusses: raw.trusses.checked(text)?,
        leaves: raw.leaves.checked(text)?,
        height_curve: raw.height_curve.checked(text)?,
        ripening: raw.ripening.checked(text)?,
        final_height: raw.final_height.checked(text)?,
        dwarf_leaves: per_stature("dwarf-leaves", &raw.dwarf_leaves, share)?,
        told: raw.told.checked(text)?,
        title: raw.title,
        version: raw.version,
    })
}

fn whole_priors(raw: &RawGuide, text: Text<'_>) -> Result<(), GuideFault> {
    make_a_whole(&[&raw.stature.tall, &raw.stature.dwarf, &raw.stature.micro_dwarf], "stature", text)?;
    let by_stature =
        [("tall", &raw.stem.tall), ("dwarf", &raw.stem.dwarf), ("micro-dwarf", &raw.stem.micro_dwarf)];
    by_stature.into_iter().try_for_each(|(stature, stem)| {
        let shares = [&stem.determinate, &stem.semi_determinate, &stem.indeterminate];
        make_a_whole(&shares, &format!("stem.{stature}"), text)
    })
}

fn per_stem<Raw, T>(
    key: &str,
    raw: &RawPerStem<Raw>,
    check: impl Fn(&str, &Raw) -> Result<T, GuideFault>,
) -> Result<PerStem<T>, GuideFault> {
    Ok(PerStem {
        determinate: check(&format!("{key}.determinate"), &raw.determinate)?,
        semi_determinate: check(&format!("{key}.semi-determinate"), &raw.semi_determinate)?,
        indeterminate: check(&format!("{key}.indeterminate"), &raw.indeterminate)?,
    })
}

fn per_stature<Raw, T>(
    key: &str,
    raw: &RawPerStature<Raw>,
    check: impl Fn(&str, &Raw) -> Result<T, GuideFault>,
) -> Result<PerStature<T>, GuideFault> {
    Ok(PerStature {
        tall: check(&format!("{key}.tall"), &raw.tall)?,
        dwarf: check(&format!("{key}.dwarf"), &raw.dwarf)?,
        micro_dwarf: check(&format!("{key}.micro-dwarf"), &raw.micro_dwarf)?,
    })
}

impl RawNormal {
    fn within(&self, limits: RangeInclusive<f64>, key: &str, text: Text<'_>) -> Result<Normal, GuideFault> {
        let mean = self.mean.within(limits, &format!("{key}.mean"), text)?;
        Ok(Normal { mean, sd: self.sd.within(SPREAD, &format!("{key}.sd"), text)? })
    }
}

impl RawLogNormal {
    fn checked(&self, key: &str, text: Text<'_>) -> Result<LogNormal, GuideFault> {
        let median = self.median.within(ABOVE_ZERO, &format!("{key}.median"), text)?;
        Ok(LogNormal { median, log_sd: self.log_sd.within(SPREAD, &format!("{key}.log-sd"), text)? })
    }
}

impl RawMistakes {
    fn checked(&self, text: Text<'_>) -> Result<Mistakes, GuideFault> {
        Ok(Mistakes {
            off_type_rate: self.off_type_rate.share("mistakes.off-type-rate", text)?,
            stray_plot_rate: self.stray_plot_rate.share("mistakes.stray-plot-rate", text)?,
        })
    }
}

impl RawTrust {
    fn checked(&self, text: Text<'_>) -> Result<Trust, GuideFault> {
        let trust = |key: &str, raw: &RawValue| raw.within(TRUST, &format!("trust.{key}"), text);
        Ok(Trust {
            leaves: trust("leaves", &self.leaves)?,
            height_curve: trust("height-curve", &self.height_curve)?,
            ripening: trust("ripening", &self.ripening)?,
            final_height: trust("final-height", &self.final_height)?,
            silence: trust("silence", &self.silence)?,
            repeat: trust("repeat", &self.repeat)?,
        })
    }
}

impl RawTrusses {
    fn checked(&self, text: Text<'_>) -> Result<Trusses, GuideFault> {
        let determinate = self.determinate.within(MEAN_TRUSSES, "trusses.determinate", text)?;
        let semi_determinate =
            self.semi_determinate.within(MEAN_TRUSSES, "trusses.semi-determinate", text)?;
        self.determinate.sd.within(TRUSS_SPREAD, "trusses.determinate.sd", text)?;
        self.semi_determinate.sd.within(TRUSS_SPREAD, "trusses.semi-determinate.sd", text)?;
        if semi_determinate.mean.number <= determinate.mean.number {
            let fault = "semi-determinate stems end no later than determinate ones";
            let help = "write a larger mean, or a smaller one at trusses.determinate.mean";
            let place = self.semi_determinate.mean.place();
            return Err(text.fault("trusses.semi-determinate.mean", &place, fault, help));
        }
        let ended_rate = "trusses.indeterminate-ended-rate";
        Ok(Trusses {
            determinate,
            semi_determinate,
            plant_sd: self.plant_sd.within(TRUSS_SPREAD, "trusses.plant-sd", text)?,
            plot_sd: self.plot_sd.within(SPREAD, "trusses.plot-sd", text)?,
            indeterminate_ended_rate: self.indeterminate_ended_rate.share(ended_rate, text)?,
            season_reach: self.season_reach.within(TRUSSES, "trusses.season-reach", text)?,
        })
    }
}

impl RawLeaves {
    fn checked(&self, text: Text<'_>) -> Result<Leaves, GuideFault> {
        let mean = |key: &str, raw: &RawNormal| raw.within(LEAVES, key, text);
        let fall = |key: &str, raw: &RawValue| raw.within(LEAVES, key, text);
        Ok(Leaves {
            mean: per_stem("leaves.mean", &self.mean, mean)?,
            fall: per_stem("leaves.fall", &self.fall, fall)?,
            plant_sd: self.plant_sd.within(SPREAD, "leaves.plant-sd", text)?,
            fall_sd: self.fall_sd.within(SPREAD, "leaves.fall-sd", text)?,
        })
    }
}

impl RawHeightCurve {
    fn checked(&self, text: Text<'_>) -> Result<HeightCurve, GuideFault> {
        let share = |key: &str, raw: &RawValue| raw.share(key, text);
        let least = self.least_readings.within(READINGS, "height-curve.least-readings", text)?;
        let error: Value = self.reading_error_mm.above_zero("height-curve.reading-error-mm", text)?;
        let levels_off = per_stem("height-curve.levels-off", &self.levels_off, share)?;
        Ok(HeightCurve { levels_off, reading_error_mm: error, least_readings: least })
    }
}

impl RawRipening {
    fn checked(&self, text: Text<'_>) -> Result<Ripening, GuideFault> {
        let days = |key: &str, raw: &RawLogNormal| raw.checked(key, text);
        Ok(Ripening {
            days: per_stem("ripening.days", &self.days, days)?,
            least_pick_days: self.least_pick_days.within(PICK_DAYS, "ripening.least-pick-days", text)?,
            still_bearing_from: self.still_bearing_from.share("ripening.still-bearing-from", text)?,
        })
    }
}

impl RawFinalHeight {
    fn checked(&self, text: Text<'_>) -> Result<FinalHeight, GuideFault> {
        let height = |key: &str, raw: &RawLogNormal| raw.checked(key, text);
        let unwatched = "final-height.done-growing-if-unwatched";
        Ok(FinalHeight {
            tall: per_stem("final-height.tall", &self.tall, height)?,
            dwarf: self.dwarf.checked("final-height.dwarf", text)?,
            micro_dwarf: self.micro_dwarf.checked("final-height.micro-dwarf", text)?,
            done_growing_if_unwatched: self.done_growing_if_unwatched.share(unwatched, text)?,
        })
    }
}

impl RawTold {
    fn checked(&self, text: Text<'_>) -> Result<Told, GuideFault> {
        Ok(Told {
            micro_dwarf: self.micro_dwarf.checked("told.micro-dwarf.uses", text)?,
            dwarf: self.dwarf.checked("told.dwarf.uses", text)?,
            determinate: self.determinate.checked("told.determinate.uses", text)?,
            semi_determinate: self.semi_determinate.checked("told.semi-determinate.uses", text)?,
            indeterminate: self.indeterminate.checked("told.indeterminate.uses", text)?,
        })
    }
}

impl RawHabitWords {
    fn checked(&self, key: &str, text: Text<'_>) -> Result<HabitWords, GuideFault> {
        Ok(HabitWords {
            what: self.what.clone(),
            good_for: self.good_for.clone(),
            mistaken_for: self.mistaken_for.clone(),
            uses: uses::checked(&text, key, &self.uses, &self.source)?,
        })
    }
}
