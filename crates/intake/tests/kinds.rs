//! Each kind of table that growers keep, from the bytes to everything that its rows give.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::{taken, taken_with};
use intake::entry::{Entry, PlotNamed};
use intake::kind::Kind;
use intake::layout::Answers;
use jiff::civil::date;
use record::colour::{ColourSeen, FruitPart, Pattern, Skin, TradeColour};
use record::fruit::Severity;
use record::growout::PlantNumber;
use record::note::Note;
use record::pick::CullCause;
use record::season::Season;
use record::stage::StageSeen;
use record::variety::ClaimSubject;

#[test]
fn everything_of_a_fruit_is_read() {
    let text = "plot,grow out,plant,date,n,fruit wt,len,dia,neck,locs,Brix,DM %,ribs,cracks,cat-facing,color,flesh,skin\n\
                B1,2031 Home,#3,2031-08-01,4,6 oz,2 1/4 in,2.6 in,\"2,1 in\",3,5.1°,6.2%,0,none,Slight,red,pink,clear\n\
                B1,2031 Home,4,2031-08-01,,-,,,,,,,,,,,,\n";
    let outcome = taken("samples.csv", text);
    let fruit = outcome.fruits()[0];
    assert_eq!((fruit.fruit_count.get(), fruit.subject.plant), (4, Some(PlantNumber(3))));
    assert_eq!(fruit.neck_width.map(|neck| (neck.get() * 100.0).round()), Some(5334.0));
    assert_eq!((fruit.locules, fruit.lobes), (Some(3), Some(0)));
    assert_eq!((fruit.cracking, fruit.catfacing), (Some(Severity::Absent), Some(Severity::Slight)));
    assert_eq!((fruit.exterior, fruit.flesh), (Some(TradeColour::Red), Some(TradeColour::Pink)));
    assert_eq!(fruit.skin, Some(Skin::Clear));
    assert_eq!((outcome.tally.unfilled, outcome.tally.rejected), (1, 0));
}

#[test]
fn picks_bring_their_culls() {
    let text = "plot,grow out,picked,count,weight (lb),cracked,BER,rot (oz),other\n\
                B1,2031 Home,8/14/31,12,4 lb 3 oz,2,1,6,\n\
                B1,2031 Home,8/15/31,,,3,,,\n\
                B1,2031 Home,8/16/31,0,0,0,,,\n\
                B1,2031 Home,,5,1,,,,\n";
    let outcome = taken("picks.csv", text);
    assert_eq!(outcome.layout.kind, Kind::Picks);
    let Note::Pick(pick) = outcome.notes()[0] else { panic!("no pick") };
    assert_eq!((pick.picked_on, pick.fruit_count), (date(2031, 8, 14), Some(12)));
    assert_eq!(pick.weight.map(|weight| weight.get().round()), Some(1899.0));
    let culls: Vec<_> =
        pick.culls.iter().map(|cull| (cull.cause, cull.fruit_count, cull.weight.is_some())).collect();
    assert_eq!(
        culls,
        [
            (CullCause::Cracked, Some(2), false),
            (CullCause::BlossomEndRot, Some(1), false),
            (CullCause::Rotten, None, true)
        ]
    );
    assert_eq!(
        outcome.reasons(),
        [
            "3: count: the row names no count or weight of sound fruit (0 if none)",
            "5: picked: the row names no date",
        ]
    );
    let by_word =
        taken("picks.csv", "variety,date,count,culls,cull cause\nNan,2031-08-01,40,3,Blossom-end rot\n");
    let Note::Pick(pick) = by_word.notes()[0] else { panic!("no pick") };
    assert_eq!(pick.culls[0].cause, CullCause::BlossomEndRot);
}

#[test]
fn heights_may_be_feet_and_inches() {
    let outcome =
        taken("heights.csv", "variety,date,height\nNan,2031-07-01,\"4' 6\"\"\"\nNan,2031-07-08,1.4 m\n");
    let heights: Vec<f64> = outcome
        .notes()
        .iter()
        .filter_map(
            |note| if let Note::Height(reading) = note { Some(reading.height.get().round()) } else { None },
        )
        .collect();
    assert_eq!((outcome.layout.kind, heights), (Kind::Heights, vec![1372.0, 1400.0]));
}

#[test]
fn one_walk_row_may_note_several_stages() {
    let text = "plot,grow-out,plant,date,first flower,first ripe,stem ended,trusses,leaves between trusses,plants,off-types,off-type notes,dwarf leaves\n\
                B1,2031 Home,2,2031-08-01,Jun 20,x,yes,5,1.5,6,1,\"potato leaf, no fruit\",no\n\
                B1,2031 Home,3,2031-08-01,,,no,9,3,,,,\n\
                B1,2031 Home,4,2031-08-01,,,7,,,,,,yes\n\
                B1,2031 Home,5,2031-08-01,,,,4,,,,,\n";
    let outcome = taken("stages.csv", text);
    let seen: Vec<&StageSeen> = outcome
        .notes()
        .iter()
        .filter_map(|note| if let Note::Stage(note) = note { Some(&note.seen) } else { None })
        .collect();
    assert_eq!(outcome.layout.kind, Kind::Stages);
    assert_eq!(seen[0], &StageSeen::FirstFlower);
    assert_eq!(seen[1], &StageSeen::FirstRipe);
    assert_eq!(seen[2], &StageSeen::StemEnded { trusses: Some(5) });
    assert!(matches!(seen[3], StageSeen::LeavesBetweenTrusses(leaves) if leaves.get() == 1.5));
    assert_eq!(seen[4], &StageSeen::PlantCount(6));
    assert_eq!(seen[5], &StageSeen::OffType { plants: 1, words: "potato leaf, no fruit".to_owned() });
    assert_eq!(seen[6], &StageSeen::StemGrowing { trusses: 9 });
    assert_eq!(seen[8], &StageSeen::StemEnded { trusses: Some(7) });
    assert_eq!(seen[9], &StageSeen::DwarfLeaves);
    assert_eq!(
        outcome.reasons(),
        ["5: stem ended: the row names no end of the stem (yes or no) beside its trusses"]
    );
    let Note::Stage(flower) = outcome.notes()[0] else { panic!("no stage") };
    assert_eq!(flower.noted_on, Some(date(2031, 6, 20)));
    // Every entry of one row carries the row's fingerprint.
    assert!(outcome.fingerprints[..6].iter().all(|print| *print == outcome.fingerprints[0]));
    assert_ne!(outcome.fingerprints[5], outcome.fingerprints[6]);
}

#[test]
fn one_stage_a_row_is_read_too() {
    let text = "variety,date,stage,value\nNan,2031-06-20,First flower,\nNan,2031-08-01,stem ended,6\nNan,2031-08-01,plants,12\n";
    let outcome = taken("walk.csv", text);
    let Note::Stage(ended) = outcome.notes()[1] else { panic!("no stage") };
    assert_eq!(ended.seen, StageSeen::StemEnded { trusses: Some(6) });
    assert_eq!(outcome.tally.entries, 3);
}

#[test]
fn colours_are_words_or_measurements() {
    let text = "variety,date,exterior,flesh,L*,a*,b*,pattern,skin\n\
                Nan,2031-08-01,bi-color,Yellow,45.2,-3.1,\"20,5\",striped,yellow\n\
                Nan,2031-08-01,purple,,,,,,\nNan,2031-08-01,,,45,1,,,\n";
    let outcome = taken("colours.csv", text);
    assert_eq!(outcome.layout.kind, Kind::Colours);
    let readings: Vec<_> = outcome
        .notes()
        .iter()
        .filter_map(|note| {
            if let Note::Colour(reading) = note {
                Some((reading.part, reading.seen, reading.pattern))
            } else {
                None
            }
        })
        .collect();
    assert!(
        matches!(readings[0], (FruitPart::Exterior, ColourSeen::Measured(lab), _) if lab.a() == -3.1 && lab.b() == 20.5)
    );
    assert_eq!(
        readings[1],
        (FruitPart::Exterior, ColourSeen::Word(TradeColour::Bicolour), Some(Pattern::Striped))
    );
    assert_eq!(readings[2], (FruitPart::Flesh, ColourSeen::Word(TradeColour::Yellow), None));
    assert_eq!(
        outcome.reasons(),
        ["3: exterior: \"purple\" is no colour that is known here", "4: b*: the row names no b*"]
    );
}

#[test]
fn varieties_bring_names_and_claims() {
    let text = "Name,AKA,Habit,Type,Colour,Size,Days,Good for,Notes\n\
                Green Lantern,Lantern; Old Green / lantern,indeterminate,slicer,green,4 to 6 oz,75,salads,likes shade\n\
                Granny,,determinate,currant,red,,,,\nGreen  lantern,,,,,,,,\nPike Two,Old Pike,,,,,,,\n,,,,,,,,lost label\n";
    let outcome = taken("varieties.csv", text);
    assert_eq!(outcome.layout.kind, Kind::Varieties);
    let Entry::Variety(lantern) = &outcome.entries[0].1 else { panic!("no variety") };
    assert_eq!(
        (lantern.known, lantern.aliases.as_slice()),
        (None, ["Lantern".to_owned(), "Old Green".to_owned()].as_slice())
    );
    assert_eq!(lantern.claims[3].about, ClaimSubject::FruitWeight);
    assert_eq!(lantern.claims[3].words, "4 to 6 oz");
    let ounces = taken("varieties.csv", "name,class,weight (oz)\nGreen Lantern,slicer,4 to 6\n");
    let Entry::Variety(heavy) = &ounces.entries[0].1 else { panic!("no variety") };
    assert_eq!(heavy.claims[1].words, "4 to 6 oz");
    let Entry::Variety(granny) = &outcome.entries[1].1 else { panic!("no variety") };
    assert_eq!(granny.known, Some(house::id(3)));
    assert_eq!(
        outcome.reasons(),
        [
            "4: Name: \"Green  lantern\" stands in row 2 too",
            "5: AKA: \"Old Pike\" is known as \"Old Pike\"",
            "6: Name: the row names no variety",
        ]
    );
}

#[test]
fn a_grow_out_brings_plots_and_plants() {
    let text = "season,garden,plot,variety,block,row,pos,transplanted,plants\n\
                2032,Home,C1,Nan,1,2,3,20 May,6\n2032,Home,C2,Ambra,1,2,4,21 May,6\n2032,Home,C1,Old Pike,1,2,3,,\n";
    let outcome = taken("plots.csv", text);
    assert_eq!(outcome.layout.kind, Kind::GrowOut);
    let Entry::Plot(plot) = &outcome.entries[0].1 else { panic!("no plot") };
    assert_eq!((plot.grow_out.as_str(), plot.season.year(), plot.label.as_str()), ("2032 Home", 2032, "C1"));
    assert_eq!(
        (plot.variety, plot.block, plot.row, plot.position),
        (house::id(3), Some(1), Some(2), Some(3))
    );
    assert_eq!((plot.transplanted, plot.plant_count), (Some(date(2032, 5, 20)), Some(6)));
    assert_eq!(outcome.reasons(), ["4: variety: plot \"C1\" holds \"Nan\", not \"Old Pike\""]);
    let plants = "grow-out,plot,variety,plant,lost\n2031 Home,B1,,1,Jul 3\n2031 Home,B1,,2,\n2032 Home,D1,Nan,1,\n2032 Home,D1,,2,\n";
    let season = Answers { season: Season::new(2032), ..Answers::default() };
    let outcome = taken_with("plants.csv", plants, &season);
    let Entry::Plant(lost) = &outcome.entries[0].1 else { panic!("no plant") };
    assert_eq!(
        (lost.plot.clone(), lost.number, lost.lost),
        (PlotNamed::Known(house::id(23)), PlantNumber(1), Some(date(2031, 7, 3)))
    );
    let Entry::Plot(plot) = &outcome.entries[2].1 else { panic!("no plot") };
    assert_eq!(plot.label, "D1");
    let Entry::Plant(second) = &outcome.entries[4].1 else { panic!("no plant") };
    assert_eq!(second.plot, PlotNamed::Earlier { grow_out: "2032 Home".to_owned(), label: "D1".to_owned() });
}
