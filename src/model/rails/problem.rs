//! The rail problem: clusters that are alike, what a rail costs, which strips may share one.

use itertools::Itertools;

/// What live terminals a rail carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RailKind {
    /// Other than intrinsically safe ones.
    Other,
    /// Earth terminals alone, between rows of both kinds: it need not be apart from either.
    Earth,
    /// Both, with the separation between.
    Mixed,
    /// Intrinsically safe ones.
    IntrinsicallySafe,
}

/// What a strip's terminals are, for the separation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StripClass {
    /// Live, not intrinsically safe.
    Other,
    /// Earth: may stand with either.
    Earth,
    /// Intrinsically safe.
    IntrinsicallySafe,
}

/// Clusters that are alike.
#[derive(Debug, Clone)]
pub struct ClusterType {
    /// Strip.
    pub strip: usize,
    /// Index of the group of strip and part that shares an end plate.
    pub group: usize,
    /// Width of one cluster.
    pub width_mm: f64,
    /// Indices of the clusters within the strip, in order.
    pub members: Vec<usize>,
}

/// Terminals of one part in one strip: they stand together on a rail and share an end plate.
#[derive(Debug, Clone)]
pub struct PartGroup {
    /// Strip.
    pub strip: usize,
    /// Id of the part.
    pub part: String,
    /// Extent across the rail, end plate included.
    pub length_mm: f64,
    /// Wiring space of the largest conductor on any of them.
    pub wiring_space_mm: f64,
    /// Width of what closes the group: the end plate, and a partition where one must stand before a group
    /// of the strip that could follow. It is counted whether or not that group follows. 0 where nothing
    /// closes it.
    pub end_plate_mm: f64,
}

/// The problem.
#[derive(Debug, Clone)]
pub struct RailProblem {
    /// Cluster types.
    pub types: Vec<ClusterType>,
    /// Part groups.
    pub groups: Vec<PartGroup>,
    /// Class of each strip.
    pub strips: Vec<StripClass>,
    /// Part group and width of each cluster, by strip and index within it.
    pub clusters: Vec<Vec<(usize, f64)>>,
    /// Width of an end stop.
    pub end_stop_mm: f64,
    /// Width of a partition.
    pub partition_mm: f64,
    /// Extent of a partition across the rail.
    pub partition_length_mm: f64,
    /// Extent across the rail that every row has: rail and end stops.
    pub base_length_mm: f64,
    /// Separation of intrinsically safe and other conducting parts.
    pub separation_mm: f64,
    /// What stands between the two on a mixed rail, where the workshop permits a partition there.
    pub separator: Option<SeparatorRoom>,
}

/// What a partition between the two kinds on one rail takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeparatorRoom {
    /// Along the rail, with the distance that it leaves to keep.
    pub gap_mm: f64,
    /// Across the rail.
    pub length_mm: f64,
    /// Along the rail, of the partition itself.
    pub width_mm: f64,
    /// Above the rail.
    pub height_mm: f64,
}

/// The room there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailRoom {
    /// Length along the rail, end stops included.
    pub length_mm: f64,
    /// Height between what bounds the rows.
    pub height_mm: f64,
}

/// One rail.
#[derive(Debug, Clone, PartialEq)]
pub struct RailPlan {
    /// Kind.
    pub kind: RailKind,
    /// Clusters by strip and index within it, in the order in which they stand.
    pub clusters: Vec<(usize, usize)>,
    /// Extent across the rail.
    pub row_mm: f64,
    /// Wiring space.
    pub wiring_space_mm: f64,
}

impl RailProblem {
    /// What every rail costs beside its terminals.
    pub fn rail_overhead_mm(&self) -> f64 {
        2.0 * self.end_stop_mm
    }

    /// What stands between other and intrinsically safe terminals on one rail: two end stops, and the
    /// separation in all, or what a partition leaves of it.
    pub fn mixed_gap_mm(&self) -> f64 {
        match self.separator {
            Some(separator) => (separator.width_mm + 2.0 * self.end_stop_mm).max(separator.gap_mm),
            None => self.separation_mm.max(2.0 * self.end_stop_mm),
        }
    }

    /// Extent across the rail that a row of a kind has at least.
    pub fn base_of_mm(&self, kind: RailKind) -> f64 {
        let separator = self.separator.filter(|_| kind == RailKind::Mixed);
        separator.map_or(self.base_length_mm, |separator| {
            self.base_length_mm.max(separator.length_mm)
        })
    }

    /// Length of all terminals, and one end plate for each part group. No division takes less.
    pub fn least_length_mm(&self) -> f64 {
        let terminals: f64 = self
            .types
            .iter()
            .map(|kind| kind.width_mm * kind.members.len() as f64)
            .sum();
        terminals
            + self
                .groups
                .iter()
                .map(|group| group.end_plate_mm)
                .sum::<f64>()
    }

    fn least_row_mm(&self) -> f64 {
        let shortest = self
            .groups
            .iter()
            .map(|group| group.length_mm)
            .fold(f64::INFINITY, f64::min);
        shortest.max(self.base_length_mm)
    }

    fn wiring_space_bounds_mm(&self) -> (f64, f64) {
        let spaces = || self.groups.iter().map(|group| group.wiring_space_mm);
        (
            spaces().fold(f64::INFINITY, f64::min),
            spaces().fold(0.0, f64::max),
        )
    }

    /// Least height that any division into so many rails takes: the row with the largest wiring space
    /// has it on both sides, every other row adds its own at least.
    pub fn least_height_mm(&self, rails: u32) -> f64 {
        let (least_mm, most_mm) = self.wiring_space_bounds_mm();
        2.0 * most_mm
            + f64::from(rails) * self.least_row_mm()
            + f64::from(rails.saturating_sub(1)) * least_mm
    }

    /// Most rails that could fit above each other.
    pub fn most_rails(&self, height_mm: f64) -> u32 {
        (1..=super::MOST_RAILS)
            .take_while(|rails| self.least_height_mm(*rails) <= height_mm + 1e-6)
            .last()
            .unwrap_or(0)
    }

    /// The ways in which so many rails can be of the kinds, from the lowest upwards: other rows below,
    /// at most one mixed row, intrinsically safe rows above. Earth terminals may stand on any of them.
    pub fn divisions(&self, rails: u32) -> Vec<Vec<RailKind>> {
        let other = self.strips.contains(&StripClass::Other);
        let safe = self.strips.contains(&StripClass::IntrinsicallySafe);
        let repeat = |kind: RailKind, count: u32| std::iter::repeat_n(kind, count as usize);
        match (other, safe) {
            (true, true) => {
                // Rows from the lowest upwards: others, earth alone, one of both, earth alone, safe ones.
                let earth = self.strips.contains(&StripClass::Earth);
                let mut all = Vec::new();
                for mixed in 0..=1 {
                    for (below, above) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
                        let between = mixed + below + above;
                        if (below + above > 0 && !earth)
                            || (mixed == 0 && above == 1)
                            || between > rails
                        {
                            continue;
                        }
                        for others in 0..=rails - between {
                            let safes = rails - between - others;
                            if mixed == 0 && (others == 0 || safes == 0) {
                                continue;
                            }
                            all.push(
                                repeat(RailKind::Other, others)
                                    .chain(repeat(RailKind::Earth, below))
                                    .chain(repeat(RailKind::Mixed, mixed))
                                    .chain(repeat(RailKind::Earth, above))
                                    .chain(repeat(RailKind::IntrinsicallySafe, safes))
                                    .collect_vec(),
                            );
                        }
                    }
                }
                all
            }
            (false, true) => {
                let mut all = vec![repeat(RailKind::IntrinsicallySafe, rails).collect_vec()];
                // Earth terminals may also stand apart on the lowest row of both: two end stops close each
                // side, so that no partition makes the row higher.
                if self.strips.contains(&StripClass::Earth) {
                    for (below, above) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
                        let Some(safes) = rails.checked_sub(1 + below + above) else {
                            continue;
                        };
                        all.push(
                            repeat(RailKind::Earth, below)
                                .chain(repeat(RailKind::Mixed, 1))
                                .chain(repeat(RailKind::Earth, above))
                                .chain(repeat(RailKind::IntrinsicallySafe, safes))
                                .collect_vec(),
                        );
                    }
                }
                all
            }
            _ => vec![repeat(RailKind::Other, rails).collect()],
        }
    }

    /// Necessary conditions for a division: length for each kind of strip, and height with the
    /// separation between rows of different kinds.
    pub fn may_divide(&self, kinds: &[RailKind], room: RailRoom) -> bool {
        let per_rail_mm = room.length_mm - self.rail_overhead_mm();
        let count = |kind: RailKind| kinds.iter().filter(|known| **known == kind).count() as f64;
        let mixed_mm = count(RailKind::Mixed) * (per_rail_mm - self.mixed_gap_mm());
        let length_of = |class: StripClass| -> f64 {
            let types = self
                .types
                .iter()
                .filter(|kind| self.strips[kind.strip] == class);
            types
                .map(|kind| kind.width_mm * kind.members.len() as f64)
                .sum()
        };
        let (other_mm, safe_mm) = (
            length_of(StripClass::Other),
            length_of(StripClass::IntrinsicallySafe),
        );
        let earth_mm = length_of(StripClass::Earth);
        let (others, safes) = (count(RailKind::Other), count(RailKind::IntrinsicallySafe));
        let earths = count(RailKind::Earth);
        let long_enough = other_mm <= others * per_rail_mm + mixed_mm + 1e-6
            && safe_mm <= safes * per_rail_mm + mixed_mm + 1e-6
            && other_mm + safe_mm + earth_mm
                <= (others + safes + earths) * per_rail_mm + mixed_mm + 1e-6;
        long_enough && self.least_height_of_mm(kinds) <= room.height_mm + 1e-6
    }

    /// Least height of a division: every slot its least, the two at one row raised to the largest
    /// wiring space.
    pub fn least_height_of_mm(&self, kinds: &[RailKind]) -> f64 {
        let (least_mm, most_mm) = self.wiring_space_bounds_mm();
        let mut slots = vec![least_mm; kinds.len() + 1];
        for (slot, (lower, upper)) in kinds.iter().tuple_windows().enumerate() {
            if self.must_be_apart(*lower, *upper) {
                slots[slot + 1] = least_mm.max(self.separation_mm);
            }
        }
        let raised = |slot: f64| (most_mm - slot).max(0.0);
        let raise_mm = slots
            .iter()
            .tuple_windows()
            .map(|(below, above)| raised(*below) + raised(*above))
            .fold(f64::INFINITY, f64::min);
        slots.iter().sum::<f64>() + raise_mm + kinds.len() as f64 * self.least_row_mm()
    }

    /// Whether a strip may stand on a rail of a kind.
    pub fn allows(&self, strip: usize, kind: RailKind) -> bool {
        match (self.strips[strip], kind) {
            (StripClass::Earth, _) | (_, RailKind::Mixed) => true,
            (_, RailKind::Earth) => false,
            (StripClass::Other, kind) => kind == RailKind::Other,
            (StripClass::IntrinsicallySafe, kind) => kind == RailKind::IntrinsicallySafe,
        }
    }

    /// Width of one cluster, by strip and index within it.
    pub(super) fn width_mm(&self, (strip, cluster): (usize, usize)) -> f64 {
        self.clusters[strip][cluster].1
    }

    /// Part group of one cluster, by strip and index within it.
    pub(super) fn group(&self, (strip, cluster): (usize, usize)) -> usize {
        self.clusters[strip][cluster].0
    }

    /// Length of a rail with terminals of these widths in all, of these part groups.
    pub(super) fn length_mm(&self, kind: RailKind, widths_mm: f64, groups: &[usize]) -> f64 {
        let end_plates = groups.iter().map(|group| self.groups[*group].end_plate_mm);
        let gap_mm = match kind {
            RailKind::Mixed => self.mixed_gap_mm(),
            _ => 0.0,
        };
        self.rail_overhead_mm()
            + widths_mm
            + end_plates.sum::<f64>()
            + gap_mm
            + self.partitions(kind, groups) as f64 * self.partition_mm
    }

    /// Partitions between the strips of a rail. On a mixed one the gap takes the place of that between the two
    /// kinds.
    fn partitions(&self, kind: RailKind, groups: &[usize]) -> usize {
        let strips = || {
            groups
                .iter()
                .map(|group| self.groups[*group].strip)
                .unique()
        };
        let safe = |strip: usize| self.strips[strip] == StripClass::IntrinsicallySafe;
        let between = strips().count().saturating_sub(1);
        let both = kind == RailKind::Mixed && strips().any(safe) && !strips().all(safe);
        between - usize::from(both)
    }

    /// Puts the clusters of a rail in order, and measures its row, wiring space and length.
    pub fn rail_plan(&self, kind: RailKind, mut clusters: Vec<(usize, usize)>) -> (RailPlan, f64) {
        let class_order = |strip: usize| match self.strips[strip] {
            StripClass::IntrinsicallySafe => 1,
            _ => 0,
        };
        let group_of = |cluster: &(usize, usize)| self.clusters[cluster.0][cluster.1].0;
        clusters.sort_by_key(|cluster| {
            (
                class_order(cluster.0),
                cluster.0,
                group_of(cluster),
                cluster.1,
            )
        });
        // They stand in order, so those of one group follow one another.
        let groups = clusters.iter().map(group_of).dedup().collect_vec();
        let widths_mm = clusters.iter().map(|cluster| self.width_mm(*cluster)).sum();
        let length_mm = self.length_mm(kind, widths_mm, &groups);
        let partitions = self.partitions(kind, &groups);
        let mut row_mm = groups
            .iter()
            .map(|group| self.groups[*group].length_mm)
            .fold(self.base_of_mm(kind), f64::max);
        if partitions > 0 {
            row_mm = row_mm.max(self.partition_length_mm);
        }
        let wiring_space_mm = groups
            .iter()
            .map(|group| self.groups[*group].wiring_space_mm)
            .fold(0.0, f64::max);
        (
            RailPlan {
                kind,
                clusters,
                row_mm,
                wiring_space_mm,
            },
            length_mm,
        )
    }

    /// The free heights between rows: below the first, between each two, above the last.
    pub fn slots_mm(&self, rails: &[RailPlan]) -> Vec<f64> {
        let mut slots: Vec<f64> = rails
            .first()
            .iter()
            .map(|rail| rail.wiring_space_mm)
            .collect();
        for (lower, upper) in rails.iter().tuple_windows() {
            let space_mm = lower.wiring_space_mm.max(upper.wiring_space_mm);
            let apart = if self.must_be_apart(lower.kind, upper.kind) {
                self.separation_mm
            } else {
                0.0
            };
            slots.push(space_mm.max(apart));
        }
        slots.extend(rails.last().iter().map(|rail| rail.wiring_space_mm));
        slots
    }

    /// Whether two neighbouring rails carry live terminals of both kinds between them.
    pub fn must_be_apart(&self, lower: RailKind, upper: RailKind) -> bool {
        lower != upper && lower != RailKind::Earth && upper != RailKind::Earth
    }

    /// Height of rows and slots together.
    pub fn height_mm(&self, rails: &[RailPlan]) -> f64 {
        rails.iter().map(|rail| rail.row_mm).sum::<f64>() + self.slots_mm(rails).iter().sum::<f64>()
    }
}
