//! What a product may be called: the federal definitions of tomato puree and paste, by soluble solids and by colour.
//!
//! Start at [`name`].

use crate::solids::{Soluble, Strength};

/// Least soluble solids of puree, in per cent. Source: 21 CFR 155.191(a).
pub const PUREE_FROM: f64 = 8.0;
/// Least soluble solids of paste, in per cent; puree has less. Source: 21 CFR 155.191(a).
pub const PASTE_FROM: f64 = 24.0;

/// The colour of the fruit, as far as the standard asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fruit {
    /// Red or reddish varieties.
    Red,
    /// Yellow, green, white and the like.
    OtherColour,
}

/// A name of the standard. A concentrate of either strength may also be called so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Name {
    /// Tomato puree, or pulp.
    Puree(PureeWeight),
    /// Tomato paste.
    Paste(PasteWeight),
}

/// How concentrated a puree is. Source: 7 CFR 52.5082 (a scan of 1970; order of the names restored).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PureeWeight {
    /// 8.0 to below 10.2 %.
    Light,
    /// To below 11.3 %.
    Medium,
    /// To below 15 %.
    Heavy,
    /// To below 24 %.
    ExtraHeavy,
}

/// How concentrated a paste is. Source: 7 CFR 52.5042 (a quotation of the department's sheet).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PasteWeight {
    /// 24 to below 28 %.
    Light,
    /// To below 32 %.
    Medium,
    /// To below 39.3 %.
    Heavy,
    /// From 39.3 % on.
    ExtraHeavy,
}

/// The standard's name for a product, or `None`: too thin, or not of red fruit.
///
/// # Source
/// 21 CFR 155.191: soluble solids, and red or reddish varieties; that a yellow paste therefore has no standard name is our
/// reading of it.
#[must_use]
pub fn name(soluble: Soluble, fruit: Fruit) -> Option<Name> {
    let percent = soluble.percent();
    match fruit {
        Fruit::OtherColour => None,
        Fruit::Red if percent < PUREE_FROM => None,
        Fruit::Red if percent < PASTE_FROM => Some(Name::Puree(puree_weight(percent))),
        Fruit::Red => Some(Name::Paste(paste_weight(percent))),
    }
}

fn puree_weight(percent: f64) -> PureeWeight {
    match percent {
        ..10.2 => PureeWeight::Light,
        ..11.3 => PureeWeight::Medium,
        ..15.0 => PureeWeight::Heavy,
        _ => PureeWeight::ExtraHeavy,
    }
}

fn paste_weight(percent: f64) -> PasteWeight {
    match percent {
        ..28.0 => PasteWeight::Light,
        ..32.0 => PasteWeight::Medium,
        ..39.3 => PasteWeight::Heavy,
        _ => PasteWeight::ExtraHeavy,
    }
}
