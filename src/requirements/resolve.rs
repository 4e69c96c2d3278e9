//! From the wording of a reference to cores and contacts, with an account of what is used.

use super::ends::{EndText, read_end};
use super::named::Named;
use super::{Cable, CoreName, ElementRequirement, End};
use crate::catalogue::CircuitKind;
use crate::source::{Finding, Place, nearest};
use std::collections::{BTreeMap, BTreeSet};

/// Resolves references to cores and contacts and keeps account of what is used.
pub(super) struct Resolver<'a> {
    cables: &'a Named<Cable>,
    elements: &'a Named<ElementRequirement>,
    /// What is used, with the line of the circuit that uses it.
    used: BTreeMap<End, usize>,
    /// Cores and points that the list names one by one: never handed out as free ones.
    reserved: BTreeSet<End>,
    /// How far each cable's cores (by index) and each element's points have been handed out.
    next_core: BTreeMap<usize, usize>,
    next_point: BTreeMap<usize, usize>,
}

/// A reference in `from` or `to`: one cable or element, with the ends it names or none.
pub(super) struct Target {
    owner: Owner,
    named: Vec<End>,
    /// How many of the named ends have been handed out.
    taken: usize,
}

#[derive(Clone, Copy)]
enum Owner {
    Cable(usize),
    Element(usize),
}

/// What is wrong with a reference.
pub(super) struct Refused {
    message: String,
    hint: Option<String>,
    /// What was expected; `None`: a reference, such as any.
    expected: Option<&'static str>,
}

/// Why a reference could not be resolved; `None` where the reason has been told already.
pub(super) type Refusal = Option<Refused>;

/// A refusal in words.
pub(super) fn refused(message: impl Into<String>) -> Refusal {
    Some(Refused {
        message: message.into(),
        hint: None,
        expected: None,
    })
}

/// A refusal of something that is a reference, but not what was expected of it.
pub(super) fn refused_expecting(message: String, expected: &'static str) -> Refusal {
    Some(Refused {
        message,
        hint: None,
        expected: Some(expected),
    })
}

/// A refusal with what to do about it, where something is known.
pub(super) fn refused_with(message: String, hint: Option<String>) -> Refusal {
    Some(Refused {
        message,
        hint,
        expected: None,
    })
}

impl Refused {
    /// The finding about a field.
    pub(super) fn finding(
        self,
        place: &Place,
        field: &str,
        code: &'static str,
        usual: &str,
    ) -> Finding {
        let finding = place.error(field, code, self.message);
        let finding = finding.expected(self.expected.unwrap_or(usual));
        match self.hint {
            Some(hint) => finding.hint(hint),
            None => finding,
        }
    }
}

impl<'a> Resolver<'a> {
    pub(super) fn new(cables: &'a Named<Cable>, elements: &'a Named<ElementRequirement>) -> Self {
        Self {
            cables,
            elements,
            used: BTreeMap::new(),
            reserved: BTreeSet::new(),
            next_core: BTreeMap::new(),
            next_point: BTreeMap::new(),
        }
    }

    /// Keeps the ends that these texts name one by one for whoever names them.
    pub(super) fn reserve<'t>(&mut self, texts: impl Iterator<Item = &'t String>) {
        let mut reserved = BTreeSet::new();
        for target in texts.filter_map(|text| self.targets(text).ok()).flatten() {
            reserved.extend(target.named);
        }
        self.reserved = reserved;
    }

    /// The targets that one text of `from` or `to` names.
    pub(super) fn targets(&self, text: &str) -> Result<Vec<Target>, Refusal> {
        let EndText { tags, points } = read_end(text).map_err(refused)?;
        let mut targets = Vec::new();
        for tag in tags {
            if let Some(indices) = self.cables.by_tag.get(&tag) {
                for index in indices {
                    let named = points.iter().map(|point| self.core(*index, point));
                    targets.push(Target {
                        owner: Owner::Cable(*index),
                        named: named.collect::<Result<_, _>>()?,
                        taken: 0,
                    });
                }
            } else if let Some(indices) = self.elements.by_tag.get(&tag) {
                for index in indices {
                    let named = points.iter().map(|point| self.point(*index, point));
                    targets.push(Target {
                        owner: Owner::Element(*index),
                        named: named.collect::<Result<_, _>>()?,
                        taken: 0,
                    });
                }
            } else if self.cables.broken.contains(&tag) || self.elements.broken.contains(&tag) {
                return Err(None);
            } else {
                let known = self.cables.by_tag.keys().chain(self.elements.by_tag.keys());
                let hint = nearest(&tag, known.map(String::as_str))
                    .map(|known| format!("did you mean `{known}`?"));
                return Err(refused_with(
                    format!("there is no cable or element `{tag}`"),
                    hint,
                ));
            }
        }
        Ok(targets)
    }

    fn core(&self, cable: usize, name: &str) -> Result<End, Refusal> {
        let requirement = &self.cables.items[cable];
        let Ok(number) = name.parse::<u32>() else {
            return Err(Some(Refused {
                message: format!("`{}/{name}` is not a numbered core", requirement.tag),
                hint: Some(
                    "protective conductors and screens go to earth by themselves".to_string(),
                ),
                expected: Some("a core by its number"),
            }));
        };
        let core = CoreName::Number(number);
        if requirement.cores.iter().any(|known| known.name == core) {
            return Ok(End::Core { cable, core });
        }
        let numbered = |core: &&super::Core| matches!(core.name, CoreName::Number(_));
        let has = match requirement.cores.iter().filter(numbered).count() {
            0 => "no numbered core".to_string(),
            1 => "core 1".to_string(),
            count => format!("cores 1 to {count}"),
        };
        let message = format!("cable `{}` has {has}, not {name}", requirement.tag);
        Err(refused_expecting(message, "one of the cable's cores"))
    }

    fn point(&self, element: usize, name: &str) -> Result<End, Refusal> {
        let requirement = &self.elements.items[element];
        let known = points_of(requirement);
        if known.iter().any(|point| point == name) {
            return Ok(End::Contact {
                element,
                point: name.to_string(),
            });
        }
        let list = if known.is_empty() {
            "no points".to_string()
        } else {
            format!("points {}", known.join(", "))
        };
        let message = format!("element `{}` has {list}, not `{name}`", requirement.tag);
        Err(refused_expecting(message, "one of the element's points"))
    }

    /// Hands out the next end of a target to the circuit on a line: the next one named, or the next
    /// free one.
    pub(super) fn take(&mut self, target: &mut Target, line: usize) -> Result<End, Refusal> {
        if !target.named.is_empty() {
            let Some(end) = target.named.get(target.taken).cloned() else {
                let message = format!("{}, more poles need one", self.count_in_words(target));
                return Err(refused_expecting(message, "as many as there are poles"));
            };
            target.taken += 1;
            return self.claim(end, line);
        }
        let end = match target.owner {
            Owner::Cable(cable) => self.next_free_core(cable),
            Owner::Element(element) => self.next_free_point(element),
        };
        match end {
            Some(end) => self.claim(end, line),
            None => Err(match target.owner {
                Owner::Cable(cable) => {
                    let cable = &self.cables.items[cable];
                    let message = format!(
                        "cable `{}` ({}) has no free core left",
                        cable.tag, cable.cores_text
                    );
                    refused_expecting(
                        message,
                        "a free core for each pole: more cores, or fewer poles",
                    )
                }
                Owner::Element(element) => {
                    let tag = &self.elements.items[element].tag;
                    refused_expecting(
                        format!("element `{tag}` has no free point left"),
                        "a free point for each pole: more contacts or points, or fewer poles",
                    )
                }
            }),
        }
    }

    /// What is wrong if a target names more ends than were taken.
    pub(super) fn left_over(&self, target: &Target) -> Option<String> {
        (target.taken < target.named.len()).then(|| {
            let taken = target.taken;
            let poles = if taken == 1 {
                "pole takes"
            } else {
                "poles take"
            };
            format!("{}, only {taken} {poles} one", self.count_in_words(target))
        })
    }

    fn count_in_words(&self, target: &Target) -> String {
        let count = target.named.len();
        let be = if count == 1 { "is" } else { "are" };
        let s = if count == 1 { "" } else { "s" };
        match target.owner {
            Owner::Cable(cable) => {
                let tag = &self.cables.items[cable].tag;
                format!("{count} core{s} of cable `{tag}` {be} named")
            }
            Owner::Element(element) => {
                let tag = &self.elements.items[element].tag;
                format!("{count} point{s} of element `{tag}` {be} named")
            }
        }
    }

    fn next_free_core(&mut self, cable: usize) -> Option<End> {
        let cores = &self.cables.items[cable].cores;
        let next = self.next_core.entry(cable).or_insert(0);
        while let Some(core) = cores.get(*next) {
            *next += 1;
            let end = End::Core {
                cable,
                core: core.name,
            };
            if core.name != CoreName::Earth
                && !self.used.contains_key(&end)
                && !self.reserved.contains(&end)
            {
                return Some(end);
            }
        }
        None
    }

    fn next_free_point(&mut self, element: usize) -> Option<End> {
        let points = points_of(&self.elements.items[element]);
        let next = self.next_point.entry(element).or_insert(0);
        while let Some(point) = points.get(*next) {
            *next += 1;
            let end = End::Contact {
                element,
                point: point.clone(),
            };
            if !self.used.contains_key(&end) && !self.reserved.contains(&end) {
                return Some(end);
            }
        }
        None
    }

    fn claim(&mut self, end: End, line: usize) -> Result<End, Refusal> {
        match self.used.get(&end) {
            None => {
                self.used.insert(end.clone(), line);
                Ok(end)
            }
            Some(first) => {
                let hint = if *first == line {
                    "this circuit names it itself".to_string()
                } else {
                    format!("the circuit on line {first} has it already")
                };
                Err(Some(Refused {
                    message: format!("{} is used twice", self.describe(&end)),
                    hint: Some(hint),
                    expected: Some("each core and each point in one circuit, once"),
                }))
            }
        }
    }

    /// An end in words.
    pub(super) fn describe(&self, end: &End) -> String {
        match end {
            End::Core { cable, core } => {
                format!("core {core} of cable `{}`", self.cables.items[*cable].tag)
            }
            End::Contact { element, point } => format!(
                "point {point} of element `{}`",
                self.elements.items[*element].tag
            ),
        }
    }

    /// Kind and tag of the cable that an end belongs to.
    pub(super) fn kind_of(&self, end: &End) -> Option<(CircuitKind, &str)> {
        match end {
            End::Core { cable, .. } => {
                let cable = &self.cables.items[*cable];
                Some((cable.kind, &cable.tag))
            }
            End::Contact { .. } => None,
        }
    }
}

/// All points of an element: those of its contacts, then its own.
fn points_of(element: &ElementRequirement) -> Vec<String> {
    element
        .contacts
        .iter()
        .flat_map(|contact| contact.points.iter().cloned())
        .chain(element.own_points.iter().cloned())
        .collect()
}
