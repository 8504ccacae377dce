//! What is told of variants of a design: each in figures as it is found, for a plot and to be taken
//! as the design, and at the end what is read of them all.

use super::news::News;
use super::tell::Telling;
use super::wire::{read, write};
use super::{InUnits, Told};
use crate::design::Design;
use crate::study::compare::{Column, Compare};
use crate::study::strip::RUNS;
use crate::study::variant::Variant;
use crate::words;
use std::fmt;
use std::str::FromStr;

/// What is told of variants.
#[derive(Clone, Debug, PartialEq)]
pub enum VariantsTold {
    /// One of them.
    One(Variant),
    /// What is read of all of them.
    Read(Told),
}

/// Its kind, then its words.
impl fmt::Display for VariantsTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(variant) => write!(f, "variant {variant}"),
            Self::Read(told) => write!(f, "read {}", write(told)),
        }
    }
}

/// The words are not those of variants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotVariants;

impl FromStr for VariantsTold {
    type Err = NotVariants;

    fn from_str(text: &str) -> Result<Self, NotVariants> {
        let (kind, rest) = text.split_once(' ').ok_or(NotVariants)?;
        match kind {
            "variant" => rest.parse().map(Self::One).map_err(|_| NotVariants),
            "read" => read(rest).map(Self::Read).ok_or(NotVariants),
            _ => Err(NotVariants),
        }
    }
}

fn found(told: &VariantsTold) -> News {
    News::Found(told.to_string())
}

fn one(variant: Variant) -> News {
    found(&VariantsTold::One(variant))
}

/// One to ten runs.
pub(super) fn compare(design: &Design) -> Telling {
    let (of, mut columns) = (RUNS.count(), Vec::<Column>::new());
    let begun = News::Progress { done: 0, of };
    let news = Compare::new(design).flat_map(move |column| {
        let told = one(Variant::from(&column));
        columns.push(column);
        let done = columns.len();
        let mut news = vec![told, News::Progress { done, of }];
        if done == of {
            let say = |system| words::compare::passage(&columns, system);
            news.push(found(&VariantsTold::Read(InUnits::say(say))));
        }
        news
    });
    Box::new(std::iter::once(begun).chain(news))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::field::FieldId;
    use crate::service::order::Job;

    #[test]
    fn a_comparison_tells_each_column_and_then_the_passage() {
        let design = Design::demonstration();
        let news: Vec<News> = Job::Compare.news(&design).collect();
        let told = news.iter().filter_map(|news| match news {
            News::Found(words) => Some(words.parse::<VariantsTold>().unwrap()),
            _ => None,
        });
        let told: Vec<VariantsTold> = told.collect();
        let (last, columns) = told.split_last().unwrap();
        assert_eq!(columns.len(), 10);
        for (told, runs) in columns.iter().zip(1_u32..) {
            let VariantsTold::One(variant) = told else { panic!("{told:?}") };
            assert_eq!(variant.puts, [(FieldId::RunCount, f64::from(runs))]);
            assert_eq!(told.to_string().parse().as_ref(), Ok(told));
        }
        assert!(matches!(last, VariantsTold::Read(_)));
        assert_eq!(last.to_string().parse().as_ref(), Ok(last));
        assert_eq!("".parse::<VariantsTold>(), Err(NotVariants));
        assert_eq!("variant x".parse::<VariantsTold>(), Err(NotVariants));
    }
}
