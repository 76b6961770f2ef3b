//! Synonyms: which words over a column mean what, in one table. docs/headings.md tells the same table,
//! and a test holds the two to each other. How a heading is taken apart before it is looked up is told
//! in `headings`. Start at [`HEADINGS`].

use crate::column::ColumnUse;
use crate::kind::Kind;
use record::pick::CullCause;
use record::variety::ClaimSubject;

/// Headings that mean one thing in tables of some kinds.
#[derive(Clone, Copy, Debug)]
pub struct Synonyms {
    /// What the column holds.
    pub reads: ColumnUse,
    /// The kinds of table in which the words mean that.
    pub kinds: &'static [Kind],
    /// The words, in small letters and British spelling, without punctuation and units; one heading is
    /// parted from the next by a comma.
    words: &'static str,
}

impl Synonyms {
    /// The headings, one by one.
    pub fn headings(&self) -> impl Iterator<Item = &'static str> {
        self.words.split(", ")
    }
}

/// Columns that an export of the quarantine puts beside a file's own, in this order. Three or more of them
/// side by side are known and passed over when the corrected file comes back.
pub const QUARANTINE_COLUMNS: [&str; 7] = ["number", "file", "sheet", "row", "column", "reason", "remedy"];

const ANY: &[Kind] = &Kind::ALL;
const NOTES: &[Kind] = &[Kind::FruitSamples, Kind::Picks, Kind::Heights, Kind::Stages, Kind::Colours];
const ABOUT_PLOTS: &[Kind] =
    &[Kind::GrowOut, Kind::FruitSamples, Kind::Picks, Kind::Heights, Kind::Stages, Kind::Colours];
const VARIETIES: &[Kind] = &[Kind::Varieties];
const GROW_OUT: &[Kind] = &[Kind::GrowOut];
const SAMPLES: &[Kind] = &[Kind::FruitSamples];
const PICKS: &[Kind] = &[Kind::Picks];
const HEIGHTS: &[Kind] = &[Kind::Heights];
const STAGES: &[Kind] = &[Kind::Stages];
const COLOURS: &[Kind] = &[Kind::Colours];
const LOTS: &[Kind] = &[Kind::Lots];
const WEIGHINGS: &[Kind] = &[Kind::SeedWeighings];
const GERMINATION: &[Kind] = &[Kind::GerminationTests];
const SEED_ROOM: &[Kind] = &[Kind::Lots, Kind::SeedWeighings, Kind::GerminationTests];
const REPLICATED: &[Kind] = &[Kind::SeedWeighings, Kind::GerminationTests];
const SKINS: &[Kind] = &[Kind::FruitSamples, Kind::Colours];

const fn line(reads: ColumnUse, kinds: &'static [Kind], words: &'static str) -> Synonyms {
    Synonyms { reads, kinds, words }
}

const fn culls(cause: CullCause, words: &'static str) -> Synonyms {
    line(ColumnUse::CullCount(cause), PICKS, words)
}

const fn claim(about: ClaimSubject, words: &'static str) -> Synonyms {
    line(ColumnUse::Claim(about), VARIETIES, words)
}

/// What was found of a replicate, by its number; in a word and in words.
macro_rules! replicate {
    ($what:ident, $kinds:ident, $number:literal, $word:literal, $words:literal) => {
        line(
            ColumnUse::$what($number),
            $kinds,
            concat!(
                "replicate ",
                $number,
                ", rep ",
                $number,
                ", r",
                $number,
                ", ",
                $word,
                " ",
                $number,
                ", ",
                $words,
                " of replicate ",
                $number
            ),
        )
    };
}

/// Every heading that is understood.
pub const HEADINGS: &[Synonyms] = &[
    line(ColumnUse::Variety, ANY, "variety, varieties, cultivar, var, variety name, cultivar name"),
    line(ColumnUse::Variety, VARIETIES, "name, our name, list name"),
    line(ColumnUse::Aliases, VARIETIES, "aliases, alias, also known as, aka, other names, synonyms, also"),
    claim(ClaimSubject::Habit, "habit, growth habit, plant habit, plant type, growth, claimed habit"),
    claim(ClaimSubject::FruitClass, "class, fruit class, fruit type, type, claimed class, category"),
    claim(ClaimSubject::Colour, "colour, fruit colour, claimed colour"),
    claim(ClaimSubject::FruitWeight, "weight, fruit weight, fruit size, size, claimed weight"),
    claim(ClaimSubject::DaysToMaturity, "days, days to maturity, dtm, maturity, days to ripe, claimed days"),
    claim(ClaimSubject::Purpose, "purpose, use, uses, good for, best for, claimed purpose"),
    claim(
        ClaimSubject::Other,
        "claim, claims, description, catalogue text, other claims, packet text, catalogue description, blurb, \
         catalogue entry, packet words, catalogue notes, packet notes, variety notes",
    ),
    line(ColumnUse::GrowOut, ABOUT_PLOTS, "grow out, growout, grow out name, planting, trial"),
    line(ColumnUse::Season, ABOUT_PLOTS, "season, year, harvest year, season year"),
    line(ColumnUse::Garden, ABOUT_PLOTS, "garden, site, field, location, farm"),
    line(
        ColumnUse::Plot,
        ABOUT_PLOTS,
        "plot, plot label, plot no, plot number, plot id, stake, stake no, stake label",
    ),
    line(ColumnUse::Plant, ABOUT_PLOTS, "plant, plant no, plant number, plant id"),
    line(ColumnUse::Day, NOTES, "date, day, on, date noted, noted on, date measured, measured on, measured"),
    line(
        ColumnUse::Day,
        SAMPLES,
        "date sampled, sample date, sampled, sampled on, date cut, date weighed, weighed on",
    ),
    line(
        ColumnUse::Day,
        PICKS,
        "pick date, picked, picked on, date picked, harvest date, harvested, harvested on, date \
         harvested",
    ),
    line(ColumnUse::Day, HEIGHTS, "date read, read on"),
    line(ColumnUse::Day, STAGES, "walk, walk date, date walked, seen on, date seen"),
    line(ColumnUse::Day, COLOURS, "date read, read on"),
    line(ColumnUse::Block, GROW_OUT, "block, blk, incomplete block"),
    line(ColumnUse::Replicate, GROW_OUT, "replicate, rep, replication"),
    line(ColumnUse::Bed, GROW_OUT, "bed, bed name"),
    line(ColumnUse::Role, GROW_OUT, "role, check, entry type"),
    line(ColumnUse::PlotStart, GROW_OUT, "from, start, plot start, begins"),
    line(ColumnUse::PlotEnd, GROW_OUT, "to, end, plot end, ends"),
    line(ColumnUse::BedRow, GROW_OUT, "row, row no, bed row, row number"),
    line(ColumnUse::Position, GROW_OUT, "position, pos, place, place in row, position in row, column"),
    line(
        ColumnUse::Transplanted,
        GROW_OUT,
        "transplanted, transplanted on, transplant date, date transplanted, set out, planted out, \
         planted, plant date, out",
    ),
    line(
        ColumnUse::PlantCount,
        GROW_OUT,
        "plants, plant count, number of plants, no of plants, count, plants set, n plants",
    ),
    line(
        ColumnUse::PlantCount,
        STAGES,
        "plants, plant count, plants standing, standing, plants alive, number of plants, stand",
    ),
    line(ColumnUse::Lost, GROW_OUT, "lost, lost on, date lost, died, dead, pulled, removed"),
    line(
        ColumnUse::FruitCount,
        SAMPLES,
        "fruit count, fruits, count, number of fruits, number of fruit, no of fruits, n, n \
         fruits, fruits weighed, sample size",
    ),
    line(
        ColumnUse::FruitCount,
        PICKS,
        "fruit count, fruits, fruit, count, number, number of fruits, number of fruit, no of \
         fruits, n, sound, sound fruit, sound count, qty, quantity",
    ),
    line(
        ColumnUse::Weight,
        SAMPLES,
        "weight, wt, fruit weight, fruit wt, mass, fruit mass, average weight, mean weight, avg \
         wt, weight per fruit, weight each",
    ),
    line(ColumnUse::TotalWeight, SAMPLES, "total weight, total wt, weight of all, weight together"),
    line(
        ColumnUse::Weight,
        PICKS,
        "weight, wt, mass, total weight, total wt, pick weight, picked weight, sound weight, \
         yield, harvest, harvest weight",
    ),
    line(
        ColumnUse::Length,
        SAMPLES,
        "length, len, fruit length, l, stem to blossom, stem to blossom end, polar diameter, \
         fruit height, height",
    ),
    line(
        ColumnUse::Width,
        SAMPLES,
        "width, wid, fruit width, w, diameter, dia, diam, greatest width, fruit diameter, \
         equatorial diameter, across",
    ),
    line(
        ColumnUse::NeckWidth,
        SAMPLES,
        "neck width, neck, neck wid, neck w, shoulder width, width at quarter, quarter width, \
         neck diameter",
    ),
    line(
        ColumnUse::Locules,
        SAMPLES,
        "locules, locule count, locule, loc, locs, locule number, chambers, seed chambers, number \
         of locules",
    ),
    line(
        ColumnUse::SolubleSolids,
        SAMPLES,
        "soluble solids, brix, bx, tss, ss, sugar, refractometer, degrees brix",
    ),
    line(ColumnUse::DryMatter, SAMPLES, "dry matter, dm, dry weight share, dry matter share"),
    line(ColumnUse::Lobes, SAMPLES, "lobes, lobe count, ribs, rib count, number of lobes"),
    line(ColumnUse::Cracking, SAMPLES, "cracking, cracks, crack, splitting, splits"),
    line(ColumnUse::Catfacing, SAMPLES, "catfacing, catface, cat facing, catfaces, cat face"),
    line(
        ColumnUse::Exterior,
        SAMPLES,
        "colour, exterior, exterior colour, outside colour, fruit colour, external colour, colour \
         outside, ripe colour",
    ),
    line(
        ColumnUse::Exterior,
        COLOURS,
        "exterior, exterior colour, outside colour, external colour, colour outside",
    ),
    line(
        ColumnUse::Flesh,
        SKINS,
        "flesh, flesh colour, inside colour, interior, interior colour, colour inside",
    ),
    line(ColumnUse::Gel, COLOURS, "gel, gel colour, jelly, jelly colour"),
    line(ColumnUse::Skin, SKINS, "skin, skin colour, peeled skin, peel, epidermis, epidermis colour"),
    culls(
        CullCause::Cracked,
        "culls cracked, cracked, cracked culls, split, culls split, cracks, cull cracked",
    ),
    culls(CullCause::Catfaced, "culls catfaced, catfaced, catface, catfacing, culls catface, cat faced"),
    culls(CullCause::BlossomEndRot, "culls blossom end rot, blossom end rot, ber, culls ber, cull ber"),
    culls(CullCause::Rotten, "culls rotten, rotten, rot, culls rot, cull rot, rots"),
    culls(CullCause::Sunscald, "culls sunscald, sunscald, sun scald, scald, culls scald, sunburn"),
    culls(CullCause::Eaten, "culls eaten, eaten, pests, insects, birds, slugs, culls pests, chewed"),
    culls(CullCause::Undersized, "culls undersized, undersized, too small, small, culls small, undersize"),
    culls(CullCause::Other, "culls other, other culls, other"),
    line(ColumnUse::CullCause, PICKS, "cull cause, cause, culled for, cull reason, culled because"),
    line(ColumnUse::Culls, PICKS, "culls, culled, cull count, number culled, unmarketable"),
    line(ColumnUse::CullsWeighed, PICKS, "cull weight, culls weight, weight of culls, cull wt, culls wt"),
    line(ColumnUse::Height, HEIGHTS, "height, ht, plant height, tall, vine height, stem height, vine length"),
    line(
        ColumnUse::FirstFlower,
        STAGES,
        "first flower, first flowers, first bloom, flowering, first open flower, 1st flower",
    ),
    line(ColumnUse::FirstRipe, STAGES, "first ripe, first ripe fruit, 1st ripe, ripe, first fruit"),
    line(
        ColumnUse::StemEnded,
        STAGES,
        "stem ended, main stem ended, ended, terminated, stem ended in truss, main stem ended in \
         a truss, stem terminated, stopped",
    ),
    line(
        ColumnUse::Trusses,
        STAGES,
        "trusses, truss count, number of trusses, trusses on main stem, clusters, cluster count, \
         after trusses, inflorescences",
    ),
    line(
        ColumnUse::LeavesBetween,
        STAGES,
        "leaves between trusses, leaves between, leaves per truss, leaf count, leaves, leaves \
         between clusters",
    ),
    line(ColumnUse::OffTypes, STAGES, "off types, off type, offtypes, offtype, rogues, number off type"),
    line(
        ColumnUse::OffTypeWords,
        STAGES,
        "off type notes, off type words, what is off, off type description, rogue notes",
    ),
    line(
        ColumnUse::DwarfLeaves,
        STAGES,
        "dwarf leaves, dwarf, dwarf leaf, crinkled leaves, rugose leaves, rugose",
    ),
    line(ColumnUse::Stage, STAGES, "stage, seen, observation, what"),
    line(ColumnUse::StageNumber, STAGES, "value, stage value, number, count, how many"),
    line(ColumnUse::Lightness, COLOURS, "l, l star, lightness, cie l, lab l"),
    line(ColumnUse::GreenRed, COLOURS, "a, a star, cie a, lab a"),
    line(ColumnUse::BlueYellow, COLOURS, "b, b star, cie b, lab b"),
    line(ColumnUse::Part, COLOURS, "part, fruit part, where, measured part, surface"),
    line(ColumnUse::Colour, COLOURS, "colour, colour word, fruit colour, ripe colour"),
    line(ColumnUse::Lot, SEED_ROOM, "lot, lot number, lot no, lot id, seed lot, lot label, jar"),
    line(ColumnUse::Season, LOTS, "season, year, harvest year, season year, year of harvest"),
    line(ColumnUse::GrowOut, LOTS, "grow out, growout, grow out name, planting, trial"),
    line(ColumnUse::Plot, LOTS, "plot, plot label, plot no, plot number, stake, stake no, stake label"),
    line(
        ColumnUse::SeedMass,
        LOTS,
        "weight, wt, mass, seed, seed weight, clean seed, weight of seed, seed cleaned, yield, amount",
    ),
    line(ColumnUse::Day, LOTS, "date, day, came in, came in on, into jar, cleaned, cleaned on, received"),
    line(
        ColumnUse::Harvested,
        LOTS,
        "harvested, harvested on, harvest date, date harvested, harvest, last picked, seed saved, saved on",
    ),
    line(ColumnUse::SownFrom, LOTS, "sown from, parent lot, parents lot, mother lot, grown from, from lot"),
    line(
        ColumnUse::Parents,
        LOTS,
        "parents, parent plants, mother plants, plants, number of plants, plants saved from, no of plants",
    ),
    line(ColumnUse::Isolation, LOTS, "isolation, isolation distance, distance, isolated by, nearest tomato"),
    line(ColumnUse::Extraction, LOTS, "extraction, extracted, extracted by, how extracted, fermentation"),
    line(ColumnUse::Drying, LOTS, "drying, dried, how dried"),
    line(ColumnUse::Treatment, LOTS, "treatment, treated, treated with, seed treatment"),
    line(ColumnUse::Location, LOTS, "location, shelf, stored, stored at, kept, where, room, box"),
    line(ColumnUse::Warmth, LOTS, "temperature, warmth, kept at, storage temperature, temp"),
    line(ColumnUse::Moisture, LOTS, "moisture, seed moisture, water, moisture content, mc"),
    line(ColumnUse::Day, WEIGHINGS, "date, day, on, weighed, weighed on, date weighed"),
    line(
        ColumnUse::Day,
        GERMINATION,
        "date, counted, counted on, count date, date counted, final count, last count, ended, final count on",
    ),
    line(
        ColumnUse::SeedsEach,
        REPLICATED,
        "seeds, seeds each, seeds per replicate, seeds per rep, seeds in each, replicate size",
    ),
    line(
        ColumnUse::ReplicateMasses,
        WEIGHINGS,
        "replicates, reps, weights, weighings, masses, weight, weight of replicates, weights of replicates, wt",
    ),
    line(
        ColumnUse::Normal,
        GERMINATION,
        "normal, normal seedlings, germinated, sprouted, came up, normals, good, replicates, reps",
    ),
    replicate!(ReplicateMass, WEIGHINGS, 1, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 2, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 3, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 4, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 5, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 6, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 7, "weight", "weight"),
    replicate!(ReplicateMass, WEIGHINGS, 8, "weight", "weight"),
    replicate!(NormalOf, GERMINATION, 1, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 2, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 3, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 4, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 5, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 6, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 7, "normal", "normal seedlings"),
    replicate!(NormalOf, GERMINATION, 8, "normal", "normal seedlings"),
    line(
        ColumnUse::LaidOut,
        GERMINATION,
        "laid out, laid out on, begun, begun on, started, start, start date, sown, sown on, set up",
    ),
    line(
        ColumnUse::FirstCounted,
        GERMINATION,
        "first counted, first counted on, first count on, first count date",
    ),
    line(ColumnUse::Abnormal, GERMINATION, "abnormal, abnormals, abnormal seedlings"),
    line(ColumnUse::HardSeeds, GERMINATION, "hard, hard seed, hard seeds"),
    line(ColumnUse::FirstCount, GERMINATION, "first count, normal at first count, early, first"),
    line(ColumnUse::Laboratory, GERMINATION, "laboratory, lab, official, made by laboratory, by laboratory"),
    line(ColumnUse::Pattern, COLOURS, "pattern, striping, colour pattern, stripes"),
    line(
        ColumnUse::Ignored,
        ANY,
        "notes, note, remarks, remark, comments, comment, initials, who, observer, by, recorder, \
         weather, photo, picture, id, sample, sample no, fruit no, no",
    ),
];
