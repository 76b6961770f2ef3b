//! What is asked of the list as wants of the shelf, each with the words that it is told in.

use crate::claims;
use crate::fault::HouseFault;
use crate::guides::Guides;
use crate::list::ReadPart;
use crate::list::filter::{Filter, Which};
use crate::list::shelving::Shelf;
use ledger::shelf::wanted::{CalledAs, Measure, Plight, Several, Taste, Want, Within};
use record::language::Units;
use wording::amount::{Amount, Measured};
use wording::reading::{self, Reading};
use wording::telling;
use wording::wish::{Choice, State, Wish};

/// Longest run of words that is tried for a variety's name. Longer names are found by their words.
const LONGEST_NAME: usize = 5;

/// Most words of a wish that are tried for names; whoever writes more writes no wish. A choice of ours.
const MOST_WORDS: usize = 40;

/// A want and how it is told.
pub(crate) struct Wanted {
    pub(crate) want: Want,
    pub(crate) said: String,
}

/// Everything that is asked, and how the plain words were read.
pub(crate) fn of(
    filter: &Filter,
    guides: &Guides,
    shelf: &mut Shelf<'_>,
    units: Units,
) -> Result<(Vec<Wanted>, Vec<ReadPart>), HouseFault> {
    let mut wanted = chosen(filter);
    let Some(text) = filter.words.as_deref().map(str::trim).filter(|text| !text.is_empty()) else {
        return Ok((wanted, Vec::new()));
    };
    let reading = read(text, guides, shelf)?;
    wanted.extend(wishes(&reading.wish, units));
    let parts = reading.parts.iter().map(|part| ReadPart {
        said: part.said.clone(),
        meant: telling::part(part, units),
        mended: part.mended.clone(),
    });
    Ok((wanted, parts.collect()))
}

/// Reads plain words. A word of a variety's name is no slip of the pen.
fn read(text: &str, guides: &Guides, shelf: &mut Shelf<'_>) -> Result<Reading, HouseFault> {
    let said: Vec<&str> = text.split_whitespace().take(MOST_WORDS).collect();
    let runs: Vec<String> =
        (1..=LONGEST_NAME).flat_map(|long| said.windows(long).map(|run| run.join(" "))).collect();
    let runs: Vec<&str> = runs.iter().map(String::as_str).collect();
    let names = shelf.names_among(&runs)?;
    let single = shelf.name_words(&said)?;
    let vocabulary = claims::vocabulary(guides).knowing(names.into_iter().chain(single));
    Ok(reading::read(text, &vocabulary))
}

/// What was chosen in so many fields.
fn chosen(filter: &Filter) -> Vec<Wanted> {
    let called = |of, word: &Option<String>, about: &str| {
        let word = word.clone()?;
        Some(Wanted { said: format!("{about} {word}"), want: Want::Called(of, Taste::Sought, vec![word]) })
    };
    let plight = |which, plight, said: &str| {
        (which == Which::Only)
            .then(|| Wanted { said: said.to_owned(), want: Want::In(Taste::Sought, vec![plight]) })
    };
    let all = [
        called(CalledAs::Habit, &filter.habit, "habit"),
        called(CalledAs::Class, &filter.class, "fruit class"),
        called(CalledAs::Colour, &filter.colour, "colour"),
        filter.purpose.clone().map(|purpose| Wanted {
            said: format!("good for {purpose}"),
            want: Want::Has(Several::Uses, Taste::Sought, vec![purpose]),
        }),
        filter.season.map(|season| Wanted {
            said: format!("evidence of {season}"),
            want: Want::Has(Several::Seasons, Taste::Sought, vec![season.year().to_string()]),
        }),
        filter.ripens.map(|ripens| Wanted {
            said: ripens.name().to_owned(),
            want: Want::Within(Measure::Days, vec![within(ripens.days())]),
        }),
        plight(filter.contested, Plight::Contested, "a contested call"),
        plight(filter.contradicted, Plight::Contradicted, "a claim that the evidence contradicts"),
        plight(filter.unmeasured, Plight::Unmeasured, "a call without evidence"),
        filter
            .find
            .clone()
            .map(|letters| Wanted { said: format!("a name with {letters:?}"), want: Want::Letters(letters) }),
    ];
    all.into_iter().flatten().collect()
}

/// What plain words ask for: a want a kind, and each word that is left for full text by itself.
fn wishes(wish: &Wish, units: Units) -> Vec<Wanted> {
    let mut wanted = Vec::new();
    let mut add = |one: Wish, want: Option<Want>| {
        wanted.extend(want.map(|want| Wanted { said: telling::told(&one, units), want }));
    };
    for taste in [Taste::Sought, Taste::Shunned] {
        let called = |of, choice: &Choice<String>| some(of, choice, taste, Want::Called, Clone::clone);
        let only = |choice: &Choice<String>| of_taste(choice, taste);
        add(Wish { habits: only(&wish.habits), ..Wish::default() }, called(CalledAs::Habit, &wish.habits));
        add(Wish { classes: only(&wish.classes), ..Wish::default() }, called(CalledAs::Class, &wish.classes));
        add(
            Wish { colours: only(&wish.colours), ..Wish::default() },
            called(CalledAs::Colour, &wish.colours),
        );
        add(
            Wish { patterns: of_taste(&wish.patterns, taste), ..Wish::default() },
            some(CalledAs::Pattern, &wish.patterns, taste, Want::Called, |one| one.name().to_owned()),
        );
        add(
            Wish { marks: only(&wish.marks), ..Wish::default() },
            some(Several::Marks, &wish.marks, taste, Want::Has, Clone::clone),
        );
        add(
            Wish { uses: of_taste(&wish.uses, taste), ..Wish::default() },
            some(Several::Uses, &wish.uses, taste, Want::Has, |one| one.name().to_owned()),
        );
        add(
            Wish { growing: of_taste(&wish.growing, taste), ..Wish::default() },
            some(Several::Uses, &wish.growing, taste, Want::Has, |one| one.name().to_owned()),
        );
        add(
            Wish { seasons: of_taste(&wish.seasons, taste), ..Wish::default() },
            some(Several::Seasons, &wish.seasons, taste, Want::Has, |one| one.year().to_string()),
        );
        let plights: Vec<Plight> = side(&wish.states, taste).iter().map(|state| plight(*state)).collect();
        add(
            Wish { states: of_taste(&wish.states, taste), ..Wish::default() },
            (!plights.is_empty()).then_some(Want::In(taste, plights)),
        );
        for word in side(&wish.words, taste) {
            let one = Choice { wanted: vec![word.clone()], barred: Vec::new() };
            add(
                Wish { words: turned(one, taste), ..Wish::default() },
                Some(Want::Words(taste, word.clone())),
            );
        }
    }
    add(Wish { weights: wish.weights.clone(), ..Wish::default() }, measured(Measure::Weight, &wish.weights));
    add(Wish { lengths: wish.lengths.clone(), ..Wish::default() }, measured(Measure::Length, &wish.lengths));
    add(Wish { widths: wish.widths.clone(), ..Wish::default() }, measured(Measure::Width, &wish.widths));
    add(Wish { heights: wish.heights.clone(), ..Wish::default() }, measured(Measure::Height, &wish.heights));
    add(Wish { days: wish.days.clone(), ..Wish::default() }, measured(Measure::Days, &wish.days));
    add(Wish { locules: wish.locules.clone(), ..Wish::default() }, measured(Measure::Locules, &wish.locules));
    wanted
}

/// The words that are sought, or those that are shunned.
fn side<T>(choice: &Choice<T>, taste: Taste) -> &[T] {
    match taste {
        Taste::Sought => &choice.wanted,
        Taste::Shunned => &choice.barred,
    }
}

fn of_taste<T: Clone>(choice: &Choice<T>, taste: Taste) -> Choice<T> {
    turned(Choice { wanted: side(choice, taste).to_vec(), barred: Vec::new() }, taste)
}

fn turned<T>(choice: Choice<T>, taste: Taste) -> Choice<T> {
    match taste {
        Taste::Sought => choice,
        Taste::Shunned => Choice { wanted: choice.barred, barred: choice.wanted },
    }
}

fn some<Of, T>(
    of: Of,
    choice: &Choice<T>,
    taste: Taste,
    want: impl Fn(Of, Taste, Vec<String>) -> Want,
    word: impl Fn(&T) -> String,
) -> Option<Want> {
    let words: Vec<String> = side(choice, taste).iter().map(word).collect();
    (!words.is_empty()).then(|| want(of, taste, words))
}

fn measured<T: Measured>(of: Measure, amounts: &[Amount<T>]) -> Option<Want> {
    let ranges: Vec<Within> = amounts.iter().map(|amount| within(*amount)).collect();
    (!ranges.is_empty()).then_some(Want::Within(of, ranges))
}

fn within<T: Measured>(amount: Amount<T>) -> Within {
    let (least, most) = amount.ends();
    Within { least, most }
}

fn plight(state: State) -> Plight {
    match state {
        State::Contested => Plight::Contested,
        State::Contradicted => Plight::Contradicted,
        State::Unmeasured => Plight::Unmeasured,
    }
}
