//! What a link of each version means by what it leaves out, and a file of version 1 likewise:
//! frozen, so that the demonstration may change and every old document keeps its meaning.

use super::Design;
use super::document::set_field;
use super::field::FIELDS;
use serde_json::{Map, Value};

// An input that comes later is added to the first two tables, with the value by which documents that
// do not know it are meant; what stands in them is never changed.

/// Values that documents of version 1 leave out, by link key.
const DEFAULTS_1: &str = include_str!("link_defaults_1.json");

/// Values that links of version 2 leave out, by link key.
const DEFAULTS_2: &str = include_str!("link_defaults_2.json");

/// Values that links of version 3 leave out where they are others than those of version 2, by link
/// key.
const DEFAULTS_3: &str = include_str!("link_defaults_3.json");

/// The frozen values of a version, by link key.
pub(super) fn defaults(version: u32) -> Map<String, Value> {
    match version {
        1 => table(DEFAULTS_1),
        2 => table(DEFAULTS_2),
        _ => {
            let mut values = table(DEFAULTS_2);
            values.extend(table(DEFAULTS_3));
            values
        }
    }
}

fn table(text: &str) -> Map<String, Value> {
    match serde_json::from_str(text) {
        Ok(Value::Object(map)) => map,
        _ => Map::new(),
    }
}

/// The design of a document of a version that states nothing.
pub(super) fn design_of(version: u32) -> Design {
    let frozen = defaults(version);
    let mut design = Design::demonstration();
    design.name = String::new();
    design.path.overrides = Vec::new();
    for field in &FIELDS {
        if let Some(value) = frozen.get(field.link) {
            // The table holds possible values alone; a test reads every one of them.
            let _ = set_field(field, &mut design, value);
        }
    }
    design
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::document::field_value;

    /// Or the demonstration would change what old documents mean.
    #[test]
    fn every_input_has_its_frozen_value() {
        for version in [1, 2, 3, 4] {
            let frozen = defaults(version);
            for field in &FIELDS {
                assert!(frozen.contains_key(field.link), "{} of {version}", field.path);
            }
        }
    }

    #[test]
    fn every_frozen_value_belongs_to_an_input_and_is_taken() {
        for version in [1, 2, 3, 4] {
            let design = design_of(version);
            for (key, value) in defaults(version) {
                let field = FIELDS.iter().find(|field| field.link == key);
                let taken = field_value(field.unwrap(), &design);
                assert_eq!(taken.as_f64(), value.as_f64(), "{key}");
                assert_eq!(taken.as_str(), value.as_str(), "{key}");
            }
        }
    }
}
