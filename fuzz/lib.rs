//! What holds of anything that comes as a link or a file: it opens as a possible design that is
//! written and read again as the same, or it is refused by an error with a text.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use longsmoke::design::field::check;
use longsmoke::design::link::Linked;
use longsmoke::design::{document, link};

/// A fragment of a link.
pub fn link(fragment: &str) {
    match link::decode(fragment) {
        Ok(design) => {
            assert!(check(&design).is_empty());
            // Temperatures are kept to a billionth of a degree, so once more around is exact.
            let kept = link::decode(&link::encode(&design)).expect("what we write, we read");
            assert_eq!(link::decode(&link::encode(&kept)), Ok(kept));
            let Linked { design, pinned } = link::decode_pinned(fragment).expect("it was");
            reads_again(&document::write_pinned(&design, &pinned, None));
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
            reads_again(&read.written());
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

/// A file that we write is read, and written once more it means the same.
fn reads_again(text: &str) {
    let kept = document::read(text).expect("what we write, we read");
    let again = document::read(&kept.written()).expect("what we write, we read");
    assert_eq!((again.design, again.pinned), (kept.design, kept.pinned));
}
