//! Bed maps: what is on the sheet, and that it can be read.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

mod reading;

use drawing::bed_map::{
    Area, BedMap, Edges, Mapped, MappedBed, MappedGarden, MappedPlace, MappedPlot, Shading, Standing, bed_map,
};
use proptest::prelude::{Strategy, prop_assert, proptest};
use record::length::Millimetres;

fn area(from: f64, to: f64, near: f64, far: f64) -> Area {
    let [from, to, near, far] =
        [from, to, near, far].map(|metres| Millimetres::new(metres * 1000.0).unwrap());
    Area { from, to, near, far }
}

fn plot(at: u32, row: u32, value: Option<f64>) -> MappedPlace {
    let (x, y) = (f64::from(at), f64::from(row));
    let what = Mapped::Plot(MappedPlot {
        label: format!("{}0{}", row + 1, at + 1),
        variety: if at == 1 { "Check 1".to_owned() } else { format!("Trial {}", at + 1) },
        standing: if at == 1 { Standing::Check } else { Standing::Candidate },
        replicate: row + 1,
        block: 2 * row + at / 2,
        value,
    });
    MappedPlace { area: area(0.5 + 3.0 * x, 3.5 + 3.0 * x, 0.6 * y, 0.6 + 0.6 * y), what }
}

/// One bed of two rows: guards, four plots a row, a tap at the end.
fn home(shading: Option<Shading>) -> BedMap {
    let mut places = vec![
        MappedPlace { area: area(0.0, 0.5, 0.0, 1.2), what: Mapped::Guard },
        MappedPlace { area: area(12.5, 14.0, 0.0, 1.2), what: Mapped::Unusable("tap".to_owned()) },
        MappedPlace { area: area(9.5, 12.5, 0.6, 1.2), what: Mapped::Spare },
    ];
    let value = |at: u32, row: u32| shading.is_some().then(|| f64::from(at) + f64::from(row));
    places.extend((0..4).map(|at| plot(at, 0, value(at, 0))));
    places.extend((0..3).map(|at| plot(at, 1, value(at, 1))));
    let beds = vec![MappedBed { name: "Bed 1".to_owned(), area: area(0.0, 14.0, 0.0, 1.2) }];
    let gardens = vec![MappedGarden { name: "Home".to_owned(), beds, places }];
    BedMap { title: "2031 Home".to_owned(), gardens, shading, edges: Edges::BlocksAndReplicates }
}

fn kilograms() -> Shading {
    Shading { words: "kg a plant, fitted".to_owned(), least: 0.0, most: 4.0 }
}

/// Look at the drawing before accepting a change.
#[test]
fn maps_look_as_before() {
    insta::assert_snapshot!("bed_map", bed_map(&home(None)).markup().replace("><", ">\n<"));
    insta::assert_snapshot!(
        "bed_map_shaded",
        bed_map(&home(Some(kilograms()))).markup().replace("><", ">\n<")
    );
}

/// Every stake and variety can be read, the check is framed, the whole is told in words.
#[test]
fn everything_is_on_the_sheet() {
    let svg = bed_map(&home(None));
    let page = roxmltree::Document::parse(svg.markup()).unwrap();
    let words: Vec<&str> =
        page.descendants().filter(|node| node.has_tag_name("text")).filter_map(|t| t.text()).collect();
    for expected in ["Home", "Bed 1, 14 m (46 ft)", "101", "104", "203", "Trial 1", "Check 1", "tap"] {
        assert!(words.contains(&expected), "{expected} among {words:?}");
    }
    let framed = page.descendants().filter(|node| node.attribute("class") == Some("check")).count();
    assert_eq!(framed, 2);
    let title = page.descendants().find(|node| node.has_tag_name("title")).and_then(|title| title.text());
    assert_eq!(title, Some("2031 Home: 7 plots in 1 bed, 2 of them checks"));
    // A plot of 3 m is 58 pixels long, so that its stake can be read on a phone that scrolls the map.
    assert!(14.0 / 3.0 * 58.0 < svg.width().get());
}

/// Words on a shade keep a contrast of at least 4.5 to 1. Source: Web Content Accessibility Guidelines 2.2, success
/// criterion 1.4.3, and its relative luminance.
#[test]
fn words_on_every_shade_can_be_read() {
    for step in 0..=40 {
        let mut map = home(Some(kilograms()));
        map.gardens[0].places = vec![plot(0, 0, Some(f64::from(step) / 10.0))];
        let svg = bed_map(&map);
        let page = roxmltree::Document::parse(svg.markup()).unwrap();
        let fill_of = |class: &str| {
            let node = page.descendants().find(|node| node.attribute("class") == Some(class)).unwrap();
            node.attribute("fill").unwrap().to_owned()
        };
        let bed = page.descendants().filter(|node| node.has_tag_name("rect")).nth(1).unwrap();
        let (ground, ink) = (luminance(bed.attribute("fill").unwrap()), luminance(&fill_of("variety")));
        let contrast = (ground.max(ink) + 0.05) / (ground.min(ink) + 0.05);
        assert!(4.5 <= contrast, "{contrast} at {step}");
    }
}

fn luminance(hex: &str) -> f64 {
    let channel = |at: usize| {
        let share = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).unwrap()) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

proptest! {
    /// Whatever the numbers, others can read the drawing, and nothing leaves the sheet.
    #[test]
    fn any_map_can_be_read(values in proptest::collection::vec(proptest::num::f64::ANY.prop_map(Some), 8), least in proptest::num::f64::ANY, most in proptest::num::f64::ANY) {
        let mut map = home(Some(Shading { words: "<kg> & more".to_owned(), least, most }));
        for (place, value) in map.gardens[0].places.iter_mut().skip(3).zip(&values) {
            if let Mapped::Plot(plot) = &mut place.what {
                plot.value = *value;
            }
        }
        let svg = bed_map(&map);
        prop_assert!(roxmltree::Document::parse(svg.markup()).is_ok());
        let tree = reading::tree(&svg);
        let sheet = tree.size().to_rect(0.0, 0.0).unwrap();
        for bounds in reading::path_bounds(tree.root()) {
            prop_assert!(sheet.left() <= bounds.left() && bounds.right() <= sheet.right(), "{bounds:?}");
            prop_assert!(sheet.top() <= bounds.top() && bounds.bottom() <= sheet.bottom(), "{bounds:?}");
        }
    }
}
