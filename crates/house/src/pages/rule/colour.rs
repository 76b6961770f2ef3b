//! How a colour is called: what each word says; and fruits with the science's own answers.

use identity::colour::ColourModel;
use identity::colour::answers::ColourAnswers;
use identity::guide::colour::ColourGuide;
use publish::pages::what::rule::{ColourRule, ColourTrial};
use record::colour::{ColourSeen, Pattern, Skin, TradeColour};
use record::unknown::FruitSeen;

/// The rule of this guide.
pub(super) fn of(guide: &ColourGuide) -> ColourRule {
    let model = ColourModel::new(guide);
    let answers = ColourAnswers::new(&model);
    ColourRule {
        colours: TradeColour::ALL.map(TradeColour::name).to_vec(),
        skins: Skin::ALL.map(Skin::name).to_vec(),
        patterns: Pattern::ALL.map(Pattern::name).to_vec(),
        prior: answers.prior(),
        pattern_prior: answers.pattern_prior().to_vec(),
        stray_rate: answers.stray_rate(),
        colour_words: rows(answers.words()),
        skin_words: rows(answers.skins()),
        pattern_words: rows(answers.patterns()),
        trials: trials(&answers),
    }
}

fn rows<const N: usize>(chances: [[f64; N]; N]) -> Vec<Vec<f64>> {
    chances.iter().map(|row| row.to_vec()).collect()
}

/// Every colour outside by itself, under either skin, and over each other flesh.
fn trials(answers: &ColourAnswers<'_>) -> Vec<ColourTrial> {
    let mut trials = Vec::new();
    for outside in TradeColour::ALL {
        let alone = FruitSeen { exterior: Some(ColourSeen::Word(outside)), ..FruitSeen::default() };
        let peeled = Skin::ALL.map(|skin| FruitSeen { skin: Some(skin), ..alone.clone() });
        let cut = TradeColour::ALL.map(|flesh| FruitSeen { flesh: Some(flesh), ..alone.clone() });
        trials.push(alone);
        trials.extend(peeled);
        trials.extend(cut);
    }
    trials.extend(Pattern::ALL.map(|pattern| FruitSeen { pattern: Some(pattern), ..FruitSeen::default() }));
    trials.iter().filter_map(|fruit| trial(fruit, answers)).collect()
}

fn trial(fruit: &FruitSeen, answers: &ColourAnswers<'_>) -> Option<ColourTrial> {
    let shares = answers.shares(fruit)?;
    let outside = match fruit.exterior {
        Some(ColourSeen::Word(word)) => Some(word as usize),
        _ => None,
    };
    let words = [
        ("outside", outside),
        ("flesh", fruit.flesh.map(|flesh| flesh as usize)),
        ("skin", fruit.skin.map(|skin| skin as usize)),
        ("pattern", fruit.pattern.map(|pattern| pattern as usize)),
    ];
    Some(ColourTrial {
        words: words.into_iter().filter_map(|(of, place)| Some((of, place?))).collect(),
        outside: shares.exterior.to_vec(),
        pattern: shares.pattern.to_vec(),
    })
}
