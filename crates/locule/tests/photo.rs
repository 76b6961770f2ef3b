//! Photographs through the program: measured, drawn over, taken as fruit samples, refused; and the card that is printed for
//! them, found again in a picture of the printed page.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod program;

use program::{House, root};
use serde_json::{Value, json};
use std::fs;
use std::process::Command;

const PLOTS: &str = "grow-out,season,plot,variety\n2026 Home Garden,2026,H-019,Chapel Oak\n2026 Home Garden,2026,H-020,Weather Vane\n";

/// Asserts that it refuses, names what is wrong and says what helps.
#[track_caller]
fn refused(house: &House, arguments: &[&str], named: &str) {
    let (code, _, told) = house.run(arguments);
    assert_eq!(code, 2, "{told}");
    assert!(told.contains(named) && told.contains("help: "), "{told}");
}

/// A house with the plot that the demo's card was printed for.
fn house() -> House {
    let house = House::new();
    let varieties = house.write("varieties.csv", "variety\nChapel Oak\nWeather Vane\n");
    let plots = house.write("plots.csv", PLOTS);
    house.ok(&["take", &varieties]);
    house.ok(&["take", &plots, "--kind", "grow-out"]);
    house
}

fn photograph() -> String {
    root().join("demo-house/photos/chapel-oak.jpg").to_str().unwrap().to_owned()
}

/// What the demo's photograph shows, as it was drawn: `examples/made_photograph.rs` of the photo crate.
const DRAWN: [(f64, f64); 9] = [
    (61.5, 43.0),
    (55.4, 41.2),
    (63.2, 44.6),
    (57.9, 41.5),
    (59.3, 43.4),
    (64.8, 44.1),
    (52.7, 39.6),
    (60.6, 42.2),
    (58.1, 42.9),
];

/// Locules of the two cut faces on it, in reading order.
const CUT: [u64; 2] = [2, 3];

/// The cut faces of a told photograph.
fn faces(told: &Value) -> Vec<&Value> {
    let fruit = told.pointer("/photographs/0/fruit").unwrap().as_array().unwrap();
    fruit.iter().filter(|fruit| fruit.get("lies") == Some(&json!("cut"))).collect()
}

/// Locules are counted, filed with the width and the colours of flesh and gel, and a count that somebody made goes before ours.
#[test]
fn cut_faces_are_counted_and_filed() {
    let house = house();
    let told = house.ok(&["photo", &photograph()]);
    let counts: Vec<u64> = faces(&told).iter().map(|face| face["cut"]["locules"].as_u64().unwrap()).collect();
    assert_eq!(counts, CUT);
    for face in faces(&told) {
        assert!((face["width_mm"].as_f64().unwrap() - 42.8).abs() < 2.5, "{face}");
        assert_eq!(
            (face["weight_g"].is_null(), &face["cut"]["face_height_by"]),
            (true, &json!("whole fruit"))
        );
    }
    let last = faces(&told)[1]["number"].to_string();
    refused(
        &house,
        &["photo", &photograph(), "--locules", "1=3"],
        "fruit 1 of the photograph is not seen to be cut",
    );
    refused(&house, &["photo", &photograph(), "--locules", &format!("{last}=many")], "how many locules");
    let told = house.ok(&["photo", &photograph(), "--take", "--locules", &format!("{last}=4")]);
    assert_eq!(faces(&told)[1]["cut"]["locules"], 4);
    let taken = told["photographs"][0]["taken"].as_array().unwrap();
    assert_eq!(taken.iter().map(|table| table["added"].as_u64().unwrap()).collect::<Vec<_>>(), [11, 9, 2, 2]);
    let shown = house.ok(&["show", "Chapel Oak", "--records"]).to_string();
    assert!(shown.contains("2 locules") && shown.contains("4 locules"), "{shown}");
}

#[test]
fn a_photograph_is_measured_and_drawn_over() {
    let house = house();
    let told = house.ok(&["photo", &photograph(), "--overlay", &house.at("over.png")]);
    let photograph = &told["photographs"][0];
    assert_eq!(photograph["taken_on"], "2026-08-21");
    let fruit = photograph["fruit"].as_array().unwrap();
    let mut seen: Vec<f64> = fruit.iter().filter_map(|fruit| fruit["length_mm"].as_f64()).collect();
    assert_eq!((fruit.len(), seen.len()), (DRAWN.len() + CUT.len(), DRAWN.len()));
    let mut drawn = DRAWN.map(|(length, _)| length).to_vec();
    seen.sort_by(f64::total_cmp);
    drawn.sort_by(f64::total_cmp);
    for (seen, drawn) in seen.iter().zip(drawn) {
        assert!((seen - drawn).abs() < 1.0, "{seen} against {drawn}");
    }
    let picture = image::open(house.at("over.png")).unwrap();
    assert_eq!((picture.width(), picture.height()), (1600, 1200));
    house.ok(&["photo", &self::photograph(), "--overlay", &house.at("over.svg")]);
    let drawing = fs::read_to_string(house.at("over.svg")).unwrap();
    assert!(drawing.starts_with("<svg") && drawing.contains("data:image/jpeg;base64,"));
}

#[test]
fn fruit_are_taken_once_under_the_plot_of_their_card_and_undone_as_a_batch() {
    let house = house();
    let told = house.ok(&["photo", &photograph(), "--take", "--leave-out", "2,5"]);
    let taken = told["photographs"][0]["taken"].as_array().unwrap();
    assert_eq!(taken.iter().map(|table| table["added"].as_u64().unwrap()).collect::<Vec<_>>(), [9, 7, 2, 2]);
    assert_eq!(taken[0]["kind"], "fruit samples");
    let shown = house.ok(&["show", "Chapel Oak", "--records"]).to_string();
    assert!(shown.contains("chapel-oak.jpg"), "{shown}");
    let again = house.ok(&["photo", &photograph(), "--take"]);
    assert_eq!(again["taken_before"][0]["batch"], taken[0]["batch"]);
    let batch = taken[0]["batch"].to_string();
    house.ok(&["undo", &batch]);
    let other = house.ok(&["photo", &photograph(), "--take", "--plot", "h-020", "--plant", "2"]);
    assert_eq!(other["photographs"][0]["taken"][0]["added"], 11);
}

/// What was said by hand stands with the batch, so that a measure can be traced to it.
#[test]
fn a_part_is_cut_and_two_are_joined_as_somebody_says() {
    let house = house();
    let cut = ["--change", "cut 5", "--change", "join 5 12", "--change", "cut 5 along 0,0 5,5"];
    let fruit = |changes: &[&str]| {
        let told = house.ok(&[&["photo", &photograph()], changes].concat());
        told["photographs"][0]["fruit"]
            .as_array()
            .unwrap()
            .iter()
            .map(|fruit| fruit["number"].clone())
            .collect()
    };
    let (plain, parted, joined): (Vec<_>, Vec<_>, Vec<_>) = (fruit(&[]), fruit(&cut[..2]), fruit(&cut[..4]));
    assert_eq!((plain.len(), parted.len()), (11, 12));
    assert_eq!(parted.last(), Some(&json!(12)), "the second piece takes the next free number");
    assert_eq!(joined, plain);
    let refusals = [
        ("cut five", "how parts of the picture hang together"),
        ("cut 40", "no part 40"),
        ("join 1 2", "do not touch"),
        (cut[5], "does not come apart"),
    ];
    for (words, named) in refusals {
        refused(&house, &["photo", &photograph(), "--change", words], named);
    }
    house.ok(&["photo", &photograph(), "--take", "--change", "cut 5", "--leave-out", "5,12"]);
    let history = house.ok(&["history"]).to_string();
    assert!(history.contains("cut 5; leave out 5; leave out 12"), "{history}");
}

#[test]
fn what_cannot_be_measured_or_filed_is_refused_in_words() {
    let house = house();
    let text = house.write("notes.jpg", "no picture");
    refused(&house, &["photo", &text], "neither a JPEG nor a PNG");
    let photograph = photograph();
    refused(&house, &["photo", &photograph, "--leave-out", "40"], "no fruit 40");
    refused(&house, &["photo", &photograph, "--stem", "3=sideways"], "how a stem lies");
    refused(&house, &["photo", &photograph, "--line", "7 m"], "no length of the card's line");
    refused(&house, &["photo", &photograph, "--overlay", &house.at("over.gif")], "gif");
    refused(&house, &["photo", &photograph, "--take", "--plot", "Z-9"], "no plot \"Z-9\"");
    refused(
        &house,
        &["photo", &photograph, "--take", "--plot", "H-019", "--grow-out", "2031"],
        "no grow-out",
    );
    let empty = House::new();
    refused(&empty, &["photo", &photograph, "--take"], "does not say which plot");
}

/// What was interrupted is begun again with the same words: what is in is not measured again.
#[test]
fn a_folder_of_photographs_is_measured_and_begun_again() {
    let house = house();
    fs::create_dir_all(house.at("summer/empty")).unwrap();
    fs::copy(photograph(), house.at("summer/one.jpg")).unwrap();
    house.write("summer/notes.txt", "no picture");
    let told = house.ok(&["photo", &house.at("summer"), "--take"]);
    assert_eq!(told["photographs"].as_array().unwrap().len(), 1);
    let other = [fs::read(photograph()).unwrap(), vec![0]].concat();
    fs::write(house.at("summer/two.JPG"), other).unwrap();
    let again = house.ok(&["photo", &house.at("summer"), "--take"]);
    assert_eq!(again["taken_before"][0]["file"], "one.jpg");
    assert_eq!(again["photographs"][0]["file"], "two.JPG");
    refused(&house, &["photo", &house.at("summer/empty")], "holds no JPEG or PNG");
}

#[test]
fn of_several_photographs_each_is_told() {
    let house = house();
    let text = house.write("notes.jpg", "no picture");
    let (code, told, _) = house.run(&["photo", &photograph(), &text]);
    assert_eq!(code, 2);
    assert_eq!(told["photographs"].as_array().unwrap().len(), 1);
    assert_eq!(told["refused"][0]["file"], "notes.jpg");
}

/// The picture with two red ovals on its lower part, where fruit would lie.
fn with_fruit(file: &str) -> String {
    let mut picture = image::open(file).unwrap().to_rgb8();
    let height = picture.height();
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        let far = |middle: f64| {
            let (across, down) =
                ((f64::from(x) - middle) / 140.0, (f64::from(y) - f64::from(height) + 220.0) / 110.0);
            across * across + down * down
        };
        if far(350.0) < 1.0 || far(900.0) < 1.0 {
            *pixel = image::Rgb([170, 40, 30]);
        }
    }
    picture.save(file).unwrap();
    file.to_owned()
}

/// The printed page as a photograph of it: rasterised by another program, which knows nothing of cards.
#[test]
fn the_printed_card_is_found_and_says_its_plot() {
    let house = house();
    for paper in ["letter", "a4"] {
        let pdf = house.at(&format!("{paper}.pdf"));
        let told = house.ok(&[
            "print",
            "card",
            "H-019",
            "--paper",
            paper,
            "--to",
            &pdf,
            "--grow-out",
            "2026 Home Garden",
        ]);
        assert_eq!(told["plot"], "H-019");
        let page = house.at(&format!("{paper}-page"));
        let drawn = Command::new("pdftoppm").args(["-r", "150", "-png", "-singlefile", &pdf, &page]).status();
        if drawn.is_err() {
            println!("left out: the printed card on {paper}, no pdftoppm");
            continue;
        }
        let told = house.ok(&["photo", &with_fruit(&format!("{page}.png"))]);
        let photograph = &told["photographs"][0];
        assert_eq!(photograph["card"], "card 1");
        assert_eq!(photograph["plot"], json!({ "grow_out": "2026 Home Garden", "label": "H-019" }));
        assert_eq!(photograph["fruit"].as_array().unwrap().len(), 2);
    }
    refused(&house, &["print", "card", "Z-9"], "no plot \"Z-9\"");
}
