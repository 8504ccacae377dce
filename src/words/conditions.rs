//! The draft under four conditions in words.

use crate::analysis::conditions::{KINDLING_RATE, LEAST_SUCTION};
use crate::rules::{Condition, Severity, Start};
use crate::units::{Quantity, System, figure};

/// Heading over the conditions.
pub const TITLE: &str = "Draft on two days";

/// Name of a fire for which the draft is judged.
pub const fn start(start: Start) -> &'static str {
    match start {
        Start::Hot => "Height of the fire",
        Start::Cold => "Kindling, all cold",
    }
}

/// Name of a day, with the temperature outdoors.
pub fn day(condition: &Condition, system: System) -> String {
    let name = match condition.day {
        crate::rules::Day::Design => "Day of the design",
        crate::rules::Day::Mild => "Mild day",
    };
    format!("{name}, {}", figure(condition.outdoors, Quantity::Temperature, system))
}

/// What a condition comes to.
pub const fn verdict(severity: Option<Severity>) -> &'static str {
    match severity {
        None => "Draws",
        Some(Severity::GoodToKnow) => "Good to know",
        Some(Severity::LookAgain) => "Look again",
        Some(Severity::DoNotBuild) => "Does not draw",
    }
}

/// Its figure beside what is wanted.
pub fn margin(condition: &Condition, system: System) -> String {
    let show = |pascals: f64| figure(pascals, Quantity::Pressure, system);
    let found = if condition.margin < 0.0 {
        format!("{} short", show(-condition.margin))
    } else {
        format!("{} to spare", show(condition.margin))
    };
    if condition.wanted > 0.0 {
        format!("{found}, at least {} wanted", show(condition.wanted))
    } else {
        found
    }
}

/// What the conditions are.
pub fn note(conditions: &[Condition], system: System) -> String {
    let raised = conditions.iter().any(|condition| condition.suction_raised);
    let suction = if raised {
        format!(
            " All are judged with a suction of the house of {}, more than was entered.",
            figure(LEAST_SUCTION, Quantity::Pressure, system)
        )
    } else {
        String::new()
    };
    format!(
        "The height of the fire at the excess air that is stated; the kindling with {} of wood \
         an hour in cold masonry and a cold flue.{suction}",
        figure(KINDLING_RATE * 3600.0, Quantity::Mass, system)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::design::Design;
    use crate::rules::conditions;

    #[test]
    fn four_conditions_are_told_with_figure_and_verdict() {
        let mut design = Design::demonstration();
        design.site.house_suction = 0.0;
        let analysis = analyze(&design).unwrap();
        let all = conditions(&design, &analysis);
        let said: Vec<String> = all.iter().map(|each| margin(each, System::Metric)).collect();
        assert!(said.iter().all(|each| each.contains("Pa to spare")), "{said:?}");
        assert!(note(&all, System::Metric).contains("4.0 Pa"));
        assert!(note(&all, System::Us).contains("lb"));
        assert_eq!(day(&all[1], System::Metric), "Mild day, 15 °C");
    }
}
