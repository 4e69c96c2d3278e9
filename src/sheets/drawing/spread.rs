//! Labels along an edge, moved apart so that none touches the next.

/// Moves places on a line apart until neighbours keep `pitch_mm`, each as little as it can. The order
/// is kept; places must come in rising order.
///
/// Neighbours that are too close form a cluster around the mean of their wishes; clusters that then
/// touch are joined. This is the pool-adjacent-violators method, so the sum of squared moves is least.
pub fn spread(wished_mm: &[f64], pitch_mm: f64) -> Vec<f64> {
    // A cluster: the mean of its members' wishes less their steps from its first, and its size.
    let mut clusters: Vec<(f64, usize)> = Vec::new();
    for (index, wish) in wished_mm.iter().enumerate() {
        // Taking the pitch out turns "at least a pitch apart" into "not falling".
        let mut merged = (wish - index as f64 * pitch_mm, 1);
        while let Some(last) = clusters.last().copied() {
            if last.0 <= merged.0 {
                break;
            }
            let size = last.1 + merged.1;
            merged = (
                (last.0 * last.1 as f64 + merged.0 * merged.1 as f64) / size as f64,
                size,
            );
            clusters.pop();
        }
        clusters.push(merged);
    }
    clusters
        .iter()
        .flat_map(|(level, size)| std::iter::repeat_n(*level, *size))
        .enumerate()
        .map(|(index, level)| level + index as f64 * pitch_mm)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn what_is_apart_stays() {
        assert_eq!(spread(&[0.0, 10.0, 20.0], 5.0), [0.0, 10.0, 20.0]);
        assert!(spread(&[], 5.0).is_empty());
    }

    #[test]
    fn what_is_close_moves_evenly() {
        assert_eq!(spread(&[10.0, 10.0], 4.0), [8.0, 12.0]);
        let moved = spread(&[0.0, 1.0, 2.0, 30.0, 30.5], 4.0);
        for pair in moved.windows(2) {
            assert!(pair[1] - pair[0] >= 4.0 - 1e-9, "{moved:?}");
        }
        assert_eq!(moved[1], 1.0);
    }
}
