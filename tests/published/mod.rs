//! Printed numbers, one file per publication.
//!
//! A number is typed from the publication, never from a run. What was read by us or by whoever
//! carried it over to us comes first; what stands only in memory is marked so. `DIFFERENCE:`
//! marks a number that does not agree, with the cause.
//!
//! Of the worked examples at hand these are not here, since the library does not compute them
//! yet: the chimney standard's own draft, clearance reduction, hearths.

mod bergman_2011;
mod channiwala_parikh_2002;
mod colebrook_1939;
mod en_13384;
mod en_15544;
mod en_15544_case;
mod gnielinski_1976;
mod gri_mech_1999;
mod hottel_sarofim_1967;
mod house_loss;
mod irc_r1002;
mod leckner_1972;
mod normal_quantiles;
mod shah_london_1978;
mod smith_1982;
mod stack_effect;
mod surface_emission;
mod sutherland_1893;
mod vdi_2010;
mod wall_behind;
mod wood_gas_balance;

use crate::{Publication, hold};

/// All publications, what was seen first.
pub fn all() -> Vec<Publication> {
    vec![
        channiwala_parikh_2002::publication(),
        gri_mech_1999::publication(),
        sutherland_1893::publication(),
        smith_1982::publication(),
        gnielinski_1976::publication(),
        vdi_2010::publication(),
        irc_r1002::publication(),
        house_loss::house(),
        house_loss::wall(),
        stack_effect::publication(),
        wood_gas_balance::publication(),
        bergman_2011::publication(),
        colebrook_1939::publication(),
        shah_london_1978::publication(),
        leckner_1972::publication(),
        hottel_sarofim_1967::publication(),
        surface_emission::publication(),
        en_15544::publication(),
        en_15544_case::publication(),
        en_13384::publication(),
        normal_quantiles::publication(),
        wall_behind::publication(),
        house_loss::design_load(),
    ]
}

#[test]
fn every_publication_is_held_to_its_numbers() {
    for publication in all() {
        hold(&publication);
    }
}
