//! What measures are worth beside the truth of a made picture.

use crate::faces::Faces;
use photo::card::POSTCARD;
use photo::colour::{Lab, difference};
use photo::measure::{Form, Fruit, Measured};
use photo::solid::Solid;
use photo::spread::NINE_IN_TEN;
use serde_json::Value;
use std::collections::BTreeMap;

/// A fruit counts as found where it and its mask share this much of what either covers.
const FOUND: f64 = 0.85;

/// What is scored of one picture, or of several.
#[derive(Default)]
pub(crate) struct Score {
    scored: usize,
    found: usize,
    false_ones: usize,
    length: Vec<f64>,
    width: Vec<f64>,
    width_bias: Vec<f64>,
    ratio: Vec<f64>,
    volume: Vec<f64>,
    weight: Vec<f64>,
    neck: Vec<f64>,
    swapped: usize,
    unsure: usize,
    poses_wrong: usize,
    lobes_right: Vec<f64>,
    deep_lobes_right: Vec<f64>,
    pub(crate) faces: Faces,
    covered: [Vec<f64>; 3],
    markers: Vec<f64>,
    colour: Vec<f64>,
    /// What one who looks at a single picture wants to know.
    pub(crate) notes: Vec<String>,
}

/// Lobes deeper than this share of the radius are scored apart.
const DEEP_LOBES: f64 = 0.03;

pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}

impl Score {
    /// All of it in a line.
    pub(crate) fn line(&self) -> String {
        format!(
            "found {}/{} false {} | L {:.2} W {:.2} ({:+.2}) mm | L/W {:.3} | V {:.1}% wt {:.1}% | neck {:.3} | axis swapped {} \
             unsure {}, pose wrong {} | lobes right {:.2}, deep {:.2} | held L {:.2} W {:.2} wt {:.2} | markers worst {:.2} px | dE00 median {:.1}",
            self.found,
            self.scored,
            self.false_ones,
            mean(&self.length),
            mean(&self.width),
            mean(&self.width_bias),
            mean(&self.ratio),
            100.0 * mean(&self.volume),
            100.0 * mean(&self.weight),
            mean(&self.neck),
            self.swapped,
            self.unsure,
            self.poses_wrong,
            mean(&self.lobes_right),
            mean(&self.deep_lobes_right),
            mean(&self.covered[0]),
            mean(&self.covered[1]),
            mean(&self.covered[2]),
            self.markers.iter().copied().fold(0.0, f64::max),
            median(&self.colour),
        )
    }

    /// Scores one fruit that was found.
    fn of_fruit(&mut self, found: &Fruit, fruit: &Value) {
        let number = |field: &str| fruit[field].as_f64().unwrap();
        match (found.form, fruit["pose"].as_str().unwrap()) {
            (Form::Standing { solid, lobes }, "top") => {
                self.width.push((solid.width - number("width_mm")).abs());
                self.width_bias.push(solid.width - number("width_mm"));
                let told = fruit["lobes"].as_u64().unwrap_or(0);
                self.lobes_right.push(f64::from(u8::from(u64::from(lobes) == told)));
                if DEEP_LOBES < number("lobe_amplitude") {
                    self.deep_lobes_right.push(f64::from(u8::from(u64::from(lobes) == told)));
                }
            }
            (Form::Cut(face), "cut") => self.notes.push(self.faces.of_face(&face, fruit)),
            (Form::Lying(solid), "side") => self.of_lying(found, solid, fruit),
            (Form::Standing { .. } | Form::Cut(_), _) | (Form::Lying(_), _) => {
                self.notes
                    .push(format!("fruit {} ({}) is taken to lie otherwise", fruit["id"], fruit["family"]));
                self.poses_wrong += 1;
            }
        }
    }

    fn of_lying(&mut self, found: &Fruit, solid: Solid, fruit: &Value) {
        let number = |field: &str| fruit[field].as_f64().unwrap();
        if let Some(seen) = found.colour {
            let told = fruit["albedo_lab_d65"].as_array().unwrap();
            let part = |axis: usize| told[axis].as_f64().unwrap();
            self.colour.push(difference(seen, Lab { l: part(0), a: part(1), b: part(2) }));
        }
        let (length, width) = (number("length_mm"), number("width_mm"));
        let spread = found.spread.unwrap();
        let holds = |off: f64, sd: f64| f64::from(u8::from(off.abs() <= NINE_IN_TEN * sd));
        self.covered[0].push(holds(solid.length - length, spread.length));
        self.covered[1].push(holds(solid.width - width, spread.width));
        let weight = found.weight().unwrap().get();
        self.covered[2].push(holds(weight / number("weight_g") - 1.0, spread.weight_share));
        self.length.push((solid.length - length).abs());
        self.width.push((solid.width - width).abs());
        self.width_bias.push(solid.width - width);
        self.ratio.push((solid.length / solid.width - length / width).abs());
        self.volume.push((solid.volume / number("volume_cm3") - 1.0).abs());
        self.weight.push((found.weight().unwrap().get() / number("weight_g") - 1.0).abs());
        self.neck.push((solid.neck - number("neck")).abs());
        let crosswise = (solid.width - length).abs() + (solid.length - width).abs();
        let straight = (solid.width - width).abs() + (solid.length - length).abs();
        self.swapped += usize::from(crosswise < straight && 0.1 < (length / width - 1.0).abs());
        self.unsure += usize::from(solid.axis == photo::solid::Axis::Unsure);
    }

    /// Puts the scores of another picture with these.
    pub(crate) fn take(&mut self, other: Score) {
        for (ours, theirs) in self.covered.iter_mut().zip(&other.covered) {
            ours.extend(theirs);
        }
        self.scored += other.scored;
        self.found += other.found;
        self.false_ones += other.false_ones;
        self.swapped += other.swapped;
        self.unsure += other.unsure;
        self.poses_wrong += other.poses_wrong;
        self.faces.take(other.faces);
        for (ours, theirs) in [
            (&mut self.length, other.length),
            (&mut self.width, other.width),
            (&mut self.width_bias, other.width_bias),
            (&mut self.ratio, other.ratio),
            (&mut self.volume, other.volume),
            (&mut self.weight, other.weight),
            (&mut self.neck, other.neck),
            (&mut self.markers, other.markers),
            (&mut self.lobes_right, other.lobes_right),
            (&mut self.deep_lobes_right, other.deep_lobes_right),
            (&mut self.colour, other.colour),
        ] {
            ours.extend(theirs);
        }
    }
}

/// Scores what was measured of a picture whose truth and mask are as large as it.
pub(crate) fn score(measured: &Measured, truth: &Value, mask: &image::GrayImage) -> Score {
    let mut score = Score::default();
    let mut both: BTreeMap<(u32, u8), f64> = BTreeMap::new();
    let (mut ours, mut theirs) = (BTreeMap::new(), BTreeMap::new());
    for (label, pixel) in measured.parted.labels.cells().iter().zip(mask.as_raw()) {
        *both.entry((*label, *pixel)).or_default() += 1.0;
        *ours.entry(*label).or_insert(0.0) += 1.0;
        *theirs.entry(*pixel).or_insert(0.0) += 1.0;
    }
    let shared = |label: u32, id: u8| {
        let both = both.get(&(label, id)).copied().unwrap_or(0.0);
        both / (ours[&label] + theirs.get(&id).copied().unwrap_or(0.0) - both)
    };
    for found in &measured.fruit {
        let best = theirs.keys().filter(|id| 0 < **id).map(|id| shared(found.label, *id)).fold(0.0, f64::max);
        if best < 0.3 {
            score.notes.push(format!("a false one: {:?}", found.form));
            score.false_ones += 1;
        }
    }
    for fruit in truth["fruits"].as_array().unwrap() {
        let number = |field: &str| fruit[field].as_f64().unwrap();
        if number("visible_fraction") <= 0.9 || fruit["touches_frame"] == true {
            continue;
        }
        score.scored += 1;
        let id = number("id") as u8;
        let Some(found) =
            measured.fruit.iter().max_by(|p, q| shared(p.label, id).total_cmp(&shared(q.label, id)))
        else {
            continue;
        };
        if shared(found.label, id) < FOUND {
            let shared = shared(found.label, id);
            score.notes.push(format!("fruit {id} ({}) badly parted: {shared:.2}", fruit["family"]));
            continue;
        }
        score.found += 1;
        score.of_fruit(found, fruit);
    }
    score.markers = markers(measured, truth);
    score
}

/// How far each marker's middle is off, px.
fn markers(measured: &Measured, truth: &Value) -> Vec<f64> {
    let told = truth["card"]["marker_centres_px"].as_array().into_iter().flatten();
    let off = |(place, pixel): (&[f64; 2], &Value)| {
        let [x, y] = measured.pose.camera.sees([place[0], place[1], 0.0]);
        (x - pixel[0].as_f64().unwrap()).hypot(y - pixel[1].as_f64().unwrap())
    };
    POSTCARD.markers.iter().zip(told).map(off).collect()
}
