//! Why a photograph could not be measured or filed, and what to do about it.

use photo::decode::NoPicture;
use photo::refusal::Refusal;

/// Why a photograph could not be measured or filed.
#[derive(Debug, thiserror::Error)]
pub enum PhotoFault {
    /// No picture of a kind that is read, or a damaged one.
    #[error("{file}: {fault}")]
    NoPicture {
        /// The file's name.
        file: String,
        /// What is wrong with it.
        fault: NoPicture,
    },
    /// More bytes than any phone's picture has.
    #[error("{file}: the file is larger than 64 MB")]
    TooLarge {
        /// The file's name.
        file: String,
    },
    /// A folder without a photograph.
    #[error("{folder} holds no JPEG or PNG file")]
    NoneInFolder {
        /// The folder.
        folder: String,
    },
    /// A picture that cannot be measured.
    #[error("{file}: {refusal}")]
    Refused {
        /// The file's name.
        file: String,
        /// Why.
        refusal: Refusal,
    },
    /// Something was said of a fruit that is not in the picture.
    #[error("there is no fruit {number} in the photograph")]
    NoSuchFruit {
        /// The number.
        number: u32,
        /// The greatest number of a fruit.
        most: u32,
    },
    /// Words that are no change of the picture's parts.
    #[error("{words:?} does not say how parts of the picture hang together")]
    NoChange {
        /// The words.
        words: String,
    },
    /// Locules were told of a fruit that is not cut.
    #[error("fruit {number} of the photograph is not seen to be cut")]
    NotCut {
        /// The number.
        number: u32,
    },
    /// Fruit were to be taken that nobody says the plot of.
    #[error("the photograph does not say which plot its fruit are of")]
    NoPlot,
    /// A plot that the house does not have.
    #[error("there is no plot {label:?}")]
    NoSuchPlot {
        /// The label asked for.
        label: String,
    },
    /// A label that plots of several grow-outs bear.
    #[error("{label:?} is a plot of {}", grow_outs.join(" and of "))]
    SeveralPlots {
        /// The label asked for.
        label: String,
        /// The grow-outs.
        grow_outs: Vec<String>,
    },
    /// Every fruit was left out.
    #[error("no fruit is left to take")]
    NothingLeft,
    /// The picture could not be written down. Our fault.
    #[error("the measured picture cannot be written: {0}")]
    Unwritten(String),
}

impl PhotoFault {
    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> String {
        let help = match self {
            Self::NoPicture { fault: NoPicture::OtherKind, .. } => {
                "give a JPEG or PNG picture; phones can be set to save JPEG"
            }
            Self::NoPicture { .. } | Self::TooLarge { .. } => {
                "send the picture again as the phone's camera saved it"
            }
            Self::NoneInFolder { .. } => "name the folder that the photographs lie in themselves",
            Self::Refused { refusal, .. } => refusal.remedy(),
            Self::NoSuchFruit { most, .. } => {
                return format!("the drawing shows the numbers of its fruit; the greatest is {most}");
            }
            Self::NoChange { .. } => {
                "write cut and a part's number, such as \"cut 5\", or join and two, such as \"join 3 4\""
            }
            Self::NotCut { number } => {
                return format!("say that it is, as its stem's way: {number}=cut");
            }
            Self::NoPlot => "name its plot, or lay a card that was printed for the plot beside the fruit",
            Self::NoSuchPlot { .. } => "write the label as it stands on the stake",
            Self::SeveralPlots { .. } => "name the grow-out too",
            Self::NothingLeft => "leave fewer fruit out",
            Self::Unwritten(_) => "tell us of it",
        };
        help.to_owned()
    }
}
