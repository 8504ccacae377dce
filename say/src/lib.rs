//! The macro by which a sentence is said in the reader's language.
//!
//! A crate of its own since only a procedural macro can look into the text of a sentence, so that
//! sentences are written as for `format!`.

use proc_macro::{
    Delimiter, Group, Ident, Literal, Punct, Spacing, Span, TokenStream, TokenTree,
};

/// Says a sentence in the reader's language: `say!("{found} in {place}, limit {limit}")`.
///
/// The text is written as for `format!` and is the key by which its translation is found. What stands
/// in braces is shown by `Display` alone: figures come with their digits and their decimal mark from
/// `units`, so nothing may stand behind a colon.
#[proc_macro]
pub fn say(input: TokenStream) -> TokenStream {
    match sentence(input) {
        Ok(call) => call,
        Err(wrong) => {
            let wrong = TokenTree::from(Literal::string(&wrong));
            format!("::core::compile_error!({wrong})").parse().unwrap_or_default()
        }
    }
}

fn sentence(input: TokenStream) -> Result<TokenStream, String> {
    let mut given = split(input).into_iter();
    let text = given.next().and_then(literal).ok_or("a sentence is wanted first")?;
    let mut unnamed = Vec::new();
    let mut named: Vec<(String, TokenStream)> = Vec::new();
    for argument in given {
        match name_of(&argument) {
            Some((name, value)) => named.push((name, value)),
            None => unnamed.push(argument),
        }
    }
    let mut unnamed = unnamed.into_iter();
    let mut seen: Vec<String> = Vec::new();
    let mut values = TokenStream::new();
    for name in placeholders(&text.to_string())? {
        if !name.is_empty() && seen.contains(&name) {
            continue;
        }
        let value = if name.is_empty() {
            unnamed.next().ok_or("a value is missing for {}")?
        } else if let Some(at) = named.iter().position(|(each, _)| *each == name) {
            named.swap_remove(at).1
        } else {
            TokenTree::from(Ident::new(&name, text.span())).into()
        };
        seen.push(name);
        values.extend([
            TokenTree::from(Punct::new('&', Spacing::Alone)),
            Group::new(Delimiter::Parenthesis, value).into(),
            Punct::new(',', Spacing::Alone).into(),
        ]);
    }
    if unnamed.next().is_some() || !named.is_empty() {
        return Err("a value stands nowhere in the sentence".into());
    }
    Ok(call(text, values))
}

/// `::longsmoke::language::sentence("…", &[&(value), …])`.
fn call(text: Literal, values: TokenStream) -> TokenStream {
    let mut path: TokenStream = "::longsmoke::language::sentence".parse().unwrap_or_default();
    let arguments = [
        TokenTree::from(text),
        Punct::new(',', Spacing::Alone).into(),
        Punct::new('&', Spacing::Alone).into(),
        Group::new(Delimiter::Bracket, values).into(),
    ];
    let arguments = Group::new(Delimiter::Parenthesis, arguments.into_iter().collect());
    path.extend([TokenTree::from(arguments)]);
    // Names in braces are those where the sentence stands.
    path.into_iter().map(|each| located(each)).collect()
}

fn located(mut token: TokenTree) -> TokenTree {
    if !matches!(token, TokenTree::Group(_)) {
        token.set_span(Span::call_site());
    }
    token
}

/// What stands between commas.
fn split(input: TokenStream) -> Vec<TokenStream> {
    let mut parts = vec![TokenStream::new()];
    for token in input {
        match (&token, parts.last_mut()) {
            (TokenTree::Punct(mark), _) if mark.as_char() == ',' => {
                parts.push(TokenStream::new());
            }
            (_, Some(part)) => part.extend([token]),
            (_, None) => {}
        }
    }
    parts.retain(|part| !part.is_empty());
    parts
}

fn literal(part: TokenStream) -> Option<Literal> {
    let mut tokens = part.into_iter();
    match (tokens.next()?, tokens.next()) {
        (TokenTree::Literal(text), None) if text.to_string().starts_with('"') => Some(text),
        (TokenTree::Group(group), None) => literal(group.stream()),
        _ => None,
    }
}

/// Name and value of `name = value`.
fn name_of(part: &TokenStream) -> Option<(String, TokenStream)> {
    let mut tokens = part.clone().into_iter();
    let (TokenTree::Ident(name), TokenTree::Punct(mark)) = (tokens.next()?, tokens.next()?)
    else {
        return None;
    };
    let is_name = mark.as_char() == '=' && mark.spacing() == Spacing::Alone;
    is_name.then(|| (name.to_string(), tokens.collect()))
}

/// Names of what is put in, in the order of a sentence as it is written in the source; empty for `{}`.
fn placeholders(source: &str) -> Result<Vec<String>, String> {
    let mut names = Vec::new();
    let mut rest = source.chars();
    while let Some(letter) = rest.next() {
        match letter {
            '\\' => {
                // The braces of an escaped letter, `\u{a0}`, hold no name.
                if rest.next() == Some('u') {
                    rest.by_ref().take_while(|each| *each != '}').for_each(drop);
                }
            }
            '{' => {
                let name: String = rest.by_ref().take_while(|each| *each != '}').collect();
                if !name.chars().all(|each| each.is_alphanumeric() || each == '_') {
                    return Err(format!("{{{name}}}: a figure comes in its digits from units"));
                }
                names.push(name);
            }
            _ => {}
        }
    }
    Ok(names)
}
