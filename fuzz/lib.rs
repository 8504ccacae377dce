//! What holds of anything that comes as a link or a file: it opens as a possible design that is
//! written and read again as the same, or it is refused by an error with a text.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use longsmoke::design::field::check;
use longsmoke::design::{document, link};

/// A fragment of a link.
pub fn link(fragment: &str) {
    match link::decode(fragment) {
        Ok(design) => {
            assert!(check(&design).is_empty());
            // Temperatures are kept to a billionth of a degree, so once more around is exact.
            let kept = link::decode(&link::encode(&design)).expect("what we write, we read");
            assert_eq!(link::decode(&link::encode(&kept)), Ok(kept));
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

/// The packed part of a link; of version 1, which has no checksum to get past.
pub fn packed(bytes: &[u8]) {
    link(&format!("1.{}", URL_SAFE_NO_PAD.encode(bytes)));
}

/// The values in a link.
pub fn values(text: &[u8]) {
    packed(&miniz_oxide::deflate::compress_to_vec(text, 6));
}

/// A file.
pub fn file(text: &str) {
    match document::read(text) {
        Ok(read) => {
            assert!(check(&read.design).is_empty());
            let again = |design| {
                let text = document::write(design, Some(&read.original));
                document::read(&text).expect("what we write, we read").design
            };
            let kept = again(&read.design);
            assert_eq!(again(&kept), kept);
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}
