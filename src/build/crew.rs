//! Who builds: what the builder notes of the crew.

use crate::design::Design;

/// Names of the notes.
pub const PEOPLE: &str = "crew.people";
/// See [`PEOPLE`].
pub const HOURS: &str = "crew.hours";
/// See [`PEOPLE`].
pub const FACTOR: &str = "crew.factor";

/// Hours that a first-time crew takes over those of masons (–), at least and at most.
///
/// # Source
///
/// [`crate::sources::HEATER_LABOR`].
pub const FIRST_TIME: (f64, f64) = (1.6, 4.0);

/// A crew.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crew {
    /// Hands.
    pub people: f64,
    /// Hours of a working day.
    pub hours: f64,
    /// Hours over those of masons (–).
    pub factor: f64,
}

impl Crew {
    /// Two people who build their first heater, if nothing else was noted.
    pub fn of(design: &Design) -> Self {
        let noted = |name, usual, least| {
            design.notes.number(name).filter(|value| least <= *value).unwrap_or(usual)
        };
        Self {
            people: noted(PEOPLE, 2.0, 0.5),
            hours: noted(HOURS, 8.0, 0.5),
            factor: noted(FACTOR, 2.5, 0.2),
        }
    }

    /// Working days for so many hours of masons and tenders.
    pub fn days(self, hours: f64) -> f64 {
        hours * self.factor / (self.people * self.hours)
    }
}
