//! A form's fields as the text of a request: what stands in them is written down as it is, and [`super::read`] judges it
//! as it judges any file.

use std::fmt::Write;
use toml_edit::{Array, Value};

/// The fields of a form, as they were typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fields {
    /// A garden of the house; empty where a station is named.
    pub garden: String,
    /// The station whose weather the garden has.
    pub weather: String,
    /// Month and day on which plants go out; empty for the calendar's day.
    pub plants_out: String,
    /// Sets of plants.
    pub waves: String,
    /// Length of the bed.
    pub bed_length: String,
    /// Width of the bed.
    pub bed_width: String,
    /// Between plants of a row.
    pub between_plants: String,
    /// Between rows.
    pub between_rows: String,
    /// Containers.
    pub containers: String,
    /// What each of them holds.
    pub container_volume: String,
    /// The row cover, `light` or `heavy`; empty for none.
    pub row_cover: String,
    /// How high plants are held up.
    pub stake_height: String,
    /// In how many years of ten.
    pub years_in_ten: String,
    /// Most varieties.
    pub most_varieties: String,
    /// Words that the list is asked with.
    pub only: String,
    /// Wanted varieties, separated by commas.
    pub wanted: String,
    /// Barred varieties, separated by commas.
    pub barred: String,
    /// Varieties that seed is saved of, separated by commas.
    pub for_seed: String,
    /// Altitude of the kitchen.
    pub altitude: String,
    /// The canner.
    pub canner: String,
    /// What is put up.
    pub put_up: Vec<PutUpFields>,
    /// What is eaten fresh.
    pub fresh: Vec<FreshFields>,
}

/// The fields of something that is put up.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PutUpFields {
    /// As what.
    pub what: String,
    /// The fruit class; several separated by commas.
    pub class: String,
    /// So many jars.
    pub jars: String,
    /// Their size.
    pub jar: String,
    /// So much fruit, in the place of jars.
    pub fruit: String,
    /// Kitchen days.
    pub days: String,
    /// Canner loads a day.
    pub loads_a_day: String,
}

/// The fields of something that is eaten fresh.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FreshFields {
    /// The fruit class; several separated by commas.
    pub class: String,
    /// So much a week.
    pub a_week: String,
    /// From this day.
    pub from: String,
    /// To this day.
    pub to: String,
}

impl PutUpFields {
    /// Whether nothing is wished for.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.jars.is_empty() && self.fruit.is_empty()
    }
}

impl FreshFields {
    /// Whether nothing is wished for.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.a_week.is_empty()
    }
}

/// Writes the text of a request.
#[must_use]
pub fn write(fields: &Fields) -> String {
    let mut text = String::new();
    optional(&mut text, "years-in-ten", &fields.years_in_ten, number);
    optional(&mut text, "most-varieties", &fields.most_varieties, number);
    optional(&mut text, "only", &fields.only, words);
    optional(&mut text, "wanted", &fields.wanted, several);
    optional(&mut text, "barred", &fields.barred, several);
    optional(&mut text, "for-seed", &fields.for_seed, several);
    text.push_str("\n[garden]\n");
    if fields.garden.is_empty() {
        line(&mut text, "weather", &words(&fields.weather));
    } else {
        line(&mut text, "name", &words(&fields.garden));
    }
    optional(&mut text, "plants-out", &fields.plants_out, words);
    optional(&mut text, "waves", &fields.waves, number);
    optional(&mut text, "between-plants", &fields.between_plants, words);
    optional(&mut text, "between-rows", &fields.between_rows, words);
    optional(&mut text, "containers", &fields.containers, number);
    optional(&mut text, "container-volume", &fields.container_volume, words);
    optional(&mut text, "row-cover", &fields.row_cover, words);
    optional(&mut text, "stake-height", &fields.stake_height, words);
    if !fields.bed_length.is_empty() || !fields.bed_width.is_empty() {
        let (length, width) = (words(&fields.bed_length), words(&fields.bed_width));
        line(&mut text, "bed", &format!("[{{ length = {length}, width = {width} }}]"));
    }
    if !fields.altitude.is_empty() || !fields.canner.is_empty() {
        text.push_str("\n[kitchen]\n");
        optional(&mut text, "altitude", &fields.altitude, words);
        optional(&mut text, "canner", &fields.canner, words);
    }
    for wish in fields.put_up.iter().filter(|wish| !wish.is_blank()) {
        put_up(&mut text, wish);
    }
    for wish in fields.fresh.iter().filter(|wish| !wish.is_blank()) {
        text.push_str("\n[[fresh]]\n");
        line(&mut text, "class", &several(&wish.class));
        line(&mut text, "a-week", &words(&wish.a_week));
        optional(&mut text, "from", &wish.from, words);
        optional(&mut text, "to", &wish.to, words);
    }
    text
}

fn put_up(text: &mut String, wish: &PutUpFields) {
    text.push_str("\n[[put-up]]\n");
    line(text, "what", &words(&wish.what));
    line(text, "class", &several(&wish.class));
    if wish.jars.is_empty() {
        line(text, "fruit", &words(&wish.fruit));
    } else {
        line(text, "jars", &number(&wish.jars));
        optional(text, "jar", &wish.jar, words);
    }
    optional(text, "days", &wish.days, number);
    optional(text, "loads-a-day", &wish.loads_a_day, number);
}

fn line(text: &mut String, key: &str, value: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{key} = {value}");
}

fn optional(text: &mut String, key: &str, typed: &str, written: fn(&str) -> String) {
    if !typed.trim().is_empty() {
        line(text, key, &written(typed.trim()));
    }
}

fn words(typed: &str) -> String {
    Value::from(typed).to_string()
}

/// A number as it is; what is none stays words, and reading says so.
fn number(typed: &str) -> String {
    typed.parse::<u32>().map_or_else(|_| words(typed), |number| number.to_string())
}

/// Words separated by commas.
fn several(typed: &str) -> String {
    let words = typed.split(',').map(str::trim).filter(|word| !word.is_empty());
    words.collect::<Array>().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advise::request;

    #[test]
    fn what_a_form_writes_is_read_back() {
        let fields = Fields {
            weather: "Milwaukee".to_owned(),
            bed_length: "20 ft".to_owned(),
            bed_width: "12 ft".to_owned(),
            wanted: "Amber Lantern, Quince Rose".to_owned(),
            altitude: "700 ft".to_owned(),
            put_up: vec![
                PutUpFields {
                    what: "crushed".to_owned(),
                    class: "paste, plum".to_owned(),
                    jars: "14".to_owned(),
                    ..PutUpFields::default()
                },
                PutUpFields::default(),
            ],
            ..Fields::default()
        };
        let read = request::read("form", &write(&fields)).unwrap();
        assert_eq!(read.wanted, ["Amber Lantern", "Quince Rose"]);
        assert_eq!(read.wishes.len(), 1);
        assert_eq!(read.wishes[0].classes, ["paste", "plum"]);
        // 20 ft of 304.8 mm.
        assert_eq!(read.garden.beds[0].length.get(), 6096.0);
    }
}
