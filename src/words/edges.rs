//! Safety at its unfavorable edge in words.

use super::findings::overload;
use crate::design::Design;
use crate::language::{English, said, say};
use crate::rules::{Edges, HOTTEST_FACE, TemperatureEdge, Touch, touchable};
use crate::units::{Quantity, System, figure};
use crate::words::passage::Passage;

/// Heading over the edges.
pub const TITLE: English = English("With more wood than stated");

/// How the edge is found, for who wants to know.
pub const METHOD: English = English(
    "Peaks of the day that repeats, each firing with a quarter more wood in the stated time \
     at the stated excess air. The edge is the nominal figure and by how much it is worse in \
     5 of 100 cases: of 40 samples of a coarser day the worse of mean + 1.645 standard \
     deviations and of the 95th of 100, never better than nominal. The wall at the mouth is \
     that of a steady flue at the height of the first fire, with the wood stated.",
);

/// What the table shows.
pub fn note() -> String {
    say!(
        "Safety is judged with {} more wood in each firing, burned in the stated time, once the \
         days repeat; and so that 95 of 100 cases pass.",
        overload()
    )
}

/// A figure with its edge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it is.
    pub name: &'static str,
    /// As it is reckoned.
    pub nominal: String,
    /// What it is at most, or at least, in 95 of 100 cases.
    pub edge: String,
    /// The limit, where there is one.
    pub limit: String,
}

/// The figures that are judged, each with its edge and its limit.
pub fn rows(design: &Design, edges: &Edges, system: System) -> Vec<Row> {
    let hot = |value| figure(value, Quantity::Temperature, system);
    let time = |value| figure(value, Quantity::Duration, system);
    let up_to = |edge: String| say!("up to {edge}");
    let row = |name, (nominal, edge): (String, String), limit: String| Row {
        name,
        nominal,
        edge,
        limit,
    };
    let of = |edge: TemperatureEdge| (hot(edge.nominal), up_to(hot(edge.edge)));
    let wall = edges.mouth_wall;
    let short = edges.short_of_draft;
    let mut rows = vec![
        row(
            said("Gas into the chimney, hottest"),
            of(edges.peak_gas),
            hot(design.chimney.rated_temperature),
        ),
        row(said("Hottest face"), of(edges.hottest_face), hot(HOTTEST_FACE)),
        row(said("Gas out of the firebox, hottest"), of(edges.peak_firebox), String::new()),
        row(
            said("Short of draft"),
            (time(short.nominal), up_to(time(short.edge))),
            String::new(),
        ),
        row(
            said("Wall at the mouth, as stated"),
            (hot(wall.nominal), say!("down to {}", hot(wall.edge))),
            String::new(),
        ),
    ];
    rows.extend(touchable(design).map(|(touch, limit)| match touch {
        Touch::Reach => row(said("Hottest upright face"), of(edges.upright), hot(limit)),
        Touch::Seat | Touch::Bed | Touch::Door => {
            row(said("Hottest top of the bench"), of(edges.bench), hot(limit))
        }
    }));
    rows
}

/// The table of the edges.
pub fn passage(design: &Design, edges: &Edges, system: System) -> Passage {
    let heads =
        [said("Figure"), said("As computed"), said("In 95 of 100 cases"), said("Limit")];
    let rows = rows(design, edges, system);
    let rows =
        rows.into_iter().map(|row| vec![row.name.to_owned(), row.nominal, row.edge, row.limit]);
    Passage::new(TITLE).text(note()).table(&heads, rows)
}
