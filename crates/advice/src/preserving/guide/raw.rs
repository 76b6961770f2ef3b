//! The preserving guide as its text holds it, made into checked values.

use super::check::{self, Row};
use super::{
    AcidPlace, AcidRow, BoilingRow, Caution, Cell, Cited, Edition, Pounds, PreservingGuide, PressureRow,
    ProductRow, Source, Status,
};
use crate::jars::Jar;
use crate::preserving::acid::QuarterTeaspoons;
use crate::preserving::altitude::Feet;
use crate::preserving::{Gauge, Product};
use identity::guide::reading::{GuideFault, Text, parse};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;
use std::sync::Arc;
use toml::Spanned;

/// Minutes that a process may have: no printed one is longer than 100. Guards against slips of the pen.
const MINUTES: RangeInclusive<i64> = 1..=180;
/// Pounds that a gauge may show: no printed ones are above 15. Guards against slips of the pen.
const POUNDS: RangeInclusive<i64> = 1..=20;
/// Feet that a band may end at; the highest town stands lower.
const FEET: RangeInclusive<i64> = 1..=20_000;
/// A steam canner may be held to less than the national centre's 45 minutes, and never to more.
const STEAM: RangeInclusive<i64> = 1..=45;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawGuide {
    title: String,
    version: String,
    source: BTreeMap<String, RawSource>,
    steam_canner: RawSteam,
    acid: Spanned<Vec<RawAcid>>,
    product: Spanned<Vec<RawProduct>>,
    boiling_water: Vec<RawRow>,
    pressure: Vec<RawRow>,
    caution: Spanned<Vec<RawCaution>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSource {
    edition: Spanned<String>,
    title: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSteam {
    longest_minutes: Spanned<i64>,
    status: Spanned<String>,
    source: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawAcid {
    name: String,
    note: String,
    pint: Spanned<String>,
    quart: Spanned<String>,
    status: Spanned<String>,
    source: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawProduct {
    name: Spanned<String>,
    acid: Spanned<String>,
    headspace: Option<RawHeadspace>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawHeadspace {
    inches: Spanned<f64>,
    status: Spanned<String>,
    source: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawRow {
    product: Spanned<String>,
    jar: Spanned<String>,
    gauge: Option<Spanned<String>>,
    minutes: Option<Spanned<i64>>,
    cells: Spanned<Vec<RawCell>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawCell {
    up_to_ft: Option<Spanned<i64>>,
    minutes: Option<Spanned<i64>>,
    pounds: Option<Spanned<RawPounds>>,
    status: Spanned<String>,
    source: Spanned<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum RawPounds {
    Of(i64),
    Words(String),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCaution {
    name: String,
    words: Spanned<String>,
    status: Spanned<String>,
    source: Spanned<String>,
}

/// Reads and checks the whole guide.
///
/// # Errors
/// [`GuideFault`] at the first fault.
pub(super) fn read(text: Text<'_>) -> Result<PreservingGuide, GuideFault> {
    let raw: RawGuide = parse(&text)?;
    let reader = Reader { text, sources: sources(text, &raw.source)? };
    let boiling = raw.boiling_water.iter().map(|row| reader.boiling(row)).collect::<Result<Vec<_>, _>>()?;
    let pressure = raw.pressure.iter().map(|row| reader.pressure(row)).collect::<Result<Vec<_>, _>>()?;
    check::boiling(text, &boiling)?;
    check::pressure(text, &pressure)?;
    let steam = &raw.steam_canner;
    let longest = reader.count("steam-canner.longest-minutes", &steam.longest_minutes, STEAM)?;
    let cited = reader.cited(&steam.status, &steam.source)?;
    Ok(PreservingGuide {
        title: raw.title,
        version: raw.version,
        steam: Cell { up_to: None, value: longest, cited },
        acids: reader.acids(&raw.acid)?,
        products: reader.products(&raw.product)?,
        boiling: boiling.into_iter().map(Row::into_row).collect(),
        pressure: pressure.into_iter().map(Row::into_row).collect(),
        cautions: reader.cautions(&raw.caution)?,
    })
}

fn sources(
    text: Text<'_>,
    raw: &BTreeMap<String, RawSource>,
) -> Result<BTreeMap<String, Arc<Source>>, GuideFault> {
    raw.iter()
        .map(|(key, source)| {
            let edition = match source.edition.get_ref().as_str() {
                "2015 guide" => Edition::Guide2015,
                "national centre" => Edition::NationalCentre,
                "other" => Edition::Other,
                _ => {
                    let help = "write \"2015 guide\", \"national centre\" or \"other\"";
                    return Err(text.fault(
                        &format!("source.{key}.edition"),
                        &source.edition.span(),
                        "the edition is not known",
                        help,
                    ));
                }
            };
            if source.title.get_ref().trim().is_empty() {
                let place = source.title.span();
                return Err(text.fault("title", &place, "the source has no title", "write what it is"));
            }
            let title = source.title.get_ref().clone();
            Ok((key.clone(), Arc::new(Source { title, edition })))
        })
        .collect()
}

struct Reader<'text> {
    text: Text<'text>,
    sources: BTreeMap<String, Arc<Source>>,
}

impl Reader<'_> {
    fn cited(&self, status: &Spanned<String>, source: &Spanned<String>) -> Result<Cited, GuideFault> {
        let status = match status.get_ref().as_str() {
            "read" => Status::Read,
            "from memory, unverified" => Status::FromMemory,
            "common practice, no source" => Status::CommonPractice,
            _ => {
                let help = "write \"read\", \"from memory, unverified\" or \"common practice, no source\"";
                return Err(self.text.fault("status", &status.span(), "the status is not known", help));
            }
        };
        match self.sources.get(source.get_ref()) {
            Some(source) => Ok(Cited { status, source: Arc::clone(source) }),
            None => {
                let help = "name one of the [source.*] at the top, or add it there";
                Err(self.text.fault("source", &source.span(), "the source is not known", help))
            }
        }
    }

    fn count(&self, key: &str, raw: &Spanned<i64>, limits: RangeInclusive<i64>) -> Result<u32, GuideFault> {
        let inside = limits.contains(raw.get_ref()).then(|| u32::try_from(*raw.get_ref()).ok()).flatten();
        inside.ok_or_else(|| {
            let help = format!("write a whole number from {} to {}", limits.start(), limits.end());
            self.text.fault(key, &raw.span(), "the number is out of range", &help)
        })
    }

    fn product(&self, raw: &Spanned<String>) -> Result<Product, GuideFault> {
        Product::named(raw.get_ref()).ok_or_else(|| {
            let help = format!("write one of {}", Product::ALL.map(Product::name).join(", "));
            self.text.fault("product", &raw.span(), "the product is not known", &help)
        })
    }

    fn jar(&self, raw: &Spanned<String>) -> Result<Jar, GuideFault> {
        let found = Jar::ALL.into_iter().find(|jar| jar.name() == raw.get_ref());
        found
            .ok_or_else(|| self.text.fault("jar", &raw.span(), "the jar is not known", "write pint or quart"))
    }

    /// The cells of a row, each with the value that `value` takes from it.
    fn cells<Of>(
        &self,
        raw: &Spanned<Vec<RawCell>>,
        value: impl Fn(&RawCell) -> Result<Of, GuideFault>,
    ) -> Result<Vec<Cell<Of>>, GuideFault> {
        raw.get_ref()
            .iter()
            .map(|cell| {
                let feet = cell.up_to_ft.as_ref().map(|feet| self.count("up-to-ft", feet, FEET));
                let up_to = feet.transpose()?.and_then(|feet| Feet::new(f64::from(feet)));
                Ok(Cell { up_to, value: value(cell)?, cited: self.cited(&cell.status, &cell.source)? })
            })
            .collect()
    }

    fn boiling(&self, raw: &RawRow) -> Result<Row<BoilingRow>, GuideFault> {
        if let Some(place) = raw.gauge.as_ref().map(Spanned::span).or(raw.minutes.as_ref().map(Spanned::span))
        {
            let help = "take it out, or move the row under [[pressure]]";
            return Err(self.text.fault("boiling-water", &place, "boiling water has neither", help));
        }
        let cells = self.cells(&raw.cells, |cell| match (&cell.minutes, &cell.pounds) {
            (Some(minutes), None) => self.count("minutes", minutes, MINUTES),
            _ => Err(self.wrong_cell(cell, "write minutes, and no pounds")),
        })?;
        let row = BoilingRow { product: self.product(&raw.product)?, jar: self.jar(&raw.jar)?, cells };
        Ok(Row { row, place: raw.cells.span() })
    }

    fn pressure(&self, raw: &RawRow) -> Result<Row<PressureRow>, GuideFault> {
        let (Some(gauge), Some(minutes)) = (&raw.gauge, &raw.minutes) else {
            let help = "write gauge and minutes above the cells";
            return Err(self.text.fault("pressure", &raw.product.span(), "the row is not whole", help));
        };
        let known = Gauge::ALL.into_iter().find(|known| known.name() == gauge.get_ref());
        let known = known.ok_or_else(|| {
            self.text.fault("gauge", &gauge.span(), "the gauge is not known", "write dial or weighted")
        })?;
        let cells = self.cells(&raw.cells, |cell| match (&cell.minutes, &cell.pounds) {
            (None, Some(pounds)) => self.pounds(pounds),
            _ => Err(self.wrong_cell(cell, "write pounds, and no minutes")),
        })?;
        let row = PressureRow {
            product: self.product(&raw.product)?,
            jar: self.jar(&raw.jar)?,
            gauge: known,
            minutes: self.count("minutes", minutes, MINUTES)?,
            cells,
        };
        Ok(Row { row, place: raw.cells.span() })
    }

    fn wrong_cell(&self, cell: &RawCell, help: &str) -> GuideFault {
        self.text.fault("cells", &cell.status.span(), "the cell has the wrong number", help)
    }

    fn pounds(&self, raw: &Spanned<RawPounds>) -> Result<Pounds, GuideFault> {
        match raw.get_ref() {
            RawPounds::Of(pounds) if POUNDS.contains(pounds) => {
                Ok(u32::try_from(*pounds).map_or(Pounds::NotRecommended, Pounds::Of))
            }
            RawPounds::Words(words) if words == "not recommended" => Ok(Pounds::NotRecommended),
            RawPounds::Of(_) | RawPounds::Words(_) => {
                let help = "write pounds from 1 to 20, or \"not recommended\"";
                Err(self.text.fault("pounds", &raw.span(), "no such pressure is printed", help))
            }
        }
    }

    fn acids(&self, raw: &Spanned<Vec<RawAcid>>) -> Result<Vec<AcidRow>, GuideFault> {
        let spoons = |raw: &Spanned<String>| {
            QuarterTeaspoons::read(raw.get_ref()).ok_or_else(|| {
                let help = "write tablespoons or teaspoons, such as \"2 Tbsp\" or \"1/4 tsp\"";
                self.text.fault("acid", &raw.span(), "no amount by the spoon", help)
            })
        };
        if raw.get_ref().is_empty() {
            return Err(self.text.fault("acid", &raw.span(), "there is no acid", "put the [[acid]]s back"));
        }
        raw.get_ref()
            .iter()
            .map(|acid| {
                let (pint, quart) = (spoons(&acid.pint)?, spoons(&acid.quart)?);
                if quart < pint {
                    let help = "compare it with the printed guide";
                    let fault = "a quart takes less acid than a pint";
                    return Err(self.text.fault("acid", &acid.quart.span(), fault, help));
                }
                let cited = self.cited(&acid.status, &acid.source)?;
                Ok(AcidRow { name: acid.name.clone(), note: acid.note.clone(), pint, quart, cited })
            })
            .collect()
    }

    fn products(&self, raw: &Spanned<Vec<RawProduct>>) -> Result<Vec<ProductRow>, GuideFault> {
        let rows: Vec<ProductRow> =
            raw.get_ref().iter().map(|row| self.product_row(row)).collect::<Result<_, _>>()?;
        for product in Product::ALL {
            if rows.iter().filter(|row| row.product == product).count() != 1 {
                let fault = format!("{:?} does not stand there once", product.name());
                let help = "write one [[product]] for each";
                return Err(self.text.fault("product", &raw.span(), &fault, help));
            }
        }
        Ok(rows)
    }

    fn product_row(&self, raw: &RawProduct) -> Result<ProductRow, GuideFault> {
        let acid = match raw.acid.get_ref().as_str() {
            "per jar" => AcidPlace::PerJar,
            "in the recipe" => AcidPlace::InTheRecipe,
            _ => {
                let help = "write \"per jar\" or \"in the recipe\"";
                return Err(self.text.fault("acid", &raw.acid.span(), "no such place for acid", help));
            }
        };
        let headspace = raw.headspace.as_ref().map(|space| self.headspace(space)).transpose()?;
        Ok(ProductRow { product: self.product(&raw.name)?, acid, headspace })
    }

    fn headspace(&self, raw: &RawHeadspace) -> Result<(f64, Cited), GuideFault> {
        let inches = *raw.inches.get_ref();
        if !(0.0 < inches && inches <= 2.0) {
            let help = "write inches above 0 and up to 2";
            return Err(self.text.fault("headspace", &raw.inches.span(), "no such headspace", help));
        }
        Ok((inches, self.cited(&raw.status, &raw.source)?))
    }

    fn cautions(&self, raw: &Spanned<Vec<RawCaution>>) -> Result<Vec<Caution>, GuideFault> {
        if raw.get_ref().is_empty() {
            let help = "put the [[caution]]s back";
            return Err(self.text.fault("caution", &raw.span(), "there is no caution", help));
        }
        raw.get_ref()
            .iter()
            .map(|caution| {
                if caution.words.get_ref().trim().is_empty() {
                    let place = caution.words.span();
                    return Err(self.text.fault("words", &place, "the caution says nothing", "write it out"));
                }
                let cited = self.cited(&caution.status, &caution.source)?;
                let words = caution.words.get_ref().clone();
                Ok(Caution { name: caution.name.clone(), words, cited })
            })
            .collect()
    }
}
