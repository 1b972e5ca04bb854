//! The best and the last of a class.

/// Places of the students with the highest and with the lowest totals.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Groups {
    pub top: Vec<usize>,
    pub bottom: Vec<usize>,
}

/// Two totals nearer than this are the same: they were added up from decimals.
const SAME: f64 = 1e-9;

impl Groups {
    /// About 27 % of the class each, and never a part of those who have the same total: of two sizes that are possible the nearer to
    /// 27 % is taken, of equally near ones the larger. None where the two would have students in common.
    ///
    /// Source: Kelley, J. Educ. Psychol. 30 (1939) 17, for 27 % (from memory).
    pub fn of(totals: &[f64]) -> Option<Self> {
        let wanted = (27 * totals.len() + 50) / 100;
        let mut order: Vec<usize> = (0..totals.len()).collect();
        order.sort_by(|&one, &other| totals[other].total_cmp(&totals[one]));
        let top = first(&order, totals, wanted);
        order.reverse();
        let bottom = first(&order, totals, wanted);
        let apart = !top.is_empty() && top.len() + bottom.len() <= totals.len();
        apart.then_some(Self { top, bottom })
    }
}

/// The first of an order, about as many as wanted, whole groups of the same total.
fn first(order: &[usize], totals: &[f64], wanted: usize) -> Vec<usize> {
    let mut taken = 0;
    let mut end = 0;
    while end < order.len() && taken < wanted {
        let total = totals[order[end]];
        let same = order[end..].iter().take_while(|&&student| (totals[student] - total).abs() <= SAME);
        let next = end + same.count();
        // With nobody taken yet the first group is taken, however large.
        if taken > 0 && next - wanted.min(next) > wanted - taken {
            break;
        }
        (taken, end) = (next, next);
    }
    order[..end].to_vec()
}
