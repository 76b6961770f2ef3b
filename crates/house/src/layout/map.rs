//! The bed map of a layout, for the drawing.

use drawing::bed_map::{
    Area, BedMap, Edges, Mapped, MappedBed, MappedGarden, MappedPlace, MappedPlot, Standing,
};
use record::length::Millimetres;
use trial::ground::{Bed, Garden, Place, Purpose};
use trial::layout::{Layout, Role};

/// The bed map of a layout in its gardens.
#[must_use]
pub fn of(title: &str, gardens: &[Garden], layout: &Layout) -> BedMap {
    let garden = |(number, garden): (usize, &Garden)| MappedGarden {
        name: garden.name.clone(),
        beds: beds(&garden.beds),
        places: places(number, layout),
    };
    BedMap {
        title: title.to_owned(),
        gardens: gardens.iter().enumerate().map(garden).collect(),
        shading: None,
        edges: Edges::BlocksAndReplicates,
    }
}

/// The beds side by side, each beyond the path of the one before.
fn beds(beds: &[Bed]) -> Vec<MappedBed> {
    let mut near = 0.0;
    let mut mapped = Vec::new();
    for bed in beds {
        let far = near + bed.width.get();
        let across = |length: f64| Millimetres::new(length).unwrap_or(Millimetres::NONE);
        let area = Area { from: Millimetres::NONE, to: bed.length, near: across(near), far: across(far) };
        mapped.push(MappedBed { name: bed.name.clone(), area });
        near = far + bed.path_after.get();
    }
    mapped
}

fn places(garden: usize, layout: &Layout) -> Vec<MappedPlace> {
    let plots = layout.plots.iter().filter(|plot| plot.place.garden == garden).map(|plot| MappedPlace {
        area: area(&plot.place),
        what: plot.planted.as_ref().map_or(Mapped::Spare, |planted| {
            let entry = layout.entries.get(planted.entry);
            Mapped::Plot(MappedPlot {
                label: planted.label.clone(),
                variety: entry.map(|entry| entry.variety.clone()).unwrap_or_default(),
                standing: match entry.map(|entry| entry.role) {
                    Some(Role::Check) => Standing::Check,
                    _ => Standing::Candidate,
                },
                replicate: planted.replicate,
                block: planted.block,
                value: None,
            })
        }),
    });
    let others = layout.others.iter().filter(|place| place.garden == garden);
    let others = others.filter_map(|place| {
        let what = match &place.purpose {
            Purpose::Guard => Mapped::Guard,
            Purpose::Unusable(why) => Mapped::Unusable(why.clone()),
            Purpose::Plot => return None,
        };
        Some(MappedPlace { area: area(place), what })
    });
    plots.chain(others).collect()
}

fn area(place: &Place) -> Area {
    Area { from: place.from, to: place.to, near: place.near, far: place.far }
}
