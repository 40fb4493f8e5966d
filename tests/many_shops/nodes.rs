//! Nodes of a database that keeps each shop's rows together, in three copies, one of which leads.
//!
//! Where a shop lies follows from its number and the nodes alone (the highest of a hash for each node: Thaler and Ravishankar 1998,
//! from memory), so that a lost node moves its own shops and no others. No statement asks for rows of two shops.

use tests::parity::Dice;

pub(crate) const NODES: usize = 9;
pub(crate) const COPIES: usize = 3;

/// Where the copies of a shop lie while these nodes are up; the first leads.
pub(crate) fn copies(shop: usize, up: &[bool; NODES]) -> Vec<usize> {
    let weight = |node: usize| Dice(((shop as u64) << 8) | node as u64).below(u64::MAX);
    let mut nodes: Vec<usize> = (0..NODES).filter(|node| up[*node]).collect();
    nodes.sort_by_key(|node| std::cmp::Reverse(weight(*node)));
    nodes.truncate(COPIES);
    nodes
}

/// The least and the greatest of some counts, beside their mean.
pub(crate) fn spread(counts: &[u64]) -> (u64, f64, u64) {
    let mean = counts.iter().sum::<u64>() as f64 / counts.len() as f64;
    (counts.iter().copied().min().unwrap_or(0), mean, counts.iter().copied().max().unwrap_or(0))
}
