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
            Self::Blurred { .. } => "hold the phone still, wipe the lens, and give it more light",
            Self::Bent { .. } => "press the card flat, or print it on stiffer paper",
            Self::Steep { .. } => "hold the phone level above the middle of the sheet",
            Self::Coarse { .. } => "go nearer, or lay fewer fruit in one picture",
            Self::OneColour => "lay the fruit on a sheet of another colour",
            Self::NoFruit => "lay the fruit on the sheet with some of it showing all round",
            Self::Change(Undone::NoSuchPart(_)) => "its parts bear the numbers that the drawing shows",
            Self::Change(Undone::NotParted(_)) => {
                "draw the line from rim to rim between the two fruit, or leave the part out"
            }
            Self::Change(Undone::Apart(..)) => "only parts that lie against each other can be one fruit",
        }
    }
}
