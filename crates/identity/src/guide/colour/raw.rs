//! The colour guide as its text holds it, and the checks that make it a guide.

use super::{ColourGuide, Measured, Reference, SkinAndFlesh, Slip, Words};
use crate::guide::reading::{GuideFault, Text, parse};
use crate::guide::value::{RawValue, Value, make_a_whole};
use record::colour::{Lab, Pattern, Skin, TradeColour};
use serde::Deserialize;
use std::ops::RangeInclusive;
use toml::Spanned;

/// Below 0.1 a hundred words say less than one; above 100 nothing more changes.
const INDEPENDENCE: RangeInclusive<f64> = 0.1..=100.0;
/// Spreads of colour in CIEDE2000 units, of which 100 part black from white.
const SPREAD: RangeInclusive<f64> = 0.5..=50.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawGuide {
    title: String,
    version: String,
    colour: RawColours,
    pattern: RawPatterns,
    words: RawWords,
    #[serde(default)]
    slip: Vec<RawSlip>,
    skin_and_flesh: RawSkinAndFlesh,
    measured: RawMeasured,
    reference: Spanned<Vec<RawReference>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawColours {
    red: RawValue,
    pink: RawValue,
    orange: RawValue,
    yellow: RawValue,
    white: RawValue,
    green: RawValue,
    brown: RawValue,
    black: RawValue,
    bicolour: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawPatterns {
    plain: RawValue,
    striped: RawValue,
    marbled: RawValue,
    dark_shouldered: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawWords {
    mistake_rate: RawValue,
    pattern_mistake_rate: RawValue,
    yellow_skin_called_clear: RawValue,
    clear_skin_called_yellow: RawValue,
    independence: RawValue,
    stray_plot_rate: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSlip {
    of: RawColour,
    r#as: RawColour,
    rate: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSkinAndFlesh {
    exception_rate: RawValue,
    row: Spanned<Vec<RawRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawRow {
    flesh: RawColour,
    skin: RawSkin,
    outside: RawColour,
    source: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawMeasured {
    reading_sd: RawValue,
    stray_reading_rate: RawValue,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawReference {
    colour: RawColour,
    lab: Spanned<[f64; 3]>,
    sd: Spanned<f64>,
    source: Spanned<String>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawColour {
    Red,
    Pink,
    Orange,
    Yellow,
    White,
    Green,
    Brown,
    Black,
    Bicolour,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawSkin {
    Clear,
    Yellow,
}

impl From<RawColour> for TradeColour {
    fn from(raw: RawColour) -> Self {
        match raw {
            RawColour::Red => Self::Red,
            RawColour::Pink => Self::Pink,
            RawColour::Orange => Self::Orange,
            RawColour::Yellow => Self::Yellow,
            RawColour::White => Self::White,
            RawColour::Green => Self::Green,
            RawColour::Brown => Self::Brown,
            RawColour::Black => Self::Black,
            RawColour::Bicolour => Self::Bicolour,
        }
    }
}

impl From<RawSkin> for Skin {
    fn from(raw: RawSkin) -> Self {
        match raw {
            RawSkin::Clear => Self::Clear,
            RawSkin::Yellow => Self::Yellow,
        }
    }
}

/// Parses and checks a colour guide.
///
/// # Errors
/// [`GuideFault`] at the first value that cannot be meant.
pub(super) fn checked(text: Text<'_>) -> Result<ColourGuide, GuideFault> {
    let raw: RawGuide = parse(&text)?;
    let words = raw.words.checked(text)?;
    Ok(ColourGuide {
        colour: raw.colour.checked(text)?,
        pattern: raw.pattern.checked(text)?,
        slips: slips(&raw.slip, &words, text)?,
        words,
        exception_rate: raw.skin_and_flesh.exception_rate.share("skin-and-flesh.exception-rate", text)?,
        skin_and_flesh: raw.skin_and_flesh.rows(text)?,
        measured: raw.measured.checked(text)?,
        references: references(&raw.reference, text)?,
        title: raw.title,
        version: raw.version,
    })
}

impl RawColours {
    fn checked(&self, text: Text<'_>) -> Result<Vec<(TradeColour, Value)>, GuideFault> {
        let raw = [
            &self.red,
            &self.pink,
            &self.orange,
            &self.yellow,
            &self.white,
            &self.green,
            &self.brown,
            &self.black,
            &self.bicolour,
        ];
        make_a_whole(&raw, "colour", text)?;
        let share = |(colour, raw): (TradeColour, &RawValue)| {
            Ok((colour, raw.share(&format!("colour.{}", colour.name()), text)?))
        };
        TradeColour::ALL.into_iter().zip(raw).map(share).collect()
    }
}

impl RawPatterns {
    fn checked(&self, text: Text<'_>) -> Result<Vec<(Pattern, Value)>, GuideFault> {
        make_a_whole(&[&self.plain, &self.striped, &self.marbled, &self.dark_shouldered], "pattern", text)?;
        Ok(vec![
            (Pattern::Plain, self.plain.share("pattern.plain", text)?),
            (Pattern::Striped, self.striped.share("pattern.striped", text)?),
            (Pattern::Marbled, self.marbled.share("pattern.marbled", text)?),
            (Pattern::DarkShouldered, self.dark_shouldered.share("pattern.dark-shouldered", text)?),
        ])
    }
}

impl RawWords {
    fn checked(&self, text: Text<'_>) -> Result<Words, GuideFault> {
        let share = |key: &str, raw: &RawValue| raw.share(&format!("words.{key}"), text);
        Ok(Words {
            mistake_rate: share("mistake-rate", &self.mistake_rate)?,
            pattern_mistake_rate: share("pattern-mistake-rate", &self.pattern_mistake_rate)?,
            yellow_skin_called_clear: share("yellow-skin-called-clear", &self.yellow_skin_called_clear)?,
            clear_skin_called_yellow: share("clear-skin-called-yellow", &self.clear_skin_called_yellow)?,
            independence: self.independence.within(INDEPENDENCE, "words.independence", text)?,
            stray_plot_rate: share("stray-plot-rate", &self.stray_plot_rate)?,
        })
    }
}

fn slips(raw: &[RawSlip], words: &Words, text: Text<'_>) -> Result<Vec<Slip>, GuideFault> {
    let mut slips: Vec<Slip> = Vec::new();
    for slip in raw {
        let (of, written_as) = (TradeColour::from(slip.of), TradeColour::from(slip.r#as));
        let key = format!("slip of {} as {}", of.name(), written_as.name());
        let fault = |fault: &str, help: &str| text.fault(&key, &slip.rate.place(), fault, help);
        if of == written_as {
            return Err(fault("a colour written as itself is no slip", "name two different colours"));
        }
        if slips.iter().any(|known| (known.of, known.written_as) == (of, written_as)) {
            return Err(fault("this slip is named twice", "keep one of the two"));
        }
        slips.push(Slip { of, written_as, rate: slip.rate.share(&key, text)? });
        let of_this = slips.iter().filter(|known| known.of == of).map(|known| known.rate.number).sum::<f64>();
        if 1.0 <= of_this + words.mistake_rate.number {
            let help = "lower the rates until most words are right";
            return Err(fault("slips and mistakes leave no right words", help));
        }
    }
    Ok(slips)
}

impl RawSkinAndFlesh {
    fn rows(&self, text: Text<'_>) -> Result<Vec<SkinAndFlesh>, GuideFault> {
        let mut rows: Vec<SkinAndFlesh> = Vec::new();
        for raw in self.row.get_ref() {
            let row = SkinAndFlesh {
                flesh: raw.flesh.into(),
                skin: raw.skin.into(),
                outside: raw.outside.into(),
                source: sourced(&raw.source, "skin-and-flesh.row.source", text)?,
            };
            if rows.iter().any(|known| (known.flesh, known.skin) == (row.flesh, row.skin)) {
                let fault = "this flesh and skin have a row already";
                return Err(text.fault(
                    "skin-and-flesh.row",
                    &raw.source.span(),
                    fault,
                    "keep one of the two",
                ));
            }
            rows.push(row);
        }
        let has_row = |colour| rows.iter().any(|row| row.outside == colour);
        each_colour_has("skin-and-flesh.row", &self.row.span(), has_row, text)?;
        Ok(rows)
    }
}

impl RawMeasured {
    fn checked(&self, text: Text<'_>) -> Result<Measured, GuideFault> {
        Ok(Measured {
            reading_sd: self.reading_sd.within(SPREAD, "measured.reading-sd", text)?,
            stray_reading_rate: self.stray_reading_rate.share("measured.stray-reading-rate", text)?,
        })
    }
}

fn references(raw: &Spanned<Vec<RawReference>>, text: Text<'_>) -> Result<Vec<Reference>, GuideFault> {
    let references: Vec<Reference> =
        raw.get_ref().iter().map(|raw| raw.checked(text)).collect::<Result<_, _>>()?;
    let has_reference = |colour| references.iter().any(|reference| reference.colour == colour);
    each_colour_has("reference", &raw.span(), has_reference, text)?;
    Ok(references)
}

impl RawReference {
    fn checked(&self, text: Text<'_>) -> Result<Reference, GuideFault> {
        let [lightness, a, b] = *self.lab.get_ref();
        let lab = Lab::new(lightness, a, b).ok_or_else(|| {
            let help = "write L* from 0 to 100, then a* and b* from -150 to 150";
            text.fault("reference.lab", &self.lab.span(), "these numbers are no colour", help)
        })?;
        if !SPREAD.contains(self.sd.get_ref()) {
            let help = format!("write a number from {} to {}", SPREAD.start(), SPREAD.end());
            return Err(text.fault("reference.sd", &self.sd.span(), "the number is out of range", &help));
        }
        let source = sourced(&self.source, "reference.source", text)?;
        Ok(Reference { colour: self.colour.into(), lab, sd: *self.sd.get_ref(), source })
    }
}

fn sourced(raw: &Spanned<String>, key: &str, text: Text<'_>) -> Result<String, GuideFault> {
    let named = Some(raw.get_ref()).filter(|source| !source.trim().is_empty()).cloned();
    named.ok_or_else(|| {
        let help = "name the source, or write \"common practice, no source\"";
        text.fault(key, &raw.span(), "the value has no source", help)
    })
}

fn each_colour_has(
    key: &str,
    place: &std::ops::Range<usize>,
    has: impl Fn(TradeColour) -> bool,
    text: Text<'_>,
) -> Result<(), GuideFault> {
    match TradeColour::ALL.into_iter().find(|colour| !has(*colour)) {
        None => Ok(()),
        Some(colour) => {
            let fault = format!("no entry for {}", colour.name());
            Err(text.fault(key, place, &fault, "every colour needs at least one"))
        }
    }
}
