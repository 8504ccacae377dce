//! GRI-Mech 3.0 (Smith and others, 1999), thermodynamic data: values worked by hand from the
//! printed coefficients; beside them the JANAF tables (Chase, 4th edition, 1998), from memory.

use crate::{Check, Publication};
use longsmoke::physics::gas::{Composition, Gas, Species, molar_mass};
use longsmoke::sources::Trust;

const ORDER: [Species; 5] = [
    Species::Nitrogen,
    Species::Oxygen,
    Species::CarbonDioxide,
    Species::Water,
    Species::Argon,
];

pub fn pure(species: Species) -> Gas {
    Gas::new(Composition::new(ORDER.map(|each| f64::from(u8::from(each == species)))))
}

pub fn publication() -> Publication {
    let capacity = [
        (Species::Nitrogen, "32.76"),
        (Species::Oxygen, "34.88"),
        (Species::CarbonDioxide, "54.32"),
        (Species::Water, "41.30"),
        (Species::Argon, "20.79"),
    ];
    let mut checks: Vec<Check> = capacity
        .into_iter()
        .map(|(species, printed)| {
            let computed = pure(species).heat_capacity(1000.0) * molar_mass(species);
            let what = format!("{species:?}, heat capacity at 1000 K (J/mol K)");
            let check = Check::rounds_to(what, computed, printed);
            if species == Species::Water {
                check
                    .differs("4.96661612 R is 41.2947: a slip of the worked value's last digit")
            } else {
                check
            }
        })
        .collect();
    let enthalpy = [
        (Species::Nitrogen, "21468", "21463"),
        (Species::Oxygen, "22707", "22703"),
        (Species::CarbonDioxide, "33397", "33397"),
        (Species::Water, "26003", "26000"),
    ];
    for (species, worked, janaf) in enthalpy {
        let computed = pure(species).enthalpy(1000.0) * molar_mass(species);
        checks.push(Check::rounds_to(
            format!("{species:?}, enthalpy from 298.15 to 1000 K (J/mol)"),
            computed,
            worked,
        ));
        checks.push(Check::within(
            format!(
                "{species:?}, enthalpy from 298.15 to 1000 K in JANAF, from memory (J/mol)"
            ),
            computed,
            janaf,
            0.0005,
            "the polynomials are a fit to such tables",
        ));
    }
    Publication {
        name: "GRI-Mech 3.0 (1999) thermodynamic data, and JANAF tables (1998)",
        trust: Trust::Seen,
        checks,
    }
}
