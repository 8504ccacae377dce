//! Finished pictures side by side: marks in pixels, y down, with a class each, so that whoever shows
//! them only has to put them there. What can be read at a place of them stands beside the marks.

/// Pictures that belong together, with what can be read in them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gallery {
    /// One beside the other where there is room.
    pub pictures: Vec<Picture>,
    /// What stands at each stop, the same in all pictures: as it is said, and the variant as words.
    pub readings: Vec<(String, String)>,
    /// Stops of a row; all of them where there is one row.
    pub across: usize,
    /// The stop that is read first.
    pub first: usize,
}

/// One picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// Heading.
    pub title: String,
    /// What is seen, in a sentence.
    pub description: String,
    /// Class of the whole.
    pub class: String,
    /// Width and height (px).
    pub size: [f64; 2],
    /// In the order in which they are painted.
    pub marks: Vec<Mark>,
    /// Where each reading is taken: left, top, width, height (px).
    pub stops: Vec<[f64; 4]>,
}

/// A line, a face or a text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mark {
    /// What it stands for, by which it gets its look.
    pub class: String,
    /// The data of a path; empty for a text.
    pub path: String,
    /// Where a text stands (px).
    pub at: [f64; 2],
    /// What it says.
    pub text: String,
}

impl Mark {
    /// A path.
    pub fn path(class: &str, path: impl Into<String>) -> Self {
        Self { class: class.to_owned(), path: path.into(), ..Self::default() }
    }

    /// A text.
    pub fn text(class: &str, at: (f64, f64), text: impl Into<String>) -> Self {
        let at = [rounded(at.0), rounded(at.1)];
        Self { class: class.to_owned(), at, text: text.into(), ..Self::default() }
    }

    /// A line through points.
    pub fn line(class: &str, points: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let pairs = points.into_iter();
        let pairs: Vec<_> =
            pairs.map(|(x, y)| format!("{} {}", rounded(x), rounded(y))).collect();
        Self::path(class, format!("M{}", pairs.join("L")))
    }

    /// A rectangle: left, top, width, height.
    pub fn rectangle(class: &str, [left, top, width, height]: [f64; 4]) -> Self {
        let (left, top) = (rounded(left), rounded(top));
        let (width, height) = (rounded(width), rounded(height));
        Self::path(class, format!("M{left} {top}h{width}v{height}h-{width}z"))
    }

    /// A circle.
    pub fn circle(class: &str, (x, y): (f64, f64), radius: f64) -> Self {
        let (left, y, across) = (rounded(x - radius), rounded(y), 2.0 * radius);
        let arc = format!("a{radius} {radius} 0 1 0");
        Self::path(class, format!("M{left} {y}{arc} {across} 0{arc} -{across} 0z"))
    }
}

/// To a tenth of a pixel.
pub fn rounded(pixels: f64) -> f64 {
    (10.0 * pixels).round() / 10.0
}
