//! A walk over the tags and texts of an XML document.

use std::borrow::Cow;

use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};

use super::damaged;
use crate::Refusal;

/// What a walk meets. Names are without their prefix.
pub(super) enum Step<'a> {
    Open(&'a str, Tag<'a>),
    Text(&'a str),
    Close(&'a str),
}

/// An opening tag.
pub(super) struct Tag<'a>(&'a BytesStart<'a>);

impl Tag<'_> {
    /// The value of an attribute, by its name without prefix.
    pub fn get(&self, name: &str) -> Option<Cow<'_, str>> {
        // The first of two with one name is meant, so nobody need look for the second.
        let mut all = self.0.attributes();
        let found = all.with_checks(false).flatten().find(|a| a.key.local_name().as_ref() == name)?;
        found.normalized_value(XmlVersion::Implicit1_0).ok()
    }
}

/// Walk over a document.
pub(super) fn walk(text: &str, mut visit: impl FnMut(Step<'_>) -> Result<(), Refusal>) -> Result<(), Refusal> {
    let mut reader = Reader::from_str(text);
    loop {
        match reader.read_event().map_err(damaged)? {
            Event::Start(tag) => visit(Step::Open(tag.local_name().as_ref(), Tag(&tag)))?,
            Event::Empty(tag) => {
                visit(Step::Open(tag.local_name().as_ref(), Tag(&tag)))?;
                visit(Step::Close(tag.local_name().as_ref()))?;
            }
            Event::End(tag) => visit(Step::Close(tag.local_name().as_ref()))?,
            Event::Text(text) => visit(Step::Text(&text.xml10_content()))?,
            Event::CData(text) => visit(Step::Text(&text.xml10_content()))?,
            Event::GeneralRef(entity) => {
                let letter = match entity.resolve_char_ref() {
                    Ok(Some(c)) => c.to_string(),
                    _ => quick_xml::escape::resolve_predefined_entity(&entity).unwrap_or("").to_owned(),
                };
                visit(Step::Text(&letter))?;
            }
            Event::Eof => return Ok(()),
            _ => {}
        }
    }
}
