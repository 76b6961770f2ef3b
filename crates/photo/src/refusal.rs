//! Why a photograph is not measured, and what to do about it.
//!
//! Start at [`Refusal`].

use crate::change::Undone;

/// Why a photograph is not measured.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Fewer than four markers.
    #[error("the scale card is not found whole")]
    NoCard,
    /// Some of the markers.
    #[error("only {seen} of the scale card's four markers are seen")]
    CardHidden {
        /// How many.
        seen: usize,
    },
    /// Too little light.
    #[error("the picture is too dark: the card's white paper is {white:.0} of 255")]
    Dark {
        /// The paper as the picture writes it.
        white: f64,
    },
    /// Too much light.
    #[error("the picture is too bright: the card's greys are as white as its paper")]
    Bright,
    /// Edges too wide.
    #[error("the picture is blurred: edges take {width:.1} pixels")]
    Blurred {
        /// Pixels from dark to light.
        width: f64,
    },
    /// The card's lines do not fit.
    #[error("the scale card does not lie flat: its edges are {off:.1} pixels off")]
    Bent {
        /// Root mean square, px.
        off: f64,
    },
    /// Too far from straight above.
    #[error("the picture is taken {degrees:.0} degrees from straight above")]
    Steep {
        /// Degrees.
        degrees: f64,
    },
    /// Too far away.
    #[error("the picture has only {pixels:.1} pixels to a millimetre")]
    Coarse {
        /// Pixels to a millimetre of sheet.
        pixels: f64,
    },
    /// Nothing stands out.
    #[error("fruit and cloth have nearly the same colour")]
    OneColour,
    /// Every part bends inwards.
    #[error("no fruit lies free: all touch, or lie on each other")]
    Heaped,
    /// Nothing is left.
    #[error("no whole fruit is found on the sheet")]
    NoFruit,
    /// Something was said of its parts that does not hold.
    #[error("{0}")]
    Change(Undone),
}

impl Refusal {
    /// What to do about it.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::NoCard => {
                "lay the card flat beside the fruit with all four corners in the picture and nothing on it"
            }
            Self::CardHidden { .. } => {
                "move what lies on the card, and take all four of its corners into the picture"
            }
            Self::Dark { .. } => "take it by a window, or with more lamps all round",
            Self::Bright => {
                "tap the card on the phone's screen so that it sets the light by it, and take off the flash"
            }
            Self::Blurred { .. } => "hold the phone still, wipe the lens, and give it more light",
            Self::Bent { .. } => "press the card flat, or print it on stiffer paper",
            Self::Steep { .. } => "hold the phone level above the middle of the sheet",
            Self::Coarse { .. } => "go nearer, or lay fewer fruit in one picture",
            Self::OneColour => "lay the fruit on a sheet of another colour",
            Self::Heaped => "lay them one beside the other, none touching another",
            Self::NoFruit => "lay the fruit on the sheet with some of it showing all round",
            Self::Change(Undone::NoSuchPart(_)) => "its parts bear the numbers that the drawing shows",
            Self::Change(Undone::NotParted(_)) => {
                "draw the line from rim to rim between the two fruit, or leave the part out"
            }
            Self::Change(Undone::Apart(..)) => "only parts that lie against each other can be one fruit",
        }
    }
}
