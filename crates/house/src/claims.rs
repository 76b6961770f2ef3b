//! Claims beside the evidence: upheld, contradicted, or not yet measured.
//!
//! What a claim's words mean is read with the same words that a search of the list is read with, and held against the
//! calls and measures of its variety. Start at [`Judge`]; the records that a claim hangs on are told by `behind`.

pub(crate) mod behind;

use crate::guides::Guides;
use crate::kept::{KeptCall, KeptFacts, KeptMeasure};
use crate::list::Listed;
use crate::uses::Uses;
pub use identity::claims::Standing;
use identity::claims::{self, UseBeside, Usual};
use identity::guide::fruit::ClassName;
use identity::habit::Habit;
use record::colour::TradeColour;
use record::days::Days;
use record::length::Millimetres;
use record::mass::Grams;
use record::purpose::Purpose;
use record::share::Share;
use record::variety::{Claim, ClaimSubject};
use wording::amount::{Amount, Measured};
use wording::claims::{is_advice, taken_apart};
use wording::reading::{Part, Reading, read, read_as};
use wording::vocabulary::{GuideWords, Vocabulary};
use wording::wish::{Kind, Sense, Want};

/// A claim and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct ClaimBeside {
    /// The claim.
    pub claim: Claim,
    /// How it stands beside the evidence.
    pub standing: Standing,
    /// What it speaks of that is measured here, each once.
    pub speaks_of: Vec<SpeaksOf>,
}

/// What a claim speaks of, and so which records it hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SpeaksOf {
    /// The habit call.
    Habit,
    /// The fruit-class call, a shape mark, or a measure of the fruit.
    Fruit,
    /// The colour call.
    Colour,
    /// Days to the first ripe fruit.
    Ripening,
    /// The height of the plant.
    Height,
}

/// What claims are judged by: the words that the house understands, and what its guides call good for what.
#[derive(Clone, Debug)]
pub struct Judge {
    vocabulary: Vocabulary,
    uses: Uses,
}

impl Judge {
    /// The judge of these guides.
    #[must_use]
    pub fn of(guides: &Guides) -> Self {
        Self { vocabulary: vocabulary(guides), uses: Uses::of(guides) }
    }

    /// A variety's claims beside its calls, each once: by subject, then in the order they came in.
    #[must_use]
    pub fn beside(&self, listed: &Listed) -> Vec<ClaimBeside> {
        let mut claims: Vec<&Claim> = Vec::new();
        for claim in &listed.variety.claims {
            let words = claim.words.to_lowercase();
            if !claims.iter().any(|told| told.about == claim.about && told.words.to_lowercase() == words) {
                claims.push(claim);
            }
        }
        claims.sort_by_key(|claim| claim.about);
        claims.into_iter().map(|claim| self.one(claim, listed)).collect()
    }

    /// What a variety is good for, as the guides say of its fruit class, its shape marks and its habit.
    #[must_use]
    pub fn uses(&self, listed: &Listed) -> Vec<Purpose> {
        self.uses.of_variety(listed)
    }

    fn one(&self, claim: &Claim, listed: &Listed) -> ClaimBeside {
        let parts = self.parts(claim);
        let mut speaks_of: Vec<SpeaksOf> =
            parts.iter().flatten().flat_map(|want| self.speaks_of(want)).collect();
        speaks_of.sort_unstable();
        speaks_of.dedup();
        let standing = Standing::together(parts.iter().map(|wants| self.stand(wants, listed)));
        ClaimBeside { claim: claim.clone(), standing, speaks_of }
    }

    /// What a claim says, part by part; wants of one part are alternatives. Answers of one call are alternatives too,
    /// as a fruit has one class. A text that came in whole is taken apart first.
    fn parts(&self, claim: &Claim) -> Vec<Vec<Want>> {
        let mut parts: Vec<Vec<Want>> = Vec::new();
        let pieces = match claim.about {
            ClaimSubject::Other => taken_apart(&claim.words, &self.vocabulary),
            _ => vec![claim.clone()],
        };
        for part in pieces.iter().flat_map(|piece| self.reading(piece).parts) {
            let wants: Vec<Want> = wanted(part);
            let Some(kind) = wants.first().map(Want::kind) else { continue };
            let is_call = matches!(kind, Kind::Habit | Kind::Class | Kind::Colour | Kind::Pattern);
            let same = |told: &&mut Vec<Want>| told.first().is_some_and(|first| first.kind() == kind);
            match parts.iter_mut().find(same).filter(|_| is_call) {
                Some(told) => told.extend(wants),
                None => parts.push(wants),
            }
        }
        parts
    }

    /// Reads a claim as what its column says that it is; what means nothing so is read as any other words.
    fn reading(&self, claim: &Claim) -> Reading {
        let kind = match claim.about {
            ClaimSubject::Habit => Kind::Habit,
            ClaimSubject::FruitClass => Kind::Class,
            ClaimSubject::Colour => Kind::Colour,
            ClaimSubject::Purpose => Kind::Use,
            ClaimSubject::DaysToMaturity => return self.days(&claim.words),
            ClaimSubject::FruitWeight => return read(&claim.words, &self.vocabulary),
            ClaimSubject::Other => return self.rest(&claim.words),
        };
        let asked = read_as(&claim.words, &self.vocabulary, kind);
        let speaks = |part: &Part| part.wants.iter().any(|want| want.kind() == kind);
        if asked.parts.iter().any(speaks) { asked } else { read(&claim.words, &self.vocabulary) }
    }

    /// What is left of a description once its claims are taken out: shapes, patterns and measures may still be told
    /// there, but "for a week" is no day to maturity, and advice on growing claims nothing.
    fn rest(&self, words: &str) -> Reading {
        let mut reading = read(words, &self.vocabulary);
        let told = |part: &Part| {
            let kind = part.wants.first().map(Want::kind);
            matches!(
                kind,
                Some(Kind::Pattern | Kind::Mark | Kind::Length | Kind::Width | Kind::Height | Kind::Locules)
            )
        };
        reading.parts.retain(|part| !is_advice(words) && told(part));
        reading
    }

    /// A column of days often holds bare figures.
    fn days(&self, words: &str) -> Reading {
        let reading = read(words, &self.vocabulary);
        let told = |part: &Part| part.wants.iter().any(|want| want.kind() == Kind::Days);
        if reading.parts.iter().any(told) {
            reading
        } else {
            read(&format!("{words} days"), &self.vocabulary)
        }
    }

    fn speaks_of(&self, want: &Want) -> Vec<SpeaksOf> {
        match want {
            Want::Habit(_) => vec![SpeaksOf::Habit],
            Want::Class(_)
            | Want::Mark(_)
            | Want::Weight(_)
            | Want::Length(_)
            | Want::Width(_)
            | Want::Locules(_) => {
                vec![SpeaksOf::Fruit]
            }
            Want::Colour(_) | Want::Pattern(_) => vec![SpeaksOf::Colour],
            Want::Days(_) | Want::Earliness(_) => vec![SpeaksOf::Ripening],
            Want::Height(_) => vec![SpeaksOf::Height],
            Want::Use(purpose) => self.uses.speak_of(*purpose),
            Want::Size(_) | Want::State(_) | Want::Season(_) | Want::Words(_) => Vec::new(),
        }
    }

    fn stand(&self, wants: &[Want], listed: &Listed) -> Standing {
        let facts = listed.fruit.as_ref().map(|fruit| fruit.facts).unwrap_or_default();
        match wants.first() {
            Some(Want::Habit(_)) => answers(wants, listed.habit.as_ref().map(|habit| &habit.call)),
            Some(Want::Class(_)) => answers(wants, listed.fruit.as_ref().map(|fruit| &fruit.call)),
            Some(Want::Colour(_)) => answers(wants, listed.colour.as_ref().map(|colour| &colour.exterior)),
            Some(Want::Pattern(_)) => answers(wants, listed.colour.as_ref().map(|colour| &colour.pattern)),
            Some(Want::Mark(mark)) => claims::stand_mark(mark, mark_share(listed, mark)),
            Some(Want::Use(purpose)) => claims::stand_use(&self.uses.beside(*purpose, listed)),
            Some(want) => amount(want, &facts),
            None => Standing::NotJudged,
        }
    }
}

/// The words that this house understands, by its guides.
#[must_use]
pub fn vocabulary(guides: &Guides) -> Vocabulary {
    let classes: Vec<&str> = guides.fruit.class_names().map(ClassName::as_str).collect();
    let marks: Vec<&str> = guides.fruit.marks.iter().map(|mark| mark.name.as_str()).collect();
    let habits = Habit::ALL.map(|habit| habit.to_string());
    let habits: Vec<&str> = habits.iter().map(String::as_str).collect();
    let colours = TradeColour::ALL.map(TradeColour::name);
    Vocabulary::new(GuideWords { habits: &habits, classes: &classes, colours: &colours, marks: &marks })
}

/// What a piece asks for; what it asks away is no claim that is judged here.
fn wanted(part: Part) -> Vec<Want> {
    if part.sense == Sense::Wanted { part.wants } else { Vec::new() }
}

fn answers(wants: &[Want], call: Option<&KeptCall>) -> Standing {
    let word = |want: &Want| match want {
        Want::Habit(word) | Want::Class(word) | Want::Colour(word) => Some(word.clone()),
        Want::Pattern(pattern) => Some(pattern.name().to_owned()),
        _ => None,
    };
    let claimed: Vec<String> = wants.iter().filter_map(word).collect();
    call.map_or(Standing::Unmeasured, |call| claims::stand(&claimed, &shares(call)))
}

/// Every answer with its probability; none where nothing was measured.
fn shares(call: &KeptCall) -> Vec<(String, Share)> {
    if !call.measured {
        return Vec::new();
    }
    let kept = call.shares.iter();
    kept.filter_map(|kept| Some((kept.answer.clone(), Share::new(kept.share)?))).collect()
}

fn mark_share(listed: &Listed, mark: &str) -> Option<Share> {
    let marks = listed.fruit.as_ref()?.marks.iter();
    marks.filter(|kept| kept.mark == mark).find_map(|kept| Share::new(kept.share?))
}

fn amount(want: &Want, facts: &KeptFacts) -> Standing {
    let mass = |usual| Grams::new(usual).map(Usual::Weight);
    let length = |usual| Millimetres::new(usual).map(Usual::Length);
    let height = |usual| Millimetres::new(usual).map(Usual::Height);
    let days = |usual| Days::new(usual).map(Usual::Days);
    match want {
        Want::Weight(claimed) => held(*claimed, facts.weight_g, mass),
        Want::Length(claimed) => held(*claimed, facts.length_mm, length),
        Want::Width(claimed) => held(*claimed, facts.width_mm, length),
        Want::Height(claimed) => held(*claimed, facts.plant_height_mm, height),
        Want::Days(claimed) => held(*claimed, facts.days_to_ripe, days),
        Want::Earliness(earliness) => held(earliness.days(), facts.days_to_ripe, days),
        Want::Locules(claimed) => held(*claimed, facts.locules, |usual| Some(Usual::Locules(usual))),
        _ => Standing::NotJudged,
    }
}

/// A claimed amount beside a measure. A plain figure claims itself: the leeway of a claim is its judge's affair.
fn held<T: Measured>(
    claimed: Amount<T>,
    measured: Option<KeptMeasure>,
    usual: impl Fn(f64) -> Option<Usual>,
) -> Standing {
    let Some((usual, count)) = measured.and_then(|kept| Some((usual(kept.usual)?, kept.fruits))) else {
        return Standing::Unmeasured;
    };
    let (low, high) = match claimed {
        Amount::About(value) => (Some(value.number()), Some(value.number())),
        claimed => claimed.ends(),
    };
    claims::stand_amount(low, high, usual, count)
}

/// What a claim is about, in a word.
#[must_use]
pub fn about(subject: ClaimSubject) -> &'static str {
    match subject {
        ClaimSubject::Habit => "habit",
        ClaimSubject::FruitClass => "fruit class",
        ClaimSubject::Colour => "colour",
        ClaimSubject::FruitWeight => "weight",
        ClaimSubject::DaysToMaturity => "days to maturity",
        ClaimSubject::Purpose => "purpose",
        ClaimSubject::Other => "other",
    }
}

/// The call that a use hangs on, with the answers that are good for it.
pub(crate) fn use_beside(good: Vec<String>, call: Option<&KeptCall>) -> UseBeside {
    UseBeside { good, shares: call.map(shares).unwrap_or_default() }
}
