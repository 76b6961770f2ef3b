//! Fruit colour: outside, pattern, flesh and skin, from words and from measured colours.
//!
//! The trade's colour word is skin and flesh together: red flesh shows red under a yellow skin and pink
//! under a clear one. So outside, flesh and skin are called together, each checking the others.
//! Start at [`call`].

pub mod evidence;

use crate::call::Call;
use crate::colour::evidence::ColourEvidence;
use crate::guide::colour::ColourGuide;
use record::colour::{Pattern, Skin, TradeColour};

/// What the guide says in a form that is quick to ask: made once, used for every variety.
#[derive(Clone, Debug)]
pub struct ColourModel {
    _guide: ColourGuide,
}

impl ColourModel {
    /// Works out the tables of one guide.
    #[must_use]
    pub fn new(guide: &ColourGuide) -> Self {
        Self { _guide: guide.clone() }
    }
}

/// The four calls that make up a variety's colour.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourCall {
    /// The trade colour: how the ripe fruit looks from outside.
    pub exterior: Call<TradeColour>,
    /// How the colour is laid out.
    pub pattern: Call<Pattern>,
    /// The cut flesh.
    pub flesh: Call<TradeColour>,
    /// The peeled skin.
    pub skin: Call<Skin>,
    /// What is odd between them, such as a pink fruit that is said to have a yellow skin.
    pub clash: Option<String>,
}

impl ColourCall {
    /// The verdict in the trade's words, such as `red` or `red, striped`; `None` without evidence.
    #[must_use]
    pub fn verdict(&self) -> Option<String> {
        let colour = word_for(self.exterior.verdict?);
        Some(match self.pattern.verdict {
            None | Some(Pattern::Plain) => colour.to_owned(),
            Some(pattern) => format!("{colour}, {}", word_for_pattern(pattern)),
        })
    }
}

/// The trade's word for a colour.
#[must_use]
pub fn word_for(colour: TradeColour) -> &'static str {
    match colour {
        TradeColour::Red => "red",
        TradeColour::Pink => "pink",
        TradeColour::Orange => "orange",
        TradeColour::Yellow => "yellow",
        TradeColour::White => "white",
        TradeColour::Green => "green",
        TradeColour::Brown => "brown",
        TradeColour::Black => "black",
        TradeColour::Bicolour => "bicolour",
    }
}

/// The trade's word for a pattern.
#[must_use]
pub fn word_for_pattern(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Plain => "plain",
        Pattern::Striped => "striped",
        Pattern::Marbled => "marbled",
        Pattern::DarkShouldered => "dark-shouldered",
    }
}

/// The trade's word for a skin.
#[must_use]
pub fn word_for_skin(skin: Skin) -> &'static str {
    match skin {
        Skin::Clear => "clear",
        Skin::Yellow => "yellow",
    }
}

/// Every colour word, in the order of the guide.
pub const COLOURS: [TradeColour; 9] = [
    TradeColour::Red,
    TradeColour::Pink,
    TradeColour::Orange,
    TradeColour::Yellow,
    TradeColour::White,
    TradeColour::Green,
    TradeColour::Brown,
    TradeColour::Black,
    TradeColour::Bicolour,
];
/// Both skins.
pub const SKINS: [Skin; 2] = [Skin::Clear, Skin::Yellow];
/// Every pattern.
pub const PATTERNS: [Pattern; 4] =
    [Pattern::Plain, Pattern::Striped, Pattern::Marbled, Pattern::DarkShouldered];

/// Calls one variety's colour.
#[must_use]
pub fn call(evidence: &ColourEvidence, model: &ColourModel) -> ColourCall {
    let _ = (evidence, model);
    ColourCall {
        exterior: Call::without_evidence(&COLOURS, String::new()),
        pattern: Call::without_evidence(&PATTERNS, String::new()),
        flesh: Call::without_evidence(&COLOURS, String::new()),
        skin: Call::without_evidence(&SKINS, String::new()),
        clash: None,
    }
}
