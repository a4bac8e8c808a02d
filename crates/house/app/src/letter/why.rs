//! The notes behind the numbers, in plain text.

use quantity::Why;

/// The notes behind the numbers.
pub fn whys<'a>(notes: impl IntoIterator<Item = &'a Why>) -> String {
    let mut text = String::new();
    for why in notes {
        let named: Vec<String> = why.sources.iter().map(|key| knowledge::book().cite_words(key)).collect();
        let sources = if named.is_empty() { String::new() } else { format!("; {}", named.join("; ")) };
        text += &format!("\n{}\n", why.question);
        let lines = [why.sum.as_str(), &why.words, &format!("{}{sources}", why.kind.words())];
        for line in lines.iter().filter(|line| !line.is_empty()) {
            text += &format!("  {line}\n");
        }
    }
    text
}
