//! Gaps and crowding: how many varieties a list has of each habit, fruit class and colour.
//!
//! A contested variety counts in parts: one that is a plum 60 in 100 and a grape 40 in 100 is 0.6 of a plum
//! and 0.4 of a grape. An empty cell is a gap worth a thought where everything round it is there; a full one
//! is crowded where it holds several times what a filled cell holds. Start at [`cells`].

use crate::profile::{Profile, Words};
use crate::standins::Assortment;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};

/// A cell of fewer varieties than this is empty. A choice of ours: half a variety is more likely none.
const EMPTY_UNDER: f64 = 0.5;
/// A pair of properties is there where at least so many varieties have both. A choice of ours.
const THERE_FROM: f64 = 1.0;
/// A cell is crowded from so many varieties.. A choice of ours.
const CROWDED_FROM: f64 = 3.0;
/// ..and from so many times what filled cells hold in the middle. A choice of ours.
const CROWDED_TIMES: f64 = 2.0;
/// Most varieties of a crowded cell that are held against each other, the surest first.
const MOST_COMPARED: usize = 200;
/// Most pairs told of a crowded cell.
const MOST_PAIRS: usize = 3;

/// A habit, a fruit class and a colour, by their places among [`Words`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cell {
    /// Place of the habit.
    pub habit: usize,
    /// Place of the fruit class.
    pub class: usize,
    /// Place of the colour.
    pub colour: usize,
}

/// How many varieties a list is expected to have in each cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Cells {
    habits: usize,
    classes: usize,
    colours: usize,
    counts: Vec<f64>,
    /// Varieties of which habit, class and colour are all known.
    pub counted: usize,
    /// Varieties that lack one of them and stand in no cell.
    pub left_out: usize,
}

/// An empty cell whose surroundings are filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The cell.
    pub cell: Cell,
    /// Varieties expected in it.
    pub held: f64,
    /// Varieties of the same habit and class, whatever their colour.
    pub habit_and_class: f64,
    /// Varieties of the same habit and colour, whatever their class.
    pub habit_and_colour: f64,
    /// Varieties of the same class and colour, whatever their habit.
    pub class_and_colour: f64,
}

/// A cell that holds many varieties.
#[derive(Clone, Debug, PartialEq)]
pub struct Crowd {
    /// The cell.
    pub cell: Cell,
    /// Varieties expected in it.
    pub held: f64,
    /// The most alike of them, nearest first.
    pub pairs: Vec<Pair>,
}

/// Two varieties that are much alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Place of one in the list.
    pub one: usize,
    /// Place of the other.
    pub other: usize,
    /// How far they are apart.
    pub distance: f64,
}

/// Counts the varieties of a list into cells.
#[must_use]
pub fn cells(profiles: &[Profile], words: &Words) -> Cells {
    let (habits, classes, colours) =
        (words.habits.names.len(), words.classes.names.len(), words.colours.names.len());
    let counts = vec![0.0; habits * classes * colours];
    let mut cells = Cells { habits, classes, colours, counts, counted: 0, left_out: 0 };
    for profile in profiles {
        match shares(profile) {
            Some(shares) => cells.take(shares),
            None => cells.left_out += 1,
        }
    }
    cells
}

/// One variety's shares of each habit, class and colour.
type Shares<'a> = (&'a [f64], &'a [f64], &'a [f64]);

fn shares(profile: &Profile) -> Option<Shares<'_>> {
    let (habit, class, colour) = (profile.habit.as_ref()?, profile.class.as_ref()?, profile.colour.as_ref()?);
    Some((habit.shares(), class.shares(), colour.shares()))
}

/// A share that adds nothing to a count that anybody reads.
const NO_SHARE: f64 = 1e-4;

impl Cells {
    fn take(&mut self, (habit, class, colour): Shares<'_>) {
        self.counted += 1;
        let worth = |shares: &[f64]| -> Vec<(usize, f64)> {
            shares.iter().copied().enumerate().filter(|(_, share)| NO_SHARE < *share).collect()
        };
        let (class, colour) = (worth(class), worth(colour));
        for (habit, of_habit) in worth(habit) {
            for (class, of_class) in &class {
                for (colour, of_colour) in &colour {
                    let place = self.place(Cell { habit, class: *class, colour: *colour });
                    if let Some(count) = place.and_then(|place| self.counts.get_mut(place)) {
                        *count += of_habit * of_class * of_colour;
                    }
                }
            }
        }
    }

    fn place(&self, cell: Cell) -> Option<usize> {
        let known = cell.habit < self.habits && cell.class < self.classes && cell.colour < self.colours;
        known.then_some((cell.habit * self.classes + cell.class) * self.colours + cell.colour)
    }

    /// Varieties expected in a cell.
    #[must_use]
    pub fn held(&self, cell: Cell) -> f64 {
        self.place(cell).and_then(|place| self.counts.get(place)).copied().unwrap_or(0.0)
    }

    /// Varieties of a habit and class, whatever their colour.
    #[must_use]
    pub fn habit_and_class(&self, habit: usize, class: usize) -> f64 {
        (0..self.colours).map(|colour| self.held(Cell { habit, class, colour })).sum()
    }

    fn habit_and_colour(&self, habit: usize, colour: usize) -> f64 {
        (0..self.classes).map(|class| self.held(Cell { habit, class, colour })).sum()
    }

    fn class_and_colour(&self, class: usize, colour: usize) -> f64 {
        (0..self.habits).map(|habit| self.held(Cell { habit, class, colour })).sum()
    }

    /// All cells, habit by habit, class by class.
    pub fn each(&self) -> impl Iterator<Item = Cell> {
        let (classes, colours) = (self.classes, self.colours);
        let of_habit = move |habit| {
            (0..classes).flat_map(move |class| (0..colours).map(move |colour| Cell { habit, class, colour }))
        };
        (0..self.habits).flat_map(of_habit)
    }

    /// The empty cells whose surroundings are filled: each two of habit, class and colour are there
    /// together, and the three of them are not. Those with most round them come first.
    #[must_use]
    pub fn gaps(&self) -> Vec<Gap> {
        let gap = |cell: Cell| {
            let gap = Gap {
                cell,
                held: self.held(cell),
                habit_and_class: self.habit_and_class(cell.habit, cell.class),
                habit_and_colour: self.habit_and_colour(cell.habit, cell.colour),
                class_and_colour: self.class_and_colour(cell.class, cell.colour),
            };
            (gap.held < EMPTY_UNDER && THERE_FROM <= gap.least_around()).then_some(gap)
        };
        let mut gaps: Vec<Gap> = self.each().filter_map(gap).collect();
        gaps.sort_by(|one, other| other.around().total_cmp(&one.around()).then(one.cell.cmp(&other.cell)));
        gaps
    }

    /// The crowded cells, fullest first, each with its most alike pairs.
    #[must_use]
    pub fn crowds(&self, profiles: &[Profile], assortment: &Assortment<'_>) -> Vec<Crowd> {
        let from = CROWDED_FROM.max(CROWDED_TIMES * self.middle());
        let mut full: Vec<Cell> = self.each().filter(|cell| from <= self.held(*cell)).collect();
        full.sort_by(|one, other| self.held(*other).total_cmp(&self.held(*one)).then(one.cmp(other)));
        let crowd =
            |cell| Crowd { cell, held: self.held(cell), pairs: pairs(&members(cell, profiles), assortment) };
        full.into_par_iter().map(crowd).collect()
    }

    /// What a filled cell holds in the middle; of two in the middle, the lesser.
    fn middle(&self) -> f64 {
        let mut filled: Vec<f64> =
            self.counts.iter().copied().filter(|count| EMPTY_UNDER <= *count).collect();
        filled.sort_by(f64::total_cmp);
        filled.get(filled.len().saturating_sub(1) / 2).copied().unwrap_or(0.0)
    }
}

impl Gap {
    fn least_around(&self) -> f64 {
        self.habit_and_class.min(self.habit_and_colour).min(self.class_and_colour)
    }

    /// The geometric mean of what is round it.
    fn around(&self) -> f64 {
        (self.habit_and_class * self.habit_and_colour * self.class_and_colour).cbrt()
    }
}

/// The varieties that are more likely than not in a cell, the surest first.
#[must_use]
pub fn members(cell: Cell, profiles: &[Profile]) -> Vec<usize> {
    let mut members: Vec<(usize, f64)> = Vec::new();
    for (place, profile) in profiles.iter().enumerate() {
        let share = shares(profile).and_then(|(habit, class, colour)| {
            Some(habit.get(cell.habit)? * class.get(cell.class)? * colour.get(cell.colour)?)
        });
        members.extend(share.filter(|share| EMPTY_UNDER <= *share).map(|share| (place, share)));
    }
    members.sort_by(|one, other| other.1.total_cmp(&one.1).then(one.0.cmp(&other.0)));
    members.into_iter().map(|(place, _)| place).collect()
}

fn pairs(members: &[usize], assortment: &Assortment<'_>) -> Vec<Pair> {
    let compared = members.get(..members.len().min(MOST_COMPARED)).unwrap_or_default();
    let mut pairs: Vec<Pair> = Vec::new();
    for (index, one) in compared.iter().enumerate() {
        for other in compared.iter().skip(index + 1) {
            let (one, other) = (*one.min(other), *one.max(other));
            let distance = assortment.between(one, other).distance;
            pairs.extend(distance.map(|distance| Pair { one, other, distance }));
        }
    }
    pairs.sort_by(|one, next| {
        one.distance.total_cmp(&next.distance).then((one.one, one.other).cmp(&(next.one, next.other)))
    });
    pairs.truncate(MOST_PAIRS);
    pairs
}
