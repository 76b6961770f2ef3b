//! How warmth is counted, in words: the ways that can be asked for, and a clock as it is told.
//!
//! Start at [`Wish::clock`]; [`named`] tells a clock with all that its numbers mean something by.

pub use ripening::thermal::wished::{USUAL, Way, Wish, WishFault};
pub use ripening::thermal::{Clock, Course, CutOff, Method};

/// Every way of counting, as it is written and as it is told.
pub const WAYS: [(&str, Way, &str); 8] = [
    ("average", Way::Average, "Mean of lowest and highest, without a ceiling"),
    ("capped", Way::Capped, "The same, the highest cut at the ceiling"),
    ("modified", Way::Modified, "Both brought between base and ceiling first"),
    ("sine", Way::Sine, "A sine through the day"),
    ("double-sine", Way::DoubleSine, "A sine down to the next night"),
    ("triangle", Way::Triangle, "Straight lines through the day"),
    ("double-triangle", Way::DoubleTriangle, "Straight lines down to the next night"),
    ("beta", Way::Beta, "Beta response to the day's mean"),
];

/// What may happen above the ceiling, as it is written and as it is told.
pub const CUT_OFFS: [(&str, CutOff, &str); 3] = [
    ("horizontal", CutOff::Horizontal, "goes on as fast as at the ceiling"),
    ("intermediate", CutOff::Intermediate, "slows down as fast as it rose"),
    ("vertical", CutOff::Vertical, "stops"),
];

/// A clock in the words that ask for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written {
    /// The way of counting; `capped-mean` is that of a fruit from flower to ripe, which cannot be asked for.
    pub way: &'static str,
    /// What happens above the ceiling, of sines and triangles.
    pub cut_off: Option<&'static str>,
    /// Degrees Celsius above which nothing more is gained; none of a way without one.
    pub ceiling: Option<f64>,
    /// Degrees Celsius at which growth is fastest, of beta.
    pub best: Option<f64>,
}

/// Writes a clock as it would be asked for.
#[must_use]
pub fn written(clock: &Clock) -> Written {
    let (way, cut_off, best) = match clock.method {
        Method::Average => ("average", None, None),
        Method::CappedAverage => ("capped", None, None),
        Method::CappedMean => ("capped-mean", None, None),
        Method::ModifiedAverage => ("modified", None, None),
        Method::Sine(Course::Single, cut) => ("sine", Some(cut), None),
        Method::Sine(Course::Double, cut) => ("double-sine", Some(cut), None),
        Method::Triangle(Course::Single, cut) => ("triangle", Some(cut), None),
        Method::Triangle(Course::Double, cut) => ("double-triangle", Some(cut), None),
        Method::Beta { best } => ("beta", None, Some(best)),
    };
    let cut_off = cut_off.and_then(|cut_off| CUT_OFFS.iter().find(|(_, own, _)| *own == cut_off));
    let ceiling = clock.ceiling.filter(|_| clock.method != Method::Average);
    Written { way, cut_off: cut_off.map(|(word, ..)| *word), ceiling, best }
}

/// A clock with all that its numbers mean something by.
#[must_use]
pub fn named(clock: &Clock) -> String {
    let method = match clock.method {
        Method::Average => "mean of lowest and highest".to_owned(),
        Method::CappedAverage | Method::CappedMean => "mean of lowest and highest, capped".to_owned(),
        Method::ModifiedAverage => "modified mean of lowest and highest".to_owned(),
        Method::Sine(course, cut_off) => format!("{} sine{}", course_named(course), cut_off_named(cut_off)),
        Method::Triangle(course, cut_off) => {
            format!("{} triangle{}", course_named(course), cut_off_named(cut_off))
        }
        Method::Beta { best } => format!("beta response, fastest at {best}"),
    };
    let ceiling = written(clock).ceiling.map(|ceiling| format!(" to {ceiling}")).unwrap_or_default();
    format!("degree-days (°C) over {}{ceiling} by {method}", clock.base)
}

fn course_named(course: Course) -> &'static str {
    match course {
        Course::Single => "single",
        Course::Double => "double",
    }
}

/// Nothing of the usual one.
fn cut_off_named(cut_off: CutOff) -> &'static str {
    match cut_off {
        CutOff::Horizontal => "",
        CutOff::Intermediate => " with an intermediate cut-off",
        CutOff::Vertical => " with a vertical cut-off",
    }
}
