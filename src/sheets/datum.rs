//! From where the positions on a face count, in words: where the circle of the datum lies on its drawing.

use crate::arrangement::Arrangement;
use crate::sheets::tenth;
use crate::sheets::views::FaceOutline;
use crate::space::Face;

/// The faces from whose insides u and v of a wall, or x and y of the lid, count.
fn begins(face: Face) -> (Face, Face) {
    match face {
        Face::Bottom => (Face::Left, Face::Back),
        Face::Right => (Face::Bottom, Face::Back),
        Face::Top => (Face::Right, Face::Back),
        Face::Left => (Face::Top, Face::Back),
        Face::Lid | Face::Back => (Face::Left, Face::Bottom),
    }
}

/// The name of a face with what it is.
fn inside_of(face: Face) -> String {
    match face {
        Face::Lid => "inside of the lid".into(),
        face => format!("inside of the {} wall", face.name()),
    }
}

/// From where the first and the second position of holes in a face count.
pub(super) fn from_words(face: Face) -> [String; 2] {
    let (first, second) = begins(face);
    let seen = match face {
        Face::Lid | Face::Back => "seen from outside",
        _ => "seen from outside with the lid upwards",
    };
    [
        format!("{} (left edge {seen})", inside_of(first)),
        format!("{} (lower edge {seen})", inside_of(second)),
    ]
}

/// The datum of a face in one sentence, with how far it lies from the outer edges as they are drawn.
pub(super) fn sentence(arrangement: &Arrangement, face: Face) -> String {
    let (first, second) = begins(face);
    let ((across, up), seen) = match face {
        Face::Lid | Face::Back => (("x", "y"), "seen from outside"),
        _ => (("u", "v"), "seen from outside with the lid upwards"),
    };
    let (left_mm, lower_mm, ..) = FaceOutline::of(arrangement, face).outer;
    let name = match face {
        Face::Lid => "Lid".to_string(),
        face => crate::letters::capital(&format!("{} wall", face.name())),
    };
    let thick = match face {
        Face::Lid | Face::Back => "",
        _ => ", the back taken as thick as the walls",
    };
    format!(
        "{name}, {seen}: {across} from the left edge ({}), {up} from the lower edge ({}); the datum lies {} mm and {} mm \
         inside these outer edges{thick}.",
        inside_of(first),
        inside_of(second),
        tenth(-left_mm),
        tenth(-lower_mm)
    )
}

#[cfg(test)]
mod tests {
    use super::begins;
    use crate::space::{Face, Interior, Point};

    /// How far a point lies from the inside of a face.
    fn from_mm(interior: &Interior, face: Face, point: Point) -> f64 {
        match face {
            Face::Left => point.x_mm,
            Face::Right => interior.width_mm - point.x_mm,
            Face::Bottom => point.y_mm,
            Face::Top => interior.height_mm - point.y_mm,
            Face::Back => point.z_mm,
            Face::Lid => interior.depth_mm - point.z_mm,
        }
    }

    #[test]
    fn positions_count_from_the_faces_that_are_named() {
        let interior = Interior {
            width_mm: 300.0,
            height_mm: 200.0,
            depth_mm: 120.0,
        };
        for face in Face::WALLS.into_iter().chain([Face::Lid]) {
            let point = interior.point(face, 17.0, 31.0, 0.0);
            let (first, second) = begins(face);
            assert_eq!(from_mm(&interior, first, point), 17.0, "{face}");
            assert_eq!(from_mm(&interior, second, point), 31.0, "{face}");
            assert_eq!(from_mm(&interior, face, point), 0.0, "{face}");
        }
    }
}
