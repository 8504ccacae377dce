//! How a heater is run without harm, to read: carbon monoxide, damper, air, fire, first fires,
//! salvaged parts, soot and ash. Each sentence with how far its source was checked.

use super::passage::Passage;
use super::sources::cited;
use super::trust;
use crate::analysis::Analysis;
use crate::analysis::house::own_suction;
use crate::analysis::standard_route::sizes::bleed_area;
use crate::design::Design;
use crate::sources::{
    AIR_PER_WOOD, ASH, CHAR_LEFT, CHAR_MONOXIDE, CURING, DAMPER_CLOSING, DAMPER_OPENING,
    DRAFT_CHECK, EN_15544_BLEED, FIRING, HEARTH_EMISSIONS, MONOXIDE_ALARM, NEUTRAL_LEVEL,
    NFPA_211_INSPECTION, OUTSIDE_AIR, RUNNING, SALVAGE, Source, TISSARI_LOAD, TRIAL_SOOT,
};
use crate::units::{Quantity, System, figure};

/// Heading over it all.
pub const TITLE: &str = "Carbon monoxide and operation";

/// Least share of the flue that stays open behind a damper (–), and least opening (m2).
///
/// # Source
///
/// [`DAMPER_OPENING`].
const STAYS_OPEN: (f64, f64) = (0.03, 0.0020);
/// First charge of the first fires, and by how much each day's is larger (kg).
///
/// # Source
///
/// [`CURING`].
const CURING_STEP: f64 = 1.8;

/// A sentence with its source.
struct Said(String, &'static Source);

fn said(text: &str, source: &'static Source) -> Said {
    Said(text.into(), source)
}

/// How a heater is run without harm.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let sections = [
        ("Carbon monoxide", monoxide()),
        ("The damper", damper(design, system)),
        ("Air and the house", air(design, analysis, system)),
        ("The fire", fire(design, system)),
        ("The first fires", curing(design, system)),
        ("Salvaged parts", salvage()),
        ("Soot, cleaning and ash", soot()),
    ];
    let mut sources: Vec<String> = Vec::new();
    let mut passage = Passage::new(TITLE);
    for (title, sentences) in sections {
        let points = sentences.iter().map(|Said(text, source)| {
            let cited = cited(source);
            if !sources.contains(&cited) {
                sources.push(cited);
            }
            format!("{text} [{}]", trust(source.trust))
        });
        let points: Vec<_> = points.collect();
        passage = passage.folded(Passage::new(title).list(points));
    }
    passage.folded(Passage::new("Where this comes from").list(sources))
}

fn monoxide() -> Vec<Said> {
    vec![
        said(
            "Carbon monoxide has no smell. It comes from glowing char as much as from flames, and \
             most of all when the fire gets little air.",
            &RUNNING,
        ),
        said(
            "Heaters in homes gave 41 and 83 g of it for a kilogram of wood (0.7 and 1.3 oz a pound).",
            &HEARTH_EMISSIONS,
        ),
        said(
            "Fit a carbon monoxide alarm in the room of the heater and where people sleep, and try \
             it as its maker says.",
            &MONOXIDE_ALARM,
        ),
        said(
            "Char glows under its ash for hours: in one laboratory fire 2.5 kg (5.5 lb) were left \
             after 3.5 hours, 1.2 kg (2.6 lb) after 7.5 hours.",
            &CHAR_LEFT,
        ),
        said(
            "If the damper is shut on a tenth of a kilogram (a quarter pound) of char an hour, a \
             house can come to some 255 ppm of carbon monoxide in its air; a tight one to 640 ppm.",
            &CHAR_MONOXIDE,
        ),
        said(
            "When the alarm sounds: everybody out, call for help, and touch the heater no more.",
            &RUNNING,
        ),
    ]
}

fn damper(design: &Design, system: System) -> Vec<Said> {
    let (share, least) = STAYS_OPEN;
    let stays = (share * design.chimney.area()).max(least);
    let opening = |value| figure(value, Quantity::Opening, system);
    vec![
        said(
            "Never close the damper by the clock. Close it only when the bed has been raked \
             through and shows no flame, red or blue, and no glowing coal.",
            &DAMPER_CLOSING,
        ),
        said("If in doubt, leave it open. Heat lost is cheap.", &DAMPER_CLOSING),
        said(
            "While char glows the air may be reduced, never shut, and the damper stays open.",
            &DAMPER_CLOSING,
        ),
        Said(
            format!(
                "Even a closed damper must leave an opening: here at least {}. It vents only while \
                 the chimney pulls.",
                opening(stays)
            ),
            &DAMPER_OPENING,
        ),
        Said(
            format!(
                "A bleed slot from the top of the firebox lets gas escape that no run carries off: \
                 after EN 15544 {} for this charge; the design has {}.",
                opening(bleed_area(design.fire.charge)),
                opening(design.path.bleed_area)
            ),
            &EN_15544_BLEED,
        ),
    ]
}

fn air(design: &Design, analysis: &Analysis, system: System) -> Vec<Said> {
    let pressure = |value| figure(value, Quantity::Pressure, system);
    let own = own_suction(design, analysis.height_of_fire.pressure).map(|pascals| {
        let text = format!(
            "By its own height the house pulls with about {} at the heater on the day of the \
             design; {} were entered. A fan in kitchen, bath or dryer comes on top.",
            pressure(pascals),
            pressure(design.site.house_suction)
        );
        Said(text, &NEUTRAL_LEVEL)
    });
    let rest = [
        said(
            "A fire needs about 10 to 12 cubic meters (350 to 420 cubic feet) of air for a \
             kilogram (2.2 lb) of wood. In a tight house bring it from outdoors.",
            &AIR_PER_WOOD,
        ),
        said(
            "A duct for outdoor air is of something that cannot burn near the heater, screened, \
             closable, not from garage or attic, and never rises above the firebox.",
            &OUTSIDE_AIR,
        ),
        said("Turn fans off while the fire is lit and while it burns.", &RUNNING),
        said(
            "Before lighting hold a flame to a cleanout: it must lean inward. If it does not, warm \
             the flue with paper in the bypass or a cleanout.",
            &DRAFT_CHECK,
        ),
    ];
    own.into_iter().chain(rest).collect()
}

fn fire(design: &Design, system: System) -> Vec<Said> {
    let mass = |value| figure(value, Quantity::Mass, system);
    vec![
        Said(
            format!(
                "One or two full charges a day, here {} each, with the door closed, and with the \
                 air open while the flame stands.",
                mass(design.fire.charge)
            ),
            &FIRING,
        ),
        said(
            "Dry wood alone: nothing painted, glued or treated, no rubbish, nothing to start it \
             but paper and kindling.",
            &SALVAGE,
        ),
        said(
            "Never more wood than the heater is laid out for: in a laboratory twice the wood made \
             up to four times the smoke, for want of air.",
            &TISSARI_LOAD,
        ),
        said(
            "Never let the fire smolder to make it last: the masonry makes it last.",
            &RUNNING,
        ),
    ]
}

fn curing(design: &Design, system: System) -> Vec<Said> {
    let mass = |value| figure(value, Quantity::Mass, system);
    let charge = design.fire.charge;
    let days = (charge / CURING_STEP).ceil().max(1.0);
    vec![
        said("Let the masonry dry in the air for two to four weeks.", &CURING),
        Said(
            format!(
                "Then two small fires a day, six hours apart: {} each on the first day, {} more \
                 each day, the full {} on day {days:.0}. Poor draft is to be expected.",
                mass(CURING_STEP.min(charge)),
                mass(CURING_STEP),
                mass(charge)
            ),
            &CURING,
        ),
    ]
}

fn salvage() -> Vec<Said> {
    vec![
        said(
            "Old panels, gaskets, pipe insulation and stove cement may hold asbestos: leave them \
             whole and have them tested.",
            &SALVAGE,
        ),
        said(
            "Brick from a chimney is sooted and salty: it stains, smells and flakes, and does not \
             belong where people touch it or where it gets hot.",
            &SALVAGE,
        ),
        said(
            "Cut brick and stone wet or with a mask: dust of silica and ceramic fiber harms the \
             lungs for good.",
            &SALVAGE,
        ),
    ]
}

fn soot() -> Vec<Said> {
    vec![
        said(
            "Have the chimney looked at once a year, and after every soot fire in it.",
            &NFPA_211_INSPECTION,
        ),
        said(
            "Sweep runs and cleanouts when some 10 mm (3/8 in) of ash lie on the floor of a run or \
             1 to 2 mm (1/16 in) of soot on its walls: the table of other days shows what that does \
             to the draft.",
            &TRIAL_SOOT,
        ),
        said(
            "Ash holds embers for days. Keep it in a lidded metal can outdoors, away from anything \
             that can burn.",
            &ASH,
        ),
        said("Close every cleanout tightly before the next fire.", &RUNNING),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;

    #[test]
    fn every_sentence_carries_its_label() {
        let design = Design::demonstration();
        let analysis = analyze(&design).unwrap();
        for system in [System::Metric, System::Us] {
            let said = passage(&design, &analysis, system).plain();
            let (rules, _) = said.split_once("Where this comes from").unwrap();
            for line in rules.lines().filter(|line| line.trim_start().starts_with("- ")) {
                assert!(line.ends_with(']'), "{line}");
                assert!(!line.contains(" safe"), "{line}");
            }
        }
    }

    #[test]
    fn what_stays_open_and_the_first_fires_by_hand() {
        let mut design = Design::demonstration();
        design.chimney.flue_width = 0.40;
        design.fire.charge = 14.0;
        let analysis = analyze(&design).unwrap();
        let said = passage(&design, &analysis, System::Metric).plain();
        // 3 % of a round flue of 40 cm, 1257 cm2, is 38 cm2; 14 kg in steps of 1.8 kg take 8 days.
        assert!(said.contains("at least 38 cm²"), "{said}");
        assert!(said.contains("the full 14.0 kg on day 8"), "{said}");
    }

    #[test]
    fn carbon_monoxide_of_char_by_hand() {
        // 0.1 kg/h with 90 % of carbon, a fifth of it to CO: 0.1 x 0.9 x 0.2 x 28/12 = 42 g/h.
        let grams = 0.1 * 0.9 * 0.2 * 28.01 / 12.011 * 1000.0;
        assert!((grams - 42.0_f64).abs() < 0.5);
        // At 0.5 and 0.2 changes of 283 m3 an hour; 1 ppm is 1.165 mg/m3 at 20 C.
        let ppm = |changes: f64| 1000.0 * grams / (changes * 283.0) / 1.165;
        assert!((ppm(0.5) - 255.0).abs() < 3.0 && (ppm(0.2) - 640.0).abs() < 10.0);
        assert!(
            CHAR_MONOXIDE.text().contains("255 ppm")
                && CHAR_MONOXIDE.text().contains("640 ppm")
        );
    }
}
