//! Every piece of every course.

use crate::courses::lattice::meters;
use crate::courses::{Course, Piece, Plans};

const HEADS: &str = "part,body,course,piece,left_m,front_m,bottom_m,width_m,depth_m,height_m,\
                     cut_length_m,cut_width_m,cut_height_m\r\n";

/// A row a piece: where it lies and, where it is cut, its size as cut.
pub fn courses(plans: &Plans) -> String {
    let rows = plans.courses.iter();
    let rows =
        rows.flat_map(|course| course.pieces.iter().map(move |piece| row(course, piece)));
    HEADS.to_owned() + &rows.collect::<String>()
}

fn row(course: &Course, piece: &Piece) -> String {
    let rect = piece.rect;
    let bottom = course.bottom + course.bed;
    let place = [rect.left, rect.front, bottom, rect.width(), rect.depth(), course.height];
    let cut = if piece.is_cut { piece.size.map(figure) } else { Default::default() };
    let figures: Vec<String> = place.map(figure).into_iter().chain(cut).collect();
    let (body, number) = (course.body + 1, course.number);
    let (part, kind) = (course.part.id(), piece.id());
    format!("{part},{body},{number},{kind},{}\r\n", figures.join(","))
}

/// A length without more digits than the lattice has.
fn figure(steps: i32) -> String {
    format!("{:.4}", meters(steps))
}
