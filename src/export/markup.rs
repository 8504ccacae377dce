//! Well-formed XML, as it is written: SVG, and HTML in its XML form.

/// A document in the making. What is opened is closed in turn.
#[derive(Clone, Debug, Default)]
pub struct Markup {
    text: String,
    open: Vec<&'static str>,
}

/// Attributes of an element, by name.
pub type Attributes<'a> = &'a [(&'a str, &'a str)];

impl Markup {
    /// Opens an element.
    pub fn open(&mut self, name: &'static str, attributes: Attributes<'_>) {
        self.start(name, attributes);
        self.text.push('>');
        self.open.push(name);
    }

    /// Closes the element that was opened last.
    pub fn close(&mut self) {
        if let Some(name) = self.open.pop() {
            for part in ["</", name, ">"] {
                self.text.push_str(part);
            }
        }
    }

    /// An element without content, of those that HTML knows to have none, or of SVG.
    pub fn empty(&mut self, name: &'static str, attributes: Attributes<'_>) {
        self.start(name, attributes);
        self.text.push_str("/>");
    }

    /// An element with a text.
    pub fn element(&mut self, name: &'static str, attributes: Attributes<'_>, text: &str) {
        self.open(name, attributes);
        self.text(text);
        self.close();
    }

    /// A text.
    pub fn text(&mut self, text: &str) {
        self.escaped(text);
    }

    /// What is markup already.
    pub fn raw(&mut self, markup: &str) {
        self.text.push_str(markup);
    }

    /// The document, with all that is open closed.
    pub fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.close();
        }
        self.text
    }

    fn start(&mut self, name: &str, attributes: Attributes<'_>) {
        self.text.push('<');
        self.text.push_str(name);
        for (name, value) in attributes {
            for part in [" ", name, "=\""] {
                self.text.push_str(part);
            }
            self.escaped(value);
            self.text.push('"');
        }
    }

    fn escaped(&mut self, text: &str) {
        for character in text.chars() {
            match character {
                '&' => self.text.push_str("&amp;"),
                '<' => self.text.push_str("&lt;"),
                '>' => self.text.push_str("&gt;"),
                '"' => self.text.push_str("&quot;"),
                // XML has no place for these, however they are written.
                '\0'..='\u{8}'
                | '\u{b}'
                | '\u{c}'
                | '\u{e}'..='\u{1f}'
                | '\u{fffe}'
                | '\u{ffff}' => {
                    self.text.push('\u{fffd}');
                }
                other => self.text.push(other),
            }
        }
    }
}
