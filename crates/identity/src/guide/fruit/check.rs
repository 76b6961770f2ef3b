//! From a raw fruit guide to a checked one, or the first fault with its place and remedy.

use super::measure::{MEASURES, Measure};
use super::overlap;
use super::raw::{RawBand, RawBorder, RawByMeasure, RawClass, RawGive, RawGuide, RawMark};
use super::{Band, Border, ClassName, ClassWords, FruitClass, FruitGuide, ShapeMark, Softness, Way};
use crate::guide::quantity::{self, Dimension};
use crate::guide::reading::{GuideFault, Place, Text};
use crate::guide::source::Sourced;
use crate::guide::uses;
use toml::Spanned;

/// Softest border taken, in per cent. Beyond it neighbouring classes blur into one.
/// Common practice, no source.
const SOFTEST: f64 = 50.0;

/// Most classes, marks, borders or ways that one guide may have, so that a slip (or a joke) cannot make
/// every call slow. Common practice, no source.
const MOST: usize = 200;

pub(super) fn checked(text: &Text<'_>, raw: &RawGuide) -> Result<FruitGuide, GuideFault> {
    within_bounds(text, raw)?;
    let borders = borders(text, raw)?;
    let classes = each(&raw.class, |class| checked_class(text, &borders, class))?;
    let marks = each(&raw.mark, |mark| checked_mark(text, &borders, mark))?;
    names_differ(text, raw)?;
    classes_apart(text, raw, &borders, &classes)?;
    let mut softness = [const { None }; super::MEASURE_COUNT];
    for ((slot, give), measure) in softness.iter_mut().zip(raw.softness.in_order()).zip(MEASURES) {
        *slot = give.map(|give| checked_softness(text, measure, give)).transpose()?;
    }
    let (title, version) = (raw.title.clone(), raw.version.clone());
    Ok(FruitGuide { title, version, borders, classes, marks, softness })
}

fn each<Raw, Of>(raw: &[Raw], check: impl Fn(&Raw) -> Result<Of, GuideFault>) -> Result<Vec<Of>, GuideFault> {
    raw.iter().map(check).collect()
}

fn within_bounds(text: &Text<'_>, raw: &RawGuide) -> Result<(), GuideFault> {
    if raw.class.is_empty() {
        let help = "add a [[class]] as the shipped guide does";
        return Err(text.fault("class", &(0..0), "the guide has no class", help));
    }
    let ways: usize = raw.class.iter().map(|class| class.ways.get_ref().len()).sum();
    let most = raw.border.len().max(raw.class.len()).max(raw.mark.len()).max(ways);
    if MOST < most {
        let fault = format!("the guide has {most} borders, classes, marks or ways; {MOST} are the most");
        return Err(text.fault("the guide", &(0..0), &fault, "leave out what no variety needs"));
    }
    Ok(())
}

fn borders(text: &Text<'_>, raw: &RawGuide) -> Result<Vec<Border>, GuideFault> {
    raw.border.iter().map(|(name, border)| checked_border(text, name, border)).collect()
}

fn checked_border(text: &Text<'_>, name: &str, raw: &RawBorder) -> Result<Border, GuideFault> {
    let key = |field: &str| format!("border.{name}.{field}");
    let measure = Measure::from_key(raw.measure.get_ref()).ok_or_else(|| {
        let known: Vec<&str> = MEASURES.into_iter().map(Measure::key).collect();
        let help = format!("write one of {}", known.join(", "));
        text.fault(&key("measure"), &raw.measure.span(), "this is no measure of a fruit", &help)
    })?;
    let written = raw.at.get_ref().words();
    let at = value(text, &key("at"), &raw.at.span(), &written, measure.dimension())?;
    let (least, greatest) = measure.reach();
    if !(least..=greatest).contains(&at) {
        let fault = format!("no tomato has a {} of {written}", measure.words());
        let help = "check the number and its unit";
        return Err(text.fault(&key("at"), &raw.at.span(), &fault, help));
    }
    let sourced = sourced(text, &key("source"), &raw.source, &raw.contradicted_by)?;
    Ok(Border { name: name.to_owned(), measure, at, written, sourced })
}

fn value(
    text: &Text<'_>,
    key: &str,
    place: &Place,
    written: &str,
    dimension: Dimension,
) -> Result<f64, GuideFault> {
    quantity::read(written, dimension).map_err(|fault| {
        let help = format!("write a number and {}", dimension.units());
        text.fault(key, place, &fault.to_string(), &help)
    })
}

fn sourced(
    text: &Text<'_>,
    key: &str,
    source: &Spanned<String>,
    contradicted_by: &[String],
) -> Result<Sourced, GuideFault> {
    if source.get_ref().trim().is_empty() {
        let help = "name the source, or write \"common practice, no source\"";
        return Err(text.fault(key, &source.span(), "a value without a source", help));
    }
    Ok(Sourced { source: source.get_ref().clone(), contradicted_by: contradicted_by.to_vec() })
}

fn checked_softness(text: &Text<'_>, measure: Measure, raw: &RawGive) -> Result<Softness, GuideFault> {
    let key = format!("softness.{}.give_or_take", measure.key());
    let place = raw.give_or_take.span();
    let percent = value(text, &key, &place, raw.give_or_take.get_ref(), Dimension::Percent)?;
    if SOFTEST < percent {
        let fault = format!("a border give or take {percent} % is none");
        return Err(text.fault(&key, &place, &fault, "write 50 % or less"));
    }
    let source_key = format!("softness.{}.source", measure.key());
    let sourced = sourced(text, &source_key, &raw.source, &raw.contradicted_by)?;
    Ok(Softness { log_sd: percent / 100.0, sourced })
}

fn checked_class(text: &Text<'_>, borders: &[Border], raw: &RawClass) -> Result<FruitClass, GuideFault> {
    let name = checked_name(text, "class.name", &raw.name)?;
    let words = ClassWords {
        what: raw.what.clone(),
        good_for: raw.good_for.clone(),
        mistaken_for: raw.mistaken_for.clone(),
        flesh: raw.flesh.clone(),
    };
    let ways = ways(text, borders, name.as_str(), &raw.ways)?;
    let sourced = sourced(text, &format!("class {name}.source"), &raw.source, &raw.contradicted_by)?;
    let uses = uses::checked(text, &format!("class {name}.uses"), &raw.uses, &raw.uses_source)?;
    Ok(FruitClass { name, ways, words, uses, sourced })
}

fn checked_mark(text: &Text<'_>, borders: &[Border], raw: &RawMark) -> Result<ShapeMark, GuideFault> {
    let name = checked_name(text, "mark.name", &raw.name)?;
    let ways = ways(text, borders, name.as_str(), &raw.ways)?;
    let sourced = sourced(text, &format!("mark {name}.source"), &raw.source, &raw.contradicted_by)?;
    let uses = uses::checked(text, &format!("mark {name}.uses"), &raw.uses, &raw.uses_source)?;
    Ok(ShapeMark { name, ways, what: raw.what.clone(), uses, sourced })
}

fn checked_name(text: &Text<'_>, key: &str, name: &Spanned<String>) -> Result<ClassName, GuideFault> {
    if name.get_ref().trim().is_empty() {
        return Err(text.fault(key, &name.span(), "a name without letters", "write a name"));
    }
    Ok(ClassName::new(name.get_ref().trim()))
}

fn ways(
    text: &Text<'_>,
    borders: &[Border],
    of: &str,
    raw: &Spanned<Vec<Spanned<RawByMeasure<RawBand>>>>,
) -> Result<Vec<Way>, GuideFault> {
    let key = format!("{of}.ways");
    if raw.get_ref().is_empty() {
        let help = "give it a way such as { weight = { from = \"..\", below = \"..\" } }";
        return Err(text.fault(&key, &raw.span(), "no way leads into it", help));
    }
    each(raw.get_ref(), |way| checked_way(text, borders, &key, way))
}

fn checked_way(
    text: &Text<'_>,
    borders: &[Border],
    key: &str,
    raw: &Spanned<RawByMeasure<RawBand>>,
) -> Result<Way, GuideFault> {
    let mut bands = Vec::new();
    for (measure, band) in MEASURES.into_iter().zip(raw.get_ref().in_order()) {
        if let Some(band) = band {
            bands.push(checked_band(text, borders, key, &raw.span(), measure, band)?);
        }
    }
    if bands.is_empty() {
        let help = "name at least one measure, or leave the way out";
        return Err(text.fault(key, &raw.span(), "a way that asks for nothing", help));
    }
    Ok(Way { bands })
}

fn checked_band(
    text: &Text<'_>,
    borders: &[Border],
    key: &str,
    way: &Place,
    measure: Measure,
    raw: &RawBand,
) -> Result<Band, GuideFault> {
    let key = format!("{key}.{}", measure.key());
    let index = |name: Option<&Spanned<String>>| {
        name.map(|name| border_index(text, borders, &key, measure, name)).transpose()
    };
    let band = Band { measure, from: index(raw.from.as_ref())?, below: index(raw.below.as_ref())? };
    let at = |index: Option<usize>| index.and_then(|index| borders.get(index)).map(|border| border.at);
    match (at(band.from), at(band.below)) {
        (None, None) => Err(text.fault(&key, way, "a band without a border", "write from, below or both")),
        (Some(from), Some(below)) if below <= from => {
            let place = raw.from.as_ref().map_or(way.clone(), Spanned::span);
            let help = "swap from and below, or mend the borders' values";
            Err(text.fault(&key, &place, "the band ends before it begins", help))
        }
        _ => Ok(band),
    }
}

fn border_index(
    text: &Text<'_>,
    borders: &[Border],
    key: &str,
    measure: Measure,
    name: &Spanned<String>,
) -> Result<usize, GuideFault> {
    let found = borders.iter().position(|border| border.name == *name.get_ref());
    match found.and_then(|index| borders.get(index).map(|border| (index, border.measure))) {
        Some((index, of)) if of == measure => Ok(index),
        Some((_, of)) => {
            let fault = format!("border {:?} is one of {}", name.get_ref(), of.words());
            let help = format!("name a border whose measure is {:?}", measure.key());
            Err(text.fault(key, &name.span(), &fault, &help))
        }
        None => {
            let known: Vec<&str> = borders
                .iter()
                .filter(|border| border.measure == measure)
                .map(|border| &*border.name)
                .collect();
            let help = format!("write one of {}, or add [border.{}]", known.join(", "), name.get_ref());
            Err(text.fault(key, &name.span(), "no border has this name", &help))
        }
    }
}

fn names_differ(text: &Text<'_>, raw: &RawGuide) -> Result<(), GuideFault> {
    let names = || raw.class.iter().map(|class| &class.name).chain(raw.mark.iter().map(|mark| &mark.name));
    for (index, name) in names().enumerate() {
        if names().take(index).any(|earlier| earlier.get_ref().trim() == name.get_ref().trim()) {
            let help = "give it another name, or put both rules under one name as two ways";
            return Err(text.fault("name", &name.span(), "this name is taken", help));
        }
    }
    Ok(())
}

fn classes_apart(
    text: &Text<'_>,
    raw: &RawGuide,
    borders: &[Border],
    classes: &[FruitClass],
) -> Result<(), GuideFault> {
    for (index, (class, raw_class)) in classes.iter().zip(&raw.class).enumerate() {
        for (way, raw_way) in class.ways.iter().zip(raw_class.ways.get_ref()) {
            let mut others = classes.iter().take(index);
            let taken =
                others.find(|other| other.ways.iter().any(|theirs| overlap::meet(borders, way, theirs)));
            if let Some(other) = taken {
                let fault = format!("some fruit would be both {} and {}", other.name, class.name);
                let help = "let both bands end at the same border";
                let key = format!("{}.ways", class.name);
                return Err(text.fault(&key, &raw_way.span(), &fault, help));
            }
        }
    }
    Ok(())
}
