//! A picture as rows of values, and what is asked of it everywhere: a value between pixels, a box mean, a smaller copy.
//!
//! Column `x` and row `y` count from the top left; the middle of the first pixel is (0.5, 0.5). Asking outside gives the
//! nearest edge's value, so no place a caller computes can stop the program.

/// Rows of values of one kind.
#[derive(Clone, Debug)]
pub struct Plane<T> {
    width: usize,
    height: usize,
    cells: Vec<T>,
}

impl<T: Copy + Default> Plane<T> {
    /// A plane holding `value` everywhere.
    #[must_use]
    pub fn filled(width: usize, height: usize, value: T) -> Self {
        Self { width, height, cells: vec![value; width * height] }
    }

    /// Takes rows of values laid end to end; `None` where they are not `width * height` of them.
    #[must_use]
    pub fn of_cells(width: usize, height: usize, cells: Vec<T>) -> Option<Self> {
        (cells.len() == width * height && !cells.is_empty()).then_some(Self { width, height, cells })
    }

    /// Columns.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// Rows of values laid end to end.
    #[must_use]
    pub fn cells(&self) -> &[T] {
        &self.cells
    }

    /// The rows of values, to be changed in place.
    pub fn cells_mut(&mut self) -> &mut [T] {
        &mut self.cells
    }

    /// The value at a column and row, the nearest edge's outside.
    #[must_use]
    pub fn at(&self, x: isize, y: isize) -> T {
        let column = usize::try_from(x).unwrap_or(0).min(self.width.saturating_sub(1));
        let row = usize::try_from(y).unwrap_or(0).min(self.height.saturating_sub(1));
        self.cells.get(row * self.width + column).copied().unwrap_or_default()
    }

    /// Sets the value at a place, or nothing outside.
    pub fn set(&mut self, x: usize, y: usize, value: T) {
        if x < self.width
            && let Some(cell) = self.cells.get_mut(y * self.width + x)
        {
            *cell = value;
        }
    }

    /// Whether a place lies inside.
    #[must_use]
    pub fn holds(&self, x: isize, y: isize) -> bool {
        usize::try_from(x).is_ok_and(|x| x < self.width) && usize::try_from(y).is_ok_and(|y| y < self.height)
    }

    /// The same rows with every value changed.
    pub fn map<U: Copy + Default>(&self, change: impl Fn(T) -> U) -> Plane<U> {
        Plane {
            width: self.width,
            height: self.height,
            cells: self.cells.iter().map(|cell| change(*cell)).collect(),
        }
    }
}

impl Plane<f32> {
    /// The value between pixels, by straight lines.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "a place in a picture fits an isize; far ones clamp")]
    pub fn between(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x - 0.5, y - 0.5);
        let (column, row) = (x.floor(), y.floor());
        let (right, down) = (x - column, y - row);
        let (column, row) = (column as isize, row as isize);
        let at = |dx: isize, dy: isize| f64::from(self.at(column.saturating_add(dx), row.saturating_add(dy)));
        let upper = at(0, 0) * (1.0 - right) + at(1, 0) * right;
        let lower = at(0, 1) * (1.0 - right) + at(1, 1) * right;
        upper * (1.0 - down) + lower * down
    }

    /// Mean over a square of `2 * reach + 1` pixels a side round every pixel, the edge's values going on outside.
    #[must_use]
    pub fn box_mean(&self, reach: usize) -> Self {
        self.rows_mean(reach).columns_mean(reach)
    }

    fn rows_mean(&self, reach: usize) -> Self {
        let reach = isize::try_from(reach).unwrap_or(0);
        let share = 1.0 / (2.0 * reach as f64 + 1.0);
        let mut cells = Vec::with_capacity(self.cells.len());
        for row in self.cells.chunks(self.width.max(1)) {
            let last = isize::try_from(row.len()).unwrap_or(1) - 1;
            let at = |x: isize| {
                f64::from(
                    usize::try_from(x.clamp(0, last)).ok().and_then(|x| row.get(x)).copied().unwrap_or(0.0),
                )
            };
            let mut sum: f64 = (-reach..=reach).map(at).sum();
            for x in 0..=last {
                cells.push((sum * share) as f32);
                sum += at(x + reach + 1) - at(x - reach);
            }
        }
        Self { width: self.width, height: self.height, cells }
    }

    /// The same down the columns: one sum a column goes down with the rows.
    fn columns_mean(&self, reach: usize) -> Self {
        let rows: Vec<&[f32]> = self.cells.chunks(self.width.max(1)).collect();
        let Some(last) = rows.len().checked_sub(1) else { return self.clone() };
        let share = 1.0 / (2.0 * reach as f64 + 1.0);
        let row =
            |at: isize| rows.get(at.clamp(0, last.cast_signed()).cast_unsigned()).copied().unwrap_or(&[]);
        let reach = reach.cast_signed();
        let mut sums = vec![0.0_f64; self.width];
        for at in -reach..=reach {
            sums.iter_mut().zip(row(at)).for_each(|(sum, cell)| *sum += f64::from(*cell));
        }
        let mut cells = Vec::with_capacity(self.cells.len());
        for y in 0..=last.cast_signed() {
            cells.extend(sums.iter().map(|sum| (sum * share) as f32));
            let (enters, leaves) = (row(y + reach + 1), row(y - reach));
            let changes = enters.iter().zip(leaves).map(|(new, old)| f64::from(*new) - f64::from(*old));
            sums.iter_mut().zip(changes).for_each(|(sum, change)| *sum += change);
        }
        Self { width: self.width, height: self.height, cells }
    }
}
