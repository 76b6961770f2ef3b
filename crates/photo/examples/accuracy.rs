//! Scores the measures against the made pictures whose truth is known, and prints the table.
//!
//! `cargo run --release -p photo --example accuracy FOLDER` with the folder of pictures, masks and truth files. Fruit count
//! whose visible fraction is above 0.9 and that do not touch the frame; the shape of a fruit is scored for those that lie on
//! their side, its width also for standing ones.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a truth file that does not fit may stop it"
)]
#![expect(clippy::print_stdout, reason = "the table is what it is for")]

use photo::card::{KNOWN, POSTCARD};
use photo::colour::{Lab, difference};
use photo::decode::decode;
use photo::face::Face;
use photo::measure::{Form, Fruit, Measured, Wishes, measure};
use photo::solid::Solid;
use photo::spread::NINE_IN_TEN;
use record::length::Millimetres;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::time::Instant;

/// A fruit counts as found where it and its mask share this much of what either covers.
const FOUND: f64 = 0.85;

#[derive(Default)]
struct Score {
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
    faces: Faces,
    covered: [Vec<f64>; 3],
    markers: Vec<f64>,
    colour: Vec<f64>,
}

/// What is scored of cut faces.
#[derive(Default)]
struct Faces {
    width: Vec<f64>,
    width_held: Vec<f64>,
    gel_share: Vec<f64>,
    exact: Vec<f64>,
    within_one: Vec<f64>,
    agreed: Vec<f64>,
    agreed_exact: Vec<f64>,
}

/// Lobes deeper than this share of the radius are scored apart.
const DEEP_LOBES: f64 = 0.03;

impl Faces {
    fn of_face(&mut self, face: &Face, fruit: &Value) {
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
        println!(
            "    face of {told} locules: {} by sectors, {} by patches, chances {:.2?}; width {:.1} ± {:.1} against {:.1} mm, gel {:.2} \
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
        );
    }

    fn take(&mut self, other: Self) {
        self.width.extend(other.width);
        self.width_held.extend(other.width_held);
        self.gel_share.extend(other.gel_share);
        self.exact.extend(other.exact);
        self.within_one.extend(other.within_one);
        self.agreed.extend(other.agreed);
        self.agreed_exact.extend(other.agreed_exact);
    }

    fn line(&self) -> String {
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

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}

impl Score {
    fn line(&self) -> String {
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
            (Form::Cut(face), "cut") => self.faces.of_face(&face, fruit),
            (Form::Lying(solid), "side") => self.of_lying(found, solid, fruit),
            (Form::Standing { .. } | Form::Cut(_), _) | (Form::Lying(_), _) => {
                println!("    fruit {} ({}) is taken to lie otherwise", fruit["id"], fruit["family"]);
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

    fn take(&mut self, other: Score) {
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

fn score(measured: &Measured, truth: &Value, mask: &image::GrayImage) -> Score {
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
            println!("    a false one: {:?}", found.form);
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
            println!("    fruit {id} ({}) badly parted: {:.2}", fruit["family"], shared(found.label, id));
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

fn main() {
    let folder = std::env::args().nth(1).unwrap();
    let mut names: Vec<String> = std::fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".jpg"))
        .collect();
    names.sort();
    let mut all = Score::default();
    for name in names {
        let path = Path::new(&folder).join(&name);
        let truth: Value =
            serde_json::from_slice(&std::fs::read(path.with_extension("truth.json")).unwrap()).unwrap();
        let started = Instant::now();
        let stems = BTreeMap::new();
        let wishes =
            Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
        let measured = measure(&decode(&std::fs::read(&path).unwrap()).unwrap(), &wishes);
        let seconds = started.elapsed().as_secs_f64();
        println!("{name} (expected {}, {seconds:.2} s)", truth["expected"]);
        match measured {
            Err(refusal) => println!("    refused: {refusal}"),
            Ok(measured) => {
                let mask = image::open(path.with_extension("mask.png")).unwrap().to_luma8();
                let camera = measured.pose.camera;
                let told = truth["camera"]["height_mm"].as_f64().unwrap();
                println!(
                    "    height {:.1} against {told:.1} mm, tilt {:.1}, edges {:.1} px, residual {:.2} px, apart {:.2}",
                    camera.height(),
                    camera.tilt(),
                    measured.pose.edge_width,
                    measured.pose.residual,
                    measured.parted.apart
                );
                let scored = score(&measured, &truth, &mask);
                println!("    {}", scored.line());
                if truth["expected"] == "measure" {
                    all.take(scored);
                }
            }
        }
    }
    println!("all that must be measured: {}", all.line());
    println!("{}", all.faces.line());
}
