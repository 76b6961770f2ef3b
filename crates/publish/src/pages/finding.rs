//! What the search of the pages needs: the list in short, and the words that wishes are read by.
//!
//! Data stands in script files, as a page that was opened as a file may load nothing else. The search itself is
//! `assets/script/finding.js`; the reading of wishes mirrors crate `wording`, whose words arrive here as plain text.

use crate::catalogue::Told;
use crate::chance;
use crate::pages::linked::{harmless, rounded};
use crate::pages::{File, Folder, WebEntry, rows};
use record::language::Written;
use record::season::Season;
use serde_json::{Map, Value, json};
use std::collections::HashMap;

/// A phrase that is understood in a search.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Phrase {
    /// The phrase: `semi-det`.
    pub phrase: String,
    /// What kind of thing it asks for: `habit`; or what it does: `negator`, `joiner`, `filler`, `plain`.
    pub kind: &'static str,
    /// What it stands for: `semi-determinate`.
    pub answer: String,
}

/// What a word for an amount stands for: `early` is at most 65 days.
#[derive(Clone, Debug, PartialEq)]
pub struct WordAmount {
    /// The word.
    pub word: String,
    /// The least, in the measure's own unit; `None` where it is open.
    pub low: Option<f64>,
    /// The most.
    pub high: Option<f64>,
}

/// The words that wishes are read by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SearchWords {
    /// Every phrase.
    pub phrases: Vec<Phrase>,
    /// Words for weights, in grams.
    pub sizes: Vec<WordAmount>,
    /// Words for days to the first ripe fruit.
    pub days: Vec<WordAmount>,
    /// What those words stand for where they are asked away.
    pub other_days: Vec<WordAmount>,
}

/// Both data files.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(folder: &Folder, seasons: &[Vec<Season>]) -> Result<[File; 2], serde_json::Error> {
    Ok([
        script("data/list.js", "list", &Tables::of(folder).list(folder, seasons))?,
        script("data/words.js", "words", &words(&folder.list.search))?,
    ])
}

/// A value as a script that hands it to the others.
///
/// # Errors
/// What JSON cannot hold.
pub(super) fn script(path: &str, name: &str, value: &Value) -> Result<File, serde_json::Error> {
    let json = harmless(&serde_json::to_string(value)?);
    let text = format!("\"use strict\";\n(globalThis.locule ??= {{}}).{name} = {json};\n");
    Ok(File { path: path.to_owned(), bytes: text.into_bytes() })
}

fn words(search: &SearchWords) -> Value {
    let phrases = search.phrases.iter().map(|own| json!([own.phrase, own.kind, own.answer]));
    json!({
        "phrases": phrases.collect::<Vec<_>>(),
        "limits": {
            "sizes": amounts(&search.sizes),
            "days": amounts(&search.days),
            "otherDays": amounts(&search.other_days),
        },
    })
}

fn amounts(amounts: &[WordAmount]) -> Value {
    let amount = |own: &WordAmount| {
        let how = match (own.low, own.high) {
            (Some(_), Some(_)) => "between",
            (Some(_), None) => "least",
            (None, _) => "most",
        };
        (own.word.clone(), json!({ "how": how, "low": own.low, "high": own.high }))
    };
    Value::Object(amounts.iter().map(amount).collect::<Map<_, _>>())
}

/// Words that many varieties share, told once and then by their place.
#[derive(Default)]
struct Table {
    words: Vec<String>,
    places: HashMap<String, usize>,
}

impl Table {
    fn of<'a>(words: impl Iterator<Item = &'a str>) -> Self {
        let mut table = Self::default();
        for word in words {
            if !table.places.contains_key(word) {
                table.places.insert(word.to_owned(), table.words.len());
                table.words.push(word.to_owned());
            }
        }
        table
    }

    /// The place of a word, or -1.
    fn place(&self, word: Option<&str>) -> i64 {
        word.and_then(|word| self.places.get(word)).and_then(|place| i64::try_from(*place).ok()).unwrap_or(-1)
    }

    /// One bit a word; the guides have far fewer than the 31 that a script's bits take.
    fn mask<'a>(&self, words: impl Iterator<Item = &'a str>) -> u32 {
        let bit = |word| self.places.get(word).filter(|place| **place < 31).map(|place| 1_u32 << place);
        words.filter_map(bit).fold(0, |mask, bit| mask | bit)
    }
}

struct Tables {
    colours: Table,
    patterns: Table,
    uses: Table,
    marks: Table,
}

impl Tables {
    fn of(folder: &Folder) -> Self {
        let entries = &folder.list.entries;
        Self {
            colours: Table::of(entries.iter().filter_map(|entry| likeliest(&entry.told.colour))),
            patterns: Table::of(entries.iter().filter_map(|entry| entry.pattern.as_deref())),
            uses: Table::of(entries.iter().flat_map(|entry| &entry.uses).map(String::as_str)),
            marks: Table::of(entries.iter().flat_map(|entry| &entry.marks).map(|(mark, _)| mark.as_str())),
        }
    }

    fn list(&self, folder: &Folder, seasons: &[Vec<Season>]) -> Value {
        let list = &folder.list;
        let names =
            |kinds: &[crate::pages::Kind]| kinds.iter().map(|kind| kind.name.clone()).collect::<Vec<_>>();
        let entries = list.entries.iter().enumerate();
        json!({
            "units": list.units.either("us", "metric"),
            "unitsWritten": match list.units.written {
                Written::Signs => "signs",
                Written::Words => "words",
            },
            "classes": names(&list.classes),
            "habits": names(&list.habits),
            "colours": self.colours.words,
            "patterns": self.patterns.words,
            "uses": self.uses.words,
            "marks": self.marks.words,
            "rows": entries.map(|(index, entry)| self.row(folder, index, entry, seasons.get(index))).collect::<Vec<_>>(),
        })
    }

    /// One variety, in the order that `ready` in `finding.js` names.
    fn row(&self, folder: &Folder, index: usize, entry: &WebEntry, seasons: Option<&Vec<Season>>) -> Value {
        let (told, facts) = (&entry.told, &entry.told.facts);
        let claims: Vec<&str> = told.claims.iter().map(|claim| claim.words.as_str()).collect();
        let place = |of: Option<usize>| of.and_then(|of| i64::try_from(of).ok()).unwrap_or(-1);
        let contested = [&told.fruit_class, &told.habit, &told.colour].into_iter().enumerate();
        let contested: u32 = contested.map(|(bit, told)| u32::from(told.contested) << bit).sum();
        let unmeasured =
            [&told.fruit_class, &told.habit, &told.colour].iter().any(|told| told.verdicts.is_empty());
        let seasons: Vec<i16> = seasons.into_iter().flatten().map(|season| season.year()).collect();
        json!([
            told.name,
            folder.places.file_name(index),
            told.aliases.join("\n"),
            claims.join("; "),
            place(entry.class),
            hundredths(&told.fruit_class),
            place(entry.habit),
            hundredths(&told.habit),
            self.colours.place(likeliest(&told.colour)),
            hundredths(&told.colour),
            contested,
            u32::from(rows::is_contradicted(entry)) + 2 * u32::from(unmeasured),
            facts.weight.map(|own| rounded(own.usual.get())),
            facts.length.map(|own| rounded(own.usual.get())),
            facts.width.map(|own| rounded(own.usual.get())),
            facts.plant_height.map(|own| rounded(own.usual.get())),
            facts.days_to_ripe.map(|own| own.usual),
            facts.locules.map(|own| own.usual),
            self.patterns.place(entry.pattern.as_deref()),
            self.uses.mask(entry.uses.iter().map(String::as_str)),
            self.marks.mask(entry.marks.iter().map(|(mark, _)| mark.as_str())),
            seasons,
            told.evidence.fruit_count,
        ])
    }
}

fn likeliest(told: &Told) -> Option<&str> {
    chance::likeliest(&told.verdicts).map(|(verdict, _)| verdict.as_str())
}

/// A probability in hundredths, or nothing where there is no evidence.
fn hundredths(told: &Told) -> Option<f64> {
    chance::likeliest(&told.verdicts).map(|(_, share)| (share.get() * 100.0).round())
}
