//! A wish for a layout as the text of a file: [`super::read`] reads it back as it was.

use super::{BEST, Own, Varieties, Wanted};
use record::length::Millimetres;
use record::season::Season;
use std::fmt::Write;
use toml_edit::Value;
use trial::ground::{Bed, Garden, Stretch};
use trial::layout::Choice;

/// The same ground with so many plots of each of these varieties; checks keep the plots they have.
#[must_use]
pub fn growing(wanted: &Wanted, name: String, season: Season, plots: &[(String, u32)]) -> Wanted {
    let own = plots.iter().map(|(name, plots)| (name.clone(), *plots));
    let checks = wanted.checks.iter().map(|name| (name.clone(), wanted.replicates));
    let own = own.chain(checks).map(|(name, plots)| Own { name, plots: Some(plots), plants: None });
    Wanted {
        seed: name.clone(),
        name,
        season,
        kind: Choice::Best,
        replicates: 1,
        block_size: None,
        varieties: Varieties::Named(plots.iter().map(|(name, _)| name.clone()).collect()),
        checks: wanted.checks.clone(),
        own: own.collect(),
        planting: wanted.planting,
        gardens: wanted.gardens.clone(),
    }
}

/// Writes the text of a layout file.
#[must_use]
pub fn write(wanted: &Wanted) -> String {
    let mut text = String::new();
    line(&mut text, "name", &words(&wanted.name));
    line(&mut text, "season", &wanted.season.to_string());
    line(&mut text, "seed", &words(&wanted.seed));
    let kind = match wanted.kind {
        Choice::Best => BEST,
        Choice::Asked(kind) => kind.name(),
    };
    line(&mut text, "kind", &words(kind));
    line(&mut text, "replicates", &wanted.replicates.to_string());
    if let Some(size) = wanted.block_size {
        line(&mut text, "block-size", &size.to_string());
    }
    match &wanted.varieties {
        Varieties::Named(names) => line(&mut text, "varieties", &list(names)),
        Varieties::OfTheList(filter) => line(&mut text, "filter", &words(filter)),
    }
    line(&mut text, "checks", &list(&wanted.checks));
    for own in &wanted.own {
        text.push_str("\n[[variety]]\n");
        line(&mut text, "name", &words(&own.name));
        for (key, number) in [("plots", own.plots), ("plants", own.plants)] {
            if let Some(number) = number {
                line(&mut text, key, &number.to_string());
            }
        }
    }
    planting(&mut text, wanted);
    wanted.gardens.iter().for_each(|garden| write_garden(&mut text, garden));
    text
}

fn planting(text: &mut String, wanted: &Wanted) {
    let planting = &wanted.planting;
    text.push_str("\n[planting]\n");
    line(text, "plants", &planting.plants_per_plot.to_string());
    line(text, "between-plants", &length(planting.between_plants));
    line(text, "between-rows", &length(planting.between_rows));
    line(text, "rows-per-plot", &planting.rows_per_plot.to_string());
    line(text, "guard-plants", &planting.guards_at_ends.to_string());
    line(text, "guard-rows", &planting.guard_rows.to_string());
}

fn write_garden(text: &mut String, garden: &Garden) {
    text.push_str("\n[[garden]]\n");
    line(text, "name", &words(&garden.name));
    garden.beds.iter().for_each(|bed| write_bed(text, bed));
}

fn write_bed(text: &mut String, bed: &Bed) {
    text.push_str("\n[[garden.bed]]\n");
    line(text, "name", &words(&bed.name));
    line(text, "length", &length(bed.length));
    line(text, "width", &length(bed.width));
    line(text, "path", &length(bed.path_after));
    let stretch = |own: &Stretch| {
        let (from, to, why) = (length(own.from), length(own.to), words(&own.why));
        format!("{{ from = {from}, to = {to}, why = {why} }}")
    };
    let unusable: Vec<String> = bed.unusable.iter().map(stretch).collect();
    line(text, "unusable", &format!("[{}]", unusable.join(", ")));
}

fn line(text: &mut String, key: &str, value: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{key} = {value}");
}

fn words(typed: &str) -> String {
    Value::from(typed).to_string()
}

fn list(names: &[String]) -> String {
    format!("[{}]", names.iter().map(|name| words(name)).collect::<Vec<_>>().join(", "))
}

fn length(length: Millimetres) -> String {
    words(&format!("{} mm", length.get()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::file::read;
    use crate::layout::file::tests::WHOLE;

    #[test]
    fn what_is_written_is_read_back() {
        let ground = WHOLE
            .replace("2031 Home", "2031 \\\"Home\\\"")
            .replace("varieties = [\"Amber Lantern\", \"Quince Rose\"]", "varieties = [\"Amber Lantern\"]");
        let wanted = read("ground.toml", &ground).unwrap();
        assert_eq!(read("written", &write(&wanted)).unwrap(), wanted);
        let plots = [("Amber Lantern".to_owned(), 2), ("Brindle".to_owned(), 1)];
        let season = Season::new(2032).unwrap();
        let growing = growing(&wanted, "2032 Home".to_owned(), season, &plots);
        let again = read("written", &write(&growing)).unwrap();
        assert_eq!(again, growing);
        // The check keeps its three plots.
        let own: Vec<(&str, Option<u32>)> =
            again.own.iter().map(|own| (own.name.as_str(), own.plots)).collect();
        assert_eq!(own, [("Amber Lantern", Some(2)), ("Brindle", Some(1)), ("Quince Rose", Some(3))]);
    }
}
