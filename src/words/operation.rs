//! How a heater is run without harm, to read: carbon monoxide, damper, air, fire, first fires,
//! salvaged parts, soot and ash. Each sentence with how far its source was checked.

use super::passage::Passage;
use super::sources::cited;
use super::trust;
use crate::analysis::Analysis;
use crate::analysis::house::own_suction;
use crate::analysis::standard_route::sizes::bleed_area;
use crate::build::curing::{FIRES, STEP, charges};
use crate::design::Design;
use crate::language::{English, said, say};
use crate::sources::{
    AIR_PER_WOOD, ASH, CHAR_LEFT, CHAR_MONOXIDE, CURING, DAMPER_CLOSING, DAMPER_OPENING,
    DRAFT_CHECK, EN_15544_BLEED, FIRING, FOAM_SERVICE, HEARTH_EMISSIONS, MONOXIDE_ALARM,
    NEUTRAL_LEVEL, NFPA_211_INSPECTION, OUTSIDE_AIR, RUNNING, SALVAGE, Source, TISSARI_LOAD,
    TRIAL_SOOT,
};
use crate::units::{Quantity, System, figure};

/// Heading over it all.
pub const TITLE: English = English("Carbon monoxide and operation");

/// Least share of the flue that stays open behind a damper (–), and least opening (m2).
///
/// # Source
///
/// [`DAMPER_OPENING`].
const STAYS_OPEN: (f64, f64) = (0.03, 0.0020);

/// A sentence with its source.
struct Said(String, &'static Source);

fn sourced(english: &'static str, source: &'static Source) -> Said {
    Said(said(english).into(), source)
}

/// How a heater is run without harm.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let sections = [
        (said("Carbon monoxide"), monoxide()),
        (said("The damper"), damper(design, system)),
        (said("Air and the house"), air(design, analysis, system)),
        (said("The fire"), fire(design, system)),
        (said("The first fires"), curing(design, system)),
        (said("Salvaged parts"), salvage()),
        (said("Soot, cleaning and ash"), soot().into_iter().chain(ash()).collect()),
    ];
    let mut sources: Vec<String> = Vec::new();
    let mut passage = Passage::new(TITLE);
    for (title, sentences) in sections {
        for Said(_, source) in &sentences {
            let cited = cited(source);
            if !sources.contains(&cited) {
                sources.push(cited);
            }
        }
        passage = passage.folded(Passage::new(title).list(plain(&sentences)));
    }
    passage.folded(Passage::new(said("Where this comes from")).list(sources))
}

fn monoxide() -> Vec<Said> {
    vec![
        sourced(
            "Carbon monoxide has no smell. It comes from glowing char as much as from flames, and \
             most of all when the fire gets little air.",
            &RUNNING,
        ),
        sourced(
            "Heaters in homes gave 41 and 83 g of it for a kilogram of wood (0.7 and 1.3 oz a pound).",
            &HEARTH_EMISSIONS,
        ),
        sourced(
            "Fit a carbon monoxide alarm in the room of the heater and where people sleep, and try \
             it as its maker says.",
            &MONOXIDE_ALARM,
        ),
        sourced(
            "Char glows under its ash for hours: in one laboratory fire 2.5 kg (5.5 lb) were left \
             after 3.5 hours, 1.2 kg (2.6 lb) after 7.5 hours.",
            &CHAR_LEFT,
        ),
        sourced(
            "If the damper is shut on a tenth of a kilogram (a quarter pound) of char an hour, a \
             house can come to some 255 ppm of carbon monoxide in its air; a tight one to 640 ppm.",
            &CHAR_MONOXIDE,
        ),
    ]
    .into_iter()
    .chain(alarm())
    .collect()
}

fn alarm() -> Vec<Said> {
    vec![sourced(
        "When the alarm sounds: everybody out, call for help, and touch the heater no more.",
        &RUNNING,
    )]
}

fn damper(design: &Design, system: System) -> Vec<Said> {
    let (share, least) = STAYS_OPEN;
    let stays = (share * design.chimney.area()).max(least);
    let opening = |value| figure(value, Quantity::Opening, system);
    vec![
        sourced(
            "Never close the damper by the clock. Close it only when the bed has been raked \
             through and shows no flame, red or blue, and no glowing coal.",
            &DAMPER_CLOSING,
        ),
        sourced("If in doubt, leave it open. Heat lost is cheap.", &DAMPER_CLOSING),
        sourced(
            "While char glows the air may be reduced, never shut, and the damper stays open.",
            &DAMPER_CLOSING,
        ),
        Said(
            say!(
                "Even a closed damper must leave an opening: here at least {}. It vents only while \
                 the chimney pulls.",
                opening(stays)
            ),
            &DAMPER_OPENING,
        ),
        Said(
            say!(
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
        let text = say!(
            "By its own height the house pulls with about {} at the heater on the day of the \
             design; {} were entered. A fan in kitchen, bath or dryer comes on top.",
            pressure(pascals),
            pressure(design.site.house_suction)
        );
        Said(text, &NEUTRAL_LEVEL)
    });
    let rest = [
        sourced(
            "A fire needs about 10 to 12 cubic meters (350 to 420 cubic feet) of air for a \
             kilogram (2.2 lb) of wood. In a tight house bring it from outdoors.",
            &AIR_PER_WOOD,
        ),
        sourced(
            "A duct for outdoor air is of something that cannot burn near the heater, screened, \
             closable, not from garage or attic, and never rises above the firebox.",
            &OUTSIDE_AIR,
        ),
    ];
    own.into_iter().chain(rest).chain(lighting()).collect()
}

fn lighting() -> Vec<Said> {
    vec![
        sourced("Turn fans off while the fire is lit and while it burns.", &RUNNING),
        sourced(
            "Before lighting hold a flame to a cleanout: it must lean inward. If it does not, warm \
             the flue with paper in the bypass or a cleanout.",
            &DRAFT_CHECK,
        ),
    ]
}

fn fire(design: &Design, system: System) -> Vec<Said> {
    let mass = |value| figure(value, Quantity::Mass, system);
    vec![
        Said(
            say!(
                "One or two full charges a day, here {} each, with the door closed, and with the \
                 air open while the flame stands.",
                mass(design.fire.charge)
            ),
            &FIRING,
        ),
        sourced(
            "Dry wood alone: nothing painted, glued or treated, no rubbish, nothing to start it \
             but paper and kindling.",
            &SALVAGE,
        ),
        sourced(
            "Never more wood than the heater is laid out for: in a laboratory twice the wood made \
             up to four times the smoke, for want of air.",
            &TISSARI_LOAD,
        ),
        sourced(
            "Never let the fire smolder to make it last: the masonry makes it last.",
            &RUNNING,
        ),
    ]
}

fn curing(design: &Design, system: System) -> Vec<Said> {
    let mass = |value| figure(value, Quantity::Mass, system);
    let charge = design.fire.charge;
    let days = charges(charge).len();
    vec![
        sourced("Let the masonry dry in the air for two to four weeks.", &CURING),
        Said(
            say!(
                "Then {FIRES} small fires a day, six hours apart: {} each on the first day, {} \
                 more each day, the full {} on day {days}. Poor draft is to be expected.",
                mass(STEP.min(charge)),
                mass(STEP),
                mass(charge)
            ),
            &CURING,
        ),
    ]
}

/// The first fires, day by day.
pub fn curing_plan(design: &Design, system: System) -> Passage {
    let mass = |value| figure(value, Quantity::Mass, system);
    let rows = charges(design.fire.charge).into_iter().enumerate().map(|(day, charge)| {
        let whole = f64::from(FIRES) * charge;
        vec![(day + 1).to_string(), FIRES.to_string(), mass(charge), mass(whole)]
    });
    let heads = [said("Day"), said("Fires"), said("Wood of each"), said("Wood of the day")];
    Passage::new(said("The first fires, day by day"))
        .list(plain(&curing(design, system)))
        .table(&heads, rows)
        .list(plain(&[sourced(
            "Steam from joints and hairline cracks in plaster are usual. If a crack opens, or mortar \
             falls out, stop, let it cool and mend it.",
            &CURING,
        )]))
}

/// A card to hang on the wall beside the heater.
pub fn firing_card(design: &Design, system: System) -> Passage {
    let mut closing = damper(design, system);
    // The bleed slot is a matter of the build.
    closing.retain(|Said(_, source)| *source != &EN_15544_BLEED);
    let sections = [
        (said("Before lighting"), lighting()),
        (said("The fire"), fire(design, system)),
        (said("Closing"), closing),
        (said("Ash"), ash()),
        (said("Carbon monoxide"), alarm()),
    ];
    let card = Passage::new(said("Firing card for the wall"));
    sections
        .into_iter()
        .fold(card, |card, (title, sentences)| card.head(title).list(plain(&sentences)))
}

/// What every year asks for.
pub fn yearly_care() -> Passage {
    let care = vec![
        sourced(
            "Look at door and gasket, damper, cleanout doors, joints and cap, and mend them before \
             the first fire of the winter.",
            &RUNNING,
        ),
        sourced("Try the carbon monoxide alarms and change old ones.", &MONOXIDE_ALARM),
    ];
    Passage::new(said("Every year")).list(plain(&soot())).list(plain(&care))
}

/// What salvaged material may hold.
pub fn salvaged() -> Passage {
    Passage::new(said("Hazards of salvaged material")).list(plain(&salvage()))
}

/// Sentences with how far their sources were checked.
fn plain(sentences: &[Said]) -> Vec<String> {
    let line = |Said(text, source): &Said| format!("{text} [{}]", trust(source.trust));
    sentences.iter().map(line).collect()
}

fn salvage() -> Vec<Said> {
    vec![
        sourced(
            "Old panels, gaskets, pipe insulation and stove cement may hold asbestos: leave them \
             whole and have them tested.",
            &SALVAGE,
        ),
        sourced(
            "Brick from a chimney is sooted and salty: it stains, smells and flakes, and does not \
             belong where people touch it or where it gets hot.",
            &SALVAGE,
        ),
        sourced(
            "Old paint may hold lead: do not sand, scrape dry or heat it. Painted brick and painted \
             metal have no place in a heater.",
            &SALVAGE,
        ),
        sourced(
            "Painted, glued or treated wood is no fuel, and no form that stays in the masonry.",
            &SALVAGE,
        ),
        sourced(
            "Foam panels soften from 75 \u{b0}C (167 \u{b0}F) on and burn with poisonous smoke: none \
             under, behind or above the heater, none at the chimney.",
            &FOAM_SERVICE,
        ),
        sourced(
            "Cut brick and stone wet or with a mask: dust of silica and ceramic fiber harms the \
             lungs for good.",
            &SALVAGE,
        ),
    ]
}

fn soot() -> Vec<Said> {
    vec![
        sourced(
            "Have the chimney looked at once a year, and after every soot fire in it.",
            &NFPA_211_INSPECTION,
        ),
        sourced(
            "Sweep runs and cleanouts when some 10 mm (3/8 in) of ash lie on the floor of a run or \
             1 to 2 mm (1/16 in) of soot on its walls: the table of other days shows what that does \
             to the draft.",
            &TRIAL_SOOT,
        ),
        sourced("Close every cleanout tightly before the next fire.", &RUNNING),
    ]
}

fn ash() -> Vec<Said> {
    vec![sourced(
        "Ash holds embers for days. Keep it in a lidded metal can outdoors, away from anything \
             that can burn.",
        &ASH,
    )]
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
