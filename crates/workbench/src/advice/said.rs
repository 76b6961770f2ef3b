//! What the questions of advice were answered: what they begin with, what was sent, and the same written again.

use super::Asked;
use crate::fields::Fields;
use house::advise::request::form::{FreshFields, PutUpFields};
use house::advise::request::{Jar, PutUp};
use house::folder::House;

/// Wishes of each kind that the page has room for. A choice of ours: a file has room for more.
pub(super) const WISHES: usize = 3;

/// What the questions begin with.
pub(super) fn usual(house: &House) -> Asked {
    let units = house.settings.units;
    let (length, width, plants, rows, a_week) =
        units.either(("40 ft", "12 ft", "2 ft", "4 ft", "2 lb"), ("12 m", "4 m", "60 cm", "120 cm", "1 kg"));
    Asked {
        bed_length: length.to_owned(),
        bed_width: width.to_owned(),
        between_plants: plants.to_owned(),
        between_rows: rows.to_owned(),
        waves: "1".to_owned(),
        years_in_ten: "8".to_owned(),
        put_up: vec![PutUpFields {
            what: PutUp::Crushed.name().to_owned(),
            class: "paste, plum".to_owned(),
            jar: Jar::Quart.name().to_owned(),
            jars: "7".to_owned(),
            days: "2".to_owned(),
            ..PutUpFields::default()
        }],
        fresh: vec![FreshFields {
            class: "slicer".to_owned(),
            a_week: a_week.to_owned(),
            ..FreshFields::default()
        }],
        ..Asked::default()
    }
}

/// Reads what was sent.
pub(super) fn read(sent: &Fields) -> Asked {
    let text = |name: &str| sent.get(name).unwrap_or_default().to_owned();
    let put_up = |number: usize| {
        let own = |of: &str| text(&format!("put-up-{number}-{of}"));
        PutUpFields {
            what: own("what"),
            class: own("class"),
            jars: own("jars"),
            jar: own("jar"),
            fruit: own("fruit"),
            days: own("days"),
            loads_a_day: own("loads-a-day"),
        }
    };
    let fresh = |number: usize| {
        let own = |of: &str| text(&format!("fresh-{number}-{of}"));
        FreshFields { class: own("class"), a_week: own("a-week"), from: own("from"), to: own("to") }
    };
    Asked {
        garden: String::new(),
        weather: text("weather"),
        plants_out: text("plants-out"),
        waves: text("waves"),
        bed_length: text("bed-length"),
        bed_width: text("bed-width"),
        between_plants: text("between-plants"),
        between_rows: text("between-rows"),
        containers: text("containers"),
        container_volume: text("container-volume"),
        row_cover: text("row-cover"),
        stake_height: text("stake-height"),
        years_in_ten: text("years-in-ten"),
        most_varieties: text("most-varieties"),
        only: text("only"),
        wanted: all(sent, "wanted"),
        barred: all(sent, "barred"),
        for_seed: text("for-seed"),
        altitude: text("altitude"),
        canner: text("canner"),
        put_up: (1..=WISHES).map(put_up).collect(),
        fresh: (1..=WISHES).map(fresh).collect(),
    }
}

/// The fields of the questions as a form sends them: what [`read`] reads, by name.
pub(super) fn written(asked: &Asked) -> Vec<(String, &str)> {
    let garden = [
        ("weather", &asked.weather),
        ("plants-out", &asked.plants_out),
        ("waves", &asked.waves),
        ("bed-length", &asked.bed_length),
        ("bed-width", &asked.bed_width),
        ("between-plants", &asked.between_plants),
        ("between-rows", &asked.between_rows),
        ("containers", &asked.containers),
        ("container-volume", &asked.container_volume),
        ("row-cover", &asked.row_cover),
        ("stake-height", &asked.stake_height),
        ("years-in-ten", &asked.years_in_ten),
        ("most-varieties", &asked.most_varieties),
        ("only", &asked.only),
        ("wanted", &asked.wanted),
        ("barred", &asked.barred),
        ("for-seed", &asked.for_seed),
        ("altitude", &asked.altitude),
        ("canner", &asked.canner),
    ];
    let put_up = (1..).zip(&asked.put_up).flat_map(|(number, wish)| {
        let own = [
            ("what", &wish.what),
            ("class", &wish.class),
            ("jars", &wish.jars),
            ("jar", &wish.jar),
            ("fruit", &wish.fruit),
            ("days", &wish.days),
            ("loads-a-day", &wish.loads_a_day),
        ];
        own.map(move |(of, value)| (format!("put-up-{number}-{of}"), value.as_str()))
    });
    let fresh = (1..).zip(&asked.fresh).flat_map(|(number, wish)| {
        let own = [("class", &wish.class), ("a-week", &wish.a_week), ("from", &wish.from), ("to", &wish.to)];
        own.map(move |(of, value)| (format!("fresh-{number}-{of}"), value.as_str()))
    });
    garden
        .map(|(name, value)| (name.to_owned(), value.as_str()))
        .into_iter()
        .chain(put_up)
        .chain(fresh)
        .collect()
}

/// Every value of a field that was sent more than once, as when a link adds to what was written.
fn all(sent: &Fields, name: &str) -> String {
    let said = sent.every(name).map(str::trim).filter(|words| !words.is_empty());
    said.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::extract::Query;

    /// What one page writes the next one reads: no answer is lost on the way.
    #[test]
    fn what_is_written_is_read_again() {
        let named = |name: &str| format!("{name}-answered");
        let sent: Vec<(String, String)> = written(&read(&Fields::default()))
            .into_iter()
            .map(|(name, _)| (name.clone(), named(&name)))
            .collect();
        assert_eq!(sent.len(), 19 + WISHES * 11);
        let sent: Vec<String> = sent.into_iter().map(|(name, value)| format!("{name}={value}")).collect();
        let address = format!("/advice?{}", sent.join("&")).parse().expect("an address");
        let Query(fields) = Query::<Fields>::try_from_uri(&address).expect("fields");
        for (name, value) in written(&read(&fields)) {
            assert_eq!(value, named(&name));
        }
    }
}
