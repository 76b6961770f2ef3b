//! Cuts a garden's beds into plots, guards and what is no use.

use super::{Bed, Garden, HAIR, Place, Planting, Purpose};
use record::length::Millimetres;

/// Everything in one garden.
pub(super) fn garden(number: usize, garden: &Garden, planting: &Planting) -> Vec<Place> {
    let mut found = Vec::new();
    let mut near = 0.0;
    let mut row = 0;
    let last = garden.beds.len().saturating_sub(1);
    for (at, bed) in garden.beds.iter().enumerate() {
        let edges = [at == 0, at == last].map(|edge| if edge { planting.guard_rows } else { 0 });
        let strip = Strip { garden: number, number: at, bed, planting, near, edges };
        row = strip.fill(row, &mut found);
        near += bed.width.get() + bed.path_after.get();
    }
    found
}

/// One bed in its place.
struct Strip<'a> {
    garden: usize,
    number: usize,
    bed: &'a Bed,
    planting: &'a Planting,
    /// The bed's nearer edge across the garden.
    near: f64,
    /// Guard rows at its nearer and farther edge.
    edges: [u32; 2],
}

impl Strip<'_> {
    /// Adds the bed's places and returns the garden's last row so far.
    fn fill(&self, mut row: u32, found: &mut Vec<Place>) -> u32 {
        let rows = self.rows();
        let height = self.bed.width.get() / f64::from(rows);
        let [first, last] = self.edges.map(|edge| edge.min(rows));
        let edge = |at: u32| self.near + f64::from(at) * height;
        if 0 < first {
            self.whole((edge(0), edge(first)), found);
        }
        let free = rows.saturating_sub(first + last);
        for lane in 0..free / self.planting.rows_per_plot {
            row += 1;
            let from = first + lane * self.planting.rows_per_plot;
            self.lane(row, (edge(from), edge(from + self.planting.rows_per_plot)), found);
        }
        if 0 < last && first < rows {
            self.whole((edge(rows - last.min(rows - first)), edge(rows)), found);
        }
        row
    }

    /// Rows of plants that the bed's width has room for; a narrow bed has one.
    fn rows(&self) -> u32 {
        counted((self.bed.width.get() + HAIR) / self.planting.between_rows.get()).max(1)
    }

    /// A guard row from end to end.
    fn whole(&self, across: (f64, f64), found: &mut Vec<Place>) {
        found.extend(self.place(0, (0.0, self.bed.length.get()), across, Purpose::Guard));
    }

    /// One row of plots with its guards.
    fn lane(&self, row: u32, across: (f64, f64), found: &mut Vec<Place>) {
        let length = self.bed.length.get();
        let guard = f64::from(self.planting.guards_at_ends) * self.planting.between_plants.get();
        let guard = guard.min(length / 2.0);
        let mut position = 0;
        let mut at = guard;
        if 0.0 < guard {
            found.extend(self.place(row, (0.0, guard), across, Purpose::Guard));
        }
        for (from, to, why) in self.unusable(guard, length - guard) {
            self.plots(row, &mut position, (at, from), across, found);
            found.extend(self.place(row, (from, to), across, Purpose::Unusable(why)));
            at = to;
        }
        self.plots(row, &mut position, (at, length - guard), across, found);
        if 0.0 < guard {
            found.extend(self.place(row, (length - guard, length), across, Purpose::Guard));
        }
    }

    /// Stretches within the usable length, in order, those that overlap made one.
    fn unusable(&self, start: f64, end: f64) -> Vec<(f64, f64, String)> {
        let mut stretches: Vec<(f64, f64, String)> = self
            .bed
            .unusable
            .iter()
            .map(|part| (part.from.get().max(start), part.to.get().min(end), part.why.clone()))
            .filter(|(from, to, _)| from < to)
            .collect();
        stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joined: Vec<(f64, f64, String)> = Vec::new();
        for (from, to, why) in stretches {
            match joined.last_mut() {
                Some(before) if from <= before.1 => {
                    before.1 = before.1.max(to);
                    before.2 = format!("{}, {why}", before.2);
                }
                _ => joined.push((from, to, why)),
            }
        }
        joined
    }

    /// As many plots as a free length has room for.
    fn plots(
        &self,
        row: u32,
        position: &mut u32,
        (from, to): (f64, f64),
        across: (f64, f64),
        found: &mut Vec<Place>,
    ) {
        let length = self.plot_length();
        for index in 0..counted((to - from + HAIR) / length) {
            *position += 1;
            let start = from + f64::from(index) * length;
            let place = self.place(row, (start, start + length), across, Purpose::Plot);
            found.extend(place.map(|place| Place { position: *position, ..place }));
        }
    }

    fn plot_length(&self) -> f64 {
        let along = self.planting.plants_per_plot.div_ceil(self.planting.rows_per_plot);
        f64::from(along) * self.planting.between_plants.get()
    }

    /// A place; `None` only where a length is none, which checked ground does not have.
    fn place(&self, row: u32, along: (f64, f64), across: (f64, f64), purpose: Purpose) -> Option<Place> {
        Some(Place {
            garden: self.garden,
            bed: self.number,
            row,
            position: 0,
            column: counted((along.0 + HAIR) / self.plot_length()) + 1,
            from: Millimetres::new(along.0)?,
            to: Millimetres::new(along.1)?,
            near: Millimetres::new(across.0)?,
            far: Millimetres::new(across.1)?,
            purpose,
        })
    }
}

/// Most rows or plots in one bed: what is beyond is a slip of the pen, and would fill the memory.
const MOST: f64 = 10_000.0;

/// The whole part of a number that is not negative.
fn counted(number: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 to 10,000")]
    let whole = number.clamp(0.0, MOST) as u32;
    whole
}
