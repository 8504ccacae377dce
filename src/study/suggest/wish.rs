//! What is wished of a suggestion.

use crate::study::trials::Trial;

/// What a suggestion may aim at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// Warmth that lasts.
    Warmth,
    /// Little wood for the heat.
    Wood,
    /// Little masonry.
    Masonry,
    /// Few runs, in whole courses and half bricks.
    Simplicity,
}

impl Aim {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Warmth, Self::Wood, Self::Masonry, Self::Simplicity];

    /// Name in messages and commands.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Warmth => "warmth",
            Self::Wood => "wood",
            Self::Masonry => "masonry",
            Self::Simplicity => "simplicity",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|aim| aim.id() == id)
    }
}

/// Conditions in which a yes is wished, and aims that count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wish {
    /// A bit for each of [`Trial::ALL`]; none for all in which a yes is found.
    trials: u16,
    /// A bit for each of [`Aim::ALL`]; none for all alike.
    aims: u8,
}

impl Wish {
    /// A wish.
    ///
    /// * `trials`: none for all in which a yes is found.
    /// * `aims`: none for all alike.
    pub fn new(trials: &[Trial], aims: &[Aim]) -> Self {
        let bits = |has: &mut dyn Iterator<Item = bool>| {
            has.zip(0_u16..).map(|(has, place)| u16::from(has) << place).sum::<u16>()
        };
        let trials = bits(&mut Trial::ALL.iter().map(|each| trials.contains(each)));
        let aims = bits(&mut Aim::ALL.iter().map(|each| aims.contains(each)));
        Self { trials, aims: u8::try_from(aims).unwrap_or_default() }
    }

    /// From its two numbers in a message.
    pub fn from_bits(trials: u16, aims: u8) -> Self {
        let most = Self::new(&Trial::ALL, &Aim::ALL);
        Self { trials: trials & most.trials, aims: aims & most.aims }
    }

    /// Its two numbers in a message.
    pub const fn bits(self) -> (u16, u8) {
        (self.trials, self.aims)
    }

    /// Conditions that must be answered yes, in their order; none where that is left to what is
    /// found.
    pub fn trials(self) -> Option<Vec<Trial>> {
        let places = Trial::ALL.into_iter().zip(0_u16..);
        let asked = places.filter(|(_, place)| self.trials >> place & 1 == 1);
        let asked: Vec<_> = asked.map(|(trial, _)| trial).collect();
        (!asked.is_empty()).then_some(asked)
    }

    /// Whether an aim counts.
    pub fn aims_at(self, aim: Aim) -> bool {
        let mut places = Aim::ALL.into_iter().zip(0_u8..);
        let place = places.find(|(each, _)| *each == aim).map_or(0, |(_, place)| place);
        self.aims == 0 || self.aims >> place & 1 == 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wish_survives_its_bits() {
        let wish = Wish::new(&[Trial::ColdDay, Trial::Wind], &[Aim::Masonry]);
        assert_eq!(wish.trials(), Some(vec![Trial::ColdDay, Trial::Wind]));
        assert!(wish.aims_at(Aim::Masonry) && !wish.aims_at(Aim::Warmth));
        let (trials, aims) = wish.bits();
        assert_eq!(Wish::from_bits(trials, aims), wish);
        assert_eq!(Wish::default().trials(), None);
        assert!(Aim::ALL.into_iter().all(|aim| Wish::default().aims_at(aim)));
        assert!(Aim::ALL.into_iter().all(|aim| Aim::from_id(aim.id()) == Some(aim)));
    }
}
