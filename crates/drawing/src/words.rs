//! What a drawing says in words, for those who cannot see it and for those who hover over it.

use crate::look::FruitLook;
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::{Units, length, mass};

/// A portrait in words: what was measured, then what was not.
pub(crate) fn portrait(look: &FruitLook, units: Units) -> String {
    let known = known(look, units).join(", ");
    let unknown = unknown(look).join(", ");
    let mut words = look.name.clone();
    for (lead, part) in [(": ", known), (". Not measured: ", unknown)] {
        if !part.is_empty() {
            words.push_str(lead);
            words.push_str(&part);
        }
    }
    words
}

fn known(look: &FruitLook, units: Units) -> Vec<String> {
    let counted = |count: Option<u32>, one: &str, many: &str| {
        count.map(|count| format!("{count} {}", if count == 1 { one } else { many }))
    };
    let parts = [
        look.exterior.map(colour),
        look.pattern.filter(|pattern| *pattern != Pattern::Plain).map(|seen| pattern(seen).to_string()),
        look.weight.map(|weight| mass(weight, units)),
        look.length.map(|long| format!("{} long", length(long, units))),
        look.width.map(|wide| format!("{} wide", length(wide, units))),
        counted(look.locules, "locule", "locules"),
        counted(look.lobes, "lobe", "lobes"),
    ];
    parts.into_iter().flatten().collect()
}

fn unknown(look: &FruitLook) -> Vec<&'static str> {
    let parts = [
        (look.exterior.is_none(), "colour"),
        (look.length.is_none(), "length"),
        (look.width.is_none(), "width"),
        (look.locules.is_none(), "locules"),
    ];
    parts.into_iter().filter(|(missing, _)| *missing).map(|(_, word)| word).collect()
}

fn colour(seen: ColourSeen) -> String {
    match seen {
        ColourSeen::Word(word) => trade_word(word).to_string(),
        ColourSeen::Measured(lab) => {
            format!("measured colour L* {:.0}, a* {:.0}, b* {:.0}", lab.lightness(), lab.a(), lab.b())
        }
    }
}

fn trade_word(word: TradeColour) -> &'static str {
    match word {
        TradeColour::Red => "red",
        TradeColour::Pink => "pink",
        TradeColour::Orange => "orange",
        TradeColour::Yellow => "yellow",
        TradeColour::White => "white",
        TradeColour::Green => "green when ripe",
        TradeColour::Brown => "brown",
        TradeColour::Black => "black",
        TradeColour::Bicolour => "yellow and red",
    }
}

fn pattern(seen: Pattern) -> &'static str {
    match seen {
        Pattern::Plain => "plain",
        Pattern::Striped => "striped",
        Pattern::Marbled => "marbled",
        Pattern::DarkShouldered => "dark shoulders",
    }
}
