//! The heater in its house, to read: does it cover the loss, which wood would, how warm may it get.

use super::passage::Passage;
use super::sources::cited;
use crate::analysis::Analysis;
use crate::analysis::conditions::MILD_OUTDOORS;
use crate::analysis::day::{Day, DayState};
use crate::analysis::house::{
    House, Overheating, Room, house, overheating, own_suction, rooms,
};
use crate::design::Design;
use crate::language::{English, said, say};
use crate::rules::{InHouse, WARMEST_ROOM};
use crate::sources::{
    EN_12831, EN_16798_ROOM, HOUSE_TIME_CONSTANT, NEUTRAL_LEVEL, STACK_EFFECT,
};
use crate::units::{Quantity, System, difference, figure, fixed, to_shown, unit_of};

/// Heading over the house.
pub const TITLE: English = English("The house");
/// What goes with every figure of the house.
pub const LABEL: English = English(
    "A first estimate: sun, people, appliances and what the house holds are not known here. \
     The loss per degree is as it was entered.",
);

/// A single firing from cold, and the day that repeats.
#[derive(Clone, Copy, Debug)]
pub struct Days<'a> {
    /// The firing from cold.
    pub first: &'a DayState,
    /// The day that repeats.
    pub repeating: &'a DayState,
}

/// The house as the day has it, where the day is known, else as the height of the fire has it.
pub fn of_day(design: &Design, analysis: &Analysis, day: Option<Days<'_>>) -> House {
    day.map_or(analysis.house, |day| {
        house(design, &analysis.height_of_fire, day.repeating.efficiency_lower)
    })
}

/// How warm the room may get: on the day of the design when the days repeat, and by one firing from
/// cold on a mild day.
pub fn warm_days(design: &Design, day: Days<'_>) -> [Overheating; 2] {
    let site = &design.site;
    let mild = MILD_OUTDOORS.max(site.outdoor_temperature);
    [
        overheating(design, day.repeating, site.outdoor_temperature),
        overheating(design, day.first, mild),
    ]
}

/// The heater in its house.
pub fn passage(
    design: &Design,
    analysis: &Analysis,
    day: Option<Days<'_>>,
    system: System,
) -> Passage {
    let found = of_day(design, analysis, day);
    let passage = Passage::new(TITLE)
        .text(cover(design, &found, day, system))
        .list(wood(design, &found, system));
    let passage = match day {
        Some(day) => {
            let passage = warm(passage, warm_days(design, day), system);
            in_room(passage, design, rooms(design, day.repeating), system)
        }
        None => passage,
    };
    let passage = match own_suction(design, analysis.height_of_fire.pressure) {
        Some(pascals) => passage.text(pulls(pascals, system)),
        None => passage,
    };
    passage.text(LABEL)
}

fn cover(design: &Design, house: &House, day: Option<Days<'_>>, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    let verdict = if house.mean_output < house.design_loss {
        said("does not cover it: something else has to heat on such days")
    } else {
        said("covers it")
    };
    let of = if day.is_some() {
        said("of the firing day")
    } else {
        said("of the height of the fire")
    };
    say!(
        "At {} outdoors the house loses {}, which makes {} in a day [{}]. The heater gives {} on \
         average, with the efficiency {of}, {}: it {verdict}.",
        show(design.site.outdoor_temperature, Quantity::Temperature),
        show(house.design_loss, Quantity::Power),
        show(house.day_need, Quantity::Energy),
        cited(&EN_12831),
        show(house.mean_output, Quantity::Power),
        show(house.efficiency_lower, Quantity::Share),
    )
}

/// The charge and the firings that would cover the loss.
fn wood(design: &Design, house: &House, system: System) -> Vec<String> {
    let mass = |value| figure(value, Quantity::Mass, system);
    let count = |value: f64| fixed(value, 1);
    let fire = &design.fire;
    let charge = house.charge_that_covers.map(|charge| {
        let firings = count(fire.firings_per_day);
        say!(
            "With {firings} firings a day, {} of wood each would cover that day.",
            mass(charge)
        )
    });
    let firings = house.firings_that_cover.map(|firings| {
        let charge = mass(fire.charge);
        say!("With {charge} of wood each, {} firings would cover that day.", count(firings))
    });
    charge.into_iter().chain(firings).collect()
}

fn warm(passage: Passage, days: [Overheating; 2], system: System) -> Passage {
    let show = |value, quantity| figure(value, quantity, system);
    let names = [
        said("Day of the design, when the days repeat"),
        said("Mild day, one firing from cold"),
    ];
    let rows = names.iter().zip(days).map(|(name, day)| {
        let outdoors = show(day.outdoors, Quantity::Temperature);
        let mut cells = vec![
            say!("{name}, {outdoors} outdoors"),
            show(day.peak, Quantity::Power),
            show(day.loss, Quantity::Power),
            show(day.surplus, Quantity::Energy),
        ];
        let rises = day.rises.map(|rises| rises.map(|rise| difference(rise, system)));
        cells.extend(rises.unwrap_or_else(|| ["-", "-", "-"].map(String::from)));
        cells
    });
    passage
        .table(
            &[
                said("How warm it may get"),
                said("Most to the room"),
                said("House loses"),
                said("Beyond that at a stretch"),
                said("Light house rises by"),
                said("Middling house"),
                said("Heavy house"),
            ],
            rows,
        )
        .text(say!(
            "The house is taken as one body that keeps what the heater gives beyond the loss. Air \
             warms more than walls, most of all near the heater. Light, middling and heavy are \
             rough [{}]. People like up to {} [{}].",
            cited(&HOUSE_TIME_CONSTANT),
            show(WARMEST_ROOM, Quantity::Temperature),
            cited(&EN_16798_ROOM),
        ))
}

/// The room over the day that repeats.
fn in_room(
    passage: Passage,
    design: &Design,
    rooms: Option<[Room; 3]>,
    system: System,
) -> Passage {
    let Some(rooms) = rooms else {
        return passage;
    };
    let show = |value| {
        let unit = unit_of(Quantity::Temperature, system).symbol;
        format!("{} {unit}", fixed(to_shown(value, Quantity::Temperature, system), 1))
    };
    let row = |name: &str, of: fn(&Room) -> f64| {
        std::iter::once(name.to_owned())
            .chain(rooms.iter().map(|room| show(of(room))))
            .collect()
    };
    passage
        .table(
            &[
                said("By the heater alone"),
                said("Light house"),
                said("Middling house"),
                said("Heavy house"),
            ],
            [
                row(said("Coldest hour"), |room| room.low),
                row(said("On average"), |room| room.mean),
                row(said("Warmest hour"), |room| room.high),
            ],
        )
        .text(say!(
            "The same body, which loses by its own temperature at {} outdoors, hour by hour over the \
             day of the design once it repeats [{}]. What else heats, or an opened window, moves all \
             three lines alike.",
            figure(design.site.outdoor_temperature, Quantity::Temperature, system),
            cited(&HOUSE_TIME_CONSTANT),
        ))
}

fn pulls(pascals: f64, system: System) -> String {
    say!(
        "By its own height and the cold outdoors the house pulls at the heater with about {}: \
         half the height of the roof times the difference of the weights of the air [{}; {}].",
        figure(pascals, Quantity::Pressure, system),
        cited(&STACK_EFFECT),
        cited(&NEUTRAL_LEVEL),
    )
}

/// A finding on the house for the line of a question.
pub(super) fn in_short(rule: InHouse, [found, limit]: [&str; 2]) -> String {
    match rule {
        InHouse::RoomOverheats => say!("room up to {found}, limit {limit}"),
        InHouse::SuctionLow => {
            say!("{found} of house suction, by its own height {limit}")
        }
        InHouse::SuctionHigh => say!("{found} of house suction, limit {limit}"),
        InHouse::DamperShuts => said("nothing stays open after the fire").into(),
    }
}

/// What was found.
pub(super) fn title(rule: InHouse, [found, limit]: [&str; 2]) -> String {
    match rule {
        InHouse::RoomOverheats => say!(
            "On the day of the design the heater gives so much more than the house loses, for \
             hours, that the room may get as warm as {found}; the limit here is {limit}. A first \
             estimate."
        ),
        InHouse::SuctionLow => say!(
            "Draft is judged with {found} of house suction; the height of the house and the cold \
             outdoors alone make about {limit} at the heater, and with that the draft does not \
             suffice."
        ),
        InHouse::SuctionHigh => say!(
            "The house pulls with {found} against its chimney; a fire with this supply of air bears \
             {limit}."
        ),
        InHouse::DamperShuts => {
            said("Nothing stays open through damper and door after the fire.").into()
        }
    }
}

/// Why it matters.
pub(super) fn reason(rule: InHouse) -> &'static str {
    let english = match rule {
        InHouse::RoomOverheats => "A room that is too warm is aired, and the heat is lost.",
        InHouse::SuctionLow => {
            "A house that pulls against its chimney draws smoke into the room."
        }
        InHouse::SuctionHigh => {
            "When the fire has burned down the chimney pulls less, and the house draws the carbon \
             monoxide of the char into the room."
        }
        InHouse::DamperShuts => {
            "Char glows on under its ash for hours, and its carbon monoxide needs a way out."
        }
    };
    said(english)
}

/// What to change.
pub(super) fn remedy(rule: InHouse) -> &'static str {
    let english = match rule {
        InHouse::RoomOverheats => {
            "Burn less at a time, fire less often, or make the facing thicker, so that the heat \
             comes later and longer."
        }
        InHouse::SuctionLow => {
            "Enter the suction that the house makes, close leaks high up in the house, and bring \
             the fire its air from outdoors."
        }
        InHouse::SuctionHigh => {
            "Have the fans switched off while there is fire or char, let outdoor air into the room, \
             or bring the fire its air through a tight duct."
        }
        InHouse::DamperShuts => {
            "Do not shut the air fully while char glows. Where there is a damper, cut an opening \
             into it: at least 3 % of the flue and 20 cm² (3.1 in²)."
        }
    };
    said(english)
}

impl<'a> From<&'a Day> for Days<'a> {
    fn from(day: &'a Day) -> Self {
        Self { first: &day.first_fire, repeating: &day.periodic }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;

    #[test]
    fn the_house_is_told_in_both_systems() {
        let design = Design::demonstration();
        let analysis = analyze(&design).unwrap();
        for system in [System::Metric, System::Us] {
            let said = passage(&design, &analysis, None, system).plain();
            let loss = figure(analysis.house.design_loss, Quantity::Power, system);
            assert!(said.contains(&loss) && said.contains("from memory"), "{said}");
            assert!(!said.contains("NaN") && !said.contains("inf "), "{said}");
        }
        // 100 W/K times 36 K.
        assert!((analysis.house.design_loss - 3600.0).abs() < 1e-9);
    }
}
