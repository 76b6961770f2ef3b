//! Wants as conditions of a query. Whatever a user wrote goes in as a value.

use crate::shelf::wanted::{CalledAs, Measure, Plight, Several, SortedBy, Taste, Want, Way, Within};
use crate::shelf::words::plain_words;
use crate::store::session::Session;
use crate::store::value::Value;

/// A value that a condition holds.
enum Held {
    Text(String),
    Real(f64),
}

/// Which server reads the query.
#[derive(Clone, Copy)]
enum Dialect {
    File,
    Server,
}

/// Conditions with the values of their places.
pub(crate) struct Conditions {
    dialect: Dialect,
    each: Vec<String>,
    held: Vec<Held>,
    searched: Searched,
}

/// Where the words that are sought are looked up.
#[derive(Clone, Copy, PartialEq)]
enum Searched {
    /// Once for every want, beside the shelf.
    Beside,
    /// All together and first, before the shelf is looked at.
    First,
}

impl Conditions {
    /// One condition a want, in their order.
    pub(crate) fn of(session: &Session<'_>, wants: &[Want]) -> Self {
        let dialect = match session {
            Session::File(_) => Dialect::File,
            Session::Server(_) => Dialect::Server,
        };
        let mut conditions = Self { dialect, each: Vec::new(), held: Vec::new(), searched: Searched::Beside };
        for want in wants {
            let condition = conditions.condition(want);
            conditions.each.push(condition);
        }
        conditions
    }

    /// The conditions for reading from [`Conditions::from`]: words that are sought are searched for first.
    pub(crate) fn searching(session: &Session<'_>, wants: &[Want]) -> Self {
        let (mut text, mut others) = (Vec::new(), Vec::new());
        for want in wants {
            match want {
                Want::Words(Taste::Sought, words) => text.push(plain_words(words)),
                other => others.push(other.clone()),
            }
        }
        let mut conditions = Self::of(session, &others);
        text.retain(|words| !words.is_empty());
        if !text.is_empty() {
            conditions.searched = Searched::First;
            let found = conditions.matching(&text.join(" "));
            conditions.each.push(found);
        }
        conditions
    }

    /// What is read: the shelf as `s`, behind its words where these are searched first.
    pub(crate) fn from(&self) -> &'static str {
        match self.searched {
            Searched::Beside => "shelf s",
            Searched::First => "shelf_text f JOIN shelf s ON s.variety = f.rowid",
        }
    }

    /// All of them at once.
    pub(crate) fn all(&self) -> String {
        both(self.each.clone())
    }

    /// All but one.
    pub(crate) fn without(&self, place: usize) -> String {
        let kept = self.each.iter().enumerate().filter(|(at, _)| *at != place);
        both(kept.map(|(_, condition)| condition.clone()).collect())
    }

    /// The values of their places.
    pub(crate) fn values(&self) -> Vec<Value<'_>> {
        let value = |held| match held {
            &Held::Real(real) => Value::Real(real),
            Held::Text(text) => Value::Text(text),
        };
        self.held.iter().map(value).collect()
    }

    fn condition(&mut self, want: &Want) -> String {
        match want {
            Want::Called(of, taste, words) => {
                let places: Vec<String> =
                    words.iter().map(|word| self.hold(Held::Text(word.clone()))).collect();
                called_as(called(*of), *taste, places)
            }
            Want::Has(of, taste, words) => {
                let found = words.iter().map(|word| self.holds(several(*of), format!("|{word}|"))).collect();
                has(*taste, found)
            }
            Want::Within(of, ranges) => {
                let ranges: Vec<String> =
                    ranges.iter().map(|range| self.within(measure(*of), *range)).collect();
                either(ranges)
            }
            Want::In(taste, plights) => {
                let columns = plights.iter().map(|plight| plight_column(*plight));
                // Written as the indexes of the few that are so are.
                match taste {
                    Taste::Sought => either(columns.map(|column| format!("s.{column} = 1")).collect()),
                    Taste::Shunned => both(columns.map(|column| format!("s.{column} = 0")).collect()),
                }
            }
            Want::Letters(letters) => {
                let found = self.holds("names", letters.to_lowercase());
                format!("{found} > 0")
            }
            Want::Words(taste, words) => {
                let found = self.words(&plain_words(words));
                if *taste == Taste::Sought { found } else { format!("NOT ({found})") }
            }
        }
    }

    fn hold(&mut self, held: Held) -> String {
        self.held.push(held);
        format!("${}", self.held.len())
    }

    /// Where a text stands in a column, 0 for nowhere.
    fn holds(&mut self, column: &str, text: String) -> String {
        let place = self.hold(Held::Text(text));
        match self.dialect {
            Dialect::File => format!("instr(s.{column}, {place})"),
            Dialect::Server => format!("strpos(s.{column}, {place})"),
        }
    }

    /// The sign before the column keeps an index on it from being used: a range takes in half of the list, and
    /// reading that row by row through an index takes longer than reading all of it.
    fn within(&mut self, column: &str, range: Within) -> String {
        let mut parts = vec![format!("+s.{column} IS NOT NULL")];
        if let Some(least) = range.least {
            parts.push(format!("+s.{column} >= {}", self.hold(Held::Real(least))));
        }
        if let Some(most) = range.most {
            parts.push(format!("+s.{column} <= {}", self.hold(Held::Real(most))));
        }
        both(parts)
    }

    fn words(&mut self, plain: &str) -> String {
        if plain.is_empty() {
            return "1 = 1".to_owned();
        }
        let found = self.matching(plain);
        format!("s.variety IN (SELECT f.rowid FROM shelf_text f WHERE {found})")
    }

    /// How the words of the shelf, `f`, are matched. Plain words hold letters and figures only, so nothing in them is a sign of the query's own.
    fn matching(&mut self, plain: &str) -> String {
        let (word, between): (fn(&str) -> String, _) = match self.dialect {
            Dialect::File => (|word| format!("\"{word}\"*"), " "),
            Dialect::Server => (|word| format!("'{word}':*"), " & "),
        };
        let each = plain.split(' ').map(word).collect::<Vec<_>>().join(between);
        let place = self.hold(Held::Text(each));
        match self.dialect {
            Dialect::File => format!("f.shelf_text MATCH {place}"),
            Dialect::Server => format!("f.words @@ CAST(CAST({place} AS TEXT) AS tsquery)"),
        }
    }
}

/// All of them; none at all fits everything.
fn both(conditions: Vec<String>) -> String {
    parted(conditions, " AND ").unwrap_or_else(|| "1 = 1".to_owned())
}

/// One of them; none at all fits nothing.
fn either(conditions: Vec<String>) -> String {
    parted(conditions, " OR ").unwrap_or_else(|| "1 = 0".to_owned())
}

fn parted(conditions: Vec<String>, between: &str) -> Option<String> {
    let each: Vec<String> = conditions.into_iter().map(|condition| format!("({condition})")).collect();
    (!each.is_empty()).then(|| each.join(between))
}

fn called_as(column: &str, taste: Taste, places: Vec<String>) -> String {
    match taste {
        Taste::Sought => either(places.iter().map(|place| format!("s.{column} = {place}")).collect()),
        Taste::Shunned => {
            let other = both(places.iter().map(|place| format!("s.{column} <> {place}")).collect());
            format!("s.{column} IS NULL OR {other}")
        }
    }
}

fn has(taste: Taste, found: Vec<String>) -> String {
    match taste {
        Taste::Sought => either(found.iter().map(|found| format!("{found} > 0")).collect()),
        Taste::Shunned => both(found.iter().map(|found| format!("{found} = 0")).collect()),
    }
}

fn called(of: CalledAs) -> &'static str {
    match of {
        CalledAs::Habit => "habit",
        CalledAs::Class => "class",
        CalledAs::Colour => "colour",
        CalledAs::Pattern => "pattern",
    }
}

fn several(of: Several) -> &'static str {
    match of {
        Several::Uses => "uses",
        Several::Marks => "marks",
        Several::Seasons => "seasons",
    }
}

fn measure(of: Measure) -> &'static str {
    match of {
        Measure::Weight => "weight_g",
        Measure::Length => "length_mm",
        Measure::Width => "width_mm",
        Measure::Locules => "locules",
        Measure::Solids => "solids_percent",
        Measure::Days => "days",
        Measure::Height => "height_mm",
    }
}

fn plight_column(plight: Plight) -> &'static str {
    match plight {
        Plight::Contested => "contested",
        Plight::Contradicted => "contradicted",
        Plight::Unmeasured => "unmeasured",
    }
}

/// What is sorted by; the name is unique enough to be the last word, with the number after it.
pub(crate) fn order(by: SortedBy, way: Way) -> String {
    let way = match way {
        Way::Rising => "",
        Way::Falling => " DESC",
    };
    match sorted_column(by) {
        None => format!("s.name_key{way}, s.variety{way}"),
        Some(column) => format!("s.{column}{way} NULLS LAST, s.name_key, s.variety"),
    }
}

/// The column that is sorted by, if it is not the name.
pub(crate) fn sorted_column(by: SortedBy) -> Option<&'static str> {
    match by {
        SortedBy::Name => None,
        SortedBy::Weight => Some("weight_g"),
        SortedBy::Class => Some("class_place"),
        SortedBy::Habit => Some("habit_place"),
        SortedBy::Colour => Some("colour_place"),
        SortedBy::Days => Some("days"),
        SortedBy::Sureness => Some("sureness"),
        SortedBy::Newest => Some("newest_season"),
    }
}
