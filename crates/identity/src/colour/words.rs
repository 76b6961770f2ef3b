//! The lines of a colour call in words: what was read, how hard it pulls, and what does not fit.

use crate::call::{EvidenceLine, Pull};
use crate::colour::ColourModel;
use crate::colour::belief::{ColourBelief, Line, PlotOdds, Triples};
use crate::colour::evidence::PatchColours;
use crate::colour::likelihood::{middle, nearest};
use record::colour::{Lab, Pattern, Skin, TradeColour};
use record::share::Share;

/// What a call says where nobody has read anything.
pub(crate) const NOTHING_READ: &str = "Nothing has been read yet, so it is not called.";

/// A pull weaker than this is no reason. e^0.2 is odds of 11 to 9. Common practice, no source.
const NO_PULL: f64 = 0.2;

/// From this share on, two readings that disagree are worth a sentence. Common practice, no source.
const PLAIN_CLASH: f64 = 0.8;

/// What is told of: all readings and what is believed.
pub(crate) struct Tell<'a> {
    all: &'a PatchColours,
    belief: &'a ColourBelief,
    model: &'a ColourModel,
    /// What each line says, and what would be believed from it alone.
    lines: Vec<(Line, Option<(String, Triples)>)>,
}

impl<'a> Tell<'a> {
    pub(crate) fn new(all: &'a PatchColours, belief: &'a ColourBelief, model: &'a ColourModel) -> Self {
        let alone = |line: Line| {
            let heard: Vec<PlotOdds> = belief.odds.iter().map(|odds| odds.only(line)).collect();
            model.tables.prior.after(&heard, model.guide.words.stray_plot_rate.number)
        };
        let said = |line: Line| words(line, all, model).map(|words| (words, alone(line)));
        Self { all, belief, model, lines: Line::ALL.into_iter().map(|line| (line, said(line))).collect() }
    }

    /// Rule and lines of the colour outside.
    pub(crate) fn outside(&self, shares: &[(TradeColour, Share)]) -> (String, Vec<EvidenceLine>) {
        let places = first_two(shares, |colour| *colour as usize);
        self.told(shares.first().map(|(colour, _)| colour.name()), places, |triples, place| {
            triples.exterior().get(place).copied()
        })
    }

    /// Rule and lines of the flesh.
    pub(crate) fn flesh(&self, shares: &[(TradeColour, Share)]) -> (String, Vec<EvidenceLine>) {
        let places = first_two(shares, |colour| *colour as usize);
        self.told(shares.first().map(|(colour, _)| colour.name()), places, |triples, place| {
            triples.flesh().get(place).copied()
        })
    }

    /// Rule and lines of the skin.
    pub(crate) fn skin(&self, shares: &[(Skin, Share)]) -> (String, Vec<EvidenceLine>) {
        let places = first_two(shares, |skin| *skin as usize);
        self.told(shares.first().map(|(skin, _)| skin.name()), places, |triples, place| {
            triples.skin().get(place).copied()
        })
    }

    /// Rule and line of the pattern.
    pub(crate) fn pattern(&self, shares: &[(Pattern, Share)]) -> (String, Vec<EvidenceLine>) {
        let counts = told_counts(&self.all.pattern, Pattern::ALL.map(Pattern::name));
        let lift = |place: usize| {
            let of = |shares: &[f64]| shares.get(place).copied().unwrap_or_default().max(f64::MIN_POSITIVE);
            (of(&self.belief.pattern) / of(&self.model.tables.pattern_prior)).ln()
        };
        let pull = first_two(shares, |pattern| *pattern as usize)
            .filter(|_| counts.is_some())
            .map_or(Pull::Missing, |(first, second)| Pull::LogOdds(lift(first) - lift(second)));
        let words = counts.unwrap_or_else(|| "Nobody noted a pattern.".to_owned());
        let rule = format!("Called by the pattern most often noted. {words}");
        (rule, vec![EvidenceLine { about: "pattern".to_owned(), words, pull }])
    }

    fn told(
        &self,
        verdict: Option<&str>,
        places: Option<(usize, usize)>,
        share: impl Fn(&Triples, usize) -> Option<f64>,
    ) -> (String, Vec<EvidenceLine>) {
        let told = |(line, said): &(Line, Option<(String, Triples)>)| EvidenceLine {
            about: about(*line).to_owned(),
            words: said.as_ref().map_or_else(|| missing(*line).to_owned(), |(words, _)| words.clone()),
            pull: said
                .as_ref()
                .zip(places)
                .map_or(Pull::Missing, |((_, alone), places)| self.pull(alone, places, &share)),
        };
        let lines: Vec<EvidenceLine> = self.lines.iter().map(told).collect();
        (rule(verdict.unwrap_or_default(), &lines), lines)
    }

    /// How many times likelier a line alone makes the first answer than the second, as a logarithm.
    fn pull(
        &self,
        alone: &Triples,
        (first, second): (usize, usize),
        share: &impl Fn(&Triples, usize) -> Option<f64>,
    ) -> Pull {
        let lift = |place| {
            let of = |triples| share(triples, place).unwrap_or_default().max(f64::MIN_POSITIVE);
            (of(alone) / of(&self.model.tables.prior)).ln()
        };
        Pull::LogOdds(lift(first) - lift(second))
    }
}

fn words(line: Line, all: &PatchColours, model: &ColourModel) -> Option<String> {
    let colours = TradeColour::ALL.map(TradeColour::name);
    match line {
        Line::Words => told_counts(&all.exterior, colours),
        Line::Measured => measured(&all.measured_exterior, model),
        Line::Skin => told_counts(&all.skin, Skin::ALL.map(Skin::name)),
        Line::Flesh => {
            let measured = measured(&all.measured_flesh, model);
            let parts: Vec<String> = told_counts(&all.flesh, colours).into_iter().chain(measured).collect();
            (!parts.is_empty()).then(|| parts.join(" "))
        }
    }
}

fn measured(readings: &[Lab], model: &ColourModel) -> Option<String> {
    let reading = middle(readings)?;
    let (colour, distance) = nearest(reading, &model.guide)?;
    let of =
        if readings.len() == 1 { "1 reading".to_owned() } else { format!("{} readings", readings.len()) };
    Some(format!(
        "Measured L* {:.0}, a* {:.0}, b* {:.0} (the middle of {of}): nearest to {}, {distance:.0} CIEDE2000 units off.",
        reading.lightness(),
        reading.a(),
        reading.b(),
        colour.name(),
    ))
}

fn about(line: Line) -> &'static str {
    match line {
        Line::Words => "colour outside",
        Line::Measured => "measured colour outside",
        Line::Flesh => "flesh",
        Line::Skin => "peeled skin",
    }
}

fn missing(line: Line) -> &'static str {
    match line {
        Line::Words => "Nobody wrote down the colour outside.",
        Line::Measured => "Nobody measured the colour outside.",
        Line::Flesh => "Nobody noted the colour of the flesh.",
        Line::Skin => "Nobody peeled a fruit.",
    }
}

fn rule(verdict: &str, lines: &[EvidenceLine]) -> String {
    let strength = |line: &EvidenceLine| match line.pull {
        Pull::LogOdds(odds) => odds,
        Pull::WithoutIt(_) | Pull::Missing | Pull::Aside => f64::NEG_INFINITY,
    };
    let strongest = lines.iter().max_by(|one, other| strength(one).total_cmp(&strength(other)));
    match strongest.filter(|line| NO_PULL < strength(line)) {
        Some(line) => format!("Called {verdict} mostly for its {}. {}", line.about, line.words),
        None => {
            format!("Nothing that was read tells them apart; {verdict} is what the guide finds most often.")
        }
    }
}

/// The places of the first two answers.
fn first_two<V>(shares: &[(V, Share)], place: impl Fn(&V) -> usize) -> Option<(usize, usize)> {
    match shares {
        [(first, _), (second, _), ..] => Some((place(first), place(second))),
        _ => None,
    }
}

/// `Noted red 11 times, pink once.`; `None` where nothing was counted.
fn told_counts<const N: usize>(counts: &[u32; N], words: [&str; N]) -> Option<String> {
    let mut seen: Vec<(u32, &str)> =
        counts.iter().copied().zip(words).filter(|(count, _)| 0 < *count).collect();
    seen.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
    let times = |count: u32| if count == 1 { "once".to_owned() } else { format!("{count} times") };
    let parts: Vec<String> = seen.iter().map(|(count, word)| format!("{word} {}", times(*count))).collect();
    (!parts.is_empty()).then(|| format!("Noted {}.", parts.join(", ")))
}

/// What does not fit: an outside that the table of skin and flesh does not give.
pub(crate) fn clash(belief: &ColourBelief, model: &ColourModel) -> Option<String> {
    let alone = |kept: &[Line]| {
        let odds: Vec<PlotOdds> = belief.odds.iter().map(|odds| kept_only(odds, kept)).collect();
        let triples = model.tables.prior.after(&odds, model.guide.words.stray_plot_rate.number);
        surely(triples.exterior())
    };
    let outside = alone(&[Line::Words, Line::Measured])?;
    let beneath = alone(&[Line::Flesh, Line::Skin])?;
    let told = |place: usize| TradeColour::ALL.get(place).copied().map_or("", TradeColour::name);
    (outside != beneath).then(|| {
        format!(
            "Its outside was read as {}, but its flesh and skin together show {}: read both again on the same fruit.",
            told(outside),
            told(beneath)
        )
    })
}

fn kept_only(odds: &PlotOdds, kept: &[Line]) -> PlotOdds {
    let mut left = PlotOdds::default();
    for line in kept {
        let only = odds.only(*line);
        match line {
            Line::Words => left.words = only.words,
            Line::Measured => left.measured = only.measured,
            Line::Flesh => left.flesh = only.flesh,
            Line::Skin => left.skin = only.skin,
        }
    }
    left
}

/// The place of the one that holds nearly everything, if there is one.
fn surely<const N: usize>(shares: [f64; N]) -> Option<usize> {
    shares.into_iter().position(|share| PLAIN_CLASH <= share)
}
