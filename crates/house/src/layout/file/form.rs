//! A form's fields as the text of a layout file: what stands in them is written down as it is, and [`super::read`]
//! judges it as it judges any file.

use super::{Varieties, Wanted};
use record::length::Millimetres;
use std::fmt::Write;
use toml_edit::Value;
use trial::ground::{Bed, Garden};

/// The fields of a form, as they were typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fields {
    /// The grow-out's name.
    pub name: String,
    /// Its season.
    pub season: String,
    /// The kind of layout.
    pub kind: String,
    /// Plots of each variety.
    pub replicates: String,
    /// Plots in a block; empty for a size that suits.
    pub block_size: String,
    /// Varieties, one a line.
    pub varieties: String,
    /// Words that the list is asked with instead.
    pub filter: String,
    /// Checks, one a line.
    pub checks: String,
    /// Plants in a plot.
    pub plants: String,
    /// Distance between plants.
    pub between_plants: String,
    /// Distance between rows.
    pub between_rows: String,
    /// Rows of plants that a plot takes.
    pub rows_per_plot: String,
    /// Guard plants at either end of a bed.
    pub guard_plants: String,
    /// Guard rows.
    pub guard_rows: String,
    /// Varieties with plots of their own, one a line: `Quince Rose = 2`.
    pub own: String,
    /// The beds.
    pub beds: Vec<BedFields>,
}

/// The fields of one bed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BedFields {
    /// Its garden; empty for that of the bed above.
    pub garden: String,
    /// Its name.
    pub name: String,
    /// Its length.
    pub length: String,
    /// Its width.
    pub width: String,
    /// The path after it.
    pub path: String,
    /// Where a stretch begins that is no use.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// Why.
    pub why: String,
}

impl BedFields {
    /// Whether nothing was typed.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.name.is_empty() && self.length.is_empty() && self.width.is_empty()
    }
}

/// Writes the text of a layout file.
#[must_use]
pub fn write(fields: &Fields) -> String {
    let mut text = String::new();
    line(&mut text, "name", &words(&fields.name));
    line(&mut text, "season", &number(&fields.season));
    optional(&mut text, "kind", &fields.kind, words);
    line(&mut text, "replicates", &number(&fields.replicates));
    optional(&mut text, "block-size", &fields.block_size, number);
    if fields.filter.is_empty() {
        line(&mut text, "varieties", &names(&fields.varieties));
    } else {
        line(&mut text, "filter", &words(&fields.filter));
    }
    line(&mut text, "checks", &names(&fields.checks));
    own(&mut text, &fields.own);
    text.push_str("\n[planting]\n");
    line(&mut text, "plants", &number(&fields.plants));
    line(&mut text, "between-plants", &words(&fields.between_plants));
    line(&mut text, "between-rows", &words(&fields.between_rows));
    optional(&mut text, "rows-per-plot", &fields.rows_per_plot, number);
    optional(&mut text, "guard-plants", &fields.guard_plants, number);
    optional(&mut text, "guard-rows", &fields.guard_rows, number);
    beds(&mut text, &fields.beds);
    text
}

/// Varieties with plots of their own. What stands behind the last equals sign is their number.
fn own(text: &mut String, typed: &str) {
    for typed in typed.lines().map(str::trim).filter(|line| !line.is_empty()) {
        let (name, plots) = typed.rsplit_once('=').unwrap_or((typed, "1"));
        text.push_str("\n[[variety]]\n");
        line(text, "name", &words(name.trim()));
        line(text, "plots", &number(plots.trim()));
    }
}

/// The fields of a wish, as a form would have them.
#[must_use]
pub fn of(wanted: &Wanted) -> Fields {
    let planting = &wanted.planting;
    let plots = wanted.own.iter().filter_map(|own| Some(format!("{} = {}", own.name, own.plots?)));
    let (varieties, filter) = match &wanted.varieties {
        Varieties::Named(names) => (names.join("\n"), String::new()),
        Varieties::OfTheList(filter) => (String::new(), filter.clone()),
    };
    let beds = wanted.gardens.iter().flat_map(|garden| garden.beds.iter().map(|bed| bed_of(garden, bed)));
    Fields {
        name: wanted.name.clone(),
        season: wanted.season.to_string(),
        kind: super::BEST.to_owned(),
        replicates: wanted.replicates.to_string(),
        block_size: wanted.block_size.map(|size| size.to_string()).unwrap_or_default(),
        varieties,
        filter,
        checks: wanted.checks.join("\n"),
        plants: planting.plants_per_plot.to_string(),
        between_plants: length(planting.between_plants),
        between_rows: length(planting.between_rows),
        rows_per_plot: planting.rows_per_plot.to_string(),
        guard_plants: planting.guards_at_ends.to_string(),
        guard_rows: planting.guard_rows.to_string(),
        own: plots.collect::<Vec<_>>().join("\n"),
        beds: beds.collect(),
    }
}

/// A bed, with the first of its stretches that are no use: a form has room for one.
fn bed_of(garden: &Garden, bed: &Bed) -> BedFields {
    let stretch = bed.unusable.first();
    BedFields {
        garden: garden.name.clone(),
        name: bed.name.clone(),
        length: length(bed.length),
        width: length(bed.width),
        path: length(bed.path_after),
        from: stretch.map(|own| length(own.from)).unwrap_or_default(),
        to: stretch.map(|own| length(own.to)).unwrap_or_default(),
        why: stretch.map(|own| own.why.clone()).unwrap_or_default(),
    }
}

fn length(length: Millimetres) -> String {
    format!("{} mm", length.get())
}

/// The fields by the names that a form sends them under.
#[must_use]
pub fn sent(fields: &Fields) -> Vec<(String, String)> {
    let mut sent: Vec<(String, String)> = [
        ("name", &fields.name),
        ("season", &fields.season),
        ("kind", &fields.kind),
        ("replicates", &fields.replicates),
        ("block-size", &fields.block_size),
        ("varieties", &fields.varieties),
        ("filter", &fields.filter),
        ("checks", &fields.checks),
        ("plants", &fields.plants),
        ("between-plants", &fields.between_plants),
        ("between-rows", &fields.between_rows),
        ("rows-per-plot", &fields.rows_per_plot),
        ("guard-plants", &fields.guard_plants),
        ("guard-rows", &fields.guard_rows),
        ("own", &fields.own),
    ]
    .map(|(name, value)| (name.to_owned(), value.clone()))
    .to_vec();
    for (number, bed) in (1..).zip(&fields.beds) {
        let own = [
            ("garden", &bed.garden),
            ("name", &bed.name),
            ("length", &bed.length),
            ("width", &bed.width),
            ("path", &bed.path),
            ("from", &bed.from),
            ("to", &bed.to),
            ("why", &bed.why),
        ];
        sent.extend(own.map(|(of, value)| (format!("bed-{number}-{of}"), value.clone())));
    }
    sent
}

fn beds(text: &mut String, beds: &[BedFields]) {
    let mut garden: Option<&str> = None;
    for bed in beds.iter().filter(|bed| !bed.is_blank()) {
        let named = Some(bed.garden.as_str()).filter(|own| !own.is_empty()).or(garden).unwrap_or("Garden");
        if garden != Some(named) {
            text.push_str("\n[[garden]]\n");
            line(text, "name", &words(named));
            garden = Some(named);
        }
        text.push_str("\n[[garden.bed]]\n");
        line(text, "name", &words(&bed.name));
        line(text, "length", &words(&bed.length));
        line(text, "width", &words(&bed.width));
        optional(text, "path", &bed.path, words);
        if !bed.from.is_empty() || !bed.to.is_empty() {
            let (from, to, why) = (words(&bed.from), words(&bed.to), words(&bed.why));
            line(text, "unusable", &format!("[{{ from = {from}, to = {to}, why = {why} }}]"));
        }
    }
}

fn line(text: &mut String, key: &str, value: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{key} = {value}");
}

fn optional(text: &mut String, key: &str, typed: &str, written: fn(&str) -> String) {
    if !typed.is_empty() {
        line(text, key, &written(typed));
    }
}

fn words(typed: &str) -> String {
    Value::from(typed).to_string()
}

/// A number as it is; what is none stays words, and reading says so.
fn number(typed: &str) -> String {
    typed.parse::<u32>().map_or_else(|_| words(typed), |number| number.to_string())
}

/// Names, one a line.
fn names(typed: &str) -> String {
    let names: Vec<String> =
        typed.lines().map(str::trim).filter(|name| !name.is_empty()).map(words).collect();
    format!("[{}]", names.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::file::read;

    fn fields() -> Fields {
        let bed = |garden: &str, name: &str| BedFields {
            garden: garden.to_owned(),
            name: name.to_owned(),
            length: "40 ft".to_owned(),
            width: "4 ft".to_owned(),
            ..BedFields::default()
        };
        Fields {
            name: "The \"old\" 2031 # trial".to_owned(),
            season: "2031".to_owned(),
            replicates: "2".to_owned(),
            varieties: "Amber Lantern\n\n  Quince Rose \n".to_owned(),
            plants: "4".to_owned(),
            between_plants: "18 in".to_owned(),
            between_rows: "24 in".to_owned(),
            beds: vec![bed("Home", "A"), bed("", "B"), BedFields::default(), bed("Hill", "A")],
            ..Fields::default()
        }
    }

    #[test]
    fn what_was_typed_is_read_back() {
        let wanted = read("the form", &write(&fields())).unwrap();
        assert_eq!(wanted.name, "The \"old\" 2031 # trial");
        assert_eq!(
            wanted.varieties,
            Varieties::Named(vec!["Amber Lantern".to_owned(), "Quince Rose".to_owned()])
        );
        let beds: Vec<(&str, usize)> =
            wanted.gardens.iter().map(|garden| (garden.name.as_str(), garden.beds.len())).collect();
        assert_eq!(beds, [("Home", 2), ("Hill", 1)]);
    }

    /// A wish that was written as fields is the same wish, but for how its draws are seeded.
    #[test]
    fn a_wish_is_read_back_from_its_fields() {
        let wanted = read("the form", &write(&Fields { own: "Brindle = 2".to_owned(), ..fields() })).unwrap();
        assert_eq!(wanted.own[0].plots, Some(2));
        let again = read("the form", &write(&of(&wanted))).unwrap();
        assert_eq!(again, wanted);
        let names: Vec<String> = sent(&of(&wanted)).into_iter().map(|(name, _)| name).collect();
        assert!(names.contains(&"bed-3-length".to_owned()), "{names:?}");
    }

    #[test]
    fn what_is_no_number_is_told_by_its_field() {
        let odd = Fields { plants: "four".to_owned(), ..fields() };
        let fault = read("the form", &write(&odd)).unwrap_err().to_string();
        assert!(fault.contains("plants: invalid type"), "{fault}");
    }
}
