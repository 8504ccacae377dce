//! Variants side by side in words.

use super::findings::in_short;
use crate::rules::Finding;
use crate::study::compare::{Best, End, LEAST_GAIN};
use crate::study::figures::Line;
use crate::units::{Quantity, System, figure};

/// Name of a figure.
pub const fn line(line: Line) -> &'static str {
    match line {
        Line::RunsOutlet => "Gas out of the last run",
        Line::ChimneyInlet => "Gas into the chimney",
        Line::Efficiency => "Efficiency",
        Line::MarginHot => "Draft to spare, hot",
        Line::MarginCold => "Draft to spare, cold start",
        Line::MarginMild => "Draft to spare, mild day",
        Line::MouthWall => "Wall at the mouth",
        Line::HottestFace => "Hottest face",
        Line::Output => "Heat to the room",
        Line::HalfWarm => "Half of the warmth lasts",
    }
}

/// What the figures belong to.
pub const NOTE: &str = "Gas out of the last run, wall at the mouth and draft belong to the height \
    of the fire, with the masonry cold; all else to the day that repeats.";

/// Which number of runs is the best, and why.
pub fn best(best: &Best, system: System) -> String {
    let short = |finding: &Finding| in_short(finding, system);
    let share = |value| figure(value, Quantity::Share, system);
    match best {
        Best::None { runs, finding } => format!(
            "No number of runs answers yes three times. With {} the least speaks against it: {}.",
            count(*runs),
            short(finding)
        ),
        Best::Passes { runs, sensible: (fewest, most), end } => {
            let range = if fewest == most {
                "no other number answers yes three times".into()
            } else {
                format!("{fewest} to {most} answer yes three times")
            };
            let why = match end {
                End::GainsLittle(gain) => format!(
                    "one run more keeps only {} more of the wood's heat, and a run should earn \
                     {} (our choice)",
                    share(*gain),
                    share(LEAST_GAIN)
                ),
                End::Fails(finding) => {
                    format!("one run more does not pass: {}", short(finding))
                }
                End::CannotStand => {
                    "one run more does not stand below the mouth of the chimney".into()
                }
                End::Last => "more were not compared".into(),
            };
            format!("Best with {}: {range}, and {why}.", count(*runs))
        }
    }
}

fn count(runs: usize) -> String {
    if runs == 1 { "1 run".into() } else { format!("{runs} runs") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::design::Design;
    use crate::rules::{Question, check, deciding};

    #[test]
    fn the_best_is_named_with_its_reason() {
        let passes = |sensible, end| Best::Passes { runs: 5, sensible, end };
        let said = |found: &Best| best(found, System::Metric);
        assert_eq!(
            said(&passes((4, 6), End::GainsLittle(0.007))),
            "Best with 5 runs: 4 to 6 answer yes three times, and one run more keeps only 0.7 % \
             more of the wood's heat, and a run should earn 1.0 % (our choice)."
        );
        let mut design = Design::demonstration();
        design.site.house_suction = 40.0;
        let findings = check(&design, &analyze(&design).unwrap());
        let finding = *deciding(Question::Draw, &findings).unwrap();
        let fails = said(&passes((5, 5), End::Fails(finding)));
        assert!(
            fails.contains("no other number") && fails.contains("not pass: draft"),
            "{fails}"
        );
        let none = said(&Best::None { runs: 1, finding });
        assert!(none.contains("With 1 run the least speaks against it: draft"), "{none}");
    }
}
