//! Are colour calls as right as they say? Varieties are drawn from the shipped guide, their fruits are
//! named by people who each have an eye of their own, and the calls are counted.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::colour::evidence::ColourEvidence;
use identity::colour::{ColourModel, call};
use identity::guide::colour::{ColourGuide, SHIPPED, read};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use record::colour::{ColourReading, ColourSeen, FruitPart, TradeColour};
use record::growout::Plot;
use record::id::Id;
use record::season::Season;
use record::subject::Subject;
use statistics::draws::stream;

fn one_of(weights: &[(TradeColour, f64)], chance: &mut ChaCha8Rng) -> TradeColour {
    let mut left: f64 = chance.random_range(0.0..1.0) * weights.iter().map(|(_, weight)| weight).sum::<f64>();
    let found = weights.iter().find(|(_, weight)| {
        left -= weight;
        left < 0.0
    });
    found.or(weights.last()).unwrap().0
}

/// How often a colour is written as each word, by the guide: slips as listed, other mistakes evenly.
fn written(truth: TradeColour, guide: &ColourGuide) -> Vec<(TradeColour, f64)> {
    let slip = |word| guide.slips.iter().find(|slip| slip.of == truth && slip.written_as == word);
    let slipped: f64 = TradeColour::ALL.into_iter().filter_map(slip).map(|slip| slip.rate.number).sum();
    let others =
        TradeColour::ALL.into_iter().filter(|word| *word != truth && slip(*word).is_none()).count() as f64;
    let mistakes = guide.words.mistake_rate.number;
    let share = |word| match slip(word) {
        Some(slip) => slip.rate.number,
        None if word == truth => 1.0 - slipped - mistakes,
        None => mistakes / others,
    };
    TradeColour::ALL.map(|word| (word, share(word))).to_vec()
}

/// Words of one plot: one person's, whose words repeat.
fn plot_words(
    truth: TradeColour,
    fruits: u32,
    guide: &ColourGuide,
    chance: &mut ChaCha8Rng,
) -> Vec<TradeColour> {
    let independence = guide.words.independence.number;
    let mut eye: Vec<(TradeColour, f64)> =
        written(truth, guide).into_iter().map(|(word, share)| (word, share * independence)).collect();
    let name = |_| {
        let word = one_of(&eye, chance);
        eye.iter_mut().find(|(known, _)| *known == word).unwrap().1 += 1.0;
        word
    };
    (0..fruits).map(name).collect()
}

/// Varieties looked at.
const VARIETIES: u32 = 4000;

#[test]
fn colour_calls_are_right_as_often_as_they_say() {
    let guide = read("colour.toml", SHIPPED).unwrap();
    let model = ColourModel::new(&guide);
    let prior: Vec<_> = guide.colour.iter().map(|(colour, share)| (*colour, share.number)).collect();
    let mut chance = stream(&["calibration", "colour"]);
    let mut tenths = [(0.0, 0.0, 0.0); 10];
    for _ in 0..VARIETIES {
        let truth = one_of(&prior, &mut chance);
        let mut evidence = ColourEvidence::default();
        for plot in 1..=chance.random_range(1..=3_u128) {
            let stray = chance.random_bool(guide.words.stray_plot_rate.number);
            let shown = if stray { one_of(&prior, &mut chance) } else { truth };
            let fruits = chance.random_range(1..=6);
            for word in plot_words(shown, fruits, &guide, &mut chance) {
                evidence.reading(&reading(plot, word));
            }
        }
        let call = call(&evidence, &model).exterior;
        let said = call.probability().get();
        let tenth = tenths.get_mut(((said * 10.0) as usize).min(9)).unwrap();
        let right = f64::from(u8::from(call.verdict == Some(truth)));
        *tenth = (tenth.0 + 1.0, tenth.1 + said, tenth.2 + right);
    }
    for (calls, said, right) in tenths.into_iter().filter(|(calls, ..)| 0.0 < *calls) {
        println!("said {:.2}, right {:.2} of {calls} calls", said / calls, right / calls);
        // Four standard errors of a share.
        assert!((said - right).abs() / calls <= 4.0 * (0.25 / calls).sqrt(), "{said} {right} {calls}");
    }
}

fn reading(plot: u128, word: TradeColour) -> ColourReading {
    let subject = Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(2031).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plot))),
        plant: None,
    };
    let seen = ColourSeen::Word(word);
    ColourReading { subject, read_on: None, part: FruitPart::Exterior, seen, pattern: None, skin: None }
}
