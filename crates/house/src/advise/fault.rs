//! Why a request has no answer.

use advice::planner::plan::PlanFault;
use advice::planner::request::RequestFault;

/// Why a request has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AdviseFault {
    /// A class that the guide does not have.
    #[error("line {line}: {class:?} is no fruit class of the guide")]
    NoSuchClass {
        /// The line of the request.
        line: usize,
        /// What was written.
        class: String,
        /// The guide's classes.
        known: String,
    },
    /// Two wishes share a class and not all.
    #[error("lines {line} and {other}: two wishes share a fruit class and not all of their classes")]
    ClassesOverlap {
        /// The line of one.
        line: usize,
        /// The line of the other.
        other: usize,
    },
    /// There is nowhere to plant.
    #[error("there is neither bed nor container for what could be planted")]
    NothingToPlant,
    /// No variety of a class fits.
    #[error(
        "line {line}: no variety that is called {classes} has picks, so that nothing tells what it would bear"
    )]
    NoneOfClass {
        /// The line of the request.
        line: usize,
        /// The classes.
        classes: String,
    },
    /// A product that is not put up so.
    #[error("line {line}: there is no printed figure for {product} in such jars")]
    NoFigure {
        /// The line of the request.
        line: usize,
        /// The product.
        product: &'static str,
    },
    /// Days that are no window of the season.
    #[error("line {line}: from and to are no part of the season, which runs from {from} to {to}")]
    NoWindow {
        /// The line of the request.
        line: usize,
        /// The season's first day.
        from: String,
        /// Its last.
        to: String,
    },
    /// No week bears so much.
    #[error("line {line}: no week brings {classes} in as many years as are asked")]
    NoWeek {
        /// The line of the request.
        line: usize,
        /// The classes.
        classes: String,
    },
    /// The planner could not go on.
    #[error(transparent)]
    Plan(#[from] PlanFault),
}

impl AdviseFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::NoSuchClass { known, .. } => format!("write one of: {known}"),
            Self::ClassesOverlap { .. } => {
                "give both wishes the same classes, or classes of their own".to_owned()
            }
            Self::NothingToPlant => {
                "add bed = [{ length = \"20 ft\", width = \"4 ft\" }] or containers = 4 to the garden"
                    .to_owned()
            }
            Self::NoneOfClass { .. } => {
                "add another class that will do, or name a variety under wanted".to_owned()
            }
            Self::NoFigure { .. } => "write the other size of jar, or fruit = \"40 lb\"".to_owned(),
            Self::NoWindow { .. } => "write days within it, or leave them out".to_owned(),
            Self::NoWeek { .. } => "ask for fewer years in ten, or say from and to".to_owned(),
            Self::Plan(PlanFault::Request(RequestFault::NotToBeHad(_))) => {
                "wish for its class too, or take it out of wanted and for-seed: only varieties with picks, of the classes \
                 wished for, are planted"
                    .to_owned()
            }
            Self::Plan(_) => "leave a wish out, and ask again".to_owned(),
        }
    }
}
