use crate::arrangement::Arrangement;
/// Placeholder.
pub fn summary(_: &Arrangement) -> String {
    String::new()
}
