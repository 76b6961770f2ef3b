//! One entry's copy: its calls, facts, claims and marks in words.

use crate::catalogue::copy::{Picture, evidence};
use crate::catalogue::{ClaimBeside, Entry, Standing, Told, index};
use crate::facts;
use crate::typesetting::Fonts;
use record::language::Units;
use serde::Serialize;

/// Characters of text beyond which an entry may be broken over two pages. An entry under it is shorter than
/// half a page, so that it can always be kept together.
const KEPT_TOGETHER: usize = 1_600;
/// Characters that a line of an entry takes even where it is short.
const LINE_COST: usize = 80;

/// A space at which no line breaks.
const NO_BREAK: char = '\u{a0}';
/// Words after a number that are not its unit.
const JOINED_BY_SPACE: [&str; 3] = ["to", "days", "×"];

/// One entry, ready to print.
#[derive(Serialize)]
pub(super) struct EntryCopy {
    number: usize,
    name: String,
    name_briefly: String,
    aliases: Vec<String>,
    picture: Option<Picture>,
    picture_words: String,
    calls: Vec<Call>,
    marks: Vec<&'static str>,
    facts: Vec<Fact>,
    claims: Vec<Claim>,
    trials: Vec<String>,
    rules: Vec<String>,
    evidence: String,
    settle: Vec<String>,
    may_break: bool,
}

/// A call and how sure it is.
#[derive(Serialize)]
struct Call {
    about: &'static str,
    words: Option<String>,
    share: f64,
    contested: bool,
}

#[derive(Serialize)]
struct Fact {
    about: &'static str,
    words: Option<String>,
}

#[derive(Serialize)]
struct Claim {
    words: String,
    standing: &'static str,
    against: Option<String>,
}

/// Words an entry.
pub(super) fn told(
    entry: &Entry,
    number: usize,
    picture: Option<Picture>,
    units: Units,
    fonts: &Fonts,
) -> EntryCopy {
    let legible = |texts: &[String]| -> Vec<String> {
        texts.iter().map(|text| fonts.legible(text)).filter(|text| !text.is_empty()).collect()
    };
    let name = fonts.legible(&entry.name);
    let briefly = index::shortened(&name);
    let calls = [("Habit", &entry.habit), ("Class", &entry.fruit_class), ("Colour", &entry.colour)];
    let told = EntryCopy {
        number,
        picture_words: format!("Portrait of {briefly}, drawn from its measures"),
        name_briefly: briefly,
        name,
        aliases: legible(&entry.aliases),
        picture,
        calls: calls.iter().map(|(about, told)| call(about, told, fonts)).collect(),
        marks: marks(entry),
        facts: facts::told(&entry.facts, units).into_iter().map(fact).collect(),
        claims: entry.claims.iter().map(|beside| claim(beside, fonts)).collect(),
        trials: legible(&entry.trials).iter().map(|words| unbroken(words)).collect(),
        rules: calls
            .iter()
            .filter_map(|(_, told)| told.rule.as_deref())
            .map(|rule| fonts.legible(rule))
            .collect(),
        evidence: evidence(&entry.evidence),
        settle: legible(&entry.settle).iter().map(|step| step.trim_end_matches('.').to_owned()).collect(),
        may_break: false,
    };
    EntryCopy { may_break: KEPT_TOGETHER < told.length(), ..told }
}

impl EntryCopy {
    /// About how much room the text takes, in characters.
    fn length(&self) -> usize {
        let claims = self
            .claims
            .iter()
            .flat_map(|claim| [claim.words.len() + LINE_COST, claim.against.as_ref().map_or(0, String::len)]);
        let small_print = self
            .rules
            .iter()
            .chain(&self.settle)
            .chain(&self.trials)
            .chain(&self.aliases)
            .map(|text| text.len() + 4);
        let calls = self.calls.iter().filter_map(|call| call.words.as_ref()).map(String::len);
        // A name is set at nearly twice the size of the text, so it takes four times the room.
        self.name.len() * 4 + claims.chain(small_print).chain(calls).sum::<usize>()
    }
}

fn call(about: &'static str, told: &Told, fonts: &Fonts) -> Call {
    let share = crate::chance::likeliest(&told.verdicts).map_or(0.0, |(_, share)| share.get());
    let words = crate::chance::told(&told.verdicts).map(|words| unbroken(&fonts.legible(&words)));
    Call { about, words, share, contested: told.contested }
}

fn marks(entry: &Entry) -> Vec<&'static str> {
    let calls = [&entry.habit, &entry.fruit_class, &entry.colour];
    let contradicted = |beside: &ClaimBeside| matches!(beside.standing, Standing::Contradicted(_));
    let marks = [
        (calls.iter().any(|told| told.contested), "contested"),
        (calls.iter().any(|told| told.verdicts.is_empty()), "unmeasured"),
        (entry.claims.iter().any(contradicted), "claim contradicted"),
    ];
    marks.into_iter().filter(|(holds, _)| *holds).map(|(_, mark)| mark).collect()
}

fn fact(fact: facts::Fact) -> Fact {
    Fact { about: fact.about, words: fact.words.as_deref().map(unbroken) }
}

/// Keeps a number and its unit on one line: `412 g`, `62 in 100`.
pub(crate) fn unbroken(words: &str) -> String {
    let mut kept = String::with_capacity(words.len());
    let mut after_number = false;
    for word in words.split(' ') {
        let joins = after_number && !JOINED_BY_SPACE.contains(&word) || word.starts_with("100)");
        if !kept.is_empty() {
            kept.push(if joins { NO_BREAK } else { ' ' });
        }
        kept.push_str(word);
        after_number = word.ends_with(|last: char| last.is_ascii_digit());
    }
    kept
}

fn claim(beside: &ClaimBeside, fonts: &Fonts) -> Claim {
    let (standing, against) = match &beside.standing {
        Standing::Upheld => ("upheld", None),
        Standing::Contradicted(against) => ("contradicted", Some(fonts.legible(against))),
        Standing::Unmeasured => ("not enough evidence to say", None),
    };
    Claim { words: fonts.legible(&beside.words), standing, against }
}
