//! What measures of cut faces are worth.

use crate::score::mean;
use photo::face::Face;
use photo::spread::NINE_IN_TEN;
use serde_json::Value;

/// What is scored of cut faces.
#[derive(Default)]
pub(crate) struct Faces {
    width: Vec<f64>,
    width_held: Vec<f64>,
    gel_share: Vec<f64>,
    exact: Vec<f64>,
    within_one: Vec<f64>,
    agreed: Vec<f64>,
    agreed_exact: Vec<f64>,
}

impl Faces {
    /// Scores one face, and tells how it was.
    pub(crate) fn of_face(&mut self, face: &Face, fruit: &Value) -> String {
        let number = |field: &str| fruit[field].as_f64().unwrap();
        let (told, ours) = (number("locules"), f64::from(face.locules.likely));
        self.width.push((face.width - number("width_mm")).abs());
        self.width_held
            .push(f64::from(u8::from(self.width.last().unwrap() <= &(NINE_IN_TEN * face.width_sd))));
        self.gel_share.push((face.gel_share - number("locule_area_fraction")).abs());
        self.exact.push(f64::from(u8::from(told == ours)));
        self.within_one.push(f64::from(u8::from((told - ours).abs() <= 1.0)));
        self.agreed.push(f64::from(u8::from(face.locules.agrees())));
        if face.locules.agrees() {
            self.agreed_exact.push(f64::from(u8::from(told == ours)));
        }
        format!(
            "face of {told} locules: {} by sectors, {} by patches, chances {:.2?}; width {:.1} ± {:.1} against {:.1} mm, gel {:.2} \
             against {:.2}, wall {:.1?} mm",
            face.locules.sectors,
            face.locules.patches,
            face.locules.chances,
            face.width,
            NINE_IN_TEN * face.width_sd,
            number("width_mm"),
            face.gel_share,
            number("locule_area_fraction"),
            face.wall
        )
    }

    /// Puts the scores of another picture with these.
    pub(crate) fn take(&mut self, other: Self) {
        self.width.extend(other.width);
        self.width_held.extend(other.width_held);
        self.gel_share.extend(other.gel_share);
        self.exact.extend(other.exact);
        self.within_one.extend(other.within_one);
        self.agreed.extend(other.agreed);
        self.agreed_exact.extend(other.agreed_exact);
    }

    /// All of it in a line.
    pub(crate) fn line(&self) -> String {
        format!(
            "cut faces {} | locules exact {:.2} within one {:.2}, both ways agree {:.2} and then exact {:.2} | W {:.2} mm, held {:.2} | \
             gel share {:.3}",
            self.width.len(),
            mean(&self.exact),
            mean(&self.within_one),
            mean(&self.agreed),
            mean(&self.agreed_exact),
            mean(&self.width),
            mean(&self.width_held),
            mean(&self.gel_share)
        )
    }
}
