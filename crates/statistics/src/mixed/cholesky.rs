//! Sparse Cholesky factors: ordered and laid out once, worked out anew at every step.
//!
//! The order comes from approximate minimum degree, which finds by itself that effects nested in all
//! others (variety x site) are best eliminated first and blocks last. Columns that share a pattern
//! are worked on together as dense blocks.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::LltRegularization;
use faer::sparse::linalg::SupernodalThreshold;
use faer::sparse::linalg::cholesky::supernodal::SymbolicSupernodalCholesky;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side, Spec};

/// The lower half of a symmetric matrix's pattern, column by column, diagonal included.
#[derive(Clone, Debug, Default)]
pub(crate) struct Pattern {
    /// Where each column begins, and the end.
    pub(crate) starts: Vec<u32>,
    /// Rows of the entries, rising within a column.
    pub(crate) rows: Vec<u32>,
}

impl Pattern {
    /// How many rows and columns.
    pub(crate) fn size(&self) -> usize {
        self.starts.len() - 1
    }

    /// Places of a column's entries.
    pub(crate) fn column(&self, column: usize) -> std::ops::Range<usize> {
        self.starts[column] as usize..self.starts[column + 1] as usize
    }
}

/// Below any ratio of work to entries, so that even a matrix of one column is laid out in blocks.
const ALWAYS_BLOCKS: SupernodalThreshold = SupernodalThreshold(-1.0);

/// Order and layout of the factors of one pattern.
#[derive(Debug)]
pub(crate) struct Layout {
    symbolic: SymbolicCholesky<u32>,
    /// The block of columns that each ordered column is in.
    block_of: Vec<u32>,
}

/// A factor.
#[derive(Clone, Debug)]
pub(crate) struct Factor {
    /// Numbers, block by block.
    values: Vec<f64>,
    /// Log-determinant of the matrix.
    pub(crate) log_determinant: f64,
}

/// One block of columns of a factor.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Block<'a> {
    /// Its first ordered column.
    pub(crate) first: usize,
    /// How many columns.
    pub(crate) columns: usize,
    /// Ordered rows below the diagonal square.
    pub(crate) below: &'a [u32],
    /// Where its numbers begin; they lie column by column, diagonal square first.
    pub(crate) start: usize,
}

impl Block<'_> {
    /// Rows of the block, the diagonal square's included.
    pub(crate) fn rows(&self) -> usize {
        self.columns + self.below.len()
    }

    /// Row within the block of an ordered row, if it has it.
    pub(crate) fn row_of(&self, row: usize) -> Option<usize> {
        if row < self.first + self.columns {
            return row.checked_sub(self.first);
        }
        self.below.binary_search(&(row as u32)).ok().map(|place| place + self.columns)
    }
}

impl Layout {
    /// Orders a pattern and lays out its factor; `None` where memory does not hold it.
    pub(crate) fn new(pattern: &Pattern) -> Option<Self> {
        let symbolic_matrix = symbolic_matrix(pattern);
        let params =
            CholeskySymbolicParams { supernodal_flop_ratio_threshold: ALWAYS_BLOCKS, ..Default::default() };
        let symbolic =
            factorize_symbolic_cholesky(symbolic_matrix, Side::Lower, SymmetricOrdering::Amd, params).ok()?;
        let mut block_of = Vec::with_capacity(pattern.size());
        let begins = supernodes(&symbolic)?;
        for block in 0..begins.n_supernodes() {
            block_of.resize(begins.supernode_end()[block] as usize, block as u32);
        }
        Some(Self { symbolic, block_of })
    }

    /// How many blocks of columns.
    pub(crate) fn block_count(&self) -> usize {
        supernodes(&self.symbolic).map_or(0, SymbolicSupernodalCholesky::n_supernodes)
    }

    /// A block of columns.
    pub(crate) fn block(&self, block: usize) -> Option<Block<'_>> {
        let supernodes = supernodes(&self.symbolic)?;
        let first = supernodes.supernode_begin()[block] as usize;
        let columns = supernodes.supernode_end()[block] as usize - first;
        let rows = supernodes.col_ptr_for_row_idx()[block] as usize;
        let below = &supernodes.row_idx()[rows..rows + supernodes.nnz_per_super()[block] as usize];
        Some(Block { first, columns, below, start: supernodes.col_ptr_for_val()[block] as usize })
    }

    /// The block that an ordered column is in.
    pub(crate) fn block_of(&self, column: usize) -> usize {
        self.block_of[column] as usize
    }

    /// Place in the order of each column of the matrix.
    pub(crate) fn ordered(&self, column: usize) -> usize {
        self.symbolic.perm().map_or(column, |order| order.arrays().1[column] as usize)
    }

    /// How many numbers a factor holds.
    pub(crate) fn length(&self) -> usize {
        self.symbolic.len_val()
    }

    /// Factors a matrix of the pattern; `None` where it is not positive definite.
    pub(crate) fn factor(&self, pattern: &Pattern, values: &[f64]) -> Option<Factor> {
        let matrix = SparseColMatRef::new(symbolic_matrix(pattern), values);
        let mut numbers = vec![0.0; self.length()];
        let scratch = self.symbolic.factorize_numeric_llt_scratch::<f64>(Par::Seq, Spec::default());
        let mut memory = MemBuffer::try_new(scratch).ok()?;
        self.symbolic
            .factorize_numeric_llt(
                &mut numbers,
                matrix,
                Side::Lower,
                LltRegularization::default(),
                Par::Seq,
                MemStack::new(&mut memory),
                Spec::default(),
            )
            .ok()?;
        let log_determinant = 2.0 * self.diagonal(&numbers).map(f64::ln).sum::<f64>();
        log_determinant.is_finite().then_some(Factor { values: numbers, log_determinant })
    }

    /// The smallest number on the diagonal of a factor.
    pub(crate) fn least_pivot(&self, factor: &Factor) -> f64 {
        self.diagonal(&factor.values).fold(f64::INFINITY, f64::min)
    }

    /// The diagonal of a factor, in order.
    fn diagonal<'a>(&'a self, values: &'a [f64]) -> impl Iterator<Item = f64> + 'a {
        (0..self.block_count()).filter_map(|block| self.block(block)).flat_map(move |block| {
            (0..block.columns).map(move |column| values[block.start + column * (block.rows() + 1)])
        })
    }

    /// Solves the factored system in place.
    ///
    /// # Shape
    /// `right`: right sides one after another, each as long as the matrix.
    pub(crate) fn solve(&self, factor: &Factor, right: &mut [f64]) {
        let size = self.symbolic.nrows();
        if size == 0 || right.is_empty() {
            return;
        }
        let count = right.len() / size;
        let right = MatMut::from_column_major_slice_mut(right, size, count);
        let scratch = self.symbolic.solve_in_place_scratch::<f64>(count, Par::Seq);
        if let Ok(mut memory) = MemBuffer::try_new(scratch) {
            let factor = LltRef::<u32, f64>::new(&self.symbolic, &factor.values);
            factor.solve_in_place_with_conj(Conj::No, right, Par::Seq, MemStack::new(&mut memory));
        }
    }
}

impl Factor {
    /// The numbers, block by block.
    pub(crate) fn values(&self) -> &[f64] {
        &self.values
    }
}

fn symbolic_matrix(pattern: &Pattern) -> SymbolicSparseColMatRef<'_, u32> {
    let size = pattern.size();
    SymbolicSparseColMatRef::new_checked(size, size, &pattern.starts, None, &pattern.rows)
}

fn supernodes(symbolic: &SymbolicCholesky<u32>) -> Option<&SymbolicSupernodalCholesky<u32>> {
    match symbolic.raw() {
        SymbolicCholeskyRaw::Supernodal(supernodes) => Some(supernodes),
        SymbolicCholeskyRaw::Simplicial(_) => None,
    }
}
