//! A cut face as the edges tell it: its widths, its locules with both counts, its wall and its gel.
//!
//! Start at [`CutFace`].

use photo::face::Face;
pub use photo::face::{Counted, ToldBy};
use photo::spread::NINE_IN_TEN;
use record::colour::Lab;
use record::length::Millimetres;
use record::share::Percent;

/// What is seen of a fruit that is cut across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutFace {
    /// Least width of the face.
    pub least_width: Millimetres,
    /// By how much the truth may lie on either side of either width, nine times in ten.
    pub give: Millimetres,
    /// How high above the sheet the face is taken to lie, and what tells it.
    pub height: Millimetres,
    /// What tells the height.
    pub height_by: ToldBy,
    /// Its locules, counted in two ways.
    pub counted: Counted,
    /// How many locules somebody who looked counted.
    pub told: Option<u32>,
    /// Thickness of the outer wall, and by how much the truth may lie on either side of it.
    pub wall: Option<[Millimetres; 2]>,
    /// Share of the face that is gel with its seeds.
    pub gel: Percent,
    /// Colour of the flesh.
    pub flesh: Option<Lab>,
    /// Colour of the gel.
    pub jelly: Option<Lab>,
    /// How many lobes it has; 0 is smooth.
    pub lobes: u32,
}

impl CutFace {
    /// The locules that may be filed: as somebody counted them, else where both ways of counting agree.
    #[must_use]
    pub fn locules(&self) -> Option<u32> {
        self.told.or_else(|| self.counted.agrees().then_some(self.counted.likely))
    }
}

/// Takes a measured face; `None` where a measure is none.
pub(super) fn of_face(face: &Face, told: Option<u32>) -> Option<CutFace> {
    let colour = |place: usize| {
        let lab = face.colours.as_ref()?.get(place)?;
        Lab::new(lab.l, lab.a, lab.b)
    };
    let wall = face.wall.and_then(|[thickness, sd]| {
        Some([Millimetres::new(thickness)?, Millimetres::new(NINE_IN_TEN * sd)?])
    });
    Some(CutFace {
        least_width: Millimetres::new(face.least_width)?,
        give: Millimetres::new(NINE_IN_TEN * face.width_sd)?,
        height: Millimetres::new(face.level.height)?,
        height_by: face.level.told_by,
        counted: face.locules,
        told,
        wall,
        gel: Percent::new(100.0 * face.gel_share)?,
        flesh: colour(0),
        jelly: colour(1),
        lobes: face.lobes,
    })
}
