//! One piece of work for each of several things, on as many cores as there are. Knows nothing of the work.

use std::sync::atomic::{AtomicUsize, Ordering};

/// What `work` makes of each of the things, in their order: the same as on one core.
pub(crate) fn on_all_cores<T: Sync, R: Send>(
    things: &[T],
    work: impl Fn(&T) -> R + Sync,
) -> Vec<R> {
    let cores = std::thread::available_parallelism().map_or(1, |count| count.get());
    let threads = cores.min(things.len());
    if threads <= 1 {
        return things.iter().map(work).collect();
    }
    let next = AtomicUsize::new(0);
    let share = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(thing) = things.get(index) else {
                return done;
            };
            done.push((index, work(thing)));
        }
    };
    let mut done = std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(share)).collect();
        let mut done = share();
        for other in others {
            match other.join() {
                Ok(more) => done.extend(more),
                // A panic of one thread is the panic of all.
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        done
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::on_all_cores;

    #[test]
    fn results_are_in_the_order_of_the_things() {
        let things: Vec<u64> = (0..1000).collect();
        let squares: Vec<u64> = things.iter().map(|thing| thing * thing).collect();
        assert_eq!(on_all_cores(&things, |thing| thing * thing), squares);
        assert!(on_all_cores(&[] as &[u64], |thing| thing * 2).is_empty());
    }
}
